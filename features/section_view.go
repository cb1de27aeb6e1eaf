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

// A section shows where a part was thought to be cut: of a plate a strip as thick
// as it, in pieces where the cut passes through holes; of a bent plate or an
// angle its profile. Its title, SECTION A-A, stands by it, and its letter at both
// ends of the line of the cut.

// sectionTitle is the title of a section.
type sectionTitle struct {
	text      *Text
	letter    string
	ratio     float64 // true over drawn size; 0 not stated
	word      bool    // it says that it is a section
	twice     bool    // A-A
	elsewhere int     // how often the letter stands by itself away from it
}

// sectionWord tells whether a folded word says section.
func sectionWord(w string) bool {
	switch strings.Trim(w, ".:") {
	case "section", "sect", "sec", "sectional", "schnitt", "coupe", "sezione", "sez", "seccion", "corte", "doorsnede", "doorsn", "snitt", "snit", "leikkaus", "przekroj", "rez", "metszet", "sectiune", "sectiunea", "разрез", "сечение":
		return true
	}
	return false
}

// readSection reads a text as the title of a section: the word with one letter or
// the same one twice, or the letter twice alone, and behind it at most a scale.
func readSection(text string) (sectionTitle, bool) {
	var s sectionTitle
	line, rest, _ := strings.Cut(strings.TrimSpace(text), "\n")
	if len(text) > 60 {
		return s, false
	}
	if f, word, ok := measure.ScaleNote(rest); rest != "" {
		if !ok || !word && !isRatio(strings.Trim(strings.TrimSpace(rest), "()[]")) {
			return s, false
		}
		s.ratio = f
	}
	words := strings.FieldsFunc(line, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("()[]\"", r) })
	if len(words) > 0 && sectionWord(foldText(words[0])) {
		s.word, words = true, words[1:]
		if len(words) > 0 && strings.EqualFold(words[0], "view") {
			words = words[1:]
		}
	}
	// A dash between the letters may stand by itself.
	letters, n := "", 0
	for n < len(words) && len([]rune(words[n])) <= 5 && !isRatio(words[n]) && n < 3 {
		if n > 0 && !isDash(words[n]) && !isDash(words[n-1]) {
			break
		}
		letters += words[n]
		n++
	}
	if s.letter, s.twice = sectionLetters(letters); s.letter == "" || !s.word && !s.twice {
		return s, false
	}
	if tail := strings.Join(words[n:], " "); tail != "" {
		f, word, ok := measure.ScaleNote(tail)
		if !ok || !word && !isRatio(tail) {
			return s, false
		}
		s.ratio = f
	}
	return s, true
}

func isDash(w string) bool { return strings.Trim(w, "-–—") == "" }

// sectionLetters reads A-A, A'-A', AA, 1-1, II-II and A.
func sectionLetters(w string) (letter string, twice bool) {
	w = strings.Trim(w, ".:,")
	halves := strings.FieldsFunc(w, func(r rune) bool { return strings.ContainsRune("-–—", r) })
	bare := func(h string) string { return strings.TrimRight(h, "'’´") }
	isName := func(h string) bool {
		r := []rune(h)
		return len(r) == 1 && (unicode.IsUpper(r[0]) || unicode.IsDigit(r[0])) || len(r) == 2 && unicode.IsUpper(r[0]) && unicode.IsDigit(r[1]) || len(r) <= 4 && len(r) > 1 && strings.Trim(h, "IVX") == ""
	}
	switch r := []rune(w); {
	case len(halves) == 2 && bare(halves[0]) == bare(halves[1]) && isName(bare(halves[0])):
		return bare(halves[0]), true
	case len(r) == 2 && r[0] == r[1] && unicode.IsUpper(r[0]):
		return w[:len(w)/2], true
	case len(r) == 1 && unicode.IsUpper(r[0]):
		return w, false // PLATE SECTION 1 is no letter's
	}
	return "", false
}

// foldText is a text in small letters without accents.
func foldText(text string) string {
	var out strings.Builder
	for _, r := range strings.ToLower(text) {
		out.WriteString(foldLetter(r))
	}
	return out.String()
}

// sectionTitles are the titles of sections outside tables.
func (b *builder) sectionTitles() []sectionTitle {
	var out []sectionTitle
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		s, ok := readSection(t.Value)
		if !ok || !(t.HeightMM > 0) || b.tableOf(t) >= 0 {
			continue
		}
		s.text = t
		reach := geom.Box{Min: t.At, Max: t.At}.Grow(titleHeights * t.HeightMM)
		for k := range b.sheet.Texts {
			o := &b.sheet.Texts[k]
			if v := strings.TrimRight(strings.TrimSpace(o.Value), "'’´"); v == s.letter && k != i && !reach.Contains(o.At) && b.tableOf(o) < 0 {
				s.elsewhere++
			}
		}
		if s.ratio == 0 {
			s.ratio = b.ratioUnder(t)
		}
		out = append(out, s)
	}
	return out
}

