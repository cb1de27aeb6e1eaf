package features

import (
	"math"

	"burrside/features/geom"
)

const (
	// clipGussetShare: on an outline of at most five sides a skew line is a
	// clip only up to this share of the edges beside it; above it is the side
	// of a gusset. A line across a corner of the part's box is a clip of any size.
	clipGussetShare = 0.4
	clipGussetSides = 5
	// boxMM is how near a clip's corner lies to the corner of the box.
	boxMM = 0.1
	// mitreRad is how far a straight cut is from square and parallel to the
	// part's own axes before it is a mitre; less is a saw's or shear's error.
	mitreRad = 1 * math.Pi / 180
	// evenShare: sides of a regular outline are equal within this share.
	evenShare = 0.01
)

// edges makes the features of what is left of the outline when all bites are
// closed: clips, corner radii, arc cuts and straight cuts.
func (o *outlineReading) edges() {
	m := o.m
	regular := m.isRegular()
	for k, n := 0, m.head; k < m.live; k, n = k+1, m.nodes[n].next {
		x := &m.nodes[n]
		o.corner(x.joint)
		if x.virtual {
			continue
		}
		if x.e.IsArc() {
			o.arcCut(x)
			continue
		}
		if v, ok := m.clipAt(n); ok && !regular {
			k := o.add(o.clip(x.e, v))
			f := &o.out[k]
			o.metal(x, k, f)
			continue
		}
		o.straightCut(x, regular)
	}
}

// metal gives the free spans of side x to feature k and returns the first and
// the last of them; n is how many there are.
func (o *outlineReading) metal(x *node, k int, f *Feature) (first, last span, n int) {
	f.LengthMM = 0
	for i := 0; i < x.n; i++ {
		s := (x.first + i) % len(o.owner)
		if o.owner[s] != 0 {
			continue
		}
		o.owner[s] = k + 1
		if n == 0 {
			first = o.m.spans[s]
		}
		last = o.m.spans[s]
		n++
		f.LengthMM += last.e.Length()
	}
	return first, last, n
}

// straightCut is one straight cut: all pieces of one line, notches between
// them left out of the length of metal.
func (o *outlineReading) straightCut(x *node, regular bool) {
	k := o.add(Feature{Kind: StraightCut, AngleRad: lineAngle(x.e.StartDir())})
	f := &o.out[k]
	first, last, n := o.metal(x, k, f)
	if n == 0 { // nothing but notches
		o.out = o.out[:k]
		return
	}
	f.From, f.To = first.e.From, last.e.To
	f.CutLengthMM = f.From.Dist(f.To)
	f.At = f.From.Add(f.To).Mul(0.5)
	if a := math.Mod(angleTo(x.e, o.m.frame.u), math.Pi/2); !regular && a > mitreRad && a < math.Pi/2-mitreRad {
		f.Subkind = "mitre"
	}
}

// arcCut is one convex arc of the outline, notches left out of its length; a
// tangent arc between two straight sides is a corner radius.
func (o *outlineReading) arcCut(x *node) {
	kind := ArcCut
	p, q := &o.m.nodes[x.prev], &o.m.nodes[x.next]
	if !p.e.IsArc() && !q.e.IsArc() && !p.virtual && !q.virtual && x.e.CCW && x.e.Sweep() < math.Pi-tangentRad &&
		math.Abs(turnRad(p.e.EndDir(), x.e.StartDir())) < tangentRad && math.Abs(turnRad(x.e.EndDir(), q.e.StartDir())) < tangentRad {
		kind = CornerRadius
	}
	k := o.add(Feature{Kind: kind, RadiusMM: x.e.Radius, SweepRad: math.Abs(x.e.Sweep()), At: x.e.Mid()})
	f := &o.out[k]
	first, last, n := o.metal(x, k, f)
	switch {
	case n == 0:
		o.out = o.out[:k]
	case x.e.IsCircle() && n == 1 && !first.e.IsCircle():
		f.At = first.e.Mid()
	case x.e.IsCircle():
		// The lowest place on the metal.
		low := geom.Point{X: x.e.Centre.X, Y: x.e.Centre.Y - x.e.Radius}
		f.At = low
		if n > 1 {
			best := math.Inf(1)
			for i := 0; i < x.n; i++ {
				if s := (x.first + i) % len(o.owner); o.owner[s] == k+1 {
					if mid := o.m.spans[s].e.Mid(); mid.Dist(low) < best {
						best, f.At = mid.Dist(low), mid
					}
				}
			}
		}
	case n > 1 && len(x.bites) > 0:
		f.At = ringArc(x.e.Centre, x.e.Radius, first.e.From, last.e.To, true).Mid()
	}
}

