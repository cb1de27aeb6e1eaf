package render

import (
	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

// angleJSON adds what an angle has beside a flat part.
func angleJSON(j *jsonPart, p *check.PartReport) {
	a := p.Part.Angle
	if a == nil {
		return
	}
	if a.LegMM[0] > 0 && a.LegMM[1] > 0 {
		legs := jsonAt(a.LegMM[0], a.LegMM[1])
		j.LegsMM = &legs
	}
	j.LengthMM, j.Section, j.SectionList, j.SectionText = known(a.LengthMM), a.Section, a.SectionList, a.SectionText.Text
	j.MassKgM, j.RootRadiusMM, j.ToRootMM = known(a.MassKgM), known(a.RootMM), known(a.ToRootMM)
	j.ViewsFrom, j.Hand = a.From, string(a.Hand)
	if net := p.Plan; net != nil && net.Work.NetKG > 0 {
		j.MassKG = known(net.Work.NetKG)
	}
	for i := range j.Features {
		f, of := &j.Features[i], &p.Part.Features[i]
		f.Leg = of.Leg
		if of.Kind != features.StraightCut {
			f.FromHeelMM, f.FromEndMM = knownOrZero(of.FromHeelMM), knownOrZero(of.FromStartMM)
		}
	}
}

// placesJSON turns places of the part's own frame to those of the drawing, where
// leg b of an angle stands elsewhere and a view may be drawn to a scale.
func placesJSON(j *jsonPart, p *check.PartReport) {
	s := &p.Part.Scale
	if s.Factor > 0 {
		j.Scale = &jsonScale{Ratio: s.Ratio, Factor: s.Factor, From: s.From}
	}
	if p.Part.Angle == nil && s.Factor <= 0 {
		return
	}
	onDrawing := func(q *jsonPoint) {
		if q != nil {
			d := p.Part.OnDrawing(geom.Point{X: q[0], Y: q[1]})
			*q = jsonAt(d.X, d.Y)
		}
	}
	for i := range j.Features {
		f := &j.Features[i]
		onDrawing(&f.AtMM)
		onDrawing(f.FromMM)
		onDrawing(f.ToMM)
		for k := range f.OpenAtMM {
			onDrawing(&f.OpenAtMM[k])
		}
	}
	for i := range j.Findings {
		// Without a feature the place is that of a text or a line of the drawing.
		if f := &j.Findings[i]; len(f.Features) > 0 {
			onDrawing(f.AtMM)
			onDrawing(f.ToMM)
		}
	}
	if j.Datum != nil && p.Part.Angle == nil {
		onDrawing(&j.Datum.AtMM)
	}
}

// knownOrZero is a distance that may well be 0.
func knownOrZero(v float64) *float64 {
	if !finite(v) {
		return nil
	}
	v = round4(v)
	return &v
}
