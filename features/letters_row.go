package features

import (
	"math"
	"slices"
	"sort"

	"burrside/features/geom"
)

// linesOf finds the lines of text of a group: in the direction that reads the
// most of it.
func (r *letterReader) linesOf(g []int) [][]int {
	var best [][]int
	most := 0
	whole := r.joined(g)
	edges := make([][]geom.Edge, len(whole))
	for k, figs := range whole {
		edges[k] = r.edgesOf(figs)
	}
	for _, angle := range r.directions(g) {
		lines := r.rowsAlong(whole, edges, angle)
		n := 0
		for _, l := range lines {
			n += len(l)
		}
		if n > most {
			best, most = lines, n
		}
	}
	return best
}

// edgesOf lists the edges of figures.
func (r *letterReader) edgesOf(figs []int) []geom.Edge {
	n := 0
	for _, i := range figs {
		n += len(r.figs[i].inputs)
	}
	edges := make([]geom.Edge, 0, n)
	for _, i := range figs {
		for _, in := range r.figs[i].inputs {
			edges = append(edges, r.b.inputs[in].Edge)
		}
	}
	return edges
}

// directions lists the angles along which a group may be written: along the
// axes, along its stems and bars, and along the hull about it.
func (r *letterReader) directions(g []int) []float64 {
	out := []float64{0, math.Pi / 2}
	add := func(a float64) {
		for _, o := range out {
			if math.Abs(math.Remainder(a-o, math.Pi)) < 0.01 {
				return
			}
		}
		out = append(out, a)
	}
	const bins = 90 // of a degree, mod 90
	var weight, sum [bins]float64
	shaped := slices.DeleteFunc(slices.Clone(g), func(i int) bool { return r.shape(i).punch && r.figs[i].closed })
	edges := r.edgesOf(shaped)
	for i := range edges {
		e := &edges[i]
		if e.IsArc() {
			continue
		}
		d := e.To.Sub(e.From)
		a := math.Mod(math.Atan2(d.Y, d.X)*180/math.Pi+360.25, 90)
		k := int(a) % bins
		l := d.Len()
		weight[k] += l
		sum[k] += l * (a - 0.25)
	}
	for range 2 {
		k := 0
		for i := range weight {
			if weight[i] > weight[k] {
				k = i
			}
		}
		if weight[k] > 0 {
			a := sum[k] / weight[k] * math.Pi / 180
			add(a)
			add(a + math.Pi/2)
			weight[k] = 0
		}
	}
	// What runs along the letters' feet or heads touches their hull.
	if len(edges) > 0 {
		hull := geom.HullOf(edges)
		slices.SortStableFunc(hull, func(p, q geom.Edge) int { return compareFloats(q.From.Dist(q.To), p.From.Dist(p.To)) })
		for _, e := range hull[:min(3, len(hull))] {
			d := e.To.Sub(e.From)
			add(math.Atan2(d.Y, d.X))
		}
	}
	return out
}

// spanned is a figure or a letter as it stands along a direction.
type spanned struct {
	box  geom.Box // in the turned frame: x along the line, y across it
	figs []int
	nth  int // of the group's letters
}

// compareFeet orders by the lower side of the boxes.
func compareFeet(p, q spanned) int {
	if c := compareFloats(p.box.Min.Y, q.box.Min.Y); c != 0 {
		return c
	}
	return p.nth - q.nth
}

func (s *spanned) height() float64 { return s.box.Height() }

// turnedBox is the box about some edges after a turn about the origin.
func turnedBox(edges []geom.Edge, turn geom.Motion) geom.Box {
	box := geom.BoxOf(turn.Apply(edges[0].From))
	for i := range edges {
		e := &edges[i]
		if e.IsArc() {
			box = box.Union(e.Apply(turn).Bounds())
			continue
		}
		// The loop runs over all figures of a drawing, a few times.
		for _, p := range [2]*geom.Point{&e.From, &e.To} {
			x := float64(p.X*turn.Cos) - float64(p.Y*turn.Sin)
			y := float64(p.X*turn.Sin) + float64(p.Y*turn.Cos)
			if x < box.Min.X {
				box.Min.X = x
			}
			if x > box.Max.X {
				box.Max.X = x
			}
			if y < box.Min.Y {
				box.Min.Y = y
			}
			if y > box.Max.Y {
				box.Max.Y = y
			}
		}
	}
	return box
}

