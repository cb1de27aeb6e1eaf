package features

import (
	"fmt"
	"math"

	"burrside/features/geom"
)

// cleanMM is the longest repair that leaves a part clean.
const cleanMM = 0.05

// joinFaults passes on what the joiner repaired or doubted, and what was found
// open, to the parts that it concerns.
func (b *builder) joinFaults() error {
	duplicates, overlap := 0, 0.0
	var at geom.Point
	var dupSrc []int32
	dupPart := -1
	for _, n := range b.joined.Notes {
		if n.Code == "self-crossing" || n.Code == "self-touching" {
			continue // see crossingFaults
		}
		if (n.Code == "duplicate-merged" || n.Code == "overlap-merged") && b.isSharedEdge(n.Sources) {
			continue // the edge of two parts that lie side by side
		}
		part := b.partTouching(n.At)
		b.note(Note{Code: n.Code, At: n.At, HasAt: true, Count: n.Count, Text: joinNoteText(n.Code, n.SizeMM, max(n.Count, 1)), Source: sourcesOf(n.Sources)})
		switch n.Code {
		case "gap-closed":
			if n.SizeMM > cleanMM+1e-6 && !b.isLegLine(n.Sources) {
				if part >= 0 {
					b.sheet.Parts[part].Clean = false
				}
				b.fault(Fault{Code: "gap-bridged", At: n.At, Value: n.SizeMM, Count: n.Count, Part: part, Source: sourcesOf(n.Sources),
					Text: fmt.Sprintf("a gap of %s mm in an outline was closed", shortNumber(n.SizeMM))})
			}
		case "duplicate-merged", "overlap-merged":
			if n.Code == "overlap-merged" && n.SizeMM <= cleanMM+1e-6 && n.Count <= 1 {
				continue // ends that overlap by rounding
			}
			if duplicates == 0 || comparePlace(n.At, at) < 0 {
				at, dupPart = n.At, part
			}
			duplicates += max(n.Count, 1)
			overlap += n.SizeMM
			dupSrc = append(dupSrc, n.Sources...)
		case "too-many-crossings":
			b.fault(Fault{Code: "read-incomplete", At: n.At, Count: n.Count, Part: -1, Text: "the lines cross each other too often to be followed"})
		case "junction-unclear":
			if part >= 0 {
				p := &b.sheet.Parts[part]
				p.Doubts = append(p.Doubts, Doubt{Code: "reading-doubt", Grave: true, At: n.At, Text: "several loose ends meet here and it is not clear which belong together", Source: sourcesOf(n.Sources)})
			}
		}
	}
	for _, t := range b.twice {
		if duplicates == 0 || comparePlace(t.at, at) < 0 {
			at, dupPart = t.at, b.partTouching(t.at)
		}
		duplicates++
		dupSrc = append(dupSrc, t.sources...)
	}
	if duplicates > 0 {
		b.fault(Fault{Code: "duplicate-lines", At: at, Value: float64(duplicates), Count: duplicates, Part: dupPart, Source: sourcesOf(dupSrc),
			Text: fmt.Sprintf("%d lines are drawn twice or lie on others; they were merged", duplicates)})
	}
	for _, f := range b.openFaults {
		f.fault.Part = -1
		if f.loop >= 0 {
			if n, ok := b.partOf[f.loop]; ok {
				f.fault.Part = n
			}
		}
		b.fault(f.fault)
	}
	for i := range b.sheet.Parts {
		sortDoubts(b.sheet.Parts[i].Doubts)
	}
	return b.crossingFaults()
}

// partTouching is the part whose outline a place lies on or in, or the nearest
// within a millimetre; of several the smallest, -1 none.
func (b *builder) partTouching(p geom.Point) int {
	best, nearest, area := -1, math.Inf(1), math.Inf(1)
	for _, in := range b.instances {
		if !in.box.Grow(1).Contains(p) {
			continue
		}
		d := 0.0
		if in.ring.Inside(p, touchMM) == geom.Out {
			d = math.Inf(1)
			for _, e := range in.ring {
				d = math.Min(d, e.Dist(p))
			}
			d = math.Round(d * 1e3)
		}
		if a := in.box.Width() * in.box.Height(); d < nearest || d == nearest && a < area {
			best, nearest, area = in.part, d, a
		}
	}
	return best
}

func joinNoteText(code string, size float64, count int) string {
	switch code {
	case "gap-closed":
		return fmt.Sprintf("a gap of %s mm was closed", shortNumber(size))
	case "duplicate-merged":
		return fmt.Sprintf("%d lines drawn twice were merged", count)
	case "overlap-merged":
		return fmt.Sprintf("%d lines that lie on others were merged", count)
	case "zero-length":
		return fmt.Sprintf("%d lines of no length were dropped", count)
	case "snap-raised":
		return "ends lie apart by rounding, or lines are drawn twice a little off each other; ends within " + shortNumber(size) + " mm were taken as one"
	case "coarse-coordinates":
		return "the coordinates are too coarse for the smallest lines; end points within " + shortNumber(size) + " mm were taken as one"
	case "junction-unclear":
		return "several loose ends meet here; none were joined"
	case "too-many-crossings":
		return "too many lines cross each other; not all crossings were followed"
	}
	return fmt.Sprintf("joining: %s (%d)", code, count)
}
