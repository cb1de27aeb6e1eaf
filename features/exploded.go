package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/dxfread"
	"burrside/features/geom"
)

// Dimensions that were taken to pieces are lines like any other. They are told
// by their arrowheads or ticks: a dimension line has one at each end, and each
// stands on an extension line, which ends a little beyond it. Proportions are
// those of the usual drafting habits (ISO 129-1 and ASME Y14.5, from memory:
// arrowheads of 1:3 and of 30 or 90 degrees, ticks at 45 degrees, extension
// lines that run a little past the dimension line).
const (
	arrowNarrowRad = 4 * math.Pi / 180 // half the angle of an arrowhead
	arrowWideRad   = 50 * math.Pi / 180
	arrowEven      = 0.03      // the two sides of an arrowhead are equal within this share
	arrowAlong     = 0.035     // sine of the angle between shaft and arrowhead
	arrowAskew     = 0.3       // the same of a closed head, to a shaft from the middle of its base
	arrowShare     = 1.0 / 4   // of the drawing: an arrowhead is no longer
	arrowTouch     = 0.02      // of its length: how near the tip is to what it points at
	shaftLeast     = 0.7       // lengths of the arrowhead
	tickSine       = 0.0524    // sine of 3 degrees: how far a tick may be off 45
	tickShare      = 1.0 / 2.5 // of the dimension line: a tick is no longer
	overshootMost  = 2.5       // lengths of the arrowhead that an extension line runs past
	textReach      = 2.5       // lengths of the arrowhead from the dimension line to its text
	mostSolids     = 20_000
)

// arrow is a head with the line that it ends.
type arrow struct {
	tip    geom.Point
	length float64
	shaft  int
	edges  []int // of the head, none if it is filled
}

// solidArrow is a filled triangle, its corners in drawing units.
type solidArrow [3]dxfread.Vec

// addSolid keeps a SOLID that has the shape of a triangle.
func (b *builder) addSolid(e *dxfread.Solid, m dxfread.Matrix) {
	c := e.Corners
	if len(b.solids) >= mostSolids || e.Kind == "3DFACE" {
		return
	}
	if c[3] == c[2] || c[3] == c[1] || c[3] == c[0] {
		b.solids = append(b.solids, solidArrow{m.Apply(c[0]), m.Apply(c[1]), m.Apply(c[2])})
	}
}

// dimensions takes out dimension lines, their heads, extension lines, leaders
// and texts.
func (w *lineWork) dimensions() error {
	arrows := w.arrows()
	arrows = append(arrows, w.filledArrows()...)
	arrows = append(arrows, w.dimensionDots()...)
	marked := map[int]bool{}
	for _, a := range arrows {
		for _, k := range a.edges {
			marked[k] = true
		}
		marked[a.shaft] = true
	}
	arrows = append(arrows, w.ticks(marked)...)
	if len(arrows) == 0 {
		return nil
	}
	infos := w.finish(marked, dimensionTaken, sure)
	// Extension lines: what a tip stands on, near an end that is free.
	marked = map[int]bool{}
	for _, a := range arrows {
		w.extension(a, marked)
	}
	w.landings(arrows, marked)
	infos = append(infos, w.finish(marked, dimensionTaken, sure)...)
	marked = map[int]bool{}
	w.dimensionTexts(arrows, marked)
	infos = append(infos, w.finish(marked, dimensionTaken, sure)...)
	if src := sourcesOf(infos); len(src) > 0 {
		w.b.note(Note{Code: "dimension-exploded", Count: len(src), Source: src,
			Text: fmt.Sprintf("%d lines are pieces of dimensions, told by their %d arrowheads or ticks; they were left out", len(src), len(arrows))})
	}
	return nil
}

// arrows finds heads of two lines, closed by a third or not.
func (w *lineWork) arrows() []arrow {
	var out []arrow
	var ends []int
	for p, n := range w.meet.count {
		if p%1024 == 0 && w.b.ctx.Err() != nil {
			return nil
		}
		if n < 2 || n > 6 {
			continue
		}
		ends = ends[:0]
		for _, end := range w.ends[w.first[p]:w.first[p+1]] {
			if k := int(end / 2); w.isLine(k) && w.edges[k].Length() <= arrowShare*w.side {
				ends = append(ends, int(end))
			}
		}
		for i := range ends {
			for j := i + 1; j < len(ends); j++ {
				if a, ok := w.arrowOf(ends[i], ends[j]); ok {
					out = append(out, a)
				}
			}
		}
	}
	return out
}

