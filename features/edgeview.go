package features

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"burrside/features/geom"
	"burrside/features/measure"
)

// A flat plate is often drawn twice: its face, and beside it its edge, a narrow
// rectangle as long as the plate whose other side is the thickness. Such a
// rectangle is no part.

const (
	// viewAlignMM is how far a view may be off the lines projected from the face.
	viewAlignMM = 0.1
	// viewShare is the most that an edge view may be thick: a fifth of the
	// plate's shorter extent. Thicker ones are bars.
	viewShare = 0.2
	// lonelyViewMM is the thickest edge view that is believed for a stock
	// thickness alone; a wider rectangle may as well be a flat bar.
	lonelyViewMM = 25.0
	// hiddenMM is how far the hidden line of a hole may be off its edge.
	hiddenMM = 0.1
)

// edgeView is a rectangle that was taken for the edge of a plate.
type edgeView struct {
	loop, of int // the rectangle's, the plate's outline
	thickMM  float64
	why      string
	said     bool // a text states this thickness
	lonely   bool // nothing but the stock thickness speaks for it
}

// viewCandidate is a rectangle beside a plate that could be its edge.
type viewCandidate struct {
	loop, of int
	level    bool // the long side lies along x
	thickMM  float64
	gapMM    float64
	hidden   int // lines across that stand at an edge or the middle of a hole
	strange  int // lines across that stand elsewhere
}

// viewOutlines are the outermost outlines, in order, of a drawing that may have
// views: nil where there is one only, and of a nest, which has none.
func (b *builder) viewOutlines() []int {
	var tops []int
	for i := range b.loops {
		if l := &b.loops[i]; !l.dead && !l.toolMark && l.parent < 0 {
			tops = append(tops, i)
		}
	}
	const most = 400 // of parts on a sheet that is no nest
	if len(tops) < 2 || len(tops) > most {
		return nil
	}
	slices.SortStableFunc(tops, b.compareLoops)
	return tops
}

// takeEdgeViews takes the edge views of flat plates out and keeps what they
// say about the thickness.
func (b *builder) takeEdgeViews() error {
	b.settleChildren()
	tops := b.viewOutlines()
	if tops == nil {
		return nil
	}
	stated := b.statedThicknesses()
	var list []viewCandidate
	for _, i := range tops {
		if err := b.ctx.Err(); err != nil {
			return err
		}
		if c, ok := b.viewOf(i, tops); ok {
			list = append(list, c)
		}
	}
	for i := range list {
		c := &list[i]
		why, said := b.whyView(c, list, stated)
		l := &b.loops[c.loop]
		size := fmt.Sprintf("%s x %s mm", shortNumber(l.box.Width()), shortNumber(l.box.Height()))
		if why == "" {
			b.note(Note{Code: "maybe-edge-view", At: l.box.Min, HasAt: true, Source: l.sources(),
				Text: fmt.Sprintf("the rectangle of %s beside a plate of the same length may be a view of its edge; nothing says so, so it was read as a part", size)})
			continue
		}
		b.edgeViews = append(b.edgeViews, edgeView{c.loop, c.of, c.thickMM, why, said, why == stockWhy && !b.measured(c.thickMM, l.box)})
		b.note(Note{Code: "edge-view", At: l.box.Min, HasAt: true, Source: l.sources(),
			Text: fmt.Sprintf("the rectangle of %s was taken for a view of the plate's edge, %s mm thick: %s", size, shortNumber(c.thickMM*b.factorOf(c.of)), why)})
	}
	for _, v := range b.edgeViews {
		b.loops[v.loop].dead = true
		b.takenBoxes = append(b.takenBoxes, b.loops[v.loop].box)
	}
	b.settleChildren()
	return nil
}

// viewOf finds the nearest plate whose edge the loop could be.
func (b *builder) viewOf(i int, tops []int) (viewCandidate, bool) {
	l := &b.loops[i]
	if l.leg || !isRectangle(l.ring) || len(l.children) > 0 {
		return viewCandidate{}, false
	}
	w, h := l.box.Width(), l.box.Height()
	if math.Abs(w*h-l.area) > 1e-3*l.area {
		return viewCandidate{}, false // it lies at a slant
	}
	best := viewCandidate{gapMM: math.Inf(1)}
	for _, k := range tops {
		p := &b.loops[k]
		if k == i || p.leg || p.area <= l.area || math.Min(w, h) > viewShare*math.Min(p.box.Width(), p.box.Height()) {
			continue
		}
		for _, level := range []bool{true, false} {
			a0, a1, p0, p1 := l.box.Min.X, l.box.Max.X, p.box.Min.X, p.box.Max.X
			c0, c1, q0, q1 := l.box.Min.Y, l.box.Max.Y, p.box.Min.Y, p.box.Max.Y
			thick := h
			if !level {
				a0, a1, p0, p1, c0, c1, q0, q1 = c0, c1, q0, q1, a0, a1, p0, p1
				thick = w
			}
			gap := math.Max(c0-q1, q0-c1)
			if math.Abs(a0-p0) > viewAlignMM || math.Abs(a1-p1) > viewAlignMM || thick > viewShare*(a1-a0) || gap <= 0 || gap >= best.gapMM {
				continue
			}
			best = viewCandidate{loop: i, of: k, level: level, thickMM: math.Round(thick*1e3) / 1e3, gapMM: gap}
		}
	}
	if math.IsInf(best.gapMM, 1) {
		return best, false
	}
	p := &b.loops[best.of]
	if best.gapMM > 2*math.Max(p.box.Width(), p.box.Height()) || b.ownText(l) || b.ownMark(i, tops) {
		return best, false
	}
	b.matchHidden(&best)
	return best, best.strange == 0
}

