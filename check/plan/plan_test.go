package plan

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// Two machines, each of which says no, make a part together: 300 x 150 x 20 mild
// with four Ø26. One shears 20 x 150 but its punch needs 563.6 of 540 kN; the
// other has no shear but 990 kN on the punch (57 %).
func TestTwoMachines(t *testing.T) {
	p := yard()
	p.Machines = append(p.Machines, shop.Machine{Name: "two", Punch: &shop.PunchStation{Rating: shop.Rating{ForceKN: 1100, UsableKN: 990, BasisMPa: 345}, ThroatMM: 300, Stop: true,
		Holders: []shop.Holder{{Name: "standard", MaxMM: 60}}}})
	part := holes(rect("base", 300, 150), 26, pt(50, 40), pt(250, 40), pt(50, 110), pt(250, 110))
	pl := MakePlan(part, p, job(20))
	if g := grade(pl); g > station.Remark {
		t.Errorf("grade %d, want a pass: %+v", g, pl)
	}
	for _, id := range []string{"H1", "H2", "H3", "H4"} {
		mk := wantMade(t, pl, id, "punch", station.OK)
		if mk.Use.Machine != "two" {
			t.Errorf("%s on %q", id, mk.Use.Machine)
		}
		near(t, "share", mk.Use.Share, 0.57, 0.005)
		if len(mk.Tried) == 0 || mk.Tried[0].Machine != "one" || rule(mk.Tried[0]) != "punch-force" {
			t.Errorf("tried %+v", mk.Tried)
		}
	}
	if len(pl.Cuts) != 1 || pl.Cuts[0].Use.Machine != "one" || pl.Cuts[0].LengthMM != 150 {
		t.Errorf("cuts %+v", pl.Cuts)
	}
	if len(pl.Machines) != 2 {
		t.Fatalf("%d machines", len(pl.Machines))
	}
	one, two := pl.Machines[0], pl.Machines[1]
	if one.Grade != station.Fail || one.Limiting.Rule != "punch-force" || !reflect.DeepEqual(one.Features, []string{"H1", "H2", "H3", "H4"}) {
		t.Errorf("one: %+v", one)
	}
	near(t, "one's share", one.Share, 1.04, 0.005)
	if two.Grade != station.Fail || two.Limiting.Rule != "shear-row" {
		t.Errorf("two: %+v", two)
	}
	// Restricted to the first machine it is drilled, with care.
	only := job(20)
	only.Machine = "one"
	wantMade(t, MakePlan(part, p, only), "H1", "drill", station.Care)
	p.Also = nil
	wantMade(t, MakePlan(part, p, only), "H1", "nothing", station.Fail)
}

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

