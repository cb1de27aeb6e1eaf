package features

import (
	"math"

	"burrside/features/geom"
)

// nameRun sets the shape and the numbers of notch f from run r, and tells
// whether it has a name other than "free". A shape has its name only if a tool
// of that shape cuts it: walls square and floors parallel within a degree, no
// undercut; whatever else is free.
func nameRun(f *Feature, r *run) bool {
	f.Shape = NotchFree
	f.Steps, f.Long, f.IncludedRad, f.BottomMM, f.RadiusMM, f.Undercut = nil, [2]float64{}, 0, 0, 0, false
	f.CornerRadiusMM, f.Relief = cornerRadius(r), ""
	if r.relief {
		f.Relief = "dog-bone"
	}
	if r.kind == mouthCorner {
		nameCorner(f, r)
	} else {
		nameEdge(f, r)
	}
	return f.Shape != NotchFree
}

// cornerRadius is the least radius of the run's inner corners, 0 if one is sharp.
func cornerRadius(r *run) float64 {
	if len(r.radii) == 0 {
		return 0
	}
	least := r.radii[0]
	for _, x := range r.radii {
		least = math.Min(least, x)
	}
	return least
}

// along is the direction of the mouth, into that of the depth, in a run's axes.
func along() geom.Point { return geom.Point{X: 1} }
func into() geom.Point  { return geom.Point{Y: 1} }

// extents are the greatest and least coordinates of the run's sharpened sides.
func (r *run) extents() (lo, hi geom.Point) {
	lo, hi = geom.Point{X: math.Min(0, r.mouth.X)}, geom.Point{X: math.Max(0, r.mouth.X)}
	for _, s := range r.sides {
		hi.X = math.Max(hi.X, supportMax(s.e, along()))
		hi.Y = math.Max(hi.Y, supportMax(s.e, into()))
		lo.X = math.Min(lo.X, -supportMax(s.e, along().Mul(-1)))
		lo.Y = math.Min(lo.Y, -supportMax(s.e, into().Mul(-1)))
	}
	return lo, hi
}

// runsBack tells whether a wall or floor runs against the mouth's direction by
// more than lean (rad), so that metal stands between it and the mouth.
func (r *run) runsBack(lean float64) bool {
	for _, s := range r.sides {
		if !s.e.IsArc() && s.e.From.X-s.e.To.X > lineMM && angleTo(s.e, along()) > math.Pi/2+lean {
			return true
		}
	}
	return false
}

// depth is how far the cut reaches into the metal, reliefs left out; 0 if
// nothing of it does.
func (r *run) depth() float64 {
	d := 0.0
	for _, e := range r.whole {
		d = math.Max(d, supportMax(e, into()))
	}
	return d + r.bulge
}

// angleTo is the angle of e to direction d, 0 to pi.
func angleTo(e geom.Edge, d geom.Point) float64 { return math.Abs(turnRad(d, e.StartDir())) }

func isStraight(sides []side) bool {
	for _, s := range sides {
		if s.e.IsArc() {
			return false
		}
	}
	return true
}

// wallMM: the bottom of a rectangular notch is as wide as its mouth within
// this; deep walls that lean less than squareRad may differ by more.
const wallMM = 0.2

// nameEdge names a bite out of one edge.
func nameEdge(f *Feature, r *run) {
	f.WidthMM = r.width
	f.DepthMM = r.depth()
	s := r.sides
	lo, hi := r.extents()
	// Walls that are square within squareRad may lean out by that much.
	lean := squareRad
	if r.kind == mouthSkew { // and by the mouth's own skew
		lean += skewRad
	}
	slack := lineMM + lean*(hi.Y-lo.Y)
	f.Undercut = lo.X < -slack || hi.X > r.mouth.X+slack || r.runsBack(lean)
	if len(s) == 1 && s[0].e.IsArc() && !s[0].e.CCW {
		f.Shape, f.RadiusMM = NotchRound, s[0].e.Radius
		return
	}
	if f.Undercut {
		return
	}
	// Walls run into the metal and back; a run of faint turns beside a mouth that
	// another bite made longer need not.
	if n := len(s); n > 1 && (s[0].e.To.Y-s[0].e.From.Y <= lineMM || s[n-1].e.From.Y-s[n-1].e.To.Y <= lineMM) {
		return
	}
	down := len(s) > 1 && angleTo(s[0].e, into()) <= squareRad
	up := len(s) > 1 && angleTo(s[len(s)-1].e, into().Mul(-1)) <= squareRad
	switch {
	case len(s) == 2 && isStraight(s):
		f.Shape = NotchVee
		f.IncludedRad = math.Pi - math.Abs(turnRad(s[0].e.EndDir(), s[1].e.StartDir()))
	case len(s) == 3 && isStraight(s) && angleTo(s[1].e, along()) <= squareRad:
		f.DepthMM = s[1].e.Mid().Y + r.bulge
		f.Shape = NotchRectangular
		if !down || !up || math.Abs(s[1].e.Length()-f.WidthMM) > wallMM {
			f.Shape, f.BottomMM = NotchTrapezoid, s[1].e.Length()
		}
	case len(s) == 3 && !s[0].e.IsArc() && !s[2].e.IsArc() && s[1].e.IsArc() && !s[1].e.CCW:
		t1 := turnRad(s[0].e.EndDir(), s[1].e.StartDir())
		t2 := turnRad(s[1].e.EndDir(), s[2].e.StartDir())
		if math.Abs(t1) > tangentRad || math.Abs(t2) > tangentRad {
			return
		}
		sweep := math.Abs(s[1].e.Sweep())
		switch {
		case math.Abs(sweep-math.Pi) <= tangentRad && down && up:
			f.Shape, f.RadiusMM = NotchOpenSlot, s[1].e.Radius
		case sweep < math.Pi-tangentRad:
			f.Shape, f.IncludedRad, f.CornerRadiusMM = NotchVee, math.Pi-sweep, s[1].e.Radius
		}
	case len(s) >= 5 && isStraight(s):
		steps, ok := stepsOf(s, along(), into(), func(p geom.Point) float64 { return p.Y + r.bulge })
		if ok && down && up {
			f.Shape, f.Steps = NotchStepped, leastOrder(steps)
		}
	}
}

