package features

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// Limits of two views of one angle.
const (
	pairLengthMM = 0.2  // by which their lengths, starts and ends may differ
	pairHeelMM   = 0.3  // by which the ends of their heels may differ where one leg is cut away
	pairThickMM  = 0.05 // by which the thicknesses may differ, and a hundredth of them
	pairGap      = 3.0  // most space between them, in widths of the wider leg
	pairMost     = 1.0  // cost, the gap left out, from which two views are no pair
	pairUnnamed  = 0.3  // cost if texts name sections and none is theirs
	pairClear    = 0.5  // by which the best way must be better than the next one
	pairSearch   = 12   // views that are tried in all ways
	legEqualMM   = 0.1  // by which equal legs may differ
)

// legPair is two views that may show one angle, with how badly they fit.
type legPair struct {
	a, b int // in the list of views, a < b
	cost float64
	gap  float64 // in widths
}

// angleDraft is an angle on its way: its views, leg a first.
type angleDraft struct {
	from   string // "two views", "one view"
	legs   [2]legView
	facing bool // the heel of leg b is on the side of leg a's view
	named  []namedSection
	end    bool    // an end view shows its section
	rootMM float64 // of the end view
	// flat is of a developed view, else nil.
	flat  *flatView
	scale Scale // of its views
}

// takeAngles finds the views of angles and takes the lines in them that are the
// thickness of the other leg.
func (b *builder) takeAngles() error {
	views, err := b.findLegViews()
	if err != nil {
		return err
	}
	named := b.namedSections()
	if len(views) == 0 {
		return b.takeFlatViews(named)
	}
	b.markViews(views)
	paired := make([]bool, len(views))
	unclear := make([]bool, len(views))
	pairs := b.legPairs(views, named)
	group := newGroups(len(views))
	for _, p := range pairs {
		group.unite(p.a, p.b)
	}
	for _, members := range group.members() {
		if len(members) < 2 {
			continue
		}
		var own []legPair
		for _, p := range pairs {
			if group.root(p.a) == group.root(members[0]) {
				own = append(own, p)
			}
		}
		chosen, clear := bestPairs(own, len(members))
		if !clear {
			for _, i := range members {
				unclear[i] = true
			}
			continue
		}
		for _, p := range chosen {
			paired[p.a], paired[p.b] = true, true
			if plate := b.plateTextOf(&views[p.a], &views[p.b], named); plate != "" {
				for _, i := range []int{p.a, p.b} {
					b.doubtLegView(&views[i], fmt.Sprintf("the text %q states the thickness of a plate, and none names an angle", clip(plate)))
				}
				continue
			}
			b.takeShadows(&views[p.a], &views[p.b])
			b.takeShadows(&views[p.b], &views[p.a])
			endTogether(&views[p.a], &views[p.b])
			b.angles = append(b.angles, newAngleDraft(views[p.a], views[p.b]))
		}
	}
	ends := b.takeEndViews(views, paired)
	b.nameAngles(views, paired, unclear, named, ends)
	if err := b.takeFlatViews(named); err != nil {
		return err
	}
	for i := range b.angles {
		for k := range b.angles[i].legs {
			if v := &b.angles[i].legs[k]; v.loop >= 0 {
				b.loops[v.loop].leg = true
				b.takeLegLines(v)
			}
		}
	}
	return nil
}

// nameAngles ties the named sections to the pairs, and to the views that stand
// alone: one whose sizes a text names is an angle of which one leg is drawn.
func (b *builder) nameAngles(views []legView, paired, unclear []bool, named, ends []namedSection) {
	var groups [][]geom.Box
	for i := range b.angles {
		legs := &b.angles[i].legs
		groups = append(groups, []geom.Box{b.loops[legs[0].loop].box, b.loops[legs[1].loop].box})
	}
	pairs := len(groups)
	var alone []int
	for i := range views {
		if !paired[i] && !views[i].coped {
			alone = append(alone, i)
			groups = append(groups, []geom.Box{b.loops[views[i].loop].box})
		}
	}
	said := sectionsFor(named, groups)
	for g := range pairs {
		b.angles[g].named = said[g]
	}
	saidAlone := make([][]namedSection, len(alone))
	for k := range alone {
		saidAlone[k] = append(said[pairs+k][:len(said[pairs+k]):len(said[pairs+k])], ends...)
	}
	for k, i := range alone {
		v := &views[i]
		if unclear[i] {
			b.doubtLegView(v, "more than one outline beside this one may be the other view of the same angle")
			continue
		}
		a, ok := oneView(v, saidAlone[k])
		switch {
		case ok && mateOf(views, alone, saidAlone, k) >= 0, !ok && isHiddenAlone(v):
			b.doubtLegView(v, whyAlone(views, i, paired))
		case ok:
			b.angles = append(b.angles, a)
		}
	}
}

