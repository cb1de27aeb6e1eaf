package section

import "strings"

// Words of the trade, folded as the reader folds them: English, German, Dutch,
// French, Italian, Spanish, Portuguese, Romanian, the Scandinavian languages,
// Finnish, Polish, Czech, Slovak, Slovene, Croatian, Hungarian, Turkish,
// Russian, Chinese, Japanese.

// isAngleWord tells of a word that names an angle before its sizes or after.
func isAngleWord(w string) bool {
	switch w {
	case "angle", "angles", "ang", "rsa", "rsea", "rsua", "msa", "isa", "lnp", "cae", "cai", "ugolok", "уголок", "уголка", "уголки", "уголков", "уг",
		"hoek", "hoeken", "winkel", "vinkel", "kutnik", "kutnici", "kutni", "kotnik", "kotniki", "ugaonik", "kulma", "kosebent", "szogacel", "cornier", "角钢", "角鋼", "等边角钢", "不等边角钢", "等辺山形鋼", "不等辺山形鋼", "山形鋼", "アングル":
		return true
	}
	// Words of which many compounds and endings are in use.
	for _, stem := range []string{"winkelstahl", "winkelprofil", "winkeleisen", "winkelstaal", "corniere", "angolar", "angular", "cantoneira", "hoekstaal", "hoeklijn", "hoekprofiel", "hoekijzer",
		"katownik", "uhelnik", "uholnik", "vinkelstang", "vinkelprofil", "vinkeljarn", "vinkeljern", "vinkelstal", "kulmatera", "kulmarauta", "kulmaprofiil"} {
		if strings.HasPrefix(w, stem) {
			return true
		}
	}
	return false
}

// isLegWord tells of the British words after sizes that say whether the legs
// are equal; "EA" is each, too.
func isLegWord(w string) (equal, unequal bool) {
	switch w {
	case "ea", "rsea":
		return true, false
	case "ua", "rsua":
		return false, true
	}
	return false, false
}

// isAngleFiller tells of a word that may stand between sizes and the word or
// sign of an angle.
func isAngleFiller(w string) bool {
	switch w {
	case "iron", "cleat", "section", "profile", "profil", "profiel", "profilo", "perfil", "bar", "steel", "stahl", "acier", "acero", "aco", "acciaio", "staal", "size", "eq", "equal", "unequal", "leg", "legs", "l", "ls",
		"ms", "mild", "rs", "rolled", "hr", "galv", "galvanised", "galvanized", "hdg", "thk", "thick", "mm", "in", "ad", "de", "en", "aus", "ocelovy", "стальной", "равнополочный", "неравнополочный", "rownoramienny", "nierownoramienny", "a", "ailes", "egales", "inegales", "gleichschenklig", "gleichschenkliger", "ungleichschenklig", "ungleichschenkliger", "lados", "iguales", "desiguales", "lati", "uguali", "disuguali", "abas", "iguais", "double", "twin", "single":
		return true
	}
	return false
}

// isProfileWord tells of a word that may stand between the letter L and sizes.
func isProfileWord(w string) bool {
	switch w {
	case "profil", "profile", "profiel", "profilo", "perfil", "section", "shape", "stahl", "staal", "eisen", "szelveny", "acel", "profiili", "angle":
		return true
	}
	return false
}

// isOtherSection tells of a word before sizes that makes them those of something
// else, so that EA after them is each.
func isOtherSection(w string) bool {
	switch w {
	case "pl", "plt", "plate", "plates", "fl", "flt", "flat", "flats", "fb", "bl", "blech", "sheet", "bar", "bars", "sq", "square", "shs", "rhs", "chs", "hss", "tube", "tubes", "pipe", "box", "ub", "uc", "pfc", "rsc", "rsj", "tee", "block", "pad", "washer", "washers", "packer", "packers", "shim", "shims", "gusset", "gussets", "stiffener", "stiffeners", "channel", "beam", "timber", "post", "slot", "slots", "hole", "holes":
		return true
	}
	return false
}