// rowsAlong finds the lines of text of a group that are written along an angle.
// The edges are those of each of the whole.
func (r *letterReader) rowsAlong(whole [][]int, edges [][]geom.Edge, angle float64) [][]int {
	turn := geom.NewTurn(-angle)
	all := make([]spanned, len(whole))
	for k, figs := range whole {
		all[k] = spanned{turnedBox(edges[k], turn), figs, k}
	}
	// Rows: figures whose heights overlap. What is wider than any letter, an
	// underline for one, is none and would tie rows together.
	heights := make([]float64, len(all))
	for i := range all {
		heights[i] = all[i].height()
	}
	slices.Sort(heights)
	usual := heights[len(heights)*3/4]
	all = slices.DeleteFunc(all, func(s spanned) bool { return s.box.Width() > 1.1*letterWide*usual })
	slices.SortFunc(all, compareFeet)
	var out [][]int
	for i := 0; i < len(all); {
		top := all[i].box.Max.Y
		k := i + 1
		for k < len(all) && all[k].box.Min.Y < top-0.05*(top-all[i].box.Min.Y) {
			top = math.Max(top, all[k].box.Max.Y)
			k++
		}
		out = append(out, r.textIn(all[i:k])...)
		i = k
	}
	return out
}

func compareFloats(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// textIn finds the lines of text of one row.
func (r *letterReader) textIn(row []spanned) [][]int {
	if len(row) < letterLeast {
		return nil
	}
	slices.SortFunc(row, func(p, q spanned) int {
		if c := compareFloats(p.box.Min.X, q.box.Min.X); c != 0 {
			return c
		}
		if c := compareFloats(q.box.Width(), p.box.Width()); c != 0 {
			return c
		}
		return compareFeet(p, q)
	})
	// Letters of several figures: an eye in its letter, a dot over its stem.
	letters := make([]spanned, 0, len(row))
	for _, s := range row {
		if n := len(letters); n > 0 {
			l := &letters[n-1]
			common := math.Min(l.box.Max.X, s.box.Max.X) - s.box.Min.X
			if common >= 0.5*math.Min(l.box.Width(), s.box.Width()) && common > -1e-9 {
				l.box = l.box.Union(s.box)
				l.figs = append(l.figs, s.figs...)
				continue
			}
		}
		letters = append(letters, spanned{s.box, slices.Clip(s.figs), s.nth}) // a list of its own once it grows
	}
	if len(letters) < letterLeast {
		return nil
	}
	heights := make([]float64, len(letters))
	for i := range letters {
		heights[i] = letters[i].height()
	}
	slices.Sort(heights)
	// The height of the letters is one that the most of them share.
	h, most := 0.0, 0
	for i, x := range heights {
		lo := sort.Search(i, func(k int) bool { return x-heights[k] <= letterEqual/2*x })
		hi := i + sort.Search(len(heights)-i, func(k int) bool { return heights[i+k]-x > letterEqual/2*x })
		if n := hi - lo; n >= most {
			h, most = x, n
		}
	}
	if most < letterLeast || !(h > 0) {
		return nil
	}
	var out [][]int
	for i := 0; i < len(letters); {
		k := i + 1
		for k < len(letters) && letters[k].box.Min.X-letters[k-1].box.Max.X < letterGap*h && letters[k].box.Width() <= letterWide*h && letters[i].box.Width() <= letterWide*h {
			k++
		}
		if line := r.lineOf(letters[i:k], h); line != nil {
			out = append(out, line)
		}
		i = k
	}
	return out
}

// lineOf judges letters that stand close together: those on the base line that
// most share, if they are a line of text.
func (r *letterReader) lineOf(run []spanned, h float64) []int {
	if len(run) < letterLeast {
		return nil
	}
	var core, on []int
	base := 0.0
	// The base line is below, or above where the drawing is turned about or
	// mirrored.
	for _, below := range []bool{true, false} {
		for i := range run {
			if len(core) == len(run) {
				break // no line has more
			}
			line := run[i].box.Min.Y
			if !below {
				line = run[i].box.Max.Y
			}
			on = on[:0]
			for k := range run {
				at := run[k].box.Min.Y
				if !below {
					at = run[k].box.Max.Y
				}
				if math.Abs(at-line) <= letterBase*h && math.Abs(run[k].height()-h) <= letterEqual*h {
					on = append(on, k)
				}
			}
			if len(on) > len(core) {
				core, on, base = on, core, line
				if !below {
					base = line - h
				}
			}
		}
	}
	if len(core) < letterLeast {
		return nil
	}
	text, solid := r.isText(run, core, h)
	if !text {
		return nil
	}
	if solid && h > letterSolidMM || !r.fits(run, h) {
		r.b.keepLarge(r.inputsOf(run, core))
		return nil
	}
	var figs []int
	for i := range run {
		if run[i].box.Min.Y >= base-letterDrop*h && run[i].box.Max.Y <= base+(1+letterDrop)*h {
			figs = append(figs, run[i].figs...)
		}
	}
	return figs
}
