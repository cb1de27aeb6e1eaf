package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// flatView is an angle drawn folded out: one outline with both legs in it, and
// a line at the heel.
type flatView struct {
	across  geom.Point // unit vector from leg b to leg a
	cut     float64    // where the outline is parted, along across
	shiftMM float64    // by which the heel of each leg lies beyond: half the thickness, or 0
	sources []int32    // of the line at the heel
}

// takeFlatViews finds outlines that are an angle folded out: their width is that
// of both legs of an angle that a text names, or less by its thickness, and a
// line runs along the heel.
func (b *builder) takeFlatViews(named []namedSection) error {
	if len(named) == 0 {
		return nil
	}
	var tops []int
	for i := range b.loops {
		if l := &b.loops[i]; !l.dead && !l.toolMark && !l.leg && l.parent < 0 {
			tops = append(tops, i)
		}
	}
	if len(tops) == 0 || len(tops) > mostLegViews {
		return nil
	}
	slices.SortStableFunc(tops, b.compareLoops)
	lines, err := b.linesIn(tops, true)
	if err != nil {
		return err
	}
	var groups [][]geom.Box
	for _, i := range tops {
		groups = append(groups, []geom.Box{b.loops[i].box})
	}
	said := sectionsFor(named, groups)
	for g, i := range tops {
		for k := range said[g] {
			if a, ok := b.flatViewOf(i, lines[i], &said[g][k]); ok {
				a.named = said[g][k : k+1]
				b.angles = append(b.angles, a)
				b.loops[i].leg = true
				break
			}
		}
	}
	return nil
}

// flatViewOf looks for the heel of one named angle in an outline.
func (b *builder) flatViewOf(i int, lines []viewLine, n *namedSection) (angleDraft, bool) {
	l := &b.loops[i]
	along, ok := longDirection(l.ring)
	long, short, t := max(n.m.LegMM[0], n.m.LegMM[1]), min(n.m.LegMM[0], n.m.LegMM[1]), n.m.ThicknessMM
	if !ok || !(t > 0) || len(lines) == 0 {
		return angleDraft{}, false
	}
	f := b.factorOf(i)
	long, short, t = long/f, short/f, t/f // as drawn
	across := along.Left()
	low, high := -l.ring.Support(across.Mul(-1)), l.ring.Support(across)
	from, to := -l.ring.Support(along.Mul(-1)), l.ring.Support(along)
	shift, habit := 0.0, "the two legs"
	switch w := high - low; {
	case math.Abs(w-(long+short)) <= sectionLegMM:
	case math.Abs(w-(long+short-t)) <= sectionLegMM:
		shift, habit = t/2, "the two legs less the thickness"
	default:
		return angleDraft{}, false
	}
	// Leg a is the upper or left one if both fit: across points there.
	for _, aHigh := range [2]bool{true, false} {
		cut := low + long - shift
		if aHigh {
			cut = high - long + shift
		}
		var mine []viewLine
		for _, x := range lines {
			if math.Abs(x.edge.StartDir().Cross(along)) < 1e-3 && math.Abs(x.edge.Mid().Dot(across)-cut) <= max(sectionLegMM, shift+legLineMM) {
				mine = append(mine, x)
			}
		}
		all := make([]int, len(mine))
		for k := range all {
			all[k] = k
		}
		if len(mine) == 0 || coverShare(l.ring, along, across, mine[0].edge.Mid().Dot(across), mine, all) < legCoverShare {
			continue
		}
		a := angleDraft{from: "developed view", facing: true, flat: &flatView{across: across, cut: cut, shiftMM: shift}}
		if !aHigh {
			a.flat.across, a.flat.cut = across.Mul(-1), -cut
		}
		v := legView{loop: i, along: along, across: across, from: from, to: to, thickMM: t, lines: mine}
		va, vb := v, v
		va.low, va.high, va.heelHigh = cut-shift, high, false
		vb.low, vb.high, vb.heelHigh = low, cut+shift, true
		if !aHigh {
			va, vb = vb, va
		}
		a.legs = [2]legView{va, vb}
		for _, x := range mine {
			a.flat.sources = append(a.flat.sources, x.sources...)
		}
		b.takeLegLines(&va)
		b.note(Note{Code: "developed-view", At: l.box.Min, HasAt: true, Source: append(l.sources(), sourcesOf(a.flat.sources)...),
			Text: fmt.Sprintf("the outline of %s mm width was taken for the angle %q folded out: its width is %s", shortNumber(f*(high-low)), clip(n.m.Text), habit)})
		return a, true
	}
	return angleDraft{}, false
}