// clipAt tells whether side n cuts a corner off, and where that corner is.
func (m *mender) clipAt(n int) (geom.Point, bool) {
	x := &m.nodes[n]
	p, q := &m.nodes[x.prev], &m.nodes[x.next]
	if m.live < 4 || p.virtual || q.virtual || x.joint.bite > 0 || p.joint.bite > 0 || len(x.bites) > 0 {
		return geom.Point{}, false
	}
	v, ok := clipCorner(p.e, x.e, q.e)
	if !ok {
		return v, false
	}
	a, b := v.Dist(p.e.To), v.Dist(q.e.From)
	// Across a corner of the box, between edges that lie on the box.
	c := m.frame.coords(v)
	nearX := math.Min(math.Abs(c.X-m.frame.lo.X), math.Abs(c.X-m.frame.hi.X)) < boxMM
	nearY := math.Min(math.Abs(c.Y-m.frame.lo.Y), math.Abs(c.Y-m.frame.hi.Y)) < boxMM
	if nearX && nearY && m.frame.follows(p.e) && m.frame.follows(q.e) {
		return v, true
	}
	// A side that lies on the box is an edge of the blank.
	if m.frame.follows(x.e) {
		return v, false
	}
	share := clipShare
	if m.live <= clipGussetSides {
		share = clipGussetShare
	}
	return v, math.Max(a, b) <= share*math.Min(p.e.Length(), q.e.Length())
}

// follows tells whether e is parallel to one of the frame's axes.
func (f frame) follows(e geom.Edge) bool {
	a := math.Mod(angleTo(e, f.u), math.Pi/2)
	return a <= squareRad || a >= math.Pi/2-squareRad
}

// isRegular tells whether the mended outline is a regular polygon of at least
// five sides: its skew sides are then no clips.
func (m *mender) isRegular() bool {
	if m.live < 5 {
		return false
	}
	l := m.nodes[m.head].e.Length()
	want := 2 * math.Pi / float64(m.live)
	for k, n := 0, m.head; k < m.live; k, n = k+1, m.nodes[n].next {
		e := m.nodes[n].e
		if e.IsArc() || m.nodes[n].virtual || math.Abs(e.Length()-l) > evenShare*l || math.Abs(m.turnAfter(n)-want) > squareRad {
			return false
		}
	}
	return true
}

// leastRect is the least rectangle about r. Of rectangles of equal area (a
// triangle has three) the one with the least long side is taken, so that a
// turn of the part does not change its numbers.
func leastRect(r geom.Ring) geom.Rect {
	hull := geom.Hull(r)
	best := geom.LeastRectangle(r)
	area := best.Width * best.Height
	// No rectangle about the hull is smaller than the hull: a hull whose pieces
	// run back by a rounding has led the walk around it astray.
	if !(area >= hull.Area()*(1-1e-6)) {
		area = math.Inf(1)
	} else if len(hull) > 400 {
		return best
	}
	for _, e := range hull {
		if e.IsArc() || e.Length() < lineMM {
			continue
		}
		u := e.StartDir()
		v := u.Left()
		x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, h := range hull {
			x1, y1 = math.Max(x1, supportMax(h, u)), math.Max(y1, supportMax(h, v))
			x0, y0 = math.Min(x0, -supportMax(h, u.Mul(-1))), math.Min(y0, -supportMax(h, v.Mul(-1)))
		}
		w, h := x1-x0, y1-y0
		long := math.Max(w, h)
		if w*h < area*(1-1e-7) || w*h < area*(1+1e-7) && long < best.Width*(1-1e-5) {
			c := u.Mul((x0 + x1) / 2).Add(v.Mul((y0 + y1) / 2))
			a := lineAngle(u)
			if h > w {
				a = lineAngle(v)
			}
			best = geom.Rect{Centre: c, AngleRad: a, Width: long, Height: math.Min(w, h)}
			area = math.Min(area, w*h)
		}
	}
	return best
}
