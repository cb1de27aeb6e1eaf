package features

import (
	"math"

	"burrside/features/geom"
)

// ringContext is one inner contour prepared for the recognisers, which do not
// modify it.
type ringContext struct {
	ring  geom.Ring // counter-clockwise, as drawn
	spans []span    // sides and arcs, split ones merged
	sides []side    // the same with rounded and relieved corners sharpened
	rect  geom.Rect // the least rectangle
}

// recogniser reads one kind of inside feature. The score is 0 if the ring is
// none, else above 0.5 and at most 1, less the farther the ring is from exact.
type recogniser struct {
	name string
	read func(*ringContext) (Feature, float64)
}

// recognisers lists all readers of inside features. All run, the best score
// wins; of equal scores the earlier in this list.
func recognisers() []recogniser {
	return []recogniser{
		{"round", recogniseRound},
		{"facets", recogniseFacets},
		{"slot", recogniseSlot},
		{"near slot", recogniseNearSlot},
		{"curved slot", recogniseCurvedSlot},
		{"rectangle", recogniseRectangle},
		{"polygon", recognisePolygon},
		{"d", recogniseD},
		{"double d", recogniseDoubleD},
		{"keyhole", recogniseKeyhole},
		{"teardrop", recogniseTeardrop},
		{"keyed", recogniseKeyed},
		{"free", recogniseFree},
	}
}

// recogniseInside recognises one inner contour of a part. The result has Kind,
// At, numbers, Ring, AreaMM2 and PerimeterMM set; Hole is -1. Width and length
// of a cut-out are those of its least rectangle.
func recogniseInside(ring geom.Ring) Feature {
	if !isTame(ring) || ring.Length() < 1e-9 {
		return Feature{Kind: Cutout, Subkind: "free", Hole: -1, Ring: ring}
	}
	if ring.Area() < 0 {
		ring = ring.Reverse()
	}
	if len(ring) == 1 && ring[0].IsCircle() {
		// A whole circle is nothing else, and most holes are one.
		if f, score := recogniseRound(&ringContext{ring: ring}); score > 0 {
			f.Hole, f.Ring = -1, ring
			f.AreaMM2, f.PerimeterMM = math.Abs(ring.Area()), ring.Length()
			return f
		}
	}
	c := &ringContext{ring: ring, spans: compact(ring)}
	c.sides = sharpen(c.spans, true, false)
	c.rect = leastRect(ring)
	var best Feature
	top := -1.0
	for _, r := range recognisers() {
		if f, score := r.read(c); score > 0 && score > top {
			best, top = f, score
		}
	}
	best.Hole = -1
	best.Ring = ring
	best.AreaMM2, best.PerimeterMM = math.Abs(ring.Area()), ring.Length()
	return best
}

// scoreOf is 1 for an exact shape and 0.5 at a deviation of limit; 0 beyond.
func scoreOf(deviation, limit float64) float64 {
	if !(deviation <= limit) {
		return 0
	}
	return 1 - 0.5*deviation/limit
}

// cutout is a cut-out of the given subkind, its numbers from the least
// rectangle. It has no angle: symmetric shapes have two such rectangles.
func (c *ringContext) cutout(subkind string) Feature {
	return Feature{Kind: Cutout, Subkind: subkind, At: c.ring.Centroid(), WidthMM: c.rect.Height, LengthMM: c.rect.Width}
}

// longAngle is the direction of the long side, 0 to pi; of a square 0 to pi/2,
// as its sides cannot be told apart.
func longAngle(rad, long, short float64) float64 {
	a := lineAngle(geom.Point{X: math.Cos(rad), Y: math.Sin(rad)})
	if long-short <= lineMM {
		a = math.Mod(a, math.Pi/2)
		if a > math.Pi/2-1e-7 {
			a = 0
		}
	}
	return a
}

// arcSides and lineSides count the arcs and lines of spans.
func countArcs(spans []span) (arcs, lines int) {
	for _, s := range spans {
		if s.e.IsArc() {
			arcs++
		} else {
			lines++
		}
	}
	return arcs, lines
}

// sameCircle tells whether arcs a and b are of one circle and sense.
func sameCircle(a, b geom.Edge) bool {
	if !a.IsArc() || !b.IsArc() || a.CCW != b.CCW {
		return false
	}
	tol := lineMM + circleTol(math.Max(a.Radius, b.Radius))
	return a.Centre.Dist(b.Centre) <= tol && math.Abs(a.Radius-b.Radius) <= tol
}

// rotated is the spans from the k-th on.
func rotated(spans []span, k int) []span {
	return append(append([]span{}, spans[k:]...), spans[:k]...)
}

// joints lists the turn at the end of each span.
func joints(spans []span) []float64 {
	t := make([]float64, len(spans))
	for i, s := range spans {
		t[i] = turnRad(s.e.EndDir(), spans[(i+1)%len(spans)].e.StartDir())
	}
	return t
}

// allTangent tells whether every joint of spans is tangent.
func allTangent(spans []span) bool {
	for _, t := range joints(spans) {
		if math.Abs(t) > tangentRad {
			return false
		}
	}
	return true
}
