package features

import (
	"fmt"
	"math"
	"slices"

	"burrside/features/section"
)

// What the texts say of the angles, once these are made.

// readAngleTexts compares a length that a text of its own states with the only
// part if that is an angle, and doubts angles where a text names a section that
// none of them has.
func (b *builder) readAngleTexts() {
	var angles []int
	for i := range b.sheet.Parts {
		if b.sheet.Parts[i].Angle != nil {
			angles = append(angles, i)
		}
	}
	if len(angles) == 1 && len(b.sheet.Parts) == 1 {
		b.readAngleLength(&b.sheet.Parts[0])
	}
	if len(b.angles) > 1 && len(angles) > 0 {
		b.doubtOtherSections(angles)
	}
}

// statedLength is a length that a text states.
type statedLength struct {
	mm      float64
	text    Text
	line    string
	inTable bool
}

// readAngleLength doubts an angle of another length than a text states. Of the
// lengths in a table one must be the angle's.
func (b *builder) readAngleLength(p *Part) {
	of := section.Mention{LegMM: p.Angle.LegMM, ThicknessMM: p.Angle.ThicknessMM, Unit: "mm"}
	if u := b.sheet.Units.Name; u == "in" || u == "ft" {
		of.Unit = "in"
	}
	var all []statedLength
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if t.Leader {
			continue
		}
		lines := statedLines(*t)
		if t.Tag != "" && section.IsLengthLabel(t.Tag) {
			lines = append(lines, t.Tag+" "+t.Value)
		}
		if k := b.valueOfLength(i); k >= 0 {
			t, lines = &b.sheet.Texts[k], []string{t.Value + " " + b.sheet.Texts[k].Value}
		}
		for _, line := range lines {
			if mm, ok := section.StatedLength(line, of); ok {
				all = append(all, statedLength{mm, *t, line, b.tableOf(t) >= 0})
			}
		}
	}
	unit := b.sheet.Units.MM
	fits := func(s statedLength) bool {
		// In a drawing in metres a bare number may be metres.
		return math.Abs(s.mm-p.Angle.LengthMM) <= statedLengthMM || of.Unit == "mm" && math.Abs(s.mm*unit-p.Angle.LengthMM) <= statedLengthMM
	}
	listed := slices.ContainsFunc(all, func(s statedLength) bool { return s.inTable && fits(s) })
	for _, s := range all {
		if fits(s) || s.inTable && listed {
			continue
		}
		p.Doubts = append(p.Doubts, Doubt{Code: "section-conflict", Grave: true, At: s.text.At, Source: []Source{s.text.Source},
			Text: fmt.Sprintf("the text %q states a length of %s mm, but the drawn angle is %s mm long", clip(s.line), shortNumber(s.mm), shortNumber(p.Angle.LengthMM))})
	}
	p.Doubts = distinctDoubts(p.Doubts)
}

// valueOfLength is the text that stands behind or under one that is nothing but
// a label of a length, -1 none; under the head of a column stand several.
func (b *builder) valueOfLength(label int) int {
	l := &b.sheet.Texts[label]
	if !(l.HeightMM > 0) || l.Tag != "" || len(b.sheet.Texts) > maxVoteTexts || len([]rune(l.Value)) < 3 || !section.IsLengthLabel(l.Value) {
		return -1
	}
	at, under, nearest := -1, 0, math.Inf(1)
	for k := range b.sheet.Texts {
		t := &b.sheet.Texts[k]
		if k == label || t.Tag != "" || t.Value == "" || len(t.Value) > 20 || t.Value[0] < '0' || t.Value[0] > '9' {
			continue
		}
		dx, dy := l.offTo(t)
		wide := 2. / 3 * l.HeightMM * float64(len([]rune(l.Value)))
		near := math.Inf(1)
		switch {
		case math.Abs(dy) <= labelLine*l.HeightMM && dx > 0.5*wide && dx <= wide+labelBehind*l.HeightMM:
			near = dx
		case dy < 0 && math.Abs(dx) <= labelAside*l.HeightMM:
			if under++; -dy <= labelUnder*l.HeightMM {
				near = -dy
			}
		}
		if near < nearest {
			at, nearest = k, near
		}
	}
	if under > 1 {
		return -1
	}
	return at
}

// doubtOtherSections looks at the sections that texts name and no angle of the
// sheet has. Angles that another text names are not meant; the others may be.
func (b *builder) doubtOtherSections(angles []int) {
	for _, n := range b.namedSections() {
		if slices.ContainsFunc(angles, func(i int) bool {
			a := b.sheet.Parts[i].Angle
			return n.fits(a.LegMM[0], a.LegMM[1], a.ThicknessMM)
		}) {
			continue
		}
		isSaid := func(d Doubt) bool { return d.Code == "section-conflict" && d.At == n.text.At }
		if slices.ContainsFunc(angles, func(i int) bool { return slices.ContainsFunc(b.sheet.Parts[i].Doubts, isSaid) }) {
			continue
		}
		src := []Source{n.text.Source}
		what := fmt.Sprintf("the text %q names an angle of %s x %s x %s mm", clip(n.line), shortNumber(n.m.LegMM[0]), shortNumber(n.m.LegMM[1]), shortNumber(n.m.ThicknessMM))
		if n.m.ThicknessMM == 0 {
			what = fmt.Sprintf("the text %q names an angle of %s x %s mm", clip(n.line), shortNumber(n.m.LegMM[0]), shortNumber(n.m.LegMM[1]))
		}
		doubted := false
		for _, i := range angles {
			if p := &b.sheet.Parts[i]; p.Angle.SectionText.From == "" {
				doubted = true
				p.Doubts = append(p.Doubts, Doubt{Code: "section-conflict", Grave: true, At: n.text.At, Source: src,
					Text: fmt.Sprintf("%s, which none of those drawn has; this one is %s x %s x %s mm", what, shortNumber(p.Angle.LegMM[0]), shortNumber(p.Angle.LegMM[1]), shortNumber(p.Angle.ThicknessMM))})
			}
		}
		if !doubted {
			b.note(Note{Code: "section-not-drawn", At: n.text.At, HasAt: true, Source: src, Text: what + ", which is not drawn"})
		}
	}
}

// noteByViews tells of an angle that nothing shows to be one but its two views
// with continuous lines: two plates with a line scribed along each would look
// the same.
func (b *builder) noteByViews(p *Part, a *angleDraft) {
	hidden := a.legs[0].hidden || a.legs[1].hidden
	graver := slices.ContainsFunc(p.Doubts, func(d Doubt) bool { return d.Code == "angle-unclear" || d.Code == "section-conflict" })
	if a.from != "two views" || hidden || a.end || p.Angle.SectionText.From != "" || graver {
		return
	}
	b.note(Note{Code: "angle-by-views", At: p.Scale.drawn(b.loops[a.legs[0].loop].box.Min), HasAt: true, Source: p.Thickness.Source,
		Text: fmt.Sprintf("no text names a section: two outlines %s and %s mm wide, each with a line %s mm from one long edge, were taken as an angle by its two views",
			shortNumber(p.Angle.LegMM[0]), shortNumber(p.Angle.LegMM[1]), shortNumber(p.Angle.ThicknessMM))})
}