// nameCorner names a bite out of a corner of the part.
func nameCorner(f *Feature, r *run) {
	la, lb := r.corner.X, r.corner.Dist(r.mouth)
	f.Long = [2]float64{math.Max(la, lb), math.Min(la, lb)}
	// Reach square to each edge.
	_, hi := r.extents()
	left := r.mouth.Sub(r.corner).Unit().Left()
	fromEnd := func(p geom.Point) float64 { return p.Sub(r.corner).Dot(left) }
	wide, deep := 0.0, hi.Y
	s := r.sides
	for _, x := range s {
		wide = math.Max(wide, supportMax(x.e, left)-r.corner.Dot(left))
	}
	if !r.right {
		f.WidthMM, f.DepthMM = f.Long[0], math.Min(wide, deep)
		return
	}
	f.WidthMM, f.DepthMM = math.Max(wide, deep), math.Min(wide, deep)
	if len(s) == 1 && s[0].e.IsArc() && !s[0].e.CCW {
		f.Shape, f.RadiusMM = NotchRound, s[0].e.Radius
		f.WidthMM, f.DepthMM = f.Long[0], f.Long[1]
		return
	}
	if len(s) < 2 || !isStraight(s) || angleTo(s[0].e, into()) > squareRad || angleTo(s[len(s)-1].e, along()) > squareRad {
		return
	}
	if len(s) == 2 {
		f.Shape = NotchCorner
		f.WidthMM, f.DepthMM = f.Long[0], f.Long[1]
		return
	}
	one, okOne := stepsOf(s, along(), into(), func(p geom.Point) float64 { return p.Y })
	two, okTwo := stepsOf(s, into(), along(), fromEnd)
	one, two = leastOrder(one), leastOrder(two)
	if okOne && okTwo {
		// Both readings hold for a plain staircase: that with the wider mouth
		// is taken, so that mirror images read alike.
		if lb > la+1e-3 || math.Abs(lb-la) <= 1e-3 && stepsLess(two, one) {
			okOne = false
		}
	}
	switch {
	case okOne:
		f.Shape, f.Steps, f.WidthMM, f.DepthMM = NotchStepped, one, la, deep
	case okTwo:
		f.Shape, f.Steps, f.WidthMM, f.DepthMM = NotchStepped, two, lb, wide
	}
}

// stepsOf lists width and depth of the floors of a run of square steps: floors
// along w, in one direction only, walls along d in either.
func stepsOf(s []side, w, d geom.Point, depth func(geom.Point) float64) ([][2]float64, bool) {
	var steps [][2]float64
	for _, x := range s {
		switch a := angleTo(x.e, w); {
		case a <= squareRad:
			steps = append(steps, [2]float64{x.e.Length(), depth(x.e.Mid())})
		case math.Abs(a-math.Pi/2) > squareRad:
			return nil, false
		}
	}
	return steps, len(steps) > 1
}

// leastOrder is steps or its reverse, whichever sorts first, so that a mirror
// image gives the same list.
func leastOrder(steps [][2]float64) [][2]float64 {
	back := make([][2]float64, len(steps))
	for i, s := range steps {
		back[len(steps)-1-i] = s
	}
	if stepsLess(back, steps) {
		return back
	}
	return steps
}

// stepsLess compares step lists; numbers within lineMM are equal, so that
// rounding does not turn a list around.
func stepsLess(a, b [][2]float64) bool {
	for i := range a {
		if i >= len(b) {
			return false
		}
		for k := range a[i] {
			if d := a[i][k] - b[i][k]; math.Abs(d) > lineMM {
				return d < 0
			}
		}
	}
	return false
}
