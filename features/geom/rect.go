package geom

import (
	"math"
	"slices"
)

// Rect is a turned rectangle: Width along AngleRad, Height square to it, Width
// never less than Height. AngleRad lies in (-pi/2, pi/2]; for a square in
// (-pi/4, pi/4]. The zero value is the point at the origin.
type Rect struct {
	Centre        Point
	AngleRad      float64
	Width, Height float64
}

// Corners are the corners, counter-clockwise, the first at -Width/2, -Height/2.
func (r Rect) Corners() [4]Point {
	c, s := cosSin(r.AngleRad)
	u := Point{c, s}
	a, b := u.Mul(r.Width/2), u.Left().Mul(r.Height/2)
	return [4]Point{
		r.Centre.Sub(a).Sub(b), r.Centre.Add(a).Sub(b), r.Centre.Add(a).Add(b), r.Centre.Sub(a).Add(b),
	}
}

// Area is Width times Height.
func (r Rect) Area() float64 { return r.Width * r.Height }

// RectAlong is the least rectangle round the ring with a side in the direction
// u.
func RectAlong(r Ring, u Point) Rect {
	u = u.Unit()
	if len(r) == 0 || u == (Point{}) {
		return Rect{}
	}
	v := u.Left()
	o := r[0].From
	q := make(Ring, len(r))
	for i := range r {
		q[i] = r[i].Apply(NewShift(o.Mul(-1)))
	}
	return rectFrom(o, u, q.Support(u), q.Support(v), q.Support(u.Mul(-1)), q.Support(v.Mul(-1)))
}

func rectFrom(o, u Point, right, up, left, down float64) Rect {
	v := u.Left()
	w, h := right+left, up+down
	c := o.Add(u.Mul((right - left) / 2)).Add(v.Mul((up - down) / 2))
	square := math.Abs(w-h) <= 1e-6*max(w, h)
	if h > w && !square {
		w, h = h, w
		u = v
	}
	if h > w {
		w, h = h, w
	}
	a := math.Atan2(u.Y, u.X)
	span := math.Pi
	if square {
		span = math.Pi / 2
	}
	const eps = 1e-9 // the open end of the range
	for a <= -span/2+eps {
		a += span
	}
	for a > span/2+eps {
		a -= span
	}
	if math.Abs(a) < 1e-15 {
		a = 0
	}
	return Rect{Centre: c, AngleRad: a, Width: w, Height: h}
}

// LeastRectangle is the rectangle of least area round the ring's hull among
// those with a side on a straight piece of the hull, or along the chord of one
// of its arcs; a disc has the one at angle 0. Areas within 1e-6 of each other
// are equal: the longer side on the hull wins, then the least turned one.
func LeastRectangle(r Ring) Rect {
	h := Hull(r)
	if len(h) == 0 {
		if len(r) > 0 {
			return Rect{Centre: r[0].From}
		}
		return Rect{}
	}
	if len(h) == 1 {
		return RectAlong(h, Point{1, 0})
	}
	o := h[0].From
	q := make(Ring, len(h))
	for i := range h {
		q[i] = h[i].Apply(NewShift(o.Mul(-1)))
	}
	s := newSupporter(q)
	var best Rect
	bestSide, found := 0.0, false
	for i := range q {
		d := q[i].To.Sub(q[i].From)
		side := d.Len()
		if side == 0 {
			continue
		}
		u := d.Mul(1 / side)
		if q[i].IsArc() {
			side = 0
		}
		c := rectFrom(o, u, s.reach(u), s.reach(u.Left()), s.reach(u.Mul(-1)), s.reach(u.Left().Mul(-1)))
		eps := 1e-6 * max(c.Area(), best.Area())
		switch {
		case !found || c.Area() < best.Area()-eps:
		case c.Area() > best.Area()+eps:
			continue
		case side > bestSide+placeStep:
		case side < bestSide-placeStep:
			continue
		case math.Abs(math.Abs(c.AngleRad)-math.Abs(best.AngleRad)) > 1e-9:
			if math.Abs(c.AngleRad) > math.Abs(best.AngleRad) {
				continue
			}
		case c.AngleRad < best.AngleRad:
			continue
		}
		best, bestSide, found = c, side, true
	}
	return best
}

// supporter answers support queries on a convex counter-clockwise ring in
// O(log n): the outward normals turn once along it.
type supporter struct {
	hull  Ring
	start []float64 // normal direction at the start of each edge, growing
	// uneven tells that a piece runs back, which rounding can bring in between
	// two nearly equal arcs: the normals then do not turn once, and every edge
	// is asked.
	uneven bool
}

func newSupporter(h Ring) supporter {
	s := supporter{hull: h, start: make([]float64, len(h))}
	prev := math.Inf(-1)
	for i := range h {
		d := h[i].StartDir()
		a := direction(Point{d.Y, -d.X})
		if i > 0 { // growing, whatever the rounding
			for a < prev-1 {
				a += 2 * math.Pi
			}
			a = max(a, prev)
		}
		s.start[i] = a
		prev = a
		if h[i].IsArc() {
			prev += max(0, h[i].Sweep())
		}
	}
	const slack = 0.01 // rad, far above rounding and far below a turn
	s.uneven = prev-s.start[0] > 2*math.Pi+slack
	return s
}

func (s *supporter) reach(u Point) float64 {
	if s.uneven {
		return s.hull.Support(u)
	}
	a := direction(u)
	for a < s.start[0] {
		a += 2 * math.Pi
	}
	k, _ := slices.BinarySearch(s.start, a)
	n := len(s.hull)
	best := math.Inf(-1)
	// The edge is k-1; its neighbours guard against rounding.
	for j := k - 3; j <= k+1; j++ {
		e := &s.hull[((j%n)+n)%n]
		best = max(best, u.Dot(e.From), u.Dot(e.To))
		if e.Radius > 0 && e.spans(u) {
			best = max(best, u.Dot(e.Centre)+e.Radius)
		}
	}
	return best
}
