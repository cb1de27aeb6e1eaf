package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// A plate is shown a third time as one sees it: three parallelograms that share
// a corner, their edges 120 degrees apart (ISO 5456-3, isometric).

const (
	// isoSine is how far the edges may be off 120 degrees: one degree.
	isoSine = 0.0175
	// isoShare is how far the sides of another view may be off, as a share.
	isoShare = 0.005
	// mostIsoLines is up to how many lines are looked at.
	mostIsoLines = 20_000
)

// isometrics takes isometric views out if another view has two of the three
// sides; else what is drawn there is doubted.
func (s *signs) isometrics() {
	b := s.b
	var in []int32
	for i := range b.items {
		if b.items[i].class != classCut {
			continue
		}
		for k := b.start[i]; k < b.start[i+1]; k++ {
			if !b.inputs[k].Edge.IsArc() {
				in = append(in, int32(k))
			}
		}
	}
	if len(in) < 9 || len(in) > mostIsoLines {
		return
	}
	m := b.meetEnds(in)
	at := make([]geom.Point, len(m.count))
	beside := make([][]int32, len(m.count))
	for k, x := range in {
		p, q := m.at[2*k], m.at[2*k+1]
		at[p], at[q] = b.inputs[x].Edge.From, b.inputs[x].Edge.To
		if p != q && !slices.Contains(beside[p], q) {
			beside[p], beside[q] = append(beside[p], q), append(beside[q], p)
		}
	}
	var found []geom.Ring
	for v := range beside {
		if len(beside[v]) != 3 {
			continue
		}
		a, ok := hexagonAbout(int32(v), at, beside)
		if ok && !slices.ContainsFunc(found, func(r geom.Ring) bool { return r.Inside(at[v], leaderMM) != geom.Out }) {
			found = append(found, a)
			s.isometric(at[v], a)
		}
	}
	s.maybeIsometric()
}

// hexagonAbout is the outline of the three parallelograms about a corner.
func hexagonAbout(v int32, at []geom.Point, beside [][]int32) (geom.Ring, bool) {
	n := slices.Clone(beside[v])
	dir := func(k int32) geom.Point { return at[k].Sub(at[v]).Unit() }
	slices.SortFunc(n, func(x, y int32) int {
		p, q := dir(x), dir(y)
		if math.Atan2(p.Y, p.X) < math.Atan2(q.Y, q.X) {
			return -1
		}
		return 1
	})
	var corners []geom.Point
	for i := range n {
		p, q := n[i], n[(i+1)%3]
		if math.Abs(dir(p).Dot(dir(q))+0.5) > isoSine || dir(p).Cross(dir(q)) <= 0 {
			return nil, false
		}
		want := at[p].Add(at[q]).Sub(at[v])
		tol := 0.05 + 1e-3*at[p].Dist(at[q])
		far := int32(-1)
		for _, c := range beside[p] {
			if c != v && slices.Contains(beside[q], c) && at[c].Dist(want) <= tol {
				far = c
			}
		}
		if far < 0 {
			return nil, false
		}
		corners = append(corners, at[p], at[far])
	}
	return geom.RingOf(corners...), true
}

// isometric takes one view out, or doubts it.
func (s *signs) isometric(corner geom.Point, hexagon geom.Ring) {
	b := s.b
	box := hexagon.Bounds()
	sides := []float64{hexagon[0].From.Dist(corner), hexagon[2].From.Dist(corner), hexagon[4].From.Dist(corner)}
	slices.Sort(sides)
	shown := false
	for i := range s.rings {
		o := s.boxes[i]
		if s.takenContour(i) || o.Overlaps(box) || s.isBorder(i) {
			continue
		}
		w, h := math.Max(o.Width(), o.Height()), math.Min(o.Width(), o.Height())
		for _, pair := range [3][2]float64{{sides[2], sides[1]}, {sides[2], sides[0]}, {sides[1], sides[0]}} {
			shown = shown || math.Abs(w*pair[1]-h*pair[0]) <= isoShare*w*pair[1]
		}
	}
	if !shown || s.measuredIn(box) {
		b.borderDoubts = append(b.borderDoubts, borderDoubt{box.Grow(leaderMM), Doubt{Code: "reading-doubt", Grave: true, At: box.Min,
			Text: fmt.Sprintf("three parallelograms with sides of %s, %s and %s mm share a corner: an isometric view of a plate, or parts side by side", shortNumber(sides[2]), shortNumber(sides[1]), shortNumber(sides[0]))}})
		return
	}
	within := func(e geom.Edge) bool {
		for _, p := range []geom.Point{e.From, e.Mid(), e.To} {
			if !box.Grow(leaderMM).Contains(p) || hexagon.Inside(p, leaderMM) == geom.Out {
				return false
			}
		}
		return true
	}
	for i := range b.items {
		in := b.inputs[b.start[i]:b.start[i+1]]
		all := len(in) > 0 && b.items[i].class == classCut
		for k := range in {
			all = all && within(in[k].Edge)
		}
		if all {
			s.takeItem(int32(i))
		}
	}
	const what = "view of the part in perspective, in isometric projection"
	if s.count[what]++; s.count[what] == 1 || comparePlace(box.Min, s.at[what]) < 0 {
		s.at[what] = box.Min
	}
}

// measuredIn tells whether both ends of a dimension lie in a box.
func (s *signs) measuredIn(box geom.Box) bool {
	mm := s.b.sheet.Units.MM
	box = box.Grow(0.1)
	return slices.ContainsFunc(s.b.drawnDims, func(d drawnDim) bool { return box.Contains(d.from.Mul(mm)) && box.Contains(d.to.Mul(mm)) })
}

// maybeIsometric doubts outlines all of whose edges run in the three directions of
// an isometric view, with lines in them: a view of a part with more corners.
func (s *signs) maybeIsometric() {
	for i, r := range s.rings {
		if s.takenContour(i) || len(r) < 6 || len(r) > 200 || s.onMetal(i) {
			continue
		}
		lines := 0
		for k := range s.res.Dividers {
			if s.res.Dividers[k].Contour == i {
				lines++
			}
		}
		seen := map[int]bool{}
		for _, e := range r {
			d := e.StartDir()
			angle := math.Mod(math.Atan2(d.Y, d.X)*180/math.Pi+360, 180)
			k := math.Round((angle - 30) / 60)
			if e.IsArc() || math.Abs(angle-30-60*k) > 0.5 {
				seen = nil
				break
			}
			seen[int(k)] = true
		}
		if lines < 2 || len(seen) != 3 {
			continue
		}
		box := s.boxes[i]
		s.b.borderDoubts = append(s.b.borderDoubts, borderDoubt{box.Grow(0.01), Doubt{Code: "reading-doubt", Grave: true, At: box.Min, Source: s.sources(i),
			Text: "all edges of this outline run at 30, 90 or 150 degrees and lines meet within it: an isometric view of a part, or a part"}})
	}
}
