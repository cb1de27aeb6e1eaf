package features

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"burrside/features/geom"
	"burrside/features/measure"
	"burrside/features/section"
)

// How much of a rectangle the texts in it take, at least, for it to be doubted
// as a box of notes: rows with their spacing upward, the longest row across. A
// mark in the middle of a plate takes less (common practice, no source).
const (
	notesTall  = 1.0 / 3
	notesWide  = 0.2
	rowSpacing = 1.6 // times the height of the letters
)

// boxNotes is what the texts in a rectangle say together.
type boxNotes struct {
	rows    int
	longest int     // letters of the longest row
	highMM  float64 // of the largest letters
	headed  bool    // a row heads notes, or is for the whole drawing
	facts   bool    // a row names a part, its metal, size or number
}

// notesBoxes finds rectangles that hold nothing but the notes of the drawing,
// at whatever size. One that is dimensioned is a part to all appearance and is
// doubted only; so is one whose texts do not tell.
func (s *signs) notesBoxes() {
	for i, r := range s.rings {
		if len(s.texts[i]) == 0 || len(s.children[i]) > 0 || s.res.Contours[i].ToolMark || s.doubted[i] || !isRectangle(r) ||
			s.takenContour(i) || s.onMetal(i) || s.onlyOne(i) || s.hasLines(i) {
			continue
		}
		n := s.notesIn(i)
		long, short := sidesOf(r)
		tall := rowSpacing * n.highMM * float64(n.rows) / short
		wide := 0.7 * n.highMM * float64(n.longest) / long
		filled := tall >= notesTall && wide >= notesWide
		switch {
		case n.headed && !n.facts && !s.isMeasured(i):
			s.take(i, "box round a text")
			for _, l := range s.leadersOn(i, n.highMM) {
				s.takeItem(l)
			}
		case n.headed:
			s.doubtBox(i, "a box of notes, or a part with notes on it")
		case filled && !n.facts && n.rows >= 2 && !s.isMeasured(i):
			s.doubtBox(i, "a box of notes, or a part with notes on it")
		case filled && n.facts && s.saysAll(i):
			s.doubtBox(i, "a box of notes for the other parts, which have none, or a part")
		}
	}
}

func (s *signs) doubtBox(i int, readings string) {
	box := s.boxes[i]
	long, short := sidesOf(s.rings[i])
	s.b.borderDoubts = append(s.b.borderDoubts, borderDoubt{box.Grow(0.01), Doubt{Code: "maybe-text-box", Grave: true, At: box.Min, Source: s.sources(i),
		Text: fmt.Sprintf("a rectangle of %s x %s mm with texts in it and nothing else: %s", shortNumber(long), shortNumber(short), readings)}})
}

func (s *signs) notesIn(i int) boxNotes {
	var n boxNotes
	for _, x := range s.texts[i] {
		t := &s.b.sheet.Texts[x]
		n.highMM = math.Max(n.highMM, t.HeightMM)
		for _, row := range statedLines(*t) {
			row = strings.TrimSpace(row)
			if row == "" {
				continue
			}
			n.rows++
			n.longest = max(n.longest, len([]rune(row)))
			switch {
			case headsNotes(row) || measure.IsGeneralNote(row) || statesScale(row):
				n.headed = true
			default:
				n.facts = n.facts || namesPart(row)
			}
		}
	}
	return n
}

// headsNotes tells of a row that heads the notes of a drawing: "NOTES:",
// "GENERAL NOTES", "Anmerkungen", "Note: deburr".
func headsNotes(row string) bool {
	words := strings.FieldsFunc(strings.ToLower(row), func(r rune) bool { return !unicode.IsLetter(r) })
	colon := strings.ContainsRune(row, ':')
	for i, w := range words {
		if slices.Contains(strings.Fields(`note notes remark remarks legend key anmerkung anmerkungen hinweis hinweise bemerkung bemerkungen legende
			remarque remarques légende nota notas observaciones leyenda osservazioni avvertenze legenda observações
			opmerking opmerkingen anmärkning anmärkningar uwaga uwagi poznámka poznámky примечание примечания`), w) {
			return i == 0 && colon || len(words) <= 2
		}
		if i == 1 {
			break
		}
	}
	return false
}

// statesScale tells of a row that states the scale of the drawing: "SCALE 1:5".
func statesScale(row string) bool {
	words := strings.FieldsFunc(row, func(r rune) bool { return unicode.IsSpace(r) || r == '=' })
	return len(words) >= 2 && headingWords(words[0]) > 0 && isRatio(words[len(words)-1])
}

// namesPart tells of a row that names a part, its metal, its size or how many
// are wanted.
func namesPart(row string) bool {
	if isMark(row) || len(measure.PlateNotes(row)) > 0 || len(section.Mentions(row)) > 0 {
		return true
	}
	_, metal := measure.MaterialNote(row)
	n, asked := measure.Quantity(row)
	_, _, size := measure.OutlineSize(row)
	return metal || size || asked && n > 0
}

// saysAll tells whether the rectangle alone states a thickness or a metal,
// while a larger contour with openings stands beside it.
func (s *signs) saysAll(i int) bool {
	beside := false
	for k := range s.rings {
		beside = beside || k != i && s.areas[k] > s.areas[i] && s.res.Contours[k].Parent < 0 && len(s.children[k]) > 0
	}
	if !beside {
		return false
	}
	here, elsewhere := false, false
	for x := range s.b.sheet.Texts {
		t := &s.b.sheet.Texts[x]
		for _, row := range statedLines(*t) {
			_, metal := measure.MaterialNote(row)
			if !metal && len(measure.PlateNotes(row)) == 0 && len(section.Mentions(row)) == 0 {
				continue
			}
			if slices.Contains(s.texts[i], x) {
				here = true
			} else {
				elsewhere = true
			}
		}
	}
	return here && !elsewhere
}

// isMeasured tells whether a dimension measures a side of a rectangle.
func (s *signs) isMeasured(i int) bool {
	mm := s.b.sheet.Units.MM
	tol := math.Max(0.1, 1e-4*size(s.boxes[i]))
	for k := range s.b.drawnDims {
		d := &s.b.drawnDims[k]
		if s.rings[i].Inside(d.from.Mul(mm), tol) == geom.On && s.rings[i].Inside(d.to.Mul(mm), tol) == geom.On {
			return true
		}
	}
	return false
}
