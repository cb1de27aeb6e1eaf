package check

import (
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
)

const limitsShop = `name = "limits"
units = "mm"
[[machine]]
name = "bay"
[machine.punch]
rated = "600 kN"
max_thickness = "30 mm"
throat = "300 mm"
holders = [{ name = "standard", max = "40 mm" }]
[machine.shear]
rated = "700 kN"
rows = [{ thickness = "20 mm", cut = "200 mm" }]
blade = "400 mm"
[stock]
flat_widths = ["150 mm"]
[also]
drill = false
saw = false
`

// 200 x 150 with four Ø22 and no thickness: mild fits up to 16 mm, with care at
// 20 mm (573.7 kN at the upper strength of 540 kN), and not above.
func TestCaseLimits(t *testing.T) {
	p := testShop(t, limitsShop+withPunch(22))
	b := examplePlate("plate", 200, 150)
	for _, c := range [][2]float64{{50, 45}, {150, 45}, {50, 105}, {150, 105}} {
		b.hole(c[0], c[1], 22)
	}
	rep := RunPart(b.p, p, steel(t, p, "mild"))
	if rep.Verdict != CannotTell || !strings.Contains(rep.Reason, "thickness") {
		t.Errorf("%s %q", rep.Verdict, rep.Reason)
	}
	wantSeverity(t, rep, "thickness-missing", Warning)
	got := map[float64]Limit{}
	for _, l := range rep.Limits {
		got[l.ThicknessMM] = l
	}
	if len(rep.Limits) != 11 {
		t.Fatalf("%d limits", len(rep.Limits))
	}
	for _, mm := range []float64{5, 6, 8, 10, 12, 15, 16} {
		if got[mm].Verdict != Fits {
			t.Errorf("%g mm: %+v", mm, got[mm])
		}
	}
	if l := got[20]; l.Verdict != WithCare || l.StoppedBy != "punch-force" || len(l.Features) != 4 || !strings.Contains(l.Text, "573.7") {
		t.Errorf("20 mm: %+v", l)
	}
	if l := got[25]; l.Verdict != DoesNotFit || l.StoppedBy == "" {
		t.Errorf("25 mm: %+v", l)
	}
	// Neither thickness nor material: mild and one stronger grade.
	rep = RunPart(b.p, p, plan.Job{})
	steels := map[string]int{}
	for _, l := range rep.Limits {
		steels[l.Material]++
	}
	if steels["mild"] != 11 || steels["S355"] != 11 || len(steels) != 2 {
		t.Errorf("%v", steels)
	}
	if !strings.Contains(rep.Reason, "the thickness and the material") {
		t.Errorf("%q", rep.Reason)
	}
	// Only the material is missing: two limits at the thickness that is known.
	rep = RunPart(b.p, p, plan.Job{ThicknessMM: 16, ThicknessFrom: "flag"})
	if len(rep.Limits) != 2 || rep.Limits[0].ThicknessMM != 16 || rep.Limits[0].Verdict != Fits || rep.Verdict != CannotTell {
		t.Errorf("%s %+v", rep.Verdict, rep.Limits)
	}
	// A name that the shop does not know is quoted, never guessed.
	b.p.Material.Text, b.p.Material.From = "Ford Special 7", "text"
	rep = RunPart(b.p, p, plan.Job{ThicknessMM: 16, ThicknessFrom: "flag"})
	if f := wantSeverity(t, rep, "material-missing", Warning); f != nil && (!f.CannotTell || !strings.Contains(f.Message, `"Ford Special 7"`)) {
		t.Errorf("%+v", f)
	}
	if rep.Verdict != CannotTell {
		t.Error(rep.Verdict)
	}
}

// Everything known, nothing against it: no limits, no question.
func TestLimitsOnlyWhenMissing(t *testing.T) {
	p := shop.BuiltIn()
	b := examplePlate("plate", 200, 150)
	b.hole(100, 75, 22)
	rep := RunPart(b.p, p, thick(steel(t, p, "mild"), 10))
	if rep.Limits != nil || len(rep.Questions) != 0 || rep.Verdict != Fits || rep.Reason != "" {
		t.Errorf("%s %q %+v %q", rep.Verdict, rep.Reason, rep.Limits, rep.Questions)
	}
}
