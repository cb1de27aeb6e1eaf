package features

import (
	"fmt"
	"math"

	"burrside/features/geom"
)

// seatCentreMM is how far the centres of a hole and its seat may lie apart.
const seatCentreMM = 0.1

// takeBorders takes out a rectangle that is the border of a stock sheet or of
// the drawing: it holds two or more parts that have holes of their own, or
// another border, and has no hole of its own. What cannot be told from a plate
// with a window stays and is doubted. A border inside a border goes as well.
func (b *builder) takeBorders() error {
	judged := map[int]bool{}
	for more := true; more; {
		if err := b.ctx.Err(); err != nil {
			return err
		}
		more = false
		b.settleChildren()
		for i := range b.loops {
			l := &b.loops[i]
			if l.dead || l.toolMark || l.parent >= 0 || judged[i] || !isRectangle(l.ring) {
				continue
			}
			judged[i] = true
			more = b.judgeBorder(i) || more
		}
	}
	b.takeCornerBoxes()
	b.settleChildren()
	return nil
}

// judgeBorder takes a rectangle out if it is a border, and tells whether.
func (b *builder) judgeBorder(i int) bool {
	l := &b.loops[i]
	if b.isOuterLine(i) {
		l.dead = true
		b.note(Note{Code: "border-taken-out", At: l.box.Min, HasAt: true, Source: l.sources(),
			Text: fmt.Sprintf("the rectangle of %s x %s mm round the drawing was taken for the outer line of its frame", shortNumber(l.box.Width()), shortNumber(l.box.Height()))})
		return true
	}
	withHoles, deep, round, plain, frames := 0, 0, 0, 0, 0
	for _, c := range l.children {
		k := b.ownChildren(c)
		switch {
		case k > 0:
			withHoles++
			deep += k
			if b.holdsParts(c) && b.isInnerLine(i, c) {
				frames++
			}
		case b.isRound(c):
			round++
		default:
			plain++
		}
	}
	if len(l.children) == 0 {
		return false
	}
	w := b.borderWitness(i)
	// A border runs round the dimensions of what lies in it.
	noBorder := w.outside > 0 && w.words < 2
	if withHoles == 0 && !w.table && (noBorder || w.texts < manyTexts && !(w.sheet != "" && w.words >= 2)) {
		b.doubtMarked(i)
		return false
	}
	src := l.sources()
	readings := fmt.Sprintf("read as a border there are %d parts, read as a plate %d", len(l.children), 1+deep)
	size := fmt.Sprintf("%s x %s mm", shortNumber(l.box.Width()), shortNumber(l.box.Height()))
	switch {
	case b.isFramed(i, w, withHoles, round):
		l.dead = true
		b.note(Note{Code: "border-taken-out", At: l.box.Min, HasAt: true, Source: src,
			Text: fmt.Sprintf("the rectangle of %s round the drawing was taken for its frame: %s", size, w.why())})
		b.areas = append(b.areas, sheetArea{box: l.box, frame: true, field: l.box})
		return true
	case round == 0 && (withHoles >= 2 || frames == 1) && withHoles >= plain && b.clearOf(i):
		l.dead = true
		text := fmt.Sprintf("the rectangle of %s round the parts was taken for the border of a sheet", size)
		b.note(Note{Code: "border-taken-out", At: l.box.Min, HasAt: true, Text: text, Source: src})
		b.borderDoubts = append(b.borderDoubts, borderDoubt{l.box, Doubt{Code: "maybe-frame", At: l.box.Min, Text: text + "; " + readings, Source: src}})
		return true
	case round == 0 && withHoles == 1 && deep >= 2 && b.boxesBeside(i) && !b.isThreeDeep(i) && b.clearOf(i):
		// One part with holes: discs cut from the waste of a window are the
		// less likely reading, but nothing rules them out.
		l.dead = true
		text := fmt.Sprintf("the rectangle of %s round the part may be the border of a sheet, which was supposed, or a plate with a window: ", size) + readings
		b.note(Note{Code: "border-taken-out", At: l.box.Min, HasAt: true, Text: text, Source: src})
		b.borderDoubts = append(b.borderDoubts, borderDoubt{l.box, Doubt{Code: "maybe-frame", Grave: true, At: l.box.Min, Text: text, Source: src}})
		return true
	case round == 0 || withHoles >= 3 && withHoles > round:
		b.borderDoubts = append(b.borderDoubts, borderDoubt{l.box, Doubt{Code: "maybe-frame", Grave: true, At: l.box.Min,
			Text: "the rectangle may be a plate with openings or the border of a sheet: " + readings, Source: src}})
	}
	return false
}

