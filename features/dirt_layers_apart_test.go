package features_test

import (
	"fmt"
	"math"

	"burrside/dxfread/dxftest"
)

// dirtLayersApart: parts that lie on a sheet edge to edge, each on a layer of
// its own, and parts whose outline lies on several layers, which must stay whole.
func dirtLayersApart(l *dirtList) {
	sheet := func() *dxftest.Builder { return dirtNotes(dxftest.MM, 1) }
	// A plate of 100 x 100 with a hole of 22 on layer P1, all of single lines,
	// and beside it one of w x h with a hole of 16 on P2.
	first := func(b *dxftest.Builder) *dxftest.Builder {
		return dirtSides(b.Layer("P1"), 0, 0, 100, 100).Circle(50, 50, 11).Want(50, 50, 0.02, "feature round-hole d=22").
			Want(0, 0, 0.02, fmt.Sprintf("part w=100 h=100 area=%.2f cuts=4", 10000-dirtHole)).
			Want(0, 0, 0, "note code=text-for-all count=2 anywhere")
	}
	want2 := func(b *dxftest.Builder, x, y, w, h float64) *dxftest.Builder {
		return b.Circle(x+w/2, y+h/2, 8).Want(x+w/2, y+h/2, 0.02, "feature round-hole d=16").
			Want(x, y, 0.02, fmt.Sprintf("part w=%g h=%g area=%.2f cuts=4", w, h, w*h-math.Pi*64))
	}
	pair := func(x, y, w, h float64) *dxftest.Builder {
		return want2(dirtSides(first(sheet()).Layer("P2"), x, y, w, h), x, y, w, h)
	}
	said := func(b *dxftest.Builder, grave, says string) *dxftest.Builder {
		return b.Want(0, 0, 0, fmt.Sprintf("doubt code=reading-doubt grave=%s says=%s count=2 anywhere", grave, says)).
			Want(0, 0, 0, fmt.Sprintf("note code=layers-apart says=%s anywhere", says))
	}
	l.add("layers-overlap-slip", said(pair(99.9, 10, 80, 60), "no", "overlap_by_0.1_mm"))
	l.add("layers-overlap-deep", said(pair(97, 10, 80, 60), "yes", "overlap_by_3_mm"))
	l.add("layers-edge-to-edge", said(pair(100, 0, 80, 100), "no", "lie_edge_to_edge"))
	l.add("layers-part-of-edge", said(pair(100, 20, 80, 60), "no", "lie_edge_to_edge"))
	// A corner in common and nothing else leaves no doubt.
	l.add("layers-corner-touch", pair(100, 100, 80, 60).Want(100, 100, 0.02, "note code=layers-apart says=touch"))
	// The common edge is drawn once, with the first part; the second is open
	// by itself.
	once := first(sheet()).Layer("P2").Line(100, 80, 180, 80).Line(180, 80, 180, 0).Line(180, 0, 100, 0)
	l.add("layers-edge-drawn-once", want2(once, 100, 0, 80, 80).Want(100, 40, 0.02, "doubt code=reading-doubt grave=no count=2 says=drawn_once").
		Want(0, 0, 0, "note code=common-cut anywhere"))
	// The holes of both on a third layer, and a gap of 0.3 mm in each outline.
	holes := sheet()
	for i, layer := range []string{"P1", "P2"} {
		x := 100 * float64(i)
		holes.Layer(layer).Line(x, 0, x+100, 0).Line(x+100, 0, x+100, 80).Line(x+100, 80, x+50.3, 80).Line(x+50, 80, x, 80).Line(x, 80, x, 0).
			Layer("DRILLED").Circle(x+30, 40, 8)
	}
	l.add("layers-holes-on-third", holes.Want(0, 0, 0.02, fmt.Sprintf("part w=100 h=80 area=%.2f copies=2 clean=no", 8000-math.Pi*64)).
		Want(30, 40, 0.02, "feature round-hole d=16").Want(0, 0, 0, "fault code=gap-bridged value=0.3 count=2 anywhere").Want(0, 0, 0, "note code=gap-closed count=2 anywhere").
		Want(0, 0, 0, "note code=layers-apart anywhere").Want(0, 0, 0, "doubt code=reading-doubt grave=no says=lie_edge_to_edge anywhere"))
	// A small closed contour beside a plate may be a tab of it.
	l.add("layers-tab", dirtSides(sheet().Layer("P1"), 0, 0, 200, 140).Circle(60, 70, 11).
		Layer("P2").Line(200, 50, 220, 50).Line(220, 50, 220, 90).Line(220, 90, 200, 90).Line(200, 90, 200, 50).
		Want(60, 70, 0.02, "feature round-hole d=22").Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole)).
		Want(200, 50, 0.02, "part w=20 h=40 area=800 cuts=4").Want(0, 0, 0, "note code=text-for-all count=2 anywhere").
		Want(0, 0, 0, "doubt code=reading-doubt grave=yes says=lie_edge_to_edge count=2 anywhere").Want(0, 0, 0, "note code=layers-apart anywhere"))
	// A part in the window of another, cut along the window's edge: there is no
	// metal left between them, so it is asked which is meant.
	window := dirtSides(dirtSides(dirtSides(sheet().Layer("P1"), -60, -60, 300, 260), 0, -40, 200, 220).Layer("P2"), 0, 0, 100, 100)
	l.add("layers-in-window", window.Layer("P1").Circle(-50, -50, 4).Circle(230, 190, 4).
		Want(-60, -60, 0.02, fmt.Sprintf("part w=300 h=260 area=%.2f cuts=4", 34000-math.Pi*32)).
		Want(0, 0, 0, "feature round-hole d=8 count=2 anywhere").Want(100, 70, 0.02, "feature rectangular-hole w=200 l=220").
		Want(50, 50, 0.02, "doubt code=reading-doubt grave=yes says=0_mm_inside_an_opening").
		Want(0, 0, 0, "doubt code=reading-doubt grave=no says=lie_edge_to_edge anywhere").Want(0, 0, 0, "note code=layers-apart anywhere"))

	// What must stay one part. An outline whose sides lie on three layers.
	whole := func() *dxftest.Builder { return dirtInside(sheet()) }
	l.add("layers-outline-on-three", dirtWant(whole(), "").Layer("LONG").Line(0, 0, 200, 0).Line(200, 140, 0, 140).
		Layer("LEFT").Line(0, 140, 0, 0).Layer("RIGHT").Line(200, 0, 200, 140))
	// The notch on its own layer closes the outline.
	l.add("layers-notch-own", whole().Layer("OUTER").Line(0, 0, 200, 0).Line(200, 0, 200, 140).Line(200, 140, 130, 140).Line(70, 140, 0, 140).Line(0, 140, 0, 0).
		Layer("NOTCHES").Line(130, 140, 130, 120).Line(130, 120, 70, 120).Line(70, 120, 70, 140).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f", 28000-1200-dirtHole-dirtSlot)).Want(100, 140, 0.02, "feature notch w=60 depth=20"))
	// It is drawn over a closed outline: three lines, a closed contour up to
	// the edge, and one that runs past it.
	l.add("layers-notch-over-edge", dirtWant(dirtSides(whole().Layer("OUTER"), 0, 0, 200, 140), "").
		Layer("NOTCHES").Line(130, 140, 130, 120).Line(130, 120, 70, 120).Line(70, 120, 70, 140).
		Want(100, 140, 25, "doubt code=line-unexplained grave=yes"))
	l.add("layers-notch-closed", dirtWant(dirtSides(whole().Layer("OUTER"), 0, 0, 200, 140), "").
		Layer("NOTCHES").Line(130, 140, 130, 120).Line(130, 120, 70, 120).Line(70, 120, 70, 140).Line(70, 140, 130, 140).
		Want(100, 140, 25, "doubt code=line-unexplained grave=yes").
		Want(100, 140, 0.02, "fault code=duplicate-lines value=1").Want(100, 140, 0.02, "note code=overlap-merged"))
	plate := func() *dxftest.Builder { return dirtWant(dirtSides(whole().Layer("OUTER"), 0, 0, 200, 140), "") }
	l.add("layers-notch-past-edge", dirtSides(plate().Layer("NOTCHES"), 70, 120, 60, 40).
		Want(100, 140, 0.02, "feature rectangular-hole w=40 l=60 crosses=yes").Want(100, 140, 0.02, "fault code=hole-on-outline"))
	// An opening on the holes' layer that peeks out by a little, and one whose
	// end lies on the edge.
	l.add("layers-hole-peeks-out", dirtSides(plate().Layer("HOLES"), 80, 129, 20, 12).
		Want(90, 135, 0.02, "feature rectangular-hole w=12 l=20 crosses=yes").Want(90, 135, 0.02, "fault code=hole-on-outline"))
	l.add("layers-hole-to-edge", dirtSides(plate().Layer("HOLES"), 80, 128, 20, 12).
		Want(90, 135, 8, "doubt code=line-unexplained grave=yes").
		Want(90, 140, 0.02, "fault code=duplicate-lines value=1").Want(90, 140, 0.02, "note code=overlap-merged"))
	// A closed contour that reaches in by a hair from outside is small beside
	// the plate: no part of its own.
	l.add("layers-nibble", dirtSides(plate().Layer("HOLES"), 80, 139.8, 20, 12).
		Want(90, 145.8, 0.02, "feature rectangular-hole w=12 l=20 crosses=yes").Want(90, 145.8, 0.02, "fault code=hole-on-outline"))
	// Two openings on two layers that lie edge to edge are one opening.
	l.add("layers-openings-meet", dirtSides(dirtSides(dirtSides(sheet().Layer("OUTER"), 0, 0, 200, 140).Layer("C1"), 40, 40, 60, 50).Layer("C2"), 100, 40, 40, 50).
		Want(0, 0, 0.02, "part w=200 h=140 area=23000 cuts=4").Want(90, 65, 0.02, "feature rectangular-hole w=50 l=100").
		Want(0, 0, 0, "note code=line-in-hole anywhere").
		Want(100, 65, 0.02, "fault code=duplicate-lines value=1").Want(100, 65, 0.02, "note code=duplicate-merged"))
	// Two halves on two layers, and a line across on a third.
	l.add("layers-halves", dirtWant(whole(), "").Layer("H1").Line(100, 0, 0, 0).Line(0, 0, 0, 140).Line(0, 140, 100, 140).
		Layer("H2").Line(100, 140, 200, 140).Line(200, 140, 200, 0).Line(200, 0, 100, 0).Layer("H3").Line(100, 0, 100, 140).
		Want(100, 70, 0.02, "doubt code=line-unexplained grave=yes"))
}
