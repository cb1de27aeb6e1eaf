package features_test

import (
	"math"

	"burrside/dxfread/dxftest"
)

// endView draws the section of an angle with its heel at the bottom left; radii
// of the fillet and of the toes, 0 sharp.
func endView(b *dxftest.Builder, x, y, a, c, t, r, toe float64) {
	q := math.Tan(math.Pi / 8)
	v := []dxftest.V{{X: x, Y: y}, {X: x + a, Y: y}}
	if toe > 0 {
		v = append(v, dxftest.V{X: x + a, Y: y + t - toe, Bulge: q}, dxftest.V{X: x + a - toe, Y: y + t})
	} else {
		v = append(v, dxftest.V{X: x + a, Y: y + t})
	}
	if r > 0 {
		v = append(v, dxftest.V{X: x + t + r, Y: y + t, Bulge: -q}, dxftest.V{X: x + t, Y: y + t + r})
	} else {
		v = append(v, dxftest.V{X: x + t, Y: y + t})
	}
	if toe > 0 {
		v = append(v, dxftest.V{X: x + t, Y: y + c - toe, Bulge: q}, dxftest.V{X: x + t - toe, Y: y + c})
	} else {
		v = append(v, dxftest.V{X: x + t, Y: y + c})
	}
	b.Polyline(true, append(v, dxftest.V{X: x, Y: y + c})...)
}

// plainViews draws two views of an angle at a place, heels facing, leg a above:
// length, legs, thickness; holes at u from the left and v from the heel.
func plainViews(b *dxftest.Builder, x, y, length, a, c, t, d float64, upper, lower [][2]float64) {
	legBox(b, x, y+c+40, length, a)
	b.Line(x, y+c+40+t, x+length, y+c+40+t)
	for _, h := range upper {
		b.Circle(x+h[0], y+c+40+h[1], d/2)
	}
	legBox(b, x, y, length, c)
	b.Line(x, y+c-t, x+length, y+c-t)
	for _, h := range lower {
		b.Circle(x+h[0], y+c-h[1], d/2)
	}
}

