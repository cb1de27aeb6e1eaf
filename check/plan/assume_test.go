package plan

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"burrside/check/shop"
)

// What a piece rests on is a list of distinct short facts: no rate that was not
// used, nothing that the blank's text says already, no "1 pieces".
func TestAssumptions(t *testing.T) {
	p := yard()
	p.Rates.Turn = 15
	p.Also = append(p.Also, shop.Process{Kind: "thermal", Have: true})
	one := regexp.MustCompile(`(^|[^.0-9])1 [a-z -]*s( |$)`)
	facts := func(w Work, blank string) string {
		t.Helper()
		for i, a := range w.Assumptions {
			if len(a) > 60 || strings.Contains(a, ";") || blank != "" && strings.Contains(a, blank) || slices.Contains(w.Assumptions[:i], a) {
				t.Errorf("%q", a)
			}
			if one.MatchString(a) && !strings.HasPrefix(a, "1 s ") {
				t.Errorf("plural: %q", a)
			}
		}
		return strings.Join(w.Assumptions, "\n")
	}
	want := func(w Work, blank string, has, not []string) {
		t.Helper()
		got := facts(w, blank)
		for _, s := range has {
			if !strings.Contains("\n"+got+"\n", "\n"+s+"\n") {
				t.Errorf("no %q in\n%s", s, got)
			}
		}
		for _, s := range not {
			if strings.Contains(got, s) {
				t.Errorf("%q in\n%s", s, got)
			}
		}
	}
	pl := MakePlan(holes(rect("cleat", 200, 150), 22, pt(100, 75)), p, job(10))
	want(pl.Work, pl.Blank.Text, []string{"29 pieces from a bar of 6000 mm", "8 s a hit against a stop", "15 s a cut off a bar", "1 tool change at 120 s", "3 settings at 180 s", "1 first-off at 180 s", "2 station visits at 20 s", "at work 80 % of the time"},
		[]string{"mark", "plate", "bite", "turn of"})
	pl = MakePlan(rect("long", 3500, 150), p, job(10))
	want(pl.Work, pl.Blank.Text, []string{"1 piece from a bar of 6000 mm", "1 setting at 180 s", "1 station visit at 120 s"}, []string{"hit", "plate", "tool change", "turn"})
	pl = MakePlan(holes(rect("two", 200, 150), 22, pt(40, 40), pt(160, 40)), p, job(10))
	want(pl.Work, pl.Blank.Text, []string{"1 turn at 15 s"}, nil)
	p.Machines[0].Punch.Stop = false
	pl = MakePlan(holes(rect("drilled", 200, 150), 8, pt(40, 40), pt(160, 40)), p, job(12))
	want(pl.Work, pl.Blank.Text, []string{"60 s a hole drilled"}, []string{"hit"})
	pl = MakePlan(holes(rect("marked", 200, 150), 22, pt(40, 40), pt(160, 40)), p, job(10))
	want(pl.Work, pl.Blank.Text, []string{"25 s a hit to a mark"}, []string{"stop"})
	tot := Totals([]*Plan{MakePlan(holes(rect("marked", 200, 150), 22, pt(40, 40)), p, job(10)), MakePlan(rect("p", 200, 100), p, Job{})}, nil, p)
	want(Work{Assumptions: tot.Assumptions}, "", []string{"1 tool change, all parts sorted by punch and die", "1 of 2 parts not in the minutes: the work is not known"}, nil)
}
