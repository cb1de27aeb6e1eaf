package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
)

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// rowFor gives the row of a bolt in the table of a unit.
func rowFor(t *testing.T, unit string, d float64) (boltRow, float64) {
	t.Helper()
	rows, k := aiscMetric("aisc"), 1.0
	if unit == "in" {
		rows, k = aiscInch("aisc"), 25.4
	}
	for _, r := range rows {
		if math.Abs(r.boltMM-d*k) < 1e-9 {
			return r, k
		}
	}
	t.Fatalf("no row for %g %s", d, unit)
	return boltRow{}, 0
}

func TestAISCHolesRowByRow(t *testing.T) {
	n := 0
	for _, m := range facts(t, "aisc_holes.csv") {
		r, k := rowFor(t, m["unit"], num(t, m["bolt_d"]))
		for _, c := range []struct {
			col string
			got float64
		}{{"std_dia", r.standardMM}, {"oversize_dia", r.oversizeMM}, {"short_slot_w", r.slotMM}, {"short_slot_l", r.shortMM}, {"long_slot_w", r.slotMM}, {"long_slot_l", r.longMM}} {
			near(t, m["bolt_d"]+" "+m["unit"]+" "+c.col, c.got, num(t, m[c.col])*k, 1e-9)
			n++
		}
	}
	if n != 6*(len(aiscInch("aisc"))+len(aiscMetric("aisc"))) {
		t.Errorf("%d cells for %d rows", n, len(aiscInch("aisc"))+len(aiscMetric("aisc")))
	}
}

func TestAISCEdgesRowByRow(t *testing.T) {
	n := 0
	for _, m := range facts(t, "edge_distances.csv") {
		if m["code"] != "aisc" {
			continue
		}
		if d, ok := strings.CutPrefix(m["bolt_d"], ">"); ok {
			if m["min_edge"] != "1.25*d" {
				t.Fatalf("row %v", m)
			}
			k := map[string]float64{"in": 25.4, "mm": 1}[m["unit"]]
			for _, r := range append(aiscInch("aisc"), aiscMetric("aisc")...) {
				if isInch := strings.HasSuffix(r.name, "in"); isInch == (m["unit"] == "in") && r.boltMM > num(t, d)*k+1e-9 {
					near(t, r.name, r.edgeMM, 1.25*r.boltMM, 1e-9)
					n++
				}
			}
			continue
		}
		r, k := rowFor(t, m["unit"], num(t, m["bolt_d"]))
		near(t, m["bolt_d"]+" "+m["unit"], r.edgeMM, num(t, m["min_edge"])*k, 1e-9)
		n++
	}
	if n != len(aiscInch("aisc"))+len(aiscMetric("aisc")) {
		t.Errorf("%d rows were compared", n)
	}
}

func TestAISCIncrementsRowByRow(t *testing.T) {
	n := 0
	for _, m := range facts(t, "aisc_c2.csv") {
		rows, k := aiscMetric("aisc"), 1.0
		if m["unit"] == "in" {
			rows, k = aiscInch("aisc"), 25.4
		}
		for _, r := range rows {
			d := r.boltMM / k
			var mine bool
			switch b := m["bolt_d"]; b {
			case "<=7/8":
				mine = d <= 7.0/8+1e-9
			case "1":
				mine = math.Abs(d-1) < 1e-9
			case ">=1-1/8":
				mine = d >= 1.125-1e-9
			case "<=22":
				mine = d <= 22
			case "24":
				mine = d == 24
			case ">=27":
				mine = d >= 27
			default:
				t.Fatalf("bolt %q", b)
			}
			if !mine {
				continue
			}
			n++
			near(t, r.name+" oversized", r.addOversizeMM, num(t, m["oversized"])*k, 1e-9)
			near(t, r.name+" short", r.addShortMM, num(t, m["short_slot_perp_to_edge"])*k, 1e-9)
			if m["long_slot_perp_to_edge"] != "0.75*d" || m["slot_parallel_to_edge"] != "0" {
				t.Fatalf("row %v", m)
			}
			near(t, r.name+" long", r.addLongMM, 0.75*r.boltMM, 1e-9)
			long := boltReading{class: classLongSlot, edgeMM: r.edgeMM, addMM: r.addLongMM}
			near(t, r.name+" along", long.needMM(true, false), r.edgeMM, 0)
		}
	}
	if n != len(aiscInch("aisc"))+len(aiscMetric("aisc")) {
		t.Errorf("%d rows were compared", n)
	}
}

