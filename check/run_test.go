package check

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// goodSheet is a drawing of one part that fits.
func goodSheet() *features.Sheet {
	b := examplePlate("plate", 200, 150)
	b.hole(50, 75, 22)
	b.hole(150, 75, 22)
	return &features.Sheet{Units: features.Units{Name: "mm", MM: 1, From: features.UnitsHeader}, Parts: []features.Part{*b.p}}
}

func goodJob(t *testing.T) plan.Job { return thick(steel(t, shop.BuiltIn(), "mild"), 10) }

func runSheet(t *testing.T, change func(*features.Sheet, *plan.Job)) *Report {
	s, j := goodSheet(), goodJob(t)
	if change != nil {
		change(s, &j)
	}
	return runFor(t, "x.dxf", s, j)
}

// runFor judges a sheet in the built-in shop without a limit of time.
func runFor(t testing.TB, name string, s *features.Sheet, j plan.Job) *Report {
	t.Helper()
	rep, err := Run(context.Background(), name, s, shop.BuiltIn(), j)
	if err != nil {
		t.Fatal(err)
	}
	return rep
}

// No datum that is taken away leaves a part that fits, nor a drawing.
func TestMissingDatumNeverFits(t *testing.T) {
	if rep := runSheet(t, nil); rep.Verdict != Fits || rep.Parts[0].Verdict != Fits {
		t.Fatalf("%s %+v", rep.Verdict, rep.Parts[0].Findings)
	}
	fault := func(code string, part int) func(*features.Sheet, *plan.Job) {
		return func(s *features.Sheet, _ *plan.Job) {
			s.Faults = append(s.Faults, features.Fault{Code: code, Part: part, Count: 1, Value: 3, At: geom.Point{X: 100, Y: 75}})
		}
	}
	for what, change := range map[string]func(*features.Sheet, *plan.Job){
		"thickness":     func(_ *features.Sheet, j *plan.Job) { j.ThicknessMM = 0 },
		"negative":      func(_ *features.Sheet, j *plan.Job) { j.ThicknessMM = -3 },
		"material":      func(_ *features.Sheet, j *plan.Job) { j.Material, j.MaterialName = nil, "" },
		"unknown steel": func(_ *features.Sheet, j *plan.Job) { j.Material, j.MaterialName = nil, "unobtainium" },
		"no strength":   func(_ *features.Sheet, j *plan.Job) { m := *j.Material; m.ShearMPa = 0; j.Material = &m },
		"both":          func(_ *features.Sheet, j *plan.Job) { *j = plan.Job{} },
		"units unknown": func(s *features.Sheet, _ *plan.Job) { s.Units.From = features.UnitsUnknown },
		"units doubted": func(s *features.Sheet, _ *plan.Job) { s.Units.Doubt, s.Units.Other, s.Units.OtherMM = true, "in", 25.4 },
		"open":          fault("open-outline", -1),
		"open in part":  fault("open-outline", 0),
		"self-crossing": fault("self-crossing", 0),
		"incomplete":    fault("read-incomplete", -1),
		"too many":      fault("too-many-placed", -1),
		"unexplained":   fault("line-unexplained", 0),
		"loose inside": func(s *features.Sheet, _ *plan.Job) {
			s.Loose = []features.Loose{{From: geom.Point{X: 90, Y: 70}, To: geom.Point{X: 100, Y: 70}, GapMM: 10}}
		},
		"grave doubt": func(s *features.Sheet, _ *plan.Job) {
			s.Parts[0].Doubts = []features.Doubt{{Code: "maybe-letter", Grave: true}}
		},
		"unexplained too": func(s *features.Sheet, _ *plan.Job) {
			s.Parts[0].Doubts = []features.Doubt{{Code: "line-unexplained", Grave: true}}
		},
		"thin text": func(s *features.Sheet, j *plan.Job) {
			j.ThicknessMM = 0
			s.Parts[0].Thickness = features.Stated{Text: "t=0.375", MM: 0.375, From: "text"}
		},
		"no such point":   func(s *features.Sheet, _ *plan.Job) { s.Parts[0].Holes[0][0].Centre.X = math.NaN() },
		"unowned edge":    func(s *features.Sheet, _ *plan.Job) { s.Parts[0].Features[2].Edges = nil },
		"unowned contour": func(s *features.Sheet, _ *plan.Job) { s.Parts[0].Features = s.Parts[0].Features[:5] },
		"no outline":      func(s *features.Sheet, _ *plan.Job) { s.Parts[0].Outline = nil },
		"an angle":        func(s *features.Sheet, _ *plan.Job) { s.Parts[0].Form = features.FormAngle },
	} {
		rep := runSheet(t, change)
		if rep.Verdict != CannotTell || rep.Parts[0].Verdict != CannotTell {
			t.Errorf("%s: drawing %s, part %s", what, rep.Verdict, rep.Parts[0].Verdict)
		}
		if rep.Parts[0].Reason == "" {
			t.Errorf("%s: no reason", what)
		}
	}
	rep := runSheet(t, func(s *features.Sheet, _ *plan.Job) { s.Parts = nil })
	if rep.Verdict != CannotTell || len(rep.Findings) != 1 || rep.Findings[0].Rule != "no-part" {
		t.Errorf("no part: %s %+v", rep.Verdict, rep.Findings)
	}
	rep = runSheet(t, func(s *features.Sheet, _ *plan.Job) {
		s.Parts = nil
		s.Loose = []features.Loose{{From: geom.Point{}, To: geom.Point{X: 3}, GapMM: 3}}
	})
	if rep.Verdict != CannotTell || len(rep.Findings) != 1 || rep.Findings[0].Rule != "open-outline" {
		t.Errorf("open: %s %+v", rep.Verdict, rep.Findings)
	}
	if rep := Unreadable("x.dxf", shop.BuiltIn(), errors.New("no")); rep.Verdict != CannotTell {
		t.Error(rep.Verdict)
	}
}

