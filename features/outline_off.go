package features

import (
	"fmt"

	"burrside/features/geom"
	"burrside/features/join"
)

// maxOff is how many entities on layers that are off or frozen are looked at.
const maxOff = 20_000

// outlineOff looks for a closed line on layers that are off or frozen round
// closed lines that are shown. If one of these has the shape of an opening, a
// hole or a slot, they are no parts: they are the openings of an outline that
// is not shown. Else both readings stay, doubted: blanks on a sheet whose border
// is off look the same.
func (b *builder) outlineOff() {
	if len(b.drafts) == 0 || len(b.off) == 0 {
		return
	}
	var in []join.Input
	for i, p := range b.off {
		if i%256 == 0 && b.ctx.Err() != nil {
			return
		}
		if d := edgesOf(b.ctx, p, b.frame, b.opt.ArcDevMM); d.fault == "" {
			in = joinInput(in, d, int32(i), int32(i+1), 0)
		}
	}
	res, err := b.join(in)
	if err != nil {
		return // the context's; the caller sees it
	}
	gone := make([]bool, len(b.drafts))
	var text string
	var at geom.Point
	var src []Source
	dropped := 0
	for k := range res.Contours {
		ring := res.Contours[k].Ring()
		inside, ok := b.heldBy(ring)
		if !ok {
			continue
		}
		var infos []int32
		for _, p := range res.Contours[k].Pieces {
			for _, s := range p.Sources {
				infos = append(infos, b.entity(b.off[s], nil))
			}
		}
		name := "a layer"
		if len(infos) > 0 {
			name = fmt.Sprintf("layer %q", b.firstLayer(infos))
		}
		says := fmt.Sprintf("within a closed line on %s, which is off or frozen, lie only closed lines that are shown: %d", name, len(inside))
		opening := false
		for _, i := range inside {
			switch recogniseInside(b.loops[b.drafts[i].outline].ring).Kind {
			case RoundHole, Slot, CurvedSlot:
				opening = true
			}
		}
		for _, i := range inside {
			d := &b.drafts[i]
			if !opening {
				d.doubts = append(d.doubts, Doubt{Code: "reading-doubt", Grave: true, At: ring.Bounds().Min, Source: sourcesOf(infos),
					Text: says + "; these may be openings"})
			} else if !gone[i] {
				gone[i] = true
				dropped++
				text, at, src = says+"; these were taken for openings, not for parts", ring.Bounds().Min, sourcesOf(infos)
			}
		}
	}
	if dropped == 0 {
		return
	}
	for i := range b.drafts {
		b.drafts[i].dropped = b.drafts[i].dropped || gone[i]
	}
	code := "read-incomplete"
	if dropped == len(b.drafts) {
		code = "no-part"
	}
	b.note(Note{Code: "outline-not-shown", At: at, HasAt: true, Count: dropped, Text: text, Source: src})
	b.fault(Fault{Code: code, Part: -1, At: at, Count: dropped, Text: text, Source: src})
}
