package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
)

// holeRef names a hole of a part.
type holeRef struct{ part, feature int }

// tagHeights is how far a tag may stand from the edge of its hole, in its heights
// (common practice, no source).
const tagHeights = 4.0

// coordinateMM is how far a hole may be from the place that a table states: a
// 64th of an inch and what two decimals of an inch leave out, rounded up.
const coordinateMM = 0.55

// compareHoleTables compares what hole tables say with what is drawn. Rows are
// tied by tags beside holes, else by places, else by sizes and numbers, these
// only where one part is drawn.
func (b *builder) compareHoleTables() {
	for _, t := range b.holeTables() {
		ties := b.tagTies(&t)
		part, unclear := -1, false
		for _, list := range ties {
			for _, ref := range list {
				unclear = unclear || part >= 0 && part != ref.part
				part = ref.part
			}
		}
		if unclear {
			part = -1
		} else if part < 0 && len(b.sheet.Parts) == 1 {
			part = 0
		}
		for i := range t.rows {
			r := &t.rows[i]
			for _, ref := range ties[i] {
				p := &b.sheet.Parts[ref.part]
				if f := &p.Features[ref.feature]; r.sized && !r.bad && !b.rowMatches(p, f, r) {
					b.rowDoubt(p, r, p.OnDrawing(f.At), fmt.Sprintf("row %s of the hole table says %s; the hole with this tag is drawn %s", clip(r.tag), r.says(), holeSize(f)))
				}
			}
		}
		if part < 0 {
			continue
		}
		b.comparePlaces(&t, part, ties)
		b.compareCounts(&t, part)
	}
}

func (b *builder) rowDoubt(p *Part, r *holeRow, at geom.Point, text string) {
	r.bad = true
	d := Doubt{Code: "reading-doubt", Grave: true, At: at, Text: text}
	if r.sized {
		d.Source = []Source{r.say.text.Source}
	}
	p.Doubts = append(p.Doubts, d)
}

// tagTies gives for each row the holes beside which its tag stands.
func (b *builder) tagTies(t *holeTable) [][]holeRef {
	out := make([][]holeRef, len(t.rows))
	byTag := map[string][]int{}
	for i := range t.rows {
		byTag[t.rows[i].tag] = append(byTag[t.rows[i].tag], i)
	}
	for i := range b.sheet.Texts {
		text := &b.sheet.Texts[i]
		rows := byTag[strings.TrimSpace(text.Value)]
		if len(rows) != 1 || t.texts[i] || b.tableOf(text) >= 0 {
			continue
		}
		if ref, ok := b.holeByTag(text, &t.rows[rows[0]]); ok {
			out[rows[0]] = append(out[rows[0]], ref)
		}
	}
	return out
}

// holeByTag is the hole that a tag's leader points at, or else the nearest one. Of
// two that are about as near the one of the row's size is taken.
func (b *builder) holeByTag(text *Text, r *holeRow) (holeRef, bool) {
	at, tip := b.pointedAt(*text)
	reach := pointMM
	if !tip {
		sin, cos := math.Sincos(text.AngleRad)
		at = text.At.Add(geom.Point{X: cos, Y: sin}.Mul(text.HeightMM / 3 * float64(longestLine(text.Value)))).Add(geom.Point{X: -sin, Y: cos}.Mul(text.HeightMM / 2))
		reach = tagHeights * text.HeightMM
	}
	type near struct {
		ref  holeRef
		dist float64
	}
	var list []near
	least := math.Inf(1)
	for k := range b.sheet.Parts {
		p := &b.sheet.Parts[k]
		for j := range p.Features {
			f := &p.Features[j]
			if !f.IsInside() {
				continue
			}
			d := p.OnDrawing(f.At).Dist(at) - p.Scale.shrink()*math.Max(f.DiameterMM, f.LengthMM)/2
			if d = math.Max(d, 0); d <= reach {
				list = append(list, near{holeRef{k, j}, d})
				least = math.Min(least, d)
			}
		}
	}
	if len(list) == 0 {
		return holeRef{}, false
	}
	var best []near
	for _, n := range list {
		if n.dist <= 2*least+text.HeightMM {
			best = append(best, n)
		}
	}
	for _, n := range best {
		p := &b.sheet.Parts[n.ref.part]
		if r.sized && b.rowMatches(p, &p.Features[n.ref.feature], r) {
			return n.ref, true
		}
	}
	return best[0].ref, len(best) == 1
}

// mostPlaceWork bounds the pairs of rows and holes that are compared.
const mostPlaceWork = 200_000

