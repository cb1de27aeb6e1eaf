package features_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// habit is how somebody draws: the same sheet comes out of every habit with the
// same parts.
type habit struct {
	name       string
	unit       dxftest.Unit
	loose      bool   // rectangles as four lines, else closed polylines
	cut        bool   // lines cut in two where others end on them
	frameLayer string // "0" if empty
	partLayer  string
	block      bool // frame, title block and tables in a block
	mtext      bool
	turned     bool // the whole sheet upright instead of lying
}

func habits() []habit {
	return []habit{
		{name: "polylines", unit: dxftest.MM},
		{name: "lines", unit: dxftest.MM, loose: true},
		{name: "cut lines", unit: dxftest.MM, loose: true, cut: true},
		{name: "layers", unit: dxftest.MM, frameLayer: "Ebene 7", partLayer: "Ebene 3", loose: true},
		{name: "frame layer", unit: dxftest.MM, frameLayer: "BORDER"},
		{name: "block", unit: dxftest.MM, block: true},
		{name: "inch", unit: dxftest.Inch, mtext: true},
		{name: "turned", unit: dxftest.MM, turned: true, loose: true},
	}
}

// pen draws in millimetres, whatever the habit.
type pen struct {
	b     *dxftest.Builder
	h     habit
	sheet []func(*dxftest.Builder) // what goes into the block
	n     float64
}

func (p *pen) at(x, y float64) (float64, float64) {
	if p.h.turned {
		x, y = -y, x
	}
	return x * p.n, y * p.n
}

// paper runs draw on the sheet's layer, in its block if it has one.
func (p *pen) paper(draw func(b *dxftest.Builder)) {
	layer := p.h.frameLayer
	if layer == "" {
		layer = "0"
	}
	if p.h.block {
		p.sheet = append(p.sheet, func(b *dxftest.Builder) { b.Layer(layer); draw(b) })
		return
	}
	p.b.Layer(layer)
	draw(p.b)
	p.part()
}

// part goes back to the layer of the parts.
func (p *pen) part() {
	layer := p.h.partLayer
	if layer == "" {
		layer = "0"
	}
	p.b.Layer(layer)
}

func (p *pen) lineOn(b *dxftest.Builder, x1, y1, x2, y2 float64) {
	x1, y1 = p.at(x1, y1)
	x2, y2 = p.at(x2, y2)
	if p.h.cut {
		b.Line(x1, y1, (x1+x2)/2, (y1+y2)/2).Line(x2, y2, (x1+x2)/2, (y1+y2)/2)
		return
	}
	b.Line(x1, y1, x2, y2)
}

func (p *pen) rectOn(b *dxftest.Builder, x, y, w, h float64) {
	if p.h.loose {
		p.lineOn(b, x, y, x+w, y)
		p.lineOn(b, x+w, y, x+w, y+h)
		p.lineOn(b, x+w, y+h, x, y+h)
		p.lineOn(b, x, y+h, x, y)
		return
	}
	var v []dxftest.V
	for _, c := range dxftest.Rect(x, y, w, h) {
		c.X, c.Y = p.at(c.X, c.Y)
		v = append(v, c)
	}
	b.Polyline(true, v...)
}

func (p *pen) textOn(b *dxftest.Builder, x, y, height float64, s string) {
	if p.h.mtext {
		x, y = p.at(x, y+height)
		b.MText(x, y, height*p.n, s)
		return
	}
	x, y = p.at(x, y)
	b.Text(x, y, height*p.n, s)
}

