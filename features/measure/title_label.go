package measure

import "strings"

// FieldKind tells what a label of a title block or the head of a column of a
// parts list asks for: what LabelKind tells, and "item", "name", "number" (of the
// drawing), "revision", "scale", "finish", "length", "weight", "section"; "number
// or item" where the label alone leaves that open; "" none of these. Accents and
// case count for nothing.
func FieldKind(label string) string {
	label = strings.TrimSpace(label)
	if label == "" || len(label) > 60 {
		return ""
	}
	folded := foldLabel(label)
	if kind := fieldNames(folded); kind != "" {
		return kind
	}
	kind := LabelKind(label)
	if kind == "" {
		kind = LabelKind(folded)
	}
	return kind
}

// foldLabel writes a label in small letters without accents, one space between
// its words.
func foldLabel(label string) string {
	low := strings.NewReplacer("ä", "a", "à", "a", "á", "a", "â", "a", "ã", "a", "ą", "a", "ç", "c", "ć", "c", "é", "e", "è", "e", "ê", "e", "ë", "e", "ę", "e", "í", "i", "î", "i", "ì", "i",
		"ł", "l", "ñ", "n", "ń", "n", "ö", "o", "ó", "o", "ò", "o", "ô", "o", "õ", "o", "ś", "s", "ß", "ss", "ü", "u", "ú", "u", "ù", "u", "û", "u", "ź", "z", "ż", "z", "º", "o", "°", "o").Replace(strings.ToLower(label))
	return strings.Join(strings.FieldsFunc(low, func(r rune) bool { return strings.ContainsRune(" \t\n_-./:=()[]#'&", r) }), " ")
}

// fieldNames looks a folded label up.
func fieldNames(folded string) string {
	switch folded {
	case "item", "items", "item no", "item nr", "item number", "item mark", "pos", "pos no", "pos nr", "posnr", "position", "positionsnummer", "mark", "mark no", "mk", "mk no", "piece mark", "pc mark", "pc mk", "part mark", "find no",
		"teil nr", "teilnr", "rep", "repere", "marca", "posicion", "posizione", "pozycja", "poz", "nr poz", "lp", "stuknr", "stuk nr", "posicao":
		return "item"
	case "no", "nr", "num", "n", "no item", "ref", "part", "part no", "part nr", "part number", "teil", "piece no":
		return "number or item"
	case "title", "part name", "name", "description", "drawing title", "part description", "designation", "titel", "benennung", "bezeichnung", "titre", "titulo", "denominacion", "descripcion", "titolo", "denominazione", "descrizione",
		"denominacao", "descricao", "designacao", "omschrijving", "benaming", "nazwa", "nazwa czesci", "opis", "tytul":
		return "name"
	case "drawing number", "drawing no", "drawing nr", "drg no", "drg nr", "dwg no", "dwg nr", "dwg number", "dwg", "drg", "drawing", "sheet number", "zeichnungs nr", "zeichnungsnr", "zeichnungsnummer", "zeichnung nr", "zeichnung", "zng nr", "numero de plan", "no de plan", "no plan", "plan no", "plan n o", "n o plan",
		"plano", "no plano", "n o plano", "numero de plano", "numero plano", "plano no", "disegno", "disegno n", "disegno no", "n disegno", "numero disegno", "desenho", "desenho no", "n o desenho", "numero do desenho", "tekening", "tekeningnr", "tekening nr", "tekeningnummer",
		"nr rysunku", "nr rys", "numer rysunku", "rysunek nr":
		return "number"
	case "rev", "revision", "rev no", "rev nr", "index", "indice", "ind", "anderung", "anderungsindex", "revisie", "wijziging", "revisione", "revisao", "rewizja", "zmiana", "issue":
		return "revision"
	case "scale", "massstab", "echelle", "ech", "escala", "scala", "schaal", "skala", "podzialka":
		return "scale"
	case "finish", "surface finish", "surface treatment", "treatment", "coating", "oberflache", "oberflachenbehandlung", "traitement", "finition", "traitement de surface", "acabado", "tratamiento", "finitura", "trattamento", "acabamento", "tratamento", "afwerking", "oppervlaktebehandeling", "wykonczenie", "powloka":
		return "finish"
	case "length", "lg", "lange", "longueur", "longitud", "lunghezza", "comprimento", "lengte", "dlugosc":
		return "length"
	case "weight", "mass", "wt", "kg", "gewicht", "masse", "poids", "peso", "massa", "masa", "waga", "unit weight", "total weight":
		return "weight"
	case "section", "size", "profile", "shape", "profil", "abmessung", "abmessungen", "seccion", "perfil", "profilo", "sezione", "seccao", "profiel", "afmeting", "przekroj", "dimensions", "dimension", "dim":
		return "section"
	case "matiere", "materiau", "materiaal", "material", "materiale", "materia prima", "tworzywo":
		return "material"
	case "quant", "quantidade", "quantita", "cantidad", "cant", "menge", "anzahl", "stuck", "stuckzahl", "quantite", "aantal", "ilosc", "qtde":
		return "quantity"
	case "grubosc", "epaisseur", "espesor", "espessura", "spessore", "dikte", "dicke", "blechdicke":
		return "thickness"
	}
	return ""
}
