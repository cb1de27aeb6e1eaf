package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
)

// CutRequest is one straight cut asked of a shear.
type CutRequest struct {
	LengthMM     float64 // metal under the blade
	SpanMM       float64 // from the first to the last metal; 0: LengthMM
	OffSquareRad float64 // of a cut across a bar
	OnBar        bool    // the bar is held and the piece falls
	HeldMM       float64 // extent of the held piece square to the cut, when not on the bar
	OffcutMM     float64 // least width of what falls as scrap; 0: none falls
}

// Shear judges a straight cut at a machine's shear for plate and flat bar. A
// machine without a shear fails under the rule "shear-row".
func Shear(prof *shop.Profile, m *shop.Machine, pc Piece, c CutRequest) Use {
	u := Use{Machine: m.Name, Station: "shear", Hits: 1}
	st := m.Shear
	if st == nil {
		u.add(Aspect{Rule: "shear-row", Grade: Fail, Text: m.Name + " has no shear"}, 0)
		return u
	}
	if a, ok := pc.missing(); !ok {
		u.add(a, 0)
		return u
	}
	if !isSize(c.LengthMM) {
		u.add(noSize(), 0)
		return u
	}
	if a, bad := hardened(pc); bad {
		u.add(a, 0)
	}
	if st.OpeningMM > 0 && !atMost(pc.ThicknessMM, st.OpeningMM) {
		u.add(Aspect{Rule: "shear-row", Grade: Fail, Got: pc.ThicknessMM, HasGot: true, Limit: st.OpeningMM, HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("%s does not go between the blades, they open %s", Length(prof, pc.ThicknessMM), Length(prof, st.OpeningMM))}, pc.ThicknessMM/st.OpeningMM)
	}
	u.addRows(prof, st, pc, c)
	u.addBlade(prof, st, c)
	u.addMitre(st, c)
	u.addHold(prof, st, c)
	u.addSliver(prof, pc, c)
	return u
}

// equal is the thickness at which the rows are asked: never below the true one
// unless the shop states the opening between the blades.
func equal(st *shop.ShearStation, t, length, shear float64) float64 {
	e := EqualThickness(t, length, st.RakeRad, shear, basisMPa(&st.Rating))
	if math.Abs(e-t) <= 1e-9*t || e < t && !(st.OpeningMM > 0) {
		return t
	}
	return e
}

// addRows judges length and thickness: by the rows, or by force where a station
// has none.
func (u *Use) addRows(prof *shop.Profile, st *shop.ShearStation, pc Piece, c CutRequest) {
	t, l := pc.ThicknessMM, c.LengthMM
	S, up := pc.Material.ShearMPa, pc.upper()
	what := fmt.Sprintf("a cut of %s in %s %s", Length(prof, tenth(l)), Length(prof, t), materialName(pc.Material))
	if len(st.Rows) == 0 {
		u.addRaked(prof, st, pc, c, what)
		return
	}
	base := basisMPa(&st.Rating)
	te := equal(st, t, l, S)
	a := Aspect{Rule: "shear-row", Got: l, HasGot: true, Unit: "mm"}
	a.Basis = fmt.Sprintf("t = %s mm, L = %s mm", number(t, 3), number(l, 1))
	if te != t {
		model := "linear in the strength"
		if st.RakeRad > 0 {
			model = "same force at a rake of " + degrees(st.RakeRad)
		}
		a.Basis = fmt.Sprintf("t = %s mm at %s MPa is %s mm at %s MPa (%s), L = %s mm", number(t, 3), number(S, 0), number(te, 2), number(base, 0), model, number(l, 1))
	}
	g, limit, row := RowGrade(st.Rows, te, l)
	a.Grade, a.Limit, a.HasLimit = g, limit, limit > 0
	share := 0.0
	if limit > 0 {
		share = l / limit
	}
	as := ""
	if te > t {
		as = fmt.Sprintf(" (as %s of the rows' steel)", Length(prof, math.Round(te*100)/100))
	}
	switch g {
	case OK:
		a.Text = fmt.Sprintf("%s%s is covered by the row %s in %s", what, as, Length(prof, row.SizeMM), Length(prof, row.ThicknessMM))
		// Harder metal than the rows mean gets the second look at its upper strength.
		if !atMost(S, base) && !atMost(up, S) {
			if ug, ul, _ := RowGrade(st.Rows, equal(st, t, l, up), l); ug != OK {
				a.Grade = Care
				a.Limit, a.HasLimit = ul, ul > 0
				a.Text = fmt.Sprintf("%s is tight at the upper strength of %s", what, materialName(pc.Material))
				a.Basis += fmt.Sprintf("; at %s MPa it is %s mm", number(up, 0), number(equal(st, t, l, up), 2))
				a.Fix, a.FixBy = "use sharp blades, and stop if the machine stalls", "shop"
			}
		}
	case Care:
		a.Text = fmt.Sprintf("%s%s lies between two rows: physics allows %s, no row covers it", what, as, Length(prof, math.Floor(limit*10)/10))
		a.Fix, a.FixBy = "try it on scrap first, with sharp blades", "shop"
	default:
		if limit > 0 {
			a.Text = fmt.Sprintf("%s%s is beyond the rows, at most %s at this thickness", what, as, Length(prof, math.Floor(limit*10)/10))
		} else {
			thick := 0.0
			for _, r := range st.Rows {
				thick = max(thick, r.ThicknessMM)
			}
			a.Got, a.Limit, a.HasLimit = te, thick, true
			share = te / thick
			a.Text = fmt.Sprintf("%s%s is thicker than any row, at most %s", what, as, Length(prof, thick))
		}
	}
	u.add(a, share)
}

