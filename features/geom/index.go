package geom

import (
	"iter"
	"math"
)

// Index finds edges by place. It is a packed tree of boxes: unlike a plain
// grid it stays fast when most edges crowd in one spot. Arcs enter it in
// pieces cut at their quadrants, so that boxes are tight; only whole circles no
// larger than the space between edges stay whole. The zero value is an empty
// index. An Index is immutable and may be shared.
type Index struct {
	edges  []Edge
	pieces []piece // sorted by place
	levels [][]Box // levels[0] over groups of pieces, and so on upwards
	first  []int32 // first[i]: number of pieces of edges before i
	boxes  []Box   // of the pieces in edge order, with first
}

type piece struct {
	box  Box
	edge int32
	nth  int32 // among the edge's pieces
}

const fan = 8

// NewIndex indexes the edges; their ids are their positions. Pieces longer
// than cell (mm) are entered in parts no longer than it; 0 leaves lines whole,
// which is right unless long skew lines lie among many small features. The
// edges must not be changed afterwards.
func NewIndex(edges []Edge, cell float64) *Index {
	x := &Index{edges: edges, first: make([]int32, len(edges)+1)}
	n, small := len(edges), spacing(edges)
	for i := range edges {
		if r := edges[i].Radius; r > 0 && 2*r > small {
			n += 3 // a whole circle has four quarters, most arcs fewer
		}
	}
	x.pieces = make([]piece, 0, n)
	for i := range edges {
		x.first[i] = int32(len(x.pieces))
		x.enter(int32(i), cell, small)
	}
	x.first[len(edges)] = int32(len(x.pieces))
	x.boxes = make([]Box, len(x.pieces))
	for i := range x.pieces {
		x.boxes[i] = x.pieces[i].box
	}
	x.pack()
	return x
}

// spacing is how far apart the edges lie if they lie evenly, roughly.
func spacing(edges []Edge) float64 {
	if len(edges) == 0 {
		return 0
	}
	b := BoxOf(edges[0].From)
	for i := range edges {
		b = b.Add(edges[i].From).Add(edges[i].To)
	}
	return max(b.Width(), b.Height()) / math.Sqrt(float64(len(edges)))
}

func (x *Index) enter(id int32, cell, small float64) {
	e := &x.edges[id]
	nth := int32(0)
	put := func(b Box) {
		x.pieces = append(x.pieces, piece{b, id, nth})
		nth++
	}
	parts := 1
	if cell > 0 {
		parts = int(min(math.Ceil(e.Length()/cell), 4096))
	}
	if e.Radius <= 0 {
		prev := e.From
		for k := 1; k <= parts; k++ {
			p := e.At(float64(k) / float64(parts))
			put(BoxOf(prev, p))
			prev = p
		}
		return
	}
	if parts <= 1 && e.IsCircle() && 2*e.Radius <= small {
		r := Point{e.Radius, e.Radius}
		put(Box{e.Centre.Sub(r), e.Centre.Add(r)}.Grow(1e-12 * e.Radius))
		return
	}
	if b := e.Bounds(); parts <= 1 && math.Abs(e.Sweep()) <= math.Pi/2 {
		put(b)
		return
	}
	quarters := e.Split(e.quadrants()...)
	for _, q := range quarters {
		n := 1
		if cell > 0 {
			n = int(min(math.Ceil(q.Length()/cell), 4096))
		}
		prev := q.From
		for k := 1; k <= n; k++ {
			p := q.At(float64(k) / float64(n))
			put(BoxOf(prev, p).Grow(1e-12 * e.Radius)) // within a quadrant the ends bound it
			prev = p
		}
	}
}

// quadrants are the extreme points of the circle that lie on the arc.
func (e *Edge) quadrants() []Point {
	out := make([]Point, 0, 4)
	for _, d := range [4]Point{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
		if e.spans(d) {
			out = append(out, e.Centre.Add(d.Mul(e.Radius)))
		}
	}
	return out
}

