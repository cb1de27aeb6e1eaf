package check

import "burrside/check/station"

func ruleDieHolder(set []station.Setting) Rule {
	return Rule{
		ID:      "die-holder",
		Title:   "Holder that takes the tool",
		Why:     "A tool is held by its body: its diameter, diagonal or overall length must go into the holder.",
		Measure: "Diameter of a round punch, diagonal of a square or rectangle, length of a slot, corners of a hexagon against the largest body of each holder.",
		Fix:     "Use a larger holder.",
		Params:  stationParams(set, "die-holder"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(100, 70, 110)
			return b.example("a hole Ø110 in a plate 200 x 140 x 5", 5, "")
		},
		Part: byStations,
	}
}
