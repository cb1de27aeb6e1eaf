package features_test

import (
	"strings"
	"testing"

	"burrside/dxfread/dxftest"
	"burrside/features"
)

// layerSays is what a plate says about one line across it on a layer: "bend",
// "mark", what it was ignored as, or "cut" if it is a line like any other.
func layerSays(t *testing.T, layer string, opt features.Options) string {
	t.Helper()
	b := plate(dxftest.MM, 1)
	b.Layer(layer).Line(0, 70, 200, 70)
	s := build(t, b, opt)
	p := onePart(t, s)
	switch {
	case len(kinds(p, features.Bend)) == 1:
		return "bend"
	case len(kinds(p, features.Mark)) == 1:
		return "mark"
	case len(s.Ignored) == 1:
		return strings.TrimSuffix(s.Ignored[0].What, " layer")
	case doubtOf(p, "line-unexplained") != nil:
		return "cut"
	}
	t.Fatalf("%s: %s", layer, describe(s))
	return ""
}

// TestLayerWordsOfManyTongues: the words are dictionary words of the trade in
// each language (common practice, no source); capitals, accents in one sign or
// two, digits and other words beside them change nothing.
func TestLayerWordsOfManyTongues(t *testing.T) {
	for layer, want := range map[string]string{
		// Polish, Czech, Slovak, Slovene, Croatian, Russian.
		"LINIA GIĘCIA": "bend", "Zagięcie_1": "bend", "OHYBY": "bend", "linie ohybu": "bend", "Upogibi": "bend", "SAVIJANJE": "bend", "ГИБКА": "bend", "Линии гиба": "bend", "Сгиб2": "bend",
		"Grawerowanie": "mark", "GRAVÍROVÁNÍ": "mark", "Značenie": "mark", "Označevanje": "mark", "ГРАВИРОВКА": "mark",
		"OSIE": "centre line", "Osová": "centre line", "Středy": "centre line", "Simetrala": "centre line", "Осевые": "centre line", "ОСЬ": "centre line",
		"NIEWIDOCZNE": "hidden line", "Skryté hrany": "hidden line", "SKRIVENO": "hidden line", "Невидимые": "hidden line",
		"Pomocnicze": "construction", "POMOCNÉ_ČIARY": "construction", "Pomožne": "construction", "Вспомогательные линии": "construction",
		"WYMIARY": "dimension", "Kóty": "dimension", "KOTIRANJE": "dimension", "Размеры": "dimension",
		"RAMKA": "frame", "Rámeček": "frame", "Okvir": "frame", "РАМКА": "frame", "Штамп": "frame",
		"Opisy": "text", "POZNÁMKY": "text", "Šrafura": "text", "Besedilo": "text", "ТЕКСТ": "text", "Надписи": "text",
		// The older seven.
		"Kantlinien-1": "bend", "Pliage": "bend", "Líneas de plegado": "bend", "PIEGHE": "bend", "Dobra": "bend", "ZETLIJN": "bend",
		"Bema\u00dfung": "dimension", "Acotación": "dimension", "Acotacio\u0301n": "dimension", "CACHE\u0301ES": "hidden line",
		"axe": "centre line", "EJE": "centre line", "asse-x": "centre line", "cote": "dimension",
		"Verdeckte Kontur": "hidden line", "CONTORNO OCULTO": "hidden line", "Schnitt Text": "text", "CUT_DIM": "dimension",
		// Short words only match whole: none of these is one.
		"AXELLE": "cut", "Assembly": "cut", "ASSEMBLAGE": "cut", "Coteau": "cut", "EJECTOR": "cut", "Dimple": "cut", "Osirak": "cut", "Textil": "cut", "Kotarjeva": "cut",
		"Marke": "cut", "0": "cut", "Layer 12": "cut", "Ж": "cut",
		// Cut words keep a line that another word of the name would take out.
		"SCHNITT": "cut", "CUT": "cut", "LASER": "cut", "OUTLINE": "cut", "KONTUR": "cut", "CONTORNO": "cut", "TAGLIO": "cut", "CORTE": "cut", "DÉCOUPE": "cut", "SNIJ": "cut", "ŘEZ": "cut",
		"CIĘCIE": "cut", "IZREZ": "cut", "РЕЗ": "cut", "CUT_CENTER": "cut", "Hilfskontur": "cut", "Konstruktion Kontur": "cut", "LASER-AXE": "cut", "osa řez": "cut",
		"LASER ENGRAVE": "mark", "Laser bend": "bend", "MARK CONTOUR": "mark",
		"Osie otworów": "cut", "Středy děr": "centre line", "Оси отверстий": "cut", "Отверстия оси": "cut",
	} {
		if got := layerSays(t, layer, features.Options{}); got != want {
			t.Errorf("layer %q is %q, want %q", layer, got, want)
		}
	}
}

// TestLayerWordLists: given words alone, with the default ones, of several
// words, and none.
func TestLayerWordLists(t *testing.T) {
	own := features.Options{Layers: features.LayerWords{
		Bend: []string{"+", "Kniff"}, Text: []string{"remarks"}, Mark: []string{"Körner Punkt"}, Cut: []string{},
	}}
	for layer, want := range map[string]string{
		"KNIFF": "bend", "BEND": "bend", "Remarks": "text", "TEXT": "cut",
		"korner_PUNKT_2": "mark", "Korner": "cut", "Punkt Korner": "cut", "Gravur": "cut", "CUT_CENTER": "centre line",
	} {
		if got := layerSays(t, layer, own); got != want {
			t.Errorf("layer %q is %q, want %q", layer, got, want)
		}
	}
}

// TestDefaultLayerWordsAreWords: every default word is as the reader folds it,
// stands in one list only, and is longer than two letters.
func TestDefaultLayerWordsAreWords(t *testing.T) {
	d := features.DefaultLayerWords()
	seen := map[string]int{}
	for i, list := range [][]string{d.Bend, d.Mark, d.Centre, d.Hidden, d.Construction, d.Dimension, d.Frame, d.Text, d.Cut, d.Hole} {
		for _, w := range list {
			if k, twice := seen[w]; twice {
				t.Errorf("%q is in lists %d and %d", w, k, i)
			}
			seen[w] = i
			if len([]rune(w)) < 3 || strings.ToLower(w) != w || strings.ContainsAny(w, "àáäéèíóöúüąćčďęěłńňřšśťžźżёй") {
				t.Errorf("%q", w)
			}
		}
	}
}
