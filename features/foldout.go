package features

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

const (
	// heelMM is how far an edge may lie off the heel's line to be part of it.
	heelMM = 0.05
	// heelJoinMM is how far the ends of the two legs may differ at the heel.
	heelJoinMM = 0.3
	// squareEndRad is how far an end may be off square and still be cut square.
	squareEndRad = 0.5 * math.Pi / 180
)

// LegView is one leg of an angle as a view shows it.
type LegView struct {
	Outline geom.Ring     // counter-clockwise, simplified
	Holes   []geom.Ring   // counter-clockwise
	Heel    [2]geom.Point // the line of the heel: from the start of the length, the same end in both legs
	Toe     geom.Point    // unit vector square to the heel, toward the toe
}

// edgeOrigin is where an edge of a folded-out outline comes from: the leg and
// the edge of its ring.
type edgeOrigin struct{ leg, edge int }

// folded is an angle's part with the origin of what it is made of.
type folded struct {
	part  Part
	edges []edgeOrigin // of part.Outline
	holes []edgeOrigin // of part.Holes: the leg and its hole; hole -1 opened at the heel
}

// FoldOut makes one angle of two legs: leg b is laid beside leg a about the
// heel, the features of each leg are recognised in its own outline, and what is
// one cut through both legs becomes one feature. Sections, texts and sources are
// left to the caller. The error tells why the two do not make an angle.
func FoldOut(legs [2]LegView) (Part, error) {
	f, err := foldOut(legs)
	return f.part, err
}

func foldOut(legs [2]LegView) (folded, error) {
	var out folded
	a := &Angle{Heel: legs[0].Heel}
	along := a.Heel[1].Sub(a.Heel[0]).Unit()
	a.Legs[0].Toe, a.Legs[1].Toe = legs[0].Toe, legs[0].Toe.Mul(-1)
	b := &legs[1]
	alongB := b.Heel[1].Sub(b.Heel[0]).Unit()
	mirror := (along.Cross(a.Legs[1].Toe) < 0) != (alongB.Cross(b.Toe) < 0)
	in := geom.NewAlign(b.Heel[0], alongB, a.Heel[0], along, mirror)
	a.Legs[1].Move = in.Inverse()

	p := Part{Form: FormAngle, Angle: a, Clean: true}
	for i := range legs {
		leg := &a.Legs[i]
		leg.Drawn, leg.Ring = true, legs[i].Outline
		holes := legs[i].Holes
		if i == 1 {
			leg.Ring = moved(leg.Ring, in)
			holes = nil
			for _, h := range legs[1].Holes {
				holes = append(holes, moved(h, in))
			}
		}
		low, high := math.Inf(1), math.Inf(-1)
		for _, e := range leg.Ring {
			box := a.along(e)
			low, high = min(low, box[0]), max(high, box[1])
		}
		a.LegMM[i] = leg.Ring.Support(leg.Toe) - a.Heel[0].Dot(leg.Toe)
		a.LengthMM = max(a.LengthMM, high-low)
		for k, h := range holes {
			f := recogniseInside(h)
			f.Hole, f.Ring, f.Leg = len(p.Holes), h, legName(i)
			p.Holes = append(p.Holes, h)
			p.Features = append(p.Features, f)
			out.holes = append(out.holes, edgeOrigin{i, k})
		}
	}
	rings, origins, err := a.union()
	if err != nil {
		return folded{part: p}, err
	}
	p.Outline, out.edges = rings[0], origins[0]
	index := map[edgeOrigin]int{}
	for i, o := range out.edges {
		index[o] = i
	}
	var found [2][]Feature
	for i := range legs {
		read := readOutline(a.Legs[i].Ring)
		if read.spent {
			p.Doubts = append(p.Doubts, Doubt{Code: "reading-doubt", At: a.Legs[i].Ring[0].From,
				Text: fmt.Sprintf("the outline of leg %s is too ragged to tell every notch apart; what is left was taken as free notches", legName(i))})
		}
		found[i] = a.legFeatures(i, read.features, index)
	}
	p.Features = append(p.Features, mergeEnds(a, found)...)
	owned := make([]bool, len(p.Outline))
	for _, f := range p.Features {
		for _, e := range f.Edges {
			owned[e] = true
		}
	}
	for i, o := range out.edges {
		if !owned[i] { // where one leg goes on and the other is cut away
			p.Features = append(p.Features, a.heelEdge(p.Outline[i], i, o))
		}
	}
	for i, r := range rings[1:] {
		f := recogniseInside(r.CCW())
		f.Hole, f.Ring = len(p.Holes), r.CCW()
		f.Note = "cut through the heel"
		p.Holes = append(p.Holes, r.CCW())
		p.Features = append(p.Features, f)
		out.holes = append(out.holes, edgeOrigin{origins[1+i][0].leg, -1})
	}
	p.Box, p.PerimeterMM, p.AreaMM2 = p.Outline.Bounds(), p.Outline.Length(), p.Outline.Area()
	for _, h := range p.Holes {
		p.AreaMM2 -= h.Area()
	}
	for i := range p.Features {
		f := &p.Features[i]
		f.FromHeelMM, f.FromStartMM = a.FromHeelMM(f.At), a.FromStartMM(f.At)
		if !f.IsInside() {
			f.Hole = -1
		}
	}
	numberFeatures(p.Features)
	p.Patterns = findPatterns(p.Features)
	p.DrawnAt = []Placement{{Origin: p.Box.Min}}
	out.part = p
	return out, nil
}

