package section

import "math"

// signed is what stands before sizes and makes an angle of them.
type signed struct {
	letter bool // the bare letter L, which stands before lengths too
	word   string
	double bool
	sizes  int // where the sizes begin
}

// mention reads the angle whose sign, or whose sizes with a word after them,
// begin at rune i. The count before it is looked for back to from.
func (s *reader) mention(i, from int) (m Mention, end int, ok bool) {
	double := false
	start := i
	if g, is := s.sign(i); is && !(g.letter && s.isSide(i, from)) {
		z := s.chain(g.sizes)
		m, end, ok = s.interpret(z, g, 0)
		if !ok && g.word == "isa" {
			m, end, ok = s.indian(z)
		}
		double = g.double
	}
	if !ok {
		m, start, end, double, ok = s.named(i)
	}
	if !ok {
		return Mention{}, 0, false
	}
	if w, k := s.wordBefore(start, from); isDouble(w) {
		double, start = true, k
	}
	if first, n, glued := s.count(start, from); n > 0 {
		m.Count, start = n, first
		if glued && n == 2 {
			double = true
		}
	}
	if !double {
		double = s.backToBack(end)
	}
	m.Double = double
	end = s.length(&m, end)
	m.Text = s.piece(start, end)
	m.Listed = listed(m)
	return m, end, true
}

// isSide tells that the letter L at i stands for a length among the sizes of
// something else: "B 100 x L 200 x 10", "PLATE L 150x100x10".
func (s *reader) isSide(i, from int) bool {
	if w, _ := s.wordBefore(i, from); isFlatWord(w) {
		return true
	}
	k := i
	for k > from && s.at(k-1) == ' ' {
		k--
	}
	if k == from || !isTimes(s.at(k-1)) {
		return false
	}
	_, n, _ := s.count(i, from)
	return n == 0 || n > mostTimes
}

// mostTimes bounds a count before a multiplication sign; more is a width.
const mostTimes = 40

// sign reads the sign of an angle at i with the words up to its sizes.
func (s *reader) sign(i int) (g signed, ok bool) {
	if s.at(i) == '∠' {
		k := i + 1
		if s.at(k) == 's' {
			k++
		}
		k = s.spaces(k)
		return signed{sizes: k}, digitish(s.at(k))
	}
	if !letter(s.at(i)) {
		return signed{}, false
	}
	if c := s.at(i - 1); letter(c) && syllabic(s.at(i)) == syllabic(c) && !(c == 'x' && digit(s.at(i-2))) {
		return signed{}, false // within a word; "2xL75x75x8" has its count before it
	}
	w, k := s.word(i)
	if c := s.at(i + 1); w == "l" && c == '.' {
		k = i + 1 // "L.75x75x8"; the stop is looked at below
	}
	g.word = w
	switch {
	case w == "l" || w == "ls":
		if !s.mayStart(i) {
			return signed{}, false
		}
		g.letter = true
	case isAngleWord(w) || isDouble(w):
		if e, u := isLegWord(w); e || u {
			return signed{}, false
		}
	default:
		return signed{}, false
	}
	found := !isDouble(w) || w == "doppelwinkel"
	g.double = isDouble(w)
	for n := 0; n < 5; {
		switch c := s.at(k); {
		case c == ' ', c == '-', c == '.' && g.letter && n == 0 && !letter(s.at(k+1)), c == '(' && s.at(k+1) != '(', (c == ':' || c == '=' || c == ',') && !g.letter:
			if c != ' ' {
				n++
			}
			k++
		case c == '∠':
			k, found, g.letter = k+1, true, false
			n++
		case digitish(c):
			g.sizes = k
			return g, found
		case letter(c):
			w, next := s.word(k)
			switch {
			case isAngleWord(w):
				found, g.letter = true, false
			case w == "l" || w == "ls":
				found = true
			case g.letter && isProfileWord(w):
				g.letter = false
			case !g.letter && isAngleFiller(w):
			default:
				return signed{}, false
			}
			k = next
			n++
		default:
			return signed{}, false
		}
	}
	k = s.spaces(k)
	g.sizes = k
	return g, found && digitish(s.at(k))
}

