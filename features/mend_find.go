package features

import (
	"math"
	"sort"

	"burrside/features/geom"
)

// found lists the candidates whose run starts after side i, and those whose
// run ends before side i at a vertex. With since >= 0 only those with a side
// that changed at that time or later.
func (m *mender) found(i, window, since int) []candidate {
	if m.nodes[i].dead || m.nodes[i].virtual || m.isSpent() {
		return nil
	}
	var out []candidate
	add := func(c candidate) {
		c.made = m.now
		out = append(out, c)
	}
	// Forward from i.
	e := m.nodes[i].e
	p := m.nodes[i].next
	total, hollow := m.turnAfter(i), m.inwardAfter(i)
	fresh := m.nodes[i].changed >= since
	k := p
	for steps := 0; steps < window && k != i; steps++ {
		m.steps++
		n := &m.nodes[k]
		fresh = fresh || n.changed >= since
		if fresh && hollow && k != p && !n.virtual {
			if c, ok := m.match(i, k, p, n.prev, total); ok {
				add(c)
			}
		}
		total += n.e.Sweep()
		hollow = hollow || m.isHollow(k)
		after := total + m.turnAfter(k)
		if fresh && hollow && !e.IsArc() && k != m.nodes[i].prev {
			if c, ok := m.vertex(i, p, k, after, true); ok {
				add(c)
			}
		}
		total = after
		hollow = hollow || m.inwardAfter(k)
		k = n.next
	}
	if fresh && k == i && e.IsArc() && hollow && p != i {
		if c, ok := m.match(i, i, p, m.nodes[i].prev, total); ok {
			add(c)
		}
	}
	if e.IsArc() {
		return out
	}
	// Backward from i, for mouths that end at a vertex.
	q := m.nodes[i].prev
	total, hollow = m.turnAfter(q), m.inwardAfter(q)
	fresh = m.nodes[i].changed >= since
	k = q
	for steps := 0; steps < window && k != i && k != m.nodes[i].next; steps++ {
		m.steps++
		n := &m.nodes[k]
		fresh = fresh || n.changed >= since
		total += n.e.Sweep()
		hollow = hollow || m.isHollow(k)
		after := total + m.turnAfter(n.prev)
		if fresh && hollow {
			if c, ok := m.vertex(i, k, q, after, false); ok {
				add(c)
			}
		}
		total = after
		hollow = hollow || m.inwardAfter(n.prev)
		k = n.prev
	}
	return out
}

// match tells whether sides i and j can be joined over the run from p to q;
// total is the sum of turns and sweeps from the end of i to the start of j.
func (m *mender) match(i, j, p, q int, total float64) (candidate, bool) {
	a, b := m.nodes[i].e, m.nodes[j].e
	c := candidate{i: i, j: j, p: p, q: q, a: a.To, b: b.From}
	gap := b.From.Sub(a.To)
	c.mouth = gap.Len()
	if a.IsArc() || b.IsArc() {
		if !a.IsArc() || !b.IsArc() || !a.CCW || !b.CCW || c.mouth < lineMM {
			return c, false
		}
		return m.matchArcs(c, a, b)
	}
	switch {
	case math.Abs(total) < skewRad:
		if math.Abs(total) >= inwardRad || !m.matchLine(&c, a, b) {
			return m.matchSkew(c, a, b)
		}
	case total >= cornerLeastRad && total <= cornerMostRad:
		if !m.matchCorner(&c, a, b, total) {
			return c, false
		}
	default:
		return c, false
	}
	c.area = m.areaOf(c)
	return c, c.area > 0
}

// matchLine tells whether a and b are pieces of one line with the run on the
// metal side of it.
func (m *mender) matchLine(c *candidate, a, b geom.Edge) bool {
	ref, end := a, a.To
	if b.Length() > a.Length() {
		ref, end = b, b.From
	}
	c.kind, c.dir = mouthLine, ref.StartDir()
	gap := b.From.Sub(a.To)
	if math.Abs(c.dir.Cross(gap)) > lineMM+mouthShare*c.mouth || gap.Dot(c.dir) <= lineMM {
		return false
	}
	return m.leftOf(c.p, c.q, end, c.dir)
}

