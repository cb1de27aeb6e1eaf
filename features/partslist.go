package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
)

// A parts list is a table whose columns are headed ITEM, QTY, DESCRIPTION,
// MATERIAL and the like: each row speaks of one item. Which part an item is, its
// balloons tell. A row is never taken for a part without one where the sheet
// shows several: a thickness of another item would be a wrong answer.

// partsList is such a table.
type partsList struct {
	rows   []listRow
	texts  []int // all texts of its rows, and those between them
	sheet  int   // see sheetOf
	counts bool  // a column states the quantity
}

// listRow is one row of it.
type listRow struct {
	mark  string
	text  int // the text of the mark
	cells []listCell
}

// listCell is a text of a row with what its column is headed as.
type listCell struct {
	text int
	kind string
}

const (
	// listRowHeights is how far the texts of a row may be off one line, as a
	// share of the higher one: half of it, the rows being two heights apart.
	listRowHeights = 0.7
	// listStep is how much further off than the row before it a row may stand: a
	// row left empty, or a text of two lines.
	listStep = 2.6
	// mostMark is how many letters the number of an item has.
	mostMark = 6
)

// markOf is the number of an item as balloons and rows write it; "" it is none.
func markOf(text string) string {
	mark := strings.ToUpper(strings.Trim(strings.TrimSpace(text), ".()[] "))
	if mark == "" || len([]rune(mark)) > mostMark {
		return ""
	}
	digits, letters := 0, 0
	for _, r := range mark {
		switch {
		case r >= '0' && r <= '9':
			digits++
		case r >= 'A' && r <= 'Z':
			letters++
		case r != '-':
			return ""
		}
	}
	if digits == 0 && letters != 1 {
		return ""
	}
	if letters == 0 {
		if mark = strings.TrimLeft(mark, "0"); mark == "" {
			return ""
		}
	}
	return mark
}

// textSpan is where a text stands in the directions of the list's heads: from left to
// right, and the height of its middle.
type textSpan struct{ from, to, level float64 }

func (b *builder) spanOf(t *Text, along geom.Point) textSpan {
	p := b.textMiddle(t)
	from := p.Dot(along)
	return textSpan{from, from + 2./3*t.HeightMM*float64(longestLine(t.Value)), along.Cross(p)}
}

// textsOfTables are the texts, as indices, of each table of the sheet; nil of a
// drawing with too many texts to be one.
func (b *builder) textsOfTables() [][]int {
	if len(b.areas) == 0 || len(b.sheet.Texts) > maxVoteTexts {
		return nil
	}
	in := make([][]int, len(b.areas))
	for i := range b.sheet.Texts {
		if a := b.tableOf(&b.sheet.Texts[i]); a >= 0 {
			in[a] = append(in[a], i)
		}
	}
	return in
}

// partsLists reads the lists of the sheet.
func (b *builder) partsLists() []partsList {
	var out []partsList
	for _, texts := range b.textsOfTables() {
		for _, strong := range []bool{true, false} {
			found := false
			for _, h := range texts {
				kind := measure.FieldKind(b.sheet.Texts[h].Value)
				if strong && kind != "item" || !strong && kind != "number or item" {
					continue
				}
				if l, ok := b.listUnder(h, texts, strong); ok {
					out = append(out, l)
					found = true
				}
			}
			if found {
				break
			}
		}
	}
	return out
}

// listUnder reads the list whose items a text heads.
func (b *builder) listUnder(head int, texts []int, strong bool) (partsList, bool) {
	h := &b.sheet.Texts[head]
	s, c := math.Sincos(h.AngleRad)
	along := geom.Point{X: c, Y: s}
	level := b.spanOf(h, along).level
	var heads []listCell
	var kinds []string
	var rest []int
	for _, i := range texts {
		t := &b.sheet.Texts[i]
		if math.Abs(b.spanOf(t, along).level-level) > listRowHeights*math.Max(t.HeightMM, h.HeightMM) {
			rest = append(rest, i)
			continue
		}
		kind := measure.FieldKind(t.Value)
		if i == head {
			kind = "item"
		}
		heads = append(heads, listCell{i, kind})
		kinds = append(kinds, kind)
	}
	has := func(kind string) bool { return slices.Contains(kinds, kind) }
	if !has("quantity") && (!strong || !has("name") && !has("material") && !has("section") && !has("thickness")) || len(heads) < 3 {
		return partsList{}, false
	}
	// The rows hang under their heads, or stand on them.
	var below, above []int
	for _, i := range rest {
		if markOf(b.sheet.Texts[i].Value) == "" || b.columnOf(i, heads, along) != head {
			continue
		}
		if b.spanOf(&b.sheet.Texts[i], along).level < level {
			below = append(below, i)
		} else {
			above = append(above, i)
		}
	}
	off := func(i int) float64 { return math.Abs(b.spanOf(&b.sheet.Texts[i], along).level - level) }
	run := func(list []int) []int {
		slices.SortStableFunc(list, func(p, q int) int {
			switch {
			case off(p) < off(q):
				return -1
			case off(p) > off(q):
				return 1
			}
			return 0
		})
		last, step := 0.0, 0.0
		for k, i := range list {
			d := off(i) - last
			if k == 0 && d > 6*math.Max(h.HeightMM, b.sheet.Texts[i].HeightMM) || k > 0 && d > listStep*step {
				return list[:k]
			}
			step, last = math.Max(step, d), off(i)
		}
		return list
	}
	below, above = run(below), run(above)
	marks := below
	if len(above) > len(below) {
		marks = above
	}
	if len(marks) == 0 {
		return partsList{}, false
	}
	l := partsList{sheet: b.sheetOf(b.textMiddle(h)), counts: has("quantity")}
	side := b.spanOf(&b.sheet.Texts[marks[0]], along).level < level
	end := off(marks[len(marks)-1]) + 2*b.sheet.Texts[marks[0]].HeightMM
	for _, i := range marks {
		l.rows = append(l.rows, listRow{mark: markOf(b.sheet.Texts[i].Value), text: i})
	}
	for _, i := range rest {
		t := &b.sheet.Texts[i]
		at := b.spanOf(t, along).level
		if (at < level) != side || off(i) > end {
			continue
		}
		l.texts = append(l.texts, i)
		for k := range l.rows {
			m := &b.sheet.Texts[l.rows[k].text]
			if i == l.rows[k].text || math.Abs(at-b.spanOf(m, along).level) > listRowHeights*math.Max(t.HeightMM, m.HeightMM) {
				continue
			}
			kind := ""
			if col := b.columnOf(i, heads, along); col >= 0 {
				kind = heads[slices.IndexFunc(heads, func(c listCell) bool { return c.text == col })].kind
			}
			l.rows[k].cells = append(l.rows[k].cells, listCell{i, kind})
		}
	}
	return l, true
}