func TestMissingData(t *testing.T) {
	p := yard()
	part := holes(clip(poly("tag", pt(0, 0), pt(120, 0), pt(150, 30), pt(150, 100), pt(0, 100)), 1), 22, pt(50, 50))
	add(part, features.Feature{ID: "N1", Kind: features.Notch, Shape: features.NotchRectangular, WidthMM: 80, DepthMM: 20, At: pt(60, 0)})
	for _, c := range []struct {
		j    Job
		rule string
	}{{Job{Material: mild()}, "thickness-missing"}, {Job{ThicknessMM: 10, MaterialName: "unobtainium"}, "material-missing"}, {Job{}, "thickness-missing"}} {
		pl := MakePlan(part, p, c.j)
		for _, mk := range pl.Makes {
			if mk.MadeBy == "stock" {
				continue
			}
			if mk.Use.Grade() != station.Unknown || rule(mk.Use) != c.rule || mk.MadeBy != "unknown" {
				t.Errorf("%s: %+v", part.Features[mk.Feature].ID, mk)
			}
		}
		if mk := made(t, pl, "H1"); mk.Use.Machine != "one" || mk.Use.Station != "punch" {
			t.Errorf("H1: %+v", mk.Use)
		}
		if mk := made(t, pl, "N1"); mk.Use.Station != "notcher" {
			t.Errorf("N1: %+v", mk.Use)
		}
		if pl.Work.Known || pl.Work.Why == "" || pl.Work.Hits != 1 {
			t.Errorf("work %+v", pl.Work)
		}
		if pl.Machines[0].Grade != station.Unknown {
			t.Errorf("machines %+v", pl.Machines)
		}
		if pl.Blank.Form != "bar" || pl.Edges[0] != EdgeMill {
			t.Errorf("blank %+v edges %v", pl.Blank, pl.Edges)
		}
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
	wantMade(t, pl, "B1", "bend", station.OK)
	if last := pl.Steps[len(pl.Steps)-1]; last.What != "bend" {
		t.Errorf("bends come last: %+v", pl.Steps)
	}
	// The flange of 20 mm is less than 0.7 x 50.
	part.Features[4].From, part.Features[4].To = pt(20, 0), pt(20, 100)
	wantMade(t, MakePlan(part, p, job(6)), "B1", "nothing", station.Fail)
}

// An L plate 1200 x 1200 with arms of 600: the hole at (560, 560) lies 480.8 mm
// from the chord, 560 mm from the edges that it can be gauged on, although the
// nearest outline point is 56.6 mm away.
func TestReachOfL(t *testing.T) {
	part := holes(poly("L", pt(0, 0), pt(1200, 0), pt(1200, 600), pt(600, 600), pt(600, 1200), pt(0, 1200)), 22, pt(560, 560))
	pl := &planner{part: part, prof: yard(), hull: geom.Hull(part.Outline)}
	pl.finish = pl.gaugeEdges()
	a, g := pl.finishedReach(pt(560, 560))
	near(t, "any", a, 480.8, 0.05)
	near(t, "gauged", g, 560, 1e-6)
	p := yard()
	for _, c := range []struct {
		throat float64
		want   station.Grade
	}{{470, station.Fail}, {500, station.Care}, {570, station.OK}} {
		p.Machines[0].Punch.ThroatMM = c.throat
		mk := made(t, MakePlan(part, p, job(6)), "H1")
		for _, u := range append([]station.Use{mk.Use}, mk.Tried...) {
			if u.Station != "punch" {
				continue
			}
			for _, a := range u.Aspects {
				if a.Rule == "throat-reach" && a.Grade != c.want {
					t.Errorf("throat %v: %+v", c.throat, a)
				}
			}
		}
	}
}

// Slots are keyed against the part as it lies, turned or not.
func TestKeyTurned(t *testing.T) {
	for _, turn := range []float64{0, 0.3, 1, 2.5} {
		m := geom.NewTurn(turn)
		for _, c := range []struct {
			slot float64
			want station.Grade
		}{{0, station.OK}, {math.Pi / 2, station.OK}, {math.Pi / 4, station.Care}} {
			part := poly("bar", m.Apply(pt(0, 0)), m.Apply(pt(300, 0)), m.Apply(pt(300, 100)), m.Apply(pt(0, 100)))
			add(part, features.Feature{ID: "S1", Kind: features.Slot, At: m.Apply(pt(150, 50)), WidthMM: 22, LengthMM: 50, AngleRad: math.Mod(turn+c.slot, math.Pi)})
			wantMade(t, MakePlan(part, yard(), job(8)), "S1", "punch", c.want)
		}
	}
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

// Reach is to the nearest side of the blank, whichever it is.
func TestReachFarSide(t *testing.T) {
	p := yard()
	p.Machines[0].Punch.ThroatMM = 60
	for _, c := range []struct {
		at   geom.Point
		want station.Grade
	}{{pt(400, 30), station.OK}, {pt(400, 270), station.OK}, {pt(30, 150), station.OK}, {pt(770, 150), station.OK}, {pt(400, 150), station.Fail}, {pt(400, 58), station.Care}} {
		mk := made(t, MakePlan(holes(rect("plate", 800, 300), 22, c.at), p, job(6)), "H1")
		for _, u := range append([]station.Use{mk.Use}, mk.Tried...) {
			if c.want == station.OK && mk.AfterCuts {
				t.Errorf("%v: after the cuts", c.at)
			}
			for _, a := range u.Aspects {
				if u.Station == "punch" && a.Rule == "throat-reach" && a.Grade != c.want {
					t.Errorf("%v: %+v", c.at, a)
				}
			}
		}
	}
}

// The same part drawn turned, mirrored or shifted gives the same plan.
func TestPlanIsInvariant(t *testing.T) {
	build := func(f func(geom.Point) geom.Point, mirrored bool) *features.Part {
		corners := []geom.Point{pt(0, 0), pt(275, 0), pt(300, 25), pt(300, 150), pt(0, 150)}
		at := []geom.Point{pt(40, 40), pt(40, 110), pt(200, 75)}
		if mirrored {
			for i, j := 0, len(corners)-1; i < j; i, j = i+1, j-1 {
				corners[i], corners[j] = corners[j], corners[i]
			}
		}
		for i := range corners {
			corners[i] = f(corners[i])
		}
		for i := range at {
			at[i] = f(at[i])
		}
		p := poly("tag", corners...)
		for i := range p.Features {
			if math.Abs(p.Features[i].LengthMM-25*math.Sqrt2) < 1e-6 {
				clip(p, i)
			}
		}
		return holes(p, 22, at...)
	}
	want := MakePlan(build(func(p geom.Point) geom.Point { return p }, false), yard(), job(10))
	if want.Blank.Form != "bar" || len(want.Cuts) != 2 {
		t.Fatalf("plan %+v", want)
	}
	turn := func(a float64, d geom.Point) func(geom.Point) geom.Point {
		m := geom.NewTurn(a)
		return func(p geom.Point) geom.Point { return m.Apply(p).Add(d) }
	}
	for i, part := range []*features.Part{
		build(turn(0, pt(1e4, -3e4)), false), build(turn(math.Pi/2, pt(0, 0)), false), build(turn(0.65, pt(17, 3)), false),
		build(turn(math.Pi, pt(0, 0)), false), build(func(p geom.Point) geom.Point { return pt(-p.X, p.Y) }, true),
	} {
		got := MakePlan(part, yard(), job(10))
		if got.Work.Hits != want.Work.Hits || got.Work.Cuts != want.Work.Cuts || got.Work.Settings != want.Work.Settings || grade(got) != grade(want) {
			t.Errorf("%d: %+v, want %+v", i, got.Work, want.Work)
		}
		near(t, "minutes", got.Work.MinutesTotal, want.Work.MinutesTotal, 1e-6)
		near(t, "length", got.Blank.LengthMM, want.Blank.LengthMM, 1e-6)
		for k := range got.Cuts {
			near(t, "cut", got.Cuts[k].LengthMM, want.Cuts[k].LengthMM, 1e-6)
		}
		if !reflect.DeepEqual(got, MakePlan(part, yard(), job(10))) {
			t.Errorf("%d: two runs differ", i)
		}
	}
}

// What is not planned says so, and never panics.
func TestUnplanned(t *testing.T) {
	p := yard()
	for _, part := range []*features.Part{
		{Name: "none"},
		{Name: "angle", Form: features.FormAngle, Outline: rect("x", 100, 50).Outline, Features: holes(rect("x", 100, 50), 14, pt(50, 25)).Features},
	} {
		pl := MakePlan(part, p, job(6))
		if pl.Work.Known || len(pl.Makes) != len(part.Features) {
			t.Errorf("%s: %+v", part.Name, pl)
		}
	}
	empty := &shop.Profile{}
	pl := MakePlan(holes(rect("plate", 200, 100), 22, pt(100, 50)), empty, job(10))
	wantMade(t, pl, "H1", "nothing", station.Fail)
	if grade(pl) != station.Fail {
		t.Errorf("an empty shop makes nothing: %+v", pl)
	}
}

// A shop that works in inches is judged alike; only its words differ.
func TestInchTwin(t *testing.T) {
	for _, c := range []float64{6, 10, 16, 25} {
		part := holes(clip(poly("tag", pt(0, 0), pt(275, 0), pt(300, 25), pt(300, 150), pt(0, 150)), 1), 22, pt(60, 75), pt(200, 75))
		add(part, features.Feature{ID: "S1", Kind: features.Slot, At: pt(150, 75), WidthMM: 22, LengthMM: 50})
		p := yard()
		mm := MakePlan(part, p, job(c))
		p.Units = "in"
		in := MakePlan(part, p, job(c))
		for i := range mm.Makes {
			if a, b := mm.Makes[i], in.Makes[i]; a.MadeBy != b.MadeBy || a.Use.Grade() != b.Use.Grade() || a.Use.Hits != b.Use.Hits {
				t.Errorf("%v mm: %+v and %+v", c, a, b)
			}
		}
		near(t, "minutes", in.Work.MinutesTotal, mm.Work.MinutesTotal, 1e-9)
		for _, a := range in.Makes[len(in.Makes)-1].Use.Aspects {
			if strings.Contains(a.Text, " mm") {
				t.Errorf("text %q", a.Text)
			}
		}
	}
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
