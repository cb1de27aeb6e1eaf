package render

import (
	"math"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

// angleOf is an angle of two plain legs, heels facing, leg b above leg a, with
// holes {leg, from the heel, from the start, diameter}; cut changes the outlines.
func angleOf(name string, legs [2]float64, t, length float64, cut func(a, b geom.Ring) (geom.Ring, geom.Ring), holes ...[4]float64) *features.Part {
	const up = 400.0 // of leg b's view
	a, b := rect(0, 0, length, legs[0]), rect(0, up, length, up+legs[1])
	if cut != nil {
		a, b = cut(a, b)
	}
	views := [2]features.LegView{
		{Outline: a, Heel: [2]geom.Point{pt(0, legs[0]), pt(length, legs[0])}, Toe: pt(0, -1)},
		{Outline: b, Heel: [2]geom.Point{pt(0, up), pt(length, up)}, Toe: pt(0, 1)},
	}
	for _, h := range holes {
		leg := int(h[0])
		v := &views[leg]
		v.Holes = append(v.Holes, circle(v.Heel[0].Add(v.Toe.Mul(h[1])).Add(pt(h[2], 0)), h[3]))
	}
	p, err := features.FoldOut(views)
	if err != nil {
		panic(err)
	}
	p.Name, p.Angle.ThicknessMM, p.Angle.From = name, t, "two views"
	for i := range p.Features {
		p.Features[i].Source = []features.Source{{Entity: int32(i % 3)}}
	}
	return &p
}

// listed gives an angle the section of a list.
func listed(p *features.Part, section string, root, mass float64) *features.Part {
	a := p.Angle
	a.Section, a.SectionList, a.RootMM, a.ToRootMM, a.MassKgM = section, "EN 10056-1", root, a.ThicknessMM+root, mass
	return p
}

func holeAt(p *features.Part, leg string, heel, start float64) *features.Feature {
	for i := range p.Features {
		if f := &p.Features[i]; f.IsInside() && f.Leg == leg && math.Abs(f.FromHeelMM-heel) < 0.1 && math.Abs(f.FromStartMM-start) < 0.1 {
			return f
		}
	}
	panic("no such hole")
}

// bracketReport: a short angle with holes in both legs and findings on both.
func bracketReport() *check.Report {
	p := listed(angleOf("bracket", [2]float64{100, 75}, 8, 200, nil,
		[4]float64{0, 55, 50, 22}, [4]float64{0, 55, 150, 22}, [4]float64{1, 45, 60, 18}, [4]float64{1, 25, 140, 18}), "L100x75x8", 10, 10.6)
	h, k := holeAt(p, "a", 55, 50), holeAt(p, "b", 25, 140)
	p.Angle.Hand = features.HandUnknown
	return judged("bracket.dxf", p, 8,
		span(finding("edge-distance", check.Error, 20, 26.4, "mm", "the hole is too near the edge", "move it", h.ID), h.At, pt(50, 0)),
		place(finding("punch-force", check.Warning, 300, 280, "kN", "near the limit", "drill it", k.ID), k.At))
}

// postReport: a 3 m angle that stands upright on the drawing, holes at its ends.
func postReport() *check.Report {
	p := listed(angleOf("post", [2]float64{75, 75}, 8, 3000, nil,
		[4]float64{0, 45, 60, 22}, [4]float64{0, 45, 135, 22}, [4]float64{1, 45, 2940, 22}, [4]float64{1, 45, 1400, 14}), "L75x75x8", 10, 8.99)
	turnAngle(p, math.Pi/2)
	h := holeAt(p, "b", 45, 2940)
	return judged("post.dxf", p, 8, place(finding("throat-reach", check.Error, 300, 250, "mm", "too far in", "drill it", h.ID), h.At))
}

// turnAngle turns an angle's part about the origin.
func turnAngle(p *features.Part, by float64) {
	m := geom.NewTurn(by)
	a := p.Angle
	p.Outline = p.Outline.Apply(m)
	p.Box = p.Outline.Bounds()
	for i := range p.Holes {
		p.Holes[i] = p.Holes[i].Apply(m)
	}
	for i := range p.Features {
		f := &p.Features[i]
		f.At, f.From, f.To, f.Ring, f.Open = m.Apply(f.At), m.Apply(f.From), m.Apply(f.To), f.Ring.Apply(m), f.Open.Apply(m)
		f.Mouth = [2]geom.Point{m.Apply(f.Mouth[0]), m.Apply(f.Mouth[1])}
	}
	for i := range a.Legs {
		l := &a.Legs[i]
		l.Ring, l.Toe = l.Ring.Apply(m), m.ApplyDir(l.Toe)
		l.Move = m.Inverse().Then(l.Move).Then(m)
	}
	a.Heel = [2]geom.Point{m.Apply(a.Heel[0]), m.Apply(a.Heel[1])}
}

// railReport: a mitred angle, a cope at the other end, many holes in one leg.
func railReport() *check.Report {
	var holes [][4]float64
	for i := range 14 {
		holes = append(holes, [4]float64{0, 30 + 2.5*float64(i%5), 100 + 60*float64(i), 9})
	}
	p := angleOf("rail", [2]float64{60, 60}, 6, 1000, func(a, b geom.Ring) (geom.Ring, geom.Ring) {
		return polygon(pt(0, 0), pt(1000, 0), pt(940, 60), pt(0, 60)), polygon(pt(50, 400), pt(940, 400), pt(880, 460), pt(0, 460), pt(0, 430), pt(50, 430))
	}, holes...)
	return judged("rail.dxf", p, 6, finding("mitre", check.Warning, 45, 45, "deg", "mitred at 45 deg", "saw it", "E1"))
}

// undrawnReport: one leg is drawn, the other taken as plain.
func undrawnReport() *check.Report {
	p := listed(angleOf("cleat", [2]float64{90, 60}, 8, 140, nil, [4]float64{0, 50, 40, 18}, [4]float64{0, 50, 100, 18}), "L90x60x8", 8, 8.97)
	p.Angle.Legs[1].Drawn, p.Angle.From = false, "one view"
	return judged("cleat.dxf", p, 8, finding("inside-corner", check.Note, 0, 3, "mm", "nothing of note", "", "E1"))
}

func angleReports() []namedReport {
	return []namedReport{{"angle bracket", bracketReport()}, {"angle post", postReport()}, {"angle rail", railReport()}, {"angle undrawn", undrawnReport()}}
}
