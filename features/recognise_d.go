package features

import (
	"math"
)

// recogniseD reads a D: one arc of at least a half circle closed by one line.
// DiameterMM is the circle's, AcrossFlatsMM from the flat to the far side.
func recogniseD(c *ringContext) (Feature, float64) {
	if len(c.spans) != 2 {
		return Feature{}, 0
	}
	arc, flat := c.spans[0].e, c.spans[1].e
	if !arc.IsArc() {
		arc, flat = flat, arc
	}
	if !arc.IsArc() || flat.IsArc() || !arc.CCW || arc.Sweep() < math.Pi-tangentRad {
		return Feature{}, 0
	}
	f := c.cutout("d")
	f.DiameterMM = 2 * arc.Radius
	f.AcrossFlatsMM = arc.Radius + flat.StartDir().Cross(arc.Centre.Sub(flat.From))
	return f, 1
}

// recogniseDoubleD reads a double D: a circle with two parallel flats.
// AcrossFlatsMM is the distance of the flats.
func recogniseDoubleD(c *ringContext) (Feature, float64) {
	if len(c.spans) != 4 {
		return Feature{}, 0
	}
	s := c.spans
	if !s[0].e.IsArc() {
		s = rotated(s, 1)
	}
	p, a, q, b := s[0].e, s[1].e, s[2].e, s[3].e
	if !sameCircle(p, q) || !p.CCW || a.IsArc() || b.IsArc() {
		return Feature{}, 0
	}
	f := c.cutout("double-d")
	f.DiameterMM = p.Radius + q.Radius
	f.AcrossFlatsMM = math.Abs(a.StartDir().Cross(b.Mid().Sub(a.Mid())))
	return f, scoreOf(math.Abs(turnRad(a.StartDir(), b.StartDir().Mul(-1))), holeSquareRad)
}
