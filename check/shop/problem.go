package shop

import (
	"fmt"
	"sort"
	"strings"
	"unicode/utf8"
)

// Problem is one fault of a shop file.
type Problem struct {
	Line, Column int    // from 1; the column counts characters
	Key          string // "machine[0].punch.rated"
	Message      string
	Hint         string // the nearest right word, or ""
	Warning      bool   // the file can be used all the same
}

// String is the problem for people, without the file: "12:5: message (did you
// mean "throat")".
func (p Problem) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d:%d: ", p.Line, p.Column)
	if p.Warning {
		b.WriteString("warning: ")
	}
	b.WriteString(p.Message)
	if p.Hint != "" {
		fmt.Fprintf(&b, " (did you mean %s)", quoted(p.Hint))
	}
	return b.String()
}

// quoted puts quotation marks around a hint unless it brings its own.
func quoted(s string) string {
	if strings.Contains(s, "\"") {
		return s
	}
	return "\"" + s + "\""
}

// FormatProblems writes problems a line each, with the file in front.
func FormatProblems(path string, problems []Problem) string {
	var b strings.Builder
	for _, p := range problems {
		if path != "" {
			b.WriteString(path + ":")
		}
		b.WriteString(p.String() + "\n")
	}
	return b.String()
}

// LoadError holds all problems of a shop file, warnings included, in the order
// of the file; the message lists them, a line each.
type LoadError struct {
	Path     string
	Problems []Problem
}

func (e *LoadError) Error() string {
	return strings.TrimSuffix(FormatProblems(e.Path, e.Problems), "\n")
}

func sortProblems(problems []Problem) {
	sort.SliceStable(problems, func(i, j int) bool {
		a, b := problems[i], problems[j]
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		if a.Column != b.Column {
			return a.Column < b.Column
		}
		return a.Message < b.Message
	})
}

// nearest gives the word closest to wrong by edit distance, "" when none is
// close: at most one edit for every three letters, and never more than half.
func nearest(wrong string, words []string) string {
	best, bestDist := "", 1+utf8.RuneCountInString(wrong)/3
	for _, w := range words {
		d := editDistance(strings.ToLower(wrong), strings.ToLower(w))
		if d < bestDist || d == bestDist && (best == "" || w < best) {
			if 2*d <= max(len(w), 2) {
				best, bestDist = w, d
			}
		}
	}
	return best
}

// editDistance counts insertions, deletions, changes and swaps of neighbours
// (optimal string alignment).
func editDistance(a, b string) int {
	x, y := []rune(a), []rune(b)
	if len(x) > 60 || len(y) > 60 {
		return 60
	}
	rows := make([][]int, len(x)+1)
	for i := range rows {
		rows[i] = make([]int, len(y)+1)
		rows[i][0] = i
	}
	for j := range rows[0] {
		rows[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			rows[i][j] = min(rows[i-1][j]+1, rows[i][j-1]+1, rows[i-1][j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				rows[i][j] = min(rows[i][j], rows[i-2][j-2]+1)
			}
		}
	}
	return rows[len(x)][len(y)]
}
