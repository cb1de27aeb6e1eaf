package check

import (
	"fmt"
	"slices"

	"burrside/features"
	"burrside/features/measure"
)

func toleranceParams() []Param {
	return []Param{
		{"stop", "mm", 0.5, 0.05, 3, "what a place or a length set by a stop keeps, plus or minus", shopPractice()},
		{"mark", "mm", 1, 0.1, 5, "what a place set by a mark keeps, plus or minus", shopPractice()},
	}
}

func ruleTolerance() Rule {
	return Rule{
		ID:    "tolerance",
		Title: "Places and lengths closer than a stop keeps",
		Why:   "A hole that is punched to a stop lies within half a millimetre or so, one punched to a mark within one. What is asked closer must be marked out, drilled to a jig or machined.",
		Measure: "Tolerances of dimensions, typed or shown by their style, and a general tolerance or one of position in the drawing's texts: a zone of 0.4 is as close as +-0.2. The band is halved: +0.2/-0 is as close as +-0.1. " +
			"Closer than a stop keeps is a warning, closer than a mark keeps a note. The sizes of holes are looked at by hole-process.",
		Fix:     "Ask for a wider tolerance, or drill to a jig.",
		Params:  toleranceParams(),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(60, 70, 22)
			b.p.Tolerances = append(b.p.Tolerances, features.Tolerance{Text: "60 ±0.2", PlusMM: 0.2, MinusMM: 0.2, Features: []string{"H1"}})
			return b.example("a plate 200 x 140 x 10 with a hole 60 ±0.2 from its edge", 10, "")
		},
		Part: checkTolerance,
	}
}

func checkTolerance(p *Pass) {
	for i := range p.Part.Tolerances {
		t := &p.Part.Tolerances[i]
		p.closeTolerance((t.PlusMM+t.MinusMM)/2, Finding{Features: slices.Clone(t.Features), Count: max(1, len(t.Features)), At: p.calledAt(t.At, t.Features), HasAt: true, Source: t.Source, cause: t.Text}, t.Text)
	}
	told := map[string]bool{}
	for _, line := range p.notes {
		kind, zone, ok := measure.GeometricTolerance(line)
		if !ok || kind != "position" || told[line] {
			continue
		}
		told[line] = true
		f := Finding{cause: line}
		f.At, f.HasAt = p.noteAt[line]
		p.closeTolerance(p.statedMM(zone)/2, f, line) // the zone is as wide as it says
	}
	for _, line := range p.notes {
		v, ok := measure.GeneralTolerance(line)
		if !ok || told[line] {
			continue
		}
		told[line] = true
		f := Finding{cause: line}
		f.At, f.HasAt = p.noteAt[line]
		p.closeTolerance(p.statedMM(v), f, line)
	}
}

// closeTolerance reports a tolerance, plus or minus half, that is closer than
// what a stop or a mark keeps.
func (p *Pass) closeTolerance(half float64, f Finding, text string) {
	stop, mark := p.Value("stop"), p.Value("mark")
	f.FixBy, f.Got = "shop", &Quantity{half, "mm"}
	switch {
	case isBelow(half, stop):
		f.Severity, f.Limit = Warning, &Quantity{stop, "mm"}
		f.Message = fmt.Sprintf("%q asks for +-%s; a stop keeps +-%s", text, p.length(half), p.length(stop))
		f.Fix = "ask for a wider tolerance, or drill to a jig"
	case isBelow(half, mark):
		f.Severity, f.Limit = Note, &Quantity{mark, "mm"}
		f.Message = fmt.Sprintf("%q asks for +-%s; a mark keeps +-%s", text, p.length(half), p.length(mark))
		f.Fix = "work to a stop, not to a mark"
	default:
		return
	}
	p.Report(f)
}
