package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// anglePart is an angle with what its legs were made of, and its shape for
// telling copies and mirror images.
type anglePart struct {
	draft *angleDraft
	legs  [2]legSource
	views []instance
	part  Part
	shape shape
}

// legSource is what a leg is made of.
type legSource struct {
	drafts []int // the draft that shows it; none if it is not drawn
	ring   geom.Ring
	pieces []piece
	holes  []int // loops
	heel   [2]geom.Point
	toe    geom.Point
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
		if !b.legSources(&a, byLoop) || !b.makeAngle(&a) {
			continue
		}
		for k := range a.legs {
			for _, d := range a.legs[k].drafts {
				if b.drafts[d].leg {
					continue // both legs in one view
				}
				b.drafts[d].leg = true
				o := b.drafts[d].outline
				a.views = append(a.views, instance{0, o, b.loops[o].box, b.drafts[d].ring})
			}
		}
		out = append(out, a)
	}
	return out, nil
}

// legSources collects what the legs are made of; false if a view of them did
// not become an outline.
func (b *builder) legSources(a *anglePart, byLoop map[int]int) bool {
	for k := range a.legs {
		v, s := &a.draft.legs[k], &a.legs[k]
		s.heel, s.toe = v.heel(), v.toe()
		if a.draft.flat != nil {
			continue
		}
		if v.loop < 0 {
			s.ring, s.pieces = v.plain()
			continue
		}
		d, ok := byLoop[v.loop]
		if !ok {
			// What was taken for a view became something else: the other one must
			// not pass for a plate.
			if other, ok := byLoop[a.draft.legs[1-k].loop]; ok {
				a.legs[k].drafts, a.legs[1-k].drafts = nil, []int{other}
				b.doubtLegs(a, "this looks like a view of an angle, but its other view was not read as an outline")
			}
			return false
		}
		s.drafts = []int{d}
		s.ring, s.pieces, s.holes = b.drafts[d].ring, b.drafts[d].pieces, b.drafts[d].holes
	}
	if a.draft.flat != nil {
		d, ok := byLoop[a.draft.legs[0].loop]
		if !ok {
			return false
		}
		if trouble := b.flatSources(a, d); trouble != "" {
			a.legs[1].drafts = nil
			b.doubtLegs(a, "this looks like an angle folded out, but "+trouble)
			return false
		}
	}
	return true
}

// plain is the rectangle of a leg that is not drawn. It stands in the file where
// the thickness of it does.
func (v *legView) plain() (geom.Ring, []piece) {
	ring := geom.RingOf(v.at(v.from, v.low), v.at(v.to, v.low), v.at(v.to, v.high), v.at(v.from, v.high)).CCW()
	var src []int32
	for _, l := range v.lines {
		src = append(src, l.sources...)
	}
	pieces := make([]piece, len(ring))
	for i := range pieces {
		pieces[i] = piece{edge: ring[i], sources: src, style: -1}
	}
	return ring, pieces
}

// doubtLegs enters a doubt into the drafts of an angle that could not be made.
func (b *builder) doubtLegs(a *anglePart, text string) {
	for k := range a.legs {
		for _, i := range a.legs[k].drafts {
			d := &b.drafts[i]
			l := &b.loops[d.outline]
			d.doubts = append(d.doubts, Doubt{Code: "angle-unclear", Grave: true, At: d.scale.drawn(l.box.Min), Source: l.sources(), Text: text})
		}
	}
}

