// Package dxftest builds drawings for tests, reads the expectations that are
// written inside them (layer WANT), and prints a Drawing as text for goldens.
//
//	b := dxftest.New(dxftest.MM)
//	b.Layer("CUT").Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
//	b.Circle(40, 100, 11)
//	b.Block("HOLE", 0, 0, func(b *dxftest.Builder) { b.Circle(0, 0, 11) })
//	b.Insert("HOLE", 120, 100, dxftest.Placing{AngleDeg: 30})
//	b.Want(40, 100, 0.1, "edge-distance got=20 limit=26.4")
//	d := b.Drawing(t)       // through the reader
//	raw := b.Bytes()        // ASCII, 2007
//	old := b.As(dxftest.BinaryR12)
//	other, err := b.ByLibrary() // written by github.com/yofu/dxf
package dxftest

import (
	"context"
	"testing"

	"burrside/dxfread"
)

// Unit is a value of $INSUNITS.
type Unit int

// The units that parts are drawn in. NoUnit writes no $INSUNITS at all.
const (
	NoUnit   Unit = -1
	Unitless Unit = 0
	Inch     Unit = 1
	Foot     Unit = 2
	MM       Unit = 4
	CM       Unit = 5
	Metre    Unit = 6
)

// V is a corner of a polyline; Bulge is the tangent of a quarter of the angle
// of the arc to the next corner, positive counter-clockwise.
type V struct{ X, Y, Bulge float64 }

// Rect gives the corners of a rectangle, counter-clockwise from (x,y).
func Rect(x, y, w, h float64) []V {
	return []V{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + h}, {X: x, Y: y + h}}
}

// Slot gives the corners of a closed obround about (x,y): length is overall,
// angle 0, half circles at both ends. Draw it with Polyline(true, ...).
func Slot(x, y, width, length float64) []V {
	r, c := width/2, (length-width)/2
	return []V{{x - c, y - r, 0}, {x + c, y - r, 1}, {x + c, y + r, 0}, {x - c, y + r, 1}}
}

// Pair is one group code with its value: a string, a float64 or an int,
// whatever its code calls for.
type Pair struct {
	Code  int
	Value any
}

// Builder collects a drawing. Its methods return it, so that calls can be
// chained. It is for tests: wrong use panics.
type Builder struct {
	unit      Unit
	header    []Pair
	layers    []layerRow
	types     []typeRow
	blocks    []*blockDef
	current   *[]shape // where entities go
	model     []shape
	paper     []shape
	layer     string
	linetype  string
	colour    int // 256 by layer
	extrusion *[3]float64
}

type layerRow struct {
	name string
	opt  LayerOptions
}

type typeRow struct {
	name   string
	dashes []float64
}

type blockDef struct {
	name   string
	bx, by float64
	shapes []shape
	units  Unit
}

// LayerOptions are the properties of a layer; the zero value is a plain one.
type LayerOptions struct {
	Colour   int // 0 means 7
	Off      bool
	Frozen   bool
	Locked   bool
	NoPlot   bool
	Linetype string
}

// shape is one entity in a form that every writer understands.
type shape struct {
	kind      string
	layer     string
	linetype  string
	colour    int
	extrusion *[3]float64
	nums      []float64
	text      string
	closed    bool
	verts     []V
	pairs     []Pair // of a raw entity, or further pairs
	place     Placing
}

// New starts an empty drawing whose layer is "0".
func New(u Unit) *Builder {
	b := &Builder{unit: u, layer: "0", colour: 256}
	b.current = &b.model
	b.LayerWith("0", LayerOptions{})
	return b
}

// Header adds a variable, e.g. Header("$MEASUREMENT", Pair{70, 1}).
func (b *Builder) Header(name string, values ...Pair) *Builder {
	b.header = append(append(b.header, Pair{9, name}), values...)
	return b
}

// Layer makes this the layer of what follows, and puts it in the table if it
// is not there yet.
func (b *Builder) Layer(name string) *Builder {
	b.layer = name
	for _, l := range b.layers {
		if l.name == name {
			return b
		}
	}
	return b.LayerWith(name, LayerOptions{})
}

