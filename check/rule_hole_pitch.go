package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

func ruleHolePitch() Rule {
	return Rule{
		ID:    "hole-pitch",
		Title: "Distance between bolt holes by the chosen code",
		Why:   "Bolts too close to one another tear the metal between them, and nuts and wrenches do not fit.",
		Measure: "Between the centres of two bolt holes, and between their edges. AISC 360-22: centres >= 2-2/3 d, and clear distance >= d (by the editions of 2005 and 2010 a warning only, as they do not ask it). " +
			"EN 1993-1-8: p1 >= 2.2 d0 along the load and p2 >= 2.4 d0 across it; as the drawing does not tell the load's direction, " +
			"under 2.2 d0 is an error and between the two a warning. Two bolts that lie in no common row along or across the blank are staggered: L >= 2.4 d0, and their rows >= 1.2 d0 apart. " +
			"CSA S16: 2.7 d; IS 800: 2.5 d. Of slots the nearest centres of their ends are taken (all but AISC). Preferred and greatest pitches to the nearest bolt only when asked: AISC 3 d, and min(24 t, 12 in or 300 mm), " +
			"of unpainted weathering steel min(14 t, 7 in or 180 mm); EN min(14 t, 200 mm) (inner rows in tension may have min(28 t, 400 mm), which a drawing does not tell), weathering min(14 t, 175 mm); IS min(32 t, 300 mm); as notes.",
		Fix: "Ask the designer whether the pitch may grow or the bolts may be smaller.",
		Sources: []Cite{
			{Text: "ANSI/AISC 360-22 J3 (least spacing 2-2/3 d, clear distance d)"},
			{Text: "ANSI/AISC 360-05, 360-10 J3 (no clear distance)", Memory: true},
			{Text: "EN 1993-1-8:2005 Table 3.3"},
			{Text: "IS 800:2007 10.2.2"},
			{Text: "CSA S16-09 22.3.1; IS 800:2007 10.2.3 (greatest pitch)", Memory: true},
			{Text: "EN 1993-1-8:2005 Table 3.3, note 5 (staggered rows)", Memory: true},
		},
		Example: func() Example {
			b := examplePlate("plate", 200, 140)
			b.hole(60, 70, 22)
			b.hole(105, 70, 22)
			return b.example("two holes Ø22 at a pitch of 45 mm in a plate 200 x 140 x 10, by EN 1993-1-8", 10, "en")
		},
		Part: checkHolePitch,
	}
}

// aiscPitchFactor is 2-2/3 bolt diameters. Source: ANSI/AISC 360-22 J3.
const aiscPitchFactor = 8.0 / 3

func checkHolePitch(p *Pass) {
	if p.noCode() {
		return
	}
	bolts, _ := p.boltHoles()
	if len(bolts) < 2 {
		return
	}
	reach := 0.0
	for i := range bolts {
		b := &bolts[i]
		reach = max(reach, b.longMM+3*max(b.boltMM(), b.widthMM))
	}
	slices.SortStableFunc(bolts, func(a, b boltHole) int { return cmp.Compare(a.centre.X, b.centre.X) })
	nearest := make([]float64, len(bolts))
	for i := range nearest {
		nearest[i] = math.Inf(1)
	}
	most := reach
	if p.Job.Exposure {
		most = math.Inf(1)
	}
	for i := range bolts {
		for j := i + 1; j < len(bolts) && bolts[j].centre.X-bolts[i].centre.X < most; j++ {
			a, b := &bolts[i], &bolts[j]
			if a.feature > b.feature {
				a, b = b, a
			}
			if apartByHeel(&p.Part.Features[a.feature], &p.Part.Features[b.feature]) {
				continue
			}
			d := a.centre.Dist(b.centre)
			nearest[i], nearest[j] = min(nearest[i], d), min(nearest[j], d)
			if d >= reach {
				continue
			}
			switch p.Job.Code {
			case "en":
				p.enPitch(a, b)
			case "csa":
				p.boltPitch(a, b, csaPitchFactor)
			case "is":
				p.boltPitch(a, b, isPitchFactor)
			default:
				p.aiscPitch(a, b)
			}
		}
	}
	if p.Job.Exposure {
		for i := range bolts {
			p.greatestPitch(&bolts[i], nearest[i])
		}
	}
}