// makeAngle folds the two legs out and completes what the outlines alone do not
// know. An angle whose legs do not fit stays two outlines with a grave doubt.
func (b *builder) makeAngle(a *anglePart) bool {
	var views [2]LegView
	for k := range views {
		s := &a.legs[k]
		views[k] = LegView{Outline: s.ring, Heel: s.heel, Toe: s.toe}
		for _, h := range s.holes {
			views[k].Holes = append(views[k].Holes, b.loops[h].ring)
		}
	}
	f, err := foldOut(views)
	if err != nil {
		b.doubtLegs(a, fmt.Sprintf("this looks like the views of an angle, but its legs do not fit: %s", err))
		return false
	}
	p := f.part
	p.Scale = a.draft.scale
	for i := range p.Doubts { // found in the legs laid out
		p.Doubts[i].At = p.OnDrawing(p.Doubts[i].At)
	}
	p.Angle.From = a.draft.from
	b.angleThickness(&p, a)
	b.angleSources(&p, a, f)
	for k := range a.legs {
		p.Angle.Legs[k].Drawn = len(a.legs[k].drafts) > 0
		if !p.Angle.Legs[k].Drawn {
			h := a.legs[k].heel
			p.Doubts = append(p.Doubts, Doubt{Code: "leg-not-drawn", At: p.Scale.drawn(mid(h[0], h[1])), Source: p.Thickness.Source,
				Text: fmt.Sprintf("no view shows leg %s of the angle: it was taken as plain, without holes or notches", legName(k))})
		}
	}
	b.angleLines(&p, a)
	p.Angle.RootMM = max(p.Angle.RootMM, a.draft.rootMM)
	b.stateSection(&p, a.draft.named, a.draft.end)
	b.doubtTitledViews(&p, a.draft)
	b.noteByViews(&p, a.draft)
	for i := range p.Features {
		g := &p.Features[i]
		g.FromHeelMM, g.FromStartMM = p.Angle.FromHeelMM(g.At), p.Angle.FromStartMM(g.At)
	}
	numberFeatures(p.Features)
	p.Patterns = findPatterns(p.Features)
	p.Doubts = distinctDoubts(p.Doubts)
	a.shape = angleShape(&p, a.draft.facing)
	m := a.shape.mirrored()
	if _, same := align(&a.shape, &m); !same {
		p.Angle.Hand = HandUnknown
		if a.draft.flat == nil {
			p.Angle.Hand = b.projectionHand()
		}
		if p.Angle.Hand == HandUnknown {
			b.note(Note{Code: "angle-hand", At: p.Scale.drawn(b.loops[a.anyLoop()].box.Min), HasAt: true, Source: p.Thickness.Source,
				Text: "which way the second leg stands is not told by the drawing: right and left hand are different parts"})
		}
	}
	a.part = p
	return true
}

// anyLoop is the loop of a view.
func (a *anglePart) anyLoop() int { return a.draft.anyLoop() }

func (a *angleDraft) anyLoop() int { return max(a.legs[0].loop, a.legs[1].loop) }

// angleThickness states the thickness that the views show.
func (b *builder) angleThickness(p *Part, a *anglePart) {
	sum, n := 0.0, 0
	var at geom.Point
	var src []int32
	for k := range a.draft.legs {
		v := &a.draft.legs[k]
		if v.loop < 0 {
			continue
		}
		for _, l := range v.lines {
			src = append(src, l.sources...)
		}
		if len(v.lines) > 0 && n == 0 {
			at = v.lines[0].edge.Mid()
		}
		sum += v.thickMM
		n++
		if p.Angle.RootMM == 0 {
			p.Angle.RootMM = v.rootMM
		}
	}
	p.Angle.ThicknessMM = math.Round(sum/float64(n)*1e4) / 1e4
	if a.draft.flat != nil {
		n := &a.draft.named[0]
		p.Thickness = Stated{Text: n.m.Text, MM: p.Angle.ThicknessMM, From: "text", At: n.text.At, Source: []Source{n.text.Source}}
		return
	}
	p.Thickness = Stated{Text: "view of a leg", MM: p.Angle.ThicknessMM, From: "view", At: p.Scale.drawn(at), Source: sourcesOf(src)}
}

