package features_test

import (
	"burrside/dxfread/dxftest"
)

// dirtHarmless: what looks like a sign of the drawing and may be something that
// is cut, each beside a drawing in which it is the sign for sure.
func dirtHarmless(l *dirtList) {
	plate := func() *dxftest.Builder { return dirtSides(dirtPlate(), 0, 0, 200, 140) }
	row := func(b *dxftest.Builder, x, y float64, n int, dash, gap float64) *dxftest.Builder {
		for i := range n {
			b.Line(x+float64(i)*(dash+gap), y, x+float64(i)*(dash+gap)+dash, y)
		}
		return b
	}
	joined := "note code=dashes-joined anywhere"

	// Slits drawn as single lines in a row. A line of dashes from edge to edge is
	// a bend, one that runs past both edges or over a hole a centre line.
	l.add("slits-in-a-row", row(plate(), 30, 110, 8, 12, 4).Want(92, 110, 0.1, "doubt code=maybe-opening grave=yes says=slits").Want(0, 0, 0, joined))
	l.add("slits-nearly-to-the-edges", row(plate(), 2, 110, 14, 10, 4.3).Want(98, 110, 2, "doubt code=maybe-opening grave=yes says=slits").Want(0, 0, 0, joined))
	l.add("dashes-past-the-edges", row(plate(), -8, 110, 22, 6, 4).Want(0, 0, 0, joined))
	l.add("dashes-over-a-hole", row(plate(), 36, 75, 6, 6, 3).Want(0, 0, 0, joined))
	l.add("dashes-by-line-type", plate().Linetype("ZZ", 6, -3).UseLinetype("ZZ").Line(30, 110, 150, 110).UseLinetype(""))

	// Circles and arcs of radius 0: a hole that lost its size, also in the middle
	// of the plate; at the centre of a hole and on the outline they stand for what
	// is drawn.
	skipped := "note code=entity-skipped anywhere"
	l.add("circle-of-radius-0", plate().Circle(100, 70, 0).Want(100, 70, 0.01, "doubt code=maybe-opening grave=yes says=radius_0").Want(0, 0, 0, skipped))
	l.add("circle-of-radius-0-known", plate().Circle(60, 70, 0).Circle(200, 140, 0).Circle(300, 70, 0).Want(0, 0, 0, skipped+" count=3"))
	l.add("arc-of-radius-0", plate().Arc(100, 110, 0, 0, 180).Want(100, 110, 0.01, "doubt code=maybe-opening grave=yes says=an_arc_of_radius_0").Want(0, 0, 0, skipped))
}
