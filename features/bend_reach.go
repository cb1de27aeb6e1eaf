package features

import (
	"math"

	"burrside/features/geom"
)

// bendReachShare is how much of the metal a line of another colour must run
// over to be taken for a bend: lines of bends stop a little short of the edges
// that they run between, ticks, arrows and the strokes of marks do not reach
// them at all (common practice, no source).
const bendReachShare = 0.8

// reachesAcross tells whether a straight run on a part goes over most of the
// metal in its line: from edge to edge, an edge being the outline, an opening,
// or the near end of another open line in the same line.
func (b *builder) reachesAcross(d int, pieces []piece) bool {
	a, z := pieces[0].edge.From, pieces[len(pieces)-1].edge.To
	long := a.Dist(z)
	x := b.edgesOfDraft(d)
	left := long / bendReachShare
	for _, end := range [2][2]geom.Point{{a, z}, {z, a}} {
		u := end[0].Sub(end[1]).Unit()
		left -= b.freeBeyond(x, end[0], u, left)
	}
	return left >= long-1e-6
}

// freeBeyond is how far it is from a point on to the next edge of the part, or
// the next open line that goes on in the same direction; at most far.
func (b *builder) freeBeyond(x *geom.Index, p, u geom.Point, far float64) float64 {
	if id, _, _ := x.Nearest(p, endReachMM); id >= 0 || far <= 0 {
		return 0
	}
	ray := geom.LineEdge(p, p.Add(u.Mul(far)))
	free := far
	for i := range x.Along(ray.From, ray.To) {
		m := geom.Meet(ray, x.Edge(i), touchMM)
		for k := range m.N {
			free = math.Min(free, m.At[k].Dist(p))
		}
	}
	for i := range b.openLines.Near(ray.Bounds().Grow(endReachMM)) {
		e := b.openLines.Edge(i)
		if e.IsArc() || ray.Dist(e.From) > endReachMM && ray.Dist(e.To) > endReachMM || math.Abs(u.Cross(e.StartDir())) > 0.01 {
			continue
		}
		for _, q := range [2]geom.Point{e.From, e.To} {
			if t := q.Sub(p).Dot(u); t > endReachMM {
				free = math.Min(free, t)
			}
		}
	}
	return free
}

// edgesOfDraft is an index of the edges of a part, made once.
func (b *builder) edgesOfDraft(d int) *geom.Index {
	if x := b.draftEdges[d]; x != nil {
		return x
	}
	edges := append([]geom.Edge(nil), b.loops[b.drafts[d].outline].ring...)
	for _, h := range b.drafts[d].holes {
		edges = append(edges, b.loops[h].ring...)
	}
	if b.draftEdges == nil {
		b.draftEdges = map[int]*geom.Index{}
	}
	x := geom.NewIndex(edges, 0)
	b.draftEdges[d] = x
	return x
}

// indexOpenLines makes the index of all open lines.
func (b *builder) indexOpenLines() {
	var edges []geom.Edge
	for i := range b.joined.Chains {
		for _, p := range b.joined.Chains[i].Pieces {
			edges = append(edges, p.Edge)
		}
	}
	b.openLines = geom.NewIndex(edges, 0)
}
