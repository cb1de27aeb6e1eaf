package check

import (
	"fmt"
	"slices"
	"strings"

	"burrside/features"
)

// doubts reports the part's doubts that belong to the rule.
func (p *Pass) doubts(mine func(*features.Doubt) bool) {
	for i := range p.Part.Doubts {
		d := &p.Part.Doubts[i]
		if !mine(d) {
			continue
		}
		f := Finding{Severity: Note, Who: "customer", At: d.At, HasAt: true, Source: d.Source,
			Message: orText(d.Text, ruleWords(d.Code)), cause: d.Code + sameBut(d.Text)}
		if d.Grave && p.settled(d) {
			f.Severity, f.FixBy, f.Fix = Warning, "drawing", "which statement holds?"
			f.Message += "; judged as asked"
		} else if d.Grave {
			f.Severity, f.CannotTell, f.FixBy, f.Fix = Warning, true, "drawing", "which reading is meant?"
			if d.Code == "line-unexplained" {
				f.Fix = "what does the line mean?"
			}
		}
		p.Report(f)
	}
}

// settled tells that a doubt is about what the drawing states twice, and that a
// flag or the answers state it too: those hold.
func (p *Pass) settled(d *features.Doubt) bool {
	if d.Code != "text-conflict" {
		return false
	}
	says := func(what string) bool { return strings.Contains(d.Text, "states the "+what+" twice") }
	a := &p.said.asked
	return says("thickness") && a.ThicknessMM > 0 || says("material") && (a.Material != nil || a.MaterialName != "") || says("quantity") && a.Quantity > 0
}

// faults reports the drawing's faults of one code that concern the part.
func (p *Pass) faults(code string, sev Severity, cannotTell bool, text, fix string) {
	for i := range p.Faults {
		if t := &p.Faults[i]; t.Code == code {
			p.Report(faultFinding(t, sev, cannotTell, text, fix))
		}
	}
}

// faults reports the drawing's faults of these codes that concern no part.
func (p *SheetPass) faults(codes []string, sev Severity, cannotTell bool, text, fix string) {
	for i := range p.Sheet.Faults {
		t := &p.Sheet.Faults[i]
		for _, c := range codes {
			if t.Code == c && !p.ofPart(t) {
				p.Report(faultFinding(t, sev, cannotTell, text, fix))
			}
		}
	}
}

// ofPart tells that a fault belongs to a part that is there to report it.
func (p *SheetPass) ofPart(t *features.Fault) bool { return t.Part >= 0 && t.Part < len(p.Sheet.Parts) }

func faultFinding(t *features.Fault, sev Severity, cannotTell bool, text, fix string) Finding {
	f := Finding{Severity: sev, CannotTell: cannotTell, Who: "customer", FixBy: "drawing", Fix: fix, Message: orText(t.Text, text),
		At: t.At, HasAt: true, Count: max(1, t.Count), Source: t.Source, worse: t.Value}
	if t.Text == "" && t.Count > 1 {
		f.Message = fmt.Sprintf("%s, %d times", text, t.Count)
	}
	return f
}

// hasFault tells that the drawing has a fault of that code.
func (p *SheetPass) hasFault(code string) bool {
	return slices.ContainsFunc(p.Sheet.Faults, func(f features.Fault) bool { return f.Code == code })
}

// evidenceText names the strongest witnesses for a unit, at most three.
func evidenceText(u *features.Units) string {
	s := ""
	for i, e := range u.Evidence {
		if i == 3 {
			break
		}
		if s != "" {
			s += "; "
		}
		s += e.What + " for " + e.For
	}
	return s
}

func sheetExample(text string, f features.Fault) Example {
	return Example{Text: text, Sheet: &features.Sheet{Units: features.Units{Name: "mm", MM: 1, From: features.UnitsHeader}, Faults: []features.Fault{f}}}
}

// unitWord is the word for a unit in a sentence.
func unitWord(name string) string {
	switch name {
	case "in":
		return "inches"
	case "ft":
		return "feet"
	case "m":
		return "metres"
	}
	return name
}
