package check

import (
	"burrside/features"
	"burrside/features/geom"
)

func ruleLineUnexplained() Rule {
	return Rule{
		ID:      "line-unexplained",
		Title:   "Line across the part without a meaning",
		Why:     "It may be a bend, a cut that makes two parts, or a mark: three different jobs.",
		Measure: "A line from edge to edge of an outline, and nothing in the drawing that says what it is.",
		Fix:     "Ask what the line means.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.p.Doubts = append(b.p.Doubts, features.Doubt{Code: "line-unexplained", Grave: true, At: geom.Point{X: 100, Y: 70},
				Text: "a line from edge to edge may be a bend, a cut or a mark"})
			return b.example("a line across a plate 200 x 140 x 10", 10, "")
		},
		Part: func(p *Pass) {
			p.doubts(func(d *features.Doubt) bool { return d.Code == "line-unexplained" })
			p.faults("line-unexplained", Warning, true, "a line without a meaning", "what does the line mean?")
		},
		Sheet: func(p *SheetPass) {
			p.faults([]string{"line-unexplained"}, Warning, true, "a line without a meaning", "what does the line mean?")
		},
	}
}
