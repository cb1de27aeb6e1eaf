package measure

import (
	"math"
	"testing"
)

// Galvanised and stainless gauges in inches as printed in Machinery's Handbook
// and by sheet dealers (from memory); four decimals, so half of the last is
// allowed.
func TestGaugeThickness(t *testing.T) {
	for metal, table := range map[string]map[int]float64{
		GaugeSteel:      {3: .2391, 7: .1793, 10: .1345, 11: .1196, 12: .1046, 14: .0747, 16: .0598, 18: .0478, 20: .0359, 22: .0299, 24: .0239, 26: .0179, 30: .0120},
		GaugeGalvanised: {8: .1681, 10: .1382, 11: .1233, 12: .1084, 14: .0785, 16: .0635, 18: .0516, 20: .0396, 22: .0336, 24: .0276, 26: .0217, 28: .0187},
		GaugeStainless:  {7: .1875, 8: .1719, 10: .1406, 11: .1250, 12: .1094, 14: .0781, 16: .0625, 18: .0500, 20: .0375, 22: .0312, 24: .0250, 26: .0188},
	} {
		for n, in := range table {
			if mm, ok := GaugeThickness(n, metal); !ok || math.Abs(mm/25.4-in) > 0.5001e-4 {
				t.Errorf("%s %d: %.5f in, %v; want %.4f", metal, n, mm/25.4, ok, in)
			}
		}
	}
	for _, c := range []struct {
		n     int
		metal string
	}{{2, GaugeSteel}, {31, GaugeSteel}, {7, GaugeGalvanised}, {10, "aluminium"}, {10, ""}, {0, GaugeStainless}, {-1, GaugeGalvanised}} {
		if mm, ok := GaugeThickness(c.n, c.metal); ok {
			t.Errorf("%d %q: %g", c.n, c.metal, mm)
		}
	}
	for text, want := range map[string]string{
		"16 GA GALV": GaugeGalvanised, "10 GA CRS": GaugeSteel, "12 GA HRPO": GaugeSteel, "16 GA SS": GaugeStainless, "11 GA A36": GaugeSteel, "14 GA 304 SS": GaugeStainless, "AISI 304": GaugeStainless, "1.4301": GaugeStainless, "S275": GaugeSteel, "MILD STEEL": GaugeSteel, "GALVANIZED STEEL": GaugeGalvanised, "S275 GALVANISED": GaugeGalvanised,
		"10 GA": "", "6061-T6": "", "ALUMINUM": "", "": "",
	} {
		if got := GaugeMetal(text); got != want {
			t.Errorf("GaugeMetal(%q) = %q, want %q", text, got, want)
		}
	}
}