// LayerWith declares a layer with properties and makes it the current one.
func (b *Builder) LayerWith(name string, opt LayerOptions) *Builder {
	b.layer = name
	for i := range b.layers {
		if b.layers[i].name == name {
			b.layers[i].opt = opt
			return b
		}
	}
	b.layers = append(b.layers, layerRow{name, opt})
	return b
}

// Linetype declares a linetype with its pattern (negative for gaps).
func (b *Builder) Linetype(name string, dashes ...float64) *Builder {
	b.types = append(b.types, typeRow{name, dashes})
	return b
}

// UseLinetype sets the linetype of what follows; "" is by layer.
func (b *Builder) UseLinetype(name string) *Builder { b.linetype = name; return b }

// UseColour sets the colour index of what follows; 256 is by layer, 0 by block.
func (b *Builder) UseColour(index int) *Builder { b.colour = index; return b }

// UseExtrusion sets the extrusion of what follows; (0,0,1) is the usual one.
func (b *Builder) UseExtrusion(x, y, z float64) *Builder {
	b.extrusion = &[3]float64{x, y, z}
	if x == 0 && y == 0 && z == 1 {
		b.extrusion = nil
	}
	return b
}

func (b *Builder) add(s shape) *Builder {
	s.layer, s.linetype, s.colour, s.extrusion = b.layer, b.linetype, b.colour, b.extrusion
	*b.current = append(*b.current, s)
	return b
}

// Line adds a LINE.
func (b *Builder) Line(x1, y1, x2, y2 float64) *Builder {
	return b.add(shape{kind: "LINE", nums: []float64{x1, y1, 0, x2, y2, 0}})
}

// Line3 adds a LINE in space.
func (b *Builder) Line3(x1, y1, z1, x2, y2, z2 float64) *Builder {
	return b.add(shape{kind: "LINE", nums: []float64{x1, y1, z1, x2, y2, z2}})
}

// Point adds a POINT.
func (b *Builder) Point(x, y float64) *Builder {
	return b.add(shape{kind: "POINT", nums: []float64{x, y}})
}

// Circle adds a CIRCLE of this radius.
func (b *Builder) Circle(x, y, radius float64) *Builder {
	return b.add(shape{kind: "CIRCLE", nums: []float64{x, y, radius}})
}

// Arc adds an ARC, counter-clockwise from start to end in degrees.
func (b *Builder) Arc(x, y, radius, startDeg, endDeg float64) *Builder {
	return b.add(shape{kind: "ARC", nums: []float64{x, y, radius, startDeg, endDeg}})
}

// Ellipse adds an ELLIPSE: centre, vector to the end of the major axis, ratio
// of the axes, parameters in radians.
func (b *Builder) Ellipse(x, y, majorX, majorY, ratio, start, end float64) *Builder {
	return b.add(shape{kind: "ELLIPSE", nums: []float64{x, y, majorX, majorY, ratio, start, end}})
}

// Polyline adds an LWPOLYLINE, or a POLYLINE with VERTEX entities in R12.
func (b *Builder) Polyline(closed bool, corners ...V) *Builder {
	return b.add(shape{kind: "LWPOLYLINE", closed: closed, verts: append([]V(nil), corners...)})
}

// OldPolyline adds a POLYLINE with VERTEX entities and SEQEND in any version.
func (b *Builder) OldPolyline(closed bool, corners ...V) *Builder {
	return b.add(shape{kind: "POLYLINE", closed: closed, verts: append([]V(nil), corners...)})
}

// Spline adds a SPLINE with uniform weights or the ones given; x and y of the
// control points are alternating in xy.
func (b *Builder) Spline(degree int, closed bool, knots, xy, weights []float64) *Builder {
	flags := 8
	if closed {
		flags |= 1
	}
	if len(weights) > 0 {
		flags |= 4
	}
	p := []Pair{{70, flags}, {71, degree}, {72, len(knots)}, {73, len(xy) / 2}, {74, 0}}
	for _, k := range knots {
		p = append(p, Pair{40, k})
	}
	for _, w := range weights {
		p = append(p, Pair{41, w})
	}
	for i := 0; i+1 < len(xy); i += 2 {
		p = append(p, Pair{10, xy[i]}, Pair{20, xy[i+1]}, Pair{30, 0.0})
	}
	return b.Raw("SPLINE", "AcDbSpline", p...)
}

