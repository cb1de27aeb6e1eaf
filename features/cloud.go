package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
	"burrside/features/join"
)

// A revision cloud is a run of arcs of one sweep that meet in cusps; their
// chords vary (common practice, no source).
const (
	cloudArcs   = 8
	cloudSweep  = 0.1 // of the middle one: how far sweeps differ
	cloudChords = 3.2 // the longest of the shortest
	cloudOdd    = 8   // one arc of so many may be a filler of another sweep
	cuspRad     = 30 * math.Pi / 180
	bulgeRad    = math.Pi / 4 // the least sweep
	// cloudFull is the share of a closed run from which on a plain contour in it
	// is more likely a part with a cloud about it than an opening.
	cloudFull = 0.25
	// cloudRound is how far, of its size, the middle of a round one may be from
	// the middle of a circle about it or in it.
	cloudRound = 0.02
)

// cloud is a run of equal bulges.
type cloud struct {
	ring   geom.Ring // in its order
	items  []int32
	closed bool
	box    geom.Box
}

func (c *cloud) holds(p geom.Point) bool {
	return c.closed && c.box.Contains(p) && c.ring.Winding(p) != 0
}

// takeClouds takes revision clouds out: runs of equal bulges that no part has,
// for they cross its outline, or go round a part, a piece of one, or words. One
// that may be a plate with a scalloped edge is doubted instead.
func (b *builder) takeClouds() error {
	clouds := b.clouds()
	if len(clouds) == 0 {
		return b.ctx.Err()
	}
	of := map[int32]bool{}
	for k := range clouds {
		for _, i := range clouds[k].items {
			of[i] = true
		}
	}
	var in []join.Input
	for i := range b.items {
		if b.items[i].class == classCut && !of[int32(i)] {
			in = append(in, b.inputs[b.start[i]:b.start[i+1]]...)
		}
	}
	res, err := b.join(in)
	if err != nil {
		return err
	}
	s := cloudSheet{b: b, rings: make([]geom.Ring, len(res.Contours)), boxes: make([]geom.Box, len(res.Contours)), children: make([][]int, len(res.Contours))}
	for i := range res.Contours {
		s.rings[i] = res.Contours[i].Ring()
		s.boxes[i] = s.rings[i].Bounds()
		if p := res.Contours[i].Parent; p >= 0 {
			s.children[p] = append(s.children[p], i)
		}
	}
	count := 0
	var at geom.Point
	var src []int32
	for k := range clouds {
		c := &clouds[k]
		if err := b.ctx.Err(); err != nil {
			return err
		}
		infos := make([]int32, 0, len(c.items))
		for _, i := range c.items {
			infos = append(infos, b.items[i].info)
		}
		switch taken, doubted := s.judge(c); {
		case taken:
			for _, i := range c.items {
				it := &b.items[i]
				it.class, it.strength, it.what = classNoise, sure, symbolTaken
			}
			if count++; count == 1 || comparePlace(c.box.Min, at) < 0 {
				at = c.box.Min
			}
			src = append(src, infos...)
		case doubted:
			b.borderDoubts = append(b.borderDoubts, borderDoubt{s.about(c).Grow(0.01), Doubt{Code: "reading-doubt", Grave: true, At: c.box.Min, Source: sourcesOf(infos),
				Text: fmt.Sprintf("a run of %d equal bulges: the cloud that marks a change of the drawing, or an edge of a part", len(c.ring))}})
		}
	}
	if count > 0 {
		b.note(Note{Code: "symbol-taken-out", At: at, HasAt: true, Count: count, Source: sourcesOf(src),
			Text: fmt.Sprintf("signs of the drawing that are no parts were left out: %d times a revision cloud", count)})
	}
	return nil
}

// cloudSheet is the rest of the drawing, joined on trial.
type cloudSheet struct {
	b        *builder
	rings    []geom.Ring
	boxes    []geom.Box
	children [][]int
}

