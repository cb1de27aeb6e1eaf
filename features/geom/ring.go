package geom

import (
	"math"
	"slices"
)

// Ring is a closed outline: each edge starts where the one before ends, the
// last ends where the first starts. A ring is simple unless a function says
// it takes others. The area is positive counter-clockwise. The zero value is
// an empty ring: no area, no length, nothing inside.
type Ring []Edge

// Side tells where a point lies.
type Side int8

// The sides of a ring.
const (
	Out Side = iota
	On
	In
)

// String names the side.
func (s Side) String() string {
	switch s {
	case Out:
		return "out"
	case On:
		return "on"
	case In:
		return "in"
	}
	panic("geom: unknown side")
}

// RingOf is the ring of straight edges through the points, closed.
func RingOf(pts ...Point) Ring {
	r := make(Ring, 0, len(pts))
	for i, p := range pts {
		r = append(r, LineEdge(p, pts[(i+1)%len(pts)]))
	}
	return r
}

// segment is the signed area between an arc and its chord, and the moment of
// that area about the arc's centre; both zero for a line.
// Area r*r/2*(a - sin a), distance of its centroid from the centre
// 4*r*sin(a/2)^3/(3*(a - sin a)): any table of plane figures.
func (e *Edge) segment() (area float64, moment Point) {
	if e.Radius <= 0 {
		return 0, Point{}
	}
	a := e.Sweep()
	r2 := float64(e.Radius * e.Radius)
	area = r2 / 2 * minusSin(a)
	h := math.Sin(math.Abs(a) / 2)
	f := 2.0 / 3.0 * r2 * e.Radius * h * h * h
	dir := e.Mid().Sub(e.Centre).Unit()
	if a < 0 {
		f = -f
	}
	return area, dir.Mul(f)
}

// minusSin is a - sin a without cancellation at small a.
func minusSin(a float64) float64 {
	if math.Abs(a) < 0.05 {
		a2 := a * a
		return a * a2 / 6 * (1 - a2/20*(1-a2/42*(1-a2/72)))
	}
	return a - math.Sin(a)
}

// Area is the enclosed area, arcs exact; positive when the ring runs
// counter-clockwise.
func (r Ring) Area() float64 {
	if len(r) == 0 {
		return 0
	}
	o := r[0].From
	sum := 0.0
	for i := range r {
		seg, _ := r[i].segment()
		sum += r[i].From.Sub(o).Cross(r[i].To.Sub(o))/2 + seg
	}
	return sum
}

// Length is the length of all edges.
func (r Ring) Length() float64 {
	sum := 0.0
	for i := range r {
		sum += r[i].Length()
	}
	return sum
}

// Bounds is the exact box; the zero box for an empty ring.
func (r Ring) Bounds() Box {
	if len(r) == 0 {
		return Box{}
	}
	b := r[0].Bounds()
	for _, e := range r[1:] {
		b = b.Union(e.Bounds())
	}
	return b
}

// Reverse is the same outline run through the other way; it starts at the
// same vertex.
func (r Ring) Reverse() Ring {
	out := make(Ring, len(r))
	for i := range r {
		out[len(r)-1-i] = r[i].Reverse()
	}
	return out
}

// CCW is a copy that runs counter-clockwise.
func (r Ring) CCW() Ring {
	if r.Area() < 0 {
		return r.Reverse()
	}
	return slices.Clone(r)
}

// Centroid is the centre of the enclosed area, arcs exact. A ring without
// area gives the centre of its length; one without length its start.
func (r Ring) Centroid() Point {
	if len(r) == 0 {
		return Point{}
	}
	o := r[0].From
	area, length := 0.0, 0.0
	var m, lm Point
	for i := range r {
		e := &r[i]
		a, b := e.From.Sub(o), e.To.Sub(o)
		t := a.Cross(b) / 2
		seg, sm := e.segment()
		area += t + seg
		m = m.Add(a.Add(b).Mul(t / 3)).Add(sm).Add(e.Centre.Sub(o).Mul(seg))
		l := e.Length()
		length += l
		lm = lm.Add(e.Mid().Sub(o).Mul(l))
	}
	switch {
	case math.Abs(area) > 1e-12*length*length:
		return o.Add(m.Mul(1 / area))
	case length > 0:
		return o.Add(lm.Mul(1 / length))
	}
	return o
}

// Apply moves the ring. A mirror turns its direction; use CCW after it.
func (r Ring) Apply(m Motion) Ring {
	out := make(Ring, len(r))
	for i := range r {
		out[i] = r[i].Apply(m)
	}
	return out
}

// Flatten gives the vertices of a polygon whose sides are no further than
// maxDeviation (mm) from the ring; all vertices lie on it and the first is not
// repeated at the end.
func (r Ring) Flatten(maxDeviation float64) []Point {
	out := make([]Point, 0, len(r))
	for i := range r {
		out = append(out, r[i].Flatten(maxDeviation)...)
	}
	return out
}

// Canonical is the ring in a form that depends on its shape only: run
// counter-clockwise, started at the lowest, then leftmost vertex (rounded to
// 0.001 mm). Vertices that tie are told apart by what follows them. A full
// circle starts at its rightmost point.
func (r Ring) Canonical() Ring {
	if len(r) == 1 && r[0].IsCircle() {
		return Ring{CircleEdge(r[0].Centre, r[0].Radius)}
	}
	out := r.CCW()
	k := out.canonicalStart()
	return append(slices.Clone(out[k:]), out[:k]...)
}

func (r Ring) canonicalStart() int {
	best := 0
	for i := 1; i < len(r); i++ {
		c := ComparePlace(r[i].From, r[best].From)
		for k := 0; c == 0 && k < len(r); k++ {
			a, b := &r[(i+k)%len(r)], &r[(best+k)%len(r)]
			if c = ComparePlace(a.To, b.To); c == 0 {
				c = ComparePlace(a.Mid(), b.Mid())
			}
		}
		if c < 0 {
			best = i
		}
	}
	return best
}

// CanonicalStart is the index of the edge that Canonical starts with, for a
// ring that runs counter-clockwise already; 0 for an empty ring.
func (r Ring) CanonicalStart() int { return r.canonicalStart() }