// isHiddenAlone tells whether the line of a view is hidden by its layer or its
// linetype. Where it ends short of the edges, nothing else would see it; dashes
// may be slits and are judged with the parts.
func isHiddenAlone(v *legView) bool {
	return !slices.ContainsFunc(v.lines, func(l viewLine) bool { return l.kind != lineHidden })
}

// doubtLegView doubts an outline that may be the view of a leg, and takes the
// line in it, so that it is doubted once.
func (b *builder) doubtLegView(v *legView, why string) {
	var src []int32
	for _, l := range v.lines {
		src = append(src, l.sources...)
	}
	b.loopDoubts = append(b.loopDoubts, loopDoubt{v.loop, Doubt{Code: "line-unexplained", Grave: true, At: v.lines[0].edge.Mid(), Source: sourcesOf(src),
		Text: fmt.Sprintf("a line runs along the part %s mm from its long edge: it may be the thickness of an angle's other leg, or a bend; %s", shortNumber(v.trueMM(v.thickMM)), why)}})
	b.takeLegLines(v)
}

// oneView makes an angle of one view if a text names its section: the leg that
// is drawn is the one whose width fits, of equal legs leg a. The other one lies
// beside it as a plain rectangle.
func oneView(v *legView, named []namedSection) (angleDraft, bool) {
	for i := range named {
		m := &named[i].m
		long, short := max(m.LegMM[0], m.LegMM[1]), min(m.LegMM[0], m.LegMM[1])
		if m.ThicknessMM > 0 && math.Abs(m.ThicknessMM-v.trueMM(v.thickMM)) > sectionThickMM {
			continue
		}
		a := angleDraft{from: "one view", facing: true, named: []namedSection{named[i]}, end: named[i].end}
		switch {
		case math.Abs(v.trueMM(v.widthMM())-long) <= sectionLegMM:
			a.legs = [2]legView{*v, v.beside(short / v.trueMM(1))}
		case math.Abs(v.trueMM(v.widthMM())-short) <= sectionLegMM:
			a.legs = [2]legView{v.beside(long / v.trueMM(1)), *v}
		default:
			continue
		}
		return a, true
	}
	return angleDraft{}, false
}

// beside is a leg that is not drawn, on the other side of the heel.
func (v *legView) beside(widthMM float64) legView {
	o := *v
	o.loop, o.heelHigh = -1, !v.heelHigh
	if v.heelHigh {
		o.low, o.high = v.high, v.high+widthMM
	} else {
		o.low, o.high = v.low-widthMM, v.low
	}
	return o
}

// legPairs lists the pairs that are possible.
func (b *builder) legPairs(views []legView, named []namedSection) []legPair {
	var out []legPair
	for i := range views {
		for k := i + 1; k < len(views); k++ {
			if p, ok := b.pairOf(views, i, k, named); ok {
				out = append(out, p)
			}
		}
	}
	return out
}

func (b *builder) pairOf(views []legView, i, k int, named []namedSection) (legPair, bool) {
	v, w := &views[i], &views[k]
	if math.Abs(v.along.Cross(w.along)) > 1e-4 || v.factor != w.factor {
		return legPair{}, false
	}
	// Both are measured in the frame of the first.
	off := b.endsApart(v, w)
	gap := max(v.low-w.high, w.low-v.high)
	wide := max(v.widthMM(), w.widthMM())
	thick := math.Abs(v.thickMM - w.thickMM)
	if off > pairHeelMM || gap <= 0 || gap > pairGap*wide || thick > pairThickMM+0.01*min(v.thickMM, w.thickMM) {
		return legPair{}, false
	}
	if v.otherItem(w) || v.coped && !b.lineIsOf(v, w) || w.coped && !b.lineIsOf(w, v) {
		return legPair{}, false
	}
	p := legPair{a: i, b: k, gap: gap / wide}
	p.cost = off + thick/min(v.thickMM, w.thickMM)
	if b.liesBetween(v, w, views) {
		p.cost += 0.3
	}
	if v.hidden != w.hidden {
		p.cost += 0.2
	}
	if len(named) > 0 && !slices.ContainsFunc(named, func(n namedSection) bool {
		return n.fits(v.trueMM(v.widthMM()), w.trueMM(w.widthMM()), v.trueMM(v.thickMM))
	}) {
		p.cost += pairUnnamed
	}
	return p, p.cost < pairMost
}

// liesBetween tells whether another outline stands between two views.
func (b *builder) liesBetween(v, w *legView, views []legView) bool {
	lo, hi := min(v.high, w.high), max(v.low, w.low)
	for i := range b.loops {
		l := &b.loops[i]
		if l.dead || l.toolMark || l.parent >= 0 || i == v.loop || i == w.loop {
			continue
		}
		c := l.box.Centre()
		if x, y := c.Dot(v.along), c.Dot(v.across); x > v.from && x < v.to && y > lo && y < hi {
			return true
		}
	}
	return false
}

