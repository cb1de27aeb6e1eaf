package station

import (
	"fmt"

	"burrside/check/shop"
)

// ProcessRequest asks whether a process beside the machines can make a feature.
type ProcessRequest struct {
	Kind        string  // "drill", "tap", "countersink", "saw", "thermal", "grinder", "bought-cutting"
	Rule        string  // the rule that sends the feature there, and under which it is reported
	Why         string  // what sends it there, one clause; "" nothing but the process
	DiameterMM  float64 // of a hole, or across a cut; 0 does not matter
	RadiusMM    float64 // 0 does not matter
	Asked       bool    // the drawing asks for this process
	Do          string  // order for the fix, "" made from the kind
	NoDiameter  bool    // the process' greatest diameter does not limit this
	ThicknessMM float64
	From        *Aspect // what sends it there: its numbers go with the finding; nil none
}

// processWords tell how a process is named in an order.
func processWords(kind string) (do, has string) {
	switch kind {
	case "drill":
		return "drill it", "drill"
	case "tap":
		return "drill and tap it", "tap"
	case "countersink":
		return "countersink it after the hole", "countersink"
	case "saw":
		return "saw it", "saw"
	case "thermal":
		return "cut it thermally", "thermal cutting"
	case "grinder":
		return "grind it", "grinder"
	case "bought-cutting":
		return "have the blank cut outside", "bought-in cutting"
	}
	return kind, kind
}

// Other judges a feature at a process beside the machines. What it can make is
// Care, under the rule that sends it there: the machines alone do not make it.
func Other(prof *shop.Profile, q ProcessRequest) Use {
	p := prof.Process(q.Kind)
	do, has := processWords(q.Kind)
	if q.Do != "" {
		do = q.Do
	}
	why := ""
	if q.Why != "" {
		why = q.Why + ": "
	}
	a := Aspect{Rule: q.Rule}
	g, over, share := weigh(&p, &q)
	a.Grade = g
	switch {
	case !p.Have:
		a.Text = fmt.Sprintf("%sthe shop has no %s", why, has)
	case g == Unknown:
		a.Rule, a.Text = "thickness-missing", "the thickness is not known"
	case over.what != "":
		a.Got, a.HasGot, a.Limit, a.HasLimit, a.Unit = over.got, true, over.most, true, "mm"
		a.Text = fmt.Sprintf("%sthe shop's %s takes a %s of at most %s, not %s", why, has, over.what, Length(prof, over.most), Length(prof, over.got))
	default:
		if f := q.From; f != nil {
			a.Got, a.HasGot, a.Limit, a.HasLimit, a.Unit, a.Basis = f.Got, f.HasGot, f.Limit, f.HasLimit, f.Unit, f.Basis
		}
		a.Text = q.Why // what to do is the fix, and not said twice
		if a.Text == "" {
			a.Text = "no machine makes it, " + has + " does"
		}
		a.Fix, a.FixBy = do, "shop"
	}
	u := Use{Station: q.Kind, Hits: 1}
	u.add(a, share)
	return u
}

// OtherGrade is the grade of Other, without its words.
func OtherGrade(prof *shop.Profile, q ProcessRequest) Grade {
	p := prof.Process(q.Kind)
	g, _, _ := weigh(&p, &q)
	return g
}

// excess is a limit that is passed; what is "" if none is.
type excess struct {
	what      string
	got, most float64
}

// weigh sets a request against the limits of a process: Care if it keeps them
// all. share is the greatest share of a limit.
func weigh(p *shop.Process, q *ProcessRequest) (g Grade, over excess, share float64) {
	limit := func(got, most float64, what string) bool {
		switch {
		case !(most > 0):
			return false
		case atMost(got, most):
			share = max(share, got/most)
			return false
		}
		over = excess{what, got, most}
		return true
	}
	switch {
	case !p.Have:
		return Fail, over, 0
	case !(q.ThicknessMM > 0):
		return Unknown, over, 0
	case limit(q.ThicknessMM, p.MaxThicknessMM, "thickness"),
		!q.NoDiameter && limit(q.DiameterMM, p.MaxDiameterMM, "diameter"),
		limit(q.RadiusMM, p.MaxRadiusMM, "radius"):
		return Fail, over, share
	}
	return Care, over, share
}

// insteadOf is the order for the first process of the shop that makes a hole of
// this size in this metal; "" if none does.
func insteadOf(prof *shop.Profile, pc Piece, h Hole) string {
	for _, kind := range []string{"drill", "thermal", "bought-cutting"} {
		if kind == "drill" && h.Shape != Round {
			continue
		}
		if OtherGrade(prof, ProcessRequest{Kind: kind, DiameterMM: max(h.WidthMM, h.LengthMM), ThicknessMM: pc.ThicknessMM}) == Care {
			do, _ := processWords(kind)
			return do
		}
	}
	return ""
}
