package check

import (
	"burrside/features"
)

func ruleNoPart() Rule {
	return Rule{
		ID:      "no-part",
		Title:   "No closed outline in the drawing",
		Why:     "Without an outline there is nothing to judge.",
		Measure: "The parts found. Not said beside an outline that does not close, which is the reason then.",
		Fix:     "Ask for the drawing of the part, with a closed outline.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return Example{Text: "a drawing of one line", Sheet: &features.Sheet{Units: features.Units{Name: "mm", MM: 1, From: features.UnitsHeader}}}
		},
		Sheet: func(p *SheetPass) {
			if len(p.Sheet.Parts) > 0 || len(p.Sheet.Loose) > 0 || p.hasFault("open-outline") {
				return
			}
			text := "no closed outline was found"
			for i := range p.Sheet.Faults {
				if f := &p.Sheet.Faults[i]; f.Code == "no-part" {
					text = orText(f.Text, text)
				}
			}
			p.Report(Finding{Severity: Error, CannotTell: true, Who: "customer", FixBy: "drawing", Message: text,
				Fix: "which lines are the edge of the part?"})
		},
	}
}
