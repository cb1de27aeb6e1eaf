package check

import (
	"cmp"
	"math"
	"slices"

	"burrside/check/plan"
	"burrside/features"
	"burrside/features/geom"
)

// metal finds how much metal lies between contours of one part. It is built
// once for all rules. Distances are those of the exact lines and arcs.
type metal struct {
	part    *features.Part
	outline *geom.Index // edges of the outline
	owner   []int       // feature of each outline edge, -1 none
	inner   *geom.Index // edges of all inside contours
	of      []int       // feature of each inner edge
}

func newMetal(part *features.Part) *metal {
	m := &metal{part: part, outline: geom.NewIndex(part.Outline, 0), owner: make([]int, len(part.Outline))}
	for i := range m.owner {
		m.owner[i] = -1
	}
	var edges []geom.Edge
	for i := range part.Features {
		f := &part.Features[i]
		for _, e := range f.Edges {
			if e >= 0 && e < len(m.owner) {
				m.owner[e] = i
			}
		}
		if f.IsInside() {
			edges = append(edges, f.Ring...)
			for range f.Ring {
				m.of = append(m.of, i)
			}
		}
	}
	m.inner = geom.NewIndex(edges, 0)
	return m
}

func (p *Pass) distances() *metal {
	if p.metal == nil {
		p.metal = newMetal(p.Part)
	}
	return p.metal
}

// gap is the least distance between two contours, with the point of each that
// it is measured at.
type gap struct {
	mm       float64
	from, to geom.Point
	edge     int // outline edge; -1 when it is to another feature
	feature  int // the other feature: of the outline edge, or the inside one; -1 none
}

// before orders gaps: the least first, ties by place.
func (g *gap) before(h *gap) bool {
	if d := g.mm - h.mm; abs(d) > 1e-7 {
		return d < 0
	}
	return cmp.Or(geom.ComparePlace(g.to, h.to), geom.ComparePlace(g.from, h.from)) < 0
}

// toOutline gives the least gap between inside feature i and the outline; ok is
// false when it is not under within (mm).
func (m *metal) toOutline(i int, within float64) (best gap, ok bool) {
	for _, e := range m.part.Features[i].Ring {
		for id := range m.outline.Near(e.Bounds().Grow(within)) {
			if otherLeg(m.part, &m.part.Features[i], m.outline.Edge(id)) {
				continue
			}
			a, b, d := geom.Closest(e, m.outline.Edge(id))
			g := gap{mm: d, from: a, to: b, edge: id, feature: m.owner[id]}
			if d < within && (!ok || g.before(&best)) {
				best, ok = g, true
			}
		}
	}
	return best, ok
}

// toHoles gives the least gaps between inside feature i and the inside features
// after it, one each, in their order, as far as they are under within (mm).
func (m *metal) toHoles(i int, within float64) []gap {
	best := map[int]gap{}
	for _, e := range m.part.Features[i].Ring {
		for id := range m.inner.Near(e.Bounds().Grow(within)) {
			j := m.of[id]
			if j <= i || apartByHeel(&m.part.Features[i], &m.part.Features[j]) {
				continue
			}
			a, b, d := geom.Closest(e, m.inner.Edge(id))
			g := gap{mm: d, from: a, to: b, edge: -1, feature: j}
			if old, seen := best[j]; d < within && (!seen || g.before(&old)) {
				best[j] = g
			}
		}
	}
	out := make([]gap, 0, len(best))
	for _, g := range best {
		out = append(out, g)
	}
	slices.SortFunc(out, func(a, b gap) int { return cmp.Compare(a.feature, b.feature) })
	return out
}

// edgeWords names an outline edge: what made it, or the notch that it belongs to.
func (p *Pass) edgeWords(g *gap) string {
	if g.feature >= 0 {
		if f := &p.Part.Features[g.feature]; f.Kind == features.Notch {
			return "notch " + f.ID
		}
	}
	if g.edge >= 0 && g.edge < len(p.Plan.Edges) {
		if k := p.Plan.Edges[g.edge]; k != plan.EdgeUnknown && k != "" {
			return string(k) + " edge"
		}
	}
	return "edge"
}

// axisRays gives the distance from a point to the outline along the blank's
// length, back, across it, and back; 0 where the ray meets nothing. In an angle
// it is the outline of the leg, the heel included.
func (p *Pass) axisRays(c geom.Point) [4]float64 {
	reach := p.Part.Box.Width() + p.Part.Box.Height() + 1
	u := geom.Point{X: math.Cos(p.Plan.Blank.AngleRad), Y: math.Sin(p.Plan.Blank.AngleRad)}
	var out [4]float64
	for i, d := range []geom.Point{u, u.Mul(-1), u.Left(), u.Left().Mul(-1)} {
		ray := geom.LineEdge(c, c.Add(d.Mul(reach)))
		best := math.Inf(1)
		meet := func(e geom.Edge) {
			m := geom.Meet(ray, e, 1e-6)
			for _, q := range m.At[:m.N] {
				best = min(best, q.Dist(c))
			}
		}
		if p.Part.Angle != nil {
			for _, e := range outlineAround(p.Part, c) {
				meet(e)
			}
		} else {
			for id := range p.distances().outline.Along(ray.From, ray.To) {
				meet(p.Part.Outline[id])
			}
		}
		if best < reach {
			out[i] = best
		}
	}
	return out
}

// frame is the rectangle of the finished part along the blank's axes.
type frame struct {
	u, v       geom.Point // along the length, across
	minU, maxU float64
	minV, maxV float64
}

// partFrame measures the outline along the axes of the blank.
func (p *Pass) partFrame() frame {
	a := p.Plan.Blank.AngleRad
	f := frame{u: geom.Point{X: math.Cos(a), Y: math.Sin(a)}}
	f.v = f.u.Left()
	f.minU, f.minV = math.Inf(1), math.Inf(1)
	f.maxU, f.maxV = math.Inf(-1), math.Inf(-1)
	// Turning the ring puts the exact extremes of its arcs into the box.
	b := p.Part.Outline.Apply(geom.NewTurn(-a)).Bounds()
	f.minU, f.maxU, f.minV, f.maxV = b.Min.X, b.Max.X, b.Min.Y, b.Max.Y
	return f
}

// at gives the place of a point along and across the blank.
func (f *frame) at(q geom.Point) (u, v float64) { return q.Dot(f.u), q.Dot(f.v) }
