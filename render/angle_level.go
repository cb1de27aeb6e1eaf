package render

import (
	"cmp"
	"math"
	"slices"

	"burrside/check"
	"burrside/features"
	"burrside/features/geom"
)

const (
	// levelRad is how far a heel may lie off level without being turned.
	levelRad = 1e-6
	// slenderMost is the greatest length, in widths of both legs, that is
	// drawn whole: above it holes are too small to see.
	slenderMost = 7.5
	// breaksMost is how many times an angle is shortened at most.
	breaksMost = 4
)

// levelled is an angle as its picture shows it: turned until the heel lies
// level, never turned over, and shortened at breaks where nothing lies. Lengths
// in the features stay true; places are those of the picture.
type levelled struct {
	p      *check.PartReport
	turned bool
	breaks []float64 // mm of the picture along X
	heelY  float64
}

// levelAngle makes the copy of a report that the picture of an angle is drawn
// from. Its drawing-wide findings have a place only if it lies in a view.
func levelAngle(p *check.PartReport, drawing []check.Finding) (*levelled, []check.Finding) {
	a := p.Part.Angle
	d := a.Heel[1].Sub(a.Heel[0])
	angle := math.Atan2(d.Y, d.X)
	switch { // to the nearer level
	case angle > math.Pi/2+levelRad:
		angle -= math.Pi
	case angle <= -math.Pi/2+levelRad:
		angle += math.Pi
	}
	out := &levelled{turned: math.Abs(angle) > levelRad}
	turn := geom.Motion{Cos: 1}
	if out.turned {
		turn = geom.NewTurn(-angle)
		if math.Abs(math.Abs(angle)-math.Pi/2) < levelRad {
			turn = geom.NewTurn(-math.Copysign(math.Pi/2, angle))
		}
	}
	out.p = movedReport(p, p.Part.FromDrawing, func(e geom.Edge) geom.Edge { return e.Apply(turn) }, turn.Apply)
	sheet := movedFindings(drawing, p.Part.FromDrawing, turn.Apply)
	out.heelY = turn.Apply(a.Heel[0]).Y

	cuts := cutsOf(out.p, sheet)
	if len(cuts) > 0 {
		at := func(x float64) float64 {
			off := 0.0
			for _, c := range cuts {
				off += min(max(x-c[0], 0), c[1]-c[0])
			}
			return x - off
		}
		shift := func(q geom.Point) geom.Point { return geom.Point{X: at(q.X), Y: q.Y} }
		edge := func(e geom.Edge) geom.Edge {
			if !e.IsArc() {
				e.From, e.To = shift(e.From), shift(e.To)
				return e
			}
			// No cut runs through an arc: all of it moves alike.
			x := e.Mid().X
			return e.Apply(geom.NewShift(geom.Point{X: at(x) - x}))
		}
		out.p = movedReport(out.p, nil, edge, shift)
		for i := range sheet {
			if sheet[i].HasAt {
				sheet[i].At = shift(sheet[i].At)
			}
		}
		for _, c := range cuts {
			out.breaks = append(out.breaks, at(c[0]))
		}
	}
	return out, sheet
}

// fromDrawing turns a place of the drawing to one of the part's own frame; it is
// false where the part has none.
type fromDrawing func(geom.Point) (geom.Point, bool)

// scaledReport is a copy of the report of a flat part whose view is drawn to a
// scale, with the places of findings where the true part has them.
func scaledReport(p *check.PartReport, drawing []check.Finding) (*check.PartReport, []check.Finding) {
	same := func(q geom.Point) geom.Point { return q }
	rep := *p
	rep.Findings = movedFindings(p.Findings, p.Part.FromDrawing, same)
	return &rep, movedFindings(drawing, p.Part.FromDrawing, same)
}

// movedReport is a copy of what a picture needs of a part's report, with its
// places moved. With fold, places on the drawing are folded out first.
func movedReport(p *check.PartReport, fold fromDrawing, edge func(geom.Edge) geom.Edge, point func(geom.Point) geom.Point) *check.PartReport {
	ring := func(r geom.Ring) geom.Ring {
		var out geom.Ring
		for _, e := range r {
			out = append(out, edge(e))
		}
		return out
	}
	rep, part, angle := *p, *p.Part, *p.Part.Angle
	part.Angle = &angle
	rep.Part = &part
	part.Outline = ring(part.Outline)
	part.Box = part.Outline.Bounds()
	part.Holes = nil
	for _, h := range p.Part.Holes {
		part.Holes = append(part.Holes, ring(h))
	}
	part.Features = slices.Clone(part.Features)
	for i := range part.Features {
		f := &part.Features[i]
		f.At, f.From, f.To = point(f.At), point(f.From), point(f.To)
		f.Ring, f.Open = ring(f.Ring), ring(f.Open)
		f.Mouth = [2]geom.Point{point(f.Mouth[0]), point(f.Mouth[1])}
	}
	toe := point(angle.Heel[0].Add(angle.Legs[0].Toe)).Sub(point(angle.Heel[0]))
	angle.Legs[0].Toe, angle.Legs[1].Toe = toe, toe.Mul(-1)
	for i := range angle.Legs {
		angle.Legs[i].Ring = ring(angle.Legs[i].Ring)
	}
	angle.Heel = [2]geom.Point{point(angle.Heel[0]), point(angle.Heel[1])}
	rep.Findings = movedFindings(p.Findings, fold, point)
	return &rep
}

