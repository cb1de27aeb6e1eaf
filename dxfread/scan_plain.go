package dxfread

import (
	"encoding/binary"
	"math"
	"math/bits"
)

// Nearly all pairs of nearly all files are spelt plainly: a group code of three
// places, a value of a few bytes, numbers of digits with a point or without. A
// pair has some 12 bytes, so that a call, a second look at a byte or a wrong
// guess of the processor about the length of a number all show. Here lines and
// numbers are therefore taken eight bytes at a time, and no branch depends on
// how many digits a number has. What is spelt in another way is left to
// nextAny, which reads everything.

// plainReach is how much is looked at from the start of a pair on: a code of 4
// digits, a line end of 2 bytes, 23 blanks of a value and 32 bytes loaded there.
const plainReach = 64

// Constants for eight bytes in one word, the first one lowest.
const (
	eachByte = 0x0101010101010101
	topBits  = 0x8080808080808080
	zeros    = '0' * eachByte
	blanks   = ' ' * eachByte
)

// plainCodes holds every group code but 999 as most writers spell it, right
// aligned in three places, at the number of its digits read as hexadecimal
// ones: the three bytes as they are loaded, and above them the code (from bit
// 32 on) and its class (from bit 48 on). It is never written after the package
// is loaded.
var plainCodes = plainCodeTable()

func plainCodeTable() (t [1 << 12]uint64) {
	for code := range 999 {
		c := [3]byte{byte(code / 100), byte(code / 10 % 10), byte(code % 10)}
		at := int(c[0])<<8 | int(c[1])<<4 | int(c[2])
		for i := range c {
			c[i] += '0'
		}
		for i := 0; i < 2 && c[i] == '0'; i++ {
			c[i] = ' '
		}
		t[at] = uint64(c[0]) | uint64(c[1])<<8 | uint64(c[2])<<16 | uint64(code)<<32 | uint64(classes[code])<<48
	}
	return t
}

// next moves to the next pair. Comments (999) are passed over.
func (s *scanner) next() bool {
	i := s.pos
	if i >= s.plainEnd {
		return s.nextAny()
	}
	b := (*[plainReach]byte)(s.data[i:])
	w := binary.LittleEndian.Uint32(b[:])
	// The product puts the low halves of the three bytes side by side.
	c := plainCodes[(w&0x0f0f0f)*(1<<24|1<<12|1)>>16&0xfff]
	code, cls, v := int(c>>32&0xffff), class(c>>48), 3+s.endBytes
	if uint32(c)|uint32(s.firstEnd)<<24 != w || b[(v-1)&7] != s.term {
		if code, v = s.shortCode(b); v == 0 {
			return s.nextAny()
		}
		cls = classes[code]
	}

	// The end of the value: a byte equal to the line end becomes zero, and the
	// lowest byte that is zero gets its top bit set.
	val := (*[32]byte)(b[v&7:]) // v is at most 6; the compiler cannot know
	q := binary.LittleEndian.Uint64(val[0:8])
	n := 0 // bytes of the value
	x := q ^ s.terms
	if z := (x - eachByte) &^ x & topBits; z != 0 {
		n = bits.TrailingZeros64(z) >> 3
	} else {
		x = binary.LittleEndian.Uint64(val[8:16]) ^ s.terms
		if z := (x - eachByte) &^ x & topBits; z != 0 {
			n = 8 + bits.TrailingZeros64(z)>>3
		} else {
			x = binary.LittleEndian.Uint64(val[16:24]) ^ s.terms
			z := (x - eachByte) &^ x & topBits
			if z == 0 {
				return s.nextAny()
			}
			n = 16 + bits.TrailingZeros64(z)>>3
		}
	}
	s.code, s.cls, s.ok = code, cls, true
	s.at = s.line
	s.line += 2
	s.pos = i + v + n + 1
	if n > 0 && val[n-1] == '\r' {
		for n > 0 && val[n-1] == '\r' {
			n--
		}
	}
	s.lo, s.hi = i+v, i+v+n

	switch cls {
	case classText, classBinary:
		return true
	case classFloat:
	default:
		return s.wholeValue()
	}
	if n > 7 {
		return s.floatValue(val, n)
	}
	// The z of a flat drawing: a third of all numbers.
	if n == 1 && byte(q) == '0' || n == 3 && q&0xffffff == '0'|'.'<<8|'0'<<16 {
		s.num = 0
		return true
	}
	// All of the number is in q. The sign becomes a leading 0, and what stands
	// behind the point moves one place up.
	q ^= zeros
	neg := 0
	if byte(q) == '-'^'0' {
		neg = 1
	}
	q ^= uint64(neg) * ('-' ^ '0')
	dot := q ^ ('.'^'0')*eachByte
	dot = (dot - eachByte) &^ dot & topBits
	front := (dot ^ (dot - 1)) >> 8 // the bytes before the point
	k := n - bits.TrailingZeros64(dot)>>3 - 1
	dotless := k >> 63        // all ones if there is no point, else 0
	k &^= dotless             // digits behind the point
	digits := n - 1 - dotless // the sign among them
	q = (q&front | q>>8&^front) << (uint(64-8*digits) & 63)
	if noDigit(q) != 0 || digits <= neg {
		return s.floatValue(val, n)
	}
	f := float64(int64(number8(q))) / pow10[k&7] // exact: see func exact
	s.num = math.Float64frombits(math.Float64bits(f) | uint64(neg)<<63)
	return true
}