// ownText tells whether a text stands in the rectangle that does not say how
// thick it is: a mark makes it a part.
func (b *builder) ownText(l *loop) bool {
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if !l.box.Contains(b.textMiddle(t)) {
			continue
		}
		if _, ok := plainNumber(t.Value); ok {
			continue
		}
		if _, ok := measure.PlateNote(t.Value); !ok {
			return true
		}
	}
	return false
}

// ownMark tells whether a mark or a number of pieces stands right beside the
// rectangle, nearer to it than to any other outline: it names a part. Views are
// named by letters, or by words.
func (b *builder) ownMark(i int, tops []int) bool {
	l := &b.loops[i]
	for x := range b.sheet.Texts {
		t := &b.sheet.Texts[x]
		d := boxDist(l.box, t.At)
		if d > 4*t.HeightMM || !isMark(t.Value) || b.tableOf(t) >= 0 {
			continue
		}
		nearest := true
		for _, k := range tops {
			nearest = nearest && (k == i || boxDist(b.loops[k].box, t.At) > d)
		}
		if nearest {
			return true
		}
	}
	return false
}

// isMark tells whether a text is a part's mark, such as "P2" or "1007", or
// says how many pieces there are.
func isMark(text string) bool {
	text = strings.TrimSpace(text)
	if n, ok := measure.Quantity(text); ok && n > 0 {
		return true
	}
	letters, digits := 0, 0
	for _, r := range text {
		switch {
		case r >= '0' && r <= '9':
			digits++
		case unicode.IsLetter(r):
			letters++
		case r != '-' && r != '.' && r != '_':
			return false
		}
	}
	_, plate := measure.PlateNote(text)
	return !plate && letters > 0 && digits > 0 && letters+digits <= 8
}

// matchHidden counts the lines across the rectangle that stand where the plate
// has the edge or the middle of a hole, or a corner.
func (b *builder) matchHidden(c *viewCandidate) {
	l := &b.loops[c.loop]
	p := &b.loops[c.of]
	along := func(q geom.Point) float64 {
		if c.level {
			return q.X
		}
		return q.Y
	}
	var holes, corners []float64
	for _, k := range p.children {
		box := b.loops[k].box
		holes = append(holes, along(box.Min), along(box.Max), along(box.Centre()))
	}
	for _, e := range p.ring {
		corners = append(corners, along(e.From))
	}
	isAt := func(list []float64, f float64) bool {
		return slices.ContainsFunc(list, func(v float64) bool { return math.Abs(v-f) <= hiddenMM })
	}
	box := l.box.Grow(viewAlignMM)
	look := func(e geom.Edge, drawn bool) {
		if e.IsArc() || !box.Contains(e.Mid()) {
			return
		}
		from, to := along(e.From), along(e.To)
		switch at := (from + to) / 2; {
		case math.Abs(from-to) > hiddenMM:
			// Along the plate: the line of a step or the centre line.
			if drawn && !isAt(corners, from) {
				c.strange++
			}
		case isAt(holes, at):
			c.hidden++
		case drawn && !isAt(corners, at):
			c.strange++
		}
	}
	for i := range b.joined.Dividers {
		if d := &b.joined.Dividers[i]; d.Contour == c.loop {
			for _, q := range d.Pieces {
				look(q.Edge, true)
			}
		}
	}
	for i := range b.items {
		it := &b.items[i]
		if it.class != classNoise || it.back || it.strength == sure || len(p.children) == 0 {
			continue
		}
		for _, in := range b.inputs[b.start[i]:b.start[i+1]] {
			look(in.Edge, false)
		}
	}
}

