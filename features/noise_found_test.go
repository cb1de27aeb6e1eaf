package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestHeightsThatAreNoise: heights of a hundred thousandth of a unit, which
// happen to make a plane that leans, do not turn the drawing: its box is the one
// that was drawn.
func TestHeightsThatAreNoise(t *testing.T) {
	for _, lean := range []float64{1e-6, 1e-4, 5e-3} {
		b := dxftest.New(dxftest.Inch)
		z := func(x, y float64) float64 { return lean * (0.3*x + y) }
		at := [][2]float64{{0, 0}, {5, 0}, {5, 3}, {4, 3}, {4, 2}, {0, 2}}
		for i, p := range at {
			q := at[(i+1)%len(at)]
			b.Line3(p[0], p[1], z(p[0], p[1]), q[0], q[1], z(q[0], q[1]))
		}
		p := onePart(t, build(t, b))
		if math.Abs(p.Box.Width()-127) > 0.01 || math.Abs(p.Box.Height()-76.2) > 0.01 {
			t.Errorf("a lean of %g: %.4f x %.4f, drawn 127 x 76.2", lean, p.Box.Width(), p.Box.Height())
		}
	}
}

// TestHolesDrawnTwiceAreNoLetters: a row of holes of slightly different sizes,
// a gauge for drills, stays holes when every one is drawn twice, and so do
// openings whose chords miss each other by a few micrometres.
func TestHolesDrawnTwiceAreNoLetters(t *testing.T) {
	b := dxftest.New(dxftest.MM).Polyline(true, dxftest.Rect(0, 0, 50, 50)...)
	for range 2 {
		for k := range 4 {
			b.Circle(8+11*float64(k), 12, 2+0.04*float64(k)).Circle(8+11*float64(k), 30, 3+0.04*float64(k))
		}
	}
	// Ovals without straight sides, of chords with gaps of 3 micrometres.
	for k := range 4 {
		x := 8 + 11*float64(k)
		for i := range 48 {
			s0, c0 := math.Sincos(float64(i) * math.Pi / 24)
			s1, c1 := math.Sincos(float64(i+1) * math.Pi / 24)
			b.Line(x+2.5*c0+0.003, 42+4*s0, x+2.5*c1, 42+4*s1)
		}
	}
	p := onePart(t, build(t, b))
	holes := 0
	for _, f := range p.Features {
		if f.Kind == features.RoundHole {
			holes++
		}
		if f.Kind == features.Mark {
			t.Errorf("a mark: %s", f.Note)
		}
	}
	if holes != 8 || len(p.Holes) != 12 {
		t.Errorf("%d round holes of 8, %d openings of 12", holes, len(p.Holes))
	}
}

// TestCombWithGaps: a plate with a comb of equal teeth, every corner of it open
// by a little, is a plate: its teeth, equal lines with equal gaps on one line,
// are no dashes, and the sides of an opening are no hatching.
func TestCombWithGaps(t *testing.T) {
	for _, gap := range []float64{0.02, -0.02, 0.1, -0.1} {
		b := dxftest.New(dxftest.MM)
		var at [][2]float64
		for k := range 9 {
			x := 20 * float64(k)
			at = append(at, [2]float64{x, 0}, [2]float64{x + 10, 0}, [2]float64{x + 10, 5}, [2]float64{x + 20, 5})
		}
		at = append(at, [2]float64{180, 80}, [2]float64{0, 80})
		path := func(at [][2]float64) {
			for i, p := range at {
				q := at[(i+1)%len(at)]
				dx, dy := q[0]-p[0], q[1]-p[1]
				s := gap / 2 / math.Sqrt(float64(dx*dx)+float64(dy*dy))
				b.Line(p[0]+float64(dx*s), p[1]+float64(dy*s), q[0]-float64(dx*s), q[1]-float64(dy*s))
			}
		}
		path(at)
		path([][2]float64{{60, 30}, {80, 40}, {80, 60}, {60, 70}, {40, 60}, {40, 40}})
		p := onePart(t, build(t, b))
		notches := 0
		for _, f := range p.Features {
			if f.Kind == features.Notch {
				notches++
			}
		}
		if len(p.Holes) != 1 || notches < 8 {
			t.Errorf("gaps of %g: %d openings of 1, %d notches of 9", gap, len(p.Holes), notches)
		}
	}
}
