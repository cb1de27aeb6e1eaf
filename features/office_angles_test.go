package features_test

import (
	"burrside/dxfread/dxftest"
)

// lineBy draws a line in some habit.
type lineBy func(b *dxftest.Builder, x1, y1, x2, y2 float64)

func lineSolid(b *dxftest.Builder, x1, y1, x2, y2 float64) { b.Line(x1, y1, x2, y2) }

// lineType draws on the layer in use with a dashed linetype.
func lineType(b *dxftest.Builder, x1, y1, x2, y2 float64) {
	b.Linetype("HIDDEN2", 3, -1.5).UseLinetype("HIDDEN2").Line(x1, y1, x2, y2).UseLinetype("")
}

// lineLayer draws on a layer of hidden edges, of a dashed linetype.
func lineLayer(name string) lineBy {
	return func(b *dxftest.Builder, x1, y1, x2, y2 float64) {
		b.Linetype("DASHED", 6, -3).LayerWith(name, dxftest.LayerOptions{Colour: 8, Linetype: "DASHED"}).Line(x1, y1, x2, y2).Layer("PROFILE")
	}
}

// lineDashes draws dashes one by one: 16 and gaps of 4, the last one shorter.
func lineDashes(b *dxftest.Builder, x1, y1, x2, y2 float64) {
	for x := x1; x < x2; x += 20 {
		b.Line(x, y1, min(x+16, x2), y2)
	}
	for y := y1; y < y2; y += 20 {
		b.Line(x1, y, x2, min(y+16, y2))
	}
}

// legBox draws the outline of a leg as one polyline, legSides as four lines.
func legBox(b *dxftest.Builder, x, y, w, h float64) { b.Polyline(true, dxftest.Rect(x, y, w, h)...) }
func legSides(b *dxftest.Builder, x, y, w, h float64) {
	b.Line(x, y+h, x, y).Line(x+w, y, x+w, y+h).Line(x, y, x+w, y).Line(x+w, y+h, x, y+h)
}

// bolts draws round holes of one diameter at pairs of x and y.
func bolts(b *dxftest.Builder, d float64, xy ...float64) {
	for i := 0; i < len(xy); i += 2 {
		b.Circle(xy[i], xy[i+1], d/2)
	}
}

// lines writes texts under each other.
func textLines(b *dxftest.Builder, x, y, height float64, texts ...string) {
	b.Layer("TEXT")
	for i, s := range texts {
		b.Text(x, y-1.8*height*float64(i), height, s)
	}
	b.Layer("PROFILE")
}

