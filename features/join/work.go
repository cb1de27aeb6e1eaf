package join

import (
	"cmp"
	"math"
	"slices"

	"burrside/features/geom"
)

// wedge is an edge of the network.
type wedge struct {
	bedge
	spur bool // leads nowhere: an end of its run is loose
	// contour is the traced contour that it is part of, -1 none.
	contour int32
	bridge  bool // not drawn: closes a gap
	// more is the piece that was cut off from this one while gaps were closed,
	// plus 1; 0 none.
	more int32
}

// work is the network: the edges that are no rigid loop, cut where they meet.
type work struct {
	b         *base
	verts     []geom.Point
	edges     []wedge
	first     []int32 // first[i]: first piece of base edge i
	adj       adjacency
	anchor    []int32 // rigid loop on which a vertex lies, -1 none
	proper    []bool  // the network runs through the loop there
	anyAnchor bool
	ties      [][2]int32 // loops with a vertex of the network in common

	contours []tracedContour
	cells    []tracedContour // bounded faces, for Faces
	broken   bool            // a walk round a face did not close
	at       []int32         // traced contour at a vertex, -1 none
	shared   [][2]int32      // vertex and further contour through it, sorted for the result
	loopOf   []int32         // contour of the result for each rigid loop
	tracedOf []int32         // and for each traced one
}

type cut struct {
	edge, vert int32
	t          float64
}

func newWork(b *base) *work {
	// A second try must not repeat the notes of the first.
	b.restoreNotes()
	network := false
	for i := range b.edges {
		if !b.edges[i].dead && !b.rigid(int32(i)) {
			network = true
			break
		}
	}
	if !network { // nothing but loops: the common case
		return &work{b: b, first: make([]int32, len(b.edges)+1), adj: adjacency{start: []int32{0}}}
	}
	w := &work{b: b, verts: slices.Clone(b.verts)}
	w.anchor = make([]int32, len(b.verts), len(b.verts)+2*len(b.crosses))
	for i := range w.anchor {
		w.anchor[i] = -1
	}
	w.proper = make([]bool, len(b.verts), len(b.verts)+2*len(b.crosses))
	for l := range b.loops {
		if lp := &b.loops[l]; !lp.demoted {
			for _, h := range b.walk[lp.start:lp.end] {
				if e := &b.edges[h>>1]; !e.IsCircle() && (w.anchor[e.end(h)] < 0 || w.anchor[e.end(h)] > int32(l)) {
					w.anchor[e.end(h)] = int32(l)
				}
			}
		}
	}
	cuts := w.findCuts()
	w.cutEdges(cuts)
	if b.check() == nil && len(cuts) > 0 {
		w.mergeOverlaps()
	}
	w.refresh()
	return w
}

func (w *work) setAnchor(v, loop int32, proper bool) {
	if l := w.anchor[v]; l >= 0 && l != loop {
		w.ties = append(w.ties, [2]int32{l, loop})
	}
	if w.anchor[v] < 0 || w.anchor[v] > loop {
		w.anchor[v] = loop
	}
	w.proper[v] = w.proper[v] || proper
}

func (w *work) newVert(p geom.Point) int32 {
	w.verts = append(w.verts, p)
	w.anchor = append(w.anchor, -1)
	w.proper = append(w.proper, false)
	return int32(len(w.verts) - 1)
}

func (w *work) findCuts() []cut {
	b := w.b
	var cuts []cut
	for _, t := range b.touches {
		if b.ended() {
			return nil
		}
		e, o := &b.edges[t.edge], &b.edges[t.other]
		if e.dead || o.dead {
			continue
		}
		er, or := b.rigid(t.edge), b.rigid(t.other)
		switch {
		case er && or:
		case er:
			w.setAnchor(t.vert, e.loop, true)
		default:
			cuts = append(cuts, cut{t.edge, t.vert, e.Param(b.verts[t.vert])})
			if or {
				w.setAnchor(t.vert, o.loop, true)
			}
		}
	}
	if len(b.crosses) == 0 {
		return cuts
	}
	s := newSnapper(b.snap, len(w.verts)+len(b.crosses))
	for _, p := range w.verts {
		s.found(p)
	}
	for _, x := range b.crosses {
		if b.ended() {
			return nil
		}
		e, f := &b.edges[x.i], &b.edges[x.k]
		if e.dead || f.dead {
			continue
		}
		er, fr := b.rigid(x.i), b.rigid(x.k)
		if er && fr {
			continue
		}
		v := s.find(x.at, -1)
		if v < 0 {
			v = s.found(x.at)
			w.newVert(x.at)
		}
		if !er {
			cuts = append(cuts, cut{x.i, v, e.Param(x.at)})
		} else {
			w.setAnchor(v, e.loop, !x.just)
		}
		if !fr {
			cuts = append(cuts, cut{x.k, v, f.Param(x.at)})
		} else {
			w.setAnchor(v, f.loop, !x.just)
		}
	}
	return cuts
}

