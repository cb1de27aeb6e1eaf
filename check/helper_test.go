package check

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// literal is a plan in which a punch makes every hole and shears cut every
// edge, so that the rules that compute by themselves are tested by themselves.
func literal(part *features.Part, prof *shop.Profile, job plan.Job) *plan.Plan {
	b := part.Box
	pl := &plan.Plan{Part: part, Blank: plan.Blank{Form: "plate", WidthMM: b.Height(), LengthMM: b.Width(),
		Corners: [4]geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}}}
	for range part.Outline {
		pl.Edges = append(pl.Edges, plan.EdgeSheared)
	}
	for i := range part.Features {
		f := &part.Features[i]
		m := plan.Make{Feature: i, MadeBy: "shear"}
		switch {
		case !(job.ThicknessMM > 0) || !hasSteel(&job):
			m.MadeBy = "unknown"
		case f.IsInside():
			m.MadeBy = "punch"
			m.Use = station.Use{Machine: "north bay", Station: "punch", Hits: 1}
			if f.DiameterMM > 0 {
				m.Use.ForceKN = math.Pi * f.DiameterMM * job.ThicknessMM * job.Material.ShearMPa / 1e3
			}
		case f.Kind == features.Notch:
			m.MadeBy = "notch"
		case f.Kind == features.Bend:
			m.MadeBy = "bend"
		case f.Kind == features.Mark:
			m.MadeBy = "unknown"
		}
		pl.Makes = append(pl.Makes, m)
	}
	return pl
}

// judged runs the rules with the literal plan and the example shop.
func judged(e Example, change ...func(*shop.Profile, *plan.Job)) *PartReport {
	prof := *shop.BuiltIn()
	for _, c := range change {
		c(&prof, &e.Job)
	}
	rep, _ := judgeOnce(e.Part, &prof, e.Job, circumstances{inch: prof.Units == "in"}, literal)
	return rep
}

// of gives the findings of one rule.
func of(rep *PartReport, rule string) []Finding {
	var out []Finding
	for _, f := range rep.Findings {
		if f.Rule == rule {
			out = append(out, f)
		}
	}
	return out
}

// wantSeverity checks that a rule gives one finding of that severity, or none for "".
func wantSeverity(t *testing.T, rep *PartReport, rule string, want Severity) *Finding {
	t.Helper()
	l := of(rep, rule)
	switch {
	case want == "" && len(l) == 0:
		return nil
	case want == "" || len(l) != 1 || l[0].Severity != want:
		t.Errorf("%s: want %q, got %+v", rule, want, l)
		return nil
	}
	return &l[0]
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %g, want %g within %g", what, got, want, tol)
	}
}

// facts reads a table of testdata/facts: one map a row, by column name.
func facts(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "testdata", "facts", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, r := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			m[h] = r[i]
		}
		if m["source"] == "" {
			t.Fatalf("%s: a row without a source: %v", name, r)
		}
		out = append(out, m)
	}
	if len(out) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return out
}

// ids sorted, for comparison.
func sorted(l []string) []string { l = slices.Clone(l); slices.Sort(l); return l }

func inches(prof *shop.Profile, _ *plan.Job) { prof.Units = "in" }
