package render

import (
	"fmt"
	"io"
	"math"
	"strings"
	"sync"

	"github.com/yofu/dxf"
	"github.com/yofu/dxf/color"
	"github.com/yofu/dxf/drawing"
	"github.com/yofu/dxf/insunit"
	dxftable "github.com/yofu/dxf/table"
)

// DXFOut collects plain geometry and writes it as a DXF file. Coordinates are
// in the unit of the drawing. The zero value is an empty drawing without a
// stated unit.
type DXFOut struct {
	Comment string // written first, for who opens the file as text; one line
	Units   string // "mm", "in"; "" leaves the unit unstated
	layers  []DXFLayer
	items   []dxfItem
}

// DXFLayer is a layer of a drawing to be written.
type DXFLayer struct {
	Name   string
	Colour int       // colour index 1 to 255; 0 counts as 7
	Dashes []float64 // dash pattern, negative for gaps; nil: continuous
}

// DXFVertex is a corner of a polyline; Bulge bends the piece to the next one.
type DXFVertex struct{ X, Y, Bulge float64 }

type dxfItem struct {
	kind     string
	layer    string
	vertices []DXFVertex
	closed   bool
	numbers  []float64
	text     string
}

// Layer adds a layer. A layer that is only named by an entity is added by itself.
func (o *DXFOut) Layer(l DXFLayer) { o.layers = append(o.layers, l) }

// Line adds a straight piece.
func (o *DXFOut) Line(layer string, x1, y1, x2, y2 float64) {
	o.items = append(o.items, dxfItem{kind: "line", layer: layer, numbers: []float64{x1, y1, x2, y2}})
}

// Circle adds a circle by centre and radius.
func (o *DXFOut) Circle(layer string, x, y, r float64) {
	o.items = append(o.items, dxfItem{kind: "circle", layer: layer, numbers: []float64{x, y, r}})
}

// Arc adds a counter-clockwise arc; angles are in degrees.
func (o *DXFOut) Arc(layer string, x, y, r, startDeg, endDeg float64) {
	o.items = append(o.items, dxfItem{kind: "arc", layer: layer, numbers: []float64{x, y, r, startDeg, endDeg}})
}

// Polyline adds a polyline with bulges.
func (o *DXFOut) Polyline(layer string, closed bool, vertices ...DXFVertex) {
	o.items = append(o.items, dxfItem{kind: "polyline", layer: layer, closed: closed, vertices: vertices})
}

// Text adds one line of text by its lower left corner.
func (o *DXFOut) Text(layer string, x, y, height float64, text string) {
	o.items = append(o.items, dxfItem{kind: "text", layer: layer, numbers: []float64{x, y, height}, text: text})
}

// The writing library keeps its tables (default layer, line types, text style)
// for all drawings together: two drawings alive at once corrupt each other.
var dxfWriting sync.Mutex

// Write writes the drawing as ASCII DXF. It fails on numbers that are not
// finite, with the entity's place in the order of adding.
func (o *DXFOut) Write(w io.Writer) error {
	dxfWriting.Lock()
	defer dxfWriting.Unlock()
	d := dxf.NewDrawing()
	// The library's default version promises a code page that its UTF-8 text
	// does not keep; from AC1021 on text is UTF-8.
	d.Header().Version = "AC1021"
	switch o.Units {
	case "mm":
		d.Header().InsUnit = insunit.Millimeters
	case "in":
		d.Header().InsUnit = insunit.Inches
	}
	known := map[string]bool{"0": true}
	for _, l := range o.layers {
		if err := addDXFLayer(d, l, known); err != nil {
			return err
		}
	}
	for i, it := range o.items {
		if !known[cleanDXFName(it.layer)] {
			if err := addDXFLayer(d, DXFLayer{Name: it.layer}, known); err != nil {
				return err
			}
		}
		if err := addDXFItem(d, it); err != nil {
			return fmt.Errorf("entity %d (%s): %w", i+1, it.kind, err)
		}
	}
	if len(o.items) > 0 {
		d.SetExt()
	}
	if o.Comment != "" {
		if _, err := io.WriteString(w, dxfComment(o.Comment)); err != nil {
			return err
		}
	}
	_, err := d.WriteTo(w)
	return err
}

// dxfComment is a comment as the format has it: a group of code 999.
func dxfComment(text string) string { return "999\n" + text + "\n" }

func addDXFLayer(d *drawing.Drawing, l DXFLayer, known map[string]bool) error {
	name := cleanDXFName(l.Name)
	if known[name] {
		return nil
	}
	known[name] = true
	lt := dxftable.LT_CONTINUOUS
	if len(l.Dashes) > 0 {
		var err error
		if lt, err = d.AddLineType("PATTERN-"+name, "pattern of layer "+name, l.Dashes...); err != nil {
			return fmt.Errorf("layer %q: %w", l.Name, err)
		}
	}
	c := l.Colour
	if c < 1 || c > 255 {
		c = 7
	}
	if _, err := d.AddLayer(name, color.ColorNumber(c), lt, false); err != nil {
		return fmt.Errorf("layer %q: %w", l.Name, err)
	}
	return nil
}

func addDXFItem(d *drawing.Drawing, it dxfItem) error {
	for _, n := range it.numbers {
		if math.IsNaN(n) || math.IsInf(n, 0) {
			return fmt.Errorf("number %v is not finite", n)
		}
	}
	if err := d.ChangeLayer(cleanDXFName(it.layer)); err != nil {
		return err
	}
	n := it.numbers
	switch it.kind {
	case "line":
		_, err := d.Line(n[0], n[1], 0, n[2], n[3], 0)
		return err
	case "circle":
		_, err := d.Circle(n[0], n[1], 0, n[2])
		return err
	case "arc":
		_, err := d.Arc(n[0], n[1], 0, n[2], n[3], n[4])
		return err
	case "text":
		_, err := d.Text(cleanDXFText(it.text), n[0], n[1], 0, n[2])
		return err
	case "polyline":
		corners := make([][]float64, len(it.vertices))
		for i, v := range it.vertices {
			if s := v.X + v.Y + v.Bulge; math.IsNaN(s) || math.IsInf(s, 0) {
				return fmt.Errorf("vertex %d is not finite", i+1)
			}
			corners[i] = []float64{v.X, v.Y}
		}
		p, err := d.LwPolyline(it.closed, corners...)
		if err != nil {
			return err
		}
		for i, v := range it.vertices {
			p.Bulges[i] = v.Bulge
		}
		return nil
	}
	panic("render: unknown kind of DXF item " + it.kind)
}

// cleanDXFName replaces what may not stand in the name of a layer; the library
// writes names as they are, and one newline would spoil the file.
func cleanDXFName(name string) string {
	name = strings.Map(func(r rune) rune {
		if r < 32 || strings.ContainsRune(`/\*?<>|":;,='`+"`", r) {
			return '_'
		}
		return r
	}, name)
	if name == "" {
		return "0"
	}
	return name
}

func cleanDXFText(text string) string {
	return strings.Map(func(r rune) rune {
		if r < 32 {
			return ' '
		}
		return r
	}, text)
}
