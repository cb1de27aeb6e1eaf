package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"burrside/check"
	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/dxfread"
	"burrside/features"
	"burrside/render"
)

const partsDir = "../../testdata/parts"

// golden compares with a file, or renews it.
func golden(t *testing.T, path string, got []byte) {
	t.Helper()
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Errorf("%s differs (-want +got), UPDATE_GOLDEN=1 renews it:\n%s", filepath.Base(path), d)
	}
}

// command runs a command line and gives its output and exit status.
func command(t *testing.T, args ...string) (out string, code int) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code = run(context.Background(), args, streams{in: strings.NewReader(""), out: &stdout, err: &stderr})
	if stderr.Len() > 0 {
		t.Logf("%v: %s", args, &stderr)
	}
	return stdout.String(), code
}

// TestSampleDrawings holds that the drawings in testdata are those that the
// sample command writes, and that each is judged as the report beside it says.
func TestSampleDrawings(t *testing.T) {
	dir := t.TempDir()
	if out, code := command(t, "sample", filepath.Join(dir, "job")); code != exitFits {
		t.Fatalf("sample: exit %d: %s", code, out)
	}
	parts := sampleParts()
	if len(parts) == 0 {
		t.Fatal("no sample parts")
	}
	for _, p := range parts {
		got, err := os.ReadFile(filepath.Join(dir, "job", p.file))
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(partsDir, p.file)
		golden(t, path, got)
		out, code := command(t, "check", path, "--all", "--why")
		out += strings.Repeat("-", 20) + "\nexit " + string(rune('0'+code)) + "\n"
		golden(t, strings.TrimSuffix(path, ".dxf")+".txt", []byte(strings.ReplaceAll(out, partsDir, "testdata/parts")))
	}
	list, err := os.ReadFile(filepath.Join(dir, "job", sampleListFile))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(partsDir, sampleListFile)
	golden(t, path, list)
	out, code := command(t, "check", path, "--all", "--why")
	out += strings.Repeat("-", 20) + "\nexit " + string(rune('0'+code)) + "\n"
	golden(t, strings.TrimSuffix(path, ".csv")+".txt", []byte(strings.ReplaceAll(out, partsDir, "testdata/parts")))
	got, err := os.ReadFile(filepath.Join(dir, "job", "answers.csv"))
	if err != nil {
		t.Fatal(err)
	}
	golden(t, filepath.Join(partsDir, "answers.csv"), got)
}

// TestSampleVerdicts states what the invented job is for, apart from the
// reports, which are renewed too easily.
func TestSampleVerdicts(t *testing.T) {
	for file, want := range map[string]struct {
		verdict string
		rule    string // of the finding that decides; "" none
		feature string
	}{
		"splice-plate":      {"fits", "", ""},
		"splice-plate-inch": {"fits", "", ""},
		"deck-gusset":       {"fits", "", ""},
		"notched-bearer":    {"fits", "", ""},
		"slide-plate":       {"fits", "", ""},
		"drain-panel":       {"fits", "", ""},
		"toe-clip":          {"fits-with-care", "small-part", ""},
		"clip-nest":         {"fits-with-care", "small-part", ""},
		"handrail-strap":    {"fits-with-care", "strap", "H1"},
		"post-base":         {"does-not-fit", "punch-force", "H3"}, // Ø110 in 20 mm: pi x 110 x 20 x 345 = 2384 kN
		"bearing-ring":      {"does-not-fit", "edge-process", "E1"},
		"pin-plate":         {"does-not-fit", "web", "H3"}, // 90 - 76 - 11 = 3 mm of metal in 12 mm plate
		"rail-bracket":      {"cannot-tell", "thickness-missing", ""},
		"hinge-leaf":        {"cannot-tell", "material-missing", ""},
		"stair-tread":       {"cannot-tell", "open-outline", ""},
		"bracket-angle":     {"fits-with-care", "leg-clearance", "H1"},
		"beam-cleat":        {"fits-with-care", "leg-clearance", "H1"}, // 26 - 6 = 20 mm to the other leg: less than half of any die block
		"rail-post-angle":   {"cannot-tell", "angle-hand", ""},
		"kerb-angle":        {"fits-with-care", "leg-not-drawn", ""},
	} {
		out, _ := command(t, "check", filepath.Join(partsDir, file+".dxf"), "--json")
		var rep struct {
			Verdict  string
			Findings []struct{ Rule string }
			Parts    []struct {
				Limits   []struct{ Verdict string }
				Findings []struct {
					Rule     string
					Features []string
				}
			}
		}
		if err := json.Unmarshal([]byte(out), &rep); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if rep.Verdict != want.verdict {
			t.Errorf("%s: verdict %s, want %s", file, rep.Verdict, want.verdict)
		}
		found := want.rule == ""
		for _, f := range rep.Findings {
			found = found || f.Rule == want.rule
		}
		for _, p := range rep.Parts {
			for _, f := range p.Findings {
				found = found || f.Rule == want.rule && (want.feature == "" || len(f.Features) > 0 && f.Features[0] == want.feature)
			}
			if want.rule == "thickness-missing" && len(p.Limits) == 0 {
				t.Errorf("%s: no limits though the thickness is missing", file)
			}
		}
		if !found {
			t.Errorf("%s: no finding %s on %q", file, want.rule, want.feature)
		}
	}
}

// BenchmarkPart is one ordinary part from bytes to its report, and with its
// picture.
func BenchmarkPart(b *testing.B) {
	data, err := os.ReadFile(filepath.Join(partsDir, "splice-plate.dxf"))
	if err != nil {
		b.Fatal(err)
	}
	prof := shop.BuiltIn()
	judge := func(b *testing.B) *check.Report {
		d, err := dxfread.Decode(context.Background(), data, dxfread.Limits{})
		if err != nil {
			b.Fatal(err)
		}
		s, err := features.Build(context.Background(), d, features.Options{Name: "splice-plate"})
		if err != nil {
			b.Fatal(err)
		}
		rep, err := check.Run(context.Background(), "splice-plate.dxf", s, prof, plan.Job{})
		if err != nil {
			b.Fatal(err)
		}
		return rep
	}
	b.Run("report", func(b *testing.B) {
		for b.Loop() {
			judge(b)
		}
	})
	b.Run("picture", func(b *testing.B) {
		for b.Loop() {
			if err := render.NewScene(judge(b), 0, render.SceneOptions{}).PNG(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	})
}
