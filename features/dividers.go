package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
	"burrside/features/join"
)

// cutLine is a straight or bent run across a part, with how it was told.
type cutLine struct {
	pieces  []piece
	loop    int // the outline that it crosses, -1 unknown
	why     string
	byStyle bool // told by colour or dashes only
}

// sortDividers gives every line across an outline one meaning before parts are
// made, from evidence, in this order: declared by its style or a
// note beside it: a bend; several that meet, with faces that are alike or have
// holes of their own: common cuts of several parts; else unexplained, one part.
func (b *builder) sortDividers() error {
	byLoop := map[int][]int{}
	var loops []int
	for i := range b.joined.Dividers {
		c := b.joined.Dividers[i].Contour
		if byLoop[c] == nil {
			loops = append(loops, c)
		}
		byLoop[c] = append(byLoop[c], i)
	}
	slices.Sort(loops)
	for _, c := range loops {
		if c < 0 || c >= len(b.loops) || b.loops[c].dead {
			continue
		}
		if b.depthOf(c)%2 == 1 {
			b.linesInHole(c, byLoop[c])
			continue
		}
		if err := b.sortDividersOf(c, byLoop[c]); err != nil {
			return err
		}
	}
	return nil
}

// depthOf counts the live loops round a loop.
func (b *builder) depthOf(i int) int {
	n := 0
	for p := b.loops[i].parent; p >= 0; p = b.loops[p].parent {
		if !b.loops[p].dead && !b.loops[p].toolMark {
			n++
		}
	}
	return n
}

// linesInHole tells that lines across an opening, centre marks mostly, are no
// metal.
func (b *builder) linesInHole(c int, dividers []int) {
	b.doubtGrid(c, dividers)
	var src []int32
	for _, i := range dividers {
		for _, p := range b.joined.Dividers[i].Pieces {
			src = append(src, p.Sources...)
		}
	}
	b.note(Note{Code: "line-in-hole", Count: len(dividers), Text: fmt.Sprintf("%d lines cross an opening; there is no metal, so they were left out", len(dividers)), Source: sourcesOf(src)})
}

func (b *builder) sortDividersOf(c int, dividers []int) error {
	var open []int
	for _, i := range dividers {
		pieces := b.pieces(b.joined.Dividers[i].Pieces)
		if why, byStyle := b.declaredBend(c, pieces); why != "" {
			b.bendLines = append(b.bendLines, cutLine{pieces, c, why, byStyle})
			continue
		}
		open = append(open, i)
	}
	if len(open) == 0 {
		return nil
	}
	if ok, err := b.sharedEdges(c, open); ok || err != nil {
		return err
	}
	if ok, err := b.layerFaces(c, open); ok || err != nil {
		return err
	}
	if ok, err := b.commonCuts(c, open); ok || err != nil {
		return err
	}
	for _, i := range open {
		pieces := b.pieces(b.joined.Dividers[i].Pieces)
		b.unexplained(c, pieces)
	}
	return nil
}

// unexplained doubts the part whose outline is the loop.
func (b *builder) unexplained(c int, pieces []piece) {
	var src []int32
	length := 0.0
	for _, p := range pieces {
		src = append(src, p.sources...)
		length += p.edge.Length()
	}
	a, z := pieces[0].edge.From, pieces[len(pieces)-1].edge.To
	b.loopDoubts = append(b.loopDoubts, loopDoubt{c, Doubt{Code: "line-unexplained", Grave: true, At: mid(a, z), Source: sourcesOf(src),
		Text: fmt.Sprintf("a line of %s mm crosses the part from edge to edge: it may be a bend, a cut that parts two pieces, or the thickness of an angle's other leg", shortNumber(length))}})
}

// loopDoubt is a doubt about the part whose outline is the loop.
type loopDoubt struct {
	loop  int
	doubt Doubt
}

func mid(a, z geom.Point) geom.Point { return a.Add(z).Mul(0.5) }

