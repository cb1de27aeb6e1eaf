package check

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"burrside/check/change"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
)

// shopSteps lists what the shop itself could do about a finding, the least
// trouble first: another machine, another holder, a die, what is bought, a
// process beside the machines, other stock.
func (s *suggester) shopSteps(i int, _ []change.Step) [][]change.Step {
	f := &s.rep.Findings[i]
	var out [][]change.Step
	switch f.Rule {
	case "tool", "slot-hits", "opening":
		out = append(out, s.machines(f.Features)...)
		out = append(out, s.holders(f.Features)...)
		out = append(out, s.punches(f.Features)...)
		out = append(out, s.processes(f.Features)...)
	case "die-clearance":
		out = append(out, s.machines(f.Features)...)
		out = append(out, s.dies(f.Features)...)
		out = append(out, s.processes(f.Features)...)
	case "die-holder":
		out = append(out, s.machines(f.Features)...)
		out = append(out, s.holders(f.Features)...)
		out = append(out, s.processes(f.Features)...)
	case "leg-clearance":
		out = append(out, s.machines(f.Features)...)
		out = append(out, s.lays(f.Features)...)
		out = append(out, s.processes(f.Features)...)
	case "punch-force", "punch-ratio", "throat-reach", "web":
		out = append(out, s.machines(f.Features)...)
		out = append(out, s.processes(f.Features)...)
	case "stripping", "strap", "small-part":
		out = append(out, s.machines(f.Features)...)
		out = append(out, s.flats()...)
		if f.Rule != "small-part" {
			out = append(out, s.processes(f.Features)...)
		}
	case "hole-process", "punching-class", "punching-limit", "tolerance", "material", "edge-process":
		out = append(out, s.processes(f.Features)...)
	case "notch-tool", "notch-force":
		out = append(out, s.machines(f.Features)...)
		out = append(out, s.processes(f.Features)...)
	case "blank":
		out = append(out, s.flats()...)
		out = append(out, s.angles()...)
		out = append(out, s.given()...)
	case "shear-row", "sliver", "hold-down", "mitre", "angle-shear", "angle-mitre":
		out = append(out, s.flats()...)
		out = append(out, s.processes(f.Features)...)
		out = append(out, s.given()...)
	}
	return out
}

// makeOf is how the plan makes a feature.
func (s *suggester) makeOf(id string) *plan.Make {
	if s.feature(id) == nil {
		return nil
	}
	k := s.index[id]
	if makes := s.base.rep.Plan.Makes; k < len(makes) && makes[k].Feature == k {
		return &makes[k]
	}
	return nil
}

// forbidden tells that a hole must not be punched to size, by the drawing's words
// or the chosen code: then nothing is suggested for punching it.
func (s *suggester) forbidden(id string) bool {
	f := s.feature(id)
	if f == nil {
		return true
	}
	switch f.Process {
	case "drill", "ream":
		return true
	}
	if s.mustNot == nil {
		s.mustNot = map[string]bool{}
		for i := range s.base.pass.kept {
			if g := &s.base.pass.kept[i]; g.Severity != Note && (g.Rule == "punching-class" || g.Rule == "punching-limit") {
				for _, o := range g.Features {
					s.mustNot[o] = true
				}
			}
		}
	}
	return s.mustNot[id]
}

// isPlanned tells that steps only say what the plan does anyway: the finding
// tells the reason and the process, and a change would tell nothing new.
func (s *suggester) isPlanned(steps []change.Step) bool {
	for i := range steps {
		if steps[i].Kind == change.Order { // as lays found it in the plan
			if slices.ContainsFunc(steps[i].Features, func(id string) bool { m := s.makeOf(id); return m == nil || layWords(m) != steps[i].Order }) {
				return false
			}
			continue
		}
		if steps[i].Kind != change.Process {
			return false
		}
		by := steps[i].Process
		switch by {
		case "grinder":
			by = "grind"
		case "bought-cutting":
			by = "bought"
		}
		for _, id := range steps[i].Features {
			if m := s.makeOf(id); m == nil || m.MadeBy != by {
				return false
			}
		}
	}
	return true
}

// machines lets every other machine that the job allows make the features.
func (s *suggester) machines(ids []string) [][]change.Step {
	var out [][]change.Step
	for k := range s.prof.Machines {
		m := &s.prof.Machines[k]
		if s.asked.Machine != "" && m.Name != s.asked.Machine {
			continue
		}
		var move []string
		for _, id := range ids {
			mk := s.makeOf(id)
			if mk == nil || mk.Use.Machine == m.Name || s.forbidden(id) {
				continue
			}
			for _, u := range mk.Tried {
				if u.Machine == m.Name && u.Grade() < station.Unknown {
					move = append(move, id)
					break
				}
			}
		}
		if len(move) > 0 {
			out = append(out, []change.Step{{Kind: change.Machine, Features: move, Machine: m.Name}})
		}
	}
	return out
}

