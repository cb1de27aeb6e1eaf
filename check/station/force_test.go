package station

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"burrside/check/shop"
	"pgregory.net/rapid"
)

const (
	inch = 25.4
	ksi  = 6.894757293168
)

// rows reads a table of testdata without its heading.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 2 {
		t.Fatalf("%s holds no rows", name)
	}
	return all[1:]
}

// Every row of check_values.csv, which names the source of each.
func TestCheckValues(t *testing.T) {
	tons := func(dIn, tIn, s float64) float64 {
		return ShearForceKN(CutLength(Round, dIn*inch, 0), tIn*inch, s*ksi) / shortTonKN
	}
	// The pressure that addRatio sets against the punch is 4 t S / d: C02 to C04 turn it round.
	pressure := func(d, th, S float64) float64 {
		m := mild()
		m.ShearMPa, m.ShearUpperMPa = S, S
		var u Use
		u.addRatio(yard(), Piece{th, m}, round(d), Round, d, d)
		if a := u.Aspects[0]; a.Unit == "MPa" {
			return a.Got
		}
		return CutLength(Round, d, d) * th * S / sectionArea(Round, d, d)
	}
	checks := map[string]func(t *testing.T){
		"C01": func(t *testing.T) { near(t, "force", ShearForceKN(CutLength(Round, 20, 0), 25, 350), 549.8, 0.1) },
		"C02": func(t *testing.T) {
			near(t, "pressure", pressure(2.5*inch, 0.78125*inch, 40*ksi), 50*ksi, 1e-6)
		},
		"C03": func(t *testing.T) { near(t, "pressure", pressure(0.8*inch, 0.25*inch, 40*ksi), 50*ksi, 1e-6) },
		"C04": func(t *testing.T) { near(t, "pressure", pressure(17, 17, 345), 4*345, 1e-9) },
		"C05": func(t *testing.T) { near(t, "force", ShearForceKN(CutLength(Round, 20, 0), 1.5, 300), 28.3, 0.1) },
		"C06": func(t *testing.T) {
			flat := ShearForceKN(CutLength(Round, 10, 0), 3, 400)
			near(t, "flat", flat, 37.7, 0.1)
			near(t, "with shear", flat*GroundShearFactor(2, 3, 0.4), 22.6, 0.1)
		},
		"C07": func(t *testing.T) { near(t, "tons", tons(0.5, 0.5, 50), 19.7, 0.1) },
		"C08": func(t *testing.T) { near(t, "tons", tons(1, 0.5, 50), 39.4, 0.2) },
		"C09": func(t *testing.T) { near(t, "tons", tons(1, 0.5, 60), 47, 0.5) },
		"C10": func(t *testing.T) { near(t, "tons", tons(1, 1, 50), 78.54, 0.005) },
		"C11": func(t *testing.T) { near(t, "tons", tons(1.5, 1, 50), 117.81, 0.005) },
		"C12": func(t *testing.T) { near(t, "tons", tons(4, 0.036, 50), 11.3, 0.05) },
		"C13": func(t *testing.T) { near(t, "tons", tons(0.25, 0.135, 60), 3.2, 0.05) },
		"C14": func(t *testing.T) {
			// 12 % in total is 0.06 a side: the die that would be bought for the 30 mm punch.
			m := mild()
			m.ClearanceShare = 2 * 0.06
			near(t, "die", 30+aim(yard(), m)*3.2, 30.384, 0.001)
		},
		"C15": func(t *testing.T) {
			at := func(deg float64) float64 { return RakedForceKN(3/8.0*inch, 1e4, deg*math.Pi/180, 345) }
			near(t, "4 deg", 73*at(4)/at(3), 55, 0.5)
			near(t, "5 deg", 73*at(5)/at(3), 44, 0.5)
		},
		"C16": func(t *testing.T) { near(t, "force", RakedForceKN(12, 1e3, 3*math.Pi/180, 350), 480.8, 0.1) },
		"C43": func(t *testing.T) {
			// 575 is C = 1.6 at 60 ksi, in short tons for a foot.
			got := AirBendForceKN(575/(12*60/2.0), 60*ksi, 12*inch, 0.25*inch, 2*inch) / shortTonKN
			near(t, "tons a foot", got, 17.97, 0.01)
			near(t, "factor", 575/(12*60/2.0), 1.6, 0.01)
		},
		"C51": func(t *testing.T) { near(t, "force", MomentForceKN(650, 500, 325), 1000, 1e-9) },
		"C52": func(t *testing.T) {
			cut := CutLength(Slot, 13/16.0*inch, 1.875*inch)
			near(t, "cut", cut/inch, 4.678, 0.001)
			near(t, "tons", ShearForceKN(cut, 0.375*inch, 60*ksi)/shortTonKN, 52.6, 0.1)
		},
	}
	seen := 0
	for _, r := range rows(t, "check_values.csv") {
		f, ok := checks[r[0]]
		if !ok {
			t.Errorf("row %s has no check", r[0])
			continue
		}
		seen++
		t.Run(r[0], f)
	}
	if seen != len(checks) {
		t.Errorf("%d checks, %d rows", len(checks), seen)
	}
}

