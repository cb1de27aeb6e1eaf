package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// A bend line in dashes that stops at a hole and goes on behind it is one bend,
// however the plate is turned: a circle begins at its right, where the first
// dash may end by chance.
func TestDashesFromHole(t *testing.T) {
	for _, off := range []float64{0, 1e-4, 0.3} {
		for _, deg := range []float64{0, 37, 90, 143, 180} {
			b := dxftest.New(dxftest.MM)
			sin, cos := math.Sincos(deg * math.Pi / 180)
			at := func(x, y float64) (float64, float64) { return 500 + x*cos - y*sin, 300 + x*sin + y*cos }
			line := func(x0, y0, x1, y1 float64) {
				p, q := at(x0, y0)
				r, s := at(x1, y1)
				b.Line(p, q, r, s)
			}
			line(0, 0, 300, 0)
			line(300, 0, 300, 120)
			line(300, 120, 0, 120)
			line(0, 120, 0, 0)
			x, y := at(100, 60)
			b.Circle(x, y, 11)
			for x := 111 + off; x < 300; x += 12.5 {
				line(x, 60, min(x+10, 300), 60)
			}
			for x := 89 - off; x > 0; x -= 12.5 {
				line(x, 60, max(x-10, 0), 60)
			}
			s := build(t, b)
			if len(s.Parts) != 1 {
				t.Fatal(describe(s))
			}
			bends, doubts := 0, 0
			for _, f := range s.Parts[0].Features {
				if f.Kind == features.Bend && math.Abs(f.LengthMM-300) < 0.01 {
					bends++
				}
			}
			for _, d := range s.Parts[0].Doubts {
				if d.Code == "reading-doubt" {
					doubts++
				}
			}
			if bends != 1 || doubts != 0 {
				t.Errorf("%g mm off the hole, turned by %g: %d bends, %d doubts\n%s", off, deg, bends, doubts, describe(s))
			}
		}
	}
}
