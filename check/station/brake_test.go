package station

import (
	"math"
	"strings"
	"testing"

	"burrside/check/shop"
)

// brake is one of 200 kN, 180 of them usable, 300 mm long, with a stroke of 60 mm.
func brake(v ...float64) *shop.Profile {
	p := yard()
	p.Machines[0].Brake = &shop.BrakeStation{Rating: shop.Rating{ForceKN: 5000, UsableKN: 5000}, LengthMM: 300, VMM: v, StrokeMM: 60}
	return p
}

func bendAt(p *shop.Profile, th float64, m *shop.Material, b BendRequest) Use {
	return Bend(p, &p.Machines[0], Piece{th, m}, b)
}

// saying is the aspect whose text holds words.
func saying(t *testing.T, u Use, words string) Aspect {
	t.Helper()
	for _, a := range u.Aspects {
		if strings.Contains(a.Text, words) {
			return a
		}
	}
	t.Fatalf("nothing says %q: %+v", words, u.Aspects)
	return Aspect{}
}

const square = math.Pi / 2

// The way down of a right angle over V is V/2 tan 45 = V/2 of straight legs
// (plane geometry), and 3 mm clear; the stroke shortens toward the pivot as the
// distance does.
func TestBendStroke(t *testing.T) {
	p := brake(50)
	p.Machines[0].Brake.PivotMM, p.Machines[0].Brake.PivotRefMM = 300, 600
	at := func(stroke float64) Grade {
		p.Machines[0].Brake.StrokeMM = stroke
		return saying(t, bendAt(p, 6, mild(), BendRequest{LengthMM: 100, FlangeMM: 60, AngleRad: square, RadiusMM: 0}), "the tool goes").Grade
	}
	// Half the distance leaves half the stroke: 56 mm give the 28 that are needed.
	wantGrade(t, "below", at(55.9), Fail)
	wantGrade(t, "at", at(56), OK)
	wantGrade(t, "above", at(56.1), OK)
	wantGrade(t, "not stated", at(0), Care)
	near(t, "by 60 degrees", BendDepthMM(50, math.Pi/3), 14.434, 0.001) // 25 tan 30
	p.Machines[0].Brake.LengthMM = 0
	wantGrade(t, "length not stated", bendAt(p, 6, mild(), BendRequest{LengthMM: 100, FlangeMM: 60, AngleRad: square, RadiusMM: 0}).Grade(), Unknown)
}

// The tool at half the distance from the pivot gives twice the force (statics of
// a lever): 3 x 200 kN at 600 mm are 400 kN at 300.
func TestBendMoment(t *testing.T) {
	near(t, "lever", MomentForceKN(200, 600, 300), 400, 1e-9)
	p := brake(50)
	f := AirBendForceKN(1.6, 450, 300, 6, 50)
	b := p.Machines[0].Brake
	b.PivotMM, b.PivotRefMM, b.StrokeMM = 800, 600, 60
	for _, c := range []struct {
		share float64
		want  Grade
	}{{0.999, Care}, {1, OK}, {1.001, OK}} {
		b.UsableKN = f * c.share * 800 / 600
		b.ForceKN = b.UsableKN
		wantGrade(t, "force further out", saying(t, bendAt(p, 6, mild(), BendRequest{LengthMM: 300, FlangeMM: 60, AngleRad: square, RadiusMM: 0}), "a bend of").Grade, c.want)
	}
}

func TestBendRadius(t *testing.T) {
	near(t, "V 48", AirBendRadiusMM(48), 8, 1e-9)
	s355 := strong("S355", 430, 504)
	s355.Group = "high-strength"
	// 1.5 t of stronger steel: 6 mm want 9 mm, V 54.
	for _, c := range []struct {
		v    float64
		want Grade
	}{{53.9, Care}, {54, OK}, {54.1, OK}} {
		wantGrade(t, "least radius", saying(t, bendAt(brake(c.v), 6, s355, BendRequest{LengthMM: 100, FlangeMM: 60, AngleRad: square, RadiusMM: 0}), "inside radius").Grade, c.want)
	}
	// A note of R8: V/6 may be 2 mm off, a quarter of it.
	for _, c := range []struct {
		v    float64
		want Grade
	}{{35.9, Care}, {36, OK}, {36.1, OK}, {59.9, OK}, {60, OK}, {60.1, Care}} {
		a := saying(t, bendAt(brake(c.v), 6, mild(), BendRequest{LengthMM: 100, FlangeMM: 60, AngleRad: square, RadiusMM: 8}), "asked for")
		wantGrade(t, "radius of a note", a.Grade, c.want)
	}
	// Of two dies the one that gives the radius of the note.
	if u := bendAt(brake(48, 80), 6, mild(), BendRequest{LengthMM: 100, FlangeMM: 60, AngleRad: square, RadiusMM: 13}); u.Die != "V 80 mm" {
		t.Errorf("R13 over %s", u.Die)
	}
	// R2.9 in 6 mm mild is under t/2.
	for _, c := range []struct {
		r    float64
		want Grade
	}{{2.9, Care}, {3, OK}, {3.1, OK}} {
		p := brake(24)
		p.Settings = map[string]map[string]float64{"bend": {"radius-fit": 1}}
		u := bendAt(p, 6, mild(), BendRequest{LengthMM: 100, FlangeMM: 60, AngleRad: square, RadiusMM: c.r})
		wantGrade(t, "sharp", u.Aspects[4].Grade, c.want)
	}
}

func TestBendAngle(t *testing.T) {
	deg := math.Pi / 180
	for _, c := range []struct{ noted, by float64 }{{0, 90}, {90, 90}, {45, 135}, {135, 135}, {89, 91}} {
		near(t, "angle", BendAngle(c.noted*deg)/deg, c.by, 1e-9)
	}
	for _, c := range []struct {
		noted float64
		want  Grade
	}{{0, Care}, {90, OK}, {89, OK}, {91, OK}, {88.9, Care}, {91.1, Care}} {
		wantGrade(t, "angle", bendAt(brake(50), 6, mild(), BendRequest{LengthMM: 100, FlangeMM: 60, AngleRad: c.noted * deg, RadiusMM: 0}).Grade(), c.want)
	}
}
