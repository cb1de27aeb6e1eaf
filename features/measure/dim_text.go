package measure

// DimSize is a length in a dimension's text. Step is half of its last digit, or
// half of a thirty-second of an inch for a fraction: how far rounding may have
// moved it. Both are in millimetres if Unit is set, else in the drawing's unit.
type DimSize struct {
	LengthValue
	Step float64
}

// DimNote is what a text typed over a dimension says.
type DimNote struct {
	// Sizes are the readings of the length that is stated, likeliest first:
	// "1,500" may mean 1500 or 1.5. Empty when the text only repeats the measured
	// value, or states no length.
	Sizes     []DimSize
	Measured  bool      // "<>" stands in it for the measured value
	Other     []DimSize // the same length in brackets: "200 [7.87]"
	Count     int       // of "4X 50": that many spaces or places; 0 not stated
	Total     []DimSize // of "4x50=200"
	Pair      []DimSize // the first of "100x10"
	Radius    bool
	Diameter  bool
	About     bool // "~400", "ca. 400"
	Reference bool // "(400)", "400 REF"
	Typical   bool
	Most      bool // "400 MAX"
	Least     bool // "400 MIN"
	// Plus and Minus are the tolerance, both positive, in the unit of the size.
	// HasTolerance tells that one is stated; Minus may be negative when both
	// limits lie above the size.
	Plus, Minus  float64
	HasTolerance bool
	Fit          string // "h9"
	// Open tells that the text leaves the size open: "VARIES", "A", "?".
	Open bool
	// Unread tells that the text holds a number whose meaning is not known.
	Unread bool
}

// maxDimText bounds the length of a dimension's text that is looked at.
const maxDimText = 200

// DimText reads the text typed over a dimension. Words that are no part of a
// size are passed over, numbers that are not understood make the note Unread.
func DimText(text string) DimNote {
	if len(text) > maxDimText {
		return DimNote{}
	}
	list, ok := dimTokens(text)
	if !ok {
		return DimNote{Unread: true}
	}
	var n DimNote
	r := dimReader{note: &n}
	if n.Open = r.open(list); n.Open && len(list) <= 2 {
		return n
	}
	list = r.brackets(list)
	if !r.read(list) {
		return DimNote{Unread: true, Open: n.Open}
	}
	return n
}

// dimReader reads one dimension's text.
type dimReader struct {
	note *DimNote
	main float64 // the size as written; 0 none yet
	has  bool    // a size or <> was met
}

// open tells of a size that is left open: by a word, a question mark, or a
// letter alone that a table explains.
func (r *dimReader) open(list []dimToken) bool {
	words := 0
	for _, t := range list {
		switch {
		case t.word("var", "varies", "variable", "vary", "variabel", "varie", "variiert", "tbc", "tbd", "tba", "suit", "confirm"), t.is("?"):
			return true
		case t.kind == dimWord:
			words++
		case t.kind == dimMeasured:
			return false
		}
	}
	switch len(list) {
	case 1:
		return words == 1 && len([]rune(list[0].text)) == 1
	case 2: // A1, L2
		return words == 1 && list[0].word("a", "b", "c", "l", "h", "w") && list[1].kind == dimValue && list[1].whole && list[1].glue && list[1].value < 10
	}
	return false
}

// brackets reads what stands in brackets and gives the rest. A text that
// stands in brackets as a whole is a reference.
func (r *dimReader) brackets(list []dimToken) []dimToken {
	var rest []dimToken
	var groups [][]dimToken
	for i := 0; i < len(list); i++ {
		if !list[i].is("(", "[") {
			rest = append(rest, list[i])
			continue
		}
		end, depth := i+1, 1
		for ; end < len(list); end++ {
			if list[end].is("(", "[") {
				depth++
			} else if list[end].is(")", "]") {
				if depth--; depth == 0 {
					break
				}
			}
		}
		groups = append(groups, list[i+1:min(end, len(list))])
		i = end
	}
	some := false
	for _, t := range rest {
		some = some || t.sized()
	}
	if !some && len(groups) > 0 {
		// A count, a sign or a word may stand before: "4X (50)", "R(10)".
		r.note.Reference = true
		out := append([]dimToken{}, rest...)
		return append(out, groups[0]...)
	}
	// "4X (50)": the size itself is in brackets.
	if len(rest) >= 2 && rest[len(rest)-1].is("x") && len(groups) > 0 {
		r.note.Reference = true
		out := append([]dimToken{}, rest...)
		return append(out, groups[0]...)
	}
	for _, g := range groups {
		var values []dimToken
		x, equal := false, false
		for _, t := range g {
			switch {
			case t.kind == dimValue:
				values = append(values, t)
			case t.is("x") || t.kind == dimWord && isPlacesWord(t.text):
				x = true
			case t.is("="):
				equal = true
			}
			r.flag(t)
		}
		switch {
		case len(values) != 1:
		case equal:
			r.note.Total = values[0].sizes
		case x && values[0].whole:
			r.note.Count = int(values[0].value)
		case !x:
			r.note.Other = values[0].sizes
		}
	}
	return rest
}

