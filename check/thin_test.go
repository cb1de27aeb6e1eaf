package check

import (
	"math"
	"testing"

	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// A hole too near the edge for a punch is drilled: the shop can make it, so
// that the part is one to make with care, not one that does not fit. A shop
// with no drill says what the web lacks.
func TestThinWebIsDrilled(t *testing.T) {
	p := shop.BuiltIn()
	b := examplePlate("plate", 200, 150)
	b.hole(9+4, 75, 18) // 4 mm of metal, 5 mm asked of a punch
	rep := RunPart(b.p, p, thick(steel(t, p, "mild"), 10))
	if rep.Verdict != WithCare {
		t.Errorf("%s: %+v", rep.Verdict, rep.Findings)
	}
	by := ""
	for _, m := range rep.Plan.Makes {
		if b.p.Features[m.Feature].ID == "H1" {
			by = m.MadeBy
		}
	}
	if by != "drill" {
		t.Errorf("H1 made by %q", by)
	}
	q := own(p)
	for i := range q.Also {
		q.Also[i].Have = false
	}
	rep = RunPart(b.p, q, thick(steel(t, q, "mild"), 10))
	if l := of(rep, "web"); rep.Verdict != DoesNotFit || len(l) != 1 || l[0].Severity != Error {
		t.Errorf("without a drill: %s %+v", rep.Verdict, rep.Findings)
	}
}

// A flange that tapers from 50 mm to nothing falls into the die at its narrow end;
// one that only lacks its corners does not.
func TestTaperedFlange(t *testing.T) {
	p := shop.BuiltIn()
	judge := func(points ...geom.Point) *PartReport {
		b := exampleOutline("bent", geom.RingOf(points...))
		for i := range b.p.Outline {
			b.edge(features.StraightCut, i)
		}
		from, to := geom.Point{X: 200}, geom.Point{X: 200, Y: 80}
		b.p.Features = append(b.p.Features, features.Feature{ID: "B1", Kind: features.Bend, At: from.Add(to).Mul(0.5), LengthMM: 80, From: from, To: to,
			BentRad: math.Pi / 2, BentTo: "up", Open: geom.Ring{geom.LineEdge(from, to)}, Hole: -1})
		return RunPart(b.p, p, thick(steel(t, p, "mild"), 6))
	}
	taper := of(judge(geom.Point{}, geom.Point{X: 250}, geom.Point{X: 202, Y: 80}, geom.Point{Y: 80}), "bend")
	if len(taper) != 1 || taper[0].Severity != Warning || taper[0].Got == nil || abs(taper[0].Got.Value-(2+0.1*48)) > 0.01 {
		t.Errorf("tapered: %+v", taper)
	}
	if l := of(judge(geom.Point{}, geom.Point{X: 245}, geom.Point{X: 250, Y: 5}, geom.Point{X: 250, Y: 75}, geom.Point{X: 245, Y: 80}, geom.Point{Y: 80}), "bend"); len(l) != 0 {
		t.Errorf("corners cut off: %+v", l)
	}
}

// A drill pushes no metal aside: 24 mm beside a drilled hole in 40 mm plate are
// plenty, and 19 mm, under half of the thickness, need care.
func TestWebBesideDrilledHole(t *testing.T) {
	p := shop.BuiltIn()
	for _, c := range []struct {
		metal float64
		want  Severity
	}{{24, ""}, {20, ""}, {19.9, Warning}, {10, Warning}, {9.9, Error}} {
		b := examplePlate("plate", 300, 150)
		b.hole(7+c.metal, 75, 14)
		wantSeverity(t, RunPart(b.p, p, thick(steel(t, p, "mild"), 40)), "web", c.want)
	}
}
