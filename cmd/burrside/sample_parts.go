package main

import (
	"math"

	"burrside/render"
)

// The layers of the sample drawings.
const (
	layerOutline = "OUTLINE"
	layerHoles   = "HOLES"
	layerText    = "TEXT"
)

// sampleParts are parts of an invented footbridge at Alder Ford.
func sampleParts() []samplePart {
	return []samplePart{
		{"splice-plate.dxf", "stringer splice, 8 holes: an ordinary part", splicePlate},
		{"splice-plate-inch.dxf", "the same joint drawn in inches", splicePlateInch},
		{"toe-clip.dxf", "tiny clip with one hole", toeClip},
		{"handrail-strap.dxf", "3 m strap with 13 holes", handrailStrap},
		{"deck-gusset.dxf", "gusset with clipped corners and a notch", deckGusset},
		{"notched-bearer.dxf", "bearer with rectangular, corner and vee notches", notchedBearer},
		{"slide-plate.dxf", "bearing plate with two slots", slidePlate},
		{"drain-panel.dxf", "panel with 200 holes", drainPanel},
		{"clip-nest.dxf", "three kinds of clip, 13 pieces in one file", clipNest},
		{"rail-bracket.dxf", "rounded bracket without thickness or material", railBracket},
		{"hinge-leaf.dxf", "leaf with countersunk holes, material open", hingeLeaf},
		{"post-base.dxf", "base plate with a grout hole too big to punch", postBase},
		{"bearing-ring.dxf", "ring that no shear or notcher makes", bearingRing},
		{"pin-plate.dxf", "hole smaller than the plate is thick, hole at the edge", pinPlate},
		{"stair-tread.dxf", "outline left open by 3 mm", stairTread},
		{"bracket-angle.dxf", "angle bracket, holes in both legs", bracketAngle},
		{"beam-cleat.dxf", "angle cleat, two holes too near the heel to punch", beamCleat},
		{"rail-post-angle.dxf", "3 m handrail post of angle, mitred, its hand not told", railPostAngle},
		{"kerb-angle.dxf", "angle of which one leg only is drawn", kerbAngle},
	}
}

// newSampleDrawing is an empty drawing with the layers of the job.
func newSampleDrawing(units string) *render.DXFOut {
	d := &render.DXFOut{Units: units}
	d.Layer(render.DXFLayer{Name: layerOutline, Colour: 7})
	d.Layer(render.DXFLayer{Name: layerHoles, Colour: 1})
	d.Layer(render.DXFLayer{Name: layerText, Colour: 3})
	return d
}

// rectangleOutline draws a closed rectangle with its lower left corner at x, y.
func rectangleOutline(d *render.DXFOut, x, y, w, h float64) {
	d.Polyline(layerOutline, true, corners(x, y, x+w, y, x+w, y+h, x, y+h)...)
}

// corners makes straight vertices of pairs of numbers.
func corners(xy ...float64) []render.DXFVertex {
	vs := make([]render.DXFVertex, 0, len(xy)/2)
	for i := 0; i+1 < len(xy); i += 2 {
		vs = append(vs, render.DXFVertex{X: xy[i], Y: xy[i+1]})
	}
	return vs
}

// notes writes lines of text under each other, the first at x, y.
func notes(d *render.DXFOut, x, y, height float64, lines ...string) {
	for i, l := range lines {
		d.Text(layerText, x, y-1.8*height*float64(i), height, l)
	}
}

func splicePlate() *render.DXFOut {
	d := newSampleDrawing("mm")
	rectangleOutline(d, 0, 0, 300, 150)
	for _, x := range []float64{40, 110, 190, 260} {
		for _, y := range []float64{40, 110} {
			d.Circle(layerHoles, x, y, 11)
		}
	}
	notes(d, 0, -20, 8, "AF-01 STRINGER SPLICE", "PL 10  S275", "8x Ø22", "QTY 16")
	return d
}

