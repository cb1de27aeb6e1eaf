package features

import (
	"math"

	"burrside/features/geom"
)

// run is a bite as it is named: its walls and floors with rounded corners
// sharpened, in axes of the mouth: x along the mouth from its start, y into
// the metal.
type run struct {
	kind   mouthKind
	sides  []side      // sharpened, in the mouth's axes
	whole  []geom.Edge // as cut, in the mouth's axes; relief arcs left out
	mouth  geom.Point  // end of the mouth
	width  float64     // of the mouth
	corner geom.Point  // mouthCorner: the corner
	right  bool        // mouthCorner: the edges are square to each other
	bulge  float64     // mouthArc: how far the mended arc stands out of the mouth's chord
	radii  []float64   // radii of sharpened inner corners; 0 for a sharp one
	relief bool
}

// notchFeature names and measures bite b. The second result is the clips at
// the notch's mouth that are features of their own, with the spans they own.
func (m *mender) notchFeature(b *bite) (Feature, []clipAt) {
	chain := m.expand(b)
	f := Feature{Kind: Notch, Hole: -1}
	f.Mouth = [2]geom.Point{b.a, b.b}
	var clips []clipAt
	if len(chain) > 0 {
		chain, clips = m.nameBite(&f, b, chain)
	}
	f.At = f.Mouth[0].Add(f.Mouth[1]).Mul(0.5)
	f.Ring = biteRing(b, f.Mouth, chain)
	f.AreaMM2 = math.Abs(f.Ring.Area())
	return f, clips
}

// fromChord measures a bite that reaches farther than the part does, from the
// chord of its mouth: the corner where its edges would meet, or the circle that
// they are of, then lies far outside the part and says nothing about the cut.
func (m *mender) fromChord(f *Feature, b *bite) {
	d := f.Mouth[1].Sub(f.Mouth[0])
	*f = Feature{Kind: Notch, Shape: NotchFree, Hole: -1, At: f.At, Mouth: f.Mouth, Ring: f.Ring, AreaMM2: f.AreaMM2, Undercut: f.Undercut, Relief: f.Relief}
	f.WidthMM = d.Len()
	if f.WidthMM < 1e-9 {
		return
	}
	left := d.Unit().Left()
	for k := range b.n {
		e := m.spans[(b.first+k)%len(m.spans)].e
		f.DepthMM = math.Max(f.DepthMM, supportMax(e, left)-f.Mouth[0].Dot(left))
	}
}

// clipAt is a corner of a notch's mouth that is cut off.
type clipAt struct {
	sd     side
	corner geom.Point
}

// nameBite sets shape and numbers of f. It returns the chain without the clips
// at the mouth, and these.
func (m *mender) nameBite(f *Feature, b *bite, chain []span) ([]span, []clipAt) {
	name := func(a, z geom.Point, c []span, g *Feature) bool {
		g.Mouth = [2]geom.Point{a, z}
		return nameRun(g, newRun(b, a, z, c))
	}
	if name(b.a, b.b, chain, f) {
		return chain, nil
	}
	// A clip beside the mouth is a clip, if what is left of the bite then
	// has a name.
	type trial struct{ start, end bool }
	for _, t := range []trial{{true, false}, {false, true}, {true, true}} {
		a, z, c := b.a, b.b, chain
		var clips []clipAt
		ok := true
		if t.start {
			var p clipAt
			if a, c, p, ok = peelStart(b, c); ok {
				clips = append(clips, p)
			}
		}
		if ok && t.end {
			var p clipAt
			if z, c, p, ok = peelEnd(b, c); ok {
				clips = append(clips, p)
			}
		}
		if !ok {
			continue
		}
		g := Feature{Kind: Notch, Hole: -1}
		if name(a, z, c, &g) {
			*f = g
			return c, clips
		}
	}
	return chain, nil
}

// expand lists the spans of bite b, inner bites replaced by the wall that they
// are in.
func (m *mender) expand(b *bite) []span {
	starts := map[int]int{}
	for _, x := range b.inner {
		starts[m.bites[x].first] = x
	}
	total := len(m.spans)
	var out []span
	bridged := false
	for k := 0; k < b.n; {
		id := (b.first + k) % total
		if x, ok := starts[id]; ok {
			o := &m.bites[x]
			out = bridge(out, o)
			bridged = true
			k += o.n
			continue
		}
		s := span{m.spans[id].e, id, 1}
		if n := len(out); bridged && n > 0 && sameSide(out[n-1].e, s.e) {
			if s.e.IsArc() {
				out[n-1].e = joinArcs(out[n-1].e, s.e)
			} else {
				out[n-1].e = geom.LineEdge(out[n-1].e.From, s.e.To)
			}
		} else {
			out = append(out, s)
		}
		bridged = false
		k++
	}
	if n := len(out); n > 0 {
		if b.start.kind == roundedCorner && !out[0].e.IsArc() {
			out[0].e.From = b.a
		}
		if b.end.kind == roundedCorner && !out[n-1].e.IsArc() {
			out[n-1].e.To = b.b
		}
	}
	return out
}

