package check

import (
	"slices"
	"strings"

	"burrside/check/station"
	"burrside/features"
)

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

// verdictOf is the answer about a part: an error decides, unless what is drawn
// is itself in doubt; then a missing datum; then care.
func verdictOf(rep *PartReport, c circumstances) (Verdict, string) {
	var fail, care bool
	failWhy := ""
	var asks []string
	shaky, doubt := c.shaky || mayBeNone(rep.Part), c.doubt
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

// mayBeNone tells that what is drawn may be no part, or no hole, at all: it has
// no errors of its own then.
func mayBeNone(part *features.Part) bool {
	return slices.ContainsFunc(part.Doubts, func(d features.Doubt) bool { return d.Grave && strings.HasPrefix(d.Code, "maybe-") })
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
	case "quantity-conflict":
		return "the number of pieces"
	case "units-doubt", "units-unknown":
		return "the unit of the drawing"
	case "angle-hand":
		return "the hand of the angle"
	case "root-fillet":
		return "the root radius of the section"
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
