package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/measure"
)

// statedBeside reads the text beside or under a label MATERIAL, whatever it says:
// "304", "CS", a maker's name. The nearest text on the label's line counts, and
// the nearest under it before that; a heading there, SCALE, says that the box is
// empty or that the other one is meant. Where more than one value stands under the
// label it heads the column of a list, and is passed over.
func (b *builder) statedBeside(label int) []statement {
	texts := b.sheet.Texts
	l := &texts[label]
	behind, under := -1, -1
	behindOff, underOff := 0.0, 0.0
	var below []int
	wide := 2. / 3 * l.HeightMM * float64(len([]rune(l.Value)))
	for k := range texts {
		t := &texts[k]
		if k == label || t.Tag != "" || t.Revision || strings.TrimSpace(t.Value) == "" {
			continue
		}
		dx, dy := l.offTo(t)
		// Letters may be taller than the label's, and stand on their own middle.
		line := labelLine * math.Max(l.HeightMM, t.HeightMM)
		switch {
		case math.Abs(dy) <= line && dx > 0.5*wide && dx <= wide+labelBehind*l.HeightMM:
			if behind < 0 || dx < behindOff {
				behind, behindOff = k, dx
			}
		case dy < 0 && math.Abs(dx) <= labelAside*l.HeightMM:
			below = append(below, k)
			if -dy <= labelUnder*math.Max(l.HeightMM, t.HeightMM) && (under < 0 || dy > underOff) {
				under, underOff = k, dy
			}
		}
	}
	isValue := func(k int) bool {
		if k < 0 || isHeading(texts[k].Value) {
			return false
		}
		_, ok := measure.StatedMaterial(texts[k].Value)
		return ok
	}
	at := behind
	switch {
	case isValue(under) && (behind < 0 || isHeading(texts[behind].Value) || !isValue(behind)):
		n := 0
		for _, k := range below {
			// The next label ends the list.
			if _, up := texts[under].offTo(&texts[k]); isValue(k) && up > -labelUnder*l.HeightMM {
				n++
			}
		}
		if n > 1 {
			return nil
		}
		at = under
	case !isValue(behind):
		return nil
	}
	t := &texts[at]
	if _, ok := measure.MaterialNote(t.Value); ok {
		return nil // it is read by itself
	}
	// Away from a title block only what looks like a grade is one.
	if b.tableOf(l) < 0 && !strings.ContainsAny(t.Value, "0123456789") && len(strings.TrimSpace(t.Value)) > 4 {
		return nil
	}
	line, _ := measure.StatedMaterial(t.Value)
	var out []statement
	for _, s := range b.statementsOf(*t, line) {
		if s.kind == "material" {
			s.whole, s.at = line, t.At
			out = append(out, s)
		}
	}
	return out
}

// isHeading tells a text that heads a box of a title block, or ends as a label.
func isHeading(text string) bool {
	text = strings.TrimSpace(text)
	if headingWords(text) > 0 || strings.HasSuffix(text, ":") || measure.LabelKind(text) != "" {
		return true
	}
	for _, w := range nameWords(text) {
		switch w {
		case "job", "no", "nr", "by", "appr", "appd", "chkd", "client", "order", "treatment", "coating", "surface", "paint", "dept", "company", "remarks", "remark", "notes", "note", "general", "arrangement", "thickness", "thk", "dicke", "edition", "format", "page", "of", "und", "release", "status", "issue":
			return true
		}
	}
	return false
}

// readHardNames doubts the material of parts where the file's name or the name of
// a layer that a part is drawn on speaks of hard plate and the drawing of another
// metal. Names are weak witnesses, but a die meant for mild steel breaks on hard
// plate.
func (b *builder) readHardNames() {
	fileName, inFile := measure.HardName(b.opt.Name, false)
	for i := range b.sheet.Parts {
		p := &b.sheet.Parts[i]
		if inFile {
			b.hardName(p, fileName, fmt.Sprintf("the file's name %q", clip(b.opt.Name)), nil)
		}
		var seen []string
		for _, list := range p.OutlineSource {
			for _, s := range list {
				if s.Entity < 0 || int(s.Entity) >= len(b.sheet.Entities) || slices.Contains(seen, b.sheet.Entities[s.Entity].Layer) {
					continue
				}
				layer := b.sheet.Entities[s.Entity].Layer
				seen = append(seen, layer)
				if name, ok := measure.HardName(layer, true); ok {
					b.hardName(p, name, fmt.Sprintf("the layer %q", clip(layer)), []Source{s})
				}
			}
		}
	}
}

// hardName holds one such name against what a part's material is stated as.
func (b *builder) hardName(p *Part, name, where string, source []Source) {
	m := &p.Material
	squeeze := func(s string) string {
		return strings.ToLower(strings.NewReplacer(" ", "", "-", "", "_", "").Replace(s))
	}
	switch {
	case m.From == "":
		if len(source) == 0 {
			*m = Stated{Text: name, From: "file name", At: p.Box.Centre()}
		}
		b.note(Note{Code: "hard-name", Source: source, Text: fmt.Sprintf("%s may speak of hard plate, %q; nothing in the drawing says the material of %s", where, name, p.Name)})
	case measure.SameGrade(m.Text, name), strings.Contains(squeeze(m.Text), squeeze(name)), strings.Contains(squeeze(name), squeeze(m.Text)):
	default:
		p.Doubts = append(p.Doubts, Doubt{Code: "text-conflict", Grave: true, At: p.Box.Centre(), Source: source,
			Text: fmt.Sprintf("the drawing states the material twice: %q, and %s may speak of hard plate", clip(m.Text), where)})
	}
}
