package check

import (
	"testing"

	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// TestLiftDoubts: a plate whose edge view is told by its 12 mm alone, judged as
// it is and asked for.
func TestLiftDoubts(t *testing.T) {
	for name, c := range map[string]struct {
		askedMM float64
		from    string
		doubted bool
	}{
		"nobody says":        {0, "", true},
		"asked for the same": {12, "flag", false},
		"in the answers":     {12, "answers", false},
		"asked for another":  {10, "flag", true},
		"only supposed":      {12, "supposed", true},
	} {
		e := examplePlate("plate", 200, 120).example("", c.askedMM, "")
		e.Job.ThicknessFrom = c.from
		e.Part.Thickness = features.Stated{Text: "edge view", MM: 12, From: "view"}
		e.Part.Doubts = []features.Doubt{{Code: "maybe-edge-view", Grave: true, At: geom.Point{}, Text: "it may be a flat bar"}, {Code: "maybe-letter", Text: "another one"}}
		rep := RunPart(e.Part, shop.BuiltIn(), e.Job)
		doubted := rep.Verdict == CannotTell
		if doubted != c.doubted || len(rep.Part.Doubts) == 2 != c.doubted || len(e.Part.Doubts) != 2 {
			t.Errorf("%s: %s %s, %d doubts", name, rep.Verdict, rep.Reason, len(rep.Part.Doubts))
		}
	}
}
