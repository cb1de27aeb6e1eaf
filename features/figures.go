package features

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// figure is a set of edges whose ends meet: a contour, a chain, a letter or a
// part of one. Its edges are numbers of builder.inputs.
type figure struct {
	inputs []int32
	copies []int32 // what lies on them, see setCopiesAside
	box    geom.Box
	length float64
	closed bool // every end meets exactly one other
	open   bool // some end meets nothing
	bends  int  // ends at which the line turns by more than 3 degrees, and arcs
}

// figureSnapMM is how near ends are that meet: ends that miss each other by a
// few micrometres make no stroke of an opening.
const figureSnapMM = 0.01

// itemOfInput is the item of each input.
func (b *builder) itemOfInput() []int32 {
	owner := make([]int32, len(b.inputs))
	for i := range b.items {
		for k := b.start[i]; k < b.start[i+1]; k++ {
			owner[k] = int32(i)
		}
	}
	return owner
}

// meeting tells how the ends of some inputs meet: end 2k is the From, 2k+1 the
// To of the k-th input.
type meeting struct {
	at    []int32     // by end: the place that it belongs to
	count []int32     // by place: how many ends
	cells *placeTable // the place of each cell that an end lies in
}

// endCell is the square of the raster that a point lies in.
func endCell(p geom.Point) placeCell {
	return placeCell{int64(math.Floor(p.X / figureSnapMM)), int64(math.Floor(p.Y / figureSnapMM))}
}

// near calls use for the places of ends within twice figureSnapMM of p, and of
// some that lie a little further off. Some come more than once.
func (m *meeting) near(p geom.Point, use func(place int32)) {
	c := endCell(p)
	for x := c[0] - 3; x <= c[0]+3; x++ {
		for y := c[1] - 3; y <= c[1]+3; y++ {
			if place := m.cells.known(placeCell{x, y}); place >= 0 {
				use(place)
			}
		}
	}
}

// meetEnds finds which ends lie within figureSnapMM of each other. A full
// circle's two ends meet each other.
func (b *builder) meetEnds(inputs []int32) meeting {
	cells := newPlaceTable(2 * len(inputs))
	m := meeting{at: make([]int32, 2*len(inputs)), count: make([]int32, 0, len(inputs)+len(inputs)/8), cells: cells}
	for k, in := range inputs {
		e := &b.inputs[in].Edge
		for s, p := range [2]geom.Point{e.From, e.To} {
			x, y := math.Floor(p.X/figureSnapMM), math.Floor(p.Y/figureSnapMM)
			c := placeCell{int64(x), int64(y)}
			at := cells.find(c)
			place := *at - 1
			if place < 0 {
				place = int32(len(m.count))
				// The four neighbours on the nearer sides.
				dx, dy := int64(1), int64(1)
				if p.X/figureSnapMM-x < 0.5 {
					dx = -1
				}
				if p.Y/figureSnapMM-y < 0.5 {
					dy = -1
				}
				ok := false
				for _, n := range [3]placeCell{{c[0] + dx, c[1]}, {c[0], c[1] + dy}, {c[0] + dx, c[1] + dy}} {
					if q := cells.known(n); q >= 0 {
						place, ok = q, true
						break
					}
				}
				if !ok {
					m.count = append(m.count, 0)
				}
				*at = place + 1
			}
			m.at[2*k+s] = place
			m.count[place]++
		}
	}
	return m
}

// placeCell is a square of the raster on which ends are sorted.
type placeCell [2]int64

// placeTable maps cells to places. It is a plain table with open addresses:
// every end of a drawing asks it several times.
type placeTable struct {
	keys   []placeCell
	places []int32 // place + 1, 0 for an empty slot
	mask   uint64
}

// newPlaceTable has room for n cells.
func newPlaceTable(n int) *placeTable {
	size := 8
	for size < n+n/4 {
		size *= 2
	}
	return &placeTable{make([]placeCell, size), make([]int32, size), uint64(size - 1)}
}

// slot is where a cell stands, or the empty slot where it would. Blocks of four
// by four cells lie together, so that neighbours are asked for at little cost.
func (t *placeTable) slot(c placeCell) uint64 {
	h := uint64(c[0]>>2)*0x9E3779B97F4A7C15 ^ uint64(c[1]>>2)*0xC2B2AE3D27D4EB4F
	h ^= h >> 29
	h *= 0xBF58476D1CE4E5B9
	h ^= h >> 32
	h = h<<4 | uint64(c[0]&3)<<2 | uint64(c[1]&3)
	for h &= t.mask; t.places[h] != 0 && t.keys[h] != c; h = (h + 1) & t.mask {
	}
	return h
}

// find gives the entry of a cell, place + 1, to be set by the caller if it is
// 0.
func (t *placeTable) find(c placeCell) *int32 {
	h := t.slot(c)
	t.keys[h] = c
	return &t.places[h]
}

// known is the place of a cell, -1 if it has none.
func (t *placeTable) known(c placeCell) int32 { return t.places[t.slot(c)] - 1 }

// figures groups the inputs that may be edges of a part into figures, ordered by
// place.
func (b *builder) figures(owner []int32) []figure {
	inputs := b.cutInputs(owner)
	m := b.meetEnds(inputs)
	return b.figuresOf(owner, inputs, &m)
}

// cutInputs lists the inputs that may be edges of a part.
func (b *builder) cutInputs(owner []int32) []int32 {
	inputs := make([]int32, 0, len(b.inputs))
	for k, i := range owner {
		if it := &b.items[i]; it.class == classCut && !it.thread {
			inputs = append(inputs, int32(k))
		}
	}
	return inputs
}

