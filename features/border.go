package features

import (
	"fmt"
	"math"

	"burrside/features/geom"
)

// seatCentreMM is how far the centres of a hole and its seat may lie apart.
const seatCentreMM = 0.1

// takeBorders takes out a rectangle that is the border of a stock sheet: it
// holds parts that have holes of their own and has no hole of its own. What
// cannot be told from a plate with a window stays and is doubted.
func (b *builder) takeBorders() error {
	b.settleChildren()
	for i := range b.loops {
		l := &b.loops[i]
		if l.dead || l.toolMark || l.parent >= 0 || !isRectangle(l.ring) {
			continue
		}
		withHoles, deep, round, plain := 0, 0, 0, 0
		for _, c := range l.children {
			k := b.ownChildren(c)
			switch {
			case k > 0:
				withHoles++
				deep += k
			case b.isRound(c):
				round++
			default:
				plain++
			}
		}
		if withHoles == 0 {
			continue
		}
		src := l.sources()
		asBorder, asPlate := len(l.children), 1+deep
		readings := fmt.Sprintf("read as a border there are %d parts, read as a plate %d", asBorder, asPlate)
		switch {
		case round == 0 && (withHoles >= 2 || deep >= 2) && withHoles >= plain && b.clearOf(i):
			l.dead = true
			text := fmt.Sprintf("the rectangle of %s x %s mm round the parts was taken for the border of a sheet", shortNumber(l.box.Width()), shortNumber(l.box.Height()))
			b.note(Note{Code: "border-taken-out", At: l.box.Min, HasAt: true, Text: text, Source: src})
			b.borderDoubts = append(b.borderDoubts, borderDoubt{l.box, Doubt{Code: "maybe-frame", At: l.box.Min, Text: text + "; " + readings, Source: src}})
		case round == 0 || withHoles >= 3 && withHoles > round:
			b.borderDoubts = append(b.borderDoubts, borderDoubt{l.box, Doubt{Code: "maybe-frame", Grave: true, At: l.box.Min,
				Text: "the rectangle may be a plate with openings or the border of a sheet: " + readings, Source: src}})
		}
	}
	b.settleChildren()
	return nil
}

// clearOf tells whether all children of a loop keep off it as parts keep off
// the border of a sheet.
func (b *builder) clearOf(i int) bool {
	for _, c := range b.loops[i].children {
		if _, _, gap := geom.RingDist(b.loops[i].ring, b.loops[c].ring); gap < metalGapMM-1e-6 {
			return false
		}
	}
	return true
}

// borderDoubt is a doubt about everything within a box.
type borderDoubt struct {
	box   geom.Box
	doubt Doubt
}

// ownChildren counts the children of a loop, without the seats of a round one.
func (b *builder) ownChildren(i int) int {
	n := 0
	for _, c := range b.loops[i].children {
		if !b.isSeatOf(i, c) {
			n++
		}
	}
	return n
}

func (b *builder) isRound(i int) bool {
	_, _, ok := b.loops[i].isCircle()
	return ok
}

// isSeatOf tells whether the inner loop is a circle about the outer's centre.
func (b *builder) isSeatOf(outer, inner int) bool {
	co, _, ok1 := b.loops[outer].isCircle()
	ci, _, ok2 := b.loops[inner].isCircle()
	return ok1 && ok2 && co.Dist(ci) <= seatCentreMM
}

// isRectangle tells whether a ring is four lines at right angles within 0.2
// degree.
func isRectangle(r geom.Ring) bool {
	r = r.Simplify(1e-3)
	if len(r) != 4 {
		return false
	}
	for i, e := range r {
		n := r[(i+1)%4]
		if e.IsArc() || math.Abs(e.EndDir().Dot(n.StartDir())) > math.Sin(0.2*math.Pi/180) {
			return false
		}
	}
	return true
}
