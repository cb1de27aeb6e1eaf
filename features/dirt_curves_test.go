package features_test

import (
	"fmt"
	"math"

	"burrside/dxfread/dxftest"
)

// dirtCurves: circles and arcs in all the forms that programs write.
func dirtCurves(l *dirtList) {
	type P = dxftest.Pair
	sheet := func() *dxftest.Builder { return dirtSides(dirtNotes(dxftest.MM, 1), 0, 0, 200, 140) }
	hole := func(b *dxftest.Builder, notes ...string) *dxftest.Builder {
		b.Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole)).Want(60, 70, 0.02, "feature round-hole d=22")
		for _, n := range notes {
			b.Want(0, 0, 0, "note anywhere code="+n)
		}
		return b
	}
	l.add("circle-two-arcs", hole(sheet().Arc(60, 70, 11, 30, 210).Arc(60, 70, 11, 210, 30)))
	l.add("circle-four-arcs", hole(sheet().Arc(60, 70, 11, 0, 90).Arc(60, 70, 11, 90, 180).Arc(60, 70, 11, 180, 270).Arc(60, 70, 11, 270, 360)))
	l.add("circle-arc-0-360", hole(sheet().Arc(60, 70, 11, 0, 360)))
	l.add("circle-arc-start-is-end", hole(sheet().Arc(60, 70, 11, 30, 30), "arc-whole"))
	l.add("circle-arc-359.9", hole(sheet().Arc(60, 70, 11, 0, 359.9), "gap-closed"))
	l.add("circle-ellipse", hole(sheet().Ellipse(60, 70, 11, 0, 1, 0, 2*math.Pi)))
	l.add("circle-ellipse-halves", hole(sheet().Ellipse(60, 70, 0, 11, 1, 0, math.Pi).Ellipse(60, 70, 0, 11, 1, math.Pi, 2*math.Pi)))
	l.add("circle-two-bulges", hole(sheet().Polyline(true, dxftest.V{X: 49, Y: 70, Bulge: 1}, dxftest.V{X: 71, Y: 70, Bulge: 1})))
	l.add("circle-two-bulges-open", hole(sheet().Polyline(false, dxftest.V{X: 49, Y: 70, Bulge: 1}, dxftest.V{X: 71, Y: 70, Bulge: 1}, dxftest.V{X: 49, Y: 70})))
	l.add("circle-two-bulges-old", hole(sheet().OldPolyline(true, dxftest.V{X: 49, Y: 70, Bulge: -1}, dxftest.V{X: 71, Y: 70, Bulge: -1})))
	l.add("circle-polyline-four", hole(sheet().Polyline(true, dxftest.V{X: 49, Y: 70, Bulge: math.Tan(math.Pi / 8)}, dxftest.V{X: 60, Y: 59, Bulge: math.Tan(math.Pi / 8)}, dxftest.V{X: 71, Y: 70, Bulge: math.Tan(math.Pi / 8)}, dxftest.V{X: 60, Y: 81, Bulge: math.Tan(math.Pi / 8)})))
	// As a rational spline of four quarters, exactly; and as four cubics, which
	// lie within 0.03 % of the radius.
	knots := []float64{0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4}
	square := func(x, y, r float64) []float64 {
		var out []float64
		for _, c := range [][2]float64{{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}, {1, 0}} {
			out = append(out, x+r*c[0], y+r*c[1])
		}
		return out
	}
	h := math.Sqrt2 / 2
	weights := []float64{1, h, 1, h, 1, h, 1, h, 1}
	l.add("circle-spline", hole(sheet().Spline(2, true, knots, square(60, 70, 11), weights)))
	k := 0.5522847498
	var cubic []float64
	for _, c := range [][2]float64{{1, 0}, {1, k}, {k, 1}, {0, 1}, {-k, 1}, {-1, k}, {-1, 0}, {-1, -k}, {-k, -1}, {0, -1}, {k, -1}, {1, -k}, {1, 0}} {
		cubic = append(cubic, 60+11*c[0], 70+11*c[1])
	}
	l.add("circle-cubic-spline", hole(sheet().Spline(3, true, []float64{0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 4}, cubic, nil), "curve-to-arcs"))

	// Faceted.
	ngon := func(b *dxftest.Builder, x, y, r float64, n int, turn float64) *dxftest.Builder {
		var vs []dxftest.V
		for i := range n {
			s, c := math.Sincos(2*math.Pi*float64(i)/float64(n) + turn)
			vs = append(vs, dxftest.V{X: x + r*c, Y: y + r*s})
		}
		return b.Polyline(true, vs...)
	}
	for _, n := range []int{5, 6, 8, 11} {
		area := float64(n) / 2 * 121 * math.Sin(2*math.Pi/float64(n))
		l.add(fmt.Sprintf("polygon-%d", n), ngon(sheet(), 60, 70, 11, n, 0.1).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-area)).
			Want(60, 70, 0.02, fmt.Sprintf("feature polygon-hole sides=%d", n)))
	}
	for _, n := range []int{12, 16, 24} {
		l.add(fmt.Sprintf("polygon-%d-circle", n), hole(ngon(sheet(), 60, 70, 11, n, 0.1), "facets-to-circle"))
	}
	l.add("chamfered-square", sheet().Polyline(true, dxftest.V{X: 45, Y: 50}, dxftest.V{X: 75, Y: 50}, dxftest.V{X: 80, Y: 55}, dxftest.V{X: 80, Y: 85}, dxftest.V{X: 75, Y: 90}, dxftest.V{X: 45, Y: 90}, dxftest.V{X: 40, Y: 85}, dxftest.V{X: 40, Y: 55}).
		Want(0, 0, 0.02, "part w=200 h=140 area=26450 cuts=4").Want(60, 70, 0.02, "feature cutout w=40 l=40"))
	l.add("chamfered-square-outline", dirtInside(dirtNotes(dxftest.MM, 1)).Polyline(true, dxftest.V{X: 10}, dxftest.V{X: 190}, dxftest.V{X: 200, Y: 10}, dxftest.V{X: 200, Y: 130}, dxftest.V{X: 190, Y: 140}, dxftest.V{X: 10, Y: 140}, dxftest.V{Y: 130}, dxftest.V{Y: 10}).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-200-dirtHole-dirtSlot)).Want(0, 0, 0, "feature corner-clip count=4 anywhere"))
	for _, n := range []int{36, 72} {
		b := sheet()
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			t, d := math.Sincos(2 * math.Pi * float64(i+1) / float64(n))
			x1, y1, x2, y2 := 60+11*c, 70+11*s, 60+11*d, 70+11*t
			if i == 7 { // a vertex more, in the middle of a chord
				xm, ym := (x1+x2)/2, (y1+y2)/2
				b.Line(xm, ym, x2, y2)
				x2, y2 = xm, ym
			}
			b.Line(x1, y1, x2, y2)
		}
		l.add(fmt.Sprintf("circle-of-%d-lines", n), hole(b, "facets-to-circle"))
	}
	// A slot with faceted ends, and an outline with faceted corners.
	slot := sheet().Line(124, 61, 156, 61).Line(156, 79, 124, 79)
	facets(slot, 156, 70, 9, -90, 90, 36)
	facets(slot, 124, 70, 9, 90, 270, 36)
	l.add("slot-faceted", slot.Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtSlot)).Want(140, 70, 0.02, "feature slot w=18 l=50").Want(0, 0, 0, "note code=facets-to-arc anywhere"))
	coarse := sheet().Line(124, 61, 156, 61).Line(156, 79, 124, 79)
	facets(coarse, 156, 70, 9, -90, 90, 8)
	facets(coarse, 124, 70, 9, 90, 270, 8)
	l.add("slot-faceted-coarse", coarse.Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtSlot)).Want(140, 70, 0.02, "feature slot w=18 l=50").Want(0, 0, 0, "note code=facets-to-arc anywhere"))
	round := dirtInside(dirtNotes(dxftest.MM, 1)).Line(20, 0, 180, 0).Line(200, 20, 200, 120).Line(180, 140, 20, 140).Line(0, 120, 0, 20)
	facets(round, 180, 20, 20, -90, 0, 15)
	facets(round, 180, 120, 20, 0, 90, 15)
	facets(round, 20, 120, 20, 90, 180, 15)
	facets(round, 20, 20, 20, 180, 270, 15)
	l.add("corners-faceted", round.Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=140 area=%.2f cuts=4", 28000-dirtHole-dirtSlot-400*(4-math.Pi))).
		Want(0, 0, 0, "feature corner-radius r=20 count=4 anywhere").Want(0, 0, 0, "note code=facets-to-arc anywhere"))

	// Outlines as splines: straight sides of degree 1, a disc of quarters.
	l.add("outline-spline-straight", dirtPlate().Spline(1, true, []float64{0, 0, 1, 2, 3, 4, 4}, []float64{0, 0, 200, 0, 200, 140, 0, 140, 0, 0}, nil))
	l.add("outline-spline-disc", dirtNotes(dxftest.MM, 1).Spline(2, true, knots, square(100, 100, 100), weights).Circle(100, 100, 11).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=200 area=%.2f", 10000*math.Pi-dirtHole)).Want(100, 100, 0.02, "feature round-hole d=22"))
	// Old polylines: corners with the arcs of a curve fit put between, and a
	// spline fit whose frame is not the curve.
	old := func(flags int, vs ...[4]float64) *dxftest.Builder {
		b := dirtNotes(dxftest.MM, 1)
		b.Raw("POLYLINE", "AcDb2dPolyline", P{Code: 66, Value: 1}, P{Code: 10, Value: 0.0}, P{Code: 20, Value: 0.0}, P{Code: 30, Value: 0.0}, P{Code: 70, Value: flags})
		for _, v := range vs {
			b.Raw("VERTEX", "AcDbVertex", P{Code: 100, Value: "AcDb2dVertex"}, P{Code: 10, Value: v[0]}, P{Code: 20, Value: v[1]}, P{Code: 30, Value: 0.0}, P{Code: 42, Value: v[2]}, P{Code: 70, Value: int(v[3])})
		}
		return b.Raw("SEQEND", "")
	}
	q := math.Tan(math.Pi / 8)
	l.add("polyline-curve-fit", old(3, [4]float64{0, 100, q, 0}, [4]float64{100, 0, q, 1}, [4]float64{200, 100, q, 0}, [4]float64{100, 200, q, 1}).Circle(100, 100, 11).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=200 area=%.2f", 10000*math.Pi-dirtHole)).Want(100, 100, 0.02, "feature round-hole d=22"))
	var fit [][4]float64
	for _, f := range [][2]float64{{0, 0}, {400, 0}, {400, 400}, {0, 400}} {
		fit = append(fit, [4]float64{f[0] - 100, f[1] - 100, 0, 16})
	}
	for i := range 72 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 72)
		fit = append(fit, [4]float64{100 + 100*c, 100 + 100*s, 0, 8})
	}
	l.add("polyline-spline-fit", old(5, fit...).Circle(100, 100, 11).Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=200 area=%.2f", 10000*math.Pi-dirtHole)).
		Want(100, 100, 0.02, "feature round-hole d=22").Want(0, 0, 0, "note code=facets-to-circle anywhere"))

	// Arcs through 0 degrees, arcs of an outline in both senses, tiny arcs.
	l.add("arc-through-0", dirtNotes(dxftest.MM, 1).Line(0, 0, 150, 0).Arc(150, 50, 50, 270, 90).Line(150, 100, 0, 100).Line(0, 100, 0, 0).Circle(50, 50, 11).
		Want(0, 0, 0.02, fmt.Sprintf("part w=200 h=100 area=%.2f", 15000+1250*math.Pi-dirtHole)).Want(50, 50, 0.02, "feature round-hole d=22"))
	l.add("arc-350-to-10", hole(sheet().Arc(60, 70, 11, 350, 10).Arc(60, 70, 11, 10, 190).Arc(60, 70, 11, 190, 350)))
	l.add("arc-negative-angles", hole(sheet().Arc(60, 70, 11, -90, 90).Arc(60, 70, 11, 450, 630)))
	tiny := dirtInside(dirtNotes(dxftest.MM, 1))
	const r = 0.05
	tiny.Line(r, 0, 200-r, 0).Arc(200-r, r, r, 270, 0).Line(200, r, 200, 140-r).Arc(200-r, 140-r, r, 0, 90).Line(200-r, 140, r, 140).Arc(r, 140-r, r, 90, 180).Line(0, 140-r, 0, r).Arc(r, r, r, 180, 270)
	l.add("corners-tiny-arcs", dirtWant(tiny, "").Want(0, 0, 0, "note code=tiny-radius count=4 anywhere"))

	// Polylines with a width: 0.2 mm is a pen's, 8 mm is not; a ring and a dot.
	wide := func(b *dxftest.Builder, closed int, width float64, vs ...dxftest.V) *dxftest.Builder {
		pairs := []P{{Code: 90, Value: len(vs)}, {Code: 70, Value: closed}, {Code: 43, Value: width}}
		for _, v := range vs {
			pairs = append(pairs, P{Code: 10, Value: v.X}, P{Code: 20, Value: v.Y}, P{Code: 42, Value: v.Bulge})
		}
		return b.Raw("LWPOLYLINE", "AcDbPolyline", pairs...)
	}
	l.add("width-0.2", wide(dirtPlate(), 1, 0.2, dxftest.Rect(0, 0, 200, 140)...))
	l.add("width-8", wide(dirtPlate(), 1, 8, dxftest.Rect(0, 0, 200, 140)...).Want(0, 0, 0, "doubt code=reading-doubt grave=yes says=wide anywhere"))
	l.add("donut-ring", wide(hole(sheet()), 1, 4, dxftest.V{X: 49, Y: 70, Bulge: 1}, dxftest.V{X: 71, Y: 70, Bulge: 1}).Want(60, 70, 12, "doubt code=reading-doubt grave=yes says=wide"))
	l.add("donut-dot", wide(hole(sheet()), 1, 22, dxftest.V{X: 49, Y: 70, Bulge: 1}, dxftest.V{X: 71, Y: 70, Bulge: 1}).Want(60, 70, 12, "doubt code=reading-doubt grave=yes says=wide"))
}
