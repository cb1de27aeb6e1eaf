package shop

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"burrside/features/measure"
)

// Bounds of what is possible in this class of machine, far beyond any real one:
// they catch a slipped digit or unit, not an unusual machine.
const (
	maxForceKN     = 50_000
	minForceKN     = 1
	maxThroatMM    = 5_000
	maxThicknessMM = 300
	maxCutMM       = 10_000
	maxToolMM      = 1_000
	maxLegMM       = 500
	maxRakeRad     = 20 * math.Pi / 180
	maxStressMPa   = 4_000
)

// The margin between the figure on the plate and what may be used, when no
// rows tell, and the strength at which rows in mild steel are meant.
const (
	defaultUsableShare = 0.90 // common practice, no source: 10 to 15 % below the plate
	defaultStripperGap = 45
)

func (l *loader) machines(s *section, p *Profile) {
	list := s.tables("machine")
	if len(list) == 0 && !s.has("machine") {
		l.missing(s.n, "machine", "machine is missing: a shop has at least one [[machine]]")
	}
	for i, m := range list {
		p.Machines = append(p.Machines, l.readMachine(m, p))
		for _, other := range p.Machines[:i] {
			if name := p.Machines[i].Name; name != "" && strings.EqualFold(other.Name, name) {
				l.fault(m.find("name"), m.key("name"), "%s: there are two machines named %q", m.key("name"), name)
				break
			}
		}
	}
}

func (l *loader) readMachine(s *section, p *Profile) Machine {
	m := Machine{}
	if s.need("name", `"north bay"`) != nil {
		m.Name = s.text("name")
	}
	m.Table = s.yes("tool_table", false)
	if t := s.table("punch"); t != nil {
		m.Punch = l.punchStation(t, p)
	}
	if t := s.table("shear"); t != nil {
		m.Shear = l.shearStation(t, p)
	}
	if t := s.table("notcher"); t != nil {
		m.Notch = l.notchStation(t, p)
	}
	if t := s.table("angle"); t != nil {
		m.Angle = l.angleStation(t, p)
	}
	for _, t := range s.tables("bar") {
		m.Bars = append(m.Bars, l.barStation(t, p))
	}
	for _, t := range s.tables("tube") {
		m.Tubes = append(m.Tubes, l.tubeStation(t, p))
	}
	if t := s.table("brake"); t != nil {
		m.Brake = l.brakeStation(t, p)
		if !m.Table && s.has("tool_table") {
			l.warn(t.n, t.path, "%s: the machine has no tool table for a brake", t.path)
		}
	}
	s.done()
	if m.Punch == nil && m.Shear == nil && m.Notch == nil && m.Angle == nil && len(m.Bars) == 0 && len(m.Tubes) == 0 && m.Brake == nil &&
		!s.has("punch") && !s.has("shear") && !s.has("notcher") && !s.has("angle") && !s.has("bar") && !s.has("tube") && !s.has("brake") {
		l.missing(s.n, s.path, "%s has no station: give it punch, shear, notcher, angle, bar, tube or brake", s.path)
	}
	return m
}

func (s *section) force(key string, b bounds) (kn float64, ton string) {
	if b.max == 0 {
		b = bounds{min: minForceKN, max: maxForceKN}
	}
	kn, _ = s.quantity(s.find(key), key, "550 kN", b, func(text string) (float64, error) {
		v, err := measure.ForceAndTon(text)
		ton = v.Ton
		return v.KN, err
	}, showKN)
	return kn, ton
}

