package cutlist

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

func rows(t *testing.T, name string, n int) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/facts/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(all) != n+1 {
		t.Fatalf("%s has %d rows", name, len(all)-1)
	}
	return all[1:]
}

func num(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// lbFtKgM turns lb/ft into kg/m: the pound of 0.45359237 kg on the foot of
// 0.3048 m.
const lbFtKgM = 0.45359237 / 0.3048

func near(got, want, tol float64) bool { return math.Abs(got-want) <= tol }

// Every pipe of the table, in two spellings: diameter, wall, and weight against
// the published lb/ft (ASME B36.10M by public schedule charts).
func TestEveryPipe(t *testing.T) {
	for _, r := range rows(t, "pipes.csv", 12) {
		for _, text := range []string{"PIPE " + r[0] + " SCH " + r[1], "nps " + strings.ReplaceAll(r[0], "-", " ") + " sch" + r[1], r[0] + `" Sch. ` + r[1] + " pipe"} {
			s, err := ParseSection(text, "mm")
			if err != nil || s.Kind != RoundTube || s.SizeMM[0] != num(t, r[4]) || s.ThicknessMM != num(t, r[5]) {
				t.Errorf("%s: %+v %v", text, s, err)
				continue
			}
			if lb := s.KgPerM(7850) / 0.45359237 * 0.3048; !near(lb, num(t, r[6]), 0.006*num(t, r[6])+0.003) {
				t.Errorf("%s weighs %.3f lb/ft, want %s", text, lb, r[6])
			}
		}
	}
}

// Flat bars against published masses, EN in kg/m and US in lb/ft.
func TestFlatBarMasses(t *testing.T) {
	for _, r := range rows(t, "flat_bars.csv", 12) {
		text := "FL " + r[1] + "x" + r[2]
		s, err := ParseSection(text, Unit(r[0]))
		if err != nil {
			t.Errorf("%s: %v", text, err)
			continue
		}
		got := s.KgPerM(7850)
		if r[0] == "in" {
			got = got / 0.45359237 * 0.3048
		}
		// 490 lb/ft3 is 7849 kg/m3.
		if !near(got, num(t, r[3]), 0.0006*num(t, r[3])+0.0006) {
			t.Errorf("%s weighs %.3f, want %s", text, got, r[3])
		}
	}
}

// Hollow sections: EN 10219-2 tables (40x40x3 3.30, 60x40x3 4.25, 50x50x5 6.56
// kg/m, from memory) and AISC HSS2x2x1/8 of 3.05 lb/ft (from memory); circular
// EN 10219-2 48.3x3.2 of 3.56 kg/m (from memory).
func TestTubeMasses(t *testing.T) {
	for text, want := range map[string]float64{"SHS 40x40x3": 3.30, "RHS 60x40x3": 4.25, "SHS 50x5": 6.56, "HSS2x2x1/8": 3.05 * lbFtKgM, "CHS 48.3x3.2": 3.56} {
		s, err := ParseSection(text, "mm")
		if err != nil || !near(s.KgPerM(7850), want, 0.006*want) {
			t.Errorf("%s weighs %.3f kg/m, want %.3f (%v)", text, s.KgPerM(7850), want, err)
		}
	}
}

// The area of each listed channel agrees with the mass in its own list, and
// with its sizes: web and flanges, and fillets of at most 6 % more.
func TestEveryChannelIsConsistent(t *testing.T) {
	n := 0
	for _, name := range []string{"UPN", "UPE", "PFC", "C", "MC"} {
		list, _, inch := series(name)
		for i, r := range list {
			n++
			s := r.section(name, name, inch)
			mass, area := r.mass, r.area*100
			if inch {
				mass, area = r.mass*lbFtKgM, r.area*645.16
			}
			// Masses of small channels are rounded to 0.1 kg/m, and names to 0.5 lb/ft:
			// C3x3.5 is 6 % heavier than its name.
			tol := 0.025*mass + 0.05
			if name == "C" && r.mass == 3.5 {
				tol = 0.065 * mass
			}
			if !near(area*7850e-6, mass, tol) {
				t.Errorf("%s %v: %v mm2 weigh %v kg/m, listed %v", name, r, area, area*7850e-6, mass)
			}
			parts := (s.SizeMM[0]-2*s.FlangeThicknessMM)*s.ThicknessMM + 2*s.SizeMM[1]*s.FlangeThicknessMM
			if share := area / parts; share < 0.94 || share > 1.07 {
				t.Errorf("%s %v: area %v, sum of its parts %v", name, r, area, parts)
			}
			if i > 0 && (list[i-1].depth > r.depth || list[i-1].depth == r.depth && list[i-1].mass >= r.mass) {
				t.Errorf("%s %v stands after %v", name, r, list[i-1])
			}
			if err := s.finish("mm"); err != nil {
				t.Errorf("%s %v: %v", name, r, err)
			}
		}
	}
	if n != 18+14+16+32+40 {
		t.Errorf("%d channels", n)
	}
}

// How the trade writes sections.
func TestSectionWords(t *testing.T) {
	for _, c := range []struct {
		text    string
		bare    Unit
		kind    Kind
		a, b, t float64
		name    string
	}{
		{"FL 100x10", "mm", Flat, 100, 0, 10, "flat 100 x 10 mm"}, {"100x10", "mm", Flat, 100, 0, 10, "flat 100 x 10 mm"}, {"10 × 100 Flat", "mm", Flat, 100, 0, 10, ""},
		{"FLAT 4 x 3/8", "mm", Flat, 101.6, 0, 9.525, "flat 4 in x 3/8 in"}, {"Flach 60*8", "mm", Flat, 60, 0, 8, ""}, {"4 x 3/8", "in", Flat, 101.6, 0, 9.525, ""}, {"FB 100 x 10 mm", "in", Flat, 100, 0, 10, ""},
		{"flat bar 2½ x ¼", "mm", Flat, 63.5, 0, 6.35, ""}, {"100,5x10", "mm", Flat, 100.5, 0, 10, ""},
		{"L75x75x8", "mm", Angle, 75, 75, 8, "angle 75 x 75 x 8 mm"}, {"L75x8", "mm", Angle, 75, 75, 8, ""}, {"L3x3x1/4", "mm", Angle, 76.2, 76.2, 6.35, ""}, {"L 50x75x6", "mm", Angle, 75, 50, 6, ""}, {"60x60x6 RSA", "mm", Angle, 60, 60, 6, ""}, {"Winkel 60x60x6", "mm", Angle, 60, 60, 6, ""},
		{"RD 25", "mm", Round, 25, 0, 25, "round bar Ø25 mm"}, {"Ø25", "mm", Round, 25, 0, 25, ""}, {"ROUND 1 in", "mm", Round, 25.4, 0, 25.4, ""}, {"⌀ 20 mm", "in", Round, 20, 0, 20, ""}, {"25 dia", "mm", Round, 25, 0, 25, ""}, {"round 3/4", "mm", Round, 19.05, 0, 19.05, ""}, {"1 in round bar", "mm", Round, 25.4, 0, 25.4, ""},
		{"SQ 20", "mm", Square, 20, 0, 20, "square bar 20 mm"}, {"20 SQ", "mm", Square, 20, 0, 20, ""}, {"SQ 20x20", "mm", Square, 20, 0, 20, ""}, {"Vierkant 20", "mm", Square, 20, 0, 20, ""},
		{"C 100", "mm", Channel, 100, 0, 0, "channel 100 mm"}, {"UPN 100", "in", Channel, 100, 50, 6, "UPN 100"}, {"upe80", "mm", Channel, 80, 50, 4, "UPE 80"}, {"PFC 100x50x10", "mm", Channel, 100, 50, 5, "PFC 100 x 50 x 10"}, {"PFC 150x75", "mm", Channel, 150, 75, 5.5, "PFC 150 x 75 x 18"},
		{"C4x5.4", "mm", Channel, 101.6, 40.132, 4.6736, "C4x5.4"}, {"MC6X12", "in", Channel, 152.4, 63.5, 7.874, "MC6x12"}, {"C 100x50x6", "mm", Channel, 100, 50, 6, "channel 100 x 50 x 6 mm"}, {"U 120", "mm", Channel, 120, 55, 7, "UPN 120"},
		{"SHS 40x40x3", "mm", SquareTube, 40, 40, 3, "tube 40 x 40 x 3 mm"}, {"RHS 40x60x3", "mm", SquareTube, 60, 40, 3, ""}, {"HSS2x2x1/8", "mm", SquareTube, 50.8, 50.8, 3.175, ""}, {"TUBE 40x40x3", "mm", SquareTube, 40, 40, 3, ""}, {"SHS 40x3", "mm", SquareTube, 40, 40, 3, ""},
		{"CHS 48.3x3.2", "mm", RoundTube, 48.3, 0, 3.2, "tube Ø48.3 x 3.2 mm"}, {"TUBE Ø48.3x3.2", "mm", RoundTube, 48.3, 0, 3.2, ""}, {"Ø48.3x3.2", "mm", RoundTube, 48.3, 0, 3.2, ""}, {"Rohr 48,3 x 3,2", "mm", RoundTube, 48.3, 0, 3.2, ""}, {"HSS1.900x0.145", "in", RoundTube, 48.26, 0, 3.683, ""},
		{"DN40", "mm", RoundTube, 48.3, 0, 0, "pipe NPS 1-1/2 (DN 40), Ø48.3 mm"}, {"DN 65 SCH 40", "mm", RoundTube, 73, 0, 5.16, ""}, {"PIPE 2", "mm", RoundTube, 60.3, 0, 0, ""}, {"NPS 1 1/2 SCH80", "mm", RoundTube, 48.3, 0, 5.08, "pipe NPS 1-1/2 (DN 40) schedule 80, Ø48.3 x 5.08 mm"}, {"PIPE 1-1/2 STD", "mm", RoundTube, 48.3, 0, 3.68, ""}, {"1-1/4 in pipe XS", "mm", RoundTube, 42.2, 0, 4.85, ""},
	} {
		s, err := ParseSection(c.text, c.bare)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if s.Kind != c.kind || !near(s.SizeMM[0], c.a, 1e-6) || !near(s.SizeMM[1], c.b, 1e-6) || !near(s.ThicknessMM, c.t, 1e-6) || c.name != "" && s.Name != c.name {
			t.Errorf("%q: %+v", c.text, s)
		}
	}
}

// What is no section, or could be two, is refused with a reason.
func TestNoSection(t *testing.T) {
	for text, want := range map[string]string{
		"":                               "missing",
		"   ":                            "missing",
		"IPE 200":                        "no kind of section",
		"100":                            "sizes alone",
		"100x10x5":                       "sizes alone",
		"FL 100":                         "it needs width x thickness",
		"FL 4x1":                         "is the unit right?",
		"FL 100x":                        "a size is missing",
		"FL 100x-5":                      "",
		"FL 0x5":                         "cannot be",
		"L75":                            "it needs leg",
		"L75x75x40":                      "none that is rolled",
		"RD 2":                           "is the unit right?",
		"RD 20x30":                       "it needs one diameter",
		"SQ 20x30":                       "it needs one size",
		"UPN 105":                        "no channel 105",
		"C4x5.5":                         "no channel 4 x 5.5",
		"PFC 100x55":                     "no channel 100 x 55",
		"C 4":                            "is the unit right?",
		"C 100x50":                       "",
		"C 200x75x20x2":                  "it needs a depth",
		"TUBE 48.3x3":                    "round (Ø48.3 x 3) or square",
		"TUBE 40":                        "it needs side",
		"RHS 40x3":                       "it needs side",
		"SHS 40x40x20":                   "cannot be",
		"CHS 48.3":                       "it needs diameter x wall",
		"CHS 48.3x24.15":                 "cannot be",
		"DN65":                           "Ø73 or a tube of Ø76.1",
		"DN41":                           "no nominal pipe size",
		"PIPE 1-1/3":                     "no nominal pipe size",
		"PIPE 2 SCH 160":                 "not in the table",
		"FL 1,500x10":                    "1,500",
		"FL 100x10 kg":                   "",
		"L75x75x8 FL":                    "no kind of section",
		strings.Repeat("FL 100x10 ", 20): "longer",
	} {
		s, err := ParseSection(text, "mm")
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %+v, %v, want %q", text, s, err, want)
		}
	}
}

