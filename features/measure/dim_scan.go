package measure

import (
	"math"
	"strings"
)

// dimKind is what a piece of a dimension's text is.
type dimKind int

const (
	dimValue    dimKind = iota // a number with its readings
	dimMeasured                // <>, which stands for the measured value
	dimWord                    // letters, in lower case
	dimSign                    // one sign
)

// dimToken is one piece of a dimension's text.
type dimToken struct {
	kind  dimKind
	text  string    // of a word or sign
	sizes []DimSize // readings of a number, likeliest first
	whole bool      // digits only
	value float64   // of the likeliest reading, as written
	glue  bool      // no space before it
}

func (t dimToken) is(signs ...string) bool {
	if t.kind == dimSign {
		for _, s := range signs {
			if t.text == s {
				return true
			}
		}
	}
	return false
}

func (t dimToken) word(words ...string) bool {
	if t.kind == dimWord {
		for _, w := range words {
			if t.text == w {
				return true
			}
		}
	}
	return false
}

// sized tells whether a length stands here.
func (t dimToken) sized() bool { return t.kind == dimValue || t.kind == dimMeasured }

// dimTokens cuts a dimension's text into pieces; false if a number in it cannot
// be read.
func dimTokens(text string) ([]dimToken, bool) {
	var list []dimToken
	for _, line := range strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == '\r' }) {
		s := newScan(line)
		for first := true; ; first = false {
			glue := !s.space() && !first
			if s.i >= len(s.r) {
				break
			}
			t, ok := s.dimToken(glue)
			if !ok {
				return nil, false
			}
			t.glue = glue
			list = append(list, t)
		}
	}
	return list, true
}

func (s *scan) dimToken(glue bool) (dimToken, bool) {
	c := s.peek(0)
	_, den := vulgar(c)
	switch {
	case c == '<' && s.peek(1) == '>':
		s.i += 2
		return dimToken{kind: dimMeasured}, true
	case digit(c), den != 0, (c == '.' || c == ',') && digit(s.peek(1)):
		return s.dimNumber()
	case (c == 'x' || c == 'X' || c == 'х' || c == 'Х') && (!isLetter(s.peek(1)) || s.peek(1) == 'Ø'): // the last two are Cyrillic
		s.i++
		return dimToken{kind: dimSign, text: "x"}, true
	case (c == 'x' || c == 'X') && (s.peek(1) == 'R' || s.peek(1) == 'M') && digit(s.peek(2)) && glue: // 4XR10
		s.i++
		return dimToken{kind: dimSign, text: "x"}, true
	case isLetter(c) && c != 'Ø':
		from := s.i
		for isLetter(s.peek(0)) && s.peek(0) != 'Ø' || s.at('.') && isLetter(s.peek(1)) || s.at('\'') && isLetter(s.peek(1)) {
			s.i++
		}
		w := strings.ToLower(string(s.r[from:s.i]))
		if s.at('/') && isLetter(s.peek(1)) && !isLetter(s.peek(2)) { // c/c, o/a
			w += string(s.r[s.i+1 : s.i+2])
			s.i += 2
		}
		if s.at('.') && !digit(s.peek(1)) {
			s.i++
		}
		return dimToken{kind: dimWord, text: strings.NewReplacer(".", "", "'", "").Replace(strings.ToLower(w))}, true
	case c == '+' && s.peek(1) == '/' && s.peek(2) == '-':
		s.i += 3
		return dimToken{kind: dimSign, text: "±"}, true
	case c == '+' && s.peek(1) == '-':
		s.i += 2
		return dimToken{kind: dimSign, text: "±"}, true
	}
	s.i++
	return dimToken{kind: dimSign, text: string(c)}, true
}

