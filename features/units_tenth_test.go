package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
)

// TestTenthOfTheSizeIsDoubted: a drawing in centimetres under a header that says
// millimetres gives a plate of 60 x 40 that may be meant. Where a dimension, a
// call-out or a plate's size says otherwise the unit is not sure; where all of
// them agree with the header, it is.
func TestTenthOfTheSizeIsDoubted(t *testing.T) {
	plate := func() *dxftest.Builder {
		return dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 60, 40)...).Circle(10, 10, 0.9).Circle(50, 10, 0.9)
	}
	for name, c := range map[string]struct {
		b     *dxftest.Builder
		doubt bool
	}{
		"nothing speaks":          {plate(), false},
		"a dimension typed over":  {plate().Dimension(0, 0, 60, 0, 30, -10, 0, 60, "600"), true},
		"a dimension of holes":    {plate().Dimension(10, 10, 50, 10, 30, 20, 0, 40, "400 CTRS"), true},
		"a call-out":              {plate().Text(70, 20, 2, "2x Ø18"), true},
		"a call-out with a unit":  {plate().Text(70, 20, 2, "2 HOLES Ø18 mm"), true},
		"a plate's size":          {plate().Text(70, 20, 2, "PL 10 x 400 x 600"), true},
		"a plate's size, mm":      {plate().Text(70, 20, 2, "PL 10 x 400 mm x 600 mm"), true},
		"dimensions that agree":   {plate().Dimension(0, 0, 60, 0, 30, -10, 0, 60, ""), false},
		"a call-out that agrees":  {plate().Text(70, 20, 2, "2x Ø1.8"), false},
		"a text that is no width": {plate().Text(70, 20, 2, "DRG NO 600"), false},
	} {
		s := build(t, c.b)
		d := doubtOf(onePart(t, s), "reading-doubt") // what a dimension says is said of the part
		if doubt := s.Units.Doubt || d != nil && d.Grave; doubt != c.doubt {
			t.Errorf("%s: unit %s from %s, doubted %v (%s), wanted %v; %v", name, s.Units.Name, s.Units.From, s.Units.Doubt, s.Units.Other, c.doubt, s.Units.Evidence)
		}
	}
	// Two that agree tell a scale: in whichever way it came about, the sizes are
	// those that they say.
	b := plate().Dimension(0, 0, 60, 0, 30, -10, 0, 60, "600").Dimension(0, 0, 0, 40, -10, 20, 90, 40, "400")
	if p := onePart(t, build(t, b)); !close(p.Box.Width(), 600, 1e-6) || !close(p.Box.Height(), 400, 1e-6) || p.Scale.Ratio != "1:10" {
		t.Errorf("two dimensions typed: %g x %g, %+v", p.Box.Width(), p.Box.Height(), p.Scale)
	}
}
