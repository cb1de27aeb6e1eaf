package shop

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"burrside/features/measure"
)

// ProcessKinds are the processes that a shop may have beside its machines, in
// the order of Profile.Also.
func ProcessKinds() []string {
	return []string{"drill", "tap", "countersink", "saw", "thermal", "grinder", "bought-cutting"}
}

// defaultProcess is what a shop has unless its file says otherwise: what every
// fabrication shop has, and no cutting machine. Times: judgement, no source.
func defaultProcess(kind string) Process {
	q := Process{Kind: kind, Have: true, Seconds: 60}
	switch kind {
	case "drill":
		// What a magnetic drill's annular cutters reach; a shop that drills larger
		// says so, for a Ø110 in plate is no hole that is just drilled.
		q.MaxDiameterMM = 50
	case "tap":
		q.MaxDiameterMM = 24
	case "countersink":
		q.MaxDiameterMM, q.Seconds = 40, 45
	case "saw":
		q.Seconds = 120
	case "thermal":
		q.Have = false
	case "grinder":
		// Outside radii; a bench or belt grinder with a radius template.
		q.MaxRadiusMM, q.MaxThicknessMM, q.Seconds = 15, 12, 120
	case "bought-cutting":
		q.Have, q.Seconds = false, 1
	default:
		panic("shop: unknown process")
	}
	return q
}

// also reads [also]: each process is true, false, or a table of its limits. A
// process that is not named keeps its default.
func (l *loader) also(s *section, p *Profile) {
	t := s.table("also")
	for _, kind := range ProcessKinds() {
		q := defaultProcess(kind)
		if t != nil {
			if n := t.find(kind); n != nil {
				l.process(t, kind, n, &q)
			}
		}
		p.Also = append(p.Also, q)
	}
	if t != nil {
		t.done()
	}
}

func (l *loader) process(s *section, kind string, n *node, q *Process) {
	switch n.kind {
	case isBool:
		q.Have = n.yes
	case isTable:
		t := l.section(n, s.key(kind))
		q.Have = t.yes("have", true)
		q.MaxDiameterMM = orKeep(q.MaxDiameterMM, t.length("max_diameter", bounds{max: 30_000}))
		q.MaxThicknessMM = orKeep(q.MaxThicknessMM, t.length("max_thickness", bounds{max: maxThicknessMM}))
		q.MaxRadiusMM = orKeep(q.MaxRadiusMM, t.length("max_radius", bounds{max: 30_000}))
		if t.has("rate_per_minute") {
			q.RatePerMinute = t.number("rate_per_minute", 0, 1e6)
		}
		if v := t.seconds("seconds", 0); v > 0 {
			q.Seconds = v
		}
		t.done()
	default:
		l.fault(n, s.key(kind), "%s must be true, false or a table of its limits, not %s", s.key(kind), n.kind)
	}
}

func orKeep(old, stated float64) float64 {
	if stated > 0 {
		return stated
	}
	return old
}

// rates reads [rates]; what is not stated keeps its default (times and
// availability: judgement from estimating practice, no source).
func (l *loader) rates(s *section, p *Profile) {
	r := &p.Rates
	*r = Rates{
		HitStop: 8, HitMark: 25, CutBar: 15, CutPlate: 40, Bite: 12,
		PunchChange: 120, Setting: 180, FirstOff: 180,
		HandleLight: 20, HandleMedium: 40, HandleHeavy: 120, Turn: 15,
		DeburrMPerMinute: 1, Drill: 60, Other: 120, Availability: 0.80,
	}
	t := s.table("rates")
	if t == nil {
		return
	}
	for _, f := range []struct {
		key string
		to  *float64
	}{
		{"hit_stop", &r.HitStop}, {"hit_mark", &r.HitMark}, {"cut_bar", &r.CutBar}, {"cut_plate", &r.CutPlate}, {"bite", &r.Bite},
		{"punch_change", &r.PunchChange}, {"setting", &r.Setting}, {"first_off", &r.FirstOff},
		{"handle_light", &r.HandleLight}, {"handle_medium", &r.HandleMedium}, {"handle_heavy", &r.HandleHeavy}, {"turn", &r.Turn},
		{"drill", &r.Drill}, {"other", &r.Other},
	} {
		*f.to = t.seconds(f.key, *f.to)
	}
	if n := t.find("deburr"); n != nil {
		r.DeburrMPerMinute, _ = t.quantity(n, "deburr", "1 m/min", bounds{min: 0.01, max: 100}, measure.Speed,
			func(v float64) string { return fmt.Sprintf("%g m/min", v) })
	}
	if t.has("availability") {
		r.Availability = t.share("availability", bounds{min: 0.1, max: 1})
	}
	t.done()
}

