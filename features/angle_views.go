package features

import (
	"cmp"
	"math"
	"slices"

	"burrside/features/geom"
)

// A leg of an angle is drawn as its outline with a line near one long edge, the
// heel: there the other leg is seen from its edge, and the line's distance from
// the heel is the thickness.

const (
	// legLeastMM and legMostShare bound the distance of the line from the heel:
	// no rolled angle is thinner, none has legs of less than three thicknesses.
	legLeastMM   = 2.0
	legMostShare = 0.3
	// legCoverShare is how much of the leg's length the line must run along.
	legCoverShare = 0.9
	// legCopedShare is the least that it runs along where the other leg is coped
	// away, as the other view must show.
	legCopedShare = 0.3
	// legFillShare is the least that copes and mitres leave of the rectangle
	// about the leg.
	legFillShare = 0.5
	// legSideShare is the least of a long side that lies on the heel.
	legSideShare = 0.3
	// legLineMM is how far pieces of one line may be off each other.
	legLineMM = 0.05
	// legShortShare is the least length of a leg, in its widths: cleats are
	// shorter than their legs are wide.
	legShortShare = 0.4
)

// lineKind tells where a line inside an outline was kept.
type lineKind uint8

const (
	lineDivider lineKind = iota // parts the outline in two
	lineChain                   // ends inside it
	lineHidden                  // an entity that was declared hidden
	lineDashes                  // drawn as dashes
)

// viewLine is a straight line inside an outline, and where the builder keeps
// it.
type viewLine struct {
	edge    geom.Edge
	kind    lineKind
	index   int // of the divider, chain, item or run
	sources []int32
}

// legView is an outline that may be the view of a leg.
type legView struct {
	loop          int
	along, across geom.Point // unit vectors; across is to the left of along
	from, to      float64    // reach along
	low, high     float64    // reach across
	heelHigh      bool       // the heel is the side with the greater reach across
	thickMM       float64
	lines         []viewLine // that are the thickness, or the root of the fillet
	rootMM        float64    // of the second line from the heel, 0 none
	hidden        bool       // the line is dashed or declared hidden
	others        []viewLine // other lines in the outline
	factor        float64    // true over drawn size; 0 counts as 1
	// coped tells that the line ends where the other leg may be coped away: only
	// the other view makes this one a leg's.
	coped bool
	mark  string // the number of an item that stands beside it, "" none
}

func (v *legView) lengthMM() float64 { return v.to - v.from }
func (v *legView) widthMM() float64  { return v.high - v.low }

// trueMM is a drawn length at true size.
func (v *legView) trueMM(drawn float64) float64 {
	if v.factor > 0 {
		return drawn * v.factor
	}
	return drawn
}

// at is the place with these distances along and across.
func (v *legView) at(along, across float64) geom.Point {
	return v.along.Mul(along).Add(v.across.Mul(across))
}

// heel is the line of the heel from the left, or the lower, end.
func (v *legView) heel() [2]geom.Point {
	c := v.low
	if v.heelHigh {
		c = v.high
	}
	return [2]geom.Point{v.at(v.from, c), v.at(v.to, c)}
}

// toe is the unit vector from the heel to the toe.
func (v *legView) toe() geom.Point {
	if v.heelHigh {
		return v.across.Mul(-1)
	}
	return v.across
}

// mostLegViews is how many outlines a sheet may have to be searched for legs:
// one of more is a nest, which shows no views.
const mostLegViews = 400

// findLegViews lists the outlines that may be views of legs, by place.
func (b *builder) findLegViews() ([]legView, error) {
	b.settleChildren()
	var tops []int
	for i := range b.loops {
		if l := &b.loops[i]; !l.dead && !l.toolMark && l.parent < 0 {
			tops = append(tops, i)
		}
	}
	if len(tops) == 0 || len(tops) > mostLegViews {
		return nil, nil
	}
	slices.SortStableFunc(tops, b.compareLoops)
	lines, err := b.linesIn(tops, false)
	if err != nil {
		return nil, err
	}
	var views []legView
	for _, i := range tops {
		if len(lines[i]) == 0 {
			continue
		}
		if v, ok := b.legViewOf(i, lines[i]); ok {
			v.factor = b.factorOf(i)
			views = append(views, v)
		}
	}
	return views, nil
}

