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
	u := Use{Station: q.Kind, Hits: 1}
	why := ""
	if q.Why != "" {
		why = q.Why + ": "
	}
	a := Aspect{Rule: q.Rule}
	limit := func(got, most float64, what string) bool {
		if !(most > 0) || atMost(got, most) {
			if most > 0 {
				u.Share = max(u.Share, got/most)
			}
			return false
		}
		a.Grade, a.Got, a.HasGot, a.Limit, a.HasLimit, a.Unit = Fail, got, true, most, true, "mm"
		a.Text = fmt.Sprintf("%sthe shop's %s takes a %s of at most %s, not %s", why, has, what, Length(prof, most), Length(prof, got))
		return true
	}
	switch {
	case !p.Have:
		a.Grade = Fail
		a.Text = fmt.Sprintf("%sthe shop has no %s", why, has)
	case !(q.ThicknessMM > 0):
		a.Rule, a.Grade, a.Text = "thickness-missing", Unknown, "the thickness is not known"
	case limit(q.ThicknessMM, p.MaxThicknessMM, "thickness"):
	case !q.NoDiameter && limit(q.DiameterMM, p.MaxDiameterMM, "diameter"):
	case limit(q.RadiusMM, p.MaxRadiusMM, "radius"):
	default:
		if f := q.From; f != nil {
			a.Got, a.HasGot, a.Limit, a.HasLimit, a.Unit, a.Basis = f.Got, f.HasGot, f.Limit, f.HasLimit, f.Unit, f.Basis
		}
		a.Grade = Care
		a.Text = why + do
		a.Fix, a.FixBy = do, "shop"
	}
	u.add(a, 0)
	return u
}
