package check_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/dxfread"
	"burrside/dxfread/dxftest"
	"burrside/features"
	"burrside/features/geom"
)

// folder holds one folder a rule, with bad*.dxf and ok*.dxf. A name that
// ends in a code's (-en, -aisc-2010) is judged by it.
var folder = filepath.Join("..", "testdata", "check")

// TestDrawings judges every drawing of testdata/check by the whole pipeline and
// compares with what is written inside it on layer WANT: each finding wanted
// must be there, none may be there that is not wanted, and an ok drawing must
// want a feature, so that it cannot pass by being empty.
func TestDrawings(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(folder, "*", "*.dxf"))
	if err != nil {
		t.Fatal(err)
	}
	ran := map[string][2]int{} // by rule: bad, ok
	for _, path := range files {
		rule, name := filepath.Base(filepath.Dir(path)), filepath.Base(path)
		n := ran[rule]
		switch {
		case strings.HasPrefix(name, "bad"):
			n[0]++
		case strings.HasPrefix(name, "ok"):
			n[1]++
		default:
			t.Errorf("%s is neither bad nor ok", path)
		}
		ran[rule] = n
		t.Run(rule+"/"+name, func(t *testing.T) { judgeDrawing(t, path, rule) })
	}
	for _, r := range check.Rules() {
		if n := ran[r.ID]; (n[0] == 0 || n[1] == 0) && (r.Part != nil || r.Sheet != nil) {
			t.Errorf("%s: %d bad and %d ok drawings", r.ID, n[0], n[1])
		}
	}
	if len(ran) > len(check.Rules()) {
		t.Errorf("folders of %d rules, there are %d", len(ran), len(check.Rules()))
	}
}

func judgeDrawing(t *testing.T, path, rule string) {
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	d, readErr := dxfread.Read(context.Background(), bytes.NewReader(raw), dxfread.Limits{})
	if d == nil {
		t.Fatal(readErr)
	}
	wants, err := dxftest.Wants(d)
	if err != nil {
		t.Fatal(err)
	}
	// The expectations are no part of the drawing.
	d.Model = slices.DeleteFunc(slices.Clone(d.Model), func(e dxfread.Entity) bool {
		x, ok := e.(*dxfread.Text)
		return ok && strings.EqualFold(d.Layers[x.Layer].Name, dxftest.WantLayer)
	})
	sheet, err := features.Build(context.Background(), d, features.Options{Name: "part", ReadError: readErr})
	if err != nil {
		t.Fatal(err)
	}
	var job plan.Job
	for _, code := range check.Codes() { // of aisc and aisc-2010 the longer is meant
		if name := strings.TrimSuffix(filepath.Base(path), ".dxf"); strings.HasSuffix(name, "-"+code.ID) {
			if code.Bolts {
				job.Code = code.ID
			} else {
				job.WeldCode = code.ID
			}
		}
	}
	rep, err := check.Run(context.Background(), "part.dxf", sheet, shop.BuiltIn(), job)
	if err != nil {
		t.Fatal(err)
	}
	findings := slices.Clone(rep.Findings)
	for _, p := range rep.Parts {
		findings = append(findings, p.Findings...)
	}
	good := strings.HasPrefix(filepath.Base(path), "ok")
	k := sheet.Units.MM
	met := make([]bool, len(findings))
	wantsFeature, wantsRule := false, false
	for _, w := range wants {
		at := geom.Point{X: w.X * k, Y: w.Y * k}
		if w.Feature {
			wantsFeature = true
			if !hasFeature(sheet, &w, at, k) {
				t.Errorf("line %d: no feature %q", w.Line, w.Text)
			}
			continue
		}
		wantsRule = wantsRule || w.Name == rule
		i := slices.IndexFunc(findings, func(f check.Finding) bool { return meets(&f, &w, at, k) })
		for i >= 0 && met[i] {
			j := slices.IndexFunc(findings[i+1:], func(f check.Finding) bool { return meets(&f, &w, at, k) })
			if j < 0 {
				i = -1
				break
			}
			i += 1 + j
		}
		if i < 0 {
			t.Errorf("line %d: not found: %q", w.Line, w.Text)
			continue
		}
		met[i] = true
	}
	for i, f := range findings {
		if !met[i] {
			t.Errorf("not wanted: %s %s %v at %.4g,%.4g got %s limit %s: %s", f.Rule, f.Severity, f.Features, f.At.X, f.At.Y, quantity(f.Got), quantity(f.Limit), f.Message)
		}
	}
	switch {
	case good && !wantsFeature && len(sheet.Parts) > 0:
		t.Error("an ok drawing must want a feature")
	case good && wantsRule:
		t.Errorf("an ok drawing wants a finding of %s", rule)
	case good && rep.Verdict != check.Fits && !slices.ContainsFunc(wants, func(w dxftest.Want) bool { return !w.Feature }):
		t.Errorf("verdict %s", rep.Verdict)
	case !good && !wantsRule:
		t.Errorf("a bad drawing wants no finding of %s", rule)
	}
}

