package station

import (
	"math"
	"strings"
	"testing"

	"burrside/check/shop"
	"burrside/features/measure"
)

func punched(p *shop.Profile, th float64, h Hole) Use {
	return Punch(p, &p.Machines[0], Piece{th, mild()}, h)
}

// The pressure in the punch at the strengths of the trade: 13/16 in in 3/4 in A36
// 1529 MPa, Ø14 in 12 mm S355 1474, stainless 304 12 mm: Ø18 1379, Ø16 1551, Ø14 1773.
// Arithmetic 4 t S / d; the limits are common practice, no source.
func TestPunchPressure(t *testing.T) {
	p := yard()
	p.Machines[0].Punch.UsableKN = 5000
	for _, c := range []struct {
		m     *shop.Material
		d, th float64
		want  float64
		grade Grade
	}{
		{strong("A36", 414, 448), 13 / 16.0 * inch, 0.75 * inch, 1529, Care},
		{strong("S355", 430, 504), 14, 12, 1474, Care},
		{strong("304", 517, 517), 18, 12, 1379, OK},
		{strong("304", 517, 517), 16, 12, 1551, Care},
		{strong("304", 517, 517), 14, 12, 1773, Fail},
	} {
		a := aspect(t, Punch(p, &p.Machines[0], Piece{c.th, c.m}, round(c.d)), "punch-ratio")
		near(t, c.m.Name, a.Got, c.want, 0.6)
		wantGrade(t, c.m.Name, a.Grade, c.grade)
		if a.Grade == Care && a.Fix != "drill it" {
			t.Errorf("fix %q", a.Fix)
		}
	}
	// The steps of the trade come out: care below 0.99, 1.18, 1.23, 1.48 t.
	for _, c := range []struct{ S, ratio float64 }{{345, 0.986}, {414, 1.183}, {430, 1.229}, {517, 1.477}} {
		near(t, "care below", 4*c.S/1400, c.ratio, 0.001)
		m := strong("m", c.S, c.S)
		below := aspect(t, Punch(p, &p.Machines[0], Piece{12, m}, round(12*4*c.S/1400*0.999)), "punch-ratio")
		at := aspect(t, Punch(p, &p.Machines[0], Piece{12, m}, round(12*4*c.S/1400)), "punch-ratio")
		if c.S > 350 {
			wantGrade(t, "below", below.Grade, Care)
			wantGrade(t, "at", at.Grade, OK)
		} // in mild steel d < t comes first
	}
}

// A hole smaller than the metal is thick fails; equal passes, within 0.05 mm.
func TestPunchRatioEqual(t *testing.T) {
	p := yard()
	for _, c := range []struct {
		d    float64
		want Grade
	}{{12, OK}, {11.951, OK}, {11.95, OK}, {11.94, Fail}, {12.1, OK}, {6, Fail}} {
		wantGrade(t, measure.FormatNumber(c.d, 3), aspect(t, punched(p, 12, round(c.d)), "punch-ratio").Grade, c.want)
	}
	// 3/8 in hole in 1/2 in plate must fail (d < t).
	wantGrade(t, "3/8 in 1/2", aspect(t, punched(p, inch/2, round(3/8.0*inch)), "punch-ratio").Grade, Fail)
	// The narrow side of a slot counts.
	wantGrade(t, "slot", aspect(t, punched(p, 12, Hole{Shape: Slot, WidthMM: 11, LengthMM: 40}), "punch-ratio").Grade, Fail)
}

