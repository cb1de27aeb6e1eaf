package check

import (
	"fmt"

	"burrside/features"
	"burrside/features/geom"
)

func ruleDieLand() Rule {
	return Rule{
		ID:      "die-land",
		Title:   "Die's lip over the hole punched before",
		Why:     "The plate bears on the lip of the die round its bore. Where the hole punched before lies under it the lip has nothing to hold, the web is pushed in and the lip chips.",
		Measure: "From the centre of a punched round hole to the edge of another punched one: at least half of the bore of its die and 3 mm.",
		Fix:     "Punch every second hole first, over the die with the smaller bore; or drill the last.",
		Params:  []Param{{"lip", "mm", 3, 0, 20, "width of the die's lip that bears the metal round its bore", Cite{}}},
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("strip", 200, 100)
			b.hole(90, 50, 18)
			b.hole(111, 50, 18)
			return b.example("two holes Ø18 with 3 mm of metal between them in a strip 200 x 100 x 3", 3, "")
		},
		Part: checkDieLand,
	}
}

func checkDieLand(p *Pass) {
	if !hasInside(p.Part) || p.noThickness() {
		return
	}
	bore := map[int]float64{}
	most := 0.0
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		f := &p.Part.Features[m.Feature]
		if m.MadeBy != "punch" || f.Kind != features.RoundHole || f.CrossesOutline {
			continue
		}
		bore[m.Feature] = max(m.Use.BoreMM, f.DiameterMM)
		most = max(most, (bore[m.Feature]-f.DiameterMM)/2)
	}
	lip := p.Value("lip")
	metal := p.distances()
	for i := range p.Part.Features {
		if i%1024 == 1023 && p.ended() {
			return
		}
		if bore[i] == 0 {
			continue
		}
		f := &p.Part.Features[i]
		for _, g := range metal.toHoles(i, most+lip) {
			o := g.feature
			if bore[o] == 0 {
				continue
			}
			// Whichever is punched last: the greater want of the two.
			h := &p.Part.Features[o]
			got, need, last := f.DiameterMM/2+g.mm, bore[i]/2+lip, i
			if second := bore[o]/2 + lip - h.DiameterMM/2 - g.mm; second > need-got+1e-9 {
				got, need, last = h.DiameterMM/2+g.mm, bore[o]/2+lip, o
			}
			if !isBelow(got, need) {
				continue
			}
			other := i + o - last
			x := Finding{Severity: Warning, FixBy: "shop", Features: []string{p.Part.Features[other].ID}, At: g.from, HasAt: true, To: &geom.Point{X: g.to.X, Y: g.to.Y},
				Got: &Quantity{got, "mm"}, Limit: &Quantity{need, "mm"}, worse: need - got, remedy: "land",
				Fix: "punch with a die of smaller bore and the web clamped, or drill the second hole"}
			a, z := below(p.Shop, got, need)
			x.Message = fmt.Sprintf("the die's lip comes over %s: %s from the centre of the %s to its edge, less than %s", p.Part.Features[other].ID, a, sizeText(p.Shop, &p.Part.Features[last]), z)
			x.Basis = fmt.Sprintf("bore of the die %s / 2 + %s = %s", p.length(bore[last]), p.length(lip), p.length(need))
			p.Report(p.on(last, x))
		}
	}
}
