package features

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"burrside/features/geom"
	"burrside/features/join"
	"burrside/features/measure"
)

// Signs of the drawing that close and so could pass for parts: item balloons,
// boxes round a text, the cone of the projection method, circles round details.
// What is a sign is told by the texts in it and by where it stands; to know
// whether that is on a part, the lines are joined once on trial.

const (
	symbolTaken = "symbol"
	// A balloon is one to four times as wide as the text in it is high; a disc
	// with a mark on it is wider (common practice, no source).
	balloonLeast = 0.2
	balloonMost  = 0.85
	// A circle about a letter without a leader is a sign if it is no wider than
	// this many times the letter's height.
	tightBalloon = 3.2
	// The text in a box fills this share of it or more, both ways (common
	// practice, no source).
	boxFilled = 1.0 / 3
	// The cone of the projection method is this wide at most: 60 mm on paper,
	// or a dozen times the height of the texts.
	coneMM      = 60.0
	coneHeights = 12.0
	// leaderMM is how far a leader may miss what it ends on.
	leaderMM = 0.2
)

// signs looks for signs among the contours of a trial join.
type signs struct {
	b         *builder
	res       *join.Result
	rings     []geom.Ring
	boxes     []geom.Box
	areas     []float64
	children  [][]int
	texts     [][]int // by contour: those that stand in it and in no contour within
	usual     float64 // usual height of the texts
	inContour map[int32]bool
	drawing   bool // dimensions or a frame show that it is to be read, not cut
	taken     map[int32]bool
	doubted   map[int]bool
	count     map[string]int
	at        map[string]geom.Point
}

// takeSymbols takes out signs before the lines are joined.
func (b *builder) takeSymbols() error {
	if !b.maybeSigns() {
		return nil
	}
	isCut := func(it *item) bool { return it.class == classCut }
	res, err := b.join(b.inputsOf(isCut))
	if err != nil || len(res.Contours) < 2 {
		return err
	}
	s := signs{b: b, res: res, inContour: map[int32]bool{}, taken: map[int32]bool{}, doubted: map[int]bool{}, count: map[string]int{}, at: map[string]geom.Point{}}
	s.drawing = len(b.drawnDims) > 0 || len(b.areas) > 0
	s.prepare()
	s.stamps()
	s.northArrows()
	s.triangles()
	s.weldSigns()
	s.toleranceFrames()
	s.isometrics()
	s.balloons()
	s.scaleBars()
	s.boxed()
	s.notesBoxes()
	s.cones()
	s.details()
	return s.finish()
}

// maybeSigns tells whether a trial is worth while: without a text nothing but the
// sign of the projection method can be told, and a drawing of so many lines and texts is a map of something else.
func (b *builder) maybeSigns() bool {
	const most = 20_000_000 // texts times lines, which are looked at for each
	if len(b.sheet.Texts) == 0 {
		return b.maybeCone()
	}
	if len(b.sheet.Texts)*len(b.inputs) > most {
		return false
	}
	cut := 0
	for i := range b.items {
		if b.items[i].class == classCut {
			cut++
		}
	}
	return cut > 1
}

func (s *signs) prepare() {
	b := s.b
	n := len(s.res.Contours)
	s.rings, s.boxes, s.areas = make([]geom.Ring, n), make([]geom.Box, n), make([]float64, n)
	s.children, s.texts = make([][]int, n), make([][]int, n)
	for i := range s.res.Contours {
		c := &s.res.Contours[i]
		s.rings[i] = c.Ring()
		s.boxes[i], s.areas[i] = s.rings[i].Bounds(), s.rings[i].Area()
		if c.Parent >= 0 && !c.ToolMark {
			s.children[c.Parent] = append(s.children[c.Parent], i)
		}
		for _, p := range c.Pieces {
			for _, src := range p.Sources {
				s.inContour[src] = true
			}
		}
	}
	var heights []float64
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if t.HeightMM > 0 {
			heights = append(heights, t.HeightMM)
		}
		if k := s.around(b.textMiddle(t)); k >= 0 {
			s.texts[k] = append(s.texts[k], i)
		}
	}
	slices.Sort(heights)
	if len(heights) > 0 {
		s.usual = heights[len(heights)/2]
	}
}

// around is the least contour that holds a point, -1 if none does.
func (s *signs) around(p geom.Point) int {
	best := -1
	for i := range s.rings {
		if s.boxes[i].Contains(p) && (best < 0 || s.areas[i] < s.areas[best]) && s.rings[i].Inside(p, 1e-6) == geom.In {
			best = i
		}
	}
	return best
}

