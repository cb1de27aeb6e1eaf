package check

import (
	"fmt"
	"math"

	"burrside/features"
	"burrside/features/geom"
)

// leastRadius is the least radius of an inside corner that the owner or the
// chosen code asks for, the larger where both do; 0 none is known.
func (p *Pass) leastRadius() (mm float64, source Cite) {
	ask := func(v float64, text string) {
		if v > mm {
			mm, source = v, Cite{Text: text}
		}
	}
	switch {
	case isAISC(p.Job.Code):
		// The note accepts 1/2 to 3/8 in (13 to 10 mm).
		v := 10.0
		if p.Inch {
			v = 25.4 * 3 / 8
		}
		ask(v, codeName(p.Job.Code)+" M2.2, note")
	case p.Job.Code == "en" && p.Job.ExecutionClass == 4:
		ask(10, "EN 1090-2 6.7")
	case p.Job.Code == "en" && p.Job.ExecutionClass != 1:
		ask(5, "EN 1090-2 6.7")
	}
	if p.Job.WeldCode == "aws" {
		v := 25.0
		if p.Inch {
			v = 25.4
		}
		ask(v, "AWS D1.1 re-entrant corners")
	}
	ask(p.Value("radius"), "the owner's rule")
	return mm, source
}

// smallRadii warns of inside corners whose radius is under the code's.
func (p *Pass) smallRadii() {
	least, source := p.leastRadius()
	if least == 0 {
		return
	}
	turned := p.Value("turn") * math.Pi / 180
	owner := p.distances().owner
	for i, e := range p.Part.Outline {
		// Clockwise along an outline that runs the other way round.
		if k := owner[i]; k >= 0 && e.IsArc() && e.Sweep() <= -turned {
			p.smallRadius(k, e.Radius, e.Mid(), least, source)
		}
	}
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		switch f.Kind {
		case features.RectangularHole, features.PolygonHole, features.Cutout:
		default:
			continue // a hole or a slot is no corner
		}
		for _, e := range f.Ring {
			if e.IsArc() && e.Sweep() >= turned {
				p.smallRadius(i, e.Radius, e.Mid(), least, source)
			}
		}
	}
}

func (p *Pass) smallRadius(feature int, radius float64, at geom.Point, least float64, source Cite) {
	// Drawings round their radii.
	if !isBelow(radius, least-0.05) {
		return
	}
	got, need := below(p.Shop, radius, least)
	f := Finding{Severity: Warning, Who: "designer", FixBy: "drawing", At: at, HasAt: true, Got: &Quantity{radius, "mm"}, Limit: &Quantity{least, "mm"},
		Message: fmt.Sprintf("inside corner of radius %s; %s: at least %s", got, source.Text, need), Sources: []string{source.Text},
		Fix: "would the designer accept the larger radius?", cause: "radius", worse: least - radius}
	p.Report(p.on(feature, f))
}
