package station

import (
	"math"
	"testing"

	"burrside/check/shop"

	"pgregory.net/rapid"
)

// oneBar is a shop whose only machine has these bar and tube shears.
func oneBar(bars []shop.BarStation, tubes ...shop.TubeStation) *shop.Profile {
	for i := range bars {
		b := &bars[i]
		b.BasisMPa = 345
		for _, c := range b.CavitiesMM {
			b.MaxMM = max(b.MaxMM, c)
		}
		for _, c := range b.Channels {
			b.MaxMM = max(b.MaxMM, c.DepthMM)
		}
	}
	for i := range tubes {
		tubes[i].BasisMPa = 345
	}
	return &shop.Profile{Name: "bars", Units: "mm", Machines: []shop.Machine{{Name: "one", Bars: bars, Tubes: tubes}}}
}

// Cavities are rows: the size itself passes, above it nothing does, and a bar
// smaller than its cavity by more than 1 mm needs care (common practice, no
// source). Stronger steel counts by area times strength: a cavity of 25 in a
// steel of 345 MPa promises 625 pi/4 x 0.345 = 169.4 kN.
func TestBarCavities(t *testing.T) {
	prof := oneBar([]shop.BarStation{{Shape: Round, CavitiesMM: []float64{12, 16, 20, 25}}})
	m := &prof.Machines[0]
	for _, c := range []struct {
		what      string
		d, S, up  float64
		want      Grade
		got       float64 // of the aspect in trouble, 0 not looked at
		tool, off string
	}{
		{"at the row", 25, 345, 415, OK, 0, "cavity 25 mm", ""},
		{"just above the largest", 25.01, 345, 415, Fail, 25.01, "", ""},
		{"slack just below 1", 15.01, 345, 415, OK, 0, "cavity 16 mm", ""},
		{"slack at 1", 15, 345, 415, OK, 0, "cavity 16 mm", ""},
		{"slack just above 1", 14.99, 345, 415, Care, 1.01, "cavity 16 mm", ""},
		{"softer gets no larger", 25.3, 100, 100, Fail, 25.3, "", ""},
		{"1 % stronger than the row", 25, 345 * 1.01, 345 * 1.01, Fail, 171.04, "", ""},
		// 20 in 430: 100 pi x 0.430 = 135.1 kN, above the 108.4 of its own cavity,
		// within the 169.4 of the next, where it lies loose by 5 mm.
		{"stronger, in the next cavity", 20, 430, 430, Care, 5, "cavity 25 mm", ""},
		// 24.5 in 355: 167.4 kN, at 365: 172.1 of 169.4.
		{"tight at the upper strength", 24.5, 355, 365, Care, 167.36, "cavity 25 mm", ""},
	} {
		u := BarShear(prof, m, Piece{c.d, strong("steel", c.S, c.up)}, BarCut{Shape: Round})
		wantGrade(t, c.what, u.Grade(), c.want)
		if a := aspect(t, u, "bar-shear"); c.got > 0 {
			near(t, c.what, a.Got, c.got, 0.01)
		}
		if c.tool != "" && u.Tool != c.tool {
			t.Errorf("%s: %q, want %q", c.what, u.Tool, c.tool)
		}
	}
}

// FACTS of the shear force: a round bar of 1 in needs 19.6 short tons and a
// square one 25.0 at 50 ksi (area x strength, worked by hand).
func TestBarForce(t *testing.T) {
	const ksi50 = 50 * 6.894757293168361
	for shape, want := range map[string]float64{Round: 19.635, Square: 25} {
		st := shop.BarStation{Shape: shape, ByForce: true, CavitiesMM: []float64{25.4}}
		st.ForceKN, st.UsableKN = 1000, 900
		prof := oneBar([]shop.BarStation{st})
		u := BarShear(prof, &prof.Machines[0], Piece{25.4, strong("chart", ksi50, ksi50)}, BarCut{Shape: shape})
		near(t, shape, u.ForceKN/shortTonKN, want, 0.005)
		near(t, shape+" share", u.Share, want*shortTonKN/900, 1e-4)
	}
}