// arrowOf judges two lines that begin at one place: equal in length, at an
// arrowhead's angle, with a shaft between them.
func (w *lineWork) arrowOf(x, y int) (arrow, bool) {
	j, k := x/2, y/2
	if j == k {
		return arrow{}, false
	}
	tip := w.end(j, x%2)
	d, e := w.direction(j, x%2), w.direction(k, y%2)
	l, m := w.edges[j].Length(), w.edges[k].Length()
	if math.Abs(l-m) > arrowEven*math.Max(l, m) || d.Dot(e) < -0.2 {
		return arrow{}, false // uneven, or by far too wide
	}
	half := math.Abs(math.Atan2(d.Cross(e), d.Dot(e))) / 2
	if half < arrowNarrowRad || half > arrowWideRad {
		return arrow{}, false
	}
	axis := d.Add(e).Unit()
	a := arrow{tip: tip, length: l, edges: []int{j, k}, shaft: -1}
	u, v := w.end(j, 1-x%2), w.end(k, 1-y%2)
	closed := -1
	freeEnds := w.free(j, 1-x%2) && w.free(k, 1-y%2)
	for c := range w.index().Near(geom.Box{Min: u, Max: u}.Grow(figureSnapMM)) {
		if c != j && c != k && w.isLine(c) && (w.end(c, 0).Dist(u) <= figureSnapMM && w.end(c, 1).Dist(v) <= figureSnapMM || w.end(c, 1).Dist(u) <= figureSnapMM && w.end(c, 0).Dist(v) <= figureSnapMM) {
			closed = c
		}
	}
	if closed >= 0 {
		// A triangle by itself: nothing else ends at its base.
		if w.meet.count[w.meet.at[2*closed]] > 2 || w.meet.count[w.meet.at[2*closed+1]] > 2 {
			return arrow{}, false
		}
		a.edges = append(a.edges, closed)
	} else if !freeEnds {
		return arrow{}, false
	}
	a.shaft = w.shaftAt(tip, axis, l, arrowAlong, a.edges)
	if a.shaft < 0 && closed >= 0 {
		// Drawn by hand it stands askew, yet begins in the middle of the base.
		a.shaft = w.shaftAt(mid(u, v), axis, l, arrowAskew, a.edges)
	}
	if a.shaft < 0 {
		return arrow{}, false
	}
	// An open head is one only if it stands on something.
	if closed < 0 && !w.standsOn(tip, axis, l, append(slices.Clone(a.edges), a.shaft)) {
		return arrow{}, false
	}
	return a, true
}

// shaftAt is the line that begins at a place and runs along a direction, -1
// none.
func (w *lineWork) shaftAt(p geom.Point, axis geom.Point, length, along float64, not []int) int {
	best := -1
	tol := math.Max(figureSnapMM, arrowTouch*length)
	for k := range w.index().Near(geom.Box{Min: p, Max: p}.Grow(tol)) {
		if !w.isLine(k) || slices.Contains(not, k) {
			continue
		}
		for s := range 2 {
			if w.end(k, s).Dist(p) > tol {
				continue
			}
			if d := w.direction(k, s); math.Abs(d.Cross(axis)) <= along && d.Dot(axis) > 0 && w.edges[k].Length() >= shaftLeast*length {
				if best < 0 || w.edges[k].Length() > w.edges[best].Length() {
					best = k
				}
			}
		}
	}
	return best
}

// standsOn tells whether a tip lies on a line or curve that is not along the
// shaft.
func (w *lineWork) standsOn(tip, axis geom.Point, length float64, not []int) bool {
	on := false
	w.near(tip, math.Max(figureSnapMM, arrowTouch*length), func(k int) {
		if slices.Contains(not, k) {
			return
		}
		if s, _ := sineCosine(w.edges[k].StartDir(), axis); w.edges[k].IsArc() || s > 0.3 {
			on = true
		}
	})
	return on
}

// filledArrows finds the shafts of filled triangles.
func (w *lineWork) filledArrows() []arrow {
	var out []arrow
	for _, s := range w.b.solids {
		p := [3]geom.Point{w.b.frame.point(s[0]), w.b.frame.point(s[1]), w.b.frame.point(s[2])}
		for i := range p {
			tip, u, v := p[i], p[(i+1)%3], p[(i+2)%3]
			l, m := tip.Dist(u), tip.Dist(v)
			if !(l > 0) || math.Abs(l-m) > arrowEven*l || l > arrowShare*w.side || u.Dist(v) > 1.5*l {
				continue
			}
			axis := mid(u, v).Sub(tip).Unit()
			shaft := w.shaftAt(mid(u, v), axis, l, arrowAlong, nil)
			if shaft < 0 {
				shaft = w.shaftAt(tip, axis, l, arrowAlong, nil)
			}
			if shaft >= 0 {
				out = append(out, arrow{tip: tip, length: l, shaft: shaft})
				break
			}
		}
	}
	return out
}

