package check

import (
	"fmt"
	"math"

	"burrside/check/plan"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

func holeToBendParams() []Param {
	return []Param{
		{"care", "t", 2.5, 0.5, 10, "metal between a hole and the bend, times the thickness and plus the inside radius, below which it needs care", Cite{}},
		{"error", "t", 1.5, 0, 10, "the same below which it is an error", Cite{}},
		{"neutral", "t", 0.45, 0.3, 0.5, "depth of the neutral line under the inside of a bend, times the thickness: how wide the bend is in the flat", Cite{}},
	}
}

func ruleHoleToBend() Rule {
	return Rule{
		ID:    "hole-to-bend",
		Title: "Metal left between a hole and a bend",
		Why:   "The metal beside a bend flows: a hole too near is drawn to an oval, its edge bulges, and a bolt does not sit.",
		Measure: "From the contour of the hole to where the bend begins, in the flat: the bend line less half of the bend's width a (r + k t), with a the angle bent by. " +
			"Error below 1.5 t + r, warning below 2.5 t + r; equality passes. The inside radius r is the greater of what the die gives (V/6) and what the note beside the bend states. " +
			"Of an angle noted other than 90 degrees the error goes by the smaller and the warning by the greater of what it may mean. A hole that a bend ends at is its relief and is left alone.",
		Fix:     "Drill the hole after bending, or set it further off.",
		Params:  holeToBendParams(),
		Sources: []Cite{shopPractice(), {Text: "published guidelines differ from 1.5 t + r to 3 t + r"}},
		Example: func() Example {
			b := exampleBent("bracket", 200, 100)
			b.hole(128, 50, 14)
			return b.example("a hole Ø14 with its centre 28 mm from the bend line of a bracket 200 x 100 x 6, R8, 90 degrees", 6, "")
		},
		Part: checkHoleToBend,
	}
}

// bendOf is what is known of a bend beside which holes are looked at.
type bendOf struct {
	line     geom.Edge
	radiusMM float64
	from     string  // where the radius comes from
	least    float64 // half of the bend's width in the flat, mm, for an error
	most     float64 // the same for care
}

func checkHoleToBend(p *Pass) {
	if p.Part.Angle != nil || !hasKind(p.Part, features.Bend) {
		return
	}
	inside := false
	for i := range p.Part.Features {
		inside = inside || p.Part.Features[i].IsInside()
	}
	if !inside || p.noThickness() {
		return
	}
	for k := range p.Part.Features {
		if f := &p.Part.Features[k]; f.Kind == features.Bend && f.From.Dist(f.To) > 1e-6 {
			p.holesBeside(k, p.bendAt(k))
		}
		if p.ended() {
			return
		}
	}
}

// bendAt gathers what is known of bend k.
func (p *Pass) bendAt(k int) bendOf {
	f, t := &p.Part.Features[k], p.Job.ThicknessMM
	b := bendOf{line: geom.LineEdge(f.From, f.To)}
	var mk *plan.Make
	for i := range p.Plan.Makes {
		if p.Plan.Makes[i].Feature == k {
			mk = &p.Plan.Makes[i]
		}
	}
	switch {
	case mk != nil && mk.Use.BendRadiusMM > 0:
		b.radiusMM, b.from = mk.Use.BendRadiusMM, "of the die, V / 6"
	case !(f.RadiusMM > 0):
		b.radiusMM, b.from = station.AirBendRadiusMM(station.UsualVMM(t)), "of the usual die, V / 6"
	}
	if f.RadiusMM > b.radiusMM {
		b.radiusMM, b.from = f.RadiusMM, "as noted"
	}
	greater := station.BendAngle(f.BentRad)
	smaller := math.Pi / 2
	if f.BentRad > 0 {
		smaller = min(f.BentRad, math.Pi-f.BentRad)
	}
	half := func(angle float64) float64 { return angle * (b.radiusMM + p.Value("neutral")*t) / 2 }
	b.least, b.most = half(smaller), half(greater)
	return b
}

// holesBeside sets every hole against one bend.
func (p *Pass) holesBeside(k int, b bendOf) {
	t := p.Job.ThicknessMM
	limit := func(name string) float64 { return p.Value(name)*t + b.radiusMM }
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		if !f.IsInside() || f.CrossesOutline || len(f.Ring) == 0 || reliefOf(f, &b.line, t) {
			continue
		}
		best := math.Inf(1)
		var from, to geom.Point
		for _, e := range f.Ring {
			if a, z, d := geom.Closest(e, b.line); d < best-1e-9 || d < best+1e-9 && geom.ComparePlace(a, from) < 0 {
				best, from, to = min(best, d), a, z
			}
		}
		if f.Ring.Inside(b.line.From, 1e-6) == geom.In {
			best = 0
		}
		g := Finding{Features: []string{p.Part.Features[k].ID}, cause: "bend"}
		got, half, name := best-b.least, b.least, "error"
		switch need := limit("error"); {
		case isBelow(got, need):
			g.Severity, g.Who, g.FixBy = Error, "designer", "drawing"
			g.Fix, g.remedy = fmt.Sprintf("drill it after bending, or would the designer accept it %s further from the bend?", p.roundedUp(need-got)), "further off"
		default:
			got, half, name = best-b.most, b.most, "care"
			if !isBelow(got, limit(name)) {
				continue
			}
			g.Severity, g.FixBy = Warning, "shop"
			g.Fix = "bend first and drill after, or look at the hole once it is bent"
		}
		need := limit(name)
		g.At, g.HasAt = from, true
		g.To = &geom.Point{X: to.X, Y: to.Y}
		if best > half && best > 1e-9 {
			tangent := to.Add(from.Sub(to).Mul(half / best))
			g.To = &tangent
		}
		g.Got, g.Limit, g.worse = &Quantity{max(0, got), "mm"}, &Quantity{need, "mm"}, need-got
		if got <= 0 {
			g.Message = fmt.Sprintf("the %s lies in bend %s: %s of metal beside a bend is wanted", sizeText(p.Shop, f), p.Part.Features[k].ID, p.length(need))
		} else {
			a, z := below(p.Shop, got, need)
			g.Message = fmt.Sprintf("%s of metal between the %s and the start of bend %s, less than %s", a, sizeText(p.Shop, f), p.Part.Features[k].ID, z)
		}
		g.Basis = fmt.Sprintf("%s to the bend line - %s, half of the bend in the flat = %s; limit %s x %s + r %s (%s) = %s",
			p.length(best), p.length(half), p.length(got), measure.FormatNumber(p.Value(name), 2), p.length(t), p.length(b.radiusMM), b.from, p.length(need))
		p.Report(p.on(i, g))
	}
}

// reliefOf tells that a bend ends in or at a hole, within a thickness of it: the
// hole is there to let the bend end.
func reliefOf(f *features.Feature, line *geom.Edge, t float64) bool {
	for _, end := range []geom.Point{line.From, line.To} {
		if f.Ring.Inside(end, 1e-6) != geom.Out {
			return true
		}
		for _, e := range f.Ring {
			if e.Dist(end) <= t {
				// On the line itself only: a hole beside the end of a bend is no relief.
				if d := f.At.Sub(end); math.Abs(d.Cross(line.To.Sub(line.From).Unit())) <= max(f.DiameterMM, f.WidthMM)/4 {
					return true
				}
			}
		}
	}
	return false
}
