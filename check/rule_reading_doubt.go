package check

import (
	"burrside/features"
	"burrside/features/geom"
)

func ruleReadingDoubt() Rule {
	return Rule{
		ID:      "reading-doubt",
		Title:   "The drawing can be read in another way",
		Why:     "A guess that is not said aloud ends as a wrong part.",
		Measure: "What the recogniser doubts about the part. A grave doubt keeps the part from any answer; the others are notes.",
		Fix:     "Ask which reading is meant.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 297, 210)
			b.p.Doubts = append(b.p.Doubts, features.Doubt{Code: "maybe-frame", Grave: true, At: geom.Point{}, Text: "the rectangle may be a drawing frame"})
			return b.example("a rectangle 297 x 210 that may be a frame", 10, "")
		},
		Part: func(p *Pass) {
			p.Aspects()
			p.doubts(func(d *features.Doubt) bool { return d.Code != "line-unexplained" })
		},
	}
}