// moved is a ring brought elsewhere, counter-clockwise again. Edge i of a ring
// turned over becomes edge n-1-i.
func moved(r geom.Ring, m geom.Motion) geom.Ring {
	out := r.Apply(m)
	if m.Mirror {
		out = out.Reverse()
	}
	return out
}

// along gives how far an edge reaches along the heel, from its start.
func (a *Angle) along(e geom.Edge) [2]float64 {
	u := a.Heel[1].Sub(a.Heel[0]).Unit()
	r := geom.Ring{e}
	at := a.Heel[0].Dot(u)
	return [2]float64{-r.Support(u.Mul(-1)) - at, r.Support(u) - at}
}

// onHeel tells whether an edge lies on the heel's line.
func (a *Angle) onHeel(e geom.Edge) bool {
	return !e.IsArc() && a.FromHeelMM(e.From) <= heelMM && a.FromHeelMM(e.To) <= heelMM
}

// seam is a chain of edges of the folded-out outline.
type seam struct {
	edges   []geom.Edge
	origins []edgeOrigin
}

func (r *seam) from() geom.Point { return r.edges[0].From }
func (r *seam) to() geom.Point   { return r.edges[len(r.edges)-1].To }

// union joins the outlines of the legs along the heel. The first ring is the
// outline; the others are openings that lie across the heel.
func (a *Angle) union() (rings []geom.Ring, origins [][]edgeOrigin, err error) {
	var runs []seam
	var heels [2][]stretch
	for leg := range a.Legs {
		more, heel := a.split(leg)
		if len(heel) == 0 {
			return nil, nil, fmt.Errorf("leg %s has no edge along the heel", legName(leg))
		}
		runs, heels[leg] = append(runs, more...), heel
	}
	for leg := range heels {
		for _, s := range heels[leg] {
			for _, left := range s.without(heels[1-leg]) {
				e := geom.LineEdge(a.heelPoint(left.from), a.heelPoint(left.to))
				if left.backward {
					e = e.Reverse()
				}
				runs = append(runs, seam{[]geom.Edge{e}, []edgeOrigin{{leg, s.edge}}})
			}
		}
	}
	used := make([]bool, len(runs))
	for first := range runs {
		if used[first] {
			continue
		}
		var ring geom.Ring
		var from []edgeOrigin
		for k := first; ; {
			used[k] = true
			ring, from = append(ring, runs[k].edges...), append(from, runs[k].origins...)
			end, next := runs[k].to(), -1
			for j := range runs {
				if (!used[j] || j == first) && runs[j].from().Dist(end) <= heelJoinMM && (next < 0 || runs[j].from().Dist(end) < runs[next].from().Dist(end)) {
					next = j
				}
			}
			if next < 0 {
				return nil, nil, fmt.Errorf("the outlines of the two legs do not meet at the heel, %.1f mm from the start", a.FromStartMM(end))
			}
			if next == first {
				ring, from = closeGap(ring, from, runs[first].from())
				break
			}
			ring, from = closeGap(ring, from, runs[next].from())
			k = next
		}
		rings, origins = append(rings, ring), append(origins, from)
	}
	outer := 0
	for i := range rings {
		if rings[i].Area() > rings[outer].Area() {
			outer = i
		}
	}
	rings[0], rings[outer] = rings[outer], rings[0]
	origins[0], origins[outer] = origins[outer], origins[0]
	if !(rings[0].Area() > 0) {
		return nil, nil, fmt.Errorf("the outlines of the two legs do not make one piece")
	}
	for _, r := range rings[1:] {
		if r.Area() > 0 {
			return nil, nil, fmt.Errorf("the two legs hang together in more than one piece")
		}
	}
	return rings, origins, nil
}

