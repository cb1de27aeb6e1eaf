package render

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

// wordsOf lists the labels of a scene.
func wordsOf(s *Scene) []string {
	var out []string
	for i := range s.items {
		out = append(out, s.items[i].lines...)
	}
	return out
}

func itemsOf(s *Scene, kind itemKind, style string) []item {
	var out []item
	for _, it := range s.items {
		if it.kind == kind && it.style == style {
			out = append(out, it)
		}
	}
	return out
}

// circlesOf are the full circles of a style: centre and radius in pixels.
func circlesOf(s *Scene, style string) [][3]float64 {
	var out [][3]float64
	for _, it := range itemsOf(s, itemStroke, style) {
		for _, g := range it.path {
			if g.op == segArc && math.Abs(g.sweep) > 6 {
				out = append(out, [3]float64{g.cx, g.cy, g.r})
			}
		}
	}
	return out
}

func TestAnglePictureSaysWhatItMust(t *testing.T) {
	for _, c := range []struct {
		rep  *check.Report
		want []string
	}{
		{bracketReport(), []string{"L100x75x8 x 200 mm long", "EN 10056-1, 10.6 kg/m", "not told by the drawing", "a 100 mm", "b 75 mm", "55 mm", "45 mm", "25 mm", "t 8 mm, root radius 10 mm", "root fillet to 18 mm", "heel, legs folded flat", "gauge, from the heel"}},
		{postReport(), []string{"3000 mm", "a 75 mm", "b 75 mm", "turned to lie level", "shortened at the gaps"}},
		{railReport(), []string{"L60x60x6 x 1000 mm long", "30 mm", "40 mm", "other leg; fillet not"}},
		{undrawnReport(), []string{"one view, leg b not drawn: taken as plain", "leg b not drawn", "b 60 mm"}},
	} {
		text := strings.Join(wordsOf(NewScene(c.rep, 0, SceneOptions{})), "\n")
		for _, w := range c.want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: no %q in\n%s", c.rep.Drawing, w, text)
			}
		}
	}
	if s := NewScene(bracketReport(), 0, SceneOptions{}); len(itemsOf(s, itemStroke, "not-drawn")) > 0 {
		t.Error("both legs are drawn, and one is dashed")
	}
	if s := NewScene(plateReport(), 0, SceneOptions{}); len(itemsOf(s, itemStroke, "heel-line"))+len(itemsOf(s, itemStroke, "gauge-line")) > 0 {
		t.Error("a flat part has a heel")
	}
}

// heelOf is the line of the heel in the drawing, not its sample in the key.
func heelOf(s *Scene) []seg {
	var out []seg
	for _, it := range itemsOf(s, itemStroke, "heel-line") {
		if len(out) == 0 || it.path[1].x-it.path[0].x > out[1].x-out[0].x {
			out = it.path
		}
	}
	return out
}

// Gauge lines run through the centres of the holes, at the gauge from the heel
// in the scale of the holes themselves.
func TestGaugeLinesMeetTheHoles(t *testing.T) {
	s := NewScene(bracketReport(), 0, SceneOptions{})
	holes := circlesOf(s, "hole")
	if len(holes) != 4 {
		t.Fatalf("%d holes", len(holes))
	}
	scale := holes[0][2] / 11 // of a hole of 22 mm
	y := heelOf(s)[0].y
	var got []string
	for _, g := range itemsOf(s, itemStroke, "gauge-line") {
		if g.path[1].x-g.path[0].x < 100 {
			continue // the sample in the key
		}
		got = append(got, fmt.Sprintf("%.1f", (g.path[0].y-y)/scale))
		if !slices.ContainsFunc(holes, func(h [3]float64) bool { return math.Abs(h[1]-g.path[0].y) < 1e-6 }) {
			t.Errorf("no hole at the gauge line at %v", g.path[0].y)
		}
	}
	if w := "[55.0 -25.0 -45.0]"; fmt.Sprint(got) != w {
		t.Errorf("gauges %v, want %v", got, w)
	}
}

// A long angle is shortened: the holes are larger than without breaks, keep
// their places across the leg and their distances within a run between breaks.
func TestLongAngleIsShortened(t *testing.T) {
	s := NewScene(postReport(), 0, SceneOptions{})
	if n := len(itemsOf(s, itemFill, "break")); n != 2 {
		t.Errorf("%d breaks", n)
	}
	var at [][3]float64
	for _, h := range append(circlesOf(s, "hole"), circlesOf(s, "error-mark")...) {
		if h[2] > 9 {
			at = append(at, h)
		}
	}
	slices.SortFunc(at, func(a, b [3]float64) int { return int(a[0] - b[0]) })
	if len(at) < 2 {
		t.Fatalf("holes %v", at)
	}
	scale := at[0][2] / 11
	if scale < 0.9 { // 3000 mm in some 1050 px would be 0.35 px/mm
		t.Errorf("%.2f px for a millimetre", scale)
	}
	if d := (at[1][0] - at[0][0]) / scale; math.Abs(d-75) > 0.01 {
		t.Errorf("the first two holes lie %v mm apart, want 75", d)
	}
	for _, b := range itemsOf(s, itemFill, "break") {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, g := range b.path {
			if g.op != segClose {
				lo, hi = min(lo, g.x), max(hi, g.x)
			}
		}
		for _, h := range at {
			if h[0]+h[2] > lo && h[0]-h[2] < hi {
				t.Errorf("a break at %v..%v lies on a hole at %v", lo, hi, h)
			}
		}
	}
}

