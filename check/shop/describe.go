package shop

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"burrside/features/measure"
)

// Describe tells in plain text what was understood of a shop: machines with the
// force that may be used and where it comes from, rack, stock, processes,
// settings. It ends with the warnings.
func Describe(p *Profile) string {
	d := &describer{p: p}
	name := p.Name
	if name == "" {
		name = "Shop without a name"
	}
	d.line(0, "%s", name)
	switch {
	case p.BuiltIn:
		d.line(1, "built-in example shop with invented figures; make your own with: burrside shop new")
	case p.Path != "":
		d.line(1, "from %s", p.Path)
	}
	d.line(1, "lengths are shown in %s; rows are meant in %s unless they say otherwise", unitWord(p.Units), p.Default)
	for i := range p.Machines {
		d.machine(&p.Machines[i])
	}
	d.rack()
	d.stock()
	d.processes()
	d.rates()
	d.settings()
	d.materials()
	if len(p.Problems) > 0 {
		d.head("Warnings")
		for _, q := range p.Problems {
			d.line(1, "line %s", q)
		}
	}
	return d.b.String()
}

func unitWord(units string) string {
	if units == "in" {
		return "inches"
	}
	return "millimetres"
}

type describer struct {
	p *Profile
	b strings.Builder
}

func (d *describer) line(indent int, format string, args ...any) {
	d.b.WriteString(strings.Repeat("  ", indent) + fmt.Sprintf(format, args...) + "\n")
}

func (d *describer) head(format string, args ...any) {
	d.b.WriteString("\n")
	d.line(0, format, args...)
}

func (d *describer) mm(v float64) string { return measure.FormatLength(v, d.p.Units) }

func (d *describer) list(values []float64) string {
	texts := make([]string, len(values))
	for i, v := range values {
		texts[i] = d.mm(v)
		if i+1 < len(values) {
			texts[i] = strings.TrimSuffix(strings.TrimSuffix(texts[i], " mm"), " in")
		}
	}
	return strings.Join(texts, ", ")
}

// opt joins the parts that are not empty.
func opt(parts ...string) string {
	var list []string
	for _, p := range parts {
		if p != "" {
			list = append(list, p)
		}
	}
	return strings.Join(list, "; ")
}

func (d *describer) size(label string, mm float64) string {
	if mm <= 0 {
		return ""
	}
	return label + " " + d.mm(mm)
}

