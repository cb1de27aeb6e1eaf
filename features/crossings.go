package features

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// An outline that crosses or touches itself falls apart into faces, each of them
// sound by itself. Which of them is metal the drawing does not say, so every part
// that came of it has a fault.

// sameCornerMM is how near two corners are to be one; contours of one
// arrangement share their corners exactly.
const sameCornerMM = 1e-3

// throughRad: two edges that differ by less in direction go straight on.
const throughRad = 0.5 * math.Pi / 180

// crossing is a place where a contour crosses or touches itself.
type crossing struct {
	at      geom.Point
	touches bool
	sources []int32
	loops   []int // the contours that meet here, outlines and cut-outs
	part    int   // the part concerned where loops is nil
}

// crossingFaults enters the faults of contours that cross themselves, of each
// part one with the number of places.
func (b *builder) crossingFaults() error {
	partOf := map[int]int{} // by loop
	for i := range b.drafts {
		d := &b.drafts[i]
		p := b.partOf[d.outline]
		partOf[d.outline] = p
		for _, h := range d.holes {
			partOf[h] = p
		}
	}
	all := b.noticedCrossings(partOf)
	meets, err := b.meetingContours(partOf)
	if err != nil {
		return err
	}
	all = append(all, meets...)
	for i := range b.sheet.Parts {
		if i%16 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		p := &b.sheet.Parts[i]
		for _, r := range append([]geom.Ring{p.Outline}, p.Holes...) {
			for _, c := range r.SelfCrossings(sameCornerMM) {
				all = append(all, crossing{at: c, part: i})
			}
		}
	}
	slices.SortStableFunc(all, func(x, y crossing) int {
		if c := comparePlace(x.at, y.at); c != 0 {
			return c
		}
		if x.touches != y.touches {
			return map[bool]int{false: -1, true: 1}[x.touches]
		}
		return slices.Compare(x.sources, y.sources)
	})
	found := map[int]*Fault{}
	last := map[int]geom.Point{}
	src := map[int][]int32{}
	add := func(part int, x *crossing, text string) {
		f := found[part]
		if f == nil {
			f = &Fault{Code: "self-crossing", At: x.at, Part: part, Text: text}
			found[part] = f
		} else if last[part].Dist(x.at) <= 0.01 {
			src[part] = append(src[part], x.sources...)
			return // one place, found in two ways
		}
		f.Count++
		last[part] = x.at
		src[part] = append(src[part], x.sources...)
	}
	for i := range all {
		x := &all[i]
		if x.loops == nil {
			add(x.part, x, crossingText(x.touches, false))
			continue
		}
		for _, l := range x.loops {
			add(partOf[l], x, crossingText(x.touches, !slices.ContainsFunc(x.loops, func(l int) bool { return b.isOutline(l) })))
		}
	}
	parts := make([]int, 0, len(found))
	for p := range found {
		parts = append(parts, p)
	}
	slices.Sort(parts)
	for _, p := range parts {
		f := found[p]
		f.Source = sourcesOf(src[p])
		if f.Count > 1 {
			f.Text += fmt.Sprintf("; the first of %d places", f.Count)
		}
		b.fault(*f)
	}
	return nil
}

func crossingText(touches, opening bool) string {
	what, how := "the outline", "crosses itself"
	if opening {
		what = "the contour of a cut-out"
	}
	if touches {
		how = "touches itself"
	}
	return what + " " + how + ": what is metal cannot be told"
}

func (b *builder) isOutline(l int) bool { _, ok := b.partOf[l]; return ok }

// noticedCrossings are those that the joiner told of, with the contours that
// came of them; a place where no contour is left concerns the part around it, or
// the drawing.
func (b *builder) noticedCrossings(partOf map[int]int) []crossing {
	var all []crossing
	for _, n := range b.joined.Notes {
		if n.Code != "self-crossing" && n.Code != "self-touching" {
			continue
		}
		x := crossing{at: n.At, touches: n.Code == "self-touching", sources: n.Sources, part: b.partTouching(n.At)}
		tol := math.Max(b.joined.SnapMM, sameCornerMM)
		for l := range b.loops {
			if _, ok := partOf[l]; ok && b.loops[l].box.Grow(tol).Contains(n.At) && b.loops[l].ring.Inside(n.At, tol) == geom.On {
				x.loops = append(x.loops, l)
			}
		}
		all = append(all, x)
		if n.Count > 1 { // the last of many, which are not told one by one
			all = append(all, crossing{at: n.At, touches: x.touches, sources: n.Sources, part: -1})
		}
	}
	return all
}

