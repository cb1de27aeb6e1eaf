package check

import (
	"fmt"

	"burrside/features"
)

func ruleUnitsUnknown() Rule {
	return Rule{
		ID:      "units-unknown",
		Title:   "Unit of the drawing not known",
		Why:     "A part read in the wrong unit is 25 times too large or too small.",
		Measure: "No flag, no unit in the header, and no clear vote of hole sizes, texts and dimensions. The drawing is read in millimetres and in its likeliest other unit; only what fails in both is sure.",
		Fix:     "Ask for the unit, or give it by --units.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return Example{Text: "a header without a unit", Sheet: &features.Sheet{Units: features.Units{Name: "mm", MM: 1, From: features.UnitsUnknown}}}
		},
		Sheet: func(p *SheetPass) {
			u := &p.Sheet.Units
			if u.From != features.UnitsUnknown || u.Doubt {
				return
			}
			other, _ := otherUnit(u)
			p.Report(Finding{Severity: Warning, CannotTell: true, Who: "customer", FixBy: "drawing", Fix: "in which unit is the drawing? --units gives it",
				Message: fmt.Sprintf("nothing says which unit the drawing is in: read in %s, and in %s beside", unitWord(orText(u.Name, "mm")), unitWord(other)), Basis: evidenceText(u)})
		},
	}
}
