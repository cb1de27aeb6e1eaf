package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// anglePart is an angle with the drafts of its legs, and its shape for telling
// copies and mirror images.
type anglePart struct {
	draft  *angleDraft
	drafts [2]int
	legs   [2]instance // the views
	part   Part
	shape  shape
}

// makeAngles makes parts of the angles. The drafts of their legs are marked as
// used.
func (b *builder) makeAngles() ([]anglePart, error) {
	byLoop := map[int]int{}
	for i := range b.drafts {
		byLoop[b.drafts[i].outline] = i
	}
	var out []anglePart
	for i := range b.angles {
		if err := b.ctx.Err(); err != nil {
			return nil, err
		}
		a := anglePart{draft: &b.angles[i]}
		whole := true
		for k := range a.draft.legs {
			d, ok := byLoop[a.draft.legs[k].loop]
			a.drafts[k], whole = d, whole && ok
		}
		if !whole {
			continue
		}
		if b.makeAngle(&a) {
			for k, d := range a.drafts {
				b.drafts[d].leg = true
				o := b.drafts[d].outline
				a.legs[k] = instance{0, o, b.loops[o].box, b.drafts[d].ring}
			}
			out = append(out, a)
		}
	}
	return out, nil
}

// makeAngle folds the two legs out and completes what the outlines alone do not
// know. An angle whose legs do not fit stays two outlines with a grave doubt.
func (b *builder) makeAngle(a *anglePart) bool {
	var views [2]LegView
	for k := range views {
		v, d := &a.draft.legs[k], &b.drafts[a.drafts[k]]
		views[k] = LegView{Outline: d.ring, Heel: v.heel(), Toe: v.toe()}
		for _, h := range d.holes {
			views[k].Holes = append(views[k].Holes, b.loops[h].ring)
		}
	}
	f, err := foldOut(views)
	if err != nil {
		for _, i := range a.drafts {
			d := &b.drafts[i]
			d.doubts = append(d.doubts, Doubt{Code: "angle-unclear", Grave: true, At: b.loops[d.outline].box.Min, Source: b.loops[d.outline].sources(),
				Text: fmt.Sprintf("this and the outline beside it look like the two views of an angle, but they do not fit: %s", err)})
		}
		return false
	}
	p := f.part
	p.Angle.From = "two views"
	thick := (a.draft.legs[0].thickMM + a.draft.legs[1].thickMM) / 2
	p.Angle.ThicknessMM = math.Round(thick*1e4) / 1e4
	v := &a.draft.legs[0]
	p.Thickness = Stated{Text: "the line in the view of a leg", MM: p.Angle.ThicknessMM, From: "view", At: v.lines[0].edge.Mid()}
	for k := range a.draft.legs {
		for _, l := range a.draft.legs[k].lines {
			p.Thickness.Source = append(p.Thickness.Source, sourcesOf(l.sources)...)
		}
	}
	b.angleSources(&p, a, f)
	for k := range a.drafts {
		d := &b.drafts[a.drafts[k]]
		into := p.Angle.Legs[k].Move.Inverse()
		for _, m := range d.marks {
			ring, pieces := simplified(b.loops[m].ring, b.loops[m].pieces, simplifyMM)
			g := recogniseInside(moved(ring, into))
			b.completeInside(&g, &loop{ring: moved(ring, into), pieces: pieces}, -1)
			g.CrossesOutline, g.Leg = true, legName(k)
			p.Features = append(p.Features, g)
			b.openFaults = append(b.openFaults, openFault{d.outline, Fault{Code: "hole-on-outline", At: p.Angle.Legs[k].Move.Apply(g.At), Count: 1, Source: g.Source,
				Text: "a closed contour crosses the outline of the part"}})
		}
		for _, l := range d.lines {
			l.Leg = legName(k)
			p.Features = append(p.Features, movedLine(l, into))
		}
		p.Doubts = append(p.Doubts, d.doubts...)
	}
	for i := range p.Features {
		g := &p.Features[i]
		g.FromHeelMM, g.FromStartMM = p.Angle.FromHeelMM(g.At), p.Angle.FromStartMM(g.At)
	}
	numberFeatures(p.Features)
	p.Patterns = findPatterns(p.Features)
	p.Doubts = distinctDoubts(p.Doubts)
	a.part = p
	a.shape = angleShape(&p, a.draft.facing)
	return true
}

// movedLine brings a bend or a mark elsewhere.
func movedLine(f Feature, m geom.Motion) Feature {
	f.At, f.From, f.To = m.Apply(f.At), m.Apply(f.From), m.Apply(f.To)
	f.Open = f.Open.Apply(m)
	return f
}

