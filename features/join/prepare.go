package join

import (
	"cmp"
	"context"
	"maps"
	"math"
	"slices"

	"burrside/features/geom"
)

const (
	defaultSnap   = 1e-3
	defaultBridge = 0.5
	// limitSlack is by how much a limit may be passed and count as met: far above
	// the rounding of coordinates, far below what matters.
	limitSlack = 1e-6
	// copyGap is how far apart two lines or arcs may run and still be one drawn
	// twice (parallel copies within 0.02 mm, the distance up to which parts count
	// as equal).
	copyGap = 0.02 + limitSlack
	// mostSplits bounds the memory that crossings take: about 200 bytes each.
	mostSplits = 2_000_000
	// notesPerCode bounds the notes of one kind.
	notesPerCode = 100
)

// bedge is an edge at work: oriented canonically, its ends at vertices u, v.
type bedge struct {
	geom.Edge
	u, v  int32
	src   int32 // node of the source tree, -1 none
	style int32
	group int32 // rank of its closed group, -1 loose
	loop  int32 // rigid loop, -1 network
	dead  bool
}

// srcNode is a leaf (b < 0, a is the source) or joins two nodes.
type srcNode struct{ a, b int32 }

// base is the drawing after snapping: what does not change any more.
type base struct {
	ctx          context.Context
	ticks        uint32
	err          error // of ctx, once it was seen to have ended
	snap, bridge float64
	noRaise      bool
	opt          Options
	in           []Input
	edges        []bedge
	verts        []geom.Point
	nodes        []srcNode
	notes        []Note
	noteCount    map[string]int
	savedNotes   []Note
	savedCount   map[string]int
	loops        []loop
	grid         *grid

	walk    []int32 // half-edges of the loops, one loop after the other
	touches []touch
	crosses []cross
	covers  []cover
	copies  []cover // i is kept, k dropped
}

func newBase(ctx context.Context, in []Input, opt Options) *base {
	b := &base{ctx: ctx, in: in, opt: opt, snap: opt.SnapMM, bridge: opt.BridgeMM, noteCount: map[string]int{}}
	if b.snap <= 0 {
		b.snap = defaultSnap
	} else {
		b.noRaise = true
	}
	switch {
	case b.bridge == 0:
		b.bridge = defaultBridge + limitSlack
	case b.bridge < 0:
		b.bridge = 0
	default:
		b.bridge += limitSlack
	}
	return b
}

// ended tells that the context has ended. Every loop over edges, and every
// comparison of a long sort, asks: each asking in some thousands looks. Once it
// is true all that is under way is of no use, and Join gives the error.
func (b *base) ended() bool {
	if b.ticks++; b.ticks%4096 == 0 && b.err == nil {
		b.err = b.ctx.Err()
	}
	return b.err != nil
}

// check looks at the context at once.
func (b *base) check() error {
	if b.err == nil {
		b.err = b.ctx.Err()
	}
	return b.err
}

// note keeps a note; of one kind the 101st and later only raise a count.
func (b *base) note(n Note) {
	if n.Count == 0 {
		n.Count = 1
	}
	k := b.noteCount[n.Code]
	b.noteCount[n.Code]++
	if k >= notesPerCode {
		for i := len(b.notes) - 1; i >= 0; i-- {
			if b.notes[i].Code == n.Code {
				b.notes[i].Count += n.Count
				return
			}
		}
	}
	b.notes = append(b.notes, n)
}

// restoreNotes goes back to the notes of the drawing as it was before the
// first attempt at the network.
func (b *base) restoreNotes() {
	if b.savedCount == nil {
		b.savedNotes, b.savedCount = slices.Clone(b.notes), maps.Clone(b.noteCount)
		return
	}
	b.notes, b.noteCount = slices.Clone(b.savedNotes), maps.Clone(b.savedCount)
}

