package measure

// Words of the trade in several languages, in lower case without apostrophes
// and full stops: English, German, French, Spanish, Portuguese, Italian, Dutch,
// the Scandinavian languages, Polish, Czech, Russian.

// isHoleWord tells whether w means a hole, and whether it is plural.
func isHoleWord(w string) (hole, plural bool) {
	switch w {
	case "hole", "hl", "loch", "bohrung", "trou", "perçage", "percage", "agujero", "taladro", "furo", "foro", "gat", "hål", "hull", "hul", "otwór", "otwor", "otw", "otvor", "díra", "rupa", "provrt", "furat", "reikä", "bohr", "отв", "отверстие":
		return true, false
	case "holes", "hls", "löcher", "loecher", "bohrungen", "trous", "perçages", "percages", "agujeros", "taladros", "furos", "fori", "gaten", "huller", "otwory", "otworów", "otvory", "díry", "rupe", "provrti", "furatok", "reiät", "отверстия", "отверстий":
		return true, true
	}
	return false, false
}

func isSlotWord(w string) bool {
	switch w {
	case "slot", "slots", "slotted", "slh", "ssl", "lsl", "langloch", "langlöcher", "langloecher", "oblong", "oblongs", "oblongue", "boutonnière", "ranura", "ranuras", "coliso", "colisos", "oblongo", "oblongos", "asola", "asole", "slobgat", "slobgaten", "sleuf", "avlångt", "avlånga", "avlangt", "fasola", "fasolka", "fasolowy", "fasolowe", "rasgo", "rasgos", "ll", "drážka", "паз", "пазы", "oválný", "овальное", "овальные":
		return true
	}
	return false
}

func hasHoleWord(w string) bool {
	hole, _ := isHoleWord(w)
	return hole || isSlotWord(w)
}

func isDiaWord(w string) bool {
	switch w {
	case "dia", "diam", "diameter", "durchmesser", "diamètre", "diametre", "diámetro", "diametro", "diâmetro", "średnica", "диам", "диаметр":
		return true
	}
	return false
}

func isBoltWord(w string) bool {
	switch w {
	case "bolt", "bolts", "schraube", "schrauben", "boulon", "boulons", "tornillo", "tornillos", "parafuso", "parafusos", "bullone", "bulloni", "bout", "bouten", "bult", "bultar", "bolter", "śruba", "śruby", "болт", "болты":
		return true
	}
	return false
}

func isPlacesWord(w string) bool {
	switch w {
	case "plcs", "places", "place", "plc", "pl", "off", "reqd", "required", "stk", "stück", "mal", "positions", "pos", "times", "nos", "lieux", "veces", "vezes", "volte", "stuks", "szt", "шт", "thus":
		return true
	}
	return false
}

// processOf names the process of a hole that w means; "" none.
func processOf(w string) string {
	switch w {
	case "drill", "drilled", "drl", "gebohrt", "bohren", "foret", "percé", "taladrado", "furado", "forato", "boren", "geboord", "borra", "bores", "perforado", "trapanato", "trapanati", "wiercić", "wiercony", "wiercone", "vrtat", "vrtaný", "vrtané", "vrtáno", "сверлить", "сверлёные", "сверленые":
		return "drill"
	case "ream", "reamed", "rm", "gerieben", "reiben", "alésé", "alésage", "escariado", "alesato", "alesare", "ruimen", "geruimd", "brotschen", "escariados", "alesati", "alésés", "rozwiercać", "rozwiercane", "vystružit", "vystružené", "развернуть":
		return "ream"
	case "tap", "tapped", "thread", "threaded", "thd", "gewinde", "taraudé", "taraudage", "filetage", "roscado", "rosca", "roscar", "filettato", "filettatura", "tappen", "getapt", "gänga", "gängat", "gwint", "gwinty", "gwintowany", "gwintowane", "závit", "závity", "navoj", "menet", "резьба", "taraudages", "taraudés", "taraudée", "filetages", "roscas", "roscados", "roscada", "filettati", "filettata", "filettate", "tapgat", "tapgaten", "draad", "gewindebohrung", "gewindebohrungen":
		return "tap"
	case "csk", "csink", "csunk", "cskd", "csnk", "ctsk", "cntsk", "ctrsk", "countersinking", "countersink", "countersunk", "cs", "senkung", "senken", "gesenkt", "ansenken", "fraisé", "fraisure", "fraisage", "avellanado", "escareado", "svasatura", "svasato", "verzonken", "försänkt", "försänkning", "forsenket":
		return "countersink"
	case "cbore", "cbored", "counterboring", "counterbore", "counterbored", "cb", "spotface", "sf", "sface", "flachsenkung", "plansenkung", "lamage", "lamé", "lamatura", "refrentado":
		return "counterbore"
	case "punch", "punched", "gestanzt", "stanzen", "poinçonné", "poinçonner", "punzonado", "puncionado", "punzonato", "ponsen", "stansad":
		return "punch"
	}
	return ""
}

