package features

import (
	"math"
	"strings"

	"burrside/features/geom"
)

// Small closed signs of a drawing that no text stands in: the arrow that points
// north, and the triangles of surface signs and levels.

const (
	// northHeights is how far from a north arrow its letter stands, in heights.
	northHeights = 3.0
	// triangleHeights is how wide the triangle of a sign is at most, in heights of
	// the drawing's usual letters (three times the height of the letters in ISO 1302, from memory).
	triangleHeights = 3.2
)

// northArrows finds a circle with a pointed needle in it from rim to rim, or
// nearly, and the letter N beside its tip.
func (s *signs) northArrows() {
	if !s.drawing {
		return
	}
	for i, r := range s.rings {
		c, radius, ok := circleOf(r)
		if !ok || s.takenContour(i) || s.onMetal(i) || !s.largerThan(i) || s.measuredBy(i) {
			continue
		}
		named := false
		for x := range s.b.sheet.Texts {
			t := &s.b.sheet.Texts[x]
			if v := strings.TrimSpace(t.Value); v != "N" && v != "NORTH" && v != "NORD" && v != "NORTE" && v != "NOORD" {
				continue
			}
			named = named || s.b.textMiddle(t).Dist(c) <= radius+northHeights*t.HeightMM
		}
		if !named || !s.hasNeedle(i, c, radius) {
			continue
		}
		s.take(i, "north arrow")
		s.takeWithin(s.boxes[i].Grow(leaderMM))
	}
}

// hasNeedle tells whether a contour in a circle is pointed, with its tip on or near
// the rim.
func (s *signs) hasNeedle(i int, c geom.Point, radius float64) bool {
	for k, r := range s.rings {
		if k == i || !s.boxes[i].Grow(leaderMM).ContainsBox(s.boxes[k]) || len(r) < 3 || len(r) > 6 {
			continue
		}
		for n, e := range r {
			if e.IsArc() {
				break
			}
			before := r[(n+len(r)-1)%len(r)]
			turn := before.StartDir().Mul(-1).Dot(e.StartDir())
			if !before.IsArc() && turn > 0.7 && e.From.Dist(c) >= 0.8*radius {
				return true
			}
		}
	}
	return false
}

// triangles finds small triangles with equal sides, or two of them, that stand
// with their tip on an outline: signs of a surface, of a datum or a level. Equal
// ones elsewhere on the sheet are such signs too.
func (s *signs) triangles() {
	if !s.drawing || !(s.usual > 0) {
		return
	}
	var list []int
	var sizes []float64
	for i, r := range s.rings {
		if q := r.Simplify(1e-3); len(q) == 3 && !s.takenContour(i) && !s.onMetal(i) && len(s.texts[i]) == 0 && len(s.children[i]) == 0 &&
			math.Max(s.boxes[i].Width(), s.boxes[i].Height()) <= triangleHeights*s.usual && !s.measuredBy(i) && s.largerThan(i) && isEvenTriangle(q) {
			list = append(list, i)
			sizes = append(sizes, s.areas[i])
		}
	}
	for n, i := range list {
		touches := false
		for m, k := range list {
			touches = touches || (m == n || math.Abs(sizes[m]-sizes[n]) <= 0.01*sizes[n]) && s.standsOn(k)
		}
		if touches {
			s.take(i, "triangle of a sign")
		}
	}
}

// isEvenTriangle tells whether two sides of a triangle are equal.
func isEvenTriangle(r geom.Ring) bool {
	a, b, c := r[0].Length(), r[1].Length(), r[2].Length()
	even := func(p, q float64) bool { return math.Abs(p-q) <= 0.02*math.Max(p, q) }
	return !r[0].IsArc() && !r[1].IsArc() && !r[2].IsArc() && (even(a, b) || even(b, c) || even(a, c))
}

// standsOn tells whether one corner of a contour lies on another, larger one, and
// no other of its corners does.
func (s *signs) standsOn(i int) bool {
	for k, r := range s.rings {
		if k == i || s.areas[k] <= 4*s.areas[i] || !s.boxes[k].Grow(leaderMM).Overlaps(s.boxes[i]) {
			continue
		}
		on := 0
		for _, e := range s.rings[i] {
			if r.Inside(e.From, 0.02) == geom.On {
				on++
			}
		}
		if on == 1 {
			return true
		}
	}
	return false
}

// isSquareMark tells whether a rectangle is a square with one mark in it.
func (s *signs) isSquareMark(i int) bool {
	long, short := sidesOf(s.rings[i])
	return long-short <= 0.01*long && len(s.texts[i]) == 1 && isMark(s.b.sheet.Texts[s.texts[i][0]].Value)
}

// besideLarger tells whether a small figure has nothing drawn in it, is measured by
// no dimension, and a much larger outline stands within four of its widths.
func (s *signs) besideLarger(i int, wide float64) bool {
	if len(s.children[i]) > 0 || s.measuredBy(i) {
		return false
	}
	near := s.boxes[i].Grow(4 * wide)
	for k := range s.rings {
		if k != i && s.areas[k] > 4*s.areas[i] && !s.isBorder(k) && near.Overlaps(s.boxes[k]) {
			return true
		}
	}
	return false
}
