package features

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"burrside/features/geom"
)

// copyMM is how far equal parts may differ at any place.
const copyMM = 0.02

// maxAlignments bounds how many ways of laying one part on another are tried.
const maxAlignments = 720

// copyGroup is a part with its copies, the first by bottom and left.
type copyGroup struct{ members []copyMember }

type copyMember struct {
	draft    int
	angle    float64
	mirrored bool
}

// shape is what two parts are compared by: sample points of all rings, with a
// label that tells a circle's centre and size from a vertex.
type shape struct {
	samples  []sample
	centre   geom.Point // of the outline's area
	area     float64    // of the outline
	holeArea float64
	length   float64
	holes    int
	handed   bool // bends, marks or seats tell it from its mirror image
	cells    map[[2]int64][]int
	perDist  []int // samples by distance from the centre, ascending
}

type sample struct {
	at    geom.Point
	label int64 // 0 vertex, 1 middle of an edge, else a circle's diameter in hundredths
	dist  float64
}

// groupCopies finds the parts that are congruent by a rigid motion. The drafts
// are in order already; so are the groups and their members.
func (b *builder) groupCopies() ([]copyGroup, error) {
	shapes := make([]shape, len(b.drafts))
	for i := range b.drafts {
		if i%64 == 0 && b.ctx.Err() != nil {
			return nil, b.ctx.Err()
		}
		shapes[i] = b.shapeOf(&b.drafts[i])
	}
	byArea := make([]int, len(shapes))
	for i := range byArea {
		byArea[i] = i
	}
	sort.SliceStable(byArea, func(x, y int) bool { return shapes[byArea[x]].area < shapes[byArea[y]].area })
	found := make([]*copyGroup, len(shapes)) // by the first member
	var heads []int                          // of the groups, by area
	for _, i := range byArea {
		s := &shapes[i]
		placed := false
		// Areas of equal parts differ by no more than their edge times copyMM.
		for k := len(heads) - 1; k >= 0 && shapes[heads[k]].area >= s.area-copyMM*s.length; k-- {
			if b.ctx.Err() != nil {
				return nil, b.ctx.Err()
			}
			if m, ok := align(&shapes[heads[k]], s); ok && !bentOtherwise(&b.drafts[heads[k]], &b.drafts[i]) {
				m.draft = i
				g := found[heads[k]]
				g.members = append(g.members, m)
				placed = true
				break
			}
		}
		if !placed {
			found[i] = &copyGroup{members: []copyMember{{draft: i}}}
			heads = append(heads, i)
		}
	}
	var groups []copyGroup
	for _, g := range found {
		if g == nil {
			continue
		}
		slices.SortFunc(g.members, func(p, q copyMember) int { return p.draft - q.draft })
		// Angles are told from the first copy by place.
		head := g.members[0].draft
		for i := range g.members {
			m := &g.members[i]
			if m.draft == head {
				m.angle, m.mirrored = 0, false
				continue
			}
			if a, ok := align(&shapes[head], &shapes[m.draft]); ok {
				m.angle, m.mirrored = a.angle, a.mirrored
			}
		}
		groups = append(groups, *g)
	}
	sort.SliceStable(groups, func(i, j int) bool { return groups[i].members[0].draft < groups[j].members[0].draft })
	return groups, nil
}

// bentOtherwise tells that what the notes state of the bends of two drafts,
// alike in the flat, makes them different parts. What one of them leaves open
// does not.
func bentOtherwise(a, b *draft) bool {
	values := func(d *draft, of func(*Feature) string) (l []string, all bool) {
		for i := range d.lines {
			if f := &d.lines[i]; f.Kind == Bend {
				v := of(f)
				if v == "" {
					return nil, false
				}
				l = append(l, v)
			}
		}
		slices.Sort(l)
		return l, true
	}
	number := func(v float64) string {
		if v == 0 {
			return ""
		}
		return fmt.Sprintf("%.3f", v)
	}
	for _, of := range []func(*Feature) string{
		func(f *Feature) string { return f.BentTo },
		func(f *Feature) string { return number(f.BentRad) },
		func(f *Feature) string { return number(f.RadiusMM) },
	} {
		x, allX := values(a, of)
		y, allY := values(b, of)
		if allX && allY && !slices.Equal(x, y) {
			return true
		}
	}
	return false
}

