package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
)

// TestPatterns: rows, grids and circles of equal holes, with their pitches.
func TestPatterns(t *testing.T) {
	type hole struct{ x, y, r float64 }
	circle := func(n int, r, x, y, d float64) (h []hole) {
		for i := range n {
			s, c := math.Sincos(0.3 + 2*math.Pi*float64(i)/float64(n))
			h = append(h, hole{x + r*c, y + r*s, d / 2})
		}
		return h
	}
	grid := func(nx, ny int, px, py, deg float64) (h []hole) {
		s, c := math.Sincos(deg * math.Pi / 180)
		for i := range nx {
			for j := range ny {
				x, y := float64(i)*px, float64(j)*py
				h = append(h, hole{100 + x*c - y*s, 100 + x*s + y*c, 5})
			}
		}
		return h
	}
	for _, c := range []struct {
		name  string
		holes []hole
		kind  string
		n     int
		pitch []float64
	}{
		{"row", []hole{{20, 20, 5}, {60, 20, 5}, {100, 20, 5}}, "row", 3, []float64{40}},
		{"row of four among others", []hole{{20, 20, 5}, {60, 20, 5}, {100, 20, 5}, {140, 20, 5}, {77, 90, 5}}, "row", 4, []float64{40}},
		{"grid", grid(3, 2, 60, 40, 0), "grid", 6, []float64{60, 40}},
		{"turned grid", grid(4, 3, 30, 20, 30), "grid", 12, []float64{30, 20}},
		{"square", grid(2, 2, 50, 50, 0), "grid", 4, []float64{50, 50}},
		{"square about a bore", append(grid(2, 2, 50, 50, 0), hole{125, 125, 20}), "circle", 4, []float64{50 * math.Sqrt2}},
		{"bolt circle", circle(6, 60, 150, 150, 14), "circle", 6, []float64{120}},
		{"two sizes", []hole{{20, 20, 5}, {60, 20, 5}, {100, 20, 6}}, "", 0, nil},
		{"uneven", []hole{{20, 20, 5}, {60, 20, 5}, {101, 20, 5}}, "", 0, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := dxftest.New(dxftest.MM)
			b.Polyline(true, dxftest.Rect(0, 0, 320, 300)...)
			for _, h := range c.holes {
				b.Circle(h.x, h.y, h.r)
			}
			p := onePart(t, build(t, b))
			if c.kind == "" {
				if len(p.Patterns) != 0 {
					t.Errorf("%+v", p.Patterns)
				}
				return
			}
			if len(p.Patterns) != 1 || p.Patterns[0].Kind != c.kind || len(p.Patterns[0].Members) != c.n || len(p.Patterns[0].PitchMM) != len(c.pitch) {
				t.Fatalf("%+v", p.Patterns)
			}
			for i, w := range c.pitch {
				if !close(p.Patterns[0].PitchMM[i], w, 1e-6) {
					t.Errorf("pitch %v, want %v", p.Patterns[0].PitchMM, c.pitch)
				}
			}
		})
	}
}