// linesIn lists the straight lines inside each of some outlines, those that are
// declared as bends only if asked for.
func (b *builder) linesIn(tops []int, bends bool) (map[int][]viewLine, error) {
	out := map[int][]viewLine{}
	holder := func(e geom.Edge) int {
		m := e.Mid()
		for _, i := range tops {
			if l := &b.loops[i]; l.box.Grow(legLineMM).ContainsBox(e.Bounds()) && l.ring.Inside(m, 1e-6) == geom.In &&
				l.ring.Inside(e.From, legLineMM) != geom.Out && l.ring.Inside(e.To, legLineMM) != geom.Out {
				return i
			}
		}
		return -1
	}
	for i := range b.joined.Dividers {
		d := &b.joined.Dividers[i]
		pieces := b.pieces(d.Pieces)
		if d.Contour < 0 || d.Contour >= len(b.loops) || !isStraightRun(pieces) {
			continue
		}
		if !slices.Contains(tops, d.Contour) || !bends && b.bendNoteBeside(pieces[0].edge.From, pieces[len(pieces)-1].edge.To) != "" {
			continue
		}
		out[d.Contour] = append(out[d.Contour], viewLine{geom.LineEdge(pieces[0].edge.From, pieces[len(pieces)-1].edge.To), lineDivider, i, flatSources(pieces)})
	}
	add := func(e geom.Edge, kind lineKind, index int, sources []int32) {
		if e.IsArc() || e.Length() < legLeastMM {
			return
		}
		if i := holder(e); i >= 0 {
			out[i] = append(out[i], viewLine{e, kind, index, sources})
		}
	}
	for i := range b.joined.Chains {
		if pieces := b.pieces(b.joined.Chains[i].Pieces); isStraightRun(pieces) {
			add(geom.LineEdge(pieces[0].edge.From, pieces[len(pieces)-1].edge.To), lineChain, i, flatSources(pieces))
		}
	}
	for i := range b.items {
		if i%1024 == 0 && b.ctx.Err() != nil {
			return nil, b.ctx.Err()
		}
		it := &b.items[i]
		if it.back || !(it.class == classNoise && isHiddenWhat(it.what)) && !(bends && it.class == classBend) {
			continue
		}
		for _, in := range b.inputs[b.start[i]:b.start[i+1]] {
			add(in.Edge, lineHidden, i, []int32{in.Source})
		}
	}
	for i := range b.dashRuns {
		if r := &b.dashRuns[i]; isHiddenWhat(r.what) {
			add(r.edge, lineDashes, i, r.info)
		}
	}
	for i := range out {
		slices.SortStableFunc(out[i], func(p, q viewLine) int {
			if c := comparePlace(p.edge.Bounds().Min, q.edge.Bounds().Min); c != 0 {
				return c
			}
			return comparePlace(p.edge.Bounds().Max, q.edge.Bounds().Max)
		})
	}
	return out, nil
}

// isHiddenWhat tells whether lines that were set aside stand for hidden edges.
func isHiddenWhat(what string) bool { return what == "hidden line" || what == "hidden line layer" }

// legViewOf looks for the thickness of another leg in an outline.
func (b *builder) legViewOf(i int, lines []viewLine) (legView, bool) {
	l := &b.loops[i]
	along, ok := longDirection(l.ring)
	if !ok {
		return legView{}, false
	}
	for _, least := range [2]float64{legCoverShare, legCopedShare} {
		for _, u := range [2]geom.Point{along, upright(along.Left())} {
			if v, ok := legAlong(l, u, lines, least); ok {
				v.loop, v.coped = i, least < legCoverShare
				return v, true
			}
		}
	}
	return legView{}, false
}

// longDirection is the direction of the longest straight edge, to the right or
// straight up; edges of one direction count together.
func longDirection(r geom.Ring) (geom.Point, bool) {
	var dirs []geom.Point
	var sums []float64
	best := -1
	for _, e := range r {
		if e.IsArc() {
			continue
		}
		u := upright(e.StartDir())
		k := slices.IndexFunc(dirs, func(d geom.Point) bool { return math.Abs(d.Cross(u)) < 1e-4 })
		if k < 0 {
			if len(dirs) > 200 {
				return geom.Point{}, false
			}
			k = len(dirs)
			dirs, sums = append(dirs, u), append(sums, 0)
		}
		sums[k] += e.Length()
		if best < 0 || sums[k] > sums[best]*(1+1e-9) {
			best = k
		}
	}
	if best < 0 {
		return geom.Point{}, false
	}
	return dirs[best], true
}

// upright turns a direction to the right, or straight up, and onto an axis that
// it is nearly on.
func upright(u geom.Point) geom.Point {
	switch {
	case math.Abs(u.Y) < 1e-7:
		return geom.Point{X: 1}
	case math.Abs(u.X) < 1e-7:
		return geom.Point{Y: 1}
	case u.X < 0:
		return u.Mul(-1)
	}
	return u
}

