package dxfread

import (
	"strings"
)

// blockSection reads the section BLOCKS.
func (r *reader) blockSection() bool {
	more := r.s.next()
	for more {
		if r.s.code != 0 {
			more = r.s.next()
			continue
		}
		if done, open := r.ends(); done {
			return open
		}
		if r.token() == "BLOCK" {
			more = r.block()
			continue
		}
		r.note("stray-entity", "an entity outside of all blocks was passed over")
		more = r.s.next()
	}
	r.truncatedIfEnded()
	return false
}

// block reads one definition up to its ENDBLK. What was read of a definition
// that the data cut short is kept: inserts of it still show where they stand.
func (r *reader) block() bool {
	b := Block{Line: r.s.at}
	flags, path := 0, ""
	r.spoiled = ""
	for r.tag() {
		switch {
		case r.s.code == 2:
			b.Name = r.name()
		case r.s.code == 70:
			flags = r.int()
		case r.s.code == 1:
			path = r.str()
		case r.vec(&b.Base, 10):
		}
	}
	if r.spoiled != "" {
		b.Base = Vec{}
		r.notes.add("block-base", "a block has a base point that is no place; (0,0,0) is used", b.Line, 0)
	}
	const external, overlaid = 4, 8
	b.XRef = flags&(external|overlaid) != 0
	b.Layout = isSpace(b.Name)
	if b.XRef {
		r.notes.add("xref", "the block "+quote(b.Name)+" is an external reference to "+quote(path)+"; it is not read", b.Line, 0)
	}
	for r.rowOK() {
		stop := false
		switch string(r.s.val()) {
		case "ENDBLK":
			var c Common
			r.start(&c)
			for r.tag() {
			}
			stop = true
		case "BLOCK", "ENDSEC", "SECTION", "EOF":
			r.notes.add("endblk-missing", "a block has no ENDBLK", b.Line, 0)
			stop = true
		}
		if stop {
			break
		}
		if e := r.entity(); e != nil {
			b.Entities = append(b.Entities, e)
		}
	}
	r.keepBlock(b)
	return r.rowOK()
}

// isSpace tells the blocks that stand for model space and the layouts.
func isSpace(name string) bool {
	f := fold(name)
	for _, p := range []string{"*MODEL_SPACE", "*PAPER_SPACE", "$MODEL_SPACE", "$PAPER_SPACE"} {
		if strings.HasPrefix(f, p) {
			return true
		}
	}
	return false
}

// keepBlock files a definition; a later one of the same name replaces it.
func (r *reader) keepBlock(b Block) {
	key := fold(b.Name)
	if i, ok := r.blocks[key]; ok {
		r.notes.add("block-repeated", "the block "+quote(b.Name)+" is defined more than once; the last definition is used", b.Line, 0)
		r.d.Blocks[i] = b
		return
	}
	r.blocks[key] = int32(len(r.d.Blocks))
	r.d.Blocks = append(r.d.Blocks, b)
}

// objects reads the names of the layouts from the section OBJECTS.
func (r *reader) objects() bool {
	more := r.s.next()
	for more {
		if r.s.code != 0 {
			more = r.s.next()
			continue
		}
		if done, open := r.ends(); done {
			return open
		}
		if r.token() != "LAYOUT" {
			more = r.s.next()
			continue
		}
		name, record, own := "", uint64(0), false
		for r.tag() {
			switch r.s.code {
			case 100:
				own = r.token() == "AcDbLayout"
			case 1:
				if own {
					name = r.str()
				}
			case 330:
				if own {
					record = r.handle()
				}
			}
		}
		if more = r.rowOK(); more && name != "" && record != 0 {
			r.layoutOf[record] = name
		}
	}
	r.truncatedIfEnded()
	return false
}

// placeLayouts gives the blocks their record data, and the entities of the
// blocks that stand for spaces to those spaces.
func (r *reader) placeLayouts() {
	d := r.d
	title := func(block string) string {
		if rec, ok := r.records[fold(block)]; ok && rec.handle != 0 {
			if name, ok := r.layoutOf[rec.handle]; ok {
				return name
			}
		}
		return block
	}
	if i, ok := r.layoutAt[""]; ok {
		active := title("*Paper_Space")
		if j, ok := r.layoutAt[fold(active)]; ok && j != i {
			d.Layouts[j].Entities = append(d.Layouts[j].Entities, d.Layouts[i].Entities...)
			d.Layouts = append(d.Layouts[:i], d.Layouts[i+1:]...)
			r.layoutAt = map[string]int{}
			for k, l := range d.Layouts {
				r.layoutAt[fold(l.Name)] = k
			}
		} else {
			d.Layouts[i].Name = active
			r.layoutAt[fold(active)] = i
		}
	}
	for i := range d.Blocks {
		b := &d.Blocks[i]
		b.Units = r.records[fold(b.Name)].units
		if !b.Layout || len(b.Entities) == 0 {
			continue
		}
		if !strings.HasPrefix(fold(b.Name)[1:], "MODEL") {
			k := r.layout(title(b.Name))
			d.Layouts[k].Entities = append(d.Layouts[k].Entities, b.Entities...)
			b.Entities = nil
		} else if len(d.Model) == 0 {
			d.Model, b.Entities = b.Entities, nil
			r.notes.add("model-in-block", "the entities of model space stand in the section BLOCKS", b.Line, 0)
		} else {
			r.notes.add("model-in-block", "further entities of model space in the section BLOCKS were not read", b.Line, 0)
			b.Entities = nil
		}
	}
}
