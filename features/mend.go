package features

import (
	"math"

	"burrside/features/geom"
)

// Notches are found by mending: an inward run of the outline between two
// pieces of one line or one circle, or between two lines that meet in a corner
// outside it, is a bite. The smallest bite is closed first, so that the
// outline becomes simpler step by step and a bite in the wall of another is
// closed before its host.

const (
	// mendWindow is how many sides a bite may have on an outline of more
	// than mendAll sides; on smaller ones all are tried. It keeps saws and
	// gears of many thousand teeth fast; what is left is tried again with
	// wider windows as long as that stays under mendWork steps.
	mendWindow = 14
	mendAll    = 200
	mendWork   = 4_000_000
	// mendSteps bounds the sides looked at on one outline: a ragged edge of
	// thousands of points at random heights offers nearly as many bites as it
	// has pairs of sides. Ordinary outlines stay under a hundredth of it; at
	// the bound what is left becomes pockets of the convex hull.
	mendSteps = 30_000_000
	// A corner is closed only between lines that turn by these angles in
	// all, so that it lies at a place that the two lines determine.
	cornerLeastRad = 10 * math.Pi / 180
	cornerMostRad  = 170 * math.Pi / 180
	// cornerBoxMM: a corner lies within the part's box grown by this, or no
	// farther ahead of its two lines than this share of their length.
	cornerBoxMM = 2
	cornerShare = 0.5
	// A mouth whose two edges are not of one line is closed by its chord if
	// the edges turn by less than skewRad and miss each other by less than
	// skewShare of the mouth.
	skewRad   = 10 * math.Pi / 180
	skewShare = 0.3
)

// mouthKind says how a bite is closed.
type mouthKind int

const (
	mouthLine   mouthKind = iota // two pieces of one line, or one and a vertex on it
	mouthArc                     // two arcs of one circle
	mouthCorner                  // two lines and the corner where they meet
	mouthSkew                    // the chord between two edges that nearly fit
	mouthHull                    // a piece of the convex hull
)

// bite is one closed inward run.
type bite struct {
	kind       mouthKind
	a, b       geom.Point // ends of the mouth, along the outline
	v          geom.Point // mouthCorner: the corner
	dir        geom.Point // direction of the mouth from a to b
	arc        geom.Edge  // mouthArc: an arc of the mended circle
	da, db     geom.Point // mouthCorner: directions of the edges at a and b
	first, n   int        // spans of the run, absorbed bites included
	start, end joint      // rounded corners at the mouth
	inner      []int      // bites in straight walls of this one, which stay by themselves
	into       int        // 1 + the later bite that took this one in; 0 none
	host       int        // 1 + the bite whose wall holds this one; 0 none
}

// node is one side of the outline while it is mended.
type node struct {
	side            // first and n count spans here
	bites   []int   // bites mended on this side
	virtual bool    // a chord without metal
	dead    bool    // mended away
	prev    int     // before it along the outline
	next    int     // after it
	changed int     // when it was last changed
	turn    float64 // turn from it to the next side
	// Of its edge, measured once:
	start, end geom.Point // directions at its ends
	sweep      float64
	segment    float64 // area between an arc and its chord
}

// mender holds the outline while it is mended.
type mender struct {
	spans []span // of the compact ring
	nodes []node
	bites []bite
	head  int // a live node
	live  int
	now   int
	heap  candidateHeap
	frame frame
	index map[int]bool // spans of the run under test
	grid  *geom.Index  // over the spans' edges
	steps int          // sides looked at, see mendSteps
}

// isSpent tells that the work on this outline has reached its bound.
func (m *mender) isSpent() bool { return m.steps > mendSteps }

// frame is the outline's own axes: the direction that most of its straight
// length follows or is square to, and the box in these axes.
type frame struct {
	u, v   geom.Point // unit; u is zero if nothing is straight
	lo, hi geom.Point // extents along u and v
}

func (f frame) coords(p geom.Point) geom.Point { return geom.Point{X: p.Dot(f.u), Y: p.Dot(f.v)} }

// holds tells whether p lies within the box grown by d.
func (f frame) holds(p geom.Point, d float64) bool {
	q := f.coords(p)
	return q.X > f.lo.X-d && q.X < f.hi.X+d && q.Y > f.lo.Y-d && q.Y < f.hi.Y+d
}