// closeGap lets the last edge of a chain end where the next one begins.
func closeGap(ring geom.Ring, from []edgeOrigin, next geom.Point) (geom.Ring, []edgeOrigin) {
	last := &ring[len(ring)-1]
	if last.To == next {
		return ring, from
	}
	if !last.IsArc() {
		last.To = next
		return ring, from
	}
	return append(ring, geom.LineEdge(last.To, next)), append(from, from[len(from)-1])
}

func (a *Angle) heelPoint(alongMM float64) geom.Point {
	return a.Heel[0].Add(a.Heel[1].Sub(a.Heel[0]).Unit().Mul(alongMM))
}

// stretch is a piece of the heel's line, as distances from its start.
type stretch struct {
	from, to float64
	backward bool // the ring runs toward the start
	edge     int
}

// split parts the outline of a leg in runs between its edges on the heel, and
// those edges.
func (a *Angle) split(leg int) (runs []seam, heel []stretch) {
	ring := a.Legs[leg].Ring
	first := slices.IndexFunc(ring, a.onHeel)
	if first < 0 {
		return nil, nil
	}
	var open seam
	for k := range ring {
		i := (first + k) % len(ring)
		e := ring[i]
		if !a.onHeel(e) {
			open.edges, open.origins = append(open.edges, e), append(open.origins, edgeOrigin{leg, i})
			continue
		}
		if len(open.edges) > 0 {
			runs, open = append(runs, open), seam{}
		}
		s := stretch{from: a.FromStartMM(e.From), to: a.FromStartMM(e.To), edge: i}
		if s.from > s.to {
			s.from, s.to, s.backward = s.to, s.from, true
		}
		heel = append(heel, s)
	}
	if len(open.edges) > 0 {
		runs = append(runs, open)
	}
	return runs, heel
}

// without takes away what others cover; what is shorter than heelJoinMM is
// nothing.
func (s stretch) without(others []stretch) []stretch {
	left := []stretch{s}
	for _, o := range others {
		var next []stretch
		for _, l := range left {
			before, after := l, l
			before.to, after.from = min(l.to, o.from), max(l.from, o.to)
			for _, piece := range []stretch{before, after} {
				if piece.to-piece.from > heelJoinMM {
					next = append(next, piece)
				}
			}
		}
		left = next
	}
	return left
}

