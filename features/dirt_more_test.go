package features_test

import (
	"fmt"
	"math"

	"burrside/dxfread/dxftest"
)

// dirtOutlines: outlines with jogs, overshoots, wrong arcs and several gaps.
func dirtOutlines(l *dirtList) {
	sheet := func() *dxftest.Builder { return dirtNotes(dxftest.MM, 1) }
	v := func(xy ...float64) (out []dxftest.V) {
		for i := 0; i+1 < len(xy); i += 2 {
			out = append(out, dxftest.V{X: xy[i], Y: xy[i+1]})
		}
		return out
	}
	// A jog in an edge, a dent in it, and a vertex off the line.
	for _, j := range []float64{0.001, 0.005, 0.01, 0.02, 0.05} {
		jog := dirtPlate().Polyline(true, v(0, 0, 100, 0, 100, j, 200, j, 200, 140, 0, 140)...)
		dent := dirtPlate().Polyline(true, v(0, 0, 80, 0, 80, j, 120, j, 120, 0, 200, 0, 200, 140, 0, 140)...)
		if j == 0.001 {
			jog.Want(100, 0, 0.1, "note code=zero-length")
			dent.Want(80, 0, 0.1, "note code=zero-length count=2")
		} else {
			jog.Want(100, 0, 0.1, "note code=jog-smoothed count=2")
			dent.Want(80, 0, 0.1, "note code=jog-smoothed count=4")
		}
		l.add(fmt.Sprintf("jog-%g", j), jog)
		l.add(fmt.Sprintf("dent-%g", j), dent)
	}
	for _, j := range []float64{0.001, 0.005, 0.01, 0.02} {
		b := dirtPlate().Polyline(true, v(0, 0, 100, j, 200, 0, 200, 140, 0, 140)...)
		if j > 0.002 {
			b.Want(100, 0, 0.1, "note code=jog-smoothed count=1")
		}
		l.add(fmt.Sprintf("vertex-off-%g", j), b)
	}
	// Ten times the step is one.
	l.add("jog-0.5", dirtInside(sheet()).Polyline(true, v(0, 0, 100, 0, 100, 0.5, 200, 0.5, 200, 140, 0, 140)...).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f", 28000-50-dirtHole-dirtSlot)).Want(150, 0.25, 0.1, "feature notch shape=corner w=100 depth=0.5"))
	// Sides that run on past the corners, like lines of construction.
	for _, o := range []float64{0.01, 0.3, 2, 20} {
		if o == 0.01 { // the digits of the drawing are no finer
			l.add("overshoot-0.01", dirtPlate().Line(-o, 0, 200+o, 0).Line(200, -o, 200, 140+o).Line(200+o, 140, -o, 140).Line(0, 140+o, 0, -o).
				Want(0, 0, 0, "note code=snap-raised anywhere"))
			continue
		}
		l.add(fmt.Sprintf("overshoot-%g", o), dirtPlate().Line(-o, 0, 200+o, 0).Line(200, -o, 200, 140+o).Line(200+o, 140, -o, 140).Line(0, 140+o, 0, -o).
			Want(0, 0, 0, "note code=stray-line count=8 anywhere"))
	}
	// Four gaps, one at each corner or in each side.
	for _, g := range []float64{0.03, 0.04, 0.2, 0.35} {
		b := dirtInside(sheet()).Line(g, 0, 200-g, 0).Line(200, g, 200, 140-g).Line(200-g, 140, g, 140).Line(0, 140-g, 0, g)
		clean := ""
		if g*math.Sqrt2 > 0.05 {
			clean = "clean=no"
			b.Want(0, 0, 0, fmt.Sprintf("fault code=gap-bridged value=%.4f count=4 anywhere", g*math.Sqrt2))
		}
		l.add(fmt.Sprintf("gap-four-corners-%g", g), dirtWant(b, clean).Want(0, 0, 0, "note code=gap-closed count=4 anywhere"))
		b = dirtInside(sheet()).Line(0, 0, 100, 0).Line(100+g, 0, 200, 0).Line(200, 0, 200, 70).Line(200, 70+g, 200, 140).Line(200, 140, 100, 140).Line(100-g, 140, 0, 140).Line(0, 140, 0, 70).Line(0, 70-g, 0, 0)
		clean = ""
		if g > 0.05 {
			clean = "clean=no"
			b.Want(0, 0, 0, fmt.Sprintf("fault code=gap-bridged value=%g count=4 anywhere", g))
		}
		l.add(fmt.Sprintf("gap-four-sides-%g", g), dirtWant(b, clean).Want(0, 0, 0, "note code=gap-closed count=4 anywhere"))
	}
	// A side that stops short of the middle of another.
	tee := func(g float64) *dxftest.Builder {
		return dirtInside(sheet()).Line(0, 0, 230, 0).Line(200, g, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, 0)
	}
	l.add("gap-tee-0.04", dirtWant(tee(0.04), "").Want(200, 0, 0.1, "note code=gap-closed").Want(215, 0, 0.1, "note code=stray-line"))
	l.add("gap-tee-0.3", dirtWant(tee(0.3), "clean=no").Want(200, 0, 0.4, "note code=gap-closed").Want(200, 0, 0.4, "fault code=gap-bridged value=0.3").Want(215, 0, 0.1, "note code=stray-line"))
	// Fillets whose ends miss their lines by rounding.
	fillet := func(e float64) *dxftest.Builder {
		b := dirtInside(sheet()).Line(20, 0, 180, 0).Line(200, 20, 200, 120).Line(180, 140, 20, 140).Line(0, 120, 0, 20)
		b.Arc(180+e, 20-e, 20, 270, 360).Arc(180-e, 120+e, 20, 0, 90).Arc(20, 120+e, 20, 90, 180).Arc(20+e, 20, 20, 180, 270)
		return b.Want(0, 0, 0.1, fmt.Sprintf("part cuts=4 area=%.2f", 28000-dirtHole-dirtSlot-400*(4-math.Pi))).Want(0, 0, 0, "feature corner-radius r=20 count=4 anywhere")
	}
	l.add("fillets-off-0.0005", fillet(0.0005))
	for _, e := range []float64{0.004, 0.02} {
		l.add(fmt.Sprintf("fillets-off-%g", e), fillet(e).Want(0, 0, 0, "note code=gap-closed count=8 anywhere"))
	}
	// Arcs of the front drawn on the back: centre and angles mirrored.
	back := dirtInside(sheet()).Line(20, 0, 180, 0).Line(200, 20, 200, 120).Line(180, 140, 20, 140).Line(0, 120, 0, 20).UseExtrusion(0, 0, -1)
	back.Arc(-180, 20, 20, 180, 270).Arc(-180, 120, 20, 90, 180).Arc(-20, 120, 20, 0, 90).Arc(-20, 20, 20, 270, 360).UseExtrusion(0, 0, 1)
	l.add("arcs-on-the-back", back.Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 cuts=4 area=%.2f", 28000-dirtHole-dirtSlot-400*(4-math.Pi))).Want(0, 0, 0, "feature corner-radius r=20 count=4 anywhere"))
	// A long bow whose angles are rounded to a hundredth of a degree.
	r := 2000.0
	a := math.Floor(math.Asin(100/r)*180/math.Pi*100) / 100
	h := r - math.Sqrt(r*r-10000)
	bow := dirtInside(sheet()).Line(200, 140, 0, 140).Line(0, 140, 0, 0).Line(200, 0, 200, 140).Arc(100, math.Sqrt(r*r-10000), r, 270-a, 270+a)
	l.add("arc-rounded-angles", bow.Want(0, -h, 0.1, "part w=200 clean=no").Want(0, 0, 0, "fault code=gap-bridged count=2 anywhere").Want(0, 0, 0, "note code=gap-closed count=2 anywhere"))
	// Bulges: nearly straight, more than half a turn, next to nothing.
	l.add("bulge-nearly-0", dirtPlate().Polyline(true, dxftest.V{Bulge: 1e-7}, dxftest.V{X: 200, Bulge: -1e-9}, dxftest.V{X: 200, Y: 140, Bulge: 1e-6}, dxftest.V{Y: 140, Bulge: 1e-12}))
	l.add("bulge-more-than-half", dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140).Polyline(true, dxftest.V{X: 60 + 11*math.Cos(0.3), Y: 70 + 11*math.Sin(0.3), Bulge: math.Tan((2*math.Pi - 0.6) / 4)}, dxftest.V{X: 60 + 11*math.Cos(0.3), Y: 70 - 11*math.Sin(0.3)}).
		Want(60, 70, 1, "feature cutout subkind=d").Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 cuts=4 area=%.2f", 28000-121*(math.Pi-0.3+math.Sin(0.3)*math.Cos(0.3)))))
	// One polyline that runs round twice, and one closed by a line of its own.
	l.add("polyline-twice-round", dirtPlate().Polyline(true, append(dxftest.Rect(0, 0, 200, 140), dxftest.Rect(0, 0, 200, 140)...)...).Want(0, 0, 0, "fault code=duplicate-lines anywhere").Want(0, 0, 0, "note code=duplicate-merged anywhere"))
	l.add("polyline-and-line", dirtPlate().Polyline(false, dxftest.Rect(0, 0, 200, 140)...).Line(0, 140, 0, 0))
	l.add("polyline-and-line-closed", dirtPlate().Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Line(0, 140, 0, 0).Want(0, 0, 0, "fault code=duplicate-lines anywhere").Want(0, 0, 0, "note code=duplicate-merged anywhere"))
	// An outline that goes in along a line to the hole, round it and back along
	// the same line: the hole and the way to it in one run.
	cut := v(0, 0, 200, 0, 200, 140, 60, 140, 60, 81)
	cut = append(cut, dxftest.V{X: 60, Y: 81, Bulge: -1}, dxftest.V{X: 60, Y: 59, Bulge: -1}, dxftest.V{X: 60, Y: 81}, dxftest.V{X: 60, Y: 140}, dxftest.V{Y: 140})
	l.add("hole-in-outline-run", sheet().Polyline(true, cut...).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 cuts=4 area=%.2f", 28000-dirtHole)).Want(60, 70, 0.02, "feature round-hole d=22").
		Want(60, 110, 30, "doubt grave=yes").Want(0, 0, 0, "fault code=duplicate-lines anywhere").Want(0, 0, 0, "note code=duplicate-merged anywhere"))
	// A slit from the hole to the edge, drawn as one line.
	l.add("slit-to-hole", dirtSides(dirtPlate(), 0, 0, 200, 140).Line(60, 140, 60, 81).Want(60, 110.5, 0.02, "doubt grave=yes"))
	// The outline offset inwards by the kerf and kept as well; a hole likewise.
	l.add("kerf-outline", dirtSides(dirtPlate(), 0, 0, 200, 140).Polyline(true, dxftest.Rect(0.1, 0.1, 199.8, 139.8)...).Want(0.1, 0.1, 0.01, "doubt code=reading-doubt grave=yes").Want(0, 0, 0.01, "doubt code=maybe-frame grave=yes"))
	l.add("kerf-hole", dirtSides(dirtPlate(), 0, 0, 200, 140).Circle(60, 70, 10.8).Want(60, 70, 0.1, "doubt code=reading-doubt grave=yes"))
	// The whole part once more, a little off.
	for _, o := range []float64{0.03, 0.1, 0.5, 5} {
		b := dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140).Circle(60, 70, 11)
		dirtSides(b, o, o, 200, 140).Circle(60+o, 70+o, 11)
		l.add(fmt.Sprintf("twice-shifted-%g", o), b.Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole)).Want(60, 70, 0.01, "feature round-hole d=22 crosses=no").
			Want(60+o, 70+o, 0.01, "feature round-hole d=22 crosses=yes").Want(100+o, 70+o, 0.01, "feature rectangular-hole w=140 l=200 crosses=yes").Want(0, 0, 0, "fault code=hole-on-outline count=2 anywhere").
			Want(o, o, 0.02, "doubt code=reading-doubt grave=yes says=drawn_twice"))
	}
	// Dots: circles of no size that mark a place.
	l.add("dots", dirtSides(dirtPlate(), 0, 0, 200, 140).Circle(100, 110, 0.01).Circle(60, 70, 0.05).
		Want(0, 0, 0, "note code=dot count=2 anywhere").Want(100, 110, 0.01, "doubt code=maybe-opening grave=yes"))
}
