package features

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"unicode"

	"burrside/features/geom"
	"burrside/features/measure"
)

// Frames, title blocks and tables are lines, as parts are. They are told by
// what is written in them: a mesh of lines along the axes whose cells are about
// as high as the texts that they hold is no metal. A mesh with one large field
// is the frame of a sheet with its title block, and what stands in the field is
// the drawing.

// sheetArea is a frame or a table that was taken out.
type sheetArea struct {
	box   geom.Box
	frame bool
	title bool       // it is headed as a title block or a parts list is
	field geom.Box   // of a frame: what its title block leaves
	cells []geom.Box // of a frame: those of the title block
	grid  []geom.Box // all boxes between its lines
}

// What was taken out, in the sheet's count of what is no geometry.
const (
	frameTaken = "drawing frame"
	tableTaken = "table"
)

// Limits of what reads as a table.
const (
	// A cell is at most this many times as high as its text: rows of twice the
	// height of the text are usual, and of 5 to 6 in a title block whose cells
	// hold a small label above a value (common practice, no source).
	sureCellHeights = 4.5
	mostCellHeights = 8.0
	// A field is wider both ways than any row of text.
	fieldHeights = 12.0
	// The field of a frame is most of the sheet.
	fieldShare = 0.4
	// The two lines of a frame lie within this share of its longer side: 20 of
	// 210 mm is the filing margin of the smallest sheet (ISO 5457, from memory).
	frameMarginShare = 0.1
)

// takeFrames takes frames, title blocks and tables out of the drawing before
// its lines are joined, so that nothing of them hangs on a part.
func (b *builder) takeFrames() error {
	if len(b.sheet.Texts) == 0 {
		return nil
	}
	b.tableAreas()
	owner := make([]int32, len(b.inputs)) // item by input
	for i := range b.items {
		for k := b.start[i]; k < b.start[i+1]; k++ {
			owner[k] = int32(i)
		}
	}
	runs := b.axisRuns(func(i int) bool {
		it := &b.items[owner[i]]
		return it.class == classCut || it.class == classNoise && it.strength == weak
	})
	meshes := meshesOf(runs)
	if err := b.ctx.Err(); err != nil || len(meshes) == 0 {
		return err
	}
	sort.SliceStable(meshes, func(i, j int) bool {
		p, q := meshes[i].box, meshes[j].box
		if a, c := p.Width()*p.Height(), q.Width()*q.Height(); a != c {
			return a < c
		}
		return comparePlace(p.Min, q.Min) < 0
	})
	looked := 0
	t := taker{b: b, owner: owner, taken: make([]bool, len(b.items))}
	for i := range meshes {
		if i%64 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		// Each mesh looks at all lines; beyond this many the rest stay geometry,
		// and are doubted as such.
		if looked += len(b.inputs) + len(b.sheet.Texts); looked > mostLooked {
			break
		}
		if len(meshes[i].faces) >= 2 {
			t.judge(&meshes[i])
		}
	}
	for i := range meshes {
		if len(meshes[i].faces) == 1 {
			t.outerLine(&meshes[i])
		}
	}
	t.finish()
	return nil
}

// taker takes items out of the drawing and remembers which.
type taker struct {
	b     *builder
	owner []int32
	taken []bool // by item
	whats []takenItem
	areas []sheetArea
	notes []Note
}

type takenItem struct {
	item int32
	what string
}

// attach gives the faces of a mesh the texts and the other geometry in them.
func (t *taker) attach(m *mesh) (texts int) {
	for i := range t.b.sheet.Texts {
		x := &t.b.sheet.Texts[i]
		if !m.box.Contains(x.At) {
			continue
		}
		if f := m.faceAt(t.b.textMiddle(x)); f >= 0 {
			m.faces[f].texts = append(m.faces[f].texts, i)
			texts++
		}
	}
	if texts == 0 {
		return 0
	}
	own := map[int32]bool{}
	for i := range m.runs {
		for _, in := range m.runs[i].inputs {
			own[in] = true
		}
	}
	for i := range t.b.inputs {
		it := t.owner[i]
		if t.taken[it] || t.b.items[it].class != classCut || own[int32(i)] {
			continue
		}
		e := &t.b.inputs[i].Edge
		p := e.Mid()
		if e.IsCircle() {
			p = e.Centre
		}
		f := m.faceAt(p)
		switch {
		case f < 0:
		case e.IsCircle():
			m.faces[f].circles++
		default:
			m.faces[f].lines++
		}
	}
	return texts
}