// bridge carries the last span over the mouth of inner bite o.
func bridge(out []span, o *bite) []span {
	e := geom.LineEdge(o.a, o.b)
	if o.kind == mouthArc {
		e = ringArc(o.arc.Centre, o.arc.Radius, o.a, o.b, true)
	}
	if n := len(out); n > 0 && sameSide(out[n-1].e, e) {
		if e.IsArc() {
			out[n-1].e = joinArcs(out[n-1].e, e)
		} else {
			out[n-1].e = geom.LineEdge(out[n-1].e.From, o.b)
		}
		return out
	}
	return append(out, span{e, o.first, 0})
}

// sameSide tells whether b goes on along the line or circle of a.
func sameSide(a, b geom.Edge) bool {
	if a.IsArc() != b.IsArc() {
		return false
	}
	if !a.IsArc() {
		tol := lineMM + mouthShare*a.From.Dist(b.To)
		ref, p, q := a, b.From, b.To
		if b.Length() > a.Length() {
			ref, p, q = b, a.From, a.To
		}
		d := ref.StartDir()
		return math.Abs(d.Cross(p.Sub(ref.From))) <= tol && math.Abs(d.Cross(q.Sub(ref.From))) <= tol && a.StartDir().Dot(b.StartDir()) > 0
	}
	tol := lineMM + circleTol(a.Radius)
	return a.CCW == b.CCW && math.Abs(b.From.Dist(a.Centre)-a.Radius) <= tol && math.Abs(b.Mid().Dist(a.Centre)-a.Radius) <= tol
}

// newRun brings the chain into the axes of the mouth from a to z.
func newRun(b *bite, a, z geom.Point, chain []span) *run {
	d := b.dir
	if b.kind == mouthCorner {
		d = b.da
	}
	if l := d.Len(); l < 1e-9 {
		d = geom.Point{X: 1}
	}
	l := d.Left()
	// Depth counts from the middle of the mouth, as its ends may lie a little
	// to either side of the line.
	origin := a
	if b.kind == mouthLine {
		origin = a.Add(l.Mul(z.Sub(a).Dot(l) / 2))
	}
	in := func(p geom.Point) geom.Point {
		q := p.Sub(origin)
		return geom.Point{X: q.Dot(d), Y: q.Dot(l)}
	}
	edge := func(e geom.Edge) geom.Edge {
		e.From, e.To = in(e.From), in(e.To)
		if e.IsArc() {
			e.Centre = in(e.Centre)
		}
		return e
	}
	r := &run{kind: b.kind, mouth: in(z), width: z.Dist(a)}
	own := make([]span, len(chain))
	for i, s := range chain {
		own[i] = span{edge(s.e), s.first, s.n}
	}
	r.sides = sharpen(own, false, true)
	reliefs := map[int]bool{}
	for _, s := range r.sides {
		if s.joint.kind == reliefCorner {
			r.relief = true
			reliefs[s.joint.arc.first] = true
		}
	}
	for _, s := range own {
		if !(s.e.IsArc() && reliefs[s.first]) {
			r.whole = append(r.whole, s.e)
		}
	}
	switch b.kind {
	case mouthCorner:
		r.corner = in(b.v)
		r.right = math.Abs(turnRad(b.da, b.db)-math.Pi/2) <= squareRad
	case mouthArc:
		c := in(b.arc.Centre)
		r.bulge = b.arc.Radius - c.Y
	}
	r.squareEnds()
	for i, s := range r.sides {
		switch {
		case i == len(r.sides)-1:
		case s.joint.kind != sharpCorner:
			if s.joint.arc.e.Sweep() < 0 {
				r.radii = append(r.radii, s.joint.arc.e.Radius)
			}
		case turnRad(s.e.EndDir(), r.sides[i+1].e.StartDir()) < -tangentRad:
			r.radii = append(r.radii, 0)
		}
	}
	return r
}

