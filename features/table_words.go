package features

import (
	"fmt"
	"slices"

	"burrside/features/geom"
)

// Texts in the cells of a title block or a table speak of the drawing, not of
// the part that stands nearest. A table that names several thicknesses is a
// list of several parts, and which is which its rows do not say here.

// tableOf is the least frame or table in whose cells a text stands, -1 none.
func (b *builder) tableOf(t *Text) int {
	best := -1
	p := b.textMiddle(t)
	for i := range b.areas {
		a := &b.areas[i]
		if !a.holds(p) {
			continue
		}
		if best < 0 || a.box.Width()*a.box.Height() < b.areas[best].box.Width()*b.areas[best].box.Height() {
			best = i
		}
	}
	return best
}

// holds tells whether a point lies in a cell.
func (a *sheetArea) holds(p geom.Point) bool {
	if !a.box.Contains(p) {
		return false
	}
	return !a.frame || slices.ContainsFunc(a.cells, func(c geom.Box) bool { return c.Contains(p) })
}

// sortTableWords marks the statements that stand in tables and leaves out those
// that cannot be tied: bolts of a parts list, which are no holes, and values of
// which a table names several.
func (b *builder) sortTableWords(all []statement) []statement {
	if len(b.areas) == 0 {
		return all
	}
	type key struct {
		table int
		kind  string
	}
	values := map[key][]string{}
	where := make([]int, len(all))
	for i := range all {
		s := &all[i]
		where[i] = b.tableOf(&s.text)
		if k := (key{where[i], s.kind}); where[i] >= 0 && s.of == nil && !slices.Contains(values[k], s.value) {
			values[k] = append(values[k], s.value)
		}
	}
	told := map[key]bool{}
	out := all[:0]
	for i := range all {
		s := all[i]
		k := key{where[i], s.kind}
		switch {
		case where[i] < 0 || s.of != nil:
		case s.kind == "call-out":
			if s.call.Bolt != "" && !(s.holeMM > 0) {
				continue
			}
		case len(values[k]) > 1:
			if !told[k] {
				told[k] = true
				b.note(Note{Code: "text-not-tied", At: s.text.At, HasAt: true, Count: len(values[k]), Source: []Source{s.text.Source},
					Text: fmt.Sprintf("a table names %d values for the %s, %q among them; none was taken for a part", len(values[k]), s.kind, clip(s.line))})
			}
			continue
		default:
			s.inTable = b.areas[where[i]].title
		}
		out = append(out, s)
	}
	return out
}
