package check_test

import (
	"burrside/dxfread/dxftest"
)

// drawnTexts lists the drawings whose texts and dimensions are looked at.
func drawnTexts() []drawing {
	var out []drawing
	add := func(rule, name string, b *dxftest.Builder) { out = append(out, drawing{rule: rule, name: name, b: b}) }
	two := []at{{60, 70}, {140, 70}}
	// A plate 200 x 140 x 10 of S275 with two holes and a dimension along it.
	dimensioned := func(typed string) *dxftest.Builder {
		return holes(plate(200, 140, "10"), 22, two...).Dimension(0, 0, 200, 0, 100, -30, 0, 200, typed)
	}
	for name, typed := range map[string]string{
		"bad-dim-about": "~400", "bad-dim-typ": "TYP 400", "bad-dim-label": "L=400", "bad-dim-brackets": "(400)", "bad-dim-spaces": "4X 60", "bad-dim-sum": "4x50=210",
		"bad-dim-thousands": "1 500", "bad-dim-two-units": "250 [9.84]", "bad-dim-max": "MAX 150", "bad-dim-varies": "VARIES", "bad-dim-letter": "A", "bad-dim-german": "Länge 400",
	} {
		add("reading-doubt", name, dimensioned(typed).Want(100, 0, 0.1, "reading-doubt severity=warning"))
	}
	for name, typed := range map[string]string{
		"ok-dim-spaces": "4X 50", "ok-dim-sum": "4x50=200", "ok-dim-brackets": "(200)", "ok-dim-about": "~198", "ok-dim-two-units": "200 [7.87]", "ok-dim-inches": "7.87 [200]", "ok-dim-at": "4 @ 50", "ok-dim-label": "L = 200 mm", "ok-dim-measured": "<> TYP", "ok-dim-most": "205 MAX",
	} {
		add("reading-doubt", name, dimensioned(typed))
	}
	add("reading-doubt", "bad-dim-minus", dimensioned("400-0.5").Want(100, 0, 0.1, "reading-doubt severity=warning").Want(100, 0, 0.1, "tolerance severity=warning"))
	add("reading-doubt", "bad-dim-near", dimensioned("200.4").Want(100, 0, 0.1, "reading-doubt severity=note"))
	add("reading-doubt", "bad-dim-unread", dimensioned("SEE DETAIL 4").Want(100, 0, 0.1, "reading-doubt severity=note"))
	add("reading-doubt", "ok-dim-thousands", holes(plate(1500, 140, "10"), 22, two...).Dimension(0, 0, 1500, 0, 100, -30, 0, 1500, "1 500"))
	// To the sharp corner that a radius took away.
	add("reading-doubt", "ok-dim-sharp", holes(sheetOf("10", "S275").Polyline(true, dxftest.V{}, dxftest.V{X: 200}, dxftest.V{X: 200, Y: 90}, dxftest.V{X: 150, Y: 140}, dxftest.V{Y: 140}), 22, two...).
		Dimension(0, 140, 200, 140, 100, 170, 0, 200, "200"))

	noted := func(text string) *dxftest.Builder {
		return plate(200, 140, "10").Layer("NOTES").Text(60, 200, 5, text).Layer("CUT")
	}
	// Read after the notes beside the plate, so that the doubt stands there.
	below := func(text string) *dxftest.Builder {
		return plate(200, 140, "10").Layer("NOTES").Text(60, -60, 5, text).Layer("CUT")
	}
	add("reading-doubt", "bad-all-holes", holes(noted("ALL HOLES %%c22"), 22, two...).Circle(100, 100, 9).Want(60, 200, 0.1, "reading-doubt severity=warning got=18 limit=22"))
	add("reading-doubt", "ok-all-holes", holes(noted("ALL HOLES %%c22 U.N.O.").Layer("NOTES").Text(60, 180, 5, "%%c18").Layer("CUT"), 22, two...).Circle(100, 100, 9))
	for name, text := range map[string]string{"bad-wear": "WEAR PLATE", "bad-brinell": "HB450", "bad-verschleiss": "Verschlei\u00dfblech", "bad-abrasion": "ABRASION RESISTANT STEEL", "bad-make": "MATERIAL: S275 ABCDEF 450", "bad-other-grade": "S355J2", "bad-or": "t = 10 OR t = 12", "bad-two-notes": "PL 12"} {
		add("reading-doubt", name, holes(below(text), 22, two...).Want(60, -60, 0.1, "reading-doubt severity=warning"))
	}
	for name, text := range map[string]string{"ok-general": "ALL PLATES 12 THK UNLESS NOTED", "ok-number": "1.0044", "ok-quality": "S275JR", "ok-two-units": "PL 10 mm (0.394\")", "ok-galvanised": "HOT DIP GALVANISED 85 um THK", "ok-scale": "SCALE 1:5, DO NOT SCALE", "ok-title": "DRG NO. 1234-10 REV 3 SHEET 2 OF 4"} {
		add("reading-doubt", name, holes(noted(text), 22, two...))
	}
	arrow := func(b *dxftest.Builder, x1, y1, x2, y2 float64) *dxftest.Builder {
		p := func(code int, v any) dxftest.Pair { return dxftest.Pair{Code: code, Value: v} }
		return b.Raw("LEADER", "AcDbLeader", p(3, "STANDARD"), p(71, 1), p(76, 2), p(10, x1), p(20, y1), p(30, 0.0), p(10, x2), p(20, y2), p(30, 0.0))
	}
	add("reading-doubt", "bad-pointed", arrow(holes(noted("%%c22"), 22, two...).Circle(100, 100, 9), 100, 109, 70, 196).Want(100, 100, 0.1, "reading-doubt severity=warning"))
	add("reading-doubt", "ok-pointed", arrow(holes(noted("%%c22"), 22, two...).Circle(100, 100, 9), 60, 81, 70, 196))
	// The formatting codes of a paragraph: fonts, stacks, lines.
	add("reading-doubt", "ok-paragraph", holes(sheetOf("", "").Layer("NOTES").MText(-150, 40, 5, `{\fArial|b0;t = 10 mm}\P\H0.7x;S275JR\P{\C1;2x} %%c22\PPL 10 x 140 x 200`).Layer("CUT").Polyline(true, dxftest.Rect(0, 0, 200, 140)...), 22, two...))
	add("reading-doubt", "bad-stack", holes(noted("-").Layer("NOTES").MText(60, 180, 5, `2 HOLES \S11/16; DIA`).Layer("CUT"), 22, two...).Want(60, 180, 0.1, "reading-doubt severity=warning got=22 limit=17.4625"))

	for name, text := range map[string]string{"bad-release": "NOT FOR MANUFACTURE", "bad-hold": "PRELIMINARY", "bad-scale": "NTS", "bad-bend": "BEND 90 DEG UP", "bad-bevel": "BEVEL 30 DEG FOR WELD", "bad-sink": "COUNTERSINK HOLES", "bad-machine": "MACHINE ALL OVER", "bad-heat": "CASE HARDEN 0.5 DEEP", "bad-laser": "LASER CUT", "bad-hand": "1 AS SHOWN 1 OPP HAND", "bad-fase": "Fase 5x45%%d"} {
		add("note-asks", name, holes(noted(text), 22, two...).Want(60, 200, 0.1, "note-asks severity=warning"))
	}
	for name, text := range map[string]string{"bad-weld": "6 mm FILLET WELD", "bad-throat": "a4", "bad-finish": "Ra 6.3"} {
		add("note-asks", name, holes(noted(text), 22, two...).Want(60, 200, 0.1, "note-asks severity=note"))
	}
	add("note-asks", "bad-flatness", holes(noted("FLATNESS 0.5"), 22, two...).Want(60, 200, 0.1, "note-asks severity=warning"))
	add("note-asks", "bad-bolt", holes(noted("M24 BOLTS"), 22, two...).Want(60, 200, 0.1, "note-asks severity=warning got=22 limit=24"))
	for name, text := range map[string]string{"ok-deburr": "REMOVE ALL BURRS AND SHARP EDGES", "ok-bolt": "4 M20 BOLTS", "ok-approval": "ISSUED FOR APPROVAL", "ok-zinc": "HOT DIP GALVANISE", "ok-edges": "alle Kanten gebrochen", "ok-general": "CHAMFERS 1x45%%d UNLESS NOTED", "ok-scale": "SCALE 1:5"} {
		add("note-asks", name, holes(noted(text), 22, two...))
	}
	for name, n := range map[string][2]string{"bad-blank": {"BLANK 210 x 140", "got=200 limit=210"}, "bad-triple": {"200 x 150 x 10", "got=140 limit=150"}, "bad-wide": {"150 WIDE", "got=140 limit=150"}} {
		add("reading-doubt", name, holes(noted(n[0]), 22, two...).Want(60, 200, 0.1, "reading-doubt severity=warning "+n[1]))
	}
	for name, text := range map[string]string{"ok-blank": "BLANK 140 x 200", "ok-triple": "200 x 140 x 10", "ok-long": "L = 200", "ok-other-triple": "300 x 200 x 8"} {
		add("reading-doubt", name, holes(noted(text), 22, two...))
	}
	for name, text := range map[string]string{"bad-plate-name": "10 THK QUORLIN 450", "bad-hardness": "10 THK HB450", "bad-tool-steel": "TOOL STEEL", "bad-alloy": "42CrMo4", "bad-plastic": "ACRYLIC", "bad-stainless": "STAINLESS", "bad-range": "t=8-12"} {
		add("reading-doubt", name, holes(below(text), 22, two...).Want(60, -60, 0.1, "reading-doubt severity=warning"))
	}

	add("tolerance", "bad-stop", dimensioned("200 %%p0.2").Want(100, 0, 0.1, "tolerance severity=warning got=0.2 limit=0.5"))
	add("tolerance", "bad-band", dimensioned("200 +0.4/-0").Want(100, 0, 0.1, "tolerance severity=warning got=0.2 limit=0.5"))
	add("tolerance", "bad-mark", dimensioned("200 %%p0.8").Want(100, 0, 0.1, "tolerance severity=note got=0.8 limit=1"))
	add("tolerance", "bad-hole", holes(plate(200, 140, "10"), 22, two...).Dimension(0, 0, 60, 70, 30, -30, 0, 60, "60 %%p0.1").Want(30, 35, 0.1, "tolerance severity=warning count=1 got=0.1 limit=0.5"))
	add("tolerance", "bad-general", holes(noted("TOLERANCES %%p0.2 U.N.O."), 22, two...).Want(60, 200, 0.1, "tolerance severity=warning got=0.2 limit=0.5"))
	add("tolerance", "bad-fine", holes(noted("ISO 2768-f"), 22, two...).Want(60, 200, 0.1, "tolerance severity=warning got=0.1 limit=0.5"))
	add("tolerance", "bad-position", holes(noted("TRUE POSITION %%c0.4"), 22, two...).Want(60, 200, 0.1, "tolerance severity=warning got=0.2 limit=0.5"))
	frame := holes(noted("SCALE 1:5"), 22, two...).Raw("TOLERANCE", "AcDbFcf", dxftest.Pair{Code: 10, Value: 60.0}, dxftest.Pair{Code: 20, Value: 220.0}, dxftest.Pair{Code: 30, Value: 0.0}, dxftest.Pair{Code: 1, Value: `{\Fgdt;j}%%v{\Fgdt;n}0.2%%vA%%vB`})
	add("tolerance", "bad-frame", frame.Want(60, 220, 0.1, "tolerance severity=warning got=0.1 limit=0.5"))
	add("tolerance", "ok-position", holes(noted("TRUE POSITION %%c2"), 22, two...))
	add("tolerance", "ok-wide", dimensioned("200 %%p1.0"))
	add("tolerance", "ok-medium", holes(noted("ISO 2768-mK"), 22, two...))
	add("tolerance", "ok-angle", holes(noted("ANGULAR TOLERANCE %%p1%%d"), 22, two...))

	for name, text := range map[string]string{"bad-reamed": "ALL HOLES TO BE REAMED", "bad-class-words": "EXECUTION CLASS 4", "bad-class-german": "Ausf\u00fchrungsklasse 3", "bad-polish": "otwory wiercone", "bad-dutch": "gaten niet ponsen"} {
		add("punching-class", name, holes(noted(text), 22, two...).Want(60, 200, 0.1, "punching-class severity=warning count=2"))
	}
	for name, text := range map[string]string{"ok-class-two": "EXECUTION CLASS 2", "ok-fatigue-none": "PUNCH MARKS ALLOWED"} {
		add("punching-class", name, holes(noted(text), 22, two...))
	}

	// Millimetres under a header of inches, as many writers put it in.
	add("units-doubt", "bad-default", holes(dxftest.New(dxftest.Inch).Layer("NOTES").Text(-150, 40, 5, "t = 10 mm").Text(-150, 30, 5, "S275").Text(-150, 20, 5, "ALL DIMENSIONS IN MM").Layer("CUT").Polyline(true, dxftest.Rect(0, 0, 200, 140)...), 22, at{100, 70}).
		Want(0, 0, 0, "units-doubt anywhere").Want(0, 0, 0, "punch-force anywhere").Want(0, 0, 0, "throat-reach anywhere").Want(0, 0, 0, "blank anywhere").Want(0, 0, 0, "shear-row anywhere").Want(0, 0, 0, "lift anywhere"))
	add("units-doubt", "ok-inch", holes(dxftest.New(dxftest.Inch).Layer("NOTES").Text(-6, 2, 0.2, "PL 3/8").Text(-6, 1.5, 0.2, "A36").Layer("CUT").Polyline(true, dxftest.Rect(0, 0, 8, 6)...), 13.0/16, at{4, 3}).
		Want(0, 0, 0, "blank anywhere severity=note"))
	add("units-unknown", "ok-statement", holes(dxftest.New(dxftest.NoUnit).Layer("NOTES").Text(-150, 40, 5, "t = 10 mm").Text(-150, 30, 5, "S275").Text(-150, 20, 5, "ALL DIMENSIONS IN MM").Layer("CUT").Polyline(true, dxftest.Rect(0, 0, 200, 140)...), 22, at{100, 70}))
	return out
}
