package plan

import (
	"math"
	"strings"
	"testing"

	"burrside/check/shop"
	"burrside/check/station"
)

// Case 1 of the blank: a tread bearer 100 x 2000 x 10 off flat 100 x 10 takes one
// cut of 100 mm, not one of 2000.
func TestLongStrap(t *testing.T) {
	pl := MakePlan(rect("bearer", 2000, 100), yard(), job(10))
	if pl.Blank.Form != "bar" || pl.Blank.Assumed || len(pl.Cuts) != 1 {
		t.Fatalf("blank %+v, cuts %+v", pl.Blank, pl.Cuts)
	}
	near(t, "cut", pl.Cuts[0].LengthMM, 100, 1e-9)
	if g := grade(pl); g != station.OK {
		t.Errorf("grade %d", g)
	}
	if pl.Edges[0] != EdgeMill || pl.Edges[1] != EdgeSheared || pl.Edges[2] != EdgeMill || pl.Edges[3] != EdgeSheared {
		t.Errorf("edges %v", pl.Edges)
	}
	wantMade(t, pl, "E1", "stock", station.OK)
	wantMade(t, pl, "E2", "shear", station.OK)
}

// Case 2: flat 250 x 12 with its end mitred 45 degrees takes a cut of 353.6 mm,
// beyond the row 12 x 300.
func TestMitredFlat(t *testing.T) {
	p := yard()
	p.Also = nil
	part := poly("mitred", pt(0, 0), pt(800, 0), pt(550, 250), pt(0, 250))
	pl := MakePlan(part, p, job(12))
	if pl.Blank.Form != "bar" || len(pl.Cuts) != 2 {
		t.Fatalf("blank %+v cuts %+v", pl.Blank, pl.Cuts)
	}
	var mitre, square *Cut
	for i := range pl.Cuts {
		if pl.Cuts[i].OffSquareRad > 0.1 {
			mitre = &pl.Cuts[i]
		} else {
			square = &pl.Cuts[i]
		}
	}
	if mitre == nil || square == nil {
		t.Fatalf("cuts %+v", pl.Cuts)
	}
	near(t, "mitre", mitre.LengthMM, 353.6, 0.05)
	near(t, "angle", mitre.OffSquareRad, math.Pi/4, 1e-9)
	near(t, "square", square.LengthMM, 250, 1e-9)
	if mitre.Use.Grade() != station.Fail || rule(mitre.Use) != "shear-row" || square.Use.Grade() != station.OK {
		t.Errorf("mitre %+v", mitre.Use)
	}
	if mk := made(t, pl, "E2"); mk.MadeBy != "nothing" {
		t.Errorf("E2 %+v", mk)
	}
	// A table that takes no 45 degrees: square first, then the mitre on the loose piece.
	p.Machines[0].Shear.MitreRad = 0.5
	pl = MakePlan(poly("turned", pt(0, 0), pt(800, 0), pt(700, 100), pt(0, 100)), p, job(10))
	if grade(pl) != station.Care || rule(pl.Cuts[1].Use) != "mitre" || len(pl.Cuts) != 2 || pl.Cuts[1].OnBar || pl.Cuts[1].What != "side cut" {
		t.Errorf("loose mitre: %+v", pl.Cuts)
	}
	near(t, "held", pl.Cuts[1].HeldMM, 800/math.Sqrt2, 1e-6)
	p.Machines[0].Shear.MitreRad = 0
	// A parallelogram's two mitres are one cut: each leaves the next piece's end.
	pl = MakePlan(poly("skew", pt(0, 0), pt(700, 0), pt(800, 100), pt(100, 100)), p, job(10))
	if len(pl.Cuts) != 1 || len(pl.Cuts[0].Features) != 2 {
		t.Errorf("cuts %+v", pl.Cuts)
	}
}

