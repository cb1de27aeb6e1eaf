package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/geom"
)

// Letters drawn as outlines or strokes are told by standing in a line of text:
// equal heights on one base line, narrow, close together, different from each
// other, and turning more than openings do. Equal figures in a row, and shapes
// that a punch has, are openings however they stand.

// Limits of a line of text.
const (
	letterLeast     = 3    // figures of equal height on one base line
	letterEqual     = 0.15 // heights are equal within this share
	letterBase      = 0.15 // of the height: how far off the base line
	letterGap       = 1.5  // heights between one letter and the next, at most
	letterReach     = 2.2  // sizes within which figures are looked at together: a gap of a turned line, with room
	letterWide      = 1.6  // heights: a wider figure is no letter
	letterPartShare = 0.25 // of the part's shorter side: higher letters are cut through, or are no letters
	letterBoxShare  = 0.45 // a closed line round the text so close is a label's box
	letterDrop      = 0.45 // heights below the base line that a letter reaches
	letterTouch     = 0.02 // of the size: strokes of one letter that nearly touch
	letterSolidMM   = 30.0 // letters without eyes and strokes are no higher: small parts beside each other may be
	letterHoleMM    = 3.0  // a circle in a line of text may be a hole from this size on: smaller ones are not punched
	lettersTaken    = "letters"
	mostFigures     = 200_000
)

// letterLine is one line of text that was taken out, by inputs.
type letterLine struct {
	inputs  []int32
	box     geom.Box
	roundMM float64 // the largest full circle among the figures that is no eye of another
	form    letterForm
}

// takeLetters takes lines of text out of the drawing before its lines are
// joined. They come back as marks of the parts that they stand on.
func (b *builder) takeLetters(w *lineWork) error {
	owner, inputs := w.owner, b.cutInputs(w.owner)
	if len(w.meet.at) != 2*len(inputs) { // something was taken out, or no line looked at
		w.meet = b.meetEnds(inputs)
	}
	figs := b.figuresOf(owner, inputs, &w.meet)
	if len(figs) < letterLeast+1 || len(figs) > mostFigures {
		return nil
	}
	r := letterReader{b: b, owner: owner, figs: figs, inputs: inputs, ends: w.meet.pairs(), shapes: make([]figureShape, len(figs)), read: make([]bool, len(figs))}
	all := figs[0].box
	for i := range figs {
		all = all.Union(figs[i].box)
	}
	r.side = math.Min(all.Width(), all.Height())
	groups, err := r.groups()
	if err != nil {
		return err
	}
	var lines [][]int
	for n, g := range groups {
		if n%64 == 0 && b.ctx.Err() != nil {
			return b.ctx.Err()
		}
		if r.maybeText(g) {
			lines = append(lines, r.linesOf(g)...)
		}
	}
	r.take(slices.DeleteFunc(lines, r.areOpenings))
	return nil
}

// letterReader looks for lines of text among the figures of a drawing.
type letterReader struct {
	b      *builder
	owner  []int32
	inputs []int32  // of all figures, ascending
	ends   endPairs // of these
	room   ringRoom
	figs   []figure
	shapes []figureShape
	read   []bool // whose shape is known
	side   float64
}

// figureShape is what a figure looks like, whichever way it is turned.
type figureShape struct {
	stroke  bool    // it has a loose end
	punch   bool    // a punch has the shape, or it is one straight line
	round   float64 // diameter of a circle, else 0
	squared bool    // four lines, a regular polygon or a slot
	area    float64
	length  float64
	excess  float64 // turning beyond that of a convex shape, radians
}

// shape reads a figure's shape once.
func (r *letterReader) shape(i int) *figureShape {
	s := &r.shapes[i]
	if r.read[i] {
		return s
	}
	r.read[i] = true
	f := &r.figs[i]
	s.length = f.length
	s.stroke = !f.closed
	if s.stroke {
		s.punch = f.bends == 0
		s.area = f.length * float64(f.bends)
		return s
	}
	inputs, ends := r.inputs, &r.ends
	if len(f.copies) > 0 { // what lies on others ends at the same places
		inputs = f.inputs
		m := r.b.meetEnds(inputs)
		own := m.pairs()
		ends = &own
	}
	l, ok := r.b.ringOf(f, ends, inputs, &r.room)
	if !ok {
		s.punch = true // it crosses itself: nothing is said of it
		return s
	}
	s.area = l.area
	if _, radius, ok := l.isCircle(); ok {
		s.round = 2 * radius
	}
	s.excess = turningOf(l.ring) - 2*math.Pi
	k := recogniseInside(l.ring)
	s.squared = k.Kind == RectangularHole || k.Kind == PolygonHole || k.Kind == Slot
	s.punch = k.Kind != Cutout || k.Subkind != "free" || s.excess < math.Pi-0.2
	return s
}

