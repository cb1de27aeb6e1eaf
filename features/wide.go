package features

import (
	"fmt"
	"math"

	"burrside/dxfread"
)

// A polyline may be drawn with a width. Up to wideMM, and up to wideOf of what
// it runs round, the width is a pen's and the middle is the contour; a wider one
// may stand for its inner or its outer edge, as a ring or a filled dot does.
const (
	wideMM = 1.0
	wideOf = 0.05
)

// doubtWide doubts the parts whose contours are drawn as wide lines.
func (b *builder) doubtWide() {
	wide := false
	for i := range b.items {
		wide = wide || strokeOf(&b.items[i]) > 0
	}
	if !wide {
		return
	}
	for i := range b.loops {
		l := &b.loops[i]
		owner := b.owner[i]
		if l.dead || owner < 0 {
			continue
		}
		if l.dotDoubted {
			continue // its size is the least of the questions
		}
		width := b.strokeOfLoop(l)
		if width <= math.Min(wideMM, wideOf*math.Min(l.box.Width(), l.box.Height())) {
			continue
		}
		what := "contour"
		if b.roles[i] == roleOutline {
			what = "outline"
		}
		d := &b.drafts[owner]
		d.doubts = append(d.doubts, Doubt{Code: "reading-doubt", Grave: true, At: l.box.Centre(), Source: l.sources(),
			Text: fmt.Sprintf("the line of this %s is %s mm wide: its middle was taken, %s x %s mm; its outer edge is %s mm larger, its inner edge as much smaller", what,
				shortNumber(width), shortNumber(l.box.Width()), shortNumber(l.box.Height()), shortNumber(width))})
	}
}

// strokeOfLoop is how wide the widest line of a contour is drawn, in millimetres.
func (b *builder) strokeOfLoop(l *loop) float64 {
	width := 0.0
	for _, p := range l.pieces {
		for _, s := range p.sources {
			width = math.Max(width, b.strokeMM(s))
		}
	}
	return width
}

// strokeMM is how wide an entity is drawn, in millimetres.
func (b *builder) strokeMM(info int32) float64 {
	it := b.itemOf(info)
	if it == nil {
		return 0
	}
	w := strokeOf(it)
	if !(w > 0) {
		return 0
	}
	return w * b.frame.through(*it.placed.Map).dir(dxfread.Vec{X: 1}).Len()
}

// strokeOf is the width of a polyline in its own units, 0 of anything else.
func strokeOf(it *item) float64 {
	if e, ok := it.placed.Entity.(*dxfread.Polyline); ok {
		return e.Width
	}
	return 0
}
