package features_test

import (
	"context"
	"math/rand"
	"reflect"
	"testing"
	"time"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// junk draws random entities on a coarse grid, so that ends meet, lines overlap
// and circles touch.
func junk(rng *rand.Rand) *dxftest.Builder {
	b := dxftest.New([]dxftest.Unit{dxftest.MM, dxftest.Inch, dxftest.NoUnit}[rng.Intn(3)])
	b.Linetype("DASH", 6, -3).Linetype("DASHDOT", 12, -3, 0, -3)
	step := []float64{1, 5, 0.3}[rng.Intn(3)]
	g := func() float64 { return float64(rng.Intn(12)) * step }
	size := func() float64 { return float64(1+rng.Intn(6)) * step / 2 }
	layers := []string{"0", "0", "0", "CUT", "BEND", "MARK", "CENTER", "KONSTRUKTION", "DIM"}
	for range 1 + rng.Intn(30) {
		b.Layer(layers[rng.Intn(len(layers))])
		b.UseLinetype([]string{"", "", "", "DASH", "DASHDOT"}[rng.Intn(5)])
		b.UseColour([]int{256, 256, 1}[rng.Intn(3)])
		x, y := g(), g()
		switch rng.Intn(9) {
		case 0, 1:
			b.Line(x, y, g(), g())
		case 2:
			b.Circle(x, y, size())
		case 3:
			b.Arc(x, y, size(), float64(rng.Intn(8))*45, float64(rng.Intn(8))*45)
		case 4:
			b.Polyline(rng.Intn(2) == 0, dxftest.V{X: x, Y: y, Bulge: float64(rng.Intn(3) - 1)}, dxftest.V{X: g(), Y: g()}, dxftest.V{X: g(), Y: g()}, dxftest.V{X: g(), Y: g(), Bulge: 0.4})
		case 5:
			b.Polyline(true, dxftest.Rect(x, y, size(), size())...)
		case 6:
			b.Ellipse(x, y, size(), size(), 0.1+0.9*rng.Float64(), 0, float64(1+rng.Intn(6)))
		case 7:
			b.Spline(3, rng.Intn(2) == 0, []float64{0, 0, 0, 0, 1, 1, 1, 1}, []float64{x, y, g(), g(), g(), g(), g(), g()}, nil)
		case 8:
			b.Text(x, y, size(), []string{"t=5", "BEND UP 90", "4 HOLES 5 DIA", "QTY 2", "S355", "M6 TAP"}[rng.Intn(6)])
		}
	}
	return b
}

// TestJunk: whatever is drawn, Build ends, holds its invariants, and says so if
// there is no part.
func TestJunk(t *testing.T) {
	n := 1500
	if testing.Short() {
		n = 150
	}
	for seed := range n {
		d := junk(rand.New(rand.NewSource(int64(seed)))).Drawing(t)
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
		s, err := features.Build(ctx, d, features.Options{})
		cancel()
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		checkInvariants(t, "junk", s)
		if len(s.Parts) == 0 && faultOf(s, "no-part") == nil {
			t.Errorf("seed %d: no part and no fault", seed)
		}
		if t.Failed() {
			t.Fatalf("seed %d\n%s", seed, describe(s))
		}
	}
}

// TestShuffledJunk: the order of entities reaches nothing but their numbers.
func TestShuffledJunk(t *testing.T) {
	n := 500
	if testing.Short() {
		n = 100
	}
	for seed := range n {
		rng := rand.New(rand.NewSource(int64(seed)))
		d := junk(rng).Drawing(t)
		first, err := features.Build(context.Background(), d, features.Options{})
		if err != nil {
			t.Fatal(err)
		}
		rng.Shuffle(len(d.Model), func(i, j int) { d.Model[i], d.Model[j] = d.Model[j], d.Model[i] })
		again, err := features.Build(context.Background(), d, features.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(withoutSources(first), withoutSources(again)) {
			t.Fatalf("seed %d:\n%s\n%s", seed, describe(first), describe(again))
		}
	}
}
