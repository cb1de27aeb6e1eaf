package check_test

import "burrside/dxfread/dxftest"

// angleSheet starts a drawing of an angle in two views, heels facing: leg a from
// the origin up, leg b below it, with a line each for the thickness. Its texts
// name the section, the steel and, unless another one is given, the projection.
func angleSheet(length, a, b, t float64, texts ...string) *dxftest.Builder {
	d := sheetOf("", "S275")
	if len(texts) == 1 {
		texts = append(texts, "THIRD ANGLE PROJECTION")
	}
	d.Layer("NOTES").Text(-150, 20, 5, texts[0]).Text(-250, -200, 5, texts[1]).Layer("CUT")
	return d.Polyline(true, dxftest.Rect(0, 0, length, a)...).Line(0, t, length, t).
		Polyline(true, dxftest.Rect(0, -40-b, length, b)...).Line(0, -40-t, length, -40-t)
}

// drawnAngles are the drawings of the rules that speak of angles only. Those
// without a finding are of L80x80x8, with holes
// 51 mm from the heel, 1 mm off the usual gauge, where the stripper clears. EN 10056-1:
// L75x75x8 has a root radius of 9 mm, L80x80x8 of 10: the fillet ends at 17, 18.
func drawnAngles() []drawing {
	var out []drawing
	add := func(rule, name string, b *dxftest.Builder) { out = append(out, drawing{rule: rule, name: name, b: b}) }
	plain := func() *dxftest.Builder { return angleSheet(400, 75, 75, 8, "L75x75x8") }
	good := func(b *dxftest.Builder) *dxftest.Builder { return holes(b, 18, at{100, 51}, at{250, 51}) }
	clean := func() *dxftest.Builder { return good(angleSheet(400, 80, 80, 8, "L80x80x8")) }
	// shaped is the clean angle with another outline of leg a, whose line of the
	// thickness ends at to.
	shaped := func(to float64, ring ...dxftest.V) *dxftest.Builder {
		d := sheetOf("", "S275").Layer("NOTES").Text(-150, 20, 5, "L80x80x8").Text(-250, -200, 5, "THIRD ANGLE PROJECTION").Layer("CUT")
		return d.Polyline(true, ring...).Line(0, 8, to, 8).Polyline(true, dxftest.Rect(0, -120, 400, 80)...).Line(0, -48, 400, -48)
	}
	// aside has a hole beside the notch only.
	aside := func(b *dxftest.Builder) *dxftest.Builder { return holes(b, 18, at{100, 51}) }
	mitred := func(back float64) *dxftest.Builder {
		return shaped(400-back*8/80, dxftest.V{}, dxftest.V{X: 400}, dxftest.V{X: 400 - back, Y: 80}, dxftest.V{Y: 80})
	}
	notched := func(width, depth float64) *dxftest.Builder {
		return shaped(400, dxftest.V{}, dxftest.V{X: 400}, dxftest.V{X: 400, Y: 80}, dxftest.V{X: 160 + width, Y: 80}, dxftest.V{X: 160 + width, Y: 80 - depth},
			dxftest.V{X: 160, Y: 80 - depth}, dxftest.V{X: 160, Y: 80}, dxftest.V{Y: 80})
	}

	add("angle-shear", "bad", holes(angleSheet(400, 150, 150, 15, "L150x150x15"), 18, at{100, 90}).
		Want(0, 75, 0.1, "angle-shear got=150 limit=120 severity=warning").Want(0, 0, 0, "blank anywhere"))
	add("angle-shear", "ok", clean())
	// 80 back over 80 is 45 degrees, 110 is atan(110/80) = 53.97.
	add("angle-mitre", "bad", good(mitred(110)).Want(0, 0, 0, "angle-mitre anywhere got=53.97 limit=45 severity=warning"))
	add("angle-mitre", "ok", good(mitred(80)))
	add("leg-clearance", "bad", holes(plain(), 18, at{100, 45}).Want(100, 45, 0.1, "leg-clearance got=45 severity=warning"))
	add("leg-clearance", "ok", clean())
	// 25 - 9 = 16, less than 17.
	add("root-fillet", "bad", holes(plain(), 18, at{100, 25}).Want(100, 25, 0.1, "root-fillet got=16 limit=17 severity=warning").
		Want(100, 25, 0.1, "leg-clearance got=25").Want(100, 25, 0.1, "usual-gauge got=25 limit=45"))
	add("root-fillet", "ok", clean())
	add("usual-gauge", "bad", holes(plain(), 18, at{100, 50}, at{250, 50}).Want(100, 50, 0.1, "usual-gauge got=50 limit=45 severity=note"))
	add("usual-gauge", "ok", holes(plain(), 18, at{100, 47}, at{250, 43}).Want(0, 0, 0, "leg-clearance anywhere"))
	// Bolts of 20 mm are 40 mm wide at the nut.
	add("legs-foul", "bad", holes(plain(), 22, at{100, 45}).Circle(100, -85, 11).Want(100, 45, 0.1, "legs-foul got=0 limit=40 severity=note").Want(0, 0, 0, "leg-clearance anywhere"))
	add("legs-foul", "ok", holes(plain(), 22, at{100, 45}).Circle(200, -85, 11).Want(0, 0, 0, "leg-clearance anywhere"))
	add("leg-notch", "bad", good(notched(40, 67)).Want(180, 80, 0.1, "leg-notch got=13 limit=18 severity=error").
		Want(180, 80, 0.1, "notch-tool severity=error").Want(0, 0, 0, "inside-corner anywhere"))
	// L70x70x7: root to 16, 32 left; 34 are needed beside the die, 30 beside the tool.
	small := sheetOf("", "S275").Layer("NOTES").Text(-150, 20, 5, "L70x70x7").Text(-250, -200, 5, "THIRD ANGLE PROJECTION").Layer("CUT").
		Polyline(true, dxftest.V{}, dxftest.V{X: 400}, dxftest.V{X: 400, Y: 70}, dxftest.V{X: 200, Y: 70}, dxftest.V{X: 200, Y: 32}, dxftest.V{X: 160, Y: 32}, dxftest.V{X: 160, Y: 70}, dxftest.V{Y: 70}).
		Line(0, 7, 400, 7).Polyline(true, dxftest.Rect(0, -110, 400, 70)...).Line(0, -47, 400, -47)
	add("leg-notch", "bad-care", small.Want(180, 70, 0.1, "leg-notch got=32 limit=30 severity=warning").Want(0, 0, 0, "inside-corner anywhere"))
	add("leg-notch", "bad-bites", aside(notched(100, 30)).Want(210, 80, 0.1, "leg-notch got=50 limit=36 severity=warning").Want(0, 0, 0, "inside-corner anywhere"))
	add("leg-notch", "ok", good(notched(40, 30)).Want(0, 0, 0, "inside-corner anywhere"))
	add("leg-not-drawn", "bad", good(sheetOf("", "S275").Layer("NOTES").Text(-150, 20, 5, "L80x80x8").Text(-250, -200, 5, "THIRD ANGLE PROJECTION").Layer("CUT").
		Polyline(true, dxftest.Rect(0, 0, 400, 80)...).Line(0, 8, 400, 8)).Want(200, 0, 0.1, "leg-not-drawn severity=warning"))
	add("leg-not-drawn", "ok", clean())
	handed := func(text string) *dxftest.Builder {
		d := angleSheet(400, 80, 80, 8, "L80x80x8", text)
		return good(d).Circle(300, -91, 9)
	}
	add("angle-hand", "bad", handed("FOOTBRIDGE").Want(0, 0, 0.1, "angle-hand severity=warning"))
	add("angle-hand", "ok", handed("FIRST ANGLE PROJECTION"))
	return out
}
