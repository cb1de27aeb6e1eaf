package features

import (
	"math"

	"burrside/features/geom"
)

// role is what a loop is to a part.
type role uint8

const (
	roleNone role = iota
	roleOutline
	roleHole
	roleSeat
)

// loopGrid finds the loops whose boxes hold a point: a grid of cells, each with
// the loops that reach into it.
type loopGrid struct {
	min   geom.Point
	cell  float64
	nx    int
	cells map[int][]int32
	wide  []int32 // loops that reach into so many cells that listing them does not pay
}

// ownLoops enters which draft each loop belongs to, and builds the grid.
func (b *builder) ownLoops() {
	n := len(b.loops)
	b.owner = make([]int, n)
	b.roles = make([]role, n)
	for i := range b.owner {
		b.owner[i] = -1
	}
	for i := range b.drafts {
		d := &b.drafts[i]
		b.owner[d.outline], b.roles[d.outline] = i, roleOutline
		for _, h := range d.holes {
			b.owner[h], b.roles[h] = i, roleHole
			for _, s := range d.seats[h] {
				b.owner[s], b.roles[s] = i, roleSeat
			}
		}
	}
	var all geom.Box
	some := 0
	for i := range b.loops {
		if b.owner[i] < 0 {
			continue
		}
		if some == 0 {
			all = b.loops[i].box
		} else {
			all = all.Union(b.loops[i].box)
		}
		some++
	}
	g := &b.grid
	*g = loopGrid{min: all.Min, cells: map[int][]int32{}}
	side := math.Max(all.Width(), all.Height())
	g.nx = int(math.Min(1024, math.Ceil(math.Sqrt(float64(some)))+1))
	g.cell = math.Max(side/float64(g.nx), 1e-9)
	g.nx++
	for i := range b.loops {
		if b.owner[i] < 0 {
			continue
		}
		x0, y0 := g.at(b.loops[i].box.Min)
		x1, y1 := g.at(b.loops[i].box.Max)
		if (x1-x0+1)*(y1-y0+1) > 64 {
			g.wide = append(g.wide, int32(i))
			continue
		}
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				g.cells[y*g.nx+x] = append(g.cells[y*g.nx+x], int32(i))
			}
		}
	}
}

func (g *loopGrid) at(p geom.Point) (x, y int) {
	clampTo := func(f float64) int { return int(math.Min(math.Max(math.Floor(f/g.cell), 0), float64(g.nx-1))) }
	return clampTo(p.X - g.min.X), clampTo(p.Y - g.min.Y)
}

// loopsAt calls f with every loop of a part whose box holds p.
func (b *builder) loopsAt(p geom.Point, f func(i int)) {
	x, y := b.grid.at(p)
	for _, list := range [2][]int32{b.grid.wide, b.grid.cells[y*b.grid.nx+x]} {
		for _, i := range list {
			if b.loops[i].box.Contains(p) {
				f(int(i))
			}
		}
	}
}

// touchMM is how far off a point may be to lie on a ring.
const touchMM = 1e-3

// partAt is the draft on whose metal a point lies, -1 none.
func (b *builder) partAt(p geom.Point) int {
	best := -1
	b.loopsAt(p, func(i int) {
		if b.roles[i] != roleOutline || best >= 0 && b.loops[b.drafts[best].outline].area <= b.loops[i].area {
			return
		}
		if b.loops[i].ring.Inside(p, touchMM) != geom.Out {
			best = b.owner[i]
		}
	})
	if best < 0 || b.openingAt(p, best) {
		return -1
	}
	return best
}

// openingAt tells whether a point lies inside a cut-out of a draft, or of any
// if draft is -1.
func (b *builder) openingAt(p geom.Point, draft int) bool {
	found := false
	b.loopsAt(p, func(i int) {
		if b.roles[i] != roleHole || found || draft >= 0 && b.owner[i] != draft {
			return
		}
		found = b.loops[i].ring.Inside(p, touchMM) == geom.In
	})
	return found
}
