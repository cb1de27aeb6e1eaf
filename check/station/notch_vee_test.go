package station

import (
	"math"
	"testing"
)

// A vee of 120 degrees by a tool of 90, tilted 15 degrees each way: one side of the
// tool lies along the wall, 20 / cos 60 = 40 mm, the other stands at 60 - 90 degrees
// to the middle, 20 / cos 30 = 23.09 mm (plane geometry). 63.09 x 6 x 345 N.
func TestTiltedVee(t *testing.T) {
	p := yard()
	vee := func(depth float64) Use {
		return notched(p, 6, NotchRequest{Shape: NotchVee, WidthMM: 2 * depth * math.Tan(math.Pi/3), DepthMM: depth, IncludedRad: 2 * math.Pi / 3})
	}
	u := vee(20)
	near(t, "force", u.ForceKN, 130.6, 0.05)
	if u.Hits != 2 {
		t.Errorf("%d bites", u.Hits)
	}
	// The tool of 60 mm has sides of 60 / cos 45 = 84.85 mm; the wall is 2 x depth.
	for _, c := range []struct {
		depth float64
		want  Grade
	}{{42.42, Care}, {60 / math.Cos(math.Pi/4) / 2, Care}, {42.43, Fail}} {
		wantGrade(t, "depth", vee(c.depth).Grade(), c.want)
	}
}

// Bites lie evenly: 157 mm by a tool of 80 are two that begin 77 mm apart; 240 mm,
// by an overlap of 3, are four (1 + ceil(160/77)), 53.3 mm apart, the first of the
// middle ones taking that on one side.
func TestBitesAreEven(t *testing.T) {
	p := yard()
	tool := p.Notchers[0]
	for _, c := range []struct {
		width   float64
		n       int
		oneSide float64
	}{{80, 1, 0}, {157, 2, 77}, {200, 3, 0}, {240, 4, 160.0 / 3}, {311, 4, 77}, {311.1, 5, 231.1 / 4}} {
		b, reason := edgeBites(p, &tool, Piece{6, mild()}, c.width, 40)
		if reason != "" || b.n != c.n || math.Abs(b.oneSide-c.oneSide) > 1e-9 {
			t.Errorf("%g: %d bites, %g on one side (%s), want %d, %g", c.width, b.n, b.oneSide, reason, c.n, c.oneSide)
		}
	}
}
