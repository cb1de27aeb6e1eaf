package join

import (
	"cmp"
	"math"
	"slices"

	"burrside/features/geom"
)

const (
	// bridgeOfEdge: a bridge is at most this part of the shorter of the two
	// edges that it joins; chords of one bend count as one edge.
	bridgeOfEdge = 0.3
	// chordTurn: edges that turn by less are chords of one bend; a circle of
	// 12 chords turns by 30 degrees at each.
	chordTurn = 31 * math.Pi / 180
	// clearOf: no third loose end may be nearer than this many gaps.
	clearOf = 3.0
	// tiny: a gap under this is closed by moving the end of a long line rather
	// than by a piece of its own, whose direction would mean nothing.
	tiny = 0.05
)

// gapper joins loose ends.
type gapper struct {
	w     *work
	loose []int32 // vertices, in canonical order
	other []int32 // by vertex: the far end of its run when that is loose too, else -1
	half  []int32 // by vertex: the half-edge at a loose end, -1 not loose
	cell  float64
	keys  []cellKey
}

type cellKey struct {
	x, y int64
	v    int32
}

// bridgeGaps closes gaps between loose ends: first runs that nearly close on
// themselves, then pairs that are each other's nearest, then ends that stop
// just short of the side of an edge. The error is ctx's.
func (w *work) bridgeGaps() error {
	b := w.b
	if b.bridge <= 0 {
		return nil
	}
	g := &gapper{w: w, cell: b.bridge}
	g.collect()
	if len(g.loose) == 0 {
		return nil
	}
	g.closeRuns()
	for range 8 {
		if err := b.check(); err != nil {
			return err
		}
		if !g.joinPairs() {
			break
		}
	}
	g.reportUnclear()
	w.refresh()
	if err := b.check(); err != nil {
		return err
	}
	g.joinSides()
	w.refresh()
	return b.check()
}

// collect finds the loose ends and the far ends of their runs.
func (g *gapper) collect() {
	w := g.w
	g.other = make([]int32, len(w.verts))
	g.half = make([]int32, len(w.verts))
	for v := range w.verts {
		g.other[v], g.half[v] = -1, -1
		if w.anchor[v] < 0 && w.adj.degree(int32(v)) == 1 {
			g.loose = append(g.loose, int32(v))
			g.half[v] = w.adj.at(int32(v))[0]
		}
	}
	slices.SortFunc(g.loose, func(p, q int32) int {
		if w.b.ended() {
			return 0
		}
		if c := geom.ComparePlace(w.verts[p], w.verts[q]); c != 0 {
			return c
		}
		if c := comparePoint(w.verts[p], w.verts[q]); c != 0 {
			return c
		}
		return cmp.Compare(p, q)
	})
	for _, v := range g.loose {
		if g.other[v] >= 0 {
			continue
		}
		if o := w.farEnd(v, g.half[v]); g.half[o] >= 0 {
			g.other[v], g.other[o] = o, v
		}
	}
}

// farEnd follows a run from the half-edge at v to where it ends: a loose end,
// an anchor or a junction.
func (w *work) farEnd(v, h int32) int32 {
	for {
		o := w.edges[h>>1].end(h ^ 1)
		if w.anchor[o] >= 0 || w.adj.degree(o) != 2 || o == v {
			return o
		}
		hs := w.adj.at(o)
		if hs[0] == h^1 {
			h = hs[1]
		} else {
			h = hs[0]
		}
	}
}

// index sorts the ends that are still loose into cells.
func (g *gapper) index() {
	g.loose = slices.DeleteFunc(g.loose, func(v int32) bool { return g.half[v] < 0 })
	g.keys = g.keys[:0]
	for _, v := range g.loose {
		p := g.w.verts[v]
		g.keys = append(g.keys, cellKey{int64(math.Floor(p.X / g.cell)), int64(math.Floor(p.Y / g.cell)), v})
	}
	slices.SortStableFunc(g.keys, func(p, q cellKey) int {
		if g.w.b.ended() {
			return 0
		}
		if c := cmp.Compare(p.y, q.y); c != 0 {
			return c
		}
		return cmp.Compare(p.x, q.x)
	})
}

// crowded is how many ends are looked at round one: more than that near each
// other cannot be told apart by distance anyway.
const crowded = 256

