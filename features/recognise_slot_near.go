package features

import (
	"math"

	"burrside/features/geom"
)

const (
	// nearSlotMM, nearSlotShare: how far a contour may lie from a slot, the
	// less of both: no punch and no reamed hole shows a hundredth of its width.
	nearSlotMM    = 0.05
	nearSlotShare = 0.01 // of the width
	nearSlotLong  = 1.05 // widths: shorter ones are read as exact slots or not at all
)

// recogniseNearSlot reads a straight slot that is drawn carelessly: sides that
// run past the ends, ends of slightly more or less than half circles, half
// circles of chords. All of the contour must lie on the slot.
func recogniseNearSlot(c *ringContext) (Feature, float64) {
	w, long := c.rect.Height, c.rect.Width
	if !(long >= nearSlotLong*w) || !(w > 0) || len(c.ring) < 4 {
		return Feature{}, 0
	}
	centre, along := c.rect.Centre, geom.Point{X: math.Cos(c.rect.AngleRad), Y: math.Sin(c.rect.AngleRad)}
	half := (long - w) / 2
	core := geom.LineEdge(centre.Sub(along.Mul(half)), centre.Add(along.Mul(half)))
	worst, sides := 0.0, 0.0
	for _, e := range c.ring {
		for k := range 5 {
			worst = math.Max(worst, math.Abs(core.Dist(e.At(float64(k)/4))-w/2))
		}
		if !e.IsArc() && math.Abs(e.StartDir().Cross(along)) < holeSquareRad {
			sides += e.Length()
		}
	}
	// Two straight sides: an oval and a long ellipse have none.
	if sides < 2*half {
		return Feature{}, 0
	}
	f := Feature{Kind: Slot, At: c.ring.Centroid(), WidthMM: w, LengthMM: long, AngleRad: lineAngle(along)}
	return f, scoreOf(worst, math.Min(nearSlotMM, nearSlotShare*w))
}
