package render

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"burrside/check"
	"burrside/features"
)

// disclaimer stands under every verdict: a part that fits a machine is not a
// part that holds a load.
const disclaimer = "machine capability only; not a check of strength"

// verdictWords is the heading of a verdict for people, without points or reason.
func verdictWords(v check.Verdict) string {
	switch v {
	case check.Fits:
		return "FITS THIS SHOP"
	case check.WithCare:
		return "FITS WITH CARE"
	case check.DoesNotFit:
		return "DOES NOT FIT THIS SHOP"
	case check.CannotTell, "":
		return "CANNOT TELL YET"
	}
	panic(fmt.Sprintf("render: unknown verdict %q", v))
}

// heading is the verdict of a part with its points or its reason.
func heading(v check.Verdict, reason string, findings []check.Finding) string {
	h := verdictWords(v)
	switch v {
	case check.WithCare:
		n := 0
		for i := range findings {
			if findings[i].Severity == check.Warning {
				n++
			}
		}
		switch {
		case n == 1:
			h += ": 1 POINT"
		case n > 1:
			h += fmt.Sprintf(": %d POINTS", n)
		}
	case check.DoesNotFit, check.CannotTell, "":
		if reason != "" {
			h += ": " + reason
		}
	}
	return h
}

// drawingHeading is the verdict of a whole drawing.
func drawingHeading(rep *check.Report) string {
	switch {
	case rep.Err != nil:
		return heading(check.CannotTell, "the "+thing(rep)+" could not be read", nil)
	case rep.List != nil:
		return listHeading(rep)
	case len(rep.Parts) == 1 && rep.Parts[0].Verdict == rep.Verdict:
		p := rep.Parts[0]
		return heading(rep.Verdict, p.Reason, joinFindings(p.Findings, rep.Findings))
	}
	reason := ""
	var all []check.Finding
	for _, p := range rep.Parts {
		if p.Verdict == rep.Verdict && reason == "" && p.Reason != "" {
			reason = p.Part.Name + ": " + p.Reason
		}
		all = append(all, p.Findings...)
	}
	all = append(all, rep.Findings...)
	if reason == "" || len(rep.Parts) == 0 {
		for i := range rep.Findings {
			if f := &rep.Findings[i]; f.Severity == check.Error || f.CannotTell {
				reason = ruleWords(f.Rule)
				break
			}
		}
	}
	if reason == "" && len(rep.Parts) == 0 {
		reason = "no part found in the drawing"
	}
	return heading(rep.Verdict, reason, all)
}

// thing is what a report is about, by the name of its file.
func thing(rep *check.Report) string {
	if strings.HasSuffix(strings.ToLower(rep.Drawing), ".csv") {
		return "list"
	}
	return "drawing"
}

func joinFindings(a, b []check.Finding) []check.Finding {
	return append(slices.Clip(slices.Clone(a)), b...)
}

// ruleWords is a rule's slug as words.
func ruleWords(rule string) string {
	switch rule {
	case "web":
		return "metal left (web)"
	case "tool":
		return "tool on the rack"
	case "notch-tool":
		return "notch tool"
	case "shear-row":
		return "shear capacity"
	case "hole-to-bend":
		return "hole to bend"
	case "strap":
		return "strap distortion"
	case "slot-hits":
		return "slot in hits"
	case "blank", "hold-down":
		return rule
	case "no-part":
		return "no part found"
	}
	return strings.ReplaceAll(rule, "-", " ")
}

// severityWord is the word in front of a finding.
func severityWord(s check.Severity) string {
	switch s {
	case check.Error:
		return "ERROR"
	case check.Warning:
		return "CARE"
	case check.Note:
		return "NOTE"
	}
	panic(fmt.Sprintf("render: unknown severity %q", s))
}

// severityRank orders severities, the worst first; none comes last.
func severityRank(s check.Severity) int {
	switch s {
	case check.Error:
		return 0
	case check.Warning:
		return 1
	case check.Note:
		return 2
	}
	return 3
}

// whoWords tells whose business a finding is.
func whoWords(who string) string {
	switch who {
	case "shop":
		return "the shop"
	case "buy":
		return "buying"
	case "designer":
		return "the designer"
	case "customer":
		return "the customer"
	}
	return who
}

// idParts splits a feature's id into its letters and its number.
func idParts(id string) (letters string, n int) {
	i := len(id)
	for i > 0 && id[i-1] >= '0' && id[i-1] <= '9' {
		i--
	}
	n, err := strconv.Atoi(id[i:])
	if err != nil {
		return id, -1
	}
	return id[:i], n
}

// idCompare orders ids by letters, then by number.
func idCompare(a, b string) int {
	la, na := idParts(a)
	lb, nb := idParts(b)
	if c := strings.Compare(la, lb); c != 0 {
		return c
	}
	return na - nb
}