func TestFaultsOfAPart(t *testing.T) {
	for _, c := range []struct {
		code  string
		value float64
		want  Verdict
		rule  string
		sev   Severity
	}{
		{"gap-bridged", 0.04, Fits, "gap-bridged", Note},
		{"gap-bridged", 0.05, Fits, "gap-bridged", Note},
		{"gap-bridged", 0.051, WithCare, "gap-bridged", Warning},
		{"duplicate-lines", 2, Fits, "duplicate-lines", Note},
		{"hole-on-outline", 0, DoesNotFit, "hole-on-outline", Error},
	} {
		rep := runSheet(t, func(s *features.Sheet, _ *plan.Job) {
			s.Faults = []features.Fault{{Code: c.code, Value: c.value, Count: 1, Part: 0, At: geom.Point{X: 1, Y: 1}}}
		})
		if rep.Verdict != c.want || rep.Parts[0].Verdict != c.want || len(rep.Findings) != 0 {
			t.Errorf("%s %g: drawing %s, part %s, findings of the drawing %+v", c.code, c.value, rep.Verdict, rep.Parts[0].Verdict, rep.Findings)
		}
		wantSeverity(t, rep.Parts[0], c.rule, c.sev)
	}
	// A fault of no part is the drawing's, and the part is as good as ever.
	rep := runSheet(t, func(s *features.Sheet, _ *plan.Job) {
		s.Faults = []features.Fault{{Code: "gap-bridged", Value: 0.2, Count: 1, Part: -1, At: geom.Point{X: 900, Y: 1}}}
	})
	if rep.Verdict != WithCare || rep.Parts[0].Verdict != Fits || len(rep.Findings) != 1 {
		t.Errorf("%s %s %+v", rep.Verdict, rep.Parts[0].Verdict, rep.Findings)
	}
	// So is an open chain elsewhere: the drawing cannot be told, the part can.
	rep = runSheet(t, func(s *features.Sheet, _ *plan.Job) {
		s.Faults = []features.Fault{{Code: "open-outline", Value: 5, Count: 1, Part: -1, At: geom.Point{X: 900, Y: 1}}}
	})
	if rep.Verdict != CannotTell || rep.Parts[0].Verdict != Fits {
		t.Errorf("%s %s", rep.Verdict, rep.Parts[0].Verdict)
	}
}