// onMetal tells whether a contour lies within another that may be a part: one
// that is no border, which holds contours that hold contours, or a table.
func (s *signs) onMetal(i int) bool {
	if s.res.Contours[i].ToolMark {
		return true
	}
	for p := s.res.Contours[i].Parent; p >= 0; p = s.res.Contours[p].Parent {
		if !s.isBorder(p) {
			return true
		}
	}
	return false
}

func (s *signs) isBorder(p int) bool {
	if !isRectangle(s.rings[p]) {
		return false
	}
	for k := range s.b.areas {
		if s.boxes[p].ContainsBox(s.b.areas[k].box) {
			return true
		}
	}
	return slices.ContainsFunc(s.children[p], func(c int) bool {
		return slices.ContainsFunc(s.children[c], func(d int) bool { return len(s.texts[d]) == 0 })
	})
}

// circleOf is the circle that a contour of arcs about one centre is.
func circleOf(r geom.Ring) (c geom.Point, radius float64, ok bool) {
	for i, e := range r {
		if !e.IsArc() {
			return c, 0, false
		}
		if i == 0 {
			c, radius = e.Centre, e.Radius
		} else if e.Centre.Dist(c) > 1e-3*radius || math.Abs(e.Radius-radius) > 1e-3*radius {
			return c, 0, false
		}
	}
	return c, radius, len(r) > 0 && len(r) <= 4
}

// balloons finds circles and small polygons round a short text.
func (s *signs) balloons() {
	type found struct {
		contour int
		size    float64
		leaders []int32
		tight   bool
		mark    bool
		text    string // its only text
	}
	var list []found
	for i, r := range s.rings {
		if len(s.texts[i]) == 0 || len(s.texts[i]) > 2 || s.onMetal(i) || len(r) > 6 || s.takenContour(i) {
			continue
		}
		c, radius, ok := circleOf(r)
		if !ok {
			square := len(r) == 4 && isRectangle(r) && s.isSquareMark(i)
			if len(r) < 3 || len(r) == 4 && isRectangle(r) && !square || slices.ContainsFunc(r, geom.Edge.IsArc) {
				continue
			}
			c, radius = s.boxes[i].Centre(), math.Sqrt(r.Area()/math.Pi)
		}
		high, short, mark := 0.0, true, false
		for _, x := range s.texts[i] {
			t := &s.b.sheet.Texts[x]
			high = math.Max(high, t.HeightMM)
			_, plate := measure.PlateNote(t.Value)
			mark = mark || isMark(t.Value)
			short = short && len([]rune(t.Value)) <= 4 && !plate && s.b.textMiddle(t).Dist(c) <= radius
		}
		if !short || high < balloonLeast*2*radius || high > balloonMost*2*radius {
			continue
		}
		f := found{contour: i, size: 2 * radius, tight: 2*radius <= tightBalloon*high, mark: mark, leaders: s.leadersOn(i, high)}
		if len(s.texts[i]) == 1 {
			f.text = strings.TrimSpace(s.b.sheet.Texts[s.texts[i][0]].Value)
		}
		list = append(list, f)
	}
	if len(list) == 0 || len(list) == len(s.rings) {
		return
	}
	for i := range list {
		f := &list[i]
		alike, otherMark := 0, false
		for k := range list {
			if o := &list[k]; math.Abs(o.size-f.size) <= 0.01*f.size {
				alike++
				otherMark = otherMark || o.mark && o.text != f.text && len(s.rings[o.contour]) == len(s.rings[f.contour])
			}
		}
		// Different marks in equal figures beside larger outlines name those.
		marks := s.drawing && f.mark && f.text != "" && otherMark && s.besideLarger(f.contour, f.size)
		rectangle := isRectangle(s.rings[f.contour])
		// A mark without a leader may be a part's; what is no mark is a number or
		// a letter of the drawing, if it is one.
		if rectangle && len(f.leaders) == 0 && !marks {
			continue // see boxed
		}
		if len(f.leaders) == 0 && !marks && !(s.drawing && !f.mark && (f.tight || alike >= 2)) {
			l := s.boxes[f.contour]
			s.b.borderDoubts = append(s.b.borderDoubts, borderDoubt{l.Grow(0.01), Doubt{Code: "maybe-balloon", Grave: true, At: l.Min, Source: s.sources(f.contour),
				Text: fmt.Sprintf("a closed line %s mm wide with a short text in it: an item number of the drawing, or a marked part", shortNumber(f.size))}})
			continue
		}
		s.take(f.contour, "balloon")
		for _, it := range f.leaders {
			s.takeItem(it)
		}
	}
}

