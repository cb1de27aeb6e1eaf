package features

import (
	"strings"
	"unicode"
)

// DefaultLayerWords are words of layer names in English, German, French,
// Spanish, Italian, Portuguese, Dutch, Polish, Czech, Slovak, Slovene, Croatian
// and Russian, in lower case and without accents. A word of five letters or
// more also matches the beginning of a longer one; a shorter one ("axe",
// "eje", "cote") only itself. Words of two letters are not listed: layers are
// called by two letters for any reason.
func DefaultLayerWords() LayerWords {
	return LayerWords{
		Bend: strings.Fields(`bend bends bendline bendlines bending fold folds foldline folding
			biege biegung biegungen biegelinie biegekante abkantung abkanten kantlinie falz
			pli plis pliage pliages pliure plegado plegados pliegue pliegues doblez dobleces doblado
			piega pieghe piegatura dobra dobras dobragem quinagem vinco
			zetlijn zetting buiglijn buiglijnen kantlijn vouw vouwlijn
			giecie giecia zagiecie zagiecia ohyb ohyby ohybu ohybani ohybanie upogib upogibi upogibanje krivljenje pregib pregibi
			savijanje savijanja гиб гибы гиба гибка гибки сгиб сгибы сгиба изгиб изгибы gibka sgib sgiby`),
		Mark: strings.Fields(`mark marks marking markings etch etching engrave engraving engraved scribe scribing
			markierung markierungen gravur gravuren gravieren anriss anreissen kennzeichnung signierung
			gravure gravures marquage tracage grabado grabados marcado
			incisione incisioni marcatura tracciatura gravacao marcacao
			gravering graveren markering markeren
			grawer grawery grawerowanie grawerka trasowanie znakowanie gravirovani gravirovanie znaceni znacenie
			graviranje oznaka oznake oznacevanje oznacavanje гравировка маркировка разметка gravirovka markirovka razmetka`),
		Centre: strings.Fields(`center centre centers centres centerline centerlines centreline centrelines axis axes cline
			mittellinie mittellinien mittelpunkt achse achsen symmetrielinie axe ligneaxe
			eje ejes centro centros asse assi mezzeria centri eixo eixos hartlijn hartlijnen
			osie osiowa osiowe osa osy osi osova osove stred stredy stredova stredove simetrala simetrale srediscnica sredisnjica
			ось оси осевая осевые центр центры osevaya osevye`),
		Hidden: strings.Fields(`hidden invisible verdeckt verdeckte unsichtbar cachee cachees
			oculto ocultos oculta ocultas nascosto nascosta nascoste nascosti escondido escondida invisivel
			verborgen onzichtbaar
			ukryte ukryta niewidoczne niewidoczna skryte skryta skryty neviditelne neviditelna
			skrito skrite skriti nevidno nevidne skriveno skrivene skriveni nevidljivo nevidljive
			скрытая скрытые невидимая невидимые`),
		Construction: strings.Fields(`construction constr helper guide guides guideline guidelines
			konstruktion hilfslinie hilfslinien hilfsgeometrie construccion auxiliar auxiliares
			costruzione ausiliaria ausiliarie construcao constructie hulplijn hulplijnen
			konstrukcja konstrukcyjne konstrukcyjna pomocnicza pomocnicze konstrukce konstrukcni konstrukcia konstrukcne
			pomocna pomocne pomocni pomocno konstrukcija konstrukcijske pomozna pomozne pomozno
			построение построения вспомогательная вспомогательные vspomogatelnye`),
		Dimension: strings.Fields(`dim dims dimension dimensions dimensioning defpoints
			bemassung bemassungen masslinie massen cote cotes cotation cota cotas acotacion
			dimensiones quota quote quotatura cotagem dimensoes maatvoering bemating maatlijn maten
			wymiar wymiary wymiarowanie wymiarowe kota koty kote kotovani kotovanie kotiranje rozmery rozmer dimenzije mjere
			размер размеры размерная размерные razmery`),
		Frame: strings.Fields(`border borders titleblock titlebox drawingframe
			rahmen zeichnungsrahmen schriftfeld schriftkopf cadre cartouche cajetin
			cartiglio squadratura carimbo kader titelblok tekeningkader
			ramka ramki tabliczka ramecek ramcek razitko okvir zaglavlje sastavnica рамка штамп shtamp`),
		Text: strings.Fields(`text texts txt note notes label labels annotation annotations annot
			texte textes beschriftung schrift anmerkung anmerkungen texto textos testo testi
			anotacion anotaciones tekst teksten hatch hatching schraffur hachure hachures tratteggio arcering
			teksty opis opisy napis napisy uwagi kreskowanie texty popis popisy popisky poznamka poznamky srafy srafovani srafovanie
			besedilo besedila opomba opombe napomena napomene srafura srafure
			текст тексты надпись надписи примечание примечания штриховка shtrihovka`),
		Cut: strings.Fields(`cut cuts cutting cutline cutlines cutpath laser plasma oxyfuel waterjet outline outlines contour contours profile profiles
			schnitt schnitte schnittlinie schneiden schneidkontur aussenkontur innenkontur hilfskontur kontur konturen umriss laserschnitt
			decoupe decoupes decoupage contorno contornos corte cortes recorte perfil
			taglio tagli profilo snij snijden snijlijn snijlijnen omtrek recortes
			ciecie ciecia wycinanie wypalanie obrys obrysy rez rezani rezanie rezanje izrez izrezi obris obrisi kontura kontury konture
			рез резка резы контур контуры раскрои лазер rezka`),
		Hole: strings.Fields(`hole holes drill drills drilling bohrung bohrungen loch locher loecher bohren
			trou trous percage percages foro fori foratura agujero agujeros taladro taladros furo furos gat gaten boring boringen
			otwor otwory wiercenie otvor otvory dira diry diera diery vrtani vrtanie vrtanje luknja luknje izvrtina izvrtine
			rupa rupe provrt provrti отверст сверление otverstiya`),
	}
}

// nameWords splits a name into words of letters, in lower case without
// accents: at all that is no letter and where a capital follows a small one.
// An accent that stands as a character of its own belongs to its letter.
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
		if unicode.Is(unicode.Mn, r) {
			continue
		}
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

// foldLetter drops the accent of a small letter; what has two letters in plain
// writing gets both.
func foldLetter(r rune) string {
	if r < 0x80 {
		return string(r)
	}
	for _, f := range [...]struct{ to, from string }{
		{"a", "àáâãäåāăą"}, {"c", "çćĉċč"}, {"d", "ďđð"}, {"e", "èéêëēĕėęě"}, {"g", "ĝğġģ"}, {"h", "ĥħ"}, {"i", "ìíîïĩīĭįı"},
		{"j", "ĵ"}, {"k", "ķ"}, {"l", "ĺļľŀł"}, {"n", "ñńņňŋ"}, {"o", "òóôõöøōŏő"}, {"r", "ŕŗř"}, {"s", "śŝşšș"}, {"t", "ţťŧț"},
		{"u", "ùúûüũūŭůűų"}, {"w", "ŵ"}, {"y", "ýÿŷ"}, {"z", "źżž"}, {"ss", "ß"}, {"ae", "æ"}, {"oe", "œ"}, {"е", "ё"}, {"и", "й"},
	} {
		if strings.ContainsRune(f.from, r) {
			return f.to
		}
	}
	return string(r)
}
