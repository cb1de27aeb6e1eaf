package features

import (
	"fmt"
	"slices"

	"burrside/features/geom"
)

// metalGapMM is the metal left all round a part that lies in a cut-out: less
// can be cut by nothing (common practice, no source).
const metalGapMM = 3.0

// draft is a part on its way: loops by index.
type draft struct {
	outline int
	holes   []int
	seats   map[int][]int // by hole: circles about the same centre, outermost first
	marks   []int         // closed entities that cross the outline or a hole
	threads map[int]thread
	lines   []Feature // bends and marks
	doubts  []Doubt
	ring    geom.Ring // of the outline, simplified
	dropped bool      // it is an opening of an outline that does not close
	leg     bool      // it is a leg of an angle
	pieces  []piece
	scale   Scale // of its view
}

// thread is the arc about a tapped hole.
type thread struct {
	diameterMM float64
	sources    []int32
}

// nest makes drafts of the loops: depth alternates outline, cut-out, and part
// inside a cut-out with metal all round.
func (b *builder) nest() error {
	b.settleChildren()
	b.leaderDots()
	outer := 0
	isOuter := func(l *loop) bool { return !l.dead && !l.toolMark && l.parent < 0 }
	for i := range b.loops {
		if isOuter(&b.loops[i]) {
			outer++
		}
	}
	b.drafts = slices.Grow(b.drafts, outer)
	for i := range b.loops {
		if isOuter(&b.loops[i]) {
			b.nestPart(i)
		}
	}
	b.ownLoops()
	b.nestToolMarks()
	b.nestThreads()
	b.leftOutOutline()
	b.openingsAmongWords()
	b.holesAlone()
	b.doubtWide()
	b.doubtMarks()
	b.outlineOff()
	b.compareDimensions()
	b.doubtLogos()
	b.doubtStamps()
	for _, bd := range append(b.borderDoubts, b.centreDoubts...) {
		for i := range b.drafts {
			d := &b.drafts[i]
			if bd.box.Contains(b.loops[d.outline].box.Min) && bd.box.Contains(b.loops[d.outline].box.Max) {
				d.doubts = append(d.doubts, bd.doubt)
			}
		}
	}
	for _, s := range b.sheetDoubts {
		for i := range b.drafts {
			b.drafts[i].doubts = append(b.drafts[i].doubts, s)
		}
	}
	return nil
}

// nestPart takes a loop as an outline and its children as cut-outs. It walks
// with a list of its own: a drawing may nest as deep as it likes.
func (b *builder) nestPart(first int) {
	todo := []int{first}
	for len(todo) > 0 {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		d := draft{outline: i, seats: map[int][]int{}, threads: map[int]thread{}}
		b.dropInnerOutline(&d)
		for _, h := range b.loops[i].children {
			todo = append(todo, b.nestHole(&d, h)...)
		}
		b.drafts = append(b.drafts, d)
	}
}

