package check

import "fmt"

func ruleMaterialMissing() Rule {
	return Rule{
		ID:    "material-missing",
		Title: "Material of the plate: stated, and known to the shop",
		Why:   "Steels differ by half in what they take to punch. A name that the shop does not know is not guessed at.",
		Measure: "Taken from a flag or the answers, else from the drawing's text, and looked up in the shop's list by name or alias. Missing or unknown: the part " +
			"cannot be told, and is judged for mild steel and one stronger grade instead. Stated twice and not the same: the flag holds, with a warning. From the file's name alone it is taken with a warning.",
		Fix:     "Ask for the grade.",
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 150)
			b.hole(40, 75, 22)
			e := b.example(`a plate 200 x 150 x 10 of "steel as usual"`, 10, "")
			e.Job.Material, e.Job.MaterialName = nil, "steel as usual"
			return e
		},
		Part: checkMaterialMissing,
		Bar:  checkBarMaterial,
	}
}

func checkMaterialMissing(p *Pass) {
	s := &p.said
	f := Finding{Severity: Warning, CannotTell: true, Who: "customer", FixBy: "drawing", Fix: "which grade is it?"}
	switch {
	case p.Job.Material == nil && p.Job.MaterialName == "":
		f.Message = "the material is not stated"
		p.Report(f)
	case p.Job.Material == nil:
		f.Message = fmt.Sprintf("the shop knows no material %q", p.Job.MaterialName)
		p.Report(stated(f, &p.Part.Material))
	case !hasSteel(&p.Job):
		f.Who, f.FixBy, f.Fix = "shop", "shop", "add its shear strength to the shop file"
		f.Message = fmt.Sprintf("the shop file states no shear strength of %q", p.Job.MaterialName)
		p.Report(f)
	case p.Job.MaterialFrom == "file name":
		p.Report(Finding{Severity: Warning, Who: "customer", FixBy: "drawing", Fix: "is it " + p.Job.MaterialName + "?",
			Message: fmt.Sprintf("only the file's name speaks of the material %s", p.Job.MaterialName)})
	case p.Job.MaterialFrom == "supposed" || s.drawnName == "" || s.asked.Material == nil && s.asked.MaterialName == "":
	case s.drawnSteel == nil:
		p.Report(stated(Finding{Severity: Note, Who: "customer",
			Message: fmt.Sprintf("the drawing names %q, which the shop does not know; judged as %s as asked", s.drawnName, p.Job.Material.Name)}, &p.Part.Material))
	case s.drawnSteel.Name != p.Job.Material.Name:
		p.Report(stated(Finding{Severity: Warning, Who: "customer", FixBy: "drawing",
			Message: fmt.Sprintf("the drawing names %q, judged as %s as asked", s.drawnName, p.Job.Material.Name), Fix: "which material holds?"}, &p.Part.Material))
	}
}
