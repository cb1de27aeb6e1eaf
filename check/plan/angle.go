package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"burrside/check/shop"
	"burrside/check/station"
	"burrside/features"
	"burrside/features/geom"
)

const (
	// atHeelMM is how far the ends of two cuts may lie apart at the heel and be
	// one cut; ten times what a saw or shear holds would still be no step.
	atHeelMM = 0.3
	// alongRad is how far off the heel's direction the edge of a toe may run.
	alongRad = 0.5 * math.Pi / 180
	// stockLegMM is how far the drawn leg may differ from the one on the rack;
	// EN 10056-2 allows legs of 50 to 100 mm to be 2 mm off (from memory), drawings round inch legs to 1 mm.
	stockLegMM = 1
)

// angleEnd is a cut through both legs, or where alone is set the end of one leg
// that no such cut makes.
type angleEnd struct {
	features []int
	off      [2]float64 // off square in each leg, rad
	skew     [2]float64 // the same with its direction: above 0 the leg grows toward the toe
	atStart  bool
}

// planAngle plans an angle: cut to length from stock, holes leg by leg.
func (pl *planner) planAngle() {
	a := pl.part.Angle
	u := a.Heel[1].Sub(a.Heel[0]).Unit()
	f, l, w := pl.prep.box(u)
	pl.layout = &layout{placing: pl.prep.place(f, l, w), blank: Blank{Form: "angle", WidthMM: w, LengthMM: l}}
	pl.layout.blank.AngleRad, pl.layout.blank.Corners = pl.layout.angle, pl.layout.corners
	pl.turned = []float64{pl.layout.angle}
	pl.sides = map[int]EdgeKind{}
	pl.angleBlank(&pl.layout.blank)
	pl.out.Blank = pl.layout.blank
	pl.angleCuts()
	pl.makes()
	pl.out.Edges = pl.edges()
	if b := &pl.out.Blank; b.Form == "angle" && pl.prof.Stock.AngleLengthMM > 0 {
		b.PiecesPerBar = PiecesPerBar(pl.prof.Stock.AngleLengthMM, trimMM, pl.lastDrop(), b.LengthMM, 0)
	}
	pl.out.Machines = pl.machineUses()
	pl.steps()
	pl.work()
}

// section is the angle's cross section with the thickness that is judged.
func (pl *planner) section() station.Section { return SectionOf(pl.part.Angle, pl.pc.ThicknessMM) }

// SectionOf is an angle's cross section in a thickness. In another thickness
// than its own the fillet is taken to be the same, and the table says nothing of
// the mass.
func SectionOf(a *features.Angle, thicknessMM float64) station.Section {
	s := station.Section{LegMM: a.LegMM, ThicknessMM: thicknessMM, RootMM: a.RootMM}
	if a.ThicknessMM > 0 && math.Abs(a.ThicknessMM-thicknessMM) > 0.01 {
		if s.RootMM == 0 && a.ToRootMM > a.ThicknessMM {
			s.RootMM = a.ToRootMM - a.ThicknessMM
		}
		return s
	}
	s.ToRootMM = a.ToRootMM
	if a.MassKgM > 0 {
		s.AreaMM2 = a.MassKgM / steelKgM3 * 1e6
	}
	return s
}

// steelKgM3 is the density at which section tables state masses; EN 10056-1.
const steelKgM3 = 7850

// angleName is the angle as stock is named: its section, else its sizes.
func (pl *planner) angleName() string {
	a := pl.part.Angle
	if a.Section != "" {
		return "angle " + a.Section
	}
	return "angle " + pl.sized(max(a.LegMM[0], a.LegMM[1]), min(a.LegMM[0], a.LegMM[1]))
}

