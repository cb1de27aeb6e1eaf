package features_test

import (
	"fmt"
	"math"

	"burrside/dxfread/dxftest"
)

// dirtSpace: parts that lie high, stand upright, hide in blocks, or are drawn
// at another size or far away.
func dirtSpace(l *dirtList) {
	type P = dxftest.Pair
	// circleAt and polyAt draw at a height.
	circleAt := func(b *dxftest.Builder, x, y, z, r float64) {
		b.Raw("CIRCLE", "AcDbCircle", P{Code: 10, Value: x}, P{Code: 20, Value: y}, P{Code: 30, Value: z}, P{Code: 40, Value: r})
	}
	high := func(z [6]float64) *dxftest.Builder {
		b := dirtNotes(dxftest.MM, 1)
		b.Line3(0, 0, z[0], 200, 0, z[0]).Line3(200, 0, z[1], 200, 140, z[1]).Line3(200, 140, z[2], 0, 140, z[2]).Line3(0, 140, z[3], 0, 0, z[3])
		circleAt(b, 60, 70, z[4], 11)
		pairs := []P{{Code: 90, Value: 4}, {Code: 70, Value: 1}, {Code: 38, Value: z[5]}}
		for _, v := range dxftest.Slot(140, 70, 18, 50) {
			pairs = append(pairs, P{Code: 10, Value: v.X}, P{Code: 20, Value: v.Y}, P{Code: 42, Value: v.Bulge})
		}
		b.Raw("LWPOLYLINE", "AcDbPolyline", pairs...)
		return dirtWant(b, "").Want(60, 70, 0.02, "feature round-hole d=22").Want(140, 70, 0.02, "feature slot w=18 l=50").Want(0, 0, 0, "note code=elevation-dropped anywhere")
	}
	l.add("elevation-5", high([6]float64{5, 5, 5, 5, 5, 5}))
	l.add("elevation-each", high([6]float64{0, 5, -3, 12, 100, 7}))
	// One end of each line a little high: a plate that was picked off a solid.
	l.add("elevation-sloping", dirtPlate().Line3(0, 0, 0, 200, 0, 0.5).Line3(200, 0, 0.5, 200, 140, 0).Line3(200, 140, 0, 0, 140, 0.5).Line3(0, 140, 0.5, 0, 0, 0).
		Want(0, 0, 0, "note code=elevation-dropped anywhere"))

	// Upright: in XZ seen from the front, in YZ from the right, and with the
	// extrusion downwards, which mirrors.
	upright := func(nx, ny, nz float64, at func(x, y float64) [3]float64, mirror float64) *dxftest.Builder {
		b := dirtNotes(dxftest.MM, 1)
		c := [][2]float64{{0, 0}, {200, 0}, {200, 140}, {0, 140}}
		for i := range c {
			p, q := at(c[i][0], c[i][1]), at(c[(i+1)%4][0], c[(i+1)%4][1])
			b.Line3(p[0], p[1], p[2], q[0], q[1], q[2])
		}
		b.UseExtrusion(nx, ny, nz).Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...).UseExtrusion(0, 0, 1)
		left := 0.0
		if mirror < 0 {
			left = -200
		}
		return b.Want(left, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot)).
			Want(60*mirror, 70, 0.02, "feature round-hole d=22").Want(140*mirror, 70, 0.02, "feature slot w=18 l=50")
	}
	front := func(x, y float64) [3]float64 { return [3]float64{x, 0, y} }
	l.add("plane-xz", upright(0, -1, 0, front, 1).Want(0, 0, 0, "note code=plane-turned anywhere"))
	l.add("plane-yz", upright(1, 0, 0, func(x, y float64) [3]float64 { return [3]float64{0, x, y} }, 1).Want(0, 0, 0, "note code=plane-turned anywhere"))
	l.add("plane-mirrored", upright(0, 0, -1, func(x, y float64) [3]float64 { return [3]float64{-x, y, 0} }, -1))
	// A plate in XZ beside a disc in XY: one of them is left out, aloud.
	mixed := dirtNotes(dxftest.MM, 1).Line3(0, 0, 0, 200, 0, 0).Line3(200, 0, 0, 200, 0, 140).Line3(200, 0, 140, 0, 0, 140).Line3(0, 0, 140, 0, 0, 0).Circle(400, 400, 20)
	l.add("plane-mixed", mixed.Want(380, 380, 0.02, fmt.Sprintf("part w=40 h=40 area=%.2f", math.Pi*400)).Want(0, 0, 0, "fault code=read-incomplete anywhere").
		Want(0, 0, 0, "fault code=duplicate-lines anywhere").Want(0, 0, 0, "note code=mixed-planes anywhere").Want(0, 0, 0, "note code=stray-line anywhere").Want(0, 0, 0, "note code=duplicate-merged anywhere"))

	// Blocks.
	inBlock := func(b *dxftest.Builder) {
		dirtSides(b, 0, 0, 200, 140).Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...)
	}
	inside := func(b *dxftest.Builder, x, y float64) *dxftest.Builder {
		return b.Want(x, y, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot)).Want(x+60, y+70, 0.02, "feature round-hole d=22").Want(x+140, y+70, 0.02, "feature slot w=18 l=50")
	}
	l.add("block-all", inside(dirtNotes(dxftest.MM, 1).Block("PART", 0, 0, inBlock).Insert("PART", 30, 20), 30, 20))
	l.add("block-z-scale-0", inside(dirtNotes(dxftest.MM, 1).Block("PART", 0, 0, inBlock).Insert("PART", 30, 20, dxftest.Placing{ZeroZ: true}), 30, 20).Want(0, 0, 0, "note code=scale-zero anywhere"))
	l.add("block-nested", inside(dirtNotes(dxftest.MM, 1).Block("A", 0, 0, inBlock).Block("B", 10, 10, func(b *dxftest.Builder) { b.Insert("A", 5, 5) }).
		Block("C", 0, 0, func(b *dxftest.Builder) { b.Insert("B", 0, 0, dxftest.Placing{ScaleX: 2, ScaleY: 2}) }).Insert("C", 110, 110, dxftest.Placing{ScaleX: 0.5, ScaleY: 0.5}), 105, 105))
	l.add("block-turned", dirtNotes(dxftest.MM, 1).Block("PART", 0, 0, inBlock).Insert("PART", 0, 0, dxftest.Placing{AngleDeg: 90}).
		Want(-140, 0, 0.02, fmt.Sprintf("part w=140 h=200 area=%.2f cuts=4", 28000-dirtHole-dirtSlot)).Want(-70, 60, 0.02, "feature round-hole d=22").Want(-70, 140, 0.02, "feature slot w=18 l=50"))
	l.add("block-mirrored", dirtNotes(dxftest.MM, 1).Block("PART", 0, 0, inBlock).Insert("PART", 0, 0, dxftest.Placing{ScaleX: -1}).
		Want(-200, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot)).Want(-60, 70, 0.02, "feature round-hole d=22").Want(-140, 70, 0.02, "feature slot w=18 l=50"))
	// Stretched: circles become ellipses and the plate is still right.
	l.add("block-stretched", dirtNotes(dxftest.MM, 1).Block("PART", 0, 0, func(b *dxftest.Builder) { dirtSides(b, 0, 0, 200, 140).Circle(60, 70, 11) }).Insert("PART", 0, 0, dxftest.Placing{ScaleX: 2, ScaleY: 1}).
		Want(0, 0, 0.02, fmt.Sprintf("part w=400 h=140 area=%.2f cuts=4", 56000-2*dirtHole)).Want(120, 70, 0.02, "feature cutout w=22 l=44").Want(0, 0, 0, "note code=curve-to-arcs anywhere"))
	// Stretched within and back without: circles again.
	l.add("block-stretched-back", inside(dirtNotes(dxftest.MM, 1).Block("IN", 0, 0, func(b *dxftest.Builder) {
		dirtSides(b, 0, 0, 100, 140).Ellipse(30, 70, 0, 11, 0.5, 0, 2*math.Pi).Line(62, 61, 78, 61).Line(62, 79, 78, 79).Ellipse(78, 70, 0, 9, 0.5, math.Pi, 2*math.Pi).Ellipse(62, 70, 0, 9, 0.5, 0, math.Pi)
	}).Block("OUT", 0, 0, func(b *dxftest.Builder) { b.Insert("IN", 0, 0, dxftest.Placing{ScaleX: 2, ScaleY: 1}) }).Insert("OUT", 0, 0), 0, 0))
	l.add("block-array", dirtNotes(dxftest.MM, 1).Block("PART", 0, 0, inBlock).Insert("PART", 0, 0, dxftest.Placing{Columns: 3, Rows: 2, ColSpacing: 250, RowSpacing: 180}).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4 copies=6", 28000-dirtHole-dirtSlot)).Want(60, 70, 0.02, "feature round-hole d=22").Want(140, 70, 0.02, "feature slot w=18 l=50"))
	// The same block placed twice on one spot is one part drawn twice.
	l.add("block-twice", inside(dirtNotes(dxftest.MM, 1).Block("PART", 0, 0, inBlock).Insert("PART", 0, 0).Insert("PART", 0, 0), 0, 0).
		Want(0, 0, 0, "fault code=duplicate-lines anywhere").Want(0, 0, 0, "note code=duplicate-merged anywhere"))

	// Far away: in the coordinates of a survey with three decimals, and in the
	// single precision of an old program, whose steps are 1/16 at a million and
	// 1 at ten millions.
	away := func(dx, dy float64, round func(float64) float64) *dxftest.Builder {
		b := dirtNotes(dxftest.MM, 1)
		line := func(x1, y1, x2, y2 float64) { b.Line(round(dx+x1), round(dy+y1), round(dx+x2), round(dy+y2)) }
		line(0, 0, 190, 0)
		line(200, 10, 200, 140)
		line(200, 140, 0, 140)
		line(0, 140, 0, 0)
		b.Arc(round(dx+190), round(dy+10), 10, 270, 360).Circle(round(dx+60), round(dy+70), 11)
		return b.Want(dx, dy, 1, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-(100-25*math.Pi))).Want(dx+60, dy+70, 1, "feature round-hole d=22").
			Want(0, 0, 0, "feature corner-radius r=10 anywhere")
	}
	l.add("survey-coordinates", away(3512345.678, 5401234.567, func(f float64) float64 { return math.Round(f*1000) / 1000 }))
	single := func(f float64) float64 { return float64(float32(f)) }
	l.add("float32-1e6", away(1e6, 2e6, single))
	l.add("float32-1e7", away(1e7, 1e7, single))
	// A vee whose corners lie between the steps: each line's end is rounded
	// alike, so it still closes.
	vee := dirtNotes(dxftest.MM, 1)
	pts := [][2]float64{{0, 0}, {200.3, 0}, {200.3, 140.7}, {120.9, 140.7}, {100.2, 101.1}, {80.4, 140.7}, {0, 140.7}}
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		vee.Line(single(1e6+p[0]), single(p[1]), single(1e6+q[0]), single(q[1]))
	}
	l.add("float32-vee", vee.Want(1e6, 0, 0.1, "part").Want(1e6+100.65, 140.7, 0.3, "feature notch shape=vee"))
}

