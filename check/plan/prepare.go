package plan

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"

	"burrside/check/shop"
	"burrside/features"
	"burrside/features/geom"
)

// Prepared is a part with everything that its plans share, as it depends on the
// part's shape alone: for judging one part in many thicknesses and steels. The
// part must not be changed after. Safe for several goroutines.
type Prepared struct {
	ctx      context.Context // that planning ends with
	part     *features.Part
	hull     geom.Ring
	finish   []gaugeEdge
	straight []straight
	dirs     [][2]*placing // for each direction, the longer side along the length first
	disc     *placing      // nil: no disc

	mu sync.Mutex // guards what the placings work out when first asked for
}

// straight is a straight feature of the outline.
type straight struct {
	feature  int
	at, to   geom.Point // of its longest piece
	normal   geom.Point // away from the part
	ok       bool       // the part lies on one side of it
	clip     bool
	grindMM  float64 // the longer leg of a clip, 0 not known
	featured geom.Point
}

// Prepare works out what the plans of a part share.
func Prepare(part *features.Part) *Prepared { return PrepareWithin(context.Background(), part) }

// PrepareWithin is Prepare for plans that are wanted only while ctx lasts: once it
// has ended they are left unfinished and must not be used. A nil ctx never ends.
func PrepareWithin(ctx context.Context, part *features.Part) *Prepared {
	if ctx == nil {
		ctx = context.Background()
	}
	p := &Prepared{ctx: ctx, part: part}
	if len(part.Outline) == 0 {
		return p
	}
	p.hull = geom.Hull(part.Outline)
	if part.Form == features.FormAngle {
		return p
	}
	p.finish = p.gaugeEdges()
	p.straight = p.straights()
	us := p.directions()
	if arc, ok := p.isDisc(); ok {
		p.disc = p.onDisc(us[0], arc)
	}
	for _, u := range us {
		f, l, w := p.box(u)
		tf, tl, tw := turnedFrame(f, l, w)
		both := [2]*placing{p.place(f, l, w), p.place(tf, tl, tw)}
		if w > l {
			both[0], both[1] = both[1], both[0]
		}
		p.dirs = append(p.dirs, both)
	}
	return p
}

// MakePlan plans a part. It always gives a plan; what is missing shows as Unknown.
func MakePlan(part *features.Part, prof *shop.Profile, job Job) *Plan {
	return Prepare(part).Plan(prof, job)
}

// directions gives unit vectors along which the blank may lie: along straight
// pieces of the hull, longest first; at most six. A part without any lies as drawn.
func (p *Prepared) directions() []geom.Point {
	type dir struct {
		u   geom.Point
		len float64
	}
	var all []dir
	for _, e := range p.hull {
		if e.IsArc() || e.Length() < 1e-3 {
			continue
		}
		u := e.To.Sub(e.From).Unit()
		// Turned into the first quarter: a rectangle looks the same after a quarter turn.
		for !(u.X > 1e-9 && u.Y >= -1e-9) {
			u = u.Left()
		}
		merged := false
		for i := range all {
			c := all[i].u.Cross(u)
			if math.Abs(c) < 2e-4 { // 0.01 degree
				all[i].len += e.Length()
				merged = true
				break
			}
		}
		if !merged {
			all = append(all, dir{u, e.Length()})
		}
	}
	if len(all) == 0 {
		return []geom.Point{{X: 1}}
	}
	slices.SortStableFunc(all, func(a, b dir) int {
		if c := cmp.Compare(math.Round(b.len*1e3), math.Round(a.len*1e3)); c != 0 {
			return c
		}
		return cmp.Compare(math.Round(a.u.Y*1e6), math.Round(b.u.Y*1e6))
	})
	var us []geom.Point
	for _, d := range all[:min(len(all), 6)] {
		us = append(us, d.u)
	}
	return us
}

