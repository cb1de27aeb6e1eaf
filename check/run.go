package check

import (
	"context"
	"fmt"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

// RunPart judges one part by itself, without the drawing that it comes from.
// What job leaves open is taken from the part's own text.
func RunPart(part *features.Part, prof *shop.Profile, job plan.Job) *PartReport {
	return judge(part, prof, job, circumstances{inch: prof.Units == "in"})
}

// circumstances are what the drawing tells of a part beside the part itself.
type circumstances struct {
	ctx    context.Context // that judging ends with; nil none
	faults []features.Fault
	inch   bool
	// doubt keeps every part of the drawing from a sure pass; "" none. It is the
	// reason in a few words.
	doubt     string
	elsewhere []features.CallOut // answered to by another part
	texts     []string           // lines of the drawing's texts, of a single part
	notes     []string           // lines of all texts of the drawing
	noteAt    map[string]geom.Point
	shaky     bool // what is drawn is itself in doubt, so that no error is sure either
}

// ended tells that the context has ended: what is then judged is thrown away.
func (c *circumstances) ended() bool { return c.ctx != nil && c.ctx.Err() != nil }

// judge runs all rules over a part, and over the stock thicknesses when a datum
// is missing.
func judge(part *features.Part, prof *shop.Profile, job plan.Job, c circumstances) *PartReport {
	part = liftDoubts(part, &job)
	rules := Rules()
	prepared := plan.PrepareWithin(c.ctx, part)
	makePlan := func(_ *features.Part, prof *shop.Profile, job plan.Job) *plan.Plan { return prepared.Plan(prof, job) }
	rep, pass := judgeBy(rules, part, prof, job, c, makePlan)
	if !(rep.Job.ThicknessMM > 0) || !hasSteel(&rep.Job) {
		thicknesses, steels := supposed(part, prof, &rep.Job)
		if n := len(thicknesses) * len(steels) * len(part.Features); n > mostSupposed {
			rep.Skipped = append(rep.Skipped, Skipped{Rule: "thickness-missing", Why: fmt.Sprintf("the part has %d features: it was not judged at each stock thickness", len(part.Features))})
		} else {
			rep.Limits = limits(rules, part, prof, job, thicknesses, steels, c, makePlan)
		}
	}
	if c.ended() {
		return rep
	}
	rep.Questions = questions(pass, rep)
	rep.Cautions = cautions(rep)
	return rep
}

// planner makes the plan of a part; tests put their own in its place.
type planner func(*features.Part, *shop.Profile, plan.Job) *plan.Plan

// judgeOnce runs all rules over a part as the job states it.
func judgeOnce(part *features.Part, prof *shop.Profile, asked plan.Job, c circumstances, makePlan planner) (*PartReport, *Pass) {
	return judgeBy(Rules(), part, prof, asked, c, makePlan)
}

// judgeBy runs these rules over a part. Holes that a punch would make too near
// an edge or to each other are made in another way where the part is the better
// for it: only the rules know of the metal left.
func judgeBy(rules []Rule, part *features.Part, prof *shop.Profile, asked plan.Job, c circumstances, makePlan planner) (*PartReport, *Pass) {
	rep, pass := judgeAsked(rules, part, prof, asked, c, makePlan)
	if len(pass.tooThin) == 0 || c.ended() {
		return rep, pass
	}
	other := asked
	other.NotPunched = pass.tooThin
	if rep2, pass2 := judgeAsked(rules, part, prof, other, c, makePlan); faulty(rep2) < faulty(rep) {
		return rep2, pass2
	}
	return rep, pass
}

// faulty counts the features with an error, and the errors without a feature.
func faulty(rep *PartReport) int {
	n, seen := 0, map[string]bool{}
	for i := range rep.Findings {
		f := &rep.Findings[i]
		if f.Severity != Error || f.CannotTell {
			continue
		}
		if len(f.Features) == 0 {
			n++
		}
		for _, id := range f.Features {
			if !seen[id] {
				seen[id] = true
				n++
			}
		}
	}
	return n
}

// judgeAsked runs these rules over a part whose plan is as asked.
func judgeAsked(rules []Rule, part *features.Part, prof *shop.Profile, asked plan.Job, c circumstances, makePlan planner) (*PartReport, *Pass) {
	job, said := resolve(part, prof, asked)
	rep := &PartReport{Part: part, Job: job, Plan: makePlan(part, prof, job)}
	pass := &Pass{Part: part, Plan: rep.Plan, Shop: prof, Job: job, Faults: c.faults, Inch: c.inch, elsewhere: c.elsewhere, texts: c.texts, notes: c.notes, noteAt: c.noteAt, said: said, ended: c.ended}
	for i := range rules {
		if c.ended() {
			return rep, pass
		}
		if r := &rules[i]; r.Part != nil {
			pass.rule, pass.params = r, r.Params
			r.Part(pass)
		}
	}
	pass.findings = append(pass.findings, unspoken(pass, rules)...)
	order := map[string]int{}
	for i := range part.Features {
		order[part.Features[i].ID] = i
	}
	var kept []Finding
	kept, rep.Suppressed = suppress(pass.findings)
	pass.kept = kept
	rep.Findings = group(kept, order)
	sortFindings(rep.Findings, rules, order)
	rep.Skipped = pass.skipped
	rep.Verdict, rep.Reason = verdictOf(rep, c)
	rep.Features = featureVerdicts(part, rep.Findings)
	return rep, pass
}

// Run judges a whole drawing, unless ctx ends first: the error is then ctx's and
// there is no report. job holds what flags and answers say; what it
// leaves open is taken from each part's own text. With the unit in doubt both
// readings are judged.
func Run(ctx context.Context, drawing string, sheet *features.Sheet, prof *shop.Profile, job plan.Job) (*Report, error) {
	rep := &Report{Drawing: drawing, Sheet: sheet, Shop: prof, Code: codeNames(&job)}
	rules := Rules()
	sp := &SheetPass{Sheet: sheet, Shop: prof}
	for i := range rules {
		if r := &rules[i]; r.Sheet != nil {
			sp.rule, sp.params = r, r.Params
			r.Sheet(sp)
		}
	}
	rep.Findings = group(sp.findings, nil)
	sortFindings(rep.Findings, rules, nil)

	unsure := unitsUnsure(&sheet.Units)
	for i := range sheet.Parts {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		c := around(sheet, i, rep.Findings)
		c.ctx = ctx
		rep.Parts = append(rep.Parts, judge(&sheet.Parts[i], prof, job, c))
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	rep.Verdict = drawingVerdict(rep.Findings, rep.Parts)
	if unsure {
		readOtherwise(ctx, rep, job)
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return rep, nil
}

// around gathers what the drawing tells of its part i.
func around(sheet *features.Sheet, i int, findings []Finding) circumstances {
	c := circumstances{inch: sheet.Units.Name == "in" || sheet.Units.Name == "ft"}
	c.noteAt = map[string]geom.Point{}
	part := &sheet.Parts[i]
	for k := range sheet.Parts {
		for _, o := range sheet.Parts[k].CallOuts {
			if k != i && len(o.Features) > 0 {
				c.elsewhere = append(c.elsewhere, o)
			}
		}
	}
	for _, t := range sheet.Texts {
		if t.Revision {
			continue
		}
		lines, _ := measure.Lines(t.Value)
		for _, line := range lines {
			c.notes = append(c.notes, line)
			if _, ok := c.noteAt[line]; !ok {
				c.noteAt[line] = t.At
			}
		}
	}
	if len(sheet.Parts) == 1 {
		c.texts = c.notes
	}
	for _, f := range sheet.Faults {
		if f.Part == i {
			c.faults = append(c.faults, f)
		}
	}
	for k := range findings {
		f := &findings[k]
		switch f.Rule {
		case "read-incomplete":
			c.doubt = "the drawing was not read to its end"
		case "units-doubt", "units-unknown":
			c.shaky = true
			if c.doubt == "" {
				c.doubt = "the unit of the drawing"
			}
		}
	}
	if c.doubt == "" && openInside(sheet, part) {
		c.doubt = "an outline that does not close"
	}
	for k := range findings {
		// The parts that a contour fell into touch the place where it crosses.
		if f := &findings[k]; f.Rule == "self-crossing" && (!f.HasAt || part.Box.Grow(1).Contains(f.At)) {
			c.doubt, c.shaky = orText(c.doubt, "an outline that crosses itself"), true
		}
	}
	return c
}

// openInside tells that an open chain lies within the part's outline, so that a
// cut-out of it may be missing.
func openInside(sheet *features.Sheet, part *features.Part) bool {
	within := func(p geom.Point) bool {
		return part.Box.Grow(0.01).Contains(p) && (len(part.Outline) == 0 || part.Outline.Inside(p, 0.01) != geom.Out)
	}
	for i := range sheet.Loose {
		if l := &sheet.Loose[i]; within(l.From) || within(l.To) {
			return true
		}
	}
	for i := range sheet.Faults {
		if f := &sheet.Faults[i]; f.Code == "open-outline" && f.Part < 0 && within(f.At) {
			return true
		}
	}
	return false
}

// Unreadable is the report of a drawing that could not be read.
func Unreadable(drawing string, prof *shop.Profile, err error) *Report {
	return &Report{Drawing: drawing, Shop: prof, Verdict: CannotTell, Err: err}
}
