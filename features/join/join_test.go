package join

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"burrside/features/geom"
)

type pt = geom.Point

func line(x0, y0, x1, y1 float64) geom.Edge {
	return geom.LineEdge(pt{X: x0, Y: y0}, pt{X: x1, Y: y1})
}

func circle(x, y, r float64) geom.Edge { return geom.CircleEdge(pt{X: x, Y: y}, r) }

func poly(xy ...float64) []geom.Edge {
	var pts []pt
	for i := 0; i < len(xy); i += 2 {
		pts = append(pts, pt{X: xy[i], Y: xy[i+1]})
	}
	return geom.RingOf(pts...)
}

func rect(x0, y0, x1, y1 float64) []geom.Edge { return poly(x0, y0, x1, y0, x1, y1, x0, y1) }

// drawing collects inputs.
type drawing struct {
	in    []Input
	group int32
}

func (d *drawing) loose(es ...geom.Edge) *drawing {
	for _, e := range es {
		d.in = append(d.in, Input{Edge: e, Source: int32(len(d.in))})
	}
	return d
}

func (d *drawing) closed(es ...geom.Edge) *drawing {
	d.group++
	for _, e := range es {
		d.in = append(d.in, Input{Edge: e, Source: int32(len(d.in)), Group: d.group, Closed: true})
	}
	return d
}

func (d *drawing) join(t testing.TB, opt Options) *Result {
	t.Helper()
	r, err := Join(context.Background(), d.in, opt)
	if err != nil {
		t.Fatal(err)
	}
	check(t, r)
	return r
}

// check holds for every result: closed counter-clockwise rings that start at
// their canonical vertex, chains that hang together, parents before depth.
func check(t testing.TB, r *Result) {
	t.Helper()
	for i := range r.Contours {
		c := &r.Contours[i]
		ring := c.Ring()
		for k := range ring {
			if d := ring[k].To.Dist(ring[(k+1)%len(ring)].From); d != 0 {
				t.Errorf("contour %d: gap %g after edge %d", i, d, k)
			}
		}
		// A run there and back has no side; its area is the arithmetic's.
		if ring.Area() < -1e-12*ring.Length()*ring.Length() {
			t.Errorf("contour %d runs clockwise", i)
		}
		if len(ring) > 1 && ring.CanonicalStart() != 0 {
			t.Errorf("contour %d starts elsewhere", i)
		}
		if p := c.Parent; p >= 0 {
			if r.Contours[p].Depth+1 != c.Depth {
				t.Errorf("contour %d: depth %d, its parent's %d", i, c.Depth, r.Contours[p].Depth)
			}
		} else if c.Depth != 0 {
			t.Errorf("contour %d: depth %d without parent", i, c.Depth)
		}
		if c.ToolMark != (len(c.Crosses) > 0) {
			t.Errorf("contour %d: tool mark %v, crosses %v", i, c.ToolMark, c.Crosses)
		}
	}
	run := func(what string, c *Chain) {
		if len(c.Pieces) == 0 {
			t.Errorf("%s: empty", what)
		}
		for k := 1; k < len(c.Pieces); k++ {
			if d := c.Pieces[k-1].Edge.To.Dist(c.Pieces[k].Edge.From); d != 0 {
				t.Errorf("%s: gap %g before piece %d", what, d, k)
			}
		}
	}
	for i := range r.Chains {
		run(fmt.Sprint("chain ", i), &r.Chains[i])
	}
	for i := range r.Dividers {
		run(fmt.Sprint("divider ", i), &r.Dividers[i].Chain)
	}
}

