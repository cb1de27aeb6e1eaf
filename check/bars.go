package check

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features/cutlist"
	"burrside/features/measure"
)

// BarReport is the judgement of one line of a cut list.
type BarReport struct {
	Name      string // "line 3"
	Line      *cutlist.Line
	Job       plan.Job
	Plan      *plan.BarPlan // nil if the line is not understood
	Verdict   Verdict
	Reason    string
	Findings  []Finding // worst first
	Limits    []Limit   // by material, when it is not known
	Questions []string
	Cautions  []string // at most four
}

// BarPass is what a rule sees of one line of a cut list.
type BarPass struct {
	Line *cutlist.Line
	Plan *plan.BarPlan // nil if the line is not understood
	Shop *shop.Profile
	Job  plan.Job

	listed   string // material that the list names where another was judged
	rule     *Rule
	findings []Finding
	spoken   map[string]bool // rules whose aspects are reported
}

// Value of a parameter of the rule, in the parameter's unit.
func (p *BarPass) Value(name string) float64 { return value(p.rule, p.rule.Params, p.Shop, name) }

// Report adds a finding of the rule.
func (p *BarPass) Report(f Finding) { p.findings = append(p.findings, complete(f, p.rule)) }

// Aspects reports what plan and stations looked at under the rule's own id.
func (p *BarPass) Aspects() {
	p.spoken[p.rule.ID] = true
	if p.Plan == nil {
		return
	}
	for _, a := range p.Plan.Aspects {
		if a.Rule == p.rule.ID && a.Grade >= station.Remark {
			p.Report(fromAspect(a, nil))
		}
	}
	for i := range p.Plan.Cuts {
		c := &p.Plan.Cuts[i]
		for _, a := range c.Use.Aspects {
			if a.Rule != p.rule.ID || a.Grade < station.Remark {
				continue
			}
			f := fromAspect(a, &c.Use)
			if c.Use.Machine != "" { // beside the machines all of them were looked at
				f.Tried = machinesOf(c.Tried, c.Use.Machine)
			}
			if len(p.Plan.Cuts) > 1 {
				f.Message = c.What + ": " + f.Message
			}
			p.Report(f)
		}
	}
}

// barByStations is the check of a rule whose numbers the stations work out.
func barByStations(p *BarPass) { p.Aspects() }

// RunList judges a cut list, unless ctx ends first. job holds what flags and
// answers say; a line's own material and quantity come before theirs.
func RunList(ctx context.Context, name string, list *cutlist.List, prof *shop.Profile, job plan.Job) (*Report, error) {
	rep := &Report{Drawing: name, Shop: prof, List: list, Verdict: Fits}
	rules := Rules()
	for i := range list.Lines {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		b := judgeBar(rules, &list.Lines[i], prof, job)
		rep.Bars = append(rep.Bars, b)
		rep.Verdict = worse(rep.Verdict, b.Verdict)
	}
	if len(rep.Bars) == 0 {
		rep.Verdict = CannotTell
	}
	return rep, nil
}

// barJob joins what a line and the flags say: the line's own words come first,
// as a flag speaks for the whole list.
func barJob(line *cutlist.Line, prof *shop.Profile, asked plan.Job) (job plan.Job, listed string) {
	job = plan.Job{Machine: asked.Machine, Material: asked.Material, MaterialName: asked.MaterialName, MaterialFrom: asked.MaterialFrom, Quantity: asked.Quantity, QuantityFrom: asked.QuantityFrom}
	if line.Material != "" {
		if asked.MaterialName != "" && !strings.EqualFold(asked.MaterialName, line.Material) {
			listed = asked.MaterialName
		}
		job.Material, job.MaterialName, job.MaterialFrom = nil, line.Material, "list"
	}
	if job.Material == nil && job.MaterialName != "" {
		if m, ok := prof.Material(job.MaterialName); ok {
			job.Material = m
		}
	}
	if line.Quantity > 0 {
		job.Quantity, job.QuantityFrom = line.Quantity, "list"
	}
	job.ThicknessMM, job.ThicknessFrom = line.Section.ThicknessMM, "section"
	return job, listed
}

