package features

import (
	"fmt"
	"slices"

	"burrside/features/geom"
)

// Slits in a row look like a line of equal dashes. Dashes that were drawn one by
// one are believed only where slits cannot be: in long and short ones in turn,
// in a line that runs from contour to contour or past them, or where a dash
// crosses a contour.

// dashOnMM is how near the end of a dashed line must be to a contour to end on
// it.
const dashOnMM = 0.1

// doubtSlits doubts a row of equal dashes whose every dash lies in the metal of
// the draft.
func (b *builder) doubtSlits(d int, r *dashRun) {
	if r.what != "hidden line" || !b.maySlit(d, r) {
		return
	}
	b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-opening", Grave: true, At: r.edge.Mid(), Source: sourcesOf(r.info),
		Text: fmt.Sprintf("%d equal lines in a row lie in the metal: a dashed line, or a row of slits; no slit was read", len(r.dashes))})
}

// maySlit tells whether all dashes lie in the metal and do not run from contour
// to contour together.
func (b *builder) maySlit(d int, r *dashRun) bool {
	loops := append([]int{b.drafts[d].outline}, b.drafts[d].holes...)
	on := func(p geom.Point) bool {
		found := false
		b.loopsAt(p, func(i int) {
			found = found || slices.Contains(loops, i) && b.loops[i].ring.Inside(p, dashOnMM) == geom.On
		})
		return found
	}
	if on(r.edge.From) && on(r.edge.To) {
		return false
	}
	for _, e := range r.dashes {
		m := e.Mid()
		for _, p := range [5]geom.Point{e.From, mid(e.From, m), m, mid(m, e.To), e.To} {
			if b.partAt(p) != d && !on(p) {
				return false
			}
		}
	}
	return true
}
