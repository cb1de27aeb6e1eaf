package check

import (
	"math"

	"burrside/check/plan"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// section is the cross section of the part with the thickness that is judged.
func (p *Pass) section() station.Section { return plan.SectionOf(p.Part.Angle, p.Job.ThicknessMM) }

// otherLeg tells that an outline edge belongs to another leg than a feature: no
// metal leads from one to the other but round the heel.
func otherLeg(part *features.Part, f *features.Feature, e geom.Edge) bool {
	a := part.Angle
	return a != nil && f.Leg != "" && a.LegAt(e.Mid()) != a.LegOf(f)
}

// apartByHeel tells that two features lie in different legs.
func apartByHeel(f, g *features.Feature) bool { return f.Leg != "" && g.Leg != "" && f.Leg != g.Leg }

// outlineAround is the outline that a feature lies in: of an angle that of its
// leg, the heel included.
func outlineAround(part *features.Part, at geom.Point) geom.Ring {
	if a := part.Angle; a != nil {
		if r := a.Legs[a.LegAt(at)].Ring; len(r) > 0 {
			return r
		}
	}
	return part.Outline
}

// legFrame narrows a frame across the angle to the leg that a place lies in.
func legFrame(part *features.Part, fr frame, at geom.Point) frame {
	a := part.Angle
	if a == nil {
		return fr
	}
	leg := a.LegAt(at)
	_, heel := fr.at(a.Heel[0])
	_, toe := fr.at(a.Heel[0].Add(a.Legs[leg].Toe.Mul(a.LegMM[leg])))
	fr.minV, fr.maxV = math.Min(heel, toe), math.Max(heel, toe)
	return fr
}
