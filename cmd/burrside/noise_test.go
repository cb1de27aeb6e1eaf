package main

import (
	"encoding/json"
	"path/filepath"
	"slices"
	"testing"
)

// TestNoiseOnSamples holds how much is said of clean drawings: over the sample
// parts that fit the median of findings is 0 and none has more than 3, without a
// code and with each. Of those that fit with care, some drawn with several faults
// on purpose, none has more than 4.
func TestNoiseOnSamples(t *testing.T) {
	for _, code := range []string{"", "en", "aisc", "csa", "is"} {
		files, err := filepath.Glob(filepath.Join(partsDir, "*.dxf"))
		if err != nil || len(files) < 15 {
			t.Fatal(err, len(files))
		}
		var fit, care []int
		for _, file := range files {
			args := []string{"--json", file}
			if code != "" {
				args = append(args, "--code", code)
			}
			said, errs, _ := checkAll(t, args...)
			var rep struct {
				Parts []struct {
					Name, Verdict string
					Findings      []struct{ Rule, Severity, Message string }
				}
				Findings []struct{ Rule string }
			}
			if err := json.Unmarshal([]byte(said), &rep); err != nil {
				t.Fatalf("%v %s", err, errs)
			}
			for _, p := range rep.Parts {
				n := len(p.Findings) + len(rep.Findings)
				most := 3
				switch p.Verdict {
				case "fits":
					fit = append(fit, n)
				case "fits-with-care":
					care = append(care, n)
					most = 4
				default:
					continue
				}
				if n > most {
					t.Errorf("code %q: %s %s: %d findings: %+v", code, p.Name, p.Verdict, n, p.Findings)
				}
			}
		}
		slices.Sort(fit)
		slices.Sort(care)
		t.Logf("code %q: findings of %d parts that fit %v, of %d that fit with care %v", code, len(fit), fit, len(care), care)
		if len(fit) < 5 {
			t.Fatalf("code %q: only %d samples fit", code, len(fit))
		}
		if fit[len(fit)/2] != 0 {
			t.Errorf("code %q: the median is %d: %v", code, fit[len(fit)/2], fit)
		}
	}
}