// digitish tells that a number may begin with c.
func digitish(c rune) bool {
	_, is := vulgar(c)
	return is || digit(c) || c == '.'
}

// mayStart tells whether the letter L at i may be a sign by what stands
// directly before it: the names of drawings and parts ("A-L3", "B1/L2") have
// letters, figures and strokes there; a count has figures only.
func (s *reader) mayStart(i int) bool {
	k := i
	if s.at(k-1) == '-' || isTimes(s.at(k-1)) {
		k--
		if !digit(s.at(k-1)) && s.at(k-1) != ' ' && s.at(k-1) != 0 && s.at(k-1) != '\n' {
			return false
		}
	}
	for digit(s.at(k - 1)) {
		k--
	}
	switch c := s.at(k - 1); c {
	case 0, ' ', '\n', '(', '[', ',', ';', ':', '=', '+', '&', '"':
		return true
	case '-', '/', '_', '.', '#':
		return false
	default:
		return k == i && !letter(c) && !digit(c) || syllabic(c)
	}
}

// named reads sizes with a word for an angle after them: "75x75x8 RSA". The
// first number of a longer chain may be a count: "2 x 75 x 75 x 8 RSA".
func (s *reader) named(i int) (m Mention, start, end int, double, ok bool) {
	if !digitish(s.at(i)) {
		return Mention{}, 0, 0, false, false
	}
	switch c := s.at(i - 1); {
	case c == '-' && digit(s.at(i-2)): // "2-75x75x8 RSA"
	case letter(c), digit(c), c == '.', c == ',', c == '/', c == '-', c == '_':
		return Mention{}, 0, 0, false, false
	}
	z := s.chain(i)
	if len(z) < 2 {
		return Mention{}, 0, 0, false, false
	}
	word, k := "", s.spaces(z[len(z)-1].end)
	for n := 0; n < 4; n++ {
		w, next := s.word(k)
		equal, unequal := isLegWord(w)
		if equal || unequal || isAngleWord(w) {
			word, k = w, next
			break
		}
		if w == "" || !isAngleFiller(w) || w == "l" || w == "ls" {
			return Mention{}, 0, 0, false, false
		}
		double = double || isDouble(w)
		k = s.spaces(next)
	}
	if word == "" {
		return Mention{}, 0, 0, false, false
	}
	if g, is := s.sign(s.wordStart(k, word)); is && len(s.chain(g.sizes)) > 1 {
		return Mention{}, 0, 0, false, false // the word belongs to the sizes after it
	}
	if w, _ := s.wordBefore(i, 0); isOtherSection(w) {
		return Mention{}, 0, 0, false, false
	}
	equal, unequal := isLegWord(word)
	for skip := 0; skip < 2; skip++ {
		if skip == 1 && (len(z) < 3 || !z[0].whole || z[0].unit != "" || z[0].v < 1 || z[0].v > 99) {
			break
		}
		m, _, ok := s.interpret(z[skip:], signed{word: word}, k)
		if !ok || m.ThicknessMM == 0 || (equal || unequal) && (len(z)-skip < 3 || equal != (m.LegMM[0] == m.LegMM[1])) {
			continue
		}
		if skip == 1 {
			m.Count = int(z[0].v)
		}
		return m, i, k, double, true
	}
	return Mention{}, 0, 0, false, false
}

// wordStart gives the place of a word that ends before k, full stops included.
func (s *reader) wordStart(k int, word string) int {
	n := len([]rune(word))
	for k > 0 && n > 0 {
		if k--; letter(s.at(k)) {
			n--
		}
	}
	return k
}

