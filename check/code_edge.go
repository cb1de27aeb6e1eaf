package check

import (
	"fmt"
	"strings"

	"burrside/check/plan"
	"burrside/features/geom"
)

// outlineKind tells how an edge of the outline comes to be by the plan. On an
// assumed blank what is called a mill edge is a guess, and is not known.
func (p *Pass) outlineKind(edge int) plan.EdgeKind {
	if p.Plan == nil || edge >= len(p.Plan.Edges) || p.Plan.Edges[edge] == "" {
		return plan.EdgeUnknown
	}
	kind := p.Plan.Edges[edge]
	if kind == plan.EdgeMill && p.Plan.Blank.Assumed {
		return plan.EdgeUnknown
	}
	return kind
}

// openingKind tells how the edge of a hole comes to be.
func (p *Pass) openingKind(feature int) plan.EdgeKind {
	if p.Plan == nil {
		return plan.EdgeUnknown
	}
	for i := range p.Plan.Makes {
		if m := &p.Plan.Makes[i]; m.Feature == feature {
			switch m.MadeBy {
			case "punch", "notch":
				return plan.EdgeSheared
			case "thermal", "bought":
				return plan.EdgeThermal
			}
		}
	}
	return plan.EdgeUnknown
}

// isRough tells that an edge takes the distance of a sheared one: sheared,
// notched, or of a kind that is not known. A flame cut edge is as good as a
// rolled one in CSA S16 and AISC 360-05; IS 800 counts so only one cut by
// machine, which a plan does not tell.
func (p *Pass) isRough(kind plan.EdgeKind) bool {
	switch kind {
	case plan.EdgeMill, plan.EdgeGround:
		return false
	case plan.EdgeThermal:
		return p.Job.Code == "is"
	}
	return true
}

// edgeKindWords follow the name of an edge where its kind matters and the name
// does not tell it.
func edgeKindWords(words string, kind plan.EdgeKind) string {
	switch {
	case strings.Contains(words, string(kind)):
		return ""
	case kind == plan.EdgeMill || kind == plan.EdgeGround || kind == plan.EdgeSheared || kind == plan.EdgeNotched:
		return " (" + string(kind) + ")"
	case kind == plan.EdgeThermal:
		return " (flame cut)"
	}
	if strings.Contains(words, string(plan.EdgeMill)) {
		return " (of an assumed blank, so taken as sheared)"
	}
	return " (taken as sheared, as its kind is not known)"
}

// csaEdge measures by CSA S16 Table 6. Of a slot the nearest place of the bolt
// counts: the centre of its end.
func (p *Pass) csaEdge(b *boltHole) {
	reach := 0.0
	for i := range b.readings {
		reach = max(reach, b.readings[i].shearedMM)
	}
	spine := b.spine()
	var miss edgeMiss
	for _, e := range p.edgesNear(b, reach) {
		from, to, d := geom.Closest(spine, e.e)
		for i := range b.readings {
			r := &b.readings[i]
			n := edgeMiss{got: d, need: r.edgeMM, from: from, to: to, edge: e, reading: *r, smoothMM: r.edgeMM}
			if p.isRough(e.kind) {
				n.need = r.shearedMM
			}
			miss.offer(n)
		}
	}
	if miss.found {
		r := &miss.reading
		p.reportEdge(b, &miss, Error, fmt.Sprintf("%s: %s by the table, %s at a sheared edge", r.describe(), p.length(r.edgeMM), p.length(r.shearedMM)))
	}
}

// isEdge measures by IS 800: 1.5 d0, at sheared and hand flame cut edges 1.7 d0.
// Of a slot the centre of its end counts, d0 its width.
func (p *Pass) isEdge(b *boltHole) {
	smooth, rough := float64(isEdgeFactor*b.widthMM), float64(isShearedFactor*b.widthMM)
	spine := b.spine()
	var miss edgeMiss
	for _, e := range p.edgesNear(b, rough) {
		from, to, d := geom.Closest(spine, e.e)
		n := edgeMiss{got: d, need: smooth, from: from, to: to, edge: e, smoothMM: smooth}
		if p.isRough(e.kind) {
			n.need = rough
		}
		miss.offer(n)
	}
	if !miss.found {
		return
	}
	factor := isEdgeFactor
	if p.isRough(miss.edge.kind) {
		factor = isShearedFactor
	}
	p.reportEdge(b, &miss, Error, fmt.Sprintf("%g x d0 = %g x %s = %s", factor, factor, p.length(b.widthMM), p.length(miss.need)))
}
