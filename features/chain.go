package features

import (
	"context"
	"fmt"
	"math"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/join"
)

// maxCoordinateMM is the size beyond which a coordinate is a mistake of the
// file: 100 km.
const maxCoordinateMM = 1e8

// planeFrame maps points of a space to millimetres in the plane: dot products with
// two unit vectors, times the scale.
type planeFrame struct {
	u, v  dxfread.Vec
	scale float64
}

// flatFrame looks down on the xy plane.
func flatFrame(scale float64) planeFrame {
	return planeFrame{u: dxfread.Vec{X: 1}, v: dxfread.Vec{Y: 1}, scale: scale}
}

func (f planeFrame) point(p dxfread.Vec) geom.Point {
	return geom.Point{X: dotVec(f.u, p) * f.scale, Y: dotVec(f.v, p) * f.scale}
}

func dotVec(a, b dxfread.Vec) float64 {
	return float64(a.X*b.X) + float64(a.Y*b.Y) + float64(a.Z*b.Z)
}

// through is the frame behind an affine map of space.
func (f planeFrame) through(m dxfread.Matrix) planeMap { return planeMap{m, f} }

// planeMap takes an entity's coordinates to millimetres in the plane.
type planeMap struct {
	m dxfread.Matrix
	f planeFrame
}

func (p planeMap) point(v dxfread.Vec) geom.Point { return p.f.point(p.m.Apply(v)) }

// dir maps a direction: without the shift, whose size would drown it.
func (p planeMap) dir(v dxfread.Vec) geom.Point {
	m := p.m
	m.T = dxfread.Vec{}
	return p.f.point(m.Apply(v))
}

// entityEdges is what one entity becomes.
type entityEdges struct {
	edges  []geom.Edge
	closed bool
	fitted bool   // approximated within ArcDevMM
	fault  string // why nothing came of it
	notes  []string
}

// withinBounds tells whether the ends of an edge are numbers within
// maxCoordinateMM.
func withinBounds(e *geom.Edge) bool {
	return max(math.Abs(e.From.X), math.Abs(e.From.Y), math.Abs(e.To.X), math.Abs(e.To.Y)) <= maxCoordinateMM
}

// edgesOf turns an entity into edges in millimetres.
func edgesOf(ctx context.Context, p dxfread.Placed, f planeFrame, tol float64) entityEdges {
	world := f.through(*p.Map)
	own := f.through(ocsMap(p))
	var out entityEdges
	switch e := p.Entity.(type) {
	case *dxfread.Line:
		out.edges = []geom.Edge{geom.LineEdge(world.point(e.From), world.point(e.To))}
	case *dxfread.Circle:
		out = arcEdges(own, e.Centre, e.Radius, 0, 2*math.Pi, tol)
		out.closed = true
	case *dxfread.Arc:
		start, sweep := arcSpan(e.Start, e.End)
		out = arcEdges(own, e.Centre, e.Radius, start, start+sweep, tol)
		out.closed = sweep >= 2*math.Pi-1e-9
	case *dxfread.Ellipse:
		out = ellipseEntity(world, e, tol)
	case *dxfread.Polyline:
		out = polylineEdges(ctx, world, own, e, tol)
	case *dxfread.Spline:
		r := splineEdges(ctx, e, world, tol)
		out = entityEdges{edges: r.edges, closed: r.closed, fitted: !r.exact, fault: r.fault, notes: r.notes}
		if r.fitted && r.fault == "" {
			out.notes = append(out.notes, "it has fit points only; a cubic spline was put through them")
		}
	default:
		panic(fmt.Sprintf("features: %s is no geometry", p.Entity.Name()))
	}
	for _, e := range out.edges {
		for _, c := range []float64{e.From.X, e.From.Y, e.To.X, e.To.Y} {
			if !(math.Abs(c) <= maxCoordinateMM) {
				return entityEdges{fault: "a coordinate is not a number or out of all bounds"}
			}
		}
	}
	if out.fault == "" && len(out.edges) == 0 {
		out.fault = "it has no length"
	}
	return out
}

// ocsMap is the map from the entity's own plane to the space.
func ocsMap(p dxfread.Placed) dxfread.Matrix {
	ext := p.Entity.Base().Extrusion
	if ext == (dxfread.Vec{Z: 1}) || ext == (dxfread.Vec{}) {
		return *p.Map
	}
	return dxfread.OCS(ext).Then(*p.Map)
}

// arcSpan gives the start and the counter-clockwise sweep in radians of an arc
// in degrees; equal angles are a whole turn.
func arcSpan(startDeg, endDeg float64) (start, sweep float64) {
	s := math.Mod(endDeg-startDeg, 360)
	if s <= 1e-9 {
		s += 360
	}
	return math.Mod(startDeg, 360) * math.Pi / 180, s * math.Pi / 180
}

// arcEdges is a circular arc of the entity's plane, which a map may have made
// an ellipse.
func arcEdges(own planeMap, centre dxfread.Vec, r, t0, t1, tol float64) entityEdges {
	if !(r > 0) || math.IsInf(r, 0) {
		return entityEdges{fault: fmt.Sprintf("its radius is %g", r)}
	}
	c := own.point(centre)
	u, v := own.dir(dxfread.Vec{X: r}), own.dir(dxfread.Vec{Y: r})
	if !isNumber(t0) || !isNumber(t1) {
		return entityEdges{fault: "an angle is not a number"}
	}
	edges, exact := ellipseEdges(c, u, v, t0, t1, tol)
	return entityEdges{edges: edges, fitted: !exact}
}

