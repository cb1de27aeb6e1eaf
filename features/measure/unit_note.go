package measure

import "strings"

// UnitStatement reads a text that says which unit a drawing's dimensions are
// in: "ALL DIMENSIONS IN MM", "Maße in mm", "cotes en mm", "UNITS: INCH"; unit is
// "mm", "cm", "m", "in" or "ft". A text that names two units is none.
func UnitStatement(text string) (unit string, ok bool) {
	if len(text) > maxNote {
		return "", false
	}
	s := newScan(text)
	type word struct {
		text string
		sign bool
	}
	var list []word
	for s.space(); s.i < len(s.r); s.space() {
		if !isLetter(s.peek(0)) {
			list = append(list, word{string(s.peek(0)), true})
			s.i++
			continue
		}
		from := s.i
		for isLetter(s.peek(0)) {
			s.i++
		}
		list = append(list, word{strings.ToLower(string(s.r[from:s.i])), false})
		if s.at('.') {
			s.i++
		}
	}
	for i := range list {
		if list[i].sign || !isDimensionWord(list[i].text) || i > 0 && isOtherSizes(list[i-1].text) {
			continue
		}
		// "dimensions in mm", "dimensions are in millimetres", "units: mm".
		for k := i + 1; k < len(list) && k <= i+6; k++ {
			if t := list[k].text; list[k].sign {
				if t != ":" && t != "=" && t != "(" && t != "[" && t != "/" {
					break
				}
				continue
			}
			u, before := unitWord(list[k].text), list[k-1].text
			if list[k].text == "in" {
				// "in in", "units: in": else it is the word, not the unit.
				if k+1 < len(list) && unitWord(list[k+1].text) != "" || before != ":" && before != "=" && before != "(" && before != "[" && before != "in" {
					u = ""
				}
			}
			if list[k].text == "m" && before != ":" && before != "=" && before != "(" && before != "[" && !isInWord(before) {
				u = "" // "dimension M" is a letter of a table
			}
			if before == "/" && k > 1 && unitWord(list[k-2].text) == "" {
				u = "" // "kg/m"
			}
			if u == "" {
				continue
			}
			if ok && unit != u {
				return "", false
			}
			unit, ok = u, true
			break
		}
	}
	return unit, ok
}

// isInWord tells of "in" as a note on units has it.
func isInWord(w string) bool {
	switch w {
	case "in", "are", "is", "en", "em", "im", "sont", "sind", "son", "i", "w", "v", "u", "в":
		return true
	}
	return false
}

// isOtherSizes tells that the sizes after w are not those of the part.
func isOtherSizes(w string) bool {
	switch w {
	case "weld", "welds", "bolt", "bolts", "thread", "threads", "pipe", "rebar", "site", "level", "levels":
		return true
	}
	return false
}

// isDimensionWord tells of dimensions and units as a drawing's note names them.
func isDimensionWord(w string) bool {
	switch w {
	case "dim", "dims", "dimn", "dimns", "dimension", "dimensions", "dimensioned", "dimensioning", "measurement", "measurements", "unit", "units", "sizes",
		"maße", "masse", "maß", "maßangaben", "abmessungen", "bemaßung", "einheit", "einheiten",
		"cotes", "cote", "cotation", "unité", "unités", "unite", "unites",
		"cotas", "cota", "medidas", "medida", "dimensiones", "acotaciones", "unidades", "unidad", "dimensões", "unidade",
		"quote", "misure", "dimensioni", "unità", "maten", "afmetingen", "eenheid", "mått", "mål", "måttenhet", "wymiary", "rozměry", "kóty", "rozmery", "mjere", "dimenzije", "размеры":
		return true
	}
	return false
}

// unitWord names the unit that a word stands for; "" none.
func unitWord(w string) string {
	switch w {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters", "millimètres", "milimetros", "milímetros", "millimetri", "milimetrech", "milimetrach", "мм":
		return "mm"
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters", "centimètres", "centímetros", "centimetri":
		return "cm"
	case "m", "metre", "metres", "meter", "meters", "mètres", "metros", "metri":
		return "m"
	case "in", "inch", "inches", "zoll", "pouce", "pouces", "pulgadas", "pollici", "duim", "tum", "palce", "cale":
		return "in"
	case "ft", "foot", "feet", "fuß", "pieds", "pies":
		return "ft"
	}
	return ""
}
