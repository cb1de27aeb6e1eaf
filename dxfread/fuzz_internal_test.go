package dxfread

import (
	"context"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

// fuzzScan scans data and checks what every pair must keep.
func fuzzScan(t *testing.T, data []byte) {
	sameScan(t, data)
	s, err := newScanner(context.Background(), data)
	if err != nil {
		return
	}
	last, at := -1, int64(-1)
	for s.next() {
		if s.pos <= last || s.at < at || s.code < 0 || s.code > maxCode || s.pos > len(data) {
			t.Fatalf("pair %d at %d, position %d after %d", s.code, s.at, s.pos, last)
		}
		last, at = s.pos, s.at
		if s.form != formASCII || s.cls != classFloat || !s.ok {
			continue
		}
		want, err := strconv.ParseFloat(strings.TrimSpace(string(s.val())), 64)
		if err == nil && math.Float64bits(want) != math.Float64bits(s.num) && !(math.IsNaN(want) && math.IsNaN(s.num)) {
			t.Fatalf("%q is read as %v, not %v", s.val(), s.num, want)
		}
	}
	if s.next() {
		t.Fatal("a pair after the end")
	}
}

func FuzzScanASCII(f *testing.F) {
	for _, s := range []string{"0\nSECTION\n10\n1.5\n70\n 3\n", "0\r\nX\r\n40\r\n-1e-5\r\n", "0\rX\r40\r.5\r", "10\n12345678901234567.890\n", "10\nnan\n310\nABCD\n"} {
		f.Add([]byte(s))
		f.Add([]byte(strings.Repeat(s, 8)))
	}
	f.Fuzz(fuzzScan)
}

// FuzzChunks decodes any bytes in chunks and in one go.
func FuzzChunks(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(oddFile(seed, 8))
	}
	f.Fuzz(func(t *testing.T, data []byte) { sameInChunks(t, "fuzz", data) })
}

func FuzzScanBinary(f *testing.F) {
	for _, s := range []string{"\x00\x00SECTION\x00\x0a\x00\x00\x00\x00\x00\x00\x00\xf0\x3f", "\x00SECTION\x00\x0a\x00\x00\x00\x00\x00\x00\xf0\x3f\xff\xe8\x03x\x00", "\x00\x00X\x00\x36\x01\x02ab\x22\x01\x01\x5a\x00\x01\x02\x03\x04"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) { fuzzScan(t, append([]byte(binaryMagic), data...)) })
}

func FuzzText(f *testing.F) {
	for _, s := range []string{`%%c22 \U+00D8`, `{\fArial;1\S1/16;}\P\~\M+182A0`, `\S^`, `%%`, `\`, `^`, `\U+D83D\U+DE00`} {
		f.Add(s)
	}
	coder := textCoder{page: findCodePage("ANSI_1252")}
	f.Fuzz(func(t *testing.T, s string) {
		s = strings.ToValidUTF8(s, "?") // as the coder hands it on
		for _, got := range []string{plainName(s), plainText(s, &coder), plainMText(s, &coder)} {
			if !utf8.ValidString(got) || len(got) > 3*len(s)+8 {
				t.Fatalf("%q gives %q", s, got)
			}
		}
	})
}

func FuzzCodePages(f *testing.F) {
	for _, p := range []string{"ANSI_1252", "ansi_932", "DOS866", "GB2312", "UTF-8", "undefined", ""} {
		f.Add("AC1015", p, []byte("Ø\xd8\x83\x5c"), false)
	}
	f.Add("AC1021", "", []byte("\xff"), true)
	f.Fuzz(func(t *testing.T, version, page string, raw []byte, bom bool) {
		c, known := chooseText(version, page, bom)
		if c.page.name == "" || !known && page == "" {
			t.Fatalf("no page for %q %q", version, page)
		}
		if got := c.text(raw); !utf8.ValidString(got) || len(got) > 4*len(raw)+4 {
			t.Fatalf("%q gives %q", raw, got)
		}
	})
}
