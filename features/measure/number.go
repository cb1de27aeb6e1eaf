package measure

import (
	"math"
	"strconv"
	"strings"
)

// FormatNumber writes v with at most so many decimals, without trailing zeros
// and never as minus zero; "?" for what is not finite. Halves go away from zero,
// also those that arithmetic left a trace below: three holes of 7/8 in that came
// out 22.2249999999, 22.225 and 22.2250000001 mm are all written 22.23.
func FormatNumber(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	if decimals >= 0 && math.Abs(v) < 1e9 {
		v += math.Copysign(math.Pow(10, -float64(decimals))*1e-6, v)
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