func splicePlateInch() *render.DXFOut {
	d := newSampleDrawing("in")
	rectangleOutline(d, 0, 0, 12, 6)
	for _, x := range []float64{1.5, 4.5, 7.5, 10.5} {
		for _, y := range []float64{1.5, 4.5} {
			d.Circle(layerHoles, x, y, 13.0/32)
		}
	}
	notes(d, 0, -1, 0.3, "AF-01A STRINGER SPLICE", "PL 3/8\"  A36", "8 HOLES 13/16 DIA", "QTY 16")
	return d
}

func toeClip() *render.DXFOut {
	d := newSampleDrawing("mm")
	rectangleOutline(d, 0, 0, 50, 50)
	d.Circle(layerHoles, 25, 25, 7)
	notes(d, 0, -8, 4, "AF-12 TOE CLIP", "t = 6 mm", "S235", "QTY 40")
	return d
}

func handrailStrap() *render.DXFOut {
	d := newSampleDrawing("mm")
	d.Line(layerOutline, 0, 0, 3000, 0)
	d.Line(layerOutline, 3000, 0, 3000, 40)
	d.Line(layerOutline, 3000, 40, 0, 40)
	d.Line(layerOutline, 0, 40, 0, 0)
	for i := range 13 {
		d.Circle(layerHoles, 60+240*float64(i), 20, 7)
	}
	notes(d, 0, -30, 12, "AF-07 HANDRAIL STRAP", "FL 40x6  S235", "13x Ø14", "QTY 8")
	return d
}

func deckGusset() *render.DXFOut {
	d := newSampleDrawing("mm")
	d.Polyline(layerOutline, true, corners(
		0, 0, 100, 0, 100, 40, 160, 40, 160, 0, 260, 0,
		260, 150, 230, 180, 30, 180, 0, 150)...)
	for _, p := range [][2]float64{{50, 60}, {50, 120}, {210, 60}, {210, 120}} {
		d.Circle(layerHoles, p[0], p[1], 9)
	}
	notes(d, 0, -25, 7, "AF-03 DECK GUSSET", "t=8 S275", "4x Ø18", "QTY 12")
	return d
}

func notchedBearer() *render.DXFOut {
	d := newSampleDrawing("mm")
	d.Polyline(layerOutline, true, corners(
		0, 0, 150, 0, 150, 40, 230, 40, 230, 0, 400, 0,
		400, 60, 350, 60, 350, 100,
		220, 100, 200, 80, 180, 100,
		0, 100)...)
	d.Circle(layerHoles, 40, 50, 9)
	d.Circle(layerHoles, 310, 50, 9)
	notes(d, 0, -20, 7, "AF-05 BEARER", "PL 8  S235", "2x Ø18", "QTY 20")
	return d
}

func slidePlate() *render.DXFOut {
	d := newSampleDrawing("mm")
	rectangleOutline(d, 0, 0, 220, 120)
	for _, x := range []float64{55, 165} {
		d.Polyline(layerHoles, true,
			render.DXFVertex{X: x - 14, Y: 49},
			render.DXFVertex{X: x + 14, Y: 49, Bulge: 1},
			render.DXFVertex{X: x + 14, Y: 71},
			render.DXFVertex{X: x - 14, Y: 71, Bulge: 1})
	}
	notes(d, 0, -16, 7, "AF-09 SLIDE PLATE", "PL 10  S275", "2 SLOTS 22x50", "QTY 4")
	return d
}

func drainPanel() *render.DXFOut {
	d := newSampleDrawing("mm")
	rectangleOutline(d, 0, 0, 600, 300)
	for i := range 20 {
		for j := range 10 {
			d.Circle(layerHoles, 15+30*float64(i), 15+30*float64(j), 6)
		}
	}
	notes(d, 0, -20, 10, "AF-15 DRAIN PANEL", "t=4 S235", "QTY 2")
	return d
}

