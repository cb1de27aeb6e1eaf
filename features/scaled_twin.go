package features

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"burrside/features/measure"
)

// A part that is drawn twice at two scales, both without a title, reads as two
// parts, one of them of a wrong size. Two outlines of one shape whose openings
// agree in the ratio of two usual scales are doubted, where the sheet tells them
// apart by nothing.

const (
	// twinShare is how far sizes may be from the ratio: a drawing to a scale is
	// exact, but small arcs are rounded.
	twinShare = 2e-3
	// mostTwins is up to how many parts are compared; a sheet of more is a nest.
	mostTwins = 60
	// twinLabelHeights is how far from a view its name stands, in letter heights.
	twinLabelHeights = 8.0
)

// twinRatio is the ratio of two usual scales (ISO 5455 with 1:2.5, 1:3, 1:4, 1:8
// and 1:15, from memory) next to a ratio of sizes, 0 none within twinShare.
func twinRatio(f float64) float64 {
	for _, r := range [...]float64{1.5, 2, 2.5, 3, 4, 5, 7.5, 8, 10, 20, 25, 40, 50} {
		if math.Abs(f-r) <= twinShare*r {
			return r
		}
	}
	return 0
}

// similarBy is how many times as large one part is as another of its shape, 0 if
// their shapes differ. Turned and mirrored ones are alike.
func similarBy(large, small *Part) float64 {
	r := twinRatio(large.PerimeterMM / small.PerimeterMM)
	if r == 0 || len(large.Outline) != len(small.Outline) || len(large.Holes) != len(small.Holes) {
		return 0
	}
	shape := func(p *Part, k float64) []float64 {
		c := p.Outline.Centroid()
		out := []float64{k * math.Max(p.Box.Width(), p.Box.Height()), k * math.Min(p.Box.Width(), p.Box.Height()), k * math.Sqrt(p.Outline.Area())}
		var edges, holes, places []float64
		for _, e := range p.Outline {
			edges = append(edges, k*e.Length())
		}
		for _, h := range p.Holes {
			holes = append(holes, k*math.Sqrt(h.Area()))
			places = append(places, k*h.Centroid().Dist(c)+3*k*math.Sqrt(h.Area()))
		}
		for _, list := range [][]float64{edges, holes, places} {
			slices.Sort(list)
			out = append(out, list...)
		}
		return out
	}
	a, b := shape(large, 1), shape(small, r)
	for i := range a {
		if math.Abs(a[i]-b[i]) > twinShare*a[0] {
			return 0
		}
	}
	return r
}

// isPlainShape tells of shapes that come in many sizes by themselves: outlines
// with no opening, rings and rectangles with one hole in the middle.
func isPlainShape(p *Part) bool {
	switch {
	case len(p.Holes) == 0:
		return true
	case len(p.Holes) > 1:
		return false
	}
	round := true
	for _, e := range p.Outline {
		round = round && e.IsArc()
	}
	return (round || isRectangle(p.Outline)) && p.Holes[0].Centroid().Dist(p.Outline.Centroid()) <= twinShare*math.Max(p.Box.Width(), p.Box.Height())
}

// doubtScaledTwins doubts parts that may be one, drawn at two scales.
func (b *builder) doubtScaledTwins() {
	parts := b.sheet.Parts
	if len(parts) < 2 || len(parts) > mostTwins || len(b.drawnDims) == 0 && len(b.areas) == 0 && len(b.sheet.Texts) == 0 {
		return
	}
	loopOf := make([]int, len(parts))
	for i := range loopOf {
		loopOf[i] = -1
	}
	for _, in := range b.instances {
		if loopOf[in.part] < 0 {
			loopOf[in.part] = in.loop
		}
	}
	for i := range parts {
		for k := range parts {
			large, small := &parts[i], &parts[k]
			if large.Form != FormFlat || small.Form != FormFlat || loopOf[i] < 0 || loopOf[k] < 0 || !(large.PerimeterMM > small.PerimeterMM) || isPlainShape(large) {
				continue
			}
			r := similarBy(large, small)
			if r == 0 {
				continue
			}
			scaled := b.scaleBeside(loopOf[i]) || b.scaleBeside(loopOf[k])
			told := 0
			for _, x := range [2]int{i, k} {
				if b.isToldPart(loopOf[x], loopOf) {
					told++
				}
			}
			if told == 2 && !scaled || statedApart(large, small) {
				continue
			}
			text := fmt.Sprintf("a part of %s x %s mm and one %s times as large have one shape: one part, drawn at two scales, or two parts",
				shortNumber(small.Box.Width()), shortNumber(small.Box.Height()), shortNumber(r))
			for _, x := range [2]int{i, k} {
				parts[x].Doubts = append(parts[x].Doubts, Doubt{Code: "maybe-twice", Grave: scaled || told == 0, At: b.loops[loopOf[x]].box.Min, Source: b.loops[loopOf[x]].sources(), Text: text})
			}
		}
	}
}

// statedApart tells whether texts state different things of two parts, or the
// same in two places.
func statedApart(p, q *Part) bool {
	apart := func(a, b Stated) bool { return a.From == "text" && b.From == "text" && a.At != b.At }
	return apart(p.Thickness, q.Thickness) || apart(p.Material, q.Material) ||
		p.QuantityFrom == "text" && q.QuantityFrom == "text" && p.QuantityAt != q.QuantityAt
}

// isToldPart tells whether a dimension measures an outline, or a name of its own
// stands in it or by it, nearer than to any other.
func (b *builder) isToldPart(loop int, loops []int) bool {
	l := &b.loops[loop]
	for i := range b.drawnDims {
		if d := &b.drawnDims[i]; b.dimEndsOn(d, append([]int{loop}, l.children...)) {
			return true
		}
	}
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		d := boxDist(l.box, t.At)
		if d > twinLabelHeights*t.HeightMM || !isPartLabel(t.Value) || b.tableOf(t) >= 0 {
			continue
		}
		nearest := true
		for _, k := range loops {
			nearest = nearest && (k < 0 || k == loop || boxDist(b.loops[k].box, t.At) > d)
		}
		if nearest {
			return true
		}
	}
	return false
}

// isPartLabel tells whether a text may name one part: a mark, or words that are
// no scale and no call-out of holes.
func isPartLabel(text string) bool {
	if isMark(text) || markOf(text) != "" {
		return true
	}
	if _, word, ok := measure.ScaleNote(text); ok && word {
		return false
	}
	if _, hole := measure.HoleCallOut(text); hole {
		return false
	}
	return strings.IndexFunc(text, unicode.IsLetter) >= 0 && isWord(text)
}

// scaleBeside tells whether a text by an outline states a scale.
func (b *builder) scaleBeside(loop int) bool {
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if boxDist(b.loops[loop].box, t.At) > twinLabelHeights*t.HeightMM || b.tableOf(t) >= 0 {
			continue
		}
		if f, word, ok := measure.ScaleNote(t.Value); ok && f != 1 && (word || isRatio(strings.Trim(strings.TrimSpace(t.Value), "()[]"))) {
			return true
		}
	}
	return false
}
