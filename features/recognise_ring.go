package features

import (
	"math"

	"burrside/features/geom"
)

// Tolerances of recognition. They are fixed: a drawing has been joined, scaled
// to millimetres and fitted with arcs before recognition sees it.
const (
	// mergeMM is how far a vertex may lie off a straight side that runs over
	// it. Coordinates written with two or three decimals are off by up to
	// 0.007 mm and 0.0007 mm; 0.002 mm takes the latter and no bend that a
	// shop could make.
	mergeMM = 0.002
	// circleMM and circleShare are how far points of one circle may lie off
	// it: 0.002 mm + 0.05 % of the radius, the latter at most circleMostMM,
	// as circles of large radius are told apart by less.
	circleMM     = 0.002
	circleShare  = 0.0005
	circleMostMM = 0.05
	// lineMM is how far apart two pieces of one line may lie: twice the
	// 0.01 mm within which curves are fitted. mouthShare is added for each
	// millimetre between the pieces, as the direction of a short piece is
	// known less well.
	lineMM     = 0.02
	mouthShare = 1e-4
	// inwardRad: a vertex turning right by more is an inward corner; less is
	// the raggedness of drawn curves.
	inwardRad = 0.5 * math.Pi / 180
	// tangentRad is how far a joint of line and arc may be from tangent.
	tangentRad = 2 * math.Pi / 180
	// squareRad is how far a wall of a notch may be from square or parallel:
	// a notching tool's own walls are no better on sheared blanks (judgement).
	squareRad = 1 * math.Pi / 180
	// holeSquareRad is the same for rectangles, D shapes and slots inside.
	holeSquareRad = 0.2 * math.Pi / 180
	// sharpenRad is the greatest sweep of an arc that is replaced by the
	// corner of its tangents; above it that corner is over 3.7 radii away.
	sharpenRad = 150 * math.Pi / 180
)

// span is a straight side or an arc of a ring: the ring's edges first to
// first+n-1 (indices modulo the ring) taken as one.
type span struct {
	e     geom.Edge
	first int
	n     int
}

// circleTol is how far points may lie off a circle of the given radius, mm.
func circleTol(radius float64) float64 { return circleMM + math.Min(circleShare*radius, circleMostMM) }

// farMM: rings that reach farther are not read; no part is 1000 km long, and
// products of such numbers have no digits left.
const farMM = 1e9

// isTame tells whether all numbers of r are finite and within farMM.
func isTame(r geom.Ring) bool {
	for _, e := range r {
		for _, x := range []float64{e.From.X, e.From.Y, e.To.X, e.To.Y, e.Centre.X, e.Centre.Y, e.Radius} {
			if !(math.Abs(x) < farMM) {
				return false
			}
		}
	}
	return true
}

// turnRad is the angle from direction a to direction b, -pi to pi.
func turnRad(a, b geom.Point) float64 { return math.Atan2(a.Cross(b), a.Dot(b)) }

// supportMax is the greatest value of p.d over the points p of e.
func supportMax(e geom.Edge, d geom.Point) float64 {
	m := math.Max(e.From.Dot(d), e.To.Dot(d))
	if !e.IsArc() {
		return m
	}
	top := e.Centre.Add(d.Mul(e.Radius / d.Len()))
	if onSweep(e, top) {
		m = math.Max(m, top.Dot(d))
	}
	return m
}

// onSweep tells whether the direction from the centre of arc e to p is within
// the arc's sweep, ends included.
func onSweep(e geom.Edge, p geom.Point) bool {
	if e.IsCircle() {
		return true
	}
	a := turnRad(e.From.Sub(e.Centre), p.Sub(e.Centre))
	s := e.Sweep()
	if s > 0 {
		if a < -1e-12 {
			a += 2 * math.Pi
		}
		return a <= s
	}
	if a > 1e-12 {
		a -= 2 * math.Pi
	}
	return a >= s
}

// compact merges pieces of one line and arcs of one circle that follow each
// other. The result does not depend on where the ring starts, unless the ring
// has no corner. Edges of no length go to the side before them.
func compact(r geom.Ring) []span {
	var edges []span
	for i, e := range r {
		if e.Length() > 1e-9 {
			edges = append(edges, span{e, i, 1})
			continue
		}
		if len(edges) > 0 {
			edges[len(edges)-1].n++
		}
	}
	if len(edges) == 0 {
		return nil
	}
	// Edges of no length at the ring's start belong to its last side.
	last := &edges[len(edges)-1]
	last.n += edges[0].first
	if len(edges) == 1 {
		return edges
	}
	start, best := 0, -1.0
	for i := range edges {
		a, b := edges[(i+len(edges)-1)%len(edges)], edges[i]
		if _, ok := joinSpans(r, a, b); ok {
			continue
		}
		if t := math.Abs(turnRad(a.e.EndDir(), b.e.StartDir())); t > best+1e-9 {
			start, best = i, t
		}
	}
	edges = append(append([]span{}, edges[start:]...), edges[:start]...)
	var out []span
	for i := 0; i < len(edges); {
		s, n := longestSpan(r, edges[i:])
		out = append(out, s)
		i += n
	}
	for len(out) > 1 {
		s, ok := joinSpans(r, out[len(out)-1], out[0])
		if !ok {
			break
		}
		out[0] = s
		out = out[:len(out)-1]
	}
	return out
}

