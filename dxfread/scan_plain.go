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
// digits, two line ends of 2 bytes, 24 bytes of value and what is loaded beside.
const plainReach = 48

// Constants for eight bytes in one word, the first one lowest.
const (
	eachByte = 0x0101010101010101
	topBits  = 0x8080808080808080
	zeros    = '0' * eachByte
	blanks   = ' ' * eachByte
)

// plainCode is a group code as most writers spell it, right aligned in three
// places.
type plainCode struct {
	bytes uint32 // the three places, the first one lowest
	code  uint16
	cls   class
}

// plainCodes holds every such group code but 999 at the number of its digits
// read as hexadecimal ones. It is never written after the package is loaded.
var plainCodes = plainCodeTable()

func plainCodeTable() (t [1 << 12]plainCode) {
	for code := range 999 {
		c := [3]byte{byte(code / 100), byte(code / 10 % 10), byte(code % 10)}
		at := int(c[0])<<8 | int(c[1])<<4 | int(c[2])
		for i := range c {
			c[i] += '0'
		}
		for i := 0; i < 2 && c[i] == '0'; i++ {
			c[i] = ' '
		}
		t[at] = plainCode{uint32(c[0]) | uint32(c[1])<<8 | uint32(c[2])<<16, uint16(code), classes[code]}
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
	c := &plainCodes[(w&0x0f0f0f)*(1<<24|1<<12|1)>>16&0xfff]
	code, cls, v := int(c.code), c.cls, 3+s.endBytes
	if c.bytes != w&0xffffff || byte(w>>24) != s.firstEnd || b[v-1] != s.term {
		if code, v = s.shortCode(b); v == 0 {
			return s.nextAny()
		}
		cls = classes[code]
	}

	// The end of the value: a byte equal to the line end becomes zero, and the
	// lowest byte that is zero gets its top bit set.
	q := binary.LittleEndian.Uint64(b[v : v+8])
	x := q ^ s.terms
	lo := i + v
	hi := lo
	z := (x - eachByte) &^ x & topBits
	if z == 0 {
		x = binary.LittleEndian.Uint64(b[v+8:v+16]) ^ s.terms
		z = (x - eachByte) &^ x & topBits
		hi += 8
		if z == 0 {
			x = binary.LittleEndian.Uint64(b[v+16:v+24]) ^ s.terms
			z = (x - eachByte) &^ x & topBits
			hi += 8
			if z == 0 {
				return s.nextAny()
			}
		}
	}
	hi += bits.TrailingZeros64(z) >> 3
	s.code, s.cls, s.ok = code, cls, true
	s.pos = hi + 1
	if hi > lo && s.data[hi-1] == '\r' {
		for hi--; hi > lo && s.data[hi-1] == '\r'; hi-- {
		}
	}
	s.lo, s.hi = lo, hi
	s.at = s.line
	s.line += 2

	switch cls {
	case classText, classBinary:
		return true
	case classFloat:
	default:
		return s.wholeValue()
	}
	n := hi - lo
	if n > 7 {
		return s.floatValue()
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
	dotless := k >> 63 // all ones if there is no point, else 0
	k &^= dotless      // digits behind the point
	n -= 1 + dotless   // digits in all, the sign among them
	q = (q&front | q>>8&^front) << (uint(64-8*n) & 63)
	if noDigit(q) != 0 || n <= neg {
		return s.floatValue()
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

// floatValue works out the number of the pair at hand. The loop-free part takes
// at most 8 places before the point and 16 behind it, 19 digits in all.
func (s *scanner) floatValue() bool {
	lo, hi := s.lo, s.hi
	for lo < hi && s.data[lo] == ' ' {
		lo++
	}
	n := hi - lo
	if hi < 16 || n > 26 || n == 0 || hi+8 > len(s.data) {
		s.num, s.ok = anyFloat(s.data[lo:hi])
		return true
	}
	first := binary.LittleEndian.Uint64(s.data[lo:lo+8]) ^ zeros
	neg := 0
	if byte(first) == '-'^'0' {
		neg = 1
	}
	first ^= uint64(neg) * ('-' ^ '0') // the sign becomes a leading 0
	dot := first ^ ('.'^'0')*eachByte
	whole := bits.TrailingZeros64((dot-eachByte)&^dot&topBits) >> 3
	k := n - whole - 1 // digits behind the point
	digits := whole - neg + k
	if whole == 0 || k <= 0 || k > 16 || digits > 19 || s.data[lo+whole] != '.' {
		s.num, s.ok = anyFloat(s.data[lo:hi])
		return true
	}
	first <<= uint(64-8*whole) & 63
	odd := noDigit(first)
	mant := number8(first) * pow10whole[k]
	last := binary.LittleEndian.Uint64(s.data[hi-8:hi]) ^ zeros
	if k > 8 {
		mid := (binary.LittleEndian.Uint64(s.data[hi-16:hi-8]) ^ zeros) >> (uint(128-8*k) & 63) << (uint(128-8*k) & 63)
		odd |= noDigit(mid)
		mant += number8(mid) * 1e8
	} else {
		last = last >> (uint(64-8*k) & 63) << (uint(64-8*k) & 63)
	}
	if odd|noDigit(last) != 0 {
		s.num, s.ok = anyFloat(s.data[lo:hi])
		return true
	}
	mant += number8(last)
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