func ellipseEntity(world planeMap, e *dxfread.Ellipse, tol float64) entityEdges {
	n := e.Extrusion
	if n == (dxfread.Vec{}) {
		n.Z = 1
	}
	l := math.Sqrt(dotVec(n, n))
	m := e.Major
	ratio := e.Ratio / l
	minor := dxfread.Vec{
		X: ratio * (float64(n.Y*m.Z) - float64(n.Z*m.Y)),
		Y: ratio * (float64(n.Z*m.X) - float64(n.X*m.Z)),
		Z: ratio * (float64(n.X*m.Y) - float64(n.Y*m.X)),
	}
	c := world.point(e.Centre)
	u, v := world.dir(m), world.dir(minor)
	sweep := math.Mod(e.End-e.Start, 2*math.Pi)
	if sweep <= 1e-12 {
		sweep += 2 * math.Pi
	}
	if !isNumber(sweep) || !isNumber(e.Start) {
		return entityEdges{fault: "an angle is not a number"}
	}
	start := math.Mod(e.Start, 2*math.Pi)
	edges, exact := ellipseEdges(c, u, v, start, start+sweep, tol)
	return entityEdges{edges: edges, fitted: !exact, closed: sweep >= 2*math.Pi-1e-9}
}

// polylineEdges follows a polyline. One whose ends meet within a micrometre is
// closed even if its flag does not say so.
func polylineEdges(ctx context.Context, world, own planeMap, e *dxfread.Polyline, tol float64) entityEdges {
	to := own
	if e.ThreeD {
		to = world
	}
	n := len(e.Vertices)
	if n < 2 {
		return entityEdges{fault: "it has fewer than two points"}
	}
	similar, mirrored := isSimilar(to)
	out := entityEdges{closed: e.Closed}
	spans := n - 1
	if e.Closed {
		spans = n
	}
	out.edges = make([]geom.Edge, 0, spans)
	prev := to.point(e.Vertices[0].At)
	first := prev
	for i := range spans {
		if i%256 == 0 && ctx.Err() != nil {
			return entityEdges{}
		}
		var next geom.Point
		if i+1 < n {
			next = to.point(e.Vertices[i+1].At)
		} else {
			next = first
		}
		bulge := e.Vertices[i].Bulge
		switch {
		case prev == next:
			// A repeated vertex is no piece of the outline.
		case bulge == 0 || e.ThreeD:
			out.edges = append(out.edges, geom.LineEdge(prev, next))
		case !isNumber(bulge):
			return entityEdges{fault: "a bulge is not a number"}
		case similar:
			if mirrored {
				bulge = -bulge
			}
			out.edges = append(out.edges, geom.BulgeEdge(prev, next, bulge))
		default:
			a, b := e.Vertices[i].At, e.Vertices[(i+1)%n].At
			part := skewBulge(to, a, b, bulge, tol)
			if len(part) > 0 {
				part[0].From, part[len(part)-1].To = prev, next
			}
			out.edges = append(out.edges, part...)
			out.fitted = true
		}
		prev = next
	}
	if k := len(out.edges); !out.closed && k > 1 && out.edges[0].From.Dist(out.edges[k-1].To) <= 1e-3 {
		out.edges[k-1].To = out.edges[0].From
		out.closed = true
	}
	if len(out.edges) < 2 {
		out.closed = false
	}
	return out
}

// isSimilar tells whether a map keeps circles, and whether it mirrors.
func isSimilar(to planeMap) (similar, mirrored bool) {
	u, v := to.dir(dxfread.Vec{X: 1}), to.dir(dxfread.Vec{Y: 1})
	lu, lv := u.Len(), v.Len()
	return math.Abs(lu-lv) <= 1e-9*lu && math.Abs(u.Dot(v)) <= 1e-9*lu*lv, u.Cross(v) < 0
}

// skewBulge is a bulge arc under a map that makes it elliptic.
func skewBulge(to planeMap, a, b dxfread.Vec, bulge, tol float64) []geom.Edge {
	e := geom.BulgeEdge(geom.Point{X: a.X, Y: a.Y}, geom.Point{X: b.X, Y: b.Y}, bulge)
	if !e.IsArc() {
		return []geom.Edge{geom.LineEdge(to.point(a), to.point(b))}
	}
	d := e.From.Sub(e.Centre)
	start, sweep := math.Atan2(d.Y, d.X), e.Sweep()
	c := dxfread.Vec{X: e.Centre.X, Y: e.Centre.Y, Z: a.Z}
	centre := to.point(c)
	u, v := to.dir(dxfread.Vec{X: e.Radius}), to.dir(dxfread.Vec{Y: e.Radius})
	if sweep >= 0 {
		edges, _ := ellipseEdges(centre, u, v, start, start+sweep, tol)
		return edges
	}
	edges, _ := ellipseEdges(centre, u, v, start+sweep, start, tol)
	for i, j := 0, len(edges)-1; i < j; i, j = i+1, j-1 {
		edges[i], edges[j] = edges[j], edges[i]
	}
	for i := range edges {
		edges[i] = edges[i].Reverse()
	}
	return edges
}

// joinInput turns an entity's edges into inputs of the joiner.
func joinInput(dst []join.Input, d entityEdges, source, group, style int32) []join.Input {
	if !d.closed {
		group = 0
	}
	for _, e := range d.edges {
		dst = append(dst, join.Input{Edge: e, Source: source, Group: group, Closed: d.closed, Style: style})
	}
	return dst
}