// isStockWord tells that a diameter beside it is a bar's or a pipe's, not a hole's.
func isStockWord(w string) bool {
	switch w {
	case "pipe", "tube", "tubing", "rod", "rebar", "shaft", "chs", "rhs", "shs", "rohr", "tubo", "tuyau", "rundstahl", "rond", "washer", "washers", "pin":
		return true
	}
	return false
}

// isPlateWord tells that the size or sizes after w are a plate's or a flat's.
// alone tells that one bare number will do: "PL 10", "Blech 8". The other words
// stand before marks, levels and sheet numbers too ("FL 100", "SHEET 1", "Лист
// 2") and want a unit, a fraction or a second size.
func isPlateWord(w string) (plate, alone bool) {
	switch w {
	case "pl", "plt", "blech", "flachstahl", "tôle", "tole", "chapa", "pletina", "lamiera", "piastra", "plaat", "plåt", "blacha", "plech", "lim", "lemez", "verschleißblech", "verschleissblech":
		return true, true
	case "plate", "plates", "sheet", "fl", "flat", "flats", "flt", "fb", "fla", "flb", "bl", "flach", "plat", "piatto", "platta", "platte", "platten", "placa", "plade", "strip", "strips", "płaskownik", "plochá", "chata", "полоса", "лист":
		return true, false
	}
	return false, false
}

// isThickWord tells that the number beside it is a thickness. Words of one
// letter are not among them, see PlateNote; nor is "gr", which is a grade too.
func isThickWord(w string) bool {
	switch w {
	case "thk", "thick", "thickness", "thkness", "th", "dicke", "dick", "stärke", "staerke", "blechdicke", "blechstärke", "materialstärke", "ep", "ép", "épaisseur", "epaisseur", "épais", "sp", "spess", "spessore", "esp", "espesor", "espessura", "dik", "dikte", "plaatdikte", "tjocklek", "tjock", "tykkelse", "tyk", "grubość", "grubosc", "gruba", "gruby", "hrúbka", "debljina", "debelina", "vastagság", "paksuus", "tl", "tloušťka", "tloustka", "толщина", "толщ":
		return true
	}
	return false
}

// isQuantityKey tells that a number after it is how many pieces are wanted.
func isQuantityKey(w string) bool {
	switch w {
	case "qty", "quantity", "quant", "reqd", "required", "stk", "stück", "stueck", "stückzahl", "stueckzahl", "anzahl", "menge", "qté", "qte", "quantité", "quantite", "nombre", "nbre", "cant", "cantidad", "qtd", "qtde", "quantidade", "qtà", "qta", "quantità", "quantita", "pezzi", "pz", "aantal", "antal", "antall", "ilość", "ilosc", "szt", "počet", "pocet", "ks", "kom", "nb", "db", "kpl", "кол", "количество", "make", "pcs", "pieces", "pièces", "piezas", "uds":
		return true
	}
	return false
}

// isQuantityUnit tells that a number before it is how many pieces are wanted.
func isQuantityUnit(w string) bool {
	switch w {
	case "reqd", "required", "req", "off", "stk", "stck", "stück", "stueck", "pcs", "pc", "pce", "piece", "pieces", "ea", "each", "thus", "pièces", "pz", "pezzi", "uds", "ud", "unidades", "piezas", "peças", "stuks", "szt", "ks", "kom", "шт", "nos", "db", "kpl":
		return true
	}
	return false
}

