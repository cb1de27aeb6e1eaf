package dxfread_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// walk gives all that is placed in model space.
func walk(t *testing.T, d *dxfread.Drawing, lim dxfread.Limits) ([]dxfread.Placed, *dxfread.Placing) {
	t.Helper()
	p := d.Place(d.Model, lim)
	most := p.AtMost()
	var out []dxfread.Placed
	for pl := range p.All(context.Background()) {
		out = append(out, pl)
	}
	if len(out) > most {
		t.Errorf("%d entities were placed, at most %d announced", len(out), most)
	}
	return out, p
}

// TestAtMost counts by hand: 2 lines and 3 x 2 times (1 circle and 4 times 1
// circle) are 32.
func TestAtMost(t *testing.T) {
	b := dxftest.New(dxftest.MM).Line(0, 0, 1, 0).Line(0, 0, 0, 1)
	b.Block("INNER", 0, 0, func(b *dxftest.Builder) { b.Circle(0, 0, 1) })
	b.Block("OUTER", 0, 0, func(b *dxftest.Builder) {
		b.Circle(0, 0, 2).Insert("INNER", 0, 0, dxftest.Placing{Columns: 4, Rows: 1, ColSpacing: 1, RowSpacing: 1})
	})
	b.Insert("OUTER", 0, 0, dxftest.Placing{Columns: 3, Rows: 2, ColSpacing: 9, RowSpacing: 9})
	d := read(t, b.As(dxftest.Forms()[0]))
	for limit, want := range map[int]int{0: 32, 40: 32, 20: 20} {
		if got := d.Place(d.Model, dxfread.Limits{Placed: limit}).AtMost(); got != want {
			t.Errorf("limit %d: at most %d, want %d", limit, got, want)
		}
	}
	if placed, _ := walk(t, d, dxfread.Limits{}); len(placed) != 32 {
		t.Errorf("%d placed", len(placed))
	}
}

func near(a, b dxfread.Vec) bool {
	return math.Abs(a.X-b.X) < 1e-9 && math.Abs(a.Y-b.Y) < 1e-9 && math.Abs(a.Z-b.Z) < 1e-9
}

// TestArbitraryAxis holds OCS against the axes that follow from the rule by
// hand (DXF reference, "Arbitrary Axis Algorithm"): Wy x N if |Nx| and |Ny| are
// both below 1/64, else Wz x N.
func TestArbitraryAxis(t *testing.T) {
	r := math.Sqrt(0.5)
	for _, c := range []struct{ n, x, y dxfread.Vec }{
		{dxfread.Vec{Z: 1}, dxfread.Vec{X: 1}, dxfread.Vec{Y: 1}},
		{dxfread.Vec{Z: 7}, dxfread.Vec{X: 1}, dxfread.Vec{Y: 1}},
		{dxfread.Vec{Z: -1}, dxfread.Vec{X: -1}, dxfread.Vec{Y: 1}},
		{dxfread.Vec{X: 1}, dxfread.Vec{Y: 1}, dxfread.Vec{Z: 1}},
		{dxfread.Vec{Y: 1}, dxfread.Vec{X: -1}, dxfread.Vec{Z: 1}},
		{dxfread.Vec{Y: -1}, dxfread.Vec{X: 1}, dxfread.Vec{Z: 1}},
		{dxfread.Vec{X: -1}, dxfread.Vec{Y: -1}, dxfread.Vec{Z: 1}},
		{dxfread.Vec{X: r, Z: r}, dxfread.Vec{Y: 1}, dxfread.Vec{X: -r, Z: r}},
		{dxfread.Vec{}, dxfread.Vec{X: 1}, dxfread.Vec{Y: 1}},
	} {
		m := dxfread.OCS(c.n)
		if x, y := m.Apply(dxfread.Vec{X: 1}), m.Apply(dxfread.Vec{Y: 1}); !near(x, c.x) || !near(y, c.y) {
			t.Errorf("normal %v: x %v y %v, want %v %v", c.n, x, y, c.x, c.y)
		}
		if math.Abs(m.Det()-1) > 1e-12 {
			t.Errorf("normal %v: determinant %g", c.n, m.Det())
		}
	}
	// On either side of 1/64 the x axis is another one.
	in, out := 1.0/64-1e-6, 1.0/64+1e-6
	if x := dxfread.OCS(dxfread.Vec{X: in, Z: math.Sqrt(1 - in*in)}).Apply(dxfread.Vec{X: 1}); x.X < 0.9 {
		t.Errorf("just below 1/64 the x axis is %v", x)
	}
	if x := dxfread.OCS(dxfread.Vec{X: out, Z: math.Sqrt(1 - out*out)}).Apply(dxfread.Vec{X: 1}); x.Y < 0.9 {
		t.Errorf("just above 1/64 the x axis is %v", x)
	}
	if d := dxfread.OCS(dxfread.Vec{Z: -1}).DetXY(); d != -1 {
		t.Errorf("seen from above, an extrusion of (0,0,-1) must mirror: %g", d)
	}
}

