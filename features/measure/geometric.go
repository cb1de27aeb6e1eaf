package measure

import "strings"

// GeometricTolerance reads a tolerance of form or place: "FLATNESS 0.5", "TRUE
// POSITION Ø0.2", "POSITION | Ø0.2 | A | B". kind is the name of the characteristic
// in English and small letters; of "position" mm is the width of the zone. The
// characteristics are those of ISO 1101 (table 1, from memory). ok is false where
// no size stands behind the name, or more than one characteristic is named. "+-"
// between them is a tolerance of another sort, see GeneralTolerance.
func GeometricTolerance(text string) (kind string, zone LengthValue, ok bool) {
	list := tokens(text)
	if len(list) > 24 {
		return "", LengthValue{}, false
	}
	for i, t := range list {
		name := ""
		if t.kind == tokenWord {
			name = characteristic(t.text)
		}
		if name == "" {
			continue
		}
		if kind != "" {
			return "", LengthValue{}, false
		}
		for k := i + 1; k < len(list) && k <= i+5; k++ {
			if list[k].kind == tokenNumber {
				// No zone of a plate is wider; more is a place or a number of a list.
				if size := list[k].size; size.MM > 0 && (size.MM <= 5 || size.Unit != "") && !list[k-1].is("x") {
					kind, zone = name, size
				}
				break
			}
			if !list[k].is("Ø") && !list[k].is("|") && !list[k].is(":") && !list[k].is("=") && !list[k].word("tolerance", "tol", "within", "to", "max", "zone", "of", "dia") {
				break
			}
		}
	}
	return kind, zone, kind != ""
}

// beginsGeometric tells of a text that begins with the name of a tolerance of form
// or place and whose diameter is that of its zone, no hole's.
func beginsGeometric(list []token) bool {
	for i, t := range list {
		if t.kind == tokenWord && characteristic(t.text) != "" {
			return i+1 < len(list) && (list[i+1].is("Ø") || list[i+1].kind == tokenNumber || list[i+1].kind == tokenWord && isDiaWord(list[i+1].text))
		}
		if !t.word("true") || i > 0 {
			return false
		}
	}
	return false
}

// characteristic names what a word of a tolerance of form or place means; "" none.
func characteristic(w string) string {
	switch w {
	case "flatness", "ebenheit", "planéité", "planitud", "planarità", "planheid", "vlakheid", "płaskość", "rovinnost", "плоскостность":
		return "flatness"
	case "straightness", "geradheit", "rectitude", "rectitud", "rettilineità":
		return "straightness"
	case "position", "positionstoleranz", "localisation", "posición", "posizione":
		return "position"
	case "perpendicularity", "squareness", "rechtwinkligkeit", "perpendicularité", "perpendicularidad", "perpendicolarità":
		return "perpendicularity"
	case "parallelism", "parallelität", "parallélisme", "paralelismo", "parallelismo":
		return "parallelism"
	case "angularity", "circularity", "roundness", "cylindricity", "concentricity", "coaxiality", "symmetry", "runout":
		return w
	case "profile":
		return "profile"
	}
	return ""
}

// isForm tells of a tolerance that no place of a hole answers to.
func isForm(kind string, _ LengthValue, ok bool) bool { return ok && kind != "position" }

// asksFinish tells of a roughness: "Ra 6.3", "Rz 25", "√ 3.2" (ISO 1302 and ISO
// 21920-1, from memory).
func asksFinish(text string) bool {
	fields := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t\n:=()[]√", r) })
	number := func(w string) bool {
		w = strings.TrimSuffix(strings.TrimSuffix(w, "µm"), "um")
		return w != "" && w[0] >= '0' && w[0] <= '9' && strings.Trim(w, "0123456789.,") == ""
	}
	if strings.Contains(text, "√") && len(fields) > 0 && len(fields) <= 2 && number(fields[0]) {
		return true
	}
	for i, f := range fields {
		low := strings.ToLower(f)
		if low != "ra" && low != "rz" && strings.HasPrefix(low, "r") && len(low) > 2 && (low[1] == 'a' || low[1] == 'z') && number(low[2:]) {
			return true // "Ra6.3"
		}
		if (f == "Ra" || f == "RA" || f == "Rz" || f == "RZ") && i+1 < len(fields) && number(fields[i+1]) {
			return true
		}
	}
	return false
}

// isThroat tells of the size of a fillet weld by itself, throat or leg: "a4", "z6"
// (ISO 2553, from memory). The capital is a sheet of paper or a mark.
func isThroat(text string) bool {
	w := strings.TrimSpace(text)
	if len(w) < 2 || len(w) > 3 || w[0] != 'a' && w[0] != 'z' || w[1] == '0' {
		return false
	}
	return allDigits(w[1:])
}
