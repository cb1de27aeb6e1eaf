package render

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"burrside/check"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/cutlist"
)

// Every error and warning of the rules' worked examples is followed by what it
// rests on, on one line: both numbers where it has them.
func TestEveryExampleSaysWhy(t *testing.T) {
	seen, numbers := 0, 0
	for _, r := range check.Rules() {
		if r.Example == nil {
			continue
		}
		e := r.Example()
		rep := &check.Report{Drawing: r.ID, Shop: shop.BuiltIn(), Sheet: &features.Sheet{}}
		switch {
		case e.Part != nil:
			rep.Parts = []*check.PartReport{check.RunPart(e.Part, rep.Shop, e.Job)}
		case e.List != "":
			list, err := cutlist.Read(strings.NewReader(e.List), cutlist.Options{Unit: "mm"})
			if err != nil {
				t.Fatal(err)
			}
			if rep, err = check.RunList(context.Background(), r.ID, list, rep.Shop, e.Job); err != nil {
				t.Fatal(err)
			}
		default:
			var err error
			if rep, err = check.Run(context.Background(), r.ID, e.Sheet, rep.Shop, e.Job); err != nil {
				t.Fatal(err)
			}
		}
		all := rep.Findings
		for _, p := range rep.Parts {
			all = append(all, p.Findings...)
		}
		for _, p := range rep.Bars {
			all = append(all, p.Findings...)
		}
		var b bytes.Buffer
		if err := Text(&b, rep, TextOptions{Why: true, All: true, Width: 5000}); err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(b.String(), "\n")
		because := 0
		for _, l := range lines {
			if strings.HasPrefix(strings.TrimSpace(l), "because ") {
				because++
			}
		}
		tr := &textReport{unit: "mm"}
		saying := 0
		for i := range all {
			if tr.whyLine(&all[i]) != "" {
				saying++
			}
		}
		if because != saying {
			t.Errorf("%s: %d findings, %d of them say why on a line of their own", r.ID, saying, because)
		}
		for i := range all {
			f := &all[i]
			if f.Severity == check.Note {
				continue
			}
			seen++
			why := tr.whyLine(f)
			if why == "" || strings.ContainsAny(why, "\n\r") || !strings.Contains(b.String(), "because "+why) {
				t.Errorf("%s: %s says %q", r.ID, f.Rule, why)
			}
			if f.Got != nil && f.Limit != nil {
				numbers++
				found, limit := foundNeeded(f, "mm")
				if !strings.Contains(why, found) || !strings.Contains(why, limit) || !strings.ContainsAny(why, "=<;x") {
					t.Errorf("%s: %s found %s, %s, and says %q", r.ID, f.Rule, found, limit, why)
				}
			} else if f.Limit != nil {
				t.Errorf("%s: %s has a limit and nothing found", r.ID, f.Rule)
			}
		}
	}
	if seen < 50 || numbers < 25 {
		t.Errorf("%d findings, %d with numbers", seen, numbers)
	}
}
