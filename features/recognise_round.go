package features

import (
	"fmt"
	"math"
)

// recogniseRound reads a round hole: arcs of one centre and radius all around.
func recogniseRound(c *ringContext) (Feature, float64) {
	for _, e := range c.ring {
		if e.Length() > 1e-9 && (!e.IsArc() || !e.CCW) {
			return Feature{}, 0
		}
	}
	pts := ringSamples(c.ring)
	if len(c.ring) == 1 && !c.ring[0].IsCircle() {
		return Feature{}, 0
	}
	centre, rad, ok := leastSquaresCircle(pts)
	if !ok {
		return Feature{}, 0
	}
	worst := 0.0
	for _, p := range pts {
		worst = math.Max(worst, math.Abs(p.Dist(centre)-rad))
	}
	return Feature{Kind: RoundHole, At: centre, DiameterMM: 2 * rad}, scoreOf(worst, circleTol(rad))
}

const (
	// facetRad: a polygon is a circle only if no side spans more of it, so
	// that a regular 12-gon is a circle and an 11-gon is not.
	facetRad = 31 * math.Pi / 180
	// facetMM, facetShare, smallFacetShare: how far corners may lie off the
	// circle; the last for diameters under smallFacetMM.
	facetMM         = 0.01
	facetShare      = 0.002
	smallFacetShare = 0.01
	smallFacetMM    = 5
)

// recogniseFacets reads a round hole that is drawn as a polygon of at least 12
// sides: all corners on one circle, which the corners measure.
func recogniseFacets(c *ringContext) (Feature, float64) {
	if len(c.ring) < 12 {
		return Feature{}, 0
	}
	for _, e := range c.ring {
		if e.IsArc() {
			return Feature{}, 0
		}
	}
	pts := ringSamples(c.ring)
	corners := pts[:0]
	for i := 0; i < len(pts); i += 2 { // middles are left out
		corners = append(corners, pts[i])
	}
	centre, rad, ok := leastSquaresCircle(corners)
	if !ok {
		return Feature{}, 0
	}
	limit := math.Max(facetMM, 2*rad*facetShare)
	if 2*rad < smallFacetMM {
		limit = math.Max(facetMM, 2*rad*smallFacetShare)
	}
	worst := 0.0
	for _, p := range corners {
		worst = math.Max(worst, math.Abs(p.Dist(centre)-rad))
	}
	for _, e := range c.ring {
		a := turnRad(e.From.Sub(centre), e.To.Sub(centre))
		if a < 0 || a > facetRad {
			return Feature{}, 0
		}
	}
	f := Feature{Kind: RoundHole, At: centre, DiameterMM: 2 * rad, Fitted: true,
		Note: fmt.Sprintf("drawn as a polygon of %d sides", len(c.ring))}
	return f, scoreOf(worst, limit)
}
