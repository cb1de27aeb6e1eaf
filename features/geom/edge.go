// Package geom holds plane geometry of lines and circular arcs, in
// millimetres and radians. It knows no drawing and no shop. Arcs are kept as
// arcs; nothing is flattened to chords unless a function says so.
package geom

import (
	"math"
	"slices"
)

// Edge is a straight piece or a circular arc from From to To. The zero value
// is a line of no length at the origin. An arc with From == To is a full circle.
type Edge struct {
	From, To Point
	Centre   Point   // of an arc
	Radius   float64 // 0 for a line
	CCW      bool    // an arc runs counter-clockwise from From to To
}

// LineEdge is the straight piece from a to b.
func LineEdge(a, b Point) Edge { return Edge{From: a, To: b} }

// ArcEdge is the arc about centre from from to to. The radius is the distance
// centre-from; the caller sees to it that to lies on the circle. When that
// distance is zero the result is a line.
func ArcEdge(centre, from, to Point, ccw bool) Edge {
	r := centre.Dist(from)
	if r == 0 {
		return LineEdge(from, to)
	}
	return Edge{From: from, To: to, Centre: centre, Radius: r, CCW: ccw}
}

// ArcAngles is the counter-clockwise arc from angle start to angle end (rad).
// Angles that differ by a whole number of turns (within 1e-12) give the full
// circle from start. A radius that is not positive gives a line of no length.
func ArcAngles(centre Point, radius, start, end float64) Edge {
	if !(radius > 0) {
		return LineEdge(centre, centre)
	}
	from := onCircle(centre, radius, start)
	turn := math.Mod(end-start, 2*math.Pi)
	if turn < 0 {
		turn += 2 * math.Pi
	}
	if turn < 1e-12 || turn > 2*math.Pi-1e-12 {
		return Edge{From: from, To: from, Centre: centre, Radius: radius, CCW: true}
	}
	return Edge{From: from, To: onCircle(centre, radius, end), Centre: centre, Radius: radius, CCW: true}
}

// BulgeEdge is the edge of a polyline: bulge is the tangent of a quarter of the
// included angle, positive counter-clockwise; |bulge| < 1e-9 gives a line, and
// so do equal points.
func BulgeEdge(a, b Point, bulge float64) Edge {
	if math.Abs(bulge) < 1e-9 || a == b || math.IsNaN(bulge) || math.IsInf(bulge, 0) {
		return LineEdge(a, b)
	}
	// With chord c and bulge t the sagitta is t*c/2, the radius
	// c*(1+t*t)/(4*t), and the centre lies c*(1-t*t)/(4*t) to the left of the
	// chord's middle.
	chord := b.Sub(a)
	mid := a.Add(chord.Mul(0.5))
	t2 := float64(bulge * bulge)
	centre := mid.Add(chord.Left().Mul((1 - t2) / (4 * bulge)))
	radius := chord.Len() * (1 + t2) / (4 * math.Abs(bulge))
	return Edge{From: a, To: b, Centre: centre, Radius: radius, CCW: bulge > 0}
}

// CircleEdge is the full circle, counter-clockwise from its rightmost point.
// A radius that is not positive gives a line of no length.
func CircleEdge(centre Point, radius float64) Edge {
	if !(radius > 0) {
		return LineEdge(centre, centre)
	}
	p := Point{centre.X + radius, centre.Y}
	return Edge{From: p, To: p, Centre: centre, Radius: radius, CCW: true}
}

func onCircle(c Point, r, angle float64) Point {
	cos, sin := cosSin(angle)
	return Point{c.X + float64(r*cos), c.Y + float64(r*sin)}
}

// cosSin is exact at the multiples of a quarter turn.
func cosSin(angle float64) (cos, sin float64) {
	q := angle / (math.Pi / 2)
	if k := math.Round(q); math.Abs(q-k) < 1e-15*max(1, math.Abs(q)) && math.Abs(k) < 1e6 {
		switch ((int(k) % 4) + 4) % 4 {
		case 0:
			return 1, 0
		case 1:
			return 0, 1
		case 2:
			return -1, 0
		default:
			return 0, -1
		}
	}
	return math.Cos(angle), math.Sin(angle)
}

// IsArc tells whether the edge is curved; a full circle is.
func (e Edge) IsArc() bool { return e.Radius > 0 }

// IsCircle tells whether the edge is a full circle.
func (e Edge) IsCircle() bool { return e.Radius > 0 && e.From == e.To }

// spokes are the directions from the centre to the ends, ordered so that the
// arc runs counter-clockwise from s to t.
func (e *Edge) spokes() (s, t Point) {
	if e.CCW {
		return e.From.Sub(e.Centre), e.To.Sub(e.Centre)
	}
	return e.To.Sub(e.Centre), e.From.Sub(e.Centre)
}