// TestBulge holds the sign and size of bulges as they are read: 90 degrees
// counter-clockwise is 0.41421356, 180 degrees 1, clockwise negative (DXF
// reference, LWPOLYLINE group 42: tangent of a quarter of the included angle).
func TestBulge(t *testing.T) {
	for _, c := range []struct{ deg, bulge float64 }{{90, 0.41421356}, {180, 1.0}, {-90, -0.41421356}} {
		if got := math.Tan(c.deg / 4 * math.Pi / 180); math.Abs(got-c.bulge) > 1e-6 {
			t.Errorf("%g degrees: %g", c.deg, got)
		}
		b := dxftest.New(dxftest.MM).Polyline(true, dxftest.V{X: 1}, dxftest.V{X: 2}, dxftest.V{X: 3, Bulge: c.bulge})
		b.OldPolyline(true, dxftest.V{X: 1}, dxftest.V{X: 2}, dxftest.V{X: 3, Bulge: c.bulge})
		for _, e := range b.Drawing(t).Model {
			if vs := e.(*dxfread.Polyline).Vertices; vs[2].Bulge != c.bulge || vs[0].Bulge != 0 || vs[1].Bulge != 0 {
				t.Errorf("%s: bulges %+v", e.Name(), vs)
			}
		}
	}
}

func TestPlaceOnce(t *testing.T) {
	for _, c := range []struct {
		name  string
		how   dxftest.Placing
		point dxfread.Vec // where (3,1) of the block ends, base (1,1), insert at (100,50)
	}{
		{"plain", dxftest.Placing{}, dxfread.Vec{X: 102, Y: 50}},
		{"turned", dxftest.Placing{AngleDeg: 90}, dxfread.Vec{X: 100, Y: 52}},
		{"turned back", dxftest.Placing{AngleDeg: -90}, dxfread.Vec{X: 100, Y: 48}},
		{"30 degrees", dxftest.Placing{AngleDeg: 30}, dxfread.Vec{X: 100 + 2*math.Sqrt(3)/2, Y: 51}},
		{"scaled", dxftest.Placing{ScaleX: 3, ScaleY: 3, ScaleZ: 3}, dxfread.Vec{X: 106, Y: 50}},
		{"mirrored", dxftest.Placing{ScaleX: -1}, dxfread.Vec{X: 98, Y: 50}},
		{"mirrored and turned", dxftest.Placing{ScaleX: -1, AngleDeg: 90}, dxfread.Vec{X: 100, Y: 48}},
		{"unequal", dxftest.Placing{ScaleX: 2, ScaleY: 5, AngleDeg: 180}, dxfread.Vec{X: 96, Y: 50}},
		{"z scale 0", dxftest.Placing{ZeroZ: true}, dxfread.Vec{X: 102, Y: 50}},
	} {
		b := dxftest.New(dxftest.MM).Block("B", 1, 1, func(b *dxftest.Builder) { b.Line(1, 1, 3, 1) })
		b.Insert("B", 100, 50, c.how)
		d := b.Drawing(t)
		got, p := walk(t, d, dxfread.Limits{})
		if len(got) != 1 {
			t.Fatalf("%s: %d placed", c.name, len(got))
		}
		l := got[0].Entity.(*dxfread.Line)
		from, to := got[0].Map.Apply(l.From), got[0].Map.Apply(l.To)
		if !near(from, dxfread.Vec{X: 100, Y: 50}) || !near(to, c.point) {
			t.Errorf("%s: from %v to %v, want %v", c.name, from, to, c.point)
		}
		if c.how.ZeroZ != (noteCount(d, "scale-zero") == 1) || len(p.Notes()) > 0 {
			t.Errorf("%s: notes %+v %+v", c.name, d.Notes, p.Notes())
		}
		scale, same := got[0].Map.IsSimilarity(1e-9)
		switch {
		case c.name == "unequal" && same, c.name != "unequal" && !same, c.name == "scaled" && math.Abs(scale-3) > 1e-12:
			t.Errorf("%s: similarity %g %v", c.name, scale, same)
		case (got[0].Map.DetXY() < 0) != (c.how.ScaleX < 0):
			t.Errorf("%s: determinant %g", c.name, got[0].Map.DetXY())
		}
	}
}

