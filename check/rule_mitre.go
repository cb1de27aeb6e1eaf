package check

import "burrside/check/station"

func ruleMitre(set []station.Setting) Rule {
	return Rule{
		ID:      "mitre",
		Title:   "Cut off square",
		Why:     "The table turns so far and no further.",
		Measure: "Angle of the cut against square to the bar, and the length that it then has: width / cos(angle).",
		Fix:     "Saw it.",
		Params:  stationParams(set, "mitre"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			e := exampleMitre("brace", 400, 100, 65).example("a bar 400 x 100 x 10 with one end cut 65 degrees off square, at the north bay alone", 10, "")
			e.Job.Machine = "north bay"
			return e
		},
		Part: byStations,
	}
}