func (p *pen) line(x1, y1, x2, y2 float64)         { p.lineOn(p.b, x1, y1, x2, y2) }
func (p *pen) rect(x, y, w, h float64)             { p.rectOn(p.b, x, y, w, h) }
func (p *pen) text(x, y, height float64, s string) { p.textOn(p.b, x, y, height, s) }
func (p *pen) circle(x, y, d float64)              { x, y = p.at(x, y); p.b.Circle(x, y, d/2*p.n) }
func (p *pen) frame(x, y, w, h float64) {
	p.paper(func(b *dxftest.Builder) { p.rectOn(b, x, y, w, h) })
}
func (p *pen) paperLine(x1, y1, x2, y2 float64) {
	p.paper(func(b *dxftest.Builder) { p.lineOn(b, x1, y1, x2, y2) })
}
func (p *pen) paperText(x, y, h float64, s string) {
	p.paper(func(b *dxftest.Builder) { p.textOn(b, x, y, h, s) })
}
func (p *pen) dim(x1, y1, x2, y2, off float64) { p.dimText(x1, y1, x2, y2, off, "") }
func (p *pen) dimText(x1, y1, x2, y2, off float64, over string) {
	angle := 0.0
	m := x2 - x1
	tx, ty := (x1+x2)/2, y1+off
	if x1 == x2 {
		angle, m = 90, y2-y1
		tx, ty = x1+off, (y1+y2)/2
	}
	if p.h.turned {
		angle = 90 - angle
	}
	x1, y1 = p.at(x1, y1)
	x2, y2 = p.at(x2, y2)
	tx, ty = p.at(tx, ty)
	p.b.Dimension(x1, y1, x2, y2, tx, ty, angle, m*p.n, over)
}

// projection is the truncated cone with its two circles, about its middle.
func (p *pen) projection(x, y float64) {
	p.paper(func(b *dxftest.Builder) {
		for _, r := range []float64{2.5, 5} {
			cx, cy := p.at(x+9, y)
			b.Circle(cx, cy, r*p.n)
		}
		p.lineOn(b, x-14, y-2.5, x-14, y+2.5)
		p.lineOn(b, x-2, y-5, x-2, y+5)
		p.lineOn(b, x-14, y-2.5, x-2, y-5)
		p.lineOn(b, x-14, y+2.5, x-2, y+5)
		p.lineOn(b, x-16, y, x, y)
		p.lineOn(b, x+3, y, x+15, y)
		p.lineOn(b, x+9, y-6, x+9, y+6)
	})
}

// plate is a rectangle with a hole of 14 mm at 25 mm from each corner.
func (p *pen) plate(x, y, w, h float64) {
	p.rect(x, y, w, h)
	for _, c := range [][2]float64{{25, 25}, {w - 25, 25}, {25, h - 25}, {w - 25, h - 25}} {
		p.circle(x+c[0], y+c[1], 14)
	}
}

// grid is a table of rows from the top down, its lines right across and the
// texts in 0.4 of the height of a row.
func (p *pen) grid(x, y float64, widths []float64, row float64, rows [][]string) {
	w := 0.0
	for _, c := range widths {
		w += c
	}
	h := row * float64(len(rows))
	p.frame(x, y, w, h)
	for i := 1; i < len(rows); i++ {
		p.paperLine(x, y+row*float64(i), x+w, y+row*float64(i))
	}
	at := x
	for i := range len(widths) - 1 {
		at += widths[i]
		p.paperLine(at, y, at, y+h)
	}
	p.cells(x, y+h, widths, row, rows)
}

func (p *pen) cells(x, top float64, widths []float64, row float64, rows [][]string) {
	for r, line := range rows {
		at := x
		for c, s := range line {
			if s != "" {
				p.paperText(at+0.2*row, top-row*float64(r+1)+0.3*row, 0.4*row, s)
			}
			at += widths[c]
		}
	}
}

func titleRows() [][]string {
	return [][]string{
		{"MATERIAL", "S355J2", "SCALE", "1:1"},
		{"DRAWN", "R. Fell", "DATE", "2024-05-02"},
		{"CHECKED", "", "SHEET", "1 / 1"},
		{"TITLE", "Gusset plate", "DRAWING", "AF-0117"},
	}
}

// title hangs a title block of 160 x 32 mm into the lower right corner of a
// frame: only its own lines, which end on the frame.
func (p *pen) title(right, bottom float64) {
	widths := []float64{25, 65, 25, 45}
	x, row := right-160, 8.0
	p.paperLine(x, bottom, x, bottom+4*row)
	p.paperLine(x, bottom+4*row, right, bottom+4*row)
	for i := 1; i < 4; i++ {
		p.paperLine(x, bottom+row*float64(i), right, bottom+row*float64(i))
	}
	for _, at := range []float64{25, 90, 115} {
		p.paperLine(x+at, bottom, x+at, bottom+4*row)
	}
	p.cells(x, bottom+4*row, widths, row, titleRows())
}