// ratioUnder is the scale that a text right under a title states, 0 none.
func (b *builder) ratioUnder(t *Text) float64 {
	for i := range b.sheet.Texts {
		o := &b.sheet.Texts[i]
		dx, dy := t.offTo(o)
		if dy < 0 && dy > -3*t.HeightMM && math.Abs(dx) <= t.HeightMM*float64(longestLine(t.Value)) {
			if f, word, ok := measure.ScaleNote(o.Value); ok && (word || isRatio(strings.Trim(strings.TrimSpace(o.Value), "()[]"))) {
				return f
			}
		}
	}
	return 0
}

// sectionView is what a title names: one outline, or the pieces of a strip that
// stand in a row.
type sectionView struct {
	loops   []int
	box     geom.Box
	thickMM float64 // as drawn, of the strip or the profile
}

// sectionViewOf is the view that an outline belongs to.
func (b *builder) sectionViewOf(i int, tops []int) sectionView {
	l := &b.loops[i]
	v := sectionView{loops: []int{i}, box: l.box}
	if d := l.ring.Length()*l.ring.Length()/16 - l.area; d >= 0 {
		v.thickMM = l.ring.Length()/4 - math.Sqrt(d)
	}
	if !b.isPiece(i) {
		return v
	}
	for _, level := range [2]bool{true, false} {
		row := sectionView{box: l.box}
		for _, k := range tops {
			p, q := &b.loops[k].box, &l.box
			low, high := math.Abs(p.Min.Y-q.Min.Y), math.Abs(p.Max.Y-q.Max.Y)
			if !level {
				low, high = math.Abs(p.Min.X-q.Min.X), math.Abs(p.Max.X-q.Max.X)
			}
			if low <= viewAlignMM && high <= viewAlignMM && b.isPiece(k) {
				row.loops, row.box = append(row.loops, k), row.box.Union(*p)
			}
		}
		row.thickMM = l.box.Height()
		if !level {
			row.thickMM = l.box.Width()
		}
		if len(row.loops) > len(v.loops) {
			v = row
		}
	}
	return v
}

// isPiece tells of a rectangle along the axes with nothing in it.
func (b *builder) isPiece(i int) bool {
	l := &b.loops[i]
	return !l.dead && !l.leg && len(l.children) == 0 && isRectangle(l.ring) && math.Abs(l.box.Width()*l.box.Height()-l.area) <= 1e-3*l.area
}

// underSection is the view that a title stands over or under, false none. What was
// taken out and stands nearer has the title.
func (b *builder) underSection(t *Text, tops []int) (sectionView, bool) {
	middle := b.textMiddle(t)
	sin, cos := math.Sincos(t.AngleRad)
	middle = middle.Add(geom.Point{X: cos, Y: sin}.Mul(t.HeightMM / 3 * float64(longestLine(t.Value))))
	best, found := titleHeights*t.HeightMM, sectionView{}
	for i := range b.takenBoxes {
		best = math.Min(best, boxDist(b.takenBoxes[i], middle))
	}
	for _, i := range tops {
		if b.loops[i].dead || b.loops[i].box.Contains(middle) {
			continue
		}
		v := b.sectionViewOf(i, tops)
		wide := v.box.Grow(2 * t.HeightMM)
		if inX, inY := middle.X >= wide.Min.X && middle.X <= wide.Max.X, middle.Y >= wide.Min.Y && middle.Y <= wide.Max.Y; !inX && math.Abs(cos) > 0.7 || !inY && math.Abs(sin) > 0.7 {
			continue
		}
		if d := boxDist(v.box, middle); d < best {
			best, found = d, v
		}
	}
	return found, found.loops != nil
}

