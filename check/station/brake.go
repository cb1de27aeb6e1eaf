package station

import (
	"fmt"

	"burrside/check/shop"
)

// BendRequest is one bend asked of a press brake.
type BendRequest struct {
	LengthMM float64
	FlangeMM float64 // the shorter leg; 0 not known
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
		gi, gb := all[i].Grade(), all[best].Grade()
		if gi < gb || gi == gb && all[i].Share < all[best].Share {
			best = i
		}
	}
	return all[best]
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
		ld.how += fmt.Sprintf(" at %s mm from the pivot, x %s / %s", number(st.PivotRefMM, 0), number(st.PivotRefMM, 0), number(st.PivotMM, 0))
	}
	ld.basis = fmt.Sprintf("%s x %s MPa x %s mm x (%s mm)^2 / %s mm = %s kN", number(c, 2), number(rm, 0), number(b.LengthMM, 1), number(t, 3), number(v, 1), number(ld.nominalKN, 1))
	a, share := ld.judge(prof)
	if a.Grade == Care {
		a.Text = fmt.Sprintf("%s is tight: %s by the higher of the usual formulas, %s may be used", ld.what, Force(prof, ld.upperKN), Force(prof, ld.usableKN))
		a.Fix, a.FixBy = "use a wider die opening if the flange allows it", "shop"
	}
	u.add(a, share)
	u.ForceKN, u.LimitKN = ld.nominalKN, ld.usableKN
	if st.LengthMM > 0 {
		a := Aspect{Rule: "bend", Got: b.LengthMM, HasGot: true, Limit: st.LengthMM, HasLimit: true, Unit: "mm", Text: fmt.Sprintf("the brake is %s long", Length(prof, st.LengthMM))}
		if !atMost(b.LengthMM, st.LengthMM) {
			a.Grade, a.Text = Fail, fmt.Sprintf("the bend is %s long, the brake %s", Length(prof, b.LengthMM), Length(prof, st.LengthMM))
		}
		u.add(a, b.LengthMM/st.LengthMM)
	}
	need := set.value("bend", "flange") * v
	fl := Aspect{Rule: "bend", Got: b.FlangeMM, HasGot: b.FlangeMM > 0, Limit: need, HasLimit: true, Unit: "mm",
		Basis: fmt.Sprintf("%s x V %s mm = %s mm", number(set.value("bend", "flange"), 2), number(v, 1), number(need, 1))}
	switch {
	case !fl.HasGot:
		fl.Grade, fl.Text = Unknown, "the width of the flange is not known"
	case !atMost(need, b.FlangeMM):
		fl.Grade, fl.Text = Fail, fmt.Sprintf("a flange of %s falls into the die V %s, at least %s", Length(prof, b.FlangeMM), Length(prof, v), Length(prof, need))
	default:
		fl.Text = fmt.Sprintf("a flange of %s lies over the die V %s, at least %s", Length(prof, b.FlangeMM), Length(prof, v), Length(prof, need))
	}
	u.add(fl, 0)
	return u
}

// MomentForceKN is the force at a distance of r2 from the pivot of a beam that
// gives force at r1: F1 r1 = F2 r2, statics. It is never used to go beyond a row.
func MomentForceKN(forceKN, r1MM, r2MM float64) float64 { return forceKN * r1MM / r2MM }
