package shop

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func loadFile(t *testing.T, name string) *Profile {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "shops", name))
	if err != nil {
		t.Fatal(err)
	}
	p, err := Load(strings.NewReader(string(data)), name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Rows beyond the rated force, and a share that a row contradicts: warnings, and
// never an error; what may be used for all else is the heaviest row within the
// rated force, or the rated force if there is none.
// pi x 40 x 16 x 345 MPa = 693.7 kN; 345 x 16^2 / (2 tan 6 deg) = 420.2 kN.
func TestRowsThatDisagree(t *testing.T) {
	p := loadFile(t, "rows_disagree.toml")
	want := `11:1: warning: machine[0].punch.usable_share 85 % contradicts the row 27 mm through 19 mm, which takes 556.0 kN at 345 MPa, 96 % of the rated 578.3 kN; the row wins
14:3: warning: row 40 mm through 16 mm needs 693.7 kN at 345 MPa (pi x hole x thickness x basis), more than the rated 578.3 kN; the row holds for what it covers, 556.0 kN for all else
22:9: warning: row 300 mm through 16 mm needs 420.2 kN at 345 MPa (raked blade over the length of cut), more than the rated 400.0 kN; the row holds for what it covers, 400.0 kN for all else
`
	if diff := cmp.Diff(want, FormatProblems("", p.Problems)); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	if r := p.Machines[0].Punch; math.Abs(r.UsableKN-556.02) > 0.01 || len(r.Rows) != 2 || r.Rows[r.HeaviestRow].SizeMM != 27 {
		t.Errorf("%+v", r)
	}
	if r := p.Machines[0].Shear; r.UsableKN != 400 {
		t.Errorf("%+v", r)
	}
}

// What shop show prints; renew with UPDATE_GOLDEN=1 and read the diff.
func TestDescribe(t *testing.T) {
	for name, p := range map[string]*Profile{
		"built_in": BuiltIn(), "inch": loadFile(t, "inch.toml"), "rows_disagree": loadFile(t, "rows_disagree.toml"), "everything": load(t, everything),
	} {
		got := Describe(p)
		golden := filepath.Join("testdata", "describe_"+name+".txt")
		if os.Getenv("UPDATE_GOLDEN") != "" {
			if err := os.WriteFile(golden, []byte(got), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
		for i, line := range strings.Split(got, "\n") {
			if strings.TrimRight(line, " ") != line || strings.Contains(line, "%!") || strings.Contains(line, "NaN") {
				t.Errorf("%s line %d: %q", name, i+1, line)
			}
		}
	}
	if got := Describe(&Profile{}); !strings.HasPrefix(got, "Shop without a name\n") {
		t.Errorf("%q", got)
	}
}

// The nearest right word: one edit for every three letters, swaps count one.
func TestNearest(t *testing.T) {
	words := []string{"throat", "holders", "rated", "rows", "stop", "strokes"}
	for wrong, want := range map[string]string{"throte": "throat", "throta": "throat", "holder": "holders", "Rated": "rated", "row": "rows", "stpo": "stop", "storke": "strokes", "x": "", "rust": "", "completely": ""} {
		if got := nearest(wrong, words); got != want {
			t.Errorf("nearest(%q) = %q, want %q", wrong, got, want)
		}
	}
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"a", "", 1}, {"ab", "ba", 1}, {"kitten", "sitting", 3}, {"Größe", "Grösse", 2}} {
		if got := editDistance(c.a, c.b); got != c.want {
			t.Errorf("editDistance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}
