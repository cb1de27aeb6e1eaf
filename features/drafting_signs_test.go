package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
)

// TestDraftingSigns: a plate of 200 x 120 with a dimension, and signs by it.
func TestDraftingSigns(t *testing.T) {
	needle := func(b *dxftest.Builder) *dxftest.Builder {
		return b.Circle(300, 60, 15).Polyline(true, dxftest.V{X: 300, Y: 75}, dxftest.V{X: 294, Y: 48}, dxftest.V{X: 300, Y: 54}, dxftest.V{X: 306, Y: 48})
	}
	triangle := func(b *dxftest.Builder, x, y, k float64) *dxftest.Builder {
		return b.Polyline(true, dxftest.V{X: x, Y: y}, dxftest.V{X: x + 3*k, Y: y + 5.2*k}, dxftest.V{X: x - 3*k, Y: y + 5.2*k})
	}
	for name, c := range map[string]struct {
		draw  func(*dxftest.Builder) *dxftest.Builder
		sign  string
		parts int
	}{
		"a north arrow":          {func(b *dxftest.Builder) *dxftest.Builder { return needle(b).Text(298, 78, 5, "N") }, "north arrow", 1},
		"no letter":              {needle, "", 2},
		"a disc with an N by it": {func(b *dxftest.Builder) *dxftest.Builder { return b.Circle(300, 60, 15).Text(298, 78, 5, "N") }, "", 2},
		"a measured one": {func(b *dxftest.Builder) *dxftest.Builder {
			return needle(b).Text(298, 78, 5, "N").Dimension(285, 60, 315, 60, 300, 90, 0, 30, "")
		}, "", 2},
		"a sign on the edge":          {func(b *dxftest.Builder) *dxftest.Builder { return triangle(b, 100, 120, 1) }, "triangle", 1},
		"one more elsewhere":          {func(b *dxftest.Builder) *dxftest.Builder { return triangle(triangle(b, 100, 120, 1), 300, 60, 1) }, "triangle", 1},
		"a triangle away from it":     {func(b *dxftest.Builder) *dxftest.Builder { return triangle(b, 300, 60, 1) }, "", 2},
		"a large one with its tip on": {func(b *dxftest.Builder) *dxftest.Builder { return triangle(b, 100, 120, 10) }, "", 2},
	} {
		b := dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Circle(40, 60, 9).Circle(160, 60, 9)
		b.Dimension(0, 0, 200, 0, 100, -15, 0, 200, "").Text(0, -40, 5, "t=10").Text(0, -50, 5, "BREAK EDGES")
		s := build(t, c.draw(b))
		if len(s.Parts) != c.parts || saysSign(s, "triangle") != (c.sign == "triangle") || saysSign(s, "north arrow") != (c.sign == "north arrow") {
			t.Errorf("%s: %d parts\n%s", name, len(s.Parts), describe(s))
		}
	}
}
