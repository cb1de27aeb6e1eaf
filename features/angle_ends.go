package features

import (
	"math"

	"burrside/features/geom"
)

// Two views of one angle begin and end together, or, where a leg is cut away at
// the heel and the other one ends there, the heels in both do.

// heelReach is the reach along of what lies on the heel in an outline.
func (v *legView) heelReach(r geom.Ring) (from, to float64) {
	side := v.low
	if v.heelHigh {
		side = v.high
	}
	from, to = math.Inf(1), math.Inf(-1)
	for _, e := range r {
		if e.IsArc() || math.Abs(e.From.Dot(v.across)-side) > legLineMM || math.Abs(e.To.Dot(v.across)-side) > legLineMM {
			continue
		}
		p, q := e.From.Dot(v.along), e.To.Dot(v.along)
		from, to = min(from, p, q), max(to, p, q)
	}
	return from, to
}

// endsApart is how far the ends of two views are apart, the worse end; at an end
// where the outlines do not end together, the ends of their heels count.
func (b *builder) endsApart(v, w *legView) float64 {
	vFrom, vTo := v.heelReach(b.loops[v.loop].ring)
	wFrom, wTo := w.heelReach(b.loops[w.loop].ring)
	apart := func(box, heel float64) float64 {
		if box = math.Abs(box); box <= pairLengthMM || !(math.Abs(heel) <= pairHeelMM) {
			return box
		}
		return math.Abs(heel)
	}
	return max(apart(v.from-w.from, vFrom-wFrom), apart(v.to-w.to, vTo-wTo))
}

// endTogether lets two views that do not end together begin and end where the
// longer does: one place along the heel is then as far from both starts.
func endTogether(v, w *legView) {
	if math.Abs(v.from-w.from) <= pairLengthMM && math.Abs(v.to-w.to) <= pairLengthMM {
		return
	}
	v.from, v.to = min(v.from, w.from), max(v.to, w.to)
	w.from, w.to = v.from, v.to
}

// mateShare is how much of the longer of two views must lie beside the other
// one if they may show one angle.
const mateShare = 0.5

// mayBelong tells whether two views that are no pair may still be of one angle:
// they lie beside each other and show one thickness.
func mayBelong(v, w *legView) bool {
	if !besideViews(v, w) || v.otherItem(w) {
		return false
	}
	thick := math.Abs(v.thickMM - w.thickMM)
	return thick <= pairThickMM+0.01*min(v.thickMM, w.thickMM)
}

// besideViews tells whether two parallel views stand beside each other as the
// views of one angle do.
func besideViews(v, w *legView) bool {
	if math.Abs(v.along.Cross(w.along)) > 1e-4 || v.factor != w.factor {
		return false
	}
	gap := max(v.low-w.high, w.low-v.high)
	both := min(v.to, w.to) - max(v.from, w.from)
	return gap > 0 && gap <= pairGap*max(v.widthMM(), w.widthMM()) && both >= mateShare*max(v.lengthMM(), w.lengthMM())
}

// whyAlone tells why a view was left alone.
func whyAlone(views []legView, i int, paired []bool) string {
	why := "no text names a section and no second view stands beside it"
	for k := range views {
		if k == i || paired[k] || !besideViews(&views[i], &views[k]) {
			continue
		}
		if mayBelong(&views[i], &views[k]) {
			return "the outline beside it, which may be the view of the other leg, does not begin and end where this one does"
		}
		why = "no text names a section, and in the outline beside it the line lies " + shortNumber(views[k].trueMM(views[k].thickMM)) + " mm from the edge"
	}
	return why
}

// mateOf is another view that was left alone and may be of the same angle as
// this one, -1 none. Two that are named by a text each are two angles.
func mateOf(views []legView, alone []int, said [][]namedSection, k int) int {
	v := &views[alone[k]]
	for j, i := range alone {
		if j == k || !mayBelong(v, &views[i]) || ownText(said[k], said[j]) && ownText(said[j], said[k]) {
			continue
		}
		for _, n := range append(said[k][:len(said[k]):len(said[k])], said[j]...) {
			if n.fits(v.trueMM(v.widthMM()), v.trueMM(views[i].widthMM()), v.trueMM(v.thickMM)) {
				return i
			}
		}
	}
	return -1
}

// ownText tells whether a text is among the first that is not among the others.
func ownText(mine, others []namedSection) bool {
	for i := range mine {
		own := !mine[i].end
		for k := range others {
			own = own && (others[k].end || others[k].text != mine[i].text)
		}
		if own {
			return true
		}
	}
	return false
}
