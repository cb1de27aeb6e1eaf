package join

import (
	"cmp"
	"math"
	"slices"

	"burrside/features/geom"
)

// chain is a run of network edges that are on no contour.
type chain struct {
	halves  []int32
	ends    [2]int32 // vertices
	on      [2]int32 // contours, -1 none
	loose   [2]bool
	inside  int32
	divides bool
}

// chains collects the runs of edges off the contours, in geometric order.
func (w *work) chains(n *nester) []chain {
	rest := make([]int32, len(w.verts)) // edges off the contours at a vertex
	any := false
	for i := range w.edges {
		if e := &w.edges[i]; !e.dead && e.contour < 0 {
			rest[e.u]++
			rest[e.v]++
			any = true
		}
	}
	if !any {
		return nil
	}
	slices.SortFunc(w.shared, compareTwo)
	// A run ends where it meets a contour or another run. It goes on through
	// the rim of a hole that it crosses: a bend line over a hole is one line.
	stop := func(v int32) bool {
		if rest[v] != 2 || w.at[v] >= 0 {
			return true
		}
		l := w.anchor[v]
		return l >= 0 && (w.loopOf[l] < 0 || n.shapes[w.loopOf[l]].depth%2 == 0)
	}
	done := make([]bool, len(w.edges))
	var out []chain
	walk := func(h int32) {
		c := chain{}
		for {
			e := &w.edges[h>>1]
			done[h>>1] = true
			c.halves = append(c.halves, h)
			if w.b.ended() {
				break
			}
			v := e.end(h ^ 1)
			if stop(v) {
				break
			}
			next := int32(-1)
			for _, k := range w.adj.at(v) {
				if f := &w.edges[k>>1]; f.contour < 0 && !f.dead && k != h^1 {
					next = k
				}
			}
			if next < 0 || done[next>>1] {
				break
			}
			h = next
		}
		w.finishChain(&c)
		out = append(out, c)
	}
	for i := range w.edges {
		if e := &w.edges[i]; done[i] || e.dead || e.contour >= 0 {
			continue
		} else if stop(e.u) {
			walk(int32(2 * i))
		} else if stop(e.v) {
			walk(int32(2*i + 1))
		}
	}
	for i := range w.edges { // what is left runs round without a stop
		if e := &w.edges[i]; !done[i] && !e.dead && e.contour < 0 {
			walk(int32(2 * i))
		}
	}
	for i := range out {
		if w.b.ended() {
			return nil
		}
		c := &out[i]
		c.inside = w.aroundEdge(n, c.halves[0])
		if k := len(c.halves) - 1; k > 0 && c.inside >= 0 {
			// Where tool marks lie over each other its two ends may differ: the
			// outer one holds the chain.
			if o := w.aroundEdge(n, c.halves[k]); o < 0 || n.shapes[o].area > n.shapes[c.inside].area {
				c.inside = o
			}
		}
		for k, v := range c.ends {
			c.on[k] = w.contourOf(v, c.inside)
			c.loose[k] = c.on[k] < 0 && rest[v] == 1
		}
	}
	slices.SortFunc(out, func(p, q chain) int {
		if w.b.ended() {
			return 0
		}
		return w.compareChains(&p, &q)
	})
	w.findDividers(out, len(n.shapes))
	return out
}

func (w *work) aroundEdge(n *nester, h int32) int32 {
	p := w.edges[h>>1].Mid()
	return n.around(p, geom.BoxOf(p), 0, -1)
}

// finishChain turns the chain so that its lower, then left end comes first.
func (w *work) finishChain(c *chain) {
	f, l := c.halves[0], c.halves[len(c.halves)-1]
	c.ends = [2]int32{w.edges[f>>1].end(f), w.edges[l>>1].end(l ^ 1)}
	d := geom.ComparePlace(w.verts[c.ends[0]], w.verts[c.ends[1]])
	if d == 0 {
		d = comparePoint(w.verts[c.ends[0]], w.verts[c.ends[1]])
	}
	if d == 0 {
		d = geom.ComparePlace(w.edges[f>>1].Mid(), w.edges[l>>1].Mid())
	}
	if d > 0 {
		slices.Reverse(c.halves)
		for i := range c.halves {
			c.halves[i] ^= 1
		}
		c.ends[0], c.ends[1] = c.ends[1], c.ends[0]
	}
}

