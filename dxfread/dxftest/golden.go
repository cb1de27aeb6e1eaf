package dxftest

import (
	"fmt"
	"strconv"
	"strings"

	"burrside/dxfread"
)

// Golden prints a Drawing as text, one thing a line, with all that the reader
// promises; equal drawings give equal text. Lines and handles are left out
// unless places is true, so that two forms of one drawing can be compared.
func Golden(d *dxfread.Drawing, places bool) string {
	g := &golden{d: d, places: places}
	if places {
		g.line("version %q binary %v encoding %q bytes %d", d.Version, d.Binary, d.Encoding, d.Bytes)
	}
	h := d.Header
	g.line("header insunits %s measurement %s lunits %s dimscale %s dimlfac %s",
		show(h.InsUnits), show(h.Measurement), show(h.LUnits), show(h.DimScale), show(h.LinearFactor))
	for _, l := range d.Layers {
		g.line("layer %q declared %v off %v frozen %v locked %v noplot %v colour %d linetype %s weight %d",
			l.Name, l.Declared, l.Off, l.Frozen, l.Locked, l.NoPlot, l.Colour, g.typeName(l.Linetype), l.LineWeight)
	}
	for _, t := range d.Types {
		g.line("linetype %q declared %v dashes %v", t.Name, t.Declared, t.Dashes)
	}
	for _, b := range d.Blocks {
		if b.Layout {
			continue
		}
		g.line("block %q base %s units %d xref %v", b.Name, vec(b.Base), b.Units, b.XRef)
		g.entities(b.Entities)
	}
	g.line("model")
	g.entities(d.Model)
	for _, l := range d.Layouts {
		g.line("layout %q", l.Name)
		g.entities(l.Entities)
	}
	for _, n := range d.Notes {
		if places {
			g.line("note %s line %d handle %X count %d: %s", n.Code, n.Line, n.Handle, n.Count, n.Text)
		} else {
			g.line("note %s count %d: %s", n.Code, n.Count, n.Text)
		}
	}
	return g.out.String()
}

type golden struct {
	d      *dxfread.Drawing
	out    strings.Builder
	places bool
}

func (g *golden) line(format string, args ...any) { fmt.Fprintf(&g.out, format+"\n", args...) }

func show[T any](p *T) string {
	if p == nil {
		return "-"
	}
	return fmt.Sprint(*p)
}

