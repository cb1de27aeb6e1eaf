package features

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/measure"
)

// A view that is drawn smaller or larger than the part is told from its
// dimensions: they say what is true, the lines only what fits on the paper.

// Scale tells that a part's view is drawn at another size than the part has.
// The zero value is full size.
type Scale struct {
	Factor float64    // true size over drawn size, 5 for 1:5; 0 full size
	About  geom.Point // the place that is the same drawn and true
	Ratio  string     // as it is written on drawings, "1:5" or "2:1"
	From   string     // the witnesses, in words
	Source []Source   // of the dimensions
}

// drawn is where a place of the true part stands on the drawing.
func (s *Scale) drawn(p geom.Point) geom.Point {
	if !(s.Factor > 0) {
		return p
	}
	return s.About.Add(p.Sub(s.About).Mul(1 / s.Factor))
}

// actual is the place of the true part that is drawn at p.
func (s *Scale) actual(p geom.Point) geom.Point {
	if !(s.Factor > 0) {
		return p
	}
	return s.About.Add(p.Sub(s.About).Mul(s.Factor))
}

// shrink is drawn over true size.
func (s *Scale) shrink() float64 {
	if !(s.Factor > 0) {
		return 1
	}
	return 1 / s.Factor
}

// OnDrawing is where a place of the part's own frame stands on the drawing, in
// millimetres: leg b of an angle is folded out and a view may be drawn to a
// scale, else it is the same.
func (p *Part) OnDrawing(pt geom.Point) geom.Point {
	if p.Angle != nil {
		pt = p.Angle.OnDrawing(pt)
	}
	return p.Scale.drawn(pt)
}

// FromDrawing is the place of the part's own frame that stands at a place of the
// drawing. It is false where no view of an angle's legs has the place; of a flat
// part every place has one.
func (p *Part) FromDrawing(pt geom.Point) (geom.Point, bool) {
	inTrue := p.Scale.actual(pt)
	if p.Angle == nil {
		return inTrue, true
	}
	for i := range p.Angle.Legs {
		leg := &p.Angle.Legs[i]
		if !leg.Drawn || len(leg.Ring) == 0 {
			continue
		}
		if q := leg.Move.Inverse().Apply(inTrue); leg.Ring.Bounds().Contains(q) {
			return q, true
		}
	}
	return pt, false
}

// EdgeOnDrawing is where an edge of the part's own frame stands on the drawing.
func (p *Part) EdgeOnDrawing(e geom.Edge) geom.Edge {
	if a := p.Angle; a != nil {
		e = e.Apply(a.Legs[a.LegAt(e.Mid())].Move)
	}
	if p.Scale.Factor > 0 {
		e = scaledEdge(e, &Scale{Factor: 1 / p.Scale.Factor, About: p.Scale.About})
	}
	return e
}

// usualScales are true over drawn: ISO 5455:1979 (reductions to 1:100 and
// enlargements to 50:1, from memory), 1:2.5, 1:4, 1:25 and 4:1, which are as
// common, and those of feet and inches, 3 in to the foot down to 1/8 in to the
// foot (common practice, no source). One of 1:3 and 1:15 is met in old shops.
func usualScales() []float64 {
	return []float64{2, 2.5, 3, 4, 5, 8, 10, 12, 15, 16, 20, 24, 25, 32, 48, 50, 64, 96, 100, 0.5, 0.4, 0.25, 0.2, 0.1, 0.05, 0.02}
}

// scaleRatio writes a scale: 5 is "1:5", 0.5 is "2:1".
func scaleRatio(f float64) string {
	if f < 1 {
		return measure.FormatNumber(1/f, 3) + ":1"
	}
	return "1:" + measure.FormatNumber(f, 3)
}

// judgeScaled judges a dimension as if all were drawn f times larger.
func judgeScaled(d *drawnDim, k, f float64) dimAnswer {
	scaled := *d
	scaled.length *= f
	scaled.drawn *= f
	return judgeDim(&scaled, k)
}

// holds tells whether the drawing bears a dimension out.
func (a dimAnswer) holds() bool { return a.verdict == dimAgrees || a.verdict == dimNear }

// scaleVotes are the dimensions that end on a view.
type scaleVotes struct {
	full []int // those that are right at full size
	odd  []int // the others that say a size
}

// viewScale is what the dimensions tell of one outline and what lies in it.
type viewScale struct {
	factor float64 // 0 full size, or nothing is said
	told   bool    // dimensions tell it, of this view or one that is in line with it
	full   bool    // dimensions tell that it is drawn full size
	dims   []int   // the witnesses
	unsure string  // why it cannot be told, "" it can
}

// mostScaleWork bounds the pairs of dimensions and contours that are looked at.
const mostScaleWork = 20_000_000

