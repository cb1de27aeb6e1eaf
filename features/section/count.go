package section

// wordBefore gives the word that stands before rune i with nothing but spaces
// between, and where it begins; "" none. It is not looked for before from.
func (s *reader) wordBefore(i, from int) (w string, start int) {
	k := i
	for k > from && s.at(k-1) == ' ' {
		k--
	}
	end := k
	if end > from && s.at(end-1) == '.' {
		end--
	}
	k = end
	for k > from && letter(s.at(k-1)) && end-k < maxWord {
		k--
	}
	if k == end || k > from && letter(s.at(k-1)) {
		return "", i
	}
	return string(s.r[k:end]), k
}

// count reads the number of members before rune i: "2L", "4 - L", "2 No. L",
// "(2) L", "2 x 75x75x8 RSA", not before from. glued tells that nothing stands
// between. A number that names a part ("POS 3") counts nothing, nor does one in
// a longer name ("A-4 L75x75x8").
func (s *reader) count(i, from int) (start, n int, glued bool) {
	k := i
	back := func() {
		for k > from && s.at(k-1) == ' ' {
			k--
		}
	}
	back()
	linked, worded, asked := false, false, false // something between says so; a word does; only after "QTY"
	switch c := s.at(k - 1); {
	case k <= from:
		return 0, 0, false
	case c == '-' || c == '×':
		k--
		linked = true
		if w, at := s.wordBefore(k, from); isPieceWord(w) {
			k, worded = at, true // "2 No. - L75x75x8"
		}
	case c == ':':
		k--
		linked, asked = true, true
	case c == ')':
		k--
		linked = true
	default:
		if w, at := s.wordBefore(k, from); isPieceWord(w) {
			k, linked = at, true
			worded = true
		}
	}
	bracket := linked && s.at(k) == ')'
	back()
	end := k
	for k > from && digit(s.at(k-1)) && end-k < 4 {
		k--
	}
	if k == end || end-k > 3 {
		return 0, 0, false
	}
	n = int(parse(string(s.r[k:end])))
	if bracket {
		if k <= from || s.at(k-1) != '(' {
			return 0, 0, false
		}
		k--
	}
	glued = !linked && end == i
	if k > from {
		switch s.at(k - 1) {
		case ' ', '\n', ',', ';', ':', '(', '[', '=', '+', '&':
		default:
			return 0, 0, false
		}
	}
	w, _ := s.wordBefore(k, from)
	if n == 0 || isPlaceWord(w) || w != "" && !worded && !glued && !bracket && !isBeforeCount(w) || asked && w != "qty" && w != "quantity" {
		return 0, 0, false
	}
	if !linked && !glued {
		// "4 L 80x80x8" at the beginning of a line is a count; after other words
		// the number may be anything.
		b := k
		for b > from && s.at(b-1) == ' ' {
			b--
		}
		if !(b == 0 || b == from || s.at(b-1) == '\n') {
			return 0, 0, false
		}
	}
	return k, n, glued
}

// backToBack tells that the words after a mention set two angles back to back.
func (s *reader) backToBack(i int) bool {
	k := s.spaces(i)
	for n := 0; n < 2; n++ {
		w, next := s.word(k)
		switch w {
		case "btb", "bb":
			return true
		case "b":
			return s.at(next) == '/' && s.at(next+1) == 'b' && !letter(s.at(next+2))
		case "back":
			to, after := s.word(s.spaces(next))
			again, _ := s.word(s.spaces(after))
			return to == "to" && again == "back"
		}
		if !isAfterSizes(w) {
			return false
		}
		k = s.spaces(next)
	}
	return false
}
