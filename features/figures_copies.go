package features

import "burrside/features/geom"

// Limits of looking for lines that are drawn twice within a figure.
const (
	figureCopyMM    = 0.01 // parallel copies lie within this
	figureCopyEdges = 400  // a letter or an opening of more edges is looked at as it is
)

// setCopiesAside takes out of a figure the edges that lie on longer ones, or on
// earlier ones of equal length: a hole that is drawn twice is a hole and no
// stroke. They go where the figure goes.
func (b *builder) setCopiesAside(f *figure) {
	n := len(f.inputs)
	if f.closed || n < 2 || n > figureCopyEdges {
		return
	}
	boxes := make([]geom.Box, n)
	for i, in := range f.inputs {
		boxes[i] = b.inputs[in].Edge.Bounds()
	}
	var kept, aside []int32
	for i, in := range f.inputs {
		e := &b.inputs[in].Edge
		covered := false
		for k, other := range f.inputs {
			if k == i || !boxes[k].Grow(figureCopyMM).ContainsBox(boxes[i]) {
				continue
			}
			o := &b.inputs[other].Edge
			if o.Length() < e.Length()-figureCopyMM || o.Length() <= e.Length()+figureCopyMM && k > i {
				continue
			}
			if edgeLiesOn(e, o) {
				covered = true
				break
			}
		}
		if covered {
			aside = append(aside, in)
		} else {
			kept = append(kept, in)
		}
	}
	if len(aside) == 0 || len(kept) == 0 {
		return
	}
	f.inputs, f.copies = kept, aside
	f.closed, f.open, f.length, f.bends = true, false, 0, b.turns(kept)
	m := b.meetEnds(kept)
	for _, place := range m.at {
		f.closed = f.closed && m.count[place] == 2
		f.open = f.open || m.count[place] == 1
	}
	for _, in := range kept {
		e := &b.inputs[in].Edge
		f.length += e.Length()
		if e.IsArc() {
			f.bends++
		}
	}
}

// edgeLiesOn tells whether an edge lies on another all along.
func edgeLiesOn(e, o *geom.Edge) bool {
	for _, p := range [5]geom.Point{e.From, e.At(0.25), e.At(0.5), e.At(0.75), e.To} {
		if o.Dist(p) > figureCopyMM {
			return false
		}
	}
	return true
}
