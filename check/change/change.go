// Package change says what a shop or a designer would do differently, as data,
// and carries it out on copies of shop, job and part. It judges nothing.
// Millimetres, radians.
package change

import (
	"math"
	"slices"

	"burrside/check/plan"
	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// Kind is the kind of a step; the values are those of the JSON report.
type Kind string

// The kinds: the shop's own, which need nobody's leave, and the drawing's.
const (
	Die     Kind = "die"     // another die for a punch of the rack
	Punch   Kind = "punch"   // a punch with its die
	Holder  Kind = "holder"  // a tool of the rack in another holder
	Machine Kind = "machine" // features made at another machine
	Process Kind = "process" // features made beside the machines
	Order   Kind = "order"   // features made as the plan has found that it goes
	Blank   Kind = "blank"   // other stock

	Size      Kind = "size"  // hole or slot of another size
	Move      Kind = "move"  // a pattern of holes, as one
	Pitch     Kind = "pitch" // a pattern of holes wider, about its middle
	Edge      Kind = "edge"  // an edge further out; holes stay
	Notch     Kind = "notch" // a notch of another size
	Thickness Kind = "thickness"
)

// Kinds lists every Kind.
func Kinds() []Kind {
	return []Kind{Die, Punch, Holder, Machine, Process, Order, Blank, Size, Move, Pitch, Edge, Notch, Thickness}
}

// ByShop tells that a step needs no leave of the designer.
func (k Kind) ByShop() bool {
	switch k {
	case Die, Punch, Holder, Machine, Process, Order, Blank:
		return true
	}
	return false
}

// Step is one thing done differently. What its kind does not use is zero.
type Step struct {
	Kind     Kind
	Features []string // IDs: what is moved, resized, or made otherwise

	Tool    *shop.Punch    // punch: to be bought, with one die
	Name    string         // die, holder: the punch of the rack
	On      string         // die, holder, punch: the machine that the tool is for; "" any
	DieMM   float64        // die: bore
	Holder  string         // holder: the one to use; punch: the one that takes it
	Machine string         // machine
	Process string         // process: its kind as in the shop file
	Order   string         // order: how, in words
	FlatMM  float64        // blank: width of a flat to buy
	Angle   *shop.AngleBar // blank: a rolled angle to buy
	Given   bool           // blank: it comes cut to the part's rectangle
	SizeMM  [2]float64     // blank given: length, width

	By       geom.Point // move
	Along    geom.Point // unit vector: pitch, along it; edge, outward
	ByMM     float64    // edge: how far out
	PitchMM  [2]float64 // pitch: from, to
	WidthMM  float64    // size: diameter or width; notch: width
	LengthMM float64    // size: overall length of a slot, 0 round
	DepthMM  float64    // notch
	ThickMM  float64    // thickness
}

// Apply carries out all steps on copies; what is given stays as it is. ok is
// false when a step cannot be carried out safely: a feature is not there, a
// hole would run into an edge or another hole, or the outline is not such that
// an edge can be moved by itself.
func Apply(part *features.Part, prof *shop.Profile, job plan.Job, steps []Step) (*features.Part, *shop.Profile, plan.Job, bool) {
	w := work{part: part, prof: prof, job: job}
	for i := range steps {
		if !w.do(&steps[i]) {
			return nil, nil, job, false
		}
	}
	if w.drawn && !w.settle() {
		return nil, nil, job, false
	}
	return w.part, w.prof, w.job, true
}

// work is what the steps so far have made.
type work struct {
	part  *features.Part
	prof  *shop.Profile
	job   plan.Job
	drawn bool // part is a copy
	owned bool // prof is a copy
	moved []int
}

func (w *work) do(s *Step) bool {
	if s.Kind.ByShop() {
		return w.shop(s)
	}
	if !w.drawn {
		w.part, w.drawn = copyOf(w.part), true
	}
	switch s.Kind {
	case Move:
		return w.each(s, func(f *features.Feature) bool { return shiftHole(w.part, f, s.By) })
	case Pitch:
		return w.spread(s)
	case Size:
		return w.each(s, func(f *features.Feature) bool { return resize(w.part, f, s.WidthMM, s.LengthMM) })
	case Edge:
		return stretch(w.part, s.Along, s.ByMM)
	case Notch:
		for _, id := range s.Features {
			i := indexOf(w.part, id)
			if i < 0 || !resizeNotch(w.part, i, s.WidthMM, s.DepthMM) {
				return false
			}
		}
		return len(s.Features) > 0
	case Thickness:
		if !(s.ThickMM > 0) || w.part.Angle != nil {
			return false
		}
		w.job.ThicknessMM = s.ThickMM
		if w.job.ThicknessFrom == "" {
			w.job.ThicknessFrom = w.part.Thickness.From
		}
		if w.part.Thickness.MM > 0 {
			w.part.Thickness.MM = s.ThickMM
		}
		return true
	}
	return false
}

// shop carries out a step that needs no other drawing.
func (w *work) shop(s *Step) bool {
	if !w.owned && s.Kind != Machine && s.Kind != Process && s.Kind != Order {
		p := *w.prof
		p.Punches = slices.Clone(p.Punches)
		p.Stock.FlatWidthsMM = slices.Clone(p.Stock.FlatWidthsMM)
		w.prof, w.owned = &p, true
	}
	find := func() *shop.Punch {
		for i := range w.prof.Punches {
			if p := &w.prof.Punches[i]; p.Name == s.Name && (s.On == "" || p.Machine == "" || p.Machine == s.On) {
				return p
			}
		}
		return nil
	}
	switch s.Kind {
	case Punch:
		if s.Tool == nil || len(s.Tool.Dies) == 0 {
			return false
		}
		t := *s.Tool
		t.Machine, t.Holder = s.On, s.Holder
		w.prof.Punches = append(w.prof.Punches, t)
	case Die:
		p := find()
		if p == nil || !(s.DieMM > p.WidthMM) {
			return false
		}
		p.Dies = append(slices.Clone(p.Dies), shop.Die{WidthMM: s.DieMM})
		slices.SortFunc(p.Dies, func(a, b shop.Die) int {
			if a.WidthMM < b.WidthMM {
				return -1
			}
			return 1
		})
	case Holder:
		p := find()
		if p == nil {
			return false
		}
		p.Holder = s.Holder
	case Machine, Process, Order:
		named := make(map[string]bool, len(s.Features))
		for _, id := range s.Features {
			named[id] = true
		}
		ways := slices.DeleteFunc(slices.Clone(w.job.Ways), func(y plan.Way) bool { return named[y.Feature] })
		for _, id := range s.Features {
			ways = append(ways, plan.Way{Feature: id, Machine: s.Machine, Process: s.Process, Lay: s.Kind == Order})
		}
		w.job.Ways = ways
	case Blank:
		if s.Given {
			w.job.BlankGiven = true
			return true
		}
		if s.Angle != nil {
			w.prof.Stock.Angles = append(slices.Clone(w.prof.Stock.Angles), *s.Angle)
			return true
		}
		if !(s.FlatMM > 0) {
			return false
		}
		w.prof.Stock.FlatWidthsMM = append(w.prof.Stock.FlatWidthsMM, s.FlatMM)
		slices.Sort(w.prof.Stock.FlatWidthsMM)
	}
	return true
}

// copyOf is a part of which everything that a step changes is its own.
func copyOf(p *features.Part) *features.Part {
	q := *p
	q.Outline, q.Holes, q.Features = slices.Clone(p.Outline), slices.Clone(p.Holes), slices.Clone(p.Features)
	return &q
}

func indexOf(p *features.Part, id string) int {
	return slices.IndexFunc(p.Features, func(f features.Feature) bool { return f.ID == id })
}

// each changes inside features one by one and notes which they are.
func (w *work) each(s *Step, change func(*features.Feature) bool) bool {
	at := make(map[string]int, len(w.part.Features))
	for i := range w.part.Features {
		at[w.part.Features[i].ID] = i
	}
	for _, id := range s.Features {
		i, ok := at[id]
		if !ok || !w.part.Features[i].IsInside() || !change(&w.part.Features[i]) {
			return false
		}
		w.moved = append(w.moved, i)
	}
	return len(s.Features) > 0
}

// settle works out what follows from the changes, and tells that the part is
// sound: every hole that was changed lies in the metal and apart from all others.
func (w *work) settle() bool {
	p := w.part
	p.Box = p.Outline.Bounds()
	p.PerimeterMM = p.Outline.Length()
	p.AreaMM2 = p.Outline.Area()
	for _, h := range p.Holes {
		p.AreaMM2 -= h.Area()
	}
	if !(p.AreaMM2 > 0) || math.IsInf(p.AreaMM2, 0) {
		return false
	}
	boxes := make([]geom.Box, len(p.Features))
	if len(w.moved) > 0 {
		for i := range p.Features {
			if f := &p.Features[i]; f.IsInside() && len(f.Ring) > 0 {
				boxes[i] = f.Ring.Bounds()
			}
		}
	}
	for _, i := range w.moved {
		f := &p.Features[i]
		if f.CrossesOutline || len(f.Ring) == 0 || !within(p, f) {
			return false
		}
		box := f.Ring.Bounds().Grow(leastMetalMM)
		for k := range p.Features {
			g := &p.Features[k]
			if k == i || !g.IsInside() || len(g.Ring) == 0 || !box.Overlaps(boxes[k]) {
				continue
			}
			if _, _, d := geom.RingDist(f.Ring, g.Ring); d < leastMetalMM || g.Ring.Inside(f.Ring[0].From, 0) == geom.In || f.Ring.Inside(g.Ring[0].From, 0) == geom.In {
				return false
			}
		}
	}
	return true
}

// leastMetalMM is what must be left about a hole for a part to be one at all;
// whether it is enough the rules tell.
const leastMetalMM = 0.5

// within tells that a hole lies wholly in the metal: of an angle in its own leg.
func within(p *features.Part, f *features.Feature) bool {
	rings := []geom.Ring{p.Outline}
	if a := p.Angle; a != nil {
		leg := a.LegAt(f.At)
		if r := a.Legs[leg].Ring; len(r) > 0 {
			rings = append(rings, r)
		}
		for _, e := range f.Ring {
			if a.LegAt(e.From) != leg || a.LegAt(e.Mid()) != leg {
				return false
			}
		}
	}
	for _, r := range rings {
		for _, e := range f.Ring {
			if r.Inside(e.From, 0) != geom.In || r.Inside(e.Mid(), 0) != geom.In {
				return false
			}
		}
		if _, _, d := geom.RingDist(f.Ring, r); d < leastMetalMM {
			return false
		}
	}
	return true
}
