package dxfread

import (
	"context"
	"iter"
	"math"
	"strings"
)

// Placed is one entity as it stands in a space after all inserts.
//
// To get a point of the entity in the space: flat entities (see IsFlat) have
// their coordinates in their own plane, so OCS(Extrusion) is applied first and
// Map after it; all others only need Map. Full gives the whole map for either.
type Placed struct {
	Entity   Entity  // never an *Insert; attributes come as *Text
	Map      *Matrix // from the world of the entity to the space; many share one, nobody changes it
	Layer    int32   // effective: layer 0 in a block takes the insert's
	Linetype int32   // effective, resolved through layer and block; index in Drawing.Types, -1 unknown
	Colour   int16   // effective colour index
	Block    int32   // innermost insert in Placing.Path, -1 at the top
	Depth    uint8   // nesting of inserts, 0 at the top
	Hidden   Hidden  // why it is not seen; 0 if it is
}

// Full gives the map from the entity's own coordinates to the space.
func (p *Placed) Full() Matrix {
	if !IsFlat(p.Entity) {
		return *p.Map
	}
	n := p.Entity.Base().Extrusion
	if n == (Vec{Z: 1}) {
		return *p.Map
	}
	return OCS(n).Then(*p.Map)
}

// IsFlat tells the entities whose coordinates are in their own plane: *Arc,
// *Circle, *Insert, *Table, *Polyline unless ThreeD, *Solid unless a 3DFACE. Those of
// *Line, *Point, *Ellipse, *Spline, *Text, *Dimension, *Leader are in the
// world already; *Hatch, *Viewport and *Other have no geometry to map.
func IsFlat(e Entity) bool {
	switch e := e.(type) {
	case *Arc, *Circle, *Insert, *Table:
		return true
	case *Polyline:
		return !e.ThreeD
	case *Solid:
		return e.Kind != "3DFACE"
	case *Line, *Ellipse, *Spline, *Point, *Text, *Dimension, *Leader, *Hatch, *Viewport, *Other:
		return false
	}
	panic("dxfread: an entity of no known kind") // the set is closed
}

// Hidden is a set of reasons why a placed entity is not seen. An insert on a
// frozen layer hides all that its block holds; an insert on a layer that is
// only off hides what takes that layer (the block's layer 0), and what the
// block holds on other layers stays in view.
type Hidden uint8

// The reasons.
const (
	HiddenEntity       Hidden = 1 << iota // the entity itself is invisible
	HiddenLayerOff                        // its effective layer is off
	HiddenLayerFrozen                     // its effective layer is frozen
	HiddenInsert                          // an insert around it is invisible
	HiddenInsertFrozen                    // an insert around it stands on a frozen layer
)

// String lists the reasons, parted by commas; "" for none.
func (h Hidden) String() string {
	var parts []string
	for i, name := range []string{"invisible", "layer off", "layer frozen", "insert invisible", "layer of the insert frozen"} {
		if h&(1<<i) != 0 {
			parts = append(parts, name)
		}
	}
	return strings.Join(parts, ", ")
}

// Placing walks the entities of one space with all blocks placed. It holds no
// copy of the geometry: placing happens while it is walked. It is for one
// goroutine; one Drawing may have many Placings at once.
type Placing struct {
	d        *Drawing
	entities []Entity
	limits   Limits
	notes    notebook
	paths    []PathStep
	err      error

	blocks map[string]int32 // by folded name
	names  map[string]int32 // the same by the names as inserts write them
	counts []int64          // placed entities of each block, -1 not counted, -2 under way
	steps  map[PathStep]int32
	open   []int32 // blocks being placed, outermost first
	placed int
	cells  int // inserts placed, against the same limit
	walk   uint32
	ctx    context.Context
	yield  func(Placed) bool
}

// PathStep is one insert on the way to a placed entity.
type PathStep struct {
	Block  string
	Parent int32 // index of the outer step, -1 at the top
}

// Place prepares to walk entities (Drawing.Model, or a Layout's Entities).
func (d *Drawing) Place(entities []Entity, lim Limits) *Placing {
	return &Placing{d: d, entities: entities, limits: lim.filled()}
}

// frame is where the content of a block stands and what it inherits.
type frame struct {
	m        *Matrix
	layer    int32 // -1 at the top
	linetype int32
	colour   int16
	path     int32
	depth    uint8
	hidden   Hidden
}

// All yields every placed entity, in file order. It ends early when ctx does,
// or at Limits.Placed with the note "too-many-placed". Walking again begins
// anew.
func (p *Placing) All(ctx context.Context) iter.Seq[Placed] {
	return func(yield func(Placed) bool) {
		p.reset(ctx, yield)
		m := Identity()
		p.run(p.entities, &frame{m: &m, layer: -1, linetype: p.continuous(), colour: 7, path: -1})
		p.ctx, p.yield = nil, nil
	}
}

// AtMost is the number of entities that All yields where nothing stops it or is
// left out, and never more than the limit: how much room they take.
func (p *Placing) AtMost() int {
	p.reset(context.Background(), nil)
	return int(min(p.countOf(p.entities, 0), int64(p.limits.Placed)))
}

