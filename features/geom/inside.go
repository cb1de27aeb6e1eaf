package geom

import (
	"math"
	"slices"
)

// monotone is a piece of an edge along which y only grows or only falls.
type monotone struct {
	from, to Point // in the direction of travel
	e        *Edge
	right    bool // an arc's piece on the right of its centre
}

// monotones cuts an edge at its lowest and highest points.
func (e *Edge) monotones(buf *[3]monotone) []monotone {
	if e.Radius <= 0 {
		buf[0] = monotone{e.From, e.To, e, false}
		return buf[:1]
	}
	// A counter-clockwise arc rises on the right half and falls on the left.
	s, t := e.spokes()
	right := s.X > 0 || s.X == 0 && s.Y < 0
	endRight := t.X > 0 || t.X == 0 && t.Y > 0
	cuts := 0
	if right != endRight {
		cuts = 1
	} else if c := s.Cross(t); c < 0 || e.From == e.To {
		cuts = 2
	}
	top := Point{e.Centre.X, e.Centre.Y + e.Radius}
	low := Point{e.Centre.X, e.Centre.Y - e.Radius}
	first, last := e.From, e.To
	if !e.CCW {
		first, last = last, first
	}
	n := 0
	p := first
	for range cuts {
		q := low
		if right {
			q = top
		}
		buf[n] = monotone{p, q, e, right}
		n++
		p, right = q, !right
	}
	buf[n] = monotone{p, last, e, right}
	n++
	if !e.CCW {
		for i := range buf[:n] {
			buf[i].from, buf[i].to = buf[i].to, buf[i].from
		}
	}
	return buf[:n]
}

// xAt is the place of the piece on the horizontal line at y.
func (m *monotone) xAt(y float64) float64 {
	e := m.e
	if e.Radius <= 0 {
		d := m.to.Sub(m.from)
		return m.from.X + float64(d.X*((y-m.from.Y)/d.Y))
	}
	dy := y - e.Centre.Y
	h := math.Sqrt(max(0, float64((e.Radius-dy)*(e.Radius+dy))))
	if m.right {
		return e.Centre.X + h
	}
	return e.Centre.X - h
}

// crosses tells whether the piece crosses the horizontal line at y: +1
// upwards, -1 downwards, 0 not. The lower end counts, the upper does not, so
// that a vertex is counted once.
func (m *monotone) crosses(y float64) int {
	switch {
	case m.from.Y <= y && y < m.to.Y:
		return 1
	case m.to.Y <= y && y < m.from.Y:
		return -1
	}
	return 0
}

// Winding is how often the ring runs counter-clockwise round p, arcs exact;
// meaningless for a point on the ring.
func (r Ring) Winding(p Point) int {
	w := 0
	var buf [3]monotone
	for i := range r {
		e := &r[i]
		if e.Radius <= 0 {
			// The common case by the sign of a cross product.
			if e.From.Y <= p.Y {
				if e.To.Y > p.Y && e.To.Sub(e.From).Cross(p.Sub(e.From)) > 0 {
					w++
				}
			} else if e.To.Y <= p.Y && e.To.Sub(e.From).Cross(p.Sub(e.From)) < 0 {
				w--
			}
			continue
		}
		if d := e.Centre.Y - p.Y; d > 2*e.Radius || d < -2*e.Radius {
			continue
		}
		for _, m := range e.monotones(&buf) {
			if c := m.crosses(p.Y); c != 0 && p.X < m.xAt(p.Y) {
				w += c
			}
		}
	}
	return w
}

// Inside tells on which side of the ring p lies. A point within tol of the
// ring, the limit included, is On. The direction of the ring does not matter;
// what a ring that crosses itself winds round at all counts as inside.
func (r Ring) Inside(p Point, tol float64) Side {
	for i := range r {
		e := &r[i]
		if e.Radius <= 0 {
			if p.X < min(e.From.X, e.To.X)-tol || p.X > max(e.From.X, e.To.X)+tol ||
				p.Y < min(e.From.Y, e.To.Y)-tol || p.Y > max(e.From.Y, e.To.Y)+tol {
				continue
			}
		}
		if e.near(p, tol) {
			return On
		}
	}
	if r.Winding(p) != 0 {
		return In
	}
	return Out
}

// InnerPoint is a point well inside the ring: the middle of a wide horizontal
// chord at a height away from the vertices. Without area it is a point of the
// ring.
func (r Ring) InnerPoint() Point {
	if len(r) == 0 {
		return Point{}
	}
	var buf [3]monotone
	ys := make([]float64, 0, len(r)+4)
	for i := range r {
		for _, m := range r[i].monotones(&buf) {
			ys = append(ys, m.from.Y, m.to.Y)
		}
	}
	slices.Sort(ys)
	// The widest gaps between heights of vertices: up to four of them.
	type gap struct{ y, h float64 }
	var gaps [4]gap
	for i := 1; i < len(ys); i++ {
		g := gap{ys[i-1] + (ys[i]-ys[i-1])/2, ys[i] - ys[i-1]}
		for k := range gaps {
			if g.h > gaps[k].h {
				g, gaps[k] = gaps[k], g
			}
		}
	}
	best, score := r[0].From, 0.0
	type hit struct {
		x float64
		w int
	}
	var hits []hit
	for _, g := range gaps {
		if g.h <= 0 {
			continue
		}
		hits = hits[:0]
		for i := range r {
			for _, m := range r[i].monotones(&buf) {
				if c := m.crosses(g.y); c != 0 {
					hits = append(hits, hit{m.xAt(g.y), c})
				}
			}
		}
		slices.SortFunc(hits, func(a, b hit) int {
			switch {
			case a.x < b.x:
				return -1
			case a.x > b.x:
				return 1
			}
			return a.w - b.w
		})
		w := 0
		for i := 0; i+1 < len(hits); i++ {
			w += hits[i].w
			width := hits[i+1].x - hits[i].x
			if w != 0 && min(width, g.h) > score {
				score = min(width, g.h)
				best = Point{hits[i].x + width/2, g.y}
			}
		}
	}
	return best
}
