// Package geom holds plane geometry of lines and circular arcs, in
// millimetres and radians. It knows no drawing and no shop. Arcs are kept as
// arcs; nothing is flattened to chords unless a function says so.
package geom

// Point is a place or a direction in the plane, millimetres.
type Point struct{ X, Y float64 }

// Box is an axis-parallel rectangle; the zero value is the point at the origin.
type Box struct{ Min, Max Point }

// Edge is a straight piece or a circular arc from From to To. The zero value
// is a line of no length at the origin. An arc with From == To is a full circle.
type Edge struct {
	From, To Point
	Centre   Point   // of an arc
	Radius   float64 // 0 for a line
	CCW      bool    // an arc runs counter-clockwise from From to To
}

// LineEdge is the straight piece from a to b.
func LineEdge(a, b Point) Edge { return Edge{From: a, To: b} }

// ArcEdge is the arc about centre from from to to. The radius is the distance
// centre-from; the caller sees to it that to lies on the circle.
func ArcEdge(centre, from, to Point, ccw bool) Edge { panic("geom: not written yet") }

// ArcAngles is the counter-clockwise arc from angle start to angle end (rad).
func ArcAngles(centre Point, radius, start, end float64) Edge { panic("geom: not written yet") }

// BulgeEdge is the edge of a polyline: bulge is the tangent of a quarter of the
// included angle, positive counter-clockwise; |bulge| < 1e-9 gives a line.
func BulgeEdge(a, b Point, bulge float64) Edge { panic("geom: not written yet") }

// CircleEdge is the full circle, counter-clockwise from its rightmost point.
func CircleEdge(centre Point, radius float64) Edge { panic("geom: not written yet") }
