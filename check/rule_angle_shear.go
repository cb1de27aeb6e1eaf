package check

import "burrside/check/station"

func ruleAngleShear(set []station.Setting) Rule {
	return Rule{
		ID:      "angle-shear",
		Title:   "Angle within the angle shear",
		Why:     "Past its largest section the shear stalls, or the angle does not go between its blades.",
		Measure: "The wider leg and the thickness against the largest section that the shear is stated for; steel stronger than the one meant by its strength, t S / S of the list, softer steel never thicker. Area x shear strength is the upper bound of the force, as the blade goes through progressively: it lets pass with care what the list refuses for its strength alone. Unequal legs are noted where they need a blade of their own.",
		Fix:     "Saw it.",
		Params:  stationParams(set, "angle-shear"),
		Sources: []Cite{shopPractice(), {Text: "area x shear strength, elementary strength of materials"}},
		Example: func() Example {
			return exampleAngle(400, 150, 150, 14, 16).example("an angle 150 x 150 x 14, 400 long", 14, "")
		},
		Part: byStations,
	}
}
