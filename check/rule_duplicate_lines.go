package check

import (
	"burrside/features"
	"burrside/features/geom"
)

func ruleDuplicateLines() Rule {
	const text = "lines drawn more than once were taken once"
	return Rule{
		ID:      "duplicate-lines",
		Title:   "Lines drawn more than once",
		Why:     "A cutter would run them twice, and a count of holes would be wrong.",
		Measure: "Edges that coincide, or overlap, within the snap distance. Each is taken once.",
		Fix:     "Clean the drawing.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return sheetExample("a hole drawn twice", features.Fault{Code: "duplicate-lines", Count: 1, Part: -1, At: geom.Point{X: 40, Y: 50}})
		},
		Part:  func(p *Pass) { p.faults("duplicate-lines", Note, false, text, "") },
		Sheet: func(p *SheetPass) { p.faults([]string{"duplicate-lines"}, Note, false, text, "") },
	}
}
