package section

import "math"

// Mention is an angle that a text names. The zero value is none.
type Mention struct {
	Text        string     // the words that name it, with count and length: a piece of the text
	LegMM       [2]float64 // in the order written; equal when one is written ("L50x5")
	ThicknessMM float64    // 0 not written ("ANGLE 75x75")
	LengthMM    float64    // 0 not written, or not understood
	Count       int        // members written before it: 2 for "2L", 4 for "4 - L"; 0 not written
	Double      bool       // two angles back to back: "2L75x75x8" in one word, "DOUBLE ANGLE"
	// Unit is "mm" or "in" as the text tells by a unit, an inch mark or a
	// fraction. "" it tells none: all lengths here are then bare numbers in the
	// drawing's unit, and In settles them.
	Unit     string
	Fraction bool   // written with a fraction of an inch or an inch mark
	Listed   string // name of the listed angle that it is, within rounding; "" none
}

// Mentions reads the angles that a text names, in the order written. An angle
// is named by a sign before its sizes (L, a drawn angle, ANGLE and its like in
// other languages) or a word after them (75x75x8 RSA). Sizes alone are none,
// and a sign with a single number is none: "L=1200", "L 1200", "L2". Sizes are
// parted by a multiplication sign or, for whole millimetres, by a stroke:
// "L75/75/8"; never by dashes, as drawing numbers are: "L-75-75-8". Sizes that
// no angle has, such as those of a plate after L for its length, are none; after
// the bare letter two numbers ("L50x5") must be a listed angle. An angle of
// three plausible sizes that is not listed is given with Listed "": a folded
// one, or one of another standard. Pieces written after it ("4 OFF") are not read.
func Mentions(text string) []Mention {
	if !mayName(text) {
		return nil
	}
	r := newReader(text)
	var list []Mention
	for i, from := 0, 0; i < len(r.r); {
		m, end, ok := r.mention(i, from)
		if !ok {
			i++
			continue
		}
		list = append(list, m)
		i, from = end, end
	}
	return list
}

// mayName tells whether a text can name an angle at all: it has figures and a
// sign between sizes. Most texts of a drawing do not.
func mayName(text string) bool {
	figures, between := false, false
	for i := range len(text) {
		switch c := text[i]; {
		case c >= 0x80:
			return true
		case digit(rune(c)):
			figures = true
		case c == 'x' || c == 'X' || c == '*' || c == '/':
			between = true
		}
	}
	return figures && between
}

// In gives the mention with all lengths in millimetres for a drawing in the
// given unit ("mm", "cm", "m", "in", "ft"; any other is "mm"), and Unit set to
// "in" or "mm". A mention that tells its unit is not changed. Sizes that no
// angle has in the drawing's unit, as 75 in or 3 mm, are read as the millimetres
// or inches that make an angle of them; if neither does, as the drawing's unit.
func (m Mention) In(unit string) Mention {
	if m.Unit != "" {
		return m
	}
	var best string
	for _, u := range []string{unit, "mm", "in"} {
		if listedName(m.scaled(mmPer(u))) != "" {
			best = u
			break
		}
	}
	for _, u := range []string{unit, "mm", "in"} {
		if best == "" && isSection(m.scaled(mmPer(u))) {
			best = u
		}
	}
	if best == "" {
		best = unit
	}
	m = m.scaled(mmPer(best))
	m.Unit = "mm"
	if best == "in" || best == "ft" {
		m.Unit = "in"
	}
	return m
}

func (m Mention) scaled(f float64) Mention {
	m.LegMM[0], m.LegMM[1] = tidy(m.LegMM[0]*f), tidy(m.LegMM[1]*f)
	m.ThicknessMM, m.LengthMM = tidy(m.ThicknessMM*f), tidy(m.LengthMM*f)
	return m
}

// mmPer gives the millimetres of a unit.
func mmPer(unit string) float64 {
	switch unit {
	case "cm":
		return 10
	case "m":
		return 1000
	case "in":
		return mmPerInch
	case "ft":
		return 12 * mmPerInch
	}
	return 1
}

// isSection tells whether the sizes in mm, or some of them, are those of an
// angle, rolled or folded; see isAngle.
func isSection(m Mention) bool {
	long, short := max(m.LegMM[0], m.LegMM[1]), min(m.LegMM[0], m.LegMM[1])
	if short < leastLegMM || long > mostLegMM {
		return false
	}
	return m.ThicknessMM == 0 || m.ThicknessMM >= leastThickMM && m.ThicknessMM <= mostThick*short
}

// listedName names the listed angle of the sizes in mm: that of exactly these
// sizes, else one whose sizes round to them, as American angles are written in
// millimetres: L76x76x6.4 is L3X3X1/4.
func listedName(m Mention) string {
	if m.ThicknessMM == 0 {
		return ""
	}
	if list := Find(m.LegMM[0], m.LegMM[1], m.ThicknessMM, 0.02); len(list) > 0 {
		return list[0].Name
	}
	// Legs are rounded to whole millimetres, thicknesses to tenths; three
	// decimals of an inch are off by 0.013 mm.
	for _, a := range Find(m.LegMM[0], m.LegMM[1], m.ThicknessMM, 0.51) {
		if math.Abs(a.ThicknessMM-m.ThicknessMM) <= 0.06 && a.Units == "in" {
			return a.Name
		}
	}
	return ""
}

// listed names the listed angle of a mention, whatever its unit.
func listed(m Mention) string {
	if m.Unit != "" {
		return listedName(m)
	}
	if name := listedName(m); name != "" {
		return name
	}
	return listedName(m.scaled(mmPerInch))
}
