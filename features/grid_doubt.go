package features

import (
	"fmt"
	"math"
)

// doubtGrid doubts an opening that lines divide elsewhere than through its
// middle. Centre lines and the two diagonals that mark an opening pass its
// middle; what runs beside it makes a table, a grating, or several openings. So
// does a cross through the middle of a rectangle, along its sides and drawn as
// these are, in a drawing with a frame or dimensions: there tables of two by two
// are drawn, and centre lines in a style of their own.
func (b *builder) doubtGrid(c int, dividers []int) {
	l := &b.loops[c]
	centre := l.box.Centre()
	const share = 0.05 // of the size of the opening: nearer lines are centre lines
	beside := 0
	var src, cross []int32
	level, upright := false, false
	for _, i := range dividers {
		for _, p := range b.joined.Dividers[i].Pieces {
			e := p.Edge
			if e.IsArc() || e.Length() < 2*touchMM || math.Abs(e.StartDir().Cross(centre.Sub(e.From))) <= share*size(l.box) {
				if x, y := math.Abs(e.StartDir().X), math.Abs(e.StartDir().Y); math.Min(x, y) < 1e-3 && b.drawnAs(c, p.Sources) {
					level, upright = level || x > y, upright || y > x
					cross = append(cross, p.Sources...)
				}
				continue
			}
			beside++
			src = append(src, p.Sources...)
		}
	}
	if level && upright && isRectangle(l.ring) && (len(b.drawnDims) > 0 || len(b.areas) > 0) {
		beside += 2
		src = append(src, cross...)
	}
	if beside < 2 {
		return
	}
	b.loopDoubts = append(b.loopDoubts, loopDoubt{c, Doubt{Code: "line-unexplained", Grave: true, At: l.box.Min, Source: sourcesOf(src),
		Text: fmt.Sprintf("lines divide a closed line of %s x %s mm on the part: one opening, as it was read, several openings, or a table that is no opening", shortNumber(l.box.Width()), shortNumber(l.box.Height()))}})
}

// drawnAs tells whether lines lie on the layer of a contour, in its linetype and
// colour.
func (b *builder) drawnAs(c int, src []int32) bool {
	own := map[int32]bool{}
	for i := range b.loops[c].pieces {
		for _, s := range b.loops[c].pieces[i].sources {
			if it := b.itemOf(s); it != nil {
				own[it.style] = true
			}
		}
	}
	for _, s := range src {
		if it := b.itemOf(s); it == nil || !own[it.style] {
			return false
		}
	}
	return len(src) > 0
}
