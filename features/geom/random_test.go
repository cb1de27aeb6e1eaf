package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func randomEdge(rng *rand.Rand) Edge {
	pt := func() Point { return Point{rng.Float64()*100 - 50, rng.Float64()*100 - 50} }
	switch rng.IntN(4) {
	case 0:
		return LineEdge(pt(), pt())
	case 1:
		return CircleEdge(pt(), 1+rng.Float64()*30)
	case 2: // arcs of every sweep
		return ArcAngles(pt(), 1+rng.Float64()*30, rng.Float64()*7, rng.Float64()*7)
	}
	return BulgeEdge(pt(), pt(), rng.Float64()*6-3)
}

// TestClosestAgainstSamples walks both edges in small steps: the answer must
// be no greater than the samples', and no less than they allow.
func TestClosestAgainstSamples(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	touching := 0
	for n := range 1500 {
		a, b := randomEdge(rng), randomEdge(rng)
		const steps = 400
		best := math.Inf(1)
		for i := 0; i <= steps; i++ {
			p := a.At(float64(i) / steps)
			best = min(best, b.Dist(p))
		}
		pa, pb, d := Closest(a, b)
		if d > best+1e-9 {
			t.Fatalf("case %d: %g, but %g was seen\n%v\n%v", n, d, best, a, b)
		}
		// Half a step along a changes the distance by at most half a step.
		if d < best-a.Length()/steps/2-1e-9 {
			t.Fatalf("case %d: %g is less than the samples' %g allow", n, d, best)
		}
		near(t, "feet", pa.Dist(pb), d, 1e-9)
		near(t, "foot on a", a.Dist(pa), 0, 1e-9)
		near(t, "foot on b", b.Dist(pb), 0, 1e-9)
		qb, qa, e := Closest(b.Reverse(), a.Reverse())
		near(t, "other way round", e, d, 1e-9)
		if d > 0 && (qa.Dist(pa) > 1e-3 || qb.Dist(pb) > 1e-3) {
			t.Errorf("case %d: feet %v %v the other way round %v %v", n, pa, pb, qa, qb)
		}
		c := Intersect(a, b, 1e-6)
		if d == 0 {
			touching++
			if len(c.Points) == 0 {
				t.Errorf("case %d: distance 0 but nothing in common\n%v\n%v", n, a, b)
			}
		} else if d > 1e-3 && len(c.Points) > 0 {
			t.Errorf("case %d: distance %g but common points %v", n, d, c.Points)
		}
		for _, p := range c.Points {
			if a.Dist(p) > 1e-6 || b.Dist(p) > 1e-6 {
				t.Errorf("case %d: common point off by %g %g", n, a.Dist(p), b.Dist(p))
			}
		}
		// Count sign changes of the distance to b's line or circle: crossings.
		if !c.Overlap && d == 0 {
			if want := crossingsBySteps(a, b); want > len(c.Points) {
				t.Errorf("case %d: %d crossings seen, %d found\n%v\n%v", n, want, len(c.Points), a, b)
			}
		}
		// Bounds hold the edge and touch it.
		bx := a.Bounds()
		for i := 0; i <= 50; i++ {
			if !bx.Grow(1e-9).Contains(a.At(float64(i) / 50)) {
				t.Fatalf("case %d: outside its box: %v", n, a)
			}
		}
		near(t, "middle", a.Mid().Dist(a.At(0.5)), 0, 1e-6)
	}
	if touching < 200 {
		t.Errorf("only %d pairs touch", touching)
	}
}

func crossingsBySteps(a, b Edge) int {
	side := func(p Point) float64 {
		if b.Radius > 0 {
			return p.Dist(b.Centre) - b.Radius
		}
		return b.To.Sub(b.From).Cross(p.Sub(b.From))
	}
	n := 0
	prev := side(a.At(0))
	for i := 1; i <= 2000; i++ {
		p := a.At(float64(i) / 2000)
		s := side(p)
		if (s > 0) != (prev > 0) && b.Dist(p) < a.Length()/2000 && b.Dist(p) < math.Abs(s)*2+1 {
			// only well inside both
			if p.Dist(b.From) > 1 && p.Dist(b.To) > 1 || b.IsCircle() {
				n++
			}
		}
		prev = s
	}
	return n
}

func flatArea(pts []Point) float64 {
	s := 0.0
	for i, p := range pts {
		s += p.Cross(pts[(i+1)%len(pts)]) / 2
	}
	return s
}

