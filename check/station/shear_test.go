package station

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"burrside/check/shop"
	"burrside/features/measure"
)

func cutBar(p *shop.Profile, th, l float64, m *shop.Material) Aspect {
	u := Shear(p, &p.Machines[0], Piece{th, m}, CutRequest{LengthMM: l, OnBar: true})
	worst := Aspect{}
	for _, a := range u.Aspects {
		if a.Rule == "shear-row" && a.Grade >= worst.Grade {
			worst = a
		}
	}
	return worst
}

// Harder steel in narrow thick bar: row 25 x 100, rake 6 degrees, needs 681.2 kN;
// 21 x 100 at 1.3 times the strength needs 706.2 kN, 103.7 %, where t sqrt(S'/S)
// = 23.9 would say that it passes.
func TestRakedNarrowBar(t *testing.T) {
	rake := 6 * math.Pi / 180
	near(t, "not fully engaged", 25/math.Tan(rake), 238, 0.5)
	row := RakedForceKN(25, 100, rake, 345)
	near(t, "row", row, 681.2, 0.05)
	got := RakedForceKN(21, 100, rake, 1.3*345)
	near(t, "request", got, 706.2, 0.1)
	near(t, "share", got/row, 1.037, 0.0005)
	near(t, "naive", 21*math.Sqrt(1.3), 23.9, 0.05)
	p := yard()
	p.Machines[0].Shear = &shop.ShearStation{RakeRad: rake, BladeMM: 600, HoldDownMM: 60, Rating: shop.Rating{BasisMPa: 345}, Rows: []shop.Row{{ThicknessMM: 25, SizeMM: 100}}}
	hard := strong("harder", 1.3*345, 1.3*345)
	wantGrade(t, "21 x 100 harder", cutBar(p, 21, 100, hard).Grade, Fail)
	wantGrade(t, "20 x 100 harder", cutBar(p, 20, 100, hard).Grade, OK)
	te := EqualThickness(21, 100, rake, 1.3*345, 345)
	near(t, "same force", RakedForceKN(te, 100, rake, 345), got, 1e-9)
	// The softer metal gets no more thickness than the rows, unless the opening is stated.
	soft := strong("aluminium 5052", 138, 138)
	near(t, "aluminium", RakedForceKN(30, 100, rake, 1)*259, 512, 130) // it needs less force than the row
	wantGrade(t, "30 x 100 aluminium", cutBar(p, 30, 100, soft).Grade, Fail)
	p.Machines[0].Shear.OpeningMM = 32
	wantGrade(t, "30 x 100 aluminium, opening 32", cutBar(p, 30, 100, soft).Grade, OK)
	wantGrade(t, "33 x 100 aluminium, opening 32", cutBar(p, 33, 100, soft).Grade, Fail)
}

// Rows: a row passes; 1 % beyond it in one direction fails unless another covers
// it; on the polyline of the logarithms it needs care.
func TestRows(t *testing.T) {
	p := yard() // 6 x 600, 12 x 300, 20 x 150
	for _, c := range []struct {
		th, l float64
		want  Grade
	}{
		{6, 600, OK}, {6, 600 * (1 + 1e-7), OK}, {6, 600.01, Fail}, {6.06, 600, Fail}, {6, 606, Fail},
		{12, 300, OK}, {12, 303, Fail}, {12.12, 300, Fail}, {20, 150, OK}, {20.2, 150, Fail}, {20, 151.5, Fail},
		{3, 600, OK}, {8, 300, OK}, {8, 450, Care}, {8, 450.1, Fail}, {8, 449, Care}, {16, 150, OK},
		// 6 x 600 and 12 x 300 lie on t L = 3600: 9 mm allows 400.
		{9, 400, Care}, {9, 400.1, Fail}, {9, 300, OK}, {9, 300.1, Care},
		// a 45 degree mitre of flat 250 x 12 is 353.6 long: beyond the row 12 x 300.
		{12, 250 / math.Cos(math.Pi/4), Fail}, {12, 250, OK},
	} {
		a := cutBar(p, c.th, c.l, mild())
		wantGrade(t, measure.FormatNumber(c.th, 2)+" x "+measure.FormatNumber(c.l, 2), a.Grade, c.want)
	}
	near(t, "mitre", 250/math.Cos(math.Pi/4), 353.6, 0.05)
	if g, limit, _ := RowGrade(p.Machines[0].Shear.Rows, 12, 353.6); g != Fail || limit != 300 {
		t.Errorf("grade %d limit %v", g, limit)
	}
	// The blade ends where it ends.
	u := Shear(p, &p.Machines[0], Piece{3, mild()}, CutRequest{LengthMM: 100, SpanMM: 601, OnBar: true})
	wantGrade(t, "blade", u.Grade(), Fail)
}