// textMiddle is a point within the letters of a text: above the base line of a
// TEXT, below the upper edge of an MTEXT or a table's text, which hang on their place.
func (b *builder) textMiddle(t *Text) geom.Point {
	up := 0.4
	if s := t.Source.Entity; s >= 0 && int(s) < len(b.sheet.Entities) && (b.sheet.Entities[s].Kind == "MTEXT" || b.sheet.Entities[s].Kind == "ACAD_TABLE") {
		up = -0.4
	}
	return geom.Point{X: t.At.X + float64(0.1*t.HeightMM), Y: t.At.Y + float64(up*t.HeightMM)}
}

// meshReading is what the faces of a mesh look like.
type meshReading struct {
	fields  []int
	cells   int // faces that are neither fields nor zones of a border
	worded  int // cells with a text of about their height
	letters int // of these, with a letter
	sizes   int // of these, whose text is the width or the height of the cell
	marks   int // of the worded, that hold a part's mark or a plate's thickness
	words   int // words that title blocks and tables are headed with
	zones   int // thin faces along the outside, empty or with one letter
	odd     int // cells that hold circles or are far too high for their text
	ratio   float64
}

func (t *taker) read(m *mesh) meshReading {
	var r meshReading
	var heights []float64
	total := 0.0
	for i := range m.faces {
		total += m.faces[i].area
		for _, x := range m.faces[i].texts {
			if h := t.b.sheet.Texts[x].HeightMM; h > 0 {
				heights = append(heights, h)
			}
		}
	}
	if len(heights) == 0 {
		return r
	}
	sort.Float64s(heights)
	usual := heights[len(heights)/2]
	var ratios []float64
	for i := range m.faces {
		f := &m.faces[i]
		if f.least() <= 3*meshTolMM {
			continue // a line drawn twice
		}
		if f.area >= fieldShare*total && f.least() > 5*usual || f.least() > fieldHeights*usual && f.lines+f.circles > 0 {
			r.fields = append(r.fields, i)
			continue
		}
		high, long := 0.0, 0
		letter, size, mark := false, false, false
		for _, x := range f.texts {
			x := &t.b.sheet.Texts[x]
			high = math.Max(high, x.HeightMM)
			long = max(long, len([]rune(x.Value)))
			letter = letter || strings.ContainsFunc(x.Value, unicode.IsLetter)
			size = size || t.b.isSizeOf(x.Value, f)
			r.words += headingWords(x.Value)
			_, plate := measure.PlateNote(x.Value)
			mark = mark || plate || isMark(x.Value)
		}
		if f.rim && long <= 2 && f.least() <= frameMarginShare*math.Max(m.body.Width(), m.body.Height()) && isLongWay(f, m) {
			r.zones++
			continue
		}
		r.cells++
		if f.circles > 0 && !(f.circles == 2 && f.lines > 0) {
			r.odd++
		}
		if high <= 0 {
			continue
		}
		ratio := f.least() / high
		ratios = append(ratios, ratio)
		if ratio > mostCellHeights {
			r.odd++
			continue
		}
		r.worded++
		if letter {
			r.letters++
		}
		if mark {
			r.marks++
		}
		if size {
			r.sizes++
		}
	}
	if len(ratios) > 0 {
		sort.Float64s(ratios)
		r.ratio = ratios[len(ratios)/2]
	}
	return r
}