// newMender prepares outline r, counter-clockwise.
func newMender(spans []span) *mender {
	m := &mender{spans: spans, index: map[int]bool{}}
	sides := sharpenIndexed(spans)
	for k, s := range sides {
		m.nodes = append(m.nodes, node{side: s, prev: k - 1, next: k + 1})
	}
	m.live = len(m.nodes)
	if m.live > 0 {
		m.nodes[0].prev = m.live - 1
		m.nodes[m.live-1].next = 0
	}
	for k := range m.nodes {
		m.measure(k)
	}
	for k := range m.nodes {
		m.measureTurn(k)
	}
	m.frame = frameOf(spans)
	edges := make([]geom.Edge, len(spans))
	for i, s := range spans {
		edges[i] = s.e
	}
	m.grid = geom.NewIndex(edges, 0)
	return m
}

// sharpenIndexed sharpens spans; the sides count spans instead of ring edges.
func sharpenIndexed(spans []span) []side {
	own := make([]span, len(spans))
	for i, s := range spans {
		own[i] = span{s.e, i, 1}
	}
	return sharpen(own, true, true)
}

// candidate is a bite that could be closed.
type candidate struct {
	kind    mouthKind
	i, j    int // sides before and after the run; -1: the mouth ends at a vertex
	p, q    int // first and last side of the run
	a, b, v geom.Point
	dir     geom.Point
	area    float64
	mouth   float64
	tier    int
	made    int
}

// Candidates of a later tier are taken when none of an earlier one is left:
// what a tool cuts first, what needs a generous eye next, what no tool cuts last.
const (
	tierPlain = iota
	tierSkew  // mouths whose edges are not quite of one line
	tierLast  // corners that are not square or hold a skew mouth, vertices on a short skew line
)

// mend closes bites until nothing more can be explained, pockets of the convex
// hull last.
func (m *mender) mend() {
	if m.live == 0 {
		return
	}
	window := m.live
	if m.live >= mendAll {
		window = mendWindow
	}
	for {
		last := window >= m.live || 4*window*m.live > mendWork
		tier := tierPlain
		if last {
			tier = tierLast
		}
		m.proposeAll(window)
		m.drain(window, tier)
		if last || m.isSpent() || !m.hasInward() {
			break
		}
		window *= 4
		if m.live < mendAll {
			window = m.live
		}
	}
	m.closePockets()
}

func (m *mender) proposeAll(window int) {
	m.heap.reset()
	m.now++
	for k, n := 0, m.head; k < m.live; k, n = k+1, m.nodes[n].next {
		m.found(n, window, -1, m.heap.put)
	}
	m.heap.order()
}

// drain applies candidates up to the given tier, smallest first, and proposes
// new ones around each bite that was closed.
func (m *mender) drain(window, tier int) {
	for len(m.heap.ids) > 0 && m.heap.least().tier <= tier && !m.isSpent() {
		c := m.heap.pop()
		if !m.valid(c) || m.mouthCrosses(c) {
			continue
		}
		at := m.apply(c)
		n := at
		for k := 0; k < window && k < m.live; k++ {
			n = m.nodes[n].prev
		}
		for k := 0; k < 2*window+1 && k < m.live; k++ {
			m.found(n, window, m.now, m.heap.push)
			n = m.nodes[n].next
		}
	}
}

// valid tells whether nothing of the candidate has changed since it was found.
func (m *mender) valid(c candidate) bool {
	ok := func(k int) bool { return !m.nodes[k].dead && m.nodes[k].changed <= c.made }
	if c.i >= 0 && !ok(c.i) || c.j >= 0 && !ok(c.j) {
		return false
	}
	for k, steps := c.p, 0; ; k, steps = m.nodes[k].next, steps+1 {
		m.steps++
		if !ok(k) || steps > m.live {
			return false
		}
		if k == c.q {
			return true
		}
	}
}

// hasInward tells whether the outline still has an inward corner or arc.
func (m *mender) hasInward() bool {
	for k, n := 0, m.head; k < m.live; k, n = k+1, m.nodes[n].next {
		if m.inwardAfter(n) || m.isHollow(n) {
			return true
		}
	}
	return false
}

// isHollow tells whether side n is an arc bent into the metal.
func (m *mender) isHollow(n int) bool { return m.nodes[n].e.IsArc() && !m.nodes[n].e.CCW }

// turnAfter is the turn from side n to the next.
func (m *mender) turnAfter(n int) float64 { return m.nodes[n].turn }

// measureTurn measures the turn from side n to the next.
func (m *mender) measureTurn(n int) {
	m.nodes[n].turn = turnRad(m.nodes[n].end, m.nodes[m.nodes[n].next].start)
}

