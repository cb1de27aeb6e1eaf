package dxfread

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// A DXF file is a list of pairs: a group code and a value whose type follows
// from the code. The scanner yields them one by one without allocating;
// numbers are decoded in the same loop that finds the end of their line.

// class is the type of a value, told by its group code.
type class uint8

const (
	classText   class = iota // also handles
	classFloat               // 8 bytes in the binary form
	classInt16               // 2 bytes
	classInt32               // 4 bytes
	classInt64               // 8 bytes
	classBool                // 1 byte
	classBinary              // length byte and data; hexadecimal text in ASCII
)

// maxCode is the greatest group code that DXF defines.
const maxCode = 1071

// classes holds the class of every group code. It is never written after the
// package is loaded.
var classes = classTable()

// classTable follows the table of group code value types of the DXF reference
// (2018 edition, "Group Code Value Types").
func classTable() (t [maxCode + 1]class) {
	set := func(from, to int, c class) {
		for i := from; i <= to; i++ {
			t[i] = c
		}
	}
	set(10, 59, classFloat)
	set(60, 79, classInt16)
	set(90, 99, classInt32)
	set(110, 149, classFloat)
	set(160, 169, classInt64)
	set(170, 179, classInt16)
	set(210, 239, classFloat)
	set(270, 289, classInt16)
	set(290, 299, classBool)
	set(310, 319, classBinary)
	set(370, 389, classInt16)
	set(400, 409, classInt16)
	set(420, 429, classInt32)
	set(440, 459, classInt32)
	set(460, 469, classFloat)
	set(1004, 1004, classBinary)
	set(1010, 1059, classFloat)
	set(1060, 1070, classInt16)
	set(1071, 1071, classInt32)
	return t
}

// form is how pairs are stored.
type form uint8

const (
	formASCII   form = iota
	formBinary1      // codes of one byte, 255 before a code of two: R12 and older
	formBinary2      // codes of two bytes: R13 and later
)

// pollBytes is how much is scanned between two looks at the context: a few
// milliseconds of work.
const pollBytes = 1 << 19

// scanner reads pairs. After next has returned true, code, class, val and the
// number fields describe the pair; after false, err tells why (nil: the data
// ended between two pairs).
type scanner struct {
	data []byte
	pos  int
	line int64 // ASCII: number of the line at pos, counted from 1
	poll int   // position at which the context is asked next
	form form
	term byte // what ends a line: '\n', or '\r' in files without it
	ctx  context.Context

	terms    uint64 // term in each byte
	firstEnd byte   // first byte of the line ends that the file begins with
	endBytes int    // how many bytes they have
	plainEnd int    // next reads plain pairs itself before this position

	code int
	cls  class
	ok   bool    // the number was understood
	num  float64 // value of a classFloat
	whol int64   // value of an integer class
	lo   int     // text of the value without its line end: data[lo:hi];
	hi   int     // empty for numbers of the binary form
	at   int64   // where the pair starts: line, or byte offset
	err  error
}

// Causes that have no exported name: they carry the value.
var (
	errGroupCode = errors.New("not a group code")
	errNumber    = errors.New("not a number")
)

// binaryMagic starts a binary DXF file.
const binaryMagic = "AutoCAD Binary DXF\r\n\x1a\x00"

// newScanner finds out the form of data. The bytes before the first pair (byte
// order mark, magic) are passed over.
func newScanner(ctx context.Context, data []byte) (s scanner, err error) {
	s = scanner{data: data, line: 1, term: '\n', ctx: ctx}
	if err := refuse(data); err != nil {
		return s, err
	}
	if bytes.HasPrefix(data, []byte(binaryMagic)) {
		s.pos = len(binaryMagic)
		s.form = formBinary2
		if rest := data[s.pos:]; len(rest) > 1 && (rest[0] == 255 || rest[0] == 0 && rest[1] != 0) {
			s.form = formBinary1
		}
		return s, nil
	}
	if bytes.HasPrefix(data, []byte("\xef\xbb\xbf")) {
		s.pos = 3
	}
	s.term = endOfLines(data[s.pos:])
	s.terms = uint64(s.term) * eachByte
	s.firstEnd, s.endBytes = s.term, 1
	if i := bytes.IndexByte(data[s.pos:], s.term); i > 0 && data[s.pos+i-1] == '\r' {
		s.firstEnd, s.endBytes = '\r', 2
	}
	for s.pos < len(data) && isBlank(data[s.pos]) {
		if data[s.pos] == s.term {
			s.line++
		}
		s.pos++
	}
	return s, nil
}

