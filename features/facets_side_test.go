package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
)

// roundedChords is a rectangle with rounded corners, each of them drawn as 18
// chords.
func roundedChords(w, h, r float64) []dxftest.V {
	var out []dxftest.V
	for q, c := range [][2]float64{{w - r, r}, {w - r, h - r}, {r, h - r}, {r, r}} {
		for k := 0; k <= 18; k++ {
			s, co := math.Sincos(float64(q-1)*math.Pi/2 + float64(k)*math.Pi/36)
			out = append(out, dxftest.V{X: c[0] + float64(r*co), Y: c[1] + float64(r*s)})
		}
	}
	return out
}

// TestSideBetweenChords: the corners of two small rounded corners drawn as
// chords and of the short side between them lie on one large circle; the side
// stays straight all the same. The sizes are those that were drawn.
func TestSideBetweenChords(t *testing.T) {
	for _, c := range []struct{ w, h, r float64 }{{30, 3, 0.4}, {25, 4, 0.1}, {60, 6, 1}, {8, 8, 0.25}} {
		p := onePart(t, build(t, dxftest.New(dxftest.MM).Polyline(true, roundedChords(c.w, c.h, c.r)...)))
		if math.Abs(p.Box.Width()-c.w) > 1e-3 || math.Abs(p.Box.Height()-c.h) > 1e-3 {
			t.Errorf("%g x %g with corners of radius %g: the box is %.4f x %.4f", c.w, c.h, c.r, p.Box.Width(), p.Box.Height())
		}
		arcs, lines := 0, 0
		for _, e := range p.Outline {
			if e.IsArc() {
				arcs++
				if math.Abs(e.Radius-c.r) > 0.01 {
					t.Errorf("%g x %g with corners of radius %g: an arc of radius %.4f", c.w, c.h, c.r, e.Radius)
				}
			} else {
				lines++
			}
		}
		if arcs != 4 || lines != 4 {
			t.Errorf("%g x %g with corners of radius %g: %d arcs and %d lines", c.w, c.h, c.r, arcs, lines)
		}
	}
}
