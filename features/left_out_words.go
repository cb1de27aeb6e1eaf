package features

import (
	"fmt"
	"sort"

	"burrside/dxfread"
	"burrside/features/geom"
)

// openingsAmongWords doubts the parts on which slots, rectangles and holes of
// arcs lie that the name of a text, dimension or frame layer took out. Letters
// and boxes round a text close too: what has other figures beside it or a text
// in it is none of these. Circles are doubted with the other layers.
func (b *builder) openingsAmongWords() {
	if len(b.drafts) == 0 {
		return
	}
	in := b.inputsOf(func(it *item) bool {
		if it.class != classNoise || it.back || it.strength != weak {
			return false
		}
		_, circle := it.placed.Entity.(*dxfread.Circle)
		return !circle && (it.what == "frame layer" || it.what == "dimension layer" || it.what == "text layer")
	})
	if len(in) == 0 {
		return
	}
	res, err := b.join(in)
	if err != nil {
		return // the context's; the caller sees it
	}
	type shape struct {
		box     geom.Box
		draft   int
		opening bool
		infos   []int32
	}
	var shapes []shape
	for i := range res.Chains {
		box := res.Chains[i].Pieces[0].Edge.Bounds()
		for _, p := range res.Chains[i].Pieces {
			box = box.Union(p.Edge.Bounds())
		}
		shapes = append(shapes, shape{box: box, draft: -1})
	}
	for i := range res.Contours {
		l := loop{pieces: b.pieces(res.Contours[i].Pieces)}
		l.settle()
		if !(l.area > 0) {
			continue
		}
		l.roundFacets()
		// A frame about the part lies on nothing.
		s := shape{box: l.box, draft: b.partAt(l.ring[0].Mid())}
		if s.draft >= 0 && !b.loops[b.drafts[s.draft].outline].box.ContainsBox(l.box) {
			s.draft = -1
		}
		switch recogniseInside(l.ring).Kind {
		case RoundHole, Slot, RectangularHole:
			s.opening = s.draft >= 0 && !b.textIn(l.ring)
		}
		for _, p := range l.pieces {
			s.infos = append(s.infos, p.sources...)
		}
		shapes = append(shapes, s)
	}
	diagonals := make([]geom.Edge, len(shapes))
	for i := range shapes {
		diagonals[i] = geom.LineEdge(shapes[i].box.Min, shapes[i].box.Max)
	}
	index := geom.NewIndex(diagonals, 0)
	found := map[int][]int32{}
	count := map[int]int{}
	for i := range shapes {
		s := &shapes[i]
		if !s.opening {
			continue
		}
		alone := true
		for k := range index.Near(s.box.Grow(letterReach * size(s.box))) {
			alone = alone && (k == i || shapes[k].opening)
		}
		if alone && len(s.infos) > 0 {
			found[s.draft] = append(found[s.draft], s.infos...)
			count[s.draft]++
		}
	}
	var drafts []int
	for d := range found {
		drafts = append(drafts, d)
	}
	sort.Ints(drafts)
	for _, d := range drafts {
		b.drafts[d].doubts = append(b.drafts[d].doubts, Doubt{Code: "maybe-opening", Grave: true, At: b.loops[b.drafts[d].outline].box.Min, Source: sourcesOf(found[d]),
			Text: fmt.Sprintf("%d slots or rectangles on layer %q lie on the part and were not read as openings, by the layer's name", count[d], b.firstLayer(found[d]))})
	}
}

// textIn tells whether a text of the drawing stands in a ring.
func (b *builder) textIn(r geom.Ring) bool {
	box := r.Bounds()
	for _, t := range b.sheet.Texts {
		if box.Contains(t.At) && r.Inside(t.At, 1e-6) != geom.Out {
			return true
		}
	}
	return false
}
