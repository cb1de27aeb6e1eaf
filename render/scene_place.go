package render

import (
	"math"
	"slices"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

// placer finds room for labels around and on the part. Labels never overlap
// each other or a small feature; which place is best is a matter of cost.
type placer struct {
	l      *layout
	v      view
	part   *features.Part
	room   area         // labels stay inside
	box    area         // the part's box
	labels []area       // taken by labels
	strips []area       // along the lines of the overall dimensions
	small  []area       // small features of the part
	large  []area       // holes so large that a label may stand inside
	lines  [][4]float64 // leaders and dimension lines
	drawn  [][4]float64 // the part's own lines and the blank's, for labels that stay beside them
	blank  [][4]float64 // the blank's lines
	faint  [][4]float64 // gauge lines and the like: names stay beside them
}

func (l *layout) newPlacer(v view, part *features.Part, a area) *placer {
	p := &placer{l: l, v: v, part: part, room: a.grow(-3 * l.u)}
	b := partBox(part)
	x, y := v.at(geom.Point{X: b.MinX, Y: b.MaxY})
	p.box = area{x, y, b.Width * v.scale, b.Height * v.scale}
	p.drawn = v.straight(p.drawn, part.Outline)
	for i := range part.Features {
		if f := &part.Features[i]; f.Kind == features.Bend || f.Kind == features.Mark {
			if len(f.Open) > 0 {
				p.drawn = v.straight(p.drawn, f.Open)
			} else {
				p.drawn = v.straight(p.drawn, []geom.Edge{{From: f.From, To: f.To}})
			}
		}
		f, ok := featureArea(v, &part.Features[i])
		if !ok || !part.Features[i].IsInside() {
			continue
		}
		if min(f.w, f.h) < 150*l.u {
			p.small = append(p.small, f)
		} else {
			p.large = append(p.large, f)
			p.drawn = v.straight(p.drawn, part.Features[i].Ring)
		}
	}
	return p
}

// mostDrawn bounds the lines that labels keep clear of: an outline of more has
// no room for labels anyway.
const mostDrawn = 1500

// straight adds edges as straight pieces, arcs in up to 24.
func (v view) straight(out [][4]float64, edges []geom.Edge) [][4]float64 {
	for _, e := range edges {
		if len(out) >= mostDrawn {
			return out
		}
		x1, y1 := v.at(e.From)
		if e.Radius <= 0 {
			x2, y2 := v.at(e.To)
			out = append(out, [4]float64{x1, y1, x2, y2})
			continue
		}
		start, sweep := arcAngles(e)
		n := max(2, min(24, int(math.Abs(sweep)*4)))
		cx, cy := v.at(e.Centre)
		for i := 1; i <= n; i++ {
			a := start + sweep*float64(i)/float64(n)
			x2, y2 := cx+e.Radius*v.scale*math.Cos(a), cy-e.Radius*v.scale*math.Sin(a)
			out = append(out, [4]float64{x1, y1, x2, y2})
			x1, y1 = x2, y2
		}
	}
	return out
}

// free tells whether a label may stand in a place.
func (p *placer) free(a area) bool {
	if !p.room.holds(a) {
		return false
	}
	g := a.grow(2 * p.l.u)
	for _, t := range p.labels {
		if t.overlaps(g) {
			return false
		}
	}
	for _, t := range p.strips {
		if t.overlaps(a) {
			return false
		}
	}
	for _, t := range p.small {
		if t.overlaps(g) {
			return false
		}
	}
	return true
}

func (p *placer) take(a area) { p.labels = append(p.labels, a) }

// sizes draws the overall width below and the overall height left of the part.
func (p *placer) sizes(b extent) {
	l, u := p.l, p.l.u
	lh := l.r.lineHeight("size-dimension")
	y := p.box.bottom() + 26*u
	s := lengthText(b.Width, l.unit)
	w := l.r.width(s, "size-dimension")
	cx, cy := p.box.centre()
	lab := p.clearOfBlank(area{cx - w/2, y + 5*u, w, lh}, 1, 0)
	for _, x := range []float64{p.box.x, p.box.right()} {
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(x, p.box.bottom()+5*u, x, y+6*u)})
		p.strips = append(p.strips, area{x - 3*u, p.box.bottom(), 6 * u, 34 * u})
	}
	l.s.add(item{kind: itemDimension, style: "size-dimension", x: lab.x, y: lab.y, w: lab.w, h: lab.h, lines: []string{s},
		path: lineSegs(p.box.x, y, p.box.right(), y)})
	p.take(lab)
	p.strips = append(p.strips, area{p.box.x, y - 5*u, max(p.box.w, 1), 10 * u})

	x := p.box.x - 26*u
	s = lengthText(b.Height, l.unit)
	w = l.r.width(s, "size-dimension")
	lab = p.clearOfBlank(area{x - 8*u - w, cy - lh/2, w, lh}, 0, 1)
	for _, y := range []float64{p.box.y, p.box.bottom()} {
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(p.box.x-5*u, y, x-6*u, y)})
		p.strips = append(p.strips, area{p.box.x - 34*u, y - 3*u, 34 * u, 6 * u})
	}
	l.s.add(item{kind: itemDimension, style: "size-dimension", x: lab.x, y: lab.y, w: lab.w, h: lab.h, lines: []string{s},
		path: lineSegs(x, p.box.y, x, p.box.bottom())})
	p.take(lab)
	p.strips = append(p.strips, area{x - 5*u, p.box.y, 10 * u, max(p.box.h, 1)})
}