// takeScales finds the views that are drawn to a scale. It runs before views are
// matched, whose thicknesses are true sizes.
func (b *builder) takeScales() error {
	k := b.sheet.Units.MM
	var odd, full []int
	for i := range b.drawnDims {
		if b.ofDetail(&b.drawnDims[i]) {
			continue
		}
		switch a := judgeDim(&b.drawnDims[i], k); {
		case a.holds():
			full = append(full, i)
		case a.verdict == dimOdd && a.says > 0:
			odd = append(odd, i)
		}
	}
	if len(odd) < 2 || len(b.drawnDims)*len(b.loops) > mostScaleWork {
		return nil // nothing speaks for a scale
	}
	b.settleChildren()
	var tops []int
	for i := range b.loops {
		if l := &b.loops[i]; !l.dead && !l.toolMark && l.parent < 0 {
			tops = append(tops, i)
		}
	}
	slices.SortStableFunc(tops, b.compareLoops)
	slices.SortStableFunc(odd, b.compareDims)
	votes := make([]scaleVotes, len(tops))
	for t, top := range tops {
		if t%16 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		within := b.withinLoop(top)
		for _, i := range odd {
			if b.dimEndsOn(&b.drawnDims[i], within) {
				votes[t].odd = append(votes[t].odd, i)
			}
		}
		for _, i := range full {
			if b.dimEndsOn(&b.drawnDims[i], within) {
				votes[t].full = append(votes[t].full, i)
			}
		}
	}
	views := make([]viewScale, len(tops))
	for t := range tops {
		views[t] = b.ownScale(&votes[t])
	}
	b.spreadScales(tops, views, votes)
	for t, top := range tops {
		v := &views[t]
		if !v.told && v.unsure == "" {
			continue
		}
		if b.scales == nil {
			b.scales = map[int]*viewScale{}
		}
		b.scales[top] = v
	}
	return nil
}

// compareDims orders dimensions, the longest first, by what they measure and
// where.
func (b *builder) compareDims(x, y int) int {
	p, q := &b.drawnDims[x], &b.drawnDims[y]
	if c := cmp.Compare(math.Round(q.length*1e3), math.Round(p.length*1e3)); c != 0 {
		return c
	}
	k := b.sheet.Units.MM
	if c := comparePlace(mid(p.from, p.to).Mul(k), mid(q.from, q.to).Mul(k)); c != 0 {
		return c
	}
	return strings.Compare(p.typed, q.typed)
}

// withinLoop lists a contour and all that lie in it.
func (b *builder) withinLoop(top int) []int {
	list := []int{top}
	for n := 0; n < len(list); n++ {
		list = append(list, b.loops[list[n]].children...)
	}
	return list
}

// dimEndsOn tells whether both ends of a dimension lie on some contours or at
// their middles; of a radius the one end that lies on the arc.
func (b *builder) dimEndsOn(d *drawnDim, loops []int) bool {
	k := b.sheet.Units.MM
	from, to := d.from.Mul(k), d.to.Mul(k)
	if !b.loops[loops[0]].box.Grow(dimEndMM).Contains(to) {
		return false
	}
	on := func(p geom.Point) bool {
		return slices.ContainsFunc(loops, func(i int) bool { return b.pointOnLoop(i, p, i != loops[0]) })
	}
	return on(to) && (d.kind == dxfread.DimRadius || on(from))
}

// pointOnLoop tells whether a point lies on a contour or, where that counts, at
// its middle.
func (b *builder) pointOnLoop(loop int, p geom.Point, middle bool) bool {
	l := &b.loops[loop]
	if !l.box.Grow(dimEndMM).Contains(p) {
		return false
	}
	return middle && l.box.Centre().Dist(p) <= dimEndMM || l.ring.Inside(p, dimEndMM) == geom.On
}

// ownScale is the scale that a view's own dimensions tell: two or more that
// agree on a usual one, none that is right at full size, and of those that fit
// neither fewer than a third as many. One dimension alone never tells a scale:
// it may be typed over.
func (b *builder) ownScale(v *scaleVotes) viewScale {
	if len(v.full) > 0 {
		return viewScale{full: true}
	}
	var s viewScale
	for _, f := range usualScales() {
		if dims := b.agreeing(v.odd, f); len(dims) > len(s.dims) {
			s.factor, s.dims = f, dims
		}
	}
	if len(s.dims) < 2 || 3*(len(v.odd)-len(s.dims)) > len(s.dims) {
		return viewScale{}
	}
	s.told = true
	return s
}

// agreeing lists the dimensions that are right at a scale.
func (b *builder) agreeing(dims []int, f float64) []int {
	var out []int
	for _, i := range dims {
		d := &b.drawnDims[i]
		if a := judgeScaled(d, b.sheet.Units.MM, f); a.holds() {
			out = append(out, i)
		}
	}
	return out
}

