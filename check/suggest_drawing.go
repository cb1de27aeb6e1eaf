package check

import (
	"cmp"
	"math"
	"slices"

	"burrside/check/change"
	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

// step is what changes of a drawing are rounded up to: 1 mm, or 1/16 in where
// the shop works in inches.
func (s *suggester) step() float64 {
	if s.prof.Units == "in" {
		return 25.4 / 16
	}
	return 1
}

// up rounds a length up to a whole step.
func (s *suggester) up(mm float64) float64 {
	return math.Ceil(mm/s.step()-1e-6) * s.step()
}

// moreSteps is how many steps beyond the least are tried, where an edge runs
// askew or round and the least is not enough.
const moreSteps = 4

// mostAway is how far a pattern or an edge may be asked to go, mm; further is
// another part (judgement, no source).
const mostAway = 60

// drawingSteps lists what the designer could be asked about a finding: ways of
// the kind that is wanted first, then the others.
func (s *suggester) drawingSteps(i int, first change.Kind) [][]change.Step {
	f := &s.rep.Findings[i]
	var of []change.Kind
	switch f.Rule {
	case "edge-distance", "web", "stripping":
		of = []change.Kind{change.Edge, change.Move, change.Pitch}
	case "hole-pitch":
		of = []change.Kind{change.Pitch, change.Move}
	case "leg-clearance", "root-fillet":
		of = []change.Kind{change.Move}
	case "tool", "die-holder", "die-clearance", "punch-ratio", "slot-hits":
		of = []change.Kind{change.Size}
	case "notch-tool", "notch-force":
		of = []change.Kind{change.Notch}
	case "throat-reach":
		of = []change.Kind{change.Move}
	}
	if f.Severity == Error {
		switch f.Rule {
		case "punch-force", "punch-ratio", "shear-row", "notch-tool", "notch-force", "web", "die-holder", "hold-down", "sliver":
			of = append(of, change.Thickness)
		}
	}
	if k := slices.Index(of, first); k >= 0 {
		of = append([]change.Kind{first}, slices.Delete(of, k, k+1)...)
	}
	var out [][]change.Step
	for _, k := range of {
		if k == change.Thickness && first != k {
			continue // only where nothing else helps
		}
		switch k {
		case change.Move:
			out = append(out, s.moves(f)...)
		case change.Edge:
			out = append(out, s.edgesOut(f)...)
		case change.Pitch:
			out = append(out, s.pitches(f)...)
		case change.Size:
			out = append(out, s.sizes(f)...)
		case change.Notch:
			out = append(out, s.notches(f)...)
		case change.Thickness:
			out = append(out, s.thicknesses()...)
		}
	}
	return out
}

// lack is how far one hole lacks what a rule asks, and away from what.
type lack struct {
	id, other string     // the hole; the other one, of a distance between two
	away      geom.Point // unit vector, from the edge to the hole
	mm        float64    // missing
	got       float64
}

// ofFinding tells that a single finding is of those that became one of the report.
func (s *suggester) ofFinding(f, g *Finding) bool {
	if s.keySets == nil {
		s.keySets = make([]map[string]bool, len(s.keys))
		for i := range s.keys {
			s.keySets[i] = make(map[string]bool, len(s.keys[i]))
			for _, k := range s.keys[i] {
				s.keySets[i][k] = true
			}
		}
	}
	for i := range s.rep.Findings {
		if &s.rep.Findings[i] == f {
			return s.keySets[i][findingKey(g)]
		}
	}
	return false
}

// lacks gives what the single findings still lack that became one of the report.
func (s *suggester) lacks(f *Finding) []lack {
	var out []lack
	for i := range s.at.pass.kept {
		g := &s.at.pass.kept[i]
		if g.Rule != f.Rule || severityRank(g) > severityRank(f) || !s.ofFinding(f, g) || len(g.Features) == 0 || g.Got == nil || g.Limit == nil || g.Limit.Unit != "mm" {
			continue
		}
		l := lack{id: g.Features[0], mm: g.Limit.Value - g.Got.Value, got: g.Got.Value}
		if g.Rule == "throat-reach" {
			l.mm = -l.mm
		}
		if len(g.Features) > 1 {
			l.other = g.Features[1]
		}
		at := g.At
		switch h := s.now(l.id); {
		case h == nil || !(l.mm > 0):
			continue
		case g.Rule == "leg-clearance" || g.Rule == "root-fillet":
			if a := s.rep.Part.Angle; a != nil {
				l.away = a.Legs[a.LegOf(h)].Toe
			}
		case g.To != nil && at.Dist(*g.To) > 1e-6:
			l.away = at.Sub(*g.To).Unit()
		case g.To != nil:
			l.away = h.At.Sub(*g.To).Unit()
		case l.other != "":
			if o := s.now(l.other); o != nil {
				l.away = h.At.Sub(o.At).Unit()
			}
		}
		if l.away.Len() > 0.5 {
			out = append(out, l)
		}
	}
	return out
}

// axes are the directions along and across the blank, both ways.
func (s *suggester) axes() [4]geom.Point {
	a := s.base.rep.Plan.Blank.AngleRad
	u := geom.Point{X: tidy(math.Cos(a)), Y: tidy(math.Sin(a))}
	if g := s.rep.Part.Angle; g != nil {
		u = g.Heel[1].Sub(g.Heel[0]).Unit()
	}
	return [4]geom.Point{u, u.Mul(-1), u.Left(), u.Left().Mul(-1)}
}

// tidy makes a cosine of a right angle exact.
func tidy(v float64) float64 {
	if r := math.Round(v); math.Abs(v-r) < 1e-9 {
		return r
	}
	return v
}

// nearest is the axis nearest to a direction, with the cosine between them.
func nearestAxis(axes [4]geom.Point, d geom.Point) (k int, cos float64) {
	for i, a := range axes {
		if c := a.Dot(d); c > cos+1e-9 {
			k, cos = i, c
		}
	}
	return k, cos
}

// moves shifts whole patterns away from what they are too near to: along one
// axis each, the least first.
func (s *suggester) moves(f *Finding) [][]change.Step {
	axes := s.axes()
	type want struct {
		group []string
		mm    [4]float64
	}
	var list []want
	put := func(id string, away geom.Point, mm float64) {
		g := s.group(id)
		if g == nil {
			return
		}
		n := slices.IndexFunc(list, func(w want) bool { return w.group[0] == g[0] })
		if n < 0 {
			n = len(list)
			list = append(list, want{group: g})
		}
		k, cos := nearestAxis(axes, away)
		list[n].mm[k] = max(list[n].mm[k], s.up(mm/max(cos, 0.5)*min(1, cos+0.3)))
	}
	for _, l := range s.lacks(f) {
		if l.other != "" {
			a, b := s.group(l.id), s.group(l.other)
			switch {
			case a == nil || b == nil || a[0] == b[0]:
				return nil // moved as one they stay as near
			case len(a) > len(b):
				put(l.other, l.away.Mul(-1), l.mm)
				continue
			}
		}
		put(l.id, l.away, l.mm)
	}
	if len(list) == 0 {
		return nil
	}
	var out [][]change.Step
	for more := range moreSteps {
		var steps []change.Step
		for _, w := range list {
			if w.mm[0] > 0 && w.mm[1] > 0 || w.mm[2] > 0 && w.mm[3] > 0 {
				return nil // between two edges that are both too near
			}
			by := geom.Point{}
			for k, mm := range w.mm {
				if mm > 0 {
					mm += float64(more) * s.step()
					if mm > mostAway {
						return out
					}
					by = by.Add(axes[k].Mul(mm))
				}
			}
			steps = append(steps, change.Step{Kind: change.Move, Features: w.group, By: by})
		}
		out = append(out, steps)
	}
	return out
}

// edgesOut moves the edges out that holes are too near to: first by the least,
// then to the next flat of the rack.
func (s *suggester) edgesOut(f *Finding) [][]change.Step {
	if s.rep.Part.Angle != nil {
		return nil
	}
	axes := s.axes()
	var out [4]float64
	for _, l := range s.lacks(f) {
		if l.other != "" {
			return nil
		}
		k, cos := nearestAxis(axes, l.away.Mul(-1))
		if cos < 0.7 {
			return nil
		}
		out[k] = max(out[k], s.up(l.mm/cos))
	}
	var least, rack []change.Step
	b := &s.base.rep.Plan.Blank
	for k, mm := range out {
		if !(mm > 0) {
			continue
		}
		if mm > mostAway {
			return nil
		}
		least = append(least, change.Step{Kind: change.Edge, Along: axes[k], ByMM: mm})
		if k >= 2 && b.Form == "bar" {
			for _, w := range s.prof.Stock.FlatWidthsMM {
				if more := w - b.WidthMM; more >= mm-1e-6 && more <= mostAway {
					rack = append(rack, change.Step{Kind: change.Edge, Along: axes[k], ByMM: more})
					break
				}
			}
		}
	}
	if len(least) == 0 {
		return nil
	}
	all := [][]change.Step{least}
	if len(rack) == 1 && len(least) == 1 {
		all = append(all, rack)
	}
	return all
}

// pitches widens the pattern whose holes are too near each other, along or
// across the blank.
func (s *suggester) pitches(f *Finding) [][]change.Step {
	axes := s.axes()
	type want struct {
		group    []string
		from, to float64
		axis     geom.Point
	}
	var best []want
	for _, l := range s.lacks(f) {
		a, b := s.group(l.id), s.group(l.other)
		if l.other == "" || a == nil || b == nil || a[0] != b[0] {
			continue
		}
		rel := s.now(l.other).At.Sub(s.now(l.id).At)
		k, _ := nearestAxis(axes, rel.Unit())
		axis := axes[k&^1]
		from := math.Abs(rel.Dot(axis))
		w := want{a, from, s.up(from + l.mm), axis}
		n := slices.IndexFunc(best, func(o want) bool { return o.group[0] == a[0] && o.axis == axis })
		switch {
		case n < 0:
			best = append(best, w)
		case w.to/w.from > best[n].to/best[n].from:
			best[n] = w
		}
	}
	if len(best) == 0 {
		return nil
	}
	var out [][]change.Step
	for more := range moreSteps {
		var steps []change.Step
		for _, w := range best {
			to := w.to + float64(more)*s.step()
			if to-w.from > mostAway {
				return out
			}
			steps = append(steps, change.Step{Kind: change.Pitch, Features: w.group, Along: w.axis, PitchMM: [2]float64{w.from, to}})
		}
		out = append(out, steps)
	}
	return out
}

// mostSizes is how many sizes of the rack are tried for one hole.
const mostSizes = 4

// sizes gives holes and slots the size of a tool of the rack, where they stay
// holes for the same bolt.
func (s *suggester) sizes(f *Finding) [][]change.Step {
	type option struct {
		w, l, off float64
	}
	var groups [][]string
	var options [][]option
	done := map[string]bool{}
	for _, id := range f.Features {
		h := s.feature(id)
		if h == nil || done[id] || h.Process != "" {
			continue
		}
		all := s.alike(id)
		for _, o := range all {
			done[o] = true
		}
		shape := map[features.Kind]string{features.RoundHole: station.Round, features.Slot: station.Slot}[h.Kind]
		var list []option
		for i := range s.prof.Punches {
			p := &s.prof.Punches[i]
			if p.Shape != shape || shape == "" {
				continue
			}
			o := option{w: p.WidthMM}
			d := h.DiameterMM
			if shape == station.Slot {
				d, o.l = h.WidthMM, p.LengthMM
				o.off = math.Abs(p.LengthMM - h.LengthMM)
				if o.off > h.LengthMM/4 {
					continue
				}
			}
			o.off += math.Abs(p.WidthMM - d)
			if o.off < 1e-6 || !sameBolt(s.prof, s.rep.Job.Code, d, p.WidthMM) && math.Abs(d-p.WidthMM) > 1e-6 {
				continue
			}
			list = append(list, o)
		}
		if len(list) == 0 {
			return nil
		}
		slices.SortStableFunc(list, func(a, b option) int {
			return cmp.Or(cmp.Compare(math.Round(a.off*1e3), math.Round(b.off*1e3)), cmp.Compare(b.w, a.w), cmp.Compare(a.l, b.l))
		})
		groups, options = append(groups, all), append(options, list)
	}
	var out [][]change.Step
	for k := range mostSizes {
		var steps []change.Step
		for i, g := range groups {
			o := options[i][min(k, len(options[i])-1)]
			steps = append(steps, change.Step{Kind: change.Size, Features: g, WidthMM: o.w, LengthMM: o.l})
		}
		if len(steps) > 0 {
			out = append(out, steps)
		}
	}
	return out
}

// sameBolt tells that two hole sizes are read as holes for the same bolts, of the
// same class: by the chosen code's list of bolts, without one by that of EN
// 1090-2, in an inch shop of AISC 360. A size that the list has not is for no
// bolt that we know.
func sameBolt(prof *shop.Profile, code string, a, b float64) bool {
	table := tableOf(code)
	rows, tol := table.metric, float64(boltTolMM)
	if len(rows) == 0 {
		rows = enRows()
	}
	if prof.Units == "in" {
		tol = boltTolInch
		if rows = table.inch; len(rows) == 0 {
			rows = aiscInch("aisc")
		}
	}
	read := func(d float64) []string {
		var out []string
		for _, r := range readRound(rows, d, tol) {
			out = append(out, r.describe())
		}
		return out
	}
	of := read(a)
	return len(of) > 0 && slices.Equal(of, read(b))
}

// notches gives a notch the width or the depth of a tool of the rack: wider
// where the tools are too wide for it, shallower where they do not go so deep.
func (s *suggester) notches(f *Finding) [][]change.Step {
	var out [][]change.Step
	if len(f.Features) == 0 {
		return nil
	}
	h := s.feature(f.Features[0])
	if h == nil || h.Kind != features.Notch || h.Shape != features.NotchRectangular {
		return nil
	}
	for i := range s.prof.Notchers {
		n := &s.prof.Notchers[i]
		if n.Shape != "rectangular" {
			continue
		}
		w, d := max(h.WidthMM, n.WidthMM), min(h.DepthMM, n.DepthMM)
		add := func(w, d float64) {
			if w-h.WidthMM <= mostAway && h.DepthMM-d <= mostAway && (w > h.WidthMM || d < h.DepthMM) {
				out = append(out, []change.Step{{Kind: change.Notch, Features: slices.Clone(f.Features), WidthMM: w, DepthMM: d}})
			}
		}
		add(w, h.DepthMM)
		add(h.WidthMM, d)
		if w > h.WidthMM && d < h.DepthMM {
			add(w, d)
		}
	}
	slices.SortStableFunc(out, func(a, b []change.Step) int {
		off := func(l []change.Step) float64 { return l[0].WidthMM - h.WidthMM + h.DepthMM - l[0].DepthMM }
		return cmp.Compare(math.Round(off(a)*1e3), math.Round(off(b)*1e3))
	})
	return out
}

// mostThicker bounds how far from the drawing's thickness a stock size may be to
// be asked about: far from twice or half of it (judgement, no source).
const mostThicker = 1.5

// thicknesses asks for the nearest stock sizes.
func (s *suggester) thicknesses() [][]change.Step {
	t := s.rep.Job.ThicknessMM
	if s.rep.Part.Angle != nil {
		return nil
	}
	list := stockThicknesses(s.prof)
	list = slices.DeleteFunc(list, func(o float64) bool { return abs(o-t) < 0.01 || o > mostThicker*t || o < t/mostThicker })
	slices.SortStableFunc(list, func(a, b float64) int {
		return cmp.Or(cmp.Compare(math.Round(abs(a-t)*1e3), math.Round(abs(b-t)*1e3)), cmp.Compare(a, b))
	})
	var out [][]change.Step
	for _, o := range list[:min(len(list), 3)] {
		out = append(out, []change.Step{{Kind: change.Thickness, ThickMM: o}})
	}
	return out
}