// isFlatWord tells of a word before the length of a flat piece.
func isFlatWord(w string) bool {
	switch w {
	case "pl", "plt", "plate", "plates", "fl", "flt", "flat", "flats", "fb", "bl", "blech", "bleche", "sheet", "tole", "chapa", "lamiera", "plaat", "blacha", "plech", "лист", "slot", "slots", "hole", "holes", "langloch":
		return true
	}
	return false
}

// isDouble tells of words for two angles back to back.
func isDouble(w string) bool {
	switch w {
	case "double", "twin", "doppelwinkel", "doppel":
		return true
	}
	return false
}

// isPieceWord tells of a word between a number of pieces and what they are.
func isPieceWord(w string) bool {
	switch w {
	case "no", "nos", "off", "ea", "pc", "pcs", "pce", "pieces", "piece", "stk", "stck", "stuck", "st", "x", "szt", "ks", "kom", "шт", "pz", "pezzi", "pzas", "uds", "stuks", "each", "qty", "mal":
		return true
	}
	return false
}

// isBeforeCount tells of a word that may stand before a number of pieces; after
// others ("PL 10 - L75x75x8") the number is theirs.
func isBeforeCount(w string) bool {
	switch w {
	case "qty", "with", "w", "and", "use", "of", "from", "to", "for", "und", "mit", "aus", "et", "avec", "con", "e", "y", "met", "en", "fab", "make":
		return true
	}
	return false
}

// isPlaceWord tells that the number after it names a thing and counts nothing.
func isPlaceWord(w string) bool {
	switch w {
	case "pos", "item", "mark", "mk", "part", "pt", "piece", "detail", "det", "note", "nr", "teil", "rep", "section", "member", "line", "rev", "поз", "pozycja", "poz":
		return true
	}
	return false
}

// isLengthWord tells of a word for the length, before it or after it.
func isLengthWord(w string) bool {
	switch w {
	case "lg", "lng", "long", "lang", "length", "lgth", "lth", "len", "lange", "laenge", "longueur", "longitud", "lunghezza", "comprimento", "comp", "lengte", "langd", "laengde", "lengde", "dlugosc", "dlugi", "dl", "delka", "dlzka", "duljina", "dolzina", "hossz", "pituus", "длина", "дл":
		return true
	}
	return false
}

// isAfterSizes tells of a word that may stand between sizes and the length.
func isAfterSizes(w string) bool {
	switch w {
	case "gr", "grade", "astm", "en", "ms", "galv", "galvanised", "galvanized", "hdg", "steel", "llv", "llh", "slv", "llbb", "slbb", "thk", "thick", "rsa", "ea", "ua", "angle", "angles", "mm", "in", "cleat", "cut", "to", "total", "overall", "oa":
		return true
	}
	return false
}

// isNotLength tells that a number before it counts pieces or states something
// else than the length.
func isNotLength(w string) bool {
	switch w {
	case "no", "nos", "off", "pc", "pcs", "reqd", "req", "required", "stk", "stuck", "szt", "ks", "шт", "places", "plcs", "thk", "thick", "crs", "ctrs", "cts", "wide", "high", "deep", "dia", "kg", "lbs", "lb", "bolts", "holes", "hole", "deg", "ea", "each", "way":
		return true
	}
	return false
}

// isNorm tells of a word before the number of a standard: "EN 10056-1".
func isNorm(w string) bool {
	switch w {
	case "en", "din", "astm", "is", "bs", "iso", "uni", "nf", "pn", "csn", "nbr", "jis", "gost", "гост":
		return true
	}
	return false
}

// isThickness tells of a word before or after the thickness.
func isThickness(w string) bool {
	switch w {
	case "t", "thk", "thick", "thickness", "ep", "epaisseur", "dicke", "dick", "sp", "spess", "spessore", "esp", "espesor", "espessura", "dik", "dikte", "gr", "grubosc", "tl", "толщина", "s":
		return true
	}
	return false
}

// isGrade tells of a token of letters and digits that names a steel: S275JR,
// A36, Q235B, St37-2.
func isGrade(letters string) bool {
	switch letters {
	case "s", "a", "q", "st", "rst", "ust", "fe", "e", "ss", "sm", "c", "en", "ст":
		return true
	}
	return false
}
