package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"burrside/features/measure"
)

// facts are what a person states about a drawing; a zero field is unstated.
type facts struct {
	thicknessMM float64
	material    string
	quantity    int
	units       string
}

// over fills what f leaves open from g.
func (f facts) over(g facts) facts {
	if f.thicknessMM == 0 {
		f.thicknessMM = g.thicknessMM
	}
	if f.material == "" {
		f.material = g.material
	}
	if f.quantity == 0 {
		f.quantity = g.quantity
	}
	if f.units == "" {
		f.units = g.units
	}
	return f
}

// answers are the rows of an answers file by drawing. Several drawings may be
// answered at once.
type answers struct {
	rows map[string]facts // cleaned path with slashes, or base name
	line map[string]int

	mu   sync.Mutex
	used map[string]bool
}

var answerColumns = []string{"file", "thickness", "material", "quantity", "units"}

// readAnswers reads a CSV with the columns file, thickness, material, quantity,
// units, in any order; further columns are left alone. All problems come at
// once, with their lines.
func readAnswers(path string) (*answers, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	a, err := parseAnswers(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return a, nil
}

func parseAnswers(r io.Reader) (*answers, error) {
	c := csv.NewReader(r)
	c.TrimLeadingSpace = true
	c.FieldsPerRecord = -1
	head, err := c.Read()
	if errors.Is(err, io.EOF) {
		return nil, errors.New("line 1: the file is empty; the first line names the columns: " + strings.Join(answerColumns, ","))
	}
	if err != nil {
		return nil, err
	}
	column := map[string]int{}
	for i, h := range head {
		h = strings.ToLower(strings.TrimSpace(strings.TrimPrefix(h, "\ufeff")))
		if slices.Contains(answerColumns, h) {
			column[h] = i
		}
	}
	if _, ok := column["file"]; !ok {
		return nil, fmt.Errorf("line 1: no column named %q; the columns are %s", "file", strings.Join(answerColumns, ","))
	}
	a := &answers{rows: map[string]facts{}, line: map[string]int{}, used: map[string]bool{}}
	var problems []error
	for {
		rec, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			problems = append(problems, err)
			break
		}
		line, _ := c.FieldPos(0)
		cell := func(name string) string {
			if i, ok := column[name]; ok && i < len(rec) {
				return strings.TrimSpace(rec[i])
			}
			return ""
		}
		key := answerKey(cell("file"))
		if key == "." {
			continue
		}
		if a.line[key] != 0 {
			problems = append(problems, fmt.Errorf("line %d: %q is answered on line %d already", line, cell("file"), a.line[key]))
			continue
		}
		var f facts
		for _, name := range answerColumns[1:] {
			if text := cell(name); text != "" {
				if err := f.set(name, text); err != nil {
					problems = append(problems, fmt.Errorf("line %d: column %q: %w", line, name, err))
				}
			}
		}
		a.rows[key], a.line[key] = f, line
	}
	if len(problems) > 0 {
		return nil, errors.Join(problems...)
	}
	return a, nil
}

func answerKey(name string) string {
	return filepath.ToSlash(filepath.Clean(strings.ReplaceAll(name, "\\", "/")))
}

// of gives the row of a drawing: by its path as named, else by its base name
// with or without the extension.
func (a *answers) of(path string) facts {
	if a == nil {
		return facts{}
	}
	full := answerKey(path)
	base := filepath.Base(full)
	for _, k := range []string{full, base, strings.TrimSuffix(base, filepath.Ext(base))} {
		if f, ok := a.rows[k]; ok {
			a.mu.Lock()
			a.used[k] = true
			a.mu.Unlock()
			return f
		}
	}
	return facts{}
}

// unused lists rows that answered no drawing, in order of line.
func (a *answers) unused() []string {
	if a == nil {
		return nil
	}
	var names []string
	for k := range a.rows {
		if !a.used[k] {
			names = append(names, k)
		}
	}
	slices.SortFunc(names, func(x, y string) int { return a.line[x] - a.line[y] })
	return names
}

// set reads one fact from text.
func (f *facts) set(name, text string) error {
	switch name {
	case "thickness":
		v, err := measure.Length(text)
		if err != nil {
			return err
		}
		if v.Unit == "" {
			return fmt.Errorf("thickness %q has no unit; say %q or %q", text, text+" mm", text+" in")
		}
		if v.MM < 0.1 || v.MM > 300 {
			return fmt.Errorf("thickness %q is not between 0.1 and 300 mm", text)
		}
		f.thicknessMM = v.MM
	case "material":
		f.material = text
	case "quantity":
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > 10_000_000 {
			return fmt.Errorf("quantity %q is not a whole number of pieces", text)
		}
		f.quantity = n
	case "units":
		u := strings.ToLower(text)
		switch u {
		case "mm", "in", "cm", "m", "ft":
			f.units = u
		default:
			return fmt.Errorf("units %q are not one of mm, in, cm, m, ft", text)
		}
	default:
		panic("unknown fact " + name)
	}
	return nil
}
