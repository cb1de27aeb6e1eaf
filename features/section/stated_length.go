package section

// StatedLength reads a text that is nothing but the length of a given angle:
// "LG=1200", "1200 LG", "L = 1200", "LENGTH 3'-11 1/4". The angle's sizes and
// unit tell what its numbers are in.
func StatedLength(text string, of Mention) (mm float64, ok bool) {
	r := newReader(text)
	first := r.at(r.spaces(0))
	if of.ThicknessMM == 0 || isTimes(first) || !letter(first) && !digitish(first) && first != '(' {
		return 0, false
	}
	of.LengthMM = 0
	end := r.length(&of, 0)
	if of.LengthMM == 0 {
		return 0, false
	}
	for {
		switch c := r.at(r.spaces(end)); c {
		case ')', '.', ',', ';':
			end = r.spaces(end) + 1
		case 0, '±':
			return of.LengthMM, true
		case '+':
			return of.LengthMM, r.at(r.spaces(end)+1) == '/'
		default:
			return 0, false
		}
	}
}

// IsLengthLabel tells whether a text is nothing but a word for the length.
func IsLengthLabel(text string) bool {
	r := newReader(text)
	k := r.spaces(0)
	w, end := r.word(k)
	for n := 0; n < 3 && isAfterSizes(w); n++ { // TOTAL LENGTH
		w, end = r.word(r.spaces(end))
	}
	if !isLengthWord(w) {
		return false
	}
	for c := r.at(end); c == ' ' || c == ':' || c == '=' || c == '.'; c = r.at(end) {
		end++
	}
	return r.at(end) == 0
}
