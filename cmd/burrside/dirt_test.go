package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"burrside/check"
	"burrside/check/shop"
	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// TestDirt runs the careless drawings through the whole command: what holds a
// grave doubt or a fault must not end as fits, and what holds none must not end
// as cannot-tell, unless a drawing wants another verdict. Lines drawn twice are
// told and harm nothing.
func TestDirt(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "dirt", "*.dxf"))
	if err != nil || len(files) < 50 {
		t.Fatalf("%d drawings, %v", len(files), err)
	}
	q := question{shop: shop.BuiltIn()}
	doubted, clean := 0, 0
	for _, path := range files {
		name := strings.TrimSuffix(filepath.Base(path), ".dxf")
		raw, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		d, _ := dxfread.Read(context.Background(), bytes.NewReader(raw), dxfread.Limits{})
		if d == nil {
			t.Errorf("%s cannot be read", name)
			continue
		}
		wants, err := dxftest.Wants(d)
		if err != nil {
			t.Fatal(err)
		}
		rep, err := q.analyse(context.Background(), path)
		if err != nil {
			t.Fatal(err)
		}
		var verdict string
		doubt := false
		for _, w := range wants {
			value := func(key string) string {
				i := slices.IndexFunc(w.Values, func(v dxftest.Value) bool { return v.Key == key })
				if i < 0 {
					return ""
				}
				return w.Values[i].Text
			}
			switch {
			case w.Feature:
			case w.Name == "verdict":
				verdict = value("is")
			case w.Name == "fault" && value("code") != "duplicate-lines", w.Name == "doubt" && value("grave") == "yes":
				doubt = true
			}
		}
		good := false
		switch {
		case verdict != "":
			good = string(rep.Verdict) == verdict
		case doubt:
			good = rep.Verdict != check.Fits
			doubted++
		default:
			good = rep.Verdict != check.CannotTell
			clean++
		}
		if !good {
			t.Errorf("%s: verdict %s, wanted %q, doubted %v", name, rep.Verdict, verdict, doubt)
			for _, f := range rep.Findings {
				t.Logf("  %s %s: %s", f.Severity, f.Rule, f.Message)
			}
			for _, p := range rep.Parts {
				for _, f := range p.Findings {
					t.Logf("  %s: %s %s: %s", p.Part.Name, f.Severity, f.Rule, f.Message)
				}
			}
		}
	}
	if doubted == 0 || clean == 0 {
		t.Errorf("%d doubted and %d clean drawings", doubted, clean)
	}
}
