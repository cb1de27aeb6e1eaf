package features

import (
	"math"

	"burrside/features/geom"
)

// leaderTaken is what lines that lead from a hole to its text count as.
const leaderTaken = "leader"

// Limits of a leader without an arrowhead (common practice, no source).
const (
	leaderReach   = 1.8 // text heights from its text
	leaderLanding = 8.0 // text heights: a longer second piece is no landing
	letterWidth   = 0.9 // of its height: width of a letter with its gap
)

// leaders takes out lines that run from the rim or the centre of a round hole
// to a text and end free there, with or without a short landing. A line that
// ends on anything else stays: it may be a slit, a bend or a cut.
func (w *lineWork) leaders() error {
	if len(w.b.sheet.Texts) == 0 {
		return nil
	}
	marked := map[int]bool{}
	var found []leader
	centres := map[centreCell]bool{}
	for _, c := range w.centres() {
		centres[centreCellOf(c.at)] = true
	}
	for k := range w.edges {
		if k%1024 == 0 && w.b.ctx.Err() != nil {
			return w.b.ctx.Err()
		}
		if !w.isLine(k) {
			continue
		}
		for s := range 2 {
			if w.pointsAtHole(k, s, centres) {
				if end, ok := w.leader(k, 1-s, marked); ok {
					found = append(found, leader{w.end(k, s), end})
				}
			}
		}
	}
	if len(marked) == 0 {
		return nil
	}
	infos := w.finish(marked, leaderTaken, strong)
	if len(infos) > 0 {
		w.b.leaders = append(w.b.leaders, found...)
		w.b.note(Note{Code: "leader", Count: len(infos), Source: sourcesOf(infos),
			Text: "lines from a hole to its text were taken for leaders; they were left out"})
	}
	return nil
}

// leastRimRad is how much of a circle an arc spans, at least, to be a hole's
// rim: holes are drawn in up to four pieces.
const leastRimRad = 80 * math.Pi / 180

// pointsAtHole tells whether the end of a line stands on the rim of a hole or
// in its centre, and on no other line.
func (w *lineWork) pointsAtHole(k, end int, centres map[centreCell]bool) bool {
	p := w.end(k, end)
	hole, clear := false, true
	w.near(p, figureSnapMM, func(j int) {
		switch e := &w.edges[j]; {
		case j == k:
		case !e.IsArc():
			clear = false
		default:
			hole = hole || e.IsCircle() || math.Abs(e.Sweep()) >= leastRimRad
		}
	})
	return clear && (hole || centres[centreCellOf(p)])
}

// centreCell is a place rounded to a tenth of a millimetre.
type centreCell [2]int64

func centreCellOf(p geom.Point) centreCell {
	return centreCell{int64(math.Round(p.X * 10)), int64(math.Round(p.Y * 10))}
}

// leader marks a line, and its landing, if it ends at a text; it gives the end
// there.
func (w *lineWork) leader(k, end int, marked map[int]bool) (at geom.Point, ok bool) {
	p := w.end(k, end)
	if w.endsFree(k, end) {
		if w.textAt(p) > 0 {
			marked[k] = true
			return p, true
		}
		return p, false
	}
	w.near(p, figureSnapMM, func(j int) {
		if j == k || !w.isLine(j) {
			return
		}
		for t := range 2 {
			if w.end(j, t).Dist(p) > figureSnapMM || w.meet.count[w.meet.at[2*j+t]] != 2 || !w.endsFree(j, 1-t) {
				continue
			}
			if h := w.textAt(w.end(j, 1-t)); h > 0 && w.edges[j].Length() <= leaderLanding*h {
				marked[k], marked[j] = true, true
				at, ok = w.end(j, 1-t), true
			}
		}
	})
	return at, ok
}

// endsFree tells whether an end touches nothing at all.
func (w *lineWork) endsFree(k, end int) bool {
	if !w.free(k, end) {
		return false
	}
	clear := true
	w.near(w.end(k, end), figureSnapMM, func(j int) { clear = clear && j == k })
	return clear
}

// textAt is the height of a text within reach of a place, 0 for none. How a
// text is aligned is not known here, so half its length counts on its left.
func (w *lineWork) textAt(p geom.Point) (height float64) {
	for i := range w.b.sheet.Texts {
		if t := &w.b.sheet.Texts[i]; textReaches(t, p) {
			return t.HeightMM
		}
	}
	return 0
}

// textReaches tells whether a leader that ends at a place is a text's.
func textReaches(t *Text, p geom.Point) bool {
	h := t.HeightMM
	if !(h > 0) {
		return false
	}
	long := letterWidth * h * float64(len([]rune(t.Value)))
	box := geom.Box{Min: geom.Point{X: t.At.X - long/2, Y: t.At.Y - h}, Max: geom.Point{X: t.At.X + long, Y: t.At.Y + h}}.Grow(leaderReach * h)
	return box.Contains(p)
}