// addRaked judges by force where a station has no rows: with its rake, or, where
// none is stated, as a parallel blade, which can only be too hard a test.
func (u *Use) addRaked(prof *shop.Profile, st *shop.ShearStation, pc Piece, c CutRequest, what string) {
	t, l := pc.ThicknessMM, c.LengthMM
	ld := load{rule: "shear-row", what: what,
		nominalKN: RakedForceKN(t, l, st.RakeRad, pc.Material.ShearMPa), upperKN: RakedForceKN(t, l, st.RakeRad, pc.upper())}
	ld.usableKN, ld.how, ld.known = usable(&st.Rating, 0)
	switch {
	case !(st.RakeRad > 0):
		ld.basis = fmt.Sprintf("parallel blade: %s mm x %s mm x %s MPa = %s kN", number(l, 1), number(t, 3), number(pc.Material.ShearMPa, 0), number(ld.nominalKN, 1))
	case l*math.Tan(st.RakeRad) >= t:
		ld.basis = fmt.Sprintf("%s MPa x (%s mm)^2 / (2 tan %s) = %s kN", number(pc.Material.ShearMPa, 0), number(t, 3), degrees(st.RakeRad), number(ld.nominalKN, 1))
	default:
		ld.basis = fmt.Sprintf("%s MPa x (%s x %s - %s^2 tan %s / 2) mm2 = %s kN", number(pc.Material.ShearMPa, 0), number(l, 1), number(t, 3), number(l, 1), degrees(st.RakeRad), number(ld.nominalKN, 1))
	}
	a, share := ld.judge(prof)
	if !(st.RakeRad > 0) && a.Grade == Fail {
		a.Grade = Unknown
		a.Text = fmt.Sprintf("the shop file states no rows and no rake for this shear: %s cannot be judged", what)
		share = 0
	}
	u.ForceKN, u.LimitKN = ld.nominalKN, ld.usableKN
	u.add(a, share)
}

func (u *Use) addBlade(prof *shop.Profile, st *shop.ShearStation, c CutRequest) {
	span := max(c.SpanMM, c.LengthMM)
	blade := st.BladeMM
	if !(blade > 0) { // no longer than the longest row is known of it
		for _, r := range st.Rows {
			blade = max(blade, r.SizeMM)
		}
		if !(blade > 0) {
			u.add(Aspect{Rule: "shear-row", Grade: Unknown, Got: span, HasGot: true, Unit: "mm", Text: "the shop file does not state how long the blade is"}, 0)
			return
		}
	}
	a := Aspect{Rule: "shear-row", Got: span, HasGot: true, Limit: blade, HasLimit: true, Unit: "mm",
		Text: fmt.Sprintf("the blade of %s takes a cut of %s", Length(prof, blade), Length(prof, tenth(span)))}
	if !atMost(span, blade) {
		a.Grade = Fail
		a.Text = fmt.Sprintf("the cut is %s long, the blade %s", Length(prof, tenth(span)), Length(prof, blade))
	}
	u.add(a, span/blade)
}

