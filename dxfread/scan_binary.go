package dxfread

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
)

// nextBinary reads one pair of the binary form.
func (s *scanner) nextBinary() bool {
	data, i := s.data, s.pos
	s.at = int64(i)
	if i >= len(data) {
		return false
	}
	code := 0
	if s.form == formBinary1 && data[i] != 255 {
		code = int(data[i])
		i++
	} else {
		if s.form == formBinary1 {
			i++
		}
		if i+2 > len(data) {
			return s.endOrTruncated()
		}
		code = int(binary.LittleEndian.Uint16(data[i:]))
		i += 2
	}
	if code > maxCode {
		return s.fail(fmt.Errorf("%w: %d", errGroupCode, code))
	}
	s.code, s.cls, s.ok = code, classes[code], true
	rest := data[i:]
	size := 0
	s.lo, s.hi = i, i
	switch s.cls {
	case classText:
		end := bytes.IndexByte(rest, 0)
		if end < 0 {
			return s.fail(ErrTruncated)
		}
		s.hi, size = i+end, end+1
	case classBinary:
		if len(rest) == 0 || len(rest) < 1+int(rest[0]) {
			return s.fail(ErrTruncated)
		}
		size = 1 + int(rest[0])
		s.lo, s.hi = i+1, i+size
	case classFloat:
		if size = 8; len(rest) >= size {
			s.num = math.Float64frombits(binary.LittleEndian.Uint64(rest))
		}
	case classInt16:
		if size = 2; len(rest) >= size {
			s.whol = int64(int16(binary.LittleEndian.Uint16(rest)))
		}
	case classInt32:
		if size = 4; len(rest) >= size {
			s.whol = int64(int32(binary.LittleEndian.Uint32(rest)))
		}
	case classInt64:
		if size = 8; len(rest) >= size {
			s.whol = int64(binary.LittleEndian.Uint64(rest))
		}
	case classBool:
		if size = 1; len(rest) >= size {
			s.whol = int64(rest[0])
		}
	}
	if len(rest) < size {
		return s.fail(ErrTruncated)
	}
	s.pos = i + size
	return true
}

// endOrTruncated tells padding after the last pair from a cut pair.
func (s *scanner) endOrTruncated() bool {
	if len(bytes.Trim(s.data[s.pos:], "\x00\x1a\r\n")) == 0 {
		s.pos = len(s.data)
		return false
	}
	return s.fail(ErrTruncated)
}
