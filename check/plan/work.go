package plan

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
)

// A setup is a punch with its die, or a notching or brake tool, put into a
// machine: what a tool change changes.
type setup struct{ machine, station, tool, die string }

// quantity is what is asked for, else what the drawing asks for, else the copies
// that it shows, else one.
func (pl *planner) quantity() int {
	switch {
	case pl.job.Quantity > 0:
		return pl.job.Quantity
	case pl.part.Quantity > 0:
		return pl.part.Quantity
	}
	return max(1, pl.part.Copies())
}

// setups lists the tools that the part needs, each once, sorted.
func (p *Plan) setups() []setup {
	var all []setup
	add := func(u *station.Use) {
		if u == nil || u.Machine == "" || u.Grade() == station.Fail || u.Tool == "" && u.Die == "" {
			return
		}
		s := setup{u.Machine, u.Station, u.Tool, u.Die}
		if !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	for i := range p.Makes {
		switch mk := &p.Makes[i]; mk.Use.Station {
		case "punch", "notcher", "brake":
			add(&mk.Use)
			add(mk.Before)
		default:
			add(mk.Before)
		}
	}
	slices.SortFunc(all, compareSetups)
	return all
}

func compareSetups(a, b setup) int {
	for _, c := range []int{strings.Compare(a.machine, b.machine), strings.Compare(a.station, b.station), strings.Compare(a.tool, b.tool), strings.Compare(a.die, b.die)} {
		if c != 0 {
			return c
		}
	}
	return 0
}

// availability is the share of clock time at work.
func availability(r *shop.Rates) float64 {
	if r.Availability > 0 && r.Availability <= 1 {
		return r.Availability
	}
	return 0.8
}

// work counts the part: T = (changes t_c + settings t_s + first-offs t_f + n
// (handling visits + hits t_h + cuts t_k + bites t_b + turns t_u + deburring))
// / availability.
func (pl *planner) work() {
	w, r := &pl.out.Work, &pl.prof.Rates
	w.Quantity = pl.quantity()
	run := 0.0 // seconds for a piece
	var why []string
	gauges := map[string]bool{}
	n := &tally{process: map[string]int{}}
	for _, a := range pl.missing() {
		why = append(why, a.Text)
	}
	for _, c := range pl.out.Cuts {
		if c.What == squaringCut {
			continue // once for each plate
		}
		what := strings.Join(pl.ids(c.Features), " ")
		switch {
		case (c.Use.Station == "shear" || c.Use.Station == "angle shear") && c.Use.Grade() != station.Fail:
			w.Cuts++
			if c.OnBar && c.What != "strip cut" {
				n.cutsBar++
				run += r.CutBar
			} else {
				n.cutsPlate++
				run += r.CutPlate
			}
			gauges[fmt.Sprintf("%s %s %s %.1f %.3f %v", c.Use.Station, c.Use.Machine, c.What, c.LengthMM, c.OffSquareRad, c.OnBar)] = true
		case isProcess(c.Use) && c.Use.Grade() == station.Care:
			n.process[c.Use.Station]++
			run += pl.processSeconds(c.Use.Station)
		case pl.known():
			if what == "" {
				what = c.What
			}
			why = append(why, "nothing cuts "+what)
		}
	}
	xs, ys, faces := map[int64]bool{}, map[int64]bool{}, map[[2]int]bool{}
	var none, unjudged []string
	for i := range pl.out.Makes {
		mk := &pl.out.Makes[i]
		f := &pl.part.Features[mk.Feature]
		if f.Kind == features.StraightCut || f.Kind == features.CornerClip {
			if mk.MadeBy == "nothing" && !pl.cutsFeature(mk.Feature) {
				none = append(none, f.ID)
			}
			continue
		}
		if f.Kind == features.Mark {
			continue
		}
		switch {
		case mk.MadeBy == "nothing":
			none = append(none, f.ID)
		case mk.MadeBy == "unknown":
			unjudged = append(unjudged, f.ID)
		}
		if mk.Before != nil {
			w.Hits += mk.Before.Hits
			run += n.hits(r, mk.Before.Hits, pl.againstStop(mk.Before, f, xs, ys, faces))
		}
		switch mk.Use.Station {
		case "punch":
			if mk.Use.Grade() != station.Fail {
				w.Hits += mk.Use.Hits
				run += n.hits(r, mk.Use.Hits, pl.againstStop(&mk.Use, f, xs, ys, faces))
			}
		case "notcher":
			if mk.Use.Grade() != station.Fail {
				w.Bites += mk.Use.Hits
				run += float64(mk.Use.Hits) * r.Bite
				gauges[fmt.Sprintf("notch %s %s %.1f %.1f", mk.Use.Machine, mk.Use.Tool, f.WidthMM, f.DepthMM)] = true
			}
		case "brake":
			w.Bends++
			run += r.Other
		case "stock":
		default:
			if isProcess(mk.Use) && mk.Use.Grade() == station.Care {
				n.process[mk.Use.Station]++
				run += pl.processSeconds(mk.Use.Station)
			}
		}
	}
	if len(none) > 0 && pl.known() {
		why = append(why, "nothing makes "+strings.Join(none, " "))
	}
	if len(unjudged) > 0 && pl.known() {
		why = append(why, "not judged: "+strings.Join(unjudged, " "))
	}
	for _, a := range pl.out.Blank.Aspects {
		if a.Grade >= station.Unknown {
			why = append(why, "no blank")
		}
	}
	w.ToolChanges = len(pl.out.setups())
	w.Settings = len(gauges) + len(xs) + len(ys)
	w.Turns = max(0, len(faces)-1)
	if pl.part.Angle != nil {
		w.Turns = pl.flips()
	}
	pl.visits(w)
	if w.Visits > 0 && slices.ContainsFunc(pl.out.Steps, func(s Step) bool { return s.Machine != "" }) {
		w.FirstOffs = 1
	}
	pl.mass(w)
	pl.deburr(w)
	pl.buyList(w)

	run += float64(w.Turns) * r.Turn
	run += float64(w.Visits) * pl.handling(w.GrossKG)
	if r.DeburrMPerMinute > 0 {
		run += w.DeburrMM / 1000 / r.DeburrMPerMinute * 60
	}
	set := float64(w.ToolChanges)*r.PunchChange + float64(w.Settings)*r.Setting + float64(w.FirstOffs)*r.FirstOff
	if len(why) == 0 {
		av := availability(r)
		w.Known = true
		w.SetUpMinutes = set / av / 60
		w.MinutesEach = run / av / 60
		w.MinutesTotal = w.SetUpMinutes + float64(w.Quantity)*w.MinutesEach
	}
	w.Why = strings.Join(slices.Compact(why), "; ")
	pl.assume(w, n)
}

// tally counts how often each rate was used for a piece.
type tally struct {
	hitsStop, hitsMark, cutsBar, cutsPlate int
	process                                map[string]int // features, by kind
}

// hits counts hits and gives their seconds.
func (n *tally) hits(r *shop.Rates, hits int, stop bool) float64 {
	if stop {
		n.hitsStop += hits
		return float64(hits) * r.HitStop
	}
	n.hitsMark += hits
	return float64(hits) * r.HitMark
}

// againstStop tells whether a hole is hit against a stop and not to a mark, and
// notes the settings of stop and fence and the turns of the piece that it needs.
// Holes that a turn of the piece brings to the same stop or fence share the
// setting.
func (pl *planner) againstStop(u *station.Use, f *features.Feature, xs, ys map[int64]bool, faces map[[2]int]bool) bool {
	stop := false
	for _, m := range pl.machines {
		if m.Name == u.Machine && m.Punch != nil {
			stop = m.Punch.Stop
			if _, gauged := pl.blankReach(f.At); gauged > m.Punch.ThroatMM && pl.part.Angle == nil {
				stop = false
			}
		}
	}
	if !stop {
		return false
	}
	if a := pl.part.Angle; a != nil {
		// One leg lies against the fence by its heel or toe, whichever leg it is.
		xs[int64(math.Round(a.FromStartMM(f.At)*10))] = true
		ys[int64(math.Round(a.FromHeelMM(f.At)*10))] = true
		return true
	}
	q := pl.layout.frame.in(f.At)
	side := func(v, whole float64) (int64, int) {
		switch {
		case math.Abs(v-whole/2) < 0.05:
			return int64(math.Round(v * 10)), 0
		case v < whole/2:
			return int64(math.Round(v * 10)), -1
		}
		return int64(math.Round((whole - v) * 10)), 1
	}
	x, sx := side(q.X, pl.layout.l)
	y, sy := side(q.Y, pl.layout.w)
	xs[x], ys[y] = true, true
	if sx != 0 || sy != 0 {
		faces[[2]int{sx, sy}] = true
	}
	return true
}

// processSeconds is the time of one feature at a process beside the machines.
func (pl *planner) processSeconds(kind string) float64 {
	if p := pl.prof.Process(kind); p.Seconds > 0 {
		return p.Seconds
	}
	switch kind {
	case "drill", "tap", "countersink":
		return pl.prof.Rates.Drill
	}
	return pl.prof.Rates.Other
}

// visits counts how often a piece goes to a station.
func (pl *planner) visits(w *Work) {
	last := ""
	for _, s := range pl.out.Steps {
		if at := s.Machine + "\x00" + s.Station; at != last {
			w.Visits++
			last = at
		}
	}
}

func (pl *planner) handling(kg float64) float64 {
	r := &pl.prof.Rates
	switch {
	case kg > 25:
		return r.HandleHeavy
	case kg >= 10:
		return r.HandleMedium
	}
	return r.HandleLight
}

func (pl *planner) mass(w *Work) {
	if !pl.known() || !(pl.pc.Material.DensityKgM3 > 0) {
		return
	}
	per := pl.pc.ThicknessMM * pl.pc.Material.DensityKgM3 * 1e-9
	if pl.part.Angle != nil {
		pl.angleMass(w, per)
		return
	}
	w.NetKG = pl.part.AreaMM2 * per
	w.GrossKG = pl.layout.l * pl.layout.w * per
	if pl.out.Blank.Form == "disc" {
		w.GrossKG *= math.Pi / 4
	}
}

// deburr adds up the burr of punched holes, notches and sheared edges.
func (pl *planner) deburr(w *Work) {
	for i := range pl.out.Makes {
		mk := &pl.out.Makes[i]
		f := &pl.part.Features[mk.Feature]
		switch mk.MadeBy {
		case "punch", "notch":
			p := f.PerimeterMM
			if p == 0 && f.DiameterMM > 0 {
				p = math.Pi * f.DiameterMM
			}
			w.DeburrMM += p
		case "shear":
			for _, k := range f.Edges {
				if e, ok := edgeOf(pl.part, k); ok {
					w.DeburrMM += e.Length()
				}
			}
		}
	}
}

func (pl *planner) buyList(w *Work) {
	add := func(as []station.Aspect) {
		for _, a := range as {
			if a.Buy != "" && !slices.Contains(w.Buy, a.Buy) {
				w.Buy = append(w.Buy, a.Buy)
			}
		}
	}
	add(pl.out.Blank.Aspects)
	for i := range pl.out.Makes {
		mk := &pl.out.Makes[i]
		add(mk.Use.Aspects)
		if mk.Before != nil {
			add(mk.Before.Aspects)
		}
	}
	slices.Sort(w.Buy)
}