// isMaterialKey tells that a grade follows.
func isMaterialKey(w string) bool {
	switch w {
	case "material", "mat", "mtl", "matl", "matls", "werkstoff", "matière", "matiere", "matériau", "materiau", "materiale", "materiaal", "materiał", "materiál", "материал", "grade", "steel", "stahl", "acier", "acero", "aço", "acciaio", "staal", "stål", "сталь", "stal", "ocel", "čelik", "wst", "nuance", "gatunek", "jakost", "acél":
		return true
	}
	return false
}

// isOtherThickness tells that the thickness after w is not the plate's.
func isOtherThickness(w string) bool {
	switch w {
	case "throat", "weld", "coating", "zinc", "paint", "film", "wall", "grout", "layer", "washer", "leg", "schicht", "zink", "naht", "line", "eq", "equal":
		return true
	}
	return false
}

// isFastenerWord tells that a text is about what is bolted on, so that a number
// of pieces in it is not the plate's.
func isFastenerWord(w string) bool {
	switch w {
	case "nut", "nuts", "washer", "washers", "screw", "screws", "stud", "studs", "anchor", "anchors", "rivet", "rivets",
		"mutter", "muttern", "scheibe", "scheiben", "unterlegscheibe", "unterlegscheiben", "bolzen", "anker", "écrou", "écrous", "ecrou", "ecrous", "rondelle", "rondelles", "vis",
		"tuerca", "tuercas", "arandela", "arandelas", "dado", "dadi", "rondella", "vite", "viti":
		return true
	}
	return isBoltWord(w)
}

// isOtherThing tells that a text with w speaks of something beside the part, or
// of what the part is not: a thickness or a grade in it is not the part's.
func isOtherThing(w string) bool {
	switch w {
	case "weld", "welds", "welded", "fillet", "gasket", "shim", "shims", "packer", "packing", "others", "existing", "exist", "exg", "clearance", "below", "above", "behind", "beneath",
		"underside", "adjacent", "not", "similar", "sim", "instead", "liner", "backing", "concrete", "timber", "rubber", "neoprene",
		"schweißen", "schweissen", "schweißnaht", "schweissnaht", "kehlnaht", "naht", "dichtung", "futter", "futterblech", "bauseits", "bestand", "vorhanden", "vorhandene", "unterhalb", "oberhalb", "dahinter", "nicht", "kein", "keine", "ähnlich", "aehnlich",
		"soudure", "souder", "soudé", "joint", "cale", "existant", "existante", "dessous", "dessus", "derrière", "similaire", "pas",
		"soldadura", "soldar", "junta", "calce", "existente", "debajo", "encima", "detrás",
		"saldatura", "saldare", "guarnizione", "spessoramento", "esistente", "sotto", "sopra", "dietro", "simile", "non":
		return true
	}
	return isFastenerWord(w)
}

// isOtherSize tells of a thickness of something that the part carries, or that
// stands elsewhere; a grade beside it may still be the part's.
func isOtherSize(w string) bool {
	switch w {
	case "throat", "coating", "coat", "paint", "primer", "grout", "zinc", "see", "ref", "leg", "beschichtung", "lack", "siehe", "vergussmörtel", "revêtement", "peinture", "voir", "revestimiento", "pintura", "ver", "rivestimento", "vernice", "vedi":
		return true
	}
	return false
}

// speaksOf tells whether a word of the list is one that is asked for. "Not to
// scale" and "do not scale" speak of the drawing.
func speaksOf(list []token, is func(string) bool) bool {
	for i, t := range list {
		if t.kind != tokenWord || !is(t.text) {
			continue
		}
		if t.text == "not" && (i+1 < len(list) && list[i+1].word("scale") || i+2 < len(list) && list[i+1].word("to") && list[i+2].word("scale")) {
			continue
		}
		return true
	}
	return false
}

// toPlate tells of "TO PL 12": what is fixed to another plate.
func toPlate(list []token) bool {
	for i := 1; i < len(list); i++ {
		if list[i].kind != tokenWord || !list[i-1].word("to", "onto", "an", "auf", "à", "sur", "sobre", "su") {
			continue
		}
		if plate, _ := isPlateWord(list[i].text); plate {
			return true
		}
	}
	return false
}