// angleSources fills where the edges and features of a folded-out angle stand
// in the file, and what is known of its holes beside their contours.
func (b *builder) angleSources(p *Part, a *anglePart, f folded) {
	pieceOf := func(o edgeOrigin) *piece {
		pieces := b.drafts[a.drafts[o.leg]].pieces
		i := o.edge
		if p.Angle.Legs[o.leg].Move.Mirror {
			i = len(pieces) - 1 - i // turned over, the ring runs the other way
		}
		return &pieces[i]
	}
	p.OutlineSource = make([][]Source, len(p.Outline))
	for i, o := range f.edges {
		p.OutlineSource[i] = sourcesOf(pieceOf(o).sources)
	}
	for i := range p.Features {
		g := &p.Features[i]
		if g.IsInside() {
			b.angleHole(p, a, f, g)
			continue
		}
		var src []int32
		for _, e := range g.Edges {
			piece := pieceOf(f.edges[e])
			src = append(src, piece.sources...)
			g.Fitted = g.Fitted || piece.fitted
		}
		n := len(p.Outline)
		for k := 1; k < n && len(src) == 0 && len(g.Edges) > 0; k++ {
			// A bridge stands in no file; what it joins does.
			src = append(src, pieceOf(f.edges[(g.Edges[0]+n-k)%n]).sources...)
			src = append(src, pieceOf(f.edges[(g.Edges[len(g.Edges)-1]+k)%n]).sources...)
		}
		g.Source = sourcesOf(src)
	}
}

func (b *builder) angleHole(p *Part, a *anglePart, f folded, g *Feature) {
	o := f.holes[g.Hole]
	d := &b.drafts[a.drafts[o.leg]]
	if o.edge < 0 { // opened at the heel: of the outlines of both legs
		for k := range a.drafts {
			g.Source = append(g.Source, b.loops[b.drafts[a.drafts[k]].outline].sources()...)
		}
		return
	}
	h := d.holes[o.edge]
	l := &b.loops[h]
	g.Source = l.sources()
	for _, piece := range l.pieces {
		g.Fitted = g.Fitted || piece.fitted
	}
	b.addSeat(g, d, h)
}

// angleShape is the shape of an angle as if seen from one side of its metal:
// views with the heels facing are seen from the other side than views with the
// heel of leg b away. The heel lies on the heel in every copy.
func angleShape(p *Part, facing bool) shape {
	to := geom.Motion{Cos: 1}
	if !facing {
		to = geom.NewMirror()
	}
	ring := moved(p.Outline, to)
	s := shape{area: ring.Area(), length: ring.Length(), centre: ring.Centroid(), holes: len(p.Holes), handed: true}
	s.addRing(ring, 0)
	for _, h := range p.Holes {
		h = moved(h, to)
		s.holeArea += h.Area()
		s.length += h.Length()
		s.addRing(h, 0)
	}
	for _, q := range p.Angle.Heel {
		s.add(to.Apply(q), 4)
	}
	for i := range p.Features {
		f := &p.Features[i]
		if f.SeatMM > 0 {
			s.add(to.Apply(f.At), -int64(math.Round(f.SeatMM*50)))
		}
		for _, e := range f.Open {
			s.add(to.Apply(e.From), 2)
			s.add(to.Apply(e.To), 2)
			s.add(to.Apply(e.Mid()), 3)
		}
		if f.CrossesOutline {
			s.addRing(moved(f.Ring, to), 1)
		}
	}
	s.order()
	return s
}

// mirrored is the mirror image of a shape.
func (s *shape) mirrored() shape {
	m := *s
	m.cells = nil
	m.centre.X = -s.centre.X
	m.samples = slices.Clone(s.samples)
	for i := range m.samples {
		m.samples[i].at.X *= -1
	}
	return m
}

// first is the loop of the view that stands first by place.
func (a *anglePart) first(b *builder) int {
	if b.compareLoops(a.legs[1].loop, a.legs[0].loop) < 0 {
		return a.legs[1].loop
	}
	return a.legs[0].loop
}

// anglesByCopies puts equal angles together. One that is equal to another's
// mirror image only is of the other hand: another part.
func (b *builder) anglesByCopies(angles []anglePart) []madePart {
	slices.SortStableFunc(angles, func(p, q anglePart) int { return b.compareLoops(p.first(b), q.first(b)) })
	var out []madePart
	var heads []int
	for i := range angles {
		a := &angles[i]
		placed := false
		for n, h := range heads {
			m, ok := align(&angles[h].shape, &a.shape)
			if !ok {
				continue
			}
			m.mirrored = a.draft.facing != angles[h].draft.facing
			g := &out[n]
			g.part.DrawnAt = append(g.part.DrawnAt, Placement{Origin: a.part.Box.Min, AngleRad: m.angle, Mirrored: m.mirrored})
			g.part.Doubts = distinctDoubts(append(g.part.Doubts, a.part.Doubts...))
			g.instances = append(g.instances, a.legs[:]...)
			placed = true
			break
		}
		if !placed {
			heads = append(heads, i)
			out = append(out, madePart{part: a.part, first: a.first(b), instances: slices.Clone(a.legs[:])})
		}
	}
	return out
}