// layWords tells how the plan lays the leg of a punched hole.
func layWords(m *plan.Make) string {
	if strings.HasPrefix(m.Use.Die, "offset ") {
		return "the offset die, " + m.Use.Lay
	}
	return m.Use.Lay
}

// lays punches holes of an angle with the leg laid as the plan has found that it
// goes: with the offset die, or the other leg up.
func (s *suggester) lays(ids []string) [][]change.Step {
	var out [][]change.Step
	for _, id := range ids {
		m := s.makeOf(id)
		if m == nil || s.forbidden(id) || m.Use.Station != "punch" || m.Use.Lay == "" || m.Use.Grade() != station.Care {
			continue
		}
		how := layWords(m)
		n := slices.IndexFunc(out, func(l []change.Step) bool { return l[0].Order == how })
		if n < 0 {
			out = append(out, []change.Step{{Kind: change.Order, Order: how, Features: []string{id}}})
			continue
		}
		out[n][0].Features = append(out[n][0].Features, id)
	}
	if len(out) > 1 {
		var all []change.Step
		for _, l := range out {
			all = append(all, l...)
		}
		return [][]change.Step{all}
	}
	return out
}

// holders puts tools of the rack that are meant for one holder into another that
// takes them.
func (s *suggester) holders(ids []string) [][]change.Step {
	var out [][]change.Step
	seen := map[string]bool{}
	for _, id := range ids {
		f, mk := s.feature(id), s.makeOf(id)
		if f == nil || mk == nil || !f.IsInside() || s.forbidden(id) {
			continue
		}
		for i := range s.prof.Punches {
			p := &s.prof.Punches[i]
			if p.Holder == "" {
				continue
			}
			for k := range s.prof.Machines {
				m := &s.prof.Machines[k]
				if m.Punch == nil || p.Machine != "" && p.Machine != m.Name || s.asked.Machine != "" && m.Name != s.asked.Machine {
					continue
				}
				for _, h := range m.Punch.Holders {
					key := p.Name + "|" + m.Name + "|" + h.Name
					if h.Name != p.Holder && p.Body() <= h.MaxMM*(1+relative) && math.Abs(p.WidthMM-max(f.DiameterMM, f.WidthMM, f.AcrossFlatsMM)) < 1 && !seen[key] {
						seen[key] = true
						out = append(out, []change.Step{{Kind: change.Holder, Name: p.Name, On: m.Name, Holder: h.Name, Features: []string{id}}})
					}
				}
			}
		}
	}
	return out
}

// dies buys a die for the punches that the plan has taken from the rack.
func (s *suggester) dies(ids []string) [][]change.Step {
	var steps []change.Step
	for _, id := range ids {
		mk := s.makeOf(id)
		if mk == nil || mk.Use.Station != "punch" || s.forbidden(id) {
			continue
		}
		for i := range s.prof.Punches {
			p := &s.prof.Punches[i]
			if p.Name != mk.Use.Tool || p.Machine != "" && p.Machine != mk.Use.Machine || !p.MayBuy(s.prof) {
				continue
			}
			bore, ok := station.DieToBuy(s.prof, p.WidthMM, s.rep.Job.ThicknessMM, s.rep.Job.Material)
			if !ok {
				continue
			}
			steps = merge(steps, []change.Step{{Kind: change.Die, Name: p.Name, On: p.Machine, DieMM: bore, Features: []string{id}}})
		}
	}
	if len(steps) == 0 {
		return nil
	}
	return [][]change.Step{steps}
}

