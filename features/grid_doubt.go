package features

import (
	"fmt"
	"math"
)

// doubtGrid doubts an opening that lines divide elsewhere than through its
// middle. Centre lines and the two diagonals that mark an opening pass its
// middle; what runs beside it makes a table, a grating, or several openings.
func (b *builder) doubtGrid(c int, dividers []int) {
	l := &b.loops[c]
	centre := l.box.Centre()
	const share = 0.05 // of the size of the opening: nearer lines are centre lines
	beside := 0
	var src []int32
	for _, i := range dividers {
		for _, p := range b.joined.Dividers[i].Pieces {
			e := p.Edge
			if e.IsArc() || e.Length() < 2*touchMM || math.Abs(e.StartDir().Cross(centre.Sub(e.From))) <= share*size(l.box) {
				continue
			}
			beside++
			src = append(src, p.Sources...)
		}
	}
	if beside < 2 {
		return
	}
	b.loopDoubts = append(b.loopDoubts, loopDoubt{c, Doubt{Code: "line-unexplained", Grave: true, At: l.box.Min, Source: sourcesOf(src),
		Text: fmt.Sprintf("lines divide a closed line of %s x %s mm on the part: one opening, as it was read, several openings, or a table that is no opening", shortNumber(l.box.Width()), shortNumber(l.box.Height()))}})
}
