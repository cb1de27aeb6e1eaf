package section

import (
	"strconv"
	"unicode"
)

// reader holds a text brought to one form, rune by rune, with the place of each
// rune in the text.
type reader struct {
	text     string
	r        []rune
	from, to []int // byte offsets of each rune
}

func newReader(text string) *reader {
	s := &reader{text: text}
	for i, c := range text {
		f, ok := fold(c)
		if !ok {
			continue
		}
		if k := len(s.to); k > 0 {
			s.to[k-1] = i
		}
		s.r, s.from, s.to = append(s.r, f), append(s.from, i), append(s.to, len(text))
	}
	return s
}

// piece is the text of the runes from i up to end.
func (s *reader) piece(i, end int) string {
	if i >= end {
		return ""
	}
	return s.text[s.from[i]:s.to[end-1]]
}

func (s *reader) at(i int) rune {
	if i < 0 || i >= len(s.r) {
		return 0
	}
	return s.r[i]
}

// fold brings letters to small ones without accents and the ways to write a
// sign to one. ok is false for what is left out: accents that stand for
// themselves and what takes no room.
func fold(c rune) (f rune, ok bool) {
	if 'A' <= c && c <= 'Z' {
		return c + 'a' - 'A', true
	}
	if ' ' <= c && c < 0x7f && c != '*' && c != '`' {
		return c, true
	}
	switch c {
	case '\n', '\r', '\u2028', '\u2029':
		return '\n', true
	case '×', '✕', '⨯', '✖', '*':
		return '×', true
	case 'х', 'Х': // Cyrillic
		return 'x', true
	case '\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2212':
		return '-', true
	case '\u2032', '\u2018', '\u2019', '\u00b4', '`':
		return '\'', true
	case '\u2033', '\u201c', '\u201d', '\u201e':
		return '"', true
	case '\u2044', '\u2215':
		return '/', true
	case '∟', '└', '⌞', '⦜', '⊾', '⎿':
		return '∠', true
	case '\u200b', '\u200c', '\u200d', '\ufeff', '\u2060':
		return 0, false
	}
	if unicode.Is(unicode.Mn, c) {
		return 0, false
	}
	if unicode.IsSpace(c) {
		return ' ', true
	}
	return bare(unicode.ToLower(c)), true
}

// bare takes the accent off a small letter of the languages that the words of
// this package are in.
func bare(c rune) rune {
	switch c {
	case 'á', 'à', 'â', 'ä', 'ã', 'å', 'ą', 'ă':
		return 'a'
	case 'ç', 'ć', 'č':
		return 'c'
	case 'ď':
		return 'd'
	case 'é', 'è', 'ê', 'ë', 'ę', 'ě':
		return 'e'
	case 'í', 'ì', 'î', 'ï', 'ı':
		return 'i'
	case 'ł':
		return 'l'
	case 'ñ', 'ń', 'ň':
		return 'n'
	case 'ó', 'ò', 'ô', 'ö', 'õ', 'ő', 'ø':
		return 'o'
	case 'ř':
		return 'r'
	case 'ś', 'š', 'ş', 'ș':
		return 's'
	case 'ť', 'ț':
		return 't'
	case 'ú', 'ù', 'û', 'ü', 'ű', 'ů':
		return 'u'
	case 'ý':
		return 'y'
	case 'ź', 'ż', 'ž':
		return 'z'
	case 'ё':
		return 'е'
	}
	return c
}

func digit(c rune) bool { return c >= '0' && c <= '9' }

func letter(c rune) bool { return unicode.IsLetter(c) }

// spaces gives the place after the spaces at i; a new line is none.
func (s *reader) spaces(i int) int {
	for s.at(i) == ' ' {
		i++
	}
	return i
}

