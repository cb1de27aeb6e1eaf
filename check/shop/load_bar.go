package shop

import (
	"math"
	"slices"
	"sort"
	"strconv"
	"strings"

	"burrside/features/measure"
)

// EndShapes are the kinds of bar and tube that an end tool can be for.
func EndShapes() []string {
	return []string{"round bar", "square bar", "flat bar", "round tube", "square tube"}
}

// barStation reads one [[machine.bar]]: the shear of round bar, square bar or
// channel.
func (l *loader) barStation(s *section, p *Profile) BarStation {
	st := BarStation{Rating: l.rating(s, p, "")}
	s.need("shape", `"round"`)
	st.Shape = s.word("shape", "round", "square", "channel")
	st.CavitiesMM = s.lengths("cavities", bounds{max: maxToolMM})
	if n := s.find("cavities"); n != nil && n.kind == isArray && len(n.items) == 0 {
		l.fault(n, s.key("cavities"), "%s is empty: a blade has at least one cavity", s.key("cavities"))
	}
	st.Channels = l.channels(s)
	largest := 0.0
	for _, v := range st.CavitiesMM {
		largest = max(largest, v)
	}
	for _, c := range st.Channels {
		largest = max(largest, c.DepthMM)
	}
	if !s.has("cavities") && !s.has("channels") {
		s.need("max", `"40 mm"`)
	}
	st.MaxMM = s.length("max", bounds{max: maxToolMM})
	if st.MaxMM > 0 && largest > st.MaxMM*(1+1e-6) {
		l.fault(s.find("max"), s.key("max"), "%s is less than the largest of its list, %s", s.key("max"), l.show(largest))
	}
	if st.MaxMM == 0 {
		st.MaxMM = largest
	}
	if s.has("cavities") && st.Shape == "channel" {
		l.fault(s.find("cavities"), s.key("cavities"), "%s: a channel shear lists channels, for example channels = [{ depth = \"100 mm\" }]", s.key("cavities"))
	}
	if s.has("channels") && (st.Shape == "round" || st.Shape == "square") {
		l.fault(s.find("channels"), s.key("channels"), "%s: a shear for %s bar lists cavities, for example cavities = [\"20 mm\"]", s.key("channels"), st.Shape)
	}
	if s.has("governs") {
		st.ByForce = s.word("governs", "row", "force") == "force"
		switch {
		case st.Shape == "channel":
			l.fault(s.find("governs"), s.key("governs"), "%s: a channel shear is governed by its channels", s.key("governs"))
		case st.ByForce && !s.has("rated"):
			l.missing(s.find("governs"), s.key("rated"), "%s is missing: where one force governs the cavities it must be known, for example rated = \"480 kN\"", s.key("rated"))
		}
	}
	// Area x shear strength, single shear.
	f := barArea(st.Shape, st.MaxMM) * st.BasisMPa / 1000
	switch {
	case st.ByForce && st.UsableKN > 0 && f > st.UsableKN*1.01:
		l.warn(s.n, s.path, "%s: the largest cavity, %s of %s, needs %.1f kN, more than the usable %.1f kN; the force governs and that size is refused in that steel",
			s.path, l.show(st.MaxMM), st.Shape, f, st.UsableKN)
	case !st.ByForce && st.ForceKN > 0 && f > st.ForceKN*1.01:
		at := s.find("max")
		key := s.key("max")
		if at == nil {
			at, key = s.find("cavities"), s.key("cavities")
		}
		l.warn(at, key, "%s %s of %s needs %.1f kN, more than the rated %.1f kN; the size holds as written",
			key, l.show(st.MaxMM), st.Shape, f, st.ForceKN)
	}
	s.done()
	return st
}

// barArea is the section of a round or square bar, mm2; 0 of another shape.
func barArea(shape string, sizeMM float64) float64 {
	switch shape {
	case "round":
		return math.Pi / 4 * sizeMM * sizeMM
	case "square":
		return sizeMM * sizeMM
	}
	return 0
}

// channels reads the channels that the blades are shaped for.
func (l *loader) channels(s *section) []ChannelRow {
	var list []ChannelRow
	for _, t := range s.tables("channels") {
		t.need("depth", `"100 mm"`)
		c := ChannelRow{
			DepthMM:           t.length("depth", bounds{min: 10, max: maxToolMM}),
			FlangeMM:          t.length("flange", bounds{min: 5, max: maxToolMM}),
			WebMM:             t.length("web", bounds{max: maxThicknessMM}),
			FlangeThicknessMM: t.length("flange_thickness", bounds{max: maxThicknessMM}),
		}
		t.done()
		if c.DepthMM == 0 {
			continue
		}
		if c.WebMM >= c.DepthMM/2 || c.FlangeMM > 0 && c.WebMM >= c.FlangeMM {
			l.fault(t.n, t.path, "%s: a web of %s is no channel's", t.path, l.show(c.WebMM))
			continue
		}
		if slices.Contains(list, c) {
			l.fault(t.n, t.path, "%s stands twice", t.path)
			continue
		}
		list = append(list, c)
	}
	if n := s.find("channels"); n != nil && n.kind == isArray && len(n.items) == 0 {
		l.fault(n, s.key("channels"), "%s is empty: leave it out, or name the channels that the blades are for", s.key("channels"))
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].DepthMM < list[j].DepthMM })
	return list
}