// Where one force governs, a cavity is an opening and no row: the force decides,
// also below the largest size, and no force stated is no pass.
func TestBarForceGoverns(t *testing.T) {
	at := func(usable, d, S, up float64) Use {
		st := shop.BarStation{Shape: Square, ByForce: true, CavitiesMM: []float64{20, 30}}
		st.UsableKN, st.ForceKN = usable, usable
		prof := oneBar([]shop.BarStation{st})
		return BarShear(prof, &prof.Machines[0], Piece{d, strong("s", S, up)}, BarCut{Shape: Square})
	}
	// 400 mm2 x 345 MPa = 138 kN; at 415 166 kN.
	wantGrade(t, "just below", at(166.01, 20, 345, 415).Grade(), OK)
	wantGrade(t, "tight", at(165.9, 20, 345, 415).Grade(), Care)
	wantGrade(t, "at", at(138, 20, 345, 345).Grade(), OK)
	wantGrade(t, "just above", at(137.9, 20, 345, 345).Grade(), Fail)
	wantGrade(t, "nothing stated", at(0, 20, 345, 345).Grade(), Unknown)
	// 20 x 20 of 430 MPa needs 172 kN: the force is there, the row would not be.
	wantGrade(t, "stronger within the force", at(200, 20, 430, 430).Grade(), OK)
}

// What is missing is never a pass; a mitre is never cut; hardened metal never.
func TestBarMissing(t *testing.T) {
	prof := oneBar([]shop.BarStation{{Shape: Round, CavitiesMM: []float64{20}}})
	m := &prof.Machines[0]
	wantGrade(t, "no size", BarShear(prof, m, Piece{0, mild()}, BarCut{Shape: Round}).Grade(), Unknown)
	wantGrade(t, "no material", BarShear(prof, m, Piece{20, nil}, BarCut{Shape: Round}).Grade(), Unknown)
	wantGrade(t, "no such shear", BarShear(prof, m, Piece{20, mild()}, BarCut{Shape: Square}).Grade(), Fail)
	wantGrade(t, "mitre", BarShear(prof, m, Piece{20, mild()}, BarCut{Shape: Round, OffSquareRad: math.Pi / 4}).Grade(), Fail)
	hard := mild()
	hard.Punchable = false
	wantGrade(t, "hardened", BarShear(prof, m, Piece{20, hard}, BarCut{Shape: Round}).Grade(), Fail)
	loose := oneBar([]shop.BarStation{{Shape: Round, MaxMM: 20}})
	wantGrade(t, "no cavities stated", BarShear(loose, &loose.Machines[0], Piece{15, mild()}, BarCut{Shape: Round}).Grade(), Remark)
}

// A cavity of the shop file always passes in its steel; 1 % more size or
// strength does not, unless another cavity covers it.
func TestBarRowsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := rapid.SampledFrom([]string{Round, Square}).Draw(t, "shape")
		size, cavities := rapid.Float64Range(5, 20).Draw(t, "first"), []float64{}
		for range rapid.IntRange(1, 6).Draw(t, "n") {
			cavities = append(cavities, size)
			size *= rapid.Float64Range(1.05, 1.6).Draw(t, "step")
		}
		prof := oneBar([]shop.BarStation{{Shape: shape, CavitiesMM: cavities}})
		S := rapid.Float64Range(50, 345).Draw(t, "S")
		up := S * rapid.Float64Range(1, 1.4).Draw(t, "up")
		at := func(d, S, up float64) Grade {
			return BarShear(prof, &prof.Machines[0], Piece{d, strong("s", S, up)}, BarCut{Shape: shape}).Grade()
		}
		i := rapid.IntRange(0, len(cavities)-1).Draw(t, "i")
		if g := at(cavities[i], S, up); g != OK {
			t.Fatalf("cavity %v in %v MPa: %v", cavities[i], S, g)
		}
		last := cavities[len(cavities)-1]
		if g := at(last*1.01, S, up); g != Fail {
			t.Fatalf("1 %% above the largest: %v", g)
		}
		if g := at(last, 345*1.01, 345*1.01); g != Fail {
			t.Fatalf("1 %% stronger in the largest: %v", g)
		}
	})
}