// isLongWay tells whether a face at the rim runs along it, as the zones of a
// border do: much shorter across than the sheet.
func isLongWay(f *meshFace, m *mesh) bool {
	level := f.box.Min.Y <= m.body.Min.Y+meshTolMM || f.box.Max.Y >= m.body.Max.Y-meshTolMM
	upright := f.box.Min.X <= m.body.Min.X+meshTolMM || f.box.Max.X >= m.body.Max.X-meshTolMM
	const thin = 0.05
	return level && f.height() <= thin*m.body.Height()+meshTolMM || upright && f.width() <= thin*m.body.Width()+meshTolMM
}

// isTable tells whether the cells read as a table or a title block.
func (r *meshReading) isTable() bool {
	switch {
	case r.cells < 2 || r.worded < 2 || r.letters < 1:
		return false
	case 2*r.sizes >= r.worded: // dimensions between their extension lines
		return false
	case r.words >= 2 && 3*r.worded >= r.cells:
		return true
	}
	return r.odd == 0 && 2*r.worded >= r.cells && r.ratio <= sureCellHeights
}

// judge takes a mesh out if it is a table, or a frame with its title block, or
// a frame with zones.
func (t *taker) judge(m *mesh) {
	if t.attach(m) == 0 {
		return
	}
	r := t.read(m)
	table := r.isTable()
	framed := len(r.fields) > 0 && m.covered(m.body)
	switch {
	case table && len(r.fields) == 0 && r.words < 2 && (2*r.marks >= r.worded || !t.isDrawing()):
		// Plates on common cuts that carry marks or names look the same.
	case table && len(r.fields) == 0:
		t.take(m, tableTaken)
		t.areas = append(t.areas, sheetArea{box: m.body, title: r.words >= 2, grid: m.boxes()})
		t.notes = append(t.notes, Note{Code: "table-taken-out", At: m.body.Min, HasAt: true, Source: t.sources(m),
			Text: fmt.Sprintf("a mesh of %s x %s mm with texts in its %d cells was taken for a table", shortNumber(m.body.Width()), shortNumber(m.body.Height()), r.cells)})
	case framed && table && r.words < 2 && (2*r.marks >= r.worded || !t.hasLines(m, &r)):
		// A drilled plate with small marked ones on common cuts.
	case framed && table:
		t.frame(m, &r, "with a title block")
	case framed && len(r.fields) == 1 && r.cells == 0 && r.zones >= 2 && m.faces[r.fields[0]].area >= 0.6*m.body.Width()*m.body.Height():
		t.frame(m, &r, "with zones along it")
	}
}

// hasLines tells whether a field holds more than circles.
func (t *taker) hasLines(m *mesh, r *meshReading) bool {
	return slices.ContainsFunc(r.fields, func(f int) bool { return m.faces[f].lines > 0 })
}

// isDrawing tells whether dimensions or headings show that the file is a drawing
// to be read, not one for cutting.
func (t *taker) isDrawing() bool {
	if len(t.b.drawnDims) > 0 {
		return true
	}
	words := 0
	for i := range t.b.sheet.Texts {
		words += headingWords(t.b.sheet.Texts[i].Value)
	}
	return words >= 3
}

// frame takes a frame out, with what lies in its cells.
func (t *taker) frame(m *mesh, r *meshReading, how string) {
	t.take(m, frameTaken)
	field := m.faces[r.fields[0]].box
	for _, f := range r.fields[1:] {
		field = field.Union(m.faces[f].box)
	}
	var cells []geom.Box
	for i := range m.faces {
		if !slices.Contains(r.fields, i) && m.faces[i].rect {
			cells = append(cells, m.faces[i].box)
		}
	}
	t.areas = append(t.areas, sheetArea{box: m.body, frame: true, title: true, field: field, cells: cells, grid: cells})
	t.notes = append(t.notes, Note{Code: "border-taken-out", At: m.body.Min, HasAt: true, Source: t.sources(m),
		Text: fmt.Sprintf("the rectangle of %s x %s mm %s was taken for the frame of the drawing", shortNumber(m.body.Width()), shortNumber(m.body.Height()), how)})
}

