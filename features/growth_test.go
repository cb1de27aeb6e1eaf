package features_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"runtime"
	"strings"
	"testing"

	"burrside/dxfread"
	"burrside/features"
)

// looseDrawing draws n lines in any order: 20-gons of radius 4 on a raster, and
// with junctions every other one has a line from corner to corner.
func looseDrawing(n int, junctions bool) *dxfread.Drawing {
	rng := rand.New(rand.NewPCG(1, uint64(n)))
	side := int(math.Ceil(math.Sqrt(float64(n) / 20)))
	var lines []dxfread.Entity
	for g := 0; len(lines) < n; g++ {
		at := func(k int) dxfread.Vec {
			s, c := math.Sincos(float64(k%20) * math.Pi / 10)
			return dxfread.Vec{X: float64(g%side)*10 + 4*c, Y: float64(g/side)*10 + 4*s}
		}
		for k := range 20 {
			lines = append(lines, lineEntity(at(k), at(k+1)))
		}
		if junctions && g%2 == 0 {
			lines = append(lines, lineEntity(at(3), at(13)))
		}
	}
	lines = lines[:n]
	rng.Shuffle(n, func(i, k int) { lines[i], lines[k] = lines[k], lines[i] })
	return drawingOf(lines)
}

func lineEntity(p, q dxfread.Vec) dxfread.Entity {
	return &dxfread.Line{Common: dxfread.Common{Linetype: -1, Colour: 256, Extrusion: dxfread.Vec{Z: 1}}, From: p, To: q}
}

func drawingOf(model []dxfread.Entity) *dxfread.Drawing {
	mm := 4
	return &dxfread.Drawing{
		Version: "AC1015", Header: dxfread.Header{InsUnits: &mm},
		Layers: []dxfread.Layer{{Name: "0", Declared: true, Colour: 7, Linetype: -1}}, Model: model,
	}
}

// platesDrawing is a plate of n round holes.
func platesDrawing(n int) *dxfread.Drawing {
	side := int(math.Ceil(math.Sqrt(float64(n))))
	l := float64(side) * 20
	list := rectLines(-20, -20, l, l)
	for i := range n {
		list = append(list, &dxfread.Circle{Common: dxfread.Common{Linetype: -1, Colour: 256, Extrusion: dxfread.Vec{Z: 1}},
			Centre: dxfread.Vec{X: float64(i%side) * 20, Y: float64(i/side) * 20}, Radius: 4 + float64(i%3)})
	}
	return drawingOf(list)
}

func rectLines(x0, y0, x1, y1 float64) []dxfread.Entity {
	a, b, c, d := dxfread.Vec{X: x0, Y: y0}, dxfread.Vec{X: x1, Y: y0}, dxfread.Vec{X: x1, Y: y1}, dxfread.Vec{X: x0, Y: y1}
	return []dxfread.Entity{lineEntity(a, b), lineEntity(b, c), lineEntity(c, d), lineEntity(d, a)}
}

// sawDrawing is a bar with n vees on its upper edge.
func sawDrawing(n int) *dxfread.Drawing {
	var list []dxfread.Entity
	at := func(k int) dxfread.Vec { return dxfread.Vec{X: float64(k) * 0.25, Y: 3 * float64(k%2)} }
	for k := range 2 * n {
		list = append(list, lineEntity(at(k), at(k+1)))
	}
	l := float64(n) * 0.5
	list = append(list, lineEntity(dxfread.Vec{X: l}, dxfread.Vec{X: l, Y: -50}), lineEntity(dxfread.Vec{X: l, Y: -50}, dxfread.Vec{Y: -50}), lineEntity(dxfread.Vec{Y: -50}, dxfread.Vec{}))
	return drawingOf(list)
}

// weaveDrawing is n lines over n lines.
func weaveDrawing(n int) *dxfread.Drawing {
	var list []dxfread.Entity
	l := float64(n)
	for k := range n {
		list = append(list, lineEntity(dxfread.Vec{Y: float64(k)}, dxfread.Vec{X: l, Y: float64(k) + 0.3}),
			lineEntity(dxfread.Vec{X: float64(k)}, dxfread.Vec{X: float64(k) + 0.3, Y: l}))
	}
	return drawingOf(list)
}

// growthCases are drawings of a size, for the benchmarks, the table of growth
// and the test of ended contexts.
var growthCases = []struct {
	name  string
	sizes []int
	draw  func(n int) *dxfread.Drawing
}{
	{"loose 20-gons", []int{1e3, 1e4, 1e5, 1e6}, func(n int) *dxfread.Drawing { return looseDrawing(n, false) }},
	{"5 % junctions", []int{1e3, 1e4, 1e5, 1e6}, func(n int) *dxfread.Drawing { return looseDrawing(n, true) }},
	{"round holes", []int{1e3, 1e4, 1e5}, platesDrawing},
	{"holes in an array", []int{1e3, 1e4, 1e5, 999_000}, arrayDrawing},
	{"saw of vees", []int{1e2, 1e3, 1e4, 1e5}, sawDrawing},
	{"lines over lines", []int{30, 100, 300, 1000, 3000}, weaveDrawing},
}

func BenchmarkBuildGrowth(b *testing.B) {
	for _, c := range growthCases {
		for _, n := range c.sizes {
			d := c.draw(n)
			b.Run(fmt.Sprintf("%s/%d", strings.ReplaceAll(c.name, " ", "-"), n), func(b *testing.B) {
				b.ReportAllocs()
				cpu := cpuSeconds()
				for b.Loop() {
					if _, err := features.Build(context.Background(), d, features.Options{}); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric((cpuSeconds()-cpu)/float64(b.N)*1e3, "cpu-ms/op")
			})
		}
	}
}

// TestGrowth prints how the whole of Build grows, with the exponent of a power
// law fitted to the time. BURRSIDE_GROWTH=1 runs it; it judges nothing, as times
// are for people to judge.
func TestGrowth(t *testing.T) {
	if os.Getenv("BURRSIDE_GROWTH") == "" {
		t.Skip("BURRSIDE_GROWTH is not set: a table of times, minutes of work")
	}
	for _, c := range growthCases {
		var row strings.Builder
		var xs, ys []float64
		for _, n := range c.sizes {
			d := c.draw(n)
			best := math.Inf(1)
			for range 1 + min(4, 1_000_000/(n+1)/10) {
				runtime.GC()
				cpu := cpuSeconds()
				if _, err := features.Build(context.Background(), d, features.Options{}); err != nil {
					t.Fatal(err)
				}
				best = min(best, cpuSeconds()-cpu)
			}
			fmt.Fprintf(&row, "  %d: %.1f ms", n, best*1e3)
			xs, ys = append(xs, math.Log(float64(n))), append(ys, math.Log(best))
		}
		t.Logf("%-18s exponent %.2f %s", c.name, slope(xs, ys), row.String())
	}
}

// slope is that of the straight line of least squares.
func slope(xs, ys []float64) float64 {
	n := float64(len(xs))
	var sx, sy, sxx, sxy float64
	for i := range xs {
		sx, sy, sxx, sxy = sx+xs[i], sy+ys[i], sxx+xs[i]*xs[i], sxy+xs[i]*ys[i]
	}
	return (n*sxy - sx*sy) / (n*sxx - sx*sx)
}
