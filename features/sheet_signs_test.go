package features_test

import (
	"math"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestStamps: a plate of 200 x 120 with a dimension, and two circles of 36 and 24
// about one centre beside it.
func TestStamps(t *testing.T) {
	along := func(word string, r float64) func(*dxftest.Builder) {
		return func(b *dxftest.Builder) {
			for i, c := range word {
				sin, cos := math.Sincos(3.6 - 0.26*float64(i))
				if c != ' ' {
					b.Raw("TEXT", "AcDbText", dxftest.Pair{Code: 10, Value: 300 + r*cos}, dxftest.Pair{Code: 20, Value: 60 + r*sin}, dxftest.Pair{Code: 30, Value: 0.0},
						dxftest.Pair{Code: 40, Value: 3.0}, dxftest.Pair{Code: 1, Value: string(c)}, dxftest.Pair{Code: 50, Value: (3.6-0.26*float64(i))*180/math.Pi - 90})
				}
			}
		}
	}
	inside := func(words ...string) func(*dxftest.Builder) {
		return func(b *dxftest.Builder) {
			for i, w := range words {
				b.Text(291, 61-5*float64(i), 3, w)
			}
		}
	}
	both := func(list ...func(*dxftest.Builder)) func(*dxftest.Builder) {
		return func(b *dxftest.Builder) {
			for _, f := range list {
				f(b)
			}
		}
	}
	for name, c := range map[string]struct {
		draw  func(*dxftest.Builder)
		taken bool
	}{
		"a word of the office":                {inside("CHECKED"), true},
		"two lines":                           {inside("ALDER FORD", "APPROVED"), true},
		"German":                              {inside("GEPRÜFT"), true},
		"French":                              {inside("APPROUVÉ"), true},
		"letters along the circle":            {along("ALDER FORD", 14), true},
		"a name of a part":                    {inside("WASHER"), false},
		"a mark":                              {inside("P4"), false},
		"a mark beside the word":              {both(inside("CHECKED"), func(b *dxftest.Builder) { b.Text(322, 60, 4, "P4") }), false},
		"a thickness":                         {both(inside("CHECKED"), func(b *dxftest.Builder) { b.Text(322, 60, 4, "t=6") }), false},
		"measured":                            {both(inside("CHECKED"), func(b *dxftest.Builder) { b.Dimension(282, 60, 318, 60, 300, 85, 0, 36, "") }), false},
		"letters that mark a circle of bolts": {along("ABC", 14), false},
		"nothing in it":                       {inside(), false},
	} {
		b := dxftest.New(dxftest.MM).Layer("PROFILE").Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Circle(40, 60, 9).Circle(160, 60, 9)
		b.Dimension(0, 120, 200, 120, 100, 135, 0, 200, "").Circle(300, 60, 18).Circle(300, 60, 12)
		c.draw(b)
		s := build(t, b)
		if taken := len(s.Parts) == 1; taken != c.taken || taken != saysSign(s, "stamp") || len(s.Parts) > 2 {
			t.Errorf("%s: taken %v\n%s", name, taken, describe(s))
		}
		if c.taken && len(s.Parts) == 1 && len(s.Parts[0].Doubts) > 0 {
			t.Errorf("%s: %+v", name, s.Parts[0].Doubts)
		}
	}
}

// saysSign tells whether a note names a sign that was taken out.
func saysSign(s *features.Sheet, what string) bool {
	for _, n := range s.Notes {
		if n.Code == "symbol-taken-out" && strings.Contains(n.Text, what) {
			return true
		}
	}
	return false
}

// TestCloudOrOpening: fourteen bulges in a plate of 300 x 200 and a circle in them.
func TestCloudOrOpening(t *testing.T) {
	for name, c := range map[string]struct {
		layer  string
		radius float64
		text   string
		taken  bool
	}{
		"a small hole":                          {"0", 9, "", true},
		"a large disc":                          {"0", 30, "", false},
		"a large circle, on a layer of its own": {"REVISION", 30, "", true},
		"on a layer for openings":               {"INNER CUT", 30, "", false},
		"a word beside the circle":              {"0", 30, "WAS 50", true},
		"a mark on the disc":                    {"0", 30, "P4", false},
	} {
		var ring []dxftest.V
		for i := range 14 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 7)
			ring = append(ring, dxftest.V{X: 150 + 50*cos, Y: 100 + 50*sin, Bulge: 0.5})
		}
		b := dxftest.New(dxftest.MM).Layer("0").Polyline(true, dxftest.Rect(0, 0, 300, 200)...).Circle(150, 105, c.radius)
		b.Layer(c.layer).Polyline(true, ring...)
		if c.text != "" {
			b.Layer("0").Text(140, 100, 5, c.text)
		}
		s := build(t, b)
		grave := len(s.Parts) > 0
		for i := range s.Parts {
			isSaid := false
			for _, d := range s.Parts[i].Doubts {
				isSaid = isSaid || d.Grave
			}
			grave = grave && isSaid
		}
		if saysSign(s, "cloud") != c.taken || grave == c.taken {
			t.Errorf("%s: grave doubts %v\n%s", name, grave, describe(s))
		}
	}
}

// TestTableOfTwoByTwo: a rectangle of 60 x 30 on a plate with a cross through its
// middle, on a drawing with a dimension and on one without.
func TestTableOfTwoByTwo(t *testing.T) {
	for name, c := range map[string]struct {
		layer   string
		drawing bool
		doubt   bool
	}{
		"drawn as the rectangle is":   {"PROFILE", true, true},
		"of a layer of its own":       {"AXES", true, false},
		"nothing but lines to cut by": {"PROFILE", false, false},
	} {
		b := dxftest.New(dxftest.MM).Layer("PROFILE").Polyline(true, dxftest.Rect(0, 0, 200, 120)...).Polyline(true, dxftest.Rect(70, 50, 60, 30)...)
		b.Layer(c.layer).Line(70, 65, 130, 65).Line(100, 50, 100, 80)
		if c.drawing {
			b.Layer("DIM").Dimension(0, 120, 200, 120, 100, 135, 0, 200, "")
		}
		p := onePart(t, build(t, b))
		if d := doubtOf(p, "line-unexplained"); (d != nil && d.Grave) != c.doubt {
			t.Errorf("%s: %+v", name, p.Doubts)
		}
	}
}
