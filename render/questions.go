package render

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"burrside/check"
)

// QuestionsWriter writes questions.txt drawing by drawing: for each with open
// questions its name and one plain sentence a question, ready to mail. Nothing
// of the shop is in it: no machine, no tool, no rate. Drawings without a
// question are left out.
type QuestionsWriter struct {
	w   io.Writer
	any bool
	err error // the first
}

// NewQuestions begins questions.txt. Errors of w are told by Close.
func NewQuestions(w io.Writer) *QuestionsWriter { return &QuestionsWriter{w: w} }

// Add writes the questions about a drawing.
func (q *QuestionsWriter) Add(e Entry) {
	if len(e.questions) == 0 {
		return
	}
	var b strings.Builder
	if q.any {
		b.WriteByte('\n')
	}
	q.any = true
	b.WriteString(plainLine(e.drawing) + "\n")
	for _, text := range e.questions {
		b.WriteString("  " + plainLine(text) + "\n")
	}
	q.write(b.String())
}

// Close ends the text. It leaves the writer below open.
func (q *QuestionsWriter) Close() error {
	if !q.any {
		q.write("No open questions.\n")
	}
	return q.err
}

func (q *QuestionsWriter) write(s string) {
	if q.err == nil {
		_, q.err = io.WriteString(q.w, s)
	}
}

// Questions writes questions.txt at once.
func Questions(w io.Writer, reps []*check.Report) error {
	q := NewQuestions(w)
	for _, rep := range reps {
		q.Add(EntryOf(rep))
	}
	return q.Close()
}

// drawingQuestions are the questions about one drawing, without repeats: those
// about the drawing itself first.
func drawingQuestions(rep *check.Report) []string {
	if rep.Err != nil {
		return []string{"We could not read this file (" + errorText(rep) + "): could you send it again, as " + map[string]string{"drawing": "an ASCII DXF", "list": "a CSV"}[thing(rep)] + "?"}
	}
	var out []string
	add := func(q string) {
		if q = sentence(q); q != "" && !slices.Contains(out, q) {
			out = append(out, q)
		}
	}
	for i := range rep.Findings {
		f := &rep.Findings[i]
		if f.Severity == check.Note && !f.CannotTell || f.Who == "shop" || f.Who == "buy" {
			continue
		}
		add(drawingQuestion(f, rep))
	}
	for _, q := range partQuestions(rep.Parts) {
		add(q)
	}
	for _, b := range rep.Bars {
		for _, q := range b.Questions {
			add(q)
		}
	}
	if len(out) == 0 && len(rep.Parts) == 0 && rep.List == nil {
		add("We found no closed outline in this drawing: which lines are the edge of the part?")
	}
	return fewAlike(out)
}

// alikeAtMost is how many questions are asked that differ in their numbers only.
const alikeAtMost = 3

// fewAlike keeps the first few of the questions that are equal but for their
// numbers and parts, and counts the others.
func fewAlike(list []string) []string {
	key := func(q string) string {
		return strings.Map(func(r rune) rune {
			if r >= '0' && r <= '9' || r == '.' || r == '-' {
				return -1
			}
			return r
		}, q)
	}
	var out []string
	seen := map[string]int{}
	last := map[string]int{}
	for _, q := range list {
		k := key(q)
		seen[k]++
		if seen[k] <= alikeAtMost {
			last[k] = len(out)
			out = append(out, q)
		}
	}
	done := map[string]bool{}
	for _, q := range list {
		k := key(q)
		if n := seen[k] - alikeAtMost; n > 0 && !done[k] {
			done[k] = true
			out[last[k]] += fmt.Sprintf(" (And %d more like this.)", n)
		}
	}
	return out
}

// partQuestions gathers the questions about the parts; one that is asked of
// several parts, but for their names, is asked once.
func partQuestions(parts []*check.PartReport) []string {
	type asked struct {
		first string
		text  string // with a mark for the part's name
		names []string
	}
	const mark = "\x00"
	var list []asked
	at := map[string]int{}
	for _, p := range parts {
		for _, q := range p.Questions {
			text := q
			if p.Part != nil && p.Part.Name != "" {
				text = strings.Replace(q, p.Part.Name, mark, 1)
			}
			if k, ok := at[text]; ok && strings.Contains(text, mark) {
				list[k].names = append(list[k].names, p.Part.Name)
				continue
			}
			at[text] = len(list)
			a := asked{first: q, text: text}
			if strings.Contains(text, mark) {
				a.names = []string{p.Part.Name}
			}
			list = append(list, a)
		}
	}
	var out []string
	for _, a := range list {
		switch n := len(a.names); {
		case n < 2:
			out = append(out, a.first)
		case n == len(parts) && n > 3:
			out = append(out, strings.Replace(a.text, mark, fmt.Sprintf("each of the %d parts", n), 1))
		case n > 6:
			out = append(out, strings.Replace(a.text, mark, fmt.Sprintf("%s and %d more parts", strings.Join(a.names[:5], ", "), n-5), 1))
		default:
			out = append(out, strings.Replace(a.text, mark, strings.Join(a.names[:n-1], ", ")+" and "+a.names[n-1], 1))
		}
	}
	return out
}

// drawingQuestion turns a finding about the drawing into a question. Its fix is
// not used: that may speak of the shop.
func drawingQuestion(f *check.Finding, rep *check.Report) string {
	at := ""
	if f.HasAt {
		at = " near " + pointText(f.At.X, f.At.Y)
	}
	switch f.Rule {
	case "no-part":
		return "We found no closed outline in this drawing: which lines are the edge of the part?"
	case "open-outline":
		if f.Got != nil && f.Got.Unit == "mm" {
			return "The outline is open by " + quantityText(*f.Got, "mm") + at + ": should it be closed there by a straight line?"
		}
		return "The outline is open" + at + ": how should it be closed?"
	case "units-doubt", "units-unknown":
		if rep.Sheet != nil && rep.Sheet.Units.Doubt && rep.Sheet.Units.Other != "" {
			return "Is the drawing in " + unitWord(rep.Sheet.Units.Name) + " or in " + unitWord(rep.Sheet.Units.Other) + "?"
		}
		return "In which unit is the drawing: mm or inch?"
	case "read-incomplete":
		if f.Message != "" {
			return sentence(f.Message+at) + " Could you send it again with lines and arcs only?"
		}
		return "The file could not be read to its end: could you send it again?"
	case "duplicate-lines":
		return "Some lines are drawn twice" + at + ": may we take each once?"
	case "gap-bridged":
		return "A gap in the outline was bridged" + at + ": is the outline meant to be closed there?"
	case "line-unexplained":
		return "What is the line" + at + ": a bend, a cut, or a mark?"
	}
	if f.Message == "" {
		return ""
	}
	return f.Message + at + ": is that meant?"
}

// capital begins with a capital letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 || r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// sentence begins with a capital and ends with a mark.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return ""
	}
	s = capital(s)
	if !strings.ContainsRune(".?!", rune(s[len(s)-1])) {
		s += "."
	}
	return s
}
