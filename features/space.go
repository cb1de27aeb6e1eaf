package features

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/join"
)

// mostPlaced is how many placed entities are taken unless Options.Limits says
// otherwise: each keeps a record of its own, and a block arrayed some millions
// of times is no drawing of a flat part but would fill the memory.
const mostPlaced = 1_000_000

// item is one placed entity that may be geometry of a part.
type item struct {
	placed   dxfread.Placed
	info     int32 // index in Sheet.Entities
	class    class
	strength strength // of a class that is not classCut
	what     string   // for Sheet.Ignored
	order    int      // weakness of a layer word
	style    int32
	back     bool // noise that was brought back
	thread   bool // three quarters of a circle about a hole
	// line is the ends of a *dxfread.Line as seen along the z axis, in drawing
	// units: entities lie all over the memory, so that looking at them once more
	// costs more than all the rest.
	line [2]geom.Point
}

// style is how a line is drawn; dividers are compared by it.
type style struct {
	layer, linetype int32
	colour          int16
}

// builder carries one space of a drawing through the steps of Build.
type builder struct {
	ctx    context.Context
	d      *dxfread.Drawing
	opt    Options
	words  LayerWords
	sheet  *Sheet
	items  []item
	span   span3 // of all points that span the items, in the space
	styles []style
	frame  planeFrame

	texts   []dxfText
	dims    []voteDim
	factors []float64         // that dimensions show their lengths by, each once
	arrows  [][2]dxfread.Vec  // leaders from tip to end, in the space
	leaders []leader          // the same in millimetres
	general map[partFact]bool // facts that rest on a general note

	ignored   map[string]int
	styleOf   map[style]int32
	fitted    map[int32]bool // by info
	faultSeen map[string]bool

	inputs []join.Input // edges of all items, in millimetres
	start  []int        // where each item's edges begin in inputs
	joined *join.Result
	loops  []loop
	drafts []draft
	owner  []int  // by loop: its draft, -1 none
	roles  []role // by loop
	grid   loopGrid

	letters      []letterLine
	largeLetters [][]int32 // inputs of rows too large for text
	dashRuns     []dashRun
	centreDoubts []borderDoubt
	solids       []solidArrow
	broughtBack  []map[string]int
	sheetDoubts  []Doubt
	drawnDims    []drawnDim
	loopDoubts   []loopDoubt
	apart        []layerGroup // layers that were joined each by itself
	borderDoubts []borderDoubt
	areas        []sheetArea // frames and tables that were taken out
	sheets       []geom.Box  // frames of sheets beside each other, nil if there is one
	takenBoxes   []geom.Box  // of views and symbols: what lies in them is not looked at
	detailBoxes  []geom.Box  // of enlarged views that were taken out
	edgeViews    []edgeView
	angles       []angleDraft
	// legLines are the entities that draw nothing but the thickness in a view of a leg.
	legLines    map[int32]bool
	projections []projection
	scales      map[int]*viewScale // of outlines that no other holds
	bendLines   []cutLine
	openFaults  []openFault
	openLines   *geom.Index         // edges of all open chains
	draftEdges  map[int]*geom.Index // edges of parts, where they were asked for
	twice       []twice
	tables      [][4]dxfread.Vec // corners of tables that the file names as such
	off         []dxfread.Placed // on layers that are off or frozen
	marks       []placeMark
	emptyBlocks map[*dxfread.Point]bool // the points that stand for them
	sharedBy    map[int32]bool          // closed entities that share an edge with another
	partOf      map[int]int             // part by its outline's loop
	instances   []instance
}

// dxfText is a text with its place still in drawing units.
type dxfText struct {
	value  string
	at     dxfread.Vec
	height float64
	info   int32
	tag    string  // of an attribute
	leader bool    // at is where a leader's arrow points
	turn   float64 // of its line in the space, rad
}

// lineTurn is the direction of a text's line as it stands in the space, in
// -pi..pi; 0 where it cannot be told.
func lineTurn(deg float64, m dxfread.Matrix) float64 {
	s, c := math.Sincos(deg * math.Pi / 180)
	u := m.Direction(dxfread.Vec{X: c, Y: s})
	if a := math.Atan2(u.Y, u.X); isNumber(a) {
		return a
	}
	return 0
}

