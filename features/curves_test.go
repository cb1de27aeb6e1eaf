package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
	"burrside/features/geom"
)

// farthest is the greatest distance of points from a ring.
func farthest(r geom.Ring, pts []geom.Point) float64 {
	worst := 0.0
	for _, p := range pts {
		least := math.Inf(1)
		for _, e := range r {
			least = math.Min(least, e.Dist(p))
		}
		worst = math.Max(worst, least)
	}
	return worst
}

func TestEllipse(t *testing.T) {
	for _, c := range []struct{ a, ratio, turn float64 }{{60, 0.5, 0}, {60, 0.1, 30}, {5, 0.99, 77}, {2000, 0.3, 10}} {
		s, co := math.Sincos(c.turn * math.Pi / 180)
		b := dxftest.New(dxftest.MM)
		b.Ellipse(10, 20, c.a*co, c.a*s, c.ratio, 0, 2*math.Pi)
		p := onePart(t, build(t, b))
		var pts []geom.Point
		for i := range 2000 {
			sn, cs := math.Sincos(2 * math.Pi * float64(i) / 2000)
			x, y := c.a*cs, c.a*c.ratio*sn
			pts = append(pts, geom.Point{X: 10 + x*co - y*s, Y: 20 + x*s + y*co})
		}
		if d := farthest(p.Outline, pts); d > 0.0101 {
			t.Errorf("ellipse %v: %g mm from its arcs", c, d)
		}
		// The arcs' own middles lie on the ellipse within the same.
		for _, e := range p.Outline {
			m := e.Mid().Sub(geom.Point{X: 10, Y: 20})
			u, v := m.X*co+m.Y*s, (m.Y*co-m.X*s)/c.ratio
			if d := math.Abs(math.Sqrt(u*u+v*v)-c.a) * c.ratio; d > 0.0101 {
				t.Errorf("ellipse %v: an arc is %g mm off", c, d)
			}
		}
		// Area pi a b.
		if want := math.Pi * c.a * c.a * c.ratio; math.Abs(p.AreaMM2-want) > 0.0101*p.PerimeterMM {
			t.Errorf("ellipse %v: area %g, want %g", c, p.AreaMM2, want)
		}
		if len(p.Outline) > 200 {
			t.Errorf("ellipse %v: %d arcs", c, len(p.Outline))
		}
	}
	// Ratio 1 is a circle, and no approximation.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 100, 100)...)
	b.Ellipse(50, 50, 20, 0, 1, 0, 2*math.Pi)
	if h := kinds(onePart(t, build(t, b)), features.RoundHole); len(h) != 1 || !close(h[0].DiameterMM, 40, 1e-9) || h[0].Fitted {
		t.Errorf("%v", h)
	}
}

// TestSplineCircle: the circle as a rational quadratic spline is exact (weights
// cos 45 degrees; L. Piegl, W. Tiller, "The NURBS Book", section 7.5, from
// memory); four cubic pieces with the usual handle of 0.5522847 are within
// 2.73e-4 of the radius.
func TestSplineCircle(t *testing.T) {
	k := math.Sqrt2 / 2
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(-50, -50, 100, 100)...)
	b.Spline(2, true, []float64{0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4},
		[]float64{20, 0, 20, 20, 0, 20, -20, 20, -20, 0, -20, -20, 0, -20, 20, -20, 20, 0},
		[]float64{1, k, 1, k, 1, k, 1, k, 1})
	s := build(t, b)
	h := kinds(onePart(t, s), features.RoundHole)
	if len(h) != 1 || !close(h[0].DiameterMM, 40, 1e-6) || h[0].Fitted {
		t.Errorf("%s", describe(s))
	}
	for _, r := range []float64{5, 20} {
		q := r * 0.5522847498
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(-50, -50, 100, 100)...)
		b.Spline(3, true, []float64{0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 4},
			[]float64{r, 0, r, q, q, r, 0, r, -q, r, -r, q, -r, 0, -r, -q, -q, -r, 0, -r, q, -r, r, -q, r, 0}, nil)
		s := build(t, b)
		h := kinds(onePart(t, s), features.RoundHole)
		if len(h) != 1 || !close(h[0].DiameterMM, 2*r, 2*2.73e-4*r) || !h[0].Fitted {
			t.Errorf("radius %g: %s", r, describe(s))
		}
	}
}

// basis is the B-spline basis by the recursion of Cox and de Boor, written as
// it is defined, for checking only.
func basis(i, p int, t float64, k []float64) float64 {
	if p == 0 {
		if k[i] <= t && t < k[i+1] {
			return 1
		}
		return 0
	}
	var a, b float64
	if d := k[i+p] - k[i]; d > 0 {
		a = (t - k[i]) / d * basis(i, p-1, t, k)
	}
	if d := k[i+p+1] - k[i+1]; d > 0 {
		b = (k[i+p+1] - t) / d * basis(i+1, p-1, t, k)
	}
	return a + b
}

