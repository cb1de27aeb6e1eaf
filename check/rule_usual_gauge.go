package check

import (
	"fmt"

	"burrside/features"
	"burrside/features/section"
)

func ruleUsualGauge() Rule {
	return Rule{
		ID:    "usual-gauge",
		Title: "Holes off the usual gauge line of a leg",
		Why:   "The usual gauges leave room for a wrench at the heel and metal at the toe; another one may be meant, or a slip.",
		Measure: "From the outside of the heel to the centre of a round hole, against the usual gauge of a leg of that width, by the table of the section's own unit; a leg with two usual lines by either of them or the single line. " +
			"A note for a leg whose holes lie more than 2 mm off. Other gauges are allowed where clearances and edge distances hold. Legs that the table does not have are not looked at. " +
			"Where the table names the greatest bolt of a line (the metric one does), a hole for a greater one is noted too: the bolt that is named for it, else the hole less the largest clearance.",
		Fix: "Ask the designer if the gauge is meant.",
		Params: []Param{{"off", "mm", 2, 0.5, 20, "how far off the usual gauge line a hole may lie unsaid", Cite{}},
			{"clearance", "mm", 3, 0, 8, "how much larger than its bolt a hole of an unnamed bolt is at most", Cite{Text: "EN 1090-2 table 11: 3 mm from M27", Memory: true}}},
		Sources: []Cite{{Text: "AISC Steel Construction Manual Table 1-7A, usual gages for angles"}, {Text: "CISC Handbook of Steel Construction, usual gauges for angles"}},
		Example: func() Example {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.hole(0, 100, 40, 18)
			b.hole(0, 200, 40, 18)
			return b.example("an angle 75 x 75 x 8 with holes at a gauge of 40 mm", 8, "")
		},
		Part: checkUsualGauge,
	}
}

func checkUsualGauge(p *Pass) {
	a := p.Part.Angle
	if a == nil {
		return
	}
	units := "mm"
	if p.Inch || a.SectionList == section.ListAISC || a.SectionList == section.ListBar {
		units = "in"
	}
	off := p.Value("off")
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		if f.Kind != features.RoundHole && f.Kind != features.HoleWithSeat || f.Leg == "" {
			continue
		}
		usual, ok := section.Gauges(a.LegMM[a.LegOf(f)], units)
		if !ok {
			continue
		}
		lines, greatest := []float64{usual.OneLineMM}, usual.OneMaxBoltMM
		if usual.FirstMM > 0 {
			lines = append(lines, usual.FirstMM, usual.FirstMM+usual.SecondMM)
		}
		g, near := a.FromHeelMM(f.At), lines[0]
		for _, l := range lines {
			if abs(g-l) < abs(g-near) {
				near, greatest = l, usual.TwoMaxBoltMM
			}
		}
		p.greatestBolt(i, greatest, usual.Source)
		if abs(g-near) <= off*(1+relative) {
			continue
		}
		p.Report(p.on(i, Finding{Severity: Note, Who: "designer", FixBy: "drawing", Got: &Quantity{g, "mm"}, Limit: &Quantity{near, "mm"},
			Message: fmt.Sprintf("the gauge is %s, usual in a leg of %s is %s", p.length(g), p.length(a.LegMM[a.LegOf(f)]), p.length(near)),
			Fix:     "is the gauge meant?", Sources: []string{usual.Source}, worse: abs(g - near)}))
	}
}

// greatestBolt notes a hole of a leg that is for a greater bolt than the table of
// gauges has for its line; 0 is none in the table.
func (p *Pass) greatestBolt(i int, greatest float64, source string) {
	f, a := &p.Part.Features[i], p.Part.Angle
	bolt, named := boltSizeMM(f.BoltDesignation)
	if !named {
		bolt = f.DiameterMM - p.Value("clearance")
	}
	if greatest <= 0 || bolt <= greatest*(1+relative) {
		return
	}
	what := fmt.Sprintf("a bolt of %s", p.length(bolt))
	if !named {
		what = fmt.Sprintf("a hole of %s, for a bolt of %s or more,", p.length(f.DiameterMM), p.length(bolt))
	}
	p.Report(p.on(i, Finding{Severity: Note, Who: "designer", FixBy: "drawing", Got: &Quantity{bolt, "mm"}, Limit: &Quantity{greatest, "mm"},
		Message: fmt.Sprintf("%s in a leg of %s, whose usual gauge is for bolts up to %s", what, p.length(a.LegMM[a.LegOf(f)]), p.length(greatest)),
		Fix:     "is there room for the nut and the wrench?", Sources: []string{source}, worse: bolt - greatest}))
}
