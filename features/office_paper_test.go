package features_test

import (
	"fmt"
	"math"

	"burrside/dxfread/dxftest"
)

// paper draws what belongs to the sheet: frame, title block, tables, dimensions.
// Its numbers are millimetres on paper; k drawing units are one of them, and
// (x,y) is the paper's bottom left corner.
type paper struct {
	b       *dxftest.Builder
	k, x, y float64
	layer   string
}

func (p *paper) line(x1, y1, x2, y2 float64) {
	p.b.Line(p.x+x1*p.k, p.y+y1*p.k, p.x+x2*p.k, p.y+y2*p.k)
}

func (p *paper) text(x, y, h float64, s string) {
	p.b.Text(p.x+x*p.k, p.y+y*p.k, h*p.k, s)
}

func (p *paper) rect(x, y, w, h float64) {
	p.b.Polyline(true, dxftest.Rect(p.x+x*p.k, p.y+y*p.k, w*p.k, h*p.k)...)
}

// frame draws the trimmed sheet and the drawing space, 20 off its left edge and
// 10 off the others (ISO 5457, from memory), with centring marks and zones.
func (p *paper) frame(w, h float64) {
	p.b.Layer(p.layer)
	p.rect(0, 0, w, h)
	p.rect(20, 10, w-30, h-20)
	p.line(0, h/2, 25, h/2)
	p.line(w-15, h/2, w, h/2)
	p.line(w/2, 0, w/2, 15)
	p.line(w/2, h-15, w/2, h)
	n := int(math.Round(w / 105))
	for i := range n {
		at := w * (float64(i) + 0.5) / float64(n)
		p.text(at, 3, 3.5, fmt.Sprint(i+1))
		p.text(at, h-7, 3.5, fmt.Sprint(i+1))
	}
}

// cell is a field of a title block: a small label above a value.
type cell struct {
	w            float64
	label, value string
}

// titleAbove draws a title block in the bottom right corner of the drawing
// space of a sheet of width w, 180 wide, with labels above the values.
func (p *paper) titleAbove(w float64, rows ...[]cell) {
	p.b.Layer(p.layer)
	const row = 12.0
	x, top := w-10-180, 10+row*float64(len(rows))
	p.line(x, 10, x, top)
	p.line(x, top, w-10, top)
	for i, r := range rows {
		y := top - row*float64(i+1)
		if i+1 < len(rows) {
			p.line(x, y, w-10, y)
		}
		at := x
		for k, c := range r {
			if k > 0 {
				p.line(at, y, at, y+row)
			}
			if c.label != "" {
				p.text(at+1.5, y+8.5, 2, c.label)
			}
			if c.value != "" {
				p.text(at+3, y+2.5, 3.5, c.value)
			}
			at += c.w
		}
	}
}

// titleLeft draws a title block with a column of labels left of one of values.
func (p *paper) titleLeft(w float64, rows ...[2]string) {
	p.b.Layer(p.layer)
	const row = 8.0
	x, top := w-10-120, 10+row*float64(len(rows))
	p.line(x, 10, x, top)
	p.line(x, top, w-10, top)
	p.line(x+40, 10, x+40, top)
	for i, r := range rows {
		y := top - row*float64(i+1)
		if i+1 < len(rows) {
			p.line(x, y, w-10, y)
		}
		p.text(x+2, y+2.5, 3, r[0])
		p.text(x+42, y+2.5, 3, r[1])
	}
}

// table draws a grid with texts; (x,y) is its bottom left, the first row the top.
func (p *paper) table(x, y, row float64, widths []float64, rows ...[]string) {
	p.b.Layer(p.layer)
	w, h := 0.0, row*float64(len(rows))
	for _, c := range widths {
		w += c
	}
	p.rect(x, y, w, h)
	at := x
	for _, c := range widths[:len(widths)-1] {
		at += c
		p.line(at, y, at, y+h)
	}
	for i, r := range rows {
		yr := y + h - row*float64(i+1)
		if i > 0 {
			p.line(x, yr+row, x+w, yr+row)
		}
		at := x
		for k, s := range r {
			p.text(at+2, yr+0.25*row, 0.4*row, s)
			at += widths[k]
		}
	}
}

