package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
)

// TestDetailOutlines: a plate of 200 x 100 and beside it a closed outline of
// 60 x 40 with a text under it.
func TestDetailOutlines(t *testing.T) {
	for _, c := range []struct {
		title, letter string
		parts         int
		doubt         bool
	}{
		{"DETAIL B (2:1)", "", 1, false},
		{"DETAIL B", "B", 1, false},
		{"Einzelheit X (5:1)", "X", 1, false},
		{"DÉTAIL A (2:1)", "", 1, false},
		{"DETALLE C (2:1)", "", 1, false},
		{"DETTAGLIO D", "D", 1, false},
		{"DETALHE A (2:1)", "", 1, false},
		{"DETAIL B", "", 2, true}, // nothing bears it out
		{"P2", "", 2, false},      // a part's mark
		{"2x Ø14", "", 2, false},  // no title at all
		{"SEE DETAIL B", "B", 2, false},
		{"DETAIL B (1:10)", "B", 2, true}, // ten times larger than the plate
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(40, 50, 7)
		b.Polyline(true, dxftest.Rect(300, 0, 60, 40)...).Circle(330, 20, 7)
		b.Dimension(300, 0, 360, 0, 330, 50, 0, 60, "30").Text(305, -12, 5, c.title)
		if c.letter != "" {
			b.Text(10, 120, 5, c.letter)
		}
		s := build(t, b)
		if len(s.Parts) != c.parts || hasNote(s, "detail-view") != (c.parts == 1) {
			t.Errorf("%q: %d parts\n%s", c.title, len(s.Parts), describe(s))
		}
		doubt := false
		for i := range s.Parts {
			doubt = doubt || doubtOf(&s.Parts[i], "maybe-detail") != nil
			if c.parts == 1 && len(s.Parts[i].Doubts) > 0 {
				t.Errorf("%q: %+v", c.title, s.Parts[i].Doubts)
			}
		}
		if doubt != c.doubt {
			t.Errorf("%q: doubted %v", c.title, doubt)
		}
	}
	// Alone on the sheet it is the part.
	b := dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 60, 40)...).Text(5, -12, 5, "DETAIL B (2:1)")
	if p := onePart(t, build(t, b)); !close(p.Box.Width(), 60, 1e-6) {
		t.Errorf("%+v", p.Box)
	}
}