func (b *builder) shapeOf(d *draft) shape {
	s := shape{area: d.ring.Area(), length: d.ring.Length(), centre: d.ring.Centroid(), holes: len(d.holes)}
	s.handed = len(d.lines) > 0
	s.addRing(d.ring, 0)
	for _, h := range d.holes {
		l := &b.loops[h]
		s.holeArea += l.area
		s.length += l.ring.Length()
		s.addRing(l.ring, 0)
		for _, k := range d.seats[h] {
			s.handed = true
			s.addRing(b.loops[k].ring, 1)
		}
		if t, ok := d.threads[h]; ok {
			centre, _, _ := l.isCircle()
			s.add(centre, -int64(math.Round(t.diameterMM*50)))
		}
	}
	for _, m := range d.marks {
		s.addRing(b.loops[m].ring, 1)
	}
	for _, f := range d.lines {
		for _, e := range f.Open {
			s.add(e.From, 2)
			s.add(e.To, 2)
			s.add(e.Mid(), 3)
		}
	}
	s.order()
	return s
}

// order sorts the samples by their distance.
func (s *shape) order() {
	s.perDist = make([]int, len(s.samples))
	for i := range s.perDist {
		s.perDist[i] = i
	}
	sort.SliceStable(s.perDist, func(x, y int) bool { return s.samples[s.perDist[x]].dist < s.samples[s.perDist[y]].dist })
}

func (s *shape) addRing(r geom.Ring, shift int64) {
	if len(r) == 1 && r[0].IsCircle() {
		// Diameters within copyMM of each other share a label or neighbour one.
		s.add(r[0].Centre, 100+shift+2*int64(math.Round(r[0].Radius*50)))
		return
	}
	for _, e := range r {
		s.add(e.From, 0)
		s.add(e.Mid(), 1)
	}
}

func (s *shape) add(p geom.Point, label int64) {
	s.samples = append(s.samples, sample{p, label, p.Dist(s.centre)})
}

// cellMM is the side of the cells that samples are found by.
const cellMM = 0.5

func (s *shape) index() {
	if s.cells != nil {
		return
	}
	s.cells = make(map[[2]int64][]int, len(s.samples))
	for i, p := range s.samples {
		c := cellOf(p.at)
		s.cells[c] = append(s.cells[c], i)
	}
}

func cellOf(p geom.Point) [2]int64 {
	return [2]int64{int64(math.Floor(p.X / cellMM)), int64(math.Floor(p.Y / cellMM))}
}

func sameLabel(a, b int64) bool {
	if a < 100 || b < 100 {
		return a == b
	}
	return (a-b)%2 == 0 && a-b <= 2 && b-a <= 2
}

// has tells whether the shape has a sample of this label at the place.
func (s *shape) has(p geom.Point, label int64) bool {
	lo, hi := cellOf(geom.Point{X: p.X - copyMM, Y: p.Y - copyMM}), cellOf(geom.Point{X: p.X + copyMM, Y: p.Y + copyMM})
	for x := lo[0]; x <= hi[0]; x++ {
		for y := lo[1]; y <= hi[1]; y++ {
			for _, i := range s.cells[[2]int64{x, y}] {
				if sameLabel(s.samples[i].label, label) && s.samples[i].at.Dist(p) <= copyMM {
					return true
				}
			}
		}
	}
	return false
}

