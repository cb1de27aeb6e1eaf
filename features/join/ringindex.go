package join

import "burrside/features/geom"

// ringIndex answers winding queries: the edges are binned by height, or, where
// most are tall, by their place along x.
type ringIndex struct {
	box      geom.Box
	inv      float64
	bins     []geom.Ring
	y0       float64
	swapped  bool // x and y have changed places in the bins
	prepared bool
	area     float64 // for those who set it
}

// mostBinned is how many bins an edge lies in at most, on average.
const mostBinned = 64

func (x *ringIndex) build(r geom.Ring) {
	x.prepared = true
	x.box = r.Bounds()
	if x.bin(r, x.box.Min.Y, x.box.Max.Y) {
		return
	}
	// The winding of the ring mirrored at the diagonal is the same, but for its
	// sign.
	if len(r) >= 4*8 && x.bin(diagonal(r), x.box.Min.X, x.box.Max.X) {
		x.swapped = true
		return
	}
	x.bins, x.inv = []geom.Ring{r}, 0
}

// diagonal is the ring with x and y exchanged.
func diagonal(r geom.Ring) geom.Ring {
	out := make(geom.Ring, len(r))
	for i, e := range r {
		out[i] = geom.Edge{From: swap(e.From), To: swap(e.To), Centre: swap(e.Centre), Radius: e.Radius, CCW: !e.CCW}
	}
	return out
}

func swap(p geom.Point) geom.Point { return geom.Point{X: p.Y, Y: p.X} }

// bin deals the edges out to bins between two heights. It tells whether bins
// help: not where edges are few, or so tall that each lies in most bins.
func (x *ringIndex) bin(r geom.Ring, low, high float64) bool {
	n := min(len(r)/4, 4096)
	if n < 8 || !(high > low) {
		return false
	}
	x.y0, x.inv = low, float64(n)/(high-low)
	bin := func(y float64) int { return max(0, min(int((y-x.y0)*x.inv), n-1)) }
	counts := make([]int32, n+1)
	total := 0
	for i := range r {
		b := r[i].Bounds()
		for k := bin(b.Min.Y); k <= bin(b.Max.Y); k++ {
			counts[k]++
			total++
		}
		if total > mostBinned*len(r) {
			return false
		}
	}
	arena := make(geom.Ring, 0, total)
	x.bins = make([]geom.Ring, n)
	for k := range x.bins {
		s := len(arena)
		arena = arena[:s+int(counts[k])]
		x.bins[k] = arena[s:s:len(arena)]
	}
	for i := range r {
		b := r[i].Bounds()
		for k := bin(b.Min.Y); k <= bin(b.Max.Y); k++ {
			x.bins[k] = append(x.bins[k], r[i])
		}
	}
	return true
}

func (x *ringIndex) inside(p geom.Point) bool {
	if !x.box.Contains(p) {
		return false
	}
	if x.swapped {
		p = swap(p)
	}
	k := 0
	if x.inv > 0 {
		k = max(0, min(int((p.Y-x.y0)*x.inv), len(x.bins)-1))
	}
	return x.bins[k].Winding(p) != 0
}
