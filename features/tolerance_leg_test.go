package features_test

import (
	"slices"
	"testing"

	"burrside/dxfread/dxftest"
)

// A tolerance counts on whichever view or copy of a part it stands: on leg b of
// an angle, which lies elsewhere folded out, and on the second of two equal
// plates.
func TestTolerancesOnEveryView(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	plainViews(b, 0, 0, 400, 75, 50, 6, 18, [][2]float64{{40, 45}, {360, 45}}, [][2]float64{{200, 30}})
	b.Text(0, -60, 5, "L75x50x6 x 400")
	b.Dimension(0, 135, 40, 135, 20, 180, 0, 40, "40 %%p0.3")
	b.Dimension(0, 20, 200, 20, 100, -20, 0, 200, "200 %%p0.2") // leg b, its hole
	b.Dimension(0, 200, 200, 250, 100, 220, 0, 200, "200 %%p0.1")
	s := build(t, b)
	if len(s.Parts) != 1 || s.Parts[0].Angle == nil {
		t.Fatal(describe(s))
	}
	p := &s.Parts[0]
	want := map[float64]string{0.3: "a", 0.2: "b"}
	if len(p.Tolerances) != len(want) {
		t.Errorf("%+v", p.Tolerances)
	}
	for _, tol := range p.Tolerances {
		leg := want[tol.PlusMM]
		for _, f := range p.Features {
			if slices.Contains(tol.Features, f.ID) && (f.Leg != leg || !f.IsInside()) {
				t.Errorf("%+v is of %s in leg %q, want %q", tol, f.ID, f.Leg, leg)
			}
		}
		if len(tol.Features) != 1 {
			t.Errorf("%+v", tol)
		}
	}

	b = dxftest.New(dxftest.MM)
	for _, x := range []float64{0, 300} {
		b.Polyline(true, dxftest.Rect(x, 0, 200, 100)...).Circle(x+60, 50, 9)
	}
	b.Dimension(300, 50, 360, 50, 330, -20, 0, 60, "60 %%p0.2")
	s = build(t, b)
	if len(s.Parts) != 1 || len(s.Parts[0].Tolerances) != 1 || s.Parts[0].Tolerances[0].PlusMM != 0.2 {
		t.Error(describe(s))
	}
}
