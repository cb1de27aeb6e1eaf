package features

import (
	"fmt"
	"math"

	"burrside/features/geom"
)

// A revision cloud is a run of arcs of one sweep that meet in cusps; their
// chords vary (common practice, no source).
const (
	cloudArcs   = 8
	cloudSweep  = 0.1 // of the mean: how far sweeps differ
	cloudChords = 3.2 // the longest of the shortest
	cuspRad     = 30 * math.Pi / 180
)

// doubtClouds doubts all parts of a drawing with a polyline that looks like a
// revision cloud about something that is drawn. One with nothing but circles
// in it, and nothing across it, is a scalloped plate.
func (b *builder) doubtClouds() error {
	for i := range b.items {
		in := b.inputs[b.start[i]:b.start[i+1]]
		if b.items[i].class != classCut || len(in) < cloudArcs || !isCloud(b.edgesOf(i)) {
			continue
		}
		if err := b.ctx.Err(); err != nil {
			return err
		}
		box := in[0].Edge.Bounds()
		for k := range in {
			box = box.Union(in[k].Edge.Bounds())
		}
		about := false
		for k := range b.items {
			if k == i || b.items[k].class != classCut {
				continue
			}
			for _, o := range b.inputs[b.start[k]:b.start[k+1]] {
				e := &o.Edge
				about = about || !e.IsCircle() && box.Contains(e.Mid())
			}
		}
		for k := range b.sheet.Texts {
			about = about || box.Contains(b.textMiddle(&b.sheet.Texts[k]))
		}
		if about {
			b.sheetDoubts = append(b.sheetDoubts, Doubt{Code: "reading-doubt", Grave: true, At: box.Min, Source: sourcesOf([]int32{b.items[i].info}),
				Text: fmt.Sprintf("a run of %d equal bulges goes round what is drawn there: the cloud that marks a change of the drawing, or an edge of a part", len(in))})
		}
	}
	return nil
}

func (b *builder) edgesOf(i int) []geom.Edge {
	var list []geom.Edge
	for _, in := range b.inputs[b.start[i]:b.start[i+1]] {
		list = append(list, in.Edge)
	}
	return list
}

// isCloud tells whether edges in their order are the arcs of a cloud.
func isCloud(list []geom.Edge) bool {
	least, most, sum := math.Inf(1), 0.0, 0.0
	for _, e := range list {
		if !e.IsArc() || e.IsCircle() || e.CCW != list[0].CCW {
			return false
		}
		chord := e.From.Dist(e.To)
		least, most, sum = math.Min(least, chord), math.Max(most, chord), sum+math.Abs(e.Sweep())
	}
	mean := sum / float64(len(list))
	if !(most <= cloudChords*least) || mean < math.Pi/4 {
		return false
	}
	for k, e := range list {
		if math.Abs(math.Abs(e.Sweep())-mean) > cloudSweep*mean {
			return false
		}
		if k == 0 {
			continue
		}
		d, f := list[k-1].Reverse().StartDir(), e.StartDir()
		if turn := math.Pi - math.Abs(math.Atan2(d.Cross(f), d.Dot(f))); turn < cuspRad {
			return false
		}
	}
	return true
}
