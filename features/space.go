package features

import (
	"context"
	"fmt"
	"math"
	"sort"
	"strings"

	"burrside/dxfread"
	"burrside/features/geom"
	"burrside/features/join"
)

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
	styles []style
	frame  planeFrame

	texts []dxfText
	dims  []voteDim

	ignored   map[string]int
	styleOf   map[style]int32
	fitted    map[int32]bool // by info
	faultSeen map[string]bool

	inputs []join.Input // edges of all items, in millimetres
	start  []int        // where each item's edges begin in inputs
	joined *join.Result
	loops  []loop
	drafts []draft

	broughtBack  []map[string]int
	sheetDoubts  []Doubt
	loopDoubts   []loopDoubt
	borderDoubts []borderDoubt
	bendLines    []cutLine
	openFaults   []openFault
	partOf       []int // part of each draft
	instances    []instance
}

// dxfText is a text with its place still in drawing units.
type dxfText struct {
	value  string
	at     dxfread.Vec
	height float64
	info   int32
}

// collect walks the space: geometry to items, texts and dimensions aside, all
// else counted as ignored.
func (b *builder) collect(entities []dxfread.Entity) error {
	placing := b.d.Place(entities, b.opt.Limits)
	uses := make([]layerUse, len(b.d.Layers))
	for i, l := range b.d.Layers {
		uses[i] = b.words.useOf(l.Name)
	}
	paths := map[int32][]string{-1: nil}
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
		b.collectOne(p, uses, path)
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

func (b *builder) collectOne(p dxfread.Placed, uses []layerUse, path []string) {
	common := p.Entity.Base()
	var layer dxfread.Layer
	var use layerUse
	if p.Layer >= 0 && int(p.Layer) < len(b.d.Layers) {
		layer, use = b.d.Layers[p.Layer], uses[p.Layer]
	}
	if strings.EqualFold(layer.Name, "WANT") {
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
	case *dxfread.Point:
		what = "point"
	case *dxfread.Viewport:
		what = "viewport"
	case *dxfread.Other:
		what = "other " + strings.ToLower(e.Kind)
	case *dxfread.Insert:
		panic("features: an insert cannot be placed as itself")
	default:
		panic(fmt.Sprintf("features: unknown entity %T", p.Entity))
	}
	switch {
	case layer.Off:
		b.ignored["layer off"]++
		return
	case layer.Frozen, p.Hidden&dxfread.HiddenInsertFrozen != 0:
		b.ignored["layer frozen"]++
		return
	case common.Invisible, p.Hidden != 0:
		b.ignored["invisible"]++
		return
	}
	if what != "" {
		b.ignored[what]++
		b.collectWords(p, path)
		return
	}
	it := item{placed: p, info: b.entity(p, path)}
	it.style = b.styleIndex(style{p.Layer, p.Linetype, p.Colour})
	var dashes []float64
	lineName := ""
	if p.Linetype >= 0 && int(p.Linetype) < len(b.d.Types) {
		dashes, lineName = b.d.Types[p.Linetype].Dashes, b.d.Types[p.Linetype].Name
	}
	dash := dashKind(dashes)
	switch lineUse := b.words.useOf(lineName); {
	case use.class == classBend, use.class == classMark:
		it.class, it.strength, it.what, it.order = use.class, weak, use.what+" layer", use.order
	case lineUse.class == classBend, lineUse.class == classMark:
		it.class, it.strength, it.what, it.order = lineUse.class, weak, lineUse.what+" linetype", lineUse.order
	case dash != "":
		it.class, it.strength, it.what = classNoise, strong, dash
	case use.what != "":
		it.class, it.strength, it.what, it.order = use.class, weak, use.what, use.order
	}
	b.items = append(b.items, it)
}

// collectWords keeps the texts, and what dimensions say about the unit.
func (b *builder) collectWords(p dxfread.Placed, path []string) {
	switch e := p.Entity.(type) {
	case *dxfread.Text:
		if v := strings.TrimSpace(e.Value); v != "" && e.Kind != "ATTDEF" {
			b.texts = append(b.texts, dxfText{v, p.Map.Apply(e.At), e.Height * verticalScale(p.Map), b.entity(p, path)})
		}
	case *dxfread.Leader:
		if v := strings.TrimSpace(e.Text); v != "" && len(e.Vertices) > 0 {
			at := e.Vertices[len(e.Vertices)-1]
			b.texts = append(b.texts, dxfText{v, p.Map.Apply(at), 0, b.entity(p, path)})
		}
	case *dxfread.Dimension:
		if e.Measured != nil && e.Override != "" && e.Override != "<>" {
			b.dims = append(b.dims, voteDim{*e.Measured, strings.ReplaceAll(e.Override, "<>", "")})
		}
		// A diameter's text is a call-out at its place: "<>" stands for the
		// measured value, which repeats the geometry and says nothing new.
		if v := strings.TrimSpace(e.Override); v != "" && !strings.Contains(v, "<>") && (e.Kind == dxfread.DimDiameter || e.Kind == dxfread.DimRadius) {
			b.texts = append(b.texts, dxfText{v, p.Map.Apply(e.TextAt), 0, b.entity(p, path)})
		}
	case *dxfread.Other:
		if !isNoOutline(e.Kind) {
			b.faultOnce("read-incomplete", "read-incomplete "+e.Kind, fmt.Sprintf("the drawing holds a %s, which may be part of the outline and is not read", e.Kind), b.entity(p, path))
		}
	}
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

// settlePlane chooses the plane that the drawing lies in: the xy plane with the
// elevation dropped, or the one tilted plane that all of it shares.
func (b *builder) settlePlane() {
	var box, zs span3
	for i := range b.items {
		eachPoint(b.items[i].placed, func(v dxfread.Vec) { box.add(v) })
	}
	if !box.some {
		b.frame = flatFrame(1)
		return
	}
	size := box.size()
	tol := 1e-6*size + 1e-12
	var tilted []int
	for i := range b.items {
		var s span3
		eachPoint(b.items[i].placed, func(v dxfread.Vec) { s.add(v) })
		if s.some && s.max.Z-s.min.Z > tol {
			tilted = append(tilted, i)
		} else if s.some {
			zs.add(s.min)
		}
	}
	b.frame = flatFrame(1)
	if len(tilted) == 0 {
		if zs.max.Z-zs.min.Z > tol {
			b.note(Note{Code: "elevation-dropped", Text: fmt.Sprintf("entities lie at elevations from %s to %s drawing units; all were taken at one", shortNumber(zs.min.Z), shortNumber(zs.max.Z))})
		} else if math.Abs(zs.max.Z) > tol {
			b.note(Note{Code: "elevation-dropped", Text: fmt.Sprintf("the drawing lies at elevation %s drawing units, which was dropped", shortNumber(zs.max.Z))})
		}
		return
	}
	if n, ok := b.commonPlane(tol * 10); ok {
		b.frame = tiltedFrame(n)
		b.note(Note{Code: "plane-turned", Text: fmt.Sprintf("the drawing stands in a plane with the normal %s, %s, %s; it was turned into that plane", shortNumber(n.X), shortNumber(n.Y), shortNumber(n.Z))})
		return
	}
	b.dropTilted(tilted)
}

// dropTilted takes out what leans out of the plane. Lines that rise by less
// than a hundredth of their length are carelessly drawn: their length is right
// within 5e-5 and they stay.
func (b *builder) dropTilted(tilted []int) {
	drop := map[int]bool{}
	kept := 0
	var src []Source
	for _, i := range tilted {
		var s span3
		eachPoint(b.items[i].placed, func(v dxfread.Vec) { s.add(v) })
		dx, dy := s.max.X-s.min.X, s.max.Y-s.min.Y
		if s.max.Z-s.min.Z <= 0.01*math.Sqrt(float64(dx*dx)+float64(dy*dy)) {
			kept++
			continue
		}
		drop[i] = true
		if len(src) < 10 {
			src = append(src, Source{b.items[i].info})
		}
	}
	if kept > 0 {
		b.note(Note{Code: "elevation-dropped", Count: kept, Text: fmt.Sprintf("%d entities rise by less than a hundredth of their length; they were taken as flat", kept)})
	}
	if len(drop) == 0 {
		return
	}
	out := b.items[:0]
	for i, it := range b.items {
		if drop[i] {
			b.ignored["out of the plane"]++
			continue
		}
		out = append(out, it)
	}
	b.items = out
	text := fmt.Sprintf("%d entities lean out of the drawing's plane and were left out", len(drop))
	b.note(Note{Code: "mixed-planes", Count: len(drop), Text: text, Source: src})
	b.fault(Fault{Code: "read-incomplete", Part: -1, Count: len(drop), Text: text, Source: src})
}

// commonPlane finds the normal of the one plane through all points: from the
// lowest point, the farthest from it, and the one farthest from their line.
func (b *builder) commonPlane(tol float64) (dxfread.Vec, bool) {
	var first dxfread.Vec
	some := false
	each := func(f func(dxfread.Vec)) {
		for i := range b.items {
			eachPoint(b.items[i].placed, f)
		}
	}
	each(func(v dxfread.Vec) {
		if !some || v.X < first.X || v.X == first.X && (v.Y < first.Y || v.Y == first.Y && v.Z < first.Z) {
			first, some = v, true
		}
	})
	var far dxfread.Vec
	most := 0.0
	each(func(v dxfread.Vec) {
		d := subVec(v, first)
		if l := dotVec(d, d); l > most {
			most, far = l, d
		}
	})
	var normal dxfread.Vec
	area := 0.0
	each(func(v dxfread.Vec) {
		n := crossVec(far, subVec(v, first))
		if l := dotVec(n, n); l > area {
			area, normal = l, n
		}
	})
	if !(area > 0) || math.IsInf(area, 0) {
		return dxfread.Vec{}, false
	}
	l := math.Sqrt(area)
	normal = dxfread.Vec{X: normal.X / l, Y: normal.Y / l, Z: normal.Z / l}
	ok := true
	each(func(v dxfread.Vec) {
		if !(math.Abs(dotVec(normal, subVec(v, first))) <= tol) {
			ok = false
		}
	})
	return normal, ok
}

// tiltedFrame looks at a plane from above, from the front or from the right.
func tiltedFrame(n dxfread.Vec) planeFrame {
	const tiny = 1e-9
	if n.Z < -tiny || math.Abs(n.Z) <= tiny && (n.Y > tiny || math.Abs(n.Y) <= tiny && n.X < 0) {
		n = dxfread.Vec{X: -n.X, Y: -n.Y, Z: -n.Z}
	}
	u := crossVec(dxfread.Vec{Z: 1}, n)
	l := math.Sqrt(dotVec(u, u))
	if l <= tiny {
		return flatFrame(1)
	}
	u = dxfread.Vec{X: u.X / l, Y: u.Y / l, Z: u.Z / l}
	return planeFrame{u: u, v: crossVec(n, u), scale: 1}
}

func subVec(a, b dxfread.Vec) dxfread.Vec {
	return dxfread.Vec{X: a.X - b.X, Y: a.Y - b.Y, Z: a.Z - b.Z}
}

func crossVec(a, b dxfread.Vec) dxfread.Vec {
	return dxfread.Vec{
		X: float64(a.Y*b.Z) - float64(a.Z*b.Y),
		Y: float64(a.Z*b.X) - float64(a.X*b.Z),
		Z: float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

// span3 is the box of points in space; some is false for none.
type span3 struct {
	min, max dxfread.Vec
	some     bool
}

func (s *span3) add(v dxfread.Vec) {
	if !finite(v.X) || !finite(v.Y) || !finite(v.Z) {
		return
	}
	if !s.some {
		s.min, s.max, s.some = v, v, true
		return
	}
	s.min = dxfread.Vec{X: min(s.min.X, v.X), Y: min(s.min.Y, v.Y), Z: min(s.min.Z, v.Z)}
	s.max = dxfread.Vec{X: max(s.max.X, v.X), Y: max(s.max.Y, v.Y), Z: max(s.max.Z, v.Z)}
}

func (s *span3) size() float64 {
	d := subVec(s.max, s.min)
	return math.Sqrt(dotVec(d, d))
}

// eachPoint gives points that span the entity's plane: ends, corners, control
// points, four points of a circle.
func eachPoint(p dxfread.Placed, f func(dxfread.Vec)) {
	round := func(c dxfread.Vec, r float64) {
		m := ocsMap(p)
		for _, o := range [4]dxfread.Vec{{X: r}, {Y: r}, {X: -r}, {Y: -r}} {
			f(m.Apply(dxfread.Vec{X: c.X + o.X, Y: c.Y + o.Y, Z: c.Z}))
		}
	}
	switch e := p.Entity.(type) {
	case *dxfread.Line:
		f(p.Map.Apply(e.From))
		f(p.Map.Apply(e.To))
	case *dxfread.Circle:
		round(e.Centre, e.Radius)
	case *dxfread.Arc:
		round(e.Centre, e.Radius)
	case *dxfread.Ellipse:
		n := e.Extrusion
		if n == (dxfread.Vec{}) {
			n.Z = 1
		}
		k := e.Ratio / math.Sqrt(dotVec(n, n))
		minor := crossVec(n, e.Major)
		f(p.Map.Apply(dxfread.Vec{X: e.Centre.X + e.Major.X, Y: e.Centre.Y + e.Major.Y, Z: e.Centre.Z + e.Major.Z}))
		f(p.Map.Apply(subVec(e.Centre, e.Major)))
		f(p.Map.Apply(dxfread.Vec{X: e.Centre.X + k*minor.X, Y: e.Centre.Y + k*minor.Y, Z: e.Centre.Z + k*minor.Z}))
		f(p.Map.Apply(dxfread.Vec{X: e.Centre.X - k*minor.X, Y: e.Centre.Y - k*minor.Y, Z: e.Centre.Z - k*minor.Z}))
	case *dxfread.Polyline:
		m := p.Map
		if !e.ThreeD {
			m = ocsMap(p)
		}
		for _, v := range e.Vertices {
			f(m.Apply(v.At))
		}
	case *dxfread.Spline:
		for _, v := range e.Control {
			f(p.Map.Apply(v))
		}
		for _, v := range e.Fit {
			f(p.Map.Apply(v))
		}
	}
}

// voteDataOf gathers what the units vote looks at.
func (b *builder) voteDataOf() voteData {
	var data voteData
	var box geom.Box
	some := false
	dia, straight := map[int64]float64{}, map[int64]float64{}
	put := func(m map[int64]float64, v float64) {
		// Equal to five digits is one kind.
		if v > 0 && finite(v) && v < 1e12 {
			k := int64(math.Round(v * 1e5))
			if old, ok := m[k]; !ok || v < old {
				m[k] = v
			}
		}
	}
	for i := range b.items {
		it := &b.items[i]
		eachPoint(it.placed, func(v dxfread.Vec) {
			p := b.frame.point(v)
			if !finite(p.X) || !finite(p.Y) {
				return
			}
			if !some {
				box, some = geom.Box{Min: p, Max: p}, true
				return
			}
			box = box.Add(p)
		})
		if it.class != classCut {
			continue
		}
		m := b.frame.through(ocsMap(it.placed))
		switch e := it.placed.Entity.(type) {
		case *dxfread.Circle:
			if ok, _ := isSimilar(m); ok {
				put(dia, 2*m.dir(dxfread.Vec{X: e.Radius}).Len())
			}
		case *dxfread.Line:
			w := b.frame.through(it.placed.Map)
			put(straight, w.point(e.From).Dist(w.point(e.To)))
		case *dxfread.Polyline:
			if e.ThreeD {
				continue
			}
			for k := 1; k < len(e.Vertices); k++ {
				if e.Vertices[k-1].Bulge == 0 {
					put(straight, m.point(e.Vertices[k-1].At).Dist(m.point(e.Vertices[k].At)))
				}
			}
		}
	}
	data.width, data.height = box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	data.diameters, data.lengths = sortedValues(dia), sortedValues(straight)
	for _, t := range b.texts {
		data.texts = append(data.texts, t.value)
	}
	sort.Strings(data.texts)
	data.dims = append(data.dims, b.dims...)
	sort.Slice(data.dims, func(i, j int) bool {
		a, c := data.dims[i], data.dims[j]
		return a.text < c.text || a.text == c.text && a.measured < c.measured
	})
	return data
}

func sortedValues(m map[int64]float64) []float64 {
	out := make([]float64, 0, len(m))
	for _, v := range m {
		out = append(out, v)
	}
	sort.Float64s(out)
	return out
}
