package render

import (
	"cmp"
	"math"
	"slices"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

// mostGauges is how many gauge lines a leg shows at most.
const mostGauges = 6

// gauge is a distance from the heel at which a leg has holes.
type gauge struct {
	leg   int
	mm    float64
	holes int
}

// gaugesOf lists the distinct gauges of the holes in each leg, to 0.1 mm, leg by
// leg from the heel outward. Of more than mostGauges in a leg those with most
// holes are listed.
func gaugesOf(p *features.Part) []gauge {
	var out []gauge
	for leg := range p.Angle.Legs {
		var own []gauge
		for i := range p.Features {
			f := &p.Features[i]
			if !f.IsInside() || f.Leg != legName(leg) || !finite(f.FromHeelMM) {
				continue
			}
			k := slices.IndexFunc(own, func(g gauge) bool { return math.Abs(g.mm-f.FromHeelMM) < 0.1 })
			if k < 0 {
				k = len(own)
				own = append(own, gauge{leg: leg, mm: f.FromHeelMM})
			}
			own[k].holes++
		}
		if len(own) > mostGauges {
			slices.SortStableFunc(own, func(a, b gauge) int {
				return cmp.Or(b.holes-a.holes, cmp.Compare(math.Round(a.mm*100), math.Round(b.mm*100)))
			})
			own = own[:mostGauges]
		}
		slices.SortFunc(own, func(a, b gauge) int { return cmp.Compare(a.mm, b.mm) })
		out = append(out, own...)
	}
	return out
}

// anglePads widens the strips around an angle for the names of its legs, the
// gauges, and the key with the section.
func (l *layout) anglePads(p *check.PartReport, d *pads, w, h float64) {
	u := l.u
	a := p.Part.Angle
	label := l.r.width("leg a", "size-dimension")
	for i := range a.LegMM {
		label = max(label, l.r.width(legSize(a, i, l.unit), "size-dimension"))
	}
	d.left = max(d.left, 34*u+label+14*u)
	gauges := 0.0
	for _, g := range gaugesOf(p.Part) {
		gauges = max(gauges, l.r.width(lengthText(g.mm, l.unit), "small"))
	}
	if gauges > 0 {
		d.right += gauges + 20*u
	}
	key := l.keyArea(area{0, 0, w, h})
	switch {
	case key.h <= 0:
	case key.y > 0:
		d.bottom += key.h
	default:
		d.right += key.w
	}
}

// legSize is "a 75 mm".
func legSize(a *features.Angle, i int, unit string) string {
	return legName(i) + " " + lengthText(a.LegMM[i], unit)
}

// heelSpans are the stretches of X in which both legs hang together at the heel;
// where one leg has no outline the other's alone.
func heelSpans(a *features.Angle, heelY float64) [][2]float64 {
	var of [2][][2]float64
	for i := range a.Legs {
		for _, e := range a.Legs[i].Ring {
			if !e.IsArc() && math.Abs(e.From.Y-heelY) <= 0.05 && math.Abs(e.To.Y-heelY) <= 0.05 {
				of[i] = append(of[i], [2]float64{min(e.From.X, e.To.X), max(e.From.X, e.To.X)})
			}
		}
	}
	if len(a.Legs[0].Ring) == 0 || len(a.Legs[1].Ring) == 0 {
		return append(of[0], of[1]...)
	}
	var out [][2]float64
	for _, s := range of[0] {
		for _, t := range of[1] {
			if from, to := max(s[0], t[0]), min(s[1], t[1]); to > from {
				out = append(out, [2]float64{from, to})
			}
		}
	}
	slices.SortFunc(out, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	return out
}

// rootReach is how far from the heel a leg is not flat inside: to the toe of the
// fillet, else the other leg's thickness; 0 if neither is known.
func rootReach(a *features.Angle) float64 { return max(a.ToRootMM, a.ThicknessMM, 0) }

// angleGround lays what is under the lines: a leg that is not drawn is pale, and
// the zone of the fillet is hatched.
func (l *layout) angleGround(v view, p *features.Part) {
	a := p.Angle
	for i := range a.Legs {
		if leg := &a.Legs[i]; !leg.Drawn && len(leg.Ring) > 0 {
			l.s.add(item{kind: itemFill, style: "shade", path: v.edges(leg.Ring, true)})
		}
	}
	reach := rootReach(a)
	if !(reach > 0) {
		return
	}
	lines := v.straight(nil, p.Outline)
	if len(lines) >= mostDrawn {
		return
	}
	b := partBox(p)
	x0, yTop := v.at(geom.Point{X: b.MinX, Y: min(l.lv.heelY+reach, b.MaxY)})
	x1, yLow := v.at(geom.Point{X: b.MaxX, Y: max(l.lv.heelY-reach, b.MinY)})
	l.hatch(area{x0, yTop, x1 - x0, yLow - yTop}, lines)
}

// hatch draws lines at 45 degrees across an area as far as they lie within
// closed lines.
func (l *layout) hatch(a area, within [][4]float64) {
	var path []seg
	step := 8 * l.u
	for x := a.x - a.h; x < a.right(); x += step {
		s := [4]float64{x, a.bottom(), x + a.h, a.y}
		ts := []float64{}
		dx, dy := s[2]-s[0], s[3]-s[1]
		for _, n := range within {
			ex, ey := n[2]-n[0], n[3]-n[1]
			den := float64(dx*ey) - float64(dy*ex)
			if den == 0 {
				continue
			}
			qx, qy := n[0]-s[0], n[1]-s[1]
			t, w := (float64(qx*ey)-float64(qy*ex))/den, (float64(qx*dy)-float64(qy*dx))/den
			// Half open, so that a corner counts once.
			if w >= 0 && w < 1 {
				ts = append(ts, t)
			}
		}
		slices.Sort(ts)
		for i := 0; i+1 < len(ts); i += 2 {
			t, w := max(ts[i], 0), min(ts[i+1], 1)
			if w > t {
				path = append(path, lineSegs(s[0]+t*dx, s[1]+t*dy, s[0]+w*dx, s[1]+w*dy)...)
			}
		}
	}
	if len(path) > 0 {
		l.s.add(item{kind: itemStroke, style: "root-zone", path: path})
	}
}

// angleOutline draws the outline, dashed where it is that of a leg that no view
// shows.
func (l *layout) angleOutline(v view, p *features.Part) {
	a := p.Angle
	if a.Legs[0].Drawn && a.Legs[1].Drawn {
		l.s.add(item{kind: itemStroke, style: "outline", path: v.edges(p.Outline, true)})
		return
	}
	var of [2][]geom.Edge
	for _, e := range p.Outline {
		pieces := []geom.Edge{e}
		if !e.IsArc() && (e.From.Y-l.lv.heelY)*(e.To.Y-l.lv.heelY) < 0 {
			t := (l.lv.heelY - e.From.Y) / (e.To.Y - e.From.Y)
			pieces = e.Split(edgeAt(e, t))
		}
		for _, q := range pieces {
			k := a.LegAt(q.Mid())
			of[k] = append(of[k], q)
		}
	}
	for k := range of {
		style := "outline"
		if !a.Legs[k].Drawn {
			style = "not-drawn"
		}
		if len(of[k]) > 0 {
			l.s.add(item{kind: itemStroke, style: style, path: v.edges(of[k], false)})
		}
	}
}

// angleLines draws the heel, the gauge lines with their gauges, the breaks, and
// the sizes.
func (p *placer) angleLines(part *features.Part) {
	l := p.l
	a := part.Angle
	for _, s := range heelSpans(a, l.lv.heelY) {
		x1, y := p.v.at(geom.Point{X: s[0], Y: l.lv.heelY})
		x2, _ := p.v.at(geom.Point{X: s[1], Y: l.lv.heelY})
		l.s.add(item{kind: itemStroke, style: "heel-line", path: lineSegs(x1, y, x2, y)})
		p.faint = append(p.faint, [4]float64{x1, y, x2, y})
	}
	p.gauges(part)
	p.breaks()
	p.angleSizes(a)
}

// gauges draws a line for each gauge and writes the gauge at its right end;
// where they lie close the words are moved apart and led to.
func (p *placer) gauges(part *features.Part) {
	l, u := p.l, p.l.u
	a := part.Angle
	type mark struct{ y, at float64 }
	list := gaugesOf(part)
	lh := l.r.lineHeight("small")
	var marks []mark
	var words []string
	order := make([]int, 0, len(list))
	for i, g := range list {
		_, y := p.v.at(geom.Point{Y: l.lv.heelY + float64(g.mm*a.Legs[g.leg].Toe.Y)})
		marks = append(marks, mark{y, y})
		words = append(words, lengthText(g.mm, l.unit))
		order = append(order, i)
		l.s.add(item{kind: itemStroke, style: "gauge-line", path: lineSegs(p.box.x, y, p.box.right()+8*u, y)})
		p.faint = append(p.faint, [4]float64{p.box.x, y, p.box.right() + 8*u, y})
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(marks[i].y, marks[j].y) })
	for k := 1; k < len(order); k++ {
		last, m := &marks[order[k-1]], &marks[order[k]]
		m.at = max(m.at, last.at+lh+2*u)
	}
	// What was pushed down goes up again by half, as far as there is room.
	top := math.Inf(-1)
	for k, i := range order {
		m := &marks[i]
		j := k
		for j+1 < len(order) && marks[order[j+1]].at-marks[order[j]].at < lh+2.5*u {
			j++
		}
		push := marks[order[j]].at - marks[order[j]].y
		m.at = max(m.at-push/2, top)
		top = m.at + lh + 2*u
	}
	for _, i := range order {
		m := marks[i]
		x := p.box.right() + 12*u
		w := l.r.width(words[i], "small")
		if math.Abs(m.at-m.y) > 2*u {
			l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(x-4*u, m.y, x+4*u, m.at)})
		}
		lab := area{x + 5*u, m.at - lh/2, w, lh}
		l.s.add(item{kind: itemText, style: "small", x: lab.x, y: lab.y, w: w, h: lh, lines: []string{words[i]}})
		p.take(lab)
	}
}

