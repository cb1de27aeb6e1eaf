package features

import (
	"math"
	"sort"

	"burrside/features/geom"
)

// ahead is what is known of the run from the side after i up to the one before
// k while k moves on, so that each side is looked at once for all k.
type ahead struct {
	i    int
	left bool    // the run lies on the metal side of side i's line
	area float64 // between the run and the line from its end to its start
}

// take adds side k to the run after a straight side.
func (m *mender) take(r *ahead, k int) {
	a, n := &m.nodes[r.i], &m.nodes[k]
	o := a.e.To
	if r.left {
		r.left = isLeft(&n.e, o, a.end)
	}
	r.area += n.e.From.Sub(o).Cross(n.e.To.Sub(o)) / 2
	if n.e.IsArc() {
		r.area += n.segment
	}
}

// found gives the candidates whose run starts after side i, and those whose
// run ends before side i at a vertex. With since >= 0 only those with a side
// that changed at that time or later.
func (m *mender) found(i, window, since int, add func(candidate)) {
	if m.nodes[i].dead || m.nodes[i].virtual || m.isSpent() {
		return
	}
	if m.nodes[i].e.IsArc() {
		if m.nodes[i].e.CCW {
			m.foundArcs(i, window, since, add)
		}
		return
	}
	// Forward from i.
	p := m.nodes[i].next
	total, hollow := m.turnAfter(i), m.inwardAfter(i)
	fresh := m.nodes[i].changed >= since
	run := ahead{i: i, left: true}
	k := p
	for steps := 0; steps < window && k != i; steps++ {
		m.steps++
		n := &m.nodes[k]
		fresh = fresh || n.changed >= since
		if fresh && hollow && k != p && !n.virtual {
			if c, ok := m.match(k, p, n.prev, total, &run); ok {
				c.made = m.now
				add(c)
			}
		}
		m.take(&run, k)
		total += n.sweep
		hollow = hollow || m.isHollow(k)
		after := total + m.turnAfter(k)
		if fresh && hollow && run.left && k != m.nodes[i].prev {
			if c, ok := m.vertex(i, p, k, after, true); ok {
				if c.area = -run.area; c.area > 0 {
					c.made = m.now
					add(c)
				}
			}
		}
		total = after
		hollow = hollow || m.inwardAfter(k)
		k = n.next
	}
	m.foundBehind(i, window, since, add)
}

// foundArcs is found for an arc that stands out, which goes on in another one of
// its circle, or in itself.
func (m *mender) foundArcs(i, window, since int, add func(candidate)) {
	p := m.nodes[i].next
	hollow, fresh := m.inwardAfter(i), m.nodes[i].changed >= since
	k := p
	try := func() {
		n := &m.nodes[k]
		c := candidate{i: i, j: k, p: p, q: n.prev, a: m.nodes[i].e.To, b: n.e.From}
		if c.mouth = c.b.Sub(c.a).Len(); c.mouth < lineMM {
			return
		}
		if c, ok := m.matchArcs(c, &m.nodes[i], n); ok {
			c.made = m.now
			add(c)
		}
	}
	for steps := 0; steps < window && k != i; steps++ {
		m.steps++
		n := &m.nodes[k]
		fresh = fresh || n.changed >= since
		if fresh && hollow && k != p && !n.virtual && n.e.Radius > 0 && n.e.CCW {
			try()
		}
		hollow = hollow || m.isHollow(k) || m.inwardAfter(k)
		k = n.next
	}
	if fresh && k == i && hollow && p != i {
		try()
	}
}

// foundBehind is found backward from a straight side, for mouths that end at a
// vertex.
func (m *mender) foundBehind(i, window, since int, add func(candidate)) {
	q := m.nodes[i].prev
	total, hollow := m.turnAfter(q), m.inwardAfter(q)
	fresh := m.nodes[i].changed >= since
	from, dir := m.nodes[i].e.From, m.nodes[i].end
	k := q
	for steps := 0; steps < window && k != i && k != m.nodes[i].next; steps++ {
		m.steps++
		n := &m.nodes[k]
		if !isLeft(&n.e, from, dir) {
			return // no longer run is
		}
		fresh = fresh || n.changed >= since
		total += n.sweep
		hollow = hollow || m.isHollow(k)
		after := total + m.turnAfter(n.prev)
		if fresh && hollow {
			if c, ok := m.vertex(i, k, q, after, false); ok {
				if c.area = m.areaOf(c); c.area > 0 {
					c.made = m.now
					add(c)
				}
			}
		}
		total = after
		hollow = hollow || m.inwardAfter(n.prev)
		k = n.prev
	}
}

// match tells whether the straight sides run.i and j can be joined over the run from p
// to q; total is the sum of turns and sweeps from the end of the one to the
// start of the other.
func (m *mender) match(j, p, q int, total float64, run *ahead) (candidate, bool) {
	a, b := &m.nodes[run.i], &m.nodes[j]
	if b.e.IsArc() || math.Abs(total) >= skewRad && (!run.left || !(total >= cornerLeastRad && total <= cornerMostRad)) {
		return candidate{}, false
	}
	c := candidate{i: run.i, j: j, p: p, q: q, a: a.e.To, b: b.e.From}
	c.mouth = b.e.From.Sub(a.e.To).Len()
	if math.Abs(total) < skewRad {
		if math.Abs(total) >= inwardRad || !m.matchLine(&c, a, b, run) {
			return m.matchSkew(c, a, b, run)
		}
	} else if !m.matchCorner(&c, a, b, total, run) {
		return c, false
	}
	c.area = m.areaAhead(&c, run)
	return c, c.area > 0
}

