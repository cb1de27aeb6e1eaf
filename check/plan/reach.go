package plan

import (
	"math"

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
	return max(anyMM, 0), max(gaugedMM, 0)
}

// addReach appends the throat's aspect to a use: on the blank, or, where only
// that passes better, on the finished outline; after tells of the latter.
func (pl *planner) addReach(u *station.Use, m *shop.Machine, p geom.Point) (after bool) {
	disc := pl.out.Blank.Form == "disc"
	if !disc && !pl.layout.outside {
		if ba, bg := pl.blankReach(p); pl.addIfPlain(u, m, ba, bg) {
			return false
		}
	}
	fa, fg := pl.finishedReach(p)
	ba, bg := pl.blankReach(p)
	if disc {
		ba, bg = fa, fg
	}
	onBlank, _ := station.Reach(pl.prof, m, ba, bg)
	finished, _ := station.Reach(pl.prof, m, fa, fg)
	if finished.Grade < onBlank.Grade || pl.layout.outside && finished.Grade == onBlank.Grade {
		u.AddReach(pl.prof, m, fa, fg)
		return true
	}
	u.AddReach(pl.prof, m, ba, bg)
	return false
}

// addIfPlain appends the throat's aspect if it is a plain pass.
func (pl *planner) addIfPlain(u *station.Use, m *shop.Machine, anyMM, gaugedMM float64) bool {
	n := len(u.Aspects)
	before := u.Share
	u.AddReach(pl.prof, m, anyMM, gaugedMM)
	if u.Aspects[n].Grade == station.OK {
		return true
	}
	u.Aspects, u.Share = u.Aspects[:n], before
	return false
}
