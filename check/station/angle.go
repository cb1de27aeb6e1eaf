package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// Section is the cross section of an angle. 0 is not known.
type Section struct {
	LegMM       [2]float64
	ThicknessMM float64
	RootMM      float64 // radius of the fillet inside
	ToRootMM    float64 // from the outside of the heel to the toe of the fillet
	AreaMM2     float64
}

// Root gives the distance from the outside of the heel to where the flat inside
// of a leg begins: the table's, else t + r. Where neither is known it is a bound
// that no listed angle passes, known false: t + min(2.5 t, 1/5 of the longer
// leg). Of the 441 angles of EN 10056-1, the mills' range and the AISC table
// the largest root is 2.33 t (L45x45x3) and 0.175 of the leg (L20x20x3).
func (s *Section) Root() (mm float64, known bool) {
	switch {
	case s.ToRootMM > 0:
		return s.ToRootMM, true
	case s.RootMM > 0:
		return s.ThicknessMM + s.RootMM, true
	}
	return s.ThicknessMM + min(2.5*s.ThicknessMM, max(s.LegMM[0], s.LegMM[1])/5), false
}

// Area is the area of the section, else that of its two legs with a fillet of
// the root radius: t (a + b - t) + (1 - pi/4) r^2, a little above the true one,
// as the toes are rounded. Source: EN 10056-1, sum of the parts.
func (s *Section) Area() float64 {
	if s.AreaMM2 > 0 {
		return s.AreaMM2
	}
	root, _ := s.Root()
	r := max(root-s.ThicknessMM, 0)
	return float64(s.ThicknessMM*(s.LegMM[0]+s.LegMM[1]-s.ThicknessMM)) + float64((1-math.Pi/4)*r*r)
}

// unequal tells whether the legs differ by more than their tolerance in rolling.
func (s *Section) unequal() bool { return math.Abs(s.LegMM[0]-s.LegMM[1]) > 1 }

// text writes a section: "75 x 75 x 8 mm".
func (s *Section) text(prof *shop.Profile) string {
	n := func(v float64) string {
		if prof.Units == "in" {
			return measure.FormatLength(v, "in")
		}
		return measure.FormatNumber(v, 2)
	}
	t := n(s.LegMM[0]) + " x " + n(s.LegMM[1]) + " x " + n(s.ThicknessMM)
	if prof.Units != "in" {
		t += " mm"
	}
	return t
}

// AngleCut is one cut through both legs of an angle.
type AngleCut struct {
	Section
	OffSquareRad [2]float64 // of the cut in each leg, 0 square
	Turned       bool       // the other end is mitred too, to the other side
}

// AngleShear judges a cut at a machine's angle shear: the largest section of
// its list first, other steels by their strength. A machine without one fails
// under "angle-shear".
func AngleShear(prof *shop.Profile, m *shop.Machine, pc Piece, c AngleCut) Use {
	u := Use{Machine: m.Name, Station: "angle shear", Hits: 1}
	st := m.Angle
	if st == nil {
		u.add(Aspect{Rule: "angle-shear", Grade: Fail, Text: m.Name + " has no angle shear"}, 0)
		return u
	}
	if a, ok := pc.missing(); !ok {
		u.add(a, 0)
		return u
	}
	c.ThicknessMM = pc.ThicknessMM
	if !isSize(c.LegMM[0]) || !isSize(c.LegMM[1]) {
		u.add(Aspect{Rule: "reading-doubt", Grade: Unknown, Text: "the width of a leg is not known"}, 0)
		return u
	}
	if a, bad := hardened(pc); bad {
		u.add(a, 0)
	}
	off := max(c.OffSquareRad[0], c.OffSquareRad[1])
	mitred := off > squareRad
	leg, thick, rule := st.MaxLegMM, st.MaxThicknessMM, "angle-shear"
	if mitred {
		u.addMitre(prof, st, &c, off)
		if st.MitreRad > 0 {
			leg, thick, rule = st.MitreLegMM, st.MitreThicknessMM, "angle-mitre"
		}
	}
	u.addSection(prof, st, pc, &c, rule, leg, thick)
	if st.UnequalNeedsBlade && c.unequal() {
		u.add(Aspect{Rule: "angle-shear", Grade: Remark, Text: "unequal legs: the angle shear needs the blade for them",
			Fix: "change to the blade for unequal legs", FixBy: "shop"}, 0)
	}
	return u
}

// squareRad is how far off square a cut is still square; half a degree, what a
// fence holds.
const squareRad = 0.5 * math.Pi / 180

