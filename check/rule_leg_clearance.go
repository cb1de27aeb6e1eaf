package check

import "burrside/check/station"

func ruleLegClearance(set []station.Setting) Rule {
	return Rule{
		ID:      "leg-clearance",
		Title:   "Die and stripper beside the other leg",
		Why:     "The die block, or the stripper above it, runs into the other leg and its fillet before the punch is over the hole.",
		Measure: "g from the outside of the heel to the centre of the hole. Other leg down (burr inside): g >= t + r + half width of the die block; offset die by its own half width, force and room for the hole. Other leg up (burr outside): g >= t + r + half width of the stripper, and the leg fits under the ram. t + r is the distance to the toe of the fillet by the section table where it is known. Root radius not known: only what clears t + the lesser of 2.5 t and 1/5 of the longer leg passes.",
		Fix:     "Use the offset die, lay the other leg up, or drill.",
		Params:  stationParams(set, "leg-clearance"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.hole(0, 100, 45, 18)
			e := b.example("an angle 75 x 75 x 8 with a hole Ø18 at a gauge of 45 mm, at the north bay alone", 8, "")
			e.Job.Machine = "north bay"
			return e
		},
		Part: byStations,
	}
}
