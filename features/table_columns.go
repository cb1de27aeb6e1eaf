package features

import (
	"math"

	"burrside/features/geom"
)

// columnSpan is where something lies along a direction.
type columnSpan struct{ from, to float64 }

func boxSpan(c geom.Box, along geom.Point) columnSpan {
	p, q := c.Min.Dot(along), c.Max.Dot(along)
	return columnSpan{math.Min(p, q), math.Max(p, q)}
}

// common is how much of two spans is the same, below 0 for a gap.
func (s columnSpan) common(o columnSpan) float64 {
	return math.Min(s.to, o.to) - math.Max(s.from, o.from)
}

// cellOf is the box between the lines of a table or a title block that a text
// begins in, false where no lines are drawn about it.
func (b *builder) cellOf(t *Text) (geom.Box, bool) {
	a := b.tableOf(t)
	if a < 0 {
		return geom.Box{}, false
	}
	k := leastBox(b.areas[a].grid, b.textMiddle(t))
	if k < 0 {
		return geom.Box{}, false
	}
	return b.areas[a].grid[k], true
}

// underHead is the head in whose column a text stands between lines, -1 none;
// false where lines part no columns about it.
func (b *builder) underHead(text int, heads []listCell, along geom.Point) (at int, ruled bool) {
	cell, ok := b.cellOf(&b.sheet.Texts[text])
	if !ok {
		return -1, false
	}
	s := boxSpan(cell, along)
	at, most, wide := -1, 0.0, 0
	seen := map[geom.Box]bool{}
	for _, h := range heads {
		c, ok := b.cellOf(&b.sheet.Texts[h.text])
		if !ok || seen[c] {
			return -1, false // two heads between the same lines
		}
		seen[c] = true
		o := boxSpan(c, along)
		share := s.common(o) / math.Min(s.to-s.from, o.to-o.from)
		if share > 0.5 {
			wide++
		}
		if share > math.Max(most, 0.5) {
			most, at = share, h.text
		}
	}
	return at, wide <= 1
}

// columnOf is the head that a text stands under: the one in the same column of
// lines; where none are drawn, the one over most of it, else the one whose
// beginning, middle or end it is nearest to. -1 if none is within reach.
func (b *builder) columnOf(text int, heads []listCell, along geom.Point) int {
	if at, ruled := b.underHead(text, heads, along); ruled {
		return at
	}
	t := &b.sheet.Texts[text]
	s := b.spanOf(t, along)
	best, at, most, over := math.Inf(1), -1, 0.0, -1
	for _, h := range heads {
		o := b.spanOf(&b.sheet.Texts[h.text], along)
		if c := (columnSpan{s.from, s.to}).common(columnSpan{o.from, o.to}); c > most {
			most, over = c, h.text
		}
		d := math.Min(math.Abs(s.from-o.from), math.Min(math.Abs(s.to-o.to), math.Abs(s.from+s.to-o.from-o.to)/2))
		if d < best {
			best, at = d, h.text
		}
	}
	if over >= 0 {
		return over
	}
	if best > 6*t.HeightMM {
		return -1
	}
	return at
}
