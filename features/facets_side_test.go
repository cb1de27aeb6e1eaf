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

// TestTeethAreNoCircle: a wheel of low teeth whose every corner lies within a
// hundredth of a circle keeps its teeth, whatever the unit may be.
func TestTeethAreNoCircle(t *testing.T) {
	for _, size := range []float64{1.7, 43} {
		var teeth []dxftest.V
		for k := range 72 {
			r := size / 2
			if k%4 >= 2 {
				r *= 0.985
			}
			s, c := math.Sincos(float64(k) * math.Pi / 36)
			teeth = append(teeth, dxftest.V{X: float64(r * c), Y: float64(r * s)})
		}
		p := onePart(t, build(t, dxftest.New(dxftest.NoUnit).Polyline(true, teeth...)))
		if len(p.Outline) < 36 {
			t.Errorf("a wheel of %g: %d edges are left of 72", size, len(p.Outline))
		}
	}
}

// TestCurveOfUnknownUnit: a curve of a drawing that does not say its unit keeps
// its shape: here an ellipse of 3 x 2, whose box is known.
func TestCurveOfUnknownUnit(t *testing.T) {
	p := onePart(t, build(t, dxftest.New(dxftest.NoUnit).Ellipse(0, 0, 1.5, 0, 2.0/3, 0, 2*math.Pi)))
	// On the circles of arcs within 2e-4 of the size; 0.01 mm would pass 3e-3.
	if math.Abs(p.Box.Width()-3) > 1.3e-3 || math.Abs(p.Box.Height()-2) > 1.3e-3 || math.Abs(p.AreaMM2-1.5*math.Pi) > 2e-3 {
		t.Errorf("%.5f x %.5f, area %.5f", p.Box.Width(), p.Box.Height(), p.AreaMM2)
	}
}

// TestRadiusAsDrawn: corners of exactly 0.1 mm stay, wherever the part lies.
func TestRadiusAsDrawn(t *testing.T) {
	for _, at := range []float64{0, 1e6, 12345.678} {
		b := dxftest.New(dxftest.MM)
		x, y, w, r := at, -at, 20.0, 0.1
		k := math.Sqrt2 - 1
		b.Polyline(true, dxftest.V{X: x + r, Y: y}, dxftest.V{X: x + w - r, Y: y, Bulge: k}, dxftest.V{X: x + w, Y: y + r}, dxftest.V{X: x + w, Y: y + w - r, Bulge: k},
			dxftest.V{X: x + w - r, Y: y + w}, dxftest.V{X: x + r, Y: y + w, Bulge: k}, dxftest.V{X: x, Y: y + w - r}, dxftest.V{X: x, Y: y + r, Bulge: k})
		if p := onePart(t, build(t, b)); len(p.Outline) != 8 {
			t.Errorf("at %g: %d edges, 8 drawn", at, len(p.Outline))
		}
	}
}