func (u *Use) addMitre(st *shop.ShearStation, c CutRequest) {
	off := math.Abs(c.OffSquareRad)
	if !c.OnBar || off < 1e-4 {
		return
	}
	a := Aspect{Rule: "mitre", Got: off * 180 / math.Pi, HasGot: true, Unit: "deg", Text: fmt.Sprintf("the bar is cut at %s off square", degrees(off))}
	if st.MitreRad > 0 {
		a.Limit, a.HasLimit = st.MitreRad*180/math.Pi, true
		if !atMost(off, st.MitreRad) {
			a.Grade = Fail
			a.Text = fmt.Sprintf("the bar is cut at %s off square, the table takes at most %s", degrees(off), degrees(st.MitreRad))
		}
	}
	u.add(a, 0)
}

// addHold judges the metal that is under the hold-down: the bar, or the piece.
func (u *Use) addHold(prof *shop.Profile, st *shop.ShearStation, c CutRequest) {
	if c.OnBar {
		u.add(Aspect{Rule: "hold-down", Text: "the bar is held, the piece falls"}, 0)
		return
	}
	reach, stated := st.HoldDownMM, true
	if !(reach > 0) {
		reach, stated = settingsOf(prof).value("hold-down", "assumed"), false
	}
	a := Aspect{Rule: "hold-down", Got: c.HeldMM, HasGot: true, Limit: reach, HasLimit: true, Unit: "mm"}
	how := ""
	if !stated {
		how = " (assumed, the shop file states none)"
	}
	a.Basis = fmt.Sprintf("%s mm of the piece square to the cut; reach %s mm%s", number(c.HeldMM, 1), number(reach, 1), how)
	switch {
	case atMost(reach, c.HeldMM):
		a.Text = fmt.Sprintf("%s of the piece lie under the hold-down", Length(prof, tenth(c.HeldMM)))
	case !stated:
		a.Grade = Care
		a.Text = fmt.Sprintf("only %s of the piece lie under the hold-down, its reach is taken as %s%s", Length(prof, tenth(c.HeldMM)), Length(prof, reach), how)
		a.Fix, a.FixBy = "cut while the piece is on the bar, or see that the hold-down reaches it", "shop"
	default:
		a.Grade = Fail
		a.Text = fmt.Sprintf("only %s of the piece lie under the hold-down, it reaches %s", Length(prof, tenth(c.HeldMM)), Length(prof, reach))
	}
	u.add(a, 0)
}

func (u *Use) addSliver(prof *shop.Profile, pc Piece, c CutRequest) {
	if !(c.OffcutMM > 0) {
		return
	}
	set := settingsOf(prof)
	t := pc.ThicknessMM
	bad := set.value("sliver", "error") * t
	care := max(set.value("sliver", "care")*t, set.value("sliver", "care-least"))
	a := Aspect{Rule: "sliver", Got: c.OffcutMM, HasGot: true, Limit: care, HasLimit: true, Unit: "mm",
		Basis: fmt.Sprintf("offcut %s mm wide; error under %s mm, care under %s mm", number(c.OffcutMM, 2), number(bad, 2), number(care, 2))}
	switch {
	case !atMost(bad, c.OffcutMM):
		a.Grade, a.Limit = Fail, bad
		a.Text = fmt.Sprintf("an offcut of %s wedges between the blades, at least %s", Length(prof, tenth(c.OffcutMM)), Length(prof, bad))
	case !atMost(care, c.OffcutMM):
		a.Grade = Care
		a.Text = fmt.Sprintf("an offcut of %s is narrow, care under %s", Length(prof, tenth(c.OffcutMM)), Length(prof, care))
		a.Fix, a.FixBy = "clear the blades after the cut, with a tool, not by hand", "shop"
	default:
		a.Text = fmt.Sprintf("the offcut is %s wide", Length(prof, tenth(c.OffcutMM)))
	}
	u.add(a, 0)
}
