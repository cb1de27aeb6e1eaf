package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
)

// manyTexts is how many lines of text beside the parts make a rectangle of
// standard size, or one with headings, a frame: a plate carries a mark or two.
const manyTexts = 4

// borderWitness is what speaks for a rectangle being the frame of a drawing.
type borderWitness struct {
	table   bool   // a title block or a table stands in it, beside the parts
	sheet   string // it is a sheet of standard size
	texts   int    // lines of text in it beside the parts
	words   int    // of which that many head title blocks
	dims    int    // dimensions in it that measure what lies in it
	ownSize bool   // a dimension measures the rectangle itself
	outside int    // dimensions that measure in it and stand outside
}

// isFrame tells whether the evidence is enough. A rectangle round parts with
// holes needs less than one round plain contours, which may be windows.
func (w *borderWitness) isFrame(withHoles int) bool {
	switch {
	case w.table:
		return true
	case withHoles == 0:
		return w.words >= 2 && (w.sheet != "" || w.texts >= manyTexts)
	case w.sheet != "":
		return w.texts > 0 || w.dims > 0
	}
	return w.texts >= 2 || w.words > 0 || w.dims > 0
}

func (w *borderWitness) why() string {
	var list []string
	if w.table {
		list = append(list, "a table stands in it")
	}
	if w.sheet != "" {
		list = append(list, "it is a sheet of size "+w.sheet)
	}
	if w.texts > 0 {
		list = append(list, fmt.Sprintf("%d lines of text stand beside the parts", w.texts))
	}
	if w.dims > 0 {
		list = append(list, "the dimensions in it measure what lies in it")
	}
	return strings.Join(list, ", ")
}

// borderWitness gathers the evidence about a rectangle.
func (b *builder) borderWitness(i int) borderWitness {
	var w borderWitness
	l := &b.loops[i]
	if name, scale, ok := isSheet(l.box.Width(), l.box.Height()); ok {
		w.sheet = name
		if scale != 1 {
			w.sheet += fmt.Sprintf(" at a scale of %s", shortNumber(scale))
		}
	}
	holed := slices.ContainsFunc(l.children, func(c int) bool { return len(b.loops[c].children) > 0 })
	inChild := func(p geom.Point) bool {
		for _, c := range l.children {
			k := &b.loops[c]
			if holed && len(k.children) == 0 && isRectangle(k.ring) {
				continue // beside a part with holes this is the box of a text
			}
			if k.box.Contains(p) && k.ring.Inside(p, 1e-6) != geom.Out {
				return true
			}
		}
		return false
	}
	for k := range b.areas {
		a := &b.areas[k]
		if !a.frame && l.box.ContainsBox(a.box) && !inChild(a.box.Centre()) {
			w.table = true
		}
	}
	for k := range b.sheet.Texts {
		t := &b.sheet.Texts[k]
		if p := b.textMiddle(t); !l.box.Contains(p) || inChild(p) {
			continue
		}
		w.texts += 1 + strings.Count(strings.TrimSpace(t.Value), "\n")
		w.words += headingWords(t.Value)
	}
	mm := b.sheet.Units.MM
	tol := math.Max(0.1, 1e-4*math.Max(l.box.Width(), l.box.Height()))
	for k := range b.drawnDims {
		d := &b.drawnDims[k]
		from, to := d.from.Mul(mm), d.to.Mul(mm)
		if l.ring.Inside(from, tol) != geom.Out && l.ring.Inside(to, tol) != geom.Out && l.ring.Inside(d.line.Mul(mm), tol) == geom.Out {
			w.outside++
		}
		if l.ring.Inside(from, tol) == geom.On && l.ring.Inside(to, tol) == geom.On {
			w.ownSize = w.ownSize || d.drawn*mm >= 0.99*math.Min(l.box.Width(), l.box.Height())
			continue
		}
		for _, c := range l.children {
			if k := &b.loops[c]; len(k.children) > 0 && k.ring.Inside(from, tol) == geom.On && k.ring.Inside(to, tol) == geom.On {
				w.dims++
				break
			}
		}
	}
	return w
}

