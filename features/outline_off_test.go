package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestOutlineNotShown: openings whose outline is on a layer that is off or
// frozen are no parts, whatever their shapes; blanks on a sheet whose border is
// off stay parts, doubted.
func TestOutlineNotShown(t *testing.T) {
	shapes := map[string]func(*dxftest.Builder){
		"circles": func(b *dxftest.Builder) { b.Circle(40, 50, 7).Circle(160, 50, 7) },
		"one":     func(b *dxftest.Builder) { b.Circle(40, 50, 7) },
		"slots":   func(b *dxftest.Builder) { b.Polyline(true, dxftest.Slot(100, 50, 14, 40)...) },
		"mixed": func(b *dxftest.Builder) {
			b.Polyline(true, dxftest.Rect(90, 40, 110, 60)...).Circle(40, 50, 7).Polyline(true, dxftest.V{X: 140, Y: 40}, dxftest.V{X: 160, Y: 40}, dxftest.V{X: 150, Y: 60})
		},
	}
	for name, draw := range shapes {
		for _, opt := range []dxftest.LayerOptions{{Off: true}, {Frozen: true}} {
			b := dxftest.New(dxftest.MM)
			b.LayerWith("PROFILE", opt)
			draw(b.Layer("PROFILE").Line(0, 0, 200, 0).Line(200, 0, 200, 100).Line(200, 100, 0, 100).Line(0, 100, 0, 0).Layer("0"))
			s := build(t, b)
			if f := faultOf(s, "no-part"); len(s.Parts) != 0 || f == nil || !hasNote(s, "outline-not-shown") {
				t.Errorf("%s: %s", name, describe(s))
			}
		}
	}
	// Beside a whole part: that one stays, the drawing is told to be incomplete.
	b := plate(dxftest.MM, 1)
	b.LayerWith("PROFILE", dxftest.LayerOptions{Off: true})
	b.Layer("PROFILE").Polyline(true, dxftest.Rect(300, 0, 500, 100)...)
	b.Layer("0").Circle(340, 50, 7).Polyline(true, dxftest.Slot(400, 50, 14, 40)...)
	s := build(t, b)
	if p := onePart(t, s); len(p.Doubts) != 0 || faultOf(s, "read-incomplete") == nil {
		t.Errorf("%s", describe(s))
	}
	// Two blanks on a sheet.
	b = dxftest.New(dxftest.MM)
	b.LayerWith("SHEET", dxftest.LayerOptions{Off: true})
	b.Layer("SHEET").Polyline(true, dxftest.Rect(0, 0, 1000, 500)...)
	b.Layer("0").Polyline(true, dxftest.Rect(10, 10, 210, 110)...).Polyline(true, dxftest.Rect(310, 10, 410, 110)...)
	s = build(t, b)
	if len(s.Parts) != 2 || !graveDoubt(&s.Parts[0], "reading-doubt") || !graveDoubt(&s.Parts[1], "reading-doubt") {
		t.Errorf("%s", describe(s))
	}
	// A part that fills more than half of it, a part with a hole, an outline
	// that is shown as well, and lines that do not close are no reason to doubt.
	for name, add := range map[string]func(*dxftest.Builder){
		"a little larger": func(b *dxftest.Builder) { b.Polyline(true, dxftest.Rect(-5, -5, 205, 145)...) },
		"with holes":      func(b *dxftest.Builder) { b.Polyline(true, dxftest.Rect(-500, -500, 500, 500)...) },
		"shown as well":   func(b *dxftest.Builder) { b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...) },
		"open":            func(b *dxftest.Builder) { b.Line(-500, -500, 500, -500).Line(500, -500, 500, 500) },
	} {
		b := plate(dxftest.MM, 1)
		b.LayerWith("OLD", dxftest.LayerOptions{Off: true}).Layer("OLD")
		add(b)
		s := build(t, b)
		if p := onePart(t, s); len(p.Doubts) != 0 || len(s.Faults) != 0 {
			t.Errorf("%s: %s", name, describe(s))
		}
	}
}

// TestUnseenFaultsDoNotCount: what cannot be read on a layer that is off makes
// nothing incomplete.
func TestUnseenFaultsDoNotCount(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.LayerWith("OLD", dxftest.LayerOptions{Off: true}).Layer("OLD").Line(5, 5, 5, 5)
	s := build(t, b)
	clean(t, s)
	if len(s.Notes) != 0 || len(kinds(onePart(t, s), features.Bend)) != 0 {
		t.Errorf("%s", describe(s))
	}
}