func (d *describer) machine(m *Machine) {
	d.head("Machine %q", m.Name)
	if s := m.Punch; s != nil {
		d.station("punch", &s.Rating, s.Rows, func(r Row) string { return "Ø" + d.mm(r.SizeMM) + " through " + d.mm(r.ThicknessMM) })
		stop := "marks only, no stops"
		if s.Stop {
			stop = "gauge stops"
		}
		d.line(2, "%s", opt(d.size("throat", s.ThroatMM), d.size("thickest", s.MaxThicknessMM), stop, strokes(s.Strokes)))
		for _, h := range s.Holders {
			keys := "0 and 90 deg"
			if h.Keys != nil {
				keys = degrees(h.Keys)
			}
			d.line(2, "holder %q takes punches to %s; keys for shaped tools: %s", h.Name, d.mm(h.MaxMM), keys)
		}
		legs := opt(d.size("die block reaches", s.DieHalfMM), d.size("stripper reaches", s.StripperHalfMM), d.size("gap under the stripper", s.StripperGapMM), d.size("room for a leg that stands up", s.LegUpMM))
		d.line(2, "%s", legs)
		if o := s.OffsetDie; o != nil {
			force := "the station's force"
			if o.ForceKN > 0 {
				force = fmt.Sprintf("up to %.0f kN", o.ForceKN)
			}
			d.line(2, "offset die reaches %s; %s", d.mm(o.HalfMM), force)
		}
	}
	if s := m.Shear; s != nil {
		d.station("shear", &s.Rating, s.Rows, func(r Row) string { return d.mm(r.ThicknessMM) + " x " + d.mm(r.SizeMM) })
		hold := d.size("hold-down reaches", s.HoldDownMM)
		if hold == "" {
			hold = "hold-down not stated"
		}
		rake := "rake not stated"
		if s.RakeRad > 0 {
			rake = "rake " + showDeg(s.RakeRad)
		}
		mitre := "mitre as far as the table takes"
		if s.MitreRad > 0 {
			mitre = "mitre to " + showDeg(s.MitreRad)
		}
		d.line(2, "%s", opt(d.size("blade", s.BladeMM), rake, hold, d.size("opening", s.OpeningMM), d.size("pivot to blade", s.PivotMM), mitre))
	}
	if s := m.Notch; s != nil {
		d.station("notcher", &s.Rating, s.Rows, func(r Row) string { return d.mm(r.ThicknessMM) + " x " + d.mm(r.SizeMM) + " of cut" })
		if s.MaxThicknessMM > 0 {
			d.line(2, "thickest %s", d.mm(s.MaxThicknessMM))
		}
		if legs := opt(d.size("die reaches beyond the cut", s.DieBeyondMM), d.size("tool", s.ToolBeyondMM), d.size("room for a leg that stands up", s.LegUpMM)); legs != "" {
			d.line(2, "%s", legs)
		}
	}
	if s := m.Angle; s != nil {
		d.station("angle shear", &s.Rating, nil, nil)
		mitre := "no mitre"
		if s.MitreRad > 0 {
			mitre = fmt.Sprintf("mitred to %s: %s x %s", showDeg(s.MitreRad), d.mm(s.MitreLegMM), d.mm(s.MitreThicknessMM))
		}
		blade := ""
		if s.UnequalNeedsBlade {
			blade = "unequal legs need their own blade"
		}
		oneWay := ""
		if s.MitreOneWay {
			oneWay = "to one side only"
		}
		d.line(2, "%s", opt(fmt.Sprintf("square: leg %s x %s", d.mm(s.MaxLegMM), d.mm(s.MaxThicknessMM)), mitre, oneWay, blade))
	}
	for i := range m.Bars {
		s := &m.Bars[i]
		d.barStation(s)
	}
	for i := range m.Tubes {
		d.tubeStation(&m.Tubes[i])
	}
	if s := m.Brake; s != nil {
		d.station("brake", &s.Rating, nil, nil)
		d.line(2, "%s", opt(d.size("length", s.LengthMM), "V "+d.list(s.VMM), d.size("pivot", s.PivotMM), d.size("rated at", s.PivotRefMM), d.size("stroke there", s.StrokeMM)))
	}
	if m.Table {
		d.line(1, "tool table")
	}
}

func strokes(perMinute float64) string {
	if perMinute <= 0 {
		return ""
	}
	return fmt.Sprintf("%g strokes a minute", perMinute)
}

func degrees(list []float64) string {
	if len(list) == 0 {
		return "none"
	}
	texts := make([]string, len(list))
	for i, v := range list {
		texts[i] = fmt.Sprintf("%.4g", v*180/math.Pi)
	}
	return strings.Join(texts, ", ") + " deg"
}

// station tells the force that may be used, and why it is that one.
func (d *describer) station(name string, r *Rating, rows []Row, show func(Row) string) {
	rated := "rated force not stated"
	if r.ForceKN > 0 {
		rated = fmt.Sprintf("rated %.1f kN", r.ForceKN)
		if ton := tonKN(r.Ton); ton > 0 {
			rated += fmt.Sprintf(" (%.4g %s ton)", r.ForceKN/ton, r.Ton)
		}
	}
	switch {
	case r.FromRow:
		share := ""
		if r.ForceKN > 0 {
			share = fmt.Sprintf(", %.0f %% of rated", r.UsableKN/r.ForceKN*100)
		}
		d.line(1, "%s: %s, usable %.1f kN from the row %s at %.4g MPa%s", name, rated, r.UsableKN, show(rows[r.HeaviestRow]), r.BasisMPa, share)
	case r.UsableKN > 0:
		d.line(1, "%s: %s, usable %.1f kN, %s of rated", name, rated, r.UsableKN, showShare(r.UsableShare))
	case len(rows) > 0:
		d.line(1, "%s: %s, judged by its rows alone", name, rated)
	default:
		d.line(1, "%s: %s", name, rated)
	}
	if len(rows) > 0 {
		texts := make([]string, len(rows))
		for i, row := range rows {
			texts[i] = show(row)
		}
		d.line(2, "rows in %s at %.4g MPa: %s", r.BasisMaterial, r.BasisMPa, strings.Join(texts, ", "))
	}
}

