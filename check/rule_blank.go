package check

import "burrside/check/station"

func ruleBlank(set []station.Setting) Rule {
	return Rule{
		ID:      "blank",
		Title:   "Blank that the part is cut from",
		Why:     "A part starts with a cut from stock; when that is longer than the blade, it cannot be started.",
		Measure: "Flat bar of a width of the part, else a strip, else plate, whose first cut is as wide as the plate.",
		Fix:     "Buy the strip or the blank cut to size.",
		Params:  stationParams(set, "blank"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("panel", 1200, 900)
			b.hole(60, 450, 22)
			return b.example("a plate 1200 x 900 x 10", 10, "")
		},
		Part: byStations,
	}
}
