package features

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/measure"
)

// drawnDim is a linear, diameter or radius dimension as it stands in the space.
type drawnDim struct {
	from, to geom.Point // the points that it measures between, drawing units
	length   float64    // what they measure, in the unit of the text
	stated   float64    // group 42; 0 not stated
	typed    string     // text typed over it; "" none
	info     int32
}

// collectDimension keeps a dimension that can be compared with the geometry:
// one between two points. Angular and ordinate ones are left out.
func (b *builder) collectDimension(e *dxfread.Dimension, m dxfread.Matrix, info int32) {
	var d drawnDim
	at := func(v dxfread.Vec) geom.Point { q := m.Apply(v); return geom.Point{X: q.X, Y: q.Y} }
	switch e.Kind {
	case dxfread.DimRotated, dxfread.DimAligned:
		if !e.HasDef[1] || !e.HasDef[2] {
			return
		}
		d.from, d.to = at(e.Defs[1]), at(e.Defs[2])
		d.length = d.from.Dist(d.to)
		if e.Kind == dxfread.DimRotated {
			s, c := math.Sincos(e.AngleDeg * math.Pi / 180)
			u := m.Direction(dxfread.Vec{X: c, Y: s})
			d.length = math.Abs(d.to.Sub(d.from).Dot(geom.Point{X: u.X, Y: u.Y}.Unit()))
		}
	case dxfread.DimDiameter, dxfread.DimRadius:
		if !e.HasDef[0] || !e.HasDef[3] {
			return
		}
		d.from, d.to = at(e.Defs[0]), at(e.Defs[3])
		d.length = d.from.Dist(d.to)
	default:
		return
	}
	factor := e.LinearFac
	if factor == 0 && b.d.Header.LinearFactor != nil {
		factor = *b.d.Header.LinearFactor
	}
	// A factor that turns inches into millimetres or back changes the unit of
	// the text. Any other is the scale of a view: the points, which are what
	// is judged, measure less or more than the text says, and that must show.
	if math.Abs(factor-25.4) < 1e-3 || math.Abs(factor*25.4-1) < 1e-4 {
		d.length *= factor
	}
	if e.Measured != nil && *e.Measured > 0 {
		d.stated = *e.Measured
	}
	if v := strings.TrimSpace(e.Override); v != "" && !strings.Contains(v, "<>") {
		d.typed = v
	}
	// Points that lie square to the dimension's direction measure nothing.
	if !(d.length > 1e-6*d.from.Dist(d.to)) || math.IsInf(d.length, 1) {
		return
	}
	d.info = info
	b.drawnDims = append(b.drawnDims, d)
}

const (
	// dimShare is how far a dimension may be from what it measures: rounding
	// of the last digit comes on top.
	dimShare = 0.005
	// dimFractionMM is half of a thirty-second of an inch, to which fractions
	// are commonly rounded.
	dimFractionMM = 25.4 / 64
)

// compareDimensions doubts the parts whose dimensions say another size than
// the geometry has: typed over, stale, or a view drawn to a scale. Nothing is
// rescaled; the sizes are judged as drawn, and the doubt is grave.
func (b *builder) compareDimensions() {
	type odd struct {
		d     *drawnDim
		says  float64 // in drawing units
		shown string
	}
	var odds []odd
	agree := 0
	for i := range b.drawnDims {
		d := &b.drawnDims[i]
		switch says, tol, ok := b.typedLength(d.typed); {
		case ok && math.Abs(says-d.length) > math.Max(tol, dimShare*d.length):
			odds = append(odds, odd{d, says, fmt.Sprintf("typed %q", clip(d.typed))})
		case !ok && d.typed == "" && d.stated > 0 && math.Abs(d.stated-d.length) > dimShare*d.length:
			odds = append(odds, odd{d, d.stated, "of " + shortNumber(d.stated)})
		case ok || d.typed == "" && d.stated > 0:
			agree++
		}
	}
	if len(odds) == 0 {
		return
	}
	ratio := odds[0].says / odds[0].d.length
	same := len(odds) >= 2 && agree == 0
	for _, o := range odds {
		same = same && math.Abs(o.says/o.d.length-ratio) <= 0.01*ratio
	}
	if same {
		var src []int32
		for _, o := range odds {
			src = append(src, o.d.info)
		}
		b.sheetDoubts = append(b.sheetDoubts, Doubt{Code: "reading-doubt", Grave: true, Source: sourcesOf(src),
			Text: fmt.Sprintf("all %d dimensions say %s times what is drawn: a view drawn to a scale? sizes are judged as drawn", len(odds), shortNumber(ratio))})
		return
	}
	k := b.sheet.Units.MM
	for _, o := range odds {
		from, to := o.d.from.Mul(k), o.d.to.Mul(k)
		doubt := Doubt{Code: "reading-doubt", Grave: true, At: mid(from, to), Source: sourcesOf([]int32{o.d.info}),
			Text: fmt.Sprintf("a dimension %s measures %s between (%s, %s) and (%s, %s)", o.shown, shortNumber(o.d.length),
				shortPlace(from.X), shortPlace(from.Y), shortPlace(to.X), shortPlace(to.Y))}
		tied := false
		for i := range b.drafts {
			box := b.loops[b.drafts[i].outline].box.Grow(1)
			if box.Contains(from) && box.Contains(to) {
				b.drafts[i].doubts = append(b.drafts[i].doubts, doubt)
				tied = true
			}
		}
		if !tied {
			b.sheetDoubts = append(b.sheetDoubts, doubt)
		}
	}
}

// typedLength reads the length of a dimension's text in drawing units, and how
// far rounding may have moved it. Counts ("2x 50"), signs of diameter and
// radius, tolerances and words behind it are passed over. ok is false if the
// text holds no length.
func (b *builder) typedLength(text string) (length, tol float64, ok bool) {
	t := strings.TrimLeft(text, "Ø⌀∅ø ")
	t = strings.TrimPrefix(t, "R")
	if i := strings.IndexAny(t, "xX×"); i > 0 && strings.Trim(t[:i], "0123456789 ") == "" {
		_, size := utf8.DecodeRuneInString(t[i:])
		t = t[i+size:]
	}
	t = strings.TrimLeft(t, "Ø⌀∅ø R")
	if i := strings.IndexAny(t, "±([{+\n"); i > 0 {
		t = t[:i]
	}
	t = strings.TrimSpace(t)
	if t == "" || t[0] < '0' || t[0] > '9' {
		return 0, 0, false
	}
	for {
		if v, err := measure.Length(t); err == nil {
			k := b.sheet.Units.MM
			tol = dimFractionMM
			if !v.Fraction {
				tol = halfDigit(t)
				if v.Unit == "in" {
					tol *= 25.4
				}
			}
			switch {
			case v.Unit != "":
				return v.MM / k, tol / k, true
			case v.Fraction:
				return v.MM * 25.4 / k, tol / k, true
			}
			return v.MM, tol, true
		}
		i := strings.LastIndexByte(t, ' ')
		if i < 0 {
			return 0, 0, false
		}
		t = strings.TrimSpace(t[:i])
	}
}

// halfDigit is half of the last digit of the first number in a text, with a
// hair for rounding.
func halfDigit(t string) float64 {
	end := strings.IndexFunc(t, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' })
	if end >= 0 {
		t = t[:end]
	}
	digits := 0
	if i := strings.LastIndexAny(t, ".,"); i >= 0 {
		digits = len(t) - i - 1
	}
	return 0.501 * math.Pow(10, -float64(digits))
}
