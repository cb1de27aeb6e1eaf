package join

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"burrside/features/geom"
)

// arrange traces everything, with no loop kept whole.
func arrange(t testing.TB, in []Input) *work {
	t.Helper()
	b := newBase(context.Background(), in, Options{})
	b.noRaise = true
	if err := b.prepare(); err != nil {
		t.Fatal(err)
	}
	if err := b.findMeets(); err != nil {
		t.Fatal(err)
	}
	b.demoteOverlaps()
	w := newWork(b)
	w.prune()
	w.traceContours()
	return w
}

// invariants of a planar graph without loose ends: Euler's formula, each side
// of each edge in one face only, and the cells fill the blocks.
func invariants(t testing.TB, w *work) {
	t.Helper()
	verts, edges := 0, 0
	set := newUnion(len(w.verts))
	for i := range w.edges {
		if e := &w.edges[i]; !e.dead && !e.spur {
			edges++
			set.join(e.u, e.v)
		}
	}
	parts := 0
	for v := range w.verts {
		if w.liveDegree(int32(v)) > 0 {
			verts++
			if set.root(int32(v)) == int32(v) {
				parts++
			}
		}
	}
	used := make([]int, 2*len(w.edges))
	cells, blocks := 0.0, 0.0
	for _, c := range w.cells {
		cells += c.area
		for _, h := range c.halves {
			used[h]++
		}
	}
	for _, c := range w.contours {
		blocks += c.area
		for _, h := range c.halves {
			used[h^1]++ // run the other way
		}
	}
	// V - E + F = 1 + C with F = bounded faces + 1 (Euler).
	if len(w.cells) != edges-verts+parts {
		t.Errorf("%d cells, but %d edges, %d vertices, %d parts", len(w.cells), edges, verts, parts)
	}
	if math.Abs(cells-blocks) > 1e-6*max(1, blocks) {
		t.Errorf("cells have %g, blocks %g", cells, blocks)
	}
	for h, n := range used {
		e := &w.edges[h>>1]
		if e.dead || e.spur {
			continue
		}
		if n > 1 || n != used[h^1] && n+used[h^1] == 1 {
			t.Errorf("half-edge %d is used %d times, its twin %d", h, n, used[h^1])
		}
	}
}

// lattice is a random drawing of lines between whole points of a small raster:
// full of crossings, T joints, overlaps and copies.
func lattice(rng *rand.Rand) []Input {
	d := &drawing{}
	for range 3 + rng.IntN(25) {
		p := func() pt { return pt{X: float64(rng.IntN(8)) * 7, Y: float64(rng.IntN(8)) * 7} }
		a, b := p(), p()
		if a == b {
			continue
		}
		d.loose(geom.LineEdge(a, b))
	}
	return d.in
}

// curved is a random drawing of lines, arcs and circles, some of it closed
// entities.
func curved(rng *rand.Rand) []Input {
	d := &drawing{}
	p := func() pt { return pt{X: float64(rng.IntN(10)) * 10, Y: float64(rng.IntN(10)) * 10} }
	for range 1 + rng.IntN(8) {
		switch rng.IntN(6) {
		case 0:
			d.closed(rect(float64(rng.IntN(40)), float64(rng.IntN(40)), 50+float64(rng.IntN(40)), 50+float64(rng.IntN(40)))...)
		case 1:
			c := p()
			d.loose(circle(c.X, c.Y, 3+float64(rng.IntN(20))))
		case 2:
			a, b := p(), p()
			if a != b {
				d.loose(geom.BulgeEdge(a, b, rng.Float64()*2-1))
			}
		case 3:
			d.loose(rect(float64(rng.IntN(40)), float64(rng.IntN(40)), 50+float64(rng.IntN(40)), 50+float64(rng.IntN(40)))...)
		case 4:
			a, b, c := p(), p(), p()
			if a != b && b != c && a != c {
				d.closed(geom.LineEdge(a, b), geom.BulgeEdge(b, c, 0.4), geom.LineEdge(c, a))
			}
		default:
			a, b := p(), p()
			if a != b {
				d.loose(geom.LineEdge(a, b))
			}
		}
	}
	return d.in
}

