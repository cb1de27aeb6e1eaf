package plan

import (
	"math"

	"burrside/features/geom"
)

// frame is a rectangle's own coordinates: x along its length, y across.
type frame struct {
	origin geom.Point // the corner at x = 0, y = 0
	u, v   geom.Point // unit vectors along and across, v to the left of u
}

func (f frame) in(p geom.Point) geom.Point {
	d := p.Sub(f.origin)
	return geom.Point{X: d.Dot(f.u), Y: d.Dot(f.v)}
}

func (f frame) out(p geom.Point) geom.Point {
	return f.origin.Add(f.u.Mul(p.X)).Add(f.v.Mul(p.Y))
}

// polygon is a convex polygon, counter-clockwise: the metal that is there at a step.
type polygon []geom.Point

func rectangle(l, w float64) polygon {
	return polygon{{X: 0, Y: 0}, {X: l, Y: 0}, {X: l, Y: w}, {X: 0, Y: w}}
}

// line is a straight cut: a point on it and the unit normal away from the part.
type line struct{ at, normal geom.Point }

func (l line) height(p geom.Point) float64 { return p.Sub(l.at).Dot(l.normal) }

// touchMM is how near to a line is on it: far below anything that can be cut.
const touchMM = 1e-6

// split cuts a polygon: keep is the part's side, off what falls; chord is the
// metal under the blade, its ends a and b. A line that only touches gives no chord.
func (pg polygon) split(l line) (keep, off polygon, a, b geom.Point, chord float64) {
	const touch = touchMM
	var on []geom.Point
	for i, p := range pg {
		q := pg[(i+1)%len(pg)]
		hp, hq := l.height(p), l.height(q)
		if hp <= touch {
			keep = append(keep, p)
		}
		if hp >= -touch {
			off = append(off, p)
		}
		if math.Abs(hp) <= touch {
			on = append(on, p)
		}
		if hp < -touch && hq > touch || hp > touch && hq < -touch {
			x := p.Add(q.Sub(p).Mul(hp / (hp - hq)))
			keep, off, on = append(keep, x), append(off, x), append(on, x)
		}
	}
	for i := range on {
		for j := i + 1; j < len(on); j++ {
			if d := on[i].Dist(on[j]); d > chord {
				a, b, chord = on[i], on[j], d
			}
		}
	}
	return keep, off, a, b, chord
}

// beyond is how far a polygon reaches behind a line, on the part's side.
func (pg polygon) beyond(l line) float64 {
	far := 0.0
	for _, p := range pg {
		far = max(far, -l.height(p))
	}
	return far
}

// above is how far a polygon reaches before a line, on the side that falls.
func (pg polygon) above(l line) float64 {
	far := 0.0
	for _, p := range pg {
		far = max(far, l.height(p))
	}
	return far
}

// width is the least width of a convex polygon: the least, over its sides, of
// its greatest height above that side.
func (pg polygon) width() float64 {
	least := math.Inf(1)
	for i, p := range pg {
		d := pg[(i+1)%len(pg)].Sub(p)
		if d.Len() < 1e-6 {
			continue
		}
		n := d.Unit().Left()
		high := 0.0
		for _, q := range pg {
			high = max(high, math.Abs(q.Sub(p).Dot(n)))
		}
		least = min(least, high)
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}
