package dxfread

// Name of each entity in the file.

func (*Line) Name() string      { return "LINE" }
func (*Arc) Name() string       { return "ARC" }
func (*Circle) Name() string    { return "CIRCLE" }
func (*Ellipse) Name() string   { return "ELLIPSE" }
func (*Spline) Name() string    { return "SPLINE" }
func (*Point) Name() string     { return "POINT" }
func (t *Text) Name() string    { return t.Kind }
func (*Dimension) Name() string { return "DIMENSION" }
func (*Hatch) Name() string     { return "HATCH" }
func (s *Solid) Name() string   { return s.Kind }
func (*Insert) Name() string    { return "INSERT" }
func (*Table) Name() string     { return "ACAD_TABLE" }
func (*Viewport) Name() string  { return "VIEWPORT" }
func (o *Other) Name() string   { return o.Kind }

// Name is LWPOLYLINE or POLYLINE.
func (p *Polyline) Name() string {
	if p.Light {
		return "LWPOLYLINE"
	}
	return "POLYLINE"
}

// Name is LEADER or MULTILEADER.
func (l *Leader) Name() string {
	if l.Multi {
		return "MULTILEADER"
	}
	return "LEADER"
}