// leadersOn finds the open lines that end on a contour from outside, with what
// goes on from them and their arrow heads.
func (s *signs) leadersOn(k int, high float64) []int32 {
	var out []int32
	r := s.rings[k]
	box := s.boxes[k].Grow(leaderMM)
	on := func(p geom.Point) bool { return box.Contains(p) && r.Inside(p, leaderMM) == geom.On }
	off := func(p geom.Point) bool { return !box.Contains(p) || r.Inside(p, leaderMM) == geom.Out }
	// A leader points into a balloon and at the side of a box; an
	// extension line runs past the one and from a corner of the other.
	c, _, round := circleOf(r)
	corners := r.Simplify(1e-3)
	if !round && len(corners) > 4 {
		c, round = s.boxes[k].Centre(), true // a hexagon about a mark is pointed into like a circle
	}
	points := func(p, from geom.Point) bool {
		if round {
			return from.Sub(p).Unit().Dot(p.Sub(c).Unit()) > 0.3
		}
		return !slices.ContainsFunc(corners, func(e geom.Edge) bool { return e.From.Dist(p) <= leaderMM })
	}
	for i := range s.b.items {
		from, to, ok := s.openEnds(int32(i))
		switch {
		case !ok:
		case on(from) && off(to) && points(from, to):
			out = append(out, int32(i))
			out = append(out, s.follow(to, int32(i), high)...)
		case on(to) && off(from) && points(to, from):
			out = append(out, int32(i))
			out = append(out, s.follow(from, int32(i), high)...)
		}
	}
	return out
}

// openEnds gives the ends of a line or an open polyline that bounds nothing.
func (s *signs) openEnds(i int32) (from, to geom.Point, ok bool) {
	b := s.b
	it := &b.items[i]
	in := b.inputs[b.start[i]:b.start[i+1]]
	if it.class != classCut || len(in) == 0 || len(in) > 6 || s.inContour[it.info] || in[0].Closed {
		return from, to, false
	}
	return in[0].Edge.From, in[len(in)-1].Edge.To, true
}

// follow gives what goes on from the end of a leader: one more line at an
// elbow, or the strokes of an arrow head.
func (s *signs) follow(p geom.Point, from int32, high float64) []int32 {
	var out []int32
	for range 3 {
		var next, barbs []int32
		var end geom.Point
		for i := range s.b.items {
			f, t, ok := s.openEnds(int32(i))
			if !ok || int32(i) == from || slices.Contains(out, int32(i)) {
				continue
			}
			if t.Dist(p) <= leaderMM {
				f, t = t, f
			}
			if f.Dist(p) > leaderMM {
				continue
			}
			if f.Dist(t) <= 1.5*high {
				barbs = append(barbs, int32(i))
				continue
			}
			next = append(next, int32(i))
			end = t
		}
		out = append(out, barbs...)
		if len(next) != 1 {
			break
		}
		out = append(out, next[0])
		from, p = next[0], end
	}
	return out
}

// boxed finds rectangles that are filled by a text.
func (s *signs) boxed() {
	for i, r := range s.rings {
		if len(s.texts[i]) == 0 || len(s.children[i]) > 0 || !isRectangle(r) || s.res.Contours[i].ToolMark || s.takenContour(i) {
			continue
		}
		lines, longest, high := 0, 0, 0.0
		plate, mark := false, false
		for _, x := range s.texts[i] {
			t := &s.b.sheet.Texts[x]
			rows := strings.Split(strings.TrimSpace(t.Value), "\n")
			lines += len(rows)
			high = math.Max(high, t.HeightMM)
			for _, row := range rows {
				longest = max(longest, len([]rune(row)))
				_, ok := measure.PlateNote(row)
				plate = plate || ok
				mark = mark || isMark(row)
			}
		}
		if high <= 0 || s.onMetal(i) || s.onlyOne(i) {
			continue
		}
		long, short := sidesOf(r)
		// Letters are some 0.7 of their height wide; a long line of an MTEXT
		// is broken at the width of its column, which fills the box as well.
		wide := 0.7 * high * float64(longest) / long
		tall := high * float64(lines) * math.Max(1, math.Floor(wide)) / short
		if tall < boxFilled || wide < boxFilled {
			continue
		}
		leaders := s.leadersOn(i, high)
		small := long <= 4*high && s.drawing && !mark
		if len(leaders) > 0 || (longest >= 12 || small) && (!plate || lines > 1 && longest >= 12) {
			s.take(i, "box round a text")
			for _, l := range leaders {
				s.takeItem(l)
			}
			continue
		}
		box := s.boxes[i]
		s.doubted[i] = true
		s.b.borderDoubts = append(s.b.borderDoubts, borderDoubt{box.Grow(0.01), Doubt{Code: "maybe-text-box", Grave: true, At: box.Min, Source: s.sources(i),
			Text: fmt.Sprintf("a rectangle of %s x %s mm with a text in it: a box round the text, or a marked part", shortNumber(long), shortNumber(short))}})
	}
}