// Case 3: 600 x 600 x 6 off a plate 1500 x 3000 with a blade of 600: the first cut
// is 1500 long, so the part cannot be started without a strip of 600.
func TestPlateFirstCut(t *testing.T) {
	p := yard()
	p.Stock.FlatWidthsMM = nil
	part := rect("cover", 600, 600)
	pl := MakePlan(part, p, job(6))
	if pl.Blank.Form != "plate" || len(pl.Blank.Aspects) != 1 || pl.Blank.Aspects[0].Grade != station.Fail || pl.Blank.Aspects[0].Rule != "blank" {
		t.Fatalf("blank %+v", pl.Blank)
	}
	if pl.Work.Known {
		t.Error("counted without a blank")
	}
	wantMade(t, pl, "E1", "nothing", station.Fail)
	// A shop that can have it cut: care.
	p.Also = append(p.Also, shop.Process{Kind: "bought-cutting", Have: true})
	pl = MakePlan(part, p, job(6))
	if pl.Blank.Aspects[0].Grade != station.Care || grade(pl) != station.Care {
		t.Errorf("blank %+v", pl.Blank)
	}
	wantMade(t, pl, "E1", "bought", station.Care)
	if pl.Edges[0] != EdgeThermal {
		t.Errorf("edges %v", pl.Edges)
	}
	// A strip of 600 on the rack: fits.
	p.Stock.FlatWidthsMM = []float64{600}
	if pl = MakePlan(part, p, job(6)); pl.Blank.Form != "bar" || grade(pl) != station.OK {
		t.Errorf("with a strip: %+v", pl.Blank)
	}
	// The blank given: no cut at all.
	j := job(6)
	j.BlankGiven = true
	p.Stock.FlatWidthsMM = nil
	if pl = MakePlan(part, p, j); pl.Blank.Form != "given" || len(pl.Cuts) != 0 || grade(pl) != station.OK || pl.Edges[0] != EdgeUnknown {
		t.Errorf("given: %+v", pl)
	}
}

// A small plate that the blade takes: one side squared, once for the plate and no
// work of the piece, then two cuts, all edges sheared.
func TestSmallPlate(t *testing.T) {
	p := yard()
	p.Stock.FlatWidthsMM, p.Stock.Plates = nil, [][2]float64{{1000, 500}}
	pl := MakePlan(rect("cover", 400, 200), p, job(6))
	if pl.Blank.Form != "plate" || len(pl.Cuts) != 3 || grade(pl) != station.OK || pl.Cuts[0].What != squaringCut || pl.Cuts[0].LengthMM != 500 || pl.Work.Cuts != 2 {
		t.Fatalf("%+v %+v", pl.Blank, pl.Cuts)
	}
	near(t, "strip cut", pl.Cuts[1].LengthMM, 500, 1e-9)
	near(t, "end cut", pl.Cuts[2].LengthMM, 200, 1e-9)
	for i, k := range pl.Edges {
		if k != EdgeSheared {
			t.Errorf("edge %d is %s", i, k)
		}
	}
}

// A strip off a wider flat: cut off across 150, then along 310 mm, offcut 20 mm.
func TestStripOffWiderFlat(t *testing.T) {
	p := yard()
	p.Stock.Plates = nil
	pl := MakePlan(rect("strip", 310, 130), p, job(6))
	if pl.Blank.Form != "strip" || len(pl.Cuts) != 2 {
		t.Fatalf("%+v %+v", pl.Blank, pl.Cuts)
	}
	near(t, "end cut", pl.Cuts[0].LengthMM, 150, 1e-9)
	near(t, "side cut", pl.Cuts[1].LengthMM, 310, 1e-9)
	near(t, "offcut", pl.Cuts[1].OffcutMM, 20, 1e-9)
	if pl.Edges[0] != EdgeMill || pl.Edges[2] != EdgeSheared || grade(pl) != station.OK {
		t.Errorf("edges %v grade %d", pl.Edges, grade(pl))
	}
	// Off flat 150 an offcut of 3 mm of 6 mm metal would wedge: off flat 200 it does not.
	pl = MakePlan(rect("strip", 310, 147), p, job(6))
	if pl.Blank.Form != "strip" || pl.Cuts[1].OffcutMM != 53 || grade(pl) != station.OK {
		t.Errorf("%+v %+v", pl.Blank, pl.Cuts)
	}
	// With flat 150 only: sliver.
	p.Stock.FlatWidthsMM = []float64{150}
	pl = MakePlan(rect("strip", 310, 147), p, job(6))
	if pl.Blank.Form != "strip" || rule(pl.Cuts[1].Use) != "sliver" {
		t.Errorf("%+v %+v", pl.Blank, pl.Cuts)
	}
}

