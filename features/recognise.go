package features

import "burrside/features/geom"

// Inside recognises one inner contour of a part. ring is counter-clockwise;
// the result has Kind, At, numbers, Ring, AreaMM2 and PerimeterMM set. All
// recognisers run and the best score wins; ties go by a fixed list.
func recogniseInside(ring geom.Ring) Feature { panic("features: not written yet") }

// recogniseOutline finds the outline's features: notches, clips, radii, arc
// cuts, straight cuts. Every edge of outline is in exactly one Feature.Edges.
// outline is counter-clockwise and simplified.
func recogniseOutline(outline geom.Ring) []Feature { panic("features: not written yet") }
