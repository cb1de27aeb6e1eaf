package render

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"

	santhosh "github.com/santhosh-tekuri/jsonschema/v6"
)

// judgedReports are reports that the rules themselves made: the example of each
// rule, and the parts of the hand-made reports, in the built-in shop.
func judgedReports(t *testing.T) []namedReport {
	t.Helper()
	prof := shop.BuiltIn()
	var out []namedReport
	for _, r := range check.Rules() {
		if r.Example == nil {
			continue
		}
		e := r.Example()
		if e.List != "" {
			out = append(out, namedReport{"rule " + r.ID, listReport(t, r.ID+".csv", e.List, e.Job)})
			continue
		}
		sheet := e.Sheet
		if sheet == nil {
			sheet = &features.Sheet{Units: features.Units{Name: "mm", MM: 1, From: features.UnitsHeader}, Parts: []features.Part{*e.Part}}
		}
		rep, err := check.Run(context.Background(), r.ID+".dxf", sheet, prof, e.Job)
		if err != nil {
			panic(err)
		}
		out = append(out, namedReport{"rule " + r.ID, rep})
	}
	for _, r := range sceneReports() {
		if r.rep.Sheet == nil || len(r.rep.Parts) == 0 {
			continue
		}
		for _, code := range []string{"", "en", "aisc"} {
			p := r.rep.Parts[0]
			job := plan.Job{ThicknessMM: p.Job.ThicknessMM, ThicknessFrom: "flag", Quantity: 4, QuantityFrom: "flag", Code: code, Exposure: true, Bolts: true}
			if m, ok := prof.Material("S275"); ok && job.ThicknessMM > 0 {
				job.Material, job.MaterialName, job.MaterialFrom = m, "S275", "flag"
			}
			sheet := *r.rep.Sheet
			sheet.Loose, sheet.Faults = nil, nil
			for _, p := range r.rep.Parts {
				sheet.Parts = append(sheet.Parts, *p.Part)
			}
			rep, err := check.Run(context.Background(), r.rep.Drawing, &sheet, prof, job)
			if err != nil {
				panic(err)
			}
			out = append(out, namedReport{r.name + " " + code, rep})
		}
	}
	return out
}

// Whatever the rules say can be written in every form: the JSON follows the
// strict schema, lines keep their width, labels lie apart.
func TestJudgedReports(t *testing.T) {
	list := judgedReports(t)
	strict := compile(t, reflectSchema(true))
	var reps []*check.Report
	findings := 0
	for _, r := range list {
		reps = append(reps, r.rep)
		text := lineOf(t, r.rep)
		doc, err := santhosh.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatalf("%s: %v", r.name, err)
		}
		if err := strict.Validate(doc); err != nil {
			t.Errorf("%s: %v", r.name, err)
		}
		for l := range strings.SplitSeq(textOf(t, r.rep, TextOptions{All: true, Why: true}), "\n") {
			if columns(l) > 100 {
				t.Errorf("%s: a line of %d columns: %q", r.name, columns(l), l)
			}
		}
		if r.rep.List != nil {
			for _, b := range r.rep.Bars {
				findings += len(b.Findings)
			}
			continue
		}
		s := NewScene(r.rep, 0, SceneOptions{})
		if err := checkScene(s, smallFeatures(s)); err != nil {
			t.Errorf("%s: %v", r.name, err)
		}
		for _, p := range r.rep.Parts {
			findings += len(p.Findings)
		}
		if dir := os.Getenv("BURRSIDE_PICTURES"); dir != "" {
			var b bytes.Buffer
			if err := s.PNG(&b); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(filepath.Join(dir, "judged "+strings.ReplaceAll(r.name, "/", "-")+".png"), b.Bytes(), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	if len(list) < 40 || findings < 60 {
		t.Errorf("only %d reports with %d findings", len(list), findings)
	}
	var b bytes.Buffer
	if err := Summary(&b, reps); err != nil {
		t.Error(err)
	}
	if err := Questions(&b, reps); err != nil {
		t.Error(err)
	}
}