func TestENTable(t *testing.T) {
	want := map[string]float64{"e1": enEdgeFactor, "e2": enEdgeFactor, "e3 (slot)": enSlotFactor, "e4 (slot)": enSlotFactor, "p1": enPitchFactor, "p2": enLineFactor}
	n := 0
	for _, m := range facts(t, "en_spacing.csv") {
		if m["min"] == "" {
			continue
		}
		w, ok := want[m["quantity"]]
		f, cut := strings.CutSuffix(m["min"], "*d0")
		if !ok || !cut {
			t.Fatalf("row %v", m)
		}
		near(t, m["quantity"], w, num(t, f), 0)
		n++
	}
	if n != len(want) {
		t.Errorf("%d rows", n)
	}
	n = 0
	for _, m := range facts(t, "en_holes.csv") {
		r := enRows()[n]
		for _, c := range []struct {
			col string
			got float64
		}{{"d_mm", r.boltMM}, {"hole_normal_mm", r.standardMM}, {"hole_oversize_mm", r.oversizeMM}, {"short_slot_total_len_mm", r.shortMM}, {"long_slot_total_len_mm", r.longMM}} {
			near(t, "bolt "+m["d_mm"]+" "+c.col, c.got, num(t, m[c.col]), 1e-9)
		}
		n++
	}
	if n != len(enRows()) {
		t.Errorf("%d rows of holes", n)
	}
}

// twoHoles is a plate with two holes; the first is e from the left end, the
// second far away.
func twoHoles(d, e float64) Example {
	b := examplePlate("plate", 1200, 600)
	b.hole(e, 300, d)
	b.hole(700, 300, d)
	return b.example("", 10, "")
}

func inCode(code string) func(*shop.Profile, *plan.Job) {
	return func(_ *shop.Profile, j *plan.Job) { j.Code = code }
}

// Every row of the tables just below, at and just above its limit: below the
// table a warning, below 1.0 d an error.
func TestAISCEdgeLimits(t *testing.T) {
	n := 0
	for _, rows := range [][]boltRow{aiscInch("aisc"), aiscMetric("aisc")} {
		for _, r := range rows {
			unit := inches
			if strings.HasPrefix(r.name, "M") {
				unit = func(*shop.Profile, *plan.Job) {}
			}
			// The bolt is named, so that no other reading of the size comes in.
			run := func(e float64) *PartReport {
				x := twoHoles(r.standardMM, e)
				for i := range x.Part.Features {
					if x.Part.Features[i].IsInside() {
						x.Part.Features[i].BoltDesignation = strings.TrimSuffix(r.name, " in")
					}
				}
				return judged(x, inCode("aisc"), unit)
			}
			for _, c := range []struct {
				e    float64
				want Severity
			}{{r.edgeMM + 0.01, ""}, {r.edgeMM, ""}, {r.edgeMM - 0.01, Warning}, {r.boltMM + 0.01, Warning}, {r.boltMM, Warning}, {r.boltMM - 0.01, Error}} {
				if f := wantSeverity(t, run(c.e), "edge-distance", c.want); f != nil {
					near(t, r.name+" got", f.Got.Value, c.e, 1e-6)
					near(t, r.name+" limit", f.Limit.Value, r.edgeMM, 1e-9)
					if f.Who != "designer" || f.To == nil || f.To.X > 1e-9 {
						t.Errorf("%s: %+v", r.name, f)
					}
				}
				n++
			}
		}
	}
	if n != 6*17 {
		t.Errorf("%d cases", n)
	}
}

