package check

import (
	"fmt"

	"burrside/features/measure"
)

func liftParams() []Param {
	return []Param{
		{"one", "kg", 25, 5, 60, "blank that one person handles", Cite{}},
		{"hoist", "kg", 50, 10, 200, "blank above which a hoist is used", Cite{}},
	}
}

func ruleLift() Rule {
	return Rule{
		ID:      "lift",
		Title:   "Weight of the blank as handled",
		Why:     "Backs and toes: a blank is lifted, turned and held against the fence by hand.",
		Measure: "Mass of the blank before anything is cut out of it: area x thickness x density. Above 25 kg two people or a hoist, above 50 kg a hoist.",
		Fix:     "Lift it with two people or a hoist.",
		Params:  liftParams(),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("base", 500, 400)
			b.hole(60, 60, 26)
			b.hole(440, 60, 26)
			return b.example("a base plate 500 x 400 x 20", 20, "")
		},
		Part: checkLift,
		Bar:  checkBarLift,
	}
}

func checkLift(p *Pass) {
	if p.noThickness() {
		return
	}
	kg := p.Plan.Work.GrossKG
	basis := "gross weight of the blank"
	if !(kg > 0) {
		if p.Job.Material == nil || !(p.Job.Material.DensityKgM3 > 0) {
			p.Skip("needs the material's density")
			return
		}
		fr := p.blankFrame()
		l, w, t := fr.maxU-fr.minU, fr.maxV-fr.minV, p.Job.ThicknessMM
		kg = l * w * t * p.Job.Material.DensityKgM3 / 1e9
		basis = fmt.Sprintf("%s x %s x %s x %s kg/m3", p.length(l), p.length(w), p.length(t), measure.FormatNumber(p.Job.Material.DensityKgM3, 0))
	}
	if f, ok := heavy("blank", kg, p.Value("one"), p.Value("hoist"), basis); ok {
		p.Report(f)
	}
}

// heavy is the finding about what weighs more than one person lifts, or more
// than is lifted without a hoist; false for lighter things.
func heavy(what string, kg, one, hoist float64, basis string) (Finding, bool) {
	f := Finding{Severity: Warning, Got: &Quantity{kg, "kg"}, FixBy: "shop", Basis: basis,
		Message: fmt.Sprintf("the %s weighs %s kg", what, measure.FormatNumber(kg, 1))}
	switch {
	case isAbove(kg, hoist):
		f.Limit, f.Fix = &Quantity{hoist, "kg"}, "lift it with a hoist"
	case isAbove(kg, one):
		f.Limit, f.Fix = &Quantity{one, "kg"}, "lift it with two people or a hoist"
	default:
		return f, false
	}
	return f, true
}
