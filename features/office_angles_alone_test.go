package features_test

import (
	"burrside/dxfread/dxftest"
)

// officeAnglesAlone: several angles on a sheet of which one view each is drawn.
// Two such views look like the two views of one angle.
func officeAnglesAlone(l *officeList) {
	mm := func() *dxftest.Builder { return dxftest.New(dxftest.MM).Layer("PROFILE") }
	// one draws a view of a leg, its heel below, and titles under it.
	one := func(b *dxftest.Builder, y, length float64, titles ...string) {
		legBox(b, 0, y, length, 60)
		b.Line(0, y+6, length, y+6)
		textLines(b, 0, y-14, 6, titles...)
		b.Layer("PROFILE")
	}

	// Each titled with its position and its section.
	b := mm()
	one(b, 140, 500, "POS 1  L60x60x6 x 500")
	one(b, 0, 500, "POS 2  L60x60x6 x 500")
	bolts(b, 18, 40, 175, 460, 175, 250, 35)
	textLines(b, 200, -40, 6, "ALL PARTS: S235JR")
	l.add("angles-alone-titled", r2010, b, `
		# Two angles by their titles, of each of which one leg is drawn.
		angle a=60 b=60 t=6 length=500 section=L60x60x6 from=one_view material=S235JR
		hole leg=a heel=35 start=40 d=18
		hole leg=a heel=35 start=460 d=18
		angle a=60 b=60 t=6 length=500 section=L60x60x6 from=one_view material=S235JR
		hole leg=a heel=35 start=250 d=18
		doubt code=leg-not-drawn count=2`)

	// The positions alone are titled, the section stands once for both.
	b = mm()
	one(b, 140, 500, "POS 1")
	one(b, 0, 500, "POS 2")
	bolts(b, 18, 40, 175, 460, 175, 250, 35)
	textLines(b, 600, 60, 6, "L60x60x6 x 500", "ALL PARTS: S235JR")
	l.add("angles-alone-positions", r2013, b, `
		angle a=60 b=60 t=6 length=500 section=L60x60x6 from=one_view material=S235JR
		hole leg=a heel=35 start=40 d=18
		hole leg=a heel=35 start=460 d=18
		angle a=60 b=60 t=6 length=500 section=L60x60x6 from=one_view material=S235JR
		hole leg=a heel=35 start=250 d=18
		doubt code=leg-not-drawn count=2`)

	// Balloons instead: one at the outline of each.
	b = mm()
	one(b, 140, 500)
	one(b, 0, 500)
	bolts(b, 18, 40, 175, 460, 175, 250, 35)
	b.Layer("TEXT")
	for i, y := range []float64{200, 60} {
		b.Circle(560, y, 8).Text(557, y-3, 6, []string{"1", "2"}[i]).Line(552, y, 500, y-20)
	}
	textLines(b, 0, -40, 6, "BOTH L60x60x6 x 500", "ALL PARTS: S235JR")
	l.add("angles-alone-balloons", r2004, b, `
		angle a=60 b=60 t=6 length=500 section=L60x60x6 from=one_view material=S235JR
		hole leg=a heel=35 start=40 d=18
		hole leg=a heel=35 start=460 d=18
		angle a=60 b=60 t=6 length=500 section=L60x60x6 from=one_view material=S235JR
		hole leg=a heel=35 start=250 d=18
		doubt code=leg-not-drawn count=2`)

	// Only the section is written under each: one angle or two, nobody knows.
	b = mm()
	one(b, 140, 500, "L60x60x6 x 500")
	one(b, 0, 500, "L60x60x6 x 500")
	bolts(b, 18, 40, 175, 460, 175, 250, 35)
	textLines(b, 200, -40, 6, "ALL PARTS: S235JR")
	l.add("angles-alone-untold", r2018, b, `
		angle a=60 b=60 t=6 length=500 section=L60x60x6 from=two_views material=S235JR
		hole leg=a heel=35 start=40 d=18
		hole leg=a heel=35 start=460 d=18
		hole leg=b heel=35 start=250 d=18
		doubt code=angle-unclear grave=yes says=two_angles
		verdict is=cannot-tell`)

	// The views of one angle, each titled: one section, two views of it.
	b = mm()
	one(b, 140, 500, "VIEW A")
	one(b, 0, 500, "VIEW B")
	bolts(b, 18, 40, 175, 460, 175, 250, 35)
	textLines(b, 600, 60, 6, "L60x60x6 x 500", "ALL PARTS: S235JR")
	l.add("angle-views-titled", r2007, b, `
		angle a=60 b=60 t=6 length=500 section=L60x60x6 from=two_views material=S235JR
		hole leg=a heel=35 start=40 d=18
		hole leg=a heel=35 start=460 d=18
		hole leg=b heel=35 start=250 d=18`)
}
