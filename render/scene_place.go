package render

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
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
	drawn  [][4]float64 // the part's own lines, for labels that stay beside them
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
	lab := area{cx - w/2, y + 5*u, w, lh}
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
	lab = area{x - 8*u - w, cy - lh/2, w, lh}
	for _, y := range []float64{p.box.y, p.box.bottom()} {
		l.s.add(item{kind: itemStroke, style: "thin", path: lineSegs(p.box.x-5*u, y, x-6*u, y)})
		p.strips = append(p.strips, area{p.box.x - 34*u, y - 3*u, 34 * u, 6 * u})
	}
	l.s.add(item{kind: itemDimension, style: "size-dimension", x: lab.x, y: lab.y, w: lab.w, h: lab.h, lines: []string{s},
		path: lineSegs(x, p.box.y, x, p.box.bottom())})
	p.take(lab)
	p.strips = append(p.strips, area{x - 5*u, p.box.y, 10 * u, max(p.box.h, 1)})
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
					return v * f, number(v, 3) + " in"
				}
				return v, number(v, 3) + " mm"
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
	if len(p.small) <= 400 {
		for _, n := range p.small {
			if crossesArea(lead, n.grow(-0.15*n.w)) && !(n.x <= x && x <= n.right() && n.y <= y && y <= n.bottom()) {
				c += 15 * u
			}
		}
	}
	return c
}

// balloon is a number to place: where its leader ends, and how far the feature
// reaches around that point.
type balloon struct {
	row    *tableRow
	alts   [][3]float64 // places where the leader may end: x, y, and how far the feature reaches around it
	x, y   float64      // the first of them
	reach  float64
	own    area
	place  int // index of the place taken
	cx, cy float64
}

// balloons numbers the rows that have a place and puts their balloons around
// the part: the cheapest free place for each in turn, then pairs are exchanged
// while that makes the leaders shorter or less crossed.
func (p *placer) balloons(rows []tableRow) {
	l, u := p.l, p.l.u
	var list []balloon
	number := 0
	for i := range rows {
		b, ok := p.anchor(&rows[i])
		if !ok {
			continue
		}
		number++
		rows[i].number = number
		list = append(list, b)
	}
	d := 30 * u
	places := p.balloonPlaces(d)
	px, py := p.box.centre()
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	// Around the part, so that neighbours choose one after the other.
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(math.Atan2(list[a].y-py, list[a].x-px), math.Atan2(list[b].y-py, list[b].x-px))
	})
	var taken []area
	for _, i := range order {
		best, bestCost := -1, math.Inf(1)
		for k, c := range places {
			a := area{c[0] - d/2, c[1] - d/2, d, d}
			if slices.ContainsFunc(taken, func(t area) bool { return t.overlaps(a.grow(4 * u)) }) {
				continue
			}
			if cost := p.leaderCost(&list[i], c, list); cost < bestCost-1e-6 {
				best, bestCost = k, cost
			}
		}
		if best < 0 {
			continue
		}
		list[i].place, list[i].cx, list[i].cy = best, places[best][0], places[best][1]
		p.leaderCost(&list[i], places[best], list) // settles where its leader ends
		taken = append(taken, area{list[i].cx - d/2, list[i].cy - d/2, d, d})
	}
	p.exchange(list)
	for i := range list {
		b := &list[i]
		if b.place < 0 {
			b.row.number = 0
			continue
		}
		sg, style := severitySign(b.row.f.Severity)
		ex, ey := b.end(b.cx, b.cy)
		l.s.add(item{kind: itemBalloon, style: style, sign: sg, x: b.cx, y: b.cy, w: d, lines: []string{strconv.Itoa(b.row.number)},
			path: lineSegs(b.cx, b.cy, ex, ey)})
		p.take(area{b.cx - d/2, b.cy - d/2, d, d})
		p.lines = append(p.lines, [4]float64{b.cx, b.cy, ex, ey})
	}
	// Numbers run without a gap even when a balloon found no room.
	p.renumber(rows)
}

func (p *placer) renumber(rows []tableRow) {
	n, from := 0, map[string]string{}
	for i := range rows {
		if rows[i].number > 0 {
			n++
			from[strconv.Itoa(rows[i].number)] = strconv.Itoa(n)
			rows[i].number = n
		}
	}
	for i := range p.l.s.items {
		if it := &p.l.s.items[i]; it.kind == itemBalloon {
			it.lines = []string{from[it.lines[0]]}
		}
	}
}

