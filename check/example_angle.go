package check

import (
	"math"

	"burrside/features"
	"burrside/features/geom"
)

// angleBuilder draws the angles of the rules' examples: leg a below the heel,
// leg b above it, the length along x from 0.
type angleBuilder struct {
	legs      [2]features.LegView
	length    float64
	widths    [2]float64
	thickness float64
	root      float64
	hand      features.Hand
	notDrawn  bool
}

func exampleAngle(length, legA, legB, thickness, root float64) *angleBuilder {
	b := &angleBuilder{length: length, widths: [2]float64{legA, legB}, thickness: thickness, root: root}
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	heel := [2]geom.Point{p(0, 0), p(length, 0)}
	b.legs[0] = features.LegView{Outline: geom.RingOf(p(0, -legA), p(length, -legA), p(length, 0), p(0, 0)), Heel: heel, Toe: p(0, -1)}
	b.legs[1] = features.LegView{Outline: geom.RingOf(p(0, 0), p(length, 0), p(length, legB), p(0, legB)), Heel: heel, Toe: p(0, 1)}
	return b
}

// hole is round, x from the start and g from the heel.
func (b *angleBuilder) hole(leg int, x, g, d float64) {
	l := &b.legs[leg]
	l.Holes = append(l.Holes, geom.Ring{geom.CircleEdge(geom.Point{X: x, Y: l.Toe.Y * g}, d/2)})
}

// slot lies along the angle.
func (b *angleBuilder) slot(leg int, x, g, w, long float64) {
	l := &b.legs[leg]
	c, h, r := geom.Point{X: x, Y: l.Toe.Y * g}, geom.Point{X: (long - w) / 2}, geom.Point{Y: w / 2}
	a, z := c.Sub(h), c.Add(h)
	l.Holes = append(l.Holes, geom.Ring{geom.LineEdge(a.Sub(r), z.Sub(r)), geom.ArcEdge(z, z.Sub(r), z.Add(r), true),
		geom.LineEdge(z.Add(r), a.Add(r)), geom.ArcEdge(a, a.Add(r), a.Sub(r), true)})
}

// notch is a rectangle in the toe.
func (b *angleBuilder) notch(leg int, x, w, depth float64) {
	l := &b.legs[leg]
	p := func(x, g float64) geom.Point { return geom.Point{X: x, Y: l.Toe.Y * g} }
	leg2, d := b.widths[leg], b.widths[leg]-depth
	l.Outline = geom.RingOf(p(0, 0), p(0, leg2), p(x-w/2, leg2), p(x-w/2, d), p(x+w/2, d), p(x+w/2, leg2), p(b.length, leg2), p(b.length, 0)).CCW()
}

// mitre cuts the far end of leg a off square, from the heel back to the toe.
func (b *angleBuilder) mitre(degrees float64) {
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	back := b.widths[0] * math.Tan(degrees*math.Pi/180)
	b.legs[0].Outline = geom.RingOf(p(0, -b.widths[0]), p(b.length-back, -b.widths[0]), p(b.length, 0), p(0, 0))
}

func (b *angleBuilder) part() *features.Part {
	p, err := features.FoldOut(b.legs)
	if err != nil {
		panic("check: an example's angle does not fold out: " + err.Error())
	}
	p.Name = "angle"
	p.OutlineSource = make([][]features.Source, len(p.Outline))
	a := p.Angle
	a.ThicknessMM, a.RootMM, a.Hand, a.From = b.thickness, b.root, b.hand, "two views"
	if b.root > 0 {
		a.ToRootMM = b.thickness + b.root
	}
	if b.notDrawn {
		a.Legs[1].Drawn, a.From = false, "one view"
		p.Doubts = append(p.Doubts, features.Doubt{Code: "leg-not-drawn", At: a.Heel[0], Text: "leg b is not drawn"})
	}
	return &p
}

func (b *angleBuilder) example(text string, thicknessMM float64, code string) Example {
	e := examplePlate("", 1, 1).example(text, thicknessMM, code)
	e.Part = b.part()
	return e
}
