package measure

import "strings"

// LabelKind tells what a label of a title block or the tag of an attribute asks
// for: "thickness", "material", "quantity", "units"; "" none of these. Tags are
// read without regard to case, digits at their end, and the signs _ - . / between
// words: THK, MATL, QTY, MATERIAL, DICKE, EPAISSEUR, SPESSORE, PLATE_THK_1.
func LabelKind(label string) string {
	if len(label) > 60 {
		return ""
	}
	words := strings.FieldsFunc(strings.ToLower(label), func(r rune) bool { return strings.ContainsRune(" _-./:=()[]0123456789'", r) })
	if len(words) == 0 || len(words) > 4 {
		return ""
	}
	joined := strings.Join(words, "")
	switch joined {
	case "t", "s", "ep", "sp", "tl", "gr", "thk", "thkmm", "tmm", "smm", "mthk", "plthk", "platethk", "pthk", "thicknessmm", "platethickness", "sheetthickness", "materialthickness", "matthk", "sheetthk", "blechdickemm", "dickemm", "nominalthickness", "gage", "gauge":
		return "thickness"
	case "matl", "mat", "mtl", "matspec", "material", "materialspec", "materialgrade", "steelgrade", "grade", "spec", "matgrade":
		return "material"
	case "qty", "qtyreqd", "qtyrequired", "nooff", "numberoff", "noreqd", "quantity", "totalqty", "reqd", "off", "pcs":
		return "quantity"
	case "unit", "units", "drawingunits", "einheit", "unité", "unidad", "unidades", "unità", "eenheid":
		return "units"
	}
	if len(words) > 2 {
		return ""
	}
	for _, w := range words {
		switch w {
		case "mm", "in", "no", "nr", "of", "the", "list", "type", "code", "weight", "length", "width", "name", "date":
			continue
		}
		switch {
		case isThickWord(w):
			return "thickness"
		case isMaterialKey(w) && w != "steel" && w != "stahl" && w != "acier" && w != "acero" && w != "acciaio" && w != "staal":
			return "material"
		case isQuantityKey(w) && w != "make":
			return "quantity"
		}
	}
	return ""
}

// TaggedNote writes the value of an attribute or a box of a title block as a note
// that the other functions read: "10" under THK is "t=10". A value that holds more
// than its label asks for stays as it is.
func TaggedNote(label, value string) string {
	value = strings.TrimSpace(value)
	if value == "" || strings.Trim(value, "-–—./ xX?") == "" {
		return ""
	}
	switch LabelKind(label) {
	case "thickness":
		if len(PlateNotes(value)) == 0 {
			if p, ok := PlateNote("t=" + value); ok && (p.Thickness.MM > 0 || p.Gauge > 0) {
				return "t=" + value
			}
		}
	case "material":
		if _, ok := MaterialNote(value); !ok {
			return "MATERIAL: " + value
		}
	case "quantity":
		if _, ok := Quantity(value); !ok {
			return "QTY " + value
		}
	case "units":
		return "UNITS: " + value
	}
	return value
}

// IsGeneralNote tells of a note that gives way to a particular one: "UNLESS
// NOTED", "U.N.O.", "wenn nicht anders angegeben", "sauf indication contraire".
func IsGeneralNote(text string) bool {
	if len(text) > maxNote {
		return false
	}
	low := strings.ToLower(strings.Join(strings.Fields(text), " "))
	for _, phrase := range exceptions() {
		if strings.Contains(low, phrase) {
			return true
		}
	}
	for _, w := range strings.FieldsFunc(low, func(r rune) bool { return !isLetter(r) }) {
		if w == "uno" || w == "uon" {
			return !strings.Contains(low, "uno de") // Spanish and Italian for one
		}
	}
	return false
}

// exceptions are the beginnings of phrases that make a note general.
func exceptions() []string {
	return []string{"unless noted", "unless otherwise", "unless shown", "unless stated", "unless specified", "except as noted", "except where noted", "u.n.o", "uno.", "u.o.n", "u.n.",
		"wenn nicht anders", "falls nicht anders", "soweit nicht anders", "sofern nicht anders", "wo nicht anders", "ohne angabe", "nicht bemaßt", "unbemaßt",
		"sauf indication", "sauf mention", "sauf avis", "sauf spécification", "salvo indica", "salvo diversa", "salvo otra", "salvo que", "salvo disposi", "se non diversamente", "se non altrimenti", "excepto donde", "excepto indica", "exceto onde",
		"tenzij anders", "om ej annat", "om inte annat", "hvis ikke annet", "med mindre andet", "o ile nie", "jeżeli nie", "není-li", "pokud není", "ak nie je", "ako nije", "кроме указан", "если не указано", "кроме оговорен"}
}

// withoutException takes such a phrase out of a text, so that its "not" is not
// taken for the note's.
func withoutException(text string) string {
	low := strings.ToLower(text)
	if len(low) != len(text) {
		return text
	}
	for _, phrase := range exceptions() {
		if i := strings.Index(low, phrase); i >= 0 {
			return text[:i] + text[i+len(phrase):]
		}
	}
	return text
}
