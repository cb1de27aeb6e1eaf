package dxfread

import (
	"math"
	"strings"
)

// store holds the memory that entities are handed out from.
type store struct {
	lines     slab[Line]
	arcs      slab[Arc]
	circles   slab[Circle]
	ellipses  slab[Ellipse]
	polylines slab[Polyline]
	splines   slab[Spline]
	points    slab[Point]
	texts     slab[Text]
	inserts   slab[Insert]
	solids    slab[Solid]

	vertices arena[Vertex]
	vecs     arena[Vec]
	floats   arena[float64]

	scratch     []Vertex
	scratchVec  []Vec
	scratchVec2 []Vec
	scratchNum  []float64
	scratchNum2 []float64
	scratchText []byte
}

// entitySection reads the section ENTITIES.
func (r *reader) entitySection() bool {
	more := r.s.next()
	if more {
		more = r.readBeside()
	}
	if more, _ = r.run(more, math.MaxInt64); more {
		_, open := r.ends()
		return open
	}
	r.truncatedIfEnded()
	return false
}

// run decodes entities from the pair at hand on, if there is one, up to
// the mark that ends the section. It also ends at line stop or behind it,
// between two entities; stopped tells that it came to exactly that line. False
// for more means that no pair is at hand.
func (r *reader) run(more bool, stop int64) (pair, stopped bool) {
	for more {
		if r.s.at >= stop {
			return true, r.s.at == stop && r.s.code == 0
		}
		if r.s.code != 0 {
			r.note("stray-pair", "a pair that belongs to no entity was passed over")
			more = r.s.next()
			continue
		}
		if r.s.trim(); len(r.s.val()) > 2 && len(r.s.val()) < 8 {
			if done, _ := r.ends(); done {
				return true, false
			}
		}
		e := r.entity()
		more = r.rowOK()
		if e == nil || !more {
			continue
		}
		if !r.paper {
			r.d.Model = append(r.d.Model, e)
			continue
		}
		i := r.layout(r.tab)
		r.d.Layouts[i].Entities = append(r.d.Layouts[i].Entities, e)
	}
	return false, false
}

// layout gives the index of the layout with this name; "" stands for the
// active one until finish.
func (r *reader) layout(name string) int {
	key := fold(name)
	if i, ok := r.layoutAt[key]; ok {
		return i
	}
	i := len(r.d.Layouts)
	r.d.Layouts = append(r.d.Layouts, Layout{Name: name})
	r.layoutAt[key] = i
	return i
}

// entity decodes the entity whose name is at hand and leaves the pair of code 0
// that follows it at hand. An entity that was not read to its end is nil.
func (r *reader) entity() Entity {
	switch string(r.s.val()) {
	case "LINE":
		return r.line()
	case "ARC":
		return r.arc()
	case "CIRCLE":
		return r.circle()
	case "LWPOLYLINE":
		return r.lwpolyline()
	case "POLYLINE":
		return r.polyline()
	case "INSERT":
		return r.insert()
	case "TEXT", "ATTDEF", "ATTRIB":
		return r.textEntity()
	case "MTEXT":
		return r.mtext()
	case "TOLERANCE":
		return r.tolerance()
	case "POINT":
		return r.point()
	case "ELLIPSE":
		return r.ellipse()
	case "SPLINE":
		return r.spline()
	case "SOLID", "TRACE", "3DFACE":
		return r.solid()
	case "DIMENSION":
		return r.dimension()
	case "LEADER":
		return r.leader()
	case "MULTILEADER", "MLEADER":
		return r.multileader()
	case "HATCH":
		return r.hatch()
	case "ACAD_TABLE":
		return r.table()
	case "VIEWPORT":
		return r.viewport()
	}
	return r.other()
}

// start prepares for a new entity.
func (r *reader) start(c *Common) {
	*c = Common{Line: r.s.at, Layer: -1, Linetype: typeByLayer, Colour: 256, Extrusion: Vec{Z: 1}}
	r.paper, r.tab, r.spoiled, r.sealed = false, "", "", false
}

// common takes the pairs that all entities share.
func (r *reader) common(c *Common) {
	s := &r.s
	switch s.code {
	case 8:
		c.Layer = r.layerOf(s.val())
	case 5:
		c.Handle = r.handle()
	case 6:
		c.Linetype = r.typeOf(s.val())
	case 62:
		if n := r.int(); n >= 0 && n <= 256 {
			c.Colour = int16(n)
		}
	case 60:
		c.Invisible = r.int() != 0
	case 67:
		r.paper = r.int() == 1
	case 410:
		r.tab = r.str()
	case 39:
		c.Thickness = r.float()
	case 210:
		c.Extrusion.X = r.float()
	case 220:
		c.Extrusion.Y = r.float()
	case 230:
		c.Extrusion.Z = r.float()
	}
}

// shared is common for entities whose own groups use the same codes: only what
// stands before their own subclass is taken.
func (r *reader) shared(c *Common) {
	if !r.sealed {
		r.common(c)
	}
}

// end closes an entity. It returns false if the data ended inside it.
func (r *reader) end(c *Common) bool {
	if !r.rowOK() {
		return false
	}
	if c.Layer < 0 {
		c.Layer = r.layer("0")
	}
	if c.Extrusion != (Vec{Z: 1}) {
		unit, ok := c.Extrusion.unit()
		if !ok {
			unit = Vec{Z: 1}
			r.noteOf(c, "extrusion-zero", "an extrusion of length zero counts as (0,0,1)")
		}
		c.Extrusion = unit
	}
	return true
}

// noteOf notes something about an entity.
func (r *reader) noteOf(c *Common, code, text string) { r.notes.add(code, text, c.Line, c.Handle) }

// usable ends an entity that must be drawable. Where it is not, what remains
// is an *Other, so that no bad number travels on and the entity still counts.
func (r *reader) usable(e Entity, why string) Entity {
	c := e.Base()
	if !r.end(c) {
		return nil
	}
	if r.spoiled != "" {
		why = r.spoiled
	}
	if why == "" {
		return e
	}
	return r.skipped(c, e.Name(), why)
}

// skipped gives an *Other with its note.
func (r *reader) skipped(c *Common, kind, why string) Entity {
	r.noteOf(c, "entity-skipped", kind+": "+why)
	o := &Other{Common: *c, Kind: kind}
	o.Thickness, o.Extrusion = 0, Vec{Z: 1}
	return o
}

// other passes over an entity that is not decoded.
func (r *reader) other() Entity {
	o := &Other{Kind: strings.ToUpper(r.str())}
	if len(o.Kind) > 64 {
		o.Kind = o.Kind[:64]
	}
	o.Kind = strings.ToValidUTF8(o.Kind, "")
	r.start(&o.Common)
	for r.tag() {
		r.shared(&o.Common)
	}
	if !r.end(&o.Common) {
		return nil
	}
	switch o.Kind {
	case "VERTEX", "SEQEND", "ENDBLK":
		if o.Kind != "VERTEX" {
			r.noteOf(&o.Common, "stray-entity", o.Kind+" without its beginning")
			return nil
		}
		r.noteOf(&o.Common, "entity-skipped", "VERTEX: it belongs to no polyline")
	default:
		r.noteOf(&o.Common, "entity-skipped", o.Kind+": this kind is not read")
	}
	return o
}
