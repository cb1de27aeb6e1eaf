package check

import "burrside/check/station"

func ruleBend(set []station.Setting) Rule {
	return Rule{
		ID:      "bend",
		Title:   "Bend within the brake",
		Why:     "Too little tool, too small a die opening or too short a flange: the bend is not made, or slips.",
		Measure: "Force C x Rm x L x t^2 / V over the die openings of the brake; flange at least 0.7 V. Without a brake, or without the tensile strength, it cannot be told.",
		Fix:     "Have it bent at a larger brake.",
		Params:  stationParams(set, "bend"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleBent("angle", 400, 300)
			return b.example("a plate 400 x 300 x 12 with a bend across", 12, "")
		},
		Part: byStations,
	}
}
