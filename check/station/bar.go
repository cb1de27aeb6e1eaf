package station

import (
	"fmt"
	"math"

	"burrside/check/shop"
	"burrside/features/measure"
)

// BarCut is one cut through a round or square bar. The size is the piece's
// thickness.
type BarCut struct {
	Shape        string  // Round or Square
	OffSquareRad float64 // of the cut, 0 square
}

// BarArea is the section of a round or square bar, mm2. Plane geometry.
func BarArea(shape string, sizeMM float64) float64 { return sectionArea(shape, sizeMM, sizeMM) }

// BarShear judges a cut at the bar shears of a machine. The best cavity is
// taken. A x S is an upper bound of the force, as the bar breaks before it is
// cut through; the row, that is the cavity's size, comes first. A machine
// without such a shear fails under "bar-shear".
func BarShear(prof *shop.Profile, m *shop.Machine, pc Piece, c BarCut) Use {
	what := c.Shape + " bar"
	var stations []*shop.BarStation
	for i := range m.Bars {
		if m.Bars[i].Shape == c.Shape {
			stations = append(stations, &m.Bars[i])
		}
	}
	if len(stations) == 0 {
		u := Use{Machine: m.Name, Station: what + " shear", Hits: 1}
		u.add(Aspect{Rule: "bar-shear", Grade: Fail, Text: fmt.Sprintf("%s has no shear for %s", m.Name, what)}, 0)
		return u
	}
	var best *Use
	for _, st := range stations {
		u := Use{Machine: m.Name, Station: what + " shear", Hits: 1}
		u.addBar(prof, st, pc, c)
		if best == nil || better(&u, best) {
			best = &u
		}
	}
	return *best
}

func (u *Use) addBar(prof *shop.Profile, st *shop.BarStation, pc Piece, c BarCut) {
	if a, ok := pc.missing(); !ok {
		if a.Rule == "thickness-missing" {
			a.Text = "the size of the bar is not known"
		}
		u.add(a, 0)
		return
	}
	if a, bad := hardened(pc); bad {
		u.add(a, 0)
	}
	if off := math.Abs(c.OffSquareRad); off > squareRad {
		u.add(squareOnly("bar-shear", "bar", off), 0)
	}
	d := pc.ThicknessMM
	cavities := st.CavitiesMM
	if len(cavities) == 0 {
		cavities = []float64{st.MaxMM}
	}
	largest := cavities[len(cavities)-1]
	if !atMost(d, largest) {
		u.add(Aspect{Rule: "bar-shear", Grade: Fail, Got: d, HasGot: true, Limit: largest, HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("%s is larger than the largest cavity, %s", barName(prof, c.Shape, d), Length(prof, largest))}, d/largest)
		return
	}
	var best *cavityUse
	for _, size := range cavities {
		if !atMost(d, size) {
			continue
		}
		v := cavity(prof, st, pc, c.Shape, size, len(st.CavitiesMM) > 0)
		if best == nil || v.grade() < best.grade() {
			best = &v
		}
	}
	u.Tool = best.tool
	u.ForceKN, u.LimitKN = best.forceKN, best.limitKN
	u.add(best.force, best.share)
	u.add(best.slack, 0)
}

// cavityUse is a bar in one cavity.
type cavityUse struct {
	force, slack     Aspect
	share            float64
	forceKN, limitKN float64
	tool             string
}

func (v *cavityUse) grade() Grade { return max(v.force.Grade, v.slack.Grade) }

