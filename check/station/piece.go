package station

import (
	"fmt"

	"burrside/check/shop"
	"burrside/features/measure"
)

// ShortPiece judges the length that a piece cut off a bar has along the bar, mm:
// what is shorter than an offcut may be narrow turns and wedges between the
// blades just the same, so the limits are those of "sliver". A solid bar lies in
// a cavity that holds it all round, and half of its size counts (common practice,
// no source). ok is false where nothing is to be said.
func ShortPiece(prof *shop.Profile, pc Piece, solid bool, lengthMM float64) (a Aspect, ok bool) {
	a, ok = shortPiece(prof, pc.ThicknessMM, solid, lengthMM)
	if !ok {
		return a, false
	}
	bad, care := shortLimits(prof, pc.ThicknessMM, solid)
	a.Basis = fmt.Sprintf("piece %s mm; error under %s mm, care under %s mm", measure.FormatNumber(lengthMM, 2), measure.FormatNumber(bad, 2), measure.FormatNumber(care, 2))
	if a.Grade == Fail {
		a.Text = fmt.Sprintf("a piece of %s turns and wedges between the blades, at least %s", Length(prof, tenth(lengthMM)), Length(prof, bad))
		return a, true
	}
	a.Text = fmt.Sprintf("a piece of %s is short for the blades, care under %s", Length(prof, tenth(lengthMM)), Length(prof, care))
	a.Fix, a.FixBy = "check that it comes off square and flat, and clear the blades with a tool, not by hand", "shop"
	return a, true
}

func shortLimits(prof *shop.Profile, thicknessMM float64, solid bool) (bad, care float64) {
	if solid {
		thicknessMM /= 2
	}
	set := settingsOf(prof)
	return set.value("sliver", "error") * thicknessMM, max(set.value("sliver", "care")*thicknessMM, set.value("sliver", "care-least"))
}

// shortPiece is ShortPiece without its words.
func shortPiece(prof *shop.Profile, thicknessMM float64, solid bool, lengthMM float64) (a Aspect, ok bool) {
	bad, care := shortLimits(prof, thicknessMM, solid)
	a = Aspect{Rule: "sliver", Got: lengthMM, HasGot: true, Limit: care, HasLimit: true, Unit: "mm"}
	switch {
	case !(lengthMM > 0) || atMost(care, lengthMM):
		return a, false
	case atMost(bad, lengthMM):
		a.Grade = Care
	default:
		a.Grade, a.Limit = Fail, bad
	}
	return a, true
}
