package check

import (
	"fmt"
	"strings"

	"burrside/features"
)

func ruleHoleClass() Rule {
	return Rule{
		ID:    "hole-class",
		Title: "Size of a bolt hole against its bolt and class",
		Why: "A hole larger than its class lets the bolt slip and counts for less in the design; one smaller than the bolt does not take it. " +
			"Editions differ, so a hole that one calls standard is oversized in another.",
		Measure: "Of holes whose bolt a call-out names. The class is the one that the call-out states (STD, OVS, SSL, LSL or the words), " +
			"else the largest of the hole's shape. Diameter, or width and overall length of a slot, against the largest size of that class in the chosen code: " +
			"AISC 360 Tables J3.3, J3.3M (+ 1/32 in), EN 1090-2 Table 11, IS 800 Table 19, CSA S16 22.3.5 (+ 0.5 mm). Smaller holes are allowed down to the bolt.",
		Fix: "Ask the designer which edition and which bolt is meant.",
		Sources: []Cite{
			{Text: "ANSI/AISC 360-22 Tables J3.3, J3.3M; tolerance by FAQ 5.1.1 of the AISC Steel Solutions Center"},
			{Text: "ANSI/AISC 360-10 Table J3.3: d + 1/16 in for bolts of 1 in and more", Memory: true},
			{Text: "EN 1090-2 Table 11", Memory: true},
			{Text: "CSA S16-09 22.3.5, IS 800:2007 Table 19", Memory: true},
		},
		Example: func() Example {
			b := examplePlate("plate", 240, 140)
			b.hole(60, 70, 26)
			b.hole(180, 70, 26)
			for i := range b.p.Features {
				if f := &b.p.Features[i]; f.IsInside() {
					f.BoltDesignation = "M20"
				}
			}
			b.p.CallOuts = append(b.p.CallOuts, features.CallOut{Text: "2 x Ø26 STD FOR M20", Features: []string{"H1", "H2"}})
			return b.example("two holes called Ø26 STD FOR M20, by AISC 360-22", 10, "aisc")
		},
		Part: checkHoleClass,
	}
}

// statedClass tells which class of hole a call-out names; "" none.
func statedClass(text string) string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" \t,;:.()/-_\"'", r) })
	slotted, short, long := false, false, false
	class := ""
	for _, w := range words {
		switch w {
		case "std", "standard", "normal":
			class = classStandard
		case "ovs", "oversize", "oversized":
			class = classOversize
		case "ssl":
			return classShortSlot
		case "lsl":
			return classLongSlot
		case "slot", "slots", "slotted":
			slotted = true
		case "short":
			short = true
		case "long":
			long = true
		}
	}
	switch {
	case slotted && short && !long:
		return classShortSlot
	case slotted && long && !short:
		return classLongSlot
	case slotted:
		return "" // "standard slots" names none
	}
	return class
}

func checkHoleClass(p *Pass) {
	if p.noCode() {
		return
	}
	stated := map[string]string{}
	for i := range p.Part.CallOuts {
		c := &p.Part.CallOuts[i]
		if class := statedClass(c.Text); class != "" {
			for _, id := range c.Features {
				stated[id] = class
			}
		}
	}
	tol := 0.5
	if isAISC(p.Job.Code) {
		tol = 25.4 / 32
	}
	bolts, _ := p.boltHoles()
	for i := range bolts {
		b := &bolts[i]
		f := &p.Part.Features[b.feature]
		if b.row == nil || f.Process == "tap" {
			continue
		}
		bolt := b.row.name
		// 0.2 mm: bolts run under their nominal size.
		if isBelow(b.widthMM, b.row.boltMM-0.2) {
			p.reportClass(b, b.widthMM, b.row.boltMM, "bolt",
				fmt.Sprintf("%s does not take the bolt %s that its call-out names", sizeText(p.Shop, f), bolt), "is the hole tapped, or is another bolt meant?")
			continue
		}
		class := stated[f.ID]
		named := class != ""
		if !named {
			class = classOversize
			if b.slot {
				class = classLongSlot
			}
		}
		width, long := b.row.limits(class)
		got, limit := b.widthMM, width
		if b.longMM-long > b.widthMM-width {
			got, limit = b.longMM, long
		}
		if !isAbove(got, limit+tol) {
			continue
		}
		g := p.length(limit)
		msg := fmt.Sprintf("%s is called %s for bolt %s; %s allows %s", sizeText(p.Shop, f), class, bolt, codeName(p.Job.Code), g)
		if !named {
			msg = fmt.Sprintf("%s for bolt %s is larger than any hole of %s: %s allow %s at most", sizeText(p.Shop, f), bolt, codeName(p.Job.Code), classPlural(class), g)
		}
		p.reportClass(b, got, limit, "class", msg, "which bolt, and which edition of the code, is meant?")
	}
}

// limits are the largest width and overall length of a class.
func (r *boltRow) limits(class string) (width, long float64) {
	switch class {
	case classStandard:
		d := max(r.standardMM, r.alsoMM)
		return d, d
	case classOversize:
		return r.oversizeMM, r.oversizeMM
	case classShortSlot:
		return max(r.slotMM, r.alsoMM), r.shortMM
	case classLongSlot:
		return max(r.slotMM, r.alsoMM), r.longMM
	}
	panic("check: no class " + class)
}

func classPlural(class string) string {
	if class == classLongSlot {
		return "long-slotted holes"
	}
	return class + " holes"
}

func (p *Pass) reportClass(b *boltHole, got, limit float64, cause, msg, fix string) {
	basis := fmt.Sprintf("largest for %s: standard %s, oversized %s, slots %s wide, short %s and long %s overall", b.row.name, p.length(max(b.row.standardMM, b.row.alsoMM)),
		p.length(b.row.oversizeMM), p.length(b.row.slotMM), p.length(b.row.shortMM), p.length(b.row.longMM))
	if b.note != "" {
		basis += " (" + b.note + ")"
	}
	source := codeName(p.Job.Code) + " Table J3.3 (in metric: J3.3M)"
	switch p.Job.Code {
	case "en":
		source = "EN 1090-2 Table 11"
	case "csa":
		source = "CSA S16-09 22.3.5"
	case "is":
		source = "IS 800:2007 Table 19"
	}
	p.Report(p.on(b.feature, Finding{Severity: Warning, Who: "designer", FixBy: "drawing", Got: &Quantity{got, "mm"}, Limit: &Quantity{limit, "mm"},
		Message: msg, Basis: basis, Fix: fix, Sources: []string{source}, cause: cause, worse: abs(got - limit)}))
}
