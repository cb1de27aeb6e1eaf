package check

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
)

// triple is one limit of a rule: what it says just below, at and just above.
type triple struct {
	rule, what       string
	below, at, above float64
	want             [3]Severity
	judge            func(v float64) []Finding
}

// limitTests names, for the rules whose limits are held elsewhere, the test that
// does it: a number of a station is tried where it is worked out.
func limitTests() map[string]string {
	return map[string]string{
		"punch-force": "station TestForceLimits", "punch-ratio": "TestCasePunchRatio", "die-clearance": "station TestDieClearance", "die-holder": "station TestHolder",
		"throat-reach": "station TestReach", "slot-hits": "station TestSlotHits", "opening": "station TestOpenings", "punching-limit": "TestPunchingLimits",
		"web": "TestWebLimits", "stripping": "TestCaseSafety", "lift": "TestCaseSafety", "small-part": "TestCaseSafety",
		"leg-clearance": "station TestLegLimits", "root-fillet": "TestRootFillet", "usual-gauge": "TestUsualGauge",
		"hold-down": "station TestHoldDown", "shear-row": "station TestRows", "mitre": "station TestMitreNotStated", "sliver": "station TestSliver", "twist": "station TestTwist",
		"notch-force": "station TestNotchForce", "angle-shear": "station TestAngleShearLimits", "leg-notch": "station TestNotchLegLimits",
		"bar-shear": "station TestBarCavities", "channel-shear": "station TestChannelRows", "tube-shear": "station TestTubeRows", "end-tool": "station TestEndTools",
		"bend": "station TestBendStroke", "edge-distance": "TestAISCEdgeLimits", "hole-pitch": "TestAISCPitchLimits", "hole-class": "TestHoleClass",
		"quantity-conflict": "TestCaseNoise", // two counts agree or do not: there is nothing between
	}
}

func triples(t *testing.T) []triple {
	literally := func(e Example, rule string) []Finding { return of(judged(e), rule) }
	planned := func(e Example, rule string, change func(*shop.Profile)) []Finding {
		prof := *shop.BuiltIn()
		if change != nil {
			change(&prof)
		}
		rep, _ := judgeOnce(e.Part, &prof, e.Job, circumstances{}, plan.MakePlan)
		return of(rep, rule)
	}
	// A bend at x = 100 noted 90 degrees, R8, in 6 mm: half of it is pi/2 (8 + 0.45 x
	// 6)/2 = 8.404 mm wide; error below 1.5 x 6 + 8 = 17, care below 2.5 x 6 + 8 = 23.
	beside := func(mm float64) []Finding {
		b := exampleBent("bracket", 200, 100)
		b.hole(100+math.Pi/2*(8+2.7)/2+mm+7, 50, 14)
		return literally(b.example("", 6, ""), "hole-to-bend")
	}
	strap := func(b float64) []Finding {
		e := examplePlate("strap", 600, b)
		for i := range 5 {
			e.hole(60+70*float64(i), b/2, 18)
		}
		return literally(e.example("", 5, ""), "strap")
	}
	// F = pi 18 5 345 N, a tenth of it over 45/4 - 18/8 mm; 1.2 x 235 x (b - 18) 25/4.
	atStrap := 18 + 0.1*math.Pi*18*5*345*9/(1.2*235*25/4)
	close := func(mm float64) []Finding {
		b := examplePlate("plate", 200, 140)
		b.hole(60, 70, 22)
		b.p.Tolerances = append(b.p.Tolerances, features.Tolerance{Text: "60", PlusMM: mm, MinusMM: mm, Features: []string{"H1"}})
		return literally(b.example("", 10, ""), "tolerance")
	}
	gap := func(mm float64) []Finding {
		e := sheetExample("", features.Fault{Code: "gap-bridged", Value: mm, Count: 1, Part: -1})
		r := ruleGapBridged()
		return exampleFindings(&r, e)
	}
	foul := func(apart float64) []Finding {
		b := exampleAngle(400, 75, 75, 8, 9)
		b.hole(0, 100, 45, 22)
		b.hole(1, 100+apart, 45, 22)
		e := b.example("", 8, "")
		return literally(e, "legs-foul")
	}
	// A Ø18 in 3 mm goes over its narrowest die, 18.6 mm: 18.6/2 + 3 = 12.3 mm from the
	// centre, 9 of them to its own edge.
	land := func(mm float64) []Finding {
		b := examplePlate("plate", 200, 140)
		b.hole(100, 70, 18)
		b.hole(100+9+mm, 70, 18)
		return planned(b.example("", 3, ""), "die-land", nil)
	}
	const n, w, x, none = Note, Warning, Error, Severity("")
	return []triple{
		{"hole-to-bend", "error", 16.999, 17, 17.001, [3]Severity{x, w, w}, beside},
		{"hole-to-bend", "care", 22.999, 23, 23.001, [3]Severity{w, none, none}, beside},
		{"strap", "width", atStrap - 0.01, atStrap, atStrap + 0.01, [3]Severity{w, none, none}, strap},
		{"tolerance", "stop", 0.499, 0.5, 0.501, [3]Severity{w, n, n}, close},
		{"tolerance", "mark", 0.999, 1, 1.001, [3]Severity{n, none, none}, close},
		{"gap-bridged", "care", 0.049, 0.05, 0.051, [3]Severity{n, n, w}, gap},
		{"legs-foul", "apart", 39.99, 40, 40.01, [3]Severity{n, none, none}, foul},
		{"die-land", "land", 12.29, 12.3, 12.31, [3]Severity{w, none, none}, land},
	}
}

func TestAtTheLimit(t *testing.T) {
	for _, c := range triples(t) {
		for i, v := range []float64{c.below, c.at, c.above} {
			worst := Severity("")
			for _, f := range c.judge(v) {
				if worst == "" || severityRank(&f) < severityRank(&Finding{Severity: worst}) {
					worst = f.Severity
				}
			}
			if worst != c.want[i] {
				t.Errorf("%s, %s at %g: %q, want %q: %+v", c.rule, c.what, v, worst, c.want[i], c.judge(v))
			}
		}
	}
}

// Every rule whose worked example has a limit in numbers is tried below, at and
// above it: in the table, or by a test that is there.
func TestEveryLimitIsTried(t *testing.T) {
	tried := map[string]bool{}
	for _, c := range triples(t) {
		tried[c.rule] = true
	}
	source := ""
	for _, pattern := range []string{"*_test.go", "station/*_test.go"} {
		names, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			raw, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			source += filepath.Dir(name) + "\n" + string(raw)
		}
	}
	known := map[string]bool{}
	for rule, test := range limitTests() {
		name := test[strings.LastIndex(test, " ")+1:]
		if !strings.Contains(source, fmt.Sprintf("func %s(t *testing.T)", name)) {
			t.Errorf("%s: there is no %s", rule, name)
		}
		known[rule] = true
	}
	for _, r := range Rules() {
		limit := false
		for _, f := range exampleFindings(&r, r.Example()) {
			limit = limit || f.Limit != nil
		}
		if limit && !tried[r.ID] && !known[r.ID] {
			t.Errorf("%s has a limit that no test tries from both sides", r.ID)
		}
		delete(known, r.ID)
	}
	for rule := range known {
		t.Errorf("there is no rule %s", rule)
	}
}