// officeMoreAngles: end views, developed and single views, several on a sheet,
// other languages.
func officeMoreAngles(l *officeList) {
	mm := func() *dxftest.Builder { return dxftest.New(dxftest.MM).Layer("PROFILE") }
	sixty := func() *dxftest.Builder {
		b := mm()
		plainViews(b, 0, 0, 300, 60, 60, 6, 18, [][2]float64{{40, 35}, {260, 35}}, [][2]float64{{150, 35}})
		return b
	}
	// The section is the same by name whether its view stands beside or not.
	wanted := func(more string) string {
		return `
		# The end view is no part.
		angle a=60 b=60 t=6 length=300 section=L60x60x6 kg=5.42 root=8 from=two_views hand=none material=S235JR
		hole leg=a heel=35 start=40 d=18
		hole leg=a heel=35 start=260 d=18
		hole leg=b heel=35 start=150 d=18` + more
	}
	b := sixty()
	endView(b, 360, 100, 60, 60, 6, 0, 0)
	textLines(b, 0, -30, 5, "L60x60x6", "S235JR")
	l.add("angle-end-sharp", r2000, b, wanted(""))
	b = sixty()
	endView(b, -110, 100, 60, 60, 6, 8, 4)
	textLines(b, 0, -30, 5, "S235JR")
	l.add("angle-end-filleted", r2018, b, wanted(""))
	b = sixty()
	endView(b, 360, 100, 60, 60, 6, 8, 4)
	b.Layer("HATCH")
	for _, x := range []float64{3, 9, 15, 21, 27, 33, 39, 45, 51} {
		b.Line(360+x, 100, 360+x+6, 106)
	}
	for _, y := range []float64{9, 15, 21, 27, 33, 39, 45, 51} {
		b.Line(360, 100+y, 366, 106+y)
	}
	b.Layer("PROFILE")
	textLines(b, 360, 180, 5, "SECTION A-A")
	textLines(b, 0, -30, 5, "L60x60x6", "S235JR")
	l.add("angle-end-hatched", r2010, b, wanted(""))

	// Developed: both legs in one outline, the line at the heel.
	b = mm()
	legBox(b, 0, 0, 450, 175)
	lineType(b, 0, 100, 450, 100)
	bolts(b, 18, 50, 45, 400, 45, 225, 145)
	textLines(b, 0, -30, 6, "L100x75x8 - DEVELOPED", "S275JR")
	l.add("angle-developed", r2013, b, `
		# 100 + 75 = 175; holes at 55 and 45 from the heel at y=100.
		angle a=100 b=75 t=8 length=450 section=L100x75x8 kg=10.6 root=10 from=developed_view hand=none material=S275JR
		hole leg=a heel=55 start=50 d=18
		hole leg=a heel=55 start=400 d=18
		hole leg=b heel=45 start=225 d=18`)
	b = mm()
	legBox(b, 0, 0, 450, 167)
	lineType(b, 0, 96, 450, 96)
	bolts(b, 18, 50, 45, 400, 45, 300, 137)
	textLines(b, 0, -30, 6, "L100x75x8 - DEVELOPED WIDTH 167", "S275JR")
	l.add("angle-developed-less-t", r2007, b, `
		# 100 + 75 - 8 = 167: half the thickness off each leg at the heel, so that
		# holes are true from the toes: 100-45 and 75-30 from the heel.
		angle a=100 b=75 t=8 length=450 section=L100x75x8 kg=10.6 root=10 from=developed_view hand=unknown material=S275JR
		hole leg=a heel=55 start=50 d=18
		hole leg=a heel=55 start=400 d=18
		hole leg=b heel=45 start=300 d=18`)

	// One view, with the section in words and without.
	single := func(texts ...string) *dxftest.Builder {
		b := mm()
		legBox(b, 0, 0, 300, 75)
		b.Line(0, 6, 300, 6)
		bolts(b, 22, 40, 45, 260, 45)
		textLines(b, 0, -30, 6, texts...)
		return b
	}
	l.add("angle-one-view", r2004, single("STIFFENER L75x50x6 x 300", "S275JR"), `
		# Leg b is not drawn.
		angle a=75 b=50 t=6 length=300 section=L75x50x6 kg=5.65 root=7 from=one_view material=S275JR
		hole leg=a heel=45 start=40 d=22
		hole leg=a heel=45 start=260 d=22
		doubt code=leg-not-drawn grave=no`)
	l.add("angle-one-view-untold", r2004, single("STIFFENER", "S275JR"), `
		# An angle, a bar with a bend or with a scribed line: the drawing does not say.
		plate w=300 h=75 material=S275JR
		hole x=40 y=45 d=22
		hole x=260 y=45 d=22
		doubt grave=yes
		may-doubt
		verdict is=cannot-tell`)
	// Three views of one size: which two belong together is not told.
	b = mm()
	for _, y := range []float64{0, 110, 220} {
		legBox(b, 0, y, 300, 60)
		b.Line(0, y+6, 300, y+6)
	}
	bolts(b, 18, 40, 35, 80, 145, 120, 255)
	textLines(b, 0, -30, 6, "ALL PARTS: L60x60x6, S235JR")
	l.add("angle-three-views", r2007, b, `
		# One angle and a half; no pair is better than the others.
		plate w=300 h=60 material=S235JR
		hole x=40 y=35 d=18
		plate w=300 h=60 material=S235JR
		hole x=80 y=35 d=18
		plate w=300 h=60 material=S235JR
		hole x=120 y=35 d=18
		doubt grave=yes
		may-doubt
		verdict is=cannot-tell`)

	// Three angles on a sheet, each with its text.
	b = mm()
	plainViews(b, 0, 0, 400, 75, 50, 6, 18, [][2]float64{{50, 45}, {350, 45}}, nil)
	textLines(b, 0, -25, 5, "A1: L75x50x6 x 400, 2 OFF")
	plainViews(b, 700, 0, 300, 60, 60, 6, 14, [][2]float64{{30, 35}, {270, 35}}, [][2]float64{{150, 35}})
	textLines(b, 700, -25, 5, "A2: L60x60x6 x 300, 4 OFF")
	plainViews(b, 0, 500, 250, 100, 65, 8, 22, [][2]float64{{125, 55}}, nil)
	textLines(b, 0, 475, 5, "A3: L100x65x8 x 250, 8 OFF")
	l.add("angles-three", r2018, b, `
		angle a=75 b=50 t=6 length=400 section=L75x50x6 kg=5.65 from=two_views qty=2 hand=none
		hole leg=a heel=45 start=50 d=18
		hole leg=a heel=45 start=350 d=18
		angle a=60 b=60 t=6 length=300 section=L60x60x6 kg=5.42 from=two_views qty=4 hand=none
		hole leg=a heel=35 start=30 d=14
		hole leg=a heel=35 start=270 d=14
		hole leg=b heel=35 start=150 d=14
		angle a=100 b=65 t=8 length=250 section=L100x65x8 kg=9.94 from=two_views qty=8 hand=none
		hole leg=a heel=55 start=125 d=22`)

	// A left and a right hand, and two copies of one.
	b = mm()
	plainViews(b, 0, 0, 300, 75, 50, 6, 18, [][2]float64{{40, 45}, {100, 45}}, [][2]float64{{200, 30}})
	textLines(b, 0, -25, 5, "LEFT HAND")
	plainViews(b, 600, 0, 300, 75, 50, 6, 18, [][2]float64{{260, 45}, {200, 45}}, [][2]float64{{100, 30}})
	textLines(b, 600, -25, 5, "RIGHT HAND")
	textLines(b, 0, -60, 5, "BOTH L75x50x6, S275JR")
	l.add("angles-opposite-hands", r2007, b, `
		# The second is the mirror image of the first: another part.
		angle a=75 b=50 t=6 length=300 section=L75x50x6 from=two_views hand=unknown
		hole leg=a heel=45 start=40 d=18
		hole leg=a heel=45 start=100 d=18
		hole leg=b heel=30 start=200 d=18
		angle a=75 b=50 t=6 length=300 section=L75x50x6 from=two_views hand=unknown
		hole leg=a heel=45 start=260 d=18
		hole leg=a heel=45 start=200 d=18
		hole leg=b heel=30 start=100 d=18
		note code=opposite-hand`)
	b = mm()
	b.Block("TYP", 0, 0, func(b *dxftest.Builder) {
		plainViews(b, 0, 0, 300, 75, 50, 6, 18, [][2]float64{{40, 45}, {100, 45}}, [][2]float64{{200, 30}})
	})
	b.Insert("TYP", 0, 0).Insert("TYP", 700, 20).Insert("TYP", 900, 900, dxftest.Placing{AngleDeg: 180})
	textLines(b, 0, -30, 5, "L75x50x6", "S275JR")
	l.add("angles-copies", r2013, b, `
		angle a=75 b=50 t=6 length=300 section=L75x50x6 from=two_views copies=3 material=S275JR hand=unknown
		hole leg=a heel=45 start=40 d=18
		hole leg=a heel=45 start=100 d=18
		hole leg=b heel=30 start=200 d=18`)

	// An angle and the plate that it carries.
	b = mm()
	plainViews(b, 0, 0, 300, 60, 60, 6, 18, [][2]float64{{40, 35}, {260, 35}}, nil)
	textLines(b, 0, -25, 5, "POS 1: L60x60x6 x 300")
	legBox(b, 600, 0, 220, 120)
	bolts(b, 18, 640, 60, 780, 60)
	textLines(b, 600, -25, 5, "POS 2: PL 10, S275JR")
	l.add("angle-and-plate", r2010, b, `
		angle a=60 b=60 t=6 length=300 section=L60x60x6 from=two_views hand=none
		hole leg=a heel=35 start=40 d=18
		hole leg=a heel=35 start=260 d=18
		plate w=220 h=120 t=10 material=S275JR
		hole x=40 y=60 d=18
		hole x=180 y=60 d=18`)

	// The text names another angle than the one drawn.
	b = mm()
	plainViews(b, 0, 0, 300, 75, 50, 6, 18, [][2]float64{{40, 45}, {260, 45}}, nil)
	textLines(b, 0, -30, 5, "L75x75x8 x 300", "S275JR")
	l.add("angle-text-disagrees", r2000, b, `
		angle a=75 b=50 t=6 length=300 from=two_views material=S275JR
		hole leg=a heel=45 start=40 d=18
		hole leg=a heel=45 start=260 d=18
		doubt code=section-conflict grave=yes says=75
		verdict is=cannot-tell`)

	// Spanish, Italian, Polish, Dutch; accents as escapes before 2007.
	b = mm()
	b.Polyline(true, dxftest.Slot(40, 255, 22, 50)...).Polyline(true, dxftest.Slot(460, 255, 22, 50)...)
	legBox(b, 0, 200, 500, 100)
	b.Line(0, 210, 500, 210)
	b.Polyline(true, dxftest.Slot(40, 45, 22, 50)...).Polyline(true, dxftest.Slot(460, 45, 22, 50)...)
	legBox(b, 0, 0, 500, 100)
	b.Line(0, 90, 500, 90)
	textLines(b, 0, -30, 7, "ANGULAR L 100x100x10", "LONGITUD: 500", "MATERIAL: S275JR", "CANTIDAD: 8")
	l.add("angle-spanish-slots", r2000, b, `
		angle a=100 b=100 t=10 length=500 section=L100x100x10 kg=15 root=12 from=two_views hand=none material=S275JR qty=8
		slot leg=a heel=55 start=40 w=22 l=50
		slot leg=a heel=55 start=460 w=22 l=50
		slot leg=b heel=55 start=40 w=22 l=50
		slot leg=b heel=55 start=460 w=22 l=50`)
	b = mm()
	plainViews(b, 0, 0, 250, 60, 40, 5, 14, [][2]float64{{30, 35}, {220, 35}}, [][2]float64{{125, 22}})
	textLines(b, 0, -30, 5, "ANGOLARE L60x40x5 L=250", "MATERIALE: S235JR", `Q.T\U+00C0: 10`)
	l.add("angle-italian", r2004, b, `
		angle a=60 b=40 t=5 length=250 section=L60x40x5 kg=3.76 root=6 from=two_views hand=none material=S235JR qty=10
		hole leg=a heel=35 start=30 d=14
		hole leg=a heel=35 start=220 d=14
		hole leg=b heel=22 start=125 d=14`)
	b = mm()
	plainViews(b, 0, 0, 350, 90, 90, 9, 22, [][2]float64{{45, 50}, {305, 50}}, [][2]float64{{45, 50}, {305, 50}})
	textLines(b, 0, -30, 6, "Kątownik L 90x90x9 L=350", "Gatunek: S355J2", "Ilość: 12 szt.")
	l.add("angle-polish", r2018, b, `
		angle a=90 b=90 t=9 length=350 section=L90x90x9 kg=12.2 root=11 from=two_views hand=none material=S355J2 qty=12
		hole leg=a heel=50 start=45 d=22
		hole leg=a heel=50 start=305 d=22
		hole leg=b heel=50 start=45 d=22
		hole leg=b heel=50 start=305 d=22`)
	b = mm()
	plainViews(b, 0, 0, 700, 120, 80, 8, 22, [][2]float64{{50, 65}, {650, 65}}, nil)
	textLines(b, 0, -30, 8, "Hoekstaal L 120x80x8, lengte 700", "Materiaal: S235JR", "Aantal: 2")
	l.add("angle-dutch", r2007, b, `
		angle a=120 b=80 t=8 length=700 section=L120x80x8 kg=12.2 root=11 from=two_views hand=none material=S235JR qty=2
		hole leg=a heel=65 start=50 d=22
		hole leg=a heel=65 start=650 d=22`)
}