// takeSections takes out the outlines that a title names as a section. One is
// sure if nothing is cut in it, it is a strip or a profile as thick as a plate is
// said to be, or, where no text says, thin and told by its letter at the parent
// view or by hatching. Any other stays a part and is doubted; one outline is left
// at least.
func (b *builder) takeSections() error {
	titles := b.sectionTitles()
	if len(titles) == 0 {
		return nil
	}
	tops := b.viewOutlines()
	if tops == nil {
		return nil
	}
	stated := b.statedThicknesses()
	for _, v := range b.edgeViews {
		stated = append(stated, v.thickMM*b.factorOf(v.of))
	}
	for k := range titles {
		t := &titles[k]
		if err := b.ctx.Err(); err != nil {
			return err
		}
		v, ok := b.underSection(t.text, tops)
		if !ok || b.loops[v.loops[0]].leg {
			continue
		}
		var left []int
		for _, i := range tops {
			if l := &b.loops[i]; !l.dead && !slices.Contains(v.loops, i) && b.couldShow(l, &v, t) {
				left = append(left, i)
			}
		}
		if len(left) == 0 || !t.word && t.elsewhere < 2 {
			continue
		}
		var src []Source
		for _, i := range v.loops {
			src = append(src, b.loops[i].sources()...)
		}
		size := fmt.Sprintf("%s x %s mm", shortNumber(v.box.Width()), shortNumber(v.box.Height()))
		if !b.isSection(&v, t, stated) {
			for _, i := range v.loops {
				b.loopDoubts = append(b.loopDoubts, loopDoubt{i, Doubt{Code: "maybe-section", Grave: true, At: b.loops[i].box.Min, Source: b.loops[i].sources(),
					Text: fmt.Sprintf("this outline stands with the title %q: it may be a section of another part", clip(t.text.Value))}})
			}
			continue
		}
		for _, i := range v.loops {
			b.loops[i].dead = true
		}
		if l := &b.loops[v.loops[0]]; !isRectangle(l.ring) && len(left) == 1 && !b.loops[left[0]].leg && !b.hasBends() {
			b.loopDoubts = append(b.loopDoubts, loopDoubt{left[0], Doubt{Code: "maybe-section", Grave: true, At: v.box.Min, Source: l.sources(),
				Text: fmt.Sprintf("the section of %s with the title %q is no straight strip: the part may be bent, or rolled, and this outline a view of it", size, clip(t.text.Value))}})
		}
		b.takenBoxes = append(b.takenBoxes, v.box)
		b.detailBoxes = append(b.detailBoxes, v.box.Grow(t.text.HeightMM))
		what := "the outline of " + size
		if len(v.loops) > 1 {
			what = fmt.Sprintf("the %d outlines in a row of %s", len(v.loops), size)
		}
		b.note(Note{Code: "section-view", At: v.box.Min, HasAt: true, Source: append(src, t.text.Source), Count: len(v.loops),
			Text: fmt.Sprintf("%s by the title %q show a section of a part and no part; left out", what, clip(t.text.Value))})
	}
	b.settleChildren()
	return nil
}

// couldShow tells whether an outline is large enough to be the part that a
// section is of.
func (b *builder) couldShow(l *loop, v *sectionView, t *sectionTitle) bool {
	enlarged := 1.0
	if t.ratio > 0 {
		enlarged = 1 / t.ratio
	}
	long := math.Max(v.box.Width(), v.box.Height())
	return math.Max(l.box.Width(), l.box.Height()) >= (long-viewAlignMM)/math.Max(enlarged, 1) && l.area > v.thickMM*v.thickMM
}

// isSection tells whether a view that a title names is a section for sure.
func (b *builder) isSection(v *sectionView, t *sectionTitle, stated []float64) bool {
	for _, i := range v.loops {
		if len(b.loops[i].children) > 0 {
			return false
		}
	}
	long := math.Max(v.box.Width(), v.box.Height())
	if !(v.thickMM > 0) {
		return false
	}
	hatched := b.isHatched(v)
	ratios := []float64{1, b.factorOf(v.loops[0])}
	if t.ratio > 0 {
		ratios = append(ratios, t.ratio)
	}
	for _, mm := range stated {
		for _, f := range ratios {
			if math.Abs(v.thickMM*f-mm) <= 0.05 {
				return true
			}
		}
	}
	if v.thickMM > long/2 {
		return false
	}
	if len(stated) > 0 {
		return hatched && t.elsewhere > 0
	}
	return hatched || t.elsewhere > 0 && v.thickMM <= viewShare*long
}

// isHatched tells whether lines of hatching lie in a view.
func (b *builder) isHatched(v *sectionView) bool {
	n := 0
	for i := range b.items {
		if it := &b.items[i]; it.class != classNoise || it.what != hatchTaken {
			continue
		}
		for _, in := range b.inputs[b.start[i]:b.start[i+1]] {
			if v.box.Contains(in.Edge.Mid()) {
				n++
			}
		}
	}
	return n >= 3
}

// hasBends tells whether lines are told as bends by their layer.
func (b *builder) hasBends() bool {
	return slices.ContainsFunc(b.items, func(it item) bool { return it.class == classBend })
}
