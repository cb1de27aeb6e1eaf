package features_test

import (
	"fmt"
	"math"

	"burrside/dxfread/dxftest"
)

// dirtLines: things drawn twice, on each other, of no length, or too often.
func dirtLines(l *dirtList) {
	plate := func() *dxftest.Builder { return dirtSides(dirtPlate(), 0, 0, 200, 140) }
	twice := func(b *dxftest.Builder, fault string, notes ...string) *dxftest.Builder {
		b.Want(0, 0, 0, "fault code=duplicate-lines anywhere "+fault)
		for _, n := range notes {
			b.Want(0, 0, 0, "note anywhere "+n)
		}
		return b
	}

	l.add("clean", plate())
	l.add("duplicate-exact", twice(plate().Line(0, 0, 200, 0).Line(0, 140, 0, 0).Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...), "value=7", "code=duplicate-merged count=7"))
	for _, d := range []float64{0.001, 0.005, 0.01} {
		l.add(fmt.Sprintf("duplicate-near-%g", d), twice(plate().Line(0, d, 200, d).Circle(60+d, 70, 11), "value=2", "code=duplicate-merged"))
	}
	l.add("duplicate-closed-exact", twice(dirtPlate().Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Polyline(true, dxftest.Rect(0, 0, 200, 140)...), "", "code=duplicate-merged"))
	for _, d := range []float64{0.001, 0.005, 0.01} {
		b := twice(dirtPlate().Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Polyline(true, dxftest.Rect(d, d, 200, 140)...), "", "code=duplicate-merged")
		if d == 0.001 { // the corners are too near to stay apart and too far to be one as they are
			b.Want(0, 0, 0, "note code=snap-raised anywhere")
		}
		l.add(fmt.Sprintf("duplicate-closed-shifted-%g", d), b)
	}
	// The outline as lines and again as a polyline.
	l.add("duplicate-lines-and-polyline", twice(plate().Polyline(true, dxftest.Rect(0, 0, 200, 140)...), "", "code=duplicate-merged"))
	// A hole drawn as circle, and again as two arcs.
	l.add("duplicate-circle-and-arcs", twice(plate().Arc(60, 70, 11, 0, 180).Arc(60, 70, 11, 180, 360), "", "code=overlap-merged"))
	l.add("overlap-lines", twice(dirtPlate().Line(0, 0, 120, 0).Line(80, 0, 200, 0).Line(200, 0, 200, 140).Line(200, 140, 0, 140).Line(150, 140, 30, 140).Line(0, 140, 0, 0), "", "code=overlap-merged"))
	l.add("overlap-arcs", twice(dirtWant(dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140), "").
		Arc(60, 70, 11, 0, 200).Arc(60, 70, 11, 160, 330).Arc(60, 70, 11, 300, 20).Want(60, 70, 0.02, "feature round-hole d=22").
		Polyline(true, dxftest.Slot(140, 70, 18, 50)...).Want(140, 70, 0.02, "feature slot w=18 l=50"), "", "code=overlap-merged"))
	l.add("overlap-arc-slot", twice(dirtWant(dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140), "").
		Circle(60, 70, 11).Want(60, 70, 0.02, "feature round-hole d=22").
		Line(124, 61, 156, 61).Line(124, 79, 156, 79).Arc(156, 70, 9, 270, 90).Arc(124, 70, 9, 90, 200).Arc(124, 70, 9, 160, 270).Want(140, 70, 0.02, "feature slot w=18 l=50"), "", "code=overlap-merged"))
	// An outline of two closed polylines that lie on each other along an edge is
	// two parts (see nests); one polyline that runs along itself is not.
	l.add("zero-length", plate().Line(50, 50, 50, 50).Line(0, 0, 0, 0).Arc(60, 70, 0, 0, 90).Circle(100, 100, 0).Polyline(false, dxftest.V{X: 30, Y: 30}, dxftest.V{X: 30, Y: 30}).
		Want(0, 0, 0, "note code=entity-skipped count=3 anywhere").Want(0, 0, 0, "note code=zero-length count=2 anywhere").Want(100, 100, 0.01, "doubt code=maybe-opening grave=yes"))
	l.add("tiny-lines", plate().Line(100, 100, 100.0005, 100).Line(200, 0, 200.0004, 0).Want(0, 0, 0, "note code=zero-length count=2 anywhere"))
	l.add("polyline-doubled-vertices", dirtPlate().Polyline(true, dxftest.V{}, dxftest.V{}, dxftest.V{X: 200}, dxftest.V{X: 200}, dxftest.V{X: 200}, dxftest.V{X: 200, Y: 140}, dxftest.V{Y: 140}))
	l.add("polyline-repeats-first", dirtPlate().Polyline(true, append(dxftest.Rect(0, 0, 200, 140), dxftest.V{})...))
	l.add("polyline-open-but-closed", dirtPlate().Polyline(false, append(dxftest.Rect(0, 0, 200, 140), dxftest.V{})...))
	l.add("polyline-old-open-but-closed", dirtPlate().OldPolyline(false, append(dxftest.Rect(0, 0, 200, 140), dxftest.V{})...))
	// A line out and back: sticks out of the outline, or into the metal.
	l.add("spike-out", dirtPlate().Polyline(true, dxftest.V{}, dxftest.V{X: 200}, dxftest.V{X: 200, Y: 140}, dxftest.V{X: 100, Y: 140}, dxftest.V{X: 100, Y: 155}, dxftest.V{X: 100, Y: 140}, dxftest.V{Y: 140}).
		Want(100, 147.5, 0.02, "fault code=duplicate-lines value=1").Want(100, 147.5, 0.02, "note code=duplicate-merged").Want(100, 147.5, 0.02, "note code=stray-line"))
	l.add("spike-in", dirtPlate().Polyline(true, dxftest.V{}, dxftest.V{X: 200}, dxftest.V{X: 200, Y: 140}, dxftest.V{X: 100, Y: 140}, dxftest.V{X: 100, Y: 115}, dxftest.V{X: 100, Y: 140}, dxftest.V{Y: 140}).
		Want(100, 127.5, 0.02, "fault code=duplicate-lines value=1").Want(100, 127.5, 0.02, "note code=duplicate-merged").Want(100, 127.5, 0.02, "doubt code=reading-doubt grave=yes"))
	l.add("spike-along", dirtPlate().Polyline(true, dxftest.V{}, dxftest.V{X: 220}, dxftest.V{X: 200}, dxftest.V{X: 200, Y: 140}, dxftest.V{Y: 140}).
		Want(210, 0, 0.02, "fault code=duplicate-lines value=1").Want(210, 0, 0.02, "note code=overlap-merged").Want(210, 0, 0.02, "note code=stray-line"))
	l.add("random-order", dirtPlate().Line(80, 140, 0, 140).Line(200, 100, 200, 0).Line(0, 140, 0, 90).Line(80, 0, 0, 0).Line(200, 140, 80, 140).Line(0, 0, 0, 90).Line(80, 0, 200, 0).Line(200, 100, 200, 140))
	l.add("twice-on-two-layers", twice(plate().Layer("PRINT").Polyline(true, dxftest.Rect(0, 0, 200, 140)...).Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...), "", "code=duplicate-merged"))
	l.add("twice-shifted-0.01", twice(plate().Line(0.01, 0.01, 200.01, 0.01).Line(200.01, 0.01, 200.01, 140.01).Line(200.01, 140.01, 0.01, 140.01).Line(0.01, 140.01, 0.01, 0.01).
		Circle(60.01, 70.01, 11).Polyline(true, dxftest.Slot(140.01, 70.01, 18, 50)...), "", "code=duplicate-merged"))
}