// C26 to C32 of the cases: 3/4 in bolts by AISC 360-22, M20 by EN 1993-1-8.
func TestCodeCases(t *testing.T) {
	have := map[string]string{}
	for _, m := range facts(t, "code_cases.csv") {
		have[m["id"]] = m["expected"]
	}
	r34, _ := rowFor(t, "in", 0.75)
	row := []boltRow{r34}
	inch := func(mm float64) float64 { return mm / 25.4 }

	// C25: 13/16 x 1-1/4 for a 3/4 bolt is long-slotted.
	if !strings.HasPrefix(have["C25"], "long slot") {
		t.Fatal(have["C25"])
	}
	l := readSlot(row, 13.0/16*25.4, 1.25*25.4, boltTolInch)
	if len(l) != 1 || l[0].class != classLongSlot {
		t.Errorf("C25: %+v", l)
	}
	if l := readSlot(row, 13.0/16*25.4, 25.4, boltTolInch); l[0].class != classShortSlot {
		t.Errorf("13/16 x 1: %+v", l)
	}
	expect := func(id string, got float64) {
		t.Helper()
		w := num(t, strings.Fields(have[id])[0])
		near(t, id, got, w, 1e-9)
	}
	std := readRound(row, 13.0/16*25.4, boltTolInch)
	expect("C26", inch(std[0].needMM(false, false)))
	ovs := readRound(row, 15.0/16*25.4, boltTolInch)
	expect("C27", inch(ovs[0].needMM(false, false)))
	long := readSlot(row, 13.0/16*25.4, 1.875*25.4, boltTolInch)
	expect("C28", inch(long[0].needMM(false, false)))
	near(t, "C28 along the edge", inch(long[0].needMM(true, false)), 1, 1e-9)
	// A slot of 1-1/2 in is 3/8 in shorter than the table's: C2 falls by 3/16.
	short := readSlot(row, 13.0/16*25.4, 1.5*25.4, boltTolInch)
	near(t, "C2 of a shorter slot", inch(short[0].needMM(false, false)), 1.5625-0.1875, 1e-9)
	expect("C29", inch(std[0].boltMM*aiscPitchFactor))

	// C30: long slots end to end, 2.5 in apart, need 2.625 in.
	b := examplePlate("plate", 400, 200)
	b.slot(100, 100, 13.0/16*25.4, 1.875*25.4)
	b.slot(100+2.5*25.4, 100, 13.0/16*25.4, 1.875*25.4)
	if f := wantSeverity(t, judged(b.example("", 10, "aisc"), inches), "hole-pitch", Error); f != nil {
		expect("C30", inch(f.Limit.Value))
		near(t, "C30 got", inch(f.Got.Value), 2.5, 1e-9)
	}
	b = examplePlate("plate", 400, 200)
	b.slot(100, 100, 13.0/16*25.4, 1.875*25.4)
	b.slot(100+2.625*25.4, 100, 13.0/16*25.4, 1.875*25.4)
	wantSeverity(t, judged(b.example("", 10, "aisc"), inches), "hole-pitch", "")

	// C31: t 3/8 and 5/8 in: greatest edge distance 4.5 and 6 in.
	expect("C31", inch(greatestEdgeAISC(3.0/8*25.4, true)))
	near(t, "C31, 5/8", inch(greatestEdgeAISC(5.0/8*25.4, true)), 6, 1e-9)

	// C32: e 26.4; p1 48.4; p2 52.8; slot edge 33.0.
	if have["C32"] != "e1,e2 26.4; p1 48.4; p2 52.8; slot edge 33.0 mm" {
		t.Fatal(have["C32"])
	}
	for _, c := range []struct {
		e    float64
		want Severity
	}{{26.39, Error}, {26.4, ""}, {26.41, ""}} {
		if f := wantSeverity(t, judged(twoHoles(22, c.e), inCode("en")), "edge-distance", c.want); f != nil {
			near(t, "e", f.Limit.Value, 26.4, 1e-9)
		}
	}
	pitch := func(dx, dy float64) *PartReport {
		b := examplePlate("plate", 600, 400)
		b.hole(200, 200, 22)
		b.hole(200+dx, 200+dy, 22)
		return judged(b.example("", 10, "en"))
	}
	for _, c := range []struct {
		p     float64
		want  Severity
		limit float64
	}{{48.39, Error, 48.4}, {48.4, Warning, 52.8}, {52.79, Warning, 52.8}, {52.8, "", 0}} {
		for _, rep := range []*PartReport{pitch(c.p, 0), pitch(0, c.p)} {
			if f := wantSeverity(t, rep, "hole-pitch", c.want); f != nil {
				near(t, "p", f.Limit.Value, c.limit, 1e-9)
			}
		}
	}
	// Staggered: L >= 2.4 d0 = 52.8, rows 1.2 d0 = 26.4 apart.
	wantSeverity(t, pitch(40, 34.4), "hole-pitch", Error)   // L 52.76
	wantSeverity(t, pitch(40, 34.5), "hole-pitch", "")      // L 52.82
	wantSeverity(t, pitch(52, 26.3), "hole-pitch", Warning) // L 58.3, rows 26.3
	wantSeverity(t, pitch(52, 26.4), "hole-pitch", "")
	for _, c := range []struct {
		e    float64
		want Severity
	}{{32.99, Error}, {33, ""}} {
		b := examplePlate("plate", 600, 400)
		b.slotAt(200, c.e, 22, 50, 0) // e3: axis along the edge
		b.slotAt(400, 200, 22, 50, 0)
		wantSeverity(t, judged(b.example("", 10, "en")), "edge-distance", c.want)
		b = examplePlate("plate", 600, 400)
		b.slotAt(c.e+14, 200, 22, 50, 0) // e4: end towards the edge
		b.slotAt(400, 200, 22, 50, 0)
		if f := wantSeverity(t, judged(b.example("", 10, "en")), "edge-distance", c.want); f != nil {
			near(t, "slot", f.Limit.Value, 33, 1e-9)
		}
	}
}

