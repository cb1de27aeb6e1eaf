package features

import (
	"math"
	"slices"
)

// plateTextOf is a text that states another thickness than two views with
// continuous lines show, where they are the outlines nearest to it and no text
// names a section; "" none. They are plates with a line each then, of which
// nobody knows what it is: an angle as thick as that would stand in no text.
func (b *builder) plateTextOf(v, w *legView, named []namedSection) string {
	if v.hidden || w.hidden || len(named) > 0 {
		return ""
	}
	said := ""
	for _, s := range b.thicknessTexts() {
		if math.Abs(s.mm-v.trueMM(v.thickMM)) <= sectionThickMM {
			return ""
		}
		if i, _, _ := b.outlinesBeside(s.text.At); said == "" && (i == v.loop || i == w.loop) {
			said = s.text.Value
		}
	}
	return said
}

// isLegLine tells whether a mended gap is one between the line of an angle's
// thickness and the outline about it: such a line often stops short.
func (b *builder) isLegLine(sources []int32) bool {
	return len(sources) > 0 && !slices.ContainsFunc(sources, func(s int32) bool { return !b.legLines[s] })
}

// keepLegLine keeps that an entity is the line of a thickness, if it draws no
// outline too.
func (b *builder) keepLegLine(v *legView, sources []int32) {
	if b.legLines == nil {
		b.legLines = map[int32]bool{}
	}
	outline := b.loops[v.loop].pieces
	for _, s := range sources {
		if !slices.ContainsFunc(outline, func(p piece) bool { return slices.Contains(p.sources, s) }) {
			b.legLines[s] = true
		}
	}
}
