package plan

import (
	"math"
	"slices"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features/geom"
)

// gaugeEdge is a hull line that carries a straight edge to gauge on.
type gaugeEdge struct {
	at, normal geom.Point
	length     float64
}

// finishedReach gives the distances of a hole from the finished part's hull:
// the least to any of its lines, and the least to one that it can be gauged on.
func (pl *planner) finishedReach(p geom.Point) (anyMM, gaugedMM float64) {
	anyMM, gaugedMM = math.Inf(1), math.Inf(1)
	for _, e := range pl.prep.hull {
		anyMM = min(anyMM, e.Dist(p))
	}
	for _, g := range pl.prep.finish {
		gaugedMM = min(gaugedMM, math.Abs(g.at.Sub(p).Dot(g.normal)))
	}
	return anyMM, gaugedMM
}

// blankReach gives the same on the blank, before anything is cut from it.
func (pl *planner) blankReach(p geom.Point) (anyMM, gaugedMM float64) {
	q := pl.layout.frame.in(p)
	l, w := pl.layout.l, pl.layout.w
	least := min(50, max(l, w)/4)
	across, along := min(q.Y, w-q.Y), min(q.X, l-q.X)
	anyMM, gaugedMM = min(across, along), math.Inf(1)
	if l >= least-1e-6 {
		gaugedMM = min(gaugedMM, across)
	}
	if w >= least-1e-6 {
		gaugedMM = min(gaugedMM, along)
	}
	// Holes of a pattern lie alike, whatever the last digits of the arithmetic.
	nm := func(v float64) float64 { return math.Round(max(v, 0)*1e6) / 1e6 }
	return nm(anyMM), nm(gaugedMM)
}

// withReach gives a use with the throat's aspect: on the blank, or, where only
// that passes better, on the finished outline; after tells of the latter.
func (pl *planner) withReach(c *punched, m *shop.Machine, p geom.Point) (u station.Use, after bool) {
	ba, bg := pl.blankReach(p)
	disc := pl.out.Blank.Form == "disc"
	if !disc && !pl.layout.outside {
		at := [2]float64{ba, bg}
		if u, ok := c.plain[at]; ok {
			return u, false
		}
		u = c.use
		if u.AddReach(pl.prof, m, ba, bg); u.Aspects[len(u.Aspects)-1].Grade == station.OK {
			u.Aspects = slices.Clip(u.Aspects)
			c.plain[at] = u
			return u, false
		}
	}
	fa, fg := pl.finishedReach(p)
	if disc {
		ba, bg = fa, fg
	}
	u = c.use
	onBlank, _ := station.Reach(pl.prof, m, ba, bg)
	finished, _ := station.Reach(pl.prof, m, fa, fg)
	if finished.Grade < onBlank.Grade || pl.layout.outside && finished.Grade == onBlank.Grade {
		u.AddReach(pl.prof, m, fa, fg)
		return u, true
	}
	u.AddReach(pl.prof, m, ba, bg)
	return u, false
}