func judgeBar(rules []Rule, line *cutlist.Line, prof *shop.Profile, asked plan.Job) *BarReport {
	job, listed := barJob(line, prof, asked)
	rep := judgeBarAs(rules, line, prof, job, listed)
	if rep.Plan != nil && !hasSteel(&rep.Job) {
		for _, m := range twoSteels(prof) {
			j := job
			j.Material, j.MaterialName, j.MaterialFrom = m, m.Name, "supposed"
			one := judgeBarAs(rules, line, prof, j, "")
			l := Limit{Material: m.Name, ThicknessMM: job.ThicknessMM, Verdict: one.Verdict}
			l.Text = m.Name + ": " + strings.ReplaceAll(string(one.Verdict), "-", " ")
			if one.Verdict != Fits && len(one.Findings) > 0 {
				l.StoppedBy = one.Findings[0].Rule
				l.Text += " (" + ruleWords(l.StoppedBy) + ")"
			}
			rep.Limits = append(rep.Limits, l)
		}
	}
	return rep
}

// judgeBarAs runs all rules over a line as the job states it.
func judgeBarAs(rules []Rule, line *cutlist.Line, prof *shop.Profile, job plan.Job, listed string) *BarReport {
	rep := &BarReport{Name: fmt.Sprintf("line %d", line.Number), Line: line, Job: job}
	if len(line.Problems) == 0 {
		l := *line
		if l.Section.Kind == cutlist.Flat {
			l.Section.ThicknessMM, _ = prof.SnapThickness(l.Section.ThicknessMM)
			job.ThicknessMM = l.Section.ThicknessMM
			rep.Job.ThicknessMM = l.Section.ThicknessMM
		}
		rep.Plan = plan.MakeBarPlan(plan.Bar{Section: l.Section, LengthMM: l.LengthMM, Ends: l.Ends, EndStated: l.EndStated}, prof, job)
	}
	p := &BarPass{Line: line, Plan: rep.Plan, Shop: prof, Job: job, listed: listed, spoken: map[string]bool{}}
	for i := range rules {
		if r := &rules[i]; r.Bar != nil {
			p.rule = r
			r.Bar(p)
		}
	}
	// What no rule of bars spoke of, the others report as they do for parts.
	for i := range rules {
		if r := &rules[i]; !p.spoken[r.ID] {
			p.rule = r
			p.Aspects()
		}
	}
	kept, _ := suppress(p.findings)
	rep.Findings = group(kept, nil)
	sortFindings(rep.Findings, rules, nil)
	rep.Verdict, rep.Reason = barVerdict(rep)
	rep.Questions = barQuestions(rep)
	rep.Cautions = barCautions(rep)
	return rep
}

// barVerdict is the answer about one line.
func barVerdict(rep *BarReport) (Verdict, string) {
	var fail, care bool
	failWhy := ""
	var asks []string
	for i := range rep.Findings {
		f := &rep.Findings[i]
		switch gradeOf(f) {
		case station.Fail:
			if !fail {
				failWhy = reasonText(f)
			}
			fail = true
		case station.Unknown:
			w := askWords(f)
			switch f.Rule {
			case "list-line":
				w = "what the line says"
			case "thickness-missing":
				w = "the wall"
			}
			if !slices.Contains(asks, w) {
				asks = append(asks, w)
			}
		case station.Care:
			care = true
		}
	}
	// A plan that ends in a failure or an open question says so even where no
	// rule did.
	if rep.Plan != nil {
		for i := range rep.Plan.Cuts {
			switch rep.Plan.Cuts[i].Use.Grade() {
			case station.Fail:
				fail, failWhy = true, orText(failWhy, rep.Plan.Cuts[i].What)
			case station.Unknown:
				if len(asks) == 0 {
					asks = append(asks, rep.Plan.Cuts[i].What)
				}
			case station.Care:
				care = true
			}
		}
	}
	switch {
	case fail:
		return DoesNotFit, failWhy
	case len(asks) > 0:
		return CannotTell, joinReasons(asks)
	case rep.Plan == nil:
		return CannotTell, "what the line says"
	case care:
		return WithCare, ""
	}
	return Fits, ""
}

