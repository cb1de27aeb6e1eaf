package shop

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"burrside/features/measure"
)

// Groups of materials, as the rules tell them apart.
func groups() []string {
	return []string{"mild", "high-strength", "stainless", "aluminium", "copper", "hardened"}
}

// groupDefaults are density and aimed die clearance of a group. Densities: EN
// 1991-1-1:2002 Table A.4 (steel 77 to 78.5, aluminium 27, copper 87 to 89
// kN/m3) rounded to the usual trade figures; stainless EN 10088-1. Clearances:
// common practice, no source.
func groupDefaults(group string) (densityKgM3, clearance float64) {
	switch group {
	case "stainless":
		return 7900, 0.14
	case "aluminium":
		return 2700, 0.10
	case "copper":
		return 8900, 0.12
	}
	return 7850, 0.12
}

// builtInMaterials is the table that a shop starts with. ShearMPa is what a
// capacity chart would use, ShearUpperMPa 0.8 x the upper end of the tensile
// range where the standard states one (0.8: common practice for the force on
// press tools). Yield and tensile: the standard named, for the thinnest band.
func builtInMaterials() []Material {
	const (
		chart  = "tooling shear-strength chart, common practice, no source"
		en2    = "yield and tensile EN 10025-2:2019 Table 6; shear: chart basis 50 ksi, common practice, no source"
		en2x   = "yield and tensile EN 10025-2:2019 Table 6; shear 0.8 x tensile commonly delivered, common practice, no source"
		memory = " (strengths from memory)"
	)
	list := []Material{
		{Name: "mild", Aliases: []string{"mild steel", "MS", "M.S.", "low carbon steel", "steel mild"}, Group: "mild",
			ShearMPa: 345, ShearUpperMPa: 415, YieldMPa: 235, TensileMPa: 510, Source: "shear: chart basis 50 ksi, common practice, no source; yield and tensile as S235"},
		{Name: "S235", Aliases: []string{"1.0038", "1.0114", "1.0117", "St37", "St 37-2", "RSt 37-2", "USt 37-2", "Q235", "Fe 360", "40A"}, Group: "mild",
			ShearMPa: 345, ShearUpperMPa: 415, YieldMPa: 235, TensileMPa: 510, Source: en2},
		{Name: "S275", Aliases: []string{"1.0044", "1.0143", "1.0145", "St 44-2", "43A", "Grade 43A", "Fe 430"}, Group: "mild",
			ShearMPa: 345, ShearUpperMPa: 415, YieldMPa: 275, TensileMPa: 560, Source: en2},
		{Name: "A36", Aliases: []string{"ASTM A36", "A36M", "ASTM A36M", "SA36"}, Group: "mild",
			ShearMPa: 414, ShearUpperMPa: 448, YieldMPa: 250, TensileMPa: 550, Source: "yield and tensile ASTM A36; shear " + chart},
		{Name: "SS400", Aliases: []string{"JIS SS400"}, Group: "mild",
			ShearMPa: 345, ShearUpperMPa: 415, YieldMPa: 245, TensileMPa: 510, Source: "yield and tensile JIS G 3101; shear as S235" + memory},
		{Name: "cold rolled sheet", Aliases: []string{"CR sheet", "cold rolled", "cold rolled steel", "DC01", "1.0330"}, Group: "mild",
			ShearMPa: 276, ShearUpperMPa: 328, TensileMPa: 410, Source: "shear " + chart + "; tensile EN 10130" + memory},
		{Name: "S355", Aliases: []string{"1.0045", "1.0553", "1.0577", "1.0596", "S355K2", "St 52", "St 52-3", "Q345", "Q355", "50B", "Grade 50B", "Fe 510"}, Group: "high-strength",
			ShearMPa: 430, ShearUpperMPa: 504, YieldMPa: 355, TensileMPa: 630, Source: en2x},
		{Name: "A572-50", Aliases: []string{"A572", "A572 Gr 50", "A572 Gr. 50", "A572 Grade 50", "ASTM A572-50", "ASTM A572 Gr 50", "ASTM A572 Gr. 50", "ASTM A572 Grade 50"}, Group: "high-strength",
			ShearMPa: 430, ShearUpperMPa: 504, YieldMPa: 345, TensileMPa: 630, Source: "yield ASTM A572; shear and upper tensile as S355, common practice, no source"},
		{Name: "weathering steel", Aliases: []string{"weathering"}, Group: "high-strength",
			ShearMPa: 379, ShearUpperMPa: 504, YieldMPa: 345, TensileMPa: 630, Source: "shear " + chart + "; upper as S355"},
		{Name: "C45", Aliases: []string{"1.0503", "AISI 1045", "1045"}, Group: "high-strength",
			ShearMPa: 552, ShearUpperMPa: 552, Source: "0.45 to 0.50 % carbon sheet, " + chart},
		{Name: "304", Aliases: []string{"AISI 304", "304L", "AISI 304L", "1.4301", "1.4307", "X5CrNi18-10", "SUS304", "stainless 304", "304 stainless", "stainless steel 304"}, Group: "stainless",
			ShearMPa: 517, ShearUpperMPa: 517, YieldMPa: 205, TensileMPa: 750, Source: "shear 1.5 x 50 ksi, common practice, no source; yield ASTM A240, tensile EN 10088-2" + memory},
		{Name: "316", Aliases: []string{"AISI 316", "316L", "AISI 316L", "1.4401", "1.4404", "SUS316", "stainless 316", "316 stainless", "stainless steel 316"}, Group: "stainless",
			ShearMPa: 517, ShearUpperMPa: 517, YieldMPa: 205, TensileMPa: 750, Source: "as 304, common practice, no source"},
		{Name: "aluminium 5052", Aliases: []string{"aluminum 5052", "5052", "5052-H32", "aluminium 5052-H32", "aluminum 5052-H32", "Al 5052", "AA5052", "EN AW-5052"}, Group: "aluminium",
			ShearMPa: 138, ShearUpperMPa: 138, TensileMPa: 265, Source: "H32 temper, " + chart},
		{Name: "aluminium 6061", Aliases: []string{"aluminum 6061", "6061", "6061-T6", "aluminium 6061-T6", "aluminum 6061-T6", "Al 6061", "AA6061", "EN AW-6061"}, Group: "aluminium",
			ShearMPa: 207, ShearUpperMPa: 207, YieldMPa: 240, TensileMPa: 310, Source: "T6 temper, " + chart},
		{Name: "aluminium 3003", Aliases: []string{"aluminum 3003", "3003", "3003-H14", "aluminium 3003-H14", "aluminum 3003-H14", "AA3003"}, Group: "aluminium",
			ShearMPa: 103, ShearUpperMPa: 103, Source: "H14 temper, " + chart},
		{Name: "aluminium 1100", Aliases: []string{"aluminum 1100", "1100-H14", "aluminium 1100-H14", "aluminum 1100-H14", "AA1100"}, Group: "aluminium",
			ShearMPa: 76, ShearUpperMPa: 76, Source: "H14 temper, " + chart},
		{Name: "aluminium 2024-T3", Aliases: []string{"aluminum 2024-T3", "2024-T3", "2024", "aluminium 2024", "aluminum 2024"}, Group: "aluminium",
			ShearMPa: 283, ShearUpperMPa: 283, Source: "T3 temper, " + chart},
		{Name: "aluminium 7075-T6", Aliases: []string{"aluminum 7075-T6", "7075-T6", "7075", "aluminium 7075", "aluminum 7075"}, Group: "aluminium",
			ShearMPa: 331, ShearUpperMPa: 331, Source: "T6 temper, " + chart},
		{Name: "copper", Aliases: []string{"copper half hard", "Cu-ETP", "CW004A"}, Group: "copper",
			ShearMPa: 179, ShearUpperMPa: 197, Source: "half hard, " + chart},
		{Name: "brass", Aliases: []string{"cartridge brass", "brass half hard", "CuZn30"}, Group: "copper",
			ShearMPa: 276, ShearUpperMPa: 276, Source: "half hard, " + chart},
		{Name: "spring steel", Aliases: []string{"hardened spring steel"}, Group: "hardened",
			ShearMPa: 1380, ShearUpperMPa: 1380, Source: "hardened to 45 to 50 HRC, " + chart},
		{Name: "wear plate", Aliases: []string{"hardened", "hardened steel", "hardened plate", "wear plate 400", "wear plate 450", "wear plate 500", "AR400", "AR450", "AR500", "400 HB", "450 HB", "500 HB"}, Group: "hardened",
			ShearMPa: 1000, ShearUpperMPa: 1400, Source: "0.8 x tensile of 400 to 500 HB, common practice, no source"},
		{Name: "armour plate", Aliases: []string{"armor plate", "armour", "armor"}, Group: "hardened",
			ShearMPa: 1400, ShearUpperMPa: 1400, Source: "0.8 x tensile of 500 HB, common practice, no source"},
		{Name: "cast iron", Aliases: []string{"cast", "grey iron", "gray iron"}, Group: "hardened",
			ShearMPa: 350, ShearUpperMPa: 350, Source: "brittle: not punched or sheared, common practice, no source"},
	}
	for i := range list {
		m := &list[i]
		m.DensityKgM3, m.ClearanceShare = groupDefaults(m.Group)
		m.Punchable = m.Group != "hardened"
		switch m.Name {
		case "aluminium 5052":
			m.DensityKgM3 = 2680
		case "aluminium 2024-T3":
			m.DensityKgM3 = 2780
		case "aluminium 7075-T6":
			m.DensityKgM3 = 2810
		case "brass":
			m.DensityKgM3 = 8530
		case "cast iron":
			m.DensityKgM3 = 7200
		}
	}
	return list
}

