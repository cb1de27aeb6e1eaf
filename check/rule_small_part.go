package check

import (
	"fmt"

	"burrside/features/geom"
)

func smallPartParams() []Param {
	return []Param{
		{"size", "mm", 100, 30, 300, "a part shorter than this in both directions is small", Cite{}},
		{"hold", "mm", 75, 30, 300, "least distance from the tool to where the part is held by hand", Cite{}},
	}
}

func ruleSmallPart() Rule {
	return Rule{
		ID:    "small-part",
		Title: "Part too small to hold beside the tool",
		Why:   "Fingers: a small part is held within reach of the punch, the notcher or the hold-down.",
		Measure: "Length and width of the part along the blank: shorter than 100 mm both ways; or, for a loose piece, no place on it " +
			"at least 75 mm from the centre of a hole that is punched. Only parts that are punched or notched.",
		Fix:     "Punch and notch it on the bar before cutting off, or hold it with tongs or a jig.",
		Params:  smallPartParams(),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("clip", 50, 50)
			b.hole(25, 25, 14)
			return b.example("a clip 50 x 50 x 6 with a hole Ø14", 6, "")
		},
		Part: checkSmallPart,
	}
}

func checkSmallPart(p *Pass) {
	worked := false
	for i := range p.Plan.Makes {
		if m := &p.Plan.Makes[i]; m.MadeBy == "punch" || m.MadeBy == "notch" {
			worked = true
		}
	}
	if !worked {
		return
	}
	fr := p.partFrame()
	l, w := fr.maxU-fr.minU, fr.maxV-fr.minV
	if a := p.Part.Angle; a != nil {
		w = max(a.LegMM[0], a.LegMM[1])
	}
	size, hold := p.Value("size"), p.Value("hold")
	fix := "punch it on the bar before cutting off, or hold it with tongs or a jig"
	if f := p.Plan.Blank.Form; f == "given" {
		fix = "hold it with tongs or a jig"
	}
	if most := max(l, w); isBelow(most, size) {
		p.Report(Finding{Severity: Warning, Got: &Quantity{most, "mm"}, Limit: &Quantity{size, "mm"}, FixBy: "shop", Fix: fix,
			Message: fmt.Sprintf("the part is small, %s x %s: fingers come near the tool", p.length(l), p.length(w)),
			Basis:   fmt.Sprintf("shorter than %s both ways", p.length(size))})
		return
	}
	if p.punchedOnBar() {
		return
	}
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		f := &p.Part.Features[m.Feature]
		if m.MadeBy != "punch" || !f.IsInside() {
			continue
		}
		far, to := farthest(outlineAround(p.Part, f.At), f.At)
		if !isBelow(far, hold) {
			continue
		}
		p.Report(p.on(m.Feature, Finding{Severity: Warning, Got: &Quantity{far, "mm"}, Limit: &Quantity{hold, "mm"}, FixBy: "shop", Fix: fix, To: &to,
			Message: fmt.Sprintf("no place to hold the part is further than %s from the hole", p.length(far)),
			Basis:   fmt.Sprintf("a hand stays %s from the tool", p.length(hold)), worse: hold - far}))
	}
}

// farthest gives the greatest distance from q to a corner or arc's end or
// quadrant of the outline, and that point.
func farthest(outline geom.Ring, q geom.Point) (mm float64, at geom.Point) {
	for _, e := range outline {
		for _, v := range e.Flatten(0.01) {
			if d := v.Dist(q); d > mm+1e-7 || d > mm-1e-7 && geom.ComparePlace(v, at) < 0 {
				mm, at = d, v
			}
		}
	}
	return mm, at
}
