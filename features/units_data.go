package features

import (
	"math"
	"sort"

	"burrside/dxfread"
	"burrside/features/geom"
)

// voteDataOf gathers what the units vote looks at.
func (b *builder) voteDataOf() voteData {
	var data voteData
	var box geom.Box
	some := false
	dia, straight := map[int64]float64{}, map[int64]float64{}
	put := func(m map[int64]float64, v float64) {
		// Equal to five digits is one kind.
		if v > 0 && isNumber(v) && v < 1e12 {
			k := int64(math.Round(v * 1e5))
			if old, ok := m[k]; !ok || v < old {
				m[k] = v
			}
		}
	}
	for i := range b.items {
		it := &b.items[i]
		eachPoint(it.placed, func(v dxfread.Vec) {
			p := b.frame.point(v)
			if !isNumber(p.X) || !isNumber(p.Y) {
				return
			}
			if !some {
				box, some = geom.Box{Min: p, Max: p}, true
				return
			}
			box = box.Add(p)
		})
		if it.class != classCut {
			continue
		}
		m := b.frame.through(ocsMap(it.placed))
		switch e := it.placed.Entity.(type) {
		case *dxfread.Circle:
			if ok, _ := isSimilar(m); ok {
				put(dia, 2*m.dir(dxfread.Vec{X: e.Radius}).Len())
			}
		case *dxfread.Line:
			w := b.frame.through(it.placed.Map)
			put(straight, w.point(e.From).Dist(w.point(e.To)))
		case *dxfread.Polyline:
			if e.ThreeD {
				continue
			}
			for k := 1; k < len(e.Vertices); k++ {
				if e.Vertices[k-1].Bulge == 0 {
					put(straight, m.point(e.Vertices[k-1].At).Dist(m.point(e.Vertices[k].At)))
				}
			}
		}
	}
	data.width, data.height = box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	data.diameters, data.lengths = sortedValues(dia), sortedValues(straight)
	for _, t := range b.texts {
		data.texts = append(data.texts, t.value)
	}
	sort.Strings(data.texts)
	data.dims = append(data.dims, b.dims...)
	sort.Slice(data.dims, func(i, j int) bool {
		a, c := data.dims[i], data.dims[j]
		return a.text < c.text || a.text == c.text && a.measured < c.measured
	})
	return data
}

func sortedValues(m map[int64]float64) []float64 {
	out := make([]float64, 0, len(m))
	for _, v := range m {
		out = append(out, v)
	}
	sort.Float64s(out)
	return out
}