// spans tells whether the direction d from the centre lies within the arc,
// ends included. It compares signs of cross products only.
func (e *Edge) spans(d Point) bool {
	if e.From == e.To {
		return true
	}
	s, t := e.spokes()
	c := s.Cross(t)
	switch {
	case c > 0:
		return s.Cross(d) >= 0 && d.Cross(t) >= 0
	case c < 0:
		return !(t.Cross(d) > 0 && d.Cross(s) > 0)
	case s.Dot(t) < 0:
		return s.Cross(d) >= 0
	}
	return s.Cross(d) == 0 && s.Dot(d) > 0
}

// Sweep is the signed angle of an arc, positive counter-clockwise, in
// [-2 pi, 2 pi]; 0 for a line.
func (e Edge) Sweep() float64 {
	if e.Radius <= 0 {
		return 0
	}
	a := 2 * math.Pi
	if e.From != e.To {
		s, t := e.spokes()
		a = math.Atan2(s.Cross(t), s.Dot(t))
		if a < 0 {
			a += 2 * math.Pi
		}
	}
	if !e.CCW {
		return -a
	}
	return a
}

// Length is the length along the edge.
func (e Edge) Length() float64 {
	if e.Radius <= 0 {
		return e.From.Dist(e.To)
	}
	return e.Radius * math.Abs(e.Sweep())
}

// Reverse is the same edge run through the other way.
func (e Edge) Reverse() Edge {
	e.From, e.To = e.To, e.From
	if e.Radius > 0 {
		e.CCW = !e.CCW
	} else {
		e.CCW = false
	}
	return e
}

// Mid is the point half way along the edge.
func (e Edge) Mid() Point {
	if e.Radius <= 0 {
		return Point{e.From.X + (e.To.X-e.From.X)/2, e.From.Y + (e.To.Y-e.From.Y)/2}
	}
	// The middle of a counter-clockwise arc lies to the right of its chord,
	// whatever the sweep; no angle is needed.
	chord := e.To.Sub(e.From)
	if !e.CCW {
		chord = chord.Mul(-1)
	}
	d := chord.Left().Mul(-1).Unit()
	if chord.Len() <= 1e-9 { // no direction left: nothing or nearly all of the circle
		d = e.From.Sub(e.Centre).Unit()
		if math.Abs(e.Sweep()) > math.Pi {
			d = d.Mul(-1)
		}
	}
	return e.Centre.Add(d.Mul(e.Radius))
}

// At is the point at the fraction f of the way, 0 at From and 1 at To; f is
// held in 0..1.
func (e Edge) At(f float64) Point {
	switch {
	case f <= 0:
		return e.From
	case f >= 1:
		return e.To
	case e.Radius <= 0:
		return e.From.Add(e.To.Sub(e.From).Mul(f))
	}
	cos, sin := cosSin(e.Sweep() * f)
	s := e.From.Sub(e.Centre).Unit().Mul(e.Radius)
	return e.Centre.Add(Point{float64(s.X*cos) - float64(s.Y*sin), float64(s.X*sin) + float64(s.Y*cos)})
}

// StartDir is the unit tangent at From, in the direction of travel; zero for
// a line of no length.
func (e Edge) StartDir() Point { return e.dirAt(e.From) }

// EndDir is the unit tangent at To, in the direction of travel.
func (e Edge) EndDir() Point { return e.dirAt(e.To) }

func (e *Edge) dirAt(p Point) Point {
	if e.Radius <= 0 {
		return e.To.Sub(e.From).Unit()
	}
	d := p.Sub(e.Centre).Left().Unit()
	if !e.CCW {
		d = d.Mul(-1)
	}
	return d
}

// Curvature is the signed curvature, 1/mm: positive when the edge bends to
// the left of its direction; 0 for a line.
func (e Edge) Curvature() float64 {
	switch {
	case e.Radius <= 0:
		return 0
	case e.CCW:
		return 1 / e.Radius
	}
	return -1 / e.Radius
}

// Bounds is the exact box of the edge.
func (e Edge) Bounds() Box {
	b := BoxOf(e.From, e.To)
	if e.Radius <= 0 {
		return b
	}
	for _, d := range [4]Point{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		if e.spans(d) {
			b = b.Add(e.Centre.Add(d.Mul(e.Radius)))
		}
	}
	return b
}

