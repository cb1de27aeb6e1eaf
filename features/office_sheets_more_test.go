package features_test

import (
	"fmt"

	"burrside/dxfread/dxftest"
)

// pictured is a dimension with the block that holds its picture, as drawing
// programs write it.
func (p *paper) pictured(n int, x1, x2, y, off float64) {
	name := fmt.Sprintf("*D%d", n)
	p.b.Block(name, 0, 0, func(b *dxftest.Builder) {
		q := &paper{b: b, k: p.k, layer: p.layer}
		q.explodedAcross(x1, x2, y, off, fmt.Sprintf("%g", x2-x1))
	})
	type P = dxftest.Pair
	p.b.Layer("DIM").Raw("DIMENSION", "AcDbDimension", P{Code: 2, Value: name}, P{Code: 10, Value: x2}, P{Code: 20, Value: y + off}, P{Code: 30, Value: 0.0},
		P{Code: 11, Value: (x1 + x2) / 2}, P{Code: 21, Value: y + off}, P{Code: 31, Value: 0.0}, P{Code: 70, Value: 32}, P{Code: 42, Value: x2 - x1}, P{Code: 3, Value: "STANDARD"},
		P{Code: 100, Value: "AcDbAlignedDimension"}, P{Code: 13, Value: x1}, P{Code: 23, Value: y}, P{Code: 33, Value: 0.0}, P{Code: 14, Value: x2}, P{Code: 24, Value: y}, P{Code: 34, Value: 0.0},
		P{Code: 50, Value: 0.0}, P{Code: 100, Value: "AcDbRotatedDimension"})
}

