package check

import (
	"burrside/features"
	"burrside/features/geom"
)

func ruleSelfCrossing() Rule {
	const text, fix = "the outline crosses itself", "which way does the outline run?"
	return Rule{
		ID:      "self-crossing",
		Title:   "Outline that crosses itself",
		Why:     "What is inside and what is outside cannot be told.",
		Measure: "Points where two edges of one contour cross.",
		Fix:     "Ask which way the outline runs.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return sheetExample("an outline like a figure of eight", features.Fault{Code: "self-crossing", Count: 1, Part: -1, At: geom.Point{X: 50, Y: 50}})
		},
		Part: func(p *Pass) { p.faults("self-crossing", Error, true, text, fix) },
		Sheet: func(p *SheetPass) {
			p.faults([]string{"self-crossing"}, Error, true, text, fix)
			if p.hasFault("self-crossing") {
				return
			}
			// A contour that crosses itself falls into faces, each of which is a
			// sound part by itself: only a note tells.
			for i := range p.Sheet.Notes {
				if n := &p.Sheet.Notes[i]; n.Code == "self-crossing" {
					p.Report(Finding{Severity: Error, CannotTell: true, Who: "customer", FixBy: "drawing", Fix: fix, Message: text,
						At: n.At, HasAt: n.HasAt, Count: max(1, n.Count), Source: n.Source})
				}
			}
		},
	}
}
