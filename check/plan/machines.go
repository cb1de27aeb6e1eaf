package plan

import (
	"math"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
)

// machineUses sets the part against each machine alone. What a process beside
// the machines makes although a machine might is left out only where no machine
// of this kind ever makes it (edges, seats, threads).
func (pl *planner) machineUses() []MachineUse {
	var ms []MachineUse
	for _, m := range pl.machines {
		ms = append(ms, pl.machineUse(m))
	}
	return ms
}

func (pl *planner) machineUse(m *shop.Machine) MachineUse {
	mu := MachineUse{Name: m.Name}
	if !pl.known() {
		mu.Grade = station.Unknown
		mu.Limiting = pl.missing()[0]
		return mu
	}
	look := func(all []station.Use, at string, ids []string) {
		var best *station.Use
		for i := range all {
			if u := &all[i]; u.Machine == m.Name && u.Station == at && (best == nil || u.Grade() < best.Grade()) {
				best = u
			}
		}
		if best == nil {
			best = &station.Use{Machine: m.Name, Station: at, Aspects: []station.Aspect{{Rule: missingRule(at), Grade: station.Fail, Text: m.Name + " has no " + at}}}
		}
		a := limitingShare(*best)
		switch {
		case a.Grade > mu.Grade || mu.Limiting.Rule == "":
			mu.Grade, mu.Limiting, mu.Features = max(mu.Grade, a.Grade), a, ids
		case a.Grade == mu.Grade && a.Rule == mu.Limiting.Rule && (a.Grade > station.OK || math.Abs(share(a)-share(mu.Limiting)) <= 1e-9):
			mu.Features = append(mu.Features, ids...)
			if share(a) > share(mu.Limiting) {
				mu.Limiting = a
			}
		case a.Grade == mu.Grade && share(a) > share(mu.Limiting)+1e-9:
			mu.Limiting, mu.Features = a, ids
		}
		mu.Share = share(mu.Limiting)
	}
	for _, a := range pl.out.Blank.Aspects {
		if a.Grade > mu.Grade {
			mu.Grade, mu.Limiting, mu.Features = a.Grade, a, nil
		}
	}
	at := "shear"
	if pl.part.Angle != nil {
		at = "angle shear"
	}
	for _, c := range pl.out.Cuts {
		if c.Use.Station == at || len(c.Tried) > 0 {
			look(append([]station.Use{c.Use}, c.Tried...), at, pl.ids(c.Features))
		}
	}
	for _, mk := range pl.out.Makes {
		f := &pl.part.Features[mk.Feature]
		all := append([]station.Use{mk.Use}, mk.Tried...)
		switch {
		case f.IsInside() && specialProcess(f) == "":
			look(all, "punch", []string{f.ID})
		case f.Kind == features.Notch:
			look(all, "notcher", []string{f.ID})
		case f.Kind == features.Bend && mk.Use.Machine != "":
			look(all, "brake", []string{f.ID})
		case f.Kind == features.Bend && mu.Grade < station.Unknown:
			// No machine of the shop is known to have a brake.
			mu.Grade, mu.Limiting, mu.Features, mu.Share = station.Unknown, limiting(mk.Use), []string{f.ID}, 0
		}
	}
	return mu
}

// limitingShare is the aspect that limits a use: of the worst grade (a remark is
// no trouble) the one that takes most of its limit.
func limitingShare(u station.Use) station.Aspect {
	level := func(g station.Grade) station.Grade {
		if g == station.Remark {
			return station.OK
		}
		return g
	}
	var worst station.Aspect
	for i, a := range u.Aspects {
		if g, w := level(a.Grade), level(worst.Grade); i == 0 || g > w || g == w && share(a) > share(worst) {
			worst = a
		}
	}
	worst.Grade = level(worst.Grade)
	return worst
}

// share is how much of a force an aspect takes, 0 if it is of none: lengths may
// be limits from above or from below, forces only from above.
func share(a station.Aspect) float64 {
	if !a.HasGot || !a.HasLimit || a.Limit <= 0 || a.Unit != "kN" {
		return 0
	}
	return a.Got / a.Limit
}

// missingRule is the rule under which a missing station is reported.
func missingRule(at string) string {
	switch at {
	case "punch":
		return "tool"
	case "shear":
		return "shear-row"
	case "angle shear":
		return "angle-shear"
	case "notcher":
		return "notch-tool"
	}
	return "bend"
}

func (pl *planner) ids(is []int) []string {
	var ids []string
	for _, i := range is {
		ids = append(ids, pl.part.Features[i].ID)
	}
	return ids
}
