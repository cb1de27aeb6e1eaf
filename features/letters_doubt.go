package features

import (
	"fmt"
	"math"

	"burrside/features/geom"
)

// Closed figures in a line may be letters, and they may be what is made: small
// parts beside a large one, or openings, such as those of a stencil. What tells
// letters is thin strokes, open strokes, or eyes: nobody cuts an opening with an
// eye, for it falls out, nor so thin a shape.

// letterMadeMM is the mean width of a figure from which on it may be a part or an
// opening of its own: legs of parts and openings in plate are hardly narrower
// (common practice, no source). Letters of common typefaces are so wide in their
// strokes from some 15 mm of height on.
const letterMadeMM = 2.0

// letterForm tells what a line of text is drawn of.
type letterForm struct {
	wide   bool // closed figures alone, half of them as wide as what is made
	eyes   bool // a figure holds another
	punch  bool // those within have shapes that a punch has: slots, rectangles
	others int  // figures that lie in no other
}

// formOf tells what the figures of a line of text are.
func (r *letterReader) formOf(line []int) letterForm {
	out := letterForm{punch: true}
	thick := 0
	for _, i := range line {
		if !r.figs[i].closed || r.figs[i].open {
			return letterForm{}
		}
		if r.insideOther(i, line) {
			out.eyes = true
			out.punch = out.punch && r.shape(i).squared
			continue
		}
		out.others++
		area, length := r.shape(i).area, r.shape(i).length
		for _, k := range line {
			if k != i && r.figs[i].box.ContainsBox(r.figs[k].box) && r.figs[k].length < r.figs[i].length {
				area -= r.shape(k).area
				length += r.shape(k).length
			}
		}
		if 2*area >= float64(letterMadeMM*length) {
			thick++
		}
	}
	out.wide = 2*thick >= out.others && thick > 0
	return out
}

// doubtLettersOn doubts a part on which figures without eyes were taken for
// letters.
func (b *builder) doubtLettersOn(part int, l *letterLine) {
	if !l.form.wide || l.form.eyes {
		return
	}
	b.drafts[part].doubts = append(b.drafts[part].doubts, Doubt{Code: "maybe-letter", Grave: true, At: l.box.Centre(), Source: b.sourcesOfInputs(l.inputs),
		Text: fmt.Sprintf("%d closed lines in a row were taken for letters and marked only; none has an eye and they are wide enough to be openings: letters, or openings", l.form.others)})
}

// doubtLettersBeside doubts the whole drawing when figures outside its parts
// were taken for letters that may be parts: without eyes, or with none but slots
// and rectangles.
func (b *builder) doubtLettersBeside(l *letterLine) {
	if !l.form.wide || l.form.eyes && !l.form.punch {
		return
	}
	for d := range b.drafts {
		b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-letter", Grave: true, At: l.box.Centre(), Source: b.sourcesOfInputs(l.inputs),
			Text: fmt.Sprintf("%d closed lines in a row outside the parts were taken for letters and left out: they may be small parts", l.form.others)})
	}
}

func (b *builder) sourcesOfInputs(inputs []int32) []Source {
	infos := make([]int32, 0, len(inputs))
	for _, in := range inputs {
		infos = append(infos, b.inputs[in].Source)
	}
	return sourcesOf(infos)
}

// mostLarge is how many rows too large for text are kept.
const mostLarge = 1000

// inputsOf lists the edges of the letters of a row; nil if some are open strokes.
func (r *letterReader) inputsOf(run []spanned, core []int) []int32 {
	var out []int32
	for _, k := range core {
		for _, i := range run[k].figs {
			if !r.figs[i].closed || r.figs[i].open {
				return nil
			}
			out = append(out, r.figs[i].inputs...)
		}
	}
	return out
}

func (b *builder) keepLarge(row []int32) {
	if len(row) > 0 && len(b.largeLetters) < mostLarge {
		b.largeLetters = append(b.largeLetters, row)
	}
}