// nearest gives the two nearest other loose ends within reach, not counting
// skip; -1 and infinity when there is none.
func (g *gapper) nearest(v, skip int32, reach float64) (first int32, d1, d2 float64) {
	first, d1, d2 = -1, math.Inf(1), math.Inf(1)
	p := g.w.verts[v]
	r := int64(math.Ceil(reach / g.cell))
	cx, cy := int64(math.Floor(p.X/g.cell)), int64(math.Floor(p.Y/g.cell))
	seen := 0
	for y := cy - r; y <= cy+r; y++ {
		k, _ := slices.BinarySearchFunc(g.keys, cellKey{cx - r, y, 0}, func(p, q cellKey) int {
			if c := cmp.Compare(p.y, q.y); c != 0 {
				return c
			}
			return cmp.Compare(p.x, q.x)
		})
		for ; k < len(g.keys) && g.keys[k].y == y && g.keys[k].x <= cx+r; k++ {
			o := g.keys[k].v
			if o == v || o == skip || g.half[o] < 0 {
				continue
			}
			if seen++; seen > crowded || g.w.b.ended() {
				return -1, 0, 0
			}
			d := p.Dist(g.w.verts[o])
			switch {
			case d > reach:
			case d < d1:
				first, d1, d2 = o, d, d1
			case d < d2:
				d2 = d
			}
		}
	}
	return first, d1, d2
}

// shorter is the length of the shorter of the edges at two loose ends.
func (g *gapper) shorter(a, b int32) float64 { return min(g.smooth(a), g.smooth(b)) }

// smooth is the length of the edge at a loose end with the chords of one bend
// that follow it, as far as it matters for a bridge.
func (g *gapper) smooth(v int32) float64 {
	w := g.w
	h, sum := g.half[v], 0.0
	for range 256 {
		e := w.edges[h>>1].along(h)
		sum += e.Length()
		o := w.edges[h>>1].end(h ^ 1)
		if sum >= w.b.bridge/bridgeOfEdge || w.anchor[o] >= 0 || w.adj.degree(o) != 2 {
			break
		}
		next := w.adj.at(o)[0]
		if next == h^1 {
			next = w.adj.at(o)[1]
		}
		d, n := e.EndDir(), w.edges[next>>1].along(next).StartDir()
		if math.Abs(math.Atan2(d.Cross(n), d.Dot(n))) > chordTurn {
			break
		}
		h = next
	}
	return sum
}

type pairUp struct {
	a, b int32
	gap  float64
}

func (g *gapper) sortPairs(ps []pairUp) {
	w := g.w
	slices.SortFunc(ps, func(p, q pairUp) int {
		if w.b.ended() {
			return 0
		}
		// Gaps that differ by rounding only are equal.
		if c := cmp.Compare(math.Round(p.gap*1e6), math.Round(q.gap*1e6)); c != 0 {
			return c
		}
		if c := geom.ComparePlace(w.verts[p.a], w.verts[q.a]); c != 0 {
			return c
		}
		return comparePoint(w.verts[p.a], w.verts[q.a])
	})
}

// closeRuns closes each run whose own ends lie within the bridge, unless
// another loose end is less than half as far.
func (g *gapper) closeRuns() {
	g.index()
	var list []pairUp
	for _, a := range g.loose {
		o := g.other[a]
		if o < 0 || geom.ComparePlace(g.w.verts[a], g.w.verts[o]) > 0 ||
			geom.ComparePlace(g.w.verts[a], g.w.verts[o]) == 0 && a > o {
			continue
		}
		gap := g.w.verts[a].Dist(g.w.verts[o])
		if gap > g.w.b.bridge || gap > bridgeOfEdge*g.shorter(a, o) || g.half[a]>>1 == g.half[o]>>1 && g.w.edges[g.half[a]>>1].Radius <= 0 {
			continue
		}
		_, da, _ := g.nearest(a, o, gap)
		_, db, _ := g.nearest(o, a, gap)
		if gap <= 2*min(da, db) {
			list = append(list, pairUp{a, o, gap})
		}
	}
	g.sortPairs(list)
	for _, p := range list {
		if g.half[p.a] >= 0 && g.half[p.b] >= 0 {
			g.join(p)
		}
	}
}