// squareEnds gives a corner radius that reaches the mouth, so that nothing is
// left of the wall, its wall back, of no length.
func (r *run) squareEnds() {
	fits := func(e geom.Edge) bool {
		return e.IsArc() && !e.CCW && math.Abs(e.Sweep()) <= sharpenRad
	}
	if n := len(r.sides); n >= 2 && fits(r.sides[0].e) && !r.sides[1].e.IsArc() {
		arc := r.sides[0]
		wall := geom.LineEdge(arc.e.From, arc.e.From.Add(arc.e.StartDir().Mul(1e-3)))
		if kind, v := cornerOf(wall, arc.e, r.sides[1].e, true); kind == roundedCorner {
			r.sides[1].e.From = v
			r.sides[0].e = geom.LineEdge(arc.e.From, v)
			r.sides[0].joint = joint{kind: roundedCorner, arc: arc.span}
		}
	}
	if n := len(r.sides); n >= 2 && fits(r.sides[n-1].e) && !r.sides[n-2].e.IsArc() {
		arc := r.sides[n-1]
		wall := geom.LineEdge(arc.e.To.Sub(arc.e.EndDir().Mul(1e-3)), arc.e.To)
		if kind, v := cornerOf(r.sides[n-2].e, arc.e, wall, true); kind == roundedCorner {
			r.sides[n-2].e.To = v
			r.sides[n-2].joint = joint{kind: roundedCorner, arc: arc.span}
			r.sides[n-1].e = geom.LineEdge(v, arc.e.To)
		}
	}
}

// clipShare: a line at a notch's mouth is a clip of its own if it takes at
// most this share of the wall that it shortens.
const clipShare = 0.5

// peelStart takes a clip off the start of the chain.
func peelStart(b *bite, chain []span) (geom.Point, []span, clipAt, bool) {
	d := b.dir
	if b.kind == mouthCorner {
		d = b.da
	}
	if len(chain) < 2 || b.start.kind != sharpCorner || b.kind == mouthArc {
		return b.a, chain, clipAt{}, false
	}
	s, wall := chain[0], chain[1]
	edge := geom.LineEdge(b.a.Sub(d), b.a)
	v, ok := clipCorner(edge, s.e, wall.e)
	if !ok || s.n == 0 || v.Dist(wall.e.From) > clipShare*v.Dist(wall.e.To) || v.Dist(b.a) > clipShare*v.Dist(wall.e.To) {
		return b.a, chain, clipAt{}, false
	}
	rest := append([]span{}, chain[1:]...)
	rest[0].e = geom.LineEdge(v, wall.e.To)
	return v, rest, clipAt{side{span: s}, v}, true
}

// peelEnd takes a clip off the end of the chain.
func peelEnd(b *bite, chain []span) (geom.Point, []span, clipAt, bool) {
	d := b.dir
	if b.kind == mouthCorner {
		d = b.db
	}
	n := len(chain)
	if n < 2 || b.end.kind != sharpCorner || b.kind == mouthArc {
		return b.b, chain, clipAt{}, false
	}
	s, wall := chain[n-1], chain[n-2]
	v, ok := clipCorner(wall.e, s.e, geom.LineEdge(b.b, b.b.Add(d)))
	if !ok || s.n == 0 || v.Dist(wall.e.To) > clipShare*v.Dist(wall.e.From) || v.Dist(b.b) > clipShare*v.Dist(wall.e.From) {
		return b.b, chain, clipAt{}, false
	}
	rest := append([]span{}, chain[:n-1]...)
	rest[n-2].e = geom.LineEdge(wall.e.From, v)
	return v, rest, clipAt{side{span: s}, v}, true
}

// clipCorner is the corner that line s cuts off between lines a and b: both
// turns convex, the corner ahead of a and behind b.
func clipCorner(a, s, b geom.Edge) (geom.Point, bool) {
	if a.IsArc() || s.IsArc() || b.IsArc() {
		return geom.Point{}, false
	}
	if turnRad(a.EndDir(), s.StartDir()) < inwardRad || turnRad(s.EndDir(), b.StartDir()) < inwardRad {
		return geom.Point{}, false
	}
	if a.EndDir().Cross(b.StartDir()) <= 0 {
		return geom.Point{}, false
	}
	v, ok := meet(a, b)
	if !ok || v.Sub(a.To).Dot(a.EndDir()) <= 0 || b.From.Sub(v).Dot(b.StartDir()) <= 0 {
		return v, false
	}
	return v, true
}

// biteRing is the bite closed over its mouth, counter-clockwise.
func biteRing(b *bite, mouth [2]geom.Point, chain []span) geom.Ring {
	var r geom.Ring
	for _, s := range chain {
		r = append(r, s.e)
	}
	if len(r) == 0 {
		return nil
	}
	a, z := r[0].From, r[len(r)-1].To
	switch b.kind {
	case mouthCorner:
		r = append(r, geom.LineEdge(z, b.v), geom.LineEdge(b.v, a))
	case mouthArc:
		r = append(r, ringArc(b.arc.Centre, b.arc.Radius, z, a, false))
	default:
		r = append(r, geom.LineEdge(z, a))
	}
	if r.Area() < 0 {
		r = r.Reverse()
	}
	return r
}
