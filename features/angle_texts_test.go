package features_test

import (
	"math"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// A length that a text of its own states: the angle drawn is 400 long.
func TestAngleLengthStated(t *testing.T) {
	for text, doubted := range map[string]bool{
		"LG=400": false, "400 LG": false, "L = 400": false, "LENGTH 400": false, "LENGTH: 400 mm": false, "0.4 m LG": false,
		"LG=420": true, "420 LG": true, "L = 420": true, "LENGTH 420": true, "Länge: 420 mm": true, "TOTAL LENGTH = 4000": true,
		"SLOT 40 LG": false, "BAR LENGTH 6000": false, "420": false,
	} {
		s := build(t, plainAngle().Text(100, -40, 8, text).Text(100, -60, 8, "L75x50x6"))
		p := onePart(t, s)
		if d := doubtOf(p, "section-conflict"); (d != nil) != doubted || d != nil && (!d.Grave || d.At.Y != -40) {
			t.Errorf("%q: %+v", text, p.Doubts)
		}
	}
	// Label and value apart, and as an attribute.
	for value, doubted := range map[string]bool{"400": false, "420": true, "420 mm": true} {
		s := build(t, plainAngle().Text(100, -40, 8, "LENGTH").Text(170, -40, 8, value))
		if d := doubtOf(onePart(t, s), "section-conflict"); (d != nil) != doubted {
			t.Errorf("LENGTH beside %s: %+v", value, s.Parts[0].Doubts)
		}
		s = build(t, plainAngle().Text(100, -40, 8, "LENGTH").Text(100, -54, 8, value))
		if d := doubtOf(onePart(t, s), "section-conflict"); (d != nil) != doubted {
			t.Errorf("LENGTH over %s: %+v", value, s.Parts[0].Doubts)
		}
		b := plainAngle()
		b.Block("TITLE", 0, 0, func(b *dxftest.Builder) { b.Text(0, 0, 4, "SHEET") })
		b.Insert("TITLE", 300, -80, dxftest.Placing{Attributes: []dxftest.Attribute{{Tag: "LENGTH", Value: value, X: 300, Y: -90, Height: 5}}})
		if d := doubtOf(onePart(t, build(t, b)), "section-conflict"); (d != nil) != doubted {
			t.Errorf("attribute %s: doubted %v", value, d != nil)
		}
	}
	// The head of a column of several is none; nor is what is said beside a plate.
	s := build(t, plainAngle().Text(100, -40, 8, "LENGTH").Text(100, -54, 8, "420").Text(100, -68, 8, "560"))
	if d := doubtOf(onePart(t, s), "section-conflict"); d != nil {
		t.Errorf("a list: %+v", d)
	}
}

// Two angles on one sheet and a text in a table that names a third section.
func TestAngleSectionOfNone(t *testing.T) {
	sheet := func() *dxftest.Builder {
		b := newAngleBuilder(dxftest.MM)
		for i, wide := range []float64{60, 75} {
			y := 400 * float64(i)
			thick := []float64{6, 8}[i]
			b.Polyline(true, dxftest.Rect(0, y+120, 400, wide)...).Line(0, y+120+thick, 400, y+120+thick).Circle(60, y+120+wide*0.6, 7)
			b.Polyline(true, dxftest.Rect(0, y, 400, wide)...).Line(0, y+wide-thick, 400, y+wide-thick)
		}
		return b
	}
	table := func(b *dxftest.Builder, rows ...string) *dxftest.Builder {
		rows = append(rows, "DESCRIPTION")
		for i := range len(rows) + 1 {
			y := 30 * float64(i)
			b.Line(700, y, 1000, y)
		}
		for _, x := range []float64{700, 760, 920, 1000} {
			b.Line(x, 0, x, 30*float64(len(rows)))
		}
		for i, r := range rows {
			y := 30*float64(i) + 10
			pos, steel := string(rune('1'+i)), "S275"
			if r == "DESCRIPTION" {
				pos, steel = "ITEM", "MATERIAL"
			}
			b.Text(715, y, 8, pos).Text(770, y, 8, r).Text(930, y, 8, steel)
		}
		return b
	}
	count := func(s *features.Sheet) int {
		n := 0
		for i := range s.Parts {
			if doubtOf(&s.Parts[i], "section-conflict") != nil {
				n++
			}
			if s.Parts[i].Form != features.FormAngle {
				t.Fatalf("%s", describe(s))
			}
		}
		return n
	}
	if s := build(t, table(sheet(), "L60x60x6", "L75x75x8")); count(s) != 0 || len(s.Parts) != 2 {
		t.Errorf("both named: %s", describe(s))
	}
	if s := build(t, table(sheet(), "L60x60x6", "L80x80x8")); count(s) != 1 {
		t.Errorf("one named otherwise: %s", describe(s))
	}
	if s := build(t, table(sheet(), "L60x60x6", "L75x75x8", "L80x80x8")); count(s) != 0 || !hasNote(s, "section-not-drawn") {
		t.Errorf("one more named: %s", describe(s))
	}
}

// Two outlines 150 wide with a continuous line at 15: nothing but the views says
// that they are an angle, which is told in a note, and no more than that.
func TestAngleByViews(t *testing.T) {
	for name, c := range map[string]struct {
		line func(b *dxftest.Builder, x1, y1, x2, y2 float64)
		text string
		end  bool
		told bool
	}{
		"lines only": {plainLine, "", false, true}, "named": {plainLine, "L150x150x15", false, false}, "hidden lines": {hiddenLine, "", false, false},
		"dashes": {dashesTo(12, 5, 0), "", false, false}, "end view": {plainLine, "", true, false},
	} {
		b := newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 200, 800, 150)...).Polyline(true, dxftest.Rect(0, 0, 800, 150)...).Circle(80, 290, 9)
		c.line(b, 0, 215, 800, 215)
		c.line(b, 0, 135, 800, 135)
		if c.text != "" {
			b.Text(100, -40, 10, c.text)
		}
		if c.end {
			b.Polyline(true, sectionRing(950, 20, 150, 150, 15, 16, 8)...)
		}
		s := build(t, b)
		if p := onePart(t, s); p.Form != features.FormAngle || len(p.Doubts) > 0 || hasNote(s, "angle-by-views") != c.told {
			t.Errorf("%s: %s", name, describe(s))
		}
	}
}