// Both readings are judged, and only what fails in both is sure.
func TestReadings(t *testing.T) {
	doubt := func(s *features.Sheet, _ *plan.Job) { s.Units.Doubt, s.Units.Other, s.Units.OtherMM = true, "in", 25.4 }
	rep := runSheet(t, doubt)
	if len(rep.Readings) != 2 || rep.Readings[0].Unit != "mm" || rep.Readings[1].Unit != "in" {
		t.Fatalf("%+v", rep.Readings)
	}
	q := rep.Readings[1].Parts[0]
	if w := q.Part.Box.Width(); w != 200*25.4 {
		t.Errorf("width %g", w)
	}
	if f := q.Part.Features[4]; f.DiameterMM != 22*25.4 || f.Ring[0].Radius != 11*25.4 {
		t.Errorf("hole %+v", f)
	}
	// In inches the hole of 22 in is an error, in millimetres it fits.
	if rep.Readings[1].Parts[0].Verdict != CannotTell || !hasError(q) || rep.Verdict != CannotTell {
		t.Errorf("%s %s", q.Verdict, rep.Verdict)
	}
	if rep.Sheet.Parts[0].Features[4].DiameterMM != 22 {
		t.Error("the drawing itself was changed")
	}
	// A thickness that a view shows is drawn, one with a unit is not.
	for from, want := range map[string]float64{"view": 254, "text": 10} {
		rep := runSheet(t, func(s *features.Sheet, j *plan.Job) {
			doubt(s, j)
			j.ThicknessMM, j.ThicknessFrom = 0, ""
			s.Parts[0].Thickness = features.Stated{Text: "10 mm", MM: 10, From: from}
		})
		if got := rep.Readings[1].Parts[0].Job.ThicknessMM; got != want || rep.Readings[0].Parts[0].Job.ThicknessMM != 10 {
			t.Errorf("thickness from %s: %g, want %g", from, got, want)
		}
	}
	// Fails in both: a hole over the edge.
	rep = runSheet(t, func(s *features.Sheet, j *plan.Job) {
		doubt(s, j)
		s.Parts[0].Features[4].CrossesOutline = true
	})
	if rep.Verdict != DoesNotFit || rep.Parts[0].Verdict != DoesNotFit || !strings.Contains(rep.Parts[0].Reason, "hole on outline") {
		t.Errorf("%s %s %q", rep.Verdict, rep.Parts[0].Verdict, rep.Parts[0].Reason)
	}
	if rep := runSheet(t, nil); rep.Readings != nil {
		t.Error("readings of a sure drawing")
	}
}

// Questions go to the customer: nothing of the shop is in them.
func TestQuestionsLeaveTheShopOut(t *testing.T) {
	rep := runSheet(t, func(s *features.Sheet, j *plan.Job) {
		*j = plan.Job{Code: "en", Bolts: true}
		p := &s.Parts[0]
		p.Name = "BR-17"
		p.Material.Text = "as usual"
		p.Quantity = 4
		p.DrawnAt = append(p.DrawnAt, p.DrawnAt[0])
		p.Doubts = []features.Doubt{{Code: "line-unexplained", Grave: true, At: geom.Point{X: 10, Y: 20}}, {Code: "maybe-letter", Grave: true, Text: "two holes may be letters"}}
		f := &p.Features[4]
		f.Kind, f.SeatMM = features.HoleWithSeat, 30
	})
	l := rep.Parts[0].Questions
	if len(l) != 6 {
		t.Errorf("%d questions: %q", len(l), l)
	}
	if !slices.Contains(l, "What is the thickness of BR-17?") {
		t.Errorf("%q", l)
	}
	prof := shop.BuiltIn()
	for _, q := range l {
		if !strings.HasSuffix(q, "?") {
			t.Errorf("no question: %q", q)
		}
		for _, m := range prof.Machines {
			if strings.Contains(q, m.Name) {
				t.Errorf("%q names a machine", q)
			}
		}
		for _, w := range []string{"rack", "kN", "punch ", "machine"} {
			if strings.Contains(q, w) {
				t.Errorf("%q speaks of the shop", q)
			}
		}
	}
}

