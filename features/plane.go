package features

import (
	"fmt"
	"math"

	"burrside/dxfread"
)

// settlePlane chooses the plane that the drawing lies in: the xy plane with the
// elevation dropped, or the one tilted plane that all of it shares.
func (b *builder) settlePlane() {
	var zs span3
	box := b.span
	if !box.some {
		b.frame = flatFrame(1)
		return
	}
	size := box.size()
	tol := 1e-6*size + 1e-12
	var tilted []int
	if box.max.Z-box.min.Z <= tol {
		zs = box // nothing can lean
	} else {
		for i := range b.items {
			var s span3
			eachPoint(&b.items[i].placed, s.add)
			if s.some && s.max.Z-s.min.Z > tol {
				tilted = append(tilted, i)
			} else if s.some {
				zs.add(s.min)
			}
		}
	}
	b.frame = flatFrame(1)
	if len(tilted) == 0 {
		if zs.max.Z-zs.min.Z > tol {
			b.note(Note{Code: "elevation-dropped", Text: fmt.Sprintf("entities lie at elevations from %s to %s drawing units; all were taken at one", shortNumber(zs.min.Z), shortNumber(zs.max.Z))})
		} else if math.Abs(zs.max.Z) > tol {
			b.note(Note{Code: "elevation-dropped", Text: fmt.Sprintf("the drawing lies at elevation %s drawing units, which was dropped", shortNumber(zs.max.Z))})
		}
		return
	}
	if n, ok := b.commonPlane(tol * 10); ok && !level(n) {
		b.frame = tiltedFrame(n)
		n = crossVec(b.frame.u, b.frame.v) // as it is looked at, whichever way the entities gave it
		b.note(Note{Code: "plane-turned", Text: fmt.Sprintf("the drawing stands in a plane with the normal %s, %s, %s; it was turned into that plane", shortNumber(n.X+0), shortNumber(n.Y+0), shortNumber(n.Z+0))})
		return
	}
	b.dropTilted(tilted)
}

// level tells whether a normal leans so little that nothing in its plane rises
// by more than a hundredth of its length: heights that are noise, which must
// not turn the drawing.
func level(n dxfread.Vec) bool {
	return float64(n.X*n.X)+float64(n.Y*n.Y) <= 1e-4*float64(n.Z*n.Z)
}

// dropTilted takes out what leans out of the plane. Lines that rise by less
// than a hundredth of their length are carelessly drawn: their length is right
// within 5e-5 and they stay.
func (b *builder) dropTilted(tilted []int) {
	drop := map[int]bool{}
	kept := 0
	var src []Source
	for _, i := range tilted {
		var s span3
		eachPoint(&b.items[i].placed, s.add)
		dx, dy := s.max.X-s.min.X, s.max.Y-s.min.Y
		if s.max.Z-s.min.Z <= 0.01*math.Sqrt(float64(dx*dx)+float64(dy*dy)) {
			kept++
			continue
		}
		drop[i] = true
		if len(src) < 10 {
			src = append(src, Source{b.items[i].info})
		}
	}
	if kept > 0 {
		b.note(Note{Code: "elevation-dropped", Count: kept, Text: fmt.Sprintf("%d entities rise by less than a hundredth of their length; they were taken as flat", kept)})
	}
	if len(drop) == 0 {
		return
	}
	out := b.items[:0]
	b.span = span3{}
	for i, it := range b.items {
		if drop[i] {
			b.ignored["out of the plane"]++
			continue
		}
		out = append(out, it)
		eachPoint(&it.placed, b.span.add)
	}
	b.items = out
	text := fmt.Sprintf("%d entities lean out of the drawing's plane and were left out", len(drop))
	b.note(Note{Code: "mixed-planes", Count: len(drop), Text: text, Source: src})
	b.fault(Fault{Code: "read-incomplete", Part: -1, Count: len(drop), Text: text, Source: src})
}

// commonPlane finds the normal of the one plane through all points: from the
// lowest point, the farthest from it, and the one farthest from their line.
func (b *builder) commonPlane(tol float64) (dxfread.Vec, bool) {
	var first dxfread.Vec
	some := false
	each := func(f func(dxfread.Vec)) {
		for i := range b.items {
			eachPoint(&b.items[i].placed, f)
		}
	}
	each(func(v dxfread.Vec) {
		if !some || v.X < first.X || v.X == first.X && (v.Y < first.Y || v.Y == first.Y && v.Z < first.Z) {
			first, some = v, true
		}
	})
	var far dxfread.Vec
	most := 0.0
	each(func(v dxfread.Vec) {
		d := subVec(v, first)
		if l := dotVec(d, d); l > most {
			most, far = l, d
		}
	})
	var normal dxfread.Vec
	area := 0.0
	each(func(v dxfread.Vec) {
		n := crossVec(far, subVec(v, first))
		if l := dotVec(n, n); l > area {
			area, normal = l, n
		}
	})
	if !(area > 0) || math.IsInf(area, 0) {
		return dxfread.Vec{}, false
	}
	l := math.Sqrt(area)
	normal = dxfread.Vec{X: normal.X / l, Y: normal.Y / l, Z: normal.Z / l}
	ok := true
	each(func(v dxfread.Vec) {
		if !(math.Abs(dotVec(normal, subVec(v, first))) <= tol) {
			ok = false
		}
	})
	return normal, ok
}