// joinPairs joins ends that are each other's nearest with no third end near.
func (g *gapper) joinPairs() bool {
	g.index()
	bridge := g.w.b.bridge
	var list []pairUp
	for _, a := range g.loose {
		o, d, second := g.nearest(a, -1, clearOf*bridge)
		if o < 0 || d > bridge || second <= clearOf*d || d > bridgeOfEdge*g.shorter(a, o) || g.half[a]>>1 == g.half[o]>>1 {
			continue
		}
		back, _, second := g.nearest(o, -1, clearOf*bridge)
		if back != a || second <= clearOf*d || geom.ComparePlace(g.w.verts[a], g.w.verts[o]) > 0 ||
			geom.ComparePlace(g.w.verts[a], g.w.verts[o]) == 0 && a > o {
			continue
		}
		list = append(list, pairUp{a, o, d})
	}
	g.sortPairs(list)
	for _, p := range list {
		g.join(p)
	}
	return len(list) > 0
}

// reportUnclear notes the places where three or more loose ends lie too near
// each other to say which belong together.
func (g *gapper) reportUnclear() {
	g.index()
	var noted []geom.Point
	for _, a := range g.loose {
		o, d, second := g.nearest(a, -1, clearOf*g.w.b.bridge)
		if d > g.w.b.bridge || o >= 0 && second > clearOf*d {
			continue
		}
		p := g.w.verts[a]
		if n := len(noted); n > 0 && noted[n-1].Dist(p) <= clearOf*g.w.b.bridge {
			continue
		}
		noted = append(noted, p)
		g.w.b.note(Note{Code: "junction-unclear", At: p, SizeMM: d, Sources: g.w.b.sources(g.w.edges[g.half[a]>>1].src)})
	}
}

// join closes the gap of a pair.
func (g *gapper) join(p pairUp) {
	w := g.w
	ha, hb := g.half[p.a], g.half[p.b]
	ea, eb := &w.edges[ha>>1], &w.edges[hb>>1]
	pa, pb := w.verts[p.a], w.verts[p.b]
	src := append(slices.Clone(w.b.sources(ea.src)), w.b.sources(eb.src)...)
	slices.Sort(src)
	w.b.note(Note{Code: "gap-closed", At: midPoint(pa, pb), SizeMM: p.gap, Sources: slices.Compact(src)})
	switch at, ok := meeting(ea, ha, eb, hb, w.b.bridge); {
	case ok:
		w.moveEnd(ha, p.a, at)
		w.moveEnd(hb, p.a, at)
	case p.gap < tiny && ea.Radius <= 0 && longFor(ea, p.gap) && (eb.Radius > 0 || ea.Length() >= eb.Length()):
		w.moveEnd(ha, p.b, pb)
	case p.gap < tiny && eb.Radius <= 0 && longFor(eb, p.gap):
		w.moveEnd(hb, p.a, pa)
	default:
		e := bedge{Edge: geom.LineEdge(pa, pb), u: p.a, v: p.b, src: -1, style: min(ea.style, eb.style), group: -1, loop: -1}
		if e.u > e.v {
			e.Edge, e.u, e.v = e.Edge.Reverse(), e.v, e.u
		}
		w.edges = append(w.edges, wedge{bedge: e, contour: -1, bridge: true})
	}
	// The two runs are one now.
	oa, ob := g.other[p.a], g.other[p.b]
	g.half[p.a], g.half[p.b] = -1, -1
	if oa == p.b {
		return
	}
	if oa >= 0 {
		g.other[oa] = ob
	}
	if ob >= 0 {
		g.other[ob] = oa
	}
}

// longFor tells whether a line is long enough to hide a move of its end: the
// turn stays under 0.3 degrees.
func longFor(e *wedge, gap float64) bool { return e.Length() >= 200*gap }