// punches buys punches with their dies, for each machine in turn that has a
// holder for them.
func (s *suggester) punches(ids []string) [][]change.Step {
	if !s.prof.Buy {
		return nil
	}
	var out [][]change.Step
	for k := range s.prof.Machines {
		m := &s.prof.Machines[k]
		if m.Punch == nil || s.asked.Machine != "" && m.Name != s.asked.Machine {
			continue
		}
		var steps []change.Step
		whole := true
		for _, id := range ids {
			f := s.feature(id)
			if f == nil || !f.IsInside() || s.forbidden(id) {
				whole = false
				break
			}
			p, ok := plan.PunchToBuy(s.prof, f, &s.rep.Job)
			if !ok || f.Process != "" {
				whole = false
				break
			}
			holder := ""
			if len(m.Punch.Holders) > 0 {
				h := smallestHolder(m.Punch, p.Body())
				if h == nil {
					whole = false
					break
				}
				holder = h.Name
			}
			steps = merge(steps, []change.Step{{Kind: change.Punch, Tool: &p, On: m.Name, Holder: holder, Features: []string{id}}})
		}
		if whole && len(steps) > 0 {
			out = append(out, steps)
		}
	}
	// The machine that the plan has taken comes first.
	first := ""
	if len(ids) > 0 {
		if mk := s.makeOf(ids[0]); mk != nil {
			first = mk.Use.Machine
		}
	}
	slices.SortStableFunc(out, func(a, b []change.Step) int {
		at := func(l []change.Step) int {
			if l[0].On == first {
				return 0
			}
			return 1
		}
		return cmp.Compare(at(a), at(b))
	})
	return out
}

// smallestHolder is the smallest holder that takes a body; nil none.
func smallestHolder(st *shop.PunchStation, bodyMM float64) *shop.Holder {
	var best *shop.Holder
	for i := range st.Holders {
		if h := &st.Holders[i]; bodyMM <= h.MaxMM*(1+relative) && (best == nil || h.MaxMM < best.MaxMM) {
			best = h
		}
	}
	return best
}

// processes makes the features beside the machines, by what the shop has.
func (s *suggester) processes(ids []string) [][]change.Step {
	var out [][]change.Step
	for _, kind := range shop.ProcessKinds() {
		if p := s.prof.Process(kind); !p.Have {
			continue
		}
		var made []string
		for _, id := range ids {
			f := s.feature(id)
			if f == nil {
				continue
			}
			if !mayMake(kind, f) {
				continue
			}
			made = append(made, id)
		}
		if len(made) > 0 {
			out = append(out, []change.Step{{Kind: change.Process, Features: made, Process: kind}})
		}
	}
	return out
}

// mayMake tells whether a process beside the machines is one for a feature of
// this kind at all.
func mayMake(kind string, f *features.Feature) bool {
	switch kind {
	case "drill":
		return f.Kind == features.RoundHole
	case "tap":
		return f.Kind == features.TappedHole
	case "countersink":
		return f.Kind == features.HoleWithSeat
	case "grinder":
		return f.Kind == features.CornerRadius || f.Kind == features.ArcCut || f.Kind == features.CornerClip
	case "saw":
		return f.Kind == features.StraightCut || f.Kind == features.CornerClip || f.Kind == features.Notch
	case "thermal", "bought-cutting":
		return f.Kind != features.TappedHole && f.Kind != features.HoleWithSeat && f.Kind != features.Bend && f.Kind != features.Mark
	}
	return false
}

// flats buys a flat of a usual width that the part needs no long cut from.
func (s *suggester) flats() [][]change.Step {
	b := &s.base.rep.Plan.Blank
	if s.rep.Part.Angle != nil || !s.prof.Buy || !s.prof.Stock.Stated || s.asked.BlankGiven {
		return nil
	}
	var out [][]change.Step
	for _, w := range []float64{min(b.WidthMM, b.LengthMM), max(b.WidthMM, b.LengthMM)} {
		if plan.IsUsualFlat(w) && !slices.ContainsFunc(s.prof.Stock.FlatWidthsMM, func(o float64) bool { return math.Abs(o-w) < 0.01 }) {
			out = append(out, []change.Step{{Kind: change.Blank, FlatMM: math.Round(w*100) / 100}})
		}
	}
	return out
}

// given has the blank come cut to the part's rectangle, where the shop has its
// cutting done outside.
func (s *suggester) given() [][]change.Step {
	if b := &s.base.rep.Plan.Blank; !s.asked.BlankGiven && s.rep.Part.Angle == nil && s.prof.Buy {
		return [][]change.Step{{{Kind: change.Blank, Given: true, SizeMM: [2]float64{b.LengthMM, b.WidthMM}}}}
	}
	return nil
}

// angles buys the rolled angle that the part is made of.
func (s *suggester) angles() [][]change.Step {
	a := s.rep.Part.Angle
	if a == nil || !s.prof.Buy || !(min(a.LegMM[0], a.LegMM[1]) > 0) {
		return nil
	}
	bar := shop.AngleBar{LegMM: [2]float64{max(a.LegMM[0], a.LegMM[1]), min(a.LegMM[0], a.LegMM[1])}, ThicknessMM: s.rep.Job.ThicknessMM}
	return [][]change.Step{{{Kind: change.Blank, Angle: &bar}}}
}
