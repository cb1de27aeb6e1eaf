package check

import (
	"fmt"
	"slices"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// Pass is what a rule sees of one part. A rule only reads it.
type Pass struct {
	Part   *features.Part
	Plan   *plan.Plan
	Shop   *shop.Profile
	Job    plan.Job
	Faults []features.Fault // those of the drawing that concern this part
	Inch   bool             // the drawing is in inches or feet

	// elsewhere are the call-outs that a hole of another part answers to; texts
	// are the lines of the drawing's texts where it shows this part only.
	elsewhere []features.CallOut
	texts     []string
	notes     []string // lines of all texts of the drawing, whatever parts it shows
	noteAt    map[string]geom.Point

	ended    func() bool // the time is over: what is found is thrown away
	said     statements  // what is stated about the part, and by whom
	metal    *metal      // distances, shared by the rules
	rule     *Rule
	params   []Param
	findings []Finding
	kept     []Finding // what is left of them for the report, one by one
	skipped  []Skipped
	tooThin  []int // features with too thin a web for a punch, not for a drill
}

// SheetPass is what a rule sees of one drawing. Faults of a part are left to
// the part.
type SheetPass struct {
	Sheet *features.Sheet
	Shop  *shop.Profile

	rule     *Rule
	params   []Param
	findings []Finding
}

// value of a parameter: the shop's, else the default. A name that the rule does
// not declare is a slip of the rule.
func value(rule *Rule, params []Param, prof *shop.Profile, name string) float64 {
	for _, q := range params {
		if q.Name == name {
			if v, ok := setting(prof, rule.ID, name); ok {
				return v
			}
			return q.Default
		}
	}
	panic("check: rule " + rule.ID + " has no parameter " + name)
}

func setting(prof *shop.Profile, rule, name string) (float64, bool) {
	if prof == nil {
		return 0, false
	}
	v, ok := prof.Settings[rule][name]
	return v, ok
}

// Value of a parameter of the rule, in the parameter's unit.
func (p *Pass) Value(name string) float64 { return value(p.rule, p.params, p.Shop, name) }

// Value of a parameter of the rule, in the parameter's unit.
func (p *SheetPass) Value(name string) float64 { return value(p.rule, p.params, p.Shop, name) }

// Report adds a finding of the rule. Rule, Count and, where absent, Who and
// Sources are filled in.
func (p *Pass) Report(f Finding) { p.findings = append(p.findings, complete(f, p.rule)) }

// Report adds a finding of the rule about the drawing.
func (p *SheetPass) Report(f Finding) { p.findings = append(p.findings, complete(f, p.rule)) }

func complete(f Finding, r *Rule) Finding {
	f.Rule = r.ID
	if f.Who == "" {
		f.Who = "shop"
	}
	if f.Sources == nil {
		for _, c := range r.Sources {
			f.Sources = append(f.Sources, c.Text)
		}
	}
	if f.Count == 0 {
		f.Count = max(1, len(f.Features))
	}
	return f
}

// Skip tells that something was not checked, and why.
func (p *Pass) Skip(format string, args ...any) {
	p.skipped = append(p.skipped, Skipped{Rule: p.rule.ID, Why: fmt.Sprintf(format, args...)})
}

// on puts a finding on a feature: its name, place and source.
func (p *Pass) on(i int, f Finding) Finding {
	ft := &p.Part.Features[i]
	f.Features = append([]string{ft.ID}, f.Features...)
	if !f.HasAt {
		f.At, f.HasAt = ft.At, true
	}
	if f.Source == nil {
		f.Source = ft.Source
	}
	return f
}

// calledAt is the place of a finding about a call-out and the features that it
// calls: the text's, but in a part that lies in a frame of its own that of the
// first of them, as places of features do.
func (p *Pass) calledAt(text geom.Point, ids []string) geom.Point {
	if p.Part.Angle == nil && !(p.Part.Scale.Factor > 0) {
		return text
	}
	for _, id := range ids {
		for i := range p.Part.Features {
			if f := &p.Part.Features[i]; f.ID == id {
				return f.At
			}
		}
	}
	return text
}

// length writes a length in the shop's unit.
func (p *Pass) length(mm float64) string { return lengthText(p.Shop, mm) }

// noThickness tells that the rule cannot be run without the thickness, and
// says so.
func (p *Pass) noThickness() bool {
	if p.Job.ThicknessMM > 0 {
		return false
	}
	p.Skip("needs the thickness")
	return true
}

// Aspects reports what plan and stations looked at under the rule's own id:
// the best way of each feature, the cuts and the blank. An edge and its cut say
// the same and become one finding. Nothing is worked out again here. It returns how many findings came of it.
func (p *Pass) Aspects() int { return p.AspectsFrom(station.Remark) }

// AspectsFrom is Aspects for aspects of at least that grade.
func (p *Pass) AspectsFrom(least station.Grade) int {
	n := len(p.findings)
	pl := p.Plan
	for i := range pl.Makes {
		m := &pl.Makes[i]
		if p.rule.ID == "blank" {
			break // the blank speaks for its edges
		}
		for _, a := range m.Use.Aspects {
			if a.Rule == p.rule.ID && a.Grade >= least {
				f := fromAspect(a, &m.Use)
				f.Tried = machinesOf(m.Tried, m.Use.Machine)
				if m.MadeBy == "nothing" && f.Severity == Error && f.FixBy == "shop" && a.Buy == "" {
					// Were that a way out here, the plan would have taken it.
					f.Fix, f.FixBy = "", ""
				}
				p.Report(p.on(m.Feature, f))
			}
		}
	}
	for i := range pl.Cuts {
		c := &pl.Cuts[i]
		for _, a := range c.Use.Aspects {
			if a.Rule != p.rule.ID || a.Grade < least {
				continue
			}
			f := fromAspect(a, &c.Use)
			f.Tried = machinesOf(c.Tried, c.Use.Machine)
			f.At, f.HasAt = c.From.Add(c.To).Mul(0.5), true
			for _, k := range slices.Sorted(slices.Values(c.Features)) {
				f.Features = append(f.Features, p.Part.Features[k].ID)
				f.Source = append(f.Source, p.Part.Features[k].Source...)
			}
			if len(c.Features) == 0 && c.What != "" {
				f.Message = c.What + ": " + f.Message
			}
			p.Report(f)
		}
	}
	for _, a := range pl.Blank.Aspects {
		if a.Rule == p.rule.ID && a.Grade >= least {
			p.Report(fromAspect(a, nil))
		}
	}
	return len(p.findings) - n
}

// machinesOf names the machines of uses other than one, each once, in order.
func machinesOf(uses []station.Use, but string) []string {
	var out []string
	for i := range uses {
		if m := uses[i].Machine; m != "" && m != but && !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	return out
}

// fromAspect turns an aspect into a finding without a place.
func fromAspect(a station.Aspect, u *station.Use) Finding {
	f := Finding{Message: a.Text, Basis: a.Basis, Fix: a.Fix, FixBy: a.FixBy, Who: "shop"}
	switch a.Grade {
	case station.Remark:
		f.Severity = Note
	case station.Care:
		f.Severity = Warning
	case station.Unknown:
		f.Severity, f.CannotTell = Warning, true
	case station.Fail:
		f.Severity = Error
	default:
		panic(fmt.Sprintf("check: aspect of %s has no trouble to report", a.Rule))
	}
	switch {
	case a.Buy != "":
		f.Who = "buy"
	case a.FixBy == "drawing":
		f.Who = "designer"
	}
	if f.Fix == "" && a.Buy != "" {
		f.Fix, f.FixBy = "buy "+a.Buy, "shop"
	}
	if a.HasGot {
		f.Got = &Quantity{a.Got, a.Unit}
	}
	if a.HasLimit {
		f.Limit = &Quantity{a.Limit, a.Unit}
	} else {
		f.cause = sameBut(a.Text)
	}
	f.cause += "|" + a.Buy
	if a.HasGot && a.HasLimit {
		// Whichever side of the limit is the bad one, further from it is worse.
		f.worse = abs(a.Got - a.Limit)
	}
	if u != nil {
		f.Machine, f.Station, f.Tool = u.Machine, u.Station, u.Tool
	}
	return f
}