// meeting is where two lines meet when drawn on, if that is within the bridge
// of both loose ends and leaves most of both.
func meeting(a *wedge, ha int32, b *wedge, hb int32, bridge float64) (geom.Point, bool) {
	if ha>>1 == hb>>1 {
		return geom.Point{}, false
	}
	switch {
	case a.Radius > 0 && b.Radius > 0:
		return geom.Point{}, false
	case a.Radius > 0:
		return meetingArc(b.along(hb).Reverse(), a.along(ha).Reverse(), bridge)
	case b.Radius > 0:
		return meetingArc(a.along(ha).Reverse(), b.along(hb).Reverse(), bridge)
	}
	la, lb := a.along(ha).Reverse(), b.along(hb).Reverse() // run towards the loose ends
	d, e := la.To.Sub(la.From), lb.To.Sub(lb.From)
	den := d.Cross(e)
	// Lines under 3 degrees apart meet too far away or anywhere; one without
	// length has no direction.
	if den == 0 || math.Abs(den) < 0.05*d.Len()*e.Len() {
		return geom.Point{}, false
	}
	at := la.From.Add(d.Mul(lb.From.Sub(la.From).Cross(e) / den))
	if at.Dist(la.To) > bridge || at.Dist(lb.To) > bridge ||
		at.Sub(la.From).Dot(d) < 0.5*d.Dot(d) || at.Sub(lb.From).Dot(e) < 0.5*e.Dot(e) {
		return geom.Point{}, false
	}
	return at, true
}

// meetingArc is meeting for a line and an arc that both run towards their loose
// ends: where the line meets the arc's circle.
func meetingArc(l, a geom.Edge, bridge float64) (geom.Point, bool) {
	d := l.EndDir()
	if d == (geom.Point{}) {
		return geom.Point{}, false // a line without length has no direction
	}
	foot := l.To.Add(d.Mul(a.Centre.Sub(l.To).Dot(d)))
	h2 := float64(a.Radius*a.Radius) - float64(foot.Dist(a.Centre)*foot.Dist(a.Centre))
	if h2 <= 0 || a.IsCircle() {
		return geom.Point{}, false
	}
	h := math.Sqrt(h2)
	at, other := foot.Add(d.Mul(h)), foot.Add(d.Mul(-h))
	if other.Dist(a.To) < at.Dist(a.To) {
		at = other
	}
	spoke := at.Sub(a.Centre)
	// Under 3 degrees from the tangent it meets anywhere.
	if math.Abs(spoke.Dot(d)) < 0.05*a.Radius || at.Dist(l.To) > bridge || at.Dist(a.To) > bridge || at.Dist(a.To) > 0.1*a.Length() ||
		at.Sub(l.From).Dot(d) < 0.5*l.Length() {
		return geom.Point{}, false
	}
	return at, true
}

// moveEnd puts the end of the half-edge at vertex v, which is at p.
func (w *work) moveEnd(h, v int32, p geom.Point) {
	w.verts[v] = p
	e := &w.edges[h>>1]
	if h&1 == 0 {
		e.u = v
	} else {
		e.v = v
	}
	e.Edge = refit(e.Edge, w.verts[e.u], w.verts[e.v])
}

// joinSides brings ends that stop within the bridge of the inside of an edge
// to that edge, for runs that have no loose end left then.
func (g *gapper) joinSides() {
	g.loose = slices.DeleteFunc(g.loose, func(v int32) bool { return g.half[v] < 0 })
	done := make([]bool, len(g.w.verts))
	for _, a := range g.loose {
		if g.w.b.ended() {
			return
		}
		if done[a] || g.half[a] < 0 {
			continue
		}
		o := g.other[a]
		sa, oka := g.side(a)
		if !oka {
			continue
		}
		if o < 0 {
			g.attach(a, sa)
			continue
		}
		done[o] = true
		if !sa.rigid && g.inRun(a, sa.edge) {
			// The run comes back to its own side: a loop with a tail.
			g.attach(a, sa)
			continue
		}
		if so, ok := g.side(o); ok && !so.rigid && g.inRun(o, so.edge) {
			g.attach(o, so)
			continue
		} else if ok {
			// Both on one edge: the second is found again after the cut.
			g.attach(a, sa)
			if so, ok := g.side(o); ok {
				g.attach(o, so)
			}
		}
	}
}

// inRun tells whether an edge belongs to the run that ends at v. Of a run that
// was cut since the adjacency was built only the way to the cut is known.
func (g *gapper) inRun(v, edge int32) bool {
	w := g.w
	h := g.half[v]
	for range w.edges {
		if h>>1 == edge {
			return true
		}
		o := w.edges[h>>1].end(h ^ 1)
		if int(o) >= len(w.adj.start)-1 || w.anchor[o] >= 0 || w.adj.degree(o) != 2 || o == v {
			return false
		}
		hs := w.adj.at(o)
		if hs[0] == h^1 {
			h = hs[1]
		} else {
			h = hs[0]
		}
	}
	return false
}

