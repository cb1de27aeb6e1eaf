package check

import (
	"burrside/check/station"
	"burrside/features"
)

// unspoken gives a finding for each trouble that no rule spoke of: nothing that
// plan could not make, could not tell, or makes with care goes by in silence.
func unspoken(p *Pass, rules []Rule) []Finding {
	known := map[string]bool{}
	for i := range rules {
		known[rules[i].ID] = true
	}
	spoken := map[string]station.Grade{} // by feature
	for i := range p.findings {
		for _, id := range p.findings[i].Features {
			spoken[id] = max(spoken[id], gradeOf(&p.findings[i]))
		}
	}
	// What is said of the blank or the whole part is said of its edges too.
	whole := map[string]station.Grade{} // by rule
	for i := range p.findings {
		if f := &p.findings[i]; len(f.Features) == 0 {
			whole[f.Rule] = max(whole[f.Rule], gradeOf(f))
		}
	}
	var out []Finding
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		f := &p.Part.Features[m.Feature]
		for _, a := range m.Use.Aspects {
			if a.Grade > station.OK && whole[a.Rule] >= a.Grade {
				spoken[f.ID] = max(spoken[f.ID], a.Grade)
			}
		}
		for _, a := range m.Use.Aspects {
			if a.Grade > station.OK && !known[a.Rule] {
				x := p.on(m.Feature, fromAspect(a, &m.Use))
				x.Rule, x.Count, x.Sources = a.Rule, 1, []string{shopPractice().Text}
				out = append(out, x)
				spoken[f.ID] = max(spoken[f.ID], a.Grade)
			}
		}
		x := Finding{Rule: ruleForKind(f), Severity: Error, Count: 1, Who: "shop", FixBy: "shop", Sources: []string{shopPractice().Text}}
		switch {
		case m.MadeBy == "nothing" && spoken[f.ID] < station.Fail:
			x.Message = "nothing in this shop makes the " + sizeText(p.Shop, f)
			x.Fix = "have it made by a shop that can"
		case m.MadeBy == "unknown" && f.Kind != features.Mark && spoken[f.ID] < station.Unknown && p.Job.ThicknessMM > 0 && hasSteel(&p.Job):
			x.Severity, x.CannotTell = Warning, true
			x.Message = "it cannot be told what makes the " + sizeText(p.Shop, f)
		case m.Also != nil && spoken[f.ID] < station.Care:
			x.Severity = Warning
			x.Message = "no station of a machine makes the " + sizeText(p.Shop, f) + "; " + processWords(m.Also.Kind) + " does"
			x.Fix = byProcess(m.Also.Kind)
		default:
			continue
		}
		out = append(out, p.on(m.Feature, x))
	}
	return out
}

// ruleForKind is the rule under which a feature is spoken of that no other rule
// mentions.
func ruleForKind(f *features.Feature) string {
	switch {
	case f.Kind == features.Bend:
		return "bend"
	case f.Kind == features.Notch:
		return "notch-tool"
	case f.Kind == features.HoleWithSeat, f.Kind == features.TappedHole:
		return "hole-process"
	case f.Kind == features.RoundHole:
		return "tool"
	case f.IsInside():
		return "opening"
	}
	return "edge-process"
}

// processWords names a process that the shop has beside its machines.
func processWords(kind string) string {
	switch kind {
	case "drill":
		return "drilling"
	case "tap":
		return "drilling and tapping"
	case "countersink":
		return "countersinking"
	case "saw":
		return "sawing"
	case "thermal":
		return "thermal cutting"
	case "grinder":
		return "grinding"
	case "bought-cutting":
		return "bought-in cutting"
	}
	return kind
}

// byProcess is the order to use a process.
func byProcess(kind string) string {
	switch kind {
	case "drill":
		return "drill it"
	case "tap":
		return "drill and tap it"
	case "countersink":
		return "drill and countersink it"
	case "saw":
		return "saw it"
	case "thermal":
		return "cut it thermally"
	case "grinder":
		return "nibble it and grind it to shape"
	case "bought-cutting":
		return "buy it in, cut to shape"
	}
	return "make it by " + kind
}