// take takes out the entities of a mesh that lie in it whole, and what lies in
// its cells: a logo, a symbol.
func (t *taker) take(m *mesh, what string) {
	in := map[int32]int{}
	for i := range m.runs {
		for _, k := range m.runs[i].inputs {
			in[t.owner[k]]++
		}
	}
	r := t.read(m)
	inCell := func(p geom.Point) bool {
		f := m.faceAt(p)
		// A rectangle by itself has no cells: what lies in it is the drawing.
		return f >= 0 && len(m.faces) > 1 && !slices.Contains(r.fields, f)
	}
	for i := range t.b.items {
		if t.taken[i] || t.b.items[i].class != classCut {
			continue
		}
		all := t.b.inputs[t.b.start[i]:t.b.start[i+1]]
		n := in[int32(i)]
		for k := range all {
			e := &all[k].Edge
			if n < len(all) && m.body.Contains(e.Mid()) && inCell(e.Mid()) && (e.IsCircle() && inCell(e.Centre) || !e.IsCircle() && inCell(e.From) && inCell(e.To)) {
				n++
			}
		}
		if len(all) > 0 && n >= len(all) {
			t.taken[i] = true
			t.whats = append(t.whats, takenItem{int32(i), what})
		}
	}
}

func (t *taker) sources(m *mesh) []Source {
	var all []int32
	for i := range m.runs {
		for _, k := range m.runs[i].inputs {
			all = append(all, t.b.inputs[k].Source)
		}
	}
	return sourcesOf(all)
}

// outerLine takes out the outer line of a frame whose inner line was taken, and
// the ticks between the two.
func (t *taker) outerLine(m *mesh) {
	for i := range t.areas {
		a := &t.areas[i]
		if !a.frame || !m.covered(m.body) || !m.body.ContainsBox(a.box) {
			continue
		}
		most := frameMarginShare * math.Max(m.body.Width(), m.body.Height())
		margin := math.Max(math.Max(a.box.Min.X-m.body.Min.X, m.body.Max.X-a.box.Max.X), math.Max(a.box.Min.Y-m.body.Min.Y, m.body.Max.Y-a.box.Max.Y))
		if margin <= meshTolMM || margin > most {
			continue
		}
		t.take(m, frameTaken)
		t.ring(m.body, a.box)
		a.box = m.body
		return
	}
}

// ring takes out what lies between the two lines of a frame: ticks, arrows,
// letters drawn as lines.
func (t *taker) ring(outer, inner geom.Box) {
	outer = outer.Grow(meshTolMM)
	inner = inner.Grow(-meshTolMM)
	for i := range t.b.items {
		if t.taken[i] || t.b.items[i].class != classCut {
			continue
		}
		all := t.b.inputs[t.b.start[i]:t.b.start[i+1]]
		out := len(all) > 0
		for k := range all {
			box := all[k].Edge.Bounds()
			out = out && outer.ContainsBox(box) && (box.Max.X <= inner.Min.X || box.Min.X >= inner.Max.X || box.Max.Y <= inner.Min.Y || box.Min.Y >= inner.Max.Y)
		}
		if out {
			t.taken[i] = true
			t.whats = append(t.whats, takenItem{int32(i), frameTaken})
		}
	}
}

// marginShare is how far outside a frame marks of the sheet may stand, and how
// large they may be, as a share of its longer side: trimming marks are 10 mm long
// on any sheet from A4 up (ISO 5457, from memory).
const marginShare = 0.04