func (p *Placing) reset(ctx context.Context, yield func(Placed) bool) {
	p.ctx, p.yield = ctx, yield
	p.notes, p.paths, p.err = notebook{}, nil, ctx.Err()
	p.steps, p.names = map[PathStep]int32{}, map[string]int32{}
	p.placed, p.cells, p.walk, p.open = 0, 0, 0, nil
	if p.blocks == nil {
		p.blocks = make(map[string]int32, len(p.d.Blocks))
		for i := range p.d.Blocks {
			p.blocks[fold(p.d.Blocks[i].Name)] = int32(i)
		}
	}
	p.counts = make([]int64, len(p.d.Blocks))
	for i := range p.counts {
		p.counts[i] = -1
	}
}

// continuous is what by-block means at the top: a continuous line.
func (p *Placing) continuous() int32 {
	for i, t := range p.d.Types {
		if fold(t.Name) == "CONTINUOUS" {
			return int32(i)
		}
	}
	return -1
}

// run walks entities in a frame; false ends the whole walk.
func (p *Placing) run(entities []Entity, f *frame) bool {
	for _, e := range entities {
		// Asked often enough that a slow consumer still ends in time.
		if p.walk++; p.walk&63 == 0 || p.err != nil {
			if p.err == nil {
				p.err = p.ctx.Err()
			}
			if p.err != nil {
				return false
			}
		}
		switch e := e.(type) {
		case *Insert:
			if !p.insert(e, f) {
				return false
			}
			continue
		case *Table:
			if !p.table(e, f) {
				return false
			}
			continue
		case *Text:
			if e.Kind == "ATTDEF" && (!e.Constant || f.depth == 0) {
				continue // a definition shows nothing where it is placed
			}
		}
		if !p.put(e, f, f.path, f.depth) {
			return false
		}
	}
	return true
}

// put yields one entity with what it inherits.
func (p *Placing) put(e Entity, f *frame, path int32, depth uint8) bool {
	if p.placed >= p.limits.Placed {
		c := e.Base()
		p.notes.add("too-many-placed", "placing stopped at "+whole(p.limits.Placed)+" entities", c.Line, c.Handle)
		return false
	}
	p.placed++
	out := Placed{Entity: e, Map: f.m, Block: path, Depth: depth}
	c := e.Base()
	out.Layer, out.Linetype, out.Colour = p.inherit(c, f)
	out.Hidden = f.hidden | p.layerState(out.Layer)
	if c.Invisible {
		out.Hidden |= HiddenEntity
	}
	return p.yield(out)
}

// inherit gives the effective layer, linetype and colour of an entity.
func (p *Placing) inherit(c *Common, f *frame) (layer, linetype int32, colour int16) {
	layer, linetype, colour = c.Layer, c.Linetype, c.Colour
	if f.layer >= 0 && p.d.Layers[layer].Name == "0" {
		layer = f.layer
	}
	switch linetype {
	case typeByLayer:
		linetype = p.d.Layers[layer].Linetype
	case typeByBlock:
		linetype = f.linetype
	}
	switch colour {
	case 256:
		colour = int16(min(p.d.Layers[layer].Colour, math.MaxInt16))
	case 0:
		colour = f.colour
	}
	return layer, linetype, colour
}

func (p *Placing) layerState(layer int32) (h Hidden) {
	l := &p.d.Layers[layer]
	if l.Off {
		h |= HiddenLayerOff
	}
	if l.Frozen {
		h |= HiddenLayerFrozen
	}
	return h
}

// insert places a block in all cells of an insert, and the attributes after it.
func (p *Placing) insert(in *Insert, f *frame) bool {
	step := p.step(in.Block, f.path)
	b := p.find(in.Block)
	if why, code := p.refusal(b, in, f); why != "" {
		p.notes.add(code, why, in.Line, in.Handle)
	} else if p.count(b, 0) > 0 {
		if !p.cellsOf(in, b, f, step) {
			return false
		}
	}
	for _, a := range in.Attributes {
		if !p.put(a, f, step, f.depth+1) {
			return false
		}
	}
	return true
}

// table places a table, its picture, and the texts that the picture does not show.
func (p *Placing) table(t *Table, f *frame) bool {
	if !p.put(t, f, f.path, f.depth) {
		return false
	}
	var picture []Entity
	if b := p.find(t.Block); b >= 0 {
		picture = p.d.Blocks[b].Entities
		in := Insert{Common: t.Common, Block: t.Block, At: t.At, Scale: Vec{1, 1, 1}, AngleDeg: t.AngleDeg, Columns: 1, Rows: 1}
		if !p.insert(&in, f) {
			return false
		}
	}
	for _, x := range t.texts(picture) {
		if !p.put(x, f, f.path, f.depth) {
			return false
		}
	}
	return true
}

