package join

import (
	"cmp"
	"math"
	"slices"

	"burrside/features/geom"
)

// snapper finds the cluster of a point: a hash of cells 2 snap wide, chained
// in flat slices. Clusters are told apart by distance alone, so that two cells
// in one bucket do no harm.
type snapper struct {
	snap, inv float64
	head      []int32
	next      []int32
	mask      uint64
	pts       []geom.Point
}

func newSnapper(snap float64, n int) *snapper {
	size := 16
	for size < 2*n {
		size *= 2
	}
	s := &snapper{snap: snap, inv: 1 / (2 * snap), head: make([]int32, size), mask: uint64(size - 1)}
	for i := range s.head {
		s.head[i] = -1
	}
	s.pts = make([]geom.Point, 0, n)
	s.next = make([]int32, 0, n)
	return s
}

func (s *snapper) bucket(ix, iy int64) uint64 {
	h := uint64(ix)*0x9E3779B97F4A7C15 ^ uint64(iy)*0xC2B2AE3D27D4EB4F
	h ^= h >> 29
	h *= 0xBF58476D1CE4E5B9
	return (h ^ h>>32) & s.mask
}

// find is the cluster that p joins: one founded exactly at p, else the first
// founded within snap; -1 when there is none. The cluster avoid is passed over.
func (s *snapper) find(p geom.Point, avoid int32) int32 {
	fx, fy := p.X*s.inv, p.Y*s.inv
	x0, x1 := int64(math.Floor(fx-0.5)), int64(math.Floor(fx+0.5))
	y0, y1 := int64(math.Floor(fy-0.5)), int64(math.Floor(fy+0.5))
	best := int32(-1)
	snap2 := s.snap * s.snap
	for iy := y0; iy <= y1; iy++ {
		for ix := x0; ix <= x1; ix++ {
			for c := s.head[s.bucket(ix, iy)]; c >= 0; c = s.next[c] {
				q := s.pts[c]
				if q == p {
					if c != avoid {
						return c
					}
					continue
				}
				dx, dy := p.X-q.X, p.Y-q.Y
				if float64(dx*dx)+float64(dy*dy) <= snap2 && c != avoid && (best < 0 || c < best) {
					best = c
				}
			}
		}
	}
	return best
}

func (s *snapper) found(p geom.Point) int32 {
	c := int32(len(s.pts))
	s.pts = append(s.pts, p)
	k := s.bucket(int64(math.Floor(p.X*s.inv)), int64(math.Floor(p.Y*s.inv)))
	s.next = append(s.next, s.head[k])
	s.head[k] = c
	return c
}

// snapEnds gives each end its vertex. In canonical order each end joins the
// first cluster whose first point is within snap, else founds one: no chaining,
// and no order of the file. An edge longer than snap keeps two vertices.
func (b *base) snapEnds() {
	s := newSnapper(b.snap, len(b.edges)+16)
	place := func(p geom.Point, avoid int32) int32 {
		if c := s.find(p, avoid); c >= 0 {
			return c
		}
		return s.found(p)
	}
	for i := range b.edges {
		if b.ended() {
			return
		}
		e := &b.edges[i]
		e.u = place(e.From, -1)
		if e.IsCircle() {
			e.v = e.u
			continue
		}
		avoid := int32(-1)
		if d := e.From.Dist(e.To); d > b.snap && d <= 2*b.snap || e.Radius > 0 && d <= 2*b.snap && e.Length() > b.snap {
			avoid = e.u
		}
		e.v = place(e.To, avoid)
	}
	b.verts = s.pts
	for i := range b.edges {
		e := &b.edges[i]
		if e.u == e.v {
			continue // a circle stays where it is; nothing is dropped later
		}
		e.Edge = refit(e.Edge, b.verts[e.u], b.verts[e.v])
		if e.u > e.v { // so that parallel edges lie alike
			e.Edge, e.u, e.v = e.Edge.Reverse(), e.v, e.u
		}
	}
}