// angleBlank is the length of angle that the part is cut from.
func (pl *planner) angleBlank(b *Blank) {
	st, a := &pl.prof.Stock, pl.part.Angle
	b.Stock = pl.angleName()
	if pl.job.BlankGiven {
		b.Form, b.Text = "given", fmt.Sprintf("%s comes cut to %s", b.Stock, pl.ln(b.LengthMM))
		return
	}
	b.Text = "cut to length from " + b.Stock
	for i := range a.LegMM {
		if !isSize(a.LegMM[i]) || !a.Legs[i].Drawn && !(a.LegMM[i] > 0) {
			b.Aspects = append(b.Aspects, station.Aspect{Rule: "blank", Grade: station.Unknown, Text: fmt.Sprintf("the width of leg %c is not known", 'a'+i)})
			return
		}
	}
	long, short := max(a.LegMM[0], a.LegMM[1]), min(a.LegMM[0], a.LegMM[1])
	kept := false
	for _, k := range st.Angles {
		kept = kept || math.Abs(k.LegMM[0]-long) <= stockLegMM && math.Abs(k.LegMM[1]-short) <= stockLegMM &&
			(!(pl.pc.ThicknessMM > 0) || math.Abs(k.ThicknessMM-pl.pc.ThicknessMM) <= 0.15)
	}
	switch {
	case kept:
	case len(st.Angles) == 0:
		b.Assumed = true
		b.Text = "blank assumed: " + b.Stock
		b.Aspects = append(b.Aspects, station.Aspect{Rule: "blank", Grade: station.Remark, Text: b.Text + ", as the shop file lists no angles"})
	default:
		b.Assumed = true
		as := station.Aspect{Rule: "blank", Grade: station.Fail, Text: "the rack has no " + b.Stock}
		if pl.prof.Buy {
			as.Grade, as.Buy = station.Care, b.Stock
			as.Fix, as.FixBy = "buy "+b.Stock, "shop"
			b.Text += ", to be bought"
		}
		b.Aspects = append(b.Aspects, as)
	}
	if st.AngleLengthMM > 0 && b.LengthMM > st.AngleLengthMM-trimMM {
		as := station.Aspect{Rule: "blank", Grade: station.Care, Got: b.LengthMM, HasGot: true, Limit: st.AngleLengthMM, HasLimit: true, Unit: "mm",
			Text: fmt.Sprintf("the part of %s takes the whole bar of %s, without the trim of %s at a mill end", pl.ln(b.LengthMM), pl.ln(st.AngleLengthMM), pl.ln(trimMM)),
			Fix:  "take a longer bar, or check the mill end and its squareness", FixBy: "shop"}
		if b.LengthMM > st.AngleLengthMM+1e-6 {
			as.Grade = station.Fail
			as.Text = fmt.Sprintf("the part of %s is longer than the bar of %s", pl.ln(b.LengthMM), pl.ln(st.AngleLengthMM))
			as.Fix, as.FixBy = "", ""
			if pl.prof.Buy {
				as.Grade, as.Buy = station.Care, fmt.Sprintf("%s, at least %s long", b.Stock, pl.ln(b.LengthMM+trimMM))
				as.Fix, as.FixBy = "buy a longer bar", "shop"
			}
		}
		b.Aspects = append(b.Aspects, as)
	}
}

