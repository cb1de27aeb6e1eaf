package main

import (
	"encoding/json"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
)

// officeReport is the part of the JSON report that TestOffice looks at.
type officeReport struct {
	Verdict string
	Parts   []struct {
		Name, Form, Section string
		LegsMM              []float64 `json:"legs_mm"`
		LengthMM            float64   `json:"length_mm"`
		ThicknessMM         float64   `json:"thickness_mm"`
		MassKgM             float64   `json:"mass_kg_m"`
		BoxMM               []float64 `json:"bbox_mm"`
		Features            []struct {
			Kind       string
			Leg        string
			FromHeelMM float64 `json:"from_heel_mm"`
			FromEndMM  float64 `json:"from_end_mm"`
			DiameterMM float64 `json:"diameter_mm"`
		}
	}
}

// TestOffice runs the drawings of testdata/sheets through the whole command, and
// holds report and picture against what stands beside each drawing: the angles
// with the round holes of each leg, the boxes of the plates, and the verdict. A
// grave doubt must not end as fits; a drawing that tells hand, thickness and
// material and has no doubt must not end as cannot-tell.
func TestOffice(t *testing.T) {
	folder := filepath.Join("..", "..", "testdata", "sheets")
	files, err := filepath.Glob(filepath.Join(folder, "*.dxf"))
	if err != nil || len(files) < 36 {
		t.Fatalf("%d drawings, %v", len(files), err)
	}
	pending, err := os.ReadFile(filepath.Join(folder, "pending.txt"))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range files {
		name := strings.TrimSuffix(filepath.Base(path), ".dxf")
		if strings.Contains(string(pending), "\n"+name+": ") {
			continue
		}
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(strings.TrimSuffix(path, ".dxf") + ".want")
			if err != nil {
				t.Fatal(err)
			}
			wants, err := dxftest.ParseWants(string(text))
			if err != nil {
				t.Fatal(err)
			}
			out := filepath.Join(t.TempDir(), "out")
			said, errs, _ := checkAll(t, "--json", "--out", out, path)
			var rep officeReport
			if err := json.Unmarshal([]byte(said), &rep); err != nil {
				t.Fatalf("%v\n%s\n%s", err, said, errs)
			}
			officeParts(t, &rep, wants)
			officeVerdict(t, rep.Verdict, wants)
			pictures, _ := filepath.Glob(filepath.Join(out, "*.png"))
			if len(pictures) == 0 {
				t.Error("no picture")
			}
			for _, p := range pictures {
				f, err := os.Open(p)
				if err != nil {
					t.Fatal(err)
				}
				if _, err := png.Decode(f); err != nil {
					t.Errorf("%s: %v", p, err)
				}
				f.Close()
			}
		})
	}
}

// officeParts finds each wanted part, with the round holes wanted of it, in the
// report. Places are from the left or lower end, or all from the other one.
func officeParts(t *testing.T, rep *officeReport, wants []dxftest.Want) {
	t.Helper()
	near := func(w *dxftest.Want, key string, got float64) bool {
		n, ok := w.Number(key)
		return !ok || math.Abs(got-n) <= 0.02
	}
	parts := 0
	used := make([]bool, len(rep.Parts))
	for i := range wants {
		head := &wants[i]
		if head.Name != "angle" && head.Name != "plate" {
			continue
		}
		parts++
		var holes []*dxftest.Want
		for k := i + 1; k < len(wants) && wants[k].Name != "angle" && wants[k].Name != "plate"; k++ {
			if wants[k].Name == "hole" {
				holes = append(holes, &wants[k])
			}
		}
		found := false
		for k := range rep.Parts {
			p := &rep.Parts[k]
			if used[k] || found || (p.Form == "angle") != (head.Name == "angle") || !near(head, "t", p.ThicknessMM) {
				continue
			}
			n := 0
			for _, w := range holes {
				for _, f := range p.Features {
					if f.Kind != "round-hole" || !near(w, "d", f.DiameterMM) {
						continue
					}
					if head.Name == "plate" || strings.Contains(w.Text, "leg="+f.Leg) && near(w, "heel", f.FromHeelMM) && near(w, "start", f.FromEndMM) {
						n++
						break
					}
				}
			}
			good := n == len(holes)
			if head.Name == "angle" {
				good = good && len(p.LegsMM) == 2 && near(head, "a", p.LegsMM[0]) && near(head, "b", p.LegsMM[1]) && near(head, "length", p.LengthMM) && near(head, "kg", p.MassKgM) &&
					(!strings.Contains(head.Text, "section=") || strings.Contains(head.Text, "section="+p.Section))
			} else {
				good = good && len(p.BoxMM) == 2 && near(head, "w", p.BoxMM[0]) && near(head, "h", p.BoxMM[1])
			}
			used[k], found = good, good
		}
		if !found {
			t.Errorf("the report has no %s\n%+v", head.Text, rep.Parts)
		}
	}
	if parts != len(rep.Parts) {
		t.Errorf("%d parts in the report, want %d", len(rep.Parts), parts)
	}
}

