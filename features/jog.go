package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// A straight edge may be drawn with a step or a bend that nobody means: the
// rounding of two programs, a vertex picked a little off. What is less than the
// longest repair that leaves a part clean is none of it: no shop cuts a step of
// 0.05 mm, and none measures it on a sheared edge (common practice, no source).
const (
	jogMM       = cleanMM             // greatest step, and the longest edge across it
	jogTurn     = 1 * math.Pi / 180   // the edges beside a step run alike
	bendOffMM   = copyMM              // greatest way of a vertex off the edge
	bendTurn    = 0.5 * math.Pi / 180 // and its greatest turn
	jogBeside   = 10                  // the edges beside a step are this many times as long
	flatArcMM   = simplifyMM          // bow of an arc that is straight
	flatArcFrom = 10_000.0            // mm, least radius of such an arc
	silentMM    = 0.005               // vertices so near the edge that no note is due: half of what arcs may be off curves
	ofSize      = 1e-3                // of the contour's size is never smoothed: its unit may be a guess
	maxSmooth   = 64                  // vertices that one edge may swallow
)

// smoothJogs makes one edge of straight edges that are parted by a step or a
// bend too small to be meant, and lines of arcs too flat to be meant. The loop
// must be settled; it is settled again. It tells how many vertices went and
// where the first by place was; vertices that lie on the edge but for rounding
// are not counted.
func (l *loop) smoothJogs() (count int, at geom.Point) {
	changed := false
	for i := range l.pieces {
		e := &l.pieces[i].edge
		if d := e.From.Dist(e.To); e.Radius > flatArcFrom && d > 0 && float64(d*d) <= 8*flatArcMM*e.Radius && math.Abs(e.Sweep()) < 1 {
			*e = geom.LineEdge(e.From, e.To)
			changed = true
		}
	}
	tell := func(p geom.Point) {
		if count == 0 || comparePlace(p, at) < 0 {
			at = p
		}
		count++
	}
	// Twice, so that the seam of the first time lies within the second.
	for turn := range 2 {
		n := len(l.pieces)
		if n < 4 {
			break
		}
		longest := 0
		for i := range l.pieces {
			if l.pieces[i].edge.Length() > l.pieces[longest].edge.Length()*(1+1e-9) {
				longest = i
			}
		}
		s := smoother{tell: tell, share: ofSize * l.size()}
		for k := range n {
			s.push(l.pieces[(longest+turn*(n/2)+k)%n])
		}
		if len(s.out) < n {
			l.pieces, changed = s.out, true
		}
	}
	if changed {
		l.settle()
	}
	return count, at
}

// smoother takes the edges of a loop one after the other and joins the last.
type smoother struct {
	out   []piece
	off   [][]geom.Point // by edge: the vertices that it has swallowed
	tell  func(geom.Point)
	share float64 // no tolerance is larger
}

func (s *smoother) push(p piece) {
	s.out = append(s.out, p)
	s.off = append(s.off, nil)
	for s.joinStep() || s.joinBend() {
	}
}

// joinStep joins the last three edges when the middle one is a step.
func (s *smoother) joinStep() bool {
	n := len(s.out)
	if n < 3 {
		return false
	}
	p, m, q := s.out[n-3].edge, s.out[n-2].edge, s.out[n-1].edge
	step := m.Length()
	if p.IsArc() || m.IsArc() || q.IsArc() || step > math.Min(jogMM, s.share)+1e-6 || math.Min(p.Length(), q.Length()) < jogBeside*step || math.Abs(turnBetween(p, q)) > jogTurn {
		return false
	}
	return s.join(3, jogMM+1e-6, true)
}

// joinBend joins the last two edges when they bend too little.
func (s *smoother) joinBend() bool {
	n := len(s.out)
	if n < 2 {
		return false
	}
	p, q := s.out[n-2].edge, s.out[n-1].edge
	if p.IsArc() || q.IsArc() || math.Abs(turnBetween(p, q)) > bendTurn {
		return false
	}
	if geom.LineEdge(p.From, q.To).Dist(p.To) <= simplifyMM {
		return s.join(2, silentMM, false)
	}
	return s.join(2, bendOffMM+1e-6, true)
}

