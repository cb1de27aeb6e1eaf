package dxfread

import (
	"math"
)

func (r *reader) lwpolyline() Entity {
	e := r.polylines.take()
	r.start(&e.Common)
	e.Light = true
	vs := r.scratch[:0]
	elevation, ys := 0.0, 0
	for r.tag() {
		switch r.s.code {
		case 10:
			vs = append(vs, Vertex{At: Vec{X: r.float()}})
		case 20:
			if len(vs) > 0 {
				vs[len(vs)-1].At.Y = r.float()
			}
			ys++
		case 42:
			if b := r.float(); len(vs) > 0 {
				vs[len(vs)-1].Bulge = b
			}
		case 40, 41, 43:
			e.Width = max(e.Width, math.Abs(r.float()))
		case 38:
			elevation = r.float()
		case 70:
			e.Closed = r.int()&1 != 0
		default:
			r.common(&e.Common)
		}
	}
	if elevation != 0 {
		for i := range vs {
			vs[i].At.Z = elevation
		}
	}
	r.scratch = vs
	e.Vertices = r.vertices.keep(vs)
	return r.usable(e, fewVertices(len(vs), ys))
}

// fewVertices tells what is wrong with so many x and y coordinates.
func fewVertices(n, ys int) string {
	switch {
	case n < 2:
		return "it has fewer than two vertices"
	case n != ys:
		return "one of its coordinates is missing"
	}
	return ""
}

// Bits of group 70 of POLYLINE and VERTEX that are used here.
const (
	polyClosed  = 1
	polySpline  = 4
	polyThreeD  = 8
	polyMesh    = 16
	polyFace    = 64
	vertexFrame = 16 // control point of a spline fit: not on the curve
)

// polyline reads POLYLINE with its VERTEX entities up to SEQEND.
func (r *reader) polyline() Entity {
	e := r.polylines.take()
	r.start(&e.Common)
	flags, elevation := 0, 0.0
	for r.tag() {
		switch r.s.code {
		case 70:
			flags = r.int()
		case 30:
			elevation = r.float()
		case 10, 20:
			// Always zero, and no place.
		case 40, 41:
			e.Width = max(e.Width, math.Abs(r.float()))
		default:
			r.common(&e.Common)
		}
	}
	if !r.end(&e.Common) {
		return nil
	}
	paper, tab, spoiled := r.paper, r.tab, r.spoiled
	e.Closed, e.ThreeD = flags&polyClosed != 0, flags&polyThreeD != 0
	vs := r.scratch[:0]
	ended := false
	for r.rowOK() && !ended {
		switch string(r.s.val()) {
		case "VERTEX":
			v, bits, whole := r.vertex(e)
			if !whole && spoiled == "" && flags&(polyMesh|polyFace) == 0 {
				spoiled = "one of its coordinates is missing"
			}
			if bits&vertexFrame == 0 || flags&(polyMesh|polyFace) != 0 {
				if !e.ThreeD && elevation != 0 {
					v.At.Z = elevation
				}
				vs = append(vs, v)
			}
			if r.spoiled != "" {
				spoiled = r.spoiled
			}
			continue
		case "SEQEND":
			var c Common
			r.start(&c)
			for r.tag() {
			}
			if !r.rowOK() {
				return nil
			}
		default:
			r.noteOf(&e.Common, "seqend-missing", "a POLYLINE has no SEQEND")
		}
		ended = true
	}
	if !ended {
		return nil
	}
	r.paper, r.tab, r.spoiled = paper, tab, spoiled
	r.scratch = vs
	e.Vertices = r.vertices.keep(vs)
	if flags&(polyMesh|polyFace) != 0 {
		return r.usable(e, "meshes are not read")
	}
	return r.usable(e, fewVertices(len(vs), len(vs)))
}

// vertex reads one VERTEX; whole tells that it has both coordinates. A bulge
// has no meaning in three dimensions.
func (r *reader) vertex(e *Polyline) (v Vertex, bits int, whole bool) {
	var c Common
	has := 0
	r.start(&c)
	for r.tag() {
		switch r.s.code {
		case 10:
			v.At.X = r.float()
			has |= hasX
		case 20:
			v.At.Y = r.float()
			has |= hasY
		case 30:
			v.At.Z = r.float()
		case 42:
			if b := r.float(); !e.ThreeD {
				v.Bulge = b
			}
		case 40, 41:
			e.Width = max(e.Width, math.Abs(r.float()))
		case 70:
			bits = r.int()
		}
	}
	return v, bits, has == hasX|hasY
}
