package join

import (
	"cmp"
	"slices"

	"burrside/features/geom"
)

// result puts everything into its final form and order.
func (w *work) result() (*Result, error) {
	b := w.b
	shapes := w.shapes()
	if err := b.check(); err != nil {
		return nil, err
	}
	w.markCrossings(shapes)
	n := newNester(b, shapes)
	if b.check() == nil {
		n.nest()
	}
	if err := b.check(); err != nil {
		return nil, err
	}
	r := &Result{SnapMM: b.snap, BridgeMM: max(0, b.bridge-limitSlack)}
	c := w.chains(n)
	if err := b.check(); err != nil {
		return nil, err
	}
	comp := w.components(shapes, c)

	total := 0
	for i := range shapes {
		total += len(shapes[i].ring)
	}
	pieces := make([]Piece, 0, total)
	src := b.newSourceArena()
	r.Contours = make([]Contour, len(shapes))
	for i := range shapes {
		s := &shapes[i]
		start := len(pieces)
		for k, h := range s.edges {
			if b.ended() {
				return nil, b.err
			}
			var e *bedge
			if s.loop >= 0 {
				e = &b.edges[h>>1]
			} else {
				e = &w.edges[h>>1].bedge
			}
			pieces = append(pieces, Piece{Edge: s.ring[k], Sources: src.of(e.src), Style: e.style})
		}
		ct := Contour{
			Pieces: pieces[start:len(pieces):len(pieces)], Parent: int(s.parent), Depth: int(s.depth),
			Component: comp[i], Face: s.face, ToolMark: s.mark,
		}
		for _, x := range s.cross {
			ct.Crosses = append(ct.Crosses, int(x))
		}
		r.Contours[i] = ct
	}
	w.putChains(r, c, src)
	w.gaps(r, c)
	if err := b.check(); err != nil {
		return nil, err
	}
	r.Notes = b.notes
	for i := range r.Notes {
		slices.Sort(r.Notes[i].Sources)
		r.Notes[i].Sources = slices.Compact(r.Notes[i].Sources)
	}
	slices.SortStableFunc(r.Notes, func(p, q Note) int {
		if c := cmp.Compare(p.Code, q.Code); c != 0 {
			return c
		}
		if c := geom.ComparePlace(p.At, q.At); c != 0 {
			return c
		}
		return cmp.Compare(q.SizeMM, p.SizeMM)
	})
	return r, nil
}

// sourceArena hands out the source lists from one slice.
type sourceArena struct {
	b    *base
	flat []int32
}

func (b *base) newSourceArena() *sourceArena {
	a := &sourceArena{b: b, flat: make([]int32, len(b.nodes))}
	for i, n := range b.nodes {
		a.flat[i] = n.a
	}
	return a
}

func (a *sourceArena) of(node int32) []int32 {
	if node < 0 {
		return nil
	}
	if a.b.nodes[node].b < 0 {
		return a.flat[node : node+1 : node+1]
	}
	return a.b.sources(node)
}

