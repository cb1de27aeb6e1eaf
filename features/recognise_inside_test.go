package features

import (
	"math"
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// circleRing is a circle of n arcs.
func circleRing(r float64, n int) geom.Ring {
	if n == 1 {
		return geom.Ring{geom.CircleEdge(geom.Point{}, r)}
	}
	var v []pt
	for i := 0; i < n; i++ {
		s, c := math.Sincos(float64(i) * 2 * math.Pi / float64(n))
		v = append(v, pt{r * c, r * s, bulgeOf(2 * math.Pi / float64(n))})
	}
	return ringOf(v...)
}

func obroundRing(w, l float64) geom.Ring {
	c, r := (l-w)/2, w/2
	return ringOf(pt{-c, -r, 0}, pt{c, -r, 1}, pt{c, r, 0}, pt{-c, r, 1})
}

// roundedRing is a polygon with all corners rounded by r.
func roundedRing(r float64, p ...geom.Point) geom.Ring {
	var v []pt
	n := len(p)
	for i := range p {
		a, b := p[(i+n-1)%n].Sub(p[i]).Unit(), p[(i+1)%n].Sub(p[i]).Unit()
		if r == 0 {
			v = append(v, pt{p[i].X, p[i].Y, 0})
			continue
		}
		turn := math.Pi - math.Abs(turnRad(a, b))
		t := r * math.Tan(turn/2)
		f, g := p[i].Add(a.Mul(t)), p[i].Add(b.Mul(t))
		v = append(v, pt{f.X, f.Y, bulgeOf(turn)}, pt{g.X, g.Y, 0})
	}
	return ringOf(v...)
}

func polygonRing(n int, r float64, corner float64) geom.Ring {
	var p []geom.Point
	for i := 0; i < n; i++ {
		s, c := math.Sincos(float64(i) * 2 * math.Pi / float64(n))
		p = append(p, geom.Point{X: r * c, Y: r * s})
	}
	return roundedRing(corner, p...)
}

func boxRing(w, l, corner float64) geom.Ring {
	return roundedRing(corner, geom.Point{X: -l / 2, Y: -w / 2}, geom.Point{X: l / 2, Y: -w / 2}, geom.Point{X: l / 2, Y: w / 2}, geom.Point{X: -l / 2, Y: w / 2})
}

// curvedRing is a slot along an arc of radius r about the origin, its middle on the x axis.
func curvedRing(w, r, sweep float64) geom.Ring {
	at := func(rad, a float64) pt { s, c := math.Sincos(a); return pt{rad * c, rad * s, 0} }
	a, b, c, d := at(r+w/2, -sweep/2), at(r+w/2, sweep/2), at(r-w/2, sweep/2), at(r-w/2, -sweep/2)
	a.b, b.b, c.b, d.b = bulgeOf(sweep), 1, -bulgeOf(sweep), 1
	return ringOf(a, b, c, d)
}

// dRing is a circle of radius r cut off at y = -h.
func dRing(r, h float64) geom.Ring {
	x := math.Sqrt(r*r - h*h)
	return ringOf(pt{-x, -h, 0}, pt{x, -h, bulgeOf(math.Pi + 2*math.Asin(h/r))})
}

func doubleDRing(r, h float64) geom.Ring {
	x := math.Sqrt(r*r - h*h)
	s := bulgeOf(2 * math.Asin(h/r))
	return ringOf(pt{-x, -h, 0}, pt{x, -h, s}, pt{x, h, 0}, pt{-x, h, s})
}

// keyholeRing is a circle of radius r with a slot w wide whose end lies l from the centre.
func keyholeRing(r, w, l float64, flat bool) geom.Ring {
	h := w / 2
	x := math.Sqrt(r*r - h*h)
	s := bulgeOf(2*math.Pi - 2*math.Asin(h/r))
	if flat {
		return ringOf(pt{x, h, s}, pt{x, -h, 0}, pt{l, -h, 0}, pt{l, h, 0})
	}
	return ringOf(pt{x, h, s}, pt{x, -h, 0}, pt{l - h, -h, 1}, pt{l - h, h, 0})
}

// teardropRing is a circle of radius r drawn out to a point l from its centre.
func teardropRing(r, l float64) geom.Ring {
	a := math.Acos(r / l)
	s, c := math.Sincos(a)
	return ringOf(pt{r * c, r * s, bulgeOf(2*math.Pi - 2*a)}, pt{r * c, -r * s, 0}, pt{l, 0, 0})
}

// keyedRing is a bore of radius r with n keyways w wide and d deep from the circle.
func keyedRing(r, w, d float64, n int) geom.Ring {
	h := w / 2
	x := math.Sqrt(r*r - h*h)
	half := math.Asin(h / r)
	v := []pt{{x, -h, 0}, {r + d, -h, 0}, {r + d, h, 0}, {x, h, bulgeOf(2*math.Pi - 2*half)}}
	if n == 2 {
		v[3].b = bulgeOf(math.Pi - 2*half)
		for i := 0; i < 4; i++ {
			v = append(v, pt{-v[i].x, -v[i].y, v[i].b})
		}
	}
	return ringOf(v...)
}

func dogBoneRing(w, l, r float64) geom.Ring {
	s := bulgeOf(3 * math.Pi / 2)
	return ringOf(pt{r, 0, 0}, pt{l - r, 0, s}, pt{l, r, 0}, pt{l, w - r, s}, pt{l - r, w, 0}, pt{r, w, s}, pt{0, w - r, 0}, pt{0, r, s})
}

type insideCase struct {
	ring geom.Ring
	want want
}

// bruteRect is the least rectangle about r found by turning it in small steps:
// no hull, no calipers. Of equal ones that with the shorter long side.
func bruteRect(r geom.Ring) (short, long float64) {
	size := func(a float64) (w, h float64) {
		s, c := math.Sincos(a)
		u, v := geom.Point{X: c, Y: s}, geom.Point{X: -s, Y: c}
		x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, e := range r {
			x1, y1 = math.Max(x1, supportMax(e, u)), math.Max(y1, supportMax(e, v))
			x0, y0 = math.Min(x0, -supportMax(e, u.Mul(-1))), math.Min(y0, -supportMax(e, v.Mul(-1)))
		}
		return x1 - x0, y1 - y0
	}
	best, at := math.Inf(1), 0.0
	for k := 0; k < 360; k++ {
		a := float64(k) * math.Pi / 720
		if w, h := size(a); w*h < best {
			best, at = w*h, a
		}
	}
	step := math.Pi / 720
	for step > 1e-9 {
		for _, a := range []float64{at - step, at + step} {
			if w, h := size(a); w*h < best {
				best, at = w*h, a
			}
		}
		step /= 1.5
	}
	w, h := size(at)
	return math.Min(w, h), math.Max(w, h)
}

// box marks a cut-out; its least rectangle is computed by bruteRect.
func cutoutWant(w want) want { w.Kind = Cutout; return w }

// randomHole is a hole of a kind, with what it must be read as.
func randomHole(rng *rand.Rand, kind int) insideCase {
	w := between(rng, 4, 60)
	switch kind {
	case 0:
		return insideCase{circleRing(w, 1+rng.IntN(5)), want{Kind: RoundHole, Diameter: 2 * w}}
	case 1:
		l := w*1.03 + between(rng, 0.1, 100)
		return insideCase{obroundRing(w, l), want{Kind: Slot, Width: w, Length: l, Angle: math.Pi, noAngle: l-w < 5}}
	case 2:
		r := w/2 + between(rng, 10, 200)
		sweep := 0.3 + rng.Float64()*2
		return insideCase{curvedRing(w, r, sweep), want{Kind: CurvedSlot, Width: w, Length: r*sweep + w, Radius: r, Sweep: sweep, noAt: true, noAngle: true}}
	case 3:
		l := w + between(rng, 1, 100)
		r := 0.0
		if rng.IntN(2) == 0 {
			r = w * 0.2
		}
		return insideCase{boxRing(w, l, r), want{Kind: RectangularHole, Width: w, Length: l, Radius: r, Angle: math.Pi}}
	case 4:
		n := 5 + rng.IntN(7)
		return insideCase{polygonRing(n, w, 0), want{Kind: PolygonHole, Sides: n, Flats: 2 * w * math.Cos(math.Pi/float64(n))}}
	case 5:
		n := 5 + rng.IntN(4)
		r := 0.1 * w
		return insideCase{polygonRing(n, w, r), want{Kind: PolygonHole, Sides: n, Flats: 2 * w * math.Cos(math.Pi/float64(n)), Radius: r}}
	case 6:
		h := w * (0.2 + 0.6*rng.Float64())
		return insideCase{dRing(w, h), cutoutWant(want{Subkind: "d", Diameter: 2 * w, Flats: w + h, noAt: true})}
	case 7:
		h := w * (0.3 + 0.5*rng.Float64())
		return insideCase{doubleDRing(w, h), cutoutWant(want{Subkind: "double-d", Diameter: 2 * w, Flats: 2 * h, tol: 2e-4 / (1 - math.Sqrt(1-h*h/w/w))})}
	case 8:
		s := w * (0.4 + rng.Float64())
		l := w + 1.1*s + between(rng, 1, 60)
		flat := rng.IntN(2) == 0
		return insideCase{keyholeRing(w, s, l, flat), cutoutWant(want{Subkind: "keyhole", Diameter: 2 * w, Bottom: s, noAt: true})}
	case 9:
		l := w * (1.3 + rng.Float64())
		c := cutoutWant(want{Subkind: "teardrop", Diameter: 2 * w, Included: 2 * math.Asin(w/l), noAt: true})
		return insideCase{teardropRing(w, l), c}
	case 10:
		k := w * (0.3 + 0.3*rng.Float64())
		d := k * (0.3 + 0.6*rng.Float64())
		c := cutoutWant(want{Subkind: "keyed", Diameter: 2 * w, Steps: [][2]float64{{k, d}}, noAt: true})
		return insideCase{keyedRing(w, k, d, 1), c}
	case 11:
		k := w * (0.3 + 0.3*rng.Float64())
		d := k * (0.3 + 0.6*rng.Float64())
		c := cutoutWant(want{Subkind: "keyed", Diameter: 2 * w, Steps: [][2]float64{{k, d}, {k, d}}})
		return insideCase{keyedRing(w, k, d, 2), c}
	case 12:
		l := w + between(rng, 1, 100)
		x := l * (0.2 + 0.2*rng.Float64())
		// An ell: a rectangle without a corner.
		r := pointsRing(0, 0, l, 0, l, w/2, x, w/2, x, w, 0, w)
		return insideCase{r, cutoutWant(want{Subkind: "free", noAt: true})}
	default:
		l := w + between(rng, 3, 100)
		r := w * 0.12
		return insideCase{dogBoneRing(w, l, r), cutoutWant(want{Subkind: "free", Relief: "dog-bone", At: geom.Point{X: l / 2, Y: w / 2}})}
	}
}

const holeKinds = 14

// TestRandomHoles draws holes of known kind and size, moves, mirrors, splits
// and shakes them, and wants the same kind and size.
func TestRandomHoles(t *testing.T) {
	n := partCount(t, 14000)
	bad := 0
	for k := 0; k < n; k++ {
		rng := rand.New(rand.NewPCG(11, uint64(k)))
		c := randomHole(rng, k%holeKinds)
		if c.want.Kind == Cutout {
			c.want.Width, c.want.Length = bruteRect(c.ring)
		}
		m := randomRigid(rng)
		r := m.ring(c.ring)
		jitter := 0.0
		if k%5 > 0 {
			r = disturb(rng, r, 1e-4)
			jitter = 1e-4
		}
		if rng.IntN(3) == 0 {
			r = r.Reverse()
		}
		f := recogniseInside(r)
		tol := 1e-6
		if jitter > 0 {
			tol = baseTol
			if c.want.Kind == CurvedSlot {
				// A radius known from an arc's ends and rise.
				tol += 8 * jitter / (1 - math.Cos(c.want.Sweep/2))
			}
		}
		msg := matchWant(&f, &c.want, m, tol)
		if a := math.Abs(r.Area()); math.Abs(f.AreaMM2-a) > 1e-6*a || math.Abs(f.PerimeterMM-r.Length()) > 1e-6*r.Length() || f.Ring.Area() < 0 || f.Hole != -1 {
			msg += " area, perimeter, ring or hole"
		}
		if msg != "" {
			if bad++; bad <= 8 {
				t.Errorf("hole %d kind %d: %s\n%s\nwant %+v", k, k%holeKinds, msg, showFeature(&f), c.want)
			}
		}
	}
	if bad > 0 {
		t.Errorf("%d of %d holes", bad, n)
	}
}

// TestLeastRectangleOfNearlyEqualCircles: relief circles of a dog-boned opening
// that differ by a few 1e-5 mm gave a rectangle far too small.
func TestLeastRectangleOfNearlyEqualCircles(t *testing.T) {
	const k = 55173
	rng := rand.New(rand.NewPCG(11, k))
	c := randomHole(rng, k%holeKinds)
	f := recogniseInside(disturb(rng, randomRigid(rng).ring(c.ring), 1e-4))
	if w, l := bruteRect(c.ring); math.Abs(f.WidthMM-w) > baseTol || math.Abs(f.LengthMM-l) > baseTol {
		t.Errorf("%.3f x %.3f for %.3f x %.3f", f.WidthMM, f.LengthMM, w, l)
	}
}

// TestFacets: 12 sides are a circle, 11 are not; a chamfered square whose
// corners lie on a circle is none.
func TestFacets(t *testing.T) {
	for n := 12; n < 80; n++ {
		f := recogniseInside(polygonRing(n, 10, 0))
		if f.Kind != RoundHole || math.Abs(f.DiameterMM-20) > 1e-6 || !f.Fitted {
			t.Errorf("%d sides: %s", n, showFeature(&f))
		}
	}
	if f := recogniseInside(polygonRing(11, 10, 0)); f.Kind != PolygonHole || f.Sides != 11 {
		t.Errorf("11 sides: %s", showFeature(&f))
	}
	// Corners on one circle, sides of 80 and 10 degrees.
	var v []pt
	for i := 0; i < 4; i++ {
		for _, d := range []float64{-5, 5} {
			s, c := math.Sincos((float64(i)*90 + d) * math.Pi / 180)
			v = append(v, pt{50 * c, 50 * s, 0})
		}
	}
	if f := recogniseInside(ringOf(v...)); f.Kind != Cutout || f.Subkind != "free" {
		t.Errorf("chamfered square: %s", showFeature(&f))
	}
}

// TestNearMisses: shapes that are nearly a slot or rectangle and must not be
// taken for one, as the tool would cut metal that stays.
func TestNearMisses(t *testing.T) {
	free := map[string]geom.Ring{
		"slot with flat ends rounded less": roundedRing(9, geom.Point{}, geom.Point{X: 60}, geom.Point{X: 60, Y: 20}, geom.Point{Y: 20}),
		"slot with bulging ends":           ringOf(pt{0, 0, 0}, pt{40, 0, 0.8}, pt{40, 20, 0}, pt{0, 20, 0.8}),
		"slot with one flat end":           ringOf(pt{0, 0, 0}, pt{40, 0, 1}, pt{40, 20, 0}, pt{0, 20, 0}),
		"tapered slot":                     ringOf(pt{0, 0, 0}, pt{40, 1, 1}, pt{40, 19, 0}, pt{0, 20, 1}),
		"parallelogram":                    pointsRing(0, 0, 40, 0, 41, 20, 1, 20),
		"trapezoid":                        pointsRing(0, 0, 40, 0, 40, 20, 0, 21),
		"unequal corners": ringOf(pt{2, 0, 0}, pt{37, 0, quarter}, pt{40, 3, 0}, pt{40, 18, quarter}, pt{38, 20, 0}, pt{2, 20, quarter},
			pt{0, 18, 0}, pt{0, 2, quarter}),
		"ellipse of four arcs": ringOf(pt{30, 0, 0.3}, pt{0, 20, 0.3}, pt{-30, 0, 0.3}, pt{0, -20, 0.3}),
	}
	for name, r := range free {
		f := recogniseInside(r)
		switch name {
		case "slot with flat ends rounded less":
			if f.Kind != RectangularHole || math.Abs(f.RadiusMM-9) > 1e-9 {
				t.Errorf("%s: %s", name, showFeature(&f))
			}
		default:
			if f.Kind != Cutout || f.Subkind != "free" {
				t.Errorf("%s: %s", name, showFeature(&f))
			}
		}
	}
}