// text tells a result in lines that do not hang on the order of anything.
func text(r *Result) string {
	var b strings.Builder
	z := func(v float64) float64 {
		v = math.Round(v*1e4) / 1e4
		if v == 0 {
			return 0
		}
		return v
	}
	pieces := func(ps []Piece) {
		for _, p := range ps {
			e := p.Edge
			fmt.Fprintf(&b, " (%g %g", z(e.From.X), z(e.From.Y))
			if e.IsArc() {
				fmt.Fprintf(&b, " arc %g %g r%g %v", z(e.Centre.X), z(e.Centre.Y), z(e.Radius), e.CCW)
			}
			fmt.Fprintf(&b, ")%d", p.Style)
		}
		e := ps[len(ps)-1].Edge
		fmt.Fprintf(&b, " (%g %g)\n", z(e.To.X), z(e.To.Y))
	}
	for i, c := range r.Contours {
		fmt.Fprintf(&b, "contour %d parent %d depth %d comp %d face %v mark %v crosses %v:", i, c.Parent, c.Depth, c.Component, c.Face, c.ToolMark, c.Crosses)
		pieces(c.Pieces)
	}
	for _, d := range r.Dividers {
		fmt.Fprintf(&b, "divider of %d on %v inside %d:", d.Contour, d.OnContour, d.Inside)
		pieces(d.Pieces)
	}
	for _, c := range r.Chains {
		fmt.Fprintf(&b, "chain on %v loose %v inside %d:", c.OnContour, c.Loose, c.Inside)
		pieces(c.Pieces)
	}
	for _, g := range r.Gaps {
		fmt.Fprintf(&b, "gap %g (%g %g) (%g %g) chain %d\n", z(g.SizeMM), z(g.From.X), z(g.From.Y), z(g.To.X), z(g.To.Y), g.Chain)
	}
	for _, n := range r.Notes {
		fmt.Fprintf(&b, "note %s %g x%d (%g %g)\n", n.Code, z(n.SizeMM), n.Count, z(n.At.X), z(n.At.Y))
	}
	return b.String()
}

// shuffled is the drawing in another order, with edges turned round and the
// groups numbered otherwise.
func shuffled(in []Input, rng *rand.Rand) []Input {
	out := slices.Clone(in)
	rng.Shuffle(len(out), func(i, k int) { out[i], out[k] = out[k], out[i] })
	for i := range out {
		if rng.IntN(2) == 0 {
			out[i].Edge = out[i].Edge.Reverse()
		}
		if out[i].Group > 0 {
			out[i].Group = 1000 - out[i].Group
		}
	}
	return out
}

// moved is the drawing under a motion.
func moved(in []Input, m geom.Motion) []Input {
	out := slices.Clone(in)
	for i := range out {
		out[i].Edge = out[i].Edge.Apply(m)
	}
	return out
}