// Flats match within 0.5 mm, inch stock within 1/32 in.
func TestBarTolerance(t *testing.T) {
	p := yard()
	for _, c := range []struct {
		w    float64
		bar  bool
		inch bool
	}{{100, true, false}, {100.5, true, false}, {99.5, true, false}, {99.49, false, false}, {100.79, true, true}, {100.8, false, true}} {
		p.Units = "mm"
		if c.inch {
			p.Units = "in"
		}
		pl := MakePlan(rect("w", 400, c.w), p, job(6))
		if got := pl.Blank.Form == "bar"; got != c.bar {
			t.Errorf("%v: %s", c.w, pl.Blank.Form)
		}
	}
}

// No stock in the shop file: the blank is assumed, aloud, and the other reading is given.
func TestAssumedBlank(t *testing.T) {
	p := yard()
	p.Stock = shop.Stock{}
	pl := MakePlan(rect("bearer", 2000, 100), p, job(10))
	if !pl.Blank.Assumed || pl.Blank.Form != "bar" || pl.Blank.Aspects[0].Grade != station.Remark {
		t.Errorf("blank %+v", pl.Blank)
	}
	if len(pl.Alternatives) != 1 || pl.Alternatives[0].Form != "plate" {
		t.Errorf("alternatives %+v", pl.Alternatives)
	}
	if !strings.Contains(pl.Blank.Aspects[0].Text, "2000 mm") {
		t.Errorf("the other reading is not told: %q", pl.Blank.Aspects[0].Text)
	}
	// Wider than flats come: plate, whose cuts are as long as the part.
	pl = MakePlan(rect("sheet", 900, 500), p, job(6))
	if pl.Blank.Form != "plate" || grade(pl) != station.Fail {
		t.Errorf("blank %+v", pl.Blank)
	}
	// Stock that holds nothing of the size: to be bought.
	p.Stock = shop.Stock{Stated: true, FlatWidthsMM: []float64{50}}
	pl = MakePlan(rect("bearer", 2000, 100), p, job(10))
	if pl.Blank.Aspects[0].Grade != station.Care || len(pl.Work.Buy) != 1 || pl.Work.Buy[0] != "flat 100 x 10" {
		t.Errorf("blank %+v buy %v", pl.Blank, pl.Work.Buy)
	}
}

