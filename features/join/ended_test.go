package join

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"burrside/features/geom"
)

// countdown is a context that ends after it was looked at so many times.
type countdown struct {
	context.Context
	left  int // looks until it ends; negative: never
	looks int
	last  time.Time
	wait  time.Duration // the longest time between two looks
}

func (c *countdown) Err() error {
	now := time.Now()
	if c.looks++; c.looks > 1 {
		c.wait = max(c.wait, now.Sub(c.last))
	}
	c.last = now
	if c.left >= 0 && c.looks > c.left {
		return context.Canceled
	}
	return nil
}

// hardCases are drawings that keep each step of Join busy.
func hardCases(n int) map[string][]Input {
	rng := rand.New(rand.NewPCG(3, 5))
	cases := map[string][]Input{
		"chains":    gons(n, 1e-4, rng),
		"junctions": junctions(n, rng),
		"saw":       saw(n / 2),
		"cell":      oneCell(n, rng),
		"stair":     stair(n),
		"star":      star(n / 5),
		"weave":     weave(n / 100),
		"hatch":     hatch(n/5, rng),
		"bundle":    bundle(n / 5),
		"rings":     nested(n / 20),
	}
	return cases
}

// oneCell lies in one cell of the first raster: one far edge stretches it.
func oneCell(n int, rng *rand.Rand) []Input {
	in := gons(n, 0, rng)
	for i := range in {
		e := &in[i].Edge
		e.From, e.To = e.From.Mul(0.1), e.To.Mul(0.1)
	}
	return append(in, Input{Edge: line(1e7, 1e7, 1e7, 1e7+10)})
}

// stair is one open run that climbs: its edges come in order, each of them
// inside the run.
func stair(n int) []Input {
	var in []Input
	for k := range n {
		y := float64(k)
		in = append(in, Input{Edge: line(float64(k%2), y, float64((k+1)%2), y+1), Source: int32(k)})
	}
	return in
}

// star is n lines from one point.
func star(n int) []Input {
	var in []Input
	for k := range n {
		s, c := math.Sincos(float64(k) * 2 * math.Pi / float64(n))
		in = append(in, Input{Edge: line(0, 0, 100*c, 100*s)})
	}
	return in
}

// weave is n lines over n lines.
func weave(n int) []Input {
	var in []Input
	l := float64(n)
	for k := range n {
		y := float64(k)
		in = append(in, Input{Edge: line(0, y, l, y+0.3)}, Input{Edge: line(y, 0, y+0.3, l)})
	}
	return in
}

// hatch is n lines whose loose ends lie all over each other.
func hatch(n int, rng *rand.Rand) []Input {
	var in []Input
	for range n {
		x, y := rng.Float64()*10, rng.Float64()*10
		in = append(in, Input{Edge: line(x, y, x+3, y+0.001)})
	}
	return in
}

// bundle is n arcs between the same two points.
func bundle(n int) []Input {
	var in []Input
	for k := range n {
		in = append(in, Input{Edge: geom.BulgeEdge(pt{}, pt{X: 1000}, 0.9*float64(k+1)/float64(n))})
	}
	return in
}

// nested is n squares one in another.
func nested(n int) []Input {
	var in []Input
	for k := range n {
		r := float64(k + 1)
		in = append(in, rectangle(-r, -r, r, r)...)
	}
	return in
}

func rectangle(x0, y0, x1, y1 float64) []Input {
	return []Input{{Edge: line(x0, y0, x1, y0)}, {Edge: line(x1, y0, x1, y1)}, {Edge: line(x1, y1, x0, y1)}, {Edge: line(x0, y1, x0, y0)}}
}

// TestEndedContext: wherever in the work the context ends, Join gives its error
// and hardly looks again; and it looks every few thousand steps.
func TestEndedContext(t *testing.T) {
	n := 10000
	if testing.Short() {
		n = 3000
	}
	for name, in := range hardCases(n) {
		whole := &countdown{Context: context.Background(), left: -1}
		if _, err := Join(whole, in, Options{}); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		// At the least each edge is met in sorting, snapping and comparing.
		if least := 3 * len(in) / 4096; whole.looks < least {
			t.Errorf("%s: %d edges, the context was looked at %d times, want %d", name, len(in), whole.looks, least)
		}
		t.Logf("%-9s %6d edges: %5d looks, the longest wait between two %v", name, len(in), whole.looks, whole.wait.Round(10*time.Microsecond))
		const tries = 20
		for k := range tries {
			c := &countdown{Context: context.Background(), left: whole.looks * k / tries}
			r, err := Join(c, in, Options{})
			if !errors.Is(err, context.Canceled) || r != nil {
				t.Fatalf("%s: ended at look %d of %d, and gave %v", name, c.left, whole.looks, err)
			}
			if more := c.looks - c.left; more > 3 {
				t.Errorf("%s: ended at look %d of %d, and looked %d times more", name, c.left, whole.looks, more)
			}
		}
	}
}
