package section

import (
	"math"
	"testing"
)

// Sizes without a unit are the drawing's, unless no angle has them in it.
func TestDrawingUnitSettlesSizes(t *testing.T) {
	for _, c := range []struct {
		text, drawing  string
		leg, t, length float64 // mm
		unit           string
	}{
		{"L75x75x8 x 1200", "mm", 75, 8, 1200, "mm"},
		{"L75x75x8 x 1200", "in", 75, 8, 1200, "mm"},
		{"L75x75x8 x 1200", "m", 75, 8, 1200, "mm"},
		{"L75x75x8 x 1200", "", 75, 8, 1200, "mm"},
		{"L3x3x.25 x 18", "in", 76.2, 6.35, 457.2, "in"},
		{"L3x3x.25 x 18", "mm", 76.2, 6.35, 457.2, "in"},
		{"L3x3x.25 x 18", "", 76.2, 6.35, 457.2, "in"},
		{"L3x3x1/4 x 18", "mm", 76.2, 6.35, 457.2, "in"},
		{"ANGLE 7.5x7.5x0.8 x 120", "cm", 75, 8, 1200, "mm"},
		{"L 82x82x4", "in", 82, 4, 0, "mm"}, // not listed
		{"L 82x82x4", "mm", 82, 4, 0, "mm"},
		{"ANGLE 400x400x6", "in", 400, 6, 0, "mm"},
	} {
		list := Mentions(c.text)
		if len(list) != 1 {
			t.Errorf("%q: %+v", c.text, list)
			continue
		}
		m := list[0].In(c.drawing)
		for i, got := range []float64{m.LegMM[0], m.ThicknessMM, m.LengthMM} {
			if want := []float64{c.leg, c.t, c.length}[i]; math.Abs(got-want) > 1e-6 {
				t.Errorf("%q in %q: %+v, want %v", c.text, c.drawing, m, c)
			}
		}
		if m.Unit != c.unit {
			t.Errorf("%q in %q: unit %q, want %q", c.text, c.drawing, m.Unit, c.unit)
		}
	}
}
