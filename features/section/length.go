package section

// length reads the length of the members after the sizes, from rune i: "x
// 1200", "- 1250 LG", "L=1250", "x 1'-6", past the name of the steel. It gives
// the end of what was read, i if there is none.
func (s *reader) length(m *Mention, i int) (end int) {
	if m.LengthMM > 0 {
		return i
	}
	if m.ThicknessMM == 0 {
		i = s.thickness(m, i)
	}
	k := s.spaces(i)
	lines := 0
	for n := 0; n < 7; n++ {
		if s.at(k) == '\n' && lines == 0 {
			lines++
			k = s.spaces(k + 1)
			continue
		}
		dash := false
		switch c := s.at(k); {
		case isTimes(c) && !letter(s.at(k+1)):
			z, ok := s.long(s.spaces(k+1), m)
			if ok && lines == 0 && !s.isOther(z.end) && s.setLength(m, z) {
				return s.pastLong(z.end)
			}
			return i
		case c == ',' || c == ';' || c == '(' || c == ')' || c == '-' || c == '.':
			dash = c == '-' && s.at(k-1) == ' ' && s.at(k+1) == ' ' || c == ','
			k = s.spaces(k + 1)
			if !dash || !digitish(s.at(k)) {
				continue
			}
			fallthrough
		case digitish(c):
			z, ok := s.long(k, m)
			if !ok {
				return i
			}
			w, _ := s.word(s.spaces(z.end))
			bare := dash && lines == 0 && (z.unit == "ft" || s.at(k-2) == '-' && s.ends(z.end) && isLong(z, m))
			if (isLengthWord(w) || bare) && s.setLength(m, z) {
				return s.pastLong(z.end)
			}
			return i
		case letter(c):
			w, next := s.word(k)
			if w == "l" || isLengthWord(w) {
				after := s.spaces(next)
				if c := s.at(after); c == '=' || c == ':' || c == '.' {
					after = s.spaces(after + 1)
				}
				z, ok := s.long(after, m)
				if !ok || isTimes(s.at(s.spaces(z.end))) || s.isOther(z.end) || !s.setLength(m, z) {
					return i
				}
				return z.end
			}
			switch {
			case digit(s.at(next)) && isGrade(w), (w == "gr" || w == "grade" || isNorm(w)) && digit(s.at(s.spaces(next))):
				next = s.spaces(next)
				for letter(s.at(next)) || digit(s.at(next)) || s.at(next) == '+' || s.at(next) == '-' && digit(s.at(next+1)) {
					next++
				}
			case isAfterSizes(w), isNorm(w):
			default:
				return i
			}
			k = s.spaces(next)
		default:
			return i
		}
	}
	return i
}

// thickness reads the thickness that follows two legs: "L75x75 t=8", "THK 8",
// "- 8 THK". It gives the end of what was read, i if there is none.
func (s *reader) thickness(m *Mention, i int) (end int) {
	k := s.spaces(i)
	if c := s.at(k); c == ',' || c == '-' {
		k = s.spaces(k + 1)
	}
	w, next := s.word(k)
	named := isThickness(w)
	if named {
		k = s.spaces(next)
		if c := s.at(k); c == '=' || c == ':' || c == '.' {
			k = s.spaces(k + 1)
		}
	}
	z, ok := s.number(k)
	if !ok || isTimes(s.at(s.spaces(z.end))) {
		return i
	}
	if w, next := s.word(s.spaces(z.end)); !named && isThickness(w) && len(w) > 1 {
		named, z.end = true, next
	}
	n := *m
	switch {
	case z.unit != "" || z.fraction:
		n.Unit = "mm"
		if inchLike(m) {
			n.Unit = "in"
		}
		if m.Unit == "" {
			n = n.scaled(mmPer(n.Unit))
		}
		if z.fraction && z.unit == "" {
			z.unit = "in"
		}
		n.ThicknessMM, n.Fraction = z.mm(), m.Fraction || z.inches()
	case m.Unit == "in":
		n.ThicknessMM = tidy(z.v * mmPerInch)
	default:
		n.ThicknessMM = z.v
	}
	if !named || !isAngle(n, 2, signed{}) {
		return i
	}
	*m = n
	return z.end
}

