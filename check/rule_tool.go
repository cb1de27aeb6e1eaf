package check

import "burrside/check/station"

func ruleTool(set []station.Setting) Rule {
	return Rule{
		ID:      "tool",
		Title:   "Punch on the rack, or to buy",
		Why:     "A hole is made by a tool that the shop has; one that it lacks is a small order, not a reason to refuse.",
		Measure: "Size of the nearest punch of that shape against the drawn hole: -0.2 to +0.5 mm is the tool, to +1.0 mm with care; none: buy it, when a holder takes it; an error only when no holder does or the shop does not buy.",
		Fix:     "Buy the punch with its die.",
		Params:  stationParams(set, "tool"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(100, 70, 37)
			return b.example("a hole Ø37 in a plate 200 x 140 x 10", 10, "")
		},
		Part: byStations,
	}
}
