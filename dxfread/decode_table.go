package dxfread

import (
	"math"
	"strings"
	"unicode"
)

// table reads ACAD_TABLE. Up to release 2004 a cell has its text in groups 1, 2 and
// 3; from 2007 on between 301 "CELL_VALUE" and 304, as a raw value (1, 2, 3) and as
// it is shown (302, 303), in pieces of up to 250 letters (DXF reference, ENTITIES,
// TABLE). The numbers of rows and columns that the file states are believed only
// as far as there are cells.
func (r *reader) table() Entity {
	e := &Table{}
	r.start(&e.Common)
	var dir Vec
	var cell TableCell
	var raw, shown []byte
	rows, columns, cells, own, inValue := 0, 0, 0, false, false
	endCell := func() {
		if cells == 0 {
			return
		}
		text := shown
		if len(text) == 0 {
			text = raw
		}
		if len(text) > 0 {
			cell.Value = strings.TrimSpace(plainMText(r.coder.text(text), &r.coder))
		}
		if cell.Value != "" {
			cell.Row = int32(cells - 1) // in file order until the columns are known
			e.Cells = append(e.Cells, cell)
		}
		cell, raw, shown, inValue = TableCell{}, raw[:0], shown[:0], false
	}
	for r.tag() {
		switch code := r.s.code; {
		case code == 100:
			own = own || string(r.s.val()) == "AcDbTable"
		case code == 171:
			endCell()
			cells++
		case code == 210:
			e.Extrusion.X = r.float()
		case code == 220:
			e.Extrusion.Y = r.float()
		case code == 230:
			e.Extrusion.Z = r.float()
		case cells == 0 && code == 2 && e.Block == "":
			e.Block = r.name()
		case cells == 0 && r.vec(&e.At, 10), cells == 0 && r.vec(&dir, 11):
		case cells == 0 && code == 91 && own:
			rows = r.int()
		case cells == 0 && code == 92 && own:
			columns = r.int()
		case cells == 0 && code == 140 && e.Height == 0:
			e.Height = r.float()
		case cells == 0 && code == 141:
			e.Heights = append(e.Heights, max(r.float(), 0))
		case cells == 0 && code == 142:
			e.Widths = append(e.Widths, max(r.float(), 0))
		case cells == 0 && code == 70 && own:
			e.Up = r.int() == 1
		case cells == 0:
			r.shared(&e.Common)
		case code == 301:
			inValue = true
		case code == 304:
			inValue = false
		case code == 140 && !inValue:
			cell.Height = r.float()
		case code == 1, code == 2, code == 3:
			raw = append(raw, r.s.val()...)
		case code == 302, code == 303:
			shown = append(shown, r.s.val()...)
		}
	}
	endCell()
	if dir.X != 0 || dir.Y != 0 {
		e.AngleDeg = math.Atan2(dir.Y, dir.X) * (180 / math.Pi)
	}
	if columns < 1 || columns > cells {
		columns = max(min(len(e.Widths), cells), 1)
	}
	e.Rows, e.Columns = (cells+columns-1)/columns, columns
	for i := range e.Cells {
		c := &e.Cells[i]
		c.Row, c.Column = c.Row/int32(columns), c.Row%int32(columns)
	}
	out := r.usable(e, "")
	if out == Entity(e) && (rows != e.Rows || cells%columns != 0) && rows != 0 {
		r.noteOf(&e.Common, "table-cells", "an ACAD_TABLE states other numbers of rows and columns than it has cells")
	}
	return out
}

// texts gives the cells' texts that its picture does not show, each at the upper
// left of its cell. Pictures show most: a text in both stands in the drawing once.
func (t *Table) texts(picture []Entity) []*Text {
	drawn := map[string]int{}
	for _, e := range picture {
		if x, ok := e.(*Text); ok {
			drawn[squeezed(x.Value)]++
		}
	}
	sin, cos := sincosDeg(t.AngleDeg)
	down := func(row int32) float64 { return upTo(t.Heights, row) }
	if t.Up {
		down = func(row int32) float64 { return -upTo(t.Heights, row+1) }
	}
	m := OCS(t.Extrusion)
	var out []*Text
	for _, c := range t.Cells {
		if key := squeezed(c.Value); drawn[key] > 0 {
			drawn[key]--
			continue
		}
		high := 0.0
		if int(c.Row) < len(t.Heights) {
			high = t.Heights[c.Row]
		}
		x := &Text{Common: t.Common, Kind: "ACAD_TABLE", Value: c.Value, Height: c.Height, AngleDeg: t.AngleDeg, Attach: 1}
		x.Extrusion = Vec{Z: 1}
		if x.Height <= 0 {
			x.Height = t.Height
		}
		// Rows are about two and a half times as high as their text: 4.5 in 11.1
		// and 6 in 13.1 as tables are drawn without a style of their own.
		if !(x.Height > 0.1*high && x.Height < high) && high > 0 {
			x.Height = 0.4 * high
		}
		at := Vec{upTo(t.Widths, c.Column) + 0.5*x.Height, -down(c.Row) - max(0, 0.5*(high-x.Height)), 0}
		x.At = m.Apply(Vec{t.At.X + float64(at.X*cos) - float64(at.Y*sin), t.At.Y + float64(at.X*sin) + float64(at.Y*cos), t.At.Z})
		out = append(out, x)
	}
	return out
}

// Corners gives the corners of the table in its own plane; false where it states
// no sizes.
func (t *Table) Corners() (c [4]Vec, ok bool) {
	w, h := upTo(t.Widths, int32(t.Columns)), upTo(t.Heights, int32(t.Rows))
	if !(w > 0) || !(h > 0) {
		return c, false
	}
	if !t.Up {
		h = -h
	}
	sin, cos := sincosDeg(t.AngleDeg)
	for i, p := range [4][2]float64{{0, 0}, {w, 0}, {w, h}, {0, h}} {
		c[i] = Vec{t.At.X + float64(p[0]*cos) - float64(p[1]*sin), t.At.Y + float64(p[0]*sin) + float64(p[1]*cos), t.At.Z}
	}
	return c, true
}

// upTo adds up the first n sizes.
func upTo(sizes []float64, n int32) float64 {
	s := 0.0
	for _, v := range sizes[:min(int(n), len(sizes))] {
		s += v
	}
	return min(s, tooFar)
}

// squeezed is a text without its spaces.
func squeezed(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}
