package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/check/station"
	"burrside/features"
	"burrside/features/measure"
)

// holeKey is what holes have in common that one look at the rack answers.
type holeKey struct {
	machine                    int
	shape                      string
	width, length, radius, dir int64 // 1e-4 mm, 1e-6 rad
}

// punched is what one look at the rack answered, and the same with the throat
// for holes that lie alike in the blank, where that is a plain pass.
type punched struct {
	use   station.Use
	plain map[[2]float64]station.Use // by the distances of blankReach
}

// hole is the request for a feature; its shape is the kind where no punch makes it.
func (pl *planner) hole(f *features.Feature) station.Hole {
	h := station.Hole{WidthMM: f.WidthMM, LengthMM: f.LengthMM}
	dir := f.AngleRad
	switch f.Kind {
	case features.RoundHole, features.HoleWithSeat, features.TappedHole:
		return station.Hole{Shape: station.Round, WidthMM: f.DiameterMM}
	case features.Slot:
		h.Shape = station.Slot
	case features.RectangularHole:
		h.Shape, h.CornerRadiusMM = station.Rectangle, f.RadiusMM
		if math.Abs(f.LengthMM-f.WidthMM) < 0.05 {
			h.Shape = station.Square
		}
	case features.PolygonHole:
		h.Shape = fmt.Sprintf("%d-sided hole", f.Sides)
		h.WidthMM, h.LengthMM = f.AcrossFlatsMM, f.AcrossFlatsMM
		if f.Sides == 6 {
			h.Shape = station.Hexagon
		}
		if len(f.Ring) > 0 {
			d := f.Ring[0].StartDir()
			dir = math.Atan2(d.Y, d.X)
		}
	default:
		h.Shape = strings.ReplaceAll(string(f.Kind), "-", " ")
	}
	h.TurnsRad = make([]float64, 0, len(pl.turned))
	for _, t := range pl.turned {
		h.TurnsRad = append(h.TurnsRad, dir-t)
	}
	return h
}

// punch asks one machine for a hole, with the throat.
func (pl *planner) punch(k int, f *features.Feature) (u station.Use, after bool) {
	if pl.part.Angle != nil {
		return pl.punchLeg(k, f), false
	}
	m := pl.machines[k]
	h := pl.hole(f)
	key := holeKey{machine: k, shape: h.Shape, width: int64(math.Round(h.WidthMM * 1e4)), length: int64(math.Round(h.LengthMM * 1e4)), radius: int64(math.Round(h.CornerRadiusMM * 1e4))}
	if len(h.TurnsRad) > 0 {
		key.dir = int64(math.Round(h.TurnsRad[0] * 1e6))
	}
	c := pl.cache[key]
	if c == nil {
		c = &punched{use: station.Punch(pl.prof, m, pl.pc, h), plain: map[[2]float64]station.Use{}}
		c.use.Aspects = slices.Clip(c.use.Aspects) // shared by many makes
		pl.cache[key] = c
	}
	if m.Punch == nil {
		return c.use, false
	}
	return pl.withReach(c, m, f.At)
}

// insideUses lists the ways to make an inside feature.
func (pl *planner) insideUses(i int) (uses []station.Use, after map[string]bool) {
	f := &pl.part.Features[i]
	thin := slices.Contains(pl.job.NotPunched, i)
	after = map[string]bool{}
	for k := range pl.machines {
		u, a := pl.punch(k, f)
		if thin {
			u.Aspects = append(slices.Clip(u.Aspects), station.Aspect{Rule: "web", Grade: station.Fail, Text: "too little metal is left beside it to punch it"})
		}
		uses = append(uses, u)
		after[u.Machine] = a
	}
	kinds := []string{"thermal", "bought-cutting"}
	q := station.ProcessRequest{DiameterMM: max(f.DiameterMM, f.WidthMM, f.LengthMM)}
	rule := "opening"
	if h := pl.hole(f); h.Shape == station.Round {
		kinds, rule = append([]string{"drill"}, kinds...), "tool"
	}
	return pl.offer(uses, kinds, rule, q), after
}

// makeHole decides how an inside feature is made.
func (pl *planner) makeHole(i int, uses []station.Use, after map[string]bool, prefer map[string]int) Make {
	f := &pl.part.Features[i]
	if need := specialProcess(f); need != "" {
		return pl.makeSpecial(i, need, uses, prefer)
	}
	mk := Make{Feature: i}
	if len(uses) == 0 {
		uses = []station.Use{{Station: "punch", Hits: 1, Aspects: []station.Aspect{{Rule: "tool", Grade: station.Fail, Text: "no punch in this shop"}}}}
	}
	route(uses, prefer)
	mk.Use, mk.Tried = pickUse(uses)
	mk.MadeBy = madeBy(mk.Use)
	mk.AfterCuts = after[mk.Use.Machine] && mk.Use.Station == "punch"
	if f.Kind == features.Slot && mk.Use.Station == "thermal" && mk.Use.Grade() == station.Care {
		pl.addSlotEnds(f, &mk, prefer)
	}
	pl.setAlso(&mk)
	return mk
}