// ticks finds dimension lines with an oblique stroke through each end, and
// marks both.
func (w *lineWork) ticks(marked map[int]bool) []arrow {
	type tick struct {
		k  int
		at geom.Point
	}
	var strokes []int
	for k := range w.edges {
		if k%1024 == 0 && w.b.ctx.Err() != nil {
			return nil
		}
		if w.isLine(k) && w.edges[k].Length() <= arrowShare*w.side && w.meet.count[w.meet.at[2*k]] <= 3 && !marked[k] && w.endsAlone(k) {
			strokes = append(strokes, k)
		}
	}
	if len(strokes) < 2 {
		return nil // a dimension line has two
	}
	on := map[int][]tick{}
	var shafts []int
	for i, k := range strokes {
		if i%1024 == 0 && w.b.ctx.Err() != nil {
			return nil
		}
		e := &w.edges[k]
		m, l := e.Mid(), e.Length()
		w.near(m, math.Max(figureSnapMM, 0.005*l), func(d int) {
			f := &w.edges[d]
			if d == k || f.IsArc() || marked[d] || f.Length()*tickShare < l || math.Min(f.From.Dist(m), f.To.Dist(m)) > l {
				return
			}
			if s, c := sineCosine(e.StartDir(), f.StartDir()); math.Abs(s-c) > 2*tickSine*math.Sqrt2/2 {
				return
			}
			if on[d] == nil {
				shafts = append(shafts, d)
			}
			on[d] = append(on[d], tick{k, m})
		})
	}
	var out []arrow
	for _, d := range shafts {
		t := on[d]
		sameEnd, otherEnd := 0, 0
		even := true
		for i := range t {
			sine, _ := sineCosine(w.edges[t[0].k].StartDir(), w.edges[t[i].k].StartDir())
			even = even && sine <= 0.02 && math.Abs(w.edges[t[0].k].Length()-w.edges[t[i].k].Length()) <= 0.02*w.edges[t[0].k].Length()
			switch gap := t[0].at.Dist(t[i].at); {
			case gap <= figureSnapMM:
				sameEnd++ // neighbouring dimensions have one each
			case gap >= w.edges[d].Length()/2:
				otherEnd++
			default:
				even = false
			}
		}
		if !even || sameEnd == 0 || otherEnd == 0 || !w.endsAlone(d) {
			continue
		}
		for i := range t {
			marked[t[i].k] = true
			out = append(out, arrow{tip: t[i].at, length: w.edges[t[i].k].Length(), shaft: d})
		}
		marked[d] = true
	}
	return out
}

// endsAlone tells whether nothing ends where a line does but lines along it: it
// is no edge of a part then.
func (w *lineWork) endsAlone(d int) bool {
	for s := range 2 {
		p := w.end(d, s)
		alone := true
		look := func(place int32) {
			for _, end := range w.ends[w.first[place]:w.first[place+1]] {
				if j := int(end / 2); j != d && alone && !w.taken[j] && w.edges[j].Dist(p) <= figureSnapMM && w.turnsOff(j, d, p) {
					alone = false
				}
			}
		}
		// What ends at the same place mostly tells.
		if look(w.meet.at[2*d+s]); alone {
			w.meet.near(p, look)
		}
		if !alone {
			return false
		}
	}
	return true
}

// extension marks the lines that a tip stands on and that end a little beyond
// it, at an end where nothing else ends or passes.
func (w *lineWork) extension(a arrow, marked map[int]bool) {
	along := w.edges[a.shaft].StartDir()
	w.near(a.tip, math.Max(figureSnapMM, arrowTouch*a.length), func(k int) {
		if w.edges[k].IsArc() {
			return
		}
		if s, _ := sineCosine(w.edges[k].StartDir(), along); s < 0.5 {
			return
		}
		for s := range 2 {
			end := w.end(k, s)
			if end.Dist(a.tip) > overshootMost*a.length || end.Dist(a.tip) > w.edges[k].Length()/2+figureSnapMM {
				continue
			}
			clear := true
			w.near(end, figureSnapMM, func(j int) {
				// Neighbouring dimensions have one each, on one line.
				sine, _ := sineCosine(w.edges[j].StartDir(), w.edges[k].StartDir())
				clear = clear && (j == k || marked[j] || !w.edges[j].IsArc() && sine < 1e-3)
			})
			if clear {
				marked[k] = true
			}
		}
	})
}

// landings marks the short level lines at the end of a leader.
func (w *lineWork) landings(arrows []arrow, marked map[int]bool) {
	for _, a := range arrows {
		for s := range 2 {
			p := w.end(a.shaft, s)
			if p.Dist(a.tip) < 1.5*a.length {
				continue
			}
			w.near(p, figureSnapMM, func(k int) {
				for t := range 2 {
					if !w.edges[k].IsArc() && w.end(k, t).Dist(p) <= figureSnapMM && w.meet.count[w.meet.at[2*k+t]] == 1 && w.free(k, 1-t) && w.edges[k].Length() <= 12*a.length {
						clear := true
						w.near(w.end(k, 1-t), figureSnapMM, func(j int) { clear = clear && j == k })
						if clear {
							marked[k] = true
						}
					}
				}
			})
		}
	}
}

