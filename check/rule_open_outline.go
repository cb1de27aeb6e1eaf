package check

import (
	"fmt"

	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

func ruleOpenOutline() Rule {
	return Rule{
		ID:      "open-outline",
		Title:   "Outline that does not close",
		Why:     "Between the ends something is missing: an edge, a notch, a whole side.",
		Measure: "The gap between the two ends of a chain, longer than what is bridged.",
		Fix:     "Ask how the outline is meant to close.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return Example{Text: "an outline with a gap of 3 mm", Sheet: &features.Sheet{Units: features.Units{Name: "mm", MM: 1, From: features.UnitsHeader},
				Faults: []features.Fault{{Code: "open-outline", At: geom.Point{X: 0, Y: 50}, Value: 3, Count: 1, Part: -1}}}}
		},
		Part:  func(p *Pass) { checkOpen(p.Faults, nil, p.Report) },
		Sheet: checkOpenSheet,
	}
}

func checkOpenSheet(p *SheetPass) {
	var faults []features.Fault
	for i := range p.Sheet.Faults {
		if f := &p.Sheet.Faults[i]; !p.ofPart(f) {
			faults = append(faults, *f)
		}
	}
	loose := p.Sheet.Loose
	if p.hasFault("open-outline") {
		loose = nil // the faults speak of them
	}
	checkOpen(faults, loose, p.Report)
}

func checkOpen(faults []features.Fault, loose []features.Loose, report func(Finding)) {
	say := func(at geom.Point, gap float64, text string, src []features.Source) {
		f := Finding{Severity: Error, CannotTell: true, Who: "customer", FixBy: "drawing", At: at, HasAt: true, Source: src,
			Message: orText(text, fmt.Sprintf("the outline is open by %s mm", measure.FormatNumber(gap, 3))), Fix: "how is the outline meant to close?", worse: gap}
		if gap > 0 {
			f.Got = &Quantity{gap, "mm"}
		}
		f.cause = fmt.Sprintf("%.3f %.3f", at.X, at.Y)
		report(f)
	}
	for i := range faults {
		if t := &faults[i]; t.Code == "open-outline" {
			say(t.At, t.Value, t.Text, t.Source)
		}
	}
	for i := range loose {
		say(loose[i].From, loose[i].GapMM, "", loose[i].Source)
	}
}
