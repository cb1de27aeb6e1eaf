package features

import (
	"math"
	"slices"
	"strings"

	"burrside/features/measure"
)

// doubtStated doubts a unit that a note contradicts: "ALL DIMENSIONS IN INCHES"
// on a drawing that was read in millimetres. How plausible the sizes are does
// not outweigh what the draughtsman wrote; a unit asked for by flag does. Notes
// that name two units say nothing, nor does one that speaks of the figures that
// dimensions show: their factor turns the drawing's unit into that of the note.
// It gives the note, "" for none.
func doubtStated(u *Units, data voteData) string {
	if u.From == UnitsFlag {
		return ""
	}
	said, unit := "", ""
	texts := data.texts
	if len(texts) > maxVoteTexts {
		texts = texts[:maxVoteTexts]
	}
	for _, t := range texts {
		for _, line := range strings.Split(t, "\n") {
			s, ok := measure.UnitStatement(line)
			if !ok {
				continue
			}
			if unit != "" && unit != s {
				return ""
			}
			if said == "" {
				said = line
			}
			unit = s
		}
	}
	if unit == "" || unit == u.Name {
		return ""
	}
	for _, v := range voteUnits() {
		if v.name != unit {
			continue
		}
		shown := func(f float64) bool { return math.Abs(f*v.mm/u.MM-1) < 1e-3 }
		if math.Abs(v.mm/u.MM-1) < 1e-9 || slices.ContainsFunc(data.factors, shown) {
			return ""
		}
		u.Doubt, u.Other, u.OtherMM = true, v.name, v.mm
		return said
	}
	return ""
}