// Every cell of two public charts (common practice, no source). They are
// rounded, some to whole tons, and some use the nominal gauge: no cell is off
// by more than 6 %, half of them by less than 0.6 %.
func TestPunchCharts(t *testing.T) {
	var offs []float64
	for _, r := range rows(t, "punch_charts.csv") {
		var v [4]float64
		for i := range v {
			f, err := strconv.ParseFloat(r[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			v[i] = f
		}
		got := ShearForceKN(CutLength(Round, v[0]*inch, 0), v[1]*inch, v[3]*ksi) / shortTonKN
		off := math.Abs(got-v[2]) / v[2]
		if off > 0.0605 {
			t.Errorf("Ø%v in in %v in at %v ksi: %.2f, chart %v", v[0], v[1], v[3], got, v[2])
		}
		offs = append(offs, off)
	}
	slices.Sort(offs)
	if len(offs) != 170 {
		t.Errorf("%d cells, want 170", len(offs))
	}
	if m := offs[len(offs)/2]; m > 0.006 {
		t.Errorf("median deviation %v", m)
	}
}

// d x t x 80 in inches and short tons (common practice, no source): 80 is pi/2 x
// 50 ksi rounded up by 1.9 %.
func TestShortForms(t *testing.T) {
	for _, c := range []struct{ d, t, tons, tol float64 }{
		{1.5, 1, 120, 3}, {4, 15.0 / 32, 150, 3}, {1.125, 0.75, 68, 2},
	} {
		got := ShearForceKN(CutLength(Round, c.d*inch, 0), c.t*inch, 50*ksi) / shortTonKN
		near(t, "tons", got, c.tons, c.tol)
		short := c.d * c.t * 80
		near(t, "short form over formula", short/got, 80/78.54, 1e-3)
	}
	if got := ShearForceKN(CutLength(Round, 1.125*inch, 0), 0.75*inch, 50*ksi) / shortTonKN; got >= 70 || got < 65 {
		t.Errorf("1-1/8 in in 3/4 in: %v, a little under 70", got)
	}
}

// Shear ground on the tool: the larger of two textbook models, never under half.
func TestGroundShear(t *testing.T) {
	near(t, "none", GroundShearFactor(0, 10, 0.4), 1, 0)
	near(t, "less than the penetration", GroundShearFactor(3, 10, 0.4), 1, 0)
	near(t, "p t / I", GroundShearFactor(5, 10, 0.4), 0.8, 1e-12)
	near(t, "half at least", GroundShearFactor(100, 10, 0.4), 0.5, 0)
}

// One margin (the trade's rated, usable and upper strength): rated 65 US ton,
// row 27 mm in 19 mm mild is 556.0 kN at 345 MPa.
func TestOneMargin(t *testing.T) {
	p := yard()
	st := p.Machines[0].Punch
	st.Rating = shop.Rating{ForceKN: 65 * shortTonKN, Ton: "US", BasisMPa: 345}
	st.Rows = []shop.Row{{ThicknessMM: 19, SizeMM: 27}}
	near(t, "rated", st.ForceKN, 578.3, 0.05)
	near(t, "heaviest row", heaviestHole(st), 556.0, 0.05)

	u := Punch(p, &p.Machines[0], Piece{19, mild()}, round(27))
	a := aspect(t, u, "punch-force")
	wantGrade(t, "the row itself, without the second look", a.Grade, OK)
	near(t, "force", a.Got, 556.0, 0.05)
	near(t, "usable", a.Limit, 556.0, 0.05)

	// At the upper strength it would need 668.8 kN: just under the row it is covered too.
	wantGrade(t, "within the row", aspect(t, Punch(p, &p.Machines[0], Piece{18.9, mild()}, round(26)), "punch-force").Grade, OK)
	// 1 % beyond in one direction fails.
	wantGrade(t, "wider", aspect(t, Punch(p, &p.Machines[0], Piece{19, mild()}, round(27*1.01)), "punch-force").Grade, Fail)
	wantGrade(t, "thicker", aspect(t, Punch(p, &p.Machines[0], Piece{19 * 1.01, mild()}, round(27)), "punch-force").Grade, Fail)
	// Harder steel gets no pass from the row.
	wantGrade(t, "harder", aspect(t, Punch(p, &p.Machines[0], Piece{19, strong("S355", 430, 504)}, round(27)), "punch-force").Grade, Fail)
	// Softer does.
	wantGrade(t, "softer", aspect(t, Punch(p, &p.Machines[0], Piece{19, strong("aluminium", 138, 160)}, round(27)), "punch-force").Grade, OK)
	// A row that contradicts the usable share wins.
	st.UsableKN, st.FromRow = 0.85*st.ForceKN, false
	wantGrade(t, "row against share", aspect(t, Punch(p, &p.Machines[0], Piece{19, mild()}, round(27)), "punch-force").Grade, OK)
}

// Two machines: Ø26 in 20 mm mild is 563.6 of 540 kN (104 %) and of 990 kN (57 %).
func TestTwoMachinesForce(t *testing.T) {
	p := yard()
	p.Machines = append(p.Machines, shop.Machine{Name: "two", Punch: &shop.PunchStation{
		Rating: shop.Rating{ForceKN: 1100, UsableKN: 990}, ThroatMM: 300, Holders: []shop.Holder{{Name: "standard", MaxMM: 60}}}})
	one := aspect(t, Punch(p, &p.Machines[0], Piece{20, mild()}, round(26)), "punch-force")
	near(t, "force", one.Got, 563.6, 0.05)
	wantGrade(t, "one", one.Grade, Fail)
	if !strings.Contains(one.Text, "104 %") {
		t.Errorf("text %q", one.Text)
	}
	two := Punch(p, &p.Machines[1], Piece{20, mild()}, round(26))
	wantGrade(t, "two", two.Grade(), OK)
	near(t, "share", two.Share, 0.57, 0.005)
	// Ø22 in 20 mm: 573.7 kN at the upper strength is more than 540: tight.
	tight := aspect(t, Punch(p, &p.Machines[0], Piece{20, mild()}, round(22)), "punch-force")
	wantGrade(t, "tight", tight.Grade, Care)
	if !strings.Contains(tight.Text, "573.7 kN") {
		t.Errorf("text %q", tight.Text)
	}
	// A grout hole Ø110 in 20 mm mild needs 2384 kN, and no holder takes it.
	near(t, "grout hole", ShearForceKN(CutLength(Round, 110, 0), 20, 345), 2384, 0.5)
	grout := Punch(p, &p.Machines[0], Piece{20, mild()}, round(110))
	wantGrade(t, "grout hole", aspect(t, grout, "die-holder").Grade, Fail)
}

func TestForceLimits(t *testing.T) {
	p := yard()
	st := p.Machines[0].Punch
	m := mild()
	m.ShearUpperMPa = m.ShearMPa
	f := ShearForceKN(CutLength(Round, 22, 0), 10, 345)
	for _, c := range []struct {
		usable float64
		want   Grade
	}{{f * 0.9999, Fail}, {f * (1 - 1e-7), OK}, {f, OK}, {f * 1.0001, OK}} {
		st.UsableKN = c.usable
		wantGrade(t, "force", aspect(t, Punch(p, &p.Machines[0], Piece{10, m}, round(22)), "punch-force").Grade, c.want)
	}
	up := f * 415 / 345
	for _, c := range []struct {
		usable float64
		want   Grade
	}{{up * 0.9999, Care}, {up, OK}, {up * 1.0001, OK}, {f, Care}} {
		st.UsableKN = c.usable
		wantGrade(t, "upper", aspect(t, Punch(p, &p.Machines[0], Piece{10, mild()}, round(22)), "punch-force").Grade, c.want)
	}
}

// A machine without a stated force is never a pass.
func TestForceNotStated(t *testing.T) {
	p := yard()
	p.Machines[0].Punch.Rating = shop.Rating{}
	wantGrade(t, "no force", Punch(p, &p.Machines[0], Piece{10, mild()}, round(22)).Grade(), Unknown)
	wantGrade(t, "no thickness", Punch(p, &p.Machines[0], Piece{0, mild()}, round(22)).Grade(), Unknown)
	wantGrade(t, "NaN", Punch(p, &p.Machines[0], Piece{math.NaN(), mild()}, round(22)).Grade(), Unknown)
	wantGrade(t, "no material", Punch(p, &p.Machines[0], Piece{10, nil}, round(22)).Grade(), Unknown)
	wantGrade(t, "no punch", Punch(p, &shop.Machine{Name: "bare"}, Piece{10, mild()}, round(22)).Grade(), Fail)
}

// Worn tools and shear ground on the tool stand in the printed product.
func TestWornTool(t *testing.T) {
	p := yard()
	p.Punches[0].Wear, p.Punches[0].ShearMM = 1.2, 5
	a := aspect(t, Punch(p, &p.Machines[0], Piece{10, mild()}, round(22)), "punch-force")
	near(t, "force", a.Got, 238.45*1.2*0.8, 0.1)
	for _, w := range []string{"1.2 worn", "0.8 shear ground", "pi x 22 mm x 10 mm x 345 MPa"} {
		if !strings.Contains(a.Basis, w) {
			t.Errorf("basis %q lacks %q", a.Basis, w)
		}
	}
}

// More force or throat never turns a pass into a fail; thinner metal never fails
// where thicker passes, for force, ratio and shear rows.
func TestMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := yard()
		st := p.Machines[0].Punch
		st.UsableKN = rapid.Float64Range(50, 900).Draw(rt, "usable")
		d := rapid.Float64Range(4, 90).Draw(rt, "d")
		th := rapid.Float64Range(2, 30).Draw(rt, "t")
		reach := rapid.Float64Range(1, 500).Draw(rt, "reach")
		grade := func(th float64, rules ...string) Grade {
			u := Punch(p, &p.Machines[0], Piece{th, mild()}, round(d))
			g := OK
			for _, a := range u.Aspects {
				if slices.Contains(rules, a.Rule) {
					g = max(g, a.Grade)
				}
			}
			return g
		}
		thick := grade(th, "punch-force", "punch-ratio")
		if thin := grade(th*rapid.Float64Range(0.3, 1).Draw(rt, "thinner"), "punch-force", "punch-ratio"); thin > thick && thin == Fail {
			rt.Fatalf("thinner fails: %v > %v", thin, thick)
		}
		force := grade(th, "punch-force")
		st.UsableKN *= rapid.Float64Range(1, 3).Draw(rt, "more")
		if more := grade(th, "punch-force"); more > force {
			rt.Fatalf("more force is worse: %v > %v", more, force)
		}
		before, _ := Reach(p, &p.Machines[0], reach, reach*1.2)
		st.ThroatMM *= rapid.Float64Range(1, 3).Draw(rt, "deeper")
		if after, _ := Reach(p, &p.Machines[0], reach, reach*1.2); after.Grade > before.Grade {
			rt.Fatalf("a deeper throat is worse")
		}
	})
}

