package join

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// grid lists the edges in each cell of a raster over the drawing, flat.
type grid struct {
	min    geom.Point
	inv    float64
	nx, ny int32
	start  []int32
	ids    []int32
	boxes  []geom.Box // by edge, grown
}

// cellRange are the cells that a box covers.
func (g *grid) cellRange(b geom.Box) (x0, y0, x1, y1 int32) {
	f := func(v, o float64, n int32) int32 {
		k := math.Floor((v - o) * g.inv)
		return int32(max(0, min(k, float64(n-1))))
	}
	return f(b.Min.X, g.min.X, g.nx), f(b.Min.Y, g.min.Y, g.ny), f(b.Max.X, g.min.X, g.nx), f(b.Max.Y, g.min.Y, g.ny)
}

// cells calls put for each cell that the edge may touch within grow: all of
// its box when that is small, else row by row along the line.
func (g *grid) cells(e *geom.Edge, box geom.Box, grow float64, put func(cell int32)) {
	x0, y0, x1, y1 := g.cellRange(box)
	if e.Radius > 0 || x1-x0 < 2 || y1-y0 < 2 {
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				put(y*g.nx + x)
			}
		}
		return
	}
	a, b := e.From, e.To
	if a.Y > b.Y {
		a, b = b, a
	}
	slope := (b.X - a.X) / (b.Y - a.Y) // more than one row: not level
	side := grow * (1 + math.Abs(slope))
	for y := y0; y <= y1; y++ {
		lo := g.min.Y + float64(y)/g.inv
		hi := lo + 1/g.inv
		xa := a.X + (max(lo, a.Y)-a.Y)*slope
		xb := a.X + (min(hi, b.Y)-a.Y)*slope
		if xa > xb {
			xa, xb = xb, xa
		}
		// Half a cell more than rounding could ask for costs little.
		c0 := int32(max(float64(x0), math.Floor((xa-side-g.min.X)*g.inv-1e-6)))
		c1 := int32(min(float64(x1), math.Floor((xb+side-g.min.X)*g.inv+1e-6)))
		for x := c0; x <= c1; x++ {
			put(y*g.nx + x)
		}
	}
}

// newGrid lays the raster of about as many cells as edges over the given
// edges, clipped to within.
func newGrid(b *base, edges []bedge, ids []int32, boxes []geom.Box, within geom.Box, grow float64) *grid {
	g := &grid{min: within.Min, boxes: boxes}
	w, h := within.Width(), within.Height()
	n := float64(len(ids))
	total := 0.0
	for _, i := range ids {
		total += min(boxes[i].Width(), w) + min(boxes[i].Height(), h)
	}
	cell := max(math.Sqrt(w*h/n), total/(2*n), max(w, h)*1e-6, 4*grow)
	if cell <= 0 || math.IsNaN(cell) {
		cell = 1
	}
	for (math.Floor(w/cell)+1)*(math.Floor(h/cell)+1) > 2*n+16 {
		cell *= 1.25
	}
	g.inv = 1 / cell
	g.nx, g.ny = int32(w/cell)+1, int32(h/cell)+1
	g.start = make([]int32, int(g.nx)*int(g.ny)+1)
	for _, i := range ids {
		if b.ended() {
			return g
		}
		g.cells(&edges[i].Edge, boxes[i], grow, func(c int32) { g.start[c]++ })
	}
	sum := int32(0)
	for c := range g.start {
		sum, g.start[c] = sum+g.start[c], sum
	}
	g.ids = make([]int32, sum)
	fill := slices.Clone(g.start)
	for _, i := range ids {
		if b.ended() {
			return g
		}
		g.cells(&edges[i].Edge, boxes[i], grow, func(c int32) {
			g.ids[fill[c]] = i
			fill[c]++
		})
	}
	return g
}

// near calls use for the edges whose box overlaps the box; some come twice.
func (g *grid) near(b geom.Box, use func(i int32)) {
	x0, y0, x1, y1 := g.cellRange(b)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			c := y*g.nx + x
			for _, i := range g.ids[g.start[c]:g.start[c+1]] {
				if g.boxes[i].Overlaps(b) {
					use(i)
				}
			}
		}
	}
}

const (
	crowd    = 24 // edges in one cell that are compared pair by pair
	maxDepth = 10
)

