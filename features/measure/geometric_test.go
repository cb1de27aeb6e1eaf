package measure

import "testing"

// Characteristics of ISO 1101; the wordings are common practice, no source.
func TestGeometricTolerance(t *testing.T) {
	for text, want := range map[string]struct {
		kind string
		mm   float64
	}{
		"FLATNESS 0.5": {"flatness", .5}, "FLATNESS 0.5 | A": {"flatness", .5}, "position Ø0.2 | A | B": {"position", .2}, "TRUE POSITION DIA 0.4": {"position", .4}, "STRAIGHTNESS WITHIN 1": {"straightness", 1}, "perpendicularity 0.1 | A": {"perpendicularity", .1}, "Ebenheit 0,3": {"flatness", .3}, "FLATNESS TOL 1/16\"": {"flatness", 1.5875},
		"": {}, "POSITION": {}, "POSITION 12": {}, "HOLE POSITION ±0.1": {}, "POSITION OF HOLES 0.2": {}, "FLATNESS 0.5 POSITION 0.2": {}, "PROFILE": {}, "SYMMETRY AXIS": {}, "POSITION 2 x 50": {"position", 2},
	} {
		kind, zone, ok := GeometricTolerance(text)
		mm := zone.MM
		if zone.Fraction && zone.Unit == "" {
			mm *= 25.4
		}
		if kind != want.kind || ok != (kind != "") || mm-want.mm > 1e-9 || want.mm-mm > 1e-9 {
			t.Errorf("GeometricTolerance(%q) = %q, %+v, %v", text, kind, zone, ok)
		}
		if _, isCall := HoleCallOut(text); isCall && kind != "" {
			t.Errorf("%q is read as a call-out of holes", text)
		}
	}
	if c, ok := HoleCallOut("2x Ø22 POSITION 0.2"); ok && c.Diameter.MM != 22 {
		t.Errorf("the hole is not read: %+v", c)
	}
}
