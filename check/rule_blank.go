package check

import (
	"slices"

	"burrside/check/station"
)

func ruleBlank(set []station.Setting) Rule {
	return Rule{
		ID:      "blank",
		Title:   "Blank that the part is cut from",
		Why:     "A part starts with a cut from stock; when that is longer than the blade, it cannot be started.",
		Measure: "Flat bar of a width of the part, else a strip, else plate, whose first cut is as wide as the plate. An angle from the length of its section on the rack. A thickness that the shop file lists stock without is noted.",
		Fix:     "Buy the strip or the blank cut to size.",
		Params:  stationParams(set, "blank"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("panel", 1200, 900)
			b.hole(60, 450, 22)
			return b.example("a plate 1200 x 900 x 10", 10, "")
		},
		Part: checkBlank,
	}
}

func checkBlank(p *Pass) {
	byStations(p)
	k, t := &p.Shop.Stock, p.Job.ThicknessMM
	if p.Part.Angle != nil || !k.ThicknessStated || !(t > 0) || p.Job.ThicknessFrom == "supposed" || slices.ContainsFunc(k.ThicknessMM, func(v float64) bool { return abs(v-t) < 0.01 }) {
		return
	}
	p.Report(Finding{Severity: Note, Who: "buy", FixBy: "shop", Message: "the shop keeps no plate of " + numberLength(p, t), Fix: "buy the plate", cause: "no stock"})
}