// legAlong looks for the thickness along one direction, as a line that covers at
// least a share of the length.
func legAlong(l *loop, u geom.Point, lines []viewLine, least float64) (legView, bool) {
	n := u.Left()
	v := legView{along: u, across: n,
		from: -l.ring.Support(u.Mul(-1)), to: l.ring.Support(u), low: -l.ring.Support(n.Mul(-1)), high: l.ring.Support(n)}
	if v.lengthMM() < legShortShare*v.widthMM() || l.area < legFillShare*v.lengthMM()*v.widthMM() {
		return v, false
	}
	found := 0
	for _, high := range [2]bool{false, true} {
		side, in := v.low, 1.0
		if high {
			side, in = v.high, -1
		}
		if lengthOn(l.ring, u, n, side) < legSideShare*v.lengthMM() {
			continue
		}
		byOff := map[int64][]int{} // lines by their distance from the side
		var offs []float64
		for k := range lines {
			e := lines[k].edge
			off := in * (e.Mid().Dot(n) - side)
			if math.Abs(e.StartDir().Cross(u)) > 1e-3 || off < legLeastMM-legLineMM || off > legMostShare*v.widthMM()+legLineMM {
				continue
			}
			at := slices.IndexFunc(offs, func(o float64) bool { return math.Abs(o-off) <= legLineMM })
			if at < 0 {
				at = len(offs)
				offs = append(offs, off)
			}
			byOff[int64(at)] = append(byOff[int64(at)], k)
		}
		order := make([]int, len(offs))
		for k := range order {
			order[k] = k
		}
		slices.SortFunc(order, func(x, y int) int { return cmp.Compare(offs[x], offs[y]) })
		var use []int
		for _, k := range order {
			if coverShare(l.ring, u, n, side+in*offs[k], lines, byOff[int64(k)]) >= least {
				use = append(use, k)
			}
		}
		if len(use) == 0 {
			continue
		}
		if found++; len(use) > 2 {
			return v, false
		}
		v.heelHigh, v.thickMM = high, math.Round(offs[use[0]]*1e4)/1e4
		v.lines, v.others = nil, nil
		if len(use) == 2 {
			v.rootMM = math.Round((offs[use[1]]-offs[use[0]])*1e4) / 1e4
		}
		mine := map[int]bool{}
		for _, k := range use {
			for _, x := range byOff[int64(k)] {
				mine[x] = true
			}
		}
		for k := range lines {
			if mine[k] {
				v.lines = append(v.lines, lines[k])
				v.hidden = v.hidden || lines[k].kind >= lineHidden
			} else {
				v.others = append(v.others, lines[k])
			}
		}
	}
	// A line near both long sides is seen in a channel's web.
	return v, found == 1
}

// lengthOn is how much of an outline lies on one side of the rectangle about
// it.
func lengthOn(r geom.Ring, u, n geom.Point, side float64) float64 {
	sum := 0.0
	for _, e := range r {
		if !e.IsArc() && math.Abs(e.From.Dot(n)-side) <= legLineMM && math.Abs(e.To.Dot(n)-side) <= legLineMM {
			sum += math.Abs(e.To.Sub(e.From).Dot(u))
		}
	}
	return sum
}

// coverShare is how much of the metal there some lines at one distance across
// run along; 0 where the metal is less than half of the length.
func coverShare(r geom.Ring, u, n geom.Point, at float64, lines []viewLine, which []int) float64 {
	// At a cope the line may run on the outline: a little to both sides.
	metal := meetSpans(metalOn(r, u, n, at-4*legLineMM), metalOn(r, u, n, at+4*legLineMM))
	all := spanLength(metal)
	if all < (r.Support(u)+r.Support(u.Mul(-1)))/2 {
		return 0
	}
	edges := make([]geom.Edge, len(which))
	for i, k := range which {
		edges[i] = lines[k].edge
	}
	return spanLength(meetSpans(metal, spansOf(edges, u))) / all
}

// spansOf is what straight edges cover along a direction.
func spansOf(edges []geom.Edge, u geom.Point) []reach {
	var out []reach
	for _, e := range edges {
		p, q := e.From.Dot(u), e.To.Dot(u)
		out = append(out, reach{min(p, q), max(p, q)})
	}
	return unionSpans(out)
}

// reach is a stretch along a line.
type reach struct{ from, to float64 }

func spanLength(s []reach) float64 {
	sum := 0.0
	for _, x := range s {
		sum += x.to - x.from
	}
	return sum
}

func unionSpans(s []reach) []reach {
	slices.SortFunc(s, func(a, b reach) int { return cmp.Compare(a.from, b.from) })
	var out []reach
	for _, x := range s {
		if k := len(out) - 1; k >= 0 && x.from <= out[k].to {
			out[k].to = max(out[k].to, x.to)
			continue
		}
		out = append(out, x)
	}
	return out
}

func meetSpans(a, b []reach) []reach {
	var out []reach
	for _, x := range a {
		for _, y := range b {
			if f, t := max(x.from, y.from), min(x.to, y.to); t > f {
				out = append(out, reach{f, t})
			}
		}
	}
	return out
}

// metalOn gives the stretches of a line inside an outline.
func metalOn(r geom.Ring, u, n geom.Point, at float64) []reach {
	from, to := -r.Support(u.Mul(-1))-1, r.Support(u)+1
	line := geom.LineEdge(u.Mul(from).Add(n.Mul(at)), u.Mul(to).Add(n.Mul(at)))
	cuts := []float64{from, to}
	for _, e := range r {
		for _, p := range geom.Intersect(line, e, 1e-6).Points {
			cuts = append(cuts, p.Dot(u))
		}
	}
	slices.Sort(cuts)
	var out []reach
	for i := 1; i < len(cuts); i++ {
		if m := (cuts[i-1] + cuts[i]) / 2; cuts[i]-cuts[i-1] > 1e-6 && r.Inside(u.Mul(m).Add(n.Mul(at)), 1e-9) == geom.In {
			out = append(out, reach{cuts[i-1], cuts[i]})
		}
	}
	return out
}
