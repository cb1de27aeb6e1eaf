package check

import (
	"fmt"
	"math"

	"burrside/features/geom"
)

// greatestEdge notes a bolt hole further from every edge than the code's
// greatest distance, and by EN one nearer than is usual.
func (p *Pass) greatestEdge(b *boltHole) {
	if p.noThickness() {
		return
	}
	limit, basis, ok := p.greatestEdgeMM()
	if !ok {
		return
	}
	got, to := math.Inf(1), geom.Point{}
	for _, e := range p.edgesNear(b, p.Part.Box.Width()+p.Part.Box.Height()) {
		if q := e.e.Nearest(b.centre); q.Dist(b.centre) < got {
			got, to = q.Dist(b.centre), q
		}
	}
	f := Finding{Severity: Note, Who: "designer", At: b.centre, HasAt: true, To: &to,
		Got: &Quantity{got, "mm"}, FixBy: "drawing", Sources: codeSources(p.Job.Code)}
	least := float64(2 * b.widthMM)
	switch {
	case math.IsInf(got, 1):
		return
	case isAbove(got, limit):
		f.Limit, f.Basis, f.cause, f.worse = &Quantity{limit, "mm"}, basis, "greatest", got-limit
		f.Message = fmt.Sprintf("the nearest edge is %s away, more than the code's greatest distance of %s for exposed steel", p.length(got), p.length(limit))
	case p.Job.Code == "en" && !b.slot && isBelow(got, least) && !isBelow(got, enEdgeFactor*b.widthMM):
		f.Limit, f.Basis, f.cause, f.worse = &Quantity{least, "mm"}, "2 d0 is usual, 1.2 d0 the least; common practice, no source", "preferred", least-got
		f.Message = fmt.Sprintf("the nearest edge is %s away; 2 d0 = %s is usual", p.length(got), p.length(least))
	default:
		return
	}
	p.Report(p.on(b.feature, f))
}

// greatestEdgeMM is the greatest distance of a bolt hole to the nearest edge.
// Sources: AISC 360-22 J3.6, min(12 t, 6 in or 150 mm); EN 1993-1-8:2005 Table
// 3.3, 4 t + 40 mm, of unprotected weathering steel the larger of 8 t and
// 125 mm; CSA S16 22.3.4, min(12 t, 150 mm), and IS 800:2007 10.2.4.3, 12 t
// times the root of 250/fy, both from memory.
func (p *Pass) greatestEdgeMM() (mm float64, basis string, ok bool) {
	t := p.Job.ThicknessMM
	switch p.Job.Code {
	case "en":
		if p.Job.Weathering {
			return max(8*t, 125), fmt.Sprintf("max(8 t, 125 mm), t = %s, unprotected weathering steel", p.length(t)), true
		}
		return 4*t + 40, fmt.Sprintf("4 t + 40 mm = 4 x %s + 40 mm", p.length(t)), true
	case "is":
		if !(p.Job.Material != nil && p.Job.Material.YieldMPa > 0) {
			p.Skip("the greatest edge distance needs the yield strength of the material")
			return 0, "", false
		}
		fy := p.Job.Material.YieldMPa
		return 12 * t * math.Sqrt(250/fy), fmt.Sprintf("12 t x root of 250/fy, t = %s, fy = %g MPa", p.length(t), fy), true
	case "csa":
		return min(12*t, 150), fmt.Sprintf("min(12 t, 150 mm), t = %s", p.length(t)), true
	}
	return greatestEdgeAISC(t, p.Inch), fmt.Sprintf("min(12 t, 150 mm or 6 in), t = %s", p.length(t)), true
}

// greatestEdgeAISC is min(12 t, 6 in), in metric min(12 t, 150 mm).
// Source: AISC 360-22 J3.6.
func greatestEdgeAISC(thicknessMM float64, inch bool) float64 {
	if inch {
		return min(12*thicknessMM, 6*25.4)
	}
	return min(12*thicknessMM, 150)
}

// greatestPitchMM is the greatest distance to the next bolt. Sources: AISC
// 360-22 J3.6, min(24 t, 12 in or 300 mm) painted, min(14 t, 7 in or 180 mm) of
// unpainted weathering steel; EN 1993-1-8:2005 Table 3.3, min(14 t, 200 mm) and
// min(14 t, 175 mm); IS 800:2007 10.2.3.1, min(32 t, 300 mm), from memory. None
// is known of CSA S16.
func (p *Pass) greatestPitchMM() (mm float64, basis string, ok bool) {
	t := p.Job.ThicknessMM
	least := func(factor, metric, inches float64) (float64, string, bool) {
		if p.Inch && inches > 0 {
			return min(factor*t, inches*25.4), fmt.Sprintf("min(%g t, %g in), t = %s", factor, inches, p.length(t)), true
		}
		return min(factor*t, metric), fmt.Sprintf("min(%g t, %g mm), t = %s", factor, metric, p.length(t)), true
	}
	switch {
	case p.Job.Code == "en" && p.Job.Weathering:
		return least(14, 175, 0)
	case p.Job.Code == "en":
		mm, basis, ok = least(14, 200, 0)
		return mm, basis + fmt.Sprintf("; p1,i of inner rows in tension min(28 t, 400 mm) = %s", p.length(min(28*t, 400))), ok
	case p.Job.Code == "is":
		return least(32, 300, 0)
	case p.Job.Code == "csa":
		return 0, "", false
	case p.Job.Weathering:
		return least(14, 180, 7)
	}
	return least(24, 300, 12)
}

// greatestPitch notes a bolt hole whose nearest neighbour is too far.
func (p *Pass) greatestPitch(b *boltHole, nearest float64) {
	if !(p.Job.ThicknessMM > 0) {
		return
	}
	limit, basis, ok := p.greatestPitchMM()
	if !ok || math.IsInf(nearest, 1) || !isAbove(nearest, limit) {
		return
	}
	p.Report(p.on(b.feature, Finding{Severity: Note, Who: "designer", FixBy: "drawing", Got: &Quantity{nearest, "mm"}, Limit: &Quantity{limit, "mm"}, Basis: basis,
		Message: fmt.Sprintf("the next bolt hole is %s away, more than the code's greatest pitch of %s", p.length(nearest), p.length(limit)),
		Sources: codeSources(p.Job.Code), cause: "greatest", worse: nearest - limit}))
}
