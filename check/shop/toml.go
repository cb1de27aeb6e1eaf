package shop

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// kind is what a node of the file is.
type kind int

const (
	isTable kind = iota
	isArray
	isString
	isNumber
	isBool
	isOther // a date or a time: nothing in a shop file is one
)

func (k kind) String() string {
	switch k {
	case isTable:
		return "a table"
	case isArray:
		return "a list"
	case isString:
		return "a text"
	case isNumber:
		return "a number"
	case isBool:
		return "true or false"
	case isOther:
		return "a date or time"
	}
	panic("shop: unknown kind of node")
}

// node is a value of the file with the place of its key; in a list, its own place.
type node struct {
	kind      kind
	line, col int
	text      string // of a text; of a number as written
	num       float64
	yes       bool
	keys      []string // of a table, in the order of the file
	kids      map[string]*node
	items     []*node // of a list
	closed    bool    // a table written inside braces, or by a header: not to be opened again
	tables    bool    // a list made by [[...]]
}

func newTable(line, col int) *node {
	return &node{kind: isTable, line: line, col: col, kids: map[string]*node{}}
}

// maxFile bounds a shop file; a real one has some ten kilobytes.
const maxFile = 1 << 20

// maxSyntax bounds the syntax errors that are listed, because each one costs a
// pass over the file.
const maxSyntax = 20

// tree reads a file into nodes. After a syntax error the line is blanked and
// the file read again, so that one run lists all of them; the places of what
// stands elsewhere do not move.
type tree struct {
	data     []byte
	lines    []int // offset of each line's start
	root     *node
	problems []Problem
	broken   bool // statements with syntax errors were left out
	lost     bool // a table's head was among them, or the errors do not end
}

func readTree(data []byte) *tree {
	t := &tree{data: bytes.Clone(data), lines: []int{0}}
	if bytes.HasPrefix(t.data, []byte("\xef\xbb\xbf")) {
		copy(t.data, "   ") // a byte order mark, as some editors write
	}
	for i, c := range t.data {
		if c == '\n' {
			t.lines = append(t.lines, i+1)
		}
	}
	for i := 0; i < len(t.data); {
		c, size := utf8.DecodeRune(t.data[i:])
		if c == utf8.RuneError && size == 1 {
			line, col := t.place(i)
			t.problems = append(t.problems, Problem{Line: line, Column: col, Message: "file is not UTF-8 text; save it as UTF-8"})
			t.root, t.lost = newTable(1, 1), true
			return t
		}
		i += size
	}
	work := bytes.Clone(t.data)
	for range maxSyntax {
		root, semantic, bad, at, good := t.pass(work)
		t.root = root
		if bad == "" {
			t.problems = append(t.problems, semantic...)
			t.crossCheck(work)
			return t
		}
		line, col := t.place(at)
		first, last := t.statement(work, good, line)
		start, end := t.lineBounds(line)
		p := syntaxProblem(string(t.data[start:end]), bad, line, col)
		if first < line {
			start, end := t.lineBounds(first)
			text := strings.TrimSpace(string(t.data[start:end]))
			p.Message += fmt.Sprintf("; what began on line %d, %s, may not be closed", first, text[:min(len(text), 40)])
			p.Hint = ""
		}
		t.problems = append(t.problems, p)
		t.broken = true
		t.lost = t.lost || isHeader(t.line(work, first))
		start, _ = t.lineBounds(first)
		_, end = t.lineBounds(last)
		if strings.TrimSpace(string(work[start:end])) == "" {
			t.lost = true // nothing left to take out: the rest cannot be trusted
			break
		}
		for i := start; i < end; i++ {
			if work[i] != '\n' {
				work[i] = ' '
			}
		}
	}
	if len(t.problems) >= maxSyntax {
		t.lost = true
	}
	if t.root == nil {
		t.root = newTable(1, 1)
	}
	return t
}

// statement gives the lines of the statement that fails on line: it begins
// after the last one that could be read, which ends on line good, and ends
// before the next line that looks like a key or a table's head.
func (t *tree) statement(data []byte, good, line int) (first, last int) {
	first = good + 1
	for first < line {
		if text := t.line(data, first); text != "" && text[0] != '#' {
			break
		}
		first++
	}
	first, last = min(first, line), line
	if first < line {
		if text := t.line(data, line); isHeader(text) || isKey(text) {
			return first, line - 1
		}
		for last < len(t.lines) {
			if text := t.line(data, last+1); isHeader(text) || isKey(text) {
				break
			}
			last++
		}
	}
	return first, last
}

// line is the text of a line, trimmed.
func (t *tree) line(data []byte, line int) string {
	start, end := t.lineBounds(line)
	return strings.TrimSpace(string(data[start:end]))
}

