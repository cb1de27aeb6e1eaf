package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
)

// scaleUp brings the drafts whose views are drawn to a scale to true size, each
// about the corner of its own box, the legs of an angle about one. All that
// follows is in true millimetres.
func (b *builder) scaleUp() error {
	if len(b.scales) == 0 {
		return nil
	}
	about := map[int]geom.Point{}
	for i := range b.angles {
		a := &b.angles[i]
		loop := a.anyLoop()
		v := b.scaleOf(loop)
		if v == nil || !(v.factor > 0) {
			continue
		}
		a.scale = b.newScale(v, b.loops[loop].box.Min)
		for k := range a.legs {
			leg := &a.legs[k]
			leg.scale(&a.scale)
			if leg.loop >= 0 {
				about[leg.loop] = a.scale.About
			}
		}
		if f := a.flat; f != nil {
			f.cut, f.shiftMM = a.scale.along(f.cut, f.across), f.shiftMM*v.factor
		}
	}
	for i := range b.drafts {
		d := &b.drafts[i]
		v := b.scaleOf(d.outline)
		if v == nil || d.dropped {
			continue
		}
		box := b.loops[d.outline].box
		if v.unsure != "" {
			d.doubts = append(d.doubts, Doubt{Code: "view-scale", Grave: true, At: box.Min, Text: v.unsure, Source: b.loops[d.outline].sources()})
		}
		if !(v.factor > 0) {
			continue
		}
		d.scale = b.newScale(v, box.Min)
		if p, ok := about[d.outline]; ok {
			d.scale.About = p
		}
		b.note(Note{Code: "view-scale", At: box.Min, HasAt: true, Source: d.scale.Source,
			Text: fmt.Sprintf("a view is drawn at %s: %s; its sizes are %s times what is drawn", d.scale.Ratio, d.scale.From, shortNumber(v.factor))})
		b.scaleDraft(d, &d.scale)
	}
	for i := range b.edgeViews {
		v := &b.edgeViews[i]
		v.thickMM = math.Round(v.thickMM*b.factorOf(v.of)*1e3) / 1e3
	}
	return nil
}

// newScale is the scale of a view about a place.
func (b *builder) newScale(v *viewScale, about geom.Point) Scale {
	return Scale{Factor: v.factor, About: about, Ratio: scaleRatio(v.factor), From: b.scaleWitness(v), Source: sourcesOf(b.infosOf(v.dims))}
}

// along scales a distance along a direction.
func (s *Scale) along(at float64, u geom.Point) float64 {
	c := s.About.Dot(u)
	return c + (at-c)*s.Factor
}

// scaleDown brings the contours back to where they are drawn once the parts are
// made: texts and places of faults are compared there.
func (b *builder) scaleDown() error {
	for i := range b.drafts {
		d := &b.drafts[i]
		if !(d.scale.Factor > 0) {
			continue
		}
		back := Scale{Factor: 1 / d.scale.Factor, About: d.scale.About}
		b.scaleLoops(d, &back)
	}
	for i := range b.instances {
		in := &b.instances[i]
		l := &b.loops[in.loop]
		in.box, in.ring = l.box, l.ring
	}
	return nil
}

func (b *builder) infosOf(dims []int) []int32 {
	var out []int32
	for _, i := range dims {
		out = append(out, b.drawnDims[i].info)
	}
	return out
}

// scaleWitness names what tells a scale.
func (b *builder) scaleWitness(v *viewScale) string {
	if len(v.dims) == 0 {
		return "the dimensions of the other views and the scale in the title block say so"
	}
	var list []string
	for _, i := range v.dims {
		d := &b.drawnDims[i]
		text := clip(d.typed)
		if text == "" || strings.Contains(text, "<>") {
			text = shortNumber(d.stated)
		}
		if list = append(list, fmt.Sprintf("%s is drawn %s long", text, shortNumber(d.length))); len(list) == 3 {
			break
		}
	}
	what := fmt.Sprintf("%d dimensions say so", len(v.dims))
	if len(v.dims) == 1 {
		what = "a dimension says so, as those of another view do"
	}
	return what + " (" + strings.Join(list, ", ") + ")"
}

// scaleDraft scales what a draft owns.
func (b *builder) scaleDraft(d *draft, s *Scale) {
	b.scaleLoops(d, s)
	for h, t := range d.threads {
		t.diameterMM *= s.Factor
		d.threads[h] = t
	}
	for i := range d.lines {
		f := &d.lines[i]
		f.At, f.From, f.To = s.actual(f.At), s.actual(f.From), s.actual(f.To)
		f.LengthMM *= s.Factor
		f.Open = scaledRing(f.Open, s)
	}
}

func (b *builder) scaleLoops(d *draft, s *Scale) {
	list := append([]int{d.outline}, d.holes...)
	list = append(list, d.marks...)
	for _, h := range d.holes {
		list = append(list, d.seats[h]...)
	}
	for _, i := range list {
		l := &b.loops[i]
		for k := range l.pieces {
			l.pieces[k].edge = scaledEdge(l.pieces[k].edge, s)
		}
		l.ring = scaledRing(l.ring, s)
		l.box = geom.Box{Min: s.actual(l.box.Min), Max: s.actual(l.box.Max)}
		l.area *= s.Factor * s.Factor
	}
}

func scaledEdge(e geom.Edge, s *Scale) geom.Edge {
	e.From, e.To = s.actual(e.From), s.actual(e.To)
	if e.IsArc() {
		e.Centre = s.actual(e.Centre)
		e.Radius *= s.Factor
	}
	return e
}

func scaledRing(r geom.Ring, s *Scale) geom.Ring {
	if r == nil {
		return nil
	}
	out := make(geom.Ring, len(r))
	for i, e := range r {
		out[i] = scaledEdge(e, s)
	}
	return out
}

// scale brings a view of a leg to true size.
func (v *legView) scale(s *Scale) {
	v.from, v.to = s.along(v.from, v.along), s.along(v.to, v.along)
	v.low, v.high = s.along(v.low, v.across), s.along(v.high, v.across)
	v.thickMM *= s.Factor
	v.rootMM *= s.Factor
	for _, lines := range [2]*[]viewLine{&v.lines, &v.others} {
		*lines = slices.Clone(*lines) // legs of one view share them
		for i := range *lines {
			(*lines)[i].edge = scaledEdge((*lines)[i].edge, s)
		}
	}
}
