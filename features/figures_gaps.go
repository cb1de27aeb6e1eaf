package features

import (
	"math"

	"burrside/features/geom"
)

// Limits of taking two loose ends for one: those that the joiner bridges by.
const (
	figureGapMM    = 0.5
	figureGapShare = 0.3 // of the shorter edge
	figureGapClear = 3.0 // a third end is farther than so many gaps

	figureCornerSine = 0.17 // ten degrees: less is straight on
)

// gappedEnds tells for each end whether the joiner will join it to another round
// a corner: such an end is no end of a dash or of a hatch line. Dashes run
// straight on.
func (b *builder) gappedEnds(inputs []int32, m *meeting) []bool {
	out := make([]bool, len(m.at))
	for _, p := range b.loosePairs(inputs, m) {
		d := b.inputs[inputs[p[0]/2]].Edge
		e := b.inputs[inputs[p[1]/2]].Edge
		u, v := d.StartDir(), e.StartDir()
		if p[0]%2 == 1 {
			u = d.EndDir()
		}
		if p[1]%2 == 1 {
			v = e.EndDir()
		}
		if math.Abs(u.Cross(v)) > figureCornerSine {
			out[p[0]], out[p[1]] = true, true
		}
	}
	return out
}

// loosePairs lists the pairs of loose ends that are each other's nearest and
// that the joiner will join.
func (b *builder) loosePairs(inputs []int32, m *meeting) (pairs [][2]int) {
	type end struct {
		at  geom.Point
		own int // end: 2k From, 2k+1 To
	}
	var loose []end
	for i, place := range m.at {
		if m.count[place] != 1 {
			continue
		}
		e := &b.inputs[inputs[i/2]].Edge
		p := e.From
		if i%2 == 1 {
			p = e.To
		}
		loose = append(loose, end{p, i})
	}
	const cellMM = figureGapClear * figureGapMM
	cellOf := func(p geom.Point) [2]int64 {
		return [2]int64{int64(math.Floor(p.X / cellMM)), int64(math.Floor(p.Y / cellMM))}
	}
	cells := make(map[[2]int64][]int, len(loose))
	for n := range loose {
		c := cellOf(loose[n].at)
		cells[c] = append(cells[c], n)
	}
	const crowd = 64 // more ends than that about one place are no gaps
	nearest := func(n int) int {
		best, first, second, seen := -1, math.Inf(1), math.Inf(1), 0
		c := cellOf(loose[n].at)
		for y := c[1] - 1; y <= c[1]+1; y++ {
			for x := c[0] - 1; x <= c[0]+1; x++ {
				for _, k := range cells[[2]int64{x, y}] {
					if seen++; seen > crowd {
						return -1
					}
					if k == n {
						continue
					}
					switch d := loose[k].at.Dist(loose[n].at); {
					case d < first:
						best, first, second = k, d, first
					case d < second:
						second = d
					}
				}
			}
		}
		if first > figureGapMM || second <= figureGapClear*first {
			return -1
		}
		return best
	}
	near := make([]int, len(loose))
	for n := range loose {
		near[n] = nearest(n)
	}
	for n, k := range near {
		if k <= n || near[k] != n || loose[n].own/2 == loose[k].own/2 {
			continue
		}
		short := math.Min(b.inputs[inputs[loose[n].own/2]].Edge.Length(), b.inputs[inputs[loose[k].own/2]].Edge.Length())
		if loose[n].at.Dist(loose[k].at) > figureGapShare*short {
			continue
		}
		pairs = append(pairs, [2]int{loose[n].own, loose[k].own})
	}
	return pairs
}
