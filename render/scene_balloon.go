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
		sg, style := findingSign(&b.row.f)
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
	if c < 24*u {
		c += 100 * u // the balloon would hide what it points at
	}
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
		// What lies off the part is not drawn: nothing there could be pointed at.
		if finite(x+y) && p.room.holds(area{x, y, 0, 0}) && p.box.grow(12*p.l.u).holds(area{x, y, 0, 0}) {
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
			if slices.ContainsFunc(p.lines, crosses) || slices.ContainsFunc(p.drawn, crosses) || slices.ContainsFunc(p.faint, func(n [4]float64) bool { return crossesArea(n, a.grow(-2*u)) }) || !p.free(a) {
				continue
			}
			l.s.add(item{kind: itemText, style: "feature-id", x: a.x, y: a.y, w: w, h: lh, lines: []string{f.ID}})
			p.take(a)
			break
		}
	}
}
