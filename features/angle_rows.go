package features

import (
	"fmt"
	"math"

	"burrside/features/section"
)

// What the rows of a parts list say of angles.

// lengthListed tells whether a row of a table names the section of an angle with
// its own length: the rows of other lengths are then of other angles.
func lengthListed(named []namedSection, a *Angle) bool {
	for i := range named {
		n := &named[i]
		if n.inTable && n.m.LengthMM > 0 && n.fits(a.LegMM[0], a.LegMM[1], a.ThicknessMM) && math.Abs(n.m.LengthMM-a.LengthMM) <= statedLengthMM {
			return true
		}
	}
	return false
}

// compareRow doubts the angles that a balloon ties to a row which names another
// section or length than is drawn.
func (b *builder) compareRow(r *listRow, parts []int) {
	for _, k := range parts {
		p := &b.sheet.Parts[k]
		if p.Angle == nil {
			continue
		}
		a := p.Angle
		for _, c := range r.cells {
			t := &b.sheet.Texts[c.text]
			for _, line := range statedLines(*t) {
				for _, m := range section.Mentions(line) {
					n := namedSection{m: m.In(b.sheet.Units.Name)}
					switch {
					case !n.fits(a.LegMM[0], a.LegMM[1], a.ThicknessMM):
						b.doubtRow(p, t, fmt.Sprintf("the row %q of the parts list, to which its item number ties it, names an angle of %s x %s x %s mm, but the drawn one is %s x %s x %s mm", clip(line),
							shortNumber(n.m.LegMM[0]), shortNumber(n.m.LegMM[1]), shortNumber(n.m.ThicknessMM), shortNumber(a.LegMM[0]), shortNumber(a.LegMM[1]), shortNumber(a.ThicknessMM)))
					case n.m.LengthMM > 0 && math.Abs(n.m.LengthMM-a.LengthMM) > statedLengthMM:
						b.doubtRow(p, t, fmt.Sprintf("the row %q of the parts list, to which its item number ties it, states a length of %s mm, but the drawn angle is %s mm long", clip(line),
							shortNumber(n.m.LengthMM), shortNumber(a.LengthMM)))
					}
				}
			}
		}
	}
}

// doubtRow enters a grave doubt about a row, once for one text.
func (b *builder) doubtRow(p *Part, t *Text, text string) {
	for _, d := range p.Doubts {
		if d.Code == "section-conflict" && d.At == t.At {
			return
		}
	}
	p.Doubts = append(p.Doubts, Doubt{Code: "section-conflict", Grave: true, At: t.At, Text: text, Source: []Source{t.Source}})
}
