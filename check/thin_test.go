package check

import (
	"testing"

	"burrside/check/shop"
)

// A hole too near the edge for a punch is drilled: the shop can make it, so
// that the part is one to make with care, not one that does not fit. A shop
// with no drill says what the web lacks.
func TestThinWebIsDrilled(t *testing.T) {
	p := shop.BuiltIn()
	b := examplePlate("plate", 200, 150)
	b.hole(9+4, 75, 18) // 4 mm of metal, 5 mm asked of a punch
	rep := RunPart(b.p, p, thick(steel(t, p, "mild"), 10))
	if rep.Verdict != WithCare {
		t.Errorf("%s: %+v", rep.Verdict, rep.Findings)
	}
	by := ""
	for _, m := range rep.Plan.Makes {
		if b.p.Features[m.Feature].ID == "H1" {
			by = m.MadeBy
		}
	}
	if by != "drill" {
		t.Errorf("H1 made by %q", by)
	}
	q := own(p)
	for i := range q.Also {
		q.Also[i].Have = false
	}
	rep = RunPart(b.p, q, thick(steel(t, q, "mild"), 10))
	if l := of(rep, "web"); rep.Verdict != DoesNotFit || len(l) != 1 || l[0].Severity != Error {
		t.Errorf("without a drill: %s %+v", rep.Verdict, rep.Findings)
	}
}