// clearOfBlank moves the label of an overall size along its dimension line, in
// the direction (dx, dy), to the place nearest to the middle where no line of
// the blank runs through it. Where there is none it stays.
func (p *placer) clearOfBlank(a area, dx, dy float64) area {
	room := (p.box.w-a.w)/2*dx + (p.box.h-a.h)/2*dy
	const steps = 24
	for i := range 2*steps + 1 {
		d := room * float64((i+1)/2) / steps
		if i%2 == 1 {
			d = -d
		}
		b := area{a.x + d*dx, a.y + d*dy, a.w, a.h}
		if !slices.ContainsFunc(p.blank, func(n [4]float64) bool { return crossesArea(n, b.grow(2*p.l.u)) }) {
			return b
		}
		if room <= 0 {
			break
		}
	}
	return a
}

// scaleBar stands in the bottom left corner, of a round length.
func (p *placer) scaleBar() {
	l, u := p.l, p.l.u
	mm, words := roundLength(90*u/p.v.scale, l.unit)
	w := mm * p.v.scale
	x, y := p.room.x+12*u, p.room.bottom()-16*u
	if w > p.room.w*0.5 {
		return
	}
	l.s.add(item{kind: itemFill, style: "scale-dark", path: rectSegs(area{x, y, w / 2, 6 * u})})
	l.s.add(item{kind: itemStroke, style: "scale-dark", path: rectSegs(area{x, y, w, 6 * u})})
	lh := l.r.lineHeight("small")
	tw := l.r.width(words, "small")
	lab := area{x + w + 8*u, y + 3*u - lh/2, tw, lh}
	l.s.add(item{kind: itemText, style: "small", x: lab.x, y: lab.y, w: tw, h: lh, lines: []string{words}})
	p.take(area{x, min(y, lab.y), lab.right() - x, max(lh, 10*u)})
}

// roundLength is the least round length of at least least mm: 1, 2 or 5 times a
// power of ten, in inches also the halves, quarters and eighths.
func roundLength(least float64, unit string) (mm float64, words string) {
	f := 1.0
	if unit == "in" {
		f = 25.4
		for _, d := range []float64{0.125, 0.25, 0.5} {
			if d*f >= least {
				return d * f, lengthText(d*f, unit)
			}
		}
	}
	for power := 0.001; power < 1e9; power *= 10 {
		for _, k := range []float64{1, 2, 5} {
			// The product is rounded so that 0.2 is not 0.2000001.
			v := math.Round(k*power*1000) / 1000
			if v*f >= least {
				if unit == "in" {
					return v * f, measure.FormatNumber(v, 3) + " in"
				}
				return v, measure.FormatNumber(v, 3) + " mm"
			}
		}
	}
	return least, lengthText(least, unit)
}

