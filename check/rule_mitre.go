package check

func ruleMitre() Rule {
	return Rule{
		ID:      "mitre",
		Title:   "Cut off square",
		Why:     "The table turns so far and no further.",
		Measure: "Angle of the cut against square to the bar, and the length that it then has: width / cos(angle).",
		Fix:     "Saw it.",
		Params:  stationParams("mitre"),
		Sources: stationSources("mitre"),
		Example: func() Example {
			b := exampleMitre("brace", 400, 100, 60)
			return b.example("a bar 400 x 100 x 10 with one end cut 60 degrees off square", 10, "")
		},
		Part: func(p *Pass) { p.Aspects() },
	}
}
