package dxfread

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

func scanAll(t *testing.T, data string) (codes []int, values []string, nums []float64, err error) {
	t.Helper()
	s, err := newScanner(context.Background(), []byte(data))
	if err != nil {
		return nil, nil, nil, err
	}
	for s.next() {
		codes = append(codes, s.code)
		values = append(values, string(s.val()))
		nums = append(nums, s.num)
	}
	return codes, values, nums, s.err
}

// sameScan holds that the quick way gives the pairs of the general one.
func sameScan(t *testing.T, data []byte) {
	t.Helper()
	quick, err := newScanner(context.Background(), data)
	if err != nil {
		return
	}
	slow := quick
	for {
		a, b := quick.next(), slow.nextAny()
		if a != b || quick.code != slow.code || quick.pos != slow.pos || quick.line != slow.line || (quick.err == nil) != (slow.err == nil) {
			t.Fatalf("%q: %v pair %d to %d, line %d, %v; generally %v pair %d to %d, line %d, %v", data,
				a, quick.code, quick.pos, quick.line, quick.err, b, slow.code, slow.pos, slow.line, slow.err)
		}
		if !a {
			if quick.err != nil && quick.err.Error() != slow.err.Error() {
				t.Fatalf("%q: %v, generally %v", data, quick.err, slow.err)
			}
			return
		}
		same := quick.cls == slow.cls && quick.ok == slow.ok && quick.at == slow.at && quick.lo == slow.lo && quick.hi == slow.hi
		switch {
		case !quick.ok:
		case quick.cls == classFloat:
			same = same && (quick.num == slow.num && math.Signbit(quick.num) == math.Signbit(slow.num) || math.IsNaN(quick.num) && math.IsNaN(slow.num))
		case quick.cls != classText && quick.cls != classBinary:
			same = same && quick.whol == slow.whol
		}
		if !same {
			t.Fatalf("%q: pair %d %q is %v %d (%v) at %d, generally %q %v %d (%v) at %d", data, quick.code,
				quick.val(), quick.num, quick.whol, quick.ok, quick.at, slow.val(), slow.num, slow.whol, slow.ok, slow.at)
		}
	}
}

// TestFloatExact holds the fused decoding against strconv, bit for bit, on the
// shapes of numbers that DXF writers print.
func TestFloatExact(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	var texts []string
	for range 60000 {
		v := (rng.Float64() - 0.5) * math.Pow(10, float64(rng.IntN(14)-5))
		texts = append(texts,
			strconv.FormatFloat(v, 'f', rng.IntN(20), 64),
			strconv.FormatFloat(v, 'g', rng.IntN(18)+1, 64),
			strconv.FormatFloat(v, 'E', rng.IntN(18), 64),
			strconv.FormatFloat(v, 'f', -1, 64),
			strconv.FormatUint(rng.Uint64(), 10),
			strconv.FormatUint(rng.Uint64(), 10)+"."+strconv.Itoa(rng.IntN(10)),
			"0."+strings.Repeat("0", rng.IntN(8))+strconv.FormatUint(rng.Uint64()>>rng.IntN(60), 10))
		// Halfway between two numbers: the hardest to round.
		h := math.Float64bits(1000*rng.Float64())&^7 | 4
		texts = append(texts, strconv.FormatFloat(math.Float64frombits(h), 'f', 25, 64))
	}
	texts = append(texts, "0", "-0", "0.0", "-0.0", "1", ".5", "5.", "-.5", "+1.5", "1e5", "1E+05", "1e-5", "1d5"[:1]+"e22",
		"9007199254740993", "9007199254740993.0", "9999999999999999999", "18446744073709551615", "18446744073709551616",
		"4.9e-324", "1.7976931348623157e308", "25.000000000000000", "0.1000000000000000055511151231257827", "103.5000000000001")
	for _, end := range []string{"\n", "\r\n", "\r"} {
		for _, text := range texts {
			want, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			// Once at the end of the data and once far from it, where the
			// quick way is taken.
			for _, rest := range []string{"", strings.Repeat("  0"+end+"1234.5678"+end, 8)} {
				s, err := newScanner(context.Background(), []byte(" 10"+end+text+end+rest))
				if err != nil {
					t.Fatal(err)
				}
				if !s.next() || !s.ok || math.Float64bits(s.num) != math.Float64bits(want) {
					t.Fatalf("%q is read as %v, want %v", text, s.num, want)
				}
			}
		}
		texts = texts[len(texts)-2000:]
	}
}

