package station

import (
	"math"
	"strings"
	"testing"

	"burrside/check/shop"
	"pgregory.net/rapid"
)

// The worst place of the engaged zone and the moments of rows about the pivot:
// rake 6 degrees, 150 mm from the pivot to the blade, 345 MPa. By hand, 16 x 200:
// F = 345 x 16^2 / (2 tan 6) = 420.1 kN at 150 + 200 - 76.1 = 273.9 mm, 115 kNm;
// 10 x 300: 164.1 kN at 402.4 mm, 66.0 kNm.
func TestRowMoments(t *testing.T) {
	rake := 6 * math.Pi / 180
	near(t, "place", WorstRadiusMM(150, 200, 16, rake), 273.9, 0.05)
	near(t, "16 x 200", RowMomentKNm(shop.Row{ThicknessMM: 16, SizeMM: 200}, 150, rake, 345), 115.1, 0.1)
	near(t, "10 x 300", RowMomentKNm(shop.Row{ThicknessMM: 10, SizeMM: 300}, 150, rake, 345), 66.0, 0.1)
	// Narrow thick bar: the whole cut is engaged, its middle counts.
	near(t, "narrow", WorstRadiusMM(150, 100, 25, rake), 200, 1e-9)
}

// raked is a shear whose heaviest row is 16 x 200, 115.1 kNm.
func raked(blade float64) *shop.Profile {
	p := yard()
	p.Machines[0].Shear = &shop.ShearStation{Rating: shop.Rating{BasisMPa: 345}, RakeRad: 6 * math.Pi / 180, PivotMM: 150, BladeMM: blade, HoldDownMM: 70,
		Rows: []shop.Row{{ThicknessMM: 16, SizeMM: 200}, {ThicknessMM: 10, SizeMM: 300}, {ThicknessMM: 6, SizeMM: 400}}}
	return p
}

// A cut that a row covers, but only near the pivot: 16 x 100 at the end of the
// blade is 420.1 kN x (150 + blade - 100/2) mm, which is 115.1 kNm with a blade of
// 173.9 mm. A blade no longer than the row is covered by it everywhere.
func TestPlaceOnTheBlade(t *testing.T) {
	at := func(p *shop.Profile, th, l float64) (Aspect, Use) {
		u := Shear(p, &p.Machines[0], Piece{th, mild()}, CutRequest{LengthMM: l, OnBar: true})
		return aspect(t, u, "shear-row"), u
	}
	placed := func(p *shop.Profile, th, l float64) string {
		a, u := at(p, th, l)
		wantGrade(t, "covered by a row", a.Grade, OK)
		return u.Place
	}
	a := saying(t, Shear(raked(400), &raked(400).Machines[0], Piece{16, mild()}, CutRequest{LengthMM: 100, OnBar: true}), "cut at the pivot end")
	if !strings.Contains(a.Text, "within 200 mm") || a.Limit > 115.2 || a.Limit < 115 {
		t.Errorf("%+v", a)
	}
	// 10 mm at the far end: 164.12 kN x (150 + blade - 95.14/2) passes 115.08 kNm
	// once the blade is longer than 598.7 mm.
	for _, c := range []struct {
		blade float64
		told  bool
	}{{598.6, false}, {598.7, false}, {598.8, true}} {
		if place := placed(raked(c.blade), 10, 200); (place != "") != c.told {
			t.Errorf("10 x 200 on a blade of %g: %q", c.blade, place)
		}
	}
	if place := placed(raked(200), 16, 100); place != "" {
		t.Errorf("the row is as long as the blade: %q", place)
	}
	for _, less := range []func(*shop.ShearStation){func(s *shop.ShearStation) { s.RakeRad = 0 }, func(s *shop.ShearStation) { s.PivotMM = 0 }} {
		p := raked(400)
		less(p.Machines[0].Shear)
		if place := placed(p, 16, 100); place != "" {
			t.Errorf("rake or pivot not stated: %q", place)
		}
	}
	// Beyond every row: the longest that one covers, and that no place helps.
	a, _ = at(raked(400), 16, 210)
	wantGrade(t, "16 x 210", a.Grade, Fail)
	if !strings.Contains(a.Text, "at most 200 mm") || !strings.Contains(a.Text, "at no other place on the blade") {
		t.Errorf("%q", a.Text)
	}
	a, _ = at(raked(400), 12, 290)
	if a.Grade != Fail || !strings.Contains(a.Text, "no row covers more than 200 mm, at the pivot end") {
		t.Errorf("%+v", a)
	}
	a, _ = at(raked(400), 16.2, 50)
	if a.Grade != Fail || !strings.Contains(a.Text, "thicker than any row") {
		t.Errorf("%+v", a)
	}
}

// Moments never let a cut pass that no row covers, whatever the pivot, and never
// fail one that a row does.
func TestMomentsNeverDecide(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := raked(rapid.Float64Range(400, 2000).Draw(rt, "blade"))
		st := p.Machines[0].Shear
		pc := Piece{rapid.Float64Range(2, 20).Draw(rt, "t"), mild()}
		c := CutRequest{LengthMM: rapid.Float64Range(10, 400).Draw(rt, "l"), OnBar: true}
		with := Shear(p, &p.Machines[0], pc, c)
		st.PivotMM = rapid.SampledFrom([]float64{0, 1, 50, 500, 5000}).Draw(rt, "pivot")
		without := Shear(p, &p.Machines[0], pc, c)
		trouble := func(u Use) Grade {
			if g := u.Grade(); g > Remark {
				return g
			}
			return OK
		}
		covered := false
		for _, r := range st.Rows {
			covered = covered || pc.ThicknessMM <= r.ThicknessMM && c.LengthMM <= r.SizeMM
		}
		if trouble(with) != trouble(without) || covered != (trouble(with) == OK) {
			rt.Fatalf("%v %v: %d and %d, covered %v", pc.ThicknessMM, c.LengthMM, with.Grade(), without.Grade(), covered)
		}
	})
}

// A narrow strip twists: 8 t, a note.
func TestTwist(t *testing.T) {
	p := yard()
	for _, c := range []struct {
		strip float64
		want  Grade
	}{{47.9, Remark}, {48, OK}, {48.1, OK}, {0, OK}} {
		wantGrade(t, "twist", Shear(p, &p.Machines[0], Piece{6, mild()}, CutRequest{LengthMM: 300, OnBar: true, StripMM: c.strip}).Grade(), c.want)
	}
}

// A table whose greatest mitre is not stated takes 45 degrees; more needs a look.
func TestMitreNotStated(t *testing.T) {
	p := yard()
	for _, c := range []struct {
		deg  float64
		want Grade
	}{{44.9, OK}, {45, OK}, {45.1, Care}, {-45.1, Care}} {
		u := Shear(p, &p.Machines[0], Piece{6, mild()}, CutRequest{LengthMM: 100, OnBar: true, OffSquareRad: c.deg * math.Pi / 180})
		wantGrade(t, "mitre", u.Grade(), c.want)
	}
}
