package features_test

import (
	"math"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// made is a plate as it is designed, in millimetres, drawn in any unit.
type made struct {
	name   string
	w, h   float64
	holes  [][3]float64 // x, y, diameter
	texts  []string
	dims   []string   // typed over the dimension along the plate
	parts  bool       // holes as two arcs, as a polyline of two bulges, as a polygon
	border [2]float64 // a rectangle about it, mm
}

const inchMM = 25.4

func (m *made) draw(header dxftest.Unit, unit float64) *dxftest.Builder {
	// Writers of drawings keep at least four decimals.
	r := func(v float64) float64 { return math.Round(v/unit*1e6) / 1e6 }
	b := dxftest.New(header)
	b.Polyline(true, dxftest.Rect(0, 0, r(m.w), r(m.h))...)
	for i, h := range m.holes {
		switch x, y, radius := r(h[0]), r(h[1]), r(h[2]/2); {
		case m.parts && i%3 == 0:
			b.Arc(x, y, radius, 30, 210).Arc(x, y, radius, 210, 30)
		case m.parts && i%3 == 1:
			b.Polyline(true, dxftest.V{X: x - radius, Y: y, Bulge: 1}, dxftest.V{X: x + radius, Y: y, Bulge: 1})
		case m.parts:
			var round []dxftest.V
			for k := range 36 {
				sin, cos := math.Sincos(float64(k) * math.Pi / 18)
				round = append(round, dxftest.V{X: x + radius*cos, Y: y + radius*sin})
			}
			b.Polyline(true, round...)
		default:
			b.Circle(x, y, radius)
		}
	}
	for i, t := range m.texts {
		b.Text(0, r(-20*float64(i+1)), r(5), t)
	}
	for i, t := range m.dims {
		b.Dimension(0, 0, r(m.w), 0, r(m.w/2), r(-100-10*float64(i)), 0, r(m.w), t)
	}
	if m.border[0] > 0 {
		b.Polyline(true, dxftest.Rect(r(-50), r(-150), r(m.border[0]), r(m.border[1]))...)
	}
	return b
}

func bolted(d float64) [][3]float64 {
	return [][3]float64{{40, 40, d}, {160, 40, d}, {40, 100, d}, {160, 100, d}}
}

// madePlates are plates by the habits of two systems (common practice, no
// source): whole millimetres with holes 18, 22, 26; sixteenths with holes 13/16,
// 15/16.
func madePlates() (metric, inch []made) {
	metric = []made{
		{name: "base plate", w: 300, h: 250, holes: [][3]float64{{50, 50, 22}, {250, 50, 22}, {50, 200, 22}, {250, 200, 22}}},
		{name: "end plate", w: 200, h: 140, holes: bolted(18)},
		{name: "two kinds", w: 420, h: 160, holes: [][3]float64{{40, 80, 22}, {120, 80, 14}, {300, 80, 22}, {380, 80, 14}}},
		{name: "small bracket", w: 60, h: 40, holes: [][3]float64{{10, 20, 6.5}, {50, 20, 6.5}}},
		{name: "long bar", w: 2400, h: 80, holes: [][3]float64{{40, 40, 18}, {1200, 40, 18}, {2360, 40, 18}}},
		{name: "odd sizes", w: 187.5, h: 93, holes: [][3]float64{{31, 46.5, 13.5}, {151, 46.5, 13.5}, {91, 46.5, 33}}},
	}
	in := func(v float64) float64 { return v * inchMM }
	inch = []made{
		{name: "base plate", w: in(12), h: in(10), holes: [][3]float64{{in(2), in(2), in(15. / 16)}, {in(10), in(2), in(15. / 16)}, {in(2), in(8), in(15. / 16)}, {in(10), in(8), in(15. / 16)}}},
		{name: "clip", w: in(8.5), h: in(4), holes: [][3]float64{{in(1.25), in(1.25), in(13. / 16)}, {in(1.25), in(2.75), in(13. / 16)}}},
		{name: "two kinds", w: in(16), h: in(6.25), holes: [][3]float64{{in(1.5), in(3), in(13. / 16)}, {in(14.5), in(3), in(9. / 16)}}},
		{name: "small bracket", w: in(2.5), h: in(1.5), holes: [][3]float64{{in(.5), in(.75), in(5. / 16)}, {in(2), in(.75), in(5. / 16)}}},
		{name: "long bar", w: in(96), h: in(3), holes: [][3]float64{{in(1.5), in(1.5), in(11. / 16)}, {in(48), in(1.5), in(11. / 16)}, {in(94.5), in(1.5), in(11. / 16)}}},
		{name: "gusset", w: in(14.375), h: in(9.0625), holes: [][3]float64{{in(1.5), in(1.5), in(15. / 16)}, {in(4.5), in(1.5), in(15. / 16)}, {in(7.5), in(1.5), in(1.0625)}}},
	}
	return metric, inch
}

// TestUnitVoteOnMadeDrawings draws plates of both systems in every unit, with
// no header, a right one and wrong ones. A wrong unit is never taken without
// a doubt, a right header is never doubted, and where nothing is said the unit
// is found or said to be unknown.
func TestUnitVoteOnMadeDrawings(t *testing.T) {
	metric, inch := madePlates()
	units := []struct {
		name   string
		mm     float64
		header dxftest.Unit
	}{{"mm", 1, dxftest.MM}, {"in", inchMM, dxftest.Inch}, {"cm", 10, dxftest.CM}, {"m", 1000, dxftest.Metre}}
	n, found := 0, 0
	for _, group := range []struct {
		system string
		list   []made
	}{{"metric", metric}, {"inch", inch}} {
		for i := range group.list {
			m := &group.list[i]
			for _, u := range units {
				if (u.name == "cm" || u.name == "m") && group.system == "inch" {
					continue // nobody draws inches in centimetres
				}
				what := group.system + " " + m.name + " drawn in " + u.name
				// No header.
				n++
				s := build(t, m.draw(dxftest.NoUnit, u.mm))
				switch {
				case s.Units.From == features.UnitsUnknown:
				case s.Units.Name != u.name:
					t.Errorf("%s without a header: %s from %s (%.2f) %+v", what, s.Units.Name, s.Units.From, s.Units.Confidence, s.Units.Evidence)
				default:
					found++
				}
				for _, h := range units {
					n++
					s := build(t, m.draw(h.header, u.mm))
					if s.Units.Name != h.name || s.Units.From != features.UnitsHeader {
						t.Fatalf("%s: the header is not followed: %+v", what, s.Units)
					}
					// A tenth of a plate may be a small part: not told.
					tenth := u.name == "cm" && (h.name == "mm" || h.name == "in")
					if wrong := h.name != u.name; s.Units.Doubt != wrong && !tenth {
						t.Errorf("%s with the header %s: doubt %v (%s) %+v", what, h.name, s.Units.Doubt, s.Units.Other, s.Units.Evidence)
					}
				}
			}
		}
	}
	if n < 40 {
		t.Fatalf("only %d drawings", n)
	}
	t.Logf("%d drawings, without a header %d of %d units found", n, found, n/5)
}

// TestUnitWitnesses: what else tells the unit of a drawing without a header.
func TestUnitWitnesses(t *testing.T) {
	bare := made{w: 100, h: 80} // says nothing by itself
	with := func(f func(*made)) made { m := bare; f(&m); return m }
	texts := func(l ...string) made { return with(func(m *made) { m.texts = l }) }
	dims := func(l ...string) made { return with(func(m *made) { m.dims = l }) }
	for _, c := range []struct {
		name    string
		m       made
		unit    float64
		want    string // "" unknown
		witness string
	}{
		{"nothing", bare, 1, "", ""},
		{"a tenth of a stock plate", made{w: 200, h: 100}, 1, "", ""},
		{"a tenth of another", made{w: 250, h: 125}, 1, "", ""},
		{"a stock plate in inches, if it were", made{w: 120, h: 60}, 1, "", ""},
		{"a statement in mm", texts("ALL DIMENSIONS IN MM U.N.O."), 1, "mm", "ALL DIMENSIONS"},
		{"a statement in German", texts("Alle Maße in mm"), 1, "mm", "Maße"},
		{"a statement in inches", texts("DIMENSIONS IN INCHES"), inchMM, "in", "INCHES"},
		{"a dimension in mm", dims("100 mm"), 1, "mm", "100 mm"},
		{"a dimension in mm on a drawing in inches", dims("100 mm"), inchMM, "in", "100 mm"},
		{"a dimension in mm on a drawing in cm", dims("100 mm"), 10, "cm", "100 mm"},
		{"two units in one dimension, mm", dims("100 [3.94]"), 1, "mm", "100 [3.94]"},
		{"two units in one dimension, inch", dims("3.94 [100]"), inchMM, "in", "3.94 [100]"},
		{"a plate's size in mm", texts("PL 10 x 80 x 100 mm"), 1, "mm", "rectangle"},
		{"a plate's size in mm, drawn in cm", texts("PL 10 x 80 x 100 mm"), 10, "cm", "rectangle"},
		{"a sheet A3", with(func(m *made) { m.border = [2]float64{420, 297} }), 1, "mm", "sheet A3"},
		{"a sheet A3 drawn in cm", with(func(m *made) { m.border = [2]float64{420, 297} }), 10, "cm", "sheet A3"},
		{"a sheet B", with(func(m *made) { m.border = [2]float64{17 * inchMM, 11 * inchMM} }), inchMM, "in", "sheet B"},
		{"a bare call-out in mm on a drawing in cm", with(func(m *made) { m.texts, m.holes = []string{"4x Ø22"}, [][3]float64{{50, 40, 22}} }), 10, "cm", "4x Ø22"},
		{"a fraction on a drawing in mm", with(func(m *made) { m.texts, m.holes = []string{"1 HOLE 13/16 DIA"}, [][3]float64{{50, 40, 20.6375}} }), 1, "mm", "13/16"},
		{"a fraction on a drawing in inches", with(func(m *made) { m.texts, m.holes = []string{"1 HOLE 13/16 DIA"}, [][3]float64{{50, 40, 20.6375}} }), inchMM, "in", "13/16"},
		{"holes in pieces and a fraction", with(func(m *made) {
			m.parts, m.texts, m.holes = true, []string{"1 HOLE 13/16 DIA"}, [][3]float64{{50, 40, 20.6375}}
		}), inchMM, "in", "13/16"},
		{"a hole of two bulges and a call-out", with(func(m *made) {
			m.parts, m.texts, m.holes = true, []string{"1 HOLE 13/16 DIA"}, [][3]float64{{20, 40, 5}, {60, 40, 20.6375}}
		}), inchMM, "in", "13/16"},
		{"a hole of 36 sides and a call-out", with(func(m *made) {
			m.parts, m.texts, m.holes = true, []string{"1 HOLE 13/16 DIA"}, [][3]float64{{20, 40, 5}, {40, 40, 5}, {80, 40, 20.6375}}
		}), inchMM, "in", "13/16"},
		{"designed in inches, drawn in mm", made{w: 330.2, h: 171.45, holes: [][3]float64{{38.1, 38.1, 20.6375}, {76.2, 38.1, 20.6375}, {120.65, 38.1, 26.9875}}}, 1, "mm", "in"},
		{"designed in mm, drawn in inches", made{w: 317, h: 171, holes: [][3]float64{{37, 38, 22}, {137, 38, 22}, {237, 38, 18}}}, inchMM, "in", "mm"},
	} {
		s := build(t, c.m.draw(dxftest.NoUnit, c.unit))
		got := s.Units.Name
		if s.Units.From == features.UnitsUnknown {
			got = ""
		}
		seen := false
		for _, e := range s.Units.Evidence {
			seen = seen || e.For == c.want && strings.Contains(e.What, c.witness)
		}
		if got != c.want || c.want != "" && !seen {
			t.Errorf("%s: %q (%.2f, other %s), want %q by %q: %+v", c.name, got, s.Units.Confidence, s.Units.Other, c.want, c.witness, s.Units.Evidence)
		}
	}
}
