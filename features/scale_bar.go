package features

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// barReach is how far the numbers of a scale bar stand from it, in heights of
// their letters (common practice, no source).
const barReach = 3.0

// barNumber is a number beside a scale bar.
type barNumber struct {
	at    geom.Point
	value float64
	high  float64
	long  int
}

// scaleBars finds rows of equal bars, or a bar cut in pieces, with numbers that
// begin at 0 and grow with the place: the scale drawn for eyes.
func (s *signs) scaleBars() {
	var numbers []barNumber
	zeros := 0
	for i := range s.b.sheet.Texts {
		t := &s.b.sheet.Texts[i]
		if v, ok := barValue(t.Value); ok && t.HeightMM > 0 {
			numbers = append(numbers, barNumber{t.At, v, t.HeightMM, len([]rune(t.Value))})
			if v == 0 {
				zeros++
			}
		}
	}
	if zeros == 0 || len(numbers) < 3 {
		return
	}
	for i := range s.rings {
		if s.takenContour(i) || !s.isBar(i) || s.onMetal(i) {
			continue
		}
		r := s.rings[i].Simplify(1e-3)
		for _, e := range [2]geom.Edge{r[0], r[1]} {
			if row, ok := s.barRow(i, e.StartDir(), numbers); ok {
				s.take(i, "scale bar")
				box := s.boxes[i]
				for _, k := range row {
					s.take(k, "")
					box = box.Union(s.boxes[k])
				}
				s.takeWithin(box.Grow(0.1 * math.Min(r[0].Length(), r[1].Length())))
				break
			}
		}
	}
}

// barValue reads a number beside a scale bar: "0", "2.5", "10 m".
func barValue(text string) (float64, bool) {
	for _, unit := range []string{"", "m", "cm", "mm", "ft", "in"} {
		if n := len(text) - len(unit); n > 0 && text[n:] == unit {
			if v, ok := plainNumber(text[:n]); ok {
				return v, true
			}
		}
	}
	return 0, false
}

func (s *signs) isBar(i int) bool {
	return len(s.children[i]) == 0 && !s.res.Contours[i].ToolMark && isRectangle(s.rings[i])
}

// barRow gathers the bars in line with one along u, and tells whether numbers
// make a scale of them. Filled bars may be missing from the row: they bound
// nothing, and leave gaps of their length.
func (s *signs) barRow(i int, u geom.Point, numbers []barNumber) ([]int, bool) {
	v := geom.Point{X: -u.Y, Y: u.X}
	span := func(k int, d geom.Point) (lo, hi float64) {
		lo, hi = math.Inf(1), math.Inf(-1)
		for _, e := range s.rings[k] {
			lo, hi = math.Min(lo, e.From.Dot(d)), math.Max(hi, e.From.Dot(d))
		}
		return lo, hi
	}
	lo, hi := span(i, u)
	low, top := span(i, v)
	high := top - low
	longest := hi - lo
	var row []int
	for more := true; more; {
		more = false
		for k := range s.rings {
			if k == i || slices.Contains(row, k) || !s.isBar(k) || s.takenContour(k) {
				continue
			}
			a, z := span(k, u)
			p, q := span(k, v)
			// The second row of a chequered bar touches the first.
			level := math.Abs((q-p)-high) <= 0.02*high && (math.Abs(p-low) <= 1.02*high)
			if level && a <= hi+1.05*longest && z >= lo-1.05*longest {
				row, more = append(row, k), true
				lo, hi, longest = math.Min(lo, a), math.Max(hi, z), math.Max(longest, z-a)
			}
		}
	}
	pieces := len(row) + 1
	for k := range s.res.Dividers {
		if s.res.Dividers[k].Contour == i {
			pieces++
		}
	}
	if pieces < 2 || hi-lo < 3*high {
		return nil, false
	}
	// The numbers beside: the scale that 0 and the greatest make must give the
	// others as well.
	var beside []barNumber
	zero, most := -1, -1
	for _, n := range numbers {
		x, y := n.at.Dot(u), n.at.Dot(v)
		slack := barReach*n.high + 0.7*n.high*float64(n.long)
		if x < lo-slack || x > hi+slack || y < low-slack-high || y > top+slack+high {
			continue
		}
		if n.value == 0 {
			zero = len(beside)
		}
		if most < 0 || n.value > beside[most].value {
			most = len(beside)
		}
		beside = append(beside, n)
	}
	if len(beside) < 3 || zero < 0 || !(beside[most].value > 0) {
		return nil, false
	}
	from := beside[zero].at.Dot(u)
	per := (beside[most].at.Dot(u) - from) / beside[most].value
	if math.Abs(beside[most].at.Dot(u)-from) < 0.7*(hi-lo) {
		return nil, false
	}
	for _, n := range beside {
		if math.Abs(n.at.Dot(u)-from-per*n.value) > 0.7*n.high*float64(n.long)+0.05*(hi-lo) {
			return nil, false
		}
	}
	return row, true
}
