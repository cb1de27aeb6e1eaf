package geom

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestSpread: places are sorted as the library sorts them, however they lie:
// evenly, most in one spot with one far off, on few values, all in one.
func TestSpread(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	ways := map[string]func() float64{
		"even":      func() float64 { return 1e3 * rng.Float64() },
		"one spot":  func() float64 { return 1e-3*rng.Float64() + 1e6*float64(rng.IntN(200)/199) },
		"few":       func() float64 { return float64(rng.IntN(5)) - 2 },
		"the same":  func() float64 { return 12.5 },
		"both ends": func() float64 { return rng.NormFloat64() * 1e300 },
	}
	var s spread
	for name, at := range ways {
		for _, n := range []int{0, 1, 2, 31, 32, 33, 100, 5000} {
			list := make([]place, n)
			for i := range list {
				list[i] = place{at: at(), i: int32(i)}
			}
			rng.Shuffle(n, func(i, k int) { list[i], list[k] = list[k], list[i] })
			want := slices.SortedFunc(slices.Values(list), comparePlaces)
			s.sort(list, make([]place, n))
			if !slices.Equal(list, want) {
				t.Errorf("%s: %d places are not in order", name, n)
			}
		}
	}
}
