package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// tinyRadiusMM is the radius under which a rounded corner is a sharp one: no
// shear, punch or notcher leaves a sharper corner and none makes such a radius
// (common practice, no source). Programs round corners so to keep a contour
// smooth.
const tinyRadiusMM = 0.1

// underMM keeps a radius that is drawn as 0.1 mm, whatever becomes of its last
// digits when the drawing is moved or turned.
const underMM = 1e-3

// sharpenTiny takes the arcs of tiny radius between two lines out of a settled
// loop and prolongs the lines to their corner. It tells how many and where the
// first by place was.
func (l *loop) sharpenTiny() (count int, at geom.Point) {
	n := len(l.pieces)
	first := -1 // a piece that stays whatever comes
	for i := range l.pieces {
		if e := l.pieces[i].edge; !e.IsArc() || e.Radius > tinyRadiusMM-underMM {
			first = i
			break
		}
	}
	if n < 4 || first < 0 {
		return 0, at
	}
	out := make([]piece, 0, n)
	for k := range n {
		arc := l.pieces[(first+k)%n]
		if !arc.edge.IsArc() || arc.edge.Radius > tinyRadiusMM-underMM || n-k+len(out) <= 3 {
			out = append(out, arc)
			continue
		}
		p, q := &out[len(out)-1], &l.pieces[(first+k+1)%n]
		if k == n-1 {
			q = &out[0]
		}
		corner, ok := tinyCorner(p.edge, arc.edge, q.edge)
		if !ok || p == q {
			out = append(out, arc)
			continue
		}
		p.edge.To, q.edge.From = corner, corner
		p.sources = append(slices.Clip(p.sources), arc.sources...)
		sortUnique(&p.sources)
		if count == 0 || comparePlace(corner, at) < 0 {
			at = corner
		}
		count++
	}
	if count > 0 {
		l.pieces = out
		l.settle()
	}
	return count, at
}

// tinyCorner is the corner of two lines that a tiny arc rounds off.
func tinyCorner(p, arc, q geom.Edge) (geom.Point, bool) {
	const tangent = 2 * math.Pi / 180
	if p.IsArc() || q.IsArc() || math.Abs(turnBetween(p, arc)) > tangent || math.Abs(turnBetween(arc, q)) > tangent {
		return geom.Point{}, false
	}
	corner, ok := lineCorner(p, q)
	return corner, ok && corner.Dist(arc.From) <= 3*tinyRadiusMM && corner.Dist(arc.To) <= 3*tinyRadiusMM
}

// lineCorner is where two lines that do not run alike would meet.
func lineCorner(a, b geom.Edge) (geom.Point, bool) {
	d, e := a.To.Sub(a.From), b.To.Sub(b.From)
	den := d.Cross(e)
	if math.Abs(den) < 0.05*d.Len()*e.Len() {
		return geom.Point{}, false
	}
	return a.From.Add(d.Mul(b.From.Sub(a.From).Cross(e) / den)), true
}

func (b *builder) noteTiny(l *loop) {
	if n, at := l.sharpenTiny(); n > 0 {
		b.note(Note{Code: "tiny-radius", At: at, HasAt: true, Count: n, Source: l.sources(),
			Text: fmt.Sprintf("%d corners with a radius under %s mm were taken as sharp", n, shortNumber(tinyRadiusMM))})
	}
}