// margin takes out small things just outside a frame: trimming marks, centring
// marks, letters drawn as lines.
func (t *taker) margin(frame geom.Box) {
	reach := marginShare * math.Max(frame.Width(), frame.Height())
	in := frame.Grow(-meshTolMM)
	out := frame.Grow(reach)
	for i := range t.b.items {
		if t.taken[i] || t.b.items[i].class != classCut {
			continue
		}
		all := t.b.inputs[t.b.start[i]:t.b.start[i+1]]
		if len(all) == 0 {
			continue
		}
		box := all[0].Edge.Bounds()
		for k := range all {
			box = box.Union(all[k].Edge.Bounds())
		}
		outside := box.Max.X <= in.Min.X || box.Min.X >= in.Max.X || box.Max.Y <= in.Min.Y || box.Min.Y >= in.Max.Y
		if outside && out.ContainsBox(box) && math.Max(box.Width(), box.Height()) <= reach {
			t.taken[i] = true
			t.whats = append(t.whats, takenItem{int32(i), frameTaken})
		}
	}
}

// finish enters what was taken, unless nothing would be left that can bound a
// part: what is all there is of a drawing is not its frame.
func (t *taker) finish() {
	if len(t.whats) == 0 {
		t.b.areas = append(t.b.areas, t.areas...) // left out by their layers' names already
		return
	}
	for i := range t.areas {
		if t.areas[i].frame {
			t.margin(t.areas[i].box)
		}
	}
	left := 0
	for i := range t.b.items {
		it := &t.b.items[i]
		if t.taken[i] || it.class != classCut && !(it.class == classNoise && it.strength == weak) {
			continue
		}
		if isClosedEntity(it.placed.Entity) {
			left += 3
		}
		left += t.b.start[i+1] - t.b.start[i]
	}
	if left < 3 {
		return
	}
	for _, w := range t.whats {
		it := &t.b.items[w.item]
		it.class, it.strength, it.what = classNoise, sure, w.what
	}
	t.b.areas = append(t.b.areas, t.areas...)
	for _, n := range t.notes {
		t.b.note(n)
	}
}

// isSizeOf tells whether a text is a number that is the width or the height of
// a face: a dimension between its extension lines.
func (b *builder) isSizeOf(text string, f *meshFace) bool {
	v, ok := plainNumber(text)
	if !ok {
		return false
	}
	v *= b.sheet.Units.MM
	return math.Abs(v-f.width()) <= 0.01*f.width() || math.Abs(v-f.height()) <= 0.01*f.height()
}

// plainNumber reads "120", "12.5", "12,5", "R12" and the like.
func plainNumber(text string) (float64, bool) {
	text = strings.TrimLeft(strings.TrimSpace(text), "ØøRr⌀ ")
	text = strings.ReplaceAll(strings.TrimSpace(strings.TrimSuffix(text, "mm")), ",", ".")
	if text == "" {
		return 0, false
	}
	v, frac, digits := 0.0, 0.0, 0
	for _, r := range text {
		switch {
		case r == '.' && frac == 0:
			frac = 1
		case r >= '0' && r <= '9' && digits < 12:
			digits++
			v = float64(v*10) + float64(r-'0')
			frac *= 10
		default:
			return 0, false
		}
	}
	if frac > 1 {
		v /= frac
	}
	return v, digits > 0
}

// headingWords counts words that head the cells of title blocks, parts lists
// and hole tables.
func headingWords(text string) int {
	n := 0
	for _, w := range nameWords(text) {
		if slices.Contains(strings.Fields(`scale title drawn drawing checked approved date sheet rev revision dwg material qty quantity item description
			tolerance tolerances finish weight projection size hole holes dia diameter part designed customer project
			massstab titel benennung gezeichnet gepruft geprueft datum blatt werkstoff stuck stueck menge bezeichnung zeichnung bearbeiter gewicht masse
			allgemeintoleranzen oberflache kunde auftrag anderung name norm pos stk
			echelle titre dessine verifie feuille matiere materiau designation quantite indice masse
			escala titulo dibujado comprobado fecha hoja cantidad descripcion denominacion
			scala titolo disegnato controllato foglio materiale quantita descrizione denominazione
			desenhado verificado folha designacao quantidade
			schaal getekend gecontroleerd blad materiaal aantal omschrijving
			skala rysowal sprawdzil nazwa skala ritad godkand
			масштаб масса лист материал наименование разраб`), w) {
			n++
		}
	}
	return n
}
