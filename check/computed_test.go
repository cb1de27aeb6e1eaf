package check

import (
	"math"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
)

// Care by the safety rules, just below, at and above their limits.
func TestCaseSafety(t *testing.T) {
	at := func(kg float64) *PartReport {
		b := examplePlate("plate", 1000, 500)
		b.hole(500, 250, 22)
		e := b.example("", 10, "")
		rep, _ := judgeOnce(e.Part, shop.BuiltIn(), e.Job, circumstances{}, func(a *features.Part, p *shop.Profile, j plan.Job) *plan.Plan {
			pl := literal(a, p, j)
			pl.Work.GrossKG = kg
			return pl
		})
		return rep
	}
	for _, c := range []struct {
		kg   float64
		want Severity
		lim  float64
	}{{24.99, "", 0}, {25, "", 0}, {25.01, Warning, 25}, {50, Warning, 25}, {50.01, Warning, 50}} {
		if f := wantSeverity(t, at(c.kg), "lift", c.want); f != nil {
			near(t, "lift", f.Limit.Value, c.lim, 0)
			if hoist := !strings.Contains(f.Fix, "two people"); hoist != (c.lim == 50) {
				t.Error(f.Fix)
			}
		}
	}
	small := func(l, w float64) *PartReport {
		b := examplePlate("clip", l, w)
		b.hole(10, w/2, 9)
		return judged(b.example("", 4, ""))
	}
	wantSeverity(t, small(99.9, 60), "small-part", Warning)
	wantSeverity(t, small(100, 60), "small-part", "")
	wantSeverity(t, small(99.9, 120), "small-part", "")
	// No place to hold: the corner furthest from the hole is 74.9 or 75.1 away.
	hold := func(l float64) *PartReport {
		b := examplePlate("tab", l, 40)
		b.hole(l/2, 20, 9)
		return judged(b.example("", 4, ""))
	}
	reach := func(far float64) float64 { return 2 * math.Sqrt(far*far-400) }
	wantSeverity(t, hold(reach(74.9)), "small-part", Warning)
	wantSeverity(t, hold(reach(75)), "small-part", "")
	wantSeverity(t, hold(reach(75.1)), "small-part", "")
	strip := func(v float64) *PartReport {
		b := examplePlate("plate", 300, 300)
		b.hole(15, v, 9)
		return judged(b.example("", 4, ""))
	}
	for _, c := range []struct {
		v    float64
		want Severity
	}{{22.49, Warning}, {22.5, ""}, {22.51, ""}} {
		if f := wantSeverity(t, strip(c.v), "stripping", c.want); f != nil {
			near(t, "stripping", f.Got.Value, c.v, 1e-9)
			near(t, "half of the gap", f.Limit.Value, 22.5, 1e-9)
		}
	}
	// Cautions: at most four, and what the part does not do is not warned of.
	rep := small(50, 50)
	if len(rep.Cautions) > 4 {
		t.Errorf("%q", rep.Cautions)
	}
}

func TestWebLimits(t *testing.T) {
	edge := func(web float64) *PartReport {
		b := examplePlate("plate", 300, 300)
		b.hole(9+web, 150, 18)
		return judged(b.example("", 10, ""))
	}
	holes := func(web float64) *PartReport {
		b := examplePlate("plate", 300, 300)
		b.hole(100, 150, 18)
		b.hole(118+web, 150, 18)
		return judged(b.example("", 10, ""))
	}
	slots := func(web float64) *PartReport { // round end against a flat side, turned
		b := examplePlate("plate", 300, 300)
		b.slotAt(100, 150, 18, 50, math.Pi/2)
		b.slotAt(109+web+25, 150, 18, 50, 0)
		return judged(b.example("", 10, ""))
	}
	for _, c := range []struct {
		web   float64
		want  Severity
		limit float64
	}{{4.999, Error, 5}, {5, Warning, 10}, {5.001, Warning, 10}, {9.999, Warning, 10}, {10, "", 0}, {10.001, "", 0}} {
		for i, rep := range []*PartReport{edge(c.web), holes(c.web), slots(c.web)} {
			if f := wantSeverity(t, rep, "web", c.want); f != nil {
				near(t, "got", f.Got.Value, c.web, 1e-9)
				near(t, "limit", f.Limit.Value, c.limit, 1e-9)
				near(t, "foot to foot", f.At.Dist(*f.To), c.web, 1e-9)
				if i > 0 && len(f.Features) != 2 {
					t.Errorf("%v", f.Features)
				}
			}
		}
	}
	// To a notch: it is named.
	b := exampleNotched("plate", 300, 200, 40, 40)
	b.hole(150, 200-40-6-9, 18)
	if f := wantSeverity(t, judged(b.example("", 10, "")), "web", Warning); f != nil && !strings.Contains(f.Message, "notch N1") {
		t.Error(f.Message)
	}
}

// Simple beam worked by hand: F = pi x 18 x 5 x 345 = 97.55 kN, Fs 9.755 kN,
// M = 9.755 (45/4 - 18/8) = 87.8 Nm; the strap bears 1.2 x 235 x (b - 18) x 25/4:
// 87.8 Nm at b = 67.8 mm.
func TestStrap(t *testing.T) {
	strap := func(b, l float64, n int) *PartReport {
		e := examplePlate("strap", l, b)
		for i := range n {
			e.hole(60+70*float64(i), b/2, 18)
		}
		return judged(e.example("", 5, ""))
	}
	if f := wantSeverity(t, strap(67.7, 600, 5), "strap", Warning); f != nil {
		near(t, "moment", f.Got.Value*1e3, 87.8, 0.05)
	}
	wantSeverity(t, strap(67.9, 600, 5), "strap", "")
	wantSeverity(t, strap(60, 600, 2), "strap", "")
	wantSeverity(t, strap(60, 299, 3), "strap", "")
	wantSeverity(t, strap(60, 300, 3), "strap", Warning)
	need, bears := strapMoments(97.5, 0.1, 45, 18, 60, 5, 235, 1.2)
	if !(need > bears) {
		t.Error(need, bears)
	}
	// A row off the middle: more than b/6, five holes, pitch under 4 d.
	camber := func(off float64, n int) *PartReport {
		e := examplePlate("strap", 600, 90)
		for i := range n {
			e.hole(60+70*float64(i), 45+off, 18)
		}
		return judged(e.example("", 10, ""))
	}
	wantSeverity(t, camber(15, 5), "strap", "")
	wantSeverity(t, camber(15.1, 5), "strap", Note)
	wantSeverity(t, camber(-15.1, 5), "strap", Note)
	wantSeverity(t, camber(15.1, 4), "strap", "")
}
