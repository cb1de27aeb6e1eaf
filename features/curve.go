package features

import (
	"math"

	"burrside/features/geom"
)

// curve is a smooth plane curve over a parameter, millimetres.
type curve interface {
	// at gives the point and the derivative by the parameter.
	at(t float64) (p, d geom.Point)
}

// curveSamples is how many inner points a fitted piece is checked at,
// besides the places of greatest distance between them.
const curveSamples = 16

// curveDepth bounds the halvings of one smooth piece: 2^10 biarcs.
const curveDepth = 10

// exactRel is the relative deviation under which a piece is the arc itself
// and not an approximation: 1000 times the error of evaluating a curve.
const exactRel = 1e-9

// fitCurve turns a smooth curve between t0 and t1 into lines and arcs that
// deviate from it by at most tol. exact tells that it is a line or an arc by
// itself. The ends of the result are the ends of the curve. A curve of no
// length gives nothing. Half of tol is spent on the biarcs, a quarter on
// merging them; the rest is left to the simplifying of rings.
func fitCurve(c curve, t0, t1, tol float64) (edges []geom.Edge, exact bool) {
	if e, dev, ok := oneArc(c, t0, t1); ok {
		size := e.From.Dist(e.To)
		if e.IsArc() {
			size = e.Radius
		}
		if dev <= exactRel*size+1e-9 {
			return []geom.Edge{e}, true
		}
		if dev <= 0.75*tol {
			return []geom.Edge{e}, false
		}
	}
	edges = bisect(c, t0, t1, 0.5*tol, curveDepth, nil)
	return mergeFitted(edges, 0.25*tol), false
}

// oneArc tries the whole piece as one line or one arc of less than 270
// degrees through its ends and its middle.
func oneArc(c curve, t0, t1 float64) (geom.Edge, float64, bool) {
	a, _ := c.at(t0)
	b, _ := c.at(t1)
	m, _ := c.at((t0 + t1) / 2)
	chord := a.Dist(b)
	if chord < 1e-9 {
		return geom.Edge{}, 0, false
	}
	e, ok := arcOver(a, m, b)
	if !ok {
		return geom.Edge{}, 0, false
	}
	if e.IsArc() && math.Abs(e.Sweep()) > 1.5*math.Pi {
		return geom.Edge{}, 0, false
	}
	dev := deviation(c, t0, t1, func(p geom.Point) float64 { return distToArc(e, p) })
	return e, dev, true
}

// arcOver is the arc from a over m to b, or the line when the three are
// within 1e-7 of the chord of being straight. It fails when the points turn
// back on themselves.
func arcOver(a, m, b geom.Point) (geom.Edge, bool) {
	ab, am := b.Sub(a), m.Sub(a)
	chord := ab.Len()
	cross := ab.Cross(am)
	if chord < 1e-12 {
		return geom.Edge{}, false
	}
	if math.Abs(cross) <= 1e-7*chord*chord {
		if s := am.Dot(ab) / (chord * chord); s < 0 || s > 1 {
			return geom.Edge{}, false
		}
		return geom.LineEdge(a, b), true
	}
	centre, ok := circleCentre(a, m, b)
	if !ok {
		return geom.Edge{}, false
	}
	return geom.ArcEdge(centre, a, b, cross < 0), true
}

// circleCentre is the centre of the circle through three points.
func circleCentre(a, b, c geom.Point) (geom.Point, bool) {
	u, v := b.Sub(a), c.Sub(a)
	d := 2 * u.Cross(v)
	if d == 0 {
		return geom.Point{}, false
	}
	uu, vv := u.Dot(u), v.Dot(v)
	p := geom.Point{
		X: a.X + (float64(v.Y*uu)-float64(u.Y*vv))/d,
		Y: a.Y + (float64(u.X*vv)-float64(v.X*uu))/d,
	}
	return p, isNumber(p.X) && isNumber(p.Y)
}

func isNumber(f float64) bool { return !math.IsNaN(f) && !math.IsInf(f, 0) }

// distToArc is the distance of p from the line or circle that e lies on. Far
// circles are measured from the chord, where the radius would drown it.
func distToArc(e geom.Edge, p geom.Point) float64 {
	if !e.IsArc() {
		d := e.To.Sub(e.From)
		l := d.Len()
		if l == 0 {
			return p.Dist(e.From)
		}
		return math.Abs(d.Cross(p.Sub(e.From))) / l
	}
	return math.Abs(p.Dist(e.Centre) - e.Radius)
}

// deviation is the greatest distance of the curve's inner points from what
// dist measures: at the samples and at the peaks between them.
func deviation(c curve, t0, t1 float64, dist func(geom.Point) float64) float64 {
	var f [curveSamples + 2]float64
	step := (t1 - t0) / (curveSamples + 1)
	for i := 1; i <= curveSamples; i++ {
		p, _ := c.at(t0 + float64(i)*step)
		f[i] = dist(p)
	}
	worst := 0.0
	for i := 1; i <= curveSamples; i++ {
		worst = math.Max(worst, f[i])
		if f[i] < f[i-1] || f[i] < f[i+1] {
			continue
		}
		// The peak of the parabola through three samples is where the
		// distance is stationary, to second order.
		den := f[i-1] - 2*f[i] + f[i+1]
		if den == 0 {
			continue
		}
		off := 0.5 * (f[i-1] - f[i+1]) / den
		p, _ := c.at(t0 + (float64(i)+off)*step)
		worst = math.Max(worst, dist(p))
	}
	if math.IsNaN(worst) {
		return math.Inf(1)
	}
	return worst
}

