package features_test

import (
	"fmt"
	"math"

	"burrside/dxfread/dxftest"
)

// dirtTouching: outlines that touch or cross themselves, holes at the outline,
// slits, and what profile cutting leaves.
func dirtTouching(l *dirtList) {
	sides := func() *dxftest.Builder { return dirtSides(dirtPlate(), 0, 0, 200, 140) }
	sheet := func() *dxftest.Builder { return dirtNotes(dxftest.MM, 1) }
	v := func(xy ...float64) (out []dxftest.V) {
		for i := 0; i+1 < len(xy); i += 2 {
			out = append(out, dxftest.V{X: xy[i], Y: xy[i+1]})
		}
		return out
	}
	// Two squares that meet in one corner, drawn in one line.
	l.add("figure-of-eight-vertex", sheet().Polyline(true, v(0, 0, 100, 0, 100, 100, 200, 100, 200, 200, 100, 200, 100, 100, 0, 100)...).
		Want(0, 0, 0.02, "part w=100 h=100 area=10000 copies=2 cuts=4").Want(100, 100, 0.02, "fault code=self-crossing"))
	l.add("bow-tie", sheet().Polyline(true, v(0, 0, 200, 100, 200, 0, 0, 100)...).
		Want(0, 0, 0.02, "part w=100 h=100 area=5000 copies=2 cuts=3").Want(100, 50, 0.02, "fault code=self-crossing"))
	// An outline pinched to a point in the middle: as above, from lines.
	l.add("pinched", sheet().Line(0, 0, 200, 0).Line(200, 0, 200, 100).Line(200, 100, 120, 100).Line(120, 100, 100, 0).Line(100, 0, 80, 100).Line(80, 100, 0, 100).Line(0, 100, 0, 0).
		Want(0, 0, 0.02, "part w=100 h=100 area=9000 copies=2").Want(100, 0, 0.02, "fault code=self-crossing"))
	// Holes at the outline: touching from within, across, and touching from
	// outside.
	l.add("hole-touching-outline", dirtSides(dirtInside(sheet()), 0, 0, 200, 140).Circle(100, 11, 11).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-2*dirtHole-dirtSlot)).
		Want(100, 11, 0.02, "feature round-hole d=22").Want(0, 0, 0, "verdict is=does-not-fit anywhere"))
	l.add("hole-across-outline", sides().Circle(100, 3, 11).Want(100, 3, 0.02, "feature round-hole d=22 crosses=yes").Want(100, 3, 0.02, "fault code=hole-on-outline"))
	l.add("slot-across-outline", sides().Polyline(true, dxftest.Slot(100, 3, 12, 40)...).Want(100, 3, 0.02, "feature slot w=12 l=40 crosses=yes").Want(100, 3, 0.02, "fault code=hole-on-outline"))
	// A relief circle at the corner of a notch.
	notched := func() *dxftest.Builder {
		return sheet().Polyline(true, v(0, 0, 200, 0, 200, 140, 130, 140, 130, 100, 70, 100, 70, 140, 0, 140)...).
			Want(0, 0, 0.02, "part w=200 h=140 area=25600")
	}
	l.add("relief-at-notch", notched().Circle(70, 100, 4).Circle(130, 100, 4).Want(100, 140, 0.02, "feature notch w=60 depth=40 relief=pre-punched").
		Want(0, 0, 0, "note code=notch-relief count=2 anywhere"))
	l.add("tool-mark-at-notch", notched().Circle(75, 100, 4).Want(100, 140, 0.02, "feature notch w=60 depth=40 relief=none").
		Want(75, 100, 0.02, "feature round-hole d=8 crosses=yes").Want(75, 100, 0.02, "fault code=hole-on-outline"))
	// Slits: one line from the edge inwards, and two lines 0.2 mm apart.
	l.add("slit-line", sides().Line(100, 140, 100, 100).Want(100, 120, 0.02, "doubt code=reading-doubt grave=yes"))
	l.add("slit-two-lines", dirtInside(sheet()).Polyline(true, v(0, 0, 200, 0, 200, 140, 100.2, 140, 100.2, 100, 100, 100, 100, 140, 0, 140)...).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f", 28000-dirtHole-dirtSlot-8)).Want(100.1, 140, 0.02, "feature notch w=0.2 depth=40"))
	l.add("slit-arc-end", dirtInside(sheet()).Line(0, 0, 200, 0).Line(200, 0, 200, 140).Line(200, 140, 101, 140).Line(101, 140, 101, 100).Arc(100, 100, 1, 180, 0).Line(99, 100, 99, 140).Line(99, 140, 0, 140).Line(0, 140, 0, 0).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f", 28000-dirtHole-dirtSlot-80-math.Pi/2)).Want(100, 140, 0.02, "feature notch w=2 depth=41 shape=open-slot"))
	// Lead-ins: a line from the waste to the cut, outside and in a hole; an
	// overcut that runs past the corner.
	l.add("lead-ins", sides().Line(-8, -8, 0, 0).Line(60, 70, 71, 70).Arc(140, 65.5, 4.5, 90, 270).
		Want(0, 0, 0, "note code=stray-line anywhere").Want(0, 0, 0, "note code=line-in-hole count=2 anywhere"))
	l.add("overcuts", sides().Line(200, 140, 203, 140).Line(200, 140, 200, 143).Want(0, 0, 0, "note code=stray-line count=2 anywhere"))
	// A notch's overcuts go into the metal: slots sawn past the corner.
	l.add("overcuts-in-notch", notched().Line(70, 100, 70, 97).Line(130, 100, 130, 97).Want(100, 140, 0.02, "feature notch w=60 depth=40").
		Want(0, 0, 0, "doubt code=reading-doubt grave=yes count=2 anywhere"))
	l.add("engraving-lines", sides().Line(20, 20, 40, 20).Line(40, 20, 40, 30).Line(90, 110, 110, 110).
		Want(0, 0, 0, "doubt code=reading-doubt grave=yes count=2 anywhere"))
	l.add("engraving-layer", sides().Layer("ENGRAVE").Line(20, 20, 40, 20).Line(40, 20, 40, 30).Want(35, 21.67, 10, "feature mark l=30"))
}

// dirtNests: parts that lie on a sheet together.
func dirtNests(l *dirtList) {
	sheet := func() *dxftest.Builder { return dirtNotes(dxftest.MM, 1) }
	// Common edges: two, four, six plates of one size whose shared lines are
	// drawn once.
	two := sheet().Line(0, 0, 200, 0).Line(200, 0, 200, 100).Line(200, 100, 0, 100).Line(0, 100, 0, 0).Line(100, 0, 100, 100).Circle(50, 50, 11).Circle(150, 50, 11).
		Want(50, 50, 0.02, "feature round-hole d=22").Want(150, 50, 0.02, "feature round-hole d=22").
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=100 area=%.2f cuts=4", 20000-2*dirtHole)).Want(100, 50, 0.02, "doubt code=line-unexplained grave=yes")
	l.add("nest-two-one-line", two)
	four := sheet()
	dirtSides(four, 0, 0, 200, 160).Line(100, 0, 100, 160).Line(0, 80, 200, 80)
	for _, p := range [][2]float64{{50, 40}, {150, 40}, {50, 120}, {150, 120}} {
		four.Circle(p[0], p[1], 11)
	}
	l.add("nest-four-lines", four.Want(0, 0, 0.02, fmt.Sprintf("part w=100 h=80 area=%.2f copies=4 cuts=4", 8000-dirtHole)).Want(50, 40, 0.02, "feature round-hole d=22").Want(0, 0, 0, "note code=common-cut anywhere"))
	six := sheet()
	for i := range 4 {
		six.Line(float64(i)*100, 0, float64(i)*100, 160)
	}
	for j := range 3 {
		for i := range 3 {
			six.Line(float64(i)*100, float64(j)*80, float64(i+1)*100, float64(j)*80)
		}
	}
	for _, p := range [][2]float64{{50, 40}, {150, 40}, {250, 40}, {50, 120}, {150, 120}, {250, 120}} {
		six.Circle(p[0], p[1], 11)
	}
	l.add("nest-six-lines", six.Want(0, 0, 0.02, fmt.Sprintf("part w=100 h=80 area=%.2f copies=6 cuts=4", 8000-dirtHole)).Want(50, 40, 0.02, "feature round-hole d=22").Want(0, 0, 0, "note code=common-cut anywhere"))
	// Closed polylines that share an edge, or a part of one.
	pair := func(w, h, x, y float64) *dxftest.Builder {
		return sheet().Polyline(true, dxftest.Rect(0, 0, 100, 100)...).Polyline(true, dxftest.Rect(x, y, w, h)...).Circle(50, 50, 11).Circle(x+w/2, y+h/2, 8).
			Want(50, 50, 0.02, "feature round-hole d=22").Want(x+w/2, y+h/2, 0.02, "feature round-hole d=16").
			Want(0, 0, 0.02, fmt.Sprintf("part w=100 h=100 area=%.2f cuts=4", 10000-dirtHole)).Want(x, y, 0.02, fmt.Sprintf("part w=%g h=%g area=%.2f cuts=4", w, h, w*h-math.Pi*64)).
			Want(0, 0, 0, "note code=text-for-all count=2 anywhere")
	}
	l.add("nest-polylines-edge", pair(80, 100, 100, 0).Want(0, 0, 0, "note code=common-cut anywhere"))
	l.add("nest-polylines-part-edge", pair(80, 60, 100, 20).Want(0, 0, 0, "note code=common-cut anywhere"))
	l.add("nest-polylines-corner", pair(80, 60, 100, 100))
	l.add("nest-polylines-offset", pair(80, 60, 100, 70).Want(0, 0, 0, "note code=common-cut anywhere"))
	// A row of four closed polylines, edge to edge.
	row := sheet()
	for i := range 4 {
		row.Polyline(true, dxftest.Rect(100*float64(i), 0, 100, 80)...).Circle(100*float64(i)+30, 40, 8)
	}
	l.add("nest-polylines-row", row.Want(0, 0, 0.02, fmt.Sprintf("part w=100 h=80 area=%.2f copies=4 cuts=4", 8000-math.Pi*64)).Want(30, 40, 0.02, "feature round-hole d=16").Want(0, 0, 0, "note code=common-cut anywhere"))
	// Two discs that touch.
	l.add("nest-discs-touch", sheet().Circle(50, 50, 50).Circle(150, 50, 50).Circle(50, 50, 11).Circle(150, 50, 11).
		Want(0, 0, 0.02, fmt.Sprintf("part w=100 h=100 area=%.2f copies=2", math.Pi*2500-dirtHole)).Want(50, 50, 0.02, "feature round-hole d=22"))
	// Parts in windows of parts, four deep.
	deep := sheet()
	for i := range 4 {
		x, s := 40*float64(i), 400-80*float64(i)
		deep.Polyline(true, dxftest.Rect(x, x, s, s)...)
		area := s * s
		if i < 3 {
			deep.Polyline(true, dxftest.Rect(x+20, x+20, s-40, s-40)...).Want(200, 200, 0.02, fmt.Sprintf("feature rectangular-hole w=%g l=%g", s-40, s-40))
			area -= (s - 40) * (s - 40)
			deep.Circle(x+10, x+10, 4).Want(x+10, x+10, 0.02, "feature round-hole d=8")
			area -= math.Pi * 16
		}
		deep.Want(x, x, 0.02, fmt.Sprintf("part w=%g h=%g area=%.2f cuts=4", s, s, area))
	}
	l.add("windows-four-deep", deep)
	// Equal parts over each other are one part drawn twice.
	over := dirtSides(dirtPlate(), 0, 0, 200, 140)
	dirtSides(over, 0, 0, 200, 140).Circle(60, 70, 11).Polyline(true, dxftest.Slot(140, 70, 18, 50)...)
	l.add("nest-equal-parts-over", over.Want(0, 0, 0, "fault code=duplicate-lines anywhere").Want(0, 0, 0, "note code=duplicate-merged anywhere"))
}

// dirtDividers: a line from edge to edge in its four meanings.
func dirtDividers(l *dirtList) {
	sides := func() *dxftest.Builder { return dirtSides(dirtPlate(), 0, 0, 200, 140) }
	l.add("divider-unexplained", sides().Line(100, 0, 100, 140).Want(100, 70, 0.02, "doubt code=line-unexplained grave=yes"))
	l.add("divider-bend-layer", sides().Layer("BEND").Line(100, 0, 100, 140).Want(100, 70, 0.02, "feature bend l=140"))
	l.add("divider-bend-note", sides().Line(100, 0, 100, 140).Layer("NOTES").Text(103, 100, 5, "BEND UP 90").Want(100, 70, 0.02, "feature bend l=140"))
	l.add("divider-bend-colour", sides().UseColour(3).Line(100, 0, 100, 140).UseColour(256).Want(100, 70, 0.02, "feature bend l=140").Want(100, 70, 0.02, "doubt code=maybe-bend grave=no"))
	l.add("divider-bend-dashed", sides().Linetype("ZZ", 6, -3).UseLinetype("ZZ").Line(100, 0, 100, 140).UseLinetype("").Want(100, 70, 0.02, "feature bend l=140").Want(100, 70, 0.02, "doubt code=maybe-bend grave=no"))
	// The thickness of an angle's other leg, beside a long edge.
	l.add("divider-thickness", dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 600, 80).Line(0, 10, 600, 10).Circle(60, 50, 11).Circle(540, 50, 11).
		Want(60, 50, 0.02, "feature round-hole d=22").Want(540, 50, 0.02, "feature round-hole d=22").
		Want(0, 0, 0.02, fmt.Sprintf("part w=600 h=80 area=%.2f cuts=4", 48000-2*dirtHole)).Want(300, 10, 0.02, "doubt code=line-unexplained grave=yes"))
	// Lines that meet: four faces alike are four parts (see nest-four-lines);
	// faces unlike are not told apart.
	l.add("divider-cross", sides().Line(100, 0, 100, 140).Line(0, 120, 200, 120).Want(0, 0, 0, "doubt code=line-unexplained grave=yes anywhere count=4"))
	// A divider that stops short, and one that runs through a hole.
	l.add("divider-short", sides().Line(100, 0, 100, 139).Want(100, 69.5, 0.02, "doubt code=reading-doubt grave=yes"))
	l.add("divider-through-hole", sides().Line(60, 0, 60, 140).Want(0, 0, 0, "doubt code=line-unexplained grave=yes anywhere"))
	l.add("divider-arc", sides().Arc(0, 140, 30, 270, 360).Want(21, 119, 30, "doubt code=line-unexplained grave=yes"))
}