// comparePlaces compares the places of a table with a flat part's holes.
func (b *builder) comparePlaces(t *holeTable, part int, ties [][]holeRef) {
	p := &b.sheet.Parts[part]
	var rows []int
	for i := range t.rows {
		if t.rows[i].hasXY && t.rows[i].count <= 1 {
			rows = append(rows, i)
		}
	}
	if len(rows) == 0 || p.Angle != nil || len(rows)*len(p.Features) > mostPlaceWork {
		return
	}
	lowU, highU := -p.Outline.Support(t.u.Mul(-1)), p.Outline.Support(t.u)
	lowV, highV := -p.Outline.Support(t.v.Mul(-1)), p.Outline.Support(t.v)
	type origin struct{ u, v, signU, signV, k float64 }
	place := func(o origin, r *holeRow) geom.Point {
		return t.u.Mul(o.u + o.signU*o.k*r.xy.X).Add(t.v.Mul(o.v + o.signV*o.k*r.xy.Y))
	}
	at := func(pt geom.Point, r *holeRow) (int, bool) {
		found := -1
		for j := range p.Features {
			if f := &p.Features[j]; f.IsInside() && f.At.Dist(pt) <= coordinateMM {
				if found = j; !r.sized || b.rowMatches(p, f, r) {
					return j, true
				}
			}
		}
		return found, false
	}
	best, most := origin{}, [2]int{}
	try := func(o origin) {
		var score [2]int
		for _, i := range rows {
			if j, same := at(place(o, &t.rows[i]), &t.rows[i]); j >= 0 {
				score[0]++
				if same {
					score[1]++
				}
			}
		}
		if score[0] > most[0] || score[0] == most[0] && score[1] > most[1] {
			best, most = o, score
		}
	}
	// A drawing in inches may have a table in millimetres, as call-outs may be.
	ks := []float64{1}
	if mm := b.sheet.Units.MM; mm > 0 && mm != 1 {
		ks = append(ks, 1/mm)
	}
	for _, o := range []origin{{lowU, lowV, 1, 1, 1}, {lowU, highV, 1, -1, 1}, {highU, lowV, -1, 1, 1}, {highU, highV, -1, -1, 1}, {(lowU + highU) / 2, (lowV + highV) / 2, 1, 1, 1}, {lowU, highV, 1, 1, 1}, {highU, lowV, 1, 1, 1}, {lowU, (lowV + highV) / 2, 1, 1, 1}, {(lowU + highU) / 2, lowV, 1, 1, 1}} {
		for _, o.k = range ks {
			try(o)
		}
	}
	if most[0] < len(rows) && len(rows) > 1 {
		// An origin elsewhere: some hole is that of the first row or the second.
		for _, i := range rows[:2] {
			for j := range p.Features {
				if f := &p.Features[j]; f.IsInside() && len(rows)*len(p.Features) <= mostPlaceWork/max(1, len(p.Features)) {
					try(origin{f.At.Dot(t.u) - t.rows[i].xy.X, f.At.Dot(t.v) - t.rows[i].xy.Y, 1, 1, 1})
				}
			}
		}
	}
	if 5*most[0] < 3*len(rows) || most[0] < 2 && most[1] < len(rows) {
		p.Doubts = append(p.Doubts, Doubt{Code: "reading-doubt", At: t.rows[rows[0]].at,
			Text: "the X and Y of the hole table fit the holes from no corner of the part; the places were not compared"})
		return
	}
	for _, i := range rows {
		r := &t.rows[i]
		if r.bad {
			continue
		}
		pt := place(best, r)
		j, same := at(pt, r)
		switch {
		case j < 0:
			b.rowDoubt(p, r, p.OnDrawing(pt), fmt.Sprintf("row %s of the hole table has its hole here, where none is drawn", clip(r.tag)))
		case len(ties[i]) == 1 && ties[i][0].part == part && p.Features[ties[i][0].feature].At.Dist(pt) > coordinateMM:
			f := &p.Features[ties[i][0].feature]
			b.rowDoubt(p, r, p.OnDrawing(f.At), fmt.Sprintf("the hole with the tag %s stands %s mm from where its row of the hole table has it", clip(r.tag), shortNumber(f.At.Dist(pt))))
		case !same && len(ties[i]) == 0:
			f := &p.Features[j]
			b.rowDoubt(p, r, p.OnDrawing(f.At), fmt.Sprintf("row %s of the hole table says %s; the hole at its place is drawn %s", clip(r.tag), r.says(), holeSize(f)))
		}
	}
}

// compareCounts compares how many holes of each size a table lists with how many
// are drawn. A table without numbers and places lists kinds of holes; of these only
// one that is not drawn at all is told, by the rule for call-outs where it is one.
func (b *builder) compareCounts(t *holeTable, part int) {
	p := &b.sheet.Parts[part]
	for i := range t.rows {
		if t.rows[i].bad {
			return // one fault is told once
		}
	}
	done := make([]bool, len(t.rows))
	listed := make([]bool, len(p.Features))
	known := true
	for i := range t.rows {
		r := &t.rows[i]
		if known = known && r.sized; done[i] || !r.sized {
			continue
		}
		wanted, complete := 0, true
		for k := i; k < len(t.rows); k++ {
			if o := &t.rows[k]; o.sized && !done[k] && o.say.call.Slot == r.say.call.Slot && math.Abs(o.say.holeMM-r.say.holeMM) <= callOutMM {
				done[k] = true
				n := max(o.count, o.say.call.Count)
				complete = complete && (n > 0 || !t.counts && o.hasXY)
				wanted += max(n, 1)
			}
		}
		drawn := 0
		for j := range p.Features {
			if f := &p.Features[j]; f.IsInside() && b.rowMatches(p, f, r) {
				drawn++
				listed[j] = true
			}
		}
		switch {
		case drawn == 0:
			b.rowDoubt(p, r, r.at, fmt.Sprintf("row %s of the hole table says %s; no such hole is drawn", clip(r.tag), r.says()))
		case complete && wanted != drawn && wanted != drawn*p.Copies():
			b.rowDoubt(p, r, r.at, fmt.Sprintf("the hole table lists %d of the size in row %s (%s); %d drawn", wanted, clip(r.tag), r.says(), drawn))
		}
	}
	if !known {
		return
	}
	for j := range p.Features {
		if f := &p.Features[j]; f.IsInside() && !listed[j] && !slices.ContainsFunc(p.CallOuts, func(c CallOut) bool { return slices.Contains(c.Features, f.ID) }) {
			p.Doubts = append(p.Doubts, Doubt{Code: "reading-doubt", Grave: false, At: p.OnDrawing(f.At), Source: f.Source,
				Text: fmt.Sprintf("the hole table lists no hole of this size, %s", holeSize(f))})
			return
		}
	}
}
