package dxfread

import "strings"

// insert reads INSERT with the attributes that follow it. Group 66 announces
// them, but some writers forget it: what follows decides.
func (r *reader) insert() Entity {
	e := r.inserts.take()
	r.start(&e.Common)
	e.Scale, e.Columns, e.Rows = Vec{1, 1, 1}, 1, 1
	follow, has := false, 0
	for r.tag() {
		switch r.s.code {
		case 2:
			e.Block = r.insertName()
		case 10:
			e.At.X = r.float()
			has |= hasX
		case 20:
			e.At.Y = r.float()
			has |= hasY
		case 30:
			e.At.Z = r.float()
		case 41:
			e.Scale.X = r.float()
		case 42:
			e.Scale.Y = r.float()
		case 43:
			e.Scale.Z = r.float()
		case 44:
			e.ColSpacing = r.float()
		case 45:
			e.RowSpacing = r.float()
		case 50:
			e.AngleDeg = r.float()
		case 66:
			follow = r.int() != 0
		case 70:
			e.Columns = r.int()
		case 71:
			e.Rows = r.int()
		default:
			r.common(&e.Common)
		}
	}
	if !r.end(&e.Common) {
		return nil
	}
	paper, tab, spoiled := r.paper, r.tab, r.spoiled
	for r.rowOK() && string(r.s.val()) == "ATTRIB" {
		follow = true
		if a, ok := r.textEntity().(*Text); ok {
			e.Attributes = append(e.Attributes, a)
		}
	}
	if follow && r.rowOK() {
		if string(r.s.val()) == "SEQEND" {
			var c Common
			r.start(&c)
			for r.tag() {
			}
		} else if len(e.Attributes) > 0 {
			r.noteOf(&e.Common, "seqend-missing", "the attributes of an INSERT have no SEQEND")
		}
	}
	if !r.rowOK() {
		return nil
	}
	r.paper, r.tab, r.spoiled = paper, tab, spoiled
	for _, s := range []*float64{&e.Scale.X, &e.Scale.Y, &e.Scale.Z} {
		if *s == 0 {
			*s = 1
			r.noteOf(&e.Common, "scale-zero", "an INSERT with scale 0 along an axis is placed with scale 1")
		}
	}
	e.Columns, e.Rows = max(e.Columns, 1), max(e.Rows, 1)
	return r.usable(e, lacking(has, hasX|hasY))
}

func (r *reader) solid() Entity {
	e := r.solids.take()
	switch string(r.s.val()) {
	case "SOLID":
		e.Kind = "SOLID"
	case "TRACE":
		e.Kind = "TRACE"
	default:
		e.Kind = "3DFACE"
	}
	r.start(&e.Common)
	four := false
	for r.tag() {
		switch {
		case r.vec(&e.Corners[0], 10), r.vec(&e.Corners[1], 11), r.vec(&e.Corners[2], 12):
		case r.vec(&e.Corners[3], 13):
			four = true
		default:
			r.common(&e.Common)
		}
	}
	if !four {
		e.Corners[3] = e.Corners[2]
	}
	return r.usable(e, "")
}

// hatch reads no more of a HATCH than its name: its boundary repeats lines that
// stand in the drawing by themselves.
func (r *reader) hatch() Entity {
	e := &Hatch{}
	r.start(&e.Common)
	named, filled := false, false
	for r.tag() {
		switch {
		case r.s.code == 2 && !named:
			e.Pattern, named = r.str(), true
		case r.s.code == 70 && !filled:
			e.Solid, filled = r.int()&1 != 0, true
		default:
			r.shared(&e.Common)
		}
	}
	return r.usable(e, "")
}

func (r *reader) leader() Entity {
	e := &Leader{}
	r.start(&e.Common)
	vs, ys := r.scratchVec[:0], 0
	for r.tag() {
		switch r.s.code {
		case 10:
			vs = append(vs, Vec{X: r.float()})
		case 20:
			ys++
			if len(vs) > 0 {
				vs[len(vs)-1].Y = r.float()
			}
		case 30:
			if len(vs) > 0 {
				vs[len(vs)-1].Z = r.float()
			}
		default:
			r.common(&e.Common)
		}
	}
	r.scratchVec = vs
	e.Vertices = r.vecs.keep(vs)
	return r.usable(e, fewVertices(len(vs), ys))
}

// multileader reads MULTILEADER: its groups are nested by texts such as
// "CONTEXT_DATA{" and "}". The first leader line becomes Vertices, ending at
// the landing; further ones go to More.
func (r *reader) multileader() Entity {
	e := &Leader{Multi: true}
	r.start(&e.Common)
	var open []string
	var lines [][]Vec
	var landing Vec
	hasLanding := false
	endLine := func() {
		if n := len(lines); n > 0 && hasLanding && len(lines[n-1]) > 0 {
			lines[n-1] = append(lines[n-1], landing)
		}
	}
	first := 0 // first line of the current leader
	for r.tag() {
		code := r.s.code
		if code >= 300 && code <= 309 {
			t := strings.TrimSpace(r.str())
			switch {
			case strings.HasSuffix(t, "{") && (t == "CONTEXT_DATA{" || t == "LEADER{" || t == "LEADER_LINE{"):
				if len(open) < 8 {
					open = append(open, t)
				}
				if t == "LEADER{" {
					hasLanding, first = false, len(lines)
				}
				if t == "LEADER_LINE{" {
					lines = append(lines, nil)
				}
			case t == "}" && len(open) > 0:
				if open[len(open)-1] == "LEADER{" {
					all := lines
					for n := first; n < len(all); n++ {
						lines = all[:n+1]
						endLine()
					}
					lines = all
				}
				open = open[:len(open)-1]
			case code == 304 && len(open) == 1:
				e.Text = plainMText(r.coder.text(r.s.val()), &r.coder)
			}
			continue
		}
		switch in := len(open); {
		case in == 0:
			r.shared(&e.Common)
		case open[in-1] == "LEADER_LINE{" && len(lines) > 0:
			l := &lines[len(lines)-1]
			switch {
			case code == 10:
				*l = append(*l, Vec{X: r.float()})
			case code == 20 && len(*l) > 0:
				(*l)[len(*l)-1].Y = r.float()
			case code == 30 && len(*l) > 0:
				(*l)[len(*l)-1].Z = r.float()
			}
		case open[in-1] == "LEADER{":
			if r.vec(&landing, 10) {
				hasLanding = true
			}
		case open[in-1] == "CONTEXT_DATA{":
			r.vec(&e.TextAt, 12)
		}
	}
	for _, l := range lines {
		if len(l) < 2 {
			continue
		}
		if e.Vertices == nil {
			e.Vertices = l
		} else {
			e.More = append(e.More, l)
		}
	}
	return r.usable(e, "")
}

func (r *reader) viewport() Entity {
	e := &Viewport{}
	r.start(&e.Common)
	for r.tag() {
		switch {
		case r.vec(&e.Centre, 10):
		case r.s.code == 40:
			e.Width = r.float()
		case r.s.code == 41:
			e.Height = r.float()
		case r.s.code == 45:
			e.ViewHeight = r.float()
		case r.s.code == 69:
			e.ID = r.int()
		default:
			r.shared(&e.Common)
		}
	}
	return r.usable(e, "")
}