// angleEnds sorts the straight features: toes that the mill made go to sides,
// cuts through both legs are returned, what is left is for other processes.
func (pl *planner) angleEnds() []angleEnd {
	a := pl.part.Angle
	u := a.Heel[1].Sub(a.Heel[0]).Unit()
	type piece struct {
		feature, leg int
		start        bool
		heel         geom.Point
		atHeel       bool
	}
	var pieces []piece
	var ends []angleEnd
	for i := range pl.part.Features {
		f := &pl.part.Features[i]
		if f.Kind != features.StraightCut || f.From.Dist(f.To) < 1e-6 {
			continue
		}
		off := a.OffSquareRad(f)
		if off > math.Pi/2-alongRad {
			leg := max(0, slices.Index([]string{"a", "b"}, f.Leg))
			if a.LegMM[leg]-a.FromHeelMM(f.At) <= onSide && a.FromHeelMM(f.At) > atHeelMM {
				pl.sides[i] = EdgeMill
			}
			continue
		}
		// The outline runs counter-clockwise: outside is on the right.
		d := f.To.Sub(f.From).Unit()
		start := d.Left().Mul(-1).Dot(u) < 0
		if f.Leg == "" {
			e := angleEnd{features: []int{i}, off: [2]float64{off, off}, atStart: start}
			if off <= alongRad {
				e.off = [2]float64{}
			}
			ends = append(ends, e)
			continue
		}
		heel := f.From
		if a.FromHeelMM(f.To) < a.FromHeelMM(f.From) {
			heel = f.To
		}
		pieces = append(pieces, piece{i, max(0, slices.Index([]string{"a", "b"}, f.Leg)), start, heel, a.FromHeelMM(heel) <= atHeelMM})
	}
	used := map[int]bool{}
	for _, p := range pieces {
		for _, q := range pieces {
			if p.leg != 0 || q.leg != 1 || used[p.feature] || used[q.feature] || !p.atHeel || !q.atHeel || p.start != q.start || p.heel.Dist(q.heel) > atHeelMM {
				continue
			}
			used[p.feature], used[q.feature] = true, true
			e := angleEnd{features: []int{p.feature, q.feature}, atStart: p.start}
			for leg, k := range e.features {
				f := &pl.part.Features[k]
				e.off[leg] = a.OffSquareRad(f)
				toe := f.From.Add(f.To).Sub(p.heel)
				e.skew[leg] = toe.Sub(p.heel).Dot(u)
				if p.start {
					e.skew[leg] = -e.skew[leg]
				}
			}
			ends = append(ends, e)
		}
	}
	// A bar end where no cut goes through both legs is cut square, and makes what
	// lies in it.
	for _, start := range []bool{true, false} {
		if slices.ContainsFunc(ends, func(e angleEnd) bool { return e.atStart == start }) {
			continue
		}
		e := angleEnd{atStart: start}
		at := pl.layout.frame.in
		for _, p := range pieces {
			f := &pl.part.Features[p.feature]
			x0, x1 := at(f.From).X, at(f.To).X
			edge := 0.0
			if !start {
				edge = pl.layout.l
			}
			if p.start == start && math.Abs(x0-edge) <= atHeelMM && math.Abs(x1-edge) <= atHeelMM {
				e.features = append(e.features, p.feature)
			}
		}
		ends = append(ends, e)
	}
	slices.SortStableFunc(ends, func(p, q angleEnd) int {
		if p.atStart != q.atStart {
			return map[bool]int{true: -1, false: 1}[p.atStart]
		}
		return cmp.Compare(slices.Min(append(slices.Clone(p.features), len(pl.part.Features))), slices.Min(append(slices.Clone(q.features), len(pl.part.Features))))
	})
	return ends
}

// angleCuts judges the cuts through both legs.
func (pl *planner) angleCuts() {
	ends := pl.angleEnds()
	if pl.job.BlankGiven {
		for _, e := range ends {
			for _, k := range e.features {
				if max(e.off[0], e.off[1]) <= alongRad {
					pl.sides[k] = EdgeUnknown
				}
			}
		}
		ends = slices.DeleteFunc(ends, func(e angleEnd) bool { return max(e.off[0], e.off[1]) <= alongRad })
	}
	turned := false
	for i := range ends {
		for j := range ends {
			for leg := range 2 {
				// Mitres to opposite sides: one grows toward the toe, the other falls.
				turned = turned || i != j && math.Abs(ends[i].skew[leg]) > 1 && math.Abs(ends[j].skew[leg]) > 1 && (ends[i].skew[leg] > 0) == (ends[j].skew[leg] > 0)
			}
		}
	}
	// A piece whose ends are alike and square needs one cut: the cut before left
	// the other end.
	square := func(e angleEnd) bool { return max(e.off[0], e.off[1]) <= alongRad }
	if len(ends) == 2 && square(ends[0]) && square(ends[1]) && ends[0].atStart != ends[1].atStart {
		ends[1].features = append(slices.Clone(ends[0].features), ends[1].features...)
		ends = ends[1:]
	}
	for _, e := range ends {
		pl.out.Cuts = append(pl.out.Cuts, pl.angleCut(e, turned))
	}
}

