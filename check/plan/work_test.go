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

// A part 200 x 150 x 10 with four Ø22, ten of them: set-up 120 + 3 x 180 + 180 =
// 840 s, run 10 x (15 + 4 x 8 + 2 x 20) = 870 s, over 0.80: 35.6 min, 3.56 a piece,
// inside the 3 to 6 minutes that a published estimating table gives for sheared and
// punched cleats (Methvin, estimating production rates, workshop fabrication).
func TestMinutes(t *testing.T) {
	p := yard()
	part := holes(rect("cleat", 200, 150), 22, pt(40, 40), pt(160, 40), pt(40, 110), pt(160, 110))
	j := job(10)
	j.Quantity = 10
	w := MakePlan(part, p, j).Work
	if !w.Known || w.Hits != 4 || w.Cuts != 1 || w.ToolChanges != 1 || w.Settings != 3 || w.FirstOffs != 1 || w.Visits != 2 {
		t.Errorf("%+v", w)
	}
	near(t, "set-up", w.SetUpMinutes, 840/0.8/60, 1e-9)
	near(t, "each", w.MinutesEach, 87/0.8/60, 1e-9)
	near(t, "total", w.MinutesTotal, 35.6, 0.05)
	if each := w.MinutesTotal / 10; each < 3 || each > 6 {
		t.Errorf("%v minutes a piece of ten", each)
	}
	j.Quantity = 100
	near(t, "hundred", MakePlan(part, p, j).Work.MinutesTotal/100, 1.99, 0.005)
	// Deburring the sheared edges and the holes' burr side, 1 m a minute.
	p.Rates.DeburrMPerMinute = 1
	d := MakePlan(part, p, j).Work
	near(t, "burr", d.DeburrMM, 2*150+4*3.14159265*22, 0.001)
	near(t, "deburring", d.MinutesEach-w.MinutesEach, d.DeburrMM/1000/0.8, 1e-9)
	near(t, "net", w.NetKG, (200*150-4*3.14159265*121)*10*7850e-9, 1e-6)
	near(t, "gross", w.GrossKG, 200*150*10*7850e-9, 1e-9)
	if len(w.Assumptions) < 5 || !strings.Contains(strings.Join(w.Assumptions, "\n"), "8 s a hit") {
		t.Errorf("assumptions %q", w.Assumptions)
	}
}

// 80 parts of three punch sizes in two die clearances: changes are counted over
// the job, 6 instead of one or more a part; 6 x 120 s = 12 min.
func TestTotals(t *testing.T) {
	p := yard()
	p.Punches = nil
	for _, d := range []float64{14, 18, 22} {
		p.Punches = append(p.Punches, shop.Punch{Name: "Ø" + string(rune('A'+int(d)/4)), Shape: "round", WidthMM: d, Dies: []shop.Die{{WidthMM: d + 0.7}, {WidthMM: d + 1.2}}})
	}
	var plans []*Plan
	var jobs []Job
	alone := 0
	for i := 0; i < 80; i++ {
		part := rect("p", 200, 100)
		holes(part, []float64{14, 18, 22}[i%3], pt(40, 50), pt(160, 50))
		if i%5 < 3 {
			holes(part, []float64{14, 18, 22}[(i+1)%3], pt(100, 50))
		}
		j := job([]float64{6, 10}[i%2])
		j.Quantity = 1 + i%4
		plans, jobs = append(plans, MakePlan(part, p, j)), append(jobs, j)
		alone += plans[i].Work.ToolChanges
	}
	tot := Totals(plans, jobs, p)
	if alone != 128 || tot.ToolChanges != 6 {
		t.Errorf("%d changes part by part, %d over the job", alone, tot.ToolChanges)
	}
	near(t, "changes' minutes", float64(tot.ToolChanges)*p.Rates.PunchChange/60, 12, 1e-9)
	pieces, hits, run := 0, 0, 0.0
	for i, pl := range plans {
		pieces += jobs[i].Quantity
		hits += jobs[i].Quantity * pl.Work.Hits
		run += float64(jobs[i].Quantity) * pl.Work.MinutesEach
	}
	if tot.Parts != 80 || tot.Pieces != pieces || tot.Hits != hits || tot.Uncounted != 0 {
		t.Errorf("%+v", tot)
	}
	near(t, "run", tot.RunMinutes, run, 1e-9)
	near(t, "total", tot.TotalMinutes, tot.SetUpMinutes+run, 1e-9)
	// What is not counted is said.
	none := Totals([]*Plan{MakePlan(rect("p", 200, 100), p, Job{})}, nil, p)
	if none.Uncounted != 1 || none.TotalMinutes != 0 || !strings.Contains(none.Assumptions[1], "1 of 1") {
		t.Errorf("%+v", none)
	}
}

