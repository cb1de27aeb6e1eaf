package render

import (
	"strings"

	"burrside/check"
)

// whyLine is what a finding rests on, on one line: what was found and what is
// asked, the arithmetic, or, where no number decides, what the rule is about; ""
// for a note that has nothing of this.
func (t *textReport) whyLine(f *check.Finding) string {
	var out []string
	found, limit := foundNeeded(f, t.unit)
	switch {
	case found != "" && limit != "":
		out = append(out, "found "+found+", "+limit)
	case found != "":
		out = append(out, "found "+found)
	case limit != "":
		out = append(out, limit)
	}
	switch {
	case f.Basis != "":
		out = append(out, f.Basis)
	case found != "" && limit != "" && f.Got.Unit == f.Limit.Unit:
		a, b := f.Got, f.Limit
		if a.Value < b.Value {
			a, b = b, a
		}
		x, y := quantityText(*a, t.unit), quantityText(*b, t.unit)
		if x != y {
			out = append(out, x+" - "+y+" = "+quantityText(check.Quantity{Value: a.Value - b.Value, Unit: a.Unit}, t.unit))
		}
	case found == "" && limit == "" && f.Severity != check.Note:
		out = append(out, "no number decides it: "+strings.ToLower(t.title(f.Rule)))
	}
	return strings.Join(strings.Fields(strings.Join(out, "; ")), " ")
}

// title is what a rule is about.
func (t *textReport) title(rule string) string {
	if t.titles == nil {
		t.titles = map[string]string{}
		for _, r := range check.Rules() {
			t.titles[r.ID] = r.Title
		}
	}
	if s := t.titles[rule]; s != "" {
		return s
	}
	return ruleWords(rule)
}
