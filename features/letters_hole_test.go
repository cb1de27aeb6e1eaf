package features_test

import (
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestCircleInText: a full circle in a line of strokes may be an O or a hole;
// it is not lost without a grave doubt. A full stop is too small for that.
func TestCircleInText(t *testing.T) {
	for _, c := range []struct {
		dia   float64
		grave bool
	}{{10, true}, {1.2, false}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 300, 200)...)
		stroke := func(x float64, xy ...float64) {
			var v []dxftest.V
			for i := 0; i < len(xy); i += 2 {
				v = append(v, dxftest.V{X: 100 + x + xy[i], Y: 100 + xy[i+1]})
			}
			b.Polyline(false, v...)
		}
		stroke(0, 0, 0, 0, 10, 5, 10, 5, 5, 0, 5) // P
		b.Circle(100+8+c.dia/2, 100+c.dia/2, c.dia/2)
		stroke(21, 0, 10, 0, 0, 6, 0)                                            // L
		stroke(30, 6, 10, 0, 10, 0, 5, 4, 5, 0, 5, 0, 0, 6, 0)                   // E
		stroke(39, 6, 9, 5, 10, 1, 10, 0, 9, 0, 6, 6, 4, 6, 1, 5, 0, 1, 0, 0, 1) // S
		stroke(48, 0, 0, 0, 10, 6, 0, 6, 10)                                     // N
		stroke(57, 0, 10, 3, 0, 6, 10)                                           // V
		stroke(66, 0, 10, 6, 10, 0, 0, 6, 0)                                     // Z
		stroke(75, 0, 10, 2, 0, 4, 7, 6, 0, 8, 10)                               // W
		stroke(86, 0, 0, 3, 10, 6, 0)                                            // a Greek L
		p := onePart(t, build(t, b))
		marks, grave := 0, false
		for _, f := range p.Features {
			if f.Kind == features.Mark {
				marks++
			}
		}
		for _, d := range p.Doubts {
			grave = grave || d.Code == "maybe-letter" && d.Grave
		}
		if len(p.Holes) == 0 && grave != c.grave || len(p.Holes) > 0 && !c.grave || marks == 0 {
			t.Errorf("circle of %g mm: %d holes, %d marks, doubts %v", c.dia, len(p.Holes), marks, p.Doubts)
		}
	}
}
