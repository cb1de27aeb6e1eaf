package features_test

import (
	"burrside/dxfread/dxftest"
)

// officeOddAngles: what offices draw into the views of angles beside outline,
// thickness and holes, and profiles that are no angles.
func officeOddAngles(l *officeList) {
	mm := func() *dxftest.Builder { return dxftest.New(dxftest.MM).Layer("PROFILE") }
	usual := func(more string) string {
		return `
		angle a=75 b=50 t=6 length=400 section=L75x50x6 kg=5.65 root=7 from=two_views hand=none material=S275JR` + more + `
		hole leg=a heel=45 start=40 d=18
		hole leg=a heel=45 start=360 d=18
		hole leg=b heel=30 start=200 d=18`
	}
	views := func(b *dxftest.Builder) *dxftest.Builder {
		plainViews(b, 0, 0, 400, 75, 50, 6, 18, [][2]float64{{40, 45}, {360, 45}}, [][2]float64{{200, 30}})
		return b
	}
	// plainViews puts leg a at y=90 and leg b at y=0: heels at 90 and 50, gauge
	// lines at 135 and 20.

	// Gauge lines along the legs and centre lines of the holes.
	b := views(mm())
	b.Linetype("CENTER", 10, -2, 2, -2).LayerWith("CENTRE", dxftest.LayerOptions{Colour: 1, Linetype: "CENTER"})
	b.Line(-8, 135, 408, 135).Line(-8, 20, 408, 20).Line(40, 120, 40, 150).Line(360, 120, 360, 150).Line(200, 5, 200, 35).Layer("PROFILE")
	textLines(b, 0, -30, 5, "L75x50x6 x 400", "S275JR")
	l.add("angle-gauge-lines", r2010, b, usual(""))

	// The holes of each leg seen from its edge: hidden lines across the
	// thickness in the view of the other one.
	b = views(mm())
	b.Linetype("HIDDEN", 3, -1.5).LayerWith("HIDDEN", dxftest.LayerOptions{Colour: 4, Linetype: "HIDDEN"})
	for _, x := range []float64{191, 209} {
		b.Line(x, 90, x, 96)
	}
	for _, x := range []float64{31, 49, 351, 369} {
		b.Line(x, 44, x, 50)
	}
	b.Layer("PROFILE")
	textLines(b, 0, -30, 5, "L75x50x6 x 400", "S275JR")
	l.add("angle-hole-shadows", r2018, b, usual(""))
	// The same with plain lines.
	b = views(mm())
	for _, x := range []float64{191, 209} {
		b.Line(x, 90, x, 96)
	}
	for _, x := range []float64{31, 49, 351, 369} {
		b.Line(x, 44, x, 50)
	}
	textLines(b, 0, -30, 5, "L75x50x6 x 400", "S275JR")
	l.add("angle-hole-shadows-plain", r2000, b, usual(""))

	// Each view of two rectangles: the leg and the edge of the other one.
	b = mm()
	legBox(b, 0, 96, 400, 69)
	legBox(b, 0, 90, 400, 6)
	legBox(b, 0, 0, 400, 44)
	legBox(b, 0, 44, 400, 6)
	bolts(b, 18, 40, 135, 360, 135, 200, 20)
	textLines(b, 0, -30, 5, "L75x50x6 x 400", "S275JR")
	l.add("angle-two-rectangles", r2007, b, usual("")+`
		may-doubt code=reading-doubt grave=no
		fault code=duplicate-lines`)

	// A second line where the fillet ends, 6 + 7 from the heel.
	b = views(mm())
	b.Line(0, 103, 400, 103).Line(0, 37, 400, 37)
	textLines(b, 0, -30, 5, "L75x50x6 x 400", "S275JR")
	l.add("angle-root-lines", r2013, b, usual(""))

	// The thickness line stops 0.5 mm short of the ends.
	b = mm()
	legSides(b, 0, 90, 400, 75)
	legSides(b, 0, 0, 400, 50)
	b.Line(0.5, 96, 399.5, 96).Line(0.5, 44, 399.5, 44)
	bolts(b, 18, 40, 135, 360, 135, 200, 20)
	textLines(b, 0, -30, 5, "L75x50x6 x 400", "S275JR")
	l.add("angle-line-short", r2004, b, usual(""))

	// Everything on layer 0, told by colours, binary R12, and two of them wanted.
	b = dxftest.New(dxftest.NoUnit)
	b.UseColour(7)
	legSides(b, 0, 90, 400, 75)
	legSides(b, 0, 0, 400, 50)
	b.UseColour(1).Line(0, 96, 400, 96).Line(0, 44, 400, 44).UseColour(3)
	bolts(b, 18, 40, 135, 360, 135, 200, 20)
	b.UseColour(2).Text(0, -30, 5, "2 NO. L75x50x6 x 400 mm").Text(0, -40, 5, "S275JR")
	l.add("angle-colours-binary", officeForm{form: dxftest.BinaryR12}, b, usual(" qty=2"))

	// All dimensions: over all, legs, gauges from the heel, ends.
	b = views(mm())
	p := &paper{b: b, k: 1, layer: "DIM"}
	p.across(0, 400, 165, 25, "")
	p.across(0, 40, 165, 12, "")
	p.across(0, 200, 0, -12, "")
	p.up(0, 90, 165, -25, "")
	p.up(0, 90, 135, -12, "")
	p.up(0, 0, 50, -25, "")
	p.up(400, 20, 50, 12, "")
	p.up(400, 90, 96, 12, "")
	textLines(b, 0, -50, 5, "L75x50x6", "S275JR", "HOLES %%c18")
	l.add("angle-dimensioned", r2010, b, usual(""))

	// A long brace drawn short: its length is typed.
	b = views(mm())
	p = &paper{b: b, k: 1, layer: "DIM"}
	p.across(0, 400, 165, 25, "3000")
	textLines(b, 0, -30, 5, "L75x50x6", "S275JR")
	l.add("angle-length-typed", r2018, b, usual("")+`
		doubt grave=yes says=3000
		may-doubt
		verdict is=cannot-tell`)

	// Two angles of one length below each other.
	b = views(mm())
	plainViews(b, 0, 320, 400, 75, 50, 6, 14, [][2]float64{{200, 45}}, [][2]float64{{50, 30}, {350, 30}})
	textLines(b, 0, -30, 5, "P1: L75x50x6, S275JR")
	textLines(b, 0, 300, 5, "P2: L75x50x6, S275JR")
	l.add("angles-one-length", r2007, b, usual("")+`
		angle a=75 b=50 t=6 length=400 section=L75x50x6 from=two_views hand=none material=S275JR
		hole leg=a heel=45 start=200 d=14
		hole leg=b heel=30 start=50 d=14
		hole leg=b heel=30 start=350 d=14`)

	// Countersunk holes in one leg.
	b = mm()
	plainViews(b, 0, 0, 300, 100, 75, 8, 14, [][2]float64{{40, 55}, {260, 55}}, [][2]float64{{150, 45}})
	b.Circle(40, 170, 13.5).Circle(260, 170, 13.5)
	textLines(b, 0, -30, 5, "CANTONEIRA L 100x75x8", "MATERIAL: S235JR", "QUANT.: 30")
	l.add("angle-portuguese-seats", r2013, b, `
		# Holes of 14 with seats of 27.
		angle a=100 b=75 t=8 length=300 section=L100x75x8 kg=10.6 root=10 from=two_views hand=none material=S235JR qty=30
		seat leg=a heel=55 start=40 d=14
		seat leg=a heel=55 start=260 d=14
		hole leg=b heel=45 start=150 d=14`)

	// Inch sizes in a drawing of millimetres.
	b = mm()
	plainViews(b, 0, 0, 304.8, 76.2, 76.2, 6.35, 14.2875, [][2]float64{{38.1, 44.45}, {266.7, 44.45}}, [][2]float64{{152.4, 44.45}})
	textLines(b, 0, -30, 5, "L3x3x1/4 x 12 IN LG", "A36")
	l.add("angle-inch-in-mm", r2004, b, `
		# AISC Manual Table 1-7: 4.9 lb/ft, kdet 5/8 in.
		angle a=76.2 b=76.2 t=6.35 length=304.8 section=L3X3X1/4 list=AISC kg=7.292 k=15.875 from=two_views hand=none
		hole leg=a heel=44.45 start=38.1 d=14.2875
		hole leg=a heel=44.45 start=266.7 d=14.2875
		hole leg=b heel=44.45 start=152.4 d=14.2875`)

	// Both legs clipped at one end.
	b = mm()
	b.Polyline(true, dxftest.V{Y: 120}, dxftest.V{X: 400, Y: 120}, dxftest.V{X: 400, Y: 165}, dxftest.V{X: 385, Y: 180}, dxftest.V{Y: 180})
	b.Polyline(true, dxftest.V{Y: 60}, dxftest.V{}, dxftest.V{X: 385}, dxftest.V{X: 400, Y: 15}, dxftest.V{X: 400, Y: 60})
	b.Line(0, 126, 400, 126).Line(0, 54, 400, 54)
	bolts(b, 18, 40, 155, 40, 25)
	textLines(b, 0, -30, 5, "L60x60x6 x 400", "S235JR")
	l.add("angle-clipped-toes", r2010, b, `
		# It is its own mirror image about the plane between the legs.
		angle a=60 b=60 t=6 length=400 section=L60x60x6 from=two_views hand=none material=S235JR
		hole leg=a heel=35 start=40 d=18
		hole leg=b heel=35 start=40 d=18
		clip leg=a long=15
		clip leg=b long=15`)

	// No angles: the web and a flange of a channel, and two sides of a hollow
	// section with its inside hidden.
	untold := `
		doubt grave=yes
		may-doubt
		verdict is=cannot-tell`
	b = mm()
	legBox(b, 0, 100, 400, 100)
	b.Line(0, 108.5, 400, 108.5).Line(0, 191.5, 400, 191.5)
	bolts(b, 18, 60, 150, 340, 150)
	legBox(b, 0, 0, 400, 50)
	b.Line(0, 44, 400, 44)
	textLines(b, 0, -30, 5, "ALL PARTS: S235JR")
	l.add("channel-two-views", r2007, b, `
		# 100 x 50 with flanges of 8.5 and a web of 6.
		plate w=400 h=100
		hole x=60 y=50 d=18
		hole x=340 y=50 d=18
		plate w=400 h=50`+untold)
	b = mm()
	legBox(b, 0, 100, 400, 80)
	legBox(b, 0, 0, 400, 40)
	for _, y := range []float64{104, 176, 4, 36} {
		lineType(b, 0, y, 400, y)
	}
	bolts(b, 18, 60, 140, 340, 140)
	textLines(b, 0, -30, 5, "RHS 80x40x4", "S235JR")
	l.add("hollow-section-two-views", r2018, b, `
		plate w=400 h=80
		hole x=60 y=40 d=18
		hole x=340 y=40 d=18
		plate w=400 h=40`+untold)
}

