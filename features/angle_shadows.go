package features

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// What a view of a leg shows of the other leg, which is seen there from its
// edge: a line at the thickness as far as the other leg goes, and short lines
// across the thickness at its holes and notches.

// lineIsOf tells whether the line in a view runs along 90 per cent of where
// both legs have metal just beyond the thickness: where the other one is coped
// away, nothing of it is seen.
func (b *builder) lineIsOf(v, other *legView) bool {
	beyond := v.thickMM + 4*legLineMM
	metal := meetSpans(b.metalFromHeel(v, beyond, v.along), b.metalFromHeel(other, beyond, v.along))
	var edges []geom.Edge
	for _, l := range v.lines {
		edges = append(edges, l.edge)
	}
	all := spanLength(metal)
	drawn := spansOf(edges, v.along)
	// The line must not go on where nothing is, either.
	return all > 0 && spanLength(meetSpans(metal, drawn)) >= legCoverShare*max(all, spanLength(drawn))
}

// metalFromHeel gives where along the heel a leg has metal at a distance from
// it.
func (b *builder) metalFromHeel(v *legView, off float64, along geom.Point) []reach {
	at := v.low + off
	if v.heelHigh {
		at = v.high - off
	}
	spans := metalOn(b.loops[v.loop].ring, v.along, v.across, at)
	if v.along.Dot(along) < 0 {
		for i, s := range spans {
			spans[i] = reach{-s.to, -s.from}
		}
	}
	return spans
}

// takeEdgeShadows takes the lines across the thickness in a view that stand
// where the other leg has the side of a hole or a notch.
func (b *builder) takeEdgeShadows(v, other *legView) {
	var left []viewLine
	var sides []float64
	for _, l := range v.others {
		if !v.acrossThickness(l.edge) {
			left = append(left, l)
			continue
		}
		if sides == nil {
			sides = b.sidesAlong(other.loop, v.along)
		}
		at := l.edge.Mid().Dot(v.along)
		if slices.ContainsFunc(sides, func(s float64) bool { return math.Abs(s-at) <= legLineMM }) {
			v.lines = append(v.lines, l)
			continue
		}
		left = append(left, l)
	}
	v.others = left
}

// acrossThickness tells whether an edge runs square from the heel to the line
// of the thickness.
func (v *legView) acrossThickness(e geom.Edge) bool {
	if e.IsArc() || math.Abs(e.StartDir().Dot(v.along)) > 1e-3 {
		return false
	}
	heel, line := v.low, v.low+v.thickMM
	if v.heelHigh {
		heel, line = v.high-v.thickMM, v.high
	}
	p, q := e.From.Dot(v.across), e.To.Dot(v.across)
	return math.Abs(min(p, q)-heel) <= legLineMM && math.Abs(max(p, q)-line) <= legLineMM
}

// sidesAlong lists where along a direction an outline has corners and its
// openings begin and end.
func (b *builder) sidesAlong(loop int, u geom.Point) []float64 {
	out := []float64{}
	for _, e := range b.loops[loop].ring {
		out = append(out, e.From.Dot(u))
	}
	for i := range b.loops {
		l := &b.loops[i]
		if l.dead || i == loop || !b.loops[loop].box.ContainsBox(l.box) {
			continue
		}
		if c := l.ring[0].From; b.loops[loop].ring.Inside(c, 1e-6) == geom.In {
			out = append(out, -l.ring.Support(u.Mul(-1)), l.ring.Support(u))
		}
	}
	return out
}
