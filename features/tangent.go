package features

import (
	"math"
	"slices"

	"burrside/features/geom"
)

// Where a line and an arc nearly touch, the place where they meet is badly
// known: 0.01 mm of offset move it by 0.3 mm along an arc of 4 mm, and turn a
// half circle into one of 184 degrees.
const (
	tangentOffMM = copyMM              // the line misses the arc's circle by no more
	tangentLeast = 0.1 * math.Pi / 180 // less of a kink is none
	tangentMost  = 15 * math.Pi / 180  // more is meant
	tangentMove  = 0.3                 // of the line's and the arc's length
)

// smoothTangents moves the ends of lines and arcs that nearly touch to where
// they would touch. Nothing moves by more than tangentOffMM across the contour.
func (l *loop) smoothTangents() {
	n := len(l.pieces)
	if n < 2 {
		return
	}
	off := math.Min(tangentOffMM, ofSize*l.size())
	for i := range l.pieces {
		a, b := &l.pieces[i].edge, &l.pieces[(i+1)%n].edge
		if a.IsArc() == b.IsArc() || a.IsCircle() || b.IsCircle() {
			continue
		}
		kink := math.Abs(turnBetween(*a, *b))
		if kink < tangentLeast || kink > tangentMost {
			continue
		}
		line, arc := a, b
		if a.IsArc() {
			line, arc = b, a
		}
		d := line.To.Sub(line.From)
		length := d.Len()
		foot := line.From.Add(d.Mul(arc.Centre.Sub(line.From).Dot(d) / float64(length*length)))
		move := foot.Dist(a.To)
		if math.Abs(foot.Dist(arc.Centre)-arc.Radius) > off || arc.Radius*(1-math.Cos(kink)) > off+1e-6 || move > tangentMove*length || move > tangentMove*arc.Length() {
			continue
		}
		if a.IsArc() {
			*a = bent(*a, a.From, foot)
			b.From = foot
		} else {
			*b = bent(*b, foot, b.To)
			a.To = foot
		}
	}
}

// bent is the arc between other ends that lie near its circle: its centre moves
// square to the new chord.
func bent(e geom.Edge, from, to geom.Point) geom.Edge {
	u := to.Sub(from).Unit()
	c := e.Centre.Sub(u.Mul(e.Centre.Sub(mid(from, to)).Dot(u)))
	return geom.ArcEdge(c, from, to, e.CCW)
}

// mergeArcs makes one arc of neighbours that lie on one circle within
// tangentOffMM, as an arc drawn twice a little apart leaves them. Arcs that were
// fitted to a curve stay as they were fitted.
func (l *loop) mergeArcs() {
	if len(l.pieces) < 3 {
		return
	}
	arcs := 0
	for i := range l.pieces {
		if l.pieces[i].edge.IsArc() {
			arcs++
		}
		sortUnique(&l.pieces[i].sources)
	}
	if arcs < 2 {
		return
	}
	off := math.Min(tangentOffMM, ofSize*l.size())
	out := make([]piece, 0, len(l.pieces))
	for _, p := range l.pieces {
		p.sources = slices.Clip(p.sources) // what is appended is copied, once
		if n := len(out); n == 0 || !oneArcOf(&out[n-1], &p, off) {
			out = append(out, p)
		}
	}
	if n := len(out); n > 2 && oneArcOf(&out[n-1], &out[0], off) {
		out[0] = out[n-1]
		out = out[:n-1]
	}
	for i := range out {
		sortUnique(&out[i].sources)
	}
	l.pieces = out
}

// oneArcOf lengthens the first arc by the second if they are one.
func oneArcOf(p, q *piece, off float64) bool {
	a, b := p.edge, q.edge
	if !a.IsArc() || !b.IsArc() || a.CCW != b.CCW || p.fitted && q.fitted || a.Centre.Dist(b.Centre) > off || math.Abs(a.Radius-b.Radius) > off {
		return false
	}
	sa, sb := math.Abs(a.Sweep()), math.Abs(b.Sweep())
	if sa+sb > 1.9*math.Pi {
		return false
	}
	c := b.Centre.Add(a.Centre.Sub(b.Centre).Mul(sa / (sa + sb)))
	e := bent(geom.Edge{Centre: c, Radius: a.Radius, CCW: a.CCW}, a.From, b.To)
	for _, at := range [3]geom.Point{a.Mid(), a.To, b.Mid()} {
		if math.Abs(at.Dist(e.Centre)-e.Radius) > off {
			return false
		}
	}
	p.edge = e
	p.sources = append(p.sources, q.sources...)
	p.fitted = p.fitted || q.fitted
	return true
}