// Die clearance: 22.7 in 6 mm is 11.7 %, in 20 mm 3.5 %; 24.2 in 6 mm is 36.7 %.
func TestDieClearance(t *testing.T) {
	p := yard()
	only := func(bores ...float64) {
		p.Punches[0].Dies = nil
		for _, b := range bores {
			p.Punches[0].Dies = append(p.Punches[0].Dies, shop.Die{WidthMM: b})
		}
	}
	for _, c := range []struct {
		th    float64
		bores []float64
		pct   float64
		want  Grade
	}{
		{6, []float64{22.7}, 11.667, OK},
		{20, []float64{22.7}, 3.5, Care},
		{6, []float64{24.2}, 36.667, Care},
		{6, []float64{24.2, 22.7}, 11.667, OK},
		{20, []float64{22.7, 24.2}, 11, OK},
		{10, []float64{22.499}, 4.99, Care},
		{10, []float64{22.5}, 5, OK},
		{10, []float64{25}, 30, OK},
		{10, []float64{25.01}, 30.1, Care},
		{10, []float64{22}, 0, Fail},
		{10, []float64{21.5}, -5, Fail},
		{10, []float64{21.9, 26}, 40, Care}, // a die that is too small is never the nearest
	} {
		only(c.bores...)
		u := punched(p, c.th, round(22))
		if c.want == Fail { // a new punch with its die is then the better way
			u = Use{}
			u.addDie(p, Piece{c.th, mild()}, &p.Punches[0])
		}
		a := aspect(t, u, "die-clearance")
		near(t, "clearance", a.Got, c.pct, 0.001)
		wantGrade(t, measure.FormatNumber(c.pct, 2), a.Grade, c.want)
	}
	only(22.7, 24.2)
	if u := punched(p, 20, round(22)); u.Die != "die Ø24.2" {
		t.Errorf("die %q", u.Die)
	}
}

// Ø22 drawn, 22.225 on the rack: a pass with a remark; Ø16 that is not on the
// rack is an order, not a refusal.
func TestToolChoice(t *testing.T) {
	p := yard()
	p.Punches = []shop.Punch{{Name: "Ø7/8 in", Shape: Round, WidthMM: 22.225, Dies: []shop.Die{{WidthMM: 23.4}}}}
	u := punched(p, 10, round(22))
	wantGrade(t, "22.225 for 22", aspect(t, u, "tool").Grade, Remark)
	if u.Tool != "Ø7/8 in" || u.Grade() != Remark {
		t.Errorf("tool %q grade %d", u.Tool, u.Grade())
	}
	for _, c := range []struct {
		tool float64
		want Grade
		buy  bool
	}{
		{22 - 0.21, Care, true}, {22 - 0.2, Remark, false}, {22 - 0.1, OK, false}, {22, OK, false}, {22.1, OK, false},
		{22.11, Remark, false}, {22.5, Remark, false}, {22.51, Care, false}, {23, Care, false}, {23.01, Care, true},
	} {
		p.Punches[0].WidthMM, p.Punches[0].Dies[0].WidthMM = c.tool, c.tool+1.2
		a := aspect(t, punched(p, 10, round(22)), "tool")
		wantGrade(t, measure.FormatNumber(c.tool, 3), a.Grade, c.want)
		if (a.Buy != "") != c.buy {
			t.Errorf("%v: buy %q", c.tool, a.Buy)
		}
	}
	u = punched(p, 10, round(16))
	if a := aspect(t, u, "tool"); a.Grade != Care || a.Buy != "punch Ø16 with die Ø17.2" {
		t.Errorf("buy %+v", a)
	}
	p.Buy = false
	wantGrade(t, "buy = false", aspect(t, punched(p, 10, round(16)), "tool").Grade, Fail)
	p.Buy = true
	// No holder takes it: no order helps.
	wantGrade(t, "no holder", punched(p, 10, round(101)).Grade(), Fail)
	wantGrade(t, "largest holder", aspect(t, punched(p, 4, round(100)), "die-holder").Grade, OK)
	// The nearest of the rack, the larger one of two equally near.
	p.Punches = []shop.Punch{
		{Name: "a", Shape: Round, WidthMM: 21.85, Dies: []shop.Die{{WidthMM: 23}}},
		{Name: "b", Shape: Round, WidthMM: 22.15, Dies: []shop.Die{{WidthMM: 23.3}}},
	}
	if u := punched(p, 10, round(22)); u.Tool != "b" {
		t.Errorf("tool %q", u.Tool)
	}
	p.Punches[1].Machine = "elsewhere"
	if u := punched(p, 10, round(22)); u.Tool != "a" {
		t.Errorf("tool %q", u.Tool)
	}
}

