package shop

import (
	"fmt"
	"math"
	"strings"

	"burrside/features/measure"
)

// loader collects the problems while the nodes are turned into a Profile.
type loader struct {
	problems []Problem
	units    string // how lengths are shown in messages
	broken   bool   // lines with syntax errors were left out, so that keys may seem to be missing
}

// show writes a length in the shop's units.
func (l *loader) show(mm float64) string { return measure.FormatLength(mm, l.units) }

// missing tells of a key that is not there, unless it may stand on a line that
// could not be read.
func (l *loader) missing(n *node, key, format string, args ...any) {
	if !l.broken {
		l.fault(n, key, format, args...)
	}
}

func (l *loader) fault(n *node, key, format string, args ...any) {
	l.problems = append(l.problems, Problem{Line: n.line, Column: n.col, Key: key, Message: fmt.Sprintf(format, args...)})
}

func (l *loader) warn(n *node, key, format string, args ...any) {
	l.fault(n, key, format, args...)
	l.problems[len(l.problems)-1].Warning = true
}

func (l *loader) hint(word string) { l.problems[len(l.problems)-1].Hint = word }

// section reads one table key by key; the keys that were asked for are the
// ones that it may have, so that what is left over is unknown.
type section struct {
	l     *loader
	n     *node
	path  string
	known []string
	asked map[string]bool
}

func (l *loader) section(n *node, path string) *section {
	return &section{l: l, n: n, path: path, asked: map[string]bool{}}
}

func (s *section) key(key string) string { return join(s.path, key) }

// find gives the node of a key, nil if the table has none.
func (s *section) find(key string) *node {
	if !s.asked[key] {
		s.asked[key] = true
		s.known = append(s.known, key)
	}
	return s.n.kids[key]
}

func (s *section) has(key string) bool { return s.find(key) != nil }

// need is find for a key that must be there.
func (s *section) need(key, example string) *node {
	n := s.find(key)
	if n == nil {
		s.l.missing(s.n, s.key(key), "%s is missing, for example %s = %s", s.key(key), key, example)
	}
	return n
}

// done tells of keys that nobody asked for.
func (s *section) done() {
	for _, key := range s.n.keys {
		if s.asked[key] {
			continue
		}
		where := ""
		if s.path != "" {
			where = " in " + s.path
		}
		s.l.fault(s.n.kids[key], s.key(key), "unknown key %q%s", key, where)
		word := nearest(key, s.known)
		if word == "" {
			// "Throat depth" or "throat-mm" for throat.
			for _, k := range s.known {
				if len(k) > 3 && strings.HasPrefix(strings.ToLower(key), k) {
					word = k
				}
			}
		}
		s.l.hint(word)
	}
}

// is tells whether n is of the kind wanted, and says so if not.
func (s *section) is(n *node, key string, k kind) bool {
	if n == nil {
		return false
	}
	if n.kind != k {
		s.l.fault(n, s.key(key), "%s must be %s, not %s", s.key(key), k, n.kind)
		return false
	}
	return true
}

func (s *section) text(key string) string {
	n := s.find(key)
	if !s.is(n, key, isString) {
		return ""
	}
	text := strings.TrimSpace(n.text)
	if text == "" {
		s.l.fault(n, s.key(key), "%s is empty", s.key(key))
	}
	if strings.ContainsFunc(text, func(c rune) bool { return c < ' ' || c == 0x7f }) || len(text) > 200 {
		s.l.fault(n, s.key(key), "%s must be one line of at most 200 letters", s.key(key))
		return ""
	}
	return text
}

func (s *section) texts(key string) []string {
	n := s.find(key)
	if !s.is(n, key, isArray) {
		return nil
	}
	list := []string{}
	for i, item := range n.items {
		if item.kind != isString || strings.TrimSpace(item.text) == "" {
			s.l.fault(item, s.key(key), "%s[%d] must be a text, not %s", s.key(key), i, describeNode(item))
			continue
		}
		list = append(list, strings.TrimSpace(item.text))
	}
	return list
}

func describeNode(n *node) string {
	if n.kind == isString {
		return fmt.Sprintf("%q", n.text)
	}
	return n.kind.String()
}

// word reads one of a list of words.
func (s *section) word(key string, words ...string) string {
	n := s.find(key)
	if !s.is(n, key, isString) {
		return ""
	}
	for _, w := range words {
		if strings.EqualFold(strings.TrimSpace(n.text), w) {
			return w
		}
	}
	s.l.fault(n, s.key(key), "%s %q is unknown; it may be %s", s.key(key), n.text, strings.Join(words, ", "))
	s.l.hint(nearest(n.text, words))
	return ""
}

func (s *section) yes(key string, missing bool) bool {
	n := s.find(key)
	if !s.is(n, key, isBool) {
		return missing
	}
	return n.yes
}

// bounds are what a value may be, both ends included. The zero value allows
// anything above zero.
type bounds struct {
	min, max float64
	zero     bool // zero is allowed whatever min
}