func officeVerdict(t *testing.T, got string, wants []dxftest.Want) {
	t.Helper()
	grave, told := false, true
	for i := range wants {
		w := &wants[i]
		text := func(key string) string {
			for _, v := range w.Values {
				if v.Key == key {
					return v.Text
				}
			}
			return ""
		}
		switch w.Name {
		case "verdict":
			if want := text("is"); got != want {
				t.Errorf("verdict %s, want %s", got, want)
			}
			return
		case "doubt":
			grave = grave || text("grave") == "yes"
		case "angle":
			told = told && text("hand") != "unknown" && text("material") != ""
		case "plate":
			told = told && text("t") != "" && text("material") != ""
		}
	}
	switch {
	case grave && got != "cannot-tell" && got != "does-not-fit":
		t.Errorf("verdict %s of a drawing with a grave doubt", got)
	case !grave && told && got == "cannot-tell":
		t.Error("cannot-tell, though the drawing tells all")
	}
}

// TestWorkedAngles judges the angles of published examples by their codes. The
// forces are those of the section cut round the hole, d pi t S: 13/16 x 1/2 in at
// 60 ksi is 38.3 short tons, 22 x 10 mm at 345 N/mm2 (S275) is 238 kN.
func TestWorkedAngles(t *testing.T) {
	for _, c := range []struct {
		name, code string
		holes      int
		forceKN    float64
	}{
		{"worked-us-single-angle", "aisc", 3, 38.3 * 8.896},
		{"worked-web-cleat", "en", 12, 238.4},
	} {
		said, errs, _ := checkAll(t, "--json", "--bolts", "--code", c.code, filepath.Join("..", "..", "testdata", "sheets", c.name+".dxf"))
		var rep struct {
			Parts []struct {
				Skipped  []struct{ Rule string }
				Findings []struct{ Rule string }
				Features []struct {
					Kind    string
					ForceKN float64 `json:"force_kn"`
				}
			}
		}
		if err := json.Unmarshal([]byte(said), &rep); err != nil || len(rep.Parts) != 1 {
			t.Fatalf("%s: %v\n%s\n%s", c.name, err, said, errs)
		}
		p := &rep.Parts[0]
		// Ends, toes and pitches hold by the tables of both codes, and are judged.
		for _, f := range append(p.Findings, p.Skipped...) {
			if f.Rule == "edge-distance" || f.Rule == "hole-pitch" {
				t.Errorf("%s: %s", c.name, f.Rule)
			}
		}
		holes := 0
		for _, f := range p.Features {
			if f.Kind == "round-hole" {
				holes++
				if math.Abs(f.ForceKN-c.forceKN) > 0.002*c.forceKN {
					t.Errorf("%s: %g kN, want %g", c.name, f.ForceKN, c.forceKN)
				}
			}
		}
		if holes != c.holes {
			t.Errorf("%s: %d holes, want %d", c.name, holes, c.holes)
		}
	}
}