// sidesOf gives the sides of a rectangle, the longer first.
func sidesOf(r geom.Ring) (long, short float64) {
	r = r.Simplify(1e-3)
	a, b := r[0].Length(), r[1].Length()
	return math.Max(a, b), math.Min(a, b)
}

// onlyOne tells whether no contour but signs is left beside this one.
func (s *signs) onlyOne(i int) bool {
	for k := range s.rings {
		if k != i && !s.takenContour(k) && s.areas[k] > s.areas[i] {
			return false
		}
	}
	return true
}

func (s *signs) takenContour(k int) bool {
	p := s.res.Contours[k].Pieces
	if len(p) == 0 || len(p[0].Sources) == 0 {
		return false
	}
	it, ok := s.b.itemIndex(p[0].Sources[0])
	return ok && s.taken[it]
}

// cones finds the truncated cone with its two circles that names the method of
// projection (ISO 128-30, ISO 5456-2).
func (s *signs) cones() {
	most := math.Max(coneMM, coneHeights*s.usual)
	for i, r := range s.rings {
		a, b, axis, ok := coneOf(r)
		if !ok || s.boxes[i].Width() > most || s.boxes[i].Height() > most {
			continue
		}
		for k := range s.rings {
			c, big, ok := circleOf(s.rings[k])
			if !ok || math.Abs(2*big-a) > 0.05*a || axis.Dist(c) > 4*a || len(s.children[k]) != 1 {
				continue
			}
			in, small, ok := circleOf(s.rings[s.children[k][0]])
			if !ok || in.Dist(c) > 0.02*a || math.Abs(2*small-b) > 0.1*a || axis.Bounds().Min.Dist(c) < big {
				continue
			}
			s.take(i, "sign of the projection method")
			if h := coneProjection(r, c); h != HandNone {
				s.b.projections = append(s.b.projections, projection{h, c})
			}
			s.take(k, "")
			s.take(s.children[k][0], "")
			s.takeWithin(s.boxes[i].Union(s.boxes[k]).Grow(0.4 * a))
			break
		}
	}
}

// maybeCone tells whether circles about one centre are drawn, which the sign of
// the projection method is half of, and little enough else.
func (b *builder) maybeCone() bool {
	const most = 2000 // edges; signs are tried in pairs
	if len(b.inputs) > most {
		return false
	}
	seen := map[centreCell]bool{}
	for i := range b.items {
		in := b.inputs[b.start[i]:b.start[i+1]]
		if b.items[i].class != classCut || len(in) == 0 || !in[0].Edge.IsArc() {
			continue
		}
		c := centreCellOf(in[0].Edge.Centre)
		if seen[c] {
			return true
		}
		seen[c] = true
	}
	return false
}

// coneOf tells whether a ring is an isosceles trapezium, and gives its parallel
// sides, the longer first, and its axis as a line long enough to run through
// the circles beside it.
func coneOf(r geom.Ring) (long, short float64, axis geom.Edge, ok bool) {
	r = r.Simplify(1e-3)
	if len(r) != 4 {
		return 0, 0, axis, false
	}
	for i := range 2 {
		p, q := r[i], r[i+2]
		s, t := r[(i+1)%4], r[(i+3)%4]
		if p.IsArc() || q.IsArc() || s.IsArc() || t.IsArc() || math.Abs(p.StartDir().Cross(q.StartDir())) > 0.01 || math.Abs(s.StartDir().Cross(t.StartDir())) < 0.05 {
			continue
		}
		if math.Abs(s.Length()-t.Length()) > 0.01*s.Length() {
			continue
		}
		long, short = math.Max(p.Length(), q.Length()), math.Min(p.Length(), q.Length())
		m, n := p.Mid(), q.Mid()
		d := n.Sub(m).Unit().Mul(8 * long)
		return long, short, geom.LineEdge(m.Sub(d), n.Add(d)), short > 0.2*long && short < 0.95*long
	}
	return 0, 0, axis, false
}