// officeNoAngles: plates with lines in them, which must not become angles.
func officeNoAngles(l *officeList) {
	mm := func() *dxftest.Builder { return dxftest.New(dxftest.MM).Layer("CUT") }
	b := mm()
	legBox(b, 0, 0, 300, 180)
	b.LayerWith("BEND", dxftest.LayerOptions{Colour: 3}).Line(0, 120, 300, 120).Layer("CUT")
	bolts(b, 14, 40, 60, 260, 60)
	textLines(b, 0, -30, 6, "TOE BOARD CLIP", "PL 5 S235JR")
	l.add("plate-bend-line", r2010, b, `
		plate w=300 h=180 t=5 material=S235JR
		hole x=40 y=60 d=14
		hole x=260 y=60 d=14
		bend`)
	b = mm()
	for _, y := range []float64{0, 300} {
		legBox(b, 0, y, 400, 240)
		b.LayerWith("BEND", dxftest.LayerOptions{Colour: 3}).Line(0, y+25, 400, y+25).Layer("CUT")
	}
	bolts(b, 18, 60, 140, 60, 440, 340, 440)
	textLines(b, 0, -30, 6, "TRAY HALVES", "ALL PARTS: PL 4 S235JR")
	l.add("plates-bend-line-each", r2018, b, `
		# A lip of 25 each: no angle.
		plate w=400 h=240 t=4 material=S235JR
		hole x=60 y=140 d=18
		bend
		plate w=400 h=240 t=4 material=S235JR
		hole x=60 y=140 d=18
		hole x=340 y=140 d=18
		bend`)
	b = mm()
	for _, y := range []float64{0, 250} {
		legBox(b, 0, y, 400, 200)
		b.Line(0, y+20, 400, y+20)
	}
	bolts(b, 18, 60, 140, 60, 390, 340, 390)
	textLines(b, 0, -30, 6, "COVER PLATES", "PL 6 S235JR")
	l.add("plates-line-each", r2007, b, `
		# A line of unknown purpose in each of two plates of 6 mm; no angle of 200 x
		# 200 is drawn with the plate's thickness beside it. The text stands under
		# the lower plate and is that one's; it does not say that it is for both.
		plate w=400 h=200 t=6 material=S235JR
		hole x=60 y=140 d=18
		plate w=400 h=200
		hole x=60 y=140 d=18
		hole x=340 y=140 d=18
		doubt code=line-unexplained grave=yes says=states_the_thickness_of_a_plate count=2
		verdict is=cannot-tell`)
	// The same, with a text that is for both.
	b = mm()
	for _, y := range []float64{0, 250} {
		legBox(b, 0, y, 400, 200)
		b.Line(0, y+20, 400, y+20)
	}
	bolts(b, 18, 60, 140, 60, 390, 340, 390)
	textLines(b, 0, -30, 6, "COVER PLATES", "ALL PARTS: PL 6 S235JR")
	l.add("plates-line-each-all", r2013, b, `
		plate w=400 h=200 t=6 material=S235JR
		hole x=60 y=140 d=18
		plate w=400 h=200 t=6 material=S235JR
		hole x=60 y=140 d=18
		hole x=340 y=140 d=18
		doubt code=line-unexplained grave=yes says=states_the_thickness_of_a_plate count=2
		verdict is=cannot-tell`)
	b = mm()
	legBox(b, 0, 0, 500, 60)
	b.LayerWith("ENGRAVING", dxftest.LayerOptions{Colour: 5}).Line(0, 6, 500, 6).Layer("CUT")
	bolts(b, 14, 30, 35, 470, 35)
	textLines(b, 0, -30, 6, "HAND RAIL STRAP FL 60x8", "S235JR")
	l.add("bar-engraved-line", r2013, b, `
		plate w=500 h=60 t=8 material=S235JR
		hole x=30 y=35 d=14
		hole x=470 y=35 d=14
		mark`)
	b = mm()
	legBox(b, 0, 0, 500, 75)
	b.Line(0, 6, 500, 6)
	bolts(b, 14, 30, 45, 470, 45)
	legBox(b, 0, 150, 480, 75)
	b.Line(0, 156, 480, 156)
	bolts(b, 14, 30, 195, 450, 195)
	textLines(b, 0, -30, 6, "ALL PARTS: S235JR, T=8")
	l.add("bars-of-unlike-length", r2000, b, `
		# Two bars with a scribed line; 500 and 480 long, so no views of one angle.
		plate w=500 h=75 t=8 material=S235JR
		hole x=30 y=45 d=14
		hole x=470 y=45 d=14
		plate w=480 h=75 t=8 material=S235JR
		hole x=30 y=45 d=14
		hole x=450 y=45 d=14
		doubt grave=yes
		may-doubt
		verdict is=cannot-tell`)
}