// legFeatures gives the features of a leg's outline with their edges in the
// folded-out one. What lies on the heel alone is none, nor is a notch of which
// nothing is left in the outline: it belongs to an opening across the heel.
func (a *Angle) legFeatures(leg int, fs []Feature, index map[edgeOrigin]int) []Feature {
	gone := map[string]bool{}
	var out []Feature
	for _, f := range fs {
		var edges []int
		heel := true
		for _, e := range f.Edges {
			heel = heel && a.onHeel(a.Legs[leg].Ring[e])
			if i, ok := index[edgeOrigin{leg, e}]; ok {
				edges = append(edges, i)
			}
		}
		if heel || len(edges) == 0 {
			gone[f.ID] = true
			continue
		}
		f.Edges, f.Leg = edges, legName(leg)
		out = append(out, f)
	}
	for i := range out {
		if gone[out[i].In] {
			out[i].In = ""
		}
		// Names of the two legs must not meet before all are numbered anew.
		out[i].ID = legName(leg) + out[i].ID
		if out[i].In != "" {
			out[i].In = legName(leg) + out[i].In
		}
	}
	return out
}

// mergeEnds puts the ends of the two legs together that one cut makes: straight,
// in one line across the heel.
func mergeEnds(a *Angle, found [2][]Feature) []Feature {
	taken := make([]bool, len(found[1]))
	var out []Feature
	for _, f := range found[0] {
		best := -1
		for k := range found[1] {
			if g := &found[1][k]; !taken[k] && a.oneCut(&f, g) {
				best = k
				break
			}
		}
		if best >= 0 {
			taken[best] = true
			f = a.joinCuts(f, found[1][best])
		}
		out = append(out, a.offSquare(f))
	}
	for k, f := range found[1] {
		if !taken[k] {
			out = append(out, a.offSquare(f))
		}
	}
	return out
}

// oneCut tells whether two straight cuts meet at the heel in one line.
func (a *Angle) oneCut(f, g *Feature) bool {
	if f.Kind != StraightCut || g.Kind != StraightCut {
		return false
	}
	p, q := a.heelEnd(f), a.heelEnd(g)
	if p.Dist(q) > heelJoinMM || a.FromHeelMM(p) > heelJoinMM || a.FromHeelMM(q) > heelJoinMM {
		return false
	}
	return math.Abs(f.To.Sub(f.From).Unit().Cross(g.To.Sub(g.From).Unit())) < squareEndRad
}

// heelEnd is the end of a cut that is nearer to the heel.
func (a *Angle) heelEnd(f *Feature) geom.Point {
	if a.FromHeelMM(f.From) < a.FromHeelMM(f.To) {
		return f.From
	}
	return f.To
}

func (a *Angle) joinCuts(f, g Feature) Feature {
	f.Leg = ""
	f.LengthMM += g.LengthMM
	f.Edges = append(slices.Clone(f.Edges), g.Edges...)
	slices.SortFunc(f.Edges, cmp.Compare[int])
	if a.FromHeelMM(f.From) < a.FromHeelMM(f.To) {
		f.From = g.To
	} else {
		f.To = g.From
	}
	f.CutLengthMM = f.From.Dist(f.To)
	f.At = f.From.Add(f.To).Mul(0.5)
	return f
}

// offSquare names a straight cut by its angle to the heel.
func (a *Angle) offSquare(f Feature) Feature {
	if f.Kind != StraightCut {
		return f
	}
	off := a.OffSquareRad(&f)
	if f.Subkind = ""; off > squareEndRad && off < math.Pi/2-squareEndRad {
		f.Subkind = "mitre"
	}
	return f
}

// OffSquareRad is the angle of a straight cut off square to the heel, 0 to a
// quarter turn: 0 an end cut square, a quarter turn the edge of a toe.
func (a *Angle) OffSquareRad(f *Feature) float64 {
	u := a.Heel[1].Sub(a.Heel[0]).Unit()
	return math.Asin(min(1, math.Abs(f.To.Sub(f.From).Unit().Dot(u))))
}

// heelEdge is the feature of a piece of the heel beyond which the other leg is
// cut away.
func (a *Angle) heelEdge(e geom.Edge, index int, o edgeOrigin) Feature {
	return Feature{Kind: StraightCut, Leg: legName(o.leg), At: e.Mid(), From: e.From, To: e.To, LengthMM: e.Length(), CutLengthMM: e.Length(),
		AngleRad: lineAngle(e.StartDir()), Edges: []int{index}, Hole: -1, Note: "along the heel, where the other leg is cut away"}
}
