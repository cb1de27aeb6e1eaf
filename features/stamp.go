package features

import (
	"fmt"
	"unicode"
)

// doubtStamps doubts rings with a word in them that names no part, beside a
// larger part: the mark of a stamp looks like a ring cut from plate.
func (b *builder) doubtStamps() {
	for d := range b.drafts {
		l := &b.loops[b.drafts[d].outline]
		c, radius, ok := l.isCircle()
		if !ok || len(b.drafts[d].holes) != 1 || !b.isLesser(d) || b.isCalledPart(d, radius) {
			continue
		}
		if hc, _, ok := b.loops[b.drafts[d].holes[0]].isCircle(); !ok || hc.Dist(c) > alikeMM {
			continue
		}
		for k := range b.sheet.Texts {
			t := &b.sheet.Texts[k]
			if isWord(t.Value) && b.textMiddle(t).Dist(c) < radius {
				b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-letter", Grave: true, At: c, Source: l.sources(),
					Text: fmt.Sprintf("two circles about one centre with the word %q in them: a stamp, or a ring", clip(t.Value))})
				break
			}
		}
	}
}

// alikeMM is how far the centres of two circles may lie apart that were drawn
// about one.
const alikeMM = 0.1

// isLesser tells whether another draft is larger.
func (b *builder) isLesser(d int) bool {
	size := func(i int) float64 {
		box := &b.loops[b.drafts[i].outline].box
		return box.Width() * box.Height()
	}
	for i := range b.drafts {
		if i != d && size(i) > size(d) {
			return true
		}
	}
	return false
}

// isWord tells of a text with four letters or more in a row.
func isWord(text string) bool {
	n := 0
	for _, r := range text {
		if n++; !unicode.IsLetter(r) {
			n = 0
		}
		if n == 4 {
			return true
		}
	}
	return false
}
