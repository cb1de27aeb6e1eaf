package features_test

import "burrside/dxfread/dxftest"

// sheetCases are drawings as customers send them: a part in the frame of a
// sheet, with tables, views and notes about it.
func sheetCases() []sheetCase {
	return []sheetCase{
		{
			name: "A4 single line, title block in the corner",
			draw: func(p *pen) {
				p.frame(-30, -80, 297, 210)
				p.title(267, -80)
				p.plate(0, 0, 200, 100)
				p.dim(0, 0, 200, 0, -12)
				p.dim(0, 0, 0, 100, -12)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"},
		},
		{
			name: "A3 double line, ticks, zones, title block",
			draw: func(p *pen) {
				p.frame(-80, -120, 420, 297)
				p.frame(-70, -110, 400, 277)
				p.zones(-80, -120, 420, 297, 10)
				p.title(330, -110)
				p.plate(0, 0, 200, 100)
				p.text(0, -20, 5, "PL 10 mm S355J2")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"}, thickness: "10 text",
		},
		{
			name: "A3 double line without ticks",
			draw: func(p *pen) {
				p.frame(-80, -120, 420, 297)
				p.frame(-70, -110, 400, 277)
				p.title(330, -110)
				p.plate(0, 0, 200, 100)
				p.text(0, -20, 5, "PL 10 mm S355J2")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"}, thickness: "10 text",
		},
		{
			name: "frame of no standard size with texts beside the plate",
			draw: func(p *pen) {
				p.frame(-50, -70, 310, 230)
				p.plate(0, 0, 200, 100)
				p.text(20, -40, 5, "t = 8 mm")
				p.text(20, -50, 5, "all holes dia 14")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"}, thickness: "8 text",
		},
		{
			name: "A3 sheet with one text",
			draw: func(p *pen) {
				p.frame(-50, -70, 420, 297)
				p.plate(0, 0, 200, 100)
				p.text(20, -40, 5, "t = 8 mm")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"}, thickness: "8 text",
		},
		{
			name: "ANSI B double line without ticks, dimensions only",
			draw: func(p *pen) {
				p.frame(-50, -70, 431.8, 279.4)
				p.frame(-40, -60, 411.8, 259.4)
				p.plate(0, 0, 200, 100)
				p.dim(0, 0, 200, 0, -12)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"},
		},
		{
			name: "frame without a word, of no standard size",
			draw: func(p *pen) {
				p.frame(-50, -70, 310, 230)
				p.plate(0, 0, 200, 100)
			},
			parts:  []string{"200 x 100, 4 holes"},
			doubts: []string{"maybe-frame!"},
			skip:   []string{"frame layer"},
		},
		{
			name: "frame, title block drawn apart from it",
			draw: func(p *pen) {
				p.frame(-50, -100, 310, 260)
				p.grid(98, -98, []float64{25, 65, 25, 45}, 8, titleRows())
				p.plate(0, 0, 200, 100)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out", "table-taken-out"},
		},
		{
			name: "frame at 1:5",
			draw: func(p *pen) {
				p.frame(-250, -400, 2100, 1485)
				p.grid(1050, -400, []float64{125, 325, 125, 225}, 40, titleRows())
				p.plate(0, 0, 1000, 500)
				p.text(100, -100, 25, "PL 12 mm")
			},
			parts: []string{"1000 x 500, 4 holes"}, notes: []string{"border-taken-out"}, thickness: "12 text",
		},
		{
			name: "plain plate in a frame with a title block",
			draw: func(p *pen) {
				p.frame(-30, -80, 297, 210)
				p.title(267, -80)
				p.rect(0, 0, 200, 100)
			},
			parts: []string{"200 x 100, 0 holes"}, notes: []string{"border-taken-out"},
		},
		{
			name: "disc in a frame with a title block",
			draw: func(p *pen) {
				p.frame(-30, -80, 297, 210)
				p.title(267, -80)
				p.circle(60, 40, 100)
				p.circle(60, 40, 30)
				p.circle(60, 75, 14)
			},
			parts: []string{"100 x 100, 2 holes"}, notes: []string{"border-taken-out"},
		},
		{
			name: "two sheets side by side",
			draw: func(p *pen) {
				for i, w := range []float64{200, 180} {
					x := 320 * float64(i)
					p.frame(x-30, -80, 297, 210)
					p.title(x+267, -80)
					p.plate(x, 0, w, 100)
				}
			},
			parts: []string{"180 x 100, 4 holes", "200 x 100, 4 holes"}, notes: []string{"border-taken-out"},
		},
		{
			name: "hole table beside the plate",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.grid(230, 0, []float64{15, 20, 20, 20}, 7, [][]string{{"HOLE", "X", "Y", "DIA"}, {"A1", "25", "25", "14"}, {"A2", "175", "25", "14"}, {"A3", "25", "75", "14"}, {"A4", "175", "75", "14"}})
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"table-taken-out"},
		},
		{
			name: "parts list of two items over the title block",
			draw: func(p *pen) {
				p.frame(-30, -90, 420, 297)
				p.title(390, -90)
				p.grid(230, -58, []float64{15, 20, 65, 60}, 8, [][]string{{"2", "1", "PL 10 mm", "S355J2"}, {"1", "2", "PL 8 mm", "S235JR"}, {"ITEM", "QTY", "DESCRIPTION", "MATERIAL"}})
				p.plate(0, 0, 200, 100)
				p.plate(0, 120, 150, 70)
			},
			parts: []string{"150 x 70, 4 holes", "200 x 100, 4 holes"}, notes: []string{"border-taken-out", "text-not-tied"},
		},
		{
			name: "edge view with the thickness in a text",
			draw: func(p *pen) {
				p.frame(-30, -80, 297, 210)
				p.title(267, -80)
				p.plate(0, 0, 200, 100)
				p.rect(0, -20, 200, 7)
				p.text(0, -40, 5, "t = 7 mm")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out", "edge-view"}, thickness: "7 text",
		},
		{
			name: "edge view of a stock thickness",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.dim(0, 0, 200, 0, -12)
				p.rect(220, 0, 10, 100)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"edge-view"}, thickness: "10 view", doubts: []string{"maybe-edge-view!"},
		},
		{
			name: "edge view whose thickness is dimensioned",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.dim(0, 0, 200, 0, -12)
				p.rect(220, 0, 10, 100)
				p.dim(220, 0, 230, 0, -12)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"edge-view"}, thickness: "10 view",
		},
		{
			name: "two edge views of the same odd thickness",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(220, 0, 7.3, 100)
				p.rect(0, -30, 200, 7.3)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"edge-view"}, thickness: "7.3 view",
		},
		{
			name: "rectangle of an odd thickness beside the plate",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(220, 0, 7.3, 100)
			},
			parts: []string{"200 x 100, 4 holes", "7.3 x 100, 0 holes"}, notes: []string{"maybe-edge-view"},
		},
		{
			name: "flat bar with holes beside a plate",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(0, -40, 200, 20)
				p.circle(100, -30, 9)
			},
			parts: []string{"200 x 100, 4 holes", "200 x 20, 1 holes"},
		},
		{
			name: "marked flat bar beside a plate",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(0, -40, 200, 20)
				p.text(80, -34, 6, "P2")
			},
			parts: []string{"200 x 100, 4 holes", "200 x 20, 0 holes"},
		},
		{
			name: "edge view with hidden lines of the holes, continuous",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(0, -40, 200, 7.3)
				for _, x := range []float64{25, 175} {
					p.line(x-7, -40, x-7, -40+7.3)
					p.line(x+7, -40, x+7, -40+7.3)
				}
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"edge-view"}, thickness: "7.3 view",
		},
		{
			name: "edge view with dashed hidden lines",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(0, -40, 200, 7.3)
				p.b.Linetype("VERDECKT", 3, -1.5).UseLinetype("VERDECKT")
				for _, x := range []float64{25, 175} {
					p.line(x-7, -40, x-7, -40+7.3)
					p.line(x+7, -40, x+7, -40+7.3)
				}
				p.b.UseLinetype("")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"edge-view"}, thickness: "7.3 view",
		},
		{
			name: "flat bar of another thickness than the text says",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(0, -40, 200, 10)
				p.text(0, -60, 5, "ALL t = 6 mm")
			},
			parts: []string{"200 x 10, 0 holes", "200 x 100, 4 holes"}, notes: []string{"maybe-edge-view"}, thickness: "6 text",
		},
		{
			name: "plate of the size of a sheet with holes and a mark",
			draw: func(p *pen) {
				p.plate(0, 0, 420, 297)
				p.text(100, 100, 10, "P17")
			},
			parts: []string{"420 x 297, 4 holes"},
		},
		{
			name: "plate with windows, marked",
			draw: func(p *pen) {
				p.plate(0, 0, 420, 297)
				p.rect(60, 60, 120, 150)
				p.rect(240, 60, 120, 150)
				p.text(190, 20, 10, "PL 10 mm")
			},
			parts: []string{"420 x 297, 6 holes"}, thickness: "10 text",
		},
		{
			name: "plate with a window without holes, dimensioned",
			draw: func(p *pen) {
				p.rect(0, 0, 420, 297)
				p.rect(60, 60, 300, 150)
				p.dim(0, 0, 420, 0, -20)
				p.dim(60, 60, 360, 60, 10)
				p.text(10, 20, 10, "PL 10 mm")
			},
			parts: []string{"420 x 297, 1 holes"}, thickness: "10 text",
		},
		{
			name: "nest of marked plates on a stock sheet",
			draw: func(p *pen) {
				p.frame(-10, -10, 500, 400)
				p.plate(0, 0, 200, 100)
				p.plate(0, 120, 150, 70)
				p.plate(220, 0, 240, 180)
				p.text(80, 40, 10, "P1")
				p.text(60, 150, 10, "P2")
				p.text(300, 80, 10, "P3")
			},
			parts: []string{"150 x 70, 4 holes", "200 x 100, 4 holes", "240 x 180, 4 holes"}, notes: []string{"border-taken-out"}, doubts: []string{"maybe-frame"},
			skip: []string{"frame layer"},
		},
		{
			name: "plain marked plates on a sheet, or a plate with labelled openings",
			draw: func(p *pen) {
				p.frame(-10, -10, 500, 400)
				p.rect(0, 0, 200, 100)
				p.rect(0, 120, 150, 70)
				p.rect(220, 0, 240, 180)
				p.text(80, 40, 10, "P1")
				p.text(60, 150, 10, "P2")
				p.text(300, 80, 10, "P3")
			},
			parts: []string{"500 x 400, 3 holes"}, doubts: []string{"maybe-frame!"},
			skip: []string{"frame layer"},
		},
		{
			name: "tolerance table in the title block",
			draw: func(p *pen) {
				p.frame(-30, -80, 297, 210)
				p.title(267, -80)
				p.grid(-30, -80, []float64{20, 20}, 7, [][]string{{"over", "tolerance"}, {"0.5-6", "±0.1"}, {"6-30", "±0.2"}, {"30-120", "±0.3"}})
				p.plate(0, 0, 200, 100)
				p.text(0, -20, 5, "PL 10 mm S355J2")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"}, thickness: "10 text",
		},
		{
			name: "item balloons with leaders",
			draw: func(p *pen) {
				p.frame(-60, -80, 420, 297)
				p.title(360, -80)
				p.plate(0, 0, 200, 100)
				for i, y := range []float64{130, 150} {
					p.circle(250, y, 12)
					p.text(248, y-2, 4, string(rune('1'+i)))
					p.line(244, y, 150-20*float64(i), 60)
				}
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out", "symbol-taken-out"},
		},
		{
			name: "section letters in circles, no leader",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.dim(0, 0, 200, 0, -12)
				for _, x := range []float64{-20, 220} {
					p.circle(x, 50, 10)
					p.text(x-1.5, 48, 4, "A")
				}
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"symbol-taken-out"},
		},
		{
			name: "marked disc beside a plate",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.circle(280, 50, 100)
				p.text(270, 45, 10, "P2")
			},
			parts: []string{"100 x 100, 0 holes", "200 x 100, 4 holes"},
		},
		{
			name: "letters in the holes of a plate",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.circle(100, 50, 30)
				p.text(95, 45, 10, "B")
				for _, x := range []float64{25, 175} {
					p.text(x-2, 23, 5, "A")
				}
			},
			parts: []string{"200 x 100, 5 holes"},
		},
		{
			name: "note in a box",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(0, -40, 120, 12)
				p.text(3, -37, 5, "DEBURR ALL EDGES")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"symbol-taken-out"},
		},
		{
			name: "note of three lines in a box, in a frame",
			draw: func(p *pen) {
				p.frame(-60, -80, 420, 297)
				p.title(360, -80)
				p.plate(0, 0, 200, 100)
				p.rect(0, -50, 120, 30)
				p.text(3, -28, 5, "PLATE 8 mm THICK")
				p.text(3, -37, 5, "S355J2")
				p.text(3, -46, 5, "4 OFF")
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"symbol-taken-out"}, thickness: "8 text",
			skip: []string{"turned"}, // the texts stay level
		},
		{
			name: "datum letter in a box on a leader",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(95, -30, 8, 8)
				p.text(97, -28, 4, "A")
				p.line(99, -22, 99, 0)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"symbol-taken-out"},
		},
		{
			name: "tolerance frame of three cells",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.dim(0, 0, 200, 0, -12)
				p.grid(80, -40, []float64{8, 18, 8}, 8, [][]string{{"//", "0.2", "A"}})
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"table-taken-out"},
		},
		{
			name: "boxed mark that may be a flat bar",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(0, -60, 80, 15)
				p.text(5, -56, 8, "PL 15x80")
			},
			parts:  []string{"200 x 100, 4 holes", "80 x 15, 0 holes"},
			doubts: []string{"maybe-text-box!"}, thickness: "15 text",
			skip: []string{"turned", "inch"},
		},
		{
			name: "sign of the projection method beside the title block",
			draw: func(p *pen) {
				p.frame(-60, -80, 420, 297)
				p.title(360, -80)
				p.plate(0, 0, 200, 100)
				p.projection(300, 0)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out", "symbol-taken-out"},
		},
		{
			name: "sign of the projection method in a cell",
			draw: func(p *pen) {
				p.frame(-60, -80, 420, 297)
				p.title(360, -80)
				p.paperLine(160, -80, 160, -48)
				p.paperLine(160, -48, 200, -48)
				p.plate(0, 0, 200, 100)
				p.projection(180, -64)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"},
		},
		{
			name: "enlarged detail with its circles",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.circle(200, 50, 40)
				p.text(225, 55, 5, "X")
				p.text(270, 95, 5, "DETAIL X (2:1)")
				p.circle(300, 50, 80)
				p.line(300, 10, 300, 90)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"symbol-taken-out"},
		},
		{
			name: "plates of one common cut, each with a mark",
			draw: func(p *pen) {
				p.rect(0, 0, 300, 200)
				p.line(150, 0, 150, 200)
				p.line(0, 100, 150, 100)
				p.line(150, 100, 300, 100)
				p.text(60, 45, 10, "P1")
				p.text(210, 45, 10, "P2")
				p.text(60, 145, 10, "P3")
				p.text(210, 145, 10, "P4")
			},
			parts:  []string{"300 x 200, 0 holes"},
			doubts: []string{"line-unexplained!"},
		},
		{
			name: "revision table and a logo in the frame",
			draw: func(p *pen) {
				p.frame(-60, -80, 420, 297)
				p.title(360, -80)
				p.paperLine(250, 217, 250, 193)
				for _, y := range []float64{209, 201, 193} {
					p.paperLine(250, y, 360, y)
				}
				p.paperLine(270, 217, 270, 193)
				p.cells(250, 217, []float64{20, 90}, 8, [][]string{{"REV", "DESCRIPTION"}, {"A", "first issue"}, {"B", "hole moved"}})
				p.paperLine(160, -80, 160, -48)
				p.paperLine(160, -48, 200, -48)
				p.paper(func(b *dxftest.Builder) {
					x, y := p.at(180, -64)
					b.Arc(x, y, 8*p.n, 0, 180)
					p.lineOn(b, 172, -64, 188, -64)
				})
				p.plate(0, 0, 200, 100)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"},
		},
		{
			name: "strip beside a plate in a file for cutting",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(220, 0, 10, 100)
			},
			parts: []string{"10 x 100, 0 holes", "200 x 100, 4 holes"}, notes: []string{"maybe-edge-view"},
		},
		{
			name: "strip with its mark below it",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.rect(0, -60, 200, 15)
				p.text(80, -15, 6, "P1")
				p.text(80, -68, 6, "P2")
			},
			parts: []string{"200 x 100, 4 holes", "200 x 15, 0 holes"},
			skip:  []string{"turned"}, // the texts stay level
		},
		{
			name: "trimming marks outside the frame",
			draw: func(p *pen) {
				p.frame(-60, -80, 400, 277)
				p.title(340, -80)
				p.paper(func(b *dxftest.Builder) {
					for _, c := range [][2]float64{{-70, -90}, {345, -90}} {
						p.rectOn(b, c[0], c[1], 5, 5)
					}
				})
				p.plate(0, 0, 200, 100)
			},
			parts: []string{"200 x 100, 4 holes"}, notes: []string{"border-taken-out"},
		},
		{
			name: "nest of plain plates that differ, without a word",
			draw: func(p *pen) {
				p.frame(-10, -10, 500, 400)
				p.rect(0, 0, 200, 380)
				p.rect(210, 0, 270, 170)
				p.rect(210, 180, 270, 200)
			},
			parts: []string{"500 x 400, 3 holes"}, doubts: []string{"maybe-frame!"},
			skip: []string{"frame layer"},
		},
		{
			name: "grille of equal openings",
			draw: func(p *pen) {
				p.rect(0, 0, 420, 220)
				for i := range 4 {
					p.rect(10+102*float64(i), 10, 92, 200)
				}
			},
			parts: []string{"420 x 220, 4 holes"},
		},
		{
			name: "discs with a letter in a file for cutting",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				for _, x := range []float64{-20, 220} {
					p.circle(x, 50, 10)
					p.text(x-1.5, 48, 4, "A")
				}
			},
			parts: []string{"10 x 10, 0 holes, 2 times", "200 x 100, 4 holes"}, doubts: []string{"maybe-balloon!"},
		},
		{
			name: "marked disc with an extension line on it",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.circle(280, 50, 30)
				p.text(275, 46, 8, "P2")
				p.line(295, 50, 295, 0)
			},
			parts: []string{"200 x 100, 4 holes", "30 x 30, 0 holes"}, doubts: []string{"maybe-balloon!"},
		},
		{
			name: "part in the window of a marked plate",
			draw: func(p *pen) {
				p.rect(0, 0, 500, 400)
				p.rect(100, 100, 300, 200)
				p.plate(150, 150, 200, 100)
				p.text(30, 350, 10, "P1")
				p.text(30, 30, 10, "PL 10 mm")
			},
			parts: []string{"200 x 100, 4 holes", "500 x 400, 1 holes"}, doubts: []string{"maybe-frame!"}, thickness: "10 text",
		},
		{
			name: "name plates on common cuts beside a plate",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.grid(0, -80, []float64{60, 60}, 25, [][]string{{"FELL", "ROSS"}, {"HILL", "FORD"}})
			},
			parts:  []string{"120 x 50, 0 holes", "200 x 100, 4 holes"},
			doubts: []string{"line-unexplained!"},
			skip:   []string{"frame layer"},
		},
		{
			name: "marked plates on common cuts beside a dimensioned plate",
			draw: func(p *pen) {
				p.plate(0, 0, 200, 100)
				p.dim(0, 0, 200, 0, -12)
				p.grid(0, -80, []float64{60, 60}, 25, [][]string{{"P1", "P2"}, {"P3", "P4"}})
			},
			parts:  []string{"120 x 50, 0 holes", "200 x 100, 4 holes"},
			doubts: []string{"line-unexplained!"},
			skip:   []string{"frame layer"},
		},
		{
			name: "drilled plate with marked ones on common cuts",
			draw: func(p *pen) {
				p.rect(0, 0, 240, 125)
				p.line(0, 100, 240, 100)
				for i, m := range []string{"AB", "CD", "EF", "GH"} {
					if i > 0 {
						p.line(60*float64(i), 100, 60*float64(i), 125)
					}
					p.circle(30+60*float64(i), 40, 14)
					p.text(60*float64(i)+20, 107, 10, m)
				}
				p.rect(300, 0, 70, 70)
			},
			parts: []string{"240 x 125, 4 holes", "70 x 70, 0 holes"}, doubts: []string{"line-unexplained!"},
		},
	}
}