// usable tells whether an edge has finite numbers and, of an arc, ends that lie
// about its circle: an end at the centre has no direction.
func usable(e *geom.Edge) bool {
	s := e.From.X + e.From.Y + e.To.X + e.To.Y + e.Centre.X + e.Centre.Y + e.Radius
	if math.IsNaN(s) || math.IsInf(s, 0) || math.Abs(s) >= 1e15 {
		return false
	}
	return !(e.Radius > 0) || e.From == e.To ||
		min(e.From.Dist(e.Centre), e.To.Dist(e.Centre)) > e.Radius/2
}

// orient turns an edge so that its lower, then left end comes first, whichever
// way it was drawn; a circle starts at its rightmost point.
func orient(e geom.Edge) geom.Edge {
	if e.Radius > 0 {
		if e.From == e.To {
			return geom.CircleEdge(e.Centre, e.Radius)
		}
	} else {
		e.Centre, e.Radius, e.CCW = geom.Point{}, 0, false
	}
	c := geom.ComparePlace(e.From, e.To)
	if c == 0 {
		c = comparePoint(e.From, e.To)
	}
	if c > 0 {
		return e.Reverse()
	}
	return e
}

func comparePoint(p, q geom.Point) int {
	if c := cmp.Compare(p.Y, q.Y); c != 0 {
		return c
	}
	return cmp.Compare(p.X, q.X)
}

// compareEdges orders oriented edges by rounded, then by exact geometry.
func compareEdges(a, b *geom.Edge) int {
	if c := geom.ComparePlace(a.From, b.From); c != 0 {
		return c
	}
	if c := geom.ComparePlace(a.To, b.To); c != 0 {
		return c
	}
	if a.Radius > 0 || b.Radius > 0 {
		if c := geom.ComparePlace(a.Mid(), b.Mid()); c != 0 {
			return c
		}
	}
	return compareExact(a, b)
}

func compareExact(a, b *geom.Edge) int {
	if c := comparePoint(a.From, b.From); c != 0 {
		return c
	}
	if c := comparePoint(a.To, b.To); c != 0 {
		return c
	}
	if c := cmp.Compare(a.Radius, b.Radius); c != 0 {
		return c
	}
	if c := comparePoint(a.Centre, b.Centre); c != 0 {
		return c
	}
	switch {
	case a.CCW == b.CCW:
		return 0
	case a.CCW:
		return 1
	}
	return -1
}

// prepare sorts the edges canonically, drops what is nothing, merges what is
// drawn twice, and snaps the ends.
func (b *base) prepare() error {
	if err := b.snapInput(); err != nil {
		return err
	}
	if !b.noRaise {
		if s := b.coarseSnap(); s > b.snap {
			// From the start again: the ends have been moved.
			b.notes, b.noteCount = b.notes[:0], map[string]int{}
			b.snap = s
			if err := b.snapInput(); err != nil {
				return err
			}
			b.note(Note{Code: "snap-raised", SizeMM: s})
		}
	}
	b.dropShort()
	if b.check() == nil {
		b.mergeSnapped()
	}
	return b.check()
}

func (b *base) snapInput() error {
	b.sortInput()
	if b.check() == nil {
		b.mergeEqual()
		b.snapEnds()
	}
	return b.check()
}

