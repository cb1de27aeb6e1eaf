package join

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// copySnap is the snap that makes one of copies that were drawn a little off
// each other: the widest distance between ends that belong together, and a
// little more; at most coarsest and a fifth of the shortest hundredth of the
// edges. Dropping one of each pair is not enough: the shortest edges are no
// pairs, and what is kept comes from both copies. 0 when there are no copies.
func (b *base) copySnap() float64 {
	if b.noRaise || len(b.copies) == 0 {
		return 0
	}
	widest := 0.0
	for _, c := range b.copies {
		keep, drop := &b.edges[c.i], &b.edges[c.k]
		if keep.IsCircle() || drop.IsCircle() {
			continue
		}
		for _, p := range [2]geom.Point{drop.From, drop.To} {
			if d := math.Min(p.Dist(keep.From), p.Dist(keep.To)); d <= 2*copyGap {
				widest = max(widest, d)
			}
		}
	}
	if widest <= b.snap || !b.looseWithoutCopies() {
		return 0
	}
	lengths := make([]float64, 0, len(b.edges))
	for i := range b.edges {
		if e := &b.edges[i]; e.u != e.v {
			lengths = append(lengths, e.Length())
		}
	}
	slices.Sort(lengths)
	return min(1.01*widest, coarsest, lengths[len(lengths)/100]/5)
}

// looseWithoutCopies tells whether an end is loose when one of each pair of
// copies is dropped.
func (b *base) looseWithoutCopies() bool {
	dropped := make([]bool, len(b.edges))
	for _, c := range b.copies {
		dropped[c.k] = true
	}
	degree := make([]int32, len(b.verts))
	for i := range b.edges {
		if e := &b.edges[i]; !dropped[i] && e.u != e.v {
			degree[e.u]++
			degree[e.v]++
		}
	}
	return slices.Contains(degree, 1)
}

// coarsest is the most that snap is raised to.
const coarsest = 0.02

// again prepares from the start with another snap.
func (b *base) again(snap float64) {
	b.notes, b.noteCount = b.notes[:0], map[string]int{}
	b.snap = snap
	if b.snapInput() != nil {
		return // ctx has ended; the next look at it says so
	}
	b.note(Note{Code: "snap-raised", SizeMM: snap})
	b.dropShort()
	b.mergeSnapped()
}