// nestHole takes a loop as a cut-out of the draft and gives the loops inside it
// that are parts.
func (b *builder) nestHole(d *draft, h int) []int {
	// A hole with a seat is drawn as circles about one centre; the innermost
	// goes through.
	chain := []int{h}
	for {
		last := chain[len(chain)-1]
		c := b.loops[last].children
		if len(c) != 1 || !b.isSeatOf(last, c[0]) {
			break
		}
		chain = append(chain, c[0])
	}
	if last := chain[len(chain)-1]; len(chain) > 1 && len(b.loops[last].children) == 0 {
		d.holes = append(d.holes, last)
		d.seats[last] = chain[:len(chain)-1]
		return nil
	}
	d.holes = append(d.holes, h)
	var parts []int
	for _, c := range b.loops[h].children {
		_, _, gap := geom.RingDist(b.loops[h].ring, b.loops[c].ring)
		l := &b.loops[c]
		if b.isConcentric(h, c) && !b.isSeatOf(h, c) && len(l.children) == 0 {
			_, ro, _ := b.loops[h].isCircle()
			_, ri, _ := l.isCircle()
			d.doubts = append(d.doubts, Doubt{Code: "reading-doubt", Grave: true, At: l.box.Centre(), Source: append(b.loops[h].sources(), l.sources()...),
				Text: fmt.Sprintf("circles of %s and %s mm about one centre: too near in size for a hole and its seat; one of them may be left over", shortNumber(2*ri), shortNumber(2*ro))})
			continue
		}
		if gap >= metalGapMM-1e-6 {
			parts = append(parts, c)
			if len(l.children) == 0 && b.maybeLetter(d.outline, h, c) && b.isEyed(h, c) {
				d.doubts = append(d.doubts, Doubt{Code: "maybe-letter", Grave: true, At: l.box.Centre(), Source: append(b.loops[h].sources(), l.sources()...),
					Text: fmt.Sprintf("an opening of %s x %s mm has a closed line in it: a letter with its eye, or an opening with a part cut from its waste", shortNumber(b.loops[h].box.Width()), shortNumber(b.loops[h].box.Height()))})
			}
			continue
		}
		code, more := "reading-doubt", ""
		if b.maybeLetter(d.outline, h, c) {
			code, more = "maybe-letter", "; it may be a letter"
		}
		d.doubts = append(d.doubts, Doubt{Code: code, Grave: true, At: l.box.Centre(), Source: l.sources(),
			Text: fmt.Sprintf("a closed line lies %s mm inside an opening: too near for a part in it, and no seat%s", shortNumber(gap), more)})
	}
	b.doubtDiscs(h, parts)
	return parts
}

// doubtDiscs doubts an opening that is no circle with nothing but plain circles
// in it: discs cut from the waste, or a drilled part laid on the plate.
func (b *builder) doubtDiscs(h int, parts []int) {
	if len(parts) == 0 || b.isRound(h) {
		return
	}
	for _, c := range parts {
		if !b.isRound(c) || len(b.loops[c].children) > 0 {
			return
		}
	}
	l := &b.loops[h]
	b.borderDoubts = append(b.borderDoubts, borderDoubt{b.loops[b.topOf(h)].box, Doubt{Code: "reading-doubt", Grave: true, At: l.box.Min, Source: l.sources(),
		Text: fmt.Sprintf("a closed line of %s x %s mm inside the outline has plain circles in it: an opening with %d discs in it, or a part of its own with %d holes",
			shortNumber(l.box.Width()), shortNumber(l.box.Height()), len(parts), len(parts))}})
}

// topOf is the outermost live loop round a loop.
func (b *builder) topOf(i int) int {
	for b.loops[i].parent >= 0 {
		i = b.loops[i].parent
	}
	return i
}

// nestToolMarks gives every closed entity that crosses an outline or a hole to
// the part that it crosses.
func (b *builder) nestToolMarks() {
	for i := range b.loops {
		l := &b.loops[i]
		if !l.toolMark || l.dead {
			continue
		}
		to := -1
		for _, c := range l.crosses {
			if o := b.owner[c]; o >= 0 && (to < 0 || b.roles[c] == roleOutline) {
				to = o
			}
		}
		if to < 0 {
			b.note(Note{Code: "mark-outside", At: l.box.Centre(), HasAt: true, Source: l.sources(), Text: "a closed line crosses others outside every part"})
			continue
		}
		b.drafts[to].marks = append(b.drafts[to].marks, i)
		b.doubtShifted(&b.drafts[to], i)
	}
}

// holesAlone doubts a drawing of nothing but plain circles: they are discs, or
// the holes of a part whose outline is on a layer that is off, or missing.
func (b *builder) holesAlone() {
	for i := range b.drafts {
		d := &b.drafts[i]
		if len(d.holes) > 0 || len(d.lines) > 0 || !b.loops[d.outline].ring[0].IsCircle() {
			return
		}
	}
	if len(b.drafts) < 2 {
		return
	}
	for i := range b.drafts {
		b.drafts[i].doubts = append(b.drafts[i].doubts, Doubt{Code: "reading-doubt", Grave: true, At: b.loops[b.drafts[i].outline].box.Min,
			Text: fmt.Sprintf("the drawing shows nothing but %d plain circles: discs, or holes whose outline is missing", len(b.drafts))})
	}
}
