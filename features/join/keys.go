package join

import (
	"cmp"
	"math/bits"
	"slices"
)

// placeKey is the place of the lower, then left end of input i, on the raster
// of place.
type placeKey struct {
	y, x int64
	i    int32
}

// digitBits is the size of the digits that keys are sorted by: 2048 counters
// fit in the nearest cache.
const digitBits = 11

// sortKeys sorts by y, then x, then by rest. Sorting is by digits, from the last
// to the first, which looks at each key a few times whatever their number;
// keys too far apart for one word of 64 bits, and few keys, are compared.
func (b *base) sortKeys(keys []placeKey, rest func(p, q placeKey) int) {
	if !b.sortByDigits(keys) {
		slices.SortFunc(keys, func(p, q placeKey) int {
			if b.ended() {
				return 0
			}
			if c := cmp.Compare(p.y, q.y); c != 0 {
				return c
			}
			if c := cmp.Compare(p.x, q.x); c != 0 {
				return c
			}
			return rest(p, q)
		})
		return
	}
	for i := 0; i < len(keys); {
		k := i + 1
		for k < len(keys) && keys[k].y == keys[i].y && keys[k].x == keys[i].x {
			k++
		}
		if k-i > 1 {
			slices.SortFunc(keys[i:k], rest)
		}
		i = k
	}
}

// sortByDigits sorts by y, then x; false where it is not of use.
func (b *base) sortByDigits(keys []placeKey) bool {
	const few = 256
	if len(keys) < few {
		return false
	}
	minY, maxY, minX, maxX := keys[0].y, keys[0].y, keys[0].x, keys[0].x
	for _, k := range keys {
		minY, maxY, minX, maxX = min(minY, k.y), max(maxY, k.y), min(minX, k.x), max(maxX, k.x)
	}
	// As numbers without a sign the differences do not overflow.
	wide := bits.Len64(uint64(maxX - minX))
	all := wide + bits.Len64(uint64(maxY-minY))
	if all > 64 {
		return false
	}
	type word struct {
		place uint64
		i     int32
	}
	from, to := make([]word, len(keys)), make([]word, len(keys))
	for n, k := range keys {
		from[n] = word{uint64(k.y-minY)<<wide | uint64(k.x-minX), k.i}
	}
	for at := 0; at < all; at += digitBits {
		if b.check() != nil {
			return true
		}
		const mask = 1<<digitBits - 1
		var next [mask + 1]int
		for n := range from {
			next[from[n].place>>at&mask]++
		}
		sum := 0
		for d, n := range next {
			next[d] = sum
			sum += n
		}
		for n := range from {
			d := from[n].place >> at & mask
			to[next[d]] = from[n]
			next[d]++
		}
		from, to = to, from
	}
	for n, w := range from {
		keys[n] = placeKey{int64(w.place>>wide) + minY, int64(w.place&(1<<wide-1)) + minX, w.i}
	}
	return true
}
