package plan

import (
	"math"
	"slices"

	"burrside/features"
	"burrside/features/geom"
)

// onLine is how far a piece may lie off a line and still be on it, mm: ten times
// the snap of a drawing, a hundredth of what a shear holds.
const onLine = 0.05

// onSide is how far both ends of an edge may lie off a side of the blank and
// still be made by it, mm: half of what a flat's width may be off.
const onSide = 0.25

// wanted is a straight piece of the outline that must be cut.
type wanted struct {
	feature int
	ln      line // in the blank's coordinates
	clip    bool
	at      geom.Point // its middle, in the blank's coordinates
}

// needs sorts the straight features by where they lie in the blank: on its long
// sides, on its ends (left, right), across from side to side (a mitre, by the
// end that it makes), or elsewhere.
type needs struct {
	low, high   []int // on y = 0, y = w
	left, right []int // on x = 0, x = l
	mitreL      *wanted
	mitreR      *wanted
	rest        []wanted
}

// edge gives an edge of the outline; ok is false if there is none of that number.
func (pl *planner) edge(k int) (e geom.Edge, ok bool) {
	if k < 0 || k >= len(pl.part.Outline) {
		return e, false
	}
	return pl.part.Outline[k], true
}

// lineOf gives the line of a straight feature, and its two ends, in the blank's
// coordinates; ok is false if the part lies on both sides of it, so that no
// straight cut makes it.
func (pl *planner) lineOf(i int, f frame) (ln line, ends [2]geom.Point, ok bool) {
	ft := &pl.part.Features[i]
	a, b := ft.From, ft.To
	long := 0.0
	for _, k := range ft.Edges { // the longest piece gives the direction best
		if e, ok := pl.edge(k); ok && e.Length() > long+1e-9 {
			a, b, long = e.From, e.To, e.Length()
		}
	}
	if a.Dist(b) < 1e-6 {
		return line{}, ends, false
	}
	n := b.Sub(a).Unit().Left().Mul(-1) // the outline runs counter-clockwise: outside is on the right
	if pl.hull.Support(n)-a.Dot(n) > onLine {
		return line{}, ends, false
	}
	ln = line{at: f.in(a)}
	ln.normal.X, ln.normal.Y = n.Dot(f.u), n.Dot(f.v)
	return ln, [2]geom.Point{ln.at, f.in(b)}, true
}

func (pl *planner) needsOf(ly *layout) needs {
	var n needs
	on := func(v, at, w, bt float64) bool { return math.Abs(v-at) <= onSide && math.Abs(w-bt) <= onSide }
	for _, i := range pl.straights() {
		ln, e, ok := pl.lineOf(i, ly.frame)
		if !ok {
			ly.inner = append(ly.inner, i)
			continue
		}
		nx, ny := ln.normal.X, ln.normal.Y
		switch {
		case ny < -0.9 && on(e[0].Y, 0, e[1].Y, 0):
			n.low = append(n.low, i)
			continue
		case ny > 0.9 && on(e[0].Y, ly.w, e[1].Y, ly.w):
			n.high = append(n.high, i)
			continue
		case nx < -0.9 && on(e[0].X, 0, e[1].X, 0):
			n.left = append(n.left, i)
			continue
		case nx > 0.9 && on(e[0].X, ly.l, e[1].X, ly.l):
			n.right = append(n.right, i)
			continue
		}
		w := wanted{feature: i, ln: ln, clip: pl.part.Features[i].Kind == features.CornerClip}
		if math.Abs(nx) > 1e-6 {
			at := func(y float64) float64 { return ln.at.X - ny*(y-ln.at.Y)/nx }
			x0, x1 := at(0), at(ly.w)
			if min(x0, x1) >= -onSide && max(x0, x1) <= ly.l+onSide {
				if nx < 0 && n.mitreL == nil {
					n.mitreL = &w
					continue
				}
				if nx > 0 && n.mitreR == nil {
					n.mitreR = &w
					continue
				}
			}
		}
		w.at = ly.frame.in(pl.part.Features[i].At)
		n.rest = append(n.rest, w)
	}
	slices.SortStableFunc(n.rest, func(a, b wanted) int { return geom.ComparePlace(a.at, b.at) })
	return n
}

// place sets a cut's ends in the drawing's coordinates.
func (ly *layout) place(c *Cut, ends polygon) {
	if len(ends) == 2 {
		c.From, c.To = ly.frame.out(ends[0]), ly.frame.out(ends[1])
	}
}

// offSquare is the angle of a cut line off square to the length.
func offSquare(ln line) float64 {
	return math.Atan2(math.Abs(ln.normal.Y), math.Abs(ln.normal.X))
}

// loose gives the needs with the mitres left to the loose piece, as where the
// table does not take the bar at their angle.
func (n needs) loose() needs {
	rest := slices.Clone(n.rest)
	for _, m := range []*wanted{n.mitreL, n.mitreR} {
		if m != nil {
			rest = append(rest, *m)
		}
	}
	n.rest, n.mitreL, n.mitreR = rest, nil, nil
	return n
}

func cutName(w wanted) string {
	if w.clip {
		return "clip"
	}
	return "side cut"
}
