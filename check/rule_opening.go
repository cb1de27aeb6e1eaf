package check

import "burrside/check/station"

func ruleOpening(set []station.Setting) Rule {
	return Rule{
		ID:      "opening",
		Title:   "Cut-out that no single tool makes",
		Why:     "A shape without a punch needs several hits, another process, or another shop.",
		Measure: "The shape against the tools on the rack and the processes beside the machines.",
		Fix:     "Cut it thermally, or have it bought in.",
		Params:  stationParams(set, "opening"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.opening(100, 70, 90, 60)
			return b.example("an opening 90 x 60 in a plate 200 x 140 x 10", 10, "")
		},
		Part: byStations,
	}
}
