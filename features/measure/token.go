package measure

import "strings"

// tokenKind is what a piece of a note is.
type tokenKind int

const (
	tokenNumber tokenKind = iota // a number, with its unit of length if one follows
	tokenWord                    // letters, in lower case, apostrophes dropped
	tokenSign                    // one sign: Ø ( ) x - + ± ° : ; = @ / ...
	tokenBad                     // a number that could not be read
)

// token is one piece of a note.
type token struct {
	kind tokenKind
	num  number
	size LengthValue // of a number
	text string      // of a word or sign
	raw  string      // as written, after plain
	glue bool        // no space before it
	dot  bool        // a full stop follows directly, as after an abbreviation
	line int
}

func (t token) is(sign string) bool { return t.kind == tokenSign && t.text == sign }

func (t token) word(words ...string) bool {
	if t.kind != tokenWord {
		return false
	}
	for _, w := range words {
		if t.text == w {
			return true
		}
	}
	return false
}

// count gives a plain whole number from 1 to 9999 without a unit, as a count
// is written.
func (t token) count() (int, bool) {
	if t.kind != tokenNumber || !t.num.whole || t.size.Unit != "" || t.num.value < 1 || t.num.value > 9999 {
		return 0, false
	}
	return int(t.num.value), true
}

// maxNote bounds the length of a text that is looked at as a note; longer ones
// are paragraphs.
const maxNote = 2000

// tokens cuts a note into pieces. A text that is too long gives none.
func tokens(text string) []token {
	if len(text) > maxNote {
		return nil
	}
	var list []token
	for i, line := range strings.FieldsFunc(text, func(c rune) bool { return c == '\n' || c == '\r' }) {
		for _, t := range lineTokens(line) {
			t.line = i
			list = append(list, t)
		}
	}
	return list
}

func lineTokens(line string) []token {
	s := newScan(line)
	var list []token
	for {
		glue := !s.space() && len(list) > 0
		if s.i >= len(s.r) {
			return list
		}
		from := s.i
		t := s.token(glue && list[len(list)-1].kind == tokenNumber)
		t.glue, t.raw = glue, string(s.r[from:s.i])
		if t.text == "." {
			if glue {
				list[len(list)-1].dot = true
			}
			continue // the full stop of an abbreviation
		}
		if t.kind == tokenBad && glue && isDottedThick(list[len(list)-1]) && len(t.raw) > 1 && allDigits(t.raw[1:]) {
			// "sp.5" where nobody leaves out the zero of 0,5.
			v, why := parse(t.raw[1:])
			if why == "" {
				t.kind, t.num, t.size = tokenNumber, number{value: v, whole: true}, LengthValue{MM: v}
				mark := s.i
				s.space()
				if unit, factor := s.lengthUnit(); unit != "" {
					t.size = LengthValue{MM: tidy(v * factor), Unit: unit}
				} else {
					s.i = mark
				}
				list[len(list)-1].dot = true
			}
		}
		list = append(list, t)
	}
}

// isDottedThick tells of abbreviations for thickness in languages that write
// 0,5 and never .5.
func isDottedThick(t token) bool {
	return t.word("ép", "ep", "épais", "sp", "spess", "tl", "gr", "hr", "толщ")
}

// token reads one piece; afterNumber tells that it stands directly after a number.
func (s *scan) token(afterNumber bool) token {
	c := s.peek(0)
	_, den := vulgar(c)
	switch {
	case digit(c), den != 0, (c == '.' || c == ',') && digit(s.peek(1)) && !digit(s.peek(-1)):
		mark := s.i
		if c == '.' && isLetter(s.peek(-1)) && s.peek(-1) != 'Ø' {
			// "THK.5" is half an inch or 5: the full stop of an abbreviation or
			// a point without its zero.
			s.i++
			s.digits()
			return token{kind: tokenBad}
		}
		n, ok, why := s.number()
		if !ok || why != "" {
			s.i = max(s.i, mark+1)
			return token{kind: tokenBad}
		}
		s.i = mark
		size, ok, why := s.length()
		if !ok || why != "" {
			s.i = max(s.i, mark+1)
			return token{kind: tokenBad}
		}
		if size.Unit == "" && n.fraction {
			if n.den&(n.den-1) != 0 || n.den > 64 {
				return token{kind: tokenBad} // "10/12" is two numbers, or none
			}
			size.Unit, size.MM = "in", tidy(n.value*mmPerInch)
		}
		return token{kind: tokenNumber, num: n, size: size}
	case isLetter(c) && c != 'Ø':
		return s.wordToken(afterNumber)
	}
	s.i++
	return token{kind: tokenSign, text: string(c)}
}

// wordToken reads letters with apostrophes between them, and letters with
// points between them ("P.C.D." is pcd). An x directly after a number is the
// sign of multiplication.
func (s *scan) wordToken(afterNumber bool) token {
	at := func(k int) bool { return isLetter(s.peek(k)) && s.peek(k) != 'Ø' }
	if c := s.peek(0); c == 'x' || c == 'X' || c == 'х' || c == 'Х' { // the last two are Cyrillic
		m := s.peek(1) == 'M' || s.peek(1) == 'm' || s.peek(1) == 'М' // the last is Cyrillic
		if !at(1) || afterNumber && m && digit(s.peek(2)) {
			s.i++
			return token{kind: tokenSign, text: "x"}
		}
	}
	if s.peek(1) == '.' && at(2) && !at(3) {
		var b strings.Builder
		for at(0) && !at(1) {
			b.WriteRune(s.peek(0))
			s.i++
			if !s.at('.') {
				break
			}
			s.i++
		}
		return token{kind: tokenWord, text: strings.ToLower(b.String())}
	}
	var b strings.Builder
	for at(0) || s.at('\'') && at(1) {
		if !s.at('\'') {
			b.WriteRune(s.peek(0))
		}
		s.i++
	}
	return token{kind: tokenWord, text: strings.ToLower(b.String())}
}
