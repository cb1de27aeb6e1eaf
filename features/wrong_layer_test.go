package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// graveDoubt tells whether a part has a grave doubt of this code.
func graveDoubt(p *features.Part, code string) bool {
	for _, d := range p.Doubts {
		if d.Code == code && d.Grave {
			return true
		}
	}
	return false
}

// TestHolesOnIllNamedLayers: no hole is lost in silence for the name of its
// layer: it is read, or the part is doubted.
func TestHolesOnIllNamedLayers(t *testing.T) {
	for layer, read := range map[string]bool{
		"BEND": true, "Folding": true, "BEND_HOLES": true, "Center Holes": true, "Hilfslinien Bohrungen": true, "HIDDEN-DRILL": true,
		"CENTER": false, "HIDDEN": false, "CONSTRUCTION": false, "Hilfslinien": false, "axis": false, "GUIDE": false,
		"TEXT": false, "Notes": false, "DIMENSION": false, "BORDER": false,
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(40, 50, 7)
		b.Layer(layer).Circle(150, 50, 7)
		s := build(t, b)
		if len(s.Parts) != 1 {
			t.Errorf("%s: %s", layer, describe(s))
			continue
		}
		p := &s.Parts[0]
		if got := len(p.Holes) == 2; got != read {
			t.Errorf("%s: %d holes read", layer, len(p.Holes))
		}
		if !read && !graveDoubt(p, "maybe-opening") {
			t.Errorf("%s: the hole was left out without a grave doubt: %+v", layer, p.Doubts)
		}
	}
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...)
	b.Layer("BEND").Polyline(true, dxftest.Slot(100, 50, 14, 40)...)
	if s := build(t, b); len(s.Parts) != 1 || len(s.Parts[0].Holes) != 1 {
		t.Errorf("slot on a bend layer: %s", describe(s))
	}
}

// TestHolesWithoutOutline: circles alone are doubted, one disc is not.
func TestHolesWithoutOutline(t *testing.T) {
	s := build(t, dxftest.New(dxftest.MM).Circle(40, 50, 7).Circle(160, 50, 7))
	if len(s.Parts) == 0 {
		t.Fatalf("%s", describe(s))
	}
	for i := range s.Parts {
		if !graveDoubt(&s.Parts[i], "reading-doubt") {
			t.Errorf("a hole became a disc without a grave doubt: %s", describe(s))
		}
	}
	s = build(t, dxftest.New(dxftest.MM).Circle(0, 0, 50))
	if len(s.Parts) != 1 || graveDoubt(&s.Parts[0], "reading-doubt") {
		t.Errorf("one disc: %s", describe(s))
	}
}

// TestCircleWithoutRadius: a circle that cannot be one may have been a hole.
func TestCircleWithoutRadius(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(40, 50, 7)
	b.Raw("CIRCLE", "AcDbCircle", dxftest.Pair{Code: 10, Value: "150"}, dxftest.Pair{Code: 20, Value: "50"}, dxftest.Pair{Code: 40, Value: "-7"})
	s := build(t, b)
	for _, f := range s.Faults {
		if f.Code == "read-incomplete" {
			return
		}
	}
	t.Errorf("no fault read-incomplete: %+v", s.Faults)
}

// TestSlotsOnTextLayers: a slot or a rectangle on a layer for words is doubted
// aloud; letters there, and a box with a text in it, are not.
func TestSlotsOnTextLayers(t *testing.T) {
	for _, layer := range []string{"TEXT", "Bemaßung", "BORDER"} {
		for name, draw := range map[string]func(b *dxftest.Builder){
			"slot": func(b *dxftest.Builder) { b.Polyline(true, dxftest.Slot(100, 50, 14, 40)...) },
			"rectangle of lines": func(b *dxftest.Builder) {
				b.Line(90, 40, 110, 40).Line(110, 40, 110, 60).Line(110, 60, 90, 60).Line(90, 60, 90, 40)
			},
			"hole of arcs": func(b *dxftest.Builder) { b.Arc(100, 50, 8, 0, 180).Arc(100, 50, 8, 180, 360) },
		} {
			b := dxftest.New(dxftest.MM)
			b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(40, 50, 7)
			draw(b.Layer(layer))
			if s := build(t, b); !graveDoubt(onePart(t, s), "maybe-opening") {
				t.Errorf("%s on %s: %s", name, layer, describe(s))
			}
		}
		for name, draw := range map[string]func(b *dxftest.Builder){
			"letters":    func(b *dxftest.Builder) { writing{font: "regular", x: 60, y: 40, capMM: 8}.draw(t, b, "HILT 10") },
			"strokes":    func(b *dxftest.Builder) { strokeText(b, 60, 40, 6, 0, "1000") },
			"boxed text": func(b *dxftest.Builder) { b.Polyline(true, dxftest.Rect(60, 40, 40, 12)...).Text(62, 42, 5, "KEEP") },
		} {
			b := dxftest.New(dxftest.MM)
			b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(40, 50, 7)
			draw(b.Layer(layer))
			s := build(t, b)
			onePart(t, s)
			if clean(t, s); t.Failed() {
				t.Fatalf("%s on %s: %s", name, layer, describe(s))
			}
		}
	}
}
