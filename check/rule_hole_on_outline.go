package check

import "burrside/features/geom"

func ruleHoleOnOutline() Rule {
	return Rule{
		ID:      "hole-on-outline",
		Title:   "Hole that breaks through the outline",
		Why:     "A punch that cuts less than a full slug is pushed sideways: it shears off against the die.",
		Measure: "A closed contour that crosses the outline of its part.",
		Fix:     "Punch the hole before the edge is cut, from a wider blank, or ask whether the hole lies right.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(5, 70, 22)
			b.p.Features[len(b.p.Features)-1].CrossesOutline = true
			return b.example("a hole Ø22 with its centre 5 mm from the end of a plate 200 x 140 x 10", 10, "")
		},
		Part: checkHoleOnOutline,
	}
}

func checkHoleOnOutline(p *Pass) {
	f := Finding{Severity: Error, Who: "designer", FixBy: "drawing", Fix: "is the hole meant to break through the edge?"}
	n := 0
	for i := range p.Part.Features {
		if ft := &p.Part.Features[i]; ft.CrossesOutline {
			g := f
			g.Message = "the " + sizeText(p.Shop, ft) + " breaks through the outline: part of a slug"
			p.Report(p.on(i, g))
			n++
		}
	}
	for i := range p.Faults {
		if t := &p.Faults[i]; t.Code == "hole-on-outline" && n == 0 {
			g := f
			g.Message, g.At, g.HasAt, g.Source = orText(t.Text, "a contour crosses the outline"), t.At, t.At != geom.Point{}, t.Source
			p.Report(g)
		}
	}
}

// orText is the first text that is not empty.
func orText(texts ...string) string {
	for _, t := range texts {
		if t != "" {
			return t
		}
	}
	return ""
}
