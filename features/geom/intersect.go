package geom

import (
	"math"
	"slices"
)

// Crossing tells what two edges have in common. The zero value is nothing.
type Crossing struct {
	// Points are the common points in the order of travel along the first
	// edge, no two within the tolerance of each other. Where an end of an edge
	// is within the tolerance, the point is that end exactly (the first edge's
	// end before the second's). An overlap gives the two ends of each stretch.
	Points []Point
	// Touch, one for each point, is true where the edges meet without running
	// through each other: an end on the other edge, a tangent point, the end
	// of an overlap.
	Touch []bool
	// Tangent, one for each point, is true where the two have the same tangent.
	Tangent []bool
	// Overlap tells that they share a stretch longer than the tolerance: two
	// lines of one line, or two arcs of one circle. A line and an arc never
	// overlap, however flat the arc.
	Overlap bool
	// Shared are the stretches themselves, as pieces of the first edge.
	Shared []Edge
}

// Meeting is the plain form of Crossing, without slices: for loops over many
// pairs.
type Meeting struct {
	N       int
	At      [6]Point
	Touch   [6]bool
	Tangent [6]bool
	Overlap bool
}

func (m *Meeting) add(p Point, touch, tangent bool, tol float64) {
	for i := 0; i < m.N; i++ {
		if m.At[i].Dist(p) <= tol {
			return
		}
	}
	if m.N < len(m.At) {
		m.At[m.N], m.Touch[m.N], m.Tangent[m.N] = p, touch, tangent
		m.N++
	}
}

// Meet finds the common points of two edges. Near misses up to tol count as
// touches: an end within tol of the other edge, or a tangent gap of up to tol.
// The points are in no particular order.
func Meet(a, b Edge, tol float64) Meeting {
	var m Meeting
	// Ends first: the points that others snap to.
	for i, p := range [4]Point{a.From, a.To, b.From, b.To} {
		e, own := &b, &a
		if i >= 2 {
			e, own = &a, &b
		}
		if own.IsCircle() { // where a circle starts is no end
			continue
		}
		if e.near(p, tol) {
			m.add(p, true, false, tol)
		}
	}
	ends := m.N
	if sameCarrier(&a, &b, tol) {
		if ends >= 2 || a.IsCircle() || b.IsCircle() {
			m.Overlap = overlapLen(&a, &b, &m, tol) > tol
		}
		for i := range m.N {
			m.Tangent[i] = true
		}
		return m
	}
	for i := range ends {
		ta, tb := a.tangentNear(m.At[i]), b.tangentNear(m.At[i])
		// Within 0.001 rad two pieces run into each other for any shop.
		m.Tangent[i] = math.Abs(ta.Cross(tb)) < 1e-3
	}
	if a.Radius > 0 || b.Radius > 0 {
		meetCurved(&m, &a, &b, tol)
		return m
	}
	var buf [2]Point
	for _, p := range carriersMeet(&a, &b, &buf) {
		if onSpan(&a, p, tol) && onSpan(&b, p, tol) {
			m.add(p, false, false, tol)
		}
	}
	return m
}

// meetCurved adds the crossings of a pair with an arc in it. A gap or an
// overlap of the carriers of up to tol where they are tangent is one tangent
// point.
func meetCurved(m *Meeting, a, b *Edge, tol float64) {
	var buf [2]Point
	pts := carriersMeet(a, b, &buf)
	if foot, depth, ok := tangentFoot(a, b); ok && math.Abs(depth) <= tol {
		// One tangent point if it is on both; where the arc ends near it, the
		// ends have been added already.
		if onSpan(a, foot, tol) && onSpan(b, foot, tol) {
			for i := range m.N { // the whole near stretch is one touch
				if near := m.At[i].Dist(foot); near*near <= 16*tol*tangentScale(a, b) {
					m.Tangent[i] = true
					return
				}
			}
			m.add(foot, true, true, tol)
		}
		return
	}
	for _, p := range pts {
		if onSpan(a, p, tol) && onSpan(b, p, tol) {
			m.add(p, false, false, tol)
		}
	}
}

// tangentFoot gives the middle of the two carriers' nearest (or deepest)
// points, and how deep they run into each other there.
func tangentFoot(a, b *Edge) (foot Point, depth float64, ok bool) {
	switch {
	case a.Radius > 0 && b.Radius > 0:
		d := b.Centre.Sub(a.Centre)
		l := d.Len()
		if l == 0 {
			return Point{}, 0, false
		}
		u := d.Mul(1 / l)
		outer, inner := a.Radius+b.Radius-l, l-math.Abs(a.Radius-b.Radius)
		if math.Abs(outer) <= math.Abs(inner) {
			return a.Centre.Add(u.Mul(a.Radius - outer/2)), outer, true
		}
		if a.Radius >= b.Radius {
			return a.Centre.Add(u.Mul(a.Radius + inner/2)), inner, true
		}
		return b.Centre.Sub(u.Mul(b.Radius + inner/2)), inner, true
	case a.Radius > 0:
		a, b = b, a
	}
	u := a.To.Sub(a.From).Unit()
	if u == (Point{}) {
		return Point{}, 0, false
	}
	off := u.Cross(b.Centre.Sub(a.From))
	depth = b.Radius - math.Abs(off)
	n := u.Left()
	if off < 0 {
		n = n.Mul(-1)
	}
	return b.Centre.Sub(n.Mul(math.Abs(off))), depth, true
}

