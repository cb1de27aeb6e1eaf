package features_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// The order of the entities in the file says nothing.
func TestAngleInAnyOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 1))
	var first string
	for range 12 {
		draw := []func(b *dxftest.Builder){
			func(b *dxftest.Builder) { b.Polyline(true, dxftest.Rect(0, 100, 400, 75)...) },
			func(b *dxftest.Builder) { b.Line(0, 106, 400, 106) },
			func(b *dxftest.Builder) { b.Line(0, 50, 400, 50) },
			func(b *dxftest.Builder) { b.Line(0, 0, 400, 0) },
			func(b *dxftest.Builder) { b.Line(400, 0, 400, 50) },
			func(b *dxftest.Builder) { b.Line(0, 50, 0, 0) },
			func(b *dxftest.Builder) { b.Line(400, 44, 0, 44) },
			func(b *dxftest.Builder) { b.Circle(40, 145, 11) },
			func(b *dxftest.Builder) { b.Circle(360, 145, 11) },
			func(b *dxftest.Builder) { b.Circle(200, 20, 9) },
			func(b *dxftest.Builder) { handed(b, 600, 0, false) },
			func(b *dxftest.Builder) { handed(b, 600, 600, false) },
			func(b *dxftest.Builder) { b.Text(100, -30, 8, "L75x50x6") },
		}
		rng.Shuffle(len(draw), func(i, k int) { draw[i], draw[k] = draw[k], draw[i] })
		b := newAngleBuilder(dxftest.MM)
		for _, d := range draw {
			d(b)
		}
		s := build(t, b)
		out := describe(s)
		for i := range s.Parts {
			out += describeLegs(&s.Parts[i])
		}
		if first == "" {
			first = out
			if len(s.Parts) != 2 || s.Parts[0].Form != features.FormAngle {
				t.Fatalf("not what was drawn:\n%s", out)
			}
		} else if out != first {
			t.Fatalf("another order, another reading:\n%s\n%s", first, out)
		}
	}
}

// L3X3X1/4 of the AISC list, drawn in inches: 4.9 lb/ft.
func TestAngleInInches(t *testing.T) {
	for _, text := range []string{"L3x3x1/4", "L3X3X1/4 x 1'-8\"", ""} {
		b := newAngleBuilder(dxftest.Inch)
		b.Polyline(true, dxftest.Rect(0, 5, 20, 3)...).Line(0, 5.25, 20, 5.25).Circle(2, 6.75, 13./32)
		b.Polyline(true, dxftest.Rect(0, 0, 20, 3)...).Line(0, 2.75, 20, 2.75)
		if text != "" {
			b.Text(2, -2, 0.4, text)
		}
		s := build(t, b)
		p := onePart(t, s)
		checkAngle(t, s, p, [2]float64{76.2, 76.2}, 6.35, 508, wantHole{"a", 44.45, 50.8, 20.6375})
		if a := p.Angle; a.Section != "L3X3X1/4" || math.Abs(a.MassKgM-4.9*0.45359237/0.3048) > 0.01 {
			t.Errorf("%q: section %q, mass %v", text, a.Section, a.MassKgM)
		}
		if len(p.Doubts) > 0 {
			t.Errorf("%q: doubts\n%s", text, describe(s))
		}
	}
}

// A countersunk hole and a row of holes in leg b.
func TestAngleSeatsAndRows(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 100, 400, 75)...).Line(0, 106, 400, 106)
	b.Polyline(true, dxftest.Rect(0, 0, 400, 50)...).Line(0, 44, 400, 44)
	for i := range 4 {
		b.Circle(50+80*float64(i), 20, 7)
	}
	b.Circle(350, 20, 7).Circle(350, 20, 14)
	b.Text(60, -30, 5, "4x %%c14")
	s := build(t, b)
	p := onePart(t, s)
	seats := kinds(p, features.HoleWithSeat)
	if len(seats) != 1 || seats[0].SeatMM != 28 || seats[0].Leg != "b" {
		t.Errorf("seats %+v", seats)
	}
	rows := 0
	for _, r := range p.Patterns {
		if r.Kind == "row" && len(r.Members) >= 4 {
			rows++
		}
	}
	if rows != 1 {
		t.Errorf("patterns %+v", p.Patterns)
	}
	if len(p.CallOuts) != 1 || len(p.CallOuts[0].Features) < 4 {
		t.Errorf("call-outs %+v", p.CallOuts)
	}
}

// The strip of the thickness and the rest of the leg drawn as closed outlines
// that share an edge.
func TestAngleOfTwoRectangles(t *testing.T) {
	b := newAngleBuilder(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 100, 400, 6)...).Polyline(true, dxftest.Rect(0, 106, 400, 69)...).Circle(40, 145, 11)
	b.Polyline(true, dxftest.Rect(0, 0, 400, 44)...).Polyline(true, dxftest.Rect(0, 44, 400, 6)...).Circle(200, 20, 9)
	s := build(t, b)
	for _, p := range s.Parts {
		grave := false
		for _, d := range p.Doubts {
			grave = grave || d.Grave
		}
		if p.Form == features.FormFlat && !grave {
			t.Errorf("flat without a doubt\n%s", describe(s))
		}
	}
}

// Dimensions, centre lines and gauge lines stand on the views.
func TestAngleWithSizes(t *testing.T) {
	b := newAngleBuilder(dxftest.MM).Linetype("CENTER", 30, -5, 5, -5)
	upperView(b, true, plainLine)
	lowerView(b, false, plainLine)
	b.UseLinetype("CENTER").Line(-10, 145, 410, 145).Line(-10, 20, 410, 20).Line(40, 90, 40, 185).Line(200, -10, 200, 60).UseLinetype("")
	b.Dimension(0, 175, 400, 175, 200, 200, 0, 400, "").Dimension(0, 100, 0, 175, -30, 137, 90, 75, "").Dimension(0, 0, 0, 50, -30, 25, 90, 50, "").
		Dimension(0, 100, 40, 145, 20, 70, 0, 40, "").Text(0, -60, 8, "L75x50x6 - 400 LG").Text(0, -80, 8, "MATERIAL S275").Text(0, -100, 8, "4 OFF")
	s := build(t, b)
	p := onePart(t, s)
	checkAngle(t, s, p, [2]float64{75, 50}, 6, 400, wantHole{"a", 45, 40, 22}, wantHole{"a", 45, 360, 22}, wantHole{"b", 30, 200, 18})
	if len(p.Doubts) > 0 || len(s.Faults) > 0 || p.Quantity != 4 || p.Material.Text == "" || p.Angle.SectionText.Text == "" {
		t.Errorf("quantity %d, material %q, section %q\n%s", p.Quantity, p.Material.Text, p.Angle.SectionText.Text, describe(s))
	}
}