// officeMoreSheets: sheets with more on them than one part.
func officeMoreSheets(l *officeList) {
	// Two sheets beside each other, each with a title block of its own.
	p := newPaper("BORDER")
	for i, s := range [2][3]string{{"BASE PLATE", "S275JR", "12"}, {"CAP PLATE", "S355J2", "20"}} {
		p.x = 320 * float64(i)
		p.frame(297, 210)
		p.titleAbove(297, []cell{{110, "TITLE", s[0]}, {70, "DRAWING NUMBER", fmt.Sprintf("AF-40%d", i+1)}}, []cell{{60, "MATERIAL", s[1]}, {60, "THICKNESS", s[2]}, {60, "QTY", fmt.Sprint(2 + 2*i)}})
		p.b.Layer("PROFILE")
	}
	legBox(p.b, 60, 90, 180, 90)
	bolts(p.b, 18, 90, 135, 210, 135)
	legBox(p.b, 390, 90, 150, 80)
	bolts(p.b, 22, 420, 130, 510, 130)
	l.addSheet("sheets-two-side-by-side", r2013, p.b, `
		# What a title block says holds for its own sheet.
		plate w=180 h=90 t=12 material=S275JR qty=2
		hole x=30 y=45 d=18
		hole x=150 y=45 d=18
		plate w=150 h=80 t=20 material=S355J2 qty=4
		hole x=30 y=40 d=22
		hole x=120 y=40 d=22`)

	// Dimensions with pictures; then a stamp; then a cloud round a change with its
	// triangle.
	hinge := func(number string) *paper {
		p := newPaper("BORDER")
		p.frame(420, 297)
		p.titleAbove(420, []cell{{110, "TITLE", "HINGE PLATE"}, {70, "DRAWING NUMBER", number}}, []cell{{60, "MATERIAL", "S355J2"}, {60, "THICKNESS", "15 mm"}, {60, "QTY", "2"}})
		p.b.Layer("PROFILE")
		legBox(p.b, 90, 120, 200, 120)
		bolts(p.b, 26, 130, 180, 250, 180)
		p.pictured(1, 90, 290, 240, 20)
		p.pictured(2, 90, 130, 240, 10)
		p.pictured(3, 130, 250, 120, -12)
		return p
	}
	hinged := `
		plate w=200 h=120 t=15 material=S355J2 qty=2
		hole x=40 y=60 d=26
		hole x=160 y=60 d=26`
	l.addSheet("sheet-a3-dimension-pictures", r2018, hinge("AF-403").b, hinged)
	p = hinge("AF-407")
	p.b.Layer("STAMP").Circle(60, 60, 18).Circle(60, 60, 14).Text(48, 58, 4, "CHECKED")
	l.addSheet("sheet-a3-stamp", r2010, p.b, hinged)
	p = hinge("AF-408")
	p.b.Layer("REVISION")
	for i := range 6 {
		x := 320 + 8*float64(i)
		p.b.Arc(x+4, 200, 4, 0, 180).Arc(x+4, 180, 4, 180, 360)
	}
	p.b.Arc(320, 190, 10, 90, 270).Arc(368, 190, 10, -90, 90)
	p.b.Text(325, 187, 5, "26 WAS 22")
	p.b.Polyline(true, dxftest.V{X: 385, Y: 185}, dxftest.V{X: 395, Y: 185}, dxftest.V{X: 390, Y: 193.66}).Text(388.5, 186.5, 3, "A")
	l.addSheet("sheet-a3-revision-cloud", r2018, p.b, hinged)

	// The hole table says another size than is drawn for B1.
	p = &paper{b: dxftest.New(dxftest.Inch).Layer("PROFILE"), k: 1 / 25.4, layer: "BORDER"}
	p.frame(431.8, 279.4)
	p.titleLeft(431.8, [2]string{"TITLE", "TOE PLATE"}, [2]string{"MATERIAL", "ASTM A36"}, [2]string{"THICKNESS", "3/8"}, [2]string{"QTY", "6"})
	p.table(300, 180, 7, []float64{20, 25, 25, 30}, []string{"HOLE", "X", "Y", "DIA"}, []string{"A1", "1.00", "1.00", "9/16"}, []string{"A2", "7.00", "1.00", "9/16"}, []string{"B1", "4.00", "2.50", "1 1/4"})
	p.b.Layer("PROFILE")
	legBox(p.b, 2, 4, 8, 5)
	bolts(p.b, 0.5625, 3, 5, 9, 5)
	bolts(p.b, 1.5, 6, 6.5)
	for i, xy := range [][2]float64{{3.4, 5.3}, {9.4, 5.3}, {6.9, 7}} {
		p.b.Layer("TEXT").Text(xy[0], xy[1], 0.125, []string{"A1", "A2", "B1"}[i])
	}
	l.addSheet("sheet-hole-table-disagrees", r2010, p.b, `
		plate w=203.2 h=127 t=9.525 material=A36 qty=6
		hole x=25.4 y=25.4 d=14.2875
		hole x=177.8 y=25.4 d=14.2875
		hole x=101.6 y=63.5 d=38.1
		doubt grave=yes says=B1
		may-doubt
		verdict is=cannot-tell`)

	// A detail drawn whole: the notched corner at 2:1, closed by a break line.
	p = newPaper("BORDER")
	p.frame(420, 297)
	p.titleAbove(420, []cell{{110, "TITLE", "NOTCHED RIB"}, {70, "DRAWING NUMBER", "AF-405"}}, []cell{{50, "MATERIAL", "S275JR"}, {40, "THICKNESS", "8"}, {40, "QTY", "6"}, {50, "SCALE", "1:1"}})
	p.b.Layer("PROFILE")
	p.b.Polyline(true, dxftest.V{X: 50, Y: 110}, dxftest.V{X: 210, Y: 110}, dxftest.V{X: 210, Y: 230}, dxftest.V{X: 80, Y: 230}, dxftest.V{X: 80, Y: 210}, dxftest.V{X: 50, Y: 210})
	bolts(p.b, 14, 180, 140)
	p.b.Layer("DETAIL").Circle(70, 217, 30).Text(104, 240, 5, "B").Layer("PROFILE")
	p.b.Polyline(true, dxftest.V{X: 290, Y: 160}, dxftest.V{X: 370, Y: 160}, dxftest.V{X: 370, Y: 240}, dxftest.V{X: 350, Y: 240}, dxftest.V{X: 350, Y: 200}, dxftest.V{X: 290, Y: 200})
	p.b.Layer("TEXT").Text(300, 145, 5, "DETAIL B (2:1)")
	p.across(50, 210, 110, -10, "")
	l.addSheet("sheet-a3-closed-detail", r2007, p.b, `
		# The corner notch of 30 x 20 again, twice as large, is no part.
		plate w=160 h=120 t=8 material=S275JR qty=6
		hole x=130 y=30 d=14
		notch shape=corner long=30 short=20`)

	// Plan, edge view and section at 1:2, the thickness dimensioned too.
	p = newPaper("BORDER")
	p.frame(420, 297)
	p.titleAbove(420, []cell{{110, "TITLE", "BEARING PAD"}, {70, "DRAWING NUMBER", "AF-406"}}, []cell{{70, "MATERIAL", "S355J2"}, {50, "QTY", "4"}, {60, "SCALE", "1:2"}})
	p.b.Layer("PROFILE")
	legBox(p.b, 60, 140, 200, 110)
	bolts(p.b, 13, 80, 160, 240, 160, 80, 230, 240, 230)
	legBox(p.b, 60, 100, 200, 10)
	p.across(60, 260, 250, 12, "400")
	p.up(60, 140, 250, -12, "220")
	p.up(260, 100, 110, 12, "20")
	p.across(60, 80, 250, 6, "40")
	l.addSheet("sheet-a3-half-edge-view", r2000, p.b, `
		# 200 x 110 x 10 drawn.
		plate w=400 h=220 t=20 material=S355J2 qty=4
		hole x=40 y=40 d=26
		hole x=360 y=40 d=26
		hole x=40 y=180 d=26
		hole x=360 y=180 d=26
		note code=view-scale`)
}
