package geom

import "iter"

// rayGrow is how near a line must pass to a box to be taken to meet it.
const rayGrow = 1e-6

// Along yields each edge of which a piece's box the straight line from a to b
// meets within 1e-6, once: the edges that it can cross. A long skew line passes
// few boxes, though its own box holds them all. The order depends on the edges
// only.
func (x *Index) Along(a, b Point) iter.Seq[int] {
	return func(yield func(int) bool) {
		if len(x.levels) > 0 {
			l := newSlab(a, b)
			x.walkLine(len(x.levels)-1, 0, &l, yield)
		}
	}
}

func (x *Index) walkLine(level, i int, l *slab, yield func(int) bool) bool {
	if level > 0 {
		below := x.levels[level-1]
		for k := i * fan; k < min(i*fan+fan, len(below)); k++ {
			if l.meets(&below[k]) && !x.walkLine(level-1, k, l, yield) {
				return false
			}
		}
		return true
	}
	for k := i * fan; k < min(i*fan+fan, len(x.pieces)); k++ {
		p := &x.pieces[k]
		if !l.meets(&p.box) {
			continue
		}
		// The first piece of an edge that is met speaks for it.
		first := true
		f := x.first[p.edge]
		for n := int32(0); n < p.nth && first; n++ {
			first = !l.meets(&x.boxes[f+n])
		}
		if first && !yield(int(p.edge)) {
			return false
		}
	}
	return true
}

// slab is a straight line made ready to be tested against many boxes.
type slab struct {
	box        Box // about the line, grown
	from       Point
	invX, invY float64 // 1 over the extents; 0 for a line along the other axis
}

func newSlab(a, b Point) slab {
	l := slab{box: BoxOf(a, b).Grow(rayGrow), from: a}
	if b.X != a.X {
		l.invX = 1 / (b.X - a.X)
	}
	if b.Y != a.Y {
		l.invY = 1 / (b.Y - a.Y)
	}
	return l
}

// meets tells whether the line comes within rayGrow of the box.
func (l *slab) meets(b *Box) bool {
	if !l.box.Overlaps(*b) {
		return false
	}
	if l.invX == 0 || l.invY == 0 {
		return true // its own box is no wider than it
	}
	s, t := (b.Min.X-rayGrow-l.from.X)*l.invX, (b.Max.X+rayGrow-l.from.X)*l.invX
	u, v := (b.Min.Y-rayGrow-l.from.Y)*l.invY, (b.Max.Y+rayGrow-l.from.Y)*l.invY
	return max(min(s, t), min(u, v)) <= min(max(s, t), max(u, v))
}