func clipNest() *render.DXFOut {
	d := newSampleDrawing("mm")
	for i := range 6 {
		x := 70 * float64(i)
		rectangleOutline(d, x, 0, 60, 60)
		d.Circle(layerHoles, x+30, 30, 7)
	}
	for i := range 5 {
		x := 90 * float64(i)
		rectangleOutline(d, x, 80, 80, 40)
		d.Circle(layerHoles, x+20, 100, 9)
		d.Circle(layerHoles, x+60, 100, 9)
	}
	for i := range 2 {
		x := 140 * float64(i)
		d.Polyline(layerOutline, true, corners(x, 140, x+120, 140, x+120, 170, x+80, 200, x, 200)...)
		d.Circle(layerHoles, x+30, 170, 9)
	}
	notes(d, 0, -20, 7, "AF-20 CLIPS", "ALL t=6 S235")
	return d
}

func railBracket() *render.DXFOut {
	d := newSampleDrawing("mm")
	b := math.Tan(math.Pi / 8)
	const r, w, h = 10, 200, 150
	d.Polyline(layerOutline, true,
		render.DXFVertex{X: r, Y: 0}, render.DXFVertex{X: w - r, Y: 0, Bulge: b},
		render.DXFVertex{X: w, Y: r}, render.DXFVertex{X: w, Y: h - r, Bulge: b},
		render.DXFVertex{X: w - r, Y: h}, render.DXFVertex{X: r, Y: h, Bulge: b},
		render.DXFVertex{X: 0, Y: h - r}, render.DXFVertex{X: 0, Y: r, Bulge: b})
	for _, x := range []float64{50, 150} {
		for _, y := range []float64{50, 100} {
			d.Circle(layerHoles, x, y, 11)
		}
	}
	notes(d, 0, -16, 7, "AF-18 RAIL BRACKET")
	return d
}

func hingeLeaf() *render.DXFOut {
	d := newSampleDrawing("mm")
	rectangleOutline(d, 0, 0, 160, 80)
	for _, x := range []float64{30, 80, 130} {
		d.Circle(layerHoles, x, 40, 7)
		d.Circle(layerHoles, x, 40, 14)
	}
	notes(d, 0, -12, 6, "AF-22 HINGE LEAF", "THK 10 mm")
	return d
}

func postBase() *render.DXFOut {
	d := newSampleDrawing("mm")
	rectangleOutline(d, 0, 0, 300, 300)
	for _, x := range []float64{50, 250} {
		for _, y := range []float64{50, 250} {
			d.Circle(layerHoles, x, y, 13)
		}
	}
	d.Circle(layerHoles, 150, 150, 55)
	notes(d, 0, -20, 9, "AF-02 POST BASE", "PL 20  S275", "4x Ø26, 1x Ø110", "QTY 8")
	return d
}

func bearingRing() *render.DXFOut {
	d := newSampleDrawing("mm")
	d.Circle(layerOutline, 0, 0, 100)
	d.Circle(layerHoles, 0, 0, 60)
	for i := range 6 {
		a := float64(i) * math.Pi / 3
		d.Circle(layerHoles, 80*math.Cos(a), 80*math.Sin(a), 7)
	}
	notes(d, -100, -120, 7, "AF-11 BEARING RING", "t=10 S235", "QTY 2")
	return d
}

func pinPlate() *render.DXFOut {
	d := newSampleDrawing("mm")
	rectangleOutline(d, 0, 0, 180, 90)
	d.Circle(layerHoles, 40, 45, 4)
	d.Circle(layerHoles, 90, 45, 13)
	d.Circle(layerHoles, 155, 77, 11)
	notes(d, 0, -14, 6, "AF-16 PIN PLATE", "PL 12  S275", "QTY 6")
	return d
}

func stairTread() *render.DXFOut {
	d := newSampleDrawing("mm")
	d.Line(layerOutline, 0, 0, 240, 0)
	d.Line(layerOutline, 240, 0, 240, 90)
	d.Line(layerOutline, 240, 90, 0, 90)
	d.Line(layerOutline, 0, 90, 0, 3)
	for i := range 3 {
		d.Circle(layerHoles, 40+80*float64(i), 45, 9)
	}
	notes(d, 0, -14, 6, "AF-25 STAIR TREAD", "t=8 S235")
	return d
}