// Holders take tools by diameter, diagonal or overall length: slot 22 x 60 needs
// a body of 60 mm and with it the oversize holder.
func TestHolder(t *testing.T) {
	p := yard()
	u := punched(p, 10, Hole{Shape: Slot, WidthMM: 22, LengthMM: 60})
	p2 := *p
	p2.Punches = []shop.Punch{{Name: "slot 22 x 60", Shape: Slot, WidthMM: 22, LengthMM: 60, Dies: []shop.Die{{WidthMM: 23.2}}}}
	u = punched(&p2, 10, Hole{Shape: Slot, WidthMM: 22, LengthMM: 60})
	if u.Holder != "oversize" || u.Hits != 1 {
		t.Errorf("holder %q hits %d", u.Holder, u.Hits)
	}
	p2.Machines[0].Punch.Holders = p2.Machines[0].Punch.Holders[:1]
	wantGrade(t, "standard only", aspect(t, punched(&p2, 10, Hole{Shape: Slot, WidthMM: 22, LengthMM: 60}), "die-holder").Grade, Fail)
	p3 := yard()
	p3.Punches = []shop.Punch{{Name: "Ø22", Shape: Round, WidthMM: 22, Holder: "oversize", Dies: []shop.Die{{WidthMM: 23.2}}}}
	if u := punched(p3, 10, round(22)); u.Holder != "oversize" {
		t.Errorf("holder %q, the tool names oversize", u.Holder)
	}
	near(t, "square", body(Square, 30, 30), 42.43, 0.01)
	near(t, "rectangle", body(Rectangle, 30, 40), 50, 1e-9)
	near(t, "hexagon", body(Hexagon, 20, 20), 23.094, 0.001)
	// Square 28.3: diagonal 40.02, one hair over the 40 mm holder.
	wantGrade(t, "diagonal over", aspect(t, punched(&p2, 6, Hole{Shape: Square, WidthMM: 28.3}), "die-holder").Grade, Fail)
	wantGrade(t, "diagonal within", aspect(t, punched(&p2, 6, Hole{Shape: Square, WidthMM: 28.2}), "die-holder").Grade, OK)
}

// Slots at 0 and 90 degrees to a gauging edge are keyed; at 45 only if the holder has that key.
func TestKeys(t *testing.T) {
	p := yard()
	slot := Hole{Shape: Slot, WidthMM: 22, LengthMM: 50}
	at := func(deg float64) Grade {
		slot.TurnsRad = []float64{deg * math.Pi / 180}
		return punched(p, 8, slot).Grade()
	}
	wantGrade(t, "0", at(0), OK)
	wantGrade(t, "90", at(90), OK)
	wantGrade(t, "180", at(180), OK)
	wantGrade(t, "-90", at(-90), OK)
	wantGrade(t, "45", at(45), Care)
	wantGrade(t, "0.4", at(0.4), OK)
	wantGrade(t, "0.6", at(0.6), Care)
	p.Machines[0].Punch.Holders[1].Keys = []float64{0, math.Pi / 4, math.Pi / 2}
	wantGrade(t, "45 with a key", at(45), OK)
	slot.TurnsRad = []float64{1, math.Pi / 2} // against the second edge it is square
	wantGrade(t, "second edge", punched(p, 8, slot).Grade(), OK)
}

// Reach: an L plate 1200 x 1200 with arms of 600, hole at (560, 560): 480.8 across
// the chord, 560 square to an edge.
func TestReach(t *testing.T) {
	p := yard()
	st := p.Machines[0].Punch
	any := (1800 - 1120) / math.Sqrt2
	near(t, "chord", any, 480.8, 0.05)
	for _, c := range []struct {
		throat float64
		want   Grade
	}{{480, Fail}, {any, Care}, {483, Care}, {500, Care}, {562, Care}, {563, OK}, {600, OK}} {
		st.ThroatMM = c.throat
		a, _ := Reach(p, &p.Machines[0], any, 560)
		wantGrade(t, measure.FormatNumber(c.throat, 1), a.Grade, c.want)
	}
	st.ThroatMM = 0
	a, _ := Reach(p, &p.Machines[0], 10, 10)
	wantGrade(t, "no throat stated", a.Grade, Unknown)
	st.ThroatMM = 300
	a, _ = Reach(p, &p.Machines[0], 10, math.Inf(1))
	wantGrade(t, "nothing to gauge on", a.Grade, Care)
	for _, c := range []struct {
		reach float64
		want  Grade
	}{{296.9, OK}, {297, OK}, {297.1, Care}, {300, Care}, {300.1, Fail}} {
		a, _ := Reach(p, &p.Machines[0], c.reach, c.reach)
		wantGrade(t, measure.FormatNumber(c.reach, 1), a.Grade, c.want)
	}
}

