package shop

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// minimal is the least that a shop file holds; tests put text in place of the
// lines marked #top, #machine, #punch and #end.
const minimal = `name = "t"
units = "mm"
#top
[[machine]]
name = "m"
#machine
[machine.punch]
throat = "300 mm"
holders = [{ name = "standard", max = "40 mm" }]
max_thickness = "300 mm"
rated = "550 kN" #punch
#end
`

// with is minimal with the marked line replaced.
func with(mark, text string) string {
	lines := strings.Split(minimal, "\n")
	for i, line := range lines {
		if strings.HasSuffix(line, "#"+mark) {
			lines[i] = text
			return strings.Join(lines, "\n")
		}
	}
	panic("no mark " + mark)
}

func load(t *testing.T, text string) *Profile {
	t.Helper()
	p, err := Load(strings.NewReader(text), "shop.toml")
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	return p
}

// problems gives what Load says of a file, errors and warnings, as text.
func problems(text string) string {
	p, err := Load(strings.NewReader(text), "")
	var le *LoadError
	switch {
	case errors.As(err, &le):
		return FormatProblems("", le.Problems)
	case err != nil:
		return err.Error()
	}
	return FormatProblems("", p.Problems)
}

// All faults of a file come at once, each with its place and, where there is
// one, the nearest right word. Renew with UPDATE_GOLDEN=1 and read the diff.
func TestAllFaultsAtOnce(t *testing.T) {
	for _, name := range []string{"faulty", "syntax"} {
		path := filepath.Join("..", "..", "testdata", "shops", name+".toml")
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		_, err = Load(strings.NewReader(string(data)), name+".toml")
		var le *LoadError
		if !errors.As(err, &le) {
			t.Fatalf("%s: %v", name, err)
		}
		got := le.Error() + "\n"
		golden := filepath.Join("..", "..", "testdata", "shops", name+".problems.txt")
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
		lines := strings.Split(string(data), "\n")
		for _, p := range le.Problems {
			if p.Line < 1 || p.Line > len(lines) || p.Column < 1 || p.Column > len([]rune(lines[p.Line-1]))+1 {
				t.Errorf("%s: problem outside the file: %v", name, p)
			}
		}
	}
}

// The cases of a bare ton, in a file: refused where it stands, with the three.
func TestTonInAFile(t *testing.T) {
	got := problems(with("punch", `rated = "60 ton"`))
	want := `11:1: machine[0].punch.rated: force "60 ton": which ton is meant? write "60 US ton" (533.8 kN), "60 metric ton" (588.4 kN) or "60 long ton" (597.8 kN)` + "\n"
	if got != want {
		t.Errorf("got  %swant %s", got, want)
	}
	for text, want := range map[string]Rating{
		"60 US ton":     {ForceKN: 533.78659383126, Ton: "US"},
		"60 metric ton": {ForceKN: 588.399, Ton: "metric"},
		"60 long ton":   {ForceKN: 597.8409850910112, Ton: "long"},
		"550 kN":        {ForceKN: 550},
	} {
		r := load(t, with("punch", `rated = "`+text+`"`)).Machines[0].Punch.Rating
		if math.Abs(r.ForceKN-want.ForceKN) > 1e-6 || r.Ton != want.Ton || r.FromRow || math.Abs(r.UsableKN-0.9*want.ForceKN) > 1e-6 || r.BasisMPa != 345 || r.BasisMaterial != "mild" {
			t.Errorf("%s: %+v", text, r)
		}
	}
}

// A punch rated 65 US ton (578.3 kN) with the row 27 mm in 19 mm: pi x 27 x 19 x
// 345 MPa = 556.0 kN, 96 % of the rated force; the row is what may be used
// (worked case, common practice, no source). A stated share of 85 % contradicts
// it: a warning, and the row wins.
func TestRowWinsOverUsableShare(t *testing.T) {
	rows := `rows = [{ hole = "27 mm", thickness = "19 mm" }]`
	p := load(t, with("punch", "rated = \"65 US ton\"\n"+rows))
	r := p.Machines[0].Punch.Rating
	if math.Abs(r.UsableKN-556.0) > 0.05 || !r.FromRow || math.Abs(r.UsableKN/r.ForceKN-0.9615) > 0.0001 || len(p.Problems) != 0 {
		t.Errorf("without a share: %+v %v", r, p.Problems)
	}
	p = load(t, with("punch", "rated = \"65 US ton\"\nusable_share = 0.85\n"+rows))
	r = p.Machines[0].Punch.Rating
	if math.Abs(r.UsableKN-556.0) > 0.05 || r.UsableShare != 0.85 {
		t.Errorf("with a share: %+v", r)
	}
	want := "12:1: warning: machine[0].punch.usable_share 85 % contradicts the row 27 mm through 19 mm, which takes 556.0 kN at 345 MPa, 96 % of the rated 578.3 kN; the row wins\n"
	if got := FormatProblems("", p.Problems); got != want {
		t.Errorf("got  %swant %s", got, want)
	}
	// The same share as the row's, within half a percentage point, is no
	// contradiction: 96.15 % against 95.66 and 95.64 %.
	for share, warned := range map[string]bool{"0.9616": false, "0.9566": false, "0.9564": true, "0.9664": false, "0.9666": true} {
		p := load(t, with("punch", "rated = \"65 US ton\"\nusable_share = "+share+"\n"+rows))
		if (len(p.Problems) > 0) != warned {
			t.Errorf("share %s: %v", share, p.Problems)
		}
	}
}

