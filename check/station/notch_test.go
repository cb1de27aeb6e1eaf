package station

import (
	"math"
	"strings"
	"testing"

	"burrside/check/shop"
)

func notched(p *shop.Profile, th float64, n NotchRequest) Use {
	return Notch(p, &p.Machines[0], Piece{th, mild()}, n)
}

// A tool wider than the notch cannot make it: 60 x 40 with a tool 80 x 60 fails,
// where ceil((60 - 80) / (80 - 3)) + 1 would say one bite.
func TestNotchTools(t *testing.T) {
	p := yard()
	deg := math.Pi / 180
	for _, c := range []struct {
		what string
		n    NotchRequest
		want Grade
		hits int
	}{
		{"60 x 40", NotchRequest{Shape: NotchRectangular, WidthMM: 60, DepthMM: 40}, Fail, 0},
		{"80 x 60", NotchRequest{Shape: NotchRectangular, WidthMM: 80, DepthMM: 60}, Remark, 1},
		{"79.5 x 60", NotchRequest{Shape: NotchRectangular, WidthMM: 79.5, DepthMM: 60}, Remark, 1},
		{"79.4 x 60", NotchRequest{Shape: NotchRectangular, WidthMM: 79.4, DepthMM: 60}, Fail, 0},
		{"80 x 60.1", NotchRequest{Shape: NotchRectangular, WidthMM: 80, DepthMM: 60.1}, Fail, 0},
		{"157 x 40", NotchRequest{Shape: NotchRectangular, WidthMM: 157, DepthMM: 40}, Remark, 2}, // 77 of 80 mm on one side
		{"157.1 x 40", NotchRequest{Shape: NotchRectangular, WidthMM: 157.1, DepthMM: 40}, Remark, 3},
		{"100 x 40", NotchRequest{Shape: NotchRectangular, WidthMM: 100, DepthMM: 40}, Care, 2}, // 20 of 80 mm on one side
		{"119.9 x 40", NotchRequest{Shape: NotchRectangular, WidthMM: 119.9, DepthMM: 40}, Care, 2},
		{"120 x 40", NotchRequest{Shape: NotchRectangular, WidthMM: 120, DepthMM: 40}, Remark, 2},
		{"corner 100 x 90", NotchRequest{Shape: NotchCorner, WidthMM: 100, DepthMM: 90}, Fail, 0},
		{"corner 60 x 60", NotchRequest{Shape: NotchCorner, WidthMM: 60, DepthMM: 60}, Remark, 1},
		{"corner 90 x 60", NotchRequest{Shape: NotchCorner, WidthMM: 60, DepthMM: 90}, Remark, 2},
		{"corner 30 x 20", NotchRequest{Shape: NotchCorner, WidthMM: 30, DepthMM: 20}, Care, 1},
		{"corner 40 x 20", NotchRequest{Shape: NotchCorner, WidthMM: 40, DepthMM: 20}, Remark, 1},
		{"vee 60", NotchRequest{Shape: NotchVee, WidthMM: 2 * 20 * math.Tan(30*deg), DepthMM: 20, IncludedRad: 60 * deg}, Fail, 0},
		{"vee 90", NotchRequest{Shape: NotchVee, WidthMM: 40, DepthMM: 20, IncludedRad: 90 * deg}, Remark, 1},
		{"vee 120", NotchRequest{Shape: NotchVee, WidthMM: 2 * 20 * math.Tan(60*deg), DepthMM: 20, IncludedRad: 120 * deg}, Care, 2},
		{"vee 90 too deep", NotchRequest{Shape: NotchVee, WidthMM: 122, DepthMM: 61, IncludedRad: 90 * deg}, Fail, 0},
		{"vee skew", NotchRequest{Shape: NotchVee, WidthMM: 50, DepthMM: 20, IncludedRad: 90 * deg}, Care, 1},
		{"undercut", NotchRequest{Shape: NotchRectangular, WidthMM: 80, DepthMM: 40, Undercut: true}, Fail, 0},
		{"round", NotchRequest{Shape: "round", WidthMM: 80, DepthMM: 40}, Fail, 0},
		{"stepped", NotchRequest{Shape: NotchStepped, WidthMM: 150, DepthMM: 50, Steps: [][2]float64{{35, 20}, {80, 50}, {35, 20}}}, Care, 3},
		{"stairs", NotchRequest{Shape: NotchStepped, WidthMM: 160, DepthMM: 50, Steps: [][2]float64{{80, 20}, {80, 50}}}, Care, 4},
		{"narrow floor", NotchRequest{Shape: NotchStepped, WidthMM: 140, DepthMM: 50, Steps: [][2]float64{{40, 20}, {60, 50}, {40, 20}}}, Fail, 0},
		{"radius", NotchRequest{Shape: NotchRectangular, WidthMM: 80, DepthMM: 40, CornerRadiusMM: 10}, Care, 1},
		{"relief", NotchRequest{Shape: NotchRectangular, WidthMM: 80, DepthMM: 40, CornerRadiusMM: 10, Relief: "pre-punched"}, Remark, 1},
	} {
		u := notched(p, 6, c.n)
		if u.Grade() != c.want || u.Hits != c.hits {
			t.Errorf("%s: grade %d, %d bites, want %d, %d: %+v", c.what, u.Grade(), u.Hits, c.want, c.hits, u.Aspects)
		}
	}
}

