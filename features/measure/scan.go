package measure

import (
	"strconv"
	"strings"
	"unicode"
)

// scan walks over a text that was brought to one form: see plain.
type scan struct {
	r []rune
	i int
}

func newScan(text string) *scan { return &scan{r: []rune(plain(text))} }

// plain brings the ways to write the same sign to one: all spaces to ' ', the
// multiplication sign to 'x', typographic primes, quotes, dashes and slashes to
// their ASCII forms, two single primes to one double, the diameter signs to Ø.
func plain(text string) string {
	var b strings.Builder
	b.Grow(len(text))
	for _, c := range text {
		switch c {
		case '\u2032', '\u2018', '\u2019', '\u00b4', '`':
			c = '\''
		case '\u2033', '\u201c', '\u201d', '\u201e':
			c = '"'
		case '\u2044', '\u2215':
			c = '/'
		case '\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2212':
			c = '-'
		case '\u00d7', '\u2715', '\u2a2f':
			c = 'x'
		case '\u2300', '\u2205', '\u03c6', '\u03a6', '\u0424', '\u0444', '\u00f8':
			// Diameter sign, empty set, Greek phi and Cyrillic ef all stand for
			// a diameter on drawings, for want of the sign in the font.
			c = 'Ø'
		case '\u00ba', '\u02da':
			c = '°'
		case '\u200b', '\u200c', '\u200d', '\ufeff', '\u2060':
			continue
		default:
			if unicode.IsSpace(c) {
				c = ' '
			}
		}
		b.WriteRune(c)
	}
	return strings.ReplaceAll(b.String(), "''", "\"")
}

func (s *scan) peek(ahead int) rune {
	if s.i+ahead < 0 || s.i+ahead >= len(s.r) {
		return 0
	}
	return s.r[s.i+ahead]
}

func (s *scan) at(c rune) bool { return s.i < len(s.r) && s.r[s.i] == c }

// space skips spaces and tells whether there was one.
func (s *scan) space() bool {
	from := s.i
	for s.at(' ') {
		s.i++
	}
	return s.i > from
}

// rest is what is left, in lower case, with single spaces.
func (s *scan) rest() string {
	return strings.ToLower(strings.Join(strings.Fields(string(s.r[s.i:])), " "))
}

func digit(c rune) bool { return c >= '0' && c <= '9' }

// number is a number as written.
type number struct {
	value    float64
	fraction bool    // has a fraction bar: 1/2, 1-1/16, ½
	den      int     // denominator; 0 no fraction
	whole    bool    // digits only
	base     float64 // the whole part of "4-13/16" and "4 13/16"; 0 if there is none
}

// number reads "12", "12.5", "12,5", ".5", "1/2", "1-1/2", "1 1/2", "1½", "½",
// "1,234.5" and "1.234,5". ok is false, and nothing is consumed, when no number
// starts here; why is set when one starts that cannot be read.
func (s *scan) number() (n number, ok bool, why string) {
	from := s.i
	if num, den := vulgar(s.peek(0)); den != 0 {
		s.i++
		return number{value: float64(num) / float64(den), fraction: true, den: den}, true, ""
	}
	if (s.at('.') || s.at(',')) && digit(s.peek(1)) {
		s.i++
		frac := s.digits()
		v, why := parse("0." + frac)
		return number{value: v}, why == "", why
	}
	if !digit(s.peek(0)) {
		return number{}, false, ""
	}
	whole := s.digits()
	if s.at('/') && digit(s.peek(1)) {
		s.i = from
		return s.fraction(0)
	}
	base, why := parse(whole)
	if why != "" {
		return number{}, false, why
	}
	// A vulgar fraction, or digits with a bar, after the whole part: "1½", "1-1/2".
	mark := s.i
	if !s.space() && s.at('-') {
		s.i++
	}
	if num, den := vulgar(s.peek(0)); den != 0 {
		s.i++
		return number{value: base + float64(num)/float64(den), fraction: true, den: den, base: base}, true, ""
	}
	if s.i > mark && s.barAhead() {
		return s.fraction(base)
	}
	s.i = mark
	return s.decimals(whole)
}

