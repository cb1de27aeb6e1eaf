package features

import (
	"math"

	"burrside/features/geom"
)

// ellipseCurve is centre + cos(t) u + sin(t) v, with u and v at right angles.
type ellipseCurve struct{ centre, u, v geom.Point }

func (e ellipseCurve) at(t float64) (p, d geom.Point) {
	s, c := math.Sincos(t)
	return e.centre.Add(e.u.Mul(c)).Add(e.v.Mul(s)), e.v.Mul(c).Sub(e.u.Mul(s))
}

// ellipseRound is the relative difference of the axes up to which an ellipse
// is a circle: the rounding of coordinates written with ten digits. Anything
// more is an ellipse, and the recogniser says whether it passes for round.
const ellipseRound = 1e-9

// ellipseEdges gives the edges of centre + cos(t) u + sin(t) v for t from t0
// to t1 > t0, whatever the angle of u and v. A full turn is closed. exact is
// true for circles and arcs. Axes of no length give nothing.
func ellipseEdges(centre, u, v geom.Point, t0, t1, tol float64) (edges []geom.Edge, exact bool) {
	full := t1-t0 >= 2*math.Pi-1e-9
	c, shift := principal(centre, u, v)
	t0, t1 = t0-shift, t1-shift
	big, small := c.u.Len(), c.v.Len()
	if !(big > 1e-9) || !(small > 1e-12) || !isNumber(big) {
		if !full && big > 1e-9 {
			a, _ := c.at(t0)
			b, _ := c.at(t1)
			return []geom.Edge{geom.LineEdge(a, b)}, false
		}
		return nil, false
	}
	ccw := c.u.Cross(c.v) > 0
	if big-small <= ellipseRound*big {
		if full {
			return []geom.Edge{geom.CircleEdge(centre, big)}, true
		}
		a, _ := c.at(t0)
		b, _ := c.at(t1)
		return []geom.Edge{geom.ArcEdge(centre, a, b, ccw)}, true
	}
	if full {
		t0, t1 = 0, 2*math.Pi
	}
	// Split at the axes, so that the symmetric quarters give equal arcs.
	quarter := math.Pi / 2
	cuts := []float64{t0}
	for k := math.Floor(t0/quarter) + 1; k*quarter < t1-1e-9 && len(cuts) < 8; k++ {
		if k*quarter > t0+1e-9 {
			cuts = append(cuts, k*quarter)
		}
	}
	cuts = append(cuts, t1)
	for i := 1; i < len(cuts); i++ {
		part, _ := fitCurve(c, cuts[i-1], cuts[i], tol)
		edges = append(edges, part...)
	}
	chainEnds(edges, full)
	return edges, false
}

// principal turns conjugate half diameters into half axes, the longer first.
// A point at t on the old form is at t-shift on the new one.
func principal(centre, u, v geom.Point) (c ellipseCurve, shift float64) {
	// t that makes |cos t u + sin t v| stationary: tan 2t = 2 u.v / (u.u - v.v).
	uv := 2 * u.Dot(v)
	diff := u.Dot(u) - v.Dot(v)
	if math.Abs(uv) > 1e-12*(u.Dot(u)+v.Dot(v)) {
		shift = 0.5 * math.Atan2(uv, diff)
	}
	s, co := math.Sincos(shift)
	nu := u.Mul(co).Add(v.Mul(s))
	nv := v.Mul(co).Sub(u.Mul(s))
	if nv.Len() > nu.Len()*(1+1e-12) {
		// cos(t)u + sin(t)v with the roles changed: t' = t - pi/2.
		nu, nv = nv, nu.Mul(-1)
		shift += math.Pi / 2
	}
	return ellipseCurve{centre, nu, nv}, shift
}

// chainEnds makes neighbouring ends equal bit for bit.
func chainEnds(edges []geom.Edge, closed bool) {
	for i := 1; i < len(edges); i++ {
		edges[i].From = edges[i-1].To
	}
	if n := len(edges); closed && n > 1 {
		edges[n-1].To = edges[0].From
	}
}
