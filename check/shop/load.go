package shop

import (
	"fmt"
	"io"
	"strings"
)

// Load reads a shop file. path is used in messages only. The error is a
// *LoadError with every problem of the file, or one of reading. A profile that
// is given has no errors; its warnings are in Problems.
func Load(r io.Reader, path string) (*Profile, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, fmt.Errorf("shop file %s: %w", path, err)
	}
	if len(data) > maxFile {
		return nil, fmt.Errorf("shop file %s: longer than %d MB", path, maxFile>>20)
	}
	t := readTree(data)
	if t.lost {
		// A table's head could not be read: its keys would be judged in the
		// wrong place, and most of what is said of them would be untrue.
		sortProblems(t.problems)
		return nil, &LoadError{Path: path, Problems: t.problems}
	}
	l := &loader{problems: t.problems, broken: t.broken}
	p := l.profile(t.root)
	p.Path = path
	sortProblems(l.problems)
	for _, q := range l.problems {
		if !q.Warning {
			return nil, &LoadError{Path: path, Problems: l.problems}
		}
	}
	p.Problems = l.problems
	return p, nil
}

// profile reads the whole file. What it gives is only used when no problem is
// an error.
func (l *loader) profile(root *node) *Profile {
	s := l.section(root, "")
	p := &Profile{}
	if s.need("name", `"Our shop"`) != nil {
		p.Name = s.text("name")
	}
	if s.need("units", `"mm"`) != nil {
		p.Units = s.word("units", "mm", "in")
		l.units = p.Units
	}
	p.Buy = s.yes("buy", true)

	l.materials(s, p)
	p.Default = "mild"
	if n := s.find("rows_material"); n != nil {
		if m := l.material(s, "rows_material", p); m != nil {
			p.Default = m.Name
		}
	}

	l.machines(s, p)
	l.punches(s, p)
	l.notchTools(s, p)
	l.endTools(s, p)
	l.stock(s, p)
	l.also(s, p)
	l.rates(s, p)
	l.rules(s, p)
	l.layers(s, p)
	s.done()
	return p
}

// material reads a key that names a material of the shop; nil, with a problem,
// if the shop knows none of that name.
func (l *loader) material(s *section, key string, p *Profile) *Material {
	name := s.text(key)
	if name == "" {
		return nil
	}
	if m, ok := p.Material(name); ok {
		return m
	}
	l.fault(s.find(key), s.key(key), "%s: the shop knows no material %q", s.key(key), name)
	l.hint(nearest(name, p.materialNames()))
	return nil
}

// machine reads a key that names a machine.
func (l *loader) machine(s *section, key string, p *Profile) *Machine {
	name := s.text(key)
	if name == "" {
		return nil
	}
	var names []string
	for i := range p.Machines {
		if strings.EqualFold(p.Machines[i].Name, name) {
			return &p.Machines[i]
		}
		names = append(names, p.Machines[i].Name)
	}
	l.fault(s.find(key), s.key(key), "%s: there is no machine %q", s.key(key), name)
	l.hint(nearest(name, names))
	return nil
}
