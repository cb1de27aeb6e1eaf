package measure

import (
	"math"
	"strconv"
	"strings"
)

// A LengthValue is a length with how it was written. The zero value is a
// length of nothing with no unit: not stated.
type LengthValue struct {
	MM   float64
	Unit string // "mm", "in", "ft", "cm", "m"; "" if the text names none
	// Fraction tells that it was written with a fraction bar, as only inches
	// are. Length leaves Unit "" all the same when none is named; call-outs and
	// plate notes take a fraction of halves, quarters ... 64ths as inches.
	Fraction bool
}

// The exact size of the inch (international inch of 1959) and of the foot.
const (
	mmPerInch = 25.4
	mmPerFoot = 304.8
)

// Length reads "10 mm", "3/8 in", "1-1/16\"", "1 1/16 in", "2'-6 1/2\"", "0.375in",
// "12" (Unit "", MM set as if millimetres). A decimal comma is read as a point,
// but a comma before exactly three digits is refused, because "1,500" may mean
// 1.5 or 1500. A diameter sign may stand in front. Zero is a length, a negative
// one is refused. The error quotes the text.
func Length(text string) (LengthValue, error) {
	fail := func(why string) (LengthValue, error) {
		return LengthValue{}, &TextError{What: "length", Text: text, Why: why}
	}
	s := newScan(text)
	s.space()
	if s.at('Ø') {
		s.i++
		s.space()
	}
	if s.at('-') || s.at('+') {
		return fail("a sign is not allowed")
	}
	v, ok, why := s.length()
	if why != "" {
		return fail(why)
	}
	if !ok {
		return fail("no number found, give a number and a unit as in \"10 mm\" or \"3/8 in\"")
	}
	if rest := s.rest(); rest != "" {
		if v.Unit == "" {
			return fail("\"" + rest + "\" is no unit of length (mm, cm, m, in, ft)")
		}
		return fail("\"" + rest + "\" is left over")
	}
	return v, nil
}

// tidy rounds to 1e-9 mm, so that 3/4 in is 19.05 and not the float beside it.
// Far above that size nothing changes.
func tidy(mm float64) float64 {
	if mm > 1e5 {
		return mm
	}
	return math.Round(mm*1e9) / 1e9
}

// length reads a number with its unit if one follows, feet and inches
// included. A word that is no unit is left alone.
func (s *scan) length() (v LengthValue, ok bool, why string) {
	n, ok, why := s.number()
	if !ok || why != "" {
		return LengthValue{}, false, why
	}
	v = LengthValue{MM: n.value, Fraction: n.fraction}
	mark := s.i
	s.space()
	unit, factor := s.lengthUnit()
	if unit == "" {
		s.i = mark
	} else {
		v.Unit, v.MM = unit, tidy(n.value*factor)
	}
	if unit == "ft" {
		s.inches(&v, &why)
	}
	if why != "" {
		return LengthValue{}, false, why
	}
	if v.MM > maxValue {
		return LengthValue{}, false, "is too large"
	}
	return v, true, ""
}

// inches reads what may follow feet: "-6 1/2\"", " 6 in", "6".
func (s *scan) inches(v *LengthValue, why *string) {
	mark := s.i
	s.space()
	if s.at('-') {
		s.i++
		s.space()
	}
	if s.i == mark && !s.at('.') && !digit(s.peek(0)) {
		if _, den := vulgar(s.peek(0)); den == 0 {
			return
		}
	}
	n, ok, bad := s.number()
	if bad != "" {
		*why = bad
		return
	}
	if !ok {
		s.i = mark
		return
	}
	after := s.i
	s.space()
	switch unit, _ := s.lengthUnit(); unit {
	case "in":
	case "":
		s.i = after
	default:
		s.i = mark // "3 ft 100 mm" is two lengths, not one
		return
	}
	if n.value >= 12 {
		*why = "12 inches or more after feet"
		return
	}
	v.MM = tidy(v.MM + n.value*mmPerInch)
	v.Fraction = v.Fraction || n.fraction
}

// lengthUnit reads a unit of length; nothing is consumed when there is none.
func (s *scan) lengthUnit() (unit string, factor float64) {
	switch {
	case s.at('"'):
		s.i++
		return "in", mmPerInch
	case s.at('\''):
		s.i++
		return "ft", mmPerFoot
	}
	k := 0
	for isLetter(s.peek(k)) {
		k++
	}
	written := string(s.r[s.i : s.i+k])
	word := strings.ToLower(written)
	switch word {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters", "мм":
		unit, factor = "mm", 1
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		unit, factor = "cm", 10
	case "m", "metre", "metres", "meter", "meters":
		if written == "M" {
			return "", 0 // M is a thread, a section, a grade; never a metre
		}
		unit, factor = "m", 1000
	case "in", "inch", "inches", "zoll", "pouce", "pouces", "pulgada", "pulgadas":
		unit, factor = "in", mmPerInch
	case "ft", "foot", "feet":
		unit, factor = "ft", mmPerFoot
	default:
		return "", 0
	}
	s.i += k
	if s.at('.') && !digit(s.peek(1)) {
		s.i++ // "3/8 in."
	}
	return unit, factor
}

// FormatLength writes a length for people: millimetres with at most two decimals
// when unit is "mm", the nearest 1/32 in as a fraction (or three decimals if it is
// off by more than 0.02 mm) when it is "in". The unit is appended. Any other unit
// is written as millimetres. What Length reads back is within 0.005 mm for
// millimetres and 0.02 mm for inches.
func FormatLength(mm float64, unit string) string {
	if math.IsNaN(mm) || math.IsInf(mm, 0) {
		return "unknown length"
	}
	if unit != "in" {
		return trimmed(mm, 2) + " mm"
	}
	in := mm / mmPerInch
	n := math.Round(math.Abs(in) * 32)
	if math.Abs(math.Abs(mm)-n*mmPerInch/32) > 0.02 || n > 1e9 {
		return trimmed(in, 3) + " in"
	}
	sign := ""
	if in < 0 && n > 0 {
		sign = "-"
	}
	num, den := int64(n), int64(32)
	whole := num / den
	num %= den
	if num == 0 {
		return sign + strconv.FormatInt(whole, 10) + " in"
	}
	for num%2 == 0 {
		num, den = num/2, den/2
	}
	text := strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
	if whole > 0 {
		text = strconv.FormatInt(whole, 10) + "-" + text
	}
	return sign + text + " in"
}

// trimmed writes v with at most the given decimals, without trailing zeros and
// without a negative zero.
func trimmed(v float64, decimals int) string {
	text := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}
