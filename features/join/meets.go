package join

import (
	"math"

	"burrside/features/geom"
)

// touch: vertex vert, an end of edge other, lies on the inside of edge edge.
type touch struct{ edge, vert, other int32 }

// cross: two edges meet at a place away from the ends of both.
type cross struct {
	i, k int32
	at   geom.Point
	just bool // they touch there and do not cross
}

// cover: two edges share a stretch.
type cover struct{ i, k int32 }

// findMeets finds where edges touch, cross and overlap.
func (b *base) findMeets() error {
	n := len(b.edges)
	if n == 0 {
		return nil
	}
	grow := max(b.snap, copyGap) / 2 * 1.01
	boxes := make([]geom.Box, n)
	ids := make([]int32, n)
	for i := range b.edges {
		if b.ended() {
			return b.err
		}
		e := &b.edges[i]
		if e.Radius > 0 {
			boxes[i] = e.Bounds().Grow(grow)
		} else {
			boxes[i] = geom.Box{
				Min: geom.Point{X: min(e.From.X, e.To.X) - grow, Y: min(e.From.Y, e.To.Y) - grow},
				Max: geom.Point{X: max(e.From.X, e.To.X) + grow, Y: max(e.From.Y, e.To.Y) + grow},
			}
		}
		ids[i] = int32(i)
	}
	all := boxes[0]
	for i := range boxes {
		all = all.Union(boxes[i])
	}
	b.grid = newGrid(b, b.edges, ids, boxes, all, grow)
	if err := b.check(); err != nil {
		return err
	}
	limit := b.opt.MaxSplits
	if limit <= 0 {
		limit = min(20*n, mostSplits)
	}
	m := &meeter{b: b, limit: limit}
	p := &pairer{b: b, edges: b.edges, boxes: boxes, grow: grow, use: m.pair, budget: min(2000*int64(n)+1e6, 200*int64(n)+2e7)}
	p.run(b.grid, 0)
	if err := b.check(); err != nil {
		return err
	}
	if m.crosses > limit || p.budget < 0 {
		// All or none: which crossings came first must not matter.
		b.crosses = nil
		b.note(Note{Code: "too-many-crossings", At: all.Centre(), SizeMM: max(all.Width(), all.Height()), Count: m.crosses})
		if p.budget < 0 {
			b.touches, b.covers = nil, nil
		}
	}
	return nil
}

type meeter struct {
	b       *base
	crosses int
	limit   int
}

func (m *meeter) cross(i, k int32, at geom.Point, just bool) {
	m.crosses++
	if m.crosses <= m.limit {
		m.b.crosses = append(m.b.crosses, cross{i, k, at, just})
	}
}

// pair compares two edges whose boxes come near.
func (m *meeter) pair(i, k int32) {
	e, f := &m.b.edges[i], &m.b.edges[k]
	if e.Radius <= 0 && f.Radius <= 0 {
		m.lines(i, k, e, f)
		return
	}
	m.curves(i, k, e, f)
}