// declaredBend tells why a straight line across a loop is a bend, "" if
// nothing declares it.
func (b *builder) declaredBend(c int, pieces []piece) (why string, byStyle bool) {
	if !isStraightRun(pieces) {
		return "", false
	}
	for _, s := range pieces {
		for _, src := range s.sources {
			if it := b.itemOf(src); it != nil && it.class == classBend {
				return "its layer", false
			}
		}
	}
	a, z := pieces[0].edge.From, pieces[len(pieces)-1].edge.To
	if t := b.bendNoteBeside(a, z); t != "" {
		return fmt.Sprintf("the note %q beside it", clip(t)), false
	}
	own := b.looksOf(pieces)
	outline := b.looksOf(b.loops[c].pieces)
	if len(own) != 1 || len(outline) == 0 {
		return "", false
	}
	sameColour := false
	for _, o := range outline {
		if o == own[0] {
			return "", false
		}
		sameColour = sameColour || o.colour == own[0].colour
	}
	if !sameColour {
		return "its colour", true
	}
	return "its linetype", true
}

// looksOf lists the colours and linetypes of some pieces, each once.
func (b *builder) looksOf(pieces []piece) []style {
	var list []style
	for _, p := range pieces {
		if p.style < 0 || int(p.style) >= len(b.styles) {
			continue
		}
		t := b.styles[p.style]
		t.colour = b.shownColour(t)
		t.layer = 0
		if !slices.Contains(list, t) {
			list = append(list, t)
		}
	}
	return list
}

// shownColour resolves a colour by layer.
func (b *builder) shownColour(s style) int16 {
	if s.colour == 256 && s.layer >= 0 && int(s.layer) < len(b.d.Layers) {
		return int16(b.d.Layers[s.layer].Colour)
	}
	return s.colour
}

// itemOf is the item that an entity number stands for, nil if none.
func (b *builder) itemOf(info int32) *item {
	// Where nothing but geometry is drawn they are numbered alike.
	if len(b.items) > 0 {
		if i := int(info) - int(b.items[0].info); i >= 0 && i < len(b.items) && b.items[i].info == info {
			return &b.items[i]
		}
	}
	if i, ok := slices.BinarySearchFunc(b.items, info, func(it item, x int32) int { return int(it.info) - int(x) }); ok {
		return &b.items[i]
	}
	return nil
}

// isStraightRun tells whether the pieces are one straight run, within 0.01 mm.
func isStraightRun(pieces []piece) bool {
	if len(pieces) == 0 {
		return false
	}
	a, z := pieces[0].edge.From, pieces[len(pieces)-1].edge.To
	whole := geom.LineEdge(a, z)
	for _, p := range pieces {
		if p.edge.IsArc() || whole.Dist(p.edge.From) > 0.01 || whole.Dist(p.edge.To) > 0.01 {
			return false
		}
	}
	return a.Dist(z) > 0
}

// bendNoteBeside finds a text that names a bend within three text heights, or
// 15 mm, of a line.
func (b *builder) bendNoteBeside(a, z geom.Point) string {
	line := geom.LineEdge(a, z)
	best, at := "", math.Inf(1)
	for _, t := range b.sheet.Texts {
		reach := math.Max(15, 3*t.HeightMM)
		d := line.Dist(t.At)
		if d > reach || d >= at || !b.isBendNote(t.Value) {
			continue
		}
		best, at = t.Value, d
	}
	return best
}

// isBendNote tells whether a text names a bend: a word for it, or UP or DOWN
// with an angle.
func (b *builder) isBendNote(text string) bool {
	words := nameWords(text)
	for i := range words {
		if matchesWord(words[i:], b.words.Bend) {
			return true
		}
	}
	if !strings.ContainsAny(text, "0123456789") {
		return false
	}
	return slices.Contains(words, "up") || slices.Contains(words, "down")
}