// refit moves the ends of an edge. An arc's centre is moved to where both new
// ends are equally far, as little as can be; so its radius changes by less
// than the ends moved. Keeping the radius instead would throw the centre of a
// half circle far out for a move of a micrometre.
func refit(e geom.Edge, from, to geom.Point) geom.Edge {
	if e.From == from && e.To == to {
		return e
	}
	if e.Radius <= 0 {
		return geom.LineEdge(from, to)
	}
	u := to.Sub(from).Unit()
	if u == (geom.Point{}) {
		return geom.LineEdge(from, to)
	}
	mid := midPoint(from, to)
	c := e.Centre.Sub(u.Mul(e.Centre.Sub(mid).Dot(u)))
	if from.Dist(to) < 1e-3*e.Radius {
		// Nearly straight or nearly closed: the chord says little about where
		// the centre lies.
		c = e.Centre
		r := (from.Dist(c) + to.Dist(c)) / 2
		return geom.Edge{From: from, To: to, Centre: c, Radius: r, CCW: e.CCW}
	}
	return geom.ArcEdge(c, from, to, e.CCW)
}

// coarseSnap is the snap that the coordinates call for: twice their step when
// 99 % of the ends of lines are multiples of 0.01 or 0.001 (mm or inch) and no
// coarser, or when all are exactly float32, and only if loose ends find a
// partner so. At most a fifth of the shortest hundredth of the edges.
func (b *base) coarseSnap() float64 {
	adj := newAdjacency(b.edges, len(b.verts))
	var loose []geom.Point
	for v := range b.verts {
		if adj.degree(int32(v)) == 1 {
			loose = append(loose, b.verts[v])
		}
	}
	if len(loose) < 2 {
		return b.snap
	}
	q := b.coordStep(&adj)
	want := min(2*q, coarsest)
	if want <= b.snap {
		return b.snap
	}
	s := newSnapper(want, len(loose))
	partner := false
	for _, p := range loose {
		if b.ended() {
			return b.snap
		}
		if s.find(p, -1) >= 0 {
			partner = true
			break
		}
		s.found(p)
	}
	if !partner {
		return b.snap
	}
	lengths := make([]float64, 0, len(b.edges))
	for i := range b.edges {
		if e := &b.edges[i]; e.u != e.v {
			lengths = append(lengths, e.Length())
		}
	}
	slices.SortFunc(lengths, func(p, q float64) int {
		if b.ended() {
			return 0
		}
		return cmp.Compare(p, q)
	})
	if limit := lengths[len(lengths)/100] / 5; want > limit {
		b.note(Note{Code: "coarse-coordinates", SizeMM: want})
		want = limit
	}
	return want
}

// coordStep is the step of the coordinates as far as they show one, else 0.
func (b *base) coordStep(adj *adjacency) float64 {
	var xs []float64
	largest := 0.0
	all32 := true
	// 20,000 edges spread over the canonical order say enough.
	for i := 0; i < len(b.edges); i += 1 + len(b.edges)/20000 {
		e := &b.edges[i]
		for _, p := range [2]geom.Point{e.From, e.To} {
			for _, x := range [2]float64{p.X, p.Y} {
				largest = max(largest, math.Abs(x))
				all32 = all32 && float64(float32(x)) == x
				if e.Radius <= 0 {
					xs = append(xs, x)
				}
			}
		}
	}
	step := 0.0
	if all32 {
		f := float32(largest)
		step = float64(math.Nextafter32(f, math.MaxFloat32) - f)
	}
	ulp := math.Nextafter(largest, math.MaxFloat64) - largest
	step = max(step, 2*ulp)
	if len(xs) == 0 {
		return step
	}
	for _, unit := range [2]float64{1, 25.4} {
		for _, q := range [5]float64{1, 0.1, 0.01, 0.001, 0.0001} {
			hits := 0
			for _, x := range xs {
				v := x / (q * unit)
				if math.Abs(v-math.Round(v)) <= 1e-9*max(1, math.Abs(v)) {
					hits++
				}
			}
			if hits*100 >= len(xs)*99 {
				// Whole millimetres and tenths are chosen, not rounded.
				if q <= 0.01 {
					step = max(step, q*unit)
				}
				return step
			}
		}
	}
	return step
}
