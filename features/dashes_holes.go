package features

import (
	"slices"

	"burrside/features/geom"
)

// A dashed line may stop at a hole and go on behind it: its dashes then look at
// each other over the hole, as over a wide gap.

// dashPatternOf tells what a row of dashes stands for, and the widest gap
// between them; of a row that openings interrupt by its pieces. One piece at
// least must tell it; the others may be short.
func (w *lineWork) dashPatternOf(run []int) (what string, gap float64) {
	gaps := w.dashGaps(run)
	if len(gaps) == 0 {
		return "", 0
	}
	if what = w.dashPattern(run); what != "" || w.edges[run[0]].IsArc() {
		return what, slices.Max(gaps)
	}
	pieces := w.atOpenings(run, gaps)
	if len(pieces) < 2 {
		return "", 0
	}
	told := -1
	for i, piece := range pieces {
		if len(piece) < dashLeast {
			continue
		}
		if told < 0 || len(piece) > len(pieces[told]) {
			told = i
		}
	}
	if told < 0 {
		return "", 0
	}
	if what = w.dashPattern(pieces[told]); what == "" {
		return "", 0
	}
	gap = slices.Max(w.dashGaps(pieces[told]))
	least, long := slices.Min(w.dashGaps(pieces[told])), 0.0
	for _, k := range pieces[told] {
		long = max(long, w.edges[k].Length())
	}
	for i, piece := range pieces {
		if i == told {
			continue
		}
		if len(piece) >= dashLeast && w.dashPattern(piece) != what {
			return "", 0
		}
		for _, g := range w.dashGaps(piece) {
			if g > dashEven*gap+dashOffMM || g*dashEven+dashOffMM < least {
				return "", 0
			}
		}
		for _, k := range piece {
			// The one at the opening may be drawn out to it.
			if w.edges[k].Length() > dashEven*long+gap+dashOffMM {
				return "", 0
			}
		}
	}
	return what, gap
}

// atOpenings parts a row of dashes where another edge crosses a gap that is
// wider than the least one.
func (w *lineWork) atOpenings(run []int, gaps []float64) [][]int {
	least := slices.Min(gaps)
	pieces := [][]int{{run[0]}}
	for i, g := range gaps {
		if g > dashEven*least+dashOffMM && w.crossedBetween(run[i], run[i+1]) {
			pieces = append(pieces, nil)
		}
		last := len(pieces) - 1
		pieces[last] = append(pieces[last], run[i+1])
	}
	return pieces
}

// crossedBetween tells whether another edge passes between two dashes in a row,
// or touches one at that end.
func (w *lineWork) crossedBetween(j, k int) bool {
	from, to := w.end(j, 0), w.end(k, 0)
	for s := range 2 {
		for t := range 2 {
			if p, q := w.end(j, s), w.end(k, t); p.Dist(q) < from.Dist(to) {
				from, to = p, q
			}
		}
	}
	line := geom.LineEdge(from, to)
	for m := range w.index().Near(line.Bounds().Grow(dashOffMM)) {
		if m == j || m == k || w.taken[m] {
			continue
		}
		e := w.edges[m]
		if e.Dist(from) <= dashOffMM || e.Dist(to) <= dashOffMM || len(geom.Intersect(line, e, 1e-6).Points) > 0 {
			return true
		}
	}
	return false
}

// aloneDash is alone for a dash: where it ends on a circle it makes no
// difference whether the circle was begun just there.
func (w *lineWork) aloneDash(k, end int) bool {
	if w.gap[2*k+end] {
		return false
	}
	others := 0
	place := w.meet.at[2*k+end]
	for _, o := range w.ends[w.first[place]:w.first[place+1]] {
		if int(o/2) != k && !w.taken[o/2] && !w.edges[o/2].IsCircle() {
			others++
		}
	}
	return others == 0
}
