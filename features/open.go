package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// openChain is a chain that the joiner left open.
type openChain struct {
	pieces []piece
	from   geom.Point
	to     geom.Point
	length float64
	on     [2]int
}

// sortChains gives every open chain a meaning: a declared bend, a line in an opening, an overshoot, an outline that does not
// close; else it is doubted.
func (b *builder) sortChains() error {
	var outside []openChain
	b.indexOpenLines()
	for i := range b.joined.Chains {
		if i%256 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		jc := &b.joined.Chains[i]
		if len(jc.Pieces) == 0 {
			continue
		}
		c := openChain{pieces: b.pieces(jc.Pieces), on: jc.OnContour}
		c.from, c.to = c.pieces[0].edge.From, c.pieces[len(c.pieces)-1].edge.To
		for _, p := range c.pieces {
			c.length += p.edge.Length()
		}
		if b.inTaken(c.pieces) {
			continue
		}
		d := b.partAt(c.pieces[len(c.pieces)/2].edge.Mid())
		if c.length <= scrapMM {
			b.scrap(&c)
			continue
		}
		if d < 0 {
			// A line into a hole from the edge or over the metal: its middle tells half.
			if d = b.onMetalToo(&c); d >= 0 {
				b.chainOnPart(d, &c)
				continue
			}
			if b.openingAt(c.pieces[len(c.pieces)/2].edge.Mid(), -1) {
				b.note(Note{Code: "line-in-hole", At: mid(c.from, c.to), HasAt: true, Source: sourcesOf(flatSources(c.pieces)), Text: "a line lies in an opening; there is no metal, so it was left out"})
				continue
			}
			outside = append(outside, c)
			continue
		}
		b.chainOnPart(d, &c)
	}
	b.openOutlines(outside)
	return nil
}

// onMetalToo finds the part that pieces of a chain lie on though its middle does
// not, and leaves those pieces in the chain; -1 if none of more than scrapMM do.
func (b *builder) onMetalToo(c *openChain) int {
	d, length := -1, 0.0
	var on []piece
	if len(c.pieces) < 2 {
		return -1
	}
	for _, p := range c.pieces {
		if k := b.partAt(p.edge.Mid()); k >= 0 && (d < 0 || k == d) {
			d = k
			on = append(on, p)
			length += p.edge.Length()
		}
	}
	if length <= scrapMM {
		return -1
	}
	c.pieces, c.length = on, length
	return d
}

// scrapMM is the length up to which an open line is nothing: no tool marks it
// and nothing that a drawing means is so short.
const scrapMM = 1e-2

func (b *builder) scrap(c *openChain) {
	b.note(Note{Code: "scrap-line", At: mid(c.from, c.to), HasAt: true, Source: sourcesOf(flatSources(c.pieces)),
		Text: fmt.Sprintf("a line of %s mm is too short to be anything", shortNumber(c.length))})
}

// chainOnPart judges a chain that lies on the metal of a part.
func (b *builder) chainOnPart(d int, c *openChain) {
	if b.chainIsThread(d, c) {
		return
	}
	src := sourcesOf(flatSources(c.pieces))
	loop := b.drafts[d].outline
	at := mid(c.from, c.to)
	if why, byStyle := b.declaredBend(loop, c.pieces); why != "" && (!byStyle || b.reachesAcross(d, c.pieces)) {
		b.addBend(d, cutLine{c.pieces, loop, why, byStyle})
		return
	}
	if c.on[0] >= 0 && c.on[1] >= 0 {
		b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "line-unexplained", Grave: true, At: at, Source: src,
			Text: fmt.Sprintf("a line of %s mm runs on the part from one edge to another and nothing says what it is", shortNumber(c.length))})
		return
	}
	text := fmt.Sprintf("a line of %s mm lies on the part and nothing says what it is: a mark, a bend, or an opening that does not close", shortNumber(c.length))
	b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "reading-doubt", Grave: true, At: at, Source: src, Text: text})
	// A chain that nearly closes is an opening with a gap.
	if gap := c.from.Dist(c.to); (len(c.pieces) >= 2 || c.pieces[0].edge.IsArc()) && gap < c.length/3 {
		b.loose(c.from, c.to, gap, c.length, c.pieces, loop)
	}
}

