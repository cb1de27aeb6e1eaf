package check

import (
	"burrside/features"
)

// nearPitches is how many pitches apart holes of one size may be and still be
// one bolt group: rows of it that do not line up are found as rows by themselves
// (judgement, no source).
const nearPitches = 1.5

// mostGrouped is how many holes are set against each other to see which rows
// belong together; beyond, all of one size are one group.
const mostGrouped = 600

// sameSize is equal for inside features of one kind, size and leg.
type sameSize struct {
	kind          features.Kind
	d, w, l, seat int64
	leg           string
}

func sizeOf(f *features.Feature) sameSize {
	return sameSize{f.Kind, sizeKey(f.DiameterMM), sizeKey(f.WidthMM), sizeKey(f.LengthMM), sizeKey(f.SeatMM), f.Leg}
}

// patternsOf puts the holes of a part into the groups that are moved as one: its
// regular patterns, those of one size that stand near each other as one; what is
// in no pattern, with all others of its kind, size and leg. Each hole is in one.
func patternsOf(part *features.Part) [][]string {
	bySize := map[sameSize][]int{}
	var order []sameSize
	for i := range part.Features {
		if f := &part.Features[i]; f.IsInside() {
			k := sizeOf(f)
			if bySize[k] == nil {
				order = append(order, k)
			}
			bySize[k] = append(bySize[k], i)
		}
	}
	regular, pitch := map[string]int{}, map[string]float64{}
	for n := range part.Patterns {
		p := &part.Patterns[n]
		for _, id := range p.Members {
			regular[id] = n + 1
			for _, mm := range p.PitchMM {
				pitch[id] = max(pitch[id], mm)
			}
		}
	}
	var out [][]string
	for _, k := range order {
		list := bySize[k]
		root := make([]int, len(list))
		for i := range root {
			root[i] = i
		}
		find := func(i int) int {
			for root[i] != i {
				i = root[i]
			}
			return i
		}
		join := func(i, j int) {
			a, b := find(i), find(j)
			root[max(a, b)] = min(a, b)
		}
		loose := -1
		for i, n := range list {
			f := &part.Features[n]
			if len(list) > mostGrouped {
				join(0, i)
				continue
			}
			if regular[f.ID] == 0 {
				if loose >= 0 {
					join(loose, i)
				}
				loose = i
			}
			for j := range i {
				g := &part.Features[list[j]]
				if regular[f.ID] > 0 && regular[f.ID] == regular[g.ID] || f.At.Dist(g.At) <= nearPitches*max(pitch[f.ID], pitch[g.ID]) {
					join(i, j)
				}
			}
		}
		at := map[int]int{}
		for i, n := range list {
			r := find(i)
			g, ok := at[r]
			if !ok {
				g = len(out)
				at[r] = g
				out = append(out, nil)
			}
			out[g] = append(out[g], part.Features[n].ID)
		}
	}
	return out
}

// group is the pattern that a feature belongs to.
func (s *suggester) group(id string) []string {
	if s.groupOf == nil {
		s.groupOf = map[string]int{}
		for i, g := range s.groups {
			for _, o := range g {
				s.groupOf[o] = i
			}
		}
	}
	if i, ok := s.groupOf[id]; ok {
		return s.groups[i]
	}
	return nil
}

// alike are all features of the part of the kind and size of one: a hole's size
// is changed for all of them.
func (s *suggester) alike(id string) []string {
	f := s.feature(id)
	if f == nil {
		return nil
	}
	k := sizeOf(f)
	k.leg = ""
	var out []string
	for i := range s.rep.Part.Features {
		g := &s.rep.Part.Features[i]
		o := sizeOf(g)
		if o.leg = ""; o == k {
			out = append(out, g.ID)
		}
	}
	return out
}

// now is a feature with the steps taken so far; nil none.
func (s *suggester) now(id string) *features.Feature { return s.in(s.at.rep.Part, id) }

// feature is a feature as it is drawn; nil none.
func (s *suggester) feature(id string) *features.Feature { return s.in(s.rep.Part, id) }

// in finds a feature of the part, or of the part changed: it stays in its place.
func (s *suggester) in(part *features.Part, id string) *features.Feature {
	if s.index == nil {
		s.index = make(map[string]int, len(s.rep.Part.Features))
		for i := range s.rep.Part.Features {
			s.index[s.rep.Part.Features[i].ID] = i
		}
	}
	if i, ok := s.index[id]; ok && i < len(part.Features) && part.Features[i].ID == id {
		return &part.Features[i]
	}
	return nil
}
