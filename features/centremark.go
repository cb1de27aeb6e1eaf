package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
	"burrside/features/join"
)

// Centre marks and centre lines that are drawn continuous. A line through the
// centre of a hole is no bend and no cut when another one crosses it there at a
// right angle and neither ends on an edge; and when it sticks out of the part
// at both ends. Ticks stand at the quadrants of a circle; a circle through the
// centres of equal holes is their pitch circle.

const (
	centreOffMM   = 0.02  // how far a centre line may miss the centre
	centreSquare  = 0.02  // sine of the angle by which two centre lines may be off square
	centreEven    = 0.15  // the arms of a cross are equal within this share
	clearMM       = 0.1   // an end nearer to an edge than this ends on it
	mostCircles   = 3_000 // more are no pitch circles but a pattern
	pitchHoles    = 3
	tickRadii     = 2.5 // radii from the centre to the outer end of a tick, at most
	loneCentreWhy = "a line through the centre of a hole that runs past the part at both ends was taken for a centre line; a bend line looks the same"
)

// centre is the centre of a circle or of half of one.
type centre struct {
	at     geom.Point
	radius float64
	whole  bool
	edge   int
}

func (w *lineWork) centres() []centre {
	var out []centre
	for k := range w.edges {
		e := &w.edges[k]
		if !w.taken[k] && e.IsArc() && (e.IsCircle() || math.Abs(e.Sweep()) > 2.5) {
			out = append(out, centre{e.Centre, e.Radius, e.IsCircle(), k})
		}
	}
	return out
}

// clear tells whether an end of a line is free and on no edge but those that
// may be centre lines too.
func (w *lineWork) clear(k, s int, candidate func(int) bool) bool {
	if !w.free(k, s) {
		return false
	}
	ok := true
	w.near(w.end(k, s), clearMM, func(j int) { ok = ok && (j == k || candidate != nil && candidate(j)) })
	return ok
}

// centreMarks takes out centre lines, centre marks and pitch circles.
func (w *lineWork) centreMarks() error {
	cs := w.centres()
	if len(cs) > 0 {
		w.pitchCircles(cs)
	}
	marked := map[int]bool{}
	w.quadrantTicks(cs, marked)
	through := map[int][]int{} // centres by line
	at := make([][]int, len(cs))
	for i, c := range cs {
		if i%256 == 0 && w.b.ctx.Err() != nil {
			return w.b.ctx.Err()
		}
		var arms []int
		w.near(c.at, centreOffMM, func(k int) {
			if !w.isLine(k) || marked[k] {
				return
			}
			for s := range 2 {
				if w.end(k, s).Dist(c.at) <= centreOffMM {
					arms = append(arms, 2*k+s)
					return
				}
			}
			through[k] = append(through[k], i)
			at[i] = append(at[i], k)
		})
		w.crossOfArms(arms, marked)
	}
	possible := func(k int) bool { _, ok := through[k]; return ok }
	isClear := func(k int) bool { return w.clear(k, 0, possible) && w.clear(k, 1, possible) }
	var lone []int
	lines := make([]int, 0, len(through))
	for k := range through {
		lines = append(lines, k)
	}
	slices.Sort(lines)
	for _, k := range lines {
		if !isClear(k) {
			continue
		}
		crossed := false
		for _, i := range through[k] {
			for _, j := range at[i] {
				if _, c := sineCosine(w.edges[k].StartDir(), w.edges[j].StartDir()); j != k && c <= centreSquare && isClear(j) {
					crossed = true
				}
			}
		}
		if crossed {
			marked[k] = true
		} else {
			lone = append(lone, k)
		}
	}
	if err := w.axes(lone, marked, through); err != nil {
		return err
	}
	if infos := w.finish(marked, centreTaken, sure); len(infos) > 0 {
		w.b.note(Note{Code: "centre-lines", Count: len(infos), Source: sourcesOf(infos),
			Text: fmt.Sprintf("%d lines were taken for centre marks, centre lines or pitch circles by where they run", len(infos))})
	}
	return nil
}

// crossOfArms marks four lines that begin at one centre at right angles.
func (w *lineWork) crossOfArms(arms []int, marked map[int]bool) {
	if len(arms) != 4 {
		return
	}
	d := w.direction(arms[0]/2, arms[0]%2)
	var turns [4]bool
	for _, a := range arms {
		e := w.direction(a/2, a%2)
		q := math.Atan2(d.Cross(e), d.Dot(e)) / (math.Pi / 2)
		n := math.Round(q)
		if math.Abs(q-n) > centreSquare || !w.clear(a/2, 1-a%2, nil) {
			return
		}
		turns[(int(n)+4)%4] = true
	}
	if turns == [4]bool{true, true, true, true} {
		for _, a := range arms {
			marked[a/2] = true
		}
	}
}

