package check

import (
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
)

func BenchmarkOrdinaryPart(b *testing.B) {
	e := examplePlate("plate", 200, 150)
	for _, c := range [][2]float64{{50, 45}, {150, 45}, {50, 105}, {150, 105}} {
		e.hole(c[0], c[1], 22)
	}
	prof := shop.BuiltIn()
	x := e.example("", 10, "en")
	for b.Loop() {
		RunPart(x.Part, prof, x.Job)
	}
}

// All stock thicknesses and two steels.
func BenchmarkNothingStated(b *testing.B) {
	e := examplePlate("plate", 200, 150)
	e.hole(50, 45, 22)
	prof := shop.BuiltIn()
	for b.Loop() {
		RunPart(e.p, prof, plan.Job{})
	}
}

func BenchmarkTenThousandHoles(b *testing.B) {
	e := examplePlate("grid", 3000, 3000)
	for i := range 100 {
		for j := range 100 {
			e.hole(25+29*float64(i), 25+29*float64(j), 18)
		}
	}
	prof := shop.BuiltIn()
	x := e.example("", 10, "")
	x.Part.Holes = nil
	b.Run("rules", func(b *testing.B) {
		for b.Loop() {
			judgeOnce(x.Part, prof, x.Job, circumstances{}, literal)
		}
	})
	b.Run("plan", func(b *testing.B) {
		for b.Loop() {
			plan.MakePlan(x.Part, prof, x.Job)
		}
	})
}

func BenchmarkRules(b *testing.B) {
	for b.Loop() {
		Rules()
	}
}
