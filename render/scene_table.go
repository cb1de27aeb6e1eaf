package render

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"burrside/check"
)

// mostRows is how many findings the table of a picture lists.
const mostRows = 12

// tableRow is a finding, or a group of similar ones, with its number in the
// drawing.
type tableRow struct {
	f      check.Finding
	number int             // of the balloon; 0: it has no place
	groups int             // how many findings it stands for
	rest   []check.Finding // those after the first
	sheet  bool            // it is about the drawing, not the part
}

// tableRows lists the findings, the worst first. When there are more than the
// table holds, those of one rule and severity are one row, so that every kind
// of trouble is named.
func tableRows(part, drawing []check.Finding) []tableRow {
	var rows []tableRow
	for _, f := range part {
		rows = append(rows, tableRow{f: f, groups: 1})
	}
	for _, f := range drawing {
		rows = append(rows, tableRow{f: f, groups: 1, sheet: true})
	}
	slices.SortStableFunc(rows, func(a, b tableRow) int { return severityRank(a.f.Severity) - severityRank(b.f.Severity) })
	if len(rows) > mostRows {
		var grouped []tableRow
		for _, r := range rows {
			k := slices.IndexFunc(grouped, func(g tableRow) bool {
				return g.f.Rule == r.f.Rule && g.f.Severity == r.f.Severity && g.f.CannotTell == r.f.CannotTell && g.sheet == r.sheet
			})
			if k < 0 {
				grouped = append(grouped, r)
				continue
			}
			g := &grouped[k]
			g.f.Features = append(slices.Clone(g.f.Features), r.f.Features...)
			g.groups++
			g.rest = append(g.rest, r.f)
		}
		rows = grouped
	}
	return rows
}

// table is a laid-out table: columns, a head and rows of cells.
type table struct {
	x      []float64 // left edges of the columns, and the right edge of the last
	head   []string
	rows   []laidRow
	height float64
	total  int // findings
}

type laidRow struct {
	row    *tableRow
	cells  [][]string
	height float64
}

func (l *layout) newTable(rows []tableRow, w float64) *table {
	if len(rows) == 0 {
		return &table{}
	}
	u := l.u
	t := &table{head: []string{"no.", "feature", "rule", "found", "needed", "what to do"}}
	shares := []float64{0, 0.14, 0.16, 0.14, 0.15, 0.41}
	if w > 1000*u {
		shares = []float64{0, 0.12, 0.13, 0.10, 0.12, 0.53}
	}
	first := 44 * u
	x := 0.0
	for i, s := range shares {
		t.x = append(t.x, x)
		if i == 0 {
			x += first
		} else {
			x += s * (w - first)
		}
	}
	t.x = append(t.x, w)
	lh := l.r.lineHeight("body")
	t.height = lh + 8*u
	for i := range rows {
		r := &rows[i]
		t.total += r.groups
		if i >= mostRows {
			continue
		}
		found, limit := foundNeeded(&r.f, l.unit)
		what := r.f.Fix
		switch {
		case what == "":
			what = r.f.Message
		case r.f.Got == nil && r.f.Message != "":
			what = strings.TrimSuffix(r.f.Message, ".") + ". " + capital(what)
		}
		if r.groups > 1 {
			what = fmt.Sprintf("%d findings of this kind; the first: %s", r.groups, what)
		}
		ids := idList(r.f.Features)
		switch {
		case len(r.f.Features) > 0:
			if l.lv != nil {
				if leg := legOf(l.lv.p.Part, r.f.Features); leg != "" {
					ids += ", " + leg
				}
			}
		case r.sheet:
			ids = "drawing"
		default:
			ids = "part"
		}
		lr := laidRow{row: r}
		for k, s := range []string{"", ids, ruleWords(r.f.Rule), found, limit, what} {
			var lines []string
			if s != "" {
				lines = l.r.wrap(s, "body", t.x[k+1]-t.x[k]-12*u, 5)
			}
			lr.cells = append(lr.cells, lines)
			lr.height = max(lr.height, float64(len(lines))*lh)
		}
		lr.height = max(lr.height, 28*u) + 10*u
		t.rows = append(t.rows, lr)
		t.height += lr.height
	}
	t.height += lh + 6*u + 46*u // "+ N more" and the key
	return t
}

// fit is how many rows fit into a height, at least one.
func (t *table) fit(l *layout, room float64) int {
	y := l.r.lineHeight("body") + 8*l.u
	tail := l.r.lineHeight("body") + 6*l.u + 26*l.u
	for i := range t.rows {
		y += t.rows[i].height
		if y+tail > room+0.5 && i > 0 {
			return i
		}
	}
	return len(t.rows)
}

