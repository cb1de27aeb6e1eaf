package dxfread

import (
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// Powers of ten that a float64, and that a uint64 hold exactly.
var (
	pow10 = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
		1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22}
	pow10whole = [...]uint64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
		1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19}
)

// exact gives mant * 10^exp rounded to the nearest float64, ties to even, or
// false where it cannot promise that. The first two cases are exact because
// both operands are and IEEE 754 rounds a product and a quotient correctly.
func exact(mant uint64, exp int) (float64, bool) {
	switch {
	case exp == 0:
		return float64(mant), true
	case mant < 1<<53 && exp < 0 && exp >= -22:
		return float64(mant) / pow10[-exp], true
	case mant < 1<<53 && exp > 0 && exp <= 22:
		return float64(mant) * pow10[exp], true
	case exp < 0 && exp >= -19:
		return quotient(mant, pow10whole[-exp]), true
	}
	return 0, false
}

// quotient gives m/d rounded to the nearest float64, for m > 0. Both are
// shifted until their top bit is set; 128 by 64 bit division then gives 64
// bits of the quotient, and the remainder becomes a sticky bit below them.
func quotient(m, d uint64) float64 {
	a, b := bits.LeadingZeros64(m), bits.LeadingZeros64(d)
	m <<= uint(a)
	d <<= uint(b)
	e := b - a
	var q, r uint64
	if m < d {
		q, r = bits.Div64(m, 0, d)
		e -= 64
	} else {
		q, r = bits.Div64(m>>1, m<<63, d)
		e -= 63
	}
	if r != 0 {
		q |= 1
	}
	// The scale is a power of two far from the ends of the range: exact.
	return float64(q) * math.Float64frombits(uint64(1023+e)<<52)
}

// parseFloat reads any other spelling of a number. Not-a-number and infinity
// as C libraries print them are understood (and refused later, with a note):
// they are a fault of one entity, not of the file.
func parseFloat(b []byte) (float64, bool) {
	t := string(b)
	f, err := strconv.ParseFloat(t, 64)
	if err == nil && !strings.ContainsAny(t, "xX_") {
		return f, true
	}
	if ne, ok := err.(*strconv.NumError); ok && ne.Err == strconv.ErrRange {
		return f, true // infinity
	}
	low := strings.ToLower(strings.TrimLeft(t, "+-"))
	if strings.HasPrefix(low, "1.#") || strings.HasPrefix(low, "nan") || strings.HasPrefix(low, "-nan") {
		return math.NaN(), true
	}
	return 0, false
}
