package features_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
	"burrside/features/geom"
)

// reduced draws with all lengths multiplied; dimensions have the true size
// typed over, or by a factor of their style.
type reduced struct {
	b    *dxftest.Builder
	k    float64 // drawn over true
	x, y float64 // where the view stands, as drawn
}

func (r reduced) at(x, y float64) (float64, float64) { return r.x + x*r.k, r.y + y*r.k }

func (r reduced) rect(x, y, w, h float64) {
	x, y = r.at(x, y)
	r.b.Polyline(true, dxftest.Rect(x, y, w*r.k, h*r.k)...)
}

func (r reduced) circle(x, y, d float64) {
	x, y = r.at(x, y)
	r.b.Circle(x, y, d/2*r.k)
}

// dim is a dimension along x or y with its true size typed over it, 0 the one
// between its points.
func (r reduced) dim(x1, y1, x2, y2, says float64) {
	angle, real := 0.0, math.Abs(x2-x1)
	if x1 == x2 {
		angle, real = 90, math.Abs(y2-y1)
	}
	if says == 0 {
		says = real
	}
	x1, y1 = r.at(x1, y1)
	x2, y2 = r.at(x2, y2)
	r.b.Dimension(x1, y1, x2, y2, (x1+x2)/2, (y1+y2)/2, angle, real*r.k, fmt.Sprint(says))
}

// plate is 400 x 200 with four holes of 22, and three dimensions.
func (r reduced) plate() {
	r.rect(0, 0, 400, 200)
	for _, c := range [][2]float64{{50, 50}, {350, 50}, {50, 150}, {350, 150}} {
		r.circle(c[0], c[1], 22)
	}
}

func (r reduced) plateDims() {
	r.dim(0, 0, 400, 0, 0)
	r.dim(0, 0, 0, 200, 0)
	r.dim(0, 0, 50, 50, 0)
}

// holes lists the diameters of a part's round holes.
func holes(p *features.Part) []float64 {
	var out []float64
	for _, f := range p.Features {
		if f.Kind == features.RoundHole {
			out = append(out, math.Round(f.DiameterMM*1e4)/1e4)
		}
	}
	return out
}

func TestViewsAtAScale(t *testing.T) {
	for _, n := range []float64{2, 2.5, 5, 10, 20, 0.5, 0.2, 12, 48} {
		b := dxftest.New(dxftest.MM)
		r := reduced{b, 1 / n, 30, 40}
		r.plate()
		r.plateDims()
		p := onePart(t, build(t, b))
		if len(p.Doubts) > 0 || !close(p.Box.Width(), 400, 1e-6) || !close(p.Box.Height(), 200, 1e-6) || !slices.Equal(holes(p), []float64{22, 22, 22, 22}) {
			t.Errorf("factor %g: %g x %g, %v, %+v", n, p.Box.Width(), p.Box.Height(), holes(p), p.Doubts)
		}
		// The first hole is drawn at (50, 50)/n from the corner.
		for _, f := range p.Features {
			if f.ID == "H1" {
				want := geom.Point{X: 30 + 50/n, Y: 40 + 50/n}
				if got := p.OnDrawing(f.At); got.Dist(want) > 1e-6 {
					t.Errorf("factor %g: H1 on the drawing at %v, want %v", n, got, want)
				}
			}
		}
	}
}

// TestScaleWitnesses: what tells a scale and what does not.
func TestScaleWitnesses(t *testing.T) {
	for _, c := range []struct {
		name  string
		draw  func(r reduced)
		width float64 // of the part
		grave bool
	}{
		{"two dimensions", func(r reduced) { r.dim(0, 0, 400, 0, 0); r.dim(0, 0, 0, 200, 0) }, 400, false},
		{"one dimension", func(r reduced) { r.dim(0, 0, 400, 0, 0) }, 80, true},
		{"one dimension and a scale in words", func(r reduced) { r.dim(0, 0, 400, 0, 0); r.b.Text(0, 60, 3, "SCALE 1:5") }, 80, true},
		{"one is right at full size", func(r reduced) { r.dim(0, 0, 400, 0, 0); r.dim(0, 0, 0, 200, 0); r.dim(50, 50, 350, 50, 60) }, 80, true},
		{"two that disagree", func(r reduced) { r.dim(0, 0, 400, 0, 0); r.dim(0, 0, 0, 200, 400) }, 80, true},
		{"two that agree and one that does not", func(r reduced) { r.dim(0, 0, 400, 0, 0); r.dim(0, 0, 0, 200, 0); r.dim(50, 50, 350, 50, 310) }, 80, true},
		{"three that agree and one that does not", func(r reduced) { r.plateDims(); r.dim(50, 50, 350, 50, 310) }, 400, true},
		{"a pitch typed by count", func(r reduced) {
			r.plateDims()
			x, y := r.at(50, 50)
			r.b.Dimension(x, y, x+60, y, x+30, y, 0, 60, "2x150=300")
		}, 400, false},
		{"scale in words alone", func(r reduced) { r.b.Text(0, 60, 3, "SCALE 1:5") }, 80, false},
		{"no usual scale", func(r reduced) { r.dim(0, 0, 400, 0, 560); r.dim(0, 0, 0, 200, 280) }, 80, true},
	} {
		b := dxftest.New(dxftest.MM)
		r := reduced{b, 0.2, 0, 0}
		r.plate()
		c.draw(r)
		p := onePart(t, build(t, b))
		grave := slices.ContainsFunc(p.Doubts, func(d features.Doubt) bool { return d.Grave })
		if !close(p.Box.Width(), c.width, 1e-6) || grave != c.grave {
			t.Errorf("%s: %g wide, %+v", c.name, p.Box.Width(), p.Doubts)
		}
	}
}