// End views off the axes, hatched, with hollows at the toes: the root's radius is
// that of the arc at the inner corner.
func TestAngleEndViewHabits(t *testing.T) {
	two := func() *dxftest.Builder {
		b := newAngleBuilder(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 150, 500, 113)...).Line(0, 158, 500, 158).Circle(50, 200, 9)
		return b.Polyline(true, dxftest.Rect(0, 0, 500, 75)...).Line(0, 67, 500, 67)
	}
	check := func(name string, b *dxftest.Builder, root float64) {
		t.Helper()
		s := build(t, b)
		p := onePart(t, s)
		checkAngle(t, s, p, [2]float64{113, 75}, 8, 500, wantHole{"a", 50, 50, 18})
		if math.Abs(p.Angle.RootMM-root) > 1e-6 || !hasNote(s, "end-view") || len(p.Doubts) > 0 {
			t.Errorf("%s: root %v, want %v\n%s", name, p.Angle.RootMM, root, describe(s))
		}
	}
	for _, turn := range []float64{0, 30, 45, 90, 200} {
		b := two()
		b.Block("END", 0, 0, func(b *dxftest.Builder) { b.Polyline(true, sectionRing(0, 0, 75, 113, 8, 10, 4)...) })
		b.Insert("END", 750, 100, dxftest.Placing{AngleDeg: turn})
		check("turned", b, 10)
	}
	// Hatched: lines at 45 degrees across both legs, 3 mm apart.
	b := two()
	x0, y0 := 600.0, 20.0
	b.Polyline(true, sectionRing(x0, y0, 75, 113, 8, 0, 0)...)
	for c := -72.0; c < 110; c += 4 {
		// y = x + c within the section whose heel is at the origin.
		for _, box := range [][4]float64{{0, 0, 75, 8}, {0, 8, 8, 113}} {
			lo, hi := max(box[0], box[1]-c), min(box[2], box[3]-c)
			if hi-lo > 0.3 {
				b.Line(x0+lo, y0+lo+c, x0+hi, y0+hi+c)
			}
		}
	}
	check("hatched", b, 0)
	// Hollow toes of radius 12, a root of radius 6.
	const quarter = 0.41421356237309503
	b = two()
	b.Polyline(true, dxftest.V{X: 600, Y: 20}, dxftest.V{X: 675, Y: 20}, dxftest.V{X: 675, Y: 28 - 5}, dxftest.V{X: 675 - 5, Y: 28},
		dxftest.V{X: 614, Y: 28, Bulge: -quarter}, dxftest.V{X: 608, Y: 34}, dxftest.V{X: 608, Y: 133 - 7, Bulge: -quarter}, dxftest.V{X: 601, Y: 133}, dxftest.V{X: 600, Y: 133})
	check("hollow toe", b, 6)
}

// The places of doubts are the drawing's, also of leg b.
func TestAngleDoubtsOnDrawing(t *testing.T) {
	b := plainAngle()
	b.Line(200, 20, 260, 20) // lies in leg b's view and says nothing
	p := onePart(t, build(t, b))
	found := false
	for _, d := range p.Doubts {
		found = found || strings.Contains(d.Text, "line") && d.At.Y >= 0 && d.At.Y <= 50
		if d.At.Y > 50 && d.At.Y < 100 {
			t.Errorf("a doubt between the views: %+v", d)
		}
	}
	if !found {
		t.Errorf("doubts %+v", p.Doubts)
	}
}