// The fin plate of Steel Buildings in Europe, Part 5, worked example 3.4: 360 x
// 160, ten holes Ø22 for M20, e1 40, e2 50, p1 70, p2 60: nothing against it.
func TestFinPlate(t *testing.T) {
	for _, code := range []string{"en", "aisc"} {
		for _, thick := range []float64{10, 15} {
			b := examplePlate("fin plate", 160, 360)
			for i := range 5 {
				b.hole(50, 40+70*float64(i), 22)
				b.hole(110, 40+70*float64(i), 22)
			}
			rep := judged(b.example("", thick, code))
			if len(rep.Findings) != 0 || rep.Verdict != Fits {
				t.Errorf("%s, t %g: %s %+v", code, thick, rep.Verdict, rep.Findings)
			}
		}
	}
}

// Which holes are bolt holes (worked cases: a cable hole of 100 mm is none).
func TestBoltHoles(t *testing.T) {
	plate := func() *exampleBuilder {
		b := examplePlate("cover", 600, 400)
		b.hole(70, 200, 100)
		return b
	}
	b := plate()
	b.hole(300, 200, 22)
	b.hole(400, 200, 22)
	rep := judged(b.example("", 4, "en"))
	wantSeverity(t, rep, "edge-distance", "")
	found := false
	for _, s := range rep.Skipped {
		found = found || s.Rule == "edge-distance" && strings.Contains(s.Why, "H1") && strings.Contains(s.Why, "not a bolt hole")
	}
	if !found {
		t.Errorf("H1 is not listed: %+v", rep.Skipped)
	}
	// Asked for, it is one: 1.2 x 100 = 120 against 70.
	if f := wantSeverity(t, judged(b.example("", 4, "en"), func(_ *shop.Profile, j *plan.Job) { j.Bolts = true }), "edge-distance", Error); f != nil {
		near(t, "limit", f.Limit.Value, 120, 1e-9)
	}
	// A call-out makes one of a single hole too.
	for _, c := range []struct {
		bolt string
		want Severity
	}{{"", ""}, {"M20", Error}} {
		b := examplePlate("plate", 600, 400)
		b.hole(20, 200, 22)
		b.p.Features[len(b.p.Features)-1].BoltDesignation = c.bolt
		wantSeverity(t, judged(b.example("", 10, "en")), "edge-distance", c.want)
	}
	// Just inside and outside the tolerance of 0.5 mm on the table's size.
	for _, c := range []struct {
		d    float64
		want Severity
	}{{44.5, Error}, {44.6, ""}} {
		wantSeverity(t, judged(twoHoles(c.d, 30), inCode("en")), "edge-distance", c.want)
	}
	// No code: nothing is said, and that is said once for each rule.
	rep = judged(twoHoles(22, 5))
	wantSeverity(t, rep, "edge-distance", "")
	n := 0
	for _, s := range rep.Skipped {
		if strings.Contains(s.Why, "no code") {
			n++
		}
	}
	if n != 4 {
		t.Errorf("skipped %+v", rep.Skipped)
	}
}