// dimensions draws the offending distances with what was found and needed, at
// most eight, the worst first.
func (p *placer) dimensions(rows []tableRow) {
	l, u := p.l, p.l.u
	n := 0
	var list []*check.Finding
	for i := range rows {
		list = append(list, &rows[i].f)
	}
	for i := range rows {
		for k := range rows[i].rest {
			list = append(list, &rows[i].rest[k])
		}
	}
	for _, f := range list {
		if !f.HasAt || f.To == nil || n == 8 || !finite(f.At.X+f.At.Y+f.To.X+f.To.Y) {
			continue
		}
		found, limit := foundNeeded(f, l.unit)
		if found == "" {
			continue
		}
		x1, y1 := p.v.at(f.At)
		x2, y2 := p.v.at(*f.To)
		if !p.room.holds(area{min(x1, x2), min(y1, y2), math.Abs(x2 - x1), math.Abs(y2 - y1)}) {
			continue
		}
		style := string(f.Severity) + "-dimension"
		lines := []string{"found " + found}
		if limit != "" {
			lines = append(lines, limit)
		}
		w := 0.0
		for k := range lines {
			lines[k] = l.r.clean(lines[k])
			w = max(w, l.r.width(lines[k], style))
		}
		lh := l.r.lineHeight(style)
		lab, ok := p.near((x1+x2)/2, (y1+y2)/2, w+10*u, lh*float64(len(lines))+6*u, [4]float64{x1, y1, x2, y2})
		if !ok {
			continue
		}
		n++
		p.lines = append(p.lines, [4]float64{x1, y1, x2, y2})
		tx, ty := nearestOf(lab, (x1+x2)/2, (y1+y2)/2)
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs((x1+x2)/2, (y1+y2)/2, tx, ty)})
		p.lines = append(p.lines, [4]float64{(x1 + x2) / 2, (y1 + y2) / 2, tx, ty})
		l.s.add(item{kind: itemDimension, style: style, x: lab.x, y: lab.y, w: lab.w, h: lab.h, lines: lines, path: lineSegs(x1, y1, x2, y2)})
		p.take(lab)
	}
}

// near finds the cheapest free place for a label of w by h about a point.
func (p *placer) near(x, y, w, h float64, line [4]float64) (area, bool) {
	u := p.l.u
	best, bestCost := area{}, math.Inf(1)
	for ring := range 28 {
		d := (10 + 15*float64(ring)) * u
		if d > bestCost {
			break
		}
		for k := range 24 {
			a := float64(k) * math.Pi / 12
			c, s := math.Cos(a), math.Sin(a)
			// The label's near side is d away in this direction.
			lab := area{x + c*(d+w/2) - w/2, y + s*(d+h/2) - h/2, w, h}
			if !p.free(lab) || crossesArea(line, lab.grow(3*u)) {
				continue
			}
			cost := d + p.touched(lab, x, y)
			if cost < bestCost-1e-6 {
				best, bestCost = lab, cost
			}
		}
	}
	return best, !math.IsInf(bestCost, 1)
}

// touched is the cost of what a label covers or what its leader runs over.
func (p *placer) touched(lab area, x, y float64) float64 {
	u := p.l.u
	c := 0.0
	tx, ty := nearestOf(lab, x, y)
	lead := [4]float64{x, y, tx, ty}
	for _, n := range p.lines {
		if crossesArea(n, lab) {
			c += 200 * u
		}
		if segmentsCross(n, lead) {
			c += 120 * u
		}
	}
	for _, n := range p.labels {
		if crossesArea(lead, n) {
			c += 300 * u
		}
	}
	// A label across a line of the part hides it.
	for _, n := range p.drawn {
		if crossesArea(n, lab.grow(2*u)) {
			c += 60 * u
		}
	}
	for _, n := range p.faint {
		if crossesArea(n, lab) {
			c += 15 * u
		}
	}
	if len(p.small) <= 400 {
		for _, n := range p.small {
			if crossesArea(lead, n.grow(-0.15*n.w)) && !(n.x <= x && x <= n.right() && n.y <= y && y <= n.bottom()) {
				c += 15 * u
			}
		}
	}
	return c
}

// nearestOf is the point of an area nearest to (x, y).
func nearestOf(a area, x, y float64) (nx, ny float64) {
	return min(max(x, a.x), a.right()), min(max(y, a.y), a.bottom())
}

// segmentsCross tells whether two straight pieces cross properly.
func segmentsCross(a, b [4]float64) bool {
	side := func(s [4]float64, x, y float64) float64 {
		return float64((s[2]-s[0])*(y-s[1])) - float64((s[3]-s[1])*(x-s[0]))
	}
	d1, d2 := side(a, b[0], b[1]), side(a, b[2], b[3])
	d3, d4 := side(b, a[0], a[1]), side(b, a[2], a[3])
	return d1*d2 < 0 && d3*d4 < 0
}

// crossesArea tells whether a straight piece meets an area, by clipping it
// against the four sides.
func crossesArea(s [4]float64, a area) bool {
	if a.w <= 0 || a.h <= 0 {
		return false
	}
	t0, t1 := 0.0, 1.0
	dx, dy := s[2]-s[0], s[3]-s[1]
	for _, c := range [4][2]float64{{-dx, s[0] - a.x}, {dx, a.right() - s[0]}, {-dy, s[1] - a.y}, {dy, a.bottom() - s[1]}} {
		p, q := c[0], c[1]
		switch {
		case p == 0:
			if q < 0 {
				return false
			}
		case p < 0:
			t0 = max(t0, q/p)
		default:
			t1 = min(t1, q/p)
		}
	}
	return t0 < t1
}
