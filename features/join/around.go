package join

import (
	"cmp"
	"math"
	"slices"

	"burrside/features/geom"
)

// areaTree finds the least shape about a place. It is a packed tree of boxes of
// which each knows the least and the largest area in it, so that contours
// nested in each other by thousands are not all looked at.
type areaTree struct {
	shapes []shape
	order  []int32      // shapes by cell of a raster, in each by area
	levels [][]areaNode // levels[0] over groups of shapes, and so on upwards
}

type areaNode struct {
	box         geom.Box
	least, most float64
}

const areaFan = 8

// newAreaTree is the tree over shapes that are no tool marks.
func newAreaTree(shapes []shape) *areaTree {
	t := &areaTree{shapes: shapes}
	var all geom.Box
	for i := range shapes {
		if shapes[i].mark {
			continue
		}
		if len(t.order) == 0 {
			all = shapes[i].box
		}
		all = all.Union(shapes[i].box)
		t.order = append(t.order, int32(i))
	}
	if len(t.order) == 0 {
		return t
	}
	side := math.Ceil(math.Sqrt(float64(len(t.order)) / areaFan))
	cell := max(all.Width(), all.Height()) / side
	at := make([][2]float64, len(shapes))
	if cell > 0 {
		for _, i := range t.order {
			c := shapes[i].box.Centre().Sub(all.Min)
			at[i] = [2]float64{math.Floor(c.X / cell), math.Floor(c.Y / cell)}
		}
	}
	slices.SortFunc(t.order, func(i, k int32) int {
		return cmp.Or(cmp.Compare(at[i][1], at[k][1]), cmp.Compare(at[i][0], at[k][0]), cmp.Compare(shapes[i].area, shapes[k].area), cmp.Compare(i, k))
	})
	nodes := make([]areaNode, len(t.order))
	for n, i := range t.order {
		nodes[n] = areaNode{shapes[i].box, shapes[i].area, shapes[i].area}
	}
	for len(t.levels) == 0 || len(nodes) > 1 {
		up := make([]areaNode, 0, (len(nodes)+areaFan-1)/areaFan)
		for i := 0; i < len(nodes); i += areaFan {
			u := nodes[i]
			for _, n := range nodes[i+1 : min(i+areaFan, len(nodes))] {
				u = areaNode{u.box.Union(n.box), min(u.least, n.least), max(u.most, n.most)}
			}
			up = append(up, u)
		}
		t.levels = append(t.levels, up)
		nodes = up
	}
	return t
}

// least is the shape of the least area, larger than area, whose box holds p and
// that is accepted; of equal ones the first. -1 when there is none.
func (t *areaTree) least(p geom.Point, area float64, accept func(i int32) bool) int32 {
	s := areaSearch{t: t, p: p, area: area, best: math.Inf(1), id: -1, accept: accept}
	if n := len(t.levels); n > 0 {
		s.visit(n-1, 0)
	}
	return s.id
}

type areaSearch struct {
	t      *areaTree
	p      geom.Point
	area   float64
	best   float64
	id     int32
	accept func(i int32) bool
}

// open tells whether a node may hold a better shape than the best so far.
func (s *areaSearch) open(n *areaNode) bool {
	return n.most > s.area && n.least <= s.best && n.box.Contains(s.p)
}

func (s *areaSearch) visit(level, i int) {
	if level == 0 {
		for _, k := range s.t.order[i*areaFan : min(i*areaFan+areaFan, len(s.t.order))] {
			o := &s.t.shapes[k]
			if o.area <= s.area || o.area > s.best || o.area == s.best && k > s.id || !o.box.Contains(s.p) || !s.accept(k) {
				continue
			}
			s.best, s.id = o.area, k
		}
		return
	}
	// The child with the least areas first; there are at most areaFan.
	below := s.t.levels[level-1]
	var order [areaFan]int
	n := 0
	for k := i * areaFan; k < min(i*areaFan+areaFan, len(below)); k++ {
		if !s.open(&below[k]) {
			continue
		}
		j := n
		for ; j > 0 && below[order[j-1]].least > below[k].least; j-- {
			order[j] = order[j-1]
		}
		order[j] = k
		n++
	}
	for _, k := range order[:n] {
		if s.open(&below[k]) {
			s.visit(level-1, k)
		}
	}
}