// endOfLines tells which byte ends the lines: the first line decides. Carriage
// returns before a line feed belong to the line end, however many there are.
func endOfLines(data []byte) byte {
	i := bytes.IndexAny(data[:min(len(data), 4096)], "\r\n")
	for i >= 0 && i < len(data) && data[i] == '\r' {
		i++
	}
	if i <= 0 || i >= len(data) || data[i] == '\n' {
		return '\n'
	}
	return '\r'
}

func isBlank(c byte) bool { return c == ' ' || c == '\t' || c == '\r' || c == '\n' }

// val is the text of the value at hand. It is built on demand: storing a slice
// with every pair costs a tenth of the time.
func (s *scanner) val() []byte { return s.data[s.lo:s.hi:s.hi] }

// trim takes the blanks off both ends of the value at hand.
func (s *scanner) trim() {
	for s.lo < s.hi && s.data[s.lo] <= ' ' {
		s.lo++
	}
	for s.lo < s.hi && s.data[s.hi-1] <= ' ' {
		s.hi--
	}
}

// nextAny is next for every form and spelling.
func (s *scanner) nextAny() bool {
	for {
		if s.pos >= s.poll {
			s.poll = s.pos + pollBytes
			if err := s.ctx.Err(); err != nil {
				s.err, s.code = err, -1
				return false
			}
			if s.form == formASCII {
				s.plainEnd = min(s.poll, len(s.data)-plainReach)
			}
		}
		var ok bool
		if s.form == formASCII {
			ok = s.nextASCII()
		} else {
			ok = s.nextBinary()
		}
		if !ok {
			s.code = -1 // no pair is at hand
			return false
		}
		if s.code != 999 {
			return true
		}
	}
}

// nextASCII reads two lines of any spelling.
func (s *scanner) nextASCII() bool {
	data, i := s.data, s.pos
	s.at = s.line
	code := -1
	if i+5 <= len(data) {
		// Three places, right aligned, are what most writers use: a blank is 0
		// like the digit, so that the code comes without a branch.
		a, b, c := data[i], data[i+1], data[i+2]
		end := i + 3
		if data[end] == '\r' && s.term == '\n' {
			end++
		}
		if data[end] == s.term && c-'0' <= 9 && (b-'0' <= 9 || b == ' ' && a == ' ') && (a-'0' <= 9 || a == ' ') {
			code = int(a&15)*100 + int(b&15)*10 + int(c&15)
			i = end + 1
		}
	}
	if code < 0 {
		if code, i = s.codeLine(i); i < 0 {
			return false
		}
	}
	s.code = code
	if i >= len(data) {
		return s.fail(ErrTruncated)
	}
	s.cls, s.ok = classes[code], true
	i = s.textLine(i)
	switch s.cls {
	case classText, classBinary:
	case classFloat:
		s.num, s.ok = anyFloat(s.val())
	default:
		s.whol, s.ok = anyWhole(s.val())
	}
	if i >= len(data) && !s.ok && data[i-1] != s.term {
		return s.fail(ErrTruncated) // a number cut short
	}
	s.pos = i
	s.line += 2
	return true
}

// codeLine reads a group code of any width. It returns the position after its
// line, or -1.
func (s *scanner) codeLine(i int) (code, next int) {
	data := s.data
	for i < len(data) && data[i] == ' ' {
		i++
	}
	start := i
	for i < len(data) {
		c := data[i] - '0'
		if c > 9 {
			break
		}
		code = code*10 + int(c)
		i++
	}
	plain := i > start && i-start <= 4 && code <= maxCode && i < len(data)
	if plain && data[i] != s.term && data[i] == '\r' {
		i++
		plain = i < len(data)
	}
	if plain && data[i] == s.term {
		return code, i + 1
	}
	return s.oddCode()
}