// dimensionTexts marks figures of the size of a dimension's digits beside its
// line: open strokes, and closed ones outside of everything else.
func (w *lineWork) dimensionTexts(arrows []arrow, marked map[int]bool) {
	b := w.b
	figs := b.figures(w.owner)
	if len(figs) > mostFigures {
		return
	}
	edgeOf := map[int32]int{}
	for k, in := range w.in {
		edgeOf[in] = k
	}
	diagonals := make([]geom.Edge, len(figs))
	for i := range figs {
		diagonals[i] = geom.LineEdge(figs[i].box.Min, figs[i].box.Max)
	}
	index := geom.NewIndex(diagonals, 0)
	within := func(i int) bool {
		for k := range index.Near(figs[i].box) {
			if k != i && figs[k].box.ContainsBox(figs[i].box) && size(figs[k].box) > 4*size(figs[i].box) && b.holds(&figs[k], figs[i].box.Centre()) {
				return true
			}
		}
		return false
	}
	// The part itself may be no larger than the digits of its sizes.
	largest := 0.0
	for i := range figs {
		if figs[i].closed {
			largest = math.Max(largest, size(figs[i].box))
		}
	}
	var texts, later []int
	for _, a := range arrows {
		shaft := w.edges[a.shaft]
		for i := range index.Near(shaft.Bounds().Grow((textReach + 3) * a.length)) {
			f := &figs[i]
			if s := size(f.box); s > 3.5*a.length || s < 0.15*a.length || f.bends == 0 && f.length < 0.3*a.length {
				continue
			}
			c := f.box.Centre()
			beyond := math.Min(c.Dist(shaft.From), c.Dist(shaft.To)) <= 6*a.length && f.open
			if shaft.Dist(c) > textReach*a.length && !beyond {
				continue
			}
			switch {
			case f.closed && (2*size(f.box) > largest || size(f.box) > 2.2*a.length || len(f.inputs) == 1 && b.inputs[f.inputs[0]].Edge.IsCircle()):
			case f.closed && within(i):
				later = append(later, i)
			case f.open && w.touchesOther(f, edgeOf):
			default:
				texts = append(texts, i)
			}
		}
	}
	// A closed figure on a part is a nought only beside a stroke of its size.
	for _, i := range later {
		f := &figs[i]
		if len(f.inputs) == 1 && b.inputs[f.inputs[0]].Edge.IsCircle() {
			continue
		}
		for _, k := range texts {
			if g := &figs[k]; g.open && math.Abs(size(f.box)-size(g.box)) <= 0.25*size(g.box) && f.box.Dist(g.box) <= size(g.box) {
				texts = append(texts, i)
				break
			}
		}
	}
	// Noughts beside noughts.
	for range 4 {
		for _, i := range later {
			f := &figs[i]
			if slices.Contains(texts, i) || len(f.inputs) == 1 {
				continue
			}
			for _, k := range texts {
				if g := &figs[k]; slices.Contains(later, k) && math.Abs(f.length-g.length) <= 0.01*g.length && f.box.Dist(g.box) <= size(g.box) {
					texts = append(texts, i)
					break
				}
			}
		}
	}
	for _, i := range texts {
		for _, in := range figs[i].inputs {
			if k, ok := edgeOf[in]; ok {
				marked[k] = true
			}
		}
	}
}

// holds tells whether a place lies inside a figure: a line from it to the right
// crosses the figure's edges an odd number of times.
func (b *builder) holds(f *figure, p geom.Point) bool {
	far := geom.Point{X: f.box.Max.X + 1 + f.box.Width()/7, Y: p.Y + f.box.Height()/97}
	ray := geom.LineEdge(p, far)
	n := 0
	for _, in := range f.inputs {
		n += len(geom.Intersect(ray, b.inputs[in].Edge, 1e-9).Points)
	}
	return n%2 == 1
}

// touchesOther tells whether a figure has an end on an edge of another: a
// stroke of text has none, unless it is as small.
func (w *lineWork) touchesOther(f *figure, edgeOf map[int32]int) bool {
	own := map[int]bool{}
	for _, in := range f.inputs {
		own[edgeOf[in]] = true
	}
	limit := 4 * size(f.box)
	for _, in := range f.inputs {
		k := edgeOf[in]
		for s := range 2 {
			touch := false
			w.near(w.end(k, s), figureSnapMM, func(j int) { touch = touch || !own[j] && w.edges[j].Length() > limit })
			if touch {
				return true
			}
		}
	}
	return false
}