// Orders, not opinions; every finding of error or warning says what to do.
func TestWording(t *testing.T) {
	n := 0
	for _, r := range Rules() {
		e := r.Example()
		var all []Finding
		if e.List != "" {
			all = listFindings(e.List, shop.BuiltIn())
		} else if e.Sheet != nil {
			all = runFor(t, "x", e.Sheet, e.Job).Findings
		} else {
			all = RunPart(e.Part, shop.BuiltIn(), e.Job).Findings
		}
		for _, f := range all {
			n++
			for _, w := range []string{"recommended", "should", "violation", "illegal", "approved"} {
				if strings.Contains(strings.ToLower(f.Message+f.Fix), w) {
					t.Errorf("%s: %q: %q / %q", f.Rule, w, f.Message, f.Fix)
				}
			}
			if f.FixBy == "drawing" && f.Who == "designer" && f.Fix != "" && !strings.HasSuffix(f.Fix, "?") && f.Rule != "material" {
				t.Errorf("%s: asks no question of the designer: %q", f.Rule, f.Fix)
			}
			if strings.HasSuffix(f.Message, ".") || f.Message == "" {
				t.Errorf("%s: %q", f.Rule, f.Message)
			}
			for _, id := range f.Features {
				if !slices.ContainsFunc(e.Part.Features, func(x features.Feature) bool { return x.ID == id }) {
					t.Errorf("%s: no feature %s", f.Rule, id)
				}
			}
		}
	}
	if n < len(Rules()) {
		t.Errorf("%d findings", n)
	}
}

func TestGroup(t *testing.T) {
	f := func(id string, got, limit float64, fix string) Finding {
		return Finding{Rule: "web", Severity: Warning, Features: []string{id}, Count: 1, Got: &Quantity{got, "mm"}, Limit: &Quantity{limit, "mm"}, Message: id, Fix: fix, worse: limit - got}
	}
	order := map[string]int{"H1": 0, "H2": 1, "H3": 2, "H4": 3}
	l := group([]Finding{f("H1", 8, 10, "a"), f("H2", 7, 10, "a"), f("H3", 8, 10, "a"), f("H4", 7, 10, "b")}, order)
	if len(l) != 2 || !reflect.DeepEqual(l[0].Features, []string{"H2", "H1", "H3"}) || l[0].Count != 3 || l[0].Got.Value != 7 || l[0].Message != "H2; the worst of 3" {
		t.Errorf("%+v", l)
	}
	if !reflect.DeepEqual(l[1].Features, []string{"H4"}) {
		t.Errorf("%+v", l[1])
	}
	worse := f("H2", 3, 10, "a")
	worse.Severity = Error
	if l = group([]Finding{f("H1", 8, 10, "a"), worse, f("H3", 8, 5, "a")}, order); len(l) != 3 {
		t.Errorf("severity and limit keep findings apart: %+v", l)
	}
	// Without a limit, what differs in numbers only is one.
	g := func(id, text string) Finding {
		return Finding{Rule: "tool", Severity: Note, Features: []string{id}, Message: text, cause: sameBut(text)}
	}
	l = group([]Finding{g("H1", "Ø9 is off by 0.1"), g("H2", "Ø11 is off by 0.2"), g("H3", "no tool")}, order)
	if len(l) != 2 || l[0].Count != 2 || l[0].Message != "Ø9 is off by 0.1; and 1 more like it" {
		t.Errorf("%+v", l)
	}
}

