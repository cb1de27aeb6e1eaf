package check

import "burrside/check/station"

func ruleLegNotch(set []station.Setting) Rule {
	return Rule{
		ID:    "leg-notch",
		Title: "Notch in one leg",
		Why:   "A notcher cuts one thickness of flat metal; at the heel there is a fillet and another leg.",
		Measure: "From the outside of the heel to the nearest metal cut away: at least t + r, or the tool runs into the fillet. " +
			"Through the heel it is no work for a notcher, nor for a punch. The other leg must hang clear of the die (t + r + die_beyond) or stand up clear of the tool (t + r + tool_beyond, and its height within leg_up), which puts the burr outside and needs care; so do several bites, between which the angle is moved along. " +
			"Where the shop file tells nothing of this, it needs care: try with the machine off.",
		Fix:     "Saw it or cut it thermally.",
		Params:  stationParams(set, "leg-notch"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.notch(0, 200, 60, 60)
			return b.example("an angle 75 x 75 x 8 with a notch 60 deep in one leg", 8, "")
		},
		Part: byStations,
	}
}
