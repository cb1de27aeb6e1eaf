package features

import (
	"fmt"
	"math"

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
	for i := 0; i < len(l.pieces) && len(l.pieces) > 3; i++ {
		n := len(l.pieces)
		p, arc, q := &l.pieces[(i+n-1)%n], &l.pieces[i], &l.pieces[(i+1)%n]
		if !arc.edge.IsArc() || arc.edge.Radius > tinyRadiusMM-underMM || p.edge.IsArc() || q.edge.IsArc() {
			continue
		}
		const tangent = 2 * math.Pi / 180
		if math.Abs(turnBetween(p.edge, arc.edge)) > tangent || math.Abs(turnBetween(arc.edge, q.edge)) > tangent {
			continue
		}
		corner, ok := lineCorner(p.edge, q.edge)
		if !ok || corner.Dist(arc.edge.From) > 3*tinyRadiusMM || corner.Dist(arc.edge.To) > 3*tinyRadiusMM {
			continue
		}
		p.edge.To, q.edge.From = corner, corner
		p.sources = append(append([]int32(nil), p.sources...), arc.sources...)
		sortUnique(&p.sources)
		if count == 0 || comparePlace(corner, at) < 0 {
			at = corner
		}
		count++
		l.pieces = append(l.pieces[:i:i], l.pieces[i+1:]...)
		i--
	}
	if count > 0 {
		l.settle()
	}
	return count, at
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
