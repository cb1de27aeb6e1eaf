package geom

import (
	"iter"
	"math"
)

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
	box    Box   // about the line, grown
	twice  Point // twice a point of it
	normal Point // square to it, of any length
	size   Point // of the normal's parts
	grow   float64
}

func newSlab(a, b Point) slab {
	n := b.Sub(a).Left()
	l := slab{box: BoxOf(a, b).Grow(rayGrow), twice: a.Mul(2), normal: n, size: Point{math.Abs(n.X), math.Abs(n.Y)}}
	l.grow = 2 * rayGrow * (l.size.X + l.size.Y)
	return l
}

// meets tells whether the line comes within rayGrow of the box: it passes the
// box where all four corners lie on one side of it, that is, where the centre
// lies further off than the corners reach.
func (l *slab) meets(b *Box) bool {
	if l.box.Min.X > b.Max.X || b.Min.X > l.box.Max.X || l.box.Min.Y > b.Max.Y || b.Min.Y > l.box.Max.Y {
		return false
	}
	off := float64((b.Min.X+b.Max.X-l.twice.X)*l.normal.X) + float64((b.Min.Y+b.Max.Y-l.twice.Y)*l.normal.Y)
	reach := float64((b.Max.X-b.Min.X)*l.size.X) + float64((b.Max.Y-b.Min.Y)*l.size.Y)
	return math.Abs(off) <= reach+l.grow
}
