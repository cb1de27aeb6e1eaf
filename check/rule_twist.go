package check

import "burrside/check/station"

func ruleTwist(set []station.Setting) Rule {
	return Rule{
		ID:      "twist",
		Title:   "Narrow strip twists off the shear",
		Why:     "The blades part a narrow strip a little at a time and bend it on the way: it curls and has to be straightened.",
		Measure: "Width of a strip that is cut off plate, against 8 t: a note. Ends cut off a bar do not count.",
		Fix:     "Take flat bar, or straighten the strip.",
		Params:  stationParams(set, "twist"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("strip", 380, 72)
			return b.example("a strip 380 x 72 x 12 from wider flat", 12, "")
		},
		Part: byStations,
	}
}
