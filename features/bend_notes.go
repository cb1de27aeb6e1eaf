package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
	"burrside/features/measure"
)

// bendNote is a line of a text that states something of a bend.
type bendNote struct {
	call measure.BendCall
	text *Text
	line string
	at   geom.Point
}

// readBendNotes gives each bend the angle, the inside radius and the way that
// the notes beside it state. A note belongs to the nearest bend within reach of
// it (as bendNoteBeside); one that names a bend, states a radius and stands by no
// bend is for all that have none of their own. Notes that contradict each other
// are a grave doubt, and neither holds.
func (b *builder) readBendNotes() error {
	type place struct{ draft, line int }
	var bends []place
	for d := range b.drafts {
		for i := range b.drafts[d].lines {
			if b.drafts[d].lines[i].Kind == Bend && !b.drafts[d].dropped {
				bends = append(bends, place{d, i})
			}
		}
	}
	if len(bends) == 0 {
		return nil
	}
	beside := make([][]bendNote, len(bends))
	var general []bendNote
	for _, n := range b.bendCalls() {
		best, at, next := math.Inf(1), -1, math.Inf(1)
		for k, p := range bends {
			f := &b.drafts[p.draft].lines[p.line]
			if d := geom.LineEdge(f.From, f.To).Dist(n.at); d < best {
				best, at, next = d, k, best
			} else {
				next = min(next, d)
			}
		}
		switch reach := math.Max(15, 3*n.text.HeightMM); {
		case best <= reach && next-best > 1e-3:
			beside[at] = append(beside[at], n)
		case best <= reach:
			// Between two bends it may be either's: a note for one is lost rather
			// than given to the wrong one.
		case n.call.Word && n.call.To == "" && n.call.Radius.MM > 0:
			general = append(general, n)
		}
	}
	for k, p := range bends {
		f := &b.drafts[p.draft].lines[p.line]
		own := slices.DeleteFunc(beside[k], func(n bendNote) bool { return !n.isOfBend() && b.hasArc(p.draft, b.lengthMM(n.call.Radius)) })
		angles, radii, ways := stated(b, own)
		if len(radii) == 0 {
			_, radii, _ = stated(b, general)
		}
		for _, x := range []struct {
			what string
			n    int
		}{{"angles", len(angles)}, {"radii", len(radii)}, {"ways", len(ways)}} {
			if x.n > 1 {
				b.drafts[p.draft].doubts = append(b.drafts[p.draft].doubts, Doubt{Code: "bend-notes", Grave: true, At: f.At, Source: f.Source,
					Text: fmt.Sprintf("the notes beside a bend state %d different %s", x.n, x.what)})
			}
		}
		if len(angles) == 1 {
			f.BentRad = angles[0]
		}
		if len(radii) == 1 {
			f.RadiusMM = radii[0]
		}
		if len(ways) == 1 {
			f.BentTo = ways[0]
		}
	}
	return nil
}

// bendCalls are the lines of texts that state something of a bend.
func (b *builder) bendCalls() []bendNote {
	var out []bendNote
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if t.Revision {
			continue
		}
		lines, _ := measure.Lines(t.Value)
		for _, line := range lines {
			if c, ok := measure.BendNote(line); ok {
				at, _ := b.pointedAt(*t)
				out = append(out, bendNote{c, t, line, at})
			}
		}
	}
	return out
}

// isOfBend tells that a note speaks of a bend for sure: by a word, or by an
// angle; a bare "R10" may be that of a corner nearby.
func (n *bendNote) isOfBend() bool { return n.call.Word || n.call.AngleRad > 0 }

// stated gives the different values that notes state.
func stated(b *builder, notes []bendNote) (angles, radii []float64, ways []string) {
	put := func(list []float64, v, close float64) []float64 {
		if v > 0 && !slices.ContainsFunc(list, func(w float64) bool { return math.Abs(v-w) <= close }) {
			list = append(list, v)
		}
		return list
	}
	for _, n := range notes {
		angles = put(angles, n.call.AngleRad, 1e-3)
		radii = put(radii, b.lengthMM(n.call.Radius), 0.05)
		if n.call.To != "" && !slices.Contains(ways, n.call.To) {
			ways = append(ways, n.call.To)
		}
	}
	return angles, radii, ways
}

// hasArc tells whether a contour of a draft has an arc of this radius that the
// note may be about.
func (b *builder) hasArc(d int, radius float64) bool {
	dr := &b.drafts[d]
	for _, l := range append([]int{dr.outline}, dr.holes...) {
		for _, e := range b.loops[l].ring {
			if e.IsArc() && math.Abs(e.Radius-radius) <= 0.02*radius {
				return true
			}
		}
	}
	return false
}
