package measure

import (
	"strconv"
	"strings"
)

// Plate is a thickness or plate note. A length without a unit in the text has
// Unit "" and stands in the drawing's unit.
type Plate struct {
	Thickness LengthValue
	Width     LengthValue // of "PL 3/8 x 6", "FL 100x10"
	Length    LengthValue
	// Gauge is the number of "10 GA"; Thickness is then not set, because the
	// thickness of a gauge depends on the metal: see SheetGauge.
	Gauge int
}

// SheetGauge gives the thickness of the Manufacturers' Standard Gauge for
// uncoated steel sheet, numbers 3 (thickest) to 30; other metals and coated
// sheet have other tables. ok is false outside it. (Standard table of 41.82
// lb/ft2 an inch; also printed in Machinery's Handbook.)
func SheetGauge(number int) (mm float64, ok bool) {
	inches := [...]float64{0.2391, 0.2242, 0.2092, 0.1943, 0.1793, 0.1644, 0.1495, 0.1345, 0.1196, 0.1046,
		0.0897, 0.0747, 0.0673, 0.0598, 0.0538, 0.0478, 0.0418, 0.0359, 0.0329, 0.0299,
		0.0269, 0.0239, 0.0209, 0.0179, 0.0164, 0.0149, 0.0135, 0.0120}
	if number < 3 || number-3 >= len(inches) {
		return 0, false
	}
	return tidy(inches[number-3] * mmPerInch), true
}

// maxPlateMM bounds a thickness that is believed: more is no plate.
const maxPlateMM = 400

// PlateNote reads "PL 3/8 x 6", "FL 100x10", "t=10", "THK 10 mm", "10 THK",
// "1/2\" PLATE", "10 GA", "Blech 8", "s = 6 mm", "ep. 10", "sp. 5"; ok is false
// when the text is none or names two thicknesses. Of two or three sizes the
// smallest is the thickness, whatever the order; a unit or an inch fraction on
// one of them holds for all.
//
// A wrong thickness is worse than none, so what could be something else is not
// read: a number glued to the word without unit or second size ("PL10", "EP3" may
// be marks), t or s without = or :, s above 30 (a spacing), e (an edge distance),
// the thickness of a weld or a coating, nor any in a text that speaks of another
// thing than the part: a gasket, a shim, what is below or by others.
func PlateNote(text string) (p Plate, ok bool) {
	list := PlateNotes(text)
	if len(list) != 1 {
		return Plate{}, false
	}
	return list[0], true
}

// PlateNotes gives all notes of a text that differ in their thickness: one as a
// rule, more where a text names two thicknesses.
func PlateNotes(text string) []Plate {
	list := tokens(withoutGrades(withoutException(text)))
	if toPlate(list) || speaksOf(list, func(w string) bool { return isOtherThing(w) || isOtherSize(w) }) {
		return nil
	}
	if q, here := keyedThickness(list); here {
		return []Plate{q}
	}
	found := thicknessRange(list)
	for i := 0; i < len(list); i++ {
		q, next, here := plateAt(list, i)
		if !here {
			continue
		}
		if next < len(list) {
			// "t=10 OR 12": a second number that is one of the same.
			if second := alternative(list, next); second.MM > 0 && q.Width.MM == 0 {
				found = append(found, Plate{Thickness: second})
			}
		}
		known := false
		for _, p := range found {
			known = known || q == p || q.Width.MM == 0 && q.Gauge == p.Gauge && q.Thickness == p.Thickness // "PL 10 x 200, t = 10"
		}
		if !known {
			found = append(found, q)
		}
		i = max(i, next-1)
	}
	return found
}

