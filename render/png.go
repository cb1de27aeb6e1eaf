package render

import (
	"bufio"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"

	"github.com/fogleman/gg"
	"golang.org/x/image/font"
	"golang.org/x/image/math/fixed"
)

// PNG draws the scene and writes it as a PNG of at most 256 colours. The same
// scene gives the same bytes.
func (s *Scene) PNG(w io.Writer) error {
	if s.WidthPX <= 0 || s.HeightPX <= 0 {
		return errors.New("render: the scene has no size")
	}
	b := bufio.NewWriter(w)
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(b, s.paletted()); err != nil {
		return err
	}
	return b.Flush()
}

func (s *Scene) paletted() *image.Paletted {
	d := newPainter(s)
	for i := range s.items {
		d.item(&s.items[i])
	}
	return toPalette(d.img)
}

// painter draws one scene.
type painter struct {
	dc     *gg.Context
	img    *image.RGBA
	r      *ruler
	u      float64
	glyphs map[glyphKey]glyph
}

// glyphKey is a character of a face at one of four places within a pixel.
type glyphKey struct {
	face font.Face
	r    rune
	sub  int
}

type glyph struct {
	mask    *image.Alpha
	dx, dy  int // of the mask's top left from the dot's pixel
	advance fixed.Int26_6
}

func newPainter(s *Scene) *painter {
	img := image.NewRGBA(image.Rect(0, 0, s.WidthPX, s.HeightPX))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	u := max(0.75, float64(s.WidthPX)/1600)
	d := &painter{dc: gg.NewContextForRGBA(img), img: img, r: newRuler(u), u: u, glyphs: map[glyphKey]glyph{}}
	d.dc.SetLineCapRound()
	d.dc.SetLineJoinRound()
	return d
}

func (d *painter) item(it *item) {
	p := penOf(it.style)
	switch it.kind {
	case itemFill:
		d.fill(it.path, p.fill)
	case itemStroke:
		d.stroke(it.path, p.line, p.width, p.dash)
	case itemMarker:
		d.sign(it.sign, it.x, it.y, it.w, p, len(it.lines) == 0)
		d.centred(it.lines, it.x, it.y, it.style, p)
	case itemText, itemCell:
		d.lines(it.lines, it.x, it.y, it.style, p.ink)
	case itemBalloon:
		d.stroke(it.path, p.line, p.width, nil)
		if n := len(it.path); n > 0 {
			d.dc.DrawCircle(it.path[n-1].x, it.path[n-1].y, 3.5*d.u)
			d.dc.SetColor(p.line)
			d.dc.Fill()
		}
		d.sign(it.sign, it.x, it.y, it.w, p, false)
		d.centred(it.lines, it.x, it.y, it.style, p)
	case itemDimension:
		d.dimension(it, p)
	default:
		panic(fmt.Sprintf("render: unknown item %q", it.kind))
	}
}

// path puts segments into the context, arcs as arcs.
func (d *painter) path(list []seg) {
	for _, s := range list {
		switch s.op {
		case segMove:
			d.dc.MoveTo(s.x, s.y)
		case segLine:
			d.dc.LineTo(s.x, s.y)
		case segArc:
			d.dc.DrawArc(s.cx, s.cy, s.r, s.start, s.start+s.sweep)
		case segClose:
			d.dc.ClosePath()
		default:
			panic(fmt.Sprintf("render: unknown segment %q", s.op))
		}
	}
}

func (d *painter) fill(list []seg, c color.RGBA) {
	if c.A == 0 {
		return
	}
	d.dc.NewSubPath()
	d.path(list)
	d.dc.SetColor(c)
	d.dc.Fill()
}

// strokePiece is how many segments are stroked at once: the cost of a stroke
// grows faster than its number of segments, and round caps hide the seams.
const strokePiece = 24

