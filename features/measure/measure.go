// Package measure reads lengths, fractions, forces, strengths, call-outs and
// plate notes from text, and writes lengths for people. It knows no drawing and
// no shop.
//
// What it reads it reads whole: a text with a remainder that is not understood
// is refused by the functions that give an error, and is no call-out for those
// that give ok. A number that could mean two things ("60 ton", "1,500 mm") is
// refused with the meanings, never settled by a guess.
package measure

import "fmt"

// A TextError tells why a text could not be read. Its message quotes the text.
type TextError struct {
	What string // "length", "force", "stress", "angle", "mass", ...
	Text string
	Why  string
}

func (e *TextError) Error() string { return fmt.Sprintf("%s %q: %s", e.What, e.Text, e.Why) }

// maxValue bounds every number in its own unit: nothing in a fabrication shop
// is longer than 1,000 km or stronger than 1e9 kN, and a bound keeps sums and
// products far from overflow.
const maxValue = 1e9

// value reads "NUMBER UNIT" where unit turns the unit's word, in lower case and
// with single spaces, into a factor; why is told when it cannot.
func value(what, text, example string, unit func(word string) (factor float64, why string)) (float64, error) {
	fail := func(why string) (float64, error) { return 0, &TextError{What: what, Text: text, Why: why} }
	s := newScan(text)
	s.space()
	if s.at('-') || s.at('+') {
		return fail("a sign is not allowed, give a number and a unit as in \"" + example + "\"")
	}
	n, ok, why := s.number()
	if why != "" {
		return fail(why)
	}
	if !ok {
		return fail("no number found, give a number and a unit as in \"" + example + "\"")
	}
	word := s.rest()
	if word == "" {
		return fail("unit is missing, give it as in \"" + example + "\"")
	}
	factor, why := unit(word)
	if why != "" {
		return fail(why)
	}
	v := n.value * factor
	if v > maxValue {
		return fail("is too large")
	}
	return v, nil
}