// TestPlaceArray: columns and rows run along the turned axes and are not scaled.
func TestPlaceArray(t *testing.T) {
	b := dxftest.New(dxftest.MM).Block("B", 0, 0, func(b *dxftest.Builder) { b.Point(0, 0) })
	b.Insert("B", 10, 20, dxftest.Placing{AngleDeg: 90, ScaleX: 2, ScaleY: 2, Columns: 3, Rows: 2, ColSpacing: 5, RowSpacing: 7})
	got, _ := walk(t, b.Drawing(t), dxfread.Limits{})
	var text []string
	for _, pl := range got {
		v := pl.Map.Apply(dxfread.Vec{})
		text = append(text, fmt.Sprintf("%g,%g", v.X, v.Y))
	}
	if s := strings.Join(text, " "); s != "10,20 10,25 10,30 3,20 3,25 3,30" {
		t.Errorf("cells at %s", s)
	}
}

// TestPlaceNested: maps are chained, layer 0 and by-block go inward, the path
// is kept, attributes come as texts and definitions of attributes do not.
func TestPlaceNested(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Linetype("DASHED", 5, -3)
	b.LayerWith("OUT", dxftest.LayerOptions{Colour: 1, Linetype: "DASHED"})
	b.LayerWith("MID", dxftest.LayerOptions{Colour: 3, Frozen: true})
	b.LayerWith("OWN", dxftest.LayerOptions{Colour: 5, Off: true}).Layer("0")
	b.Block("IN", 0, 0, func(b *dxftest.Builder) {
		b.Layer("0").UseColour(0).UseLinetype("BYBLOCK").Line(0, 0, 1, 0)
		b.UseColour(256).UseLinetype("").Line(0, 0, 2, 0)
		b.Layer("OWN").Line(0, 0, 3, 0)
		b.Raw("ATTDEF", "AcDbText", dxftest.Pair{Code: 10, Value: 0.0}, dxftest.Pair{Code: 20, Value: 0.0}, dxftest.Pair{Code: 40, Value: 1.0}, dxftest.Pair{Code: 1, Value: "x"}, dxftest.Pair{Code: 2, Value: "NO"}, dxftest.Pair{Code: 70, Value: 0})
		b.Layer("0")
	})
	b.Block("MIDDLE", 0, 0, func(b *dxftest.Builder) {
		b.Layer("0").UseColour(0).UseLinetype("BYBLOCK").Insert("IN", 10, 0, dxftest.Placing{AngleDeg: 90})
		b.UseColour(256).UseLinetype("").Layer("MID").Insert("in", 0, 0)
		b.Layer("0")
	})
	b.Layer("OUT").UseColour(4).Insert("MIDDLE", 100, 200, dxftest.Placing{ScaleX: 2, ScaleY: 2, ScaleZ: 2,
		Attributes: []dxftest.Attribute{{Tag: "NO", Value: "7", X: 1, Y: 2, Height: 3}}})
	d := b.Drawing(t)
	got, p := walk(t, d, dxfread.Limits{})
	var lines []string
	for _, pl := range got {
		at := "text"
		if l, ok := pl.Entity.(*dxfread.Line); ok {
			v := pl.Map.Apply(l.To)
			at = fmt.Sprintf("%g,%g", v.X, v.Y)
		}
		lines = append(lines, fmt.Sprintf("%s layer %s type %s colour %d path %s depth %d hidden %q",
			at, d.Layers[pl.Layer].Name, d.Types[pl.Linetype].Name, pl.Colour, strings.Join(p.Path(pl.Block), "/"), pl.Depth, pl.Hidden))
	}
	want := []string{
		`120,202 layer OUT type DASHED colour 4 path MIDDLE/IN depth 2 hidden ""`,
		`120,204 layer OUT type DASHED colour 1 path MIDDLE/IN depth 2 hidden ""`,
		`120,206 layer OWN type CONTINUOUS colour 5 path MIDDLE/IN depth 2 hidden "layer off"`,
		`102,200 layer MID type CONTINUOUS colour 3 path MIDDLE/in depth 2 hidden "layer frozen, layer of the insert frozen"`,
		`104,200 layer MID type CONTINUOUS colour 3 path MIDDLE/in depth 2 hidden "layer frozen, layer of the insert frozen"`,
		`106,200 layer OWN type CONTINUOUS colour 5 path MIDDLE/in depth 2 hidden "layer off, layer of the insert frozen"`,
		`text layer OUT type DASHED colour 4 path MIDDLE depth 1 hidden ""`,
	}
	if a, b := strings.Join(lines, "\n"), strings.Join(want, "\n"); a != b {
		t.Errorf("placed:\n%s\nwant:\n%s", a, b)
	}
	if len(p.Path(-1)) != 0 {
		t.Error("the top has a path")
	}
}