// openOutlines finds among the chains outside the parts those that look like
// an outline with gaps, and tells them as faults with their place.
func (b *builder) openOutlines(chains []openChain) {
	group := newGroups(len(chains))
	// Each end looks for the nearest other end within 0.3 of the shorter chain.
	type end struct {
		p     geom.Point
		chain int
		to    int // index of the end that it looks at
		dist  float64
	}
	ends := make([]end, 0, 2*len(chains))
	for i, c := range chains {
		ends = append(ends, end{c.from, i, -1, 0}, end{c.to, i, -1, 0})
	}
	order := make([]int, len(ends))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(x, y int) int { return comparePlace(ends[x].p, ends[y].p) })
	const window = 400 // neighbours in the order looked at; open chains are few
	for a := range order {
		if a%1024 == 0 && b.ctx.Err() != nil {
			return
		}
		for k := a + 1; k < len(order) && k < a+window; k++ {
			x, y := order[a], order[k]
			e, f := &ends[x], &ends[y]
			if f.p.Y-e.p.Y > 0.3*chains[e.chain].length+0.002 {
				break
			}
			d := e.p.Dist(f.p)
			limit := 0.3 * math.Min(chains[e.chain].length, chains[f.chain].length)
			if d > limit || e.chain == f.chain && len(chains[e.chain].pieces) < 2 {
				continue
			}
			if e.to < 0 || d < e.dist {
				e.to, e.dist = y, d
			}
			if f.to < 0 || d < f.dist {
				f.to, f.dist = x, d
			}
		}
	}
	for i := range ends {
		if t := ends[i].to; t >= 0 {
			group.unite(ends[i].chain, ends[t].chain)
		}
	}
	members := map[int][]int{}
	var roots []int
	for i := range chains {
		r := group.root(i)
		if members[r] == nil {
			roots = append(roots, r)
		}
		members[r] = append(members[r], i)
	}
	stray := 0
	var straySrc []int32
	for _, r := range roots {
		pieces := 0
		length := 0.0
		var all []piece
		for _, i := range members[r] {
			pieces += len(chains[i].pieces)
			length += chains[i].length
			all = append(all, chains[i].pieces...)
		}
		// The widest gap of the group is the one to close.
		var from, to geom.Point
		gap, free := 0.0, 0
		for k := range 2 * len(members[r]) {
			i := 2*members[r][k/2] + k%2
			if ends[i].to < 0 {
				free++
				continue
			}
			if d := ends[i].dist; d > gap+1e-9 || math.Abs(d-gap) <= 1e-9 && comparePlace(ends[i].p, from) < 0 {
				gap, from, to = d, ends[i].p, ends[ends[i].to].p
			}
		}
		single := chains[members[r][0]]
		if free == 2 && len(members[r]) == 1 {
			gap, from, to = single.from.Dist(single.to), single.from, single.to
		}
		touches := false
		for _, i := range members[r] {
			touches = touches || chains[i].on[0] >= 0 || chains[i].on[1] >= 0
		}
		// Three pieces bound an area; fewer are a stray line, unless two of
		// them nearly close; an overshoot hangs on an outline.
		bent := pieces == 1 && single.pieces[0].edge.IsArc() && gap < 0.3*length
		if !bent && (touches && pieces < 3 || pieces < 2) || pieces == 2 && gap > 0.3*length || gap > 0.6*length {
			stray += len(members[r])
			straySrc = append(straySrc, flatSources(all)...)
			continue
		}
		b.loose(from, to, gap, length, all, -1)
	}
	if stray > 0 {
		at := chains[0]
		b.note(Note{Code: "stray-line", At: mid(at.from, at.to), HasAt: true, Count: stray, Source: sourcesOf(straySrc),
			Text: fmt.Sprintf("%d open lines outside the parts were left out", stray)})
	}
}

// loose enters an outline that does not close.
func (b *builder) loose(from, to geom.Point, gap, length float64, pieces []piece, loop int) {
	if comparePlace(from, to) > 0 {
		from, to = to, from
	}
	box := pieces[0].edge.Bounds()
	for _, p := range pieces[1:] {
		box = box.Union(p.edge.Bounds())
	}
	holes := 0
	for i := range b.loops {
		l := &b.loops[i]
		if !l.dead && loop < 0 && box.Contains(l.box.Min) && box.Contains(l.box.Max) {
			holes++
		}
	}
	src := sourcesOf(flatSources(pieces))
	if loop < 0 {
		b.insideOpen(box, src)
	}
	edges := make([]geom.Edge, 0, min(len(pieces), 2000))
	for _, p := range pieces[:min(len(pieces), 2000)] {
		edges = append(edges, p.edge)
	}
	b.sheet.Loose = append(b.sheet.Loose, Loose{Edges: edges, From: from, To: to, GapMM: gap, LengthMM: length, Holes: holes, Source: src})
	b.openFaults = append(b.openFaults, openFault{loop, Fault{Code: "open-outline", At: from, Value: gap, Count: 1, Part: -1, Source: src,
		Text: fmt.Sprintf("an outline of %s mm does not close: %s mm are open from (%s, %s) to (%s, %s)", shortNumber(length), shortNumber(gap),
			shortPlace(from.X), shortPlace(from.Y), shortPlace(to.X), shortPlace(to.Y))}})
}

// insideOpen judges the contours within an outline that does not close: plain
// ones are its openings and no parts; parts with openings of their own stay,
// doubted, for the open line may be the border of their sheet.
func (b *builder) insideOpen(box geom.Box, src []Source) {
	var inside []int
	plain := true
	for i := range b.drafts {
		o := &b.loops[b.drafts[i].outline]
		if box.Contains(o.box.Min) && box.Contains(o.box.Max) {
			inside = append(inside, i)
			plain = plain && len(b.drafts[i].holes) == 0
		}
	}
	for _, i := range inside {
		d := &b.drafts[i]
		if plain {
			d.dropped = true
			continue
		}
		d.doubts = append(d.doubts, Doubt{Code: "reading-doubt", Grave: true, At: box.Min, Source: src,
			Text: "this lies within an outline that does not close"})
	}
}

func shortPlace(f float64) string { return fmt.Sprintf("%.6g", math.Round(f*1000)/1000+0) }

// openFault is a fault of the part whose outline is the loop, or of the drawing
// if loop is -1.
type openFault struct {
	loop  int
	fault Fault
}
