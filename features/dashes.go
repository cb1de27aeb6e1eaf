package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// Limits of dashes drawn as lines of their own.
const (
	dashLeast     = 4    // dashes
	dashGapShare  = 0.15 // of the shortest dash: smaller gaps are joints left for the cutter
	dashGapMost   = 3.5  // of the shortest dash
	dashEven      = 1.15 // between the greatest and the least gap, and between equal dashes
	dashOffMM     = 0.02
	dashOffSine   = 0.005
	dashRowsLeast = 3 // rows side by side are a pattern of slits, not dashes
)

// dashRun is a line drawn as dashes.
type dashRun struct {
	edge geom.Edge
	what string
	info []int32
	// dashes are its pieces, as they were drawn.
	dashes []geom.Edge
	// taken tells that it is the thickness of an angle's other leg.
	taken bool
}

// dashes finds lines and circles that were drawn as many little lines with
// equal gaps. They count as dashed lines do; what runs from edge to edge is
// looked at again when the parts are known.
func (w *lineWork) dashes() error {
	n := len(w.edges)
	next := make([]int32, 2*n) // end to end, -1 none
	for i := range next {
		next[i] = -1
	}
	var alone []int32 // ends
	for k := range w.edges {
		for s := range 2 {
			if w.aloneDash(k, s) && !w.edges[k].IsCircle() {
				alone = append(alone, int32(2*k+s))
			}
		}
	}
	if len(alone) < 2*dashLeast-2 {
		return nil
	}
	for i, end := range alone {
		if i%1024 == 0 && w.b.ctx.Err() != nil {
			return w.b.ctx.Err()
		}
		next[end] = w.dashBeyond(int(end/2), int(end%2))
	}
	// Only what looks at each other counts.
	mutual := func(e int32) int32 {
		if o := next[e]; o >= 0 && next[o] == e {
			return o
		}
		return -1
	}
	var runs [][]int
	seen := make([]bool, n)
	for k := range w.edges {
		if seen[k] || mutual(int32(2*k)) >= 0 && mutual(int32(2*k+1)) >= 0 {
			continue
		}
		run := []int{k}
		seen[k] = true
		out := int32(2*k + 1)
		if mutual(out) < 0 {
			out = int32(2 * k)
		}
		for o := mutual(out); o >= 0 && !seen[o/2]; o = mutual(out) {
			run = append(run, int(o/2))
			seen[o/2] = true
			out = o ^ 1
		}
		if len(run) >= dashLeast {
			runs = append(runs, run)
		}
	}
	// Circles of dashes have no first one.
	for k := range w.edges {
		if seen[k] || mutual(int32(2*k)) < 0 {
			continue
		}
		run := []int{k}
		seen[k] = true
		for o := mutual(int32(2*k + 1)); o >= 0 && !seen[o/2]; o = mutual(o ^ 1) {
			run = append(run, int(o/2))
			seen[o/2] = true
		}
		if len(run) >= dashLeast && w.edges[k].IsArc() {
			runs = append(runs, run)
		}
	}
	w.takeDashes(runs)
	return nil
}

// dashBeyond is the end of the nearest edge that goes on where an edge ends,
// after a gap; -1 none.
func (w *lineWork) dashBeyond(k, s int) int32 {
	e := &w.edges[k]
	at := w.end(k, s)
	length := e.Length()
	reach := dashGapMost * length
	best, gap := int32(-1), math.Inf(1)
	var dir geom.Point
	if s == 1 {
		dir = e.EndDir()
	} else {
		dir = e.StartDir().Mul(-1)
	}
	box := geom.BoxOf(at, at.Add(dir.Mul(reach)))
	if e.IsArc() {
		reach = math.Min(reach, e.Radius)
		box = geom.Box{Min: at, Max: at}.Grow(reach)
	}
	for j := range w.index().Near(box.Grow(dashOffMM)) {
		f := &w.edges[j]
		if j == k || w.taken[j] || f.IsArc() != e.IsArc() || f.IsCircle() {
			continue
		}
		if e.IsArc() && (f.Centre.Dist(e.Centre) > dashOffMM || math.Abs(f.Radius-e.Radius) > dashOffMM) {
			continue
		}
		for t := range 2 {
			if !w.aloneDash(j, t) {
				continue
			}
			p := w.end(j, t)
			d := p.Sub(at)
			g := d.Len()
			if g <= figureSnapMM || g >= gap || g > reach || d.Dot(dir) <= 0 {
				continue
			}
			if !e.IsArc() {
				other := w.end(j, 1-t)
				if math.Abs(d.Cross(dir)) > dashOffMM || math.Abs(other.Sub(at).Cross(dir)) > dashOffMM+dashOffSine*other.Dist(at) || other.Sub(p).Dot(dir) <= 0 {
					continue
				}
			}
			best, gap = int32(2*j+t), g
		}
	}
	return best
}

// dashPattern tells what dashes stand for: "centre line" for long and short
// ones in turn, "hidden line" for equal ones, "" if they are uneven.
func (w *lineWork) dashPattern(run []int) string {
	var lengths []float64
	for _, k := range run {
		lengths = append(lengths, w.edges[k].Length())
	}
	gaps := w.dashGaps(run)
	inner := lengths[1 : len(lengths)-1]
	short, long := slices.Min(inner), slices.Max(inner)
	if g, h := slices.Min(gaps), slices.Max(gaps); h > dashEven*g+dashOffMM || g < dashGapShare*short || h > dashGapMost*short {
		return ""
	}
	// The outer ones may be drawn out to the end of the line, over a gap.
	if slices.Max(lengths) > dashEven*long+slices.Max(gaps)+dashOffMM {
		return ""
	}
	if long <= dashEven*short {
		return "hidden line"
	}
	// Each dash is long or short, and there is no run of two long ones.
	for i, l := range inner {
		isLong, isShort := l*dashEven >= long, l <= dashEven*short
		if !isLong && !isShort || i > 0 && isLong && inner[i-1]*dashEven >= long {
			return ""
		}
	}
	return "centre line"
}