// rating reads the keys that all stations share. needed says what is missing
// when neither a force nor rows are given; "" allows that.
func (l *loader) rating(s *section, p *Profile, needed string) Rating {
	r := Rating{UsableShare: defaultUsableShare, BasisMaterial: p.Default}
	r.ForceKN, r.Ton = s.force("rated", bounds{})
	if s.has("usable_share") {
		r.UsableShare = s.share("usable_share", bounds{min: 0.3, max: 1})
		if !s.has("rated") {
			l.missing(s.find("usable_share"), s.key("usable_share"), "%s is a share of rated, which is missing", s.key("usable_share"))
		}
	}
	if s.has("rows_material") {
		if m := l.material(s, "rows_material", p); m != nil {
			r.BasisMaterial = m.Name
		}
	}
	if m, ok := p.Material(r.BasisMaterial); ok {
		r.BasisMPa = m.ShearMPa
	}
	if s.has("basis") {
		r.BasisMPa = s.stress("basis", bounds{min: 30, max: maxStressMPa})
	}
	if needed != "" && !s.has("rated") && !s.has("rows") {
		l.missing(s.n, s.key("rated"), "%s: %s is missing, for example rated = \"550 kN\"", s.path, needed)
	}
	r.UsableKN = r.ForceKN * r.UsableShare
	return r
}

// rows reads capacity rows: tables of thickness and size, in any order. A
// thinner row may have the same size (the blade ends there), never a smaller one.
func (l *loader) rows(s *section, size, example string, maxSize float64) ([]Row, []*node) {
	n := s.find("rows")
	if !s.is(n, "rows", isArray) {
		return nil, nil
	}
	type placed struct {
		Row
		at *node
	}
	var list []placed
	for i, item := range n.items {
		key := fmt.Sprintf("rows[%d]", i)
		if item.kind != isTable {
			l.fault(item, s.key(key), "%s must be written as in %s", s.key(key), example)
			continue
		}
		t := l.section(item, s.key(key))
		t.need("thickness", `"19 mm"`)
		t.need(size, `"27 mm"`)
		row := Row{
			ThicknessMM: t.length("thickness", bounds{max: maxThicknessMM}),
			SizeMM:      t.length(size, bounds{max: maxSize}),
		}
		t.done()
		if row.ThicknessMM > 0 && row.SizeMM > 0 {
			list = append(list, placed{row, item})
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].ThicknessMM > list[j].ThicknessMM })
	for i, row := range list {
		for _, other := range list[:i] {
			later, first := row, other
			if less(later.at, first.at) {
				later, first = first, later
			}
			same := math.Abs(row.ThicknessMM-other.ThicknessMM) <= 1e-6*row.ThicknessMM
			switch {
			case same && math.Abs(row.SizeMM-other.SizeMM) <= 1e-6*row.SizeMM:
				l.fault(later.at, s.key("rows"), "row %s stands twice, first on line %d", l.row(row.Row), first.at.line)
			case same, other.SizeMM > row.SizeMM*(1+1e-6):
				l.fault(later.at, s.key("rows"), "rows contradict each other: %s and %s (line %d)",
					l.row(later.Row), l.row(first.Row), first.at.line)
			default:
				continue
			}
			break
		}
	}
	rows, at := make([]Row, len(list)), make([]*node, len(list))
	for i, row := range list {
		rows[i], at[i] = row.Row, row.at
	}
	return rows, at
}

func less(a, b *node) bool {
	if a.line != b.line {
		return a.line < b.line
	}
	return a.col < b.col
}

// row words a row for people, in the shop's units.
func (l *loader) row(r Row) string { return l.show(r.SizeMM) + " through " + l.show(r.ThicknessMM) }

