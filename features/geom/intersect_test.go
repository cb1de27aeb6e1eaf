package geom

import (
	"math"
	"testing"
)

// The places are worked out by hand from right triangles and mirror images.
func TestIntersect(t *testing.T) {
	l := func(a, b, c, d float64) Edge { return LineEdge(Point{a, b}, Point{c, d}) }
	half := ArcAngles(Point{0, 0}, 5, 0, math.Pi)
	for _, c := range []struct {
		name    string
		a, b    Edge
		points  []Point
		touch   []bool
		overlap bool
	}{
		{"cross", l(0, 0, 10, 10), l(0, 10, 10, 0), []Point{{5, 5}}, []bool{false}, false},
		{"apart", l(0, 0, 10, 10), l(20, 0, 20, 10), nil, nil, false},
		{"end on side", l(0, 0, 10, 0), l(4, 0, 4, 8), []Point{{4, 0}}, []bool{true}, false},
		{"end just short of side", l(0, 0, 10, 0), l(4, 0.0009, 4, 8), []Point{{4, 0.0009}}, []bool{true}, false},
		{"end too short of side", l(0, 0, 10, 0), l(4, 0.0011, 4, 8), nil, nil, false},
		{"common end", l(0, 0, 10, 0), l(10, 0, 10, 8), []Point{{10, 0}}, []bool{true}, false},
		{"overlap", l(0, 0, 10, 0), l(14, 0, 4, 0), []Point{{4, 0}, {10, 0}}, []bool{true, true}, true},
		{"one in the other", l(0, 0, 10, 0), l(6, 0, 4, 0), []Point{{4, 0}, {6, 0}}, []bool{true, true}, true},
		{"end to end in line", l(0, 0, 10, 0), l(10, 0, 14, 0), []Point{{10, 0}}, []bool{true}, false},
		{"parallel", l(0, 0, 10, 0), l(0, 1, 10, 1), nil, nil, false},
		{"line through circle", l(-10, 3, 10, 3), CircleEdge(Point{}, 5), []Point{{-4, 3}, {4, 3}}, []bool{false, false}, false},
		{"line through the seam of a circle", l(0, 0, 10, 0), CircleEdge(Point{}, 5), []Point{{5, 0}}, []bool{false}, false},
		{"line through half circle", l(-10, -3, 10, -3), half, nil, nil, false},
		{"tangent line", l(-10, 5, 10, 5), half, []Point{{0, 5}}, []bool{true}, false},
		{"nearly tangent line", l(-10, 5.0005, 10, 5.0005), half, []Point{{0, 5.00025}}, []bool{true}, false},
		{"tangent line from its end", l(-5, 0, -5, -8), half, []Point{{-5, 0}}, []bool{true}, false},
		{"circles cross", CircleEdge(Point{}, 5), CircleEdge(Point{6, 0}, 5), []Point{{3, 4}, {3, -4}}, []bool{false, false}, false},
		{"circles touch outside", CircleEdge(Point{}, 5), CircleEdge(Point{8, 0}, 3), []Point{{5, 0}}, []bool{true}, false},
		{"circles touch inside", CircleEdge(Point{}, 5), CircleEdge(Point{0, 2}, 3), []Point{{0, 5}}, []bool{true}, false},
		{"concentric", CircleEdge(Point{}, 5), CircleEdge(Point{}, 4), nil, nil, false},
		{"arcs of one circle overlap", half, ArcAngles(Point{}, 5, math.Pi/2, 3*math.Pi/2), []Point{{0, 5}, {-5, 0}}, []bool{true, true}, true},
		{"arcs of one circle end to end", half, ArcAngles(Point{}, 5, math.Pi, 2*math.Pi), []Point{{5, 0}, {-5, 0}}, []bool{true, true}, false},
		{"arc on its circle", half, CircleEdge(Point{}, 5), []Point{{5, 0}, {-5, 0}}, []bool{true, true}, true},
		{"point on line", l(3, 0, 3, 0), l(0, 0, 10, 0), []Point{{3, 0}}, []bool{true}, false},
	} {
		x := Intersect(c.a, c.b, 1e-3)
		if x.Overlap != c.overlap || len(x.Points) != len(c.points) {
			t.Errorf("%s: %+v", c.name, x)
			continue
		}
		for i := range x.Points {
			if x.Points[i].Dist(c.points[i]) > 1e-3 || x.Touch[i] != c.touch[i] {
				t.Errorf("%s: %+v, want %v %v", c.name, x, c.points, c.touch)
			}
		}
		y := Intersect(c.b.Reverse(), c.a, 1e-3)
		if len(y.Points) != len(x.Points) || y.Overlap != x.Overlap {
			t.Errorf("%s: the other way round %+v", c.name, y)
		}
	}
}