// box gives the rectangle round the part along u.
func (p *Prepared) box(u geom.Point) (f frame, l, w float64) {
	v := u.Left()
	x0, x1 := -p.hull.Support(u.Mul(-1)), p.hull.Support(u)
	y0, y1 := -p.hull.Support(v.Mul(-1)), p.hull.Support(v)
	return frame{origin: u.Mul(x0).Add(v.Mul(y0)), u: u, v: v}, x1 - x0, y1 - y0
}

// turnedFrame lays the length of a rectangle across.
func turnedFrame(f frame, l, w float64) (frame, float64, float64) {
	return frame{origin: f.origin.Add(f.u.Mul(l)), u: f.v, v: f.u.Mul(-1)}, w, l
}

// straights lists the features that are straight pieces of the outline.
func (p *Prepared) straights() []straight {
	var all []straight
	for i := range p.part.Features {
		ft := &p.part.Features[i]
		if ft.Kind != features.StraightCut && ft.Kind != features.CornerClip {
			continue
		}
		s := straight{feature: i, at: ft.From, to: ft.To, clip: ft.Kind == features.CornerClip, grindMM: max(ft.Long[0], ft.Long[1]), featured: ft.At}
		long := 0.0
		for _, k := range ft.Edges { // the longest piece gives the direction best
			if e, ok := edgeOf(p.part, k); ok && e.Length() > long+1e-9 {
				s.at, s.to, long = e.From, e.To, e.Length()
			}
		}
		if s.at.Dist(s.to) >= 1e-6 {
			// The outline runs counter-clockwise: outside is on the right.
			s.normal = s.to.Sub(s.at).Unit().Left().Mul(-1)
			// A part on both sides of the line: no straight cut makes it.
			s.ok = p.hull.Support(s.normal)-s.at.Dot(s.normal) <= onLine
		}
		all = append(all, s)
	}
	return all
}

// edgeOf gives an edge of the outline; ok is false if there is none of that number.
func edgeOf(part *features.Part, k int) (e geom.Edge, ok bool) {
	if k < 0 || k >= len(part.Outline) {
		return e, false
	}
	return part.Outline[k], true
}

// gaugeEdges lists the straight outline edges of at least 50 mm, or a quarter of
// the longest, that lie on the hull.
func (p *Prepared) gaugeEdges() []gaugeEdge {
	longest := 0.0
	for _, e := range p.part.Outline {
		if !e.IsArc() {
			longest = max(longest, e.Length())
		}
	}
	var gs []gaugeEdge
	for _, e := range p.part.Outline {
		if e.IsArc() || e.Length() < min(50, longest/4)-1e-6 || e.Length() < 1e-3 {
			continue
		}
		n := e.To.Sub(e.From).Unit().Left().Mul(-1)
		if p.hull.Support(n)-e.From.Dot(n) <= onLine {
			gs = append(gs, gaugeEdge{e.From, n, e.Length()})
		}
	}
	return gs
}

// isDisc tells whether one circle makes over 70 % of the outline, and gives an
// edge of it.
func (p *Prepared) isDisc() (arc geom.Edge, ok bool) {
	total := 0.0
	for _, e := range p.part.Outline {
		total += e.Length()
	}
	for _, e := range p.part.Outline {
		if !e.IsArc() || !e.CCW || e.Radius*2*math.Pi < 0.7*total {
			continue
		}
		run := 0.0
		for _, o := range p.part.Outline {
			if o.IsArc() && o.CCW && o.Centre.Dist(e.Centre) <= onLine && math.Abs(o.Radius-e.Radius) <= onLine {
				run += o.Length()
			}
		}
		if run > 0.7*total {
			return e, true
		}
	}
	return arc, false
}

// onDisc lays a square round the circle of a disc.
func (p *Prepared) onDisc(u geom.Point, arc geom.Edge) *placing {
	r, v := arc.Radius, u.Left()
	pg := p.place(frame{origin: arc.Centre.Add(u.Mul(-r)).Add(v.Mul(-r)), u: u, v: v}, 2*r, 2*r)
	const sides = 180 // chords of 2 degrees lie within 0.02 % of the radius
	for i := range sides {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / sides)
		pg.round = append(pg.round, geom.Point{X: r + r*cos, Y: r + r*sin})
	}
	return pg
}
