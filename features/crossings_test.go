package features_test

import (
	"fmt"
	"math/rand"
	"testing"

	"burrside/dxfread/dxftest"
)

type v2 = dxftest.V

// drawLoop draws a closed run of lines.
func drawLoop(b *dxftest.Builder, p ...v2) {
	for i := range p {
		q := p[(i+1)%len(p)]
		b.Line(p[i].X, p[i].Y, q.X, q.Y)
	}
}

// bowTie crosses itself at (100, 50).
func bowTie() []v2 { return []v2{{X: 0, Y: 0}, {X: 200, Y: 100}, {X: 200, Y: 0}, {X: 0, Y: 100}} }

// pinched touches itself at (100, 50).
func pinched() []v2 {
	return []v2{{X: 0, Y: 0}, {X: 100, Y: 50}, {X: 200, Y: 10}, {X: 210, Y: 120}, {X: 100, Y: 50}, {X: 0, Y: 110}}
}

// TestSelfCrossing: a contour that crosses or touches itself is a fault of every
// part that came of it, at the place, however it was drawn.
func TestSelfCrossing(t *testing.T) {
	for name, draw := range map[string]func(b *dxftest.Builder){
		"polyline":      func(b *dxftest.Builder) { b.Polyline(true, bowTie()...) },
		"lines":         func(b *dxftest.Builder) { drawLoop(b, bowTie()...) },
		"open polyline": func(b *dxftest.Builder) { b.Polyline(false, append(bowTie(), bowTie()[0])...) },
		"polyline with tails": func(b *dxftest.Builder) {
			b.Polyline(false, append(append([]v2{{X: -20, Y: 0}}, bowTie()...), v2{X: 0, Y: -10})...)
		},
		"lines with a tail": func(b *dxftest.Builder) { drawLoop(b, bowTie()...); b.Line(200, 0, 200, -30) },
		"two polylines": func(b *dxftest.Builder) {
			p := bowTie()
			b.Polyline(false, p[0], p[1], p[2]).Polyline(false, p[2], p[3], p[0])
		},
		"of unequal halves": func(b *dxftest.Builder) {
			b.Polyline(true, v2{X: 0, Y: 0}, v2{X: 300, Y: 150}, v2{X: 300, Y: -10}, v2{X: 50, Y: 75}, v2{X: 0, Y: 100})
		},
		"pinched polyline": func(b *dxftest.Builder) { b.Polyline(true, pinched()...) },
		"pinched lines":    func(b *dxftest.Builder) { drawLoop(b, pinched()...) },
		"opening": func(b *dxftest.Builder) {
			b.Polyline(true, dxftest.Rect(-50, -50, 300, 200)...).Polyline(true, bowTie()...)
		},
		"opening of lines": func(b *dxftest.Builder) {
			b.Polyline(true, dxftest.Rect(-50, -50, 300, 200)...)
			drawLoop(b, bowTie()...)
		},
		"small loop at a corner": func(b *dxftest.Builder) {
			b.Polyline(true, v2{X: 0, Y: 0}, v2{X: 210, Y: 0}, v2{X: 200, Y: -10}, v2{X: 200, Y: 100}, v2{X: 0, Y: 100})
		},
	} {
		b := dxftest.New(dxftest.MM)
		draw(b)
		// A part beside it is not concerned.
		b.Polyline(true, dxftest.Rect(500, 0, 90, 70)...)
		s := build(t, b)
		faulty := map[int]bool{}
		for _, f := range s.Faults {
			if f.Code != "self-crossing" {
				continue
			}
			faulty[f.Part] = true
			if f.At.X < 30 || f.At.X > 210 || f.At.Y < -1 || f.At.Y > 100 || f.Text == "" || f.Count < 1 {
				t.Errorf("%s: %+v", name, f)
			}
		}
		for i := range s.Parts {
			if beside := s.Parts[i].Box.Min.X > 400; faulty[i] == beside {
				t.Errorf("%s: part %d: faulty %v\n%s", name, i, faulty[i], describe(s))
			}
		}
		if hasNote(s, "self-crossing") || hasNote(s, "self-touching") {
			t.Errorf("%s: it is told as a note too", name)
		}
	}
}