// Text adds a TEXT whose left end stands at (x,y). Escapes are the caller's.
func (b *Builder) Text(x, y, height float64, value string) *Builder {
	return b.add(shape{kind: "TEXT", nums: []float64{x, y, height}, text: value})
}

// MText adds an MTEXT; its value may hold formatting codes.
func (b *Builder) MText(x, y, height float64, value string) *Builder {
	return b.add(shape{kind: "MTEXT", nums: []float64{x, y, height}, text: value})
}

// Dimension adds a rotated (linear) DIMENSION between two points, with its
// text at (tx,ty), the value it measures, and the text typed over it.
func (b *Builder) Dimension(x1, y1, x2, y2, tx, ty, angleDeg, measured float64, override string) *Builder {
	p := []Pair{{10, x2}, {20, ty}, {30, 0.0}, {11, tx}, {21, ty}, {31, 0.0}, {70, 32}}
	if override != "" {
		p = append(p, Pair{1, override})
	}
	p = append(p, Pair{42, measured}, Pair{3, "STANDARD"}, Pair{100, "AcDbAlignedDimension"},
		Pair{13, x1}, Pair{23, y1}, Pair{33, 0.0}, Pair{14, x2}, Pair{24, y2}, Pair{34, 0.0},
		Pair{50, angleDeg}, Pair{100, "AcDbRotatedDimension"})
	return b.Raw("DIMENSION", "AcDbDimension", p...)
}

// Raw adds any entity: its name, its subclass marker ("" for none) and the
// pairs behind the common ones.
func (b *Builder) Raw(name, subclass string, pairs ...Pair) *Builder {
	return b.add(shape{kind: "raw:" + name, text: subclass, pairs: pairs})
}

// Block defines a block with a base point; what build adds goes into it.
func (b *Builder) Block(name string, baseX, baseY float64, build func(*Builder)) *Builder {
	def := &blockDef{name: name, bx: baseX, by: baseY}
	b.blocks = append(b.blocks, def)
	outer := b.current
	b.current = &def.shapes
	build(b)
	b.current = outer
	return b
}

// Paper adds what build adds to paper space.
func (b *Builder) Paper(build func(*Builder)) *Builder {
	outer := b.current
	b.current = &b.paper
	build(b)
	b.current = outer
	return b
}

// Placing tells how a block is inserted; the zero value is plainly.
type Placing struct {
	ScaleX, ScaleY, ScaleZ float64 // 0 means 1; see ZeroZ
	ZeroZ                  bool    // write a z scale of 0
	AngleDeg               float64
	Columns, Rows          int // 0 means 1
	ColSpacing, RowSpacing float64
	Attributes             []Attribute
}

// Attribute is one ATTRIB of an insert.
type Attribute struct {
	Tag, Value   string
	X, Y, Height float64
}

// Insert places a block.
func (b *Builder) Insert(block string, x, y float64, how ...Placing) *Builder {
	s := shape{kind: "INSERT", nums: []float64{x, y}, text: block}
	if len(how) > 0 {
		s.place = how[0]
	}
	return b.add(s)
}

// Want adds an expectation: a TEXT on layer WANT. It leaves the current layer
// as it is.
func (b *Builder) Want(x, y, tolerance float64, expectation string) *Builder {
	keep := b.layer
	b.Layer(WantLayer).Text(x, y, tolerance, expectation)
	b.layer = keep
	return b
}

// Drawing gives what the reader makes of the drawing; an error fails the test.
func (b *Builder) Drawing(t testing.TB) *dxfread.Drawing {
	t.Helper()
	d, err := dxfread.Decode(context.Background(), b.Bytes(), dxfread.Limits{})
	if err != nil {
		t.Fatalf("a built drawing cannot be read: %v", err)
	}
	return d
}
