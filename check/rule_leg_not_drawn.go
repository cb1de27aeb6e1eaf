package check

import "burrside/features"

func ruleLegNotDrawn() Rule {
	return Rule{
		ID:      "leg-not-drawn",
		Title:   "A leg of the angle is not drawn",
		Why:     "A leg that no view shows is made plain; if it has holes, the part is scrap.",
		Measure: "A leg without a view of its own: it is taken as plain, with care.",
		Fix:     "Ask whether the other leg is plain.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.hole(0, 100, 50, 18)
			b.notDrawn = true
			return b.example("an angle 75 x 75 x 8 of which one leg is drawn", 8, "")
		},
		Part: func(p *Pass) {
			if a := p.Part.Angle; a == nil || a.Legs[0].Drawn && a.Legs[1].Drawn && !doubted(p.Part, "leg-not-drawn") {
				return
			}
			f := Finding{Severity: Warning, Who: "customer", FixBy: "drawing", Message: "one leg is not drawn: it is taken as plain", Fix: "is the other leg plain?"}
			for i := range p.Part.Doubts {
				if d := &p.Part.Doubts[i]; d.Code == "leg-not-drawn" {
					f.At, f.HasAt, f.Source = d.At, true, d.Source
					f.CannotTell = d.Grave
				}
			}
			p.Report(f)
		},
	}
}

// doubted tells that the reader has a doubt of this code.
func doubted(part *features.Part, code string) bool {
	for i := range part.Doubts {
		if part.Doubts[i].Code == code {
			return true
		}
	}
	return false
}
