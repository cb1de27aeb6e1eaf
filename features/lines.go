package features

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"burrside/features/geom"
)

// endReachMM is how near the end of a dashed line must be to the outline to
// end on it; a centre line overshoots or stops short by more.
const endReachMM = 0.1

// placeLines gives bends and marks to the parts that they lie on.
func (b *builder) placeLines() error {
	for _, ld := range b.loopDoubts {
		if o := b.owner[ld.loop]; o >= 0 {
			b.drafts[o].doubts = append(b.drafts[o].doubts, ld.doubt)
		}
	}
	if err := b.placeBends(); err != nil {
		return err
	}
	b.placeMarks()
	b.placeLetters()
	b.placeDashRuns()
	return b.placeDashed()
}

// placeBends makes a bend of every declared line, collinear pieces joined.
func (b *builder) placeBends() error {
	lines := b.bendLines
	for i := range b.items {
		it := &b.items[i]
		if it.class != classBend || it.back {
			continue
		}
		for _, in := range b.inputs[b.start[i]:b.start[i+1]] {
			lines = append(lines, cutLine{pieces: []piece{{edge: in.Edge, sources: []int32{in.Source}, style: in.Style}}, loop: -1, why: "its layer"})
		}
	}
	var straight []cutLine
	curved := 0
	var src []int32
	for _, l := range lines {
		if !isStraightRun(l.pieces) {
			curved++
			src = append(src, flatSources(l.pieces)...)
			continue
		}
		straight = append(straight, l)
	}
	if curved > 0 {
		b.note(Note{Code: "bend-not-straight", Count: curved, Source: sourcesOf(src), Text: fmt.Sprintf("%d lines declared as bends are not straight and were left out", curved)})
	}
	outside := 0
	for _, l := range mergeCollinear(straight) {
		a, z := l.pieces[0].edge.From, l.pieces[len(l.pieces)-1].edge.To
		d := b.draftOf(l, mid(a, z))
		if d < 0 {
			outside++
			continue
		}
		b.addBend(d, l)
	}
	if outside > 0 {
		b.ignored["bend line outside the parts"] += outside
	}
	return nil
}

func (b *builder) draftOf(l cutLine, p geom.Point) int {
	if l.loop >= 0 && b.roles[l.loop] == roleOutline {
		return b.owner[l.loop]
	}
	if d := b.partAt(p); d >= 0 {
		return d
	}
	// The middle may lie in a hole that the line runs over.
	a, z := l.pieces[0].edge.From, l.pieces[len(l.pieces)-1].edge.To
	for _, share := range []float64{0.25, 0.75, 0.1, 0.9, 0.4, 0.6, 0.02, 0.98} {
		if d := b.partAt(a.Add(z.Sub(a).Mul(share))); d >= 0 {
			return d
		}
	}
	return -1
}

func (b *builder) addBend(d int, l cutLine) {
	a, z := clipped(b.loops[b.drafts[d].outline].ring, l.pieces[0].edge.From, l.pieces[len(l.pieces)-1].edge.To)
	if comparePlace(a, z) > 0 {
		a, z = z, a
	}
	f := Feature{Kind: Bend, At: mid(a, z), From: a, To: z, LengthMM: a.Dist(z), Hole: -1,
		Open: geom.Ring{geom.LineEdge(a, z)}, Source: sourcesOf(flatSources(l.pieces))}
	f.Note = "a bend by " + l.why
	b.drafts[d].lines = append(b.drafts[d].lines, f)
	if l.byStyle {
		b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-bend", At: f.At, Source: f.Source,
			Text: fmt.Sprintf("a line across the part was taken for a bend by %s", l.why)})
	}
}

// clipped ends a line at an outline where it runs past it: what lies beyond is
// no metal.
func clipped(outline geom.Ring, a, z geom.Point) (geom.Point, geom.Point) {
	outA, outZ := outline.Inside(a, touchMM) == geom.Out, outline.Inside(z, touchMM) == geom.Out
	if !outA && !outZ {
		return a, z
	}
	line := geom.LineEdge(a, z)
	first, last := z, a
	some := false
	for _, e := range outline {
		for _, p := range geom.Intersect(line, e, touchMM).Points {
			some = true
			if p.Dist(a) < first.Dist(a) {
				first = p
			}
			if p.Dist(a) > last.Dist(a) {
				last = p
			}
		}
	}
	if !some {
		return a, z
	}
	if outA {
		a = first
	}
	if outZ {
		z = last
	}
	return a, z
}

// mergeCollinear joins straight runs that continue each other within 0.01 mm.
func mergeCollinear(lines []cutLine) []cutLine {
	ends := func(l *cutLine) (geom.Point, geom.Point) {
		return l.pieces[0].edge.From, l.pieces[len(l.pieces)-1].edge.To
	}
	for i := range lines {
		a, z := ends(&lines[i])
		if comparePlace(a, z) > 0 {
			slices.Reverse(lines[i].pieces)
			for k := range lines[i].pieces {
				lines[i].pieces[k].edge = lines[i].pieces[k].edge.Reverse()
			}
		}
	}
	sort.SliceStable(lines, func(i, j int) bool {
		ai, zi := ends(&lines[i])
		aj, zj := ends(&lines[j])
		if c := comparePlace(ai, aj); c != 0 {
			return c < 0
		}
		return comparePlace(zi, zj) < 0
	})
	// Every run looks for the ones that end where it begins.
	byEnd := map[[2]int64][]int{}
	cell := func(p geom.Point) [2]int64 {
		return [2]int64{int64(math.Round(p.X * 50)), int64(math.Round(p.Y * 50))}
	}
	var out []cutLine
	for _, l := range lines {
		a, z := ends(&l)
		joined := false
		c := cell(a)
	search:
		for dx := int64(-1); dx <= 1; dx++ {
			for dy := int64(-1); dy <= 1; dy++ {
				for _, k := range byEnd[[2]int64{c[0] + dx, c[1] + dy}] {
					oa, oz := ends(&out[k])
					if oz.Dist(a) > 0.01 || out[k].loop != l.loop || geom.LineEdge(oa, z).Dist(a) > 0.01 {
						continue
					}
					out[k].pieces = append(out[k].pieces, l.pieces...)
					byEnd[cell(z)] = append(byEnd[cell(z)], k)
					joined = true
					break search
				}
			}
		}
		if !joined {
			l.pieces = slices.Clone(l.pieces)
			out = append(out, l)
			byEnd[cell(z)] = append(byEnd[cell(z)], len(out)-1)
		}
	}
	return out
}

