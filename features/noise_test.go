package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

func ignored(s *features.Sheet, what string) int {
	for _, i := range s.Ignored {
		if i.What == what {
			return i.Count
		}
	}
	return 0
}

// TestNoise: what is declared as no geometry is left out and counted, and the
// plate is the same as without it.
func TestNoise(t *testing.T) {
	want := sizesOf(onePart(t, build(t, plate(dxftest.MM, 1))))
	for _, c := range []struct {
		name, what string
		n          int
		add        func(b *dxftest.Builder)
	}{
		{"point", "point", 1, func(b *dxftest.Builder) { b.Point(40, 100) }},
		{"text", "text", 1, func(b *dxftest.Builder) { b.Text(10, 10, 5, "north") }},
		{"dimension", "dimension", 1, func(b *dxftest.Builder) { b.Dimension(0, 0, 200, 0, 100, -10, 0, 200, "") }},
		{"layer off", "layer off", 1, func(b *dxftest.Builder) {
			b.LayerWith("X", dxftest.LayerOptions{Off: true}).Line(0, 70, 200, 70)
		}},
		{"layer frozen", "layer frozen", 1, func(b *dxftest.Builder) {
			b.LayerWith("X", dxftest.LayerOptions{Frozen: true}).Line(0, 70, 200, 70)
		}},
		{"centre line overshoots", "centre line", 1, func(b *dxftest.Builder) {
			b.Linetype("Z", 12, -3, 3, -3).UseLinetype("Z").Line(-5, 100, 205, 100)
		}},
		{"hidden line", "hidden line", 1, func(b *dxftest.Builder) {
			b.Linetype("Z", 6, -3).UseLinetype("Z").Line(20, 20, 60, 20)
		}},
		{"dashes by layer", "centre line", 1, func(b *dxftest.Builder) {
			b.Linetype("Z", 12, -3, 0, -3).LayerWith("A", dxftest.LayerOptions{Linetype: "Z"}).Line(20, 20, 60, 20)
		}},
		{"German layer", "construction layer", 1, func(b *dxftest.Builder) { b.Layer("HILFSLINIEN").Line(0, 70, 200, 70) }},
		{"French layer", "dimension layer", 1, func(b *dxftest.Builder) { b.Layer("Cotes_2").Line(0, 70, 200, 70) }},
		{"Spanish layer", "centre line layer", 1, func(b *dxftest.Builder) { b.Layer("ejes").Line(0, 70, 200, 70) }},
		{"Italian layer", "hidden line layer", 1, func(b *dxftest.Builder) { b.Layer("Linee nascoste").Line(0, 70, 200, 70) }},
		{"Portuguese layer", "construction layer", 1, func(b *dxftest.Builder) { b.Layer("CONSTRUÇÃO").Line(0, 70, 200, 70) }},
		{"Dutch layer", "centre line layer", 1, func(b *dxftest.Builder) { b.Layer("Hartlijnen").Line(0, 70, 200, 70) }},
		{"expectation", "", 0, func(b *dxftest.Builder) { b.Want(40, 100, 0.1, "feature round-hole d=22") }},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := plate(dxftest.MM, 1)
			c.add(b)
			s := build(t, b)
			if got := sizesOf(onePart(t, s)); got != want {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
			clean(t, s)
			if c.what != "" && ignored(s, c.what) != c.n {
				t.Errorf("ignored %v", s.Ignored)
			}
			if c.what == "" && len(s.Texts) != 0 {
				t.Errorf("an expectation was read: %v", s.Texts)
			}
		})
	}
}

// TestNotNoise: names that only look like noise are geometry.
func TestNotNoise(t *testing.T) {
	for _, layer := range []string{"0", "CUT", "Sketch Geometry (ANSI)", "FRAESBAHN_6MM", "MODELSKETCH_VISIBLE", "FRAME_BASE", "Kontur"} {
		b := dxftest.New(dxftest.MM)
		b.Layer(layer)
		plateInto(b)
		if s := build(t, b); len(s.Parts) != 1 || hasNote(s, "layer-brought-back") || len(s.Parts[0].Holes) != 1 {
			t.Errorf("layer %q:\n%s", layer, describe(s))
		}
	}
	// A linetype that is only called so has no dashes.
	b := dxftest.New(dxftest.MM)
	b.Linetype("CENTER").UseLinetype("CENTER")
	plateInto(b)
	s := build(t, b)
	onePart(t, s)
	clean(t, s)
}

