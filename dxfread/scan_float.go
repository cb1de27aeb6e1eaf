package dxfread

import (
	"bytes"
	"encoding/binary"
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

// floatLine reads a number with a point or without. Up to 7 digits before and
// 15 after the point are taken eight at a time, without a branch for each:
// their number changes from value to value, and wrong guesses of the processor
// would cost more than the work. All else goes to floatByDigit.
func (s *scanner) floatLine(i int) int {
	data, start := s.data, i
	if i+40 > len(data) {
		return s.floatByDigit(i)
	}
	if data[i] == ' ' {
		for i++; i < len(data)-32 && data[i] == ' '; i++ {
		}
	}
	neg := data[i] == '-'
	if neg {
		i++
	}
	w, n := digits8(data[i:])
	if n == 8 || i+32 > len(data) {
		return s.floatByDigit(start)
	}
	mant, k := number8(w, n), 0
	i += n
	if data[i] == '.' {
		i++
		w, k = digits8(data[i:])
		i += k
		if k == 8 {
			mant = mant*1e8 + number8(w, 8)
			var more int
			w, more = digits8(data[i:])
			if k += more; more == 8 || n+k > 19 {
				return s.floatByDigit(start)
			}
			i += more
			mant = mant*pow10whole[more] + number8(w, more)
		} else {
			mant = mant*pow10whole[k] + number8(w, k)
		}
	}
	end := i
	if data[i] == '\r' && s.term == '\n' {
		i++
	}
	if data[i] != s.term || n+k == 0 {
		return s.floatByDigit(start)
	}
	var f float64
	if mant < 1<<53 {
		f = float64(int64(mant)) / pow10[k] // exact: see func exact
	} else {
		f, _ = exact(mant, -k)
	}
	if neg {
		f = -f
	}
	s.num, s.lo, s.hi = f, start, end
	return i + 1
}

// digits8 loads eight bytes, each less '0', and tells how many of the first are
// digits.
func digits8(b []byte) (w uint64, n int) {
	w = binary.LittleEndian.Uint64(b) ^ 0x3030303030303030
	// A byte above 9 gets its top bit set; nothing carries into the next one.
	odd := (w&0x7f7f7f7f7f7f7f7f + 0x7676767676767676 | w) & 0x8080808080808080
	return w, bits.TrailingZeros64(odd) >> 3
}

// number8 is the number made of the first n digits of w: tens and units are
// joined in all pairs at once, then hundreds, then ten thousands.
func number8(w uint64, n int) uint64 {
	w <<= uint(64 - 8*n)
	w = w * (10<<8 + 1) >> 8 & 0x00ff00ff00ff00ff
	w = w * (100<<16 + 1) >> 16 & 0x0000ffff0000ffff
	return w * (10000<<32 + 1) >> 32
}

// floatByDigit reads any number that has an exponent within reach and at most
// 19 digits; other spellings go to parseFloat.
func (s *scanner) floatByDigit(i int) int {
	data := s.data
	start := i
	for i < len(data) && data[i] == ' ' {
		i++
	}
	neg := i < len(data) && data[i] == '-'
	if neg {
		i++
	}
	first, mant := i, uint64(0)
	for i < len(data) {
		c := data[i] - '0'
		if c > 9 {
			break
		}
		mant = mant*10 + uint64(c)
		i++
	}
	digits, exp := i-first, 0
	if i < len(data) && data[i] == '.' {
		i++
		first = i
		for i < len(data) {
			c := data[i] - '0'
			if c > 9 {
				break
			}
			mant = mant*10 + uint64(c)
			i++
		}
		exp = first - i
		digits -= exp
	}
	if i < len(data) && data[i]|0x20 == 'e' && digits > 0 {
		j := i + 1
		down := j < len(data) && data[j] == '-'
		if j < len(data) && (data[j] == '-' || data[j] == '+') {
			j++
		}
		first, e := j, 0
		for j < len(data) && j-first < 4 {
			c := data[j] - '0'
			if c > 9 {
				break
			}
			e = e*10 + int(c)
			j++
		}
		if j == first {
			digits = 0 // "1e": leave it to parseFloat
		}
		if down {
			e = -e
		}
		exp += e
		i = j
	}
	if i < len(data) && data[i] == '\r' && s.term == '\n' {
		i++
	}
	if digits > 0 && digits <= 19 && i < len(data) && data[i] == s.term {
		if f, ok := exact(mant, exp); ok {
			if neg {
				f = -f
			}
			s.num, s.ok = f, true
			s.lo, s.hi = start, i
			return i + 1
		}
	}
	i = s.textLine(start)
	s.num, s.ok = parseFloat(bytes.TrimSpace(s.val()))
	return i
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