// Channels by the blades' list: depth, flange, web, and stronger steel by its
// strength. UPN 100 is 100 x 50 x 6, UPN 80 80 x 45 x 6 (EN 10365).
func TestChannelRows(t *testing.T) {
	prof := oneBar([]shop.BarStation{{Shape: "channel", Channels: []shop.ChannelRow{{DepthMM: 80, FlangeMM: 45, WebMM: 6}, {DepthMM: 100, FlangeMM: 50, WebMM: 6}}}})
	m := &prof.Machines[0]
	for _, c := range []struct {
		what             string
		depth, b, web, S float64
		want             Grade
	}{
		{"UPN 100", 100, 50, 6, 345, OK}, {"UPN 80", 80, 45, 6, 345, OK},
		{"depth just above", 100.01, 50, 6, 345, Fail}, {"flange just above", 100, 50.01, 6, 345, Fail}, {"web just above", 100, 50, 6.01, 345, Fail},
		{"depth just 1 mm less", 99, 50, 6, 345, OK}, {"depth more than 1 mm less", 98.99, 50, 6, 345, Care},
		{"softer", 100, 50, 6, 100, OK}, {"softer and thicker", 100, 50, 6.1, 100, Fail},
		{"stronger", 100, 50, 6, 350, Fail}, {"stronger and thinner", 100, 50, 5.9, 350, OK},
		{"flange not known", 100, 0, 6, 345, Unknown}, {"web not known", 100, 50, 0, 345, Unknown}, {"depth not known", 0, 50, 6, 345, Unknown},
	} {
		u := ChannelShear(prof, m, Piece{c.web, strong("s", c.S, c.S)}, Channel{Name: c.what, DepthMM: c.depth, FlangeMM: c.b, WebMM: c.web})
		wantGrade(t, c.what, u.Grade(), c.want)
	}
	wantGrade(t, "no material", ChannelShear(prof, m, Piece{6, nil}, Channel{DepthMM: 100, FlangeMM: 50, WebMM: 6}).Grade(), Unknown)
	wantGrade(t, "mitre", ChannelShear(prof, m, Piece{6, mild()}, Channel{DepthMM: 100, FlangeMM: 50, WebMM: 6, OffSquareRad: 0.5}).Grade(), Fail)
	// Depth alone stated: stronger steel needs a force and an area, else nothing
	// is known of it. 1350 mm2 x 430 MPa = 580.5 kN.
	for _, c := range []struct {
		what           string
		S, area, force float64
		want           Grade
	}{
		{"mild", 345, 0, 0, Remark}, {"strong, nothing known", 430, 0, 0, Unknown}, {"strong, no area", 430, 0, 600, Unknown}, {"strong, no force", 430, 1350, 0, Unknown},
		{"strong, at the force", 430, 1350, 580.5, Remark}, {"strong, above the force", 430, 1350, 580.4, Fail},
	} {
		st := shop.BarStation{Shape: "channel", MaxMM: 100}
		st.ForceKN, st.UsableKN = c.force, c.force
		prof := oneBar([]shop.BarStation{st})
		u := ChannelShear(prof, &prof.Machines[0], Piece{6, strong("s", c.S, c.S)}, Channel{Name: "UPN 100", DepthMM: 100, FlangeMM: 50, WebMM: 6, AreaMM2: c.area})
		wantGrade(t, c.what, u.Grade(), c.want)
	}
}

// Tubes by rows of side and wall; stronger steel linear in the wall.
func TestTubeRows(t *testing.T) {
	prof := oneBar(nil, shop.TubeStation{Shape: Square, Rows: []shop.Row{{ThicknessMM: 4, SizeMM: 40}, {ThicknessMM: 3, SizeMM: 60}}})
	m := &prof.Machines[0]
	for _, c := range []struct {
		what          string
		size, wall, S float64
		want          Grade
	}{
		{"row", 40, 4, 345, OK}, {"other row", 60, 3, 345, OK}, {"smaller", 30, 2, 345, OK},
		{"side 1 % beyond", 60.6, 3, 345, Fail}, {"wall 1 % beyond", 40, 4.04, 345, Fail},
		{"between", 45, 3.5, 345, Care}, {"above the line between", 55, 3.9, 345, Fail},
		{"stronger", 40, 4, 348.5, Fail}, {"stronger and thinner", 40, 3.9, 350, OK}, {"softer, no more", 40, 4.1, 100, Fail},
		{"wall not known", 40, 0, 345, Unknown}, {"side not known", 0, 3, 345, Unknown},
	} {
		u := TubeShear(prof, m, Piece{c.wall, strong("s", c.S, c.S)}, TubeCut{Name: "tube", SizeMM: c.size})
		wantGrade(t, c.what, u.Grade(), c.want)
	}
	wantGrade(t, "round", TubeShear(prof, m, Piece{3, mild()}, TubeCut{Round: true, SizeMM: 40}).Grade(), Fail)
	wantGrade(t, "mitre", TubeShear(prof, m, Piece{3, mild()}, TubeCut{SizeMM: 40, OffSquareRad: math.Pi / 4}).Grade(), Fail)
}

