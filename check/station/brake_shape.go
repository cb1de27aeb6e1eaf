package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// What is taken where a note states no angle, and the sharpest bend that the
// usual dies of 85 to 88 degrees make with room for springing back (common
// practice, no source).
const (
	assumedBendRad = math.Pi / 2
	mostBendRad    = 91 * math.Pi / 180
)

// BendAngle is the angle that the metal is bent by: the stated one, or, as
// drawings state the angle bent by as well as the one that is left between the
// legs, the greater of the two; a right angle where none is stated.
func BendAngle(statedRad float64) float64 {
	if !(statedRad > 0) {
		return assumedBendRad
	}
	return max(statedRad, math.Pi-statedRad)
}

// AirBendRadiusMM is the inside radius that an air bend over a die opening comes
// out with, about V/6; charts give 0.16 to 0.167 V (common practice, no source).
func AirBendRadiusMM(vMM float64) float64 { return vMM / 6 }

// LeastBendRadiusMM is the least inside radius that a metal takes cold without
// cracks: half the thickness in mild steel and aluminium, 1.5 times in stronger
// ones (from memory, AISC Manual Table 10-13 and EN 10025-2 class of values).
func LeastBendRadiusMM(m *shop.Material, thicknessMM float64) float64 {
	if m != nil && (m.Group == "mild" || m.Group == "aluminium") {
		return thicknessMM / 2
	}
	return 1.5 * thicknessMM
}

// BendDepthMM is how far a tool goes down between the shoulders of a die to bend
// by an angle: V/2 tan(angle/2), of two straight legs that meet in a point; a
// rounded bend takes less.
func BendDepthMM(vMM, angleRad float64) float64 { return vMM / 2 * math.Tan(angleRad/2) }

// addRadius sets the inside radius that comes of the die against the least one of
// the metal and against the one that a note states.
func (u *Use) addRadius(prof *shop.Profile, pc Piece, b BendRequest, v float64) {
	ln := func(mm float64) string { return Length(prof, tenth(mm)) }
	made, least := AirBendRadiusMM(v), LeastBendRadiusMM(pc.Material, pc.ThicknessMM)
	u.BendRadiusMM = made
	a := Aspect{Rule: "bend", Got: made, HasGot: true, Limit: least, HasLimit: true, Unit: "mm",
		Basis: fmt.Sprintf("V %s mm / 6 = %s mm; least %s mm", measure.FormatNumber(v, 1), measure.FormatNumber(made, 1), measure.FormatNumber(least, 1)),
		Text:  fmt.Sprintf("the bend over V %s comes out with an inside radius of about %s", Length(prof, v), ln(made))}
	if !atMost(least, made) {
		a.Grade, a.FixBy, a.Fix = Care, "shop", "use a wider die, or a tool with a larger nose, and look for cracks"
		a.Text += fmt.Sprintf(", less than the %s that the metal wants", ln(least))
	}
	u.add(a, 0)
	if !(b.RadiusMM > 0) {
		return
	}
	off := max(1, settingsOf(prof).value("bend", "radius-fit")*b.RadiusMM)
	a = Aspect{Rule: "bend", Got: made, HasGot: true, Limit: b.RadiusMM, HasLimit: true, Unit: "mm",
		Basis: fmt.Sprintf("V %s mm / 6 = %s mm; asked for %s mm, to within %s mm", measure.FormatNumber(v, 1), measure.FormatNumber(made, 1), measure.FormatNumber(b.RadiusMM, 1), measure.FormatNumber(off, 1)),
		Text:  fmt.Sprintf("over V %s the inside radius comes out at about %s, asked for %s", Length(prof, v), ln(made), ln(b.RadiusMM))}
	switch {
	case !atMost(least, b.RadiusMM):
		a.Grade, a.FixBy, a.Limit = Care, "drawing", least
		a.Got = b.RadiusMM
		a.Text = fmt.Sprintf("an inside radius of %s is less than the %s that the metal wants: it may crack", ln(b.RadiusMM), ln(least))
		a.Fix = fmt.Sprintf("would the designer accept R%s?", measure.FormatNumber(math.Ceil(least), 0))
	case !atMost(b.RadiusMM, made+off):
		a.Grade, a.FixBy = Care, "shop"
		a.Fix = fmt.Sprintf("use a tool with a nose of %s", ln(b.RadiusMM))
	case !atMost(made, b.RadiusMM+off):
		a.Grade, a.FixBy = Care, "shop"
		a.Fix = fmt.Sprintf("use a narrower die of about %s if it takes the force, or ask whether the larger radius will do", Length(prof, math.Round(6*b.RadiusMM)))
	}
	u.add(a, 0)
}

