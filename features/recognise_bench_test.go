package features

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// sawRing is a bar with n touching vees on its lower edge, from x = 10 on.
func sawRing(n int) geom.Ring {
	v := []pt{{0, 0, 0}, {10, 0, 0}}
	for i := 0; i < n; i++ {
		x := 10 + 8*float64(i)
		v = append(v, pt{x + 4, 4, 0}, pt{x + 8, 0, 0})
	}
	l := 20 + 8*float64(n)
	return ringOf(append(v, pt{l, 0, 0}, pt{l, 100, 0}, pt{0, 100, 0})...)
}

// combRing is a bar with n rectangular notches on its lower edge.
func combRing(n int) geom.Ring {
	v := []pt{{0, 0, 0}}
	for i := 0; i < n; i++ {
		x := 10 + 20*float64(i)
		v = append(v, pt{x, 0, 0}, pt{x, 10, 0}, pt{x + 10, 10, 0}, pt{x + 10, 0, 0})
	}
	l := 10 + 20*float64(n)
	return ringOf(append(v, pt{l, 0, 0}, pt{l, 100, 0}, pt{0, 100, 0})...)
}

// gearRing has n teeth with straight flanks between circles of radius r and r+6.
func gearRing(n int, r float64) geom.Ring {
	var v []pt
	step := 2 * math.Pi / float64(n)
	at := func(rad, a float64) pt { s, c := math.Sincos(a); return pt{rad * c, rad * s, 0} }
	for i := 0; i < n; i++ {
		a := float64(i) * step
		p, q := at(r+6, a), at(r+6, a+0.35*step)
		f, g := at(r, a+0.5*step), at(r, a+0.85*step)
		p.b, f.b = bulgeOf(0.35*step), bulgeOf(0.35*step)
		v = append(v, p, q, f, g)
	}
	return ringOf(v...)
}

// TestManyTeeth: each tooth of long saws, combs and gears is a notch of its own.
func TestManyTeeth(t *testing.T) {
	for _, n := range []int{3, 60, 120, 1000} {
		for name, r := range map[string]geom.Ring{"saw": sawRing(n), "comb": combRing(n), "gear": gearRing(n, 30*float64(n))} {
			m := rigid{cos: 0.8, sin: 0.6}
			fs := recogniseOutline(m.ring(r))
			shapes := map[NotchShape]int{}
			for i := range fs {
				shapes[fs[i].Shape]++
			}
			shape := map[string]NotchShape{"saw": NotchVee, "comb": NotchRectangular, "gear": NotchFree}[name]
			if msg := ownedOnce(fs, len(r)); shapes[shape] != n || msg != "" {
				t.Errorf("%s of %d: %v %s", name, n, shapes, msg)
			}
		}
	}
}

func BenchmarkOutline(b *testing.B) {
	for _, n := range []int{1000, 10000, 100000} {
		for name, r := range map[string]geom.Ring{"saw": sawRing(n), "comb": combRing(n), "gear": gearRing(n, 30*float64(n))} {
			b.Run(fmt.Sprintf("%s-%d", name, n), func(b *testing.B) {
				for b.Loop() {
					recogniseOutline(r)
				}
			})
		}
	}
}

// BenchmarkParts reads the random parts of TestRandomOutlines.
func BenchmarkParts(b *testing.B) {
	var rs []geom.Ring
	for k := 0; k < 200; k++ {
		rng := rand.New(rand.NewPCG(7, uint64(k)))
		rs = append(rs, disturb(rng, randomRigid(rng).ring(randomPart(rng).ring), 1e-4))
	}
	k := 0
	for b.Loop() {
		recogniseOutline(rs[k%len(rs)])
		k++
	}
}

// BenchmarkHoles reads the random holes of TestRandomHoles.
func BenchmarkHoles(b *testing.B) {
	var rs []geom.Ring
	for k := 0; k < 20*holeKinds; k++ {
		rng := rand.New(rand.NewPCG(11, uint64(k)))
		rs = append(rs, disturb(rng, randomHole(rng, k%holeKinds).ring, 1e-4))
	}
	k := 0
	for b.Loop() {
		recogniseInside(rs[k%len(rs)])
		k++
	}
}
