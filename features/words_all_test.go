package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
)

// TestTextForAll: a note that says so is for all parts, wherever it stands; the
// only thickness, far from all parts, too, and that is told.
func TestTextForAll(t *testing.T) {
	two := func() *dxftest.Builder {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 100, 60)...).Polyline(true, dxftest.Rect(400, 0, 150, 60)...)
		return b
	}
	for line, all := range map[string]bool{"ALL t=6 S235": true, "ALL PARTS 6 THK": true, "alle Teile t=6": true, "toutes les pieces ep 6": true,
		"t=6": false, "t=6 all edges free of burrs": false} {
		b := two()
		b.Text(10, 65, 4, line) // beside the first part
		s := build(t, b)
		if s.Parts[0].Thickness.MM != 6 || s.Parts[1].Thickness.MM != map[bool]float64{true: 6}[all] {
			t.Errorf("%q: %+v %+v", line, s.Parts[0].Thickness, s.Parts[1].Thickness)
		}
		if line == "ALL t=6 S235" && (s.Parts[0].Material.Text != "S235" || s.Parts[1].Material.Text != "S235") {
			t.Errorf("%q: material %+v %+v", line, s.Parts[0].Material, s.Parts[1].Material)
		}
	}
	b := two()
	b.Text(-400, -300, 4, "t=6")
	s := build(t, b)
	if s.Parts[0].Thickness.MM != 6 || s.Parts[1].Thickness.MM != 6 || s.Parts[0].Thickness.From != "text" || !hasNote(s, "text-for-all") {
		t.Errorf("%s", describe(s))
	}
}

// TestTextInsideNested: a text inside a part that lies in another's opening is
// the inner part's.
func TestTextInsideNested(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 400, 300)...).Polyline(true, dxftest.Rect(50, 50, 300, 200)...).Polyline(true, dxftest.Rect(100, 100, 150, 80)...)
	b.Text(120, 130, 4, "t=6").Text(5, 20, 4, "t=12")
	s := build(t, b)
	if len(s.Parts) != 2 {
		t.Fatalf("%s", describe(s))
	}
	for _, p := range s.Parts {
		if want := map[bool]float64{true: 12, false: 6}[p.Box.Width() > 200]; p.Thickness.MM != want {
			t.Errorf("a part %g wide has %g, want %g", p.Box.Width(), p.Thickness.MM, want)
		}
	}
}

// TestTitleUnderPart: a text under one of two plates that stand close is that
// plate's; one between the two is nobody's.
func TestTitleUnderPart(t *testing.T) {
	for _, c := range []struct {
		x, y float64
		want [2]float64
	}{
		{112, -20, [2]float64{0, 12}},
		{60, -20, [2]float64{12, 0}},
		{112, 75, [2]float64{0, 12}},
		{105, 30, [2]float64{0, 0}},
		{105, -20, [2]float64{0, 0}},
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 100, 60)...).Polyline(true, dxftest.Rect(110, 0, 150, 60)...)
		b.Text(c.x, c.y, 2, "PL 12 S275").Text(0, -300, 2, "t=8")
		s := build(t, b)
		if len(s.Parts) != 2 {
			t.Fatal(describe(s))
		}
		for i, w := range c.want {
			if g := s.Parts[i].Thickness.MM; g == 12 != (w == 12) {
				t.Errorf("text at %g, %g: part %d is %g mm thick, want %g", c.x, c.y, i, g, w)
			}
		}
	}
}