// isFramed tells whether the evidence makes a rectangle the frame of a drawing.
func (b *builder) isFramed(i int, w borderWitness, withHoles, round int) bool {
	return round == 0 && len(b.loops[i].children) > 0 && !w.ownSize && w.isFrame(withHoles) && (w.table || !b.isThreeDeep(i)) && b.clearOf(i)
}

// isThreeDeep tells whether an opening in what lies in a loop holds openings: a
// plate with a part in its window looks so, as does a plate like it in a frame.
func (b *builder) isThreeDeep(i int) bool {
	for _, c := range b.loops[i].children {
		for _, d := range b.loops[c].children {
			if !b.isConcentric(c, d) && b.ownChildren(d) > 0 {
				return true
			}
		}
	}
	return false
}

// isInnerLine tells whether a rectangle in a rectangle is so near to it all round
// that both can be the lines of one frame.
func (b *builder) isInnerLine(i, c int) bool {
	l, in := &b.loops[i], &b.loops[c]
	most := frameMarginShare * math.Max(l.box.Width(), l.box.Height())
	for _, m := range []float64{in.box.Min.X - l.box.Min.X, l.box.Max.X - in.box.Max.X, in.box.Min.Y - l.box.Min.Y, l.box.Max.Y - in.box.Max.Y} {
		if m > most {
			return false
		}
	}
	return true
}

// isOuterLine tells whether a rectangle holds nothing but another one a little
// smaller that is the frame of a drawing.
func (b *builder) isOuterLine(i int) bool {
	l := &b.loops[i]
	if len(l.children) != 1 || !isRectangle(b.loops[l.children[0]].ring) {
		return false
	}
	if !b.isInnerLine(i, l.children[0]) {
		return false
	}
	in := &b.loops[l.children[0]]
	withHoles, round := 0, 0
	for _, c := range in.children {
		switch {
		case b.ownChildren(c) > 0:
			withHoles++
		case b.isRound(c):
			round++
		}
	}
	return b.isFramed(l.children[0], b.borderWitness(l.children[0]), withHoles, round)
}

// holdsParts tells whether a loop is a rectangle that holds nothing but
// contours that hold contours: the inner line of a double border.
func (b *builder) holdsParts(i int) bool {
	if !isRectangle(b.loops[i].ring) {
		return false
	}
	for _, c := range b.loops[i].children {
		if b.ownChildren(c) == 0 {
			return false
		}
	}
	return len(b.loops[i].children) > 0
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
		if !b.isConcentric(i, c) {
			n++
		}
	}
	return n
}

func (b *builder) isRound(i int) bool {
	_, _, ok := b.loops[i].isCircle()
	return ok
}

// isConcentric tells whether both loops are circles about one centre.
func (b *builder) isConcentric(outer, inner int) bool {
	co, _, ok1 := b.loops[outer].isCircle()
	ci, _, ok2 := b.loops[inner].isCircle()
	return ok1 && ok2 && co.Dist(ci) <= seatCentreMM
}

// A seat is at least 1.15 times as wide as its hole and 1 mm wider: less bears
// no head and is a hole drawn twice or in two sizes (common practice, no
// source).
const (
	seatRatio  = 1.15
	seatMoreMM = 1.0
)

// isSeatOf tells whether the inner loop is a circle about the outer's centre
// and so much smaller that the outer can be its seat.
func (b *builder) isSeatOf(outer, inner int) bool {
	_, ro, _ := b.loops[outer].isCircle()
	_, ri, _ := b.loops[inner].isCircle()
	return b.isConcentric(outer, inner) && ro >= seatRatio*ri-1e-6 && 2*(ro-ri) >= seatMoreMM-1e-6
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