// exchange swaps places of two balloons while the whole gets cheaper.
func (p *placer) exchange(list []balloon) {
	for range 4 {
		changed := false
		for i := range list {
			for j := i + 1; j < len(list); j++ {
				a, b := &list[i], &list[j]
				if a.place < 0 || b.place < 0 {
					continue
				}
				before := p.pairCost(a, b, list)
				a.swap(b)
				if p.pairCost(a, b, list) < before-1e-6 {
					changed = true
				} else {
					a.swap(b)
					p.pairCost(a, b, list) // their leaders end where they did
				}
			}
		}
		if !changed {
			return
		}
	}
}

func (b *balloon) swap(o *balloon) {
	b.place, o.place = o.place, b.place
	b.cx, o.cx = o.cx, b.cx
	b.cy, o.cy = o.cy, b.cy
}

func (p *placer) pairCost(a, b *balloon, list []balloon) float64 {
	return p.leaderCost(a, [2]float64{a.cx, a.cy}, list) + p.leaderCost(b, [2]float64{b.cx, b.cy}, list)
}

// end is where the leader from a balloon at (x, y) stops: at the rim of the feature.
func (b *balloon) end(x, y float64) (ex, ey float64) {
	dx, dy := x-b.x, y-b.y
	d := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	if d <= b.reach || d == 0 {
		return b.x, b.y
	}
	return b.x + dx/d*b.reach, b.y + dy/d*b.reach
}

// leaderCost is the least cost of a leader from a place over the ends that it
// may have; it leaves the balloon with that end.
func (p *placer) leaderCost(b *balloon, at [2]float64, list []balloon) float64 {
	best, k := math.Inf(1), 0
	for i, a := range b.alts {
		b.x, b.y, b.reach = a[0], a[1], a[2]
		// Ends after the first are second choice.
		if c := p.oneLeader(b, at, list) + float64(min(i, 1))*12*p.l.u; c < best-1e-6 {
			best, k = c, i
		}
	}
	b.x, b.y, b.reach = b.alts[k][0], b.alts[k][1], b.alts[k][2]
	return best
}

// oneLeader is the length of a leader and the trouble that it makes with what
// is placed already.
func (p *placer) oneLeader(b *balloon, at [2]float64, list []balloon) float64 {
	u := p.l.u
	ex, ey := b.end(at[0], at[1])
	lead := [4]float64{at[0], at[1], ex, ey}
	dx, dy := ex-at[0], ey-at[1]
	c := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	for _, n := range p.labels {
		if crossesArea(lead, n) {
			c += 400 * u
		}
	}
	for _, n := range p.strips {
		if crossesArea(lead, n) {
			c += 40 * u
		}
	}
	for _, n := range p.lines {
		if segmentsCross(n, lead) {
			c += 120 * u
		}
	}
	for i := range list {
		o := &list[i]
		if o == b || o.place < 0 {
			continue
		}
		ox, oy := o.end(o.cx, o.cy)
		if segmentsCross([4]float64{o.cx, o.cy, ox, oy}, lead) {
			c += 250 * u
		}
		if crossesArea(lead, area{o.cx - 17*u, o.cy - 17*u, 34 * u, 34 * u}) {
			c += 400 * u
		}
	}
	if len(p.small) <= 400 {
		for _, n := range p.small {
			if n != b.own && crossesArea(lead, n.grow(-0.15*min(n.w, n.h))) {
				c += 25 * u
			}
		}
	}
	return c
}

// anchor finds where the leader of a row's balloon may end; ok is false if the
// row has no place in the picture.
func (p *placer) anchor(r *tableRow) (b balloon, ok bool) {
	b = balloon{row: r, place: -1}
	add := func(at geom.Point, reach float64) {
		x, y := p.v.at(at)
		if finite(x+y) && p.room.holds(area{x, y, 0, 0}) {
			b.alts = append(b.alts, [3]float64{x, y, reach})
		}
	}
	var f *features.Feature
	for _, id := range r.f.Features {
		if f = featureByID(p.part, id); f != nil {
			break
		}
	}
	switch {
	case f == nil:
		if r.f.HasAt {
			add(r.f.At, 0)
		}
	case f.IsInside():
		if a, ok := featureArea(p.v, f); ok {
			b.own = a
		}
		add(f.At, featureReach(p.v, f))
	case len(f.Edges) > 0:
		if f.Kind != features.Notch {
			add(f.At, 0)
		}
		for k, i := range f.Edges {
			if i >= 0 && i < len(p.part.Outline) && k < 12 {
				e := p.part.Outline[i]
				for _, t := range []float64{0.5, 0.25, 0.75} {
					add(edgeAt(e, t), 0)
				}
			}
		}
		if len(b.alts) == 0 {
			add(f.At, 0)
		}
	default:
		add(f.At, 0)
		if f.From != f.To {
			for _, t := range []float64{0.2, 0.8} {
				add(edgeAt(geom.Edge{From: f.From, To: f.To}, t), 0)
			}
		}
	}
	if len(b.alts) == 0 {
		return b, false
	}
	b.x, b.y, b.reach = b.alts[0][0], b.alts[0][1], b.alts[0][2]
	return b, true
}

