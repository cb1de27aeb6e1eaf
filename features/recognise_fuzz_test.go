package features

import (
	"math"
	"testing"

	"burrside/features/geom"
)

// ringOfBytes makes a closed ring of any bytes: three of them a vertex, on a
// grid of 0.25 mm so that lines of one line, touches and repeated vertices are
// frequent; the third is a bulge, mostly 0. Two bytes at the start choose a
// shift and turn that make numbers crooked.
func ringOfBytes(data []byte) geom.Ring {
	if len(data) < 2 {
		return nil
	}
	turn := float64(data[0]) / 40
	scale := math.Ldexp(1, int(data[1]%24)-12)
	s, c := math.Sincos(turn)
	var v []pt
	for data = data[2:]; len(data) >= 3 && len(v) < 400; data = data[3:] {
		x, y := scale*float64(int8(data[0]))/4, scale*float64(int8(data[1]))/4
		b := 0.0
		switch k := int8(data[2]); {
		case k > 100:
			b = 1
		case k < -100:
			b = -1
		case k > 60 || k < -60:
			b = float64(k) / 80
		}
		v = append(v, pt{c*x - s*y, s*x + c*y, b})
	}
	if len(v) < 2 {
		return nil
	}
	return ringOf(v...)
}

// FuzzRecognise reads arbitrary rings: no panic, every edge owned once, no
// number that is not finite, and the same kinds from the reversed ring's edges.
func FuzzRecognise(f *testing.F) {
	f.Add([]byte{0, 12, 0, 0, 0, 100, 0, 0, 100, 100, 0, 0, 100, 0})
	f.Add([]byte{7, 12, 0, 0, 0, 40, 0, 0, 40, 20, 0, 60, 20, 0, 60, 0, 0, 100, 0, 0, 100, 100, 0, 0, 100, 0})
	f.Add([]byte{7, 12, 0, 0, 120, 40, 0, 120})
	f.Add([]byte{9, 3, 0, 0, 0, 40, 0, 70, 40, 20, 156, 60, 20, 0, 60, 0, 0, 0, 0, 0, 100, 100, 0, 0, 100, 0})
	f.Fuzz(func(t *testing.T, data []byte) {
		r := ringOfBytes(data)
		for _, x := range []geom.Ring{r, r.Reverse()} {
			fs := recogniseOutline(x)
			if msg := ownedOnce(fs, len(x)) + notchSound(fs, x); msg != "" {
				t.Fatal(msg)
			}
			for i := range fs {
				finite(t, &fs[i])
			}
			g := recogniseInside(x)
			finite(t, &g)
		}
	})
}

func finite(t *testing.T, f *Feature) {
	t.Helper()
	for _, v := range []float64{f.At.X, f.At.Y, f.WidthMM, f.LengthMM, f.DepthMM, f.CutLengthMM, f.DiameterMM, f.RadiusMM, f.SweepRad, f.AngleRad,
		f.IncludedRad, f.BottomMM, f.CornerRadiusMM, f.AcrossFlatsMM, f.AreaMM2, f.PerimeterMM, f.Long[0], f.Long[1]} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%s has a number that is none", showFeature(f))
		}
	}
}

// TestHostileRings: no coordinates at all, not finite ones, zero-length rings.
func TestHostileRings(t *testing.T) {
	nan := math.NaN()
	huge := math.MaxFloat64
	rings := []geom.Ring{nil, {}, {geom.LineEdge(geom.Point{}, geom.Point{})}, pointsRing(0, 0, 0, 0, 0, 0), pointsRing(0, 0, nan, 0, 1, 1),
		pointsRing(0, 0, huge, 0, huge, huge), pointsRing(0, 0, 1, 0), pointsRing(0, 0, 1e-9, 0, 0, 1e-9), pointsRing(1e300, 0, -1e300, 5, 0, 7),
		{geom.CircleEdge(geom.Point{}, 1e-12)}, {geom.CircleEdge(geom.Point{X: nan}, 5)}, {geom.CircleEdge(geom.Point{}, math.Inf(1))}}
	for i, r := range rings {
		fs := recogniseOutline(r)
		if msg := ownedOnce(fs, len(r)); msg != "" {
			t.Errorf("ring %d: %s", i, msg)
		}
		if f := recogniseInside(r); f.Kind == "" {
			t.Errorf("ring %d: no kind", i)
		}
	}
}
