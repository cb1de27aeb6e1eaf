package dxfread

import (
	"bytes"
	"fmt"
)

// headBytes is how much of a file refuse needs to see.
const headBytes = 512

// refuse tells at the first bytes that a file is no DXF, and what it seems to
// be instead; nil if it may be one. More than headBytes are not looked at.
func refuse(data []byte) error {
	data = data[:min(len(data), headBytes)]
	if len(data) == 0 {
		return &SyntaxError{Line: 1, Err: fmt.Errorf("%w: the file is empty", ErrNotDXF)}
	}
	if isDWG(data) {
		return &SyntaxError{Line: 1, Err: ErrDWG}
	}
	for _, m := range []struct{ magic, what string }{
		{"\xff\xd8\xff", "a JPEG picture"},
		{"\x89PNG", "a PNG picture"},
		{"GIF8", "a GIF picture"},
		{"%PDF", "a PDF document"},
		{"PK\x03\x04", "a ZIP archive"},
		{"\x1f\x8b", "compressed by gzip"},
		{"ISO-10303", "a STEP file"},
		{"{\\rtf", "a text document (RTF)"},
		{"\xd0\xcf\x11\xe0", "an office document or an e-mail"},
	} {
		if bytes.HasPrefix(data, []byte(m.magic)) {
			return notThis("it is " + m.what)
		}
	}
	text := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), " \t\r\n")
	switch {
	case bytes.HasPrefix(text, []byte("<")):
		if t := bytes.ToLower(text); bytes.HasPrefix(t, []byte("<!doctype html")) || bytes.HasPrefix(t, []byte("<html")) {
			return notThis("it is a web page")
		}
		return notThis("it is a text with tags (XML, SVG or a web page)")
	case isUTF16(data):
		return notThis("it is text in UTF-16; save it as plain text (UTF-8 or ANSI)")
	case len(bytes.Trim(data, "\x00")) == 0:
		return notThis("it begins with nothing but zero bytes")
	}
	return nil
}

func notThis(why string) error {
	return &SyntaxError{Line: 1, Err: fmt.Errorf("%w: %s", ErrNotDXF, why)}
}

// isDWG tells the version mark that a DWG begins with: AC and four digits, or
// AC, a digit, a point and digits in the oldest.
func isDWG(data []byte) bool {
	if len(data) < 6 || !bytes.HasPrefix(data, []byte("AC")) {
		return false
	}
	v := string(data[2:6])
	return isDigits(v) || isDigits(v[:1]) && v[1] == '.' && isDigits(v[2:])
}

// isUTF16 tells text in two bytes a letter: by its mark, or by the zero bytes
// that every second place of plain letters holds.
func isUTF16(data []byte) bool {
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		return true
	}
	if len(data) < 8 {
		return false
	}
	zeros := [2]int{}
	for i, c := range data[:8] {
		if c == 0 {
			zeros[i%2]++
		}
	}
	return zeros == [2]int{0, 4} || zeros == [2]int{4, 0}
}
