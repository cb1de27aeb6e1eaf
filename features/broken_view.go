package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
)

// A long bar is drawn short as two pieces with parallel break lines between
// them, zigzag or curved (ISO 128, broken views).

const (
	// breakMM is how far the pieces may be off each other across, and their
	// break lines off each other's shape.
	breakMM = 0.2
	// breakSway is how far a break line goes to both sides of the straight one, at
	// least, as a share of its height (common practice, no source).
	breakSway = 0.02
	// breakGap is the widest space between the pieces, in heights of the bar.
	breakGap = 1.5
)

// breakLine is the end of an outline that looks like a break line: its pieces
// from the first on, in the direction of the ring.
type breakLine struct {
	loop        int
	first, n    int
	low, high   float64 // across
	start, end  geom.Point
	mids        []geom.Point // from its lower end, that end at the origin
	alongLow    float64
	boxFar, far float64 // the box's side beyond the break; the other end of the piece
}

// takeBroken joins two outlines with parallel break lines that face each other to
// one, if a dimension spans both, and doubts it: it is drawn shortened. Without
// such a dimension both are doubted.
func (b *builder) takeBroken() error {
	b.settleChildren()
	var tops []int
	for i := range b.loops {
		if l := &b.loops[i]; !l.dead && !l.toolMark && l.parent < 0 && len(l.pieces) > 4 && len(l.pieces) <= 400 {
			tops = append(tops, i)
		}
	}
	const most = 400 // a nest shows no broken views
	if len(tops) < 2 || len(tops) > most {
		return nil
	}
	slices.SortStableFunc(tops, b.compareLoops)
	for _, level := range []bool{true, false} {
		for _, i := range tops {
			left, ok := b.breakOf(i, level, true)
			if !ok {
				continue
			}
			for _, k := range tops {
				if k == i || b.loops[k].dead || b.loops[i].dead {
					continue
				}
				if right, ok := b.breakOf(k, level, false); ok && left.faces(&right) {
					b.joinBroken(&left, &right, level)
					break
				}
			}
		}
	}
	b.settleChildren()
	return nil
}

// breakOf finds the break line at the right end of an outline, or at its left
// end; if not level, at its upper or its lower end.
func (b *builder) breakOf(i int, level, right bool) (breakLine, bool) {
	l := &b.loops[i]
	turn := func(p geom.Point) geom.Point { // along, across
		if level {
			return p
		}
		return geom.Point{X: p.Y, Y: p.X}
	}
	lo, hi := turn(l.box.Min), turn(l.box.Max)
	br := breakLine{loop: i, low: lo.Y, high: hi.Y, boxFar: hi.X, far: lo.X}
	if !right {
		br.boxFar, br.far = lo.X, hi.X
	}
	high := hi.Y - lo.Y
	// The sides of the bar and its other end are straight.
	n := len(l.ring)
	plain := make([]bool, n)
	for k, e := range l.ring {
		p, q := turn(e.From), turn(e.To)
		same := func(u, v, w float64) bool { return math.Abs(u-w) <= breakMM && math.Abs(v-w) <= breakMM }
		plain[k] = !e.IsArc() && (same(p.Y, q.Y, lo.Y) || same(p.Y, q.Y, hi.Y) || same(p.X, q.X, br.far))
	}
	first, count := -1, 0
	for k := range plain {
		if !plain[k] {
			count++
			if plain[(k+n-1)%n] {
				if first >= 0 {
					return br, false // two runs
				}
				first = k
			}
		}
	}
	if first < 0 || count < 2 || n-count < 3 {
		return br, false
	}
	br.first, br.n = first, count
	br.start, br.end = l.ring[first].From, l.ring[(first+count-1)%n].To
	s, e := turn(br.start), turn(br.end)
	if math.Abs(math.Abs(s.Y-e.Y)-high) > breakMM || math.Abs(s.X-e.X) > 0.5*high {
		return br, false
	}
	lower := s
	if e.Y < s.Y {
		lower = e
	}
	br.alongLow = lower.X
	least, most := 0.0, 0.0
	for k := range count {
		edge := l.ring[(first+k)%n]
		for _, q := range []geom.Point{edge.From, edge.Mid(), edge.To} {
			p := turn(q)
			straight := s.X + (e.X-s.X)*(p.Y-s.Y)/(e.Y-s.Y)
			least, most = math.Min(least, p.X-straight), math.Max(most, p.X-straight)
			br.mids = append(br.mids, p.Sub(lower))
		}
	}
	if e.Y < s.Y {
		slices.Reverse(br.mids)
	}
	// To both sides of the straight line, and in the end of the piece only.
	sway := breakSway * high
	return br, least < -sway && most > sway && most-least <= 0.8*high && most-least < 0.5*(hi.X-lo.X)
}