func (d *painter) stroke(list []seg, c color.RGBA, width float64, dash []float64) {
	if c.A == 0 {
		return
	}
	d.dc.SetColor(c)
	d.dc.SetLineWidth(width * d.u)
	scaled := make([]float64, len(dash))
	for i := range dash {
		scaled[i] = dash[i] * d.u
	}
	d.dc.SetDash(scaled...)
	if len(dash) > 0 {
		d.dc.SetLineCapButt()
		defer d.dc.SetLineCapRound()
	}
	if len(list) <= strokePiece || len(dash) > 0 {
		d.path(list)
		d.dc.Stroke()
		return
	}
	var firstX, firstY, x, y float64
	n := 0
	for _, s := range list {
		switch s.op {
		case segMove:
			firstX, firstY = s.x, s.y
		case segClose:
			s = seg{op: segLine, x: firstX, y: firstY}
		}
		if n == strokePiece {
			d.dc.Stroke()
			d.dc.MoveTo(x, y)
			n = 0
		}
		d.path([]seg{s})
		x, y = s.x, s.y
		n++
	}
	d.dc.Stroke()
}

// sign draws one of our signs, w across; bare ones, without a number, have an
// inner stroke.
func (d *painter) sign(s sign, x, y, w float64, p pen, bare bool) {
	r := w / 2
	dc := d.dc
	body := func() {
		dc.SetColor(p.fill)
		dc.FillPreserve()
		dc.SetColor(p.line)
		dc.SetDash()
		dc.SetLineWidth(p.width * d.u)
		dc.Stroke()
	}
	inner := func(k float64) {
		dc.SetColor(p.ink)
		dc.SetDash()
		dc.SetLineWidth(max(1.2, w*k))
		dc.Stroke()
	}
	r -= p.width * d.u / 2
	switch s {
	case signError:
		q := r * 0.92
		dc.DrawRectangle(x-q, y-q, 2*q, 2*q)
		body()
		if bare {
			dc.DrawLine(x-q*0.5, y-q*0.5, x+q*0.5, y+q*0.5)
			dc.DrawLine(x-q*0.5, y+q*0.5, x+q*0.5, y-q*0.5)
			inner(0.12)
		}
	case signCare:
		for i := range 6 {
			a := float64(i) * math.Pi / 3
			dc.LineTo(x+r*math.Cos(a), y+r*math.Sin(a))
		}
		dc.ClosePath()
		body()
		if bare {
			dc.DrawLine(x-r*0.45, y, x+r*0.45, y)
			inner(0.11)
		}
	case signNote:
		dc.DrawCircle(x, y, r)
		body()
	case signFits:
		dc.DrawCircle(x, y, r)
		body()
		dc.MoveTo(x-r*0.45, y+r*0.02)
		dc.LineTo(x-r*0.1, y+r*0.4)
		dc.LineTo(x+r*0.5, y-r*0.38)
		inner(0.11)
	case signUnknown:
		dc.MoveTo(x, y-r)
		dc.LineTo(x+r, y)
		dc.LineTo(x, y+r)
		dc.LineTo(x-r, y)
		dc.ClosePath()
		body()
		if bare {
			d.word("?", x, y, d.r.face(fontBold, w/d.u/2), p.ink)
		}
	case signDot:
		dc.DrawCircle(x, y, r)
		body()
	default:
		panic(fmt.Sprintf("render: unknown sign %q", s))
	}
}

// dimension draws a line with an arrow at each end, pointing inwards from
// outside when the distance is short, and the label in its box.
func (d *painter) dimension(it *item, p pen) {
	a, b := it.path[0], it.path[len(it.path)-1]
	dx, dy := b.x-a.x, b.y-a.y
	n := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	head := 9 * d.u
	if n > 0 {
		ux, uy := dx/n, dy/n
		if n > 3.2*head {
			d.stroke(it.path, p.line, p.width, nil)
			d.arrow(a.x, a.y, ux, uy, head, p)
			d.arrow(b.x, b.y, -ux, -uy, head, p)
		} else {
			tail := 16 * d.u
			d.stroke(lineSegs(a.x-ux*tail, a.y-uy*tail, b.x+ux*tail, b.y+uy*tail), p.line, p.width, nil)
			d.arrow(a.x, a.y, -ux, -uy, head*0.8, p)
			d.arrow(b.x, b.y, ux, uy, head*0.8, p)
		}
	}
	if p.fill.A > 0 {
		box := area{it.x, it.y, it.w, it.h}
		d.fill(rectSegs(box), p.fill)
		d.stroke(rectSegs(box.grow(-0.5*d.u)), p.line, p.width, nil)
		lh := d.r.lineHeight(it.style)
		d.lines(it.lines, it.x+5*d.u, it.y+(it.h-lh*float64(len(it.lines)))/2, it.style, p.ink)
		return
	}
	d.lines(it.lines, it.x, it.y, it.style, p.ink)
}