// usable works out UsableKN from the rows. force is the model's force of a row
// at the basis; nil when there is no model (a shear without a rake). model
// words it.
func (l *loader) usable(s *section, r *Rating, rows []Row, at []*node, model string, force func(Row) float64) {
	if force == nil || len(rows) == 0 || r.BasisMPa <= 0 {
		return
	}
	// 1 %: name plates round sizes to whole millimetres and thirty-seconds.
	const rounding = 1.01
	forces := make([]float64, len(rows))
	over := make([]bool, len(rows))
	heaviest := 0
	for i, row := range rows {
		forces[i] = force(row)
		over[i] = r.ForceKN > 0 && forces[i] > r.ForceKN*rounding
		// A row above the rated force may be a slip of the pen: it says nothing
		// about the force while there is another.
		if over[heaviest] && !over[i] || over[heaviest] == over[i] && forces[i] > forces[heaviest] {
			heaviest = i
		}
	}
	r.FromRow, r.HeaviestRow = true, heaviest
	r.UsableKN = forces[heaviest]
	if r.ForceKN > 0 {
		r.UsableKN = min(r.UsableKN, r.ForceKN)
	}
	basis := fmt.Sprintf("%.4g MPa", r.BasisMPa)
	for i, f := range forces {
		if over[i] {
			l.warn(at[i], s.key("rows"), "row %s needs %.1f kN at %s (%s), more than the rated %.1f kN; the row holds for what it covers, %.1f kN for all else",
				l.row(rows[i]), f, basis, model, r.ForceKN, r.UsableKN)
		}
	}
	if !s.has("usable_share") || r.ForceKN <= 0 || r.UsableShare <= 0 {
		return
	}
	// Half a percentage point: what a share written in whole per cent can mean.
	if share := r.UsableKN / r.ForceKN; math.Abs(share-r.UsableShare) > 0.005 {
		l.warn(s.find("usable_share"), s.key("usable_share"),
			"%s %s contradicts the row %s, which takes %.1f kN at %s, %.0f %% of the rated %.1f kN; the row wins",
			s.key("usable_share"), showShare(r.UsableShare), l.row(rows[heaviest]), forces[heaviest], basis, share*100, r.ForceKN)
	}
}

// spread warns of rows that a force-limited station cannot have both: the
// lightest takes much less force than the heaviest, as after a slip of a digit.
func (l *loader) spread(s *section, rows []Row, at []*node, force func(Row) float64) {
	if len(rows) < 2 {
		return
	}
	low, high := 0, 0
	for i := range rows {
		if force(rows[i]) < force(rows[low]) {
			low = i
		}
		if force(rows[i]) > force(rows[high]) {
			high = i
		}
	}
	// 0.6 is a judgement, no source: rows of one plate agree within about 15 %.
	if force(rows[low]) < 0.6*force(rows[high]) {
		l.warn(at[low], s.key("rows"), "row %s takes only %.1f kN and row %s takes %.1f kN: one of them may be a slip; both hold as written",
			l.row(rows[low]), force(rows[low]), l.row(rows[high]), force(rows[high]))
	}
}

// punchForceKN is the force of a round hole: perimeter x thickness x shear
// strength (shear stress on the cut surface; Singer and Pytel, Strength of
// Materials, problem 115).
func punchForceKN(dMM, tMM, shearMPa float64) float64 { return math.Pi * dMM * tMM * shearMPa / 1000 }

// shearForceKN is the force of a cut: with a rake the least of the triangle
// under the blade and the blade fully engaged in a narrow bar, without one the
// whole cut at once.
func shearForceKN(lengthMM, tMM, rakeRad, shearMPa float64) float64 {
	if rakeRad <= 0 {
		return lengthMM * tMM * shearMPa / 1000
	}
	tan := math.Tan(rakeRad)
	if lengthMM >= tMM/tan {
		return shearMPa * tMM * tMM / (2 * tan) / 1000
	}
	return shearMPa * (float64(lengthMM*tMM) - float64(lengthMM*lengthMM)*tan/2) / 1000
}

