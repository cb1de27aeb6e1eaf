package features

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// notchSound holds what must be true of every notch of a ring: it has a depth
// and a width, and neither is more than the ring's extent.
func notchSound(fs []Feature, r geom.Ring) string {
	box := r.Bounds()
	far := box.Min.Dist(box.Max) * (1 + 1e-6)
	msg := ""
	for i := range fs {
		f := &fs[i]
		// A mouth may end at a virtual corner a little outside the box.
		if f.Kind == Notch && !(f.DepthMM > 0 && f.DepthMM <= far && f.WidthMM > 0 && f.WidthMM <= far+2*cornerBoxMM) {
			msg += fmt.Sprintf("%s on a part of %.3f mm across\n", showFeature(f), far)
		}
	}
	return msg
}

// ovalRing is an ellipse of half axes a and b as arcs that join tangentially
// within a fraction of a degree: through n points a quarter.
func ovalRing(a, b float64, n int) geom.Ring {
	at := func(t float64) geom.Point {
		s, c := math.Sincos(t)
		return geom.Point{X: a * c, Y: b * s}
	}
	var r geom.Ring
	for k := 0; k < 4*n; k++ {
		t, step := float64(k)*math.Pi/2/float64(n), math.Pi/2/float64(n)
		p, m, q := at(t), at(t+step/2), at(t+step)
		chord := q.Sub(p)
		rise := math.Abs(chord.Cross(m.Sub(p))) / chord.Len()
		r = append(r, geom.BulgeEdge(p, q, 2*rise/chord.Len()))
	}
	return r
}

// TestOvalHasNoNotch: an oval lies within the circle of its flattest arc and is
// not what is left of it.
func TestOvalHasNoNotch(t *testing.T) {
	for _, n := range []int{2, 5, 9} {
		for _, b := range []float64{20, 38, 47} {
			r := ovalRing(50, b, n)
			fs := recogniseOutline(r)
			for i := range fs {
				if fs[i].Kind == Notch {
					t.Errorf("half axes 50 and %g of %d arcs: %s", b, 4*n, showFeature(&fs[i]))
				}
			}
		}
	}
}

// TestFaintRings: smooth rings of many corners with faint turns, as a drawn
// curve's, keep every notch within the part, and its depth above 0.
func TestFaintRings(t *testing.T) {
	notches, bad := 0, 0
	n := partCount(t, 6000)
	for k := range n {
		r := faintRing(rand.New(rand.NewPCG(23, uint64(k))))
		if r.Area() <= 0 || len(r.SelfCrossings(1e-6)) > 0 {
			continue
		}
		fs := recogniseOutline(r)
		for i := range fs {
			if fs[i].Kind == Notch {
				notches++
			}
		}
		if msg := notchSound(fs, r) + ownedOnce(fs, len(r)); msg != "" {
			if bad++; bad <= 5 {
				t.Errorf("ring %d: %s", k, msg)
			}
		}
	}
	t.Logf("%d rings, %d notches, %d rings unsound", n, notches, bad)
	if notches < n/10 {
		t.Errorf("only %d notches in %d rings", notches, n)
	}
}

// faintRing is a closed curve with a few waves through 12 to 90 points, lines or
// arcs between them.
func faintRing(rng *rand.Rand) geom.Ring {
	n := 12 + rng.IntN(80)
	a, b := 40+2000*rng.Float64(), 40+2000*rng.Float64()
	var amp, phase [5]float64
	for i := range amp {
		amp[i], phase[i] = 0.25*rng.Float64()/float64(i+1), 2*math.Pi*rng.Float64()
	}
	arcs := rng.IntN(3) == 0
	v := make([]pt, n)
	for i := range v {
		u := 2 * math.Pi * float64(i) / float64(n)
		w := 1.0
		for k := range amp {
			w += amp[k] * math.Cos(float64(k+1)*u+phase[k])
		}
		s, c := math.Sincos(u)
		v[i] = pt{a * w * c, b * w * s, 0}
		if arcs {
			v[i].b = 0.1 * (rng.Float64() - 0.5)
		}
	}
	return ringOf(v...)
}