// breaks draws a gap with ragged edges over the part where it is shortened.
func (p *placer) breaks() {
	l, u := p.l, p.l.u
	half, tooth := 5*u, 4*u
	y0, y1 := p.box.y-6*u, p.box.bottom()+6*u
	n := max(2, int((y1-y0)/(12*u)))
	for _, at := range l.lv.breaks {
		x, _ := p.v.at(geom.Point{X: at})
		side := func(x float64) []float64 {
			var out []float64
			for i := range n + 1 {
				off := tooth
				if i%2 == 0 {
					off = -tooth
				}
				out = append(out, x+off, y0+(y1-y0)*float64(i)/float64(n))
			}
			return out
		}
		left, right := side(x-half), side(x+half)
		fill := lineSegs(left...)
		for i := len(right) - 2; i >= 0; i -= 2 {
			fill = append(fill, seg{op: segLine, x: right[i], y: right[i+1]})
		}
		l.s.add(item{kind: itemFill, style: "break", path: append(fill, seg{op: segClose})})
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(left...)})
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(right...)})
		p.strips = append(p.strips, area{x - half - tooth, y0, 2 * (half + tooth), y1 - y0})
	}
}

// angleSizes draws the overall length below the part, and the widths of the legs
// left of it with their names.
func (p *placer) angleSizes(a *features.Angle) {
	l, u := p.l, p.l.u
	lh := l.r.lineHeight("size-dimension")
	y := p.box.bottom() + 26*u
	s := lengthText(a.LengthMM, l.unit)
	w := l.r.width(s, "size-dimension")
	cx, _ := p.box.centre()
	for _, x := range []float64{p.box.x, p.box.right()} {
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(x, p.box.bottom()+5*u, x, y+6*u)})
		p.strips = append(p.strips, area{x - 3*u, p.box.bottom(), 6 * u, 34 * u})
	}
	lab := area{cx - w/2, y + 5*u, w, lh}
	l.s.add(item{kind: itemDimension, style: "size-dimension", x: lab.x, y: lab.y, w: lab.w, h: lab.h, lines: []string{s},
		path: lineSegs(p.box.x, y, p.box.right(), y)})
	p.take(lab)
	p.strips = append(p.strips, area{p.box.x, y - 5*u, max(p.box.w, 1), 10 * u})

	x := p.box.x - 26*u
	_, heel := p.v.at(geom.Point{Y: l.lv.heelY})
	ext := func(y float64) {
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(p.box.x-5*u, y, x-6*u, y)})
		p.strips = append(p.strips, area{p.box.x - 34*u, y - 3*u, 34 * u, 6 * u})
	}
	ext(heel)
	var mid [2]float64
	var toe [2]float64
	for i := range a.Legs {
		_, toe[i] = p.v.at(geom.Point{Y: l.lv.heelY + float64(a.LegMM[i]*a.Legs[i].Toe.Y)})
		mid[i] = (heel + toe[i]) / 2
	}
	if near := lh + 3*u - math.Abs(mid[0]-mid[1]); near > 0 {
		up := math.Copysign(near/2, mid[0]-mid[1])
		mid[0], mid[1] = mid[0]+up, mid[1]-up
	}
	for i := range a.Legs {
		if !(a.LegMM[i] > 0) {
			continue
		}
		ext(toe[i])
		s := legSize(a, i, l.unit)
		w := l.r.width(s, "size-dimension")
		lab := area{x - 8*u - w, mid[i] - lh/2, w, lh}
		l.s.add(item{kind: itemDimension, style: "size-dimension", x: lab.x, y: lab.y, w: lab.w, h: lab.h, lines: []string{s},
			path: lineSegs(x, min(heel, toe[i]), x, max(heel, toe[i]))})
		p.take(lab)
		p.strips = append(p.strips, area{x - 5*u, min(heel, toe[i]), 10 * u, math.Abs(toe[i] - heel)})
	}
}