// pairs calls use for every pair of edges whose boxes overlap; some come more
// than once. A crowded cell gets a raster of its own. It stops when the budget
// of comparisons is used up, and tells so.
type pairer struct {
	b      *base
	edges  []bedge
	boxes  []geom.Box
	grow   float64
	use    func(i, k int32)
	budget int64
}

func (p *pairer) run(g *grid, depth int) {
	for y := int32(0); y < g.ny; y++ {
		for x := int32(0); x < g.nx; x++ {
			c := y*g.nx + x
			ids := g.ids[g.start[c]:g.start[c+1]]
			if len(ids) < 2 || p.budget < 0 {
				continue
			}
			if p.b.ended() {
				return
			}
			if len(ids) > crowd && depth < maxDepth {
				cell := geom.Box{
					Min: geom.Point{X: g.min.X + float64(x)/g.inv, Y: g.min.Y + float64(y)/g.inv},
					Max: geom.Point{X: g.min.X + float64(x+1)/g.inv, Y: g.min.Y + float64(y+1)/g.inv},
				}
				if p.refine(ids, cell, depth) {
					continue
				}
			}
			p.all(ids, g, x, y)
		}
	}
}

// refine gives the cell a raster of its own if that thins it out.
func (p *pairer) refine(ids []int32, cell geom.Box, depth int) bool {
	// The cell's edges only: a lone far box must not stretch it.
	b := p.boxes[ids[0]]
	for _, i := range ids[1:] {
		b = b.Union(p.boxes[i])
	}
	b = geom.Box{
		Min: geom.Point{X: max(b.Min.X, cell.Min.X), Y: max(b.Min.Y, cell.Min.Y)},
		Max: geom.Point{X: min(b.Max.X, cell.Max.X), Y: min(b.Max.Y, cell.Max.Y)},
	}
	if !(b.Width() > 8*p.grow || b.Height() > 8*p.grow) || b.Width() < 0 || b.Height() < 0 {
		return false
	}
	clipped := make([]int32, 0, len(ids))
	for _, i := range ids {
		if p.boxes[i].Overlaps(b) {
			clipped = append(clipped, i)
		}
	}
	g := newGrid(p.b, p.edges, clipped, p.boxes, b, p.grow)
	if p.b.err != nil {
		return true // not filled
	}
	if g.nx*g.ny < 2 || len(g.ids) > 8*len(ids) {
		return false
	}
	worst := int32(0)
	for c := 0; c+1 < len(g.start); c++ {
		worst = max(worst, g.start[c+1]-g.start[c])
	}
	if int(worst)*4 > len(ids)*3 {
		return false // a bundle: every cell would hold all of it
	}
	p.run(g, depth+1)
	return true
}

// all compares the edges of a cell pair by pair, swept along x when there are
// many.
func (p *pairer) all(ids []int32, g *grid, x, y int32) {
	if len(ids) > 2*crowd {
		ids = slices.Clone(ids)
		slices.SortFunc(ids, func(i, k int32) int {
			if p.b.ended() {
				return 0
			}
			a, b := p.boxes[i].Min.X, p.boxes[k].Min.X
			switch {
			case a < b:
				return -1
			case a > b:
				return 1
			}
			return int(i) - int(k)
		})
		for n, i := range ids {
			a := &p.boxes[i]
			for _, k := range ids[n+1:] {
				c := &p.boxes[k]
				if c.Min.X > a.Max.X {
					break
				}
				if p.b.ended() {
					return
				}
				p.budget--
				if a.Min.Y <= c.Max.Y && c.Min.Y <= a.Max.Y {
					p.budget -= 4
					p.use(min(i, k), max(i, k))
				}
			}
			if p.budget < 0 {
				return
			}
		}
		return
	}
	for n, i := range ids {
		a := &p.boxes[i]
		for _, k := range ids[n+1:] {
			c := &p.boxes[k]
			if a.Min.X > c.Max.X || c.Min.X > a.Max.X || a.Min.Y > c.Max.Y || c.Min.Y > a.Max.Y {
				continue
			}
			// A pair that shares several cells is met in each of them; small
			// ones are taken where the corner of their common box lies.
			ax0, ay0, ax1, ay1 := g.cellRange(*a)
			cx0, cy0, cx1, cy1 := g.cellRange(*c)
			if ax1-ax0 < 2 && ay1-ay0 < 2 && cx1-cx0 < 2 && cy1-cy0 < 2 && (max(ax0, cx0) != x || max(ay0, cy0) != y) {
				continue
			}
			p.budget -= 4
			p.use(min(i, k), max(i, k))
		}
	}
}