// bisect appends biarcs that follow the curve within tol.
func bisect(c curve, t0, t1, tol float64, depth int, out []geom.Edge) []geom.Edge {
	a, da := c.at(t0)
	b, db := c.at(t1)
	if depth < curveDepth && a.Dist(b) < 1e-7 {
		return append(out, geom.LineEdge(a, b))
	}
	if pair, ok := biarc(a, da.Unit(), b, db.Unit()); ok {
		dev := deviation(c, t0, t1, func(p geom.Point) float64 { return distToPair(pair, p) })
		if dev <= tol || depth == 0 {
			for _, e := range pair {
				if e.From != e.To {
					out = append(out, e)
				}
			}
			return out
		}
	} else if depth == 0 {
		return append(out, geom.LineEdge(a, b))
	}
	m := (t0 + t1) / 2
	out = bisect(c, t0, m, tol, depth-1, out)
	return bisect(c, m, t1, tol, depth-1, out)
}

// distToPair is the distance of p from the nearer side of a biarc: the first
// arc before the joint, the second behind it.
func distToPair(pair [2]geom.Edge, p geom.Point) float64 {
	joint := pair[0].To
	dir := pair[1].StartDir()
	if pair[1].From == pair[1].To {
		return distToArc(pair[0], p)
	}
	if pair[0].From == pair[0].To || p.Sub(joint).Dot(dir) > 0 {
		return distToArc(pair[1], p)
	}
	return distToArc(pair[0], p)
}

// biarc joins two points with given unit directions by two arcs that are
// tangent to each other, with equal lengths of the control legs, so that it is
// the same forwards and backwards. It fails when the directions do not allow
// one (K. Bolton, "Biarc curves", Computer-Aided Design 7 (1975) 89-92, from memory).
func biarc(a, ta, b, tb geom.Point) ([2]geom.Edge, bool) {
	v := b.Sub(a)
	vt := v.Dot(ta.Add(tb))
	den := 2 * (1 - ta.Dot(tb))
	var d float64
	switch {
	case den > 1e-12:
		disc := float64(vt*vt) + float64(den*v.Dot(v))
		d = (math.Sqrt(disc) - vt) / den
	case vt > 1e-12*v.Len():
		d = v.Dot(v) / (2 * vt)
	default:
		return [2]geom.Edge{}, false
	}
	if !isNumber(d) || d <= 0 || d > 1e3*(v.Len()+1e-9) {
		return [2]geom.Edge{}, false
	}
	m := a.Add(b).Add(ta.Sub(tb).Mul(d)).Mul(0.5)
	first, ok1 := arcAlong(a, ta, m)
	back, ok2 := arcAlong(b, tb.Mul(-1), m)
	if !ok1 || !ok2 {
		return [2]geom.Edge{}, false
	}
	return [2]geom.Edge{first, back.Reverse()}, true
}

// arcAlong is the arc that leaves a in direction t and ends in b; a line if it
// is straight within 1e-9 of the chord. It fails for arcs of over 270 degrees,
// which a biarc of a smooth curve never needs.
func arcAlong(a, t, b geom.Point) (geom.Edge, bool) {
	w := b.Sub(a)
	l := w.Len()
	if l < 1e-12 {
		return geom.LineEdge(a, b), true
	}
	side := t.Cross(w)
	along := t.Dot(w)
	if math.Abs(side) <= 1e-9*l {
		return geom.LineEdge(a, b), along > 0
	}
	if along < -0.7*l {
		return geom.Edge{}, false
	}
	r := float64(l*l) / (2 * side)
	centre := a.Add(t.Left().Mul(r))
	return geom.ArcEdge(centre, a, b, r > 0), true
}

// mergeFitted joins neighbouring arcs that are one circle within tol.
func mergeFitted(edges []geom.Edge, tol float64) []geom.Edge {
	if len(edges) < 2 {
		return edges
	}
	out := edges[:0:0]
	for i := 0; i < len(edges); {
		best, next := edges[i], i+1
		// Runs are bounded so that a curve of many pieces stays linear.
		for n := 2; n <= 64 && i+n <= len(edges); n++ {
			e, ok := mergeRun(edges[i:i+n], tol)
			if !ok {
				break
			}
			best, next = e, i+n
		}
		out = append(out, best)
		i = next
	}
	return out
}

// mergeRun tries a run of edges as one arc or line.
func mergeRun(run []geom.Edge, tol float64) (geom.Edge, bool) {
	a, b := run[0].From, run[len(run)-1].To
	m := run[len(run)/2].From
	if len(run)%2 == 1 {
		m = run[len(run)/2].Mid()
	}
	if a.Dist(b) < 1e-9 {
		return geom.Edge{}, false
	}
	e, ok := arcOver(a, m, b)
	if !ok || e.IsArc() && math.Abs(e.Sweep()) > 1.5*math.Pi {
		return geom.Edge{}, false
	}
	total := 0.0
	for _, r := range run {
		if distToArc(e, r.From) > tol || distToArc(e, r.Mid()) > tol || distToArc(e, r.To) > tol {
			return geom.Edge{}, false
		}
		if r.IsArc() != e.IsArc() || r.IsArc() && r.CCW != e.CCW {
			return geom.Edge{}, false
		}
		total += r.Length()
	}
	// A run that is longer than the arc goes to and fro on it.
	if math.Abs(total-e.Length()) > 0.01*total+tol {
		return geom.Edge{}, false
	}
	// Directions must agree, or a corner would be smoothed away.
	for i := 1; i < len(run); i++ {
		if run[i-1].EndDir().Dot(run[i].StartDir()) < math.Cos(0.5*math.Pi/180) {
			return geom.Edge{}, false
		}
	}
	return e, true
}
