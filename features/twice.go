package features

import (
	"fmt"
	"math"

	"burrside/features/geom"
)

// twice is a contour that was left out because it lies on another one.
type twice struct {
	at      geom.Point
	sources []int32
}

// dropTwice takes out the contours that lie on another one within copyMM: drawn
// twice and a little apart, in two programs' roundings or as a polygon and a
// circle. The joiner leaves such a pair as a contour inside the other, or as one
// that crosses it. Edges that run along each other nearer than that it has
// merged already.
func (b *builder) dropTwice() error {
	for i := range b.loops {
		if i%256 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		l := &b.loops[i]
		if l.dead {
			continue
		}
		on := l.crosses
		if !l.toolMark {
			on = nil
			if p := l.parent; p >= 0 {
				on = []int{p}
			}
		}
		for _, k := range on {
			if b.loops[k].dead || !b.isSameLoop(i, k) {
				continue
			}
			l.dead = true
			src := flatSources(l.pieces)
			b.note(Note{Code: "duplicate-merged", At: l.box.Centre(), HasAt: true, Source: sourcesOf(src), Text: "a closed line lies on an equal one and was left out"})
			b.twice = append(b.twice, twice{l.box.Centre(), src})
			break
		}
	}
	return nil
}

// dropInnerOutline takes the only closed line within an outline, with others in
// it and less than metalGapMM within the outline all round, for the outline
// drawn a second time: by the width of a cut inside, or as the border of the
// work. A ring so thin that holds something can be cut by nothing. The outer one
// is taken, and the part doubted.
func (b *builder) dropInnerOutline(d *draft) {
	o := &b.loops[d.outline]
	if len(o.children) != 1 {
		return
	}
	h := o.children[0]
	l := &b.loops[h]
	const corner = math.Sqrt2 + 0.1 // of a square corner from the corner within
	if len(l.children) == 0 || len(l.ring)*len(o.ring) > 4_000_000 || !liesOn(l.ring, o.ring, metalGapMM) || !liesOn(o.ring, l.ring, corner*metalGapMM) {
		return
	}
	_, _, web := geom.RingDist(o.ring, l.ring)
	l.dead = true
	for _, k := range l.children {
		b.loops[k].parent = d.outline
	}
	o.children = l.children
	d.doubts = append(d.doubts, Doubt{Code: "reading-doubt", Grave: true, At: l.box.Min, Source: l.sources(),
		Text: fmt.Sprintf("a closed line runs %s mm inside the outline with all openings in it: the outline may be drawn twice; the outer one was taken", shortNumber(web))})
}

// isSameLoop tells whether two loops are one within copyMM: each corner and
// middle of one lies on the other.
func (b *builder) isSameLoop(i, k int) bool {
	p, q := &b.loops[i], &b.loops[k]
	near := func(u, v geom.Point) bool { return math.Abs(u.X-v.X) <= copyMM && math.Abs(u.Y-v.Y) <= copyMM }
	if !near(p.box.Min, q.box.Min) || !near(p.box.Max, q.box.Max) || math.Abs(p.area-q.area) > float64(copyMM*p.ring.Length()) {
		return false
	}
	// Of very long contours that share their box the work is not worth while:
	// they stay and are told as crossing or too near.
	const most = 4_000_000
	if len(p.ring)*len(q.ring) > most {
		return false
	}
	return liesOn(p.ring, q.ring, copyMM) && liesOn(q.ring, p.ring, copyMM)
}

// liesOn tells whether the corners and middles of a ring lie on another within
// tol.
func liesOn(r, on geom.Ring, tol float64) bool {
	for _, e := range r {
		for _, at := range [2]geom.Point{e.From, e.Mid()} {
			d := math.Inf(1)
			for _, f := range on {
				d = math.Min(d, f.Dist(at))
			}
			if d > tol {
				return false
			}
		}
	}
	return true
}

// wholeCircle makes one circle of a loop of arcs that all lie on it: the mean of
// centres and radii that agree within copyMM.
func (l *loop) wholeCircle() {
	if len(l.pieces) < 2 {
		return
	}
	first := l.pieces[0].edge
	whole := piece{style: l.pieces[0].style}
	var centre geom.Point
	radius, sweep := 0.0, 0.0
	for _, p := range l.pieces {
		e := p.edge
		if !e.IsArc() || e.CCW != first.CCW || e.Centre.Dist(first.Centre) > copyMM || math.Abs(e.Radius-first.Radius) > copyMM {
			return
		}
		w := math.Abs(e.Sweep())
		centre, radius, sweep = centre.Add(e.Centre.Sub(first.Centre).Mul(w)), radius+w*e.Radius, sweep+w
		whole.sources = append(whole.sources, p.sources...)
		whole.fitted = whole.fitted || p.fitted
	}
	if math.Abs(sweep-2*math.Pi) > 0.1 {
		return
	}
	sortUnique(&whole.sources)
	whole.edge = geom.CircleEdge(first.Centre.Add(centre.Mul(1/sweep)), radius/sweep)
	l.pieces = []piece{whole}
}

// roundBridges makes the straight piece that closed a gap between two arcs of
// one circle an arc of it: a circle or a rounding that lacks a little of its way
// is round, not flat there. Circles are one when they agree within 0.02 mm.
func (l *loop) roundBridges() {
	n := len(l.pieces)
	if n < 2 {
		return
	}
	for i := range l.pieces {
		p := &l.pieces[i]
		if len(p.sources) > 0 || p.edge.IsArc() {
			continue
		}
		u, v := l.pieces[(i+n-1)%n].edge, l.pieces[(i+1)%n].edge
		if !u.IsArc() || !v.IsArc() || u.CCW != v.CCW || u.Centre.Dist(v.Centre) > copyMM || math.Abs(u.Radius-v.Radius) > copyMM {
			continue
		}
		arc := geom.ArcEdge(mid(u.Centre, v.Centre), p.edge.From, p.edge.To, u.CCW)
		if math.Abs(arc.Sweep()) < math.Pi/2 {
			p.edge = arc
		}
	}
}

// shiftedMost is how far apart two copies of an outline may lie, as a share of
// the side of a square of its area, to be one outline drawn twice; parts that
// are laid out on a sheet lie further from each other.
const shiftedMost = 0.05

// doubtShifted says of a closed line across an outline that it is the same
// outline again, a little to the side. What else is found of it, holes across
// edges and thin webs, comes of that alone.
func (b *builder) doubtShifted(d *draft, i int) {
	o, l := &b.loops[d.outline], &b.loops[i]
	off := l.box.Min.Sub(o.box.Min)
	dist := math.Sqrt(float64(off.X*off.X) + float64(off.Y*off.Y))
	const most = 4_000_000
	if len(l.ring)*len(o.ring) > most || math.Abs(l.area-o.area) > float64(copyMM*o.ring.Length()) || l.box.Max.Sub(o.box.Max).Dist(off) > copyMM ||
		dist > shiftedMost*math.Sqrt(o.area) {
		return
	}
	moved := make(geom.Ring, len(l.ring))
	for k, e := range l.ring {
		e.From, e.To, e.Centre = e.From.Sub(off), e.To.Sub(off), e.Centre.Sub(off)
		moved[k] = e
	}
	if !liesOn(moved, o.ring, copyMM) || !liesOn(o.ring, moved, copyMM) {
		return
	}
	d.doubts = append(d.doubts, Doubt{Code: "reading-doubt", Grave: true, At: l.box.Min, Source: l.sources(),
		Text: fmt.Sprintf("the part is drawn twice, %s mm apart, one over the other: take one of them out of the drawing", shortNumber(dist))})
}
