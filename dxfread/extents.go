package dxfread

import "math"

// Extents is the box of placed geometry in drawing units, seen from above.
// Lines, arcs, circles, ellipses and polylines count exactly; a spline by its
// control or fit points, which hold it or lie on it. Texts, dimensions,
// hatches and other entities without an outline do not count. The zero value
// is empty.
type Extents struct {
	Min, Max Vec
	some     bool
}

// Empty tells that nothing was added.
func (x *Extents) Empty() bool { return !x.some }

func (x *Extents) point(p Vec) {
	if !x.some {
		x.Min, x.Max, x.some = p, p, true
		return
	}
	x.Min = Vec{min(x.Min.X, p.X), min(x.Min.Y, p.Y), min(x.Min.Z, p.Z)}
	x.Max = Vec{max(x.Max.X, p.X), max(x.Max.Y, p.Y), max(x.Max.Z, p.Z)}
}

// Add takes in one placed entity.
func (x *Extents) Add(p Placed) {
	m := p.Full()
	switch e := p.Entity.(type) {
	case *Line:
		x.point(m.Apply(e.From))
		x.point(m.Apply(e.To))
	case *Point:
		x.point(m.Apply(e.At))
	case *Circle:
		x.turn(m, e.Centre, Vec{X: e.Radius}, Vec{Y: e.Radius}, 0, 2*math.Pi)
	case *Arc:
		start, end := e.Start*math.Pi/180, e.End*math.Pi/180
		x.turn(m, e.Centre, Vec{X: e.Radius}, Vec{Y: e.Radius}, start, after(start, end))
	case *Ellipse:
		n, ok := e.Extrusion.unit()
		if !ok {
			n = Vec{Z: 1}
		}
		minor := cross(n, e.Major)
		minor = Vec{minor.X * e.Ratio, minor.Y * e.Ratio, minor.Z * e.Ratio}
		x.turn(m, e.Centre, e.Major, minor, e.Start, after(e.Start, e.End))
	case *Polyline:
		for i, v := range e.Vertices {
			x.point(m.Apply(v.At))
			if v.Bulge == 0 || i+1 == len(e.Vertices) && !e.Closed {
				continue
			}
			x.bulge(m, v.At, e.Vertices[(i+1)%len(e.Vertices)].At, v.Bulge)
		}
	case *Spline:
		points := e.Control
		if len(points) == 0 {
			points = e.Fit
		}
		for _, q := range points {
			x.point(m.Apply(q))
		}
	}
}

// after gives end moved by whole turns to lie within a turn past start.
func after(start, end float64) float64 {
	d := math.Mod(end-start, 2*math.Pi)
	if d <= 0 {
		d += 2 * math.Pi
	}
	return start + d
}

// turn takes in centre + a cos t + b sin t for t from t0 to t1: its ends and
// the places where a coordinate is extreme.
func (x *Extents) turn(m Matrix, centre, a, b Vec, t0, t1 float64) {
	at := func(t float64) {
		s, c := math.Sincos(t)
		x.point(m.Apply(Vec{centre.X + a.X*c + b.X*s, centre.Y + a.Y*c + b.Y*s, centre.Z + a.Z*c + b.Z*s}))
	}
	at(t0)
	at(t1)
	ma, mb := m.Direction(a), m.Direction(b)
	for _, t := range []float64{math.Atan2(mb.X, ma.X), math.Atan2(mb.Y, ma.Y)} {
		for k := range 2 {
			if u := after(t0, t+float64(k)*math.Pi); u <= t1 {
				at(u)
			}
		}
	}
}

// bulge takes in the arc of a polyline from p to q.
func (x *Extents) bulge(m Matrix, p, q Vec, bulge float64) {
	// The centre lies on the chord's middle line, (1 - b^2) / (4 b) of the
	// chord to its left.
	k := (1 - bulge*bulge) / (4 * bulge)
	c := Vec{(p.X+q.X)/2 - k*(q.Y-p.Y), (p.Y+q.Y)/2 + k*(q.X-p.X), p.Z}
	r := math.Sqrt(float64((p.X-c.X)*(p.X-c.X)) + float64((p.Y-c.Y)*(p.Y-c.Y)))
	from, to := math.Atan2(p.Y-c.Y, p.X-c.X), math.Atan2(q.Y-c.Y, q.X-c.X)
	if bulge < 0 {
		from, to = to, from
	}
	x.turn(m, c, Vec{X: r}, Vec{Y: r}, from, after(from, to))
}
