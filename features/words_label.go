package features

import (
	"math"
	"strings"

	"burrside/features/geom"
	"burrside/features/measure"
)

// Reach of a label of a title block, in heights of its letters (common practice,
// no source): its value stands behind it on the line, or under it.
const (
	labelBehind = 20.0
	labelUnder  = 4.0
	labelAside  = 4.0
	labelLine   = 0.7
)

// labelled reads the boxes of a title block: a text that is nothing but a label,
// THICKNESS, and the one beside or below it, which is nothing but a value. Where
// more than one text stands under a label it heads the column of a list, whose
// rows are not told apart here, and is passed over.
func (b *builder) labelled() []statement {
	var out []statement
	texts := b.sheet.Texts
	if len(texts) > maxVoteTexts {
		return nil
	}
	for i := range texts {
		l := &texts[i]
		if l.Revision {
			continue
		}
		kind := measure.LabelKind(strings.TrimSuffix(strings.TrimSpace(l.Value), ":"))
		if kind == "" || kind == "units" || l.Tag != "" || !(l.HeightMM > 0) || strings.ContainsAny(l.Value, "0123456789") || len(strings.TrimSpace(l.Value)) < 3 {
			continue
		}
		if kind == "material" {
			out = append(out, b.statedBeside(i)...)
			continue
		}
		at, under, nearest := -1, 0, math.Inf(1)
		for k := range texts {
			t := &texts[k]
			if k == i || t.Tag != "" || t.Revision || strings.Contains(t.Value, "\n") || measure.LabelKind(t.Value) != "" {
				continue
			}
			dx, dy := l.offTo(t)
			wide := 2. / 3 * l.HeightMM * float64(len([]rune(l.Value)))
			behind := math.Abs(dy) <= labelLine*l.HeightMM && dx > 0.5*wide && dx <= wide+labelBehind*l.HeightMM
			below := dy < 0 && math.Abs(dx) <= labelAside*l.HeightMM
			if (!behind && !below) || !isValueOf(kind, t.Value) {
				continue
			}
			if below {
				under++
			}
			near := dx
			if below {
				if near = -dy; near > labelUnder*l.HeightMM {
					continue
				}
			}
			if near < nearest {
				at, nearest = k, near
			}
		}
		if at < 0 || under > 1 {
			continue
		}
		line := measure.TaggedNote(kind, texts[at].Value)
		for _, s := range b.statementsOf(texts[at], line) {
			if s.kind == kind {
				s.whole, s.at = line, texts[at].At
				out = append(out, s)
			}
		}
	}
	return out
}

// offTo is how far another text stands behind and above this one, along its own
// line: of a sheet turned on its side the labels are read as they stand.
func (t *Text) offTo(o *Text) (behind, above float64) {
	off := o.At.Sub(t.At)
	if math.Abs(t.AngleRad) < 1e-6 {
		return off.X, off.Y
	}
	s, c := math.Sincos(t.AngleRad)
	along := geom.Point{X: c, Y: s}
	return off.Dot(along), along.Cross(off)
}

// isValueOf tells whether a text is a value and nothing else, and one that no
// other function reads without its label.
func isValueOf(kind, text string) bool {
	text = strings.TrimSpace(text)
	if text == "" || len(text) > 20 || text[0] < '0' || text[0] > '9' {
		return false
	}
	note := measure.TaggedNote(kind, text)
	switch kind {
	case "thickness":
		_, ok := measure.PlateNote(note)
		return ok && note != text
	case "quantity":
		_, ok := measure.Quantity(note)
		return ok && note != text
	}
	return false
}