// pitchCircles takes out circles through the centres of three or more equal
// smaller ones: no cut runs through the middle of a hole.
func (w *lineWork) pitchCircles(cs []centre) {
	var circles []centre
	for _, c := range cs {
		if c.whole {
			circles = append(circles, c)
		}
	}
	if len(circles) > mostCircles {
		return
	}
	marked := map[int]bool{}
	for _, p := range circles {
		sizes := map[int64]int{}
		for _, c := range circles {
			if c.radius < p.radius/1.5 && math.Abs(c.at.Dist(p.at)-p.radius) <= centreOffMM {
				sizes[int64(math.Round(c.radius*50))]++
			}
		}
		for _, n := range sizes {
			if n >= pitchHoles {
				marked[p.edge] = true
			}
		}
	}
	if infos := w.finish(marked, centreTaken, sure); len(infos) > 0 {
		w.b.note(Note{Code: "pitch-circle", Count: len(infos), Source: sourcesOf(infos),
			Text: fmt.Sprintf("circles through the centres of equal holes were taken for pitch circles: %d", len(infos))})
	}
}

// quadrantTicks marks the four short lines at the quadrants of a circle, which
// point at its centre.
func (w *lineWork) quadrantTicks(cs []centre, marked map[int]bool) {
	for _, c := range cs {
		if !c.whole || w.taken[c.edge] {
			continue
		}
		type tick struct {
			k        int
			angle    float64
			distance float64
		}
		var list []tick
		for k := range w.index().Near(geom.Box{Min: c.at, Max: c.at}.Grow(tickRadii * c.radius)) {
			if !w.isLine(k) || marked[k] {
				continue
			}
			e := &w.edges[k]
			if e.Length() > 1.6*c.radius || !w.free(k, 0) || !w.free(k, 1) {
				continue
			}
			d := e.Mid().Sub(c.at)
			if d.Len() < 0.3*c.radius || math.Max(e.From.Dist(c.at), e.To.Dist(c.at)) > tickRadii*c.radius || math.Abs(d.Cross(e.StartDir())) > centreOffMM || e.Dist(c.at) <= centreOffMM {
				continue
			}
			list = append(list, tick{k, math.Atan2(d.Y, d.X), d.Len()})
		}
		if len(list) != 4 {
			continue
		}
		ok := true
		for _, t := range list[1:] {
			q := (t.angle - list[0].angle) / (math.Pi / 2)
			ok = ok && math.Abs(q-math.Round(q)) <= centreSquare && math.Abs(t.distance-list[0].distance) <= 0.05*list[0].distance
		}
		if !ok {
			continue
		}
		for _, t := range list {
			marked[t.k] = true
		}
	}
}

// axes judges lines that run past the part at both ends: those through a centre
// by themselves, doubted, and pairs that cross in the middle of an outline.
func (w *lineWork) axes(lone []int, marked map[int]bool, through map[int][]int) error {
	isLone := map[int]bool{}
	for _, k := range lone {
		isLone[k] = true
	}
	var more []int
	for k := range w.edges {
		if w.isLine(k) && !marked[k] && !isLone[k] && w.edges[k].Length() > w.side/10 && w.clear(k, 0, nil) && w.clear(k, 1, nil) {
			more = append(more, k)
		}
	}
	if len(lone) == 0 && len(more) < 2 {
		return nil
	}
	possible := map[int]bool{}
	for _, k := range append(slices.Clone(lone), more...) {
		possible[k] = true
	}
	var in []join.Input
	for k := range w.edges {
		if !w.taken[k] && !marked[k] && !possible[k] {
			in = append(in, w.b.inputs[w.in[k]])
		}
	}
	res, err := w.b.join(in)
	if err != nil {
		return err
	}
	for i := range res.Contours {
		c := &res.Contours[i]
		if c.Parent >= 0 || c.ToolMark {
			continue
		}
		ring := c.Ring()
		box := ring.Bounds()
		past := func(k int) bool {
			e := &w.edges[k]
			if !e.Bounds().Overlaps(box) || ring.Inside(e.From, touchMM) != geom.Out || ring.Inside(e.To, touchMM) != geom.Out {
				return false
			}
			for _, x := range ring {
				if len(geom.Intersect(*e, x, touchMM).Points) > 0 {
					return true
				}
			}
			return false
		}
		for _, k := range lone {
			if !marked[k] && past(k) {
				marked[k] = true
				w.b.centreDoubts = append(w.b.centreDoubts, borderDoubt{box, Doubt{Code: "maybe-centre-line", At: w.edges[k].Mid(), Text: loneCentreWhy,
					Source: sourcesOf([]int32{w.b.inputs[w.in[k]].Source})}})
			}
		}
		middle := box.Centre()
		var cross []int
		for _, k := range append(slices.Clone(more), lone...) {
			if w.edges[k].Dist(middle) <= math.Max(centreOffMM, 1e-3*size(box)) && past(k) {
				cross = append(cross, k)
			}
		}
		for _, k := range cross {
			for _, j := range cross {
				if _, c := sineCosine(w.edges[k].StartDir(), w.edges[j].StartDir()); k != j && c <= centreSquare {
					marked[k], marked[j] = true, true
				}
			}
		}
	}
	return nil
}