// drawn are the cases: what is drawn, and what must come out.
var drawn = []struct {
	name string
	make func(d *drawing)
	want string
}{
	{"square of loose lines", func(d *drawing) { d.loose(rect(0, 0, 10, 10)...) },
		"contour 100"},
	{"circle", func(d *drawing) { d.loose(circle(0, 0, 5)) },
		"contour 78.5398"},
	{"plate with holes", func(d *drawing) {
		d.loose(rect(0, 0, 100, 60)...).loose(circle(20, 30, 5), circle(80, 30, 5))
	}, "contour 6000; contour 78.5398 in 0; contour 78.5398 in 0"},
	{"ring in ring in ring", func(d *drawing) {
		d.closed(rect(0, 0, 100, 100)...).closed(rect(10, 10, 90, 90)...).closed(rect(20, 20, 80, 80)...)
	}, "contour 10000; contour 6400 in 0; contour 3600 in 1"},
	{"divider", func(d *drawing) { d.loose(rect(0, 0, 100, 60)...).loose(line(40, 0, 40, 60)) },
		"contour 6000; divider of 0: 60; faces 2400 3600"},
	{"divider of a closed outline", func(d *drawing) { d.closed(rect(0, 0, 100, 60)...).loose(line(40, 0, 40, 60)) },
		"contour 6000; divider of 0: 60; faces 2400 3600"},
	{"divider that runs over on both sides", func(d *drawing) {
		d.closed(rect(0, 0, 100, 60)...).loose(line(40, -5, 40, 65))
	}, "contour 6000; divider of 0: 60; chain 5; chain 5; faces 2400 3600"},
	{"divider over a hole", func(d *drawing) {
		d.closed(rect(0, 0, 100, 60)...).loose(circle(40, 30, 10)).loose(line(40, 0, 40, 60))
	}, "contour 6000; contour 314.159 in 0; divider of 0: 20 20 20; faces 2400 3600"},
	{"divider broken at a hole", func(d *drawing) {
		d.closed(rect(0, 0, 100, 60)...).loose(circle(40, 30, 10)).loose(line(40, 0, 40, 20), line(40, 40, 40, 60))
	}, "contour 6000; contour 314.159 in 0; divider of 0: 20 x2"},
	{"line from the edge to a hole", func(d *drawing) {
		d.closed(rect(0, 0, 100, 60)...).loose(circle(40, 30, 10)).loose(line(40, 0, 40, 20))
	}, "contour 6000; contour 314.159 in 0; chain 20"},
	{"dividers that cross", func(d *drawing) {
		d.closed(rect(0, 0, 100, 60)...).loose(line(40, 0, 40, 60), line(0, 20, 100, 20))
	}, "contour 6000; divider of 0: 20; divider of 0: 40; divider of 0: 60; divider of 0: 40; faces 800 1200 1600 2400"},
	{"common cut of loose lines", func(d *drawing) {
		d.loose(rect(0, 0, 50, 60)...).loose(line(50, 0, 100, 0), line(100, 0, 100, 60), line(100, 60, 50, 60))
	}, "contour 6000 face; divider of 0: 60; faces 3000 3000"},
	{"common cut of two closed outlines", func(d *drawing) {
		d.closed(rect(0, 0, 50, 60)...).closed(rect(50, 0, 100, 60)...)
	}, "contour 6000 face; divider of 0: 60; faces 3000 3000; note duplicate-merged"},
	{"closed outlines that overlap by half a side", func(d *drawing) {
		d.closed(rect(0, 0, 50, 60)...).closed(rect(50, 30, 100, 90)...)
	}, "contour 6000 face; divider of 0: 30; faces 3000 3000; note overlap-merged"},
	{"lines added outside a closed outline", func(d *drawing) {
		d.closed(rect(0, 0, 50, 60)...).loose(line(50, 0, 100, 0), line(100, 0, 100, 60), line(100, 60, 50, 60))
	}, "contour 6000 face; divider of 0: 60; faces 3000 3000"},
	{"lines added at the middle of sides", func(d *drawing) {
		d.closed(rect(0, 0, 50, 60)...).loose(line(50, 10, 100, 10), line(100, 10, 100, 50), line(100, 50, 50, 50))
	}, "contour 5000 face; divider of 0: 40; faces 2000 3000"},
	{"circle over an edge", func(d *drawing) { d.closed(rect(0, 0, 100, 60)...).loose(circle(40, 0, 10)) },
		"contour 6000; mark 314.159 crosses 0 in -1"},
	{"circle over the edge of a loose outline with a divider", func(d *drawing) {
		d.loose(rect(0, 0, 100, 60)...).loose(line(70, 0, 70, 60)).loose(circle(40, 0, 10))
	}, "contour 6000; mark 314.159 crosses 0 in -1; divider of 0: 60; faces 1800 4200"},
	{"relief at a notch corner", func(d *drawing) {
		d.closed(poly(0, 0, 100, 0, 100, 60, 70, 60, 70, 40, 0, 40)...).loose(circle(70, 40, 3))
	}, "contour 4600; mark 28.2743 crosses 0 in -1"},
	{"tool mark over a window", func(d *drawing) {
		d.closed(rect(0, 0, 100, 60)...).closed(rect(20, 20, 60, 40)...).loose(circle(20, 20, 3))
	}, "contour 6000; contour 800 in 0; mark 28.2743 crosses 1 in 0"},
	{"self-touching outline", func(d *drawing) {
		d.closed(poly(0, 0, 10, 0, 10, 10, 20, 10, 20, 20, 10, 20, 10, 10, 0, 10)...)
	}, "contour 100 face; contour 100 face"},
	{"bow tie", func(d *drawing) { d.closed(poly(0, 0, 10, 10, 10, 0, 0, 10)...) },
		"contour 25 face; contour 25 face; note self-crossing"},
	{"hole that touches the outline at a corner", func(d *drawing) {
		d.loose(rect(0, 0, 30, 30)...).loose(poly(0, 0, 10, 5, 5, 10)...)
	}, "contour 900 face; contour 37.5 face in 0"},
	{"spur outside and inside", func(d *drawing) {
		d.closed(rect(0, 0, 30, 30)...).loose(line(30, 10, 50, 10), line(0, 20, 15, 20))
	}, "contour 900; chain 20; chain 15"},
	{"open outline", func(d *drawing) {
		d.loose(line(0, 0, 100, 0), line(100, 0, 100, 50), line(100, 50, 0, 50), line(0, 50, 0, 3))
	}, "chain 297; gap 3"},
	{"gap closed by a straight piece", func(d *drawing) {
		d.loose(line(0, 0, 100, 0), line(100, 0, 100, 50), line(100, 50, 0, 50), line(0, 50, 0, 20), line(0, 19.8, 0, 0))
	}, "contour 5000; note gap-closed"},
	{"corner drawn short", func(d *drawing) {
		d.loose(line(0.2, 0, 100, 0), line(100, 0, 100, 50), line(100, 50, 0, 50), line(0, 50, 0, 0.3))
	}, "contour 5000; note gap-closed"},
	{"corner overshot", func(d *drawing) {
		d.loose(line(-0.2, 0, 100, 0), line(100, 0, 100, 50), line(100, 50, 0, 50), line(0, 50, 0, -0.3))
	}, "contour 5000; chain 0.3; chain 0.2"},
	{"three ends in one place", func(d *drawing) {
		d.loose(line(0, 0, 100, 0), line(100.2, 0, 200, 0), line(100.1, 0.2, 100.1, 90))
	}, "chain 100; chain 99.8; chain 89.8; gap 0.2; gap 0.22361; note junction-unclear"},
	{"third end within three gaps of the left one only", func(d *drawing) {
		d.loose(line(0, 0, 100, 0), line(100.1, 0, 200, 0), line(99.78, 0.1, 99.78, 50))
	}, "chain 100; chain 99.9; chain 49.9; gap 0.1; gap 0.24166; note junction-unclear"},
	{"third end within three gaps of the right one only", func(d *drawing) {
		d.loose(line(0, 0, 100, 0), line(100.1, 0, 200, 0), line(100.32, 0.1, 100.32, 50))
	}, "chain 100; chain 99.9; chain 49.9; gap 0.1; gap 0.24166; note junction-unclear"},
	{"third end clear of both", func(d *drawing) {
		d.loose(line(0, 0, 100, 0), line(100.1, 0, 200, 0), line(100.45, 0.1, 100.45, 50))
	}, "chain 200; chain 49.9; note gap-closed"},
	{"bend line that stops short at both ends", func(d *drawing) {
		d.closed(rect(0, 0, 100, 60)...).loose(line(40, 0.3, 40, 59.8))
	}, "contour 6000; divider of 0: 60; faces 2400 3600; note gap-closed x2"},
	{"bend line that stops short at one end", func(d *drawing) {
		d.closed(rect(0, 0, 100, 60)...).loose(line(40, 0.3, 40, 50))
	}, "contour 6000; chain 49.7"},
	{"duplicates", func(d *drawing) {
		d.loose(rect(0, 0, 10, 10)...).loose(rect(0, 0, 10, 10)...).loose(circle(5, 5, 1), circle(5, 5, 1))
	}, "contour 100; contour 3.14159 in 0; note duplicate-merged x5"},
	{"near duplicates", func(d *drawing) {
		d.loose(rect(0, 0, 10, 10)...).loose(rect(0.0004, 0.0003, 10.0002, 10)...)
	}, "contour 100; note duplicate-merged x4"},
	{"copy five micrometres off", func(d *drawing) {
		d.closed(rect(0, 0, 10, 10)...).closed(rect(0.005, 0.005, 10.005, 10.005)...).loose(circle(5, 5, 1), circle(5.004, 5, 1))
	}, "contour 100; contour 3.14159 in 0; note duplicate-merged x5"},
	{"collinear overlap", func(d *drawing) {
		d.loose(line(0, 0, 60, 0), line(40, 0, 100, 0), line(100, 0, 100, 50), line(100, 50, 0, 50), line(0, 50, 0, 0))
	}, "contour 5000; note overlap-merged"},
	{"arcs that overlap to a circle", func(d *drawing) {
		d.loose(geom.ArcAngles(pt{}, 10, 0, 4), geom.ArcAngles(pt{}, 10, 3, 2*math.Pi))
	}, "contour 314.159; note overlap-merged"},
	{"arc over a circle", func(d *drawing) {
		d.loose(circle(0, 0, 10), geom.ArcAngles(pt{}, 10, 1, 4))
	}, "contour 314.159; note overlap-merged"},
	{"nearly a circle", func(d *drawing) { d.loose(geom.ArcAngles(pt{}, 10, 0, 359.5*math.Pi/180)) },
		"contour 314.159; note gap-closed"},
	{"zero length", func(d *drawing) { d.loose(rect(0, 0, 10, 10)...).loose(line(10, 10, 10, 10), line(3, 3, 3, 3.0005)) },
		"contour 100; note zero-length x2"},
	{"not finite", func(d *drawing) {
		d.loose(rect(0, 0, 10, 10)...).loose(line(math.NaN(), 0, 1, 1), line(math.Inf(1), 0, 1, 1))
	},
		"contour 100; note not-finite x2"},
	{"tangent arcs leave a vertex together", func(d *drawing) {
		// A slot of loose pieces with its centre divider: at the arc's ends line
		// and arc have the same tangent.
		d.loose(line(0, 0, 20, 0), geom.ArcEdge(pt{X: 20, Y: 5}, pt{X: 20}, pt{X: 20, Y: 10}, true), line(20, 10, 0, 10),
			geom.ArcEdge(pt{X: 0, Y: 5}, pt{Y: 10}, pt{}, true), line(20, 0, 20, 10), line(20, 0, 40, 0), line(40, 0, 40, 10), line(40, 10, 20, 10))
	}, "contour 439.27 face; divider of 0: 10; divider of 0: 15.708; faces 39.2699 160.73 239.27"},
	{"lid of two arcs and a chord", func(d *drawing) {
		d.loose(geom.BulgeEdge(pt{}, pt{X: 10}, 0.3), geom.BulgeEdge(pt{}, pt{X: 10}, -0.3), line(0, 0, 10, 0))
	}, "contour 20.3555 face; divider of 0: 10; faces 10.1777 10.1777"},
	{"letters H in one stroke", func(d *drawing) {
		d.loose(line(0, 0, 0, 10), line(5, 0, 5, 10), line(0, 5, 5, 5))
	}, "chain 5; chain 5; chain 5; chain 5; chain 5"},
	{"two outlines joined by a line", func(d *drawing) {
		d.loose(rect(0, 0, 10, 10)...).loose(rect(20, 0, 30, 10)...).loose(line(10, 0, 20, 0))
	}, "contour 100 face; contour 100 face; chain 10"},
	{"mesh of cells", func(d *drawing) {
		for i := range 4 {
			d.loose(line(0, float64(i)*10, 30, float64(i)*10), line(float64(i)*10, 0, float64(i)*10, 30))
		}
	}, "contour 900; divider of 0: 10 x12; faces 100 x9"},
}

