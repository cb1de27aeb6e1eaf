package measure

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// sketch writes a note in short, for comparison.
func sketch(n DimNote) string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	list := func(name string, l []DimSize) {
		var s []string
		for _, v := range l {
			s = append(s, trimmed(v.MM, 4)+v.Unit)
		}
		if len(s) > 0 {
			add("%s%s", name, strings.Join(s, "|"))
		}
	}
	list("", n.Sizes)
	if n.Measured {
		add("<>")
	}
	list("other=", n.Other)
	list("total=", n.Total)
	list("pair=", n.Pair)
	if n.Count != 0 {
		add("n=%d", n.Count)
	}
	if n.HasTolerance {
		add("+%s-%s", trimmed(n.Plus, 4), trimmed(n.Minus, 4))
	}
	if n.Fit != "" {
		add("fit=%s", n.Fit)
	}
	for _, f := range []struct {
		on   bool
		name string
	}{{n.Radius, "R"}, {n.Diameter, "D"}, {n.About, "about"}, {n.Reference, "ref"}, {n.Typical, "typ"}, {n.Most, "most"}, {n.Least, "least"}, {n.Open, "open"}, {n.Unread, "unread"}} {
		if f.on {
			add("%s", f.name)
		}
	}
	return strings.Join(out, " ")
}