// Slot 22 x 80 with a punch 22 x 50: the flats must meet, so 3 hits, not 2.
func TestSlotHits(t *testing.T) {
	p := yard()
	u := punched(p, 8, Hole{Shape: Slot, WidthMM: 22, LengthMM: 80})
	if u.Hits != 3 || u.Tool != "slot 22 x 50" {
		t.Errorf("%d hits with %q", u.Hits, u.Tool)
	}
	wantGrade(t, "several hits", aspect(t, u, "slot-hits").Grade, Care)
	for _, c := range []struct {
		slot float64
		n    int
	}{{50, 1}, {78, 2}, {78.01, 3}, {106, 3}, {51, 2}} {
		if n, ok := SlotHits(c.slot, 50, 22); !ok || n != c.n {
			t.Errorf("slot %v: %d hits, want %d", c.slot, n, c.n)
		}
	}
	if _, ok := SlotHits(40, 50, 22); ok {
		t.Error("a punch longer than the slot cannot make it")
	}
	// Never by a longer tool: a slot 22 x 40 is to be bought.
	u = punched(p, 8, Hole{Shape: Slot, WidthMM: 22, LengthMM: 40})
	if a := aspect(t, u, "tool"); u.Hits != 1 || !strings.HasPrefix(a.Buy, "punch slot 22 x 40 with die slot") {
		t.Errorf("%d hits, %+v", u.Hits, a)
	}
	// Nibbled only when the shop allows it, and not above 6 mm.
	p.Punches = p.Punches[:2]
	p.Buy = false
	wantGrade(t, "not allowed", punched(p, 6, Hole{Shape: Slot, WidthMM: 22, LengthMM: 80}).Grade(), Fail)
	p.Settings = map[string]map[string]float64{"slot-hits": {"nibble": 1}}
	u = punched(p, 6, Hole{Shape: Slot, WidthMM: 22, LengthMM: 80})
	if want := 1 + int(math.Ceil((80-22)/(2*math.Sqrt(0.5*21.5)))); u.Hits != want || u.Grade() != Care {
		t.Errorf("nibbled: %d hits, want %d, grade %d", u.Hits, want, u.Grade())
	}
	wantGrade(t, "too thick to nibble", punched(p, 6.1, Hole{Shape: Slot, WidthMM: 22, LengthMM: 80}).Grade(), Fail)
}

// Bigger openings take several hits of a square tool with overlap.
func TestOpenings(t *testing.T) {
	p := yard()
	u := punched(p, 6, Hole{Shape: Rectangle, WidthMM: 20, LengthMM: 54})
	if u.Hits != 3 || u.Grade() != Care { // 1 + ceil(34 / 17)
		t.Errorf("%d hits, grade %d", u.Hits, u.Grade())
	}
	u = punched(p, 6, Hole{Shape: Square, WidthMM: 20})
	if u.Hits != 1 || u.Grade() != OK {
		t.Errorf("square: %d hits, grade %d", u.Hits, u.Grade())
	}
	u = punched(p, 6, Hole{Shape: Square, WidthMM: 88})
	if u.Hits != 16 { // 1 + ceil(68 / 17) = 5 each way: round the edge 16, the middle falls out
		t.Errorf("large square: %d hits", u.Hits)
	}
	wantGrade(t, "round corners", punched(p, 6, Hole{Shape: Square, WidthMM: 20, CornerRadiusMM: 3}).Grade(), Care)
	// Smaller than the tool: to be bought.
	if u := punched(p, 6, Hole{Shape: Square, WidthMM: 15}); !u.Buys() {
		t.Errorf("square 15: %+v", u)
	}
	wantGrade(t, "no such punch", punched(p, 6, Hole{Shape: "keyhole", WidthMM: 15}).Grade(), Fail)
}

func TestHardened(t *testing.T) {
	p := yard()
	m := strong("AR400", 800, 1000)
	m.Group, m.Punchable = "hardened", false
	wantGrade(t, "punch", aspect(t, Punch(p, &p.Machines[0], Piece{6, m}, round(22)), "material").Grade, Fail)
	wantGrade(t, "shear", aspect(t, Shear(p, &p.Machines[0], Piece{6, m}, CutRequest{LengthMM: 100, OnBar: true}), "material").Grade, Fail)
	wantGrade(t, "notch", aspect(t, Notch(p, &p.Machines[0], Piece{6, m}, NotchRequest{Shape: NotchRectangular, WidthMM: 80, DepthMM: 40}), "material").Grade, Fail)
}
