package check

import (
	"slices"
	"strings"
	"testing"

	"burrside/check/change"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// What must never be suggested, each in a case where it would clear the finding.
func TestNeverSuggested(t *testing.T) {
	none := func(name string, rep *PartReport, bad func(*Suggestion) bool) {
		t.Helper()
		if len(rep.Findings) == 0 {
			t.Errorf("%s: nothing is against it", name)
		}
		for i := range rep.Changes {
			if g := &rep.Changes[i]; bad(g) {
				t.Errorf("%s: %s", name, g.Text)
			}
		}
	}
	anyOne := func(*Suggestion) bool { return true }
	kind := func(kinds ...change.Kind) func(*Suggestion) bool {
		return func(g *Suggestion) bool {
			return slices.ContainsFunc(g.Steps, func(c change.Step) bool { return slices.Contains(kinds, c.Kind) })
		}
	}
	// Beyond the rows: 2384 of 910 kN on the stronger machine, and nothing else in the shop.
	b := examplePlate("p", 300, 300)
	b.hole(150, 150, 110)
	none("beyond every row", suggested(t, b, 20, "", SuggestOptions{}), anyOne)
	// A cut of 300 in 20 mm is the row of the stronger shear; 301 is beyond it, and
	// 1 mm nearer to the pivot would bear it. The saw cuts it, or it comes cut.
	b = examplePlate("p", 500, 320)
	b.hole(100, 100, 22)
	none("nearer to the pivot", suggested(t, b, 20, "", SuggestOptions{}), func(g *Suggestion) bool {
		return strings.Contains(g.Text, "pivot") || kind(change.Machine)(g)
	})
	// Stripping is held on one side only; a wider gap would only be worse, a
	// narrower one is another stripper.
	b = examplePlate("p", 150, 40)
	b.hole(15, 20, 14)
	none("stripper", suggested(t, b, 6, "", SuggestOptions{Drawing: true}), func(g *Suggestion) bool {
		return strings.Contains(g.Text, "strip") || strings.Contains(g.Text, "gap")
	})
	// The only other thickness is twice, or half of it.
	double := func(p *shop.Profile, _ *plan.Job) {
		p.Stock.ThicknessMM, p.Buy, p.Also = []float64{6, 12, 24}, false, nil
	}
	rep := suggested(t, exampleNotched("p", 300, 200, 40, 40), 12, "", SuggestOptions{Drawing: true}, double)
	none("double thickness", rep, kind(change.Thickness))
	// A hole over the edge is part of a hole: no punch and no tool for it.
	b = examplePlate("p", 200, 140)
	b.hole(5, 70, 22)
	b.p.Features[len(b.p.Features)-1].CrossesOutline = true
	none("part of a hole", suggested(t, b, 10, "", SuggestOptions{Drawing: true}), anyOne)
	// The drawing says that holes are drilled; the rack has no Ø15.
	b = examplePlate("p", 200, 140)
	b.hole(60, 70, 15)
	b.p.CallOuts = append(b.p.CallOuts, features.CallOut{Text: "ALL HOLES TO BE DRILLED"})
	punching := kind(change.Punch, change.Die, change.Holder, change.Machine)
	rep = suggested(t, b, 10, "", SuggestOptions{})
	none("holes to be drilled", rep, punching)
	if !slices.Contains(texts(rep), "shop: drill H1") {
		t.Errorf("holes to be drilled: %v", texts(rep))
	}
	none("and no drill", suggested(t, b, 10, "", SuggestOptions{}, func(p *shop.Profile, _ *plan.Job) { p.Also = nil }), punching)
	// Nothing is said of a part whose thickness is not known.
	b = examplePlate("p", 200, 140)
	b.hole(60, 70, 8)
	none("no thickness", suggested(t, b, 0, "", SuggestOptions{Drawing: true}), anyOne)
}

// A pattern moves as one: all members of a row, and rows of one size beside it.
func TestPatternsMoveAsOne(t *testing.T) {
	b := examplePlate("p", 400, 140)
	for i := range 4 {
		b.hole(25+60*float64(i), 50, 22)
		b.hole(55+60*float64(i), 100, 22)
	}
	b.hole(350, 70, 18)
	b.p.Patterns = []features.Pattern{
		{Kind: "row", Members: []string{"H1", "H3", "H5", "H7"}, PitchMM: []float64{60}},
		{Kind: "row", Members: []string{"H2", "H4", "H6", "H8"}, PitchMM: []float64{60}},
	}
	want := []string{"H1", "H2", "H3", "H4", "H5", "H6", "H7", "H8"}
	if g := patternsOf(b.p); len(g) != 2 || !slices.Equal(sorted(g[0]), want) || !slices.Equal(g[1], []string{"H9"}) {
		t.Fatalf("patterns %v", g)
	}
	rep := suggested(t, b, 10, "en", SuggestOptions{})
	moved := false
	for _, g := range rep.Changes {
		for _, c := range g.Steps {
			if c.Kind == change.Move {
				moved = true
				if !slices.Equal(sorted(c.Features), want) {
					t.Errorf("moved %v", c.Features)
				}
				if c.By != (geom.Point{X: 2}) {
					t.Errorf("moved by %v, 26.4 - 25 = 1.4, up to 2", c.By)
				}
			}
		}
	}
	if !moved {
		t.Errorf("nothing is moved: %v", texts(rep))
	}
}
