package check

import (
	"context"
	"math"
	"testing"

	"burrside/check/change"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/dxfread/dxftest"
	"burrside/features"
	"burrside/features/geom"
)

// partOf reads the one part of a drawing.
func partOf(t *testing.T, b *dxftest.Builder) *features.Part {
	t.Helper()
	s, err := features.Build(context.Background(), b.Drawing(t), features.Options{Name: "p"})
	if err != nil || len(s.Parts) != 1 {
		t.Fatalf("%v: %d parts", err, len(s.Parts))
	}
	return &s.Parts[0]
}

// A part that was changed is the part that the reader makes of a drawing with the
// change drawn in.
func TestChangedLikeDrawn(t *testing.T) {
	// Outline w x 140 with clipped corners at the right and a notch in the top.
	draw := func(w, nw, nd float64, holes ...[3]float64) *dxftest.Builder {
		b := dxftest.New(dxftest.MM).Layer("CUT").Polyline(true, dxftest.V{X: 0, Y: 0}, dxftest.V{X: w - 20, Y: 0}, dxftest.V{X: w, Y: 20}, dxftest.V{X: w, Y: 120}, dxftest.V{X: w - 20, Y: 140},
			dxftest.V{X: 120 + nw/2, Y: 140}, dxftest.V{X: 120 + nw/2, Y: 140 - nd}, dxftest.V{X: 120 - nw/2, Y: 140 - nd}, dxftest.V{X: 120 - nw/2, Y: 140}, dxftest.V{X: 0, Y: 140})
		for _, h := range holes {
			b.Circle(h[0], h[1], h[2]/2)
		}
		return b
	}
	small := partOf(t, draw(260, 30, 40, [3]float64{40, 60, 22}, [3]float64{200, 60, 22}))
	for name, c := range map[string]struct {
		steps []change.Step
		want  *features.Part
	}{
		"edge out": {[]change.Step{{Kind: change.Edge, Along: geom.Point{X: 1}, ByMM: 3}}, partOf(t, draw(263, 30, 40, [3]float64{40, 60, 22}, [3]float64{200, 60, 22}))},
		"moved":    {[]change.Step{{Kind: change.Move, Features: []string{"H1", "H2"}, By: geom.Point{X: 2, Y: -1}}}, partOf(t, draw(260, 30, 40, [3]float64{42, 59, 22}, [3]float64{202, 59, 22}))},
		"wider":    {[]change.Step{{Kind: change.Pitch, Features: []string{"H1", "H2"}, Along: geom.Point{X: 1}, PitchMM: [2]float64{160, 164}}}, partOf(t, draw(260, 30, 40, [3]float64{38, 60, 22}, [3]float64{202, 60, 22}))},
		"size":     {[]change.Step{{Kind: change.Size, Features: []string{"H1", "H2"}, WidthMM: 24}}, partOf(t, draw(260, 30, 40, [3]float64{40, 60, 24}, [3]float64{200, 60, 24}))},
		"notch":    {[]change.Step{{Kind: change.Notch, Features: []string{"N1"}, WidthMM: 40, DepthMM: 35}}, partOf(t, draw(260, 40, 35, [3]float64{40, 60, 22}, [3]float64{200, 60, 22}))},
	} {
		got, _, _, ok := change.Apply(small, shop.BuiltIn(), plan.Job{}, c.steps)
		if !ok {
			t.Errorf("%s: not carried out", name)
			continue
		}
		if math.Abs(got.AreaMM2-c.want.AreaMM2) > 0.01 || math.Abs(got.PerimeterMM-c.want.PerimeterMM) > 1e-3 || got.Box.Max.Dist(c.want.Box.Max) > 1e-3 || len(got.Features) != len(c.want.Features) {
			t.Errorf("%s: area %g, drawn %g; perimeter %g, drawn %g", name, got.AreaMM2, c.want.AreaMM2, got.PerimeterMM, c.want.PerimeterMM)
			continue
		}
		for i := range got.Features {
			a, b := &got.Features[i], &c.want.Features[i]
			for what, d := range map[string]float64{"place": a.At.Dist(b.At), "diameter": a.DiameterMM - b.DiameterMM, "width": a.WidthMM - b.WidthMM, "length": a.LengthMM - b.LengthMM,
				"cut": a.CutLengthMM - b.CutLengthMM, "depth": a.DepthMM - b.DepthMM, "area": a.AreaMM2 - b.AreaMM2, "perimeter": a.PerimeterMM - b.PerimeterMM, "leg": a.Long[0] - b.Long[0],
				"ends": min(a.From.Dist(b.From)+a.To.Dist(b.To), a.From.Dist(b.To)+a.To.Dist(b.From))} {
				if a.ID != b.ID || a.Kind != b.Kind || math.Abs(d) > 1e-3 {
					t.Errorf("%s: %s %s, drawn %s %s: %s differs by %g", name, a.ID, a.Kind, b.ID, b.Kind, what, d)
				}
			}
		}
	}
}