// However an angle lies on the drawing, its picture lies level and is never
// turned over.
func TestAngleLiesLevelAndIsNotTurnedOver(t *testing.T) {
	base := NewScene(bracketReport(), 0, SceneOptions{})
	for _, by := range []float64{30, 60, 90, -45, -90 + 1e-3, 180} {
		rep := bracketReport()
		p := rep.Parts[0].Part
		m := geom.NewTurn(by * math.Pi / 180)
		turnAngle(p, by*math.Pi/180)
		for i := range rep.Parts[0].Findings {
			f := &rep.Parts[0].Findings[i]
			f.At = m.Apply(f.At)
			if f.To != nil {
				to := m.Apply(*f.To)
				f.To = &to
			}
		}
		s := NewScene(rep, 0, SceneOptions{})
		a, b := circlesOf(base, "hole"), circlesOf(s, "hole")
		if len(a) != len(b) {
			t.Fatalf("%v: %d holes, %d", by, len(a), len(b))
		}
		h := heelOf(s)
		if h[1].x-h[0].x < 200 {
			t.Errorf("%v: no heel", by) // the sample in the key is all that there is
		}
		if math.Abs(h[0].y-h[1].y) > 1e-6 {
			t.Errorf("%v: the heel runs from %v to %v", by, h[0].y, h[1].y)
		}
		// Three holes in order turn the same way round.
		turn := func(c [][3]float64) float64 {
			return (c[1][0]-c[0][0])*(c[2][1]-c[0][1]) - (c[1][1]-c[0][1])*(c[2][0]-c[0][0])
		}
		if turn(a)*turn(b) <= 0 {
			t.Errorf("%v: the angle is turned over", by)
		}
	}
}

// Places on the drawing are folded out with the view that has them.
func TestFoldedPlace(t *testing.T) {
	p := bracketReport().Parts[0].Part
	for _, c := range []struct {
		at, want geom.Point
		ok       bool
	}{
		{pt(50, 20), pt(50, 20), true},     // leg a lies as drawn, its heel at y 100
		{pt(140, 425), pt(140, 125), true}, // leg b: 25 from its heel at y 400
		{pt(140, 300), geom.Point{}, false},
	} {
		got, ok := p.FromDrawing(c.at)
		if ok != c.ok || ok && got.Dist(c.want) > 1e-9 {
			t.Errorf("%v: %v %v, want %v %v", c.at, got, ok, c.want, c.ok)
		}
		if ok && p.Angle.OnDrawing(got).Dist(c.at) > 1e-9 {
			t.Errorf("%v comes back at %v", c.at, p.Angle.OnDrawing(got))
		}
	}
}

// Of many gauges those with most holes are drawn; a sum within 0.1 mm is one.
func TestGaugesAreDistinct(t *testing.T) {
	var holes [][4]float64
	for i := range 9 {
		holes = append(holes, [4]float64{0, 30 + 4*float64(i), 50 + 40*float64(i), 9})
	}
	holes = append(holes, [4]float64{0, 62.05, 450, 9}, [4]float64{1, 40, 60, 9})
	p := angleOf("x", [2]float64{100, 75}, 8, 500, nil, holes...)
	g := gaugesOf(p)
	if len(g) != mostGauges+1 || g[len(g)-1].leg != 1 || math.Abs(g[len(g)-2].mm-62) > 0.1 || g[len(g)-2].holes != 2 {
		t.Errorf("gauges %+v", g)
	}
}

func TestPlaceInAngle(t *testing.T) {
	p := bracketReport().Parts[0].Part
	a, b := holeAt(p, "a", 55, 150).ID, holeAt(p, "b", 45, 60).ID
	for _, c := range []struct {
		ids  []string
		want string
	}{
		{[]string{a}, "leg a, 55 mm from the heel, 50 mm from the right end"},
		{[]string{b}, "leg b, 45 mm from the heel, 60 mm from the left end"},
		{[]string{a, b}, "both legs"},
		{[]string{a, holeAt(p, "a", 55, 50).ID}, "leg a, 55 mm from the heel"},
		{[]string{b, holeAt(p, "b", 25, 140).ID}, "leg b"},
		{[]string{"E1"}, "leg a"},
		{[]string{"E2"}, "both legs"},
		{nil, ""},
		{[]string{"H99"}, ""},
	} {
		if got := placeInAngle(p, c.ids, "mm"); got != c.want {
			t.Errorf("%v: %q, want %q", c.ids, got, c.want)
		}
	}
	if got := placeInAngle(&features.Part{}, []string{"H1"}, "mm"); got != "" {
		t.Errorf("a flat part: %q", got)
	}
}
