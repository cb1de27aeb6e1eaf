package check

import "burrside/check/station"

// exampleList makes an example of one line of a cut list.
func exampleList(text, line string) Example {
	return Example{Text: text, List: "section,length,quantity,material,end\n" + line + "\n"}
}

func ruleBarShear(set []station.Setting) Rule {
	return Rule{
		ID:    "bar-shear",
		Title: "Round or square bar within the bar shear",
		Why:   "A bar too large does not go through the blade's opening, one too strong stalls the shear, and one that lies loose bends and is left with a heavy burr.",
		Measure: "The bar's size against the cavities of the blade, and area x shear strength, an upper bound of the force, against what governs: the row, where each cavity promises its own size in the rows' steel; " +
			"or one force for all, where the shop file says so. Steel stronger than the rows mean counts by its strength, softer steel is never thicker. The cavity less the bar is the slack. Bars are cut square only.",
		Fix:     "Saw it.",
		Params:  stationParams(set, "bar-shear"),
		Sources: []Cite{shopPractice(), {Text: "area x shear strength, elementary strength of materials"}},
		Example: func() Example { return exampleList("ten pieces of round bar Ø18, 400 long", "RD 18,400 mm,10,S275,") },
		Bar:     barByStations,
	}
}