// longestSpan merges as many of the first edges as belong to one line or circle.
func longestSpan(r geom.Ring, edges []span) (span, int) {
	s := edges[0]
	if s.e.IsArc() {
		n := 1
		for n < len(edges) {
			t, ok := joinSpans(r, s, edges[n])
			if !ok {
				break
			}
			s = t
			n++
		}
		return s, n
	}
	// The straight run may end in any direction that keeps all vertices so
	// far within mergeMM of it: a cone that narrows.
	base := s.e.StartDir()
	lo, hi := -math.Pi/4, math.Pi/4
	n := 1
	for n < len(edges) {
		v := edges[n-1].e.To.Sub(s.e.From)
		d := v.Len()
		if d > mergeMM {
			a, w := turnRad(base, v), math.Asin(mergeMM/d)
			lo, hi = math.Max(lo, a-w), math.Min(hi, a+w)
		}
		next := edges[n]
		if next.e.IsArc() || next.e.StartDir().Dot(base) <= 0.7 {
			break
		}
		if a := turnRad(base, next.e.To.Sub(s.e.From)); a < lo || a > hi {
			break
		}
		n++
	}
	for _, t := range edges[1:n] {
		s.n += t.n
	}
	s.e = geom.LineEdge(s.e.From, edges[n-1].e.To)
	return s, n
}

// joinSpans merges b onto a if both are of one line or one circle.
func joinSpans(r geom.Ring, a, b span) (span, bool) {
	n := a.n + b.n
	if a.e.IsArc() != b.e.IsArc() {
		return span{}, false
	}
	if !a.e.IsArc() {
		whole := b.e.To.Sub(a.e.From)
		l := whole.Len()
		if l < 1e-9 || a.e.StartDir().Dot(b.e.StartDir()) <= 0.7 {
			return span{}, false
		}
		if math.Abs(whole.Cross(a.e.To.Sub(a.e.From)))/l > mergeMM {
			return span{}, false
		}
		return span{geom.LineEdge(a.e.From, b.e.To), a.first, n}, true
	}
	if a.e.CCW != b.e.CCW || a.e.IsCircle() || b.e.IsCircle() {
		return span{}, false
	}
	ref, other := a.e, b.e
	if other.Length() > ref.Length() {
		ref, other = other, ref
	}
	tol := circleTol(ref.Radius)
	for _, p := range []geom.Point{other.From, other.Mid(), other.To} {
		if math.Abs(p.Dist(ref.Centre)-ref.Radius) > tol {
			return span{}, false
		}
	}
	if math.Abs(turnRad(a.e.EndDir(), b.e.StartDir())) > math.Max(tangentRad, 8*tol/other.Length()) {
		return span{}, false
	}
	sweep := math.Abs(a.e.Sweep()) + math.Abs(b.e.Sweep())
	if sweep > 2*math.Pi+1e-2 {
		return span{}, false
	}
	if n >= len(r) && a.e.From.Dist(b.e.To) < 1e-6 {
		// The whole ring is one circle.
		c, rad, ok := leastSquaresCircle(ringSamples(r))
		if !ok {
			return span{}, false
		}
		p := geom.Point{X: c.X + rad, Y: c.Y}
		return span{geom.Edge{From: p, To: p, Centre: c, Radius: rad, CCW: a.e.CCW}, a.first, n}, true
	}
	pts := make([]geom.Point, 0, 4*n)
	for k := 0; k < n && k < 64; k++ {
		e := r[(a.first+k*n/min(n, 64))%len(r)]
		if e.Length() > 1e-9 {
			pts = append(pts, e.From, e.Mid(), e.To)
		}
	}
	c, rad, ok := leastSquaresCircle(pts)
	if !ok {
		return span{}, false
	}
	return span{ringArc(c, rad, a.e.From, b.e.To, a.e.CCW), a.first, n}, true
}

// ringArc is the arc from a to b whose centre is the place nearest to c
// that is equally far from both.
func ringArc(c geom.Point, rad float64, a, b geom.Point, ccw bool) geom.Edge {
	d := b.Sub(a)
	if l := d.Len(); l > 1e-9 {
		mid := a.Add(b).Mul(0.5)
		u := d.Mul(1 / l)
		c = c.Sub(u.Mul(c.Sub(mid).Dot(u)))
		rad = c.Dist(a)
	}
	return geom.Edge{From: a, To: b, Centre: c, Radius: rad, CCW: ccw}
}

// ringSamples are the ends and middles of all edges of r.
func ringSamples(r geom.Ring) []geom.Point {
	var pts []geom.Point
	for _, e := range r {
		if e.IsCircle() {
			pts = append(pts, e.At(0), e.At(0.25), e.At(0.5), e.At(0.75))
			continue
		}
		pts = append(pts, e.From, e.Mid())
	}
	return pts
}

