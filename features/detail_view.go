package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
)

// titleHeights is how far the title of a view stands from it, in heights of its
// letters (common practice, no source).
const titleHeights = 8.0

// takeDetails takes out closed outlines that a title names as an enlarged
// detail: "DETAIL B (2:1)" under or over them. A letter by itself elsewhere, where
// the detail was taken from, or the scale in the title bears it out; without
// either the outline stays a part and is doubted. One outline is left at least.
func (b *builder) takeDetails() error {
	var titles []*Text
	for i := range b.sheet.Texts {
		if t := &b.sheet.Texts[i]; isDetailTitle(t.Value) && b.tableOf(t) < 0 && t.HeightMM > 0 {
			titles = append(titles, t)
		}
	}
	if len(titles) == 0 {
		return nil
	}
	b.settleChildren()
	var tops []int
	for i := range b.loops {
		if l := &b.loops[i]; !l.dead && !l.toolMark && l.parent < 0 {
			tops = append(tops, i)
		}
	}
	slices.SortStableFunc(tops, b.compareLoops)
	left := len(tops)
	for _, t := range titles {
		top := b.viewUnderTitle(t, tops)
		if top < 0 || b.loops[top].dead || left < 2 {
			continue
		}
		l := &b.loops[top]
		size := fmt.Sprintf("%s x %s mm", shortNumber(l.box.Width()), shortNumber(l.box.Height()))
		if !b.detailOf(t, top, tops) || !hasRatio(t.Value) && !b.letterElsewhere(t, &l.box) {
			b.loopDoubts = append(b.loopDoubts, loopDoubt{top, Doubt{Code: "maybe-detail", Grave: true, At: l.box.Min, Source: l.sources(),
				Text: fmt.Sprintf("this outline stands with the title %q: it may be a detail of another part, at another scale", clip(t.Value))}})
			continue
		}
		for _, i := range b.withinLoop(top) {
			b.loops[i].dead = true
		}
		left--
		b.takenBoxes = append(b.takenBoxes, l.box)
		b.detailBoxes = append(b.detailBoxes, l.box.Grow(t.HeightMM))
		b.note(Note{Code: "detail-view", At: l.box.Min, HasAt: true, Source: append(l.sources(), t.Source),
			Text: fmt.Sprintf("the outline of %s by the title %q is a detail of a part and no part; it was left out", size, clip(t.Value))})
	}
	b.settleChildren()
	return nil
}

// detailOf tells whether an outline at the scale of its title is no larger than
// another one, which it may be a piece of.
func (b *builder) detailOf(t *Text, top int, tops []int) bool {
	enlarged := 1.0
	for _, w := range strings.FieldsFunc(t.Value, func(r rune) bool { return strings.ContainsRune(" \t\n()[]", r) }) {
		if f, _, ok := measure.ScaleNote(w); ok && isRatio(w) {
			enlarged = 1 / f
		}
	}
	sides := func(i int) (long, short float64) {
		w, h := b.loops[i].box.Width(), b.loops[i].box.Height()
		return max(w, h), min(w, h)
	}
	long, short := sides(top)
	return slices.ContainsFunc(tops, func(i int) bool {
		if i == top || b.loops[i].dead {
			return false
		}
		l, s := sides(i)
		return long/enlarged <= l && short/enlarged <= s
	})
}

// isDetailTitle tells whether a text is the title of an enlarged view and no
// reference to one: "SEE DETAIL B" begins with another word.
func isDetailTitle(text string) bool {
	text = strings.TrimSpace(text)
	if len(text) > 40 || detailLetter(text) == "" {
		return false
	}
	words := strings.Fields(text)
	return len(words) <= 6 && (detailLetter(words[0]+" X") != "" || strings.HasPrefix(text, detailLetter(text)))
}

// hasRatio tells whether a title states a scale.
func hasRatio(text string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t\n()[]", r) }), isRatio)
}

// viewUnderTitle is the outline that a title names: the nearest one over or under
// it within reach, -1 none or more than one as near.
func (b *builder) viewUnderTitle(t *Text, tops []int) int {
	best, view := titleHeights*t.HeightMM, -1
	sin, cos := math.Sincos(t.AngleRad)
	u := geom.Point{X: cos, Y: sin}
	middle := t.At.Add(u.Mul(t.HeightMM / 3 * float64(longestLine(t.Value))))
	for i := range b.takenBoxes {
		best = min(best, boxDist(b.takenBoxes[i], middle)) // a view that was told by its circle
	}
	for _, i := range tops {
		r := b.loops[i].ring
		at := middle.Dot(u)
		if b.loops[i].box.Contains(middle) || at < -r.Support(u.Mul(-1))-2*t.HeightMM || at > r.Support(u)+2*t.HeightMM {
			continue
		}
		if d := boxDist(b.loops[i].box, middle); d < best {
			best, view = d, i
		}
	}
	return view
}

// letterElsewhere tells whether the letter of a detail stands by itself away
// from the view with its title.
func (b *builder) letterElsewhere(title *Text, view *geom.Box) bool {
	letter := detailLetter(title.Value)
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if strings.TrimSpace(t.Value) == letter && !view.Grow(titleHeights*title.HeightMM).Contains(t.At) {
			return true
		}
	}
	return false
}

// ofDetail tells whether a dimension measures a detail that was left out.
func (b *builder) ofDetail(d *drawnDim) bool {
	k := b.sheet.Units.MM
	return slices.ContainsFunc(b.detailBoxes, func(box geom.Box) bool { return box.Contains(d.from.Mul(k)) && box.Contains(d.to.Mul(k)) })
}
