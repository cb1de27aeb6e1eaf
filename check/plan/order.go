package plan

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"burrside/check/station"
	"burrside/features"
)

// stage puts the steps in order.
type stage int

const (
	stageStrip     stage = iota // the strip or blank
	stageBarClip                // clips while the bar is held
	stageBarPunch               // holes while on the bar
	stageCutOff                 // off the bar
	stagePunch                  // the other holes
	stageNotch                  // after the holes that run into notches
	stageClip                   // clips and side cuts on the loose piece
	stageShape                  // what else takes metal off the outline: saw, thermal, bought cutting
	stageLatePunch              // holes that are within the throat only now
	stageOther                  // drill, seats, threads, thermal, grinder
	stageBend
)

// entry is one piece of work before it is put together with its like.
type entry struct {
	at    stage
	step  Step
	order float64 // within a stage: the tool's size, larger last
}

// steps sets the order of work: strip; clips and holes on the bar as far as
// every hole leaves metal of 2 t to the cuts that follow; cut to length; the
// other holes; notches; clips; other processes; bends last.
func (pl *planner) steps() {
	var es []entry
	leg := ""
	put := func(at stage, what string, u station.Use, order float64, hits int, ids ...string) {
		es = append(es, entry{at, Step{What: what, Features: ids, Machine: u.Machine, Station: u.Station, Tool: u.Tool, Hits: hits, Leg: leg, Lay: u.Lay}, order})
	}
	for _, c := range pl.out.Cuts {
		at := stageClip
		switch {
		case c.What == "strip cut", c.What == squaringCut:
			at = stageStrip
		case c.What == "end cut":
			at = stageCutOff
		case c.OnBar:
			at = stageBarClip
		}
		put(at, madeByStep(c.Use), c.Use, 0, 1, pl.ids(c.Features)...)
	}
	onBar := pl.punchedOnBar()
	for _, mk := range pl.out.Makes {
		f := &pl.part.Features[mk.Feature]
		if mk.Use.Grade() == station.Fail || f.Kind == features.StraightCut || f.Kind == features.CornerClip || f.Kind == features.Mark {
			continue
		}
		leg = f.Leg
		punchAt := stagePunch
		switch {
		case mk.AfterCuts:
			punchAt = stageLatePunch
		case onBar:
			punchAt = stageBarPunch
		}
		if mk.Before != nil {
			put(punchAt, "punch", *mk.Before, max(f.DiameterMM, f.WidthMM), mk.Before.Hits, f.ID)
		}
		switch mk.Use.Station {
		case "punch":
			put(punchAt, "punch", mk.Use, max(f.DiameterMM, f.WidthMM, f.AcrossFlatsMM), mk.Use.Hits, f.ID)
		case "notcher":
			put(stageNotch, "notch", mk.Use, f.WidthMM, mk.Use.Hits, f.ID)
		case "brake":
			put(stageBend, "bend", mk.Use, 0, 1, f.ID)
		default:
			at := stageOther
			if !f.IsInside() && mk.Use.Station != "grinder" {
				at = stageShape
			}
			put(at, madeByStep(mk.Use), mk.Use, float64(slices.Index(processOrder, mk.Use.Station)), 1, f.ID)
		}
	}
	slices.SortStableFunc(es, func(a, b entry) int {
		return cmp.Or(cmp.Compare(a.at, b.at), strings.Compare(a.step.Machine, b.step.Machine), strings.Compare(a.step.Leg, b.step.Leg),
			cmp.Compare(math.Round(a.order*1e3), math.Round(b.order*1e3)), strings.Compare(a.step.Tool, b.step.Tool))
	})
	for _, e := range es {
		if n := len(pl.out.Steps); n > 0 {
			last := &pl.out.Steps[n-1]
			if last.What == e.step.What && last.Machine == e.step.Machine && last.Station == e.step.Station && last.Tool == e.step.Tool && last.Leg == e.step.Leg && last.Lay == e.step.Lay {
				last.Features = append(last.Features, e.step.Features...)
				last.Hits += e.step.Hits
				continue
			}
		}
		pl.out.Steps = append(pl.out.Steps, e.step)
	}
}

func madeByStep(u station.Use) string {
	switch u.Station {
	case "angle shear":
		return "shear"
	case "notcher":
		return "notch"
	case "brake":
		return "bend"
	case "grinder":
		return "grind"
	case "bought-cutting":
		return "have cut"
	}
	return u.Station
}

// punchedOnBar tells whether the holes are punched before the piece is cut off:
// it comes off a bar or strip, and every punched hole leaves metal of at least
// 2 t to every cut that comes after.
func (pl *planner) punchedOnBar() bool {
	switch pl.out.Blank.Form {
	case "bar", "strip", "plate":
	case "angle":
		return pl.anglePunchedOnBar()
	default:
		return false
	}
	if !(pl.pc.ThicknessMM > 0) || pl.layout.outside || len(pl.out.Cuts) == 0 {
		return false
	}
	for _, mk := range pl.out.Makes {
		f := &pl.part.Features[mk.Feature]
		if mk.Use.Station != "punch" && mk.Before == nil {
			continue
		}
		half := f.DiameterMM / 2
		if half == 0 {
			half = max(f.LengthMM, f.WidthMM, f.AcrossFlatsMM) / 2
		}
		q := pl.layout.frame.in(f.At)
		for _, m := range pl.machines { // on the bar only its sides are there to reach in from
			if m.Punch != nil && m.Name == mk.Use.Machine && min(q.Y, pl.layout.w-q.Y) > m.Punch.ThroatMM {
				return false
			}
		}
		for _, c := range pl.out.Cuts {
			if c.What == "strip cut" || c.What == squaringCut {
				continue
			}
			a, b := pl.layout.frame.in(c.From), pl.layout.frame.in(c.To)
			if d := b.Sub(a); d.Len() > 1e-6 && math.Abs(q.Sub(a).Cross(d.Unit()))-half < 2*pl.pc.ThicknessMM {
				return false
			}
		}
		// The end that the cut before left is an end as well.
		if min(q.X, pl.layout.l-q.X)-half < 2*pl.pc.ThicknessMM {
			return false
		}
	}
	return true
}
