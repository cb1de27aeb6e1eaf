package measure

import (
	"strconv"
	"strings"
)

// ScaleNote reads the scale that a text states as true over drawn size: 5 of
// "SCALE 1:5", "M 1:5", "Maßstab 1 : 5", "ÉCHELLE 1/5" or "1:5", 0.5 of "2:1",
// 4 of `3" = 1'-0"`, 1 of "FULL SIZE". word tells that the text says that it is
// a scale: a bare ratio may be a slope or a date. Factors beyond 1000 are none.
func ScaleNote(text string) (factor float64, word, ok bool) {
	if len(text) > 80 {
		return 0, false, false
	}
	rest := strings.TrimSpace(plainLetters(text))
	for _, w := range [...]string{"drawing scale", "scale", "masstab", "massstab", "echelle", "escala", "scala", "schaal", "skala", "meritko", "масштаб", "ech", "esc", "mst", "m"} {
		i := strings.Index(rest, w)
		if i < 0 || i > 0 && letterByte(rest[i-1]) {
			continue
		}
		tail := strings.TrimLeft(rest[i+len(w):], " \t.:=(")
		if len(w) <= 3 && (i > 0 || tail == "" || tail[0] < '0' || tail[0] > '9') || tail != "" && letterByte(tail[0]) && tail[0] != 'f' && tail[0] != 'h' {
			continue
		}
		rest, word = tail, true
		break
	}
	rest = strings.TrimSpace(strings.TrimRight(rest, " )."))
	switch rest {
	case "full size", "full", "full scale":
		return 1, word, word || rest != "full"
	case "half size", "half", "half scale":
		return 2, word, word || rest != "half"
	}
	if paper, foot, found := strings.Cut(rest, "="); found {
		p, perr := Length(strings.TrimSpace(paper))
		f, ferr := Length(strings.TrimSpace(foot))
		if perr != nil || ferr != nil || p.Unit == "" || f.Unit == "" || !(p.MM > 0) {
			return 0, word, false
		}
		factor = f.MM / p.MM
		return factor, word, factor >= 1e-3 && factor <= 1e3
	}
	sign := ":"
	if !strings.Contains(rest, sign) {
		sign = "/"
	}
	a, z, found := strings.Cut(rest, sign)
	if !found {
		return 0, word, false
	}
	if k := strings.IndexAny(z, " \t,;("); k > 0 && word {
		z = z[:k] // "SCALE 1:5 ON A3"
		if strings.TrimSpace(z) == "" {
			return 0, word, false
		}
	}
	drawn, err1 := strconv.ParseFloat(strings.Replace(strings.TrimSpace(a), ",", ".", 1), 64)
	size, err2 := strconv.ParseFloat(strings.Replace(strings.TrimSpace(z), ",", ".", 1), 64)
	// One of the two is 1: "3/8" is a length, "2024/05" a date.
	if err1 != nil || err2 != nil || !(drawn > 0) || !(size > 0) || drawn != 1 && size != 1 || sign == "/" && !word {
		return 0, word, false
	}
	factor = size / drawn
	return factor, word, factor >= 1e-3 && factor <= 1e3
}

func letterByte(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= 0x80 }

// plainLetters folds a text to small letters without accents.
func plainLetters(s string) string {
	return plainer().Replace(strings.ToLower(s))
}

func plainer() *strings.Replacer {
	return strings.NewReplacer("ß", "s", "é", "e", "è", "e", "ê", "e", "ë", "e", "á", "a", "à", "a", "â", "a", "ä", "a", "å", "a", "ã", "a",
		"í", "i", "ì", "i", "î", "i", "ó", "o", "ò", "o", "ô", "o", "ö", "o", "õ", "o", "ú", "u", "ù", "u", "û", "u", "ü", "u", "ç", "c", "ñ", "n", "ě", "e", "ř", "r", "ž", "z", "š", "s", "č", "c", "ý", "y", "ł", "l", "ś", "s", "ń", "n", "ż", "z")
}
