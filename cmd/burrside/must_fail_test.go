package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
)

const mustFailDir = "../../testdata/must-fail"

// codeCase is a drawing that a code forbids, or one like it that it allows. Its
// .want file holds the lines of want: args FLAGS of the command; want RULE
// SEVERITY [got=] [limit=] in mm or MPa; never RULE; verdict V; hits N; force-kn N
// of every hole; mass-kg N. What is not wanted of a code's rules may not be said.
type codeCase struct {
	name, want string
	b          *dxftest.Builder
}

// mustFail are the drawings of testdata/must-fail. The limits are worked out
// from the tables that each names.
func mustFail() []codeCase {
	mm := func(w, h float64, texts ...string) *dxftest.Builder {
		b := dxftest.New(dxftest.MM).Layer("NOTES")
		for i, s := range texts {
			b.Text(0, -20-10*float64(i), 5, s)
		}
		return b.Layer("CUT").Polyline(true, dxftest.Rect(0, 0, w, h)...)
	}
	inch := func(w, h float64, texts ...string) *dxftest.Builder {
		b := dxftest.New(dxftest.Inch).Layer("NOTES")
		for i, s := range texts {
			b.Text(0, -1-0.5*float64(i), 0.2, s)
		}
		return b.Layer("CUT").Polyline(true, dxftest.Rect(0, 0, w, h)...)
	}
	circles := func(b *dxftest.Builder, d float64, xy ...float64) *dxftest.Builder {
		for i := 0; i < len(xy); i += 2 {
			b.Circle(xy[i], xy[i+1], d/2)
		}
		return b
	}
	var fin []float64
	for i := range 5 {
		fin = append(fin, 50, 40+70*float64(i), 110, 40+70*float64(i))
	}
	slots := func(apart float64) *dxftest.Builder {
		b := inch(12, 6, "PL 3/8", "A36")
		return b.Polyline(true, dxftest.Slot(4, 3, 13.0/16, 1.875)...).Polyline(true, dxftest.Slot(4+apart, 3, 13.0/16, 1.875)...)
	}
	corner := func(r float64) *dxftest.Builder {
		b := mm(300, 160, "t = 6 mm", "S275")
		if r == 0 {
			return b.Polyline(true, dxftest.Rect(100, 40, 100, 80)...)
		}
		k := math.Tan(math.Pi / 8)
		return b.Polyline(true, dxftest.V{X: 100 + r, Y: 40}, dxftest.V{X: 200 - r, Y: 40, Bulge: k}, dxftest.V{X: 200, Y: 40 + r}, dxftest.V{X: 200, Y: 120 - r, Bulge: k},
			dxftest.V{X: 200 - r, Y: 120}, dxftest.V{X: 100 + r, Y: 120, Bulge: k}, dxftest.V{X: 100, Y: 120 - r}, dxftest.V{X: 100, Y: 40 + r, Bulge: k})
	}
	return []codeCase{
		{"hole-thinner-than-plate", "# 3/8 in hole in 1/2 in plate: d < t; the shop has no drill\nargs --shop SHOP\nwant punch-ratio error got=9.525 limit=12.7\nverdict does-not-fit\n",
			circles(inch(8, 6, "PL 1/2", "A36"), 0.375, 2, 3, 6, 3)},
		{"hole-thinner-than-plate-drilled", "# the same where the shop drills\nwant punch-ratio warning got=9.525 limit=12.7\n",
			circles(inch(8, 6, "PL 1/2", "A36"), 0.375, 2, 3, 6, 3)},
		{"edge-25", "# M20 hole 22 at 25 mm: EN 1993-1-8 Table 3.3, 1.2 d0 = 26.4\nargs --code en\nwant edge-distance error got=25 limit=26.4\n",
			circles(mm(200, 140, "t = 10 mm", "S275"), 22, 25, 70, 120, 70)},
		{"edge-26.4", "args --code en\nverdict fits\n", circles(mm(200, 140, "t = 10 mm", "S275"), 22, 26.4, 70, 120, 70)},
		{"edge-seven-eighths", "# 3/4 in bolt, 7/8 in to the edge: AISC 360-22 Table J3.4, 1 in\nargs --code aisc\nwant edge-distance warning got=22.225 limit=25.4\n",
			circles(inch(8, 6, "PL 3/8", "A36"), 13.0/16, 0.875, 3, 5, 3)},
		{"edge-one-inch", "args --code aisc\n", circles(inch(8, 6, "PL 3/8", "A36"), 13.0/16, 1, 3, 5, 3)},
		{"slots-end-to-end", "# 3/4 in long slots 13/16 x 1-7/8, 2.5 in apart: AISC 360-22 J3, clear distance d, 2.625 in\nargs --code aisc\nwant hole-pitch error got=63.5 limit=66.675\n", slots(2.5)},
		{"slots-end-to-end-clear", "args --code aisc\n", slots(2.625)},
		{"punched-410", "# fy 410 MPa: IS 800:2007 17.2.4.2 lets up to 360 be punched\nargs --code is --shop SHOP --material E410\nwant punching-limit error got=410 limit=360\n",
			circles(mm(200, 160, "t = 10 mm"), 22, 60, 80, 140, 80)},
		{"std-hole-older-edition", "# 1-1/8 in called standard for a 1 in bolt: AISC 360-10 Table J3.3, 1-1/16 in\nargs --code aisc-2010\nwant hole-class warning got=28.575 limit=26.9875\n",
			circles(inch(10, 6, "PL 1/2", "A36", `2X %%c1-1/8 STD HOLES FOR 1" BOLTS`), 1.125, 2, 3, 7, 3)},
		{"std-hole-smaller", "# 1-1/16 in called standard for a 1 in bolt by AISC 360-22: smaller than 1-1/8 in, allowed\nargs --code aisc\n",
			circles(inch(10, 6, "PL 1/2", "A36", `2X %%c1-1/16 STD HOLES FOR 1" BOLTS`), 1.0625, 2, 3, 7, 3)},
		{"sharp-corner-welded", "# AWS D1.1: re-entrant corners 1 in (25 mm)\nargs --code aws\nwant inside-corner warning got=0 limit=25\n", corner(0)},
		{"round-corner-welded", "args --code aws\n", corner(25)},
		{"round-corner-small-welded", "args --code aws\nwant inside-corner warning got=24 limit=25\n", corner(24)},
		{"class-three", "# EXC3, t 10 punched full size: EN 1090-2 6.6.3, from memory\nwant punching-class warning\n",
			circles(mm(200, 140, "t = 10 mm", "S275", "EXECUTION CLASS EXC3"), 22, 60, 70, 140, 70)},
		{"class-three-asked", "args --execution-class EXC3\nwant punching-class warning\n", circles(mm(200, 140, "t = 10 mm", "S275"), 22, 60, 70, 140, 70)},
		{"class-two-asked", "args --execution-class EXC2\nverdict fits\n", circles(mm(200, 140, "t = 10 mm", "S275"), 22, 60, 70, 140, 70)},
		{"edge-sheared", "# CSA S16-09 Table 6: M20 34 mm from a sheared edge; the ends are sheared\nargs --code csa\nwant edge-distance error got=30 limit=34\n",
			circles(mm(200, 100, "t = 10 mm", "S275"), 22, 30, 50, 120, 50)},
		{"edge-mill", "# 30 mm to the mill edges of a flat 60 x 10: 26 mm does\nargs --code csa\nverdict fits\n",
			circles(mm(300, 60, "t = 10 mm", "S275"), 22, 60, 30, 240, 30)},
		{"fin-plate", "# Steel Buildings in Europe, Part 5, worked example 3.4: 360 x 160 x 10, M20, e1 40, e2 50, p1 70, p2 60.\n# 22 x 10 mm at 345 N/mm2 is 238.4 kN; 360 x 160 x 10 less ten holes of 22, 7850 kg/m3, is 4.22 kg.\n" +
			"args --code en --exposure\nwant edge-distance note got=40 limit=44\nverdict fits\nhits 10\nforce-kn 238.4\nmass-kg 4.22\n",
			circles(mm(160, 360, "t = 10 mm", "S275", "10x %%c22 FOR M20 BOLTS"), 22, fin...)},
	}
}