// pack sorts the pieces into tiles (by x, then by y within each strip) and
// builds the boxes above them.
func (x *Index) pack() {
	n := len(x.pieces)
	if n == 0 {
		return
	}
	// Only places are sorted; pieces are entered in the order of their edges, by
	// which ties go.
	order, spare := make([]place, n), make([]place, n)
	for i := range x.pieces {
		b := &x.pieces[i].box
		order[i] = place{b.Min.X + b.Max.X, b.Min.Y + b.Max.Y, int32(i)}
	}
	var s spread
	s.sort(order, spare)
	for i := range order {
		order[i].at, order[i].other = order[i].other, order[i].at
	}
	groups := (n + fan - 1) / fan
	strip := int(math.Ceil(math.Sqrt(float64(groups)))) * fan
	for i := 0; i < n; i += strip {
		end := min(i+strip, n)
		s.sort(order[i:end], spare[i:end])
	}
	sorted := make([]piece, n)
	for k, o := range order {
		sorted[k] = x.pieces[o.i]
	}
	x.pieces = sorted
	level := make([]Box, 0, groups)
	for i := 0; i < n; i += fan {
		b := x.pieces[i].box
		for _, p := range x.pieces[i+1 : min(i+fan, n)] {
			b = b.Union(p.box)
		}
		level = append(level, b)
	}
	x.levels = append(x.levels, level)
	for len(level) > 1 {
		up := make([]Box, 0, (len(level)+fan-1)/fan)
		for i := 0; i < len(level); i += fan {
			b := level[i]
			for _, c := range level[i+1 : min(i+fan, len(level))] {
				b = b.Union(c)
			}
			up = append(up, b)
		}
		level = up
		x.levels = append(x.levels, level)
	}
}

// Len is the number of edges.
func (x *Index) Len() int { return len(x.edges) }

// Edge is the edge with the id.
func (x *Index) Edge(id int) Edge { return x.edges[id] }

// Near yields each edge of which a piece's box overlaps b, once. The order
// depends on the edges only.
func (x *Index) Near(b Box) iter.Seq[int] {
	return func(yield func(int) bool) {
		if len(x.levels) > 0 {
			x.walk(len(x.levels)-1, 0, b, yield)
		}
	}
}

func (x *Index) walk(level, i int, b Box, yield func(int) bool) bool {
	if !x.levels[level][i].Overlaps(b) {
		return true
	}
	if level > 0 {
		for k := i * fan; k < min(i*fan+fan, len(x.levels[level-1])); k++ {
			if !x.walk(level-1, k, b, yield) {
				return false
			}
		}
		return true
	}
	for k := i * fan; k < min(i*fan+fan, len(x.pieces)); k++ {
		p := &x.pieces[k]
		if !p.box.Overlaps(b) {
			continue
		}
		// The first piece of an edge that hits speaks for it.
		first := true
		f := x.first[p.edge]
		for n := int32(0); n < p.nth && first; n++ {
			first = !x.boxes[f+n].Overlaps(b)
		}
		if first && !yield(int(p.edge)) {
			return false
		}
	}
	return true
}

// Nearest is the edge nearest to p with the foot point on it, of those no
// further than max (the limit counts); id is -1 when there is none. Equally
// near feet are ordered by place: the lowest, then leftmost; then the lower
// id.
func (x *Index) Nearest(p Point, max float64) (id int, foot Point, dist float64) {
	id, _, foot, dist = x.NearestEdge(LineEdge(p, p), max)
	return id, foot, dist
}

// NearestEdge is the edge of the index that is nearest to e, with the foot
// points on e and on it, of those no further than max; id is -1 when there is
// none.
func (x *Index) NearestEdge(e Edge, max float64) (id int, onE, foot Point, dist float64) {
	return x.NearestFunc(e, max, nil)
}

