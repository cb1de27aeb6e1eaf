package measure

import (
	"math"
	"strconv"
	"strings"
)

// FormatNumber writes v with at most so many decimals, without trailing zeros
// and never as minus zero; "?" for what is not finite.
func FormatNumber(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
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