func TestSimplify(t *testing.T) {
	square := RingOf(Point{5, 0}, Point{10, 0}, Point{10, 10}, Point{0, 10}, Point{0, 0})
	s, ids := square.SimplifyMap(1e-3)
	if len(s) != 4 || s.Area() != 100 {
		t.Errorf("square that starts in a side: %v", s)
	}
	for i, g := range ids {
		if s[i].From == (Point{0, 0}) && (len(g) != 2 || g[0] != 4 || g[1] != 0) {
			t.Errorf("pieces of the side across the start: %v", g)
		}
	}
	var quarters Ring
	for i := range 4 {
		quarters = append(quarters, ArcAngles(Point{3, 4}, 5, float64(i)*math.Pi/2, float64(i+1)*math.Pi/2))
	}
	c := quarters.Simplify(1e-3)
	if len(c) != 1 || !c[0].IsCircle() || c[0].Centre.Dist(Point{3, 4}) > 1e-9 || math.Abs(c[0].Radius-5) > 1e-9 {
		t.Errorf("four quarters: %v", c)
	}
	// A slit there and back is no straight run.
	slit := RingOf(Point{0, 0}, Point{10, 0}, Point{10, 5}, Point{4, 5}, Point{10, 5}, Point{10, 10}, Point{0, 10})
	if s := slit.Simplify(1e-3); math.Abs(s.Length()-52) > 1e-9 {
		t.Errorf("slit: %v", s)
	}
	// 3,600 chords of a circle of 100: every two neighbours are within 1e-3 of a
	// line (sagitta 100*(1-cos(0.1 degrees)) = 1.5e-4), all of them are not.
	var many Ring
	for i := range 3600 {
		many = append(many, LineEdge(onCircle(Point{}, 100, float64(i)*math.Pi/1800), onCircle(Point{}, 100, float64(i+1)*math.Pi/1800)))
	}
	if s := many.Simplify(1e-3); len(s) != 3600 {
		t.Errorf("many chords became %d", len(s))
	}
	if s := append(slices3(RingOf(Point{}, Point{1, 0}, Point{1, 1})), LineEdge(Point{}, Point{})).Simplify(1e-3); len(s) != 3 {
		t.Errorf("zero length stays: %v", s)
	}
}

func slices3(r Ring) Ring { return append(Ring{}, r...) }

func TestDegenerate(t *testing.T) {
	for _, r := range []Ring{
		nil, {Edge{}}, {LineEdge(Point{1, 1}, Point{1, 1})}, {LineEdge(Point{}, Point{5, 0}), LineEdge(Point{5, 0}, Point{})},
		{CircleEdge(Point{2, 2}, 3)}, {CircleEdge(Point{2, 2}, 3).Reverse()}, {CircleEdge(Point{}, 0)},
	} {
		for _, f := range []float64{r.Area(), r.Length(), r.Centroid().X, r.InnerPoint().Y, r.Bounds().Width(), LeastRectangle(r).Area(), Hull(r).Area()} {
			if math.IsNaN(f) || math.IsInf(f, 0) {
				t.Errorf("%v: %g", r, f)
			}
		}
		r.Canonical()
		r.Simplify(1e-3)
		r.SelfCrossings(1e-3)
		r.Inside(Point{1, 1}, 1e-3)
	}
	c := Ring{CircleEdge(Point{2, 2}, 3)}
	near(t, "circle", c.Area(), 9*math.Pi, 1e-12)
	near(t, "circle backwards", c.Reverse().Area(), -9*math.Pi, 1e-12)
	for p, want := range map[Point]Side{{2, 2}: In, {5, 2}: On, {2, 5}: On, {5.1, 2}: Out, {-1, 5}: Out, {-5, 5}: Out, {-5, -1}: Out, {2, 4.99}: In} {
		if got := c.Inside(p, 1e-3); got != want {
			t.Errorf("%v is %v, want %v", p, got, want)
		}
	}
	bow := RingOf(Point{0, 0}, Point{10, 10}, Point{10, 0}, Point{0, 10})
	if x := bow.SelfCrossings(1e-3); len(x) != 1 || x[0].Dist(Point{5, 5}) > 1e-9 {
		t.Errorf("bow tie crosses itself at %v", x)
	}
	if x := stadium(50, 20).SelfCrossings(1e-3); len(x) != 0 {
		t.Errorf("stadium crosses itself at %v", x)
	}
	if x := RingOf(Point{0, 0}, Point{10, 0}, Point{10, 10}, Point{20, 10}, Point{20, 20}, Point{10, 20}, Point{10, 10}, Point{0, 10}).SelfCrossings(1e-3); len(x) != 1 {
		t.Errorf("pinched ring touches itself at %v", x)
	}
	// Disc in disc: concentric, 5 - 2 apart all round, told at angle 0.
	pa, pb, d := Closest(CircleEdge(Point{}, 5), CircleEdge(Point{}, 2))
	if d != 3 || pa != (Point{5, 0}) || pb != (Point{2, 0}) {
		t.Errorf("concentric: %v %v %g", pa, pb, d)
	}
	// A small circle off centre in a large one: 10 - 3 - 2.
	_, _, d = Closest(CircleEdge(Point{}, 10), CircleEdge(Point{3, 0}, 2))
	near(t, "contained", d, 5, 1e-12)
}

func BenchmarkNearest(b *testing.B) {
	var edges []Edge
	var holes []Edge
	for i := range 100 {
		for k := range 100 {
			c := CircleEdge(Point{float64(i) * 20, float64(k) * 20}, 5)
			edges = append(edges, c)
			holes = append(holes, c)
		}
	}
	for b.Loop() {
		x := NewIndex(edges, 0)
		for i, h := range holes {
			x.NearestFunc(h, 100, func(id int) bool { return id != i })
		}
	}
}
