package measure

import (
	"math"
	"strings"
)

// A BendCall is what a note beside a bend line states. A number that it does not
// state is 0.
type BendCall struct {
	AngleRad float64 // as written, 0..pi; a note does not tell whether it is the angle bent by or the one left
	Radius   LengthValue
	To       string // "up", "down" or ""
	Word     bool   // it names a bend, or the way to bend it
}

// BendNote reads one line of a note beside a bend line: "BEND UP 90 R6", "90° DN
// IR 3", "UP 45", "R10". ok is false where it states neither angle nor radius nor
// way. A bare number is an angle only right after a word for a bend or its way.
func BendNote(line string) (c BendCall, ok bool) {
	list := tokens(strings.NewReplacer("%%d", "°", "%%D", "°").Replace(line))
	at := func(k int) token {
		if k < 0 || k >= len(list) {
			return token{kind: tokenSign}
		}
		return list[k]
	}
	up, down := false, false
	for i, t := range list {
		named := isBendWord(t.text) && t.kind == tokenWord
		way := isUpWord(t) || isDownWord(t)
		up, down = up || isUpWord(t), down || isDownWord(t)
		c.Word = c.Word || named || way
		if t.kind == tokenNumber && (at(i+1).is("°") || at(i+1).word("deg", "degree", "degrees", "grad", "grados", "gradi")) {
			c.angle(t.num.value)
		}
		if k := i + 1; named || way {
			if at(k).is("@") || at(k).word("at", "by", "um", "to", "auf") {
				k++
			}
			if at(k).kind == tokenNumber && at(k).size.Unit == "" && !at(k).num.fraction && !at(k+1).is("x") && !at(k+1).word("x") {
				c.angle(at(k).num.value)
			}
		}
		if t.word("r", "ir", "ri", "rad", "radius", "radii", "biegeradius", "radio", "rayon", "raggio", "raio", "straal") {
			k := i + 1
			for at(k).is("=") || at(k).is(":") || at(k).word("i", "of") {
				k++
			}
			if n := at(k); n.kind == tokenBad && strings.HasPrefix(n.raw, ".") && k == i+1 {
				// "R.25": nobody ends the letter R with a full stop.
				if v, err := Length("0" + n.raw); err == nil && v.MM > 0 && !(c.Radius.MM > 0) {
					c.Radius = v
				}
			} else if n.kind == tokenNumber && n.size.MM > 0 && !(c.Radius.MM > 0) {
				c.Radius = n.size
			}
		}
	}
	switch {
	case up && !down:
		c.To = "up"
	case down && !up:
		c.To = "down"
	}
	return c, c.AngleRad > 0 || c.Radius.MM > 0 || c.To != ""
}

func (c *BendCall) angle(deg float64) {
	if deg > 0 && deg < 180 && !(c.AngleRad > 0) {
		c.AngleRad = deg * math.Pi / 180
	}
}

func isUpWord(t token) bool {
	return t.word("up", "upward", "upwards", "oben", "hoch", "haut", "arriba", "su")
}

func isDownWord(t token) bool {
	return t.word("down", "dn", "downward", "downwards", "unten", "bas", "abajo", "giù")
}

// isBendWord tells of the usual words for a bend.
func isBendWord(w string) bool {
	switch w {
	case "bend", "bends", "bent", "bending", "fold", "folds", "folded", "press-brake", "kant", "kanten", "abkanten", "kantung", "kantlinie", "biegen", "biegung", "biegeradius", "biegelinie",
		"pli", "plis", "pliage", "plegado", "pliegue", "doblez", "doblado", "piega", "pieghe", "piegatura", "dobra", "dobrado", "zetten", "zetting", "zetlijn", "bocka", "bockning", "gięcie", "ohyb", "гибка", "гиб":
		return true
	}
	return false
}