// NearestFunc is NearestEdge among the edges that use accepts; a nil use
// accepts all.
func (x *Index) NearestFunc(e Edge, max float64, use func(id int) bool) (id int, onE, foot Point, dist float64) {
	s := nearSearch{x: x, e: e, box: e.Bounds(), id: -1, use: use, circle: e.IsCircle()}
	s.bound(max)
	if len(x.levels) > 0 && max >= 0 {
		s.visit(len(x.levels)-1, 0)
	}
	if s.id < 0 {
		return -1, Point{}, Point{}, math.Inf(1)
	}
	return s.id, s.pair.pa, s.pair.pb, s.pair.dist
}

type nearSearch struct {
	x     *Index
	e     Edge
	box   Box
	limit float64
	far2  float64 // boxes further off, squared, hold nothing within limit
	id    int
	last  int32 // edge that was tried last, counted from 1
	pair  nearPair
	use   func(int) bool

	circle bool // e is one
}

// bound sets the limit.
func (s *nearSearch) bound(limit float64) {
	s.limit = limit
	s.far2 = float64((limit+tieEps)*(limit+tieEps)) * (1 + 1e-12) // not less by rounding
}

// gap2 is the square of the distance of two boxes.
func gap2(a, b *Box) float64 {
	dx, dy := 0.0, 0.0
	if a.Min.X > b.Max.X {
		dx = a.Min.X - b.Max.X
	} else if b.Min.X > a.Max.X {
		dx = b.Min.X - a.Max.X
	}
	if a.Min.Y > b.Max.Y {
		dy = a.Min.Y - b.Max.Y
	} else if b.Min.Y > a.Max.Y {
		dy = b.Min.Y - a.Max.Y
	}
	return float64(dx*dx) + float64(dy*dy)
}

func (s *nearSearch) visit(level, i int) {
	if level == 0 {
		for k := i * fan; k < min(i*fan+fan, len(s.x.pieces)); k++ {
			s.try(&s.x.pieces[k])
		}
		return
	}
	// Children in the order of their distance; there are at most fan.
	var order [fan]struct {
		d float64
		k int
	}
	n := 0
	below := s.x.levels[level-1]
	for k := i * fan; k < min(i*fan+fan, len(below)); k++ {
		d := gap2(&below[k], &s.box)
		if d > s.far2 {
			continue
		}
		j := n
		for j > 0 && order[j-1].d > d {
			order[j] = order[j-1]
			j--
		}
		order[j].d, order[j].k = d, k
		n++
	}
	for _, o := range order[:n] {
		if o.d <= s.far2 {
			s.visit(level-1, o.k)
		}
	}
}

func (s *nearSearch) try(p *piece) {
	// Another piece of the edge at hand would give the same feet again.
	if int(p.edge) == s.id || p.edge+1 == s.last {
		return
	}
	if gap2(&p.box, &s.box) > s.far2 || s.use != nil && !s.use(int(p.edge)) {
		return
	}
	s.last = p.edge + 1
	if s.circle && circlesApart(&s.e, &s.x.edges[p.edge]) > s.limit+2e-6 {
		return
	}
	var pa, pb Point
	var d float64
	if s.e.Radius <= 0 && s.e.From == s.e.To {
		pa = s.e.From
		pb = s.x.edges[p.edge].Nearest(pa)
		d = pa.Dist(pb)
	} else {
		pa, pb, d = Closest(s.e, s.x.edges[p.edge])
	}
	if d > s.limit+tieEps || !s.pair.any && d > s.limit {
		return
	}
	was := s.pair
	s.pair.offer(pa, pb)
	same := s.pair.pa == was.pa && s.pair.pb == was.pb && was.any
	if !same || pa == was.pa && pb == was.pb && int(p.edge) < s.id {
		s.id = int(p.edge)
	}
	if s.pair.dist < s.limit {
		s.bound(s.pair.dist)
	}
}

// circlesApart is the distance of two circles, to some rounding; 0 where b is
// none.
func circlesApart(a, b *Edge) float64 {
	if !b.IsCircle() {
		return 0
	}
	d := a.Centre.Dist(b.Centre)
	return max(d-a.Radius-b.Radius, math.Abs(a.Radius-b.Radius)-d)
}