func (l *loader) punchStation(s *section, p *Profile) *PunchStation {
	st := &PunchStation{Rating: l.rating(s, p, "rated (or rows)"), StripperGapMM: defaultStripperGap}
	rows, at := l.rows(s, "hole", `{ hole = "27 mm", thickness = "19 mm" }`, maxToolMM)
	st.Rows = rows
	force := func(r Row) float64 { return punchForceKN(r.SizeMM, r.ThicknessMM, st.BasisMPa) }
	l.usable(s, &st.Rating, rows, at, "pi x hole x thickness x basis", force)
	l.spread(s, rows, at, force)

	s.need("throat", `"300 mm"`)
	st.ThroatMM = s.length("throat", bounds{min: 20, max: maxThroatMM})
	st.Holders = l.holders(s)
	st.DieHalfMM = s.length("die_half_width", bounds{max: maxToolMM})
	st.StripperHalfMM = s.length("stripper_half_width", bounds{max: maxToolMM})
	if s.has("stripper_gap") {
		st.StripperGapMM = s.length("stripper_gap", bounds{max: maxToolMM})
	}
	if t := s.table("offset_die"); t != nil {
		t.need("half_width", `"14 mm"`)
		st.OffsetDie = &OffsetDie{HalfMM: t.length("half_width", bounds{max: maxToolMM})}
		st.OffsetDie.ForceKN, _ = t.force("force", bounds{})
		if st.ForceKN > 0 && st.OffsetDie.ForceKN > st.ForceKN*(1+1e-9) {
			l.fault(t.find("force"), t.key("force"), "%s is more than the station's rated %.1f kN", t.key("force"), st.ForceKN)
		}
		if st.DieHalfMM > 0 && st.OffsetDie.HalfMM >= st.DieHalfMM {
			l.fault(t.find("half_width"), t.key("half_width"), "%s must be less than die_half_width %s: an offset die reaches closer", t.key("half_width"), l.show(st.DieHalfMM))
		}
		t.done()
	}
	st.LegUpMM = s.length("leg_up", bounds{max: maxLegMM})
	st.MaxThicknessMM = l.thickest(s, rows)
	l.rowsWithin(s, rows, at, st.MaxThicknessMM, "max_thickness")
	if n := len(st.Holders); n > 0 {
		for i, row := range rows {
			if row.SizeMM > st.Holders[n-1].MaxMM*(1+1e-6) {
				l.warn(at[i], s.key("rows"), "row %s: no holder takes a punch of %s, the largest goes to %s", l.row(row), l.show(row.SizeMM), l.show(st.Holders[n-1].MaxMM))
			}
		}
	}
	st.Stop = s.yes("stop", false)
	st.Strokes = s.number("strokes", 1, 1000)
	s.done()
	return st
}

// thickest reads the thickest metal that a station takes: without rows nothing
// else tells it.
func (l *loader) thickest(s *section, rows []Row) float64 {
	if len(rows) == 0 && !s.has("rows") {
		s.need("max_thickness", `"20 mm"`)
	}
	return s.length("max_thickness", bounds{max: maxThicknessMM})
}

func (l *loader) rowsWithin(s *section, rows []Row, at []*node, limitMM float64, key string) {
	for i, row := range rows {
		if limitMM > 0 && row.ThicknessMM > limitMM*(1+1e-6) {
			l.fault(at[i], s.key("rows"), "row %s is thicker than %s %s", l.row(row), key, l.show(limitMM))
		}
	}
}

