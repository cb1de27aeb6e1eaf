package geom

import (
	"cmp"
	"math"
	"slices"
)

// Simplify merges neighbours that lie on one line or one circle within tol
// (mm): no dropped vertex is further than tol from the result. It may move
// the ring's start, so that pieces merge across it. A ring that is one circle
// becomes one edge. Edges shorter than a thousandth of tol are dropped.
//
// A run is merged as a whole or not at all at that tolerance: a curve drawn as
// many short chords, each within tol of the next, is not straightened piece
// by piece. So the result does not depend on the start or the direction.
// Spikes that run back on themselves stay.
func (r Ring) Simplify(tol float64) Ring {
	s, _ := r.SimplifyMap(tol)
	return s
}

// SimplifyMap is Simplify; it also lists for each edge of the result the
// edges of r that it is made of, in order. Dropped edges are listed with the
// edge before them.
func (r Ring) SimplifyMap(tol float64) (Ring, [][]int) {
	cur, ids := dropShort(r, min(tol, 1)*1e-3)
	if len(cur) < 2 {
		return cur, ids
	}
	for _, t := range [...]float64{tol, tol * 1e-2, tol * 1e-4} {
		cur, ids = mergeRuns(cur, ids, t)
	}
	return cur, ids
}

func dropShort(r Ring, least float64) (Ring, [][]int) {
	out := make(Ring, 0, len(r))
	ids := make([][]int, 0, len(r))
	var lead []int
	for i, e := range r {
		if !e.IsCircle() && e.Length() <= least {
			if len(out) > 0 {
				ids[len(ids)-1] = append(ids[len(ids)-1], i)
			} else {
				lead = append(lead, i)
			}
			continue
		}
		if n := len(out); n > 0 {
			e.From = out[n-1].To
		}
		out = append(out, e)
		ids = append(ids, []int{i})
	}
	if n := len(out); n > 0 {
		ids[n-1] = append(ids[n-1], lead...)
		if !out[0].IsCircle() || n > 1 {
			out[0].From = out[n-1].To
		}
	}
	return out, ids
}

// mergeRuns merges each maximal run of joinable neighbours whose whole run
// fits one edge.
func mergeRuns(r Ring, ids [][]int, tol float64) (Ring, [][]int) {
	n := len(r)
	if n < 2 {
		return r, ids
	}
	start := -1 // an edge that does not join the one before it
	joins := make([]bool, n)
	for i := range r {
		joins[i] = joinable(&r[(i+n-1)%n], &r[i], tol)
		if !joins[i] && start < 0 {
			start = i
		}
	}
	if start < 0 {
		if c, ok := fitCircle(r, tol); ok {
			var all []int
			for _, g := range ids {
				all = append(all, g...)
			}
			return Ring{c}, [][]int{all}
		}
		return r, ids
	}
	out := make(Ring, 0, n)
	outIDs := make([][]int, 0, n)
	for k := 0; k < n; {
		m := k + 1
		for m < n && joins[(start+m)%n] {
			m++
		}
		run := make([]Edge, 0, m-k)
		for j := k; j < m; j++ {
			run = append(run, r[(start+j)%n])
		}
		if e, ok := fitRun(run, tol); len(run) > 1 && ok {
			var g []int
			for j := k; j < m; j++ {
				g = append(g, ids[(start+j)%n]...)
			}
			out, outIDs = append(out, e), append(outIDs, g)
		} else {
			for j := k; j < m; j++ {
				out, outIDs = append(out, r[(start+j)%n]), append(outIDs, ids[(start+j)%n])
			}
		}
		k = m
	}
	return out, outIDs
}

// joinable tells whether b goes on from a on the same line or circle.
func joinable(a, b *Edge, tol float64) bool {
	if (a.Radius > 0) != (b.Radius > 0) || a.IsCircle() || b.IsCircle() {
		return false
	}
	if a.Radius <= 0 {
		d, e := a.To.Sub(a.From), b.To.Sub(b.From)
		if d.Dot(e) <= 0 {
			return false
		}
		c := b.To.Sub(a.From)
		return math.Abs(c.Cross(d)) <= tol*c.Len()
	}
	if a.CCW != b.CCW || math.Abs(a.Sweep())+math.Abs(b.Sweep()) > 2*math.Pi+1e-6 {
		return false
	}
	// The shorter against the longer's circle, as a distance.
	l, s := a, b
	if math.Abs(b.Sweep())*b.Radius > math.Abs(a.Sweep())*a.Radius {
		l, s = b, a
	}
	far := s.From
	if s == b {
		far = s.To
	}
	// Both bulge the same way and join end to end; the middle guards against
	// an arc of another radius through the same two ends.
	return math.Abs(far.Dist(l.Centre)-l.Radius) <= tol && math.Abs(s.Mid().Dist(l.Centre)-l.Radius) <= tol &&
		a.EndDir().Dot(b.StartDir()) > 0
}

