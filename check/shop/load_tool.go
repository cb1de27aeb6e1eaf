package shop

import (
	"fmt"
	"math"
	"strings"

	"burrside/features/measure"
)

// Shapes of punches and of notching tools.
func punchShapes() []string { return []string{"round", "slot", "square", "rectangle", "hexagon"} }
func notchShapes() []string { return []string{"rectangular", "vee", "corner"} }

func (l *loader) punches(s *section, p *Profile) {
	for _, t := range s.tables("punch") {
		l.readPunches(t, p)
	}
}

// readPunches reads one [[punch]].
func (l *loader) readPunches(s *section, p *Profile) {
	q := Punch{Shape: "round", Wear: 1}
	if s.has("shape") {
		q.Shape = s.word("shape", punchShapes()...)
	}
	s.need("size", `"22 mm"`)
	q.WidthMM = s.length("size", bounds{max: maxToolMM})
	switch long := q.Shape == "slot" || q.Shape == "rectangle"; {
	case long:
		s.need("length", `"50 mm"`)
		q.LengthMM = s.length("length", bounds{max: maxToolMM})
		if q.LengthMM > 0 && q.LengthMM <= q.WidthMM {
			l.fault(s.find("length"), s.key("length"), "%s %s must be more than size %s: size is the width", s.key("length"), l.show(q.LengthMM), l.show(q.WidthMM))
		}
	case s.has("length") && q.Shape != "":
		l.fault(s.find("length"), s.key("length"), "%s: a %s punch has no length", s.key("length"), q.Shape)
	}
	if s.has("buy") {
		buy := s.yes("buy", true)
		q.Buy = &buy
	}
	l.dies(s, &q)
	if s.has("wear") {
		q.Wear = s.number("wear", 1, 2)
	}
	q.ShearMM = s.length("shear_on_tool", bounds{max: 25})
	q.Name = s.text("name")
	if q.Name == "" && q.Shape != "" && q.WidthMM > 0 {
		q.Name = q.defaultName(p.Units)
	}
	only := (*Machine)(nil)
	if s.has("machine") {
		if only = l.machine(s, "machine", p); only != nil {
			q.Machine = only.Name
			if only.Punch == nil {
				l.fault(s.find("machine"), s.key("machine"), "%s: machine %q has no punch station", s.key("machine"), only.Name)
			}
		}
	}
	l.holderOf(s, &q, only, p)
	s.done()
	for i := range p.Punches {
		o := &p.Punches[i]
		both := o.Machine == "" || q.Machine == "" || o.Machine == q.Machine
		if both && strings.EqualFold(o.Name, q.Name) && q.Name != "" {
			l.fault(s.n, s.path, "%s: punch %s is on the rack twice; a punch lists all its dies in one entry", s.path, q.Name)
			break
		}
	}
	p.Punches = append(p.Punches, q)
}

func (q *Punch) defaultName(units string) string {
	size := shortLength(q.WidthMM, units)
	switch q.Shape {
	case "round":
		return "Ø" + size
	case "slot", "rectangle":
		return q.Shape + " " + size + " x " + shortLength(q.LengthMM, units)
	}
	return q.Shape + " " + size
}

// shortLength writes a size as tools are named: the number alone in a shop of
// the unit that it is round in, else with the unit.
func shortLength(mm float64, units string) string {
	if units == "in" || !onGrid(mm, 0.1) && onGrid(mm, 25.4/64) {
		return measure.FormatLength(mm, "in")
	}
	return strings.TrimSuffix(measure.FormatLength(mm, "mm"), " mm")
}

func onGrid(v, step float64) bool { return math.Abs(v-math.Round(v/step)*step) < 1e-6 }

// dies reads the bores; each must be larger than its punch.
func (l *loader) dies(s *section, q *Punch) {
	n := s.find("dies")
	if n == nil {
		if !(s.has("buy") && q.Buy != nil && *q.Buy) {
			l.missing(s.n, s.key("dies"), "%s is missing: a punch lists its dies, for example dies = [\"22.7 mm\", \"23.2 mm\"]", s.key("dies"))
		}
		return
	}
	if !s.is(n, "dies", isArray) {
		return
	}
	if len(n.items) == 0 && !(q.Buy != nil && *q.Buy) {
		l.fault(n, s.key("dies"), "%s is empty: a punch without a die cannot be used", s.key("dies"))
	}
	for i, item := range n.items {
		key := fmt.Sprintf("dies[%d]", i)
		v, ok := s.lengthOf(item, key, bounds{max: maxToolMM})
		if !ok || q.WidthMM <= 0 {
			continue
		}
		switch clear := v - q.WidthMM; {
		case clear <= 1e-9*v:
			l.fault(item, s.key(key), "%s: die %s is not larger than the punch %s", s.key(key), l.show(v), l.show(q.WidthMM))
		case clear > max(0.35*q.WidthMM, 1.5) || clear > 12:
			// Far beyond 30 % of any thickness that such a punch can take.
			l.fault(item, s.key(key), "%s: die %s is %s larger than the punch %s: a die bore is the punch plus the clearance, some tenths to a few mm",
				s.key(key), l.show(v), l.show(clear), l.show(q.WidthMM))
		case len(q.Dies) > 0 && v <= q.Dies[len(q.Dies)-1].WidthMM*(1+1e-9):
			l.fault(item, s.key(key), "%s must ascend: %q stands after %s", s.key("dies"), item.text, l.show(q.Dies[len(q.Dies)-1].WidthMM))
		default:
			q.Dies = append(q.Dies, Die{WidthMM: v})
		}
	}
}