// collect walks the space: geometry to items, texts and dimensions aside, all
// else counted as ignored.
func (b *builder) collect(entities []dxfread.Entity) error {
	limits := b.opt.Limits
	if limits.Placed == 0 {
		limits.Placed = mostPlaced
	}
	d, signs := withEmptyBlocks(b.d)
	b.emptyBlocks = signs
	placing := d.Place(entities, limits)
	said := b.readNames()
	paths := map[int32][]string{-1: nil}
	room := placing.AtMost()
	b.items = slices.Grow(b.items, room)
	b.sheet.Entities = slices.Grow(b.sheet.Entities, room)
	n := 0
	for p := range placing.All(b.ctx) {
		if n++; n%1024 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		path, ok := paths[p.Block]
		if !ok {
			path = placing.Path(p.Block)
			paths[p.Block] = path
		}
		b.collectOne(&p, &said, path)
	}
	if err := placing.Err(); err != nil {
		return err
	}
	if err := b.ctx.Err(); err != nil {
		return err
	}
	for _, n := range placing.Notes() {
		b.readerNote(n)
		switch n.Code {
		case "too-many-placed":
			b.fault(Fault{Code: "too-many-placed", Part: -1, Count: n.Count, Text: n.Text})
		case "xref", "block-missing", "block-cycle", "too-deep", "placement-absurd":
			b.fault(Fault{Code: "read-incomplete", Part: -1, Count: n.Count, Text: n.Text})
		}
	}
	return nil
}

// names holds what the names of layers and linetypes speak for, by their index:
// a drawing has few of them and many entities.
type names struct {
	layers []layerName
	types  []typeName
	style  style // the last one asked for, and its index
	index  int32
}

type layerName struct {
	use         layerUse
	want        bool // a test's expectations
	off, frozen bool
}

type typeName struct {
	use  layerUse
	dash string
}

func (b *builder) readNames() (n names) {
	n.layers = make([]layerName, len(b.d.Layers))
	for i := range n.layers {
		l := &b.d.Layers[i]
		n.layers[i] = layerName{use: b.words.useOf(l.Name), want: strings.EqualFold(l.Name, "WANT"), off: l.Off, frozen: l.Frozen}
	}
	n.types = make([]typeName, len(b.d.Types))
	for i := range n.types {
		t := &b.d.Types[i]
		n.types[i] = typeName{use: b.words.useOf(t.Name), dash: dashKind(t.Dashes)}
	}
	n.index = -1
	return n
}