func (l *loader) holders(s *section) []Holder {
	n := s.need("holders", `[{ name = "standard", max = "40 mm" }]`)
	if !s.is(n, "holders", isArray) {
		return nil
	}
	if len(n.items) == 0 {
		l.fault(n, s.key("holders"), "%s is empty: a punch needs a holder", s.key("holders"))
	}
	var list []Holder
	for i, t := range s.tables("holders") {
		h := Holder{}
		if t.has("name") {
			h.Name = t.text("name")
		} else {
			h.Name = fmt.Sprintf("holder %d", i+1)
		}
		t.need("max", `"40 mm"`)
		h.MaxMM = t.length("max", bounds{max: maxToolMM})
		if k := t.find("keys"); t.is(k, "keys", isArray) {
			h.Keys = []float64{}
			for j, item := range k.items {
				v, ok := t.quantity(item, fmt.Sprintf("keys[%d]", j), "90 deg", bounds{zero: true, max: math.Pi}, measure.Angle, showDeg)
				if ok && slices.Contains(h.Keys, v) {
					l.fault(item, t.key("keys"), "%s: %q stands twice", t.key("keys"), item.text)
				} else if ok {
					h.Keys = append(h.Keys, v)
				}
			}
			sort.Float64s(h.Keys)
		}
		t.done()
		if len(list) > 0 && h.MaxMM > 0 && h.MaxMM <= list[len(list)-1].MaxMM*(1+1e-9) {
			l.fault(t.n, t.path, "%s: holders must ascend, %s stands after %s", t.path, l.show(h.MaxMM), l.show(list[len(list)-1].MaxMM))
		}
		for _, other := range list {
			if strings.EqualFold(other.Name, h.Name) {
				l.fault(t.n, t.path, "%s: there are two holders named %q", t.path, h.Name)
			}
		}
		list = append(list, h)
	}
	return list
}

func (l *loader) shearStation(s *section, p *Profile) *ShearStation {
	st := &ShearStation{Rating: l.rating(s, p, "rows (or rated with rake)")}
	rows, at := l.rows(s, "cut", `{ thickness = "20 mm", cut = "300 mm" }`, maxCutMM)
	st.Rows = rows
	st.RakeRad = s.angleOrZero("rake", maxRakeRad)
	if s.has("rake") {
		l.usable(s, &st.Rating, rows, at, "raked blade over the length of cut", func(r Row) float64 {
			return shearForceKN(r.SizeMM, r.ThicknessMM, st.RakeRad, st.BasisMPa)
		})
	} else if len(rows) == 0 && s.has("rated") && !s.has("rows") {
		l.missing(s.n, s.key("rows"), "%s: rows are missing; without rows the rake is needed to compute a force, for example rake = \"6 deg\"", s.path)
	}
	s.need("blade", `"600 mm"`)
	st.BladeMM = s.length("blade", bounds{min: 20, max: maxCutMM})
	for i, row := range rows {
		if st.BladeMM > 0 && row.SizeMM > st.BladeMM*(1+1e-6) {
			l.fault(at[i], s.key("rows"), "row %s is longer than the blade of %s", l.row(row), l.show(st.BladeMM))
		}
	}
	st.HoldDownMM = s.length("hold_down", bounds{max: maxToolMM})
	st.PivotMM = s.length("pivot", bounds{max: maxCutMM})
	st.OpeningMM = s.length("opening", bounds{max: maxThicknessMM})
	l.rowsWithin(s, rows, at, st.OpeningMM, "opening")
	st.MitreRad = s.angle("mitre", bounds{max: 80 * math.Pi / 180})
	s.done()
	return st
}

func (s *section) angleOrZero(key string, most float64) float64 {
	return s.angle(key, bounds{max: most, zero: true})
}

func (l *loader) notchStation(s *section, p *Profile) *NotchStation {
	st := &NotchStation{Rating: l.rating(s, p, "rated (or rows)")}
	rows, at := l.rows(s, "cut", `{ thickness = "10 mm", cut = "180 mm" }`, maxCutMM)
	st.Rows = rows
	l.usable(s, &st.Rating, rows, at, "length of cut x thickness x basis", func(r Row) float64 {
		return shearForceKN(r.SizeMM, r.ThicknessMM, 0, st.BasisMPa)
	})
	st.MaxThicknessMM = l.thickest(s, rows)
	l.rowsWithin(s, rows, at, st.MaxThicknessMM, "max_thickness")
	st.DieBeyondMM = s.length("die_beyond", bounds{max: maxToolMM})
	st.ToolBeyondMM = s.length("tool_beyond", bounds{max: maxToolMM})
	st.LegUpMM = s.length("leg_up", bounds{max: maxLegMM})
	s.done()
	return st
}