// The hold-down holds the bar: 50 x 50 clips off flat 50 with a reach of 70 fit. A
// piece 60 x 60 with one clip is clipped on the bar; with four, the last two see
// 49.5 mm and cannot be held.
func TestHoldDownOnTheBar(t *testing.T) {
	p := yard()
	p.Also = nil
	pl := MakePlan(holes(rect("clip", 50, 50), 14, pt(25, 25)), p, job(6))
	if g := grade(pl); g != station.OK {
		t.Errorf("50 x 50: grade %d %+v", g, pl.Cuts)
	}
	// floor((6000 - 10 - 70) / 50) = 118 pieces a bar; without the drop it would be 119.
	if pl.Blank.PiecesPerBar != 118 || PiecesPerBar(6000, 10, 0, 50, 0) != 119 {
		t.Errorf("%d pieces a bar", pl.Blank.PiecesPerBar)
	}
	one := clip(poly("one", pt(0, 0), pt(35, 0), pt(60, 25), pt(60, 60), pt(0, 60)), 1)
	pl = MakePlan(one, p, job(6))
	if len(pl.Cuts) != 2 || pl.Cuts[0].What != "clip" || !pl.Cuts[0].OnBar || grade(pl) != station.OK {
		t.Errorf("one clip: %+v", pl.Cuts)
	}
	near(t, "clip", pl.Cuts[0].LengthMM, 25*math.Sqrt2, 1e-9)
	// Drawn on the other end: that end leads.
	other := clip(poly("other", pt(25, 0), pt(60, 0), pt(60, 60), pt(0, 60), pt(0, 25)), 4)
	if pl = MakePlan(other, p, job(6)); grade(pl) != station.OK || !pl.Cuts[0].OnBar {
		t.Errorf("other end: %+v", pl.Cuts)
	}
	four := clip(poly("four", pt(25, 0), pt(35, 0), pt(60, 25), pt(60, 35), pt(35, 60), pt(25, 60), pt(0, 35), pt(0, 25)), 1, 3, 5, 7)
	pl = MakePlan(four, p, job(6))
	var off []Cut
	for _, c := range pl.Cuts {
		if c.What == "clip" && !c.OnBar {
			off = append(off, c)
		}
	}
	if len(off) != 2 {
		t.Fatalf("cuts %+v", pl.Cuts)
	}
	for _, c := range off {
		near(t, "held", c.HeldMM, 49.5, 0.05)
		if c.Use.Grade() != station.Fail || rule(c.Use) != "hold-down" {
			t.Errorf("%+v", c.Use)
		}
	}
	// Held loose, the piece with one clip has 67.2 mm across it.
	j := job(6)
	j.BlankGiven = true
	pl = MakePlan(one, p, j)
	near(t, "held", pl.Cuts[0].HeldMM, 67.2, 0.05)
	if rule(pl.Cuts[0].Use) != "hold-down" || grade(pl) != station.Fail {
		t.Errorf("%+v", pl.Cuts)
	}
}

// A triangular gusset off flat 200: a square cut and a mitre of 282.8 mm, or the
// equal of it; the pieces nest head to tail.
func TestGusset(t *testing.T) {
	pl := MakePlan(poly("gusset", pt(0, 0), pt(200, 0), pt(0, 200)), yard(), job(8))
	if pl.Blank.Form != "bar" || grade(pl) > station.Remark {
		t.Fatalf("%+v %+v", pl.Blank, pl.Cuts)
	}
	long := 0.0
	for _, c := range pl.Cuts {
		long = max(long, c.LengthMM)
	}
	near(t, "mitre", long, 200*math.Sqrt2, 0.01)
}

// An inside corner is no cut of a shear: an L whose edges are drawn as straight cuts.
func TestInnerEdges(t *testing.T) {
	p := yard()
	pl := MakePlan(poly("L", pt(0, 0), pt(200, 0), pt(200, 80), pt(80, 80), pt(80, 200), pt(0, 200)), p, job(6))
	for _, id := range []string{"E3", "E4"} {
		if mk := wantMade(t, pl, id, "nothing", station.Fail); rule(mk.Use) != "edge-process" {
			t.Errorf("%s %+v", id, mk)
		}
	}
	p.Also = append(p.Also, shop.Process{Kind: "thermal", Have: true})
	pl = MakePlan(poly("L", pt(0, 0), pt(200, 0), pt(200, 80), pt(80, 80), pt(80, 200), pt(0, 200)), p, job(6))
	wantMade(t, pl, "E3", "thermal", station.Care)
}

// A part longer than the rack's bars, or larger than its plates, is not taken from them.
func TestStockIsLongEnough(t *testing.T) {
	p := yard()
	pl := MakePlan(rect("stringer", 6100, 100), p, job(10))
	if pl.Blank.Form == "bar" && !pl.Blank.Assumed || len(pl.Work.Buy) != 1 {
		t.Errorf("6100 off 6000: %+v", pl.Blank)
	}
	if pl = MakePlan(rect("stringer", 6000, 100), p, job(10)); pl.Blank.Form != "bar" || pl.Blank.Assumed {
		t.Errorf("6000: %+v", pl.Blank)
	}
	p.Stock.FlatWidthsMM, p.Stock.Plates = nil, [][2]float64{{250, 500}}
	for _, c := range []struct {
		l, w  float64
		plate bool
	}{{500, 250, true}, {250, 500, true}, {510, 100, false}, {400, 260, false}} {
		pl := MakePlan(rect("piece", c.l, c.w), p, job(6))
		if got := pl.Blank.Form == "plate"; got != c.plate {
			t.Errorf("%v x %v off 250 x 500: %+v", c.l, c.w, pl.Blank)
		}
	}
}

