package features

import (
	"slices"

	"burrside/features/geom"
	"burrside/features/join"
)

// piece is one edge of a loop with where it came from.
type piece struct {
	edge    geom.Edge
	sources []int32 // indices in Sheet.Entities, ascending
	style   int32
	fitted  bool // taken from facets or a curve
}

// loop is one closed contour on its way to an outline or a hole. Its pieces
// run counter-clockwise.
type loop struct {
	pieces   []piece
	ring     geom.Ring
	box      geom.Box
	area     float64
	parent   int // index of the least loop that holds it, -1 outside
	depth    int
	children []int
	toolMark bool
	crosses  []int
	dead     bool // taken out: a border, or divided into faces
	leg      bool // a view of an angle's leg

	dotDoubted bool // doubted as the dot of a leader
}

func (l *loop) settle() { l.settleIn(make(geom.Ring, len(l.pieces))) }

// settleIn is settle with room for the ring.
func (l *loop) settleIn(ring geom.Ring) {
	l.ring = ring
	for i := range l.pieces {
		l.ring[i] = l.pieces[i].edge
	}
	if l.area = l.ring.Area(); l.area < 0 {
		slices.Reverse(l.pieces)
		for i := range l.pieces {
			l.pieces[i].edge = l.pieces[i].edge.Reverse()
			l.ring[i] = l.pieces[i].edge
		}
		l.area = l.ring.Area()
	}
	l.box = l.ring.Bounds()
}

// startCanonical makes a settled loop begin at its canonical vertex, as the
// joiner gave it: what smoothing did to it must not be seen in its order.
func (l *loop) startCanonical() {
	k := l.ring.CanonicalStart()
	if k <= 0 || k >= len(l.pieces) {
		return
	}
	l.pieces = append(append(make([]piece, 0, len(l.pieces)), l.pieces[k:]...), l.pieces[:k]...)
	for i, p := range l.pieces {
		l.ring[i] = p.edge
	}
}

// isCircle tells whether the loop is one full circle, and which.
func (l *loop) isCircle() (centre geom.Point, radius float64, ok bool) {
	if len(l.ring) == 1 && l.ring[0].IsCircle() {
		return l.ring[0].Centre, l.ring[0].Radius, true
	}
	return geom.Point{}, 0, false
}

func (l *loop) sources() []Source {
	var all []int32
	for _, p := range l.pieces {
		all = append(all, p.sources...)
	}
	return sourcesOf(all)
}

// sourcesOf makes sources of entity numbers, each once, in order.
func sourcesOf(all []int32) []Source {
	if len(all) == 0 {
		return nil
	}
	low, high := all[0], all[0]
	rising := true
	for i, v := range all {
		low, high = min(low, v), max(high, v)
		rising = rising && (i == 0 || all[i-1] < v)
	}
	if !rising && int(high-low) < 4*len(all) {
		return crowdedSources(all, low, high)
	}
	if !rising {
		all = slices.Clone(all)
		slices.Sort(all)
		all = slices.Compact(all)
	}
	out := make([]Source, len(all))
	for i, v := range all {
		out[i] = Source{v}
	}
	return out
}

// crowdedSources is sourcesOf for numbers from low to high that lie so close
// together that crossing them off a list is less work than sorting them: a note
// may name every line of a drawing.
func crowdedSources(all []int32, low, high int32) []Source {
	has := make([]bool, high-low+1)
	n := 0
	for _, v := range all {
		if !has[v-low] {
			has[v-low] = true
			n++
		}
	}
	out := make([]Source, 0, n)
	for i, is := range has {
		if is {
			out = append(out, Source{low + int32(i)})
		}
	}
	return out
}

// pieces takes over what the joiner made.
func (b *builder) pieces(in []join.Piece) []piece {
	out := make([]piece, len(in))
	for i, p := range in {
		out[i] = piece{edge: p.Edge, sources: p.Sources, style: p.Style}
		if len(b.fitted) == 0 {
			continue
		}
		for _, s := range p.Sources {
			out[i].fitted = out[i].fitted || b.fitted[s]
		}
	}
	return out
}

// simplified merges collinear lines and arcs of one circle and starts at the
// canonical vertex, keeping the sources of what was merged.
func simplified(ring geom.Ring, pieces []piece, tol float64) (geom.Ring, []piece) {
	s := ring.Simplify(tol).Canonical()
	out := make([]piece, len(s))
	for i, e := range s {
		out[i].edge = e
		out[i].style = -1
	}
	if len(s) == 0 {
		return s, nil
	}
	at := 0
	for _, p := range pieces {
		mid := p.edge.Mid()
		// The pieces run round as the simplified edges do: look at this one
		// and the next two, and all round only if that fails.
		best := -1
		for k := 0; k < 3 && k < len(s); k++ {
			i := (at + k) % len(s)
			if s[i].Dist(mid) <= 2*tol {
				best = i
				break
			}
		}
		if best < 0 {
			least := 0.0
			for i := range s {
				if d := s[i].Dist(mid); best < 0 || d < least {
					best, least = i, d
				}
			}
		}
		at = best
		o := &out[best]
		o.sources = append(o.sources, p.sources...)
		o.fitted = o.fitted || p.fitted
		if o.style < 0 {
			o.style = p.style
		}
	}
	for i := range out {
		slices.Sort(out[i].sources)
		out[i].sources = slices.Compact(out[i].sources)
	}
	return s, out
}
