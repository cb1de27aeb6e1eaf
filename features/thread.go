package features

import (
	"math"

	"burrside/features/geom"
)

// Limits of a thread's arc round its hole (common practice, no
// source: a thread is drawn as about three quarters of a circle).
const (
	threadMinRad = 240 * math.Pi / 180
	threadMaxRad = 330 * math.Pi / 180
	threadMin    = 1.05 // times the hole
	threadMax    = 1.5
	threadFreeMM = 0.01 // no other line ends so near to the arc's ends
)

// markThreads finds the arcs that stand for a thread before the joiner, which
// would bridge them to their hole: an arc of three quarters about the centre of
// a circle, whose ends belong to nothing else.
func (b *builder) markThreads() {
	type place [2]int64
	cell := func(p geom.Point, side float64) place {
		return place{int64(math.Floor(p.X / side)), int64(math.Floor(p.Y / side))}
	}
	around := func(p geom.Point, side float64, f func(place)) {
		c := cell(p, side)
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				f(place{c[0] + dx, c[1] + dy})
			}
		}
	}
	var arcs []int
	circles := map[place][]geom.Edge{}
	for i := range b.items {
		it := &b.items[i]
		if b.start[i+1]-b.start[i] != 1 || it.class != classCut {
			continue
		}
		switch e := b.inputs[b.start[i]].Edge; {
		case e.IsCircle():
			c := cell(e.Centre, seatCentreMM)
			circles[c] = append(circles[c], e)
		case e.IsArc():
			if s := math.Abs(e.Sweep()); s >= threadMinRad && s <= threadMaxRad {
				arcs = append(arcs, i)
			}
		}
	}
	var found []int
	for _, i := range arcs {
		if holeOf(b.inputs[b.start[i]].Edge, func(f func(geom.Edge)) {
			around(b.inputs[b.start[i]].Edge.Centre, seatCentreMM, func(c place) {
				for _, e := range circles[c] {
					f(e)
				}
			})
		}) {
			found = append(found, i)
		}
	}
	if len(found) == 0 {
		return
	}
	type end struct {
		at   geom.Point
		edge int
	}
	ends := map[place][]end{}
	for k := range b.inputs {
		e := &b.inputs[k].Edge
		if e.IsCircle() {
			continue
		}
		for _, p := range [2]geom.Point{e.From, e.To} {
			c := cell(p, threadFreeMM)
			ends[c] = append(ends[c], end{p, k})
		}
	}
	for _, i := range found {
		e := b.inputs[b.start[i]].Edge
		free := true
		for _, p := range [2]geom.Point{e.From, e.To} {
			n := 0
			around(p, threadFreeMM, func(c place) {
				for _, q := range ends[c] {
					if q.at.Dist(p) <= threadFreeMM && (q.edge == b.start[i] || !isSameArc(e, b.inputs[q.edge].Edge)) {
						n++
					}
				}
			})
			free = free && n == 1
		}
		b.items[i].thread = free
	}
}

// isSameArc tells whether two arcs are one drawn twice.
func isSameArc(e, f geom.Edge) bool {
	return f.IsArc() && e.Centre.Dist(f.Centre) <= copyMM && math.Abs(e.Radius-f.Radius) <= copyMM && e.Mid().Dist(f.Mid()) <= 2*copyMM
}

// chainIsThread gives an open chain to the hole whose thread it is: arcs of one
// circle, drawn in pieces or about a hole in pieces.
func (b *builder) chainIsThread(d int, c *openChain) bool {
	first := c.pieces[0].edge
	sweep := 0.0
	for _, p := range c.pieces {
		if !p.edge.IsArc() || p.edge.Centre.Dist(first.Centre) > copyMM || math.Abs(p.edge.Radius-first.Radius) > copyMM || p.edge.CCW != first.CCW {
			return false
		}
		sweep += math.Abs(p.edge.Sweep())
	}
	if sweep < threadMinRad || sweep > threadMaxRad || c.on[0] >= 0 || c.on[1] >= 0 {
		return false
	}
	hole := -1
	b.loopsAt(first.Centre, func(h int) {
		if centre, r, ok := b.loops[h].isCircle(); ok && b.roles[h] == roleHole && b.owner[h] == d && centre.Dist(first.Centre) <= seatCentreMM {
			if k := first.Radius / r; k >= threadMin && k <= threadMax {
				hole = h
			}
		}
	})
	if hole < 0 {
		return false
	}
	b.addThread(hole, 2*first.Radius, first.Mid(), flatSources(c.pieces))
	return true
}

// addThread gives a hole its thread; a second one is the first drawn twice if
// they agree.
func (b *builder) addThread(hole int, diameterMM float64, at geom.Point, sources []int32) {
	d := &b.drafts[b.owner[hole]]
	t, had := d.threads[hole]
	if !had {
		d.threads[hole] = thread{diameterMM, sources}
		return
	}
	if math.Abs(t.diameterMM-diameterMM) <= 2*copyMM {
		b.twice = append(b.twice, twice{at, sources})
	} else {
		d.doubts = append(d.doubts, Doubt{Code: "reading-doubt", Grave: true, At: at, Source: sourcesOf(sources),
			Text: "two threads of different size lie about one hole"})
	}
	t.diameterMM = math.Max(t.diameterMM, diameterMM)
	t.sources = append(append([]int32(nil), t.sources...), sources...)
	sortUnique(&t.sources)
	d.threads[hole] = t
}

// holeOf tells whether one of the circles is the hole that an arc is the thread
// of.
func holeOf(arc geom.Edge, circles func(func(geom.Edge))) bool {
	ok := false
	circles(func(c geom.Edge) {
		k := arc.Radius / c.Radius
		ok = ok || c.Centre.Dist(arc.Centre) <= seatCentreMM && k >= threadMin && k <= threadMax
	})
	return ok
}

// nestThreads gives the threads to the holes that they lie about. One whose
// circle turned out to be no hole is told.
func (b *builder) nestThreads() {
	for i := range b.items {
		it := &b.items[i]
		if !it.thread {
			continue
		}
		arc := b.inputs[b.start[i]].Edge
		hole := -1
		b.loopsAt(arc.Centre, func(h int) {
			if centre, r, ok := b.loops[h].isCircle(); ok && b.roles[h] == roleHole && centre.Dist(arc.Centre) <= seatCentreMM {
				if k := arc.Radius / r; k >= threadMin && k <= threadMax {
					hole = h
				}
			}
		})
		if hole >= 0 {
			b.addThread(hole, 2*arc.Radius, arc.Mid(), []int32{it.info})
			continue
		}
		src := sourcesOf([]int32{it.info})
		if d := b.partAt(arc.Mid()); d >= 0 {
			b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "reading-doubt", Grave: true, At: arc.Centre, Source: src,
				Text: "an arc that looks like a thread lies about no hole of the part"})
			continue
		}
		b.note(Note{Code: "stray-line", At: arc.Centre, HasAt: true, Source: src, Text: "an arc that looks like a thread lies outside the parts"})
	}
}
