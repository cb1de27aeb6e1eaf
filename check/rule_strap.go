package check

import (
	"fmt"

	"burrside/features"
	"burrside/features/measure"
)

func strapParams() []Param {
	return []Param{
		{"share", "", 0.10, 0.02, 0.3, "stripping force as a share of the punching force", Cite{}},
		{"shape", "", 1.2, 1, 2, "how far past first yield the strap may go before it stays bent", Cite{}},
		{"widest", "mm", 100, 20, 500, "width up to which a part counts as a strap", Cite{}},
		{"slender", "", 5, 2, 50, "least length over width of a strap", Cite{}},
		{"holes", "", 3, 1, 100, "least number of punched holes", Cite{}},
		{"gap", "mm", 45, 10, 200, "clear gap under the stripper where the machine states none", Cite{}},
	}
}

func ruleStrap() Rule {
	return Rule{
		ID:    "strap",
		Title: "Narrow strap bent by the stripper",
		Why:   "The punch pulls the metal up against the stripper as it leaves; a thin strap that is held only beside the gap stays bent.",
		Measure: "Simple beam over the stripper gap g, the stripping force Fs spread over the hole d: care when " +
			"Fs (g/4 - d/8) > 1.2 fy (b - d) t^2/4, Fs = 0.10 F; only for parts at most 100 mm wide, at least 5 times as long, with 3 punched holes or more. Never an error. " +
			"A note when a row of 5 holes or more, at a pitch under 4 d, lies more than b/6 off the middle: the punched side stretches.",
		Fix:     "Fit a stripper that holds the strap all round the hole.",
		Params:  strapParams(),
		Sources: []Cite{shopPractice(), {Text: "simple beam with a load spread over its middle, elementary statics"}},
		Example: func() Example {
			b := examplePlate("strap", 600, 50)
			for x := 60.0; x < 600; x += 80 {
				b.hole(x, 25, 18)
			}
			return b.example("a strap 600 x 50 x 5 with seven holes Ø18", 5, "")
		},
		Part: checkStrap,
	}
}

func checkStrap(p *Pass) {
	if p.Part.Angle != nil {
		return // the other leg stiffens it
	}
	if p.noThickness() {
		return
	}
	fr := p.partFrame()
	b, l := fr.maxV-fr.minV, fr.maxU-fr.minU
	if b > l {
		b, l = l, b
	}
	var punched []int
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		if m.MadeBy == "punch" && p.Part.Features[m.Feature].IsInside() {
			punched = append(punched, i)
		}
	}
	if isAbove(b, p.Value("widest")) || isBelow(l, p.Value("slender")*b) || float64(len(punched)) < p.Value("holes") {
		return
	}
	p.camber(punched, &fr, b)
	if !hasSteel(&p.Job) || !(p.Job.Material.YieldMPa > 0) {
		p.Skip("needs the yield strength of the material")
		return
	}
	t, fy := p.Job.ThicknessMM, p.Job.Material.YieldMPa
	for _, i := range punched {
		m := &p.Plan.Makes[i]
		f := &p.Part.Features[m.Feature]
		d := max(f.DiameterMM, f.WidthMM)
		g := p.stripperGap(m.Use.Machine)
		need, bears := strapMoments(m.Use.ForceKN, p.Value("share"), g, d, b, t, fy, p.Value("shape"))
		if !isAbove(need, bears) {
			continue
		}
		p.Report(p.on(m.Feature, Finding{
			Severity: Warning, Machine: m.Use.Machine, Station: m.Use.Station, FixBy: "shop",
			Got: &Quantity{need, "kNm"}, Limit: &Quantity{bears, "kNm"}, worse: need / max(bears, 1e-9),
			Message: fmt.Sprintf("the strap of %s bends when the punch is stripped over a gap of %s", p.length(b), p.length(g)),
			Basis: fmt.Sprintf("%s x %s kN x (%s/4 - %s/8) = %s kNm; %s x %s MPa x (%s - %s) x %s^2/4 = %s kNm", measure.FormatNumber(p.Value("share"), 2), measure.FormatNumber(m.Use.ForceKN, 1),
				measure.FormatNumber(g, 1), measure.FormatNumber(d, 1), measure.FormatNumber(need, 3), measure.FormatNumber(p.Value("shape"), 2), measure.FormatNumber(fy, 0), measure.FormatNumber(b, 1), measure.FormatNumber(d, 1), measure.FormatNumber(t, 1), measure.FormatNumber(bears, 3)),
			Fix: "fit a stripper that holds the strap all round the hole",
		}))
	}
}

// strapMoments gives the bending moment that stripping puts on a strap and what
// it bears without staying bent, kNm. Forces kN, lengths mm, strengths MPa.
func strapMoments(forceKN, share, gapMM, dMM, bMM, tMM, fyMPa, shape float64) (need, bears float64) {
	need = max(0, forceKN*share*(gapMM/4-dMM/8)) / 1e3
	bears = max(0, shape*fyMPa*(bMM-dMM)*tMM*tMM/4) / 1e6
	return need, bears
}

// stripperGap of the machine, else the rule's own value.
func (p *Pass) stripperGap(machine string) float64 {
	for i := range p.Shop.Machines {
		if m := &p.Shop.Machines[i]; m.Name == machine && m.Punch != nil && m.Punch.StripperGapMM > 0 {
			return m.Punch.StripperGapMM
		}
	}
	return p.Value("gap")
}

// camber notes a strap whose holes lie to one side of its middle.
func (p *Pass) camber(punched []int, fr *frame, b float64) {
	type row struct {
		first, n        int
		least, d, v, u0 float64
	}
	lengthways := fr.maxU-fr.minU >= fr.maxV-fr.minV
	mid := (fr.minV + fr.maxV) / 2
	if !lengthways {
		mid = (fr.minU + fr.maxU) / 2
	}
	var rows []row
	for _, i := range punched {
		f := &p.Part.Features[p.Plan.Makes[i].Feature]
		if f.Kind != features.RoundHole {
			continue
		}
		u, v := fr.at(f.At)
		if !lengthways {
			u, v = v, u
		}
		k := -1
		for j := range rows {
			if abs(rows[j].v-v) < 1 && abs(rows[j].d-f.DiameterMM) < 0.1 {
				k = j
			}
		}
		if k < 0 {
			rows = append(rows, row{first: p.Plan.Makes[i].Feature, n: 1, least: u, u0: u, d: f.DiameterMM, v: v})
			continue
		}
		r := &rows[k]
		r.n++
		r.least, r.u0 = min(r.least, u), max(r.u0, u)
	}
	for _, r := range rows {
		if r.n < 5 || abs(r.v-mid) <= b/6 {
			continue
		}
		if pitch := (r.u0 - r.least) / float64(r.n-1); pitch < 4*r.d {
			p.Report(p.on(r.first, Finding{Severity: Note, FixBy: "shop", Got: &Quantity{abs(r.v - mid), "mm"}, Limit: &Quantity{b / 6, "mm"},
				Message: fmt.Sprintf("a row of %d holes lies %s off the middle: the strap bends towards the other side", r.n, p.length(abs(r.v-mid))),
				Fix:     "straighten it after punching", cause: "camber", worse: abs(r.v - mid)}))
		}
	}
}