// word gives the letters at i, full stops between single letters left out
// ("R.S.A." is rsa), and the place after it with the full stop of an
// abbreviation. Letters of a script without spaces end where another begins.
func (s *reader) word(i int) (w string, next int) {
	start := i
	b := make([]rune, 0, maxWord)
	dotted := func(i int) bool { return letter(s.at(i)) && !letter(s.at(i+1)) && s.at(i+1) == '.' }
	if dotted(i) && dotted(i+2) || dotted(i) && letter(s.at(i+2)) && !letter(s.at(i+3)) {
		for letter(s.at(i)) && !letter(s.at(i+1)) && len(b) < maxWord {
			b = append(b, s.at(i))
			if i++; s.at(i) != '.' {
				break
			}
			i++
		}
		return string(b), i
	}
	for letter(s.at(i)) && (i == start || syllabic(s.at(i)) == syllabic(s.at(i-1))) && len(b) < maxWord {
		b = append(b, s.at(i))
		i++
	}
	if i > start && s.at(i) == '.' && !digit(s.at(i+1)) {
		i++
	}
	return string(b), i
}

// maxWord bounds the letters of a word; the longest known one has fewer.
const maxWord = 24

func syllabic(c rune) bool {
	return unicode.In(c, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul)
}

// size is a number as written, with its unit.
type size struct {
	v        float64
	unit     string // "mm", "cm", "m", "in", "ft"; "" none
	fraction bool
	whole    bool // digits only
	at, end  int
}

// mm is the size in millimetres if it tells its unit.
func (z size) mm() float64 { return tidy(z.v * mmPer(z.unit)) }

// inches tells that it is written as only inches are.
func (z size) inches() bool { return z.fraction || z.unit == "in" || z.unit == "ft" }

// number reads "12", "12.5", "12,5", ".25", "1/4", "2-1/2", "2 1/2", "2½" with a
// unit that follows. A stroke that is no fraction of halves to 64ths is left.
func (s *reader) number(i int) (z size, ok bool) {
	z.at = i
	if v, is := vulgar(s.at(i)); is {
		z.v, z.fraction, z.end = v, true, i+1
		return s.unit(z), true
	}
	if s.at(i) == '.' && digit(s.at(i+1)) {
		frac, next := s.digits(i + 1)
		if frac == "" {
			return size{}, false
		}
		z.v, z.end = parse("0."+frac), next
		return s.unit(z), true
	}
	whole, next := s.digits(i)
	if whole == "" {
		return size{}, false
	}
	if v, after := s.ratio(i); after > 0 {
		z.v, z.fraction, z.end = v, true, after
		return s.unit(z), true
	}
	z.v, z.whole, z.end = parse(whole), true, next
	if v, after := s.further(next); after > 0 {
		z.v, z.fraction, z.whole, z.end = z.v+v, true, false, after
	} else if (s.at(next) == '.' || s.at(next) == ',') && digit(s.at(next+1)) {
		if frac, after := s.digits(next + 1); frac != "" {
			z.v, z.whole, z.end = parse(whole+"."+frac), false, after
		}
	}
	return s.unit(z), true
}

// further reads the fraction of a mixed number: "½", "-1/2", " 1/2".
func (s *reader) further(i int) (v float64, after int) {
	if v, is := vulgar(s.at(i)); is {
		return v, i + 1
	}
	if s.at(i) != ' ' && s.at(i) != '-' {
		return 0, 0
	}
	if v, is := vulgar(s.at(i + 1)); is {
		return v, i + 2
	}
	return s.ratio(i + 1)
}

// ratio reads a proper fraction of halves, quarters ... 64ths.
func (s *reader) ratio(i int) (v float64, after int) {
	top, next := s.digits(i)
	if top == "" || s.at(next) != '/' {
		return 0, 0
	}
	bottom, next := s.digits(next + 1)
	if bottom == "" || s.at(next) == '/' {
		return 0, 0
	}
	a, b := parse(top), parse(bottom)
	switch b {
	case 2, 4, 8, 16, 32, 64:
		if a > 0 && a < b {
			return a / b, next
		}
	}
	return 0, 0
}