// oddCode reads a line that is not a plain group code: with tabs or trailing
// blanks, at the end of the data, or not a group code at all. It returns the
// position after the line, or -1.
func (s *scanner) oddCode() (code, next int) {
	rest := s.data[s.pos:]
	end := bytes.IndexByte(rest, s.term)
	if end < 0 {
		if len(bytes.Trim(rest, " \t\r\n\x00\x1a")) == 0 {
			s.pos = len(s.data)
			return 0, -1
		}
		end = len(rest)
	}
	text := string(bytes.TrimSpace(rest[:end]))
	code, err := strconv.Atoi(text)
	switch {
	case text == "" && len(bytes.Trim(rest, " \t\r\n\x00\x1a")) == 0:
		s.pos = len(s.data) // only blank lines are left
		return 0, -1
	case err != nil && end == len(rest) && s.pos > 0 && isDigits(text):
		s.fail(ErrTruncated)
		return 0, -1
	case err != nil || code > maxCode || code < 0:
		s.fail(fmt.Errorf("%w: %s", errGroupCode, quote(text)))
		return 0, -1
	case end == len(rest):
		s.fail(ErrTruncated)
		return 0, -1
	}
	return code, s.pos + end + 1
}

func isDigits(t string) bool { return t != "" && strings.Trim(t, "0123456789") == "" }

// textLine takes the line at i as it is, without its end.
func (s *scanner) textLine(i int) int {
	data, term := s.data, s.term
	start := i
	pattern := uint64(term) * 0x0101010101010101
	for i+8 <= len(data) {
		// A byte equal to term becomes zero; the lowest zero byte is exact.
		w := binary.LittleEndian.Uint64(data[i:]) ^ pattern
		if z := (w - 0x0101010101010101) &^ w & 0x8080808080808080; z != 0 {
			return s.endText(start, i+bits.TrailingZeros64(z)>>3)
		}
		i += 8
	}
	for i < len(data) && data[i] != term {
		i++
	}
	return s.endText(start, i)
}

func (s *scanner) endText(start, end int) int {
	next := end + 1
	if end >= len(s.data) {
		next = end
	}
	for end > start && s.data[end-1] == '\r' {
		end--
	}
	s.lo, s.hi = start, end
	return next
}

// anyWhole reads a whole number.
func anyWhole(b []byte) (int64, bool) {
	i := 0
	for i < len(b) && b[i] == ' ' {
		i++
	}
	neg := i < len(b) && b[i] == '-'
	if neg {
		i++
	}
	first, n := i, int64(0)
	for i < len(b) && b[i]-'0' <= 9 {
		n = n*10 + int64(b[i]-'0')
		i++
	}
	if digits := i - first; i < len(b) || digits == 0 || digits > 18 {
		return parseWhole(bytes.TrimSpace(b))
	}
	if neg {
		n = -n
	}
	return n, true
}

// parseWhole reads the forms of integers that anyWhole leaves: a plus
// sign, blanks, "1.0".
func parseWhole(b []byte) (int64, bool) {
	t := string(b)
	if n, err := strconv.ParseInt(t, 10, 64); err == nil {
		return n, true
	}
	f, err := strconv.ParseFloat(t, 64)
	if err != nil || f != math.Trunc(f) || math.Abs(f) > 1e15 {
		return 0, false
	}
	return int64(f), true
}

// fail stops the scanner at the current pair.
func (s *scanner) fail(err error) bool {
	if s.err == nil {
		s.err = &SyntaxError{Line: s.at, Binary: s.form != formASCII, Err: err}
	}
	return false
}

// quote shows at most 40 bytes of a value of the file in a message.
func quote(t string) string {
	if len(t) > 40 {
		t = t[:40] + "..."
	}
	return strconv.QuoteToASCII(t)
}