// Force per bite, at 50 ksi in 3/8 in: a notch 2 x 1.5 in takes 46.9 short tons, a
// vee of 90 degrees 1.5 in deep 39.8 (L t S with L = w + 2 h and 2 h / cos(A/2)).
func TestNotchForce(t *testing.T) {
	p := yard()
	p.Notchers = []shop.NotchTool{{Name: "two inch", Shape: "rectangular", WidthMM: 2 * inch, DepthMM: 2 * inch}, {Name: "vee", Shape: "vee", DepthMM: 2 * inch, AngleRad: math.Pi / 2}}
	m := strong("50 ksi", 50*ksi, 50*ksi)
	u := Notch(p, &p.Machines[0], Piece{0.375 * inch, m}, NotchRequest{Shape: NotchRectangular, WidthMM: 2 * inch, DepthMM: 1.5 * inch})
	near(t, "rectangular", u.ForceKN/shortTonKN, 46.9, 0.05)
	u = Notch(p, &p.Machines[0], Piece{0.375 * inch, m}, NotchRequest{Shape: NotchVee, WidthMM: 3 * inch, DepthMM: 1.5 * inch, IncludedRad: math.Pi / 2})
	near(t, "vee", u.ForceKN/shortTonKN, 39.8, 0.05)
	p.Machines[0].Notch.UsableKN = u.ForceKN * 0.999
	wantGrade(t, "too weak", aspect(t, Notch(p, &p.Machines[0], Piece{0.375 * inch, m}, NotchRequest{Shape: NotchVee, WidthMM: 3 * inch, DepthMM: 1.5 * inch, IncludedRad: math.Pi / 2}), "notch-force").Grade, Fail)
	p.Machines[0].Notch.UsableKN = u.ForceKN
	wantGrade(t, "just", aspect(t, Notch(p, &p.Machines[0], Piece{0.375 * inch, m}, NotchRequest{Shape: NotchVee, WidthMM: 3 * inch, DepthMM: 1.5 * inch, IncludedRad: math.Pi / 2}), "notch-force").Grade, OK)
	wantGrade(t, "too thick", notched(p, 12.1, NotchRequest{Shape: NotchRectangular, WidthMM: 2 * inch, DepthMM: 20}).Grade(), Fail)
}

