package features

import (
	"math"
)

// keywayShare: a square-ended slot out of a circle is a keyway up to this depth
// as a share of its width, and makes a keyhole beyond. Keyways of parallel keys
// are less than half as deep as wide (common practice, no source).
const keywayShare = 1

// recogniseKeyhole reads a keyhole: a circle with a slot that ends in a half
// circle or a flat. DiameterMM is the circle's, BottomMM the slot's width.
func recogniseKeyhole(c *ringContext) (Feature, float64) {
	if len(c.spans) != 4 {
		return Feature{}, 0
	}
	for k := range c.spans {
		s := rotated(c.spans, k)
		big, a, end, b := s[0].e, s[1].e, s[2].e, s[3].e
		if !big.IsArc() || !big.CCW || big.Sweep() <= math.Pi+tangentRad || a.IsArc() || b.IsArc() {
			continue
		}
		if math.Abs(turnRad(a.StartDir(), b.StartDir().Mul(-1))) > holeSquareRad || math.Abs(a.Length()-b.Length()) > math.Max(slotMM, slotShare*a.Length()) {
			continue
		}
		// The slot leaves the circle: its sides are not tangent to it.
		if turnRad(big.EndDir(), a.StartDir()) > -tangentRad {
			continue
		}
		w := math.Abs(a.StartDir().Cross(b.Mid().Sub(a.Mid())))
		dev := 0.0
		if end.IsArc() {
			if !end.CCW || math.Abs(end.Sweep()-math.Pi) > tangentRad {
				continue
			}
			dev = math.Abs(2*end.Radius-w) / math.Max(slotMM, slotShare*w)
		} else {
			dev = math.Abs(math.Abs(turnRad(a.EndDir(), end.StartDir()))-math.Pi/2) / squareRad
			if end.StartDir().Cross(big.Centre.Sub(end.Mid()))-big.Radius <= keywayShare*w {
				continue
			}
		}
		f := c.cutout("keyhole")
		f.DiameterMM, f.BottomMM = 2*big.Radius, w
		return f, scoreOf(dev, 1)
	}
	return Feature{}, 0
}

// recogniseTeardrop reads a circle drawn out to a point by two tangents.
func recogniseTeardrop(c *ringContext) (Feature, float64) {
	if len(c.spans) != 3 {
		return Feature{}, 0
	}
	for k := range c.spans {
		s := rotated(c.spans, k)
		arc, a, b := s[0].e, s[1].e, s[2].e
		if !arc.IsArc() || !arc.CCW || arc.Sweep() <= math.Pi || a.IsArc() || b.IsArc() {
			continue
		}
		t := math.Max(math.Abs(turnRad(arc.EndDir(), a.StartDir())), math.Abs(turnRad(b.EndDir(), arc.StartDir())))
		f := c.cutout("teardrop")
		f.DiameterMM = 2 * arc.Radius
		f.IncludedRad = math.Pi - math.Abs(turnRad(a.EndDir(), b.StartDir()))
		return f, scoreOf(t, tangentRad)
	}
	return Feature{}, 0
}

// recogniseKeyed reads a bore with one or two keyways: arcs of one circle of
// more than half of it, and between them rectangular notches outward. Seen
// from the metal each keyway is a bite that mending closes along the circle.
// DiameterMM is the bore, Steps the keyways' width and depth from the circle.
func recogniseKeyed(c *ringContext) (Feature, float64) {
	n := len(c.sides)
	if n != 4 && n != 8 {
		return Feature{}, 0
	}
	k := 0
	for k < n && !c.sides[k].e.IsArc() {
		k++
	}
	if k == n {
		return Feature{}, 0
	}
	s := append(append([]side{}, c.sides[k:]...), c.sides[:k]...)
	bore := s[0].e
	worst, sweep := 0.0, 0.0
	var steps [][2]float64
	for i := 0; i < n; i += 4 {
		arc, out, bottom, back := s[i].e, s[i+1].e, s[i+2].e, s[i+3].e
		if !arc.IsArc() || !arc.CCW || i > 0 && !sameCircle(bore, arc) || !isStraight(s[i+1:i+4]) {
			return Feature{}, 0
		}
		sweep += arc.Sweep()
		for _, t := range []float64{turnRad(out.EndDir(), bottom.StartDir()), turnRad(bottom.EndDir(), back.StartDir())} {
			worst = math.Max(worst, math.Abs(t-math.Pi/2)/squareRad)
		}
		for _, x := range s[i : i+4] {
			if x.joint.kind == reliefCorner {
				return Feature{}, 0
			}
		}
		// The bottom lies outside the circle.
		deep := bottom.StartDir().Cross(bore.Centre.Sub(bottom.Mid())) - bore.Radius
		if deep <= lineMM || deep > keywayShare*bottom.Length() {
			return Feature{}, 0
		}
		steps = append(steps, [2]float64{bottom.Length(), deep})
	}
	if sweep <= math.Pi {
		return Feature{}, 0
	}
	f := c.cutout("keyed")
	f.DiameterMM, f.Steps = 2*bore.Radius, leastOrder(steps)
	return f, scoreOf(worst, 1)
}
