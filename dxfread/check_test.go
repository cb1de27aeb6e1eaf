package dxfread_test

import (
	"context"
	"math"
	"testing"

	"burrside/dxfread"
)

// checkDrawing asserts what every Drawing must keep, whatever the bytes were.
func checkDrawing(t *testing.T, d *dxfread.Drawing) {
	t.Helper()
	if d == nil {
		t.Fatal("no drawing")
	}
	notes := func(list []dxfread.Note) {
		for _, n := range list {
			if n.Code == "" || n.Text == "" || n.Count < 1 || n.Line < 0 {
				t.Fatalf("a note is not well formed: %+v", n)
			}
		}
	}
	notes(d.Notes)
	declared := true
	for _, l := range d.Layers {
		if l.Declared && !declared {
			t.Fatalf("layer %q is declared but follows one that is not", l.Name)
		}
		declared = l.Declared
		if l.Linetype < -1 || int(l.Linetype) >= len(d.Types) || l.Colour < 0 {
			t.Fatalf("layer %+v", l)
		}
	}
	spaces := [][]dxfread.Entity{d.Model}
	for _, l := range d.Layouts {
		spaces = append(spaces, l.Entities)
	}
	for _, b := range d.Blocks {
		spaces = append(spaces, b.Entities)
		finite(t, b.Base)
	}
	for _, list := range spaces {
		for _, e := range list {
			checkEntity(t, d, e)
		}
	}
	p := d.Place(d.Model, dxfread.Limits{Placed: 2000})
	n := 0
	for pl := range p.All(context.Background()) {
		n++
		if _, ok := pl.Entity.(*dxfread.Insert); ok {
			t.Fatal("an insert was yielded")
		}
		m := pl.Full()
		finite(t, m.T)
		if math.IsNaN(m.Det()) || int(pl.Layer) >= len(d.Layers) || pl.Layer < 0 || int(pl.Linetype) >= len(d.Types) || pl.Linetype < -1 {
			t.Fatalf("%+v", pl)
		}
		if (pl.Block >= 0) != (pl.Depth > 0) || len(p.Path(pl.Block)) != int(pl.Depth) {
			t.Fatalf("path %v at depth %d", p.Path(pl.Block), pl.Depth)
		}
	}
	notes(p.Notes())
	if n > 2000 || p.Err() != nil {
		t.Fatalf("%d placed, %v", n, p.Err())
	}
}

func finite(t *testing.T, vs ...dxfread.Vec) {
	t.Helper()
	for _, v := range vs {
		number(t, v.X, v.Y, v.Z)
	}
}

func number(t *testing.T, vs ...float64) {
	t.Helper()
	for _, v := range vs {
		if math.IsNaN(v) || math.Abs(v) > 1e19 {
			t.Fatalf("the number %g was passed on", v)
		}
	}
}

func checkEntity(t *testing.T, d *dxfread.Drawing, e dxfread.Entity) {
	t.Helper()
	c := e.Base()
	if c.Layer < 0 || int(c.Layer) >= len(d.Layers) || c.Linetype < -2 || int(c.Linetype) >= len(d.Types) ||
		c.Colour < 0 || c.Colour > 256 || e.Name() == "" && c.Line == 0 {
		t.Fatalf("%s: %+v", e.Name(), c)
	}
	number(t, c.Thickness)
	x := c.Extrusion
	if l := x.X*x.X + x.Y*x.Y + x.Z*x.Z; math.Abs(l-1) > 1e-9 {
		t.Fatalf("extrusion %+v", x)
	}
	switch e := e.(type) {
	case *dxfread.Line:
		finite(t, e.From, e.To)
	case *dxfread.Arc:
		finite(t, e.Centre)
		number(t, e.Start, e.End, e.Radius)
		if s := e.SweepDeg(); e.Radius <= 0 || !(s > 0) || s > 360 {
			t.Fatalf("arc of radius %g, sweep %g", e.Radius, s)
		}
	case *dxfread.Circle:
		finite(t, e.Centre)
		if number(t, e.Radius); e.Radius <= 0 {
			t.Fatalf("radius %g", e.Radius)
		}
	case *dxfread.Ellipse:
		finite(t, e.Centre, e.Major)
		if number(t, e.Ratio, e.Start, e.End); e.Ratio <= 0 || e.End <= e.Start && e.Start < 1e9 || e.Major == (dxfread.Vec{}) {
			t.Fatalf("ellipse %+v", e)
		}
	case *dxfread.Polyline:
		if len(e.Vertices) < 2 {
			t.Fatalf("%d vertices", len(e.Vertices))
		}
		for _, v := range e.Vertices {
			finite(t, v.At)
			number(t, v.Bulge)
		}
	case *dxfread.Spline:
		finite(t, e.Control...)
		finite(t, e.Fit...)
		number(t, e.Knots...)
		number(t, e.Weights...)
		if len(e.Control) > 0 && len(e.Knots) != len(e.Control)+e.Degree+1 || len(e.Control) == 0 && len(e.Fit) < 2 {
			t.Fatalf("spline of degree %d with %d knots, %d control and %d fit points", e.Degree, len(e.Knots), len(e.Control), len(e.Fit))
		}
	case *dxfread.Point:
		finite(t, e.At)
	case *dxfread.Text:
		finite(t, e.At, e.AlignAt)
		number(t, e.Height, e.AngleDeg)
	case *dxfread.Dimension:
		finite(t, e.Defs[:]...)
		finite(t, e.TextAt)
	case *dxfread.Leader:
		finite(t, e.Vertices...)
	case *dxfread.Solid:
		finite(t, e.Corners[:]...)
	case *dxfread.Table:
		finite(t, e.At)
		number(t, e.AngleDeg, e.Height)
		number(t, e.Heights...)
		number(t, e.Widths...)
		for _, c := range e.Cells {
			if c.Value == "" || c.Row < 0 || int(c.Row) >= e.Rows || c.Column < 0 || int(c.Column) >= e.Columns {
				t.Fatalf("cell %+v of %d x %d", c, e.Rows, e.Columns)
			}
			number(t, c.Height)
		}
	case *dxfread.Insert:
		finite(t, e.At, e.Scale)
		number(t, e.AngleDeg, e.ColSpacing, e.RowSpacing)
		if e.Scale.X == 0 || e.Scale.Y == 0 || e.Scale.Z == 0 || e.Columns < 1 || e.Rows < 1 {
			t.Fatalf("insert %+v", e)
		}
		for _, a := range e.Attributes {
			checkEntity(t, d, a)
		}
	case *dxfread.Viewport:
		finite(t, e.Centre)
		number(t, e.Width, e.Height, e.ViewHeight)
	case *dxfread.Hatch, *dxfread.Other:
	default:
		t.Fatalf("an entity of no known kind: %T", e)
	}
}
