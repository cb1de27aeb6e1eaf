package geom

import (
	"cmp"
	"math"
	"slices"
)

// Hull is the convex hull of the rings, of lines and arcs, counter-clockwise:
// outer arcs are kept, bridges run from tangent point to tangent point. Rings
// without area are taken too; a hull without area is the line there and back,
// and there is none (nil)
// of nothing, of one point, or of edges that are not finite. It starts at the
// canonical vertex.
//
// It is found as the upper envelope of the support functions: a vertex p
// reaches p.u in the direction u, an arc reaches centre.u + radius in the
// directions that it faces. Two such functions cross at most twice, and the
// envelope is built by halves in O(n log n).
func Hull(rings ...Ring) Ring {
	var edges []Edge
	for _, r := range rings {
		edges = append(edges, r...)
	}
	return HullOf(edges)
}

// HullOf is the hull of loose edges; see Hull.
func HullOf(edges []Edge) Ring {
	if len(edges) == 0 {
		return nil
	}
	box := edges[0].Bounds()
	for _, e := range edges[1:] {
		box = box.Union(e.Bounds())
	}
	o := box.Centre() // small numbers have small errors
	scale := max(box.Width(), box.Height())
	if !(scale > 0) || math.IsInf(scale, 1) { // nothing, one point, or not finite
		return nil
	}
	prims := supportPrims(edges, o)
	h := envelope{prims: prims, eps: 1e-12 * scale}
	r := h.ring(h.build(0, len(prims)))
	for i := range r {
		r[i] = r[i].Apply(NewShift(o))
	}
	// Put back the exact ends, which the shift to o and back has rounded.
	if len(r) == 0 {
		return nil
	}
	return r.Simplify(1e-9 * max(1, scale)).Canonical()
}

// prim is a vertex (r 0) or an arc's outer side with its directions.
type prim struct {
	c        Point
	r        float64
	lo, hi   float64 // directions that the arc faces, lo in [0, 2 pi), hi <= 2 pi
	from, to Point   // the arc's ends, counter-clockwise
	whole    bool    // a full circle
}

func supportPrims(edges []Edge, o Point) []prim {
	pts := make([]Point, 0, len(edges)+8)
	var prims []prim // few of the vertices become one
	for i := range edges {
		e := &edges[i]
		if e.Radius > 0 {
			s, t := e.spokes()
			p := prim{c: e.Centre.Sub(o), r: e.Radius, from: e.From.Sub(o), to: e.To.Sub(o)}
			if !e.CCW {
				p.from, p.to = p.to, p.from
			}
			if e.From == e.To {
				p.lo, p.hi, p.whole = 0, 2*math.Pi, true
				prims = append(prims, p)
				continue
			}
			p.lo, p.hi = direction(s), direction(t)
			if p.hi <= p.lo {
				q := p
				q.lo, q.hi = 0, p.hi
				p.hi = 2 * math.Pi
				if q.hi > 0 {
					prims = append(prims, q)
				}
			}
			prims = append(prims, p)
		}
		pts = append(pts, e.From.Sub(o), e.To.Sub(o))
	}
	pts = withoutInner(pts)
	slices.SortFunc(pts, func(a, b Point) int {
		if c := cmp.Compare(a.X, b.X); c != 0 {
			return c
		}
		return cmp.Compare(a.Y, b.Y)
	})
	for _, p := range outerPoints(slices.Compact(pts)) {
		prims = append(prims, prim{c: p, hi: 2 * math.Pi})
	}
	slices.SortFunc(prims, func(a, b prim) int { // geometry, not the order given
		for _, c := range [...]int{cmp.Compare(a.c.X, b.c.X), cmp.Compare(a.c.Y, b.c.Y), cmp.Compare(b.r, a.r), cmp.Compare(a.lo, b.lo)} {
			if c != 0 {
				return c
			}
		}
		return cmp.Compare(a.hi, b.hi)
	})
	return prims
}