// rowStatements are the facts that a row states.
func (b *builder) rowStatements(l *partsList, r *listRow) []statement {
	var out []statement
	for _, c := range r.cells {
		t := b.sheet.Texts[c.text]
		line, only := t.Value, ""
		switch c.kind {
		case "item", "number or item", "length", "weight", "number", "revision", "scale":
			continue
		case "material":
			only = c.kind
			if note, ok := measure.StatedMaterial(line); ok {
				line = note
			}
			if _, ok := measure.MaterialNote(line); !ok {
				line = measure.TaggedNote(c.kind, line)
			}
		case "quantity", "thickness":
			only = c.kind
			line = measure.TaggedNote(c.kind, line)
		}
		for _, piece := range strings.Split(line, "\n") {
			for _, s := range b.statementsOf(t, piece) {
				if s.kind == "call-out" || only != "" && s.kind != only || only == "" && s.kind == "quantity" && l.counts {
					continue
				}
				s.whole, s.at, s.inTable = piece, t.At, true
				out = append(out, s)
			}
		}
	}
	return out
}

// readLists puts the statements of the rows of parts lists in the place of what
// their texts state one by one.
func (b *builder) readLists(all []statement) []statement {
	for _, l := range b.partsLists() {
		if len(l.rows) < 2 {
			continue
		}
		ties := b.tieItems(&l)
		var own []int // parts of its sheet
		for i := range b.sheet.Parts {
			if b.onSheet(i, l.sheet) {
				own = append(own, i)
			}
		}
		if len(own) == 1 && ties[own[0]] == "" {
			continue
		}
		texts := map[Text]bool{}
		for _, i := range l.texts {
			texts[b.sheet.Texts[i]] = true
		}
		kept := all[:0]
		for _, s := range all {
			if !texts[s.text] {
				kept = append(kept, s)
			}
		}
		all = kept
		common := b.commonFacts(&l, own)
		for k := range l.rows {
			r := &l.rows[k]
			var parts []int
			for _, p := range own {
				if ties[p] == r.mark {
					parts = append(parts, p)
				}
			}
			if len(parts) == 0 {
				continue
			}
			b.compareRow(r, parts)
			for _, s := range b.rowStatements(&l, r) {
				s.of = parts
				all = append(all, s)
			}
		}
		var untied []int
		for _, p := range own {
			if ties[p] == "" {
				untied = append(untied, p)
			}
		}
		if len(untied) == 0 {
			continue
		}
		for _, s := range common {
			s.of = untied
			all = append(all, s)
		}
		head := &b.sheet.Texts[l.rows[0].text]
		b.note(Note{Code: "text-not-tied", At: head.At, HasAt: true, Count: len(untied), Source: []Source{head.Source},
			Text: fmt.Sprintf("which of the %d rows of the parts list is meant for %s, no item number tells; only what all rows state alike was taken for it", len(l.rows), b.partNames(untied))})
	}
	return all
}

// partNames names up to three parts.
func (b *builder) partNames(list []int) string {
	var names []string
	for _, p := range list {
		if len(names) == 3 {
			names = append(names, fmt.Sprintf("%d more", len(list)-3))
			break
		}
		names = append(names, b.sheet.Parts[p].Name)
	}
	return strings.Join(names, ", ")
}

// commonFacts are the materials and thicknesses that every row states alike.
func (b *builder) commonFacts(l *partsList, parts []int) []statement {
	var out []statement
	if len(parts) == 0 {
		return nil
	}
	for _, kind := range []string{"material", "thickness"} {
		var first *statement
		alike := true
		for k := range l.rows {
			n := 0
			for _, s := range b.rowStatements(l, &l.rows[k]) {
				if s.kind != kind {
					continue
				}
				n++
				if first == nil {
					first = &s
				}
				alike = alike && s.value == first.value
			}
			alike = alike && n > 0
		}
		if alike && first != nil {
			out = append(out, *first)
		}
	}
	return out
}
