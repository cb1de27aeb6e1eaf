package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
	"burrside/features/measure"
)

// Small shapes of one height that stand close together beside a far larger part
// may be the letters or bars of a sign in a drawing's title (common practice, no
// source).
const (
	logoShare = 0.15 // of the shorter side of the largest part: larger ones may be parts
	logoGap   = 1.5  // of their longer side, between one and the next
	logoEven  = 0.15 // their longer sides are equal within this share
)

// doubtLogos doubts rows of such shapes that were read as parts: without round
// holes, with no dimension and no call for a part beside.
func (b *builder) doubtLogos() {
	if len(b.drafts) <= letterLeast {
		return
	}
	side, long := 0.0, make([]float64, len(b.drafts))
	for d := range b.drafts {
		o := b.loops[b.drafts[d].outline].box
		side = math.Max(side, math.Min(o.Width(), o.Height()))
	}
	var small []int
	var boxes []geom.Edge
	for d := range b.drafts {
		l := &b.loops[b.drafts[d].outline]
		// What is short along no direction is short as it stands.
		if size(l.box) > letterSolidMM {
			continue
		}
		r := geom.LeastRectangle(l.ring)
		long[d] = math.Max(r.Width, r.Height)
		if _, _, round := l.isCircle(); !round && long[d] <= logoShare*side+1e-9 && !b.hasRoundHole(d) {
			small = append(small, d)
			boxes = append(boxes, geom.LineEdge(l.box.Min, l.box.Max))
		}
	}
	if len(small) < letterLeast {
		return
	}
	g := newGroups(len(small))
	index := geom.NewIndex(boxes, 0)
	for i, d := range small {
		o := &b.loops[b.drafts[d].outline]
		for k := range index.Near(o.box.Grow(logoGap * long[d])) {
			e := small[k]
			if k != i && math.Abs(long[d]-long[e]) <= logoEven*math.Max(long[d], long[e]) && o.box.Dist(b.loops[b.drafts[e].outline].box) <= logoGap*long[d] {
				g.unite(i, k)
			}
		}
	}
	for _, list := range g.members() {
		if len(list) < letterLeast {
			continue
		}
		if slices.ContainsFunc(list, func(i int) bool { return b.isCalledPart(small[i], long[small[i]]) }) {
			continue
		}
		// One doubt for all, so that copies are not told one by one.
		first := &b.loops[b.drafts[small[list[0]]].outline]
		for _, i := range list[1:] {
			if l := &b.loops[b.drafts[small[i]].outline]; comparePlace(l.box.Min, first.box.Min) < 0 {
				first = l
			}
		}
		doubt := Doubt{Code: "maybe-letter", Grave: true, At: first.box.Centre(), Source: first.sources(),
			Text: fmt.Sprintf("%d small shapes of one size stand close together beside a far larger part: letters or a sign of the drawing, or small parts", len(list))}
		for _, i := range list {
			d := &b.drafts[small[i]]
			d.doubts = append(d.doubts, doubt)
		}
	}
}

func (b *builder) hasRoundHole(d int) bool {
	return slices.ContainsFunc(b.drafts[d].holes, func(h int) bool {
		_, _, round := b.loops[h].isCircle()
		return round
	})
}

// isCalledPart tells whether something marks a small outline as a part: a
// dimension on it, or words about a part at it.
func (b *builder) isCalledPart(d int, long float64) bool {
	l := &b.loops[b.drafts[d].outline]
	mm := b.sheet.Units.MM
	for k := range b.drawnDims {
		for _, p := range [2]geom.Point{b.drawnDims[k].from.Mul(mm), b.drawnDims[k].to.Mul(mm)} {
			if l.box.Grow(0.1).Contains(p) {
				return true
			}
		}
	}
	for k := range b.sheet.Texts {
		t := &b.sheet.Texts[k]
		if !l.box.Grow(math.Max(long, 2*t.HeightMM)).Contains(b.textMiddle(t)) {
			continue
		}
		for _, row := range statedLines(*t) {
			if n, asked := measure.Quantity(row); namesPart(row) || asked && n > 0 {
				return true
			}
		}
	}
	return false
}
