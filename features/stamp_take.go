package features

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"burrside/features/geom"
	"burrside/features/measure"
)

// The mark of a stamp: two circles or more about one centre, with what an office
// stamps in them, or letters set along them.
const (
	// arcLetters is how many letters by themselves must stand along a circle; holes
	// have one mark each.
	arcLetters = 5
	// arcSine is how far such a letter may be turned off the circle.
	arcSine = 0.2
)

// stampWord tells whether a text says what an office stamps on its drawings, in
// words of ten languages (common practice, no source).
func stampWord(text string) bool {
	for _, w := range strings.FieldsFunc(foldText(text), func(r rune) bool { return !unicode.IsLetter(r) }) {
		switch w {
		case "checked", "approved", "issued", "released", "certified", "received", "superseded", "preliminary", "void", "inspected", "verified", "reviewed", "copy", "stamp", "seal",
			"gepruft", "geprueft", "freigegeben", "freigabe", "genehmigt", "entwurf", "vorabzug",
			"approuve", "verifie", "controle", "valide", "visa", "perime",
			"approvato", "verificato", "controllato", "aprobado", "revisado", "verificado", "aprovado", "conferido",
			"goedgekeurd", "gecontroleerd", "vrijgegeven", "zatwierdzono", "zatwierdzil", "sprawdzono", "sprawdzil", "godkand", "godkjent", "hyvaksytty", "schvaleno":
			return true
		}
	}
	return false
}

// stampLayer tells whether the name of a layer speaks of stamps.
func stampLayer(name string) bool {
	low := foldText(name)
	return slices.ContainsFunc([]string{"stamp", "stempel", "cachet", "tampon", "timbro", "sello", "carimbo", "pieczec", "pieczat", "razitko"}, func(w string) bool { return strings.Contains(low, w) })
}

// stamps finds stamps. A ring that something else speaks for, a dimension, a
// leader, a name or a number of pieces, is left a part.
func (s *signs) stamps() {
	if !s.drawing {
		return
	}
	for i, r := range s.rings {
		c, radius, ok := circleOf(r)
		if !ok || s.takenContour(i) || s.onMetal(i) || len(s.children[i]) != 1 {
			continue
		}
		// The circles about its centre, the least last.
		rings, inner := []int{i}, radius
		for k := i; len(s.children[k]) == 1; {
			k = s.children[k][0]
			kc, kr, round := circleOf(s.rings[k])
			if !round || kc.Dist(c) > alikeMM {
				rings = nil
				break
			}
			rings, inner = append(rings, k), kr
		}
		if len(rings) < 2 || len(s.children[rings[len(rings)-1]]) > 0 || !s.largerThan(i) {
			continue
		}
		words, letters, high, called := false, 0, 0.0, s.measuredBy(i)
		near := s.boxes[i].Grow(radius)
		for x := range s.b.sheet.Texts {
			t := &s.b.sheet.Texts[x]
			p := s.b.textMiddle(t)
			if !near.Contains(p) || s.b.tableOf(t) >= 0 {
				continue
			}
			off := p.Dist(c)
			in := off < radius
			for _, row := range statedLines(*t) {
				n, asked := measure.Quantity(row)
				called = called || namesPart(row) || asked && n > 0
			}
			if !in {
				continue
			}
			high = math.Max(high, t.HeightMM)
			words = words || stampWord(t.Value) || isWord(t.Value) && s.onStampLayer(i)
			if d := p.Sub(c).Unit(); len([]rune(strings.TrimSpace(t.Value))) == 1 && off > inner-t.HeightMM && math.Abs(d.Dot(textLine(t))) <= arcSine+0.7*t.HeightMM/off {
				letters++
			}
		}
		if called || !words && letters < arcLetters || len(s.leadersOn(i, high)) > 0 {
			continue
		}
		for k, ring := range rings {
			what := ""
			if k == 0 {
				what = "stamp"
			}
			s.take(ring, what)
		}
	}
}

// largerThan tells whether another contour outside of all is larger.
func (s *signs) largerThan(i int) bool {
	for k := range s.areas {
		if s.areas[k] > s.areas[i] && !s.takenContour(k) && !s.isBorder(k) {
			return true
		}
	}
	return false
}

// measuredBy tells whether a dimension ends in the box of a contour.
func (s *signs) measuredBy(i int) bool {
	mm := s.b.sheet.Units.MM
	box := s.boxes[i].Grow(0.1)
	return slices.ContainsFunc(s.b.drawnDims, func(d drawnDim) bool { return box.Contains(d.from.Mul(mm)) || box.Contains(d.to.Mul(mm)) })
}

// onStampLayer tells whether a contour is drawn on a layer for stamps.
func (s *signs) onStampLayer(i int) bool {
	for _, src := range s.sources(i) {
		if stampLayer(s.b.sheet.Entities[src.Entity].Layer) {
			return true
		}
	}
	return false
}

// textLine is the direction of a text's line.
func textLine(t *Text) geom.Point {
	sin, cos := math.Sincos(t.AngleRad)
	return geom.Point{X: cos, Y: sin}
}