// tubeStation reads one [[machine.tube]].
func (l *loader) tubeStation(s *section, p *Profile) TubeStation {
	st := TubeStation{Rating: l.rating(s, p, "")}
	s.need("shape", `"square"`)
	st.Shape = s.word("shape", "square", "round")
	size := "side"
	if st.Shape == "round" {
		size = "diameter"
	}
	s.need("rows", `[{ `+size+` = "50 mm", thickness = "3 mm" }]`)
	rows, at := l.rows(s, size, `{ `+size+` = "50 mm", thickness = "3 mm" }`, maxToolMM)
	for i, r := range rows {
		if r.ThicknessMM >= r.SizeMM/2 {
			l.fault(at[i], s.key("rows"), "row %s: the wall is half the %s or more", l.row(r), size)
		}
	}
	if n := s.find("rows"); n != nil && n.kind == isArray && len(n.items) == 0 {
		l.fault(n, s.key("rows"), "%s is empty: a tube shear needs a row", s.key("rows"))
	}
	st.Rows = rows
	s.done()
	return st
}

func (l *loader) endTools(s *section, p *Profile) {
	for _, t := range s.tables("end_tool") {
		l.readEndTool(t, p)
	}
}

// readEndTool reads one [[end_tool]].
func (l *loader) readEndTool(s *section, p *Profile) {
	e := EndTool{BasisMaterial: p.Default}
	s.need("work", `"saddle"`)
	e.Work = strings.ToLower(s.text("work"))
	switch {
	case e.Work == "":
	case e.Work == "square" || e.Work == "mitre":
		l.fault(s.find("work"), s.key("work"), "%s: %q is a plain cut and needs no tool", s.key("work"), e.Work)
	case strings.ContainsFunc(e.Work, func(r rune) bool { return (r < 'a' || r > 'z') && r != '-' }):
		l.fault(s.find("work"), s.key("work"), "%s %q must be one word of small letters, as a cut list names the end", s.key("work"), e.Work)
	}
	saddle := e.Work == "saddle"
	if saddle {
		e.Shapes = []string{"round tube"}
		if s.has("shapes") {
			l.fault(s.find("shapes"), s.key("shapes"), "%s: a saddle is cut on round tube only", s.key("shapes"))
		}
		e.LeastAngleRad = math.Pi / 2
		if s.has("least_angle") {
			e.LeastAngleRad = s.angle("least_angle", bounds{min: 20 * math.Pi / 180, max: math.Pi / 2})
		}
	} else if e.Work != "" {
		s.need("shapes", `["round bar", "square bar"]`)
		known := EndShapes()
		for _, w := range s.texts("shapes") {
			w = strings.ToLower(w)
			switch {
			case !slices.Contains(known, w):
				l.fault(s.find("shapes"), s.key("shapes"), "%s %q is unknown; it may be %s", s.key("shapes"), w, strings.Join(known, ", "))
				l.hint(nearest(w, known))
			case slices.Contains(e.Shapes, w):
				l.fault(s.find("shapes"), s.key("shapes"), "%s: %q stands twice", s.key("shapes"), w)
			default:
				e.Shapes = append(e.Shapes, w)
			}
		}
		if n := s.find("shapes"); n != nil && n.kind == isArray && len(n.items) == 0 {
			l.fault(n, s.key("shapes"), "%s is empty: name what the tool takes, for example [\"round bar\"]", s.key("shapes"))
		}
		if s.has("least_angle") {
			l.fault(s.find("least_angle"), s.key("least_angle"), "%s: only a saddle has an angle", s.key("least_angle"))
		}
	}
	l.endSizes(s, &e, saddle)
	if s.has("rows_material") {
		if m := l.material(s, "rows_material", p); m != nil {
			e.BasisMaterial = m.Name
		}
	}
	if m, ok := p.Material(e.BasisMaterial); ok {
		e.BasisMPa = m.ShearMPa
	}
	if s.has("machine") {
		if m := l.machine(s, "machine", p); m != nil {
			e.Machine = m.Name
		}
	}
	e.Name = s.text("name")
	if e.Name == "" {
		e.Name = e.defaultName(p.Units)
	}
	s.done()
	for _, o := range p.Ends {
		if strings.EqualFold(o.Name, e.Name) && (o.Machine == "" || e.Machine == "" || o.Machine == e.Machine) {
			l.fault(s.n, s.path, "%s: end tool %q is listed twice; a tool lists all its sizes in one entry", s.path, e.Name)
			break
		}
	}
	p.Ends = append(p.Ends, e)
}