// TestPlaceByHand holds two placements that other readers get wrong, worked out
// on paper step by step: less base, scaled, turned, moved, twice.
func TestPlaceByHand(t *testing.T) {
	for _, c := range []struct {
		name         string
		inner, outer dxftest.Placing
		sumX, sumY   float64 // of both ends of all lines
	}{
		// (0,0) -2,-3 -> 2,-3 -> 3,2 -> 53,62; (10,1) -> 52,52; then -1,-1 -> x 1, y 3 -> 52,183 -> -183,52 -> -83,252 and -53,251.
		{"turned in unequal", dxftest.Placing{AngleDeg: 90, ScaleX: -1}, dxftest.Placing{AngleDeg: 90, ScaleY: 3}, -136, 503},
		// Columns (0,7), rows (11,0); the ends of the first cell at 53,58 and 52,68; x of all 12 ends is 762, less 12, mirrored, plus 1200;
		// y is 6*126 + 2*3*7 = 798, less 12, plus 2400.
		{"array in mirrored", dxftest.Placing{AngleDeg: 90, Columns: 2, Rows: 3, ColSpacing: 7, RowSpacing: -11}, dxftest.Placing{ScaleX: -1}, 450, 3186},
	} {
		b := dxftest.New(dxftest.MM).Block("A", 2, 3, func(b *dxftest.Builder) { b.Line(0, 0, 10, 1) })
		b.Block("B", 1, 1, func(b *dxftest.Builder) { b.Insert("A", 50, 60, c.inner) }).Insert("B", 100, 200, c.outer)
		got, _ := walk(t, b.Drawing(t), dxfread.Limits{})
		x, y := 0.0, 0.0
		for _, pl := range got {
			l := pl.Entity.(*dxfread.Line)
			for _, v := range []dxfread.Vec{l.From, l.To} {
				v = pl.Map.Apply(v)
				x, y = x+v.X, y+v.Y
			}
		}
		if math.Abs(x-c.sumX) > 1e-9 || math.Abs(y-c.sumY) > 1e-9 {
			t.Errorf("%s: %g %g, want %g %g", c.name, x, y, c.sumX, c.sumY)
		}
	}
}

