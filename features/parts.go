package features

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sort"

	"burrside/features/geom"
)

// simplifyMM is how far a vertex may lie off the line or circle of its
// neighbours to be dropped: well under what a shop can measure, well above
// the error of coordinates written with six digits.
const simplifyMM = 2e-3

// makeParts makes parts of the drafts: equal ones once, features recognised
// and numbered, by bottom and left of the first copy.
func (b *builder) makeParts() error {
	b.drafts = slices.DeleteFunc(b.drafts, func(d draft) bool { return d.dropped })
	for i := range b.drafts {
		if i%64 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		d := &b.drafts[i]
		o := &b.loops[d.outline]
		d.ring, d.pieces = simplified(o.ring, o.pieces, simplifyMM)
		for _, h := range d.holes {
			l := &b.loops[h]
			l.ring, l.pieces = simplified(l.ring, l.pieces, simplifyMM)
		}
		slices.SortStableFunc(d.holes, func(x, y int) int { return b.compareLoops(x, y) })
	}
	slices.SortStableFunc(b.drafts, func(p, q draft) int { return b.compareLoops(p.outline, q.outline) })
	angles, err := b.makeAngles()
	if err != nil {
		return err
	}
	b.drafts = slices.DeleteFunc(b.drafts, func(d draft) bool { return d.leg })
	groups, err := b.groupCopies()
	if err != nil {
		return err
	}
	made := b.anglesByCopies(angles)
	for _, g := range groups {
		if err := b.ctx.Err(); err != nil {
			return err
		}
		p, err := b.makePart(g)
		if err != nil {
			return err
		}
		m := madePart{part: p, first: b.drafts[g.members[0].draft].outline}
		for _, c := range g.members {
			o := b.drafts[c.draft].outline
			m.instances = append(m.instances, instance{0, o, b.loops[o].box, b.drafts[c.draft].ring})
		}
		made = append(made, m)
	}
	slices.SortStableFunc(made, func(p, q madePart) int { return b.compareLoops(p.first, q.first) })
	b.partOf = map[int]int{}
	for n := range made {
		m := &made[n]
		m.part.Name = b.opt.Name
		if len(made) > 1 {
			m.part.Name = fmt.Sprintf("%s-%d", b.opt.Name, n+1)
		}
		for _, in := range m.instances {
			in.part = n
			b.partOf[in.loop] = n
			b.instances = append(b.instances, in)
		}
		b.sheet.Parts = append(b.sheet.Parts, m.part)
	}
	b.noteHands(made)
	return nil
}

// madePart is a part with the outlines that show it and its copies.
type madePart struct {
	part      Part
	first     int // the loop by whose place it is ordered
	instances []instance
	angle     *anglePart // nil for a flat part
}

// instance is one copy of a part on the sheet, or of one of its legs.
type instance struct {
	part int
	loop int
	box  geom.Box
	ring geom.Ring
}

