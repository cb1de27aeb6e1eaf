package features_test

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
	}
}