func quantity(q *check.Quantity) string {
	if q == nil {
		return "-"
	}
	return fmt.Sprintf("%.6g %s", q.Value, q.Unit)
}

// meets tells that a finding is the wanted one: rule, place within the text's
// height, severity, and numbers within half a unit of their last place, at
// least 0.2 %.
func meets(f *check.Finding, w *dxftest.Want, at geom.Point, unitMM float64) bool {
	if f.Rule != w.Name || !w.Anywhere && (!f.HasAt || f.At.Dist(at) > w.Tolerance*unitMM) {
		return false
	}
	for _, v := range w.Values {
		ok := false
		switch v.Key {
		case "got":
			ok = f.Got != nil && like(f.Got.Value, v.Number)
		case "limit":
			ok = f.Limit != nil && like(f.Limit.Value, v.Number)
		case "severity":
			ok = string(f.Severity) == v.Text
		case "count":
			ok = float64(f.Count) == v.Number
		}
		if !ok {
			return false
		}
	}
	return true
}

func like(got, want float64) bool { return math.Abs(got-want) <= max(0.0005, 0.002*math.Abs(want)) }

func hasFeature(sheet *features.Sheet, w *dxftest.Want, at geom.Point, unitMM float64) bool {
	for i := range sheet.Parts {
		for _, f := range sheet.Parts[i].Features {
			if string(f.Kind) != w.Name || !w.Anywhere && f.At.Dist(at) > w.Tolerance*unitMM {
				continue
			}
			ok := true
			for _, v := range w.Values {
				var got float64
				switch v.Key {
				case "d":
					got = f.DiameterMM
				case "w":
					got = f.WidthMM
				case "l":
					got = f.LengthMM
				case "r":
					got = f.RadiusMM
				case "depth":
					got = f.DepthMM
				case "seat":
					got = f.SeatMM
				default:
					ok = false
				}
				ok = ok && like(got, v.Number*unitMM)
			}
			if ok {
				return true
			}
		}
	}
	return false
}

// TestDrawingsAreDrawn checks that the files are those that drawn makes, and
// writes them with -update or UPDATE_GOLDEN.
func TestDrawingsAreDrawn(t *testing.T) {
	update := os.Getenv("UPDATE_GOLDEN") != "" || flag.Lookup("update").Value.String() == "true"
	made := map[string]bool{}
	for _, d := range drawn() {
		path := filepath.Join(folder, d.rule, d.name+".dxf")
		if made[path] {
			t.Errorf("%s is drawn twice", path)
		}
		made[path] = true
		raw := d.b.Bytes()
		if d.cut > 0 {
			raw = raw[:len(raw)-d.cut]
		}
		if update {
			if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, raw, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		old, err := os.ReadFile(path)
		if err != nil || !bytes.Equal(old, raw) {
			t.Errorf("%s is not as drawn: UPDATE_GOLDEN=1 go test ./check (%v)", path, err)
		}
	}
	files, _ := filepath.Glob(filepath.Join(folder, "*", "*.dxf"))
	for _, f := range files {
		if !made[f] {
			t.Errorf("%s is drawn by nobody", f)
		}
	}
}