// dirtGaps: outlines that do not quite close.
func dirtGaps(l *dirtList) {
	gap := func(g float64) *dxftest.Builder {
		return dirtInside(dirtNotes(dxftest.MM, 1)).Line(0, 0, 200, 0).Line(200, 0, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, g)
	}
	l.add("gap-0.001", dirtWant(gap(0.001), ""))
	// Whole millimetres with hundredths at one end: the hundredth may be rounding.
	l.add("gap-0.01", dirtWant(gap(0.01), "").Want(0, 0, 0.1, "note code=snap-raised"))
	l.add("gap-0.05", dirtWant(gap(0.05), "").Want(0, 0, 0.1, "note code=gap-closed"))
	for _, g := range []float64{0.051, 0.1, 0.3, 0.5} {
		l.add(fmt.Sprintf("gap-%g", g), dirtWant(gap(g), "clean=no").Want(0, 0, 1, "note code=gap-closed").Want(0, 0, 1, fmt.Sprintf("fault code=gap-bridged value=%g", g)))
	}
	open := func(g float64) *dxftest.Builder {
		return dirtNotes(dxftest.MM, 1).Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...).
			Line(0, 0, 200, 0).Line(200, 0, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, g).
			Want(0, 0, 0, "fault code=no-part anywhere").Want(0, 0, 1.1, fmt.Sprintf("fault code=open-outline value=%g", g))
	}
	for _, g := range []float64{0.501, 0.6, 1, 5} {
		l.add(fmt.Sprintf("gap-%g", g), open(g))
	}
	// A gap between a line and the first chord of a faceted corner, whose chords
	// are shorter than the gap is wide.
	for _, g := range []float64{0.05, 0.2} {
		b := dirtInside(dirtNotes(dxftest.MM, 1)).Line(0, 0, 180-g, 0).Line(200, 20, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, 0)
		facets(b, 180, 20, 20, -90, 0, 60)
		area := 28000 - dirtHole - dirtSlot - (400 - 100*math.Pi)
		more, clean := []string{"note code=gap-closed anywhere", "note code=facets-to-arc anywhere"}, ""
		if g > 0.05 {
			clean, more = " clean=no", append(more, fmt.Sprintf("fault code=gap-bridged value=%g anywhere", g))
		}
		b.Want(0, 0, 0.05, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4%s", area, clean)).Want(0, 0, 0, "feature corner-radius r=20 anywhere")
		for _, m := range more {
			b.Want(0, 0, 0, m)
		}
		l.add(fmt.Sprintf("gap-beside-facets-%g", g), b)
	}
	// Two plates 0.4 mm apart, each with a gap of 0.3 mm where they face each
	// other: each is closed in itself.
	{
		b := dirtInside(dirtNotes(dxftest.MM, 1)).Line(0, 0, 200, 0).Line(200, 0, 200, 70).Line(200, 70.3, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, 0).
			Line(300.4, 0, 200.4, 0).Line(300.4, 140, 300.4, 0).Line(200.4, 140, 300.4, 140).Line(200.4, 0, 200.4, 70).Line(200.4, 70.3, 200.4, 140)
		dirtWant(b, "clean=no").Want(200.4, 0, 0.05, "part w=100 h=140 area=14000 cuts=4 clean=no").
			Want(200, 70, 1, "note code=gap-closed count=2").Want(200, 70, 0.35, "fault code=gap-bridged value=0.3").Want(200.4, 70, 0.35, "fault code=gap-bridged value=0.3")
		l.add("gap-beside-neighbour", b)
	}
	// One plate open by 0.45 mm at a corner, the neighbour's closed edge 0.1 mm
	// away: the gap is not closed onto the neighbour.
	{
		b := dirtInside(dirtNotes(dxftest.MM, 1)).Line(0, 0, 199.55, 0).Line(200, 0, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, 0).Polyline(true, dxftest.Rect(200.1, 0, 100, 140)...)
		dirtWant(b, "clean=no").Want(200.1, 0, 0.02, "part w=100 h=140 area=14000 cuts=4").
			Want(199.75, 0, 0.3, "note code=gap-closed").Want(199.55, 0, 0.5, "fault code=gap-bridged value=0.45")
		l.add("gap-beside-closed-neighbour", b)
	}
	// Both ends missing their corner: the lines are prolonged to it.
	l.add("gap-at-corner", dirtWant(dirtInside(dirtNotes(dxftest.MM, 1)).Line(0, 0, 199.8, 0).Line(200, 0.2, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, 0), "clean=no").
		Want(200, 0, 0.3, "note code=gap-closed").Want(200, 0, 0.3, "fault code=gap-bridged value=0.283"))
	// Ends that run past each other at a corner.
	l.add("overshoot-at-corner", dirtWant(dirtInside(dirtNotes(dxftest.MM, 1)).Line(0, 0, 200.3, 0).Line(200, -0.2, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, 0), "").
		Want(0, 0, 0, "note code=stray-line anywhere count=2"))
	l.add("gap-in-hole", dirtWant(dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140), "clean=no").Polyline(true, dxftest.Slot(140, 70, 18, 50)...).Want(140, 70, 0.02, "feature slot w=18 l=50").
		Arc(60, 70, 11, 0, 180).Arc(60, 70, 11, 180, 358.5).Want(60, 70, 0.02, "feature round-hole d=22").Want(71, 70, 0.5, "note code=gap-closed").Want(71, 70, 0.5, "fault code=gap-bridged value=0.288"))
	l.add("gap-in-hole-open", dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140).Arc(60, 70, 11, 0, 340).
		Want(0, 0, 0.02, "part w=200 h=140 area=28000 cuts=4").Want(0, 0, 0, "doubt code=reading-doubt grave=yes anywhere").Want(0, 0, 0, "fault code=open-outline anywhere value=3.82"))
}

// facets draws an arc as n lines.
func facets(b *dxftest.Builder, x, y, r, from, to float64, n int) {
	for i := range n {
		s, c := math.Sincos((from + (to-from)*float64(i)/float64(n)) * math.Pi / 180)
		t, d := math.Sincos((from + (to-from)*float64(i+1)/float64(n)) * math.Pi / 180)
		b.Line(x+r*c, y+r*s, x+r*d, y+r*t)
	}
}