// TestPlaceExtrusion: an insert in a turned plane, and a circle in its own.
func TestPlaceExtrusion(t *testing.T) {
	b := dxftest.New(dxftest.MM).Block("B", 0, 0, func(b *dxftest.Builder) {
		b.UseExtrusion(0, 0, -1).Circle(3, 1, 1).UseExtrusion(0, 0, 1).Circle(3, 1, 1)
	})
	b.UseExtrusion(0, 0, -1).Insert("B", 10, 20).UseExtrusion(0, 0, 1)
	got, _ := walk(t, b.Drawing(t), dxfread.Limits{})
	for i, want := range []dxfread.Vec{{X: -7, Y: 21}, {X: -13, Y: 21}} {
		if v := func() dxfread.Vec { m := got[i].Full(); return m.Apply(dxfread.Vec{X: 3, Y: 1}) }(); !near(v, want) {
			t.Errorf("circle %d at %v, want %v", i, v, want)
		}
	}
}

func TestPlaceFaults(t *testing.T) {
	block := func(name, body string) string {
		return "0 BLOCK|8 0|2 " + name + "|70 0|10 0|20 0|" + body + "0 ENDBLK|"
	}
	line := "0 LINE|8 0|10 0|20 0|11 1|21 0|"
	file := func(blocks, model string) []byte {
		return pairs("0 SECTION|2 BLOCKS|" + blocks + "0 ENDSEC|0 SECTION|2 ENTITIES|" + model + "0 ENDSEC|0 EOF")
	}
	for _, c := range []struct {
		name   string
		data   []byte
		note   string
		placed int
	}{
		{"missing", file("", "0 INSERT|8 0|2 X|10 0|20 0|"), "block-missing", 0},
		{"cycle of one", file(block("A", line+"0 INSERT|8 0|2 A|10 0|20 0|"), "0 INSERT|8 0|2 A|10 0|20 0|"), "block-cycle", 1},
		{"cycle of two", file(block("A", line+"0 INSERT|8 0|2 B|10 0|20 0|")+block("B", line+"0 INSERT|8 0|2 a|10 0|20 0|"), "0 INSERT|8 0|2 A|10 0|20 0|0 INSERT|8 0|2 B|10 0|20 0|"), "block-cycle", 4},
		{"cycle of nothing", file(block("A", "0 INSERT|8 0|2 A|10 0|20 0|"), "0 INSERT|8 0|2 A|10 0|20 0|"), "block-cycle", 0},
		{"external", file("0 BLOCK|8 0|2 A|70 4|1 other.dwg|0 ENDBLK|", "0 INSERT|8 0|2 A|10 0|20 0|"), "xref", 0},
		{"model space", file(block("*Model_Space", ""), "0 INSERT|8 0|2 *Model_Space|10 0|20 0|"), "block-missing", 0},
		{"huge array", file(block("A", line), "0 INSERT|8 0|2 A|10 0|20 0|70 32767|71 32767|44 1|45 1|"), "too-many-placed", 1000},
		{"huge array of an empty array", file(block("A", line)+block("E", "")+block("F", "0 INSERT|8 0|2 E|10 0|20 0|70 32767|71 32767|"), "0 INSERT|8 0|2 F|10 0|20 0|70 32767|71 32767|"+line), "", 1},
		{"no name", file(block("", line), "0 INSERT|8 0|2 |10 0|20 0|"), "", 1},
		{"absurd scale", file(block("A", line+"0 INSERT|8 0|2 B|10 0|20 0|41 1e17|")+block("B", line), "0 INSERT|8 0|2 A|10 0|20 0|41 1e17|"), "placement-absurd", 1},
		{"no ENDBLK", file("0 BLOCK|8 0|2 A|"+line, "0 INSERT|8 0|2 A|10 0|20 0|"), "endblk-missing", 1},
		{"twice", file(block("A", line)+block("a", line+line), "0 INSERT|8 0|2 A|10 0|20 0|"), "block-repeated", 2},
	} {
		d, err := decode(t, c.data)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		got, p := walk(t, d, dxfread.Limits{Placed: 1000})
		if len(got) != c.placed {
			t.Errorf("%s: %d placed, want %d", c.name, len(got), c.placed)
		}
		codes := ""
		for _, n := range append(p.Notes(), d.Notes...) {
			codes += n.Code + " "
		}
		if c.note == "" && codes != "" || !strings.Contains(codes, c.note) {
			t.Errorf("%s: notes %q, want %q", c.name, codes, c.note)
		}
	}
}

