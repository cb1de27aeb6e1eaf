package render

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
)

// plainLine makes one printable line of a text: no control characters, no
// text direction marks, no broken UTF-8, so that a name in a drawing cannot
// steer the terminal.
func plainLine(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r == '\n' || r == '\t' || r == '\r' || r == ' ':
			b.WriteByte(' ')
		case r == utf8.RuneError || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || !unicode.IsPrint(r):
			b.WriteByte('?')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// glue joins a number and its unit, which should not stand on two lines.
func glue(words []string) []string {
	out := words[:0:0]
	for i, w := range words {
		if i > 0 {
			last := out[len(out)-1]
			switch strings.TrimRight(w, ".,;:)") {
			case "mm", "in", "kN", "MPa", "min", "kg", "%", "s", "mm2", "deg":
				if c := last[len(last)-1]; c >= '0' && c <= '9' && !strings.Contains(last, " ") {
					out[len(out)-1] = last + " " + w
					continue
				}
			}
		}
		out = append(out, w)
	}
	return out
}

func wrapColumns(s string, width int) []string { return wrapHang(s, width, width) }

// wrapHang breaks a line at spaces; a word longer than a line is cut. The first
// line may be first columns wide, the others rest.
func wrapHang(s string, first, rest int) []string {
	first, rest = max(first, 8), max(rest, 8)
	var out []string
	line, n, width := "", 0, first
	flush := func() {
		out = append(out, line)
		line, n, width = "", 0, rest
	}
	for _, word := range glue(strings.Fields(s)) {
		c := columns(word)
		if n > 0 && n+1+c > width {
			flush()
		}
		for c > width {
			k, cut := 0, 0
			for i, r := range word {
				if k+runewidth.RuneWidth(r) > width {
					cut = i
					break
				}
				k += runewidth.RuneWidth(r)
			}
			line = word[:cut]
			word = word[cut:]
			c = columns(word)
			flush()
		}
		if n > 0 {
			line, n = line+" "+word, n+1+c
		} else {
			line, n = word, c
		}
	}
	if n > 0 || len(out) == 0 {
		out = append(out, line)
	}
	return out
}

// columns is the width of s on a terminal: combining marks take none, wide
// letters of East Asia two.
func columns(s string) int {
	n := 0
	for _, r := range s {
		n += runewidth.RuneWidth(r)
	}
	return n
}