// doubtLargeLetters doubts the parts with openings that stand like a line of
// text and are too large to be taken for one: they were read as openings, and
// letters without eyes are cut through as well as marked.
func (b *builder) doubtLargeLetters() {
	holes := map[int]map[int]bool{} // by draft
	for _, row := range b.largeLetters {
		found := map[int]map[int]bool{}
		for _, in := range row {
			p := b.inputs[in].Edge.Mid()
			b.loopsAt(p, func(i int) {
				if b.roles[i] != roleHole || b.loops[i].ring.Inside(p, touchMM) != geom.On {
					return
				}
				d := b.owner[i]
				if found[d] == nil {
					found[d] = map[int]bool{}
				}
				found[d][i] = true
			})
		}
		for d, list := range found {
			if len(list) < letterLeast {
				continue
			}
			if holes[d] == nil {
				holes[d] = map[int]bool{}
			}
			for i := range list {
				holes[d][i] = true
			}
		}
	}
	for d := range b.drafts {
		if holes[d] == nil {
			continue
		}
		var box geom.Box
		var src []Source
		first := true
		for _, i := range b.drafts[d].holes {
			if !holes[d][i] {
				continue
			}
			if first {
				box, first = b.loops[i].box, false
			}
			box = box.Union(b.loops[i].box)
			src = append(src, b.loops[i].sources()...)
		}
		b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-letter", Grave: true, At: box.Centre(), Source: src,
			Text: fmt.Sprintf("%d openings stand in a row like letters: openings, as they were read, or letters that are marked only", len(holes[d]))})
	}
}

// doubtLoneLetters says of a small free opening with the strokes of a letter that
// it may be one. Equal ones, or more than two, are openings: a letter or two
// alone name a side or a size.
func (b *builder) doubtLoneLetters() {
	for d := range b.drafts {
		o := b.loops[b.drafts[d].outline].box
		most := math.Min(letterSolidMM, letterPartShare*math.Min(o.Width(), o.Height()))
		var like []int
		for _, i := range b.drafts[d].holes {
			if l := &b.loops[i]; size(l.box) <= most && len(l.children) == 0 && len(l.ring) >= 6 && b.isLetterLike(l) {
				if like = append(like, i); len(like) > 2 {
					break
				}
			}
		}
		if len(like) > 2 || len(like) == 2 && math.Abs(b.loops[like[0]].area-b.loops[like[1]].area) <= 0.02*b.loops[like[0]].area {
			continue
		}
		for _, i := range like {
			l := &b.loops[i]
			b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-letter", At: l.box.Centre(), Source: l.sources(),
				Text: fmt.Sprintf("an opening of %s x %s mm looks like a letter; it was read as an opening", shortNumber(l.box.Width()), shortNumber(l.box.Height()))})
		}
	}
}

// isEyed tells whether an opening with a closed line in it has the strokes of a
// letter: the way round the eye is narrow.
func (b *builder) isEyed(hole, eye int) bool {
	h, e := &b.loops[hole], &b.loops[eye]
	return 2*(h.area-e.area) <= float64(size(h.box)/3*(h.ring.Length()+e.ring.Length()))
}

// isLetterLike tells whether a loop has strokes of one width, a third of its size
// at most, that turn as those of a T do or more. Stars and crosses are as wide as
// high; letters are not.
func (b *builder) isLetterLike(l *loop) bool {
	r := geom.LeastRectangle(l.ring)
	long := math.Max(r.Width, r.Height)
	if math.Abs(r.Width-r.Height) <= 0.06*long {
		return false
	}
	if 2*l.area > float64(long/3*l.ring.Length()) || turningOf(l.ring)-2*math.Pi < 2*math.Pi-0.2 {
		return false
	}
	k := recogniseInside(l.ring)
	return k.Kind == Cutout && k.Subkind == "free"
}