// TestMustFailIsDrawn holds that the drawings are those of mustFail.
func TestMustFailIsDrawn(t *testing.T) {
	var have []string
	for _, c := range mustFail() {
		golden(t, filepath.Join(mustFailDir, c.name+".dxf"), c.b.Bytes())
		golden(t, filepath.Join(mustFailDir, c.name+".want"), []byte(c.want))
		have = append(have, c.name+".dxf")
	}
	files, err := filepath.Glob(filepath.Join(mustFailDir, "*.dxf"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !slices.Contains(have, filepath.Base(f)) {
			t.Errorf("%s is nobody's", f)
		}
	}
}

// codeRules are the rules whose findings must all be wanted.
func codeRules() []string {
	return []string{"edge-distance", "hole-pitch", "hole-class", "punching-limit", "punching-class", "inside-corner", "punch-ratio", "reading-doubt"}
}

// TestMustFail judges each drawing by the command.
func TestMustFail(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(mustFailDir, "*.want"))
	if err != nil || len(files) < 15 {
		t.Fatal(err, len(files))
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".want"), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			judgeCodeCase(t, strings.TrimSuffix(file, ".want")+".dxf", string(text))
		})
	}
}

func judgeCodeCase(t *testing.T, path, wants string) {
	args := []string{"--json"}
	for line := range strings.Lines(wants) {
		if rest, ok := strings.CutPrefix(strings.TrimSpace(line), "args "); ok {
			args = append(args, strings.Fields(strings.ReplaceAll(rest, "SHOP", filepath.Join(mustFailDir, "strong.toml")))...)
		}
	}
	said, errs, _ := checkAll(t, append(args, path)...)
	var rep struct {
		Parts []struct {
			Verdict  string
			MassKG   float64 `json:"mass_kg"`
			Work     struct{ Hits int }
			Features []struct {
				Kind    string
				ForceKN float64 `json:"force_kn"`
			}
			Skipped  []struct{ Rule, Why string }
			Findings []struct {
				Rule, Severity, Message string
				Got, Limit              *struct{ Value float64 }
			}
		}
	}
	if err := json.Unmarshal([]byte(said), &rep); err != nil || len(rep.Parts) != 1 {
		t.Fatalf("%v\n%s\n%s", err, said, errs)
	}
	p := &rep.Parts[0]
	met := make([]bool, len(p.Findings))
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	close := func(what string, got, want, share float64) {
		if math.Abs(got-want) > share*want {
			t.Errorf("%s: got %g, want %g", what, got, want)
		}
	}
	for line := range strings.Lines(wants) {
		w := strings.Fields(line)
		if len(w) == 0 || w[0] == "#" || w[0] == "args" {
			continue
		}
		switch w[0] {
		case "verdict":
			if p.Verdict != w[1] {
				t.Errorf("verdict %s, want %s: %+v", p.Verdict, w[1], p.Findings)
			}
		case "hits":
			close("hits", float64(p.Work.Hits), number(w[1]), 0)
		case "mass-kg":
			close("mass", p.MassKG, number(w[1]), 0.002)
		case "force-kn":
			for _, f := range p.Features {
				if f.Kind == "round-hole" {
					close("force", f.ForceKN, number(w[1]), 0.001)
				}
			}
		case "want":
			found := false
			for i, f := range p.Findings {
				ok := f.Rule == w[1] && f.Severity == w[2]
				for _, q := range w[3:] {
					k, v, _ := strings.Cut(q, "=")
					have := map[string]*struct{ Value float64 }{"got": f.Got, "limit": f.Limit}[k]
					ok = ok && have != nil && math.Abs(have.Value-number(v)) < 0.001
				}
				if ok && !met[i] {
					met[i], found = true, true
					break
				}
			}
			if !found {
				t.Errorf("not found: %s", strings.TrimSpace(line))
			}
		default:
			t.Fatalf("no such line: %s", line)
		}
	}
	// A file without a want holds that nothing is said: that is its answer.
	for i, f := range p.Findings {
		if !met[i] && slices.Contains(codeRules(), f.Rule) {
			t.Errorf("not wanted: %s %s %s (%s)", f.Rule, f.Severity, f.Message, quantities(f.Got, f.Limit))
		}
	}
	coded := slices.Contains(args, "--code") && !slices.Contains(args, "aws")
	for _, s := range p.Skipped {
		if coded && slices.Contains([]string{"edge-distance", "hole-pitch", "hole-class", "punching-limit"}, s.Rule) {
			t.Errorf("not looked at: %s: %s", s.Rule, s.Why)
		}
	}
}

func quantities(l ...*struct{ Value float64 }) string {
	out := ""
	for _, q := range l {
		if q != nil {
			out += fmt.Sprintf(" %.9g", q.Value)
		}
	}
	return out
}
