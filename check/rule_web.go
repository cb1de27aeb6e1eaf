package check

import (
	"fmt"

	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

func webParams() []Param {
	return []Param{
		{"error", "t", 0.5, 0.1, 3, "metal left, times the thickness, below which it is an error", Cite{}},
		{"care", "t", 1, 0.1, 5, "metal left, times the thickness, below which it needs care", Cite{}},
	}
}

func ruleWeb() Rule {
	return Rule{
		ID:    "web",
		Title: "Metal left between a hole and an edge, or two holes",
		Why: "A thin web bulges or tears when it is punched, cracks beside the cut, and lets the part wander under the stripper. " +
			"Code-legal bolt holes come down to about 0.7 t, so more is not asked.",
		Measure: "The least distance between the contour of a hole and the outline (edges, notches, clips), and between two holes, " +
			"on the exact lines and arcs. Error below 0.5 t, warning below 1.0 t; equality passes. In an angle within one leg; toward the heel see root-fillet. Beside a hole that is drilled the warning is below the error's limit, and the error below half of it.",
		Fix:     "Cut the edge first and punch after it, with the stripper close to the plate; or drill.",
		Params:  webParams(),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(16, 70, 18)
			return b.example("a hole Ø18 with its centre 16 mm from the end of a plate 200 x 140 x 10", 10, "")
		},
		Part: checkWeb,
	}
}

func checkWeb(p *Pass) {
	if p.noThickness() {
		return
	}
	t := p.Job.ThicknessMM
	errorMM, careMM := p.Value("error")*t, p.Value("care")*t
	within := max(errorMM, careMM)
	m := p.distances()
	for i := range p.Part.Features {
		if i%1024 == 1023 && p.ended() {
			return
		}
		f := &p.Part.Features[i]
		if !f.IsInside() || f.CrossesOutline {
			continue
		}
		if g, ok := m.toOutline(i, within); ok {
			p.reportWeb(i, &g, "the "+p.edgeWords(&g), errorMM, careMM)
		}
		for _, g := range m.toHoles(i, within) {
			if !p.Part.Features[g.feature].CrossesOutline {
				p.reportWeb(i, &g, "", errorMM, careMM)
			}
		}
	}
}

func (p *Pass) reportWeb(i int, g *gap, to string, errorMM, careMM float64) {
	f := Finding{At: g.from, HasAt: true, To: &geom.Point{X: g.to.X, Y: g.to.Y}, Got: &Quantity{g.mm, "mm"}, cause: "edge"}
	limit, factor := careMM, p.Value("care")
	if p.isDrilled(i) && (to != "" || p.isDrilled(g.feature)) {
		// Nothing pushes the metal aside: it need only hold its shape.
		careMM = min(careMM, errorMM)
		limit, factor = careMM, min(factor, p.Value("error"))
	}
	switch {
	case isBelow(g.mm, errorMM/2), isBelow(g.mm, errorMM) && !p.isDrilled(i) && !(to == "" && p.isDrilled(g.feature)):
		if !isBelow(g.mm, errorMM/2) && p.isPunched(i) && p.Part.Features[i].Kind == features.RoundHole {
			p.tooThin = append(p.tooThin, i)
		}
		limit, factor = errorMM, p.Value("error")
		f.Severity, f.Who, f.FixBy = Error, "designer", "drawing"
		f.Fix, f.remedy = fmt.Sprintf("would the designer accept %s more metal there?", p.roundedUp(limit-g.mm)), "more metal"
	case isBelow(g.mm, careMM) || isBelow(g.mm, errorMM):
		f.Severity, f.FixBy = Warning, "shop"
		f.Fix = "cut the edge first, then punch with the stripper close to the plate"
		if !p.isPunched(i) {
			f.Fix = "clamp the thin web flat while it is made"
		}
		if isBelow(g.mm, errorMM) { // too thin to punch, so the plan drills one of the two
			limit, factor, f.Fix = errorMM, p.Value("error"), "drill it, with the thin web clamped flat: there is too little metal to punch it"
			if !p.isDrilled(i) {
				f.Fix = fmt.Sprintf("drill %s, with the thin web clamped flat: there is too little metal to punch it", p.Part.Features[g.feature].ID)
			}
			f.remedy = "drill"
		}
	default:
		return
	}
	f.Limit, f.worse = &Quantity{limit, "mm"}, limit-g.mm
	got, need := below(p.Shop, g.mm, limit)
	if to == "" {
		f.cause = "hole"
		if f.Severity == Warning && f.remedy == "" {
			f.Fix = "clamp the thin web flat while it is made"
			if p.isPunched(i) && p.isPunched(g.feature) {
				f.Fix = "punch every second hole first, then those between"
			}
		}
		f.Features = []string{p.Part.Features[g.feature].ID}
		to = p.Part.Features[g.feature].ID
	}
	f.Message = fmt.Sprintf("%s of metal between the %s and %s, less than %s", got, sizeText(p.Shop, &p.Part.Features[i]), to, need)
	f.Basis = fmt.Sprintf("%s x %s = %s", measure.FormatNumber(factor, 3), p.length(p.Job.ThicknessMM), p.length(limit))
	p.Report(p.on(i, f))
}

// isDrilled tells that a feature is made without a punch's push: a web that is
// too thin to punch can then be left with care.
func (p *Pass) isDrilled(i int) bool { by := p.madeBy(i); return by == "drill" || by == "tap" }

// isPunched tells that a feature is punched, or will be once the thickness and
// the material are known.
func (p *Pass) isPunched(i int) bool { by := p.madeBy(i); return by == "punch" || by == "unknown" }

// madeBy names what makes a feature; "" when the plan does not say.
func (p *Pass) madeBy(i int) string {
	if i < len(p.Plan.Makes) && p.Plan.Makes[i].Feature == i {
		return p.Plan.Makes[i].MadeBy
	}
	for k := range p.Plan.Makes {
		if m := &p.Plan.Makes[k]; m.Feature == i {
			return m.MadeBy
		}
	}
	return ""
}