func (b *builder) collectOne(p *dxfread.Placed, said *names, path []string) {
	common := p.Entity.Base()
	var layer layerName
	if p.Layer >= 0 && int(p.Layer) < len(said.layers) {
		layer = said.layers[p.Layer]
	}
	use := layer.use
	if layer.want {
		return // a test's expectations are no part of the drawing
	}
	what := ""
	switch e := p.Entity.(type) {
	case *dxfread.Line, *dxfread.Arc, *dxfread.Circle, *dxfread.Ellipse, *dxfread.Polyline, *dxfread.Spline:
	case *dxfread.Text:
		what = "text"
		if e.Kind == "ATTDEF" {
			what = "attribute definition"
		}
	case *dxfread.Dimension:
		what = "dimension"
	case *dxfread.Leader:
		what = "leader"
	case *dxfread.Hatch:
		what = "hatch"
	case *dxfread.Solid:
		what = "solid"
		if e.Kind == "3DFACE" {
			what = "3dface"
		}
	case *dxfread.Point:
		what = "point"
	case *dxfread.Table:
		what = "table"
	case *dxfread.Viewport:
		what = "viewport"
	case *dxfread.Other:
		if e.HasAt && use.what == "" && !layer.off && !layer.frozen && !common.Invisible && p.Hidden == 0 {
			b.addMark(placeMark{at: p.Map.Apply(e.At), what: strings.ToLower(e.Kind) + " of radius 0", info: b.entity(*p, path), noCentre: true})
		}
		what = "other " + strings.ToLower(e.Kind)
	case *dxfread.Insert:
		panic("features: an insert cannot be placed as itself")
	default:
		panic(fmt.Sprintf("features: unknown entity %T", p.Entity))
	}
	switch {
	case layer.off:
		b.ignored["layer off"]++
		b.addOff(*p)
		return
	case layer.frozen, p.Hidden&dxfread.HiddenInsertFrozen != 0:
		b.ignored["layer frozen"]++
		b.addOff(*p)
		return
	case common.Invisible, p.Hidden != 0:
		b.ignored["invisible"]++
		return
	}
	if what != "" {
		e, isPoint := p.Entity.(*dxfread.Point)
		if isPoint && use.what == "" {
			b.addPoint(e, *p, path)
		}
		if isPoint && b.emptyBlocks[e] {
			return
		}
		b.ignored[what]++
		if e, ok := p.Entity.(*dxfread.Solid); ok {
			b.addSolid(e, ocsMap(*p))
		}
		b.collectWords(*p, path)
		return
	}
	b.items = append(b.items, item{placed: *p, info: b.entity(*p, path)})
	it := &b.items[len(b.items)-1]
	if e, ok := p.Entity.(*dxfread.Line); ok {
		from, to := p.Map.Apply(e.From), p.Map.Apply(e.To)
		b.span.add(from)
		b.span.add(to)
		it.line = [2]geom.Point{flatFrame(1).point(from), flatFrame(1).point(to)}
	} else {
		eachPoint(p, b.span.add)
	}
	if drawn := (style{p.Layer, p.Linetype, p.Colour}); drawn != said.style || said.index < 0 {
		said.style, said.index = drawn, b.styleIndex(drawn)
	}
	it.style = said.index
	var line typeName
	if p.Linetype >= 0 && int(p.Linetype) < len(said.types) {
		line = said.types[p.Linetype]
	}
	switch {
	case isTablePicture(path):
		it.class, it.strength, it.what = classNoise, sure, tableTaken
	case use.class == classBend, use.class == classMark:
		it.class, it.strength, it.what, it.order = use.class, weak, use.what+" layer", use.order
	case line.use.class == classBend, line.use.class == classMark:
		it.class, it.strength, it.what, it.order = line.use.class, weak, line.use.what+" linetype", line.use.order
	case line.dash != "":
		it.class, it.strength, it.what = classNoise, strong, line.dash
	case use.what != "":
		it.class, it.strength, it.what, it.order = use.class, weak, use.what, use.order
	}
	if it.class == classBend && isClosedEntity(p.Entity) {
		// A bend is a line; what closes is an opening on an ill-named layer.
		it.class, it.strength, it.what, it.order = classCut, 0, "", 0
		b.note(Note{Code: "closed-on-bend-layer", Count: 1, Source: sourcesOf([]int32{it.info}),
			Text: fmt.Sprintf("a closed %s on layer %q was read as an opening, not as a bend", p.Entity.Name(), b.sheet.Entities[it.info].Layer)})
	}
}

// isClosedEntity tells whether an entity is a contour by itself.
func isClosedEntity(e dxfread.Entity) bool {
	switch e := e.(type) {
	case *dxfread.Circle:
		return true
	case *dxfread.Polyline:
		return e.Closed
	case *dxfread.Spline:
		return e.Closed
	case *dxfread.Ellipse:
		return math.Abs(math.Abs(e.End-e.Start)-2*math.Pi) < 1e-9
	}
	return false
}

// collectWords keeps the texts, and what dimensions say about the unit.
func (b *builder) collectWords(p dxfread.Placed, path []string) {
	switch e := p.Entity.(type) {
	case *dxfread.Text:
		if v := strings.TrimSpace(e.Value); v != "" && (e.Kind != "ATTDEF" || e.Constant) {
			b.texts = append(b.texts, dxfText{value: v, at: p.Map.Apply(e.At), height: e.Height * verticalScale(*p.Map), info: b.entity(p, path), tag: e.Tag, turn: lineTurn(e.AngleDeg, *p.Map)})
		}
	case *dxfread.Leader:
		v := strings.TrimSpace(e.Text)
		switch n := len(e.Vertices); {
		case v != "" && n > 0:
			b.texts = append(b.texts, dxfText{value: v, at: p.Map.Apply(e.Vertices[0]), info: b.entity(p, path), leader: true})
		case v != "":
			b.texts = append(b.texts, dxfText{value: v, at: p.Map.Apply(e.TextAt), info: b.entity(p, path)})
		case n > 1:
			b.arrows = append(b.arrows, [2]dxfread.Vec{p.Map.Apply(e.Vertices[0]), p.Map.Apply(e.Vertices[n-1])})
		}
	case *dxfread.Dimension:
		b.collectDimension(e, *p.Map, b.entity(p, path))
		if e.Measured != nil && e.Override != "" && e.Override != "<>" {
			b.dims = append(b.dims, voteDim{*e.Measured, strings.ReplaceAll(e.Override, "<>", "")})
		} else if e.Measured != nil && e.Post != "" {
			b.dims = append(b.dims, voteDim{*e.Measured, dimText(e)})
		}
		if v := dimCallOut(e); v != "" {
			b.texts = append(b.texts, dxfText{value: v, at: p.Map.Apply(e.TextAt), info: b.entity(p, path)})
		}
	case *dxfread.Table:
		b.addTable(e, p)
	case *dxfread.Other:
		if !isNoOutline(e.Kind) && !b.emptyKind(e.Kind) {
			b.faultOnce("read-incomplete", "read-incomplete "+e.Kind, fmt.Sprintf("the drawing holds a %s, which may be part of the outline and is not read", e.Kind), b.entity(p, path))
		}
	}
}