// spreadScales gives views without dimensions enough of their own the scale of
// those that they are drawn in line with: the edge of a plate, the other leg of
// an angle. One dimension is enough where another view has its scale. Views that
// are left on a sheet with scales cannot be told.
func (b *builder) spreadScales(tops []int, views []viewScale, votes []scaleVotes) {
	told, wholly := 0.0, true // the sheet's only scale
	for i := range views {
		switch v := &views[i]; {
		case v.full:
			wholly = false
		case v.told && told != 0 && told != v.factor:
			wholly = false
		case v.told:
			told = v.factor
		}
	}
	if told == 0 {
		return
	}
	open := func(i int) bool { return !views[i].told && !views[i].full }
	for i := range views {
		if !open(i) || len(votes[i].odd) == 0 {
			continue
		}
		for k := range views {
			if v := &views[k]; v.told && len(v.dims) >= 2 && len(b.agreeing(votes[i].odd, v.factor)) == len(votes[i].odd) {
				views[i] = viewScale{factor: v.factor, told: true, dims: votes[i].odd}
				break
			}
		}
	}
	for again := true; again; {
		again = false
		for i := range views {
			if !open(i) || len(votes[i].odd) > 0 {
				continue
			}
			for k := range views {
				if !views[k].told && !views[k].full || !b.drawnInLine(tops[i], tops[k]) {
					continue
				}
				views[i], again = viewScale{factor: views[k].factor, told: views[k].told, full: views[k].full, dims: views[k].dims}, true
				break
			}
		}
	}
	stated := b.statedScale()
	for i := range views {
		if !open(i) || len(votes[i].odd) > 0 {
			continue
		}
		if wholly && stated == told {
			views[i] = viewScale{factor: told, told: true}
			continue
		}
		views[i].unsure = fmt.Sprintf("no dimension tells at which scale this outline is drawn, and another on the sheet is drawn at %s", scaleRatio(told))
	}
}

// drawnInLine tells whether two outlines are drawn as views of one part: beside
// each other, with the same start and end.
func (b *builder) drawnInLine(i, k int) bool {
	p, q := b.loops[i].box, b.loops[k].box
	same := func(a, z, c, e float64) bool { return math.Abs(a-c) <= viewAlignMM && math.Abs(z-e) <= viewAlignMM }
	gap := boxGap(p, q)
	if gap <= 0 || gap > 2*math.Max(math.Max(p.Width(), p.Height()), math.Max(q.Width(), q.Height())) {
		return false
	}
	return same(p.Min.X, p.Max.X, q.Min.X, q.Max.X) || same(p.Min.Y, p.Max.Y, q.Min.Y, q.Max.Y)
}

// boxGap is the space between two boxes.
func boxGap(p, q geom.Box) float64 {
	x := math.Max(math.Max(p.Min.X-q.Max.X, q.Min.X-p.Max.X), 0)
	y := math.Max(math.Max(p.Min.Y-q.Max.Y, q.Min.Y-p.Max.Y), 0)
	return math.Sqrt(float64(x*x) + float64(y*y))
}

// scaleOf is what is known of the scale of the view that a contour lies in, nil
// nothing.
func (b *builder) scaleOf(loop int) *viewScale {
	if len(b.scales) == 0 {
		return nil
	}
	for range len(b.loops) {
		if s := b.scales[loop]; s != nil {
			return s
		}
		if loop = b.loops[loop].parent; loop < 0 {
			return nil
		}
	}
	return nil
}

// factorOf is true over drawn size of what a contour shows.
func (b *builder) factorOf(loop int) float64 {
	if s := b.scaleOf(loop); s != nil && s.factor > 0 {
		return s.factor
	}
	return 1
}

// factorOfDim is the factor of the view that a dimension measures: of the one
// that it ends on, else of the only one that it lies about, else of the sheet
// if all views have one.
func (b *builder) factorOfDim(d *drawnDim) float64 {
	if len(b.scales) == 0 {
		return 1
	}
	k := b.sheet.Units.MM
	from, to := d.from.Mul(k), d.to.Mul(k)
	for i := range b.edgeViews {
		v := &b.edgeViews[i]
		if b.dimEndsOn(d, []int{v.loop}) {
			return b.factorOf(v.of)
		}
	}
	on, about, all := 0.0, 0.0, 0.0
	for i := range b.drafts {
		o := b.drafts[i].outline
		f := b.factorOf(o)
		switch {
		case all == 0:
			all = f
		case all != f:
			all = 1
		}
		if box := b.loops[o].box.Grow(1); box.Contains(from) && box.Contains(to) {
			about = f
		}
		if on == 0 && b.endsOn(i, to) && (d.kind == dxfread.DimRadius || b.endsOn(i, from)) {
			on = f
		}
	}
	for _, f := range []float64{on, about, all} {
		if f > 0 {
			return f
		}
	}
	return 1
}