// A corner tool goes deeper in thinner plate.
func TestCornerTool(t *testing.T) {
	p := yard()
	p.Machines[0].Notch.UsableKN = 1000
	p.Notchers = []shop.NotchTool{{Name: "corner", Shape: "corner", WidthMM: 100, DepthMM: 60, Rows: []shop.Row{{ThicknessMM: 10, SizeMM: 40}, {ThicknessMM: 6, SizeMM: 60}}}}
	at := func(th, a, b float64) Grade {
		return notched(p, th, NotchRequest{Shape: NotchCorner, WidthMM: a, DepthMM: b}).Grade()
	}
	wantGrade(t, "thin", at(6, 100, 60), Remark)
	wantGrade(t, "turned", at(6, 60, 100), Remark)
	wantGrade(t, "deeper in thicker", at(6.1, 100, 60), Fail)
	wantGrade(t, "thicker", at(10, 100, 40), Remark)
	wantGrade(t, "no row", at(10.1, 20, 20), Fail)
}

func TestNoNotcher(t *testing.T) {
	p := yard()
	p.Machines[0].Notch = nil
	u := notched(p, 6, NotchRequest{Shape: NotchRectangular, WidthMM: 80, DepthMM: 40})
	if u.Grade() != Fail || !strings.Contains(u.Aspects[0].Text, "no notcher") {
		t.Errorf("%+v", u)
	}
}

// Air bends, kN a metre: 6 mm over V 50 at 450 MPa 460, a public chart says 380;
// 10 mm over V 80 799, chart 850 (common practice, no source): within 25 %.
func TestBend(t *testing.T) {
	near(t, "6 over 50", AirBendForceKN(1.42, 450, 1000, 6, 50), 460, 0.5)
	near(t, "10 over 80", AirBendForceKN(1.42, 450, 1000, 10, 80), 799, 0.5)
	if c := AirBendForceKN(1.42, 450, 1000, 6, 50) / 380; c < 1 || c > 1.25 {
		t.Errorf("chart ratio %v", c)
	}
	// V-bend of a textbook: t 3.2, w 44.5, V 25, TS 450, factor 1.33 gives 10,909 N
	// (Groover, Fundamentals of Modern Manufacturing, example 20.2, from memory).
	near(t, "textbook", AirBendForceKN(1.33, 450, 44.5, 3.2, 25)*1000, 10909, 1)
	p := yard()
	p.Machines[0].Brake = &shop.BrakeStation{Rating: shop.Rating{ForceKN: 200, UsableKN: 180}, LengthMM: 300, VMM: []float64{50, 80}, StrokeMM: 100}
	bend := func(th, l, flange float64) Use {
		return Bend(p, &p.Machines[0], Piece{th, mild()}, BendRequest{LengthMM: l, FlangeMM: flange, AngleRad: math.Pi / 2})
	}
	wantGrade(t, "all is known", bend(6, 300, 60).Grade(), OK)
	wantGrade(t, "flange at 0.7 V 50", bend(6, 300, 35).Grade(), OK)
	wantGrade(t, "flange above 0.7 V", bend(6, 300, 35.1).Grade(), OK)
	wantGrade(t, "flange below 0.7 V", bend(6, 300, 34.9).Grade(), Fail)
	wantGrade(t, "flange unknown", bend(6, 300, 0).Grade(), Unknown)
	wantGrade(t, "longer than the brake", bend(6, 301, 60).Grade(), Fail)
	wantGrade(t, "too strong", bend(12, 300, 60).Grade(), Fail)
	f := AirBendForceKN(1.42, 450, 300, 6, 80)
	p.Machines[0].Brake.UsableKN = f * 1.05
	wantGrade(t, "tight", bend(6, 300, 60).Grade(), Care)
	p.Machines[0].Brake.PivotMM, p.Machines[0].Brake.PivotRefMM = 325, 500
	// 1.05 x the force over V 80, times 500 / 325, carries V 80 with ease.
	if n := bend(6, 300, 60); n.Die != "V 80 mm" || n.Aspects[0].Grade != OK {
		t.Errorf("nearer the pivot: %s %+v", n.Die, n.Aspects)
	}
	p.Machines[0].Brake.PivotMM, p.Machines[0].Brake.PivotRefMM, p.Machines[0].Brake.UsableKN = 0, 0, 5000
	// 6 t = 48 mm is the least die for 8 mm, usual is 8 t = 64.
	for _, c := range []struct {
		v    float64
		want Grade
	}{{47.9, Fail}, {48, Care}, {51.1, Care}, {51.2, OK}, {64, OK}} {
		p.Machines[0].Brake.VMM = []float64{c.v}
		wantGrade(t, "die opening", bend(8, 100, 90).Aspects[2].Grade, c.want)
	}
	// Of dies that all fail the one that asks for the least: 0.7 x 40 = 28.
	p.Machines[0].Brake.VMM = []float64{40, 64}
	if d := bend(6, 100, 8).Die; d != "V 40 mm" {
		t.Errorf("a flange of 8 mm is set against %s", d)
	}
	p.Machines[0].Brake = nil
	wantGrade(t, "no brake", bend(6, 300, 60).Grade(), Fail)
}

