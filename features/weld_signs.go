package features

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// Signs of welds (ISO 2553, AWS A2.4): an arrow line to the part, a reference
// line, on it small triangles and discs, a circle about the bend for a weld all
// round, a flag there for one made on site, a tail.

// weldMM is how far the pieces of a sign may miss each other.
const weldMM = 0.1

// weldLine is a straight edge that may be an arrow or a reference line.
type weldLine struct {
	item int32
	edge geom.Edge
}

// weldSigns finds reference lines with signs on them whose arrow ends on a part.
// The arrow's tip and a sign are asked for; what lies on metal is never taken.
func (s *signs) weldSigns() {
	if !(s.usual > 0) {
		return
	}
	const most = 4000 // lines, which are looked at in pairs
	var lines []weldLine
	b := s.b
	for i := range b.items {
		in := b.inputs[b.start[i]:b.start[i+1]]
		if b.items[i].class != classCut || len(in) == 0 || len(in) > 6 || in[0].Closed || s.taken[int32(i)] {
			continue
		}
		for k := range in {
			if !in[k].Edge.IsArc() {
				lines = append(lines, weldLine{int32(i), in[k].Edge})
			}
		}
	}
	if len(lines) > most {
		return
	}
	defer s.doubtTriangles(lines)
	for i := range lines {
		for end := range 2 {
			tip, bend := lines[i].edge.From, lines[i].edge.To
			if end == 1 {
				tip, bend = bend, tip
			}
			if lines[i].edge.Length() < s.usual || !s.tipOnPart(tip, bend) {
				continue
			}
			for k := range lines {
				e := lines[k].edge
				if k == i || e.Length() < 2*s.usual || e.From.Dist(bend) > weldMM && e.To.Dist(bend) > weldMM {
					continue
				}
				if e.To.Dist(bend) <= weldMM {
					e = e.Reverse()
				}
				if sine, _ := sineCosine(e.StartDir(), lines[i].edge.StartDir()); sine < 0.1 || !s.offMetal(e.Mid()) || !s.offMetal(e.To) {
					continue
				}
				s.weldSign(bend, e, []int32{lines[i].item, lines[k].item}, lines)
			}
		}
	}
}

// tipOnPart tells whether a line ends on a large contour and comes from outside.
func (s *signs) tipOnPart(tip, from geom.Point) bool {
	if !s.offMetal(from) {
		return false
	}
	for i, r := range s.rings {
		if s.areas[i] > 16*s.usual*s.usual && !s.isBorder(i) && s.boxes[i].Grow(leaderMM).Contains(tip) && r.Inside(tip, leaderMM) == geom.On && r.Inside(from, leaderMM) == geom.Out {
			return true
		}
	}
	return false
}

// offMetal tells whether a place lies in no large contour but borders.
func (s *signs) offMetal(p geom.Point) bool {
	for i, r := range s.rings {
		if s.areas[i] > 16*s.usual*s.usual && !s.isBorder(i) && s.boxes[i].Contains(p) && r.Inside(p, 1e-6) == geom.In {
			return false
		}
	}
	return true
}

