package features

// NearHeelMM is the least distance of a contour in one leg from the heel,
// outside; below 0 where it reaches over the heel.
func (a *Angle) NearHeelMM(f *Feature) float64 {
	leg := a.LegOf(f)
	toe := a.Legs[leg].Toe
	return -f.Ring.Support(toe.Mul(-1)) - a.Heel[0].Dot(toe)
}

// LegOf is the index of a feature's leg; of one in both legs that on whose side
// of the heel its middle lies.
func (a *Angle) LegOf(f *Feature) int {
	switch f.Leg {
	case "a":
		return 0
	case "b":
		return 1
	}
	return a.LegAt(f.At)
}
