package check

import "burrside/check/station"

func ruleNotchForce(set []station.Setting) Rule {
	return Rule{
		ID:      "notch-force",
		Title:   "Force to notch",
		Why:     "Past what the station may use the notcher stalls in the cut.",
		Measure: "Cut length of one bite (w + 2 h; a + b; 2 h/cos(A/2)) x thickness x shear strength against the usable force and the thickness that the tool takes.",
		Fix:     "Take smaller bites, or cut it by another process.",
		Params:  stationParams(set, "notch-force"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleNotched("bracket", 300, 200, 40, 40)
			return b.example("a plate 300 x 200 x 12 with a notch 40 wide and 40 deep", 12, "")
		},
		Part: byStations,
	}
}
