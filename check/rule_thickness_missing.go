package check

import (
	"fmt"

	"burrside/features"
	"burrside/features/measure"
)

func thicknessParams() []Param {
	return []Param{
		{"least", "mm", 0.8, 0.1, 3, "thickness in a drawing's text below which its unit is not believed", Cite{}},
		{"most", "mm", 100, 20, 400, "thickness in a drawing's text above which its unit is not believed", Cite{}},
	}
}

func ruleThicknessMissing() Rule {
	return Rule{
		ID:    "thickness-missing",
		Title: "Thickness of the plate: stated, and a stock size",
		Why:   "Force, smallest hole, webs and cuts all go by the thickness. Without it no part passes.",
		Measure: "Taken from a flag or the answers, else from the drawing's text. Missing: the part cannot be told, and is judged for each stock thickness instead. " +
			"Stated twice and not the same: the flag holds, with a warning. Within 0.15 mm or 1.5 % of a stock or gauge size it is that size, with a note when it changes by more than 0.01 mm. " +
			"From the file's name alone it is taken with a warning. A text's thickness under 0.8 mm or over 100 mm is not believed: it may be in another unit.",
		Fix:     "Ask for the thickness.",
		Params:  thicknessParams(),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 150)
			b.hole(40, 75, 22)
			return b.example("a plate 200 x 150 with a hole Ø22 and no word of its thickness", 0, "")
		},
		Part: checkThicknessMissing,
	}
}

func checkThicknessMissing(p *Pass) {
	if !(p.Job.ThicknessMM > 0) {
		msg := "the thickness is not stated"
		f := Finding{Severity: Warning, CannotTell: true, Who: "customer", FixBy: "drawing", Fix: "what is the thickness?"}
		if t := p.Part.Thickness.Text; t != "" {
			msg = fmt.Sprintf("the thickness %q cannot be read", t)
			f = stated(f, &p.Part.Thickness)
		}
		f.Message = msg
		p.Report(f)
		return
	}
	s := &p.said
	t := p.Job.ThicknessMM
	if from := p.Job.ThicknessFrom; from != "flag" && from != "answers" && from != "supposed" && (isBelow(t, p.Value("least")) || isAbove(t, p.Value("most"))) {
		p.Report(stated(Finding{Severity: Warning, CannotTell: true, Who: "customer", FixBy: "drawing", Got: &Quantity{t, "mm"},
			Message: fmt.Sprintf("a thickness of %s is read from %q: it may be in another unit", numberLength(p, t), p.Part.Thickness.Text), Fix: "what is the thickness, and in which unit?"}, &p.Part.Thickness))
		return
	}
	if p.Job.ThicknessFrom == "file name" {
		p.Report(Finding{Severity: Warning, Who: "customer", FixBy: "drawing", Got: &Quantity{t, "mm"},
			Message: fmt.Sprintf("only the file's name %q speaks of a thickness of %s", p.Part.Thickness.Text, numberLength(p, t)), Fix: "is it " + numberLength(p, t) + "?"})
	}
	if s.asked.ThicknessMM > 0 && s.drawnMM > 0 && abs(s.drawnMM-p.Job.ThicknessMM) > 0.01 && p.Job.ThicknessFrom != "supposed" {
		says := "the drawing"
		if p.Part.Thickness.From == "file name" {
			says = "the file's name"
		}
		p.Report(stated(Finding{Severity: Warning, Who: "customer", FixBy: "drawing",
			Got: &Quantity{s.drawnMM, "mm"}, Limit: &Quantity{p.Job.ThicknessMM, "mm"},
			Message: fmt.Sprintf("%s says %s, judged at %s as asked", says, p.length(s.drawnMM), p.length(p.Job.ThicknessMM)),
			Fix:     "which thickness holds?"}, &p.Part.Thickness))
	}
	if s.snapped && abs(s.statedMM-p.Job.ThicknessMM) > 0.01 {
		p.Report(Finding{Severity: Note, Got: &Quantity{s.statedMM, "mm"}, Limit: &Quantity{p.Job.ThicknessMM, "mm"},
			Message: fmt.Sprintf("stated as %s: taken as stock of %s", numberLength(p, s.statedMM), numberLength(p, p.Job.ThicknessMM)), cause: "stock size"})
	}
}

// stated puts a finding where a fact is stated in the drawing.
func stated(f Finding, s *features.Stated) Finding {
	f.Source = s.Source
	if s.From == "text" {
		f.At, f.HasAt = s.At, true
	}
	return f
}

// numberLength writes a thickness with three decimals, so that a stock size and
// what was stated do not look alike.
func numberLength(p *Pass, mm float64) string {
	if p.Shop.Units == "in" {
		return measure.FormatNumber(mm/25.4, 4) + " in"
	}
	return measure.FormatNumber(mm, 3) + " mm"
}