// angleCut asks the angle shears, and other processes, for a cut.
func (pl *planner) angleCut(e angleEnd, turned bool) Cut {
	ly, a := pl.layout, pl.part.Angle
	x := ly.l
	if e.atStart {
		x = 0
	}
	c := Cut{From: ly.frame.out(geom.Point{X: x}), To: ly.frame.out(geom.Point{X: x, Y: ly.w}), LengthMM: a.LegMM[0] + a.LegMM[1],
		OffSquareRad: max(e.off[0], e.off[1]), Features: e.features, What: "end cut", OnBar: true}
	if c.OffSquareRad <= alongRad {
		c.OffSquareRad = 0
	}
	if len(e.features) > 0 {
		length := 0.0
		for _, k := range e.features {
			length += pl.part.Features[k].LengthMM
		}
		f := &pl.part.Features[e.features[len(e.features)-1]]
		c.LengthMM, c.From, c.To = max(c.LengthMM, length), f.From, f.To
		if n := len(e.features); n > 1 && f.Leg == "b" {
			// From toe to toe, over the heel.
			g := &pl.part.Features[e.features[n-2]]
			far := func(f *features.Feature) geom.Point {
				if a.FromHeelMM(f.From) > a.FromHeelMM(f.To) {
					return f.From
				}
				return f.To
			}
			c.From, c.To = far(g), far(f)
		}
	}
	if !pl.known() {
		c.Use = pl.unknownUse("angle shear")
		return c
	}
	var uses []station.Use
	q := station.AngleCut{Section: pl.section(), OffSquareRad: e.off, Turned: turned}
	for _, m := range pl.machines {
		uses = append(uses, station.AngleShear(pl.prof, m, pl.pc, q))
	}
	uses = pl.offer(uses, []string{"saw", "thermal", "bought-cutting"}, "angle-shear", station.ProcessRequest{DiameterMM: max(a.LegMM[0], a.LegMM[1])})
	route(uses, nil)
	c.Use, c.Tried = pickUse(uses)
	return c
}

// makeAngleStraight tells how a straight edge of an angle is made that no cut
// through both legs makes.
func (pl *planner) makeAngleStraight(i int) Make {
	f := &pl.part.Features[i]
	a := pl.part.Angle
	why := "it is no cut through both legs: no angle shear makes it"
	if f.Kind == features.StraightCut && a.OffSquareRad(f) > math.Pi/2-alongRad {
		why = "it runs along the angle: no station rips a leg"
	}
	kinds := []string{"saw", "thermal", "bought-cutting"}
	if !pl.known() {
		return Make{Feature: i, MadeBy: "unknown", Use: pl.unknownUse("")}
	}
	if f.Kind == features.CornerClip {
		why = "a clipped corner of a leg: no shear takes it beside the other leg"
		kinds = append([]string{"grinder"}, kinds...)
	}
	return pl.makeByProcess(i, "edge-process", why, kinds, station.ProcessRequest{RadiusMM: max(f.Long[0], f.Long[1]), DiameterMM: f.LengthMM})
}

// legs gives the leg of a feature and the other; ok is false for one that lies
// across the heel.
func (pl *planner) legs(f *features.Feature) (own, other int, ok bool) {
	switch f.Leg {
	case "a":
		return 0, 1, true
	case "b":
		return 1, 0, true
	}
	return 0, 0, false
}

