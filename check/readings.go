package check

import (
	"context"
	"strings"

	"burrside/check/plan"
	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

// unitsUnsure tells that the drawing may be in another unit.
func unitsUnsure(u *features.Units) bool { return u.Doubt || u.From == features.UnitsUnknown }

// otherUnit is the second reading of a drawing whose unit is unsure: what the
// evidence speaks for, else inch for millimetres and millimetres for all else.
func otherUnit(u *features.Units) (name string, mm float64) {
	if u.Other != "" && u.OtherMM > 0 && u.Other != u.Name {
		return u.Other, u.OtherMM
	}
	if u.Name == "mm" || u.Name == "" {
		return "in", 25.4
	}
	return "mm", 1
}

// readOtherwise judges the drawing in its other unit too. Does-not-fit stands
// only if it comes out in both; nothing else is sure. The two are never mixed.
func readOtherwise(ctx context.Context, rep *Report, job plan.Job) {
	u := rep.Sheet.Units
	name, mm := otherUnit(&u)
	k := 1.0
	if u.MM > 0 {
		k = mm / u.MM
	}
	first := Reading{Unit: u.Name, MM: u.MM, Parts: rep.Parts}
	second := Reading{Unit: name, MM: mm}
	for i := range rep.Sheet.Parts {
		c := around(rep.Sheet, i, rep.Findings)
		c.ctx = ctx
		c.inch = name == "in" || name == "ft"
		c.faults = nil // their places and sizes are of the first reading
		c.doubt, c.shaky = "the unit of the drawing", true
		second.Parts = append(second.Parts, judge(scalePart(&rep.Sheet.Parts[i], k), rep.Shop, job, c))
	}
	if ctx.Err() != nil {
		return
	}
	for i, p := range rep.Parts {
		q := second.Parts[i]
		if hasError(p) && hasError(q) && !mayBeNone(p.Part) {
			p.Verdict, p.Reason = DoesNotFit, firstError(p)
			q.Verdict, q.Reason = DoesNotFit, firstError(q)
		}
	}
	rep.Verdict = drawingVerdict(rep.Findings, rep.Parts)
	first.Verdict, second.Verdict = rep.Verdict, drawingVerdict(rep.Findings, second.Parts)
	rep.Readings = []Reading{first, second}
}

func hasError(p *PartReport) bool { return firstError(p) != "" }

func firstError(p *PartReport) string {
	for i := range p.Findings {
		if f := &p.Findings[i]; f.Severity == Error && !f.CannotTell {
			return reasonText(f)
		}
	}
	return ""
}

// scalePart is the part with every drawn length times k. What its text states
// is scaled only where the text has no unit of its own; a thickness that a view
// shows is drawn like any other length.
func scalePart(p *features.Part, k float64) *features.Part {
	q := *p
	if p.Thickness.From == "view" {
		q.Thickness.MM *= k
	} else if n, ok := measure.PlateNote(p.Thickness.Text); ok && n.Gauge == 0 && n.Thickness.Unit == "" && !strings.Contains(p.Thickness.Text, "/") {
		q.Thickness.MM *= k
	}
	q.Outline = scaleRing(p.Outline, k)
	q.Holes = make([]geom.Ring, len(p.Holes))
	for i, r := range p.Holes {
		q.Holes[i] = scaleRing(r, k)
	}
	q.Box = geom.Box{Min: p.Box.Min.Mul(k), Max: p.Box.Max.Mul(k)}
	q.AreaMM2, q.PerimeterMM = p.AreaMM2*k*k, p.PerimeterMM*k
	q.Features = make([]features.Feature, len(p.Features))
	for i := range p.Features {
		q.Features[i] = scaleFeature(p.Features[i], k)
	}
	q.Angle = scaleAngle(p.Angle, k)
	q.Patterns = make([]features.Pattern, len(p.Patterns))
	for i, t := range p.Patterns {
		pitch := make([]float64, len(t.PitchMM))
		for j, v := range t.PitchMM {
			pitch[j] = v * k
		}
		t.PitchMM = pitch
		q.Patterns[i] = t
	}
	q.CallOuts = make([]features.CallOut, len(p.CallOuts))
	for i, c := range p.CallOuts {
		if call, ok := measure.HoleCallOut(c.Text); ok && call.Diameter.Unit == "" && !call.Diameter.Fraction {
			c.DiameterMM *= k
		}
		q.CallOuts[i] = c
	}
	q.DrawnAt = make([]features.Placement, len(p.DrawnAt))
	for i, d := range p.DrawnAt {
		d.Origin = d.Origin.Mul(k)
		q.DrawnAt[i] = d
	}
	q.Doubts = make([]features.Doubt, len(p.Doubts))
	for i, d := range p.Doubts {
		d.At = d.At.Mul(k)
		q.Doubts[i] = d
	}
	return &q
}

func scaleFeature(f features.Feature, k float64) features.Feature {
	for _, v := range []*float64{&f.DiameterMM, &f.SeatMM, &f.WidthMM, &f.LengthMM, &f.CutLengthMM, &f.DepthMM, &f.RadiusMM,
		&f.BottomMM, &f.CornerRadiusMM, &f.AcrossFlatsMM, &f.PerimeterMM, &f.FromHeelMM, &f.FromStartMM,
		&f.Long[0], &f.Long[1]} {
		*v *= k
	}
	f.AreaMM2 *= k * k
	f.At, f.From, f.To = f.At.Mul(k), f.From.Mul(k), f.To.Mul(k)
	f.Mouth[0], f.Mouth[1] = f.Mouth[0].Mul(k), f.Mouth[1].Mul(k)
	f.Ring, f.Open = scaleRing(f.Ring, k), scaleRing(f.Open, k)
	steps := make([][2]float64, len(f.Steps))
	for i, s := range f.Steps {
		steps[i] = [2]float64{s[0] * k, s[1] * k}
	}
	f.Steps = steps
	return f
}

// scaleAngle scales what an angle has beside its features. A listed section is
// one of its own size: scaled it is none.
func scaleAngle(a *features.Angle, k float64) *features.Angle {
	if a == nil {
		return nil
	}
	b := *a
	for _, v := range []*float64{&b.LegMM[0], &b.LegMM[1], &b.ThicknessMM, &b.LengthMM, &b.RootMM, &b.ToRootMM} {
		*v *= k
	}
	b.Section, b.SectionList, b.MassKgM = "", "", 0
	b.Heel[0], b.Heel[1] = b.Heel[0].Mul(k), b.Heel[1].Mul(k)
	for i := range b.Legs {
		b.Legs[i].Ring = scaleRing(b.Legs[i].Ring, k)
		b.Legs[i].Move.Shift = b.Legs[i].Move.Shift.Mul(k)
	}
	return &b
}

func scaleRing(r geom.Ring, k float64) geom.Ring {
	if r == nil {
		return nil
	}
	out := make(geom.Ring, len(r))
	for i, e := range r {
		e.From, e.To, e.Centre, e.Radius = e.From.Mul(k), e.To.Mul(k), e.Centre.Mul(k), e.Radius*k
		out[i] = e
	}
	return out
}
