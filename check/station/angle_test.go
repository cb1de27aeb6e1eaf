package station

import (
	"math"
	"strings"
	"testing"

	"burrside/check/shop"
)

func angleShop(st shop.AngleStation) *shop.Machine { return &shop.Machine{Name: "one", Angle: &st} }

func equalLeg(leg, t, root float64) Section {
	return Section{LegMM: [2]float64{leg, leg}, ThicknessMM: t, RootMM: root}
}

// F = A S as an upper bound, strength of materials. L4x4x1/2, A = 3.75 in2 (AISC
// Table 1-7): 93.8 short tons at a shear strength of 50 ksi,
// 112.5 at 60 ksi.
func TestAngleShearForce(t *testing.T) {
	const in2, ksi = 25.4 * 25.4, 6.894757293168
	sec := Section{LegMM: [2]float64{101.6, 101.6}, ThicknessMM: 12.7, AreaMM2: 3.75 * in2}
	m := angleShop(shop.AngleStation{Rating: shop.Rating{BasisMPa: 60 * ksi}, MaxLegMM: 127, MaxThicknessMM: 12.7})
	for _, c := range []struct{ s, tons float64 }{{50, 93.75}, {60, 112.5}} {
		u := AngleShear(yard(), m, Piece{12.7, strong("plate", c.s*ksi, c.s*ksi)}, AngleCut{Section: sec})
		near(t, "tons", u.ForceKN/shortTonKN, c.tons, 0.05)
		wantGrade(t, "within the list", u.Grade(), OK)
	}
	// By the sharp corners of the legs the same section has 3.75 in2.
	sec.AreaMM2, sec.RootMM = 0, 1e-9
	near(t, "area", sec.Area()/in2, 3.75, 1e-6)
	// L100x100x10 of EN 10056-1: r1 12, 19.2 cm2 (toes rounded by 6 mm).
	s := equalLeg(100, 10, 12)
	near(t, "L100x100x10", s.Area(), 1920, 20)
}

func TestAngleShearLimits(t *testing.T) {
	st := shop.AngleStation{Rating: shop.Rating{BasisMPa: 345}, MaxLegMM: 100, MaxThicknessMM: 10, MitreRad: math.Pi / 4, MitreLegMM: 80, MitreThicknessMM: 8}
	deg := math.Pi / 180
	for _, c := range []struct {
		what    string
		a, b, t float64
		shear   float64
		off     [2]float64
		want    Grade
		rule    string
	}{
		{"just within", 100, 100, 10, 345, [2]float64{}, OK, "angle-shear"},
		{"at the limit, rounded", 100.00005, 100, 10, 345, [2]float64{}, OK, "angle-shear"},
		{"leg too wide", 100.1, 100.1, 10, 345, [2]float64{}, Fail, "angle-shear"},
		{"the longer leg counts", 60, 100.1, 8, 345, [2]float64{}, Fail, "angle-shear"},
		{"too thick", 100, 100, 10.1, 345, [2]float64{}, Fail, "angle-shear"},
		{"softer metal is no thicker", 100, 100, 10.1, 100, [2]float64{}, Fail, "angle-shear"},
		{"8 mm at 431.25 MPa is 10", 100, 100, 8, 431.25, [2]float64{}, OK, "angle-shear"},
		{"8 mm at 435 MPa is above 10", 100, 100, 8, 435, [2]float64{}, Fail, "angle-shear"},
		{"mitre at its limits", 80, 80, 8, 345, [2]float64{45 * deg, 0}, OK, "angle-mitre"},
		{"mitre too far", 80, 80, 8, 345, [2]float64{0, 45.2 * deg}, Fail, "angle-mitre"},
		{"mitre leg", 80.1, 80.1, 8, 345, [2]float64{30 * deg, 0}, Fail, "angle-mitre"},
		{"mitre thickness", 80, 80, 8.1, 345, [2]float64{30 * deg, 0}, Fail, "angle-mitre"},
		{"0.4 deg is square", 100, 100, 10, 345, [2]float64{0.4 * deg, 0}, OK, "angle-shear"},
		{"both legs off square", 50, 50, 5, 345, [2]float64{30 * deg, 30 * deg}, Fail, "angle-mitre"},
	} {
		s := Section{LegMM: [2]float64{c.a, c.b}, RootMM: 8}
		u := AngleShear(yard(), angleShop(st), Piece{c.t, strong("steel", c.shear, c.shear)}, AngleCut{Section: s, OffSquareRad: c.off})
		wantGrade(t, c.what, u.Grade(), c.want)
		if a := aspect(t, u, c.rule); a.Grade != c.want {
			t.Errorf("%s: %+v", c.what, a)
		}
	}
	cut := AngleCut{Section: equalLeg(100, 10, 12)}
	// At the upper strength the thickness of the list is passed: care; where the
	// station states its force, A S decides.
	hard := strong("S355", 350, 500)
	wantGrade(t, "upper strength", AngleShear(yard(), angleShop(st), Piece{9, hard}, cut).Grade(), Care)
	rated := st
	rated.UsableKN = 1000 // A S = 1736 mm2 x 500 MPa = 868 kN
	wantGrade(t, "rated", AngleShear(yard(), angleShop(rated), Piece{9, hard}, cut).Grade(), OK)
	rated.UsableKN = 700
	wantGrade(t, "rated too low for the second look", AngleShear(yard(), angleShop(rated), Piece{9, hard}, cut).Grade(), Care)
	// Too strong by the list, but the force is enough even so.
	rated.UsableKN = 1100
	wantGrade(t, "beyond the list", AngleShear(yard(), angleShop(rated), Piece{10, hard}, cut).Grade(), Care)
	// Square only.
	st.MitreRad = 0
	cut.OffSquareRad[0] = 0.3
	wantGrade(t, "no mitre", AngleShear(yard(), angleShop(st), Piece{5, mild()}, cut).Grade(), Fail)
	cut.OffSquareRad[0] = 0
	wantGrade(t, "no angle shear", AngleShear(yard(), &shop.Machine{Name: "one"}, Piece{5, mild()}, cut).Grade(), Fail)
	wantGrade(t, "no thickness", AngleShear(yard(), angleShop(st), Piece{0, mild()}, cut).Grade(), Unknown)
	wantGrade(t, "no steel", AngleShear(yard(), angleShop(st), Piece{5, nil}, cut).Grade(), Unknown)
	cut.LegMM[1] = 0
	wantGrade(t, "no leg", AngleShear(yard(), angleShop(st), Piece{5, mild()}, cut).Grade(), Unknown)
	cut.LegMM = [2]float64{80, 60}
	st.UnequalNeedsBlade = true
	wantGrade(t, "unequal", AngleShear(yard(), angleShop(st), Piece{5, mild()}, cut).Grade(), Remark)
	st.MitreRad, st.MitreOneWay = math.Pi/4, true
	cut.OffSquareRad[0], cut.Turned, cut.LegMM = 0.3, true, [2]float64{60, 60}
	st.MitreLegMM, st.MitreThicknessMM = 80, 8
	wantGrade(t, "turned", AngleShear(yard(), angleShop(st), Piece{5, mild()}, cut).Grade(), Care)
	cut.Turned = false
	wantGrade(t, "one way", AngleShear(yard(), angleShop(st), Piece{5, mild()}, cut).Grade(), OK)
}

