package station

import (
	"math"
	"strings"
	"testing"

	"burrside/check/shop"
)

// The drill is named only where it makes the hole: Ø50 is over its 40 mm, and a
// drill that takes 10 mm of thickness does not go through 12.
func TestFixByWhatCanMakeTheHole(t *testing.T) {
	fixes := func(p *shop.Profile, d, th float64) string {
		u := Punch(p, &p.Machines[0], Piece{th, strong("304", 517, 517)}, round(d))
		var all []string
		for _, a := range u.Aspects {
			if (a.Rule == "punch-force" || a.Rule == "punch-ratio") && a.Grade > OK {
				all = append(all, a.Fix)
				if (a.Fix == "") != (a.FixBy == "") {
					t.Errorf("fix %q by %q", a.Fix, a.FixBy)
				}
			}
		}
		return strings.Join(all, "|")
	}
	p := yard()
	for _, c := range []struct {
		what  string
		d, th float64
		also  []shop.Process
		want  string
	}{
		{"force, within the drill", 39, 25, p.Also, "drill it"},
		{"force, over the drill's diameter", 50, 25, p.Also, ""},
		{"ratio, within the drill", 10, 12, p.Also, "drill it"},
		{"ratio, over the drill's thickness", 10, 12, []shop.Process{{Kind: "drill", Have: true, MaxDiameterMM: 40, MaxThicknessMM: 10}}, ""},
		{"thermal instead", 50, 25, append([]shop.Process{{Kind: "thermal", Have: true, MaxThicknessMM: 40}}, p.Also...), "cut it thermally"},
		{"thermal too thin", 50, 25, append([]shop.Process{{Kind: "thermal", Have: true, MaxThicknessMM: 20}}, p.Also...), ""},
		{"bought cutting", 50, 25, append([]shop.Process{{Kind: "bought-cutting", Have: true}}, p.Also...), "have the blank cut outside"},
	} {
		q := yard()
		q.Also = c.also
		if got := fixes(q, c.d, c.th); got != c.want {
			t.Errorf("%s: %q, want %q", c.what, got, c.want)
		}
	}
	// A slot is no work for a drill, whatever tool nibbles it.
	q := yard()
	q.Settings = map[string]map[string]float64{"slot-hits": {"nibble": 1, "nibble-thickness": 12}}
	q.Punches = []shop.Punch{{Name: "Ø10", Shape: Round, WidthMM: 10, Dies: []shop.Die{{WidthMM: 11}}}}
	for _, u := range slots(q, &q.Machines[0], Piece{12, mild()}, Hole{Shape: Slot, WidthMM: 10, LengthMM: 30}) {
		if a := aspect(t, u, "punch-ratio"); a.Grade != Fail || a.Fix != "" {
			t.Errorf("%+v", a)
		}
	}
}

// A message speaks of the hole that is drawn, in words that stand by themselves.
func TestRatioSpeaksOfTheHoleDrawn(t *testing.T) {
	p := yard()
	p.Buy = false
	p.Punches = []shop.Punch{{Name: "Ø9", Shape: Round, WidthMM: 9, Dies: []shop.Die{{WidthMM: 10}}}, {Name: "Ø11.8", Shape: Round, WidthMM: 11.8, Dies: []shop.Die{{WidthMM: 13}}}}
	a := aspect(t, Punch(p, &p.Machines[0], Piece{12, mild()}, round(8)), "punch-ratio")
	if want := "a hole Ø8 mm is smaller than the 12 mm that the metal is thick: the punch breaks"; a.Text != want || a.Got != 8 || a.Limit != 12 {
		t.Errorf("%+v", a)
	}
	a = aspect(t, Punch(p, &p.Machines[0], Piece{12, mild()}, round(12)), "punch-ratio")
	if a.Grade != Fail || !strings.HasPrefix(a.Text, "the punch Ø11.8 is smaller") || a.Got != 11.8 {
		t.Errorf("%+v", a)
	}
	a = aspect(t, Punch(p, &p.Machines[0], Piece{12, mild()}, Hole{Shape: Slot, WidthMM: 8, LengthMM: 40}), "punch-ratio")
	if !strings.HasPrefix(a.Text, "a slot 8 x 40 mm is smaller") || a.Got != 8 {
		t.Errorf("%+v", a)
	}
	p.Units = "in"
	a = aspect(t, Punch(p, &p.Machines[0], Piece{12.7, mild()}, round(9.525)), "punch-ratio")
	if strings.Contains(a.Text, "mm") {
		t.Errorf("%q", a.Text)
	}
	// What to do is said once, as the fix.
	u := Other(yard(), ProcessRequest{Kind: "drill", Why: "the punch breaks", DiameterMM: 8, ThicknessMM: 12})
	if a := u.Aspects[0]; a.Text != "the punch breaks" || a.Fix != "drill it" {
		t.Errorf("%+v", a)
	}
	if u := Other(yard(), ProcessRequest{Kind: "drill", DiameterMM: 8, ThicknessMM: 12}); u.Aspects[0].Text == "" {
		t.Error("no text without a reason")
	}
}

// Without an edge to gauge on, no number stands against a limit; near the
// throat's depth the limit is the one that was passed.
func TestReachNumbersOnlyInConflict(t *testing.T) {
	p := yard() // throat 300, margin 3
	a, _ := Reach(p, &p.Machines[0], 20, math.Inf(1))
	if a.Grade != Care || a.HasGot || a.HasLimit || a.Unit != "" || a.Fix == "" || !strings.Contains(a.Text, "mark") {
		t.Errorf("%+v", a)
	}
	for _, c := range [][2]float64{{298, 298}, {100, 298}, {100, 310}, {310, 310}} {
		if a, _ := Reach(p, &p.Machines[0], c[0], c[1]); a.Grade <= OK || !a.HasGot || a.Got <= a.Limit {
			t.Errorf("%v: %+v", c, a)
		}
	}
}

// OtherGrade is the grade of Other.
func TestOtherGrade(t *testing.T) {
	p := yard()
	seen := map[Grade]bool{}
	for _, kind := range []string{"drill", "grinder", "saw"} {
		for _, th := range []float64{0, 5, 12, 13} {
			for _, d := range []float64{0, 10, 40, 41} {
				q := ProcessRequest{Kind: kind, DiameterMM: d, RadiusMM: d / 2, ThicknessMM: th}
				g := OtherGrade(p, q)
				wantGrade(t, kind, g, Other(p, q).Grade())
				seen[g] = true
			}
		}
	}
	if len(seen) != 3 {
		t.Errorf("grades %v", seen)
	}
}
