package check

import (
	"context"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
)

// manyHoles is a plate with n holes that the rack has no punch for, each 25 mm
// from the next.
func manyHoles(n int) *exampleBuilder {
	b := examplePlate("p", 60+25*float64((n+39)/40), 1060)
	for i := range n {
		b.hole(30+25*float64(i/40), 30+25*float64(i%40), 15)
	}
	return b
}

func manyHolesJob(prof *shop.Profile) plan.Job {
	m, _ := prof.Material("S275")
	return plan.Job{ThicknessMM: 6, ThicknessFrom: "flag", Material: m, MaterialName: "S275", MaterialFrom: "flag"}
}

// A part with very many holes is not searched at all.
func TestManyHolesAreBounded(t *testing.T) {
	prof := shop.BuiltIn()
	job := manyHolesJob(prof)
	for _, c := range []struct {
		n    int
		want bool
	}{{1_000, true}, {mostWork/2 + 1, false}} {
		if !c.want && testing.Short() {
			continue
		}
		rep := RunPart(manyHoles(c.n).p, prof, job)
		SuggestPart(context.Background(), rep, prof, job, SuggestOptions{})
		if got := len(rep.Changes) > 0; got != c.want {
			t.Errorf("%d holes: suggestions %v", c.n, texts(rep))
		}
	}
}

// The search ends with its context, and the report stays.
func TestSuggestEndsWithItsContext(t *testing.T) {
	prof := shop.BuiltIn()
	job := manyHolesJob(prof)
	rep := RunPart(manyHoles(40).p, prof, job)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	SuggestPart(ctx, rep, prof, job, SuggestOptions{})
	if len(rep.Changes) != 0 || len(rep.Findings) == 0 {
		t.Errorf("suggestions %v", texts(rep))
	}
}

// No more runs than are allowed.
func TestSuggestRunsAreCounted(t *testing.T) {
	prof := shop.BuiltIn()
	job := manyHolesJob(prof)
	rep := RunPart(manyHoles(40).p, prof, job)
	SuggestPart(context.Background(), rep, prof, job, SuggestOptions{MostRuns: 2})
	if len(rep.Changes) != 0 {
		t.Errorf("with one run, which is the part as it is: %v", texts(rep))
	}
	SuggestPart(context.Background(), rep, prof, job, SuggestOptions{MostRuns: 12})
	if len(rep.Changes) == 0 {
		t.Error("with twelve runs nothing was found")
	}
}

// BenchmarkSuggest is the search for one ordinary part with two troubles, without
// the judgement that comes before it.
func BenchmarkSuggest(b *testing.B) {
	prof := shop.BuiltIn()
	job := manyHolesJob(prof)
	job.ThicknessMM, job.Code = 10, "en"
	p := examplePlate("p", 200, 140)
	p.hole(25, 70, 22)
	p.hole(100, 70, 22)
	p.hole(150, 40, 15)
	rep := RunPart(p.p, prof, job)
	for b.Loop() {
		SuggestPart(context.Background(), rep, prof, job, SuggestOptions{})
	}
	if len(rep.Changes) < 2 {
		b.Fatal(texts(rep))
	}
}

// BenchmarkSuggestMany is the search for a plate of 2,000 holes.
func BenchmarkSuggestMany(b *testing.B) {
	prof := shop.BuiltIn()
	job := manyHolesJob(prof)
	rep := RunPart(manyHoles(2_000).p, prof, job)
	for b.Loop() {
		SuggestPart(context.Background(), rep, prof, job, SuggestOptions{})
	}
}
