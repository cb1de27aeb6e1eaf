package geom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// TestAlong: no edge that a line crosses is passed over, none comes twice, and
// few come that it does not. The crossings are those of Intersect with every edge.
func TestAlong(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	var edges []Edge
	for range 400 {
		p := Point{X: 1000 * rng.Float64(), Y: 1000 * rng.Float64()}
		q := p.Add(Point{X: 40*rng.Float64() - 20, Y: 40*rng.Float64() - 20})
		switch rng.IntN(3) {
		case 0:
			edges = append(edges, LineEdge(p, q))
		case 1:
			edges = append(edges, BulgeEdge(p, q, 2*rng.Float64()-1))
		default:
			edges = append(edges, CircleEdge(p, 1+15*rng.Float64()))
		}
	}
	x := NewIndex(edges, 0)
	crossed, met := 0, 0
	for range 300 {
		a := Point{X: 1000 * rng.Float64(), Y: 1000 * rng.Float64()}
		s, c := math.Sincos(math.Pi / 4 * float64(rng.IntN(9)))
		if rng.IntN(2) == 0 {
			s, c = math.Sincos(2 * math.Pi * rng.Float64())
		}
		b := a.Add(Point{X: 1500 * c, Y: 1500 * s})
		got := slices.Sorted(x.Along(a, b))
		if n := len(slices.Compact(slices.Clone(got))); n != len(got) {
			t.Fatalf("%d edges, %d of them once", len(got), n)
		}
		for id, e := range edges {
			if len(Intersect(LineEdge(a, b), e, 1e-6).Points) > 0 {
				crossed++
				if _, ok := slices.BinarySearch(got, id); !ok {
					t.Fatalf("edge %d %v is crossed by the line from %v to %v, and was passed over", id, e, a, b)
				}
			}
		}
		met += len(got)
	}
	if crossed < 500 || met > 3*crossed {
		t.Errorf("%d edges crossed, %d met", crossed, met)
	}
}

// holes is a plate of n round holes of 18 mm, 29 mm apart, turned by a.
func holes(n int, a float64) (outline, inner []Edge) {
	side := int(math.Ceil(math.Sqrt(float64(n))))
	l := 29*float64(side) + 21
	r := Ring{LineEdge(Point{}, Point{X: l}), LineEdge(Point{X: l}, Point{X: l, Y: l}), LineEdge(Point{X: l, Y: l}, Point{Y: l}), LineEdge(Point{Y: l}, Point{})}
	for i := range n {
		inner = append(inner, CircleEdge(Point{X: 25 + 29*float64(i%side), Y: 25 + 29*float64(i/side)}, 9))
	}
	turn := NewTurn(a)
	return r.Apply(turn), Ring(inner).Apply(turn)
}

// BenchmarkTenThousandHoles measures, for each of 10,000 holes, the nearest
// other hole, the nearest outline, and the hole or outline met first in each of
// the four directions of the plate, trees included.
func BenchmarkTenThousandHoles(b *testing.B) {
	const turned = 0.3
	outline, inner := holes(10000, turned)
	u := Point{X: math.Cos(turned), Y: math.Sin(turned)}
	dirs := [4]Point{u, u.Left(), u.Mul(-1), u.Left().Mul(-1)}
	b.Run("nearest", func(b *testing.B) {
		for b.Loop() {
			rim, all := NewIndex(outline, 0), NewIndex(inner, 0)
			for i, e := range inner {
				rim.NearestEdge(e, math.Inf(1))
				all.NearestFunc(e, math.Inf(1), func(id int) bool { return id != i })
			}
		}
	})
	b.Run("axes", func(b *testing.B) {
		for b.Loop() {
			rim, all := NewIndex(outline, 0), NewIndex(inner, 0)
			for i, e := range inner {
				for _, d := range dirs {
					ray := LineEdge(e.Centre, e.Centre.Add(d.Mul(8000)))
					best := math.Inf(1)
					for id := range rim.Along(ray.From, ray.To) {
						m := Meet(ray, outline[id], 1e-6)
						for _, p := range m.At[:m.N] {
							best = min(best, p.Dist(e.Centre))
						}
					}
					// Other holes as far as the next two rows.
					for id := range all.Along(ray.From, ray.From.Add(d.Mul(58))) {
						if id != i {
							m := Meet(ray, inner[id], 1e-6)
							for _, p := range m.At[:m.N] {
								best = min(best, p.Dist(e.Centre))
							}
						}
					}
				}
			}
		}
	})
}