// weldSign takes out what stands on a reference line, and the line with it.
func (s *signs) weldSign(bend geom.Point, ref geom.Edge, items []int32, lines []weldLine) {
	small := triangleHeights * s.usual
	// Poles of flags stand on the bend; the tail begins at the other end.
	stems := []geom.Edge{ref}
	for i := range lines {
		e := lines[i].edge
		if slices.Contains(items, lines[i].item) || e.Length() > 1.5*small {
			continue
		}
		at := [2]float64{e.From.Dist(bend), e.To.Dist(bend)}
		if at[0] <= weldMM || at[1] <= weldMM {
			stems, items = append(stems, e), append(items, lines[i].item)
		} else if e.From.Dist(ref.To) <= weldMM || e.To.Dist(ref.To) <= weldMM {
			items = append(items, lines[i].item)
		}
	}
	onStem := func(p geom.Point) bool {
		return slices.ContainsFunc(stems, func(e geom.Edge) bool { return e.Dist(p) <= weldMM })
	}
	found := false
	for i, r := range s.rings {
		box := s.boxes[i]
		if s.takenContour(i) || len(s.texts[i]) > 0 || math.Max(box.Width(), box.Height()) > 2*small || !s.offMetal(box.Centre()) || s.measuredBy(i) {
			continue
		}
		if c, radius, ok := circleOf(r); ok {
			// About the bend, or on the line or touching it from beside: a line that
			// ends on a circle leads to it.
			along := c.Sub(ref.From).Dot(ref.StartDir())
			off := ref.Dist(c)
			beside := along > weldMM && along < ref.Length()-weldMM && (off <= weldMM || math.Abs(off-radius) <= weldMM)
			if radius <= s.usual && (c.Dist(bend) <= weldMM || beside) {
				s.take(i, "")
				found = true
			}
			continue
		}
		q := r.Simplify(1e-3)
		rests := slices.ContainsFunc(q, func(e geom.Edge) bool { return !e.IsArc() && onStem(e.From) && onStem(e.Mid()) && onStem(e.To) })
		// Triangles on both sides of the line are one contour that it crosses.
		rests = rests && (len(q) == 3 || len(q) == 4) && math.Max(box.Width(), box.Height()) <= small
		across := (len(q) == 3 || len(q) == 4 && !isRectangle(r)) && ref.Dist(box.Centre()) <= 0.1*size(box) && !box.Contains(ref.From) && !box.Contains(ref.To)
		if rests || across {
			s.take(i, "")
			found = true
		}
	}
	// A triangle of two lines that rests on the reference line.
	for i := range lines {
		for k := range i {
			d, e := lines[i].edge, lines[k].edge
			if slices.Contains(items, lines[i].item) || slices.Contains(items, lines[k].item) || d.Length() > small || e.Length() > small {
				continue
			}
			for n := range 4 {
				p, q := d, e
				if n&1 == 1 {
					p = p.Reverse()
				}
				if n&2 == 2 {
					q = q.Reverse()
				}
				if p.To.Dist(q.From) <= weldMM && onStem(p.From) && onStem(q.To) && !onStem(p.To) && p.From.Dist(q.To) > weldMM {
					s.takeItem(lines[i].item)
					s.takeItem(lines[k].item)
					found = true
				}
			}
		}
	}
	if !found {
		return
	}
	for _, it := range items {
		s.takeItem(it)
	}
	const what = "sign of a weld"
	if s.count[what]++; s.count[what] == 1 || comparePlace(bend, s.at[what]) < 0 {
		s.at[what] = bend
	}
}

// doubtTriangles doubts small triangles that rest on a line which leads to no part.
func (s *signs) doubtTriangles(lines []weldLine) {
	for i, r := range s.rings {
		box := s.boxes[i]
		q := r.Simplify(1e-3)
		if len(q) != 3 || !s.drawing || s.takenContour(i) || len(s.texts[i]) > 0 || math.Max(box.Width(), box.Height()) > triangleHeights*s.usual || !s.offMetal(box.Centre()) || s.measuredBy(i) || !s.largerThan(i) {
			continue
		}
		for k := range lines {
			e := lines[k].edge
			if e.Length() < 2*s.usual || !slices.ContainsFunc(q, func(d geom.Edge) bool {
				return !d.IsArc() && e.Dist(d.From) <= weldMM && e.Dist(d.To) <= weldMM && d.Length() < e.Length()-weldMM
			}) {
				continue
			}
			s.b.borderDoubts = append(s.b.borderDoubts, borderDoubt{box.Grow(0.01), Doubt{Code: "reading-doubt", Grave: true, At: box.Min, Source: s.sources(i),
				Text: "a small triangle rests on a line: the sign of a weld, or a part"}})
			break
		}
	}
}