// TestPlaceDeep: a chain of blocks deeper than the limit, each an array, so
// that the number of cells would be 100 to the power of 60.
func TestPlaceDeep(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Block("B0", 0, 0, func(b *dxftest.Builder) { b.Point(0, 0) })
	for i := 1; i <= 60; i++ {
		b.Block(fmt.Sprint("B", i), 0, 0, func(b *dxftest.Builder) {
			b.Insert(fmt.Sprint("B", i-1), 0, 0, dxftest.Placing{Columns: 10, Rows: 10, ColSpacing: 1, RowSpacing: 1})
		})
	}
	b.Insert("B60", 0, 0)
	d := b.Drawing(t)
	got, p := walk(t, d, dxfread.Limits{Placed: 10000})
	codes := map[string]int{}
	for _, n := range p.Notes() {
		codes[n.Code] = n.Count
	}
	if len(got) != 0 || codes["too-deep"] == 0 || codes["too-many-placed"] != 1 {
		t.Errorf("%d placed, notes %v", len(got), codes)
	}
	d.Model[0].(*dxfread.Insert).Block = "B2"
	if got, p = walk(t, d, dxfread.Limits{}); len(got) != 10000 || len(p.Notes()) > 0 {
		t.Errorf("%d placed, notes %v", len(got), p.Notes())
	}
	if got, _ = walk(t, d, dxfread.Limits{Depth: 3}); len(got) != 10000 {
		t.Errorf("a depth of 3 must be met by three inserts: %d placed", len(got))
	}
	if got, p = walk(t, d, dxfread.Limits{Depth: 2}); len(got) != 0 || p.Notes()[0].Code != "too-deep" {
		t.Errorf("%d placed, notes %v", len(got), p.Notes())
	}
}

// TestPlaceContext: the end of the context ends the walk, also from within it.
func TestPlaceContext(t *testing.T) {
	b := dxftest.New(dxftest.MM).Block("A", 0, 0, func(b *dxftest.Builder) { b.Point(0, 0) })
	b.Insert("A", 0, 0, dxftest.Placing{Columns: 1000, Rows: 1000, ColSpacing: 1, RowSpacing: 1})
	d := b.Drawing(t)
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	p := d.Place(d.Model, dxfread.Limits{})
	n := 0
	for range p.All(ctx) {
		if n++; n == 1000 {
			cancel()
		}
	}
	if n < 1000 || n > 1200 || p.Err() == nil {
		t.Errorf("%d placed after the end at 1000, %v", n, p.Err())
	}
	n = 0
	for range p.All(context.Background()) {
		if n++; n == 10 {
			break
		}
	}
	if n != 10 || p.Err() != nil {
		t.Errorf("%d placed, %v", n, p.Err())
	}
}