// groups gathers figures that stand close to each other in relation to their
// size.
func (r *letterReader) groups() ([][]int, error) {
	g := newGroups(len(r.figs))
	diagonals := make([]geom.Edge, len(r.figs))
	sizes := make([]float64, len(r.figs)) // of small figures, else 0
	for i := range r.figs {
		diagonals[i] = geom.LineEdge(r.figs[i].box.Min, r.figs[i].box.Max)
		if r.small(i) {
			sizes[i] = size(r.figs[i].box)
		}
	}
	index := geom.NewIndex(diagonals, 0)
	for i := range r.figs {
		if i%256 == 0 && r.b.ctx.Err() != nil {
			return nil, r.b.ctx.Err()
		}
		own := sizes[i]
		if !(own > 0) {
			continue
		}
		for k := range index.Near(r.figs[i].box.Grow(letterReach * own)) {
			other := sizes[k]
			if other > 0 && other >= own/12 && other <= 12*own && g.root(i) != g.root(k) && r.figs[i].box.Dist(r.figs[k].box) <= letterReach*math.Max(own, other) {
				g.unite(i, k)
			}
		}
	}
	// What is not small stands by itself.
	return slices.DeleteFunc(g.members(), func(list []int) bool { return len(list) < letterLeast }), nil
}

func size(b geom.Box) float64 { return math.Max(b.Width(), b.Height()) }

// small tells whether a figure can be a letter of the drawing at all.
func (r *letterReader) small(i int) bool {
	return size(r.figs[i].box) <= letterWide*letterPartShare*1.5*r.side && r.figs[i].length > 0
}

// maybeText tells whether two figures of a group look like no opening, or one of
// open strokes. It stops there, for a perforated plate has thousands of equal
// holes.
func (r *letterReader) maybeText(g []int) bool {
	n, strokes := 0, 0
	for _, i := range g {
		f := &r.figs[i]
		if !f.closed {
			if strokes++; f.bends > 0 || strokes >= letterLeast {
				return true
			}
			continue
		}
		if len(f.inputs) < 3 && f.bends < 4 {
			continue
		}
		if !r.shape(i).punch {
			if n++; n >= 2 {
				return true
			}
		}
	}
	return false
}

// joined unites the figures of a group that touch or cross each other with an
// open stroke: the bar of an A, the two lines of an X.
func (r *letterReader) joined(g []int) [][]int {
	u := newGroups(len(g))
	if near := r.nearOpen(g); len(near) > 0 {
		var edges []geom.Edge
		var of []int
		for _, k := range near {
			for _, in := range r.figs[g[k]].inputs {
				edges = append(edges, r.b.inputs[in].Edge)
				of = append(of, k)
			}
		}
		index := geom.NewIndex(edges, 0)
		for n := range edges {
			if !r.figs[g[of[n]]].open {
				continue
			}
			reach := r.touch(g[of[n]])
			for m := range index.Near(edges[n].Bounds().Grow(reach)) {
				if u.root(of[m]) == u.root(of[n]) {
					continue
				}
				if _, _, d := geom.Closest(edges[n], edges[m]); d <= reach {
					u.unite(of[m], of[n])
				}
			}
		}
	}
	out := u.members()
	for _, list := range out {
		for n, k := range list {
			list[n] = g[k]
		}
	}
	return out
}

// touch is how near an edge must be to an open figure to be of one letter with it.
func (r *letterReader) touch(i int) float64 { return letterTouch * size(r.figs[i].box) }

// nearOpen lists the members of a group that are open figures or stand close
// enough to one to touch it.
func (r *letterReader) nearOpen(g []int) (near []int) {
	var boxes []geom.Edge // about the open ones, from corner to corner
	for _, i := range g {
		if r.figs[i].open {
			box := r.figs[i].box.Grow(2 * r.touch(i))
			boxes = append(boxes, geom.LineEdge(box.Min, box.Max))
		}
	}
	if len(boxes) == 0 {
		return nil
	}
	index := geom.NewIndex(boxes, 0)
	for k, i := range g {
		for range index.Near(r.figs[i].box) {
			near = append(near, k)
			break
		}
	}
	return near
}

// fits tells whether letters of a height are small enough for what they stand
// on: the least figure about them that is no box round the text alone. Outside
// everything there must be such a figure elsewhere.
func (r *letterReader) fits(run []spanned, h float64) bool {
	box := r.figs[run[0].figs[0]].box
	own := map[int]bool{}
	for _, s := range run {
		for _, i := range s.figs {
			box = box.Union(r.figs[i].box)
			own[i] = true
		}
	}
	held, least, some := false, math.Inf(1), false
	// All stand on the same side of every closed line.
	parted := func(f *figure) bool {
		in := 0
		for _, s := range run {
			if r.b.holds(f, r.figs[s.figs[0]].box.Centre()) {
				in++
			}
		}
		return in > 0 && in < len(run)
	}
	for i := range r.figs {
		f := &r.figs[i]
		if own[i] {
			continue
		}
		short := math.Min(f.box.Width(), f.box.Height())
		some = some || h <= letterPartShare*short+1e-9
		if f.closed && short > h && f.box.Overlaps(box) && parted(f) {
			return false
		}
		if !f.box.ContainsBox(box) || h > letterBoxShare*short {
			continue
		}
		held = true
		least = math.Min(least, short)
	}
	if held {
		return h <= letterPartShare*least+1e-9
	}
	return some || h <= letterPartShare*r.side && r.side > 0
}

