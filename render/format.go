package render

import (
	"math"
	"strconv"
	"strings"

	"burrside/check"
)

// number writes v with at most dec decimals, without trailing zeros and
// without a negative zero. NaN and infinities come out as "?".
func number(v float64, dec int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	s := strconv.FormatFloat(v, 'f', dec, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(s, "0")
		s = strings.TrimSuffix(s, ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// lengthText writes a length with its unit: millimetres with at most two
// decimals, or the nearest 1/32 in when it is within 0.02 mm of it, else inches
// with three decimals.
func lengthText(mm float64, unit string) string {
	if unit != "in" {
		return number(mm, 2) + " mm"
	}
	if math.IsNaN(mm) || math.IsInf(mm, 0) {
		return "? in"
	}
	n := math.Round(mm / 25.4 * 32)
	if math.Abs(mm-n*25.4/32) > 0.02 || n <= 0 || n > 1e9 {
		return number(mm/25.4, 3) + " in"
	}
	whole, num, den := int64(n)/32, int64(n)%32, int64(32)
	for num > 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	s := ""
	switch {
	case num == 0:
		s = strconv.FormatInt(whole, 10)
	case whole == 0:
		s = strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
	default:
		s = strconv.FormatInt(whole, 10) + "-" + strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10)
	}
	return s + " in"
}

// trimUnit takes the unit off a length that lengthText wrote.
func trimUnit(s, unit string) string {
	if unit != "in" {
		unit = "mm"
	}
	return strings.TrimSuffix(s, " "+unit)
}

// pairText writes "22 x 50 mm".
func pairText(a, b float64, unit string) string {
	return trimUnit(lengthText(a, unit), unit) + " x " + lengthText(b, unit)
}

// decimals says how many decimals a unit is shown with.
func decimals(unit string) int {
	switch unit {
	case "MPa", "°":
		return 0
	case "kN", "%", "deg", "kg":
		return 1
	}
	return 2
}

// quantityText writes one quantity, lengths in the unit asked for.
func quantityText(q check.Quantity, unit string) string {
	return quantityDec(q, unit, decimals(q.Unit))
}

func quantityDec(q check.Quantity, unit string, dec int) string {
	if q.Unit == "mm" {
		if unit == "in" {
			return lengthText(q.Value, unit)
		}
		return number(q.Value, dec) + " mm"
	}
	switch q.Unit {
	case "":
		return number(q.Value, dec)
	case "%":
		return number(q.Value, dec) + " %"
	}
	return number(q.Value, dec) + " " + q.Unit
}

// foundNeeded writes what was found and its limit, with so many decimals that
// two different numbers never look the same.
func foundNeeded(f *check.Finding, unit string) (found, limit string) {
	if f.Got == nil && f.Limit == nil {
		return "", ""
	}
	if f.Got == nil {
		return "", limitText(f, quantityText(*f.Limit, unit))
	}
	if f.Limit == nil {
		return quantityText(*f.Got, unit), ""
	}
	dec := decimals(f.Got.Unit)
	for ; ; dec++ {
		found, limit = quantityDec(*f.Got, unit, dec), quantityDec(*f.Limit, unit, dec)
		if found != limit || f.Got.Value == f.Limit.Value || dec >= 6 {
			break
		}
		if unit == "in" && f.Got.Unit == "mm" {
			// A fraction hides the difference: decimals of an inch.
			d := max(3, dec+1)
			found, limit = number(f.Got.Value/25.4, d)+" in", number(f.Limit.Value/25.4, d)+" in"
			if found != limit {
				break
			}
		}
	}
	return found, limitText(f, limit)
}

// limitText says on which side of the limit the good values lie. Only rules
// that limit one side by their nature are turned into "at least" and "at
// most", and only when the numbers agree; otherwise the word is "limit".
func limitText(f *check.Finding, limit string) string {
	if f.Got != nil && f.Limit != nil && f.Got.Unit == f.Limit.Unit {
		switch f.Rule {
		case "edge-distance", "hole-pitch", "web", "sliver", "hold-down", "stripping", "small-part":
			if f.Got.Value < f.Limit.Value && f.Severity != check.Note {
				return "at least " + limit
			}
		case "punch-force", "punch-ratio", "throat-reach", "die-holder", "shear-row", "notch-force", "lift", "bend":
			if f.Got.Value > f.Limit.Value {
				return "at most " + limit
			}
		}
	}
	return "limit " + limit
}

// minutesText writes minutes with one decimal.
func minutesText(m float64) string { return number(m, 1) + " min" }

// plural writes "1 hit", "2 hits".
func plural(n int, one string) string {
	many := one + "s"
	if strings.HasSuffix(one, "ch") || strings.HasSuffix(one, "s") {
		many = one + "es"
	}
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