// drawTable draws the table with as many rows as fit, and gives the height used.
func (l *layout) drawTable(t *table, x, y, room float64) float64 {
	if len(t.head) == 0 {
		return 0
	}
	u := l.u
	top := y
	lh := l.r.lineHeight("body")
	w := t.x[len(t.x)-1]
	l.s.add(item{kind: itemFill, style: "shade", path: rectSegs(area{x, y, w, lh + 8*u})})
	for k, s := range t.head {
		l.s.add(item{kind: itemText, style: "strong", x: x + t.x[k] + 4*u, y: y + 4*u, w: l.r.width(s, "strong"), h: lh, lines: []string{s}})
	}
	y += lh + 8*u
	shown := 0
	for i := range t.fit(l, room) {
		r := &t.rows[i]
		sg, style := findingSign(&r.row.f)
		n := item{kind: itemMarker, style: style, sign: sg, x: x + 20*u, y: y + 5*u + 14*u, w: 29 * u}
		if r.row.number > 0 {
			n.lines = []string{strconv.Itoa(r.row.number)}
		}
		l.s.add(n)
		for k, lines := range r.cells {
			if len(lines) == 0 {
				continue
			}
			cw := 0.0
			for _, s := range lines {
				cw = max(cw, l.r.width(s, "body"))
			}
			l.s.add(item{kind: itemCell, style: "body", x: x + t.x[k] + 4*u, y: y + 7*u, w: cw, h: float64(len(lines)) * lh, lines: lines})
		}
		y += r.height
		l.s.add(item{kind: itemStroke, style: "rule", path: lineSegs(x, y, x+w, y)})
		shown += r.row.groups
	}
	y += 3 * u
	if shown < t.total {
		y += l.text(x+4*u, y, []string{fmt.Sprintf("+ %d more in the text report", t.total-shown)}, "body")
	}
	y += l.key(x+4*u, y+2*u, x+w)
	return y - top
}

// key explains the signs, within right.
func (l *layout) key(x, y, right float64) float64 {
	u := l.u
	lh := l.r.lineHeight("small")
	left, top := x, y
	for i, k := range []struct {
		f     check.Finding
		words string
	}{{check.Finding{Severity: check.Error}, "cannot be made so"}, {check.Finding{Severity: check.Warning}, "with care"},
		{check.Finding{Severity: check.Warning, CannotTell: true}, "to be asked"}, {check.Finding{Severity: check.Note}, "worth knowing"}} {
		sg, style := findingSign(&k.f)
		w := l.r.width(k.words, "small")
		if i > 0 && x+20*u+w > right {
			x, y = left, y+lh+4*u
		}
		l.s.add(item{kind: itemMarker, style: style, sign: sg, x: x + 8*u, y: y + lh/2 + 1, w: 14 * u})
		l.text(x+20*u, y, []string{k.words}, "small")
		x += 20*u + w + 22*u
	}
	return y - top + lh + 4*u
}

// limitGrid shows limits as a table: materials down, stock thicknesses across.
type limitGrid struct {
	thickness []float64
	materials []string
	at        map[[2]int]check.Verdict
	unit      string
}

func newLimitGrid(list []check.Limit, unit string) *limitGrid {
	g := &limitGrid{at: map[[2]int]check.Verdict{}, unit: unit}
	for _, v := range list {
		if !slices.Contains(g.thickness, v.ThicknessMM) {
			g.thickness = append(g.thickness, v.ThicknessMM)
		}
		if !slices.Contains(g.materials, v.Material) {
			g.materials = append(g.materials, v.Material)
		}
	}
	slices.Sort(g.thickness)
	for _, v := range list {
		g.at[[2]int{slices.Index(g.materials, v.Material), slices.Index(g.thickness, v.ThicknessMM)}] = v.Verdict
	}
	return g
}

// sizes gives the width of the first column and of the others; ok is false if
// the grid does not fit, and is then left to the words below it.
func (g *limitGrid) sizes(l *layout, w float64) (first, cell float64, ok bool) {
	for _, m := range g.materials {
		first = max(first, l.r.width(l.r.clean(m), "body"))
	}
	first = max(first, l.r.width(g.corner(), "small")) + 14*l.u
	cell = (w - first) / float64(len(g.thickness))
	need := 0.0
	for _, t := range g.thickness {
		need = max(need, l.r.width(trimUnit(lengthText(t, g.unit), g.unit), "small"))
	}
	cell = min(cell, 64*l.u)
	return first, cell, cell >= need+8*l.u && len(g.materials) <= 6
}

func (g *limitGrid) corner() string {
	if g.unit == "in" {
		return "thickness, in"
	}
	return "thickness, mm"
}

func (g *limitGrid) height(l *layout, w float64) float64 {
	if _, _, ok := g.sizes(l, w); !ok {
		return 0
	}
	return l.r.lineHeight("small") + float64(len(g.materials))*27*l.u + 8*l.u
}

func (g *limitGrid) draw(l *layout, x, y, w float64) float64 {
	first, cell, ok := g.sizes(l, w)
	if !ok {
		return 0
	}
	u := l.u
	lh := l.r.lineHeight("small")
	l.text(x, y, []string{g.corner()}, "small")
	for j, t := range g.thickness {
		s := trimUnit(lengthText(t, g.unit), g.unit)
		l.text(x+first+(float64(j)+0.5)*cell-l.r.width(s, "small")/2, y, []string{s}, "small")
	}
	for i, m := range g.materials {
		cy := y + lh + (float64(i)+0.5)*27*u
		l.text(x, cy-l.r.lineHeight("body")/2, []string{l.r.clean(m)}, "body")
		for j := range g.thickness {
			v, ok := g.at[[2]int{i, j}]
			if !ok {
				continue
			}
			sg, style, _ := verdictSign(v)
			l.s.add(item{kind: itemMarker, style: style, sign: sg, x: x + first + (float64(j)+0.5)*cell, y: cy, w: 19 * u})
		}
	}
	return g.height(l, w)
}
