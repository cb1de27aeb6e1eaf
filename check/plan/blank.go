package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"burrside/check/station"
)

// layout is a way to take the part from stock: a placing, the stock it comes
// from, and the cuts that this needs, first the lead ones.
type layout struct {
	*placing
	blank   Blank
	lead    []step
	rest    *cutList
	low     EdgeKind // of what lies on the blank's low side; "" a cut makes it
	high    EdgeKind
	ends    EdgeKind
	outside bool  // the blank comes cut by a process beside the machines
	first   *step // the cut for want of which it is
	grade   station.Grade
	rank    int     // bar, strip, plate
	stockMM float64 // width of the flat that a strip comes from
}

// each gives the cuts in order.
func (ly *layout) each(do func(*step)) {
	for i := range ly.lead {
		do(&ly.lead[i])
	}
	if ly.rest != nil {
		for i := range ly.rest.steps {
			do(&ly.rest.steps[i])
		}
	}
}

// cuts is how many cuts there are.
func (ly *layout) cuts() int {
	n := len(ly.lead)
	if ly.rest != nil {
		n += len(ly.rest.steps)
	}
	return n
}

// sides tells the straight features that the blank or a neighbour's cut makes.
func (ly *layout) sides() map[int]EdgeKind {
	sides := map[int]EdgeKind{}
	n := ly.need()
	put := func(is []int, kind EdgeKind) {
		for _, i := range is {
			if kind != "" {
				sides[i] = kind
			}
		}
	}
	put(n.low, ly.low)
	put(n.high, ly.high)
	put(n.left, ly.ends)
	put(n.right, ly.ends)
	if ly.rest != nil {
		put(ly.rest.sheared, EdgeSheared)
	}
	return sides
}

// worst is the worst grade of the cuts.
func (pl *planner) worst(ly *layout) station.Grade {
	g := station.OK
	for i := range ly.lead {
		one, _ := pl.gradeOf(&ly.lead[i])
		g = max(g, one)
	}
	if ly.rest != nil {
		g = max(g, station.Grade(pl.stands(ly.rest)[0]))
	}
	return g
}

// chooseBlank sets the blank, its cuts and the alternatives.
func (pl *planner) chooseBlank() {
	var all []layout
	if pl.prep.disc != nil && !pl.job.BlankGiven {
		all = append(all, pl.discLayout(pl.prep.disc))
	} else {
		for i := range pl.prep.dirs {
			all = append(all, pl.layoutsAlong(pl.prep.dirs[i])...)
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
		ly.grade = max(ly.grade, pl.worst(ly))
		if ly.grade == station.Remark {
			ly.grade = station.OK
		}
		if n := ly.need(); len(n.inner)+len(n.many) > 0 {
			ly.grade = max(ly.grade, station.Fail)
		}
	}
	slices.SortStableFunc(all, func(a, b layout) int {
		return cmp.Or(
			cmp.Compare(a.grade, b.grade),
			cmp.Compare(a.rank, b.rank),
			cmp.Compare(a.cuts(), b.cuts()),
			cmp.Compare(a.stockMM, b.stockMM),
			cmp.Compare(math.Round(a.l*a.w), math.Round(b.l*b.w)),
			cmp.Compare(math.Round(b.run*1e3), math.Round(a.run*1e3)),
			cmp.Compare(math.Round(b.l*1e3), math.Round(a.l*1e3)),
			cmp.Compare(math.Round(a.blank.AngleRad*1e6), math.Round(b.blank.AngleRad*1e6)),
		)
	})
	pl.tellOther(all)
	pl.tellBought(&all[0])
	pl.layout = &all[0]
	pl.sides = pl.layout.sides()
	if pl.layout.outside && pl.layout.first != nil && pl.layout.blank.Aspects[0].Grade == station.Care {
		for i, k := range pl.sides {
			if k == EdgeUnknown {
				pl.sides[i] = EdgeThermal
			}
		}
	}
	pl.out.Blank = all[0].blank
	pl.layout.each(func(s *step) { pl.out.Cuts = append(pl.out.Cuts, pl.judge(s)) })
	pl.square()
	seen := map[string]bool{all[0].blank.Form + all[0].blank.Stock: true}
	for i := range all[1:] {
		ly := &all[1+i]
		k := ly.blank.Form + ly.blank.Stock
		if !seen[k] && len(pl.out.Alternatives) < 3 {
			seen[k] = true
			pl.tellBought(ly)
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
		var worst *step
		o.each(func(s *step) {
			if g, _ := pl.gradeOf(s); worst == nil && g == o.grade && g > station.Remark {
				worst = s
			}
		})
		if worst != nil {
			b.Aspects[0].Text += fmt.Sprintf("; taken from %s, %s", o.blank.Form, limiting(machineUse(pl.judge(worst))).Text)
			return
		}
	}
}

// wasteShare is how much larger than the least blank a strip may be; shop
// practice.
const wasteShare = 1.2

func newLayout(form string, g *placing, rank int) layout {
	return layout{placing: g, rank: rank,
		blank: Blank{Form: form, WidthMM: g.w, LengthMM: g.l, AngleRad: g.angle, Corners: g.corners}}
}
