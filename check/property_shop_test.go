package check

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
)

// exampleShopText is the file of the example shop.
func exampleShopText(t *testing.T) []string {
	t.Helper()
	data, err := os.ReadFile("shop/builtin.toml")
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(string(data), "\n")
}

// without loads the example shop with one line of its file left out; ok is
// false where the file cannot do without it.
func without(lines []string, i int) (p *shop.Profile, ok bool) {
	rest := slices.Concat(lines[:i], lines[i+1:])
	p, err := shop.Load(strings.NewReader(strings.Join(rest, "\n")), "test.toml")
	return p, err == nil
}

// A shop that leaves out one datum, whichever, passes no part that it did not
// pass with it: a limit that is not stated is not a limit that is kept.
func TestDatumLeftOutNeverPasses(t *testing.T) {
	parts := uint64(150)
	if testing.Short() {
		parts = 40
	}
	lines := exampleShopText(t)
	full := shop.BuiltIn()
	type judgedPart struct {
		b   *exampleBuilder
		job plan.Job
	}
	var list []judgedPart
	for seed := range parts {
		r := rand.New(rand.NewPCG(seed, 11))
		b, job := randomPart(r), randomJob(r, full)
		for _, machine := range []string{"", "north bay", "south bay"} {
			job.Machine = machine
			if v := RunPart(b.p, full, job).Verdict; v != Fits {
				list = append(list, judgedPart{b, job})
			}
		}
	}
	left, runs := 0, 0
	for i, line := range lines {
		if !strings.Contains(line, " = ") && !strings.HasPrefix(strings.TrimSpace(line), "{") {
			continue
		}
		p, ok := without(lines, i)
		if !ok {
			continue
		}
		left++
		bad := 0
		for k := range list {
			q := &list[k]
			if q.job.Machine != "" && !slices.ContainsFunc(p.Machines, func(m shop.Machine) bool { return m.Name == q.job.Machine }) {
				continue
			}
			runs++
			job := q.job
			job.Material, _ = p.Material(job.MaterialName)
			if v := RunPart(q.b.p, p, job).Verdict; v == Fits {
				if bad++; bad == 1 {
					before := RunPart(q.b.p, full, q.job)
					t.Errorf("line %d %q left out: a part that %s now fits; before: %s", i+1, strings.TrimSpace(line), before.Verdict, firstMessages(before))
				}
			}
		}
	}
	if left < 40 || runs < 1000 {
		t.Errorf("only %d lines left out, %d parts judged", left, runs)
	}
	t.Logf("%d lines left out, %d parts judged", left, runs)
}

func firstMessages(rep *PartReport) string {
	var l []string
	for i := range rep.Findings {
		if f := &rep.Findings[i]; f.Severity != Note {
			l = append(l, fmt.Sprintf("%s %s: %s", f.Rule, f.Severity, f.Message))
		}
	}
	return strings.Join(l[:min(len(l), 3)], " | ")
}
