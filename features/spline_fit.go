package features

import (
	"context"
	"math"

	"burrside/dxfread"
	"burrside/features/geom"
)

// cubicSpan is a Hermite cubic between two points over 0..1.
type cubicSpan struct{ a, b, ta, tb geom.Point }

func (c cubicSpan) at(t float64) (p, d geom.Point) {
	t2 := t * t
	t3 := t2 * t
	p = c.a.Mul(2*t3 - 3*t2 + 1).Add(c.ta.Mul(t3 - 2*t2 + t)).Add(c.b.Mul(3*t2 - 2*t3)).Add(c.tb.Mul(t3 - t2))
	d = c.a.Mul(6*t2 - 6*t).Add(c.ta.Mul(3*t2 - 4*t + 1)).Add(c.b.Mul(6*t - 6*t2)).Add(c.tb.Mul(3*t2 - 2*t))
	return p, d
}

// fitPointSpline puts an interpolating cubic spline through fit points, with
// the chord lengths as parameter, the file's directions at the ends if it
// states them, no bending there if not, and periodic if closed. A drawing
// program may draw another curve between the same points, which is why it is
// told in a note.
func fitPointSpline(ctx context.Context, s *dxfread.Spline, to planeMap, tol float64) splineResult {
	res := splineResult{fitted: true}
	var pts []geom.Point
	for _, f := range s.Fit {
		p := to.point(f)
		if !isNumber(p.X) || !isNumber(p.Y) {
			res.fault = "a coordinate is not a number"
			return res
		}
		if len(pts) == 0 || pts[len(pts)-1].Dist(p) > 1e-9 {
			pts = append(pts, p)
		}
	}
	if len(pts) < 2 {
		res.fault = "it has fewer than two points"
		return res
	}
	closed := s.Closed
	if closed && pts[0].Dist(pts[len(pts)-1]) < 1e-6 {
		pts = pts[:len(pts)-1]
	}
	if len(pts) == 2 {
		res.edges = []geom.Edge{geom.LineEdge(pts[0], pts[1])}
		return res
	}
	if closed {
		pts = append(pts, pts[0])
	}
	h := make([]float64, len(pts)-1)
	for i := range h {
		h[i] = pts[i].Dist(pts[i+1])
		if !(h[i] > 0) || !isNumber(h[i]) {
			res.fault = "its points lie on each other"
			return res
		}
	}
	var start, end *geom.Point
	if !closed {
		dir := func(v *dxfread.Vec) *geom.Point {
			if v == nil {
				return nil
			}
			d := to.dir(*v)
			if l := d.Len(); !(l > 0) || !isNumber(l) {
				return nil
			}
			u := d.Unit()
			return &u
		}
		start, end = dir(s.StartTan), dir(s.EndTan)
	}
	m := slopes(pts, h, closed, start, end)
	for i := range h {
		if i%64 == 0 && ctx.Err() != nil {
			return res
		}
		span := cubicSpan{pts[i], pts[i+1], m[i].Mul(h[i]), m[i+1].Mul(h[i])}
		part, _ := fitCurve(span, 0, 1, tol)
		res.edges = append(res.edges, part...)
	}
	finishSpline(closed, tol, &res)
	return res
}

// slopes solves for the derivatives of the interpolating cubic spline at its
// points: continuous second derivative inside, at the ends the given unit
// direction or no bending, or the same at both when closed.
func slopes(pts []geom.Point, h []float64, closed bool, start, end *geom.Point) []geom.Point {
	n := len(pts)
	lower, diag, upper := make([]float64, n), make([]float64, n), make([]float64, n)
	rhs := make([]geom.Point, n)
	delta := func(i int) geom.Point { return pts[i+1].Sub(pts[i]).Mul(1 / h[i]) }
	for i := 1; i < n-1; i++ {
		lower[i], diag[i], upper[i] = h[i], 2*(h[i-1]+h[i]), h[i-1]
		rhs[i] = delta(i - 1).Mul(3 * h[i]).Add(delta(i).Mul(3 * h[i-1]))
	}
	if closed {
		return periodicSlopes(pts, h, delta)
	}
	diag[0], rhs[0] = 1, geom.Point{}
	if start != nil {
		rhs[0] = *start
	} else {
		diag[0], upper[0], rhs[0] = 2, 1, delta(0).Mul(3)
	}
	diag[n-1] = 1
	if end != nil {
		rhs[n-1] = *end
	} else {
		diag[n-1], lower[n-1], rhs[n-1] = 2, 1, delta(n-2).Mul(3)
	}
	return tridiagonal(lower, diag, upper, rhs)
}

// tridiagonal solves a diagonally dominant system by elimination.
func tridiagonal(lower, diag, upper []float64, rhs []geom.Point) []geom.Point {
	n := len(diag)
	d := append([]float64(nil), diag...)
	r := append([]geom.Point(nil), rhs...)
	for i := 1; i < n; i++ {
		f := lower[i] / d[i-1]
		d[i] -= float64(f * upper[i-1])
		r[i] = r[i].Sub(r[i-1].Mul(f))
	}
	x := make([]geom.Point, n)
	x[n-1] = r[n-1].Mul(1 / d[n-1])
	for i := n - 2; i >= 0; i-- {
		x[i] = r[i].Sub(x[i+1].Mul(upper[i])).Mul(1 / d[i])
	}
	return x
}

// periodicSlopes solves the closed case by the Sherman-Morrison formula on the
// tridiagonal part.
func periodicSlopes(pts []geom.Point, h []float64, delta func(int) geom.Point) []geom.Point {
	n := len(h) // as many unknowns as spans
	prev := func(i int) int { return (i + n - 1) % n }
	lower, diag, upper := make([]float64, n), make([]float64, n), make([]float64, n)
	rhs := make([]geom.Point, n)
	for i := range n {
		p := prev(i)
		lower[i], diag[i], upper[i] = h[i], 2*(h[p]+h[i]), h[p]
		rhs[i] = delta(p).Mul(3 * h[i]).Add(delta(i).Mul(3 * h[p]))
	}
	alpha, beta := upper[n-1], lower[0] // corners: row n-1 column 0, row 0 column n-1
	gamma := -diag[0]
	diag[0] -= gamma
	diag[n-1] -= alpha * beta / gamma
	u := make([]geom.Point, n) // only X is used
	u[0].X, u[n-1].X = gamma, alpha
	x := tridiagonal(lower, diag, upper, rhs)
	z := tridiagonal(lower, diag, upper, u)
	den := 1 + z[0].X + float64(beta*z[n-1].X)/gamma
	if math.Abs(den) < 1e-300 {
		return append(x, x[0])
	}
	f := x[0].Add(x[n-1].Mul(beta / gamma)).Mul(1 / den)
	for i := range x {
		x[i] = x[i].Sub(f.Mul(z[i].X))
	}
	return append(x, x[0])
}
