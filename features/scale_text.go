package features

import (
	"burrside/features/measure"
)

// statedScale is the scale that the sheet's texts state, true over drawn; 0
// none, or more than one. Words say that it is one, or the title block or a
// label beside it: a bare ratio elsewhere may be a slope.
func (b *builder) statedScale() float64 {
	found := 0.0
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		f, word, ok := measure.ScaleNote(t.Value)
		if !ok || !word && t.Tag == "" && b.tableOf(t) < 0 {
			continue
		}
		if found != 0 && found != f {
			return 0
		}
		found = f
	}
	return found
}