// Nearest is the point of the edge that is nearest to p. When several are,
// it is the middle of an arc about p (the rightmost point of a full circle),
// else the lower, then the left end.
func (e Edge) Nearest(p Point) Point {
	if e.Radius <= 0 {
		d := e.To.Sub(e.From)
		l2 := d.Dot(d)
		if l2 == 0 {
			return e.From
		}
		f := p.Sub(e.From).Dot(d) / l2
		switch {
		case f <= 0:
			return e.From
		case f >= 1:
			return e.To
		case f > 0.5: // from the nearer end, for the least rounding
			return e.To.Sub(d.Mul(1 - f))
		}
		return e.From.Add(d.Mul(f))
	}
	d := p.Sub(e.Centre)
	l := d.Len()
	if l <= 1e-12*e.Radius {
		if e.From == e.To {
			return Point{e.Centre.X + e.Radius, e.Centre.Y}
		}
		return e.Mid()
	}
	if e.spans(d) {
		return e.Centre.Add(d.Mul(e.Radius / l))
	}
	da, db := p.Dist(e.From), p.Dist(e.To)
	if math.Abs(da-db) <= tieEps {
		if ComparePlace(e.To, e.From) < 0 {
			return e.To
		}
		return e.From
	}
	if db < da {
		return e.To
	}
	return e.From
}

// tieEps is how far two distances may differ and still count as equal: about
// a thousand times the rounding error of a distance within a few metres.
const tieEps = 1e-9

// Dist is the distance from p to the edge.
func (e Edge) Dist(p Point) float64 { return e.Nearest(p).Dist(p) }

// param is the place of p along the edge, growing from From to To: a length
// for a line, an angle for an arc. p is taken to lie on the edge.
func (e *Edge) param(p Point) float64 {
	if e.Radius <= 0 {
		return p.Sub(e.From).Dot(e.To.Sub(e.From).Unit())
	}
	s, d := e.From.Sub(e.Centre), p.Sub(e.Centre)
	c := s.Cross(d)
	if !e.CCW {
		c = -c
	}
	a := math.Atan2(c, s.Dot(d))
	if a < 0 {
		a += 2 * math.Pi
	}
	return a
}

// Param is the place of p, a point of the edge, along it: it grows from From
// to To, a length for a line, an angle in [0, 2 pi) for an arc.
func (e Edge) Param(p Point) float64 { return e.param(p) }

// Split cuts the edge at the points, which are taken to lie on it, in the
// order of travel. Points within 1e-9 mm of an end or of each other cut
// nothing. A circle keeps its own From as a vertex. The pieces of an arc keep
// its centre and radius.
func (e Edge) Split(points ...Point) []Edge {
	type cut struct {
		at float64
		p  Point
	}
	cuts := make([]cut, 0, len(points))
	for _, p := range points {
		if p.Dist(e.From) > tieEps && p.Dist(e.To) > tieEps {
			cuts = append(cuts, cut{e.param(p), p})
		}
	}
	slices.SortFunc(cuts, func(a, b cut) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	out := make([]Edge, 0, len(cuts)+1)
	rest := e
	for _, c := range cuts {
		if c.p.Dist(rest.From) <= tieEps {
			continue
		}
		piece := rest
		piece.To = c.p
		rest.From = c.p
		out = append(out, piece)
	}
	return append(out, rest)
}

// Bulge is the tangent of a quarter of the sweep, positive counter-clockwise;
// 0 for a line. A full circle has none: it gives +Inf or -Inf.
func (e Edge) Bulge() float64 {
	if e.IsCircle() {
		if e.CCW {
			return math.Inf(1)
		}
		return math.Inf(-1)
	}
	return math.Tan(e.Sweep() / 4)
}

// Apply moves the edge.
func (e Edge) Apply(m Motion) Edge {
	e.From, e.To = m.Apply(e.From), m.Apply(e.To)
	if e.Radius > 0 {
		e.Centre = m.Apply(e.Centre)
		e.CCW = e.CCW != m.Mirror
	}
	return e
}

// Flatten gives points along the edge from From on, without To, such that no
// chord is further than maxDeviation from the edge. All lie on the edge.
func (e Edge) Flatten(maxDeviation float64) []Point {
	if e.Radius <= 0 {
		return []Point{e.From}
	}
	sweep := math.Abs(e.Sweep())
	// A chord over the angle a deviates by r*(1-cos(a/2)).
	ratio := 1 - maxDeviation/e.Radius
	n := 1.0
	if ratio < 1 {
		step := math.Pi / 2
		if ratio > 0 {
			step = min(step, 2*math.Acos(ratio))
		}
		n = math.Ceil(sweep / step)
	} else {
		n = 1e6 // no deviation allowed: a bounded answer all the same
	}
	n = min(max(n, 1), 1e6)
	out := make([]Point, 0, int(n))
	for i := 0; i < int(n); i++ {
		out = append(out, e.At(float64(i)/n))
	}
	return out
}