// barAhead tells whether digits, a bar and digits follow.
func (s *scan) barAhead() bool {
	k := 0
	for digit(s.peek(k)) {
		k++
	}
	return k > 0 && s.peek(k) == '/' && digit(s.peek(k+1))
}

// fraction reads digits, bar, digits and adds base.
func (s *scan) fraction(base float64) (n number, ok bool, why string) {
	from := s.i
	top, why := parse(s.digits())
	if why != "" {
		return number{}, false, why
	}
	s.i++ // the bar
	bottom, why := parse(s.digits())
	if why != "" {
		return number{}, false, why
	}
	written := string(s.r[from:s.i])
	if bottom == 0 {
		return number{}, false, "fraction " + written + " divides by zero"
	}
	if bottom > 1000 {
		return number{}, false, "fraction " + written + " is not one of this trade"
	}
	if s.at('/') || (s.at('.') || s.at(',')) && digit(s.peek(1)) {
		return number{}, false, "fraction " + written + " goes on with " + string(s.peek(0))
	}
	if base > 0 && top >= bottom {
		return number{}, false, "fraction " + written + " after a whole number is not below 1"
	}
	return number{value: base + top/bottom, fraction: true, den: int(bottom), base: base}, true, ""
}

// decimals reads what may follow whole: a decimal part or groups of thousands.
// A comma before exactly three digits could be either and is refused.
func (s *scan) decimals(whole string) (n number, ok bool, why string) {
	groups, seps := []string{whole}, []rune{}
	for (s.at('.') || s.at(',')) && digit(s.peek(1)) {
		seps = append(seps, s.peek(0))
		s.i++
		groups = append(groups, s.digits())
	}
	// "10." is written for "10" where decimals are the habit.
	if len(seps) == 0 && s.at('.') && !unicode.IsLetter(s.peek(1)) {
		s.i++
	}
	last := groups[len(groups)-1]
	switch {
	case len(seps) == 0:
		v, why := parse(whole)
		return number{value: v, whole: true}, why == "", why
	case len(seps) == 1:
		if seps[0] == ',' && len(last) == 3 && len(whole) <= 3 && strings.Trim(whole, "0") != "" {
			return number{}, false, whole + "," + last + " may mean " + whole + "." + last + " or " + whole + last + ", write it without the comma"
		}
		v, why := parse(whole + "." + last)
		return number{value: v}, why == "", why
	}
	for i, g := range groups[1 : len(groups)-1] {
		if len(g) != 3 || seps[i] != seps[0] {
			return number{}, false, "digits are grouped in a way that is no number"
		}
	}
	text := strings.Join(groups[:len(groups)-1], "")
	if len(whole) > 3 {
		return number{}, false, "digits are grouped in a way that is no number"
	}
	if seps[len(seps)-1] != seps[0] {
		v, why := parse(text + "." + last)
		return number{value: v}, why == "", why
	}
	if len(last) != 3 {
		return number{}, false, "digits are grouped in a way that is no number"
	}
	v, why := parse(text + last)
	return number{value: v, whole: true}, why == "", why
}

func (s *scan) digits() string {
	from := s.i
	for digit(s.peek(0)) {
		s.i++
	}
	return string(s.r[from:s.i])
}

func parse(digits string) (float64, string) {
	if len(digits) > 40 {
		return 0, "number has too many digits"
	}
	v, err := strconv.ParseFloat(digits, 64)
	if err != nil || v > maxValue {
		return 0, "number is too large"
	}
	return v, ""
}

// vulgar gives the parts of a one-character fraction, or zeros.
func vulgar(c rune) (num, den int) {
	switch c {
	case '½':
		return 1, 2
	case '¼':
		return 1, 4
	case '¾':
		return 3, 4
	case '⅛':
		return 1, 8
	case '⅜':
		return 3, 8
	case '⅝':
		return 5, 8
	case '⅞':
		return 7, 8
	case '⅓':
		return 1, 3
	case '⅔':
		return 2, 3
	case '⅕':
		return 1, 5
	case '⅖':
		return 2, 5
	case '⅗':
		return 3, 5
	case '⅘':
		return 4, 5
	case '⅙':
		return 1, 6
	case '⅚':
		return 5, 6
	}
	return 0, 0
}