// long reads a length at i: feet and inches, a number with a point or comma
// before thousands, a number with its unit. Beside sizes in inches "1-6" is a
// foot and six inches, as American detail drawings write it.
func (s *reader) long(i int, m *Mention) (z size, ok bool) {
	if v, end := s.thousands(i); end > 0 && !inchLike(m) {
		z = s.unit(size{v: v, whole: true, at: i, end: end})
		if z.unit != "m" {
			return z, true
		}
	}
	z, ok = s.number(i)
	if !ok {
		return size{}, false
	}
	feet := z.unit == "ft"
	if !feet && z.whole && z.unit == "" && s.at(z.end) == '-' && digit(s.at(z.end+1)) && inchLike(m) {
		feet = true
		z.unit = "ft"
	}
	if !feet {
		return z, true
	}
	k := s.spaces(z.end)
	if s.at(k) == '-' {
		k = s.spaces(k + 1)
	}
	if in, is := s.number(k); is && (in.unit == "" || in.unit == "in") {
		if in.v >= 12 {
			return size{}, false // no feet and inches
		}
		z.v, z.end = z.v+in.v/12, in.end
		z.whole = false
	}
	return z, true
}

// inchLike tells of sizes that are inches, or can be nothing else.
func inchLike(m *Mention) bool {
	return m.Unit == "in" || m.Unit == "" && max(m.LegMM[0], m.LegMM[1]) <= 14
}

// thousands reads "1,250" and "1.250", which beside sizes in millimetres are a
// thousand and more.
func (s *reader) thousands(i int) (v float64, end int) {
	d, next := s.digits(i)
	if d == "" || len(d) > 3 || d[0] == '0' || s.at(next) != ',' && s.at(next) != '.' {
		return 0, 0
	}
	d2, end := s.digits(next + 1)
	if len(d2) != 3 {
		return 0, 0
	}
	return parse(d + d2), end
}

// isOther tells that what stands after a number makes it no length.
func (s *reader) isOther(i int) bool {
	if c := s.at(i); c == '°' || c == '%' || c == '/' {
		return true
	}
	w, _ := s.word(s.spaces(i))
	return isNotLength(w)
}

// ends tells that nothing more stands in the line.
func (s *reader) ends(i int) bool {
	c := s.at(s.spaces(i))
	return c == 0 || c == '\n'
}

// isLong tells whether a number that nothing calls a length is long enough to be
// one: twice the leg.
func isLong(z size, m *Mention) bool {
	return z.v >= 2*max(m.LegMM[0], m.LegMM[1]) || z.unit != ""
}

// pastLong gives the place after "LG" or "LONG".
func (s *reader) pastLong(i int) int {
	if w, next := s.word(s.spaces(i)); isLengthWord(w) {
		if s.at(next-1) == '.' {
			next--
		}
		return next
	}
	return i
}

// setLength sets the length, in the mention's unit. Where only the length
// tells a unit, the sizes are inches if no angle has them in millimetres, else
// millimetres. What is less than the thickness or a quarter of the leg is no
// length and ok is false.
func (s *reader) setLength(m *Mention, z size) (ok bool) {
	n := *m
	if n.Unit == "" && (z.unit != "" || z.fraction) {
		n.Unit = "mm"
		if inchLike(m) {
			n.Unit = "in"
			n = n.scaled(mmPerInch)
		}
	}
	switch {
	case z.unit != "":
		n.LengthMM = z.mm()
	case n.Unit == "in":
		n.LengthMM = tidy(z.v * mmPerInch)
	default:
		n.LengthMM = z.v
	}
	if !(n.LengthMM > max(n.ThicknessMM, min(n.LegMM[0], n.LegMM[1])/4)) {
		return false
	}
	*m = n
	return true
}