// The spellings are those of drafting practice in the languages named (common
// practice, no source). A text of a TEXT's or MTEXT's escapes comes here
// resolved: "Ø" for %%c, "+0.2/-0.1" for a stack.
func TestDimText(t *testing.T) {
	for _, c := range []struct{ habit, text, want string }{
		{"metric", "400", "400"}, {"metric", "400.0", "400"}, {"metric", "400,5", "400.5"}, {"metric", "400 mm", "400mm"}, {"metric", "400mm", "400mm"}, {"metric", "40 cm", "400cm"}, {"metric", "1.2 m", "1200m"},
		{"inch", "4\"", "101.6in"}, {"inch", "4-1/2\"", "114.3in"}, {"inch", "4 1/2", "114.3in"}, {"inch", "1/2", "12.7in"}, {"inch", "½", "12.7in"}, {"inch", "1'-6\"", "457.2ft"}, {"inch", "1'-6 1/2\"", "469.9ft"}, {"inch", "2'", "609.6ft"}, {"inch", "0'-8\"", "203.2ft"}, {"inch", "0'-8", "203.2ft"}, {"inch", ".375", "0.375"}, {"inch", "0.375", "0.375"}, {"inch", "4.250", "4.25|4250"}, {"inch", "4.2500", "4.25"},
		{"thousands by a space", "1 500", "1500"}, {"thousands by a space", "12 500", "12500"}, {"thousands by a space", "1 500,5", "1500.5"}, {"thousands by a space", "1 500 mm", "1500mm"}, {"thousands by a thin space", "1\u2009500", "1500"}, {"thousands by a hard space", "1\u00a0500", "1500"},
		{"thousands by a comma", "1,500", "1500|1.5"}, {"thousands by a comma", "1,500 mm", "1500mm|1.5mm"}, {"thousands by a comma", "1,234.5", "1234.5"}, {"inch with a comma", "1,500 in", "38.1in"},
		{"thousands by a point", "1.500", "1.5|1500"}, {"thousands by a point", "1.234,5", "1234.5"}, {"Swiss", "1'500", "1500"}, {"Swiss", "1’500.5", "1500.5"}, {"German", "12,5", "12.5"}, {"leading zero", "0,375", "0.375"},
		{"label", "L=400", "400"}, {"label", "L = 400", "400"}, {"label", "L400", "400"}, {"label", "B=50", "50"}, {"label", "LENGTH 400", "400"}, {"German", "Länge 400", "400"}, {"French", "Longueur = 400", "400"}, {"Italian", "Lunghezza 400", "400"}, {"Spanish", "largo 400", "400"}, {"Dutch", "lengte 400", "400"}, {"Czech", "délka 400", "400"}, {"Polish", "długość 400", "400"}, {"Russian", "длина 400", "400"},
		{"typical", "TYP 400", "400 typ"}, {"typical", "400 TYP", "400 typ"}, {"typical", "400 TYP.", "400 typ"}, {"typical", "(TYP) 400", "400 typ"}, {"typical", "400 (TYP.)", "400 typ"}, {"typical", "50 TYP 4 PLACES", "50 n=4 typ"}, {"typical", "4X R10 TYP", "10 n=4 R typ"}, {"typical", "TYP. R10", "10 R typ"},
		{"about", "~400", "400 about"}, {"about", "≈400", "400 about"}, {"about", "ca. 400", "400 about"}, {"about", "CA 400", "400 about"}, {"about", "APPROX. 400", "400 about"}, {"French", "env. 400", "400 about"}, {"Italian", "circa 400", "400 about"}, {"Polish", "około 400", "400 about"}, {"Czech", "cca 400", "400 about"},
		{"reference", "(400)", "400 ref"}, {"reference", "[400]", "400 ref"}, {"reference", "400 REF", "400 ref"}, {"reference", "( 400 )", "400 ref"}, {"reference", "4X (50)", "50 n=4 ref"}, {"reference", "(4X 50)", "50 n=4 ref"}, {"reference", "(1 500)", "1500 ref"},
		{"bounds", "400 MAX", "400 most"}, {"bounds", "MAX. 400", "400 most"}, {"bounds", "MIN 10", "10 least"}, {"bounds", "≥10", "10 least"}, {"German", "mindestens 10", "10 least"},
		{"tolerance", "400 ±0.5", "400 +0.5-0.5"}, {"tolerance", "400±0,5", "400 +0.5-0.5"}, {"tolerance", "400 +-0.5", "400 +0.5-0.5"}, {"tolerance", "400 +/-0.5", "400 +0.5-0.5"}, {"tolerance", "400 + - 0.5", "400 +0-0.5"}, {"tolerance", "400-0.5", "400 +0-0.5"}, {"tolerance", "400 -0.5", "400 +0-0.5"}, {"tolerance", "400 -0,5", "400 +0-0.5"}, {"tolerance", "400 +0.5", "400 +0.5-0"}, {"tolerance", "400+0.2-0.1", "400 +0.2-0.1"}, {"tolerance", "400 +0.2/-0.1", "400 +0.2-0.1"}, {"tolerance", "400 +0.2 -0", "400 +0.2-0"}, {"tolerance", "400 +0.2 0", "400 +0.2-0"}, {"tolerance", "400 0/-0.5", "400 +0-0.5"}, {"tolerance", "400 0 -0.5", "400 +0-0.5"}, {"tolerance", "400 -0/+0.5", "400 +0.5-0"}, {"tolerance", "400.5/399.5", "400 +0.5-0.5"}, {"tolerance", "50 h9", "50 fit=h9"}, {"tolerance", "Ø20 H7", "20 fit=h7 D"}, {"tolerance", "20H7", "20 fit=h7"}, {"both above", "50 +0.3 +0.1", "50 +0.3--0.1"},
		{"round", "R10", "10 R"}, {"round", "R 10", "10 R"}, {"round", "4X R10", "10 n=4 R"}, {"round", "4xR10", "10 n=4 R"}, {"round", "R10 4X", "10 n=4 R"}, {"round", "R10 (4X)", "10 n=4 R"}, {"round", "Ø22", "22 D"}, {"round", "4X Ø22", "22 n=4 D"}, {"round", "4xØ22", "22 n=4 D"}, {"round", "22 DIA", "22 D"}, {"round", "SR5", "5 R"},
		{"spaces", "4X 50", "50 n=4"}, {"spaces", "4x50", "50 n=4"}, {"spaces", "4 x 50", "50 n=4"}, {"spaces", "4×50", "50 n=4"}, {"spaces", "4x50=200", "50 total=200 n=4"}, {"spaces", "4 x 50 = 200", "50 total=200 n=4"}, {"spaces", "4X50 (=200)", "50 total=200 n=4"}, {"spaces", "4 @ 50", "50 n=4"}, {"spaces", "4 SPA @ 50 = 200", "50 total=200 n=4"}, {"spaces", "4 SPACES AT 50", "50 n=4"}, {"inch", "3 SPA. @ 3\" = 9\"", "76.2in total=228.6in n=3"}, {"inch", "3 EQ SPA @ 3 1/2", "88.9in n=3"}, {"French", "4 à 50", "50 n=4"}, {"German", "4 Teilungen à 50", "50 n=4"}, {"Polish", "4 po 50", "50 n=4"}, {"pair", "100x10", "10 n=100"}, {"pair", "12.5x40", "40 pair=12.5"},
		{"measured", "<>", "<>"}, {"measured", "2X <>", "<> n=2"}, {"stacked tolerance", "<>0.01/0.02", "<> +0.01-0.02"}, {"stacked tolerance", "20 0.01/0.02", "20 +0.01-0.02"}, {"measured", "<> TYP", "<> typ"}, {"measured", "(<>)", "<> ref"}, {"measured", "<> ±0.1", "<> +0.1-0.1"}, {"measured", "Ø<> H7", "<> fit=h7 D"}, {"measured", "<>\n4 PLACES", "<> n=4"}, {"measured", "<> [15.75]", "<> other=15.75"},
		{"two units", "200 [7.87]", "200 other=7.87"}, {"two units", "7.87 [200]", "7.87 other=200"}, {"two units", "200 (7 7/8\")", "200 other=200.025in"}, {"two units", "200\n[7.874]", "200 other=7.874|7874"},
		{"chamfer", "2x45°", "2"}, {"chamfer", "5 x 45 DEG", "5"}, {"words", "400 O/A", "400"}, {"words", "400 OVERALL", "400"}, {"words", "50 C/C", "50"}, {"words", "50 CRS", "50"}, {"words", "400 INSIDE", "400"}, {"words", "= 400", "400"}, {"words", "400 SLOT", "400"},
		{"open", "VARIES", "open"}, {"open", "VAR.", "open"}, {"open", "A", "open"}, {"open", "L", "open"}, {"open", "L1", "open"}, {"open", "?", "open"}, {"open", "400 VARIES", "open"}, {"open", "400 LONG, VARIES", "400 open"}, {"open", "TBC", "open"},
		{"no size", "SEE NOTE", ""}, {"no size", "EQ", ""}, {"no size", "TYP", "typ"}, {"no size", "", ""}, {"no size", "REF", "ref"}, {"no size", "45°", ""},
		{"not understood", "SEE NOTE 4", "unread"}, {"not understood", "PL10", "unread"}, {"not understood", "M20", "unread"}, {"not understood", "400-500", "unread"}, {"not understood", "400 / 500", "unread"}, {"not understood", "DETAIL 3", "unread"}, {"not understood", "1,50,0", "unread"}, {"not understood", "0", "unread"}, {"not understood", "IPE200", "unread"}, {"not understood", "#5", "unread"},
	} {
		if got := sketch(DimText(c.text)); got != c.want {
			t.Errorf("%s: DimText(%q) = %q, want %q", c.habit, c.text, got, c.want)
		}
	}
}

