package plan

import (
	"math"
	"strings"
	"testing"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// A bracket 250 x 120 x 10 with four corners R10, as most drawings for thermal
// cutting have them: ground by hand, with care, not refused.
func TestRoundedBracket(t *testing.T) {
	p := yard()
	p.Stock.FlatWidthsMM = append(p.Stock.FlatWidthsMM, 120)
	part := &features.Part{Name: "bracket", Form: features.FormFlat, DrawnAt: make([]features.Placement, 1)}
	l, w, r := 250.0, 120.0, 10.0
	c := []geom.Point{pt(l-r, r), pt(l-r, w-r), pt(r, w-r), pt(r, r)}
	part.Outline = geom.Ring{
		geom.LineEdge(pt(r, 0), pt(l-r, 0)), geom.ArcEdge(c[0], pt(l-r, 0), pt(l, r), true),
		geom.LineEdge(pt(l, r), pt(l, w-r)), geom.ArcEdge(c[1], pt(l, w-r), pt(l-r, w), true),
		geom.LineEdge(pt(l-r, w), pt(r, w)), geom.ArcEdge(c[2], pt(r, w), pt(0, w-r), true),
		geom.LineEdge(pt(0, w-r), pt(0, r)), geom.ArcEdge(c[3], pt(0, r), pt(r, 0), true),
	}
	part.AreaMM2 = part.Outline.Area()
	for i, e := range part.Outline {
		f := features.Feature{ID: "E" + string(rune('1'+i)), Kind: features.StraightCut, From: e.From, To: e.To, LengthMM: e.Length(), Edges: []int{i}, Hole: -1}
		if e.IsArc() {
			f.Kind, f.RadiusMM = features.CornerRadius, r
		}
		part.Features = append(part.Features, f)
	}
	pl := MakePlan(part, p, job(10))
	for _, id := range []string{"E2", "E4", "E6", "E8"} {
		mk := wantMade(t, pl, id, "grind", station.Care)
		if rule(mk.Use) != "edge-process" || mk.Also == nil || mk.Also.Kind != "grinder" {
			t.Errorf("%s: %+v", id, mk)
		}
	}
	wantMade(t, pl, "E1", "stock", station.OK)
	wantMade(t, pl, "E3", "shear", station.OK)
	if pl.Edges[0] != EdgeMill || pl.Edges[1] != EdgeGround || pl.Edges[2] != EdgeSheared {
		t.Errorf("edges %v", pl.Edges)
	}
	if grade(pl) != station.Care || !pl.Work.Known {
		t.Errorf("grade %d, %+v", grade(pl), pl.Work)
	}
	// Thicker than the grinder takes, and no thermal cutting: nothing.
	wantMade(t, MakePlan(part, p, job(12.5)), "E2", "nothing", station.Fail)
	p.Also = append(p.Also, shop.Process{Kind: "thermal", Have: true, MaxThicknessMM: 40})
	pl = MakePlan(part, p, job(12.5))
	wantMade(t, pl, "E2", "thermal", station.Care)
	if pl.Edges[1] != EdgeThermal {
		t.Errorf("edges %v", pl.Edges)
	}
}

// A base plate 300 x 300 x 20 with a grout hole Ø110 (2384 kN): no punch, drills
// to 40 mm; thermal cutting makes it with care, else nothing does.
func TestGroutHole(t *testing.T) {
	p := yard()
	part := holes(rect("base plate", 300, 300), 110, pt(150, 150))
	wantMade(t, MakePlan(part, p, job(20)), "H1", "nothing", station.Fail)
	p.Also = append(p.Also, shop.Process{Kind: "thermal", Have: true, MaxThicknessMM: 40})
	mk := wantMade(t, MakePlan(part, p, job(20)), "H1", "thermal", station.Care)
	found := false
	for _, u := range mk.Tried {
		if u.Station == "punch" {
			found = true
			near(t, "force", u.ForceKN, 2384, 0.5)
		}
	}
	if !found {
		t.Error("the punch was not tried")
	}
}

// Holes that are not punched to size: tapped, reamed, drilled, with a seat.
func TestHoleProcess(t *testing.T) {
	p := yard()
	part := rect("plate", 200, 100)
	add(part, features.Feature{ID: "H1", Kind: features.TappedHole, At: pt(40, 50), DiameterMM: 10.2, SeatMM: 12})
	add(part, features.Feature{ID: "H2", Kind: features.HoleWithSeat, At: pt(80, 50), DiameterMM: 14, SeatMM: 28})
	add(part, features.Feature{ID: "H3", Kind: features.RoundHole, At: pt(120, 50), DiameterMM: 22, Process: "ream"})
	add(part, features.Feature{ID: "H4", Kind: features.RoundHole, At: pt(160, 50), DiameterMM: 22, Process: "drill"})
	add(part, features.Feature{ID: "H5", Kind: features.RoundHole, At: pt(180, 50), DiameterMM: 22})
	pl := MakePlan(part, p, job(10))
	for id, by := range map[string]string{"H1": "tap", "H2": "countersink", "H3": "drill", "H4": "drill"} {
		if mk := wantMade(t, pl, id, by, station.Care); rule(mk.Use) != "hole-process" {
			t.Errorf("%s: rule %s", id, rule(mk.Use))
		}
	}
	wantMade(t, pl, "H5", "punch", station.OK)
	seat := made(t, pl, "H2")
	if seat.Before == nil || seat.Before.Tool != "Ø14" || !strings.Contains(seat.Use.Aspects[0].Text, "punch Ø14 mm first") {
		t.Errorf("seat %+v", seat)
	}
	if !strings.Contains(made(t, pl, "H3").Use.Aspects[0].Text, "Ø20 mm") {
		t.Errorf("ream %+v", made(t, pl, "H3").Use.Aspects)
	}
	if pl.Work.Hits != 2 { // H5 and the hole under the seat
		t.Errorf("%d hits", pl.Work.Hits)
	}
	p.Also = nil
	pl = MakePlan(part, p, job(10))
	for _, id := range []string{"H1", "H2", "H3", "H4"} {
		wantMade(t, pl, id, "nothing", station.Fail)
	}
	if pl.Work.Known || !strings.Contains(pl.Work.Why, "H1 H2 H3 H4") {
		t.Errorf("work %+v", pl.Work)
	}
}

// A hole that is too small for the metal goes to the drill, under the rule that
// sends it there.
func TestDrilledForRatio(t *testing.T) {
	p := yard()
	part := holes(rect("plate", 200, 100), 8, pt(100, 50))
	mk := wantMade(t, MakePlan(part, p, job(12)), "H1", "drill", station.Care)
	if rule(mk.Use) != "punch-ratio" || mk.Use.Aspects[0].Fix != "drill it" {
		t.Errorf("%+v", mk.Use)
	}
}

func TestNotches(t *testing.T) {
	p := yard()
	part := rect("notched", 300, 200)
	add(part, features.Feature{ID: "N1", Kind: features.Notch, Shape: features.NotchRectangular, WidthMM: 80, DepthMM: 40, At: pt(150, 0)})
	add(part, features.Feature{ID: "N2", Kind: features.Notch, Shape: features.NotchRectangular, WidthMM: 60, DepthMM: 40, At: pt(150, 200)})
	add(part, features.Feature{ID: "N3", Kind: features.Notch, Shape: features.NotchCorner, WidthMM: 50, DepthMM: 50, Long: [2]float64{50, 50}, At: pt(0, 0)})
	add(part, features.Feature{ID: "N4", Kind: features.Notch, Shape: features.NotchCorner, WidthMM: 200, DepthMM: 150, Long: [2]float64{200, 150}, ShapeOfPart: true, At: pt(300, 200)})
	add(part, features.Feature{ID: "N5", Kind: features.Notch, Shape: features.NotchRound, WidthMM: 40, DepthMM: 20, RadiusMM: 20, At: pt(60, 0)})
	add(part, features.Feature{ID: "N6", Kind: features.Notch, Shape: features.NotchOpenSlot, WidthMM: 80, DepthMM: 70, At: pt(0, 100)})
	pl := MakePlan(part, p, job(6))
	wantMade(t, pl, "N1", "notch", station.Remark)
	wantMade(t, pl, "N2", "nothing", station.Fail)
	wantMade(t, pl, "N3", "notch", station.Remark)
	wantMade(t, pl, "N4", "saw", station.Care)
	wantMade(t, pl, "N5", "nothing", station.Fail)
	slot := wantMade(t, pl, "N6", "notch", station.Care) // the hole Ø80 is to be bought
	if slot.Before == nil || slot.Before.Hits != 1 {
		t.Errorf("open slot: %+v", slot)
	}
	small := add(rect("small", 90, 60), features.Feature{ID: "N1", Kind: features.Notch, Shape: features.NotchCorner, WidthMM: 60, DepthMM: 40, Long: [2]float64{60, 40}, ShapeOfPart: true})
	wantMade(t, MakePlan(small, p, job(6)), "N1", "saw", station.Care)
	small.Features[4].ShapeOfPart = false
	wantMade(t, MakePlan(small, p, job(6)), "N1", "notch", station.Remark)
	if pl.Work.Bites != 3 {
		t.Errorf("%d bites", pl.Work.Bites)
	}
	p.Also = append(p.Also, shop.Process{Kind: "bought-cutting", Have: true})
	pl = MakePlan(part, p, job(6))
	wantMade(t, pl, "N2", "bought", station.Care)
	wantMade(t, pl, "N5", "bought", station.Care)
	p.Machines[0].Notch = nil
	if mk := made(t, MakePlan(part, p, job(6)), "N1"); mk.MadeBy != "bought" || rule(mk.Use) != "notch-tool" {
		t.Errorf("%+v", mk)
	}
}

func TestBends(t *testing.T) {
	p := yard()
	part := rect("folded", 300, 100)
	add(part, features.Feature{ID: "B1", Kind: features.Bend, From: pt(100, 0), To: pt(100, 100), LengthMM: 100})
	add(part, features.Feature{ID: "M1", Kind: features.Mark, From: pt(10, 10), To: pt(20, 10)})
	pl := MakePlan(part, p, job(6))
	if mk := wantMade(t, pl, "B1", "unknown", station.Unknown); rule(mk.Use) != "bend" {
		t.Errorf("%+v", mk)
	}
	if g := made(t, pl, "M1").Use.Grade(); g != station.Remark {
		t.Errorf("mark: grade %d", g)
	}
	if pl.Work.Known {
		t.Error("a bend that is not judged is not counted")
	}
	p.Machines[0].Brake = &shop.BrakeStation{Rating: shop.Rating{ForceKN: 250, UsableKN: 225}, LengthMM: 300, VMM: []float64{50}}
	pl = MakePlan(part, p, job(6))
	wantMade(t, pl, "B1", "bend", station.Care)
	if last := pl.Steps[len(pl.Steps)-1]; last.What != "bend" {
		t.Errorf("bends come last: %+v", pl.Steps)
	}
	// The flange of 20 mm is less than 0.7 x 50.
	part.Features[4].From, part.Features[4].To = pt(20, 0), pt(20, 100)
	wantMade(t, MakePlan(part, p, job(6)), "B1", "nothing", station.Fail)
}

// A machine comes before another process at the same grade: a Ø16 to be bought is
// punched, not drilled.
func TestMachinesFirst(t *testing.T) {
	p := yard()
	mk := wantMade(t, MakePlan(holes(rect("plate", 200, 100), 16, pt(100, 50)), p, job(10)), "H1", "punch", station.Care)
	if !mk.Use.Buys() || len(mk.Tried) == 0 || mk.Tried[0].Station != "drill" {
		t.Errorf("%+v", mk)
	}
	// Two machines alike: the one that has the tool, and that makes the rest of the part.
	p.Machines = append(p.Machines, p.Machines[0])
	p.Machines[1].Name = "another"
	p.Punches[1].Machine = "one"
	pl := MakePlan(holes(holes(rect("plate", 200, 100), 22, pt(50, 50), pt(150, 50)), 14, pt(100, 50)), p, job(10))
	for _, id := range []string{"H1", "H2", "H3"} {
		if mk := made(t, pl, id); mk.Use.Machine != "one" {
			t.Errorf("%s on %s", id, mk.Use.Machine)
		}
	}
}

// A tapped hole needs its pre-hole drilled as well.
func TestTapNeedsDrill(t *testing.T) {
	p := yard()
	p.Also[0].MaxDiameterMM = 10
	part := add(rect("plate", 200, 100), features.Feature{ID: "H1", Kind: features.TappedHole, At: pt(40, 50), DiameterMM: 10.2, SeatMM: 12})
	wantMade(t, MakePlan(part, p, job(10)), "H1", "nothing", station.Fail)
}

// A grinder rounds corners; it does not hollow them out.
func TestHollowRadius(t *testing.T) {
	part := rect("plate", 200, 100)
	part.Outline[1] = geom.ArcEdge(pt(205, 50), pt(200, 0), pt(200, 100), false)
	part.Features[1] = features.Feature{ID: "E2", Kind: features.ArcCut, RadiusMM: 12, Edges: []int{1}, Hole: -1}
	wantMade(t, MakePlan(part, yard(), job(10)), "E2", "nothing", station.Fail)
	part.Outline[1] = geom.ArcEdge(pt(195, 50), pt(200, 0), pt(200, 100), true)
	wantMade(t, MakePlan(part, yard(), job(10)), "E2", "grind", station.Care)
}

// A slot that no slot punch makes: two end holes, and the web cut out thermally.
func TestSlotEnds(t *testing.T) {
	p := yard()
	p.Buy = false
	part := add(rect("plate", 400, 150), features.Feature{ID: "S1", Kind: features.Slot, At: pt(200, 75), WidthMM: 14, LengthMM: 60})
	wantMade(t, MakePlan(part, p, job(10)), "S1", "nothing", station.Fail)
	p.Also = append(p.Also, shop.Process{Kind: "thermal", Have: true, MaxThicknessMM: 40})
	pl := MakePlan(part, p, job(10))
	mk := wantMade(t, pl, "S1", "thermal", station.Care)
	if mk.Before == nil || mk.Before.Tool != "Ø14" || pl.Work.Hits != 2 || pl.Work.ToolChanges != 1 {
		t.Errorf("%+v %+v", mk, pl.Work)
	}
	// Without the round punch the whole slot is cut thermally.
	p.Punches = nil
	if mk := wantMade(t, MakePlan(part, p, job(10)), "S1", "thermal", station.Care); mk.Before != nil {
		t.Errorf("%+v", mk)
	}
}

// TestNearestFailureIsQuoted: Ø60 in 20 mm mild takes pi x 60 x 20 x 345 = 1301 kN:
// of 494 and 910 kN the stronger machine is the nearer one.
func TestNearestFailureIsQuoted(t *testing.T) {
	p := shop.BuiltIn()
	m, _ := p.Material("mild")
	part := rect("plate", 200, 140)
	holes(part, 60, pt(100, 70))
	mk := made(t, MakePlan(part, p, Job{ThicknessMM: 20, Material: m}), "H1")
	if mk.MadeBy != "nothing" || mk.Use.Machine != "north bay" {
		t.Errorf("made by %s, quoted %s (%.0f %%)", mk.MadeBy, mk.Use.Machine, 100*mk.Use.Share)
	}
}

// lPlate is the plate 1200 x 1200 with arms of 600 and a hole Ø18 at (560, 560):
// 560 from every side of the square, 480.8 from the chord of the L.
func lPlate() *features.Part {
	p := ell("ell", 1200, 1200, 600, 600)
	return holes(p, 18, pt(560, 560))
}

// TestPunchAfterTheNotch: a hole that only the cut-out notch brings within the
// throat of 500 is punched after it, whatever takes the notch out.
func TestPunchAfterTheNotch(t *testing.T) {
	p := shop.BuiltIn()
	for i := range p.Also {
		if p.Also[i].Kind == "thermal" {
			p.Also[i].Have = true
		}
	}
	m, _ := p.Material("mild")
	pl := MakePlan(lPlate(), p, Job{ThicknessMM: 8, Material: m, BlankGiven: true})
	punch, cut := -1, -1
	for i, s := range pl.Steps {
		switch s.What {
		case "punch":
			punch = i
		case "thermal":
			cut = i
		}
	}
	if cut < 0 || punch < cut {
		t.Errorf("punched at step %d, cut out at %d: %+v", punch, cut, pl.Steps)
	}
}

// TestSawnNotch: an inside corner is sawn up to the length that a straight cut
// in a loose piece is, 300 mm where the shop states none.
func TestSawnNotch(t *testing.T) {
	p := shop.BuiltIn()
	m, _ := p.Material("mild")
	for leg, want := range map[float64]string{300: "saw", 301: "nothing", 600: "nothing"} {
		part := ell("ell", 1200, 1200, leg, leg)
		pl := MakePlan(part, p, Job{ThicknessMM: 20, Material: m, BlankGiven: true})
		for _, mk := range pl.Makes {
			if part.Features[mk.Feature].Kind == features.Notch && mk.MadeBy != want {
				t.Errorf("%v x %v: made by %s, want %s", leg, leg, mk.MadeBy, want)
			}
		}
	}
}

// TestMachineWithoutBrake: north bay has the only brake.
func TestMachineWithoutBrake(t *testing.T) {
	p := shop.BuiltIn()
	m, _ := p.Material("mild")
	part := rect("folded", 300, 100)
	add(part, features.Feature{ID: "B1", Kind: features.Bend, From: pt(150, 0), To: pt(150, 100), LengthMM: 100})
	for _, only := range []string{"", "south bay"} {
		pl := MakePlan(part, p, Job{ThicknessMM: 6, Material: m, Machine: only})
		for _, mu := range pl.Machines {
			if mu.Name == "south bay" && (mu.Grade != station.Fail || mu.Limiting.Rule != "bend" || !strings.Contains(mu.Limiting.Text, "no brake")) {
				t.Errorf("machine %q: %+v", only, mu)
			}
		}
	}
	for i := range p.Machines {
		p.Machines[i].Brake = nil
	}
	for _, mu := range MakePlan(part, p, Job{ThicknessMM: 6, Material: m}).Machines {
		if mu.Grade != station.Unknown {
			t.Errorf("no brake is stated: %+v", mu)
		}
	}
}

// TestLimitingIsItsOwnShare: four Ø22 in 10 mm mild take pi x 22 x 10 x 345 =
// 238.45 kN of the 494.2 kN of south bay's punch, 48 %, more than its shear.
func TestLimitingIsItsOwnShare(t *testing.T) {
	p := shop.BuiltIn()
	m, _ := p.Material("mild")
	part := holes(rect("plate", 300, 150), 22, pt(50, 50), pt(250, 50), pt(50, 100), pt(250, 100))
	for _, mu := range MakePlan(part, p, Job{ThicknessMM: 10, Material: m}).Machines {
		if mu.Name != "south bay" {
			continue
		}
		if mu.Limiting.Rule != "punch-force" || len(mu.Features) != 4 || math.Abs(mu.Share-238.45/494.2) > 1e-3 || math.Abs(mu.Limiting.Got/mu.Limiting.Limit-mu.Share) > 1e-9 {
			t.Errorf("%+v", mu)
		}
	}
}