// figuresOf is figures for some inputs whose ends meet as told.
func (b *builder) figuresOf(owner, inputs []int32, m *meeting) []figure {
	g := newGroups(len(m.count))
	for k := range inputs {
		g.unite(int(m.at[2*k]), int(m.at[2*k+1]))
		// All edges of one entity are one figure, though it be a polyline with
		// a break.
		if k > 0 && owner[inputs[k]] == owner[inputs[k-1]] {
			g.unite(int(m.at[2*k]), int(m.at[2*k-1]))
		}
	}
	count := make([]int32, len(m.count)) // of the inputs of a group
	for k := range inputs {
		count[g.root(int(m.at[2*k]))]++
	}
	index := make([]int32, len(m.count)) // of the figure of a group, and 1
	out := make([]figure, 0, g.number())
	room := make([]int32, len(inputs)) // for the inputs of all figures
	for k, in := range inputs {
		r := g.root(int(m.at[2*k]))
		i := int(index[r]) - 1
		e := &b.inputs[in].Edge
		box := e.Bounds()
		if i < 0 {
			i = len(out)
			index[r] = int32(i + 1)
			out = append(out, figure{closed: true, box: box, inputs: room[:0:count[r]]})
			room = room[count[r]:]
		}
		f := &out[i]
		f.inputs = append(f.inputs, in)
		f.box = f.box.Union(box)
		f.length += e.Length()
		if e.IsArc() {
			f.bends++
		}
		for s := range 2 {
			n := m.count[m.at[2*k+s]]
			f.closed = f.closed && n == 2
			f.open = f.open || n == 1
		}
	}
	for i := range out {
		out[i].bends += b.turns(out[i].inputs)
		b.setCopiesAside(&out[i])
	}
	slices.SortStableFunc(out, func(p, q figure) int {
		if c := comparePlace(p.box.Min, q.box.Min); c != 0 {
			return c
		}
		return comparePlace(p.box.Max, q.box.Max)
	})
	return out
}

// turns counts the lines of a figure whose direction differs from the line
// before by more than 3 degrees.
func (b *builder) turns(inputs []int32) int {
	n := 0
	for k := 1; k < len(inputs); k++ {
		e, f := &b.inputs[inputs[k-1]].Edge, &b.inputs[inputs[k]].Edge
		if math.Abs(e.EndDir().Cross(f.StartDir())) > 0.05 || e.EndDir().Dot(f.StartDir()) < 0 && e.To.Dist(f.From) > figureSnapMM {
			n++
		}
	}
	return n
}

// endPairs tells for each end which other end it meets, where exactly two meet.
type endPairs struct {
	at   []int32    // by end: its place, see meeting
	both [][2]int32 // by place: its first and its last end
}

func (m *meeting) pairs() endPairs {
	both := make([][2]int32, len(m.count))
	for i := range both {
		both[i] = [2]int32{-1, -1}
	}
	for end, place := range m.at {
		if p := &both[place]; p[0] < 0 {
			p[0] = int32(end)
		} else {
			p[1] = int32(end)
		}
	}
	return endPairs{m.at, both}
}

// other is the end that meets an end.
func (p *endPairs) other(end int32) int32 {
	both := &p.both[p.at[end]]
	if both[0] != end {
		return both[0]
	}
	return both[1]
}

// ringRoom is memory for one ring after the other.
type ringRoom struct {
	pieces []piece
	ring   geom.Ring
}

// ringOf walks a closed figure into a counter-clockwise ring with its pieces
// rounded as those of contours are; ok is false if it is no ring. The ends are
// those of all the inputs listed, or of the figure's own. The ring is good until
// the same room is used again.
func (b *builder) ringOf(f *figure, ends *endPairs, inputs []int32, room *ringRoom) (l loop, ok bool) {
	l.pieces = slices.Grow(room.pieces[:0], len(f.inputs))
	// The inputs listed ascend, as the figure's do.
	first, _ := slices.BinarySearch(inputs, f.inputs[0])
	start := int32(2 * first)
	at := start // the end that is walked in by
	for n := range f.inputs {
		if n > 0 && at == start {
			return loop{}, false // round before all of it was seen
		}
		e := b.inputs[inputs[at/2]].Edge
		if at&1 == 1 {
			e = e.Reverse()
		}
		l.pieces = append(l.pieces, piece{edge: e, style: -1})
		at = ends.other(at ^ 1)
	}
	if at != start {
		return loop{}, false
	}
	// Close the last micrometre, so that the ring is one for all who look.
	for i := range l.pieces {
		if p, n := &l.pieces[i].edge, l.pieces[(i+1)%len(l.pieces)].edge; !p.IsCircle() && len(l.pieces) > 1 {
			p.To = n.From
		}
	}
	room.ring = slices.Grow(room.ring[:0], len(l.pieces))
	room.pieces = l.pieces
	l.settleIn(room.ring[:len(l.pieces)])
	if !(l.area > 0) {
		return loop{}, false
	}
	l.roundFacets()
	return l, true
}

// turningOf is the sum of all that a ring turns, either way, in radians: 2 pi
// for a convex one.
func turningOf(r geom.Ring) float64 {
	sum := 0.0
	for i := range r {
		if r[i].IsArc() {
			sum += math.Abs(r[i].Sweep())
		}
		if len(r) > 1 {
			d, e := r[i].EndDir(), r[(i+1)%len(r)].StartDir()
			sum += math.Abs(math.Atan2(d.Cross(e), d.Dot(e)))
		}
	}
	return sum
}