// coper is a shop with a saddle tool for two pipes and a pointing tool.
func coper() *shop.Profile {
	return &shop.Profile{Name: "coper", Units: "mm", Machines: []shop.Machine{{Name: "one"}, {Name: "two"}}, Ends: []shop.EndTool{
		{Name: "saddle", Work: "saddle", Shapes: []string{RoundTube}, LeastAngleRad: math.Pi / 2, BasisMPa: 345, Machine: "one",
			Sizes: []shop.EndSize{{SizeMM: 42.2, ThicknessMM: 3.56, HeaderMM: 42.2}, {SizeMM: 48.3, ThicknessMM: 3.68, HeaderMM: 60.3}}},
		{Name: "point", Work: "point", Shapes: []string{RoundBar, SquareBar}, BasisMPa: 345, Sizes: []shop.EndSize{{SizeMM: 20}}},
		{Name: "flatten", Work: "flatten", Shapes: []string{RoundTube}, BasisMPa: 345, Sizes: []shop.EndSize{{SizeMM: 30, ThicknessMM: 4}, {SizeMM: 50, ThicknessMM: 2}}},
	}}
}

func TestEndTools(t *testing.T) {
	prof := coper()
	for _, c := range []struct {
		what                                string
		work, shape                         string
		machine                             int
		size, wall, header, angle, strength float64
		want                                Grade
	}{
		{"its pipe", "saddle", RoundTube, 0, 42.2, 3.56, 0, 0, 345, OK},
		{"in inches", "saddle", RoundTube, 0, 1.66 * 25.4, .140 * 25.4, 0, 90, 345, OK},
		{"wall 1 % beyond", "saddle", RoundTube, 0, 42.2, 3.6, 0, 90, 345, Fail},
		{"schedule 80", "saddle", RoundTube, 0, 42.2, 4.85, 0, 90, 345, Fail},
		{"0.5 off", "saddle", RoundTube, 0, 42.7, 3, 0, 90, 345, OK}, {"0.51 off", "saddle", RoundTube, 0, 42.71, 3, 0, 90, 345, Care},
		{"1.5 off", "saddle", RoundTube, 0, 43.7, 3, 0, 90, 345, Care}, {"1.51 off", "saddle", RoundTube, 0, 43.71, 3, 0, 90, 345, Fail},
		{"to the larger pipe", "saddle", RoundTube, 0, 48.3, 3.68, 60.3, 90, 345, OK},
		{"to its own size, for which there is none", "saddle", RoundTube, 0, 48.3, 3.68, 0, 90, 345, Fail},
		{"to a thinner pipe", "saddle", RoundTube, 0, 48.3, 3.68, 42.2, 90, 345, Fail},
		{"at 60 degrees", "saddle", RoundTube, 0, 42.2, 3, 0, 60, 345, Fail}, {"at 120 degrees", "saddle", RoundTube, 0, 42.2, 3, 0, 120, 345, Fail},
		{"on the other machine", "saddle", RoundTube, 1, 42.2, 3, 0, 90, 345, Fail},
		{"on square tube", "saddle", SquareTube, 0, 42.2, 3, 0, 90, 345, Fail},
		{"stronger", "saddle", RoundTube, 0, 42.2, 3.56, 0, 90, 350, Fail}, {"stronger and thinner", "saddle", RoundTube, 0, 42.2, 3.5, 0, 90, 350, OK},
		{"wall not known", "saddle", RoundTube, 0, 42.2, 0, 0, 90, 345, Unknown},
		{"point", "point", RoundBar, 1, 20, 20, 0, 0, 345, OK}, {"point, too large", "point", SquareBar, 1, 20.01, 20.01, 0, 0, 345, Fail},
		{"point of a tube", "point", RoundTube, 0, 20, 2, 0, 0, 345, Fail},
		// 19 x sqrt(430 / 345) = 21.2; 17.9 gives 19.98.
		{"point, stronger", "point", RoundBar, 0, 19, 19, 0, 0, 430, Fail}, {"point, stronger and smaller", "point", RoundBar, 0, 17.9, 17.9, 0, 0, 430, OK},
		{"flatten, by either size", "flatten", RoundTube, 0, 30, 4, 0, 0, 345, OK}, {"flatten, the other", "flatten", RoundTube, 0, 50, 2, 0, 0, 345, OK}, {"flatten, neither", "flatten", RoundTube, 0, 31, 2.1, 0, 0, 345, Fail},
		{"no tool for it", "dome", RoundBar, 0, 20, 20, 0, 0, 345, Fail},
	} {
		u := EndWork(prof, &prof.Machines[c.machine], Piece{c.wall, strong("s", c.strength, c.strength)},
			EndRequest{Work: c.work, Shape: c.shape, Name: "it", SizeMM: c.size, HeaderMM: c.header, AngleRad: c.angle * math.Pi / 180})
		wantGrade(t, c.what, u.Grade(), c.want)
	}
	wantGrade(t, "no material", EndWork(prof, &prof.Machines[0], Piece{3, nil}, EndRequest{Work: "saddle", Shape: RoundTube, SizeMM: 42.2}).Grade(), Unknown)
}

