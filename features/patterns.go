package features

import (
	"math"
	"sort"

	"burrside/features/geom"
)

// Limits of a pattern: how far its holes may lie from their places, and how
// many equal holes are looked at (the search for rows is quadratic).
const (
	patternMM   = 0.05
	maxPatterns = 600
)

// findPatterns finds rows, grids and circles of equal round holes or slots.
// Every feature is in one pattern at most; grids and circles come first.
func findPatterns(fs []Feature) []Pattern {
	type key struct {
		kind        Kind
		dia, length int64
		angle       int64
	}
	groups := map[key][]int{}
	var keys []key
	for i := range fs {
		f := &fs[i]
		if !f.IsInside() || f.CrossesOutline {
			continue
		}
		k := key{kind: f.Kind, dia: int64(math.Round(f.DiameterMM * 50)), length: int64(math.Round(f.LengthMM * 50))}
		switch f.Kind {
		case RoundHole, HoleWithSeat, TappedHole:
			k.length = int64(math.Round(f.SeatMM * 50))
		case Slot, RectangularHole:
			k.dia = int64(math.Round(f.WidthMM * 50))
			k.angle = int64(math.Round(math.Mod(f.AngleRad, math.Pi) * 500))
		default:
			continue
		}
		if groups[k] == nil {
			keys = append(keys, k)
		}
		groups[k] = append(groups[k], i)
	}
	sort.SliceStable(keys, func(i, j int) bool { return groups[keys[i]][0] < groups[keys[j]][0] })
	var out []Pattern
	for _, k := range keys {
		out = append(out, patternsOf(fs, groups[k])...)
	}
	return out
}

func patternsOf(fs []Feature, members []int) []Pattern {
	if len(members) < 3 || len(members) > maxPatterns {
		return nil
	}
	ids := func(list []int) []string {
		s := make([]string, len(list))
		for i, m := range list {
			s[i] = fs[m].ID
		}
		return s
	}
	circle, dia := holesOnCircle(fs, members)
	pitches, isGrid := holesOnGrid(fs, members)
	switch {
	case circle && (!isGrid || somethingAt(fs, members)):
		return []Pattern{{Kind: "circle", Members: ids(members), PitchMM: []float64{dia}}}
	case isGrid:
		return []Pattern{{Kind: "grid", Members: ids(members), PitchMM: pitches}}
	}
	var out []Pattern
	for _, row := range rowsOf(fs, members) {
		a, z := fs[row[0]].At, fs[row[len(row)-1]].At
		out = append(out, Pattern{Kind: "row", Members: ids(row), PitchMM: []float64{a.Dist(z) / float64(len(row)-1)}})
	}
	return out
}

func middleOf(fs []Feature, members []int) geom.Point {
	var c geom.Point
	for _, m := range members {
		c = c.Add(fs[m].At)
	}
	return c.Mul(1 / float64(len(members)))
}

// somethingAt tells whether a round opening lies at the middle of the members,
// as a bore does in a bolt circle.
func somethingAt(fs []Feature, members []int) bool {
	c := middleOf(fs, members)
	for i := range fs {
		if fs[i].IsInside() && fs[i].At.Dist(c) <= patternMM {
			return true
		}
	}
	return false
}

// holesOnCircle tells whether the members lie evenly on one circle.
func holesOnCircle(fs []Feature, members []int) (bool, float64) {
	c := middleOf(fs, members)
	r := fs[members[0]].At.Dist(c)
	if r < patternMM {
		return false, 0
	}
	angles := make([]float64, len(members))
	for i, m := range members {
		d := fs[m].At.Sub(c)
		if math.Abs(d.Len()-r) > patternMM {
			return false, 0
		}
		angles[i] = math.Atan2(d.Y, d.X)
	}
	sort.Float64s(angles)
	step := 2 * math.Pi / float64(len(members))
	for i := 1; i < len(angles); i++ {
		if math.Abs(angles[i]-angles[0]-step*float64(i))*r > 2*patternMM {
			return false, 0
		}
	}
	return true, 2 * r
}