// punchLeg asks one machine for a hole in a leg.
func (pl *planner) punchLeg(k int, f *features.Feature) station.Use {
	m := pl.machines[k]
	own, other, ok := pl.legs(f)
	if !ok {
		u := station.Use{Machine: m.Name, Station: "punch", Hits: 1}
		u.Aspects = append(u.Aspects, station.Aspect{Rule: "leg-notch", Grade: station.Fail, Text: "it lies across the heel: no punch goes through the root"})
		return u
	}
	a := pl.part.Angle
	g := station.LegHole{Hole: pl.hole(f), Section: pl.section(), GaugeMM: a.FromHeelMM(f.At), LegMM: a.LegMM[own], OtherMM: a.LegMM[other]}
	if len(f.Ring) > 0 && f.Kind != features.RoundHole {
		g.EdgeMM = a.NearHeelMM(f)
		d := a.Heel[1].Sub(a.Heel[0])
		g.TurnRad = f.AngleRad - math.Atan2(d.Y, d.X)
	}
	return station.PunchLeg(pl.prof, m, pl.pc, g)
}

// besideLeg judges a notch in one leg beside the other at one machine's notcher.
func (pl *planner) besideLeg(m *shop.Machine, u station.Use, f *features.Feature) station.Use {
	n := station.LegNotch{Section: pl.section(), LeftMM: pl.part.Angle.NearHeelMM(f)}
	_, other, ok := pl.legs(f)
	if n.Through = !ok || n.LeftMM <= atHeelMM; ok {
		n.OtherMM = pl.part.Angle.LegMM[other]
	}
	u.Aspects = slices.Clip(u.Aspects)
	return station.NotchLeg(pl.prof, m, u, n)
}

// flips is how often a piece is turned over: once where both legs are punched or
// notched.
func (pl *planner) flips() int {
	var legs [2]bool
	for i := range pl.out.Makes {
		mk := &pl.out.Makes[i]
		if mk.MadeBy == "punch" || mk.MadeBy == "notch" || mk.Before != nil {
			legs[pl.part.Angle.LegOf(&pl.part.Features[mk.Feature])] = true
		}
	}
	if legs[0] && legs[1] {
		return 1
	}
	return 0
}

// angleMass weighs an angle by its section; per is the mass of 1 mm2 of leg. What
// is cut out of both legs in one plane is taken off.
func (pl *planner) angleMass(w *Work, per float64) {
	s := pl.section()
	if !isSize(s.LegMM[0]) || !isSize(s.LegMM[1]) {
		return
	}
	a := pl.part.Angle
	w.GrossKG = s.Area() * pl.layout.l * pl.pc.Material.DensityKgM3 * 1e-9
	out := max(0, pl.layout.l*(a.LegMM[0]+a.LegMM[1])-pl.part.AreaMM2)
	w.NetKG = max(0, w.GrossKG-out*per)
}

// anglePunchedOnBar tells whether the holes of an angle are punched before it is
// cut off: every one leaves metal of at least 2 t to both ends of its leg.
func (pl *planner) anglePunchedOnBar() bool {
	if !(pl.pc.ThicknessMM > 0) || len(pl.out.Cuts) == 0 || pl.job.BlankGiven {
		return false
	}
	a := pl.part.Angle
	for _, mk := range pl.out.Makes {
		f := &pl.part.Features[mk.Feature]
		if mk.Use.Station != "punch" && mk.Before == nil {
			continue
		}
		for _, c := range pl.out.Cuts {
			for _, k := range c.Features {
				g := &pl.part.Features[k]
				for _, e := range g.Edges {
					edge, ok := edgeOf(pl.part, e)
					if !ok || a.LegAt(edge.Mid()) != a.LegOf(f) {
						continue
					}
					d := edge.To.Sub(edge.From)
					for _, h := range f.Ring {
						if d.Len() > 1e-6 && nearest(h, edge) < 2*pl.pc.ThicknessMM {
							return false
						}
					}
				}
			}
		}
	}
	return true
}

func nearest(a, b geom.Edge) float64 { _, _, mm := geom.Closest(a, b); return mm }
