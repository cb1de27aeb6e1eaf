package dxfread_test

import (
	"context"
	"math"
	"testing"

	"burrside/dxfread"
	"burrside/dxfread/dxftest"
)

// The expected boxes are plain plane geometry.
func TestExtents(t *testing.T) {
	for _, c := range []struct {
		name string
		b    *dxftest.Builder
		want [4]float64
	}{
		{"line", dxftest.New(dxftest.MM).Line(3, 4, -1, 9), [4]float64{-1, 4, 3, 9}},
		{"circle", dxftest.New(dxftest.MM).Circle(10, 20, 5), [4]float64{5, 15, 15, 25}},
		{"quarter arc", dxftest.New(dxftest.MM).Arc(0, 0, 10, 45, 135),
			[4]float64{-10 / math.Sqrt2, 10 / math.Sqrt2, 10 / math.Sqrt2, 10}},
		{"arc over zero", dxftest.New(dxftest.MM).Arc(0, 0, 10, 315, 45),
			[4]float64{10 / math.Sqrt2, -10 / math.Sqrt2, 10, 10 / math.Sqrt2}},
		{"half circle by bulge, to the right of the chord", dxftest.New(dxftest.MM).Polyline(false, dxftest.V{X: 0, Y: 0, Bulge: 1}, dxftest.V{X: 10, Y: 0}),
			[4]float64{0, -5, 10, 0}},
		{"half circle by negative bulge on the last vertex", dxftest.New(dxftest.MM).Polyline(true, dxftest.V{X: 0, Y: 0}, dxftest.V{X: 10, Y: 0, Bulge: -1}),
			[4]float64{0, -5, 10, 0}},
		{"ellipse on its side", dxftest.New(dxftest.MM).Ellipse(0, 0, 0, 8, 0.25, 0, 2*math.Pi), [4]float64{-2, -8, 2, 8}},
	} {
		d := c.b.Drawing(t)
		var x dxfread.Extents
		for p := range d.Place(d.Model, dxfread.Limits{}).All(context.Background()) {
			x.Add(p)
		}
		got := [4]float64{x.Min.X, x.Min.Y, x.Max.X, x.Max.Y}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("%s: extents %v, want %v", c.name, got, c.want)
				break
			}
		}
	}
}