// shapes gathers the contours, sorted.
func (w *work) shapes() []shape {
	b := w.b
	total, count := 0, len(w.contours)
	for l := range b.loops {
		if !b.loops[l].demoted {
			total += int(b.loops[l].end - b.loops[l].start)
			count++
		}
	}
	for i := range w.contours {
		total += len(w.contours[i].halves)
	}
	arena := make(geom.Ring, 0, total)
	shapes := make([]shape, 0, count)
	for l := range b.loops {
		lp := &b.loops[l]
		if lp.demoted {
			continue
		}
		if b.ended() {
			return nil
		}
		hs := b.walk[lp.start:lp.end]
		s := len(arena)
		for _, h := range hs {
			arena = append(arena, b.edges[h>>1].along(h))
		}
		sh := newShape(arena[s:len(arena):len(arena)], hs[:len(hs):len(hs)])
		sh.loop = int32(l)
		shapes = append(shapes, sh)
	}
	for i := range w.contours {
		t := &w.contours[i]
		s := len(arena)
		for _, h := range t.halves {
			arena = append(arena, w.edges[h>>1].along(h))
		}
		sh := newShape(arena[s:len(arena):len(arena)], slices.Clone(t.halves))
		sh.traced, sh.face = int32(i), t.face
		shapes = append(shapes, sh)
	}
	order := make([]int32, len(shapes))
	for i := range order {
		order[i] = int32(i)
	}
	slices.SortFunc(order, func(i, k int32) int {
		if b.ended() {
			return 0
		}
		if c := compareShapes(&shapes[i], &shapes[k]); c != 0 {
			return c
		}
		return cmp.Compare(i, k)
	})
	out := make([]shape, len(shapes))
	for i, k := range order {
		out[i] = shapes[k]
	}
	w.loopOf = make([]int32, len(b.loops))
	w.tracedOf = make([]int32, len(w.contours))
	for i := range w.loopOf {
		w.loopOf[i] = -1
	}
	for i := range out {
		if out[i].loop >= 0 {
			w.loopOf[out[i].loop] = int32(i)
		} else {
			w.tracedOf[out[i].traced] = int32(i)
		}
	}
	return out
}

// contourAt is the contour of the result on which a vertex lies: one that was
// traced through it, else the loop on which it is anchored; -1 none.
func (w *work) contourAt(v int32) int32 {
	if t := w.at[v]; t >= 0 {
		return w.tracedOf[t]
	}
	if l := w.anchor[v]; l >= 0 {
		return w.loopOf[l]
	}
	return -1
}

// markCrossings finds the closed contours that cross larger ones.
func (w *work) markCrossings(shapes []shape) {
	b := w.b
	type pair struct{ a, b int32 }
	var pairs []pair
	for _, x := range b.crosses {
		if x.just || !b.rigid(x.i) || !b.rigid(x.k) || b.edges[x.i].dead || b.edges[x.k].dead {
			continue
		}
		p, q := w.loopOf[b.edges[x.i].loop], w.loopOf[b.edges[x.k].loop]
		if p >= 0 && q >= 0 && p != q {
			pairs = append(pairs, pair{min(p, q), max(p, q)})
		}
	}
	// A vertex of one on the side of another: they cross if the one is seen on
	// both sides. And where a traced contour runs through a loop likewise.
	type side struct {
		on, other int32 // contours
		in        bool
	}
	var sides []side
	look := func(on, other int32, e geom.Edge) {
		if b.ended() {
			return
		}
		s := &shapes[on]
		if !s.index.prepared {
			s.index.build(s.ring)
		}
		// A little way along, so that nothing else is met on the way.
		p := e.At(min(0.5, 0.05/max(e.Length(), 1e-9)))
		sides = append(sides, side{on, other, s.index.inside(p)})
	}
	for _, t := range b.touches {
		e, o := &b.edges[t.edge], &b.edges[t.other]
		if e.dead || o.dead || !b.rigid(t.edge) || !b.rigid(t.other) || e.loop == o.loop {
			continue
		}
		d := o.Edge
		if o.v == t.vert {
			d = d.Reverse()
		}
		look(w.loopOf[e.loop], w.loopOf[o.loop], d)
	}
	for v := range w.verts {
		if w.anchor[v] < 0 || w.at[v] < 0 || !w.proper[v] {
			continue
		}
		for _, h := range w.adj.at(int32(v)) {
			if c := w.edges[h>>1].contour; c >= 0 {
				look(w.loopOf[w.anchor[v]], w.tracedOf[c], w.edges[h>>1].along(h))
			}
		}
	}
	slices.SortFunc(sides, func(p, q side) int {
		if b.ended() {
			return 0
		}
		if c := cmp.Compare(p.on, q.on); c != 0 {
			return c
		}
		return cmp.Compare(p.other, q.other)
	})
	for i := 0; i < len(sides); {
		k := i
		in, out := false, false
		for k < len(sides) && sides[k].on == sides[i].on && sides[k].other == sides[i].other {
			in, out = in || sides[k].in, out || !sides[k].in
			k++
		}
		if in && out {
			pairs = append(pairs, pair{min(sides[i].on, sides[i].other), max(sides[i].on, sides[i].other)})
		}
		i = k
	}
	slices.SortFunc(pairs, func(p, q pair) int {
		if b.ended() {
			return 0
		}
		if c := cmp.Compare(p.a, q.a); c != 0 {
			return c
		}
		return cmp.Compare(p.b, q.b)
	})
	for i, p := range pairs {
		if i > 0 && p == pairs[i-1] {
			continue
		}
		// The smaller is the tool mark; of equal ones the later in the order.
		small, large := p.a, p.b
		if shapes[p.b].area <= shapes[p.a].area+1e-3 {
			small, large = p.b, p.a
		}
		shapes[small].mark = true
		shapes[small].cross = append(shapes[small].cross, large)
	}
	for i := range shapes {
		slices.Sort(shapes[i].cross)
	}
}