// commonCuts tells whether dividers of one outline part it into several parts:
// they meet each other, and the faces are alike or each has holes of its own.
// If so the outline gives way to its faces.
func (b *builder) commonCuts(c int, dividers []int) (bool, error) {
	if len(dividers) < 2 || !b.dividersMeet(dividers) || b.centresOn(c, dividers) {
		return false, nil
	}
	loops, kids, err := b.facesOf(c, dividers)
	if err != nil || len(loops) < 2 {
		return false, err
	}
	alike, holes := true, true
	for i := range loops {
		alike = alike && math.Abs(loops[i].area-loops[0].area) <= 1e-3*loops[0].area && len(loops[i].ring) == len(loops[0].ring)
		holes = holes && len(kids[i]) > 0
	}
	if !alike && !holes || !holes && b.isTable(loops) {
		return false, nil
	}
	b.giveWay(c, loops, kids, fmt.Sprintf("lines that meet inside an outline were taken as common cuts of %d parts", len(loops)))
	return true, nil
}

// facesOf gives the faces that dividers make of an outline, with the children
// of the outline that lie in each.
func (b *builder) facesOf(c int, dividers []int) (loops []loop, kids [][]int, err error) {
	list := make([]join.Divider, len(dividers))
	for i, d := range dividers {
		list[i] = b.joined.Dividers[d]
	}
	faces, err := join.Faces(b.ctx, &b.joined.Contours[c], list, join.Options{BridgeMM: b.opt.BridgeMM})
	if err != nil {
		return nil, nil, err
	}
	loops = make([]loop, len(faces))
	kids = make([][]int, len(faces))
	for i, f := range faces {
		loops[i] = loop{pieces: b.pieces(f.Pieces)}
		loops[i].settle()
	}
	b.settleChildren()
	for _, k := range b.loops[c].children {
		p := b.loops[k].ring[0].Mid()
		for i := range loops {
			if loops[i].box.Contains(p) && loops[i].ring.Inside(p, 1e-6) == geom.In {
				kids[i] = append(kids[i], k)
				break
			}
		}
	}
	return loops, kids, nil
}

// giveWay puts the faces of an outline in its place.
func (b *builder) giveWay(c int, faces []loop, kids [][]int, text string) {
	old := &b.loops[c]
	old.dead = true
	parent := old.parent
	var src []int32
	for i := range faces {
		faces[i].parent = parent
		n := len(b.loops)
		b.loops = append(b.loops, faces[i])
		for _, k := range kids[i] {
			b.loops[k].parent = n
		}
		src = append(src, flatSources(faces[i].pieces)...)
	}
	b.note(Note{Code: "common-cut", At: faces[0].box.Min, HasAt: true, Count: len(faces), Source: sourcesOf(src), Text: text})
}

// isTable tells whether most faces hold a text and nothing else: the cells of a
// table or a title block look like a nest of equal plates, and plates with a
// part mark each look like a table. Neither is decided here.
func (b *builder) isTable(faces []loop) bool {
	worded := 0
	for i := range faces {
		for _, t := range b.sheet.Texts {
			if faces[i].box.Contains(t.At) && faces[i].ring.Inside(t.At, 1e-6) == geom.In {
				worded++
				break
			}
		}
	}
	return 2*worded >= len(faces)
}

func flatSources(pieces []piece) []int32 {
	var src []int32
	for _, p := range pieces {
		src = append(src, p.sources...)
	}
	return src
}

// dividersMeet tells whether some divider has an end on another one.
func (b *builder) dividersMeet(dividers []int) bool {
	type end struct {
		p geom.Point
		d int
	}
	var ends []end
	for _, i := range dividers {
		p := b.joined.Dividers[i].Pieces
		ends = append(ends, end{p[0].Edge.From, i}, end{p[len(p)-1].Edge.To, i})
	}
	tol := 2 * math.Max(b.joined.SnapMM, 1e-3)
	slices.SortStableFunc(ends, func(a, c end) int { return comparePlace(a.p, c.p) })
	for i := range ends {
		for k := i + 1; k < len(ends) && ends[k].p.Y-ends[i].p.Y <= 2*tol; k++ {
			if ends[i].d != ends[k].d && ends[i].p.Dist(ends[k].p) <= tol && !b.onOutline(ends[i].p, b.joined.Dividers[ends[i].d].Contour) {
				return true
			}
		}
	}
	return false
}

func (b *builder) onOutline(p geom.Point, c int) bool {
	return b.loops[c].ring.Inside(p, 2*math.Max(b.joined.SnapMM, 1e-3)) == geom.On
}
