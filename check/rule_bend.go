package check

import (
	"fmt"

	"burrside/check/plan"
	"burrside/check/station"
	"burrside/features"
)

func ruleBend(set []station.Setting) Rule {
	return Rule{
		ID:      "bend",
		Title:   "Bend within the brake",
		Why:     "Too little tool, too small a die opening or too short a flange: the bend is not made, or slips.",
		Measure: "Over each die opening V of the brake: force C x Rm x L x t^2 / V against the usable force, that times r_rated / r where the tool stands nearer to or further from the pivot; way down V/2 tan(angle/2) against the stroke, that times r / r_rated; length; V at least 6 t (5 t under 3 mm); flange at least 0.7 V, to the edge or the next bend; inside radius V/6 against the least of the metal and against the note beside the bend. Without a brake, or without the tensile strength, it cannot be told.",
		Fix:     "Have it bent at a larger brake.",
		Params:  stationParams(set, "bend"),
		Sources: []Cite{shopPractice()},
		Example: func() Example {
			b := exampleBent("angle", 400, 300)
			return b.example("a plate 400 x 300 x 12 with a bend across", 12, "")
		},
		Part: checkBend,
	}
}

func checkBend(p *Pass) {
	byStations(p)
	p.bentEdges()
}

// bentEdges remarks, once a part, that a bend ends at an edge that a blade or a
// tool has hardened: its burr is where a crack begins.
func (p *Pass) bentEdges() {
	if !(p.Job.ThicknessMM > 0) {
		return
	}
	var ids []string
	first, what := -1, ""
	for k := range p.Part.Features {
		f := &p.Part.Features[k]
		if f.Kind != features.Bend {
			continue
		}
		for i, e := range p.Part.Outline {
			if i >= len(p.Plan.Edges) || min(e.Dist(f.From), e.Dist(f.To)) > 1 {
				continue
			}
			if kind := p.Plan.Edges[i]; kind == plan.EdgeSheared || kind == plan.EdgeNotched {
				if ids = append(ids, f.ID); first < 0 {
					first, what = k, string(kind)
				}
				break
			}
		}
	}
	if first < 0 {
		return
	}
	f := p.on(first, Finding{Severity: Note, FixBy: "shop", cause: "edge",
		Message: fmt.Sprintf("the bend runs out at a %s edge: its burr cracks first", what),
		Fix:     "bend with the smooth side of the edge outside, the burr dressed off"})
	f.Features = ids
	p.Report(f)
}
