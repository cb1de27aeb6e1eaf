package measure

import (
	"math"
	"strconv"
	"strings"
)

// HoleCall is a hole call-out. A length without a unit in the text has Unit ""
// and stands in the drawing's unit; a fraction of halves to 64ths is in inches.
type HoleCall struct {
	Count     int // 0 not stated
	Diameter  LengthValue
	Process   string         // "", "drill", "ream", "tap", "countersink", "counterbore", "punch"
	Seat      LengthValue    // of a countersink or counterbore
	Bolt      string         // "M20" or "3/4" when the call-out names a bolt or thread
	Slot      [2]LengthValue // width and overall length of a slot call-out
	Fit       string         // "H7"
	Tolerance float64        // plus or minus, mm if Diameter has a unit, else in the drawing's unit; half the band of +0.2/-0; 0 not stated
	// Alt is the other reading of "4-13/16 DIA HOLES": no count, and holes of
	// this size. Zero when the text can be read in one way only.
	Alt LengthValue
}

// HoleCallOut reads "4 HOLES 13/16 DIA", "6x Ø22", "Ø22 (4)", "(6) 13/16\" HOLES",
// "4-Ø14 DRILL", "M12 TAP", "SLOT 22x50", and the same in other languages; ok is
// false when the text is none, or holds more than one.
func HoleCallOut(text string) (call HoleCall, ok bool) {
	calls := HoleCallOuts(text)
	if len(calls) != 1 {
		return HoleCall{}, false
	}
	return calls[0], true
}

// HoleCallOuts reads a text that may hold several call-outs: one a line, or
// parted by semicolons, or by commas, & and "and" where the parts make sense
// alone.
func HoleCallOuts(text string) []HoleCall {
	list := tokens(text)
	if beginsGeometric(list) {
		return nil
	}
	if c, one, ok := readCall(list); ok && one {
		return []HoleCall{c}
	}
	var calls []HoleCall
	for _, part := range split(list, func(t, before token) bool { return t.is(";") || t.line != before.line }) {
		c, one, ok := readCall(part)
		if ok && one {
			calls = append(calls, c)
		}
		if !ok || one {
			continue
		}
		for _, p := range split(part, func(t, _ token) bool { return t.is(",") || t.is("&") || t.word("and", "und", "et", "y", "e") }) {
			c, one, ok := readCall(p)
			if !ok || !one {
				calls = nil // a part without sense: the rest cannot be trusted
				break
			}
			calls = append(calls, c)
		}
	}
	return calls
}

// split cuts a list at the tokens where at is true. Signs and words that part
// are dropped; a token on a new line begins the next part.
func split(list []token, at func(t, before token) bool) [][]token {
	var parts [][]token
	start := 0
	for i := range list {
		if i == 0 || !at(list[i], list[i-1]) {
			continue
		}
		parts = append(parts, list[start:i])
		start = i
		if list[i].line == list[i-1].line || list[i].is(";") {
			start++
		}
	}
	return append(parts, list[min(start, len(list)):])
}

// caller is a call-out in the making; used marks the tokens whose meaning is known.
type caller struct {
	list                            []token
	used                            []bool
	call                            HoleCall
	hole, holes, bolt, named, pitch bool
	drill                           bool
	diameters                       int
}

// readCall reads one call-out. one is false when there is more than one
// diameter that could be meant.
func readCall(list []token) (call HoleCall, one, ok bool) {
	list = joinSinks(list)
	c := &caller{list: list, used: make([]bool, len(list))}
	c.words()
	for _, t := range list {
		if t.kind == tokenBad || t.kind == tokenWord && isStockWord(t.text) && !c.hole {
			return HoleCall{}, false, false
		}
	}
	c.drop()
	c.thread()
	c.tolerance()
	c.seat()
	c.slot()
	c.marked()
	c.counts()
	c.bare()
	for i := range list {
		// "Ø14 OR 18": a second size without its sign
		if c.free(i) && (c.at(i-1).is("&") || c.at(i-1).word("and", "or", "und", "oder", "et", "ou", "o")) {
			c.diameters = 2
		}
	}
	if c.diameters > 1 {
		return c.call, false, true
	}
	switch {
	case c.call.Slot[0].MM > 0, c.call.Diameter.MM > 0, c.call.Seat.MM > 0:
	case c.call.Bolt != "" && (!c.bolt || c.hole || c.named):
	default:
		return HoleCall{}, false, false
	}
	return c.call, true, true
}

