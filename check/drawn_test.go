package check_test

import (
	"fmt"
	"math"
	"strings"

	"burrside/dxfread/dxftest"
)

// drawing is one drawing of testdata/check.
type drawing struct {
	rule, name string
	b          *dxftest.Builder
	cut        int // bytes taken off the end
}

// sheetOf starts a drawing in millimetres whose text states thickness and steel.
func sheetOf(thickness, steel string) *dxftest.Builder {
	b := dxftest.New(dxftest.MM).Layer("NOTES")
	if thickness != "" {
		b.Text(-150, 40, 5, "t = "+thickness+" mm")
	}
	if steel != "" {
		b.Text(-150, 30, 5, steel)
	}
	return b.Layer("CUT")
}

// plate is a rectangle from the origin.
func plate(w, h float64, thickness string) *dxftest.Builder {
	return sheetOf(thickness, "S275").Polyline(true, dxftest.Rect(0, 0, w, h)...)
}

type at struct{ x, y float64 }

// holes draws holes of one diameter and wants the first as a feature.
func holes(b *dxftest.Builder, d float64, places ...at) *dxftest.Builder {
	for _, p := range places {
		b.Circle(p.x, p.y, d/2)
	}
	return b.Want(places[0].x, places[0].y, 0.1, fmt.Sprintf("feature round-hole d=%g", d))
}

// opening draws a rectangle about its centre, with corners of radius r.
func opening(b *dxftest.Builder, x, y, w, h, r float64) *dxftest.Builder {
	if r == 0 {
		return b.Polyline(true, dxftest.Rect(x-w/2, y-h/2, w, h)...)
	}
	return b.Polyline(true, rounded(x-w/2, y-h/2, w, h, r)...)
}

func rounded(x, y, w, h, r float64) []dxftest.V {
	k := math.Tan(math.Pi / 8)
	return []dxftest.V{{X: x + r, Y: y}, {X: x + w - r, Y: y, Bulge: k}, {X: x + w, Y: y + r}, {X: x + w, Y: y + h - r, Bulge: k},
		{X: x + w - r, Y: y + h}, {X: x + r, Y: y + h, Bulge: k}, {X: x, Y: y + h - r}, {X: x, Y: y + r, Bulge: k}}
}

// notched is a plate with a notch in the middle of its top.
func notched(w, h, nw, nd float64, thickness string) *dxftest.Builder {
	l, r := (w-nw)/2, (w+nw)/2
	return sheetOf(thickness, "S275").Polyline(true, dxftest.V{}, dxftest.V{X: w}, dxftest.V{X: w, Y: h}, dxftest.V{X: r, Y: h}, dxftest.V{X: r, Y: h - nd},
		dxftest.V{X: l, Y: h - nd}, dxftest.V{X: l, Y: h}, dxftest.V{Y: h})
}

// clipped is a plate with its corners clipped at 45 degrees, the first n of them.
func clipped(w, h, c float64, n int, thickness string) *dxftest.Builder {
	corners := [][2]dxftest.V{{{Y: c}, {X: c}}, {{X: w - c}, {X: w, Y: c}}, {{X: w, Y: h - c}, {X: w - c, Y: h}}, {{X: c, Y: h}, {Y: h - c}}}
	sharp := dxftest.Rect(0, 0, w, h)
	var vs []dxftest.V
	for i := range 4 {
		if i < n {
			vs = append(vs, corners[i][0], corners[i][1])
		} else {
			vs = append(vs, sharp[i])
		}
	}
	return sheetOf(thickness, "S275").Polyline(true, vs...)
}

// mitred is a bar with its right end off square by an angle in degrees.
func mitred(l, w, off float64, thickness string) *dxftest.Builder {
	d := w * math.Tan(off*math.Pi/180)
	return sheetOf(thickness, "S275").Polyline(true, dxftest.V{}, dxftest.V{X: l}, dxftest.V{X: l - d, Y: w}, dxftest.V{Y: w})
}