func num(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func vec(v dxfread.Vec) string { return num(v.X) + "," + num(v.Y) + "," + num(v.Z) }

func vecs(l []dxfread.Vec) string {
	parts := make([]string, len(l))
	for i, v := range l {
		parts[i] = vec(v)
	}
	return strings.Join(parts, " ")
}

func (g *golden) typeName(i int32) string {
	switch {
	case i == -1:
		return "-"
	case i == -2:
		return "BYBLOCK"
	}
	return strconv.Quote(g.d.Types[i].Name)
}

func (g *golden) entities(list []dxfread.Entity) {
	for _, e := range list {
		g.entity(e)
	}
}

func (g *golden) entity(e dxfread.Entity) {
	c := e.Base()
	name := e.Name()
	if p, ok := e.(*dxfread.Polyline); ok && !g.places {
		// LWPOLYLINE and POLYLINE say the same in two versions.
		name = "POLYLINE"
		_ = p
	}
	fmt.Fprintf(&g.out, "  %s", name)
	if g.places {
		fmt.Fprintf(&g.out, " @%d #%X", c.Line, c.Handle)
	}
	fmt.Fprintf(&g.out, " on %q", g.d.Layers[c.Layer].Name)
	if c.Linetype != -1 {
		fmt.Fprintf(&g.out, " linetype %s", g.typeName(c.Linetype))
	}
	if c.Colour != 256 {
		fmt.Fprintf(&g.out, " colour %d", c.Colour)
	}
	if c.Invisible {
		fmt.Fprint(&g.out, " invisible")
	}
	if c.Extrusion != (dxfread.Vec{Z: 1}) {
		fmt.Fprintf(&g.out, " extrusion %s", vec(c.Extrusion))
	}
	if c.Thickness != 0 {
		fmt.Fprintf(&g.out, " thickness %s", num(c.Thickness))
	}
	fmt.Fprintf(&g.out, " %s\n", g.shape(e))
	if in, ok := e.(*dxfread.Insert); ok {
		for _, a := range in.Attributes {
			fmt.Fprint(&g.out, "  ")
			g.entity(a)
		}
	}
}

// shape prints what is particular to a kind.
func (g *golden) shape(e dxfread.Entity) string {
	switch e := e.(type) {
	case *dxfread.Line:
		return fmt.Sprintf("from %s to %s", vec(e.From), vec(e.To))
	case *dxfread.Arc:
		return fmt.Sprintf("centre %s radius %s from %s to %s deg", vec(e.Centre), num(e.Radius), num(e.Start), num(e.End))
	case *dxfread.Circle:
		return fmt.Sprintf("centre %s radius %s", vec(e.Centre), num(e.Radius))
	case *dxfread.Ellipse:
		return fmt.Sprintf("centre %s major %s ratio %s from %s to %s rad", vec(e.Centre), vec(e.Major), num(e.Ratio), num(e.Start), num(e.End))
	case *dxfread.Polyline:
		var b strings.Builder
		fmt.Fprintf(&b, "closed %v 3d %v width %s:", e.Closed, e.ThreeD, num(e.Width))
		for _, v := range e.Vertices {
			fmt.Fprintf(&b, " %s", vec(v.At))
			if v.Bulge != 0 {
				fmt.Fprintf(&b, "~%s", num(v.Bulge))
			}
		}
		return b.String()
	case *dxfread.Spline:
		tan := func(v *dxfread.Vec) string {
			if v == nil {
				return "-"
			}
			return vec(*v)
		}
		return fmt.Sprintf("degree %d closed %v rational %v knots %v control %s weights %v fit %s tangents %s %s",
			e.Degree, e.Closed, e.Rational, e.Knots, vecs(e.Control), e.Weights, vecs(e.Fit), tan(e.StartTan), tan(e.EndTan))
	case *dxfread.Point:
		return "at " + vec(e.At)
	case *dxfread.Text:
		s := fmt.Sprintf("at %s height %s angle %s value %q", vec(e.At), num(e.Height), num(e.AngleDeg), e.Value)
		if e.Tag != "" {
			s += fmt.Sprintf(" tag %q", e.Tag)
		}
		if e.HAlign != 0 || e.VAlign != 0 {
			s += fmt.Sprintf(" align %d,%d at %s", e.HAlign, e.VAlign, vec(e.AlignAt))
		}
		if e.Attach != 0 || e.Width != 0 {
			s += fmt.Sprintf(" attach %d width %s", e.Attach, num(e.Width))
		}
		return s
	case *dxfread.Dimension:
		s := fmt.Sprintf("kind %d measured %s override %q block %q text at %s angle %s factor %s defs",
			e.Kind, show(e.Measured), e.Override, e.Block, vec(e.TextAt), num(e.AngleDeg), num(e.LinearFac))
		for i, v := range e.Defs {
			if e.HasDef[i] {
				s += fmt.Sprintf(" %d:%s", i, vec(v))
			}
		}
		return s
	case *dxfread.Leader:
		s := "vertices " + vecs(e.Vertices)
		if e.Multi {
			s += fmt.Sprintf(" text %q at %s more %d", e.Text, vec(e.TextAt), len(e.More))
		}
		return s
	case *dxfread.Hatch:
		return fmt.Sprintf("pattern %q solid %v", e.Pattern, e.Solid)
	case *dxfread.Solid:
		return "corners " + vecs(e.Corners[:])
	case *dxfread.Insert:
		return fmt.Sprintf("block %q at %s scale %s angle %s array %dx%d by %s,%s", e.Block, vec(e.At), vec(e.Scale),
			num(e.AngleDeg), e.Columns, e.Rows, num(e.ColSpacing), num(e.RowSpacing))
	case *dxfread.Table:
		return fmt.Sprintf("block %q at %s angle %s up %v rows %d columns %d heights %v widths %v height %s cells %v", e.Block, vec(e.At), num(e.AngleDeg), e.Up, e.Rows, e.Columns, e.Heights, e.Widths, num(e.Height), e.Cells)
	case *dxfread.Viewport:
		return fmt.Sprintf("id %d centre %s size %s x %s view %s", e.ID, vec(e.Centre), num(e.Width), num(e.Height), num(e.ViewHeight))
	case *dxfread.Other:
		return "not read"
	}
	panic("dxftest: an entity of no known kind") // the set is closed
}