// TestNoSelfCrossing: contours that touch or share a cut without one line in
// both are no crossing.
func TestNoSelfCrossing(t *testing.T) {
	for name, draw := range map[string]func(b *dxftest.Builder){
		"tip to tip": func(b *dxftest.Builder) {
			b.Polyline(true, v2{X: 0, Y: 0}, v2{X: 100, Y: 50}, v2{X: 0, Y: 110})
			b.Polyline(true, v2{X: 100, Y: 50}, v2{X: 200, Y: 10}, v2{X: 210, Y: 120})
		},
		"common cut": func(b *dxftest.Builder) {
			b.Polyline(true, dxftest.Rect(0, 0, 200, 200)...)
			b.Line(0, 100, 200, 100).Line(100, 0, 100, 200)
		},
		"overshot corners": func(b *dxftest.Builder) {
			b.Line(-5, 0, 205, 0).Line(200, -5, 200, 105).Line(205, 100, -5, 100).Line(0, 105, 0, -5)
		},
		"hole": func(b *dxftest.Builder) { b.Polyline(true, dxftest.Rect(0, 0, 200, 100)...).Circle(50, 50, 10) },
	} {
		b := dxftest.New(dxftest.MM)
		draw(b)
		if s := build(t, b); faultOf(s, "self-crossing") != nil || len(s.Parts) == 0 {
			t.Errorf("%s: %s", name, describe(s))
		}
	}
}

// TestCrossedStars: of random closed polylines that cross themselves no part is
// without a fault or a grave doubt, whether drawn as one entity or as lines.
func TestCrossedStars(t *testing.T) {
	n := 2000
	if testing.Short() {
		n = 200
	}
	crossed := 0
	for seed := range n {
		rng := rand.New(rand.NewSource(int64(seed)))
		p := make([]v2, 4+rng.Intn(6))
		for i := range p {
			p[i] = v2{X: 400 * rng.Float64(), Y: 300 * rng.Float64()}
		}
		if !crossesItself(p) {
			continue
		}
		crossed++
		b := dxftest.New(dxftest.MM)
		if seed%2 == 0 {
			b.Polyline(true, p...)
		} else {
			drawLoop(b, p...)
		}
		s := build(t, b)
		told := map[int]bool{}
		all := false
		for _, f := range s.Faults {
			told[f.Part] = true
			all = all || f.Part < 0
		}
		for i := range s.Parts {
			grave := false
			for _, d := range s.Parts[i].Doubts {
				grave = grave || d.Grave
			}
			if !all && !told[i] && !grave {
				t.Errorf("seed %d: part %d of %s is not doubted\n%s", seed, i, fmt.Sprint(p), describe(s))
			}
		}
		// A spike of no width is no crossing: its two sides are merged.
		if faultOf(s, "self-crossing") == nil && faultOf(s, "duplicate-lines") == nil {
			t.Errorf("seed %d: no fault\n%s", seed, describe(s))
		}
		if t.Failed() {
			return
		}
	}
	t.Logf("%d of %d rings cross themselves", crossed, n)
	if crossed < n/3 {
		t.Errorf("only %d rings cross themselves", crossed)
	}
}

// crossesItself tells whether two edges of a closed run that are not neighbours
// cross, by the signs of four triangles.
func crossesItself(p []v2) bool {
	n := len(p)
	side := func(a, b, c v2) bool { return (b.X-a.X)*(c.Y-a.Y)-(b.Y-a.Y)*(c.X-a.X) > 0 }
	for i := range n {
		for k := i + 2; k < n; k++ {
			if i == 0 && k == n-1 {
				continue
			}
			a, b, c, d := p[i], p[(i+1)%n], p[k], p[(k+1)%n]
			if side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b) {
				return true
			}
		}
	}
	return false
}
