package check

import (
	"math/rand/v2"
	"strings"
	"testing"

	"burrside/check/shop"
)

// On random parts, under every code: a code never makes a part pass that does
// not pass without it, what it asks at a sheared edge is said of edges that the
// plan shears or does not know, and no finding repeats another's words.
func TestCodesOnRandomParts(t *testing.T) {
	prof := shop.BuiltIn()
	spoke := map[string]int{}
	for seed := range uint64(120) {
		r := rand.New(rand.NewPCG(seed, 77))
		b, job := randomPart(r), randomJob(r, prof)
		job.Code, job.WeldCode, job.Exposure, job.ExecutionClass = "", "", false, 0
		plain := RunPart(b.p, prof, job)
		for _, c := range Codes() {
			j := job
			if c.Bolts {
				j.Code = c.ID
			} else {
				j.WeldCode = c.ID
			}
			j.ExecutionClass, j.Exposure, j.Weathering = int(seed%5), seed%3 == 0, seed%2 == 0
			rep := RunPart(b.p, prof, j)
			if worse(rep.Verdict, plain.Verdict) != rep.Verdict {
				t.Errorf("seed %d %s: %s without it, %s with it", seed, c.ID, plain.Verdict, rep.Verdict)
			}
			said := map[string]bool{}
			for i := range rep.Findings {
				f := &rep.Findings[i]
				key := f.Rule + string(f.Severity) + f.Message + strings.Join(f.Features, " ")
				if said[key] {
					t.Errorf("seed %d %s: said twice: %s", seed, c.ID, f.Message)
				}
				said[key] = true
				switch f.Rule {
				case "edge-distance", "hole-pitch", "punching-limit", "hole-class":
					spoke[c.ID]++
					if f.Severity != Note && (f.Got == nil || f.Limit == nil || f.Basis == "" && f.Limit.Unit == "mm") {
						t.Errorf("seed %d %s: without numbers: %+v", seed, c.ID, f)
					}
				case "inside-corner":
					if c.ID == "aws" {
						spoke[c.ID]++
					}
				}
			}
		}
	}
	for _, c := range Codes() {
		if spoke[c.ID] == 0 {
			t.Errorf("%s said nothing at all", c.ID)
		}
	}
	t.Log(spoke)
}
