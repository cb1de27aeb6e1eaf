package geom

import (
	"cmp"
	"math"
	"slices"
)

// place is where a piece lies: on the axis by which places are sorted, and on
// the other one.
type place struct {
	at, other float64
	i         int32 // its number
}

func comparePlaces(a, b place) int {
	switch {
	case a.at < b.at:
		return -1
	case a.at > b.at:
		return 1
	}
	return cmp.Or(cmp.Compare(a.at, b.at), int(a.i-b.i))
}

// spread sorts places: they are dealt out to bins of equal width first, which
// leaves little to sort where they lie evenly, as they do in most drawings. The
// zero value is ready; it is kept for the room it has.
type spread struct{ start []int32 }

// perBin is how many places a bin holds when they lie evenly.
const perBin = 4

// sort orders the places, equal ones by their number. spare is as long.
func (s *spread) sort(list, spare []place) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range list {
		if at := list[i].at; at < lo {
			lo = at
		}
		if at := list[i].at; at > hi {
			hi = at
		}
	}
	bins := len(list) / perBin
	inv := float64(bins) / (hi - lo)
	if bins < 8 || !(inv > 0) || math.IsInf(inv, 0) { // few, all in one place, or no numbers
		slices.SortFunc(list, comparePlaces)
		return
	}
	// Rounding keeps the order: what lies lower never comes into a higher bin.
	bin := func(p *place) int { return max(0, min(int((p.at-lo)*inv), bins-1)) }
	if cap(s.start) < bins+1 {
		s.start = make([]int32, bins+1)
	}
	start := s.start[:bins+1]
	clear(start)
	for i := range list {
		start[bin(&list[i])+1]++
	}
	for k := range bins {
		start[k+1] += start[k]
	}
	for i := range list {
		k := bin(&list[i])
		spare[start[k]] = list[i]
		start[k]++
	}
	from := int32(0)
	for _, to := range start[:bins] { // where each bin ends, now
		sortFew(spare[from:to])
		from = to
	}
	copy(list, spare)
}

// sortFew sorts by inserting where places are few.
func sortFew(list []place) {
	if len(list) > 4*perBin {
		slices.SortFunc(list, comparePlaces)
		return
	}
	for i := 1; i < len(list); i++ {
		p := list[i]
		k := i
		for ; k > 0 && comparePlaces(p, list[k-1]) < 0; k-- {
			list[k] = list[k-1]
		}
		list[k] = p
	}
}