// boxesBeside tells whether all children of a loop but those with holes are
// rectangles.
func (b *builder) boxesBeside(i int) bool {
	for _, c := range b.loops[i].children {
		if b.ownChildren(c) == 0 && !isRectangle(b.loops[c].ring) {
			return false
		}
	}
	return true
}

// cornerBoxShare is how near a box must be to two lines of the frame to belong to
// it, as a share of the frame's longer side; views keep further off (common
// practice, no source).
const cornerBoxShare = 0.03

// takeCornerBoxes takes out boxes with a text in a corner of a frame that was
// taken out: a title block of one cell, a stamp.
func (b *builder) takeCornerBoxes() {
	b.settleChildren()
	for i := range b.loops {
		l := &b.loops[i]
		if l.dead || l.toolMark || l.parent >= 0 || len(l.children) > 0 || !isRectangle(l.ring) {
			continue
		}
		for k := range b.areas {
			f := b.areas[k].field
			if !b.areas[k].frame || !f.Grow(meshTolMM).ContainsBox(l.box) {
				continue
			}
			near := cornerBoxShare*math.Max(f.Width(), f.Height()) + meshTolMM
			level := l.box.Min.X-f.Min.X <= near || f.Max.X-l.box.Max.X <= near
			upright := l.box.Min.Y-f.Min.Y <= near || f.Max.Y-l.box.Max.Y <= near
			if !level || !upright || l.area > fieldShare*f.Width()*f.Height() || !slices.ContainsFunc(b.sheet.Texts, func(t Text) bool { return l.box.Contains(b.textMiddle(&t)) }) {
				continue
			}
			l.dead = true
			b.takenBoxes = append(b.takenBoxes, l.box)
			b.note(Note{Code: "table-taken-out", At: l.box.Min, HasAt: true, Source: l.sources(),
				Text: fmt.Sprintf("a rectangle of %s x %s mm with a text in a corner of the frame was taken for a box of the sheet", shortNumber(l.box.Width()), shortNumber(l.box.Height()))})
			break
		}
	}
}

// A nest leaves little of the sheet; openings leave more of a plate. Beyond the
// first share a sheet of stock size is doubted, beyond the second any rectangle
// whose openings differ (common practice, no source).
const (
	stockFilled = 0.45
	nestFilled  = 0.6
)

// doubtMarked doubts a rectangle with plain openings that could be plates laid
// on a sheet: most hold a text each, or they fill it and are not all alike.
func (b *builder) doubtMarked(i int) {
	l := &b.loops[i]
	marked := 0
	sum := 0.0
	alike := true
	for _, c := range l.children {
		k := &b.loops[c]
		if b.isRound(c) || len(k.children) > 0 {
			return
		}
		first := &b.loops[l.children[0]]
		sum += k.area
		alike = alike && math.Abs(k.area-first.area) <= 1e-3*first.area
		for x := range b.sheet.Texts {
			if p := b.textMiddle(&b.sheet.Texts[x]); k.box.Contains(p) && k.ring.Inside(p, 1e-6) == geom.In {
				marked++
				break
			}
		}
	}
	why := ""
	switch share := sum / l.area; {
	case len(l.children) < 2:
	case 2*marked >= len(l.children):
		why = "texts stand in its openings"
	case len(l.children) >= 3 && !alike && share >= nestFilled:
		why = fmt.Sprintf("its openings take %.0f %% of it", 100*share)
	case len(l.children) >= 3 && !alike && share >= stockFilled && isStockSheet(l.box.Width(), l.box.Height()):
		why = "it is as large as a sheet in stock"
	}
	if why == "" {
		return
	}
	b.borderDoubts = append(b.borderDoubts, borderDoubt{l.box, Doubt{Code: "maybe-frame", Grave: true, At: l.box.Min, Source: l.sources(),
		Text: fmt.Sprintf("the rectangle may be a plate with openings or the border of a sheet, for %s: read as a border there are %d parts, read as a plate 1", why, len(l.children))}})
}

// isStockSheet tells whether a rectangle is a sheet as mills sell it.
func isStockSheet(width, height float64) bool {
	for _, s := range sheetSizes() {
		if strings.Contains(s.name, " x ") && sameBox(longFirst(width, height), s.mm[0], s.mm[1], 1) {
			return true
		}
	}
	return false
}
