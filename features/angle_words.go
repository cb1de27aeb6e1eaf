package features

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"burrside/features/geom"
	"burrside/features/section"
)

const (
	// sectionLegMM and sectionThickMM are how far drawn sizes may be off the ones
	// that a text names: sizes in inches are written in whole millimetres.
	sectionLegMM   = 0.51
	sectionThickMM = 0.25
	// sectionListMM is how far drawn sizes may be off a listed angle's.
	sectionListMM = 0.5
	// statedLengthMM is how far the drawn length may be off the stated one.
	statedLengthMM = 1.0
)

// namedSection is an angle that a text names, with its place.
type namedSection struct {
	m       section.Mention // in millimetres
	line    string
	text    Text
	at      geom.Point
	inTable bool
	end     bool    // an end view shows it, no text names it
	rootMM  float64 // of the end view
}

// namedSections lists the angles that the texts name.
func (b *builder) namedSections() []namedSection {
	var out []namedSection
	for i := range b.sheet.Texts {
		t := &b.sheet.Texts[i]
		if t.Revision {
			continue
		}
		at, _ := b.pointedAt(*t)
		for _, line := range statedLines(*t) {
			for _, m := range section.Mentions(line) {
				out = append(out, namedSection{m: m.In(b.sheet.Units.Name), line: line, text: *t, at: at, inTable: b.tableOf(t) >= 0})
			}
		}
	}
	return out
}

// fits tells whether two legs and a thickness are those that a text names.
func (n *namedSection) fits(leg1, leg2, thick float64) bool {
	return math.Abs(max(leg1, leg2)-max(n.m.LegMM[0], n.m.LegMM[1])) <= sectionLegMM &&
		math.Abs(min(leg1, leg2)-min(n.m.LegMM[0], n.m.LegMM[1])) <= sectionLegMM &&
		(n.m.ThicknessMM == 0 || math.Abs(n.m.ThicknessMM-thick) <= sectionThickMM)
}

// same tells whether two texts name one section.
func (n *namedSection) same(o *namedSection) bool {
	return n.fits(o.m.LegMM[0], o.m.LegMM[1], o.m.ThicknessMM) || o.fits(n.m.LegMM[0], n.m.LegMM[1], n.m.ThicknessMM)
}

// sectionsFor ties the named sections to groups of views, given by the boxes of
// each: one in a table or the only one speaks of all, else the nearest group.
func sectionsFor(named []namedSection, groups [][]geom.Box) [][]namedSection {
	out := make([][]namedSection, len(groups))
	for i := range named {
		n := &named[i]
		best, second, at := math.Inf(1), math.Inf(1), -1
		for g, boxes := range groups {
			d := math.Inf(1)
			for _, box := range boxes {
				d = math.Min(d, boxDist(box, n.at))
			}
			switch {
			case d < best:
				best, second, at = d, best, g
			case d < second:
				second = d
			}
		}
		alone := true
		for k := range named {
			alone = alone && n.same(&named[k])
		}
		switch {
		case len(groups) == 1:
			out[0] = append(out[0], *n)
		case alone || n.inTable:
			for g := range groups {
				out[g] = append(out[g], *n)
			}
		case best < 0.5*second || best < second && best < 4*n.text.HeightMM:
			out[at] = append(out[at], *n)
		}
	}
	return out
}

// withoutSections is a line of text without the angles that it names: their
// sizes are no thickness of a plate and no hole's.
func withoutSections(line string) string {
	for _, m := range section.Mentions(line) {
		line = strings.Replace(line, m.Text, " ", 1)
	}
	return line
}

