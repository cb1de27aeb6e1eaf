package check

import "burrside/check/station"

func ruleNotchTool(set []station.Setting) Rule {
	return Rule{
		ID:      "notch-tool",
		Title:   "Notch against the notching tools",
		Why:     "A tool wider or deeper than the notch cuts away more than is drawn.",
		Measure: "Rectangle W x H by a tool w x D: H <= D and W >= w; 1 + ceil((W - w)/(w - overlap)) bites. Vee by a tool of its angle, or two bites of a narrower one. Corner a x b: the shorter leg within D.",
		Fix:     "Use a narrower tool, or cut it by another process.",
		Params:  stationParams(set, "notch-tool"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleNotched("bracket", 300, 200, 30, 40)
			return b.example("a plate 300 x 200 x 6 with a notch 30 wide and 40 deep", 6, "")
		},
		Part: byStations,
	}
}