// across and up are dimensions in drawing units, off beyond the first point;
// text is typed over the value, "" leaves it.
func (p *paper) across(x1, x2, y, off float64, text string) {
	p.b.Layer("DIM").Dimension(x1, y, x2, y, (x1+x2)/2, y+off, 0, x2-x1, text)
}

func (p *paper) up(x, y1, y2, off float64, text string) {
	p.b.Layer("DIM").Dimension(x, y1, x, y2, x+off, (y1+y2)/2, 90, y2-y1, text)
}

// explodedAcross is a dimension taken apart: extension lines, a line with two
// filled arrows as triangles, and a text.
func (p *paper) explodedAcross(x1, x2, y, off float64, text string) {
	p.b.Layer("DIM")
	s, yd := 1.0, y+off
	if off < 0 {
		s = -1
	}
	p.b.Line(x1, y+s*p.k, x1, yd+2*s*p.k).Line(x2, y+s*p.k, x2, yd+2*s*p.k).Line(x1, yd, x2, yd)
	for _, a := range [2][2]float64{{x1, 1}, {x2, -1}} {
		tip, back := a[0], a[0]+3.5*a[1]*p.k
		p.b.Raw("SOLID", "AcDbTrace", dxftest.Pair{Code: 10, Value: tip}, dxftest.Pair{Code: 20, Value: yd}, dxftest.Pair{Code: 30, Value: 0.0},
			dxftest.Pair{Code: 11, Value: back}, dxftest.Pair{Code: 21, Value: yd + 0.6*p.k}, dxftest.Pair{Code: 31, Value: 0.0},
			dxftest.Pair{Code: 12, Value: back}, dxftest.Pair{Code: 22, Value: yd - 0.6*p.k}, dxftest.Pair{Code: 32, Value: 0.0},
			dxftest.Pair{Code: 13, Value: back}, dxftest.Pair{Code: 23, Value: yd - 0.6*p.k}, dxftest.Pair{Code: 33, Value: 0.0})
	}
	p.b.Text((x1+x2)/2-4*p.k, yd+p.k, 3.5*p.k, text)
}

func (p *paper) explodedUp(x, y1, y2, off float64, text string) {
	p.b.Layer("DIM")
	s, xd := 1.0, x+off
	if off < 0 {
		s = -1
	}
	p.b.Line(x+s*p.k, y1, xd+2*s*p.k, y1).Line(x+s*p.k, y2, xd+2*s*p.k, y2).Line(xd, y1, xd, y2)
	for _, a := range [2][2]float64{{y1, 1}, {y2, -1}} {
		p.b.Line(xd, a[0], xd-0.6*p.k, a[0]+3.5*a[1]*p.k).Line(xd, a[0], xd+0.6*p.k, a[0]+3.5*a[1]*p.k)
	}
	p.b.Text(xd-8*p.k, (y1+y2)/2, 3.5*p.k, text)
}

// hatchLines draws lines at 45 degrees through a rectangle, a step apart along
// its bottom.
func hatchLines(b *dxftest.Builder, x, y, w, h, step float64) {
	for c := step - h; c < w; c += step {
		from, to := max(c, 0), min(c+h, w)
		b.Line(x+from, y+from-c, x+to, y+to-c)
	}
}

// centre draws the two centre lines of a hole.
func centre(b *dxftest.Builder, x, y, reach float64) {
	b.Linetype("CENTER", 10, -2, 2, -2).LayerWith("CENTRE", dxftest.LayerOptions{Colour: 1, Linetype: "CENTER"})
	b.Line(x-reach, y, x+reach, y).Line(x, y-reach, x, y+reach).Layer("PROFILE")
}

// balloon draws a circle with a number and a leader to a place.
func (p *paper) balloon(x, y, toX, toY float64, number string) {
	p.b.Layer(p.layer)
	r := 5 * p.k
	d := math.Sqrt((toX-x)*(toX-x) + (toY-y)*(toY-y))
	p.b.Circle(x, y, r).Line(x+(toX-x)*r/d, y+(toY-y)*r/d, toX, toY)
	p.b.Text(x-1.2*p.k, y-1.75*p.k, 3.5*p.k, number)
}
