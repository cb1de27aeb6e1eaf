package check

import (
	"fmt"
	"math"

	"burrside/check/plan"
	"burrside/features"
	"burrside/features/geom"
)

func ruleEdgeDistance() Rule {
	return Rule{
		ID:    "edge-distance",
		Title: "Distance of a bolt hole to an edge by the chosen code",
		Why: "A bolt too near an edge tears out. The code's least distances are the designer's business; the shop says where the " +
			"drawing is under them before it punches.",
		Measure: "From the hole's centre to the nearest point of the outline, or of an opening larger than the hole, exactly. " +
			"AISC 360-22: Table J3.4 (J3.4M) for the bolt, plus C2 of Table J3.5 for oversized and slotted holes; " +
			"under the table but not under 1.0 d is a warning, as less is allowed if bearing and tear-out are checked; under 1.0 d an error. " +
			"AISC 360-05 has a larger table for sheared edges. " +
			"EN 1993-1-8: e1, e2 >= 1.2 d0; of a slot e3, e4 >= 1.5 d0 from its axis and the centres of its ends; under it an error. " +
			"CSA S16: Table 6 for the bolt, larger at a sheared edge; IS 800: 1.5 d0, at a sheared or flame cut edge 1.7 d0; of slots from the centres of their ends; under it an error. " +
			"Whether an edge is sheared is taken from the plan (mill edge of the bar, sheared, notched, flame cut, ground); where that is not known, as sheared. " +
			"Only for bolt holes: named by a call-out, asked for, or of a size in the code's table (within 0.5 mm, 1/64 in) with at least two such holes. " +
			"In an angle to the edges of the hole's own leg; the heel is no edge. " +
			"Greatest distances only when asked: AISC and CSA min(12 t, 150 mm or 6 in), EN 4 t + 40 mm, of unprotected weathering steel max(8 t, 125 mm), IS 12 t times the root of 250/fy; by EN also less than the usual 2 d0; as notes.",
		Fix: "Ask the designer whether the edge may move out or the bolt may be smaller.",
		Sources: []Cite{
			{Text: "ANSI/AISC 360-22 Tables J3.3, J3.3M, J3.4, J3.4M, J3.5, J3.5M"},
			{Text: "ANSI/AISC 360-05 Table J3.4M (sheared edges, metric)"},
			{Text: "ANSI/AISC 360-05 Table J3.4 (sheared edges, inches)", Memory: true},
			{Text: "EN 1993-1-8:2005 Table 3.3"},
			{Text: "CSA S16-09 Table 6"},
			{Text: "CSA S16-09 22.3 (factors over M36, greatest distance, hole sizes)", Memory: true},
			{Text: "IS 800:2007 10.2.4.2 (1.5 d0)"},
			{Text: "IS 800:2007 10.2.4 (1.7 d0, greatest distance), Table 19", Memory: true},
			{Text: "EN 1090-2 Table 11 (hole sizes)", Memory: true},
		},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(25, 70, 22)
			b.hole(100, 70, 22)
			return b.example("two holes Ø22 in a plate 200 x 140 x 10, one 25 mm from the end, by EN 1993-1-8", 10, "en")
		},
		Part: checkEdgeDistance,
	}
}

func checkEdgeDistance(p *Pass) {
	if p.noCode() {
		return
	}
	bolts, others := p.boltHoles()
	if len(others) > 0 {
		p.Skip("not a bolt hole: %s", idList(others))
	}
	for i := range bolts {
		b := &bolts[i]
		switch p.Job.Code {
		case "en":
			p.enEdge(b)
		case "csa":
			p.csaEdge(b)
		case "is":
			p.isEdge(b)
		default:
			p.aiscEdge(b)
		}
		if p.Job.Exposure {
			p.greatestEdge(b)
		}
	}
}

// edgePiece is a piece of edge seen from a hole.
type edgePiece struct {
	e     geom.Edge
	words string
	kind  plan.EdgeKind // how the edge comes to be
}

// edgesNear gives the pieces of edge within reach (mm) of a bolt hole: the
// outline, and openings larger than the hole.
func (p *Pass) edgesNear(b *boltHole, reach float64) []edgePiece {
	m := p.distances()
	box := b.spine().Bounds().Grow(reach)
	var out []edgePiece
	for id := range m.outline.Near(box) {
		if otherLeg(p.Part, &p.Part.Features[b.feature], m.outline.Edge(id)) {
			continue
		}
		out = append(out, edgePiece{m.outline.Edge(id), p.edgeWords(&gap{edge: id, feature: m.owner[id]}), p.outlineKind(id)})
	}
	for id := range m.inner.Near(box) {
		f := &p.Part.Features[m.of[id]]
		if m.of[id] == b.feature || !isOpening(f, b.widthMM) || apartByHeel(f, &p.Part.Features[b.feature]) {
			continue
		}
		out = append(out, edgePiece{m.inner.Edge(id), "edge of the opening " + f.ID, p.openingKind(m.of[id])})
	}
	return out
}

// isOpening tells that a hole is an opening whose edge counts as an edge of the
// part for a bolt hole of that size: any shape but round and slotted, and those
// when they are twice as wide.
func isOpening(f *features.Feature, boltHoleMM float64) bool {
	switch f.Kind {
	case features.RectangularHole, features.PolygonHole, features.Cutout:
		return true
	case features.RoundHole, features.HoleWithSeat, features.TappedHole:
		return f.DiameterMM >= 2*boltHoleMM
	case features.Slot, features.CurvedSlot:
		return f.WidthMM >= 2*boltHoleMM
	}
	return false
}

