package check

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// randomPart draws a plate with holes, slots, openings and sometimes a notch,
// clipped or rounded corners. Holes may lie anywhere, also too close.
func randomPart(r *rand.Rand) *exampleBuilder {
	size := func(lo, hi float64) float64 { return math.Round((lo+(hi-lo)*r.Float64())*10) / 10 }
	w, h := size(60, 700), []float64{50, 100, 150, 200}[r.IntN(4)]
	if r.IntN(4) == 0 {
		h = size(40, 320)
	}
	var b *exampleBuilder
	switch r.IntN(5) {
	case 0:
		b = exampleNotched("p", w, h, size(10, w/2), size(5, h/3))
	case 1:
		b = exampleClipped("p", w, h, size(5, min(w, h)/3))
	case 2:
		b = exampleRounded("p", w, h, size(4, min(w, h)/3))
	default:
		b = examplePlate("p", w, h)
	}
	if r.IntN(2) == 0 { // a sound row of holes and nothing else
		for x := 40.0; x < w-35; x += 80 {
			b.hole(x, math.Round(h/3), []float64{18, 22}[r.IntN(2)])
		}
		return b
	}
	for range r.IntN(8) {
		x, y := size(15, w-15), size(15, h-15)
		switch r.IntN(6) {
		case 0:
			b.slotAt(x, y, []float64{14, 18, 22}[r.IntN(3)], size(26, 60), []float64{0, math.Pi / 2, 0.3}[r.IntN(3)])
		case 1:
			b.opening(x, y, size(10, 40), size(10, 40))
		default:
			b.hole(x, y, []float64{9, 11, 14, 18, 22, 26, 37, 60}[r.IntN(8)])
		}
	}
	return b
}

func randomJob(r *rand.Rand, prof *shop.Profile) plan.Job {
	m, _ := prof.Material([]string{"mild", "S355", "304"}[r.IntN(3)])
	class := r.IntN(5)
	return plan.Job{ThicknessMM: []float64{4, 6, 10, 16, 20}[r.IntN(5)], ThicknessFrom: "flag", Material: m, MaterialName: m.Name, MaterialFrom: "flag",
		Code: []string{"", "en", "aisc", "aisc-2010", "aisc-2005", "csa", "is"}[r.IntN(7)], Bolts: r.IntN(4) == 0, ExecutionClass: class, WeldCode: []string{"", "", "aws"}[r.IntN(3)]}
}

// What a verdict says is borne out by its findings, and nothing is passed that
// plan could not make.
func TestVerdictIsBorneOut(t *testing.T) {
	prof := shop.BuiltIn()
	n := map[Verdict]int{}
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 1))
		b, job := randomPart(r), randomJob(r, prof)
		rep := RunPart(b.p, prof, job)
		n[rep.Verdict]++
		worst := station.OK
		for i := range rep.Findings {
			worst = max(worst, gradeOf(&rep.Findings[i]))
		}
		want := map[station.Grade]Verdict{station.OK: Fits, station.Remark: Fits, station.Care: WithCare, station.Unknown: CannotTell, station.Fail: DoesNotFit}[worst]
		if rep.Verdict != want {
			t.Errorf("seed %d: %s, findings say %s", seed, rep.Verdict, want)
		}
		for i := range rep.Plan.Makes {
			if by := rep.Plan.Makes[i].MadeBy; (by == "nothing" || by == "unknown") && rep.Verdict != DoesNotFit && rep.Verdict != CannotTell {
				t.Errorf("seed %d: %s made by %s, and the part %s", seed, b.p.Features[i].ID, by, rep.Verdict)
			}
		}
		for _, a := range allAspects(rep.Plan) {
			if a.Grade >= station.Care && rep.Verdict == Fits {
				t.Errorf("seed %d: fits with %+v", seed, a)
			}
		}
		// Without a datum it never passes, and what is certain stays certain.
		for what, j := range map[string]plan.Job{
			"thickness": func() plan.Job { j := job; j.ThicknessMM = 0; return j }(),
			"material":  func() plan.Job { j := job; j.Material, j.MaterialName = nil, ""; return j }(),
		} {
			if seed%8 != 0 {
				continue
			}
			if v := RunPart(b.p, prof, j).Verdict; v == Fits || v == WithCare {
				t.Errorf("seed %d without %s: %s", seed, what, v)
			}
		}
		if rep2 := RunPart(b.p, prof, job); !reflect.DeepEqual(rep.Findings, rep2.Findings) || !reflect.DeepEqual(rep.Suppressed, rep2.Suppressed) || !reflect.DeepEqual(rep.Skipped, rep2.Skipped) {
			t.Errorf("seed %d: two runs differ", seed)
		}
	}
	for _, v := range []Verdict{Fits, WithCare, DoesNotFit} {
		if n[v] < 10 {
			t.Errorf("only %d parts %s: %v", n[v], v, n)
		}
	}
}

func allAspects(pl *plan.Plan) []station.Aspect {
	l := slices.Clone(pl.Blank.Aspects)
	for i := range pl.Makes {
		l = append(l, pl.Makes[i].Use.Aspects...)
	}
	for i := range pl.Cuts {
		l = append(l, pl.Cuts[i].Use.Aspects...)
	}
	return l
}

