package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
	"burrside/features/measure"
)

// A dot at the end of a leader or a dimension line is no wider than the letters
// of its text are high (common practice, no source).
const dotHeights = 1.0

// dimensionDots finds dimension lines that end in small equal circles, drawn
// to their centres or to their rims. Holes with a line between them look the
// same, so a line past each end, as extension lines stand, and the length
// written beside are asked for as well.
func (w *lineWork) dimensionDots() []arrow {
	if len(w.b.sheet.Texts) == 0 {
		return nil
	}
	circles := w.dotCircles()
	if len(circles) < 2 {
		return nil
	}
	var out []arrow
	for k := range w.edges {
		if k%1024 == 0 && w.b.ctx.Err() != nil {
			return nil
		}
		if !w.isLine(k) {
			continue
		}
		from, to := w.dotAt(k, 0, circles), w.dotAt(k, 1, circles)
		if from < 0 || to < 0 || from == to || math.Abs(w.edges[from].Radius-w.edges[to].Radius) > copyMM {
			continue
		}
		a, z := w.edges[from].Centre, w.edges[to].Centre
		wide := 2 * w.edges[from].Radius
		if wide > arrowShare*a.Dist(z) || !w.lengthBeside(k, a.Dist(z), wide) || !w.passedBeyond(k, a, wide) || !w.passedBeyond(k, z, wide) {
			continue
		}
		out = append(out, arrow{tip: a, length: wide, shaft: k, edges: []int{from}}, arrow{tip: z, length: wide, shaft: k, edges: []int{to}})
	}
	return out
}

// dotCircles are the full circles no wider than the largest letters are high,
// by the place of their centres.
func (w *lineWork) dotCircles() map[centreCell][]int {
	most := 0.0
	for i := range w.b.sheet.Texts {
		most = math.Max(most, w.b.sheet.Texts[i].HeightMM)
	}
	list := map[centreCell][]int{}
	for k := range w.edges {
		if e := &w.edges[k]; !w.taken[k] && e.IsCircle() && 2*e.Radius <= dotHeights*most {
			c := centreCellOf(e.Centre)
			list[c] = append(list[c], k)
		}
	}
	return list
}

// dotAt is the circle that a line's end stands in the centre of, or on the rim
// of while it points at the centre; -1 none.
func (w *lineWork) dotAt(k, end int, circles map[centreCell][]int) int {
	p := w.end(k, end)
	for _, c := range circles[centreCellOf(p)] {
		if w.edges[c].Centre.Dist(p) <= figureSnapMM {
			return c
		}
	}
	best := -1
	d := w.direction(k, end)
	w.near(p, figureSnapMM, func(c int) {
		e := &w.edges[c]
		if !e.IsCircle() || !slices.Contains(circles[centreCellOf(e.Centre)], c) {
			return
		}
		if in := p.Sub(e.Centre).Unit(); in.Dot(d) > 0.999 && (best < 0 || e.Radius < w.edges[best].Radius) {
			best = c
		}
	})
	return best
}

// lengthBeside tells whether a text beside a line says its length, and is as
// high as the dots are wide or more.
func (w *lineWork) lengthBeside(k int, length, wide float64) bool {
	for i := range w.b.sheet.Texts {
		t := &w.b.sheet.Texts[i]
		v, ok := plainNumber(t.Value)
		if !ok || wide > dotHeights*t.HeightMM || math.Abs(v*w.b.sheet.Units.MM-length) > 0.005*length {
			continue
		}
		if w.edges[k].Dist(t.At) <= textReach*t.HeightMM+0.7*t.HeightMM*float64(len(t.Value)) {
			return true
		}
	}
	return false
}

// passedBeyond tells whether a line that is not along the shaft passes a dot's
// centre and ends a little beyond it, where nothing else is.
func (w *lineWork) passedBeyond(shaft int, c geom.Point, wide float64) bool {
	along := w.edges[shaft].StartDir()
	found := false
	w.near(c, figureSnapMM, func(k int) {
		if k == shaft || w.edges[k].IsArc() {
			return
		}
		if s, _ := sineCosine(w.edges[k].StartDir(), along); s < 0.5 {
			return
		}
		for s := range 2 {
			if d := w.end(k, s).Dist(c); d <= overshootMost*wide && d < 0.4*w.edges[k].Length() && w.endsFree(k, s) {
				found = true
			}
		}
	})
	return found
}

// leaderDots judges small circles at the ends of leaders: outside the parts, or
// across an outline, they are dots; in the metal they may be holes and are
// doubted, unless the text calls for a hole.
func (b *builder) leaderDots() {
	count := 0
	var at geom.Point
	var src []Source
	for i := range b.loops {
		l := &b.loops[i]
		c, r, ok := l.isCircle()
		if !ok || l.dead || len(l.children) > 0 || len(b.loops) < 2 {
			continue
		}
		for _, lead := range b.leaders {
			if lead.tip.Dist(c) > r+b.strokeOfLoop(l)/2+leaderMM {
				continue
			}
			text, is := b.dotText(lead.end, 2*r)
			if !is {
				continue
			}
			if l.parent >= 0 && !l.toolMark {
				l.dotDoubted = true
				b.loopDoubts = append(b.loopDoubts, loopDoubt{b.topOf(i), Doubt{Code: "reading-doubt", Grave: true, At: c, Source: l.sources(),
					Text: fmt.Sprintf("a circle of %s mm stands at the end of the leader of %q: the dot of the leader, or a hole", shortNumber(2*r), clip(text))}})
				break
			}
			l.dead = true
			if count++; count == 1 || comparePlace(c, at) < 0 {
				at = c
			}
			src = append(src, l.sources()...)
			break
		}
	}
	if count > 0 {
		b.note(Note{Code: "symbol-taken-out", At: at, HasAt: true, Count: count, Source: src,
			Text: fmt.Sprintf("signs of the drawing that are no parts were left out: %d times a dot at the end of a leader", count)})
		b.settleChildren()
	}
}

// dotText is the text at the end of a leader, if it is as high as a dot is wide
// and no text there calls for a hole.
func (b *builder) dotText(end geom.Point, wide float64) (text string, ok bool) {
	best := math.Inf(1)
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if !textReaches(t, end) {
			continue
		}
		for _, row := range statedLines(*t) {
			if _, call := measure.HoleCallOut(row); call {
				return "", false
			}
		}
		if d := t.At.Dist(end); wide <= dotHeights*t.HeightMM && d < best {
			best, text, ok = d, t.Value, true
		}
	}
	return text, ok
}
