package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// Notes beside bends: a plate of 300 x 100 with bends at 100 and 200.
func TestBendNotesAreTied(t *testing.T) {
	type want struct {
		deg, radius float64
		to          string
	}
	draw := func() *dxftest.Builder {
		return dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 300, 100)...).Layer("BEND").Line(100, 0, 100, 100).Line(200, 0, 200, 100).Layer("NOTES")
	}
	for _, c := range []struct {
		what string
		b    *dxftest.Builder
		want [2]want
		dbt  bool
	}{
		{"beside each", draw().Text(103, 50, 5, "UP 90 R6").Text(203, 50, 5, "DOWN 45 R8"), [2]want{{90, 6, "up"}, {45, 8, "down"}}, false},
		{"none", draw(), [2]want{}, false},
		{"bare radius", draw().Text(103, 50, 5, "R10"), [2]want{{0, 10, ""}, {}}, false},
		{"for all", draw().Text(-200, 50, 5, "ALL BENDS R3").Text(103, 50, 5, "UP 90").Text(203, 50, 5, "UP 90 R5"), [2]want{{90, 3, "up"}, {90, 5, "up"}}, false},
		{"far off", draw().Text(150, 50, 5, "UP 90 R6"), [2]want{}, false},
		{"in two lines", draw().Text(103, 55, 5, "UP 90°").Text(103, 47, 5, "R6"), [2]want{{90, 6, "up"}, {}}, false},
		{"at odds", draw().Text(103, 55, 5, "UP 90°").Text(103, 47, 5, "UP 45°"), [2]want{{0, 0, "up"}, {}}, true},
	} {
		p := onePart(t, build(t, c.b))
		bs := kinds(p, features.Bend)
		if len(bs) != 2 {
			t.Fatalf("%s: %+v", c.what, bs)
		}
		for i, w := range c.want {
			if f := bs[i]; math.Abs(f.BentRad*180/math.Pi-w.deg) > 1e-9 || math.Abs(f.RadiusMM-w.radius) > 1e-9 || f.BentTo != w.to {
				t.Errorf("%s: bend %d: %g %g %q", c.what, i, f.BentRad*180/math.Pi, f.RadiusMM, f.BentTo)
			}
		}
		if d := doubtOf(p, "bend-notes"); (d != nil) != c.dbt || d != nil && !d.Grave {
			t.Errorf("%s: %+v", c.what, p.Doubts)
		}
	}
	// A bare R10 beside a bend and a corner of that radius is the corner's.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.V{X: 0, Y: 0}, dxftest.V{X: 200, Y: 0}, dxftest.V{X: 200, Y: 90, Bulge: math.Tan(math.Pi / 8)}, dxftest.V{X: 190, Y: 100}, dxftest.V{X: 0, Y: 100})
	p := onePart(t, build(t, b.Layer("BEND").Line(180, 0, 180, 100).Layer("NOTES").Text(185, 80, 3, "R10")))
	if f := kinds(p, features.Bend)[0]; f.RadiusMM != 0 {
		t.Errorf("the corner's radius was given to the bend: %+v", f)
	}
	// Inches: R.25 is a quarter of an inch.
	p = onePart(t, build(t, dxftest.New(dxftest.Inch).Polyline(true, dxftest.Rect(0, 0, 12, 4)...).Layer("BEND").Line(4, 0, 4, 4).Layer("NOTES").Text(4.1, 2, 0.2, "UP 90 R.25")))
	if f := kinds(p, features.Bend)[0]; math.Abs(f.RadiusMM-6.35) > 1e-9 {
		t.Errorf("%+v", f)
	}
}

// Two plates alike in the flat, one bent by 90 degrees, the other by 45, are two
// parts; two that are bent alike are copies, also where the notes of one are left out.
func TestBentOtherwise(t *testing.T) {
	for _, c := range []struct {
		notes [2]string
		parts int
	}{{[2]string{"UP 90 R6", "UP 45 R6"}, 2}, {[2]string{"UP 90 R6", "DOWN 90 R6"}, 2}, {[2]string{"UP 90 R6", "UP 90 R6"}, 1}, {[2]string{"UP 90 R6", ""}, 1}} {
		b := dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 300, 100)...).Polyline(true, dxftest.Rect(0, 300, 300, 100)...)
		b.Circle(250, 30, 9).Circle(250, 330, 9).Layer("BEND").Line(100, 0, 100, 100).Line(100, 300, 100, 400).Layer("NOTES")
		for i, n := range c.notes {
			if n != "" {
				b.Text(103, 50+300*float64(i), 5, n)
			}
		}
		if s := build(t, b); len(s.Parts) != c.parts {
			t.Errorf("%q: %d parts, want %d", c.notes, len(s.Parts), c.parts)
		}
	}
}
