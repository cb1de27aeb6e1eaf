package features

import (
	"fmt"

	"burrside/dxfread"
)

// sharedEdges tells whether the dividers of an outline are edges that closed
// entities share: each face is then one entity's outline, whole, and no entity
// is left over that runs round several. The outline gives way to its faces.
func (b *builder) sharedEdges(c int, dividers []int) (bool, error) {
	for _, i := range dividers {
		for _, p := range b.joined.Dividers[i].Pieces {
			if len(p.Sources) < 2 {
				return false, nil
			}
		}
	}
	loops, kids, err := b.facesOf(c, dividers)
	if err != nil || len(loops) < 2 {
		return false, err
	}
	own := map[int32]bool{} // the entities that are one face each
	for i := range loops {
		s := commonSource(loops[i].pieces)
		it := b.itemOf(s)
		if s < 0 || own[s] || it == nil {
			return false, nil
		}
		if _, ok := it.placed.Entity.(*dxfread.Polyline); !ok && !isClosedEntity(it.placed.Entity) {
			return false, nil
		}
		own[s] = true
	}
	for i := range loops {
		for _, s := range flatSources(loops[i].pieces) {
			if !own[s] {
				return false, nil
			}
		}
	}
	if b.sharedBy == nil {
		b.sharedBy = map[int32]bool{}
	}
	for s := range own {
		b.sharedBy[s] = true
	}
	b.giveWay(c, loops, kids, fmt.Sprintf("%d closed lines that share an edge were taken as parts side by side", len(loops)))
	return true, nil
}

// commonSource is the least entity that all pieces come from, -1 none.
func commonSource(pieces []piece) int32 {
	for _, s := range pieces[0].sources {
		in := true
		for _, p := range pieces[1:] {
			has := false
			for _, o := range p.sources {
				has = has || o == s
			}
			in = in && has
		}
		if in {
			return s
		}
	}
	return -1
}

// isSharedEdge tells whether merged lines are the common edge of parts side by
// side.
func (b *builder) isSharedEdge(sources []int32) bool {
	if len(sources) < 2 {
		return false
	}
	for _, s := range sources {
		if !b.sharedBy[s] {
			return false
		}
	}
	return true
}