func (b *builder) makePart(g copyGroup) (Part, error) {
	d := &b.drafts[g.members[0].draft]
	p := Part{
		Form: FormFlat, Outline: d.ring, Box: d.ring.Bounds(), PerimeterMM: d.ring.Length(), Clean: true,
		AreaMM2: d.ring.Area(), Scale: d.scale,
	}
	p.OutlineSource = make([][]Source, len(d.pieces))
	for i, piece := range d.pieces {
		p.OutlineSource[i] = sourcesOf(piece.sources)
	}
	for _, m := range g.members {
		p.DrawnAt = append(p.DrawnAt, Placement{Origin: b.loops[b.drafts[m.draft].outline].box.Min, AngleRad: m.angle, Mirrored: m.mirrored})
		p.Doubts = append(p.Doubts, b.drafts[m.draft].doubts...)
	}
	p.Holes = slices.Grow(p.Holes, len(d.holes))
	p.Features = slices.Grow(p.Features, len(d.holes)+len(d.lines)+8)
	for i, h := range d.holes {
		if i%64 == 0 && b.ctx.Err() != nil {
			return p, b.ctx.Err()
		}
		l := &b.loops[h]
		p.Holes = append(p.Holes, l.ring)
		p.AreaMM2 -= l.ring.Area()
		f, err := within(b.ctx, l.ring, recogniseInside)
		if err != nil {
			return p, err
		}
		b.completeInside(&f, l, len(p.Holes)-1)
		b.addSeat(&f, d, h)
		p.Features = append(p.Features, f)
	}
	found, err := within(b.ctx, d.ring, readOutline)
	if err != nil {
		return p, err
	}
	outline := found.features
	if found.spent {
		text := fmt.Sprintf("the outline of %d edges is too ragged to tell every notch apart; what is left was taken as free notches", len(d.ring))
		b.note(Note{Code: "outline-too-complex", At: p.OnDrawing(p.Box.Min), HasAt: true, Text: text})
		p.Doubts = append(p.Doubts, Doubt{Code: "reading-doubt", At: p.OnDrawing(p.Box.Min), Text: text})
	}
	for i := range outline {
		f := &outline[i]
		f.Hole = -1
		var src []int32
		for _, e := range f.Edges {
			if e >= 0 && e < len(d.pieces) {
				src = append(src, d.pieces[e].sources...)
				f.Fitted = f.Fitted || d.pieces[e].fitted
			}
		}
		if len(src) == 0 && len(f.Edges) > 0 {
			// A bridge stands in no file; what it joins does.
			n := len(d.pieces)
			before, after := f.Edges[0], f.Edges[len(f.Edges)-1]
			for k := 1; k < n && len(src) == 0; k++ {
				src = append(src, d.pieces[(before+n-k)%n].sources...)
				src = append(src, d.pieces[(after+k)%n].sources...)
			}
		}
		f.Source = sourcesOf(src)
	}
	b.addToolMarks(&p, g.members[0].draft, outline)
	p.Features = append(p.Features, outline...)
	p.Features = append(p.Features, d.lines...)
	numberFeatures(p.Features)
	p.Patterns = findPatterns(p.Features)
	p.Doubts = distinctDoubts(p.Doubts)
	return p, nil
}

// manyEdges is how long a ring may be to be recognised without a look at
// the context: well under 100 ms.
const manyEdges = 100

// within recognises a ring. Of a long one it does not wait for the end when ctx
// ends: the work then runs out by itself, on values that nothing else changes,
// and its result is dropped.
func within[T any](ctx context.Context, ring geom.Ring, recognise func(geom.Ring) T) (T, error) {
	if len(ring) <= manyEdges {
		return recognise(ring), nil
	}
	done := make(chan T, 1)
	go func() { done <- recognise(ring) }()
	select {
	case f := <-done:
		return f, nil
	case <-ctx.Done():
		var none T
		return none, ctx.Err()
	}
}

// completeInside fills what the recogniser of a contour does not know.
func (b *builder) completeInside(f *Feature, l *loop, hole int) {
	f.Hole = hole
	f.Ring = l.ring
	f.Source = l.sources()
	for _, p := range l.pieces {
		f.Fitted = f.Fitted || p.fitted
	}
}

// addSeat turns a round hole with circles or a thread about it into what it is.
func (b *builder) addSeat(f *Feature, d *draft, h int) {
	if seats := d.seats[h]; len(seats) > 0 && f.Kind == RoundHole {
		_, r, _ := b.loops[seats[0]].isCircle()
		f.Kind, f.SeatMM = HoleWithSeat, 2*r
		for _, s := range seats {
			f.Source = append(f.Source, b.loops[s].sources()...)
		}
		if len(seats) > 1 {
			f.Note = fmt.Sprintf("%d circles lie about the hole; the outermost is given", len(seats))
		}
	}
	if t, ok := d.threads[h]; ok && f.Kind == RoundHole {
		f.Kind, f.SeatMM = TappedHole, t.diameterMM
		f.Source = append(f.Source, sourcesOf(t.sources)...)
	}
	var all []int32
	for _, s := range f.Source {
		all = append(all, s.Entity)
	}
	f.Source = sourcesOf(all)
}

// addToolMarks adds the closed entities that cross the outline: whole shapes
// with a fault, or the relief of a notch whose corner they are centred on.
func (b *builder) addToolMarks(p *Part, draft int, outline []Feature) {
	d := &b.drafts[draft]
	for _, m := range d.marks {
		l := &b.loops[m]
		ring, pieces := simplified(l.ring, l.pieces, simplifyMM)
		l.ring, l.pieces = ring, pieces
		f := recogniseInside(ring)
		b.completeInside(&f, l, -1)
		f.CrossesOutline = true
		if k := reliefOf(&f, d.ring, outline); k >= 0 {
			outline[k].Relief = "pre-punched"
			b.note(Note{Code: "notch-relief", At: p.OnDrawing(f.At), HasAt: true, Source: f.Source,
				Text: fmt.Sprintf("a hole of %s mm is centred on the corner of a notch; it was taken for its relief", shortNumber(f.DiameterMM))})
			continue
		}
		p.Features = append(p.Features, f)
		b.openFaults = append(b.openFaults, openFault{d.outline, Fault{Code: "hole-on-outline", At: p.OnDrawing(f.At), Count: 1, Source: f.Source,
			Text: "a closed contour crosses the outline of the part"}})
	}
}

