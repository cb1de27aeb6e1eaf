package measure

import "strings"

// GeneralTolerance reads a note on the tolerance of all sizes that carry none of
// their own: "TOLERANCES ±0.5", "UNLESS NOTED TOL. +/-1/16\"", "ISO 2768-f"; tol is
// plus or minus. Of ISO 2768 only the fine class is read, as the ±0.1 that it
// asks of sizes from 6 to 30 mm (ISO 2768-1 table 1, class f); the medium one and
// wider are what a shop keeps without being told. A note that names more than one
// tolerance, as one for each number of decimals does, is not read.
func GeneralTolerance(text string) (tol LengthValue, ok bool) {
	list := tokens(text)
	named, placed, found := false, false, 0
	for i, t := range list {
		at := func(k int) token {
			if k < 0 || k >= len(list) {
				return token{kind: tokenSign}
			}
			return list[k]
		}
		if t.kind == tokenWord && isToleranceWord(t.text) {
			named = true
		}
		placed = placed || t.word("position", "positions", "location", "locations", "pitch", "spacing", "lage", "lochbild", "lochabstand", "entraxe", "entraxes", "posición", "posizione", "posição", "plaats")
		if t.word("iso") && at(i+1).kind == tokenNumber && at(i+1).num.value == 2768 {
			for k := i + 2; k <= i+4; k++ {
				if at(k).kind == tokenWord && (at(k).text == "f" || strings.HasPrefix(at(k).text, "f") && len(at(k).text) == 2) {
					return LengthValue{MM: 0.1, Unit: "mm"}, true
				}
			}
		}
		plus := t.is("±")
		k := i + 1
		if t.is("+") && at(k).is("/") {
			k++
		}
		if !plus && t.is("+") && at(k).is("-") {
			plus, k = true, k+1
		}
		if plus && at(k).kind == tokenNumber && !at(k+1).is("°") && !at(k+1).word("deg", "degrees", "grad") {
			tol = at(k).size
			found++
		}
	}
	if !named && !placed || found != 1 || !(tol.MM > 0) {
		return LengthValue{}, false
	}
	for _, t := range list {
		if !placed && t.kind == tokenWord && (hasHoleWord(t.text) || isDiaWord(t.text)) || t.is("Ø") {
			return LengthValue{}, false // of the holes: a call-out or none
		}
	}
	return tol, true
}

func isToleranceWord(w string) bool {
	switch w {
	case "tol", "tols", "tolerance", "tolerances", "toleranz", "toleranzen", "allgemeintoleranz", "allgemeintoleranzen", "tolérance", "tolérances", "tolerancia", "tolerancias", "tolleranza", "tolleranze", "tolerância", "tolerantie", "toleranties", "tolerans", "tolerancja", "tolerancje", "допуск", "допуски":
		return true
	}
	return false
}
