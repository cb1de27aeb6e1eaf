package features

import (
	"math"
	"testing"

	"burrside/features/geom"
)

// rectangle is the outline of an upright rectangle.
func rectangle(x, y, w, h float64) geom.Ring {
	return geom.RingOf(geom.Point{X: x, Y: y}, geom.Point{X: x + w, Y: y}, geom.Point{X: x + w, Y: y + h}, geom.Point{X: x, Y: y + h})
}

func circle(x, y, d float64) geom.Ring {
	return geom.Ring{geom.CircleEdge(geom.Point{X: x, Y: y}, d/2)}
}

// place is short for a point.
func place(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// twoLegs are the views of an angle 300 long with legs 100 and 75, heels facing
// each other, leg b above leg a.
func twoLegs() [2]LegView {
	return [2]LegView{
		{Outline: rectangle(0, 0, 300, 100), Holes: []geom.Ring{circle(40, 45, 22)}, Heel: [2]geom.Point{place(0, 100), place(300, 100)}, Toe: place(0, -1)},
		{Outline: rectangle(0, 150, 300, 75), Holes: []geom.Ring{circle(60, 190, 18)}, Heel: [2]geom.Point{place(0, 150), place(300, 150)}, Toe: place(0, 1)},
	}
}

func featureOf(t *testing.T, p *Part, id string) *Feature {
	t.Helper()
	for i := range p.Features {
		if p.Features[i].ID == id {
			return &p.Features[i]
		}
	}
	t.Fatalf("no feature %s in %v", id, p.Features)
	return nil
}

func isAbout(a, b float64) bool { return math.Abs(a-b) < 1e-6 }

func TestFoldOutPlain(t *testing.T) {
	p, err := FoldOut(twoLegs())
	if err != nil {
		t.Fatal(err)
	}
	a := p.Angle
	if !isAbout(a.LegMM[0], 100) || !isAbout(a.LegMM[1], 75) || !isAbout(a.LengthMM, 300) {
		t.Errorf("legs %v, length %v", a.LegMM, a.LengthMM)
	}
	if got, want := p.Outline.Area(), 300.0*175; !isAbout(got, want) {
		t.Errorf("area of the outline %v, want %v", got, want)
	}
	if h := featureOf(t, &p, "H1"); h.Leg != "a" || !isAbout(h.FromHeelMM, 55) || !isAbout(h.FromStartMM, 40) {
		t.Errorf("H1: leg %q, %v from the heel, %v from the start", h.Leg, h.FromHeelMM, h.FromStartMM)
	}
	h := featureOf(t, &p, "H2")
	if h.Leg != "b" || !isAbout(h.FromHeelMM, 40) || !isAbout(h.FromStartMM, 60) || !isAbout(h.At.Y, 140) {
		t.Errorf("H2: leg %q, %v from the heel, %v from the start, at %v", h.Leg, h.FromHeelMM, h.FromStartMM, h.At)
	}
	if d := a.OnDrawing(h.At); d.Dist(place(60, 190)) > 1e-6 {
		t.Errorf("H2 stands at %v on the drawing", d)
	}
	// Two ends through both legs, two toes, nothing along the heel.
	var ends, toes int
	for _, f := range p.Features {
		if f.Kind != StraightCut {
			continue
		}
		switch {
		case f.Leg == "" && isAbout(f.LengthMM, 175) && isAbout(a.OffSquareRad(&f), 0):
			ends++
		case f.Leg != "" && isAbout(f.LengthMM, 300):
			toes++
		default:
			t.Errorf("another cut: %+v", f)
		}
	}
	if ends != 2 || toes != 2 {
		t.Errorf("%d ends and %d toes", ends, toes)
	}
	everyEdgeOwned(t, &p)
}

func everyEdgeOwned(t *testing.T, p *Part) {
	t.Helper()
	owners := make([]int, len(p.Outline))
	for _, f := range p.Features {
		for _, e := range f.Edges {
			owners[e]++
		}
	}
	for i, n := range owners {
		if n != 1 {
			t.Errorf("edge %d of the outline %v belongs to %d features", i, p.Outline[i], n)
		}
	}
}

// The other leg's view may stand on any side, with its heel away, turned over
// or stood on end: the same angle comes out.
func TestFoldOutAnyHabit(t *testing.T) {
	want, err := FoldOut(twoLegs())
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range []geom.Motion{
		geom.NewShift(place(0, 333)), geom.NewTurn(1), geom.NewMirror(), geom.NewTurnAbout(place(5, 9), math.Pi/2).Then(geom.NewMirror()),
	} {
		legs := twoLegs()
		b := &legs[1]
		b.Outline, b.Holes[0] = moved(b.Outline, m), moved(b.Holes[0], m)
		b.Heel[0], b.Heel[1], b.Toe = m.Apply(b.Heel[0]), m.Apply(b.Heel[1]), m.ApplyDir(b.Toe)
		got, err := FoldOut(legs)
		if err != nil {
			t.Fatal(err)
		}
		if got.Outline.Area()-want.Outline.Area() > 1e-6 || len(got.Features) != len(want.Features) {
			t.Errorf("%+v: another outline or number of features", m)
		}
		for i := range got.Features {
			if g, w := &got.Features[i], &want.Features[i]; g.ID != w.ID || g.Leg != w.Leg || g.At.Dist(w.At) > 1e-6 {
				t.Errorf("%+v: %s leg %q at %v, want %s leg %q at %v", m, g.ID, g.Leg, g.At, w.ID, w.Leg, w.At)
			}
		}
		if d := got.Angle.OnDrawing(featureOf(t, &got, "H2").At); d.Dist(m.Apply(place(60, 190))) > 1e-6 {
			t.Errorf("%+v: H2 stands at %v on the drawing", m, d)
		}
		everyEdgeOwned(t, &got)
	}
}

// A mitre in leg a, a cope at the heel's end, a notch through the heel and one
// in a toe.
func TestFoldOutCutLegs(t *testing.T) {
	legs := twoLegs()
	legs[0].Outline = geom.RingOf(place(0, 0), place(200, 0), place(300, 100), place(180, 100), place(180, 80), place(120, 80), place(120, 100), place(30, 100), place(30, 60), place(0, 60))
	legs[1].Outline = geom.RingOf(place(0, 150), place(120, 150), place(120, 165), place(180, 165), place(180, 150), place(300, 150), place(300, 225), place(240, 225), place(240, 205), place(220, 205), place(220, 225), place(0, 225))
	legs[0].Holes, legs[1].Holes = nil, nil
	p, err := FoldOut(legs)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Holes) != 1 || !isAbout(p.Holes[0].Area(), 60*35) {
		t.Fatalf("openings: %v", p.Holes)
	}
	if c := featureOf(t, &p, "C1"); c.Kind != RectangularHole || c.Leg != "" || !isAbout(c.WidthMM, 35) || !isAbout(c.LengthMM, 60) {
		t.Errorf("C1: %+v", *c)
	}
	var got []string
	for _, f := range p.Features {
		got = append(got, f.ID+" "+string(f.Kind)+" "+string(f.Shape)+" "+f.Subkind+" "+f.Leg)
	}
	kinds := map[string]int{}
	for _, f := range p.Features {
		kinds[string(f.Kind)+string(f.Shape)+f.Subkind+f.Leg]++
	}
	for k, n := range map[string]int{"notchcornera": 1, "notchrectangularb": 1, "straight-cutmitrea": 1} {
		if kinds[k] != n {
			t.Errorf("%d of %s in %v", kinds[k], k, got)
		}
	}
	everyEdgeOwned(t, &p)
	// The area by hand: two legs, the mitre, the cope, the notch through the heel, the notch in the toe.
	if want := 300.0*175 - 100*100/2 - 30*40 - 60*35 - 20*20; !isAbout(p.AreaMM2, want) {
		t.Errorf("area %v, want %v", p.AreaMM2, want)
	}
}

// Views that do not share their heel make no angle.
func TestFoldOutRefuses(t *testing.T) {
	legs := twoLegs()
	legs[1].Outline = rectangle(0, 160, 300, 75)
	if _, err := FoldOut(legs); err == nil {
		t.Error("a leg without an edge on the heel was folded out")
	}
	legs = twoLegs()
	legs[1].Outline = rectangle(400, 150, 300, 75)
	if _, err := FoldOut(legs); err == nil {
		t.Error("legs beside each other were folded out")
	}
}
