package check

import (
	"fmt"
	"math"

	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
	"burrside/features/measure"
)

func insideCornerParams() []Param {
	return []Param{
		{"turn", "deg", 20, 5, 90, "least turn of the outline that counts as a sharp corner", Cite{}},
		{"radius", "mm", 0, 0, 60, "least radius of an inside corner, an owner's rule whatever code is chosen; 0 the code's", Cite{}},
	}
}

func ruleInsideCorner() Rule {
	return Rule{
		ID:    "inside-corner",
		Title: "Sharp inside corners",
		Why:   "A crack starts from a sharp inside corner when the part is loaded to and fro, galvanised, or bent beside it.",
		Measure: "Corners without a radius where the metal lies on the inside of the turn: in notches and cut-outs. " +
			"One note for the whole part; a warning when a code is chosen, and then also for radii under the code's: " +
			"AISC 360 3/8 in (10 mm; its note accepts 1/2 to 3/8 in for static loads, and sharp corners where both sides are joined to a mating part close by), " +
			"EN 1090-2 5 mm, in EXC4 10 mm, in EXC1 none; AWS D1.1 1 in (25 mm). IS 800 and CSA S16 are held to name no radius. A radius that the notcher does not leave is a warning of its own.",
		Fix:    "Punch a hole at the corner before the notch, or grind a radius.",
		Params: insideCornerParams(),
		Sources: []Cite{shopPractice(),
			{Text: "ANSI/AISC 360-22 M2.2, note"},
			{Text: "AWS D1.1:2010 5.16 (later editions 7.16), as quoted in a forum of the society"},
			{Text: "EN 1090-2, 6.7", Memory: true},
		},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.opening(100, 70, 40, 30)
			return b.example("an opening 40 x 30 with sharp corners in a plate 200 x 140 x 6", 6, "")
		},
		Part: checkInsideCorner,
	}
}

func checkInsideCorner(p *Pass) {
	p.AspectsFrom(station.Care)
	p.smallRadii()
	corners := p.sharpCorners()
	if len(corners) == 0 {
		return
	}
	sev, fix := Note, "punch a hole at each corner first, or grind a radius, where the part is loaded to and fro"
	leastMM, source := p.leastRadius()
	if p.Job.Code != "" || p.Job.WeldCode != "" || leastMM > 0 {
		sev = Warning
	}
	var ids []string
	seen := map[int]bool{}
	f := Finding{At: corners[0].at, HasAt: true}
	for _, c := range corners {
		if !seen[c.feature] {
			seen[c.feature] = true
			ids = append(ids, p.Part.Features[c.feature].ID)
			f.Source = append(f.Source, p.Part.Features[c.feature].Source...)
		}
	}
	f.Severity, f.Features, f.Fix, f.FixBy, f.Count = sev, ids, fix, "shop", len(corners)
	f.Message = plural(len(corners), "sharp inside corner")
	f.Basis = fmt.Sprintf("turns of more than %s deg without a radius", measure.FormatNumber(p.Value("turn"), 1))
	f.Sources = []string{shopPractice().Text}
	if leastMM > 0 {
		f.Message += fmt.Sprintf("; %s: a radius of at least %s", source.Text, p.length(leastMM))
		f.Got, f.Limit, f.Sources = &Quantity{0, "mm"}, &Quantity{leastMM, "mm"}, []string{source.Text}
		f.Fix = fmt.Sprintf("punch a hole of %s at each corner first and notch to it, or grind a radius", p.length(2*leastMM))
	}
	p.Report(f)
}

type corner struct {
	at      geom.Point
	feature int
}

// sharpCorners gives the corners where metal lies inside the turn, by feature
// and then along its contour.
func (p *Pass) sharpCorners() []corner {
	least := p.Value("turn") * math.Pi / 180
	byFeature := make([][]corner, len(p.Part.Features))
	n := len(p.Part.Outline)
	owner := p.distances().owner
	for i := 0; i < n; i++ {
		a, b := p.Part.Outline[i], p.Part.Outline[(i+1)%n]
		if turn(a, b) > -least || p.heelCorner(a, b) {
			continue
		}
		// The metal lies left of the outline: a turn to the right is an inside
		// corner.
		k := owner[i]
		if j := owner[(i+1)%n]; j >= 0 && (k < 0 || p.Part.Features[k].Kind != features.Notch) {
			k = j
		}
		if k >= 0 {
			byFeature[k] = append(byFeature[k], corner{a.To, k})
		}
	}
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		if !f.IsInside() {
			continue
		}
		for j := range f.Ring {
			a, b := f.Ring[j], f.Ring[(j+1)%len(f.Ring)]
			if len(f.Ring) > 1 && turn(a, b) >= least {
				byFeature[i] = append(byFeature[i], corner{a.To, i})
			}
		}
	}
	var out []corner
	for _, l := range byFeature {
		out = append(out, l...)
	}
	return out
}

// heelCorner tells that two edges of an angle's outline meet at the heel from
// different legs: what turns there in one plane is the angle itself.
func (p *Pass) heelCorner(a, b geom.Edge) bool {
	g := p.Part.Angle
	onHeel := func(e geom.Edge) bool { return g.FromHeelMM(e.Mid()) < 0.3 }
	return g != nil && !onHeel(a) && !onHeel(b) && g.LegAt(a.Mid()) != g.LegAt(b.Mid())
}

// turn is the change of direction from edge a to edge b at their common end,
// positive to the left, in -pi..pi.
func turn(a, b geom.Edge) float64 {
	s, t := a.EndDir(), b.StartDir()
	return math.Atan2(s.Cross(t), s.Dot(t))
}