// Harder steel than the rows mean is asked at its own strength, and looked at a
// second time at its upper one.
func TestRowsHarder(t *testing.T) {
	p := yard()
	s := strong("S355", 430, 504)
	// Linear without rake: 12 mm row over 430 / 345 and 504 / 345.
	near(t, "equal", EqualThickness(9.6, 300, 0, 430, 345), 11.965, 0.001)
	wantGrade(t, "between", cutBar(p, 9.6, 300, s).Grade, Care)
	wantGrade(t, "at the upper strength", cutBar(p, 12*345.0/504, 300, s).Grade, OK)
	wantGrade(t, "above", cutBar(p, 9.7, 300, s).Grade, Fail)
	wantGrade(t, "mild gets no second look", cutBar(p, 12, 300, mild()).Grade, OK)
}

// Rows are whole millimetres, as on name plates: two that differ by less than the
// tolerance of a limit would read as one.
func TestRowProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 5).Draw(rt, "n")
		var rs []shop.Row
		for i := 0; i < n; i++ {
			rs = append(rs, shop.Row{ThicknessMM: float64(rapid.IntRange(2, 30).Draw(rt, "t")), SizeMM: float64(rapid.IntRange(20, 800).Draw(rt, "L"))})
		}
		covered := func(th, l float64) bool {
			return slices.ContainsFunc(rs, func(r shop.Row) bool { return th <= r.ThicknessMM && l <= r.SizeMM })
		}
		for _, r := range rs {
			if g, _, _ := RowGrade(rs, r.ThicknessMM, r.SizeMM); g != OK {
				rt.Fatalf("row %v does not pass among %v", r, rs)
			}
			for _, q := range [][2]float64{{r.ThicknessMM * 1.01, r.SizeMM}, {r.ThicknessMM, r.SizeMM * 1.01}} {
				g, _, _ := RowGrade(rs, q[0], q[1])
				if covered(q[0], q[1]) != (g == OK) {
					rt.Fatalf("%v: grade %d among %v", q, g, rs)
				}
				// A row of the frontier: beyond it is never even care.
				if slices.ContainsFunc(frontier(nil, rs), func(f shop.Row) bool { return f == r }) && !covered(q[0], q[1]) && g != Fail {
					rt.Fatalf("1 %% beyond %v: grade %d among %v", r, g, rs)
				}
			}
		}
		th, l := rapid.Float64Range(1, 32).Draw(rt, "at"), rapid.Float64Range(10, 900).Draw(rt, "al")
		g, _, _ := RowGrade(rs, th, l)
		k := rapid.Float64Range(0.3, 1).Draw(rt, "less")
		if thin, _, _ := RowGrade(rs, th*k, l); thin > g {
			rt.Fatalf("thinner is worse")
		}
		if short, _, _ := RowGrade(rs, th, l*k); short > g {
			rt.Fatalf("shorter is worse")
		}
	})
}

// The hold-down holds the stock: 50 x 50 clips off a bar of 6 m with a reach of 70
// fit; the piece 60 x 60 with a 25 x 25 clip has 67.2 mm across it once it is off.
func TestHoldDown(t *testing.T) {
	p := yard()
	on := Shear(p, &p.Machines[0], Piece{6, mild()}, CutRequest{LengthMM: 50, OnBar: true})
	wantGrade(t, "on the bar", on.Grade(), OK)
	across := (120 - 25) / math.Sqrt2
	near(t, "across", across, 67.2, 0.05)
	hold := func(held float64) Aspect {
		return aspect(t, Shear(p, &p.Machines[0], Piece{6, mild()}, CutRequest{LengthMM: 35, HeldMM: held}), "hold-down")
	}
	wantGrade(t, "off the bar", hold(across).Grade, Fail)
	wantGrade(t, "four clips", hold((120-25-25)/math.Sqrt2).Grade, Fail)
	near(t, "four clips", (120-25-25)/math.Sqrt2, 49.5, 0.05)
	wantGrade(t, "at the reach", hold(70).Grade, OK)
	wantGrade(t, "below", hold(69.9).Grade, Fail)
	wantGrade(t, "above", hold(70.1).Grade, OK)
	p.Machines[0].Shear.HoldDownMM = 0
	wantGrade(t, "assumed 60", hold(59.9).Grade, Care)
	wantGrade(t, "assumed 60", hold(60).Grade, OK)
}

