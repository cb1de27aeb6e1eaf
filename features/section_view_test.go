package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
)

// TestSectionViews: a plate of 200 x 100 with a hole, 12 mm thick by a text, and
// under it its section in two pieces where the cut passes through the hole. The
// strips are made of lines, so that nothing but the title tells.
func TestSectionViews(t *testing.T) {
	for _, c := range []struct {
		title, letter string
		thick         float64
		parts         int // three outlines are drawn
		doubt         bool
	}{
		{"SECTION A-A", "A", 12, 1, false},
		{"SECTION A-A", "", 12, 1, false},
		{"Section B - B", "B", 12, 1, false},
		{"SECT. AA", "A", 12, 1, false},
		{"SCHNITT A-A", "A", 12, 1, false},
		{"Schnitt C–C (1:1)", "C", 12, 1, false},
		{"COUPE A-A", "A", 12, 1, false},
		{"SEZIONE A-A", "A", 12, 1, false},
		{"SECCIÓN A-A", "A", 12, 1, false},
		{"CORTE A-A", "A", 12, 1, false},
		{"DOORSNEDE A-A", "A", 12, 1, false},
		{"PRZEKRÓJ A-A", "A", 12, 1, false},
		{"SECTION 1-1", "1", 12, 1, false},
		{"SECTION II-II", "II", 12, 1, false},
		{"A-A", "A", 12, 1, false},
		{"A-A", "", 12, 3, false},              // a word of its own it is not
		{"SECTION A-A", "A", 15, 3, true},      // not as thick as the plate is said to be
		{"PLATE SECTION 1", "1", 12, 3, false}, // a name of a part
		{"SECTION 1", "1", 12, 3, false},
		{"SECTION A-A SEE SHEET 2", "A", 12, 3, false},
		{"A-B", "A", 12, 3, false},
		{"P2", "", 12, 3, false},
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(90, 50, 10).Text(20, 20, 5, "t=12")
		b.Polyline(true, dxftest.Rect(0, -60, 80, c.thick)...).Polyline(true, dxftest.Rect(100, -60, 100, c.thick)...)
		b.Text(60, -80, 5, c.title)
		if c.letter != "" {
			b.Text(-20, 55, 5, c.letter).Text(215, 55, 5, c.letter)
		}
		s := build(t, b)
		pieces := 0
		doubt := false
		for i := range s.Parts {
			p := &s.Parts[i]
			pieces += p.Copies()
			doubt = doubt || doubtOf(p, "maybe-section") != nil
		}
		if pieces != c.parts || hasNote(s, "section-view") != (c.parts == 1) || doubt != c.doubt {
			t.Errorf("%q: %d outlines, doubted %v\n%s", c.title, pieces, doubt, describe(s))
		}
	}
}

// TestSectionKept: outlines by a title that may be parts all the same.
func TestSectionKept(t *testing.T) {
	letters := func(b *dxftest.Builder) *dxftest.Builder {
		return b.Text(-20, 55, 5, "A").Text(215, 55, 5, "A").Text(310, -15, 5, "SECTION A-A")
	}
	plate := func() *dxftest.Builder {
		return dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(90, 50, 10)
	}
	for name, c := range map[string]struct {
		b     *dxftest.Builder
		parts int
		doubt bool
	}{
		"a plate seen behind the cut, with a hole": {letters(plate().Polyline(true, dxftest.Rect(300, 0, 80, 12)...).Circle(320, 6, 3)), 2, true},
		"a gusset":                              {letters(plate().Polyline(true, dxftest.Rect(300, 0, 80, 60)...)), 2, true},
		"a thin strip":                          {letters(plate().Polyline(true, dxftest.Rect(300, 0, 80, 12)...)), 1, false},
		"longer than what it would be cut from": {letters(plate().Polyline(true, dxftest.Rect(300, 0, 400, 12)...)), 2, false},
		"the only outline":                      {letters(dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(300, 0, 80, 12)...)), 1, false},
		// A profile that is no strip says that the part is none either.
		"an L": {letters(plate().Text(20, 20, 5, "t=8").Polyline(true, dxftest.V{X: 300, Y: 0}, dxftest.V{X: 380, Y: 0}, dxftest.V{X: 380, Y: 8}, dxftest.V{X: 308, Y: 8}, dxftest.V{X: 308, Y: 60}, dxftest.V{X: 300, Y: 60})), 1, true},
	} {
		s := build(t, c.b)
		doubt := false
		for i := range s.Parts {
			doubt = doubt || doubtOf(&s.Parts[i], "maybe-section") != nil
		}
		if len(s.Parts) != c.parts || doubt != c.doubt {
			t.Errorf("%s: %d parts, doubted %v\n%s", name, len(s.Parts), doubt, describe(s))
		}
	}
}
