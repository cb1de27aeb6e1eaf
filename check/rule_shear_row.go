package check

import "burrside/check/station"

func ruleShearRow(set []station.Setting) Rule {
	return Rule{
		ID:      "shear-row",
		Title:   "Cut within the rows of the shear",
		Why:     "Past its rows the blade stalls, springs or chips.",
		Measure: "Length of the cut line through the metal that is there at that step, at its angle, against the rows (thickness, longest cut). One row that covers both passes; between neighbouring rows, on or below the line that joins them in log t and log L, is a warning; else an error. Rows hold for stock at the pivot end of the blade: a cut that would pass the greatest moment of the rows at its far end is told where it belongs, and no place makes a cut pass that no row covers. Other metals by the thickness that needs the same force, never thicker than the rows.",
		Fix:     "Cut it at a larger shear, saw it, or cut it thermally.",
		Params:  stationParams(set, "shear-row"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("bar", 400, 300)
			b.hole(60, 150, 26)
			return b.example("a part 400 x 300 x 25 from flat bar", 25, "")
		},
		Part: byStations,
	}
}
