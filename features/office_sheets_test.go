package features_test

import (
	"fmt"

	"burrside/dxfread/dxftest"
)

// newPaper starts a bordered sheet in millimetres, its corner at the origin.
func newPaper(layer string) *paper {
	return &paper{b: dxftest.New(dxftest.MM).Layer("PROFILE"), k: 1, layer: layer}
}

// officeSheets: bordered sheets with a part drawn at its true size.
func officeSheets(l *officeList) {
	// A4 across: a plan and its edge view, labels above the values.
	p := newPaper("BORDER")
	p.frame(297, 210)
	p.titleAbove(297,
		[]cell{{110, "TITLE", "DECK BRACKET PLATE"}, {70, "DRAWING NUMBER", "AF-101"}},
		[]cell{{60, "MATERIAL", "S275JR"}, {30, "QUANTITY", "4"}, {40, "SCALE", "1:1"}, {50, "DRAWN BY", "R. HOLM"}},
		[]cell{{180, "", "ALDER FORD FOOTBRIDGE WORKS"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 50, 95, 160, 90)
	legBox(p.b, 50, 70, 160, 10)
	bolts(p.b, 14, 70, 115, 190, 115, 70, 165, 190, 165)
	p.across(50, 210, 185, 8, "")
	p.up(210, 95, 185, 10, "")
	p.up(210, 70, 80, 10, "")
	l.addSheet("sheet-a4-plan-and-edge", r2010, p.b, `
		# The edge view is 10 high: the thickness.
		plate w=160 h=90 t=10 area=13784.25 material=S275JR qty=4
		hole x=20 y=20 d=14
		hole x=140 y=20 d=14
		hole x=20 y=70 d=14
		hole x=140 y=70 d=14`)

	// A3, German, labels left of the values, a detail twice as large.
	p = newPaper("RAHMEN")
	p.frame(420, 297)
	p.titleLeft(420, [2]string{"Benennung", "Stützenblech"}, [2]string{"Werkstoff", "S355J2"}, [2]string{"Dicke", "12"}, [2]string{"Stück", "2"}, [2]string{"Maßstab", "1:1"}, [2]string{"Zeichnungs-Nr.", "AF-102"})
	p.b.Layer("PROFILE")
	p.b.Polyline(true, dxftest.V{X: 40, Y: 120}, dxftest.V{X: 260, Y: 120}, dxftest.V{X: 260, Y: 240}, dxftest.V{X: 240, Y: 260}, dxftest.V{X: 40, Y: 260})
	p.b.Polyline(true, dxftest.Slot(90, 190, 18, 40)...).Polyline(true, dxftest.Slot(190, 190, 18, 40)...)
	p.b.Layer("DETAIL").Circle(250, 250, 22).Text(276, 262, 5, "X")
	p.b.Text(320, 250, 5, "EINZELHEIT X (2:1)")
	p.b.Polyline(false, dxftest.V{X: 385, Y: 170}, dxftest.V{X: 385, Y: 185}, dxftest.V{X: 345, Y: 225}, dxftest.V{X: 330, Y: 225})
	p.across(40, 260, 120, -10, "")
	p.up(40, 120, 260, -12, "")
	l.addSheet("sheet-a3-german-detail", r2018, p.b, `
		# The detail repeats the clipped corner of 20 x 20.
		plate w=220 h=140 t=12 area=29299.1 material=S355J2 qty=2
		slot x=50 y=70 w=18 l=40
		slot x=150 y=70 w=18 l=40
		clip long=20`)

	// ANSI B, inches: a hole table with tags beside the holes.
	p = &paper{b: dxftest.New(dxftest.Inch).Layer("PROFILE"), k: 1 / 25.4, layer: "BORDER"}
	p.frame(431.8, 279.4)
	p.titleLeft(431.8, [2]string{"TITLE", "TOE PLATE"}, [2]string{"MATERIAL", "ASTM A36"}, [2]string{"THICKNESS", "3/8"}, [2]string{"QTY", "6"}, [2]string{"SCALE", "1:1"}, [2]string{"DWG NO", "AF-103"})
	p.table(300, 180, 7, []float64{20, 25, 25, 30}, []string{"HOLE", "X", "Y", "SIZE"}, []string{"A1", "1.00", "1.00", "9/16"}, []string{"A2", "7.00", "1.00", "9/16"}, []string{"A3", "1.00", "4.00", "9/16"}, []string{"B1", "4.00", "2.50", "1 1/4"})
	p.b.Layer("PROFILE")
	legBox(p.b, 2, 4, 8, 5)
	bolts(p.b, 0.5625, 3, 5, 9, 5, 3, 8)
	bolts(p.b, 1.25, 6, 6.5)
	for i, xy := range [][2]float64{{3.4, 5.3}, {9.4, 5.3}, {3.4, 8.3}, {6.8, 7}} {
		p.b.Layer("TEXT").Text(xy[0], xy[1], 0.125, []string{"A1", "A2", "A3", "B1"}[i])
	}
	p.across(2, 10, 4, -0.5, "")
	p.up(2, 4, 9, -0.4, "")
	l.addSheet("sheet-ansi-b-hole-table", r2004, p.b, `
		# 8 x 5 in, 3/8 thick.
		plate w=203.2 h=127 t=9.525 material=A36 qty=6
		hole x=25.4 y=25.4 d=14.2875
		hole x=177.8 y=25.4 d=14.2875
		hole x=25.4 y=101.6 d=14.2875
		hole x=101.6 y=63.5 d=31.75`)

	// ANSI C, inches: two plates with balloons and a parts list.
	p = &paper{b: dxftest.New(dxftest.Inch).Layer("PROFILE"), k: 1 / 25.4, layer: "BORDER"}
	p.frame(558.8, 431.8)
	p.titleAbove(558.8, []cell{{110, "TITLE", "STAIR SUPPORT PLATES"}, {70, "DWG NO", "AF-104"}}, []cell{{90, "SCALE", "1:1"}, {90, "DATE", "MAY 4"}})
	p.table(368.8, 34, 8, []float64{20, 20, 80, 60}, []string{"ITEM", "QTY", "DESCRIPTION", "MATERIAL"}, []string{"1", "4", "PL 3/8 BASE PLATE", "A36"}, []string{"2", "2", "PL 1/2 CAP PLATE", "A572-50"})
	p.b.Layer("PROFILE")
	legBox(p.b, 2, 9, 7, 6)
	bolts(p.b, 0.8125, 3.5, 10.5, 7.5, 10.5, 3.5, 13.5, 7.5, 13.5)
	legBox(p.b, 12, 10, 6, 4)
	bolts(p.b, 0.9375, 13.5, 12, 16.5, 12)
	p.balloon(1.4, 16, 3, 14.5, "1")
	p.balloon(11.4, 15, 13, 13.5, "2")
	l.addSheet("sheet-ansi-c-parts-list", r2013, p.b, `
		plate w=177.8 h=152.4 t=9.525 material=A36 qty=4
		hole x=38.1 y=38.1 d=20.6375
		hole x=139.7 y=38.1 d=20.6375
		hole x=38.1 y=114.3 d=20.6375
		hole x=139.7 y=114.3 d=20.6375
		plate w=152.4 h=101.6 t=12.7 material=A572-50 qty=2
		hole x=38.1 y=50.8 d=23.8125
		hole x=114.3 y=50.8 d=23.8125`)

	// A4 upright, Polish: the plate is hatched, by a HATCH and by lines.
	p = newPaper("RAMKA")
	p.frame(210, 297)
	p.titleAbove(210, []cell{{110, "Nazwa", "Blacha węzłowa"}, {70, "Nr rysunku", "AF-105"}}, []cell{{60, "Materiał", "S235JR"}, {40, "Grubość", "8"}, {40, "Ilość", "10"}, {40, "Skala", "1:1"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 45, 120, 130, 120)
	bolts(p.b, 18, 75, 150, 145, 150)
	p.b.Raw("HATCH", "AcDbHatch", dxftest.Pair{Code: 10, Value: 0.0}, dxftest.Pair{Code: 20, Value: 0.0}, dxftest.Pair{Code: 30, Value: 0.0}, dxftest.Pair{Code: 2, Value: "ANSI31"}, dxftest.Pair{Code: 70, Value: 0}, dxftest.Pair{Code: 71, Value: 0}, dxftest.Pair{Code: 91, Value: 0})
	p.b.Layer("KRESKOWANIE")
	hatchLines(p.b, 45, 210, 130, 30, 6)
	p.across(45, 175, 120, -10, "")
	p.up(45, 120, 240, -10, "")
	l.addSheet("sheet-a4-polish-hatched", r2007, p.b, `
		plate w=130 h=120 t=8 material=S235JR qty=10
		hole x=30 y=30 d=18
		hole x=100 y=30 d=18`)

	// All of it on a layout of paper space.
	b := dxftest.New(dxftest.MM)
	b.Paper(func(b *dxftest.Builder) {
		p := &paper{b: b, k: 1, layer: "BORDER"}
		p.frame(297, 210)
		p.titleAbove(297, []cell{{110, "TITLE", "SHIM"}, {70, "DRAWING NUMBER", "AF-106"}}, []cell{{60, "MATERIAL", "S235JR"}, {60, "THICKNESS", "4 mm"}, {60, "QTY", "20"}})
		b.Layer("PROFILE")
		legBox(b, 60, 90, 100, 80)
		bolts(b, 11, 80, 110, 140, 150)
	})
	l.addSheet("sheet-paper-only", r2010, b, `
		plate w=100 h=80 t=4 material=S235JR qty=20
		hole x=20 y=20 d=11
		hole x=80 y=60 d=11
		note code=paper-space
		only as-drawn=yes`)

	// A3 with dimensions taken apart, stroked and filled arrows.
	p = newPaper("BORDER")
	p.frame(420, 297)
	p.titleAbove(420, []cell{{110, "TITLE", "SPLICE PLATE"}, {70, "DRAWING NUMBER", "AF-107"}}, []cell{{60, "MATERIAL", "S355J2"}, {40, "THICKNESS", "15"}, {40, "QTY", "8"}, {40, "SCALE", "1:1"}})
	p.b.Layer("PROFILE")
	legSides(p.b, 80, 120, 240, 110)
	bolts(p.b, 22, 120, 150, 200, 150, 280, 150, 120, 200, 200, 200, 280, 200)
	for _, x := range []float64{120, 200, 280} {
		centre(p.b, x, 150, 15)
		centre(p.b, x, 200, 15)
	}
	p.explodedAcross(80, 320, 120, -25, "240")
	p.explodedAcross(80, 120, 120, -15, "40")
	p.explodedAcross(120, 200, 120, -15, "80")
	p.explodedUp(80, 120, 230, -25, "110")
	p.explodedUp(80, 120, 150, -12, "30")
	l.addSheet("sheet-a3-exploded-dimensions", r2000, p.b, `
		plate w=240 h=110 t=15 material=S355J2 qty=8
		hole x=40 y=30 d=22
		hole x=120 y=30 d=22
		hole x=200 y=30 d=22
		hole x=40 y=80 d=22
		hole x=120 y=80 d=22
		hole x=200 y=80 d=22`)

	// R12, Spanish: the title block is a block with attributes.
	b = dxftest.New(dxftest.NoUnit).Layer("PERFIL")
	b.Block("CAJETIN", 0, 0, func(b *dxftest.Builder) {
		p := &paper{b: b, k: 1, layer: "CAJETIN"}
		p.frame(420, 297)
		p.titleAbove(420, []cell{{110, "DENOMINACION", ""}, {70, "PLANO", ""}}, []cell{{60, "MATERIAL", ""}, {40, "ESPESOR", ""}, {40, "CANTIDAD", ""}, {40, "ESCALA", ""}})
	})
	b.Layer("CAJETIN").Insert("CAJETIN", 0, 0, dxftest.Placing{Attributes: []dxftest.Attribute{
		{Tag: "DENOMINACION", Value: "CARTELA", X: 233, Y: 24.5, Height: 3.5}, {Tag: "PLANO", Value: "AF-108", X: 343, Y: 24.5, Height: 3.5},
		{Tag: "MATERIAL", Value: "S275JR", X: 233, Y: 12.5, Height: 3.5}, {Tag: "ESPESOR", Value: "10", X: 293, Y: 12.5, Height: 3.5}, {Tag: "CANTIDAD", Value: "5", X: 333, Y: 12.5, Height: 3.5}, {Tag: "ESCALA", Value: "1:1", X: 373, Y: 12.5, Height: 3.5}}})
	b.Layer("PERFIL").Polyline(true, dxftest.V{X: 90, Y: 90}, dxftest.V{X: 290, Y: 90}, dxftest.V{X: 290, Y: 130}, dxftest.V{X: 130, Y: 250}, dxftest.V{X: 90, Y: 250})
	bolts(b, 18, 120, 120, 250, 115, 115, 220)
	b.Text(60, 60, 3.5, "COTAS EN mm")
	l.addSheet("sheet-a3-spanish-attributes", r12, b, `
		# A gusset: 200 x 160, its slope from (200,40) to (40,160). The slope takes a
		# corner of 160 x 120.
		plate w=200 h=160 t=10 area=21636.59 material=S275JR qty=5
		hole x=30 y=30 d=18
		hole x=160 y=25 d=18
		hole x=25 y=130 d=18
		clip`)

	// A4 upright: a flange with its section hatched beside it, the projection
	// sign, and the label in the cell of its value.
	p = newPaper("BORDER")
	p.frame(210, 297)
	p.table(20, 10, 10, []float64{60, 60, 60}, []string{"PART: BASE RING", "DWG: AF-109", "REV: B"}, []string{"MATERIAL: S275JR", "THICKNESS: 16 mm", "QTY: 3"})
	p.b.Layer("PROFILE").Circle(95, 190, 60).Circle(95, 190, 25)
	for _, xy := range [][2]float64{{137.5, 190}, {95, 232.5}, {52.5, 190}, {95, 147.5}} {
		p.b.Circle(xy[0], xy[1], 7)
	}
	centre(p.b, 95, 190, 66)
	p.b.Linetype("CENTER", 10, -2, 2, -2).Layer("CENTRE").Circle(95, 190, 42.5).Layer("PROFILE")
	legSides(p.b, 170, 130, 16, 120)
	p.b.Line(170, 165, 186, 165).Line(170, 215, 186, 215)
	p.b.Layer("HATCH")
	hatchLines(p.b, 170, 130, 16, 35, 4)
	hatchLines(p.b, 170, 215, 16, 35, 4)
	p.b.Layer("TEXT").Text(164, 258, 4, "SECTION A-A")
	l.addSheet("sheet-a4-flange-section", r2018, p.b, `
		# A ring of 120 outside, 50 inside, four holes on 85.
		plate w=120 h=120 t=16 area=8730.53 material=S275JR qty=3
		hole x=60 y=60 d=50
		hole x=102.5 y=60 d=14
		hole x=60 y=102.5 d=14
		hole x=17.5 y=60 d=14
		hole x=60 y=17.5 d=14`)

	// ANSI A, inches: notes say what the title block does not; revisions.
	p = &paper{b: dxftest.New(dxftest.Inch).Layer("PROFILE"), k: 1 / 25.4, layer: "BORDER"}
	p.frame(279.4, 215.9)
	p.titleAbove(279.4, []cell{{110, "TITLE", "KICK PLATE"}, {70, "DWG NO", "AF-110"}}, []cell{{90, "DRAWN", "R. HOLM"}, {90, "SHEET", "1 OF 1"}})
	p.table(159.4, 191.9, 7, []float64{20, 70, 20}, []string{"REV", "DESCRIPTION", "DATE"}, []string{"A", "HOLES MOVED", "MAY 4"})
	for i, s := range []string{"NOTES:", "1. MATERIAL: 1/4 IN A36 PLATE.", "2. BREAK ALL EDGES.", "3. QTY 12 REQUIRED."} {
		p.text(26, 52-6*float64(i), 2.5, s)
	}
	p.b.Layer("PROFILE")
	legBox(p.b, 2, 3.5, 6, 3)
	bolts(p.b, 0.4375, 2.75, 4.25, 7.25, 4.25)
	p.across(2, 8, 3.5, -0.4, "")
	l.addSheet("sheet-ansi-a-notes", r2007, p.b, `
		plate w=152.4 h=76.2 t=6.35 material=A36 qty=12
		hole x=19.05 y=19.05 d=11.1125
		hole x=133.35 y=19.05 d=11.1125`)

	// A3, Italian: an angle with its end view, in the title block its profile.
	p = newPaper("CORNICE")
	p.frame(420, 297)
	p.titleAbove(420, []cell{{110, "DENOMINAZIONE", "SQUADRETTA"}, {70, "DISEGNO N.", "AF-111"}}, []cell{{50, "PROFILO", "L80x60x7"}, {40, "MATERIALE", "S235JR"}, {30, "QUANTITÀ", "14"}, {60, "PROIEZIONE", "TERZO DIEDRO"}})
	p.b.Layer("PROFILE")
	plainViews(p.b, 60, 90, 220, 80, 60, 7, 18, [][2]float64{{30, 45}, {80, 45}}, [][2]float64{{150, 35}})
	endView(p.b, 320, 190, 60, 80, 7, 8, 4)
	p.across(60, 280, 270, 8, "")
	p.up(60, 190, 270, -8, "")
	l.addSheet("sheet-a3-angle-italian", r2010, p.b, `
		angle a=80 b=60 t=7 length=220 section=L80x60x7 kg=7.36 root=8 from=two_views hand=as-drawn-third material=S235JR qty=14
		hole leg=a heel=45 start=30 d=18
		hole leg=a heel=45 start=80 d=18
		hole leg=b heel=35 start=150 d=18`)
}

// officeScaled: sheets with a view that is drawn smaller than the part.
func officeScaled(l *officeList) {
	// A2, French: drawn at 1:2, all dimensions with the true sizes, a section.
	p := newPaper("CADRE")
	p.frame(594, 420)
	p.titleAbove(594, []cell{{110, "DÉSIGNATION", "PLATINE"}, {70, "N° DE PLAN", "AF-201"}}, []cell{{60, "MATIÈRE", "S235JR"}, {40, "ÉPAISSEUR", "12"}, {40, "QTÉ", "2"}, {40, "ÉCHELLE", "1:2"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 80, 180, 300, 150)
	bolts(p.b, 13, 110, 210, 350, 210, 110, 300, 350, 300)
	p.b.Polyline(true, dxftest.Rect(80, 130, 300, 6)...)
	p.b.Layer("HATCH")
	hatchLines(p.b, 80, 130, 300, 6, 5)
	p.b.Layer("TEXT").Text(200, 145, 5, "COUPE A-A")
	p.across(80, 380, 330, 12, "600")
	p.across(80, 110, 330, 6, "60")
	p.up(380, 180, 330, 12, "300")
	p.up(80, 180, 210, -8, "60")
	l.addSheet("sheet-a2-french-half", r2013, p.b, `
		# 300 x 150 drawn, 600 x 300 dimensioned; holes of 13 drawn are 26.
		plate w=600 h=300 t=12 material=S235JR qty=2
		hole x=60 y=60 d=26
		hole x=540 y=60 d=26
		hole x=60 y=240 d=26
		hole x=540 y=240 d=26
		note code=view-scale`)

	// A1 at 1:5.
	p = newPaper("BORDER")
	p.frame(841, 594)
	p.titleAbove(841, []cell{{110, "TITLE", "ABUTMENT BEARING PLATE"}, {70, "DRAWING NUMBER", "AF-202"}}, []cell{{60, "MATERIAL", "S355J2"}, {40, "THICKNESS", "40"}, {40, "QTY", "2"}, {40, "SCALE", "1:5"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 150, 250, 300, 160)
	bolts(p.b, 9, 170, 270, 430, 270, 170, 390, 430, 390)
	p.across(150, 450, 410, 15, "1500")
	p.up(450, 250, 410, 15, "800")
	p.across(150, 170, 250, -10, "100")
	l.addSheet("sheet-a1-fifth", r2010, p.b, `
		# 300 x 160 drawn.
		plate w=1500 h=800 t=40 material=S355J2 qty=2
		hole x=100 y=100 d=45
		hole x=1400 y=100 d=45
		hole x=100 y=700 d=45
		hole x=1400 y=700 d=45
		note code=view-scale`)

	// One dimension says twice what is drawn, the other what is drawn: nobody
	// may make the plate larger for it.
	p = newPaper("BORDER")
	p.frame(297, 210)
	p.titleAbove(297, []cell{{110, "TITLE", "COVER"}, {70, "DRAWING NUMBER", "AF-203"}}, []cell{{60, "MATERIAL", "S235JR"}, {60, "THICKNESS", "6"}, {60, "QTY", "1"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 70, 90, 120, 80)
	bolts(p.b, 11, 90, 110, 170, 150)
	p.across(70, 190, 170, 10, "240")
	p.up(190, 90, 170, 10, "")
	l.addSheet("sheet-one-true-dimension", r2018, p.b, `
		plate w=120 h=80 t=6 material=S235JR
		hole x=20 y=20 d=11
		hole x=100 y=60 d=11
		doubt grave=yes says=240
		may-doubt
		no-note code=view-scale
		verdict is=cannot-tell`)
	// The same with that one dimension alone.
	p = newPaper("BORDER")
	p.frame(297, 210)
	p.titleAbove(297, []cell{{110, "TITLE", "COVER"}, {70, "DRAWING NUMBER", "AF-204"}}, []cell{{60, "MATERIAL", "S235JR"}, {60, "THICKNESS", "6"}, {60, "QTY", "1"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 70, 90, 120, 80)
	bolts(p.b, 11, 90, 110, 170, 150)
	p.across(70, 190, 170, 10, "240")
	l.addSheet("sheet-only-dimension-untrue", r2004, p.b, `
		plate w=120 h=80 t=6 material=S235JR
		hole x=20 y=20 d=11
		hole x=100 y=60 d=11
		doubt grave=yes says=240
		may-doubt
		no-note code=view-scale
		verdict is=cannot-tell`)

	// The whole sheet enlarged ten times about a part of true size.
	p = newPaper("BORDER")
	p.k, p.x, p.y = 10, -400, -900
	p.frame(420, 297)
	p.titleAbove(420, []cell{{110, "TITLE", "WEB SPLICE"}, {70, "DRAWING NUMBER", "AF-205"}}, []cell{{60, "MATERIAL", "S355J2"}, {40, "THICKNESS", "20"}, {40, "QTY", "4"}, {40, "SCALE", "1:10"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 0, 0, 2400, 600)
	for i := range 8 {
		bolts(p.b, 26, 150+300*float64(i), 100, 150+300*float64(i), 500)
	}
	p.across(0, 2400, 600, 150, "")
	p.up(0, 0, 600, -150, "")
	want := "# A0 would not hold it: the paper is 1:10, the part 1:1.\nplate w=2400 h=600 t=20 material=S355J2 qty=4"
	for i := range 8 {
		want += fmt.Sprintf("\nhole x=%d y=100 d=26\nhole x=%d y=500 d=26", 150+300*i, 150+300*i)
	}
	l.addSheet("sheet-plotted-tenth", r2007, p.b, want+"\nno-note code=view-scale")

	// A plate at 1:1 and another at 1:2 on one sheet.
	p = newPaper("BORDER")
	p.frame(420, 297)
	p.titleAbove(420, []cell{{110, "TITLE", "FIN PLATE AND CAP"}, {70, "DRAWING NUMBER", "AF-206"}}, []cell{{60, "MATERIAL", "S275JR"}, {60, "THICKNESS", "10"}, {60, "SCALE", "1:1, 1:2"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 50, 90, 100, 160)
	bolts(p.b, 18, 90, 120, 90, 170, 90, 220)
	legBox(p.b, 220, 130, 140, 100)
	bolts(p.b, 13, 240, 150, 340, 150, 240, 210, 340, 210)
	p.across(50, 150, 250, 10, "")
	p.up(50, 90, 250, -10, "")
	p.up(50, 90, 120, -5, "")
	p.across(220, 360, 230, 10, "280")
	p.up(360, 130, 230, 10, "200")
	p.across(220, 240, 130, -8, "40")
	p.b.Layer("TEXT").Text(250, 105, 4, "CAP - SCALE 1:2").Text(60, 70, 4, "FIN PLATE")
	l.addSheet("sheet-two-scales", r2000, p.b, `
		plate w=100 h=160 t=10 material=S275JR
		hole x=40 y=30 d=18
		hole x=40 y=80 d=18
		hole x=40 y=130 d=18
		plate w=280 h=200 t=10 material=S275JR
		hole x=40 y=40 d=26
		hole x=240 y=40 d=26
		hole x=40 y=160 d=26
		hole x=240 y=160 d=26
		note code=view-scale`)

	// An angle at 1:2 with true dimensions.
	p = newPaper("BORDER")
	p.frame(594, 420)
	p.titleAbove(594, []cell{{110, "TITLE", "CORBEL ANGLE"}, {70, "DRAWING NUMBER", "AF-207"}}, []cell{{60, "SECTION", "L100x100x10"}, {40, "MATERIAL", "S275JR"}, {40, "QTY", "6"}, {40, "SCALE", "1:2"}})
	p.b.Layer("PROFILE")
	plainViews(p.b, 80, 200, 400, 50, 50, 5, 11, [][2]float64{{30, 27.5}, {370, 27.5}}, [][2]float64{{200, 27.5}})
	p.across(80, 480, 340, 12, "800")
	p.up(80, 290, 340, -12, "100")
	p.up(80, 200, 250, -12, "100")
	l.addSheet("sheet-angle-half", r2018, p.b, `
		# 400 x 50 x 5 drawn.
		angle a=100 b=100 t=10 length=800 section=L100x100x10 kg=15 root=12 from=two_views hand=none material=S275JR qty=6
		hole leg=a heel=55 start=60 d=22
		hole leg=a heel=55 start=740 d=22
		hole leg=b heel=55 start=400 d=22
		note code=view-scale`)
}
