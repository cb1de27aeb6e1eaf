package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// copedHeel draws an angle of 100x75x8, 500 long over all, coped through the
// heel: of leg a the corner at the heel is cut out, left 40 x 38 and, with
// both, right 60 x 30; leg b ends where the cope does. Heels facing, or away.
func copedHeel(b *dxftest.Builder, away, both bool) {
	to, right := 500.0, 0.0
	if both {
		to, right = 440, 30
	}
	a := func(x, v float64) dxftest.V { // v from the heel of leg a
		if away {
			return dxftest.V{X: x, Y: 250 - v}
		}
		return dxftest.V{X: x, Y: 150 + v}
	}
	ring := []dxftest.V{a(40, 0), a(to, 0)}
	if both {
		ring = append(ring, a(440, right), a(500, right))
	}
	ring = append(ring, a(500, 100), a(0, 100), a(0, 38), a(40, 38))
	b.Polyline(true, ring...).Line(40, a(0, 8).Y, to, a(0, 8).Y).Circle(90, a(0, 55).Y, 11).Circle(20, a(0, 70).Y, 7)
	heel, toe := 75.0, -1.0
	if away {
		heel, toe = 0, 1
	}
	b.Polyline(true, dxftest.Rect(40, 0, to-40, 75)...).Line(40, heel+toe*8, to, heel+toe*8).Circle(120, heel+toe*45, 9)
}

func TestAngleCopedThroughHeel(t *testing.T) {
	holes := []wantHole{{"a", 55, 90, 22}, {"a", 70, 20, 14}, {"b", 45, 120, 18}}
	for _, away := range []bool{false, true} {
		for _, both := range []bool{false, true} {
			for _, text := range []string{"", "L100x75x8"} {
				b := newAngleBuilder(dxftest.MM)
				b.Block("ANGLE", 0, 0, func(b *dxftest.Builder) { copedHeel(b, away, both) })
				b.Insert("ANGLE", 300, 200, dxftest.Placing{})
				if text != "" {
					b.Text(400, 150, 10, text)
				}
				s := build(t, b)
				p := onePart(t, s)
				checkAngle(t, s, p, [2]float64{100, 75}, 8, 500, holes...)
				// The cope in leg a reaches the heel: 40 x 38 of 500 mm2.
				n := notchesOf(p)
				want := 1
				area := 100.0*500 + 75*460 - 40*38
				if both {
					want, area = 2, 100.0*500+75*400-40*38-60*30
				}
				area -= math.Pi * (121 + 49 + 81)
				if len(n) != want || n[0].Leg != "a" || n[0].Shape != features.NotchCorner || math.Abs(p.AreaMM2-area) > 0.01 {
					t.Errorf("away %v, both %v: area %v want %v, notches %+v", away, both, p.AreaMM2, area, n)
				}
				if len(p.Doubts) > 0 || len(s.Faults) > 0 {
					t.Errorf("a clean angle has doubts\n%s", describe(s))
				}

				b = newAngleBuilder(dxftest.MM)
				b.Block("ANGLE", 0, 0, func(b *dxftest.Builder) { copedHeel(b, away, both) })
				b.Insert("ANGLE", 300, 200, dxftest.Placing{AngleDeg: 90})
				s = build(t, b)
				checkAngle(t, s, onePart(t, s), [2]float64{100, 75}, 8, 500, holes...)
			}
		}
	}
	// Leg a is mitred from the toe back to the heel, leg b ends at the heel.
	b := newAngleBuilder(dxftest.MM)
	b.Polyline(true, corners(0, 150, 400, 150, 500, 250, 0, 250)...).Line(0, 158, 408, 158)
	b.Polyline(true, dxftest.Rect(0, 0, 400, 75)...).Line(0, 67, 400, 67)
	s := build(t, b)
	checkAngle(t, s, onePart(t, s), [2]float64{100, 75}, 8, 500)
}

// Two views of one section that do not fit each other are not two angles of one
// view each, unless each has a text of its own.
func TestAngleViewsThatDoNotFit(t *testing.T) {
	draw := func() *dxftest.Builder {
		b := newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 150, 500, 100)...).Line(0, 158, 500, 158).Circle(50, 205, 11)
		b.Polyline(true, dxftest.Rect(40, 0, 460, 75)...).Line(40, 67, 500, 67).Circle(90, 30, 9)
		return b
	}
	s := build(t, draw().Text(100, 270, 10, "L100x75x8"))
	for _, p := range s.Parts {
		if d := doubtOf(&p, "line-unexplained"); p.Form != features.FormFlat || d == nil || !d.Grave {
			t.Errorf("form %s\n%s", p.Form, describe(s))
		}
	}
	s = build(t, draw().Text(100, 270, 10, "L100x75x8").Text(100, -20, 10, "L75x75x8"))
	legs := 0.0
	for _, p := range s.Parts {
		if p.Form != features.FormAngle || doubtOf(&p, "leg-not-drawn") == nil {
			t.Errorf("form %s\n%s", p.Form, describe(s))
			continue
		}
		legs += p.Angle.LegMM[0]
	}
	if len(s.Parts) != 2 || legs != 175 {
		t.Errorf("%d parts, legs %v\n%s", len(s.Parts), legs, describe(s))
	}
}

// A line of dashes near the long side of a plate that stands by itself: no text
// names a section, no view stands beside it.
func TestAngleDashesAlone(t *testing.T) {
	for i, line := range []func(b *dxftest.Builder, x1, y1, x2, y2 float64){dashedLine, dashesTo(12, 5, 0), dashesTo(10, 4, 3), hiddenLine, hiddenLayer, plainLine} {
		b := newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 400, 75)...).Circle(60, 40, 9)
		line(b, 0, 8, 400, 8)
		p := onePart(t, build(t, b))
		d := doubtOf(p, "line-unexplained")
		if i == 2 {
			d = doubtOf(p, "maybe-opening") // short of both ends they may be slits
		}
		if d == nil || !d.Grave || p.Form != features.FormFlat || len(p.Doubts) != 1 {
			t.Errorf("%d: form %s, doubts %+v", i, p.Form, p.Doubts)
		}
	}
}
