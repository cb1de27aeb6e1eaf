package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"burrside/features"
	"burrside/features/geom"
)

func legsFoulParams() []Param {
	return []Param{
		{"wide", "d", 2, 1.5, 3, "width of a nut or washer, times the bolt", Cite{}},
		{"high", "d", 1.3, 0.6, 3, "height of nut, washer and bolt end inside a leg, times the bolt", Cite{}},
		{"clearance", "mm", 2, 0, 5, "by how much a hole is larger than its bolt, where no call-out names the bolt", Cite{}},
	}
}

func ruleLegsFoul() Rule {
	return Rule{
		ID:    "legs-foul",
		Title: "Bolts of the two legs foul each other at the heel",
		Why:   "Bolts opposite each other near the heel meet with their nuts inside the angle: the second cannot be put in.",
		Measure: "Nut, washer and bolt end inside a leg are taken as a cylinder 2 d wide and 1.3 d high, d the hole less 2 mm. They foul where the bolts lie less than 2 d apart along the angle and each reaches into the other: " +
			"g1 - d < t + 1.3 d and g2 - d < t + 1.3 d. A warning where a call-out names bolts, else a note. The gauge across both legs, g1 + g2 - t, is told with it.",
		Fix:     "Ask the designer whether the rows may be staggered.",
		Params:  legsFoulParams(),
		Sources: []Cite{shopPractice(), {Text: "ANSI/AISC 360-22 B4.3b (gauge across two legs g1 + g2 - t)"}},
		Example: func() Example {
			b := exampleAngle(400, 75, 75, 8, 9)
			b.hole(0, 100, 45, 22)
			b.hole(1, 100, 45, 22)
			return b.example("an angle 75 x 75 x 8 with two holes Ø22 opposite each other at gauges of 45 mm", 8, "")
		},
		Part: checkLegsFoul,
	}
}

// gaugeAcross is the gauge between holes of two legs as if in one plane, less
// the thickness. Source: ANSI/AISC 360-22 B4.3b.
func gaugeAcross(g1, g2, t float64) float64 { return g1 + g2 - t }

func checkLegsFoul(p *Pass) {
	a := p.Part.Angle
	if a == nil || !hasInside(p.Part) {
		return
	}
	if p.noThickness() {
		return
	}
	t := p.Job.ThicknessMM
	var legs [2][]int
	largest := 0.0
	for i := range p.Part.Features {
		if f := &p.Part.Features[i]; f.Leg != "" && (f.Kind == features.RoundHole || f.Kind == features.HoleWithSeat || f.Kind == features.Slot) {
			legs[a.LegOf(f)] = append(legs[a.LegOf(f)], i)
			d, _ := p.boltOf(f)
			largest = max(largest, d)
		}
	}
	start := func(i int) float64 { return a.FromStartMM(p.Part.Features[i].At) }
	slices.SortStableFunc(legs[1], func(i, j int) int { return cmp.Compare(start(i), start(j)) })
	for _, i := range legs[0] {
		f := &p.Part.Features[i]
		reach := p.Value("wide") * largest
		first, _ := slices.BinarySearchFunc(legs[1], start(i)-reach, func(j int, x float64) int { return cmp.Compare(start(j), x) })
		for _, j := range legs[1][first:] {
			g := &p.Part.Features[j]
			if start(j) > start(i)+reach {
				break
			}
			d1, named1 := p.boltOf(f)
			d2, named2 := p.boltOf(g)
			wide, high := p.Value("wide")/2, p.Value("high")
			g1, g2 := a.FromHeelMM(f.At), a.FromHeelMM(g.At)
			apart := math.Abs(a.FromStartMM(f.At) - a.FromStartMM(g.At))
			need := wide * (d1 + d2)
			free := max(g1-wide*d1-(t+high*d2), g2-wide*d2-(t+high*d1))
			if !isBelow(apart, need) || free >= -1e-9 {
				continue
			}
			x := Finding{Severity: Note, Who: "designer", FixBy: "drawing", Got: &Quantity{apart, "mm"}, Limit: &Quantity{need, "mm"}, worse: -free,
				Features: []string{g.ID}, At: f.At, HasAt: true, To: &geom.Point{X: g.At.X, Y: g.At.Y},
				Message: fmt.Sprintf("bolts in both legs meet with their nuts at the heel: %s apart along the angle, less than %s, at gauges of %s and %s", p.length(apart), p.length(need), p.length(g1), p.length(g2)),
				Basis: fmt.Sprintf("bolts of %s and %s; %s short at the heel; gauge across the legs %s + %s - %s = %s", p.length(d1), p.length(d2), p.length(-free),
					p.length(g1), p.length(g2), p.length(t), p.length(gaugeAcross(g1, g2, t))),
				Fix: "would the designer accept the rows staggered?"}
			if named1 && named2 {
				x.Severity = Warning
			}
			p.Report(p.on(i, x))
		}
	}
}

// boltOf is the bolt of a hole: named, else the hole less its clearance.
func (p *Pass) boltOf(f *features.Feature) (mm float64, named bool) {
	if d, ok := boltSizeMM(f.BoltDesignation); ok {
		return d, true
	}
	return max(0, max(f.DiameterMM, f.WidthMM)-p.Value("clearance")), p.Job.Bolts
}