func TestInvariants(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 1))
	cells := 0
	for n := range 4000 {
		in := lattice(rng)
		if n%2 == 1 {
			in = curved(rng)
		}
		w := arrange(t, in)
		invariants(t, w)
		cells += len(w.cells)
		if t.Failed() {
			t.Fatalf("case %d: %v", n, in)
		}
	}
	if cells < 10000 {
		t.Errorf("only %d cells in all", cells)
	}
}

// TestPolygonize compares the bounded faces with those that GEOS finds in the
// same lines (shapely's polygonize of the unary union): as many, with the same
// outer areas within the snap times the length round them.
func TestPolygonize(t *testing.T) {
	const python = "/usr/bin/python3"
	if out, err := exec.Command(python, "-c", "import shapely; print(shapely.__version__)").CombinedOutput(); err != nil {
		t.Skipf("no shapely: %v %s", err, out)
	}
	rng := rand.New(rand.NewPCG(12, 1))
	var cases [][]Input
	var data [][][4]float64
	for range 400 {
		in := lattice(rng)
		var lines [][4]float64
		for _, i := range in {
			lines = append(lines, [4]float64{i.Edge.From.X, i.Edge.From.Y, i.Edge.To.X, i.Edge.To.Y})
		}
		cases, data = append(cases, in), append(data, lines)
	}
	js, err := json.Marshal(data)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "-c", `
import sys, json
from shapely.geometry import LineString, Polygon
from shapely.ops import polygonize, unary_union
out = []
for lines in json.load(sys.stdin):
    u = unary_union([LineString([l[:2], l[2:]]) for l in lines])
    out.append(sorted(Polygon(p.exterior).area for p in polygonize(u)))
json.dump(out, sys.stdout)
`)
	cmd.Stdin = bytes.NewReader(js)
	res, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var want [][]float64
	if err := json.Unmarshal(res, &want); err != nil {
		t.Fatal(err)
	}
	total := 0
	for i, in := range cases {
		w := arrange(t, in)
		var got []float64
		for _, c := range w.cells {
			got = append(got, c.area)
		}
		slices.Sort(got)
		total += len(got)
		// Where three lines meet in one point GEOS leaves triangles of rounding.
		want[i] = slices.DeleteFunc(want[i], func(a float64) bool { return a < 1e-9 })
		if len(got) != len(want[i]) {
			t.Errorf("case %d: %d faces, GEOS has %d\n%v\n%v\n%v", i, len(got), len(want[i]), got, want[i], data[i])
			continue
		}
		for k := range got {
			if math.Abs(got[k]-want[i][k]) > 1e-3*200 {
				t.Errorf("case %d: face of %g, GEOS has %g", i, got[k], want[i][k])
			}
		}
	}
	if total < 1000 {
		t.Errorf("only %d faces compared", total)
	}
}

func TestShuffled(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 1))
	for n := range 1500 {
		in := lattice(rng)
		if n%2 == 1 {
			in = curved(rng)
		}
		want := text((&drawing{in: in}).join(t, Options{}))
		for range 3 {
			if got := text((&drawing{in: shuffled(in, rng)}).join(t, Options{})); got != want {
				t.Fatalf("case %d:\n%s\nshuffled:\n%s\n%v", n, want, got, in)
			}
		}
	}
}

