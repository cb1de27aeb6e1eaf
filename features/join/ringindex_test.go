package join

import (
	"math"
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// comb is a ring of n teeth of any height, each 0.5 wide at its foot, with
// round heads on some of them.
func comb(rng *rand.Rand, n int, high float64) geom.Ring {
	r := geom.Ring{}
	at := geom.Point{}
	to := func(p geom.Point, bulge float64) {
		r = append(r, geom.BulgeEdge(at, p, bulge))
		at = p
	}
	for k := range n {
		x, h := float64(k), high*(0.6+0.4*rng.Float64())
		bulge := 0.0
		if k%3 == 0 {
			bulge = -1
		}
		to(geom.Point{X: x + 0.1, Y: h}, 0)
		to(geom.Point{X: x + 0.4, Y: h}, bulge)
		to(geom.Point{X: x + 0.5}, 0)
		to(geom.Point{X: x + 1}, 0)
	}
	to(geom.Point{X: at.X, Y: -10}, 0)
	to(geom.Point{Y: -10}, 0)
	to(geom.Point{}, 0)
	return r
}

// TestRingIndex: a binned ring answers as the ring as a whole does, whichever
// way its edges stand; tall ones are binned along x.
func TestRingIndex(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	upright := comb(rng, 400, 300)
	for name, c := range map[string]struct {
		ring    geom.Ring
		swapped bool
	}{
		"tall":  {upright, true},
		"level": {upright.Apply(geom.NewTurn(math.Pi / 2)), false},
		"skew":  {upright.Apply(geom.NewTurn(0.7)), true},
		"few":   {comb(rng, 3, 20), false},
	} {
		var x ringIndex
		x.build(c.ring)
		if x.swapped != c.swapped {
			t.Errorf("%s: bins along x %v", name, x.swapped)
		}
		if name != "few" && len(x.bins) < 100 {
			t.Errorf("%s: %d bins", name, len(x.bins))
		}
		b := c.ring.Bounds().Grow(5)
		in := 0
		for range 5000 {
			p := geom.Point{X: b.Min.X + rng.Float64()*b.Width(), Y: b.Min.Y + rng.Float64()*b.Height()}
			want := c.ring.Winding(p) != 0
			if want {
				in++
			}
			if x.inside(p) != want {
				t.Fatalf("%s: %v inside: %v", name, p, !want)
			}
		}
		if in < 300 || in > 4700 {
			t.Errorf("%s: %d of 5000 points lie inside", name, in)
		}
	}
}

// BenchmarkRingIndex asks a ring of 20,000 tall edges 8,000 times.
func BenchmarkRingIndex(b *testing.B) {
	r := comb(rand.New(rand.NewPCG(5, 6)), 5000, 300)
	for b.Loop() {
		var x ringIndex
		x.build(r)
		for k := range 8000 {
			x.inside(geom.Point{X: float64(k) * 0.6, Y: 150})
		}
	}
}
