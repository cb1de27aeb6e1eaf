package plan

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// count writes a number with its noun: "1 tool change", "2 tool changes". The
// noun takes an s.
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// seconds writes a rate.
func seconds(s float64) string {
	return strconv.FormatFloat(math.Round(s*10)/10, 'f', -1, 64) + " s"
}

// assume writes down what the counts and minutes rest on, a fact each; only
// rates that this part used. The blank is told by Blank.Text.
func (pl *planner) assume(w *Work, n *tally) {
	r := &pl.prof.Rates
	say := func(format string, args ...any) { w.Assumptions = append(w.Assumptions, fmt.Sprintf(format, args...)) }
	rate := func(used bool, s float64, what string) {
		if used {
			say("%s %s", seconds(s), what)
		}
	}
	times := func(times int, s float64, noun string) {
		if times > 0 && s > 0 {
			say("%s at %s", count(times, noun), seconds(s))
		}
	}
	if b := &pl.out.Blank; b.PiecesPerBar > 0 {
		bar := pl.prof.Stock.FlatLengthMM
		if b.Form == "angle" {
			bar = pl.prof.Stock.AngleLengthMM
		}
		say("%s from a bar of %s", count(b.PiecesPerBar, "piece"), pl.ln(bar))
		say("trim of %s a bar, last drop %s: not in the minutes", pl.ln(trimMM), pl.ln(pl.lastDrop()))
	}
	if slices.ContainsFunc(pl.out.Cuts, func(c Cut) bool { return c.What == "strip cut" && c.Use.Station == "shear" }) {
		say("strip cut counted for each piece")
		if pl.out.Cuts[0].What == squaringCut {
			say("one side of each plate squared first: not in the minutes")
		}
	}
	rate(n.hitsStop > 0, r.HitStop, "a hit against a stop")
	rate(n.hitsMark > 0, r.HitMark, "a hit to a mark")
	rate(n.cutsBar > 0, r.CutBar, "a cut off a bar")
	rate(n.cutsPlate > 0, r.CutPlate, "a cut on plate or a loose piece")
	rate(w.Bites > 0, r.Bite, "a notch bite")
	rate(w.Bends > 0, r.Other, "a bend")
	for _, kind := range processOrder {
		rate(n.process[kind] > 0, pl.processSeconds(kind), processWork(kind))
	}
	times(w.ToolChanges, r.PunchChange, "tool change")
	times(w.Settings, r.Setting, "setting")
	times(w.FirstOffs, r.FirstOff, "first-off")
	if w.GrossKG > 0 {
		times(w.Visits, pl.handling(w.GrossKG), "station visit")
	}
	times(w.Turns, r.Turn, "turn")
	if r.DeburrMPerMinute > 0 && w.DeburrMM > 0 {
		say("%.2f m of burr at %.1f m a minute", w.DeburrMM/1000, r.DeburrMPerMinute)
	}
	say("at work %d %% of the time", int(math.Round(100*availability(r))))
}

// processWork names one piece of work at a process beside the machines.
func processWork(kind string) string {
	switch kind {
	case "drill":
		return "a hole drilled"
	case "tap":
		return "a thread tapped"
	case "countersink":
		return "a seat cut"
	case "grinder":
		return "an edge ground"
	case "saw":
		return "a saw cut"
	case "thermal":
		return "a feature cut thermally"
	case "bought-cutting":
		return "a feature cut outside"
	}
	return "a feature by " + kind
}