// lines is pair for two straight edges: the common case, without calls.
func (m *meeter) lines(i, k int32, e, f *bedge) {
	snap := m.b.snap
	d, g := e.To.Sub(e.From), f.To.Sub(f.From)
	ld, lg := d.Len(), g.Len()
	w := f.From.Sub(e.From)
	// Signed distances of the ends of each from the line of the other.
	f0 := d.Cross(w) / ld
	f1 := d.Cross(f.To.Sub(e.From)) / ld
	e0 := -g.Cross(w) / lg
	e1 := g.Cross(e.To.Sub(f.From)) / lg
	near := max(snap, copyGap)
	if f0 > near && f1 > near || f0 < -near && f1 < -near || e0 > near && e1 > near || e0 < -near && e1 < -near {
		return
	}
	shared := e.u == f.u || e.u == f.v || e.v == f.u || e.v == f.v
	touched := false
	test := func(on, other int32, o *bedge, p geom.Point, v int32, off, length float64, dir, from geom.Point) {
		if math.Abs(off) > snap || v == o.u || v == o.v {
			return
		}
		t := p.Sub(from).Dot(dir) / length
		if t <= 0 || t >= length {
			return
		}
		touched = true
		m.b.touches = append(m.b.touches, touch{on, v, other})
	}
	test(i, k, e, f.From, f.u, f0, ld, d, e.From)
	test(i, k, e, f.To, f.v, f1, ld, d, e.From)
	test(k, i, f, e.From, e.u, e0, lg, g, f.From)
	test(k, i, f, e.To, e.v, e1, lg, g, f.From)
	// The same line: the shorter's ends both near the longer's line.
	along := math.Abs(f0) <= near && math.Abs(f1) <= near
	if ld < lg {
		along = math.Abs(e0) <= near && math.Abs(e1) <= near
	}
	if along {
		lo, hi := w.Dot(d)/ld, f.To.Sub(e.From).Dot(d)/ld
		if lo > hi {
			lo, hi = hi, lo
		}
		common := min(hi, ld) - max(lo, 0)
		strict := math.Abs(f0) <= snap && math.Abs(f1) <= snap
		if ld < lg {
			strict = math.Abs(e0) <= snap && math.Abs(e1) <= snap
		}
		least := min(ld, lg)
		switch {
		case strict && common > snap:
			m.b.covers = append(m.b.covers, cover{i, k})
		case !strict && common >= 0.9*least && least > 10*copyGap:
			m.copies(i, k, ld, lg)
		}
		if strict {
			return
		}
	}
	if shared || touched {
		return
	}
	if (f0 > 0) != (f1 > 0) && (e0 > 0) != (e1 > 0) {
		s := f0 / (f0 - f1)
		at := f.From.Add(g.Mul(s))
		if at.Dist(f.From) <= snap || at.Dist(f.To) <= snap || at.Dist(e.From) <= snap || at.Dist(e.To) <= snap {
			return
		}
		m.cross(i, k, at, false)
	}
}

// copies marks the shorter of two near copies as the other's duplicate.
func (m *meeter) copies(i, k int32, li, lk float64) {
	keep, drop := i, k
	if lk > li+m.b.snap {
		keep, drop = k, i
	}
	m.b.copies = append(m.b.copies, cover{keep, drop})
}

// curves is pair when at least one edge is an arc.
func (m *meeter) curves(i, k int32, e, f *bedge) {
	snap := m.b.snap
	x := geom.Meet(e.Edge, f.Edge, snap)
	if x.Overlap {
		m.b.covers = append(m.b.covers, cover{i, k})
	} else if e.Radius > 0 && f.Radius > 0 && m.arcCopies(i, k, e, f) {
		return
	}
	for n := range x.N {
		p := x.At[n]
		ve, ee := endAt(e, p, snap)
		vf, ef := endAt(f, p, snap)
		switch {
		case ee && ef:
		case ee:
			m.b.touches = append(m.b.touches, touch{k, ve, i})
		case ef:
			m.b.touches = append(m.b.touches, touch{i, vf, k})
		case x.Overlap:
		default:
			m.cross(i, k, p, x.Touch[n])
		}
	}
}

// endAt tells whether p is an end of the edge, and which vertex. The start of
// a full circle is no end.
func endAt(e *bedge, p geom.Point, snap float64) (int32, bool) {
	if e.IsCircle() {
		return 0, false
	}
	if p.Dist(e.From) <= snap {
		return e.u, true
	}
	if p.Dist(e.To) <= snap {
		return e.v, true
	}
	return 0, false
}

// arcCopies is the rule of near copies for arcs: centres and radii within
// copyGap, nine tenths of the shorter in common.
func (m *meeter) arcCopies(i, k int32, e, f *bedge) bool {
	if e.Centre.Dist(f.Centre) > copyGap || math.Abs(e.Radius-f.Radius) > copyGap {
		return false
	}
	le, lf := e.Length(), f.Length()
	if min(le, lf) <= 10*copyGap {
		return false
	}
	short, long := e, f
	if le > lf {
		short, long = f, e
	}
	for _, at := range [5]float64{0.06, 0.25, 0.5, 0.75, 0.94} {
		if long.Dist(short.At(at)) > 2*copyGap {
			return false
		}
	}
	if long.IsCircle() && !short.IsCircle() && min(le, lf) < 0.9*max(le, lf) {
		return false // a piece of an arc over a circle 0.01 off: left as drawn
	}
	m.copies(i, k, le, lf)
	return true
}