// Every length of a feature is scaled, every area twice, no angle.
func TestScaleFeature(t *testing.T) {
	var f features.Feature
	v := reflect.ValueOf(&f).Elem()
	n := 0
	for i := range v.NumField() {
		if v.Field(i).Kind() == reflect.Float64 {
			v.Field(i).SetFloat(1)
			n++
		}
	}
	f.Long, f.Steps = [2]float64{1, 1}, [][2]float64{{1, 1}}
	f.At, f.From, f.To = geom.Point{X: 1, Y: 1}, geom.Point{X: 1, Y: 1}, geom.Point{X: 1, Y: 1}
	f.Mouth = [2]geom.Point{{X: 1, Y: 1}, {X: 1, Y: 1}}
	f.Ring, f.Open = geom.Ring{geom.CircleEdge(geom.Point{X: 1, Y: 1}, 1)}, geom.Ring{geom.LineEdge(geom.Point{}, geom.Point{X: 1})}
	g := scaleFeature(f, 3)
	w := reflect.ValueOf(g)
	for i := range v.NumField() {
		if v.Field(i).Kind() != reflect.Float64 {
			continue
		}
		name, want := v.Type().Field(i).Name, 1.0
		switch {
		case strings.HasSuffix(name, "MM2"):
			want = 9
		case strings.HasSuffix(name, "MM"):
			want = 3
		case !strings.HasSuffix(name, "Rad"):
			t.Errorf("field %s has no unit", name)
		}
		if got := w.Field(i).Float(); got != want {
			t.Errorf("%s: %g, want %g", name, got, want)
		}
	}
	p := geom.Point{X: 3, Y: 3}
	if n < 10 || g.Long != [2]float64{3, 3} || g.Steps[0] != [2]float64{3, 3} || g.At != p || g.From != p || g.To != p || g.Mouth[1] != p ||
		g.Ring[0].Centre != p || g.Ring[0].Radius != 3 || g.Open[0].To.X != 3 {
		t.Errorf("%d numbers: %+v", n, g)
	}
	if f.Steps[0] != [2]float64{1, 1} || f.Ring[0].Radius != 1 {
		t.Error("the feature itself was changed")
	}
}

func TestSuppress(t *testing.T) {
	f := func(rule string, sev Severity, ids ...string) Finding {
		return Finding{Rule: rule, Severity: sev, Features: ids}
	}
	kept, out := suppress([]Finding{f("punch-ratio", Error, "H1"), f("die-clearance", Warning, "H1"), f("die-clearance", Warning, "H2"), f("punch-ratio", Warning, "H2"), f("lift", Warning)})
	if len(kept) != 4 || len(out) != 1 || out[0].By != "punch-ratio" || !reflect.DeepEqual(out[0].Features, []string{"H1"}) {
		t.Errorf("%+v\n%+v", kept, out)
	}
	kept, _ = suppress([]Finding{f("punch-force", Error, "H1"), f("throat-reach", Error, "H1"), f("throat-reach", Warning, "H1"), f("tool", Error, "H1")})
	if len(kept) != 2 || kept[1].Severity != Error || kept[1].Rule != "throat-reach" {
		t.Errorf("%+v", kept)
	}
	kept, _ = suppress([]Finding{f("punch-ratio", Error, "H1"), f("die-clearance", Warning, "H1"), f("material", Error)})
	if len(kept) != 1 || kept[0].Rule != "material" {
		t.Errorf("%+v", kept)
	}
}

func TestConflictingWords(t *testing.T) {
	prof := shop.BuiltIn()
	s := goodSheet()
	p := &s.Parts[0]
	p.Doubts = []features.Doubt{{Code: "text-conflict", Grave: true, Text: `the drawing states the thickness twice: "t=10" and "t=12"`}}
	p.Thickness = features.Stated{Text: "t=10", MM: 10, From: "text"}
	j := goodJob(t)
	j.ThicknessMM = 0
	if rep := RunPart(p, prof, j); rep.Verdict != CannotTell {
		t.Errorf("%s", rep.Verdict)
	}
	// A flag settles it, with care; it settles nothing else.
	if rep := RunPart(p, prof, goodJob(t)); rep.Verdict != WithCare {
		t.Errorf("%s %+v", rep.Verdict, rep.Findings)
	}
	p.Doubts[0].Text = `the drawing states the quantity twice: "2 OFF" and "3 OFF"`
	if rep := RunPart(p, prof, goodJob(t)); rep.Verdict != CannotTell {
		t.Errorf("%s", rep.Verdict)
	}
	p.Doubts = nil
	p.CallOuts = []features.CallOut{{Text: "4 x 22", Count: 4, DiameterMM: 22, Features: []string{"H1", "H2"}}}
	wantSeverity(t, RunPart(p, prof, goodJob(t)), "reading-doubt", Warning)
	p.CallOuts[0].Count = 2
	wantSeverity(t, RunPart(p, prof, goodJob(t)), "reading-doubt", "")
	p.CallOuts[0].Count = 4
	p.DrawnAt = append(p.DrawnAt, p.DrawnAt[0]) // two copies of two holes
	wantSeverity(t, RunPart(p, prof, goodJob(t)), "reading-doubt", "")
	// A fault of a new kind is not passed over.
	rep := runSheet(t, func(s *features.Sheet, _ *plan.Job) {
		s.Faults = []features.Fault{{Code: "brand-new", Part: 0, Count: 1}, {Code: "brand-new", Part: -1, Count: 1}}
	})
	if rep.Parts[0].Verdict != CannotTell || rep.Verdict != CannotTell || len(rep.Findings) != 1 {
		t.Errorf("%s %+v", rep.Verdict, rep.Findings)
	}
}

