package check

import (
	"fmt"

	"burrside/features"
)

func ruleUnitsDoubt() Rule {
	return Rule{
		ID:      "units-doubt",
		Title:   "Evidence against the unit of the drawing",
		Why:     "A part read in the wrong unit is 25 times too large or too small.",
		Measure: "The unit in the file's header or by flag against hole sizes, texts and dimensions; and a note that states another unit than the one in use. The unit in use stands, and both readings are judged and shown; only what fails in both is sure.",
		Fix:     "Ask for the unit, or give it by --units.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return Example{Text: "a header that says inch over holes of 22 and 18", Sheet: &features.Sheet{Units: features.Units{Name: "in", MM: 25.4, From: features.UnitsHeader, Doubt: true, Other: "mm", OtherMM: 1,
				Evidence: []features.UnitsEvidence{{What: "holes Ø22, Ø18", For: "mm", Weight: 3.2}}}}}
		},
		Sheet: func(p *SheetPass) {
			u := &p.Sheet.Units
			if !u.Doubt {
				return
			}
			other, _ := otherUnit(u)
			f := Finding{Severity: Warning, CannotTell: true, Who: "customer", FixBy: "drawing", Fix: "in which unit is the drawing? --units gives it",
				Message: fmt.Sprintf("read in %s as the %s says, but it looks like %s", unitWord(u.Name), u.From, unitWord(other))}
			if u.Said != "" {
				f.Message = fmt.Sprintf("read in %s, but the drawing says %q", unitWord(u.Name), u.Said)
			}
			f.Basis = evidenceText(u)
			p.Report(f)
		},
	}
}
