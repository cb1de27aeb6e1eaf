package features

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// What was taken out of the lines of the drawing, in the sheet's count of what
// is no geometry.
const (
	dimensionTaken = "exploded dimension"
	centreTaken    = "centre line"
	hatchTaken     = "hatch line"
	dashTaken      = "dash of a line"
)

// mostLineWork is how many edges are looked through; more are a map or a mesh.
const mostLineWork = 500_000

// lineWork is the drawing's lines before they are joined, with what is needed
// to tell lines that stand for no edge: which ends are free and what passes
// where.
type lineWork struct {
	b     *builder
	owner []int32     // item by input
	in    []int32     // inputs looked at, by edge
	edges []geom.Edge // the same
	meet  meeting
	first []int32 // by place: its ends in ends, one more entry ends the last
	ends  []int32
	gap   []bool // by end: the joiner closes a gap there
	taken []bool
	side  float64 // longer side of the box about all

	byPlace *geom.Index // over edges, once it is asked for
}

// takeLineWork takes out lines that are drawn beside a part and on it but are
// no edge of it: dashes, dimensions in pieces, centre marks, hatching, letters.
func (b *builder) takeLineWork() error {
	b.markThreads()
	w := lineWork{b: b, owner: b.itemOfInput()}
	w.in = b.cutInputs(w.owner)
	w.edges = make([]geom.Edge, len(w.in))
	var box geom.Box
	for k, in := range w.in {
		e := &b.inputs[in].Edge
		w.edges[k] = *e
		if k == 0 {
			box = geom.BoxOf(e.From)
		}
		if e.IsArc() {
			box = box.Union(e.Bounds())
		} else {
			box = box.Add(e.From).Add(e.To)
		}
	}
	if len(w.edges) > 1 && len(w.edges) <= mostLineWork {
		w.side = size(box)
		w.meet = b.meetEnds(w.in)
		w.listEnds()
		w.gap = b.gappedEnds(w.in, &w.meet)
		w.taken = make([]bool, len(w.edges))
		for _, take := range []func() error{w.dashes, w.dimensions, w.centreMarks, w.leaders, w.hatching} {
			if err := take(); err != nil {
				return err
			}
			if err := b.ctx.Err(); err != nil {
				return err
			}
		}
	}
	return b.takeLetters(&w)
}

// index is over the edges. A drawing of plain contours never asks for it.
func (w *lineWork) index() *geom.Index {
	if w.byPlace == nil {
		w.byPlace = geom.NewIndex(w.edges, w.side/16)
	}
	return w.byPlace
}

// listEnds lists the ends at each place.
func (w *lineWork) listEnds() {
	w.first = make([]int32, len(w.meet.count)+1)
	for p, n := range w.meet.count {
		w.first[p+1] = w.first[p] + n
	}
	w.ends = make([]int32, len(w.meet.at))
	fill := slices.Clone(w.first)
	for end, p := range w.meet.at {
		w.ends[fill[p]] = int32(end)
		fill[p]++
	}
}

// turnsOff tells whether line j ends at p, where line d ends, and does not run
// along it.
func (w *lineWork) turnsOff(j, d int, p geom.Point) bool {
	if j == d || w.end(j, 0).Dist(p) > 2*figureSnapMM && w.end(j, 1).Dist(p) > 2*figureSnapMM {
		return false
	}
	sine, _ := sineCosine(w.edges[j].StartDir(), w.edges[d].StartDir())
	return w.edges[j].IsArc() || !(sine < 1e-3)
}

// free tells whether nothing else ends where an edge does.
func (w *lineWork) free(k, end int) bool {
	return w.meet.count[w.meet.at[2*k+end]] == 1
}

// alone tells whether an edge ends free and will stay so: no gap to another edge
// is closed there.
func (w *lineWork) alone(k, end int) bool { return w.free(k, end) && !w.gap[2*k+end] }

func (w *lineWork) end(k, end int) geom.Point {
	if end == 0 {
		return w.edges[k].From
	}
	return w.edges[k].To
}

// isLine tells whether an edge is a line that was not taken yet.
func (w *lineWork) isLine(k int) bool { return !w.taken[k] && !w.edges[k].IsArc() }

// near yields the edges within reach of a place, taken ones left out.
func (w *lineWork) near(p geom.Point, reach float64, yield func(k int)) {
	for k := range w.index().Near(geom.Box{Min: p, Max: p}.Grow(reach)) {
		if !w.taken[k] && w.edges[k].Dist(p) <= reach {
			yield(k)
		}
	}
}

// finish turns the entities of which every edge is marked into noise of a kind,
// and remembers the edges as taken. An entity that is marked in part stays.
func (w *lineWork) finish(marked map[int]bool, what string, strength strength) (infos []int32) {
	b := w.b
	byItem := map[int32]int{}
	for k := range marked {
		byItem[w.owner[w.in[k]]]++
	}
	for k := range w.edges {
		item := w.owner[w.in[k]]
		if !marked[k] || byItem[item] != b.start[item+1]-b.start[item] {
			continue
		}
		w.taken[k] = true
		it := &b.items[item]
		it.class, it.strength, it.what, it.order = classNoise, strength, what, 0
		infos = append(infos, it.info)
		for s := range 2 {
			w.meet.count[w.meet.at[2*k+s]]--
		}
	}
	return infos
}

// direction is the unit vector of a line from one of its ends to the other.
func (w *lineWork) direction(k, from int) geom.Point {
	d := w.edges[k].To.Sub(w.edges[k].From).Unit()
	if from == 1 {
		d = d.Mul(-1)
	}
	return d
}

// sineCosine gives sine and cosine of the angle between two lines, without sign.
func sineCosine(d, e geom.Point) (sine, cosine float64) {
	return math.Abs(d.Cross(e)), math.Abs(d.Dot(e))
}
