package geom

import "math"

// Point is a place or a direction in the plane, millimetres. The zero value
// is the origin.
type Point struct{ X, Y float64 }

// Add is p + q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub is p - q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Mul is p stretched by f.
func (p Point) Mul(f float64) Point { return Point{p.X * f, p.Y * f} }

// Dot is the scalar product. The products are rounded one by one, so that no
// machine may fuse them.
func (p Point) Dot(q Point) float64 { return float64(p.X*q.X) + float64(p.Y*q.Y) }

// Cross is the signed area of the parallelogram of p and q: positive when q
// lies to the left of p.
func (p Point) Cross(q Point) float64 { return float64(p.X*q.Y) - float64(p.Y*q.X) }

// Len is the length of p.
func (p Point) Len() float64 { return math.Sqrt(float64(p.X*p.X) + float64(p.Y*p.Y)) }

// Dist is the distance from p to q.
func (p Point) Dist(q Point) float64 { return p.Sub(q).Len() }

// Unit is p at length 1; the zero point stays zero.
func (p Point) Unit() Point {
	l := p.Len()
	if l == 0 {
		return Point{}
	}
	return Point{p.X / l, p.Y / l}
}

// Left is p turned by +90 degrees.
func (p Point) Left() Point { return Point{-p.Y, p.X} }

// placeStep is the grid on which places are compared: 0.001 mm is far below
// anything a shop can tell and far above the rounding of a computation.
const placeStep = 1e-3

func roundPlace(v float64) float64 { return math.Floor(v/placeStep + 0.5) }

// ComparePlace orders points bottom first, then left, both rounded to
// 0.001 mm; points that round to the same place are equal (0).
func ComparePlace(p, q Point) int {
	if a, b := roundPlace(p.Y), roundPlace(q.Y); a != b {
		if a < b {
			return -1
		}
		return 1
	}
	if a, b := roundPlace(p.X), roundPlace(q.X); a != b {
		if a < b {
			return -1
		}
		return 1
	}
	return 0
}

// Box is an axis-parallel rectangle; the zero value is the point at the origin.
type Box struct{ Min, Max Point }

// BoxOf is the least box that holds the points; the zero box without any.
func BoxOf(pts ...Point) Box {
	if len(pts) == 0 {
		return Box{}
	}
	b := Box{pts[0], pts[0]}
	for _, p := range pts[1:] {
		b = b.Add(p)
	}
	return b
}

// Width is the extent along X.
func (b Box) Width() float64 { return b.Max.X - b.Min.X }

// Height is the extent along Y.
func (b Box) Height() float64 { return b.Max.Y - b.Min.Y }

// Centre is the middle of the box.
func (b Box) Centre() Point {
	return Point{b.Min.X + (b.Max.X-b.Min.X)/2, b.Min.Y + (b.Max.Y-b.Min.Y)/2}
}

// Grow moves all four sides outwards by d (inwards when negative).
func (b Box) Grow(d float64) Box {
	return Box{Point{b.Min.X - d, b.Min.Y - d}, Point{b.Max.X + d, b.Max.Y + d}}
}

// Union is the least box that holds both.
func (b Box) Union(c Box) Box { return b.Add(c.Min).Add(c.Max) }

// Add is the least box that holds b and p.
func (b Box) Add(p Point) Box {
	b.Min.X, b.Min.Y = min(b.Min.X, p.X), min(b.Min.Y, p.Y)
	b.Max.X, b.Max.Y = max(b.Max.X, p.X), max(b.Max.Y, p.Y)
	return b
}

// Contains tells whether p lies in the box or on its border.
func (b Box) Contains(p Point) bool {
	return p.X >= b.Min.X && p.X <= b.Max.X && p.Y >= b.Min.Y && p.Y <= b.Max.Y
}

// ContainsBox tells whether c lies in the box, borders included.
func (b Box) ContainsBox(c Box) bool { return b.Contains(c.Min) && b.Contains(c.Max) }

// Overlaps tells whether the boxes share a point; touching counts.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X && b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y
}

// Dist is the distance between two boxes, 0 when they overlap.
func (b Box) Dist(c Box) float64 {
	dx := max(0, b.Min.X-c.Max.X, c.Min.X-b.Max.X)
	dy := max(0, b.Min.Y-c.Max.Y, c.Min.Y-b.Max.Y)
	return Point{dx, dy}.Len()
}
