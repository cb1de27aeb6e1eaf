package cutlist

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"burrside/features/measure"
)

// Columns are the columns of a cut list, in any order and any case.
func Columns() []string { return []string{"section", "length", "quantity", "material", "end"} }

// List is a cut list as it was read.
type List struct {
	Lines []Line
	Notes []string // what was left aside or taken for granted, once for the list
	Unit  Unit     // of lengths that state none
	// UnitFrom is "heading" or "asked" where somebody named that unit; "" it is just
	// how the shop works.
	UnitFrom string
}

// Line is one line of a list.
type Line struct {
	Number    int // of the file, from 1
	Section   Section
	LengthMM  float64 // overall, to the longest point of a mitre; 0 not understood
	Quantity  int     // 0 not stated
	Material  string  // as written; "" not stated
	Ends      [2]End
	EndStated bool // else square is taken
	Problems  []Problem
}

// Problem is what is not understood in a line, with its place.
type Problem struct {
	Line, Column int // of the file, from 1; the column in bytes
	Field        string
	Text         string
}

// Error is why a file is no cut list, with its place.
type Error struct {
	Line, Column int
	Text         string
}

func (e *Error) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", e.Line, e.Column, e.Text)
}

// Options steer Read; the zero value takes bare numbers for millimetres.
type Options struct {
	Unit Unit   // of numbers that state none, "mm" or "in"
	From string // who says so, for people: "the shop's", "--units"; "" nobody
	// Stated tells that Unit was asked for, and is not just how the shop works.
	Stated bool
}

// Bounds of a list that is read, far beyond any real one.
const (
	maxBytes = 16 << 20
	maxLines = 100_000
)

// header is the first line of a list.
type header struct {
	comma   rune
	index   map[string]int
	unit    map[string]Unit // of section and length, where the heading states one
	unknown []string
	missing []string
}

// IsList tells whether a file begins like a cut list: its first line names all
// the columns. It reads no further than that.
func IsList(r io.Reader) bool {
	b := bufio.NewReaderSize(io.LimitReader(r, 64<<10), 64<<10)
	line, err := b.ReadString('\n')
	if err != nil && !errors.Is(err, io.EOF) || strings.ContainsRune(line, 0) {
		return false
	}
	h := readHeader(strings.TrimPrefix(line, "\ufeff"))
	return h != nil && len(h.missing) == 0
}

// readHeader reads the first line; nil if it cannot be parted.
func readHeader(line string) *header {
	line = strings.TrimRight(line, "\r\n")
	h := &header{comma: ',', index: map[string]int{}, unit: map[string]Unit{}}
	if strings.Count(line, ";") > strings.Count(line, ",") {
		h.comma = ';'
	}
	c := csv.NewReader(strings.NewReader(line))
	c.Comma, c.LazyQuotes, c.TrimLeadingSpace = h.comma, true, true
	rec, err := c.Read()
	if err != nil {
		return nil
	}
	for i, f := range rec {
		name, unit := heading(f)
		switch _, twice := h.index[name]; {
		case !slices.Contains(Columns(), name):
			if name != "" {
				h.unknown = append(h.unknown, strings.TrimSpace(f))
			}
		case twice:
			h.unknown = append(h.unknown, strings.TrimSpace(f)+" (again)")
		default:
			h.index[name] = i
			if unit != "" {
				h.unit[name] = unit
			}
		}
	}
	for _, name := range Columns() {
		if _, ok := h.index[name]; !ok {
			h.missing = append(h.missing, name)
		}
	}
	return h
}

// heading reads the name of a column and the unit that it may state: "Length",
// "length (mm)", "length_in".
func heading(f string) (name string, unit Unit) {
	words := strings.FieldsFunc(strings.ToLower(f), func(r rune) bool { return strings.ContainsRune(" _()[]/:", r) })
	if len(words) == 2 && (words[0] == "length" || words[0] == "section") {
		switch words[1] {
		case "mm":
			return words[0], "mm"
		case "in", "inch", "inches", `"`:
			return words[0], "in"
		}
	}
	return strings.Join(words, " "), ""
}

