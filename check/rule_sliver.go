package check

import (
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

func ruleSliver(set []station.Setting) Rule {
	return Rule{
		ID:      "sliver",
		Title:   "Narrow offcut",
		Why:     "A strip thinner than the plate wedges between the blades.",
		Measure: "Least width of what a shear cut takes off: error below 1 t, warning below 2 t or 5 mm.",
		Fix:     "Cut it wider, or grind it off.",
		Params:  stationParams(set, "sliver"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleOutline("tread", geom.RingOf(geom.Point{}, geom.Point{X: 400}, geom.Point{X: 400, Y: 97}, geom.Point{Y: 100}))
			for i := range 4 {
				b.edge(features.StraightCut, i)
			}
			b.hole(60, 48, 18)
			return b.example("a tread 400 long, tapered from 100 to 97, 10 thick", 10, "")
		},
		Part: byStations,
	}
}
