package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
)

// TestScaledTwins: a clipped plate of 100 x 60 with three holes, and one larger.
func TestScaledTwins(t *testing.T) {
	clipped := func(b *dxftest.Builder, x, y, k float64) *dxftest.Builder {
		b.Polyline(true, dxftest.V{X: x, Y: y}, dxftest.V{X: x + 100*k, Y: y}, dxftest.V{X: x + 100*k, Y: y + 40*k}, dxftest.V{X: x + 80*k, Y: y + 60*k}, dxftest.V{X: x, Y: y + 60*k})
		return b.Circle(x+20*k, y+20*k, 9*k).Circle(x+80*k, y+20*k, 9*k).Circle(x+20*k, y+45*k, 6*k)
	}
	ring := func(b *dxftest.Builder, x, y, k float64) *dxftest.Builder {
		return b.Circle(x+50*k, y+50*k, 50*k).Circle(x+50*k, y+50*k, 20*k)
	}
	plain := func(b *dxftest.Builder, x, y, k float64) *dxftest.Builder {
		return b.Polyline(true, dxftest.Rect(x, y, 100*k, 60*k)...)
	}
	note := func(b *dxftest.Builder) *dxftest.Builder { return b.Text(0, -200, 5, "BREAK ALL EDGES") }
	const none, mild, grave = 0, 1, 2
	for name, c := range map[string]struct {
		draw  func(*dxftest.Builder, float64, float64, float64) *dxftest.Builder
		k     float64
		more  func(*dxftest.Builder) *dxftest.Builder
		doubt int
	}{
		"twice as large":            {clipped, 2, note, grave},
		"five times":                {clipped, 5, note, grave},
		"half":                      {clipped, 0.5, note, grave},
		"no ratio of scales":        {clipped, 1.7, note, none},
		"nearly twice":              {clipped, 2.01, note, none},
		"nothing but lines: a nest": {clipped, 2, nil, none},
		"rectangles without holes":  {plain, 2, note, none},
		"rings come in many sizes":  {ring, 2, note, none},
		"marked each":               {clipped, 2, func(b *dxftest.Builder) *dxftest.Builder { return b.Text(20, -12, 5, "P1").Text(320, -12, 5, "P2") }, none},
		"one marked":                {clipped, 2, func(b *dxftest.Builder) *dxftest.Builder { return b.Text(20, -12, 5, "P1") }, mild},
		"marked each, one with a scale": {clipped, 2, func(b *dxftest.Builder) *dxftest.Builder {
			return b.Text(20, -12, 5, "P1").Text(320, -12, 5, "P2").Text(320, -22, 5, "SCALE 2:1")
		}, grave},
		"measured each": {clipped, 2, func(b *dxftest.Builder) *dxftest.Builder {
			return b.Dimension(0, 0, 100, 0, 50, -10, 0, 100, "").Dimension(300, 0, 500, 0, 400, -10, 0, 200, "")
		}, none},
		"of two thicknesses": {clipped, 2, func(b *dxftest.Builder) *dxftest.Builder { return b.Text(30, 30, 5, "t=8").Text(360, 60, 5, "t=10") }, none},
	} {
		b := c.draw(c.draw(dxftest.New(dxftest.MM), 0, 0, 1), 300, 0, c.k)
		if c.more != nil {
			c.more(b)
		}
		s := build(t, b)
		if len(s.Parts) != 2 {
			t.Errorf("%s: %d parts", name, len(s.Parts))
			continue
		}
		for i := range s.Parts {
			got := none
			if d := doubtOf(&s.Parts[i], "maybe-twice"); d != nil {
				if got = mild; d.Grave {
					got = grave
				}
			}
			if got != c.doubt {
				t.Errorf("%s: doubt %d, want %d\n%s", name, got, c.doubt, describe(s))
			}
		}
	}
	// One of another shape, two holes of which are moved.
	b := note(clipped(dxftest.New(dxftest.MM), 0, 0, 1))
	b.Polyline(true, dxftest.V{X: 300, Y: 0}, dxftest.V{X: 500, Y: 0}, dxftest.V{X: 500, Y: 80}, dxftest.V{X: 460, Y: 120}, dxftest.V{X: 300, Y: 120}).Circle(340, 50, 18).Circle(460, 50, 18).Circle(340, 90, 12)
	if s := build(t, b); len(s.Parts) != 2 || doubtOf(&s.Parts[0], "maybe-twice") != nil {
		t.Errorf("holes at other places:\n%s", describe(s))
	}
}
