package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// CutRequest is one straight cut asked of a shear.
type CutRequest struct {
	LengthMM     float64 // metal under the blade
	SpanMM       float64 // from the first to the last metal; 0: LengthMM
	OffSquareRad float64 // of a cut across a bar
	OnBar        bool    // the bar is held and the piece falls
	HeldMM       float64 // extent of the held piece square to the cut, when not on the bar
	OffcutMM     float64 // least width of what falls as scrap; 0: none falls
	StripMM      float64 // width of a strip that falls and is the work; 0: none, or a bar's end
	PieceMM      float64 // extent square to the cut of the piece that falls off a bar; 0 not looked at
}

// Shear judges a straight cut at a machine's shear for plate and flat bar. A
// machine without a shear fails under the rule "shear-row".
func Shear(prof *shop.Profile, m *shop.Machine, pc Piece, c CutRequest) Use {
	u := Use{Machine: m.Name, Station: "shear", Hits: 1}
	s := shearing{prof: prof, m: m, pc: pc, c: c, words: true}
	s.each(u.add)
	if st := m.Shear; st != nil && u.Grade() < Unknown {
		if a, ok := s.place(st); ok {
			u.Place = a.Text
		}
	}
	u.ForceKN, u.LimitKN = s.forceKN, s.limitKN
	return u
}

// ShearGrade is the grade of Shear, without its words and numbers: for setting
// many ways to cut a part against each other.
func ShearGrade(prof *shop.Profile, m *shop.Machine, pc Piece, c CutRequest) Grade {
	s := shearing{prof: prof, m: m, pc: pc, c: c}
	g := OK
	s.each(func(a Aspect, _ float64) { g = max(g, a.Grade) })
	return g
}

// shearing is a cut while it is judged. Without words its aspects have neither
// text nor basis, and nothing is formatted.
type shearing struct {
	prof  *shop.Profile
	m     *shop.Machine
	pc    Piece
	c     CutRequest
	words bool

	forceKN, limitKN float64 // of a station without rows
}

