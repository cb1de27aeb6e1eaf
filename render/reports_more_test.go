package render

import (
	"fmt"
	"math"
	"math/rand/v2"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

// tallReport: a strap drawn upright, in a shop that works in inches, with signs
// that the font lacks.
func tallReport() *check.Report {
	b := newPart("支架⌀22 ⚠", rect(0, 0, 38.1, 1500))
	var ids []string
	for i := range 6 {
		ids = append(ids, b.hole(19.05, 60+float64(i)*270, 20.6375))
	}
	b.cut(1, 1500)
	w := finding("web", check.Error, 8.73, 9.525, "mm", "8.73 mm of metal to the edge", "drill it", ids[2])
	t := finding("tool", check.Warning, 20.6375, 22.225, "mm", "no punch 13/16 in on the rack", "buy punch 13/16 in with die 7/8 in", ids...)
	t.Who = "buy"
	r := judged("платина 支架.dxf", b.p, 9.525, span(w, pt(29.37, 600), pt(38.1, 600)), place(t, b.at(ids[0])))
	r.Shop.Units = "in"
	return r
}

// fullReport: fifteen findings of as many rules, long words, everything stated.
func fullReport() *check.Report {
	r := gussetReport()
	p := r.Parts[0]
	p.Part.AreaMM2 = 300*200 - 60*40 - 60*60 - 1250
	for i, rule := range []string{"lift", "stripping", "sliver", "die-holder", "opening", "hole-process", "material"} {
		f := finding(rule, check.Warning, float64(i)+0.5, float64(i)+3, "mm", "a long message that tells in many words what has been found here, and why it matters to those who make the part",
			"do it with care, in the order that the sheet gives, and have a second person look at the first piece before the others are made, averylongwordthatnolinewilltakewithoutbeingcut", "H1", "H2", "N1", "N2", "E1", "E2")
		p.Findings = append(p.Findings, place(f, pt(20+float64(i)*40, 190)))
	}
	p.Cautions = []string{"keep hands clear of the stripper", "the tail swings up when the bar is cut: stand beside it", "two people lift the blank of 31 kg", "sharp burr on the lower side", "a fifth is not shown"}
	p.Questions = []string{"Is the hole Ø22 a bolt hole?"}
	p.Plan.Work.Buy = []string{"punch Ø16 with die Ø17.2"}
	p.Limits = noThicknessReport().Parts[0].Limits
	r.Findings = []check.Finding{{Rule: "units-doubt", Severity: check.Warning, CannotTell: true, Count: 1, Message: "the drawing says mm but its holes speak for inch", Who: "customer"}}
	r.Sheet.Units.Doubt, r.Sheet.Units.Other = true, "in"
	r.Code = "AISC 360-22"
	return r
}

// stepReport: a step-shaped part in a blank that shows, with a curved slot, a
// seat and a thread, round corners and an arc cut.
func stepReport() *check.Report {
	o := geom.Ring{line(pt(20, 0), pt(380, 0)), {From: pt(380, 0), To: pt(400, 20), Centre: pt(380, 20), Radius: 20, CCW: true},
		line(pt(400, 20), pt(400, 120)), line(pt(400, 120), pt(200, 120)), line(pt(200, 120), pt(200, 300)),
		{From: pt(200, 300), To: pt(0, 300), Centre: pt(100, 300), Radius: 100, CCW: true}, line(pt(0, 300), pt(0, 20)),
		{From: pt(0, 20), To: pt(20, 0), Centre: pt(20, 20), Radius: 20, CCW: true}}
	b := newPart("step", o)
	b.p.AreaMM2 = 400*120 + 200*180 + math.Pi*5000
	seat := b.add("H", features.Feature{Kind: features.HoleWithSeat, At: pt(60, 60), DiameterMM: 14, SeatMM: 28, Ring: circle(pt(60, 60), 14)})
	tap := b.add("H", features.Feature{Kind: features.TappedHole, At: pt(340, 60), DiameterMM: 10.2, SeatMM: 12, Ring: circle(pt(340, 60), 10.2)})
	rh := b.add("C", features.Feature{Kind: features.RectangularHole, At: pt(100, 200), WidthMM: 80, LengthMM: 100, Ring: rect(60, 150, 140, 250)})
	r1 := b.add("E", features.Feature{Kind: features.CornerRadius, At: pt(394, 6), RadiusMM: 20, SweepRad: math.Pi / 2, Edges: []int{1}})
	a1 := b.add("E", features.Feature{Kind: features.ArcCut, At: pt(100, 400), RadiusMM: 100, SweepRad: math.Pi, Edges: []int{5}})
	f := finding("hole-process", check.Warning, 0, 0, "", "countersunk: not punched to size", "punch Ø14, then countersink", seat, tap)
	f.Got, f.Limit = nil, nil
	g := finding("edge-process", check.Warning, 20, 15, "mm", "R20 mm is above what the grinder takes", "cut it thermally", r1, a1)
	h := finding("opening", check.Error, 80, 40, "mm", "no single tool makes 80 x 100 mm", "drill the corners and cut it out", rh)
	w := finding("web", check.Error, 4, 6, "mm", "4 mm of metal", "move it", rh)
	return judged("step.dxf", b.p, 8, place(f, pt(60, 60)), place(g, pt(394, 6)), place(h, pt(100, 200)), span(w, pt(60, 200), pt(0, 200)))
}

// randomReport is a report of chance: some outline, holes, findings of every
// severity with and without place, distance and numbers.
func randomReport(rnd *rand.Rand) *check.Report {
	w := math.Exp(rnd.Float64()*6 + 1.5)
	h := w * math.Exp(rnd.Float64()*6-3)
	x0, y0 := rnd.Float64()*1000-500, rnd.Float64()*1000-500
	var o geom.Ring
	switch rnd.IntN(3) {
	case 0:
		o = rect(x0, y0, x0+w, y0+h)
	case 1:
		o = polygon(pt(x0, y0), pt(x0+w, y0), pt(x0+w, y0+h*0.4), pt(x0+w*0.5, y0+h*0.4), pt(x0+w*0.5, y0+h), pt(x0, y0+h))
	default:
		o = circle(pt(x0+w/2, y0+w/2), w)
		h = w
	}
	b := newPart(fmt.Sprint("part ", rnd.IntN(1000)), o)
	n := rnd.IntN(60)
	var ids []string
	for range n {
		d := min(w, h) * (0.02 + 0.3*rnd.Float64()*rnd.Float64())
		x, y := x0+d+rnd.Float64()*max(w-2*d, 0), y0+d+rnd.Float64()*max(h-2*d, 0)
		if rnd.IntN(4) == 0 {
			ids = append(ids, b.slot(x, y, d, d*1.7, rnd.Float64()*math.Pi))
		} else {
			ids = append(ids, b.hole(x, y, d))
		}
	}
	for i := range o {
		ids = append(ids, b.cut(i, 10))
	}
	rules := []string{"web", "punch-force", "die-clearance", "strap", "tool", "throat-reach", "sliver", "hold-down", "lift"}
	words := []string{"", "short", "do it with care, slowly, in the order of the sheet, and look at the first piece before the rest is made", "Ø22 支架", "anextremelylongwordwithoutanyplacetobreakitanywhereatallinthewholelengthofit"}
	var fs []check.Finding
	for range rnd.IntN(45) {
		var on []string
		for range rnd.IntN(5) {
			on = append(on, ids[rnd.IntN(len(ids))])
		}
		sev := severities()[rnd.IntN(3)]
		f := finding(rules[rnd.IntN(len(rules))], sev, rnd.Float64()*1000, rnd.Float64()*1000, []string{"mm", "kN", "%", "MPa", ""}[rnd.IntN(5)],
			words[rnd.IntN(len(words))], words[rnd.IntN(len(words))], on...)
		a, c := pt(x0+rnd.Float64()*w, y0+rnd.Float64()*h), pt(x0+rnd.Float64()*w, y0+rnd.Float64()*h)
		switch rnd.IntN(3) {
		case 0:
			f = span(f, a, c)
		case 1:
			f = place(f, a)
		}
		if rnd.IntN(5) == 0 {
			f.Got = nil
		}
		fs = append(fs, f)
	}
	r := judged(words[rnd.IntN(len(words))]+".dxf", b.p, 8, fs...)
	if rnd.IntN(2) == 0 {
		r.Parts[0].Cautions = []string{"one", "two two two", words[2], "four"}
		r.Parts[0].Limits = noThicknessReport().Parts[0].Limits
	}
	if rnd.IntN(3) == 0 {
		r.Shop.Units = "in"
	}
	return r
}

// doubtReport: a drawing whose header says mm and whose holes say inch; it is
// judged in both.
func doubtReport() *check.Report {
	r, in := noThicknessReport(), noThicknessReport()
	u := &r.Sheet.Units
	u.Doubt, u.Other, u.OtherMM = true, "in", 25.4
	u.Evidence = []features.UnitsEvidence{{What: "holes of 22", For: "mm", Weight: 2}, {What: "a note in inch", For: "in", Weight: 5}}
	r.Findings = []check.Finding{{Rule: "units-doubt", Severity: check.Warning, CannotTell: true, Count: 1, Message: "the header says mm, but the texts speak for inch", Who: "customer"}}
	big := in.Parts[0]
	for i := range big.Part.Outline {
		e := &big.Part.Outline[i]
		e.From, e.To = pt(e.From.X*25.4, e.From.Y*25.4), pt(e.To.X*25.4, e.To.Y*25.4)
	}
	for i := range big.Limits {
		big.Limits[i].Verdict, big.Limits[i].StoppedBy, big.Limits[i].Text = check.DoesNotFit, "blank", "no stock is so wide"
	}
	r.Readings = []check.Reading{{Unit: "mm", MM: 1, Verdict: check.CannotTell, Parts: r.Parts}, {Unit: "in", MM: 25.4, Verdict: check.CannotTell, Parts: in.Parts}}
	return r
}