// Metal thicker than every row goes in where the shop file says so, and with
// care where it says nothing.
func TestThickerThanTheRows(t *testing.T) {
	p := yard()
	st := p.Machines[0].Punch
	st.Rows = []shop.Row{{ThicknessMM: 20, SizeMM: 22}}
	for _, c := range []struct {
		most, t float64
		want    Grade
	}{{0, 20, OK}, {0, 20.2, Care}, {25, 20.2, OK}, {25, 25, OK}, {25, 25.2, Fail}} {
		st.MaxThicknessMM = c.most
		u := Use{}
		u.addThickest(p, "punch-force", "punch station", st.MaxThicknessMM, st.Rows, c.t)
		if u.Grade() != c.want {
			t.Errorf("%g mm, at most %g: grade %d, want %d", c.t, c.most, u.Grade(), c.want)
		}
	}
}

// A force is shown in the ton that the machines are rated in: 60 tons are 533.8,
// 588.4 or 597.8 kN (2000 lbf, 1000 kgf, 2240 lbf; NIST SP 811 for lbf and kgf,
// from memory).
func TestForceInTheShopsTon(t *testing.T) {
	for _, c := range []struct {
		ton, units, want string
		kn               float64
	}{
		{"", "mm", "533.8 kN", 533.8},
		{"", "in", "533.8 kN (60 US ton)", 533.8},
		{"US", "mm", "533.8 kN (60 US ton)", 533.8},
		{"metric", "mm", "588.4 kN (60 metric ton)", 588.4},
		{"metric", "in", "588.4 kN (60 metric ton)", 588.4},
		{"long", "mm", "597.8 kN (60 long ton)", 597.8},
	} {
		p := yard()
		p.Units = c.units
		p.Machines[0].Punch.Ton = c.ton
		if got := Force(p, c.kn); got != c.want {
			t.Errorf("%s ton in %s: %q, want %q", c.ton, c.units, got, c.want)
		}
	}
}

// shortTonKN is 2000 lbf in kilonewtons (NIST SP 811, from memory).
const shortTonKN = 8.896443230521
