package station

import (
	"fmt"

	"burrside/check/shop"
	"burrside/features/measure"
)

// BendRequest is one bend asked of a press brake.
type BendRequest struct {
	LengthMM float64
	FlangeMM float64 // the shorter leg where it is widest; 0 not known
	LeastMM  float64 // a leg where it is narrowest, its ends left out; 0: as wide as FlangeMM
	AngleRad float64 // as stated, 0..pi; 0 not stated
	RadiusMM float64 // inside, as stated; 0 not stated
}

// AirBendForceKN is the force of an air bend, C Rm L t^2 / V, kN. Textbooks of
// forming give C = 1.33, metric charts 1.42, US charts 1.6.
func AirBendForceKN(factor, tensileMPa, lengthMM, thicknessMM, vMM float64) float64 {
	return factor * tensileMPa * lengthMM * thicknessMM * thicknessMM / vMM / 1000
}

// Bend judges a bend at a machine's press brake, over the die opening that suits
// best. A machine without one fails under the rule "bend".
func Bend(prof *shop.Profile, m *shop.Machine, pc Piece, b BendRequest) Use {
	u := Use{Machine: m.Name, Station: "brake", Hits: 1}
	st := m.Brake
	if st == nil {
		u.add(Aspect{Rule: "bend", Grade: Fail, Text: m.Name + " has no brake"}, 0)
		return u
	}
	if a, ok := pc.missing(); !ok {
		u.add(a, 0)
		return u
	}
	if !isSize(b.LengthMM) {
		u.add(noSize(), 0)
		return u
	}
	if !(pc.Material.TensileMPa > 0) {
		u.add(Aspect{Rule: "bend", Grade: Unknown, Text: "the tensile strength of " + materialName(pc.Material) + " is not known"}, 0)
		return u
	}
	if len(st.VMM) == 0 {
		u.add(Aspect{Rule: "bend", Grade: Unknown, Text: "the shop file states no die openings of the brake"}, 0)
		return u
	}
	var all []Use
	for _, v := range st.VMM {
		if v > 0 {
			all = append(all, bendOver(prof, m, pc, b, v))
		}
	}
	if len(all) == 0 {
		u.add(Aspect{Rule: "bend", Grade: Unknown, Text: "the shop file states no die openings of the brake"}, 0)
		return u
	}
	best := 0
	for i := range all {
		if betterBend(&all[i], &all[best]) {
			best = i
		}
	}
	return all[best]
}

// betterBend prefers the better grade, then fewer aspects of that grade; of two
// that fail alike the narrower die, which asks for the shorter flange; of others
// the one with more in reserve. The dies come in ascending order.
func betterBend(a, b *Use) bool {
	ga, gb := a.Grade(), b.Grade()
	if ga != gb {
		return ga < gb
	}
	if na, nb := count(a, ga), count(b, gb); na != nb {
		return na < nb
	}
	return ga != Fail && a.Share < b.Share
}

// count is how many aspects of a use have this grade.
func count(u *Use, g Grade) int {
	n := 0
	for i := range u.Aspects {
		if u.Aspects[i].Grade == g {
			n++
		}
	}
	return n
}

// UsualVMM is the die opening that charts give for air bending: 6 t to 2.6 mm,
// 8 t to 8 mm, 10 t to 12 mm, 12 t above. Common practice, no source.
func UsualVMM(thicknessMM float64) float64 {
	switch {
	case thicknessMM <= 2.6:
		return 6 * thicknessMM
	case thicknessMM <= 8:
		return 8 * thicknessMM
	case thicknessMM <= 12:
		return 10 * thicknessMM
	}
	return 12 * thicknessMM
}

// The least die opening for a thickness: under it the punch wedges in the die
// and the bend cracks (common practice, no source); and the share of the usual
// opening under which a second look is due.
const (
	leastVSheet = 5.0 // times t, under 3 mm
	leastVPlate = 6.0 // times t
	shareV      = 0.8
)

// addDieOpening sets the die opening against the thickness.
func (u *Use) addDieOpening(prof *shop.Profile, pc Piece, v float64) {
	t := pc.ThicknessMM
	least, usual := leastVPlate*t, UsualVMM(t)
	if t < 3 {
		least = leastVSheet * t
	}
	a := Aspect{Rule: "bend", Got: v, HasGot: true, Limit: least, HasLimit: true, Unit: "mm",
		Basis: fmt.Sprintf("V %s mm / %s mm = %s t; usual %s mm", measure.FormatNumber(v, 1), measure.FormatNumber(t, 3), measure.FormatNumber(v/t, 1), measure.FormatNumber(usual, 1))}
	switch {
	case !atMost(least, v):
		a.Grade, a.Text = Fail, fmt.Sprintf("the die V %s is too narrow for %s: at least %s", Length(prof, v), Length(prof, t), Length(prof, least))
	case !atMost(shareV*usual, v):
		a.Grade, a.Limit = Care, usual
		a.Text = fmt.Sprintf("the die V %s is narrow for %s, usual is %s: the bend may crack", Length(prof, v), Length(prof, t), Length(prof, usual))
	default:
		a.Text = fmt.Sprintf("the die V %s suits %s", Length(prof, v), Length(prof, t))
	}
	u.add(a, 0)
}