// officeAngles: angles without a border, in the three ways to draw them. Masses
// in kg/m, root radii and k are those of the section tables (EN 10056-1; AISC
// Manual Table 1-7, lb/ft times 1.48816).
func officeAngles(l *officeList) {
	mm := func() *dxftest.Builder { return dxftest.New(dxftest.MM).Layer("PROFILE") }

	// The parapet post's cleat: views above each other, heels facing.
	b := mm()
	legBox(b, 0, 100, 400, 75)
	lineSolid(b, 0, 106, 400, 106)
	bolts(b, 22, 40, 145, 360, 145)
	legBox(b, 0, 0, 400, 50)
	lineSolid(b, 0, 44, 400, 44)
	bolts(b, 18, 200, 20)
	textLines(b, 0, -40, 5, "PARAPET POST CLEAT", "L75x50x6 LG 400", "S275JR", "4 OFF")
	l.add("angle-facing", r2007, b, `
		# Leg a above: heel at y=100, holes at 145. Leg b: heel at y=50, hole at 20.
		angle a=75 b=50 t=6 length=400 section=L75x50x6 list=EN_10056-1 kg=5.65 root=7 from=two_views hand=none material=S275JR qty=4
		hole leg=a heel=45 start=40 d=22
		hole leg=a heel=45 start=360 d=22
		hole leg=b heel=30 start=200 d=18`)

	// A brace of equal legs beside each other, heels away, dashed linetype, R12.
	b = dxftest.New(dxftest.NoUnit).Layer("PROFILE")
	legSides(b, 0, 0, 60, 800)
	lineType(b, 6, 0, 6, 800)
	bolts(b, 18, 35, 40, 35, 100)
	legSides(b, 100, 0, 60, 800)
	lineType(b, 154, 0, 154, 800)
	bolts(b, 18, 125, 760)
	textLines(b, 0, -60, 8, "BRACE", "L60x60x6 - 800 mm", "MATERIAL: S235JR", "ALL DIMENSIONS IN MM")
	l.add("angle-away-upright", r12, b, `
		# Leg a is the left view: heel at x=0. Leg b: heel at x=160, hole at 125.
		# Nothing says which way the legs stand.
		angle a=60 b=60 t=6 length=800 section=L60x60x6 kg=5.42 root=8 from=two_views hand=unknown material=S235JR
		hole leg=a heel=35 start=40 d=18
		hole leg=a heel=35 start=100 d=18
		hole leg=b heel=35 start=760 d=18
		note code=angle-hand`)

	// Heels on the same side of both views, slots in both legs, third angle.
	b = mm()
	legBox(b, 0, 120, 500, 80)
	b.Line(0, 128, 500, 128)
	b.Polyline(true, dxftest.Slot(60, 165, 18, 40)...)
	b.Polyline(true, dxftest.Slot(440, 165, 18, 40)...)
	legBox(b, 0, 0, 500, 80)
	b.Line(500, 8, 0, 8)
	b.Polyline(true, dxftest.Slot(120, 45, 18, 40)...)
	textLines(b, 0, -40, 6, "HANDRAIL BEARER  L80x80x8 x 500", "S355J2", "THIRD ANGLE PROJECTION")
	l.add("angle-mixed-slots", r2018, b, `
		# Both heels are the lower edge: y=120 and y=0.
		angle a=80 b=80 t=8 length=500 section=L80x80x8 kg=9.63 root=10 from=two_views hand=as-drawn-third material=S355J2
		slot leg=a heel=45 start=60 w=18 l=40
		slot leg=a heel=45 start=440 w=18 l=40
		slot leg=b heel=45 start=120 w=18 l=40
		no-note code=angle-hand
		# Along the heel each takes no more room on the offset die than a round hole
		# of its width; it takes two hits.
		verdict is=fits-with-care`)

	// German, thickness on a layer of hidden edges, views side by side, facing.
	b = mm()
	legSides(b, 150, 0, 100, 600)
	lineLayer("VERDECKT")(b, 158, 0, 158, 600)
	bolts(b, 14, 205, 50, 205, 550)
	legSides(b, 0, 0, 50, 600)
	lineLayer("VERDECKT")(b, 42, 0, 42, 600)
	bolts(b, 14, 20, 300)
	textLines(b, 0, -50, 7, "Winkel L 100x50x8, 600 lang", "Werkstoff: S235JR", "Stück: 6")
	l.add("angle-german", r2010, b, `
		# The wider leg is a, on the right: heel at x=150. Leg b: heel at x=50.
		angle a=100 b=50 t=8 length=600 section=L100x50x8 kg=8.97 root=8 from=two_views hand=none material=S235JR qty=6
		hole leg=a heel=55 start=50 d=14
		hole leg=a heel=55 start=550 d=14
		hole leg=b heel=30 start=300 d=14`)

	// French, dashes drawn one by one, outline of four lines in a block.
	b = mm()
	b.Block("CORNIERE", 0, 0, func(b *dxftest.Builder) {
		b.Layer("PROFILE")
		legSides(b, 0, 90, 300, 50)
		lineDashes(b, 0, 95, 300, 95)
		bolts(b, 13, 30, 118, 270, 118)
		legSides(b, 0, 0, 300, 50)
		lineDashes(b, 0, 45, 300, 45)
		bolts(b, 13, 150, 22)
	}).Insert("CORNIERE", 1000, 500)
	textLines(b, 1000, 460, 5, "CORNIÈRE 50x50x5 L=300", "MATIÈRE : S235JR", "QTÉ : 12")
	l.add("angle-french-dashes", r2013, b, `
		# Heels: y=90 of the upper view, y=50 of the lower one.
		angle a=50 b=50 t=5 length=300 section=L50x50x5 kg=3.77 root=7 from=two_views hand=none material=S235JR qty=12
		hole leg=a heel=28 start=30 d=13
		hole leg=a heel=28 start=270 d=13
		hole leg=b heel=28 start=150 d=13`)

	// A drain cut out of the heel, through both legs: the thickness line stops
	// on either side of it.
	b = mm()
	b.Polyline(true, dxftest.V{Y: 120}, dxftest.V{X: 185, Y: 120}, dxftest.V{X: 185, Y: 145}, dxftest.V{X: 215, Y: 145}, dxftest.V{X: 215, Y: 120}, dxftest.V{X: 400, Y: 120}, dxftest.V{X: 400, Y: 195}, dxftest.V{Y: 195})
	b.Line(0, 128, 185, 128).Line(215, 128, 400, 128)
	b.Polyline(true, dxftest.V{}, dxftest.V{X: 400}, dxftest.V{X: 400, Y: 75}, dxftest.V{X: 215, Y: 75}, dxftest.V{X: 215, Y: 50}, dxftest.V{X: 185, Y: 50}, dxftest.V{X: 185, Y: 75}, dxftest.V{Y: 75})
	b.Line(0, 67, 185, 67).Line(215, 67, 400, 67)
	bolts(b, 18, 50, 165, 350, 165, 50, 30, 350, 30)
	textLines(b, 0, -40, 5, "KERB ANGLE L75x75x8 x 400 LONG", "S275")
	l.add("angle-drain-in-heel", r2000, b, `
		# 30 wide and 25 up each leg, in the middle.
		angle a=75 b=75 t=8 length=400 section=L75x75x8 kg=8.99 root=9 from=two_views hand=none material=S275
		hole leg=a heel=45 start=50 d=18
		hole leg=a heel=45 start=350 d=18
		hole leg=b heel=45 start=50 d=18
		hole leg=b heel=45 start=350 d=18
		rectangle leg=both heel=0 start=200 w=30 l=50`)

	// American, inches, with a text of feet and fractions.
	b = dxftest.New(dxftest.Inch).Layer("PROFILE")
	legBox(b, 0, 6, 24, 4)
	b.Line(0, 6.375, 24, 6.375)
	bolts(b, 0.8125, 1.5, 8.5, 22.5, 8.5)
	legBox(b, 0, 0, 24, 3)
	b.Line(0, 2.625, 24, 2.625)
	bolts(b, 0.8125, 12, 1.25)
	textLines(b, 0, -2, 0.25, `L4x3x3/8 x 2'-0"`, "ASTM A36", "QTY 8")
	l.add("angle-inch", r2004, b, `
		# 24 in; gages 2 1/2 and 1 3/4 in; 8.5 lb/ft, k 3/4 in.
		angle a=101.6 b=76.2 t=9.525 length=609.6 section=L4X3X3/8 kg=12.649 k=19.05 from=two_views hand=none qty=8
		hole leg=a heel=63.5 start=38.1 d=20.6375
		hole leg=a heel=63.5 start=571.5 d=20.6375
		hole leg=b heel=44.45 start=304.8 d=20.6375`)
}
