package features

import (
	"fmt"
	"math"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/join"
)

// leftOutOutline looks among what was taken as noise by a dash pattern or a
// layer's name for a closed line that holds closed lines which are no parts by
// themselves: holes without their outline.
func (b *builder) leftOutOutline() {
	if len(b.drafts) == 0 {
		return
	}
	in := b.inputsOf(func(it *item) bool {
		if it.class != classNoise || it.back {
			return false
		}
		switch it.what {
		case dimensionTaken, centreTaken, hatchTaken, dashTaken, frameTaken, tableTaken:
			return false
		case "frame layer", "dimension layer", "text layer":
			// Frames and letters close too; a circle there may still be a hole.
			_, circle := it.placed.Entity.(*dxfread.Circle)
			return circle
		}
		return true
	})
	if len(in) == 0 {
		return
	}
	res, err := b.join(in)
	if err != nil {
		return // the context's; the caller sees it
	}
	type spot struct {
		draft int
		layer string
	}
	within, dashed := map[spot]int{}, map[spot]int{}
	defer func() {
		for at, n := range dashed {
			d := &b.drafts[at.draft]
			d.doubts = append(d.doubts, Doubt{Code: "maybe-opening", Grave: true, At: b.loops[d.outline].box.Min,
				Text: fmt.Sprintf("%d dashed circles on layer %q lie on the part: openings seen from the other side, or what lies behind; they were not read", n, at.layer)})
		}
		for at, n := range within {
			d := &b.drafts[at.draft]
			d.doubts = append(d.doubts, Doubt{Code: "maybe-opening", Grave: true, At: b.loops[d.outline].box.Min,
				Text: fmt.Sprintf("%d closed lines on layer %q lie on the part and were not read as openings, by the layer's name", n, at.layer)})
		}
	}()
	for k := range res.Contours {
		c := &res.Contours[k]
		ring := c.Ring()
		if info := b.weakSources(c.Pieces); info != nil {
			if d := b.partAt(ring[0].Mid()); d >= 0 {
				within[spot{d, b.firstLayer(info)}]++
			}
		} else if d := b.hiddenCircleOn(ring, c.Pieces); d >= 0 {
			dashed[spot{d, b.firstLayer(c.Pieces[0].Sources)}]++
		}
		inside, ok := b.heldBy(ring)
		if !ok {
			continue
		}
		var all []int32
		for _, p := range c.Pieces {
			all = append(all, p.Sources...)
		}
		src := sourcesOf(all)
		text := "a closed line round this was not read as an outline"
		if len(all) > 0 {
			text = fmt.Sprintf("a closed line on layer %q round this was not read as an outline, for its layer or its dashes", b.firstLayer(all))
		}
		for _, i := range inside {
			b.drafts[i].doubts = append(b.drafts[i].doubts, Doubt{Code: "reading-doubt", Grave: true, At: ring.Bounds().Min, Text: text, Source: src})
		}
	}
}

// firstLayer is the first of the entities' layers by name.
func (b *builder) firstLayer(infos []int32) string {
	name := b.sheet.Entities[infos[0]].Layer
	for _, i := range infos[1:] {
		name = min(name, b.sheet.Entities[i].Layer)
	}
	return name
}

// weakSources are the entities of a contour that was left out by the names of
// its layers alone; nil if dashes say the same, or if nothing stands in the file.
func (b *builder) weakSources(pieces []join.Piece) []int32 {
	var infos []int32
	for _, p := range pieces {
		for _, s := range p.Sources {
			if it := b.itemOf(s); it == nil || it.strength != weak {
				return nil
			}
			infos = append(infos, s)
		}
	}
	return infos
}

// hiddenCircleOn is the draft on whose metal a circle of even dashes lies with
// no hole about its centre, -1 none: a thread or a seat on the far side has its
// hole, a lone one may be a hole itself.
func (b *builder) hiddenCircleOn(ring geom.Ring, pieces []join.Piece) int {
	if len(ring) != 1 || !ring[0].IsCircle() || len(pieces[0].Sources) == 0 {
		return -1
	}
	for _, s := range pieces[0].Sources {
		if it := b.itemOf(s); it == nil || it.what != "hidden line" {
			return -1
		}
	}
	d := b.partAt(ring[0].Mid())
	if d < 0 || b.partAt(ring[0].Centre) != d {
		return -1
	}
	return d
}

// heldBy are the drafts within a ring that was left out, and whether they may be
// its openings: none has an opening of its own, and they leave it half its area.
func (b *builder) heldBy(ring geom.Ring) (inside []int, ok bool) {
	box := ring.Bounds()
	sum, plain := 0.0, true
	for i := range b.drafts {
		l := &b.loops[b.drafts[i].outline]
		if !box.ContainsBox(l.box) || ring.Inside(l.ring[0].From, 1e-6) != geom.In {
			continue
		}
		inside = append(inside, i)
		sum += l.area
		plain = plain && len(b.drafts[i].holes) == 0
	}
	return inside, len(inside) > 0 && plain && sum <= math.Abs(ring.Area())/2
}
