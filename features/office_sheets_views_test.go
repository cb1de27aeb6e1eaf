package features_test

import "burrside/dxfread/dxftest"

// officeViewSheets: sheets with more views than parts.
func officeViewSheets(l *officeList) {
	// A splice plate with its section under it, in three pieces, and a section at
	// 2:1 of its edge.
	p := newPaper("RAHMEN")
	p.frame(420, 297)
	p.titleLeft(420, [2]string{"Benennung", "Laschenblech"}, [2]string{"Werkstoff", "S355J2"}, [2]string{"Dicke", "12"}, [2]string{"Stück", "8"}, [2]string{"Maßstab", "1:1"}, [2]string{"Zeichnungs-Nr.", "AF-421"})
	p.b.Layer("PROFILE")
	legBox(p.b, 60, 150, 200, 100)
	bolts(p.b, 18, 90, 180, 230, 180, 90, 220, 230, 220)
	for _, x := range [][2]float64{{60, 21}, {99, 122}, {239, 21}} {
		legBox(p.b, x[0], 100, x[1], 12)
		p.b.Layer("HATCH")
		hatchLines(p.b, x[0], 100, x[1], 12, 4)
		p.b.Layer("PROFILE")
	}
	legBox(p.b, 320, 200, 44, 24)
	p.b.Line(342, 200, 342, 224)
	p.b.Linetype("CENTER", 10, -2, 2, -2).LayerWith("CENTRE", dxftest.LayerOptions{Colour: 1, Linetype: "CENTER"}).Line(50, 180, 270, 180).Line(160, 140, 160, 260)
	p.b.Layer("TEXT").Text(46, 184, 5, "A").Text(272, 184, 5, "A").Text(164, 262, 5, "B").Text(164, 137, 5, "B")
	p.b.Text(135, 86, 5, "SCHNITT A-A").Text(318, 186, 5, "SCHNITT B-B (2:1)")
	p.across(60, 260, 250, 10, "")
	p.up(60, 150, 250, -14, "")
	l.addSheet("sheet-a3-german-sections", r2010, p.b, `
		# Four of the outlines are sections.
		plate w=200 h=100 t=12 area=18982.12 material=S355J2 qty=8
		hole x=30 y=30 d=18
		hole x=170 y=30 d=18
		hole x=30 y=70 d=18
		hole x=170 y=70 d=18
		note code=section-view says=SCHNITT_A-A
		note code=section-view says=SCHNITT_B-B`)

	// A site plate with a north arrow, a level and signs of surfaces.
	p = newPaper("BORDER")
	p.frame(420, 297)
	p.titleAbove(420, []cell{{110, "TITLE", "SITE PLATE"}, {70, "DRAWING NUMBER", "AF-422"}}, []cell{{60, "MATERIAL", "S275JR"}, {60, "THICKNESS", "12"}, {60, "QTY", "4"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 60, 150, 200, 100)
	bolts(p.b, 18, 90, 180, 230, 180)
	p.b.Circle(350, 230, 15).Polyline(true, dxftest.V{X: 350, Y: 245}, dxftest.V{X: 344, Y: 218}, dxftest.V{X: 350, Y: 224}, dxftest.V{X: 356, Y: 218})
	for _, at := range [][2]float64{{120, 250}, {200, 250}, {320, 120}} {
		p.b.Polyline(true, dxftest.V{X: at[0], Y: at[1]}, dxftest.V{X: at[0] + 3, Y: at[1] + 5.2}, dxftest.V{X: at[0] - 3, Y: at[1] + 5.2})
	}
	p.b.Layer("TEXT").Text(348, 248, 5, "N").Text(326, 122, 3.5, "+4.200").Text(206, 254, 3.5, "Ra 25")
	p.across(60, 260, 150, -12, "")
	l.addSheet("sheet-a3-north-arrow", r2013, p.b, `
		plate w=200 h=100 t=12 material=S275JR qty=4
		hole x=30 y=30 d=18
		hole x=170 y=30 d=18
		note code=symbol-taken-out says=north_arrow
		note code=symbol-taken-out says=triangle`)
}
