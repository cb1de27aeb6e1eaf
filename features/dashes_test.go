package features_test

import (
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// dashed draws a line as pieces: dash, gap, dash, gap ... from the list, the
// last one cut off at the end.
func (p stylus) dashed(x1, y1, x2, y2 float64, pattern ...float64) {
	l := math.Sqrt((x2-x1)*(x2-x1) + (y2-y1)*(y2-y1))
	dx, dy := (x2-x1)/l, (y2-y1)/l
	at := 0.0
	for i := 0; at < l-0.5; i++ {
		n := pattern[i%len(pattern)]
		if i%2 == 0 {
			to := min(at+n, l)
			p.line(x1+at*dx, y1+at*dy, x1+to*dx, y1+to*dy)
		}
		at += n
	}
}

// TestDashesAsLines: lines drawn dash by dash are no openings and no loose
// lines; patterns are those of ISO 128 hidden and centre lines, from memory.
func TestDashesAsLines(t *testing.T) {
	// Equal dashes in the metal are slits as well as a hidden line: that is said.
	stays(t, "hidden line", func(p stylus) { p.dashed(20, 70, 120, 70, 6, 3) })
	asWithout(t, "hidden line from hole to hole", "", 0, func(p stylus) { p.dashed(51, 100, 149, 100, 6, 2) })
	asWithout(t, "hidden line across a hole", "", 0, func(p stylus) { p.dashed(16, 104, 120, 104, 6, 3) })
	asWithout(t, "hidden line past the edge", "", 0, func(p stylus) { p.dashed(-20, 70, 230, 70, 4, 2) })
	asWithout(t, "centre line", "", 0, func(p stylus) { p.dashed(-11, 100, 211, 100, 12, 3, 3, 3) })
	asWithout(t, "centre line slanted", "", 0, func(p stylus) { p.dashed(10, 20, 190, 128, 15, 2, 2, 2) })
	// From edge to edge: a bend, told as a guess.
	for _, p := range moves() {
		p.b = dxftest.New(map[bool]dxftest.Unit{true: dxftest.MM, false: dxftest.Inch}[p.k == 1])
		p.basePlate()
		p.dashed(100, 0, 100, 140, 8, 4)
		s := build(t, p.b)
		q := onePart(t, s)
		bends := kinds(q, features.Bend)
		if d := doubtOf(q, "maybe-bend"); len(bends) != 1 || !close(bends[0].LengthMM, 140, 1e-6) || d == nil || d.Grave {
			t.Errorf("%s", describe(s))
		}
	}
	// Two angles below each other on one sheet: the dashes of four views are no
	// rows of slits, as outlines stand between them; four rows in one plate are.
	sheet := func(plates bool) *dxftest.Builder {
		b := dxftest.New(dxftest.MM)
		if plates {
			b.Polyline(true, dxftest.Rect(0, 0, 900, 270)...)
		}
		for i := range 4 {
			y := 70 * float64(i)
			if !plates {
				b.Polyline(true, dxftest.Rect(0, y, 900, 50)...)
			}
			off := 5.0
			if i%2 == 0 {
				off = 45
			}
			stylus{b: b, k: 1}.dashed(0, y+off, 900, y+off, 7, 3.2)
		}
		return b
	}
	// 900 by 7 and 3.2: 89 dashes, the last one cut off.
	if s := build(t, sheet(false)); ignored(s, "dash of a line") != 4*89 || len(s.Loose) > 0 {
		t.Errorf("%d dashes taken\n%s", ignored(s, "dash of a line"), describe(s))
	}
	if s := build(t, sheet(true)); ignored(s, "dash of a line") != 0 {
		t.Errorf("rows of slits in one plate passed over\n%s", describe(s))
	}
	// A circle of dashes may be an opening.
	for _, p := range moves() {
		p.b = dxftest.New(map[bool]dxftest.Unit{true: dxftest.MM, false: dxftest.Inch}[p.k == 1])
		p.basePlate()
		x, y := p.at(100, 70)
		for i := range 20 {
			p.b.Arc(x, y, 15*p.k, float64(i)*18, float64(i)*18+12)
		}
		s := build(t, p.b)
		if q := onePart(t, s); len(q.Holes) != 4 || !graveDoubt(q, "maybe-opening") {
			t.Errorf("%s", describe(s))
		}
	}
}

// TestNoDashes: few pieces, uneven gaps, joints left by the cutter, and slits in
// rows are not dashes.
func TestNoDashes(t *testing.T) {
	stays(t, "three", func(p stylus) { p.dashed(20, 70, 60, 70, 10, 5) })
	stays(t, "uneven gaps", func(p stylus) {
		for _, x := range []float64{20, 35, 52, 80, 95} {
			p.line(x, 70, x+10, 70)
		}
	})
	stays(t, "rows of slits", func(p stylus) {
		for i := range 5 {
			p.dashed(20, 60+4*float64(i), 180, 60+4*float64(i), 20, 8)
		}
	})
	stays(t, "joints", func(p stylus) {
		for x := 20.0; x < 180; x += 21 {
			p.line(x, 70, x+20, 70)
		}
	})
	// An outline with joints of a millimetre in it is an open outline.
	b := dxftest.New(dxftest.MM)
	p := stylus{b: b, k: 1}
	for _, s := range [][4]float64{{0, 0, 200, 0}, {200, 0, 200, 100}, {200, 100, 0, 100}, {0, 100, 0, 0}} {
		p.dashed(s[0], s[1], s[2], s[3], 24, 1)
	}
	if s := build(t, b); faultOf(s, "no-part") == nil || len(s.Loose) == 0 {
		t.Errorf("%s", describe(s))
	}
}

// hatch draws parallel lines at an angle within a rectangle.
func (p stylus) hatch(x0, y0, x1, y1, spacing, angleDeg float64) {
	s, c := math.Sincos(angleDeg * math.Pi / 180)
	cx, cy := (x0+x1)/2, (y0+y1)/2
	for i := -200; i <= 200; i++ {
		// The line through the offset point along (c, s), clipped by the box.
		ox, oy := cx-s*spacing*(float64(i)+0.37), cy+c*spacing*(float64(i)+0.37)
		lo, hi := math.Inf(-1), math.Inf(1)
		for _, w := range [][3]float64{{c, x0 - ox, x1 - ox}, {s, y0 - oy, y1 - oy}} {
			if math.Abs(w[0]) < 1e-12 {
				if w[1] > 0 || w[2] < 0 {
					hi = math.Inf(-1)
				}
				continue
			}
			a, z := w[1]/w[0], w[2]/w[0]
			lo, hi = math.Max(lo, math.Min(a, z)), math.Min(hi, math.Max(a, z))
		}
		if hi-lo > 0.5 {
			p.line(ox+lo*c, oy+lo*s, ox+hi*c, oy+hi*s)
		}
	}
}

// TestHatchInPieces: lines of an exploded hatch are left out with a note.
func TestHatchInPieces(t *testing.T) {
	for _, p := range moves() {
		for _, angle := range []float64{45, -30} {
			for _, spacing := range []float64{2, 5, 20} {
				p.b = dxftest.New(map[bool]dxftest.Unit{true: dxftest.MM, false: dxftest.Inch}[p.k == 1])
				p.poly(true, 0, 0, 200, 0, 200, 140, 0, 140)
				p.hatch(0, 0, 200, 140, spacing, angle)
				s := build(t, p.b)
				if q := onePart(t, s); len(q.Holes) != 0 || len(kinds(q, features.Bend)) != 0 || !hasNote(s, "hatch-lines") || ignored(s, "hatch line") < 6 {
					t.Errorf("%g at %g: %s", spacing, angle, describe(s))
				}
				clean(t, s)
			}
		}
	}
	// Square to the edge it takes many close lines.
	for _, c := range []struct {
		spacing float64
		gone    bool
	}{{2, true}, {5.9, true}, {6.1, false}, {40, false}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 140)...)
		stylus{b: b, k: 1}.hatch(0, 0, 200, 140, c.spacing, 90)
		s := build(t, b)
		if p := onePart(t, s); (len(p.Doubts) == 0) != c.gone {
			t.Errorf("%g: %s", c.spacing, describe(s))
		}
	}
	// Slanted pieces of one bar are no hatching.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 600, 50)...)
	for i := range 8 {
		b.Line(60+60*float64(i), 0, 110+60*float64(i), 50)
	}
	if s := build(t, b); hasNote(s, "hatch-lines") {
		t.Errorf("%s", describe(s))
	}
}
