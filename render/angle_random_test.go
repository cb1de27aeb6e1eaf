package render

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

// randomAngle is an angle of any size with holes and findings anywhere, turned
// anyhow, with what is not known left out now and then.
func randomAngle(rnd *rand.Rand) *check.Report {
	legs := [2]float64{30 + rnd.Float64()*170, 30 + rnd.Float64()*170}
	length := 40 + math.Pow(rnd.Float64(), 3)*8000
	t := 3 + rnd.Float64()*10
	var holes [][4]float64
	x := 15.0
	for range rnd.IntN(30) {
		leg := rnd.IntN(2)
		d := 4 + rnd.Float64()*12
		if x += 15 + rnd.Float64()*length/8; x > length-15 {
			break
		}
		holes = append(holes, [4]float64{float64(leg), t + 8 + rnd.Float64()*(legs[leg]-t-18), x, d})
	}
	p := angleOf("random angle", legs, t, length, func(a, b geom.Ring) (geom.Ring, geom.Ring) {
		if rnd.IntN(3) > 0 {
			return a, b
		}
		m := min(length*0.3, legs[0])
		return polygon(pt(0, 0), pt(length-m, 0), pt(length, legs[0]), pt(0, legs[0])), b
	}, holes...)
	a := p.Angle
	if rnd.IntN(2) > 0 {
		listed(p, fmt.Sprintf("L%.0fx%.0fx%.0f", legs[0], legs[1], t), 4+rnd.Float64()*10, rnd.Float64()*20)
	}
	if rnd.IntN(5) == 0 {
		a.ThicknessMM, a.ToRootMM = 0, 0
	}
	if rnd.IntN(4) == 0 {
		a.Legs[1].Drawn, a.From = false, "one view"
	}
	a.Hand = []features.Hand{features.HandNone, features.HandFirst, features.HandThird, features.HandUnknown}[rnd.IntN(4)]
	turnAngle(p, []float64{0, math.Pi / 2, math.Pi, rnd.Float64() * 6.28}[rnd.IntN(4)])
	var fs []check.Finding
	for range rnd.IntN(9) {
		f := &p.Features[rnd.IntN(len(p.Features))]
		sev := []check.Severity{check.Error, check.Warning, check.Note}[rnd.IntN(3)]
		one := finding([]string{"edge-distance", "leg-clearance", "mitre", "web"}[rnd.IntN(4)], sev, rnd.Float64()*30, rnd.Float64()*60, "mm", "a message", "a remedy of some words", f.ID)
		if rnd.IntN(2) > 0 {
			one = span(one, f.At, p.Features[rnd.IntN(len(p.Features))].At)
		} else {
			one = place(one, f.At)
		}
		fs = append(fs, one)
	}
	return judged("random angle.dxf", p, t, fs...)
}

func TestLabelsOfRandomAnglesLieApart(t *testing.T) {
	n := 150
	if testing.Short() {
		n = 30
	}
	broken, gauges := 0, 0
	for seed := range n {
		rep := randomAngle(rand.New(rand.NewPCG(uint64(seed), 21)))
		opt := []SceneOptions{{}, {}, {WidthPX: 1000}, {WidthPX: 2400}, {HeightPX: 800}, {WidthPX: 600}, {Units: "in"}}[seed%7]
		s := NewScene(rep, 0, opt)
		if err := checkScene(s, smallFeatures(s)); err != nil {
			t.Errorf("seed %d %+v: %v", seed, opt, err)
		}
		broken += len(itemsOf(s, itemFill, "break"))
		gauges += len(itemsOf(s, itemStroke, "gauge-line"))
	}
	if broken < n/10 || gauges < n {
		t.Errorf("too little was tried: %d breaks, %d gauge lines in %d scenes", broken, gauges, n)
	}
}

// No angle, however odd its numbers, stops the reports.
func TestOddAnglesAreDrawn(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, spoil := range map[string]func(p *check.PartReport, a *features.Angle){
		"no legs":       func(_ *check.PartReport, a *features.Angle) { a.LegMM = [2]float64{} },
		"one leg":       func(_ *check.PartReport, a *features.Angle) { a.LegMM[1] = 0; a.Legs[1].Ring = nil },
		"nan legs":      func(_ *check.PartReport, a *features.Angle) { a.LegMM[0] = nan },
		"inf legs":      func(_ *check.PartReport, a *features.Angle) { a.LegMM[0] = inf },
		"no heel":       func(_ *check.PartReport, a *features.Angle) { a.Heel = [2]geom.Point{} },
		"nan heel":      func(_ *check.PartReport, a *features.Angle) { a.Heel[1].X = nan },
		"no rings":      func(_ *check.PartReport, a *features.Angle) { a.Legs[0].Ring, a.Legs[1].Ring = nil, nil },
		"thick":         func(_ *check.PartReport, a *features.Angle) { a.ThicknessMM = 500 },
		"nan root":      func(_ *check.PartReport, a *features.Angle) { a.ToRootMM, a.RootMM = nan, nan },
		"far root":      func(_ *check.PartReport, a *features.Angle) { a.ToRootMM = 1e9 },
		"no length":     func(_ *check.PartReport, a *features.Angle) { a.LengthMM = 0 },
		"no outline":    func(p *check.PartReport, _ *features.Angle) { p.Part.Outline = nil },
		"nan outline":   func(p *check.PartReport, _ *features.Angle) { p.Part.Outline[0].From.X = nan },
		"nan hole":      func(p *check.PartReport, _ *features.Angle) { p.Part.Features[0].At.X = nan },
		"nan gauge":     func(p *check.PartReport, _ *features.Angle) { p.Part.Features[0].FromHeelMM = nan },
		"far place":     func(p *check.PartReport, _ *features.Angle) { p.Findings[0].At = pt(1e9, 1e9) },
		"nan place":     func(p *check.PartReport, _ *features.Angle) { p.Findings[0].At.X = nan },
		"no feature":    func(p *check.PartReport, _ *features.Angle) { p.Findings[0].Features = []string{"H99"} },
		"huge":          func(_ *check.PartReport, a *features.Angle) { a.LengthMM = 1e12 },
		"none":          func(p *check.PartReport, _ *features.Angle) { p.Part.Features, p.Part.Holes = nil, nil },
		"empty":         func(p *check.PartReport, a *features.Angle) { *a = features.Angle{} },
		"place of both": func(p *check.PartReport, _ *features.Angle) { p.Findings[0].Features = nil },
	} {
		for _, make := range []func() *check.Report{bracketReport, postReport} {
			rep := make()
			spoil(rep.Parts[0], rep.Parts[0].Part.Angle)
			s := NewScene(rep, 0, SceneOptions{})
			var b bytes.Buffer
			if err := s.PNG(&b); err != nil {
				t.Errorf("%s: %v", name, err)
			}
			for i := range s.items {
				for _, g := range s.items[i].path {
					if !finite(g.x + g.y) {
						t.Errorf("%s: a path of %s is not finite", name, s.items[i].style)
					}
				}
				if a, ok := s.items[i].label(); ok && !finite(a.x+a.y+a.w+a.h) {
					t.Errorf("%s: %s %q is not finite", name, s.items[i].kind, s.items[i].lines)
				}
			}
			textOf(t, rep, TextOptions{})
			if err := Summary(&b, []*check.Report{rep}); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}