// What waits for a datum is listed, and only what the part has.
func TestSkippedSaysWhy(t *testing.T) {
	b := examplePlate("plate", 200, 150)
	b.hole(100, 75, 22)
	why := func(j plan.Job) map[string]string {
		out := map[string]string{}
		for _, s := range RunPart(b.p, shop.BuiltIn(), j).Skipped {
			out[s.Rule] = s.Why
		}
		return out
	}
	none := why(plan.Job{})
	for _, id := range []string{"punch-force", "punch-ratio", "tool", "die-clearance", "web", "strap", "lift", "shear-row"} {
		if none[id] != "needs the thickness" {
			t.Errorf("%s: %q", id, none[id])
		}
	}
	for _, id := range []string{"notch-tool", "bend", "slot-hits", "edge-process"} {
		if none[id] != "" {
			t.Errorf("%s is listed: %q", id, none[id])
		}
	}
	if l := why(plan.Job{ThicknessMM: 10}); l["punch-force"] != "needs the material" || l["web"] != "" {
		t.Errorf("%v", l)
	}
	full := why(goodJob(t))
	for _, id := range []string{"edge-distance", "hole-pitch", "hole-class", "punching-limit"} {
		if !strings.Contains(full[id], "no code") {
			t.Errorf("%s: %q", id, full[id])
		}
	}
	if len(full) != 4 {
		t.Errorf("%v", full)
	}
}

func TestStockThickness(t *testing.T) {
	b := examplePlate("plate", 200, 150)
	b.hole(100, 75, 22)
	for _, c := range []struct {
		mm   float64
		want Severity
	}{{10, ""}, {9, Note}, {0.5, Note}} { // by flag a thin sheet is believed
		rep := RunPart(b.p, shop.BuiltIn(), thick(steel(t, shop.BuiltIn(), "mild"), c.mm))
		wantSeverity(t, rep, "blank", c.want)
		wantSeverity(t, rep, "thickness-missing", "")
	}
}

// An error stands in a drawing that breaks off, not where the outline itself is
// in doubt.
func TestErrorAndDoubt(t *testing.T) {
	broken := func(change func(*features.Sheet, *plan.Job)) Verdict {
		return runSheet(t, func(s *features.Sheet, j *plan.Job) {
			s.Parts[0].Features[4].CrossesOutline = true
			change(s, j)
		}).Parts[0].Verdict
	}
	for code, want := range map[string]Verdict{"read-incomplete": DoesNotFit, "open-outline": DoesNotFit, "self-crossing": CannotTell} {
		if v := broken(func(s *features.Sheet, _ *plan.Job) {
			s.Faults = []features.Fault{{Code: code, Part: -1, Count: 1, At: geom.Point{X: 100, Y: 75}}}
		}); v != want {
			t.Errorf("%s: %s", code, v)
		}
	}
	if v := broken(func(s *features.Sheet, _ *plan.Job) {
		s.Units.From = features.UnitsUnknown
		s.Parts[0].Doubts = []features.Doubt{{Code: "maybe-frame", Grave: true}}
	}); v != CannotTell {
		t.Errorf("a frame in two units: %s", v)
	}
}
