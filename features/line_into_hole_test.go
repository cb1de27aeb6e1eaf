package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
)

// A line from the edge to the middle of a hole, or from a hole into the metal, may
// be a slit: it is doubted, though part of it lies in the hole.
func TestLineIntoHole(t *testing.T) {
	for name, c := range map[string]struct {
		to   []dxftest.V
		r    float64
		want bool
	}{
		"from the edge":       {[]dxftest.V{{X: 200, Y: 100}, {X: 170, Y: 110}}, 9, true},
		"into a small hole":   {[]dxftest.V{{X: 200, Y: 100}, {X: 170, Y: 110}}, 2.5, true},
		"on through the hole": {[]dxftest.V{{X: 200, Y: 100}, {X: 170, Y: 110}, {X: 120, Y: 110}}, 9, true},
		"within the hole":     {[]dxftest.V{{X: 166, Y: 110}, {X: 174, Y: 112}}, 9, false},
	} {
		b := dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Circle(170, 110, c.r).Text(0, -40, 5, "PL 10 S275JR")
		for i := range c.to[1:] {
			b.Line(c.to[i].X, c.to[i].Y, c.to[i+1].X, c.to[i+1].Y)
		}
		s := build(t, b)
		if grave(onePart(t, s)) != c.want {
			t.Errorf("%s: %s", name, describe(s))
		}
	}
}
