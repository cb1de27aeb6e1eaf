package dxfread

import (
	"math"
	"strings"
)

// tolerance reads TOLERANCE, a frame of tolerances of form and place, as a text in
// words: "position Ø0.2 | A | B", one line for each row of the frame. It states no
// height.
func (r *reader) tolerance() Entity {
	e := r.texts.take()
	e.Kind = "TOLERANCE"
	r.start(&e.Common)
	value := ""
	var dir Vec
	for r.tag() {
		switch {
		case r.vec(&e.At, 10):
		case r.vec(&dir, 11):
			if dir.X != 0 || dir.Y != 0 {
				e.AngleDeg = math.Atan2(dir.Y, dir.X) * (180 / math.Pi)
			}
		case r.s.code == 1:
			value = r.coder.text(r.s.val())
		default:
			r.common(&e.Common)
		}
	}
	e.Value = plainMText(frameWords(value), &r.coder)
	return r.usable(e, "")
}

// frameWords writes the cells of a frame in words: letters of the font of symbols
// by their names, "%%v" between cells as a bar, "^J" between rows as a new line.
func frameWords(s string) string {
	var out strings.Builder
	for s != "" {
		low := strings.ToLower(s[:min(len(s), 6)])
		switch {
		case strings.HasPrefix(low, "{\\fgdt"):
			end := strings.IndexByte(s, '}')
			semi := strings.IndexByte(s, ';')
			if end < 0 || semi < 0 || semi > end {
				out.WriteString(s)
				return tidyFrame(out.String())
			}
			for _, c := range s[semi+1 : end] {
				out.WriteString(symbolWord(c))
			}
			s = s[end+1:]
		case strings.HasPrefix(low, "%%v"):
			out.WriteString(" | ")
			s = s[3:]
		case strings.HasPrefix(low, "^j"):
			out.WriteString("\n")
			s = s[2:]
		default:
			out.WriteByte(s[0])
			s = s[1:]
		}
	}
	return tidyFrame(out.String())
}

// tidyFrame leaves the bars out that stand between empty cells, and the one
// between a characteristic and its zone.
func tidyFrame(s string) string {
	var rows []string
	for row := range strings.SplitSeq(s, "\n") {
		var cells []string
		for cell := range strings.SplitSeq(row, "|") {
			if cell = strings.Join(strings.Fields(cell), " "); cell != "" {
				cells = append(cells, cell)
			}
		}
		switch {
		case len(cells) > 1:
			rows = append(rows, strings.Join(append([]string{cells[0] + " " + cells[1]}, cells[2:]...), " | "))
		case len(cells) == 1:
			rows = append(rows, cells[0])
		}
	}
	return strings.Join(rows, "\n")
}

// symbolWord names a letter of the font of geometric symbols (from memory; names
// of the characteristics: ISO 1101 table 1).
func symbolWord(c rune) string {
	switch c {
	case 'a':
		return "angularity "
	case 'b':
		return "perpendicularity "
	case 'c':
		return "flatness "
	case 'd', 'k':
		return "profile "
	case 'e':
		return "circularity "
	case 'f':
		return "parallelism "
	case 'g':
		return "cylindricity "
	case 'h', 't':
		return "runout "
	case 'i':
		return "symmetry "
	case 'j':
		return "position "
	case 'r':
		return "concentricity "
	case 'u':
		return "straightness "
	case 'n':
		return "Ø"
	case 'l', 'm', 's', 'p':
		return " (" + strings.ToUpper(string(c)) + ")"
	}
	return string(c)
}
