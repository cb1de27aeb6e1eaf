package features_test

import (
	"fmt"

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

	// Figures without eyes in a row: letters, small parts, or openings. Those with
	// thin strokes, or with eyes, are letters.
	figures := func(b *dxftest.Builder, x, y, k float64, pitch float64, list ...[]float64) *dxftest.Builder {
		for i, f := range list {
			var v []dxftest.V
			for j := 0; j < len(f); j += 2 {
				v = append(v, dxftest.V{X: x + float64(i)*pitch + k*f[j], Y: y + k*f[j+1]})
			}
			b.Polyline(true, v...)
		}
		return b
	}
	ell := []float64{0, 0, 15, 0, 15, 5, 5, 5, 5, 20, 0, 20}
	ewe := []float64{0, 0, 16, 0, 16, 20, 11, 20, 11, 5, 5, 5, 5, 20, 0, 20}
	tee := []float64{5, 0, 10, 0, 10, 15, 15, 15, 15, 20, 0, 20, 0, 15, 5, 15}
	zed := []float64{0, 0, 15, 0, 15, 5, 10, 5, 10, 20, 0, 20, 0, 15, 5, 15, 5, 5, 0, 5}
	thin := []float64{0, 0, 12, 0, 12, 2, 2, 2, 2, 20, 0, 20}
	thinT := []float64{6, 0, 8, 0, 8, 18, 14, 18, 14, 20, 0, 20, 0, 18, 6, 18}
	thinU := []float64{0, 0, 14, 0, 14, 20, 12, 20, 12, 2, 2, 2, 2, 20, 0, 20}
	away := "note code=letters-left-out anywhere"
	letter := "doubt code=maybe-letter anywhere grave=yes says="
	l.add("small-parts-in-a-row", figures(plate(), 0, -40, 1, 22, ell, ewe, tee, zed).Want(0, 0, 0, away).Want(0, 0, 0, letter+"small_parts"))
	l.add("letters-beside", figures(plate(), 0, -40, 0.8, 18, thin, thinU, thinT, thin).Want(0, 0, 0, away))
	l.add("letters-or-openings", figures(plate(), 90, 100, 1, 22, ell, ewe, tee).Want(0, 0, 0, letter+"openings").Want(0, 0, 0, "feature mark anywhere"))
	l.add("letters-engraved", figures(plate(), 90, 100, 0.8, 18, thin, thinU, thinT).Want(0, 0, 0, "feature mark anywhere"))
	areaL, areaU, areaT := 150.0, 16*20-6*15.0, 15*5+5*15.0
	bare := func(area float64) *dxftest.Builder {
		return dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%g cuts=4", 28000-area))
	}
	l.add("letters-large", figures(bare(4*(areaL+areaU+areaT)), 40, 50, 2, 40, ell, ewe, tee).
		Want(0, 0, 0, "feature cutout count=3 anywhere").Want(0, 0, 0, letter+"marked_only"))
	l.add("letter-alone", figures(bare(areaT), 90, 60, 1, 22, tee).Want(0, 0, 0, "feature cutout anywhere").
		Want(0, 0, 0, "doubt code=maybe-letter anywhere grave=no says=looks_like_a_letter"))
	l.add("opening-of-an-angle", figures(bare(areaL), 90, 60, 1, 22, ell).Want(0, 0, 0, "feature cutout anywhere"))
	a := []float64{0, 0, 4, 0, 6, 6, 14, 6, 16, 0, 20, 0, 12, 20, 8, 20}
	eye := []float64{8, 9.5, 12, 9.5, 10, 16}
	withEye := dirtSides(dirtInside(dirtNotes(dxftest.MM, 1)), 0, 0, 200, 140).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot-405))
	l.add("letter-with-eye", figures(figures(withEye, 85, 100, 1.5, 22, a), 85, 100, 1.5, 22, eye).Want(100, 115, 10, "feature cutout").Want(97, 114.25, 0.02, "part w=6 h=9.75 area=29.25").
		Want(0, 0, 0, letter+"eye").Want(0, 0, 0, "note code=text-for-all anywhere count=2"))

	// Lines that divide a rectangle on the part beside its middle; centre lines
	// and diagonals of an opening say nothing else than that it is one.
	window := func() *dxftest.Builder {
		return dirtSides(dirtInside(dirtNotes(dxftest.MM, 1)), 0, 0, 200, 140).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot-60*30)).
			Polyline(true, dxftest.Rect(70, 100, 60, 30)...).Want(100, 115, 0.02, "feature rectangular-hole w=30 l=60").Want(0, 0, 0, "note code=line-in-hole anywhere")
	}
	l.add("table-in-plate", window().Line(70, 110, 130, 110).Line(70, 120, 130, 120).Line(90, 100, 90, 130).Line(110, 100, 110, 130).
		Want(70, 100, 0.02, "doubt code=line-unexplained grave=yes says=table"))
	l.add("window-with-centre-lines", window().Line(70, 115, 130, 115).Line(100, 100, 100, 130))
	l.add("window-with-diagonals", window().Line(70, 100, 130, 130).Line(70, 130, 130, 100))
}