// areaAhead is areaOf for the run ahead of a straight side.
func (m *mender) areaAhead(c *candidate, run *ahead) float64 {
	sum := run.area
	if c.kind == mouthCorner {
		sum += c.b.Sub(c.a).Cross(c.v.Sub(c.a)) / 2
	}
	return -sum
}

// matchLine tells whether a and b are pieces of one line with the run on the
// metal side of it.
func (m *mender) matchLine(c *candidate, a, b *node, run *ahead) bool {
	c.kind, c.dir = mouthLine, a.start
	byB := b.e.Length() > a.e.Length()
	if byB {
		c.dir = b.start
	}
	gap := b.e.From.Sub(a.e.To)
	if math.Abs(c.dir.Cross(gap)) > lineMM+mouthShare*c.mouth || gap.Dot(c.dir) <= lineMM {
		return false
	}
	if !byB {
		return run.left
	}
	return m.leftOf(c.p, c.q, b.e.From, c.dir)
}

// matchCorner tells whether a and b meet in a corner outside the run; total is
// the turn from one to the other.
func (m *mender) matchCorner(c *candidate, a, b *node, total float64, run *ahead) bool {
	v, ok := meet(a.e, b.e)
	if !ok {
		return false
	}
	ahead, behind := v.Sub(a.e.To).Dot(a.end), b.e.From.Sub(v).Dot(b.start)
	// A corner that one of the lines already reaches is a bite on the other
	// line's edge.
	if ahead <= lineMM || behind <= lineMM {
		return false
	}
	if !m.frame.holds(v, cornerBoxMM) && (ahead > cornerShare*a.e.Length() || behind > cornerShare*b.e.Length()) {
		return false
	}
	if !run.left || !m.leftOf(c.p, c.q, b.e.From, b.start) {
		return false
	}
	c.kind, c.v = mouthCorner, v
	if math.Abs(total-math.Pi/2) > squareRad || m.holdsSkew(c, a.e, b.e) {
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
func (m *mender) matchArcs(c candidate, x, y *node) (candidate, bool) {
	a, b := x.e, y.e
	ref, other := a, b
	if b.Radius*math.Abs(y.sweep) > a.Radius*math.Abs(x.sweep) {
		ref, other = b, a
	}
	tol := lineMM + circleTol(ref.Radius)
	off := func(p geom.Point) bool { return math.Abs(p.Dist(ref.Centre)-ref.Radius) > tol }
	if off(other.From) || off(other.To) || off(other.Mid()) {
		return c, false
	}
	if math.Abs(x.sweep)+math.Abs(y.sweep) > 2*math.Pi && c.i != c.j {
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
func (m *mender) matchSkew(c candidate, a, b *node, run *ahead) (candidate, bool) {
	if c.mouth < lineMM || m.nodes[c.p].virtual && c.p == c.q || !isSkewPair(a.e, b.e) {
		return c, false
	}
	c.kind, c.dir, c.tier = mouthSkew, b.e.From.Sub(a.e.To).Mul(1/c.mouth), tierSkew
	if !m.leftOf(c.p, c.q, a.e.To, c.dir) {
		return c, false
	}
	c.area = m.areaAhead(&c, run)
	return c, c.area > 0
}

// vertex tells whether the run from p to q ends (forward) or starts (backward)
// at a vertex on the line of side i: teeth that touch, a notch flush with the
// end of its edge. total includes the turn at that vertex; the caller has seen
// to it that the run lies on the metal side of the line, and measures the area.
func (m *mender) vertex(i, p, q int, total float64, forward bool) (candidate, bool) {
	// The outline must go on inside the line; going on along it, the other
	// piece of the line is the mouth's other side.
	if total < inwardRad || total > math.Pi {
		return candidate{}, false
	}
	e := &m.nodes[i].e
	c := candidate{kind: mouthLine, i: i, j: -1, p: p, q: q, a: e.To, b: m.nodes[q].e.To, dir: m.nodes[i].end}
	if !forward {
		c.i, c.j, c.a, c.b = -1, i, m.nodes[p].e.From, e.From
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
	c.mouth = gap.Len()
	// A short skew line, as a clip, points at many a vertex by chance.
	if !m.frame.follows(*e) && e.Length() < c.mouth {
		c.tier = tierLast
	}
	return c, true
}

// leftOf tells whether the run from p to q lies on the metal side of the line
// through a with direction d, as far as it is not on it.
func (m *mender) leftOf(p, q int, a, d geom.Point) bool {
	for k := p; ; k = m.nodes[k].next {
		m.steps++
		if !isLeft(&m.nodes[k].e, a, d) {
			return false
		}
		if k == q {
			return true
		}
	}
}

// isLeft tells whether e lies left of the line through a with direction d, or
// on it.
func isLeft(e *geom.Edge, a, d geom.Point) bool {
	right := geom.Point{X: d.Y, Y: -d.X}
	off := a.Dot(right)
	tol := lineMM + mouthShare*max(e.From.Dist(a), e.To.Dist(a))
	if max(e.From.Dot(right), e.To.Dot(right))-off > tol {
		return false
	}
	// The whole circle of an arc mostly lies left as well, or so far that its
	// sweep need not be looked at.
	if e.Radius <= 0 || e.Centre.Dot(right)+e.Radius*(1+1e-9)-off < tol-1e-6 {
		return true
	}
	return supportMax(*e, right)-off <= tol
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
			sum += m.nodes[k].segment
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
