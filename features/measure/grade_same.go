package measure

import "strings"

// SameGrade tells whether two names are of one steel: its name and its number,
// an old name and the new one, or one name with and without its quality. Names
// that are not known are the same only if they are written alike.
func SameGrade(a, b string) bool {
	a, b = squeeze(a), squeeze(b)
	if a == b {
		return true
	}
	fa, fb := gradeFamily(a), gradeFamily(b)
	return fa != "" && fa == fb
}

func squeeze(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), "")) }

// gradeFamily gives the strength class of a structural steel or the type of a
// stainless one, by name in lower case without spaces; "" not known. Numbers and
// old names: EN 10027-2, EN 10025-2 annex with former designations, EN 10088-1;
// from memory.
func gradeFamily(w string) string {
	w = strings.TrimPrefix(strings.TrimPrefix(w, "astm"), "en")
	if isEuropean(w) {
		if strings.Contains(w[4:], "q") {
			return w[:4] + "q"
		}
		return w[:4]
	}
	switch w {
	case "1.0038", "1.0114", "1.0117", "1.0037", "st37", "st37-2", "st37-3", "rst37-2", "ust37-2", "fe360", "fe360b":
		return "s235"
	case "1.0044", "1.0143", "1.0145", "st44", "st44-2", "fe430", "fe430b":
		return "s275"
	case "1.0045", "1.0553", "1.0577", "1.0570", "1.0596", "st52", "st52-3", "fe510", "fe510b":
		return "s355"
	case "1.0330", "dc01":
		return "dc01"
	case "1.4301":
		return "304"
	case "1.4307":
		return "304l"
	case "1.4401":
		return "316"
	case "1.4404":
		return "316l"
	case "1.4571":
		return "316ti"
	case "1.4541":
		return "321"
	case "1.4016":
		return "430"
	case "1.4462":
		return "2205"
	}
	for _, head := range []string{"aisi", "ss", "type", "stainlesssteel", "stainless", "inox", "sus"} {
		if rest, ok := strings.CutPrefix(w, head); ok && isStainless(rest) {
			return rest
		}
	}
	for _, tail := range []string{"ss", "stainless", "inox"} {
		if rest, ok := strings.CutSuffix(w, tail); ok && isStainless(rest) {
			return rest
		}
	}
	if isStainless(w) {
		return w
	}
	if isASTM(w) {
		return strings.NewReplacer("-", "", "grade", "", "gr.", "", "gr", "", "m", "").Replace(w)
	}
	return ""
}

// strangeName finds, behind a key such as MATERIAL, a name that is written like
// a make of hard plate, letters and a hardness class ("NAME 450"), beside a
// grade that is known. What it means is not known.
func strangeName(fields []gradeField, from, to int) bool {
	if len(fields) == 0 {
		return false
	}
	if !isMaterialKey(strings.ReplaceAll(fields[0].low, "'", "")) {
		_, found := plateName(fields, from, to)
		return found
	}
	class := func(w string) bool { return len(w) == 3 && allDigits(w) && w[0] >= '3' && w[0] <= '7' }
	for i, f := range fields {
		if i == 0 || i >= from && i < to {
			continue
		}
		letters := strings.TrimRight(f.low, "0123456789")
		if len(letters) < 4 || !onlyLetters(letters) || isMaterialKey(letters) || isThickWord(letters) {
			continue
		}
		if plate, _ := isPlateWord(letters); plate {
			continue
		}
		switch letters {
		case "grade", "length", "width", "long", "wide", "section", "item", "type", "class", "cold", "rolled", "spec", "size":
			continue
		}
		rest := f.low[len(letters):]
		if class(rest) || rest == "" && !f.end && i+1 < len(fields) && class(fields[i+1].low) {
			return true
		}
	}
	return false
}

func onlyLetters(w string) bool {
	for _, c := range w {
		if !isLetter(c) {
			return false
		}
	}
	return w != ""
}
