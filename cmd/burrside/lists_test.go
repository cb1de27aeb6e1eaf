package main

import (
	"strings"
	"testing"

	"burrside/check/plan"
)

// What was asked for and does nothing to a list is said.
func TestIdleForLists(t *testing.T) {
	for _, c := range []struct {
		f    facts
		job  plan.Job
		want string
	}{
		{facts{}, plan.Job{}, ""}, {facts{units: "in", material: "S275", quantity: 4}, plan.Job{}, ""},
		{facts{thicknessMM: 10}, plan.Job{}, "thickness"}, {facts{units: "cm"}, plan.Job{}, "unit cm"},
		{facts{}, plan.Job{Code: "en"}, "no code"}, {facts{}, plan.Job{BlankGiven: true}, "blanks"},
	} {
		if got := strings.Join(idleForLists(c.f, &c.job), "; "); (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%+v: %q, want %q", c, got, c.want)
		}
	}
}