// Read reads a cut list. What a line does not tell, or tells so that it is not
// understood, is a problem of that line and keeps no other from being read. The
// error, an *Error, is that the file is no list.
func Read(r io.Reader, opt Options) (*List, error) {
	raw, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, err
	}
	fail := func(line, column int, format string, args ...any) (*List, error) {
		return nil, &Error{line, column, fmt.Sprintf(format, args...)}
	}
	if len(raw) > maxBytes {
		return fail(1, 1, "the file is longer than %d MB", maxBytes>>20)
	}
	list := &List{}
	raw = bytes.TrimPrefix(raw, []byte("\ufeff"))
	switch {
	case bytes.HasPrefix(raw, []byte{0xff, 0xfe}), bytes.HasPrefix(raw, []byte{0xfe, 0xff}), bytes.IndexByte(raw, 0) >= 0:
		return fail(1, 1, "it is no CSV in UTF-8; save it as CSV UTF-8")
	case !utf8.Valid(raw):
		// The Western code page of spreadsheets; its signs above 0x9f are those of Unicode.
		runes := make([]rune, len(raw))
		for i, b := range raw {
			runes[i] = rune(b)
		}
		raw = []byte(string(runes))
		list.Notes = append(list.Notes, "the file is not in UTF-8 and was read in the Western code page")
	}
	first, _, _ := strings.Cut(string(raw), "\n")
	if strings.TrimSpace(first) == "" {
		return fail(1, 1, "the first line names no columns; they are %s", strings.Join(Columns(), ","))
	}
	h := readHeader(first)
	if h == nil {
		return fail(1, 1, "the first line cannot be read; it names the columns %s", strings.Join(Columns(), ","))
	}
	for _, need := range []string{"section", "length"} {
		if _, ok := h.index[need]; !ok {
			return fail(1, 1, "no column named %q; the columns are %s", need, strings.Join(Columns(), ","))
		}
	}
	for _, m := range h.missing {
		list.Notes = append(list.Notes, fmt.Sprintf("there is no column %q", m))
	}
	if len(h.unknown) > 0 {
		list.Notes = append(list.Notes, "columns left aside: "+strings.Join(h.unknown, ", "))
	}
	rd := &lineReader{h: h, opt: opt}
	// Line by line: a quotation mark that does not close spoils no line but its own.
	n := 0
	for text := range strings.Lines(string(raw)) {
		n++
		text = strings.TrimRight(text, "\r\n")
		if n == 1 || strings.Trim(text, " \t\""+string(h.comma)) == "" {
			continue
		}
		if len(list.Lines) == maxLines {
			return fail(n, 1, "the list is longer than %d lines", maxLines)
		}
		list.Lines = append(list.Lines, rd.line(n, text))
	}
	if len(list.Lines) == 0 {
		return fail(1, 1, "no line follows the columns")
	}
	if rd.taken {
		from := opt.From
		if from == "" {
			from = "as usual"
		}
		list.Notes = append(list.Notes, fmt.Sprintf("numbers without a unit are taken as %s, %s", map[Unit]string{"mm": "mm", "in": "inches"}[rd.bare("")], from))
	}
	if rd.fraction {
		list.Notes = append(list.Notes, "sizes and lengths written with a fraction bar are taken as inches")
	}
	list.Unit = rd.bare("length")
	switch {
	case h.unit["length"] != "":
		list.UnitFrom = "heading"
	case opt.Stated:
		list.UnitFrom = "asked"
	}
	return list, nil
}

// lineReader reads the lines under one header.
type lineReader struct {
	h        *header
	opt      Options
	taken    bool // a number without a unit was taken in Options.Unit
	fraction bool // one with a fraction bar in inches, where others are in mm
}

// bare is the unit of numbers of a column that state none.
func (rd *lineReader) bare(column string) Unit {
	if u := rd.h.unit[column]; u != "" {
		return u
	}
	if rd.opt.Unit == "" {
		return "mm"
	}
	return rd.opt.Unit
}

