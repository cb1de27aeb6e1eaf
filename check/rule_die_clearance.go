package check

import "burrside/check/station"

func ruleDieClearance(set []station.Setting) Rule {
	return Rule{
		ID:      "die-clearance",
		Title:   "Clearance between punch and die",
		Why:     "Too tight: the punch sticks and the force rises. Too wide: the edge rolls and the burr is heavy.",
		Measure: "Die bore minus punch, as a share of the thickness; of all dies of the punch the one nearest the aim. Warning outside 5 to 30 %; error when the die is no larger than the punch.",
		Fix:     "Take a die with the right bore.",
		Params:  stationParams(set, "die-clearance"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(100, 70, 36)
			return b.example("a hole Ø36 in a plate 200 x 140 x 3", 3, "")
		},
		Part: byStations,
	}
}
