package features

import (
	"fmt"
	"math"

	"burrside/features/geom"
	"burrside/features/section"
)

// endView is the section of an angle, drawn as it is seen from its end.
type endView struct {
	loop    int
	legMM   [2]float64 // true, as all sizes of it are
	thickMM float64
	rootMM  float64 // radius of the fillet, 0 sharp
}

// endViews finds the outlines that have the shape of an angle's section.
func (b *builder) endViews() []endView {
	var out []endView
	for i := range b.loops {
		l := &b.loops[i]
		if l.dead || l.toolMark || l.leg || l.parent >= 0 || len(l.children) > 0 {
			continue
		}
		if v, ok := sectionOf(l.ring); ok {
			v.loop = i
			f := b.factorOf(i)
			v.legMM, v.thickMM, v.rootMM = [2]float64{f * v.legMM[0], f * v.legMM[1]}, f*v.thickMM, f*v.rootMM
			out = append(out, v)
		}
	}
	return out
}

// Limits of an angle's section.
const (
	sectionEdges = 16   // edges, radii included
	sectionOuter = 0.7  // of a leg that its straight outside takes up, radii at heel and toe left out
	sectionInner = 0.3  // the same for its inside: the fillet and the other leg go off
	sectionArea  = 0.06 // by which radii may change the area
)

// sectionOf tells whether an outline is the section of an angle: two legs of one
// thickness at a right angle, with radii or without.
func sectionOf(ring geom.Ring) (endView, bool) {
	r := ring.Simplify(simplifyMM)
	u, ok := longDirection(r)
	if !ok || len(r) < 6 || len(r) > sectionEdges {
		return endView{}, false
	}
	dirs := [2]geom.Point{u, u.Left()}
	var reach [2][2]float64 // by direction: least, most
	for k, d := range dirs {
		reach[k] = [2]float64{-r.Support(d.Mul(-1)), r.Support(d)}
	}
	legs := [2]float64{reach[0][1] - reach[0][0], reach[1][1] - reach[1][0]}
	for corner := range 4 {
		heel := [2]int{corner & 1, corner >> 1} // which end of each direction the heel is at
		var thick [2]float64
		whole := true
		for k := range dirs {
			// The leg along direction k has its outside at the heel's end of the
			// other direction, and its inside a thickness further in.
			n, side := dirs[1-k], reach[1-k][heel[1-k]]
			if lengthOn(r, dirs[k], n, side) < sectionOuter*legs[k] {
				whole = false
				break
			}
			for _, e := range r {
				off := math.Abs(e.Mid().Dot(n) - side)
				if !e.IsArc() && math.Abs(e.StartDir().Dot(n)) < 1e-3 && e.Length() >= sectionInner*legs[k] && off > legLineMM && off < legMostShare*legs[1-k]+legLineMM {
					thick[k] = off
				}
			}
		}
		t := (thick[0] + thick[1]) / 2
		if !whole || thick[0] == 0 || thick[1] == 0 || math.Abs(thick[0]-thick[1]) > pairThickMM+0.01*t {
			continue
		}
		v := endView{legMM: legs, thickMM: t}
		v.rootMM = rootOf(r, dirs, reach, heel, t)
		area := t*(legs[0]+legs[1]-t) + (1-math.Pi/4)*v.rootMM*v.rootMM
		if math.Abs(r.Area()-area) <= sectionArea*area {
			return v, true
		}
	}
	return endView{}, false
}

// rootOf is the radius of the fillet: of the hollow arc that touches the insides
// of both legs, 0 if their corner is sharp. Other hollows are at the toes.
func rootOf(r geom.Ring, dirs [2]geom.Point, reach [2][2]float64, heel [2]int, t float64) float64 {
	for _, e := range r {
		if !e.IsArc() || e.CCW {
			continue
		}
		inside := true
		for k, d := range dirs {
			off := math.Abs(e.Centre.Dot(d) - reach[k][heel[k]])
			inside = inside && math.Abs(off-t-e.Radius) <= pairThickMM+0.01*t
		}
		if inside {
			return e.Radius
		}
	}
	return 0
}

// fits tells whether an end view is that of two legs.
func (e *endView) fits(leg1, leg2, thick float64) bool {
	n := namedSection{m: section.Mention{LegMM: e.legMM, ThicknessMM: e.thickMM}}
	return n.fits(leg1, leg2, thick)
}

// takeEndViews takes out the end views of the angles found, and gives those for
// the views that stand alone as sections that the drawing names.
func (b *builder) takeEndViews(views []legView, paired []bool) []namedSection {
	var out []namedSection
	for _, e := range b.endViews() {
		l := &b.loops[e.loop]
		of := false
		for i := range b.angles {
			a := &b.angles[i]
			if e.fits(a.legs[0].trueMM(a.legs[0].widthMM()), a.legs[1].trueMM(a.legs[1].widthMM()), a.legs[0].trueMM(a.legs[0].thickMM)) {
				of, a.end = true, true
				a.rootMM = max(a.rootMM, e.rootMM)
			}
		}
		for i := range views {
			v := &views[i]
			if w := v.trueMM(v.widthMM()); !paired[i] && math.Abs(v.trueMM(v.thickMM)-e.thickMM) <= sectionThickMM && (math.Abs(w-e.legMM[0]) <= sectionLegMM || math.Abs(w-e.legMM[1]) <= sectionLegMM) {
				of = true
				out = append(out, namedSection{m: section.Mention{LegMM: e.legMM, ThicknessMM: e.thickMM}, at: l.box.Centre(), end: true, rootMM: e.rootMM})
				break
			}
		}
		if !of {
			continue
		}
		b.takenBoxes = append(b.takenBoxes, l.box)
		l.dead = true
		b.note(Note{Code: "end-view", At: l.box.Min, HasAt: true, Source: l.sources(),
			Text: fmt.Sprintf("the outline of %s x %s mm was taken for the section of an angle, %s mm thick", shortNumber(e.legMM[0]), shortNumber(e.legMM[1]), shortNumber(e.thickMM))})
	}
	b.settleChildren()
	return out
}