// each gives the aspects of the cut one by one, with the share of its limit.
func (s *shearing) each(put func(Aspect, float64)) {
	st, t := s.m.Shear, s.pc.ThicknessMM
	if st == nil {
		a := Aspect{Rule: "shear-row", Grade: Fail}
		if s.words {
			a.Text = s.m.Name + " has no shear"
		}
		put(a, 0)
		return
	}
	if a, ok := s.pc.missing(); !ok {
		put(a, 0)
		return
	}
	if !isSize(s.c.LengthMM) {
		put(noSize(), 0)
		return
	}
	if a, bad := hardened(s.pc); bad {
		put(a, 0)
	}
	if st.OpeningMM > 0 && !atMost(t, st.OpeningMM) {
		a := Aspect{Rule: "shear-row", Grade: Fail, Got: t, HasGot: true, Limit: st.OpeningMM, HasLimit: true, Unit: "mm"}
		if s.words {
			a.Text = fmt.Sprintf("%s does not go between the blades, they open %s", Length(s.prof, t), Length(s.prof, st.OpeningMM))
		}
		put(a, t/st.OpeningMM)
	}
	if len(st.Rows) > 0 {
		put(s.rows(st))
	} else {
		put(s.raked(st))
	}
	put(s.blade(st))
	if a, ok := s.place(st); ok {
		put(a, 0)
	}
	if s.c.OnBar && math.Abs(s.c.OffSquareRad) >= 1e-4 {
		put(s.mitre(st), 0)
	}
	put(s.hold(st), 0)
	if s.c.OffcutMM > 0 {
		put(s.sliver(), 0)
	}
	if a, ok := s.twist(); ok {
		put(a, 0)
	}
	if s.words {
		if a, ok := ShortPiece(s.prof, s.pc, false, s.c.PieceMM); ok {
			put(a, 0)
		}
	} else if a, ok := shortPiece(s.prof, t, false, s.c.PieceMM); ok {
		put(a, 0)
	}
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

// what names the cut.
func (s *shearing) what() string {
	return fmt.Sprintf("a cut of %s in %s %s", Length(s.prof, tenth(s.c.LengthMM)), Length(s.prof, s.pc.ThicknessMM), materialName(s.pc.Material))
}

// rows judges length and thickness by the rows.
func (s *shearing) rows(st *shop.ShearStation) (a Aspect, share float64) {
	t, l := s.pc.ThicknessMM, s.c.LengthMM
	S, up := s.pc.Material.ShearMPa, s.pc.upper()
	base := basisMPa(&st.Rating)
	te := equal(st, t, l, S)
	a = Aspect{Rule: "shear-row", Got: l, HasGot: true, Unit: "mm"}
	g, limit, row := rowGrade(st.Rows, te, l)
	a.Grade, a.Limit, a.HasLimit = g, limit, limit > 0
	if limit > 0 {
		share = l / limit
	}
	thick := 0.0
	if g == Fail && !(limit > 0) {
		for _, r := range st.Rows {
			thick = max(thick, r.ThicknessMM)
		}
		a.Got, a.Limit, a.HasLimit = te, thick, true
		share = te / thick
	}
	// Harder metal than the rows mean gets the second look at its upper strength.
	tight := false
	if g == OK && !atMost(S, base) && !atMost(up, S) {
		if ug, ul, _ := rowGrade(st.Rows, equal(st, t, l, up), l); ug != OK {
			tight = true
			a.Grade = Care
			a.Limit, a.HasLimit = ul, ul > 0
		}
	}
	if !s.words {
		return a, share
	}
	what := s.what()
	a.Basis = fmt.Sprintf("t = %s mm, L = %s mm", measure.FormatNumber(t, 3), measure.FormatNumber(l, 1))
	if te != t {
		model := "linear in the strength"
		if st.RakeRad > 0 {
			model = "same force at a rake of " + degrees(st.RakeRad)
		}
		a.Basis = fmt.Sprintf("t = %s mm at %s MPa is %s mm at %s MPa (%s), L = %s mm", measure.FormatNumber(t, 3), measure.FormatNumber(S, 0), measure.FormatNumber(te, 2), measure.FormatNumber(base, 0), model, measure.FormatNumber(l, 1))
	}
	as := ""
	if te > t {
		as = fmt.Sprintf(" (as %s of the rows' steel)", Length(s.prof, math.Round(te*100)/100))
	}
	switch {
	case tight:
		a.Text = fmt.Sprintf("%s is tight at the upper strength of %s", what, materialName(s.pc.Material))
		a.Basis += fmt.Sprintf("; at %s MPa it is %s mm", measure.FormatNumber(up, 0), measure.FormatNumber(equal(st, t, l, up), 2))
		a.Fix, a.FixBy = "use sharp blades, and stop if the machine stalls", "shop"
	case g == OK:
		a.Text = fmt.Sprintf("%s%s is covered by the row %s in %s", what, as, Length(s.prof, row.SizeMM), Length(s.prof, row.ThicknessMM))
	case g == Care:
		a.Text = fmt.Sprintf("%s%s lies between two rows: physics allows %s, no row covers it", what, as, Length(s.prof, math.Floor(limit*10)/10))
		a.Fix, a.FixBy = "try it on scrap first, with sharp blades", "shop"
	case limit > 0:
		a.Text = fmt.Sprintf("%s%s is beyond the rows, at most %s at this thickness%s", what, as, Length(s.prof, math.Floor(limit*10)/10), s.covered(st, te, limit))
	default:
		a.Text = fmt.Sprintf("%s%s is thicker than any row, at most %s", what, as, Length(s.prof, thick))
	}
	return a, share
}

// raked judges by force where a station has no rows: with its rake, or, where
// none is stated, as a parallel blade, which can only be too hard a test.
func (s *shearing) raked(st *shop.ShearStation) (a Aspect, share float64) {
	t, l, pc := s.pc.ThicknessMM, s.c.LengthMM, s.pc
	what := ""
	if s.words {
		what = s.what()
	}
	ld := load{rule: "shear-row", what: what, quiet: !s.words,
		nominalKN: RakedForceKN(t, l, st.RakeRad, pc.Material.ShearMPa), upperKN: RakedForceKN(t, l, st.RakeRad, pc.upper())}
	ld.usableKN, ld.known = usableKN(&st.Rating, 0)
	switch {
	case !s.words:
	case !(st.RakeRad > 0):
		ld.basis = fmt.Sprintf("parallel blade: %s mm x %s mm x %s MPa = %s kN", measure.FormatNumber(l, 1), measure.FormatNumber(t, 3), measure.FormatNumber(pc.Material.ShearMPa, 0), measure.FormatNumber(ld.nominalKN, 1))
	case l*math.Tan(st.RakeRad) >= t:
		ld.basis = fmt.Sprintf("%s MPa x (%s mm)^2 / (2 tan %s) = %s kN", measure.FormatNumber(pc.Material.ShearMPa, 0), measure.FormatNumber(t, 3), degrees(st.RakeRad), measure.FormatNumber(ld.nominalKN, 1))
	default:
		ld.basis = fmt.Sprintf("%s MPa x (%s x %s - %s^2 tan %s / 2) mm2 = %s kN", measure.FormatNumber(pc.Material.ShearMPa, 0), measure.FormatNumber(l, 1), measure.FormatNumber(t, 3), measure.FormatNumber(l, 1), degrees(st.RakeRad), measure.FormatNumber(ld.nominalKN, 1))
	}
	if s.words {
		ld.how = usableHow(&st.Rating, 0)
	}
	a, share = ld.judge(s.prof)
	if !(st.RakeRad > 0) && a.Grade == Fail {
		a.Grade = Unknown
		if s.words {
			a.Text = fmt.Sprintf("the shop file states no rows and no rake for this shear: %s cannot be judged", what)
		}
		share = 0
	}
	s.forceKN, s.limitKN = ld.nominalKN, ld.usableKN
	return a, share
}

func (s *shearing) blade(st *shop.ShearStation) (a Aspect, share float64) {
	span := max(s.c.SpanMM, s.c.LengthMM)
	blade := st.BladeMM
	if !(blade > 0) { // no longer than the longest row is known of it
		for _, r := range st.Rows {
			blade = max(blade, r.SizeMM)
		}
		if !(blade > 0) {
			return Aspect{Rule: "shear-row", Grade: Unknown, Got: span, HasGot: true, Unit: "mm", Text: "the shop file does not state how long the blade is"}, 0
		}
	}
	a = Aspect{Rule: "shear-row", Got: span, HasGot: true, Limit: blade, HasLimit: true, Unit: "mm"}
	fits := atMost(span, blade)
	if !fits {
		a.Grade = Fail
	}
	switch {
	case !s.words:
	case fits:
		a.Text = fmt.Sprintf("the blade of %s takes a cut of %s", Length(s.prof, blade), Length(s.prof, tenth(span)))
	default:
		a.Text = fmt.Sprintf("the cut is %s long, the blade %s", Length(s.prof, tenth(span)), Length(s.prof, blade))
	}
	return a, span / blade
}

// mitre judges the angle of a cut across the bar.
func (s *shearing) mitre(st *shop.ShearStation) Aspect {
	off := math.Abs(s.c.OffSquareRad)
	stated := st.MitreRad > 0
	a := Aspect{Rule: "mitre", Got: off * 180 / math.Pi, HasGot: true, Unit: "deg"}
	if st.MitreRad > 0 {
		a.Limit, a.HasLimit = st.MitreRad*180/math.Pi, true
		if !atMost(off, st.MitreRad) {
			a.Grade = Fail
		}
	}
	if !stated && !atMost(off, usualMitreRad) {
		a.Grade = Care
	}
	switch {
	case !s.words:
	case a.Grade == Care:
		a.Text = fmt.Sprintf("the bar is cut at %s off square, and the shop file does not state how far its table takes a mitre; 45 deg is usual", degrees(off))
		a.Fix, a.FixBy = "see that the table takes the angle, and state mitre in the shop file", "shop"
	case a.Grade == Fail:
		a.Text = fmt.Sprintf("the bar is cut at %s off square, the table takes at most %s", degrees(off), degrees(st.MitreRad))
	default:
		a.Text = fmt.Sprintf("the bar is cut at %s off square", degrees(off))
	}
	return a
}

// hold judges the metal that is under the hold-down: the bar, or the piece.
func (s *shearing) hold(st *shop.ShearStation) Aspect {
	c, prof := &s.c, s.prof
	if c.OnBar {
		return Aspect{Rule: "hold-down", Text: "the bar is held, the piece falls"}
	}
	reach, stated := st.HoldDownMM, true
	if !(reach > 0) {
		reach, stated = settingsOf(prof).value("hold-down", "assumed"), false
	}
	a := Aspect{Rule: "hold-down", Got: c.HeldMM, HasGot: true, Limit: reach, HasLimit: true, Unit: "mm"}
	enough := atMost(reach, c.HeldMM)
	switch {
	case enough:
	case !stated:
		a.Grade = Care
	default:
		a.Grade = Fail
	}
	if !s.words {
		return a
	}
	how := ""
	if !stated {
		how = " (assumed, the shop file states none)"
	}
	a.Basis = fmt.Sprintf("%s mm of the piece square to the cut; reach %s mm%s", measure.FormatNumber(c.HeldMM, 1), measure.FormatNumber(reach, 1), how)
	switch {
	case enough:
		a.Text = fmt.Sprintf("%s of the piece lie under the hold-down", Length(prof, tenth(c.HeldMM)))
	case !stated:
		a.Text = fmt.Sprintf("only %s of the piece lie under the hold-down, its reach is taken as %s%s", Length(prof, tenth(c.HeldMM)), Length(prof, reach), how)
		a.Fix, a.FixBy = "cut while the piece is on the bar, or see that the hold-down reaches it", "shop"
	default:
		a.Text = fmt.Sprintf("only %s of the piece lie under the hold-down, it reaches %s", Length(prof, tenth(c.HeldMM)), Length(prof, reach))
	}
	return a
}

// sliver judges the least width of what falls as scrap.
func (s *shearing) sliver() Aspect {
	c, prof, t := &s.c, s.prof, s.pc.ThicknessMM
	set := settingsOf(prof)
	bad := set.value("sliver", "error") * t
	care := max(set.value("sliver", "care")*t, set.value("sliver", "care-least"))
	a := Aspect{Rule: "sliver", Got: c.OffcutMM, HasGot: true, Limit: care, HasLimit: true, Unit: "mm"}
	switch {
	case !atMost(bad, c.OffcutMM):
		a.Grade, a.Limit = Fail, bad
	case !atMost(care, c.OffcutMM):
		a.Grade = Care
	}
	if !s.words {
		return a
	}
	a.Basis = fmt.Sprintf("offcut %s mm wide; error under %s mm, care under %s mm", measure.FormatNumber(c.OffcutMM, 2), measure.FormatNumber(bad, 2), measure.FormatNumber(care, 2))
	switch a.Grade {
	case Fail:
		a.Text = fmt.Sprintf("an offcut of %s wedges between the blades, at least %s", Length(prof, tenth(c.OffcutMM)), Length(prof, bad))
	case Care:
		a.Text = fmt.Sprintf("an offcut of %s is narrow, care under %s", Length(prof, tenth(c.OffcutMM)), Length(prof, care))
		a.Fix, a.FixBy = "clear the blades after the cut, with a tool, not by hand", "shop"
	default:
		a.Text = fmt.Sprintf("the offcut is %s wide", Length(prof, tenth(c.OffcutMM)))
	}
	return a
}
