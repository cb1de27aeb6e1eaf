package plan

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// onLine is how far a piece may lie off a line and still be on it, mm: ten times
// the snap of a drawing, a hundredth of what a shear holds.
const onLine = 0.05

// onSide is how far both ends of an edge may lie off a side of the blank and
// still be made by it, mm: half of what a flat's width may be off.
const onSide = 0.25

// mostCuts is how many straight cuts are made on one loose piece. An outline of
// more is a curve drawn in short lines, and no work for a shear; shop practice.
const mostCuts = 40

// wanted is a straight piece of the outline that must be cut.
type wanted struct {
	feature int
	ln      line // in the blank's coordinates
	end     geom.Point
	clip    bool
	grindMM float64
	at      geom.Point // its middle, in the blank's coordinates
}

// grind is the radius that a grinder would need for a clip, 0 for other cuts.
func (w *wanted) grind(c *Cut) float64 {
	switch {
	case !w.clip:
		return 0
	case w.grindMM > 0:
		return w.grindMM
	}
	return c.LengthMM / math.Sqrt2
}

// needs sorts the straight features by where they lie in the blank: on its long
// sides, on its ends (left, right), across from side to side (a mitre, by the
// end that it makes), or elsewhere.
type needs struct {
	low, high   []int // on y = 0, y = w
	left, right []int // on x = 0, x = l
	mitreL      *wanted
	mitreR      *wanted
	rest        []wanted
	inner       []int // no straight cut through the blank makes it
	many        []int // of an outline that would take more than mostCuts; rest is then empty
}

// needsOf sorts the straight features for a placing. On a disc all are cut on
// the piece.
func (p *Prepared) needsOf(g *placing) needs {
	var n needs
	on := func(v, at, w, bt float64) bool { return math.Abs(v-at) <= onSide && math.Abs(w-bt) <= onSide }
	for i := range p.straight {
		s := &p.straight[i]
		if !s.ok {
			n.inner = append(n.inner, s.feature)
			continue
		}
		ln, end := line{at: g.frame.in(s.at)}, g.frame.in(s.to)
		ln.normal.X, ln.normal.Y = s.normal.Dot(g.frame.u), s.normal.Dot(g.frame.v)
		w := wanted{feature: s.feature, ln: ln, end: end, clip: s.clip, grindMM: s.grindMM, at: g.frame.in(s.featured)}
		if g.round != nil {
			n.rest = append(n.rest, w)
			continue
		}
		nx, ny := ln.normal.X, ln.normal.Y
		switch {
		case ny < -0.9 && on(ln.at.Y, 0, end.Y, 0):
			n.low = append(n.low, s.feature)
			continue
		case ny > 0.9 && on(ln.at.Y, g.w, end.Y, g.w):
			n.high = append(n.high, s.feature)
			continue
		case nx < -0.9 && on(ln.at.X, 0, end.X, 0):
			n.left = append(n.left, s.feature)
			continue
		case nx > 0.9 && on(ln.at.X, g.l, end.X, g.l):
			n.right = append(n.right, s.feature)
			continue
		}
		if math.Abs(nx) > 1e-6 {
			at := func(y float64) float64 { return ln.at.X - ny*(y-ln.at.Y)/nx }
			x0, x1 := at(0), at(g.w)
			if min(x0, x1) >= -onSide && max(x0, x1) <= g.l+onSide {
				if nx < 0 && n.mitreL == nil {
					n.mitreL = &w
					continue
				}
				if nx > 0 && n.mitreR == nil {
					n.mitreR = &w
					continue
				}
			}
		}
		n.rest = append(n.rest, w)
	}
	if linesOf(n.rest) > mostCuts {
		for _, w := range n.rest {
			n.many = append(n.many, w.feature)
		}
		n.rest = nil
	}
	slices.SortStableFunc(n.rest, func(a, b wanted) int { return geom.ComparePlace(a.at, b.at) })
	return n
}

// linesOf counts the lines on which the pieces lie, at most one more than mostCuts.
func linesOf(ws []wanted) int {
	var lines []line
	for _, w := range ws {
		if slices.ContainsFunc(lines, func(l line) bool {
			return math.Abs(l.height(w.ln.at)) <= onLine && math.Abs(l.height(w.end)) <= onLine
		}) {
			continue
		}
		if lines = append(lines, w.ln); len(lines) > mostCuts {
			break
		}
	}
	return len(lines)
}

// offSquare is the angle of a cut line off square to the length.
func offSquare(ln line) float64 {
	return math.Atan2(math.Abs(ln.normal.Y), math.Abs(ln.normal.X))
}

// loose gives the needs with the mitres left to the loose piece, as where the
// table does not take the bar at their angle.
func (n needs) loose() needs {
	rest := slices.Clone(n.rest)
	for _, m := range []*wanted{n.mitreL, n.mitreR} {
		if m != nil {
			rest = append(rest, *m)
		}
	}
	n.rest, n.mitreL, n.mitreR = rest, nil, nil
	return n
}

func cutName(w wanted) string {
	if w.clip {
		return "clip"
	}
	return "side cut"
}