func bendOver(prof *shop.Profile, m *shop.Machine, pc Piece, b BendRequest, v float64) Use {
	st, set := m.Brake, settingsOf(prof)
	u := Use{Machine: m.Name, Station: "brake", Hits: 1, Die: "V " + Length(prof, v)}
	if a, bad := hardened(pc); bad {
		a.Text = fmt.Sprintf("%s is not bent here: it may crack", materialName(pc.Material))
		u.add(a, 0)
	}
	t, rm := pc.ThicknessMM, pc.Material.TensileMPa
	c, high := set.value("bend", "factor"), set.value("bend", "factor-care")
	ld := load{rule: "bend", what: fmt.Sprintf("a bend of %s in %s %s over V %s", Length(prof, b.LengthMM), Length(prof, t), materialName(pc.Material), Length(prof, v)),
		nominalKN: AirBendForceKN(c, rm, b.LengthMM, t, v), upperKN: AirBendForceKN(max(c, high), rm, b.LengthMM, t, v)}
	ld.usableKN, ld.how, ld.known = usable(&st.Rating, 0)
	if st.PivotMM > 0 && st.PivotRefMM > 0 && ld.known {
		ld.usableKN = MomentForceKN(ld.usableKN, st.PivotRefMM, st.PivotMM)
		ld.how += fmt.Sprintf(" at %s mm from the pivot, x %s / %s", measure.FormatNumber(st.PivotRefMM, 0), measure.FormatNumber(st.PivotRefMM, 0), measure.FormatNumber(st.PivotMM, 0))
	}
	ld.basis = fmt.Sprintf("%s x %s MPa x %s mm x (%s mm)^2 / %s mm = %s kN", measure.FormatNumber(c, 2), measure.FormatNumber(rm, 0), measure.FormatNumber(b.LengthMM, 1), measure.FormatNumber(t, 3), measure.FormatNumber(v, 1), measure.FormatNumber(ld.nominalKN, 1))
	a, share := ld.judge(prof)
	if a.Grade == Care {
		a.Text = fmt.Sprintf("%s is tight: %s by the higher of the usual formulas, %s may be used", ld.what, Force(prof, ld.upperKN), Force(prof, ld.usableKN))
		a.Fix, a.FixBy = "use a wider die opening if the flange allows it", "shop"
	}
	u.add(a, share)
	u.ForceKN, u.LimitKN = ld.nominalKN, ld.usableKN
	if !(st.LengthMM > 0) {
		u.add(Aspect{Rule: "bend", Grade: Unknown, Got: b.LengthMM, HasGot: true, Unit: "mm", Text: "the shop file does not state how long the brake is"}, 0)
	} else {
		a := Aspect{Rule: "bend", Got: b.LengthMM, HasGot: true, Limit: st.LengthMM, HasLimit: true, Unit: "mm", Text: fmt.Sprintf("the brake is %s long", Length(prof, st.LengthMM))}
		if !atMost(b.LengthMM, st.LengthMM) {
			a.Grade, a.Text = Fail, fmt.Sprintf("the bend is %s long, the brake %s", Length(prof, b.LengthMM), Length(prof, st.LengthMM))
		}
		u.add(a, b.LengthMM/st.LengthMM)
	}
	u.addDieOpening(prof, pc, v)
	u.addRadius(prof, pc, b, v)
	need := set.value("bend", "flange") * v
	fl := Aspect{Rule: "bend", Got: b.FlangeMM, HasGot: b.FlangeMM > 0, Limit: need, HasLimit: true, Unit: "mm",
		Basis: fmt.Sprintf("%s x V %s mm = %s mm", measure.FormatNumber(set.value("bend", "flange"), 2), measure.FormatNumber(v, 1), measure.FormatNumber(need, 1))}
	switch {
	case !fl.HasGot:
		fl.Grade, fl.Text = Unknown, "the width of the flange is not known"
	case !atMost(need, b.FlangeMM):
		fl.Grade, fl.Text = Fail, fmt.Sprintf("a flange of %s falls into the die V %s, at least %s", Length(prof, b.FlangeMM), Length(prof, v), Length(prof, need))
	case b.LeastMM > 0 && !atMost(need, b.LeastMM):
		fl.Grade, fl.Got, fl.FixBy = Care, b.LeastMM, "shop"
		fl.Text = fmt.Sprintf("the flange is only %s at its narrowest and falls into the die V %s there, at least %s", Length(prof, tenth(b.LeastMM)), Length(prof, v), Length(prof, need))
		fl.Fix = "bend it before the flange is cut to its shape, or over a narrower die"
	default:
		fl.Text = fmt.Sprintf("a flange of %s lies over the die V %s, at least %s", Length(prof, b.FlangeMM), Length(prof, v), Length(prof, need))
	}
	u.add(fl, 0)
	u.addAngle(b)
	u.addStroke(prof, st, b, v)
	return u
}

// MomentForceKN is the force at a distance of r2 from the pivot of a beam that
// gives force at r1: F1 r1 = F2 r2, statics. It is never used to go beyond a row.
func MomentForceKN(forceKN, r1MM, r2MM float64) float64 { return forceKN * r1MM / r2MM }