// Sliver: error under 1 t, care under 2 t or 5 mm (common practice, no source).
func TestSliver(t *testing.T) {
	p := yard()
	for _, c := range []struct {
		th, off float64
		want    Grade
	}{{10, 9.99, Fail}, {10, 10, Care}, {10, 19.99, Care}, {10, 20, OK}, {2, 1.99, Fail}, {2, 4.99, Care}, {2, 5, OK}, {10, 0, OK}} {
		u := Shear(p, &p.Machines[0], Piece{c.th, mild()}, CutRequest{LengthMM: 100, OnBar: true, OffcutMM: c.off})
		wantGrade(t, measure.FormatNumber(c.off, 2), u.Grade(), c.want)
	}
}

func TestMitre(t *testing.T) {
	p := yard()
	p.Machines[0].Shear.MitreRad = math.Pi / 4
	at := func(deg float64) Grade {
		return Shear(p, &p.Machines[0], Piece{6, mild()}, CutRequest{LengthMM: 100, OnBar: true, OffSquareRad: deg * math.Pi / 180}).Grade()
	}
	wantGrade(t, "45", at(45), OK)
	wantGrade(t, "-45", at(-45), OK)
	wantGrade(t, "45.1", at(45.1), Fail)
}

// The raked formula judges alone only where there are no rows; without rake and
// rows only what a parallel blade could do passes.
func TestShearWithoutRows(t *testing.T) {
	p := yard()
	st := &shop.ShearStation{Rating: shop.Rating{ForceKN: 600, UsableKN: 540}, BladeMM: 600, HoldDownMM: 70, RakeRad: 3 * math.Pi / 180}
	p.Machines[0].Shear = st
	m := strong("350", 350, 350)
	a := cutBar(p, 12, 400, m) // 480.8 kN
	wantGrade(t, "raked", a.Grade, OK)
	u := Shear(p, &p.Machines[0], Piece{12, m}, CutRequest{LengthMM: 400, OnBar: true})
	near(t, "force", u.ForceKN, 480.8, 0.1)
	wantGrade(t, "thicker", cutBar(p, 13, 400, m).Grade, Fail)
	st.RakeRad = 0
	wantGrade(t, "parallel", cutBar(p, 12, 100, m).Grade, OK)
	wantGrade(t, "cannot tell", cutBar(p, 12, 400, m).Grade, Unknown)
}

// ShearGrade is the grade of Shear, whatever the shop file leaves out.
func TestShearGrade(t *testing.T) {
	seen := map[Grade]int{}
	r := rand.New(rand.NewPCG(1, 2))
	one := func(vs ...float64) float64 { return vs[r.IntN(len(vs))] }
	for range 20000 {
		p := yard()
		st := p.Machines[0].Shear
		st.ForceKN, st.UsableKN = one(0, 300, 800), one(0, 0, 250, 700)
		st.BladeMM, st.HoldDownMM, st.OpeningMM = one(0, 300, 600), one(0, 70), one(0, 11, 24)
		st.RakeRad, st.MitreRad = one(0, 0.1), one(0, 0.8)
		if r.IntN(2) == 0 {
			st.Rows = nil
		}
		if r.IntN(10) == 0 {
			p.Machines[0].Shear = nil
		}
		m := strong("m", one(0, 345, 345, 430, 517), one(345, 415, 504))
		m.Punchable = r.IntN(10) > 0
		pc := Piece{one(0, 5, 6, 10, 12, 20, 25), m}
		c := CutRequest{LengthMM: one(0, 50, 100, 150, 260, 300, 450, 700), OnBar: r.IntN(2) == 0, OffSquareRad: one(0, 0.5, 1),
			HeldMM: one(30, 65, 200), OffcutMM: one(0, 3, 11, 40)}
		g := ShearGrade(p, &p.Machines[0], pc, c)
		if want := Shear(p, &p.Machines[0], pc, c).Grade(); g != want {
			t.Fatalf("grade %d, Shear gives %d: %+v", g, want, c)
		}
		seen[g]++
	}
	if len(seen) != 4 || seen[OK] < 100 || seen[Care] < 100 {
		t.Errorf("grades %v", seen)
	}
}

func BenchmarkShearGrade(b *testing.B) {
	p := yard()
	b.ReportAllocs()
	for b.Loop() {
		ShearGrade(p, &p.Machines[0], Piece{10, mild()}, CutRequest{LengthMM: 120, HeldMM: 100, OffcutMM: 30})
	}
}
