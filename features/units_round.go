package features

import (
	"cmp"
	"math"
	"slices"

	"burrside/dxfread"
	"burrside/features/geom"
)

// arcSet sums the sweeps of arcs that lie on one circle, so that a hole drawn
// as two halves or four quarters is a round thing to the vote on units. Places
// are rounded; a circle on the border between two of them is not seen, which
// costs a witness and nothing else.
type arcSet map[[3]int64]arcSum

type arcSum struct {
	radius, sweep float64
	centre        geom.Point
}

// most arcs looked at; a drawing of more has other witnesses.
const mostVoteArcs = 100_000

func (s arcSet) add(centre geom.Point, radius, sweep float64) {
	if !(radius > 0) || !isNumber(centre.X) || !isNumber(centre.Y) || !isNumber(radius) || !isNumber(sweep) || radius > 1e12 || len(s) > mostVoteArcs {
		return
	}
	step := 1e-3 * radius
	x, y := centre.X/step, centre.Y/step
	if math.Abs(x) > 1e15 || math.Abs(y) > 1e15 {
		return
	}
	key := [3]int64{int64(math.Round(x)), int64(math.Round(y)), int64(math.Round(radius * 1e5))}
	a, ok := s[key]
	if !ok || radius < a.radius {
		a.radius, a.centre = radius, centre
	}
	a.sweep += sweep
	s[key] = a
}

// addArc adds an ARC.
func (s arcSet) addArc(e *dxfread.Arc, m planeMap) {
	if ok, _ := isSimilar(m); !ok {
		return
	}
	s.add(m.point(e.Centre), m.dir(dxfread.Vec{X: e.Radius}).Len(), e.SweepDeg()*math.Pi/180)
}

// addPolyline adds the arcs of a polyline, and a polygon of 12 sides or more
// with its corners on one circle, evenly spread.
func (s arcSet) addPolyline(e *dxfread.Polyline, m planeMap) {
	if ok, _ := isSimilar(m); !ok {
		return
	}
	n := len(e.Vertices)
	bulged := false
	for i, v := range e.Vertices {
		if v.Bulge == 0 || i == n-1 && !e.Closed {
			continue
		}
		bulged = true
		a := geom.BulgeEdge(m.point(v.At), m.point(e.Vertices[(i+1)%n].At), v.Bulge)
		if a.IsArc() {
			s.add(a.Centre, a.Radius, math.Abs(a.Sweep()))
		}
	}
	if n > 1 && e.Vertices[n-1].At == e.Vertices[0].At {
		n--
	} else if !e.Closed {
		return
	}
	const leastSides, mostSides = 12, 720
	if bulged || n < leastSides || n > mostSides {
		return
	}
	var sum geom.Point
	for _, v := range e.Vertices[:n] {
		sum = sum.Add(m.point(v.At))
	}
	centre := sum.Mul(1 / float64(n))
	radius := centre.Dist(m.point(e.Vertices[0].At))
	for i, v := range e.Vertices[:n] {
		p, q := m.point(v.At), m.point(e.Vertices[(i+1)%n].At)
		// Off by a thousandth it is an oval or a part of another shape.
		if math.Abs(centre.Dist(p)-radius) > 1e-3*radius || math.Abs(p.Dist(q)-2*radius*math.Sin(math.Pi/float64(n))) > 0.02*radius {
			return
		}
	}
	s.add(centre, radius, 2*math.Pi)
}

// full gives the circles that are closed, within one degree, by place.
func (s arcSet) full() []arcSum {
	var out []arcSum
	for _, a := range s {
		if a.sweep >= 359*math.Pi/180 {
			out = append(out, a)
		}
	}
	slices.SortFunc(out, func(a, c arcSum) int {
		if k := comparePlace(a.centre, c.centre); k != 0 {
			return k
		}
		return cmp.Compare(a.radius, c.radius)
	})
	return out
}
