package check

import (
	"slices"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/section"
)

// mostSupposed bounds the features that are judged over all stock thicknesses and
// steels together; more is no part that anybody waits for (judgement, no source).
const mostSupposed = 400_000

// supposed gives the stock thicknesses and steels that a part is judged in where
// the drawing leaves them open.
func supposed(part *features.Part, prof *shop.Profile, got *plan.Job) ([]float64, []*shop.Material) {
	thicknesses := []float64{got.ThicknessMM}
	if !(got.ThicknessMM > 0) {
		thicknesses = stockThicknesses(prof)
		if part.Angle != nil {
			thicknesses = angleThicknesses(part.Angle, prof)
		}
	}
	steels := []*shop.Material{got.Material}
	if !hasSteel(got) {
		steels = twoSteels(prof)
	}
	return thicknesses, steels
}

// limits judges a part for each stock thickness when the thickness is missing,
// and for mild steel and a stronger grade when the material is missing or not
// known to the shop. Every one is judged by itself: thinner is not assumed
// safer. asked is what flags say; thicknesses and steels are those supposed.
func limits(rules []Rule, part *features.Part, prof *shop.Profile, asked plan.Job, thicknesses []float64, steels []*shop.Material, c circumstances, makePlan planner) []Limit {
	// The unit and the reading are in doubt whatever the thickness: a limit
	// answers for the part as it is read, the part's verdict for the doubt.
	c.doubt, c.shaky = "", false
	var out []Limit
	for _, m := range steels {
		for _, t := range thicknesses {
			if c.ended() {
				return out
			}
			job := asked
			job.ThicknessMM, job.ThicknessFrom = t, "supposed"
			job.Material, job.MaterialName, job.MaterialFrom = m, m.Name, "supposed"
			rep, _ := judgeBy(rules, part, prof, job, c, makePlan)
			out = append(out, limitOf(rep))
		}
	}
	return out
}

func limitOf(rep *PartReport) Limit {
	l := Limit{Material: rep.Job.MaterialName, ThicknessMM: rep.Job.ThicknessMM, Verdict: rep.Verdict}
	if l.Verdict == Fits {
		return l
	}
	// The findings are sorted, so the first that brings the verdict is the worst.
	for i := range rep.Findings {
		f := &rep.Findings[i]
		if verdictOfFinding(f) != l.Verdict {
			continue
		}
		l.StoppedBy, l.Features = f.Rule, slices.Clone(f.Features)
		l.Text = f.Message
		if len(f.Features) > 0 {
			l.Text = idList(f.Features) + ": " + l.Text
		}
		break
	}
	return l
}

func verdictOfFinding(f *Finding) Verdict {
	switch {
	case f.CannotTell:
		return CannotTell
	case f.Severity == Error:
		return DoesNotFit
	case f.Severity == Warning:
		return WithCare
	}
	return Fits
}

// stockThicknesses are those of the shop, ascending, else the usual series in
// the shop's unit. The series is common practice, no source.
func stockThicknesses(prof *shop.Profile) []float64 {
	if len(prof.Stock.ThicknessMM) > 0 {
		l := slices.Clone(prof.Stock.ThicknessMM)
		slices.Sort(l)
		return slices.Compact(l)
	}
	if prof.Units == "in" {
		var l []float64
		for _, n := range []float64{2, 3, 4, 5, 6, 8, 10, 12, 14, 16} { // sixteenths
			l = append(l, n*25.4/16)
		}
		return l
	}
	return []float64{3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25}
}

// angleThicknesses are those of the angles with such legs: of the shop's rack,
// else of the section tables, ascending.
func angleThicknesses(a *features.Angle, prof *shop.Profile) []float64 {
	var l []float64
	const legMM = 1 // as far as a drawn leg is off the listed one
	long, short := max(a.LegMM[0], a.LegMM[1]), min(a.LegMM[0], a.LegMM[1])
	for _, k := range prof.Stock.Angles {
		if abs(k.LegMM[0]-long) <= legMM && abs(k.LegMM[1]-short) <= legMM {
			l = append(l, k.ThicknessMM)
		}
	}
	if len(l) == 0 {
		for _, s := range section.FindLegs(long, short, legMM) {
			l = append(l, s.ThicknessMM)
		}
	}
	slices.Sort(l)
	return slices.Compact(l)
}

// twoSteels are mild steel and one stronger grade of the shop's list.
func twoSteels(prof *shop.Profile) []*shop.Material {
	var out []*shop.Material
	add := func(m *shop.Material) bool {
		if m == nil || !(m.ShearMPa > 0) || slices.Contains(out, m) {
			return false
		}
		out = append(out, m)
		return true
	}
	find := func(names ...string) bool {
		for _, n := range names {
			if n == "" {
				continue
			}
			if m, ok := prof.Material(n); ok && add(m) {
				return true
			}
		}
		return false
	}
	group := func(g string) bool {
		for i := range prof.Materials {
			if prof.Materials[i].Group == g && add(&prof.Materials[i]) {
				return true
			}
		}
		return false
	}
	if !find(prof.Default, "mild") {
		group("mild")
	}
	strong := []string{"S355", "A572-50"}
	if prof.Units == "in" {
		strong = []string{"A572-50", "S355"}
	}
	if !find(strong...) {
		group("high-strength")
	}
	return out
}
