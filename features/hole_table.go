package features

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
)

// A hole table lists tags with sizes, places or numbers of holes. It is found by
// the words that head its columns, whether its lines are drawn or not.

// holeTable is one with its rows from the top down.
type holeTable struct {
	rows   []holeRow
	u, v   geom.Point   // along its texts and up
	texts  map[int]bool // indices of Sheet.Texts
	counts bool         // a column says how many
}

// holeRow is a row whose tag is there.
type holeRow struct {
	tag   string
	say   statement // its size as a call-out
	sized bool      // say can be compared
	at    geom.Point
	xy    geom.Point // from the origin along u and v, true millimetres
	hasXY bool
	count int // 0 not stated
	bad   bool
}

// The columns of a hole table.
const (
	columnOther = iota
	columnTag
	columnX
	columnY
	columnSize
	columnText // a description, a size where no column is headed as one
	columnCount
	columnForeign // of a list of bolts or bars
)

// holeColumn tells what a column is by its heading; hole is true for one that
// speaks of holes or of diameters.
func holeColumn(text string) (kind int, hole bool) {
	switch strings.TrimSpace(text) {
	case "Ø", "ø", "⌀", "%%c", "%%C":
		return columnSize, true
	}
	has := func(words []string, list string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(strings.Fields(list), w) })
	}
	words := nameWords(text)
	if len(words) == 0 || len(words) > 4 {
		return columnOther, false
	}
	hole = has(words, "hole holes bohrung bohrungen loch locher trou trous percage foro fori agujero agujeros taladro taladros furo furos gat gaten otwor otwory otvor diameter dia diam durchmesser diametre diametro srednica prumer")
	switch {
	case has(words, "material length lange longueur lunghezza longitud weight gewicht thickness thk grade bolt bolts screw schraube werkstoff depth tiefe"):
		return columnForeign, false
	case words[0] == "x":
		return columnX, false
	case words[0] == "y":
		return columnY, false
	case has(words, "qty quantity count off anzahl stk stuck menge nombre qte nb cant cantidad quantita quantidade qtd aantal ilosc pocet"):
		return columnCount, hole
	case has(words, "size dia diam diameter durchmesser grosse diametre taille diametro tamano medida dimensione tamanho srednica wymiar prumer maat grootte afmeting"):
		return columnSize, hole
	case has(words, "description desc beschreibung omschrijving descripcion descrizione descricao opis"):
		return columnText, hole
	case hole || has(words, "tag id label mark no nr pos item ref repere rep nummer symbol number"):
		return columnTag, hole
	}
	return columnOther, false
}

// cellText is a text along and across a table.
type cellText struct {
	index        int
	from, to, up float64
	height       float64
	value        string
	kind         int
}

func (c *cellText) off(head *cellText) float64 {
	return math.Min(math.Abs(c.from-head.from), math.Abs((c.from+c.to)/2-(head.from+head.to)/2))
}

// cellsAlong gives the texts that stand along a direction, the upper ones first.
func (b *builder) cellsAlong(turn float64) []cellText {
	sin, cos := math.Sincos(turn)
	u, v := geom.Point{X: cos, Y: sin}, geom.Point{X: -sin, Y: cos}
	var out []cellText
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if !(t.HeightMM > 0) || math.Abs(math.Remainder(t.AngleRad-turn, 2*math.Pi)) > 0.01 || strings.TrimSpace(t.Value) == "" {
			continue
		}
		from := t.At.Dot(u)
		out = append(out, cellText{index: i, from: from, to: from + 2./3*t.HeightMM*float64(longestLine(t.Value)), up: t.At.Dot(v), height: t.HeightMM, value: strings.TrimSpace(t.Value)})
	}
	slices.SortStableFunc(out, func(p, q cellText) int { return cmp.Or(cmp.Compare(q.up, p.up), cmp.Compare(p.from, q.from)) })
	return out
}

// mostHoleRows bounds a hole table, and mostHoleTables their number.
const (
	mostHoleRows   = 400
	mostHoleTables = 20
)

// holeTables finds the hole tables of a sheet.
func (b *builder) holeTables() []holeTable {
	var out []holeTable
	seen := map[int]bool{}
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if kind, _ := holeColumn(t.Value); kind != columnSize && kind != columnText || seen[i] || len(out) == mostHoleTables || !(t.HeightMM > 0) {
			continue
		}
		cells := b.cellsAlong(t.AngleRad)
		at := slices.IndexFunc(cells, func(c cellText) bool { return c.index == i })
		if at < 0 {
			continue
		}
		heads := headsAbout(cells, at)
		for _, h := range heads {
			seen[h.index] = true
		}
		if !isHoleHeads(heads) {
			continue
		}
		if table := b.readHoleTable(cells, heads); len(table.rows) > 0 {
			sin, cos := math.Sincos(t.AngleRad)
			table.u, table.v = geom.Point{X: cos, Y: sin}, geom.Point{X: -sin, Y: cos}
			out = append(out, table)
		}
	}
	return out
}

// headsAbout gives the texts in one line with a heading, none further from the
// next than 25 of its heights (common practice, no source).
func headsAbout(cells []cellText, at int) []cellText {
	h := cells[at].height
	var line []cellText
	for _, c := range cells {
		if math.Abs(c.up-cells[at].up) <= 0.7*h {
			c.kind, _ = holeColumn(c.value)
			line = append(line, c)
		}
	}
	slices.SortStableFunc(line, func(p, q cellText) int { return cmp.Compare(p.from, q.from) })
	me := slices.IndexFunc(line, func(c cellText) bool { return c.index == cells[at].index })
	from, to := me, me+1
	for from > 0 && line[from].from-line[from-1].from <= 25*h {
		from--
	}
	for to < len(line) && line[to].from-line[to-1].from <= 25*h {
		to++
	}
	return line[from:to]
}