// flatSources parts a developed view in its two legs; the text tells what does
// not fit.
func (b *builder) flatSources(a *anglePart, draft int) (trouble string) {
	f, d := a.draft.flat, &b.drafts[draft]
	for k := range a.legs {
		s := &a.legs[k]
		sign := 1.0
		if k == 1 {
			sign = -1
		}
		s.drafts = []int{draft}
		var ok bool
		if s.ring, s.pieces, ok = f.side(d, sign); !ok {
			return "a curve of its outline crosses the heel"
		}
		for _, h := range d.holes {
			ring := b.loops[h].ring
			least, most := -ring.Support(f.across.Mul(-1))-f.cut, ring.Support(f.across)-f.cut
			if least < 0 && most > 0 {
				return "a hole lies across the heel"
			}
			if sign*(least+most) > 0 {
				s.holes = append(s.holes, h)
			}
		}
	}
	return ""
}

// side is what lies on one side of the heel, closed along it.
func (f *flatView) side(d *draft, sign float64) (geom.Ring, []piece, bool) {
	const onHeel = 1e-6
	height := func(p geom.Point) float64 {
		h := sign * (p.Dot(f.across) - f.cut)
		if math.Abs(h) <= onHeel {
			return 0
		}
		return h
	}
	var ring geom.Ring
	var pieces []piece
	put := func(e geom.Edge, p piece) {
		p.edge = e
		ring, pieces = append(ring, e), append(pieces, p)
	}
	heel := piece{sources: f.sources, style: -1}
	beyond := f.across.Mul(-sign * f.shiftMM)
	place := func(p geom.Point, h float64) geom.Point {
		if h == 0 {
			return p.Add(beyond)
		}
		return p
	}
	for i, e := range d.ring {
		p, q := height(e.From), height(e.To)
		if e.IsArc() {
			least := -sign*f.cut - (geom.Ring{e}).Support(f.across.Mul(-sign))
			most := (geom.Ring{e}).Support(f.across.Mul(sign)) - sign*f.cut
			if least < -onHeel && most > onHeel {
				return nil, nil, false
			}
			if most <= onHeel {
				continue
			}
			if len(ring) > 0 && ring[len(ring)-1].To.Dist(e.From) > onHeel {
				put(geom.LineEdge(ring[len(ring)-1].To, e.From), heel)
			}
			put(e, d.pieces[i])
			continue
		}
		if p <= 0 && q <= 0 {
			continue
		}
		from, to := e.From, e.To
		switch {
		case p < 0:
			from, p = e.From.Add(e.To.Sub(e.From).Mul(p/(p-q))), 0
		case q < 0:
			to, q = e.From.Add(e.To.Sub(e.From).Mul(p/(p-q))), 0
		}
		from, to = place(from, p), place(to, q)
		if len(ring) > 0 && ring[len(ring)-1].To.Dist(from) > onHeel {
			put(geom.LineEdge(ring[len(ring)-1].To, from), heel)
		}
		put(geom.LineEdge(from, to), d.pieces[i])
	}
	if len(ring) < 2 {
		return nil, nil, false
	}
	if last := ring[len(ring)-1].To; last.Dist(ring[0].From) > onHeel {
		put(geom.LineEdge(last, ring[0].From), heel)
	}
	return ring, pieces, true
}
