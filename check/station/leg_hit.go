package station

import (
	"math"

	"burrside/check/shop"
)

// acrossTool settles how far a hit reaches across the leg: by the tool, which of
// a slot in several hits is shorter than the slot, else by the hole.
func (h *LegHole) acrossTool(prof *shop.Profile, m *shop.Machine, u *Use) {
	h.across = acrossLeg(h.Shape, h.WidthMM, h.LengthMM, h.TurnRad)
	for i := range prof.Punches {
		p := &prof.Punches[i]
		if p.Name != u.Tool || !onMachine(p.Machine, m) {
			continue
		}
		w, l, ok := sized(p)
		if !ok {
			continue
		}
		a := acrossLeg(p.Shape, w, l, h.TurnRad)
		if (h.Shape == Rectangle || h.Shape == Square) && u.Hits > 1 {
			a = max(a, acrossLeg(p.Shape, l, w, h.TurnRad)) // it may be held either way
		}
		h.across = a
		return
	}
}

// acrossLeg is how far a shape whose long side is turned against the heel
// reaches across the leg.
func acrossLeg(shape string, w, l, turnRad float64) float64 {
	sin, cos := math.Abs(math.Sin(turnRad)), math.Abs(math.Cos(turnRad))
	switch shape {
	case Slot:
		return w + max(l-w, 0)*sin
	case Square:
		return w * (sin + cos)
	case Rectangle:
		return w*cos + l*sin
	case Hexagon:
		return 2 * w / math.Sqrt(3) // over corners, however it is turned
	}
	return max(w, l)
}

// nearHit is from the heel to the middle of the hit that is nearest to it: of
// several hits the first one ends at the hole's edge.
func (h *LegHole) nearHit(u *Use) float64 {
	if u.Hits < 2 || !(h.EdgeMM > 0) {
		return h.GaugeMM
	}
	return min(h.GaugeMM, h.EdgeMM+h.across/2)
}
