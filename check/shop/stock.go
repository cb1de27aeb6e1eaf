package shop

import (
	"math"
	"slices"
	"sort"
	"strconv"

	"burrside/features/measure"
)

// seriesMM and seriesIn are the thicknesses that a shop of each habit keeps
// when it lists none (common practice, no source).
func seriesMM() []float64 { return []float64{3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25} }

func seriesIn() []float64 {
	var list []float64
	for _, n := range []float64{8, 12, 16, 20, 24, 32, 40, 48, 56, 64} { // 64ths of an inch, 1/8 to 1
		list = append(list, n*254/640) // exact, where n x 25.4 is not
	}
	return list
}

func (l *loader) stock(s *section, p *Profile) {
	st := &p.Stock
	t := s.table("stock")
	if t != nil {
		st.Stated = true
		st.FlatWidthsMM = t.lengths("flat_widths", bounds{max: 5_000})
		st.FlatLengthMM = t.length("flat_length", bounds{min: 200, max: 30_000})
		st.Plates = l.plates(t)
		st.ThicknessMM = t.lengths("thicknesses", bounds{max: maxThicknessMM})
		st.ThicknessStated = t.has("thicknesses")
		l.gauges(t, st)
		st.Angles = l.angles(t)
		st.AngleLengthMM = t.length("angle_length", bounds{min: 200, max: 30_000})
		st.BarLengthMM = t.length("bar_length", bounds{min: 200, max: 30_000})
		t.done()
	}
	if len(st.ThicknessMM) == 0 && !st.ThicknessStated {
		st.ThicknessMM = seriesMM()
		if p.Units == "in" {
			st.ThicknessMM = seriesIn()
		}
	}
}

func (l *loader) plates(s *section) [][2]float64 {
	n := s.find("plates")
	if !s.is(n, "plates", isArray) {
		return nil
	}
	var list [][2]float64
	for i, item := range n.items {
		key := "plates[" + strconv.Itoa(i) + "]"
		if item.kind != isTable {
			l.fault(item, s.key(key), "%s must be written as in { width = \"1500 mm\", length = \"3000 mm\" }", s.key(key))
			continue
		}
		t := l.section(item, s.key(key))
		t.need("width", `"1500 mm"`)
		t.need("length", `"3000 mm"`)
		w := t.length("width", bounds{min: 50, max: 30_000})
		long := t.length("length", bounds{min: 50, max: 30_000})
		t.done()
		if w == 0 || long == 0 {
			continue
		}
		plate := [2]float64{min(w, long), max(w, long)}
		if slices.Contains(list, plate) {
			l.fault(item, s.key(key), "%s stands twice", s.key(key))
			continue
		}
		list = append(list, plate)
	}
	return list
}

// angles reads the rolled angles that the shop keeps.
func (l *loader) angles(s *section) []AngleBar {
	n := s.find("angles")
	if !s.is(n, "angles", isArray) {
		return nil
	}
	var list []AngleBar
	for i, item := range n.items {
		key := "angles[" + strconv.Itoa(i) + "]"
		if item.kind != isTable {
			l.fault(item, s.key(key), "%s must be written as in { leg = \"75 mm\", thickness = \"8 mm\" }", s.key(key))
			continue
		}
		t := l.section(item, s.key(key))
		t.need("leg", `"75 mm"`)
		t.need("thickness", `"8 mm"`)
		a := t.length("leg", bounds{min: 10, max: maxLegMM})
		b := a
		if t.has("other_leg") {
			b = t.length("other_leg", bounds{min: 10, max: maxLegMM})
		}
		thick := t.length("thickness", bounds{max: maxThicknessMM})
		t.done()
		if a == 0 || b == 0 || thick == 0 {
			continue
		}
		if thick >= min(a, b)/2 {
			l.fault(item, s.key(key), "%s: thickness %s is half the leg or more", s.key(key), l.show(thick))
			continue
		}
		bar := AngleBar{LegMM: [2]float64{max(a, b), min(a, b)}, ThicknessMM: thick}
		if slices.Contains(list, bar) {
			l.fault(item, s.key(key), "%s stands twice", s.key(key))
			continue
		}
		list = append(list, bar)
	}
	return list
}

func (l *loader) gauges(s *section, st *Stock) {
	n := s.find("gauges")
	if !s.is(n, "gauges", isArray) {
		return
	}
	for i, item := range n.items {
		key := "gauges[" + strconv.Itoa(i) + "]"
		if item.kind != isNumber || item.num != math.Trunc(item.num) {
			l.fault(item, s.key(key), "%s must be a gauge number as in 10, not %s", s.key(key), describeNode(item))
			continue
		}
		mm, ok := 0.0, false
		if item.num >= 0 && item.num < 1000 {
			mm, ok = measure.SheetGauge(int(item.num))
		}
		if !ok {
			l.fault(item, s.key(key), "%s: there is no sheet gauge %s, the table goes from 3 to 30", s.key(key), item.text)
			continue
		}
		g := Gauge{Number: int(item.num), MM: mm}
		if slices.Contains(st.Gauges, g) {
			l.fault(item, s.key(key), "%s: gauge %d stands twice", s.key(key), g.Number)
			continue
		}
		st.Gauges = append(st.Gauges, g)
	}
	sort.Slice(st.Gauges, func(i, j int) bool { return st.Gauges[i].MM > st.Gauges[j].MM })
}

// SnapThickness gives the stock or gauge thickness within 0.15 mm or 1.5 % of
// t, the nearest if there are two, and whether it changed. Equality counts as
// within. Gauges count only when the shop lists them. A thickness that is near
// none stays as it is: a 10 mm plate is not 3/8 in.
func (p *Profile) SnapThickness(mm float64) (snapped float64, changed bool) {
	if !(mm > 0) || math.IsInf(mm, 0) {
		return mm, false
	}
	// 1e-6 relative: limits count as met within it.
	reach := max(0.15, 0.015*mm) * (1 + 1e-6)
	best, dist := mm, math.Inf(1)
	try := func(size float64) {
		d := math.Abs(size - mm)
		if d <= reach && (d < dist || d == dist && size < best) {
			best, dist = size, d
		}
	}
	for _, size := range p.Stock.ThicknessMM {
		try(size)
	}
	for _, g := range p.Stock.Gauges {
		try(g.MM)
	}
	return best, best != mm
}