// measure measures the edge of side k.
func (m *mender) measure(k int) {
	n := &m.nodes[k]
	n.start, n.end = n.e.StartDir(), n.e.EndDir()
	n.sweep, n.segment = 0, 0
	if n.e.IsArc() {
		n.sweep, n.segment = n.e.Sweep(), segmentArea(n.e)
	}
}

// inwardAfter tells whether the corner after side n is an inward one. At the
// chord of a skew mouth a turn of as much as the mouth was skew does not count.
func (m *mender) inwardAfter(n int) bool {
	limit := inwardRad
	if m.nodes[n].virtual || m.nodes[m.nodes[n].next].virtual {
		limit += skewRad
	}
	return m.turnAfter(n) < -limit
}

// apply closes candidate c and returns the side where the mouth now is.
func (m *mender) apply(c candidate) int {
	m.now++
	id := len(m.bites)
	b := bite{kind: c.kind, a: c.a, b: c.b, v: c.v, dir: c.dir}
	p, q := &m.nodes[c.p], &m.nodes[c.q]
	b.first = p.first
	lastEnd := q.first + q.n
	before, after := p.prev, q.next
	// The corner before the run: rounded, or mended by an earlier bite whose
	// mouth ends there and which this one takes in.
	b.start = m.nodes[before].joint
	if k := b.start.bite; k > 0 && c.kind == mouthHull {
		// Two pockets may meet at a mended corner: neither takes it in, each
		// mouth ends at the metal.
		b.a, b.start = m.bites[k-1].b, joint{}
	} else if k > 0 {
		o := &m.bites[k-1]
		m.absorb(&b, id, k-1)
		b.first, b.a, b.start = o.first, o.a, o.start
	}
	b.end = q.joint
	if k := b.end.bite; k > 0 && c.kind == mouthHull {
		b.b, b.end = m.bites[k-1].a, joint{}
	} else if k > 0 {
		o := &m.bites[k-1]
		m.absorb(&b, id, k-1)
		lastEnd, b.b, b.end = o.first+o.n, o.b, o.end
	}
	if d := b.b.Sub(b.a); b.kind != mouthLine && d.Len() > 1e-9 {
		b.dir = d.Unit() // the mouth may have become longer
	}
	total := len(m.spans)
	b.n = ((lastEnd-b.first)%total + total) % total
	if b.n == 0 {
		b.n = total
	}
	for k := c.p; ; k = m.nodes[k].next {
		m.takeIn(&b, id, k, k != c.q)
		if k == c.q {
			break
		}
	}
	switch c.kind {
	case mouthArc:
		b.arc = m.nodes[c.i].e
	case mouthCorner:
		b.da, b.db = m.nodes[c.i].e.EndDir(), m.nodes[c.j].e.StartDir()
	}
	m.bites = append(m.bites, b)
	at := m.replace(c, id, before, after)
	// The mended side and its neighbours turn anew.
	k := m.nodes[m.nodes[at].prev].prev
	for range 5 {
		m.measureTurn(k)
		k = m.nodes[k].next
	}
	return at
}

// takeIn hands the bites on side k of a run to the run's bite: one with both
// ends within the side stays by itself, others become part of it.
func (m *mender) takeIn(b *bite, id, k int, corner bool) {
	n := &m.nodes[k]
	for _, x := range n.bites {
		o := &m.bites[x]
		if o.a.Dist(n.e.From) > lineMM && o.b.Dist(n.e.To) > lineMM {
			o.host = id + 1
			b.inner = append(b.inner, x)
		} else {
			m.absorb(b, id, x)
		}
	}
	if corner && n.joint.bite > 0 {
		m.absorb(b, id, n.joint.bite-1)
	}
}

// absorb makes bite x part of bite b, which will have index id.
func (m *mender) absorb(b *bite, id, x int) {
	o := &m.bites[x]
	o.into = id + 1
	for _, y := range o.inner {
		m.bites[y].host = id + 1
	}
	b.inner = append(b.inner, o.inner...)
}