// joinSinks makes one word of "C/SUNK", "C-BORE", "COUNTER SINK" and the like.
func joinSinks(list []token) []token {
	var out []token
	for i := 0; i < len(list); i++ {
		t := list[i]
		k := i + 1
		if k < len(list) && (list[k].is("/") || list[k].is("-")) {
			k++
		}
		if t.word("c", "counter", "ctr") && k < len(list) && list[k].word("sunk", "sink", "sk", "bore", "bored", "sinking", "boring") {
			head := "c"
			if strings.HasSuffix(list[k].text, "ing") {
				head = "counter"
			}
			t.text = head + list[k].text
			t.raw += list[k].raw
			i = k
		}
		out = append(out, t)
	}
	return out
}

func (c *caller) at(i int) token {
	if i < 0 || i >= len(c.list) {
		return token{kind: tokenSign}
	}
	return c.list[i]
}

func (c *caller) free(i int) bool {
	return i >= 0 && i < len(c.list) && c.list[i].kind == tokenNumber && !c.used[i] && c.list[i].size.MM > 0
}

// words reads what the words alone tell. The stronger process wins: a tapped
// hole is drilled too.
func (c *caller) words() {
	rank := func(p string) int {
		for i, q := range []string{"", "punch", "drill", "ream", "counterbore", "countersink", "tap"} {
			if p == q {
				return i
			}
		}
		panic("measure: unknown process")
	}
	for i, t := range c.list {
		switch t.text {
		case "\u2334": // counterbore sign of ISO 129 and ASME Y14.5
			c.call.Process = "counterbore"
		case "\u2335": // countersink sign
			c.call.Process = "countersink"
		}
		if t.kind != tokenWord {
			continue
		}
		hole, plural := isHoleWord(t.text)
		c.hole = c.hole || hole
		c.holes = c.holes || plural
		c.bolt = c.bolt || isBoltWord(t.text)
		if t.word("for", "für", "pour", "para", "per") {
			c.named = true
		}
		c.drill = c.drill || processOf(t.text) == "drill"
		if p := processOf(t.text); rank(p) > rank(c.call.Process) {
			// "REAM" after "H7" and the like; a C alone is no word.
			if len(t.text) > 1 || i == 0 {
				c.call.Process = p
			}
		}
	}
}

// drop marks the numbers that are no diameter: depths, angles, radii, pitches,
// pitch circles, outside diameters, lengths after a dash of a standard.
func (c *caller) drop() {
	for i, t := range c.list {
		if t.kind != tokenNumber {
			continue
		}
		before, after := c.at(i-1), c.at(i+1)
		circle := func(k int) bool {
			t := c.at(k)
			if t.word("pcd", "bcd", "bc", "lk", "lkr", "teilkreis", "lochkreis", "tk") {
				return true
			}
			return t.word("bolt", "pitch", "hole") && c.at(k+1).word("circle")
		}
		signed := i - 1
		if before.is("Ø") {
			signed = i - 2
		}
		next := i + 1
		if after.is("Ø") || after.kind == tokenWord && isDiaWord(after.text) {
			next = i + 2
		}
		switch {
		case after.is("°"), after.word("deg", "degrees", "grad"),
			before.word("r", "rad", "radius", "rayon") && (before.glue || t.glue || before.text != "r"),
			before.is("@"), before.word("at", "pitch", "spaced", "ctrs", "crs", "deep", "depth", "tief", "prof", "rev", "note", "item", "pos", "detail", "sheet", "grade", "gr", "class", "no"),
			before.is("\u21a7"), // depth sign
			before.is("#"),
			after.word("deep", "tief", "depth", "ctrs", "crs", "pitch", "centres", "centers"),
			circle(next), circle(signed) && !c.at(signed).word("hole"),
			c.at(next).word("od", "id", "pipe", "tube"):
			c.used[i] = true
		}
	}
}

