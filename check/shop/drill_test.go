package shop

import (
	"strings"
	"testing"
)

// A drill of which the file says no more than that it is there does not drill any
// diameter: a magnetic drill's cutters reach about 50 mm (common practice, no
// source). What the file says goes before.
func TestDrillHasALimit(t *testing.T) {
	base := "name = \"S\"\nunits = \"mm\"\n[[machine]]\nname = \"m\"\n[machine.shear]\nblade = \"300 mm\"\nrows = [ { thickness = \"10 mm\", cut = \"200 mm\" } ]\n"
	for text, want := range map[string]float64{"": 50, "[also]\ndrill = true\n": 50, "[also]\ndrill = { max_diameter = \"80 mm\" }\n": 80} {
		p, err := Load(strings.NewReader(base+text), "s.toml")
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if q := p.Process("drill"); !q.Have || q.MaxDiameterMM != want {
			t.Errorf("%q: %+v, want up to %g mm", text, q, want)
		}
	}
}
