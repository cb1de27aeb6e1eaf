package check

import (
	"math"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// judgedWith runs the rules with the literal plan, every edge of one kind.
func judgedWith(e Example, kind plan.EdgeKind, change ...func(*shop.Profile, *plan.Job)) *PartReport {
	prof := *shop.BuiltIn()
	for _, c := range change {
		c(&prof, &e.Job)
	}
	rep, _ := judgeOnce(e.Part, &prof, e.Job, circumstances{inch: prof.Units == "in"}, func(part *features.Part, prof *shop.Profile, job plan.Job) *plan.Plan {
		pl := literal(part, prof, job)
		for i := range pl.Edges {
			pl.Edges[i] = kind
		}
		return pl
	})
	return rep
}

// named gives every hole of a case a bolt.
func named(e Example, bolt string) Example {
	for i := range e.Part.Features {
		if f := &e.Part.Features[i]; f.IsInside() {
			f.BoltDesignation = bolt
		}
	}
	return e
}

// Every row of CSA S16-09 Table 6 and of AISC 360-05 Table J3.4 (J3.4M), at a
// mill edge, a sheared, a notched, a flame cut, a ground edge and one of no
// known kind, just below, at and just above its limit. A kind that is not known
// asks for what a sheared edge does.
func TestEdgeKindsRowByRow(t *testing.T) {
	n := 0
	for _, m := range facts(t, "edge_kinds.csv") {
		if m["code"] == "is" {
			continue
		}
		k := map[string]float64{"in": 25.4, "mm": 1}[m["unit"]]
		d, need := num(t, m["bolt_d"])*k, num(t, m["min_edge"])*k
		var row *boltRow
		table := tableOf(m["code"])
		for _, rows := range [][]boltRow{table.metric, table.inch} {
			for i := range rows {
				if math.Abs(rows[i].boltMM-d) < 1e-9 && strings.HasPrefix(rows[i].name, "M") == (m["unit"] == "mm") {
					row = &rows[i]
				}
			}
		}
		if row == nil {
			t.Fatalf("no row for %v", m)
		}
		kinds := []plan.EdgeKind{plan.EdgeSheared, plan.EdgeNotched, plan.EdgeUnknown}
		if m["edge_kind"] != "sheared" {
			kinds = []plan.EdgeKind{plan.EdgeMill, plan.EdgeThermal, plan.EdgeGround}
		}
		worst := Error
		if m["code"] != "csa" && need-0.01 > d {
			worst = Warning
		}
		unit := inches
		if m["unit"] == "mm" {
			unit = func(*shop.Profile, *plan.Job) {}
		}
		for _, kind := range kinds {
			for _, c := range []struct {
				e    float64
				want Severity
			}{{need - 0.01, worst}, {need, ""}, {need + 0.01, ""}} {
				e := named(twoHoles(row.standardMM, c.e), strings.TrimSuffix(row.name, " in"))
				f := wantSeverity(t, judgedWith(e, kind, inCode(m["code"]), unit), "edge-distance", c.want)
				n++
				if f == nil {
					continue
				}
				near(t, m["code"]+" "+row.name, f.Limit.Value, need, 1e-9)
				if kind == plan.EdgeUnknown && !strings.Contains(f.Message, "taken as sheared") {
					t.Errorf("not said aloud: %s", f.Message)
				}
			}
		}
	}
	if n != (14+14+14)*3*3 {
		t.Errorf("%d cases", n)
	}
}

// A sheared edge between the two distances: the shop's own way out is a mill
// edge, as CSA S16 asks M20 for 34 mm at a sheared and 26 mm at a rolled one.
func TestMillEdgeWouldDo(t *testing.T) {
	f := wantSeverity(t, judgedWith(named(twoHoles(22, 30), "M20"), plan.EdgeSheared, inCode("csa")), "edge-distance", Error)
	if f == nil || strings.Count(f.Message, "sheared") != 1 || f.Who != "shop" || f.FixBy != "shop" || !strings.Contains(f.Fix, "26 mm") {
		t.Errorf("%+v", f)
	}
	f = wantSeverity(t, judgedWith(named(twoHoles(22, 25.9), "M20"), plan.EdgeSheared, inCode("csa")), "edge-distance", Error)
	if f == nil || f.FixBy != "drawing" {
		t.Errorf("%+v", f)
	}
	// By the real planner: a flat of the rack keeps its mill edges.
	prof := shop.BuiltIn()
	s275, _ := prof.Material("S275")
	b := examplePlate("strap", 600, 60)
	b.hole(60, 30, 22)
	b.hole(540, 30, 22)
	rep := RunPart(b.p, prof, plan.Job{ThicknessMM: 10, ThicknessFrom: "flag", Material: s275, MaterialName: "S275", Code: "csa"})
	if rep.Plan.Blank.Form != "bar" {
		t.Fatalf("blank %+v", rep.Plan.Blank)
	}
	wantSeverity(t, rep, "edge-distance", "") // 30 to the long mill edges, 60 to the sheared ends
}

// IS 800:2007 10.2.4.2: 1.5 d0 = 33 for a hole of 22, 1.7 d0 = 37.4 at a
// sheared or flame cut edge; pitch 2.5 d = 50 for M20 (worked item C33).
func TestIS800(t *testing.T) {
	have := ""
	for _, m := range facts(t, "edge_kinds.csv") {
		if m["code"] == "is" {
			have = m["min_edge"]
		}
	}
	if have != "1.5*d0" || isEdgeFactor != 1.5 {
		t.Errorf("table says %s", have)
	}
	for _, c := range []struct {
		kind plan.EdgeKind
		e    float64
		want Severity
	}{
		{plan.EdgeMill, 32.99, Error}, {plan.EdgeMill, 33, ""}, {plan.EdgeMill, 33.01, ""}, {plan.EdgeGround, 33, ""},
		{plan.EdgeSheared, 37.39, Error}, {plan.EdgeSheared, 37.4, ""}, {plan.EdgeSheared, 37.41, ""}, {plan.EdgeThermal, 37.39, Error}, {plan.EdgeUnknown, 37.39, Error},
	} {
		f := wantSeverity(t, judgedWith(twoHoles(22, c.e), c.kind, inCode("is")), "edge-distance", c.want)
		if f != nil {
			near(t, string(c.kind), f.Limit.Value, map[bool]float64{true: 33, false: 37.4}[c.kind == plan.EdgeMill], 1e-9)
		}
	}
	pitchLimits(t, "is", "M20", 22, 50)
	pitchLimits(t, "csa", "M20", 22, 54)   // 2.7 d, from memory
	pitchLimits(t, "csa", "M36", 39, 97.2) // 2.7 d
	// Of slots from the centres of their ends: 22 x 50 end to end, 28 apart on the centre lines.
	for _, c := range []struct {
		dx   float64
		want Severity
	}{{28 + 49.99, Error}, {28 + 50, ""}} {
		b := examplePlate("plate", 600, 300)
		b.slot(200, 150, 22, 50)
		b.slot(200+c.dx, 150, 22, 50)
		wantSeverity(t, judged(named(b.example("", 10, "is"), "M20")), "hole-pitch", c.want)
	}
	// C33: a plate 140 wide takes two M20 across: 33 + 50 + 33 = 116, three need 166.
	across := func(n int) *PartReport {
		b := examplePlate("plate", 300, 140)
		for i := range n {
			b.hole(150, 70+(140-66)/float64(max(1, n-1))*(float64(i)-float64(n-1)/2), 22)
		}
		return judgedWith(named(b.example("", 10, "is"), "M20"), plan.EdgeMill)
	}
	wantSeverity(t, across(2), "hole-pitch", "")
	wantSeverity(t, across(2), "edge-distance", "")
	if len(of(across(3), "hole-pitch")) == 0 {
		t.Error("three fit")
	}
}

func pitchLimits(t *testing.T, code, bolt string, hole, need float64) {
	t.Helper()
	for _, c := range []struct {
		p    float64
		want Severity
	}{{need - 0.01, Error}, {need, ""}, {need + 0.01, ""}} {
		b := examplePlate("plate", 1200, 600)
		b.hole(300, 300, hole)
		b.hole(300+c.p, 300, hole)
		if f := wantSeverity(t, judged(named(b.example("", 10, code), bolt)), "hole-pitch", c.want); f != nil {
			near(t, code, f.Limit.Value, need, 1e-9)
		}
	}
}

// A bolt that the table has not takes the next larger row and says so; beyond
// the table its own expressions hold.
func TestBoltsOffTheTable(t *testing.T) {
	for _, c := range []struct {
		code, bolt  string
		edge, sheet float64
		note        bool
	}{
		{"csa", "3/4", 26, 34, true},       // M20's row
		{"csa", "M42", 52.5, 73.5, false},  // 1.25 d, 1.75 d
		{"aisc", "M18", 26, 26, true},      // M20's row
		{"aisc", "M42", 52.5, 52.5, false}, // J3.4M: over 36, 1.25 d
		{"aisc", "1-3/4", 1.25 * 1.75 * 25.4, 1.25 * 1.75 * 25.4, false},
		{"aisc-2005", "1-3/4", 1.25 * 1.75 * 25.4, 1.75 * 1.75 * 25.4, false},
	} {
		table := tableOf(c.code)
		r, note, ok := table.rowOf(c.bolt)
		if !ok || (note != "") != c.note {
			t.Errorf("%s %s: %v %q", c.code, c.bolt, ok, note)
		}
		near(t, c.code+" "+c.bolt, r.edgeMM, c.edge, 1e-9)
		near(t, c.code+" "+c.bolt+" sheared", r.shearedMM, c.sheet, 1e-9)
		d, _ := boltSizeMM(c.bolt)
		near(t, c.code+" "+c.bolt+" bolt", r.boltMM, d, 1e-9)
	}
}

// The holes of AISC 360-10 Table J3.3: standard d + 1/16 in, short slot
// d + 3/8 in long, long slot 2.5 d, for bolts of 1 in and more; smaller ones and
// the metric ones as in 360-22. From memory; several pages print this table
// for later editions too.
func TestOlderHoles(t *testing.T) {
	n := 0
	for _, m := range facts(t, "aisc_holes_2010.csv") {
		for _, r := range aiscInch("aisc-2010") {
			if math.Abs(r.boltMM-num(t, m["bolt_d"])*25.4) > 1e-9 {
				continue
			}
			n++
			for _, c := range []struct {
				col string
				got float64
			}{{"std_dia", r.standardMM}, {"oversize_dia", r.oversizeMM}, {"short_slot_w", r.slotMM}, {"short_slot_l", r.shortMM}, {"long_slot_w", r.slotMM}, {"long_slot_l", r.longMM}} {
				near(t, r.name+" "+c.col, c.got, num(t, m[c.col])*25.4, 1e-9)
			}
		}
	}
	if n != len(aiscInch("aisc-2010")) {
		t.Errorf("%d rows", n)
	}
	b := aiscInchBeyond("aisc-2010", 1.5)
	r := aiscInch("aisc-2010")[8]
	r.name = ""
	if math.Abs(b.standardMM-r.standardMM) > 1e-9 || math.Abs(b.longMM-r.longMM) > 1e-9 || math.Abs(b.edgeMM-r.edgeMM) > 1e-9 || math.Abs(b.shortMM-r.shortMM) > 1e-9 {
		t.Errorf("the expressions do not meet the table: %+v %+v", b, r)
	}
	if m := aiscMetric("aisc"); m[7].standardMM != aiscMetricBeyond("aisc", 36).standardMM || m[7].shortMM != aiscMetricBeyond("aisc", 36).shortMM || m[7].oversizeMM != aiscMetricBeyond("aisc", 36).oversizeMM {
		t.Error("M36")
	}
}

// Greatest distances, only on request: every row of EN 1993-1-8 Table 3.3, and
// AISC 360-22 J3.6, just below, at and just above.
func TestGreatestDistances(t *testing.T) {
	ask := func(weathering bool) func(*shop.Profile, *plan.Job) {
		return func(_ *shop.Profile, j *plan.Job) { j.Exposure, j.Weathering = true, weathering }
	}
	for _, c := range []struct {
		code       string
		weathering bool
		t          float64
		edge       float64 // 0 not looked at
		pitch      float64
	}{
		{"en", false, 10, 80, 140}, {"en", false, 20, 120, 200}, // 4 t + 40; min(14 t, 200)
		{"en", true, 10, 125, 140}, {"en", true, 20, 160, 175}, // max(8 t, 125); min(14 t, 175)
		{"aisc", false, 10, 120, 240}, {"aisc", false, 20, 150, 300}, // min(12 t, 150); min(24 t, 300)
		{"aisc", true, 10, 120, 140}, {"aisc", true, 20, 150, 180}, // min(14 t, 180)
		{"csa", false, 10, 120, 0}, {"csa", false, 20, 150, 0},
		{"is", false, 10, 12 * 10 * math.Sqrt(250.0/235), 300}, {"is", false, 6, 12 * 6 * math.Sqrt(250.0/235), 192},
	} {
		for _, d := range []struct {
			off  float64
			want Severity
		}{{-0.01, ""}, {0, ""}, {0.01, Note}} {
			b := examplePlate("plate", 2*(c.edge+d.off)+100, 2*(c.edge+d.off))
			b.hole(c.edge+d.off, c.edge+d.off, 22)
			b.hole(c.edge+d.off+100, c.edge+d.off, 22)
			f := wantSeverity(t, judged(named(b.example("", c.t, c.code), "M20"), ask(c.weathering)), "edge-distance", d.want)
			if f != nil {
				near(t, c.code+" edge", f.Limit.Value, c.edge, 1e-6)
			}
			if c.pitch == 0 {
				continue
			}
			b = examplePlate("plate", c.pitch+d.off+100, 100)
			b.hole(50, 50, 22)
			b.hole(50+c.pitch+d.off, 50, 22)
			if f := wantSeverity(t, judged(named(b.example("", c.t, c.code), "M20"), ask(c.weathering)), "hole-pitch", d.want); f != nil {
				near(t, c.code+" pitch", f.Limit.Value, c.pitch, 1e-6)
			}
			wantSeverity(t, judged(named(b.example("", c.t, c.code), "M20")), "hole-pitch", "")
		}
	}
	// Inches: 6 in; 12 in painted, 7 in weathering.
	for _, c := range []struct {
		weathering bool
		inch       float64
	}{{false, 12}, {true, 7}} {
		for _, off := range []float64{-0.01, 0.01} {
			b := examplePlate("plate", c.inch*25.4+off+100, 100)
			b.hole(50, 50, 22)
			b.hole(50+c.inch*25.4+off, 50, 22)
			want := map[bool]Severity{true: Note, false: ""}[off > 0]
			wantSeverity(t, judged(named(b.example("", 25, "aisc"), "M20"), inches, ask(c.weathering)), "hole-pitch", want)
		}
	}
	// p1,i = min(28 t, 400 mm) is told beside it.
	b := examplePlate("plate", 400, 100)
	b.hole(50, 50, 22)
	b.hole(250, 50, 22)
	if f := wantSeverity(t, judged(named(b.example("", 10, "en"), "M20"), ask(false)), "hole-pitch", Note); f != nil && !strings.Contains(f.Basis, "min(28 t, 400 mm) = 280 mm") {
		t.Error(f.Basis)
	}
	// EN 1993-1-8 Table 3.3 as typed in.
	for _, m := range facts(t, "en_spacing.csv") {
		want := map[string][2]string{"e1": {"4t+40 mm", "max(8t,125 mm)"}, "e2": {"4t+40 mm", "max(8t,125 mm)"}, "p1": {"min(14t,200 mm)", "min(14tmin,175 mm)"}, "p2": {"min(14t,200 mm)", "min(14tmin,175 mm)"}, "p1,0 (outer row)": {"min(14t,200 mm)", ""}, "p1,i (inner row)": {"min(28t,400 mm)", ""}}
		if w, ok := want[m["quantity"]]; ok && (m["max_exposed"] != w[0] || m["max_weathering"] != w[1]) {
			t.Errorf("row %v", m)
		}
	}
}

// Slots end to end, clear distance under d: an error by 360-22, for editions
// that do not ask it a warning. 3/4 in long slots 13/16 x 1-7/8: 2.625 in.
func TestClearDistanceByEdition(t *testing.T) {
	for code, want := range map[string]Severity{"aisc": Error, "aisc-2010": Warning, "aisc-2005": Warning} {
		for _, c := range []struct {
			p  float64
			ok bool
		}{{2.5, false}, {2.625, true}} {
			b := examplePlate("plate", 400, 200)
			b.slot(100, 100, 13.0/16*25.4, 1.875*25.4)
			b.slot(100+c.p*25.4, 100, 13.0/16*25.4, 1.875*25.4)
			w := want
			if c.ok {
				w = ""
			}
			if f := wantSeverity(t, judged(b.example("", 10, code), inches), "hole-pitch", w); f != nil {
				near(t, code, f.Limit.Value/25.4, 2.625, 1e-9)
			}
		}
	}
}

// Thickness above which a code forbids punching, just below, at and above.
func TestPunchingLimits(t *testing.T) {
	fy := func(mpa float64) func(*shop.Profile, *plan.Job) {
		return func(_ *shop.Profile, j *plan.Job) {
			m := *j.Material
			m.YieldMPa = mpa
			j.Material = &m
		}
	}
	noDrill := func(p *shop.Profile, _ *plan.Job) {
		p.Also = nil
	}
	for _, c := range []struct {
		code, bolt string
		hole, fy   float64
		limit      float64
	}{
		{"is", "M30", 33, 250, 22.4},         // C34: 5600 / 250
		{"is", "M20", 22, 345, 5600.0 / 345}, // 16.2
		{"is", "M20", 22, 360, 5600.0 / 360},
		{"csa", "M20", 25, 235, 24},       // d + 4, from memory
		{"aisc-2005", "M20", 24, 235, 23}, // d + 3
		{"aisc-2005", "3/4", 24, 235, 7.0 / 8 * 25.4},
	} {
		unit := func(*shop.Profile, *plan.Job) {}
		if strings.Contains(c.bolt, "/") {
			unit = inches
		}
		for _, d := range []struct {
			off  float64
			want Severity
		}{{-0.01, ""}, {0, ""}, {0.01, Warning}} {
			b := examplePlate("plate", 1000, 600)
			b.hole(300, 300, c.hole)
			b.hole(600, 300, c.hole)
			off := d.off
			if strings.Contains(c.bolt, "/") || c.fy == 345 {
				off *= 40 // 7/8 in and 16 mm are stock sizes: what is nearer is that size
			}
			e := named(b.example("", c.limit+off, c.code), c.bolt)
			if f := wantSeverity(t, judged(e, fy(c.fy), unit), "punching-limit", d.want); f != nil {
				near(t, c.code, f.Limit.Value, c.limit, 1e-9)
			}
			if d.want != "" {
				if f := wantSeverity(t, judged(e, fy(c.fy), unit, noDrill), "punching-limit", Error); f != nil && !strings.Contains(f.Message, "no drill") {
					t.Error(f.Message)
				}
			}
		}
	}
	plate := func(code string, thick float64) Example {
		b := examplePlate("plate", 1000, 600)
		b.hole(300, 300, 22)
		b.hole(600, 300, 22)
		return named(b.example("", thick, code), "M20")
	}
	// C34: 410 MPa is not punched at all, 360 is.
	wantSeverity(t, judged(plate("is", 10), fy(360)), "punching-limit", "")
	if f := wantSeverity(t, judged(plate("is", 10), fy(410)), "punching-limit", Warning); f != nil {
		near(t, "fy", f.Limit.Value, 360, 0)
	}
	// Not known: said, and not passed over.
	said := false
	for _, s := range judged(plate("is", 10), fy(0)).Skipped {
		said = said || s.Rule == "punching-limit" && strings.Contains(s.Why, "yield")
	}
	if !said {
		t.Error("nothing is said of a yield strength that is not known")
	}
	// Of one cause one rule: t > d0 is left to punch-ratio.
	e := plate("en", 23)
	if f := wantSeverity(t, judged(e), "punching-limit", Warning); f != nil {
		near(t, "EN 1090-2", f.Limit.Value, 22, 0)
	}
	rep := RunPart(e.Part, shop.BuiltIn(), e.Job)
	wantSeverity(t, rep, "punching-limit", "")
	if len(of(rep, "punch-ratio")) == 0 {
		t.Error("punch-ratio says nothing")
	}
	for _, code := range []string{"aisc", "aisc-2010", "", "en"} {
		wantSeverity(t, judged(plate(code, 22)), "punching-limit", "")
	}
	// The owner's own rule, without a code: M20 + 3 mm.
	own := func(p *shop.Profile, _ *plan.Job) {
		p.Settings = map[string]map[string]float64{"punching-limit": {"bolt-plus": 3.175}}
	}
	b := examplePlate("plate", 1000, 600)
	b.hole(300, 300, 26)
	b.hole(600, 300, 26)
	for _, c := range []struct {
		t    float64
		want Severity
	}{{23.17, ""}, {23.175, ""}, {23.18, Warning}} {
		wantSeverity(t, judged(named(b.example("", c.t, "aisc"), "M20"), own), "punching-limit", c.want)
	}
	// Drilled holes are not spoken of.
	e = plate("is", 10)
	rep, _ = judgeOnce(e.Part, shop.BuiltIn(), func() plan.Job { fy(410)(nil, &e.Job); return e.Job }(), circumstances{}, func(part *features.Part, prof *shop.Profile, job plan.Job) *plan.Plan {
		pl := literal(part, prof, job)
		for i := range pl.Makes {
			if pl.Makes[i].MadeBy == "punch" {
				pl.Makes[i].MadeBy, pl.Makes[i].Use = "drill", station.Use{}
			}
		}
		return pl
	})
	wantSeverity(t, rep, "punching-limit", "")
}

// The class of a hole against the largest size of the chosen code and edition.
func TestHoleClass(t *testing.T) {
	in := func(v float64) float64 { return v * 25.4 }
	run := func(code, bolt, text string, w, l float64, inch bool) *PartReport {
		b := examplePlate("plate", 600, 400)
		if l > w {
			b.slot(200, 200, w, l)
			b.slot(400, 200, w, l)
		} else {
			b.hole(200, 200, w)
			b.hole(400, 200, w)
		}
		e := named(b.example("", 10, code), bolt)
		if text != "" {
			e.Part.CallOuts = append(e.Part.CallOuts, features.CallOut{Text: text, Features: []string{"H1", "H2", "S1", "S2"}})
		}
		unit := func(*shop.Profile, *plan.Job) {}
		if inch {
			unit = inches
		}
		return judged(e, unit)
	}
	for _, c := range []struct {
		code, bolt, text string
		w, l             float64
		inch             bool
		want             Severity
		limit            float64
	}{
		// Smaller than the class is allowed (360-22 J3.3); larger is not.
		{"aisc", "1", "1-1/16 STD FOR 1 BOLTS", in(1.0625), 0, true, "", 0},
		{"aisc", "1", "1-1/8 STD FOR 1 BOLTS", in(1.125), 0, true, "", 0},
		{"aisc-2010", "1", "1-1/8 STD FOR 1 BOLTS", in(1.125), 0, true, Warning, in(1.0625)},
		{"aisc-2010", "1", "1-1/16 STD FOR 1 BOLTS", in(1.0625), 0, true, "", 0},
		{"aisc-2010", "1", "1-1/8 FOR 1 BOLTS", in(1.125), 0, true, "", 0}, // oversized is no wonder when no class is named
		// 1/32 in over is within tolerance, more is not.
		{"aisc", "3/4", "STD", in(0.8125 + 1.0/32), 0, true, "", 0},
		{"aisc", "3/4", "STD", in(0.8125 + 1.0/32 + 0.001), 0, true, Warning, in(0.8125)},
		{"aisc", "3/4", "", in(0.9375 + 1.0/32), 0, true, "", 0},
		{"aisc", "3/4", "", in(0.9375 + 1.0/32 + 0.001), 0, true, Warning, in(0.9375)},
		// C25: 13/16 x 1-1/4 is long-slotted for 3/4.
		{"aisc", "3/4", "SSL", in(0.8125), in(1.25), true, Warning, in(1)},
		{"aisc", "3/4", "LSL", in(0.8125), in(1.25), true, "", 0},
		{"aisc", "3/4", "SHORT SLOTTED HOLES", in(0.8125), in(1), true, "", 0},
		{"aisc", "3/4", "", in(0.8125), in(2.5), true, Warning, in(1.875)},
		{"aisc", "3/4", "STD HOLES", in(0.8125), in(1), true, Warning, in(0.8125)}, // a slot is no standard hole
		{"en", "M20", "STD", 22.5, 0, false, "", 0},
		{"en", "M20", "STD", 22.6, 0, false, Warning, 22},
		{"en", "M20", "OVERSIZED", 24.6, 0, false, Warning, 24},
		{"csa", "M24", "STD", 27, 0, false, "", 0},
		{"is", "M24", "STD", 26, 0, false, "", 0},
		{"is", "M24", "STD", 27, 0, false, Warning, 26},
		// A hole that does not take its bolt.
		{"aisc", "M20", "", 19.81, 0, false, "", 0},
		{"aisc", "M20", "", 19.79, 0, false, Warning, 20},
	} {
		f := wantSeverity(t, run(c.code, c.bolt, c.text, c.w, c.l, c.inch), "hole-class", c.want)
		if f != nil {
			near(t, c.code+" "+c.bolt, f.Limit.Value, c.limit, 1e-9)
			if f.Who != "designer" || len(f.Features) != 2 {
				t.Errorf("%+v", f)
			}
		} else if c.want != "" {
			t.Errorf("of %+v", c)
		}
	}
	// No bolt is named: nothing to hold a size against.
	b := examplePlate("plate", 600, 400)
	b.hole(200, 200, 22)
	b.hole(400, 200, 22)
	wantSeverity(t, judged(b.example("", 10, "aisc")), "hole-class", "")
}

func TestStatedClass(t *testing.T) {
	for text, want := range map[string]string{
		"4 HOLES 1-1/8 STD FOR 1 BOLTS": classStandard, "2X %%c22 STANDARD HOLES": classStandard, "OVS": classOversize, "(4) OVERSIZED HOLES": classOversize,
		"13/16 x 1-7/8 LSL": classLongSlot, "LONG SLOTTED HOLES": classLongSlot, "short-slotted": classShortSlot, "SSL": classShortSlot,
		"SLOTS 22x50": "", "4 x %%c22": "", "50 LONG": "", "STD SLOTS": "",
	} {
		if got := statedClass(text); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// Radii of inside corners by code, just below, at and just above (the last
// 0.05 mm are a drawing's rounding).
func TestCornerRadii(t *testing.T) {
	for _, c := range []struct {
		code, weld string
		class      int
		inch       bool
		least      float64
	}{
		{"aisc", "", 0, false, 10}, {"aisc-2010", "", 0, true, 9.525}, // M2.2, note: 3/8 in (10 mm)
		{"en", "", 0, false, 5}, {"en", "", 2, false, 5}, {"en", "", 4, false, 10}, {"en", "", 1, false, 0}, // EN 1090-2 6.7, from memory
		{"", "aws", 0, false, 25}, {"", "aws", 0, true, 25.4}, {"aisc", "aws", 0, true, 25.4}, // AWS D1.1: 1 in
		{"csa", "", 0, false, 0}, {"is", "", 0, false, 0}, {"", "", 0, false, 0},
	} {
		set := func(p *shop.Profile, j *plan.Job) {
			j.Code, j.WeldCode, j.ExecutionClass = c.code, c.weld, c.class
			if c.inch {
				p.Units = "in"
			}
		}
		corner := func(r float64) *PartReport { return judged(exampleRoundedNotch(r).example("", 6, ""), set) }
		if c.least == 0 {
			wantSeverity(t, corner(1), "inside-corner", "")
		} else {
			for _, d := range []struct {
				off  float64
				want Severity
			}{{-0.06, Warning}, {0, ""}, {0.01, ""}} {
				if f := wantSeverity(t, corner(c.least+d.off), "inside-corner", d.want); f != nil {
					near(t, c.code+c.weld, f.Limit.Value, c.least, 1e-9)
					near(t, c.code+c.weld, f.Got.Value, c.least+d.off, 1e-9)
				}
			}
		}
		// Sharp ones: a note, a warning once a code is chosen.
		want := Warning
		if c.code == "" && c.weld == "" {
			want = Note
		}
		f := wantSeverity(t, judged(exampleNotched("n", 300, 200, 80, 40).example("", 6, ""), set), "inside-corner", want)
		if f != nil && c.least > 0 {
			near(t, "sharp", f.Limit.Value, c.least, 1e-9)
		}
	}
	// Round holes and slots are no corners.
	b := examplePlate("plate", 300, 200)
	b.hole(60, 100, 8)
	b.slot(200, 100, 8, 40)
	wantSeverity(t, judged(b.example("", 6, ""), func(_ *shop.Profile, j *plan.Job) { j.WeldCode = "aws" }), "inside-corner", "")
	// The owner's own.
	own := func(p *shop.Profile, _ *plan.Job) {
		p.Settings = map[string]map[string]float64{"inside-corner": {"radius": 12}}
	}
	wantSeverity(t, judged(exampleRoundedNotch(11.9).example("", 6, ""), own), "inside-corner", Warning)
	wantSeverity(t, judged(exampleRoundedNotch(12).example("", 6, ""), own), "inside-corner", "")
}

// exampleRoundedNotch is a plate with a notch 120 x 60 in the middle of its top
// whose inside corners have radius r.
func exampleRoundedNotch(r float64) *exampleBuilder {
	b := exampleNotched("notched", 400, 300, 120, 60)
	roundNotch(b.p, r)
	return b
}

// The execution class as asked for is held like one that the drawing states.
func TestExecutionClassAsked(t *testing.T) {
	for _, c := range []struct {
		class int
		t     float64
		want  Severity
	}{{0, 10, ""}, {1, 10, ""}, {2, 10, ""}, {3, 10, Warning}, {4, 10, Warning}, {3, 3, ""}, {3, 3.5, Warning}} { // 3.01 is the stock size 3
		b := examplePlate("plate", 300, 200)
		b.hole(100, 100, 22)
		rep := judged(b.example("", c.t, ""), func(_ *shop.Profile, j *plan.Job) { j.ExecutionClass = c.class })
		if f := wantSeverity(t, rep, "punching-class", c.want); f != nil && (!strings.Contains(f.Message, "EXC") || !strings.Contains(f.Fix, "2 mm under size")) {
			t.Errorf("%+v", f)
		}
	}
	// Asked for and stated: said once.
	b := examplePlate("plate", 300, 200)
	b.hole(100, 100, 22)
	b.p.CallOuts = append(b.p.CallOuts, features.CallOut{Text: "EXC3"})
	wantSeverity(t, judged(b.example("", 10, ""), func(_ *shop.Profile, j *plan.Job) { j.ExecutionClass = 3 }), "punching-class", Warning)
}

// roundNotch gives the inside corners of exampleNotched's notch a radius.
func roundNotch(p *features.Part, r float64) {
	o := p.Outline // 3 down, 4 along the bottom to the left, 5 up
	a, b := o[3].To, o[4].To
	down, left := geom.Point{Y: -1}, geom.Point{X: -1}
	up := geom.Point{Y: 1}
	first := geom.ArcEdge(a.Add(left.Mul(r)).Add(up.Mul(r)), a.Sub(down.Mul(r)), a.Add(left.Mul(r)), false)
	second := geom.ArcEdge(b.Sub(left.Mul(r)).Add(up.Mul(r)), b.Sub(left.Mul(r)), b.Add(up.Mul(r)), false)
	ring := geom.Ring{o[0], o[1], o[2], geom.LineEdge(o[3].From, first.From), first, geom.LineEdge(first.To, second.From), second, geom.LineEdge(second.To, o[5].To), o[6], o[7]}
	p.Outline, p.OutlineSource = ring, make([][]features.Source, len(ring))
	for i := range p.Features {
		f := &p.Features[i]
		for k, e := range f.Edges {
			if e >= 6 {
				f.Edges[k] = e + 2
			}
		}
		if f.Kind == features.Notch {
			f.Edges, f.RadiusMM = []int{3, 4, 5, 6, 7}, r
		}
	}
}