// tiltedFrame looks at a plane from above, from the front or from the right.
func tiltedFrame(n dxfread.Vec) planeFrame {
	const tiny = 1e-9
	if n.Z < -tiny || math.Abs(n.Z) <= tiny && (n.Y > tiny || math.Abs(n.Y) <= tiny && n.X < 0) {
		n = dxfread.Vec{X: -n.X, Y: -n.Y, Z: -n.Z}
	}
	u := crossVec(dxfread.Vec{Z: 1}, n)
	l := math.Sqrt(dotVec(u, u))
	if l <= tiny {
		return flatFrame(1)
	}
	u = dxfread.Vec{X: u.X / l, Y: u.Y / l, Z: u.Z / l}
	return planeFrame{u: u, v: crossVec(n, u), scale: 1}
}

func subVec(a, b dxfread.Vec) dxfread.Vec {
	return dxfread.Vec{X: a.X - b.X, Y: a.Y - b.Y, Z: a.Z - b.Z}
}

func crossVec(a, b dxfread.Vec) dxfread.Vec {
	return dxfread.Vec{
		X: float64(a.Y*b.Z) - float64(a.Z*b.Y),
		Y: float64(a.Z*b.X) - float64(a.X*b.Z),
		Z: float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

// span3 is the box of points in space; some is false for none.
type span3 struct {
	min, max dxfread.Vec
	some     bool
}

func (s *span3) add(v dxfread.Vec) {
	if !isNumber(v.X) || !isNumber(v.Y) || !isNumber(v.Z) {
		return
	}
	if !s.some {
		s.min, s.max, s.some = v, v, true
		return
	}
	s.min = dxfread.Vec{X: min(s.min.X, v.X), Y: min(s.min.Y, v.Y), Z: min(s.min.Z, v.Z)}
	s.max = dxfread.Vec{X: max(s.max.X, v.X), Y: max(s.max.Y, v.Y), Z: max(s.max.Z, v.Z)}
}

func (s *span3) size() float64 {
	d := subVec(s.max, s.min)
	return math.Sqrt(dotVec(d, d))
}

// eachPoint gives points that span the entity's plane: ends, corners, control
// points, four points of a circle.
func eachPoint(p *dxfread.Placed, f func(dxfread.Vec)) {
	round := func(c dxfread.Vec, r float64) {
		m := ocsMap(*p)
		for _, o := range [4]dxfread.Vec{{X: r}, {Y: r}, {X: -r}, {Y: -r}} {
			f(m.Apply(dxfread.Vec{X: c.X + o.X, Y: c.Y + o.Y, Z: c.Z}))
		}
	}
	switch e := p.Entity.(type) {
	case *dxfread.Line:
		f(p.Map.Apply(e.From))
		f(p.Map.Apply(e.To))
	case *dxfread.Circle:
		round(e.Centre, e.Radius)
	case *dxfread.Arc:
		round(e.Centre, e.Radius)
	case *dxfread.Ellipse:
		n := e.Extrusion
		if n == (dxfread.Vec{}) {
			n.Z = 1
		}
		k := e.Ratio / math.Sqrt(dotVec(n, n))
		minor := crossVec(n, e.Major)
		f(p.Map.Apply(dxfread.Vec{X: e.Centre.X + e.Major.X, Y: e.Centre.Y + e.Major.Y, Z: e.Centre.Z + e.Major.Z}))
		f(p.Map.Apply(subVec(e.Centre, e.Major)))
		f(p.Map.Apply(dxfread.Vec{X: e.Centre.X + k*minor.X, Y: e.Centre.Y + k*minor.Y, Z: e.Centre.Z + k*minor.Z}))
		f(p.Map.Apply(dxfread.Vec{X: e.Centre.X - k*minor.X, Y: e.Centre.Y - k*minor.Y, Z: e.Centre.Z - k*minor.Z}))
	case *dxfread.Polyline:
		m := *p.Map
		if !e.ThreeD {
			m = ocsMap(*p)
		}
		for _, v := range e.Vertices {
			f(m.Apply(v.At))
		}
	case *dxfread.Spline:
		for _, v := range e.Control {
			f(p.Map.Apply(v))
		}
		for _, v := range e.Fit {
			f(p.Map.Apply(v))
		}
	}
}