// officeOddSheets: sheets on which the scale is stated otherwise.
func officeOddSheets(l *officeList) {
	cover := func(scale, number string) *paper {
		p := newPaper("BORDER")
		p.frame(297, 210)
		p.titleAbove(297, []cell{{110, "TITLE", "COVER"}, {70, "DRAWING NUMBER", number}}, []cell{{50, "MATERIAL", "S235JR"}, {40, "THICKNESS", "6"}, {40, "QTY", "1"}, {50, "SCALE", scale}})
		p.b.Layer("PROFILE")
		legBox(p.b, 70, 90, 120, 80)
		bolts(p.b, 11, 90, 110, 170, 150)
		return p
	}
	drawn := `
		plate w=120 h=80 t=6 material=S235JR qty=1
		hole x=20 y=20 d=11
		hole x=100 y=60 d=11`
	// Two dimensions that say different scales.
	p := cover("1:2", "AF-301")
	p.across(70, 190, 170, 10, "240")
	p.up(190, 90, 170, 10, "400")
	l.addSheet("sheet-dimensions-disagree", r2010, p.b, drawn+`
		doubt grave=yes
		may-doubt
		no-note code=view-scale
		verdict is=cannot-tell`)
	// The title block says 1:2 of a sheet of true size and no dimension says
	// anything: the part may be twice as large.
	p = cover("1:2", "AF-302")
	l.addSheet("sheet-scale-text-alone", r2018, p.b, drawn+`
		doubt grave=yes says=1:2
		no-note code=view-scale
		verdict is=cannot-tell`)
	// The title block says 1:2, the dimensions that all is as drawn.
	p = cover("1:2", "AF-303")
	p.across(70, 190, 170, 10, "")
	p.up(190, 90, 170, 10, "")
	l.addSheet("sheet-scale-text-overruled", r2007, p.b, drawn+`
		no-note code=view-scale`)

	// ANSI D, inches: an angle and a plate in a parts list, with balloons.
	p = &paper{b: dxftest.New(dxftest.Inch).Layer("PROFILE"), k: 1 / 25.4, layer: "BORDER"}
	p.frame(863.6, 558.8)
	p.titleAbove(863.6, []cell{{110, "TITLE", "LANDING BRACKET"}, {70, "DWG NO", "AF-304"}}, []cell{{90, "SCALE", "1:1"}, {90, "DATE", "MAY 4"}})
	p.table(673.6, 34, 8, []float64{20, 20, 80, 60}, []string{"ITEM", "QTY", "DESCRIPTION", "MATERIAL"}, []string{"1", "4", "L4x3x3/8 x 1'-0", "A36"}, []string{"2", "2", "PL 1/2", "A36"})
	p.b.Layer("PROFILE")
	legBox(p.b, 4, 14, 12, 4)
	p.b.Line(4, 14.375, 16, 14.375)
	bolts(p.b, 0.8125, 5.5, 16.5, 14.5, 16.5)
	legBox(p.b, 4, 9, 12, 3)
	p.b.Line(4, 11.625, 16, 11.625)
	bolts(p.b, 0.8125, 10, 10.25)
	legBox(p.b, 20, 12, 8, 6)
	bolts(p.b, 0.8125, 22, 15, 26, 15)
	p.balloon(3, 19, 5, 17.5, "1")
	p.balloon(19, 19, 21, 17.5, "2")
	l.addSheet("sheet-ansi-d-angle-and-plate", r2010, p.b, `
		angle a=101.6 b=76.2 t=9.525 length=304.8 section=L4X3X3/8 from=two_views hand=none material=A36 qty=4
		hole leg=a heel=63.5 start=38.1 d=20.6375
		hole leg=a heel=63.5 start=266.7 d=20.6375
		hole leg=b heel=44.45 start=152.4 d=20.6375
		plate w=203.2 h=152.4 t=12.7 material=A36 qty=2
		hole x=50.8 y=76.2 d=20.6375
		hole x=152.4 y=76.2 d=20.6375`)
}
