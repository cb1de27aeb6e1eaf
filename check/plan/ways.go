package plan

import (
	"fmt"
	"math"
	"slices"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
)

// Way is a shop's decision how one feature is made, against the plan's own
// choice. A decision that cannot be carried out changes nothing.
type Way struct {
	Feature string // its ID
	Machine string // punched or notched at this machine; "" any
	Process string // made by this process beside the machines; "" by a machine
	Lay     bool   // of an angle: punched with the leg laid, and by the die, that the plan has found
}

// wayOf is what is decided about a feature.
func (pl *planner) wayOf(f *features.Feature) (Way, bool) {
	if len(pl.job.Ways) == 0 {
		return Way{}, false
	}
	if pl.ways == nil {
		pl.ways = make(map[string]Way, len(pl.job.Ways))
		for _, w := range pl.job.Ways {
			pl.ways[w.Feature] = w
		}
	}
	w, ok := pl.ways[f.ID]
	return w, ok
}

// decide lets a decision take the place of the plan's choice. What is decided to
// be made beside the machines needs no more care for that: its aspects become
// remarks. Everything else about the way is judged as ever.
func (pl *planner) decide(mk *Make) {
	f := &pl.part.Features[mk.Feature]
	w, ok := pl.wayOf(f)
	if !ok || mk.Before != nil || !pl.known() {
		return
	}
	if w.Lay {
		mk.Use.Aspects = asDecided(mk.Use.Aspects, "leg-clearance", "laid as decided")
		return
	}
	all := append([]station.Use{mk.Use}, mk.Tried...)
	k := -1
	if w.Process != "" {
		k = slices.IndexFunc(all, func(u station.Use) bool { return isProcess(u) && u.Station == w.Process })
		if k < 0 && f.IsInside() && specialProcess(f) == "" && (w.Process != "drill" || f.Kind == features.RoundHole) {
			all = append(all, station.Other(pl.prof, station.ProcessRequest{Kind: w.Process, Rule: "tool", ThicknessMM: pl.pc.ThicknessMM,
				DiameterMM: max(f.DiameterMM, f.WidthMM, f.LengthMM)}))
			k = len(all) - 1
		}
		if k < 0 || all[k].Grade() > station.Care {
			return
		}
		all[k].Aspects = asDecided(all[k].Aspects, "", fmt.Sprintf("made by %s, as decided", w.Process))
	} else {
		k = slices.IndexFunc(all, func(u station.Use) bool { return u.Machine != "" && u.Machine == w.Machine })
		if k < 0 {
			return
		}
	}
	mk.Use = all[k]
	mk.Tried = slices.Delete(all, k, k+1)
	mk.MadeBy = madeBy(mk.Use)
	mk.Also, mk.AfterCuts = nil, false // what is decided needs no process to be named for it
	if mk.Use.Station == "punch" {
		for i, m := range pl.machines {
			if m.Name == mk.Use.Machine {
				_, mk.AfterCuts = pl.punch(i, f)
			}
		}
	}
}

// asDecided makes remarks of what needs care; of one rule, or of any if that is "".
func asDecided(list []station.Aspect, rule, text string) []station.Aspect {
	list = slices.Clone(list)
	for i := range list {
		if a := &list[i]; a.Grade == station.Care && (rule == "" || a.Rule == rule) {
			a.Grade, a.Fix, a.FixBy, a.Text = station.Remark, "", "", text
		}
	}
	return list
}

// decideCut lets a decision about all edges that a cut makes stand for the cut.
func (pl *planner) decideCut(c *Cut) {
	if len(c.Features) == 0 || !pl.known() {
		return
	}
	process := ""
	for _, i := range c.Features {
		w, ok := pl.wayOf(&pl.part.Features[i])
		if !ok || w.Process == "" || process != "" && process != w.Process {
			return
		}
		process = w.Process
	}
	all := append([]station.Use{c.Use}, c.Tried...)
	k := slices.IndexFunc(all, func(u station.Use) bool { return isProcess(u) && u.Station == process && u.Grade() <= station.Care })
	if k < 0 {
		return
	}
	all[k].Aspects = asDecided(all[k].Aspects, "", fmt.Sprintf("made by %s, as decided", process))
	c.Use = all[k]
	c.Tried = slices.Delete(all, k, k+1)
}

// PunchToBuy is the punch that makes a hole in one hit, with its die: the
// clearance aimed at, the bore rounded to 0.1 mm, or to 1/64 in where the shop
// works in inches. ok is false for a shape that no punch has.
func PunchToBuy(prof *shop.Profile, f *features.Feature, job *Job) (p shop.Punch, ok bool) {
	if !(job.ThicknessMM > 0) || job.Material == nil {
		return p, false
	}
	switch f.Kind {
	case features.RoundHole, features.HoleWithSeat, features.TappedHole:
		p.Shape, p.WidthMM = station.Round, f.DiameterMM
	case features.Slot:
		p.Shape, p.WidthMM, p.LengthMM = station.Slot, min(f.WidthMM, f.LengthMM), max(f.WidthMM, f.LengthMM)
	case features.RectangularHole:
		p.Shape, p.WidthMM, p.LengthMM = station.Rectangle, min(f.WidthMM, f.LengthMM), max(f.WidthMM, f.LengthMM)
		if math.Abs(f.LengthMM-f.WidthMM) < 0.05 {
			p.Shape, p.LengthMM = station.Square, 0
		}
	case features.PolygonHole:
		if f.Sides != 6 {
			return p, false
		}
		p.Shape, p.WidthMM = station.Hexagon, f.AcrossFlatsMM
	default:
		return p, false
	}
	if !isSize(p.WidthMM) {
		return p, false
	}
	p.Name = station.SizeName(prof, p.Shape, p.WidthMM, p.LengthMM)
	p.Wear = 1
	bore, ok := station.DieToBuy(prof, p.WidthMM, job.ThicknessMM, job.Material)
	p.Dies = []shop.Die{{WidthMM: bore}}
	return p, ok
}