// An ambiguous size takes the reading that asks for more, and says so.
func TestAmbiguousSizes(t *testing.T) {
	// 24 mm: M22 standard (28) or M20 oversized (26 + 2 = 28).
	if f := wantSeverity(t, judged(twoHoles(24, 27.9), inCode("aisc")), "edge-distance", Warning); f != nil {
		near(t, "24 mm", f.Limit.Value, 28, 1e-9)
		for _, w := range []string{"M22 standard", "M20 oversized"} {
			if !strings.Contains(f.Message, w) {
				t.Errorf("not said: %s", f.Message)
			}
		}
	}
	// 30 mm: M27 standard (34) or M24 oversized (30 + 3 = 33): 34.
	if f := wantSeverity(t, judged(twoHoles(30, 33.5), inCode("aisc")), "edge-distance", Warning); f != nil {
		near(t, "30 mm", f.Limit.Value, 34, 1e-9)
	}
	// 15/16 in: 7/8 standard (1.125 in) or 3/4 oversized (1.0625 in).
	if f := wantSeverity(t, judged(twoHoles(15.0/16*25.4, 1.1*25.4), inCode("aisc"), inches), "edge-distance", Warning); f != nil {
		near(t, "15/16", f.Limit.Value, 1.125*25.4, 1e-9)
	}
}

func TestAISCPitchLimits(t *testing.T) {
	n := 0
	for _, rows := range [][]boltRow{aiscInch("aisc"), aiscMetric("aisc")} {
		for _, r := range rows {
			need := r.boltMM * 8 / 3
			for _, c := range []struct {
				p    float64
				want Severity
			}{{need - 0.01, Error}, {need, ""}, {need + 0.01, ""}} {
				b := examplePlate("plate", 1200, 600)
				b.hole(300, 300, r.standardMM)
				b.hole(300+c.p, 300, r.standardMM)
				e := b.example("", 10, "aisc")
				for i := range e.Part.Features {
					if e.Part.Features[i].IsInside() {
						e.Part.Features[i].BoltDesignation = strings.TrimSuffix(r.name, " in")
					}
				}
				if f := wantSeverity(t, judged(e), "hole-pitch", c.want); f != nil {
					near(t, r.name, f.Limit.Value, need, 1e-9)
				}
				n++
			}
		}
	}
	if n != 3*17 {
		t.Error(n)
	}
}

func TestExposure(t *testing.T) {
	// A 10 mm gusset whose bolts sit 130 from the nearest edge: 12 t = 120.
	b := examplePlate("gusset", 600, 600)
	b.hole(130, 300, 22)
	b.hole(300, 300, 22)
	e := b.example("", 10, "aisc")
	wantSeverity(t, judged(e), "edge-distance", "")
	exposed := func(_ *shop.Profile, j *plan.Job) { j.Exposure = true }
	if f := wantSeverity(t, judged(e, exposed), "edge-distance", Note); f != nil {
		near(t, "limit", f.Limit.Value, 120, 1e-9)
		if fmt.Sprint(sorted(f.Features)) != "[H1 H2]" {
			t.Error(f.Features)
		}
	}
	// Preferred 3 d = 60 for M20; 2-2/3 d = 53.3.
	b = examplePlate("plate", 300, 200)
	b.hole(100, 100, 22)
	b.hole(155, 100, 22)
	e = b.example("", 10, "aisc")
	wantSeverity(t, judged(e), "hole-pitch", "")
	if f := wantSeverity(t, judged(e, exposed), "hole-pitch", Note); f != nil {
		near(t, "preferred", f.Limit.Value, 60, 1e-9)
	}
}

// M20 in a long slot 22 x 50: 26 from its axis to an edge along it; 26 + 0.75 x
// 20 = 41 from its centre to an edge that it points to (Tables J3.4M, J3.5M).
func TestAISCSlotRunsToTheEdge(t *testing.T) {
	slot := func(x, y float64) *PartReport {
		b := examplePlate("plate", 600, 400)
		b.slot(x, y, 22, 50)
		b.slot(400, 200, 22, 50)
		return judged(b.example("", 10, "aisc"))
	}
	wantSeverity(t, slot(200, 26), "edge-distance", "")
	if f := wantSeverity(t, slot(200, 25.9), "edge-distance", Warning); f != nil {
		near(t, "along", f.Limit.Value, 26, 1e-9)
	}
	wantSeverity(t, slot(41, 200), "edge-distance", "")
	if f := wantSeverity(t, slot(40.9, 200), "edge-distance", Warning); f != nil {
		near(t, "toward", f.Limit.Value, 41, 1e-9)
	}
}
