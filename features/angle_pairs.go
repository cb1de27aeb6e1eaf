package features

import (
	"cmp"
	"math"
	"slices"
)

// Limits of two views of one angle.
const (
	pairLengthMM = 0.2  // by which their lengths, starts and ends may differ
	pairThickMM  = 0.05 // by which the thicknesses may differ, and a hundredth of them
	pairGap      = 3.0  // most space between them, in widths of the wider leg
	pairMost     = 1.0  // cost, the gap left out, from which two views are no pair
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
	legs   [2]legView
	facing bool // the heel of leg b is on the side of leg a's view
}

// takeAngles finds the views of angles and takes the lines in them that are the
// thickness of the other leg.
func (b *builder) takeAngles() error {
	views, err := b.findLegViews()
	if err != nil || len(views) < 2 {
		return err
	}
	pairs := b.legPairs(views)
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
			continue
		}
		for _, p := range chosen {
			b.angles = append(b.angles, newAngleDraft(views[p.a], views[p.b]))
		}
	}
	for i := range b.angles {
		for k := range b.angles[i].legs {
			v := &b.angles[i].legs[k]
			b.loops[v.loop].leg = true
			b.takeLegLines(v)
		}
	}
	return nil
}

// legPairs lists the pairs that are possible.
func (b *builder) legPairs(views []legView) []legPair {
	var out []legPair
	for i := range views {
		for k := i + 1; k < len(views); k++ {
			if p, ok := b.pairOf(views, i, k); ok {
				out = append(out, p)
			}
		}
	}
	return out
}

func (b *builder) pairOf(views []legView, i, k int) (legPair, bool) {
	v, w := &views[i], &views[k]
	if math.Abs(v.along.Cross(w.along)) > 1e-4 {
		return legPair{}, false
	}
	// Both are measured in the frame of the first.
	off := max(math.Abs(v.from-w.from), math.Abs(v.to-w.to))
	gap := max(v.low-w.high, w.low-v.high)
	wide := max(v.widthMM(), w.widthMM())
	thick := math.Abs(v.thickMM - w.thickMM)
	if off > pairLengthMM || math.Abs(v.lengthMM()-w.lengthMM()) > pairLengthMM || gap <= 0 || gap > pairGap*wide || thick > pairThickMM+0.01*min(v.thickMM, w.thickMM) {
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
	return angleDraft{legs: [2]legView{v, w}, facing: w.toe().Dot(away) < 0}
}

// takeLegLines takes out the lines in a view that are the other leg's, so that
// nothing else is read from them.
func (b *builder) takeLegLines(v *legView) {
	for _, l := range v.lines {
		switch l.kind {
		case lineDivider:
			b.joined.Dividers[l.index].Contour = -1
		case lineChain:
			b.joined.Chains[l.index].Pieces = nil
		case lineHidden:
			b.items[l.index].strength = sure
		case lineDashes:
			b.dashRuns[l.index].taken = true
		}
	}
}