// thread reads M12, M12x1.75, 1/2-13 UNC, and what stands before "bolt".
func (c *caller) thread() {
	for i, t := range c.list {
		switch {
		case c.metricThread(i):
			if c.call.Bolt != "" {
				continue
			}
			c.call.Bolt = "M" + trimmed(c.at(i+1).num.value, 2)
			c.used[i+1] = true
			if !c.at(i+2).is("x") || !c.free(i+3) {
				continue
			}
			// A pitch is at most 6 mm (ISO 261); more is the length of a bolt.
			if c.at(i+3).num.value <= 6 && !c.at(i+3).num.fraction {
				c.used[i+3], c.pitch = true, true
			} else if !c.hole {
				c.bolt = true
			}
		case t.word("unc", "unf", "un", "bsw", "whit", "whitworth", "bsf"):
			if c.free(i-1) && c.at(i-1).num.whole {
				c.used[i-1] = true // threads an inch
				k := i - 2
				if c.at(k).is("-") {
					k--
				}
				if c.free(k) {
					c.used[k] = true
					c.call.Bolt, c.pitch = boltName(c.at(k)), true
				}
			} else if c.free(i - 1) {
				c.used[i-1] = true
				c.call.Bolt, c.pitch = boltName(c.at(i-1)), true
			}
		case t.kind == tokenWord && processOf(t.text) == "tap" && c.call.Bolt == "" && c.free(i-1) && c.at(i-1).num.whole && c.at(i-2).is("-") && c.free(i-3) && c.at(i-3).num.fraction:
			c.used[i-1], c.used[i-3] = true, true // "3/8-16 TAP"
			c.call.Bolt, c.pitch = boltName(c.at(i-3)), true
		case t.kind == tokenWord && isBoltWord(t.text):
			k := i - 1
			for {
				if c.at(k).kind == tokenNumber && c.at(k).glue && c.at(k-1).word("a", "f") {
					k -= 2 // A325, F1852
				} else if c.at(k).kind == tokenWord && (isDiaWord(c.at(k).text) || c.at(k).word("hs", "hd", "high", "strength", "structural")) || c.at(k).is("Ø") {
					k--
				} else {
					break
				}
			}
			if c.call.Bolt == "" && c.free(k) && (c.at(k).size.Unit != "" || k < i-1) {
				c.used[k] = true
				c.call.Bolt = boltName(c.at(k))
			}
		}
	}
	if c.pitch && (c.call.Process == "" || c.call.Process == "drill") {
		c.call.Process = "tap"
	}
}

// metricThread tells whether a capital M stands at i with a size of ISO 262 glued
// to it: M12, and neither kg/m2 nor the mark M92.
func (c *caller) metricThread(i int) bool {
	t, size := c.at(i), c.at(i+1)
	if t.kind != tokenWord || t.raw != "M" && t.raw != "\u041c" || c.at(i-1).is("/") || t.glue && c.at(i-1).kind != tokenSign {
		return false
	}
	if !c.free(i+1) || !size.glue || size.size.Unit != "" || size.num.fraction {
		return false
	}
	switch size.num.value {
	case 3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 42, 45, 48, 52, 56, 60, 64, 72, 80, 90, 100:
		return true
	}
	return false
}

// boltName writes a bolt size as bolts are named: M16, 3/4, 1-1/8.
func boltName(t token) string {
	if t.size.Unit == "mm" {
		return "M" + trimmed(t.size.MM, 2)
	}
	if t.size.Unit == "in" {
		return strings.TrimSuffix(FormatLength(t.size.MM, "in"), " in")
	}
	return trimmed(t.num.value, 4)
}

// reamedGrade is the widest grade of tolerance (ISO 286) that is reamed: the
// 0.043 mm of IT9 at Ø14 are less than a punched or drilled hole varies by
// (common practice, no source).
const reamedGrade = 9

