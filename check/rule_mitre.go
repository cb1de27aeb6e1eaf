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
			b := exampleMitre("brace", 900, 250, 60)
			return b.example("a bar 900 x 250 x 12 with one end cut 60 degrees off square", 12, "")
		},
		Part: func(p *Pass) { p.Aspects() },
	}
}
