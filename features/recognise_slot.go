package features

import (
	"math"

	"burrside/features/geom"
)

const (
	// slotMM, slotShare: how far the two sides of a slot may differ in
	// length, its ends in radius.
	slotMM    = 0.02
	slotShare = 0.01
	// roundShare: ends nearer together than this share of the width make a
	// circle, not a slot.
	roundShare = 0.02
)

// recogniseSlot reads a straight slot with half-round ends, turned at any
// angle: line, arc, line, arc, the lines parallel and equal, the arcs half
// circles tangent to them. It is never accepted by its area or box.
func recogniseSlot(c *ringContext) (Feature, float64) {
	if len(c.spans) != 4 {
		return Feature{}, 0
	}
	s := c.spans
	if s[0].e.IsArc() {
		s = rotated(s, 1)
	}
	a, p, b, q := s[0].e, s[1].e, s[2].e, s[3].e
	if a.IsArc() || b.IsArc() || !p.IsArc() || !q.IsArc() || !p.CCW || !q.CCW || !allTangent(s) {
		return Feature{}, 0
	}
	d := a.StartDir()
	if math.Abs(turnRad(d, b.StartDir().Mul(-1))) > holeSquareRad || math.Abs(a.Length()-b.Length()) > math.Max(slotMM, slotShare*a.Length()) {
		return Feature{}, 0
	}
	w := math.Abs(d.Cross(b.Mid().Sub(a.Mid())))
	dev := math.Max(math.Abs(2*p.Radius-w), math.Abs(2*q.Radius-w))
	if math.Max(math.Abs(p.Sweep()-math.Pi), math.Abs(q.Sweep()-math.Pi)) > tangentRad {
		return Feature{}, 0
	}
	between := p.Centre.Dist(q.Centre)
	if between <= roundShare*w {
		return Feature{}, 0
	}
	f := Feature{Kind: Slot, At: c.ring.Centroid(), WidthMM: w, LengthMM: between + w, AngleRad: lineAngle(d)}
	return f, scoreOf(dev, slotShare*w)
}

const (
	// curvedMM, curvedShare: how far the two long arcs may be from concentric.
	curvedMM    = 0.02
	curvedShare = 1e-3
	// straightShare, straightMM: a curved slot of a radius over so many
	// widths and with less rise than this is a straight one.
	straightShare = 1e4
	straightMM    = 0.02
)

// recogniseCurvedSlot reads a slot along an arc: two concentric arcs and two
// half-round ends.
func recogniseCurvedSlot(c *ringContext) (Feature, float64) {
	if len(c.spans) != 4 {
		return Feature{}, 0
	}
	if arcs, _ := countArcs(c.spans); arcs != 4 || !allTangent(c.spans) {
		return Feature{}, 0
	}
	for k := range c.spans {
		s := rotated(c.spans, k)
		outer, cap1, inner, cap2 := s[0].e, s[1].e, s[2].e, s[3].e
		if !outer.CCW || !cap1.CCW || inner.CCW || !cap2.CCW {
			continue
		}
		w := outer.Radius - inner.Radius
		if w <= 0 || outer.Centre.Dist(inner.Centre) > curvedMM+curvedShare*outer.Radius {
			continue
		}
		if math.Max(math.Abs(cap1.Sweep()-math.Pi), math.Abs(cap2.Sweep()-math.Pi)) > tangentRad {
			continue
		}
		dev := math.Max(math.Abs(2*cap1.Radius-w), math.Abs(2*cap2.Radius-w))
		score := scoreOf(dev, math.Max(slotMM, slotShare*w))
		if score == 0 {
			continue
		}
		rad := (outer.Radius + inner.Radius) / 2
		sweep := (outer.Sweep() - inner.Sweep()) / 2
		f := Feature{Kind: CurvedSlot, At: c.ring.Centroid(), WidthMM: w, LengthMM: rad*sweep + w, RadiusMM: rad, SweepRad: sweep}
		mid := outer.Mid().Sub(outer.Centre)
		f.AngleRad = math.Mod(math.Atan2(mid.Y, mid.X)+2*math.Pi, 2*math.Pi)
		if rad > straightShare*w && rad*(1-math.Cos(sweep/2)) < straightMM {
			f = Feature{Kind: Slot, At: f.At, WidthMM: w, LengthMM: cap1.Centre.Dist(cap2.Centre) + w, AngleRad: lineAngle(cap1.Centre.Sub(cap2.Centre))}
		}
		return f, score
	}
	return Feature{}, 0
}

// middle is the mean of points.
func middle(pts ...geom.Point) geom.Point {
	var m geom.Point
	for _, p := range pts {
		m = m.Add(p)
	}
	return m.Mul(1 / float64(len(pts)))
}