// placeMarks makes a mark of every connected figure of declared mark lines.
func (b *builder) placeMarks() {
	var edges []piece
	for i := range b.items {
		it := &b.items[i]
		if it.class != classMark || it.back || it.what == lettersTaken {
			continue
		}
		for _, in := range b.inputs[b.start[i]:b.start[i+1]] {
			edges = append(edges, piece{edge: in.Edge, sources: []int32{in.Source}})
		}
	}
	outside := 0
	for _, fig := range connected(edges, 1e-3) {
		box := fig[0].edge.Bounds()
		length := 0.0
		open := make(geom.Ring, len(fig))
		for i, p := range fig {
			box = box.Union(p.edge.Bounds())
			length += p.edge.Length()
			open[i] = p.edge
		}
		d := b.partAt(fig[0].edge.Mid())
		if d < 0 {
			outside++
			continue
		}
		b.drafts[d].lines = append(b.drafts[d].lines, Feature{Kind: Mark, At: box.Centre(), LengthMM: length, Hole: -1, Open: open, Source: sourcesOf(flatSources(fig))})
	}
	if outside > 0 {
		b.ignored["mark outside the parts"] += outside
	}
}

// connected groups edges whose ends meet within tol. Groups and their edges
// are ordered by place.
func connected(edges []piece, tol float64) [][]piece {
	slices.SortStableFunc(edges, func(p, q piece) int {
		if c := comparePlace(p.edge.Bounds().Min, q.edge.Bounds().Min); c != 0 {
			return c
		}
		return comparePlace(p.edge.Mid(), q.edge.Mid())
	})
	group := newGroups(len(edges))
	cells := map[[2]int64]int{}
	for i, p := range edges {
		for _, e := range [2]geom.Point{p.edge.From, p.edge.To} {
			cx, cy := int64(math.Floor(e.X/tol)), int64(math.Floor(e.Y/tol))
			for dx := int64(-1); dx <= 1; dx++ {
				for dy := int64(-1); dy <= 1; dy++ {
					if k, ok := cells[[2]int64{cx + dx, cy + dy}]; ok {
						group.unite(k, i)
					}
				}
			}
			cells[[2]int64{cx, cy}] = i
		}
	}
	var out [][]piece
	for _, list := range group.members() {
		var run []piece
		for _, i := range list {
			run = append(run, edges[i])
		}
		out = append(out, run)
	}
	return out
}

// placeDashed looks among the dashed lines that were left out for those that
// run from edge to edge exactly: they are bends, or the hidden edge of another
// leg.
func (b *builder) placeDashed() error {
	index := make([]*geom.Index, len(b.drafts))
	n := 0
	for i := range b.items {
		it := &b.items[i]
		if it.strength != strong || it.class != classNoise || it.back {
			continue
		}
		for _, in := range b.inputs[b.start[i]:b.start[i+1]] {
			if in.Edge.IsArc() {
				continue
			}
			if n++; n%256 == 0 && b.ctx.Err() != nil {
				return b.ctx.Err()
			}
			a, z := in.Edge.From, in.Edge.To
			m := mid(a, z)
			d := b.partAt(m)
			if d < 0 {
				continue
			}
			o := &b.loops[b.drafts[d].outline]
			if index[d] == nil {
				index[d] = geom.NewIndex(o.ring, 0)
			}
			// Lines along an edge, a hidden chamfer for one, cross nothing.
			if !near(index[d], a, endReachMM) || !near(index[d], z, endReachMM) || near(index[d], m, 0.5) {
				continue
			}
			l := cutLine{pieces: []piece{{edge: in.Edge, sources: []int32{in.Source}}}, loop: b.drafts[d].outline, why: "its " + it.what + " pattern", byStyle: true}
			if maybeLeg(o, in.Edge) {
				b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "line-unexplained", Grave: true, At: m, Source: sourcesOf([]int32{in.Source}),
					Text: "a dashed line runs along the part near its long edge: it may be the thickness of an angle's other leg, or a bend"})
				continue
			}
			b.addBend(d, l)
		}
	}
	return nil
}

func near(x *geom.Index, p geom.Point, reach float64) bool {
	_, _, dist := x.Nearest(p, reach)
	return dist <= reach
}

// maybeLeg tells whether a line runs parallel to the part's long side over 90
// per cent of its length and within 0.3 of its width from it.
func maybeLeg(o *loop, e geom.Edge) bool {
	r := geom.LeastRectangle(o.ring)
	if r.Width <= 0 || r.Height <= 0 || e.Length() < 0.9*r.Width {
		return false
	}
	s, c := math.Sincos(r.AngleRad)
	long := geom.Point{X: c, Y: s}
	if math.Abs(long.Cross(e.StartDir())) > 0.01 {
		return false
	}
	off := math.Abs(long.Cross(e.Mid().Sub(r.Centre)))
	return r.Height/2-off <= 0.3*r.Height
}