// Holes that a turn brings to the same stop share a setting; marks need none.
func TestSettings(t *testing.T) {
	p := yard()
	asym := holes(rect("asym", 300, 100), 22, pt(40, 30), pt(240, 60))
	if w := MakePlan(asym, p, job(6)).Work; w.Settings != 1+4 || w.Turns != 1 {
		t.Errorf("asymmetric: %+v", w)
	}
	sym := holes(rect("sym", 300, 100), 22, pt(40, 30), pt(260, 70))
	if w := MakePlan(sym, p, job(6)).Work; w.Settings != 1+2 || w.Turns != 1 {
		t.Errorf("symmetric: %+v", w)
	}
	p.Machines[0].Punch.Stop = false
	w := MakePlan(sym, p, job(6)).Work
	if w.Settings != 1 || w.Turns != 0 {
		t.Errorf("marked: %+v", w)
	}
	near(t, "marked", w.MinutesEach, (15+2*25+2*20)/0.8/60, 1e-9)
}

// The order of work: clips and holes on the bar before it is cut to length, if
// every hole leaves 2 t to the cuts; notches after the holes.
func TestOrder(t *testing.T) {
	p := yard()
	part := holes(clip(poly("tag", pt(0, 0), pt(275, 0), pt(300, 25), pt(300, 100), pt(0, 100)), 1), 22, pt(60, 50))
	add(part, features.Feature{ID: "N1", Kind: features.Notch, Shape: features.NotchRectangular, WidthMM: 80, DepthMM: 20, At: pt(150, 100)})
	order := func(pl *Plan) string {
		var s []string
		for _, st := range pl.Steps {
			s = append(s, st.What+" "+strings.Join(st.Features, "+"))
		}
		return strings.Join(s, ", ")
	}
	if got, want := order(MakePlan(part, p, job(6))), "shear E2, punch H1, shear E5+E3, notch N1"; got != want {
		t.Errorf("order %q, want %q", got, want)
	}
	// A web of 9 mm to the end is under 2 t: cut first, then punch.
	near := holes(rect("near", 300, 100), 22, pt(20, 50))
	if got, want := order(MakePlan(near, p, job(6))), "shear E4+E2, punch H1"; got != want {
		t.Errorf("order %q, want %q", got, want)
	}
}

