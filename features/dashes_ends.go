package features

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// A line that was taken apart in its dashes ends where it ended: its first and
// last dash are cut off there, or drawn out over what would be a gap.

// dashGaps gives the free lengths between the dashes of a run.
func (w *lineWork) dashGaps(run []int) []float64 {
	var gaps []float64
	for i := 1; i < len(run); i++ {
		gap := math.Inf(1)
		for s := range 2 {
			for t := range 2 {
				gap = math.Min(gap, w.end(run[i-1], s).Dist(w.end(run[i], t)))
			}
		}
		gaps = append(gaps, gap)
	}
	return gaps
}

// withDashEnds adds to a run of dashes what is left of a dash at its ends: too
// short to look back over the gap, but as far away as the dashes are from each
// other.
func (w *lineWork) withDashEnds(run []int, gap float64) []int {
	if w.edges[run[0]].IsArc() {
		return run
	}
	long := 0.0
	for _, k := range run {
		long = math.Max(long, w.edges[k].Length())
	}
	for range 2 {
		last, before := run[len(run)-1], run[len(run)-2]
		outer := 0
		if m := w.edges[before].Mid(); w.end(last, 1).Dist(m) > w.end(last, 0).Dist(m) {
			outer = 1
		}
		if w.aloneDash(last, outer) {
			if o := w.dashBeyond(last, outer); o >= 0 {
				k := int(o / 2)
				far := w.end(k, int(o&1))
				if w.edges[k].Length() < long && far.Dist(w.end(last, outer)) <= dashEven*gap+dashOffMM && !slices.Contains(run, k) {
					run = append(slices.Clone(run), k)
				}
			}
		}
		slices.Reverse(run)
	}
	return run
}

// walled tells whether a line as long as a good part of two rows of dashes runs
// between them: the rows lie in two outlines then.
func (w *lineWork) walled(f, g geom.Edge, marked func(k int) bool) bool {
	const share = 0.3 // of the row
	m := f.Mid()
	u := g.StartDir()
	foot := g.From.Add(u.Mul(m.Sub(g.From).Dot(u)))
	across := geom.LineEdge(m, foot)
	for k := range w.index().Near(across.Bounds()) {
		e := &w.edges[k]
		if e.IsArc() || marked(k) || e.Length() < share*math.Min(f.Length(), g.Length()) {
			continue
		}
		if sine, _ := sineCosine(e.StartDir(), f.StartDir()); sine > 0.01 {
			continue
		}
		if len(geom.Intersect(across, *e, 1e-6).Points) > 0 {
			return true
		}
	}
	return false
}
