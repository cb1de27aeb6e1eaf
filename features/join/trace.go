package join

import (
	"cmp"
	"math"
	"slices"

	"burrside/features/geom"
)

// tracedContour is a simple ring of half-edges of the network.
type tracedContour struct {
	halves []int32
	area   float64
	face   bool // some vertex has more than two edges
}

// traceContours finds the outer way round of each block of the network (and
// its bounded faces): half-edges ordered about each vertex, each face walked
// with itself on the left, and cut into simple rings where it comes back to a
// vertex. A ring that runs clockwise goes round a block from outside.
func (w *work) traceContours() {
	next := w.order()
	if w.b.check() != nil {
		return
	}
	done := make([]bool, 2*len(w.edges))
	where := make([]int32, len(w.verts)) // place on the stack + 1
	w.at = make([]int32, len(w.verts))
	for i := range w.at {
		w.at[i] = -1
	}
	var stack []int32
	for start := range done {
		if w.b.ended() {
			return
		}
		if done[start] || w.edges[start>>1].dead || w.edges[start>>1].spur {
			continue
		}
		stack = stack[:0]
		h := int32(start)
		for !done[h] {
			done[h] = true
			e := &w.edges[h>>1]
			u, v := e.end(h), e.end(h^1)
			where[u] = int32(len(stack)) + 1
			stack = append(stack, h)
			if k := where[v]; k > 0 {
				w.ring(stack[k-1:])
				for _, g := range stack[k-1:] {
					where[w.edges[g>>1].end(g)] = 0
				}
				stack = stack[:k-1]
			}
			h = next[h]
		}
		for _, g := range stack { // nothing is left of a closed walk
			where[w.edges[g>>1].end(g)] = 0
			w.broken = true
		}
	}
}

// verify notes when what was traced cannot be: the cells of a planar graph are
// as many as Euler's formula says, and fill its blocks.
func (w *work) verify() {
	if len(w.edges) == 0 {
		return
	}
	set := newUnion(len(w.verts))
	live := make([]bool, len(w.verts))
	edges, verts, parts := 0, 0, 0
	var at geom.Point
	for i := range w.edges {
		if w.b.ended() {
			return
		}
		if e := &w.edges[i]; !e.dead && !e.spur {
			edges++
			set.join(e.u, e.v)
			live[e.u], live[e.v] = true, true
			at = e.From
		}
	}
	for v := range live {
		if live[v] {
			verts++
			if set.root(int32(v)) == int32(v) {
				parts++
			}
		}
	}
	cells, blocks := 0.0, 0.0
	for i := range w.cells {
		cells += w.cells[i].area
	}
	for i := range w.contours {
		blocks += w.contours[i].area
	}
	if w.broken || len(w.cells) != edges-verts+parts || math.Abs(cells-blocks) > 1e-6*(1+blocks) {
		w.b.note(Note{Code: "tracing-failed", At: at, SizeMM: math.Abs(cells - blocks)})
	}
}

// ring keeps a simple ring: clockwise ones are contours, the others cells. A
// run there and back over one edge is none.
func (w *work) ring(halves []int32) {
	if len(halves) == 2 && halves[0]>>1 == halves[1]>>1 {
		return
	}
	area := 0.0
	o := w.verts[w.edges[halves[0]>>1].end(halves[0])]
	for _, h := range halves {
		e := w.edges[h>>1].along(h)
		area += ringTerm(&e, o)
	}
	c := tracedContour{halves: slices.Clone(halves), area: area}
	for _, h := range halves {
		if w.isJunction(w.edges[h>>1].end(h)) {
			c.face = true
			break
		}
	}
	if area >= 0 {
		w.cells = append(w.cells, c)
		return
	}
	// Run it the other way.
	slices.Reverse(c.halves)
	for i := range c.halves {
		c.halves[i] ^= 1
	}
	c.area = -area
	w.contours = append(w.contours, c)
	w.claim(int32(len(w.contours) - 1))
}

// ringTerm is the edge's share of a ring's area about o.
func ringTerm(e *geom.Edge, o geom.Point) float64 {
	t := e.From.Sub(o).Cross(e.To.Sub(o)) / 2
	if e.Radius > 0 {
		a := e.Sweep()
		t += e.Radius * e.Radius / 2 * (a - math.Sin(a))
	}
	return t
}

// isJunction tells whether more than two edges that are no spurs meet at a
// vertex.
func (w *work) isJunction(v int32) bool {
	n := 0
	for _, h := range w.adj.at(v) {
		if !w.edges[h>>1].spur {
			if n++; n > 2 {
				return true
			}
		}
	}
	return false
}

// order gives for each half-edge the next one of its face: at the far vertex,
// the one before its twin counter-clockwise.
func (w *work) order() []int32 {
	next := make([]int32, 2*len(w.edges))
	type out struct {
		d    geom.Point // direction a little way out
		k    float64
		len  float64
		half int32
	}
	var outs []out
	for v := range w.verts {
		if w.b.ended() {
			return next
		}
		outs = outs[:0]
		reach := math.Inf(1)
		for _, h := range w.adj.at(int32(v)) {
			e := &w.edges[h>>1]
			if e.spur {
				continue
			}
			outs = append(outs, out{half: h})
			if e.Radius > 0 {
				reach = min(reach, e.Length()/2, e.Radius)
			} else {
				reach = min(reach, e.From.Dist(e.To)/2)
			}
		}
		switch len(outs) {
		case 0:
			continue
		case 1:
			next[outs[0].half^1] = outs[0].half
			continue
		case 2:
			next[outs[0].half^1] = outs[1].half
			next[outs[1].half^1] = outs[0].half
			continue
		}
		// Tangents alone do not tell a line from the arc that leaves along it,
		// and are blurred by snapping. The direction to the point at a common
		// distance does, as edges do not cross on the way there: half of the
		// shortest edge.
		for i := range outs {
			e := w.edges[outs[i].half>>1].along(outs[i].half)
			t := e.StartDir()
			if e.Radius > 0 { // a chord of length c lies asin(c/2r) off the tangent
				s := reach / (2 * e.Radius)
				c := math.Sqrt(1 - float64(s*s))
				if !e.CCW {
					s = -s
				}
				t = geom.Point{X: float64(t.X*c) - float64(t.Y*s), Y: float64(t.X*s) + float64(t.Y*c)}
			}
			outs[i].d, outs[i].k, outs[i].len = t, e.Curvature(), e.Length()
		}
		slices.SortFunc(outs, func(p, q out) int {
			if w.b.ended() {
				return 0
			}
			if hp, hq := upper(p.d), upper(q.d); hp != hq {
				return cmp.Compare(hp, hq)
			}
			if c := p.d.Cross(q.d); c != 0 {
				if c > 0 {
					return -1
				}
				return 1
			}
			if c := cmp.Compare(p.k, q.k); c != 0 {
				return c
			}
			if c := cmp.Compare(p.len, q.len); c != 0 {
				return c
			}
			return cmp.Compare(p.half, q.half)
		})
		for i := range outs {
			next[outs[(i+1)%len(outs)].half^1] = outs[i].half
		}
	}
	return next
}

// upper is 0 for directions in [0, pi), 1 for the rest.
func upper(d geom.Point) int {
	if d.Y > 0 || d.Y == 0 && d.X > 0 {
		return 0
	}
	return 1
}
