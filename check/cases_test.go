package check

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
)

// testShop is a shop of invented figures, read like any other.
func testShop(t *testing.T, text string) *shop.Profile {
	t.Helper()
	p, err := shop.Load(strings.NewReader(text), "test.toml")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func withPunch(d ...float64) string {
	var b strings.Builder
	for _, v := range d {
		fmt.Fprintf(&b, "[[punch]]\nsize = \"%g mm\"\ndies = [\"%g mm\", \"%g mm\", \"%g mm\"]\n", v, v+0.7, v+1.2, v+2.4)
	}
	return b.String()
}

func steel(t *testing.T, p *shop.Profile, name string) plan.Job {
	t.Helper()
	m, ok := p.Material(name)
	if !ok {
		t.Fatalf("no material %s", name)
	}
	return plan.Job{Material: m, MaterialName: name, MaterialFrom: "flag"}
}

func thick(j plan.Job, mm float64) plan.Job {
	j.ThicknessMM, j.ThicknessFrom = mm, "flag"
	return j
}

// 300 x 150 x 20 mild, four Ø26: one machine shears it but needs 563.6 of 540
// kN to punch, the other has no shear but 990 kN. The shop makes it.
func TestCaseTwoMachines(t *testing.T) {
	p := testShop(t, `name = "two bays"
units = "mm"
[[machine]]
name = "one"
[machine.punch]
rated = "600 kN"
max_thickness = "30 mm"
throat = "300 mm"
holders = [{ name = "standard", max = "40 mm" }]
[machine.shear]
rated = "700 kN"
rows = [{ thickness = "20 mm", cut = "150 mm" }]
blade = "400 mm"
[[machine]]
name = "two"
[machine.punch]
rated = "1100 kN"
max_thickness = "30 mm"
throat = "300 mm"
holders = [{ name = "standard", max = "40 mm" }]
[stock]
flat_widths = ["150 mm"]
flat_length = "6 m"
[also]
drill = false
saw = false
`+withPunch(26))
	b := examplePlate("plate", 300, 150)
	for _, c := range [][2]float64{{60, 45}, {240, 45}, {60, 105}, {240, 105}} {
		b.hole(c[0], c[1], 26)
	}
	job := thick(steel(t, p, "mild"), 20)
	rep := RunPart(b.p, p, job)
	if rep.Verdict != Fits {
		t.Errorf("the shop: %s %s %+v", rep.Verdict, rep.Reason, rep.Findings)
	}
	for i := range rep.Plan.Makes {
		m := &rep.Plan.Makes[i]
		if b.p.Features[m.Feature].IsInside() && m.Use.Machine != "two" {
			t.Errorf("%s by %s", b.p.Features[m.Feature].ID, m.Use.Machine)
		}
	}
	job.Machine = "one"
	rep = RunPart(b.p, p, job)
	if f := wantSeverity(t, rep, "punch-force", Error); f != nil {
		near(t, "force", f.Got.Value, 563.6, 0.1)
		near(t, "usable", f.Limit.Value, 540, 0.1)
		if len(f.Features) != 4 || rep.Verdict != DoesNotFit || !strings.Contains(rep.Reason, "punch force") {
			t.Errorf("%s %q %+v", rep.Verdict, rep.Reason, f)
		}
	}
	// When neither makes it, both are named.
	weak := *p
	weak.Machines = slices.Clone(p.Machines)
	press := *weak.Machines[1].Punch
	press.UsableKN = 500
	weak.Machines[1].Punch = &press
	job.Machine = ""
	if f := wantSeverity(t, RunPart(b.p, &weak, job), "punch-force", Error); f != nil && !slices.Equal(sorted(append(slices.Clone(f.Tried), f.Machine)), []string{"one", "two"}) {
		t.Errorf("%s, tried %v", f.Machine, f.Tried)
	}
	job.Machine = "two"
	if rep = RunPart(b.p, p, job); rep.Verdict != DoesNotFit {
		t.Errorf("two has no shear: %s", rep.Verdict)
	}
}

// A bracket with R10 corners and a base plate with a Ø110 hole are not refused:
// what else the shop has makes them, with care.
func TestCaseOtherProcesses(t *testing.T) {
	p := shop.BuiltIn()
	b := exampleRounded("bracket", 250, 120, 10)
	b.hole(60, 60, 18)
	b.hole(190, 60, 18)
	rep := RunPart(b.p, p, thick(steel(t, p, "mild"), 10))
	if f := wantSeverity(t, rep, "edge-process", Warning); f != nil && (len(f.Features) != 4 || !strings.Contains(f.Fix, "grind")) {
		t.Errorf("%+v", f)
	}
	if rep.Verdict != WithCare {
		t.Errorf("%s: %+v", rep.Verdict, rep.Findings)
	}
	// The grinder's limit: radius 15 passes with care, 15.1 is an error here.
	for _, c := range []struct {
		r    float64
		want Severity
	}{{15, Warning}, {15.1, Error}} {
		wantSeverity(t, RunPart(exampleRounded("bracket", 250, 120, c.r).p, p, thick(steel(t, p, "mild"), 10)), "edge-process", c.want)
	}
	b = examplePlate("base", 300, 300)
	b.hole(150, 150, 110)
	q := *p
	q.Also = append([]shop.Process{{Kind: "thermal", Have: true}}, nil...)
	rep = RunPart(b.p, &q, thick(steel(t, p, "mild"), 20))
	if rep.Verdict != WithCare {
		t.Errorf("with thermal cutting: %s %+v", rep.Verdict, rep.Findings)
	}
	if rep = RunPart(b.p, p, thick(steel(t, p, "mild"), 20)); rep.Verdict != DoesNotFit {
		t.Errorf("without: %s", rep.Verdict)
	}
}

const nameplateShop = `name = "rows"
units = "mm"
[[machine]]
name = "bay"
[machine.punch]
rated = "65 US ton"
rows = [{ hole = "27 mm", thickness = "19 mm" }]
throat = "300 mm"
holders = [{ name = "standard", max = "40 mm" }]
[machine.shear]
rated = "700 kN"
rows = [{ thickness = "20 mm", cut = "300 mm" }]
blade = "400 mm"
[stock]
flat_widths = ["140 mm"]
`

// Rated 65 US ton (578.3 kN), the plate says 27 mm in 19 mm: 556.0 kN. That hole
// is a plain pass.
func TestCaseRowIsAPass(t *testing.T) {
	p := testShop(t, nameplateShop+withPunch(27, 28))
	b := examplePlate("plate", 200, 140)
	b.hole(100, 70, 27)
	rep := RunPart(b.p, p, thick(steel(t, p, "mild"), 19))
	if rep.Verdict != Fits || len(of(rep, "punch-force")) != 0 {
		t.Errorf("%s %+v", rep.Verdict, rep.Findings)
	}
	b = examplePlate("plate", 200, 140)
	b.hole(100, 70, 28)
	if l := of(RunPart(b.p, p, thick(steel(t, p, "mild"), 19)), "punch-force"); len(l) == 0 || l[0].Severity == Note {
		t.Errorf("28 mm is beyond the row: %+v", l)
	}
}

// Blank first: a tread bearer from flat bar, a mitre's true length, and a square
// that no blade can start.
func TestCaseBlankFirst(t *testing.T) {
	p := shop.BuiltIn()
	b := examplePlate("bearer", 2000, 100)
	b.hole(60, 50, 18)
	b.hole(1940, 50, 18)
	rep := RunPart(b.p, p, thick(steel(t, p, "mild"), 10))
	if rep.Verdict != Fits || rep.Plan.Blank.Form != "bar" {
		t.Errorf("bearer: %s, %s: %+v", rep.Verdict, rep.Plan.Blank.Form, rep.Findings)
	}

	q := testShop(t, `name = "bay"
units = "mm"
[[machine]]
name = "bay"
[machine.shear]
rated = "700 kN"
rows = [{ thickness = "12 mm", cut = "300 mm" }, { thickness = "6 mm", cut = "600 mm" }]
blade = "600 mm"
[stock]
flat_widths = ["250 mm"]
plates = [{ width = "1500 mm", length = "3000 mm" }]
[also]
saw = false
grinder = false
`)
	rep = RunPart(exampleMitre("brace", 900, 250, 45).p, q, thick(steel(t, q, "mild"), 12))
	found := false
	for _, f := range rep.Findings {
		if f.Rule == "shear-row" && f.Severity != Note {
			found = true
			near(t, "length of the mitre", f.Got.Value, 353.6, 0.05)
		}
	}
	if !found {
		t.Errorf("mitre: %+v", rep.Findings)
	}

	rep = RunPart(examplePlate("square", 600, 600).p, q, thick(steel(t, q, "mild"), 6))
	if f := wantSeverity(t, rep, "blank", Error); f != nil && !strings.Contains(f.Message, "1500") {
		t.Errorf("%s", f.Message)
	}
	q.Also = append([]shop.Process{{Kind: "bought-cutting", Have: true}}, q.Also...)
	rep = RunPart(examplePlate("square", 600, 600).p, q, thick(steel(t, q, "mild"), 6))
	wantSeverity(t, rep, "blank", Warning)

	// The edge that a bolt is too near to is named by how it came to be: this
	// bar's long sides are mill edges.
	b = examplePlate("bar", 400, 100)
	b.hole(100, 25, 22)
	b.hole(300, 25, 22)
	job := thick(steel(t, p, "mild"), 10)
	job.Code = "en"
	if f := wantSeverity(t, RunPart(b.p, p, job), "edge-distance", Error); f != nil && !strings.Contains(f.Message, "mill edge") {
		t.Error(f.Message)
	}
}

// M20 at 26 in 20 mm is legal by AISC; the web of 15 mm = 0.75 t needs care, no
// more. The fin plate at t 15 with 29 mm of web has nothing.
func TestCaseWebAndCode(t *testing.T) {
	x := twoHoles(22, 26)
	x.Job.ThicknessMM = 20
	rep := judged(x, inCode("aisc"))
	wantSeverity(t, rep, "edge-distance", "")
	if f := wantSeverity(t, rep, "web", Warning); f != nil {
		near(t, "web", f.Got.Value, 15, 1e-9)
		near(t, "limit", f.Limit.Value, 20, 1e-9)
	}
}

// 200 holes with d < t are one finding; eight sharp corners are one note.
func TestCaseNoise(t *testing.T) {
	p := shop.BuiltIn()
	b := examplePlate("grid", 1000, 280)
	for i := range 20 {
		for j := range 10 {
			b.hole(30+48*float64(i), 20+26*float64(j), 9)
		}
	}
	q := *p
	q.Also = []shop.Process{{Kind: "drill"}} // no drill: an error
	rep := RunPart(b.p, &q, thick(steel(t, p, "mild"), 10))
	if f := wantSeverity(t, rep, "punch-ratio", Error); f != nil && (len(f.Features) != 200 || f.Count != 200) {
		t.Errorf("%d features, count %d", len(f.Features), f.Count)
	}
	for _, f := range rep.Findings {
		for _, id := range f.Features {
			if f.Rule != "punch-ratio" && strings.HasPrefix(id, "H") {
				t.Errorf("%s on %s beside punch-ratio", f.Rule, id)
			}
		}
	}
	b = examplePlate("windows", 600, 300)
	b.opening(200, 150, 60, 60)
	b.opening(400, 150, 60, 60)
	if f := wantSeverity(t, judged(b.example("", 6, "")), "inside-corner", Note); f != nil && (f.Count != 8 || len(f.Features) != 2) {
		t.Errorf("%+v", f)
	}
	wantSeverity(t, judged(b.example("", 6, "en")), "inside-corner", Warning)
}

// A seat and a thread are not punched to size; DRILL, REAM too.
func TestCaseHoleProcess(t *testing.T) {
	p := shop.BuiltIn()
	none := *p
	none.Also = []shop.Process{{Kind: "drill"}, {Kind: "tap"}, {Kind: "countersink"}}
	for _, c := range []struct {
		what string
		set  func(f *exampleBuilder)
		says string
	}{
		{"seat", func(b *exampleBuilder) { b.last().Kind, b.last().SeatMM = "hole-with-seat", 28 }, "14"},
		{"tapped", func(b *exampleBuilder) { b.last().Kind, b.last().SeatMM = "tapped-hole", 16 }, "14"},
		{"drill", func(b *exampleBuilder) { b.last().Process = "drill" }, "drill"},
		{"ream", func(b *exampleBuilder) { b.last().Process = "ream" }, "ream"},
		{"countersink", func(b *exampleBuilder) {
			b.last().Kind, b.last().SeatMM, b.last().Process = "hole-with-seat", 28, "countersink"
		}, "14"},
	} {
		b := examplePlate("plate", 200, 140)
		b.hole(100, 70, 14)
		c.set(b)
		rep := RunPart(b.p, p, thick(steel(t, p, "mild"), 10))
		if f := wantSeverity(t, rep, "hole-process", Warning); f != nil && !strings.Contains(f.Message+f.Fix, c.says) {
			t.Errorf("%s: %+v", c.what, f)
		}
		if rep.Verdict != WithCare {
			t.Errorf("%s: %s %+v", c.what, rep.Verdict, rep.Findings)
		}
		if asks := len(rep.Questions) == 1 && strings.Contains(rep.Questions[0], "outer circle"); asks != (c.what == "seat") {
			t.Errorf("%s: questions %q", c.what, rep.Questions)
		}
		rep = RunPart(b.p, &none, thick(steel(t, p, "mild"), 10))
		if rep.Verdict != DoesNotFit {
			t.Errorf("%s without the process: %s %+v", c.what, rep.Verdict, rep.Findings)
		}
	}
}

func (b *exampleBuilder) last() *features.Feature { return &b.p.Features[len(b.p.Features)-1] }

// Punch pressures at the nominal strength: 13/16 in 3/4 in A36 1529 MPa; Ø14 in
// 12 mm S355 1474; 304, 12 mm: Ø18 1379, Ø16 1551, Ø14 1773.
func TestCasePunchRatio(t *testing.T) {
	p := shop.BuiltIn()
	q := *p
	q.Also = []shop.Process{{Kind: "drill"}}
	for _, c := range []struct {
		steel string
		d, t  float64
		want  Severity
		mpa   float64
	}{
		{"A36", 13.0 / 16 * 25.4, 19.05, Warning, 1529},
		{"S355", 14, 12, Warning, 1474},
		{"304", 18, 12, "", 0},
		{"304", 16, 12, Warning, 1551},
		{"304", 14, 12, Error, 1773},
		{"mild", 10, 10, "", 0},      // d = t passes: 1380
		{"mild", 9.96, 10, "", 0},    // within 0.05
		{"mild", 9.94, 10, Error, 0}, // d < t
	} {
		b := examplePlate("plate", 200, 140)
		b.hole(100, 70, c.d)
		r := q
		r.Punches = []shop.Punch{{Name: "tool", Shape: "round", WidthMM: c.d, Dies: []shop.Die{{WidthMM: c.d + 0.12*c.t}}}}
		rep := RunPart(b.p, &r, thick(steel(t, &r, c.steel), c.t))
		f := wantSeverity(t, rep, "punch-ratio", c.want)
		if f != nil && c.mpa > 0 {
			near(t, fmt.Sprintf("%s Ø%g in %g", c.steel, c.d, c.t), f.Got.Value, c.mpa, 1)
		}
	}
}

func TestStated(t *testing.T) {
	p := shop.BuiltIn()
	part := func() *exampleBuilder {
		b := examplePlate("plate", 200, 150)
		b.hole(100, 75, 22)
		b.p.Thickness.Text, b.p.Thickness.MM, b.p.Thickness.From = "t=10", 10, "text"
		b.p.Material.Text, b.p.Material.From = "S275", "text"
		return b
	}
	rep := RunPart(part().p, p, plan.Job{})
	if rep.Verdict != Fits || rep.Job.ThicknessMM != 10 || rep.Job.ThicknessFrom != "text" || rep.Job.Material.Name != "S275" {
		t.Errorf("%s %+v %+v", rep.Verdict, rep.Job, rep.Findings)
	}
	// The flag holds; that the drawing says otherwise needs care.
	rep = RunPart(part().p, p, thick(plan.Job{}, 12))
	if f := wantSeverity(t, rep, "thickness-missing", Warning); f == nil || rep.Job.ThicknessMM != 12 || f.CannotTell {
		t.Errorf("%+v", rep.Findings)
	}
	if rep = RunPart(part().p, p, thick(plan.Job{}, 10.01)); rep.Verdict != Fits {
		t.Errorf("10.01 is 10: %+v", rep.Findings)
	}
	rep = RunPart(part().p, p, steel(t, p, "S355"))
	wantSeverity(t, rep, "material-missing", Warning)
	// 9.52 becomes a stock size only where there is one; 10.1 is 10, with a note.
	rep = RunPart(part().p, p, thick(steel(t, p, "S275"), 10.1))
	wantSeverity(t, rep, "thickness-missing", Note)
	if rep.Job.ThicknessMM != 10 || rep.Verdict != Fits {
		t.Errorf("%g %s", rep.Job.ThicknessMM, rep.Verdict)
	}
	b := part()
	b.p.Quantity = 4
	b.p.DrawnAt = append(b.p.DrawnAt, b.p.DrawnAt[0])
	rep = RunPart(b.p, p, plan.Job{})
	wantSeverity(t, rep, "quantity-conflict", Warning)
	if rep.Job.Quantity != 4 || rep.Job.QuantityFrom != "text" || len(rep.Questions) != 1 {
		t.Errorf("%+v %q", rep.Job, rep.Questions)
	}
	b.p.Quantity = 2
	wantSeverity(t, RunPart(b.p, p, plan.Job{}), "quantity-conflict", "")
	b.p.Quantity = 0
	if rep = RunPart(b.p, p, plan.Job{}); rep.Job.Quantity != 2 || rep.Job.QuantityFrom != "drawn" {
		t.Errorf("%+v", rep.Job)
	}
	rep = RunPart(b.p, p, plan.Job{Quantity: 7, QuantityFrom: "flag"})
	wantSeverity(t, rep, "quantity-conflict", Warning)
}

// What is certain whatever the thickness stands: a hole over the edge.
func TestCertainErrorWins(t *testing.T) {
	p := shop.BuiltIn()
	b := examplePlate("plate", 200, 140)
	b.hole(5, 70, 22)
	b.last().CrossesOutline = true
	if rep := RunPart(b.p, p, plan.Job{}); rep.Verdict != DoesNotFit || !strings.Contains(rep.Reason, "H1") {
		t.Errorf("%s %q", rep.Verdict, rep.Reason)
	}
	// But not when the part may be a frame.
	b.p.Doubts = append(b.p.Doubts, features.Doubt{Code: "maybe-frame", Grave: true, Text: "it may be a frame"})
	if rep := RunPart(b.p, p, thick(steel(t, p, "mild"), 10)); rep.Verdict != CannotTell {
		t.Errorf("%s %q", rep.Verdict, rep.Reason)
	}
}

func TestUnspokenMakes(t *testing.T) {
	b := examplePlate("plate", 200, 140)
	b.hole(100, 70, 22)
	e := b.example("", 10, "")
	for _, c := range []struct {
		by   string
		also bool
		want Verdict
	}{{"nothing", false, DoesNotFit}, {"unknown", false, CannotTell}, {"thermal", true, WithCare}, {"punch", false, Fits}} {
		rep, _ := judgeOnce(e.Part, shop.BuiltIn(), e.Job, circumstances{}, func(a *features.Part, p *shop.Profile, j plan.Job) *plan.Plan {
			pl := literal(a, p, j)
			m := &pl.Makes[len(pl.Makes)-1]
			m.MadeBy, m.Use = c.by, station.Use{}
			if c.also {
				m.Also = &shop.Process{Kind: c.by, Have: true}
			}
			return pl
		})
		if rep.Verdict != c.want {
			t.Errorf("%s: %s %+v", c.by, rep.Verdict, rep.Findings)
		}
	}
}
