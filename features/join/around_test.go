package join

import (
	"math/rand/v2"
	"testing"

	"burrside/features/geom"
)

// TestAreaTree: the least shape about a place is the one that a look at all of
// them finds, in scattered boxes, in nested ones and in both; tool marks are
// passed over. In a thousand nested squares few are asked for each place.
func TestAreaTree(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	box := func(x, y, w, h float64) shape {
		b := geom.Box{Min: geom.Point{X: x - w, Y: y - h}, Max: geom.Point{X: x + w, Y: y + h}}
		return shape{box: b, area: 4 * w * h}
	}
	for _, n := range []int{0, 1, 7, 8, 9, 64, 65, 1000} {
		for name, draw := range map[string]func(k int) shape{
			"scattered": func(int) shape {
				return box(1000*rng.Float64(), 1000*rng.Float64(), 1+40*rng.Float64(), 1+40*rng.Float64())
			},
			"nested": func(k int) shape { s := float64(k + 1); return box(500+1e-9*rng.Float64(), 500, s/2, s/2) },
			"equal":  func(k int) shape { return box(10*float64(k%30), 10*float64(k/30), 8, 8) },
			"both": func(k int) shape {
				if k%2 == 0 {
					return box(500, 500, float64(k), float64(k))
				}
				return box(1000*rng.Float64(), 1000*rng.Float64(), 3, 3)
			},
		} {
			shapes := make([]shape, n)
			for k := range shapes {
				shapes[k] = draw(k)
				shapes[k].mark = k%11 == 5
			}
			rng.Shuffle(n, func(i, k int) { shapes[i], shapes[k] = shapes[k], shapes[i] })
			tree := newAreaTree(shapes)
			asked, found := 0, 0
			for range 300 {
				p := geom.Point{X: 1000 * rng.Float64(), Y: 1000 * rng.Float64()}
				if n > 0 && rng.IntN(2) == 0 {
					p = shapes[rng.IntN(n)].box.Centre()
				}
				area, odd := 0.0, rng.IntN(2) == 0
				if n > 0 && rng.IntN(2) == 0 {
					area = shapes[rng.IntN(n)].area
				}
				accept := func(i int32) bool { return !odd || i%2 == 1 }
				want := int32(-1)
				for i := range shapes {
					s := &shapes[i]
					if !s.mark && s.area > area && s.box.Contains(p) && accept(int32(i)) && (want < 0 || s.area < shapes[want].area) {
						want = int32(i)
					}
				}
				got := tree.least(p, area, func(i int32) bool { asked++; return accept(i) })
				if got != want {
					t.Fatalf("%s of %d: %d about %v, not %d", name, n, got, p, want)
				}
				if got >= 0 {
					found++
				}
			}
			if n == 1000 && (found < 30 || asked > 25*300) {
				t.Errorf("%s of %d: %d found, %d asked", name, n, found, asked)
			}
		}
	}
}
