package check

import (
	"fmt"

	"burrside/features"
)

func punchingLimitParams() []Param {
	return []Param{
		{"bolt-plus", "mm", 0, 0, 25, "an owner's rule whatever code is chosen: holes are punched up to the bolt's diameter plus this; 0 none", Cite{}},
		{"under", "mm", 3, 0, 10, "least that a thicker hole is punched under size before it is reamed",
			Cite{Text: "IS 800:2007 17.2.4.2"}},
	}
}

func rulePunchingLimit() Rule {
	return Rule{
		ID:    "punching-limit",
		Title: "Thickest plate that the chosen code lets be punched",
		Why:   "Thick or strong plate tears and hardens round a punched hole. Codes and owners then ask for drilling, or for a smaller hole that is reamed.",
		Measure: "Of bolt holes that are punched: IS 800 not above 360 MPa yield, and t <= 5600 / fy mm; CSA S16 t <= d + 4 mm; " +
			"AISC 360-05 and older t <= d + 1/8 in (3 mm), d the bolt's diameter, of two readings the smaller. " +
			"EN 1090-2 of every punched hole: t <= its diameter, or its smallest width. Later editions of AISC 360 set no limit. " +
			"A warning where the shop drills, an error where it does not.",
		Fix:    "Drill the holes, or punch them under size and ream them.",
		Params: punchingLimitParams(),
		Sources: []Cite{
			{Text: "IS 800:2007 17.2.4.2"},
			{Text: "ANSI/AISC 360-05 and older, M2.5, as a published rule states it (t <= d + 1/8 in)"},
			{Text: "CSA S16-09 28.4", Memory: true},
			{Text: "EN 1090-2, 6.6.3", Memory: true},
		},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(60, 70, 22)
			b.hole(140, 70, 22)
			e := b.example("two holes Ø22 for M20 in a plate 200 x 140 x 16 of 355 MPa yield, by IS 800", 16, "is")
			e.Job.Material.Name, e.Job.Material.YieldMPa, e.Job.Material.ShearMPa, e.Job.Material.ShearUpperMPa = "S355", 355, 430, 504
			e.Job.MaterialName = "S355"
			return e
		},
		Part: checkPunchingLimit,
	}
}

func checkPunchingLimit(p *Pass) {
	owner := p.Value("bolt-plus")
	if p.Job.Code == "aisc" || p.Job.Code == "aisc-2010" {
		if owner == 0 {
			return // these editions set no limit
		}
	} else if owner == 0 && p.noCode() {
		return
	}
	punched := map[int]bool{}
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		f := &p.Part.Features[m.Feature]
		if f.IsInside() && f.Process != "drill" && f.Process != "ream" && (m.MadeBy == "punch" || m.MadeBy == "unknown") {
			punched[m.Feature] = true
		}
	}
	if len(punched) == 0 || p.noThickness() {
		return
	}
	if p.Job.Code == "en" {
		for i := range p.Part.Features {
			if f := &p.Part.Features[i]; punched[i] {
				if least := leastWidth(f); least > 0 && isAbove(p.Job.ThicknessMM, least) {
					p.overLimit(i, least, fmt.Sprintf("t <= smallest width of the hole = %s", p.length(least)), "", "EN 1090-2, 6.6.3")
				}
			}
		}
	}
	bolts, _ := p.boltHoles()
	if len(bolts) == 0 {
		return
	}
	const inAll = "IS 800:2007 17.2.4.2"
	fy := 0.0
	if p.Job.Material != nil {
		fy = p.Job.Material.YieldMPa
	}
	if p.Job.Code == "is" && !(fy > 0) {
		p.Skip("needs the yield strength of the material")
	}
	for i := range bolts {
		b := &bolts[i]
		if !punched[b.feature] {
			continue
		}
		d := b.leastBoltMM()
		switch {
		case p.Job.Code == "is" && isAbove(fy, 360):
			f := Finding{Got: &Quantity{fy, "MPa"}, Limit: &Quantity{360, "MPa"}, worse: fy - 360, cause: "strength", Sources: []string{inAll},
				Message: fmt.Sprintf("steel of %g MPa yield: %s lets holes be punched up to 360 MPa", fy, codeName("is"))}
			p.notPunched(b.feature, f)
		case p.Job.Code == "is" && fy > 0:
			if limit := 5600 / fy; isAbove(p.Job.ThicknessMM, limit) {
				p.overLimit(b.feature, limit, fmt.Sprintf("t <= 5600 / fy = 5600 / %g MPa = %s", fy, p.length(limit)), "", inAll)
			}
		case p.Job.Code == "csa" && isAbove(p.Job.ThicknessMM, d+4):
			p.overLimit(b.feature, d+4, fmt.Sprintf("t <= d + 4 mm, d = %s", p.length(d)), b.note, "CSA S16-09 28.4")
		case p.Job.Code == "aisc-2005":
			plus, text := 3.0, "t <= d + 3 mm"
			if p.Inch {
				plus, text = 25.4/8, "t <= d + 1/8 in"
			}
			if isAbove(p.Job.ThicknessMM, d+plus) {
				p.overLimit(b.feature, d+plus, fmt.Sprintf("%s, d = %s", text, p.length(d)), b.note, "ANSI/AISC 360-05, M2.5")
			}
		}
		if owner > 0 && d > 0 && isAbove(p.Job.ThicknessMM, d+owner) {
			p.overLimit(b.feature, d+owner, fmt.Sprintf("the owner's rule t <= d + %s, d = %s", p.length(owner), p.length(d)), b.note, "the shop's own rule")
		}
	}
}

// leastWidth is the smallest width of a hole: diameter, or the shorter side;
// 0 not known.
func leastWidth(f *features.Feature) float64 {
	switch f.Kind {
	case features.RoundHole, features.HoleWithSeat:
		return f.DiameterMM
	case features.Slot, features.CurvedSlot, features.RectangularHole:
		return f.WidthMM
	}
	return 0
}

// leastBoltMM is the smallest bolt that the hole may be for.
func (b *boltHole) leastBoltMM() float64 {
	d := 0.0
	for i, r := range b.readings {
		if i == 0 || r.boltMM < d {
			d = r.boltMM
		}
	}
	return d
}

func (p *Pass) overLimit(feature int, limit float64, basis, note, source string) {
	t := p.Job.ThicknessMM
	f := Finding{Got: &Quantity{t, "mm"}, Limit: &Quantity{limit, "mm"}, Basis: basis, worse: t - limit, cause: "thickness", Sources: []string{source}}
	who := codeName(p.Job.Code)
	if source == "the shop's own rule" {
		who = "the owner's rule"
	}
	f.Message = fmt.Sprintf("%s is punched through %s, %s lets it be punched up to %s", sizeText(p.Shop, &p.Part.Features[feature]), p.length(t), who, p.length(limit))
	if note != "" {
		f.Basis += " (" + note + ")"
	}
	p.notPunched(feature, f)
}

// notPunched reports that a code forbids punching a hole to size.
func (p *Pass) notPunched(feature int, f Finding) {
	f.Severity, f.FixBy = Warning, "shop"
	f.Fix = "drill the holes, or punch them " + p.length(p.Value("under")) + " under size and ream them"
	if !p.Shop.Process("drill").Have {
		f.Severity, f.Fix = Error, "have the holes made by a shop that drills"
		f.Message += ", and the shop has no drill"
	}
	p.Report(p.on(feature, f))
}