func TestScanOdd(t *testing.T) {
	for _, c := range []struct {
		name, data string
		codes      string
		values     string
		err        string // part of the message; "" for none
	}{
		{"LF", "  0\nSECTION\n  2\nHEADER\n", "0 2", "SECTION|HEADER", ""},
		{"CRLF", "0\r\nSECTION\r\n2\r\nHEADER\r\n", "0 2", "SECTION|HEADER", ""},
		{"CR", "0\rSECTION\r2\rHEADER\r", "0 2", "SECTION|HEADER", ""},
		{"CRCRLF", "0\r\r\nSECTION\r\r\n2\r\r\nHEADER\r\r\n", "0 2", "SECTION|HEADER", ""},
		{"mark", "\xef\xbb\xbf0\nSECTION\n", "0", "SECTION", ""},
		{"tabs", "\t0\t\nSECTION\n 2 \nHEADER\n", "0 2", "SECTION|HEADER", ""},
		{"empty value", "0\nTEXT\n1\n\n8\n0\n", "0 1 8", "TEXT||0", ""},
		{"leading blanks of text stay", "1\n  a b \n", "1", "  a b ", ""},
		{"comment", "999\nby hand\n0\nEOF\n", "0", "EOF", ""},
		{"no end of line", "0\nEOF", "0", "EOF", ""},
		{"blank end", "0\nEOF\n\n \n\x1a", "0", "EOF", ""},
		{"value missing", "0\nEOF\n10\n", "0", "EOF", "line 3: the file ends too early"},
		{"code cut", "0\nEOF\n 1", "0", "EOF", "line 3: the file ends too early"},
		{"word for a code", "0\nLINE\nabc\n1\n", "0", "LINE", `line 3: not a group code: "abc"`},
		{"float for a code", "0\nLINE\n1.5\n1\n", "0", "LINE", `line 3: not a group code: "1.5"`},
		{"negative code", "0\nLINE\n-5\n1\n", "0", "LINE", `line 3: not a group code: "-5"`},
		{"great code", "0\nLINE\n1072\n1\n", "0", "LINE", `line 3: not a group code: "1072"`},
		{"greater code", "0\nLINE\n99999999999999999999\n1\n", "0", "LINE", "not a group code"},
		{"blank line", "0\nLINE\n\n10\n1\n", "0", "LINE", `line 3: not a group code: ""`},
	} {
		sameScan(t, []byte(c.data))
		sameScan(t, []byte(strings.Replace(c.data, "0", strings.Repeat("  0\nX\n", 20)+"0", 1)))
		codes, values, _, err := scanAll(t, c.data)
		var words []string
		for _, n := range codes {
			words = append(words, strconv.Itoa(n))
		}
		if got := strings.Join(words, " "); got != c.codes || strings.Join(values, "|") != c.values {
			t.Errorf("%s: codes %q values %q", c.name, got, strings.Join(values, "|"))
		}
		if c.err == "" && err != nil || c.err != "" && (err == nil || !strings.Contains(err.Error(), c.err)) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.err)
		}
	}
}

func TestScanWhole(t *testing.T) {
	for text, want := range map[string]int64{"1": 1, "  -7": -7, "+3": 3, " 5 ": 5, "2.0": 2, "000012": 12, "999999999999999999": 999999999999999999} {
		for _, rest := range []string{"", strings.Repeat("  0\nX\n", 20)} {
			s, _ := newScanner(context.Background(), []byte("70\n"+text+"\n"+rest))
			if !s.next() || !s.ok || s.whol != want {
				t.Errorf("%q is read as %d (%v)", text, s.whol, s.ok)
			}
		}
	}
	for _, text := range []string{"", "x", "1.5", "99999999999999999999", "0x10"} {
		for _, rest := range []string{"", strings.Repeat("  0\nX\n", 20)} {
			s, _ := newScanner(context.Background(), []byte("70\n"+text+"\n"+rest))
			if !s.next() || s.ok {
				t.Errorf("%q is read as %d", text, s.whol)
			}
		}
	}
}

// TestScanNoNumber: texts that begin like a number are none, however short and
// whatever stands on the next line.
func TestScanNoNumber(t *testing.T) {
	for _, text := range []string{"A", "0.00A", "12A", "1.5x", "-", "-.", ".", "1.2.3", "12.34567A", "1234.567890123A", "12345678A5", "1-2", "   1.5A", "   "} {
		for _, end := range []string{"\n", "\r\n"} {
			data := "10" + end + text + end + strings.Repeat("  0"+end+"1234"+end, 20)
			sameScan(t, []byte(data))
			s, err := newScanner(context.Background(), []byte(strings.Repeat("  0"+end+"X"+end, 8)+data))
			for err == nil && s.next() && s.code != 10 {
			}
			if err != nil || s.code != 10 || s.ok {
				t.Errorf("%q is read as %v (%v, %v)", text, s.num, err, s.err)
			}
		}
	}
}

func TestScanBinaryCut(t *testing.T) {
	whole := []byte(binaryMagic + "\x00\x00SECTION\x00\x02\x00HEADER\x00\x09\x00$A\x00\x0a\x00\x00\x00\x00\x00\x00\x00\xf0\x3f\x46\x00\x07\x00\x22\x01\x01\x36\x01\x02ab")
	for n := len(binaryMagic); n <= len(whole); n++ {
		s, err := newScanner(context.Background(), whole[:n])
		if err != nil {
			t.Fatal(err)
		}
		pairs := 0
		for s.next() {
			pairs++
		}
		if s.err != nil && !errors.Is(s.err, ErrTruncated) {
			t.Errorf("cut at %d: %v", n, s.err)
		}
		if n == len(whole) && (pairs != 7 || s.err != nil) {
			t.Errorf("whole: %d pairs, %v", pairs, s.err)
		}
	}
}

// TestPoll holds that the end of the context stops a scan of any length.
func TestPoll(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	data := []byte(strings.Repeat("10\n1.5\n", 1<<18))
	s, err := newScanner(ctx, data)
	if err != nil {
		t.Fatal(err)
	}
	cancel()
	n := 0
	for s.next() {
		n++
	}
	if !errors.Is(s.err, context.Canceled) || n > pollBytes/7+1 {
		t.Errorf("%d pairs after the end of the context, %v", n, s.err)
	}
}
