package geom

import "math"

// nearPair keeps the best pair of foot points seen so far. Pairs that are
// equally near (within tieEps) are ordered by the place of the first foot,
// then of the second, so that neither the order nor the direction of the
// edges decides.
type nearPair struct {
	pa, pb Point
	dist   float64
	any    bool
}

func (n *nearPair) offer(pa, pb Point) {
	d := pa.Dist(pb)
	switch {
	case !n.any || d < n.dist-tieEps:
	case d > n.dist+tieEps:
		return
	default:
		c := ComparePlace(pa, n.pa)
		if c == 0 {
			c = ComparePlace(pb, n.pb)
		}
		if c > 0 || c == 0 && d >= n.dist {
			return
		}
	}
	n.pa, n.pb, n.dist, n.any = pa, pb, d, true
}

// Closest gives the least distance between two edges with its foot points,
// exact for lines and arcs; dist is 0, and the feet are equal, when they touch
// or cross. Of several equally near pairs it gives the one whose first foot is
// lowest, then leftmost.
func Closest(a, b Edge) (pa, pb Point, dist float64) {
	var n nearPair
	// The distance of two pieces is least at a crossing, at an end of either,
	// or where both tangents are square to the connection.
	var buf [2]Point
	for _, p := range carriersMeet(&a, &b, &buf) {
		if onSpan(&a, p, tieEps) && onSpan(&b, p, tieEps) {
			n.offer(p, p)
		}
	}
	// A circle ends where it starts.
	n.offer(a.From, b.Nearest(a.From))
	if a.To != a.From {
		n.offer(a.To, b.Nearest(a.To))
	}
	n.offer(a.Nearest(b.From), b.From)
	if b.To != b.From {
		n.offer(a.Nearest(b.To), b.To)
	}
	switch {
	case a.Radius > 0 && b.Radius > 0:
		d := b.Centre.Sub(a.Centre)
		if d.Len() <= tieEps {
			if a.From == a.To && b.From == b.To { // concentric circles: feet at angle 0
				n.offer(Point{a.Centre.X + a.Radius, a.Centre.Y}, Point{b.Centre.X + b.Radius, b.Centre.Y})
			}
			break // the ends have been tried
		}
		u := d.Unit()
		for _, sa := range [2]float64{1, -1} {
			if !a.spans(u.Mul(sa)) {
				continue
			}
			for _, sb := range [2]float64{1, -1} {
				if b.spans(u.Mul(sb)) {
					n.offer(a.Centre.Add(u.Mul(sa*a.Radius)), b.Centre.Add(u.Mul(sb*b.Radius)))
				}
			}
		}
	case a.Radius > 0:
		offerLineArc(&n, &b, &a, true)
	case b.Radius > 0:
		offerLineArc(&n, &a, &b, false)
	}
	if n.dist <= 1e-12 {
		n.pb, n.dist = n.pa, 0
	}
	return n.pa, n.pb, n.dist
}

// offerLineArc tries the foot of the arc's centre on the line, and the two
// points of the circle square to it.
func offerLineArc(n *nearPair, line, arc *Edge, swap bool) {
	dir := line.To.Sub(line.From)
	l := dir.Len()
	if l == 0 {
		return
	}
	u := dir.Mul(1 / l)
	along := arc.Centre.Sub(line.From).Dot(u)
	if along < 0 || along > l {
		return
	}
	foot := line.From.Add(u.Mul(along))
	for _, w := range [2]Point{u.Left(), u.Left().Mul(-1)} {
		if !arc.spans(w) {
			continue
		}
		p := arc.Centre.Add(w.Mul(arc.Radius))
		if swap {
			n.offer(p, foot)
		} else {
			n.offer(foot, p)
		}
	}
}

