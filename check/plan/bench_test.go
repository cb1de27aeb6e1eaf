package plan

import (
	"testing"

	"burrside/check/shop"
	"burrside/features"
)

func grid(n int) *features.Part {
	p := rect("grid", float64(n)*60+100, 300)
	for i := 0; i < n; i++ {
		for _, y := range []float64{50, 110, 190, 250} {
			holes(p, 22, pt(80+60*float64(i), y))
		}
	}
	return p
}

func benchmarkPlan(b *testing.B, part *features.Part) {
	p := shop.BuiltIn()
	m, _ := p.Material("S275")
	b.ReportAllocs()
	for b.Loop() {
		MakePlan(part, p, Job{ThicknessMM: 10, Material: m, MaterialName: "S275"})
	}
}

func BenchmarkGusset(b *testing.B) {
	benchmarkPlan(b, holes(clip(poly("gusset", pt(0, 0), pt(200, 0), pt(200, 60), pt(60, 200), pt(0, 200)), 2), 22, pt(40, 40), pt(40, 160), pt(160, 40)))
}
func BenchmarkHoles200(b *testing.B)   { benchmarkPlan(b, grid(50)) }
func BenchmarkHoles10000(b *testing.B) { benchmarkPlan(b, grid(2500)) }