// matchCorner tells whether a and b meet in a corner outside the run; total is
// the turn from one to the other.
func (m *mender) matchCorner(c *candidate, a, b geom.Edge, total float64) bool {
	v, ok := meet(a, b)
	if !ok {
		return false
	}
	ahead, behind := v.Sub(a.To).Dot(a.EndDir()), b.From.Sub(v).Dot(b.StartDir())
	// A corner that one of the lines already reaches is a bite on the other
	// line's edge.
	if ahead <= lineMM || behind <= lineMM {
		return false
	}
	if !m.frame.holds(v, cornerBoxMM) && (ahead > cornerShare*a.Length() || behind > cornerShare*b.Length()) {
		return false
	}
	if !m.leftOf(c.p, c.q, a.To, a.EndDir()) || !m.leftOf(c.p, c.q, b.From, b.StartDir()) {
		return false
	}
	c.kind, c.v = mouthCorner, v
	if math.Abs(total-math.Pi/2) > squareRad || m.holdsSkew(c, a, b) {
		c.tier = tierLast
	}
	return true
}

// holdsSkew tells whether a side of the run could itself be the other edge of
// a skew mouth that starts at a or ends at b.
func (m *mender) holdsSkew(c *candidate, a, b geom.Edge) bool {
	for k := c.p; ; k = m.nodes[k].next {
		m.steps++
		e := m.nodes[k].e
		if !e.IsArc() {
			if k != c.p && isSkewPair(a, e) || k != c.q && isSkewPair(e, b) {
				return true
			}
		}
		if k == c.q {
			return false
		}
	}
}

// isSkewPair tells whether line b goes on nearly along line a.
func isSkewPair(a, b geom.Edge) bool {
	gap := b.From.Sub(a.To)
	if math.Abs(turnRad(a.EndDir(), b.StartDir())) >= skewRad || gap.Dot(a.EndDir()) <= lineMM || gap.Dot(b.StartDir()) <= lineMM {
		return false
	}
	off := math.Max(math.Abs(a.EndDir().Cross(gap)), math.Abs(b.StartDir().Cross(gap)))
	return off < skewShare*gap.Len()
}

// matchArcs tells whether a and b are of one circle with the run inside it.
func (m *mender) matchArcs(c candidate, a, b geom.Edge) (candidate, bool) {
	ref, other := a, b
	if b.Length() > a.Length() {
		ref, other = b, a
	}
	tol := lineMM + circleTol(ref.Radius)
	for _, p := range []geom.Point{other.From, other.Mid(), other.To} {
		if math.Abs(p.Dist(ref.Centre)-ref.Radius) > tol {
			return c, false
		}
	}
	if math.Abs(a.Sweep())+math.Abs(b.Sweep()) > 2*math.Pi && c.i != c.j {
		return c, false
	}
	// A mouth of more than half the circle is none: an ellipse or an oval lies
	// within the circle of its flattest arc, and nothing was bitten off it.
	if ringArc(ref.Centre, ref.Radius, c.a, c.b, true).Sweep() > math.Pi+tangentRad {
		return c, false
	}
	for k := c.p; ; k = m.nodes[k].next {
		m.steps++
		e := m.nodes[k].e
		if farthest(e, ref.Centre) > ref.Radius+tol {
			return c, false
		}
		if k == c.q {
			break
		}
	}
	c.kind = mouthArc
	c.dir = b.From.Sub(a.To).Unit()
	c.area = m.areaOf(c) + segmentArea(ringArc(ref.Centre, ref.Radius, c.a, c.b, true))
	return c, c.area > 0
}

// farthest is the greatest distance of a point of e from c.
func farthest(e geom.Edge, c geom.Point) float64 {
	d := math.Max(e.From.Dist(c), e.To.Dist(c))
	if e.IsArc() {
		w := e.Centre.Sub(c)
		if l := w.Len(); l > 1e-9 {
			if top := e.Centre.Add(w.Mul(e.Radius / l)); onSweep(e, top) {
				d = math.Max(d, l+e.Radius)
			}
		} else {
			d = math.Max(d, e.Radius)
		}
	}
	return d
}

