package plan

import (
	"fmt"
	"math"
	"slices"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
)

// makeStraight tells how a straight cut or clip is made: by the stock itself, by
// a cut of the plan, or, where no straight cut through the blank makes it, by
// another process.
func (pl *planner) makeStraight(i int) Make {
	mk := Make{Feature: i}
	for k := range pl.out.Cuts {
		c := &pl.out.Cuts[k]
		for _, j := range c.Features {
			if j == i {
				mk.Use, mk.Tried = c.Use, c.Tried
				mk.MadeBy = madeBy(c.Use)
				pl.setAlso(&mk)
				return mk
			}
		}
	}
	ly := pl.layout
	if _, ok := pl.sides[i]; !ok && pl.part.Angle != nil {
		return pl.makeAngleStraight(i)
	}
	if kind, ok := pl.sides[i]; ok {
		mk.Use = station.Use{Station: "stock"}
		mk.MadeBy = "stock"
		switch {
		case kind == EdgeSheared:
			mk.MadeBy, mk.Use.Station = "shear", "shear" // falls with a neighbour's cut
		case ly.outside && ly.blank.Form != "disc":
			mk.Use.Aspects = ly.blank.Aspects
			mk.MadeBy = "bought"
			if mk.Use.Grade() == station.Fail {
				mk.MadeBy = "nothing"
			}
		}
		return mk
	}
	why := "no straight cut through the blank makes this edge"
	if slices.Contains(ly.need().many, i) {
		why = fmt.Sprintf("over %d straight cuts one by one on one loose piece are no work for a shear", mostCuts)
	}
	return pl.makeByProcess(i, "edge-process", why, []string{"thermal", "bought-cutting"}, station.ProcessRequest{})
}

// makeByProcess makes an edge that no station cuts by the first process that can.
func (pl *planner) makeByProcess(i int, rule, why string, kinds []string, q station.ProcessRequest) Make {
	mk := Make{Feature: i}
	if !isSize(pl.pc.ThicknessMM) {
		mk.Use, mk.MadeBy = pl.unknownUse(""), "unknown"
		return mk
	}
	none := station.Use{Hits: 1, Aspects: []station.Aspect{{Rule: rule, Grade: station.Fail, Text: why}}}
	q.Rule, q.Why, q.ThicknessMM = rule, why, pl.pc.ThicknessMM
	var uses []station.Use
	for _, k := range kinds {
		q.Kind = k
		u := station.Other(pl.prof, q)
		if pl.prof.Process(k).Have {
			uses = append(uses, u)
		}
	}
	route(uses, nil)
	uses = append(uses, none)
	best := 0
	for k := range uses {
		if uses[k].Grade() < uses[best].Grade() {
			best = k
		}
	}
	mk.Use = uses[best]
	mk.Tried = append(append(mk.Tried, uses[:best]...), uses[best+1:]...)
	mk.MadeBy = madeBy(mk.Use)
	pl.setAlso(&mk)
	return mk
}

// makeRound tells how a corner radius or an arc of the outline is made.
func (pl *planner) makeRound(i int) Make {
	f := &pl.part.Features[i]
	what := "no station cuts a radius"
	if f.Kind == features.ArcCut {
		what = "no station cuts an arc"
	}
	if f.RadiusMM > 0 {
		what += " of " + pl.ln(f.RadiusMM)
	}
	kinds := []string{"thermal", "bought-cutting"}
	outward := true
	for _, e := range f.Edges {
		if g, ok := edgeOf(pl.part, e); ok && g.IsArc() && !g.CCW {
			outward = false // a grinder rounds corners, it does not hollow them out
		}
	}
	if outward {
		kinds = append([]string{"grinder"}, kinds...)
	}
	return pl.makeByProcess(i, "edge-process", what, kinds, station.ProcessRequest{RadiusMM: f.RadiusMM})
}