// arrow has its point at (x, y) and runs back along (ux, uy).
func (d *painter) arrow(x, y, ux, uy, head float64, p pen) {
	k := head * 0.3
	d.dc.MoveTo(x, y)
	d.dc.LineTo(x+ux*head-uy*k, y+uy*head+ux*k)
	d.dc.LineTo(x+ux*head+uy*k, y+uy*head-ux*k)
	d.dc.ClosePath()
	d.dc.SetColor(p.line)
	d.dc.Fill()
}

// lines writes lines of text below each other, the first at the top of y.
func (d *painter) lines(list []string, x, y float64, style string, c color.RGBA) {
	face := d.r.styleFace(style)
	m := face.Metrics()
	lh := d.r.lineHeight(style)
	asc := float64(m.Ascent) / 64
	desc := float64(m.Descent) / 64
	for i, s := range list {
		base := y + float64(i)*lh + (lh-asc-desc)/2 + asc
		d.text(s, x, math.Round(base), face, c)
	}
}

func (d *painter) centred(list []string, x, y float64, style string, p pen) {
	if len(list) > 0 {
		d.word(list[0], x, y, d.r.styleFace(style), p.ink)
	}
}

// word writes a word about a point.
func (d *painter) word(s string, x, y float64, face font.Face, c color.RGBA) {
	w := float64(font.MeasureString(face, s)) / 64
	high := float64(face.Metrics().CapHeight) / 64
	d.text(s, x-w/2, math.Round(y+high/2), face, c)
}

// text writes a line with its base line at y. Glyphs are kept: a picture has
// few of them, many times.
func (d *painter) text(s string, x, y float64, face font.Face, c color.RGBA) {
	dot := fixed.Int26_6(math.Round(x * 64))
	row := int(y)
	prev := rune(-1)
	for _, r := range s {
		if prev >= 0 {
			dot += face.Kern(prev, r)
		}
		prev = r
		g := d.glyph(face, r, int(dot&63)/16)
		if g.mask != nil {
			d.blend(g.mask, int(dot>>6)+g.dx, row+g.dy, c)
		}
		dot += g.advance
	}
}

func (d *painter) glyph(face font.Face, r rune, sub int) glyph {
	k := glyphKey{face, r, sub}
	if g, ok := d.glyphs[k]; ok {
		return g
	}
	var g glyph
	at, mask, maskp, advance, ok := face.Glyph(fixed.Point26_6{X: fixed.Int26_6(sub * 16)}, r)
	g.advance = advance
	if ok && !at.Empty() {
		a := image.NewAlpha(image.Rect(0, 0, at.Dx(), at.Dy()))
		for y := range at.Dy() {
			for x := range at.Dx() {
				_, _, _, v := mask.At(maskp.X+x, maskp.Y+y).RGBA()
				a.Pix[y*a.Stride+x] = uint8(v >> 8)
			}
		}
		g.mask, g.dx, g.dy = a, at.Min.X, at.Min.Y
	}
	d.glyphs[k] = g
	return g
}

// blend lays a colour through a mask on the picture.
func (d *painter) blend(mask *image.Alpha, x0, y0 int, c color.RGBA) {
	b := d.img.Bounds()
	for y := range mask.Rect.Dy() {
		py := y0 + y
		if py < b.Min.Y || py >= b.Max.Y {
			continue
		}
		for x := range mask.Rect.Dx() {
			a := uint32(mask.Pix[y*mask.Stride+x])
			px := x0 + x
			if a == 0 || px < b.Min.X || px >= b.Max.X {
				continue
			}
			o := d.img.PixOffset(px, py)
			p := d.img.Pix[o : o+3 : o+3]
			p[0] = uint8((uint32(c.R)*a + uint32(p[0])*(255-a) + 127) / 255)
			p[1] = uint8((uint32(c.G)*a + uint32(p[1])*(255-a) + 127) / 255)
			p[2] = uint8((uint32(c.B)*a + uint32(p[2])*(255-a) + 127) / 255)
		}
	}
}