// faces tells whether two break lines are parallel and face each other.
func (br *breakLine) faces(o *breakLine) bool {
	gap := o.alongLow - br.alongLow
	if math.Abs(br.low-o.low) > breakMM || math.Abs(br.high-o.high) > breakMM || !(gap > 0) || gap > breakGap*(br.high-br.low) || len(br.mids) != len(o.mids) {
		return false
	}
	for i := range br.mids {
		if br.mids[i].Dist(o.mids[i]) > breakMM {
			return false
		}
	}
	return true
}

// joinBroken makes one outline of two pieces, or doubts both.
func (b *builder) joinBroken(left, right *breakLine, level bool) {
	l, r := &b.loops[left.loop], &b.loops[right.loop]
	d, ok := b.spanning(left.far, right.far, level)
	if !ok {
		for _, x := range []*breakLine{left, right} {
			p := &b.loops[x.loop]
			b.loopDoubts = append(b.loopDoubts, loopDoubt{x.loop, Doubt{Code: "reading-doubt", Grave: true, At: x.start, Source: p.sources(),
				Text: "two outlines of one height face each other with parallel break lines: one part drawn shortened, whose length is not drawn, or two"}})
		}
		return
	}
	rest := func(x *breakLine) []piece {
		p := b.loops[x.loop].pieces
		var out []piece
		for k := x.n; k < len(p); k++ {
			out = append(out, p[(x.first+k)%len(p)])
		}
		return out
	}
	bridge := func(from, to geom.Point) piece {
		return piece{edge: geom.LineEdge(from, to), sources: l.pieces[left.first].sources, style: l.pieces[left.first].style}
	}
	src := append(l.sources(), r.sources()...)
	pieces := append(rest(left), bridge(left.start, right.end))
	pieces = append(pieces, rest(right)...)
	pieces = append(pieces, bridge(right.start, left.end))
	for i := range b.loops {
		if b.loops[i].parent == right.loop {
			b.loops[i].parent = left.loop
		}
	}
	l.pieces = pieces
	l.settle()
	r.dead = true
	what := d.typed
	if what == "" {
		what = d.shown
	}
	if what == "" {
		what = shortNumber(d.stated)
	}
	b.loopDoubts = append(b.loopDoubts, loopDoubt{left.loop, Doubt{Code: "reading-doubt", Grave: true, At: left.start, Source: src,
		Text: fmt.Sprintf("the part is drawn broken: its true length is stated by the text %q and not drawn, and where its holes lie along it the drawing does not show", clip(strings.TrimSpace(what)))}})
}

// spanning is a dimension from one place along to another.
func (b *builder) spanning(from, to float64, level bool) (*drawnDim, bool) {
	mm := b.sheet.Units.MM
	for i := range b.drawnDims {
		d := &b.drawnDims[i]
		p, q := d.from.X*mm, d.to.X*mm
		if !level {
			p, q = d.from.Y*mm, d.to.Y*mm
		}
		if math.Abs(math.Min(p, q)-from) <= breakMM && math.Abs(math.Max(p, q)-to) <= breakMM {
			return d, true
		}
	}
	return nil, false
}