// A flat of a usual width that the rack lacks is an order, where nothing on the
// rack does; a strip too narrow for the hold-down is sawn.
func TestFlatToBuy(t *testing.T) {
	p := yard()
	p.Also, p.Stock.Plates = nil, nil
	pl := MakePlan(rect("link", 400, 40), p, job(10)) // a strip off flat 50 cannot be held
	if pl.Blank.Form != "bar" || len(pl.Work.Buy) != 1 || pl.Work.Buy[0] != "flat 40 x 10" || grade(pl) != station.Care {
		t.Errorf("%+v %v", pl.Blank, pl.Work.Buy)
	}
	pl = MakePlan(rect("link", 260, 42), p, job(10))
	if pl.Blank.Form != "strip" || grade(pl) != station.Fail || rule(pl.Cuts[1].Use) != "hold-down" {
		t.Errorf("%+v %+v", pl.Blank, pl.Cuts)
	}
	p.Also = []shop.Process{{Kind: "saw", Have: true}}
	if mk := wantMade(t, MakePlan(rect("link", 260, 42), p, job(10)), "E3", "saw", station.Care); rule(mk.Use) != "hold-down" {
		t.Errorf("%+v", mk.Use)
	}
	// No saw is taken to rip 400 mm unless it is stated.
	wantMade(t, MakePlan(rect("link", 400, 42), p, job(10)), "E3", "nothing", station.Fail)
	p.Also[0].MaxDiameterMM = 500
	wantMade(t, MakePlan(rect("link", 400, 42), p, job(10)), "E3", "saw", station.Care)
	// A small clip on a piece that cannot be held is ground.
	p.Also = []shop.Process{{Kind: "grinder", Have: true, MaxRadiusMM: 15, MaxThicknessMM: 12}}
	small := clip(poly("small", pt(0, 0), pt(92, 0), pt(100, 8), pt(100, 60), pt(0, 60)), 1)
	if mk := wantMade(t, MakePlan(small, p, job(10)), "E2", "grind", station.Care); rule(mk.Use) != "sliver" {
		t.Errorf("%+v", mk.Use)
	}
}

// TestUsualFlatsOfBothMeasures: a strap of a usual inch or metric width is to be
// bought, not ripped, whatever the shop measures in and however much wider
// stock lies on the rack (flats of 2 in and 125 mm: common practice, no source).
func TestUsualFlatsOfBothMeasures(t *testing.T) {
	for _, c := range []struct{ l, w float64 }{{609.6, 50.8}, {800, 125}} {
		for _, rack := range [][]float64{{45, 80, 120}, {45, 80, 120, 150, 200}} {
			p := yard()
			p.Buy = true
			p.Stock = shop.Stock{FlatWidthsMM: rack, FlatLengthMM: 6000, Stated: true}
			pl := MakePlan(rect("strap", c.l, c.w), p, job(6))
			if pl.Blank.Form != "bar" || len(pl.Work.Buy) != 1 {
				t.Errorf("%v x %v from %v: %s %q, to buy %v", c.l, c.w, rack, pl.Blank.Form, pl.Blank.Text, pl.Work.Buy)
			}
		}
	}
}

// TestWholeBar: a part as long as the bar leaves no trim.
func TestWholeBar(t *testing.T) {
	for l, want := range map[float64]station.Grade{5990: station.OK, 5990.1: station.Care, 5995: station.Care, 6000: station.Care} {
		p := yard()
		p.Stock = shop.Stock{FlatWidthsMM: []float64{100}, FlatLengthMM: 6000, Stated: true}
		pl := MakePlan(rect("strap", l, 100), p, job(6))
		g := station.OK
		for _, a := range pl.Blank.Aspects {
			g = max(g, a.Grade)
		}
		if pl.Blank.Form != "bar" || g != want {
			t.Errorf("%v of 6000: %s, grade %d, want %d: %+v", l, pl.Blank.Form, g, want, pl.Blank.Aspects)
		}
	}
}
