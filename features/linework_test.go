package features_test

import (
	"fmt"
	"math"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// stylus draws through a turn, a mirror and a scale, so that one test drawing
// stands for many.
type stylus struct {
	b      *dxftest.Builder
	angle  float64
	mirror bool
	k      float64
}

func (p stylus) at(x, y float64) (float64, float64) {
	if p.mirror {
		x = -x
	}
	s, c := math.Sincos(p.angle * math.Pi / 180)
	return p.k * (x*c - y*s), p.k * (x*s + y*c)
}

func (p stylus) line(x1, y1, x2, y2 float64) {
	a, b := p.at(x1, y1)
	c, d := p.at(x2, y2)
	p.b.Line(a, b, c, d)
}

func (p stylus) circle(x, y, r float64) {
	a, b := p.at(x, y)
	p.b.Circle(a, b, r*p.k)
}

func (p stylus) poly(closed bool, xy ...float64) {
	var v []dxftest.V
	for i := 0; i+1 < len(xy); i += 2 {
		x, y := p.at(xy[i], xy[i+1])
		v = append(v, dxftest.V{X: x, Y: y})
	}
	p.b.Polyline(closed, v...)
}

// solid draws a filled triangle.
func (p stylus) solid(xy ...float64) {
	type P = dxftest.Pair
	var pairs []dxftest.Pair
	for i := range 4 {
		n := min(i, 2)
		x, y := p.at(xy[2*n], xy[2*n+1])
		pairs = append(pairs, P{Code: 10 + i, Value: x}, P{Code: 20 + i, Value: y}, P{Code: 30 + i, Value: 0.0})
	}
	p.b.Raw("SOLID", "AcDbTrace", pairs...)
}

func (p stylus) text(x, y, height float64, text string) {
	a, b := p.at(x, y)
	strokeText(p.b, a, b, height*p.k, p.angle, text)
}

// basePlate is a plate of 200 x 140 mm from lines with four holes.
func (p stylus) basePlate() {
	for i, c := range [][2]float64{{0, 0}, {200, 0}, {200, 140}, {0, 140}} {
		n := [][2]float64{{200, 0}, {200, 140}, {0, 140}, {0, 0}}[i]
		p.line(c[0], c[1], n[0], n[1])
	}
	p.circle(40, 100, 11)
	p.circle(160, 100, 11)
	p.circle(40, 40, 7)
	p.circle(160, 40, 7)
}

// moves are the ways that test drawings are drawn.
func moves() []stylus {
	return []stylus{{k: 1}, {k: 1, angle: 90}, {k: 1, angle: 37}, {k: 1, mirror: true}, {k: 1 / 25.4, angle: 180}, {k: 1 / 25.4, angle: -12, mirror: true}}
}

// asWithout draws the plate with more lines, in every way, and fails unless it
// reads as the plate without them, with nothing doubted; what is the kind in
// the sheet's list of what was left out, "" for none.
func asWithout(t *testing.T, name, what string, count int, draw func(p stylus)) {
	t.Helper()
	for _, p := range moves() {
		unit := dxftest.MM
		if p.k != 1 {
			unit = dxftest.Inch
		}
		p.b = dxftest.New(unit)
		p.basePlate()
		want := sizesOf(onePart(t, build(t, p.b)))
		p.b = dxftest.New(unit)
		p.basePlate()
		draw(p)
		s := build(t, p.b)
		label := fmt.Sprintf("%s turned %g mirrored %v scale %.3g", name, p.angle, p.mirror, p.k)
		if len(s.Parts) != 1 || sizesOf(&s.Parts[0]) != want {
			t.Errorf("%s: %s", label, describe(s))
			return
		}
		doubts := len(s.Faults) + len(s.Loose) + len(s.Parts[0].Doubts)
		if got := ignored(s, what); what != "" && got != count && count > 0 || doubts > 0 || !s.Parts[0].Clean {
			t.Errorf("%s: %s", label, describe(s))
			return
		}
	}
}

// stays draws the plate with more lines and fails if they were explained away:
// some doubt or fault must name them.
func stays(t *testing.T, name string, draw func(p stylus)) {
	t.Helper()
	for _, p := range moves() {
		unit := dxftest.MM
		if p.k != 1 {
			unit = dxftest.Inch
		}
		p.b = dxftest.New(unit)
		p.basePlate()
		draw(p)
		s := build(t, p.b)
		grave := len(s.Parts) != 1 || len(s.Faults) > 0
		for i := range s.Parts {
			for _, d := range s.Parts[i].Doubts {
				grave = grave || d.Grave
			}
		}
		if !grave {
			t.Errorf("%s turned %g mirrored %v: %s", name, p.angle, p.mirror, describe(s))
			return
		}
	}
}

// head draws one arrowhead of a kind with its tip at a place, pointing along a
// direction, and returns how many entities it is made of.
func (p stylus) head(kind string, x, y, dx, dy, l float64) int {
	nx, ny := -dy, dx
	bx, by := x-l*dx, y-l*dy
	w := l / 6
	switch kind {
	case "lines":
		p.line(x, y, bx+w*nx, by+w*ny)
		p.line(bx+w*nx, by+w*ny, bx-w*nx, by-w*ny)
		p.line(bx-w*nx, by-w*ny, x, y)
		return 3
	case "closed":
		p.poly(true, x, y, bx+w*nx, by+w*ny, bx-w*nx, by-w*ny)
		return 1
	case "open":
		p.line(x, y, bx+w*nx, by+w*ny)
		p.line(x, y, bx-w*nx, by-w*ny)
		return 2
	case "wide":
		p.line(x, y, bx+l*nx, by+l*ny)
		p.line(x, y, bx-l*nx, by-l*ny)
		return 2
	case "vee":
		p.poly(false, bx+w*nx, by+w*ny, x, y, bx-w*nx, by-w*ny)
		return 1
	case "solid":
		p.solid(x, y, bx+w*nx, by+w*ny, bx-w*nx, by-w*ny)
		return 0
	case "tick":
		p.line(x+(dx+nx)*l/2, y+(dy+ny)*l/2, x-(dx+nx)*l/2, y-(dy+ny)*l/2)
		return 1
	}
	panic(kind)
}

// level draws a dimension between two places of one height, its line at y and
// its extension lines from y0, a gap off the part, and returns its entities.
func (p stylus) level(kind string, x1, x2, y0, y float64, text string) int {
	dir := math.Copysign(1, y-y0)
	n := 3 // the dimension line and two extension lines
	p.line(x1, y0+1*dir, x1, y+2*dir)
	p.line(x2, y0+1*dir, x2, y+2*dir)
	switch kind {
	case "outside":
		// Heads from outside, with a stub each.
		p.line(x1-10, y, x1, y)
		p.line(x2, y, x2+10, y)
		return n + 1 + p.head("closed", x1, y, 1, 0, 3) + p.head("closed", x2, y, -1, 0, 3)
	case "broken":
		m := (x1 + x2) / 2
		p.line(x1, y, m-8, y)
		p.line(m+8, y, x2, y)
		p.text(m-6, y-1.5, 3, text)
		return -1
	case "solid to base", "closed to base":
		p.line(x1+3, y, x2-3, y)
		k := map[string]string{"solid to base": "solid", "closed to base": "closed"}[kind]
		return n + p.head(k, x1, y, -1, 0, 3) + p.head(k, x2, y, 1, 0, 3)
	case "past tick":
		p.line(x1-2, y, x2+2, y)
		return n + p.head("tick", x1, y, -1, 0, 3) + p.head("tick", x2, y, -1, 0, 3)
	}
	p.line(x1, y, x2, y)
	if text != "" {
		p.text((x1+x2)/2-4, y+1, 3, text)
		n = -100
	}
	if kind == "tick" {
		return n + p.head(kind, x1, y, 1, 0, 3) + p.head(kind, x2, y, 1, 0, 3)
	}
	return n + p.head(kind, x1, y, -1, 0, 3) + p.head(kind, x2, y, 1, 0, 3)
}

// TestExplodedDimensions: dimensions in pieces are left out and counted,
// whatever their heads.
func TestExplodedDimensions(t *testing.T) {
	for _, kind := range []string{"lines", "closed", "open", "wide", "vee", "solid", "tick", "outside", "solid to base", "closed to base", "past tick"} {
		n := stylus{b: dxftest.New(dxftest.MM), k: 1}.level(kind, 0, 200, 0, -15, "")
		asWithout(t, kind, "exploded dimension", n, func(p stylus) { p.level(kind, 0, 200, 0, -15, "") })
		// Stacked and in a chain, above the part too; extension lines across
		// the part from holes; with text.
		asWithout(t, kind+" more", "exploded dimension", 0, func(p stylus) {
			p.level(kind, 0, 200, 0, -30, "200")
			p.level(kind, 0, 40, 0, -15, "40")
			p.level(kind, 40, 160, 33, -15, "120")
			p.level(kind, 40, 160, 111, 160, "120")
		})
	}
	// Without a gap: the extension lines touch the corners.
	asWithout(t, "touching", "exploded dimension", 0, func(p stylus) {
		p.line(0, 0, 0, -20)
		p.line(200, 0, 200, -20)
		p.line(0, -18, 200, -18)
		p.head("closed", 0, -18, -1, 0, 3)
		p.head("closed", 200, -18, 1, 0, 3)
		p.text(90, -17, 3, "200")
	})
	// Inside the part, between two edges, and a leader to a hole.
	asWithout(t, "inside", "exploded dimension", 0, func(p stylus) {
		p.line(0, 70, 200, 70)
		p.head("lines", 0, 70, -1, 0, 3)
		p.head("lines", 200, 70, 1, 0, 3)
		p.text(90, 71, 3, "200")
	})
	asWithout(t, "leader", "exploded dimension", 0, func(p stylus) {
		s := 11 / math.Sqrt2
		d := 1 / math.Sqrt2
		p.line(160+s, 100+s, 160+s+40, 100+s+40)
		p.head("closed", 160+s, 100+s, -d, -d, 3)
		p.line(160+s+40, 100+s+40, 160+s+55, 100+s+40)
		p.text(160+s+41, 100+s+41, 3, "22")
	})
}

// TestNoExplodedDimension: a pointed part with a line along it, a vee notch with
// a line from its corner, lines with nothing on their ends.
func TestNoExplodedDimension(t *testing.T) {
	stays(t, "bare line", func(p stylus) { p.line(20, 70, 180, 70) })
	stays(t, "edge to edge", func(p stylus) { p.line(0, 70, 200, 70) })
	for _, line := range [][4]float64{{0, 20, 300, 20}, {10, 20, 310, 20}} {
		b := dxftest.New(dxftest.MM)
		// A bar with a point, and a line from the point along it.
		b.Line(0, 20, 20, 0).Line(20, 0, 300, 0).Line(300, 0, 300, 40).Line(300, 40, 20, 40).Line(20, 40, 0, 20)
		b.Line(line[0], line[1], min(line[2], 300), line[3])
		s := build(t, b)
		if p := onePart(t, s); !close(p.Box.Width(), 300, 1e-6) || len(p.Doubts) == 0 || ignored(s, "exploded dimension") != 0 {
			t.Errorf("%s", describe(s))
		}
	}
	// Small triangles are openings, though a line ends near one.
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Polyline(true, dxftest.V{X: 50, Y: 50}, dxftest.V{X: 59, Y: 47}, dxftest.V{X: 59, Y: 53})
	s := build(t, b)
	if p := onePart(t, s); len(p.Holes) != 1 {
		t.Errorf("%s", describe(s))
	}
	clean(t, s)
}

// TestCentreMarks: marks and lines through the centres of holes are left out.
func TestCentreMarks(t *testing.T) {
	holes := [][3]float64{{40, 100, 11}, {160, 100, 11}, {40, 40, 7}, {160, 40, 7}}
	each := func(draw func(p stylus, x, y, r float64)) func(p stylus) {
		return func(p stylus) {
			for _, h := range holes {
				draw(p, h[0], h[1], h[2])
			}
		}
	}
	cross := func(share float64) func(p stylus) {
		return each(func(p stylus, x, y, r float64) {
			p.line(x-r*share, y, x+r*share, y)
			p.line(x, y-r*share, x, y+r*share)
		})
	}
	asWithout(t, "long crosses", "centre line", 8, cross(1.3))
	asWithout(t, "short crosses", "centre line", 8, cross(0.3))
	asWithout(t, "arms", "centre line", 16, each(func(p stylus, x, y, r float64) {
		for _, d := range [][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			p.line(x, y, x+1.4*r*d[0], y+1.4*r*d[1])
		}
	}))
	for _, span := range [][2]float64{{0.8, 1.2}, {1.1, 1.5}, {0.5, 0.9}} {
		asWithout(t, "ticks", "centre line", 16, each(func(p stylus, x, y, r float64) {
			for _, d := range [][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
				p.line(x+span[0]*r*d[0], y+span[0]*r*d[1], x+span[1]*r*d[0], y+span[1]*r*d[1])
			}
		}))
	}
	asWithout(t, "mark in the middle and ticks", "centre line", 24, each(func(p stylus, x, y, r float64) {
		p.line(x-r/4, y, x+r/4, y)
		p.line(x, y-r/4, x, y+r/4)
		for _, d := range [][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} {
			p.line(x+0.6*r*d[0], y+0.6*r*d[1], x+1.4*r*d[0], y+1.4*r*d[1])
		}
	}))
	asWithout(t, "axes across the part", "centre line", 4, func(p stylus) {
		p.line(-8, 100, 208, 100)
		p.line(-8, 40, 208, 40)
		p.line(40, -8, 40, 148)
		p.line(160, -8, 160, 148)
	})
	asWithout(t, "middle of the part", "centre line", 2, func(p stylus) {
		p.line(-8, 70, 208, 70)
		p.line(100, -8, 100, 148)
	})
	// A pitch circle, with and without its own cross.
	for _, more := range []bool{false, true} {
		for _, p := range moves() {
			p.b = dxftest.New(map[bool]dxftest.Unit{true: dxftest.MM, false: dxftest.Inch}[p.k == 1])
			p.circle(0, 0, 100)
			p.circle(0, 0, 30)
			for i := range 6 {
				s, c := math.Sincos(float64(i) * math.Pi / 3)
				p.circle(70*c, 70*s, 7)
			}
			p.circle(0, 0, 70)
			if more {
				p.line(-110, 0, 110, 0)
				p.line(0, -110, 0, 110)
			}
			s := build(t, p.b)
			if q := onePart(t, s); len(q.Holes) != 7 || ignored(s, "centre line") != map[bool]int{false: 1, true: 3}[more] {
				t.Errorf("%s", describe(s))
			}
			clean(t, s)
		}
	}
}

// TestLoneCentreLine: one line through the centres of holes that runs past the
// part is a centre line, told as a guess; one that ends on the edges, or in the
// metal, stays unexplained.
func TestLoneCentreLine(t *testing.T) {
	for _, p := range moves() {
		p.b = dxftest.New(map[bool]dxftest.Unit{true: dxftest.MM, false: dxftest.Inch}[p.k == 1])
		p.basePlate()
		p.line(-8, 100, 208, 100)
		s := build(t, p.b)
		q := onePart(t, s)
		if d := doubtOf(q, "maybe-centre-line"); len(q.Doubts) != 1 || d == nil || d.Grave || ignored(s, "centre line") != 1 {
			t.Errorf("%s", describe(s))
		}
	}
	stays(t, "edge to edge", func(p stylus) { p.line(0, 100, 200, 100) })
	stays(t, "in the metal", func(p stylus) { p.line(5, 100, 195, 100) })
	stays(t, "two from edge to edge", func(p stylus) { p.line(0, 100, 200, 100); p.line(40, 0, 40, 140) })
	stays(t, "past the edge but through no hole", func(p stylus) { p.line(-8, 66, 208, 66) })
	stays(t, "one end past the edge", func(p stylus) { p.line(5, 100, 208, 100) })
}

// TestRelievedBends: bend lines from edge to edge that cross in a relief hole
// are bends, not centre lines, and never cut the blank in four.
func TestRelievedBends(t *testing.T) {
	b := dxftest.New(dxftest.MM)
	b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(100, 50, 5).Line(0, 50, 200, 50).Line(100, 0, 100, 100)
	s := build(t, b)
	if p := onePart(t, s); p.Copies() != 1 || !graveDoubt(p, "line-unexplained") {
		t.Errorf("%s", describe(s))
	}
}

// TestInterruptedBend: a bend line on both sides of a hole is one bend; on both
// sides of metal it is two.
func TestInterruptedBend(t *testing.T) {
	for _, c := range []struct {
		off  float64
		want int
	}{{0, 1}, {0.9, 1}, {1.2, 2}} {
		for _, p := range moves() {
			p.b = dxftest.New(map[bool]dxftest.Unit{true: dxftest.MM, false: dxftest.Inch}[p.k == 1])
			p.basePlate()
			p.circle(100, 70, 10)
			p.b.Layer("BEND")
			p.line(100, 0, 100, 60-c.off)
			p.line(100, 80+c.off, 100, 140)
			s := build(t, p.b)
			bends := kinds(onePart(t, s), features.Bend)
			if len(bends) != c.want || c.want == 1 && !close(bends[0].LengthMM, 140, 1e-6) {
				t.Errorf("%g off: %s", c.off, describe(s))
			}
		}
	}
}

// TestCrossedAtAHole: a line that stops in the metal is no centre line because a
// line from edge to edge, or a slanted one, crosses it at a hole.
func TestCrossedAtAHole(t *testing.T) {
	for _, other := range [][4]float64{{100, 0, 100, 100}, {70, 20, 130, 80}} {
		b := dxftest.New(dxftest.MM)
		b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(100, 50, 5).Line(10, 50, 190, 50).Line(other[0], other[1], other[2], other[3])
		s := build(t, b)
		if p := onePart(t, s); ignored(s, "centre line") != 0 || len(p.Doubts) < 2 {
			t.Errorf("%v: %s", other, describe(s))
		}
	}
}

// TestDimensionsOfASmallPart: a part no larger than the digits beside it is not
// taken for one of them.
func TestDimensionsOfASmallPart(t *testing.T) {
	for _, p := range moves() {
		p.b = dxftest.New(map[bool]dxftest.Unit{true: dxftest.MM, false: dxftest.Inch}[p.k == 1])
		p.poly(true, 0, 0, 10, 0, 10, 6.2, 0, 6.2)
		p.level("closed", 0, 10, 0, -4, "")
		s := build(t, p.b)
		if q := onePart(t, s); !close(q.AreaMM2, 62, 1e-6) {
			t.Errorf("%s", describe(s))
		}
	}
}
