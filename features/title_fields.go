package features

import (
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
)

// TitleField is one field of a title block, as it is written.
type TitleField struct {
	// Field is "name" of what is drawn, "number" of the drawing, "revision",
	// "scale", "finish", "material", "thickness" or "quantity".
	Field  string
	Text   string
	At     geom.Point // of the value
	Source []Source
}

// titleFields are those that are told, in this order.
var titleFields = [...]string{"name", "number", "revision", "scale", "material", "thickness", "quantity", "finish"}

// readTitle reads the fields of the title blocks: a label with its value in one
// text, in the attribute that the label names, or in the text beside or below
// it. They are told as written; what of them concerns the parts is read by
// itself.
func (b *builder) readTitle() {
	texts := b.sheet.Texts
	if len(texts) > maxVoteTexts {
		return
	}
	// The heads of a parts list label its rows, not the drawing.
	listed := map[int]bool{}
	for _, l := range b.partsLists() {
		for _, i := range l.texts {
			listed[i] = true
		}
	}
	for i := range texts {
		l := &texts[i]
		if l.Revision {
			continue
		}
		if field := titleField(l.Tag); field != "" {
			b.addTitle(field, l.Value, l)
			continue
		}
		cells := b.titleCells(l.At)
		if cells == nil {
			continue
		}
		if _, word, ok := measure.ScaleNote(l.Value); ok && word {
			b.addTitle("scale", l.Value, l)
			continue
		}
		if label, value, ok := strings.Cut(l.Value, ":"); ok && strings.TrimSpace(value) != "" {
			if field := titleField(label); field != "" {
				b.addTitle(field, value, l)
			}
			continue
		}
		field := titleField(strings.TrimSuffix(strings.TrimSpace(l.Value), ":"))
		if field == "" || !(l.HeightMM > 0) {
			continue
		}
		if k := b.titleValue(l, i, cells); k >= 0 && !listed[k] {
			b.addTitle(field, texts[k].Value, &texts[k])
		}
	}
	slices.SortStableFunc(b.sheet.Title, func(p, q TitleField) int {
		if c := slices.Index(titleFields[:], p.Field) - slices.Index(titleFields[:], q.Field); c != 0 {
			return c
		}
		return comparePlace(p.At, q.At)
	})
}

// titleField is the field that a label names, "" none of those that are told.
func titleField(label string) string {
	field := measure.FieldKind(label)
	if field == "number or item" {
		field = "number" // in a title block it is that of the part or its drawing
	}
	if !slices.Contains(titleFields[:], field) {
		return ""
	}
	return field
}

// titleCells are the boxes of the title block that a place lies in, nil for a
// place outside them all.
func (b *builder) titleCells(p geom.Point) []geom.Box {
	for i := range b.areas {
		if a := &b.areas[i]; slices.ContainsFunc(a.cells, func(c geom.Box) bool { return c.Contains(p) }) {
			return a.cells
		}
	}
	return nil
}

// titleValue is the text that answers a label: in its own box the nearest below
// or behind it, else the one text of the next box behind or below. -1 none.
func (b *builder) titleValue(l *Text, i int, cells []geom.Box) int {
	own := leastBox(cells, l.At)
	best, nearest := -1, math.Inf(1)
	for k := range b.sheet.Texts {
		t := &b.sheet.Texts[k]
		if k == i || t.Tag != "" || t.Revision || leastBox(cells, t.At) < 0 || measure.FieldKind(strings.TrimSuffix(strings.TrimSpace(t.Value), ":")) != "" || strings.Contains(t.Value, ":") && !isScale(t.Value) {
			continue
		}
		dx, dy := l.offTo(t)
		behind := math.Abs(dy) <= labelLine*l.HeightMM && dx > 0
		below := dy < 0 && math.Abs(dx) <= labelAside*l.HeightMM
		far := math.Sqrt(float64(dx*dx) + float64(dy*dy))
		if leastBox(cells, t.At) != own {
			if behind && dx > labelBehind*l.HeightMM+2./3*l.HeightMM*float64(len([]rune(l.Value))) || below && -dy > labelUnder*l.HeightMM {
				continue
			}
			far += 1e6 // any text of the own box comes first
		} else if dy > 0.5*l.HeightMM {
			continue
		}
		if (behind || below) && far < nearest {
			best, nearest = k, far
		}
	}
	return best
}

// leastBox is the smallest of the boxes that a place lies in, -1 none.
func leastBox(boxes []geom.Box, p geom.Point) int {
	best := -1
	for i, c := range boxes {
		if c.Contains(p) && (best < 0 || c.Width()*c.Height() < boxes[best].Width()*boxes[best].Height()) {
			best = i
		}
	}
	return best
}

// isScale tells whether a text is a scale and nothing else.
func isScale(text string) bool {
	_, _, ok := measure.ScaleNote(text)
	return ok
}

func (b *builder) addTitle(field, value string, t *Text) {
	value = strings.Join(strings.Fields(value), " ")
	if field == "number" && !strings.ContainsAny(value, "0123456789") {
		field = "name" // PART is the label of either
	}
	if value == "" || value == "-" || slices.ContainsFunc(b.sheet.Title, func(f TitleField) bool { return f.Field == field && f.Text == value }) {
		return
	}
	b.sheet.Title = append(b.sheet.Title, TitleField{Field: field, Text: value, At: t.At, Source: []Source{t.Source}})
}
