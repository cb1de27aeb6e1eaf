package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

func grave(p *features.Part) bool {
	for _, d := range p.Doubts {
		if d.Grave {
			return true
		}
	}
	return false
}

// TestBorderReadings: whether a rectangle round others is a border or a plate
// is settled by two or more drilled parts in it; all else is doubted.
func TestBorderReadings(t *testing.T) {
	rect := func(b *dxftest.Builder, x, y, w, h float64) {
		b.Polyline(true, dxftest.Rect(x, y, w, h)...)
	}
	// A drilled plate with one drilled rectangle in it.
	b := dxftest.New(dxftest.MM)
	rect(b, 0, 0, 300, 200)
	for _, x := range []float64{20, 280} {
		b.Circle(x, 20, 5).Circle(x, 180, 5)
	}
	rect(b, 50, 50, 200, 100)
	b.Circle(90, 100, 7).Circle(210, 100, 7)
	s := build(t, b)
	for i := range s.Parts {
		if !grave(&s.Parts[i]) {
			t.Errorf("a rectangle laid on a plate is not doubted:\n%s", describe(s))
		}
	}
	// An outline drawn again 5 mm outside.
	b = dxftest.New(dxftest.MM)
	rect(b, 0, 0, 200, 100)
	rect(b, 5, 5, 190, 90)
	b.Circle(40, 50, 7).Circle(160, 50, 7)
	s = build(t, b)
	for i := range s.Parts {
		if !grave(&s.Parts[i]) {
			t.Errorf("a second outline is not doubted:\n%s", describe(s))
		}
	}
	// Two border lines with two different plates: the plates are the parts.
	b = dxftest.New(dxftest.MM)
	rect(b, -110, -100, 420, 297)
	rect(b, -90, -90, 390, 277)
	rect(b, 0, 0, 200, 100)
	b.Circle(40, 50, 7).Circle(160, 50, 7)
	rect(b, 0, 105, 200, 60)
	b.Circle(40, 140, 9)
	s = build(t, b)
	if len(s.Parts) != 2 || len(s.Parts[0].Holes) != 2 || len(s.Parts[1].Holes) != 1 {
		t.Errorf("two plates in a double border:\n%s", describe(s))
	}
}

// TestNearlyEqualCircles: a seat is clearly larger than its hole; an equal
// circle is the same one again; between is doubted.
func TestNearlyEqualCircles(t *testing.T) {
	for _, c := range []struct {
		name         string
		outer        float64
		seat, doubts bool
	}{
		{"equal within 0.02", 7.005, false, false},
		{"14.6 about 14", 7.3, false, true},
		{"just under 1.15", 7 * 1.149, false, true},
		{"just over 1.15", 7 * 1.151, true, false},
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
		b.Circle(50, 50, 7).Circle(50, 50, c.outer)
		s := build(t, b)
		p := onePart(t, s)
		if got := len(kinds(p, features.HoleWithSeat)) == 1; got != c.seat || grave(p) != c.doubts || len(p.Holes) != 1 {
			t.Errorf("%s: %s", c.name, describe(s))
		}
	}
	// A small one: 1.15 times, but not 1 mm wider.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
	b.Circle(50, 50, 2).Circle(50, 50, 2.45)
	if p := onePart(t, build(t, b)); !grave(p) {
		t.Error("0.9 mm more is taken for a seat")
	}
	// A large one leaves 3 mm of metal and is no part for that.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
	b.Circle(100, 70, 40).Circle(100, 70, 36)
	if p := onePart(t, build(t, b)); !grave(p) {
		t.Error("a circle just inside a hole is not doubted")
	}
	// A polygon on its circle.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
	var v []dxftest.V
	for i := range 24 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 24)
		v = append(v, dxftest.V{X: 50 + 7*c, Y: 50 + 7*s})
	}
	b.Circle(50, 50, 7).Polyline(true, v...)
	s := build(t, b)
	if p := onePart(t, s); len(kinds(p, features.RoundHole)) != 1 || grave(p) || faultOf(s, "duplicate-lines") == nil {
		t.Errorf("%s", describe(s))
	}
}
