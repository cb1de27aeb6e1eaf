package main

import "burrside/render"

// legView draws a view of one leg of an angle as a shop drawing does: its outline
// with the lower left corner at x, y, and the thickness of the other leg as a
// line along the heel, which is the lower edge or else the upper one.
func legView(d *render.DXFOut, x, y, length, leg, thickness float64, heelLow bool) {
	rectangleOutline(d, x, y, length, leg)
	at := y + leg - thickness
	if heelLow {
		at = y + thickness
	}
	d.Line(layerOutline, x, at, x+length, at)
}

// bracketAngle is L75x75x8: the front view below, the view from above over it, as
// third-angle projection puts them, heels facing each other.
func bracketAngle() *render.DXFOut {
	d := newSampleDrawing("mm")
	const length = 300
	legView(d, 0, 0, length, 75, 8, false)
	legView(d, 0, 125, length, 75, 8, true)
	for _, x := range []float64{60, 240} {
		d.Circle(layerHoles, x, 75-45, 9)
		d.Circle(layerHoles, x-20, 125+45, 9)
	}
	notes(d, 0, -20, 7, "AF-30 BRACKET ANGLE", "L75x75x8 - 300 LG  S275", "4x Ø18", "THIRD ANGLE PROJECTION", "QTY 12")
	return d
}

// beamCleat has two holes so near the heel that every die block meets the other leg.
func beamCleat() *render.DXFOut {
	d := newSampleDrawing("mm")
	const length = 140
	legView(d, 0, 0, length, 75, 6, false)
	legView(d, 0, 125, length, 50, 6, true)
	for _, x := range []float64{35, 105} {
		d.Circle(layerHoles, x, 75-26, 9)
		d.Circle(layerHoles, x, 125+28, 7)
	}
	notes(d, 0, -16, 6, "AF-31 BEAM CLEAT", "L75x50x6 - 140 LG  S275", "2x Ø18, 2x Ø14", "THIRD ANGLE PROJECTION", "QTY 24")
	return d
}

// railPostAngle is 3 m long, its right end mitred through leg b. Nothing tells by
// which projection its views stand, so its hand has to be asked.
func railPostAngle() *render.DXFOut {
	d := newSampleDrawing("mm")
	const length, leg, t = 3000, 60, 6
	// The mitre falls back from the heel to the toe of leg b; leg a is cut square.
	legView(d, 0, 0, length, leg, t, false)
	d.Polyline(layerOutline, true, corners(0, 110, length, 110, length-leg, 110+leg, 0, 110+leg)...)
	d.Line(layerOutline, 0, 110+t, length-t, 110+t)
	for _, x := range []float64{50, 130} {
		d.Circle(layerHoles, x, leg-35, 9)
	}
	for _, x := range []float64{1000, 2000, 2850} {
		d.Circle(layerHoles, x, 110+35, 7)
	}
	notes(d, 0, -40, 16, "AF-33 RAIL POST", "L60x60x6 - 3000 LG  S235", "2x Ø18, 3x Ø14", "QTY 8")
	return d
}

// kerbAngle shows one leg only: whether the other is plain has to be asked.
func kerbAngle() *render.DXFOut {
	d := newSampleDrawing("mm")
	const length = 900
	legView(d, 0, 0, length, 80, 8, true)
	for i := range 4 {
		d.Circle(layerHoles, 90+240*float64(i), 45, 9)
	}
	notes(d, 0, -20, 8, "AF-34 KERB ANGLE", "L80x80x8 - 900 LG  S275", "4x Ø18", "QTY 6")
	return d
}
