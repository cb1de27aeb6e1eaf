package check

import (
	"slices"
	"strings"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// RunPart judges one part by itself, without the drawing that it comes from.
// What job leaves open is taken from the part's own text.
func RunPart(part *features.Part, prof *shop.Profile, job plan.Job) *PartReport {
	return judge(part, prof, job, circumstances{inch: prof.Units == "in"})
}

// circumstances are what the drawing tells of a part beside the part itself.
type circumstances struct {
	faults []features.Fault
	inch   bool
	// doubt keeps every part of the drawing from a sure answer; "" none. It is
	// the reason in a few words.
	doubt string
}

// judge runs all rules over a part, and over the stock thicknesses when a datum
// is missing.
func judge(part *features.Part, prof *shop.Profile, job plan.Job, c circumstances) *PartReport {
	rules := Rules()
	rep, pass := judgeBy(rules, part, prof, job, c, plan.MakePlan)
	if !(rep.Job.ThicknessMM > 0) || !hasSteel(&rep.Job) {
		rep.Limits = limits(rules, part, prof, job, rep.Job, c)
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

// judgeBy runs these rules over a part.
func judgeBy(rules []Rule, part *features.Part, prof *shop.Profile, asked plan.Job, c circumstances, makePlan planner) (*PartReport, *Pass) {
	job, said := resolve(part, prof, asked)
	rep := &PartReport{Part: part, Job: job, Plan: makePlan(part, prof, job)}
	pass := &Pass{Part: part, Plan: rep.Plan, Shop: prof, Job: job, Faults: c.faults, Inch: c.inch, said: said}
	for i := range rules {
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
	rep.Findings = group(kept, order)
	sortFindings(rep.Findings, rules, order)
	rep.Skipped = pass.skipped
	rep.Verdict, rep.Reason = verdictOf(rep, c.doubt)
	rep.Features = featureVerdicts(part, rep.Findings)
	return rep, pass
}

// unspoken gives a finding for each trouble that no rule spoke of: nothing that
// plan could not make, could not tell, or makes with care goes by in silence.
func unspoken(p *Pass, rules []Rule) []Finding {
	known := map[string]bool{}
	for i := range rules {
		known[rules[i].ID] = true
	}
	spoken := map[string]station.Grade{} // by feature
	for i := range p.findings {
		for _, id := range p.findings[i].Features {
			spoken[id] = max(spoken[id], gradeOf(&p.findings[i]))
		}
	}
	// What is said of the blank or the whole part is said of its edges too.
	whole := map[string]station.Grade{} // by rule
	for i := range p.findings {
		if f := &p.findings[i]; len(f.Features) == 0 {
			whole[f.Rule] = max(whole[f.Rule], gradeOf(f))
		}
	}
	var out []Finding
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		f := &p.Part.Features[m.Feature]
		for _, a := range m.Use.Aspects {
			if a.Grade > station.OK && whole[a.Rule] >= a.Grade {
				spoken[f.ID] = max(spoken[f.ID], a.Grade)
			}
		}
		for _, a := range m.Use.Aspects {
			if a.Grade > station.OK && !known[a.Rule] {
				x := p.on(m.Feature, fromAspect(a, &m.Use))
				x.Rule, x.Count, x.Sources = a.Rule, 1, []string{shopPractice().Text}
				out = append(out, x)
				spoken[f.ID] = max(spoken[f.ID], a.Grade)
			}
		}
		x := Finding{Rule: ruleForKind(f), Severity: Error, Count: 1, Who: "shop", FixBy: "shop", Sources: []string{shopPractice().Text}}
		switch {
		case m.MadeBy == "nothing" && spoken[f.ID] < station.Fail:
			x.Message = "nothing in this shop makes the " + sizeText(p.Shop, f)
			x.Fix = "have it made by a shop that can"
		case m.MadeBy == "unknown" && f.Kind != features.Mark && spoken[f.ID] < station.Unknown && p.Job.ThicknessMM > 0 && hasSteel(&p.Job):
			x.Severity, x.CannotTell = Warning, true
			x.Message = "it cannot be told what makes the " + sizeText(p.Shop, f)
		case m.Also != nil && spoken[f.ID] < station.Care:
			x.Severity = Warning
			x.Message = "no station of a machine makes the " + sizeText(p.Shop, f) + "; " + processWords(m.Also.Kind) + " does"
			x.Fix = byProcess(m.Also.Kind)
		default:
			continue
		}
		out = append(out, p.on(m.Feature, x))
	}
	return out
}

// ruleForKind is the rule under which a feature is spoken of that no other rule
// mentions.
func ruleForKind(f *features.Feature) string {
	switch {
	case f.Kind == features.Bend:
		return "bend"
	case f.Kind == features.Notch:
		return "notch-tool"
	case f.Kind == features.HoleWithSeat, f.Kind == features.TappedHole:
		return "hole-process"
	case f.Kind == features.RoundHole:
		return "tool"
	case f.IsInside():
		return "opening"
	}
	return "edge-process"
}

// gradeOf is the grade that a finding stands for.
func gradeOf(f *Finding) station.Grade {
	switch {
	case f.Severity == Error && !f.CannotTell:
		return station.Fail
	case f.CannotTell:
		return station.Unknown
	case f.Severity == Warning:
		return station.Care
	}
	return station.Remark
}

// processWords names a process that the shop has beside its machines.
func processWords(kind string) string {
	switch kind {
	case "drill":
		return "drilling"
	case "tap":
		return "drilling and tapping"
	case "countersink":
		return "countersinking"
	case "saw":
		return "sawing"
	case "thermal":
		return "thermal cutting"
	case "grinder":
		return "grinding"
	case "bought-cutting":
		return "bought-in cutting"
	}
	return kind
}

// byProcess is the order to use a process.
func byProcess(kind string) string {
	switch kind {
	case "drill":
		return "drill it"
	case "tap":
		return "drill and tap it"
	case "countersink":
		return "drill and countersink it"
	case "saw":
		return "saw it"
	case "thermal":
		return "cut it thermally"
	case "grinder":
		return "nibble it and grind it to shape"
	case "bought-cutting":
		return "buy it in, cut to shape"
	}
	return "make it by " + kind
}

// verdictOf is the answer about a part: an error decides, unless what is drawn
// is itself in doubt; then a missing datum; then care.
func verdictOf(rep *PartReport, doubt string) (Verdict, string) {
	var fail, care bool
	failWhy := ""
	var asks []string
	shaky := doubt != ""
	for i := range rep.Findings {
		f := &rep.Findings[i]
		switch gradeOf(f) {
		case station.Fail:
			if !fail {
				failWhy = reasonText(f)
			}
			fail = true
		case station.Unknown:
			if w := askWords(f); !slices.Contains(asks, w) {
				asks = append(asks, w)
			}
		case station.Care:
			care = true
		}
	}
	for i := range rep.Part.Doubts {
		// What may not be a part or a hole at all has no errors of its own.
		if d := &rep.Part.Doubts[i]; d.Grave && strings.HasPrefix(d.Code, "maybe-") {
			shaky = true
		}
	}
	if doubt != "" && !slices.Contains(asks, doubt) {
		asks = append([]string{doubt}, asks...)
	}
	switch {
	case fail && !shaky:
		return DoesNotFit, failWhy
	case len(asks) > 0:
		return CannotTell, joinReasons(asks)
	case fail:
		return CannotTell, failWhy
	case care:
		return WithCare, ""
	}
	return Fits, ""
}

// reasonText is a finding in a few words.
func reasonText(f *Finding) string {
	s := ruleWords(f.Rule)
	if len(f.Features) > 0 {
		s += " on " + idList(f.Features)
	}
	return s
}

// askWords names the datum that a finding waits for.
func askWords(f *Finding) string {
	switch f.Rule {
	case "thickness-missing":
		return "the thickness"
	case "material-missing":
		return "the material"
	case "line-unexplained":
		return "what a line means"
	case "reading-doubt":
		return "what is drawn"
	case "units-doubt", "units-unknown":
		return "the unit of the drawing"
	}
	return reasonText(f)
}

func joinReasons(l []string) string {
	if len(l) > 3 {
		l = append(l[:3:3], "more")
	}
	s := l[0]
	for i, w := range l[1:] {
		if i == len(l)-2 {
			s += " and " + w
		} else {
			s += ", " + w
		}
	}
	return s
}

// featureVerdicts gives each feature the worst finding on it.
func featureVerdicts(part *features.Part, list []Finding) []FeatureVerdict {
	worst := map[string]*Finding{}
	for i := range list {
		for _, id := range list[i].Features {
			if w := worst[id]; w == nil || severityRank(&list[i]) < severityRank(w) {
				worst[id] = &list[i]
			}
		}
	}
	out := make([]FeatureVerdict, 0, len(part.Features))
	for i := range part.Features {
		v := FeatureVerdict{ID: part.Features[i].ID}
		if w := worst[v.ID]; w != nil {
			v.Verdict = w.Severity
		}
		out = append(out, v)
	}
	return out
}

// Run judges a whole drawing. job holds what flags and answers say; what it
// leaves open is taken from each part's own text. With the unit in doubt both
// readings are judged.
func Run(drawing string, sheet *features.Sheet, prof *shop.Profile, job plan.Job) *Report {
	rep := &Report{Drawing: drawing, Sheet: sheet, Shop: prof, Code: codeName(job.Code)}
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
		c := around(sheet, i, rep.Findings)
		rep.Parts = append(rep.Parts, judge(&sheet.Parts[i], prof, job, c))
	}
	rep.Verdict = drawingVerdict(rep.Findings, rep.Parts)
	if unsure {
		readOtherwise(rep, job)
	}
	return rep
}

// around gathers what the drawing tells of its part i.
func around(sheet *features.Sheet, i int, findings []Finding) circumstances {
	c := circumstances{inch: sheet.Units.Name == "in" || sheet.Units.Name == "ft"}
	part := &sheet.Parts[i]
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
		if f := &findings[k]; f.Rule == "self-crossing" && c.doubt == "" && (!f.HasAt || part.Box.Grow(1).Contains(f.At)) {
			c.doubt = "an outline that crosses itself"
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

// drawingVerdict is the worst of the drawing's own findings and its parts. A
// drawing without a part cannot be told.
func drawingVerdict(findings []Finding, parts []*PartReport) Verdict {
	v := Fits
	if len(parts) == 0 {
		v = CannotTell
	}
	for i := range findings {
		switch gradeOf(&findings[i]) {
		case station.Fail:
			v = worse(v, DoesNotFit)
		case station.Unknown:
			v = worse(v, CannotTell)
		case station.Care:
			v = worse(v, WithCare)
		}
	}
	for _, p := range parts {
		v = worse(v, p.Verdict)
	}
	return v
}

// worse of two verdicts.
func worse(a, b Verdict) Verdict {
	if verdictRank(a) >= verdictRank(b) {
		return a
	}
	return b
}

func verdictRank(v Verdict) int {
	switch v {
	case Fits:
		return 0
	case WithCare:
		return 1
	case CannotTell:
		return 2
	case DoesNotFit:
		return 3
	}
	panic("check: unknown verdict " + string(v))
}

// Unreadable is the report of a drawing that could not be read.
func Unreadable(drawing string, prof *shop.Profile, err error) *Report {
	return &Report{Drawing: drawing, Shop: prof, Verdict: CannotTell, Err: err}
}

// codeName is the full name of a code by its short one.
func codeName(code string) string {
	switch code {
	case "":
		return ""
	case "aisc":
		return "ANSI/AISC 360-22"
	case "en":
		return "EN 1993-1-8:2005"
	}
	return code
}