// reliefOf finds the notch with a corner at the centre of a round hole.
func reliefOf(f *Feature, ring geom.Ring, outline []Feature) int {
	if f.Kind != RoundHole {
		return -1
	}
	const snap = 0.05 // a centre set by hand on a corner
	for k := range outline {
		n := &outline[k]
		if n.Kind != Notch {
			continue
		}
		for _, e := range n.Edges {
			if e >= 0 && e < len(ring) && (ring[e].From.Dist(f.At) <= snap && slices.Contains(n.Edges, (e+len(ring)-1)%len(ring))) {
				return k
			}
		}
	}
	return -1
}

// numberFeatures orders the features and gives them their names: H round, S
// slots, C other openings, N notches, E edges, B bends, M marks, each by bottom
// and left. Notches that lie in a wall of another keep naming it.
func numberFeatures(fs []Feature) {
	oldID := map[string]int{}
	for i := range fs {
		if fs[i].Kind == Notch && fs[i].ID != "" {
			oldID[fs[i].ID] = i
		}
	}
	rank := func(f *Feature) int { return slices.Index([]byte("HSCNEBM"), letterOf(f.Kind)) }
	order := make([]int, len(fs))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(x, y int) bool {
		p, q := &fs[order[x]], &fs[order[y]]
		if rp, rq := rank(p), rank(q); rp != rq {
			return rp < rq
		}
		if c := comparePlace(p.At, q.At); c != 0 {
			return c < 0
		}
		// Features of one middle: the larger first.
		sp, sq := sizeOf(p), sizeOf(q)
		if sp != sq {
			return sp > sq
		}
		return p.Kind < q.Kind
	})
	newID := make([]string, len(fs))
	count := map[byte]int{}
	for _, i := range order {
		l := letterOf(fs[i].Kind)
		count[l]++
		newID[i] = fmt.Sprintf("%c%d", l, count[l])
	}
	for i := range fs {
		if in := fs[i].In; in != "" {
			fs[i].In = ""
			if k, ok := oldID[in]; ok {
				fs[i].In = newID[k]
			}
		}
		fs[i].ID = newID[i]
	}
	sorted := make([]Feature, len(fs))
	for k, i := range order {
		sorted[k] = fs[i]
	}
	copy(fs, sorted)
}

func sizeOf(f *Feature) float64 {
	return math.Round(1000 * math.Max(math.Max(f.DiameterMM, f.LengthMM), math.Max(f.WidthMM, f.RadiusMM)))
}

// letterOf is the letter that a feature's name begins with.
func letterOf(k Kind) byte {
	switch k {
	case RoundHole, HoleWithSeat, TappedHole:
		return 'H'
	case Slot, CurvedSlot:
		return 'S'
	case RectangularHole, PolygonHole, Cutout:
		return 'C'
	case Notch:
		return 'N'
	case StraightCut, ArcCut, CornerClip, CornerRadius:
		return 'E'
	case Bend:
		return 'B'
	case Mark:
		return 'M'
	}
	panic("features: unknown kind " + string(k))
}

// distinctDoubts orders doubts and drops those that several copies share.
func distinctDoubts(d []Doubt) []Doubt {
	sortDoubts(d)
	return slices.CompactFunc(d, func(p, q Doubt) bool {
		return p.Code == q.Code && p.Grave == q.Grave && p.Text == q.Text && comparePlace(p.At, q.At) == 0
	})
}

func sortDoubts(d []Doubt) {
	sort.SliceStable(d, func(i, j int) bool {
		if d[i].Grave != d[j].Grave {
			return d[i].Grave
		}
		if d[i].Code != d[j].Code {
			return d[i].Code < d[j].Code
		}
		if c := comparePlace(d[i].At, d[j].At); c != 0 {
			return c < 0
		}
		return d[i].Text < d[j].Text
	})
}
