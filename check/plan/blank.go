package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// layout is a way to take the part from stock: a rectangle, the stock it comes
// from, and the cuts that this needs.
type layout struct {
	blank      Blank
	frame      frame
	l, w       float64
	cuts       []Cut
	inner      []int // straight features that no straight cut through the blank makes
	sides      map[int]EdgeKind
	outside    bool // the blank comes cut by a process beside the machines
	grade      station.Grade
	rank       int // bar, strip, plate
	longestRun float64
	stockMM    float64 // width of the flat that a strip comes from
}

// directions gives unit vectors along which the blank may lie: along straight
// pieces of the hull, longest first; at most six. A part without any lies as drawn.
func (pl *planner) directions() []geom.Point {
	type dir struct {
		u   geom.Point
		len float64
	}
	var all []dir
	for _, e := range pl.hull {
		if e.IsArc() || e.Length() < 1e-3 {
			continue
		}
		u := e.To.Sub(e.From).Unit()
		// Turned into the first quarter: a rectangle looks the same after a quarter turn.
		for !(u.X > 1e-9 && u.Y >= -1e-9) {
			u = u.Left()
		}
		merged := false
		for i := range all {
			c := all[i].u.Cross(u)
			if math.Abs(c) < 2e-4 { // 0.01 degree
				all[i].len += e.Length()
				merged = true
				break
			}
		}
		if !merged {
			all = append(all, dir{u, e.Length()})
		}
	}
	if len(all) == 0 {
		return []geom.Point{{X: 1}}
	}
	slices.SortStableFunc(all, func(a, b dir) int {
		if c := cmp.Compare(math.Round(b.len*1e3), math.Round(a.len*1e3)); c != 0 {
			return c
		}
		return cmp.Compare(math.Round(a.u.Y*1e6), math.Round(b.u.Y*1e6))
	})
	var us []geom.Point
	for _, d := range all[:min(len(all), 6)] {
		us = append(us, d.u)
	}
	return us
}

// box gives the rectangle round the part along u.
func (pl *planner) box(u geom.Point) (f frame, l, w float64) {
	v := u.Left()
	x0, x1 := -pl.hull.Support(u.Mul(-1)), pl.hull.Support(u)
	y0, y1 := -pl.hull.Support(v.Mul(-1)), pl.hull.Support(v)
	return frame{origin: u.Mul(x0).Add(v.Mul(y0)), u: u, v: v}, x1 - x0, y1 - y0
}

// turnedFrame lays the length of a rectangle across.
func turnedFrame(f frame, l, w float64) (frame, float64, float64) {
	return frame{origin: f.origin.Add(f.u.Mul(l)), u: f.v, v: f.u.Mul(-1)}, w, l
}

// chooseBlank sets the blank, its cuts and the alternatives.
func (pl *planner) chooseBlank() {
	var all []layout
	us := pl.directions()
	if arc, ok := pl.isDisc(); ok && !pl.job.BlankGiven {
		all = append(all, pl.discLayout(us[0], arc))
	} else {
		for _, u := range us {
			all = append(all, pl.layoutsAlong(u)...)
		}
	}
	// A strip at an odd angle that wastes metal is no way to take a part.
	least := math.Inf(1)
	for i := range all {
		least = min(least, all[i].l*all[i].w)
	}
	all = slices.DeleteFunc(all, func(ly layout) bool { return ly.blank.Form == "strip" && ly.l*ly.w > wasteShare*least })
	for i := range all {
		ly := &all[i]
		for _, a := range ly.blank.Aspects {
			ly.grade = max(ly.grade, a.Grade)
		}
		for _, c := range ly.cuts {
			ly.grade = max(ly.grade, c.Use.Grade())
		}
		if ly.grade == station.Remark {
			ly.grade = station.OK
		}
		if len(ly.inner) > 0 {
			ly.grade = max(ly.grade, station.Fail)
		}
	}
	slices.SortStableFunc(all, func(a, b layout) int {
		return cmp.Or(
			cmp.Compare(a.grade, b.grade),
			cmp.Compare(a.rank, b.rank),
			cmp.Compare(len(a.cuts), len(b.cuts)),
			cmp.Compare(a.stockMM, b.stockMM),
			cmp.Compare(math.Round(a.l*a.w), math.Round(b.l*b.w)),
			cmp.Compare(math.Round(b.longestRun*1e3), math.Round(a.longestRun*1e3)),
			cmp.Compare(math.Round(b.l*1e3), math.Round(a.l*1e3)),
			cmp.Compare(math.Round(a.blank.AngleRad*1e6), math.Round(b.blank.AngleRad*1e6)),
		)
	})
	pl.tellOther(all)
	pl.layout = all[0]
	pl.out.Blank = all[0].blank
	seen := map[string]bool{all[0].blank.Form + all[0].blank.Stock: true}
	for _, ly := range all[1:] {
		k := ly.blank.Form + ly.blank.Stock
		if !seen[k] && len(pl.out.Alternatives) < 3 {
			seen[k] = true
			pl.out.Alternatives = append(pl.out.Alternatives, ly.blank)
		}
	}
}

// tellOther adds to an assumed blank what the other reading would give, where
// the two differ.
func (pl *planner) tellOther(all []layout) {
	b := &all[0].blank
	if !b.Assumed || pl.prof.Stock.Stated {
		return
	}
	for i := range all[1:] {
		o := &all[1+i]
		if o.blank.Form == b.Form || o.grade == all[0].grade {
			continue
		}
		for _, c := range o.cuts {
			if c.Use.Grade() == o.grade && o.grade > station.Remark {
				b.Aspects[0].Text += fmt.Sprintf("; taken from %s, %s", o.blank.Form, limiting(machineUse(c)).Text)
				return
			}
		}
	}
}

// wasteShare is how much larger than the least blank a strip may be; shop
// practice.
const wasteShare = 1.2

func (pl *planner) newLayout(form string, f frame, l, w float64, rank int) layout {
	a := math.Atan2(f.u.Y, f.u.X)
	if a < -1e-9 {
		a += math.Pi
	}
	if a > math.Pi-1e-9 {
		a -= math.Pi
	}
	if math.Abs(a) < 1e-9 {
		a = 0
	}
	run := 0.0
	for _, e := range pl.part.Outline {
		if !e.IsArc() && math.Abs(e.To.Sub(e.From).Unit().Cross(f.u)) < 2e-4 {
			run = max(run, e.Length())
		}
	}
	b := Blank{Form: form, WidthMM: w, LengthMM: l, AngleRad: a}
	for i, p := range rectangle(l, w) {
		b.Corners[i] = f.out(p)
	}
	return layout{blank: b, frame: f, l: l, w: w, rank: rank, longestRun: run, sides: map[int]EdgeKind{}}
}

// straights lists the features that are straight pieces of the outline.
func (pl *planner) straights() []int {
	var is []int
	for i := range pl.part.Features {
		switch f := &pl.part.Features[i]; f.Kind {
		case features.StraightCut, features.CornerClip:
			is = append(is, i)
		}
	}
	return is
}