// withoutInner leaves out, of many points, those well within the octagon of the
// ones that lie farthest out in eight directions: they are not on the hull, and
// sorting is what a hull costs.
func withoutInner(pts []Point) []Point {
	const many = 64
	if len(pts) < many {
		return pts
	}
	dirs := [8]Point{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}}
	far := [8]Point{}
	for k, d := range dirs {
		far[k] = pts[0]
		best := d.Dot(pts[0])
		for _, p := range pts[1:] {
			if s := d.Dot(p); s > best {
				best, far[k] = s, p
			}
		}
	}
	// Far more than rounding can move a point; coordinates are about the middle
	// of them all.
	margin := 1e-9 * max(far[0].X, far[2].Y, -far[4].X, -far[6].Y)
	type side struct {
		from, dir Point
	}
	var sides []side
	for k, p := range far {
		if q := far[(k+1)%8]; q != p {
			sides = append(sides, side{p, q.Sub(p).Unit()})
		}
	}
	return slices.DeleteFunc(pts, func(p Point) bool {
		for i := range sides {
			if !(sides[i].dir.Cross(p.Sub(sides[i].from)) > margin) {
				return false
			}
		}
		return len(sides) > 2
	})
}

// outerPoints are the vertices on the hull of the points alone, which come
// sorted: no other can lie on the hull with the arcs.
func outerPoints(pts []Point) []Point {
	if len(pts) < 3 {
		return pts
	}
	half := func(next func(int) Point) []Point {
		var h []Point
		for i := range pts {
			p := next(i)
			for len(h) >= 2 && h[len(h)-1].Sub(h[len(h)-2]).Cross(p.Sub(h[len(h)-2])) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, p)
		}
		return h[:len(h)-1]
	}
	lower := half(func(i int) Point { return pts[i] })
	upper := half(func(i int) Point { return pts[len(pts)-1-i] })
	return append(lower, upper...)
}

func direction(d Point) float64 {
	a := math.Atan2(d.Y, d.X)
	if a < 0 {
		a += 2 * math.Pi
	}
	if a >= 2*math.Pi {
		a = 0
	}
	return a
}

// span is a range of directions in which one prim reaches furthest; id -1 is
// none.
type span struct {
	lo, hi float64
	id     int
}

type envelope struct {
	prims []prim
	eps   float64
}

func (h *envelope) build(i, j int) []span {
	if j-i == 1 {
		p := &h.prims[i]
		var s []span
		if p.lo > 0 {
			s = append(s, span{0, p.lo, -1})
		}
		s = append(s, span{p.lo, p.hi, i})
		if p.hi < 2*math.Pi {
			s = append(s, span{p.hi, 2 * math.Pi, -1})
		}
		return s
	}
	m := i + (j-i)/2
	return h.merge(h.build(i, m), h.build(m, j))
}

func (h *envelope) merge(a, b []span) []span {
	out := make([]span, 0, len(a)+len(b)+2)
	put := func(lo, hi float64, id int) {
		if n := len(out); n > 0 && out[n-1].id == id {
			out[n-1].hi = hi
			return
		}
		out = append(out, span{lo, hi, id})
	}
	at := 0.0
	for i, k := 0, 0; i < len(a) && k < len(b); {
		end := min(a[i].hi, b[k].hi)
		if end > at {
			h.upper(at, end, a[i].id, b[k].id, put)
			at = end
		}
		if a[i].hi <= end {
			i++
		}
		if k < len(b) && b[k].hi <= end {
			k++
		}
	}
	return out
}

// upper puts the greater of two support functions over a range of directions.
func (h *envelope) upper(lo, hi float64, i, k int, put func(lo, hi float64, id int)) {
	if i < 0 || k < 0 {
		put(lo, hi, max(i, k))
		return
	}
	p, q := &h.prims[i], &h.prims[k]
	d, dr := p.c.Sub(q.c), p.r-q.r
	m := d.Len()
	cuts := [4]float64{lo, hi}
	n := 1
	if m > h.eps && math.Abs(dr) <= m {
		// d.u + dr = 0 at two directions, symmetric about d.
		mid, half := math.Atan2(d.Y, d.X), math.Acos(-dr/m)
		t := [2]float64{turn(mid - half), turn(mid + half)}
		if t[0] > t[1] {
			t[0], t[1] = t[1], t[0]
		}
		for _, v := range t {
			if v > lo && v < hi {
				cuts[n] = v
				n++
			}
		}
	}
	cuts[n] = hi
	for c := range n {
		x, y := cuts[c], cuts[c+1]
		if y <= x {
			continue
		}
		cos, sin := math.Cos((x+y)/2), math.Sin((x+y)/2)
		f := float64(d.X*cos) + float64(d.Y*sin) + dr
		id := i
		if f < -h.eps || f <= h.eps && (q.r > p.r || q.r == p.r && k < i) {
			id = k
		}
		put(x, y, id)
	}
}

