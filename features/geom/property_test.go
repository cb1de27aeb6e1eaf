package geom

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func drawMotion(t *rapid.T) Motion {
	m := NewTurn(rapid.Float64Range(-4, 4).Draw(t, "turn"))
	if rapid.Bool().Draw(t, "mirror") {
		m = NewMirror().Then(m)
	}
	return m.Then(NewShift(Point{rapid.Float64Range(-1e4, 1e4).Draw(t, "dx"), rapid.Float64Range(-1e4, 1e4).Draw(t, "dy")}))
}

func drawRing(t *rapid.T) Ring {
	rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
	return randomRing(rng, Point{rng.Float64() * 100, rng.Float64() * 100}, 40)
}

// close within what coordinates of 1e4 allow.
func same(t *rapid.T, what string, got, want, tol float64) {
	if !(math.Abs(got-want) <= tol) {
		t.Fatalf("%s: got %.12g, want %.12g", what, got, want)
	}
}

// TestMotions: nothing that is measured changes when the plane is moved,
// turned and mirrored.
func TestMotions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, m := drawRing(t), drawMotion(t)
		n := drawMotion(t)
		q := r.Apply(m)
		sign := 1.0
		if m.Mirror {
			sign = -1
		}
		same(t, "area", q.Area()*sign, r.Area(), 1e-6)
		same(t, "length", q.Length(), r.Length(), 1e-6)
		same(t, "centroid", q.Centroid().Dist(m.Apply(r.Centroid())), 0, 1e-6)
		a, b := LeastRectangle(r), LeastRectangle(q)
		same(t, "rectangle", b.Area(), a.Area(), 1e-6*a.Area()+1e-5)
		same(t, "hull", Hull(q).Area(), Hull(r).Area(), 1e-5)
		p := r.InnerPoint()
		if q.Inside(m.Apply(p), 1e-6) != In || r.Inside(p, 1e-6) != In {
			t.Fatalf("inner point lost")
		}
		z := Point{3, -5}
		same(t, "inverse", m.Inverse().Apply(m.Apply(z)).Dist(z), 0, 1e-8)
		same(t, "then", m.Then(n).Apply(z).Dist(n.Apply(m.Apply(z))), 0, 1e-7)
		s := r.Apply(NewShift(Point{90, 3}))
		_, _, d := RingDist(r, s)
		_, _, e := RingDist(q, s.Apply(m))
		same(t, "distance", e, d, 1e-7)
	})
}

// TestSplitMerge: a ring cut anywhere and started anywhere is the same ring
// after Simplify, and so is its reverse.
func TestSplitMerge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRing(t).Simplify(1e-6)
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "cuts"), 2))
		var cut Ring
		for _, e := range r {
			var pts []Point
			for range rng.IntN(4) {
				pts = append(pts, e.At(0.02+0.96*rng.Float64()))
			}
			pieces := e.Split(pts...)
			sum := 0.0
			for _, p := range pieces {
				sum += p.Length()
			}
			same(t, "length of the pieces", sum, e.Length(), 1e-7)
			cut = append(cut, pieces...)
		}
		k := rng.IntN(len(cut))
		cut = append(slices.Clone(cut[k:]), cut[:k]...)
		for _, v := range []Ring{cut, cut.Reverse()} {
			s, ids := v.SimplifyMap(1e-6)
			if len(s) != len(r) || len(ids) != len(s) {
				t.Fatalf("%d edges, %d lists; was %d", len(s), len(ids), len(r))
			}
			var all []int
			for i, l := range ids {
				all = append(all, l...)
				sum := 0.0
				for _, id := range l {
					sum += v[id].Length()
				}
				same(t, "listed length", sum, s[i].Length(), 1e-6)
			}
			slices.Sort(all)
			for i := range all {
				if all[i] != i {
					t.Fatalf("edge %d is not listed once: %v", i, ids)
				}
			}
			a, b := s.Canonical(), r.Canonical()
			for i := range a {
				if a[i].From.Dist(b[i].From) > 1e-6 || a[i].Mid().Dist(b[i].Mid()) > 1e-5 {
					t.Fatalf("edge %d: %v, was %v", i, a[i], b[i])
				}
			}
		}
	})
}

func TestBulge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-50, 50)
		a, b := Point{c.Draw(t, "ax"), c.Draw(t, "ay")}, Point{c.Draw(t, "bx"), c.Draw(t, "by")}
		if a.Dist(b) < 0.1 {
			t.Skip()
		}
		k := rapid.Float64Range(-20, 20).Draw(t, "bulge")
		e := BulgeEdge(a, b, k)
		if math.Abs(k) < 1e-9 {
			return
		}
		same(t, "bulge", e.Bulge(), k, 1e-6*(1+k*k)*(1+1/math.Abs(k)))
		// The sagitta is bulge times half the chord (DXF reference, LWPOLYLINE,
		// group 42, from memory).
		mid := a.Add(b).Mul(0.5)
		same(t, "sagitta", e.Mid().Dist(mid), math.Abs(k)*a.Dist(b)/2, 1e-6*(1+1/math.Abs(k)))
	})
}

func FuzzEdges(f *testing.F) {
	f.Add(0.0, 0.0, 10.0, 0.0, 0.5, 5.0, -5.0, 5.0, 5.0, 0.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(1.0, 1.0, 3.0, 1.0, 1e9, 1.0, 1.0, 3.0, 1.0, -1e-10)
	f.Fuzz(func(t *testing.T, ax, ay, bx, by, k, cx, cy, dx, dy, l float64) {
		for _, v := range [...]float64{ax, ay, bx, by, k, cx, cy, dx, dy, l} {
			if !(math.Abs(v) < 1e5) {
				t.Skip()
			}
		}
		a, b := BulgeEdge(Point{ax, ay}, Point{bx, by}, k), BulgeEdge(Point{cx, cy}, Point{dx, dy}, l)
		if a.Radius > 1e7 || b.Radius > 1e7 {
			t.Skip()
		}
		p, q, d := Closest(a, b)
		if !(d >= 0) || math.Abs(p.Dist(q)-d) > 1e-6 {
			t.Fatalf("distance %g between %v and %v", d, p, q)
		}
		Intersect(a, b, 1e-3)
		r := Ring{a, LineEdge(a.To, b.From), b, LineEdge(b.To, a.From)}
		if math.IsNaN(r.Area()) {
			t.Fatalf("area")
		}
		r.Inside(Point{cx, ay}, 1e-3)
		r.InnerPoint()
		r.Centroid()
		r.SelfCrossings(1e-3)
		s := r.Simplify(1e-3)
		s.Canonical()
		LeastRectangle(s)
		h := Hull(r)
		for i := range 16 {
			u := onCircle(Point{}, 1, float64(i))
			scale := 1 + math.Abs(r.Support(u)) + a.Radius + b.Radius
			if len(h) > 0 && math.Abs(h.Support(u)-r.Support(u)) > 1e-6*scale {
				t.Fatalf("hull reaches %g, not %g", h.Support(u), r.Support(u))
			}
		}
	})
}