// makeNotch tells how a notch is made.
func (pl *planner) makeNotch(i int, prefer map[string]int) Make {
	f := &pl.part.Features[i]
	mk := Make{Feature: i}
	if !pl.known() {
		mk.Use, mk.MadeBy = pl.unknownUse("notcher"), "unknown"
		return mk
	}
	uses, before := pl.notchUses(f)
	kinds := []string{"thermal", "bought-cutting"}
	switch f.Shape {
	case features.NotchCorner, features.NotchVee:
		// Two straight cuts that meet, each no longer than the saw takes.
		if max(f.WidthMM, f.DepthMM, f.Long[0], f.Long[1]) <= pl.sawMost() {
			kinds = append([]string{"saw"}, kinds...)
		}
	}
	uses = pl.offer(uses, kinds, "notch-tool", station.ProcessRequest{DiameterMM: max(f.WidthMM, f.DepthMM, f.Long[0], f.Long[1])})
	if len(pl.machines) == 0 || len(uses) == 0 {
		uses = append(uses, station.Use{Station: "notcher", Aspects: []station.Aspect{{Rule: "notch-tool", Grade: station.Fail, Text: "no notcher in this shop"}}})
	}
	route(uses, prefer)
	mk.Use, mk.Tried = pickUse(uses)
	mk.MadeBy = madeBy(mk.Use)
	if b, ok := before[mk.Use.Machine]; ok && mk.MadeBy == "notch" {
		mk.Before = &b
	}
	pl.setAlso(&mk)
	return mk
}

// notchUses asks every machine's notcher. An open slot is a hole at its bottom
// and a rectangular notch to the hole's middle: before holds the hole's use.
func (pl *planner) notchUses(f *features.Feature) (uses []station.Use, before map[string]station.Use) {
	before = map[string]station.Use{}
	q := station.NotchRequest{Shape: string(f.Shape), WidthMM: f.WidthMM, DepthMM: f.DepthMM, IncludedRad: f.IncludedRad,
		Steps: f.Steps, CornerRadiusMM: f.CornerRadiusMM, Relief: f.Relief, Undercut: f.Undercut}
	if f.Shape == features.NotchCorner && f.Long[0] > 0 && f.Long[1] > 0 {
		q.WidthMM, q.DepthMM = f.Long[0], f.Long[1]
	}
	slot := f.Shape == features.NotchOpenSlot && f.DepthMM > f.WidthMM/2 && !f.Undercut
	if slot {
		q.Shape, q.DepthMM, q.Relief = station.NotchRectangular, f.DepthMM-f.WidthMM/2, "pre-punched"
	}
	for _, m := range pl.machines {
		if f.ShapeOfPart && m.Notch != nil {
			uses = append(uses, station.Use{Machine: m.Name, Station: "notcher", Aspects: []station.Aspect{{Rule: "notch-tool", Grade: station.Fail,
				Text: fmt.Sprintf("%s x %s is over 40 %% of the blank: it is the shape of the part, no work for a notcher, and a shear cannot stop in a corner", pl.ln(q.WidthMM), pl.ln(q.DepthMM))}}})
			continue
		}
		u := station.Notch(pl.prof, m, pl.pc, q)
		if slot && u.Grade() < station.Fail {
			if m.Punch == nil {
				u.Aspects = append(u.Aspects, station.Aspect{Rule: "notch-tool", Grade: station.Fail, Text: m.Name + " has no punch for the round end"})
			} else {
				h := station.Punch(pl.prof, m, pl.pc, station.Hole{Shape: station.Round, WidthMM: f.WidthMM})
				for _, a := range h.Aspects {
					if a.Grade > station.OK {
						u.Aspects = append(u.Aspects, a)
					}
				}
				before[m.Name] = h
			}
		}
		if f.In != "" && u.Grade() < station.Fail {
			u.Aspects = append(u.Aspects, station.Aspect{Rule: "notch-tool", Grade: station.Care, Text: "it lies in the wall of " + f.In,
				Fix: "cut it after " + f.In + ", set to a mark", FixBy: "shop"})
		}
		uses = append(uses, u)
	}
	if pl.part.Angle != nil {
		for i := range uses {
			uses[i] = pl.besideLeg(pl.machines[i], uses[i], f)
		}
	}
	return uses, before
}

