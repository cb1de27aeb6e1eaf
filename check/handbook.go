package check

import (
	"context"
	_ "embed"
	"fmt"
	"strings"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features/measure"
)

//go:embed RULES.md
var rulesMD string

// Handbook is RULES.md: all rules, with the example shop's values.
func Handbook() string { return rulesMD }

// Explain gives the text of one rule with the shop's values: what is measured
// and how, parameters, sources, and an example that the code itself works out
// with the example shop. An unknown id is an error that names the nearest one.
func Explain(id string, prof *shop.Profile) (string, error) {
	rules := Rules()
	for i := range rules {
		if rules[i].ID == id {
			var b strings.Builder
			explain(&b, &rules[i], prof)
			return b.String(), nil
		}
	}
	if n := nearest(id, ruleIDs(rules)); n != "" {
		return "", fmt.Errorf("no rule %q; the nearest is %q", id, n)
	}
	return "", fmt.Errorf("no rule %q", id)
}

func explain(b *strings.Builder, r *Rule, prof *shop.Profile) {
	fmt.Fprintf(b, "%s: %s\n\n%s\n\nMeasured: %s\n\nRemedy: %s\n", r.ID, r.Title, r.Why, r.Measure, r.Fix)
	if len(r.Params) > 0 {
		b.WriteString("\nSettings (in the shop file under [rules." + r.ID + "]):\n")
		for _, q := range r.Params {
			fmt.Fprintf(b, "  %s = %s", q.Name, withUnit(value(r, r.Params, prof, q.Name), q.Unit))
			if _, set := setting(prof, r.ID, q.Name); set {
				fmt.Fprintf(b, " (default %s)", withUnit(q.Default, q.Unit))
			}
			fmt.Fprintf(b, "; from %s to %s: %s\n", measure.FormatNumber(q.Min, 6), measure.FormatNumber(q.Max, 6), q.text())
		}
	}
	b.WriteString("\nSources:\n")
	for _, c := range r.Sources {
		b.WriteString("  " + citeText(c) + "\n")
	}
	text, said := workExample(r)
	fmt.Fprintf(b, "\nExample, %s:\n", text)
	for _, s := range said {
		b.WriteString("  " + s + "\n")
	}
}

// text is what a parameter is, with the source of its default.
func (q *Param) text() string {
	if q.Source.Text == "" {
		return q.Doc
	}
	return q.Doc + " (" + citeText(q.Source) + ")"
}

func citeText(c Cite) string {
	if c.Memory {
		return c.Text + " (from memory)"
	}
	return c.Text
}

// workExample judges a rule's example by the example shop and gives what the
// rule says about it, a line each.
func workExample(r *Rule) (text string, said []string) {
	e := r.Example()
	for _, f := range exampleFindings(r, e) {
		s := string(f.Severity)
		if f.CannotTell {
			s = "cannot tell"
		}
		if len(f.Features) > 0 {
			s += " on " + idList(f.Features)
		}
		said = append(said, s+": "+f.Message)
		if f.Basis != "" {
			said = append(said, "  "+f.Basis)
		}
		if f.Fix != "" {
			what := "to do"
			if f.FixBy == "drawing" {
				what = "to ask"
			}
			said = append(said, "  "+what+": "+f.Fix)
		}
	}
	return e.Text, said
}

// exampleFindings are the findings of the rule itself on its example.
func exampleFindings(r *Rule, e Example) []Finding {
	prof := shop.BuiltIn()
	var all []Finding
	if e.List != "" {
		all = listFindings(e.List, prof)
	} else if e.Sheet != nil {
		rep, err := Run(context.Background(), "example", e.Sheet, prof, e.Job)
		if err != nil {
			panic("check: a context that never ends has ended")
		}
		all = rep.Findings
	} else {
		rep, _ := judgeOnce(e.Part, prof, e.Job, circumstances{}, plan.MakePlan)
		all = rep.Findings
	}
	var out []Finding
	for _, f := range all {
		if f.Rule == r.ID {
			out = append(out, f)
		}
	}
	return out
}

// handbook writes RULES.md from the rules.
func handbook() string {
	var b strings.Builder
	b.WriteString("# Rules\n\nWhat burrside looks at, one section a rule. This file is made from the rules themselves " +
		"(`UPDATE_GOLDEN=1 go test ./check`); the examples are worked by the program with its example shop, whose figures are invented. " +
		"A rule speaks of machine capability and good practice; it is not a check of strength.\n\n" +
		"error: cannot or must not be made so. warning: can be made with care, or wants a second look. note: worth knowing. cannot tell: a datum is missing.\n")
	for _, r := range Rules() {
		fmt.Fprintf(&b, "\n## %s\n\n**%s.** %s\n\n*Measured.* %s\n\n*Remedy.* %s\n", r.ID, r.Title, r.Why, r.Measure, r.Fix)
		if len(r.Params) > 0 {
			b.WriteString("\n| setting | default | from | to | |\n|---|---|---|---|---|\n")
			for _, q := range r.Params {
				fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", q.Name, withUnit(q.Default, q.Unit), measure.FormatNumber(q.Min, 6), measure.FormatNumber(q.Max, 6), strings.ReplaceAll(q.text(), "|", "/"))
			}
		}
		b.WriteString("\nSources: ")
		for i, c := range r.Sources {
			if i > 0 {
				b.WriteString("; ")
			}
			b.WriteString(citeText(c))
		}
		text, said := workExample(&r)
		fmt.Fprintf(&b, ".\n\nExample, %s:\n\n", text)
		for _, s := range said {
			b.WriteString("    " + s + "\n")
		}
	}
	return b.String()
}