// barQuestions are plain sentences for whoever wrote the list.
func barQuestions(rep *BarReport) []string {
	var out []string
	name := rep.Name
	if s := rep.Line.Section.Text; s != "" {
		name += " (" + s + ")"
	}
	for i := range rep.Findings {
		f := &rep.Findings[i]
		if !f.CannotTell {
			continue
		}
		switch f.Rule {
		case "list-line":
			out = append(out, fmt.Sprintf("About %s: %s. What is meant?", name, f.Message))
		case "material-missing":
			if rep.Job.MaterialName != "" {
				out = append(out, fmt.Sprintf("Which grade is %q, the material of %s?", rep.Job.MaterialName, name))
			} else {
				out = append(out, fmt.Sprintf("Which grade of steel is %s?", name))
			}
		case "thickness-missing":
			out = append(out, fmt.Sprintf("What is the wall of %s?", name))
		case "channel-shear":
			if f.FixBy == "drawing" {
				out = append(out, fmt.Sprintf("About %s: %s.", name, f.Message))
			}
		}
	}
	return out
}

// barCautions are orders for whoever makes the pieces.
func barCautions(rep *BarReport) []string {
	if rep.Plan == nil {
		return nil
	}
	has := map[string]bool{}
	for i := range rep.Findings {
		if f := &rep.Findings[i]; f.Severity != Note && !f.CannotTell {
			has[f.Rule] = true
		}
	}
	var shear, saw, end bool
	for i := range rep.Plan.Cuts {
		switch u := &rep.Plan.Cuts[i].Use; {
		case u.Grade() >= station.Unknown:
		case u.Station == "saw":
			saw = true
		case u.Station == "end tool":
			end = true
		case u.Machine != "":
			shear = true
		}
	}
	var out []string
	say := func(when bool, text string) {
		if when && len(out) < mostCautions {
			out = append(out, text)
		}
	}
	say(has["material"], "do not punch, notch or shear this metal: it shatters")
	say(has["lift"], "lift the piece with two people or a hoist; keep feet clear")
	say(shear || saw || end, "support long stock on both sides; keep clear of the piece that falls")
	say(shear, "keep hands clear of the blades and of the hold-down")
	say(end && rep.Plan.Bar.LengthMM < 300, "keep fingers out: hold a short piece with tongs or a jig")
	say(saw, "clamp the bar and let the saw stop before clearing it")
	return out
}

// checkBarMaterial says that the material is not known, or that a flag named
// another than the list.
func checkBarMaterial(p *BarPass) {
	p.spoken[p.rule.ID] = true
	if p.Plan == nil {
		return
	}
	f := Finding{Severity: Warning, CannotTell: true, Who: "customer", FixBy: "drawing", Fix: "which grade is it?"}
	switch {
	case p.Job.Material == nil && p.Job.MaterialName == "":
		f.Message = "the material is not stated"
		p.Report(f)
	case p.Job.Material == nil:
		f.Message = fmt.Sprintf("the shop knows no material %q", p.Job.MaterialName)
		p.Report(f)
	case !hasSteel(&p.Job):
		f.Who, f.FixBy, f.Fix = "shop", "shop", "add its shear strength to the shop file"
		f.Message = fmt.Sprintf("the shop file states no shear strength of %q", p.Job.MaterialName)
		p.Report(f)
	case p.listed != "":
		p.Report(Finding{Severity: Note, Who: "customer", Message: fmt.Sprintf("the list names %s, which was taken, not %s as asked", p.Job.MaterialName, p.listed)})
	}
}

// checkBarLift weighs the piece as it is handled.
func checkBarLift(p *BarPass) {
	if p.Plan == nil || !(p.Plan.Work.GrossKG > 0) {
		return
	}
	kg := p.Plan.Work.GrossKG
	basis := fmt.Sprintf("%s mm2 x %s mm x %s kg/m3", measure.FormatNumber(p.Line.Section.AreaMM2, 0), measure.FormatNumber(p.Line.LengthMM, 0), measure.FormatNumber(p.Job.Material.DensityKgM3, 0))
	if f, ok := heavy("piece", kg, p.Value("one"), p.Value("hoist"), basis); ok {
		p.Report(f)
	}
}

// listFindings are the findings about an example's list.
func listFindings(text string, prof *shop.Profile) []Finding {
	list, err := cutlist.Read(strings.NewReader(text), cutlist.Options{Unit: "mm"})
	if err != nil {
		panic("check: the example of a rule is no cut list: " + err.Error())
	}
	rep, err := RunList(context.Background(), "example", list, prof, plan.Job{})
	if err != nil {
		panic("check: a context that never ends has ended")
	}
	var all []Finding
	for _, b := range rep.Bars {
		all = append(all, b.Findings...)
	}
	return all
}
