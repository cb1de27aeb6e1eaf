package section

import (
	"math"
	"testing"
)

func TestGauges(t *testing.T) {
	for _, c := range []struct {
		legMM               float64
		units               string
		one, first, second  float64
		oneBolt, twoMaxBolt float64
	}{
		// AISC Steel Construction Manual, Table 1-7A, in inches.
		{3 * 25.4, "in", 1.75 * 25.4, 0, 0, 0, 0},
		{4 * 25.4, "in", 2.5 * 25.4, 0, 0, 0, 0},
		{5 * 25.4, "in", 3 * 25.4, 2 * 25.4, 1.75 * 25.4, 0, 0},
		{8 * 25.4, "in", 4.5 * 25.4, 3 * 25.4, 3 * 25.4, 0, 0},
		{76, "in", 1.75 * 25.4, 0, 0, 0, 0},
		// CISC Handbook of Steel Construction, p. 6-168.
		{75, "mm", 45, 0, 0, 24, 0},
		{125, "mm", 80, 45, 54, 30, 20},
		{200, "mm", 115, 80, 80, 36, 30},
		{76, "mm", 45, 0, 0, 24, 0},
	} {
		g, ok := Gauges(c.legMM, c.units)
		if !ok || g.Source == "" {
			t.Errorf("%v %s: none", c.legMM, c.units)
			continue
		}
		got := []float64{g.OneLineMM, g.FirstMM, g.SecondMM, g.OneMaxBoltMM, g.TwoMaxBoltMM}
		for i, want := range []float64{c.one, c.first, c.second, c.oneBolt, c.twoMaxBolt} {
			if math.Abs(got[i]-want) > 1e-6 {
				t.Errorf("%v %s: %v, want %v at %d", c.legMM, c.units, got, want, i)
			}
		}
	}
	for _, c := range []struct {
		legMM float64
		units string
	}{{77.1, "mm"}, {70, "mm"}, {76.2, ""}, {0, "mm"}, {math.NaN(), "in"}, {77.3, "in"}} {
		if g, ok := Gauges(c.legMM, c.units); ok {
			t.Errorf("%v %s: %+v", c.legMM, c.units, g)
		}
	}
}

// Every line of holes lies on the flat of its leg: that is what makes SecondMM
// a distance from the first line and not from the heel.
func TestGaugeLinesLieInTheLeg(t *testing.T) {
	for _, g := range append(usualGages(), handbookGauges()...) {
		if !(g.OneLineMM > g.LegMM/3 && g.OneLineMM < 0.75*g.LegMM) {
			t.Errorf("leg %v: one line at %v", g.LegMM, g.OneLineMM)
		}
		if g.FirstMM == 0 {
			continue
		}
		if toe := g.LegMM - g.FirstMM - g.SecondMM; toe < 24 || g.SecondMM < 40 {
			t.Errorf("leg %v: lines at %v and %v more, %v to the toe", g.LegMM, g.FirstMM, g.SecondMM, toe)
		}
	}
}