// replace puts the mended piece in the place of the run.
func (m *mender) replace(c candidate, id, before, after int) int {
	for k := c.p; ; {
		next := m.nodes[k].next
		m.nodes[k].dead = true
		m.live--
		if k == c.q {
			break
		}
		k = next
	}
	total := len(m.spans)
	link := func(a, b int) { m.nodes[a].next, m.nodes[b].prev = b, a }
	touch := func(k int) { m.nodes[k].changed = m.now; m.head = k; m.measure(k) }
	switch {
	case c.kind == mouthSkew || c.kind == mouthHull:
		k := c.p
		q := m.nodes[c.q].joint
		m.nodes[k] = node{side: side{span: span{geom.LineEdge(c.a, c.b), m.bites[id].first, m.bites[id].n}}, virtual: true, bites: []int{id}}
		m.nodes[k].joint = q
		if c.kind == mouthSkew {
			m.nodes[k].joint.bite = 0 // taken in
		}
		m.live++
		link(before, k)
		link(k, after)
		touch(before)
		touch(after)
		touch(k)
		return k
	case c.kind == mouthCorner:
		i, j := &m.nodes[c.i], &m.nodes[c.j]
		i.e.To, j.e.From = c.v, c.v
		i.joint = joint{bite: id + 1}
		link(c.i, c.j)
		touch(c.i)
		touch(c.j)
	case c.j < 0:
		i := &m.nodes[c.i]
		i.e.To = c.b
		i.n = spanCount(i.first, m.nodes[c.q].first+m.nodes[c.q].n, total)
		i.joint = m.nodes[c.q].joint
		i.bites = append(i.bites, id)
		link(c.i, after)
		touch(c.i)
		m.mergeAfter(c.i)
	case c.i < 0:
		j := &m.nodes[c.j]
		j.e.From = c.a
		end := j.first + j.n
		j.first = m.nodes[c.p].first
		j.n = spanCount(j.first, end, total)
		j.bites = append(j.bites, id)
		link(before, c.j)
		touch(c.j)
		m.mergeAfter(before)
	case c.i == c.j: // a circle with one bite
		i := &m.nodes[c.i]
		p := geom.Point{X: i.e.Centre.X + i.e.Radius, Y: i.e.Centre.Y}
		i.e = geom.Edge{From: p, To: p, Centre: i.e.Centre, Radius: i.e.Radius, CCW: true}
		i.n = total
		i.bites = append(i.bites, id)
		i.joint = joint{}
		link(c.i, c.i)
		touch(c.i)
	default:
		i, j := &m.nodes[c.i], &m.nodes[c.j]
		if c.kind == mouthArc {
			i.e = joinArcs(i.e, j.e)
		} else {
			i.e = geom.LineEdge(i.e.From, j.e.To)
		}
		i.n = spanCount(i.first, j.first+j.n, total)
		i.joint = j.joint
		i.bites = append(pool(i.bites, j.bites), id)
		j.dead = true
		m.live--
		next := j.next
		if next == c.j || next == c.i {
			next = c.i
		}
		link(c.i, next)
		touch(c.i)
	}
	return m.head
}

// mergeAfter merges side i with the next if both are of one line: two runs of
// teeth that grew towards each other meet at a tooth's tip.
func (m *mender) mergeAfter(i int) {
	a := &m.nodes[i]
	k := a.next
	b := &m.nodes[k]
	if k == i || a.virtual || b.virtual || a.e.IsArc() || b.e.IsArc() || a.joint.kind != sharpCorner || a.joint.bite > 0 {
		return
	}
	if math.Abs(turnRad(a.e.EndDir(), b.e.StartDir())) > inwardRad || !sameSide(a.e, b.e) {
		return
	}
	a.e = geom.LineEdge(a.e.From, b.e.To)
	a.n = spanCount(a.first, b.first+b.n, len(m.spans))
	a.joint = b.joint
	a.bites = pool(a.bites, b.bites)
	b.dead = true
	m.live--
	a.next = b.next
	m.nodes[b.next].prev = i
	a.changed = m.now
	m.head = i
	m.measure(i)
}

// pool puts two lists together, the shorter at the end of the longer, so that
// long saws do not cost the square of their teeth.
func pool(a, b []int) []int {
	if len(a) < len(b) {
		a, b = b, a
	}
	return append(a, b...)
}

// spanCount is the number of spans from first up to end, modulo total.
func spanCount(first, end, total int) int {
	n := ((end-first)%total + total) % total
	if n == 0 {
		return total
	}
	return n
}

// joinArcs is the arc from a's start to b's end, both of one circle; the
// longer one's circle is taken.
func joinArcs(a, b geom.Edge) geom.Edge {
	ref := a
	if b.Length() > a.Length() {
		ref = b
	}
	return ringArc(ref.Centre, ref.Radius, a.From, b.To, true)
}
