package check

import "burrside/check/station"

func ruleAngleMitre(set []station.Setting) Rule {
	return Rule{
		ID:      "angle-mitre",
		Title:   "Angle cut off square",
		Why:     "The blades of an angle shear mitre one leg up to an angle, and smaller sections than they cut square.",
		Measure: "Angle of the cut in each leg against square to the heel. One leg may be off square, as far as the shear is stated for and with the largest section stated for mitres; both legs off square are no mitre of an angle shear.",
		Fix:     "Saw it.",
		Params:  stationParams(set, "angle-mitre"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.mitre(45)
			e := b.example("an angle 75 x 75 x 8 with one leg mitred at 45 degrees, at the south bay alone", 8, "")
			e.Job.Machine = "south bay"
			return e
		},
		Part: byStations,
	}
}
