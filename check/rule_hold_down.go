package check

import "burrside/check/station"

func ruleHoldDown(set []station.Setting) Rule {
	return Rule{
		ID:      "hold-down",
		Title:   "Piece held under the hold-down",
		Why:     "A piece that the hold-down does not reach tips up into the blade.",
		Measure: "Extent of the held piece, square to the cut, at that step: the bar while the part is on it, the part after.",
		Fix:     "Cut it while it is on the bar.",
		Params:  stationParams(set, "hold-down"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleClipped("clip", 60, 60, 25)
			return b.example("a part 60 x 60 x 6 with four clipped corners of 25 mm", 6, "")
		},
		Part: byStations,
	}
}