// TestMixedScales: a plate at full size, another at 1:2 with its edge beside
// it, a third without dimensions that cannot be told.
func TestMixedScales(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	main := reduced{b, 1, 0, 0}
	main.plate()
	main.plateDims()
	second := reduced{b, 0.5, 500, 0}
	second.rect(0, 0, 300, 150)
	second.circle(60, 75, 26)
	second.dim(0, 0, 300, 0, 0)
	second.dim(0, 0, 0, 150, 0)
	second.rect(0, -60, 300, 12) // its edge, drawn 6 mm thick
	second.dim(0, -60, 0, -48, 0)
	s := build(t, b)
	if got := partLines(s, false); strings.Join(got, "; ") != "300 x 150, 1 holes; 400 x 200, 4 holes" {
		t.Errorf("%v\n%s", got, describe(s))
	}
	for i := range s.Parts {
		p := &s.Parts[i]
		if len(p.Doubts) > 0 {
			t.Errorf("%+v", p.Doubts)
		}
		if p.Box.Width() < 350 && (p.Thickness.MM != 12 || p.Scale.Ratio != "1:2" || p.DrawnAt[0].Origin.Dist(geom.Point{X: 500}) > 1e-6) {
			t.Errorf("%+v %+v %+v", p.Thickness, p.Scale, p.DrawnAt)
		}
		if p.Box.Width() > 350 && p.Scale.Factor != 0 {
			t.Errorf("the plate at full size: %+v", p.Scale)
		}
	}
	third := reduced{b, 1, 0, 300}
	third.rect(0, 0, 90, 70)
	s = build(t, b)
	for i := range s.Parts {
		p := &s.Parts[i]
		if d := doubtOf(p, "view-scale"); (d != nil && d.Grave) != close(p.Box.Width(), 90, 1e-6) {
			t.Errorf("%g wide: %+v", p.Box.Width(), p.Doubts)
		}
	}
}

// TestScaledCopies: the same plate at 1:5, at 1:2 turned and at full size is
// one part, three times.
func TestScaledCopies(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	for i, k := range []float64{0.2, 0.5, 1} {
		r := reduced{b, k, 600 * float64(i), 0}
		r.plate()
		r.plateDims()
	}
	p := onePart(t, build(t, b))
	if p.Copies() != 3 || !close(p.Box.Width(), 400, 1e-6) || len(p.Doubts) > 0 {
		t.Errorf("%d copies, %g wide, %+v", p.Copies(), p.Box.Width(), p.Doubts)
	}
}

// TestSheetPlottedSmall: all of the sheet stands in model space at 1:10 in a
// frame of A4; one plate has no dimensions, which the title block settles.
func TestSheetPlottedSmall(t *testing.T) {
	for _, stated := range []bool{true, false} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(-20, -60, 297, 210)...)
		p := &pen{b: b, n: 1}
		rows := titleRows()
		if stated {
			rows[0][3] = "1:10"
		}
		p.grid(-20, -60, []float64{25, 65, 25, 45}, 8, rows)
		r := reduced{b, 0.1, 0, 30}
		r.rect(0, 0, 1200, 600)
		r.circle(100, 100, 30)
		r.dim(0, 0, 1200, 0, 0)
		r.dim(0, 0, 0, 600, 0)
		other := reduced{b, 0.1, 150, 30}
		other.rect(0, 0, 800, 500)
		other.circle(100, 100, 30)
		s := build(t, b)
		width := 80.0
		if stated {
			width = 800
		}
		for i := range s.Parts {
			q := &s.Parts[i]
			wide := close(q.Box.Width(), 1200, 1e-6)
			if !wide && !close(q.Box.Width(), width, 1e-6) || !wide && (doubtOf(q, "view-scale") != nil) == stated || wide && len(q.Doubts) > 0 {
				t.Errorf("stated %v: %g wide, %+v", stated, q.Box.Width(), q.Doubts)
			}
		}
		if len(s.Parts) != 2 {
			t.Error(describe(s))
		}
	}
}
