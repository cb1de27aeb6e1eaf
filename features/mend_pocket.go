package features

import (
	"math"
	"sort"

	"burrside/features/geom"
)

// hullStepRad is the step in which convex arcs are sampled to find where the
// convex hull touches them. Only the choice of the pieces between two touches
// depends on it, no number.
const hullStepRad = 5 * math.Pi / 180

// hullSample is a point of the outline in its order: the start of a side, or a
// place within a convex arc.
type hullSample struct {
	p      geom.Point
	node   int
	within bool
	on     bool
}

// closePockets closes what still runs inward by the convex hull: each run
// between two touches of the hull is one bite.
func (m *mender) closePockets() {
	if !m.hasInward() {
		return
	}
	s := m.hullSamples()
	var on []int
	for i := range s {
		if s[i].on {
			on = append(on, i)
		}
	}
	if len(on) < 2 {
		return
	}
	var pockets []candidate
	for i, x := range on {
		if c, ok := m.pocket(s[x], s[on[(i+1)%len(on)]]); ok {
			pockets = append(pockets, c)
		}
	}
	for _, c := range pockets {
		m.apply(c)
	}
}

// pocket is the run of whole sides between two touches of the hull, if
// something in it runs inward.
func (m *mender) pocket(x, y hullSample) (candidate, bool) {
	first, last := x.node, m.nodes[y.node].prev
	inward := false
	if x.within {
		if y.within && x.node == y.node {
			return candidate{}, false
		}
		inward = m.inwardAfter(x.node)
		first = m.nodes[x.node].next
	}
	if first == y.node {
		return candidate{}, false
	}
	for k, steps := first, 0; ; k, steps = m.nodes[k].next, steps+1 {
		if steps >= m.live {
			return candidate{}, false
		}
		inward = inward || m.isHollow(k)
		if k == last {
			break
		}
		inward = inward || m.inwardAfter(k)
	}
	if y.within {
		inward = inward || m.inwardAfter(last)
	}
	a, b := m.nodes[first].e.From, m.nodes[last].e.To
	// One straight side beside an arc that stands out is no notch.
	if !inward || first == last && !m.isHollow(first) {
		return candidate{}, false
	}
	return candidate{kind: mouthHull, i: -1, j: -1, p: first, q: last, a: a, b: b, dir: b.Sub(a).Unit()}, true
}

// hullSamples lists points of the outline and tells which touch its convex hull.
func (m *mender) hullSamples() []hullSample {
	var s []hullSample
	for k, n := 0, m.head; k < m.live; k, n = k+1, m.nodes[n].next {
		e := m.nodes[n].e
		s = append(s, hullSample{p: e.From, node: n})
		if e.IsArc() && e.CCW {
			steps := int(math.Abs(e.Sweep())/hullStepRad) + 2
			for t := 1; t < steps; t++ {
				s = append(s, hullSample{p: e.At(float64(t) / float64(steps)), node: n, within: true})
			}
		}
	}
	order := make([]int, len(s))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(x, y int) bool {
		a, b := s[order[x]].p, s[order[y]].p
		if a.X != b.X {
			return a.X < b.X
		}
		if a.Y != b.Y {
			return a.Y < b.Y
		}
		return order[x] < order[y]
	})
	half := func(ids []int) {
		var st []int
		for _, id := range ids {
			for len(st) > 1 && s[st[len(st)-1]].p.Sub(s[st[len(st)-2]].p).Cross(s[id].p.Sub(s[st[len(st)-2]].p)) <= 0 {
				st = st[:len(st)-1]
			}
			st = append(st, id)
		}
		for _, id := range st {
			s[id].on = true
		}
	}
	half(order)
	back := make([]int, len(order))
	for i, id := range order {
		back[len(order)-1-i] = id
	}
	half(back)
	touchChords(s)
	return s
}

// touchChords also marks the points that lie on the hull between two corners
// of it, within lineMM.
func touchChords(s []hullSample) {
	var on []int
	for i := range s {
		if s[i].on {
			on = append(on, i)
		}
	}
	for i, x := range on {
		y := on[(i+1)%len(on)]
		d := s[y].p.Sub(s[x].p)
		l := d.Len()
		if l < lineMM {
			continue
		}
		for k := (x + 1) % len(s); k != y; k = (k + 1) % len(s) {
			if math.Abs(d.Cross(s[k].p.Sub(s[x].p)))/l <= lineMM {
				s[k].on = true
			}
		}
	}
}
