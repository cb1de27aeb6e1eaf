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

// An L plate 1200 x 1200 with arms of 600: the hole at (560, 560) lies 480.8 mm
// from the chord, 560 mm from the edges that it can be gauged on, although the
// nearest outline point is 56.6 mm away.
func TestReachOfL(t *testing.T) {
	part := holes(poly("L", pt(0, 0), pt(1200, 0), pt(1200, 600), pt(600, 600), pt(600, 1200), pt(0, 1200)), 22, pt(560, 560))
	pl := &planner{part: part, prof: yard(), prep: Prepare(part)}
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
