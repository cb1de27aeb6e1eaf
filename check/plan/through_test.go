package plan

import (
	"math"
	"testing"

	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
	"pgregory.net/rapid"
)

// star is a random outline that may turn inward at every other corner: its points
// lie about a middle, each at its own distance. Every edge is taken for a straight
// cut, whatever stands in the way.
func star(rt *rapid.T) *features.Part {
	n := rapid.IntRange(3, 10).Draw(rt, "n")
	turn := rapid.Float64Range(0, 2*math.Pi).Draw(rt, "turn")
	var c []geom.Point
	for i := range n {
		a := turn + (float64(i)+rapid.Float64Range(0.1, 0.9).Draw(rt, "a"))*2*math.Pi/float64(n)
		r := rapid.Float64Range(20, 300).Draw(rt, "r")
		c = append(c, pt(500+r*math.Cos(a), 77+r*math.Sin(a)))
	}
	if geom.RingOf(c...).Area() < 200 {
		rt.Skip("hardly any metal")
	}
	return poly("star", c...)
}

// stairs is an outline of steps along the axes, as an L, a T or a comb has.
func stairs(rt *rapid.T) *features.Part {
	x := 0.0
	c := []geom.Point{pt(0, 0)}
	var top []geom.Point
	for range rapid.IntRange(1, 5).Draw(rt, "steps") {
		w, h := rapid.Float64Range(15, 200).Draw(rt, "w"), rapid.SampledFrom([]float64{40, 60, 80, 100, 150, 200}).Draw(rt, "h")
		top = append(top, pt(x, h), pt(x+w, h))
		x += w
	}
	c = append(c, pt(x, 0))
	for i := len(top) - 1; i >= 0; i-- {
		if last := c[len(c)-1]; last.Dist(top[i]) > 1e-9 {
			c = append(c, top[i])
		}
	}
	return poly("stairs", c...)
}

// Guillotine work: a shear cuts right across what is there, so that no planned cut
// may run through metal that stays. Whatever the outline, the line of every cut
// has the whole part on one side of it.
func TestNoCutThroughThePart(t *testing.T) {
	cuts, inward := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		part := star(rt)
		if rapid.Bool().Draw(rt, "steps") {
			part = stairs(rt)
		}
		p := yard()
		switch rapid.IntRange(0, 2).Draw(rt, "stock") {
		case 0:
			p.Stock = shop.Stock{}
		case 1:
			p.Stock = shop.Stock{Stated: true, Plates: [][2]float64{{500, 2000}}}
		}
		j := job(rapid.SampledFrom([]float64{3, 6, 12, 20}).Draw(rt, "t"))
		j.BlankGiven = rapid.Bool().Draw(rt, "given")
		pl := MakePlan(part, p, j)
		for _, c := range pl.Cuts {
			cuts++
			d := c.To.Sub(c.From).Unit()
			lo, hi := 0.0, 0.0
			for _, e := range part.Outline {
				h := e.From.Sub(c.From).Cross(d)
				lo, hi = min(lo, h), max(hi, h)
			}
			if min(-lo, hi) > onSide {
				rt.Fatalf("the %s %v - %v goes through the part, %.3f and %.3f beside it", c.What, c.From, c.To, -lo, hi)
			}
		}
		// An edge that the part stands beyond is never made by a shear.
		for i, mk := range pl.Makes {
			f := &part.Features[i]
			u := f.To.Sub(f.From).Unit()
			lo, hi := 0.0, 0.0
			for _, e := range part.Outline {
				h := e.From.Sub(f.From).Cross(u)
				lo, hi = min(lo, h), max(hi, h)
			}
			if min(-lo, hi) <= 1 {
				continue
			}
			inward++
			if mk.MadeBy == "shear" || mk.MadeBy == "stock" {
				rt.Fatalf("%s %v - %v is made by the %s, with the part on both sides of its line", f.ID, f.From, f.To, mk.MadeBy)
			}
		}
	})
	if cuts == 0 || inward == 0 {
		t.Errorf("%d cuts, %d edges that a shear cannot make", cuts, inward)
	}
}
