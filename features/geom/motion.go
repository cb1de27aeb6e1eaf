package geom

// Motion is a rigid motion: first a mirror at the Y axis (x becomes -x) when
// Mirror is set, then a turn about the origin, then a shift. The zero value
// moves nothing: Cos and Sin both 0 count as no turn.
type Motion struct {
	Cos, Sin float64
	Mirror   bool
	Shift    Point
}

// NewTurn turns about the origin by angle (rad, counter-clockwise); quarter
// turns are exact.
func NewTurn(angle float64) Motion {
	c, s := cosSin(angle)
	return Motion{Cos: c, Sin: s}
}

// NewTurnAbout turns about p by angle (rad, counter-clockwise).
func NewTurnAbout(p Point, angle float64) Motion {
	m := NewTurn(angle)
	m.Shift = p.Sub(m.Apply(p))
	return m
}

// NewShift moves by d.
func NewShift(d Point) Motion { return Motion{Cos: 1, Shift: d} }

// NewMirror mirrors at the Y axis: x becomes -x.
func NewMirror() Motion { return Motion{Cos: 1, Mirror: true} }

// NewAlign is the motion that brings the place p to q and the direction dp
// there to dq; with mirror the plane is turned over as well. Directions of no
// length count as no turn.
func NewAlign(p, dp, q, dq Point, mirror bool) Motion {
	if mirror {
		dp.X = -dp.X
	}
	dp, dq = dp.Unit(), dq.Unit()
	m := Motion{Cos: dp.Dot(dq), Sin: dp.Cross(dq), Mirror: mirror}
	m.Shift = q.Sub(m.Apply(p))
	return m
}

func (m Motion) turn() (cos, sin float64) {
	if m.Cos == 0 && m.Sin == 0 {
		return 1, 0
	}
	return m.Cos, m.Sin
}

// ApplyDir moves a direction: mirrored and turned, not shifted.
func (m Motion) ApplyDir(d Point) Point {
	if m.Mirror {
		d.X = -d.X
	}
	c, s := m.turn()
	return Point{float64(d.X*c) - float64(d.Y*s), float64(d.X*s) + float64(d.Y*c)}
}

// Apply moves a place.
func (m Motion) Apply(p Point) Point { return m.ApplyDir(p).Add(m.Shift) }

// Then is the motion that does m first, n after it.
func (m Motion) Then(n Motion) Motion {
	mc, ms := m.turn()
	nc, ns := n.turn()
	if n.Mirror { // a mirror after a turn is the opposite turn after a mirror
		ms = -ms
	}
	return Motion{
		Cos:    float64(mc*nc) - float64(ms*ns),
		Sin:    float64(ms*nc) + float64(mc*ns),
		Mirror: m.Mirror != n.Mirror,
		Shift:  n.Apply(m.Shift),
	}
}

// Inverse undoes m.
func (m Motion) Inverse() Motion {
	c, s := m.turn()
	inv := Motion{Cos: c, Sin: -s, Mirror: m.Mirror}
	if m.Mirror {
		inv.Sin = s
	}
	inv.Shift = inv.ApplyDir(m.Shift).Mul(-1)
	return inv
}
