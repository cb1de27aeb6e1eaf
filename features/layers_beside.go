package features

import (
	"math"

	"burrside/features/geom"
	"burrside/features/join"
)

const (
	// touchingMM is how deep outlines may overlap and still only touch: the
	// slip that leaves a part clean.
	touchingMM = cleanMM
	// slipMM is the deepest overlap that is a slip of who laid the parts out:
	// the width of a saw's or a flame's cut is more.
	slipMM = 0.5
	// besideShare is the deepest overlap of outlines that lie beside each
	// other, as a share of the lesser side of the smaller. Deeper ones are a
	// notch or an opening drawn over an edge, or parts laid on each other.
	besideShare = 0.05
	// smallShare: a contour with less than this share of the other's area is
	// no part beside it that goes without a question; it may be a tab of it, or
	// an opening that peeks out.
	smallShare = 0.05
	// mostPairs bounds the comparing of edges of two layers.
	mostPairs = 4_000_000
)

// sideLoop is one contour with what is asked of it again and again.
type sideLoop struct {
	ring  geom.Ring
	box   geom.Box
	area  float64
	index *geom.Index
}

// sides are the contours of a layer.
type sides struct {
	loops []sideLoop
	edges int
	// round tells that the layer has metal round all of it: the contours are
	// openings, or windows with parts in them.
	round bool
}

func newSides(r *join.Result, round bool) *sides {
	s := &sides{loops: make([]sideLoop, len(r.Contours)), round: round}
	for i := range r.Contours {
		ring := r.Contours[i].Ring()
		l := sideLoop{ring: ring, box: ring.Bounds(), area: math.Abs(ring.Area())}
		l.index = geom.NewIndex(ring, math.Max(1e-3, math.Max(l.box.Width(), l.box.Height())/math.Sqrt(float64(len(ring))+1)))
		s.loops[i] = l
		s.edges += len(ring)
	}
	return s
}

// metalDepth is how deep a point lies in the metal of the layer, 0 outside it.
func (s *sides) metalDepth(p geom.Point) float64 {
	in := s.round
	for i := range s.loops {
		if l := &s.loops[i]; l.box.Contains(p) && l.ring.Winding(p) != 0 {
			in = !in
		}
	}
	if !in {
		return 0
	}
	depth := math.Inf(1)
	for i := range s.loops {
		l := &s.loops[i]
		if l.box.Dist(geom.BoxOf(p)) >= depth {
			continue
		}
		if id, _, d := l.index.Nearest(p, depth); id >= 0 {
			depth = d
		}
	}
	return depth
}

// layersMeeting is how two contours of different layers lie to each other.
type layersMeeting struct {
	touch   bool // they have a point in common
	along   bool // they have a stretch in common
	at      geom.Point
	depthMM float64 // how deep an edge of one lies in the metal of the other
	small   bool    // one is small beside the other
}

// samplesOfEdge is how many points of an edge are looked at for depth, beside
// its ends. The corners of the other contour are looked at as well, so that an
// overlap of straight sides is measured at its deepest.
const samplesOfEdge = 12

func meetOf(x, y *sideLoop, gx, gy *sides) layersMeeting {
	var m layersMeeting
	if !x.box.Grow(touchingMM).Overlaps(y.box) {
		return m
	}
	offer := func(p geom.Point) {
		if !m.touch || geom.ComparePlace(p, m.at) < 0 {
			m.at = p
		}
		m.touch = true
	}
	for i := range x.ring {
		box := x.ring[i].Bounds().Grow(touchingMM)
		for k := range y.index.Near(box) {
			f := geom.Meet(x.ring[i], y.ring[k], touchingMM)
			for n := range f.N {
				offer(f.At[n])
			}
			m.along = m.along || f.Overlap
		}
	}
	if !m.touch {
		return m
	}
	m.depthMM = math.Max(depthIn(x, gy, y.box), depthIn(y, gx, x.box))
	m.small = math.Min(x.area, y.area) < smallShare*math.Max(x.area, y.area)
	return m
}

// depthIn is how deep the edges of a contour lie in the metal of a layer, near
// one contour of it.
func depthIn(x *sideLoop, g *sides, near geom.Box) float64 {
	depth := 0.0
	for _, e := range x.ring {
		if !e.Bounds().Overlaps(near) {
			continue
		}
		for k := range samplesOfEdge + 1 {
			p := e.At(float64(k) / samplesOfEdge)
			if near.Contains(p) {
				depth = math.Max(depth, g.metalDepth(p))
			}
		}
	}
	return depth
}

// beside tells whether two layers of a tangle may be parts of their own: both
// close, and no contour of one lies on the metal of the other but for a sliver.
// Layers that have nothing in common are beside each other.
func beside(g, h *layerGroup, in, inH []join.Input) bool {
	if g.sides == nil || h.sides == nil {
		return !linesMeet(in, inH)
	}
	if g.sides.edges*h.sides.edges > mostPairs {
		return false
	}
	for x := range g.sides.loops {
		for y := range h.sides.loops {
			p, q := &g.sides.loops[x], &h.sides.loops[y]
			m := meetOf(p, q, g.sides, h.sides)
			if !m.touch {
				continue
			}
			least := math.Min(math.Min(p.box.Width(), p.box.Height()), math.Min(q.box.Width(), q.box.Height()))
			if m.depthMM > math.Max(slipMM, besideShare*least) || m.depthMM > touchingMM && m.small {
				return false
			}
		}
	}
	return true
}

// linesMeet tells whether edges of two layers meet.
func linesMeet(in, other []join.Input) bool {
	if len(in)*len(other) > mostPairs {
		return true
	}
	for i := range in {
		box := in[i].Edge.Bounds().Grow(touchingMM)
		for k := range other {
			if box.Overlaps(other[k].Edge.Bounds()) && geom.Meet(in[i].Edge, other[k].Edge, touchingMM).N > 0 {
				return true
			}
		}
	}
	return false
}