// refusal tells why an insert cannot be placed; "" if it can.
func (p *Placing) refusal(b int32, in *Insert, f *frame) (why, code string) {
	name := quote(in.Block)
	if b < 0 {
		return "the block " + name + " is not defined", "block-missing"
	}
	switch block := &p.d.Blocks[b]; {
	case block.Layout:
		return "the block " + name + " is a space and is not placed", "block-missing"
	case block.XRef && len(block.Entities) == 0:
		return "the block " + name + " is an external reference; it is not read", "xref"
	case int(f.depth) >= min(p.limits.Depth, 250):
		return "inserts are nested deeper than " + whole(int(f.depth)), "too-deep"
	}
	for _, o := range p.open {
		if o == b {
			return "the block " + name + " contains itself", "block-cycle"
		}
	}
	return "", ""
}

// cellsOf places the rows and columns of an insert, row by row from the bottom.
func (p *Placing) cellsOf(in *Insert, b int32, f *frame, step int32) bool {
	block := &p.d.Blocks[b]
	inner := frame{path: step, depth: f.depth + 1}
	inner.layer, inner.linetype, inner.colour = p.inherit(&in.Common, f)
	inner.hidden = f.hidden
	if in.Invisible {
		inner.hidden |= HiddenInsert
	}
	if p.layerState(inner.layer)&HiddenLayerFrozen != 0 {
		inner.hidden |= HiddenInsertFrozen
	}
	p.open = append(p.open, b)
	defer func() { p.open = p.open[:len(p.open)-1] }()
	for row := range in.Rows {
		for col := range in.Columns {
			if p.cells >= p.limits.Placed {
				p.notes.add("too-many-placed", "placing stopped at "+whole(p.limits.Placed)+" inserts", in.Line, in.Handle)
				return false
			}
			p.cells++
			if p.cells&63 == 0 {
				if p.err = p.ctx.Err(); p.err != nil {
					return false
				}
			}
			m := insertMap(in, block.Base, col, row)
			if f.depth > 0 {
				m = m.Then(*f.m)
			}
			inner.m = &m
			if !inner.m.bounded() {
				p.notes.add("placement-absurd", "an insert of "+quote(in.Block)+" lies or reaches beyond 1e18 and is left out", in.Line, in.Handle)
				continue
			}
			if !p.run(block.Entities, &inner) {
				return false
			}
		}
	}
	return true
}

// find gives the index of a block, -1 if it is not defined.
func (p *Placing) find(name string) int32 {
	if i, ok := p.names[name]; ok {
		return i
	}
	i, ok := p.blocks[fold(name)]
	if !ok {
		i = -1
	}
	p.names[name] = i
	return i
}

// count gives how many entities a block places, at most a great number, so
// that arrays of blocks that place nothing cost nothing. What lies on a cycle
// is left out.
func (p *Placing) count(b int32, nested int) int64 {
	if p.counts[b] != -1 {
		return max(p.counts[b], 0)
	}
	if nested > 300 {
		return 1 // deeper than is ever placed; the stack stays small
	}
	p.counts[b] = -2
	n := p.countOf(p.d.Blocks[b].Entities, nested)
	p.counts[b] = n
	return n
}

// countOf is count for a list of entities.
func (p *Placing) countOf(entities []Entity, nested int) int64 {
	const most = 1 << 40
	n := int64(0)
	for _, e := range entities {
		if t, ok := e.(*Table); ok {
			n = min(n+1+int64(len(t.Cells)), most)
			if child := p.find(t.Block); child >= 0 {
				n = min(n+p.count(child, nested+1), most)
			}
			continue
		}
		in, ok := e.(*Insert)
		if !ok {
			n++
			continue
		}
		n += int64(len(in.Attributes))
		child := p.find(in.Block)
		if child < 0 {
			n++ // visited for its note
			continue
		}
		c := p.count(child, nested+1)
		if p.counts[child] == -2 {
			n++ // a cycle: visited for its note
			continue
		}
		cells := int64(in.Columns) * int64(in.Rows)
		if c > 0 && cells > most/c {
			n = most
		} else {
			n += c * cells
		}
		n = min(n, most)
	}
	return n
}

// step gives the index of the path step of a block in an outer one.
func (p *Placing) step(block string, parent int32) int32 {
	s := PathStep{block, parent}
	i, ok := p.steps[s]
	if !ok {
		i = int32(len(p.paths))
		p.steps[s] = i
		p.paths = append(p.paths, s)
	}
	return i
}

// Notes are what placing skipped or bounded; complete after All has ended.
func (p *Placing) Notes() []Note { return p.notes.notes }

// Path gives the block names from the outermost insert to the one that
// Placed.Block names; nil for -1.
func (p *Placing) Path(block int32) []string {
	n := 0
	for i := block; i >= 0; i = p.paths[i].Parent {
		n++
	}
	if n == 0 {
		return nil
	}
	names := make([]string, n)
	for i := block; i >= 0; i = p.paths[i].Parent {
		n--
		names[n] = p.paths[i].Block
	}
	return names
}

// Err is the context's error if it ended the walk.
func (p *Placing) Err() error { return p.err }
