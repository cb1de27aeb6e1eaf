package check

import (
	"strings"
	"testing"

	"burrside/check/shop"
)

// A piece cut off a bar that is shorter than an offcut may be narrow turns and
// wedges between the blades all the same: 1 t fails and is sawn, 2 t (5 mm at
// least) needs care; of a solid bar half of its size counts (common practice, no
// source).
func TestShortPieces(t *testing.T) {
	for _, c := range []struct {
		line string
		prof *shop.Profile
		want Verdict
		rule string
	}{
		{"FL 100x10,9.9,1,S275,", machinesAlone(), DoesNotFit, "sliver"}, {"FL 100x10,10,1,S275,", machinesAlone(), WithCare, "sliver"},
		{"FL 100x10,19.9,1,S275,", machinesAlone(), WithCare, "sliver"}, {"FL 100x10,20,1,S275,", machinesAlone(), Fits, ""},
		{"RD 20,9.9,1,S275,", machinesAlone(), DoesNotFit, "sliver"}, {"RD 20,19.9,1,S275,", machinesAlone(), WithCare, "sliver"}, {"RD 20,20,1,S275,", machinesAlone(), Fits, ""},
		{"L60x60x6,5.9,1,S275,", machinesAlone(), DoesNotFit, "sliver"}, {"L60x60x6,12,1,S275,", machinesAlone(), Fits, ""},
		{"SHS 40x40x3,4.9,1,S235,", machinesAlone(), WithCare, "sliver"}, {"SHS 40x40x3,6,1,S235,", machinesAlone(), Fits, ""},
		{"FL 100x10,5,1,S275,", shop.BuiltIn(), WithCare, "sliver"}, // sawn
	} {
		b := lineOf(t, c.prof, c.line)
		rule := ""
		if len(b.Findings) > 0 {
			rule = b.Findings[0].Rule
			if f := b.Findings[0]; f.Got == nil || f.Limit == nil || f.Basis == "" {
				t.Errorf("%s: %+v says no numbers", c.line, f)
			}
		}
		if b.Verdict != c.want || rule != c.rule {
			t.Errorf("%s: %s by %q, want %s by %q: %+v", c.line, b.Verdict, rule, c.want, c.rule, b.Findings)
		}
	}
	// The same of a drawn strip.
	if r := RunPart(examplePlate("clip", 9, 100).example("", 10, "").Part, machinesAlone(), examplePlate("clip", 9, 100).example("", 10, "").Job); r.Verdict == Fits {
		t.Errorf("a drawn clip of 9 x 100 x 10: %s", r.Verdict)
	}
}

// What is left of the only piece of a bar must be held: 6000 - 10 - 60 = 5930 mm.
func TestDropThatCannotBeHeld(t *testing.T) {
	for _, c := range []struct {
		line string
		want Verdict
	}{{"RD 20,5930,1,S275,", Fits}, {"RD 20,5930.5,1,S275,", WithCare}, {"RD 20,5990,1,S275,", WithCare}} {
		b := lineOf(t, shop.BuiltIn(), c.line)
		said := ""
		for _, f := range b.Findings {
			if f.Rule == "blank" {
				said = f.Message
			}
		}
		if b.Verdict != c.want || (c.want == WithCare) != strings.Contains(said, "too short to be held") {
			t.Errorf("%s: %s, %q", c.line, b.Verdict, said)
		}
	}
}
