package join

import (
	"slices"

	"burrside/features/geom"
)

// rigid tells whether the edge belongs to a loop that stays as it is.
func (b *base) rigid(i int32) bool {
	l := b.edges[i].loop
	return l >= 0 && !b.loops[l].demoted
}

// demoteOverlaps drops near copies, and gives the loops that overlap
// something, or themselves, to the arrangement.
func (b *base) demoteOverlaps() {
	for _, c := range b.copies {
		keep, drop := &b.edges[c.i], &b.edges[c.k]
		if keep.dead || drop.dead {
			continue
		}
		b.absorb(keep, drop)
		b.note(Note{Code: "duplicate-merged", At: drop.Mid(), SizeMM: drop.Length(), Sources: b.sources(keep.src)})
	}
	for _, c := range b.covers {
		b.cover(c)
	}
	if len(b.copies) > 0 || len(b.covers) > 0 {
		for l := range b.loops {
			b.demoteBroken(&b.loops[l])
		}
	}
	selfNote := int32(-1)
	for _, x := range b.crosses {
		l := b.edges[x.i].loop
		if l < 0 || l != b.edges[x.k].loop || b.edges[x.i].dead || b.edges[x.k].dead {
			continue
		}
		b.loops[l].demoted = true
		if l != selfNote { // once for each loop in a row
			b.note(Note{Code: "self-crossing", At: x.at, Sources: b.pairSources(x.i, x.k)})
			selfNote = l
		}
	}
	for _, t := range b.touches {
		l := b.edges[t.edge].loop
		if l < 0 || l != b.edges[t.other].loop || b.loops[l].demoted || b.edges[t.edge].dead || b.edges[t.other].dead {
			continue
		}
		b.loops[l].demoted = true
		b.note(Note{Code: "self-touching", At: b.verts[t.vert], Sources: b.pairSources(t.edge, t.other)})
	}
}

func (b *base) pairSources(i, k int32) []int32 {
	s := append(slices.Clone(b.sources(b.edges[i].src)), b.sources(b.edges[k].src)...)
	slices.Sort(s)
	return slices.Compact(s)
}

func (b *base) cover(c cover) {
	e, f := &b.edges[c.i], &b.edges[c.k]
	if e.dead || f.dead {
		return
	}
	if e.IsCircle() || f.IsCircle() {
		// Whatever lies on a full circle is part of it.
		if !e.IsCircle() {
			e, f = f, e
		}
		code := "overlap-merged"
		if f.IsCircle() {
			code = "duplicate-merged"
		}
		at, size := f.Mid(), f.Length()
		b.absorb(e, f)
		b.note(Note{Code: code, At: at, SizeMM: size, Sources: b.sources(e.src)})
		return
	}
	for _, l := range [2]int32{e.loop, f.loop} {
		if l >= 0 {
			b.loops[l].demoted = true
		}
	}
}

// demoteBroken takes away a loop of which edges have gone.
func (b *base) demoteBroken(l *loop) {
	for _, h := range b.walk[l.start:l.end] {
		if b.edges[h>>1].dead {
			l.demoted = true
			return
		}
	}
}

// loopRing is the ring of a loop as it was walked.
func (b *base) loopRing(l int32) geom.Ring {
	hs := b.walk[b.loops[l].start:b.loops[l].end]
	r := make(geom.Ring, len(hs))
	for i, h := range hs {
		r[i] = b.edges[h>>1].along(h)
	}
	return r
}

// along is the edge as run through from the half-edge's end.
func (e *bedge) along(h int32) geom.Edge {
	if h&1 == 0 {
		return e.Edge
	}
	return e.Edge.Reverse()
}

// demoteOuter gives the loops to the arrangement to which something is
// attached from outside at two places or more, with nothing else round it: then
// the outline goes round both. What is attached inside are dividers, and the
// loop stays. It tells whether any was.
func (w *work) demoteOuter() bool {
	if !w.anyAnchor {
		return false
	}
	// Sub-networks between anchors: edges joined at vertices without anchor.
	set := newUnion(len(w.edges))
	for v := range w.verts {
		if w.anchor[v] >= 0 {
			continue
		}
		first := int32(-1)
		for _, h := range w.adj.at(int32(v)) {
			if w.edges[h>>1].spur {
				continue
			}
			if first < 0 {
				first = h >> 1
			} else {
				set.join(first, h>>1)
			}
		}
	}
	type tie struct{ sub, loop, vert, edge int32 }
	var ties []tie
	for v := range w.verts {
		l := w.anchor[v]
		if l < 0 {
			continue
		}
		for _, h := range w.adj.at(int32(v)) {
			if !w.edges[h>>1].spur {
				ties = append(ties, tie{set.root(h >> 1), l, int32(v), h >> 1})
			}
		}
	}
	slices.SortFunc(ties, func(p, q tie) int {
		if p.sub != q.sub {
			return int(p.sub) - int(q.sub)
		}
		if p.loop != q.loop {
			return int(p.loop) - int(q.loop)
		}
		return int(p.vert) - int(q.vert)
	})
	index := make([]ringIndex, len(w.b.loops))
	changed := false
	for i := 0; i < len(ties); {
		k := i
		for k < len(ties) && ties[k].sub == ties[i].sub {
			k++
		}
		outside, twice := true, int32(-1)
		for j := i; j < k && outside; j++ {
			t := ties[j]
			if j > i && ties[j-1].loop == t.loop {
				if ties[j-1].vert != t.vert {
					twice = t.loop
				}
				continue
			}
			x := &index[t.loop]
			if !x.prepared {
				x.build(w.b.loopRing(t.loop))
			}
			outside = !x.inside(w.edges[t.edge].Mid())
		}
		if outside && twice >= 0 {
			for j := i; j < k; j++ {
				if j > i && ties[j-1].loop == ties[j].loop && ties[j-1].vert != ties[j].vert {
					w.b.loops[ties[j].loop].demoted = true
					changed = true
				}
			}
		}
		i = k
	}
	return changed
}

// union is a union-find over numbers; the root is always the least member, so
// that it does not depend on the order of joining.
type union struct{ up []int32 }

func newUnion(n int) *union {
	u := &union{make([]int32, n)}
	for i := range u.up {
		u.up[i] = int32(i)
	}
	return u
}

func (u *union) root(i int32) int32 {
	for u.up[i] != i {
		u.up[i] = u.up[u.up[i]]
		i = u.up[i]
	}
	return i
}

func (u *union) join(i, k int32) {
	i, k = u.root(i), u.root(k)
	if i < k {
		u.up[k] = i
	} else {
		u.up[i] = k
	}
}