// holderOf reads and checks the holder: it must exist where the punch can go,
// and take its body.
func (l *loader) holderOf(s *section, q *Punch, only *Machine, p *Profile) {
	q.Holder = s.text("holder")
	sized := q.WidthMM > 0 && q.Shape != "" && (q.LengthMM > 0 || q.Shape != "slot" && q.Shape != "rectangle")
	var names []string
	found, widest := 0.0, 0.0
	for i := range p.Machines {
		m := &p.Machines[i]
		if m.Punch == nil || only != nil && m != only {
			continue
		}
		for _, h := range m.Punch.Holders {
			names = append(names, h.Name)
			widest = max(widest, h.MaxMM)
			if strings.EqualFold(h.Name, q.Holder) {
				q.Holder = h.Name
				found = max(found, h.MaxMM)
			}
		}
	}
	switch {
	case q.Holder != "" && found == 0:
		l.fault(s.find("holder"), s.key("holder"), "%s: no punch station has a holder %q", s.key("holder"), q.Holder)
		l.hint(nearest(q.Holder, names))
	case q.Holder != "" && sized && q.Body() > found*(1+1e-6):
		l.fault(s.find("holder"), s.key("holder"), "%s: holder %q goes to %s, the punch needs %s", s.key("holder"), q.Holder, l.show(found), l.show(q.Body()))
	case q.Holder == "" && sized && widest > 0 && q.Body() > widest*(1+1e-6):
		l.warn(s.n, s.path, "%s: no holder takes punch %s, which needs %s; the largest goes to %s", s.path, q.Name, l.show(q.Body()), l.show(widest))
	}
}

func (l *loader) notchTools(s *section, p *Profile) {
	for _, t := range s.tables("notch_tool") {
		l.readNotchTool(t, p)
	}
}

func (l *loader) readNotchTool(s *section, p *Profile) {
	t := NotchTool{}
	s.need("shape", `"rectangular"`)
	t.Shape = s.word("shape", notchShapes()...)
	s.need("depth", `"60 mm"`)
	t.DepthMM = s.length("depth", bounds{max: maxToolMM})
	t.WidthMM = s.length("width", bounds{max: maxToolMM})
	t.AngleRad = s.angle("angle", bounds{min: 10 * math.Pi / 180, max: 170 * math.Pi / 180})
	switch {
	case t.Shape == "vee":
		s.need("angle", `"90 deg"`)
		if t.DepthMM > 0 && t.AngleRad > 0 {
			width := 2 * t.DepthMM * math.Tan(t.AngleRad/2)
			if t.WidthMM > 0 && math.Abs(t.WidthMM-width) > 0.02*width+0.5 {
				l.fault(s.find("width"), s.key("width"), "%s %s contradicts depth and angle, which make it %s", s.key("width"), l.show(t.WidthMM), l.show(width))
			}
			if t.WidthMM == 0 {
				t.WidthMM = width
			}
		}
	case t.Shape != "":
		s.need("width", `"80 mm"`)
		if s.has("angle") {
			l.fault(s.find("angle"), s.key("angle"), "%s: a %s tool has no angle", s.key("angle"), t.Shape)
		}
	}
	t.MaxThicknessMM = s.length("max_thickness", bounds{max: maxThicknessMM})
	rows, at := l.rows(s, "depth", `{ thickness = "6 mm", depth = "60 mm" }`, maxToolMM)
	l.rowsWithin(s, rows, at, t.MaxThicknessMM, "max_thickness")
	for i, row := range rows {
		if t.DepthMM > 0 && row.SizeMM > t.DepthMM*(1+1e-6) {
			l.fault(at[i], s.key("rows"), "row %s is deeper than depth %s", l.row(row), l.show(t.DepthMM))
		}
	}
	t.Rows = rows
	t.Name = s.text("name")
	if t.Name == "" && t.Shape != "" {
		t.Name = t.defaultName(p.Units)
	}
	if s.has("machine") {
		if m := l.machine(s, "machine", p); m != nil {
			t.Machine = m.Name
			if m.Notch == nil {
				l.fault(s.find("machine"), s.key("machine"), "%s: machine %q has no notcher", s.key("machine"), m.Name)
			}
		}
	}
	s.done()
	for _, o := range p.Notchers {
		if strings.EqualFold(o.Name, t.Name) && t.Name != "" && (o.Machine == "" || t.Machine == "" || o.Machine == t.Machine) {
			l.fault(s.n, s.path, "%s: notching tool %q is listed twice", s.path, t.Name)
			break
		}
	}
	p.Notchers = append(p.Notchers, t)
}

func (t *NotchTool) defaultName(units string) string {
	if t.Shape == "vee" {
		return "vee " + showDeg(t.AngleRad) + " x " + shortLength(t.DepthMM, units)
	}
	return t.Shape + " " + shortLength(t.WidthMM, units) + " x " + shortLength(t.DepthMM, units)
}