// cutEdges makes the pieces.
func (w *work) cutEdges(cuts []cut) {
	b := w.b
	slices.SortFunc(cuts, func(p, q cut) int {
		if b.ended() {
			return 0
		}
		if p.edge != q.edge {
			return cmp.Compare(p.edge, q.edge)
		}
		if p.t != q.t {
			return cmp.Compare(p.t, q.t)
		}
		return cmp.Compare(p.vert, q.vert)
	})
	n := 0
	for i := range b.edges {
		if !b.edges[i].dead && !b.rigid(int32(i)) {
			n++
		}
	}
	w.edges = make([]wedge, 0, n+len(cuts))
	w.first = make([]int32, len(b.edges)+1)
	k := 0
	for i := range b.edges {
		if b.ended() {
			return
		}
		w.first[i] = int32(len(w.edges))
		s := k
		for k < len(cuts) && cuts[k].edge == int32(i) {
			k++
		}
		e := &b.edges[i]
		if e.dead || b.rigid(int32(i)) {
			continue
		}
		here := cuts[s:k]
		if e.IsCircle() {
			w.cutCircle(e, here)
			continue
		}
		u := e.u
		for _, c := range here {
			if c.vert == u || c.vert == e.v {
				continue
			}
			w.addPiece(e, u, c.vert)
			u = c.vert
		}
		w.addPiece(e, u, e.v)
	}
	w.first[len(b.edges)] = int32(len(w.edges))
}

func (w *work) addPiece(e *bedge, u, v int32) {
	if u == v {
		return
	}
	p := *e
	p.Edge = refitPiece(e.Edge, w.verts[u], w.verts[v])
	p.u, p.v = u, v
	if u > v {
		p.Edge, p.u, p.v = p.Edge.Reverse(), v, u
	}
	w.edges = append(w.edges, wedge{bedge: p, contour: -1})
}

// flatBow is the bow of an arc up to which its chord may stand for it: a tenth
// of the least snap.
const flatBow = 1e-4

// refitPiece is the part of an edge between two points that lie on it within
// snap.
func refitPiece(e geom.Edge, from, to geom.Point) geom.Edge {
	if e.Radius <= 0 {
		return geom.LineEdge(from, to)
	}
	p := e
	p.From, p.To = from, to
	off := max(math.Abs(from.Dist(e.Centre)-e.Radius), math.Abs(to.Dist(e.Centre)-e.Radius))
	if off <= 1e-9 {
		return p
	}
	if d := from.Dist(to); d < 1e-3*e.Radius {
		// Ends off the circle and near each other say nothing about its centre.
		// Without a bow to speak of the chord is the edge.
		if float64(d*d) <= 8*flatBow*e.Radius && math.Abs(p.Sweep()) < math.Pi {
			return geom.LineEdge(from, to)
		}
		return p
	}
	u := to.Sub(from).Unit()
	c := e.Centre.Sub(u.Mul(e.Centre.Sub(midPoint(from, to)).Dot(u)))
	return geom.ArcEdge(c, from, to, e.CCW)
}

// cutCircle cuts a circle at the vertices; with fewer than two also opposite
// its start and there, so that each piece has two ends.
func (w *work) cutCircle(e *bedge, cuts []cut) {
	var vs []int32
	for _, c := range cuts {
		if len(vs) == 0 || vs[len(vs)-1] != c.vert && vs[0] != c.vert {
			vs = append(vs, c.vert)
		}
	}
	switch len(vs) {
	case 0:
		vs = append(vs, w.newVert(e.From), w.newVert(opposite(e, e.From)))
	case 1:
		vs = append(vs, w.newVert(opposite(e, w.verts[vs[0]])))
	}
	for i, u := range vs {
		w.addPiece(e, u, vs[(i+1)%len(vs)])
	}
}

func opposite(e *bedge, p geom.Point) geom.Point {
	return e.Centre.Add(e.Centre.Sub(p).Unit().Mul(e.Radius))
}

func (w *work) mergeOverlaps() {
	flat := make([]bedge, len(w.edges))
	for i := range w.edges {
		flat[i] = w.edges[i].bedge
	}
	if w.b.mergeParallel(flat, len(w.verts), "overlap-merged") {
		for i := range flat {
			w.edges[i].bedge = flat[i]
		}
	}
}

// refresh builds the adjacency anew.
func (w *work) refresh() {
	a := adjacency{start: make([]int32, len(w.verts)+1), half: make([]int32, 2*len(w.edges))}
	for i := range w.edges {
		if e := &w.edges[i]; !e.dead {
			a.start[e.u]++
			a.start[e.v]++
		}
	}
	sum := int32(0)
	for i := range a.start {
		sum, a.start[i] = sum+a.start[i], sum
	}
	fill := slices.Clone(a.start)
	for i := range w.edges {
		e := &w.edges[i]
		if e.dead {
			continue
		}
		a.half[fill[e.u]] = int32(2 * i)
		fill[e.u]++
		a.half[fill[e.v]] = int32(2*i + 1)
		fill[e.v]++
	}
	w.adj = a
	w.anyAnchor = false
	for v := range w.anchor {
		if w.anchor[v] >= 0 && a.degree(int32(v)) > 0 {
			w.anyAnchor = true
			break
		}
	}
}

// prune marks the runs that end loose, from their ends inwards.
func (w *work) prune() {
	w.refresh()
	deg := make([]int32, len(w.verts))
	var queue []int32
	for v := range w.verts {
		deg[v] = int32(w.adj.degree(int32(v)))
		if deg[v] == 1 && w.anchor[v] < 0 {
			queue = append(queue, int32(v))
		}
	}
	for len(queue) > 0 {
		v := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		for _, h := range w.adj.at(v) {
			e := &w.edges[h>>1]
			if e.spur {
				continue
			}
			e.spur = true
			o := e.end(h ^ 1)
			deg[v]--
			if deg[o]--; deg[o] == 1 && w.anchor[o] < 0 {
				queue = append(queue, o)
			}
		}
	}
}
