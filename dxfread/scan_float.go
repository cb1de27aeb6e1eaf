package dxfread

import (
	"bytes"
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

// number8 is the number whose digits are the bytes of w: tens and units are
// joined in all pairs at once, then hundreds, then ten thousands.
func number8(w uint64) uint64 {
	w = w * (10<<8 + 1) >> 8 & 0x00ff00ff00ff00ff
	w = w * (100<<16 + 1) >> 16 & 0x0000ffff0000ffff
	return w * (10000<<32 + 1) >> 32
}

// anyFloat reads any number. The loop takes those that have at most 19 digits
// and an exponent within reach; other spellings go to parseFloat.
func anyFloat(b []byte) (float64, bool) {
	i := 0
	for i < len(b) && b[i] == ' ' {
		i++
	}
	neg := i < len(b) && b[i] == '-'
	if neg {
		i++
	}
	first, mant := i, uint64(0)
	for i < len(b) && b[i]-'0' <= 9 {
		mant = mant*10 + uint64(b[i]-'0')
		i++
	}
	digits, exp := i-first, 0
	if i < len(b) && b[i] == '.' {
		i++
		first = i
		for i < len(b) && b[i]-'0' <= 9 {
			mant = mant*10 + uint64(b[i]-'0')
			i++
		}
		exp = first - i
		digits -= exp
	}
	if i < len(b) && b[i]|0x20 == 'e' {
		i++
		down := i < len(b) && b[i] == '-'
		if i < len(b) && (b[i] == '-' || b[i] == '+') {
			i++
		}
		first, e := i, 0
		for i < len(b) && i-first < 4 && b[i]-'0' <= 9 {
			e = e*10 + int(b[i]-'0')
			i++
		}
		if i == first {
			digits = 0 // "1e": leave it to parseFloat
		}
		if down {
			e = -e
		}
		exp += e
	}
	if i == len(b) && digits > 0 && digits <= 19 {
		if f, ok := exact(mant, exp); ok {
			if neg {
				f = -f
			}
			return f, true
		}
	}
	return parseFloat(bytes.TrimSpace(b))
}

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
		return quotient(mant, -exp), true
	}
	return 0, false
}

// divisor is 10^k shifted until its top bit is set, and the exponent field of a
// float64 that undoes the shift and those of quotient.
type divisor struct {
	d   uint64
	exp int
}

// divisors are those of 10^0 to 10^19. They are never written after the package
// is loaded.
var divisors = divisorTable()

func divisorTable() (t [20]divisor) {
	for k := range t {
		up := bits.LeadingZeros64(pow10whole[k])
		t[k] = divisor{pow10whole[k] << up, 1023 - 62 + up}
	}
	return t
}

// quotient gives m/10^k rounded to the nearest float64, ties to even, for k up
// to 19. Both are shifted until their top bit is set and m once back, so that
// 128 by 64 bit division gives at least 62 bits of the quotient; whether a
// remainder is left becomes a sticky bit below them.
func quotient(m uint64, k int) float64 {
	d := &divisors[k]
	up := bits.LeadingZeros64(m)
	m <<= uint(up)
	q, r := bits.Div64(m>>1, m<<63, d.d)
	if r != 0 {
		q |= 1
	}
	q = q>>1 | q&1 // converting a signed number is simpler for the processor
	// The scale is a power of two far from the ends of the range: exact.
	return float64(int64(q)) * math.Float64frombits(uint64(d.exp-up)<<52)
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