func (l *loader) angleStation(s *section, p *Profile) *AngleStation {
	st := &AngleStation{Rating: l.rating(s, p, "")}
	s.need("leg", `"100 mm"`)
	s.need("thickness", `"10 mm"`)
	st.MaxLegMM = s.length("leg", bounds{max: maxLegMM})
	st.MaxThicknessMM = s.length("thickness", bounds{max: maxThicknessMM})
	if st.MaxLegMM > 0 && st.MaxThicknessMM >= st.MaxLegMM/2 {
		l.fault(s.find("thickness"), s.key("thickness"), "%s is half the leg or more", s.key("thickness"))
	}
	st.MitreRad = s.angle("mitre", bounds{max: 60 * math.Pi / 180})
	st.MitreLegMM = s.length("mitre_leg", bounds{max: maxLegMM})
	st.MitreThicknessMM = s.length("mitre_thickness", bounds{max: maxThicknessMM})
	for _, key := range []string{"mitre_leg", "mitre_thickness"} {
		if s.has(key) && !s.has("mitre") {
			l.fault(s.find(key), s.key(key), "%s is given without mitre, the greatest angle, for example mitre = \"45 deg\"", s.key(key))
		}
	}
	if st.MitreLegMM > st.MaxLegMM*(1+1e-9) && st.MaxLegMM > 0 {
		l.fault(s.find("mitre_leg"), s.key("mitre_leg"), "%s is more than leg %s", s.key("mitre_leg"), l.show(st.MaxLegMM))
	}
	if st.MitreThicknessMM > st.MaxThicknessMM*(1+1e-9) && st.MaxThicknessMM > 0 {
		l.fault(s.find("mitre_thickness"), s.key("mitre_thickness"), "%s is more than thickness %s", s.key("mitre_thickness"), l.show(st.MaxThicknessMM))
	}
	if st.MitreRad > 0 {
		if st.MitreLegMM == 0 {
			st.MitreLegMM = st.MaxLegMM
		}
		if st.MitreThicknessMM == 0 {
			st.MitreThicknessMM = st.MaxThicknessMM
		}
	}
	st.UnequalNeedsBlade = s.yes("unequal_needs_blade", false)
	st.MitreOneWay = s.yes("mitre_one_way", false)
	if s.has("mitre_one_way") && !s.has("mitre") {
		l.fault(s.find("mitre_one_way"), s.key("mitre_one_way"), "%s is given without mitre, the greatest angle, for example mitre = \"45 deg\"", s.key("mitre_one_way"))
	}
	s.done()
	return st
}

func (l *loader) brakeStation(s *section, p *Profile) *BrakeStation {
	st := &BrakeStation{Rating: l.rating(s, p, "")}
	if !s.has("rated") {
		l.missing(s.n, s.key("rated"), "%s: rated is missing, for example rated = \"300 kN\"", s.path)
	}
	s.need("length", `"300 mm"`)
	st.LengthMM = s.length("length", bounds{max: maxCutMM})
	if n := s.need("v", `["16 mm", "25 mm"]`); n != nil {
		st.VMM = s.lengths("v", bounds{max: maxToolMM})
		if n.kind == isArray && len(n.items) == 0 {
			l.fault(n, s.key("v"), "%s is empty: a brake needs a V", s.key("v"))
		}
	}
	st.PivotMM = s.length("pivot", bounds{max: maxCutMM})
	st.PivotRefMM = s.length("pivot_rated_at", bounds{max: maxCutMM})
	st.StrokeMM = s.length("stroke", bounds{max: maxToolMM})
	if (st.PivotMM > 0) != (st.PivotRefMM > 0) && (s.has("pivot") != s.has("pivot_rated_at")) {
		l.missing(s.n, s.key("pivot"), "%s: pivot and pivot_rated_at go together", s.path)
	}
	s.done()
	return st
}