func TestSplineWithin(t *testing.T) {
	knots := []float64{0, 0, 0, 0, 1, 2, 2, 3.5, 5, 5, 5, 5}
	xy := []float64{0, 0, 30, -10, 70, 15, 100, 0, 110, 60, 60, 90, 20, 60, 0, 30}
	w := []float64{1, 1, 2, 1, 0.7, 1, 3, 1}
	b := dxftest.New(dxftest.MM)
	b.Spline(3, false, knots, xy, w)
	b.Line(0, 30, 0, 0)
	s := build(t, b)
	p := onePart(t, s)
	var pts []geom.Point
	for i := range 3000 {
		u := 5 * float64(i) / 3000
		var x, y, sum float64
		for j := range w {
			n := basis(j, 3, u, knots) * w[j]
			x, y, sum = x+n*xy[2*j], y+n*xy[2*j+1], sum+n
		}
		pts = append(pts, geom.Point{X: x / sum, Y: y / sum})
	}
	if d := farthest(p.Outline, pts); d > 0.0101 {
		t.Errorf("%g mm from the arcs", d)
	}
	if n := len(p.Outline); n > 120 {
		t.Errorf("%d arcs", n)
	}
	if !hasNote(s, "curve-to-arcs") {
		t.Errorf("%s", describe(s))
	}
	// A wider limit gives fewer arcs and keeps to it.
	o := onePart(t, build(t, b, features.Options{ArcDevMM: 0.2}))
	if len(o.Outline) >= len(p.Outline) {
		t.Errorf("%d arcs within 0.2 mm, %d within 0.01", len(o.Outline), len(p.Outline))
	}
	if d := farthest(o.Outline, pts); d > 0.202 {
		t.Errorf("%g mm from the arcs", d)
	}
}

// TestSplineOfFirstDegree is a polyline, exactly.
func TestSplineOfFirstDegree(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Spline(1, true, []float64{0, 0, 1, 2, 3, 4, 4}, []float64{0, 0, 100, 0, 100, 50, 0, 50, 0, 0}, nil)
	p := onePart(t, build(t, b))
	if len(p.Outline) != 4 || !close(p.AreaMM2, 5000, 1e-9) || p.Features[0].Fitted {
		t.Errorf("%v", p.Outline)
	}
}

// TestFitPoints: a spline by fit points goes through them, and says it guessed.
func TestFitPoints(t *testing.T) {
	pairs := []dxftest.Pair{{Code: 70, Value: 11}, {Code: 71, Value: 3}, {Code: 72, Value: 0}, {Code: 73, Value: 0}, {Code: 74, Value: 12}}
	var pts []geom.Point
	for i := range 12 {
		sn, cs := math.Sincos(2 * math.Pi * float64(i) / 12)
		p := geom.Point{X: (40 + 5*math.Cos(3*float64(i))) * cs, Y: 30 * sn}
		pts = append(pts, p)
		pairs = append(pairs, dxftest.Pair{Code: 11, Value: p.X}, dxftest.Pair{Code: 21, Value: p.Y}, dxftest.Pair{Code: 31, Value: 0.0})
	}
	b := dxftest.New(dxftest.MM)
	b.Raw("SPLINE", "AcDbSpline", pairs...)
	s := build(t, b)
	p := onePart(t, s)
	if d := farthest(p.Outline, pts); d > 0.0101 {
		t.Errorf("%g mm from the fit points", d)
	}
	if !hasNote(s, "curve-guessed") {
		t.Errorf("%s", describe(s))
	}
	// Smooth all round, also where it closes.
	for i, e := range p.Outline {
		n := p.Outline[(i+1)%len(p.Outline)]
		if e.EndDir().Dot(n.StartDir()) < math.Cos(1*math.Pi/180) {
			t.Errorf("a corner at %v", e.To)
		}
	}
}

// TestBadSplines are told, and never taken for nothing.
func TestBadSplines(t *testing.T) {
	for name, add := range map[string]func(b *dxftest.Builder){
		"negative weight": func(b *dxftest.Builder) {
			b.Spline(2, false, []float64{0, 0, 0, 1, 1, 1}, []float64{0, 0, 5, 5, 10, 0}, []float64{1, -1, 1})
		},
		"degree over points": func(b *dxftest.Builder) {
			b.Spline(5, false, []float64{0, 0, 0, 1, 1, 1}, []float64{0, 0, 5, 5, 10, 0}, nil)
		},
	} {
		b := plate(dxftest.MM, 1)
		add(b)
		s := build(t, b)
		if faultOf(s, "read-incomplete") == nil || !hasNote(s, "entity-skipped") {
			t.Errorf("%s: %s", name, describe(s))
		}
	}
}