func (w *work) compareChains(p, q *chain) int {
	for k := range p.ends {
		if c := geom.ComparePlace(w.verts[p.ends[k]], w.verts[q.ends[k]]); c != 0 {
			return c
		}
	}
	if c := cmp.Compare(len(p.halves), len(q.halves)); c != 0 {
		return c
	}
	for k := range p.halves {
		a, b := w.edges[p.halves[k]>>1].along(p.halves[k]), w.edges[q.halves[k]>>1].along(q.halves[k])
		if c := compareEdges(&a, &b); c != 0 {
			return c
		}
	}
	return 0
}

// findDividers marks the chains that part the inside of a contour. In the graph
// whose nodes are the contours and the places where chains meet, those are the
// ones that lie on a cycle: take one away and its ends still hang together.
func (w *work) findDividers(cs []chain, contours int) {
	links := make([][2]int32, len(cs))
	set := newUnion(contours) // contours that touch at a vertex are one node
	for _, t := range w.ties {
		if a, b := w.loopOf[t[0]], w.loopOf[t[1]]; a >= 0 && b >= 0 {
			set.join(a, b)
		}
	}
	for i := range cs {
		for k := range 2 {
			links[i][k] = int32(contours) + cs[i].ends[k]
			if cs[i].on[k] >= 0 {
				links[i][k] = set.root(cs[i].on[k])
			}
		}
	}
	cycle := onCycles(contours+len(w.verts), links)
	for i := range cs {
		cs[i].divides = cycle[i] && cs[i].inside >= 0
	}
}

// putChains fills in the dividers and the chains.
func (w *work) putChains(r *Result, cs []chain, src *sourceArena) {
	for i := range cs {
		c := &cs[i]
		ch := Chain{OnContour: [2]int{int(c.on[0]), int(c.on[1])}, Loose: c.loose, Inside: int(c.inside)}
		ch.Pieces = make([]Piece, 0, len(c.halves))
		for _, h := range c.halves {
			if w.b.ended() {
				return
			}
			e := &w.edges[h>>1]
			ch.Pieces = append(ch.Pieces, Piece{Edge: e.along(h), Sources: src.of(e.src), Style: e.style})
		}
		if c.divides {
			r.Dividers = append(r.Dividers, Divider{Chain: ch, Contour: int(c.inside)})
		} else {
			r.Chains = append(r.Chains, ch)
		}
	}
}

// gaps lists, for the chains with loose ends, the nearest other loose end.
func (w *work) gaps(r *Result, cs []chain) {
	// Ends further apart than their chains are long have nothing to do with each
	// other.
	type end struct {
		p      geom.Point
		chain  int // of the result
		other  int // the other end of the same chain if loose, else -1
		length float64
	}
	var ends []end
	k := 0
	for i := range cs {
		c := &cs[i]
		if c.divides {
			continue
		}
		n := len(ends)
		length := 0.0
		for _, h := range c.halves {
			length += w.edges[h>>1].Length()
		}
		for j := range 2 {
			if c.loose[j] {
				ends = append(ends, end{w.verts[c.ends[j]], k, -1, length})
			}
		}
		if len(ends) == n+2 {
			ends[n].other, ends[n+1].other = n+1, n
		}
		k++
	}
	if len(ends) < 2 {
		return
	}
	pts := make([]geom.Edge, len(ends))
	for i := range ends {
		pts[i] = geom.LineEdge(ends[i].p, ends[i].p)
	}
	x := geom.NewIndex(pts, 0)
	best := make([]int, len(ends))
	for i := range ends {
		if w.b.ended() {
			return
		}
		// The run's own other end counts only when nothing else is nearer: a
		// single line has no gap between its ends.
		id, _, _, _ := x.NearestFunc(pts[i], math.Inf(1), func(id int) bool {
			return id != i && (id != ends[i].other || len(r.Chains[ends[i].chain].Pieces) > 1)
		})
		best[i] = id
	}
	for i, o := range best {
		if o < 0 || best[o] == i && o < i {
			continue // told from the other side
		}
		if d := ends[i].p.Dist(ends[o].p); d >= ends[i].length || d >= ends[o].length {
			continue
		}
		g := Gap{From: ends[i].p, To: ends[o].p, SizeMM: ends[i].p.Dist(ends[o].p), Chain: ends[i].chain}
		r.Gaps = append(r.Gaps, g)
	}
	slices.SortStableFunc(r.Gaps, func(a, b Gap) int {
		if c := cmp.Compare(math.Round(a.SizeMM*1e3), math.Round(b.SizeMM*1e3)); c != 0 {
			return c
		}
		return geom.ComparePlace(a.From, b.From)
	})
}