// A disc is no work for a shear.
func TestDisc(t *testing.T) {
	p := yard()
	part := &features.Part{Name: "disc", Form: features.FormFlat, Outline: geom.Ring{geom.CircleEdge(pt(100, 100), 60)}, DrawnAt: make([]features.Placement, 1)}
	part.AreaMM2 = part.Outline.Area()
	part.Features = []features.Feature{{ID: "E1", Kind: features.ArcCut, RadiusMM: 60, Edges: []int{0}, Hole: -1}}
	holes(part, 22, pt(100, 100))
	pl := MakePlan(part, p, job(10))
	if pl.Blank.Form != "disc" || len(pl.Cuts) != 0 {
		t.Errorf("%+v", pl.Blank)
	}
	near2(t, "diameter", pl.Blank.WidthMM, 120)
	wantMade(t, pl, "E1", "nothing", station.Fail)
	// Nothing to gauge on: to a mark.
	mk := made(t, pl, "H1")
	if mk.Use.Grade() != station.Care || rule(mk.Use) != "throat-reach" {
		t.Errorf("%+v", mk.Use)
	}
	p.Also = append(p.Also, shop.Process{Kind: "bought-cutting", Have: true})
	pl = MakePlan(part, p, job(10))
	wantMade(t, pl, "E1", "bought", station.Care)
	near2(t, "gross", pl.Work.GrossKG, math.Pi/4*120*120*10*7850e-9)
	// A flat on the rim is cut from the disc, not given by it: 36 mm from the middle
	// the chord is 2 sqrt(60^2 - 36^2) = 96 mm, and 24 mm fall.
	flat := &features.Part{Name: "flat", Form: features.FormFlat, DrawnAt: make([]features.Placement, 1)}
	flat.Outline = geom.Ring{geom.LineEdge(pt(148, 136), pt(52, 136)), geom.ArcEdge(pt(100, 100), pt(52, 136), pt(148, 136), true)}
	flat.Features = []features.Feature{{ID: "E1", Kind: features.StraightCut, At: pt(100, 136), From: pt(148, 136), To: pt(52, 136), Edges: []int{0}, Hole: -1},
		{ID: "E2", Kind: features.ArcCut, RadiusMM: 60, Edges: []int{1}, Hole: -1}}
	pl = MakePlan(flat, p, job(10))
	if len(pl.Cuts) != 1 || made(t, pl, "E1").MadeBy != "shear" {
		t.Fatalf("%+v", pl.Cuts)
	}
	near(t, "chord", pl.Cuts[0].LengthMM, 96, 0.05)
	near(t, "offcut", pl.Cuts[0].OffcutMM, 24, 0.05)
	near(t, "held", pl.Cuts[0].HeldMM, 96, 0.05)
}

func near2(t *testing.T, what string, got, want float64) { t.Helper(); near(t, what, got, want, 1e-9) }

// Turns and heavy pieces take their time.
func TestTurnsAndWeight(t *testing.T) {
	p := yard()
	part := holes(rect("cleat", 200, 150), 22, pt(40, 40), pt(160, 40), pt(40, 110), pt(160, 110))
	before := MakePlan(part, p, job(10)).Work
	p.Rates.Turn = 15
	after := MakePlan(part, p, job(10)).Work
	if after.Turns != 3 {
		t.Errorf("%d turns", after.Turns)
	}
	near(t, "turns", after.MinutesEach-before.MinutesEach, 3*15/0.8/60, 1e-9)
	p.Rates.Turn = 0
	for _, c := range []struct{ l, handling float64 }{{800, 20}, {900, 40}, {2200, 120}} { // 9.4, 10.6 and 25.9 kg
		w := MakePlan(holes(rect("heavy", c.l, 150), 22, pt(400, 75)), p, job(10)).Work
		near(t, "handling", w.MinutesEach, (15+8+2*c.handling)/0.8/60, 1e-9)
	}
}

// A hole that only the finished outline brings within the throat is punched after
// the cuts.
func TestPunchedAfterCuts(t *testing.T) {
	p := yard()
	p.Machines[0].Punch.ThroatMM = 65
	p.Machines[0].Shear.Rows = []shop.Row{{ThicknessMM: 20, SizeMM: 600}}
	part := holes(clip(poly("clipped", pt(0, 0), pt(200, 0), pt(400, 200), pt(400, 300), pt(0, 300)), 1), 22, pt(260, 110))
	pl := MakePlan(part, p, job(6))
	mk := wantMade(t, pl, "H1", "punch", station.OK) // gauged on the clipped edge
	if !mk.AfterCuts {
		t.Error("the corner comes off first")
	}
	if last := pl.Steps[len(pl.Steps)-1]; last.What != "punch" {
		t.Errorf("steps %+v", pl.Steps)
	}
	p.Machines[0].Punch.ThroatMM = 150
	if mk := made(t, MakePlan(part, p, job(6)), "H1"); mk.AfterCuts {
		t.Error("within the throat on the blank")
	}
}
