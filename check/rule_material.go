package check

func ruleMaterial() Rule {
	return Rule{
		ID:      "material",
		Title:   "Hardened, spring or cast metal",
		Why:     "Hard plate shatters under a punch or blade and throws pieces.",
		Measure: "The material's group and its punchable setting in the shop file. An error when anything of the part would be punched, sheared or notched.",
		Fix:     "Have it cut thermally, by water jet or by machining; never punch or shear it.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("wear plate", 200, 140)
			b.hole(100, 70, 22)
			e := b.example("a plate of a hardened material with a hole Ø22", 10, "")
			m := *e.Job.Material
			m.Name, m.Group, m.Punchable = "hardened plate", "hardened", false
			e.Job.Material, e.Job.MaterialName = &m, m.Name
			return e
		},
		Part: checkMaterial,
	}
}

func checkMaterial(p *Pass) {
	if p.Aspects() > 0 || p.Job.Material == nil {
		return
	}
	m := p.Job.Material
	if m.Punchable && m.Group != "hardened" {
		return
	}
	for i := range p.Plan.Makes {
		switch p.Plan.Makes[i].MadeBy {
		case "punch", "shear", "notch", "nothing", "unknown", "bend":
			p.Report(Finding{Severity: Error, FixBy: "drawing", Who: "designer",
				Message: m.Name + " must not be punched, notched or sheared: it may shatter",
				Fix:     "have it cut by another process"})
			return
		}
	}
}
