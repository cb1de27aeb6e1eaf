package features

import (
	"slices"
	"strings"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/measure"
)

// Tolerance is what a dimension asks for beyond its size.
type Tolerance struct {
	Text     string // the dimension's text, with its tolerance
	At       geom.Point
	PlusMM   float64  // how far the size may be above
	MinusMM  float64  // and below; both limits may lie on one side
	Features []string // holes whose centre the dimension ends at
	Source   []Source
}

// centreMM is how far a dimension's end may be from a hole's centre.
const centreMM = 0.05

// dimText is a dimension's text as it is shown: what is typed, or what its style
// puts about the value; "" if it cannot be told.
func dimText(e *dxfread.Dimension) string {
	v := strings.TrimSpace(e.Override)
	if v != "" && v != "<>" && !strings.Contains(v, "<>") {
		return v
	}
	if e.Measured == nil || !(*e.Measured > 0) {
		return ""
	}
	value := measure.FormatNumber(*e.Measured, 4)
	if post := strings.TrimSpace(e.Post); strings.Contains(post, "<>") {
		value = putValue(post, value)
	} else if post != "" {
		value += post
	}
	if e.HasTolerance {
		value += styleTolerance(e)
	}
	if v != "" {
		value = putValue(v, value)
	}
	return value
}

// putValue writes a value where "<>" stands, apart from digits beside it: those
// are a tolerance's.
func putValue(text, value string) string {
	head, tail, _ := strings.Cut(text, "<>")
	if head != "" && head[len(head)-1] >= '0' && head[len(head)-1] <= '9' {
		head += " "
	}
	if tail != "" && tail[0] >= '0' && tail[0] <= '9' {
		tail = " " + tail
	}
	return head + value + tail
}

// styleTolerance writes the tolerance of a style.
func styleTolerance(e *dxfread.Dimension) string {
	if e.Plus == e.Minus {
		return " ±" + measure.FormatNumber(e.Plus, 4)
	}
	sign := func(v float64) string {
		if v < 0 {
			return "-" + measure.FormatNumber(-v, 4)
		}
		return "+" + measure.FormatNumber(v, 4)
	}
	return " " + sign(e.Plus) + "/" + sign(-e.Minus)
}

// tieTolerances gives each part the tolerances of the dimensions that lie on it.
func (b *builder) tieTolerances() {
	k := b.sheet.Units.MM
	for i := range b.drawnDims {
		d := &b.drawnDims[i]
		if d.kind != dxfread.DimRotated && d.kind != dxfread.DimAligned {
			continue // a diameter's is read from its call-out
		}
		n := measure.DimText(d.shown)
		if !n.HasTolerance {
			continue
		}
		settleDual(&n)
		unit := 1.0 // of Plus and Minus, in mm
		if len(n.Sizes) == 0 || n.Sizes[0].Unit == "" {
			unit = k
			if d.length > 0 && d.drawn != d.length {
				unit = k * d.drawn / d.length
			}
		}
		from, to := d.from.Mul(k), d.to.Mul(k)
		// On one of a part's views or copies: both legs of an angle have one.
		var on []int
		for _, in := range b.instances {
			if box := in.box.Grow(1); box.Contains(from) && box.Contains(to) && !slices.Contains(on, in.part) {
				on = append(on, in.part)
			}
		}
		slices.Sort(on)
		for _, p := range on {
			part := &b.sheet.Parts[p]
			t := Tolerance{Text: d.shown, At: mid(from, to), PlusMM: n.Plus * unit, MinusMM: n.Minus * unit, Source: sourcesOf([]int32{d.info})}
			for f := range part.Features {
				if h := &part.Features[f]; h.IsInside() && (part.OnDrawing(h.At).Dist(from) <= centreMM || part.OnDrawing(h.At).Dist(to) <= centreMM) {
					t.Features = append(t.Features, h.ID)
				}
			}
			part.Tolerances = append(part.Tolerances, t)
		}
	}
}
