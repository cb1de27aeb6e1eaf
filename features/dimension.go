package features

import (
	"math"
	"slices"
	"strings"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/measure"
)

// drawnDim is a linear, diameter or radius dimension as it stands in the space.
type drawnDim struct {
	kind     dxfread.DimensionKind
	from, to geom.Point // the points that it measures between, drawing units
	line     geom.Point // a point of its line, drawing units; of a radius or diameter a point measured
	drawn    float64    // what they measure, drawing units
	length   float64    // the same in the unit of the text
	stated   float64    // group 42; 0 not stated
	typed    string     // text typed over it; "" none
	shown    string     // text as it is shown; "" not known
	byFactor bool       // a factor of its style is in the stated value
	info     int32
}

// collectDimension keeps a dimension that can be compared with the geometry:
// one between two points. Angular and ordinate ones are left out.
func (b *builder) collectDimension(e *dxfread.Dimension, m dxfread.Matrix, info int32) {
	d := drawnDim{kind: e.Kind, info: info, shown: dimText(e)}
	at := func(v dxfread.Vec) geom.Point { q := m.Apply(v); return geom.Point{X: q.X, Y: q.Y} }
	switch e.Kind {
	case dxfread.DimRotated, dxfread.DimAligned:
		if !e.HasDef[1] || !e.HasDef[2] {
			return
		}
		d.from, d.to = at(e.Defs[1]), at(e.Defs[2])
		d.line = d.from
		if e.HasDef[0] {
			d.line = at(e.Defs[0])
		}
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
		d.line = d.from
		d.length = d.from.Dist(d.to)
	default:
		return
	}
	factor := e.LinearFac
	if factor == 0 && b.d.Header.LinearFactor != nil {
		factor = *b.d.Header.LinearFactor
	}
	if factor > 0 && factor != 1 && !slices.Contains(b.factors, factor) {
		b.factors = append(b.factors, factor)
	}
	d.drawn = d.length
	// A factor that turns inches into millimetres or back changes the unit of
	// the text. Any other is the scale of a view: the points, which are what
	// is judged, measure less or more than the text says, and that must show.
	if math.Abs(factor-25.4) < 1e-3 || math.Abs(factor*25.4-1) < 1e-4 {
		d.length *= factor
	}
	if e.Measured != nil && *e.Measured > 0 {
		d.stated = *e.Measured
	}
	if factor > 0 && factor != 1 && d.length == d.drawn && d.stated > 0 {
		d.byFactor = true
		if math.Abs(d.stated-d.drawn) <= dimShare*d.drawn {
			d.stated *= factor // what is shown; some writers state what is drawn
		}
	}
	if v := strings.TrimSpace(e.Override); v != "<>" {
		d.typed = v
	}
	// Points that lie square to the dimension's direction measure nothing.
	if !(d.length > 1e-6*d.from.Dist(d.to)) || math.IsInf(d.length, 1) {
		return
	}
	b.drawnDims = append(b.drawnDims, d)
}

// dimCallOut gives the text of a dimension that is a call-out of holes: one of a
// diameter, or with the sign. The measured value alone repeats the geometry and
// says nothing; with words or a tolerance about it, as in "4X <>", it is a call-out.
func dimCallOut(e *dxfread.Dimension) string {
	v := strings.TrimSpace(e.Override)
	const signs = "Ø⌀∅ø"
	diameter := e.Kind == dxfread.DimDiameter || strings.ContainsAny(v, signs) || strings.ContainsAny(e.Post, signs)
	if e.Kind == dxfread.DimRadius && v != "" && v != "<>" && !strings.Contains(v, "<>") {
		return v
	}
	if !diameter || e.Kind == dxfread.DimRadius {
		return ""
	}
	plain := v == "" || v == "<>"
	if plain && !e.HasTolerance && (e.Post == "" || strings.Trim(e.Post, "<> "+signs) == "") {
		return ""
	}
	text := dimText(e)
	if text != "" && !strings.ContainsAny(text, signs) && (plain || strings.Contains(v, "<>")) {
		value := measure.FormatNumber(*e.Measured, 4)
		text = strings.Replace(text, value, "Ø"+value, 1)
	}
	return text
}
