package check

import (
	"fmt"
	"math"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// exampleBuilder draws the small parts of the rules' examples: plates with
// holes, in millimetres, the bottom left corner at the origin.
type exampleBuilder struct {
	p                      *features.Part
	holes, slots, openings int
}

// exampleOutline starts a part from its outline, counter-clockwise, with no
// feature on it yet.
func exampleOutline(name string, outline geom.Ring) *exampleBuilder {
	p := &features.Part{Name: name, Form: features.FormFlat, Outline: outline, OutlineSource: make([][]features.Source, len(outline)),
		Box: outline.Bounds(), AreaMM2: outline.Area(), PerimeterMM: outline.Length(), DrawnAt: []features.Placement{{}}, Clean: true}
	return &exampleBuilder{p: p}
}

// edge adds an outline feature; its place, length and angle follow from its edges.
func (b *exampleBuilder) edge(kind features.Kind, edges ...int) *features.Feature {
	n := 1
	for i := range b.p.Features {
		if !b.p.Features[i].IsInside() && b.p.Features[i].Kind != features.Notch {
			n++
		}
	}
	f := features.Feature{ID: fmt.Sprintf("E%d", n), Kind: kind, Edges: edges, Hole: -1}
	first, last := b.p.Outline[edges[0]], b.p.Outline[edges[len(edges)-1]]
	f.From, f.To, f.At = first.From, last.To, first.From.Add(last.To).Mul(0.5)
	for _, i := range edges {
		f.LengthMM += b.p.Outline[i].Length()
	}
	f.CutLengthMM = f.From.Dist(f.To)
	if e := first; e.IsArc() {
		f.RadiusMM, f.SweepRad, f.At = e.Radius, e.Sweep(), e.Mid()
	} else {
		f.AngleRad = math.Mod(math.Atan2(f.To.Y-f.From.Y, f.To.X-f.From.X)+2*math.Pi, math.Pi)
	}
	b.p.Features = append(b.p.Features, f)
	return &b.p.Features[len(b.p.Features)-1]
}

func examplePlate(name string, width, height float64) *exampleBuilder {
	b := exampleOutline(name, geom.RingOf(geom.Point{}, geom.Point{X: width}, geom.Point{X: width, Y: height}, geom.Point{Y: height}))
	for i := range 4 {
		b.edge(features.StraightCut, i)
	}
	return b
}

// exampleMitre is a bar with its right end cut off square by an angle (degrees).
func exampleMitre(name string, length, width, off float64) *exampleBuilder {
	d := width * math.Tan(off*math.Pi/180)
	b := exampleOutline(name, geom.RingOf(geom.Point{}, geom.Point{X: length}, geom.Point{X: length - d, Y: width}, geom.Point{Y: width}))
	for i := range 4 {
		f := b.edge(features.StraightCut, i)
		if i == 1 {
			f.Subkind = "mitre"
		}
	}
	return b
}

// exampleClipped is a plate with four corners clipped at 45 degrees.
func exampleClipped(name string, w, h, c float64) *exampleBuilder {
	b := exampleOutline(name, geom.RingOf(geom.Point{X: c}, geom.Point{X: w - c}, geom.Point{X: w, Y: c}, geom.Point{X: w, Y: h - c},
		geom.Point{X: w - c, Y: h}, geom.Point{X: c, Y: h}, geom.Point{Y: h - c}, geom.Point{Y: c}))
	for i := range 8 {
		if i%2 == 0 {
			b.edge(features.StraightCut, i)
			continue
		}
		b.edge(features.CornerClip, i).Long = [2]float64{c, c}
	}
	return b
}

// exampleRounded is a plate with four corners of radius r.
func exampleRounded(name string, w, h, r float64) *exampleBuilder {
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	arc := func(cx, cy float64, a, z geom.Point) geom.Edge { return geom.ArcEdge(p(cx, cy), a, z, true) }
	b := exampleOutline(name, geom.Ring{
		geom.LineEdge(p(r, 0), p(w-r, 0)), arc(w-r, r, p(w-r, 0), p(w, r)),
		geom.LineEdge(p(w, r), p(w, h-r)), arc(w-r, h-r, p(w, h-r), p(w-r, h)),
		geom.LineEdge(p(w-r, h), p(r, h)), arc(r, h-r, p(r, h), p(0, h-r)),
		geom.LineEdge(p(0, h-r), p(0, r)), arc(r, r, p(0, r), p(r, 0)),
	})
	for i := range 8 {
		if i%2 == 0 {
			b.edge(features.StraightCut, i)
		} else {
			b.edge(features.CornerRadius, i)
		}
	}
	return b
}

// exampleNotched is a plate with a rectangular notch in the middle of its top.
func exampleNotched(name string, w, h, nw, nd float64) *exampleBuilder {
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	l, r := (w-nw)/2, (w+nw)/2
	b := exampleOutline(name, geom.RingOf(p(0, 0), p(w, 0), p(w, h), p(r, h), p(r, h-nd), p(l, h-nd), p(l, h), p(0, h)))
	b.edge(features.StraightCut, 0)
	b.edge(features.StraightCut, 1)
	top := b.edge(features.StraightCut, 2, 6)
	top.LengthMM, top.CutLengthMM = w-nw, w
	b.edge(features.StraightCut, 7)
	b.p.Features = append(b.p.Features, features.Feature{ID: "N1", Kind: features.Notch, Shape: features.NotchRectangular, At: p(w/2, h),
		WidthMM: nw, DepthMM: nd, Edges: []int{3, 4, 5}, Mouth: [2]geom.Point{p(r, h), p(l, h)}, Hole: -1,
		Ring: geom.RingOf(p(l, h-nd), p(r, h-nd), p(r, h), p(l, h)), AreaMM2: nw * nd, PerimeterMM: nw + 2*nd})
	return b
}

// exampleBent is a plate with a bend line across its middle, noted UP 90 R8.
func exampleBent(name string, w, h float64) *exampleBuilder {
	b := examplePlate(name, w, h)
	from, to := geom.Point{X: w / 2}, geom.Point{X: w / 2, Y: h}
	b.p.Features = append(b.p.Features, features.Feature{ID: "B1", Kind: features.Bend, At: from.Add(to).Mul(0.5), LengthMM: h, From: from, To: to, BentRad: math.Pi / 2, BentTo: "up", RadiusMM: 8,
		Open: geom.Ring{geom.LineEdge(from, to)}, Hole: -1})
	return b
}

func (b *exampleBuilder) inside(f features.Feature) {
	f.Hole = len(b.p.Holes)
	f.AreaMM2, f.PerimeterMM = f.Ring.Area(), f.Ring.Length()
	b.p.Holes = append(b.p.Holes, f.Ring)
	b.p.AreaMM2 -= f.AreaMM2
	b.p.Features = append(b.p.Features, f)
}

func (b *exampleBuilder) hole(x, y, d float64) {
	b.holes++
	c := geom.Point{X: x, Y: y}
	b.inside(features.Feature{ID: fmt.Sprintf("H%d", b.holes), Kind: features.RoundHole, At: c, DiameterMM: d, Ring: geom.Ring{geom.CircleEdge(c, d/2)}})
}

// slot lies along x.
func (b *exampleBuilder) slot(x, y, w, l float64) { b.slotAt(x, y, w, l, 0) }

// slotAt lies at an angle, rad.
func (b *exampleBuilder) slotAt(x, y, w, l, angle float64) {
	b.slots++
	c := geom.Point{X: x, Y: y}
	u := geom.Point{X: math.Cos(angle), Y: math.Sin(angle)}
	h, r := u.Mul((l-w)/2), u.Left().Mul(w/2)
	a, z := c.Sub(h), c.Add(h)
	ring := geom.Ring{geom.LineEdge(a.Sub(r), z.Sub(r)), geom.ArcEdge(z, z.Sub(r), z.Add(r), true),
		geom.LineEdge(z.Add(r), a.Add(r)), geom.ArcEdge(a, a.Add(r), a.Sub(r), true)}
	b.inside(features.Feature{ID: fmt.Sprintf("S%d", b.slots), Kind: features.Slot, At: c, WidthMM: w, LengthMM: l, AngleRad: angle, Ring: ring})
}

// opening is a rectangle along x with sharp corners, about its centre.
func (b *exampleBuilder) opening(x, y, l, w float64) {
	b.openings++
	p := func(dx, dy float64) geom.Point { return geom.Point{X: x + dx/2, Y: y + dy/2} }
	b.inside(features.Feature{ID: fmt.Sprintf("C%d", b.openings), Kind: features.RectangularHole, At: geom.Point{X: x, Y: y}, WidthMM: min(w, l), LengthMM: max(w, l),
		AngleRad: map[bool]float64{true: 0, false: math.Pi / 2}[l >= w], Ring: geom.RingOf(p(-l, -w), p(l, -w), p(l, w), p(-l, w))})
}

// example is the case with its job: mild steel, the thickness as stated.
func (b *exampleBuilder) example(text string, thicknessMM float64, code string) Example {
	mild := &shop.Material{Name: "mild", Group: "mild", ShearMPa: 345, ShearUpperMPa: 415, YieldMPa: 235, TensileMPa: 430, DensityKgM3: 7850,
		ClearanceShare: 0.12, Punchable: true, Source: "common practice, no source"}
	job := plan.Job{ThicknessMM: thicknessMM, ThicknessFrom: "flag", Material: mild, MaterialName: "mild", MaterialFrom: "flag", Code: code}
	if thicknessMM == 0 {
		job.ThicknessFrom = ""
	}
	return Example{Text: text, Part: b.p, Job: job}
}