// edgeMiss is the worst miss of a least edge distance.
type edgeMiss struct {
	got, need float64
	from, to  geom.Point
	edge      edgePiece
	reading   boltReading
	smoothMM  float64 // what would do at an edge that is not sheared; 0 the same
	found     bool
}

func (m *edgeMiss) offer(n edgeMiss) {
	if !isBelow(n.got, n.need) {
		return
	}
	lack, old := n.need-n.got, m.need-m.got
	if m.found && (lack < old-1e-7 || lack < old+1e-7 && geom.ComparePlace(n.to, m.to) >= 0) {
		return
	}
	*m, m.found = n, true
}

func (p *Pass) enEdge(b *boltHole) {
	need, what := float64(enEdgeFactor*b.widthMM), "1.2 x d0 = 1.2 x "
	spine := b.spine()
	if b.slot {
		need, what = enSlotFactor*b.widthMM, "1.5 x d0 = 1.5 x "
	}
	var miss edgeMiss
	for _, e := range p.edgesNear(b, need) {
		from, to, d := geom.Closest(spine, e.e)
		miss.offer(edgeMiss{got: d, need: need, from: from, to: to, edge: e})
	}
	if miss.found {
		p.reportEdge(b, &miss, Error, fmt.Sprintf("%s%s = %s", what, p.length(b.widthMM), p.length(need)))
	}
}

func (p *Pass) aiscEdge(b *boltHole) {
	reach := 0.0
	for i := range b.readings {
		reach = max(reach, b.readings[i].shearedMM+b.readings[i].addMM)
	}
	var miss edgeMiss
	for _, e := range p.edgesNear(b, reach) {
		to := e.e.Nearest(b.centre)
		d := to.Dist(b.centre)
		// C2 counts where the long axis points to the edge; within 5 degrees of
		// along it, it does not.
		along := b.slot && d > 0 && abs(to.Sub(b.centre).Unit().Dot(b.axis)) < math.Sin(5*math.Pi/180)
		for i := range b.readings {
			r := &b.readings[i]
			n := edgeMiss{got: d, need: r.needMM(along, p.isRough(e.kind)), from: b.centre, to: to, edge: e, reading: *r}
			if r.shearedMM > r.edgeMM {
				n.smoothMM = r.needMM(along, false)
			}
			miss.offer(n)
		}
	}
	if !miss.found {
		return
	}
	sev, d := Warning, b.boltMM()
	if isBelow(miss.got, d) {
		sev = Error
	}
	r := &miss.reading
	table := r.edgeMM
	if p.isRough(miss.edge.kind) {
		table = r.shearedMM
	}
	basis := fmt.Sprintf("%s: %s by the table", r.describe(), p.length(table))
	if r.addMM > 0 {
		if miss.need > table {
			basis += fmt.Sprintf(" + C2 %s = %s", p.length(r.addMM), p.length(miss.need))
		} else {
			basis += ", C2 0 along the edge"
		}
	}
	basis += fmt.Sprintf("; error below 1.0 d = %s", p.length(d))
	p.reportEdge(b, &miss, sev, basis)
}

func (p *Pass) reportEdge(b *boltHole, m *edgeMiss, sev Severity, basis string) {
	f := &p.Part.Features[b.feature]
	got, need := below(p.Shop, m.got, m.need)
	where := m.edge.words
	if m.smoothMM > 0 {
		where += edgeKindWords(where, m.edge.kind)
	}
	msg := fmt.Sprintf("%s is %s from the %s, %s needs %s", sizeText(p.Shop, f), got, where, codeName(p.Job.Code), need)
	if sev == Warning {
		msg += " unless bearing and tear-out are checked"
	}
	if b.note != "" {
		msg += " (" + b.note + ")"
	}
	who := "designer"
	fix, fixBy := fmt.Sprintf("would the designer accept the edge %s further out, or a smaller bolt?", p.roundedUp(m.need-m.got)), "drawing"
	if m.smoothMM > 0 && m.smoothMM < m.need && !isBelow(m.got, m.smoothMM) {
		fix, fixBy = fmt.Sprintf("make that edge a mill edge, or saw or grind it: %s does there", p.length(m.smoothMM)), "shop"
		who = "shop"
		basis += fmt.Sprintf("; %s at an edge that is not sheared", p.length(m.smoothMM))
	}
	rays := p.axisRays(b.centre)
	p.Report(p.on(b.feature, Finding{
		Severity: sev, Who: who, At: m.from, HasAt: true, To: &geom.Point{X: m.to.X, Y: m.to.Y},
		Got: &Quantity{m.got, "mm"}, Limit: &Quantity{m.need, "mm"}, Message: msg,
		Basis: fmt.Sprintf("%s; centre to edge along the blank %s and %s, across it %s and %s", basis,
			p.length(rays[0]), p.length(rays[1]), p.length(rays[2]), p.length(rays[3])),
		Fix: fix, FixBy: fixBy, Sources: codeSources(p.Job.Code), worse: m.need - m.got, remedy: "edge further out" + fixBy,
	}))
}

// roundedUp writes a length rounded up to 1 mm, in inch shops to 1/16 in.
func (p *Pass) roundedUp(mm float64) string {
	step := 1.0
	if p.Shop.Units == "in" {
		step = 25.4 / 16
	}
	return p.length(math.Ceil(mm/step-1e-6) * step)
}
