package change

import (
	"math"
	"slices"

	"burrside/features"
	"burrside/features/geom"
)

// squareRad is how far off its direction an edge may run and still be
// lengthened along it: over a metre it is then 1 um off.
const squareRad = 1e-6

// stretch moves the side of the outline that faces along the unit vector n
// outward: everything beyond a line across the part goes with it, the straight
// edges over that line, which must run along n, grow longer. Holes stay. It is
// refused where a notch, a bend or a mark lies beyond the line, where the side
// itself is no straight edge square to n, and for angles.
func stretch(p *features.Part, n geom.Point, by float64) bool {
	if p.Angle != nil || !(by > 0) || len(p.Outline) < 3 || math.Abs(n.Len()-1) > 1e-9 {
		return false
	}
	if slices.ContainsFunc(p.Features, func(f features.Feature) bool { return f.CrossesOutline }) {
		return false // what its edge would become is not known
	}
	line, ok := stretchLine(p, n)
	if !ok {
		return false
	}
	d := n.Mul(by)
	beyond := func(q geom.Point) bool { return q.Dot(n) > line }
	touched, whole := make([]bool, len(p.Outline)), make([]bool, len(p.Outline))
	for i, e := range p.Outline {
		f, t := beyond(e.From), beyond(e.To)
		touched[i], whole[i] = f || t, f && t
		switch {
		case f && t:
			p.Outline[i] = e.Apply(geom.NewShift(d))
		case f:
			p.Outline[i] = geom.LineEdge(e.From.Add(d), e.To)
		case t:
			p.Outline[i] = geom.LineEdge(e.From, e.To.Add(d))
		}
	}
	for i := range p.Features {
		f := &p.Features[i]
		is := func(list []bool) func(int) bool {
			return func(k int) bool { return k >= 0 && k < len(list) && list[k] }
		}
		switch {
		case f.IsInside() || !slices.ContainsFunc(f.Edges, is(touched)):
		case !slices.ContainsFunc(f.Edges, func(k int) bool { return !is(whole)(k) }):
			if f.From != f.To {
				f.From, f.To = f.From.Add(d), f.To.Add(d)
			}
			f.At = f.At.Add(d)
		case f.Kind == features.StraightCut:
			refresh(p, f)
		default:
			return false // no other grows longer as it is
		}
	}
	return true
}

// stretchLine finds where, along n, an outline can be pulled apart: as far out
// as every edge over the line runs along n.
func stretchLine(p *features.Part, n geom.Point) (line float64, ok bool) {
	top := math.Inf(-1)
	for _, e := range p.Outline {
		top = max(top, e.From.Dot(n), e.Mid().Dot(n))
	}
	flat := false // the side is a straight edge square to n
	var levels []float64
	for _, e := range p.Outline {
		levels = append(levels, e.From.Dot(n))
		if !e.IsArc() && e.From.Dot(n) > top-1e-6 && e.To.Dot(n) > top-1e-6 && e.Length() > 1 {
			flat = true
		}
	}
	if !flat {
		return 0, false
	}
	slices.Sort(levels)
	for i := len(levels) - 1; i > 0; i-- {
		if levels[i]-levels[i-1] < 0.1 {
			continue
		}
		line = (levels[i] + levels[i-1]) / 2
		if pullsApart(p, n, line) {
			return line, !holdsBack(p, n, line)
		}
	}
	return 0, false
}

// pullsApart tells that every edge over a line runs straight along n.
func pullsApart(p *features.Part, n geom.Point, line float64) bool {
	for _, e := range p.Outline {
		f, t := e.From.Dot(n) > line, e.To.Dot(n) > line
		if f == t {
			if e.IsArc() && (e.Mid().Dot(n) > line) != f {
				return false
			}
			continue
		}
		if e.IsArc() || math.Abs(e.To.Sub(e.From).Unit().Cross(n)) > squareRad {
			return false
		}
	}
	return true
}

// holdsBack tells that something beyond the line may not move with the edge, or
// is of the part's shape: a notch, a bend, a mark.
func holdsBack(p *features.Part, n geom.Point, line float64) bool {
	for i := range p.Features {
		f := &p.Features[i]
		switch f.Kind {
		case features.Notch:
			for _, k := range f.Edges {
				if k < 0 || k >= len(p.Outline) || p.Outline[k].From.Dot(n) > line || p.Outline[k].To.Dot(n) > line {
					return true
				}
			}
		case features.Bend, features.Mark:
			return true
		case features.ArcCut:
			for _, k := range f.Edges {
				if k < 0 || k >= len(p.Outline) || p.Outline[k].Mid().Dot(n) > line {
					return true
				}
			}
		}
	}
	return false
}