// FuzzDimText: whatever is typed, sizes are positive and finite, and steps are
// not larger than sensible.
func FuzzDimText(f *testing.F) {
	for _, s := range []string{"400", "4x50=200", "1'-6 1/2\"", "400 +0.2/-0.1", "(4X <>)", "200 [7.87]", "~1 500,5", "R10 (4X)", "((((", "<><>", "+-±/", "1,1,1", "Ø\u2300½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n := DimText(text)
		for _, l := range [][]DimSize{n.Sizes, n.Other, n.Total, n.Pair} {
			for _, v := range l {
				if math.IsNaN(v.MM) || math.IsInf(v.MM, 0) || v.MM < 0 || !(v.Step > 0) || math.IsInf(v.Step, 0) {
					t.Fatalf("%q: %+v", text, v)
				}
			}
		}
		for _, v := range n.Sizes {
			if !(v.MM > 0) {
				t.Fatalf("%q: a size of nothing", text)
			}
		}
		if math.IsNaN(n.Plus) || math.IsNaN(n.Minus) || n.Plus < 0 || n.Count < 0 {
			t.Fatalf("%q: %+v", text, n)
		}
		if n.Unread && (len(n.Sizes) > 0 || n.Measured) {
			t.Fatalf("%q: unread and read", text)
		}
	})
}
