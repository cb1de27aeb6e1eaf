package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// TestLineLeaders: a plain line from a hole to its text is no cut, whatever it
// crosses on its way; a line that ends on an edge, or at no text, stays.
func TestLineLeaders(t *testing.T) {
	for _, c := range []struct {
		name   string
		taken  bool
		draw   func(p stylus)
		textAt [2]float64
		text   string
	}{
		{"from the rim to a text", true, func(p stylus) { p.line(40, 60, 70, 130) }, [2]float64{71, 131}, "2x Ø20"},
		{"from the centre to a text", true, func(p stylus) { p.line(40, 50, 70, 130) }, [2]float64{71, 131}, "2x Ø20"},
		{"with a landing", true, func(p stylus) { p.line(40, 60, 70, 130); p.line(70, 130, 82, 130) }, [2]float64{84, 129}, "2x Ø20"},
		{"within the plate", true, func(p stylus) { p.line(40, 60, 60, 80) }, [2]float64{61, 81}, "Ø20"},
		{"to no text", false, func(p stylus) { p.line(40, 60, 70, 130) }, [2]float64{150, 131}, "2x Ø20"},
		{"a slit to the edge, a text beside it", false, func(p stylus) { p.line(40, 60, 40, 100) }, [2]float64{42, 102}, "2x Ø20"},
		{"from the edge to a text", false, func(p stylus) { p.line(100, 0, 100, 60) }, [2]float64{101, 61}, "PL 10"},
		{"a slit from the other hole's rim", false, func(p stylus) { p.line(50, 50, 150, 50) }, [2]float64{100, 52}, "2x Ø20"},
	} {
		for _, k := range []float64{1, 1 / 25.4} {
			unit := dxftest.MM
			if k != 1 {
				unit = dxftest.Inch
			}
			b := dxftest.New(unit)
			p := stylus{b: b, k: k}
			p.poly(true, 0, 0, 200, 0, 200, 100, 0, 100)
			p.circle(40, 50, 10)
			p.circle(160, 50, 10)
			c.draw(p)
			x, y := p.at(c.textAt[0], c.textAt[1])
			b.Text(x, y, 4*k, c.text)
			s := build(t, b)
			if len(s.Parts) != 1 || len(s.Parts[0].Holes) < 2 {
				t.Fatalf("%s:\n%s", c.name, describe(s))
			}
			told := false
			for _, n := range s.Notes {
				told = told || n.Code == "leader"
			}
			grave := false
			for _, d := range s.Parts[0].Doubts {
				grave = grave || d.Grave
			}
			marks := 0
			for _, f := range s.Parts[0].Features {
				if f.Kind == features.Bend || f.Kind == features.Mark {
					marks++
				}
			}
			if told != c.taken || c.taken && (grave || marks > 0) || !c.taken && !grave && marks == 0 && !strings.Contains(describe(s), "stray") {
				t.Errorf("%s, scale %.3f: taken %v, grave %v:\n%s", c.name, k, told, grave, describe(s))
			}
		}
	}
}