// bench is a punch with all that a leg asks of it, and the tools for Ø18.
func legShop() (*shop.Profile, *shop.Machine) {
	p := yard()
	p.Punches = append(p.Punches, shop.Punch{Name: "Ø18", Shape: Round, WidthMM: 18, Dies: []shop.Die{{WidthMM: 19}}})
	m := &p.Machines[0]
	m.Punch.DieHalfMM, m.Punch.StripperHalfMM, m.Punch.LegUpMM = 32, 30, 100
	m.Punch.OffsetDie = &shop.OffsetDie{HalfMM: 14}
	return p, m
}

func legHole(leg, t, root, g, d float64) LegHole {
	return LegHole{Hole: round(d), Section: equalLeg(leg, t, root), GaugeMM: g, LegMM: leg, OtherMM: leg}
}

// L75x75x8, r 9, Ø18 at 45: the standard block 8 + 9 + 32 = 49 > 45 fouls, the
// offset die 8 + 9 + 14 = 31 passes: care, not error. Common practice, no source.
func TestLegWorkedCase(t *testing.T) {
	p, m := legShop()
	pc := Piece{8, mild()}
	u := PunchLeg(p, m, pc, legHole(75, 8, 9, 45, 18))
	a := aspect(t, u, "leg-clearance")
	wantGrade(t, "case", u.Grade(), Care)
	near(t, "got", a.Got, 45, 1e-9)
	near(t, "offset die needs", a.Limit, 31, 1e-9)
	if u.Lay != LayDown || u.Die != "offset die Ø19" || !strings.Contains(a.Fix, "offset die") {
		t.Errorf("%q %q %+v", u.Lay, u.Die, a)
	}
	m.Punch.OffsetDie = nil
	m.Punch.StripperHalfMM = 29 // 46 > 45
	u = PunchLeg(p, m, pc, legHole(75, 8, 9, 45, 18))
	wantGrade(t, "no offset die", u.Grade(), Fail)
	if a = aspect(t, u, "leg-clearance"); !strings.Contains(a.Text, "49 mm") || a.Fix != "drill it" {
		t.Errorf("%+v", a)
	}
	m.Punch.StripperHalfMM = 28
	u = PunchLeg(p, m, pc, legHole(75, 8, 9, 45, 18))
	wantGrade(t, "leg up", u.Grade(), Care)
	if u.Lay != LayUp || u.Die != "die Ø19" {
		t.Errorf("%q %q", u.Lay, u.Die)
	}
}