// components numbers what hangs together.
func (w *work) components(shapes []shape, c []chain) []int {
	if len(w.edges) == 0 {
		set := newUnion(len(shapes))
		for i := range shapes {
			for _, x := range shapes[i].cross {
				set.join(int32(i), x)
			}
		}
		return set.number(len(shapes))
	}
	set := newUnion(len(shapes) + len(w.verts))
	vert := func(v int32) int32 { return int32(len(shapes)) + v }
	for i := range shapes {
		if shapes[i].traced >= 0 {
			for _, h := range shapes[i].edges {
				set.join(int32(i), vert(w.edges[h>>1].end(h)))
			}
		}
		for _, x := range shapes[i].cross {
			set.join(int32(i), x)
		}
	}
	for v := range w.verts {
		if k := w.contourAt(int32(v)); k >= 0 && w.adj.degree(int32(v)) > 0 {
			set.join(k, vert(int32(v)))
		}
	}
	for i := range c {
		for _, h := range c[i].halves {
			set.join(vert(w.edges[h>>1].end(h)), vert(w.edges[h>>1].end(h^1)))
		}
	}
	return set.number(len(shapes))
}

// number counts the sets of the first n members from 0 on.
func (u *union) number(n int) []int {
	number := make([]int, n)
	seen := make([]int32, n) // number + 1 by root; the root is the least member
	next := 0
	for i := range number {
		r := u.root(int32(i))
		if seen[r] == 0 {
			next++
			seen[r] = int32(next)
		}
		number[i] = int(seen[r]) - 1
	}
	return number
}

// faces gives the cells of the arrangement as contours; all are the pieces that
// the sources number.
func (w *work) faces(all []Piece) []Contour {
	var shapes []shape
	for i := range w.cells {
		t := &w.cells[i]
		r := make(geom.Ring, len(t.halves))
		for k, h := range t.halves {
			r[k] = w.edges[h>>1].along(h)
		}
		shapes = append(shapes, newShape(r, slices.Clone(t.halves)))
	}
	slices.SortFunc(shapes, func(a, b shape) int { return compareShapes(&a, &b) })
	out := make([]Contour, 0, len(shapes))
	for i := range shapes {
		s := &shapes[i]
		c := Contour{Parent: -1, Face: true}
		for k, h := range s.edges {
			e := &w.edges[h>>1]
			var src []int32
			for _, n := range w.b.sources(e.src) {
				src = append(src, all[n].Sources...)
			}
			slices.Sort(src)
			c.Pieces = append(c.Pieces, Piece{Edge: s.ring[k], Sources: slices.Compact(src), Style: e.style})
		}
		out = append(out, c)
	}
	return out
}