// tolerance reads "±0.1", "+-0.1", "+/-0.1", "+0.2 -0", "+0.2/0" and a fit such as H7.
func (c *caller) tolerance() {
	for i, t := range c.list {
		switch {
		case t.is("±") && i+1 < len(c.list) && c.at(i+1).kind == tokenNumber:
			c.used[i+1] = true
			c.call.Tolerance = c.at(i + 1).size.MM
		case t.is("+") && c.at(i+1).is("/") && c.at(i+2).is("-") && c.at(i+3).kind == tokenNumber:
			c.used[i+3] = true
			c.call.Tolerance = c.at(i + 3).size.MM
		case t.is("+") && c.at(i+1).is("-") && c.at(i+2).kind == tokenNumber:
			c.used[i+2] = true
			c.call.Tolerance = c.at(i + 2).size.MM
		case t.is("+") && i > 0 && c.at(i+1).kind == tokenNumber && !c.used[i+1]:
			band := c.at(i + 1).size.MM
			c.used[i+1] = true
			k := i + 2
			if c.at(k).is("/") {
				k++
			}
			if c.at(k).is("-") {
				k++
			} else if !(c.at(k).kind == tokenNumber && c.at(k).num.value == 0) {
				k = -1
			}
			if k > 0 && c.at(k).kind == tokenNumber {
				c.used[k] = true
				band += c.at(k).size.MM
			}
			c.call.Tolerance = band / 2
		case t.kind == tokenWord && len(t.text) == 1 && strings.Contains("defghjknp", t.text) && i > 0 &&
			strings.ToUpper(t.raw) == t.raw && c.at(i+1).kind == tokenNumber && c.at(i+1).glue && c.at(i+1).num.whole:
			if n := c.at(i + 1).num.value; n >= 5 && n <= 14 && (c.at(i-1).kind == tokenNumber || c.at(i-1).is("Ø")) {
				c.used[i+1] = true
				c.call.Fit = t.raw + strconv.Itoa(int(n))
				if p := c.call.Process; n <= reamedGrade && (p == "" || p == "punch" || p == "drill") {
					c.call.Process = "ream"
				}
			}
		}
	}
}

// seat reads the size after a countersink or counterbore word or sign.
func (c *caller) seat() {
	for i, t := range c.list {
		p := ""
		switch {
		case t.is("\u2334"):
			p = "counterbore"
		case t.is("\u2335"):
			p = "countersink"
		case t.kind == tokenWord:
			p = processOf(t.text)
		}
		if p != "counterbore" && p != "countersink" {
			continue
		}
		k := i + 1
		for c.at(k).is("Ø") || c.at(k).is(":") || c.at(k).is("=") || c.at(k).is("(") && k < len(c.list) || c.at(k).word("to", "dia", "auf", "od") || c.angle(k) {
			k++
		}
		if !c.free(k) {
			// "28 CSK": the size stands before, after the hole's own.
			k = i - 1
			if c.at(k).is("Ø") || c.at(k).kind == tokenWord && isDiaWord(c.at(k).text) {
				k--
			}
			others := 0
			for j := range c.list {
				if j != k && c.free(j) {
					if _, whole := c.at(j).count(); !whole || c.at(j-1).is("Ø") {
						others++
					}
				}
			}
			if !c.free(k) || others == 0 {
				continue
			}
		}
		if c.call.Seat.MM == 0 {
			c.used[k] = true
			c.call.Seat = c.at(k).size
		}
	}
}

// angle tells whether token k belongs to an angle, as in "CSK 90 DEG x Ø26".
func (c *caller) angle(k int) bool {
	degrees := func(t token) bool {
		return t.is("°") || t.word("deg", "degree", "degrees", "grad", "incl", "included", "angle")
	}
	t := c.at(k)
	return degrees(t) || t.kind == tokenNumber && degrees(c.at(k+1)) || (t.is("x") || t.is(",")) && degrees(c.at(k-1))
}