// Material finds a material by name or alias, whatever the case, spaces,
// hyphens and underscores; the quality suffixes of EN 10025 (JR, J0, J2, and
// +N, +AR) may follow a name of the form S and three digits. ok is false if the
// shop knows none. It never guesses: "S350" is not S355. The Material is p's
// and must not be modified.
func (p *Profile) Material(name string) (m *Material, ok bool) {
	word := bareName(name)
	if word == "" {
		return nil, false
	}
	if m := p.exactMaterial(word); m != nil {
		return m, true
	}
	if grade := withoutQuality(word); grade != word {
		if m := p.exactMaterial(grade); m != nil {
			return m, true
		}
	}
	return nil, false
}

func (p *Profile) exactMaterial(word string) *Material {
	for i := range p.Materials {
		if bareName(p.Materials[i].Name) == word {
			return &p.Materials[i]
		}
	}
	for i := range p.Materials {
		for _, a := range p.Materials[i].Aliases {
			if bareName(a) == word {
				return &p.Materials[i]
			}
		}
	}
	return nil
}

// bareName drops case, spaces, hyphens and underscores.
func bareName(name string) string {
	var b strings.Builder
	for _, c := range strings.ToLower(name) {
		switch {
		case unicode.IsSpace(c), c == '-', c == '_', c >= '\u2010' && c <= '\u2015':
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

// withoutQuality drops the suffixes of a bare name s###...; the delivery
// condition stands last.
func withoutQuality(word string) string {
	if len(word) < 4 || word[0] != 's' {
		return word
	}
	for _, c := range word[1:4] {
		if c < '0' || c > '9' {
			return word
		}
	}
	rest := word[4:]
	for _, s := range []string{"+n", "+ar"} {
		if cut, ok := strings.CutSuffix(rest, s); ok {
			rest = cut
			break
		}
	}
	switch rest {
	case "", "jr", "j0", "j2":
		return word[:4]
	}
	return word
}

func (p *Profile) materialNames() []string {
	var names []string
	for _, m := range p.Materials {
		names = append(names, m.Name)
		names = append(names, m.Aliases...)
	}
	return names
}

// materials reads the file's own materials into the built-in table. An entry
// of a known name changes what it states and leaves the rest.
func (l *loader) materials(s *section, p *Profile) {
	p.Materials = builtInMaterials()
	seen := map[string]int{}
	for _, t := range s.tables("material") {
		l.readMaterial(t, p, seen)
	}
}

func (l *loader) readMaterial(s *section, p *Profile, seen map[string]int) {
	var name string
	if s.need("name", `"S420"`) != nil {
		name = s.text("name")
	}
	m := Material{Name: name, Punchable: true}
	at := -1
	if name != "" {
		if known := p.exactMaterial(bareName(name)); known != nil {
			m = *known
			m.Aliases = slices.Clone(m.Aliases)
			at = slices.IndexFunc(p.Materials, func(o Material) bool { return o.Name == known.Name })
		}
		if line, twice := seen[m.Name]; twice {
			l.fault(s.find("name"), s.key("name"), "%s: material %q is given twice, first on line %d", s.key("name"), name, line)
		}
		seen[m.Name] = s.n.line
	}
	own := at < 0
	if own {
		s.need("group", `"mild"`)
		s.need("shear", `"345 MPa"`)
	}
	if s.has("group") {
		m.Group = s.word("group", groups()...)
		m.DensityKgM3, m.ClearanceShare = groupDefaults(m.Group)
		m.Punchable = m.Group != "hardened"
	}
	for _, f := range []struct {
		key string
		to  *float64
	}{{"shear", &m.ShearMPa}, {"shear_upper", &m.ShearUpperMPa}, {"yield", &m.YieldMPa}, {"tensile", &m.TensileMPa}} {
		if s.has(f.key) {
			*f.to = s.stress(f.key, bounds{min: 10, max: maxStressMPa})
			m.Source = "shop file"
		}
	}
	if s.has("shear") && !s.has("shear_upper") {
		m.ShearUpperMPa = max(m.ShearMPa, m.ShearUpperMPa)
	}
	if m.ShearUpperMPa > 0 && m.ShearUpperMPa < m.ShearMPa {
		l.fault(s.firstOf("shear_upper", "shear"), s.key("shear_upper"), "%s %g MPa is less than shear %g MPa", s.key("shear_upper"), m.ShearUpperMPa, m.ShearMPa)
	}
	if m.YieldMPa > 0 && m.TensileMPa > 0 && m.YieldMPa > m.TensileMPa {
		l.fault(s.firstOf("yield", "tensile"), s.key("yield"), "%s %g MPa is more than tensile %g MPa", s.key("yield"), m.YieldMPa, m.TensileMPa)
	}
	if s.has("density") {
		m.DensityKgM3, _ = s.quantity(s.find("density"), "density", "7850 kg/m3", bounds{min: 500, max: 25000}, measure.Density,
			func(v float64) string { return fmt.Sprintf("%g kg/m3", v) })
	}
	if s.has("clearance") {
		m.ClearanceShare = s.share("clearance", bounds{min: 0.02, max: 0.35})
	}
	if s.has("punchable") {
		m.Punchable = s.yes("punchable", true)
	}
	for _, a := range s.texts("aliases") {
		if o := p.exactMaterial(bareName(a)); o != nil && o.Name != m.Name {
			l.fault(s.find("aliases"), s.key("aliases"), "%s: %q is a name of %s already", s.key("aliases"), a, o.Name)
			continue
		}
		m.Aliases = append(m.Aliases, a)
	}
	s.done()
	if own {
		if name != "" {
			p.Materials = append(p.Materials, m)
		}
		return
	}
	p.Materials[at] = m
}

// firstOf gives the node of the first key that is there.
func (s *section) firstOf(keys ...string) *node {
	for _, k := range keys {
		if n := s.find(k); n != nil {
			return n
		}
	}
	return s.n
}