// refresh works out a straight cut from its edges.
func refresh(p *features.Part, f *features.Feature) {
	if len(f.Edges) == 0 {
		return
	}
	for _, k := range f.Edges {
		if k < 0 || k >= len(p.Outline) {
			return
		}
	}
	first := p.Outline[f.Edges[0]]
	u := first.To.Sub(first.From).Unit()
	f.LengthMM = 0
	low, high := math.Inf(1), math.Inf(-1)
	for _, k := range f.Edges {
		e := p.Outline[k]
		f.LengthMM += e.Length()
		for _, q := range []geom.Point{e.From, e.To} {
			if v := q.Dot(u); v < low {
				low, f.From = v, q
			}
			if v := q.Dot(u); v > high {
				high, f.To = v, q
			}
		}
	}
	f.CutLengthMM = f.From.Dist(f.To)
	f.At = f.From.Add(f.To).Mul(0.5)
}

// resizeNotch gives a rectangular notch in an edge another width, about its
// middle, and depth. Only one with sharp corners whose three straight edges lie
// between two straight edges of one line is changed.
func resizeNotch(p *features.Part, i int, width, depth float64) bool {
	f := &p.Features[i]
	n := len(p.Outline)
	if f.Kind != features.Notch || f.Shape != features.NotchRectangular || f.CornerRadiusMM > 0.01 || f.Relief != "" || f.In != "" || len(f.Edges) != 3 || n < 7 ||
		p.Angle != nil || !(width > 0) || !(depth > 0) {
		return false
	}
	k, ok := run(f.Edges, n)
	if !ok {
		return false
	}
	at := func(j int) int { return ((k+j)%n + n) % n }
	before, after := at(-1), at(3)
	for j := -1; j <= 3; j++ {
		if p.Outline[at(j)].IsArc() {
			return false
		}
	}
	a, b := p.Outline[k].From, p.Outline[at(2)].To
	t := b.Sub(a).Unit()
	in := t.Left()
	if math.Abs(p.Outline[before].EndDir().Cross(t)) > squareRad || math.Abs(p.Outline[after].StartDir().Cross(t)) > squareRad {
		return false
	}
	mid := a.Add(b).Mul(0.5)
	a2, b2 := mid.Sub(t.Mul(width/2)), mid.Add(t.Mul(width/2))
	if a2.Sub(p.Outline[before].From).Dot(t) < 1 || p.Outline[after].To.Sub(b2).Dot(t) < 1 {
		return false // nothing of the edge would be left beside it
	}
	c, d := a2.Add(in.Mul(depth)), b2.Add(in.Mul(depth))
	p.Outline[before] = geom.LineEdge(p.Outline[before].From, a2)
	p.Outline[k] = geom.LineEdge(a2, c)
	p.Outline[at(1)] = geom.LineEdge(c, d)
	p.Outline[at(2)] = geom.LineEdge(d, b2)
	p.Outline[after] = geom.LineEdge(b2, p.Outline[after].To)
	if len(p.Outline.SelfCrossings(1e-6)) > 0 {
		return false
	}
	f.WidthMM, f.DepthMM = width, depth
	f.At = mid
	if f.Mouth[0].Dist(a) <= f.Mouth[0].Dist(b) {
		f.Mouth = [2]geom.Point{a2, b2}
	} else {
		f.Mouth = [2]geom.Point{b2, a2}
	}
	f.Ring = geom.RingOf(a2, c, d, b2).CCW()
	f.AreaMM2, f.PerimeterMM = width*depth, width+2*depth
	for j := range p.Features {
		g := &p.Features[j]
		if j != i && !g.IsInside() && (slices.Contains(g.Edges, before) || slices.Contains(g.Edges, after)) {
			if g.Kind != features.StraightCut {
				return false
			}
			refresh(p, g)
		}
	}
	for j := range p.Features {
		// A hole of another feature must not lie where metal now goes.
		if g := &p.Features[j]; g.IsInside() && len(g.Ring) > 0 && (p.Outline.Inside(g.Ring[0].From, 0) != geom.In || crosses(g.Ring, p.Outline)) {
			return false
		}
	}
	return true
}

func crosses(a, b geom.Ring) bool { _, _, d := geom.RingDist(a, b); return d < leastMetalMM }

// run tells where a run of edges begins in a ring of n; ok is false if they do
// not follow one another.
func run(edges []int, n int) (first int, ok bool) {
	for _, k := range edges {
		if k < 0 || k >= n {
			return 0, false
		}
		if !slices.Contains(edges, (k-1+n)%n) {
			for j := range edges {
				if !slices.Contains(edges, (k+j)%n) {
					return 0, false
				}
			}
			return k, true
		}
	}
	return 0, false
}