// isHeader tells a line that can only open a table: "[machine.punch]". A line
// of a list can begin with a bracket too, but not with a letter after it.
func isHeader(text string) bool {
	inner := strings.TrimLeft(text, "[ ")
	marked := strings.HasPrefix(text, "[") || strings.HasSuffix(text, "]") && !strings.Contains(text, "[")
	return marked && inner != "" && isBare(inner[0]) && !strings.ContainsAny(inner, "=\"',{")
}

func isBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_'
}

// isKey tells a line that begins with a bare key and an equals sign.
func isKey(text string) bool {
	i := 0
	for i < len(text) && (isBare(text[i]) || text[i] == '-' || text[i] == '.' || text[i] >= '0' && text[i] <= '9') {
		i++
	}
	return i > 0 && isBare(text[0]) && strings.HasPrefix(strings.TrimLeft(text[i:], " \t"), "=")
}

func (t *tree) lineBounds(line int) (start, end int) {
	start = t.lines[line-1]
	end = len(t.data)
	if line < len(t.lines) {
		end = t.lines[line] - 1
	}
	return start, end
}

// place turns an offset into a line and a column, both from 1; columns count
// characters.
func (t *tree) place(offset int) (line, col int) {
	offset = max(0, min(offset, len(t.data)))
	lo, hi := 0, len(t.lines)
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if t.lines[mid] <= offset {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo + 1, utf8.RuneCount(t.data[t.lines[lo]:offset]) + 1
}

// pass reads data once. bad is the first syntax error, at its offset, and good
// the line on which the last statement before it ends; 0 if there is none.
func (t *tree) pass(data []byte) (root *node, semantic []Problem, bad string, at, good int) {
	b := &builder{t: t, root: newTable(1, 1)}
	b.here, b.herePath = b.root, ""
	b.p.Reset(data)
	end := -1
	for b.p.NextExpression() {
		e := b.p.Expression()
		switch e.Kind {
		case unstable.KeyValue:
			end = int(e.Raw.Offset + e.Raw.Length)
			b.keyValue(b.here, b.herePath, e, true)
		case unstable.Table, unstable.ArrayTable:
			for it := e.Key(); it.Next(); {
				end = int(it.Node().Raw.Offset)
			}
			b.header(e, e.Kind == unstable.ArrayTable)
		case unstable.Comment:
		default:
			panic("shop: unknown kind of TOML expression")
		}
	}
	err := b.p.Error()
	if err == nil {
		return b.root, b.problems, "", 0, 0
	}
	if end >= 0 {
		good, _ = t.place(end)
	}
	var perr *unstable.ParserError
	if errors.As(err, &perr) {
		return b.root, b.problems, perr.Message, int(b.p.Range(perr.Highlight).Offset), good
	}
	return b.root, b.problems, err.Error(), max(end, 0), good
}

// crossCheck asks the library's own decoder, so that a fault of the language
// which the tree does not look for is never passed over in silence.
func (t *tree) crossCheck(data []byte) {
	if len(t.problems) > 0 {
		return
	}
	var all map[string]any
	err := toml.Unmarshal(data, &all)
	if err == nil {
		return
	}
	line, col := 1, 1
	var de *toml.DecodeError
	if errors.As(err, &de) {
		row, bytesCol := de.Position()
		if row >= 1 && row <= len(t.lines) {
			line, col = t.place(t.lines[row-1] + max(0, bytesCol-1))
		}
	}
	t.problems = append(t.problems, Problem{Line: line, Column: col, Message: strings.TrimPrefix(err.Error(), "toml: ")})
}

// syntaxProblem words a syntax error, with help for the usual slips.
func syntaxProblem(line, bad string, row, col int) Problem {
	p := Problem{Line: row, Column: col, Message: bad}
	key, val, found := strings.Cut(line, "=")
	key, val = strings.TrimSpace(key), strings.TrimSpace(val)
	if !found || key == "" || val == "" || strings.ContainsAny(val[:1], "[{") {
		return p
	}
	switch {
	case !strings.ContainsAny(val, "\"'"):
		val, _, _ = strings.Cut(strings.TrimLeft(val, "= "), "#")
		p.Message = fmt.Sprintf("%s: a text or a number with a unit stands in quotation marks", bad)
		p.Hint = key + " = " + strconv.Quote(strings.TrimSpace(val))
	case strings.Count(val, "\"")%2 == 1 && strings.HasPrefix(val, "\""):
		p.Message = bad + ": inside quotation marks write inches as in, feet as ft"
	}
	return p
}

// builder makes the tree of one pass.
type builder struct {
	t        *tree
	p        unstable.Parser
	root     *node
	here     *node // the table that key = value lines go to
	herePath string
	problems []Problem
}

func (b *builder) problem(line, col int, key, format string, args ...any) {
	b.problems = append(b.problems, Problem{Line: line, Column: col, Key: key, Message: fmt.Sprintf(format, args...)})
}

func (b *builder) at(r unstable.Range) (line, col int) { return b.t.place(int(r.Offset)) }

// header opens the table of a [x.y] or [[x.y]] line. After a fault the lines
// that follow go to a table that nobody reads, so that one fault is told once.
func (b *builder) header(e *unstable.Node, list bool) {
	n, path := b.root, ""
	line, col := 1, 1
	lost := func(format string, args ...any) {
		b.problem(line, col, path, format, args...)
		b.here, b.herePath = newTable(line, col), path
	}
	it := e.Key()
	for it.Next() {
		k := it.Node()
		name := string(k.Data)
		line, col = b.at(k.Raw)
		path = join(path, name)
		kid := n.kids[name]
		if !it.IsLast() {
			if kid == nil {
				kid = newTable(line, col)
				n.add(name, kid)
			}
			if kid.tables {
				path = fmt.Sprintf("%s[%d]", path, len(kid.items)-1)
				kid = kid.items[len(kid.items)-1]
			}
			if kid.kind != isTable {
				lost("%s is %s already (line %d), it cannot hold %s too", path, kid.kind, kid.line, name)
				return
			}
			n = kid
			continue
		}
		switch {
		case list && kid == nil:
			kid = &node{kind: isArray, line: line, col: col, tables: true}
			n.add(name, kid)
			fallthrough
		case list && kid.tables:
			row := newTable(line, col)
			row.closed = true
			kid.items = append(kid.items, row)
			b.here, b.herePath = row, fmt.Sprintf("%s[%d]", path, len(kid.items)-1)
		case list:
			lost("%s is given twice, first on line %d as %s; a list of tables is written [[%s]] each time", path, kid.line, kid.kind, name)
		case kid == nil:
			kid = newTable(line, col)
			kid.closed = true
			n.add(name, kid)
			b.here, b.herePath = kid, path
		case kid.kind == isTable && !kid.closed:
			kid.closed, kid.line, kid.col = true, line, col
			b.here, b.herePath = kid, path
		case kid.tables:
			lost("%s is a list (line %d): write [[%s]] for each one", path, kid.line, path)
		default:
			lost("%s is given twice, first on line %d", path, kid.line)
		}
		return
	}
}

// keyValue puts one key = value into n.
func (b *builder) keyValue(n *node, path string, e *unstable.Node, dotted bool) {
	it := e.Key()
	for it.Next() {
		k := it.Node()
		name := string(k.Data)
		line, col := b.at(k.Raw)
		path = join(path, name)
		kid := n.kids[name]
		if !it.IsLast() {
			if kid == nil {
				kid = newTable(line, col)
				n.add(name, kid)
			}
			if kid.kind != isTable {
				b.problem(line, col, path, "%s is %s already (line %d), it cannot hold more", path, kid.kind, kid.line)
				return
			}
			n = kid
			continue
		}
		if kid != nil {
			b.problem(line, col, path, "%s is given twice, first on line %d", path, kid.line)
			return
		}
		v := b.value(e.Value(), path)
		v.line, v.col = line, col
		n.add(name, v)
	}
}

func (b *builder) value(v *unstable.Node, path string) *node {
	line, col := b.at(v.Raw)
	n := &node{line: line, col: col, text: string(v.Data)}
	switch v.Kind {
	case unstable.String:
		n.kind = isString
	case unstable.Bool:
		n.kind, n.yes = isBool, n.text == "true"
	case unstable.Integer, unstable.Float:
		n.kind = isNumber
		clean := strings.ReplaceAll(n.text, "_", "")
		f, err := strconv.ParseFloat(clean, 64)
		if err != nil {
			i, err := strconv.ParseInt(clean, 0, 64)
			if err != nil {
				b.problem(line, col, path, "number %s is too large", n.text)
			}
			f = float64(i)
		}
		n.num = f
	case unstable.Array:
		n.kind = isArray
		it := v.Children()
		for i := 0; it.Next(); i++ {
			if it.Node().Kind == unstable.Comment {
				continue
			}
			n.items = append(n.items, b.value(it.Node(), fmt.Sprintf("%s[%d]", path, i)))
		}
	case unstable.InlineTable:
		n.kind, n.closed, n.kids = isTable, true, map[string]*node{}
		it := v.Children()
		for it.Next() {
			if it.Node().Kind == unstable.KeyValue {
				b.keyValue(n, path, it.Node(), false)
			}
		}
	case unstable.LocalDate, unstable.LocalTime, unstable.LocalDateTime, unstable.DateTime:
		n.kind = isOther
	default:
		panic("shop: unknown kind of TOML value")
	}
	// Lists and inline tables have no bytes of their own: theirs is the place
	// of the first thing inside.
	if v.Raw.Length == 0 {
		switch {
		case len(n.items) > 0:
			n.line, n.col = n.items[0].line, n.items[0].col
		case len(n.keys) > 0:
			n.line, n.col = n.kids[n.keys[0]].line, n.kids[n.keys[0]].col
		}
	}
	return n
}

func (n *node) add(name string, kid *node) {
	n.keys = append(n.keys, name)
	n.kids[name] = kid
}

func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}