// stateSection fills the section of an angle from its sizes and what the texts
// say; a text that disagrees with what is drawn is a grave doubt. seen tells that
// an end view shows that it is an angle.
func (b *builder) stateSection(p *Part, named []namedSection, seen bool) {
	a := p.Angle
	a.Section, a.SectionList = "", ""
	var listed []section.Angle
	for i := range named {
		n := &named[i]
		src := []Source{n.text.Source}
		if !n.fits(a.LegMM[0], a.LegMM[1], a.ThicknessMM) {
			if n.inTable && len(b.angles) > 1 {
				continue // of another angle on the sheet
			}
			p.Doubts = append(p.Doubts, Doubt{Code: "section-conflict", Grave: true, At: n.text.At, Source: src,
				Text: fmt.Sprintf("the text %q names an angle of %s x %s x %s mm, but the drawn one is %s x %s x %s mm", clip(n.line),
					shortNumber(n.m.LegMM[0]), shortNumber(n.m.LegMM[1]), shortNumber(n.m.ThicknessMM), shortNumber(a.LegMM[0]), shortNumber(a.LegMM[1]), shortNumber(a.ThicknessMM))})
			continue
		}
		if n.end {
			a.RootMM = max(a.RootMM, n.rootMM)
			continue
		}
		if a.SectionText.From == "" {
			a.SectionText = Stated{Text: n.m.Text, From: "text", At: n.text.At, Source: src}
			if n.m.ThicknessMM > 0 {
				listed = section.Find(n.m.LegMM[0], n.m.LegMM[1], n.m.ThicknessMM, sectionLegMM)
			}
		} else {
			a.SectionText.Source = append(a.SectionText.Source, src...)
		}
		if n.m.LengthMM > 0 && math.Abs(n.m.LengthMM-a.LengthMM) > statedLengthMM && !(n.inTable && lengthListed(named, a)) {
			p.Doubts = append(p.Doubts, Doubt{Code: "section-conflict", Grave: true, At: n.text.At, Source: src,
				Text: fmt.Sprintf("the text %q states a length of %s mm, but the drawn angle is %s mm long", clip(n.line), shortNumber(n.m.LengthMM), shortNumber(a.LengthMM))})
		}
	}
	if len(listed) == 0 {
		listed = section.Find(a.LegMM[0], a.LegMM[1], a.ThicknessMM, sectionListMM)
	}
	if len(listed) == 0 {
		a.MassKgM = section.MassKgM(a.LegMM[0], a.LegMM[1], a.ThicknessMM, a.RootMM)
		text := fmt.Sprintf("an angle of %s x %s x %s mm stands in no list of rolled angles: its mass is computed", shortNumber(a.LegMM[0]), shortNumber(a.LegMM[1]), shortNumber(a.ThicknessMM))
		if a.RootMM == 0 {
			text += ", the fillet between its legs is not known"
		}
		if a.SectionText.From == "" && !seen {
			p.Doubts = append(p.Doubts, Doubt{Code: "angle-unclear", Grave: true, At: p.Thickness.At, Source: p.Thickness.Source,
				Text: fmt.Sprintf("two outlines with a line each look like an angle of %s x %s x %s mm, but no list has it and no text names it: they may as well be two plates with a bend each",
					shortNumber(a.LegMM[0]), shortNumber(a.LegMM[1]), shortNumber(a.ThicknessMM))})
		}
		b.note(Note{Code: "section-unlisted", At: p.OnDrawing(p.Box.Min), HasAt: true, Text: text})
	} else {
		l := &listed[0]
		a.Section, a.SectionList, a.MassKgM = l.Name, l.List, l.MassKgM
		if l.RootMM > 0 {
			a.RootMM = l.RootMM
		}
		a.ToRootMM = l.ToRootMM
	}
	if a.ToRootMM == 0 && a.RootMM > 0 {
		a.ToRootMM = a.ThicknessMM + a.RootMM
	}
}

// projection is a method of projection with what tells it.
type projection struct {
	hand Hand
	at   geom.Point
}

// hand tells by which method of projection the views stand; unknown if nothing
// or more than one is said.
func (b *builder) projectionHand() Hand {
	said := slices.Clone(b.projections)
	for i := range b.sheet.Texts {
		if h := projectionWords(b.sheet.Texts[i].Value); h != HandNone {
			said = append(said, projection{h, b.sheet.Texts[i].At})
		}
	}
	hand := HandUnknown
	for _, s := range said {
		if hand != HandUnknown && s.hand != hand {
			return HandUnknown
		}
		hand = s.hand
	}
	return hand
}

// projectionWords reads the name of a method of projection (ISO 5456-2: first
// and third angle, earlier methods E and A).
func projectionWords(text string) Hand {
	words := " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" \t\n,;:.=()-/_\"'", r) }), " ") + " "
	first, third := false, false
	for _, w := range []string{"first angle", "1st angle", "projection e", "european projection", "european method", "method e", "projektionsmethode 1", "projektion methode 1",
		"premier dièdre", "1er dièdre", "primer diedro", "1er diedro", "primo diedro", "1º diedro", "primeiro diedro", "première dièdre", "e metoden", "europese projectie", "europäische projektion"} {
		first = first || strings.Contains(words, " "+w+" ")
	}
	for _, w := range []string{"third angle", "3rd angle", "projection a", "american projection", "american method", "method a", "projektionsmethode 3", "projektion methode 3",
		"troisième dièdre", "3e dièdre", "3ème dièdre", "tercer diedro", "3er diedro", "terzo diedro", "3º diedro", "terceiro diedro", "a metoden", "amerikaanse projectie", "amerikanische projektion"} {
		third = third || strings.Contains(words, " "+w+" ")
	}
	switch {
	case first == third:
		return HandNone
	case first:
		return HandFirst
	}
	return HandThird
}

// coneProjection tells the method by the sign of the truncated cone: both of its
// circles are seen, so it is looked at from the small end; third angle puts that
// view on the side from which it is seen, first angle on the other one.
func coneProjection(r geom.Ring, circles geom.Point) Hand {
	r = r.Simplify(1e-3)
	if len(r) != 4 {
		return HandNone
	}
	for i := range 2 {
		p, q := r[i], r[i+2]
		if math.Abs(p.StartDir().Cross(q.StartDir())) > 0.01 || math.Abs(p.Length()-q.Length()) < 0.01*p.Length() {
			continue
		}
		if p.Length() < q.Length() {
			p, q = q, p
		}
		if q.Mid().Dist(circles) < p.Mid().Dist(circles) {
			return HandThird
		}
		return HandFirst
	}
	return HandNone
}