// Rating from rows alone, and a row above the rating: never above rated, and
// said aloud.
func TestUsableFromRows(t *testing.T) {
	p := load(t, with("punch", `rows = [{ hole = "30 mm", thickness = "8 mm" }, { hole = "27 mm", thickness = "19 mm" }]`))
	if r := p.Machines[0].Punch.Rating; math.Abs(r.UsableKN-556.02) > 0.01 || r.ForceKN != 0 || !r.FromRow || r.HeaviestRow != 0 {
		t.Errorf("rows only: %+v", r)
	}
	// 260.1 kN against 556.0 kN is a ratio of 0.47: a slip of the pen, perhaps.
	if got := FormatProblems("", p.Problems); !strings.Contains(got, "takes only 260.1 kN") {
		t.Errorf("rows that do not agree: %q", got)
	}
	p = load(t, with("punch", "rated = \"500 kN\"\nrows = [{ hole = \"27 mm\", thickness = \"19 mm\" }]"))
	if r := p.Machines[0].Punch.Rating; r.UsableKN != 500 || !r.FromRow {
		t.Errorf("row above rated: %+v", r)
	}
	if got := FormatProblems("", p.Problems); !strings.Contains(got, "needs 556.0 kN at 345 MPa") || !strings.Contains(got, "more than the rated 500.0 kN") {
		t.Errorf("row above rated: %q", got)
	}
	// 1 % for the rounding of name plates: 556.02 kN is at most 1.01 of 550.52.
	for rated, warned := range map[string]bool{"550.6 kN": false, "550.4 kN": true} {
		p := load(t, with("punch", "rated = \""+rated+"\"\nrows = [{ hole = \"27 mm\", thickness = \"19 mm\" }]"))
		if (len(p.Problems) > 0) != warned {
			t.Errorf("rated %s: %v", rated, p.Problems)
		}
	}
	// The basis: rows stated in A36 take 414 MPa, a stated basis goes before it.
	for text, mpa := range map[string]float64{`rows_material = "A36"`: 414, `basis = "50 ksi"`: 344.7378646584181, "rows_material = \"A36\"\nbasis = \"400 MPa\"": 400} {
		r := load(t, with("punch", text+"\nrows = [{ hole = \"27 mm\", thickness = \"19 mm\" }]")).Machines[0].Punch.Rating
		if math.Abs(r.BasisMPa-mpa) > 1e-9 || math.Abs(r.UsableKN-math.Pi*27*19*mpa/1000) > 1e-9 {
			t.Errorf("%s: %+v", text, r)
		}
	}
	// No force, no model: the rows alone judge.
	p = load(t, "name = \"t\"\nunits = \"mm\"\n[[machine]]\nname = \"m\"\n[machine.shear]\nblade = \"600 mm\"\nrows = [{ thickness = \"13 mm\", cut = \"300 mm\" }]")
	if r := p.Machines[0].Shear.Rating; r.UsableKN != 0 || r.FromRow {
		t.Errorf("shear without force or rake: %+v", r)
	}
}

// Raked blade: S t2/(2 tan a) once the blade's slope is covered, else S (L t -
// L2 tan a/2). Row 25 x 100 at 6 deg and 345 MPa takes 681.2 kN (worked case,
// common practice, no source); 12 mm at 3 deg and 350 MPa 480.8 kN (the triangle
// under the blade, by hand).
func TestShearForceModel(t *testing.T) {
	for _, c := range []struct{ length, t, rakeDeg, s, want float64 }{
		{100, 25, 6, 345, 681.2}, {1000, 12, 3, 350, 480.8}, {229, 12, 3, 350, 480.8}, {100, 10, 0, 345, 345},
	} {
		if got := shearForceKN(c.length, c.t, c.rakeDeg*math.Pi/180, c.s); math.Abs(got-c.want) > 0.1 {
			t.Errorf("%v: %.2f kN", c, got)
		}
	}
	// Both forms meet where the triangle just ends.
	a := 6 * math.Pi / 180
	edge := 25 / math.Tan(a)
	if lo, hi := shearForceKN(edge*(1-1e-9), 25, a, 345), shearForceKN(edge*(1+1e-9), 25, a, 345); math.Abs(lo-hi) > 1e-3 {
		t.Errorf("the two forms differ at their border: %v %v", lo, hi)
	}
}

// Punch: d 20, t 25, S 350 takes 549.8 kN (Singer and Pytel, Strength of
// Materials, problem 115).
func TestPunchForceModel(t *testing.T) {
	if got := punchForceKN(20, 25, 350); math.Abs(got-549.8) > 0.05 {
		t.Errorf("%.2f kN", got)
	}
}
