package dxfread

import (
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Text in DXF hides letters behind three kinds of escapes: \U+XXXX and
// \M+nXXXX for letters outside the code page, %% for the drafting symbols, and
// the formatting codes of MTEXT. All are resolved to plain text here; Ø, ° and
// ± stand for the symbols.

// plainName resolves \U+ and \M+ in a name or a value without formatting.
func plainName(s string) string {
	if !strings.Contains(s, `\U+`) && !strings.Contains(s, `\M+`) &&
		!strings.Contains(s, `\u+`) && !strings.Contains(s, `\m+`) {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		if r, n := letterEscape(s[i:]); n > 0 {
			b.WriteString(r)
			i += n
			continue
		}
		b.WriteByte(s[i])
		i++
	}
	return b.String()
}

// letterEscape reads \U+XXXX or \M+nXXXX at the start of s and gives the
// letters and the length of the escape; 0 if there is none. Two halves of a
// surrogate pair make one letter.
func letterEscape(s string) (string, int) {
	if len(s) < 7 || s[0] != '\\' || s[2] != '+' {
		return "", 0
	}
	switch s[1] {
	case 'U', 'u':
		v, ok := hex4(s[3:])
		if !ok {
			return "", 0
		}
		r := rune(v)
		if utf16.IsSurrogate(r) {
			if len(s) >= 14 && s[7] == '\\' && (s[8] == 'U' || s[8] == 'u') && s[9] == '+' {
				if w, ok := hex4(s[10:]); ok {
					if both := utf16.DecodeRune(r, rune(w)); both != utf8.RuneError {
						return string(both), 14
					}
				}
			}
			r = utf8.RuneError
		}
		if r == 0 {
			return "", 7
		}
		return string(r), 7
	case 'M', 'm':
		if len(s) < 8 {
			return "", 0
		}
		v, ok := hex4(s[4:])
		if !ok {
			return "", 0
		}
		var page codePage
		switch s[3] {
		case '1':
			page = findCodePage("932")
		case '2':
			page = findCodePage("950")
		case '3':
			page = findCodePage("949")
		case '5':
			page = findCodePage("936")
		case '4':
			return "\ufffd", 8 // Johab: no table at hand
		default:
			return "", 0
		}
		raw := []byte{byte(v >> 8), byte(v)}
		if raw[0] == 0 {
			raw = raw[1:]
		}
		return strings.Trim(decodeWith(page.enc, raw), "\x00"), 8
	}
	return "", 0
}

func hex4(s string) (uint64, bool) {
	if len(s) < 4 {
		return 0, false
	}
	for i := range 4 {
		c := s[i]
		if c < '0' || c > '9' && c < 'A' || c > 'F' && c < 'a' || c > 'f' {
			return 0, false
		}
	}
	v, err := strconv.ParseUint(s[:4], 16, 16)
	return v, err == nil
}

// plainText resolves the escapes of TEXT, ATTRIB and ATTDEF.
func plainText(s string, t *textCoder) string {
	if strings.IndexByte(s, '\\') < 0 && strings.IndexByte(s, '%') < 0 && strings.IndexByte(s, '^') < 0 {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		if r, n := letterEscape(s[i:]); n > 0 {
			b.WriteString(r)
			i += n
		} else if r, n := percentEscape(s[i:], t); n > 0 {
			b.WriteString(r)
			i += n
		} else if r, n := caretEscape(s[i:]); n > 0 {
			b.WriteString(r)
			i += n
		} else {
			b.WriteByte(s[i])
			i++
		}
	}
	return b.String()
}

// percentEscape reads %%c, %%d, %%p, %%nnn, %%% and the switches %%u, %%o, %%k
// at the start of s.
func percentEscape(s string, t *textCoder) (string, int) {
	if len(s) < 3 || s[0] != '%' || s[1] != '%' {
		return "", 0
	}
	switch s[2] {
	case 'c', 'C':
		return "Ø", 3
	case 'd', 'D':
		return "°", 3
	case 'p', 'P':
		return "±", 3
	case 'u', 'U', 'o', 'O', 'k', 'K':
		return "", 3
	case '%':
		return "%", 3
	}
	n := 2
	for n < len(s) && n < 5 && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	if n == 2 {
		return "", 0
	}
	v, _ := strconv.Atoi(s[2:n])
	switch {
	case v == 127: // diameter, degree and plus/minus have fixed places in the old fonts
		return "°", n
	case v == 128:
		return "±", n
	case v == 129:
		return "Ø", n
	case v < 32 || v > 255:
		return "", n
	case v < 127:
		return string(rune(v)), n
	}
	if t == nil || t.page.enc == nil || t.page.double {
		return string(rune(v)), n // Latin-1
	}
	return decodeWith(t.page.enc, []byte{byte(v)}), n
}

// caretEscape reads the caret notation of control characters: a tab becomes a
// blank, a line feed a new line, "^ " a caret.
func caretEscape(s string) (string, int) {
	if len(s) < 2 || s[0] != '^' {
		return "", 0
	}
	switch s[1] {
	case ' ':
		return "^", 2
	case 'I':
		return " ", 2
	case 'J':
		return "\n", 2
	case 'M':
		return "", 2
	}
	return "", 0
}

// plainMText resolves the formatting codes of MTEXT: paragraphs become lines,
// stacked fractions "3/8" with a blank between a digit and the fraction,
// fonts, heights, colours and groups vanish.
func plainMText(s string, t *textCoder) string {
	if strings.IndexByte(s, '\\') < 0 && strings.IndexByte(s, '%') < 0 &&
		strings.IndexByte(s, '^') < 0 && strings.IndexByte(s, '{') < 0 && strings.IndexByte(s, '}') < 0 {
		return s
	}
	var b strings.Builder
	stacked := false // the last thing written was a fraction
	last := byte(0)
	put := func(t string) {
		if t == "" {
			return
		}
		if stacked && t[0] >= '0' && t[0] <= '9' {
			b.WriteByte(' ')
		}
		stacked = false
		b.WriteString(t)
		last = t[len(t)-1]
	}
	for i := 0; i < len(s); {
		if r, n := letterEscape(s[i:]); n > 0 {
			put(r)
			i += n
			continue
		}
		if r, n := percentEscape(s[i:], t); n > 0 {
			put(r)
			i += n
			continue
		}
		if r, n := caretEscape(s[i:]); n > 0 {
			put(r)
			i += n
			continue
		}
		c := s[i]
		if c == '{' || c == '}' {
			i++
			continue
		}
		if c != '\\' || i+1 >= len(s) {
			put(s[i : i+1])
			i++
			continue
		}
		i++
		c = s[i]
		i++
		switch c {
		case '\\', '{', '}':
			put(string(c))
		case 'P', 'N', 'X', 'n':
			put("\n")
		case '~':
			put(" ")
		case 'L', 'l', 'O', 'o', 'K', 'k':
		case 'A', 'C', 'c', 'F', 'f', 'H', 'p', 'Q', 'T', 'W':
			if end := strings.IndexByte(s[i:], ';'); end >= 0 {
				i += end + 1
			} else {
				put(`\` + string(c)) // no end: it is no code
			}
		case 'S':
			part, n := stack(s[i:], t)
			if n == 0 {
				put(`\S`)
				break
			}
			i += n
			if part == "" {
				break
			}
			if last >= '0' && last <= '9' {
				put(" ")
			}
			put(part)
			stacked = true
		default:
			i--
			put(`\`)
		}
	}
	return b.String()
}

// stack reads what follows \S up to its semicolon: an upper and a lower part
// parted by /, # or ^. One part alone (a raised or lowered text) stands by
// itself. It gives the length of what it read, 0 if there is no semicolon.
func stack(s string, t *textCoder) (string, int) {
	var parts [2]strings.Builder
	side := 0
	for i := 0; i < len(s); {
		if r, n := letterEscape(s[i:]); n > 0 {
			parts[side].WriteString(r)
			i += n
			continue
		}
		if r, n := percentEscape(s[i:], t); n > 0 {
			parts[side].WriteString(r)
			i += n
			continue
		}
		switch c := s[i]; {
		case c == '\\' && i+1 < len(s):
			parts[side].WriteByte(s[i+1])
			i += 2
		case c == ';':
			up, low := strings.TrimSpace(parts[0].String()), strings.TrimSpace(parts[1].String())
			if up == "" || low == "" {
				return up + low, i + 1
			}
			return up + "/" + low, i + 1
		case (c == '/' || c == '#' || c == '^') && side == 0:
			side = 1
			i++
		default:
			parts[side].WriteByte(c)
			i++
		}
	}
	return "", 0
}
