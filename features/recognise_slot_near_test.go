package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestNearSlot: slots whose sides run past the ends, whose ends are a little off
// or are drawn as chords are slots of the size that was meant; an ellipse, a
// rounded rectangle and a slot one of whose ends is flat are none.
func TestNearSlot(t *testing.T) {
	plate := func() *dxftest.Builder {
		return dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 100, 60)...)
	}
	var chords []dxftest.V
	for k := 0; k <= 24; k++ {
		s, c := math.Sincos((float64(k)/12 - 0.5) * math.Pi)
		x := 40.0
		if k > 12 || k == 12 {
			x = 20
		}
		chords = append(chords, dxftest.V{X: x + float64(5*c), Y: 25 + float64(5*s)})
		if k == 12 { // the end of the first half, before the side
			chords[len(chords)-1].X = 40 + float64(5*c)
			chords = append(chords, dxftest.V{X: 20 + float64(5*c), Y: 25 + float64(5*s)})
		}
	}
	for name, c := range map[string]struct {
		b       *dxftest.Builder
		w, l    float64
		notSlot bool
	}{
		"sides too long":     {b: plate().Line(19.95, 23.4, 40.05, 23.4).Line(40.05, 26.6, 19.95, 26.6).Arc(40, 25, 1.6, -90, 90).Arc(20, 25, 1.6, 90, 270), w: 3.2, l: 23.2},
		"a few hundredths":   {b: plate().Line(20.01, 20.02, 40, 20).Line(39.98, 30, 20, 29.985).Arc(40.01, 25, 5, -90, 90).Arc(20, 25.01, 5, 90, 270), w: 10, l: 30},
		"chords":             {b: plate().Polyline(true, chords...), w: 10, l: 30},
		"an ellipse":         {b: plate().Ellipse(30, 30, 15, 0, 1.0/3, 0, 2*math.Pi), notSlot: true},
		"a rounded opening":  {b: plate().Polyline(true, dxftest.V{X: 24, Y: 20}, dxftest.V{X: 36, Y: 20, Bulge: 0.41421356}, dxftest.V{X: 40, Y: 24}, dxftest.V{X: 40, Y: 26, Bulge: 0.41421356}, dxftest.V{X: 36, Y: 30}, dxftest.V{X: 24, Y: 30, Bulge: 0.41421356}, dxftest.V{X: 20, Y: 26}, dxftest.V{X: 20, Y: 24, Bulge: 0.41421356}), notSlot: true},
		"one end is flat":    {b: plate().Polyline(true, dxftest.V{X: 20, Y: 20}, dxftest.V{X: 40, Y: 20, Bulge: 1}, dxftest.V{X: 40, Y: 30}, dxftest.V{X: 20, Y: 30}), notSlot: true},
		"a side bulges 0.15": {b: plate().Polyline(true, dxftest.V{X: 20, Y: 20, Bulge: 0.015}, dxftest.V{X: 40, Y: 20, Bulge: 1}, dxftest.V{X: 40, Y: 30}, dxftest.V{X: 20, Y: 30, Bulge: 1}), notSlot: true},
	} {
		p := onePart(t, build(t, c.b))
		var slots []features.Feature
		for _, f := range p.Features {
			if f.Kind == features.Slot {
				slots = append(slots, f)
			}
		}
		switch {
		case c.notSlot && len(slots) > 0:
			t.Errorf("%s: a slot of %.3f x %.3f", name, slots[0].WidthMM, slots[0].LengthMM)
		case c.notSlot:
		case len(slots) != 1:
			t.Errorf("%s: no slot\n%s", name, p.Name)
		case math.Abs(slots[0].WidthMM-c.w) > 0.04 || math.Abs(slots[0].LengthMM-c.l) > 0.06:
			t.Errorf("%s: a slot of %.3f x %.3f, meant %g x %g", name, slots[0].WidthMM, slots[0].LengthMM, c.w, c.l)
		}
	}
}