// Just below, at and just above each limit.
func TestLegLimits(t *testing.T) {
	for _, c := range []struct {
		what string
		g    float64
		want Grade
		lay  string
		set  func(*shop.PunchStation)
	}{
		{"standard at the limit", 49, OK, LayDown, nil},
		{"standard above", 49.1, OK, LayDown, nil},
		{"standard below: offset", 48.9, Care, LayDown, nil},
		{"offset at the limit", 31, Care, LayDown, nil},
		{"all foul", 30.9, Fail, "", nil},
		{"stripper at the limit", 47, Care, LayUp, func(s *shop.PunchStation) { s.OffsetDie = nil }},
		{"stripper below", 46.9, Fail, "", func(s *shop.PunchStation) { s.OffsetDie = nil }},
		{"height at the limit", 47, Care, LayUp, func(s *shop.PunchStation) { s.OffsetDie, s.LegUpMM = nil, 67 }},
		{"leg too high", 47, Fail, "", func(s *shop.PunchStation) { s.OffsetDie, s.LegUpMM = nil, 66.9 }},
		// A missing datum is never a pass.
		{"height not stated", 47, Unknown, "", func(s *shop.PunchStation) { s.OffsetDie, s.LegUpMM = nil, 0 }},
		{"die not stated", 47, Unknown, "", func(s *shop.PunchStation) { s.OffsetDie, s.LegUpMM, s.DieHalfMM = nil, 0, 0 }},
		{"stripper not stated", 48, Unknown, "", func(s *shop.PunchStation) { s.OffsetDie, s.StripperHalfMM = nil, 0 }},
		{"nothing stated", 60, Unknown, "", func(s *shop.PunchStation) { s.OffsetDie, s.StripperHalfMM, s.DieHalfMM = nil, 0, 0 }},
		{"offset die with no room for the hole", 47.5, Care, LayUp, func(s *shop.PunchStation) { s.OffsetDie.HalfMM = 12.9 }},
		{"offset die with room", 47.5, Care, LayDown, func(s *shop.PunchStation) { s.OffsetDie.HalfMM = 13 }},
		{"offset die too weak", 40, Fail, "", func(s *shop.PunchStation) { s.OffsetDie.ForceKN = 156 }}, // pi 18 x 8 x 345 = 156.1 kN
		{"offset die strong enough", 40, Care, LayDown, func(s *shop.PunchStation) { s.OffsetDie.ForceKN = 157 }},
		{"throat", 49, Fail, "", func(s *shop.PunchStation) { s.ThroatMM = 20 }},
		{"throat, heel inward", 49.5, Fail, "", func(s *shop.PunchStation) { s.ThroatMM, s.DieHalfMM, s.OffsetDie = 24, 0, nil }},
	} {
		p, m := legShop()
		if c.set != nil {
			c.set(m.Punch)
		}
		u := PunchLeg(p, m, Piece{8, mild()}, legHole(75, 8, 9, c.g, 18))
		wantGrade(t, c.what, u.Grade(), c.want)
		if c.lay != "" && u.Lay != c.lay {
			t.Errorf("%s: %q", c.what, u.Lay)
		}
	}
}

// An unknown root passes only where its bound is cleared: 2.5 t, or a fifth of
// the leg where that is less: 15 mm for 75 x 8.
func TestLegRootUnknown(t *testing.T) {
	p, m := legShop()
	m.Punch.OffsetDie = nil
	m.Punch.StripperHalfMM = 32
	for g, want := range map[float64]Grade{55: OK, 54.9: Unknown, 40: Unknown, 39.9: Fail} {
		u := PunchLeg(p, m, Piece{8, mild()}, legHole(75, 8, 0, g, 18))
		wantGrade(t, "root unknown", u.Grade(), want)
	}
	// The table's distance comes before t + r.
	h := legHole(75, 8, 9, 47.9, 18)
	h.ToRootMM = 15.9
	wantGrade(t, "by table", PunchLeg(p, m, Piece{8, mild()}, h).Grade(), OK)
	// A hole of several hits counts by the one nearest to the heel.
	h = legHole(75, 8, 9, 60, 18)
	h.NearMM = 40
	wantGrade(t, "near hit", PunchLeg(p, m, Piece{8, mild()}, h).Grade(), Fail)
	wantGrade(t, "no thickness", PunchLeg(p, m, Piece{0, mild()}, h).Grade(), Unknown)
	h.OtherMM = 0
	wantGrade(t, "no leg", PunchLeg(p, m, Piece{8, mild()}, h).Grade(), Unknown)
}