// dimNumber reads a number with its unit. One that is grouped in thousands, or
// that may be, has a reading for each meaning.
func (s *scan) dimNumber() (dimToken, bool) {
	from := s.i
	var values []float64
	var steps []float64
	grouped, sep := s.grouped()
	if grouped != "" {
		v, why := parse(grouped)
		if why != "" {
			return dimToken{}, false
		}
		values, steps = []float64{v}, []float64{halfLast(grouped)}
		plainGroups := strings.Count(string(s.r[from:s.i]), string(sep)) == 1
		if (sep == '.' || sep == ',') && plainGroups && !strings.Contains(grouped, ".") {
			decimal := strings.Replace(string(s.r[from:s.i]), ",", ".", 1)
			d, _ := parse(decimal)
			values, steps = append(values, d), append(steps, halfLast(decimal))
			if sep == '.' {
				values[0], values[1] = values[1], values[0]
				steps[0], steps[1] = steps[1], steps[0]
			}
		}
		t := dimToken{kind: dimValue, value: values[0]}
		s.space()
		unit, factor := s.lengthUnit()
		if unit == "ft" {
			return dimToken{}, false
		}
		if unit == "" {
			factor = 1
		}
		for i := range values {
			t.sizes = append(t.sizes, DimSize{LengthValue{MM: tidy(values[i] * factor), Unit: unit}, steps[i] * factor})
		}
		if unit == "in" {
			t.sizes = t.sizes[:1] // inches have no thousands here
			if sep == ',' && len(values) > 1 {
				t.sizes[0] = DimSize{LengthValue{MM: tidy(values[1] * factor), Unit: unit}, steps[1] * factor}
			}
		}
		t.whole = unit == "" && sep == ' '
		return t, true
	}
	n, ok, why := s.number()
	if !ok || why != "" {
		return dimToken{}, false
	}
	written := string(s.r[from:s.i])
	s.i = from
	v, ok, why := s.length()
	if !ok || why != "" {
		return dimToken{}, false
	}
	step := halfLast(written)
	if n.fraction || v.Unit == "ft" || v.Fraction {
		step = 0.5 / 32 // fractions are rounded to a thirty-second of an inch at best
		if v.Unit == "" {
			if n.den&(n.den-1) != 0 || n.den > 64 {
				return dimToken{}, false
			}
			v.Unit, v.MM = "in", tidy(n.value*mmPerInch)
		}
		step *= mmPerInch
	} else {
		switch v.Unit {
		case "in":
			step *= mmPerInch
		case "cm":
			step *= 10
		case "m":
			step *= 1000
		}
	}
	if n.value > 0 && !(v.MM > 0) {
		return dimToken{}, false // less than is told apart from nothing
	}
	value := n.value
	if v.Unit == "ft" {
		value = v.MM / mmPerFoot // the inches behind the feet count
	}
	return dimToken{kind: dimValue, sizes: []DimSize{{v, step}}, whole: n.whole && v.Unit == "", value: value}, true
}

// grouped reads digits in groups of three, "1 500", "1'500", "1,500", "12.500",
// "1.500,5", and gives them without the signs between the groups; "" and nothing
// read if there are none.
func (s *scan) grouped() (digits string, sep rune) {
	k := 0
	for digit(s.peek(k)) {
		k++
	}
	if k < 1 || k > 3 || s.peek(0) == '0' {
		return "", 0
	}
	sep = s.peek(k)
	if sep != ' ' && sep != '\'' && sep != ',' && sep != '.' {
		return "", 0
	}
	from, text := s.i, string(s.r[s.i:s.i+k])
	for s.peek(k) == sep && digit(s.peek(k+1)) && digit(s.peek(k+2)) && digit(s.peek(k+3)) && !digit(s.peek(k+4)) {
		text += string(s.r[s.i+k+1 : s.i+k+4])
		k += 4
	}
	if len(text) == k || s.peek(k) == '/' || sep == '\'' && (s.peek(k) == '"' || s.peek(k) == '-') {
		return "", 0
	}
	if other := s.peek(k); (other == '.' || other == ',') && other != sep && digit(s.peek(k+1)) {
		text += "."
		for k++; digit(s.peek(k)); k++ {
			text += string(s.peek(k))
		}
	}
	if digit(s.peek(k)) || (s.peek(k) == '.' || s.peek(k) == ',') && digit(s.peek(k+1)) {
		return "", 0
	}
	s.i = from + k
	return text, sep
}

// halfLast is half of the last digit of a number as written, with a hair for
// rounding.
func halfLast(written string) float64 {
	digits := 0
	if i := strings.LastIndexAny(written, ".,"); i >= 0 {
		digits = len(written) - i - 1
	}
	return 0.501 * math.Pow(10, -float64(digits))
}