// flag notes what a word or sign alone says.
func (r *dimReader) flag(t dimToken) bool {
	switch {
	case t.is("~", "\u2248", "\u2243", "\u2245"), t.word("ca", "approx", "approximately", "about", "abt", "circa", "env", "environ", "aprox", "ungefähr", "cca", "około", "ок"):
		r.note.About = true
	case t.word("typ", "typical", "typisch", "típico", "tipico", "typique"):
		r.note.Typical = true
	case t.word("ref", "reference", "référence", "referenz", "rif"):
		r.note.Reference = true
	case t.word("max", "maximum", "maxi", "höchstens", "макс"), t.is("\u2264", "<"):
		r.note.Most = true
	case t.word("min", "minimum", "mini", "mindestens", "мин"), t.is("\u2265", ">"):
		r.note.Least = true
	case t.word("r", "rad", "radius", "rayon", "raggio", "radio"), t.word("sr"):
		r.note.Radius = true
	case t.is("Ø"), t.kind == dimWord && isDiaWord(t.text):
		r.note.Diameter = true
	default:
		return false
	}
	return true
}

// beforeSize tells that a number after the word is the length: what else
// stands before numbers, marks and sections and notes, is no length.
func beforeSize(w string) bool {
	switch w {
	case "r", "sr", "l", "b", "h", "w", "d", "a", "e", "lg", "len", "length", "länge", "laenge", "breite", "höhe", "hoehe", "width", "height", "depth", "tiefe", "lang", "long", "longueur", "largeur", "hauteur",
		"lunghezza", "larghezza", "altezza", "longitud", "largo", "ancho", "alto", "altura", "comprimento", "largura", "lengte", "breedte", "hoogte", "délka", "šířka", "výška", "długość", "szerokość", "длина", "ширина",
		"typ", "typical", "ca", "approx", "about", "abt", "circa", "env", "environ", "aprox", "cca", "max", "min", "maximum", "minimum", "ref", "overall", "oa", "cc", "crs", "ctrs", "centres", "centers", "eq", "equal",
		"at", "je", "à", "po", "á", "of", "t", "thk", "s", "slot", "hole", "holes", "pitch", "c", "rad", "radius", "spaces", "spa", "sp", "equals", "is", "total", "all", "both", "sides", "dia", "diam", "diameter", "x":
		return true
	case "plcs", "places", "off", "times":
		return true // "4 PLACES 50"
	}
	var n DimNote
	return (&dimReader{note: &n}).flag(dimToken{kind: dimWord, text: w})
}

