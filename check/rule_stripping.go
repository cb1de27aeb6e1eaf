package check

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

func strippingParams() []Param {
	return []Param{{"gap", "mm", 45, 10, 200, "clear gap under the stripper where the machine states none", Cite{}}}
}

func ruleStripping() Rule {
	return Rule{
		ID:    "stripping",
		Title: "Metal under the stripper on two opposite sides",
		Why:   "The stripper holds the plate down while the punch leaves. Held on one side only the part tips and the punch breaks.",
		Measure: "From the hole's centre to the sides of the blank at that step, along its length and across it: at least half the " +
			"stripper gap on two opposite sides. Of an angle the sides are the heel and the toe of the leg. A bar, strip or angle that is punched before it is cut off goes on beyond the part's ends.",
		Fix:     "Punch it on the bar before cutting off, or with a stripper that fits closer round the punch.",
		Params:  strippingParams(),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("tab", 150, 40)
			b.hole(15, 20, 14)
			return b.example("a hole Ø14, 15 mm from the end of a tab 150 x 40 x 6", 6, "")
		},
		Part: checkStripping,
	}
}

func checkStripping(p *Pass) {
	fr := p.blankFrame()
	onBar := p.punchedOnBar()
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		f := &p.Part.Features[m.Feature]
		if m.MadeBy != "punch" || !f.IsInside() {
			continue
		}
		half := p.stripperGap(m.Use.Machine) / 2
		fr := legFrame(p.Part, fr, f.At)
		u, v := fr.at(f.At)
		left, right, down, up := u-fr.minU, fr.maxU-u, v-fr.minV, fr.maxV-v
		if onBar {
			// The bar goes on beyond the part; its free end is trimmed after.
			left, right = math.Inf(1), math.Inf(1)
		}
		along, across := min(left, right), min(down, up)
		held := max(along, across)
		if !isBelow(held, half) {
			continue
		}
		d := fr.u.Mul(right)
		switch {
		case held == across && down <= up:
			d = fr.v.Mul(-down)
		case held == across:
			d = fr.v.Mul(up)
		case left <= right:
			d = fr.u.Mul(-left)
		}
		to := f.At.Add(d)
		p.Report(p.on(m.Feature, Finding{
			Severity: Warning, Machine: m.Use.Machine, Station: m.Use.Station, FixBy: "shop",
			To: &geom.Point{X: to.X, Y: to.Y}, Got: &Quantity{held, "mm"}, Limit: &Quantity{half, "mm"}, worse: half - held,
			Message: fmt.Sprintf("the stripper finds metal on one side only: %s from the hole's centre to the blank's edge, less than %s", p.length(held), p.length(half)),
			Basis: fmt.Sprintf("half of the gap of %s; centre to the blank's sides %s and %s along it, %s and %s across it",
				p.length(2*half), p.side(left), p.side(right), p.side(down), p.side(up)),
			Fix: "hold it under the stripper on both sides: punch it before cutting off, or fit a closer stripper",
		}))
	}
}

func (p *Pass) side(mm float64) string {
	if math.IsInf(mm, 1) {
		return "the bar"
	}
	return p.length(mm)
}

// blankFrame is the blank's rectangle along its own axes; without one the
// part's.
func (p *Pass) blankFrame() frame {
	fr := p.partFrame()
	c := p.Plan.Blank.Corners
	if c == [4]geom.Point{} {
		return fr
	}
	fr.minU, fr.minV, fr.maxU, fr.maxV = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, q := range c {
		u, v := fr.at(q)
		fr.minU, fr.maxU, fr.minV, fr.maxV = min(fr.minU, u), max(fr.maxU, u), min(fr.minV, v), max(fr.maxV, v)
	}
	return fr
}

// punchedOnBar tells that the blank is a bar or strip and that all punching
// comes before the cut that frees the part.
func (p *Pass) punchedOnBar() bool {
	if f := p.Plan.Blank.Form; f != "bar" && f != "strip" && f != "angle" {
		return false
	}
	ends := map[string]bool{}
	for i := range p.Plan.Cuts {
		if c := &p.Plan.Cuts[i]; c.What == "end cut" {
			for _, k := range c.Features {
				ends[p.Part.Features[k].ID] = true
			}
		}
	}
	free := -1
	for i := range p.Plan.Steps {
		if s := &p.Plan.Steps[i]; s.What != "punch" && slices.ContainsFunc(s.Features, func(id string) bool { return ends[id] }) {
			free = i
		}
	}
	for i := range p.Plan.Steps {
		if p.Plan.Steps[i].What == "punch" && i > free {
			return false
		}
	}
	return free >= 0
}
