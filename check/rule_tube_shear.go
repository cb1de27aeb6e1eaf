package check

import "burrside/check/station"

func ruleTubeShear(set []station.Setting) Rule {
	return Rule{
		ID:    "tube-shear",
		Title: "Tube within the tube shear",
		Why:   "A tube with a wall too thick stalls the shear, one with a side too long does not go in or is crushed.",
		Measure: "Greater side (or diameter) and wall against the rows of the station. Between two rows, on or below the line through them in the logarithms of both, it passes with care. " +
			"Steel stronger than the rows mean by wall x S / S of the rows, softer steel never thicker. Tubes are cut square only.",
		Fix:     "Saw it.",
		Params:  stationParams(set, "tube-shear"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return exampleList("six pieces of tube 60 x 40 x 4, 1 m long", "RHS 60x40x4,1000 mm,6,S275,")
		},
		Bar: barByStations,
	}
}