// TestLayerBroughtBack: a layer's name never deletes the drawing.
func TestLayerBroughtBack(t *testing.T) {
	for _, layer := range []string{"KONSTRUKTION", "Engraving", "BEND", "HIDDEN", "DEFPOINTS"} {
		b := dxftest.New(dxftest.MM)
		b.Layer(layer)
		plateInto(b)
		s := build(t, b)
		if p := onePart(t, s); len(p.Holes) != 1 {
			t.Errorf("%d holes", len(p.Holes))
		}
		named := false
		for _, n := range s.Notes {
			// What closes is never a bend, so nothing had to be brought back.
			code := map[bool]string{true: "closed-on-bend-layer", false: "layer-brought-back"}[layer == "BEND"]
			named = named || n.Code == code && strings.Contains(n.Text, layer)
		}
		if !named {
			t.Errorf("no note names layer %s:\n%s", layer, describe(s))
		}
	}
	// All dashed: brought back, but doubted.
	b := dxftest.New(dxftest.MM)
	b.Linetype("Z", 12, -3, 3, -3).UseLinetype("Z")
	plateInto(b)
	s := build(t, b)
	if d := doubtOf(onePart(t, s), "reading-doubt"); d == nil || !d.Grave {
		t.Errorf("%s", describe(s))
	}
	// Holes kept and the outline taken for noise: the holes are no parts.
	b = dxftest.New(dxftest.MM)
	b.Layer("KONSTRUKTION").Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
	b.Layer("0").Circle(40, 100, 11).Circle(160, 100, 11)
	s = build(t, b)
	for i := range s.Parts {
		if d := doubtOf(&s.Parts[i], "reading-doubt"); d == nil || !d.Grave {
			t.Errorf("a hole without its outline passes for a part:\n%s", describe(s))
		}
	}
}

// TestMaybeOpening: a circle that only its layer's name takes out is told.
func TestMaybeOpening(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.Layer("CENTER").Circle(100, 70, 9)
	s := build(t, b)
	if d := doubtOf(onePart(t, s), "maybe-opening"); d == nil || !d.Grave {
		t.Errorf("%s", describe(s))
	}
}

// TestOwnLayerWords: given words replace the default ones, an empty list names
// nothing.
func TestOwnLayerWords(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.Layer("Schnickschnack").Circle(100, 50, 10)
	b.Layer("KONSTRUKTION").Circle(100, 100, 10)
	s := build(t, b, features.Options{Layers: features.LayerWords{Construction: []string{"schnickschnack"}}})
	if p := onePart(t, s); len(p.Holes) != 4 || ignored(s, "construction layer") != 1 {
		t.Errorf("%s", describe(s))
	}
	s = build(t, b, features.Options{Layers: features.LayerWords{Construction: []string{}}})
	if p := onePart(t, s); len(p.Holes) != 5 {
		t.Errorf("%s", describe(s))
	}
}

func TestBendsAndMarks(t *testing.T) {
	b := plate(dxftest.MM, 1)
	b.Layer("BIEGELINIEN").Line(100, 0, 100, 60).Line(100, 60, 100, 140)
	b.Layer("Gravur").Line(60, 20, 80, 20).Line(80, 20, 80, 30)
	s := build(t, b)
	p := onePart(t, s)
	bends, marks := kinds(p, features.Bend), kinds(p, features.Mark)
	if len(bends) != 1 || !close(bends[0].LengthMM, 140, 1e-9) || bends[0].ID != "B1" {
		t.Errorf("%s", describe(s))
	}
	if len(marks) != 1 || !close(marks[0].LengthMM, 30, 1e-9) || marks[0].ID != "M1" {
		t.Errorf("%s", describe(s))
	}
	clean(t, s)
	// A bend line that stops short of the edges is one too.
	b = plate(dxftest.MM, 1)
	b.Layer("BEND").Line(100, 2, 100, 138)
	if got := kinds(onePart(t, build(t, b)), features.Bend); len(got) != 1 {
		t.Errorf("%d bends", len(got))
	}
	// One that runs past the edges counts as long as the metal.
	b = plate(dxftest.MM, 1)
	b.Layer("BEND").Line(100, -10, 100, 155)
	if got := kinds(onePart(t, build(t, b)), features.Bend); len(got) != 1 || !close(got[0].LengthMM, 140, 1e-9) || !close(got[0].From.Y, 0, 1e-9) {
		t.Errorf("%+v", got)
	}
	// Dashes that end on the edges exactly are a bend, told as a guess.
	b = plate(dxftest.MM, 1)
	b.Linetype("Z", 12, -3, 3, -3).UseLinetype("Z").Line(100, 0, 100, 140)
	p = onePart(t, build(t, b))
	if d := doubtOf(p, "maybe-bend"); len(kinds(p, features.Bend)) != 1 || d == nil || d.Grave {
		t.Errorf("%v", p.Doubts)
	}
	// Near the long edge it may be the other leg of an angle.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 300, 75)...)
	b.Linetype("Z", 6, -3).UseLinetype("Z").Line(0, 8, 300, 8)
	p = onePart(t, build(t, b))
	if d := doubtOf(p, "line-unexplained"); d == nil || !d.Grave {
		t.Errorf("%v", p.Doubts)
	}
}