// addMitre judges the angle of a mitre.
func (u *Use) addMitre(prof *shop.Profile, st *shop.AngleStation, c *AngleCut, off float64) {
	a := Aspect{Rule: "angle-mitre", Got: off * 180 / math.Pi, HasGot: true, Unit: "deg"}
	if st.MitreRad > 0 {
		a.Limit, a.HasLimit = st.MitreRad*180/math.Pi, true
	}
	share := 0.0
	switch {
	case min(c.OffSquareRad[0], c.OffSquareRad[1]) > squareRad:
		a.Grade = Fail
		a.Text = fmt.Sprintf("both legs are cut off square, by %s and %s: an angle shear mitres one leg and leaves the other square", degrees(c.OffSquareRad[0]), degrees(c.OffSquareRad[1]))
		a.Got, a.Limit, a.HasGot, a.HasLimit, a.Unit = 0, 0, false, false, ""
	case !(st.MitreRad > 0):
		a.Grade = Fail
		a.Text = fmt.Sprintf("the angle shear cuts square only, not %s off square", degrees(off))
	case !atMost(off, st.MitreRad):
		a.Grade = Fail
		a.Text = fmt.Sprintf("a mitre of %s, the angle shear goes to %s", degrees(off), degrees(st.MitreRad))
		share = off / st.MitreRad
	default:
		share = off / st.MitreRad
		a.Text = fmt.Sprintf("a mitre of %s, the angle shear goes to %s", degrees(off), degrees(st.MitreRad))
		if st.MitreOneWay && c.Turned {
			a.Grade = Care
			a.Text = "the ends are mitred to both sides, the angle shear mitres to one side only"
			a.Got, a.Limit, a.HasGot, a.HasLimit, a.Unit = 0, 0, false, false, ""
			a.Fix, a.FixBy = "turn the bar end for end for the second mitre", "shop"
		}
	}
	u.add(a, share)
}

// addSection sets the section against the largest one that the station takes.
// A x S is an upper bound of the force, as the blade goes through progressively:
// it lets pass with care what the list refuses for its strength alone, and
// refuses nothing that the list takes.
func (u *Use) addSection(prof *shop.Profile, st *shop.AngleStation, pc Piece, c *AngleCut, rule string, maxLeg, maxThick float64) {
	S, up, base := pc.Material.ShearMPa, pc.upper(), basisMPa(&st.Rating)
	t, leg, area := pc.ThicknessMM, max(c.LegMM[0], c.LegMM[1]), c.Area()
	u.ForceKN = S * area / 1000
	usable, how, known := usable(&st.Rating, 0)
	u.LimitKN = usable
	name := c.text(prof)
	basis := fmt.Sprintf("A x S = %s mm2 x %s MPa = %s kN at most", measure.FormatNumber(area, 0), measure.FormatNumber(S, 0), measure.FormatNumber(u.ForceKN, 1))
	if known {
		basis += fmt.Sprintf("; usable %s kN (%s)", measure.FormatNumber(usable, 1), how)
	}
	what := "an angle"
	if rule == "angle-mitre" {
		what = "a mitre through an angle"
	}
	legs := Aspect{Rule: rule, Got: leg, HasGot: true, Limit: maxLeg, HasLimit: true, Unit: "mm",
		Text: fmt.Sprintf("%s with a leg of %s, the shear takes %s", what, Length(prof, leg), Length(prof, maxLeg))}
	if !atMost(leg, maxLeg) {
		legs.Grade = Fail
	}
	u.add(legs, leg/maxLeg)

	te := max(t, t*S/base)
	a := Aspect{Rule: rule, Got: te, HasGot: true, Limit: maxThick, HasLimit: true, Unit: "mm", Basis: basis}
	as := ""
	if te > t+1e-9 {
		as = fmt.Sprintf(" (as %s of the list's steel)", Length(prof, math.Round(te*100)/100))
		a.Basis = fmt.Sprintf("t = %s mm x %s / %s MPa = %s mm; ", measure.FormatNumber(t, 3), measure.FormatNumber(S, 0), measure.FormatNumber(base, 0), measure.FormatNumber(te, 2)) + basis
	}
	upper := up * area / 1000
	switch {
	case !atMost(t, maxThick):
		a.Grade, a.Got = Fail, t
		a.Text = fmt.Sprintf("%s %s is thicker than the %s that the shear takes", what, name, Length(prof, maxThick))
	case !atMost(te, maxThick) && known && atMost(upper, usable):
		a.Grade = Care
		a.Text = fmt.Sprintf("%s %s%s is beyond the largest section of the list, but needs at most %s of %s", what, name, as, Force(prof, upper), Force(prof, usable))
		a.Fix, a.FixBy = "try it on scrap first, with sharp blades", "shop"
	case !atMost(te, maxThick):
		a.Grade = Fail
		a.Text = fmt.Sprintf("%s %s%s is too strong for the shear, it takes %s", what, name, as, Length(prof, maxThick))
	case !atMost(S, base) && !atMost(max(t, t*up/base), maxThick) && !(known && atMost(upper, usable)):
		a.Grade = Care
		a.Text = fmt.Sprintf("%s %s%s is tight at the upper strength of %s", what, name, as, materialName(pc.Material))
		a.Fix, a.FixBy = "use sharp blades, and stop if the machine stalls", "shop"
	default:
		a.Text = fmt.Sprintf("%s %s%s is within the largest section, leg %s, thickness %s", what, name, as, Length(prof, maxLeg), Length(prof, maxThick))
	}
	u.add(a, te/maxThick)
}