// matchSkew tells whether a and b nearly are of one line.
func (m *mender) matchSkew(c candidate, a, b geom.Edge) (candidate, bool) {
	if c.mouth < lineMM || m.nodes[c.p].virtual && c.p == c.q || !isSkewPair(a, b) {
		return c, false
	}
	c.kind, c.dir, c.tier = mouthSkew, b.From.Sub(a.To).Mul(1/c.mouth), tierSkew
	if !m.leftOf(c.p, c.q, a.To, c.dir) {
		return c, false
	}
	c.area = m.areaOf(c)
	return c, c.area > 0
}

// vertex tells whether the run from p to q ends (forward) or starts (backward)
// at a vertex on the line of side i: teeth that touch, a notch flush with the
// end of its edge. total includes the turn at that vertex.
func (m *mender) vertex(i, p, q int, total float64, forward bool) (candidate, bool) {
	e := m.nodes[i].e
	c := candidate{kind: mouthLine, i: i, j: -1, p: p, q: q, a: e.To, b: m.nodes[q].e.To, dir: e.EndDir()}
	if !forward {
		c.i, c.j, c.a, c.b = -1, i, m.nodes[p].e.From, e.From
	}
	end := e.To
	if !forward {
		end = e.From
	}
	gap := c.b.Sub(c.a)
	along := gap.Dot(c.dir)
	if along <= lineMM || math.Abs(c.dir.Cross(gap)) > lineMM+mouthShare*along {
		return c, false
	}
	// A piece of the same line is no wall: the mouth ends where it starts.
	wall := m.nodes[q].e
	if !forward {
		wall = m.nodes[p].e.Reverse()
	}
	if !wall.IsArc() && math.Abs(c.dir.Cross(wall.From.Sub(c.a))) <= lineMM+mouthShare*along {
		return c, false
	}
	// The outline must go on inside the line; going on along it, the other
	// piece of the line is the mouth's other side.
	if total < inwardRad || total > math.Pi {
		return c, false
	}
	if !m.leftOf(p, q, end, c.dir) {
		return c, false
	}
	c.mouth = gap.Len()
	// A short skew line, as a clip, points at many a vertex by chance.
	if !m.frame.follows(e) && e.Length() < c.mouth {
		c.tier = tierLast
	}
	c.area = m.areaOf(c)
	return c, c.area > 0
}

// leftOf tells whether the run from p to q lies on the metal side of the line
// through a with direction d, as far as it is not on it.
func (m *mender) leftOf(p, q int, a, d geom.Point) bool {
	right := geom.Point{X: d.Y, Y: -d.X}
	for k := p; ; k = m.nodes[k].next {
		m.steps++
		e := m.nodes[k].e
		tol := lineMM + mouthShare*math.Max(e.From.Dist(a), e.To.Dist(a))
		if supportMax(e, right)-a.Dot(right) > tol {
			return false
		}
		if k == q {
			return true
		}
	}
}

// areaOf is the area between the run and its mouth; for a circle's mouth
// that between the run and the chord.
func (m *mender) areaOf(c candidate) float64 {
	o := c.a
	sum := 0.0
	for k := c.p; ; k = m.nodes[k].next {
		m.steps++
		e := m.nodes[k].e
		sum += e.From.Sub(o).Cross(e.To.Sub(o)) / 2
		if e.IsArc() {
			sum += segmentArea(e)
		}
		if k == c.q {
			break
		}
	}
	if c.kind == mouthCorner {
		sum += c.b.Sub(o).Cross(c.v.Sub(o)) / 2
	}
	return -sum
}

// segmentArea is the area between an arc and its chord, positive for a
// counter-clockwise arc.
func segmentArea(e geom.Edge) float64 {
	s := e.Sweep()
	return float64(e.Radius*e.Radius) / 2 * (s - math.Sin(s))
}