// makeBend tells how a bend is made.
func (pl *planner) makeBend(i int, prefer map[string]int) Make {
	f := &pl.part.Features[i]
	mk := Make{Feature: i}
	if !pl.known() {
		mk.Use, mk.MadeBy = pl.unknownUse("brake"), "unknown"
		return mk
	}
	length := f.LengthMM
	if length == 0 {
		length = f.From.Dist(f.To)
	}
	q := station.BendRequest{LengthMM: length, FlangeMM: pl.flange(i), LeastMM: pl.leastFlange(i), AngleRad: f.BentRad, RadiusMM: f.RadiusMM}
	var uses []station.Use
	for _, m := range pl.machines {
		if m.Brake != nil {
			uses = append(uses, station.Bend(pl.prof, m, pl.pc, q))
		}
	}
	if len(uses) == 0 && slices.ContainsFunc(pl.prof.Machines, func(m shop.Machine) bool { return m.Brake != nil }) {
		// The shop has a brake, but not on the machines that are asked.
		for _, m := range pl.machines {
			uses = append(uses, station.Bend(pl.prof, m, pl.pc, q))
		}
	}
	if len(uses) == 0 {
		mk.Use = station.Use{Station: "brake", Hits: 1, Aspects: []station.Aspect{{Rule: "bend", Grade: station.Unknown, Text: "no brake in the shop file: the bend is not judged"}}}
		mk.MadeBy = "unknown"
		return mk
	}
	if a := pl.besideBends(i); a.Rule != "" {
		for k := range uses {
			uses[k].Aspects = append(slices.Clone(uses[k].Aspects), a)
		}
	}
	route(uses, prefer)
	mk.Use, mk.Tried = pickUse(uses)
	mk.MadeBy = madeBy(mk.Use)
	return mk
}

// makeMark passes a mark line: no machine of this kind makes it.
func (pl *planner) makeMark(i int) Make {
	return Make{Feature: i, MadeBy: "unknown", Use: station.Use{Station: "by hand", Hits: 1, Aspects: []station.Aspect{
		{Rule: "edge-process", Grade: station.Remark, Text: "mark line: scribed by hand, not counted"}}}}
}

// edges tells how each edge of the outline came to be, from what owns it.
func (pl *planner) edges() []EdgeKind {
	kinds := make([]EdgeKind, len(pl.part.Outline))
	for i := range kinds {
		kinds[i] = EdgeUnknown
	}
	for _, mk := range pl.out.Makes {
		f := &pl.part.Features[mk.Feature]
		kind := EdgeUnknown
		switch mk.MadeBy {
		case "shear":
			kind = EdgeSheared
		case "notch":
			kind = EdgeNotched
		case "thermal", "bought":
			kind = EdgeThermal
		case "grind":
			kind = EdgeGround
		case "stock":
			kind = pl.sides[mk.Feature]
		case "unknown":
			// Not judged for want of thickness: the blank still tells what is a mill edge.
			if mk.Use.Grade() == station.Unknown && (f.Kind == features.StraightCut || f.Kind == features.CornerClip) && pl.cutsFeature(mk.Feature) {
				kind = EdgeSheared
			}
		}
		for _, e := range f.Edges {
			if _, ok := edgeOf(pl.part, e); ok {
				kinds[e] = kind
			}
		}
	}
	return kinds
}

func (pl *planner) cutsFeature(i int) bool {
	for _, c := range pl.out.Cuts {
		for _, j := range c.Features {
			if j == i {
				return true
			}
		}
	}
	return false
}

// angleFolded is an angle in 0..pi, its ends made one.
func angleFolded(a float64) float64 {
	a = math.Mod(a, math.Pi)
	if a < 0 {
		a += math.Pi
	}
	if a > math.Pi-1e-9 {
		a = 0
	}
	return a
}
