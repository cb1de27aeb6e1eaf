package render

import (
	"fmt"
	"slices"
	"strings"

	"burrside/check"
)

// madeByLines sums up what makes the features: "4 x hole Ø22 mm: punch, north
// bay, Ø22/24.2". Features that nothing makes, or of which it is not known, are
// named.
func madeByLines(p *check.PartReport, unit string) []string {
	if p.Plan == nil {
		return nil
	}
	type group struct {
		what, how string
		ids       []string
		names     bool
	}
	var groups []group
	at := map[string]int{}
	for i := range p.Plan.Makes {
		m := &p.Plan.Makes[i]
		if m.Feature < 0 || m.Feature >= len(p.Part.Features) {
			continue
		}
		f := &p.Part.Features[m.Feature]
		g := group{what: featureWords(f, unit), how: madeByWords(m.MadeBy)}
		switch m.MadeBy {
		case "stock":
			g.what = "edge"
		case "unknown", "nothing", "":
			g.names = true
		default:
			if m.Use.Machine != "" {
				g.how += ", " + m.Use.Machine
			}
			if s := m.Use.Station; s != "" && s != m.MadeBy && s != m.Use.Machine && !strings.Contains(g.how, s) {
				g.how += ", " + s
			}
			if tool := toolText(m.Use.Tool, m.Use.Die); tool != "" {
				g.how += ", " + tool
			}
			if u := m.Before; u != nil {
				first := u.Station
				for _, s := range []string{u.Machine, toolText(u.Tool, u.Die)} {
					if s != "" {
						first += ", " + s
					}
				}
				g.how = first + ", then " + g.how
			}
			if m.Use.Hits > 1 {
				g.how += fmt.Sprintf(", %d times each", m.Use.Hits)
			}
		}
		key := g.what + "\x00" + g.how
		if g.names {
			key = g.how
		}
		k, ok := at[key]
		if !ok {
			k = len(groups)
			at[key] = k
			groups = append(groups, g)
		}
		groups[k].ids = append(groups[k].ids, f.ID)
	}
	var out []string
	for _, g := range groups {
		if g.names {
			out = append(out, idList(g.ids)+": "+g.how)
			continue
		}
		out = append(out, fmt.Sprintf("%d x %s: %s", len(g.ids), g.what, g.how))
	}
	return out
}

// toolText writes a tool with its die: "Ø22/24.2".
func toolText(tool, die string) string {
	bare := strings.TrimPrefix(die, "die ")
	switch {
	case die == "":
		return tool
	case tool == "":
		return "die " + bare
	}
	// The die has the shape of its punch: that is not said twice.
	if word, rest, ok := strings.Cut(bare, " "); ok && strings.HasPrefix(tool, word+" ") {
		bare = rest
	}
	return tool + "/" + strings.TrimPrefix(bare, "Ø")
}

// limitLines says in words which stock thicknesses fit, one line a material:
// "mild: fits from 3 to 16 mm; with care at 20 mm (...); not at 25 mm (...)".
// Only thicknesses that were judged are spoken of; nothing is said of thinner
// or thicker stock.
func limitLines(p *check.PartReport, unit string) []string {
	var materials []string
	by := map[string][]check.Limit{}
	for _, l := range p.Limits {
		if by[l.Material] == nil {
			materials = append(materials, l.Material)
		}
		by[l.Material] = append(by[l.Material], l)
	}
	var out []string
	for _, m := range materials {
		list := by[m]
		slices.SortStableFunc(list, func(a, b check.Limit) int {
			switch {
			case a.ThicknessMM < b.ThicknessMM:
				return -1
			case a.ThicknessMM > b.ThicknessMM:
				return 1
			}
			return 0
		})
		var runs []string
		for i := 0; i < len(list); {
			j := i + 1
			for j < len(list) && list[j].Verdict == list[i].Verdict && sameCause(&list[j], &list[i]) {
				j++
			}
			runs = append(runs, limitRun(list[i:j], unit))
			i = j
		}
		name := m
		if name == "" {
			name = "material not named"
		}
		out = append(out, name+": "+strings.Join(runs, "; "))
	}
	return out
}

// readingLines says how part number i comes out in each unit that the drawing may
// be in: its size and what was found against it. It gives no verdict, because
// none is sure before the unit is; nothing if it is.
func readingLines(rep *check.Report, i int, unit string) []string {
	var out []string
	for k := range rep.Readings {
		r := &rep.Readings[k]
		if i < 0 || i >= len(r.Parts) || r.Parts[i] == nil || r.Parts[i].Part == nil {
			continue
		}
		p := r.Parts[i]
		b := partBox(p.Part)
		what := "nothing found against it"
		if n := len(p.Findings); n > 0 {
			what = strings.TrimPrefix(restLine(p.Findings), "+ ")
			if f := firstFinding(p.Findings); f != nil {
				what += "; the worst: " + shortFinding(f)
			}
		}
		size := pairText(b.Width, b.Height, unit)
		if p.Part.Angle != nil {
			size = "angle " + angleWords(p.Part.Angle, unit)
		}
		out = append(out, fmt.Sprintf("read in %s: %s, %s", unitWord(r.Unit), size, what))
		for _, s := range limitLines(p, unit) {
			out = append(out, fmt.Sprintf("read in %s, %s", unitWord(r.Unit), s))
		}
	}
	return out
}

func unitWord(u string) string {
	switch u {
	case "in":
		return "inch"
	case "ft":
		return "feet"
	}
	return u
}

func sameCause(a, b *check.Limit) bool { return a.Verdict == check.Fits || a.StoppedBy == b.StoppedBy }

func limitRun(run []check.Limit, unit string) string {
	from, to := run[0].ThicknessMM, run[len(run)-1].ThicknessMM
	span := "at " + lengthText(from, unit)
	if len(run) > 1 {
		span = "from " + trimUnit(lengthText(from, unit), unit) + " to " + lengthText(to, unit)
	}
	why := run[0].Text
	if why == "" && run[0].StoppedBy != "" {
		why = ruleWords(run[0].StoppedBy)
		if len(run[0].Features) > 0 {
			why += ", " + idList(run[0].Features)
		}
	}
	if why != "" {
		why = " (" + why + ")"
	}
	switch run[0].Verdict {
	case check.Fits:
		return "fits " + span
	case check.WithCare:
		return "with care " + span + why
	case check.DoesNotFit:
		return "does not fit " + span + why
	}
	return "cannot be told " + span + why
}