// endSizes reads the sizes of an end tool. A saddle names each pipe, by its
// nominal size and schedule or by diameter and wall; other tools the greatest
// size and thickness.
func (l *loader) endSizes(s *section, e *EndTool, saddle bool) {
	example := `[{ size = "25 mm", thickness = "4 mm" }]`
	if saddle {
		example = `[{ pipe = "1-1/2", schedule = "40" }]`
	}
	n := s.need("sizes", example)
	if n != nil && n.kind == isArray && len(n.items) == 0 {
		l.fault(n, s.key("sizes"), "%s is empty: write it as in %s", s.key("sizes"), example)
	}
	walls := false
	for _, shape := range e.Shapes {
		walls = walls || strings.HasSuffix(shape, "tube") || shape == "flat bar"
	}
	for _, t := range s.tables("sizes") {
		var z EndSize
		if saddle {
			z = l.saddleSize(t)
		} else {
			t.need("size", `"25 mm"`)
			z.SizeMM = t.length("size", bounds{max: maxToolMM})
			if walls {
				t.need("thickness", `"4 mm"`)
			}
			z.ThicknessMM = t.length("thickness", bounds{max: maxThicknessMM})
		}
		t.done()
		if z.SizeMM == 0 {
			continue
		}
		if z.ThicknessMM > z.SizeMM/2*(1+1e-9) {
			l.fault(t.n, t.path, "%s: a wall or thickness of %s is more than half of %s", t.path, l.show(z.ThicknessMM), l.show(z.SizeMM))
			continue
		}
		if slices.Contains(e.Sizes, z) {
			l.fault(t.n, t.path, "%s stands twice", t.path)
			continue
		}
		e.Sizes = append(e.Sizes, z)
	}
	sort.SliceStable(e.Sizes, func(i, j int) bool {
		a, b := e.Sizes[i], e.Sizes[j]
		if a.SizeMM != b.SizeMM {
			return a.SizeMM < b.SizeMM
		}
		return a.ThicknessMM < b.ThicknessMM
	})
}

func (l *loader) saddleSize(t *section) (z EndSize) {
	switch {
	case t.has("pipe"):
		text := t.text("pipe")
		p, ok := measure.PipeByNPS(strings.TrimSuffix(strings.TrimSuffix(text, " in"), `"`))
		if dn, found := strings.CutPrefix(strings.ToUpper(text), "DN"); found {
			if v, err := strconv.Atoi(strings.TrimSpace(dn)); err == nil {
				p, ok = measure.PipeByDN(v)
			}
		}
		if !ok && text != "" {
			l.fault(t.find("pipe"), t.key("pipe"), "%s %q is no nominal pipe size; write \"1-1/2\" or \"DN40\", or give diameter and wall", t.key("pipe"), text)
			return z
		}
		for _, k := range []string{"diameter", "wall"} {
			if t.has(k) {
				l.fault(t.find(k), t.key(k), "%s: give pipe and schedule, or diameter and wall, not both", t.key(k))
			}
		}
		if t.need("schedule", `"40"`) == nil {
			return z
		}
		schedule := t.text("schedule")
		wall, ok := p.WallMM(schedule)
		if !ok && schedule != "" {
			l.fault(t.find("schedule"), t.key("schedule"), "%s %q is not in the table: it may be 40, 80, STD or XS; else give diameter and wall", t.key("schedule"), schedule)
			return z
		}
		z.SizeMM, z.ThicknessMM = p.ODMM, wall
	default:
		t.need("diameter", `"48.3 mm"`)
		t.need("wall", `"3.7 mm"`)
		z.SizeMM = t.length("diameter", bounds{min: 5, max: maxToolMM})
		z.ThicknessMM = t.length("wall", bounds{max: maxThicknessMM})
		if z.ThicknessMM == 0 {
			return EndSize{}
		}
	}
	z.HeaderMM = z.SizeMM
	if t.has("header") {
		z.HeaderMM = t.length("header", bounds{min: 5, max: 2 * maxToolMM})
		if z.HeaderMM > 0 && z.HeaderMM < z.SizeMM*(1-1e-9) {
			l.fault(t.find("header"), t.key("header"), "%s %s is smaller than the tube of %s: a saddle fits to the same size or a larger one", t.key("header"), l.show(z.HeaderMM), l.show(z.SizeMM))
		}
	}
	return z
}

func (e *EndTool) defaultName(units string) string {
	if len(e.Sizes) == 0 {
		return e.Work
	}
	z := e.Sizes[len(e.Sizes)-1]
	if e.Work == "saddle" {
		if len(e.Sizes) == 1 {
			return "saddle Ø" + shortLength(z.SizeMM, units)
		}
		return "saddle Ø" + shortLength(e.Sizes[0].SizeMM, units) + " to Ø" + shortLength(z.SizeMM, units)
	}
	return e.Work + " to " + shortLength(z.SizeMM, units)
}
