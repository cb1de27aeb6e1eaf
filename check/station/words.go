package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// relative is the tolerance at which a limit counts as met: far above the error
// of the arithmetic, far below anything that can be measured on a floor.
const relative = 1e-6

// atMost tells whether got is within limit, equality included.
func atMost(got, limit float64) bool { return got <= limit+float64(relative*math.Abs(limit)) }

// Length writes a length in the shop's unit.
func Length(prof *shop.Profile, mm float64) string {
	if prof.Units == "in" {
		return measure.FormatLength(mm, "in")
	}
	return measure.FormatNumber(mm, 2) + " mm"
}

// tenth rounds to 0.1 mm, for lengths that are worked out and not drawn.
func tenth(mm float64) float64 { return math.Round(mm*10) / 10 }

// Force writes a force, and beside it the same in the ton that the shop's
// machines are rated in: that of the first rating in tons, else the US ton in a
// shop that works in inches.
func Force(prof *shop.Profile, kn float64) string {
	s := measure.FormatNumber(kn, 1) + " kN"
	if kind, size := tonOf(prof); kind != "" {
		s += fmt.Sprintf(" (%s %s ton)", measure.FormatNumber(kn/size, 1), kind)
	}
	return s
}

// tonOf is the ton that forces are shown in, with its kilonewtons; "" none.
func tonOf(prof *shop.Profile) (kind string, kn float64) {
	for i := range prof.Machines {
		m := &prof.Machines[i]
		var ratings []*shop.Rating
		if m.Punch != nil {
			ratings = append(ratings, &m.Punch.Rating)
		}
		if m.Shear != nil {
			ratings = append(ratings, &m.Shear.Rating)
		}
		if m.Notch != nil {
			ratings = append(ratings, &m.Notch.Rating)
		}
		if m.Brake != nil {
			ratings = append(ratings, &m.Brake.Rating)
		}
		for _, r := range ratings {
			if kn = measure.KNPerTon(r.Ton); kn > 0 {
				return r.Ton, kn
			}
		}
	}
	if prof.Units == "in" {
		return "US", measure.KNPerTon("US")
	}
	return "", 0
}

func percent(share float64) string { return measure.FormatNumber(100*share, 0) + " %" }

func degrees(rad float64) string { return measure.FormatNumber(rad*180/math.Pi, 1) + " deg" }

// size names a tool or hole: "Ø22", "slot 22 x 60", "square 20", "hexagon 24".
func size(prof *shop.Profile, shape string, w, l float64) string {
	bare := func(v float64) string {
		if prof.Units == "in" {
			return measure.FormatLength(v, "in")
		}
		return measure.FormatNumber(v, 2)
	}
	switch shape {
	case Round:
		return "Ø" + bare(w)
	case Square, Hexagon:
		return shape + " " + bare(w)
	case Slot, Rectangle:
		return shape + " " + bare(w) + " x " + bare(l)
	}
	return shape
}

// holeName names a hole as drawn, with its unit: "a hole Ø22 mm", "a slot 22 x 60 mm".
func holeName(prof *shop.Profile, h Hole) string {
	name := "a " + size(prof, h.Shape, h.WidthMM, h.LengthMM)
	if h.Shape == Round {
		name = "a hole " + size(prof, Round, h.WidthMM, h.WidthMM)
	}
	if prof.Units != "in" {
		name += " mm"
	}
	return name
}

func materialName(m *shop.Material) string {
	if m.Name == "" {
		return "the material"
	}
	return m.Name
}