// judge tells whether a run of bulges is a cloud, or may be one.
func (s *cloudSheet) judge(c *cloud) (taken, doubted bool) {
	b := s.b
	index := geom.NewIndex(c.ring, 0)
	crosses, parts, large, inside, beside, depth := false, false, false, 0, 0, 0
	for i, r := range s.rings {
		if centre, radius, ok := circleOf(r); ok && c.closed && centre.Dist(c.box.Centre()) <= cloudRound*size(c.box) {
			if c.isRound() && radius < size(c.box) {
				return false, false // the bore or the pitch circle of a wheel
			}
		}
		switch {
		case s.boxes[i].Overlaps(c.box) && crossesRing(c.ring, index, r):
			crosses = true
		case c.holds(r[0].From):
			inside++
			if _, _, round := circleOf(r); !round {
				parts = parts || len(s.children[i]) > 0
				large = large || r.Area() > cloudFull*c.box.Width()*c.box.Height()
			}
		case s.boxes[i].ContainsBox(c.box) && r.Inside(c.ring[0].From, 1e-6) == geom.In:
			if !s.isBorder(i) {
				depth++
			}
		default:
			beside++
		}
	}
	words, named := false, false
	for k := range b.sheet.Texts {
		if t := &b.sheet.Texts[k]; c.holds(b.textMiddle(t)) {
			words = true
			for _, row := range statedLines(*t) {
				named = named || namesPart(row)
			}
		}
	}
	measured := false
	for k := range b.drawnDims {
		d := &b.drawnDims[k]
		from, to, line := d.from.Mul(b.sheet.Units.MM), d.to.Mul(b.sheet.Units.MM), d.line.Mul(b.sheet.Units.MM)
		for _, p := range [2]geom.Point{from, to} {
			for e := range index.Near(geom.Box{Min: p, Max: p}.Grow(0.1)) {
				measured = measured || c.ring[e].Dist(p) <= 0.1
			}
		}
		if u := to.Sub(from).Unit(); from != to {
			m := mid(from, to)
			off := line.Sub(m)
			words = words || c.holds(m.Add(off.Sub(u.Mul(off.Dot(u)))))
		}
	}
	metal := depth%2 == 1
	switch {
	case crosses, parts && !metal:
		taken = true
	case !c.closed:
		return false, false
	case metal:
		// An opening with a part cut from its waste looks the same.
		taken = words && !named || inside > 0 && (s.hasOwnLayer(c) || s.aboutHoles(c))
		doubted = true
	case inside == 0 && beside > 0:
		taken = words && !named
		doubted = true
	default:
		doubted = beside > 0 || large
	}
	if measured && taken {
		return false, true
	}
	return taken, doubted
}

// cloudHoleShare is the most of a cloud's box that a hole in it fills: a disc cut
// from the waste of an opening uses more of it.
const cloudHoleShare = 0.15

// aboutHoles tells whether all that a cloud goes round are small round holes.
func (s *cloudSheet) aboutHoles(c *cloud) bool {
	for _, r := range s.rings {
		if !c.holds(r[0].From) {
			continue
		}
		if _, _, round := circleOf(r); !round || r.Area() > cloudHoleShare*c.box.Width()*c.box.Height() {
			return false
		}
	}
	return true
}

// hasOwnLayer tells whether nothing else that is cut lies on the layers of a cloud,
// and their names do not speak of cutting.
func (s *cloudSheet) hasOwnLayer(c *cloud) bool {
	b := s.b
	own := map[int32]bool{}
	for _, i := range c.items {
		layer := b.items[i].placed.Layer
		own[layer] = true
		if layer < 0 || int(layer) >= len(b.d.Layers) {
			return false
		}
		for words := nameWords(b.d.Layers[layer].Name); len(words) > 0; words = words[1:] {
			if matchesWord(words, b.words.Cut) || matchesWord(words, b.words.Hole) {
				return false
			}
		}
	}
	for i := range b.items {
		it := &b.items[i]
		if it.class == classCut && own[it.placed.Layer] && !slices.Contains(c.items, int32(i)) && !isBulged(b.inputs[b.start[i]:b.start[i+1]]) {
			return false
		}
	}
	return true
}

// isBulged tells whether an entity is made of arcs alone, as other clouds are.
func isBulged(in []join.Input) bool {
	return len(in) > 0 && !slices.ContainsFunc(in, func(p join.Input) bool { return !p.Edge.IsArc() || p.Edge.IsCircle() })
}

// isBorder tells of a rectangle round parts with openings: a border of a sheet.
func (s *cloudSheet) isBorder(i int) bool {
	return isRectangle(s.rings[i]) && slices.ContainsFunc(s.children[i], func(k int) bool { return len(s.children[k]) > 0 })
}

// about is the box of what a run of bulges in the metal lies on, or its own.
func (s *cloudSheet) about(c *cloud) geom.Box {
	box, least := c.box, math.Inf(1)
	for i, r := range s.rings {
		if a := r.Area(); a < least && s.boxes[i].ContainsBox(c.box) && r.Inside(c.ring[0].From, 1e-6) == geom.In && !s.isBorder(i) {
			box, least = s.boxes[i], a
		}
	}
	return box
}

