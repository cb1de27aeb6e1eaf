package dxfread

import "bytes"

// tables reads the section TABLES.
func (r *reader) tables() bool {
	more := r.s.next()
	for more {
		if r.s.code != 0 {
			more = r.s.next()
			continue
		}
		if done, open := r.ends(); done {
			return open
		}
		switch r.token() {
		case "LAYER":
			more = r.layerRow()
		case "LTYPE":
			more = r.typeRow()
		case "BLOCK_RECORD":
			more = r.recordRow()
		case "DIMSTYLE":
			more = r.styleRow()
		default: // TABLE, ENDTAB and rows that are not used
			more = r.s.next()
		}
	}
	r.truncatedIfEnded()
	return false
}

// tag moves to the next pair of an entity or row; false at its end (the pair
// of code 0 is then at hand) or at the end of the data. Application groups
// (102 "{...}"), embedded objects (101) and extended data (1000 and up) are
// passed over: they hold group codes that look like geometry.
func (r *reader) tag() bool {
	for r.s.next() {
		switch c := r.s.code; {
		case c == 0:
			r.s.trim()
			return false
		case c < 100:
			return true
		case c == 100:
			if r.s.trim(); string(r.s.val()) != "AcDbEntity" {
				r.sealed = true
			}
			return true
		case c == 101:
			for r.s.next() {
				if r.s.code == 0 {
					r.s.trim()
					return false
				}
			}
			return false
		case c == 102:
			if len(r.s.val()) == 0 || r.s.val()[0] != '{' {
				continue
			}
			for r.s.next() {
				if r.s.code == 0 {
					r.s.trim()
					return false
				}
				if r.s.code == 102 && len(r.s.val()) > 0 && r.s.val()[0] == '}' {
					break
				}
			}
		case c >= 1000:
		default:
			return true
		}
	}
	return false
}

// rowOK tells after a row whether it was read whole: at its end a pair of code
// 0 is at hand.
func (r *reader) rowOK() bool { return r.s.err == nil && r.s.code == 0 }

func (r *reader) layerRow() bool {
	l := Layer{Declared: true, Colour: 7, Linetype: -1, LineWeight: -3}
	flags := 0
	for r.tag() {
		switch r.s.code {
		case 2:
			l.Name = r.name()
		case 70:
			flags = r.int()
		case 62:
			l.Colour = r.int()
		case 6:
			l.Linetype = r.typeOf(r.s.val())
		case 290:
			l.NoPlot = r.int() == 0
		case 370:
			l.LineWeight = r.int()
		}
	}
	if !r.rowOK() {
		return false
	}
	if l.Colour < 0 {
		l.Off, l.Colour = true, -l.Colour
	}
	l.Frozen, l.Locked = flags&1 != 0, flags&4 != 0
	if l.Linetype < 0 { // by layer or by block means nothing here
		l.Linetype = -1
	}
	i := r.layer(l.Name)
	if r.d.Layers[i].Declared {
		r.note("layer-repeated", "the layer "+quote(l.Name)+" stands twice in the table")
		return true
	}
	r.d.Layers[i] = l
	r.layerRows = append(r.layerRows, i)
	return true
}

func (r *reader) typeRow() bool {
	t := Linetype{Declared: true}
	for r.tag() {
		switch r.s.code {
		case 2:
			t.Name = r.name()
		case 49:
			if v := r.float(); r.spoiled == "" {
				t.Dashes = append(t.Dashes, v)
			}
			r.spoiled = ""
		}
	}
	if !r.rowOK() {
		return false
	}
	if i := r.linetype(t.Name); i >= 0 && !r.d.Types[i].Declared {
		r.d.Types[i] = t
		r.typeRows = append(r.typeRows, i)
	}
	return true
}

func (r *reader) recordRow() bool {
	name, rec := "", record{}
	for r.tag() {
		switch r.s.code {
		case 2:
			name = r.name()
		case 5:
			rec.handle = r.handle()
		case 70:
			rec.units = r.int()
		}
	}
	if !r.rowOK() {
		return false
	}
	if name != "" {
		r.records[fold(name)] = rec
	}
	return true
}

// name is the value at hand as the name of a layer, type or block.
func (r *reader) name() string { return r.nameOf(r.s.val()) }