// wholeValue works out the whole number of the pair at hand.
func (s *scanner) wholeValue() bool {
	if n := s.hi - s.lo; n > 0 && n <= 16 && s.hi >= 8 {
		w := binary.LittleEndian.Uint64(s.data[s.hi-8 : s.hi])
		digits := min(bits.LeadingZeros64(noDigit(w^zeros))>>3, n)
		w = (w ^ zeros) & (^uint64(0) << uint(64-8*digits))
		rest := s.data[s.lo : s.hi-digits]
		for len(rest) > 0 && rest[0] == ' ' {
			rest = rest[1:]
		}
		if len(rest) == 0 && digits > 0 {
			s.whol = int64(number8(w))
			return true
		}
	}
	s.whol, s.ok = anyWhole(s.data[s.lo:s.hi])
	return true
}

// shortCode reads a group code of at most four places, blanks before digits. It
// returns where its value begins, 0 if it is none or a comment.
func (s *scanner) shortCode(b *[plainReach]byte) (code, v int) {
	n := 1
	for b[n] != s.firstEnd {
		if n++; n > 4 {
			return 0, 0
		}
	}
	i := 0
	for i < n-1 && b[i] == ' ' {
		i++
	}
	for ; i < n; i++ {
		c := b[i] - '0'
		if c > 9 {
			return 0, 0
		}
		code = code*10 + int(c)
	}
	if v = n + s.endBytes; b[v-1] != s.term || code > maxCode || code == 999 {
		return 0, 0
	}
	return code, v
}

// floatValue works out the number of the pair at hand, which is n bytes at val.
// Digits are taken eight at a time: at most 8 places before the point and 16
// behind it, 19 digits in all.
func (s *scanner) floatValue(val *[32]byte, n int) bool {
	if val[0] == ' ' {
		lo := s.lo
		for n > 0 && s.data[lo] == ' ' {
			lo++
			n--
		}
		val = (*[32]byte)(s.data[lo:])
	}
	front := binary.LittleEndian.Uint64(val[0:8]) ^ zeros
	neg := 0
	if byte(front) == '-'^'0' {
		neg = 1
	}
	front ^= uint64(neg) * ('-' ^ '0') // the sign becomes a leading 0
	dot := front ^ ('.'^'0')*eachByte
	whole := bits.TrailingZeros64((dot-eachByte)&^dot&topBits) >> 3
	k := n - whole - 1 // digits behind the point
	digits := whole - neg + k
	if whole == 0 || k <= 0 || k > 16 || digits > 19 || val[whole] != '.' {
		s.num, s.ok = anyFloat(s.data[s.lo:s.hi])
		return true
	}
	front <<= uint(64-8*whole) & 63
	back := binary.LittleEndian.Uint64(val[whole+1:whole+9]) ^ zeros
	odd := noDigit(front)
	mant := number8(front) * pow10whole[k]
	if k > 8 {
		odd |= noDigit(back)
		mant += number8(back) * pow10whole[k-8]
		back = binary.LittleEndian.Uint64(val[whole+9:whole+17]) ^ zeros
	}
	back <<= uint(-8*k) & 63
	if odd|noDigit(back) != 0 {
		s.num, s.ok = anyFloat(s.data[s.lo:s.hi])
		return true
	}
	mant += number8(back)
	var f float64
	if digits <= 15 {
		f = float64(int64(mant)) / pow10[k] // exact: see func exact
	} else {
		f = quotient(mant, k)
	}
	s.num = math.Float64frombits(math.Float64bits(f) | uint64(neg)<<63)
	return true
}

// noDigit sets the top bit of each byte of w that is above 9; nothing carries
// from one byte into the next.
func noDigit(w uint64) uint64 {
	return (w&0x7f7f7f7f7f7f7f7f + 0x7676767676767676 | w) & topBits
}
