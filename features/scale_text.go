package features

import (
	"fmt"
	"slices"

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

// askScale doubts the parts of a framed sheet that states a scale where nothing
// tells whether they are drawn to it: no dimension, and no call-out that is right
// at full size.
func (b *builder) askScale() {
	f := b.statedScale()
	framed := slices.ContainsFunc(b.areas, func(a sheetArea) bool { return a.frame })
	if f == 0 || f == 1 || !framed || len(b.scales) > 0 {
		return
	}
	for i := range b.drawnDims {
		if judgeDim(&b.drawnDims[i], b.sheet.Units.MM).verdict != dimSilent {
			return
		}
	}
	for i := range b.sheet.Parts {
		p := &b.sheet.Parts[i]
		if slices.ContainsFunc(p.CallOuts, func(c CallOut) bool { return len(c.Features) > 0 }) || p.Angle != nil && p.Angle.SectionText.From != "" {
			return
		}
	}
	for i := range b.sheet.Parts {
		p := &b.sheet.Parts[i]
		p.Doubts = append(p.Doubts, Doubt{Code: "view-scale", Grave: true, At: p.OnDrawing(p.Box.Min),
			Text: fmt.Sprintf("the sheet states the scale %s and no dimension tells whether the part is drawn to it; sizes are judged as drawn", scaleRatio(f))})
	}
}