// movedFindings moves the places of findings. Those about features lie in the
// part's frame; others lie on the drawing, and are folded out like the leg that
// they lie in, or have no place in the picture.
func movedFindings(list []check.Finding, fold fromDrawing, point func(geom.Point) geom.Point) []check.Finding {
	out := slices.Clone(list)
	for i := range out {
		f := &out[i]
		if f.To != nil {
			to := point(*f.To)
			f.To = &to
		}
		if !f.HasAt {
			continue
		}
		if len(f.Features) == 0 && fold != nil {
			if f.At, f.HasAt = fold(f.At); !f.HasAt {
				continue
			}
		}
		f.At = point(f.At)
	}
	return out
}

// cutsOf finds what a long angle may be shortened by: stretches along X in which
// only edges along the heel lie, the longest first, and no more of them than
// needed. They come in the order of X.
func cutsOf(p *check.PartReport, sheet []check.Finding) [][2]float64 {
	b := partBox(p.Part)
	if !(b.Height > 0) || !finite(b.Width) || b.Width <= slenderMost*b.Height {
		return nil
	}
	pad := 0.3 * b.Height
	var kept [][2]float64
	keep := func(from, to float64) { kept = append(kept, [2]float64{from - pad, to + pad}) }
	keepEdges := func(r geom.Ring, all bool) {
		for _, e := range r {
			if all || e.IsArc() || e.From.Y != e.To.Y && math.Abs(e.From.Y-e.To.Y) > 1e-6 {
				box := e.Bounds()
				keep(box.Min.X, box.Max.X)
			}
		}
	}
	keepEdges(p.Part.Outline, false)
	keep(b.MinX, b.MinX)
	keep(b.MaxX, b.MaxX)
	for _, h := range p.Part.Holes {
		keepEdges(h, true)
	}
	for i := range p.Part.Features {
		f := &p.Part.Features[i]
		if f.IsInside() || f.Kind == features.Notch {
			keep(f.At.X-f.DiameterMM/2, f.At.X+f.DiameterMM/2)
			keepEdges(f.Ring, true)
		}
		if f.Kind == features.Bend || f.Kind == features.Mark {
			keepEdges(f.Open, true)
			keep(min(f.From.X, f.To.X), max(f.From.X, f.To.X))
		}
	}
	for _, list := range [][]check.Finding{p.Findings, sheet} {
		for i := range list {
			if f := &list[i]; f.HasAt {
				keep(f.At.X, f.At.X)
				if f.To != nil {
					keep(f.To.X, f.To.X)
				}
			}
		}
	}
	for _, k := range kept {
		if !finite(k[0] + k[1]) {
			return nil
		}
	}
	slices.SortFunc(kept, func(a, b [2]float64) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	var gaps [][2]float64
	end := kept[0][1]
	for _, k := range kept[1:] {
		if k[0] > end+0.2*b.Height {
			gaps = append(gaps, [2]float64{end, k[0]})
		}
		end = max(end, k[1])
	}
	// Of equal gaps the one further left is first, within what rounding does.
	slices.SortStableFunc(gaps, func(a, b [2]float64) int {
		return cmp.Compare(math.Round((b[1]-b[0])*100), math.Round((a[1]-a[0])*100))
	})
	need := b.Width - slenderMost*b.Height
	var cuts [][2]float64
	taken := 0.0
	for _, g := range gaps {
		if len(cuts) == breaksMost || taken >= need {
			break
		}
		if w := g[1] - g[0]; taken+w > need { // the middle of it is enough
			mid := (g[0] + g[1]) / 2
			g = [2]float64{mid - (need-taken)/2, mid + (need-taken)/2}
		}
		cuts = append(cuts, g)
		taken += g[1] - g[0]
	}
	if taken < 0.15*b.Width { // it would gain nothing that one sees
		return nil
	}
	slices.SortFunc(cuts, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	return cuts
}