// isRound tells whether bulges stand on one circle.
func (c *cloud) isRound() bool {
	m := c.box.Centre()
	r := c.ring[0].From.Dist(m)
	for _, e := range c.ring {
		if math.Abs(e.From.Dist(m)-r) > cloudRound*size(c.box) {
			return false
		}
	}
	return true
}

// crossesRing tells whether a ring passes through bulges.
func crossesRing(bulges geom.Ring, index *geom.Index, r geom.Ring) bool {
	for _, e := range r {
		for k := range index.Near(e.Bounds()) {
			if len(geom.Intersect(bulges[k], e, 1e-6).Points) > 0 {
				return true
			}
		}
	}
	return false
}

// clouds finds runs of equal bulges, drawn as a polyline or as arcs end to end,
// that close or end free at both ends.
func (b *builder) clouds() []cloud {
	isBulge := func(e *geom.Edge) bool { return e.IsArc() && !e.IsCircle() && math.Abs(e.Sweep()) >= bulgeRad }
	bulges := 0
	for i := range b.items {
		if b.items[i].class != classCut {
			continue
		}
		for k := b.start[i]; k < b.start[i+1]; k++ {
			if isBulge(&b.inputs[k].Edge) {
				bulges++
			}
		}
	}
	if bulges < cloudArcs {
		return nil
	}
	owner := b.itemOfInput()
	in := b.cutInputs(owner)
	if len(in) > mostLineWork {
		return nil
	}
	meet := b.meetEnds(in)
	ends := make([][]int32, len(meet.count))
	for end, p := range meet.at {
		ends[p] = append(ends[p], int32(end))
	}
	bulge := func(k int32) bool { return isBulge(&b.inputs[in[k]].Edge) }
	// over is the end that meets an end, of a bulge; -1 none.
	over := func(end int32) int32 {
		list := ends[meet.at[end]]
		if len(list) != 2 {
			return -1
		}
		o := list[0]
		if o == end {
			o = list[1]
		}
		if o/2 == end/2 || !bulge(o/2) {
			return -1
		}
		return o
	}
	var out []cloud
	seen := make([]bool, len(in))
	for k := range int32(len(in)) {
		if seen[k] || !bulge(k) {
			continue
		}
		// Back to the first one, then forth.
		start := 2 * k
		for o := over(start); o >= 0 && o/2 != k; o = over(start) {
			start = o ^ 1
		}
		c := cloud{}
		last := start
		for end := start; ; {
			i := end / 2
			seen[i] = true
			e := b.inputs[in[i]].Edge
			if end%2 == 1 {
				e = e.Reverse()
			}
			c.ring = append(c.ring, e)
			c.items = append(c.items, owner[in[i]])
			last = end ^ 1
			o := over(last)
			if o < 0 || seen[o/2] {
				c.closed = o == start
				break
			}
			end = o
		}
		if !c.closed && (len(ends[meet.at[start]]) != 1 || len(ends[meet.at[last]]) != 1) || len(c.ring) < cloudArcs || !isCloud(c.ring) {
			continue
		}
		slices.Sort(c.items)
		c.items = slices.Compact(c.items)
		c.box = c.ring.Bounds()
		out = append(out, c)
	}
	return out
}

// isCloud tells whether edges in their order are the arcs of a cloud.
func isCloud(list []geom.Edge) bool {
	sweeps := make([]float64, len(list))
	for k := range list {
		if list[k].CCW != list[0].CCW {
			return false
		}
		sweeps[k] = math.Abs(list[k].Sweep())
	}
	slices.Sort(sweeps)
	middle := sweeps[len(sweeps)/2]
	least, most, odd, cusps := math.Inf(1), 0.0, 0, 0
	for k, e := range list {
		if math.Abs(math.Abs(e.Sweep())-middle) > cloudSweep*middle {
			odd++
			continue
		}
		chord := e.From.Dist(e.To)
		least, most = math.Min(least, chord), math.Max(most, chord)
		if k == 0 {
			continue
		}
		d, f := list[k-1].Reverse().StartDir(), e.StartDir()
		if turn := math.Pi - math.Abs(math.Atan2(d.Cross(f), d.Dot(f))); turn >= cuspRad {
			cusps++
		}
	}
	// Round a corner flat bulges run into each other.
	return odd*cloudOdd <= len(list) && 3*(cusps+1) >= 2*len(list) && most <= cloudChords*least
}