// quantity reads a number with a unit through read. example is what a right
// value looks like; show writes a bound for people.
func (s *section) quantity(n *node, key, example string, b bounds, read func(string) (float64, error), show func(float64) string) (v float64, ok bool) {
	if n == nil {
		return 0, false
	}
	full := s.key(key)
	switch n.kind {
	case isString:
	case isNumber:
		_, unit, _ := strings.Cut(example, " ")
		s.l.fault(n, full, "%s: unit is missing in %s, write it as in \"%s %s\"", full, n.text, n.text, unit)
		return 0, false
	default:
		s.l.fault(n, full, "%s must be a text as in %q, not %s", full, example, n.kind)
		return 0, false
	}
	v, err := read(n.text)
	if err != nil {
		s.l.fault(n, full, "%s: %v", full, err)
		return 0, false
	}
	if v == 0 && b.zero {
		return v, true
	}
	if v <= 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		s.l.fault(n, full, "%s %q must be more than zero", full, n.text)
		return 0, false
	}
	// 1e-9 relative: a bound given in one unit is met when written in another.
	if b.min > 0 && v < b.min*(1-1e-9) {
		s.l.fault(n, full, "%s %q is impossible, it must be at least %s", full, n.text, show(b.min))
		return 0, false
	}
	if b.max > 0 && v > b.max*(1+1e-9) {
		s.l.fault(n, full, "%s %q is impossible, it must be at most %s", full, n.text, show(b.max))
		return 0, false
	}
	return v, true
}

func readLength(text string) (float64, error) {
	v, err := measure.Length(text)
	if err == nil && v.Unit == "" {
		return 0, fmt.Errorf("unit is missing in %q, write \"%s mm\" or \"%s in\"", text, strings.TrimSpace(text), strings.TrimSpace(text))
	}
	return v.MM, err
}

func showKN(v float64) string  { return fmt.Sprintf("%g kN", v) }
func showMPa(v float64) string { return fmt.Sprintf("%g MPa", v) }
func showDeg(v float64) string { return fmt.Sprintf("%.4g deg", v*180/math.Pi) }
func showShare(v float64) string {
	return fmt.Sprintf("%g %%", v*100)
}

func (s *section) lengthOf(n *node, key string, b bounds) (float64, bool) {
	return s.quantity(n, key, "10 mm", b, readLength, s.l.show)
}

func (s *section) length(key string, b bounds) float64 {
	v, _ := s.lengthOf(s.find(key), key, b)
	return v
}

// lengths reads a list of lengths that must ascend.
func (s *section) lengths(key string, b bounds) []float64 {
	n := s.find(key)
	if !s.is(n, key, isArray) {
		return nil
	}
	var list []float64
	for i, item := range n.items {
		v, ok := s.lengthOf(item, fmt.Sprintf("%s[%d]", key, i), b)
		if !ok {
			continue
		}
		if len(list) > 0 && v <= list[len(list)-1]*(1+1e-9) {
			s.l.fault(item, s.key(key), "%s must ascend: %q stands after %s", s.key(key), item.text, s.l.show(list[len(list)-1]))
			continue
		}
		list = append(list, v)
	}
	return list
}

func (s *section) stress(key string, b bounds) float64 {
	v, _ := s.quantity(s.find(key), key, "345 MPa", b, measure.Stress, showMPa)
	return v
}

func (s *section) angle(key string, b bounds) float64 {
	v, _ := s.quantity(s.find(key), key, "45 deg", b, measure.Angle, showDeg)
	return v
}

func (s *section) seconds(key string, missing float64) float64 {
	v, ok := s.quantity(s.find(key), key, "8 s", bounds{zero: true, max: 86400}, measure.Seconds, func(v float64) string { return fmt.Sprintf("%g s", v) })
	if !ok {
		return missing
	}
	return v
}

// share reads "90 %" or 0.9.
func (s *section) share(key string, b bounds) float64 {
	n := s.find(key)
	if n != nil && n.kind == isNumber {
		if !(n.num > 0 && n.num >= b.min && n.num <= b.max) {
			s.l.fault(n, s.key(key), "%s %s is impossible, it must lie between %s and %s", s.key(key), n.text, showShare(b.min), showShare(b.max))
			return 0
		}
		return n.num
	}
	v, _ := s.quantity(n, key, "90 %", b, measure.Share, showShare)
	return v
}

// number reads a plain number.
func (s *section) number(key string, min, max float64) float64 {
	n := s.find(key)
	if !s.is(n, key, isNumber) {
		return 0
	}
	if !(n.num >= min && n.num <= max) {
		s.l.fault(n, s.key(key), "%s %s is impossible, it must lie between %g and %g", s.key(key), n.text, min, max)
		return 0
	}
	return n.num
}

// table gives the section of a sub-table, nil if there is none.
func (s *section) table(key string) *section {
	n := s.find(key)
	if !s.is(n, key, isTable) {
		return nil
	}
	return s.l.section(n, s.key(key))
}

// tables gives the sections of a list of tables.
func (s *section) tables(key string) []*section {
	n := s.find(key)
	if n == nil {
		return nil
	}
	if n.kind == isTable {
		s.l.fault(n, s.key(key), "%s is a list: write [[%s]] for each one", s.key(key), s.key(key))
		return nil
	}
	if !s.is(n, key, isArray) {
		return nil
	}
	var list []*section
	for i, item := range n.items {
		name := fmt.Sprintf("%s[%d]", key, i)
		if s.is(item, name, isTable) {
			list = append(list, s.l.section(item, s.key(name)))
		}
	}
	return list
}
