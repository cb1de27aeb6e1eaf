package measure

import "strings"

// maxLine is the longest line of a text that is read as one note.
const maxLine = 400

// Lines gives the lines of a text that are read as notes, trimmed. A longer one is
// parted at its sentences. tooLong tells that a piece was too long all the same
// and left out.
func Lines(text string) (lines []string, tooLong bool) {
	for _, line := range strings.Split(text, "\n") {
		pieces := []string{line}
		if len(line) >= maxLine {
			pieces = strings.FieldsFunc(strings.NewReplacer(". ", "\n", "; ", "\n").Replace(line), func(r rune) bool { return r == '\n' })
		}
		for _, p := range pieces {
			switch p = strings.TrimSpace(p); {
			case p == "":
			case len(p) >= maxLine:
				tooLong = true
			default:
				lines = append(lines, p)
			}
		}
	}
	return lines, tooLong
}