func (b *base) sortInput() {
	bad := 0
	var badSrc []int32
	keys := make([]placeKey, 0, len(b.in))
	for i := range b.in {
		if b.ended() {
			return
		}
		in := &b.in[i]
		if !usable(&in.Edge) {
			bad++
			badSrc = append(badSrc, in.Source)
			continue
		}
		if in.Edge.Radius > 0 {
			p := b.oriented(in).From
			y, x := place(p)
			keys = append(keys, placeKey{y, x, int32(i)})
			continue
		}
		// The lower, then left end of a line, without turning it yet.
		y, x := place(in.Edge.From)
		if ty, tx := place(in.Edge.To); ty < y || ty == y && tx < x {
			y, x = ty, tx
		}
		keys = append(keys, placeKey{y, x, int32(i)})
	}
	b.sortKeys(keys, func(p, q placeKey) int {
		if b.ended() {
			return 0
		}
		a, c := &b.in[p.i], &b.in[q.i]
		e, f := b.oriented(a), b.oriented(c)
		if c := compareEdges(&e, &f); c != 0 {
			return c
		}
		if c := cmp.Compare(a.Style, c.Style); c != 0 {
			return c
		}
		return cmp.Compare(a.Source, c.Source)
	})
	if b.check() != nil {
		return
	}
	b.edges = make([]bedge, len(keys))
	b.nodes = make([]srcNode, len(keys), len(keys)+len(keys)/8)
	grouped := false
	for k := range keys {
		if b.ended() {
			return
		}
		in := &b.in[keys[k].i]
		e := &b.edges[k]
		e.src, e.style, e.group, e.loop = int32(k), in.Style, -1, -1
		if in.Edge.Radius > 0 {
			e.Edge = b.oriented(in)
		} else {
			e.From, e.To = in.Edge.From, in.Edge.To
			if c := geom.ComparePlace(e.From, e.To); c > 0 || c == 0 && comparePoint(e.From, e.To) > 0 {
				e.From, e.To = e.To, e.From
			}
		}
		if in.Group > 0 && in.Closed {
			e.group = in.Group
			grouped = true
		}
		b.nodes[k] = srcNode{in.Source, -1}
		if gap := in.Edge.From.Dist(in.Edge.To); in.Edge.Radius > 0 && gap > b.snap && e.IsCircle() {
			b.note(Note{Code: "gap-closed", At: midPoint(in.Edge.From, in.Edge.To), SizeMM: gap, Sources: []int32{in.Source}})
		}
	}
	if bad > 0 {
		slices.Sort(badSrc)
		b.note(Note{Code: "not-finite", Count: bad, Sources: badSrc})
	}
	if grouped {
		b.rankGroups()
	}
}

// place is p on the raster of 0.001 mm on which geom.ComparePlace compares.
func place(p geom.Point) (y, x int64) {
	return int64(math.Floor(p.Y/1e-3 + 0.5)), int64(math.Floor(p.X/1e-3 + 0.5))
}

// oriented is the edge of an input as it is worked with.
func (b *base) oriented(in *Input) geom.Edge {
	if in.Edge.Radius <= 0 {
		return orient(in.Edge)
	}
	return orient(b.closeRound(in.Edge))
}

// closeRound makes a circle of an arc that lacks less than a degree and less
// than the bridge.
func (b *base) closeRound(e geom.Edge) geom.Edge {
	if e.From == e.To {
		return e
	}
	gap := e.From.Dist(e.To)
	if gap > b.bridge && gap > b.snap || gap > e.Radius*0.02 || math.Abs(e.Sweep()) < 359*math.Pi/180 {
		return e
	}
	return geom.CircleEdge(e.Centre, e.Radius)
}

func midPoint(p, q geom.Point) geom.Point {
	return geom.Point{X: p.X + (q.X-p.X)/2, Y: p.Y + (q.Y-p.Y)/2}
}

// rankGroups renumbers closed groups in the order of their first edge, so that
// the numbers given do not matter.
func (b *base) rankGroups() {
	type at struct{ group, i int32 }
	var list []at
	for i := range b.edges {
		if g := b.edges[i].group; g >= 0 {
			list = append(list, at{g, int32(i)})
		}
	}
	slices.SortFunc(list, func(p, q at) int {
		if b.ended() {
			return 0
		}
		if p.group != q.group {
			return cmp.Compare(p.group, q.group)
		}
		return cmp.Compare(p.i, q.i)
	})
	var firsts []at // first edge of each group, by number
	for i, p := range list {
		if i == 0 || p.group != list[i-1].group {
			firsts = append(firsts, p)
		}
	}
	order := make([]int32, len(firsts))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(p, q int32) int { return cmp.Compare(firsts[p].i, firsts[q].i) })
	rank := make([]int32, len(firsts))
	for r, k := range order {
		rank[k] = int32(r)
	}
	k := -1
	for i, p := range list {
		if i == 0 || p.group != list[i-1].group {
			k++
		}
		b.edges[p.i].group = rank[k]
	}
}