// bestPairs chooses the pairs of a group of views that fit best together: as
// many as there can be, and of those the least cost. clear tells that every
// other choice is worse by pairClear.
func bestPairs(pairs []legPair, views int) (chosen []legPair, clear bool) {
	slices.SortStableFunc(pairs, func(p, q legPair) int { return cmp.Compare(p.cost+p.gap, q.cost+q.gap) })
	if views > pairSearch {
		return greedyPairs(pairs)
	}
	// A view left alone costs more than any pair.
	const alone = pairMost + pairGap
	best, second := math.Inf(1), math.Inf(1)
	used := map[int]bool{}
	var walk func(at int, cost float64, left int, picked []legPair)
	walk = func(at int, cost float64, left int, picked []legPair) {
		if at == len(pairs) {
			switch total := cost + alone*float64(left); {
			case total < best:
				best, second = total, best
				chosen = slices.Clone(picked)
			case total < second:
				second = total
			}
			return
		}
		if p := pairs[at]; !used[p.a] && !used[p.b] {
			used[p.a], used[p.b] = true, true
			walk(at+1, cost+p.cost+p.gap, left-2, append(picked, p))
			used[p.a], used[p.b] = false, false
		}
		walk(at+1, cost, left, picked)
	}
	walk(0, 0, views, nil)
	return chosen, second-best >= pairClear
}

// greedyPairs takes the best pair, and the best of what is left. It is clear if
// no pair that was passed over is nearly as good for both of its views.
func greedyPairs(pairs []legPair) (chosen []legPair, clear bool) {
	with := map[int]float64{}
	for _, p := range pairs {
		_, a := with[p.a]
		_, c := with[p.b]
		if !a && !c {
			chosen = append(chosen, p)
			with[p.a], with[p.b] = p.cost+p.gap, p.cost+p.gap
		}
	}
	for _, p := range pairs {
		if slices.Contains(chosen, p) {
			continue
		}
		a, hasA := with[p.a]
		c, hasC := with[p.b]
		if !hasA || !hasC || p.cost+p.gap < max(a, c)+pairClear {
			return nil, false
		}
	}
	return chosen, true
}

// newAngleDraft orders two views: leg a is the longer; of equal legs the upper
// view, else the left one.
func newAngleDraft(v, w legView) angleDraft {
	swap := false
	if d := w.widthMM() - v.widthMM(); math.Abs(d) > legEqualMM {
		swap = d > 0
	} else {
		c, e := v.at((v.from+v.to)/2, (v.low+v.high)/2), w.at((w.from+w.to)/2, (w.low+w.high)/2)
		if math.Abs(c.Y-e.Y) > pairLengthMM {
			swap = e.Y > c.Y
		} else {
			swap = e.X < c.X
		}
	}
	if swap {
		v, w = w, v
	}
	away := v.at(0, (v.low+v.high)/2).Sub(w.at(0, (w.low+w.high)/2)) // from b to a
	return angleDraft{from: "two views", legs: [2]legView{v, w}, facing: w.toe().Dot(away) < 0}
}

// shadowThick is the most that the end of a leg cut at a slant reaches along,
// in thicknesses: an end 75 degrees off square.
const shadowThick = 3.75

// takeShadows lists among a view's lines those that the slant end of the other
// leg throws: square to the heel, no further from the end than the cut goes
// through the thickness.
func (b *builder) takeShadows(v, other *legView) {
	r := b.loops[other.loop].ring
	for _, end := range [2]float64{v.from, v.to} {
		if lengthOn(r, v.across, v.along, end) > 0.95*other.widthMM() {
			continue // cut square
		}
		var left []viewLine
		for _, l := range v.others {
			at := math.Abs(l.edge.Mid().Dot(v.along) - end)
			if math.Abs(l.edge.StartDir().Dot(v.along)) < 1e-3 && at <= shadowThick*v.thickMM+legLineMM {
				v.lines = append(v.lines, l)
				continue
			}
			left = append(left, l)
		}
		v.others = left
	}
	b.takeEdgeShadows(v, other)
}

// takeLegLines takes out the lines in a view that are the other leg's, so that
// nothing else is read from them.
func (b *builder) takeLegLines(v *legView) {
	for _, l := range v.lines {
		b.keepLegLine(v, l.sources)
		switch l.kind {
		case lineDivider:
			b.joined.Dividers[l.index].Contour = -1
		case lineChain:
			b.joined.Chains[l.index].Pieces = nil
		case lineHidden:
			b.items[l.index].class, b.items[l.index].strength = classNoise, sure
		case lineDashes:
			b.dashRuns[l.index].taken = true
		}
	}
}
