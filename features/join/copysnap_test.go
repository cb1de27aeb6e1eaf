package join

import (
	"math"
	"testing"

	"burrside/features/geom"
)

// TestShiftedCopy: a wheel of short chords that is drawn twice, the second time
// two micrometres off, is one contour: neither copy's chords are all long
// enough to be told as copies by themselves.
func TestShiftedCopy(t *testing.T) {
	for _, off := range []float64{0.0005, 0.0012, 0.0022, 0.004} {
		d := &drawing{}
		var corners []geom.Point
		for k := range 90 {
			r := 20.0
			if k%6 >= 4 {
				r = 18.5
			}
			a := float64(k) * math.Pi / 45
			if k%2 == 1 {
				a += math.Pi/45 - 0.004 // every second chord is 0.08 mm long
			}
			corners = append(corners, geom.Point{X: r * math.Cos(a), Y: r * math.Sin(a)})
		}
		for _, by := range []geom.Point{{}, {X: off, Y: off / 2}} {
			for k := range corners {
				d.loose(geom.LineEdge(corners[k].Add(by), corners[(k+1)%len(corners)].Add(by)))
			}
		}
		r := d.join(t, Options{})
		if len(r.Contours) != 1 || len(r.Chains)+len(r.Dividers) != 0 || len(r.Contours[0].Pieces) != len(corners) {
			t.Errorf("%g mm off: %d contours, %d chains, %d dividers", off, len(r.Contours), len(r.Chains), len(r.Dividers))
		}
	}
}