func (w *lineWork) takeDashes(runs [][]int) {
	b := w.b
	type found struct {
		run  []int
		edge geom.Edge
		what string
	}
	var list []found
	for _, run := range runs {
		what, gap := w.dashPatternOf(run)
		if what == "" {
			continue
		}
		run = w.withDashEnds(run, gap)
		e := w.edges[run[0]]
		if e.IsArc() {
			if len(run) < dashLeast+2 {
				continue
			}
			e = geom.CircleEdge(e.Centre, e.Radius)
		} else {
			// From the outer end of the first to that of the last.
			a, z := w.edges[run[0]], w.edges[run[len(run)-1]]
			from, to := a.From, z.From
			if a.To.Dist(z.Mid()) > from.Dist(z.Mid()) {
				from = a.To
			}
			if z.To.Dist(a.Mid()) > to.Dist(a.Mid()) {
				to = z.To
			}
			e = geom.LineEdge(from, to)
		}
		list = append(list, found{run, e, what})
	}
	inRun := map[int]bool{}
	for i := range list {
		for _, k := range list[i].run {
			inRun[k] = true
		}
	}
	isDash := func(k int) bool { return inRun[k] }
	slits := make([]bool, len(list))
	for i := range list {
		f := &list[i]
		if f.what == "hidden line" && !f.edge.IsArc() {
			rows := 1
			for k := range list {
				g := &list[k]
				if k == i || g.edge.IsArc() || g.what != f.what {
					continue
				}
				if s, _ := sineCosine(f.edge.StartDir(), g.edge.StartDir()); s < 0.01 && f.edge.Dist(g.edge.Mid()) < f.edge.Length()/4 && !w.walled(f.edge, g.edge, isDash) {
					rows++
				}
			}
			slits[i] = rows >= dashRowsLeast
		}
	}
	marked := map[int]bool{}
	for i := range list {
		f := &list[i]
		if slits[i] {
			f.what = ""
			continue
		}
		for _, k := range f.run {
			marked[k] = true
		}
	}
	if len(marked) == 0 {
		return
	}
	infos := w.finish(marked, dashTaken, sure)
	count := 0
	at := geom.Point{}
	for i := range list {
		f := &list[i]
		if f.what == "" || !w.taken[f.run[0]] {
			continue
		}
		d := dashRun{edge: f.edge, what: f.what}
		for _, k := range f.run {
			d.info = append(d.info, b.items[w.owner[w.in[k]]].info)
			d.dashes = append(d.dashes, w.edges[k])
		}
		slices.Sort(d.info)
		slices.SortFunc(d.dashes, func(p, q geom.Edge) int { return comparePlace(p.Mid(), q.Mid()) })
		b.dashRuns = append(b.dashRuns, d)
		if count == 0 || comparePlace(f.edge.Bounds().Min, at) < 0 {
			at = f.edge.Bounds().Min
		}
		count++
	}
	slices.SortStableFunc(b.dashRuns, func(p, q dashRun) int {
		if c := comparePlace(p.edge.Bounds().Min, q.edge.Bounds().Min); c != 0 {
			return c
		}
		return comparePlace(p.edge.Bounds().Max, q.edge.Bounds().Max)
	})
	b.note(Note{Code: "dashes-joined", At: at, HasAt: true, Count: count, Source: sourcesOf(infos),
		Text: fmt.Sprintf("short lines in rows with equal gaps were taken for dashed lines: %d", count)})
}

// placeDashRuns judges dashed lines that were drawn as dashes, as other dashed
// lines are judged: what runs from edge to edge is a bend or the hidden edge of
// a leg, a circle of equal dashes may be an opening.
func (b *builder) placeDashRuns() {
	for i := range b.dashRuns {
		r := &b.dashRuns[i]
		if r.taken {
			continue
		}
		if r.edge.IsCircle() {
			d := b.partAt(r.edge.Mid())
			if r.what == "hidden line" && d >= 0 && b.partAt(r.edge.Centre) == d {
				b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-opening", Grave: true, At: r.edge.Centre, Source: sourcesOf(r.info),
					Text: "a circle of dashes lies on the part: an opening seen from the other side, or what lies behind; it was not read"})
			}
			continue
		}
		m := r.edge.Mid()
		d := b.partAt(m)
		if d < 0 {
			// Its middle lies in an opening.
			if d = b.partAt(r.dashes[0].Mid()); d < 0 {
				continue
			}
		}
		b.doubtSlits(d, r)
		o := &b.loops[b.drafts[d].outline]
		x := geom.NewIndex(o.ring, 0)
		// A dash may end a gap short of the edge.
		reach := endReachMM
		if !near(x, r.edge.From, reach) || !near(x, r.edge.To, reach) || near(x, m, 0.5) {
			continue
		}
		if maybeLeg(o, r.edge) {
			b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "line-unexplained", Grave: true, At: m, Source: sourcesOf(r.info),
				Text: "a dashed line runs along the part near its long edge: it may be the thickness of an angle's other leg, or a bend"})
			continue
		}
		b.addBend(d, cutLine{pieces: []piece{{edge: r.edge, sources: r.info}}, loop: b.drafts[d].outline, why: "its " + r.what + " pattern", byStyle: true})
	}
}