func tonKN(ton string) float64 {
	if ton == "" {
		return 0
	}
	kn, err := measure.Force("1 " + ton + " ton")
	if err != nil {
		panic("shop: unknown ton " + ton)
	}
	return kn
}

func (d *describer) rack() {
	d.head("Punches and dies (%d)", len(d.p.Punches))
	if len(d.p.Punches) == 0 {
		d.line(1, "none")
	}
	for i := range d.p.Punches {
		q := &d.p.Punches[i]
		dies := "no die"
		if len(q.Dies) > 0 {
			widths := make([]float64, len(q.Dies))
			for j, die := range q.Dies {
				widths[j] = die.WidthMM
			}
			dies = "dies " + d.list(widths)
		}
		size := d.mm(q.WidthMM)
		if q.LengthMM > 0 {
			size += " x " + d.mm(q.LengthMM)
		}
		if q.Name != q.defaultName(d.p.Units) {
			size = q.Shape + " " + size
		} else {
			size = ""
		}
		holder, machine, wear, ground, buy := "", "", "", "", ""
		if q.Holder != "" {
			holder = "holder " + q.Holder
		}
		if q.Machine != "" {
			machine = q.Machine + " only"
		}
		if q.Wear != 1 {
			wear = fmt.Sprintf("wear factor %g", q.Wear)
		}
		if q.ShearMM > 0 {
			ground = "shear on the tool " + d.mm(q.ShearMM)
		}
		if q.Buy != nil {
			buy = map[bool]string{true: "may be bought", false: "may not be bought"}[*q.Buy]
		}
		d.line(1, "%s: %s", q.Name, opt(size, dies, holder, machine, wear, ground, buy))
	}
	if d.p.Buy {
		d.line(1, "missing tools may be bought")
	} else {
		d.line(1, "missing tools are not bought")
	}
	d.head("Notching tools (%d)", len(d.p.Notchers))
	if len(d.p.Notchers) == 0 {
		d.line(1, "none")
	}
	for i := range d.p.Notchers {
		t := &d.p.Notchers[i]
		what := fmt.Sprintf("%s, %s across, %s deep", t.Shape, d.mm(t.WidthMM), d.mm(t.DepthMM))
		if t.Shape == "vee" {
			what += ", " + showDeg(t.AngleRad)
		}
		rows := ""
		for j, r := range t.Rows {
			if j > 0 {
				rows += ", "
			}
			rows += d.mm(r.SizeMM) + " deep in " + d.mm(r.ThicknessMM)
		}
		machine := ""
		if t.Machine != "" {
			machine = t.Machine + " only"
		}
		d.line(1, "%s: %s", t.Name, opt(what, d.size("to", t.MaxThicknessMM), rows, machine))
	}
	d.endTools()
}

