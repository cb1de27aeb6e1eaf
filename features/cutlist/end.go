package cutlist

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"burrside/features/measure"
)

// End is how one end of a piece is cut or worked.
type End struct {
	Work     string  // "square", "mitre", "saddle", or a shop's own word
	AngleRad float64 // of a mitre off square; of a saddle between the axes
	HeaderMM float64 // of a saddle: the pipe that it fits to; 0 one of the same size
}

// The ends that need no tool of their own, and the saddle.
const (
	SquareEnd = "square"
	Mitre     = "mitre"
	Saddle    = "saddle"
)

// Text names an end for people.
func (e End) Text(unit string) string {
	deg := measure.FormatNumber(e.AngleRad*180/math.Pi, 1)
	switch e.Work {
	case Mitre:
		return "mitre " + deg + " deg off square"
	case Saddle:
		s := "saddle at " + deg + " deg"
		if e.HeaderMM > 0 {
			return s + " to a pipe of " + measure.FormatLength(e.HeaderMM, unit)
		}
		return s + " to its own size"
	}
	return e.Work
}

var (
	endWord  = regexp.MustCompile(`^([A-ZÉÈÜÄÖ][A-ZÉÈÜÄÖ-]*)\.?(?: (CUT|END|ENDS))?$`)
	endAngle = regexp.MustCompile(`^(?:([A-ZÉÈÜÄÖ][A-ZÉÈÜÄÖ-]*)\.? ?)?([0-9]+(?:[.,][0-9]+)?) ?(?:°|DEG|DEGREES|GRAD)?(?: ?TO (.+))?$`)
)

// ParseEnds reads the two ends of a piece: "" and "square"; "mitre 45" (the
// other end square); "mitre 45/45"; "saddle 90", "saddle 90 to 60.3"; a word of
// the shop's own; "A / B" or "A + B" for two that differ; "both" after one for
// both. A mitre is told off square. Bare sizes are taken in bare.
func ParseEnds(text string, bare Unit) (ends [2]End, err error) {
	square := End{Work: SquareEnd}
	t := tidy(text)
	if len(t) > 120 {
		return ends, errors.New("it is longer than any end")
	}
	if t == "" {
		return [2]End{square, square}, nil
	}
	both := false
	for _, w := range []string{" BOTH ENDS", " BOTH", " BEIDE", " BEIDSEITIG", " 2X"} {
		if strings.HasSuffix(t, w) {
			both, t = true, strings.TrimSuffix(t, w)
			break
		}
	}
	parts := splitEnds(t)
	if len(parts) > 2 {
		return ends, errors.New("a piece has two ends")
	}
	word := ""
	for i, p := range parts {
		e, w, err := parseEnd(strings.TrimSpace(p), word, bare)
		if err != nil {
			return ends, err
		}
		ends[i], word = e, w
	}
	switch {
	case len(parts) == 2 && both:
		return ends, errors.New("both ends are told, and both is said")
	case len(parts) == 2:
	case both || ends[0].Work == SquareEnd:
		ends[1] = ends[0]
	default:
		ends[1] = square
	}
	return ends, nil
}

// splitEnds parts a text at the signs between two ends. A fraction bar of a size
// ("to 2-3/8 in") is none: only the first part's angle, or a word, stands
// before a bar.
func splitEnds(t string) []string {
	for _, sep := range []string{" + ", "+", " AND ", " & ", " UND ", " ET ", " / "} {
		if strings.Contains(t, sep) {
			return strings.Split(t, sep)
		}
	}
	if a, b, ok := strings.Cut(t, "/"); ok && !strings.Contains(a, " TO ") {
		if strings.Contains(b, "/") && !strings.Contains(b, " TO ") {
			return strings.Split(t, "/")
		}
		return []string{a, b}
	}
	return []string{t}
}

// parseEnd reads one end; before is the word of the end before it, that a bare
// angle takes over.
func parseEnd(p, before string, bare Unit) (e End, word string, err error) {
	if m := endWord.FindStringSubmatch(p); m != nil {
		switch w := workOf(m[1]); w {
		case SquareEnd:
			return End{Work: w}, m[1], nil
		case Mitre:
			return e, "", errors.New("the angle of the mitre is missing: mitre 45")
		case Saddle:
			return e, "", errors.New("the angle of the saddle is missing: saddle 90")
		default:
			return End{Work: strings.ToLower(m[1])}, m[1], nil
		}
	}
	m := endAngle.FindStringSubmatch(p)
	if m == nil {
		return e, "", fmt.Errorf("%q is no end that is understood: square, mitre 45, mitre 45/45, saddle 90, or the word of an end tool", strings.ToLower(p))
	}
	word = m[1]
	if word == "" {
		word = before
	}
	deg, err := strconv.ParseFloat(strings.Replace(m[2], ",", ".", 1), 64)
	if err != nil {
		return e, "", fmt.Errorf("%q is no angle", m[2])
	}
	switch workOf(word) {
	case Mitre:
		if m[3] != "" {
			return e, "", fmt.Errorf("a mitre goes to nothing: %q", strings.ToLower(p))
		}
		if !(deg > 0 && deg <= 75) {
			return e, "", fmt.Errorf("a mitre of %s deg off square cannot be, at most 75", m[2])
		}
		return End{Work: Mitre, AngleRad: deg * math.Pi / 180}, word, nil
	case Saddle:
		if !(deg >= 15 && deg <= 165) {
			return e, "", fmt.Errorf("a saddle at %s deg cannot be, from 15 to 165", m[2])
		}
		e = End{Work: Saddle, AngleRad: deg * math.Pi / 180}
		if m[3] != "" {
			s, err := ParseSection(m[3], bare)
			if err == nil && s.Kind == RoundTube {
				e.HeaderMM = s.SizeMM[0]
				return e, word, nil
			}
			r := &sectionReader{bare: bare}
			mm, _, err := r.sizes([]string{m[3]})
			if err != nil || !(mm[0] >= 5 && mm[0] <= 1500) {
				return e, "", fmt.Errorf("%q is no pipe that a saddle fits to", strings.ToLower(m[3]))
			}
			e.HeaderMM = mm[0]
		}
		return e, word, nil
	case SquareEnd:
		if deg == 90 || deg == 0 {
			return End{Work: SquareEnd}, word, nil
		}
	case "":
		return e, "", fmt.Errorf("%q: is it a mitre or a saddle?", strings.ToLower(p))
	}
	return e, "", fmt.Errorf("%q: an angle is for a mitre or a saddle", strings.ToLower(p))
}

// workOf tells the usual ends by their words, English, German, French; another
// word is the shop's own, in small letters.
func workOf(word string) string {
	switch word {
	case "SQUARE", "SQ", "STRAIGHT", "PLAIN", "GERADE", "DROIT", "DROITE", "RECHTWINKLIG":
		return SquareEnd
	case "MITRE", "MITER", "MITRED", "MITERED", "GEHRUNG", "ONGLET", "BIAIS":
		return Mitre
	case "SADDLE", "COPE", "COPED", "SATTEL":
		return Saddle
	}
	return strings.ToLower(word)
}
