package join

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"
)

// TestGrowth prints how the work grows: processor time at each size, the
// exponent of a power law fitted to the times, the longest time between two
// looks at the context, and what is kept for each edge beyond the input.
// BURRSIDE_GROWTH=1 runs it; it judges nothing, as times are for people to judge.
func TestGrowth(t *testing.T) {
	if os.Getenv("BURRSIDE_GROWTH") == "" {
		t.Skip("BURRSIDE_GROWTH is not set: a table of times, minutes of work")
	}
	rng := rand.New(rand.NewPCG(1, 9))
	large, less, few := []int{1e3, 1e4, 1e5, 1e6}, []int{1e3, 1e4, 1e5}, []int{100, 1000, 10000}
	for _, c := range []struct {
		name  string
		sizes []int
		make  func(n int) []Input
	}{
		{"20-gons, loose", large, func(n int) []Input { return gons(n, 1e-4, rng) }},
		{"5 % junctions", large, func(n int) []Input { return junctions(n, rng) }},
		{"all in one cell", large, func(n int) []Input { return oneCell(n, rng) }},
		{"saw of vees", large, func(n int) []Input { return saw(n / 2) }},
		{"one open run", large, stair},
		{"lines over lines", []int{30, 100, 300, 1000, 3000}, weave},
		{"star", less, star},
		{"loose ends all over", less, func(n int) []Input { return hatch(n, rng) }},
		{"arcs of two ends", few, bundle},
		{"nested squares", few, nested},
	} {
		var row strings.Builder
		var xs, ys []float64
		var wait time.Duration
		kept := 0.0
		for _, n := range c.sizes {
			in := c.make(n)
			best := math.Inf(1)
			for range 1 + min(4, 200_000/len(in)) {
				runtime.GC()
				ctx := &countdown{Context: context.Background(), left: -1}
				cpu := cpuSeconds()
				if _, err := Join(ctx, in, Options{}); err != nil {
					t.Fatal(err)
				}
				best = min(best, cpuSeconds()-cpu)
				wait = max(wait, ctx.wait)
			}
			kept = keptPerEdge(t, in)
			fmt.Fprintf(&row, "  %d: %.1f ms", len(in), best*1e3)
			xs, ys = append(xs, math.Log(float64(len(in)))), append(ys, math.Log(best))
		}
		t.Logf("%-20s exponent %.2f, wait %v, %.0f bytes an edge %s", c.name, slope(xs, ys), wait.Round(time.Millisecond), kept, row.String())
	}
}

// keptPerEdge is what the result holds, in bytes for each edge of the input.
func keptPerEdge(t *testing.T, in []Input) float64 {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	r, err := Join(context.Background(), in, Options{})
	if err != nil {
		t.Fatal(err)
	}
	runtime.GC()
	runtime.ReadMemStats(&after)
	runtime.KeepAlive(r)
	runtime.KeepAlive(in)
	return (float64(after.HeapAlloc) - float64(before.HeapAlloc)) / float64(len(in))
}

// slope is that of the straight line of least squares.
func slope(xs, ys []float64) float64 {
	n := float64(len(xs))
	var sx, sy, sxx, sxy float64
	for i := range xs {
		sx, sy, sxx, sxy = sx+xs[i], sy+ys[i], sxx+float64(xs[i]*xs[i]), sxy+float64(xs[i]*ys[i])
	}
	return (float64(n*sxy) - float64(sx*sy)) / (float64(n*sxx) - float64(sx*sx))
}
