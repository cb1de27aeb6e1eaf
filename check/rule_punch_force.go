package check

import "burrside/check/station"

func rulePunchForce(set []station.Setting) Rule {
	return Rule{
		ID:      "punch-force",
		Title:   "Force to punch a hole",
		Why:     "Past what the station may use, the overload valve opens or the frame gives; the hole is not made.",
		Measure: "F = cut length x thickness x shear strength. Usable is the force of the heaviest capacity row at its basis, else the rated force times the usable share. Error above usable at the nominal strength; warning when only the upper strength that may be delivered goes above it. A hole that one row covers in size and thickness, in its material or a softer one, passes.",
		Fix:     "Punch it at a stronger station, or drill it where the drill takes it.",
		Params:  stationParams(set, "punch-force"),
		Sources: []Cite{{Text: "F = L t S: Singer and Pytel, Strength of Materials, problem 115"}},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(100, 70, 60)
			return b.example("a hole Ø60 in a plate 200 x 140 x 25", 25, "")
		},
		Part: byStations,
	}
}
