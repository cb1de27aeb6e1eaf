package check

import (
	"context"
	"errors"
	"testing"
	"time"

	"burrside/check/plan"
	"burrside/check/shop"
)

// countdown is a context that ends when it has been asked so often: the same
// place on every machine.
type countdown struct{ left *int }

func (c countdown) Deadline() (t time.Time, ok bool) { return }
func (c countdown) Done() <-chan struct{}            { return nil }
func (c countdown) Value(any) any                    { return nil }
func (c countdown) Err() error {
	if *c.left--; *c.left < 0 {
		return context.DeadlineExceeded
	}
	return nil
}

// Wherever the time ends, judging ends with it and gives no report, neither for
// a part that lacks nothing nor for one that is judged at every thickness.
func TestRunEndsWithItsContext(t *testing.T) {
	for _, job := range []plan.Job{goodJob(t), {}} {
		asked := 1 << 30
		left := asked
		want, err := Run(countdown{&left}, "x.dxf", goodSheet(), shop.BuiltIn(), job)
		if err != nil {
			t.Fatal(err)
		}
		n := asked - left
		if n < len(Rules()) || want == nil {
			t.Fatalf("asked %d times only", n)
		}
		for k := 0; k < n; k += 1 + n/200 {
			left = k
			if rep, err := Run(countdown{&left}, "x.dxf", goodSheet(), shop.BuiltIn(), job); rep != nil || !errors.Is(err, context.DeadlineExceeded) {
				t.Fatalf("ended at %d of %d: %v, %v", k, n, rep, err)
			}
			if left < -12 {
				t.Fatalf("ended at %d of %d and asked %d times more", k, n, -left)
			}
		}
	}
}

// A part of a great many features is not judged over all stock thicknesses, and
// the report says so; the answer is cannot-tell either way.
func TestSupposedThicknessesAreBounded(t *testing.T) {
	plateOf := func(n int) *PartReport {
		b := examplePlate("plate", 10*float64(n)+20, 30)
		for i := range n {
			b.hole(10*float64(i)+15, 15, 6)
		}
		return RunPart(b.p, shop.BuiltIn(), plan.Job{})
	}
	few, many := plateOf(10), plateOf(mostSupposed/4)
	said := func(r *PartReport) bool {
		for _, s := range r.Skipped {
			if s.Rule == "thickness-missing" {
				return true
			}
		}
		return false
	}
	if len(few.Limits) == 0 || said(few) {
		t.Errorf("ten holes: %d limits, %v", len(few.Limits), few.Skipped)
	}
	if len(many.Limits) != 0 || !said(many) || many.Verdict == Fits || many.Verdict == WithCare {
		t.Errorf("many holes: %d limits, %s, %v", len(many.Limits), many.Verdict, many.Skipped)
	}
}
