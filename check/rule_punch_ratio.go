package check

import "burrside/check/station"

func rulePunchRatio(set []station.Setting) Rule {
	return Rule{
		ID:      "punch-ratio",
		Title:   "Hole against thickness: pressure in the punch",
		Why:     "A punch that is thin for the plate buckles or splits, and its pieces fly.",
		Measure: "sigma = cut length x t x S / area of the punch, for a round one 4 S t / d, at the nominal strength. Error when the hole is smaller than the plate is thick, or above 1700 MPa; warning above 1400 MPa. A hole as large as the plate is thick passes.",
		Fix:     "Drill it.",
		Params:  stationParams(set, "punch-ratio"),
		Sources: []Cite{{Text: "sigma = 4 S t/d: Singer and Pytel, Strength of Materials, problem 116"}},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(100, 70, 8)
			return b.example("a hole Ø8 in a plate 200 x 140 x 10", 10, "")
		},
		Part: byStations,
	}
}