// angleLines brings the bends and marks of the legs, and the closed lines that
// cross their outlines, to where the legs lie.
func (b *builder) angleLines(p *Part, a *anglePart) {
	for k := range a.legs {
		into := p.Angle.Legs[k].Move.Inverse()
		for _, i := range a.legs[k].drafts {
			d := &b.drafts[i]
			for _, m := range d.marks {
				if f := a.draft.flat; f != nil && (b.loops[m].box.Centre().Dot(f.across) < f.cut) != (k == 1) {
					continue
				}
				ring, pieces := simplified(b.loops[m].ring, b.loops[m].pieces, simplifyMM)
				g := recogniseInside(moved(ring, into))
				b.completeInside(&g, &loop{ring: moved(ring, into), pieces: pieces}, -1)
				g.CrossesOutline, g.Leg = true, legName(k)
				p.Features = append(p.Features, g)
				b.openFaults = append(b.openFaults, openFault{d.outline, Fault{Code: "hole-on-outline", At: p.OnDrawing(g.At), Count: 1, Source: g.Source,
					Text: "a closed contour crosses the outline of the part"}})
			}
			for _, l := range d.lines {
				if f := a.draft.flat; f != nil && (l.At.Dot(f.across) < f.cut) != (k == 1) {
					continue // of the other leg
				}
				l.Leg = legName(k)
				p.Features = append(p.Features, movedLine(l, into))
			}
			if a.draft.flat == nil || k == 0 {
				p.Doubts = append(p.Doubts, d.doubts...)
			}
		}
	}
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
		pieces := a.legs[o.leg].pieces
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
	if o.edge < 0 { // opened at the heel: of the outlines of both legs
		var src []int32
		for k := range a.legs {
			src = append(src, flatSources(a.legs[k].pieces)...)
		}
		g.Source = sourcesOf(src)
		return
	}
	d := &b.drafts[a.legs[o.leg].drafts[0]]
	h := a.legs[o.leg].holes[o.edge]
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
	first := a.views[0].loop
	for _, v := range a.views[1:] {
		if b.compareLoops(v.loop, first) < 0 {
			first = v.loop
		}
	}
	return first
}

// anglesByCopies puts equal angles together. One that is equal to another's
// mirror image only is of the other hand: another part.
func (b *builder) anglesByCopies(angles []anglePart) []madePart {
	slices.SortStableFunc(angles, func(p, q anglePart) int { return b.compareLoops(p.first(b), q.first(b)) })
	var out []madePart
	for i := range angles {
		a := &angles[i]
		placed := false
		for n := range out {
			g := &out[n]
			head := g.angle
			if math.Abs(head.part.Angle.ThicknessMM-a.part.Angle.ThicknessMM) > pairThickMM {
				continue
			}
			m, ok := align(&head.shape, &a.shape)
			if !ok {
				continue
			}
			g.part.DrawnAt = append(g.part.DrawnAt, Placement{Origin: a.part.Box.Min, AngleRad: m.angle, Mirrored: a.draft.facing != head.draft.facing})
			g.part.Doubts = distinctDoubts(append(g.part.Doubts, a.part.Doubts...))
			g.instances = append(g.instances, a.views...)
			placed = true
			break
		}
		if !placed {
			out = append(out, madePart{part: a.part, first: a.first(b), instances: slices.Clone(a.views), angle: a})
		}
	}
	return out
}

// noteHands tells of angles that are mirror images of each other.
func (b *builder) noteHands(made []madePart) {
	for n := range made {
		for k := range n {
			p, q := made[k].angle, made[n].angle
			if p == nil || q == nil || math.Abs(p.part.Angle.ThicknessMM-q.part.Angle.ThicknessMM) > pairThickMM {
				continue
			}
			m := q.shape.mirrored()
			if _, ok := align(&p.shape, &m); ok {
				b.note(Note{Code: "opposite-hand", At: q.part.Scale.drawn(b.loops[made[n].first].box.Min), HasAt: true, Source: q.part.Thickness.Source,
					Text: fmt.Sprintf("part %s is the opposite hand of %s", made[n].part.Name, made[k].part.Name)})
			}
		}
	}
}
