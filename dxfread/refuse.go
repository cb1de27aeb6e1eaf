package dxfread

import (
	"bytes"
	"fmt"
)

// refuse tells at the first bytes that a file is no DXF, and what it seems to
// be instead; nil if it may be one.
func refuse(data []byte) error {
	if len(data) == 0 {
		return &SyntaxError{Line: 1, Err: fmt.Errorf("%w: the file is empty", ErrNotDXF)}
	}
	if len(data) >= 6 && bytes.HasPrefix(data, []byte("AC")) && isDigits(string(data[2:6])) {
		return &SyntaxError{Line: 1, Err: ErrDWG}
	}
	for _, m := range []struct{ magic, what string }{
		{"\xff\xd8\xff", "a JPEG picture"},
		{"\x89PNG", "a PNG picture"},
		{"GIF8", "a GIF picture"},
		{"%PDF", "a PDF document"},
		{"PK\x03\x04", "a ZIP archive"},
		{"\x1f\x8b", "compressed by gzip"},
		{"\xff\xfe", "text in UTF-16"},
		{"\xfe\xff", "text in UTF-16"},
		{"ISO-10303", "a STEP file"},
	} {
		if bytes.HasPrefix(data, []byte(m.magic)) {
			return &SyntaxError{Line: 1, Err: fmt.Errorf("%w: it is %s", ErrNotDXF, m.what)}
		}
	}
	return nil
}