// rules reads [rules.<id>]: parameters as numbers, in the parameter's own unit,
// or as texts with a unit. Which rules and parameters there are, and their
// ranges, is known to the rules and checked there.
func (l *loader) rules(s *section, p *Profile) {
	t := s.table("rules")
	if t == nil {
		return
	}
	p.Settings = map[string]map[string]float64{}
	p.Places = map[string]map[string]Setting{}
	for _, id := range t.n.keys {
		r := t.table(id)
		if r == nil {
			continue
		}
		p.Settings[id] = map[string]float64{}
		p.Places[id] = map[string]Setting{}
		for _, param := range r.n.keys {
			n := r.find(param)
			v := Setting{Line: n.line, Column: n.col}
			ok := false
			switch n.kind {
			case isNumber:
				v.Value, ok = n.num, !math.IsNaN(n.num) && !math.IsInf(n.num, 0)
				if !ok {
					l.fault(n, r.key(param), "%s %s is no number", r.key(param), n.text)
				}
			case isBool:
				if ok = true; n.yes {
					v.Value = 1
				}
			case isString:
				v.Value, v.Unit, ok = settingValue(n.text)
				if !ok {
					l.fault(n, r.key(param), "%s %q is no number with a unit (mm, in, kN, US ton, MPa, ksi, deg, s, kg, %%, t, d)", r.key(param), n.text)
				}
			default:
				l.fault(n, r.key(param), "%s must be a number or a text with a unit, not %s", r.key(param), n.kind)
			}
			if ok {
				p.Settings[id][param], p.Places[id][param] = v.Value, v
			}
		}
	}
}

// settingValue reads "3 mm", "0.5 t", "12 %", "1400 MPa" and so on.
func settingValue(text string) (v float64, unit string, ok bool) {
	for _, u := range []string{"t", "d"} {
		if number, found := strings.CutSuffix(strings.TrimSpace(text), u); found {
			if l, err := measure.Length(number); err == nil && l.Unit == "" {
				return l.MM, u, true
			}
		}
	}
	if l, err := measure.Length(text); err == nil {
		return l.MM, map[bool]string{true: "", false: "mm"}[l.Unit == ""], true
	}
	for _, f := range []struct {
		unit  string
		scale float64
		read  func(string) (float64, error)
	}{
		{"kN", 1, measure.Force}, {"MPa", 1, measure.Stress}, {"deg", 180 / math.Pi, measure.Angle},
		{"s", 1, measure.Seconds}, {"kg", 1, measure.Mass}, {"%", 100, measure.Share},
	} {
		if v, err := f.read(text); err == nil {
			return v * f.scale, f.unit, true
		}
	}
	return 0, "", false
}

// LayerPurposes are the purposes that layer words can be given for.
func LayerPurposes() []string {
	return []string{"bend", "mark", "centre", "hidden", "construction", "dimension", "frame", "text", "cut", "hole"}
}

// layers reads [layers]: for each purpose the words that name it, "+" for the
// default ones. A word without a letter could match nothing, and one that is
// given for two purposes says nothing.
func (l *loader) layers(s *section, p *Profile) {
	t := s.table("layers")
	if t == nil {
		return
	}
	p.Layers = map[string][]string{}
	given := map[string]string{}
	for _, purpose := range LayerPurposes() {
		if !t.has(purpose) {
			continue
		}
		words := []string{}
		t.texts(purpose) // tells what is no text
		for _, at := range t.find(purpose).items {
			w := strings.ToLower(strings.TrimSpace(at.text))
			if at.kind != isString || w == "" {
				continue
			}
			if w != "+" {
				if !strings.ContainsFunc(w, unicode.IsLetter) {
					l.fault(at, t.key(purpose), "%s: %q has no letter; layer words are made of letters, and \"+\" stands for the default words", t.key(purpose), w)
					continue
				}
				if other, twice := given[w]; twice && other != purpose {
					l.fault(at, t.key(purpose), "%s: %q is given for %s too", t.key(purpose), w, other)
					continue
				}
				given[w] = purpose
			}
			words = append(words, w)
		}
		p.Layers[purpose] = words
	}
	t.done()
}