// dirtScale: drawings whose unit is another than they say, or unsaid.
func dirtScale(l *dirtList) {
	// plate draws the plate with lengths divided by mm; no text gives the unit.
	plate := func(u dxftest.Unit, mm float64, steel bool) *dxftest.Builder {
		k := 1 / mm
		b := dxftest.New(u)
		if steel {
			b.Layer("NOTES").Text(-150*k, 30*k, 5*k, "S275").Layer("CUT")
		}
		b.Polyline(true, dxftest.Rect(0, 0, 200*k, 140*k)...).Polyline(true, dxftest.Slot(140*k, 70*k, 18*k, 50*k)...)
		for _, p := range [][2]float64{{20, 20}, {180, 20}, {20, 120}, {180, 120}} {
			b.Circle(p[0]*k, p[1]*k, 7*k)
		}
		b.Circle(60*k, 70*k, 11*k)
		return b.Want(0, 0, 0.05*k, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot-4*math.Pi*49)).
			Want(60*k, 70*k, 0.05*k, "feature round-hole d=22").Want(140*k, 70*k, 0.05*k, "feature slot w=18 l=50").Want(0, 0, 0, "feature round-hole d=14 count=4 anywhere").Want(0, 0, 0, "verdict is=cannot-tell anywhere") // no thickness
	}
	l.add("units-metre", plate(dxftest.Metre, 1000, true))
	l.add("units-cm", plate(dxftest.CM, 10, true))
	l.add("units-mm-unsaid", plate(dxftest.NoUnit, 1, true))
	l.add("units-metre-unsaid", plate(dxftest.NoUnit, 1000, true))
	l.add("units-cm-unsaid", plate(dxftest.NoUnit, 10, true))
	// An inch drawing without a word: 8 x 5 1/2, holes of 13/16 and 1 1/16.
	inch := dxftest.New(dxftest.NoUnit).Polyline(true, dxftest.Rect(0, 0, 8, 5.5)...)
	for _, p := range [][2]float64{{1, 1}, {7, 1}, {1, 4.5}, {7, 4.5}} {
		inch.Circle(p[0], p[1], 13.0/32)
	}
	inch.Circle(4, 2.75, 17.0/32)
	l.add("units-inch-unsaid", inch.Want(0, 0, 0.01, fmt.Sprintf("part w=203.2 h=139.7 area=%.2f cuts=4", 25.4*25.4*(44-math.Pi*(4*13*13+17*17)/1024))).
		Want(0, 0, 0, "feature round-hole d=20.6375 count=4 anywhere").Want(4, 2.75, 0.01, "feature round-hole d=26.9875").Want(0, 0, 0, "verdict is=cannot-tell anywhere"))
	// Drawn at 1:10 with dimensions that say the real size: a plate of 20 x 14
	// is one of 200 x 140, with a note, with and without a unit.
	tenth := dxftest.New(dxftest.NoUnit).Layer("NOTES").Text(-15, 4, 0.5, "t = 10 mm").Text(-15, 3, 0.5, "S275").Layer("CUT").
		Polyline(true, dxftest.Rect(0, 0, 20, 14)...).Circle(6, 7, 1.1).Layer("DIM").Dimension(0, 0, 20, 0, 10, -2, 0, 20, "200").Dimension(0, 0, 0, 14, -2, 7, 90, 14, "140").Layer("CUT")
	said := func(b *dxftest.Builder) *dxftest.Builder {
		return b.Want(0, 0, 0.01, "part w=200 h=140 cuts=4").Want(0, 0, 0, "feature round-hole d=22 anywhere").Want(0, 0, 0.01, "note code=view-scale says=1:10")
	}
	l.add("scale-tenth-dimensions", said(tenth).Want(0, 0, 0, "note code=units-unknown anywhere").Want(0, 0, 0, "verdict is=cannot-tell anywhere"))
	tenthMM := dirtNotes(dxftest.MM, 0.1).Polyline(true, dxftest.Rect(0, 0, 20, 14)...).Circle(6, 7, 1.1).
		Layer("DIM").Dimension(0, 0, 20, 0, 10, -2, 0, 20, "200").Dimension(0, 0, 0, 14, -2, 7, 90, 14, "140").Layer("CUT")
	l.add("scale-tenth-header-mm", said(tenthMM))
}