func (p *Pass) enPitch(a, b *boltHole) {
	from, to, d := geom.Closest(a.spine(), b.spine())
	d0 := max(a.widthMM, b.widthMM)
	low, high := float64(enPitchFactor*d0), float64(enLineFactor*d0)
	rel := to.Sub(from)
	u := geom.Point{X: math.Cos(p.Plan.Blank.AngleRad), Y: math.Sin(p.Plan.Blank.AngleRad)}
	along, across := abs(rel.Dot(u)), abs(rel.Cross(u))
	const inLine = 0.5 // mm: as far as holes of one row may be off it
	staggered := along > inLine && across > inLine
	if !isBelow(d, high) && !(staggered && isBelow(min(along, across), enStagger*d0) && isBelow(max(along, across), high)) {
		return
	}
	f := Finding{Basis: fmt.Sprintf("2.2 x d0 = %s, 2.4 x d0 = %s, d0 = %s; %s along the blank, %s across it",
		p.length(low), p.length(high), p.length(d0), p.length(along), p.length(across))}
	switch {
	case staggered && isBelow(d, high):
		f.Severity, f.Limit = Error, &Quantity{high, "mm"}
		f.Message = "two staggered bolt holes are %s apart, " + codeName("en") + " needs %s"
	case isBelow(d, low):
		f.Severity, f.Limit = Error, &Quantity{low, "mm"}
		f.Message = "two bolt holes are %s apart, " + codeName("en") + " needs %s"
	case !staggered && isBelow(d, high):
		f.Severity, f.Limit = Warning, &Quantity{high, "mm"}
		f.Message = "two bolt holes are %s apart, enough along the load; across it " + codeName("en") + " needs %s"
	case staggered && isBelow(min(along, across), enStagger*d0) && isBelow(max(along, across), high):
		d, f.Severity, f.Limit = min(along, across), Warning, &Quantity{enStagger * d0, "mm"}
		f.Message = "two rows of staggered bolt holes are %s apart, " + codeName("en") + " needs %s where the load runs along them"
	default:
		return
	}
	p.reportPitch(a, b, from, to, d, f)
}

func (p *Pass) aiscPitch(a, b *boltHole) {
	bolt := max(a.boltMM(), b.boltMM())
	centres := a.centre.Dist(b.centre)
	from, to, spines := geom.Closest(a.spine(), b.spine())
	clear := spines - (a.widthMM+b.widthMM)/2
	pitch := bolt * aiscPitchFactor
	basis := fmt.Sprintf("2-2/3 d = %s between centres, d = %s clear; found %s and %s", p.length(pitch), p.length(bolt), p.length(centres), p.length(max(0, clear)))
	lackPitch, lackClear := pitch-centres, bolt-clear
	name := codeName(p.Job.Code)
	switch older := p.Job.Code != "aisc"; {
	case isBelow(clear, bolt) && lackClear >= lackPitch-1e-9 && !older:
		// The clear distance governs: given as what the centres would need.
		p.reportPitch(a, b, a.centre, b.centre, centres, Finding{Severity: Error, Limit: &Quantity{centres + lackClear, "mm"}, Basis: basis + "; the clear distance governs",
			Message: "two bolt holes are %s apart, " + name + " needs %s for a clear distance of d"})
	case isBelow(centres, pitch):
		p.reportPitch(a, b, a.centre, b.centre, centres, Finding{Severity: Error, Limit: &Quantity{pitch, "mm"}, Basis: basis,
			Message: "two bolt holes are %s apart, " + name + " needs %s"})
	case isBelow(clear, bolt):
		p.reportPitch(a, b, a.centre, b.centre, centres, Finding{Severity: Warning, Limit: &Quantity{centres + lackClear, "mm"}, Basis: basis + "; the clear distance governs",
			Message: "two bolt holes are %s apart; later editions of AISC 360 ask for %s, for a clear distance of d"})
	case p.Job.Exposure && isBelow(centres, 3*bolt):
		p.reportPitch(a, b, from, to, centres, Finding{Severity: Note, Limit: &Quantity{3 * bolt, "mm"}, Basis: basis,
			Message: "two bolt holes are %s apart, " + name + " prefers %s"})
	}
}

// boltPitch measures between the nearest places of two bolts: centres of holes,
// or of the ends of slots.
func (p *Pass) boltPitch(a, b *boltHole, factor float64) {
	from, to, d := geom.Closest(a.spine(), b.spine())
	bolt := max(a.boltMM(), b.boltMM())
	need := float64(factor * bolt)
	if !isBelow(d, need) {
		return
	}
	p.reportPitch(a, b, from, to, d, Finding{Severity: Error, Limit: &Quantity{need, "mm"},
		Basis:   fmt.Sprintf("%g d = %g x %s = %s", factor, factor, p.length(bolt), p.length(need)),
		Message: "two bolt holes are %s apart, " + codeName(p.Job.Code) + " needs %s"})
}

func (p *Pass) reportPitch(a, b *boltHole, from, to geom.Point, got float64, f Finding) {
	g, l := below(p.Shop, got, f.Limit.Value)
	f.Message = fmt.Sprintf(f.Message, g, l)
	for _, h := range []*boltHole{a, b} {
		if h.note != "" && f.Severity != Note {
			f.Message += " (" + p.Part.Features[h.feature].ID + ": " + h.note + ")"
			break
		}
	}
	f.Got, f.At, f.HasAt, f.To = &Quantity{got, "mm"}, from, true, &to
	f.Features = []string{p.Part.Features[b.feature].ID}
	f.Who, f.FixBy, f.Sources = "designer", "drawing", codeSources(p.Job.Code)
	f.worse = f.Limit.Value - got
	if f.Severity != Note {
		f.Fix = "would the designer accept a wider pitch of the whole pattern, or smaller bolts?"
	}
	p.Report(p.on(a.feature, f))
}