// take marks the items of the lines of text.
func (r *letterReader) take(lines [][]int) {
	b := r.b
	taken := make([]bool, len(r.figs))
	rounds := map[int64]int{} // round figures by diameter, in hundredths
	inText := map[int]bool{}
	for _, l := range lines {
		for _, i := range l {
			inText[i] = true
		}
	}
	if len(lines) > 0 {
		for i := range r.figs {
			if !inText[i] && r.figs[i].closed && r.small(i) && len(r.figs[i].inputs) <= 64 {
				if d := r.shape(i).round; d > 0 {
					rounds[int64(math.Round(d*100))]++
				}
			}
		}
	}
	for _, l := range lines {
		line := letterLine{form: r.formOf(l)}
		for n, i := range l {
			// A hole that is elsewhere too is no letter.
			if d := r.shape(i).round; taken[i] || d > 0 && rounds[int64(math.Round(d*100))] > 0 && !r.insideOther(i, l) {
				continue
			}
			taken[i] = true
			if d := r.shape(i).round; d > line.roundMM && !r.insideOther(i, l) {
				line.roundMM = d
			}
			if n == 0 || len(line.inputs) == 0 {
				line.box = r.figs[i].box
			}
			line.box = line.box.Union(r.figs[i].box)
			line.inputs = append(append(line.inputs, r.figs[i].inputs...), r.figs[i].copies...)
		}
		if len(line.inputs) == 0 {
			continue
		}
		slices.Sort(line.inputs)
		for _, in := range line.inputs {
			it := &b.items[r.owner[in]]
			it.class, it.strength, it.what, it.order = classMark, sure, lettersTaken, 0
		}
		b.letters = append(b.letters, line)
	}
	slices.SortStableFunc(b.letters, func(p, q letterLine) int { return comparePlace(p.box.Min, q.box.Min) })
}

// insideOther tells whether a figure lies within another of the line: the eye
// of a letter.
func (r *letterReader) insideOther(i int, line []int) bool {
	for _, k := range line {
		if k != i && r.figs[k].closed && r.figs[k].box.ContainsBox(r.figs[i].box) && r.figs[k].length > r.figs[i].length {
			return true
		}
	}
	return false
}

// placeLetters makes one mark of every line of text on a part; others are left
// out with a note.
func (b *builder) placeLetters() {
	b.doubtLargeLetters()
	b.doubtLoneLetters()
	outside := 0
	var at geom.Point
	var src []int32
	for _, l := range b.letters {
		open := make(geom.Ring, len(l.inputs))
		length := 0.0
		var infos []int32
		on := map[int]int{}
		for k, in := range l.inputs {
			e := b.inputs[in].Edge
			open[k] = e
			length += e.Length()
			infos = append(infos, b.inputs[in].Source)
			if d := b.partAt(e.Mid()); d >= 0 {
				on[d]++
			}
		}
		part, most := -1, 0
		for d, n := range on {
			if n > most || n == most && d < part {
				part, most = d, n
			}
		}
		if 2*most <= len(l.inputs) {
			if outside == 0 || comparePlace(l.box.Min, at) < 0 {
				at = l.box.Min
			}
			outside++
			src = append(src, infos...)
			b.doubtLettersBeside(&l)
			continue
		}
		b.drafts[part].lines = append(b.drafts[part].lines, Feature{Kind: Mark, At: l.box.Centre(), LengthMM: length, Hole: -1, Open: open,
			Note: "letters drawn as lines", Source: sourcesOf(infos)})
		b.doubtLettersOn(part, &l)
		if l.roundMM >= letterHoleMM {
			b.drafts[part].doubts = append(b.drafts[part].doubts, Doubt{Code: "maybe-letter", Grave: true, At: l.box.Centre(), Source: sourcesOf(infos),
				Text: fmt.Sprintf("a row of figures was taken for text drawn as lines; the circle of %s mm in it may be an O or a hole", shortNumber(l.roundMM))})
		}
	}
	if outside > 0 {
		b.ignored[lettersTaken] += len(sourcesOf(src))
		b.note(Note{Code: "letters-left-out", At: at, HasAt: true, Count: outside, Source: sourcesOf(src),
			Text: fmt.Sprintf("lines of text drawn as letters outside the parts were left out: %d", outside)})
	}
}
