package check

import (
	"fmt"

	"burrside/features"
)

func ruleRootFillet() Rule {
	return Rule{
		ID:    "root-fillet",
		Title: "Hole clear of the fillet at the heel",
		Why:   "Between the legs the metal thickens to a fillet: a punch that cuts into it is pushed sideways, and neither nut nor washer sits flat on it.",
		Measure: "From the outside of the heel to the nearest point of the hole: g - d/2 >= t + r, the distance to the toe of the fillet by the section table where it is known. " +
			"Warning below, error below t + r/2. Root radius not known: what clears t + the lesser of 2.5 t and 1/5 of the longer leg passes, what does not clear t is an error, between the two it cannot be told.",
		Fix:     "Ask the designer whether the hole may lie further from the heel.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.hole(0, 100, 25, 18)
			return b.example("an angle 75 x 75 x 8 with a hole Ø18 at a gauge of 25 mm", 8, "")
		},
		Part: checkRootFillet,
	}
}

func checkRootFillet(p *Pass) {
	a := p.Part.Angle
	if a == nil || !hasInside(p.Part) || p.noThickness() {
		return
	}
	t := p.Job.ThicknessMM
	s := p.section()
	k, known := s.Root()
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		if !f.IsInside() || f.Leg == "" || len(f.Ring) == 0 {
			continue
		}
		got := a.NearHeelMM(f)
		half := t + (k-t)/2
		if !known {
			half = t
		}
		x := Finding{Severity: Warning, Who: "designer", FixBy: "drawing", Got: &Quantity{got, "mm"}, Limit: &Quantity{k, "mm"}, worse: k - got,
			Fix: fmt.Sprintf("would the designer accept the hole %s further from the heel?", p.roundedUp(k-got)), remedy: "further from the heel",
			Basis: fmt.Sprintf("heel to the toe of the fillet %s; t = %s", p.length(k), p.length(t))}
		if !known {
			x.Basis = fmt.Sprintf("root radius not known: at most %s from the heel to the toe of the fillet; t = %s", p.length(k), p.length(t))
		}
		g, need := below(p.Shop, got, k)
		switch {
		case !isBelow(got, k):
			continue
		case isBelow(got, half):
			g, need = below(p.Shop, got, half)
			x.Severity, x.Limit = Error, &Quantity{half, "mm"}
			x.Message = fmt.Sprintf("the %s is cut into the heel's fillet: %s from the heel, it needs %s", sizeText(p.Shop, f), g, need)
		case !known:
			x.CannotTell, x.Who, x.Fix = true, "customer", "which section is it, and what is its root radius?"
			x.Message = fmt.Sprintf("the %s may lie in the heel's fillet, whose radius is not known: %s from the heel, it needs up to %s", sizeText(p.Shop, f), g, need)
		default:
			x.Message = fmt.Sprintf("the %s runs into the heel's fillet: %s from the heel, it needs %s", sizeText(p.Shop, f), g, need)
		}
		p.Report(p.on(i, x))
	}
}

// hasInside tells that a part has a hole or opening.
func hasInside(part *features.Part) bool {
	for i := range part.Features {
		if part.Features[i].IsInside() {
			return true
		}
	}
	return false
}
