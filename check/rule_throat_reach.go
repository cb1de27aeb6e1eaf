package check

import "burrside/check/station"

func ruleThroatReach(set []station.Setting) Rule {
	return Rule{
		ID:      "throat-reach",
		Title:   "Reach of the throat",
		Why:     "The frame behind the punch stops the plate.",
		Measure: "From the hole to the nearest line of the hull round the work as it is at that step, and to the nearest one that carries a straight edge to gauge on. Error when the first is beyond the throat; warning when only the second is, or within the margin of the throat.",
		Fix:     "Turn the part, mark and centre-punch the hole, or drill it where the drill takes it.",
		Params:  stationParams(set, "throat-reach"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("panel", 1400, 1400)
			b.hole(700, 700, 22)
			return b.example("a hole Ø22 in the middle of a plate 1400 x 1400 x 6", 6, "")
		},
		Part: byStations,
	}
}
