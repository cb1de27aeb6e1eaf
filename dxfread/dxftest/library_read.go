package dxftest

import (
	"fmt"

	"github.com/yofu/dxf"
	"github.com/yofu/dxf/entity"
)

// LibraryCount is what github.com/yofu/dxf finds of one kind of entity: how
// many, and the sum of the sizes of their coordinates and radii. Bulges are
// left out: that reader puts them on the wrong vertex.
type LibraryCount struct {
	Count int
	Sum   float64
}

// ReadByLibrary reads a file with the library's own reader, which knows ASCII
// and few entities. It must not be given files of strangers in this process:
// it may not come back from some.
func ReadByLibrary(data []byte) (counts map[string]LibraryCount, err error) {
	library.Lock()
	defer library.Unlock()
	defer func() {
		if r := recover(); r != nil {
			counts, err = nil, fmt.Errorf("the library panics: %v", r)
		}
	}()
	d, err := dxf.FromStringData(string(data))
	if err != nil {
		return nil, err
	}
	counts = map[string]LibraryCount{}
	add := func(kind string, vs ...[]float64) {
		c := counts[kind]
		c.Count++
		for _, v := range vs {
			for _, x := range v {
				c.Sum += max(x, -x)
			}
		}
		counts[kind] = c
	}
	for _, e := range d.Entities() {
		switch e := e.(type) {
		case *entity.Line:
			add("LINE", e.Start, e.End)
		case *entity.Arc:
			add("ARC", e.Circle.Center, []float64{e.Circle.Radius}, e.Angle)
		case *entity.Circle:
			add("CIRCLE", e.Center, []float64{e.Radius})
		case *entity.LwPolyline:
			add("LWPOLYLINE", e.Vertices...)
		case *entity.Point:
			add("POINT", e.Coord)
		case *entity.Text:
			add("TEXT", []float64{e.Height})
		default:
			add("other")
		}
	}
	return counts, nil
}
