package plan

import (
	"math"

	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// flange is the narrower of the two strips of flat metal beside bend i, square to
// it, mm: to the end of the metal, or to the next bend that runs along it. 0 where
// the bend has no length.
func (pl *planner) flange(i int) float64 {
	f := &pl.part.Features[i]
	d := f.To.Sub(f.From)
	if !(d.Len() > 1e-6) {
		return 0
	}
	u := d.Unit()
	n := u.Left()
	at := f.From.Dot(n)
	left, right := pl.prep.hull.Support(n)-at, pl.prep.hull.Support(n.Mul(-1))+at
	for k := range pl.part.Features {
		g := &pl.part.Features[k]
		if k == i || g.Kind != features.Bend || !alongside(f, g, u) {
			continue
		}
		for _, p := range []geom.Point{g.From, g.To} {
			switch h := p.Dot(n) - at; {
			case h > 1e-6:
				left = min(left, h)
			case h < -1e-6:
				right = min(right, -h)
			}
		}
	}
	return max(0, min(left, right))
}

// leastFlange is how narrow the metal gets beside bend i, square to it, over the
// middle four fifths of its length, mm: the ends are often cut away for corners.
// A bend's flange that tapers or is notched is narrower there than its extent.
// 0 where the bend does not lie in the metal.
func (pl *planner) leastFlange(i int) float64 {
	f := &pl.part.Features[i]
	d := f.To.Sub(f.From)
	if !(d.Len() > 1e-6) {
		return 0
	}
	n := d.Unit().Left()
	far := pl.part.Box.Width() + pl.part.Box.Height() + 1
	const samples = 33
	least := math.Inf(1)
	for k := range samples {
		q := f.From.Add(d.Mul(0.1 + 0.8*float64(k)/(samples-1)))
		if pl.part.Outline.Inside(q, 1e-6) != geom.In {
			continue // a hole or a cut ends the bend there
		}
		for _, side := range [2]geom.Point{n.Mul(far), n.Mul(-far)} {
			ray := geom.LineEdge(q, q.Add(side))
			for j := range pl.part.Outline {
				c := geom.Intersect(ray, pl.part.Outline[j], 1e-6)
				for _, p := range c.Points {
					least = min(least, p.Dist(q))
				}
			}
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// alongside tells that another bend runs beside one whose direction is u: within
// 45 degrees of it, and over some of its length.
func alongside(f, g *features.Feature, u geom.Point) bool {
	d := g.To.Sub(g.From)
	if !(d.Len() > 1e-6) || math.Abs(d.Unit().Cross(u)) > math.Sqrt2/2 {
		return false
	}
	a, z := f.From.Dot(u), f.To.Dot(u)
	p, q := g.From.Dot(u), g.To.Dot(u)
	return min(max(a, z), max(p, q))-max(min(a, z), min(p, q)) > 1e-6
}

// besideBends tells what is not judged of a part with several bends, on the first
// of them: a leg that is bent already may stand in the way of tool or ram, and
// without the way that each is bent nobody knows.
func (pl *planner) besideBends(i int) station.Aspect {
	n, first, ways := 0, -1, 0
	for k := range pl.part.Features {
		if f := &pl.part.Features[k]; f.Kind == features.Bend {
			if n++; first < 0 {
				first = k
			}
			if f.BentTo != "" {
				ways++
			}
		}
	}
	if n < 2 || i != first {
		return station.Aspect{}
	}
	a := station.Aspect{Rule: "bend", Grade: station.Care, FixBy: "shop",
		Text: "the order of the bends, and the room of bent legs under the tool, are not judged",
		Fix:  "try the order of the bends on paper first"}
	if ways < n {
		a.Text, a.FixBy, a.Fix = "the drawing does not state for every bend whether it goes up or down; "+a.Text, "drawing", "which bends go up, which down?"
	}
	return a
}
