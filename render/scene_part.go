package render

import (
	"math"
	"slices"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

// view carries millimetres of the drawing to pixels; y turns over.
type view struct {
	x0, y0 float64 // pixels of the drawing's origin
	scale  float64 // pixels for a millimetre
}

func (v view) at(p geom.Point) (x, y float64) {
	return v.x0 + float64(p.X*v.scale), v.y0 - float64(p.Y*v.scale)
}

// edges is a chain of edges as a path. Pieces that end within a third of a
// pixel of where they began are drawn together with the next one.
func (v view) edges(list []geom.Edge, closed bool) []seg {
	var out []seg
	var px, py float64
	for i, e := range list {
		x, y := v.at(e.To)
		// The strokes of a mark need not hang together.
		if i == 0 || !closed && e.From.Dist(list[i-1].To) > 1e-3 {
			px, py = v.at(e.From)
			out = append(out, seg{op: segMove, x: px, y: py})
		}
		// An arc of a million pixels of radius bends by less than a pixel in the picture.
		if e.Radius > 0 && e.Radius*v.scale < 1e6 {
			cx, cy := v.at(e.Centre)
			start, sweep := arcAngles(e)
			out = append(out, seg{op: segArc, x: x, y: y, cx: cx, cy: cy, r: e.Radius * v.scale, start: -start, sweep: -sweep})
			px, py = x, y
			continue
		}
		if dx, dy := x-px, y-py; dx*dx+dy*dy < 0.1 && i+1 < len(list) {
			continue
		}
		out = append(out, seg{op: segLine, x: x, y: y})
		px, py = x, y
	}
	if closed && len(out) > 0 {
		out = append(out, seg{op: segClose})
	}
	return out
}

// pads are the strips around the part that dimensions and balloons need.
type pads struct{ left, right, top, bottom float64 }

func (l *layout) pads(p *check.PartReport, rows int, w, h float64) pads {
	u := l.u
	b := partBox(p.Part)
	label := l.r.width(lengthText(b.Height, l.unit), "size-dimension")
	d := pads{left: 34*u + label + 14*u, right: 24 * u, top: 24 * u, bottom: 34*u + 26*u + 32*u}
	if rows > 0 {
		d.left += 42 * u
		d.right += 44 * u
		d.top += 44 * u
		d.bottom += 30 * u
	}
	if rows > 6 {
		d.top += 30 * u
	}
	if l.lv != nil {
		l.anglePads(p, &d, w, h)
	}
	return d
}

// drawing draws the part into an area: blank, metal, holes, lines, marks,
// dimensions and balloons. numbered are the rows of the table, which get their
// numbers here; all are the findings whose features are marked.
func (l *layout) drawing(p *check.PartReport, numbered, all []tableRow, a area) {
	l.s.add(item{kind: itemStroke, style: "frame", path: rectSegs(a)})
	b := partBox(p.Part)
	if _, ok := edgesBox(p.Part.Outline); !ok || !(b.Width > 0) || !(b.Height > 0) {
		l.text(a.x+20*l.u, a.y+20*l.u, []string{"the part has no outline that can be drawn"}, "body")
		return
	}
	full := b
	blank := p.Plan != nil && l.lv == nil && blankShown(p, b)
	if blank {
		for _, c := range p.Plan.Blank.Corners {
			full.MinX, full.MaxX = min(full.MinX, c.X), max(full.MaxX, c.X)
			full.MinY, full.MaxY = min(full.MinY, c.Y), max(full.MaxY, c.Y)
		}
		full.Width, full.Height = full.MaxX-full.MinX, full.MaxY-full.MinY
	}
	d := l.pads(p, len(numbered), a.w, a.h)
	w, h := max(a.w-d.left-d.right, 20), max(a.h-d.top-d.bottom, 20)
	v := view{scale: min(w/full.Width, h/full.Height)}
	v.x0 = a.x + d.left + (w-full.Width*v.scale)/2 - full.MinX*v.scale
	v.y0 = a.y + d.top + (h-full.Height*v.scale)/2 + full.MaxY*v.scale

	part := p.Part
	if blank {
		var c []float64
		for _, k := range p.Plan.Blank.Corners {
			x, y := v.at(k)
			c = append(c, x, y)
		}
		l.s.add(item{kind: itemStroke, style: "blank-line", path: append(lineSegs(c...), seg{op: segClose})})
	}
	l.s.add(item{kind: itemFill, style: "metal", path: v.edges(part.Outline, true)})
	if l.lv != nil {
		l.angleGround(v, part)
	}
	for _, r := range part.Holes {
		l.s.add(item{kind: itemFill, style: "paper", path: v.edges(r, true)})
	}
	worst := map[string]check.Severity{}
	for i := range all {
		f := &all[i].f
		for _, id := range f.Features {
			if s, ok := worst[id]; !ok || severityRank(f.Severity) < severityRank(s) {
				worst[id] = f.Severity
			}
		}
	}
	for i := range part.Features {
		f := &part.Features[i]
		if s, ok := worst[f.ID]; ok && f.Kind == features.Notch && len(f.Ring) > 0 {
			l.s.add(item{kind: itemFill, style: string(s) + "-tint", path: v.edges(f.Ring, true)})
		}
	}
	if l.lv != nil {
		l.angleOutline(v, part)
	} else {
		l.s.add(item{kind: itemStroke, style: "outline", path: v.edges(part.Outline, true)})
	}
	for _, r := range part.Holes {
		l.s.add(item{kind: itemStroke, style: "hole", path: v.edges(r, true)})
	}
	for i := range part.Features {
		f := &part.Features[i]
		switch f.Kind {
		case features.Bend:
			l.s.add(item{kind: itemStroke, style: "bend-line", path: v.chain(f)})
		case features.Mark:
			l.s.add(item{kind: itemStroke, style: "mark-line", path: v.chain(f)})
		case features.TappedHole, features.HoleWithSeat:
			if f.SeatMM > 0 {
				l.s.add(item{kind: itemStroke, style: "thin", path: v.edges([]geom.Edge{circleEdge(f.At, f.SeatMM)}, true)})
			}
		}
	}
	for i := range part.Features {
		f := &part.Features[i]
		if s, ok := worst[f.ID]; ok {
			l.mark(v, part, f, s)
		}
	}
	if l.lv != nil {
		a = l.angleKey(p, a)
	}
	pl := l.newPlacer(v, part, a)
	if blank {
		c := p.Plan.Blank.Corners
		for i := range c {
			pl.blank = v.straight(pl.blank, []geom.Edge{geom.LineEdge(c[i], c[(i+1)%len(c)])})
		}
		pl.drawn = append(pl.drawn, pl.blank...)
	}
	if l.lv != nil {
		pl.angleLines(part)
	} else {
		pl.sizes(b)
	}
	pl.scaleBar()
	pl.dimensions(numbered)
	pl.balloons(numbered)
	pl.names(numbered, worst)
}

// blankShown tells whether the blank differs visibly from the part's box, and
// is not so large that the part would shrink.
func blankShown(p *check.PartReport, b extent) bool {
	c := p.Plan.Blank.Corners
	if c == [4]geom.Point{} {
		return false
	}
	e := extent{MinX: c[0].X, MaxX: c[0].X, MinY: c[0].Y, MaxY: c[0].Y}
	for _, k := range c[1:] {
		e.MinX, e.MaxX = min(e.MinX, k.X), max(e.MaxX, k.X)
		e.MinY, e.MaxY = min(e.MinY, k.Y), max(e.MaxY, k.Y)
	}
	if !finite(e.MaxX-e.MinX) || !finite(e.MaxY-e.MinY) || e.MaxX-e.MinX > 1.3*b.Width+20 || e.MaxY-e.MinY > 1.3*b.Height+20 {
		return false
	}
	// A rectangular part covers its blank; a notched or round one does not.
	full := p.Part.AreaMM2
	for i := range p.Part.Features {
		if p.Part.Features[i].IsInside() {
			full += p.Part.Features[i].AreaMM2
		}
	}
	return (e.MaxX-e.MinX)*(e.MaxY-e.MinY) > 1.01*full
}

func circleEdge(c geom.Point, d float64) geom.Edge {
	s := geom.Point{X: c.X + d/2, Y: c.Y}
	return geom.Edge{From: s, To: s, Centre: c, Radius: d / 2, CCW: true}
}

// chain is the line of a bend or a mark.
func (v view) chain(f *features.Feature) []seg {
	if len(f.Open) > 0 {
		return v.edges(f.Open, false)
	}
	return v.edges([]geom.Edge{{From: f.From, To: f.To}}, false)
}

// outlineOf is the piece of the picture that shows a feature.
func (v view) outlineOf(part *features.Part, f *features.Feature) []seg {
	switch {
	case len(f.Ring) > 0 && len(f.Edges) == 0:
		return v.edges(f.Ring, true)
	case len(f.Edges) > 0:
		var out []seg
		for _, e := range runsOf(f.Edges) {
			var list []geom.Edge
			for _, i := range e {
				if i >= 0 && i < len(part.Outline) {
					list = append(list, part.Outline[i])
				}
			}
			out = append(out, v.edges(list, false)...)
		}
		return out
	case len(f.Open) > 0 || f.From != f.To:
		return v.chain(f)
	}
	return nil
}

// runsOf splits edge numbers into runs of neighbours.
func runsOf(edges []int) [][]int {
	var out [][]int
	for i, e := range edges {
		if i > 0 && edges[i-1]+1 == e {
			out[len(out)-1] = append(out[len(out)-1], e)
			continue
		}
		out = append(out, []int{e})
	}
	return out
}

// mark shows the severity on a feature: a thick line in its colour, and for
// holes a sign that stays when the colour is lost: a cross through for an
// error, one slash for a warning.
func (l *layout) mark(v view, part *features.Part, f *features.Feature, s check.Severity) {
	style := string(s) + "-mark"
	if r := featureReach(v, f); f.IsInside() && r < 9*l.u {
		style = string(s) + "-fine"
	}
	if path := v.outlineOf(part, f); len(path) > 0 {
		l.s.add(item{kind: itemStroke, style: style, path: path})
	}
	if !f.IsInside() || s == check.Note {
		return
	}
	x, y := v.at(f.At)
	r := featureReach(v, f)
	if r <= 0 {
		return
	}
	d := (r + min(4*l.u, r*0.5)) * math.Sqrt2 / 2
	l.s.add(item{kind: itemStroke, style: style, path: lineSegs(x-d, y+d, x+d, y-d)})
	if s == check.Error {
		l.s.add(item{kind: itemStroke, style: style, path: lineSegs(x-d, y-d, x+d, y+d)})
	}
}

// featureReach is half the smaller side of an inside feature, pixels.
func featureReach(v view, f *features.Feature) float64 {
	switch f.Kind {
	case features.RoundHole, features.HoleWithSeat, features.TappedHole:
		if f.DiameterMM > 0 {
			return f.DiameterMM / 2 * v.scale
		}
	case features.Slot, features.RectangularHole:
		if f.WidthMM > 0 {
			return f.WidthMM / 2 * v.scale // it may lie at any angle
		}
	}
	if e, ok := edgesBox(f.Ring); ok {
		return min(e.MaxX-e.MinX, e.MaxY-e.MinY) / 2 * v.scale
	}
	return f.DiameterMM / 2 * v.scale
}

// featureArea is the box of a feature in the picture; ok is false for those
// along the outline.
func featureArea(v view, f *features.Feature) (area, bool) {
	if !f.IsInside() && f.Kind != features.Notch {
		return area{}, false
	}
	e, ok := edgesBox(f.Ring)
	if !ok {
		if f.DiameterMM <= 0 {
			return area{}, false
		}
		r := f.DiameterMM / 2
		e = extent{MinX: f.At.X - r, MaxX: f.At.X + r, MinY: f.At.Y - r, MaxY: f.At.Y + r}
	}
	x, y := v.at(geom.Point{X: e.MinX, Y: e.MaxY})
	return area{x, y, (e.MaxX - e.MinX) * v.scale, (e.MaxY - e.MinY) * v.scale}, true
}

// featureByID finds a feature.
func featureByID(p *features.Part, id string) *features.Feature {
	i := slices.IndexFunc(p.Features, func(f features.Feature) bool { return f.ID == id })
	if i < 0 {
		return nil
	}
	return &p.Features[i]
}
