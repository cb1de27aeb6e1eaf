package features

import (
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// raggedRing is a plate whose upper edge runs through n points at random
// heights, 2 mm apart: the outline with the most bites to choose from.
func raggedRing(n int) geom.Ring {
	rng := rand.New(rand.NewPCG(7, uint64(n)))
	pts := []geom.Point{{X: 0, Y: 0}, {X: 2 * float64(n), Y: 0}}
	for i := n - 1; i >= 0; i-- {
		pts = append(pts, geom.Point{X: 2 * float64(i), Y: 100 + 20*rng.Float64()})
	}
	r := make(geom.Ring, len(pts))
	for i := range pts {
		r[i] = geom.LineEdge(pts[i], pts[(i+1)%len(pts)])
	}
	return r
}

// TestMendingIsBounded: a ragged edge ends at the bound, says so, and still
// owns every edge once.
func TestMendingIsBounded(t *testing.T) {
	if testing.Short() {
		t.Skip("seconds of work")
	}
	r := raggedRing(5000)
	got := readOutline(r)
	if !got.spent {
		t.Error("not told that the outline was too complex")
	}
	owned := make([]int, len(r))
	for _, f := range got.features {
		for _, e := range f.Edges {
			owned[e]++
		}
	}
	for e, n := range owned {
		if n != 1 {
			t.Fatalf("edge %d is owned %d times", e, n)
		}
	}
	// A plain saw of as many teeth is no trouble.
	if got := readOutline(raggedRing(60)); got.spent {
		t.Error("60 points are too complex")
	}
}

func BenchmarkRaggedOutline(b *testing.B) {
	for _, n := range []int{1000, 10_000, 100_000} {
		r := raggedRing(n)
		b.Run(map[int]string{1000: "1e3", 10_000: "1e4", 100_000: "1e5"}[n], func(b *testing.B) {
			for b.Loop() {
				readOutline(r)
			}
		})
	}
}
