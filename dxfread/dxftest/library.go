package dxftest

import (
	"bytes"
	"fmt"
	"sync"

	"github.com/yofu/dxf"
	"github.com/yofu/dxf/color"
	"github.com/yofu/dxf/drawing"
	"github.com/yofu/dxf/entity"
	"github.com/yofu/dxf/insunit"
	"github.com/yofu/dxf/table"
)

// library guards the tables of github.com/yofu/dxf, which all of its drawings
// share: one drawing at a time.
var library sync.Mutex

// ByLibrary writes the drawing through github.com/yofu/dxf, so that the reader
// is tried on a writer that is not ours. It is an error if the drawing holds
// something that the library cannot write.
func (b *Builder) ByLibrary() ([]byte, error) {
	library.Lock()
	defer library.Unlock()
	if len(b.blocks) > 0 || len(b.paper) > 0 || len(b.header) > 0 {
		return nil, fmt.Errorf("the library writes no blocks, paper space or header variables")
	}
	d := dxf.NewDrawing()
	d.Header().Version = "AC1021"
	if b.unit > 0 {
		d.Header().InsUnit = insunit.Unit(b.unit)
	}
	for _, t := range b.types {
		if _, err := d.AddLineType(t.name, "", t.dashes...); err != nil {
			return nil, err
		}
	}
	for _, l := range b.layers {
		if l.opt.Off || l.opt.Frozen || l.opt.Locked || l.opt.NoPlot {
			return nil, fmt.Errorf("the library writes no layer states")
		}
		if l.name == "0" {
			continue
		}
		lt := table.LT_CONTINUOUS
		if l.opt.Linetype != "" {
			var err error
			if lt, err = d.LineType(l.opt.Linetype); err != nil {
				return nil, err
			}
		}
		colour := l.opt.Colour
		if colour == 0 {
			colour = 7
		}
		if _, err := d.AddLayer(l.name, color.ColorNumber(colour), lt, false); err != nil {
			return nil, err
		}
	}
	for i := range b.model {
		if err := libraryShape(d, &b.model[i]); err != nil {
			return nil, err
		}
	}
	var out bytes.Buffer
	if _, err := d.WriteTo(&out); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func libraryShape(d *drawing.Drawing, s *shape) error {
	if s.linetype != "" || s.colour != 256 || s.extrusion != nil {
		return fmt.Errorf("the library writes linetype, colour and extrusion by layer only")
	}
	if err := d.ChangeLayer(s.layer); err != nil {
		return err
	}
	n := s.nums
	var err error
	switch s.kind {
	case "LINE":
		_, err = d.Line(n[0], n[1], n[2], n[3], n[4], n[5])
	case "POINT":
		_, err = d.Point(n[0], n[1], 0)
	case "CIRCLE":
		_, err = d.Circle(n[0], n[1], 0, n[2])
	case "ARC":
		_, err = d.Arc(n[0], n[1], 0, n[2], n[3], n[4])
	case "TEXT":
		_, err = d.Text(s.text, n[0], n[1], 0, n[2])
	case "LWPOLYLINE":
		verts := make([][]float64, len(s.verts))
		for i, v := range s.verts {
			verts[i] = []float64{v.X, v.Y}
		}
		var p *entity.LwPolyline
		if p, err = d.LwPolyline(s.closed, verts...); err == nil {
			for i, v := range s.verts {
				p.Bulges[i] = v.Bulge
			}
		}
	default:
		err = fmt.Errorf("the library writes no %s", s.kind)
	}
	return err
}
