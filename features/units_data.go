package features

import (
	"math"
	"sort"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/measure"
)

// voteDataOf gathers what the units vote looks at.
func (b *builder) voteDataOf() voteData {
	var data voteData
	dia, straight := map[int64]float64{}, map[int64]float64{}
	boxes := map[[2]int64][2]float64{}
	var centres []geom.Point
	arcs := arcSet{}
	put := func(m map[int64]float64, v float64) {
		// Equal to five digits is one kind.
		if v > 0 && isNumber(v) && v < 1e12 {
			k := int64(math.Round(v * 1e5))
			if old, ok := m[k]; !ok || v < old {
				m[k] = v
			}
		}
	}
	flat := b.frame == flatFrame(1)
	for i := range b.items {
		it := &b.items[i]
		if it.class != classCut {
			continue
		}
		if e, ok := it.placed.Entity.(*dxfread.Line); ok {
			if flat {
				put(straight, it.line[0].Dist(it.line[1]))
			} else {
				p, q := it.placed.Map.Apply(e.From), it.placed.Map.Apply(e.To)
				put(straight, b.frame.point(p).Dist(b.frame.point(q)))
			}
			continue
		}
		m := b.frame.through(ocsMap(it.placed))
		switch e := it.placed.Entity.(type) {
		case *dxfread.Circle:
			if ok, _ := isSimilar(m); ok {
				put(dia, 2*m.dir(dxfread.Vec{X: e.Radius}).Len())
				centres = append(centres, m.point(e.Centre))
			}
		case *dxfread.Arc:
			arcs.addArc(e, m)
		case *dxfread.Polyline:
			if e.ThreeD {
				continue
			}
			arcs.addPolyline(e, m)
			if box, ok := rectangleOf(e, m); ok {
				boxes[[2]int64{int64(math.Round(box[0] * 1e4)), int64(math.Round(box[1] * 1e4))}] = box
			}
			for k := 1; k < len(e.Vertices); k++ {
				if e.Vertices[k-1].Bulge == 0 {
					put(straight, m.point(e.Vertices[k-1].At).Dist(m.point(e.Vertices[k].At)))
				}
			}
		}
	}
	for _, a := range arcs.full() {
		put(dia, 2*a.radius)
		centres = append(centres, a.centre)
	}
	for _, p := range pitchesOf(centres) {
		put(straight, p)
	}
	for _, box := range boxes {
		data.boxes = append(data.boxes, box)
	}
	sort.Slice(data.boxes, func(i, j int) bool {
		a, c := data.boxes[i], data.boxes[j]
		return a[0] < c[0] || a[0] == c[0] && a[1] < c[1]
	})
	data.width, data.height = b.extent()
	data.diameters, data.lengths = sortedValues(dia), sortedValues(straight)
	for _, t := range b.texts {
		v := t.value
		if t.tag != "" {
			v = measure.TaggedNote(t.tag, v)
		}
		data.texts = append(data.texts, v)
	}
	sort.Strings(data.texts)
	data.dims = append(data.dims, b.dims...)
	data.factors = b.factors
	sort.Slice(data.dims, func(i, j int) bool {
		a, c := data.dims[i], data.dims[j]
		return a.text < c.text || a.text == c.text && a.measured < c.measured
	})
	return data
}

// extent is the width and height of the box about all items as the frame shows
// them.
func (b *builder) extent() (width, height float64) {
	if b.frame == flatFrame(1) { // as they lie in the space
		return b.span.max.X - b.span.min.X, b.span.max.Y - b.span.min.Y
	}
	var box geom.Box
	some := false
	extend := func(v dxfread.Vec) {
		p := b.frame.point(v)
		if !isNumber(p.X) || !isNumber(p.Y) {
			return
		}
		if !some {
			box, some = geom.BoxOf(p), true
			return
		}
		box = box.Add(p)
	}
	for i := range b.items {
		eachPoint(&b.items[i].placed, extend)
	}
	return box.Width(), box.Height()
}

func sortedValues(m map[int64]float64) []float64 {
	out := make([]float64, 0, len(m))
	for _, v := range m {
		out = append(out, v)
	}
	sort.Float64s(out)
	return out
}

// rectangleOf gives the sides of a closed polyline that is a rectangle.
func rectangleOf(e *dxfread.Polyline, m planeMap) ([2]float64, bool) {
	n := len(e.Vertices)
	if n == 5 && e.Vertices[4].At == e.Vertices[0].At {
		n--
	} else if !e.Closed {
		return [2]float64{}, false
	}
	if n != 4 {
		return [2]float64{}, false
	}
	var p [4]geom.Point
	for i := range p {
		if e.Vertices[i].Bulge != 0 {
			return [2]float64{}, false
		}
		p[i] = m.point(e.Vertices[i].At)
	}
	a, b := p[1].Sub(p[0]), p[2].Sub(p[1])
	far := p[0].Add(b).Sub(p[3])
	la, lb := a.Len(), b.Len()
	if tol := 1e-6 * (la + lb); !(la > 0 && lb > 0) || !isNumber(la+lb) || la+lb > 1e12 || far.Len() > tol || math.Abs(a.Dot(b)) > tol*math.Max(la, lb) {
		return [2]float64{}, false
	}
	return longFirst(la, lb), true
}

// mostPitches bounds the centres whose pitches are looked at.
const mostPitches = 2000

// pitchesOf gives the steps between neighbouring round things across and up.
func pitchesOf(centres []geom.Point) []float64 {
	if len(centres) > mostPitches {
		return nil
	}
	var out []float64
	for _, along := range []func(geom.Point) float64{func(p geom.Point) float64 { return p.X }, func(p geom.Point) float64 { return p.Y }} {
		var at []float64
		for _, p := range centres {
			if v := along(p); isNumber(v) {
				at = append(at, v)
			}
		}
		sort.Float64s(at)
		for i := 1; i < len(at); i++ {
			if d := at[i] - at[i-1]; d > 1e-4 {
				out = append(out, d)
			}
		}
	}
	return out
}
