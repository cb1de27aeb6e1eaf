package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
)

// TestDimensionsAgainstGeometry: a plate 200 x 120 with one dimension along
// its length. What the text says must be what the points measure, within 0.5 %
// or the rounding of its last digit.
func TestDimensionsAgainstGeometry(t *testing.T) {
	for _, c := range []struct {
		stated float64
		typed  string
		odd    bool
	}{
		{200, "", false}, {200, "<>", false}, {200, "200", false}, {200, "2x 200", false}, {200, "200 TYP", false},
		{200, "200 ±0.5", false}, {200, "200 [7.87]", false}, {200, "7.87 in", false}, {200, "7-7/8", false}, {200, "200.4", false},
		{200, "SEE NOTE", false}, {0, "", false}, {-1, "", false},
		{200, "210", true}, {200, "2x 210", true}, {200, "100", true}, {200, "9 in", true}, {200, "201.2", true}, {200, "R100", true},
		{210, "", true}, {400, "", true},
		// Words and signs about the number, counts of equal spaces, thousands.
		{200, "4X 50", false}, {200, "4x50=200", false}, {200, "4 @ 50", false}, {200, "(200)", false}, {200, "~198", false}, {200, "TYP 200", false}, {200, "L=200", false}, {200, "200-0.5", false}, {200, "200.5-0.5", false},
		{200, "200 [7.87]", false}, {200, "7.87 [200]", false}, {200, "MAX 210", false}, {200, "150 MIN", false}, {200, "199.5 +0.5", false}, {200, "VARIES", true}, {200, "A", true}, {200, "2X <>", false}, {210, "2X <>", true},
		{200, "~400", true}, {200, "TYP 400", true}, {200, "L=400", true}, {200, "(400)", true}, {200, "400-0.5", true}, {200, "4X 60", true}, {200, "4x50=210", true}, {200, "MAX 150", true}, {200, "MIN 250", true}, {200, "250 [9.84]", true}, {200, "7.874", false}, {200, "7.874 TYP", false}, {200, "7.5", true}, {200, "2x 3.937", false},
		{200, "9.84 [250]", true}, {200, "1 500", true}, {200, "1,500", true}, {200, "~190", true}, {200, "Länge 400", true}, {200, "200 in", true}, {200, "[400]", true},
	} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Dimension(0, 0, 200, 0, 100, -20, 0, c.stated, c.typed)
		p := onePart(t, build(t, b))
		d := doubtOf(p, "reading-doubt")
		if odd := d != nil && d.Grave && strings.Contains(d.Text, "dimension"); odd != c.odd {
			t.Errorf("stated %g typed %q: doubts %+v", c.stated, c.typed, p.Doubts)
		}
	}
	// Thousands, whichever sign parts them.
	for typed, odd := range map[string]bool{"1 500": false, "1,500": false, "1.500": false, "1'500": false, "3x500": false, "1 600": true, "1.600": true, "1,5": true} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 1500, 120)...).Dimension(0, 0, 1500, 0, 100, -20, 0, 1500, typed)
		p := onePart(t, build(t, b))
		if d := doubtOf(p, "reading-doubt"); (d != nil) != odd {
			t.Errorf("%q over 1500: %+v", typed, p.Doubts)
		}
	}
	// What is off by little or is not understood is told, not doubted gravely.
	for _, typed := range []string{"200.4", "SEE DETAIL 4"} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Dimension(0, 0, 200, 0, 100, -20, 0, 200, typed)
		d := doubtOf(onePart(t, build(t, b)), "reading-doubt")
		if d == nil || d.Grave || !close(d.At.X, 100, 1e-6) || !close(d.At.Y, 0, 1e-6) {
			t.Errorf("%q: %+v", typed, d)
		}
	}
	// A dimension at 30 degrees measures along its own direction.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Dimension(0, 0, 200, 0, 100, -20, 30, 173.2051, "173")
	if p := onePart(t, build(t, b)); len(p.Doubts) != 0 {
		t.Errorf("turned: %+v", p.Doubts)
	}
	// Two dimensions that say the same multiple tell a scale, a usual one only.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Dimension(0, 0, 200, 0, 100, -20, 0, 400, "").Dimension(0, 0, 0, 120, -20, 60, 90, 240, "")
	if p := onePart(t, build(t, b)); len(p.Doubts) > 0 || !close(p.Box.Width(), 400, 1e-6) || p.Scale.Factor != 2 || p.Scale.Ratio != "1:2" {
		t.Errorf("scale: %+v %+v", p.Doubts, p.Scale)
	}
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Dimension(0, 0, 200, 0, 100, -20, 0, 340, "").Dimension(0, 0, 0, 120, -20, 60, 90, 204, "")
	if d := doubtOf(onePart(t, build(t, b)), "reading-doubt"); d == nil || !d.Grave || !strings.Contains(d.Text, "1.7 times") {
		t.Errorf("no usual scale: %+v", d)
	}
	// Of two parts only the one with the dimension is doubted.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Polyline(true, dxftest.Rect(300, 0, 90, 50)...).Dimension(300, 0, 390, 0, 345, -20, 0, 90, "95")
	s := build(t, b)
	for i := range s.Parts {
		if odd := doubtOf(&s.Parts[i], "reading-doubt") != nil; odd != (s.Parts[i].Box.Width() < 100) {
			t.Errorf("part %d: %+v", i, s.Parts[i].Doubts)
		}
	}
	// A factor of the style is a scale: drawn half size, the part is twice as
	// large. One of 25.4 is a unit. Some writers state what is drawn, some what
	// is shown.
	for factor, width := range map[float64]float64{1: 200, 2: 400, 0.5: 100, 25.4: 200} {
		for _, shown := range []bool{true, false} {
			value := factor
			if !shown {
				value = 1
			}
			b = dxftest.New(dxftest.MM)
			b.Header("$DIMLFAC", dxftest.Pair{Code: 40, Value: factor})
			b.Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Dimension(0, 0, 200, 0, 100, -20, 0, 200*value, "").Dimension(0, 0, 0, 120, -20, 60, 90, 120*value, "")
			p := onePart(t, build(t, b))
			if !shown && factor == 25.4 {
				continue // it states inches as millimetres, which is doubted
			}
			if len(p.Doubts) > 0 || !close(p.Box.Width(), width, 1e-6) {
				t.Errorf("factor %g, shown %v: %g wide, %+v", factor, shown, p.Box.Width(), p.Doubts)
			}
		}
	}
	// A direction square to the points measures nothing and says nothing.
	b = dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Dimension(0, 0, 200, 0, 100, -20, 90, 200, "")
	if p := onePart(t, build(t, b)); len(p.Doubts) != 0 {
		t.Errorf("square to its points: %+v", p.Doubts)
	}
}

// TestDimensionOfANestedPart: of a part in another's opening the doubt is its
// own, where its edges are measured, and the outer's where that one's are.
func TestDimensionOfANestedPart(t *testing.T) {
	for _, inner := range []bool{true, false} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 400, 300)...).Polyline(true, dxftest.Rect(50, 50, 300, 200)...).Polyline(true, dxftest.Rect(100, 100, 150, 80)...)
		if inner {
			b.Dimension(100, 100, 250, 100, 175, 90, 0, 150, "160")
		} else {
			b.Dimension(50, 50, 350, 50, 175, 40, 0, 300, "310")
		}
		s := build(t, b)
		for i := range s.Parts {
			p := &s.Parts[i]
			if odd := doubtOf(p, "reading-doubt") != nil; odd != (inner == (p.Box.Width() < 200)) {
				t.Errorf("inner %v: a part %g wide: %+v", inner, p.Box.Width(), p.Doubts)
			}
		}
	}
}