// mouthCrosses tells whether the closed mouth would run through metal or
// another piece of the outline, as a hook that reaches into a bay from outside.
func (m *mender) mouthCrosses(c candidate) bool {
	clear(m.index)
	total := len(m.spans)
	mark := func(n *node) {
		for k := 0; k < n.n; k++ {
			m.index[(n.first+k)%total] = true
		}
	}
	for k := c.p; ; k = m.nodes[k].next {
		m.steps += m.nodes[k].n
		mark(&m.nodes[k])
		if k == c.q {
			break
		}
	}
	pieces := []geom.Edge{geom.LineEdge(c.a, c.b)}
	switch c.kind {
	case mouthCorner:
		pieces = []geom.Edge{geom.LineEdge(c.a, c.v), geom.LineEdge(c.v, c.b)}
	case mouthArc:
		e := m.nodes[c.i].e
		pieces = []geom.Edge{ringArc(e.Centre, e.Radius, c.a, c.b, true)}
	}
	for _, e := range pieces {
		l := e.Length()
		if l < 2*lineMM {
			continue
		}
		for id := range m.grid.Near(e.Bounds()) {
			m.steps += 4 // a crossing costs more than a look
			if m.index[id] {
				continue
			}
			for _, x := range geom.Intersect(e, m.spans[id].e, 1e-9).Points {
				// At its ends the mouth meets the outline anyway.
				if x.Dist(e.From) > 2*lineMM && x.Dist(e.To) > 2*lineMM && !m.within(c, id) {
					return true
				}
			}
		}
	}
	return false
}

// within tells whether span id belongs to a side next to the mouth, whose line
// or circle the mouth follows.
func (m *mender) within(c candidate, id int) bool {
	for _, k := range []int{c.i, c.j, m.nodes[c.p].prev, m.nodes[c.q].next} {
		if k < 0 {
			continue
		}
		n := &m.nodes[k]
		if spanIn(id, n.first, n.n, len(m.spans)) {
			return true
		}
		if b := n.joint.bite; b > 0 && spanIn(id, m.bites[b-1].first, m.bites[b-1].n, len(m.spans)) {
			return true
		}
	}
	return false
}

// spanIn tells whether span id is one of the n spans from first on.
func spanIn(id, first, n, total int) bool {
	return ((id-first)%total+total)%total < n
}

// frameOf finds the outline's own axes: of all directions of straight spans,
// modulo a right angle, that which carries the greatest length within 0.2
// degrees; ties go to the longest single span.
func frameOf(spans []span) frame {
	const band = 0.2 * math.Pi / 180
	type dir struct{ rad, mm float64 }
	var dirs []dir
	for _, s := range spans {
		if s.e.IsArc() {
			continue
		}
		d := s.e.StartDir()
		a := math.Mod(math.Atan2(d.Y, d.X)+2*math.Pi, math.Pi/2)
		dirs = append(dirs, dir{a, s.e.Length()})
	}
	f := frame{u: geom.Point{X: 1}}
	if len(dirs) > 0 {
		sort.Slice(dirs, func(i, j int) bool { return dirs[i].rad < dirs[j].rad })
		n := len(dirs)
		bestSum, bestLen, bestRad := -1.0, 0.0, 0.0
		lo, hi, sum := 0, 0, 0.0
		at := func(k int) float64 { return dirs[k%n].rad + float64(k/n)*math.Pi/2 }
		for k := n; k < 2*n; k++ {
			if k == n {
				for lo = n; lo > 0 && at(lo-1) >= at(n)-band; lo-- {
				}
				for hi = lo; hi < lo+n && at(hi) <= at(n)+band; hi++ {
					sum += dirs[hi%n].mm
				}
			}
			for hi < lo+n && at(hi) <= at(k)+band {
				sum += dirs[hi%n].mm
				hi++
			}
			for lo < k && at(lo) < at(k)-band {
				sum -= dirs[lo%n].mm
				lo++
				for hi < lo+n && at(hi) <= at(k)+band {
					sum += dirs[hi%n].mm
					hi++
				}
			}
			l := dirs[k%n].mm
			if sum > bestSum*(1+1e-6) || sum > bestSum*(1-1e-6) && l > bestLen*(1+1e-6) {
				bestSum, bestLen, bestRad = math.Max(sum, bestSum), l, dirs[k%n].rad
			}
		}
		f.u = geom.Point{X: math.Cos(bestRad), Y: math.Sin(bestRad)}
	}
	f.v = f.u.Left()
	f.lo = geom.Point{X: math.Inf(1), Y: math.Inf(1)}
	f.hi = geom.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, s := range spans {
		f.hi.X = math.Max(f.hi.X, supportMax(s.e, f.u))
		f.hi.Y = math.Max(f.hi.Y, supportMax(s.e, f.v))
		f.lo.X = math.Min(f.lo.X, -supportMax(s.e, f.u.Mul(-1)))
		f.lo.Y = math.Min(f.lo.Y, -supportMax(s.e, f.v.Mul(-1)))
	}
	return f
}
