package station

import (
	"fmt"

	"burrside/check/shop"
	"burrside/features/measure"
)

// Reach judges how deep a hole lies in the work: anyMM is its distance from the
// nearest line of the hull, gaugedMM the same over the lines on which the piece
// can be gauged (+Inf if there is none). A machine without a punch gives a
// plain pass; share is anyMM over the throat.
func Reach(prof *shop.Profile, m *shop.Machine, anyMM, gaugedMM float64) (a Aspect, share float64) {
	if m.Punch == nil {
		return Aspect{Rule: "throat-reach"}, 0
	}
	throat := m.Punch.ThroatMM
	a = Aspect{Rule: "throat-reach", Got: anyMM, HasGot: true, Unit: "mm",
		Basis: fmt.Sprintf("%s mm from the nearest line round the piece", measure.FormatNumber(anyMM, 1))}
	if !(throat > 0) {
		a.Grade, a.Text = Unknown, "the shop file states no throat depth"
		return a, 0
	}
	margin := settingsOf(prof).value("throat-reach", "margin")
	a.Limit, a.HasLimit = throat, true
	share = anyMM / throat
	gauged := gaugedMM-gaugedMM == 0 // false for +Inf and NaN
	if gauged {
		a.Basis += fmt.Sprintf(", %s mm from the nearest edge it can be gauged on", measure.FormatNumber(gaugedMM, 1))
	}
	a.Basis += fmt.Sprintf("; throat %s mm, margin %s mm", measure.FormatNumber(throat, 1), measure.FormatNumber(margin, 1))
	switch {
	case !atMost(anyMM, throat):
		a.Grade = Fail
		a.Text = fmt.Sprintf("the hole lies %s deep, the throat is %s", Length(prof, tenth(anyMM)), Length(prof, throat))
	case !atMost(anyMM, throat-margin):
		a.Grade, a.Limit = Care, throat-margin
		a.Text = fmt.Sprintf("the hole lies %s deep, within %s of the throat's %s", Length(prof, tenth(anyMM)), Length(prof, margin), Length(prof, throat))
		a.Fix, a.FixBy = "clean the edge before it goes against the frame", "shop"
	case !gauged:
		// The depth is within the throat: nothing measured stands against a limit.
		a.Grade, a.Got, a.HasGot, a.Limit, a.HasLimit, a.Unit = Care, 0, false, 0, false, ""
		a.Text = "no straight edge to gauge on: the hole is set by eye to its mark"
		a.Fix, a.FixBy = "mark and centre-punch it", "shop"
	case !atMost(gaugedMM, throat):
		a.Grade, a.Got = Care, gaugedMM
		a.Text = fmt.Sprintf("only reached without a gauge: %s from the edge that it is gauged on, the throat is %s", Length(prof, tenth(gaugedMM)), Length(prof, throat))
		a.Fix, a.FixBy = "mark and centre-punch it", "shop"
	case !atMost(gaugedMM, throat-margin):
		a.Grade, a.Got, a.Limit = Care, gaugedMM, throat-margin
		a.Text = fmt.Sprintf("gauged, the hole lies %s deep, within %s of the throat's %s", Length(prof, tenth(gaugedMM)), Length(prof, margin), Length(prof, throat))
		a.Fix, a.FixBy = "clean the edge before it goes against the frame", "shop"
	default:
		a.Text = fmt.Sprintf("the hole lies %s deep in a throat of %s", Length(prof, tenth(anyMM)), Length(prof, throat))
	}
	return a, share
}

// AddReach appends Reach to a use.
func (u *Use) AddReach(prof *shop.Profile, m *shop.Machine, anyMM, gaugedMM float64) {
	a, share := Reach(prof, m, anyMM, gaugedMM)
	u.Aspects = append(u.Aspects[:len(u.Aspects):len(u.Aspects)], a)
	u.Share = max(u.Share, share)
}
