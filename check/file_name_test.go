package check_test

import (
	"context"
	"testing"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestFileName: a thickness or a grade that only the file's name speaks of makes
// a part fit with care at best; a text outweighs the name in silence.
func TestFileName(t *testing.T) {
	for _, c := range []struct {
		name, thickness, steel string
		verdict                check.Verdict
		warned                 []string
	}{
		{"part", "10", "S275", check.Fits, nil},
		{"PL12_S355_4pcs", "10", "S275", check.Fits, nil},
		{"PL10_S275_4pcs", "", "", check.WithCare, []string{"thickness-missing", "material-missing"}},
		{"plate_10mm", "", "S275", check.WithCare, []string{"thickness-missing"}},
		{"plate_S275", "10", "", check.WithCare, []string{"material-missing"}},
		{"plate", "", "S275", check.CannotTell, []string{"thickness-missing"}},
	} {
		b := holes(sheetOf(c.thickness, c.steel).Polyline(true, dxftest.Rect(0, 0, 200, 140)...), 22, at{60, 70}, at{140, 70})
		s, err := features.Build(t.Context(), b.Drawing(t), features.Options{Name: c.name})
		if err != nil {
			t.Fatal(err)
		}
		rep, err := check.Run(context.Background(), c.name, s, shop.BuiltIn(), plan.Job{})
		if err != nil {
			t.Fatal(err)
		}
		p := rep.Parts[0]
		var warned []string
		for _, f := range p.Findings {
			if f.Severity == check.Warning {
				warned = append(warned, f.Rule)
			}
		}
		same := len(warned) == len(c.warned)
		for i := range warned {
			same = same && warned[i] == c.warned[i]
		}
		if p.Verdict != c.verdict || !same {
			t.Errorf("%s, %q, %q: %s, warned %v; want %s, %v", c.name, c.thickness, c.steel, p.Verdict, warned, c.verdict, c.warned)
		}
	}
}
