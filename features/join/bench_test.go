package join

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// gons are n loose edges in 20-gons of radius 4 on a raster, each end off by up
// to jitter, in any order and direction.
func gons(n int, jitter float64, rng *rand.Rand) []Input {
	var in []Input
	side := int(math.Ceil(math.Sqrt(float64(n) / 20)))
	for g := 0; len(in) < n; g++ {
		c := pt{X: float64(g%side) * 10, Y: float64(g/side) * 10}
		at := func(k int) pt {
			a := float64(k%20) * math.Pi / 10
			return pt{X: c.X + 4*math.Cos(a) + (rng.Float64()-0.5)*jitter, Y: c.Y + 4*math.Sin(a) + (rng.Float64()-0.5)*jitter}
		}
		for k := range 20 {
			in = append(in, Input{Edge: geom.LineEdge(at(k), at(k+1)), Source: int32(len(in))})
		}
	}
	return shuffled(in[:n], rng)
}

// junctions are n edges of which one vertex in twenty is a junction: 20-gons
// with a line across each, from corner to corner.
func junctions(n int, rng *rand.Rand) []Input {
	var in []Input
	side := int(math.Ceil(math.Sqrt(float64(n) / 21)))
	for g := 0; len(in) < n; g++ {
		c := pt{X: float64(g%side) * 10, Y: float64(g/side) * 10}
		at := func(k int) pt {
			a := float64(k%20) * math.Pi / 10
			return pt{X: c.X + 4*math.Cos(a), Y: c.Y + 4*math.Sin(a)}
		}
		for k := range 20 {
			in = append(in, Input{Edge: geom.LineEdge(at(k), at(k+1)), Source: int32(len(in))})
		}
		if g%2 == 0 {
			in = append(in, Input{Edge: geom.LineEdge(at(3), at(13)), Source: int32(len(in))})
		}
	}
	return shuffled(in[:n], rng)
}

func saw(n int) []Input {
	var in []Input
	for k := range n {
		x := float64(k) * 0.5
		in = append(in, Input{Edge: line(x, 0, x+0.25, 3)}, Input{Edge: line(x+0.25, 3, x+0.5, 0)})
	}
	end := float64(n) * 0.5
	in = append(in, Input{Edge: line(end, 0, end, -50)}, Input{Edge: line(end, -50, 0, -50)}, Input{Edge: line(0, -50, 0, 0)})
	for i := range in {
		in[i].Source = int32(i)
	}
	return in
}

func bench(b *testing.B, in []Input) {
	b.ReportAllocs()
	cpu := cpuSeconds()
	for b.Loop() {
		if _, err := Join(context.Background(), in, Options{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric((cpuSeconds()-cpu)/float64(b.N)*1e3, "cpu-ms/op")
	b.ReportMetric(float64(len(in))*float64(b.N)/b.Elapsed().Seconds(), "edges/s")
}

func BenchmarkChains(b *testing.B) {
	for _, n := range []int{1e3, 1e4, 1e5, 1e6} {
		in := gons(n, 1e-4, rand.New(rand.NewPCG(1, 1)))
		b.Run(fmt.Sprint(n), func(b *testing.B) { bench(b, in) })
	}
}

func BenchmarkJunctions(b *testing.B) {
	for _, n := range []int{1e3, 1e4, 1e5, 1e6} {
		in := junctions(n, rand.New(rand.NewPCG(1, 2)))
		b.Run(fmt.Sprint(n), func(b *testing.B) { bench(b, in) })
	}
}

func BenchmarkBad(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 3))
	b.Run("one cell", func(b *testing.B) { bench(b, oneCell(1e5, rng)) })
	b.Run("saw", func(b *testing.B) { bench(b, saw(1e5)) })
	b.Run("weave", func(b *testing.B) { bench(b, weave(1000)) })
	b.Run("star", func(b *testing.B) { bench(b, star(20000)) })
	b.Run("hatch", func(b *testing.B) { bench(b, hatch(20000, rng)) })
}