// align lays part a on part b. Invariants go first, then exact alignment from
// the rarest distance to the centre. Of several ways the one with the least
// turn is given, unmirrored before mirrored.
func align(a, b *shape) (copyMember, bool) {
	if a.holes != b.holes || len(a.samples) != len(b.samples) || a.handed != b.handed {
		return copyMember{}, false
	}
	slack := copyMM * math.Max(a.length, b.length)
	if math.Abs(a.area-b.area) > slack || math.Abs(a.holeArea-b.holeArea) > slack || math.Abs(a.length-b.length) > copyMM*float64(len(a.samples)+8) {
		return copyMember{}, false
	}
	for k := range a.perDist {
		if math.Abs(a.samples[a.perDist[k]].dist-b.samples[b.perDist[k]].dist) > 2*copyMM {
			return copyMember{}, false
		}
	}
	b.index()
	anchor, candidates := rarest(a, b)
	if anchor < 0 {
		// All is about the centre: any turn will do.
		return copyMember{}, fits(a, b, geom.NewShift(b.centre.Sub(a.centre)))
	}
	var list []copyMember
	from := a.samples[anchor].at.Sub(a.centre)
	mirrorFrom := geom.Point{X: -from.X, Y: from.Y}
	for _, c := range candidates {
		to := b.samples[c].at.Sub(b.centre)
		list = append(list, copyMember{angle: angleBetween(from, to)})
		if !a.handed {
			list = append(list, copyMember{angle: angleBetween(mirrorFrom, to), mirrored: true})
		}
	}
	sort.SliceStable(list, func(i, j int) bool {
		p, q := list[i], list[j]
		if p.mirrored != q.mirrored {
			return q.mirrored
		}
		if x, y := math.Abs(p.angle), math.Abs(q.angle); math.Abs(x-y) > 1e-6 {
			return x < y
		}
		return p.angle > q.angle
	})
	for _, m := range list {
		if fits(a, b, motionOf(a, b, m)) {
			if math.Abs(m.angle) < 1e-9 {
				m.angle = 0
			}
			return m, true
		}
	}
	return copyMember{}, false
}

// motionOf is the motion of a copy: mirrored about the vertical, then turned,
// centre to centre.
func motionOf(a, b *shape, m copyMember) geom.Motion {
	back := geom.NewShift(a.centre.Mul(-1))
	s, c := math.Sincos(m.angle)
	turn := geom.Motion{Cos: c, Sin: s}
	if m.mirrored {
		back = back.Then(geom.NewMirror())
	}
	return back.Then(turn).Then(geom.NewShift(b.centre))
}

func angleBetween(u, v geom.Point) float64 { return math.Atan2(u.Cross(v), u.Dot(v)) }

// rarest picks the sample of a whose distance and label are shared by the
// fewest samples, far from the centre, and the samples of b that may be it.
func rarest(a, b *shape) (anchor int, candidates []int) {
	anchor = -1
	fewest := 0
	n := len(a.perDist)
	// An anchor near the centre would make the turn inexact far from it.
	least := 1.0
	if n > 0 {
		least = math.Max(least, 0.3*a.samples[a.perDist[n-1]].dist)
	}
	for lo := 0; lo < n; {
		hi := lo + 1
		for hi < n && a.samples[a.perDist[hi]].dist-a.samples[a.perDist[hi-1]].dist <= 2*copyMM {
			hi++
		}
		if a.samples[a.perDist[lo]].dist > least && (anchor < 0 || hi-lo <= fewest) {
			anchor, fewest = a.perDist[hi-1], hi-lo
		}
		lo = hi
	}
	if anchor < 0 {
		if n == 0 || a.samples[a.perDist[n-1]].dist <= 2*copyMM {
			return -1, nil
		}
		anchor = a.perDist[n-1]
	}
	s := a.samples[anchor]
	for i, t := range b.samples {
		if math.Abs(t.dist-s.dist) <= 2*copyMM && sameLabel(t.label, s.label) {
			if candidates = append(candidates, i); len(candidates) >= maxAlignments {
				break
			}
		}
	}
	return anchor, candidates
}

func fits(a, b *shape, m geom.Motion) bool {
	for _, s := range a.samples {
		if !b.has(m.Apply(s.at), s.label) {
			return false
		}
	}
	return true
}
