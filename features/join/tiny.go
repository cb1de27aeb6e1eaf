package join

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// closeTiny joins loose ends that miss each other by less than tiny before
// anything is cut: an end that runs past its partner by a few micrometres along
// a tangent would otherwise be cut off there as a sliver of its own. Only pairs
// of each other's nearest count, with no third end near, on edges that are long
// beside the gap, and with ends that touch no other edge. It tells whether any
// was joined; what was found of touches is void then.
func (b *base) closeTiny() bool {
	if b.bridge <= 0 {
		return false
	}
	adj := newAdjacency(b.edges, len(b.verts))
	var loose, half []int32
	for v := range b.verts {
		if adj.degree(int32(v)) == 1 {
			loose, half = append(loose, int32(v)), append(half, adj.at(int32(v))[0])
		}
	}
	if len(loose) < 2 {
		return false
	}
	reach := min(tiny, b.bridge)
	s := newSnapper(clearOf*reach, len(loose))
	for _, v := range loose {
		s.found(b.verts[v])
	}
	near := make([]int32, len(loose))
	gap := make([]float64, len(loose))
	for i, v := range loose {
		if b.ended() {
			return false
		}
		near[i] = -1
		if k, d, second := s.nearest(b.verts[v], int32(i)); k >= 0 && d <= reach && second > clearOf*d {
			near[i], gap[i] = k, d
		}
	}
	elsewhere := b.touching(half)
	var list []pairUp
	for i, k := range near {
		if k < int32(i) || near[k] != int32(i) || half[i]>>1 == half[k]>>1 || elsewhere[i] || elsewhere[k] {
			continue
		}
		if gap[i] > tinyOfEdge*min(b.edges[half[i]>>1].Length(), b.edges[half[k]>>1].Length()) {
			continue
		}
		list = append(list, pairUp{half[i], half[k], gap[i]})
	}
	for _, p := range list {
		b.joinTiny(p)
	}
	// Turned only now: the half-edges of the list tell ends by their place.
	for _, p := range list {
		for _, h := range [2]int32{p.a, p.b} {
			if e := &b.edges[h>>1]; e.u > e.v {
				e.Edge, e.u, e.v = e.Edge.Reverse(), e.v, e.u
			}
		}
	}
	return len(list) > 0
}

// tinyOfEdge is the longest gap that closeTiny closes, as a part of the shorter
// of the two edges.
const tinyOfEdge = 0.1

// touching tells for each loose half-edge whether its end touches an edge other
// than the one whose loose end lies near.
func (b *base) touching(half []int32) []bool {
	at := map[int32]int{} // vertex to its place in half
	for i, h := range half {
		at[b.edges[h>>1].end(h)] = i
	}
	out := make([]bool, len(half))
	for _, t := range b.touches {
		i, ok := at[t.vert]
		if !ok {
			continue
		}
		// The edge that it touches may be its partner, near that one's own end.
		e := &b.edges[t.edge]
		p := b.verts[t.vert]
		out[i] = out[i] || min(p.Dist(e.From), p.Dist(e.To)) > tiny
	}
	return out
}

// joinTiny brings the ends of two half-edges to one place.
func (b *base) joinTiny(p pairUp) {
	e, f := &b.edges[p.a>>1], &b.edges[p.b>>1]
	u, v := e.end(p.a), f.end(p.b)
	pu, pv := b.verts[u], b.verts[v]
	src := append(slices.Clone(b.sources(e.src)), b.sources(f.src)...)
	slices.Sort(src)
	b.note(Note{Code: "gap-closed", At: midPoint(pu, pv), SizeMM: p.gap, Sources: slices.Compact(src)})
	at := midPoint(pu, pv)
	switch x, ok := meeting(&wedge{bedge: *e}, p.a, &wedge{bedge: *f}, p.b, tiny); {
	case ok:
		at = x
	case e.Radius > 0 && f.Radius <= 0:
		at = pu // an arc keeps its shape
	case e.Radius <= 0 && f.Radius > 0:
		at = pv
	}
	keep := min(u, v)
	b.verts[keep] = at
	for _, h := range [2]int32{p.a, p.b} {
		g := &b.edges[h>>1]
		if h&1 == 0 {
			g.u = keep
		} else {
			g.v = keep
		}
		g.Edge = refit(g.Edge, b.verts[g.u], b.verts[g.v])
	}
}

// forgetMeets undoes findLoops and findMeets.
func (b *base) forgetMeets() {
	for i := range b.edges {
		b.edges[i].loop = -1
	}
	b.walk, b.loops = b.walk[:0], b.loops[:0]
	b.touches, b.crosses, b.covers, b.copies = nil, nil, nil, nil
}

// nearest is the cluster within snap that is nearest to p, not counting skip,
// how far it is, and how far the second is; -1 and infinity when there is none.
func (s *snapper) nearest(p geom.Point, skip int32) (best int32, first, second float64) {
	fx, fy := p.X*s.inv, p.Y*s.inv
	x0, x1 := int64(math.Floor(fx-0.5)), int64(math.Floor(fx+0.5))
	y0, y1 := int64(math.Floor(fy-0.5)), int64(math.Floor(fy+0.5))
	best, first, second = -1, math.Inf(1), math.Inf(1)
	seen := 0
	for iy := y0; iy <= y1; iy++ {
		for ix := x0; ix <= x1; ix++ {
			for c := s.head[s.bucket(ix, iy)]; c >= 0; c = s.next[c] {
				if c == skip || c == best { // two cells may share a bucket
					continue
				}
				if seen++; seen > crowded {
					return -1, math.Inf(1), math.Inf(1)
				}
				switch d := p.Dist(s.pts[c]); {
				case d > s.snap:
				case d < first || d == first && c < best:
					best, first, second = c, d, first
				case d < second:
					second = d
				}
			}
		}
	}
	return best, first, second
}
