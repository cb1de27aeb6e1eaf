package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestDividers: one graph, four meanings.
func TestDividers(t *testing.T) {
	t.Run("unexplained", func(t *testing.T) {
		b := plate(dxftest.MM, 1)
		b.Line(100, 0, 100, 140)
		s := build(t, b)
		p := onePart(t, s)
		if d := doubtOf(p, "line-unexplained"); d == nil || !d.Grave || len(d.Source) != 1 {
			t.Errorf("%s", describe(s))
		}
		if len(kinds(p, features.Bend)) != 0 || len(p.Holes) != 3 {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("bend by colour", func(t *testing.T) {
		b := plate(dxftest.MM, 1)
		b.UseColour(1).Line(100, 0, 100, 140)
		p := onePart(t, build(t, b))
		if d := doubtOf(p, "maybe-bend"); len(kinds(p, features.Bend)) != 1 || d == nil || d.Grave || doubtOf(p, "line-unexplained") != nil {
			t.Errorf("%v", p.Doubts)
		}
	})
	t.Run("bend by note", func(t *testing.T) {
		b := plate(dxftest.MM, 1)
		b.Line(100, 0, 100, 140).Text(103, 70, 5, "UP 90 R10")
		p := onePart(t, build(t, b))
		if len(kinds(p, features.Bend)) != 1 || len(p.Doubts) != 0 {
			t.Errorf("%v %v", kinds(p, features.Bend), p.Doubts)
		}
	})
	t.Run("common cuts", func(t *testing.T) {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 300, 200)...)
		b.Line(0, 100, 300, 100).Line(100, 0, 100, 200).Line(200, 0, 200, 200)
		for x := range 3 {
			for y := range 2 {
				b.Circle(float64(x)*100+20, float64(y)*100+20, 6)
			}
		}
		s := build(t, b)
		if len(s.Parts) != 1 || s.Parts[0].Copies() != 6 || !close(s.Parts[0].Box.Width(), 100, 1e-6) || !hasNote(s, "common-cut") {
			t.Errorf("%s", describe(s))
		}
		if s.Parts[0].Holes == nil || doubtOf(&s.Parts[0], "line-unexplained") != nil {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("centre marks in a hole", func(t *testing.T) {
		b := plate(dxftest.MM, 1)
		b.Line(29, 100, 51, 100).Line(40, 89, 40, 111)
		s := build(t, b)
		p := onePart(t, s)
		if len(kinds(p, features.RoundHole)) != 3 || len(p.Holes) != 3 {
			t.Errorf("%s", describe(s))
		}
	})
	t.Run("short of the edges", func(t *testing.T) {
		b := plate(dxftest.MM, 1)
		b.Line(100, 10, 100, 130)
		p := onePart(t, build(t, b))
		if d := doubtOf(p, "reading-doubt"); d == nil || !d.Grave {
			t.Errorf("%v", p.Doubts)
		}
	})
}

// TestOpenOutline: an outline with a gap is no part, and the place is told.
func TestOpenOutline(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Line(0, 0, 100, 0).Line(100, 0, 100, 50).Line(100, 50, 3, 50).Line(0, 50, 0, 0).Circle(50, 25, 6)
	s := build(t, b)
	f := faultOf(s, "open-outline")
	if f == nil || !close(f.Value, 3, 1e-9) || !close(f.At.Y, 50, 1e-9) || len(f.Source) == 0 {
		t.Fatalf("%s", describe(s))
	}
	if len(s.Loose) != 1 || !close(s.Loose[0].GapMM, 3, 1e-9) || s.Loose[0].Holes != 1 {
		t.Errorf("%+v", s.Loose)
	}
	if len(s.Parts) != 0 {
		t.Errorf("the hole of an open outline passes for a part:\n%s", describe(s))
	}
	// Every corner open by 2 mm: still one loose outline.
	b = dxftest.New(dxftest.MM)
	b.Line(2, 0, 98, 0).Line(100, 2, 100, 48).Line(98, 50, 2, 50).Line(0, 48, 0, 2)
	s = build(t, b)
	if len(s.Loose) != 1 || faultOf(s, "open-outline") == nil || faultOf(s, "no-part") == nil {
		t.Errorf("%s", describe(s))
	}
	// A gap within the bridge is closed, told, and keeps the part from clean
	// over 0.05 mm.
	for _, c := range []struct {
		gap   float64
		clean bool
	}{{0.04, true}, {0.06, false}, {0.4, false}} {
		b := dxftest.New(dxftest.MM)
		b.Line(0, 0, 100, 0).Line(100, 0, 100, 50).Line(100, 50, c.gap, 50).Line(0, 50, 0, 0)
		s := build(t, b)
		p := onePart(t, s)
		if p.Clean != c.clean || (faultOf(s, "gap-bridged") == nil) != c.clean || !hasNote(s, "gap-closed") {
			t.Errorf("gap %g: %s", c.gap, describe(s))
		}
	}
	// A stray line beside a part is told and harms nothing.
	b = plate(dxftest.MM, 1)
	b.Line(300, 0, 320, 10)
	s = build(t, b)
	onePart(t, s)
	if len(s.Loose) != 0 || !hasNote(s, "stray-line") {
		t.Errorf("%s", describe(s))
	}
}

func TestDuplicates(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.Circle(40, 100, 11).Line(0, 0, 200, 0)
	s := build(t, b)
	p := onePart(t, s)
	if f := faultOf(s, "duplicate-lines"); f == nil || f.Count < 2 || f.Part != 0 {
		t.Errorf("%s", describe(s))
	}
	if len(kinds(p, features.RoundHole)) != 3 {
		t.Errorf("%s", describe(s))
	}
}

// TestHoleOnOutline: a closed contour that crosses the outline keeps its shape
// and is a fault.
func TestHoleOnOutline(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.Circle(200, 70, 10)
	s := build(t, b)
	p := onePart(t, s)
	var crossing []features.Feature
	for _, f := range p.Features {
		if f.CrossesOutline {
			crossing = append(crossing, f)
		}
	}
	if len(crossing) != 1 || crossing[0].Kind != features.RoundHole || !close(crossing[0].DiameterMM, 20, 1e-9) || crossing[0].Hole != -1 {
		t.Errorf("%s", describe(s))
	}
	if f := faultOf(s, "hole-on-outline"); f == nil || f.Part != 0 {
		t.Errorf("%s", describe(s))
	}
	// Centred on the inner corner of a notch it is the notch's relief.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.V{X: 0, Y: 0}, dxftest.V{X: 200, Y: 0}, dxftest.V{X: 200, Y: 100}, dxftest.V{X: 140, Y: 100}, dxftest.V{X: 140, Y: 140}, dxftest.V{X: 0, Y: 140})
	b.Circle(140, 100, 4)
	s = build(t, b)
	p = onePart(t, s)
	n := kinds(p, features.Notch)
	if len(n) != 1 || n[0].Relief != "pre-punched" || len(p.Features) != len(p.Outline)-1 || faultOf(s, "hole-on-outline") != nil {
		t.Errorf("%s", describe(s))
	}
}

// TestFaultsOfParts: a fault names its part, in whatever order they stand.
func TestFaultsOfParts(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 500, 100, 60)...)
	b.Circle(100, 530, 8)
	b.Polyline(true, dxftest.Rect(0, 0, 140, 60)...)
	b.Polyline(true, dxftest.Rect(300, 0, 150, 60)...)
	s := build(t, b)
	f := faultOf(s, "hole-on-outline")
	if len(s.Parts) != 3 || f == nil || f.Part != 2 || !close(s.Parts[2].Box.Width(), 100, 1e-9) {
		t.Errorf("%s", describe(s))
	}
	// An opening that does not close belongs to the part that it lies on.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 500, 100, 60)...)
	b.Line(20, 520, 40, 520).Line(40, 520, 40, 540).Line(40, 540, 20, 540).Line(20, 540, 20, 522)
	b.Polyline(true, dxftest.Rect(0, 0, 140, 60)...)
	s = build(t, b)
	f = faultOf(s, "open-outline")
	if len(s.Parts) != 2 || f == nil || f.Part != 1 || !close(f.Value, 2, 1e-9) || doubtOf(&s.Parts[1], "reading-doubt") == nil {
		t.Errorf("%s", describe(s))
	}
}
