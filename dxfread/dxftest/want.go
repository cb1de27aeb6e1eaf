package dxftest

import (
	"fmt"
	"strconv"
	"strings"

	"burrside/dxfread"
)

// WantLayer is the layer that holds expectations.
const WantLayer = "WANT"

// Want is one expectation written inside a drawing: a TEXT on layer WANT whose
// insertion point is the place and whose height says how far off the place of
// the answer may be. Its value is
//
//	rule-id got=3.2 limit=4        a finding of this rule, here
//	rule-id anywhere               a finding of this rule at any place
//	feature slot w=5 l=20          a feature of this kind, here
//	feature slot w=5 anywhere
type Want struct {
	Feature   bool   // a feature, not a finding
	Name      string // rule id, or kind of feature
	X, Y      float64
	Tolerance float64 // drawing units
	Anywhere  bool
	Values    []Value // in the order of the text
	Text      string  // as written
	Line      int64
}

// Value is one key=value of a Want. Number is set if IsNumber.
type Value struct {
	Key, Text string
	Number    float64
	IsNumber  bool
}

// Number gives the number of a key; false if there is none.
func (w *Want) Number(key string) (float64, bool) {
	for _, v := range w.Values {
		if v.Key == key && v.IsNumber {
			return v.Number, true
		}
	}
	return 0, false
}

// Wants reads the expectations of a drawing, in file order, from model space.
// Each line of a text is one expectation.
func Wants(d *dxfread.Drawing) ([]Want, error) {
	var out []Want
	for _, e := range d.Model {
		t, ok := e.(*dxfread.Text)
		if !ok || !strings.EqualFold(d.Layers[t.Layer].Name, WantLayer) {
			continue
		}
		for _, line := range strings.Split(t.Value, "\n") {
			w, err := parseWant(line)
			if err != nil {
				return nil, fmt.Errorf("line %d: %w", t.Line, err)
			}
			w.X, w.Y, w.Tolerance, w.Line = t.At.X, t.At.Y, t.Height, t.Line
			out = append(out, w)
		}
	}
	return out, nil
}

// ParseWants reads expectations that stand in a file of their own, one a line;
// empty lines and those that begin with # are passed over.
func ParseWants(text string) ([]Want, error) {
	var out []Want
	for i, line := range strings.Split(text, "\n") {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		w, err := parseWant(line)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		w.Line = int64(i + 1)
		out = append(out, w)
	}
	return out, nil
}

func parseWant(line string) (Want, error) {
	w := Want{Text: line}
	words := strings.Fields(line)
	if len(words) > 0 && words[0] == "feature" {
		w.Feature, words = true, words[1:]
	}
	if len(words) == 0 {
		return w, fmt.Errorf("an expectation without a name: %q", line)
	}
	w.Name = words[0]
	for _, word := range words[1:] {
		key, text, ok := strings.Cut(word, "=")
		switch {
		case word == "anywhere":
			w.Anywhere = true
		case !ok || key == "" || text == "":
			return w, fmt.Errorf("neither key=value nor anywhere: %q", word)
		default:
			v := Value{Key: key, Text: text}
			if n, err := strconv.ParseFloat(text, 64); err == nil {
				v.Number, v.IsNumber = n, true
			}
			w.Values = append(w.Values, v)
		}
	}
	return w, nil
}
