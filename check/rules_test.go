package check

import (
	"flag"
	"os"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"burrside/check/shop"
	"burrside/check/station"
)

// Each rule is whole: title, why, measure, fix, sources, parameters in range.
func TestRules(t *testing.T) {
	slug := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for _, r := range Rules() {
		bad := func(format string, args ...any) {
			t.Helper()
			t.Errorf("%s: "+format, append([]any{r.ID}, args...)...)
		}
		if !slug.MatchString(r.ID) || seen[r.ID] {
			bad("id")
		}
		seen[r.ID] = true
		if n := utf8.RuneCountInString(r.Title); n == 0 || n > 60 || strings.HasSuffix(r.Title, ".") {
			bad("title of %d letters", n)
		}
		if r.Why == "" || r.Measure == "" || r.Fix == "" || r.Example == nil || r.Part == nil && r.Sheet == nil && r.Bar == nil {
			bad("not whole")
		}
		if len(r.Sources) == 0 {
			bad("no source")
		}
		for _, q := range r.Params {
			if q.Name == "" || q.Doc == "" || !(q.Min <= q.Default && q.Default <= q.Max) || !(q.Min < q.Max) {
				bad("parameter %+v", q)
			}
		}
	}
	for _, id := range strings.Fields(`punch-force punch-ratio tool die-clearance die-holder throat-reach slot-hits opening web strap stripping
		edge-distance hole-pitch blank shear-row mitre sliver hold-down notch-tool notch-force inside-corner edge-process hole-process bend material
		lift small-part hole-on-outline thickness-missing material-missing quantity-conflict no-part open-outline duplicate-lines gap-bridged
		self-crossing units-doubt units-unknown line-unexplained reading-doubt read-incomplete`) {
		if !seen[id] {
			t.Errorf("no rule %s", id)
		}
	}
	// Every setting of a station belongs to a rule.
	for _, s := range station.Settings() {
		if !seen[s.Rule] {
			t.Errorf("setting %s.%s has no rule", s.Rule, s.Name)
		}
	}
}

// The rule speaks about its own example.
func TestExamplesSpeak(t *testing.T) {
	for _, r := range Rules() {
		l := exampleFindings(&r, r.Example())
		if len(l) == 0 {
			t.Errorf("%s says nothing about its example", r.ID)
		}
		for _, f := range l {
			if f.Message == "" || f.Who == "" || len(f.Sources) == 0 || f.Count == 0 {
				t.Errorf("%s: %+v", r.ID, f)
			}
		}
	}
}

var _ = flag.Bool("update", false, "write the golden files of this package anew")

func updating() bool {
	return os.Getenv("UPDATE_GOLDEN") != "" || flag.Lookup("update").Value.String() == "true"
}

func TestHandbookIsFresh(t *testing.T) {
	got := handbook()
	if updating() {
		if err := os.WriteFile("RULES.md", []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got != Handbook() {
		t.Error("RULES.md is stale: UPDATE_GOLDEN=1 go test ./check, and read the difference")
	}
}

func TestExplain(t *testing.T) {
	prof := *shop.BuiltIn()
	prof.Settings = map[string]map[string]float64{"web": {"care": 1.5}}
	text, err := Explain("web", &prof)
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []string{"care = 1.5 t (default 1 t)", "error = 0.5 t", "common practice, no source", "7 mm of metal"} {
		if !strings.Contains(text, w) {
			t.Errorf("%q is not in\n%s", w, text)
		}
	}
	_, err = Explain("punch-farce", &prof)
	if err == nil || !strings.Contains(err.Error(), `"punch-force"`) {
		t.Errorf("%v", err)
	}
	if _, err = Explain("zzzzzzzz", &prof); err == nil || strings.Contains(err.Error(), "nearest") {
		t.Errorf("%v", err)
	}
}

func TestCheckSettings(t *testing.T) {
	prof := &shop.Profile{Settings: map[string]map[string]float64{
		"web":   {"care": 0.3, "errror": 1},
		"wbe":   {"care": 1},
		"strap": {"share": 99},
		"lift":  {"one": 30},
	}}
	var got []string
	for _, p := range CheckSettings(prof) {
		got = append(got, p.Key+": "+p.Message+" ["+p.Hint+"]")
	}
	want := []string{
		"rules.strap.share: 99 is not between 0.02 and 0.3 []",
		"rules.wbe: no rule \"wbe\" [web]",
		"rules.web.errror: rule \"web\" has no setting \"errror\" [error]",
		"rules.web.care: care (0.3) is below error (0.5) []",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s", strings.Join(got, "\n"))
	}
	if l := CheckSettings(shop.BuiltIn()); len(l) != 0 {
		t.Errorf("the example shop: %+v", l)
	}
}