// edgeAt is the point at a share t of an edge.
func edgeAt(e geom.Edge, t float64) geom.Point {
	if e.Radius <= 0 {
		return geom.Point{X: e.From.X + float64((e.To.X-e.From.X)*t), Y: e.From.Y + float64((e.To.Y-e.From.Y)*t)}
	}
	start, sweep := arcAngles(e)
	a := start + float64(sweep*t)
	return geom.Point{X: e.Centre.X + float64(e.Radius*math.Cos(a)), Y: e.Centre.Y + float64(e.Radius*math.Sin(a))}
}

// balloonPlaces are the free places around the part's box, in up to five rings.
func (p *placer) balloonPlaces(d float64) [][2]float64 {
	u := p.l.u
	var out [][2]float64
	try := func(x, y float64) {
		if p.free(area{x - d/2, y - d/2, d, d}) {
			out = append(out, [2]float64{x, y})
		}
	}
	for ring := range 5 {
		g := p.box.grow(28*u + d*1.15*float64(ring))
		nx, ny := max(1, int(math.Ceil(g.w/(12*u)))), max(1, int(math.Ceil(g.h/(12*u))))
		for i := range nx + 1 {
			x := g.x + g.w*float64(i)/float64(nx)
			try(x, g.y)
			try(x, g.bottom())
		}
		for i := 1; i < ny; i++ {
			y := g.y + g.h*float64(i)/float64(ny)
			try(g.x, y)
			try(g.right(), y)
		}
	}
	return out
}

// names writes the ids of the features that findings name, where there is room
// beside them; at most forty, and none in a crowd.
func (p *placer) names(rows []tableRow, worst map[string]check.Severity) {
	l, u := p.l, p.l.u
	if len(worst) > 40 {
		return
	}
	lh := l.r.lineHeight("feature-id")
	for i := range p.part.Features {
		f := &p.part.Features[i]
		if _, ok := worst[f.ID]; !ok || !finite(f.At.X+f.At.Y) {
			continue
		}
		w := l.r.width(f.ID, "feature-id")
		x, y := p.v.at(f.At)
		rx, ry := 4*u, 4*u
		if a, ok := featureArea(p.v, f); ok && f.IsInside() {
			rx, ry = a.w/2, a.h/2
			if seat := f.SeatMM / 2 * p.v.scale; seat > rx {
				rx, ry = seat, seat
			}
		}
		gap, far := 5*u, 20*u
		var tries [][2]float64
		if a, ok := featureArea(p.v, f); ok && f.Kind == features.Notch {
			cx, cy := a.centre()
			tries = append(tries, [2]float64{cx - w/2, cy - lh/2})
		}
		tries = append(tries, [][2]float64{{x + rx + gap, y - lh/2}, {x - rx - gap - w, y - lh/2}, {x - w/2, y - ry - gap - lh}, {x - w/2, y + ry + gap},
			{x + rx*0.7 + gap, y - ry*0.7 - gap - lh}, {x - rx*0.7 - gap - w, y - ry*0.7 - gap - lh},
			{x + rx*0.7 + gap, y + ry*0.7 + gap}, {x - rx*0.7 - gap - w, y + ry*0.7 + gap},
			{x + rx + far, y - lh/2}, {x - rx - far - w, y - lh/2}}...)
		for _, c := range tries {
			a := area{c[0], c[1], w, lh}
			crosses := func(n [4]float64) bool { return crossesArea(n, a.grow(2*u)) }
			if slices.ContainsFunc(p.lines, crosses) || slices.ContainsFunc(p.drawn, crosses) || !p.free(a) {
				continue
			}
			l.s.add(item{kind: itemText, style: "feature-id", x: a.x, y: a.y, w: w, h: lh, lines: []string{f.ID}})
			p.take(a)
			break
		}
	}
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
