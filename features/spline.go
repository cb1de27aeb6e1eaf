package features

import (
	"context"
	"math"
	"sort"

	"burrside/dxfread"
	"burrside/features/geom"
)

// maxSplinePoints bounds what one spline can cost.
const maxSplinePoints = 200000

// splineSpan is one polynomial or rational span of a B-spline: de Boor's
// scheme on the span's own knots, so that the directions at its ends are its
// own even where the spline has a corner.
type splineSpan struct {
	degree int
	knots  []float64 // 2*degree knots about the span
	ctrl   []splinePoint
}

// splinePoint is a control point in homogeneous form: x*w, y*w, w.
type splinePoint struct{ x, y, w float64 }

func (a splinePoint) mix(b splinePoint, f float64) splinePoint {
	g := 1 - f
	return splinePoint{
		float64(g*a.x) + float64(f*b.x),
		float64(g*a.y) + float64(f*b.y),
		float64(g*a.w) + float64(f*b.w),
	}
}

// at evaluates the span (C. de Boor, "A Practical Guide to Splines", 1978, and
// the quotient rule, from memory).
func (s splineSpan) at(t float64) (p, d geom.Point) {
	n := s.degree
	var buf [32]splinePoint
	pts := append(buf[:0], s.ctrl...)
	var last [2]splinePoint
	var lo, hi float64
	for r := 1; r <= n; r++ {
		if r == n {
			last = [2]splinePoint{pts[n-1], pts[n]}
			lo, hi = s.knots[n-1], s.knots[n]
		}
		for j := n; j >= r; j-- {
			a, b := s.knots[j-1], s.knots[j+n-r]
			f := 0.0
			if b > a {
				f = (t - a) / (b - a)
			}
			pts[j] = pts[j-1].mix(pts[j], f)
		}
	}
	h := pts[n]
	k := 0.0
	if hi > lo {
		k = float64(n) / (hi - lo)
	}
	dh := splinePoint{(last[1].x - last[0].x) * k, (last[1].y - last[0].y) * k, (last[1].w - last[0].w) * k}
	p = geom.Point{X: h.x / h.w, Y: h.y / h.w}
	d = geom.Point{X: (dh.x - float64(p.X*dh.w)) / h.w, Y: (dh.y - float64(p.Y*dh.w)) / h.w}
	return p, d
}

// splineResult is what became of a spline.
type splineResult struct {
	edges  []geom.Edge
	closed bool
	exact  bool
	fitted bool   // from fit points only
	fault  string // why it could not be used; "" if it could
	notes  []string
}

// splineEdges turns a spline into lines and arcs that deviate by at most tol.
// to maps its points to millimetres in the plane. When ctx ends it gives what it
// has; the caller sees to the error.
func splineEdges(ctx context.Context, s *dxfread.Spline, to planeMap, tol float64) splineResult {
	var res splineResult
	if len(s.Control) > maxSplinePoints || len(s.Fit) > maxSplinePoints {
		res.fault = "it has too many points"
		return res
	}
	if len(s.Control) < 2 {
		return fitPointSpline(ctx, s, to, tol)
	}
	p := s.Degree
	if p < 1 || p > 15 || len(s.Control) <= p {
		res.fault = "its degree does not suit its control points"
		return res
	}
	ctrl := make([]splinePoint, len(s.Control))
	weights := len(s.Weights) == len(s.Control)
	for i, c := range s.Control {
		w := 1.0
		if weights {
			w = s.Weights[i]
		}
		if !(w > 0) || math.IsInf(w, 0) {
			res.fault = "a weight is not above zero"
			return res
		}
		q := to.point(c)
		if !isNumber(q.X) || !isNumber(q.Y) {
			res.fault = "a coordinate is not a number"
			return res
		}
		ctrl[i] = splinePoint{float64(q.X * w), float64(q.Y * w), w}
	}
	if len(s.Weights) != 0 && !weights {
		res.notes = append(res.notes, "weights do not match the control points and were left out")
	}
	knots := s.Knots
	if len(knots) != len(ctrl)+p+1 || !sort.Float64sAreSorted(knots) || !allFinite(knots) {
		knots = clampedKnots(len(ctrl), p)
		res.notes = append(res.notes, "its knots make no sense; even knots were taken")
	}
	res.exact = true
	for i := p; i < len(ctrl) && (i%64 != 0 || ctx.Err() == nil); i++ {
		if !(knots[i+1]-knots[i] > 1e-12*(knots[len(ctrl)]-knots[p])) {
			continue
		}
		span := splineSpan{degree: p, knots: knots[i-p+1 : i+p+1], ctrl: ctrl[i-p : i+1]}
		part, exact := fitSpan(span, knots[i], knots[i+1], tol)
		res.edges = append(res.edges, part...)
		res.exact = res.exact && exact
	}
	finishSpline(s.Closed, tol, &res)
	return res
}