// emptyKind tells whether all entities of a kind that the reader knows and left
// out had no extent: nothing is missing then.
func (b *builder) emptyKind(kind string) bool {
	some := false
	for _, n := range b.d.Notes {
		why, ok := strings.CutPrefix(n.Text, kind+": ")
		if n.Code != "entity-skipped" || !ok {
			continue
		}
		switch why {
		case "it has fewer than two vertices", "its knots span nothing", "its major axis has no length", "its minor axis has no length", "its radius is 0":
			some = true
		default:
			return false
		}
	}
	return some
}

// isNoOutline lists the kinds of entity that the reader does not decode and
// that cannot be part of an outline: pictures, tables, tolerances, lines
// without an end. Everything else that is not decoded, proxies and regions
// among it, may be.
func isNoOutline(kind string) bool {
	switch kind {
	case "XLINE", "RAY", "IMAGE", "WIPEOUT", "OLE2FRAME", "OLEFRAME", "ACAD_TABLE", "TOLERANCE", "SHAPE", "RTEXT", "ARCALIGNEDTEXT",
		"MLEADER", "MULTILEADER", "ARC_DIMENSION", "LARGE_RADIAL_DIMENSION", "LIGHT", "SUN", "SECTION", "SECTIONOBJECT", "CAMERA",
		"PDFUNDERLAY", "DWFUNDERLAY", "DGNUNDERLAY", "GEOPOSITIONMARKER", "SEQEND", "ATTDEF", "ATTRIB", "VIEWPORT", "HATCH":
		return true
	}
	return false
}

// verticalScale is how much a map stretches heights.
func verticalScale(m dxfread.Matrix) float64 {
	x, y, z := m.M[0][1], m.M[1][1], m.M[2][1]
	return math.Sqrt(float64(x*x) + float64(y*y) + float64(z*z))
}

// entity enters an entity into the sheet's list.
func (b *builder) entity(p dxfread.Placed, path []string) int32 {
	c := p.Entity.Base()
	name := ""
	if p.Layer >= 0 && int(p.Layer) < len(b.d.Layers) {
		name = b.d.Layers[p.Layer].Name
	}
	b.sheet.Entities = append(b.sheet.Entities, EntityInfo{Line: c.Line, Handle: c.Handle, Layer: name, Kind: p.Entity.Name(), Block: path})
	return int32(len(b.sheet.Entities) - 1)
}

func (b *builder) styleIndex(s style) int32 {
	if i, ok := b.styleOf[s]; ok {
		return i
	}
	i := int32(len(b.styles))
	b.styles = append(b.styles, s)
	b.styleOf[s] = i
	return i
}

func (b *builder) note(n Note) {
	n.Count = max(n.Count, 1)
	b.sheet.Notes = append(b.sheet.Notes, n)
}

func (b *builder) fault(f Fault) {
	f.Count = max(f.Count, 1)
	b.sheet.Faults = append(b.sheet.Faults, f)
}

// faultOnce enters one fault for all entities with the same key.
func (b *builder) faultOnce(code, key, text string, info int32) {
	if b.faultSeen[key] {
		return
	}
	b.faultSeen[key] = true
	b.fault(Fault{Code: code, Part: -1, Text: text, Source: []Source{{info}}})
}

// readerNote passes on a note of the reader.
func (b *builder) readerNote(n dxfread.Note) {
	note := Note{Code: n.Code, Count: n.Count, Text: n.Text}
	if n.Line > 0 || n.Handle != 0 {
		b.sheet.Entities = append(b.sheet.Entities, EntityInfo{Line: n.Line, Handle: n.Handle})
		note.Source = []Source{{int32(len(b.sheet.Entities) - 1)}}
	}
	b.note(note)
}
