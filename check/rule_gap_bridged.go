package check

import (
	"fmt"

	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

func gapBridgedParams() []Param {
	return []Param{{"care", "mm", 0.05, 0, 0.5, "bridged gap above which the part needs care", Cite{}}}
}

func ruleGapBridged() Rule {
	return Rule{
		ID:      "gap-bridged",
		Title:   "Gap in an outline that was bridged",
		Why:     "A small gap is a slip of the drawing, but what was meant there is a guess.",
		Measure: "The distance between two loose ends that were joined. Above 0.05 mm the part is at best with care; below it is a note.",
		Fix:     "Ask whether the outline is meant to close there.",
		Params:  gapBridgedParams(),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			return sheetExample("a gap of 0.2 mm", features.Fault{Code: "gap-bridged", Value: 0.2, Count: 1, Part: -1, At: geom.Point{X: 10, Y: 0}})
		},
		Part: func(p *Pass) {
			gapsBridged(p.Faults, func(*features.Fault) bool { return true }, p.Value("care"), p.Report)
		},
		Sheet: func(p *SheetPass) {
			gapsBridged(p.Sheet.Faults, func(t *features.Fault) bool { return !p.ofPart(t) }, p.Value("care"), p.Report)
		},
	}
}

func gapsBridged(faults []features.Fault, mine func(*features.Fault) bool, care float64, report func(Finding)) {
	for i := range faults {
		t := &faults[i]
		if t.Code != "gap-bridged" || !mine(t) {
			continue
		}
		f := faultFinding(t, Note, false, fmt.Sprintf("a gap of %s mm was bridged", measure.FormatNumber(t.Value, 3)), "")
		f.Got = &Quantity{t.Value, "mm"}
		if isAbove(t.Value, care) {
			f.Severity, f.Limit, f.Fix = Warning, &Quantity{care, "mm"}, "is the outline meant to close there?"
		}
		report(f)
	}
}
