package measure

import "strings"

// plateName finds a name that is written like a make of hard plate, letters and a
// class of hardness, beside a thickness or a grade: "10 THK NAME 450". What the
// name means is not known, and so it must not pass for the mild steel named
// elsewhere. Fields from to to are a grade and passed over. The name or its class
// ends the text, or a comma or a size follows: "NAME 450 x 300" is a size.
func plateName(fields []gradeField, from, to int) (at [2]int, ok bool) {
	for i := range fields {
		if i >= from && i < to {
			continue
		}
		letters := strings.TrimRight(fields[i].low, "0123456789")
		if len(letters) < 3 || !onlyLetters(letters) || isNoPlateName(letters) {
			continue
		}
		rest, last := fields[i].low[len(letters):], i
		if rest == "" && !fields[i].end && i+1 < len(fields) && (i+1 < from || i+1 >= to) {
			rest, last = fields[i+1].low, i+1
		}
		if !isHardnessClass(rest) {
			continue
		}
		if last+1 < len(fields) && !fields[last].end && (last+1 < from || last+1 >= to) {
			// A thickness or its word may follow, a second side must not.
			next := fields[last+1].low
			mm, has := strings.CutSuffix(next, "mm")
			if allDigits(next) && len(next) <= 2 && last+2 < len(fields) && (isThickWord(fields[last+2].low) || fields[last+2].low == "mm") {
				next = "t"
			}
			if !isThickWord(next) && next != "plate" && next != "t" && (!has || !allDigits(mm) || len(mm) > 2) {
				continue
			}
		}
		return [2]int{i, last + 1}, true
	}
	return at, false
}

// isHardnessClass tells the classes that hard plate is sold in, in Brinell (common
// practice, no source).
func isHardnessClass(w string) bool {
	switch w {
	case "400", "425", "450", "500", "550", "600":
		return true
	}
	return false
}

// isNoPlateName tells words that stand before a number of three figures and are no
// name of a plate: of sizes and places, of parts, and of the drawing.
func isNoPlateName(w string) bool {
	if plate, _ := isPlateWord(w); plate || isThickWord(w) || isMaterialKey(w) || hasHoleWord(w) || isDiaWord(w) || isBoltWord(w) || isPlacesWord(w) || isQuantityKey(w) || isQuantityUnit(w) || isOtherThickness(w) || isOtherSize(w) || isOtherThing(w) || isToleranceWord(w) || characteristic(w) != "" {
		return true
	}
	switch w {
	case "length", "len", "long", "width", "wide", "height", "high", "depth", "deep", "size", "blank", "cut", "overall", "radius", "rad", "pitch", "spacing", "centres", "centers", "ctrs", "crs", "gauge", "from", "over", "span", "total", "about", "side", "edge", "face", "with", "and", "for", "the", "max", "min", "approx", "circa", "dim", "area", "weight", "mass", "load", "force",
		"länge", "lang", "breite", "breit", "höhe", "hoch", "radien", "abstand", "teilung", "gesamt", "zuschnitt", "longueur", "largeur", "hauteur", "rayon", "pas", "longitud", "ancho", "altura", "radio", "paso", "lunghezza", "larghezza", "altezza", "raggio", "passo", "lengte", "breedte", "hoogte", "straal", "długość", "szerokość", "délka", "šířka", "длина", "ширина",
		"grade", "type", "class", "spec", "section", "item", "mark", "part", "piece", "cold", "hot", "rolled", "mill", "test", "cert", "drawing", "dwg", "drg", "job", "order", "project", "rev", "revision", "note", "detail", "view", "level", "grid", "line", "axis", "bay", "zone", "room", "floor", "page", "iso", "din", "astm", "aisi", "bs", "asme", "ansi", "jis", "ral", "mpa", "nmm",
		"gusset", "bracket", "beam", "column", "base", "cleat", "cover", "cap", "end", "stiffener", "rib", "clip", "angle", "channel", "frame", "panel", "door", "bar", "strap", "lug", "tread", "wall", "bolster", "splice", "fin", "flange", "web", "tab", "pad", "foot", "post", "rail", "arm", "support", "guard", "box", "tank", "pos":
		return true
	}
	return false
}