// leastSquaresCircle is the algebraic least-squares circle through pts; ok is false for
// fewer than three points or points of one line.
func leastSquaresCircle(pts []geom.Point) (c geom.Point, rad float64, ok bool) {
	if len(pts) < 3 {
		return c, 0, false
	}
	var m geom.Point
	for _, p := range pts {
		m = m.Add(p)
	}
	m = m.Mul(1 / float64(len(pts)))
	var xx, xy, yy, xz, yz, z float64
	for _, p := range pts {
		d := p.Sub(m)
		q := float64(d.X*d.X) + float64(d.Y*d.Y)
		xx += float64(d.X * d.X)
		xy += float64(d.X * d.Y)
		yy += float64(d.Y * d.Y)
		xz += float64(d.X * q)
		yz += float64(d.Y * q)
		z += q
	}
	det := float64(xx*yy) - float64(xy*xy)
	if !(math.Abs(det) > 1e-18*float64(z*z)) {
		return c, 0, false
	}
	cx := (float64(xz*yy) - float64(yz*xy)) / det / 2
	cy := (float64(yz*xx) - float64(xz*xy)) / det / 2
	rad = math.Sqrt(float64(cx*cx) + float64(cy*cy) + z/float64(len(pts)))
	return geom.Point{X: m.X + cx, Y: m.Y + cy}, rad, !math.IsNaN(rad) && !math.IsInf(rad, 0)
}

// jointKind says what stood at the end of a side before corners were sharpened.
type jointKind int

const (
	sharpCorner jointKind = iota
	roundedCorner
	reliefCorner // an arc of more than a right angle that bulges into the metal at an inner corner
)

// joint is the corner between a side and the next.
type joint struct {
	kind jointKind
	arc  span // of a rounded or relieved corner
	bite int  // outline: 1 + the corner bite that was mended here; 0 none
}

// side is a span after sharpening, with the corner at its end.
type side struct {
	span
	joint joint
}

// sharpen replaces rounded and relieved corners between two straight spans by
// the corner of the two lines. In an open list the first and last span are
// never replaced. metalLeft tells on which side the metal lies: left of an
// outline or a notch, right of an inner contour drawn counter-clockwise.
func sharpen(spans []span, closed, metalLeft bool) []side {
	n := len(spans)
	kinds := make([]jointKind, n)
	corners := make([]geom.Point, n)
	for k, s := range spans {
		if n < 3 || !closed && (k == 0 || k == n-1) {
			continue
		}
		a, b := spans[(k+n-1)%n], spans[(k+1)%n]
		kinds[k], corners[k] = cornerOf(a.e, s.e, b.e, metalLeft)
	}
	var out []side
	for k, s := range spans {
		if kinds[k] != sharpCorner {
			continue
		}
		sd := side{span: s}
		if p := (k + n - 1) % n; kinds[p] != sharpCorner {
			sd.e.From = corners[p]
		}
		if q := (k + 1) % n; kinds[q] != sharpCorner {
			sd.e.To = corners[q]
			sd.joint = joint{kind: kinds[q], arc: spans[q]}
		}
		out = append(out, sd)
	}
	return out
}

// cornerOf tells whether arc s is a rounding or relief of the corner of the
// lines a and b, and where that corner is.
func cornerOf(a, s, b geom.Edge, metalLeft bool) (jointKind, geom.Point) {
	if a.IsArc() || b.IsArc() || !s.IsArc() || s.IsCircle() {
		return sharpCorner, geom.Point{}
	}
	v, ok := meet(a, b)
	if !ok {
		return sharpCorner, v
	}
	ahead, behind := v.Sub(a.To).Dot(a.EndDir()), b.From.Sub(v).Dot(b.StartDir())
	t1, t2 := turnRad(a.EndDir(), s.StartDir()), turnRad(s.EndDir(), b.StartDir())
	sweep := s.Sweep()
	if math.Abs(t1) < tangentRad && math.Abs(t2) < tangentRad {
		if math.Abs(sweep) <= sharpenRad && math.Abs(sweep) > inwardRad && ahead > 0 && behind > 0 {
			return roundedCorner, v
		}
		return sharpCorner, v
	}
	inward := sweep < 0
	if !metalLeft {
		inward = sweep > 0
	}
	total := t1 + sweep + t2
	if inward && math.Abs(sweep) > math.Pi/2 && total*sweep > 0 && math.Abs(total) < math.Pi &&
		ahead > -lineMM && behind > -lineMM && v.Dist(s.Centre) <= s.Radius+circleTol(s.Radius) {
		return reliefCorner, v
	}
	return sharpCorner, v
}

// meet is where the lines of a and b meet; ok is false for lines within a
// tenth of a degree of parallel.
func meet(a, b geom.Edge) (geom.Point, bool) {
	u, w := a.StartDir(), b.StartDir()
	d := u.Cross(w)
	if !(math.Abs(d) > 0.1*math.Pi/180) {
		return geom.Point{}, false
	}
	// From the end nearer to the other line, so that a long side's error
	// does not count twice.
	return a.To.Add(u.Mul(b.From.Sub(a.To).Cross(w) / d)), true
}
