package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9f, want %.9f", what, got, want)
	}
}

// stadium is a slot of the given overall length and width about the origin.
func stadium(length, width float64) Ring {
	r, h := width/2, (length-width)/2
	return Ring{
		LineEdge(Point{-h, -r}, Point{h, -r}),
		ArcEdge(Point{h, 0}, Point{h, -r}, Point{h, r}, true),
		LineEdge(Point{h, r}, Point{-h, r}),
		ArcEdge(Point{-h, 0}, Point{-h, r}, Point{-h, -r}, true),
	}
}

func TestStadium(t *testing.T) {
	s := stadium(50, 20)
	near(t, "area", s.Area(), 30*20+math.Pi*100, 1e-9)
	near(t, "length", s.Length(), 60+20*math.Pi, 1e-9)
	if c := s.Centroid(); c.Len() > 1e-12 {
		t.Errorf("centroid %v", c)
	}
	if b := s.Bounds(); b != (Box{Point{-25, -10}, Point{25, 10}}) {
		t.Errorf("bounds %v", b)
	}
	m := NewTurn(0.3).Then(NewShift(Point{100, 50}))
	h := Hull(s.Apply(m))
	if len(h) != 4 {
		t.Fatalf("hull has %d edges: %v", len(h), h)
	}
	near(t, "hull area", h.Area(), s.Area(), 1e-6)
	rc := LeastRectangle(s.Apply(m))
	near(t, "width", rc.Width, 50, 1e-6)
	near(t, "height", rc.Height, 20, 1e-6)
	near(t, "angle", rc.AngleRad, 0.3, 1e-9)
	if d := rc.Centre.Dist(Point{100, 50}); d > 1e-6 {
		t.Errorf("centre off by %g", d)
	}
}

func TestHullSupport(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for n := range 300 {
		var edges []Edge
		for range 1 + rng.IntN(12) {
			a := Point{rng.Float64()*100 - 50, rng.Float64()*100 - 50}
			b := Point{rng.Float64()*100 - 50, rng.Float64()*100 - 50}
			switch rng.IntN(3) {
			case 0:
				edges = append(edges, LineEdge(a, b))
			case 1:
				edges = append(edges, BulgeEdge(a, b, rng.Float64()*4-2))
			default:
				edges = append(edges, CircleEdge(a, rng.Float64()*20))
			}
		}
		h := HullOf(edges)
		for i := range h {
			if d := h[i].To.Dist(h[(i+1)%len(h)].From); d > 1e-9 {
				t.Fatalf("case %d: gap %g", n, d)
			}
		}
		for k := range 720 {
			u := onCircle(Point{}, 1, float64(k)*math.Pi/360)
			if d := Ring(edges).Support(u) - h.Support(u); math.Abs(d) > 1e-6 {
				t.Fatalf("case %d: direction %d: support off by %g\n%v\n%v", n, k, d, edges, h)
			}
		}
	}
}