// holesOnGrid tells whether the members fill a grid of two or more rows and
// columns at right angles, along any direction.
func holesOnGrid(fs []Feature, members []int) ([]float64, bool) {
	n := len(members)
	if n < 4 {
		return nil, false
	}
	// The lowest corner's nearest neighbours give the direction.
	first := fs[members[0]].At
	var u geom.Point
	least := math.Inf(1)
	for _, m := range members[1:] {
		d := fs[m].At.Sub(first)
		if l := d.Len(); l > patternMM && (l < least-patternMM || l < least+patternMM && d.Y < u.Y-patternMM) {
			least, u = math.Min(l, least), d
		}
	}
	if math.IsInf(least, 1) {
		return nil, false
	}
	u = u.Unit()
	v := u.Left()
	along := func(dir geom.Point) []float64 {
		var list []float64
		for _, m := range members {
			list = append(list, fs[m].At.Sub(first).Dot(dir))
		}
		sort.Float64s(list)
		out := list[:1:1]
		for _, x := range list[1:] {
			if x-out[len(out)-1] > 2*patternMM {
				out = append(out, x)
			}
		}
		return out
	}
	xs, ys := along(u), along(v)
	if len(xs) < 2 || len(ys) < 2 || len(xs)*len(ys) != n || !isEven(xs) || !isEven(ys) {
		return nil, false
	}
	taken := map[[2]int]bool{}
	for _, m := range members {
		d := fs[m].At.Sub(first)
		x, y := nearestIn(xs, d.Dot(u)), nearestIn(ys, d.Dot(v))
		taken[[2]int{x, y}] = true
	}
	if len(taken) != n {
		return nil, false
	}
	// Pitches along the direction nearer to the x axis first.
	px, py := (xs[len(xs)-1]-xs[0])/float64(len(xs)-1), (ys[len(ys)-1]-ys[0])/float64(len(ys)-1)
	if math.Abs(u.X) < math.Abs(u.Y) {
		px, py = py, px
	}
	return []float64{px, py}, true
}

func nearestIn(list []float64, x float64) int {
	best := 0
	for i, v := range list {
		if math.Abs(v-x) < math.Abs(list[best]-x) {
			best = i
		}
	}
	return best
}

func isEven(list []float64) bool {
	step := (list[len(list)-1] - list[0]) / float64(len(list)-1)
	for i, x := range list {
		if math.Abs(x-list[0]-step*float64(i)) > 2*patternMM {
			return false
		}
	}
	return true
}

// rowsOf finds rows of three or more at even pitch, the longest first.
func rowsOf(fs []Feature, members []int) [][]int {
	type cell [2]int64
	const side = 1.0
	at := map[cell][]int{}
	cellAt := func(p geom.Point) cell { return cell{int64(math.Floor(p.X / side)), int64(math.Floor(p.Y / side))} }
	for _, m := range members {
		c := cellAt(fs[m].At)
		at[c] = append(at[c], m)
	}
	used := map[int]bool{}
	find := func(p geom.Point) int {
		lo := cellAt(geom.Point{X: p.X - patternMM, Y: p.Y - patternMM})
		hi := cellAt(geom.Point{X: p.X + patternMM, Y: p.Y + patternMM})
		for x := lo[0]; x <= hi[0]; x++ {
			for y := lo[1]; y <= hi[1]; y++ {
				for _, m := range at[cell{x, y}] {
					if !used[m] && fs[m].At.Dist(p) <= patternMM {
						return m
					}
				}
			}
		}
		return -1
	}
	var out [][]int
	for {
		// All rows among what is left; then the longest that share no hole.
		var rows [][]int
		for i, a := range members {
			if used[a] {
				continue
			}
			for _, z := range members[i+1:] {
				if used[z] {
					continue
				}
				step := fs[z].At.Sub(fs[a].At)
				// Only from the first hole of a row on.
				if step.Len() <= patternMM || find(fs[a].At.Sub(step)) >= 0 {
					continue
				}
				row := []int{a, z}
				for len(row) < len(members) {
					m := find(fs[a].At.Add(step.Mul(float64(len(row)))))
					if m < 0 {
						break
					}
					row = append(row, m)
				}
				if len(row) >= 3 {
					rows = append(rows, row)
				}
			}
		}
		if len(rows) == 0 {
			return out
		}
		pitch := func(r []int) float64 { return fs[r[0]].At.Dist(fs[r[1]].At) }
		sort.SliceStable(rows, func(i, j int) bool {
			if len(rows[i]) != len(rows[j]) {
				return len(rows[i]) > len(rows[j])
			}
			return pitch(rows[i]) < pitch(rows[j])-patternMM
		})
		for _, row := range rows {
			free := true
			for _, m := range row {
				free = free && !used[m]
			}
			if !free {
				continue
			}
			for _, m := range row {
				used[m] = true
			}
			out = append(out, row)
		}
	}
}
