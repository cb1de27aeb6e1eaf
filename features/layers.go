package features

import (
	"strings"
	"unicode/utf8"
)

// class says what an entity is drawn for.
type class uint8

const (
	classCut class = iota
	classBend
	classMark
	classNoise
)

// strength says how sure a class is: layer names are weak, a dash pattern is
// strong, the kind of entity and the state of its layer are sure.
type strength uint8

const (
	weak strength = iota + 1
	strong
	sure
)

// layerUse is what the name of a layer says; what is "" if it says nothing.
type layerUse struct {
	class class
	what  string
	order int // in which order weak noise is brought back, weakest first
}

// withDefaults fills the lists that are nil.
func (w LayerWords) withDefaults() LayerWords {
	d := DefaultLayerWords()
	pick := func(given, def []string) []string {
		if given == nil {
			return def
		}
		out := make([]string, 0, len(given))
		for _, g := range given {
			if strings.TrimSpace(g) == "+" {
				out = append(out, def...)
			} else if f := strings.Join(nameWords(g), " "); f != "" {
				out = append(out, f)
			}
		}
		return out
	}
	return LayerWords{
		Bend: pick(w.Bend, d.Bend), Mark: pick(w.Mark, d.Mark), Centre: pick(w.Centre, d.Centre),
		Hidden: pick(w.Hidden, d.Hidden), Construction: pick(w.Construction, d.Construction),
		Dimension: pick(w.Dimension, d.Dimension), Frame: pick(w.Frame, d.Frame), Text: pick(w.Text, d.Text),
		Cut: pick(w.Cut, d.Cut), Hole: pick(w.Hole, d.Hole),
	}
}

// useOf tells what the name of a layer or linetype speaks for.
func (w LayerWords) useOf(name string) layerUse {
	words := nameWords(name)
	holes, cut := false, false
	for i := range words {
		holes = holes || matchesWord(words[i:], w.Hole)
		cut = cut || matchesWord(words[i:], w.Cut)
	}
	// Purposes that make a feature come first: "BEND CENTER LINES" are bends.
	for _, c := range []struct {
		list []string
		use  layerUse
	}{
		{w.Bend, layerUse{classBend, "bend", 3}},
		{w.Mark, layerUse{classMark, "mark", 2}},
		{w.Dimension, layerUse{classNoise, "dimension layer", 8}},
		{w.Frame, layerUse{classNoise, "frame layer", 6}},
		{w.Centre, layerUse{classNoise, "centre line layer", 5}},
		{w.Hidden, layerUse{classNoise, "hidden line layer", 4}},
		{w.Construction, layerUse{classNoise, "construction layer", 1}},
		{w.Text, layerUse{classNoise, "text layer", 7}},
	} {
		for i := range words {
			if matchesWord(words[i:], c.list) {
				// "CENTER HOLES" holds holes, whatever else the name says; only
				// marks of holes stay marks.
				if holes && c.use.class != classMark {
					return layerUse{}
				}
				// "CUT_CENTRE" and "CONSTRUCTION OUTLINE" may well be cut lines;
				// hidden outlines, the sizes of a cut and the words beside it are
				// not.
				if cut && (c.use.what == "centre line layer" || c.use.what == "construction layer" || c.use.what == "frame layer") {
					return layerUse{}
				}
				return c.use
			}
		}
	}
	return layerUse{}
}

// matchesWord tells whether some words begin with one of a list. An entry of
// several words must be there word for word.
func matchesWord(words []string, list []string) bool {
	for _, w := range list {
		first, rest, several := strings.Cut(w, " ")
		if several {
			n := 2 + strings.Count(rest, " ")
			if words[0] == first && len(words) >= n && strings.Join(words[:n], " ") == w {
				return true
			}
			continue
		}
		if words[0] == w || utf8.RuneCountInString(w) >= 5 && strings.HasPrefix(words[0], w) {
			return true
		}
	}
	return false
}

// dashKind tells what a dash pattern is drawn for: "" continuous, "centre line"
// for long and short dashes or dots, "hidden line" for equal dashes. Patterns
// are read, names are not: a name without a pattern is nothing.
func dashKind(dashes []float64) string {
	gaps := 0
	var least, most float64
	dots := false
	for _, d := range dashes {
		switch {
		case !isNumber(d):
			return ""
		case d < 0:
			gaps++
		case d == 0:
			dots = true
		default:
			if least == 0 || d < least {
				least = d
			}
			most = max(most, d)
		}
	}
	switch {
	case gaps == 0:
		return ""
	case dots && most > 0, least > 0 && most > 1.5*least:
		return "centre line"
	}
	return "hidden line"
}