// side is the foot of a loose end on the nearest edge's inside.
type side struct {
	edge  int32 // of the network, or of the base when rigid
	rigid bool
	foot  geom.Point
	gap   float64
}

func (g *gapper) side(v int32) (side, bool) {
	w, b := g.w, g.w.b
	own := g.half[v] >> 1
	p := w.verts[v]
	reach := min(b.bridge, bridgeOfEdge*w.edges[own].Length())
	line := w.edges[own].along(g.half[v]).Reverse()
	best := side{gap: math.Inf(1)}
	try := func(e *geom.Edge, id int32, rigid bool) {
		foot := e.Nearest(p)
		d := foot.Dist(p)
		if d > reach || !e.IsCircle() && (foot.Dist(e.From) <= b.snap || foot.Dist(e.To) <= b.snap) {
			return
		}
		if d > best.gap+1e-6 || math.Abs(d-best.gap) <= 1e-6 && geom.ComparePlace(foot, best.foot) >= 0 {
			return
		}
		best = side{id, rigid, foot, d}
		// Straight on along the line if that is no further than the bridge.
		if line.Radius <= 0 {
			far := line.To.Add(line.EndDir().Mul(reach))
			x := geom.Meet(geom.LineEdge(line.To, far), *e, 1e-9)
			for i := range x.N {
				if x.At[i].Dist(p) <= reach {
					best.foot = x.At[i]
				}
			}
		}
	}
	near := w.edges[own]
	seen := 0 // some come twice
	b.grid.near(geom.BoxOf(p).Grow(reach), func(i int32) {
		e := &b.edges[i]
		if seen++; e.dead || seen > 4*crowded || b.ended() {
			return
		}
		if b.rigid(i) {
			try(&e.Edge, i, true)
			return
		}
		for k := w.first[i]; k < w.first[i+1]; k++ {
			for j := k; j >= 0; j = w.edges[j].more - 1 {
				if b.ended() {
					return
				}
				f := &w.edges[j]
				// Neighbours of the own edge are near by nature.
				if f.dead || j == own || f.u == near.u || f.u == near.v || f.v == near.u || f.v == near.v {
					continue
				}
				try(&f.Edge, j, false)
			}
		}
	})
	return best, !math.IsInf(best.gap, 1) && seen <= 4*crowded
}

func (g *gapper) attach(v int32, s side) {
	w := g.w
	h := g.half[v]
	w.b.note(Note{Code: "gap-closed", At: midPoint(w.verts[v], s.foot), SizeMM: w.verts[v].Dist(s.foot), Sources: w.b.sources(w.edges[h>>1].src)})
	e := &w.edges[h>>1]
	if e.Radius > 0 && s.gap > w.b.snap {
		// An arc keeps its shape; a short straight piece joins it.
		u := w.newVert(s.foot)
		g.half, g.other = append(g.half, -1), append(g.other, -1)
		n := bedge{Edge: geom.LineEdge(w.verts[v], s.foot), u: v, v: u, src: -1, style: e.style, group: -1, loop: -1}
		w.edges = append(w.edges, wedge{bedge: n, contour: -1, bridge: true})
		g.half[v] = -1
		v = u
	} else {
		w.moveEnd(h, v, s.foot)
		g.half[v] = -1
	}
	if s.rigid {
		w.setAnchor(v, w.b.edges[s.edge].loop, true)
		return
	}
	// Cut the edge in two; the first half keeps the place in the list.
	f := &w.edges[s.edge]
	second := *f
	end := f.v
	keep := f.Edge
	f.Edge = refitPiece(keep, w.verts[f.u], s.foot)
	f.v = v
	second.Edge = refitPiece(keep, s.foot, w.verts[end])
	second.u, second.v = v, end
	f.more = int32(len(w.edges)) + 1                // second has taken over the list so far
	if h := g.half[end]; h >= 0 && h>>1 == s.edge { // that end is loose itself
		g.half[end] = int32(2*len(w.edges)) + 1
	}
	w.edges = append(w.edges, second)
}