// whyView names the evidence that a candidate is an edge view, "" if there is
// none; said tells that a text states its thickness.
func (b *builder) whyView(c *viewCandidate, list []viewCandidate, stated []float64) (why string, said bool) {
	thick, differs := c.thickMM*b.factorOf(c.of), false
	for _, mm := range stated {
		if math.Abs(mm-thick) <= 0.05 {
			return fmt.Sprintf("a text states %s mm", shortNumber(mm)), true
		}
		differs = true
	}
	if c.hidden > 0 {
		return "the lines in it stand at the holes of the plate", false
	}
	if differs {
		return "", false // the plate is said to be of another thickness
	}
	l := &b.loops[c.loop]
	alike := 0
	for i := range list {
		o := &list[i]
		if o.loop == c.loop {
			continue
		}
		same := math.Abs(o.thickMM-c.thickMM) <= viewAlignMM
		if same && o.level != c.level && o.of == c.of {
			return "a second view beside the plate is as thick", false
		}
		k := &b.loops[o.loop]
		if same && math.Abs(k.box.Width()-l.box.Width()) <= viewAlignMM && math.Abs(k.box.Height()-l.box.Height()) <= viewAlignMM {
			alike++
		}
	}
	// A file with nothing but lines is for cutting and shows no views.
	isDrawing := len(b.drawnDims) > 0 || len(b.areas) > 0 || len(b.sheet.Texts) > 0
	if alike == 0 && isDrawing && thick <= lonelyViewMM && isStockThickness(thick) {
		return stockWhy, false
	}
	return "", false
}

// stockWhy is the weakest evidence for an edge view.
const stockWhy = "plate of this thickness is in stock everywhere"

// measured tells whether a dimension, or a number beside a rectangle, gives its
// thickness.
func (b *builder) measured(thickMM float64, box geom.Box) bool {
	for i := range b.drawnDims {
		d := &b.drawnDims[i]
		from, to := d.from.Mul(b.sheet.Units.MM), d.to.Mul(b.sheet.Units.MM)
		if math.Abs(d.drawn*b.sheet.Units.MM-thickMM) <= 0.05 && box.Grow(viewAlignMM).Contains(from) && box.Grow(viewAlignMM).Contains(to) {
			return true
		}
	}
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		f, ok := plainNumber(t.Value)
		if ok && math.Abs(f*b.sheet.Units.MM-thickMM) <= 0.05 && boxDist(box, t.At) <= 8*t.HeightMM {
			return true
		}
	}
	return false
}

// statedThicknesses are the thicknesses that the drawing's texts state.
func (b *builder) statedThicknesses() []float64 {
	var out []float64
	for _, v := range b.thicknessTexts() {
		out = append(out, v.mm)
	}
	return out
}

// thicknessTexts are the statements of a thickness, with their texts.
func (b *builder) thicknessTexts() []statement {
	var out []statement
	for _, t := range b.sheet.Texts {
		if t.Revision {
			continue
		}
		for _, line := range strings.Split(t.Value, "\n") {
			if len(line) > 400 {
				continue
			}
			if p, ok := measure.PlateNote(line); ok {
				if mm := b.lengthMM(p.Thickness); mm > 0 {
					out = append(out, statement{kind: "thickness", mm: mm, text: t})
				}
			}
		}
	}
	for _, v := range b.labelled() {
		if v.kind == "thickness" && v.mm > 0 {
			out = append(out, v)
		}
	}
	return out
}

// isStockThickness tells whether a length is a usual thickness of steel plate,
// within 0.05 mm: the metric series, or sixteenths of an inch up to an inch.
func isStockThickness(mm float64) bool {
	for _, t := range stockPlateMM() {
		if math.Abs(mm-t) <= 0.05 {
			return true
		}
	}
	n := math.Round(mm / 25.4 * 16)
	return n >= 2 && n <= 16 && math.Abs(mm-n*25.4/16) <= 0.05
}

// stateViews gives the parts the thickness that their edge views show, unless a
// text states the same: then the text is the better witness. Views that differ
// are doubted.
func (b *builder) stateViews() {
	for _, v := range b.edgeViews {
		n, ok := b.partOf[v.of]
		if !ok {
			continue
		}
		p := &b.sheet.Parts[n]
		l := &b.loops[v.loop]
		if v.lonely {
			p.Doubts = append(p.Doubts, Doubt{Code: "maybe-edge-view", Grave: true, At: l.box.Min, Source: l.sources(),
				Text: fmt.Sprintf("a rectangle of %s x %s mm beside the plate was taken for a view of its edge and left out; no text or dimension says so: it may be a flat bar", shortNumber(l.box.Width()), shortNumber(l.box.Height()))})
		}
		s := Stated{Text: "edge view", MM: v.thickMM, From: "view", At: l.box.Min, Source: l.sources()}
		switch {
		case v.said:
		case p.Thickness.From == "":
			p.Thickness = s
		case math.Abs(p.Thickness.MM-s.MM) > 0.05:
			p.Doubts = append(p.Doubts, Doubt{Code: "text-conflict", Grave: true, At: s.At, Source: s.Source,
				Text: fmt.Sprintf("two views of the edge differ: %s and %s mm thick", shortNumber(p.Thickness.MM), shortNumber(s.MM))})
		default:
			p.Thickness.Source = append(p.Thickness.Source, s.Source...)
		}
	}
}

// inTaken tells whether all pieces lie in what was taken out.
func (b *builder) inTaken(pieces []piece) bool {
	for _, box := range b.takenBoxes {
		box = box.Grow(viewAlignMM)
		in := true
		for _, p := range pieces {
			in = in && box.ContainsBox(p.edge.Bounds())
		}
		if in {
			return true
		}
	}
	return false
}
