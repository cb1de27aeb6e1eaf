package check

import "burrside/check/station"

func ruleSliver(set []station.Setting) Rule {
	return Rule{
		ID:      "sliver",
		Title:   "Narrow offcut",
		Why:     "A strip thinner than the plate wedges between the blades.",
		Measure: "Least width of what a shear cut takes off: error below 1 t, warning below 2 t or 5 mm.",
		Fix:     "Cut it wider, or grind it off.",
		Params:  stationParams(set, "sliver"),
		Sources: stationSources(set, "sliver"),
		Example: func() Example {
			b := examplePlate("tread", 400, 97)
			b.hole(60, 48, 18)
			return b.example("a plate 400 x 97 x 10", 10, "")
		},
		Part: byStations,
	}
}
