package features_test

import (
	"fmt"

	"burrside/dxfread/dxftest"
)

// dirtMarks: lines of another colour on a plate, and what tells a plate full of
// words from the border of a sheet.
func dirtMarks(l *dirtList) {
	sides := func() *dxftest.Builder { return dirtSides(dirtPlate(), 0, 0, 200, 140).UseColour(3) }
	bend := func(b *dxftest.Builder, x, y, length float64) *dxftest.Builder {
		return b.Want(x, y, 0.02, fmt.Sprintf("feature bend l=%g", length)).Want(x, y, 0.02, "doubt code=maybe-bend grave=no")
	}
	// A bend line stops a little short of the edges; an opening ends it too.
	l.add("colour-bend-short", bend(sides().Line(100, 4, 100, 135).UseColour(256), 100, 69.5, 131))
	l.add("colour-bend-to-hole", bend(sides().Line(60, 2, 60, 57).UseColour(256), 60, 29.5, 55))
	// Its ends alone are drawn, or strokes of a mark, ticks and an arrow: no
	// bend that a press could make.
	l.add("colour-bend-ends", sides().Line(100, 0, 100, 8).Line(100, 132, 100, 140).UseColour(256).
		Want(0, 0, 0, "doubt code=reading-doubt grave=yes count=2 anywhere"))
	l.add("colour-ticks", sides().Line(20, 20, 28, 20).Line(20, 30, 20, 38).Line(30, 110, 45, 110).Line(30, 111, 36, 114).Line(30, 109, 36, 106).
		UseColour(256).Want(0, 0, 0, "doubt code=reading-doubt grave=yes count=5 anywhere"))
	// The middle of a bend line is left out for a text.
	l.add("colour-bend-in-two", bend(bend(sides().Line(100, 0, 100, 64).Line(100, 76, 100, 140).UseColour(256), 100, 32, 64), 100, 108, 64))
	// Across a narrow tongue a short line is long enough.
	l.add("colour-bend-tongue", bend(dirtNotes(dxftest.MM, 1).Polyline(true, dxftest.V{}, dxftest.V{X: 200}, dxftest.V{X: 200, Y: 100}, dxftest.V{X: 120, Y: 100},
		dxftest.V{X: 120, Y: 130}, dxftest.V{X: 80, Y: 130}, dxftest.V{X: 80, Y: 100}, dxftest.V{Y: 100}).UseColour(3).Line(82, 110, 118, 110).UseColour(256).
		Want(0, 0, 0.02, "part w=200 h=130 area=21200").Want(100, 115, 61, "feature notch w=80 depth=30 count=2"), 100, 110, 36))
	// Words on a plate with two windows: dimensions that stand outside and
	// measure what lies inside are not those of a border's drawing.
	words := func() *dxftest.Builder {
		return dirtSides(dirtSides(dirtSides(dxftest.New(dxftest.MM).Layer("CUT"), 0, 0, 340, 200), 50, 80, 90, 50), 200, 80, 90, 50).
			Layer("NOTES").Text(20, 20, 5, "t = 10 mm").Text(120, 20, 5, "S275").Text(20, 160, 5, "grind all over").Text(200, 160, 5, "deliver on a pallet").
			Want(0, 0, 0.02, "part w=340 h=200 area=59000 cuts=4").Want(0, 105, 250, "feature rectangular-hole w=50 l=90 count=2")
	}
	l.add("words-plate-dims-outside", words().Dimension(50, 130, 140, 130, 95, 240, 0, 90, "").Dimension(140, 130, 200, 130, 170, 240, 0, 60, ""))
	l.add("words-plate-no-dims", words().Want(0, 0, 0, "doubt code=maybe-frame grave=yes anywhere"))
}