// idList names features shortly: up to three as given (worst first), more as
// runs: "H1-H4, H7 (5)".
func idList(ids []string) string {
	if len(ids) <= 3 {
		return strings.Join(ids, ", ")
	}
	s := slices.Clone(ids)
	slices.SortFunc(s, idCompare)
	s = slices.Compact(s)
	var runs []string
	for i := 0; i < len(s); {
		l, n := idParts(s[i])
		j := i + 1
		for j < len(s) {
			lj, nj := idParts(s[j])
			if lj != l || nj != n+(j-i) {
				break
			}
			j++
		}
		switch j - i {
		case 1:
			runs = append(runs, s[i])
		case 2:
			runs = append(runs, s[i], s[i+1])
		default:
			runs = append(runs, s[i]+"-"+s[j-1])
		}
		i = j
	}
	if len(runs) > 4 {
		runs = append(runs[:3:3], "...")
	}
	return fmt.Sprintf("%s (%d)", strings.Join(runs, ", "), len(s))
}

// featureWords describes a feature with its size: "hole Ø22 mm". Sizes that are
// not known are left out.
func featureWords(f *features.Feature, unit string) string {
	l := func(mm float64) string { return lengthText(mm, unit) }
	by := func(a, b float64) string {
		if !(a > 0) || !(b > 0) {
			return ""
		}
		return " " + pairText(a, b, unit)
	}
	dia := func(mm float64) string {
		if !(mm > 0) {
			return ""
		}
		return " Ø" + l(mm)
	}
	one := func(mm float64) string {
		if !(mm > 0) {
			return ""
		}
		return " " + l(mm)
	}
	switch f.Kind {
	case features.RoundHole:
		return "hole" + dia(f.DiameterMM)
	case features.HoleWithSeat:
		s := "hole" + dia(f.DiameterMM)
		if f.SeatMM > 0 {
			s += " with seat Ø" + l(f.SeatMM)
		}
		return s
	case features.TappedHole:
		s := "tapped hole" + dia(f.DiameterMM)
		if f.SeatMM > 0 {
			s += ", thread" + dia(f.SeatMM)
		}
		return s
	case features.Slot:
		return "slot" + by(f.WidthMM, f.LengthMM)
	case features.CurvedSlot:
		return "curved slot" + by(f.WidthMM, f.LengthMM)
	case features.RectangularHole:
		return "rectangular hole" + by(f.WidthMM, f.LengthMM)
	case features.PolygonHole:
		s := "polygon hole"
		if f.Sides == 6 {
			s = "hexagon hole"
		} else if f.Sides > 0 {
			s = fmt.Sprintf("%d-sided hole", f.Sides)
		}
		if f.AcrossFlatsMM > 0 {
			s += " " + l(f.AcrossFlatsMM) + " across flats"
		}
		return s
	case features.Cutout:
		s := "cut-out"
		if f.Subkind != "" && f.Subkind != "free" {
			s += " (" + f.Subkind + ")"
		}
		return s + by(f.WidthMM, f.LengthMM)
	case features.StraightCut:
		s := "straight cut"
		if f.Subkind == "mitre" {
			s = "mitre cut"
		}
		return s + one(f.LengthMM)
	case features.ArcCut:
		s := "arc cut"
		if f.RadiusMM > 0 {
			s += " R" + l(f.RadiusMM)
		}
		return s
	case features.CornerClip:
		return "corner clip" + by(f.Long[0], f.Long[1])
	case features.CornerRadius:
		s := "corner radius"
		if f.RadiusMM > 0 {
			s += " R" + l(f.RadiusMM)
		}
		return s
	case features.Notch:
		s := "notch"
		if f.Shape != "" && f.Shape != features.NotchFree {
			s = strings.ReplaceAll(string(f.Shape), "-", " ") + " notch"
		}
		if f.Shape == features.NotchCorner && f.Long[0] > 0 {
			return s + by(f.Long[0], f.Long[1])
		}
		if f.WidthMM > 0 && f.DepthMM > 0 {
			return s + " " + trimUnit(l(f.WidthMM), unit) + " wide, " + l(f.DepthMM) + " deep"
		}
		return s + one(f.WidthMM)
	case features.Bend:
		return "bend" + one(f.LengthMM)
	case features.Mark:
		return "mark"
	}
	panic(fmt.Sprintf("render: unknown kind %q", f.Kind))
}

// madeByWords says in words what makes a feature.
func madeByWords(madeBy string) string {
	switch madeBy {
	case "stock":
		return "mill edge of the stock, not cut"
	case "nothing":
		return "nothing in this shop makes it"
	case "unknown", "":
		return "not known yet"
	case "bought":
		return "bought-in cutting"
	case "thermal":
		return "thermal cutting"
	case "grind":
		return "grinder"
	case "notch":
		return "notcher"
	}
	return madeBy
}