func (d *describer) stock() {
	s := &d.p.Stock
	d.head("Stock")
	if !s.Stated {
		d.line(1, "not stated: blanks will be assumed")
	}
	if len(s.FlatWidthsMM) > 0 {
		length := ""
		if s.FlatLengthMM > 0 {
			length = " in lengths of " + d.mm(s.FlatLengthMM)
		}
		d.line(1, "flat bar %s%s", d.list(s.FlatWidthsMM), length)
	}
	for _, plate := range s.Plates {
		d.line(1, "plate %s x %s", d.mm(plate[0]), d.mm(plate[1]))
	}
	if len(s.Angles) > 0 {
		texts := make([]string, len(s.Angles))
		for i, a := range s.Angles {
			texts[i] = fmt.Sprintf("%s x %s x %s", d.mm(a.LegMM[0]), d.mm(a.LegMM[1]), d.mm(a.ThicknessMM))
		}
		length := ""
		if s.AngleLengthMM > 0 {
			length = " in lengths of " + d.mm(s.AngleLengthMM)
		}
		d.line(1, "angles %s%s", strings.Join(texts, ", "), length)
	}
	if s.BarLengthMM > 0 {
		d.line(1, "other bars, channels and tubes in lengths of %s", d.mm(s.BarLengthMM))
	}
	usual := ""
	if !s.ThicknessStated {
		usual = " (the usual series, not stated)"
	}
	d.line(1, "thicknesses %s%s", d.list(s.ThicknessMM), usual)
	if len(s.Gauges) > 0 {
		texts := make([]string, len(s.Gauges))
		for i, g := range s.Gauges {
			texts[i] = fmt.Sprintf("%d (%.2f mm)", g.Number, g.MM)
			if d.p.Units == "in" {
				texts[i] = fmt.Sprintf("%d (%.4f in)", g.Number, g.MM/25.4)
			}
		}
		d.line(1, "sheet gauges %s", strings.Join(texts, ", "))
	}
}

func (d *describer) processes() {
	d.head("Beside the machines")
	for _, q := range d.p.Also {
		if !q.Have {
			d.line(1, "%s: no", q.Kind)
			continue
		}
		rate := ""
		if q.RatePerMinute > 0 {
			rate = fmt.Sprintf("%g a minute", q.RatePerMinute)
		}
		d.line(1, "%s: yes; %s", q.Kind, opt(d.size("diameter to", q.MaxDiameterMM), d.size("thickness to", q.MaxThicknessMM), d.size("radius to", q.MaxRadiusMM), fmt.Sprintf("%g s each", q.Seconds), rate))
	}
}

func (d *describer) rates() {
	r := &d.p.Rates
	d.head("Times")
	d.line(1, "hit %g s at a stop, %g s at a mark; cut %g s on bar, %g s on plate; bite %g s", r.HitStop, r.HitMark, r.CutBar, r.CutPlate, r.Bite)
	d.line(1, "punch change %g s, setting %g s, first-off %g s; turn %g s", r.PunchChange, r.Setting, r.FirstOff, r.Turn)
	d.line(1, "handling a visit %g s below 10 kg, %g s to 25 kg, %g s above", r.HandleLight, r.HandleMedium, r.HandleHeavy)
	d.line(1, "deburring %.3g m a minute; drilling %g s, other work %g s; at work %s of the time", r.DeburrMPerMinute, r.Drill, r.Other, showShare(r.Availability))
}

func (d *describer) settings() {
	if len(d.p.Settings) == 0 && len(d.p.Layers) == 0 {
		return
	}
	d.head("Settings")
	for _, rule := range sortedKeys(d.p.Settings) {
		for _, param := range sortedKeys(d.p.Settings[rule]) {
			unit := d.p.Places[rule][param].Unit
			if unit != "" {
				unit = " " + unit
			}
			d.line(1, "rule %s: %s = %.6g%s", rule, param, d.p.Settings[rule][param], unit)
		}
	}
	for _, purpose := range sortedKeys(d.p.Layers) {
		words := strings.Join(d.p.Layers[purpose], ", ")
		if words == "" {
			words = "none"
		}
		d.line(1, "layers for %s: %s", purpose, words)
	}
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

func (d *describer) materials() {
	d.head("Materials, shear strength nominal / upper")
	for _, m := range d.p.Materials {
		punch := ""
		if !m.Punchable {
			punch = "not punched or sheared"
		}
		d.line(1, "%s: %s", m.Name, opt(fmt.Sprintf("%g / %g MPa", m.ShearMPa, m.ShearUpperMPa), punch, m.Source))
	}
}