// read reads what stands outside brackets; false if a number is not understood.
func (r *dimReader) read(list []dimToken) bool {
	n := r.note
	at := func(k int) dimToken {
		if k < 0 || k >= len(list) {
			return dimToken{kind: dimSign}
		}
		return list[k]
	}
	angle := func(k int) bool { return at(k).is("°") || at(k).word("deg", "degrees", "grad") }
	for i, t := range list {
		if !t.sized() {
			r.flag(t)
			continue
		}
		before := at(i - 1)
		if t.kind == dimValue {
			switch {
			case angle(i + 1):
				continue
			case before.is("±") && r.hasOr(list[:i]):
				n.Plus, n.Minus, n.HasTolerance = t.sizes[0].MM, t.sizes[0].MM, true
				continue
			case before.is("+") && r.hasOr(list[:i]):
				if n.HasTolerance && n.Minus == 0 { // +0.3 +0.1: both above
					n.Minus = -min(t.sizes[0].MM, n.Plus)
					n.Plus = max(t.sizes[0].MM, n.Plus)
					continue
				}
				n.Plus, n.HasTolerance = max(n.Plus, t.sizes[0].MM), true
				continue
			case before.is("-") && r.has:
				if r.main > 0 && t.value > 0.1*r.main && !n.HasTolerance {
					return false // a range, or two sizes
				}
				n.Minus, n.HasTolerance = t.sizes[0].MM, true
				continue
			case r.has && at(i+1).is("/") && at(i+2).kind == dimValue && !n.HasTolerance && (n.Measured || t.value < 0.1*r.main) && at(i+2).value < max(10*t.value, 1):
				n.Plus, n.HasTolerance = t.sizes[0].MM, true // a stack: upper over lower
				continue
			case r.has && before.is("/") && n.HasTolerance && at(i-2).kind == dimValue && n.Minus == 0:
				n.Minus = t.sizes[0].MM
				continue
			case t.value == 0 && r.has:
				n.HasTolerance = true
				continue
			case before.is("/") && r.has && n.HasTolerance:
				continue
			case before.is("/") && at(i-2).kind == dimValue && len(n.Sizes) > 0 && within(t.value, r.main, 0.2):
				r.limits(t)
				continue
			case r.has && before.kind == dimWord && t.glue && t.whole && len([]rune(before.text)) <= 2 && t.value <= 18 && fitWord(before.text) && at(i-2).sized():
				n.Fit = before.text + trimmed(t.value, 0)
				continue
			case t.whole && n.Count == 0 && r.isCount(list, i):
				n.Count = int(min(t.value, 9999))
				continue
			case before.is("=") && r.has:
				n.Total = t.sizes
				continue
			case before.is("x") && at(i-2).sized() && r.has && len(n.Sizes) > 0 && len(n.Pair) == 0:
				n.Pair, n.Sizes = n.Sizes, t.sizes
				continue
			case before.word("m") && before.glue == t.glue || before.is("#"):
				return false // a thread, a number
			case before.kind == dimWord && !beforeSize(before.text) && !before.word("mm", "in") && !r.has:
				return false
			}
		}
		if r.has {
			return false // a second length
		}
		r.has = true
		if t.kind == dimMeasured {
			n.Measured = true
			continue
		}
		n.Sizes, r.main = t.sizes, t.value
		if !(t.value > 0) {
			return false
		}
	}
	return true
}

// hasOr tells that a size came before: a tolerance alone is none.
func (r *dimReader) hasOr(before []dimToken) bool { return r.has && len(before) > 0 }

func within(a, b, share float64) bool { return b > 0 && a > b*(1-share) && a < b*(1+share) }

// limits turns "400.5/399.5" into a size in the middle and its tolerance.
func (r *dimReader) limits(t dimToken) {
	a, b := r.note.Sizes[0], t.sizes[0]
	hi, lo := max(a.MM, b.MM), min(a.MM, b.MM)
	m := a
	m.MM = tidy((hi + lo) / 2)
	r.note.Sizes = []DimSize{m}
	r.note.Plus, r.note.Minus, r.note.HasTolerance = (hi-lo)/2, (hi-lo)/2, true
}

// fitWord tells a letter of a fit of ISO 286.
func fitWord(w string) bool {
	switch w {
	case "d", "e", "f", "g", "h", "js", "j", "k", "m", "n", "p", "r", "s":
		return true
	}
	return false
}

// isCount tells whether the whole number at i is how many, not how long.
func (r *dimReader) isCount(list []dimToken, i int) bool {
	at := func(k int) dimToken {
		if k < 0 || k >= len(list) {
			return dimToken{kind: dimSign}
		}
		return list[k]
	}
	if list[i].value < 1 {
		return false
	}
	k := i + 1
	if at(k).kind == dimWord && isPlacesWord(at(k).text) {
		// "4 PLACES" beside a size, "4 OFF 50"
		return true
	}
	for at(k).word("eq", "equal", "spa", "spaces", "space", "sp", "spcs", "spacings", "bays", "pitches", "felder", "teilungen", "gleiche", "espaces", "interv", "intervalles", "pasos", "passi", "gaps", "eqs", "pos") {
		k++
	}
	if at(k).is("@") || at(k).word("at", "à", "je", "po", "á", "a") || k > i+1 && at(k).is("x") {
		k++
		for at(k).is("Ø") || at(k).kind == dimWord && beforeSize(at(k).text) {
			k++
		}
		return at(k).sized()
	}
	if !at(k).is("x") {
		return false
	}
	k++
	if k >= len(list) {
		return r.has || i == 0 // "R10 4X", or "4X" alone
	}
	for at(k).is("Ø") || at(k).kind == dimWord && beforeSize(at(k).text) || at(k).is("(", "[", "~", "\u2248") {
		k++
	}
	if !at(k).sized() {
		return r.has
	}
	if at(k).kind == dimMeasured {
		return true
	}
	// A chamfer: 2x45°.
	if at(k+1).is("°") || at(k+1).word("deg", "grad") {
		return false
	}
	return true
}