// cavity judges a bar that goes into a cavity. Where each cavity is a row, it
// promises its own size in the rows' steel and no more force than that; where
// one force governs, that of the station.
func cavity(prof *shop.Profile, st *shop.BarStation, pc Piece, shape string, size float64, stated bool) cavityUse {
	d, S, up, base := pc.ThicknessMM, pc.Material.ShearMPa, pc.upper(), basisMPa(&st.Rating)
	name := barName(prof, shape, d)
	area := BarArea(shape, d)
	v := cavityUse{forceKN: S * area / 1000}
	if stated {
		v.tool = "cavity " + Length(prof, size)
	}
	upper := up * area / 1000
	a := Aspect{Rule: "bar-shear", Got: v.forceKN, HasGot: true, Unit: "kN"}
	a.Basis = fmt.Sprintf("A x S = %s mm2 x %s MPa = %s kN at most", measure.FormatNumber(area, 1), measure.FormatNumber(S, 0), measure.FormatNumber(v.forceKN, 1))
	row := BarArea(shape, size) * base / 1000
	limit, how := row, fmt.Sprintf("row of %s at %s MPa", Length(prof, size), measure.FormatNumber(base, 0))
	if st.ByForce {
		limit, how = usableBar(st)
	}
	known := limit > 0
	switch {
	case !known:
		a.Grade = Unknown
		a.Text = fmt.Sprintf("%s in %s needs %s at most, but the shop file states no force for this station", name, materialName(pc.Material), Force(prof, v.forceKN))
	default:
		a.Limit, a.HasLimit = limit, true
		a.Basis += fmt.Sprintf("; usable %s kN (%s)", measure.FormatNumber(limit, 1), how)
		v.share, v.limitKN = v.forceKN/limit, limit
		switch {
		case !st.ByForce && atMost(S, base): // the row covers size and steel
			a.Text = fmt.Sprintf("%s is covered by the row of %s", name, Length(prof, size))
			v.share = min(v.share, 1)
		case !atMost(v.forceKN, limit):
			a.Grade = Fail
			a.Text = fmt.Sprintf("%s in %s needs %s at most, only %s may be used", name, materialName(pc.Material), Force(prof, v.forceKN), Force(prof, limit))
		case !atMost(upper, limit):
			a.Grade = Care
			a.Text = fmt.Sprintf("%s needs %s, tight at the upper strength of %s: %s of %s", name, Force(prof, v.forceKN), materialName(pc.Material), Force(prof, upper), Force(prof, limit))
			a.Basis += fmt.Sprintf("; at the upper strength %s kN", measure.FormatNumber(upper, 1))
			a.Fix, a.FixBy = "use sharp blades, and stop if the machine stalls", "shop"
		default:
			a.Text = fmt.Sprintf("%s needs at most %s of %s (%s)", name, Force(prof, v.forceKN), Force(prof, limit), percent(v.share))
		}
	}
	v.force = a

	most := settingsOf(prof).value("bar-shear", "slack")
	slack := size - d
	s := Aspect{Rule: "bar-shear"}
	switch {
	case !stated:
		s.Grade = Remark
		s.Text = "the shop file names no cavities: see that the bar does not lie loose in the blade"
	case !atMost(slack, most):
		s.Grade, s.Got, s.HasGot, s.Limit, s.HasLimit, s.Unit = Care, slack, true, most, true, "mm"
		s.Text = fmt.Sprintf("%s lies loose in the cavity of %s, by %s, at most %s: the end bends and the burr is heavy", name, Length(prof, size), Length(prof, slack), Length(prof, most))
		s.Basis = fmt.Sprintf("%s - %s = %s mm", measure.FormatNumber(size, 2), measure.FormatNumber(d, 2), measure.FormatNumber(slack, 2))
		s.Fix, s.FixBy = "hold the bar down close to the blade, and straighten and deburr the end, or saw it", "shop"
	default:
		s.Text = fmt.Sprintf("the cavity of %s holds it", Length(prof, size))
	}
	v.slack = s
	return v
}

// usableBar is the force that governs a bar shear's cavities, 0 if not known.
func usableBar(st *shop.BarStation) (kn float64, how string) {
	kn, how, _ = usable(&st.Rating, 0)
	return kn, how
}

// barName names a bar: "round bar Ø25 mm", "square bar 20 mm".
func barName(prof *shop.Profile, shape string, d float64) string {
	if shape == Round {
		return "round bar Ø" + Length(prof, d)
	}
	return shape + " bar " + Length(prof, d)
}

// squareOnly refuses a mitre where a station cuts square to the length.
func squareOnly(rule, what string, off float64) Aspect {
	return Aspect{Rule: rule, Grade: Fail,
		Text: fmt.Sprintf("the %s shear cuts square only, not %s off square", what, degrees(off))}
}