func (rd *lineReader) line(at int, text string) Line {
	l := Line{Number: at}
	c := csv.NewReader(strings.NewReader(text))
	c.Comma, c.LazyQuotes, c.TrimLeadingSpace, c.FieldsPerRecord = rd.h.comma, true, true, -1
	rec, err := c.Read()
	if err != nil {
		l.Problems = append(l.Problems, Problem{at, 1, "", err.Error()})
		return l
	}
	column := func(i int) int { _, col := c.FieldPos(i); return max(1, col) }
	cell := func(name string) string {
		if i, ok := rd.h.index[name]; ok && i < len(rec) {
			return strings.TrimSpace(rec[i])
		}
		return ""
	}
	problem := func(name string, err error) {
		col := 1
		if i, ok := rd.h.index[name]; ok && i < len(rec) {
			col = column(i)
		}
		text := err.Error()
		if v := cell(name); v != "" && !strings.Contains(text, v) {
			text = fmt.Sprintf("%q: %s", short(v), text)
		}
		l.Problems = append(l.Problems, Problem{at, col, name, text})
	}
	// What is not closed runs to the end, so it is the last field.
	last := len(rec) - 1
	if f := strings.TrimSpace(text[min(column(last)-1, len(text)):]); strings.HasPrefix(f, "\"") && (len(f) == 1 || !strings.HasSuffix(f, "\"")) {
		l.Problems = append(l.Problems, Problem{at, column(last), "", "a quotation mark opens here and does not close on the line"})
		return l
	}
	s, err := ParseSection(cell("section"), rd.bare("section"))
	if err != nil {
		problem("section", err)
	}
	l.Section = s
	l.Section.Text = cell("section")
	rd.taken = rd.taken || s.Taken != "" && rd.h.unit["section"] == ""
	rd.fraction = rd.fraction || s.ByFraction && rd.bare("section") != "in"
	if err == nil && s.ByFraction && rd.h.unit["section"] == "mm" {
		problem("section", errors.New("a fraction of an inch stands under a heading in mm; write its unit"))
	}
	if err := rd.length(&l, cell("length")); err != nil {
		problem("length", err)
	}
	if text := cell("quantity"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > 10_000_000 {
			problem("quantity", errors.New("it is not a whole number of pieces"))
		} else {
			l.Quantity = n
		}
	}
	l.Material = cell("material")
	if len(l.Material) > 80 {
		problem("material", errors.New("it is longer than any material's name"))
		l.Material = ""
	}
	end := cell("end")
	l.EndStated = end != ""
	if l.Ends, err = ParseEnds(end, rd.bare("section")); err != nil {
		problem("end", err)
	}
	if len(l.Problems) == 0 {
		lengthWithin(&l, problem)
	}
	return l
}

// lengthWithin refuses a piece that no bar gives, and one that its mitres leave
// nothing of. A mitre across a height h at an angle a off square takes h tan a of
// the length (plane geometry); where the section may be mitred either way, the
// lesser side counts.
func lengthWithin(l *Line, problem func(string, error)) {
	if l.LengthMM < 2 {
		problem("length", errors.New("it is shorter than anything that is cut"))
		return
	}
	if l.LengthMM > 100_000 {
		problem("length", errors.New("it is longer than anything that is cut"))
		return
	}
	h := l.Section.SizeMM[0]
	if b := l.Section.SizeMM[1]; b > 0 {
		h = min(h, b)
	}
	run := 0.0
	for _, e := range l.Ends {
		if e.Work != Mitre {
			continue
		}
		one := h * math.Tan(e.AngleRad)
		run += one
		if one >= l.LengthMM {
			problem("length", fmt.Errorf("a mitre of %s deg alone takes %s mm of it", measure.FormatNumber(e.AngleRad*180/math.Pi, 1), measure.FormatNumber(one, 1)))
			return
		}
	}
	if l.Section.Kind == RoundTube && coped(l) >= l.LengthMM {
		problem("length", errors.New("its saddles leave nothing of it"))
		return
	}
	if run > l.LengthMM {
		problem("length", fmt.Errorf("the two mitres take %s mm of it together, more than there is; do both run the same way?", measure.FormatNumber(run, 1)))
	}
}

// coped is what the saddles of a round tube take of its length along the side
// where they go deepest, at least: R - sqrt(R^2 - r^2) of each at a right angle
// (plane geometry), more at any other.
func coped(l *Line) float64 {
	sum := 0.0
	for _, e := range l.Ends {
		if e.Work != Saddle {
			continue
		}
		r := l.Section.SizeMM[0] / 2
		R := max(r, e.HeaderMM/2)
		sum += R - math.Sqrt(float64(R*R)-float64(r*r))
	}
	return sum
}

func (rd *lineReader) length(l *Line, text string) error {
	if text == "" {
		return errors.New("the length is missing")
	}
	v, err := measure.Length(text)
	if err != nil {
		return err
	}
	if !(v.MM > 0) {
		return errors.New("a length must be more than zero")
	}
	if v.Unit == "" {
		switch u := rd.bare("length"); {
		case v.Fraction && rd.h.unit["length"] == "mm":
			return errors.New("a fraction of an inch stands under a heading in mm; write its unit")
		case v.Fraction || u == "in":
			rd.fraction = rd.fraction || u != "in"
			v.MM *= 25.4
		}
		if rd.h.unit["length"] == "" && !v.Fraction {
			rd.taken = true
		}
	}
	l.LengthMM = v.MM
	return nil
}

// short cuts a text that is quoted in a message.
func short(s string) string {
	if utf8.RuneCountInString(s) <= 40 {
		return s
	}
	return string([]rune(s)[:40]) + "..."
}