// interpret makes a mention of sizes after a sign: two legs and a thickness,
// one leg and a thickness, or two legs alone; a further number is the length.
// end, if not 0, is where what names the angle ends; else it is the end of the
// last size that is used.
func (s *reader) interpret(z []size, g signed, end int) (m Mention, _ int, ok bool) {
	try := func(legs, n int) bool {
		if len(z) < n {
			return false
		}
		m, ok = sized(z[:n], legs, g)
		switch {
		case ok && end == 0:
			end = z[n-1].end // a length is read from here
		case ok && len(z) > n:
			s.setLength(&m, z[n])
		}
		return ok
	}
	if try(2, 3) || try(1, 2) || len(z) == 2 && try(2, 2) {
		return m, end, true
	}
	return Mention{}, 0, false
}

// sized makes a mention of sizes of which so many are legs, if an angle may
// have them. Units that are not told follow from the ones that are.
func sized(z []size, legs int, g signed) (m Mention, ok bool) {
	for _, s := range z {
		if s.v <= 0 {
			return Mention{}, false
		}
		m.Fraction = m.Fraction || s.inches()
		switch s.unit {
		case "mm", "cm":
			if m.Unit == "" {
				m.Unit = "mm"
			}
		case "in":
			m.Unit = "in"
		}
	}
	if m.Unit == "" && m.Fraction {
		m.Unit = "in"
	}
	value := func(s size) float64 {
		switch {
		case s.unit != "":
			return s.mm()
		case m.Unit == "in" || s.fraction:
			return tidy(s.v * mmPerInch)
		}
		return s.v
	}
	m.LegMM[0], m.LegMM[1] = value(z[0]), value(z[0])
	if legs == 2 {
		m.LegMM[1] = value(z[1])
	}
	if legs < len(z) {
		m.ThicknessMM = value(z[len(z)-1])
	}
	return m, isAngle(m, legs, g)
}

// Bounds of what may be an angle, rolled or folded, with room beyond all lists:
// their legs are from 12.7 to 305 mm, the thickness at most a quarter of the
// shorter leg.
const (
	leastLegMM   = 9
	mostLegMM    = 600
	leastThickMM = 0.4
	mostThick    = 0.4 // of the shorter leg
	mostRolledMM = 350 // leg that is believed after the bare letter L
)

// isAngle tells whether an angle may have these sizes. After the bare letter
// L, which stands before lengths and levels too, only sizes count that are an
// angle's without doubt.
func isAngle(m Mention, legs int, g signed) bool {
	inMM := m
	bareSmall := false // bare numbers that can only be inches
	if m.Unit == "" && max(m.LegMM[0], m.LegMM[1]) <= 14 {
		inMM, bareSmall = m.scaled(mmPerInch), true
	}
	long, short, t := max(inMM.LegMM[0], inMM.LegMM[1]), min(inMM.LegMM[0], inMM.LegMM[1]), inMM.ThicknessMM
	if short < leastLegMM || long > mostLegMM || long > 5*short {
		return false
	}
	if t == 0 {
		if len(FindLegs(long, short, 0.51)) == 0 {
			return false
		}
		return !g.letter || long == short && !bareSmall
	}
	if t < leastThickMM || t > mostThick*short {
		return false
	}
	name := listedName(inMM)
	switch {
	case name != "":
		// Two small whole numbers are a level or a grid more often than inches.
		return !(g.letter && bareSmall && legs == 1)
	case bareSmall && m.ThicknessMM == math.Trunc(m.ThicknessMM):
		return false // 1 in thick and not listed
	case !g.letter:
		return legs == 2 || t <= 0.25*short
	case legs == 1:
		return false // a length and a width, or a slot's
	}
	return long <= mostRolledMM
}

// indian reads the name of IS 808 in which the legs stand in one number: "ISA
// 5050x6", "ISA 10075x8".
func (s *reader) indian(z []size) (m Mention, end int, ok bool) {
	if len(z) < 2 || !z[0].whole || z[0].unit != "" || z[0].v < 2000 || z[0].v > 250250 {
		return Mention{}, 0, false
	}
	legs, by := int(z[0].v), 100
	if legs >= 100000 {
		by = 1000
	}
	first, second := z[0], z[0]
	first.v, second.v = float64(legs/by), float64(legs%by)
	second.unit = "mm" // the standard is metric
	return s.interpret(append([]size{first, second}, z[1:]...), signed{word: "isa"}, 0)
}
