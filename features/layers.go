package features

import (
	"strings"
	"unicode"
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

// defaultLayerWords are words of layer names in English, German, French,
// Spanish, Italian, Portuguese and Dutch, without accents. A word of five
// letters or more also matches the beginning of a longer one.
func defaultLayerWords() LayerWords {
	return LayerWords{
		Bend: strings.Fields(`bend bends bendline bendlines bending fold folds foldline folding
			biege biegung biegungen biegelinie biegekante abkantung abkanten kantlinie falz
			pli plis pliage pliages pliure plegado plegados pliegue pliegues doblez dobleces doblado
			piega pieghe piegatura dobra dobras dobragem quinagem vinco
			zetlijn zetting buiglijn buiglijnen kantlijn vouw vouwlijn`),
		Mark: strings.Fields(`mark marks marking markings etch etching engrave engraving engraved scribe scribing
			markierung markierungen gravur gravuren gravieren anriss anreissen kennzeichnung signierung
			gravure gravures marquage tracage grabado grabados marcado
			incisione incisioni marcatura tracciatura gravacao marcacao
			gravering graveren markering markeren`),
		Centre: strings.Fields(`center centre centers centres centerline centerlines centreline centrelines axis axes cline
			mittellinie mittellinien mittelpunkt achse achsen symmetrielinie axe ligneaxe
			eje ejes centro centros asse assi mezzeria centri eixo eixos hartlijn hartlijnen`),
		Hidden: strings.Fields(`hidden invisible verdeckt verdeckte unsichtbar cachee cachees
			oculto ocultos oculta ocultas nascosto nascosta nascoste nascosti escondido escondida invisivel
			verborgen onzichtbaar`),
		Construction: strings.Fields(`construction constr helper guide guides guideline guidelines
			konstruktion hilfslinie hilfslinien hilfsgeometrie construccion auxiliar auxiliares
			costruzione ausiliaria ausiliarie construcao constructie hulplijn hulplijnen`),
		Dimension: strings.Fields(`dim dims dimension dimensions dimensioning defpoints
			bemassung bemassungen masslinie massen cote cotes cotation cota cotas acotacion
			dimensiones quota quote quotatura cotagem dimensoes maatvoering bemating maatlijn maten`),
		Frame: strings.Fields(`border borders titleblock titlebox drawingframe
			rahmen zeichnungsrahmen schriftfeld schriftkopf cadre cartouche cajetin
			cartiglio squadratura carimbo kader titelblok tekeningkader`),
		Text: strings.Fields(`text texts txt note notes label labels annotation annotations annot
			texte textes beschriftung schrift anmerkung anmerkungen texto textos testo testi
			anotacion anotaciones tekst teksten hatch hatching schraffur hachure hachures tratteggio arcering`),
	}
}

// withDefaults fills the lists that are nil.
func (w LayerWords) withDefaults() LayerWords {
	d := defaultLayerWords()
	pick := func(given, def []string) []string {
		if given == nil {
			return def
		}
		out := make([]string, 0, len(given))
		for _, g := range given {
			if f := strings.Join(nameWords(g), " "); f != "" {
				out = append(out, f)
			}
		}
		return out
	}
	return LayerWords{
		Bend: pick(w.Bend, d.Bend), Mark: pick(w.Mark, d.Mark), Centre: pick(w.Centre, d.Centre),
		Hidden: pick(w.Hidden, d.Hidden), Construction: pick(w.Construction, d.Construction),
		Dimension: pick(w.Dimension, d.Dimension), Frame: pick(w.Frame, d.Frame), Text: pick(w.Text, d.Text),
	}
}

// useOf tells what the name of a layer or linetype speaks for.
func (w LayerWords) useOf(name string) layerUse {
	words := nameWords(name)
	holes := false
	for _, x := range words {
		holes = holes || matchesWord(x, holeWords())
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
		for _, x := range words {
			if matchesWord(x, c.list) {
				// "CENTER HOLES" holds holes, whatever else the name says; only
				// marks of holes stay marks.
				if holes && c.use.class != classMark {
					return layerUse{}
				}
				return c.use
			}
		}
	}
	return layerUse{}
}

// holeWords are words of layer names that hold openings, in the languages of
// defaultLayerWords.
func holeWords() []string {
	return strings.Fields(`hole holes drill drills drilling bohrung bohrungen loch locher loecher bohren
		trou trous percage percages foro fori foratura agujero agujeros taladro taladros furo furos gat gaten boring boringen`)
}

func matchesWord(x string, list []string) bool {
	for _, w := range list {
		if x == w || len(w) >= 5 && strings.HasPrefix(x, w) {
			return true
		}
	}
	return false
}

// nameWords splits a name into words of letters, in lower case without
// accents: at all that is no letter and where a capital follows a small one.
func nameWords(name string) []string {
	var words []string
	var b strings.Builder
	lower := false
	flush := func() {
		if b.Len() > 0 {
			words = append(words, b.String())
			b.Reset()
		}
	}
	for _, r := range name {
		if !unicode.IsLetter(r) {
			flush()
			lower = false
			continue
		}
		if lower && unicode.IsUpper(r) {
			flush()
		}
		lower = unicode.IsLower(r)
		b.WriteString(foldLetter(unicode.ToLower(r)))
	}
	flush()
	return words
}

// foldLetter drops the accent of a small Latin letter.
func foldLetter(r rune) string {
	const from = "àáâãäåçèéêëìíîïñòóôõöøùúûüýÿ"
	const to = "aaaaaaceeeeiiiinoooooouuuuyy"
	if r < 0x80 {
		return string(r)
	}
	if r == 'ß' {
		return "ss"
	}
	i := 0
	for _, f := range from {
		if f == r {
			return to[i : i+1]
		}
		i++
	}
	return string(r)
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
