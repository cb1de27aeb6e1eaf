package features_test

import (
	"burrside/dxfread/dxftest"
)

// officeWorked: angles of published examples, and angles with cut ends, copes
// and notches.
func officeWorked(l *officeList) {
	mm := func() *dxftest.Builder { return dxftest.New(dxftest.MM).Layer("PROFILE") }

	b := dxftest.New(dxftest.Inch).Layer("PROFILE")
	legBox(b, 0, 6, 8.5, 4)
	b.Line(0, 6.5, 8.5, 6.5)
	bolts(b, 0.8125, 1.25, 8.5, 4.25, 8.5, 7.25, 8.5)
	legBox(b, 0, 0, 8.5, 4)
	b.Line(0, 3.5, 8.5, 3.5)
	textLines(b, 0, -1, 0.2, "L4x4x1/2 x 8 1/2 LG", "A36", "3/4 BOLTS, HOLES 13/16")
	l.add("worked-us-single-angle", r2010, b, `
		# AISC Steel Construction Manual: Table 1-7, L4x4x1/2 12.8 lb/ft, kdet 7/8 in;
		# workable gage 2 1/2 in of a 4 in leg; AISC 360-22 Table J3.4, edge distance
		# of 3/4 in bolts 1 in: the toe is 1.5 in off, the ends 1.25 in. Three holes
		# at 3 in: 1.25 + 2*3 + 1.25 = 8.5 in.
		angle a=101.6 b=101.6 t=12.7 length=215.9 section=L4X4X1/2 list=AISC kg=19.049 k=22.225 from=two_views hand=none
		hole leg=a heel=63.5 start=31.75 d=20.6375
		hole leg=a heel=63.5 start=107.95 d=20.6375
		hole leg=a heel=63.5 start=184.15 d=20.6375`)

	b = mm()
	for _, x := range []float64{0, 150} {
		legBox(b, x, 0, 90, 430)
		for i := range 6 {
			b.Circle(x+[]float64{40, 50}[int(x)/150], 40+70*float64(i), 11)
		}
	}
	b.Line(80, 0, 80, 430).Line(160, 0, 160, 430)
	textLines(b, 0, -40, 5, "WEB CLEAT L90x90x10 x 430", "S275", "HOLES D22 FOR M20")
	l.add("worked-web-cleat", r2007, b, `
		# Steel Buildings in Europe, Multi-Storey Steel Buildings part 5 (Joint
		# Design), angle web cleats of 10 mm: h = 430, six rows, p1 = 70, e1 = 40,
		# e2 = 40 to the toe, d0 = 22: 40 + 5*70 + 40 = 430. The leg of 90 is ours.
		angle a=90 b=90 t=10 length=430 section=L90x90x10 kg=13.4 root=11 from=two_views hand=none material=S275
		hole leg=a heel=50 start=40 d=22
		hole leg=a heel=50 start=110 d=22
		hole leg=a heel=50 start=180 d=22
		hole leg=a heel=50 start=250 d=22
		hole leg=a heel=50 start=320 d=22
		hole leg=a heel=50 start=390 d=22
		hole leg=b heel=50 start=40 d=22
		hole leg=b heel=50 start=110 d=22
		hole leg=b heel=50 start=180 d=22
		hole leg=b heel=50 start=250 d=22
		hole leg=b heel=50 start=320 d=22
		hole leg=b heel=50 start=390 d=22`)

	// A brace whose right end is cut at 45 degrees across leg a, the heel
	// longest; the end of leg b is as slanted inside its thickness: its inner
	// face ends 8 mm short, drawn in one and left out in the other.
	mitred := func(shadow lineBy) *dxftest.Builder {
		b := mm()
		b.Polyline(true, dxftest.V{Y: 130}, dxftest.V{X: 600, Y: 130}, dxftest.V{X: 520, Y: 210}, dxftest.V{Y: 210})
		b.Line(0, 138, 592, 138)
		bolts(b, 18, 40, 175, 480, 175)
		legBox(b, 0, 0, 600, 80)
		b.Line(0, 72, 600, 72)
		if shadow != nil {
			shadow(b, 592, 0, 592, 72)
		}
		textLines(b, 0, -40, 6, "BRACE L80x80x8 x 600", "S235JR", "2 OFF")
		return b
	}
	mitre := `
		# 80 off 80: 45 degrees off square.
		angle a=80 b=80 t=8 length=600 section=L80x80x8 kg=9.63 root=10 from=two_views hand=unknown material=S235JR qty=2
		hole leg=a heel=45 start=40 d=18
		hole leg=a heel=45 start=480 d=18
		mitre leg=a deg=45`
	l.add("angle-mitre-shadow", r2013, mitred(lineSolid), mitre)
	l.add("angle-mitre-shadow-hidden", r2000, mitred(lineType), mitre)
	l.add("angle-mitre-no-shadow", r2018, mitred(nil), mitre)

	// Leg b coped away at the left end: of it the thickness of leg a is left.
	b = mm()
	legBox(b, 0, 110, 500, 100)
	b.Line(60, 118, 500, 118)
	bolts(b, 22, 30, 165, 470, 165)
	b.Polyline(true, dxftest.V{Y: 75}, dxftest.V{Y: 67}, dxftest.V{X: 60, Y: 67}, dxftest.V{X: 60}, dxftest.V{X: 500}, dxftest.V{X: 500, Y: 75})
	b.Line(60, 67, 500, 67)
	bolts(b, 18, 280, 30)
	textLines(b, 0, -40, 6, "DECK BEARER L100x75x8 x 500", "S275JR")
	l.add("angle-coped", r2010, b, `
		# The cope takes 60 along and 75-8 of leg b.
		angle a=100 b=75 t=8 length=500 section=L100x75x8 kg=10.6 root=10 from=two_views hand=unknown material=S275JR
		hole leg=a heel=55 start=30 d=22
		hole leg=a heel=55 start=470 d=22
		hole leg=b heel=45 start=280 d=18
		notch leg=b shape=corner long=60 short=60
		note code=angle-hand`)

	// A notch in the toe of leg b, a clipped corner of leg a.
	b = mm()
	b.Polyline(true, dxftest.V{Y: 100}, dxftest.V{X: 350, Y: 100}, dxftest.V{X: 350, Y: 145}, dxftest.V{X: 330, Y: 165}, dxftest.V{Y: 165})
	b.Line(0, 105, 350, 105)
	bolts(b, 14, 40, 135, 300, 135)
	b.Polyline(true, dxftest.V{Y: 50}, dxftest.V{}, dxftest.V{X: 150}, dxftest.V{X: 150, Y: 20}, dxftest.V{X: 200, Y: 20}, dxftest.V{X: 200}, dxftest.V{X: 350}, dxftest.V{X: 350, Y: 50})
	b.Line(0, 45, 350, 45)
	textLines(b, 0, -40, 6, "L65x50x5 L=350", "S235JR")
	l.add("angle-notched", r2007, b, `
		# Notch of 50 x 20 in the middle of the toe; clip of 20 x 20.
		angle a=65 b=50 t=5 length=350 section=L65x50x5 kg=4.35 root=6 from=two_views hand=unknown material=S235JR
		hole leg=a heel=35 start=40 d=14
		hole leg=a heel=35 start=300 d=14
		notch leg=b shape=rectangular w=50 depth=20 start=175
		clip leg=a long=20`)
}