// maxDigits bounds a number, far above any size of a part.
const maxDigits = 7

// digits gives the digits at i; "" if there are none or too many.
func (s *reader) digits(i int) (d string, next int) {
	start := i
	for digit(s.at(i)) {
		if i++; i-start > maxDigits {
			return "", i
		}
	}
	if i == start {
		return "", i
	}
	return string(s.r[start:i]), i
}

// parse reads digits, at most maxDigits on each side of a point; it cannot fail.
func parse(digits string) float64 {
	v, _ := strconv.ParseFloat(digits, 64)
	return v
}

// unit reads the unit after a number.
func (s *reader) unit(z size) size {
	i := s.spaces(z.end)
	switch c := s.at(i); {
	case c == '"':
		z.unit, z.end = "in", i+1
	case c == '\'' && s.at(i+1) == '\'':
		z.unit, z.end = "in", i+2
	case c == '\'':
		z.unit, z.end = "ft", i+1
	case letter(c) && i-z.end <= 1:
		w, next := s.word(i)
		switch w {
		case "mm", "мм":
			z.unit, z.end = "mm", next
		case "cm":
			z.unit, z.end = "cm", next
		case "m", "mtr", "mtrs", "metre", "metres", "meter", "м":
			if !digit(s.at(next)) { // M16 is a bolt
				z.unit, z.end = "m", next
			}
		case "in", "inch", "inches", "zoll":
			z.unit, z.end = "in", next
		case "ft", "feet", "foot":
			z.unit, z.end = "ft", next
		}
		// "75mmx75mm": the x of the next size stands with the unit in one word.
		if z.unit == "" && c == 'm' && s.at(i+1) == 'm' && s.at(i+2) == 'x' && (digit(s.at(i+3)) || s.at(i+3) == ' ') {
			z.unit, z.end = "mm", i+2
		}
		if z.unit == "" && c == 'i' && s.at(i+1) == 'n' && s.at(i+2) == 'x' && (digit(s.at(i+3)) || s.at(i+3) == ' ') {
			z.unit, z.end = "in", i+2
		}
	}
	return z
}

// vulgar gives the value of a fraction in one rune.
func vulgar(c rune) (v float64, ok bool) {
	switch c {
	case '½':
		return 1. / 2, true
	case '¼':
		return 1. / 4, true
	case '¾':
		return 3. / 4, true
	case '⅛':
		return 1. / 8, true
	case '⅜':
		return 3. / 8, true
	case '⅝':
		return 5. / 8, true
	case '⅞':
		return 7. / 8, true
	}
	return 0, false
}

// isTimes tells of the sign between two sizes.
func isTimes(c rune) bool { return c == 'x' || c == '×' }

// chain reads sizes with a multiplication sign between them, at most five; a
// length in feet ends it before its sign.
func (s *reader) chain(i int) []size {
	var list []size
	for len(list) < 5 {
		z, ok := s.number(i)
		if !ok || z.unit == "ft" || z.unit == "m" || s.at(z.end) == '°' || s.at(z.end) == '%' {
			break
		}
		list = append(list, z)
		i = s.spaces(z.end)
		if !isTimes(s.at(i)) {
			break
		}
		i = s.spaces(i + 1)
	}
	if len(list) == 1 && list[0].whole && list[0].unit == "" && s.at(list[0].end) == '/' {
		return s.strokes(list)
	}
	return list
}

// strokes reads on sizes with a stroke between them: "75/75/8", "80/8".
func (s *reader) strokes(list []size) []size {
	for len(list) < 3 {
		end := list[len(list)-1].end
		d, next := s.digits(end + 1)
		if s.at(end) != '/' || d == "" {
			break
		}
		list = append(list, s.unit(size{v: parse(d), whole: true, at: end + 1, end: next}))
	}
	if s.at(list[len(list)-1].end) == '/' {
		return nil // a date or a number of a drawing
	}
	return list
}