func (r *reader) nameOf(raw []byte) string {
	return plainName(r.coder.text(bytes.TrimSpace(raw)))
}

// layerOf gives the index of the layer with this name as written in the file.
func (r *reader) layerOf(raw []byte) int32 {
	return r.layerRaw.find(raw, func(raw []byte) int32 { return r.layer(r.nameOf(raw)) })
}

// layer gives the index of a layer; one that is not in the table is appended.
func (r *reader) layer(name string) int32 {
	key := fold(name)
	if i, ok := r.layers[key]; ok {
		return i
	}
	if r.base != nil {
		if i, ok := r.base.layers[key]; ok {
			return i
		}
	}
	i := int32(r.layerBase + len(r.d.Layers))
	r.d.Layers = append(r.d.Layers, Layer{Name: name, Colour: 7, Linetype: -1, LineWeight: -3})
	r.layers[key] = i
	return i
}

// Special linetypes of an entity.
const (
	typeByLayer = -1
	typeByBlock = -2
)

func (r *reader) typeOf(raw []byte) int32 {
	return r.typeRaw.find(raw, func(raw []byte) int32 { return r.linetype(r.nameOf(raw)) })
}

// insertName is name for the block of an insert: many inserts share one.
func (r *reader) insertName() string {
	i := r.insertRaw.find(r.s.val(), func(raw []byte) int32 {
		r.insertNames = append(r.insertNames, r.nameOf(raw))
		return int32(len(r.insertNames) - 1)
	})
	return r.insertNames[i]
}

func (r *reader) linetype(name string) int32 {
	key := fold(name)
	switch key {
	case "BYLAYER", "":
		return typeByLayer
	case "BYBLOCK":
		return typeByBlock
	}
	if i, ok := r.types[key]; ok {
		return i
	}
	if r.base != nil {
		if i, ok := r.base.types[key]; ok {
			return i
		}
	}
	i := int32(r.typeBase + len(r.d.Types))
	r.d.Types = append(r.d.Types, Linetype{Name: name})
	r.types[key] = i
	return i
}

// orderTables puts the declared rows first, as Drawing promises. It has work
// to do only where a row was used before its table was read.
func (r *reader) orderTables() {
	d := r.d
	layers, movedL := reorder(d.Layers, r.layerRows)
	types, movedT := reorder(d.Types, r.typeRows)
	if movedT != nil {
		d.Types = types
		for i := range d.Layers {
			layers[i].Linetype = mapped(layers[i].Linetype, movedT)
		}
	}
	if movedL == nil && movedT == nil {
		return
	}
	d.Layers = layers
	fix := func(c *Common) {
		c.Layer = mapped(c.Layer, movedL)
		c.Linetype = mapped(c.Linetype, movedT)
	}
	d.eachCommon(fix)
}

// eachCommon visits the common part of every entity and attribute.
func (d *Drawing) eachCommon(visit func(*Common)) {
	d.each(func(e Entity) {
		visit(e.Base())
		if in, ok := e.(*Insert); ok {
			for _, a := range in.Attributes {
				visit(&a.Common)
			}
		}
	})
}

// each visits every entity of the drawing, definitions included.
func (d *Drawing) each(visit func(Entity)) {
	for _, e := range d.Model {
		visit(e)
	}
	for _, l := range d.Layouts {
		for _, e := range l.Entities {
			visit(e)
		}
	}
	for _, b := range d.Blocks {
		for _, e := range b.Entities {
			visit(e)
		}
	}
}

func mapped(i int32, moved []int32) int32 {
	if i < 0 || moved == nil {
		return i
	}
	return moved[i]
}

// reorder puts the rows of the table first, in its order, the others after
// them in theirs, and gives the new index of every old one; nil if nothing
// moved.
func reorder[T any](rows []T, table []int32) ([]T, []int32) {
	order := make([]int32, 0, len(rows))
	inTable := make([]bool, len(rows))
	for _, i := range table {
		order = append(order, i)
		inTable[i] = true
	}
	for i := range rows {
		if !inTable[i] {
			order = append(order, int32(i))
		}
	}
	out := make([]T, len(rows))
	moved := make([]int32, len(rows))
	same := true
	for to, from := range order {
		out[to] = rows[from]
		moved[from] = int32(to)
		same = same && int32(to) == from
	}
	if same {
		return rows, nil
	}
	return out, moved
}