// centresOn tells whether a divider of a loop runs through the centre of a round
// hole in it: what parts plates does not.
func (b *builder) centresOn(c int, dividers []int) bool {
	for _, k := range b.loops[c].children {
		at, _, ok := b.loops[k].isCircle()
		if !ok {
			continue
		}
		for _, d := range dividers {
			for _, p := range b.joined.Dividers[d].Pieces {
				// The pieces of a divider end at the hole that it crosses.
				if e := p.Edge; !e.IsArc() && math.Abs(at.Sub(e.From).Cross(e.StartDir())) <= centreOffMM && e.Dist(at) <= 1.01*math.Sqrt(b.loops[k].area/math.Pi) {
					return true
				}
			}
		}
	}
	return false
}

// mergeInterrupted makes one bend of two that lie on one line with nothing but
// an opening between them.
func (b *builder) mergeInterrupted() error {
	for d := range b.drafts {
		lines := b.drafts[d].lines
		for i := 0; i < len(lines); i++ {
			if lines[i].Kind != Bend {
				continue
			}
			for k := 0; k < len(lines); k++ {
				if k == i || lines[k].Kind != Bend {
					continue
				}
				p, q := &lines[i], &lines[k]
				whole, gap, ok := inLine(p, q)
				if !ok || !b.openingBetween(d, gap) {
					continue
				}
				p.From, p.To, p.At, p.LengthMM = whole.From, whole.To, whole.Mid(), whole.Length()
				p.Open = append(slices.Clone(p.Open), q.Open...)
				p.Source = append(slices.Clone(p.Source), q.Source...)
				lines = slices.Delete(lines, k, k+1)
				if k < i {
					i--
				}
				k = -1
			}
		}
		b.drafts[d].lines = lines
	}
	return nil
}

// inLine gives the line over two bends that lie on one, and what lies between.
func inLine(p, q *Feature) (whole, gap geom.Edge, ok bool) {
	d := p.To.Sub(p.From).Unit()
	for _, x := range [2]geom.Point{q.From, q.To} {
		if math.Abs(x.Sub(p.From).Cross(d)) > 0.05 {
			return whole, gap, false
		}
	}
	a, z := q.From, q.To
	if a.Sub(p.From).Dot(d) > z.Sub(p.From).Dot(d) {
		a, z = z, a
	}
	switch {
	case a.Sub(p.To).Dot(d) > 0:
		whole, gap = geom.LineEdge(p.From, z), geom.LineEdge(p.To, a)
	case z.Sub(p.From).Dot(d) < 0:
		whole, gap = geom.LineEdge(a, p.To), geom.LineEdge(z, p.From)
	default:
		return whole, gap, false
	}
	if comparePlace(whole.From, whole.To) > 0 {
		whole = whole.Reverse()
	}
	return whole, gap, true
}

// openingBetween tells whether a gap lies in one opening of a draft from end to
// end, but for the distance that bend lines keep off a hole.
func (b *builder) openingBetween(d int, gap geom.Edge) bool {
	const off = 1.0
	for _, h := range b.drafts[d].holes {
		l := &b.loops[h]
		if !l.box.Grow(off).Contains(gap.From) || !l.box.Grow(off).Contains(gap.To) || l.ring.Inside(gap.Mid(), touchMM) == geom.Out {
			continue
		}
		x := geom.NewIndex(l.ring, 0)
		if near(x, gap.From, off) && near(x, gap.To, off) {
			return true
		}
	}
	return false
}
