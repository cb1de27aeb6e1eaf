package geom

import (
	"math"
	"testing"
)

// A hull with a piece that runs back by a few 1e-5 mm, as rounding leaves it
// between two nearly equal arcs: the support of a polygon of 40 corners is that
// of its farthest corner.
func TestSupportOfUnevenHull(t *testing.T) {
	var corners []Point
	for i := range 40 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 20)
		corners = append(corners, Point{100 * cos, 40 * sin})
	}
	var h Ring
	for i, c := range corners {
		next := corners[(i+1)%len(corners)]
		if i == 7 { // back, against the turn
			back := c.Add(c.Sub(next).Unit().Mul(2e-5))
			h = append(h, LineEdge(c, back))
			c = back
		}
		h = append(h, LineEdge(c, next))
	}
	s := newSupporter(h)
	for i := range 64 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 32)
		u := Point{cos, sin}
		want := math.Inf(-1)
		for _, c := range corners {
			want = max(want, u.Dot(c))
		}
		if got := s.reach(u); math.Abs(got-want) > 1e-4 {
			t.Errorf("direction %d: reach %v, want %v", i, got, want)
		}
	}
}

func TestHullOfWhatIsNotFinite(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		if h := Hull(Ring{LineEdge(Point{0, 0}, Point{bad, 1}), LineEdge(Point{bad, 1}, Point{0, 0})}); h != nil {
			t.Errorf("hull of a ring with %v: %v, want none", bad, h)
		}
		if h := HullOf([]Edge{CircleEdge(Point{0, 0}, bad)}); h != nil {
			t.Errorf("hull of a circle of radius %v: %v, want none", bad, h)
		}
	}
}