// A public worked example: a 4 in pipe on a 6 in pipe, both by nominal size, is
// cut 0.881 to 0.882 in deep; a pipe on its own size as deep as its radius.
func TestSaddleDepth(t *testing.T) {
	near(t, "4 on 6", SaddleDepth(4.5/2, 6.625/2), 0.8815, 0.0006)
	near(t, "equal", SaddleDepth(24.15, 24.15), 24.15, 1e-9)
	near(t, "thinner header", SaddleDepth(30, 20), 30, 0)
}

// A row of a tube shear and a channel of the list always pass in their steel or
// a softer one; 1 % more in one direction, or 1 % stronger, does not.
func TestTubeAndChannelRowsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size, wall := rapid.Float64Range(20, 60).Draw(t, "size"), rapid.Float64Range(4, 8).Draw(t, "wall")
		var rows []shop.Row
		for range rapid.IntRange(1, 4).Draw(t, "n") {
			rows = append(rows, shop.Row{ThicknessMM: wallOf(wall), SizeMM: size})
			size, wall = size*rapid.Float64Range(1.05, 1.5).Draw(t, "longer"), wall*rapid.Float64Range(0.7, 0.95).Draw(t, "thinner")
		}
		prof := oneBar([]shop.BarStation{{Shape: "channel", Channels: []shop.ChannelRow{{DepthMM: rows[0].SizeMM, FlangeMM: rows[0].SizeMM / 2, WebMM: rows[0].ThicknessMM}}}}, shop.TubeStation{Shape: Square, Rows: rows})
		m := &prof.Machines[0]
		tube := func(size, wall, S float64) Grade {
			return TubeShear(prof, m, Piece{wall, strong("s", S, S)}, TubeCut{Name: "tube", SizeMM: size}).Grade()
		}
		channel := func(k, kb, kw, S float64) Grade {
			c := prof.Machines[0].Bars[0].Channels[0]
			return ChannelShear(prof, m, Piece{c.WebMM * kw, strong("s", S, S)}, Channel{Name: "c", DepthMM: c.DepthMM * k, FlangeMM: c.FlangeMM * kb, WebMM: c.WebMM * kw}).Grade()
		}
		S := rapid.Float64Range(50, 345).Draw(t, "S")
		r := rows[rapid.IntRange(0, len(rows)-1).Draw(t, "i")]
		// A wall is compared to the hundredth: 1 % of it is more than that.
		if tube(r.SizeMM, r.ThicknessMM, S) != OK || tube(r.SizeMM*1.01, r.ThicknessMM, S) != Fail || tube(r.SizeMM, r.ThicknessMM*1.01, S) != Fail || tube(r.SizeMM, r.ThicknessMM, 345*1.01) != Fail {
			t.Fatalf("tube row %v of %v in %v MPa", r, rows, S)
		}
		if channel(1, 1, 1, S) != OK || channel(1.01, 1, 1, S) != Fail || channel(1, 1.01, 1, S) != Fail || channel(1, 1, 1.01, S) != Fail || channel(1, 1, 1, 345*1.01) != Fail {
			t.Fatalf("channel %+v in %v MPa", prof.Machines[0].Bars[0].Channels[0], S)
		}
	})
}