// summary is the short form used by the cases.
func summary(t testing.TB, r *Result) string {
	var parts []string
	add := func(s string) {
		if n := len(parts); n > 0 {
			base, k, ok := strings.Cut(parts[n-1], " x")
			if base == s {
				c := 1
				if ok {
					fmt.Sscan(k, &c)
				}
				parts[n-1] = fmt.Sprintf("%s x%d", s, c+1)
				return
			}
		}
		parts = append(parts, s)
	}
	g := func(v float64) string { return fmt.Sprintf("%.6g", math.Round(v*1e5)/1e5) }
	for i := range r.Contours {
		c := &r.Contours[i]
		s := "contour " + g(c.Ring().Area())
		if c.ToolMark {
			s = fmt.Sprintf("mark %s crosses %s in %d", g(c.Ring().Area()), strings.Trim(fmt.Sprint(c.Crosses), "[]"), c.Parent)
			parts = append(parts, s)
			continue
		}
		if c.Face {
			s += " face"
		}
		if c.Parent >= 0 {
			s += fmt.Sprint(" in ", c.Parent)
		}
		parts = append(parts, s)
	}
	for i := range r.Dividers {
		s := fmt.Sprintf("divider of %d:", r.Dividers[i].Contour)
		for _, p := range r.Dividers[i].Pieces {
			s += " " + g(p.Edge.Length())
		}
		add(s)
	}
	for _, c := range r.Chains {
		l := 0.0
		for _, p := range c.Pieces {
			l += p.Edge.Length()
		}
		parts = append(parts, "chain "+g(l))
	}
	for _, gp := range r.Gaps {
		parts = append(parts, "gap "+g(gp.SizeMM))
	}
	for i := range r.Contours {
		var ds []Divider
		for _, d := range r.Dividers {
			if d.Contour == i {
				ds = append(ds, d)
			}
		}
		if len(ds) == 0 {
			continue
		}
		fs, err := Faces(context.Background(), &r.Contours[i], ds, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(fs) < 2 {
			continue
		}
		var areas []float64
		sum := 0.0
		for k := range fs {
			a := fs[k].Ring().Area()
			areas = append(areas, a)
			sum += a
		}
		if want := r.Contours[i].Ring().Area(); math.Abs(sum-want) > 1e-6*want {
			t.Errorf("faces of %d have %g, the contour %g", i, sum, want)
		}
		slices.Sort(areas)
		s := "faces"
		same := len(areas) > 4
		for _, a := range areas {
			same = same && g(a) == g(areas[0])
		}
		if same {
			s += fmt.Sprintf(" %s x%d", g(areas[0]), len(areas))
		} else {
			for _, a := range areas {
				s += " " + g(a)
			}
		}
		parts = append(parts, s)
	}
	for _, n := range r.Notes {
		s := "note " + n.Code
		for range n.Count {
			add(s)
		}
	}
	return strings.Join(parts, "; ")
}

func TestDrawn(t *testing.T) {
	for _, c := range drawn {
		t.Run(c.name, func(t *testing.T) {
			d := &drawing{}
			c.make(d)
			r := d.join(t, Options{})
			if got := summary(t, r); got != c.want {
				t.Errorf("got  %s\nwant %s\n%s", got, c.want, text(r))
			}
			want := text(r)
			rng := rand.New(rand.NewPCG(1, 9))
			for range 8 {
				in := shuffled(d.in, rng)
				s := (&drawing{in: in}).join(t, Options{})
				if got := text(s); got != want {
					t.Fatalf("shuffled:\n%s\nbefore:\n%s", got, want)
				}
			}
		})
	}
}
