package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// Hatching that was taken to pieces: many parallel lines at one spacing, each
// from edge to edge. Pieces sawn off a bar have such lines too, and so has a
// plate with many bends; these are wider apart or square to the edge.
const (
	hatchLeast  = 6    // lines at distances of one spacing
	hatchMostMM = 6.0  // spacing: no part is so narrow
	hatchShare  = 0.2  // of the usual length: the spacing of wider hatching
	hatchSine   = 2e-3 // two lines are parallel
	hatchEven   = 0.03 // of the spacing
	hatchSquare = 0.02 // sine by which lines may be off square to the edge and still count as square
	hatchSome   = 12   // so many lines are hatching though they be square to the edge
)

// hatching takes out exploded hatches.
func (w *lineWork) hatching() error {
	type line struct {
		k     int
		angle float64
	}
	var lines []line
	for k := range w.edges {
		if w.isLine(k) && w.alone(k, 0) && w.alone(k, 1) {
			d := w.edges[k].StartDir()
			a := math.Atan2(d.Y, d.X)
			if a < -1e-3 {
				a += math.Pi
			}
			if a > math.Pi-1e-3 {
				a -= math.Pi
			}
			lines = append(lines, line{k, a})
		}
	}
	if len(lines) < hatchLeast {
		return nil
	}
	slices.SortStableFunc(lines, func(p, q line) int { return compareFloats(p.angle, q.angle) })
	marked := map[int]bool{}
	for i := 0; i < len(lines); {
		j := i + 1
		for j < len(lines) && lines[j].angle-lines[i].angle <= hatchSine {
			j++
		}
		if j-i >= hatchLeast {
			var ks []int
			for _, l := range lines[i:j] {
				ks = append(ks, l.k)
			}
			w.hatchOf(ks, lines[(i+j)/2].angle, marked)
		}
		i = j
	}
	if infos := w.finish(marked, hatchTaken, sure); len(infos) > 0 {
		w.b.note(Note{Code: "hatch-lines", Count: len(infos), Source: sourcesOf(infos),
			Text: fmt.Sprintf("%d parallel lines at equal distances were taken for hatching and left out", len(infos))})
	}
	return nil
}

// hatchOf marks those of some parallel lines that are hatching.
func (w *lineWork) hatchOf(ks []int, angle float64, marked map[int]bool) {
	s, c := math.Sincos(angle)
	normal := geom.Point{X: -s, Y: c}
	type row struct {
		k      int
		offset float64
	}
	var rows []row
	square := 0
	for _, k := range ks {
		ends, squareEnds := 0, 0
		for t := range 2 {
			on, isSquare := false, true
			w.near(w.end(k, t), 0.05, func(j int) {
				if j == k {
					return
				}
				e := &w.edges[j]
				dir := e.StartDir()
				if e.IsArc() {
					dir = w.end(k, t).Sub(e.Centre).Unit().Left()
				}
				sine, cosine := sineCosine(dir, w.direction(k, 0))
				if sine > 0.1 {
					on = true
					isSquare = isSquare && cosine <= hatchSquare
				}
			})
			if on {
				ends++
				if isSquare {
					squareEnds++
				}
			}
		}
		if ends == 2 {
			rows = append(rows, row{k, w.edges[k].Mid().Dot(normal)})
			if squareEnds == 2 {
				square++
			}
		}
	}
	if len(rows) < hatchLeast {
		return
	}
	slices.SortStableFunc(rows, func(p, q row) int { return compareFloats(p.offset, q.offset) })
	var steps []float64
	for i := 1; i < len(rows); i++ {
		if d := rows[i].offset - rows[i-1].offset; d > 0.05 {
			steps = append(steps, d)
		}
	}
	if len(steps) < hatchLeast-1 {
		return
	}
	slices.Sort(steps)
	spacing := steps[len(steps)/2]
	var lengths []float64
	for _, r := range rows {
		lengths = append(lengths, w.edges[r.k].Length())
	}
	slices.Sort(lengths)
	if spacing > hatchMostMM && (spacing > hatchShare*lengths[len(lengths)/2] || lengths[len(lengths)-1] < 1.5*lengths[0]) {
		return
	}
	if 2*square > len(rows) && (len(rows) < hatchSome || spacing > hatchMostMM) {
		return
	}
	// Runs of rows that follow each other at the spacing or a few times it.
	start := 0
	flush := func(end int) {
		distinct := 1
		for i := start + 1; i < end; i++ {
			if rows[i].offset-rows[i-1].offset > 0.05 {
				distinct++
			}
		}
		if distinct >= hatchLeast {
			for _, r := range rows[start:end] {
				marked[r.k] = true
			}
		}
		start = end
	}
	for i := 1; i < len(rows); i++ {
		d := (rows[i].offset - rows[i-1].offset) / spacing
		n := math.Round(d)
		if math.Abs(d-n) > math.Max(hatchEven, 0.05/spacing) || n > 3 {
			flush(i)
		}
	}
	flush(len(rows))
}