// addAngle looks at the angle that a note states.
func (u *Use) addAngle(b BendRequest) {
	a := Aspect{Rule: "bend", Unit: "deg"}
	by := BendAngle(b.AngleRad)
	switch {
	case !(b.AngleRad > 0):
		a.Grade, a.FixBy = Care, "drawing"
		a.Text, a.Fix = "the drawing states no angle for the bend, it was judged as one of 90°", "what is the angle?"
	case by > mostBendRad:
		a.Grade, a.FixBy = Care, "shop"
		a.Got, a.HasGot, a.Limit, a.HasLimit = by*180/math.Pi, true, 90, true
		a.Text = fmt.Sprintf("a bend noted %s is judged as one by %s, sharper than the usual dies make", degrees(b.AngleRad), degrees(by))
		a.Fix = "see which angle is meant, and use an acute die if the metal is bent by more than 90°"
		if b.AngleRad < math.Pi/2 {
			// Bent by 45 or bent to 45: either is drawn so, and the dies tell them apart.
			a.Fix = "see whether it is bent by this angle or to it; bent by it, the usual dies do"
		}
	default:
		a.Text = "bent by " + degrees(by)
	}
	u.add(a, 0)
}

// addStroke sets the way that the tool has to go against the stroke at its place.
func (u *Use) addStroke(prof *shop.Profile, st *shop.BrakeStation, b BendRequest, v float64) {
	angle, clear := min(BendAngle(b.AngleRad), mostBendRad), settingsOf(prof).value("bend", "clear")
	depth := BendDepthMM(v, angle)
	need := depth + clear
	a := Aspect{Rule: "bend", Got: need, HasGot: true, Unit: "mm",
		Basis: fmt.Sprintf("%s mm / 2 x tan(%s / 2) = %s mm, + %s mm clear", measure.FormatNumber(v, 1), degrees(angle), measure.FormatNumber(depth, 1), measure.FormatNumber(clear, 1))}
	if !(st.StrokeMM > 0) {
		a.Grade, a.FixBy = Care, "shop"
		a.Text = fmt.Sprintf("the tool goes %s down to bend over V %s, and the shop file does not state its stroke", Length(prof, tenth(need)), Length(prof, v))
		a.Fix = "see that the stroke is enough, and state it in the shop file"
		u.add(a, 0)
		return
	}
	stroke := st.StrokeMM
	if st.PivotMM > 0 && st.PivotRefMM > 0 {
		stroke *= st.PivotMM / st.PivotRefMM
		a.Basis += fmt.Sprintf("; stroke %s mm x %s / %s = %s mm", measure.FormatNumber(st.StrokeMM, 1), measure.FormatNumber(st.PivotMM, 0), measure.FormatNumber(st.PivotRefMM, 0), measure.FormatNumber(stroke, 1))
	}
	a.Limit, a.HasLimit = stroke, true
	if atMost(need, stroke) {
		a.Text = fmt.Sprintf("the tool goes %s down, its stroke is %s", Length(prof, tenth(need)), Length(prof, tenth(stroke)))
	} else {
		a.Grade = Fail
		a.Text = fmt.Sprintf("the tool goes %s down to bend over V %s, its stroke is %s", Length(prof, tenth(need)), Length(prof, v), Length(prof, tenth(stroke)))
	}
	u.add(a, need/stroke)
}
