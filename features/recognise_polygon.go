package features

import (
	"math"

	"burrside/features/geom"
)

// corners tells whether all corners of the sides are sharp, or all rounded
// with one radius, which is returned.
func corners(sides []side) (radius float64, ok bool) {
	least, most := math.Inf(1), 0.0
	for _, s := range sides {
		r := 0.0
		switch s.joint.kind {
		case reliefCorner:
			return 0, false
		case roundedCorner:
			r = s.joint.arc.e.Radius
			if s.joint.arc.e.Sweep() < 0 {
				return 0, false
			}
		}
		least, most = math.Min(least, r), math.Max(most, r)
	}
	if most-least > math.Max(slotMM, slotShare*most) {
		return 0, false
	}
	if most == 0 {
		return 0, true
	}
	return (least + most) / 2, least > 0
}

// recogniseRectangle reads a rectangular hole with sharp corners or corners of
// one radius.
func recogniseRectangle(c *ringContext) (Feature, float64) {
	s := c.sides
	if len(s) != 4 || !isStraight(s) {
		return Feature{}, 0
	}
	rad, ok := corners(s)
	if !ok {
		return Feature{}, 0
	}
	worst := 0.0
	for i := range s {
		worst = math.Max(worst, math.Abs(turnRad(s[i].e.EndDir(), s[(i+1)%4].e.StartDir())-math.Pi/2))
	}
	a, b := (s[0].e.Length()+s[2].e.Length())/2, (s[1].e.Length()+s[3].e.Length())/2
	long := s[0].e
	if s[2].e.Length() > long.Length() {
		long = s[2].e
	}
	if b > a {
		a, b = b, a
		long = s[1].e
	}
	f := Feature{Kind: RectangularHole, At: c.ring.Centroid(), WidthMM: b, LengthMM: a, RadiusMM: rad}
	d := long.StartDir()
	f.AngleRad = longAngle(math.Atan2(d.Y, d.X), a, b)
	return f, scoreOf(worst, holeSquareRad)
}

// recognisePolygon reads a regular hole of 5 to 11 sides, its corners sharp or
// of one radius. More sides are a circle, see recogniseFacets.
func recognisePolygon(c *ringContext) (Feature, float64) {
	s := c.sides
	n := len(s)
	if n < 5 || n > 11 || !isStraight(s) {
		return Feature{}, 0
	}
	rad, ok := corners(s)
	if !ok {
		return Feature{}, 0
	}
	sum, worst := 0.0, 0.0
	for _, x := range s {
		sum += x.e.Length()
	}
	side := sum / float64(n)
	for i, x := range s {
		worst = math.Max(worst, math.Abs(x.e.Length()-side)/math.Max(slotMM, slotShare*side))
		t := turnRad(x.e.EndDir(), s[(i+1)%n].e.StartDir())
		worst = math.Max(worst, math.Abs(t-2*math.Pi/float64(n))/squareRad)
	}
	pts := make([]geom.Point, n)
	for i, x := range s {
		pts[i] = x.e.From
	}
	f := Feature{Kind: PolygonHole, At: middle(pts...), Sides: n, AcrossFlatsMM: side / math.Tan(math.Pi/float64(n)), RadiusMM: rad}
	return f, scoreOf(worst, 1)
}