// slot reads two sizes joined by x, with a slot word anywhere.
func (c *caller) slot() {
	found := false
	for _, t := range c.list {
		found = found || t.kind == tokenWord && isSlotWord(t.text)
	}
	if !found {
		return
	}
	var pair []int
	for i := range c.list {
		if !c.free(i) {
			continue
		}
		k := i + 1
		for c.at(k).word("wide", "w", "breit", "lg", "long", "l", "lang") || c.at(k).is("Ø") {
			k++
		}
		if c.at(k).is("x") && c.free(k+1) {
			pair = []int{i, k + 1} // the last two of "2 x 22 x 50"
		}
	}
	if pair == nil {
		return
	}
	a, b := sameUnit(c.at(pair[0]).size, c.at(pair[1]).size)
	if a.MM > b.MM {
		a, b = b, a
	}
	c.call.Slot = [2]LengthValue{a, b}
	c.used[pair[0]], c.used[pair[1]] = true, true
}

// sameUnit gives a size without a unit the unit of the other.
func sameUnit(a, b LengthValue) (LengthValue, LengthValue) {
	switch {
	case a.Unit == "" && b.Unit != "":
		a = a.in(b.Unit)
	case b.Unit == "" && a.Unit != "":
		b = b.in(a.Unit)
	}
	return a, b
}

// in reads a number without a unit as one in the unit given; feet lend inches.
func (v LengthValue) in(unit string) LengthValue {
	switch unit {
	case "mm":
	case "cm":
		v.MM *= 10
	case "m":
		v.MM *= 1000
	case "in", "ft":
		unit = "in"
		v.MM = tidy(v.MM * mmPerInch)
	default:
		panic("measure: unknown unit of length")
	}
	v.Unit = unit
	return v
}

// marked reads the diameters that have a sign or a word at them.
func (c *caller) marked() {
	for i, t := range c.list {
		if !(t.is("Ø") || t.kind == tokenWord && isDiaWord(t.text) || c.letterD(i)) {
			continue
		}
		after := i + 1
		for c.at(after).is(":") || c.at(after).is("=") {
			after++
		}
		before := i - 1
		// The size stands after the sign Ø as a rule, before the word DIA.
		order := []int{after, before}
		if t.kind == tokenWord && c.free(before) {
			order = []int{before, after}
		}
		for _, k := range order {
			if !c.free(k) {
				continue
			}
			if k == before && t.is("Ø") && c.free(after) {
				continue
			}
			c.used[k] = true
			c.diameters++
			if c.call.Diameter.MM == 0 {
				c.setDiameter(k)
			} else if math.Abs(c.call.Diameter.MM-c.at(k).size.MM) < 1e-9 {
				c.diameters-- // "Ø22 HOLE, Ø22 ..." says it twice
			}
			break
		}
	}
}

// letterD tells whether a letter D stands for the sign of diameter: "4 x D22",
// "HOLES D22". "D22" alone may be a mark.
func (c *caller) letterD(i int) bool {
	return c.at(i).word("d") && c.free(i+1) && c.at(i+1).glue && (c.hole || c.at(i-1).is("x"))
}

// setDiameter takes token k as the diameter. "4-13/16" before the word for
// holes is four holes of 13/16 by habit, and could be holes of 4-13/16.
func (c *caller) setDiameter(k int) {
	t := c.at(k)
	c.call.Diameter = t.size
	if n := t.num; n.base >= 2 && n.base == math.Trunc(n.base) && c.holes && (t.size.Unit == "in") {
		c.call.Alt = t.size
		c.call.Count = int(n.base)
		c.call.Diameter.MM = tidy((n.value - n.base) * mmPerInch)
	}
}