// meetingContours finds the corners that two contours share because one entity
// runs through both, or because both were traced out of one tangle of lines: the
// two halves of a bow-tie, an outline pinched to a point. Contours that lie side
// by side along a common cut are none.
func (b *builder) meetingContours(partOf map[int]int) ([]crossing, error) {
	type corner struct {
		cell   [2]int64
		at     geom.Point
		source int32 // -1: a traced outline's, whatever entity drew it
		loop   int
		away   [2]geom.Point // directions of the contour's edges away from the corner
	}
	cell := func(p geom.Point) [2]int64 {
		return [2]int64{int64(math.Round(p.X / sameCornerMM)), int64(math.Round(p.Y / sameCornerMM))}
	}
	traced := b.joined.Contours
	loops := make([]int, 0, len(partOf))
	for l := range partOf {
		if l < len(traced) && traced[l].Face && !b.loops[l].toolMark {
			loops = append(loops, l)
		}
	}
	if len(loops) < 2 {
		return nil, nil
	}
	slices.Sort(loops)
	// Most corners are those of one contour: only the places of several are
	// looked at.
	n := 0
	for _, l := range loops {
		n += len(b.loops[l].pieces)
	}
	const several = math.MaxInt32
	owners := newPlaceTable(n) // by place: contour + 1, or several
	for k, l := range loops {
		for _, p := range b.loops[l].pieces {
			if o := owners.find(cell(p.edge.From)); *o == 0 {
				*o = int32(k + 1)
			} else if *o != int32(k+1) {
				*o = several
			}
		}
	}
	var list []corner
	var src []int32
	for k, l := range loops {
		if k%16 == 0 && b.ctx.Err() != nil {
			return nil, b.ctx.Err()
		}
		pieces := b.loops[l].pieces
		for i := range pieces {
			before := &pieces[(i+len(pieces)-1)%len(pieces)]
			at := pieces[i].edge.From
			if *owners.find(cell(at)) != several {
				continue
			}
			away := [2]geom.Point{pieces[i].edge.StartDir(), before.edge.EndDir().Mul(-1)}
			src = append(append(src[:0], pieces[i].sources...), before.sources...)
			if b.isOutline(l) {
				src = append(src, -1)
			}
			slices.Sort(src)
			for _, s := range slices.Compact(src) {
				list = append(list, corner{cell(at), at, s, l, away})
			}
		}
	}
	slices.SortStableFunc(list, func(p, q corner) int {
		for k := range p.cell {
			if c := cmp.Compare(p.cell[k], q.cell[k]); c != 0 {
				return c
			}
		}
		if c := cmp.Compare(p.source, q.source); c != 0 {
			return c
		}
		return cmp.Compare(p.loop, q.loop)
	})
	var out []crossing
	for i := 0; i < len(list); {
		k := i + 1
		for k < len(list) && list[k].cell == list[i].cell && list[k].source == list[i].source {
			k++
		}
		x := crossing{at: list[i].at, touches: true}
		for _, c := range list[i:k] {
			if !slices.Contains(x.loops, c.loop) {
				x.loops = append(x.loops, c.loop)
			}
			for _, d := range list[i:k] { // does a line of one go straight on in the other?
				for _, u := range c.away {
					for _, v := range d.away {
						if d.loop != c.loop && math.Abs(turnRad(u, v.Mul(-1))) < throughRad {
							x.touches = false
						}
					}
				}
			}
		}
		if c := list[i]; c.source >= 0 {
			x.sources = []int32{c.source}
		}
		if len(x.loops) > 1 {
			out = append(out, x)
		}
		i = k
	}
	return out, nil
}