// thicknessRange reads "t=8-12" and "THK 10-12": both ends, so that the text is
// one that names two thicknesses.
func thicknessRange(list []token) []Plate {
	for i := 0; i+3 < len(list); i++ {
		t := list[i]
		if t.kind != tokenWord || !(isThickWord(t.text) || t.word("t", "s") && list[i+1].is("=")) {
			continue
		}
		k := i + 1
		if list[k].is("=") || list[k].is(":") {
			k++
		}
		if k+2 < len(list) && list[k].kind == tokenNumber && list[k+1].is("-") && list[k+1].glue && list[k+2].kind == tokenNumber && list[k+2].glue && list[k].size.MM > 0 && list[k+2].size.MM > list[k].size.MM && list[k+2].size.MM <= maxPlateMM {
			return []Plate{{Thickness: list[k].size}, {Thickness: list[k+2].size}}
		}
	}
	return nil
}

// alternative gives the number behind "or", "to" or an arrow at token k: the
// other of two thicknesses.
func alternative(list []token, k int) LengthValue {
	if list[k].is("-") && k+1 < len(list) && list[k+1].is(">") {
		k++
	} else if !list[k].word("or", "to", "oder", "bis", "ou", "à", "o", "of", "lub", "nebo", "или") {
		return LengthValue{}
	}
	if k+1 < len(list) && list[k+1].kind == tokenNumber && list[k+1].size.MM > 0 && (k+2 >= len(list) || list[k+2].kind != tokenSign || list[k+2].is(",")) {
		return list[k+1].size
	}
	return LengthValue{}
}

// plateAt reads a note that starts at token i; next is the token after it.
func plateAt(list []token, i int) (p Plate, next int, ok bool) {
	at := func(k int) token {
		if k < 0 || k >= len(list) {
			return token{kind: tokenSign}
		}
		return list[k]
	}
	t := at(i)
	skip := func(k int) int {
		for at(k).is("=") || at(k).is(":") || at(k).is(".") || at(k).word("de", "di", "da", "von", "van", "of", "à") && at(k+1).kind == tokenNumber {
			k++
		}
		return k
	}
	size := func(k int) bool {
		v, after := at(k), at(k+1)
		return v.kind == tokenNumber && v.size.MM > 0 && !(k > i && at(k-1).is("-")) &&
			!after.is("°") && !after.is("%") && !after.is("\u00b5") && !after.word("um", "\u00b5m", "\u03bcm", "mic", "micron", "microns", "mils", "mil") &&
			!(after.is("-") && after.glue && at(k+2).kind == tokenNumber) && !after.is("/") && !after.is("~")
	}
	thick, plate, alone := false, false, false
	if t.kind == tokenWord {
		thick = isThickWord(t.text) || t.word("gr", "hr") && grIsThick(list, i)
		plate, alone = isPlateWord(t.text)
		if t.text == "bar" && !at(i-1).word("round", "rd", "square", "sq", "hex", "reinforcing", "flat") {
			return barAt(list, i)
		}
	}
	switch {
	case t.word("ga", "gage", "gauge"):
		k := skip(i + 1)
		if n, whole := at(k).count(); whole && n >= 3 && n <= 30 && !gaugeBefore(list, i) {
			return Plate{Gauge: n}, k + 1, true
		}
	case gaugeBefore(list, i+1):
		n, _ := t.count()
		return Plate{Gauge: n}, i + 2, true
	case thick || plate:
		if at(i-1).kind == tokenWord && isOtherThickness(at(i-1).text) {
			return Plate{}, i + 2, false
		}
		k := skip(i + 1)
		if !size(k) && plate && at(k).kind == tokenWord && (isThickWord(at(k).text) || at(k).word("bar", "t", "s", "e", "gr", "hr")) {
			alone = !at(k).word("bar")
			k = skip(k + 1) // "PLATE THK 10", "FLAT BAR 100 x 10"
		}
		if !size(k) {
			return Plate{}, 0, false
		}
		p, next, ok = sizes(list, k, plate)
		bare := p.Width.MM == 0 && p.Thickness.Unit == ""
		if ok && bare && (plate && !alone || k == i+1 && list[k].glue && !dotted(list, i)) {
			return Plate{}, 0, false
		}
		return p, next, ok
	case t.word("t", "s") && (at(i+1).is("=") || at(i+1).is(":")) && !(t.glue && at(i-1).kind != tokenSign):
		if k := skip(i + 1); size(k) && (t.text == "t" || at(k).num.value <= 30) {
			return sizes(list, k, false)
		}
	case t.kind == tokenNumber && size(i):
		return sizeBefore(list, i)
	}
	return Plate{}, 0, false
}