func TestOther(t *testing.T) {
	p := yard()
	drill := func(d float64) Use {
		return Other(p, ProcessRequest{Kind: "drill", Rule: "punch-ratio", Why: "Ø10 is smaller than the metal is thick", DiameterMM: d, ThicknessMM: 12})
	}
	u := drill(10)
	if u.Grade() != Care || u.Aspects[0].Rule != "punch-ratio" || u.Aspects[0].Fix != "drill it" {
		t.Errorf("%+v", u)
	}
	wantGrade(t, "largest", drill(40).Grade(), Care)
	wantGrade(t, "larger", drill(40.1).Grade(), Fail)
	grind := func(r, th float64) Grade {
		return Other(p, ProcessRequest{Kind: "grinder", Rule: "edge-process", RadiusMM: r, ThicknessMM: th}).Grade()
	}
	wantGrade(t, "R10 in 10", grind(10, 10), Care)
	wantGrade(t, "R15 in 12", grind(15, 12), Care)
	wantGrade(t, "R15.1", grind(15.1, 12), Fail)
	wantGrade(t, "12.1 thick", grind(10, 12.1), Fail)
	wantGrade(t, "no thermal", Other(p, ProcessRequest{Kind: "thermal", Rule: "edge-process", ThicknessMM: 10}).Grade(), Fail)
	wantGrade(t, "no thickness", Other(p, ProcessRequest{Kind: "drill", Rule: "hole-process"}).Grade(), Unknown)
}

func TestSettingsAreOrderedAndSane(t *testing.T) {
	last := ""
	for _, s := range Settings() {
		k := s.Rule + " " + s.Name
		if k <= last {
			t.Errorf("%q after %q", k, last)
		}
		last = k
		if s.Default < s.Min || s.Default > s.Max || s.Doc == "" || s.Source == "" {
			t.Errorf("%+v", s)
		}
	}
}

// The radius of an inside corner is made by a hole that some tool makes and that
// lies within the notch, or by the grinder; where neither does, the notcher's
// sharp corner is no way to make it.
func TestNotchCornerRadius(t *testing.T) {
	p := yard()
	p.Also = []shop.Process{{Kind: "grinder", Have: true, MaxRadiusMM: 15}}
	p.Machines[0].Punch.Holders = []shop.Holder{{Name: "standard", MaxMM: 40}}
	for _, c := range []struct {
		radius, width, depth float64
		want                 Grade
	}{{15, 60, 5, Care}, {20, 60, 20, Care}, {20.1, 60, 30, Fail}, {20, 39, 30, Fail}, {20, 60, 19, Fail}, {116, 48, 1.3, Fail}} {
		u := Use{}
		u.addCorner(p, &p.Machines[0], NotchRequest{Shape: NotchRectangular, WidthMM: c.width, DepthMM: c.depth, CornerRadiusMM: c.radius})
		if u.Grade() != c.want {
			t.Errorf("radius %g of a notch %g x %g: grade %d, want %d", c.radius, c.width, c.depth, u.Grade(), c.want)
		}
	}
}
