package check

import "burrside/check/station"

func ruleEdgeProcess(set []station.Setting) Rule {
	return Rule{
		ID:      "edge-process",
		Title:   "Edge that no station cuts",
		Why:     "Shears cut straight: radii and arcs are ground, cut thermally or bought in.",
		Measure: "Arcs, corner radii and free edges of the outline against the processes that the shop has beside its machines.",
		Fix:     "Grind the radius, cut it thermally, or buy the blank cut to shape.",
		Params:  stationParams(set, "edge-process"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleRounded("bracket", 250, 120, 10)
			return b.example("a bracket 250 x 120 x 10 with four corners of radius 10", 10, "")
		},
		Part: byStations,
	}
}