// zones are ticks from line to line of a double frame with letters and numbers
// between them.
func (p *pen) zones(x, y, w, h, in float64) {
	for i := 1; i < 6; i++ {
		at := x + w*float64(i)/6
		p.paperLine(at, y, at, y+in)
		p.paperLine(at, y+h-in, at, y+h)
	}
	for i := range 6 {
		at := x + w*(float64(i)+0.5)/6
		p.paperText(at, y+0.2*in, 0.5*in, fmt.Sprint(i+1))
		p.paperText(at, y+h-0.8*in, 0.5*in, fmt.Sprint(i+1))
	}
	for i := 1; i < 4; i++ {
		at := y + h*float64(i)/4
		p.paperLine(x, at, x+in, at)
		p.paperLine(x+w-in, at, x+w, at)
	}
	for i := range 4 {
		at := y + h*(float64(i)+0.5)/4
		p.paperText(x+0.2*in, at, 0.5*in, string(rune('A'+i)))
		p.paperText(x+w-0.8*in, at, 0.5*in, string(rune('A'+i)))
	}
}

// sheetCase is one drawing and what must be read from it.
type sheetCase struct {
	name      string
	draw      func(p *pen)
	parts     []string // "200 x 140, 4 holes", sorted
	notes     []string // codes that must be among the notes
	doubts    []string // codes of all doubts, each once, grave ones with a "!"
	thickness string   // "10 view"; of the first part
	skip      []string // habits that draw another drawing
}

func drawSheet(c sheetCase, h habit) *dxftest.Builder {
	b := dxftest.New(h.unit)
	p := &pen{b: b, h: h, n: 1}
	if h.unit == dxftest.Inch {
		p.n = 1 / 25.4
	}
	p.part()
	c.draw(p)
	if len(p.sheet) > 0 {
		b.Block("SHEET", 0, 0, func(b *dxftest.Builder) {
			for _, f := range p.sheet {
				f(b)
			}
		})
		b.Layer("0").Insert("SHEET", 0, 0)
	}
	return b
}

func partLines(s *features.Sheet, turned bool) []string {
	var out []string
	for _, p := range s.Parts {
		w, h := p.Box.Width(), p.Box.Height()
		if turned {
			w, h = h, w
		}
		line := fmt.Sprintf("%.4g x %.4g, %d holes", w, h, len(p.Holes))
		if p.Copies() > 1 {
			line += fmt.Sprintf(", %d times", p.Copies())
		}
		out = append(out, line)
	}
	slices.Sort(out)
	return out
}

func doubtCodes(s *features.Sheet) []string {
	var out []string
	for _, p := range s.Parts {
		for _, d := range p.Doubts {
			code := d.Code
			if d.Grave {
				code += "!"
			}
			if !slices.Contains(out, code) {
				out = append(out, code)
			}
		}
	}
	slices.Sort(out)
	return out
}

// TestSheets: what is drawn round a part is no part, in whatever habit.
func TestSheets(t *testing.T) {
	for _, c := range sheetCases() {
		for _, h := range habits() {
			if slices.Contains(c.skip, h.name) {
				continue
			}
			t.Run(c.name+"/"+h.name, func(t *testing.T) {
				s := build(t, drawSheet(c, h))
				if got := partLines(s, h.turned); strings.Join(got, "; ") != strings.Join(c.parts, "; ") {
					t.Errorf("parts %q, want %q\n%s", got, c.parts, describe(s))
				}
				if got := doubtCodes(s); !slices.Equal(got, c.doubts) {
					t.Errorf("doubts %q, want %q\n%s", got, c.doubts, describe(s))
				}
				if len(s.Faults) > 0 || len(s.Loose) > 0 {
					t.Errorf("faults\n%s", describe(s))
				}
				for _, n := range c.notes {
					if !hasNote(s, n) && h.frameLayer != "BORDER" {
						t.Errorf("no note %s\n%s", n, describe(s))
					}
				}
				got := ""
				if len(s.Parts) > 0 && s.Parts[0].Thickness.From != "" {
					got = fmt.Sprintf("%.4g %s", s.Parts[0].Thickness.MM, s.Parts[0].Thickness.From)
				}
				if got != c.thickness {
					t.Errorf("thickness %q, want %q\n%s", got, c.thickness, describe(s))
				}
			})
		}
	}
}
