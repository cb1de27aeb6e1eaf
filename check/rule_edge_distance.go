package check

import (
	"fmt"
	"math"

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
			"EN 1993-1-8: e1, e2 >= 1.2 d0; of a slot e3, e4 >= 1.5 d0 from its axis and the centres of its ends; under it an error. " +
			"Only for bolt holes: named by a call-out, asked for, or of a size in the code's table (within 0.5 mm, 1/64 in) with at least two such holes. " +
			"In an angle to the edges of the hole's own leg; the heel is no edge. " +
			"Greatest distances only when asked: AISC min(12 t, 150 mm or 6 in), EN 4 t + 40 mm; as notes.",
		Fix: "Ask the designer whether the edge may move out or the bolt may be smaller.",
		Sources: []Cite{
			{Text: "ANSI/AISC 360-22 Tables J3.3, J3.3M, J3.4, J3.4M, J3.5, J3.5M"},
			{Text: "EN 1993-1-8:2005 Table 3.3"},
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

// codeSources cites the tables of the chosen code.
func codeSources(code string) []string {
	if code == "en" {
		return []string{"EN 1993-1-8:2005 Table 3.3"}
	}
	return []string{"ANSI/AISC 360-22 Tables J3.3, J3.4, J3.5 (in metric: J3.3M, J3.4M, J3.5M)"}
}

// noCode tells that no code is chosen, and says so.
func (p *Pass) noCode() bool {
	if p.Job.Code == "aisc" || p.Job.Code == "en" {
		return false
	}
	if p.Job.Code == "" {
		p.Skip("no code chosen: --code aisc or en")
	} else {
		p.Skip("unknown code %q", p.Job.Code)
	}
	return true
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
		if p.Job.Code == "en" {
			p.enEdge(b)
		} else {
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
		out = append(out, edgePiece{m.outline.Edge(id), p.edgeWords(&gap{edge: id, feature: m.owner[id]})})
	}
	for id := range m.inner.Near(box) {
		f := &p.Part.Features[m.of[id]]
		if m.of[id] == b.feature || !isOpening(f, b.widthMM) || apartByHeel(f, &p.Part.Features[b.feature]) {
			continue
		}
		out = append(out, edgePiece{m.inner.Edge(id), "edge of the opening " + f.ID})
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
	words     string
	reading   aiscReading
	found     bool
}

func (m *edgeMiss) offer(got, need float64, from, to geom.Point, words string, r aiscReading) {
	if !isBelow(got, need) {
		return
	}
	lack, old := need-got, m.need-m.got
	if m.found && (lack < old-1e-7 || lack < old+1e-7 && geom.ComparePlace(to, m.to) >= 0) {
		return
	}
	*m = edgeMiss{got, need, from, to, words, r, true}
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
		miss.offer(d, need, from, to, e.words, aiscReading{})
	}
	if miss.found {
		p.reportEdge(b, &miss, Error, fmt.Sprintf("%s%s = %s", what, p.length(b.widthMM), p.length(need)))
	}
}

func (p *Pass) aiscEdge(b *boltHole) {
	reach := 0.0
	for i := range b.aisc {
		reach = max(reach, b.aisc[i].edgeMM+b.aisc[i].addMM)
	}
	var miss edgeMiss
	for _, e := range p.edgesNear(b, reach) {
		to := e.e.Nearest(b.centre)
		d := to.Dist(b.centre)
		// C2 counts where the long axis points to the edge; within 5 degrees of
		// along it, it does not.
		along := b.slot && d > 0 && abs(to.Sub(b.centre).Unit().Dot(b.axis)) < math.Sin(5*math.Pi/180)
		for i := range b.aisc {
			r := &b.aisc[i]
			miss.offer(d, r.needMM(along), b.centre, to, e.words, *r)
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
	basis := fmt.Sprintf("%s: %s by the table", r.describe(), p.length(r.edgeMM))
	if r.needMM(false) > r.edgeMM {
		if miss.need > r.edgeMM {
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
	msg := fmt.Sprintf("%s is %s from the %s, %s needs %s", sizeText(p.Shop, f), got, m.words, codeName(p.Job.Code), need)
	if sev == Warning {
		msg += " unless bearing and tear-out are checked"
	}
	if b.note != "" {
		msg += " (" + b.note + ")"
	}
	rays := p.axisRays(b.centre)
	p.Report(p.on(b.feature, Finding{
		Severity: sev, Who: "designer", At: m.from, HasAt: true, To: &geom.Point{X: m.to.X, Y: m.to.Y},
		Got: &Quantity{m.got, "mm"}, Limit: &Quantity{m.need, "mm"}, Message: msg,
		Basis: fmt.Sprintf("%s; centre to edge along the blank %s and %s, across it %s and %s", basis,
			p.length(rays[0]), p.length(rays[1]), p.length(rays[2]), p.length(rays[3])),
		Fix:   fmt.Sprintf("would the designer accept the edge %s further out, or a smaller bolt?", p.roundedUp(m.need-m.got)),
		FixBy: "drawing", Sources: codeSources(p.Job.Code), worse: m.need - m.got, remedy: "edge further out",
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

// greatestEdge notes a bolt hole further from every edge than the code's
// greatest distance. Sources: AISC 360-22 J3.6 (12 t, 6 in or 150 mm);
// EN 1993-1-8:2005 Table 3.3 (4 t + 40 mm, exposed steel).
func (p *Pass) greatestEdge(b *boltHole) {
	if p.noThickness() {
		return
	}
	t := p.Job.ThicknessMM
	limit := 4*t + 40
	basis := fmt.Sprintf("4 t + 40 mm = 4 x %s + 40 mm", p.length(t))
	if p.Job.Code == "aisc" {
		limit = greatestEdgeAISC(t, p.Inch)
		basis = fmt.Sprintf("min(12 t, 150 mm or 6 in), t = %s", p.length(t))
	}
	got, to := math.Inf(1), geom.Point{}
	for _, e := range p.edgesNear(b, p.Part.Box.Width()+p.Part.Box.Height()) {
		if q := e.e.Nearest(b.centre); q.Dist(b.centre) < got {
			got, to = q.Dist(b.centre), q
		}
	}
	if math.IsInf(got, 1) || !isAbove(got, limit) {
		return
	}
	p.Report(p.on(b.feature, Finding{
		Severity: Note, Who: "designer", At: b.centre, HasAt: true, To: &to,
		Got: &Quantity{got, "mm"}, Limit: &Quantity{limit, "mm"}, Basis: basis,
		Message: fmt.Sprintf("the nearest edge is %s away, more than the code's greatest distance of %s for exposed steel", p.length(got), p.length(limit)),
		FixBy:   "drawing", Sources: codeSources(p.Job.Code), cause: "greatest", worse: got - limit,
	}))
}

// greatestEdgeAISC is min(12 t, 6 in), in metric min(12 t, 150 mm).
// Source: AISC 360-22 J3.6.
func greatestEdgeAISC(thicknessMM float64, inch bool) float64 {
	if inch {
		return min(12*thicknessMM, 6*25.4)
	}
	return min(12*thicknessMM, 150)
}
