package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
)

// A frame of a geometrical tolerance drawn as lines: cells in a row, the sign in
// the first, the width of the zone in the second, datums in the others (ISO 1101).

const (
	// A frame is twice as high as its letters (ISO 7083); these are the limits.
	frameLeast = 1.4
	frameMost  = 2.8
	// besideFrames is how far from a frame the text of the hole or the dimension
	// stands that it belongs to, in heights of the frame.
	besideFrames = 1.5
)

// toleranceFrames takes out such frames with a leader, or beside a text of a hole
// or a length; others are doubted.
func (s *signs) toleranceFrames() {
	for i, r := range s.rings {
		if !isRectangle(r) || s.takenContour(i) || s.onMetal(i) || s.isBorder(i) {
			continue
		}
		box := s.boxes[i]
		// Cells side by side, each a rectangle.
		cells, members := 1, []int{i}
		for grown := true; grown; {
			grown = false
			for k := range s.rings {
				o := s.boxes[k]
				if slices.Contains(members, k) || !isRectangle(s.rings[k]) || math.Abs(o.Min.Y-box.Min.Y) > 0.02 || math.Abs(o.Max.Y-box.Max.Y) > 0.02 ||
					math.Abs(o.Min.X-box.Max.X) > 0.02 && math.Abs(o.Max.X-box.Min.X) > 0.02 {
					continue
				}
				box, members, grown = box.Union(o), append(members, k), true
				cells++
			}
		}
		for k := range s.res.Dividers {
			if s.res.Dividers[k].Contour == i {
				cells++
			}
		}
		if cells < 2 || box.Width() < 2*box.Height() || math.Abs(box.Width()*box.Height()-sumOf(s.areas, members)) > 0.01*box.Width()*box.Height() {
			continue
		}
		high, ok := s.toleranceTexts(box)
		if !ok || s.measuredIn(box) {
			continue
		}
		var leaders []int32
		for _, k := range members {
			leaders = append(leaders, s.leadersOn(k, high)...)
		}
		if len(leaders) == 0 && !s.calledBeside(box) {
			s.b.borderDoubts = append(s.b.borderDoubts, borderDoubt{box.Grow(0.01), Doubt{Code: "maybe-text-box", Grave: true, At: box.Min, Source: s.sources(i),
				Text: fmt.Sprintf("a rectangle of %s x %s mm with cells and texts as of a tolerance: a frame of a tolerance, or a marked part", shortNumber(box.Width()), shortNumber(box.Height()))}})
			continue
		}
		s.take(i, "frame of a tolerance")
		s.takeWithin(box.Grow(leaderMM))
		for _, l := range leaders {
			s.takeItem(l)
		}
	}
}

func sumOf(list []float64, at []int) float64 {
	sum := 0.0
	for _, i := range at {
		sum += list[i]
	}
	return sum
}

// toleranceTexts tells whether the texts in a frame are those of a tolerance: a
// width and nothing but datums beside, with the first cell for the sign.
func (s *signs) toleranceTexts(box geom.Box) (high float64, ok bool) {
	widths, signs := 0, 0
	for x := range s.b.sheet.Texts {
		t := &s.b.sheet.Texts[x]
		p := s.b.textMiddle(t)
		if !box.Contains(p) {
			continue
		}
		high = math.Max(high, t.HeightMM)
		v := strings.Trim(strings.TrimSpace(t.Value), "|[]")
		for _, prefix := range []string{"%%c", "%%C", "Ø", "ø", "⌀"} {
			v = strings.TrimPrefix(v, prefix)
		}
		first := p.X < box.Min.X+box.Height()
		f, number := plainNumber(v)
		switch {
		case first && len([]rune(v)) == 1 && !number:
			signs++ // a letter of a typeface of signs
		case first:
			return 0, false
		case number && f > 0 && f < 10 && widths == 0:
			widths++
		case isDatum(v):
		default:
			return 0, false
		}
	}
	if widths != 1 || box.Height() < frameLeast*high || box.Height() > frameMost*high {
		return 0, false
	}
	return high, signs == 1 || s.drawnIn(geom.Box{Min: box.Min, Max: geom.Point{X: box.Min.X + 1.3*box.Height(), Y: box.Max.Y}})
}

// isDatum tells of a letter of a datum: "A", "A-B".
func isDatum(v string) bool {
	rest, letters := v, 0
	for _, r := range rest {
		if r >= 'A' && r <= 'Z' {
			letters++
		} else if r != '-' {
			return false
		}
	}
	return letters > 0 && letters <= 2
}

// drawnIn tells whether something small is drawn within a box and touches none of
// its sides.
func (s *signs) drawnIn(box geom.Box) bool {
	b := s.b
	inner := box.Grow(-0.02 * box.Height())
	for i := range b.items {
		in := b.inputs[b.start[i]:b.start[i+1]]
		all := len(in) > 0 && b.items[i].class == classCut
		for k := range in {
			all = all && inner.ContainsBox(in[k].Edge.Bounds())
		}
		if all {
			return true
		}
	}
	return false
}

// calledBeside tells whether the call-out of a hole, or a length, stands above or
// under a frame, as text or as a dimension's line.
func (s *signs) calledBeside(box geom.Box) bool {
	reach := box.Grow(besideFrames * box.Height())
	for x := range s.b.sheet.Texts {
		t := &s.b.sheet.Texts[x]
		if p := s.b.textMiddle(t); !reach.Contains(p) || box.Contains(p) {
			continue
		}
		if _, ok := plainNumber(t.Value); ok {
			return true
		}
		for _, row := range statedLines(*t) {
			if _, ok := measure.HoleCallOut(row); ok {
				return true
			}
		}
	}
	mm := s.b.sheet.Units.MM
	return slices.ContainsFunc(s.b.drawnDims, func(d drawnDim) bool { return reach.Contains(d.line.Mul(mm)) })
}
