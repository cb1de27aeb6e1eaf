package join

import (
	"math"
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// TestTinyMisses: a plate with rounded corners and a round-ended notch whose
// every line and arc is off by up to so much, each by itself, as drawings
// written to few digits and traced by hand are, is one contour: nothing is cut
// off where an end runs past its partner along a tangent.
func TestTinyMisses(t *testing.T) {
	corner := func(x, y, from float64) geom.Edge {
		return geom.ArcAngles(geom.Point{X: x, Y: y}, 5, from*math.Pi/180, (from+90)*math.Pi/180)
	}
	whole := []geom.Edge{
		line(5, 0, 40, 0), line(40, 0, 40, 10), geom.ArcAngles(geom.Point{X: 50, Y: 10}, 10, 0, math.Pi), line(60, 10, 60, 0), line(60, 0, 95, 0),
		corner(95, 5, 270), line(100, 5, 100, 45), corner(95, 45, 0), line(95, 50, 5, 50), corner(5, 45, 90), line(0, 45, 0, 5), corner(5, 5, 180),
	}
	for _, off := range []float64{5e-4, 1e-3, 3e-3, 1e-2} {
		for seed := range uint64(50) {
			rnd := rand.New(rand.NewPCG(seed, 7))
			move := func(p geom.Point) geom.Point {
				return geom.Point{X: p.X + off*(2*rnd.Float64()-1), Y: p.Y + off*(2*rnd.Float64()-1)}
			}
			d := &drawing{}
			for _, e := range whole {
				if !e.IsArc() {
					d.loose(geom.LineEdge(move(e.From), move(e.To)))
					continue
				}
				c := move(e.Centre)
				by := c.Sub(e.Centre)
				d.loose(geom.ArcEdge(c, e.From.Add(by), e.To.Add(by), e.CCW))
			}
			r := d.join(t, Options{})
			if len(r.Contours) != 1 || len(r.Chains)+len(r.Dividers) != 0 {
				t.Errorf("off by %g, seed %d: %s", off, seed, text(r))
				continue
			}
			ring := r.Contours[0].Ring()
			// A rectangle less its corners, less the notch.
			want := 5000 - (4-math.Pi)*25 - 200 - math.Pi*50
			if got := ring.Area(); math.Abs(got-want) > 400*off {
				t.Errorf("off by %g, seed %d: area %.4f, drawn %.4f", off, seed, got, want)
			}
			if len(ring) > len(whole)+6 {
				t.Errorf("off by %g, seed %d: %d edges of %d", off, seed, len(ring), len(whole))
			}
		}
	}
}

// TestTinyKeepsJunctions: ends that touch an edge stay there, though another
// end that touches it lies near.
func TestTinyKeepsJunctions(t *testing.T) {
	d := (&drawing{}).loose(line(0, 0, 100, 0), line(100, 0, 100, 50), line(100, 50, 0, 50), line(0, 50, 0, 0),
		line(50, 0, 50, 50), line(50.03, 0, 70, 50))
	r := d.join(t, Options{})
	if len(r.Contours) != 1 || len(r.Dividers) != 2 {
		t.Errorf("%s", text(r))
	}
	for _, n := range r.Notes {
		if n.Code == "gap-closed" {
			t.Errorf("note %+v", n)
		}
	}
}