// grIsThick tells whether "gr" or "hr" at i is short for a thickness, not for a
// grade or hot rolled: an equals sign, a unit or the word for plate tells.
func grIsThick(list []token, i int) bool {
	if i+2 < len(list) && list[i+1].is("=") && list[i+2].kind == tokenNumber {
		return true
	}
	return i+1 < len(list) && list[i+1].kind == tokenNumber && list[i+1].size.Unit == "mm"
}

// barAt reads "BAR 3/8 x 4": a bar of two sizes is a flat.
func barAt(list []token, i int) (Plate, int, bool) {
	if i+1 >= len(list) || list[i+1].kind != tokenNumber || !(list[i+1].size.MM > 0) {
		return Plate{}, 0, false
	}
	p, next, ok := sizes(list, i+1, true)
	if !ok || p.Width.MM == 0 || p.Width.MM == p.Thickness.MM {
		return Plate{}, 0, false
	}
	return p, next, true
}

// keyedThickness reads "MATL: 1/4\" A36", of which the grade was taken out: a
// material that is nothing but a length with its unit.
func keyedThickness(list []token) (Plate, bool) {
	if len(list) < 2 || list[0].kind != tokenWord || !isMaterialKey(list[0].text) {
		return Plate{}, false
	}
	k := 1
	for k < len(list) && (list[k].is(":") || list[k].is("=") || list[k].is("-")) {
		k++
	}
	if k != len(list)-1 || list[k].kind != tokenNumber || list[k].size.Unit == "" || !(list[k].size.MM > 0) || list[k].size.MM > maxPlateMM {
		return Plate{}, false
	}
	return Plate{Thickness: list[k].size}, true
}

// withoutGrades takes the names of steels out of a text, so that "3/8\" A36 PLATE"
// is a size before its word.
func withoutGrades(text string) string {
	if len(text) > maxNote {
		return text
	}
	fields := gradeFields(text)
	out, last := "", 0
	for i := 0; i < len(fields); {
		n := gradeAt(fields, i)
		if n == 0 {
			i++
			continue
		}
		out += text[last:fields[i].from] + " "
		last = fields[i+n-1].to
		i += n
	}
	return out + text[last:]
}

// sizeBefore reads "10 THK", "1/2\" PLATE", "10 mm Blech": the number first.
func sizeBefore(list []token, i int) (p Plate, next int, ok bool) {
	if i+1 >= len(list) || list[i+1].kind != tokenWord || list[i].size.MM > maxPlateMM {
		return Plate{}, 0, false
	}
	word := list[i+1]
	plate, _ := isPlateWord(word.text)
	full := word.word("thk", "thick", "dick", "dik", "tjock", "tyk", "épais", "толщ")
	if !full && !(plate && list[i].size.Unit != "") {
		return Plate{}, 0, false
	}
	if !full && i+2 < len(list) && list[i+2].kind == tokenNumber {
		return Plate{}, 0, false // "2 in PLATE 10": which of the two?
	}
	return Plate{Thickness: list[i].size}, i + 2, true
}

// dotted tells whether word i was written with a full stop, as an abbreviation.
func dotted(list []token, i int) bool { return list[i].dot }

// gaugeBefore tells whether token i is the word gauge with its number before it.
func gaugeBefore(list []token, i int) bool {
	if i < 1 || i >= len(list) || !list[i].word("ga", "gage", "gauge") {
		return false
	}
	n, whole := list[i-1].count()
	return whole && n >= 3 && n <= 30
}

