package render

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"burrside/check"
	"burrside/features"
)

func textOf(t testing.TB, rep *check.Report, opt TextOptions) string {
	t.Helper()
	var b bytes.Buffer
	if err := Text(&b, rep, opt); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTextGoldens(t *testing.T) {
	for _, r := range allReports() {
		golden(t, "text/"+r.name+".txt", []byte(textOf(t, r.rep, TextOptions{})))
	}
	golden(t, "text/plate-why.txt", []byte(textOf(t, plateReport(), TextOptions{Why: true, All: true, Width: 72})))
}

func TestTextIsPlainAndWithinItsWidth(t *testing.T) {
	for _, r := range allReports() {
		for _, width := range []int{0, 40, 72, 200} {
			s := textOf(t, r.rep, TextOptions{Width: width, All: width == 72, Why: true})
			most := width
			if most == 0 {
				most = 100
			}
			if strings.ContainsRune(s, 0x1b) {
				t.Errorf("%s: an escape sequence in plain text", r.name)
			}
			if !strings.Contains(s, "not a check of strength") && width != 40 {
				t.Errorf("%s: no disclaimer", r.name)
			}
			for l := range strings.SplitSeq(s, "\n") {
				if columns(l) > most {
					t.Errorf("%s at %d: a line of %d columns: %q", r.name, most, columns(l), l)
				}
				if strings.TrimRight(l, " ") != l {
					t.Errorf("%s: blanks at the end of %q", r.name, l)
				}
			}
		}
		if s := textOf(t, r.rep, TextOptions{Colour: true}); !strings.Contains(s, "\x1b[0m") {
			t.Errorf("%s: no colour", r.name)
		}
	}
}

func TestTextBudget(t *testing.T) {
	r := manyReport()
	s := textOf(t, r, TextOptions{})
	if n := strings.Count(s, "cause number"); n != mostFindings {
		t.Errorf("%d findings shown, want %d", n, mostFindings)
	}
	// 40 findings: 14 errors, 13 warnings, 13 notes; the first 12 are errors.
	if !strings.Contains(s, "+ 2 errors, 13 care points, 13 notes (--all)") {
		t.Errorf("the rest is not counted:\n%s", s)
	}
	if n := strings.Count(textOf(t, r, TextOptions{All: true}), "cause number"); n != 40 {
		t.Errorf("%d findings shown with All, want 40", n)
	}
}

func TestHeadings(t *testing.T) {
	for _, c := range []struct {
		rep  *check.Report
		want string
	}{
		{fineReport(), "FITS THIS SHOP"},
		{clipReport(), "FITS WITH CARE: 2 POINTS"},
		{plateReport(), "DOES NOT FIT THIS SHOP: edge distance on H1"},
		{noThicknessReport(), "CANNOT TELL YET: the thickness"},
		{openReport(), "CANNOT TELL YET: open outline"},
		{unreadableReport(), "CANNOT TELL YET: the drawing could not be read"},
	} {
		if got := drawingHeading(c.rep); got != c.want {
			t.Errorf("heading %q, want %q", got, c.want)
		}
	}
	if got := heading(check.WithCare, "", []check.Finding{{Severity: check.Warning}, {Severity: check.Note}}); got != "FITS WITH CARE: 1 POINT" {
		t.Errorf("heading %q", got)
	}
}

func TestLimitsInWords(t *testing.T) {
	got := limitLines(noThicknessReport().Parts[0], "mm")
	want := []string{
		"mild: fits from 3 to 16 mm; with care at 20 mm (punch at the upper strength 573.7 kN of 540 kN); does not fit at 25 mm (the shear takes 20 x 150)",
		"S355: fits from 3 to 16 mm; does not fit from 20 to 25 mm (the shear takes 20 x 150)",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func TestLengths(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		unit string
		want string
	}{
		{22, "mm", "22 mm"}, {22.25, "mm", "22.25 mm"}, {-0.001, "mm", "0 mm"}, {20.6375, "in", "13/16 in"}, {26.9875, "in", "1-1/16 in"},
		{25.4, "in", "1 in"}, {22, "in", "0.866 in"}, {0, "in", "0 in"}, {0.79375, "in", "1/32 in"}, {20.65, "in", "13/16 in"}, {20.66, "in", "0.813 in"},
	} {
		if got := lengthText(c.mm, c.unit); got != c.want {
			t.Errorf("lengthText(%v, %s) = %q, want %q", c.mm, c.unit, got, c.want)
		}
	}
}

func TestFoundNeverLooksLikeItsLimit(t *testing.T) {
	f := finding("web", check.Error, 26.3999, 26.4, "mm", "", "", "H1")
	if found, limit := foundNeeded(&f, "mm"); found != "26.3999 mm" || limit != "at least 26.4 mm" {
		t.Errorf("found %q, %q", found, limit)
	}
	f = finding("punch-force", check.Error, 540.04, 540, "kN", "", "", "H1")
	if found, limit := foundNeeded(&f, "mm"); found != "540.04 kN" || limit != "at most 540 kN" {
		t.Errorf("found %q, %q", found, limit)
	}
	f = finding("throat-reach", check.Warning, 247, 250, "mm", "", "", "H1")
	if _, limit := foundNeeded(&f, "mm"); limit != "limit 250 mm" {
		t.Errorf("a value on the good side of a limit needs no more than the limit's name, got %q", limit)
	}
	f = finding("web", check.Error, 25.39, 25.4, "mm", "", "", "H1")
	if found, limit := foundNeeded(&f, "in"); found == "1 in" || strings.HasSuffix(limit, found) {
		t.Errorf("found %q, %q", found, limit)
	}
}

func TestIDList(t *testing.T) {
	for want, ids := range map[string][]string{
		"H3, H1":             {"H3", "H1"},
		"H1-H4 (4)":          {"H4", "H1", "H2", "H3"},
		"H1, H2, H9-H11 (5)": {"H11", "H10", "H9", "H2", "H1"},
		"":                   nil,
	} {
		if got := idList(ids); got != want {
			t.Errorf("idList(%v) = %q, want %q", ids, got, want)
		}
	}
}

func TestEveryKindHasWords(t *testing.T) {
	n := 0
	for _, k := range features.Kinds() {
		for _, f := range []features.Feature{{Kind: k}, {Kind: k, DiameterMM: 22, SeatMM: 30, WidthMM: 10, LengthMM: 20, DepthMM: 5, RadiusMM: 4, Sides: 6, AcrossFlatsMM: 30, Long: [2]float64{5, 6}}} {
			for _, u := range []string{"mm", "in"} {
				if s := featureWords(&f, u); s == "" || strings.Contains(s, " 0 ") || strings.Contains(s, "Ø0 ") {
					t.Errorf("%s: %q", k, s)
				}
				n++
			}
		}
	}
	if n != 60 {
		t.Errorf("%d kinds tried", n)
	}
}

func TestSummary(t *testing.T) {
	var reps []*check.Report
	for _, r := range allReports() {
		reps = append(reps, r.rep)
	}
	var b bytes.Buffer
	if err := Summary(&b, reps); err != nil {
		t.Fatal(err)
	}
	golden(t, "summary.csv", b.Bytes())
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	column := func(name string) int {
		for i, c := range rows[0] {
			if c == name {
				return i
			}
		}
		t.Fatalf("no column %s", name)
		return -1
	}
	last := rows[len(rows)-1]
	if last[0] != "total" {
		t.Errorf("last row %v", last)
	}
	for _, r := range rows {
		for i, c := range r {
			if c != "" && strings.ContainsRune("=+-@", rune(c[0])) {
				t.Errorf("cell %q of column %s begins like a formula", c, rows[0][i])
			}
		}
	}
	for _, r := range rows[1 : len(rows)-1] {
		if r[0] == "BR-17.dxf" && (r[column("hits_total")] != "" || r[column("minutes_total")] != "" || r[column("thickness_mm")] != "" || r[column("kg_total")] != "") {
			t.Errorf("unknown numbers must be empty: %v", r)
		}
		// one piece takes 4 hits, 4 pieces are wanted
		if r[0] == "g7.dxf" && (r[column("hits_total")] != "16" || r[column("minutes_total")] != "12.2" || r[column("holes_each")] != "3 x Ø22, 1 x Ø26" || r[column("kg_total")] != "8.8") {
			t.Errorf("g7: %v", r)
		}
	}
	// 13 drawings, two of them without a part, one with two: 12 parts.
	if last[column("part")] != "12 parts" || !strings.Contains(last[column("first_reason")], "not counted: 4") {
		t.Errorf("totals: %v", last)
	}
}

func TestQuestions(t *testing.T) {
	var reps []*check.Report
	for _, r := range allReports() {
		reps = append(reps, r.rep)
	}
	var b bytes.Buffer
	if err := Questions(&b, reps); err != nil {
		t.Fatal(err)
	}
	golden(t, "questions.txt", b.Bytes())
	for _, shopWord := range []string{"north bay", "south bay", "Alder", "rack", "kN"} {
		if strings.Contains(b.String(), shopWord) {
			t.Errorf("shop data %q in\n%s", shopWord, b.String())
		}
	}
}

func TestToolWithDie(t *testing.T) {
	for _, c := range [][3]string{{"Ø22", "Ø24.2", "Ø22/24.2"}, {"Ø22", "die Ø23.2", "Ø22/23.2"}, {"slot 18 x 36", "die slot 18.8 x 36.8", "slot 18 x 36/18.8 x 36.8"},
		{"", "V 63 mm", "die V 63 mm"}, {"80 x 60", "", "80 x 60"}, {"", "", ""}} {
		if got := toolText(c[0], c[1]); got != c[2] {
			t.Errorf("toolText(%q, %q) = %q, want %q", c[0], c[1], got, c[2])
		}
	}
}

func TestCellsAreGuarded(t *testing.T) {
	for in, want := range map[string]string{"=1+1": "'=1+1", "+x": "'+x", "-x": "'-x", "@x": "'@x", " =x": "' =x", "a=b": "a=b", "": "", "\t=x": "' =x", "x\r\ny": "x  y"} {
		if got := guardCell(in); got != want {
			t.Errorf("guardCell(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestQuestionsLeaveTheShopOut(t *testing.T) {
	r := openReport()
	r.Findings = append(r.Findings, check.Finding{Rule: "tool", Severity: check.Warning, Count: 1, Who: "shop", Message: "north bay lacks the punch"},
		check.Finding{Rule: "tool", Severity: check.Warning, Count: 1, Who: "buy", Message: "the rack lacks it"},
		check.Finding{Rule: "duplicate-lines", Severity: check.Note, Count: 3, Who: "customer", Message: "a note asks nothing"},
		check.Finding{Rule: "line-unexplained", Severity: check.Warning, CannotTell: true, Count: 1, Who: "customer", HasAt: true, At: pt(10, 20)})
	var b bytes.Buffer
	if err := Questions(&b, []*check.Report{r, r}); err != nil {
		t.Fatal(err)
	}
	for _, no := range []string{"north bay", "rack", "asks nothing"} {
		if strings.Contains(strings.ToLower(b.String()), no) {
			t.Errorf("%q in\n%s", no, b.String())
		}
	}
	if !strings.Contains(b.String(), "What is the line near (10, 20): a bend, a cut, or a mark?") {
		t.Errorf("no question about the line in\n%s", b.String())
	}
	b.Reset()
	if err := Questions(&b, []*check.Report{fineReport()}); err != nil || b.String() != "No open questions.\n" {
		t.Errorf("%q, %v", b.String(), err)
	}
}

func TestQuestionsOfManyPartsAreAskedOnce(t *testing.T) {
	r := &check.Report{Drawing: "nest.dxf"}
	for _, name := range []string{"a-1", "a-2", "a-3", "a-4"} {
		p := noThicknessReport().Parts[0]
		p.Part.Name = name
		p.Questions = []string{"What is the thickness of " + name + "?"}
		if name != "a-2" && name != "a-4" {
			p.Questions = append(p.Questions, "Is H1 of "+name+" tapped?")
		}
		r.Parts = append(r.Parts, p)
	}
	got := strings.Join(drawingQuestions(r), "\n")
	if want := "What is the thickness of each of the 4 parts?\nIs H1 of a-1 and a-3 tapped?"; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestQuantityAsDrawnIsNotAskedFor(t *testing.T) {
	r := fineReport()
	r.Parts[0].Job.Quantity, r.Parts[0].Job.QuantityFrom = 3, "drawn"
	r.Parts[0].Part.DrawnAt = make([]features.Placement, 3)
	if s := textOf(t, r, TextOptions{}); !strings.Contains(s, "3 drawn, quantity not stated") {
		t.Error(s)
	}
	if s := string(lineOf(t, r)); strings.Contains(s, `"quantity_from"`) || !strings.Contains(s, `"copies":3`) {
		t.Error(s)
	}
	if n := pieces(r.Parts[0]); n != 3 {
		t.Errorf("%d pieces, want 3", n)
	}
}

func TestQuestionsAlikeAreCounted(t *testing.T) {
	got := fewAlike([]string{"What is the line near (1, 2) of a-1?", "Which steel?", "What is the line near (3, 4.5) of a-1?", "What is the line near (-5, 6) of a-2?",
		"What is the line near (7, 8) of a-2?", "What is the line near (9, 9) of a-3?"})
	want := []string{"What is the line near (1, 2) of a-1?", "Which steel?", "What is the line near (3, 4.5) of a-1?", "What is the line near (-5, 6) of a-2? (And 2 more like this.)"}
	if strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("got %q", got)
	}
}

// What the reports say of an angle beside a flat part.
func TestAngleInWords(t *testing.T) {
	for _, c := range []struct {
		rep  *check.Report
		want []string
	}{
		{bracketReport(), []string{"bracket: angle L100x75x8, 200 mm long, 8 mm thick (text)", "leg a 100 mm, leg b 75 mm; EN 10056-1, 10.6 kg/m; shown by two views; hand not told by the drawing",
			"holes in leg a 2 x Ø22, in leg b 2 x Ø18", "H1 (leg a, 55 mm from the heel, 50 mm from the left end) edge distance", "H3 (leg b, 25 mm from the heel, 60 mm from the right end) punch force"}},
		{postReport(), []string{"L75x75x8, 3000 mm long", "(leg b, 45 mm from the heel, 60 mm from the upper end)"}},
		{undrawnReport(), []string{"one view, leg b not drawn: taken as plain", "in leg b none"}},
	} {
		text := strings.Join(strings.Fields(textOf(t, c.rep, TextOptions{Width: 100})), " ")
		for _, w := range c.want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: no %q in\n%s", c.rep.Drawing, w, text)
			}
		}
	}
	rep := bracketReport()
	rep.Readings = []check.Reading{{Unit: "mm", MM: 1, Parts: rep.Parts}}
	if text := strings.Join(strings.Fields(textOf(t, rep, TextOptions{})), " "); !strings.Contains(text, "read in mm: angle L100x75x8, 200 mm long, 1 error, 1 care point") {
		t.Errorf("a reading of an angle: %s", text)
	}
	var b bytes.Buffer
	if err := Summary(&b, []*check.Report{bracketReport(), plateReport()}); err != nil {
		t.Fatal(err)
	}
	for _, w := range []string{"bracket.dxf,bracket,4,8,S275,", ",a: 2 x Ø22; b: 2 x Ø18,", ",angle,L100x75x8,200\r\n", ",flat,,\r\n"} {
		if !strings.Contains(b.String(), w) {
			t.Errorf("no %q in\n%s", w, b.String())
		}
	}
}
