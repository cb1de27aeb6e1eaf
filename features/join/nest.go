package join

import (
	"cmp"
	"slices"

	"burrside/features/geom"
)

// shape is a contour on its way into the result.
type shape struct {
	ring   geom.Ring // counter-clockwise from the canonical start
	edges  []int32   // half-edges in ring order: of the base for a loop, else of the work
	loop   int32     // rigid loop, -1 traced
	traced int32     // traced contour, -1 rigid
	area   float64
	box    geom.Box
	face   bool
	index  ringIndex
	mark   bool
	cross  []int32
	parent int32
	depth  int32
}

// newShape orients a walk of edges and turns it to its canonical start.
func newShape(ring geom.Ring, halves []int32) shape {
	s := shape{loop: -1, traced: -1, parent: -1}
	area := ring.Area()
	if len(ring) == 1 {
		s.ring, s.edges, s.area = ring, halves, ring.Area()
		if s.area < 0 {
			s.ring, s.area = ring.Reverse(), -s.area
		}
		s.box = s.ring.Bounds()
		return s
	}
	if area < 0 {
		ring, area = ring.Reverse(), -area
		slices.Reverse(halves)
		for i := range halves {
			halves[i] ^= 1
		}
	}
	if k := ring.CanonicalStart(); k > 0 {
		rotate(ring, k)
		rotate(halves, k)
	}
	s.ring, s.edges, s.area, s.box = ring, halves, area, ring.Bounds()
	return s
}

func rotate[T any](s []T, k int) {
	slices.Reverse(s[:k])
	slices.Reverse(s[k:])
	slices.Reverse(s)
}

// compareShapes orders contours by their start, then the larger first, then
// edge by edge.
func compareShapes(a, b *shape) int {
	if c := geom.ComparePlace(a.ring[0].From, b.ring[0].From); c != 0 {
		return c
	}
	if d := a.area - b.area; d > 1e-3 || d < -1e-3 {
		return -cmp.Compare(a.area, b.area)
	}
	if c := cmp.Compare(len(a.ring), len(b.ring)); c != 0 {
		return c
	}
	for i := range a.ring {
		if c := compareEdges(&a.ring[i], &b.ring[i]); c != 0 {
			return c
		}
	}
	return 0
}

// nester finds the least contour round a point.
type nester struct {
	b      *base
	shapes []shape
	tree   *areaTree
}

func newNester(b *base, shapes []shape) *nester {
	return &nester{b, shapes, newAreaTree(shapes)}
}

// around is the least contour, no tool mark, that holds p and is larger than
// area; -1 when none does. A positive area leaves out contours whose box does
// not hold box.
func (n *nester) around(p geom.Point, box geom.Box, area float64, skip int32) int32 {
	return n.tree.least(p, area, func(i int32) bool {
		s := &n.shapes[i]
		if n.b.ended() || i == skip || !s.box.ContainsBox(box) {
			return false
		}
		if !s.index.prepared {
			s.index.build(s.ring)
		}
		return s.index.inside(p)
	})
}

// nest sets the parents and depths.
func (n *nester) nest() {
	for i := range n.shapes {
		if n.b.ended() {
			return
		}
		s := &n.shapes[i]
		if s.mark {
			continue
		}
		// A point inside is only worth finding when a box holds this one.
		held := n.tree.least(s.box.Centre(), s.area, func(k int32) bool {
			return n.b.ended() || n.shapes[k].box.Grow(1e-6).ContainsBox(s.box)
		})
		if held >= 0 {
			p := s.ring.InnerPoint()
			s.parent = n.around(p, geom.BoxOf(p), s.area, int32(i))
		}
	}
	for i := range n.shapes {
		s := &n.shapes[i]
		if !s.mark {
			continue
		}
		// What a tool mark crosses lies beside it, not round it: its parent is
		// that of the outermost.
		out := int32(-1)
		for _, c := range s.cross {
			if o := &n.shapes[c]; !o.mark && (out < 0 || o.area > n.shapes[out].area) {
				out = c
			}
		}
		if out >= 0 {
			s.parent = n.shapes[out].parent
		} else {
			p := s.ring.InnerPoint()
			s.parent = n.around(p, geom.BoxOf(p), s.area, int32(i))
		}
	}
	// Each depth from that of the parent, whose own is found first.
	for i := range n.shapes {
		n.shapes[i].depth = -1
	}
	var chain []int32
	for i := range n.shapes {
		if n.b.ended() {
			return
		}
		k := int32(i)
		for chain = chain[:0]; k >= 0 && n.shapes[k].depth < 0; k = n.shapes[k].parent {
			chain = append(chain, k)
		}
		d := int32(0)
		if k >= 0 {
			d = n.shapes[k].depth + 1
		}
		for j := len(chain) - 1; j >= 0; j-- {
			n.shapes[chain[j]].depth = d
			d++
		}
	}
}