// sizes reads one size, or two or three joined by x, from token k on.
func sizes(list []token, k int, many bool) (p Plate, next int, ok bool) {
	dims := []LengthValue{list[k].size}
	next = k + 1
	for many && len(dims) < 3 && next+1 < len(list) && list[next].is("x") && list[next+1].kind == tokenNumber && list[next+1].size.MM > 0 {
		dims = append(dims, list[next+1].size)
		next += 2
	}
	unit := ""
	for _, d := range dims {
		if d.Unit != "" && unit == "" {
			unit = d.Unit
		}
	}
	if unit != "" {
		for i := range dims {
			if dims[i].Unit == "" {
				dims[i] = dims[i].in(unit)
			}
		}
	}
	thin := 0
	for i := range dims {
		if dims[i].MM < dims[thin].MM {
			thin = i
		}
	}
	p.Thickness = dims[thin]
	rest := append(append([]LengthValue{}, dims[:thin]...), dims[thin+1:]...)
	if len(rest) > 0 {
		p.Width = rest[0]
	}
	if len(rest) > 1 {
		p.Length = rest[1]
	}
	if p.Thickness.MM > maxPlateMM || next < len(list) && list[next].kind == tokenBad {
		return Plate{}, 0, false
	}
	return p, next, true
}

// maxQuantity bounds a number of pieces that is believed.
const maxQuantity = 100_000

// Quantity reads "QTY 4", "4 REQ'D", "Stk. 4", "4 off", "Menge: 4"; ok is false
// when the text is none, is a hole call-out, speaks of bolts, nuts or washers, names two numbers, or parts the pieces
// into hands ("2 REQ'D AS SHOWN, 2 OPP").
func Quantity(text string) (n int, ok bool) {
	list := tokens(text)
	at := func(k int) token {
		if k < 0 || k >= len(list) {
			return token{kind: tokenSign}
		}
		return list[k]
	}
	for _, t := range list {
		if t.kind == tokenWord && (hasHoleWord(t.text) || isFastenerWord(t.text)) || t.is("Ø") ||
			t.word("opp", "opposite", "oppositehand", "mirror", "mirrored", "lh", "rh", "hand", "handed", "gespiegelt", "spiegelbildlich") {
			return 0, false
		}
	}
	count := func(k int) (int, bool) {
		if t := at(k); t.kind == tokenBad && strings.HasPrefix(t.raw, ".") {
			v, err := strconv.Atoi(t.raw[1:]) // "QTY.4": pieces have no fractions
			return v, err == nil && v > 0
		}
		return at(k).count()
	}
	take := func(k int) bool {
		v, whole := count(k)
		if !whole || v > maxQuantity || ok && v != n {
			return false
		}
		n, ok = v, true
		return true
	}
	used := make([]bool, len(list)+1)
	for i, t := range list {
		if t.kind != tokenWord {
			continue
		}
		// "4 No.", "4 St.": with a number behind, it is a number's sign or a steel.
		short := t.word("no", "st") && at(i+1).kind != tokenNumber && i > 0 && at(i-1).kind == tokenNumber && i <= 1
		if (isQuantityUnit(t.text) || short) && !used[max(i-1, 0)] {
			k := i - 1
			if at(k).is("-") || at(k).is("x") {
				k--
			}
			// The 235 of "S235 PCS 3" is part of a name.
			if _, whole := at(k).count(); whole && !(at(k).glue && at(k-1).kind == tokenWord && !isQuantityKey(at(k-1).text)) {
				if !take(k) {
					return 0, false
				}
				used[k] = true
				continue
			}
		}
		if t.word("q") && at(i+1).word("tà", "ta", "té", "te", "ty") {
			continue // "Q.tà": its second half is the key
		}
		half := t.word("tà", "ta", "té", "te", "ty") && at(i-1).word("q")
		if !isQuantityKey(t.text) && !half && !(t.word("no", "nos", "nr", "n") && at(i+1).word("off", "reqd", "required", "pezzi", "pz")) {
			continue
		}
		k := i + 1
		for at(k).is(":") || at(k).is("=") || at(k).is("-") && (at(k).glue || !at(k+1).glue) || at(k).is("°") || at(k).is("/") || at(k).kind == tokenWord && (isQuantityKey(at(k).text) || at(k).word("off", "vo", "во", "of")) {
			k++
		}
		if _, whole := count(k); whole && !used[k] {
			if !take(k) {
				return 0, false
			}
			used[k] = true
		}
	}
	return n, ok
}
