package check

import (
	"context"
	"testing"

	"burrside/check/change"
	"burrside/check/shop"
)

// What the plan does anyway is no change: a small hole that is drilled because
// the punch would break is not suggested to be drilled, and no question about it
// takes its place.
func TestPlanIsNoSuggestion(t *testing.T) {
	prof := shop.BuiltIn()
	b := examplePlate("strap", 200, 100)
	b.hole(100, 50, 9)
	e := b.example("", 16, "")
	rep := RunPart(e.Part, prof, e.Job)
	h := rep.Plan.Makes[0]
	for i := range rep.Plan.Makes {
		if e.Part.Features[rep.Plan.Makes[i].Feature].ID == "H1" {
			h = rep.Plan.Makes[i]
		}
	}
	if rep.Verdict != WithCare || h.MadeBy != "drill" {
		t.Fatalf("%s, made by %s: %+v", rep.Verdict, h.MadeBy, rep.Findings)
	}
	SuggestPart(context.Background(), rep, prof, e.Job, SuggestOptions{})
	for _, g := range rep.Changes {
		for _, s := range g.Steps {
			if s.Kind == change.Process && s.Process == "drill" || g.By == "drawing" {
				t.Errorf("%s", g.Text)
			}
		}
	}
}