// carriersMeet gives the points common to the whole line or circle of a and
// that of b, none when they are parallel, apart or the same.
func carriersMeet(a, b *Edge, buf *[2]Point) []Point {
	switch {
	case a.Radius <= 0 && b.Radius <= 0:
		d, e := a.To.Sub(a.From), b.To.Sub(b.From)
		den := d.Cross(e)
		if math.Abs(den) <= 1e-15*d.Len()*e.Len() || den == 0 {
			return nil
		}
		w := b.From.Sub(a.From)
		buf[0] = a.From.Add(d.Mul(w.Cross(e) / den))
		return buf[:1]
	case a.Radius <= 0:
		return lineCircle(a, b, buf)
	case b.Radius <= 0:
		return lineCircle(b, a, buf)
	}
	return circleCircle(a, b, buf)
}

func lineCircle(line, arc *Edge, buf *[2]Point) []Point {
	u := line.To.Sub(line.From).Unit()
	if u == (Point{}) {
		return nil
	}
	w := arc.Centre.Sub(line.From)
	off := u.Cross(w) // the centre lies off to the left
	foot := arc.Centre.Sub(u.Left().Mul(off))
	h2 := float64((arc.Radius - off) * (arc.Radius + off))
	if h2 < 0 {
		return nil
	}
	if h2 == 0 {
		buf[0] = foot
		return buf[:1]
	}
	h := math.Sqrt(h2)
	buf[0], buf[1] = foot.Sub(u.Mul(h)), foot.Add(u.Mul(h))
	return buf[:2]
}

func circleCircle(a, b *Edge, buf *[2]Point) []Point {
	d := b.Centre.Sub(a.Centre)
	l := d.Len()
	ra, rb := a.Radius, b.Radius
	if l == 0 || l > ra+rb || l < math.Abs(ra-rb) {
		return nil
	}
	// From a's centre, x along d and h to either side.
	x := (l + float64((ra-rb)*(ra+rb))/l) / 2
	u := d.Mul(1 / l)
	mid := a.Centre.Add(u.Mul(x))
	h2 := float64((ra - x) * (ra + x))
	if h2 <= 0 {
		buf[0] = mid
		return buf[:1]
	}
	h := u.Left().Mul(math.Sqrt(h2))
	buf[0], buf[1] = mid.Sub(h), mid.Add(h)
	return buf[:2]
}

// onSpan tells whether p, a point of the whole line or circle of e, lies on e
// or within tol of one of its ends.
func onSpan(e *Edge, p Point, tol float64) bool {
	if e.Radius > 0 {
		if e.spans(p.Sub(e.Centre)) {
			return true
		}
	} else {
		d := e.To.Sub(e.From)
		t := p.Sub(e.From).Dot(d)
		if t >= 0 && t <= d.Dot(d) {
			return true
		}
	}
	return p.Dist(e.From) <= tol || p.Dist(e.To) <= tol
}

// RingDist is the least distance between two outlines with its foot points; 0
// when they touch or cross. One ring inside the other has the distance of the
// outlines. An empty ring is infinitely far away.
func RingDist(a, b Ring) (pa, pb Point, dist float64) {
	if len(a) == 0 || len(b) == 0 {
		return Point{}, Point{}, math.Inf(1)
	}
	var n nearPair
	if len(a)*len(b) <= 256 {
		boxes := make([]Box, len(b))
		for j := range b {
			boxes[j] = b[j].Bounds()
		}
		for i := range a {
			ba := a[i].Bounds()
			for j := range b {
				if n.any && ba.Dist(boxes[j]) > n.dist+tieEps {
					continue
				}
				p, q, _ := Closest(a[i], b[j])
				n.offer(p, q)
			}
		}
		return n.pa, n.pb, n.dist
	}
	if len(a) > len(b) {
		pb, pa, dist = RingDist(b, a)
		return pa, pb, dist
	}
	x := NewIndex(b, 0)
	for i := range a {
		limit := math.Inf(1)
		if n.any {
			limit = n.dist + tieEps
		}
		if id, p, q, _ := x.NearestEdge(a[i], limit); id >= 0 {
			n.offer(p, q)
		}
	}
	return n.pa, n.pb, n.dist
}
