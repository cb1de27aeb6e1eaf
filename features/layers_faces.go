package features

import (
	"fmt"
	"slices"
)

// layerFaces tells whether the dividers of an outline part it into faces of
// which each has its share of the outline on a layer of its own, and every
// divider lies on the layer of a face beside it: parts side by side whose common
// edge is drawn once, with one of them. The outline gives way to its faces.
//
// A divider on a third layer, or faces of one layer, say nothing: that is a
// bend, or a notch drawn over the edge.
func (b *builder) layerFaces(c int, dividers []int) (bool, error) {
	if len(b.layersOfPieces(b.loops[c].pieces)) < 2 {
		return false, nil
	}
	loops, kids, err := b.facesOf(c, dividers)
	if err != nil || len(loops) < 2 {
		return false, err
	}
	across := map[int32]bool{}
	for _, i := range dividers {
		for _, p := range b.joined.Dividers[i].Pieces {
			for _, s := range p.Sources {
				across[s] = true
			}
		}
	}
	// One entity may run along the outline and go on as the divider: only its
	// pieces inside are across.
	isAcross := func(p *piece) bool {
		return slices.ContainsFunc(p.sources, func(s int32) bool { return across[s] }) && !b.onOutline(p.edge.Mid(), c)
	}
	own := make([]string, len(loops))
	seen := map[string]bool{}
	for i := range loops {
		var outer []piece
		for k := range loops[i].pieces {
			if p := &loops[i].pieces[k]; !isAcross(p) {
				outer = append(outer, *p)
			}
		}
		l := b.layersOfPieces(outer)
		if len(l) != 1 || seen[l[0]] {
			return false, nil
		}
		own[i], seen[l[0]] = l[0], true
	}
	whole := false // some face closes on its own layer
	for i := range loops {
		closes := true
		for k := range loops[i].pieces {
			p := &loops[i].pieces[k]
			if !isAcross(p) {
				continue
			}
			l := b.layersOfPieces(loops[i].pieces[k : k+1])
			for _, s := range l {
				if !seen[s] {
					return false, nil
				}
			}
			closes = closes && slices.Contains(l, own[i])
		}
		whole = whole || closes
	}
	if !whole {
		return false, nil
	}
	first := len(b.loops)
	slices.Sort(own)
	text := fmt.Sprintf("contours of %s share edges that are drawn once; each has the rest of its outline on its own layer, so they were taken as separate parts", layerNames(own))
	b.giveWay(c, loops, kids, text)
	var src []int32
	for _, i := range dividers {
		for _, p := range b.joined.Dividers[i].Pieces {
			src = append(src, p.Sources...)
		}
	}
	p := b.joined.Dividers[dividers[0]].Pieces
	at := mid(p[0].Edge.From, p[len(p)-1].Edge.To)
	for i := first; i < len(b.loops); i++ {
		b.loopDoubts = append(b.loopDoubts, loopDoubt{i, Doubt{Code: "reading-doubt", At: at, Source: sourcesOf(src), Text: text}})
	}
	return true, nil
}

// layersOfPieces lists the layers that pieces were drawn on, in order; bridges
// count for nothing.
func (b *builder) layersOfPieces(pieces []piece) []string {
	var list []string
	for i := range pieces {
		for _, s := range pieces[i].sources {
			if l := b.sheet.Entities[s].Layer; !slices.Contains(list, l) {
				list = append(list, l)
			}
		}
	}
	slices.Sort(list)
	return list
}