// randomRing is a simple star-shaped ring of lines and arcs about c.
func randomRing(rng *rand.Rand, c Point, size float64) Ring {
	n := 3 + rng.IntN(10)
	var pts []Point
	for i := range n {
		a := (float64(i) + 0.8*rng.Float64()) * 2 * math.Pi / float64(n)
		pts = append(pts, onCircle(c, size*(0.5+0.5*rng.Float64()), a))
	}
	var r Ring
	for i, p := range pts {
		q := pts[(i+1)%n]
		e := LineEdge(p, q)
		if rng.IntN(2) == 0 {
			e = BulgeEdge(p, q, rng.Float64()*0.8-0.2)
		}
		r = append(r, e)
	}
	if len(r.SelfCrossings(1e-6)) > 0 {
		return randomRing(rng, c, size)
	}
	return r
}

// TestRingAgainstPolygon compares with a polygon whose sides are within 1e-5
// of the ring: area within 1e-5 times the length, and so on.
func TestRingAgainstPolygon(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for n := range 200 {
		r := randomRing(rng, Point{rng.Float64() * 1000, rng.Float64() * 1000}, 50)
		pts := r.Flatten(1e-5)
		near(t, "area", r.Area(), flatArea(pts), 1e-5*r.Length())
		near(t, "reversed", r.Reverse().Area(), -r.Area(), 1e-9)
		p := r.InnerPoint()
		if r.Inside(p, 1e-3) != In {
			t.Errorf("case %d: the inner point is %v", n, r.Inside(p, 1e-3))
		}
		poly := RingOf(pts...)
		near(t, "centroid", r.Centroid().Dist(poly.Centroid()), 0, 1e-3)
		for range 60 {
			b := r.Bounds().Grow(5)
			q := Point{b.Min.X + rng.Float64()*b.Width(), b.Min.Y + rng.Float64()*b.Height()}
			if got, want := r.Inside(q, 2e-5), poly.Inside(q, 2e-5); got != want && got != On && want != On {
				t.Fatalf("case %d: %v is %v, in the polygon %v", n, q, got, want)
			}
		}
		// Heights of vertices and of arcs' extremes are the traps.
		for i := range r {
			for _, y := range []float64{r[i].From.Y, r[i].Centre.Y + r[i].Radius, r[i].Centre.Y - r[i].Radius, r[i].Centre.Y} {
				q := Point{r.Bounds().Min.X - 1, y}
				if r.Inside(q, 1e-6) != Out {
					t.Fatalf("case %d: outside point %v is %v", n, q, r.Inside(q, 1e-6))
				}
			}
		}
	}
}

func TestIndexAgainstAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for _, n := range []int{1, 2, 7, 8, 9, 64, 65, 700} {
		edges := make([]Edge, n)
		for i := range edges {
			edges[i] = randomEdge(rng)
			if i%3 == 0 {
				edges[i] = edges[i].Apply(NewShift(Point{rng.Float64() * 1000, 0}))
			}
		}
		for _, cell := range []float64{0, 10} {
			x := NewIndex(edges, cell)
			for range 60 {
				p := Point{rng.Float64()*1200 - 100, rng.Float64()*200 - 100}
				e := randomEdge(rng).Apply(NewShift(p))
				best, bestE := math.Inf(1), math.Inf(1)
				for _, f := range edges {
					best = min(best, f.Dist(p))
					_, _, d := Closest(e, f)
					bestE = min(bestE, d)
				}
				id, foot, d := x.Nearest(p, math.Inf(1))
				near(t, "nearest", d, best, 1e-9)
				near(t, "foot", edges[id].Dist(foot), 0, 1e-9)
				id, _, foot, d = x.NearestEdge(e, math.Inf(1))
				near(t, "nearest to an edge", d, bestE, 1e-9)
				near(t, "foot", edges[id].Dist(foot), 0, 1e-9)
				if best > 0.1 {
					if id, _, _ := x.Nearest(p, best-0.05); id >= 0 {
						t.Errorf("found beyond the limit")
					}
				}
				b := BoxOf(p).Grow(20)
				seen := map[int]int{}
				for id := range x.Near(b) {
					seen[id]++
				}
				for i := range edges {
					if seen[i] > 1 {
						t.Errorf("edge %d came %d times", i, seen[i])
					}
					if seen[i] == 0 && edges[i].Dist(p) < 20 {
						t.Errorf("edge %d was missed", i)
					}
				}
			}
		}
	}
}