// drawn lists all drawings.
func drawn() []drawing {
	var out []drawing
	add := func(rule, name string, b *dxftest.Builder) { out = append(out, drawing{rule: rule, name: name, b: b}) }

	add("punch-force", "bad", holes(plate(200, 140, "20"), 44, at{100, 70}).Want(100, 70, 0.1, "punch-force severity=warning"))
	add("punch-force", "ok-row", holes(plate(200, 140, "20"), 40, at{100, 70}))
	add("punch-ratio", "bad", holes(plate(200, 140, "10"), 9, at{100, 70}).Want(100, 70, 0.1, "punch-ratio severity=warning"))
	add("punch-ratio", "ok-equal", holes(plate(200, 140, "12"), 12, at{100, 70}))
	add("tool", "bad-buy", holes(plate(200, 140, "10"), 37, at{100, 70}).Want(100, 70, 0.1, "tool severity=warning"))
	add("tool", "ok-near", holes(plate(200, 140, "10"), 21.9, at{100, 70}))
	add("die-clearance", "bad", holes(plate(200, 140, "3"), 36, at{100, 70}).Want(100, 70, 0.1, "die-clearance got=40 limit=30 severity=warning"))
	add("die-clearance", "ok", holes(plate(200, 140, "10"), 36, at{100, 70}))
	add("die-holder", "bad", holes(plate(200, 140, "5"), 110, at{100, 70}).Want(100, 70, 0.1, "die-holder got=110 limit=75 severity=error"))
	add("die-holder", "ok", holes(plate(200, 140, "5"), 40, at{100, 70}))
	add("throat-reach", "bad", holes(plate(1400, 1200, "6"), 22, at{700, 600}).Want(700, 600, 0.1, "throat-reach").
		Want(0, 0, 0, "blank anywhere").Want(0, 0, 0, "lift anywhere limit=50"))
	add("throat-reach", "ok", holes(plate(900, 300, "6"), 22, at{450, 150}))
	add("slot-hits", "bad", plate(200, 140, "10").Polyline(true, dxftest.Slot(100, 70, 22, 80)...).
		Want(100, 70, 0.1, "slot-hits got=3 limit=1 severity=warning").Want(100, 70, 0.1, "feature slot w=22 l=80"))
	add("slot-hits", "ok-one-hit", plate(200, 140, "10").Polyline(true, dxftest.Slot(100, 70, 22, 50)...).Want(100, 70, 0.1, "feature slot w=22 l=50"))
	add("opening", "bad", opening(plate(200, 140, "10"), 100, 70, 90, 60, 0).Want(100, 70, 0.1, "opening severity=warning").Want(0, 0, 0, "inside-corner anywhere count=4"))
	add("opening", "ok-square", opening(plate(200, 140, "10"), 100, 70, 20, 20, 0).Want(100, 70, 0.1, "feature rectangular-hole w=20 l=20").Want(0, 0, 0, "inside-corner anywhere count=4"))
	add("hole-process", "bad-seat", plate(200, 140, "10").Circle(100, 70, 7).Circle(100, 70, 14).
		Want(100, 70, 0.1, "feature hole-with-seat d=14 seat=28").Want(100, 70, 0.1, "hole-process severity=warning"))
	add("hole-process", "bad-tapped", plate(200, 140, "10").Circle(100, 70, 5.1).Arc(100, 70, 6, 10, 280).
		Want(100, 70, 0.1, "feature tapped-hole d=10.2").Want(100, 70, 0.1, "hole-process severity=warning"))
	add("hole-process", "ok", holes(plate(200, 140, "10"), 14, at{100, 70}))
	add("web", "bad-error", opening(plate(200, 140, "10"), 14.9, 70, 20, 20, 0).Want(14.9, 70, 0.1, "feature rectangular-hole w=20 l=20").
		Want(4.9, 70, 10, "web got=4.9 limit=5 severity=error").Want(0, 0, 0, "inside-corner anywhere count=4"))
	add("web", "bad-drilled", holes(plate(200, 140, "10"), 18, at{13.9, 70}).
		Want(4.9, 70, 0.01, "web got=4.9 limit=5 severity=warning"))
	add("web", "bad-holes", holes(plate(200, 140, "10"), 18, at{90, 70}, at{117.9, 70}).Want(99, 70, 0.01, "web got=9.9 limit=10 severity=warning"))
	add("web", "bad-notch", holes(notched(300, 200, 80, 40, "8"), 18, at{150, 200 - 40 - 7 - 9}).Want(150, 153, 0.01, "web got=7 limit=8 severity=warning").
		Want(0, 0, 0, "inside-corner anywhere count=2"))
	add("web", "ok-equal", holes(plate(200, 140, "10"), 18, at{100, 70}, at{128, 70}))
	add("hole-on-outline", "bad", plate(200, 140, "10").Circle(3, 70, 9).Want(3, 70, 0.1, "hole-on-outline severity=error"))
	add("hole-on-outline", "ok", holes(plate(200, 140, "10"), 18, at{30, 70}))
	add("stripping", "bad", holes(plate(300, 300, "8"), 18, at{20, 20}).Want(20, 20, 0.1, "stripping got=20 limit=22.5 severity=warning"))
	add("stripping", "ok-equal", holes(plate(300, 300, "8"), 18, at{22.5, 22.5}))
	add("stripping", "ok-on-bar", holes(plate(300, 300, "4"), 9, at{20, 20}))
	row := func(n int, y float64) (l []at) {
		for i := range n {
			l = append(l, at{60 + 80*float64(i), y})
		}
		return l
	}
	add("strap", "bad", holes(plate(600, 50, "5"), 18, row(7, 25)...).Want(0, 0, 0, "strap anywhere severity=warning count=7"))
	add("strap", "ok", holes(plate(600, 50, "10"), 18, row(7, 25)...))
	add("blank", "bad", holes(plate(1200, 900, "10"), 22, at{100, 450}).Want(0, 0, 0, "blank anywhere severity=error").Want(0, 0, 0, "lift anywhere"))
	add("blank", "ok-bar", holes(plate(1200, 100, "10"), 22, at{100, 50}))
	add("shear-row", "bad", holes(plate(400, 300, "25"), 26, at{60, 150}).Want(0, 0, 0, "shear-row anywhere severity=warning"))
	add("shear-row", "ok", holes(plate(400, 300, "20"), 26, at{60, 150}))
	add("mitre", "bad", mitred(600, 250, 60, "10").Want(0, 0, 0, "mitre anywhere severity=warning"))
	add("mitre", "ok", mitred(600, 100, 45, "10").Want(0, 0, 0, "feature straight-cut anywhere"))
	add("sliver", "bad", holes(sheetOf("10", "S275").Polyline(true, dxftest.V{}, dxftest.V{X: 400}, dxftest.V{X: 400, Y: 97}, dxftest.V{Y: 100}), 18, at{60, 48}).
		Want(0, 0, 0, "sliver anywhere severity=error got=3 limit=10"))
	add("sliver", "ok", holes(plate(400, 100, "10"), 18, at{60, 48}))
	add("twist", "bad", plate(380, 72, "12").Want(0, 0, 0, "twist anywhere severity=note got=72 limit=96"))
	add("twist", "ok", plate(380, 72, "8").Want(0, 0, 0, "feature straight-cut anywhere"))
	// Over the die of 18.6 mm: 9.3 + 3 from the centre, 9 + 3.1 are there.
	add("die-land", "bad", holes(plate(200, 100, "3"), 18, at{90, 50}, at{111.1, 50}).Want(100, 50, 2.2, "die-land got=12.1 limit=12.3 severity=warning"))
	add("die-land", "ok", holes(plate(200, 100, "3"), 18, at{90, 50}, at{111.4, 50}))
	add("hold-down", "bad", clipped(60, 60, 25, 4, "6").Want(0, 0, 0, "hold-down anywhere got=49.497 limit=70"))
	add("hold-down", "ok", clipped(200, 100, 20, 2, "6").Want(0, 0, 0, "feature corner-clip anywhere"))
	add("notch-tool", "bad", notched(300, 200, 30, 40, "6").Want(150, 200, 0.1, "notch-tool severity=error").Want(0, 0, 0, "inside-corner anywhere count=2"))
	add("notch-tool", "ok", notched(300, 200, 80, 40, "6").Want(150, 200, 0.1, "feature notch w=80 depth=40").Want(0, 0, 0, "inside-corner anywhere count=2"))
	add("notch-force", "bad", notched(300, 200, 40, 40, "12").Want(150, 200, 0.1, "notch-force severity=error got=496.8 limit=414").Want(0, 0, 0, "inside-corner anywhere count=2"))
	add("notch-force", "ok", notched(300, 200, 40, 40, "8").Want(150, 200, 0.1, "feature notch w=40 depth=40").Want(0, 0, 0, "inside-corner anywhere count=2"))
	add("inside-corner", "bad-en", opening(plate(200, 140, "6"), 100, 70, 20, 20, 0).Want(0, 0, 0, "inside-corner anywhere severity=warning count=4"))
	add("inside-corner", "ok-round-en", holes(plate(200, 140, "6"), 22, at{100, 70}))
	add("edge-process", "bad", holes(sheetOf("10", "S275").Polyline(true, rounded(0, 0, 250, 120, 10)...), 18, at{60, 60}).
		Want(0, 0, 0, "edge-process anywhere severity=warning count=4"))
	add("edge-process", "ok-square", holes(plate(250, 120, "10"), 18, at{60, 60}))
	bend := func(l, w float64, t string) *dxftest.Builder {
		return plate(l, w, t).Layer("BEND").Line(l/2, 0, l/2, w).Layer("CUT").Want(l/2, w/2, 0.1, "feature bend")
	}
	besideBend := func(b *dxftest.Builder, x, y float64, text string) *dxftest.Builder {
		return b.Layer("NOTES").Text(x, y, 5, text).Layer("CUT")
	}
	// The error is the length or force of the brake; 6 t = 72 mm is more than
	// any die of the shop.
	add("bend", "bad", besideBend(bend(400, 300, "12"), 205, 200, "UP 90").Want(200, 150, 0.1, "bend severity=error").Want(200, 150, 0.1, "bend severity=error limit=72").
		Want(200, 150, 0.1, "bend severity=warning limit=6"))
	add("bend", "ok-bent", besideBend(bend(400, 80, "6"), 205, 60, "UP 90 R6").Want(200, 40, 0.1, "feature bend"))
	// t = 6 over V 40: r = 40/6 = 6.67, half of the bend 90 degrees x (6.67 + 0.45 x 6)/2 = 7.36;
	// error below 1.5 t + r = 15.67, care below 2.5 t + r = 21.67.
	add("hole-to-bend", "bad", besideBend(bend(400, 80, "6"), 205, 60, "UP 90 R6").Circle(178, 30, 7).Want(185, 30, 0.1, "hole-to-bend got=7.64 limit=15.67 severity=error"))
	add("hole-to-bend", "bad-care", besideBend(bend(400, 80, "6"), 205, 60, "UP 90 R6").Circle(166, 30, 7).Want(173, 30, 0.1, "hole-to-bend got=19.64 limit=21.67 severity=warning"))
	add("hole-to-bend", "ok", besideBend(bend(400, 80, "6"), 205, 60, "UP 90 R6").Circle(163, 30, 7).
		Want(163, 30, 0.1, "feature round-hole d=14"))
	add("bend", "bad-care", bend(400, 100, "6").Want(200, 50, 0.1, "bend severity=warning"))
	add("bend", "ok", holes(plate(400, 100, "6"), 22, at{100, 50}))
	add("material", "bad", holes(sheetOf("10", "AR400").Polyline(true, dxftest.Rect(0, 0, 200, 140)...), 22, at{100, 70}).
		Want(100, 70, 0.1, "material").Want(0, 0, 0, "material anywhere count=2"))
	add("material", "ok", holes(plate(200, 140, "10"), 22, at{100, 70}))
	add("lift", "bad", holes(plate(700, 300, "20"), 26, at{100, 150}).Want(0, 0, 0, "lift anywhere severity=warning limit=25"))
	add("lift", "ok", holes(plate(400, 300, "20"), 26, at{100, 150}))
	add("small-part", "bad", holes(plate(60, 60, "6"), 14, at{30, 30}).Want(0, 0, 0, "small-part anywhere got=60 limit=100"))
	add("small-part", "ok", holes(plate(160, 100, "6"), 14, at{40, 50}))
	add("quantity-conflict", "bad", holes(plate(200, 140, "10").Polyline(true, dxftest.Rect(0, 200, 200, 140)...).Circle(100, 270, 11).
		Layer("NOTES").Text(-150, 20, 5, "QTY 4").Layer("CUT"), 22, at{100, 70}).Want(0, 0, 0, "quantity-conflict anywhere got=2 limit=4"))
	add("quantity-conflict", "ok", holes(plate(200, 140, "10").Layer("NOTES").Text(-150, 20, 5, "QTY 4").Layer("CUT"), 22, at{100, 70}))
	add("thickness-missing", "bad", holes(plate(200, 140, ""), 22, at{100, 70}).Want(0, 0, 0, "thickness-missing anywhere"))
	add("thickness-missing", "bad-near", holes(plate(200, 140, "9.9"), 22, at{100, 70}).Want(0, 0, 0, "thickness-missing anywhere severity=note got=9.9 limit=10"))
	add("thickness-missing", "ok", holes(plate(200, 140, "10"), 22, at{100, 70}))
	add("material-missing", "bad", holes(sheetOf("10", "").Polyline(true, dxftest.Rect(0, 0, 200, 140)...), 22, at{100, 70}).Want(0, 0, 0, "material-missing anywhere"))
	add("material-missing", "bad-unknown", holes(sheetOf("10", "MATERIAL: UNOBTAINIUM").Polyline(true, dxftest.Rect(0, 0, 200, 140)...), 22, at{100, 70}).
		Want(0, 0, 0, "material-missing anywhere"))
	add("material-missing", "ok", holes(sheetOf("10", "S355").Polyline(true, dxftest.Rect(0, 0, 200, 140)...), 22, at{100, 70}))

	add("edge-distance", "bad-en", holes(plate(200, 140, "10"), 22, at{26.3, 70}, at{120, 70}).Want(26.3, 70, 0.01, "edge-distance got=26.3 limit=26.4 severity=error"))
	add("edge-distance", "ok-en", holes(plate(200, 140, "10"), 22, at{26.4, 70}, at{120, 70}))
	add("edge-distance", "bad-aisc", holes(plate(200, 140, "10"), 22, at{25.9, 70}, at{120, 70}).Want(25.9, 70, 0.01, "edge-distance got=25.9 limit=26 severity=warning"))
	add("edge-distance", "bad-short-aisc", holes(plate(200, 140, "4"), 22, at{19.9, 70}, at{120, 70}).Want(19.9, 70, 0.01, "edge-distance got=19.9 limit=26 severity=error"))
	add("edge-distance", "ok-aisc", holes(plate(200, 140, "10"), 22, at{26, 70}, at{120, 70}))
	add("edge-distance", "ok-single-en", holes(plate(200, 140, "4"), 22, at{20, 70}))
	add("hole-pitch", "bad-en", holes(plate(200, 140, "10"), 22, at{60, 70}, at{108.3, 70}).Want(60, 70, 0.01, "hole-pitch got=48.3 limit=48.4 severity=error"))
	add("hole-pitch", "ok-en", holes(plate(200, 140, "10"), 22, at{60, 70}, at{112.8, 70}))
	add("hole-pitch", "bad-aisc", holes(plate(200, 140, "10"), 22, at{60, 70}, at{113.3, 70}).Want(60, 70, 0.01, "hole-pitch got=53.3 limit=53.333 severity=error"))
	add("hole-pitch", "ok-aisc", holes(plate(200, 140, "10"), 22, at{60, 70}, at{113.34, 70}))

	inch := func(w, h float64) *dxftest.Builder {
		return dxftest.New(dxftest.Inch).Layer("NOTES").Text(-6, 2, 0.2, "PL 3/8").Text(-6, 1.5, 0.2, "A36").Layer("CUT").Polyline(true, dxftest.Rect(0, 0, w, h)...).
			Want(0, 0, 0, "blank anywhere severity=note") // the example shop keeps metric plate
	}
	add("edge-distance", "bad-inch-aisc", holes(inch(8, 6), 13.0/16, at{0.99, 3}, at{5, 3}).Want(0.99, 3, 0.01, "edge-distance got=25.146 limit=25.4 severity=warning"))
	add("edge-distance", "ok-inch-aisc", holes(inch(8, 6), 13.0/16, at{1, 3}, at{5, 3}))
	slots := func(x1, x2 float64) *dxftest.Builder {
		return inch(12, 6).Polyline(true, dxftest.Slot(x1, 3, 13.0/16, 1.875)...).Polyline(true, dxftest.Slot(x2, 3, 13.0/16, 1.875)...).
			Want(x1, 3, 0.01, "feature slot w=0.8125 l=1.875").Want(0, 0, 0, "tool anywhere severity=warning count=2")
	}
	// Long slots for 3/4 in bolts: 1.5625 in to an edge that they point to, and
	// 2.625 in from centre to centre end to end.
	add("edge-distance", "bad-slot-inch-aisc", slots(1.55, 8).Want(1.55, 3, 0.01, "edge-distance got=39.37 limit=39.6875 severity=warning"))
	add("edge-distance", "ok-slot-inch-aisc", slots(1.5625, 8))
	add("hole-pitch", "bad-slot-inch-aisc", slots(4, 6.5).Want(4, 3, 0.01, "hole-pitch got=63.5 limit=66.675 severity=error"))
	add("hole-pitch", "ok-slot-inch-aisc", slots(4, 6.625))

	add("no-part", "bad", sheetOf("10", "S275").Want(0, 0, 0, "no-part anywhere severity=error"))
	add("no-part", "ok", holes(plate(200, 140, "10"), 22, at{100, 70}))
	open := func(gap float64) *dxftest.Builder {
		return sheetOf("10", "S275").Line(0, 0, 200, 0).Line(200, 0, 200, 140).Line(200, 140, 0, 140).Line(0, 140, 0, gap)
	}
	add("open-outline", "bad", open(3).Want(0, 0, 3.1, "open-outline got=3 severity=error"))
	add("open-outline", "ok", holes(open(0), 22, at{100, 70}))
	add("gap-bridged", "bad", holes(open(0.2), 22, at{100, 70}).Want(0, 0, 0.3, "gap-bridged got=0.2 limit=0.05 severity=warning"))
	add("gap-bridged", "ok-tiny", holes(open(0.02), 22, at{100, 70}))
	add("self-crossing", "bad", sheetOf("10", "S275").Polyline(true, dxftest.V{}, dxftest.V{X: 200}, dxftest.V{X: 200, Y: 140}, dxftest.V{X: 60, Y: -40}, dxftest.V{Y: 140}).
		Want(46.67, 0, 0.1, "self-crossing severity=error").Want(46.67, 0, 0.1, "self-crossing severity=error").Want(91.11, 0, 0.1, "self-crossing severity=error"))
	add("self-crossing", "ok", holes(plate(200, 140, "10"), 22, at{100, 70}))
	out = append(out, drawing{rule: "read-incomplete", name: "bad", cut: 40, b: holes(plate(200, 140, "10"), 22, at{100, 70}).Want(0, 0, 0, "read-incomplete anywhere severity=error")})
	add("read-incomplete", "ok", holes(plate(200, 140, "10"), 22, at{100, 70}))
	units := func(u dxftest.Unit) *dxftest.Builder {
		return dxftest.New(u).Layer("NOTES").Text(-150, 40, 5, "t = 10 mm").Text(-150, 30, 5, "S275").Layer("CUT").Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
	}
	add("units-doubt", "bad", units(dxftest.Inch).Circle(40, 40, 11).Circle(160, 40, 9).Circle(40, 100, 13).Circle(160, 100, 7).Want(0, 0, 0, "units-doubt anywhere").
		Want(0, 0, 0, "punch-force anywhere count=4").Want(0, 0, 0, "throat-reach anywhere count=4").Want(0, 0, 0, "blank anywhere").Want(0, 0, 0, "shear-row anywhere").Want(0, 0, 0, "lift anywhere"))
	add("units-doubt", "ok", holes(units(dxftest.MM), 22, at{100, 70}))
	add("units-unknown", "bad", dxftest.New(dxftest.NoUnit).Layer("CUT").Polyline(true, dxftest.Rect(0, 0, 12.7, 25.4)...).
		Want(0, 0, 0, "units-unknown anywhere").Want(0, 0, 0, "thickness-missing anywhere").Want(0, 0, 0, "material-missing anywhere"))
	add("units-unknown", "ok", holes(units(dxftest.MM), 22, at{100, 70}))
	add("line-unexplained", "bad", plate(200, 140, "10").Line(80, 0, 80, 140).Want(0, 0, 0, "line-unexplained anywhere"))
	add("line-unexplained", "ok", holes(plate(200, 140, "10"), 22, at{100, 70}))
	add("reading-doubt", "bad-count", holes(plate(200, 140, "10").Layer("NOTES").Text(60, 200, 5, "4x %%c22").Layer("CUT"), 22, at{60, 70}, at{140, 70}).
		Want(0, 0, 0, "reading-doubt anywhere got=2 limit=4 severity=warning"))
	add("reading-doubt", "bad-twice", holes(plate(200, 140, "10").Layer("NOTES").Text(60, 200, 5, "t = 12 mm").Layer("CUT"), 22, at{60, 70}).
		Want(0, 0, 0, "reading-doubt anywhere"))
	noted := func(text string) *dxftest.Builder {
		return plate(200, 140, "10").Layer("NOTES").Text(60, 200, 5, text).Layer("CUT")
	}
	for name, n := range map[string][2]string{
		"bad-diameter": {"2x %%c18", "got=22 limit=18"},
		"bad-slot":     {"2 SLOTS 22x50", "limit=22"},
		"bad-bolt":     {"2 HOLES FOR M27 BOLTS", "got=22 limit=27"},
		"bad-thread":   {"2x M30 TAPPED", "got=22 limit=30"},
		"bad-fraction": {"2 - 11/16\" HOLES", "got=22 limit=17.4625"},
		"bad-width":    {"PL 10 x 130 x 200", "got=140 limit=130"},
		"bad-length":   {"PL 10 x 140 x 210", "got=200 limit=210"},
	} {
		add("reading-doubt", name, holes(noted(n[0]), 22, at{60, 70}, at{140, 70}).Want(0, 0, 0, "reading-doubt anywhere severity=warning "+n[1]))
	}
	for name, text := range map[string]string{"ok-size": "PL 10 x 200 x 140", "ok-stock": "CUT FROM PL 10 x 1250 x 2500", "ok-bolt": "2 HOLES FOR M20 BOLTS", "ok-weld": "WELD THROAT t=5", "ok-gasket": "GASKET t=3 BY OTHERS", "ok-above": "WELD TO PL 12 S355"} {
		b := holes(noted(text), 22, at{60, 70}, at{140, 70})
		if strings.HasPrefix(text, "WELD") { // said aloud, and no thickness or grade of the plate
			b.Want(60, 200, 0.1, "note-asks severity=note")
		}
		add("reading-doubt", name, b)
	}
	add("reading-doubt", "bad-hard", holes(plate(200, 140, "10").Layer("NOTES").Text(-150, 20, 5, "HARDENED TO 55 HRC").Layer("CUT"), 22, at{60, 70}).Want(0, 0, 0, "reading-doubt anywhere severity=warning"))
	add("quantity-conflict", "bad-twice", holes(noted("QTY 4").Layer("NOTES").Text(60, 220, 5, "6 OFF").Layer("CUT"), 22, at{60, 70}).Want(0, 0, 0, "quantity-conflict anywhere severity=warning"))
	add("hole-process", "bad-fit", holes(noted("2x %%c22 H7"), 22, at{60, 70}, at{140, 70}).Want(0, 0, 0, "hole-process anywhere severity=warning count=2"))
	add("hole-process", "bad-close", holes(noted("2x %%c22 %%p0.1"), 22, at{60, 70}, at{140, 70}).Want(0, 0, 0, "hole-process anywhere severity=warning count=2 got=0.1 limit=0.3"))
	add("hole-process", "ok-open", holes(noted("2x %%c22 %%p0.5"), 22, at{60, 70}, at{140, 70}))
	add("hole-process", "bad-wide-fit", holes(noted("2x %%c22 H11"), 22, at{60, 70}, at{140, 70}).Want(0, 0, 0, "hole-process anywhere severity=note count=2"))
	add("hole-process", "bad-sunk", holes(noted("2x %%c22 CSK 90 DEG %%c40"), 22, at{60, 70}, at{140, 70}).Want(0, 0, 0, "hole-process anywhere severity=warning count=2"))
	add("reading-doubt", "ok-count", holes(plate(200, 140, "10").Layer("NOTES").Text(60, 200, 5, "2x %%c22").Layer("CUT"), 22, at{60, 70}, at{140, 70}))
	for name, text := range map[string]string{"bad-drilled": "ALL HOLES TO BE DRILLED", "bad-class": "EXECUTION CLASS EXC3", "bad-fatigue": "DETAIL SUBJECT TO FATIGUE",
		"bad-german": "Löcher gebohrt, nicht gestanzt", "bad-forbidden": "PUNCHING NOT PERMITTED", "bad-prohibited": "PUNCHING PROHIBITED",
		"bad-only": "DRILL ONLY", "bad-verboten": "STANZEN VERBOTEN", "bad-folded": "LOCHER GEBOHRT", "bad-count": "2 HOLES TO BE DRILLED"} {
		add("punching-class", name, holes(noted(text), 22, at{60, 70}, at{140, 70}).Want(0, 0, 0, "punching-class anywhere severity=warning count=2"))
	}
	for name, text := range map[string]string{"ok-class": "EXC2", "ok-note": "PUNCH MARK PART NUMBER", "ok-burr": "REMOVE BURRS FROM HOLES", "ok-bolt": "2 HOLES FOR M20 BOLTS"} {
		add("punching-class", name, holes(noted(text), 22, at{60, 70}, at{140, 70}))
	}
	// A call-out's drilling is said of its own holes, once, by hole-process.
	add("punching-class", "ok-tied", holes(noted("2 HOLES %%c22 DRILL"), 22, at{60, 70}, at{140, 70}).Want(0, 0, 0, "hole-process anywhere severity=warning count=2"))
	add("duplicate-lines", "bad", holes(plate(200, 140, "10").Circle(100, 70, 11), 22, at{100, 70}).Want(0, 0, 0, "duplicate-lines anywhere severity=note"))
	add("duplicate-lines", "ok", holes(plate(200, 140, "10"), 22, at{100, 70}))
	return append(append(append(out, drawnTexts()...), drawnAngles()...), drawnCodes()...)
}