// join makes one edge of the last k if no vertex that goes with them lies
// further than tol from it. aloud tells of the vertices.
func (s *smoother) join(k int, tol float64, aloud bool) bool {
	n := len(s.out)
	last := s.out[n-k:]
	whole := geom.LineEdge(last[0].edge.From, last[k-1].edge.To)
	var off []geom.Point
	for i := range k {
		off = append(off, s.off[n-k+i]...)
		if i > 0 {
			off = append(off, last[i].edge.From)
		}
	}
	if len(off) > maxSmooth {
		return false
	}
	tol = math.Min(tol, s.share+1e-6)
	for _, p := range off {
		if whole.Dist(p) > tol {
			return false
		}
	}
	one := last[0]
	one.edge = whole
	one.sources = nil
	for i := range last {
		one.sources = append(one.sources, last[i].sources...)
		one.fitted = one.fitted || last[i].fitted
		if i > 0 && aloud {
			s.tell(last[i].edge.From)
		}
	}
	sortUnique(&one.sources)
	s.out = append(s.out[:n-k], one)
	s.off = append(s.off[:n-k], off)
	return true
}

func (b *builder) noteJogs(l *loop) {
	if n, at := l.smoothJogs(); n > 0 {
		b.note(Note{Code: "jog-smoothed", At: at, HasAt: true, Count: n, Source: l.sources(),
			Text: fmt.Sprintf("%d vertices that step or bend an edge by at most %s mm were left out", n, shortNumber(jogMM))})
	}
}

// dropSpecks takes out pieces of a few micrometres, which snapping leaves at
// corners, and lets their neighbours meet: lines where they would meet when
// drawn on, if that is as near. In a loop that is itself no larger than that
// ten thousand times nothing is a speck.
func (l *loop) dropSpecks() {
	n := len(l.pieces)
	first := -1
	for i := range l.pieces {
		if first < 0 && l.pieces[i].edge.Length() > simplifyMM {
			first = i
		}
	}
	if n < 4 || first < 0 || l.size() < 1e4*simplifyMM {
		return
	}
	out := make([]piece, 0, n)
	for k := range n {
		s := l.pieces[(first+k)%n]
		if s.edge.Length() > simplifyMM || n-k+len(out) <= 3 {
			out = append(out, s)
			continue
		}
		p, q := &out[len(out)-1], &l.pieces[(first+k+1)%n]
		if k == n-1 {
			q = &out[0]
		}
		if p == q || q.edge.Length() <= simplifyMM || p.edge.IsCircle() || q.edge.IsCircle() {
			out = append(out, s)
			continue
		}
		meetOver(p, &s, q)
	}
	l.pieces = out
}

// size is the longer side of the box round a loop, settled or not.
func (l *loop) size() float64 {
	box := l.pieces[0].edge.Bounds()
	for i := range l.pieces[1:] {
		box = box.Union(l.pieces[i+1].edge.Bounds())
	}
	return math.Max(box.Width(), box.Height())
}

// meetOver lets the neighbours of a speck end in one point.
func meetOver(p, s, q *piece) {
	at := mid(s.edge.From, s.edge.To)
	if !p.edge.IsArc() && !q.edge.IsArc() {
		if c, ok := lineCorner(p.edge, q.edge); ok && c.Dist(at) <= 2*simplifyMM {
			at = c
		}
	}
	if p.edge.IsArc() {
		p.edge = bent(p.edge, p.edge.From, at)
	} else {
		p.edge.To = at
	}
	if q.edge.IsArc() {
		q.edge = bent(q.edge, at, q.edge.To)
	} else {
		q.edge.From = at
	}
	p.sources = append(slices.Clip(p.sources), s.sources...)
	sortUnique(&p.sources)
}
