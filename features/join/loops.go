package join

import (
	"cmp"
	"slices"
)

// loop is a closed run of edges that is a contour as it stands.
type loop struct {
	start, end int32 // half-edges in base.walk
	demoted    bool  // its edges take part in the arrangement after all
}

// findLoops finds the circles, the closed entities whose edges form one simple
// cycle, and the cycles of edges whose ends meet in pairs.
func (b *base) findLoops() {
	b.loops = b.loops[:0]
	b.openCircles()
	b.groupLoops()
	b.pairLoops()
}

func (b *base) addLoop(halves []int32) {
	id := int32(len(b.loops))
	s := int32(len(b.walk))
	for _, h := range halves {
		b.edges[h>>1].loop = id
	}
	b.walk = append(b.walk, halves...)
	b.loops = append(b.loops, loop{start: s, end: int32(len(b.walk))})
}

// openCircles makes a loop of each full circle: it has no vertex of its own
// that anything could join.
func (b *base) openCircles() {
	for i := range b.edges {
		if b.edges[i].IsCircle() {
			b.addLoop([]int32{int32(2 * i)})
		}
	}
}

func (b *base) groupLoops() {
	var list []int32
	for i := range b.edges {
		if e := &b.edges[i]; e.group >= 0 && e.loop < 0 {
			list = append(list, int32(i))
		}
	}
	if len(list) == 0 {
		return
	}
	slices.SortFunc(list, func(p, q int32) int {
		if b.ended() {
			return 0
		}
		if c := cmp.Compare(b.edges[p].group, b.edges[q].group); c != 0 {
			return c
		}
		return cmp.Compare(p, q)
	})
	// The two half-edges of the group at each vertex.
	slot := make([][2]int32, len(b.verts))
	count := make([]int32, len(b.verts))
	for i := 0; i < len(list); {
		k := i
		for k < len(list) && b.edges[list[k]].group == b.edges[list[i]].group {
			k++
		}
		b.cycles(list[i:k], slot, count, true)
		i = k
	}
}

func (b *base) pairLoops() {
	var list []int32
	for i := range b.edges {
		if b.ended() {
			return
		}
		if b.edges[i].loop < 0 {
			list = append(list, int32(i))
		}
	}
	slot := make([][2]int32, len(b.verts))
	count := make([]int32, len(b.verts))
	b.cycles(list, slot, count, false)
}

// cycles makes loops of the edges that form cycles without a junction; with
// whole only if all of them together form one.
func (b *base) cycles(list []int32, slot [][2]int32, count []int32, whole bool) {
	for _, i := range list {
		e := &b.edges[i]
		for k, v := range [2]int32{e.u, e.v} {
			if count[v] < 2 {
				slot[v][count[v]] = 2*i + int32(k)
			}
			count[v]++
		}
	}
	var run []int32
	for _, i := range list {
		if b.ended() {
			return
		}
		if b.edges[i].loop >= 0 {
			continue
		}
		e := &b.edges[i]
		if count[e.u] != 2 || count[e.v] != 2 {
			continue
		}
		run = append(run[:0], 2*i)
		v, ok := e.v, false
		last := 2*i + 1 // the half-edge at v of the edge that came in
		for {
			if v == e.u {
				ok = true
				break
			}
			if count[v] != 2 {
				break
			}
			next := slot[v][0]
			if next == last {
				next = slot[v][1]
			}
			run = append(run, next)
			last = next ^ 1
			v = b.edges[last>>1].end(last)
		}
		if ok && (!whole || len(run) == len(list)) {
			b.addLoop(run)
		} else if !ok {
			// Walked into a junction or an end, so no vertex on the way is on a
			// cycle: marked, they are not walked through again from each edge.
			for _, h := range run {
				count[b.edges[h>>1].end(h)] = 3
			}
		}
		if whole {
			break
		}
	}
	for _, i := range list {
		count[b.edges[i].u], count[b.edges[i].v] = 0, 0
	}
}

// end is the vertex at the half-edge's own end.
func (e *bedge) end(h int32) int32 {
	if h&1 == 0 {
		return e.u
	}
	return e.v
}