// moved is the part under a motion, its features with the same names.
func moved(p *features.Part, m geom.Motion) *features.Part {
	q := *p
	ring := func(r geom.Ring) geom.Ring {
		if r == nil {
			return nil
		}
		r = r.Apply(m)
		if m.Mirror {
			r = r.Reverse()
		}
		return r
	}
	n := len(p.Outline)
	q.Outline = ring(p.Outline)
	q.Holes = nil
	for _, h := range p.Holes {
		q.Holes = append(q.Holes, ring(h))
	}
	q.Box = q.Outline.Bounds()
	q.Features = slices.Clone(p.Features)
	for i := range q.Features {
		f := &q.Features[i]
		f.At, f.From, f.To = m.Apply(f.At), m.Apply(f.From), m.Apply(f.To)
		f.Mouth = [2]geom.Point{m.Apply(f.Mouth[0]), m.Apply(f.Mouth[1])}
		d := m.ApplyDir(geom.Point{X: math.Cos(f.AngleRad), Y: math.Sin(f.AngleRad)})
		f.AngleRad = math.Mod(math.Atan2(d.Y, d.X)+2*math.Pi, math.Pi)
		f.Ring = ring(f.Ring)
		f.Edges = slices.Clone(f.Edges)
		if m.Mirror {
			for k, e := range f.Edges {
				f.Edges[k] = n - 1 - e
			}
			slices.Reverse(f.Edges)
			f.From, f.To = f.To, f.From
			f.Mouth[0], f.Mouth[1] = f.Mouth[1], f.Mouth[0]
		}
	}
	return &q
}

// essence is what must not change when a part is turned, mirrored or shifted.
func essence(rep *PartReport) []string {
	var out []string
	q := func(q *Quantity) string {
		if q == nil {
			return "-"
		}
		return fmt.Sprintf("%.3f %s", q.Value, q.Unit)
	}
	for _, f := range rep.Findings {
		ids := fmt.Sprint(sorted(f.Features))
		switch f.Rule {
		case "sliver", "shear-row", "mitre", "hold-down":
			ids = "" // of two equal sides the cut goes to the lower one, as it lies
		}
		out = append(out, fmt.Sprintf("%s %s %s %s %s count %d", f.Rule, f.Severity, ids, q(f.Got), q(f.Limit), f.Count))
	}
	slices.Sort(out)
	return append(out, string(rep.Verdict))
}

func TestSameUnderMotions(t *testing.T) {
	prof := shop.BuiltIn()
	n := 0
	for seed := range uint64(120) {
		r := rand.New(rand.NewPCG(seed, 2))
		b, job := randomPart(r), randomJob(r, prof)
		want := essence(RunPart(b.p, prof, job))
		for name, m := range map[string]geom.Motion{
			"shift":        geom.NewShift(geom.Point{X: 1234.5, Y: -777}),
			"quarter turn": geom.NewTurn(math.Pi / 2),
			"turn 37":      geom.NewTurn(37 * math.Pi / 180).Then(geom.NewShift(geom.Point{X: 10, Y: 20})),
			"mirror":       geom.NewMirror(),
		} {
			got := essence(RunPart(moved(b.p, m), prof, job))
			n++
			if !slices.Equal(got, want) {
				t.Errorf("seed %d, %s:\n got %s\nwant %s", seed, name, strings.Join(got, "\n     "), strings.Join(want, "\n     "))
			}
		}
	}
	if n == 0 {
		t.Error("nothing was moved")
	}
}

// Sound parts of a bridge builder's week: at most three findings, most with none.
func TestNoiseBudget(t *testing.T) {
	prof := shop.BuiltIn()
	var counts []int
	add := func(b *exampleBuilder, thickness float64) {
		m, _ := prof.Material("S275")
		rep := RunPart(b.p, prof, plan.Job{ThicknessMM: thickness, ThicknessFrom: "flag", Material: m, MaterialName: "S275", MaterialFrom: "flag"})
		counts = append(counts, len(rep.Findings))
		if len(rep.Findings) > 3 || rep.Verdict == DoesNotFit {
			t.Errorf("%s: %s %+v", b.p.Name, rep.Verdict, rep.Findings)
		}
	}
	b := examplePlate("splice", 300, 100)
	for _, x := range []float64{40, 110, 190, 260} {
		b.hole(x, 30, 18)
		b.hole(x, 70, 18)
	}
	add(b, 10)
	b = examplePlate("fin plate", 360, 160)
	for i := range 5 {
		b.hole(40+70*float64(i), 50, 22)
		b.hole(40+70*float64(i), 110, 22)
	}
	add(b, 10)
	b = examplePlate("tread bearer", 2000, 100)
	b.hole(60, 50, 18)
	b.hole(1940, 50, 18)
	add(b, 10)
	b = examplePlate("handrail strap", 800, 60)
	for i := range 4 {
		b.hole(40+240*float64(i), 30, 14)
	}
	add(b, 8)
	b = examplePlate("base", 250, 200)
	for _, c := range [][2]float64{{40, 40}, {210, 40}, {40, 160}, {210, 160}} {
		b.hole(c[0], c[1], 22)
	}
	add(b, 15)
	b = exampleNotched("gusset", 300, 200, 80, 40)
	b.hole(60, 60, 18)
	b.hole(240, 60, 18)
	add(b, 8)
	b = examplePlate("slotted tab", 160, 80)
	b.slot(60, 40, 18, 36)
	add(b, 6)
	slices.Sort(counts)
	if counts[len(counts)/2] != 0 {
		t.Errorf("findings %v: the median is not 0", counts)
	}
}