// fitSpan fits one span; a span of first degree is a line.
func fitSpan(span splineSpan, t0, t1, tol float64) ([]geom.Edge, bool) {
	if span.degree == 1 {
		a, _ := span.at(t0)
		b, _ := span.at(t1)
		if a == b {
			return nil, true
		}
		return []geom.Edge{geom.LineEdge(a, b)}, true
	}
	return fitCurve(span, t0, t1, tol)
}

// finishSpline joins the spans, closes the curve, and sees whether the whole
// is one circle.
func finishSpline(closed bool, tol float64, res *splineResult) {
	for _, e := range res.edges {
		if !isNumber(e.From.X+e.From.Y+e.To.X+e.To.Y) || e.IsArc() && !isNumber(e.Centre.X+e.Centre.Y+e.Radius) {
			*res = splineResult{fault: "a coordinate is not a number"}
			return
		}
	}
	n := len(res.edges)
	if n == 0 {
		return
	}
	chainEnds(res.edges, false)
	first, last := res.edges[0].From, res.edges[n-1].To
	gap := first.Dist(last)
	length := 0.0
	for _, e := range res.edges {
		length += e.Length()
	}
	switch {
	case gap <= 1e-6 && length > 1e-3:
		res.closed = true
		if n > 1 {
			res.edges[n-1].To = first
		}
	case closed && gap > 1e-6:
		res.edges = append(res.edges, geom.LineEdge(last, first))
		res.closed = true
		res.notes = append(res.notes, "it is marked closed but its ends do not meet; a straight piece was put between them")
	}
	if res.closed {
		if c, exact, ok := wholeCircle(res.edges, tol); ok {
			res.edges = []geom.Edge{c}
			res.exact = res.exact && exact
			return
		}
	}
	if !res.exact {
		res.edges = mergeFitted(res.edges, 0.25*tol)
	}
	chainEnds(res.edges, res.closed)
}

// wholeCircle tells whether a closed chain of arcs is one circle: all its ends
// and middles within tol of it, turning once.
func wholeCircle(edges []geom.Edge, tol float64) (c geom.Edge, exact, ok bool) {
	if len(edges) < 2 {
		return geom.Edge{}, false, false
	}
	var pts []geom.Point
	turn := 0.0
	for _, e := range edges {
		if !e.IsArc() {
			return geom.Edge{}, false, false
		}
		turn += e.Sweep()
		pts = append(pts, e.From, e.Mid())
	}
	if math.Abs(math.Abs(turn)-2*math.Pi) > 0.05 {
		return geom.Edge{}, false, false
	}
	centre, r, ok := meanCircle(pts)
	if !ok {
		return geom.Edge{}, false, false
	}
	worst := 0.0
	for _, p := range pts {
		worst = math.Max(worst, math.Abs(p.Dist(centre)-r))
	}
	return geom.CircleEdge(centre, r), worst <= 1e-8*r+1e-9, worst <= tol
}

// meanCircle is the least-squares circle through points (the algebraic fit of
// I. Kåsa, IEEE Trans. Instrum. Meas. 25 (1976) 8-14, from memory): exact for
// points on a circle, and even spread keeps its bias under the spread squared.
func meanCircle(pts []geom.Point) (centre geom.Point, radius float64, ok bool) {
	n := float64(len(pts))
	if n < 3 {
		return geom.Point{}, 0, false
	}
	var mx, my float64
	for _, p := range pts {
		mx += p.X
		my += p.Y
	}
	mx, my = mx/n, my/n
	var suu, svv, suv, suuu, svvv, suvv, svuu float64
	for _, p := range pts {
		u, v := p.X-mx, p.Y-my
		suu += float64(u * u)
		svv += float64(v * v)
		suv += float64(u * v)
		suuu += float64(u * u * u)
		svvv += float64(v * v * v)
		suvv += float64(u * v * v)
		svuu += float64(v * u * u)
	}
	det := float64(suu*svv) - float64(suv*suv)
	if !(math.Abs(det) > 1e-12*float64(suu*svv)) {
		return geom.Point{}, 0, false
	}
	a, b := 0.5*(suuu+suvv), 0.5*(svvv+svuu)
	uc := (float64(a*svv) - float64(b*suv)) / det
	vc := (float64(b*suu) - float64(a*suv)) / det
	radius = math.Sqrt(float64(uc*uc) + float64(vc*vc) + (suu+svv)/n)
	centre = geom.Point{X: mx + uc, Y: my + vc}
	return centre, radius, isNumber(radius) && isNumber(centre.X) && isNumber(centre.Y)
}

func clampedKnots(n, p int) []float64 {
	k := make([]float64, n+p+1)
	for i := range k {
		k[i] = float64(min(max(i-p, 0), n-p))
	}
	return k
}

func allFinite(f []float64) bool {
	for _, v := range f {
		if !isNumber(v) {
			return false
		}
	}
	return true
}
