package join

import (
	"cmp"
	"math"
	"slices"

	"burrside/features/geom"
)

// onCycles tells for each link of a graph whether it lies on a cycle; a link
// from a node to itself does. It is the search for bridges by depth first, with
// a stack of its own. Source: R. E. Tarjan, "A note on finding the bridges of a
// graph", Information Processing Letters 2 (1974), from memory.
func onCycles(nodes int, links [][2]int32) []bool {
	start := make([]int32, nodes+1)
	for _, l := range links {
		start[l[0]]++
		start[l[1]]++
	}
	sum := int32(0)
	for i := range start {
		sum, start[i] = sum+start[i], sum
	}
	at := make([]int32, sum) // 2*link + end
	fill := slices.Clone(start)
	for i, l := range links {
		for k, v := range l {
			at[fill[v]] = int32(2*i + k)
			fill[v]++
		}
	}
	cycle := make([]bool, len(links))
	seen := make([]int32, nodes)
	low := make([]int32, nodes)
	type frame struct{ v, next, in int32 }
	var stack []frame
	clock := int32(0)
	for root := range int32(nodes) {
		if seen[root] != 0 || start[root] == start[root+1] {
			continue
		}
		clock++
		seen[root], low[root] = clock, clock
		stack = append(stack[:0], frame{root, start[root], -1})
		for len(stack) > 0 {
			f := &stack[len(stack)-1]
			if f.next == start[f.v+1] {
				v, in := f.v, f.in
				stack = stack[:len(stack)-1]
				if in >= 0 {
					u := stack[len(stack)-1].v
					low[u] = min(low[u], low[v])
					cycle[in] = low[v] <= seen[u]
				}
				continue
			}
			x := at[f.next]
			f.next++
			c := x >> 1
			if c == f.in {
				continue
			}
			v := links[c][x&1^1]
			if seen[v] == 0 {
				clock++
				seen[v], low[v] = clock, clock
				stack = append(stack, frame{v, start[v], c})
				continue
			}
			cycle[c] = true
			low[f.v] = min(low[f.v], seen[v])
		}
	}
	return cycle
}

// dropCells takes back the traced contours that are only cells between
// dividers of a loop: those inside a rigid loop to which they are tied more
// than once. A loop counts as one node, as its rim ties everything on it
// together.
func (w *work) dropCells() {
	if !w.anyAnchor || len(w.contours) == 0 {
		return
	}
	loops := len(w.b.loops)
	var links [][2]int32
	tied := newUnion(loops)
	for _, t := range w.ties {
		tied.join(t[0], t[1])
	}
	node := func(v int32) int32 {
		if l := w.anchor[v]; l >= 0 {
			return tied.root(l)
		}
		return int32(loops) + v
	}
	for i := range w.edges {
		if e := &w.edges[i]; !e.dead && !e.spur {
			links = append(links, [2]int32{node(e.u), node(e.v)})
		}
	}
	cycle := onCycles(loops+len(w.verts), links)
	set := newUnion(loops + len(w.verts))
	for i, l := range links {
		if cycle[i] {
			set.join(l[0], l[1])
		}
	}
	// The loops that hang in the network, to be found by place.
	hung := make([]bool, loops)
	for v := range w.verts {
		if l := w.anchor[v]; l >= 0 && w.adj.degree(int32(v)) > 0 {
			hung[l] = true
		}
	}
	var members []int32
	var diagonals []geom.Edge
	index := make([]ringIndex, loops)
	for l := range hung {
		if !hung[l] || w.b.ended() {
			continue
		}
		r := w.b.loopRing(int32(l))
		x := &index[l]
		x.box, x.area = r.Bounds(), math.Abs(r.Area())
		members = append(members, int32(l))
		diagonals = append(diagonals, geom.LineEdge(x.box.Min, x.box.Max))
	}
	boxes := geom.NewIndex(diagonals, 0)
	kept := w.contours[:0]
	for i := range w.contours {
		c := &w.contours[i]
		cell := false
		h := c.halves[0]
		own := set.root(node(w.edges[h>>1].end(h)))
		for k := range boxes.Near(geom.BoxOf(w.edges[h>>1].Mid())) {
			l := members[k]
			x := &index[l]
			if w.b.ended() || !(x.area > c.area) || set.root(tied.root(l)) != own {
				continue
			}
			if !x.prepared {
				x.build(w.b.loopRing(l))
			}
			if w.within(c, x) {
				cell = true
				break
			}
		}
		if !cell {
			kept = append(kept, *c)
		}
	}
	if len(kept) == len(w.contours) {
		return
	}
	w.contours = kept
	for i := range w.edges {
		w.edges[i].contour = -1
	}
	for v := range w.at {
		w.at[v] = -1
	}
	w.shared = nil
	for i := range kept {
		w.claim(int32(i))
	}
}

// within tells whether all of a traced contour lies inside the ring; its edges
// are cut where they cross it.
func (w *work) within(c *tracedContour, x *ringIndex) bool {
	for _, h := range c.halves {
		if !x.inside(w.edges[h>>1].Mid()) {
			return false
		}
	}
	return true
}

// claim marks the edges and vertices of a traced contour.
func (w *work) claim(id int32) {
	for _, h := range w.contours[id].halves {
		w.edges[h>>1].contour = id
		if v := w.edges[h>>1].end(h); w.at[v] < 0 {
			w.at[v] = id
		} else {
			w.shared = append(w.shared, [2]int32{v, id})
		}
	}
}

// contourOf is contourAt, but of several contours that touch at the vertex the
// wanted one, else the first in the order of the result.
func (w *work) contourOf(v, wanted int32) int32 {
	best := w.contourAt(v)
	if w.at[v] < 0 || len(w.shared) == 0 || best == wanted {
		return best
	}
	k, _ := slices.BinarySearchFunc(w.shared, [2]int32{v, 0}, compareTwo)
	for ; k < len(w.shared) && w.shared[k][0] == v; k++ {
		c := w.tracedOf[w.shared[k][1]]
		if c == wanted {
			return c
		}
		best = min(best, c)
	}
	return best
}

func compareTwo(a, b [2]int32) int {
	if c := cmp.Compare(a[0], b[0]); c != 0 {
		return c
	}
	return cmp.Compare(a[1], b[1])
}