// addSlotEnds punches the two ends of a slot that is cut thermally, where the
// rack has the round punch: only the straight sides are then left to cut.
func (pl *planner) addSlotEnds(f *features.Feature, mk *Make, prefer map[string]int) {
	end := features.Feature{Kind: features.RoundHole, DiameterMM: f.WidthMM, At: f.At}
	var uses []station.Use
	for k := range pl.machines {
		if u, _ := pl.punch(k, &end); u.Grade() < station.Unknown && !u.Buys() {
			u.Hits = 2
			uses = append(uses, u)
		}
	}
	if len(uses) == 0 {
		return
	}
	route(uses, prefer)
	mk.Before = &uses[0]
	a := &mk.Use.Aspects[0]
	a.Fix = fmt.Sprintf("punch the two ends with %s, then cut the web out thermally", uses[0].Tool)
	for _, h := range uses[0].Aspects {
		if h.Grade > station.OK {
			mk.Use.Aspects = append(mk.Use.Aspects, h)
		}
	}
}

func (pl *planner) setAlso(mk *Make) {
	if isProcess(mk.Use) && mk.Use.Grade() < station.Fail {
		if p := pl.prof.Process(mk.Use.Station); p.Have {
			mk.Also = &p
		}
	}
}

// specialProcess is the process that a hole asks for beside its size: it is then
// not punched to size.
func specialProcess(f *features.Feature) string {
	switch f.Kind {
	case features.TappedHole:
		return "tap"
	case features.HoleWithSeat:
		return "countersink"
	}
	switch f.Process {
	case "drill", "ream", "tap":
		return f.Process
	case "countersink", "counterbore":
		return "countersink"
	}
	return ""
}

// makeSpecial makes a hole that is tapped, reamed, drilled or has a seat.
func (pl *planner) makeSpecial(i int, need string, uses []station.Use, prefer map[string]int) Make {
	f := &pl.part.Features[i]
	const rule = "hole-process"
	mk := Make{Feature: i}
	size := "Ø" + pl.ln(f.DiameterMM)
	drill := station.Other(pl.prof, station.ProcessRequest{Kind: "drill", Rule: rule, Why: "not punched to size", DiameterMM: f.DiameterMM, ThicknessMM: pl.pc.ThicknessMM})
	switch need {
	case "drill", "ream":
		mk.Use = drill
		if drill.Grade() == station.Care {
			a := &mk.Use.Aspects[0]
			a.Text = fmt.Sprintf("the drawing asks for a drilled hole: drill %s", size)
			a.Fix = "drill it"
			if need == "ream" {
				a.Text = fmt.Sprintf("the drawing asks for a reamed hole: drill or punch %s, then ream %s", "Ø"+pl.ln(max(f.DiameterMM-subPunchMM, f.DiameterMM/2)), size)
				a.Fix = "make the hole undersize, then ream it"
			}
		}
	case "tap":
		mk.Use = station.Other(pl.prof, station.ProcessRequest{Kind: "tap", Rule: rule, DiameterMM: max(f.SeatMM, f.DiameterMM), ThicknessMM: pl.pc.ThicknessMM})
		if mk.Use.Grade() == station.Care {
			a := &mk.Use.Aspects[0]
			thread := "the thread"
			if f.SeatMM > 0 {
				thread = "the thread of " + pl.ln(f.SeatMM)
			}
			a.Text = fmt.Sprintf("tapped hole: drill %s, then tap %s", size, thread)
			a.Fix = fmt.Sprintf("drill %s, then tap it", size)
			if drill.Grade() > station.Care {
				mk.Use.Aspects = append(mk.Use.Aspects, drill.Aspects...)
			}
		}
	case "countersink":
		mk.Use = station.Other(pl.prof, station.ProcessRequest{Kind: "countersink", Rule: rule, DiameterMM: f.SeatMM, ThicknessMM: pl.pc.ThicknessMM})
		if mk.Use.Grade() == station.Care {
			pre := []station.Use{drill}
			for _, u := range uses {
				if !isProcess(u) {
					pre = append(pre, u)
				}
			}
			pl.addSeat(f, &mk, pre, prefer, size)
		}
	}
	mk.Tried = append(mk.Tried, uses...)
	mk.MadeBy = madeBy(mk.Use)
	pl.setAlso(&mk)
	return mk
}

// subPunchMM is how much smaller a hole is made that is to be reamed: at least
// 2 mm by EN 1090-2 6.6.3 (from memory).
const subPunchMM = 2

// seatSize words the size of a seat: what is drawn, else what the call-out says.
func (pl *planner) seatSize(f *features.Feature) string {
	if f.SeatMM > 0 {
		return " of Ø" + pl.ln(f.SeatMM)
	}
	if call, ok := measure.HoleCallOut(f.Note); ok && call.Seat.MM > 0 {
		return fmt.Sprintf(" as called out, %q", f.Note)
	}
	return "; its size is not stated"
}

// addSeat makes the hole under a seat, by punch where that works, else by drill.
func (pl *planner) addSeat(f *features.Feature, mk *Make, pre []station.Use, prefer map[string]int, size string) {
	route(pre, prefer)
	hole, _ := pickUse(pre)
	a := &mk.Use.Aspects[0]
	if hole.Grade() >= station.Unknown {
		mk.Use.Aspects = append(mk.Use.Aspects, hole.Aspects...)
		return
	}
	by := "drill"
	if !isProcess(hole) {
		by = "punch"
		mk.Before = &hole
	}
	what := f.Process
	if what == "" {
		what = "seat (countersink, counterbore or spot face: the drawing does not tell)"
	}
	a.Text = fmt.Sprintf("%s %s first, then the %s%s", by, size, what, pl.seatSize(f))
	a.Fix = fmt.Sprintf("%s %s first, then cut the seat", by, size)
	for _, h := range hole.Aspects {
		if h.Grade > station.OK && !isProcess(hole) {
			mk.Use.Aspects = append(mk.Use.Aspects, h)
		}
	}
}