// details finds circles round a detail that a text names: the one that marks
// it on the part, and the one that bounds the enlarged view.
func (s *signs) details() {
	letters := map[string]bool{}
	var titles []int
	for i := range s.b.sheet.Texts {
		if l := detailLetter(s.b.sheet.Texts[i].Value); l != "" {
			letters[l] = true
			titles = append(titles, i)
		}
	}
	if len(titles) == 0 {
		return
	}
	for i, r := range s.rings {
		c, radius, ok := circleOf(r)
		if !ok || s.takenContour(i) {
			continue
		}
		for x := range s.b.sheet.Texts {
			t := &s.b.sheet.Texts[x]
			off := math.Abs(s.b.textMiddle(t).Dist(c) - radius)
			if letters[strings.TrimSpace(t.Value)] && off <= 4*t.HeightMM && radius > t.HeightMM {
				s.take(i, "circle round a detail")
				break
			}
		}
		if s.takenContour(i) || s.onMetal(i) || !s.hasLines(i) {
			continue
		}
		for _, x := range titles {
			t := &s.b.sheet.Texts[x]
			if math.Abs(t.At.X-c.X) <= 2*radius && math.Abs(t.At.Y-c.Y) <= 1.5*radius+6*t.HeightMM {
				s.take(i, "enlarged detail")
				s.takeWithin(s.boxes[i].Grow(leaderMM))
				break
			}
		}
	}
}

// hasLines tells whether open lines end on a contour from within.
func (s *signs) hasLines(i int) bool {
	for k := range s.res.Dividers {
		if s.res.Dividers[k].Contour == i {
			return true
		}
	}
	return slices.ContainsFunc(s.res.Chains, func(c join.Chain) bool { return c.Inside == i && (c.OnContour[0] == i || c.OnContour[1] == i) })
}

// detailLetter reads the letter of the title of an enlarged view: "DETAIL A",
// "Einzelheit X (2:1)", "B (5:1)"; "" if it is none.
func detailLetter(text string) string {
	words := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("()[]", r) })
	named := false
	for i, w := range words {
		switch strings.ToLower(w) {
		case "detail", "einzelheit", "détail", "detalle", "dettaglio", "detalhe", "detalj", "szczegół", "деталь", "вид":
			named = true
			continue
		}
		if r := []rune(w); len(r) == 1 && unicode.IsUpper(r[0]) && (named || i+1 < len(words) && isRatio(words[i+1])) {
			return w
		}
	}
	return ""
}

// isRatio tells whether a word is a scale: "2:1".
func isRatio(w string) bool {
	a, b, ok := strings.Cut(w, ":")
	if !ok {
		return false
	}
	_, x := plainNumber(a)
	_, y := plainNumber(b)
	return x && y
}

// take takes the entities of a contour out and counts it.
func (s *signs) take(i int, what string) {
	for _, p := range s.res.Contours[i].Pieces {
		for _, src := range p.Sources {
			if it, ok := s.b.itemIndex(src); ok {
				s.taken[it] = true
			}
		}
	}
	if what == "" {
		return
	}
	if s.count[what]++; s.count[what] == 1 || comparePlace(s.boxes[i].Min, s.at[what]) < 0 {
		s.at[what] = s.boxes[i].Min
	}
}

func (s *signs) takeItem(i int32) { s.taken[i] = true }

// takeWithin takes everything that lies in a box.
func (s *signs) takeWithin(box geom.Box) {
	b := s.b
	for i := range b.items {
		in := b.inputs[b.start[i]:b.start[i+1]]
		all := len(in) > 0 && b.items[i].class == classCut
		for k := range in {
			all = all && box.ContainsBox(in[k].Edge.Bounds())
		}
		if all {
			s.taken[int32(i)] = true
		}
	}
}

func (s *signs) sources(i int) []Source {
	var all []int32
	for _, p := range s.res.Contours[i].Pieces {
		all = append(all, p.Sources...)
	}
	return sourcesOf(all)
}

// finish enters what was taken, unless no contour would be left.
func (s *signs) finish() error {
	left := false
	for i := range s.rings {
		left = left || !s.takenContour(i)
	}
	if !left {
		return nil
	}
	for i := range s.taken {
		it := &s.b.items[i]
		it.class, it.strength, it.what = classNoise, sure, symbolTaken
	}
	kinds := make([]string, 0, len(s.count))
	for k := range s.count {
		kinds = append(kinds, k)
	}
	slices.Sort(kinds)
	for _, k := range kinds {
		s.b.note(Note{Code: "symbol-taken-out", At: s.at[k], HasAt: true, Count: s.count[k],
			Text: fmt.Sprintf("signs of the drawing that are no parts were left out: %d times a %s", s.count[k], k)})
	}
	return nil
}

// itemIndex is the place of the item that an entity number stands for.
func (b *builder) itemIndex(info int32) (int32, bool) {
	i, ok := slices.BinarySearchFunc(b.items, info, func(it item, x int32) int { return int(it.info) - int(x) })
	return int32(i), ok
}