// fitRun replaces a run of lines by one line, or a run of arcs by one arc.
func fitRun(run []Edge, tol float64) (Edge, bool) {
	from, to := run[0].From, run[len(run)-1].To
	if run[0].Radius <= 0 {
		d := to.Sub(from)
		l := d.Len()
		if l == 0 {
			return Edge{}, false
		}
		for i := range run {
			if math.Abs(d.Cross(run[i].From.Sub(from))) > tol*l || run[i].To.Sub(run[i].From).Dot(d) <= 0 {
				return Edge{}, false
			}
		}
		return LineEdge(from, to), true
	}
	sweep := 0.0
	for i := range run {
		sweep += math.Abs(run[i].Sweep())
	}
	if sweep > 2*math.Pi-1e-9 || from == to {
		return Edge{}, false
	}
	c := meanCentre(run)
	// The centre is moved square to the chord's middle, so that both ends are
	// equally far away.
	if chord := to.Sub(from); chord.Len() > 0 {
		u := chord.Unit()
		mid := from.Add(chord.Mul(0.5))
		c = c.Sub(u.Mul(c.Sub(mid).Dot(u)))
	}
	e := ArcEdge(c, from, to, run[0].CCW)
	if math.Abs(math.Abs(e.Sweep())-sweep) > 0.1 {
		return Edge{}, false
	}
	return e, roundWithin(run, c, e.Radius, tol)
}

// meanCentre weighs each arc's centre by the cube of its length: that is how
// well an arc knows its centre.
func meanCentre(run []Edge) Point {
	var c Point
	total := 0.0
	o := run[0].Centre
	for i := range run {
		w := run[i].Length()
		w = w * w * w
		c = c.Add(run[i].Centre.Sub(o).Mul(w))
		total += w
	}
	if total == 0 {
		return o
	}
	return o.Add(c.Mul(1 / total))
}

func roundWithin(run []Edge, c Point, radius, tol float64) bool {
	for i := range run {
		if math.Abs(run[i].From.Dist(c)-radius) > tol || math.Abs(run[i].Mid().Dist(c)-radius) > tol {
			return false
		}
	}
	return true
}

func fitCircle(r Ring, tol float64) (Edge, bool) {
	sweep := 0.0
	for i := range r {
		if r[i].Radius <= 0 {
			return Edge{}, false
		}
		sweep += r[i].Sweep()
	}
	if math.Abs(math.Abs(sweep)-2*math.Pi) > 0.1 {
		return Edge{}, false
	}
	c := meanCentre(r)
	radius, total := 0.0, 0.0
	for i := range r {
		l := r[i].Length()
		radius += l * r[i].From.Dist(c)
		total += l
	}
	radius /= total
	e := CircleEdge(c, radius)
	if sweep < 0 {
		e = e.Reverse()
	}
	return e, roundWithin(r, c, radius, tol)
}

// SelfCrossings lists the places where edges of the ring meet that are not
// neighbours, or neighbours away from their common vertex: crossings, touches
// and the ends of stretches run over twice. Sorted bottom first, then left;
// places within tol of each other are one. A scribble has as many as the square
// of its edges: beyond some 10,000 the search ends.
func (r Ring) SelfCrossings(tol float64) []Point {
	n := len(r)
	if n == 0 {
		return nil
	}
	var pts []Point
	check := func(i, j int) {
		m := Meet(r[i], r[j], tol)
		next, prev := j == i+1, i == 0 && j == n-1
		for k := range m.N {
			p := m.At[k]
			if next && p.Dist(r[i].To) <= tol && !m.Overlap || prev && p.Dist(r[i].From) <= tol && !m.Overlap {
				continue
			}
			// Two tangent neighbours stay near each other for a while.
			if (next || prev) && !m.Overlap && m.Tangent[k] && m.Touch[k] {
				v := r[i].To
				if !next || prev && p.Dist(r[i].From) < p.Dist(v) {
					v = r[i].From
				}
				if d := p.Dist(v); d*d <= 16*tol*tangentScale(&r[i], &r[j]) {
					continue
				}
			}
			pts = append(pts, p)
		}
	}
	if n <= 32 {
		for i := range r {
			for j := i + 1; j < n; j++ {
				check(i, j)
			}
		}
	} else {
		x := NewIndex(r, 0)
		const most = 10_000
		for i := range r {
			if len(pts) >= most {
				break
			}
			for j := range x.Near(r[i].Bounds().Grow(tol)) {
				if j > i {
					check(i, j)
				}
			}
		}
	}
	slices.SortFunc(pts, func(a, b Point) int {
		if c := ComparePlace(a, b); c != 0 {
			return c
		}
		if c := cmp.Compare(a.Y, b.Y); c != 0 {
			return c
		}
		return cmp.Compare(a.X, b.X)
	})
	out := pts[:0]
	for _, p := range pts {
		dup := false
		for k := len(out) - 1; k >= 0 && !dup && p.Y-out[k].Y <= tol+2*placeStep; k-- {
			dup = out[k].Dist(p) <= max(tol, placeStep)
		}
		if !dup {
			out = append(out, p)
		}
	}
	return out
}