// counts reads how many.
func (c *caller) counts() {
	set := func(i int) bool {
		n, ok := c.at(i).count()
		if !ok || c.used[i] || c.call.Count != 0 {
			return false
		}
		c.used[i] = true
		c.call.Count = n
		c.call.Alt = LengthValue{}
		return true
	}
	for i, t := range c.list {
		if _, ok := t.count(); !ok || c.used[i] {
			continue
		}
		before, after := c.at(i-1), c.at(i+1)
		switch {
		case before.is("(") && (after.is(")") || after.is("x") && c.at(i+2).is(")") || after.kind == tokenWord && isPlacesWord(after.text)),
			after.kind == tokenWord && isPlacesWord(after.text),
			after.is("-") && (c.at(i+2).is("Ø") || c.metric(i+2) || c.at(i+2).kind == tokenWord && hasHoleWord(c.at(i+2).text)),
			after.is("Ø") && c.usedAt(i+2),
			after.is("x") && (c.at(i+2).is("Ø") || c.at(i+2).word("d") && c.usedAt(i+3) || c.metric(i+2) || c.usedAt(i+2) || c.at(i+2).kind == tokenWord && hasHoleWord(c.at(i+2).text)),
			after.is("x") && c.at(i+2).kind == tokenWord && processOf(c.at(i+2).text) == "tap" && c.metric(i+3),
			after.kind == tokenWord && processOf(after.text) == "tap" && c.metric(i+2),
			after.word("no", "nr") && (c.at(i+2).is("Ø") && c.usedAt(i+3) || c.at(i+2).kind == tokenWord && hasHoleWord(c.at(i+2).text)),
			after.is("x") && after.glue && (i+2 >= len(c.list) || c.at(i+2).kind == tokenWord) && (c.call.Diameter.MM > 0 || c.call.Bolt != "" || c.call.Slot[0].MM > 0),
			before.word("typ", "typical") && c.call.Diameter.MM > 0,
			c.metric(i + 1),
			c.beforeHoles(i):
			set(i)
		}
	}
	// "4x 22 DRILL", "4 x 13/16 HOLES": a count, x, and one bare size; "2 - 11/16
	// HOLES": the dash between spaces parts a count from a fraction or a unit.
	for i := range c.list {
		if next := c.at(i + 2); c.at(i+1).is("-") && !c.at(i+1).glue && c.free(i+2) && next.size.Unit != "" && (c.hole || c.call.Process != "") && !c.at(i+3).is("x") {
			set(i)
		}
		if n, ok := c.at(i).count(); ok && n < 10 && !c.used[i] && c.at(i+1).is("x") && c.free(i+2) && (c.hole || c.call.Process != "") && !c.at(i+3).is("x") {
			set(i)
		}
	}
}

// metric tells whether token i is the M of a thread that was read.
func (c *caller) metric(i int) bool {
	return c.at(i).kind == tokenWord && (c.at(i).raw == "M" || c.at(i).raw == "\u041c") && c.usedAt(i+1)
}

func (c *caller) usedAt(i int) bool { return i >= 0 && i < len(c.used) && c.used[i] }

// beforeHoles tells whether only adjectives stand between a number and the
// word for holes.
func (c *caller) beforeHoles(i int) bool {
	for k := i + 1; k <= i+3; k++ {
		t := c.at(k)
		if t.kind != tokenWord {
			return false
		}
		if hasHoleWord(t.text) {
			return true
		}
		if processOf(t.text) == "" && !t.word("round", "std", "standard", "bolt", "long", "short", "equal", "oversize", "identical", "runde") {
			return false
		}
	}
	return false
}

// bare takes the one size that is left as the diameter, when a word tells that
// the text is about holes or drilling.
func (c *caller) bare() {
	if c.call.Diameter.MM > 0 || c.call.Slot[0].MM > 0 || !c.hole && !c.drill && (c.call.Process == "" || c.call.Process == "tap") {
		return
	}
	left := -1
	for i := range c.list {
		if !c.free(i) {
			continue
		}
		if left >= 0 {
			return // two sizes: neither is sure
		}
		left = i
	}
	if left < 0 {
		return
	}
	c.used[left] = true
	c.diameters++
	c.setDiameter(left)
}

// IsAllHoles tells of a call-out of all holes of a part: "ALL HOLES Ø22", "alle
// Bohrungen Ø22", "HOLES Ø22 U.N.O.".
func IsAllHoles(text string) bool {
	list := tokens(text)
	for i, t := range list {
		if t.word("all", "alle", "tous", "toutes", "todos", "todas", "tutti", "alla", "wszystkie", "všechny", "все") {
			for k := i + 1; k < len(list) && k <= i+4; k++ {
				if hole, plural := isHoleWord(list[k].text); list[k].kind == tokenWord && hole && plural {
					return true
				}
			}
		}
	}
	if !IsGeneralNote(text) {
		return false
	}
	for _, t := range list {
		if hole, plural := isHoleWord(t.text); t.kind == tokenWord && hole && plural {
			return true
		}
	}
	return false
}
