package features

import (
	"math"
	"slices"
)

// isText weighs whether figures of one height on one base line are letters: two
// of them at least, and half, are no shape that a punch has, and they differ
// from each other or have eyes, which nothing cuts. Without eyes and strokes it
// takes three. A round hole in one of them makes all of them small parts.
//
// solid tells that none has an eye or a stroke.
func (r *letterReader) isText(run []spanned, core []int, h float64) (text, solid bool) {
	letters, eyes, strokes, most, edges := 0, 0, 0, 0, 0
	var distinct []figureShape
	var counts []int
	for _, k := range core {
		if r.hasHole(run[k].figs) {
			return false, false
		}
		whole := r.wholeShape(run[k].figs)
		eyed := r.hasEye(run[k].figs)
		if !eyed && whole.punch {
			continue // an O or an I, or an opening among letters
		}
		letters++
		if eyed {
			eyes++
		}
		if whole.stroke {
			strokes++
		}
		n := 0
		for _, i := range run[k].figs {
			n += len(r.figs[i].inputs)
		}
		edges = max(edges, n)
		at := slices.IndexFunc(distinct, func(d figureShape) bool {
			return d.stroke == whole.stroke && math.Abs(d.length-whole.length) <= 0.01*whole.length && math.Abs(d.area-whole.area) <= 0.02*whole.area
		})
		if at < 0 {
			at = len(distinct)
			distinct, counts = append(distinct, whole), append(counts, 0)
		}
		counts[at]++
		most = max(most, counts[at])
	}
	// The noughts of a stroke font come beside other strokes.
	if n := r.noughts(run, core, h); strokes > 0 && n > 0 && letters+n >= letterLeast {
		return true, false
	}
	if letters < 2 || 2*letters < len(core) {
		return false, false
	}
	if eyes == 0 && strokes == 0 {
		return letters >= letterLeast && len(distinct) >= 2, true
	}
	if eyes > 0 {
		return len(distinct) >= 2 || eyes >= 2, false
	}
	// Signs of two lines, angles and tees, are repeated; words are not.
	return len(distinct) >= 2 && edges >= 3 && 3*most <= 2*letters, false
}

// hasHole tells whether a figure of a letter holds a circle and is none itself.
func (r *letterReader) hasHole(figs []int) bool {
	for _, i := range figs {
		if !r.figs[i].closed || r.shape(i).round == 0 {
			continue
		}
		for _, k := range figs {
			if k != i && r.figs[k].closed && r.shape(k).round == 0 && r.figs[k].box.ContainsBox(r.figs[i].box) {
				return true
			}
		}
	}
	return false
}

// wholeShape is the shape of a letter of one or more figures.
func (r *letterReader) wholeShape(figs []int) figureShape {
	whole := *r.shape(figs[0])
	for _, i := range figs[1:] {
		s := r.shape(i)
		whole.stroke = whole.stroke || s.stroke
		// Two strokes that touch are no opening, nor is an opening with a
		// stroke on it.
		whole.punch = whole.punch && s.punch && !whole.stroke
		whole.length += s.length
		whole.area += s.area
		whole.round = 0
	}
	return whole
}

// noughts counts the figures of the core that are noughts of a stroke font:
// closed lines all of one size, higher than wide and as high as the letters.
func (r *letterReader) noughts(run []spanned, core []int, h float64) int {
	n := 0
	var first *figureShape
	for _, k := range core {
		if len(run[k].figs) != 1 {
			continue
		}
		s := r.shape(run[k].figs[0])
		if s.stroke || !s.punch || s.round > 0 || s.squared || run[k].box.Width() > 0.85*run[k].height() || math.Abs(run[k].height()-h) > 0.02*h {
			continue
		}
		if first == nil {
			first = s
		}
		if math.Abs(s.length-first.length) > 0.01*first.length {
			return 0
		}
		n++
	}
	return n
}

// hasEye tells whether a closed figure of a letter, which is no circle, holds
// another one within.
func (r *letterReader) hasEye(figs []int) bool {
	for _, i := range figs {
		f := &r.figs[i]
		if s := r.shape(i); !f.closed || s.round > 0 || s.squared {
			continue
		}
		for _, k := range figs {
			if k != i && r.figs[k].closed && f.box.ContainsBox(r.figs[k].box) && r.figs[k].length < f.length {
				return true
			}
		}
	}
	return false
}

// maybeLetter tells whether an opening with a closed line in it may be a letter
// with its eye: neither has a shape that a punch has, and it is as small against
// the part as letters are.
func (b *builder) maybeLetter(outline, hole, eye int) bool {
	o, h := b.loops[outline].box, b.loops[hole].box
	if math.Min(h.Width(), h.Height()) > letterPartShare*math.Min(o.Width(), o.Height()) || b.isRound(hole) || b.isRound(eye) {
		return false
	}
	k := recogniseInside(b.loops[hole].ring)
	return k.Kind == Cutout
}
