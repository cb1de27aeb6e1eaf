package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/measure"
)

// relative is the tolerance at which a limit counts as met: far above the error
// of the arithmetic, far below anything that is measured on a floor.
const relative = 1e-6

// isBelow tells that got is under the limit; equality within 1e-6 of the limit
// is not below.
func isBelow(got, limit float64) bool { return got < limit-float64(relative*abs(limit)) }

// isAbove tells that got is over the limit; equality is not above.
func isAbove(got, limit float64) bool { return got > limit+float64(relative*abs(limit)) }

func abs(v float64) float64 { return math.Abs(v) }

// lengthText writes a length in the shop's unit.
func lengthText(prof *shop.Profile, mm float64) string {
	if prof == nil {
		prof = &shop.Profile{Units: "mm"}
	}
	return station.Length(prof, mm)
}

// below says how a length misses a limit, with so many decimals that the two
// never look equal: "29.95 mm of 30 mm".
func below(prof *shop.Profile, got, limit float64) (g, l string) {
	g, l = lengthText(prof, got), lengthText(prof, limit)
	for d := 3; g == l && d <= 6; d++ {
		if prof != nil && prof.Units == "in" {
			g, l = measure.FormatNumber(got/25.4, d)+" in", measure.FormatNumber(limit/25.4, d)+" in"
		} else {
			g, l = measure.FormatNumber(got, d)+" mm", measure.FormatNumber(limit, d)+" mm"
		}
	}
	return g, l
}

// sameBut is a text without its numbers: texts that differ in nothing else name
// one cause.
func sameBut(text string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r == '.' {
			return -1
		}
		return r
	}, text)
}

// plural writes "1 hole", "2 holes".
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// idList names features: at most six, then the number of the rest.
func idList(ids []string) string {
	if len(ids) > 6 {
		return strings.Join(ids[:5], ", ") + fmt.Sprintf(" and %d more", len(ids)-5)
	}
	return strings.Join(ids, ", ")
}

// sizeText names a feature's kind and size: "hole Ø22 mm", "slot 22 x 50 mm".
func sizeText(prof *shop.Profile, f *features.Feature) string {
	pair := func(what string, a, b float64) string {
		return fmt.Sprintf("%s %s x %s", what, lengthText(prof, a), lengthText(prof, b))
	}
	switch f.Kind {
	case features.RoundHole, features.HoleWithSeat, features.TappedHole:
		return "hole Ø" + lengthText(prof, f.DiameterMM)
	case features.Slot, features.CurvedSlot:
		return pair("slot", f.WidthMM, f.LengthMM)
	case features.RectangularHole:
		return pair("opening", f.WidthMM, f.LengthMM)
	case features.PolygonHole:
		return fmt.Sprintf("opening of %d sides, %s across flats", f.Sides, lengthText(prof, f.AcrossFlatsMM))
	case features.Cutout:
		return pair("cut-out", f.WidthMM, f.LengthMM)
	case features.Notch:
		return pair("notch", f.WidthMM, f.DepthMM)
	case features.CornerClip:
		return "clipped corner"
	case features.CornerRadius:
		return "corner radius " + lengthText(prof, f.RadiusMM)
	case features.ArcCut:
		return "arc of radius " + lengthText(prof, f.RadiusMM)
	case features.StraightCut:
		return "edge of " + lengthText(prof, f.LengthMM)
	case features.Bend:
		return "bend"
	case features.Mark:
		return "mark"
	}
	panic("check: unknown kind of feature " + string(f.Kind))
}

// ruleWords is a rule's id in words: "punch-force" gives "punch force".
func ruleWords(id string) string { return strings.ReplaceAll(id, "-", " ") }
