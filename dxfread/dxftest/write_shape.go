package dxftest

import "strings"

// begin puts the name and the common pairs of an entity.
func (w *writer) begin(name string, s *shape, paper bool) {
	w.put(Pair{0, name})
	w.newer(Pair{5, w.nextHandle()}, Pair{100, "AcDbEntity"})
	if paper {
		w.put(Pair{67, 1})
	}
	w.put(Pair{8, s.layer})
	if s.linetype != "" {
		w.put(Pair{6, s.linetype})
	}
	if s.colour != 256 {
		w.put(Pair{62, s.colour})
	}
}

// xyz puts a point whose x has this code.
func (w *writer) xyz(code int, x, y, z float64) {
	w.put(Pair{code, x}, Pair{code + 10, y}, Pair{code + 20, z})
}

func (w *writer) extrude(s *shape) {
	if e := s.extrusion; e != nil {
		w.xyz(210, e[0], e[1], e[2])
	}
}

func (w *writer) shape(s *shape, paper bool) {
	n := s.nums
	if name, ok := strings.CutPrefix(s.kind, "raw:"); ok {
		w.begin(name, s, paper)
		if s.text != "" {
			w.newer(Pair{100, s.text})
		}
		for _, p := range s.pairs {
			if p.Code != 100 || !w.r12 {
				w.put(p)
			}
		}
		w.extrude(s)
		return
	}
	if w.r12 && s.kind == "LWPOLYLINE" || s.kind == "POLYLINE" {
		w.oldPolyline(s, paper)
		return
	}
	w.begin(s.kind, s, paper)
	switch s.kind {
	case "LINE":
		w.newer(Pair{100, "AcDbLine"})
		w.xyz(10, n[0], n[1], n[2])
		w.xyz(11, n[3], n[4], n[5])
	case "POINT":
		w.newer(Pair{100, "AcDbPoint"})
		w.xyz(10, n[0], n[1], 0)
	case "CIRCLE", "ARC":
		w.newer(Pair{100, "AcDbCircle"})
		w.xyz(10, n[0], n[1], 0)
		w.put(Pair{40, n[2]})
		if s.kind == "ARC" {
			w.extrude(s)
			w.newer(Pair{100, "AcDbArc"})
			w.put(Pair{50, n[3]}, Pair{51, n[4]})
			return
		}
	case "ELLIPSE":
		w.newer(Pair{100, "AcDbEllipse"})
		w.xyz(10, n[0], n[1], 0)
		w.xyz(11, n[2], n[3], 0)
		w.put(Pair{40, n[4]}, Pair{41, n[5]}, Pair{42, n[6]})
	case "LWPOLYLINE":
		w.newer(Pair{100, "AcDbPolyline"})
		w.put(Pair{90, len(s.verts)}, Pair{70, flag(s.closed)})
		for _, v := range s.verts {
			w.put(Pair{10, v.X}, Pair{20, v.Y})
			if v.Bulge != 0 {
				w.put(Pair{42, v.Bulge})
			}
		}
	case "TEXT":
		w.newer(Pair{100, "AcDbText"})
		w.xyz(10, n[0], n[1], 0)
		w.put(Pair{40, n[2]}, Pair{1, s.text})
		w.newer(Pair{100, "AcDbText"})
	case "MTEXT":
		w.newer(Pair{100, "AcDbMText"})
		w.xyz(10, n[0], n[1], 0)
		w.put(Pair{40, n[2]}, Pair{71, 1})
		rest := s.text
		for len(rest) > 250 {
			w.put(Pair{3, rest[:250]})
			rest = rest[250:]
		}
		w.put(Pair{1, rest})
	case "INSERT":
		w.insert(s, paper)
		return
	default:
		panic("dxftest: no such shape: " + s.kind)
	}
	w.extrude(s)
}

func flag(on bool) int {
	if on {
		return 1
	}
	return 0
}

func (w *writer) oldPolyline(s *shape, paper bool) {
	w.begin("POLYLINE", s, paper)
	w.newer(Pair{100, "AcDb2dPolyline"})
	w.put(Pair{66, 1})
	w.xyz(10, 0, 0, 0)
	w.put(Pair{70, flag(s.closed)})
	w.extrude(s)
	for _, v := range s.verts {
		w.begin("VERTEX", s, paper)
		w.newer(Pair{100, "AcDbVertex"}, Pair{100, "AcDb2dVertex"})
		w.xyz(10, v.X, v.Y, 0)
		if v.Bulge != 0 {
			w.put(Pair{42, v.Bulge})
		}
	}
	w.begin("SEQEND", s, paper)
}

func (w *writer) insert(s *shape, paper bool) {
	p := s.place
	one := func(v float64) float64 {
		if v == 0 {
			return 1
		}
		return v
	}
	w.newer(Pair{100, "AcDbBlockReference"})
	if len(p.Attributes) > 0 {
		w.put(Pair{66, 1})
	}
	w.put(Pair{2, s.text})
	w.xyz(10, s.nums[0], s.nums[1], 0)
	z := one(p.ScaleZ)
	if p.ZeroZ {
		z = 0
	}
	w.put(Pair{41, one(p.ScaleX)}, Pair{42, one(p.ScaleY)}, Pair{43, z}, Pair{50, p.AngleDeg})
	if p.Columns > 1 || p.Rows > 1 {
		w.put(Pair{70, max(p.Columns, 1)}, Pair{71, max(p.Rows, 1)}, Pair{44, p.ColSpacing}, Pair{45, p.RowSpacing})
	}
	w.extrude(s)
	if len(p.Attributes) == 0 {
		return
	}
	for _, a := range p.Attributes {
		w.begin("ATTRIB", s, paper)
		w.newer(Pair{100, "AcDbText"})
		w.xyz(10, a.X, a.Y, 0)
		w.put(Pair{40, a.Height}, Pair{1, a.Value})
		w.newer(Pair{100, "AcDbAttribute"})
		w.put(Pair{2, a.Tag}, Pair{70, 0})
	}
	w.begin("SEQEND", s, paper)
}