// unmoved tells a result after taking a motion back: contours with their
// pieces, dividers and chains, each from its own canonical start, sorted.
func unmoved(r *Result, m geom.Motion, digits float64) string {
	z := func(v float64) float64 {
		// Halves of a digit occur; a third of one more and they do not.
		if v = math.Round(v*digits+0.137) / digits; v == 0 {
			return 0
		}
		return v
	}
	edge := func(e geom.Edge) string {
		s := fmt.Sprintf("%g %g %g %g", z(e.From.X), z(e.From.Y), z(e.To.X), z(e.To.Y))
		if e.IsArc() {
			s += fmt.Sprintf(" %g %g %g %v", z(e.Centre.X), z(e.Centre.Y), z(e.Radius), e.CCW)
		}
		return s
	}
	back := m.Inverse()
	var lines []string
	for i := range r.Contours {
		c := &r.Contours[i]
		s := fmt.Sprintf("contour depth %d face %v mark %v:", c.Depth, c.Face, c.ToolMark)
		for _, e := range c.Ring().Apply(back).Canonical() {
			s += " " + edge(e)
		}
		lines = append(lines, s)
	}
	run := func(what string, ps []Piece) {
		a, b := what, what
		for i := range ps {
			a += ", " + edge(ps[i].Edge.Apply(back))
			b += ", " + edge(ps[len(ps)-1-i].Edge.Apply(back).Reverse())
		}
		lines = append(lines, min(a, b))
	}
	for i := range r.Dividers {
		run("divider", r.Dividers[i].Pieces)
	}
	for i := range r.Chains {
		run("chain", r.Chains[i].Pieces)
	}
	slices.Sort(lines)
	return strings.Join(lines, "\n")
}

// differing are the lines that only one of the two has.
func differing(a, b string) string {
	la, lb := strings.Split(a, "\n"), strings.Split(b, "\n")
	var out []string
	for _, l := range la {
		if !slices.Contains(lb, l) {
			out = append(out, "- "+l)
		}
	}
	for _, l := range lb {
		if !slices.Contains(la, l) {
			out = append(out, "+ "+l)
		}
	}
	return strings.Join(out, "\n")
}

// unclearMarks: of two equal contours that cross, the place decides which is the
// tool mark.
func unclearMarks(r *Result) bool {
	for i := range r.Contours {
		for _, k := range r.Contours[i].Crosses {
			if math.Abs(r.Contours[i].Ring().Area()-r.Contours[k].Ring().Area()) < 0.01 {
				return true
			}
		}
	}
	return false
}

// TestMoved: quarter turns and shifts by whole millimetres change not a byte of
// the rounded result; a turn by 37 degrees changes no number by 1e-4.
func TestMoved(t *testing.T) {
	rng := rand.New(rand.NewPCG(14, 1))
	exact := []geom.Motion{
		geom.NewTurn(math.Pi / 2), geom.NewTurn(math.Pi), geom.NewTurn(-math.Pi / 2),
		geom.NewShift(pt{X: 1000, Y: -337}), geom.NewTurn(math.Pi / 2).Then(geom.NewShift(pt{X: -5000, Y: 12})),
	}
	skew := geom.NewTurn(37 * math.Pi / 180)
	for n := range 800 {
		in := lattice(rng)
		if n%2 == 1 {
			in = curved(rng)
		}
		r := (&drawing{in: in}).join(t, Options{})
		if unclearMarks(r) {
			continue
		}
		want := unmoved(r, geom.Motion{}, 1e4)
		for k, m := range exact {
			if got := unmoved((&drawing{in: moved(in, m)}).join(t, Options{}), m, 1e4); got != want {
				t.Fatalf("case %d, motion %d:\n%s\n%v", n, k, differing(want, got), in)
			}
		}
		s := (&drawing{in: moved(in, skew)}).join(t, Options{})
		if len(s.Contours) != len(r.Contours) || len(s.Dividers) != len(r.Dividers) || len(s.Chains) != len(r.Chains) {
			t.Fatalf("case %d turned by 37 degrees:\n%s\nturned:\n%s\n%v", n, want, unmoved(s, skew, 1e4), in)
		}
		areas := func(r *Result) (a []float64) {
			for i := range r.Contours {
				a = append(a, r.Contours[i].Ring().Area(), r.Contours[i].Ring().Length())
			}
			slices.Sort(a)
			return a
		}
		a, b := areas(r), areas(s)
		for i := range a {
			if math.Abs(a[i]-b[i]) > 1e-4 {
				t.Errorf("case %d: %g turned by 37 degrees %g", n, a[i], b[i])
			}
		}
	}
}

// liveDegree counts the edges at a vertex that are no spurs.
func (w *work) liveDegree(v int32) int {
	n := 0
	for _, h := range w.adj.at(v) {
		if !w.edges[h>>1].spur {
			n++
		}
	}
	return n
}