// isHoleHeads tells whether headings are those of a hole table.
func isHoleHeads(heads []cellText) bool {
	var has [columnForeign + 1]bool
	holes := false
	for i := range heads {
		kind, hole := holeColumn(heads[i].value)
		has[kind] = true
		holes = holes || hole
	}
	return !has[columnForeign] && has[columnTag] && (has[columnSize] || has[columnText]) && (holes || has[columnX] && has[columnY])
}

// readHoleTable reads the rows under headings.
func (b *builder) readHoleTable(cells, heads []cellText) holeTable {
	table := holeTable{texts: map[int]bool{}}
	h, low := heads[0].height, heads[0].up
	sized := slices.ContainsFunc(heads, func(c cellText) bool { return c.kind == columnSize })
	for _, c := range heads {
		table.texts[c.index] = true
		table.counts = table.counts || c.kind == columnCount
	}
	left, right := heads[0].from-8*h, heads[len(heads)-1].to+8*h
	pitch := 6 * h
	for i := 0; i < len(cells) && len(table.rows) < mostHoleRows; {
		if cells[i].up >= low-0.7*h || cells[i].from < left || cells[i].from > right {
			i++
			continue
		}
		up := cells[i].up
		if low-up > 1.6*pitch {
			break
		}
		if len(table.rows) == 0 {
			pitch = low - up
		}
		row := make([]*cellText, len(heads))
		for ; i < len(cells) && up-cells[i].up <= 0.7*h; i++ {
			c := &cells[i]
			if c.from < left || c.from > right {
				continue
			}
			best := 0
			for k := range heads {
				if c.off(&heads[k]) < c.off(&heads[best]) {
					best = k
				}
			}
			if row[best] == nil || c.off(&heads[best]) < row[best].off(&heads[best]) {
				row[best] = c
			}
			table.texts[c.index] = true
		}
		low = up
		if r, ok := b.readHoleRow(heads, row, sized); ok {
			table.rows = append(table.rows, r)
		}
	}
	return table
}

// readHoleRow reads the cells of one row; ok is false without a tag.
func (b *builder) readHoleRow(heads []cellText, row []*cellText, sized bool) (holeRow, bool) {
	var r holeRow
	hasX, hasY := false, false
	for k, c := range row {
		if c == nil {
			continue
		}
		t := b.sheet.Texts[c.index]
		switch heads[k].kind {
		case columnTag:
			if r.tag == "" && len([]rune(c.value)) <= 6 {
				r.tag, r.at = c.value, t.At
			}
		case columnX:
			r.xy.X, hasX = b.coordinateMM(c.value)
		case columnY:
			r.xy.Y, hasY = b.coordinateMM(c.value)
		case columnCount:
			if v, ok := plainNumber(strings.TrimRight(c.value, "xX ")); ok && v == math.Trunc(v) && v < 1e5 {
				r.count = int(v)
			}
		case columnSize, columnText:
			if r.sized || sized != (heads[k].kind == columnSize) {
				continue
			}
			call, ok := measure.HoleCallOut(c.value)
			if !ok {
				l, err := measure.Length(c.value)
				if err != nil || !(l.MM > 0) {
					continue
				}
				call = measure.HoleCall{Diameter: l}
			}
			r.say = statement{kind: "call-out", text: t, line: c.value, call: call, value: c.value, holeMM: b.lengthMM(call.Diameter), at: t.At}
			r.sized = r.say.holeMM > 0 || call.Slot[0].MM > 0
		}
	}
	r.hasXY = hasX && hasY
	return r, r.tag != "" && (r.sized || r.hasXY)
}

// coordinateMM reads a coordinate, which may be below zero.
func (b *builder) coordinateMM(text string) (float64, bool) {
	text = strings.TrimSpace(text)
	sign := 1.0
	if rest, minus := strings.CutPrefix(strings.ReplaceAll(text, "−", "-"), "-"); minus {
		sign, text = -1, rest
	}
	l, err := measure.Length(strings.TrimPrefix(text, "+"))
	if err != nil {
		return 0, false
	}
	return sign * b.lengthMM(l), true
}

// says writes what a row says of the size.
func (r *holeRow) says() string {
	if r.say.holeMM > 0 {
		return fmt.Sprintf("%q, %s mm", clip(r.say.line), shortNumber(r.say.holeMM))
	}
	return fmt.Sprintf("%q", clip(r.say.line))
}

// holeSize writes the size of a hole as drawn.
func holeSize(f *Feature) string {
	switch {
	case f.DiameterMM > 0:
		return shortNumber(f.DiameterMM) + " mm"
	case f.WidthMM > 0 && f.LengthMM > 0:
		return shortNumber(f.WidthMM) + " x " + shortNumber(f.LengthMM) + " mm"
	}
	return "an opening of another shape"
}

// rowMatches tells whether a hole has the size of a row.
func (b *builder) rowMatches(p *Part, f *Feature, r *holeRow) bool {
	s := b.drawnReading(p, r.say)
	c := clearanceOf(p, s)
	return b.callMatches(f, s) || c > 0 && f.Kind == RoundHole && math.Abs(f.DiameterMM-c) <= callOutMM
}