func turn(a float64) float64 {
	for a < 0 {
		a += 2 * math.Pi
	}
	for a >= 2*math.Pi {
		a -= 2 * math.Pi
	}
	return a
}

// ring draws the hull from the envelope.
func (h *envelope) ring(s []span) Ring {
	if len(s) > 1 && s[0].id == s[len(s)-1].id || len(s) > 1 && h.sameArc(s[0].id, s[len(s)-1].id) {
		// One prim across direction 0.
		s[0].lo = s[len(s)-1].lo - 2*math.Pi
		s = s[:len(s)-1]
	}
	if len(s) == 1 && h.prims[s[0].id].r > 0 {
		p := &h.prims[s[0].id]
		return Ring{CircleEdge(p.c, p.r)}
	}
	// A tangent joint of a line and an arc gives the vertex between them a
	// sliver of directions, about the square root of the rounding wide.
	const sliver = 1e-7
	var pieces []Edge
	for _, v := range s {
		p := &h.prims[v.id]
		if p.r <= 0 {
			pieces = append(pieces, LineEdge(p.c, p.c))
			continue
		}
		from, to := onCircle(p.c, p.r, v.lo), onCircle(p.c, p.r, v.hi)
		tol := sliver * max(p.r, 1)
		if !p.whole {
			from, to = snapTo(from, p.from, tol), snapTo(to, p.to, tol)
		}
		if v.hi-v.lo < 1e-6 || from == to && !p.whole { // an arc too small to tell from its point
			pieces = append(pieces, LineEdge(from, from))
			continue
		}
		pieces = append(pieces, Edge{From: from, To: to, Centre: p.c, Radius: p.r, CCW: true})
	}
	// A vertex that is the end of the arc next to it says nothing new.
	n := len(pieces)
	keep := pieces[:0:0]
	for i, e := range pieces {
		if e.Radius <= 0 {
			a, b := pieces[(i+n-1)%n], pieces[(i+1)%n]
			tol := sliver * max(a.Radius, b.Radius, 1)
			if a.Radius > 0 && a.To.Dist(e.From) <= tol || b.Radius > 0 && b.From.Dist(e.From) <= tol {
				continue
			}
		}
		keep = append(keep, e)
	}
	var r Ring
	for i, e := range keep {
		if e.Radius > 0 {
			r = append(r, e)
		}
		next := keep[(i+1)%len(keep)]
		if e.To != next.From {
			if e.To.Dist(next.From) <= sliver && next.Radius > 0 {
				keep[(i+1)%len(keep)].From = e.To
				if i == len(keep)-1 && len(r) > 0 {
					r[0].From = e.To
				}
				continue
			}
			r = append(r, LineEdge(e.To, next.From))
		}
	}
	return r
}

func (h *envelope) sameArc(i, k int) bool {
	if i < 0 || k < 0 {
		return false
	}
	p, q := &h.prims[i], &h.prims[k]
	return p.r > 0 && p.c == q.c && p.r == q.r && p.from == q.from && p.to == q.to
}

func snapTo(p, end Point, tol float64) Point {
	if p.Dist(end) <= tol {
		return end
	}
	return p
}

// Support is how far the edges reach in the direction u (a unit vector): the
// greatest scalar product of u with a point of theirs.
func (r Ring) Support(u Point) float64 {
	best := math.Inf(-1)
	for i := range r {
		e := &r[i]
		best = max(best, u.Dot(e.From), u.Dot(e.To))
		if e.Radius > 0 && e.spans(u) {
			best = max(best, u.Dot(e.Centre)+e.Radius)
		}
	}
	return best
}