// absorb merges edge f into e: the sources and the lower style.
func (b *base) absorb(e, f *bedge) {
	e.src = b.joinSources(e.src, f.src)
	e.style = min(e.style, f.style)
	if f.group >= 0 && (e.group < 0 || f.group < e.group) {
		e.group = f.group
	}
	f.dead = true
}

func (b *base) joinSources(p, q int32) int32 {
	switch {
	case p < 0 || p == q:
		return q
	case q < 0:
		return p
	}
	b.nodes = append(b.nodes, srcNode{p, q})
	return int32(len(b.nodes) - 1)
}

// sources lists the sources under a node, sorted, each once.
func (b *base) sources(node int32) []int32 {
	if node < 0 {
		return nil
	}
	if n := b.nodes[node]; n.b < 0 {
		return []int32{n.a}
	}
	var out []int32
	stack := []int32{node}
	for len(stack) > 0 {
		n := b.nodes[stack[len(stack)-1]]
		stack = stack[:len(stack)-1]
		if n.b < 0 {
			out = append(out, n.a)
		} else {
			stack = append(stack, n.a, n.b)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// mergeEqual merges edges that are equal bit for bit; they are neighbours. A run
// of them has one note, so that many equal ones cost no more than others.
func (b *base) mergeEqual() {
	out := b.edges[:0]
	for i := 0; i < len(b.edges); {
		e := b.edges[i]
		run := i + 1
		for ; run < len(b.edges) && compareExact(&e.Edge, &b.edges[run].Edge) == 0; run++ {
			b.absorb(&e, &b.edges[run])
		}
		if more := run - i - 1; more > 0 {
			b.note(Note{Code: "duplicate-merged", At: e.Mid(), SizeMM: float64(more) * e.Length(), Count: more, Sources: b.sources(e.src)})
		}
		out = append(out, e)
		i = run
	}
	b.edges = out
}

// dropShort drops edges whose ends have become one vertex.
func (b *base) dropShort() {
	out := b.edges[:0]
	n := Note{Code: "zero-length"}
	var src []int32
	for i := range b.edges {
		if b.ended() {
			return
		}
		e := &b.edges[i]
		if e.u == e.v && !e.IsCircle() {
			if n.Count == 0 {
				n.At = e.From
			}
			n.Count++
			n.SizeMM = max(n.SizeMM, e.Length())
			src = append(src, b.sources(e.src)...)
			continue
		}
		if len(out) == i {
			out = out[:i+1]
		} else {
			out = append(out, *e)
		}
	}
	b.edges = out
	if n.Count > 0 {
		slices.Sort(src)
		n.Sources = slices.Compact(src)
		b.note(n)
	}
}

// sameCurve tells whether two edges between the same vertices are one.
func sameCurve(e, f *geom.Edge, tol float64) bool {
	if e.Radius <= 0 && f.Radius <= 0 {
		return true
	}
	if e.IsCircle() || f.IsCircle() {
		return e.IsCircle() && f.IsCircle() && e.Centre.Dist(f.Centre) <= tol && math.Abs(e.Radius-f.Radius) <= tol
	}
	return e.Mid().Dist(f.Mid()) <= tol
}

// mergeSnapped merges edges that have become equal by snapping. Each vertex
// compares its edges by their far vertex.
func (b *base) mergeSnapped() {
	if b.mergeParallel(b.edges, len(b.verts), "duplicate-merged") {
		b.edges = slices.DeleteFunc(b.edges, func(e bedge) bool { return e.dead })
	}
}

// mergeParallel marks as dead the edges that run between the same vertices
// along the same curve as an earlier one.
func (b *base) mergeParallel(edges []bedge, verts int, code string) bool {
	adj := newAdjacency(edges, verts)
	merged := false
	var buf []int32
	for v := range verts {
		hs := adj.at(int32(v))
		if len(hs) < 2 {
			continue
		}
		if b.ended() {
			return false
		}
		buf = buf[:0]
		for _, h := range hs {
			e := &edges[h>>1]
			if h&1 == 0 && !e.dead { // each edge at its first end only
				buf = append(buf, h>>1)
			}
		}
		if len(buf) < 2 {
			continue
		}
		slices.SortFunc(buf, func(p, q int32) int {
			if b.ended() {
				return 0
			}
			if c := cmp.Compare(edges[p].v, edges[q].v); c != 0 {
				return c
			}
			return cmp.Compare(p, q)
		})
		for i := 0; i < len(buf); {
			k := i + 1
			for k < len(buf) && edges[buf[k]].v == edges[buf[i]].v {
				k++
			}
			if k-i > 1 && b.mergeBundle(edges, buf[i:k], code) {
				merged = true
			}
			i = k
		}
	}
	return merged
}

// manyParallel is how many edges between two vertices are compared pair by pair.
const manyParallel = 32

// mergeBundle is mergeParallel for the edges between two vertices. Where there
// are many, only those are compared whose middles lie near each other: one curve
// has one middle.
func (b *base) mergeBundle(edges []bedge, bundle []int32, code string) bool {
	merged := false
	try := func(i, k int32) {
		e, f := &edges[i], &edges[k]
		if f.dead || !sameCurve(&e.Edge, &f.Edge, 2*b.snap) {
			return
		}
		if e.Radius > 0 && f.Radius <= 0 {
			e.Edge = f.Edge // of a flat arc and its chord the chord stays
		}
		b.absorb(e, f)
		b.note(Note{Code: code, At: e.Mid(), SizeMM: e.Length(), Sources: b.sources(e.src)})
		merged = true
	}
	if len(bundle) <= manyParallel {
		for i, p := range bundle {
			for _, q := range bundle[i+1:] {
				if edges[p].dead || b.ended() {
					break
				}
				try(p, q)
			}
		}
		return merged
	}
	type place struct {
		x float64
		k int // in bundle
	}
	// Along a skew direction: the middles of a bundle lie on one line, square to
	// the line from end to end.
	along := func(i int32) float64 {
		m := edges[i].Mid()
		return float64(0.6*m.X) + float64(0.8*m.Y)
	}
	byX := make([]place, len(bundle))
	for k, i := range bundle {
		byX[k] = place{along(i), k}
	}
	slices.SortFunc(byX, func(p, q place) int {
		if b.ended() {
			return 0
		}
		if c := cmp.Compare(p.x, q.x); c != 0 {
			return c
		}
		return cmp.Compare(p.k, q.k)
	})
	reach := 8 * b.snap
	var near []int
	for k, i := range bundle {
		if edges[i].dead {
			continue
		}
		x := along(i)
		near = near[:0]
		s, _ := slices.BinarySearchFunc(byX, x-reach, func(p place, x float64) int { return cmp.Compare(p.x, x) })
		for ; s < len(byX) && byX[s].x <= x+reach; s++ {
			if b.ended() {
				return merged
			}
			if byX[s].k > k && !edges[bundle[byX[s].k]].dead {
				near = append(near, byX[s].k)
			}
		}
		slices.Sort(near)
		for _, q := range near {
			try(i, bundle[q])
		}
	}
	return merged
}

// adjacency lists the half-edges at each vertex: 2*edge for the end u,
// 2*edge+1 for the end v, in the order of the edges.
type adjacency struct {
	start []int32
	half  []int32
}

func newAdjacency(edges []bedge, verts int) adjacency {
	a := adjacency{start: make([]int32, verts+1), half: make([]int32, 2*len(edges))}
	for i := range edges {
		if !edges[i].dead {
			a.start[edges[i].u]++
			a.start[edges[i].v]++
		}
	}
	sum := int32(0)
	for i := range a.start {
		sum, a.start[i] = sum+a.start[i], sum
	}
	fill := slices.Clone(a.start)
	for i := range edges {
		e := &edges[i]
		if e.dead {
			continue
		}
		a.half[fill[e.u]] = int32(2 * i)
		fill[e.u]++
		a.half[fill[e.v]] = int32(2*i + 1)
		fill[e.v]++
	}
	return a
}

func (a *adjacency) at(v int32) []int32 { return a.half[a.start[v]:a.start[v+1]] }

func (a *adjacency) degree(v int32) int { return int(a.start[v+1] - a.start[v]) }
