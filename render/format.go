package render

import (
	"strconv"
	"strings"

	"burrside/check"
	"burrside/features/measure"
)

// lengthText writes a length with its unit, as everywhere in the project.
func lengthText(mm float64, unit string) string { return measure.FormatLength(mm, unit) }

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
		return measure.FormatNumber(q.Value, dec) + " mm"
	}
	switch q.Unit {
	case "":
		return measure.FormatNumber(q.Value, dec)
	case "%":
		return measure.FormatNumber(q.Value, dec) + " %"
	}
	return measure.FormatNumber(q.Value, dec) + " " + q.Unit
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
			found, limit = measure.FormatNumber(f.Got.Value/25.4, d)+" in", measure.FormatNumber(f.Limit.Value/25.4, d)+" in"
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
		case "usual-gauge":
			return "usual " + limit
		case "edge-distance", "hole-pitch", "web", "sliver", "hold-down", "stripping", "small-part", "leg-clearance", "hole-to-bend":
			if f.Got.Value < f.Limit.Value && f.Severity != check.Note {
				return "at least " + limit
			}
		case "punch-force", "punch-ratio", "throat-reach", "die-holder", "shear-row", "notch-force", "lift", "bend", "angle-shear", "angle-mitre":
			if f.Got.Value > f.Limit.Value {
				return "at most " + limit
			}
		}
	}
	return "limit " + limit
}

// minutesText writes minutes with one decimal.
func minutesText(m float64) string { return measure.FormatNumber(m, 1) + " min" }

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