func TestEnds(t *testing.T) {
	sq, deg := End{Work: "square"}, math.Pi/180
	mitre := func(d float64) End { return End{Work: "mitre", AngleRad: d * deg} }
	saddle := func(d, h float64) End { return End{Work: "saddle", AngleRad: d * deg, HeaderMM: h} }
	for text, want := range map[string][2]End{
		"": {sq, sq}, "square": {sq, sq}, "Square cut": {sq, sq}, "gerade": {sq, sq}, "square/square": {sq, sq},
		"mitre 45": {mitre(45), sq}, "miter 45": {mitre(45), sq}, "Gehrung 45°": {mitre(45), sq}, "onglet 22,5": {mitre(22.5), sq}, "mitre 45 deg": {mitre(45), sq}, "mitre45": {mitre(45), sq},
		"mitre 45/45": {mitre(45), mitre(45)}, "mitre 45/30": {mitre(45), mitre(30)}, "mitre 45 both": {mitre(45), mitre(45)}, "mitre 45 / mitre 45": {mitre(45), mitre(45)}, "mitre 45/square": {mitre(45), sq}, "square / mitre 45": {sq, mitre(45)},
		"saddle 90": {saddle(90, 0), sq}, "saddle 90 to 60.3": {saddle(90, 60.3), sq}, "saddle 90/90": {saddle(90, 0), saddle(90, 0)}, "saddle 60 both": {saddle(60, 0), saddle(60, 0)}, "saddle 90 to 2-3/8 in": {saddle(90, 60.325), sq},
		"saddle 90 to DN50": {saddle(90, 60.3), sq}, "saddle 90 to pipe 2": {saddle(90, 60.3), sq}, "Sattel 90 + mitre 45": {saddle(90, 0), mitre(45)}, "saddle 90 to 60.3 and saddle 90 to 60.3": {saddle(90, 60.3), saddle(90, 60.3)},
		"point": {{Work: "point"}, sq}, "Point both": {{Work: "point"}, {Work: "point"}}, "point / square": {{Work: "point"}, sq},
	} {
		got, err := ParseEnds(text, "mm")
		ok := err == nil
		for i := range want {
			ok = ok && got[i].Work == want[i].Work && near(got[i].AngleRad, want[i].AngleRad, 1e-12) && near(got[i].HeaderMM, want[i].HeaderMM, 1e-9)
		}
		if !ok {
			t.Errorf("%q: %+v %v", text, got, err)
		}
	}
	for text, want := range map[string]string{
		"mitre": "angle of the mitre", "saddle": "angle of the saddle", "45": "mitre or a saddle", "mitre 80": "cannot be", "mitre 0": "cannot be", "saddle 10": "cannot be", "saddle 90 to": "",
		"mitre 45/45/45": "two ends", "mitre 45/45 both": "both", "saddle 90 to x": "no pipe", "mitre 45 to 60": "goes to nothing", "point 45": "an angle is for", "mitre fourtyfive": "no end that is understood", "?": "no end",
	} {
		got, err := ParseEnds(text, "mm")
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %+v %v, want %q", text, got, err, want)
		}
	}
}