// tangentScale is the radius of the relative curvature of two tangent
// carriers: they part by s*s/(2*scale) at the distance s from the point.
func tangentScale(a, b *Edge) float64 {
	k := 0.0
	switch {
	case a.Radius > 0 && b.Radius > 0:
		k = 1/a.Radius + 1/b.Radius
		if d := a.Centre.Dist(b.Centre); d < max(a.Radius, b.Radius) {
			k = math.Abs(1/a.Radius - 1/b.Radius)
		}
	case a.Radius > 0:
		k = 1 / a.Radius
	default:
		k = 1 / b.Radius
	}
	if k < 1e-12 {
		return 1e12
	}
	return 1 / k
}

// near tells whether p lies within tol of the edge.
func (e *Edge) near(p Point, tol float64) bool {
	if e.Radius > 0 {
		d := p.Sub(e.Centre)
		if math.Abs(d.Len()-e.Radius) <= tol && e.spans(d) {
			return true
		}
		return p.Dist(e.From) <= tol || p.Dist(e.To) <= tol
	}
	return e.Dist(p) <= tol
}

// tangentNear is the unit tangent at a point on or near the edge.
func (e *Edge) tangentNear(p Point) Point {
	return e.dirAt(p)
}

// sameCarrier tells whether one of the two lies on the other's line or circle
// as a whole. The test is a distance, never an angle: at 3 m an angle of 0.01
// degrees is half a millimetre.
func sameCarrier(a, b *Edge, tol float64) bool {
	if (a.Radius > 0) != (b.Radius > 0) {
		return false
	}
	return onCarrier(a, b, tol) || onCarrier(b, a, tol)
}

func onCarrier(a, b *Edge, tol float64) bool {
	if b.Radius <= 0 {
		d := b.To.Sub(b.From)
		l := d.Len()
		if l == 0 {
			return false
		}
		return math.Abs(d.Cross(a.From.Sub(b.From))) <= tol*l && math.Abs(d.Cross(a.To.Sub(b.From))) <= tol*l
	}
	if math.Abs(a.From.Dist(b.Centre)-b.Radius) > tol || math.Abs(a.To.Dist(b.Centre)-b.Radius) > tol {
		return false
	}
	if !(math.Abs(a.Mid().Dist(b.Centre)-b.Radius) <= tol) {
		return false
	}
	if a.From == a.To { // a full circle needs the same centre
		return a.Centre.Dist(b.Centre) <= tol && math.Abs(a.Radius-b.Radius) <= tol
	}
	return true
}

// overlapLen is the length of the longest stretch that two edges of one
// carrier share. The ends that lie on the other edge are the stretch's ends.
func overlapLen(a, b *Edge, m *Meeting, tol float64) float64 {
	if a.IsCircle() {
		if b.IsCircle() {
			m.add(a.From, true, true, tol)
		}
		return b.Length()
	}
	if b.IsCircle() {
		return a.Length()
	}
	best := 0.0
	for _, s := range sharedOf(a, b, m.At[:m.N], tol) {
		best = max(best, s.Length())
	}
	return best
}

// sharedOf cuts a at the points and keeps the pieces that lie on b.
func sharedOf(a, b *Edge, pts []Point, tol float64) []Edge {
	var out []Edge
	for _, s := range a.Split(pts...) {
		if s.Length() > tol && b.near(s.Mid(), 2*tol) {
			if n := len(out); n > 0 && out[n-1].To == s.From {
				out[n-1].To = s.To
				continue
			}
			out = append(out, s)
		}
	}
	return out
}

// Intersect finds what two edges have in common. Near misses up to tol (mm)
// count as touches.
func Intersect(a, b Edge, tol float64) Crossing {
	m := Meet(a, b, tol)
	if m.N == 0 && !m.Overlap {
		return Crossing{}
	}
	order := make([]int, m.N)
	at := make([]float64, m.N)
	for i := range order {
		order[i] = i
		at[i] = a.param(m.At[i])
		switch { // an end may come out as a whole turn, or just below zero
		case m.At[i].Dist(a.From) <= tol:
			at[i] = math.Inf(-1)
		case m.At[i].Dist(a.To) <= tol:
			at[i] = math.Inf(1)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case at[i] < at[j]:
			return -1
		case at[i] > at[j]:
			return 1
		}
		return 0
	})
	c := Crossing{Overlap: m.Overlap}
	for _, i := range order {
		c.Points = append(c.Points, m.At[i])
		c.Touch = append(c.Touch, m.Touch[i])
		c.Tangent = append(c.Tangent, m.Tangent[i])
	}
	if m.Overlap {
		c.Shared = sharedOf(&a, &b, c.Points, tol)
	}
	return c
}
