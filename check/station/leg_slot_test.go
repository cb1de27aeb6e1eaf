package station

import (
	"math"
	"testing"

	"burrside/check/shop"
)

// slotShop has a slot punch 14 x 40 beside what legShop has.
func slotShop() (*shop.Profile, *shop.Machine) {
	p, m := legShop()
	p.Punches = append(p.Punches, shop.Punch{Name: "14 x 40", Shape: Slot, WidthMM: 14, LengthMM: 40, Dies: []shop.Die{{WidthMM: 15}}})
	m.Punch.StripperHalfMM = 75 // the offset die is the only way
	return p, m
}

func legSlot(length, turnDeg, gauge float64) LegHole {
	h := legHole(75, 8, 9, gauge, 18)
	h.Hole = Hole{Shape: Slot, WidthMM: 14, LengthMM: length, TurnsRad: []float64{turnDeg * math.Pi / 180}}
	h.TurnRad = turnDeg * math.Pi / 180
	h.EdgeMM = gauge - (14+(length-14)*math.Abs(math.Sin(h.TurnRad)))/2
	return h
}

// A slot along the heel needs half of its width and the wall of 4 mm beside it
// on the offset die of 14; one across the leg half of its length. Root 17, so
// the offset die needs a gauge of 31, the standard one of 49. Common practice,
// no source.
func TestSlotInLegByOffsetDie(t *testing.T) {
	for _, c := range []struct {
		what        string
		length, deg float64
		gauge, half float64
		force       float64
		want        Grade
	}{
		{"along", 40, 0, 45, 14, 0, Care},
		{"along at the limit of the gauge", 40, 0, 31, 14, 0, Care},
		{"along below it", 40, 0, 30.9, 14, 0, Fail},
		{"along at the limit of the wall", 40, 0, 45, 11, 0, Care},
		{"along below the wall", 40, 0, 45, 10.9, 0, Fail},
		{"the other way round", 40, 180, 45, 14, 0, Care},
		{"across", 40, 90, 45, 14, 0, Fail},
		{"across with room", 40, 90, 45, 24, 0, Care},
		// Its flats add 2 x 26 mm to the circle: (pi 14 + 52) x 8 x 345 N = 264.9 kN.
		{"force enough", 40, 0, 45, 14, 265, Care},
		{"force short", 40, 0, 45, 14, 264, Fail},
		// Two hits of a 40 mm tool across: the near one is centred 20 mm from the
		// slot's end, at 45 - 30 + 20 = 35; 17 + 24 = 41 are needed.
		{"hits across, near one fouls", 60, 90, 45, 24, 0, Fail},
		{"hits across, near one clears", 60, 90, 51, 24, 0, Care},
		{"hits along stay at the gauge", 60, 0, 31, 14, 0, Care},
	} {
		p, m := slotShop()
		m.Punch.OffsetDie.HalfMM, m.Punch.OffsetDie.ForceKN = c.half, c.force
		u := PunchLeg(p, m, Piece{8, mild()}, legSlot(c.length, c.deg, c.gauge))
		if u.Tool != "14 x 40" {
			t.Fatalf("%s: %q", c.what, u.Tool)
		}
		leg := OK
		for _, a := range u.Aspects {
			if a.Rule == "leg-clearance" || a.Rule == "punch-force" && c.force > 0 {
				leg = max(leg, a.Grade)
			}
		}
		wantGrade(t, c.what, leg, c.want)
	}
}
