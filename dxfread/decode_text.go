package dxfread

import "math"

// textEntity reads TEXT, ATTRIB and ATTDEF.
func (r *reader) textEntity() Entity {
	e := r.texts.take()
	e.Kind = kindOf(r.s.val())
	r.start(&e.Common)
	var at, align Vec
	flags := 0
	value := ""
	for r.tag() {
		switch {
		case r.vec(&at, 10):
		case r.vec(&align, 11):
			e.HasAlign = true
		case r.s.code == 1:
			value = plainText(r.coder.text(r.s.val()), &r.coder)
		case r.s.code == 2:
			e.Tag = r.str()
		case r.s.code == 40:
			e.Height = r.float()
		case r.s.code == 50:
			e.AngleDeg = r.float()
		case r.s.code == 70:
			flags = r.int()
		case r.s.code == 72:
			e.HAlign = int8(min(max(r.int(), 0), 5))
		case r.s.code == 73 && e.Kind == "TEXT", r.s.code == 74 && e.Kind != "TEXT":
			e.VAlign = int8(min(max(r.int(), 0), 3))
		default:
			r.common(&e.Common)
		}
	}
	e.Value = value
	if e.Kind != "TEXT" {
		const invisible, constant = 1, 2
		e.Invisible = e.Invisible || flags&invisible != 0
		e.Constant = flags&constant != 0
	} else {
		e.Tag = ""
	}
	if e.HAlign == 0 && e.VAlign == 0 {
		e.HasAlign = false
	} else if e.HasAlign && at == (Vec{}) {
		at = align // the writer left the other point to be worked out
	}
	out := r.usable(e, "")
	if out != Entity(e) {
		return out
	}
	m := OCS(e.Extrusion)
	e.At = m.Apply(at)
	if e.HasAlign {
		e.AlignAt = m.Apply(align)
	}
	if e.Extrusion != (Vec{Z: 1}) {
		sin, cos := math.Sincos(e.AngleDeg * (math.Pi / 180))
		d := m.Direction(Vec{X: cos, Y: sin})
		if d.X != 0 || d.Y != 0 {
			e.AngleDeg = math.Atan2(d.Y, d.X) * (180 / math.Pi)
		}
	}
	return out
}

func kindOf(b []byte) string {
	switch string(b) {
	case "TEXT":
		return "TEXT"
	case "ATTRIB":
		return "ATTRIB"
	}
	return "ATTDEF"
}

// mtext reads MTEXT, whose text comes in pieces: letters of more than one byte
// may be cut by them, so the bytes are joined first.
func (r *reader) mtext() Entity {
	e := r.texts.take()
	e.Kind = "MTEXT"
	r.start(&e.Common)
	text := r.scratchText[:0]
	var dir Vec
	for r.tag() {
		switch {
		case r.vec(&e.At, 10):
		case r.vec(&dir, 11):
			// The later one of angle and direction holds.
			if dir.X != 0 || dir.Y != 0 {
				e.AngleDeg = math.Atan2(dir.Y, dir.X) * (180 / math.Pi)
			}
		case r.s.code == 1, r.s.code == 3:
			text = append(text, r.s.val()...)
		case r.s.code == 40:
			e.Height = r.float()
		case r.s.code == 41:
			e.Width = r.float()
		case r.s.code == 50:
			e.AngleDeg = r.float()
		case r.s.code == 71:
			e.Attach = int8(min(max(r.int(), 0), 9))
		default:
			r.common(&e.Common)
		}
	}
	r.scratchText = text
	e.Value = plainMText(r.coder.text(text), &r.coder)
	return r.usable(e, "")
}

// dimension reads DIMENSION. The factor for its lengths, its tolerance and what
// stands about its value are those of its own overrides (extended data of its
// style), else those of its style.
func (r *reader) dimension() Entity {
	e := &Dimension{}
	r.start(&e.Common)
	var textAt Vec
	style := ""
	var own dimVars
	for r.dimTag(&own) {
		switch code := r.s.code; {
		case r.vec(&e.Defs[0], 10):
			e.HasDef[0] = true
		case r.vec(&e.Defs[1], 13):
			e.HasDef[1] = true
		case r.vec(&e.Defs[2], 14):
			e.HasDef[2] = true
		case r.vec(&e.Defs[3], 15):
			e.HasDef[3] = true
		case r.vec(&e.Defs[4], 16):
			e.HasDef[4] = true
		case r.vec(&textAt, 11):
		case code == 1:
			e.Override = plainMText(r.coder.text(r.s.val()), &r.coder)
		case code == 2:
			e.Block = r.str()
		case code == 3:
			style = r.str()
		case code == 42:
			if v := r.float(); v >= 0 {
				e.Measured = &v
			}
		case code == 50:
			e.AngleDeg = r.float()
		case code == 70:
			e.Kind = DimensionKind(r.int() & 7)
		default:
			r.common(&e.Common)
		}
	}
	why := ""
	if e.Kind > DimOrdinate {
		why = "its type is not known"
	}
	out := r.usable(e, why)
	if out == Entity(e) {
		e.TextAt = OCS(e.Extrusion).Apply(textAt)
		r.dimStyles = append(r.dimStyles, dimRef{e, style, own})
	}
	return out
}

// dimTag is tag, but finds the overrides of the dimension style.
func (r *reader) dimTag(own *dimVars) bool {
	at := r.s
	if at.next() && at.code >= 1000 {
		r.overrides(own)
	}
	return r.tag()
}
